//! The day of the week: shooting schedules show it, and a caption that names
//! one ("Saturday, 14 August 1926") can be held against its date.

use std::fmt;

/// A day of the week.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Weekday {
    Monday,
    Tuesday,
    Wednesday,
    Thursday,
    Friday,
    Saturday,
    Sunday,
}

impl Weekday {
    /// Monday first, as ISO 8601 has it.
    pub const ALL: [Weekday; 7] = [
        Weekday::Monday,
        Weekday::Tuesday,
        Weekday::Wednesday,
        Weekday::Thursday,
        Weekday::Friday,
        Weekday::Saturday,
        Weekday::Sunday,
    ];

    /// The day so many days after a Monday.
    pub(super) fn from_monday(days: i64) -> Weekday {
        Weekday::ALL[days.rem_euclid(7) as usize]
    }

    /// The whole English name.
    pub fn name(self) -> &'static str {
        match self {
            Weekday::Monday => "Monday",
            Weekday::Tuesday => "Tuesday",
            Weekday::Wednesday => "Wednesday",
            Weekday::Thursday => "Thursday",
            Weekday::Friday => "Friday",
            Weekday::Saturday => "Saturday",
            Weekday::Sunday => "Sunday",
        }
    }

    /// Three letters, for narrow places.
    pub fn short(self) -> &'static str {
        // Every name above has at least six ASCII letters.
        &self.name()[..3]
    }
}

impl fmt::Display for Weekday {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::super::Day;
    use super::*;

    /// From memory: 2000-01-01 was a Saturday, 1970-01-01 a Thursday. The last
    /// line is the 400-year cycle, which is a whole number of weeks.
    #[test]
    fn known_days_of_the_week() {
        let day = |y, m, d| Day::from_ymd(y, m, d).unwrap().weekday();
        assert_eq!(day(2000, 1, 1), Weekday::Saturday);
        assert_eq!(day(1999, 12, 31), Weekday::Friday);
        assert_eq!(day(1970, 1, 1), Weekday::Thursday);
        assert_eq!(day(-1, 12, 31), day(1999, 12, 31));
    }

    #[test]
    fn short_names_are_the_first_three_letters() {
        assert_eq!(Weekday::Wednesday.short(), "Wed");
        assert_eq!(Weekday::Sunday.to_string(), "Sunday");
    }
}
