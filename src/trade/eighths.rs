//! Script length in eighths of a page.
//!
//! A script page is divided into eight equal parts, and a page is counted as about a minute of screen
//! (common practice, no source). Eighths are never reduced: half a page is `4/8`.

use std::fmt;
use std::iter::Sum;
use std::ops::Add;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::by_text::text_or_integer;

/// A length of script in eighths of a page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Eighths(u32);

/// Eighths in one page, and so, by common practice, in one minute.
pub const PER_PAGE: u32 = 8;

/// The most that one entry may hold: ten thousand pages.
const MOST: u32 = 10_000 * PER_PAGE;

/// Why a text is no page count.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no page count: expected pages and eighths such as `1 3/8`, `3/8` or `2`")]
pub struct EighthsError(String);

impl Eighths {
    /// So many eighths of a page.
    pub const fn new(eighths: u32) -> Self {
        Self(eighths)
    }

    /// The number of eighths.
    pub const fn get(self) -> u32 {
        self.0
    }

    /// Screen time in minutes, at a page a minute (common practice, no source).
    pub fn minutes(self) -> f64 {
        f64::from(self.0) / f64::from(PER_PAGE)
    }

    /// Screen time as minutes and seconds, such as `4:30`.
    pub fn clock(self) -> String {
        let seconds = u64::from(self.0) * 60 / u64::from(PER_PAGE);
        format!("{}:{:02}", seconds / 60, seconds % 60)
    }
}

impl FromStr for Eighths {
    type Err = EighthsError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wrong = || EighthsError(text.to_owned());
        let mut pages = 0_u32;
        let mut eighths = 0_u32;
        let words: Vec<&str> = text.split_whitespace().collect();
        let part = |word: &str| -> Option<u32> {
            let (top, bottom) = word.split_once('/')?;
            let top: u32 = top.parse().ok()?;
            (bottom == "8" && top < PER_PAGE).then_some(top)
        };
        match words.as_slice() {
            [one] if one.contains('/') => eighths = part(one).ok_or_else(wrong)?,
            [one] => pages = one.parse().map_err(|_| wrong())?,
            [whole, rest] => {
                pages = whole.parse().map_err(|_| wrong())?;
                eighths = part(rest).ok_or_else(wrong)?;
            }
            _ => return Err(wrong()),
        }
        pages
            .checked_mul(PER_PAGE)
            .and_then(|whole| whole.checked_add(eighths))
            .filter(|all| *all <= MOST)
            .map(Self)
            .ok_or_else(wrong)
    }
}

impl fmt::Display for Eighths {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (pages, eighths) = (self.0 / PER_PAGE, self.0 % PER_PAGE);
        let text = match (pages, eighths) {
            (_, 0) => pages.to_string(),
            (0, _) => format!("{eighths}/8"),
            _ => format!("{pages} {eighths}/8"),
        };
        f.pad(&text)
    }
}

impl Eighths {
    /// As a length of script in a sentence: `1 page`, `1 3/8 pages`.
    pub fn in_pages(self) -> String {
        if self.0 == PER_PAGE { "1 page".to_owned() } else { format!("{self} pages") }
    }
}

impl Add for Eighths {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sum for Eighths {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self(0), Add::add)
    }
}

impl Serialize for Eighths {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        if self.0.is_multiple_of(PER_PAGE) {
            to.serialize_u32(self.0 / PER_PAGE)
        } else {
            to.collect_str(self)
        }
    }
}

impl<'de> Deserialize<'de> for Eighths {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text_or_integer(from, "pages and eighths such as `1 3/8`")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_page_is_no_pages() {
        let said = |eighths| Eighths::new(eighths).in_pages();
        assert_eq!([said(8), said(11), said(3), said(16)], ["1 page", "1 3/8 pages", "3/8 pages", "2 pages"]);
    }

    #[test]
    fn pages_and_eighths_read_and_print_unreduced() {
        for (text, eighths) in [("1 3/8", 11), ("3/8", 3), ("2", 16), ("0", 0), ("4/8", 4)] {
            let read: Eighths = text.parse().unwrap();
            assert_eq!(read.get(), eighths, "{text}");
            assert_eq!(read.to_string(), text);
        }
    }

    #[test]
    fn anything_else_is_refused() {
        for text in ["", "8/8", "1/4", "1 2 3/8", "-1", "1.5", "99999999999", "4294967295 7/8"] {
            assert!(text.parse::<Eighths>().is_err(), "{text}");
        }
    }

    #[test]
    fn a_page_is_a_minute() {
        assert_eq!(Eighths::new(12).clock(), "1:30");
        assert!((Eighths::new(12).minutes() - 1.5).abs() < 1e-12);
    }
}
