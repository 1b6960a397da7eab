//! `shirr bring` and the report on what has changed.

use std::fs;
use std::path::Path;

use serde_json::json;
use shirr::store::{OpenBoard, Places};

use crate::FORMATS;
use crate::common::Desk;

const SCRIPT: &str = "\
EXT. QUAY - DAY #1#

ADA coils a rope. She does not look at the boat.

INT. LOFT - NIGHT #2#

ADA
Who is there?

KEEPER
Only me.
";

/// The board of the desk with the script beside it.
fn desk() -> Desk {
    let desk = Desk::new();
    desk.board("film", &[]);
    fs::write(desk.path("draft.fountain"), SCRIPT).unwrap();
    desk
}

fn scenes(desk: &Desk) -> String {
    fs::read_to_string(desk.path("film/scenes.yaml")).unwrap()
}

#[test]
fn a_script_is_told_and_brought_in_and_a_second_time_changes_nothing() {
    let desk = desk();
    let before = scenes(&desk);
    let run = desk.shirr(&["bring", "script", "draft.fountain", "film", "--dry-run"]).exits(0);
    for line in [
        "two scenes in draft.fountain: one scene added, one scene under another heading and one scene shorter.",
        "  other heading 1 EXT. QUAY - DAY: had none (line 1)",
        "  shorter       1 EXT. QUAY - DAY: 1 3/8 pages → 1/8 pages (line 1)",
        "  added         2 INT. LOFT - NIGHT: 1/8 pages (line 5)",
        "  Ada has no look yet in scene 2",
        "  KEEPER: speaks in one scene, first in line 10",
        "    - {id: keeper, name: Keeper}",
        "Nothing is changed yet: leave out --dry-run to bring it in.",
    ] {
        assert!(run.out.lines().any(|out| out == line), "{line}\n{}", run.out);
    }
    assert_eq!(scenes(&desk), before);
    let run = desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(0);
    assert!(run.out.contains("It is done, as one edit"), "{}", run.out);
    let after = scenes(&desk);
    assert!(after.contains("heading: INT. LOFT - NIGHT") && after.contains("ada: quay"), "{after}");
    let run = desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(0);
    assert!(run.out.contains("the board has it so already"), "{}", run.out);
    assert_eq!(scenes(&desk), after);
}

#[test]
fn what_was_brought_in_is_one_step_of_undo_that_brings_the_files_back() {
    let desk = desk();
    let before = scenes(&desk);
    desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(0);
    assert_ne!(scenes(&desk), before);
    let state = desk.demo().parent().unwrap().parent().unwrap().parent().unwrap().join("state/shirr");
    let places = Places { state, ..Places::below(Path::new("unused")) };
    let mut open = OpenBoard::open(&desk.path("film"), &places).unwrap();
    assert_eq!(open.undo().unwrap().as_deref(), Some("script brought in"));
    assert_eq!(scenes(&desk), before);
}

#[test]
fn the_demo_has_its_script_beside_it_and_is_as_the_script_has_it() {
    let desk = Desk::new();
    desk.shirr(&["demo", "--reset"]).exits(0);
    let script = desk.demo().join("script.fountain");
    let part = ["--part", "1-26A"];
    let run = desk.shirr(&[&["bring", "script", script.to_str().unwrap()], &part[..]].concat()).exits(0);
    assert!(
        run.out.contains("nothing has changed") && run.out.contains("NANNA RASKER: speaks in one scene"),
        "{}",
        run.out
    );
    assert!(!run.err.contains("warning"), "{}", run.err);
}

#[test]
fn json_says_the_same() {
    let desk = desk();
    let document = desk.shirr(&["bring", "script", "draft.fountain", "film", "--json"]).exits(0).json();
    assert_eq!((&document["applied"], &document["edit"]), (&json!(true), &json!("script brought in")));
    assert_eq!(document["held-back"], false);
    assert_eq!(document["not-on-board"], json!([{"name": "KEEPER", "scenes": 1, "line": 10}]));
    assert_eq!(document["no-look-yet"], json!([{"scene": "2", "character": "ada"}]));
    assert_eq!(document["on-no-shooting-day"], json!([]), "there is no schedule");
    assert_eq!((&document["unscheduled"], &document["in-no-scene"]), (&json!([]), &json!([])));
    assert_eq!(
        document["changes"][2],
        json!({
            "what": "added", "scene": "2", "heading": "INT. LOFT - NIGHT", "line": 5, "was": null, "becomes": 1,
            "worn": null,
        })
    );
}

#[test]
fn a_part_leaves_what_it_does_not_hold_and_a_whole_script_says_how_to_be_one() {
    let desk = desk();
    desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(0);
    fs::write(desk.path("part.fountain"), "INT. LOFT - NIGHT #2#\n\nADA\nWho is it?\n").unwrap();
    let run = desk.shirr(&["bring", "script", "part.fountain", "film", "--dry-run"]).exits(0);
    assert!(run.out.contains("  cut           1 EXT. QUAY - DAY: was 1/8 pages"), "{}", run.out);
    assert!(run.out.contains("bring it in with `--part 2-2`"), "{}", run.out);
    let run = desk.shirr(&["bring", "script", "part.fountain", "film", "--part", "2-2"]).exits(0);
    assert!(!run.out.contains("cut"), "{}", run.out);
    assert!(scenes(&desk).contains("EXT. QUAY - DAY"));
    let run = desk.shirr(&["bring", "script", "part.fountain", "film", "--part", "5-4"]).exits(2);
    assert!(run.err.contains("expected the first and the last scene number"), "{}", run.err);
    let run = desk.shirr(&["bring", "script", "part.fountain", "film", "--part", "5-9"]).exits(2);
    assert!(run.err.contains("line 1: scene 2 is not in the part 5-9"), "{}", run.err);
}

#[test]
fn a_file_that_is_no_script_changes_nothing_and_says_where_and_what_to_do() {
    let desk = desk();
    let before = scenes(&desk);
    for (bytes, what) in [
        (b"\x7fELF\x02\0\0".as_slice(), "bad:1:6: this is no text in UTF-8\nhint: export it"),
        (b"Hello.\n", "bad: there is no scene in it"),
        (b"INT. A\n\n/* b\n", "bad:3:1: this `/*` takes all the rest"),
        (b"INT. A #1#\n\nINT. B #1#\n", "bad:3:9: scene 1 is in line 1 already"),
    ] {
        fs::write(desk.path("bad"), bytes).unwrap();
        let run = desk.shirr(&["bring", "script", "bad", "film"]).exits(2);
        assert!(run.err.starts_with(&format!("shirr: {what}")), "{}", run.err);
        assert!(run.err.contains("\nhint: ") && run.out.is_empty(), "{}", run.err);
    }
    let run = desk.shirr(&["bring", "script", "none", "film"]).exits(2);
    assert!(run.err.starts_with("shirr: none: it cannot be read: "), "{}", run.err);
    let run = desk.shirr(&["bring", "script", "film", "film"]).exits(2);
    assert!(run.err.starts_with("shirr: film: it is no file\nhint: "), "{}", run.err);
    assert_eq!(scenes(&desk), before);
}

#[cfg(unix)]
#[test]
fn a_pipe_without_a_writer_is_no_file_and_nobody_waits_for_it() {
    let desk = desk();
    assert!(std::process::Command::new("mkfifo").arg(desk.path("pipe")).status().unwrap().success());
    for kind in [["script"].as_slice(), &["table", "outfits"]] {
        let run = desk.shirr(&[&["bring"], kind, &["pipe", "film"]].concat()).exits(2);
        assert!(run.err.starts_with("shirr: pipe: it is no file"), "{}", run.err);
    }
}

#[test]
fn a_number_that_the_board_cannot_have_is_warned_of_with_its_place() {
    let desk = desk();
    fs::write(desk.path("draft.fountain"), SCRIPT.replace("#2#", "#12 A!#")).unwrap();
    let run = desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(0);
    assert!(
        run.err.starts_with("shirr: warning: draft.fountain:5:20: `12 A!` is no scene number here"),
        "{}",
        run.err
    );
    assert!(run.out.contains("  added         2 INT. LOFT - NIGHT"), "{}", run.out);
}

#[test]
fn a_board_that_cannot_be_read_whole_is_not_changed() {
    let desk = desk();
    fs::write(desk.path("film/looks/quay.yaml"), "title: [\n").unwrap();
    let before = scenes(&desk);
    let run = desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(2);
    assert!(run.err.contains("nothing is changed: not all of the board can be read"), "{}", run.err);
    assert_eq!(scenes(&desk), before);
    let dry = desk.shirr(&["bring", "script", "draft.fountain", "film", "--dry-run"]).exits(2);
    assert!(dry.err.contains("nothing is changed: not all of the board can be read"), "{}", dry.err);
    assert!(dry.out.is_empty(), "{}", dry.out);
}

/// Scenes with these numbers, in which Ada does things that are not like each other.
fn loft(numbers: &[&str]) -> String {
    let deeds =
        ["mends a net", "burns letters", "counts gulls", "hides the brass clock", "sleeps", "sings low"];
    let scene = |number: &&str| {
        let at: usize = number.parse().unwrap();
        format!(
            "INT. ROOM OF {} - DAY #{number}#\n\nADA {}.\n\n",
            ["", "A", "B", "C", "D", "E", "F"][at],
            deeds[at - 1]
        )
    };
    numbers.iter().map(scene).collect()
}

#[test]
fn who_goes_out_is_told_with_the_look() {
    let desk = desk();
    fs::write(desk.path("draft.fountain"), SCRIPT.replace("ADA coils", "Somebody coils")).unwrap();
    let run = desk.shirr(&["bring", "script", "draft.fountain", "film", "--dry-run"]).exits(0);
    let line = "  goes out      1 EXT. QUAY - DAY: Ada (Quay) (line 1)";
    assert!(run.out.lines().any(|out| out == line), "{}", run.out);
    let document = desk.shirr(&["bring", "script", "draft.fountain", "film", "--json"]).exits(0).json();
    let changes = document["changes"].as_array().unwrap();
    let out = changes.iter().find(|change| change["what"] == "goes-out").unwrap();
    assert_eq!((&out["was"], &out["worn"]), (&json!("ada"), &json!([{"character": "ada", "look": "quay"}])));
    assert!(changes.iter().filter(|change| change["what"] != "goes-out").all(|one| one["worn"].is_null()));
}

#[test]
fn a_script_that_cuts_every_third_scene_has_to_be_called_a_part_or_the_whole() {
    let desk = desk();
    fs::write(desk.path("draft.fountain"), loft(&["1", "2", "3", "4", "5", "6"])).unwrap();
    desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(0);
    let before = scenes(&desk);
    // The scenes stand in another order than their numbers.
    fs::write(desk.path("part.fountain"), loft(&["5", "2", "3"])).unwrap();
    let bring = |more: &[&str]| desk.shirr(&[&["bring", "script", "part.fountain", "film"], more].concat());
    let run = bring(&[]).exits(1);
    for line in [
        "  cut           4 INT. ROOM OF D - DAY: was 1/8 pages (Ada: no look yet)",
        "Nothing is changed: it would cut 3 of the 6 scenes that the board has.",
        "If the script is only a part of the film, bring it in with `--part 2-5`.",
        "If it is all of the film, bring it in with `--whole`.",
    ] {
        assert!(run.out.lines().any(|out| out == line), "{line}\n{}", run.out);
    }
    let document = bring(&["--json"]).exits(1).json();
    assert_eq!((&document["held-back"], &document["applied"]), (&json!(true), &json!(false)));
    let cut = document["changes"].as_array().unwrap().iter().filter(|change| change["what"] == "cut");
    let worn: Vec<_> =
        cut.map(|change| (change["scene"].as_str().unwrap(), change["worn"].clone())).collect();
    let of = |look: Option<&str>| json!([{"character": "ada", "look": look}]);
    assert_eq!(worn, [("1", of(Some("quay"))), ("4", of(None)), ("6", of(None))]);
    let dry = bring(&["--dry-run"]).exits(1);
    assert!(dry.out.contains("  cut           6 ") && dry.out.contains("with `--whole`"), "{}", dry.out);
    assert_eq!(scenes(&desk), before);
    bring(&["--part", "2-5", "--whole"]).exits(2);
    let run = bring(&["--part", "2-5"]).exits(0);
    assert!(run.out.contains("one scene cut") && run.out.contains("It is done"), "{}", run.out);
    let run = bring(&["--whole"]).exits(0);
    assert!(run.out.contains("two scenes cut") && !run.out.contains("--part"), "{}", run.out);
    assert_eq!(scenes(&desk).matches("- scene: ").count(), 3);
}

#[test]
fn whoever_is_proposed_for_the_board_can_be_pasted_into_it() {
    for (cue, line) in [
        ("KEEPER", "    - {id: keeper, name: Keeper}"),
        ("GUARD #1, DECK", "    - {id: guard-1-deck, name: \"Guard #1, Deck\"}"),
        ("NULL", "    - {id: \"null\", name: \"Null\"}"),
    ] {
        let desk = desk();
        fs::write(desk.path("draft.fountain"), SCRIPT.replace("KEEPER", cue)).unwrap();
        let run = desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(0);
        assert!(run.out.lines().any(|out| out == line), "{line}\n{}", run.out);
        let head = fs::read_to_string(desk.path("film/board.yaml")).unwrap();
        let pasted = head.replace("characters:\n", &format!("characters:\n{}\n", &line[2..]));
        assert_ne!(pasted, head);
        fs::write(desk.path("film/board.yaml"), pasted).unwrap();
        let run = desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(0);
        assert!(run.out.contains("comes in") && !run.out.contains("Not on the board"), "{}", run.out);
    }
}

#[test]
fn the_report_on_changes_is_in_every_format_from_the_draft_to_the_board() {
    let desk = desk();
    desk.shirr(&["bring", "script", "draft.fountain", "film"]).exits(0);
    let earlier = SCRIPT.replace("INT. LOFT - NIGHT #2#", "INT. ATTIC - NIGHT #2#");
    let earlier = earlier.replace("Who is there?", &"Who is there, and why, and since when? ".repeat(10));
    fs::write(desk.path("earlier.fountain"), earlier).unwrap();
    for format in FORMATS {
        let run = desk
            .shirr(&["report", "changes", "film", "--against", "earlier.fountain", "--to", format])
            .exits(0);
        assert!(run.out.contains("was INT. ATTIC") || run.out.contains("INT. ATTIC - NIGHT"), "{}", run.out);
        if format == "json" {
            let rows = &run.json()["tables"][0]["rows"];
            assert_eq!(
                rows[0],
                json!({
                    "scene": "2", "heading": "INT. LOFT - NIGHT", "change": "other heading",
                    "was": "INT. ATTIC - NIGHT", "becomes": null, "worn": ["Ada: no look yet"],
                    "cautions": null,
                })
            );
            assert_eq!((&rows[1]["change"], rows.as_array().unwrap().len()), (&json!("shorter"), 2));
        }
    }
    let cut = format!("Title: Tides\n\nINT. CRYPT - DAY #9#\n\nADA digs. KEEPER waits.\n\n{SCRIPT}");
    fs::write(desk.path("earlier.fountain"), cut).unwrap();
    let report = desk.shirr(&["report", "changes", "film", "--against", "earlier.fountain"]).exits(0).out;
    assert!(report.contains("Tides, an earlier draft of 3 scenes: one scene cut"), "{report}");
    assert!(report.contains("Ada: was in it"), "{report}");
    let run = desk.shirr(&["report", "changes", "film"]).exits(2);
    assert!(run.err.contains("--against <FILE>"), "{}", run.err);
    let run = desk.shirr(&["report", "plot", "film", "--against", "earlier.fountain"]).exits(2);
    assert!(run.err.contains("`--against` goes with `shirr report changes` alone"), "{}", run.err);
}

#[test]
fn the_report_on_changes_says_who_has_gone_out_and_who_is_there() {
    let desk = desk();
    let later = SCRIPT.replace("ADA\nWho", "KEEPER\nWho");
    fs::write(desk.path("later.fountain"), later).unwrap();
    desk.shirr(&["bring", "script", "later.fountain", "film"]).exits(0);
    let args = ["report", "changes", "film", "--against", "draft.fountain", "--to", "json"];
    let rows = desk.shirr(&args).exits(0).json()["tables"][0]["rows"].clone();
    let out = rows.as_array().unwrap().iter().find(|row| row["change"] == "goes out").unwrap();
    // A draft knows no looks, so it can say no more of whoever has gone.
    assert_eq!((&out["was"], &out["worn"]), (&json!("Ada"), &json!(["Ada: was in it"])));
}

#[test]
fn a_new_scene_on_no_shooting_day_is_to_be_looked_at() {
    let desk = desk();
    fs::write(desk.path("film/schedule.yaml"), "- {day: 1, scenes: [1]}\n").unwrap();
    let run = desk.shirr(&["bring", "script", "draft.fountain", "film", "--dry-run"]).exits(0);
    assert!(run.out.contains("\n  scene 2 is on no shooting day\n"), "{}", run.out);
    assert!(!run.out.contains("scene 1 is on no shooting day"), "{}", run.out);
    let document = desk.shirr(&["bring", "script", "draft.fountain", "film", "--json"]).exits(0).json();
    assert_eq!(document["on-no-shooting-day"], json!(["2"]));
}
