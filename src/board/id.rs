//! Names of records: short slugs, one type per kind of record, so that a look is never taken for an outfit.

use std::collections::HashMap;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::marker::PhantomData;
use std::str::FromStr;
use std::sync::Arc;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// The name of a record of kind `K`: lower-case letters, digits and single hyphens, at most [`LONGEST`] bytes.
/// It is also the stem of the record's file.
pub struct Id<K> {
    text: Arc<str>,
    kind: PhantomData<fn() -> K>,
}

/// The most bytes in an id.
pub const LONGEST: usize = 60;

/// Why a text is no id.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no id: expected lower-case letters, digits and single hyphens, at most {LONGEST}")]
pub struct IdError(String);

impl<K> Id<K> {
    /// The id as text.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// The id that a title would get: `Blue serge, 1924` gives `blue-serge-1924`. `None` where nothing is left.
    pub fn from_title(title: &str) -> Option<Self> {
        let mut slug = String::new();
        for c in title.chars() {
            let c = plain_letter(c);
            if c.is_ascii_alphanumeric() {
                slug.push(c.to_ascii_lowercase());
            } else if !slug.is_empty() && !slug.ends_with('-') && c != '\'' && c != '’' {
                slug.push('-');
            }
            if slug.len() >= LONGEST - 8 {
                break;
            }
        }
        slug.trim_matches('-').parse().ok()
    }

    /// The same name for a record of another kind.
    pub(super) fn cast<L>(&self) -> Id<L> {
        Id { text: Arc::clone(&self.text), kind: PhantomData }
    }

    /// The id that a title would get, or `fallback` where it would get none; numbered from 2 where that is taken.
    pub fn free(title: &str, fallback: Self, taken: impl Fn(&Self) -> bool) -> Self {
        FreeIds::default().next(title, fallback, taken)
    }

    /// This id with a number behind it, for when the plain one is taken.
    pub fn numbered(&self, number: usize) -> Self {
        let keep = self.text.len().min(LONGEST - 8);
        Self {
            text: format!("{}-{number}", self.text[..keep].trim_end_matches('-')).into(),
            kind: PhantomData,
        }
    }
}

/// Free ids for one title after another. It remembers which number comes next for each plain id, so that thousands of
/// titles that give one id do not each try all numbers before theirs.
pub struct FreeIds<K>(HashMap<Id<K>, usize>);

impl<K> Default for FreeIds<K> {
    fn default() -> Self {
        Self(HashMap::new())
    }
}

impl<K> FreeIds<K> {
    /// As [`Id::free`]. What was taken once must stay so.
    pub fn next(&mut self, title: &str, fallback: Id<K>, taken: impl Fn(&Id<K>) -> bool) -> Id<K> {
        let plain = Id::from_title(title).unwrap_or(fallback);
        let number = self.0.entry(plain.clone()).or_insert(1);
        loop {
            let id = if *number == 1 { plain.clone() } else { plain.numbered(*number) };
            if !taken(&id) {
                return id;
            }
            *number += 1;
        }
    }
}

/// The unaccented letter, for the accents that names in our languages carry.
pub(crate) fn plain_letter(c: char) -> char {
    match c {
        'à'..='å' | 'À'..='Å' => 'a',
        'ç' | 'Ç' => 'c',
        'è'..='ë' | 'È'..='Ë' => 'e',
        'ì'..='ï' | 'Ì'..='Ï' => 'i',
        'ñ' | 'Ñ' => 'n',
        'ò'..='ö' | 'ø' | 'Ò'..='Ö' | 'Ø' => 'o',
        'ù'..='ü' | 'Ù'..='Ü' => 'u',
        'ý' | 'ÿ' | 'Ý' => 'y',
        other => other,
    }
}

impl<K> FromStr for Id<K> {
    type Err = IdError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let fine = (1..=LONGEST).contains(&text.len())
            && text.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
            && !text.starts_with('-')
            && !text.ends_with('-')
            && !text.contains("--");
        if fine { Ok(Self { text: text.into(), kind: PhantomData }) } else { Err(IdError(text.to_owned())) }
    }
}

impl<K> Clone for Id<K> {
    fn clone(&self) -> Self {
        Self { text: Arc::clone(&self.text), kind: PhantomData }
    }
}

impl<K> PartialEq for Id<K> {
    fn eq(&self, other: &Self) -> bool {
        self.text == other.text
    }
}

impl<K> Eq for Id<K> {}

impl<K> PartialOrd for Id<K> {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl<K> Ord for Id<K> {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.text.cmp(&other.text)
    }
}

impl<K> Hash for Id<K> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.text.hash(state);
    }
}

impl<K> fmt::Debug for Id<K> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&*self.text, f)
    }
}

impl<K> fmt::Display for Id<K> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text)
    }
}

impl<K> Serialize for Id<K> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.text)
    }
}

impl<'de, K> Deserialize<'de> for Id<K> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use std::cell::{Cell, RefCell};
    use std::collections::HashSet;

    use super::*;

    type Any = Id<()>;

    #[test]
    fn titles_become_slugs() {
        let id = |title| Any::from_title(title).map(|id| id.to_string());
        assert_eq!(id("Blue serge, 1924").as_deref(), Some("blue-serge-1924"));
        assert_eq!(id("Odile’s crêpe — evening").as_deref(), Some("odiles-crepe-evening"));
        assert_eq!(id("***"), None);
        assert!(Any::from_title(&"long ".repeat(50)).unwrap().as_str().len() <= LONGEST);
    }

    #[test]
    fn a_numbered_id_is_an_id() {
        let long: Any = "a".repeat(LONGEST).parse().unwrap();
        assert!(long.numbered(12).as_str().parse::<Any>().is_ok());
    }

    #[test]
    fn paths_and_capitals_are_no_ids() {
        for text in ["", "../x", "A", "a--b", "-a", "a-", "a/b", "a b", "é"] {
            assert!(text.parse::<Any>().is_err(), "{text}");
        }
    }

    #[test]
    fn a_free_id_is_the_titles_own_or_the_next_number() {
        let free = |title: &str, taken: &[&str]| {
            let fallback: Any = "look".parse().unwrap();
            Any::free(title, fallback, |id| taken.contains(&id.as_str())).to_string()
        };
        assert_eq!(free("Gown", &[]), "gown");
        assert_eq!(free("Gown", &["gown"]), "gown-2");
        assert_eq!(free("Gown", &["gown", "gown-2", "gown-3"]), "gown-4");
        assert_eq!(free("?", &["look"]), "look-2");
    }

    #[test]
    fn titles_of_one_id_by_the_thousand_ask_for_each_number_once() {
        let (asked, taken) = (Cell::new(0), RefCell::new(HashSet::new()));
        taken.borrow_mut().insert("look-7".to_owned());
        let mut free = FreeIds::<()>::default();
        let titles = 5_000;
        for _ in 0..titles {
            let id = free.next("?", "look".parse().unwrap(), |id| {
                asked.set(asked.get() + 1);
                taken.borrow().contains(id.as_str())
            });
            assert!(taken.borrow_mut().insert(id.to_string()), "{id}");
        }
        assert!(taken.borrow().contains("look-5001") && !taken.borrow().contains("look-1"));
        // Of each it is asked whether it is free, and once more whether it still is.
        assert!(asked.get() <= 2 * titles + 1, "{}", asked.get());
    }
}
