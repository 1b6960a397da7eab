//! One day, as a count, so that bounds can be compared, subtracted and drawn
//! to scale. The calendar is the Gregorian one carried back before its own
//! introduction ("proleptic"), with a year 0, as ISO 8601 and EDTF count.

use std::fmt;

use super::weekday::Weekday;

/// A day of the proleptic Gregorian calendar.
///
/// Held as the number of days since 1970-01-01. The range is
/// [`Day::MIN`] to [`Day::MAX`], the years −999 999 999 999 to 999 999 999 999:
/// wide enough for every year that the EDTF specification shows, narrow enough
/// that the difference of two days never overflows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(i64);

/// The largest year, either way, that a [`Day`] can lie in.
pub(super) const WIDEST_YEAR: i64 = 999_999_999_999;

/// Days from 0000-01-01 to 1970-01-01: 1970 years of 365 days and the 478
/// leap days among them.
const EPOCH: i64 = 1970 * 365 + 478;

/// Days in 400 years, after which the calendar repeats.
const DAYS_IN_CYCLE: i64 = 400 * 365 + 97;

impl Day {
    /// 1 January of the year −999 999 999 999.
    pub const MIN: Day = Day(days_before_year(-WIDEST_YEAR) - EPOCH);
    /// 31 December of the year 999 999 999 999.
    pub const MAX: Day = Day(days_before_year(WIDEST_YEAR + 1) - 1 - EPOCH);

    /// The day of this year, month (1–12) and day of the month; `None` when
    /// there is no such day, or when the year is out of range.
    pub fn from_ymd(year: i64, month: u8, day: u8) -> Option<Day> {
        let in_range = (-WIDEST_YEAR..=WIDEST_YEAR).contains(&year);
        if !in_range || day == 0 || day > days_in_month(year, month)? {
            return None;
        }
        let before_month: i64 =
            (1..month).filter_map(|earlier| days_in_month(year, earlier)).map(i64::from).sum();
        Some(Day(days_before_year(year) + before_month + i64::from(day) - 1 - EPOCH))
    }

    /// Year, month (1–12) and day of the month.
    pub fn ymd(self) -> (i64, u8, u8) {
        let since_year_zero = self.0 + EPOCH;
        // The mean year is right to within one; the loops mend it.
        let mut year = (since_year_zero * 400).div_euclid(DAYS_IN_CYCLE);
        while days_before_year(year) > since_year_zero {
            year -= 1;
        }
        while days_before_year(year + 1) <= since_year_zero {
            year += 1;
        }
        let mut left = since_year_zero - days_before_year(year);
        let mut month = 1;
        while let Some(length) = days_in_month(year, month) {
            if left < i64::from(length) {
                break;
            }
            left -= i64::from(length);
            month += 1;
        }
        // `left` is below the length of a month, so it fits.
        (year, month, (left + 1) as u8)
    }

    /// The year, with a year 0 before the year 1.
    pub fn year(self) -> i64 {
        self.ymd().0
    }

    /// Days since 1970-01-01, negative before it.
    pub fn number(self) -> i64 {
        self.0
    }

    /// The day with this [number](Day::number), held to the range of `Day`.
    pub fn from_number(days: i64) -> Day {
        Day(days.clamp(Day::MIN.0, Day::MAX.0))
    }

    /// So many days later (earlier when negative), held to the range of `Day`.
    pub fn plus(self, days: i64) -> Day {
        Day::from_number(self.0.saturating_add(days))
    }

    /// Days from `earlier` to this day; negative when it is the later one.
    pub fn since(self, earlier: Day) -> i64 {
        self.0 - earlier.0
    }

    /// The day halfway between two, the earlier one when there are two such.
    pub fn halfway(self, other: Day) -> Day {
        Day((self.0 + other.0).div_euclid(2))
    }

    /// The day of the week.
    pub fn weekday(self) -> Weekday {
        // 1970-01-01 was a Thursday, three days after a Monday.
        Weekday::from_monday((self.0 + 3).rem_euclid(7))
    }

    /// The first day of a year of any size, held to the range of `Day`.
    pub(super) fn first_of_year(year: i64) -> Day {
        if year > WIDEST_YEAR {
            return Day::MAX;
        }
        Day::from_ymd(year, 1, 1).unwrap_or(Day::MIN)
    }

    /// The last day of a year of any size, held to the range of `Day`.
    pub(super) fn last_of_year(year: i64) -> Day {
        if year < -WIDEST_YEAR {
            return Day::MIN;
        }
        Day::from_ymd(year, 12, 31).unwrap_or(Day::MAX)
    }
}

/// `YYYY-MM-DD`, with a sign before negative years and more digits where a
/// year has them.
impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.ymd();
        let sign = if year < 0 { "-" } else { "" };
        write!(f, "{sign}{:04}-{month:02}-{day:02}", year.unsigned_abs())
    }
}

/// Days in a month (1–12) of a year; `None` when there is no such month.
pub(super) fn days_in_month(year: i64, month: u8) -> Option<u8> {
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => Some(31),
        4 | 6 | 9 | 11 => Some(30),
        2 if is_leap(year) => Some(29),
        2 => Some(28),
        _ => None,
    }
}

/// The Gregorian rule: every fourth year, but of the full centuries only every
/// fourth.
fn is_leap(year: i64) -> bool {
    year % 4 == 0 && (year % 100 != 0 || year % 400 == 0)
}

/// Days from 0000-01-01 to the first day of `year`, negative before the year 0.
const fn days_before_year(year: i64) -> i64 {
    let leap_days = (year + 3).div_euclid(4) - (year + 99).div_euclid(100) + (year + 399).div_euclid(400);
    year * 365 + leap_days
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn day(year: i64, month: u8, day: u8) -> Day {
        Day::from_ymd(year, month, day).unwrap()
    }

    #[test]
    fn the_epoch_is_the_first_of_january_1970() {
        assert_eq!(day(1970, 1, 1).number(), 0);
        assert_eq!(day(1969, 12, 31).number(), -1);
        assert_eq!(day(2000, 3, 1).number(), 11_017);
    }

    #[test]
    fn days_that_do_not_exist_are_refused() {
        assert_eq!(Day::from_ymd(1926, 2, 29), None);
        assert_eq!(Day::from_ymd(1900, 2, 29), None);
        assert!(Day::from_ymd(2000, 2, 29).is_some());
        assert!(Day::from_ymd(0, 2, 29).is_some());
        for (month, day) in [(0, 1), (13, 1), (1, 0), (1, 32), (4, 31), (255, 255)] {
            assert_eq!(Day::from_ymd(1926, month, day), None, "{month} {day}");
        }
        assert_eq!(Day::from_ymd(i64::MAX, 1, 1), None);
        assert_eq!(Day::from_ymd(i64::MIN, 1, 1), None);
    }

    /// Counts one day at a time with nothing of the arithmetic above, over
    /// more than one whole 400-year cycle and across the year 0.
    #[test]
    fn an_independent_count_agrees_on_every_day_of_nine_hundred_years() {
        let lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
        let mut counted = day(-450, 1, 1);
        for year in -450_i64..450 {
            for (month, length) in (1_u8..).zip(lengths) {
                let leap = match (year % 400, year % 100, year % 4) {
                    (0, _, _) => true,
                    (_, 0, _) => false,
                    (_, _, remainder) => remainder == 0,
                };
                for date in 1..=(length + u8::from(leap && month == 2)) {
                    assert_eq!(counted.ymd(), (year, month, date));
                    assert_eq!(day(year, month, date), counted);
                    counted = Day(counted.0 + 1);
                }
            }
        }
    }

    #[test]
    fn days_are_written_year_first() {
        assert_eq!(day(1926, 8, 4).to_string(), "1926-08-04");
        assert_eq!(day(33, 4, 3).to_string(), "0033-04-03");
        assert_eq!(day(-44, 3, 15).to_string(), "-0044-03-15");
        assert_eq!(day(170_000_002, 1, 1).to_string(), "170000002-01-01");
    }

    #[test]
    fn the_ends_of_the_range_hold() {
        assert_eq!(Day::MAX.ymd(), (WIDEST_YEAR, 12, 31));
        assert_eq!(Day::MIN.ymd(), (-WIDEST_YEAR, 1, 1));
        assert_eq!(Day::MAX.plus(1), Day::MAX);
        assert_eq!(Day::MIN.plus(i64::MIN), Day::MIN);
        assert!(Day::MAX.since(Day::MIN) > 0);
        assert_eq!(Day::first_of_year(i64::MAX), Day::MAX);
        assert_eq!(Day::last_of_year(i64::MIN), Day::MIN);
    }

    #[test]
    fn halfway_lies_between() {
        assert_eq!(day(1926, 8, 1).halfway(day(1926, 8, 4)), day(1926, 8, 2));
        assert_eq!(day(1926, 8, 4).halfway(day(1926, 8, 4)), day(1926, 8, 4));
    }

    proptest! {
        #[test]
        fn a_day_survives_year_month_and_day(number in Day::MIN.0..=Day::MAX.0) {
            let (year, month, date) = Day(number).ymd();
            prop_assert_eq!(Day::from_ymd(year, month, date), Some(Day(number)));
        }

        #[test]
        fn later_days_have_later_dates(a in Day::MIN.0..=Day::MAX.0, b in Day::MIN.0..=Day::MAX.0) {
            prop_assert_eq!(Day(a).cmp(&Day(b)), Day(a).ymd().cmp(&Day(b).ymd()));
        }

        #[test]
        fn halfway_never_leaves_the_two(a in Day::MIN.0..=Day::MAX.0, b in Day::MIN.0..=Day::MAX.0) {
            let middle = Day(a).halfway(Day(b));
            prop_assert!(middle.0 >= a.min(b) && middle.0 <= a.max(b));
        }
    }
}
