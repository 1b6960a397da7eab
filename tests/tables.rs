//! What a report writes as CSV or as a workbook can be brought in again.

#![allow(clippy::unwrap_used, reason = "a table that does not read back is a failed claim")]

use std::collections::{BTreeMap, BTreeSet};
use std::io::Cursor;
use std::path::Path;
use std::sync::Arc;

use calamine::Reader;
use proptest::prelude::*;
use scraper::{ElementRef, Selector};

use shirr::board::*;
use shirr::bring::table::{Brought, Grid, Kind};
use shirr::report::{Cell, Csv, Document, Format, Html, OnPaper, Report, Table, Xlsx};
use shirr::store;

#[path = "../src/board/sample/mod.rs"]
mod sample;

use sample::arbitrary::sound_records;

const FORMATS: [&dyn Format; 2] = [&Csv, &Xlsx];

fn exported(format: &dyn Format, report: Report, board: &Board) -> Grid {
    Grid::read(&format.bytes(&report.document(board, None)).unwrap(), None).unwrap()
}

fn fits(brought: &Brought) -> Result<(), TestCaseError> {
    let wrong: Vec<String> = brought.wrong.iter().map(ToString::to_string).collect();
    prop_assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

fn after(board: &Board, brought: &Brought) -> Board {
    let mut after = board.clone();
    if let Some(edit) = &brought.edit {
        after.apply(edit).unwrap();
    }
    after
}

/// The text on as many lines as it has, without blanks around it: more a table does not keep.
fn tidy(text: &mut String) {
    *text = text.trim().to_owned();
}

/// On one line, as an item of a list.
fn tidy_item(text: &str) -> String {
    text.split('\n').map(str::trim).collect::<Vec<_>>().join(" ").trim().to_owned()
}

fn tidy_items(items: &mut Vec<String>) {
    *items = items.iter().map(|item| tidy_item(item)).filter(|item| !item.is_empty()).collect();
}

/// The outfit less what a table does not keep: blanks, empty items, a period that the date gives anyway, a reason
/// without words, what its garments measure.
fn tidied(board: &Board, outfit: &Outfit) -> Outfit {
    let mut outfit = outfit.clone();
    for text in [&mut outfit.title, &mut outfit.occasion, &mut outfit.silhouette, &mut outfit.notes] {
        tidy(text);
    }
    tidy_items(&mut outfit.dressing);
    tidy_items(&mut outfit.tags);
    for piece in &mut outfit.pieces {
        piece.name = tidy_item(&piece.name);
        piece.cloth = tidy_item(&piece.cloth);
        tidy_items(&mut piece.details);
    }
    outfit.pieces.retain(|piece| *piece != Piece::default());
    for evidence in &mut outfit.evidence {
        for part in [&mut evidence.source, &mut evidence.credit, &mut evidence.rights, &mut evidence.notes] {
            *part = tidy_item(part);
        }
    }
    outfit.let_go = outfit.let_go.map(|reason| reason.trim().to_owned()).filter(|reason| !reason.is_empty());
    let dated = outfit.worn.as_ref().and_then(|worn| board.period_of_date(worn));
    outfit.period = outfit.period.filter(|period| Some(period) != dated);
    outfit.pictures.clear();
    outfit.measured = Pairs::default();
    outfit.wishes = Wishes::default();
    outfit
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn an_export_brought_into_the_same_board_changes_nothing(records in sound_records()) {
        let board = Board::new(records);
        for (report, kind, records) in round_trips(&board) {
            for format in FORMATS {
                let brought = kind.bring(&board, &exported(format, report, &board));
                fits(&brought)?;
                prop_assert_eq!(brought.edit, None);
                prop_assert_eq!(brought.counts.unchanged, records, "{}", kind.word());
            }
        }
    }

    #[test]
    fn outfits_that_lost_their_fields_get_them_back(records in sound_records()) {
        let full = Board::new(records.clone());
        let bare = |(id, outfit): (&OutfitId, &Arc<Outfit>)| {
            (id.clone(), Arc::new(Outfit::titled("", outfit.character.clone())))
        };
        let mut poor = records;
        poor.outfits = poor.outfits.iter().map(bare).collect();
        let poor = Board::new(poor);
        let wanted: BTreeMap<OutfitId, Outfit> =
            full.records().outfits.iter().map(|(id, outfit)| (id.clone(), tidied(&full, outfit))).collect();
        for format in FORMATS {
            let brought = Kind::Outfits.bring(&poor, &exported(format, Report::Outfits, &full));
            fits(&brought)?;
            let restored = after(&poor, &brought);
            let have: BTreeMap<OutfitId, Outfit> = restored
                .records()
                .outfits
                .iter()
                .map(|(id, outfit)| (id.clone(), Outfit::clone(outfit)))
                .collect();
            prop_assert_eq!(&have, &wanted);
        }
    }

    #[test]
    fn scenes_and_days_brought_into_an_empty_script_make_it_again(records in sound_records()) {
        let mut records = records;
        let mut days = Vec::clone(&records.schedule);
        days.sort_by_key(|day| day.day);
        days.dedup_by_key(|day| day.day);
        records.schedule = Arc::new(days);
        let full = Board::new(records.clone());
        let mut poor = records;
        poor.scenes.clear();
        poor.schedule = Arc::default();
        let poor = Board::new(poor);
        let sketch = |board: &Board| -> Vec<_> {
            let pairs = |scene: &Scene| -> BTreeMap<String, Option<LookId>> {
                scene.wears.iter().map(|(who, look)| (who.to_string(), look.clone())).collect()
            };
            let one = |(at, scene): (usize, &Scene)| {
                let period = board.relations().period_of_scene(at).cloned();
                let (place, light, day) = (scene.place, scene.light, scene.story_day);
                // A set that is called as its heading says no more than the heading.
                let [heading, set, action, notes] =
                    [&scene.heading, scene.set_or_heading(), &scene.action, &scene.notes]
                        .map(|text| text.trim().to_owned());
                let words = (heading, set, action, notes);
                (scene.number.clone(), words, place, light, day, scene.date.clone(), scene.pages, period, pairs(scene))
            };
            board.scenes().enumerate().map(one).collect()
        };
        let tidied = |day: &ShootDay| {
            let mut day = day.clone();
            let mut seen = BTreeSet::new();
            day.scenes.retain(|number| seen.insert(number.clone()));
            tidy(&mut day.notes);
            day
        };
        let wanted: Vec<ShootDay> = full.records().schedule.iter().map(tidied).collect();
        for format in FORMATS {
            let brought = Kind::Scenes.bring(&poor, &exported(format, Report::Scenes, &full));
            fits(&brought)?;
            let restored = after(&poor, &brought);
            prop_assert_eq!(sketch(&restored), sketch(&full));
            let brought = Kind::Schedule.bring(&restored, &exported(format, Report::Schedule, &full));
            fits(&brought)?;
            let restored = after(&restored, &brought);
            prop_assert_eq!(&*restored.records().schedule, &wanted);
        }
    }
}

/// A board with one outfit, scene and day each, of which all say this.
fn saying(text: &str, tags: &[String]) -> Board {
    let mut outfit = Outfit::titled("Smock", sample::id("ada"));
    (outfit.notes, outfit.occasion, outfit.tags) = (text.to_owned(), text.to_owned(), tags.to_vec());
    let mut records = Records::clone(sample::board().records());
    records.outfits = BTreeMap::from([(sample::id("smock"), Arc::new(outfit))]);
    records.looks.clear();
    records.scenes.truncate(1);
    for scene in &mut records.scenes {
        let scene = Arc::make_mut(scene);
        for words in [&mut scene.notes, &mut scene.set, &mut scene.heading, &mut scene.action] {
            *words = text.to_owned();
        }
        scene.wears = Pairs::default();
    }
    let scenes = records.scenes.iter().map(|scene| scene.number.clone()).collect();
    records.schedule = Arc::new(vec![ShootDay { day: 1, date: None, scenes, notes: text.to_owned() }]);
    Board::new(records)
}

#[test]
fn what_a_workbook_cannot_hold_is_not_taken_from_the_board() {
    let long = "a word and  another\n".repeat(2000);
    let tags: Vec<String> = (0..9000).map(|number| format!("tag;{number}")).collect();
    let board = saying(&long, &tags);
    for (report, kind) in
        [(Report::Outfits, Kind::Outfits), (Report::Scenes, Kind::Scenes), (Report::Schedule, Kind::Schedule)]
    {
        let grid = exported(&Xlsx, report, &board);
        let brought = kind.bring(&board, &grid);
        assert_eq!((brought.wrong.as_slice(), &brought.edit), (&[][..], &None), "{}", kind.word());
        assert_eq!(brought.counts.unchanged, 1);
    }
    // Nor from one who changed a word of it.
    let mut grid = exported(&Xlsx, Report::Outfits, &board);
    let cells: Vec<&mut String> = grid.rows.iter_mut().flat_map(|row| &mut row.cells).collect();
    let mut changed = 0;
    for cell in cells.into_iter().filter(|cell| cell.starts_with("a word")) {
        *cell = cell.replacen("word", "verb", 1);
        changed += 1;
    }
    assert_eq!(changed, 2);
    let brought = Kind::Outfits.bring(&board, &grid);
    let wrong: Vec<String> = brought.wrong.iter().map(ToString::to_string).collect();
    assert!(wrong.iter().all(|wrong| wrong.contains("as full as a cell of a workbook can be")), "{wrong:?}");
    assert_eq!((wrong.len(), brought.edit), (2, None));
}

#[test]
fn what_looks_like_a_formula_a_guard_or_a_code_comes_back_as_it_is() {
    for text in
        ["=1+1", "'=1", "''-x", "'tis", "_x0041_", r"a\;b;c\", "\u{feff}x", "<b>&amp;", "1926-08", "007"]
    {
        let tags = [text.to_owned(), "x".to_owned(), text.to_owned()];
        let (full, poor) = (saying(text, &tags), saying("", &[]));
        for format in FORMATS {
            for (report, kind) in [(Report::Outfits, Kind::Outfits), (Report::Schedule, Kind::Schedule)] {
                let grid = exported(format, report, &full);
                assert_eq!(kind.bring(&full, &grid).edit, None, "{text}");
                let brought = kind.bring(&poor, &grid);
                assert_eq!(brought.wrong, [], "{text}");
                let restored = after(&poor, &brought);
                let shown = |text: &str| text.replace('\u{feff}', "");
                match kind {
                    Kind::Schedule => assert_eq!(restored.records().schedule[0].notes, shown(text)),
                    _ => {
                        let outfit = restored.outfit(&sample::id("smock")).unwrap();
                        assert_eq!([&outfit.notes, &outfit.occasion], [&shown(text), &shown(text)]);
                        assert_eq!(outfit.tags, tags.clone().map(|tag| shown(&tag)));
                    }
                }
            }
        }
    }
}

#[test]
fn which_look_an_outfit_is_in_is_told_and_brought_back_in_left_alone() {
    let board = sample::board();
    for format in FORMATS {
        let mut grid = exported(format, Report::Outfits, &board);
        let head = grid.rows[0].cells.clone();
        let held = |name: &str| head.iter().position(|cell| cell == name).unwrap();
        let (base, folded) = (held("Base of look"), held("Folded into look"));
        let mut told = 0;
        for row in &mut grid.rows[1..] {
            row.cells.resize(head.len(), String::new());
            for column in [base, folded] {
                told += usize::from(!row.cells[column].is_empty());
                row.cells[column] = "Some other look".to_owned();
            }
        }
        assert_eq!(told, 4, "two bases and two that are folded");
        let brought = Kind::Outfits.bring(&board, &grid);
        assert_eq!((brought.wrong.as_slice(), &brought.edit), (&[][..], &None));
        assert_eq!(brought.counts.unchanged, board.records().outfits.len());
        assert!([base, folded].iter().all(|column| brought.columns[*column].field.is_none()));
    }
}

#[test]
fn the_lines_with_which_our_reports_end_are_not_taken_for_rows() {
    let mut records = sample::records();
    for scene in &mut records.scenes {
        Arc::make_mut(scene).action = "She falls into the fire with a sword.".to_owned();
    }
    let scenes = vec![records.scenes[0].number.clone(), "99".parse().unwrap()];
    records.schedule = Arc::new(vec![ShootDay { day: 1, date: None, scenes, notes: String::new() }]);
    let board = Board::new(records);
    let mut closing = 0;
    for (report, kind) in
        [(Report::Outfits, Kind::Outfits), (Report::Scenes, Kind::Scenes), (Report::Schedule, Kind::Schedule)]
    {
        let mut document = report.document(&board, None);
        // What stands behind another table is left out for that alone.
        document.tables.truncate(1);
        let lines = document.gaps.len() + document.cautions.len();
        let grid = Grid::read(&Csv.bytes(&document).unwrap(), None).unwrap();
        let brought = kind.bring(&board, &grid);
        assert_eq!((brought.rows, brought.left), (document.tables[0].rows().len(), lines), "{}", kind.word());
        closing += lines;
    }
    assert!(closing > 7, "{closing} lines");
}

/// What goes out and comes in again: the report, as what it is brought in, and how many records it tells of.
fn round_trips(board: &Board) -> [(Report, Kind, usize); 3] {
    [
        (Report::Outfits, Kind::Outfits, board.records().outfits.len()),
        (Report::Scenes, Kind::Scenes, board.scenes().len()),
        (Report::Schedule, Kind::Schedule, board.records().schedule.len()),
    ]
}

fn demo() -> Board {
    store::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board")).unwrap().board
}

fn below<'a>(element: ElementRef<'a>, what: &str) -> Vec<ElementRef<'a>> {
    element.select(&Selector::parse(what).unwrap()).collect()
}

/// That a page has each table with its caption, its head, and rows that are all as wide.
fn is_whole_as_a_page(document: &Document) {
    let text = String::from_utf8(Html.bytes(document).unwrap()).unwrap();
    let page = scraper::Html::parse_document(&text);
    // On sheets, what stands upright has its heads beside it.
    let tables: Vec<ElementRef<'_>> = below(page.root_element(), "table:not(.upright)");
    let sheets: Vec<Table> = document.sheets().into_iter().flat_map(|(_, tables)| tables).collect();
    let set: Vec<&Table> = match document.sheets_by {
        Some(_) => sheets.iter().filter(|table| !table.is_upright()).collect(),
        None => document.tables.iter().collect(),
    };
    assert_eq!(tables.len(), set.len(), "{}", document.key);
    for (table, read) in set.into_iter().zip(tables) {
        let width = table.places(OnPaper::Row).len();
        let runs = if table.places(OnPaper::Above).is_empty() { 0 } else { table.runs().count() };
        assert_eq!(below(read, "caption").len(), 1, "{}", document.key);
        assert_eq!(below(read, "thead > tr > th[scope=col]").len(), width, "{}", document.key);
        let rows = below(read, "tbody > tr");
        assert_eq!(rows.len(), table.rows().len().max(1) + runs, "{}", document.key);
        assert_eq!(below(read, "tbody > tr > th[scope=rowgroup]").len(), runs, "{}", document.key);
        for row in rows {
            let span = |cell: ElementRef<'_>| cell.attr("colspan").map_or(1, |span| span.parse().unwrap());
            // What is to be seen stands beside all rows of its run, or beside its row.
            let cells: usize = below(row, "td:not([rowspan]):not(.beside), th").into_iter().map(span).sum();
            assert_eq!(cells, width, "{}", document.key);
        }
    }
}

/// That a workbook has a sheet for each table, with its head, and no cell beside or below it.
fn is_whole_as_a_workbook(document: &Document) {
    let bytes = Xlsx.bytes(document).unwrap();
    let mut book: calamine::Xlsx<_> = calamine::open_workbook_from_rs(Cursor::new(bytes)).unwrap();
    let names = book.sheet_names();
    assert_eq!(names.len(), document.tables.len() + 1, "{}", document.key);
    assert_eq!(names.last().map(String::as_str), Some("About"));
    for (table, name) in document.tables.iter().zip(&names) {
        let range = book.worksheet_range(name).unwrap();
        let head = range.rows().next().unwrap();
        assert!(head.iter().all(|cell| !cell.to_string().is_empty()), "{} {name}", document.key);
        // A column before the others shows what there is to see, and says below it what that is.
        let shown = usize::from(table.has_figures());
        assert_eq!(
            range.get_size(),
            (table.rows().len() + 1, table.columns().len() + shown),
            "{} {name}",
            document.key
        );
        let filled = table.rows().iter().map(|row| row.iter().filter(|cell| **cell != Cell::Empty).count());
        let read = range
            .rows()
            .skip(1)
            .map(|row| row.iter().skip(shown).filter(|cell| !cell.to_string().is_empty()).count());
        assert_eq!(read.collect::<Vec<_>>(), filled.collect::<Vec<_>>(), "{} {name}", document.key);
    }
}

#[test]
fn every_report_of_the_demo_is_whole_as_a_page_and_as_a_workbook() {
    let board = demo();
    let mut rows = 0;
    for report in Report::ALL {
        let document = report.document(&board, None);
        rows += document.tables.iter().map(|table| table.rows().len()).sum::<usize>();
        is_whole_as_a_page(&document);
        is_whole_as_a_workbook(&document);
    }
    assert!(rows > 200, "{rows}");
}

#[test]
fn the_demo_brought_back_in_changes_nothing_in_either_format() {
    let board = demo();
    for (report, kind, records) in round_trips(&board) {
        for format in FORMATS {
            let brought = kind.bring(&board, &exported(format, report, &board));
            assert_eq!((brought.wrong.as_slice(), &brought.edit), (&[][..], &None), "{}", kind.word());
            assert_eq!(brought.counts.unchanged, records, "{}", kind.word());
        }
    }
}
