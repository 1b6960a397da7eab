//! One date that is not a span: a day, a month, a season, a year, or one of
//! these with digits left open. Values here have been checked by whoever
//! built them; a point knows its first and last day and how it is written.

use std::fmt;

use super::day::{Day, days_in_month};
use super::mark::Mark;
use super::season::Season;

/// A single EDTF date with its qualification.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) struct Point {
    pub shape: Shape,
    pub mark: Mark,
}

/// What a single date names. Months are 1–12; years but for
/// [`Shape::Year`] have four digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Shape {
    Year(i64),
    /// `192X`: the digits that are known, and whether a minus stands before.
    Decade {
        negative: bool,
        stem: u16,
    },
    /// `19XX`.
    Century {
        negative: bool,
        stem: u16,
    },
    Month {
        year: i64,
        month: u8,
    },
    Season {
        year: i64,
        season: Season,
    },
    Day {
        year: i64,
        month: u8,
        day: u8,
    },
    /// `1926-XX`.
    SomeMonth {
        year: i64,
    },
    /// `1926-08-XX`.
    SomeDay {
        year: i64,
        month: u8,
    },
    /// `1926-XX-XX`.
    SomeDayOfYear {
        year: i64,
    },
}

impl Shape {
    pub fn plain(self) -> Point {
        self.marked(Mark::default())
    }

    pub fn marked(self, mark: Mark) -> Point {
        Point { shape: self, mark }
    }

    /// The first and last year that it can lie in. A winter counts in the
    /// year that names it.
    pub fn years(self) -> (i64, i64) {
        match self {
            Shape::Decade { negative, stem } => masked_years(negative, stem, 10),
            Shape::Century { negative, stem } => masked_years(negative, stem, 100),
            Shape::Year(year)
            | Shape::Month { year, .. }
            | Shape::Season { year, .. }
            | Shape::Day { year, .. }
            | Shape::SomeMonth { year }
            | Shape::SomeDay { year, .. }
            | Shape::SomeDayOfYear { year } => (year, year),
        }
    }

    /// Whether any digit is left open. Level 1 has such dates only outside of
    /// intervals.
    pub fn has_open_digits(self) -> bool {
        match self {
            Shape::Decade { .. }
            | Shape::Century { .. }
            | Shape::SomeMonth { .. }
            | Shape::SomeDay { .. }
            | Shape::SomeDayOfYear { .. } => true,
            Shape::Year(_) | Shape::Month { .. } | Shape::Season { .. } | Shape::Day { .. } => false,
        }
    }
}

impl Point {
    pub fn first_day(self) -> Day {
        match self.shape {
            Shape::Month { year, month } | Shape::SomeDay { year, month } => first_of_month(year, month),
            Shape::Season { year, season } => first_of_month(year, season.first_month()),
            Shape::Day { year, month, day } => {
                Day::from_ymd(year, month, day).unwrap_or(first_of_month(year, month))
            }
            other => Day::first_of_year(other.years().0),
        }
    }

    pub fn last_day(self) -> Day {
        match self.shape {
            Shape::Month { year, month } | Shape::SomeDay { year, month } => last_of_month(year, month),
            Shape::Season { year, season } => {
                let (later, month) = season.last_month();
                last_of_month(year + later, month)
            }
            Shape::Day { .. } => self.first_day(),
            other => Day::last_of_year(other.years().1),
        }
    }

    /// The nearest date without open digits with which an interval may start:
    /// `192X` gives 1920, `1926-08-XX` gives 1926-08.
    pub fn closed_start(self) -> Point {
        self.closed(self.shape.years().0)
    }

    /// The same for the end of an interval: `192X` gives 1929.
    pub fn closed_end(self) -> Point {
        self.closed(self.shape.years().1)
    }

    fn closed(self, year: i64) -> Point {
        let shape = match self.shape {
            Shape::SomeDay { year, month } => Shape::Month { year, month },
            open if open.has_open_digits() => Shape::Year(year),
            closed => closed,
        };
        shape.marked(self.mark)
    }
}

impl fmt::Display for Point {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.shape {
            Shape::Year(year) => write_year(f, year)?,
            Shape::Decade { negative, stem } => write!(f, "{}{stem:03}X", minus(negative))?,
            Shape::Century { negative, stem } => write!(f, "{}{stem:02}XX", minus(negative))?,
            Shape::Month { year, month } => {
                write_year(f, year)?;
                write!(f, "-{month:02}")?;
            }
            Shape::Season { year, season } => {
                write_year(f, year)?;
                write!(f, "-{}", season.code())?;
            }
            Shape::Day { year, month, day } => {
                write_year(f, year)?;
                write!(f, "-{month:02}-{day:02}")?;
            }
            Shape::SomeMonth { year } => {
                write_year(f, year)?;
                f.write_str("-XX")?;
            }
            Shape::SomeDay { year, month } => {
                write_year(f, year)?;
                write!(f, "-{month:02}-XX")?;
            }
            Shape::SomeDayOfYear { year } => {
                write_year(f, year)?;
                f.write_str("-XX-XX")?;
            }
        }
        f.write_str(self.mark.sign())
    }
}

fn write_year(f: &mut fmt::Formatter<'_>, year: i64) -> fmt::Result {
    if (-9999..=9999).contains(&year) {
        write!(f, "{}{:04}", minus(year < 0), year.unsigned_abs())
    } else {
        write!(f, "Y{year}")
    }
}

fn minus(negative: bool) -> &'static str {
    if negative { "-" } else { "" }
}

/// The years that `stem` followed by open digits covers, earliest first.
fn masked_years(negative: bool, stem: u16, width: i64) -> (i64, i64) {
    let nearest_zero = i64::from(stem) * width;
    let farthest = nearest_zero + width - 1;
    if negative { (-farthest, -nearest_zero) } else { (nearest_zero, farthest) }
}

fn first_of_month(year: i64, month: u8) -> Day {
    Day::from_ymd(year, month, 1).unwrap_or(Day::first_of_year(year))
}

fn last_of_month(year: i64, month: u8) -> Day {
    days_in_month(year, month)
        .and_then(|length| Day::from_ymd(year, month, length))
        .unwrap_or(Day::last_of_year(year))
}
