//! Dates as sources give them: to the day, to the month, roughly, or as a
//! span with an open end. For whatever has to place an outfit, a scene or a
//! period in time. It knows nothing of boards, screens or today's date.
//!
//! The idea: **the text is the value.** A [`Date`] is an expression of EDTF
//! (the Extended Date/Time Format of ISO 8601-2:2019; Library of Congress,
//! "Extended Date/Time Format (EDTF) Specification", 4 February 2019). Levels
//! 0 and 1 are supported whole. It prints exactly as it was read, and from it
//! follow an [earliest](Date::earliest) and a [latest](Date::latest) day,
//! between which everything else in the program reckons.
//!
//! Where the specification leaves something open, this is how we read it:
//!
//! - **Seasons** 21–24 are three whole months of the northern hemisphere, in
//!   the order of their codes: spring March–May, summer June–August, autumn
//!   September–November, winter December to the next year's February.
//! - **`?`, `~` and `%` mark a date; they do not widen it.** How far "about
//!   1926" reaches is the source's secret, and an invented margin would look
//!   like knowledge. The bounds stay those of the expression as written.
//! - **An interval** runs from the first day of its start to the last day of
//!   its end, and at least one end must be a date. One that ends before it
//!   starts is an error. Its ends may be seasons and long years.
//! - **A time of day** is kept; the bounds are the day that it names.
//! - **Long years** (`Y170000002`) have at most 18 digits; the bounds of those
//!   beyond twelve digits stop at [`Day::MIN`] and [`Day::MAX`].
//!
//! [`str::parse`] reads EDTF and nothing else; a file holds nothing else.
//! [`read_friendly`] also reads what people type.
//!
//! The crate `edtf` reads every level 0 and 1 example of the specification,
//! too; it is not used because its licence (MPL-2.0) is not a permissive one,
//! and because its errors say neither where nor what was expected.

mod clock;
mod day;
mod error;
mod friendly;
mod level_two;
mod loose;
mod mark;
mod numbers;
mod point;
#[cfg(test)]
mod properties;
mod season;
mod serial;
mod short;
mod span;
mod strict;
mod third;
#[cfg(test)]
mod typed;
mod weekday;
mod words;

use std::fmt;
use std::str::FromStr;

pub use day::Day;
pub use error::DateError;
pub use friendly::read_friendly;
pub use weekday::Weekday;

use clock::Moment;
use mark::Mark;
use point::{Point, Shape};
use span::Span;

/// A date or a span of dates: one EDTF expression of level 0 or 1.
///
/// Made by [`str::parse`] (EDTF only), by [`read_friendly`], or from a
/// [`Day`]. Two dates are equal when they are the same expression: `1926` and
/// `1926/1926` have the same bounds and are not equal. There is no order among
/// dates; sort by [`Date::middle`].
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct Date(Form);

#[derive(Clone, Copy, PartialEq, Eq, Hash)]
enum Form {
    Point(Point),
    Moment(Moment),
    Span(Span),
}

/// The finest part of a date that is known, finest first.
///
/// Open digits are not known: `1926-08-XX` is known to the month, although the
/// specification speaks of day precision there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Precision {
    /// `1926-08-14`, with or without a time of day.
    Day,
    /// `1926-08`, `1926-08-XX`.
    Month,
    /// `1926-21`.
    Season,
    /// `1926`, `1926-XX`.
    Year,
    /// `192X`.
    Decade,
    /// `19XX`.
    Century,
    /// Any interval.
    Span,
}

impl Date {
    /// The date that is this one day; `None` outside the years −9999 to 9999,
    /// which have no EDTF form to the day.
    pub fn on(day: Day) -> Option<Date> {
        let (year, month, day) = day.ymd();
        (-9999..=9999).contains(&year).then(|| Shape::Day { year, month, day }.plain().into())
    }

    /// The first day that it can mean. `None` where a span has no known start.
    pub fn earliest(&self) -> Option<Day> {
        match self.0 {
            Form::Point(point) => Some(point.first_day()),
            Form::Moment(moment) => Some(moment.day),
            Form::Span(span) => span.first_day(),
        }
    }

    /// The last day that it can mean. `None` where a span has no known end.
    pub fn latest(&self) -> Option<Day> {
        match self.0 {
            Form::Point(point) => Some(point.last_day()),
            Form::Moment(moment) => Some(moment.day),
            Form::Span(span) => span.last_day(),
        }
    }

    /// One day to sort and place by: halfway between the bounds, or the one
    /// bound that there is. Always there, since every date has a bound.
    pub fn middle(&self) -> Option<Day> {
        match (self.earliest(), self.latest()) {
            (Some(first), Some(last)) => Some(first.halfway(last)),
            (bound, None) | (None, bound) => bound,
        }
    }

    /// How much of the date is known.
    pub fn precision(&self) -> Precision {
        match self.0 {
            Form::Span(_) => Precision::Span,
            Form::Moment(_) => Precision::Day,
            Form::Point(point) => match point.shape {
                Shape::Day { .. } => Precision::Day,
                Shape::Month { .. } | Shape::SomeDay { .. } => Precision::Month,
                Shape::Season { .. } => Precision::Season,
                Shape::Year(_) | Shape::SomeMonth { .. } | Shape::SomeDayOfYear { .. } => Precision::Year,
                Shape::Decade { .. } => Precision::Decade,
                Shape::Century { .. } => Precision::Century,
            },
        }
    }

    /// Whether it, or an end of it, is marked uncertain (`?` or `%`).
    pub fn is_uncertain(&self) -> bool {
        self.mark().uncertain
    }

    /// Whether it, or an end of it, is marked approximate (`~` or `%`).
    pub fn is_approximate(&self) -> bool {
        self.mark().approximate
    }

    /// A few words for a narrow card: `14 Aug 1926`, `c. 1926`, `1920s`,
    /// `1924–26`, `summer 1926`, `before 1931`.
    ///
    /// For reading only: it drops what a card has no room for (the time of
    /// day, the open digits of `1926-08-XX`).
    pub fn short(&self) -> String {
        short::short(self.0)
    }

    fn mark(&self) -> Mark {
        match self.0 {
            Form::Point(point) => point.mark,
            Form::Moment(_) => Mark::default(),
            Form::Span(span) => [span.start(), span.end()]
                .into_iter()
                .filter_map(|end| end.point())
                .fold(Mark::default(), |mark, point| mark.and(point.mark)),
        }
    }
}

/// Reads EDTF, levels 0 and 1, and nothing else.
impl FromStr for Date {
    type Err = DateError;

    fn from_str(text: &str) -> Result<Date, DateError> {
        strict::read(text).map_err(|fault| {
            let fault = friendly::suggest(text, fault);
            DateError::new(text, fault)
        })
    }
}

/// Writes EDTF.
impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match self.0 {
            Form::Point(point) => point.to_string(),
            Form::Moment(moment) => moment.to_string(),
            Form::Span(span) => span.to_string(),
        };
        f.pad(&text)
    }
}

/// `Date(1926-08-14)`: the expression says all there is.
impl fmt::Debug for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Date({self})")
    }
}

impl From<Point> for Date {
    fn from(point: Point) -> Date {
        Date(Form::Point(point))
    }
}

impl From<Span> for Date {
    fn from(span: Span) -> Date {
        Date(Form::Span(span))
    }
}
