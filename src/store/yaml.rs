//! The one file that knows serde_yaml.
//!
//! Upstream is archived; whoever replaces it rewrites this file and nothing else. What it gives: records from text
//! and back, faults with their place, and the place of any value.

use serde::Serialize;
use serde::de::{
    DeserializeOwned, DeserializeSeed, Deserializer, Error as _, IgnoredAny, MapAccess, SeqAccess, Visitor,
};

use super::explain::{self, Trouble};
use super::fault::Position;
use super::guard;
use super::trail::{self, Failure};
use crate::board::rules::Step;

/// Reads a record.
pub(super) fn read<T: DeserializeOwned>(text: &str) -> Result<T, Trouble> {
    guard::check(text).map_err(|found| Trouble {
        at: Some(found.at),
        what: found.what,
        hint: Some(found.hint.to_owned()),
    })?;
    serde_yaml::from_str(text).map_err(|error| trouble::<T>(text, &error))
}

/// Reads a list of records; a text without content is an empty one.
pub(super) fn read_list<T: DeserializeOwned>(text: &str) -> Result<Vec<T>, Trouble> {
    if is_blank(text) { guard::check(text).map_err(Trouble::from).map(|()| Vec::new()) } else { read(text) }
}

/// Reads a record that says nothing where its text has no content.
pub(super) fn read_or_nothing<T: DeserializeOwned + Default>(text: &str) -> Result<T, Trouble> {
    if is_blank(text) { guard::check(text).map_err(Trouble::from).map(|()| T::default()) } else { read(text) }
}

/// Writes a record.
pub(super) fn write<T: Serialize>(value: &T) -> Result<String, String> {
    serde_yaml::to_string(value).map_err(|error| error.to_string())
}

/// Why `text` is no `T`. Slow, since it reads several times over; only for texts that failed.
fn trouble<T: DeserializeOwned>(text: &str, error: &serde_yaml::Error) -> Trouble {
    if is_blank(text) {
        return Trouble { at: None, what: "the file is empty".to_owned(), hint: None };
    }
    // A broken bracket makes everything after it look wrong, so the grammar is asked first.
    if let Err(broken) = serde_yaml::from_str::<IgnoredAny>(text) {
        return explain::grammar(&broken.to_string(), place(&broken));
    }
    let Err(Failure { path, message }) = trail::follow::<T, _>(serde_yaml::Deserializer::from_str(text))
    else {
        return explain::grammar(&error.to_string(), place(error));
    };
    let message = bare(&message, &path);
    if let Some(key) = explain::duplicate(message) {
        let first = locate_name(text, &path, key, 0);
        return explain::twice(key, first, locate_name(text, &path, key, 1).or(first));
    }
    let at = locate(text, &path).or_else(|| place(error));
    explain::value(message, at)
}

/// Whether there is nothing but comments and white space.
fn is_blank(text: &str) -> bool {
    text.lines().map(str::trim).all(|line| line.is_empty() || line.starts_with('#') || line == "---")
}

/// The message without the path before it and the place behind it.
fn bare<'a>(message: &'a str, path: &[Step]) -> &'a str {
    // The parser writes a list at the root as `.[0]`.
    let mut shown = if matches!(path.first(), Some(Step::At(_))) { ".".to_owned() } else { String::new() };
    for step in path {
        match step {
            Step::At(at) => shown.push_str(&format!("[{at}]")),
            Step::Key(name) => {
                if !shown.is_empty() {
                    shown.push('.');
                }
                shown.push_str(name);
            }
            Step::Name(_) => {}
        }
    }
    shown.push_str(": ");
    let message = message.strip_prefix(shown.as_str()).unwrap_or(message);
    match message.rsplit_once(" at line ") {
        Some((bare, place)) if place.chars().all(|c| c.is_ascii_digit() || " column".contains(c)) => bare,
        _ => message,
    }
}

fn place(error: &serde_yaml::Error) -> Option<Position> {
    error.location().map(|location| Position::new(location.line(), location.column()))
}

/// Where the value at the end of `path` stands; for a [`Step::Name`], where that name stands.
pub(super) fn locate(text: &str, path: &[Step]) -> Option<Position> {
    seek(text, Walk { path, nth: 0 })
}

/// Where a key of the outermost mapping has its value.
pub(super) fn locate_key(text: &str, key: &str) -> Option<Position> {
    locate(text, &[Step::Key(key.to_owned())])
}

/// Where the key `name` stands for the `nth` time (from 0) in the mapping at the end of `path`.
fn locate_name(text: &str, path: &[Step], name: &str, nth: usize) -> Option<Position> {
    let path: Vec<Step> = path.iter().cloned().chain([Step::Name(name.to_owned())]).collect();
    seek(text, Walk { path: &path, nth })
}

fn seek(text: &str, walk: Walk<'_>) -> Option<Position> {
    guard::check(text).ok()?;
    match walk.deserialize(serde_yaml::Deserializer::from_str(text)) {
        Err(error) if error.to_string().contains(HERE) => place(&error),
        _ => None,
    }
}

/// The message that is raised on arrival, so that the parser puts the place to it.
const HERE: &str = "\u{1}here\u{1}";

/// Walks down a path and raises [`HERE`] at its end.
struct Walk<'p> {
    path: &'p [Step],
    nth: usize,
}

impl<'de> DeserializeSeed<'de> for Walk<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        match self.path.first() {
            Some(Step::At(_)) => from.deserialize_seq(self),
            Some(_) => from.deserialize_map(self),
            None => from.deserialize_any(self),
        }
    }
}

impl<'de> Visitor<'de> for Walk<'_> {
    type Value = ();

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        // What is not of the expected shape is the end of the way, too.
        f.write_str(HERE)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<(), A::Error> {
        let Some((Step::At(at), rest)) = self.path.split_first() else { return Err(A::Error::custom(HERE)) };
        for _ in 0..*at {
            items.next_element::<IgnoredAny>()?;
        }
        items.next_element_seed(Walk { path: rest, nth: self.nth })?;
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<(), A::Error> {
        let Some((step, rest)) = self.path.split_first() else { return Err(A::Error::custom(HERE)) };
        let mut nth = self.nth;
        loop {
            match step {
                Step::Name(name) => {
                    let Some(found) = entries.next_key_seed(KeyIs { name, raise: nth == 0 })? else {
                        return Ok(());
                    };
                    nth = nth.saturating_sub(usize::from(found));
                    entries.next_value::<IgnoredAny>()?;
                }
                Step::Key(name) => {
                    let Some(found) = entries.next_key_seed(KeyIs { name, raise: false })? else {
                        return Ok(());
                    };
                    if found {
                        return entries.next_value_seed(Walk { path: rest, nth: self.nth });
                    }
                    entries.next_value::<IgnoredAny>()?;
                }
                Step::At(_) => return Err(A::Error::custom(HERE)),
            }
        }
    }
}

/// Reads a key and tells whether it is the one; or raises [`HERE`] if it is.
struct KeyIs<'n> {
    name: &'n str,
    raise: bool,
}

impl<'de> DeserializeSeed<'de> for KeyIs<'_> {
    type Value = bool;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<bool, D::Error> {
        from.deserialize_str(self)
    }
}

impl Visitor<'_> for KeyIs<'_> {
    type Value = bool;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a key")
    }

    fn visit_str<E: serde::de::Error>(self, key: &str) -> Result<bool, E> {
        if key == self.name && self.raise { Err(E::custom(HERE)) } else { Ok(key == self.name) }
    }
}

/// The `shirr:` of a `board.yaml`, whatever else is in it; `None` where there is none.
pub(super) fn version(text: &str) -> Option<String> {
    #[derive(serde::Deserialize)]
    struct Versioned {
        shirr: String,
    }
    guard::check(text).ok()?;
    serde_yaml::from_str(text).ok().map(|versioned: Versioned| versioned.shirr)
}

/// The text as a tree, for tests that compare depths; `None` where it is no YAML or has no such tree.
#[cfg(test)]
pub(super) fn tree(text: &str) -> Option<serde_json::Value> {
    fn plain(value: serde_yaml::Value) -> serde_json::Value {
        match value {
            serde_yaml::Value::Sequence(items) => items.into_iter().map(plain).collect(),
            serde_yaml::Value::Mapping(entries) => {
                // A key may be a list: then it is as deep as the value would be.
                let both = entries.into_iter().enumerate();
                both.flat_map(|(at, (key, value))| {
                    [(format!("k{at}"), plain(key)), (format!("v{at}"), plain(value))]
                })
                .collect()
            }
            serde_yaml::Value::Tagged(tagged) => plain(tagged.value),
            _ => serde_json::Value::Null,
        }
    }
    serde_yaml::from_str(text).ok().map(plain)
}
