//! Which scenes a script is about, where it is only a part of the film's.

use std::fmt;
use std::str::FromStr;

use crate::board::SceneNumber;

/// The scenes whose numbers lie between two, both included, in the order of numbers: `1-26` ends before 26A.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// The first.
    pub first: SceneNumber,
    /// The last.
    pub last: SceneNumber,
}

/// Why a text is no part.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no part of a script: expected the first and the last scene number, such as `1-26A`")]
pub struct PartError(String);

impl Part {
    /// Whether a number lies in it.
    pub fn holds(&self, number: &SceneNumber) -> bool {
        (&self.first..=&self.last).contains(&number)
    }
}

impl FromStr for Part {
    type Err = PartError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wrong = || PartError(text.to_owned());
        let (first, last) = text.split_once(['-', '–']).unwrap_or((text, text));
        let first: SceneNumber = first.parse().map_err(|_| wrong())?;
        let last: SceneNumber = last.parse().map_err(|_| wrong())?;
        if first > last { Err(wrong()) } else { Ok(Self { first, last }) }
    }
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.first, self.last)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_is_two_numbers_in_their_order() {
        let part: Part = "2-12a".parse().unwrap();
        assert_eq!(part.to_string(), "2-12A");
        let holds = |number: &str| part.holds(&number.parse().unwrap());
        assert!(holds("2") && holds("2B") && holds("12") && holds("12A"));
        assert!(!holds("1A") && !holds("12B") && !holds("13"));
        assert_eq!("7".parse::<Part>().unwrap().to_string(), "7-7");
        for text in ["", "-", "12-2", "a-b", "1-2-3"] {
            assert!(text.parse::<Part>().is_err(), "{text}");
        }
    }
}
