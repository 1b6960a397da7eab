//! Parts of a whole as hands write them, kept exactly: `4.5 %`, `0.6`, `1/3`.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::by_text::text_or_number;

/// A part of a whole, from nothing to all of it, in millionths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fraction(u32);

const WHOLE: u32 = 1_000_000;

/// Why a text is no part of a whole.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no part of a whole: expected something from 0 to 100 %, such as `4.5 %` or `0.6`")]
pub struct FractionError(String);

impl Fraction {
    /// The nearest to a number of which 1 is the whole; `None` where that is less than nothing or more than the whole.
    pub fn of(part: f64) -> Option<Self> {
        (0.0..=1.0).contains(&part).then(|| Self((part * f64::from(WHOLE)).round() as u32))
    }

    /// As a number of which 1 is the whole.
    pub fn get(self) -> f64 {
        f64::from(self.0) / f64::from(WHOLE)
    }

    /// So many parts make the whole; see [`Fraction::parts`].
    pub const PARTS: u32 = WHOLE;

    /// In whole [`PARTS`](Fraction::PARTS), for arithmetic that must be exact.
    pub fn parts(self) -> u32 {
        self.0
    }
}

impl FromStr for Fraction {
    type Err = FractionError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wrong = || FractionError(text.to_owned());
        let (number, of) = match text.trim().strip_suffix('%') {
            Some(number) => (number.trim_end(), 100.0),
            None => (text.trim(), 1.0),
        };
        let plain = |number: &str| -> Option<f64> {
            let fine = number.bytes().all(|b| b.is_ascii_digit() || b == b'.');
            if fine { number.parse().ok() } else { None }
        };
        let part = match number.split_once('/') {
            Some((top, bottom)) => {
                plain(top.trim()).zip(plain(bottom.trim())).map(|(top, bottom)| top / bottom)
            }
            None => plain(number),
        };
        part.and_then(|part| Self::of(part / of)).ok_or_else(wrong)
    }
}

impl fmt::Display for Fraction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", f64::from(self.0) / f64::from(WHOLE / 100))
    }
}

impl Serialize for Fraction {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Fraction {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text_or_number(from, "a part of a whole, such as `4.5 %` or `0.6`")
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde_json::json;

    use super::*;

    #[test]
    fn hands_write_it_in_many_ways() {
        for (text, shown) in [
            ("4.5 %", "4.5 %"),
            ("4.5%", "4.5 %"),
            ("0.6", "60 %"),
            ("1/3", "33.3333 %"),
            ("0", "0 %"),
            ("1", "100 %"),
        ] {
            assert_eq!(text.parse::<Fraction>().unwrap().to_string(), shown, "{text}");
        }
        for text in ["", "%", "-1 %", "101 %", "1.5", "1/0", "0/0", "half", "nan", "1e-3"] {
            assert!(text.parse::<Fraction>().is_err(), "{text}");
        }
    }

    #[test]
    fn a_bare_number_in_a_file_is_one_as_well() {
        let read = |tree| serde_json::from_value::<Fraction>(tree).ok().map(Fraction::get);
        assert_eq!(
            (read(json!(0.6)), read(json!(1)), read(json!("5 %"))),
            (Some(0.6), Some(1.0), Some(0.05))
        );
        assert_eq!((read(json!(-0.1)), read(json!(7))), (None, None));
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back_the_same(millionths in 0..=WHOLE) {
            let part = Fraction(millionths);
            prop_assert_eq!(part.to_string().parse::<Fraction>().unwrap(), part);
        }
    }
}
