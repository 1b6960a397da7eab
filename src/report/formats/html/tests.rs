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
        Cell::Money(money) => money.shown(),
        Cell::Metres(length) => length.in_metres(),
    }
}

/// That an independent reader finds every table with its heads, rows and cells, and nothing that runs or is loaded.
fn is_whole(document: &Document) {
    let text = Html.write(document);
    let page = Read::parse_document(&text);
    let (upright, flat): (Vec<ElementRef<'_>>, Vec<ElementRef<'_>>) =
        all(&page, "table").into_iter().partition(|table| table.attr("class") == Some("upright"));
    let parts: Vec<Table> = document.sheets().into_iter().flat_map(|(_, tables)| tables).collect();
    let set: Vec<&Table> =
        if document.sheets_by.is_some() { parts.iter().collect() } else { document.tables.iter().collect() };
    let (set_upright, set_flat): (Vec<&Table>, Vec<&Table>) =
        set.into_iter().partition(|table| table.is_upright() && document.sheets_by.is_some());
    assert_eq!((upright.len(), flat.len()), (set_upright.len(), set_flat.len()));
    for (table, read) in set_upright.iter().zip(upright) {
        let told = table.columns().iter().zip(&table.rows()[0]).filter(|(_, cell)| **cell != Cell::Empty);
        let told: Vec<String> =
            told.map(|(column, cell)| format!("{}{}", column.heading, expected(cell))).collect();
        // Short items stand beside each other, with a comma that is no part of them.
        let bare = |row: ElementRef<'_>| said(row).replace(", ", "");
        let told: Vec<String> = told.iter().map(|one| one.replace(", ", "")).collect();
        assert_eq!(below(read, "tr").into_iter().map(bare).collect::<Vec<_>>(), told);
    }
    for (table, read) in set_flat.into_iter().zip(flat) {
        let heads: Vec<String> = below(read, "thead th[scope=col]").into_iter().map(said).collect();
        let (shown, above) = (table.places(OnPaper::Row), table.places(OnPaper::Above));
        let wanted: Vec<&str> = shown.iter().map(|at| table.columns()[*at].heading.as_str()).collect();
        assert_eq!(heads, wanted);
        let captions: Vec<String> = below(read, "caption").into_iter().map(said).collect();
        let title = if table.title().is_empty() { &document.title } else { table.title() };
        let reading = if table.title().is_empty() { "" } else { table.reading().as_str() };
        assert_eq!(captions, [format!("{title}{reading}")]);
        let runs = below(read, "tbody th[scope=rowgroup]");
        let expected_runs = if above.is_empty() { 0 } else { table.runs().count() };
        assert_eq!(runs.len(), expected_runs);
        for (run, read) in table.runs().zip(runs) {
            for at in &above {
                assert!(said(read).contains(&expected(&run[0][*at])), "{}", said(read));
            }
        }
        let rows = below(read, "tbody tr:has(td)");
        assert_eq!(rows.len(), table.rows().len().max(1));
        if table.rows().is_empty() {
            let cells = below(rows[0], "td");
            let wide: Vec<Option<&str>> = cells.iter().map(|cell| cell.attr("colspan")).collect();
            assert_eq!(wide, [Some(shown.len().to_string().as_str())]);
        }
        for (row, read) in table.rows().iter().zip(rows) {
            let cells: Vec<String> = below(read, "td:not(.beside)").into_iter().map(said).collect();
            assert_eq!(cells, shown.iter().map(|at| expected(&row[*at])).collect::<Vec<_>>());
        }
    }
    for loads in ["script", "link", "img", "iframe", "object", "[src]", "[href]", "[onclick]"] {
        assert!(all(&page, loads).is_empty(), "{loads}");
    }
    assert!(text.contains("thead { display: table-header-group; }") && text.contains("break-inside: avoid"));
}

#[test]
fn an_independent_reader_finds_every_cell_of_every_report() {
    let board = sample::board();
    for report in Report::ALL {
        is_whole(&report.document(&board, None));
    }
}

#[test]
fn each_value_of_a_column_has_a_sheet_with_its_part_of_every_table() {
    let columns =
        |key: &str| vec![Column::new("look", "Look", Kind::Text), Column::new(key, key, Kind::Text)];
    let row = |look: &str, cell: &str| vec![Cell::text(look), Cell::text(cell)];
    let mut heads = Table::titled("heads", "Head", columns("says")).upright();
    let mut pieces = Table::titled("pieces", "Pieces", columns("piece"));
    heads.push(row("coat", "it rains"));
    heads.push(row("gown", ""));
    pieces.push(row("gown", "gown"));
    pieces.push(row("coat", "coat"));
    pieces.push(row("coat", "hat"));
    let document = Document { tables: vec![heads, pieces], sheets_by: Some("look"), ..Document::default() };
    let text = Html.write(&document);
    let page = Read::parse_document(&text);
    let sheets: Vec<String> = all(&page, "section.sheet").into_iter().map(said).collect();
    assert_eq!(sheets, ["coatHeadsaysit rainsPiecespiececoathat", "gownHeadPiecespiecegown"]);
    assert!(text.contains(".sheet { break-before: page;"));
    is_whole(&document);
}

#[test]
fn nothing_may_run_or_be_loaded() {
    let page = Read::parse_document(&Html.write(&hostile()));
    let policies = all(&page, "head meta[http-equiv=Content-Security-Policy]");
    let [policy] = policies.as_slice() else { panic!("{} policies", policies.len()) };
    let rules: Vec<&str> = policy.attr("content").unwrap().split("; ").collect();
    assert!(rules.contains(&"default-src 'none'") && !rules.iter().any(|rule| rule.starts_with("script")));
    let pictures: Vec<&&str> = rules.iter().filter(|rule| rule.starts_with("img-src")).collect();
    assert_eq!(pictures, [&"img-src data:"]);
    assert!(rules.iter().all(|rule| !rule.contains("http") && !rule.contains('*')));
}

#[test]
fn an_empty_table_has_one_cell_as_wide_as_it_is() {
    let columns = ["a", "b", "c"].map(|key| crate::report::Column::new(key, key, crate::report::Kind::Text));
    let tables = vec![Table::new(columns.to_vec())];
    is_whole(&Document { tables, title: Plain::line("Nothing"), ..Document::default() });
}

#[test]
fn dates_are_not_broken_and_words_may_be() {
    let short = |text: &str| is_short(&Cell::text(text));
    assert!(is_short(&Cell::Date("1926-08-14".parse().unwrap())));
    for text in ["1926-08-14", "1926-08-14/1926-09-01", "12A", "INT/EXT"] {
        assert!(short(text), "{text}");
    }
    assert!(!short("two words") && !short("long-cream-coat-with-belt"));
    assert!(is_short(&Cell::list(["12", "12A"])) && !is_short(&Cell::list(["12", "a cap"])));
    let page = Read::parse_document(&Html.write(&Report::Schedule.document(&sample::board(), None)));
    let cells = all(&page, "td.short").into_iter().map(said);
    assert!(cells.filter(|text| text == "5 Apr 2027").count() > 0);
    assert!(STYLE.contains(".short { white-space: nowrap; }"));
}

#[test]
fn pages_are_numbered_and_no_print_is_smaller_than_seven_and_a_half_points() {
    let page = Html.write(&Report::Outfits.document(&sample::board(), None));
    assert!(page.contains("class=\"small\"") && page.contains("counter(page) ' / ' counter(pages)"));
    let style = page.split("<style>").nth(1).and_then(|rest| rest.split("</style>").next()).unwrap();
    let sizes: Vec<f64> = style
        .split(|c: char| c.is_whitespace() || matches!(c, ':' | ';' | '/'))
        .filter_map(|word| word.strip_suffix("pt")?.parse().ok())
        .collect();
    assert!(sizes.len() >= 6 && sizes.iter().all(|size| *size >= 7.5), "{sizes:?}");
    // What is sized by what it stands in is no smaller than that.
    let relative =
        style.split("font-size: ").skip(1).filter_map(|rest| rest.split_once("em;").map(|(size, _)| size));
    let relative: Vec<f64> = relative.filter_map(|size| size.parse().ok()).collect();
    assert!(relative.len() >= 3 && relative.iter().all(|size| *size >= 1.0), "{relative:?}");
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

#[test]
fn a_flat_stands_beside_its_row_and_says_that_it_is_drawn() {
    use std::sync::Arc;

    use crate::board::garment::Piece;
    use crate::picture::flat::{DRAWN, Flat};
    use crate::report::formats::{Csv, Json, Markdown};

    let mut table = Table::new(vec![
        Column::new("look", "Look", Kind::Text).above(),
        Column::new("says", "Says", Kind::Text),
    ]);
    let coat = [Piece { name: "coat".into(), ..Piece::default() }];
    for (look, flat) in [("bare", None), ("coat", Flat::of(&coat, "")), ("last", None)] {
        table.push(vec![Cell::text(look), Cell::text("something")]);
        table.show_beside(flat.map(|flat| Figure::Flat(Arc::new(flat))));
    }
    let mut document = Document { tables: vec![table], ..Document::default() };
    let text = Html.write(&document);
    let page = Read::parse_document(&text);
    let groups = all(&page, "tbody.together");
    let drawn: Vec<usize> =
        groups.iter().map(|group| below(*group, "figure svg path").len().min(1)).collect();
    assert_eq!(drawn, [0, 1, 0]);
    assert_eq!(said(below(groups[1], "figcaption")[0]), DRAWN);
    assert!(all(&page, "svg script, svg image, svg use, svg [href], svg [id]").is_empty());

    document.sheets_by = Some("look");
    document.tables = document.tables.into_iter().map(Table::upright).collect();
    let text = Html.write(&document);
    let page = Read::parse_document(&text);
    let sheets = all(&page, ".sheet").into_iter().map(|sheet| below(sheet, "figure").len());
    assert_eq!(sheets.collect::<Vec<_>>(), [0, 1, 0]);

    for other in [Csv.write(&document), Json.write(&document), Markdown.write(&document)] {
        assert!(!other.contains("<svg") && !other.contains(DRAWN));
    }
}

#[test]
fn a_look_shows_the_picture_of_its_base_and_a_flat_where_there_is_none_to_see() {
    use serde_json::json;

    use crate::board::told;
    use crate::report::made::Folder;

    let hostile = "<b onload=x>&'\"'.png";
    let folder = Folder::new();
    folder.picture(&format!("images/{hostile}"), (60, 90), [180, 40, 40]);
    let board = told::board(json!({
        "outfits": {
            "smock": {"title": "<i>Smock</i>", "pictures": [format!("images/{hostile}")]},
            "gone": {"title": "Gone", "pictures": ["images/gone.png"]},
        },
        "looks": {
            "a": {"title": "A", "base": "smock", "pieces": [{"name": "smock"}]},
            "b": {"title": "B", "base": "gone", "pieces": [{"name": "coat"}]},
        },
        "meetings": {"2026-11-20": {
            "decisions": [
                {"decision": "Keep it.", "at": "look a"}, {"decision": "Go on."}, {"decision": "Cut it.", "at": "look b"},
            ],
            "questions": [{"question": "Why?", "at": "look a"}],
        }},
    }));
    for report in [Report::Looks, Report::Build, Report::Meeting] {
        let text = Html.write(&report.document(&board, Some(&folder.album())));
        let page = Read::parse_document(&text);
        let images = all(&page, "figure img");
        assert_eq!(images.len(), if report == Report::Meeting { 2 } else { 1 }, "{report:?}");
        for image in images {
            assert_eq!(image.attr("alt"), Some(hostile));
            let data = image.attr("src").unwrap().strip_prefix("data:image/jpeg;base64,").unwrap();
            let bytes = base64::Engine::decode(&base64::engine::general_purpose::STANDARD, data).unwrap();
            let seen = crate::picture::photo::decoded(&bytes, (100, 100)).unwrap();
            let [red, green, _] = seen.at(30, 45).unwrap();
            assert!((seen.width, seen.height) == (60, 90) && red > 170 && green < 50);
        }
        let captions: Vec<String> = all(&page, "figcaption").into_iter().map(said).collect();
        assert!(captions.contains(&"after <i>Smock</i>".to_owned()), "{captions:?}");
        assert_eq!(all(&page, "figure svg").len(), 1, "{report:?}");
        assert!(all(&page, "[onload], figure i, figure b").is_empty());
        let missing: Vec<String> = all(&page, ".missing li").into_iter().map(said).collect();
        let [missing] = missing.as_slice() else { panic!("{missing:?}") };
        assert!(missing.starts_with("The picture images/gone.png is not shown: no such file"), "{missing}");
        // Every row is as wide as the head.
        for table in all(&page, "table:not(.upright):has(td.beside)") {
            let heads = below(table, "thead th, thead td").len();
            let wide = |row: ElementRef<'_>| below(row, "td, th").len();
            assert!(
                below(table, "tbody tr:not(:has(th))")
                    .into_iter()
                    .all(|row| { wide(row) == heads || report == Report::Looks && wide(row) + 1 == heads })
            );
        }
    }
    let without = Html.write(&Report::Looks.document(&board, None));
    assert!(!without.contains("<img") && !without.contains("gone.png"));
}
