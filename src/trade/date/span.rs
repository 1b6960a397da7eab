//! An interval between two dates, either of which may be open (`..`: there is
//! none, or nobody says) or unknown (nothing written).

use std::fmt;

use super::day::Day;
use super::point::Point;

/// One side of an interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum End {
    Open,
    Unknown,
    At(Point),
}

impl End {
    pub fn point(self) -> Option<Point> {
        match self {
            End::At(point) => Some(point),
            End::Open | End::Unknown => None,
        }
    }
}

/// An interval of which at least one end is a date.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) struct Span {
    start: End,
    end: End,
}

/// Why two ends make no interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoSpan {
    /// Neither end is a date.
    Empty,
    /// The end lies wholly before the start.
    Backwards,
    /// An end has open digits, which only level 2 allows; here without them.
    OpenDigits(End, End),
}

impl Span {
    pub fn new(start: End, end: End) -> Result<Span, NoSpan> {
        let open_digits = |end: End| end.point().is_some_and(|p| p.shape.has_open_digits());
        if open_digits(start) || open_digits(end) {
            return Err(NoSpan::OpenDigits(
                start.point().map_or(start, |p| End::At(p.closed_start())),
                end.point().map_or(end, |p| End::At(p.closed_end())),
            ));
        }
        match (start.point(), end.point()) {
            (None, None) => Err(NoSpan::Empty),
            (Some(from), Some(to)) if is_before(to, from) => Err(NoSpan::Backwards),
            _ => Ok(Span { start, end }),
        }
    }

    pub fn start(self) -> End {
        self.start
    }

    pub fn end(self) -> End {
        self.end
    }

    pub fn first_day(self) -> Option<Day> {
        self.start.point().map(Point::first_day)
    }

    pub fn last_day(self) -> Option<Day> {
        self.end.point().map(Point::last_day)
    }
}

/// Whether all of `a` lies before all of `b`. The years decide first, because
/// the days of years beyond the range of `Day` are all one.
fn is_before(a: Point, b: Point) -> bool {
    let (last, first) = (a.last_day(), b.first_day());
    last < first || (last == first && a.shape.years().1 < b.shape.years().0)
}

impl fmt::Display for End {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            End::Open => f.write_str(".."),
            End::Unknown => Ok(()),
            End::At(point) => point.fmt(f),
        }
    }
}

impl fmt::Display for Span {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.start, self.end)
    }
}
