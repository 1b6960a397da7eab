//! CSV after RFC 4180: a header, records with as many fields, CRLF at the end of each, UTF-8 without a mark.
//!
//! A spreadsheet takes a cell that begins with `=`, `+`, `-` or `@` for a formula, also behind blanks and in their
//! full-width forms, and a title must not be able to run one on the machine of whoever opens the report. So such a
//! text gets an apostrophe in front, and in a list each such item does; a semicolon inside an item of a list gets a
//! backslash. Numbers stay numbers: lengths are eighths of a
//! page and minutes with decimals, since a spreadsheet would read `3/8` as a date. Dates are EDTF, as `bring::table` and
//! other programs read them.
//!
//! What a table alone cannot say (gaps, cautions) follows its rows, in the first field of records of the same length;
//! the document's title and notes on reading are left to the other formats. Several tables are parted by an empty line, and
//! each has its title above its header, in the first field of a record of the same length.

use super::Text;
use crate::report::document::{Cell, Column, Document, Kind, Table};
use crate::report::plain::Plain;
use crate::trade::cell::{escaped, guarded};

/// See the module.
#[derive(Clone, Copy, Debug)]
pub struct Csv;

impl Text for Csv {
    fn write(&self, document: &Document) -> String {
        let mut to = String::new();
        for (at, table) in document.tables.iter().enumerate() {
            if at > 0 {
                to.push_str("\r\n");
            }
            write_table(&mut to, table);
        }
        let width = document.tables.last().map_or(1, |table| table.columns().len());
        for line in document.gaps.iter().chain(&document.cautions) {
            write_lone(&mut to, line, width);
        }
        to
    }
}

fn write_table(to: &mut String, table: &Table) {
    if !table.title().is_empty() {
        write_lone(to, table.title(), table.columns().len());
    }
    let headings: Vec<String> = table.columns().iter().map(heading).collect();
    write_record(to, &headings);
    for row in table.rows() {
        let fields: Vec<String> = row.iter().map(field).collect();
        write_record(to, &fields);
    }
}

fn heading(column: &Column) -> String {
    guarded(&heading_of(column)).into_owned()
}

/// A column's heading, with the unit of its numbers.
pub(super) fn heading_of(column: &Column) -> String {
    let heading = column.heading.as_str();
    match column.kind {
        Kind::Pages => format!("{heading} (eighths)"),
        Kind::Share => format!("{heading} (%)"),
        Kind::Metres => format!("{heading} (m)"),
        _ => heading.to_owned(),
    }
}

fn field(cell: &Cell) -> String {
    match cell {
        Cell::Empty => String::new(),
        Cell::Text(plain) => text(plain),
        Cell::List(items) => items.iter().map(item).collect::<Vec<_>>().join("; "),
        Cell::Date(date) => guarded(&date.to_string()).into_owned(),
        Cell::Money(money) => money.to_string(),
        Cell::Number(_) | Cell::Pages(_) | Cell::Minutes(_) | Cell::Share(_) | Cell::Metres(_) => {
            cell.value().map(|value| value.to_string()).unwrap_or_default()
        }
    }
}

/// One of several, in which a semicolon is no end.
fn item(plain: &Plain) -> String {
    escaped(&text(plain), ';').into_owned()
}

fn text(plain: &Plain) -> String {
    guarded(plain.as_str()).into_owned()
}

/// A record of so many fields, of which all but the first are empty.
fn write_lone(to: &mut String, line: &Plain, width: usize) {
    let mut fields = vec![String::new(); width];
    if let Some(first) = fields.first_mut() {
        *first = text(line);
    }
    write_record(to, &fields);
}

fn write_record(to: &mut String, fields: &[String]) {
    for (at, field) in fields.iter().enumerate() {
        if at > 0 {
            to.push(',');
        }
        // A record of one empty field would be an empty line, which readers skip.
        let lone = fields.len() == 1 && field.is_empty();
        if lone || field.contains([',', '"', '\r', '\n']) || field.trim() != field {
            to.push('"');
            to.push_str(&field.replace('"', "\"\""));
            to.push('"');
        } else {
            to.push_str(field);
        }
    }
    to.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::document::hostile;

    /// What a cell must hold when an independent reader has read it back.
    fn expected(cell: &Cell) -> String {
        match cell {
            Cell::Empty => String::new(),
            Cell::Text(plain) => guarded(plain.as_str()).into_owned(),
            Cell::List(items) => {
                let item = |item: &Plain| guarded(item.as_str()).replace(';', "\\;");
                items.iter().map(item).collect::<Vec<_>>().join("; ")
            }
            Cell::Date(date) => guarded(&date.to_string()).into_owned(),
            Cell::Number(number) => number.to_string(),
            Cell::Pages(length) => length.get().to_string(),
            Cell::Minutes(length) => (f64::from(length.get()) / 8.0).to_string(),
            Cell::Share(share) => share.percent().to_string(),
            Cell::Money(money) => money.to_string(),
            Cell::Metres(length) => (length.millimetres() / 1_000.0).to_string(),
        }
    }

    #[test]
    fn an_independent_reader_reads_every_cell_back() {
        let document = hostile();
        let text = Csv.write(&document);
        let mut reader = ::csv::ReaderBuilder::new().has_headers(true).from_reader(text.as_bytes());
        let headers: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
        assert_eq!(headers, ["Scene", "'=Look", "Dressing", "Change", "Pages (eighths)", "Minutes"]);
        let read: Vec<Vec<String>> =
            reader.records().map(|record| record.unwrap().iter().map(str::to_owned).collect()).collect();
        let table = &document.tables[0];
        for (row, read) in table.rows().iter().zip(&read) {
            let wanted: Vec<String> = row.iter().map(expected).collect();
            assert_eq!(*read, wanted);
        }
        let after: Vec<&str> = read[table.rows().len()..].iter().map(|row| row[0].as_str()).collect();
        assert_eq!(after, ["2 files could not be read", "'=ask the stunt coordinator"]);
    }

    #[test]
    fn no_cell_starts_a_formula() {
        let text = Csv.write(&hostile());
        let mut reader = ::csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
        let mut guarded = 0;
        for record in reader.records() {
            for cell in record.unwrap().iter() {
                let first = cell.trim_start_matches(['\u{feff}', '\u{a0}', ' ']).chars().next();
                assert!(!first.is_some_and(|c| "=+-@＝＋－＠\t\r".contains(c)), "{cell:?}");
                guarded += usize::from(first == Some('\''));
            }
        }
        assert!(guarded >= 24, "{guarded} cells were guarded");
    }

    #[test]
    fn every_line_ends_in_crlf_and_control_characters_are_gone() {
        let text = Csv.write(&hostile());
        assert!(text.ends_with("\r\n"));
        assert!(!text.replace("\r\n", "").contains('\r'));
        assert!(!text.contains('\u{1b}'));
    }

    #[test]
    fn each_of_several_tables_has_its_title_above_its_header() {
        let table = |key, title: &str| {
            let mut table = Table::titled(
                key,
                title,
                vec![Column::new("a", "A", Kind::Text), Column::new("b", "B", Kind::Number)],
            );
            table.push(vec![Cell::text("x"), Cell::Number(1)]);
            table
        };
        let tables = vec![table("one", "=One, the first"), table("two", "Two")];
        let document = Document { tables, ..Document::default() };
        assert_eq!(Csv.write(&document), "\"'=One, the first\",\r\nA,B\r\nx,1\r\n\r\nTwo,\r\nA,B\r\nx,1\r\n");
    }
}
