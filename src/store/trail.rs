//! Finds out where in a document reading failed.
//!
//! A value that is refused after it was read ("1926-13 is no date") reaches the parser without its place. So a
//! failed reading is done again through [`follow`], which hands everything on unchanged and remembers the way down
//! to the first value that failed. It works with any format.

use std::cell::RefCell;
use std::fmt;

use serde::de::{self, DeserializeSeed, Deserializer, Visitor};

use crate::board::rules::Step;

/// The way to the first thing that failed, and the message there.
#[derive(Debug, PartialEq)]
pub(super) struct Failure {
    pub path: Vec<Step>,
    pub message: String,
}

/// Reads a `T`, and says where it failed if it did.
pub(super) fn follow<'de, T: de::Deserialize<'de>, D: Deserializer<'de>>(from: D) -> Result<T, Failure> {
    let trail = Trail::default();
    T::deserialize(Followed { inner: from, trail: &trail }).map_err(|error| {
        trail.note(&error);
        trail.failure.into_inner().unwrap_or_else(|| Failure { path: Vec::new(), message: error.to_string() })
    })
}

#[derive(Default)]
struct Trail {
    path: RefCell<Vec<Step>>,
    failure: RefCell<Option<Failure>>,
    /// The text that was read last: at the moment when a key was read, the key.
    text: RefCell<String>,
}

impl Trail {
    /// The innermost note is the first, and stays.
    fn note(&self, error: &impl fmt::Display) {
        let mut failure = self.failure.borrow_mut();
        if failure.is_none() {
            *failure = Some(Failure { path: self.path.borrow().clone(), message: error.to_string() });
        }
    }

    fn within<T, E: fmt::Display>(&self, step: Step, read: impl FnOnce() -> Result<T, E>) -> Result<T, E> {
        self.path.borrow_mut().push(step);
        let result = read().inspect_err(|error| self.note(error));
        self.path.borrow_mut().pop();
        result
    }

    fn heard(&self, text: &str) {
        let mut kept = self.text.borrow_mut();
        kept.clear();
        kept.push_str(text);
    }
}

/// A deserializer, visitor, access or seed with the trail beside it.
struct Followed<'t, I> {
    inner: I,
    trail: &'t Trail,
}

macro_rules! hand_on {
    ($($method:ident($($argument:ident: $type:ty),*);)*) => {
        $(fn $method<V: Visitor<'de>>(self, $($argument: $type,)* visitor: V) -> Result<V::Value, D::Error> {
            self.inner.$method($($argument,)* Followed { inner: visitor, trail: self.trail })
        })*
    };
}

impl<'de, D: Deserializer<'de>> Deserializer<'de> for Followed<'_, D> {
    type Error = D::Error;

    hand_on! {
        deserialize_any(); deserialize_bool(); deserialize_i8(); deserialize_i16(); deserialize_i32();
        deserialize_i64(); deserialize_i128(); deserialize_u8(); deserialize_u16(); deserialize_u32();
        deserialize_u64(); deserialize_u128(); deserialize_f32(); deserialize_f64(); deserialize_char();
        deserialize_str(); deserialize_string(); deserialize_bytes(); deserialize_byte_buf();
        deserialize_option(); deserialize_unit(); deserialize_seq(); deserialize_map();
        deserialize_identifier(); deserialize_ignored_any();
        deserialize_unit_struct(name: &'static str);
        deserialize_newtype_struct(name: &'static str);
        deserialize_tuple(length: usize);
        deserialize_tuple_struct(name: &'static str, length: usize);
        deserialize_struct(name: &'static str, fields: &'static [&'static str]);
        deserialize_enum(name: &'static str, variants: &'static [&'static str]);
    }
}

macro_rules! visit_on {
    ($($method:ident($type:ty);)*) => {
        $(fn $method<E: de::Error>(self, value: $type) -> Result<V::Value, E> {
            self.inner.$method(value)
        })*
    };
}

impl<'de, V: Visitor<'de>> Visitor<'de> for Followed<'_, V> {
    type Value = V::Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.inner.expecting(f)
    }

    visit_on! {
        visit_bool(bool); visit_i64(i64); visit_i128(i128); visit_u64(u64); visit_u128(u128); visit_f64(f64);
        visit_bytes(&[u8]);
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<V::Value, E> {
        self.trail.heard(text);
        self.inner.visit_str(text)
    }

    fn visit_borrowed_str<E: de::Error>(self, text: &'de str) -> Result<V::Value, E> {
        self.trail.heard(text);
        self.inner.visit_borrowed_str(text)
    }

    fn visit_string<E: de::Error>(self, text: String) -> Result<V::Value, E> {
        self.trail.heard(&text);
        self.inner.visit_string(text)
    }

    fn visit_none<E: de::Error>(self) -> Result<V::Value, E> {
        self.inner.visit_none()
    }

    fn visit_unit<E: de::Error>(self) -> Result<V::Value, E> {
        self.inner.visit_unit()
    }

    fn visit_some<D: Deserializer<'de>>(self, from: D) -> Result<V::Value, D::Error> {
        self.inner.visit_some(Followed { inner: from, trail: self.trail })
    }

    fn visit_newtype_struct<D: Deserializer<'de>>(self, from: D) -> Result<V::Value, D::Error> {
        self.inner.visit_newtype_struct(Followed { inner: from, trail: self.trail })
    }

    fn visit_seq<A: de::SeqAccess<'de>>(self, items: A) -> Result<V::Value, A::Error> {
        self.inner.visit_seq(Items { inner: items, trail: self.trail, at: 0 })
    }

    fn visit_map<A: de::MapAccess<'de>>(self, entries: A) -> Result<V::Value, A::Error> {
        self.inner.visit_map(Entries { inner: entries, trail: self.trail, key: String::new() })
    }

    fn visit_enum<A: de::EnumAccess<'de>>(self, word: A) -> Result<V::Value, A::Error> {
        // Enums in a board are single words, so there is nothing below one to follow.
        self.inner.visit_enum(word)
    }
}

impl<'de, S: DeserializeSeed<'de>> DeserializeSeed<'de> for Followed<'_, S> {
    type Value = S::Value;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<S::Value, D::Error> {
        self.inner.deserialize(Followed { inner: from, trail: self.trail })
    }
}

struct Items<'t, A> {
    inner: A,
    trail: &'t Trail,
    at: usize,
}

impl<'de, A: de::SeqAccess<'de>> de::SeqAccess<'de> for Items<'_, A> {
    type Error = A::Error;

    fn next_element_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, A::Error> {
        let (trail, inner, at) = (self.trail, &mut self.inner, self.at);
        self.at += 1;
        trail.within(Step::At(at), || inner.next_element_seed(Followed { inner: seed, trail }))
    }
}

struct Entries<'t, A> {
    inner: A,
    trail: &'t Trail,
    key: String,
}

impl<'de, A: de::MapAccess<'de>> de::MapAccess<'de> for Entries<'_, A> {
    type Error = A::Error;

    fn next_key_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, A::Error> {
        let trail = self.trail;
        let read = self.inner.next_key_seed(Followed { inner: seed, trail });
        self.key = trail.text.borrow().clone();
        if let Err(error) = &read {
            let _noted: Result<(), _> = trail.within(Step::Name(self.key.clone()), || Err(error.to_string()));
        }
        read
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, A::Error> {
        let (trail, inner) = (self.trail, &mut self.inner);
        trail.within(Step::Key(self.key.clone()), || inner.next_value_seed(Followed { inner: seed, trail }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::Head;

    fn path_of(json: &str) -> Vec<Step> {
        follow::<Head, _>(&mut serde_json::Deserializer::from_str(json)).unwrap_err().path
    }

    fn key(name: &str) -> Step {
        Step::Key(name.to_owned())
    }

    #[test]
    fn the_way_leads_to_the_value_that_is_refused() {
        let path = path_of(
            r#"{"shirr": 1, "id": "a", "title": "x", "periods": [{"id": "b", "title": "", "span": "nope"}]}"#,
        );
        assert_eq!(path, [key("periods"), Step::At(0), key("span")]);
        assert_eq!(path_of(r#"{"shirr": 1, "id": "A"}"#), [key("id")]);
    }

    #[test]
    fn the_way_leads_to_a_key_that_is_refused() {
        assert_eq!(path_of(r#"{"shirr": 1, "idd": "a"}"#), [Step::Name("idd".to_owned())]);
        let path = path_of(r#"{"shirr": 1, "budget": {"characters": {"NO": 3}}}"#);
        assert_eq!(path, [key("budget"), key("characters"), Step::Name("NO".to_owned())]);
    }

    #[test]
    fn the_way_leads_to_the_record_that_lacks_a_key() {
        assert_eq!(path_of(r#"{"shirr": 1}"#), []);
        let path = path_of(r#"{"shirr": 1, "id": "a", "title": "x", "threads": [{"id": "b"}]}"#);
        assert_eq!(path, [key("threads"), Step::At(0)]);
    }
}
