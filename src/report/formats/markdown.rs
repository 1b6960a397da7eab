//! Markdown (CommonMark with pipe tables), to read and to print. Whatever people wrote stays literal: characters that
//! would format, link or part cells are escaped.

use std::fmt::Write;

use super::Text;
use crate::report::document::{Cell, Document, Table};
use crate::report::plain::Plain;

/// See the module.
#[derive(Clone, Copy, Debug)]
pub struct Markdown;

impl Text for Markdown {
    fn write(&self, document: &Document) -> String {
        let mut to = format!("# {}\n", line(&document.title));
        if !document.subtitle.is_empty() {
            let _ = write!(to, "\n{}\n", line(&document.subtitle));
        }
        write_list(&mut to, "Missing", &document.gaps);
        write_list(&mut to, "Cautions", &document.cautions);
        for (name, tables) in document.sheets() {
            let _ = write!(to, "\n# {}\n", line(name));
            tables.iter().for_each(|table| write_titled(&mut to, table));
        }
        let whole = if document.sheets_by.is_some() { &[] } else { document.tables.as_slice() };
        whole.iter().for_each(|table| write_titled(&mut to, table));
        write_list(&mut to, "Notes", &document.notes);
        to
    }
}

fn write_titled(to: &mut String, table: &Table) {
    to.push('\n');
    if !table.title().is_empty() {
        let _ = write!(to, "## {}\n\n", line(table.title()));
        if table.rows().is_empty() {
            to.push_str("None.\n");
            return;
        }
    }
    if !table.reading().is_empty() {
        let _ = write!(to, "{}\n\n", line(table.reading()));
    }
    if table.is_upright() { write_upright(to, table) } else { write_table(to, table) }
}

/// Each column that says something as a line.
fn write_upright(to: &mut String, table: &Table) {
    for row in table.rows() {
        for (column, cell) in table.columns().iter().zip(row).filter(|(_, cell)| **cell != Cell::Empty) {
            let _ = writeln!(
                to,
                "- **{}**: {}",
                escaped(column.heading.as_str()),
                self::cell(cell).replace("<br>", "; ")
            );
        }
    }
}

fn write_list(to: &mut String, heading: &str, items: &[Plain]) {
    if items.is_empty() {
        return;
    }
    let _ = write!(to, "\n## {heading}\n\n");
    for item in items {
        let _ = writeln!(to, "- {}", line(item));
    }
}

fn write_table(to: &mut String, table: &Table) {
    let headings = table.columns().iter().map(|column| escaped(column.heading.as_str()));
    write_row(to, headings);
    let rules = table.columns().iter().map(|column| if column.kind.is_number() { "---:" } else { "---" });
    write_row(to, rules.map(str::to_owned));
    for row in table.rows() {
        write_row(to, row.iter().map(cell));
    }
}

fn write_row(to: &mut String, cells: impl Iterator<Item = String>) {
    to.push('|');
    for cell in cells {
        let _ = write!(to, " {cell} |");
    }
    to.push('\n');
}

fn cell(cell: &Cell) -> String {
    match cell {
        Cell::Empty => String::new(),
        Cell::Text(plain) => escaped(plain.as_str()),
        Cell::List(items) => items.iter().map(|item| escaped(item.as_str())).collect::<Vec<_>>().join("<br>"),
        Cell::Date(date) => escaped(&date.short()),
        Cell::Number(number) => number.to_string(),
        Cell::Pages(length) => length.to_string(),
        Cell::Minutes(length) => length.clock(),
        Cell::Share(share) => share.to_string(),
        Cell::Money(money) => money.shown(),
        Cell::Metres(length) => length.in_metres(),
    }
}

/// Text as a line of its own, where its first characters could also begin a list, a heading or a rule.
fn line(plain: &Plain) -> String {
    let text = escaped(plain.as_str().trim()).replace("<br>", " ");
    if text.starts_with(['-', '+', '=']) {
        return format!("\\{text}");
    }
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    if digits > 0 && text[digits..].starts_with(['.', ')']) {
        return format!("{}\\{}", &text[..digits], &text[digits..]);
    }
    text
}

fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\n' => safe.push_str("<br>"),
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '~' | '&' | '#' | '$' => {
                safe.push('\\');
                safe.push(c);
            }
            c => safe.push(c),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::document::hostile;

    /// The cells of a table row: what stands between pipes that are not escaped.
    fn cells(row: &str) -> Vec<String> {
        let mut cells = vec![String::new()];
        let mut escaped = false;
        for c in row.trim_matches('|').chars() {
            match c {
                '|' if !escaped => cells.push(String::new()),
                c => {
                    if let Some(cell) = cells.last_mut() {
                        cell.push(c);
                    }
                }
            }
            escaped = c == '\\' && !escaped;
        }
        cells.iter().map(|cell| cell.trim().to_owned()).collect()
    }

    #[test]
    fn every_row_has_as_many_cells_as_there_are_columns() {
        let text = Markdown.write(&hostile());
        let rows: Vec<&str> = text.lines().filter(|line| line.starts_with("| ")).collect();
        assert_eq!(rows.len(), hostile().tables[0].rows().len() + 2);
        for row in rows {
            assert_eq!(cells(row).len(), 6, "{row}");
        }
    }

    #[test]
    fn what_would_format_or_part_cells_is_escaped() {
        assert_eq!(escaped("a|b *c* <i>"), "a\\|b \\*c\\* \\<i\\>");
        assert_eq!(escaped("two\nlines"), "two<br>lines");
        let text = Markdown.write(&hostile());
        assert!(text.contains("1\\. a note") && text.contains("\\- another") && text.contains("# \\# Look"));
        assert!(!text.contains('\u{1b}'));
    }

    #[test]
    fn lengths_read_as_people_write_them() {
        let text = Markdown.write(&hostile());
        let row = text.lines().find(|line| line.starts_with("| 11A")).unwrap();
        assert_eq!(cells(row)[3..], ["11", "1 3/8", "1:22"]);
    }
}
