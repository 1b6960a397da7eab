//! HTML: one file to look at and to print, without scripts and without anything from elsewhere. Heads are repeated on
//! every page, rows are not cut, and wide tables are printed across.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::Text;
use crate::report::document::{Cell, Column, Document, Kind, OnPaper, Table};
use crate::report::figure::Figure;
use crate::report::plain::Plain;

/// See the module.
#[derive(Clone, Copy, Debug)]
pub struct Html;

/// From so many columns on a report is printed across.
const ACROSS: usize = 8;

/// From so many columns on it is printed small.
const SMALL: usize = 12;

/// For screens and for A4 and Letter alike: no page size is set, only which way it lies.
const STYLE: &str = "
:root { color-scheme: light; }
body { font: 10pt/1.35 Georgia, 'Times New Roman', serif; color: #111; background: #fff; margin: 2rem auto; padding: 0 1rem; max-width: 110rem; }
h1 { font-size: 1.7em; margin: 0 0 .2em; } h2 { font-size: 1.2em; margin: 1.6em 0 .4em; break-after: avoid; }
.subtitle { margin: 0 0 1em; }
table { border-collapse: collapse; width: 100%; font-size: 9.2pt; }
caption { text-align: left; padding: 1.2em 0 .4em; }
.called { font-weight: bold; font-size: 1.15em; }
.reading { display: block; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { border-bottom: 1px solid #bbb; padding: .25em .6em .25em .3em; text-align: left; vertical-align: top; overflow-wrap: break-word; }
th { border-bottom: 2px solid #111; overflow-wrap: normal; }
.together { break-inside: avoid; }
th[scope=rowgroup] { border-bottom: 1px solid #111; padding-top: .9em; }
th[scope=rowgroup] p { margin: .2em 0 0; font-weight: normal; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); padding: 0; }
.short { white-space: nowrap; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
table.upright th { border-bottom: 1px solid #bbb; width: 11em; }
.sheet { break-before: page; margin-top: 3em; }
.sheet h2 { font-size: 1.5em; border-bottom: 3px solid #111; }
.sheet tbody { break-inside: auto; }
figure { margin: 0; text-align: center; font: italic 7.5pt Georgia, 'Times New Roman', serif; break-inside: avoid; }
figure svg, figure img { display: block; margin: auto; font-size: 10pt; }
figure svg { width: 9em; height: 11em; }
figure img { max-width: 9em; max-height: 11em; }
.drawn { display: flex; gap: 2em; align-items: flex-start; }
.drawn svg { width: 17em; height: 21em; }
.drawn img { max-width: 17em; max-height: 21em; }
.beside { width: 7em; }
.beside svg { width: 5em; height: 6em; }
.beside img { max-width: 7em; max-height: 6em; }
td ul { margin: 0; padding: 0; list-style: none; }
.cautions, .missing { border: 2px solid #111; padding: .5em 1em; margin: 1em 0; break-inside: avoid; }
.cautions h2, .missing h2 { margin: 0 0 .3em; }
@media print { body { margin: 0; padding: 0; max-width: none; font-size: 9pt; } table { font-size: 8.3pt; } .small table { font-size: 7.5pt; } }
";

/// Where a browser prints what stands in the margin, it is the number of the page.
const NUMBERED: &str = "@bottom-right { content: counter(page) ' / ' counter(pages); font: 8pt Georgia, 'Times New Roman', serif; }";

/// Nothing runs and nothing is loaded, whatever a browser finds in it; pictures stand in the page itself.
const POLICY: &str =
    "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/// What rows have in common and is longer than this, or a sentence, stands on a line of its own.
const LONG: usize = 60;

/// The longest item that stands in one line with others.
const SMALL_ITEM: usize = 6;

/// A cell without blanks and no longer than this is kept on one line: the longest stretch of days, written out.
const SHORT: usize = 21;

impl Text for Html {
    const SHOWS_FIGURES: bool = true;

    fn write(&self, document: &Document) -> String {
        let widest = document
            .tables
            .iter()
            .filter(|table| !table.is_upright())
            .map(|table| table.places(OnPaper::Row).len())
            .max()
            .unwrap_or(0);
        let lies = if widest >= ACROSS { "size: landscape; margin: 12mm;" } else { "margin: 15mm;" };
        let lies = format!("@page {{ {lies} {NUMBERED} }}\n");
        let page = html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta http-equiv="Content-Security-Policy" content=(POLICY);
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    title { (document.title.as_str()) }
                    style { (PreEscaped(STYLE)) (PreEscaped(lies)) }
                }
                body class=[(widest >= SMALL).then_some("small")] {
                    h1 { (document.title.as_str()) }
                    @if !document.subtitle.is_empty() { p.subtitle { (document.subtitle.as_str()) } }
                    (listed("Missing", "missing", &document.gaps))
                    (listed("Cautions", "cautions", &document.cautions))
                    @for (name, tables) in document.sheets() {
                        section.sheet {
                            h2 { (name.as_str()) }
                            @for one in &tables { (set(one, name)) }
                        }
                    }
                    @if document.sheets_by.is_none() {
                        @for one in &document.tables { (table(one, &document.title)) }
                    }
                    (listed("Notes", "notes", &document.notes))
                }
            }
        };
        let mut text = page.into_string();
        text.push('\n');
        text
    }
}

fn listed(heading: &str, class: &str, items: &[Plain]) -> Markup {
    html! {
        @if !items.is_empty() {
            section class=(class) {
                h2 { (heading) }
                ul { @for item in items { li { (item.as_str()) } } }
            }
        }
    }
}

/// A table as its sheet has it.
fn set(one: &Table, document: &Plain) -> Markup {
    if one.is_upright() { upright(one) } else { table(one, document) }
}

/// A flat, and that it is one; or a picture, and what of.
fn shown(figure: Option<&Figure>) -> Markup {
    html! {
        @if let Some(figure) = figure {
            figure {
                @match figure {
                    // What a flat writes is numbers and colours only.
                    Figure::Flat(flat) => (PreEscaped(flat.svg())),
                    Figure::Picture(picture) => {
                        img src=(picture.data()) width=(picture.wide) height=(picture.high) alt=(picture.name.as_str());
                    },
                }
                figcaption { (figure.caption()) }
            }
        }
    }
}

/// The runs of a table, each with the number of its first row.
fn numbered(table: &Table) -> impl Iterator<Item = (usize, &[Vec<Cell>])> {
    let from = |next: &mut usize, run: &[Vec<Cell>]| std::mem::replace(next, *next + run.len());
    table.runs().scan(0, move |next, run| Some((from(next, run), run)))
}

/// A table of one row, each column that says something as a line.
fn upright(table: &Table) -> Markup {
    html! {
        @for (number, row) in table.rows().iter().enumerate() {
            div.drawn {
                table.upright {
                    caption.unseen { (table.title().as_str()) }
                    tbody {
                        @for (column, cell) in table.columns().iter().zip(row).filter(|(_, cell)| **cell != Cell::Empty) {
                            tr { th scope="row" { (column.heading.as_str()) } td { (beside(cell)) } }
                        }
                    }
                }
                (shown(table.figure(number)))
            }
        }
    }
}

/// A cell where there is room beside it: numbers of scenes stand in one line.
fn beside(cell: &Cell) -> Markup {
    let is_small = |item: &Plain| item.as_str().chars().count() <= SMALL_ITEM;
    match cell {
        Cell::List(items) if items.iter().all(is_small) => {
            let items: Vec<&str> = items.iter().map(Plain::as_str).collect();
            html! { (items.join(", ")) }
        }
        cell => words(cell),
    }
}

/// A table; one without a title is called as its document, for those who do not see where it stands.
fn table(table: &Table, document: &Plain) -> Markup {
    let class = |is_number: bool| is_number.then_some("number");
    let (rows, above) = (table.places(OnPaper::Row), table.places(OnPaper::Above));
    let columns: Vec<&Column> = rows.iter().map(|at| &table.columns()[*at]).collect();
    let drawn = table.has_figures();
    html! {
        table {
            @if table.title().is_empty() {
                caption.unseen { (document.as_str()) }
            } @else {
                caption {
                    span.called { (table.title().as_str()) }
                    @if !table.reading().is_empty() { span.reading { (table.reading().as_str()) } }
                }
            }
            thead {
                tr {
                    @for column in &columns {
                        th scope="col" class=[class(column.kind.is_number())] { (column.heading.as_str()) }
                    }
                    @if drawn { td.beside {} }
                }
            }
            @for (number, run) in numbered(table) {
                tbody class=[(!above.is_empty()).then_some("together")] {
                    @if let (Some(first), false) = (run.first(), above.is_empty()) {
                        tr {
                            th scope="rowgroup" colspan=(columns.len()) { (common(table, first, &above)) }
                            @if drawn { td rowspan=(run.len() + 1) { (shown(table.figure(number))) } }
                        }
                    }
                    @for (row, number) in run.iter().zip(number..) {
                        tr {
                            @for (at, column) in rows.iter().zip(&columns) {
                                td class=[class(column.kind.is_number()).or(is_short(&row[*at]).then_some("short"))] { (words(&row[*at])) }
                            }
                            @if drawn && above.is_empty() { td.beside { (shown(table.figure(number))) } }
                        }
                    }
                }
            }
            @if table.rows().is_empty() { tbody { tr { td colspan=(columns.len()) { "None." } } } }
        }
    }
}

/// What some rows have in common: short things in one line, what is reckoned or dated with its heading; each that takes
/// more room in one of its own.
fn common(table: &Table, row: &[Cell], above: &[usize]) -> Markup {
    let cells = || {
        above.iter().map(|at| (&table.columns()[*at], &row[*at])).filter(|(_, cell)| **cell != Cell::Empty)
    };
    let is_long = |cell: &Cell| {
        matches!(cell, Cell::Text(text)
            if text.as_str().chars().count() > LONG || text.as_str().ends_with(['.', '!', '?']))
    };
    html! {
        @for (at, (column, cell)) in cells().filter(|(_, cell)| !is_long(cell)).enumerate() {
            @if at > 0 { " · " }
            span {
                @if !matches!(column.kind, Kind::Text | Kind::List) { (column.heading.as_str()) " " }
                (words(cell))
            }
        }
        @for (_, cell) in cells().filter(|(_, cell)| is_long(cell)) { p { (words(cell)) } }
    }
}

/// Whether a cell is such a thing as a date, which a browser would break at its hyphens.
fn is_short(cell: &Cell) -> bool {
    let fits =
        |text: &Plain| text.as_str().chars().count() <= SHORT && !text.as_str().contains(char::is_whitespace);
    match cell {
        Cell::Text(text) => fits(text),
        Cell::List(items) => items.iter().all(fits),
        Cell::Date(date) => date.short().chars().count() <= SHORT,
        _ => false,
    }
}

fn words(cell: &Cell) -> Markup {
    html! {
        @match cell {
            Cell::Empty => {},
            Cell::Text(text) => {
                @for (at, line) in text.as_str().lines().enumerate() {
                    @if at > 0 { br; }
                    (line)
                }
            },
            Cell::List(items) => ul { @for item in items { li { (item.as_str()) } } },
            Cell::Date(date) => (date.short()),
            Cell::Number(number) => (number),
            Cell::Pages(length) => (length.to_string()),
            Cell::Minutes(length) => (length.clock()),
            Cell::Share(share) => (share.to_string()),
            Cell::Money(money) => (money.shown()),
            Cell::Metres(length) => (length.in_metres()),
        }
    }
}

#[cfg(test)]
mod tests;
