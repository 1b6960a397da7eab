//! Dates and story values as people type them into a form: what they are kept as, or what is wrong with them.

use crate::board::StoryDay;
use crate::trade::date::{Date, Day, read_friendly};
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

/// The day on this machine's calendar.
pub(super) fn today() -> Date {
    let now = jiff::ZonedDateTime::now().date();
    let month = u8::try_from(now.month()).unwrap_or(1);
    let day = u8::try_from(now.day()).unwrap_or(1);
    let today = Day::from_ymd(i64::from(now.year()), month, day).and_then(Date::on);
    #[expect(
        clippy::expect_used,
        reason = "a civil calendar's day is a day of ours; both are proleptic Gregorian"
    )]
    today.expect("today is a day")
}
