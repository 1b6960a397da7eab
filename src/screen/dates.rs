//! Dates and story values as people type them into a form: what they are kept as, or what is wrong with them.

use crate::board::StoryDay;
use crate::trade::date::{Date, Day, Precision, Weekday, read_friendly};
use crate::trade::eighths::Eighths;

/// A date as people type it; nothing for an empty text.
pub(super) fn date_of(text: &str) -> Result<Option<Date>, String> {
    if text.is_empty() {
        return Ok(None);
    }
    read_friendly(text).map(Some).map_err(|error| error.to_string())
}

/// What a date is kept as, in EDTF, and how cards write it.
pub(super) fn date_says(text: &str) -> Result<String, String> {
    if text.is_empty() {
        return Ok("such as 14 aug 1926, c. 1926, summer 1926, 1924-26".to_owned());
    }
    match read_friendly(text) {
        Ok(date) => Ok(format!("kept as {date}, shown as {}", date.short())),
        // The whole message is shown when it is entered; below the field there is one line.
        Err(error) => Err(error.hint().unwrap_or_else(|| error.what().to_owned())),
    }
}

/// The day by which something is due, as people type it; nothing for an empty text.
pub(super) fn due_of(text: &str) -> Result<Option<Date>, String> {
    if text.is_empty() { Ok(None) } else { due_from(text, this_day()).map(Some) }
}

/// What a due date is kept as, with its day of the week.
pub(super) fn due_says(text: &str) -> Result<String, String> {
    Ok(match due_of(text)? {
        None => "such as friday, 12 march, 12.3., 12 march 2027".to_owned(),
        Some(date) => match date.earliest().filter(|day| Some(*day) == date.latest()) {
            Some(day) => format!("kept as {date}, {} {}", day.weekday(), date.short()),
            None => format!("kept as {date}, shown as {}", date.short()),
        },
    })
}

/// The longest that a day of the year can be away: a 29 February over a year of a century.
const YEARS: i64 = 8;

/// A date, or a day that comes again: of the week the next one after `today`, of the year the next one from `today` on.
fn due_from(text: &str, today: Day) -> Result<Date, String> {
    let error = match read_friendly(text) {
        Ok(date) => return Ok(date),
        Err(error) => error,
    };
    if let Some(weekday) = weekday_of(text) {
        let next = (1..=7).map(|days| today.plus(days)).find(|day| day.weekday() == weekday);
        return next.and_then(Date::on).ok_or_else(|| error.to_string());
    }
    let words = text.split(|c: char| !c.is_alphabetic());
    if words.into_iter().any(|word| weekday_of(word).is_some()) {
        return Err("say the day of the week alone, or the date".to_owned());
    }
    let in_year = |year: i64| match day_and_month(text) {
        Some((day, month)) => Day::from_ymd(year, month, day).and_then(Date::on),
        None => read_friendly(&format!("{text} {year}")).ok(),
    };
    let years = today.year()..=today.year() + YEARS;
    let mut days = years.filter_map(in_year).filter(|date| date.precision() == Precision::Day);
    let next = days.find(|date| date.earliest().is_some_and(|day| day >= today));
    next.ok_or_else(|| error.to_string())
}

/// The day of the week that a word names, with three letters at least.
fn weekday_of(word: &str) -> Option<Weekday> {
    let word = word.to_lowercase();
    let names = |day: &Weekday| word.len() >= 3 && day.name().to_lowercase().starts_with(&word);
    Weekday::ALL.into_iter().find(names)
}

/// `12.3.`: with points, and with points alone, the day stands first everywhere.
fn day_and_month(text: &str) -> Option<(u8, u8)> {
    let (day, month) = text.strip_suffix('.').unwrap_or(text).split_once('.')?;
    Some((day.trim().parse().ok()?, month.trim().parse().ok()?))
}

/// Pages and eighths.
pub(super) fn pages_of(text: &str) -> Result<Eighths, String> {
    if text.is_empty() {
        return Ok(Eighths::default());
    }
    text.parse().map_err(|error: crate::trade::eighths::EighthsError| error.to_string())
}

/// How long pages are on the screen.
pub(super) fn pages_says(text: &str) -> Result<String, String> {
    let pages = pages_of(text)?;
    if text.is_empty() {
        Ok("pages and eighths, such as 1 3/8".to_owned())
    } else {
        Ok(format!("{} min.", pages.clock()))
    }
}

/// A story day; nothing for an empty text.
pub(super) fn story_day_of(text: &str) -> Result<Option<StoryDay>, String> {
    if text.is_empty() { Ok(None) } else { text.parse().map(Some) }
}

/// How a story day is read.
pub(super) fn story_day_says(text: &str) -> Result<String, String> {
    Ok(match story_day_of(text)? {
        Some(day) => format!("kept as {day}"),
        None => "D1 for the first day of the story, N1 for its night".to_owned(),
    })
}

/// The day on this machine's calendar, as a date.
pub(super) fn today() -> Date {
    #[expect(clippy::expect_used, reason = "today is in a year of four digits")]
    Date::on(this_day()).expect("today is a date")
}

/// The day on this machine's calendar.
pub(super) fn this_day() -> Day {
    let now = jiff::ZonedDateTime::now().date();
    let month = u8::try_from(now.month()).unwrap_or(1);
    let day = u8::try_from(now.day()).unwrap_or(1);
    #[expect(
        clippy::expect_used,
        reason = "a civil calendar's day is a day of ours; both are proleptic Gregorian"
    )]
    Day::from_ymd(i64::from(now.year()), month, day).expect("today is a day")
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test")]

    use super::*;

    /// From a Thursday.
    fn due(text: &str) -> Result<String, String> {
        let today = Day::from_ymd(2026, 11, 26).unwrap();
        assert_eq!(today.weekday(), Weekday::Thursday);
        due_from(text, today).map(|date| date.to_string())
    }

    #[test]
    fn a_day_of_the_week_is_the_next_one_after_today() {
        for (typed, kept) in [
            ("friday", "2026-11-27"),
            ("Fri", "2026-11-27"),
            ("wednesday", "2026-12-02"),
            ("thursday", "2026-12-03"),
        ] {
            assert_eq!(due(typed).as_deref(), Ok(kept), "{typed}");
        }
    }

    #[test]
    fn a_day_of_the_year_is_the_next_one_from_today_on() {
        for (typed, kept) in [
            ("12 march", "2027-03-12"),
            ("March 12", "2027-03-12"),
            ("12th Dec", "2026-12-12"),
            ("12.3.", "2027-03-12"),
            ("12. 3.", "2027-03-12"),
            ("1.12", "2026-12-01"),
            ("26 nov", "2026-11-26"),
            ("25.11.", "2027-11-25"),
            ("29 feb", "2028-02-29"),
            ("29.2.", "2028-02-29"),
        ] {
            assert_eq!(due(typed).as_deref(), Ok(kept), "{typed}");
        }
    }

    #[test]
    fn a_due_date_with_its_year_is_read_as_any_date_is() {
        for (typed, kept) in
            [("1 dec 2025", "2025-12-01"), ("2027-03", "2027-03"), ("spring 2027", "2027-21")]
        {
            assert_eq!(due(typed).as_deref(), Ok(kept), "{typed}");
        }
    }

    #[test]
    fn what_names_no_one_day_is_refused() {
        for typed in
            ["soon", "fr", "march", "12", "12/3", "3-12", "31.4.", "32 march", "friday 12 march", "12.3.4."]
        {
            assert!(due(typed).is_err(), "{typed}: {:?}", due(typed));
        }
    }
}
