//! One sheet as rows of text, whatever file it comes from.
//!
//! It knows no headings and no board. CSV is UTF-8, with or without a byte order mark, parted by commas, semicolons or
//! tabs; which, the first line says. Whatever is read is bounded: [`LARGEST`], [`ROWS`], [`COLUMNS`], [`CELL`].

use std::io;
use std::path::Path;

use super::workbook;
use crate::bring::file;
use crate::trade::plain::cleaned;

/// The most bytes of a file: 32 MiB.
pub const LARGEST: u64 = 32 << 20;
/// The most rows that hold anything.
pub const ROWS: usize = 20_000;
/// The most columns.
pub const COLUMNS: usize = 200;
/// The most bytes of a cell: 64 KiB.
pub const CELL: usize = 64 << 10;

/// A sheet: its rows that hold anything.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Grid {
    /// The rows.
    pub rows: Vec<Row>,
    /// The sheet of the workbook, where it comes from one.
    pub sheet: Option<String>,
}

/// A row of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its number, as a spreadsheet counts: from 1, with empty rows and the headings.
    pub number: usize,
    /// Its cells, without what would steer a terminal and without blanks around them.
    pub cells: Vec<String>,
}

/// Why a file is no table that can be read.
#[derive(Debug, thiserror::Error)]
pub enum GridError {
    /// The file cannot be read.
    #[error("it cannot be read: {0}")]
    Io(#[from] io::Error),
    /// It is a folder or something stranger.
    #[error("it is no file")]
    NoFile,
    /// Larger than [`LARGEST`].
    #[error("it has more than {} MiB", LARGEST >> 20)]
    Large,
    /// More than [`ROWS`].
    #[error("it has more than {ROWS} rows that hold anything")]
    Rows,
    /// More than [`COLUMNS`].
    #[error("row {0} has more than {COLUMNS} columns")]
    Columns(usize),
    /// Cells that hold more than [`LARGEST`] together, each counted wherever it stands.
    #[error("its cells hold more than {} MiB of text", LARGEST >> 20)]
    Texts,
    /// More than [`CELL`].
    #[error("row {row}, column {column}: the cell has more than {} KiB", CELL >> 10)]
    Cell {
        /// Its row.
        row: usize,
        /// The letters of its column.
        column: String,
    },
    /// Nothing in it.
    #[error("it is empty")]
    Empty,
    /// Bytes that are no text; the line where they begin.
    #[error("it is not UTF-8 from line {0} on")]
    Encoding(usize),
    /// Text of another kind, or no text.
    #[error("it is {0}, and expected is CSV in UTF-8 or an XLSX workbook")]
    Kind(&'static str),
    /// A workbook that is torn, or none.
    #[error("it is no XLSX workbook that can be read: {0}")]
    Workbook(String),
    /// A workbook has no such sheet; those that it has.
    #[error("it has no sheet `{wanted}`: there {}", listed(.there))]
    Sheet {
        /// The name that was asked for.
        wanted: String,
        /// Those that there are.
        there: Vec<String>,
    },
    /// CSV has no sheets.
    #[error("it is CSV, which has no sheets")]
    NoSheets,
}

fn listed(sheets: &[String]) -> String {
    match sheets {
        [] => "is none".to_owned(),
        [one] => format!("is `{one}`"),
        several => format!("are `{}`", several.join("`, `")),
    }
}

impl GridError {
    /// What to do about it.
    pub fn hint(&self) -> Option<&'static str> {
        match self {
            Self::Encoding(_) => Some("save it as `CSV UTF-8` in the spreadsheet"),
            Self::Kind(_) => {
                Some("open the table in a spreadsheet, and save it as `CSV UTF-8` or as a workbook (XLSX)")
            }
            Self::Workbook(_) => Some(
                "copy or download it once more, or open it in a spreadsheet and save it as a new workbook or as `CSV UTF-8`",
            ),
            Self::Large | Self::Rows | Self::Texts => Some("bring it in in parts"),
            Self::Columns(_) => Some("take out the columns that are not needed"),
            Self::NoSheets => Some("leave out `--sheet`"),
            Self::Io(_) | Self::NoFile | Self::Cell { .. } | Self::Empty | Self::Sheet { .. } => None,
        }
    }
}

impl Grid {
    /// Reads a file; of a workbook this sheet, else the first.
    ///
    /// # Errors
    /// [`GridError`].
    pub fn open(path: &Path, sheet: Option<&str>) -> Result<Self, GridError> {
        let bytes = file::bytes(path, LARGEST)?.ok_or(GridError::NoFile)?;
        Self::read(&bytes, sheet)
    }

    /// Reads the bytes of a file; of a workbook this sheet, else the first.
    ///
    /// # Errors
    /// [`GridError`].
    pub fn read(bytes: &[u8], sheet: Option<&str>) -> Result<Self, GridError> {
        if bytes.len() as u64 > LARGEST {
            return Err(GridError::Large);
        }
        if let Some(kind) = other_kind(bytes) {
            return Err(GridError::Kind(kind));
        }
        let grid = match bytes {
            [] => return Err(GridError::Empty),
            [b'P', b'K', 3 | 5, ..] => workbook::read(bytes, sheet)?,
            [0xd0, 0xcf, 0x11, 0xe0, ..] => {
                return Err(GridError::Kind("an old or a locked workbook (XLS, or one with a password)"));
            }
            [0xff, 0xfe, ..] | [0xfe, 0xff, ..] => return Err(GridError::Kind("UTF-16 text")),
            _ if sheet.is_some() => return Err(GridError::NoSheets),
            _ => Self { rows: text(bytes)?, sheet: None },
        };
        if grid.rows.is_empty() { Err(GridError::Empty) } else { Ok(grid) }
    }
}

/// What a file is that begins as files of other kinds do.
fn other_kind(bytes: &[u8]) -> Option<&'static str> {
    let kinds: [(&[u8], &str); 9] = [
        (b"%PDF", "a PDF, which holds pages and no table"),
        (b"\x89PNG", "a picture (PNG)"),
        (b"\xff\xd8\xff", "a picture (JPEG)"),
        (b"GIF8", "a picture (GIF)"),
        (b"{\\rtf", "a text document (RTF)"),
        (b"<!DOCTYPE", "a web page (HTML)"),
        (b"<html", "a web page (HTML)"),
        (b"\x1f\x8b", "a packed file (gzip)"),
        (b"7z\xbc\xaf\x27\x1c", "a packed file (7z)"),
    ];
    let starts =
        |start: &[u8]| bytes.get(..start.len()).is_some_and(|begins| begins.eq_ignore_ascii_case(start));
    kinds.iter().find(|(start, _)| starts(start)).map(|(_, kind)| *kind)
}

fn text(bytes: &[u8]) -> Result<Vec<Row>, GridError> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    if bytes.contains(&0) {
        return Err(GridError::Kind("no text"));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let before = bytes.get(..error.valid_up_to()).unwrap_or_default();
        GridError::Encoding(1 + before.iter().filter(|byte| **byte == b'\n').count())
    })?;
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(separator(text))
        .from_reader(bytes);
    let mut rows = Rows::default();
    let mut number = 0;
    let mut record = csv::StringRecord::new();
    loop {
        let first = reader.position().line();
        match reader.read_record(&mut record) {
            Ok(true) => {}
            Ok(false) => break,
            Err(error) => return Err(GridError::Io(io::Error::other(error))),
        }
        // Empty lines are skipped, and counted here: the lines that were read, less those inside cells.
        let inside = record.iter().map(|cell| cell.matches('\n').count() as u64).sum::<u64>();
        let skipped = (reader.position().line() - first).saturating_sub(1 + inside);
        number += 1 + usize::try_from(skipped).unwrap_or(0);
        let filled = record.iter().enumerate().filter(|(_, cell)| !cell.trim().is_empty());
        let most = filled.last().map_or(0, |(last, _)| last + 1);
        rows.push(number, record.iter().take(most))?;
    }
    Ok(rows.0)
}

/// What parts the cells: whichever of the three the first line has most of, outside quotes.
fn separator(text: &str) -> u8 {
    let mut counts = [(b',', 0), (b';', 0), (b'\t', 0)];
    let mut quoted = false;
    for byte in text.trim_start().bytes() {
        match byte {
            b'"' => quoted = !quoted,
            b'\n' | b'\r' if !quoted => break,
            _ if quoted => {}
            _ => counts.iter_mut().filter(|(one, _)| *one == byte).for_each(|(_, count)| *count += 1),
        }
    }
    // The first of those that are as many.
    counts.iter().rev().max_by_key(|(_, count)| *count).map_or(b',', |(separator, _)| *separator)
}

/// Rows as they come in, within the limits.
#[derive(Default)]
pub(super) struct Rows(pub(super) Vec<Row>);

impl Rows {
    /// Adds a row, unless nothing is in it.
    pub(super) fn push<'a>(
        &mut self,
        number: usize,
        cells: impl IntoIterator<Item = &'a str>,
    ) -> Result<(), GridError> {
        let mut kept = Vec::new();
        for cell in cells {
            if kept.len() == COLUMNS {
                return Err(GridError::Columns(number));
            }
            if cell.len() > CELL {
                return Err(GridError::Cell { row: number, column: letters(kept.len()) });
            }
            kept.push(clean(cell));
        }
        if kept.iter().all(String::is_empty) {
            return Ok(());
        }
        if self.0.len() == ROWS {
            return Err(GridError::Rows);
        }
        self.0.push(Row { number, cells: kept });
        Ok(())
    }
}

/// The text without what would steer a terminal and without blanks around it; its only break is `\n`.
fn clean(text: &str) -> String {
    cleaned(text).trim().to_owned()
}

/// The name of a column in a spreadsheet: `A` to `Z`, then `AA`.
pub fn letters(column: usize) -> String {
    let last = char::from(b'A' + u8::try_from(column % 26).unwrap_or(0));
    match column / 26 {
        0 => last.to_string(),
        more => letters(more - 1) + &last.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(text: &str) -> Vec<(usize, Vec<String>)> {
        let grid = Grid::read(text.as_bytes(), None).unwrap();
        grid.rows.into_iter().map(|row| (row.number, row.cells)).collect()
    }

    fn refusal(bytes: &[u8]) -> String {
        Grid::read(bytes, None).unwrap_err().to_string()
    }

    #[test]
    fn commas_semicolons_and_tabs_part_cells_and_a_mark_is_no_text() {
        for text in ["a,b\n1,\"x;y\"\n", "\u{feff}a;b\r\n1;x;y\r\n", "a\tb\n1\tx\n"] {
            let rows = cells(text);
            assert_eq!(rows[0], (1, vec!["a".to_owned(), "b".to_owned()]), "{text}");
            assert_eq!(rows[1].1[0], "1", "{text}");
        }
    }

    #[test]
    fn rows_are_numbered_as_a_spreadsheet_does() {
        let rows = cells("\na,b\n\"1\nand\n\nmore\",x\n,\n\n\n2,y\n3,z");
        let numbers: Vec<usize> = rows.iter().map(|(number, _)| *number).collect();
        assert_eq!(numbers, [2, 3, 7, 8]);
        assert_eq!(rows[1].1[0], "1\nand\n\nmore");
    }

    #[test]
    fn what_is_no_text_is_refused_with_the_line() {
        assert_eq!(refusal(b"a,b\nx,\xe9t\xe9\n"), "it is not UTF-8 from line 2 on");
        assert!(refusal(b"\xff\xfea\0").contains("UTF-16"));
        assert!(refusal(b"a,b\n\0").contains("no text"));
        assert_eq!(refusal(b""), "it is empty");
        assert_eq!(refusal(b"\n , \n\n"), "it is empty");
    }

    #[test]
    fn a_file_of_another_kind_is_named_with_what_to_do() {
        let kinds: [(&[u8], &str); 5] = [
            (
                b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n",
                "it is a PDF, which holds pages and no table, and expected is CSV",
            ),
            (b"\x89PNG\r\n\x1a\n\0", "it is a picture (PNG), and"),
            (b"\xff\xd8\xff\xe0", "it is a picture (JPEG), and"),
            (b"<!doctype html><table>", "it is a web page (HTML), and"),
            (b"abc\xff\0", "it is no text, and"),
        ];
        for (bytes, said) in kinds {
            let error = Grid::read(bytes, Some("Days")).err().filter(|_| said.contains("PDF"));
            let error = error.unwrap_or_else(|| Grid::read(bytes, None).unwrap_err());
            assert!(error.to_string().starts_with(said), "{error}");
            assert!(error.hint().is_some_and(|hint| hint.contains("save it as `CSV UTF-8`")));
        }
    }

    #[test]
    fn size_rows_columns_and_cells_have_an_end() {
        assert_eq!(
            refusal("a,".repeat(201).replace("a,", "a,x,").as_bytes()),
            "row 1 has more than 200 columns"
        );
        let huge = format!("a,b\n1,\"{}\"\n", "x".repeat(CELL + 1));
        assert_eq!(refusal(huge.as_bytes()), "row 2, column B: the cell has more than 64 KiB");
        assert_eq!(
            refusal("a\n".repeat(ROWS + 1).as_bytes()),
            "it has more than 20000 rows that hold anything"
        );
        assert_eq!(refusal(&vec![b'a'; (LARGEST + 1) as usize]), "it has more than 32 MiB");
    }

    #[test]
    fn columns_are_named_as_in_a_spreadsheet() {
        assert_eq!([0, 25, 26, 51, 52, 701, 702].map(letters), ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }

    #[test]
    fn what_would_steer_a_terminal_is_dropped() {
        assert_eq!(cells("a\n\"\u{1b}[2Jx\u{202e}\r\ny\tz\"\n")[1].1[0], "[2Jx\ny z");
    }
}
