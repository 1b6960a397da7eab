//! Scripts that are not read, and what is told of those that are.

use proptest::prelude::*;
use serde_json::json;
use shirr::bring::script::{Draft, Script, edit};

use crate::{board, dressed, read, rewritten};

/// The sentence with which a script is refused.
#[track_caller]
fn refused(text: &str) -> String {
    let board = board(json!([]), json!([]));
    let read = Script::read(text.as_bytes()).and_then(|script| Draft::of_script(&script, board.head()));
    read.expect_err("it is read").to_string()
}

#[test]
fn a_script_without_a_scene_is_refused() {
    assert!(refused("").starts_with("there is no scene in it"));
    assert!(refused("Title: The Lamp\n\nADA\nNo.\n").starts_with("there is no scene in it"));
}

#[test]
fn two_scenes_with_one_number_are_refused_where_the_second_stands() {
    let text = rewritten(&[("INT. LAMP ROOM - NIGHT #5#", "INT. LAMP ROOM - NIGHT #2.#")]);
    assert_eq!(refused(&text), "35:25: scene 2 is in line 10 already: expected each number once");
}

#[test]
fn a_boneyard_that_is_not_closed_is_refused_where_it_opens() {
    let text = rewritten(&[("A launch ties up.", "A launch /* ties up.")]);
    assert!(refused(&text).starts_with("27:10: this `/*` takes all the rest"), "{}", refused(&text));
}

#[test]
fn more_scenes_than_a_script_has_are_refused() {
    let text = "INT. LOFT - DAY\n\n".repeat(2001);
    assert_eq!(refused(&text), "4001:1: more than 2000 scenes, so it is no script of one film");
}

#[test]
fn a_number_that_is_none_is_told_and_the_scene_is_recognised_without_it() {
    let text = rewritten(&[("INT. KITCHEN - NIGHT #3#", "INT. KITCHEN - NIGHT #12 A!#")]);
    let board = dressed();
    let draft = read(&text, &board);
    let warnings: Vec<String> = draft.warnings.iter().map(ToString::to_string).collect();
    assert_eq!(warnings.len(), 1);
    assert!(warnings[0].starts_with("21:23: `12 A!` is no scene number here"), "{}", warnings[0]);
    assert!(edit(&board, &draft, None).unwrap().1.is_empty());
}

#[test]
fn a_note_that_is_not_closed_is_told_and_read_as_text() {
    let text = rewritten(&[("Gulls scatter", "[[why? Gulls scatter")]);
    let draft = read(&text, &dressed());
    let warnings: Vec<String> = draft.warnings.iter().map(ToString::to_string).collect();
    assert!(warnings[0].starts_with("8:59: this `[[` begins no note"), "{warnings:?}");
    assert!(draft.scenes[0].words.contains("[[why?"));
}

#[test]
fn scenes_outside_of_the_part_and_boards_with_a_number_twice_are_refused() {
    let part = "2-4".parse().unwrap();
    let board = dressed();
    let error = edit(&board, &read(crate::FIRST, &board), Some(&part)).unwrap_err();
    assert_eq!(error.to_string(), "line 6: scene 1 is not in the part 2-4");
    let twice = crate::board(json!([{"scene": 2}, {"scene": 2}]), json!([]));
    let error = edit(&twice, &read(crate::FIRST, &twice), None).unwrap_err();
    assert!(error.to_string().starts_with("the board has two scenes with the number 2"));
}

#[test]
fn who_speaks_in_the_picture_and_is_not_on_the_board_is_counted_by_scenes() {
    let text = rewritten(&[(
        "Nobody waves to him.",
        "Nobody waves to him.\n\nINSPECTOR (O.S.)\nWell!\n\nYOUNG ADA\nNo.",
    )]);
    let draft = read(&text, &dressed());
    let told: Vec<_> = draft.strangers.iter().map(|one| (one.name.as_str(), one.scenes, one.line)).collect();
    assert_eq!(told, [("INSPECTOR", 1, 29)]);
    let readings: Vec<_> =
        draft.readings.iter().map(|one| (one.name.as_str(), one.character.as_str())).collect();
    assert_eq!(readings, [("YOUNG ADA", "ada")]);
}

/// Texts of headings, names and marks in any order.
fn texts() -> impl Strategy<Value = String> {
    let line = prop_oneof![
        3 => Just(String::new()),
        2 => "(INT|EXT)\\. (LOFT|QUAY|LAMP ROOM) - (DAY|NIGHT)( #[1-9][A-C]?#)?",
        1 => "(ADA|BEN|KEEPER|\\.B|!x|@y)( \\(V\\.O\\.\\))?",
        1 => "(ADA|Ben) (waits|goes|sings)[ a-z]{0,20}",
        1 => "[\\PC]{0,20}",
    ];
    prop::collection::vec(line, 0..40).prop_map(|lines| lines.join("\n"))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn any_text_is_refused_or_brought_in_taken_back_and_changes_nothing_twice(text in texts()) {
        let before = dressed();
        let draft = Script::read(text.as_bytes()).and_then(|script| Draft::of_script(&script, before.head()));
        let Ok(draft) = draft else { return Ok(()) };
        let (_, first) = edit(&before, &draft, None).unwrap();
        let mut board = before.clone();
        let inverse = board.apply(&first).unwrap();
        let (again, second) = edit(&board, &draft, None).unwrap();
        prop_assert!(second.is_empty(), "{:?}\n{}", again.changes, text);
        board.apply(&inverse).unwrap();
        prop_assert_eq!(board.records(), before.records());
    }
}
