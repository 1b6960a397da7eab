//! Values that stand in files as one text: whatever prints and parses reads and writes so.

use std::fmt;
use std::marker::PhantomData;
use std::str::FromStr;

use serde::{Deserializer, de};

/// Makes types serialize as they print and deserialize as they parse.
macro_rules! by_text {
    ($($type:ty),+) => {
        $(
            impl serde::Serialize for $type {
                fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                    to.collect_str(self)
                }
            }

            impl<'de> serde::Deserialize<'de> for $type {
                fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                    let text = <std::borrow::Cow<'de, str> as serde::Deserialize>::deserialize(from)?;
                    text.parse().map_err(serde::de::Error::custom)
                }
            }
        )+
    };
}

pub(crate) use by_text;

/// Reads what hands may write as a text or as a bare integer, such as a scene `12` beside a scene `12A`.
/// `expected` says what it is.
pub(crate) fn text_or_integer<'de, T, D>(from: D, expected: &'static str) -> Result<T, D::Error>
where
    T: FromStr<Err: fmt::Display>,
    D: Deserializer<'de>,
{
    from.deserialize_any(TextOrInteger { expected, of: PhantomData })
}

struct TextOrInteger<T> {
    expected: &'static str,
    of: PhantomData<T>,
}

impl<T: FromStr<Err: fmt::Display>> de::Visitor<'_> for TextOrInteger<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.expected)
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<T, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_i64<E: de::Error>(self, number: i64) -> Result<T, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
        text.parse().map_err(E::custom)
    }
}

/// Reads what hands may write as a text or as a bare number, such as a price `18.40`. A number that is no integer is
/// read as its shortest decimal text, so that what was written is what is read.
pub(crate) fn text_or_number<'de, T, D>(from: D, expected: &'static str) -> Result<T, D::Error>
where
    T: FromStr<Err: fmt::Display>,
    D: Deserializer<'de>,
{
    from.deserialize_any(TextOrNumber(TextOrInteger { expected, of: PhantomData }))
}

struct TextOrNumber<T>(TextOrInteger<T>);

impl<T: FromStr<Err: fmt::Display>> de::Visitor<'_> for TextOrNumber<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.expecting(f)
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<T, E> {
        self.0.visit_u64(number)
    }

    fn visit_i64<E: de::Error>(self, number: i64) -> Result<T, E> {
        self.0.visit_i64(number)
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<T, E> {
        self.0.visit_str(&number.to_string())
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
        self.0.visit_str(text)
    }
}
