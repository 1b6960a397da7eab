//! A sheet of an XLSX workbook as rows of text.
//!
//! A workbook is packed, and a small one can become any size: what it becomes is counted before it is read.

use std::collections::BTreeMap;
use std::io::{Cursor, Read};

use calamine::{DataRef, ExcelDateTime, Reader, SheetType, SheetVisible, Xlsx, XlsxError};

use super::grid::{CELL, COLUMNS, Grid, GridError, LARGEST, ROWS, Rows, letters};

/// The most bytes that a workbook may become: 128 MiB.
const UNPACKED: u64 = 128 << 20;

pub(super) fn read(bytes: &[u8], sheet: Option<&str>) -> Result<Grid, GridError> {
    unpack(bytes)?;
    let mut book = Xlsx::new(Cursor::new(bytes)).map_err(torn)?;
    let sheets = book.sheets_metadata().iter().filter(|sheet| sheet.typ == SheetType::WorkSheet);
    let names: Vec<(String, bool)> =
        sheets.map(|sheet| (sheet.name.clone(), sheet.visible == SheetVisible::Visible)).collect();
    let name = match sheet {
        Some(wanted) => names.iter().find(|(name, _)| name.trim().eq_ignore_ascii_case(wanted.trim())),
        None => names.iter().find(|(_, visible)| *visible).or(names.first()),
    };
    let Some((name, _)) = name else {
        let there = names.into_iter().map(|(name, _)| name).collect();
        return Err(match sheet {
            Some(wanted) => GridError::Sheet { wanted: wanted.to_owned(), there },
            None => GridError::Workbook("it has no sheet".to_owned()),
        });
    };
    let rows = rows(&mut book, name)?;
    Ok(Grid { rows, sheet: Some(name.clone()) })
}

fn rows(book: &mut Xlsx<Cursor<&[u8]>>, name: &str) -> Result<Vec<super::grid::Row>, GridError> {
    let mut reader = book.worksheet_cells_reader(name).map_err(torn)?;
    let mut found: BTreeMap<u32, Vec<String>> = BTreeMap::new();
    let mut left = LARGEST;
    while let Some(cell) = reader.next_cell().map_err(torn)? {
        let (row, column) = cell.get_position();
        let number = row as usize + 1;
        let column = column as usize;
        // One text can stand in any number of cells, so its length counts before it is copied.
        let length = length(cell.get_value());
        if length > CELL {
            return Err(GridError::Cell { row: number, column: letters(column) });
        }
        left = left.checked_sub(length as u64).ok_or(GridError::Texts)?;
        let text = text(cell.get_value());
        if text.trim().is_empty() {
            continue;
        }
        if column >= COLUMNS {
            return Err(GridError::Columns(number));
        }
        let cells = found.entry(row).or_default();
        if cells.len() <= column {
            cells.resize(column + 1, String::new());
        }
        if let Some(cell) = cells.get_mut(column) {
            *cell = text;
        }
        if found.len() > ROWS {
            return Err(GridError::Rows);
        }
    }
    let mut rows = Rows::default();
    for (row, cells) in found {
        rows.push(row as usize + 1, cells.iter().map(String::as_str))?;
    }
    Ok(rows.0)
}

/// The bytes of a cell's text, where it is one.
fn length(value: &DataRef<'_>) -> usize {
    match value {
        DataRef::String(text) | DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => text.len(),
        DataRef::SharedString(text) => text.len(),
        _ => 0,
    }
}

/// What a cell shows: whole numbers without a point, dates as `YYYY-MM-DD`.
fn text(value: &DataRef<'_>) -> String {
    match value {
        DataRef::Empty => String::new(),
        DataRef::Int(number) => number.to_string(),
        DataRef::Float(number) => number.to_string(),
        DataRef::String(text) => text.clone(),
        DataRef::SharedString(text) => (*text).to_owned(),
        DataRef::Bool(yes) => if *yes { "yes" } else { "no" }.to_owned(),
        DataRef::DateTime(moment) if moment.is_datetime() => day(moment),
        DataRef::DateTime(moment) => moment.as_f64().to_string(),
        // A date before the time of day.
        DataRef::DateTimeIso(text) => text.split('T').next().unwrap_or(text).to_owned(),
        DataRef::DurationIso(text) => text.clone(),
        DataRef::Error(error) => error.to_string(),
    }
}

fn day(moment: &ExcelDateTime) -> String {
    let (year, month, day, ..) = moment.to_ymd_hms_milli();
    format!("{year:04}-{month:02}-{day:02}")
}

fn torn(error: XlsxError) -> GridError {
    GridError::Workbook(error.to_string())
}

/// Unpacks everything once and keeps nothing, so that what is read afterwards is known to be of a bearable size.
fn unpack(bytes: &[u8]) -> Result<(), GridError> {
    let broken = |error: &dyn std::fmt::Display| GridError::Workbook(error.to_string());
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).map_err(|error| {
        GridError::Workbook(format!(
            "it is broken, or its end is missing as after a copy that stopped ({error})"
        ))
    })?;
    if let Some(kind) = other_kind(&archive) {
        return Err(GridError::Kind(kind));
    }
    let mut left = UNPACKED;
    for at in 0..archive.len() {
        let mut content = Vec::new();
        let file = archive.by_index(at).map_err(|error| broken(&error))?;
        file.take(left + 1).read_to_end(&mut content).map_err(|error| broken(&error))?;
        let length = content.len() as u64;
        if length > left {
            return Err(GridError::Workbook(format!("unpacked it has more than {} MiB", UNPACKED >> 20)));
        }
        left -= length;
        if promises_too_much(&content) {
            return Err(GridError::Workbook("it promises more texts than it can hold".to_owned()));
        }
        if is_impossible(&content) {
            return Err(GridError::Workbook("it names cells that no sheet can have".to_owned()));
        }
    }
    Ok(())
}

/// What is packed, where it is known and no workbook of this format.
fn other_kind<R: Read + std::io::Seek>(archive: &zip::ZipArchive<R>) -> Option<&'static str> {
    let has = |start: &str| archive.file_names().flatten().any(|name| name.starts_with(start));
    let kinds = [
        ("xl/workbook.bin", "a binary workbook (XLSB)"),
        ("word/", "a text document (DOCX)"),
        ("ppt/", "a presentation (PPTX)"),
        ("mimetype", "an OpenDocument file, such as ODS"),
    ];
    kinds.iter().find(|(start, _)| has(start)).map(|(_, kind)| *kind)
}

/// Whether a file says that it has more distinct texts than it has bytes: room would be made for so many.
fn promises_too_much(content: &[u8]) -> bool {
    values(content, b"uniqueCount").any(|value| {
        let count = std::str::from_utf8(value).unwrap_or_default().trim();
        let is_number = !count.is_empty() && count.bytes().all(|byte| byte.is_ascii_digit());
        is_number && count.parse::<usize>().map_or(true, |count| count > content.len())
    })
}

/// Whether a sheet names a place that no sheet has, or a stretch that ends before it begins: nobody can reckon with
/// such ones.
fn is_impossible(content: &[u8]) -> bool {
    const SHEET: &[u8] = b"sheetData";
    let is_sheet = content.windows(SHEET.len()).any(|window| window == SHEET);
    let mut stretches = values(content, b"r").chain(values(content, b"ref"));
    is_sheet
        && stretches.any(|stretch| {
            let ends: Vec<&[u8]> = stretch.split(|byte| *byte == b':').take(2).collect();
            let is_long = |end: &&[u8]| {
                let letters = end.iter().take_while(|byte| byte.is_ascii_alphabetic()).count();
                letters > 3 || end.len() - letters > 7
            };
            ends.iter().any(is_long)
                || match ends.as_slice() {
                    [first, last] => place(first)
                        .zip(place(last))
                        .is_some_and(|(first, last)| last.0 < first.0 || last.1 < first.1),
                    _ => false,
                }
        })
}

/// Column and row of a cell such as `B12`.
fn place(text: &[u8]) -> Option<(u32, u32)> {
    let (letters, digits) = text.split_at(text.iter().position(u8::is_ascii_digit)?);
    let column = letters.iter().fold(0_u32, |sum, byte| {
        sum.saturating_mul(26).saturating_add(u32::from(byte.to_ascii_uppercase().saturating_sub(b'A')) + 1)
    });
    Some((column, std::str::from_utf8(digits).ok()?.parse().ok()?))
}

/// The values of an attribute, wherever in the file it stands.
fn values<'a>(content: &'a [u8], key: &'a [u8]) -> impl Iterator<Item = &'a [u8]> {
    content.windows(key.len() + 1).enumerate().filter_map(move |(at, window)| {
        let (blank, word) = window.split_first()?;
        if !blank.is_ascii_whitespace() || word != key {
            return None;
        }
        let value =
            content.get(at + window.len()..)?.trim_ascii_start().strip_prefix(b"=")?.trim_ascii_start();
        let (quote, value) = value.split_first()?;
        value.split(|byte| byte == quote).next().filter(|_| matches!(quote, b'"' | b'\''))
    })
}

#[cfg(test)]
mod tests {
    use std::io::Write;

    use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};

    use super::*;

    fn cells(bytes: &[u8], sheet: Option<&str>) -> Vec<(usize, Vec<String>)> {
        read(bytes, sheet).unwrap().rows.into_iter().map(|row| (row.number, row.cells)).collect()
    }

    fn refusal(bytes: &[u8]) -> String {
        Grid::read(bytes, None).unwrap_err().to_string()
    }

    fn zipped(files: &[(&str, &[u8])]) -> Vec<u8> {
        let mut to = zip::ZipWriter::new(Cursor::new(Vec::new()));
        for (name, content) in files {
            to.start_file(*name, zip::write::SimpleFileOptions::default()).unwrap();
            to.write_all(content).unwrap();
        }
        to.finish().unwrap().into_inner()
    }

    #[test]
    fn numbers_dates_and_texts_are_read_as_they_are_seen() {
        let mut book = Workbook::new();
        let date = Format::new().set_num_format("d mmm yyyy");
        let sheet = book.add_worksheet();
        sheet.write(1, 0, "Scene").unwrap();
        sheet.write(3, 0, 12.0).unwrap();
        sheet.write(3, 1, 1.375).unwrap();
        sheet.write_with_format(3, 2, ExcelDateTime::from_ymd(1926, 8, 14).unwrap(), &date).unwrap();
        sheet.write(3, 3, true).unwrap();
        sheet.write_formula(3, 5, rust_xlsxwriter::Formula::new("=1+1").set_result("2")).unwrap();
        let bytes = book.save_to_buffer().unwrap();
        let row = ["12", "1.375", "1926-08-14", "yes", "", "2"].map(str::to_owned).to_vec();
        assert_eq!(cells(&bytes, None), [(2, vec!["Scene".to_owned()]), (4, row)]);
    }

    /// The workbook with each of its files changed.
    fn repacked(bytes: &[u8], change: impl Fn(&str, &mut Vec<u8>)) -> Vec<u8> {
        let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
        let mut files = Vec::new();
        for at in 0..archive.len() {
            let mut file = archive.by_index(at).unwrap();
            let mut content = Vec::new();
            file.read_to_end(&mut content).unwrap();
            let name = file.name().unwrap().into_owned();
            change(&name, &mut content);
            files.push((name, content));
        }
        let files: Vec<(&str, &[u8])> = files.iter().map(|(name, content)| (&**name, &**content)).collect();
        zipped(&files)
    }

    fn dated() -> Vec<u8> {
        let mut book = Workbook::new();
        let date = Format::new().set_num_format("yyyy-mm-dd hh:mm");
        let sheet = book.add_worksheet();
        sheet.write_with_format(0, 0, 9723.75, &date).unwrap();
        sheet.write(1, 0, "text").unwrap();
        sheet.write(1, 1, 12).unwrap();
        book.save_to_buffer().unwrap()
    }

    #[test]
    fn days_are_counted_from_1900_or_from_1904() {
        let early = dated();
        assert_eq!(cells(&early, None)[0].1, ["1926-08-14"]);
        let late = repacked(&early, |name, content| {
            if name == "xl/workbook.xml" {
                let text = String::from_utf8(content.clone()).unwrap();
                assert!(text.contains("<workbookPr "));
                *content = text.replace("<workbookPr ", "<workbookPr date1904=\"1\" ").into_bytes();
            }
        });
        // The later beginning is 1462 days after the earlier (ECMA-376, part 1, 18.17.4).
        assert_eq!(cells(&late, None)[0].1, ["1930-08-15"]);
    }

    #[test]
    fn places_texts_and_styles_that_cannot_be_are_read_or_refused() {
        for (was, becomes) in [
            ("<row r=\"2\"", "<row r=\"4294967295\""),
            ("<row r=\"2\"", "<row r=\"99999999999999999999\""),
            ("r=\"A2\" ", "r=\"A4294967296\" "),
            ("r=\"A2\" ", "r=\"ZZZZZZZZ2\" "),
            ("r=\"A2\" ", "r=\"A0\" "),
            ("r=\"A2\" ", ""),
            ("<v>0</v>", "<v>4294967296</v>"),
            ("<v>0</v>", "<v>-1</v>"),
            ("<v>9723.75</v>", "<v>1e308</v>"),
            ("<v>9723.75</v>", "<v>-9e99</v>"),
            ("<v>9723.75</v>", "<v>NaN</v>"),
            ("ref=\"A1:B2\"", "ref=\"B2:A1\""),
            ("ref=\"A1:B2\"", "ref=\"A1:B99999999999\""),
            ("s=\"1\"", "s=\"4000000000\""),
        ] {
            let bytes = repacked(&dated(), |name, content| {
                if name == "xl/worksheets/sheet1.xml" {
                    let text = String::from_utf8(content.clone()).unwrap();
                    assert!(text.contains(was), "{was} in {text}");
                    *content = text.replace(was, becomes).replace("r=\"B2\"", "").into_bytes();
                }
            });
            match Grid::read(&bytes, None) {
                Ok(grid) => assert!(grid.rows.len() <= 3, "{becomes}"),
                Err(error) => {
                    assert!(error.to_string().starts_with("it is no XLSX workbook"), "{becomes}: {error}")
                }
            }
        }
    }

    proptest::proptest! {
        #[test]
        fn a_workbook_with_any_bytes_wrong_is_read_or_refused(
            file in 0..12_usize, at in 0..4096_usize, with in "[0-9<>/\"a-z&; ]{0,3}", cut in 0..3_usize,
        ) {
            let place = std::cell::Cell::new(0);
            let bytes = repacked(&dated(), |_, content| {
                if place.replace(place.get() + 1) == file && !content.is_empty() {
                    let from = at % content.len();
                    let to = (from + cut).min(content.len());
                    content.splice(from..to, with.bytes());
                }
            });
            if let Ok(grid) = Grid::read(&bytes, None) {
                proptest::prop_assert!(grid.rows.len() <= 4);
            }
        }
    }

    #[test]
    fn the_first_sheet_that_is_shown_is_read_unless_one_is_named() {
        let mut book = Workbook::new();
        book.add_worksheet().set_name("Old").unwrap().set_hidden(true).write(0, 0, "old").unwrap();
        book.add_worksheet().set_name("Days").unwrap().set_active(true).write(0, 0, "days").unwrap();
        let bytes = book.save_to_buffer().unwrap();
        assert_eq!(cells(&bytes, None)[0].1, ["days"]);
        assert_eq!(cells(&bytes, Some("old"))[0].1, ["old"]);
        let error = read(&bytes, Some("Nights")).unwrap_err().to_string();
        assert_eq!(error, "it has no sheet `Nights`: there are `Old`, `Days`");
    }

    #[test]
    fn a_zip_that_is_no_workbook_and_half_a_workbook_are_refused() {
        assert!(refusal(&zipped(&[("a.txt", b"x")])).starts_with("it is no XLSX workbook"));
        let mut book = Workbook::new();
        book.add_worksheet().write(0, 0, "x").unwrap();
        let bytes = book.save_to_buffer().unwrap();
        for part in [4, 30, bytes.len() / 2, bytes.len() - 1] {
            assert!(refusal(&bytes[..part]).starts_with("it is no XLSX workbook"), "{part}");
        }
    }

    #[test]
    fn packed_files_of_other_kinds_and_a_broken_workbook_say_what_they_are() {
        for (name, said) in [
            ("mimetype", "it is an OpenDocument file, such as ODS, and expected is"),
            ("word/document.xml", "it is a text document (DOCX), and"),
            ("xl/workbook.bin", "it is a binary workbook (XLSB), and"),
        ] {
            let error = refusal(&zipped(&[("[Content_Types].xml", b"<x/>"), (name, b"x")]));
            assert!(error.starts_with(said), "{error}");
        }
        let bytes = dated();
        let error = Grid::read(&bytes[..bytes.len() / 2], None).unwrap_err();
        assert!(error.to_string().contains("its end is missing as after a copy that stopped"), "{error}");
        assert!(error.hint().is_some_and(|hint| hint.starts_with("copy or download it once more")));
    }

    #[test]
    fn a_small_file_that_becomes_a_huge_one_is_refused_before_it_is_read() {
        let zeros = vec![b' '; 65 << 20];
        let error = refusal(&zipped(&[("xl/sharedStrings.xml", &zeros), ("xl/a.xml", &zeros)]));
        assert!(error.ends_with("unpacked it has more than 128 MiB"), "{error}");
        let strings = b"<sst uniqueCount=\"99999999999999\"></sst>";
        let error = refusal(&zipped(&[("xl/sharedStrings.xml", strings)]));
        assert!(error.ends_with("it promises more texts than it can hold"), "{error}");
    }

    /// A workbook in which one text stands in this many cells of a column.
    fn repeated(text: &str, cells: u32) -> Vec<u8> {
        let mut book = Workbook::new();
        let sheet = book.add_worksheet();
        for row in 0..cells {
            sheet.write(row % 5000, u16::try_from(row / 5000).unwrap(), text).unwrap();
        }
        book.save_to_buffer().unwrap()
    }

    #[test]
    fn one_text_in_many_cells_counts_as_often_as_it_stands_there() {
        let text = "x".repeat(20_000);
        let room = u32::try_from(LARGEST / 20_000).unwrap();
        let fits = repeated(&text, room);
        assert!(fits.len() < 1 << 20, "a small file");
        assert_eq!(cells(&fits, None).len(), room as usize);
        assert_eq!(refusal(&repeated(&text, room + 1)), "its cells hold more than 32 MiB of text");
        // Also where they stand in the same place.
        let bytes = repacked(&repeated(&text, room + 1), |name, content| {
            if name == "xl/worksheets/sheet1.xml" {
                let sheet = String::from_utf8(content.clone()).unwrap();
                let cell = "<c r=\"A1\" t=\"s\"><v>0</v></c>";
                assert!(sheet.contains(cell));
                *content = sheet.replace(cell, &cell.repeat(room as usize)).into_bytes();
            }
        });
        assert_eq!(refusal(&bytes), "its cells hold more than 32 MiB of text");
    }

    #[test]
    fn a_cell_that_is_too_long_is_refused_where_it_first_stands() {
        let long = "x".repeat(CELL + 1);
        let bytes = repacked(&repeated("short", 50_000), |name, content| {
            if name == "xl/sharedStrings.xml" {
                let texts = String::from_utf8(content.clone()).unwrap();
                *content = texts.replace("short", &long).into_bytes();
            }
        });
        assert_eq!(refusal(&bytes), "row 1, column A: the cell has more than 64 KiB");
    }

    #[test]
    fn far_away_cells_cost_nothing_and_too_many_columns_are_refused() {
        let mut book = Workbook::new();
        book.add_worksheet().write(1_048_575, 3, "far").unwrap();
        assert_eq!(cells(&book.save_to_buffer().unwrap(), None)[0].0, 1_048_576);
        let mut book = Workbook::new();
        book.add_worksheet().write(2, 16_383, "far").unwrap();
        assert_eq!(refusal(&book.save_to_buffer().unwrap()), "row 3 has more than 200 columns");
    }
}
