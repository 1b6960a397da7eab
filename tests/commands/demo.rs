//! `shirr demo`, and what is wrong with the demo on purpose.

use std::fs;
use std::path::PathBuf;

use serde_json::json;

use crate::common::{Desk, in_repository};
use crate::{files, troubles};

#[test]
fn without_any_board_the_demo_is_copied_once_and_then_worked_on() {
    let desk = Desk::new();
    let run = desk.shirr(&[]).exits(0);
    assert!(run.out.starts_with("Slack Water\n"), "{}", run.out);
    assert!(run.err.contains(&desk.demo().display().to_string()), "{}", run.err);
    assert!(desk.demo().join("scenes.yaml").is_file());
    fs::write(desk.demo().join("outfits/mine.yaml"), "title: Mine\ncharacter: odile\n").unwrap();
    desk.shirr(&["demo"]).exits(0);
    assert!(desk.demo().join("outfits/mine.yaml").is_file());
}

#[test]
fn a_fresh_demo_keeps_the_copy_that_was_worked_on() {
    let desk = Desk::new();
    desk.shirr(&["demo", "--reset"]).exits(0);
    let mine = "outfits/mine.yaml";
    let id = || desk.shirr(&["check", "--json"]).exits(1).json()["board"]["id"].clone();
    for copy in ["demo-board-kept-1", "demo-board-kept-2"] {
        let before = id();
        fs::write(desk.demo().join(mine), "title: Mine\ncharacter: odile\n").unwrap();
        let run = desk.shirr(&["demo", "--reset"]).exits(0);
        let kept = desk.demo().with_file_name(copy);
        assert!(run.out.contains(&kept.display().to_string()), "{}", run.out);
        assert!(kept.join(mine).is_file());
        assert!(desk.demo().join("board.yaml").is_file() && !desk.demo().join(mine).exists());
        assert_ne!(id(), before, "the history of the old copy is not that of the fresh one");
    }
}

#[test]
fn the_demos_pictures_are_copied_byte_for_byte_and_each_is_named_by_an_outfit() {
    let desk = Desk::new();
    desk.shirr(&["demo", "--reset"]).exits(0);
    let all = files(&PathBuf::from(in_repository("demo-board")).join("images"));
    assert!(all.len() >= 26, "{}", all.len());
    let outfits = files(&desk.demo().join("outfits"));
    let named: String = outfits.values().map(|bytes| String::from_utf8_lossy(bytes)).collect();
    for (path, bytes) in all {
        let name = format!("images/{}", path.file_name().unwrap().to_string_lossy());
        assert!(fs::read(desk.demo().join(&name)).unwrap() == bytes, "{name} is not what it was");
        assert!(named.contains(&name), "{name} belongs to nobody");
    }
}

#[test]
fn the_demo_has_exactly_the_flaws_that_it_is_meant_to_have() {
    let desk = Desk::new();
    let document = desk.shirr(&["check", &in_repository("demo-board"), "--json"]).exits(1).json();
    assert_eq!(document["faults"], json!([]));
    let flaws = troubles(&document);
    assert_eq!(
        flaws,
        [
            ["error", "over-budget", "lights"],
            ["error", "scene-without-look", "63"],
            ["error", "copies-too-few", "od-crossing-black"],
            ["warning", "versions-differ", "od-crossing-black"],
            ["warning", "versions-differ", "od-dungarees"],
            ["warning", "versions-differ", "od-first-wool"],
            ["warning", "fibre-too-early", "bone-satin"],
        ]
    );
}
