//! What is wrong with a text that should have been a date, where, and which
//! date was probably meant.

use std::fmt;

use super::{Date, words};

/// A text is not a date that a board can hold.
///
/// The message names the text, what was expected, the character at which the
/// reading stopped (counted from 1), and, where one can be told, the nearest
/// date in the form in which it would be accepted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{} is not a date: {what} (at character {at}){}", Shown(text), Advice(nearest))]
pub struct DateError {
    text: String,
    at: usize,
    what: String,
    nearest: Vec<Date>,
    no_such_day: bool,
}

impl DateError {
    pub(super) fn new(text: &str, fault: Fault) -> DateError {
        DateError {
            text: text.chars().take(KEPT).collect(),
            at: fault.at,
            what: fault.what,
            nearest: fault.nearest,
            no_such_day: fault.no_such_day,
        }
    }

    /// The character at which the reading stopped, counted from 1.
    pub fn at(&self) -> usize {
        self.at
    }

    /// What was wrong or expected there, without the hint.
    pub fn what(&self) -> &str {
        &self.what
    }

    /// The nearest dates that would be accepted, likeliest first; often none.
    pub fn nearest(&self) -> &[Date] {
        &self.nearest
    }

    /// Whether it names a day that its month does not have.
    pub fn is_no_such_day(&self) -> bool {
        self.no_such_day
    }

    /// The hint as a sentence part, for instance "write 1926-08-14".
    pub fn hint(&self) -> Option<String> {
        let advice = Advice(&self.nearest).to_string();
        advice.strip_prefix("; ").map(str::to_owned)
    }
}

/// How much of a refused text an error keeps: enough to recognise it by, and
/// one more to know that it was longer.
const KEPT: usize = 41;

/// A fault on its way up to the place that knows the whole text.
#[derive(Clone, Debug)]
pub(super) struct Fault {
    /// Counted from 1.
    pub at: usize,
    pub what: String,
    pub nearest: Vec<Date>,
    pub no_such_day: bool,
}

impl Fault {
    pub fn new(at: usize, what: impl Into<String>) -> Fault {
        Fault { at, what: what.into(), nearest: Vec::new(), no_such_day: false }
    }

    /// A day that its month does not have. Which day was meant instead would be a guess, so none is named.
    pub fn no_such_day(at: usize, year: i64, month: u8, length: u8) -> Fault {
        let what = format!("{} {year} has {length} days", words::name_of_month(month));
        Fault { no_such_day: true, ..Fault::new(at, what) }
    }

    /// Adds a date that may have been meant.
    #[must_use]
    pub fn or_write(mut self, date: impl Into<Option<Date>>) -> Fault {
        self.nearest.extend(date.into());
        self
    }
}

struct Shown<'a>(&'a str);

impl fmt::Display for Shown<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Debug form of a string: quoted, and control characters escaped, so
        // that a hostile file cannot write to the terminal.
        if self.0.chars().count() < KEPT {
            return write!(f, "{:?}", self.0);
        }
        let start: String = self.0.chars().take(KEPT - 1).collect();
        write!(f, "{start:?}…")
    }
}

struct Advice<'a>(&'a [Date]);

impl fmt::Display for Advice<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, date) in self.0.iter().enumerate() {
            f.write_str(if index == 0 { "; write " } else { " or " })?;
            write!(f, "{date}")?;
        }
        Ok(())
    }
}
