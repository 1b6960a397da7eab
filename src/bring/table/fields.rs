//! One field of a record in a table: under which heading, how it is written in a cell, and how a cell is read.
//!
//! Reports write with the same functions, so that what they print can be brought in again. A cell that says what the
//! record says already changes nothing, also where the record holds more than a cell can show.

use super::columns::Heading;
use super::full::{cut, in_workbook, is_full};
use super::names::squeezed;
use crate::board::Board;
use crate::trade::cell::{bare, escaped, split};
use crate::trade::date::{Date, read_friendly};
use crate::trade::plain::{cleaned, line};

/// A field of a record.
pub struct Field<R> {
    /// Under which heading it stands.
    pub heading: Heading,
    /// What a cell says of it.
    pub written: fn(&Board, &R) -> Written,
    /// Takes it from a cell that says something; else why it cannot be.
    pub read: fn(&Board, &str, &mut R) -> Result<(), String>,
}

/// What a cell says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Written {
    /// Words.
    Text(String),
    /// Several items.
    Items(Vec<String>),
    /// A number.
    Number(u32),
}

impl Written {
    pub(super) fn maybe(value: Option<impl ToString>) -> Self {
        Self::Text(value.map(|value| value.to_string()).unwrap_or_default())
    }

    pub(super) fn items(items: impl IntoIterator<Item = impl ToString>) -> Self {
        Self::Items(items.into_iter().map(|item| item.to_string()).collect())
    }

    /// Whether a cell says the same, or as much of it as a cell of a workbook holds.
    fn is_said_by(&self, cell: &str) -> bool {
        self.is_whole_in(cell) || self.cut().is_some_and(|cut| squeezed(&cut) == squeezed(cell))
    }

    fn is_whole_in(&self, cell: &str) -> bool {
        match self {
            Self::Text(text) => squeezed(text) == squeezed(text_of(cell)),
            Self::Number(number) => number.to_string() == text_of(cell),
            Self::Items(items) => {
                let items = items.iter().map(|item| squeezed(item)).filter(|item| !item.is_empty());
                items.eq(items_of(cell).iter().map(|item| squeezed(item)))
            }
        }
    }

    /// What a workbook holds of it, where that is not all.
    fn cut(&self) -> Option<String> {
        let whole = match self {
            Self::Text(text) => in_workbook(&cleaned(text)).into_owned(),
            Self::Items(items) => {
                let items: Vec<String> =
                    items.iter().map(|item| escaped(&in_workbook(&line(item)), ';').into_owned()).collect();
                items.join("; ")
            }
            Self::Number(_) => return None,
        };
        let cut = cut(&whole);
        (cut.len() < whole.len()).then(|| cut.to_owned())
    }
}

impl<R> Field<R> {
    /// Takes the field from a cell, unless that is empty or says what stands there already.
    pub(super) fn put(&self, board: &Board, cell: &str, record: &mut R) -> Result<(), String> {
        if cell.is_empty() {
            return Ok(());
        }
        let written = (self.written)(board, record);
        if written.is_said_by(cell) {
            return Ok(());
        }
        if is_full(cell) && written.cut().is_some() {
            return Err("it is as full as a cell of a workbook can be, and the board has more: \
                        change it there, or bring it in as CSV"
                .to_owned());
        }
        (self.read)(board, cell, record)
    }

    /// Whether a cell says what the record says already.
    pub(super) fn is_said(&self, board: &Board, cell: &str, record: &R) -> bool {
        cell.is_empty() || (self.written)(board, record).is_said_by(cell)
    }
}

/// The words of a cell.
pub(super) fn text_of(cell: &str) -> &str {
    bare(cell.trim()).trim()
}

/// The items of a cell, parted by semicolons or line breaks; empty ones are none.
pub(super) fn items_of(cell: &str) -> Vec<String> {
    let items = split(cell, |c| matches!(c, ';' | '\n'));
    items.iter().map(|item| text_of(item).to_owned()).filter(|item| !item.is_empty()).collect()
}

/// A date as people write it.
pub(super) fn date_of(cell: &str) -> Result<Date, String> {
    read_friendly(text_of(cell)).map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_says_the_same_whatever_its_blanks_and_guards() {
        assert!(Written::Text("=1\n  x ".to_owned()).is_said_by("'=1 x"));
        assert!(!Written::Text("a".to_owned()).is_said_by("A"));
        assert!(Written::items(["", "a;b", "-c\nd"]).is_said_by(r"; a\;b;'-c d"));
        assert!(!Written::items(["a", "b"]).is_said_by("b; a"));
        assert!(Written::Number(3).is_said_by("3"));
    }

    #[test]
    fn as_much_of_a_text_as_a_workbook_holds_says_the_same_and_a_prefix_else_does_not() {
        let long = "word ".repeat(8000);
        let text = Written::Text(long.clone());
        assert!(text.is_said_by(cut(&long).trim()));
        assert!(!text.is_said_by(long[..32_000].trim()));
        let items = Written::items((0..9000).map(|number| format!("a;{number}")));
        let whole = (0..9000).map(|number| format!(r"a\;{number}")).collect::<Vec<_>>().join("; ");
        assert!(items.is_said_by(cut(&whole)) && !items.is_said_by(&whole[..32_000]));
    }

    #[test]
    fn semicolons_and_line_breaks_part_items() {
        assert_eq!(items_of("a; b\nc;;d\\;e"), ["a", "b", "c", "d;e"]);
    }
}
