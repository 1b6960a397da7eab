//! `shirr new`: starters.

use std::fs;

use serde_json::json;

use crate::STARTERS;
use crate::common::Desk;
use crate::troubles;

#[test]
fn each_starter_makes_a_board_in_which_nothing_is_wrong() {
    let desk = Desk::new();
    for starter in STARTERS {
        desk.shirr(&["new", starter, "--from", starter]).exits(0);
        let check = desk.shirr(&["check", starter, "--json"]).exits(0).json();
        assert_eq!(check["faults"], json!([]), "{starter}");
        let errors: Vec<_> = troubles(&check).into_iter().filter(|trouble| trouble[0] == "error").collect();
        assert_eq!(errors, [[""; 3]; 0], "{starter}");
    }
}

#[test]
fn a_new_board_is_titled_after_its_folder_and_has_an_id_like_no_other() {
    let desk = Desk::new();
    let mut ids = Vec::new();
    for folder in ["a/night-ferry", "b/night-ferry", "c/night-ferry"] {
        desk.shirr(&["new", folder]).exits(0);
        let check = desk.shirr(&["check", folder, "--json"]).exits(0).json();
        assert_eq!(check["board"]["title"], "Night ferry");
        ids.push(check["board"]["id"].as_str().unwrap().to_owned());
    }
    ids.push("one-life".to_owned());
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), 4, "{ids:?}");
}

#[test]
fn a_new_board_keeps_the_comments_that_explain_the_format() {
    let desk = Desk::new();
    desk.shirr(&["new", "film"]).exits(0);
    let head = fs::read_to_string(desk.path("film/board.yaml")).unwrap();
    assert!(head.starts_with("# One lead") && head.contains("# Stretches of the story"), "{head}");
}

#[test]
fn a_folder_that_is_not_empty_is_left_alone() {
    let desk = Desk::new();
    let board = desk.board("film", &[]);
    let before = fs::read_to_string(board.join("board.yaml")).unwrap();
    let run = desk.shirr(&["new", "film"]).exits(2);
    assert!(run.err.contains("not empty") && run.err.contains("hint: "), "{}", run.err);
    assert_eq!(fs::read_to_string(board.join("board.yaml")).unwrap(), before);
    assert!(!board.join("schedule.yaml").exists());
}

#[test]
fn the_way_to_open_it_can_be_pasted_into_a_shell_and_the_folders_to_fill_are_there() {
    let desk = Desk::new();
    let run = desk.shirr(&["new", "my board", "--from", "blank"]).exits(0);
    assert!(run.out.contains("Open it with `shirr 'my board'`."), "{}", run.out);
    assert!(desk.path("my board/outfits").is_dir() && desk.path("my board/looks").is_dir());
}

#[test]
fn an_unknown_starter_is_refused_with_the_ones_that_there_are() {
    let run = Desk::new().shirr(&["new", "film", "--from", "two-lives"]).exits(2);
    assert!(STARTERS.iter().all(|starter| run.err.contains(starter)), "{}", run.err);
}

/// The files that the README shows: the name in a line of its own, then the text.
fn files_of_the_readme() -> Vec<(&'static str, &'static str)> {
    let readme = include_str!("../../README.md");
    let parts: Vec<&str> = readme.split("```yaml\n").collect();
    let named = parts.windows(2).map(|pair| {
        let name = pair[0].lines().rev().find(|line| line.starts_with('`')).unwrap();
        (name.split('`').nth(1).unwrap(), pair[1].split("\n```").next().unwrap())
    });
    named.collect()
}

#[test]
fn the_files_in_the_readme_make_a_board_in_order_and_its_outfit_is_one_of_the_demos() {
    let desk = Desk::new();
    let files = files_of_the_readme();
    assert_eq!(files.len(), 4, "{files:?}");
    for (name, text) in &files {
        let file = desk.path("breakwater").join(name);
        fs::create_dir_all(file.parent().unwrap()).unwrap();
        fs::write(file, text).unwrap();
    }
    let check = desk.shirr(&["check", "breakwater", "--json"]).exits(0).json();
    assert_eq!(check["faults"], json!([]));
    assert_eq!(troubles(&check), [["warning", "runtime-differs", ""]], "one scene is no film");
    let (name, text) = files[1];
    let demo = fs::read_to_string(format!("{}/demo-board/{name}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    let bare = |line: &str| line.split(" #").next().unwrap().trim_end().to_owned();
    let shown: Vec<String> = text.lines().filter(|line| !line.starts_with('#')).map(bare).collect();
    assert_eq!(shown, demo.lines().collect::<Vec<_>>());
}

#[test]
fn what_the_readme_shows_of_the_workroom_is_read_and_nothing_in_it_leads_nowhere() {
    let readme = include_str!("../../README.md");
    let (_, rest) = readme.split_once("```\nwearer: orrell").unwrap();
    let make = rest.split("\n```").next().unwrap();
    let desk = Desk::new();
    let write = |name: &str, text: String| {
        let file = desk.path("board").join(name);
        fs::create_dir_all(file.parent().unwrap()).unwrap();
        fs::write(file, text).unwrap();
    };
    write(
        "board.yaml",
        "shirr: 1\nid: b\ntitle: B\ncharacters:\n- id: odile\n  name: Odile\n  bodies:\n  - id: orrell\n    who: O\n    is: performer\n  \
         - id: skarl\n    who: S\n    is: double\nworkroom: {rates: {cutting: 34, sewing: 28}}\n"
            .to_owned(),
    );
    write("cloths/grey-serge.yaml", "title: Grey serge\nwidth: 150 cm\nprice: 31.50\n".to_owned());
    write(
        "looks/suit.yaml",
        format!(
            "title: Suit\ncharacter: odile\ntreatment: invent\npieces: [{{name: trousers}}]\nwearer: orrell{make}\n"
        ),
    );
    write(
        "scenes.yaml",
        "- scene: 1\n  wears: {odile: suit}\n  does: {odile: [{action: kneel}]}\n".to_owned(),
    );
    let check = desk.shirr(&["check", "board", "--json"]).exits(0).json();
    assert_eq!(check["faults"], json!([]));
    let build = desk.shirr(&["report", "build", "board", "--to", "json"]).exits(0).json();
    let copies = build["tables"].as_array().unwrap().iter().find(|table| table["table"] == "copies").unwrap();
    let versions: Vec<&str> =
        copies["rows"].as_array().unwrap().iter().map(|row| row["version"].as_str().unwrap()).collect();
    assert_eq!(versions, ["standing", "floor", "floor"]);
}
