//! "Early", "mid" and "late". Level 1 of EDTF has no way to say them, and how
//! much of a year is early is for the reader of the source to judge; so they
//! are not read, and the third of the time that they stand for is suggested.

use super::day::days_in_month;
use super::point::Shape;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Third {
    Early,
    Mid,
    Late,
}

impl Third {
    pub fn from_word(word: &str) -> Option<Third> {
        match word {
            "early" => Some(Third::Early),
            "mid" | "middle" => Some(Third::Mid),
            "late" => Some(Third::Late),
            _ => None,
        }
    }

    pub fn name(self) -> &'static str {
        match self {
            Third::Early => "early",
            Third::Mid => "mid",
            Third::Late => "late",
        }
    }

    /// The first and last part of this third; `None` for what cannot be
    /// divided.
    pub fn of(self, shape: Shape) -> Option<(Shape, Shape)> {
        let pick = |early: (i64, i64), mid: (i64, i64), late: (i64, i64)| match self {
            Third::Early => early,
            Third::Mid => mid,
            Third::Late => late,
        };
        match shape {
            Shape::Century { .. } => {
                let (first, last) = pick((0, 33), (34, 66), (67, 99));
                let start = shape.years().0;
                Some((Shape::Year(start + first), Shape::Year(start + last)))
            }
            Shape::Decade { .. } => {
                let (first, last) = pick((0, 3), (4, 6), (7, 9));
                let start = shape.years().0;
                Some((Shape::Year(start + first), Shape::Year(start + last)))
            }
            Shape::Year(year) => {
                let (first, last) = pick((1, 4), (5, 8), (9, 12));
                Some((month(year, first), month(year, last)))
            }
            Shape::Season { year, season } => {
                let (first, _) = pick((0, 0), (1, 1), (2, 2));
                let only = month(year, i64::from(season.first_month()) + first);
                Some((only, only))
            }
            Shape::Month { year, month } => {
                let length = i64::from(days_in_month(year, month)?);
                let (first, last) = pick((1, 10), (11, 20), (21, length));
                let day = |day: i64| Some(Shape::Day { year, month, day: u8::try_from(day).ok()? });
                Some((day(first)?, day(last)?))
            }
            Shape::Day { .. }
            | Shape::SomeMonth { .. }
            | Shape::SomeDay { .. }
            | Shape::SomeDayOfYear { .. } => None,
        }
    }
}

/// A month counted on beyond the end of its year: 13 is the next January.
fn month(year: i64, count: i64) -> Shape {
    let index = count - 1;
    // Twelve at most, so it fits.
    Shape::Month { year: year + index / 12, month: (index % 12 + 1) as u8 }
}
