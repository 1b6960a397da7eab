//! Names in a script against the characters of the board.
//!
//! A name is a character's whole name or id, else a first name, else any word that only one character bears, so that
//! `OLD ODILE` is Odile. Case, accents and apostrophes make no difference. A character of that very name goes first, so a
//! reading that is wrong is put right by giving whoever it is a place in `board.yaml`.

use std::collections::HashMap;

use crate::board::id::plain_letter;
use crate::board::{Character, CharacterId};

/// Words that tell nobody apart.
const COMMON: [&str; 16] = [
    "the", "and", "old", "young", "big", "little", "first", "second", "man", "woman", "boy", "girl", "mrs",
    "miss", "von", "van",
];

/// The fewest letters of a word that tells somebody apart.
const LETTERS: usize = 3;

/// Whom a name means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Who {
    /// This character, by name, id or first name.
    Known(usize),
    /// This character, by a word of the name.
    Read(usize),
    /// Nobody on the board.
    Stranger,
}

/// The characters of a board by their names.
pub(super) struct Cast {
    ids: Vec<CharacterId>,
    whole: HashMap<String, usize>,
    /// Where a word leads; `None` where it leads to several.
    first: HashMap<String, Option<usize>>,
    any: HashMap<String, Option<usize>>,
}

impl Cast {
    pub fn of(characters: &[Character]) -> Self {
        let mut cast = Self {
            ids: characters.iter().map(|character| character.id.clone()).collect(),
            whole: HashMap::new(),
            first: HashMap::new(),
            any: HashMap::new(),
        };
        for (at, character) in characters.iter().enumerate() {
            let words = words(&character.name);
            cast.whole.entry(words.join(" ")).or_insert(at);
            let mut of_id = self::words(character.id.as_str());
            cast.whole.entry(of_id.join(" ")).or_insert(at);
            if let Some(first) = words.first() {
                lead(&mut cast.first, first, at);
            }
            of_id.extend(words);
            for word in of_id.iter().filter(|word| tells_apart(word)) {
                lead(&mut cast.any, word, at);
            }
        }
        cast
    }

    pub fn id(&self, at: usize) -> &CharacterId {
        &self.ids[at]
    }

    /// Who speaks under a name: whom it means, or, where it joins the names of several of whom any is known
    /// (`ADA, BEN AND CHORUS`), each of them with the name that is theirs. A stranger among them takes nobody away.
    pub fn speakers(&self, name: &str) -> Vec<(String, Who)> {
        let whole = self.who(name);
        if let Who::Read(_) | Who::Stranger = whole {
            let several: Vec<(String, Who)> = joined(name)
                .into_iter()
                .map(|part| {
                    let who = self.who(&part);
                    (part, who)
                })
                .collect();
            if several.len() > 1 && several.iter().any(|(_, who)| *who != Who::Stranger) {
                return several;
            }
        }
        vec![(name.to_owned(), whole)]
    }

    /// Whom the name above a speech means.
    pub fn who(&self, name: &str) -> Who {
        let words = words(name);
        if let Some(at) = self.whole.get(&words.join(" ")) {
            return Who::Known(*at);
        }
        if let ([word], Some(Some(at))) =
            (words.as_slice(), words.first().and_then(|word| self.first.get(word)))
        {
            debug_assert!(!word.is_empty());
            return Who::Known(*at);
        }
        let mut meant: Vec<usize> = words.iter().filter_map(|word| *self.any.get(word)?).collect();
        meant.sort_unstable();
        meant.dedup();
        match meant.as_slice() {
            [one] => Who::Read(*one),
            _ => Who::Stranger,
        }
    }

    /// Who is named in a line of action, each with whether the name stands in capitals, as that of somebody who comes
    /// into the picture does. A name in the possessive (`ODILE'S COAT`) never counts as one in capitals.
    pub fn named(&self, action: &str) -> Vec<(usize, bool)> {
        let mut named = Vec::new();
        for token in action.split(|c: char| !(c.is_alphanumeric() || matches!(c, '\'' | '’'))) {
            let name = token.trim_matches(['\'', '’']);
            let owner = ["'s", "’s", "'S", "’S"].iter().find_map(|end| name.strip_suffix(end));
            let Some(word) = words(owner.unwrap_or(name)).pop() else { continue };
            let lead = self.first.get(&word).copied().flatten().or(self.any.get(&word).copied().flatten());
            let Some(at) = lead.filter(|_| tells_apart(&word)) else { continue };
            let capitals = owner.is_none() && !name.chars().any(char::is_lowercase);
            // In small letters a name that is a word as well is that word.
            if name.starts_with(char::is_uppercase) {
                named.push((at, capitals));
            }
        }
        named
    }
}

/// The names that are joined by `and`, `&`, a slash or a comma.
fn joined(name: &str) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for piece in name.split(['&', '/', ',']) {
        let words: Vec<&str> = piece.split_whitespace().collect();
        names.extend(words.split(|word| word.eq_ignore_ascii_case("and")).map(|words| words.join(" ")));
    }
    names.retain(|name| !name.is_empty());
    names
}

fn lead(to: &mut HashMap<String, Option<usize>>, word: &str, at: usize) {
    to.entry(word.to_owned()).and_modify(|have| *have = have.filter(|have| *have == at)).or_insert(Some(at));
}

fn tells_apart(word: &str) -> bool {
    word.chars().count() >= LETTERS && !COMMON.contains(&word)
}

/// The words of a text in small plain letters.
pub(super) fn words(text: &str) -> Vec<String> {
    let plain: String = text
        .chars()
        .filter(|c| !matches!(c, '\'' | '’'))
        .map(plain_letter)
        .flat_map(char::to_lowercase)
        .map(|c| if c.is_alphanumeric() { c } else { ' ' })
        .collect();
    plain.split_whitespace().map(str::to_owned).collect()
}

/// A name or a set that a script has in capitals, with a capital letter at the beginning of each word.
pub(super) fn capitalised(text: &str) -> String {
    text.split_whitespace().map(capital).collect::<Vec<_>>().join(" ")
}

fn capital(word: &str) -> String {
    let word = word.to_lowercase();
    let first = word.find(char::is_alphabetic).unwrap_or(word.len());
    let (before, rest) = word.split_at(first);
    let mut letters = rest.chars();
    before.chars().chain(letters.next().into_iter().flat_map(char::to_uppercase)).chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cast() -> Cast {
        let character = |(id, name): (&str, &str)| Character::named(id.parse().unwrap(), name);
        Cast::of(
            &[("odile", "Odile Maren"), ("bridie", "Bridie Maren"), ("boat", "The Zoë's Mate")]
                .map(character),
        )
    }

    #[test]
    fn a_name_is_whole_an_id_a_first_name_or_a_word_that_one_bears() {
        for (name, who) in [
            ("ODILE MAREN", Who::Known(0)),
            ("Bridie", Who::Known(1)),
            ("BOAT", Who::Known(2)),
            ("OLD ODILE", Who::Read(0)),
            ("ODILE'S MATE", Who::Read(2)),
            ("ZOES", Who::Read(2)),
            ("MAREN", Who::Stranger),
            ("ODILE AND BRIDIE", Who::Stranger),
            ("THE JUDGE", Who::Stranger),
            ("", Who::Stranger),
        ] {
            assert_eq!(cast().who(name), who, "{name}");
        }
    }

    #[test]
    fn capitals_become_names() {
        assert_eq!(capitalised("IVO'S  ROOM, (ÉTAGE 2)"), "Ivo's Room, (Étage 2)");
    }

    #[test]
    fn action_names_whoever_comes_in_capitals_and_only_mentions_the_others() {
        let cast = cast();
        assert_eq!(cast.named("ODILE (53), and Bridie, behind her."), [(0, true), (1, false)]);
        assert_eq!(
            cast.named("Odile's coat. ODILE'S COAT. The mate waits; odile."),
            [(0, false), (0, false)]
        );
        assert_eq!(cast.named("THE MATE, Maren."), [(2, true)]);
    }
}
