//! HTML: one file to look at and to print, without scripts and without anything from elsewhere. Heads are repeated on
//! every page, rows are not cut, and wide tables are printed across.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::Text;
use crate::report::document::{Cell, Document, Table};
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
table { border-collapse: collapse; width: 100%; font-size: .92em; }
caption { text-align: left; font-weight: bold; font-size: 1.15em; padding: 1.2em 0 .4em; }
.reading { display: block; font-weight: normal; font-size: .87em; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { border-bottom: 1px solid #bbb; padding: .25em .6em .25em .3em; text-align: left; vertical-align: top; overflow-wrap: break-word; }
th { border-bottom: 2px solid #111; overflow-wrap: normal; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
td ul { margin: 0; padding: 0; list-style: none; }
.cautions, .missing { border: 2px solid #111; padding: .5em 1em; margin: 1em 0; break-inside: avoid; }
.cautions h2, .missing h2 { margin: 0 0 .3em; }
@media print { body { margin: 0; padding: 0; max-width: none; font-size: 9pt; } .small { font-size: 7pt; } }
";

impl Text for Html {
    fn write(&self, document: &Document) -> String {
        let widest = document.tables.iter().map(|table| table.columns().len()).max().unwrap_or(0);
        let lies = if widest >= ACROSS {
            "@page { size: landscape; margin: 12mm; }"
        } else {
            "@page { margin: 15mm; }"
        };
        let page = html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    title { (document.title.as_str()) }
                    style { (PreEscaped(STYLE)) (PreEscaped(lies)) }
                }
                body class=[(widest >= SMALL).then_some("small")] {
                    h1 { (document.title.as_str()) }
                    @if !document.subtitle.is_empty() { p.subtitle { (document.subtitle.as_str()) } }
                    (listed("Missing", "missing", &document.gaps))
                    (listed("Cautions", "cautions", &document.cautions))
                    @for one in &document.tables { (table(one)) }
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

fn table(table: &Table) -> Markup {
    let class = |is_number: bool| is_number.then_some("number");
    html! {
        table {
            @if !table.title().is_empty() {
                caption {
                    (table.title().as_str())
                    @if !table.reading().is_empty() { span.reading { (table.reading().as_str()) } }
                }
            }
            thead {
                tr {
                    @for column in table.columns() {
                        th scope="col" class=[class(column.kind.is_number())] { (column.heading.as_str()) }
                    }
                }
            }
            tbody {
                @for row in table.rows() {
                    tr {
                        @for (cell, column) in row.iter().zip(table.columns()) {
                            td class=[class(column.kind.is_number())] { (words(cell)) }
                        }
                    }
                }
                @if table.rows().is_empty() { tr { td colspan=(table.columns().len()) { "None." } } }
            }
        }
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
        }
    }
}

#[cfg(test)]
mod tests {
    use scraper::{ElementRef, Html as Read, Selector};

    use super::*;
    use crate::board::sample;
    use crate::report::Report;
    use crate::report::document::hostile;

    fn all<'a>(page: &'a Read, what: &str) -> Vec<ElementRef<'a>> {
        page.select(&Selector::parse(what).unwrap()).collect()
    }

    fn below<'a>(element: ElementRef<'a>, what: &str) -> Vec<ElementRef<'a>> {
        element.select(&Selector::parse(what).unwrap()).collect()
    }

    fn said(element: ElementRef<'_>) -> String {
        element.text().collect()
    }

    /// What a cell says, without the breaks that the page makes.
    fn expected(cell: &Cell) -> String {
        match cell {
            Cell::Empty => String::new(),
            Cell::Text(text) => text.as_str().lines().collect(),
            Cell::List(items) => items.iter().map(Plain::as_str).collect(),
            Cell::Date(date) => date.short(),
            Cell::Number(number) => number.to_string(),
            Cell::Pages(length) => length.to_string(),
            Cell::Minutes(length) => length.clock(),
            Cell::Share(share) => share.to_string(),
        }
    }

    /// That an independent reader finds every table with its heads, rows and cells, and nothing that runs or is loaded.
    fn is_whole(document: &Document) {
        let text = Html.write(document);
        let page = Read::parse_document(&text);
        let tables = all(&page, "table");
        assert_eq!(tables.len(), document.tables.len());
        for (table, read) in document.tables.iter().zip(tables) {
            let heads: Vec<String> = below(read, "thead th[scope=col]").into_iter().map(said).collect();
            let wanted: Vec<&str> = table.columns().iter().map(|column| column.heading.as_str()).collect();
            assert_eq!(heads, wanted);
            let rows = below(read, "tbody tr");
            assert_eq!(rows.len(), table.rows().len().max(1));
            for (row, read) in table.rows().iter().zip(rows) {
                let cells: Vec<String> = below(read, "td").into_iter().map(said).collect();
                assert_eq!(cells, row.iter().map(expected).collect::<Vec<_>>());
            }
        }
        for loads in ["script", "link", "img", "iframe", "object", "[src]", "[href]", "[onclick]"] {
            assert!(all(&page, loads).is_empty(), "{loads}");
        }
        assert!(
            text.contains("thead { display: table-header-group; }") && text.contains("break-inside: avoid")
        );
    }

    #[test]
    fn an_independent_reader_finds_every_cell_of_every_report() {
        let board = sample::board();
        for report in Report::ALL {
            is_whole(&report.document(&board));
        }
    }

    #[test]
    fn what_people_write_is_never_markup() {
        is_whole(&hostile());
        let page = Html.write(&hostile());
        assert!(page.contains("&lt;i&gt;") && !page.contains("<i>"));
    }

    proptest::proptest! {
        #[test]
        fn any_text_reads_back_as_it_is(text in "[ -~\u{a0}-\u{2fff}\\n]{0,40}") {
            let mut document = hostile();
            document.tables[0].push(vec![
                Cell::text(&text), Cell::Empty, Cell::list([&text]), Cell::Empty, Cell::Empty, Cell::Empty,
            ]);
            is_whole(&document);
        }
    }
}
