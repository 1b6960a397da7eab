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
        None => "such as friday, 12 march, tomorrow, in 2 weeks, end of january".to_owned(),
        Some(date) => match date.earliest().filter(|day| Some(*day) == date.latest()) {
            Some(day) => format!("kept as {date}, {} {}", day.weekday(), date.short()),
            None => format!("kept as {date}, shown as {}", date.short()),
        },
    })
}

/// The longest that a day of the year can be away: a 29 February over a year of a century.
const YEARS: i64 = 8;

/// What can be written as a due day, in one sentence.
const DUE: &str = "write a day such as today, fri, fri 4 dec, in 2 weeks, end of january or 12 march 2027";

/// A date, a day as it is counted from `today`, or a day that comes again: of the week the next one after `today`, of
/// the year the next one from `today` on.
fn due_from(text: &str, today: Day) -> Result<Date, String> {
    let text = text.to_lowercase();
    let words: Vec<&str> = text.split_whitespace().collect();
    let day = match words.as_slice() {
        ["today"] => Some(today),
        ["tomorrow"] => Some(today.plus(1)),
        ["in", count, unit] => days_of(count, unit).map(|days| today.plus(days)),
        ["end", "of", month @ ..] => return end_of(&month.join(" "), today),
        ["next", day] | [day] => weekday_of(day).and_then(|day| next_weekday(day, today)),
        _ => None,
    };
    match day.and_then(Date::on) {
        Some(date) => Ok(date),
        None => read_friendly(&text).or_else(|_| day_of_year(&words, &text, today)),
    }
}

/// How many days `2 weeks` are.
fn days_of(count: &str, unit: &str) -> Option<i64> {
    let count = match count {
        "a" | "an" | "one" => 1,
        digits => digits.parse::<u16>().ok()?,
    };
    match unit {
        "day" | "days" => Some(count.into()),
        "week" | "weeks" => Some(i64::from(count) * 7),
        _ => None,
    }
}

/// The next such day of the week after `today`.
fn next_weekday(weekday: Weekday, today: Day) -> Option<Day> {
    (1..=7).map(|days| today.plus(days)).find(|day| day.weekday() == weekday)
}

/// The last day of a month, which without its year is the next one that has not ended.
fn end_of(month: &str, today: Day) -> Result<Date, String> {
    let last = |date: Date| date.latest().filter(|_| date.precision() == Precision::Month);
    let in_year = |year: i64| read_friendly(&format!("{month} {year}")).ok().and_then(last);
    let next = || (today.year()..=today.year() + 1).filter_map(in_year).find(|day| *day >= today);
    let day = read_friendly(month).ok().and_then(last).or_else(next);
    day.and_then(Date::on).ok_or_else(|| DUE.to_owned())
}

/// A day of the year, perhaps with its day of the week, which must then be right.
fn day_of_year(words: &[&str], text: &str, today: Day) -> Result<Date, String> {
    let weekday = |word: &str| weekday_of(word.trim_end_matches([',', '.']));
    let named = words.iter().find_map(|word| weekday(word));
    let plain: Vec<&str> = words.iter().copied().filter(|word| weekday(word).is_none()).collect();
    let plain = plain.join(" ");
    let in_year = |year: i64| match day_and_month(&plain) {
        Some((day, month)) => Day::from_ymd(year, month, day),
        None => {
            let date = read_friendly(&format!("{plain} {year}")).ok()?;
            date.earliest().filter(|_| date.precision() == Precision::Day)
        }
    };
    let mut days = (today.year()..=today.year() + YEARS).filter_map(in_year);
    let day = days.find(|day| *day >= today);
    match (day, named) {
        (Some(day), Some(weekday)) if day.weekday() != weekday => {
            let date = Date::on(day).map(|date| date.short()).unwrap_or_default();
            Err(format!("{date} is a {}, not a {weekday}", day.weekday()))
        }
        (Some(day), _) => Date::on(day).ok_or_else(|| DUE.to_owned()),
        (None, _) => Err(no_due(text, today)),
    }
}

/// Why a text is no due day: what is wrong with the date that it seems to be, or what can be written.
fn no_due(text: &str, today: Day) -> String {
    let with_year = format!("{text} {}", today.year());
    let errors = [text, &with_year].into_iter().filter_map(|text| read_friendly(text).err());
    let mut helps = errors.filter_map(|error| match error.hint() {
        Some(hint) => Some(format!("{}; {hint}", error.what())),
        None => error.is_no_such_day().then(|| error.what().to_owned()),
    });
    helps.next().unwrap_or_else(|| DUE.to_owned())
}

/// The day of the week that a word names, with three letters at least.
fn weekday_of(word: &str) -> Option<Weekday> {
    let names = |day: &Weekday| word.len() >= 3 && day.name().to_lowercase().starts_with(word);
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
    fn a_due_day_may_be_counted_from_today() {
        for (typed, kept) in [
            ("today", "2026-11-26"),
            ("Tomorrow", "2026-11-27"),
            ("in 10 days", "2026-12-06"),
            ("in 2  weeks", "2026-12-10"),
            ("in a week", "2026-12-03"),
            ("next tuesday", "2026-12-01"),
            ("next Thu", "2026-12-03"),
            ("end of january", "2027-01-31"),
            ("End of Nov", "2026-11-30"),
            ("end of feb 2028", "2028-02-29"),
        ] {
            assert_eq!(due(typed).as_deref(), Ok(kept), "{typed}");
        }
    }

    #[test]
    fn a_day_of_the_week_may_stand_beside_the_date_and_must_be_right() {
        for (typed, kept) in [
            ("Fri 4 Dec", "2026-12-04"),
            ("friday, 12 march", "2027-03-12"),
            ("Fri 4 Dec 2026", "2026-12-04"),
        ] {
            assert_eq!(due(typed).as_deref(), Ok(kept), "{typed}");
        }
        assert_eq!(due("Thu 4 Dec"), Err("4 Dec 2026 is a Friday, not a Thursday".to_owned()));
    }

    #[test]
    fn what_names_no_one_day_is_refused() {
        for typed in ["fr", "march", "12", "12/3", "3-12", "12.3.4.", "end of 2027", "in 99999 days"] {
            assert!(due(typed).is_err(), "{typed}: {:?}", due(typed));
        }
    }

    #[test]
    fn the_refusal_says_in_one_sentence_what_can_be_written() {
        for typed in ["soon", "asap", "next year", "in some days", "end of it", "when the dye is dry", "next"]
        {
            assert_eq!(due(typed), Err(DUE.to_owned()), "{typed}");
        }
        // What it says can be written, each of it.
        for typed in DUE.strip_prefix("write a day such as ").unwrap().replace(" or ", ", ").split(", ") {
            assert!(due(typed).is_ok(), "{typed}: {:?}", due(typed));
        }
        // What is nearly a date is told as for any date.
        for (typed, says) in [
            ("31 april", "April 2026 has 30 days"),
            ("31 feb 2027", "February 2027 has 28 days"),
            ("12 agust", "write 2026-08-12"),
        ] {
            let error = due(typed).unwrap_err();
            assert!(error.ends_with(says), "{typed}: {error}");
        }
    }
}
