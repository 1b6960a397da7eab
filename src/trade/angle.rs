//! Angles in degrees: at which an edge lies, or over how much of a limb a pad reaches.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::by_text::text_or_number;

/// An angle above 0° and up to the full turn, in hundredths of a degree.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Angle(u16);

const PER_DEGREE: f64 = 100.0;

/// Why a text is no angle.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no angle: expected degrees above 0 and at most 360, such as `70` or `70°`")]
pub struct AngleError(String);

impl Angle {
    /// Of so many degrees; `None` where that is not above 0, or more than a full turn.
    pub fn of_degrees(degrees: f64) -> Option<Self> {
        let size = (degrees * PER_DEGREE).round();
        (1.0..=360.0 * PER_DEGREE).contains(&size).then_some(Self(size as u16))
    }

    /// In degrees.
    pub fn degrees(self) -> f64 {
        f64::from(self.0) / PER_DEGREE
    }

    /// In radians.
    pub fn radians(self) -> f64 {
        self.degrees().to_radians()
    }
}

impl FromStr for Angle {
    type Err = AngleError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let text = text.trim();
        let number = text.strip_suffix('°').or_else(|| text.strip_suffix("deg")).unwrap_or(text).trim_end();
        let fine = number.bytes().all(|b| b.is_ascii_digit() || b == b'.');
        let degrees = if fine { number.parse().ok() } else { None };
        degrees.and_then(Self::of_degrees).ok_or_else(|| AngleError(text.to_owned()))
    }
}

impl fmt::Display for Angle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°", self.degrees())
    }
}

impl Serialize for Angle {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Angle {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text_or_number(from, "degrees, such as `70`")
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn degrees_are_written_with_a_sign_or_without() {
        for text in ["70", "70°", "70 °", "70 deg", "70.0"] {
            assert_eq!(text.parse::<Angle>().unwrap().degrees(), 70.0, "{text}");
        }
        for text in ["", "0", "-5", "361", "°", "seventy", "7e1"] {
            assert!(text.parse::<Angle>().is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back_the_same(hundredths in 1_u16..=36_000) {
            let angle = Angle(hundredths);
            prop_assert_eq!(angle.to_string().parse::<Angle>().unwrap(), angle);
        }
    }
}
