//! Lengths of cloth and body, as hands write them, kept exactly; and the unit that a board shows them in.
//!
//! The store is whole hundredths of a millimetre, so that both `57 cm` and `22 1/2 in` are kept without loss:
//! an inch is 25.4 mm exactly (international yard and pound agreement, 1959), and an eighth of it 3.175 mm.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::by_text::by_text;

/// Which unit lengths are shown in; a setting of the board.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Unit {
    /// Centimetres.
    #[default]
    #[serde(rename = "cm")]
    Centimetres,
    /// Inches, with fractions.
    #[serde(rename = "in")]
    Inches,
}

/// A length, to the hundredth of a millimetre.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i64);

const PER_MM: i64 = 100;
const PER_CM: i64 = 1_000;
const PER_INCH: i64 = 2540;
/// What is shown of an inch: eighths, as tapes have them.
const PARTS_OF_INCH: i64 = 8;
/// A kilometre: more than any garment needs, and far from overflow.
const MOST: f64 = 1_000_000.0 * PER_MM as f64;

/// Why a text is no length.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "`{0}` is no length: expected a number and a unit such as `57 cm`, `570 mm`, `0.57 m` or `22 1/2 in`"
)]
pub struct LengthError(String);

impl Length {
    /// Of so many millimetres, to the nearest hundredth. `None` where that is no number or longer than a kilometre.
    pub fn of_millimetres(millimetres: f64) -> Option<Self> {
        let size = (millimetres * PER_MM as f64).round();
        (size.abs() <= MOST).then_some(Self(size as i64))
    }

    /// Of so many hundredths of a millimetre.
    pub const fn of_hundredths(hundredths: i64) -> Self {
        Self(hundredths)
    }

    /// The same for what was multiplied; `None` where it is longer than a kilometre.
    pub fn try_of_hundredths(hundredths: i128) -> Option<Self> {
        i64::try_from(hundredths).ok().filter(|size| size.unsigned_abs() as f64 <= MOST).map(Self)
    }

    /// In millimetres.
    pub fn millimetres(self) -> f64 {
        self.0 as f64 / PER_MM as f64
    }

    /// In hundredths of a millimetre, which is exact.
    pub const fn hundredths(self) -> i64 {
        self.0
    }

    /// Whether it is less than nothing.
    pub fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// In a unit, as a tape shows it: to the millimetre (`57.3 cm`), or to the eighth of an inch (`22 1/2 in`), whichever
    /// is nearest, halves away from zero. What is shown reads back within half of that.
    pub fn shown(self, unit: Unit) -> String {
        let sign = if self.0 < 0 { "-" } else { "" };
        let size = self.0.abs();
        let nearest = |step: i64, of: i64| (2 * size * step + of) / (2 * of);
        match unit {
            Unit::Centimetres => {
                let millimetres = nearest(1, PER_MM);
                match millimetres % 10 {
                    _ if millimetres == 0 => "0 cm".to_owned(),
                    0 => format!("{sign}{} cm", millimetres / 10),
                    part => format!("{sign}{}.{part} cm", millimetres / 10),
                }
            }
            Unit::Inches => {
                let parts = nearest(PARTS_OF_INCH, PER_INCH);
                let sign = if parts == 0 { "" } else { sign };
                format!("{sign}{} in", in_parts(parts, PARTS_OF_INCH))
            }
        }
    }
}

impl Length {
    /// As cloth is bought, whatever unit bodies are measured in: `2.25 m`, to the centimetre, halves away from zero.
    pub fn in_metres(self) -> String {
        let sign = if self.0 < 0 { "-" } else { "" };
        let centimetres = (self.0.abs() + PER_CM / 2) / PER_CM;
        format!("{sign}{}.{:02} m", centimetres / 100, centimetres % 100)
    }
}

impl std::ops::Add for Length {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl std::ops::Sub for Length {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl std::iter::Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::default(), std::ops::Add::add)
    }
}

/// A number as hands write it: `22`, `22.5`, `1/2`, `22 1/2`.
fn number(text: &str) -> Option<f64> {
    let mut sum = 0.0;
    let words: Vec<&str> = text.split_whitespace().collect();
    if words.is_empty() || words.len() > 2 {
        return None;
    }
    for (at, word) in words.iter().enumerate() {
        let value = match word.split_once('/') {
            Some((top, bottom)) => {
                let (top, bottom): (u32, u32) = (top.parse().ok()?, bottom.parse().ok()?);
                if bottom == 0 {
                    return None;
                }
                f64::from(top) / f64::from(bottom)
            }
            None if at == 0 && word.bytes().all(|b| b.is_ascii_digit() || b == b'.') => word.parse().ok()?,
            None => return None,
        };
        sum += value;
    }
    Some(sum)
}

impl FromStr for Length {
    type Err = LengthError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wrong = || LengthError(text.to_owned());
        let trimmed = text.trim();
        let (body, negative) = match trimmed.strip_prefix('-') {
            Some(rest) => (rest, true),
            None => (trimmed, false),
        };
        let split = body.find(|c: char| c.is_alphabetic() || c == '"' || c == '″').ok_or_else(wrong)?;
        let (digits, unit) = body.split_at(split);
        let unit = match unit.trim() {
            "mm" => PER_MM as f64,
            "cm" => 10.0 * PER_MM as f64,
            "m" => 1000.0 * PER_MM as f64,
            "in" | "inch" | "inches" | "\"" | "″" => PER_INCH as f64,
            "ft" => 12.0 * PER_INCH as f64,
            "yd" => 36.0 * PER_INCH as f64,
            _ => return Err(wrong()),
        };
        let size = number(digits).ok_or_else(wrong)? * unit;
        if !size.is_finite() || size > MOST {
            return Err(wrong());
        }
        let size = size.round() as i64;
        Ok(Self(if negative { -size } else { size }))
    }
}

impl fmt::Display for Length {
    /// As a hand would have written it, and exactly: in inches where it is whole sixteenths of them and no whole
    /// millimetres, else in centimetres or millimetres. So a file keeps `57 cm` and `36 3/8 in`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let size = self.0.abs();
        let sixteenths = (size * 16 + PER_INCH / 2) / PER_INCH;
        if size % PER_MM != 0 && (sixteenths * PER_INCH * 2 + 16) / 32 == size {
            return write!(f, "{sign}{} in", in_parts(sixteenths, 16));
        }
        if size >= PER_CM && size % 10 == 0 {
            return write!(f, "{sign}{} cm", decimal(size / 10));
        }
        write!(f, "{sign}{} mm", decimal(size))
    }
}

/// Hundredths as a decimal without noughts at its end.
fn decimal(hundredths: i64) -> String {
    let (whole, part) = (hundredths / 100, hundredths % 100);
    match (part, part % 10) {
        (0, _) => whole.to_string(),
        (part, 0) => format!("{whole}.{}", part / 10),
        (part, _) => format!("{whole}.{part:02}"),
    }
}

/// So many parts of a whole as a number and a fraction in its lowest terms: `22 1/2`; `of` is a power of two.
fn in_parts(parts: i64, of: i64) -> String {
    let (whole, part) = (parts / of, parts % of);
    let by = [8, 4, 2, 1].into_iter().find(|by| part % by == 0 && of % by == 0).unwrap_or(1);
    let fraction = format!("{}/{}", part / by, of / by);
    match (whole, part) {
        (whole, 0) => whole.to_string(),
        (0, _) => fraction,
        (whole, _) => format!("{whole} {fraction}"),
    }
}

by_text!(Length, Size);

/// A length of something that is there: above nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Size(Length);

/// Why a text is no size.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SizeError {
    /// It is no length at all.
    #[error(transparent)]
    NoLength(#[from] LengthError),
    /// It is nothing, or less.
    #[error("`{0}` is no size: expected a length above 0, such as `57 cm` or `22 1/2 in`")]
    Nothing(String),
}

impl Size {
    /// Of so much; `None` where that is nothing, or less.
    pub fn new(length: Length) -> Option<Self> {
        (length.0 > 0).then_some(Self(length))
    }

    /// How much.
    pub fn length(self) -> Length {
        self.0
    }
}

impl FromStr for Size {
    type Err = SizeError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::new(text.parse()?).ok_or_else(|| SizeError::Nothing(text.to_owned()))
    }
}

impl fmt::Display for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn hands_write_lengths_in_many_ways() {
        for (text, hundredths) in [
            ("57 cm", 57_000),
            ("570mm", 57_000),
            ("0.57 m", 57_000),
            ("22 1/2 in", 57_150),
            ("1/2 in", 1_270),
            ("22.5\"", 57_150),
            ("1 yd", 91_440),
        ] {
            assert_eq!(text.parse::<Length>().unwrap(), Length(hundredths), "{text}");
        }
    }

    #[test]
    fn a_bare_number_or_a_strange_unit_is_refused() {
        for text in ["57", "cm", "57 ells", "1/0 in", "1 2 3 cm", "1e9 m", "", "nan cm"] {
            assert!(text.parse::<Length>().is_err(), "{text}");
        }
    }

    #[test]
    fn what_is_there_is_longer_than_nothing() {
        assert_eq!("57 cm".parse::<Size>().unwrap().length(), Length(57_000));
        for text in ["0 cm", "-3 cm", "-0.001 mm"] {
            let error = text.parse::<Size>().unwrap_err().to_string();
            assert_eq!(
                error,
                format!("`{text}` is no size: expected a length above 0, such as `57 cm` or `22 1/2 in`")
            );
        }
        assert!("57".parse::<Size>().unwrap_err().to_string().contains("a number and a unit"));
    }

    #[test]
    fn it_is_shown_in_either_unit_as_a_tape_has_it() {
        for (text, cm, inches) in [
            ("57 cm", "57 cm", "22 1/2 in"),
            ("57.25 cm", "57.3 cm", "22 1/2 in"),
            ("22 1/2 in", "57.2 cm", "22 1/2 in"),
            ("3/4 in", "1.9 cm", "3/4 in"),
            ("1/8 in", "0.3 cm", "1/8 in"),
            ("36 in", "91.4 cm", "36 in"),
            ("0 cm", "0 cm", "0 in"),
            ("-0.4 mm", "0 cm", "0 in"),
            ("-5 cm", "-5 cm", "-2 in"),
        ] {
            let length: Length = text.parse().unwrap();
            assert_eq!(
                (length.shown(Unit::Centimetres).as_str(), length.shown(Unit::Inches).as_str()),
                (cm, inches)
            );
        }
    }

    #[test]
    fn a_file_keeps_what_a_hand_wrote() {
        for text in [
            "57 cm",
            "57.25 cm",
            "9.5 mm",
            "0.5 mm",
            "1 cm",
            "22 1/2 in",
            "36 3/8 in",
            "1/16 in",
            "-1/4 in",
            "0 mm",
        ] {
            assert_eq!(text.parse::<Length>().unwrap().to_string(), text);
        }
        assert_eq!("923.91 mm".parse::<Length>().unwrap().to_string(), "923.91 mm");
        assert_eq!("50 in".parse::<Length>().unwrap().to_string(), "127 cm");
    }

    proptest! {
        #[test]
        fn what_is_shown_reads_back_within_half_of_what_a_tape_shows(hundredths in -50_000_000_i64..50_000_000) {
            let length = Length(hundredths);
            for (unit, step) in [(Unit::Centimetres, PER_MM), (Unit::Inches, PER_INCH / PARTS_OF_INCH)] {
                let back: Length = length.shown(unit).parse().unwrap();
                prop_assert!(2 * (back - length).0.abs() <= step + 1, "{length} {unit:?}");
                prop_assert_eq!(back.shown(unit), length.shown(unit));
            }
        }

        #[test]
        fn what_is_printed_reads_back_the_same(hundredths in -50_000_000_i64..50_000_000) {
            let length = Length(hundredths);
            prop_assert_eq!(length.to_string().parse::<Length>().unwrap(), length);
        }
    }
}
