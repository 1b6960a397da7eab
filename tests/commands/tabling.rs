//! `shirr bring table`.

use std::fs;

use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};
use serde_json::json;
use shirr::store::{OpenBoard, Places};

use crate::common::Desk;
use crate::{demo_on, files};

#[test]
fn a_table_is_previewed_and_then_brought_in_as_one_edit_that_undo_takes_back() {
    let desk = Desk::new();
    let board = desk.board("film", &[]);
    let before = files(&board);
    fs::write(
        desk.path("wardrobe.csv"),
        "Outfit;Role;Date worn;Shelf\nSmock;Ada;c. 1919;3\nApron;Ada;1921;4\nCape;ada;;5\n",
    )
    .unwrap();
    let preview = desk.shirr(&["bring", "table", "outfits", "wardrobe.csv", "film", "--dry-run"]).exits(0);
    assert_eq!(
        preview.out,
        "wardrobe.csv: 3 rows of outfits.\n   A  Outfit → Title\n   B  Role → Character\n   C  Date worn → Worn\n   \
         D  Shelf → not used\nOutfits: 2 new, 1 changed, 0 as before.\n  \
         outfit `smock`  Worn: 1920 → 1919~\n  \
         new outfit `apron`  Title: Apron, Character: Ada, Worn: 1921, Period: Early, Recognition: 0\n  \
         new outfit `cape`  Title: Cape, Character: Ada, Recognition: 0\nNothing is changed yet: this is the preview.\n"
    );
    assert_eq!(files(&board), before);
    let run = desk.shirr(&["bring", "table", "outfits", "wardrobe.csv", "film"]).exits(0);
    assert!(run.out.ends_with("Done as one edit: table of outfits: 2 new, 1 changed.\n"), "{}", run.out);
    assert!(fs::read_to_string(board.join("outfits/smock.yaml")).unwrap().contains("worn: 1919~"));
    assert!(board.join("outfits/apron.yaml").is_file() && board.join("outfits/cape.yaml").is_file());
    let again = desk.shirr(&["bring", "table", "outfits", "wardrobe.csv", "film"]).exits(0);
    assert!(
        again.out.contains("Outfits: 0 new, 0 changed, 3 as before.\nNothing is changed: "),
        "{}",
        again.out
    );
    let home = desk.path("../home");
    let places = Places {
        state: home.join("state/shirr"),
        data: home.join("data/shirr"),
        cache: home.join("cache/shirr"),
    };
    let mut open = OpenBoard::open(&board, &places).unwrap();
    assert_eq!(open.undo_labels().len(), 1);
    open.undo().unwrap();
    assert_eq!(files(&board), before);
}

#[test]
fn with_any_error_nothing_is_changed_and_each_has_its_row_and_heading() {
    let desk = Desk::new();
    let board = desk.board("film", &[]);
    let before = files(&board);
    fs::write(
        desk.path("scenes.csv"),
        "Scene No,Pages,Character,Look\n1,2 3/8,Ada,Quay\n2,two,,\n3,1,Eve,\n",
    )
    .unwrap();
    let run = desk.shirr(&["bring", "table", "scenes", "scenes.csv", "film"]).exits(1);
    let errors: Vec<&str> = run.out.lines().filter(|line| line.starts_with("error: ")).collect();
    assert_eq!(
        errors,
        [
            "error: row 3, Pages: `two` is no page count: expected pages and eighths such as `1 3/8`, `3/8` or `2`",
            "error: row 4, Character: there is no character `Eve`: expected one of `ada`",
        ]
    );
    assert!(run.out.ends_with("Nothing is changed: mend the table and bring it in again.\n"), "{}", run.out);
    assert_eq!(files(&board), before);
    let document = desk.shirr(&["bring", "table", "scenes", "scenes.csv", "film", "--json"]).exits(1).json();
    assert_eq!((&document["applied"], &document["edit"]), (&json!(false), &json!(null)));
    assert_eq!(document["errors"][0]["row"], 3);
    assert_eq!(document["errors"][0]["column"], "Pages");
    assert_eq!(document["columns"][0], json!({"column": "A", "heading": "Scene No", "field": "Scene"}));
}

#[test]
fn a_workbook_is_read_by_its_sheet() {
    let desk = Desk::new();
    let board = desk.board("film", &[]);
    let mut book = Workbook::new();
    book.add_worksheet().set_name("Cover").unwrap().write(0, 0, "Our film").unwrap();
    let sheet = book.add_worksheet().set_name("Days").unwrap();
    for (column, heading) in (0..).zip(["Shooting day", "Date", "Scenes"]) {
        sheet.write(0, column, heading).unwrap();
    }
    let date = Format::new().set_num_format("dd.mm.yyyy");
    sheet.write(1, 0, 1.0).unwrap();
    sheet.write_with_format(1, 1, ExcelDateTime::from_ymd(2027, 7, 5).unwrap(), &date).unwrap();
    sheet.write(1, 2, 1.0).unwrap();
    book.save(desk.path("days.xlsx")).unwrap();
    let run = desk.shirr(&["bring", "table", "schedule", "days.xlsx", "film"]).exits(1);
    assert!(run.out.contains("error: row 1, Day: no column is read as it"), "{}", run.out);
    let run = desk.shirr(&["bring", "table", "schedule", "days.xlsx", "film", "--sheet", "days"]).exits(0);
    assert!(run.out.starts_with("days.xlsx, sheet `Days`: one row of schedule.\n"), "{}", run.out);
    let schedule = fs::read_to_string(board.join("schedule.yaml")).unwrap();
    assert_eq!(schedule, "- day: 1\n  date: 2027-07-05\n  scenes:\n  - 1\n");
    let run = desk.shirr(&["bring", "table", "schedule", "days.xlsx", "film", "--sheet", "Nights"]).exits(2);
    assert!(run.err.contains("it has no sheet `Nights`: there are `Cover`, `Days`"), "{}", run.err);
}

#[test]
fn what_is_no_table_is_refused_in_one_sentence() {
    let desk = Desk::new();
    let board = desk.board("film", &[]);
    let before = files(&board);
    let huge = format!("Title,Character\n\"{}\",ada\n", "x".repeat(70_000));
    let cases: [(&str, &[u8], &str); 6] = [
        ("empty.csv", b"", "it is empty"),
        ("latin.csv", b"Title,Character\nCr\xeape,ada\n", "it is not UTF-8 from line 2 on"),
        ("zip.xlsx", b"PK\x03\x04 and nothing of the kind", "it is no XLSX workbook that can be read"),
        ("old.xls", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "an old or a locked workbook"),
        ("picture.csv", b"\x89PNG\0\0", "it is a picture (PNG), and expected is CSV in UTF-8"),
        ("huge.csv", huge.as_bytes(), "row 2, column A: the cell has more than 64 KiB"),
    ];
    for (name, bytes, said) in cases {
        fs::write(desk.path(name), bytes).unwrap();
        let run = desk.shirr(&["bring", "table", "outfits", name, "film"]).exits(2);
        assert!(run.err.starts_with(&format!("shirr: {name}: ")) && run.err.contains(said), "{}", run.err);
    }
    for (name, said) in [("film", "it is no file"), ("nowhere.csv", "it cannot be read")] {
        let run = desk.shirr(&["bring", "table", "outfits", name, "film"]).exits(2);
        assert!(run.err.contains(said), "{}", run.err);
    }
    let text = "Title,Title,Character\na,b,ada\n";
    fs::write(desk.path("twice.csv"), text).unwrap();
    let run = desk.shirr(&["bring", "table", "outfits", "twice.csv", "film"]).exits(1);
    assert!(
        run.out.contains("error: row 1, Title: columns A and B are both read as it: keep one"),
        "{}",
        run.out
    );
    fs::write(desk.path("ragged.csv"), "Title,Character\nCape, grey,ada\nHood\n").unwrap();
    let run = desk.shirr(&["bring", "table", "outfits", "ragged.csv", "film"]).exits(1);
    assert!(run.out.contains("error: row 2: `ada` stands under no heading"), "{}", run.out);
    assert_eq!(files(&board), before);
}

#[test]
fn nothing_is_brought_into_a_board_that_cannot_be_read_whole() {
    let desk = Desk::new();
    let board = desk.board("torn", &[("looks/gown.yaml", "title: [\n")]);
    let before = files(&board);
    fs::write(desk.path("outfits.csv"), "Title,Character\nCape,ada\n").unwrap();
    for dry in [&["--dry-run"][..], &[]] {
        let args = [&["bring", "table", "outfits", "outfits.csv", "torn"], dry].concat();
        let run = desk.shirr(&args).exits(2);
        assert!(run.err.contains("not all of the board can be read"), "{}", run.err);
    }
    assert_eq!(files(&board), before);
}

#[test]
fn the_reports_of_the_demo_brought_back_in_change_nothing() {
    let desk = Desk::new();
    let board = demo_on(&desk);
    let before = files(&board);
    for report in ["outfits", "scenes", "schedule"] {
        let file = format!("{report}.csv");
        desk.shirr(&["report", report, "demo", "-o", &file]).exits(0);
        let document = desk.shirr(&["bring", "table", report, &file, "demo", "--json"]).exits(0).json();
        assert_eq!((&document["new"], &document["changed"]), (&json!(0), &json!(0)), "{report}");
        assert!(document["unchanged"].as_u64().unwrap() > 20, "{document}");
    }
    assert_eq!(files(&board), before);
}
