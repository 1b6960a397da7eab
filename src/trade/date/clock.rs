//! A date with a time of day. Wardrobe never needs the clock, but level 0 of
//! EDTF has it, so it is kept as written; its bounds are the day it names, on
//! the local calendar of whoever wrote it.

use std::fmt;

use super::day::Day;

/// A day and a time of day, with the shift from UTC if one was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) struct Moment {
    pub day: Day,
    pub hour: u8,
    pub minute: u8,
    pub second: u8,
    pub shift: Option<Shift>,
}

/// How a time stands to UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Shift {
    /// `Z`.
    Utc,
    /// `-04` or `+04:30`. ISO 8601 has no negative zero.
    By { behind: bool, hours: u8, minutes: Option<u8> },
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}T{:02}:{:02}:{:02}", self.day, self.hour, self.minute, self.second)?;
        match self.shift {
            None => Ok(()),
            Some(Shift::Utc) => f.write_str("Z"),
            Some(Shift::By { behind, hours, minutes }) => {
                write!(f, "{}{hours:02}", if behind { '-' } else { '+' })?;
                minutes.map_or(Ok(()), |minutes| write!(f, ":{minutes:02}"))
            }
        }
    }
}
