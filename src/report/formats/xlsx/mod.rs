//! XLSX (ECMA-376), for spreadsheets: a sheet for each table, its head frozen and printed on every page, numbers as
//! numbers, and a last sheet that says what the tables alone cannot: title, what is missing, cautions, what each
//! sheet holds, notes.
//!
//! All words are written as words, so that none can be a formula. What is in a cell is what is in the CSV's, save the
//! apostrophes that guard that, and save what is longer than a cell: that is cut, and named among what is missing.
//! Where rows have figures, a first column shows them; the others are the same behind it.

mod figures;

use rust_xlsxwriter::{Format as Style, FormatAlign, Workbook, Worksheet, XlsxError};

use super::csv::heading_of;
use super::{Format, Unwritten};
use crate::bring::table::{WORKBOOK_CELL, cut, in_workbook, letters};
use crate::report::document::{Cell, Column, Document, Kind, Table};
use crate::report::plain::Plain;
use crate::trade::cell::escaped;

/// See the module.
#[derive(Clone, Copy, Debug)]
pub struct Xlsx;

/// The longest name of a sheet.
const LONGEST_NAME: usize = 31;

/// Columns are no narrower and no wider than this, in characters.
const WIDTHS: (usize, usize) = (6, 42);

/// The most cells that are named, of those that were cut.
const MOST_NAMED: usize = 20;

/// The sheet that says the rest.
const ABOUT: &str = "About";

impl Format for Xlsx {
    fn bytes(&self, document: &Document) -> Result<Vec<u8>, Unwritten> {
        written(document).map_err(|error| Unwritten(error.to_string()))
    }

    fn shows_figures(&self) -> bool {
        true
    }
}

fn written(document: &Document) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    let mut names: Vec<String> = vec![ABOUT.to_lowercase()];
    let mut shortened: Vec<String> = Vec::new();
    let mut sheets = Vec::new();
    for table in &document.tables {
        let name = name_of(document, table, &mut names);
        let sheet = book.add_worksheet();
        sheet.set_name(name.as_str())?;
        let cells = write_table(sheet, table)?;
        shortened.extend(cells.into_iter().map(|cell| format!("{cell} of `{name}`")));
        sheets.push((name, table));
        set_page(sheet, document)?;
    }
    let about = book.add_worksheet();
    about.set_name(ABOUT)?;
    let gaps: Vec<Plain> = document.gaps.iter().cloned().chain(gap_of(&shortened)).collect();
    write_about(about, document, &gaps, &sheets)?;
    book.save_to_buffer()
}

/// Says which cells are not whole.
fn gap_of(shortened: &[String]) -> Option<Plain> {
    let named = shortened.iter().take(MOST_NAMED).map(String::as_str).collect::<Vec<_>>().join(", ");
    let more = match shortened.len() {
        0 => return None,
        all if all > MOST_NAMED => format!(" and {} more", all - MOST_NAMED),
        _ => String::new(),
    };
    let why = format!("a cell of a workbook holds {WORKBOOK_CELL} characters, the CSV has them all");
    Some(Plain::line(&format!("Cut short: {named}{more}; {why}.")))
}

/// A name that a sheet may have and no other has: Excel compares them without case.
fn name_of(document: &Document, table: &Table, taken: &mut Vec<String>) -> String {
    let wanted = if table.key().is_empty() { document.key } else { table.key() };
    let fits = |c: &char| !matches!(c, '[' | ']' | ':' | '*' | '?' | '/' | '\\' | '\'');
    let plain: String = wanted.chars().filter(fits).take(LONGEST_NAME - 3).collect();
    let numbered = |number: usize| if number == 1 { plain.clone() } else { format!("{plain} {number}") };
    let free = |name: &String| !taken.contains(&name.to_lowercase());
    let name = (1..=taken.len() + 1).map(numbered).find(free).unwrap_or_default();
    taken.push(name.to_lowercase());
    name
}

/// Writes a table, and says which of its cells had to be cut.
fn write_table(sheet: &mut Worksheet, table: &Table) -> Result<Vec<String>, XlsxError> {
    let mut shortened = Vec::new();
    let head = Style::new().set_bold().set_text_wrap().set_align(FormatAlign::Top);
    let words = Style::new().set_text_wrap().set_align(FormatAlign::Top);
    let first = u16::from(table.has_figures());
    if table.has_figures() {
        figures::write(sheet, table, &head)?;
    }
    let number = Style::new().set_align(FormatAlign::Top);
    let money = Style::new().set_align(FormatAlign::Top).set_num_format("#,##0.00");
    for ((at, column), of) in (first..).zip(table.columns()).zip(0..) {
        sheet.write_string_with_format(0, at, cut(&heading_of(column)), &head)?;
        sheet.set_column_width(at, width_of(table, of, column))?;
    }
    for (row, cells) in (1..).zip(table.rows()) {
        for (at, cell) in (first..).zip(cells) {
            if let Some(value) = cell.value() {
                let style = if matches!(cell, Cell::Money(_)) { &money } else { &number };
                sheet.write_number_with_format(row, at, value, style)?;
            } else if *cell != Cell::Empty {
                let text = words_of(cell);
                let kept = cut(&text);
                if kept.len() < text.len() {
                    shortened.push(format!("{}{}", letters(usize::from(at)), u64::from(row) + 1));
                }
                sheet.write_string_with_format(row, at, kept, &words)?;
            }
        }
    }
    let last =
        u16::try_from(table.columns().len().saturating_sub(1)).unwrap_or(u16::MAX).saturating_add(first);
    let rows = u32::try_from(table.rows().len()).unwrap_or(u32::MAX);
    sheet.set_freeze_panes(1, 0)?;
    sheet.set_repeat_rows(0, 0)?;
    if rows > 0 {
        sheet.autofilter(0, 0, rows, last)?;
    }
    Ok(shortened)
}

/// How a sheet is printed: across, as wide as one page, with the title above and the page below.
fn set_page(sheet: &mut Worksheet, document: &Document) -> Result<(), XlsxError> {
    sheet.set_landscape();
    sheet.set_print_fit_to_pages(1, 0);
    // An ampersand begins a code there, and 255 characters are the most.
    let title: String = document.title.as_str().chars().take(100).collect::<String>().replace('&', "&&");
    sheet.set_header(format!("&L{title}"));
    sheet.set_footer("&L&A&RPage &P of &N");
    Ok(())
}

fn write_about(
    sheet: &mut Worksheet,
    document: &Document,
    gaps: &[Plain],
    sheets: &[(String, &Table)],
) -> Result<(), XlsxError> {
    let bold = Style::new().set_bold().set_text_wrap().set_align(FormatAlign::Top);
    let words = Style::new().set_text_wrap().set_align(FormatAlign::Top);
    sheet.set_column_width(0, 14)?;
    sheet.set_column_width(1, 100)?;
    let once = |heading, text: &Plain| (heading, vec![text.as_str().to_owned()]);
    let all =
        |heading, texts: &[Plain]| (heading, texts.iter().map(|text| text.as_str().to_owned()).collect());
    let titled = sheets.iter().filter(|(_, table)| !table.title().is_empty());
    let told = titled.map(|(name, table)| told(name, table)).collect();
    let parts: [(&str, Vec<String>); 6] = [
        once("Report", &document.title),
        once("", &document.subtitle),
        all("Missing", gaps),
        all("Cautions", &document.cautions),
        ("Sheets", told),
        all("Notes", &document.notes),
    ];
    let mut row = 0;
    for (heading, texts) in parts {
        for (at, text) in texts.iter().filter(|text| !text.is_empty()).enumerate() {
            if at == 0 {
                sheet.write_string_with_format(row, 0, heading, &bold)?;
            }
            sheet.write_string_with_format(row, 1, cut(text), &words)?;
            row += 1;
        }
    }
    set_page(sheet, document)
}

/// What a sheet holds and how it is to be read: `mergers: The cheapest mergers. Each two looks stand once.`
fn told(name: &str, table: &Table) -> String {
    let lead = format!("{name}: {}", table.title());
    if table.reading().is_empty() { lead } else { format!("{lead}. {}", table.reading()) }
}

/// The words of a cell; of a list as in CSV.
fn words_of(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => in_workbook(text.as_str()).into_owned(),
        Cell::List(items) => {
            let item = |item: &Plain| escaped(&in_workbook(item.as_str()), ';').into_owned();
            items.iter().map(item).collect::<Vec<_>>().join("; ")
        }
        Cell::Date(date) => date.to_string(),
        _ => String::new(),
    }
}

/// The width in characters that shows most of a column's cells on few lines.
fn width_of(table: &Table, at: usize, column: &Column) -> f64 {
    let longest_word =
        |text: &str| text.split_whitespace().map(|word| word.chars().count()).max().unwrap_or(0);
    let heading = longest_word(&heading_of(column));
    let widest = table.rows().iter().map(|row| match &row[at] {
        cell @ (Cell::Text(_) | Cell::List(_) | Cell::Date(_)) => {
            words_of(cell).chars().count().min(WIDTHS.1)
        }
        _ => 0,
    });
    let of_kind = match column.kind {
        Kind::Text | Kind::List | Kind::Date => widest.max().unwrap_or(0),
        Kind::Number | Kind::Pages | Kind::Minutes | Kind::Share | Kind::Metres => 8,
        Kind::Money => 11,
    };
    of_kind.max(heading).clamp(WIDTHS.0, WIDTHS.1) as f64 + 2.0
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;

    use calamine::{Data, Reader, Xlsx as Read};

    use super::*;
    use crate::board::sample;
    use crate::report::Report;
    use crate::report::document::hostile;
    use crate::report::formats::{Csv, Text};
    use crate::trade::cell::guarded;

    fn read(document: &Document) -> Read<Cursor<Vec<u8>>> {
        calamine::open_workbook_from_rs(Cursor::new(Xlsx.bytes(document).unwrap())).unwrap()
    }

    fn said(cell: &Data) -> String {
        match cell {
            Data::Empty => String::new(),
            Data::String(text) => text.clone(),
            Data::Float(number) => number.to_string(),
            other => panic!("{other:?} is neither words nor a number"),
        }
    }

    /// Every sheet but the last beside the table of the CSV, cell by cell.
    fn is_as_the_csv(document: &Document) {
        let text = Csv.write(document);
        let mut records =
            ::csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
        let mut records = records.records().map(|record| record.unwrap());
        let mut book = read(document);
        let names = book.sheet_names();
        assert_eq!(names.len(), document.tables.len() + 1);
        for (table, name) in document.tables.iter().zip(&names) {
            let range = book.worksheet_range(name).unwrap();
            if !table.title().is_empty() {
                assert_eq!(&records.next().unwrap()[0], table.title().as_str());
            }
            for row in 0..=table.rows().len() {
                let record = records.next().unwrap();
                for (at, field) in record.iter().enumerate() {
                    // A picture stands before what the CSV has.
                    let column = at as u32 + u32::from(table.has_figures());
                    let cell = range.get_value((row as u32, column)).map(said).unwrap_or_default();
                    let place = format!("{name} row {row} column {at}");
                    if row > 0 && matches!(table.rows()[row - 1][at], Cell::Money(_)) {
                        // A number in the one, in the other with all its decimals.
                        let value = |text: &str| text.parse::<f64>().unwrap();
                        assert_eq!(value(&cell), value(field), "{place}");
                        continue;
                    }
                    // A spreadsheet has no carriage return of its own.
                    assert_eq!(guarded(&cell), field, "{place}");
                }
            }
        }
    }

    #[test]
    fn an_independent_reader_finds_what_is_in_the_csv() {
        let board = sample::board();
        for report in Report::ALL {
            is_as_the_csv(&report.document(&board, None));
        }
        is_as_the_csv(&hostile());
    }

    #[test]
    fn no_cell_is_a_formula_and_what_tables_cannot_say_is_on_the_last_sheet() {
        let document = hostile();
        let mut book = read(&document);
        for name in book.sheet_names() {
            assert!(book.worksheet_formula(&name).unwrap().is_empty(), "{name}");
        }
        let about = book.worksheet_range(ABOUT).unwrap();
        let all: Vec<String> =
            about.rows().map(|row| row.iter().map(said).collect::<Vec<_>>().join("|")).collect();
        assert!(all.contains(&"Missing|2 files could not be read".to_owned()), "{all:?}");
        assert!(all.contains(&"Cautions|=ask the stunt coordinator".to_owned()), "{all:?}");
    }

    #[test]
    fn what_a_cell_cannot_hold_is_named_among_what_is_missing() {
        let mut table =
            Table::new(vec![Column::new("a", "A", Kind::Text), Column::new("b", "B", Kind::List)]);
        let long = "x".repeat(WORKBOOK_CELL + 1);
        table.push(vec![Cell::text(&long[1..]), Cell::list(["x", &long])]);
        for _ in 0..21 {
            table.push(vec![Cell::text(&long), Cell::Empty]);
        }
        let document = Document { key: "x", tables: vec![table], ..Document::default() };
        let about = read(&document).worksheet_range(ABOUT).unwrap();
        let all: Vec<String> = about.rows().map(|row| row.iter().map(said).collect()).collect();
        let gap = all.iter().find(|line| line.starts_with("MissingCut short: ")).unwrap();
        assert!(gap.starts_with("MissingCut short: B2 of `x`, A3 of `x`, A4 of `x`,"), "{gap}");
        assert!(gap.contains("A21 of `x` and 2 more; a cell of a workbook holds 32767"), "{gap}");
    }

    #[test]
    fn sheets_have_names_that_they_may_have_and_text_has_the_length_that_it_may() {
        let table = || Table::titled("about", "", vec![Column::new("a", "A", Kind::Text)]);
        let mut document = Document { key: "x", tables: vec![table(), table()], ..Document::default() };
        let long = "ö𝄞".repeat(WORKBOOK_CELL);
        document.tables[0].push(vec![Cell::text(&long)]);
        let mut book = read(&document);
        assert_eq!(book.sheet_names(), ["about 2", "about 3", "About"]);
        let range = book.worksheet_range("about 2").unwrap();
        let there = said(range.get_value((1, 0)).unwrap());
        assert!(long.starts_with(&there) && there.encode_utf16().count() > WORKBOOK_CELL - 2);
    }

    #[test]
    fn pictures_and_flats_stand_in_a_first_column_and_the_others_read_as_before() {
        use std::io::Read as _;

        use serde_json::json;

        use crate::board::told;
        use crate::report::made::Folder;

        let folder = Folder::new();
        folder.picture("images/smock.png", (600, 900), [180, 40, 40]);
        let board = told::board(json!({
            "outfits": {"smock": {"title": "=Smock", "pictures": ["images/smock.png"]}},
            "looks": {
                "a": {"title": "A", "base": "smock"},
                "b": {"title": "B", "treatment": "invent", "pieces": [{"name": "coat"}]},
                "c": {"title": "C", "treatment": "invent"},
            },
        }));
        let document = Report::Looks.document(&board, Some(&folder.album()));
        assert!(document.gaps.is_empty());
        is_as_the_csv(&document);
        let bytes = Xlsx.bytes(&document).unwrap();
        let mut archive = zip::ZipArchive::new(Cursor::new(&bytes)).unwrap();
        let mut names: Vec<String> = archive
            .file_names()
            .flatten()
            .filter(|name| name.starts_with("xl/media/"))
            .map(Into::into)
            .collect();
        names.sort();
        let endings: Vec<&str> = names.iter().filter_map(|name| name.rsplit('.').next()).collect();
        assert!(endings.len() == 2 && endings.contains(&"jpeg") && endings.contains(&"png"), "{names:?}");
        for name in &names {
            let mut media = Vec::new();
            archive.by_name(name).unwrap().read_to_end(&mut media).unwrap();
            let seen = crate::picture::photo::facts(&media).unwrap();
            assert_eq!(
                (seen.width, seen.height),
                if name.ends_with("png") { (240, 320) } else { (320, 480) }
            );
        }
        let mut book = read(&document);
        let range = book.worksheet_range("looks").unwrap();
        let first: Vec<String> =
            (0..4).map(|row| range.get_value((row, 0)).map(said).unwrap_or_default()).collect();
        assert_eq!(first, ["Picture", "after =Smock", crate::picture::flat::DRAWN, ""]);
        let rows = crate::bring::table::Grid::read(&bytes, None).unwrap().rows;
        assert_eq!(rows.len(), 4);
    }
}
