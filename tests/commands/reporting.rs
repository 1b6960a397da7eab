//! `shirr report`.

use std::fs;

use serde_json::json;

use crate::common::Desk;
use crate::{FORMATS, REPORTS, STARTERS};

#[test]
fn every_report_is_printed_in_every_format() {
    let desk = Desk::new();
    desk.board("film", &[]);
    for report in REPORTS {
        for format in FORMATS {
            let run = desk.shirr(&["report", report, "film", "--to", format]).exits(0);
            assert!(run.err.is_empty(), "{}", run.err);
            let shows = match format {
                "md" => run.out.starts_with("# Trial") && run.out.contains("| --- |"),
                "csv" => {
                    // Only the first of several tables, which an empty line parts, without its title.
                    let mut tables = run.out.split("\r\n\r\n");
                    let several = tables.clone().count() > 1;
                    let first = tables.next().unwrap();
                    let first = if several { first.split_once("\r\n").unwrap().1 } else { first };
                    let mut reader = csv::Reader::from_reader(first.as_bytes());
                    let rows: Vec<_> = reader.records().map(Result::unwrap).collect();
                    rows.len() == 1 && rows[0].iter().any(|cell| cell == "Quay")
                }
                _ => {
                    run.json()["report"] == report
                        && run.json()["tables"][0]["rows"].as_array().unwrap().len() == 1
                }
            };
            assert!(shows, "{report} {format}:\n{}", run.out);
        }
    }
}

#[test]
fn look_per_scene_says_who_wears_what_with_typed_values() {
    let desk = Desk::new();
    desk.board("film", &[]);
    let run = desk.shirr(&["report", "scenes", "film", "--to", "json"]).exits(0);
    assert_eq!(
        run.json()["tables"][0]["rows"],
        json!([{
            "scene": "1", "heading": null, "story-day": null, "date": "1920", "period": "Early", "set": "Quay",
            "where": null, "when": null, "eighths": 11, "minutes": 1.375, "action": null, "character": "Ada", "performer": null, "change": 1,
            "carried": null, "look": "Quay", "treatment": "copies (=)", "dressing": null, "cautions": null, "notes": null,
        }])
    );
}

#[test]
fn a_report_goes_into_a_file_in_the_format_of_its_ending() {
    let desk = Desk::new();
    desk.board("film", &[]);
    fs::write(desk.path("plot.csv"), "something longer that was there before, line by line\n".repeat(50))
        .unwrap();
    let run = desk.shirr(&["report", "plot", "film", "-o", "plot.csv"]).exits(0);
    assert!(run.out.is_empty() && run.err.contains("replaced"), "{}{}", run.out, run.err);
    let printed = desk.shirr(&["report", "plot", "film", "--to", "csv"]).exits(0);
    assert_eq!(fs::read_to_string(desk.path("plot.csv")).unwrap(), printed.out);
    let mut names: Vec<_> =
        fs::read_dir(desk.path("")).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["film", "plot.csv"]);
}

#[test]
fn an_ending_that_names_no_format_is_an_error_that_names_those_that_do() {
    let desk = Desk::new();
    desk.board("film", &[]);
    let run = desk.shirr(&["report", "looks", "film", "-o", "looks.docx"]).exits(2);
    assert!(run.err.starts_with("shirr: `.docx` names no format of a report\nhint: "), "{}", run.err);
    assert!(FORMATS.iter().all(|format| run.err.contains(&format!("`.{format}`"))), "{}", run.err);
    assert!(!desk.path("looks.docx").exists());
    desk.shirr(&["report", "looks", "film", "-o", "looks.docx", "--to", "html"]).exits(0);
    assert!(fs::read_to_string(desk.path("looks.docx")).unwrap().starts_with("<!DOCTYPE html>"));
    desk.shirr(&["report", "looks", "film", "-o", "looks"]).exits(0);
    assert!(fs::read_to_string(desk.path("looks")).unwrap().starts_with("# "));
}

#[test]
fn a_report_never_overwrites_a_record_of_its_board() {
    let desk = Desk::new();
    let board = desk.board("film", &[]);
    let run = desk.shirr(&["report", "plot", "film", "-o", "film/scenes.yaml"]).exits(2);
    assert!(
        run.err.starts_with("shirr: film/scenes.yaml is one of the board's own files\nhint: "),
        "{}",
        run.err
    );
    assert!(fs::read_to_string(board.join("scenes.yaml")).unwrap().starts_with("- scene: 1"));
}

#[test]
fn an_unknown_report_or_format_is_refused_with_those_that_there_are() {
    let desk = Desk::new();
    let run = desk.shirr(&["report", "looms"]).exits(2);
    assert!(
        run.err.starts_with("shirr: ") && REPORTS.iter().all(|report| run.err.contains(report)),
        "{}",
        run.err
    );
    let run = desk.shirr(&["report", "looks", "--to", "pdf"]).exits(2);
    assert!(FORMATS.iter().all(|format| run.err.contains(format)), "{}", run.err);
}

#[test]
fn a_report_with_gaps_says_so_in_itself_and_by_its_exit_code() {
    let desk = Desk::new();
    desk.board("film", &[("outfits/coat.yaml", "titel: Coat\n"), ("looks/bad.yaml", "title: [\n")]);
    for format in FORMATS {
        let run = desk.shirr(&["report", "scenes", "film", "--to", format]).exits(2);
        assert_eq!(
            run.err.lines().filter(|line| line.starts_with("shirr: warning: ")).count(),
            2,
            "{}",
            run.err
        );
        assert!(run.out.contains("2 files could not be read"), "{}", run.out);
        assert!(run.out.contains("Quay"), "the rest is there: {}", run.out);
    }
}

#[test]
fn a_file_that_was_there_is_said_to_be_replaced() {
    let desk = Desk::new();
    desk.board("film", &[]);
    let report = ["report", "plot", "film", "-o", "plot.md"];
    assert_eq!(desk.shirr(&report).exits(0).err, "");
    assert!(desk.shirr(&report).exits(0).err.contains("plot.md was there and is replaced"));
}

#[test]
fn a_spreadsheet_goes_into_a_file_and_is_not_printed() {
    let desk = Desk::new();
    desk.board("film", &[]);
    let run = desk.shirr(&["report", "plot", "film", "--to", "xlsx"]).exits(2);
    assert!(run.out.is_empty() && run.err.contains("name a file with `-o FILE`"), "{}", run.err);
    desk.shirr(&["report", "plot", "film", "-o", "plot.xlsx"]).exits(0);
    assert_eq!(fs::read(desk.path("plot.xlsx")).unwrap()[..2], *b"PK");
    desk.shirr(&["report", "plot", "film", "-o", "plot.html"]).exits(0);
    let page = fs::read_to_string(desk.path("plot.html")).unwrap();
    assert!(page.starts_with("<!DOCTYPE html>") && page.contains(">Quay</td>"), "{page}");
}

#[test]
fn what_is_kept_can_be_asked_of_one_character() {
    let desk = Desk::new();
    let bridie =
        "shirr: 1\nid: trial\ntitle: Trial\ncharacters: [{id: ada, name: Ada}, {id: bridie, name: Bridie}]\n";
    let coat = "title: Coat\ncharacter: bridie\nrecognition: 5\n";
    desk.board("film", &[("board.yaml", bridie), ("outfits/coat.yaml", coat)]);
    let ask = |who: &str| desk.shirr(&["report", "kept", "film", "--character", who, "--to", "json"]);
    let ada = ask("ada").exits(0).json();
    assert_eq!(ada["title"], "Trial: what the looks of Ada keep");
    assert_eq!(
        ada["tables"][1]["rows"][0],
        json!({"of": "Ada", "kind": "character", "outfits": 1, "kept": 1.0, "reachable": 1.0})
    );
    assert_eq!(ask("bridie").exits(0).json()["tables"][1]["rows"][0]["kept"], 0.0);
    let run = ask("adda").exits(2);
    assert!(
        run.err.starts_with("shirr: there is no character `adda` on this board\nhint: did you mean `ada`?\n"),
        "{}",
        run.err
    );
    let run = desk.shirr(&["report", "looks", "film", "--character", "ada"]).exits(2);
    assert!(run.err.contains("`--character` goes with `shirr report kept` alone"), "{}", run.err);
}

#[test]
fn where_nothing_is_documented_the_page_of_what_is_kept_says_so() {
    let desk = Desk::new();
    desk.shirr(&["new", "bare", "--from", "blank"]).exits(0);
    for format in FORMATS {
        let run = desk.shirr(&["report", "kept", "bare", "--to", format]).exits(0);
        assert!(
            run.out.contains("Nothing is documented yet: there is no outfit on this board"),
            "{}",
            run.out
        );
        assert!(!run.out.contains('%'), "{}", run.out);
    }
}

#[test]
fn a_share_is_the_same_in_the_suggestion_and_in_the_report() {
    let desk = Desk::new();
    for starter in STARTERS {
        desk.shirr(&["new", starter, "--from", starter]).exits(0);
    }
    let kept = |board: &str| desk.shirr(&["report", "kept", board]).exits(0).out;
    let suggested = |board: &str| desk.shirr(&["suggest", board]).exits(0).out;
    assert!(kept("several-leads").contains("keep 53.6 % of the documented wardrobe; 53.6 % if every outfit"));
    assert!(suggested("several-leads").contains("your 3 keep 53.6 % (53.6 % if every outfit"));
    assert!(kept("one-life").contains("keeps 23.5 % of the documented wardrobe; 23.5 % if every outfit"));
    assert!(suggested("one-life").contains("your 1 keeps 23.5 % (23.5 % if every outfit"));
}
