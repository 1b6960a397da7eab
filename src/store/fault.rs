//! What is wrong in a board's folder, where, and what to do about it.
//!
//! A fault never stops the rest of the board from opening. Its words are safe to print: whatever comes from a file
//! has passed [`clean`].

use std::fmt;

use crate::board::RecordRef;
use crate::trade::plain::is_unsafe;

/// Something in the folder that needs a person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The file, relative to the board's folder, with forward slashes.
    pub file: String,
    /// Where in the file; `None` where the file as a whole is meant.
    pub at: Option<Position>,
    /// What is wrong, and what was expected.
    pub what: String,
    /// What to do: the nearest valid word, or the next step.
    pub hint: Option<String>,
    /// What kind of fault.
    pub kind: FaultKind,
    /// The record that it concerns, where it is one.
    pub record: Option<RecordRef>,
}

/// A place in a text file, both counted from 1; columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// The line.
    pub line: u32,
    /// The character in the line.
    pub column: u32,
}

impl Position {
    /// From larger numbers; no file that is read has more lines than fit.
    pub(super) fn new(line: usize, column: usize) -> Self {
        let small = |number| u32::try_from(number).unwrap_or(u32::MAX);
        Self { line: small(line), column: small(column) }
    }
}

/// What a fault means for the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FaultKind {
    /// The file cannot be read: its records are missing or old, and it is left alone until it is repaired.
    Damaged,
    /// A record names one that is not there.
    Dangling,
    /// Two records have one name.
    Twice,
    /// A file that is not one of the board's and looks as if it should be.
    Stray,
    /// A change that was being saved when the program stopped and that no longer fits the files.
    Unsaved,
    /// A history log on this machine that cannot be read.
    Closed,
}

impl fmt::Display for Position {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.line, self.column)
    }
}

/// `outfits/x.yaml:3:1: unknown key ‘titel’: did you mean ‘title’?`, on one line.
impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if let Some(at) = self.at {
            write!(f, ":{at}")?;
        }
        write!(f, ": {}", self.what)?;
        match &self.hint {
            Some(hint) => write!(f, ": {hint}"),
            None => Ok(()),
        }
    }
}

impl std::error::Error for Fault {}

impl Fault {
    /// A fault of a kind in a file; place, hint and record are put in by [`Fault::at`] and its like.
    pub(super) fn new(kind: FaultKind, file: impl AsRef<str>, what: impl AsRef<str>) -> Self {
        let (file, what) = (clean(file.as_ref(), LONGEST_TEXT), clean(what.as_ref(), LONGEST_TEXT));
        Self { file, at: None, what, hint: None, kind, record: None }
    }

    /// With its place.
    pub(super) fn at(mut self, at: impl Into<Option<Position>>) -> Self {
        self.at = at.into();
        self
    }

    /// With what to do.
    pub(super) fn hint(mut self, hint: impl AsRef<str>) -> Self {
        self.hint = Some(clean(hint.as_ref(), LONGEST_TEXT));
        self
    }

    /// With the record that it concerns.
    pub(super) fn of(mut self, record: impl Into<Option<RecordRef>>) -> Self {
        self.record = record.into();
        self
    }
}

/// The most characters of a message: enough for every list of valid keys, and no more than a screen can show.
const LONGEST_TEXT: usize = 600;

/// Text from a file made fit to print: control characters and those that turn the direction of writing become `�`,
/// and what is longer than `most` characters ends in `…`.
pub(super) fn clean(text: &str, most: usize) -> String {
    let mut shown: String =
        text.chars().take(most).map(|c| if is_unsafe(c) { '\u{fffd}' } else { c }).collect();
    if text.chars().nth(most).is_some() {
        shown.pop();
        shown.push('…');
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_prints_on_one_line_without_control_characters() {
        let fault = Fault::new(FaultKind::Damaged, "outfits/x\u{1b}[2J.yaml", "bad\nthing\u{202e}")
            .at(Position { line: 3, column: 7 })
            .hint("write `y`");
        assert_eq!(fault.to_string(), "outfits/x\u{fffd}[2J.yaml:3:7: bad\u{fffd}thing\u{fffd}: write `y`");
    }

    #[test]
    fn long_text_is_cut() {
        assert_eq!(clean("abcdef", 4), "abc…");
        assert_eq!(clean("abcd", 4), "abcd");
    }
}
