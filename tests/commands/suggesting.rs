//! `shirr suggest`.

use std::fs;
use std::path::PathBuf;

use serde_json::json;
use shirr::store::{OpenBoard, Places};

use crate::common::{Desk, in_repository};
use crate::{demo_on, files};

/// Three of Ada's outfits, of which one is the base of her only look.
const THREE: [(&str, &str); 2] = [
    ("outfits/apron.yaml", "title: Apron\ncharacter: ada\nworn: 1921\n"),
    ("outfits/gown.yaml", "title: Gown\ncharacter: ada\nworn: 1939\n"),
];

#[test]
fn the_suggestion_for_the_demo_is_proved_and_explained_look_by_look() {
    let desk = Desk::new();
    let run = desk.shirr(&["suggest", &in_repository("demo-board"), "--character", "odile"]).exits(0);
    let mut lines = run.out.lines();
    let head = lines.next().unwrap();
    assert!(head.starts_with("24 looks keep ") && head.contains("; your 23 keep "), "{head}");
    let proof = "Proved best: no other choice within the same wishes and limits keeps more.";
    assert_eq!(lines.next(), Some(proof));
    for number in 1..=24 {
        let look = format!("{number:>3}. ");
        assert_eq!(run.out.lines().filter(|line| line.starts_with(&look)).count(), 1, "{number}");
    }
    for said in ["% alike: most in ", ", least in ", "a stretch, ", "Looks that go", "Within these wishes"] {
        assert!(run.out.contains(said), "{said}:\n{}", run.out);
    }
}

#[test]
fn json_says_the_same_with_the_parts_of_every_distance() {
    let desk = Desk::new();
    let document = desk.shirr(&["suggest", &in_repository("demo-board"), "--json"]).exits(0).json();
    assert_eq!((&document["proven"], &document["applied"]), (&json!(true), &json!(null)));
    let mut seen = 0;
    for look in document["looks"].as_array().unwrap() {
        for folded in look["folded"].as_array().unwrap() {
            let parts =
                folded["features"].as_array().unwrap().iter().filter(|part| !part["distance"].is_null());
            let (mut sum, mut all) = (0.0, 0.0);
            for part in parts {
                let weight = part["weight"].as_f64().unwrap();
                sum += weight * part["distance"].as_f64().unwrap();
                all += weight;
            }
            let alike = folded["alike"].as_f64().unwrap();
            assert!((1.0 - sum / all - alike).abs() < 1e-6, "{folded}");
            assert_eq!(folded["stretch"], json!((100.0 * alike).round() <= 35.0));
            seen += 1;
        }
    }
    assert!(seen > 20, "{seen}");
}

#[test]
fn the_curve_rises_look_by_look() {
    let desk = Desk::new();
    desk.board("film", &THREE);
    let document = desk.shirr(&["suggest", "film", "--curve", "--json"]).exits(0).json();
    let kept: Vec<f64> =
        document["curve"].as_array().unwrap().iter().map(|point| point["kept"].as_f64().unwrap()).collect();
    assert!(kept.len() == 3 && kept.is_sorted_by(|one, other| one < other), "{kept:?}");
    assert!((kept[2] - 1.0).abs() < 1e-9, "each its own base: {kept:?}");
    let run = desk.shirr(&["suggest", "film", "--curve"]).exits(0);
    let marked: Vec<&str> = run.out.lines().filter(|line| line.contains("← your 1 keeps ")).collect();
    assert!(marked.len() == 1 && marked[0].trim_start().starts_with("1 "), "{}", run.out);
}

#[test]
fn what_is_applied_is_one_edit_and_undone_leaves_every_byte() {
    let desk = Desk::new();
    let board = demo_on(&desk);
    let before = files(&board);
    let run = desk.shirr(&["suggest", "demo", "--apply"]).exits(0);
    assert!(run.out.contains("Done as one edit: "), "{}", run.out);
    assert!(files(&board) != before);
    let again = desk.shirr(&["suggest", "demo", "--apply"]).exits(2);
    assert!(again.err.contains("nothing is changed: the looks are as suggested already"), "{}", again.err);
    let home = desk.path("../home");
    let places = Places {
        state: home.join("state/shirr"),
        data: home.join("data/shirr"),
        cache: home.join("cache/shirr"),
    };
    let mut open = OpenBoard::open(&board, &places).unwrap();
    assert_eq!(open.undo_labels().len(), 1);
    open.undo().unwrap();
    let after = files(&board);
    let changed: Vec<&PathBuf> =
        after.keys().chain(before.keys()).filter(|path| after.get(*path) != before.get(*path)).collect();
    assert!(changed.is_empty(), "{changed:?}");
}

#[test]
fn nothing_is_applied_over_the_budget_or_past_a_file_that_cannot_be_read() {
    let desk = Desk::new();
    let limited = (
        "board.yaml",
        "shirr: 1\nid: trial\ntitle: Trial\ncharacters: [{id: ada, name: Ada}]\nbudget: {looks: 1}\n",
    );
    let board = desk.board("film", &[THREE[0], THREE[1], limited]);
    let before = files(&board);
    let run = desk.shirr(&["suggest", "film", "--looks", "2"]).exits(0);
    assert!(run.out.contains("It would pass a limit (overall 1 over), so `--apply` does not"), "{}", run.out);
    let run = desk.shirr(&["suggest", "film", "--looks", "2", "--apply"]).exits(2);
    assert!(run.err.contains("nothing is changed: it would pass a limit"), "{}", run.err);
    let board = desk.board("torn", &[THREE[0], ("looks/gown.yaml", "title: [\n")]);
    let torn = files(&board);
    let run = desk.shirr(&["suggest", "torn", "--looks", "1", "--apply"]).exits(2);
    assert!(run.err.contains("nothing is changed: not all of the board can be read"), "{}", run.err);
    assert_eq!((files(&desk.path("film")), files(&board)), (before, torn));
}

#[test]
fn wishes_that_clash_are_each_named() {
    let desk = Desk::new();
    let must = |title: &str| format!("title: {title}\ncharacter: ada\nwishes: {{base: must}}\n");
    let files = [("outfits/smock.yaml", must("Smock")), ("outfits/gown.yaml", must("Gown"))];
    desk.board("film", &[(files[0].0, &files[0].1), (files[1].0, &files[1].1)]);
    let run = desk.shirr(&["suggest", "film", "--looks", "1"]).exits(1);
    assert!(
        run.out.contains("  Smock must be a base\n") && run.out.contains("  Gown must be a base\n"),
        "{}",
        run.out
    );
    let clash = desk.shirr(&["suggest", "film", "--looks", "1", "--json"]).exits(1).json();
    assert_eq!(clash["clash"]["wishes"].as_array().unwrap().len(), 2);
}

#[test]
fn a_question_that_cannot_be_is_refused_with_what_could() {
    let desk = Desk::new();
    desk.board("film", &[]);
    let run = desk.shirr(&["suggest", "film", "--looks", "0"]).exits(2);
    assert!(run.err.contains("`--looks` is at least 1"), "{}", run.err);
    let run = desk.shirr(&["suggest", "film", "--character", "adda"]).exits(2);
    assert!(run.err.contains("hint: did you mean `ada`?"), "{}", run.err);
    desk.board("bare", &[("outfits/smock.yaml", "title: Smock\ncharacter: ada\nlet-go: told twice\n")]);
    fs::remove_file(desk.path("bare/looks/quay.yaml")).unwrap();
    fs::write(desk.path("bare/scenes.yaml"), "[]\n").unwrap();
    let run = desk.shirr(&["suggest", "bare"]).exits(2);
    assert!(run.err.contains("there is no outfit to choose from"), "{}", run.err);
}

#[test]
fn the_looks_of_the_budget_are_shared_out_among_the_periods_by_screen_time() {
    let desk = Desk::new();
    let demo = in_repository("demo-board");
    let document = desk.shirr(&["suggest", &demo, "--limits", "--json"]).exits(0).json();
    let periods = document["periods"].as_array().unwrap();
    assert_eq!((document["looks"].as_u64(), periods.len()), (Some(44), 6));
    let sum = |key: &str| periods.iter().map(|period| period[key].as_f64().unwrap()).sum::<f64>();
    assert_eq!(sum("proposed"), 44.0);
    // Some divisor makes every proposal the minutes over it, rounded to the nearest.
    let each = |of: fn(f64) -> f64| {
        periods
            .iter()
            .map(move |period| period["minutes"].as_f64().unwrap() / of(period["proposed"].as_f64().unwrap()))
    };
    let (most, least) = (each(|looks| looks - 0.5), each(|looks| looks + 0.5));
    assert!(least.fold(0.0, f64::max) <= most.fold(f64::MAX, f64::min), "{document:#}");

    let run = desk.shirr(&["suggest", &demo, "--limits", "--looks", "6"]).exits(0);
    let rows = || run.out.lines().filter(|line| line.starts_with("The ") || line.starts_with("Oilskins"));
    assert!(run.out.starts_with("6 looks shared out") && rows().count() == 5, "{}", run.out);
    desk.shirr(&["suggest", &demo, "--limits", "--apply"]).exits(2);
}

#[test]
fn without_screen_time_nothing_is_shared_out() {
    let desk = Desk::new();
    desk.shirr(&["new", "blank", "--from", "blank"]).exits(0);
    let run = desk.shirr(&["suggest", "blank", "--limits", "--looks", "5"]).exits(2);
    assert!(run.err.contains("no scene plays in any period"), "{}", run.err);
}
