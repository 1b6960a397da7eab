//! Hours of work, to the minute, as hands write them.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::by_text::text_or_number;

/// A length of work in whole minutes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Hours(u32);

const PER_HOUR: u32 = 60;
/// A hundred thousand hours: fifty people's year.
const MOST: u32 = 100_000 * PER_HOUR;
/// Minutes in the least part of an hour whose decimal has an end.
const PER_TWENTIETH: u32 = 3;

/// Why a text is no number of hours.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "`{0}` is no number of hours: expected hours to the whole minute such as `4`, `4.5`, `4.5 h`, `4:30`, `4 h 30` or \
     `30 min`, at most 100000"
)]
pub struct HoursError(String);

impl Hours {
    /// So many minutes, at most a hundred thousand hours of them.
    pub const fn of_minutes(minutes: u32) -> Self {
        Self(if minutes < MOST { minutes } else { MOST })
    }

    /// The number of minutes.
    pub const fn minutes(self) -> u32 {
        self.0
    }
}

impl std::ops::Add for Hours {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::of_minutes(self.0.saturating_add(other.0))
    }
}

impl std::iter::Sum for Hours {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), std::ops::Add::add)
    }
}

/// A whole number, of digits alone.
fn whole(text: &str) -> Option<u32> {
    text.bytes().all(|b| b.is_ascii_digit()).then(|| text.parse().ok()).flatten()
}

/// `4`, `4.5`: hours in decimals that come to whole minutes.
fn decimal(text: &str) -> Option<u32> {
    let Some((hours, part)) = text.split_once('.') else {
        return whole(text)?.checked_mul(PER_HOUR);
    };
    if part.len() > 4 {
        return None;
    }
    let parts = 10_u32.pow(part.len() as u32);
    let of_part = whole(part)? * PER_HOUR;
    of_part.is_multiple_of(parts).then(|| clock(hours, &(of_part / parts).to_string())).flatten()
}

/// `4` and `30`: hours, and the minutes beyond them.
fn clock(hours: &str, minutes: &str) -> Option<u32> {
    let minutes = whole(minutes).filter(|minutes| *minutes < PER_HOUR)?;
    whole(hours)?.checked_mul(PER_HOUR)?.checked_add(minutes)
}

fn minutes(text: &str) -> Option<u32> {
    if let Some((hours, minutes)) = text.split_once(':') {
        return (minutes.len() == 2).then(|| clock(hours, minutes)).flatten();
    }
    let (text, in_minutes) = match text.strip_suffix("min") {
        Some(rest) => (rest.trim_end(), true),
        None => (text, false),
    };
    match text.split_once('h') {
        Some((hours, "")) if !in_minutes => decimal(hours.trim_end()),
        Some((hours, minutes)) => clock(hours.trim_end(), minutes.trim_start()),
        None if in_minutes => whole(text),
        None => decimal(text),
    }
}

impl FromStr for Hours {
    type Err = HoursError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        minutes(text.trim())
            .filter(|minutes| *minutes <= MOST)
            .map(Self)
            .ok_or_else(|| HoursError(text.to_owned()))
    }
}

impl fmt::Display for Hours {
    /// `4 h`, `4.5 h`; and `4 h 20` where a decimal would have no end.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (hours, minutes) = (self.0 / PER_HOUR, self.0 % PER_HOUR);
        let text = match minutes {
            0 => format!("{hours} h"),
            tenths if tenths.is_multiple_of(2 * PER_TWENTIETH) => {
                format!("{hours}.{} h", tenths / (2 * PER_TWENTIETH))
            }
            twentieths if twentieths.is_multiple_of(PER_TWENTIETH) => {
                format!("{hours}.{:02} h", twentieths / PER_TWENTIETH * 5)
            }
            _ => format!("{hours} h {minutes:02}"),
        };
        f.pad(&text)
    }
}

impl Serialize for Hours {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Hours {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text_or_number(from, "hours such as `4.5` or `4 h 30`")
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn hands_write_hours_in_many_ways() {
        for (text, minutes, shown) in [
            ("4", 240, "4 h"),
            ("4.5", 270, "4.5 h"),
            ("4.50 h", 270, "4.5 h"),
            ("4:30", 270, "4.5 h"),
            ("4 h 30", 270, "4.5 h"),
            ("4h30", 270, "4.5 h"),
            ("4 h 30 min", 270, "4.5 h"),
            ("30 min", 30, "0.5 h"),
            ("0.25", 15, "0.25 h"),
            ("1:20", 80, "1 h 20"),
            ("2 h 05", 125, "2 h 05"),
            ("0", 0, "0 h"),
        ] {
            let hours: Hours = text.parse().unwrap();
            assert_eq!((hours.minutes(), hours.to_string().as_str()), (minutes, shown), "{text}");
        }
    }

    #[test]
    fn what_is_no_whole_minute_or_no_hours_is_refused_with_what_could_be_written() {
        for text in
            ["", "h", ":30", "4:3", "4:60", "4 h 60", "4.33", "-1", "+1", "1e2", "4 d", "999999", "4.", ".5"]
        {
            let error = text.parse::<Hours>().unwrap_err().to_string();
            assert!(error.contains(&format!("`{text}`")) && error.contains("`4:30`"), "{error}");
        }
    }

    #[test]
    fn a_file_may_hold_them_as_a_number_or_a_text() {
        let read: Vec<Hours> = serde_json::from_str(r#"[4, 4.5, "4:30"]"#).unwrap();
        assert_eq!(read, [240, 270, 270].map(Hours::of_minutes));
        assert_eq!(serde_json::to_string(&read[1]).unwrap(), r#""4.5 h""#);
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back_the_same(minutes in 0..=MOST) {
            let hours = Hours::of_minutes(minutes);
            prop_assert_eq!(hours.to_string().parse::<Hours>().unwrap(), hours);
        }

        #[test]
        fn no_sum_overflows(one in any::<u32>(), other in any::<u32>()) {
            let (one_long, other_long) = (Hours::of_minutes(one), Hours::of_minutes(other));
            let exact = u64::from(one_long.minutes()) + u64::from(other_long.minutes());
            prop_assert_eq!(u64::from((one_long + other_long).minutes()), exact.min(u64::from(MOST)));
        }
    }
}
