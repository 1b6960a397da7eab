//! What a later draft changes.

use serde_json::json;
use shirr::bring::script::edit;

use crate::{FIRST, board, bring, bring_part, dressed, numbers, read, rewritten, scene, told};

/// What has changed from the first draft to this text, on the board with looks and notes.
#[track_caller]
fn changes(text: &str) -> Vec<String> {
    let board = dressed();
    let (comparison, _) = bring(&board, text);
    told(&board, &comparison)
}

#[test]
fn a_first_draft_on_an_empty_board_adds_all() {
    let board = board(json!([]), json!([]));
    let (comparison, edit) = bring(&board, FIRST);
    assert_eq!(
        told(&board, &comparison),
        [
            "1 added: 1/8 pages",
            "2 added: 2/8 pages",
            "3 added: 1/8 pages",
            "4 added: 2/8 pages",
            "5 added: 1/8 pages",
            "6 added: 1/8 pages",
        ]
    );
    let mut after = board;
    after.apply(&edit).unwrap();
    let two = after.scene(&"2".parse().unwrap()).unwrap();
    assert_eq!(
        serde_json::to_value(two).unwrap(),
        json!({
            "scene": 2, "heading": "INT. LAMP ROOM - DAY", "set": "Lamp Room", "where": "INT", "when": "day",
            "pages": "2/8", "wears": {"ada": null, "ben": null},
            "action": "ADA trims the wick. BEN watches from the stairs, a letter in his hand.",
        })
    );
}

#[test]
fn the_same_draft_again_changes_nothing() {
    assert_eq!(changes(FIRST), [""; 0]);
    let (_, edit) = bring(&dressed(), FIRST);
    assert!(edit.is_empty());
}

#[test]
fn a_scene_that_is_put_in_is_added_and_the_others_stay() {
    let new = "INT. COAL HOLE - NIGHT\n\nBEN shovels. Rats leave by the scuttle.\n\nEXT. JETTY - DAY #4#";
    assert_eq!(changes(&rewritten(&[("EXT. JETTY - DAY #4#", new)])), ["3A added: 1/8 pages"]);
    let numbered = new.replace("NIGHT\n", "NIGHT #3B#\n");
    assert_eq!(changes(&rewritten(&[("EXT. JETTY - DAY #4#", &numbered)])), ["3B added: 1/8 pages"]);
}

#[test]
fn a_scene_that_is_left_out_is_cut() {
    assert_eq!(changes(&FIRST.replace(&scene("3"), "")), ["3 cut: was 1/8 pages"]);
}

#[test]
fn a_scene_that_stands_elsewhere_is_moved_and_no_other() {
    let moved =
        FIRST.replace(&scene("2"), "").replace(&scene("6"), &format!("{}\n{}", scene("6"), scene("2")));
    assert_eq!(changes(&moved), ["2 moved: behind 6"]);
    let first = FIRST.replace(&scene("4"), "").replace(&scene("1"), &format!("{}{}", scene("4"), scene("1")));
    assert_eq!(changes(&first), ["4 moved: first"]);
}

#[test]
fn a_scene_that_is_numbered_anew_is_recognised() {
    assert_eq!(
        changes(&FIRST.replace("#5#", "#4A#").replace("#6#", "#5#")),
        ["4A renumbered: was 5", "5 renumbered: was 6"]
    );
}

#[test]
fn numbers_that_all_go_up_by_one_behind_a_new_scene_are_renumberings() {
    let mut text = FIRST.to_owned();
    for number in [6, 5, 4, 3] {
        text = text.replace(&format!("#{number}#"), &format!("#{}#", number + 1));
    }
    let new =
        "INT. LAMP ROOM - DAY #3#\n\nA moth strikes the glass, and strikes it again.\n\nINT. KITCHEN - NIGHT";
    assert_eq!(
        changes(&text.replace("INT. KITCHEN - NIGHT", new)),
        [
            "3 added: 1/8 pages",
            "4 renumbered: was 3",
            "5 renumbered: was 4",
            "6 renumbered: was 5",
            "7 renumbered: was 6",
        ]
    );
}

#[test]
fn scenes_that_change_numbers_and_places_are_both() {
    let swapped = FIRST
        .replace(&scene("3"), "\u{1}")
        .replace(&scene("4"), &scene("3").replace("#3#", "#4#"))
        .replace('\u{1}', &scene("4").replace("#4#", "#3#"));
    let said = changes(&swapped);
    assert_eq!(said.len(), 3, "{said:?}");
    assert!(
        said.contains(&"3 renumbered: was 4".to_owned()) && said.contains(&"4 renumbered: was 3".to_owned())
    );
    assert!(said.iter().any(|line| line.contains("moved")), "{said:?}");
}

#[test]
fn a_draft_without_numbers_keeps_those_of_the_board() {
    let mut text = FIRST.to_owned();
    for number in 1..=6 {
        text = text.replace(&format!(" #{number}#"), "");
    }
    assert_eq!(changes(&text), [""; 0]);
    let cut_and_new = text.replace(
        "INT. KITCHEN - NIGHT\n\nBEN burns the letter in the stove. Its seal runs over the iron.",
        "EXT. REEF - DAY\n\nSeals. ADA counts them through the wet telescope, and loses count.",
    );
    assert_eq!(changes(&cut_and_new), ["2A added: 1/8 pages", "3 cut: was 1/8 pages"]);
}

#[test]
fn another_heading_a_longer_scene_and_people_are_told_of_the_scene() {
    let text = rewritten(&[
        ("INT. KITCHEN - NIGHT #3#", "INT. COAL STORE - NIGHT #3#"),
        (
            "Its seal runs over the iron.",
            "Its seal runs over the iron. ADA stands in the door.\n\nADA\nWhat was it?",
        ),
        ("BEN rows away", "The keeper rows away"),
        ("ADA\n(not turning round)\nThen they can come and blow it out.\n\n", ""),
    ]);
    assert_eq!(
        changes(&text),
        [
            "2 shorter: 2/8 pages → 1/8 pages",
            "3 other heading: was INT. KITCHEN - NIGHT",
            "3 comes in: Ada Sund",
            "6 goes out: Ben (Jersey, darned)",
        ]
    );
}

#[test]
fn who_is_only_heard_or_only_spoken_of_neither_comes_in_nor_goes_out() {
    let text = rewritten(&[
        ("Nobody waves to him.", "Nobody waves to him.\n\nADA (V.O.)\nGood."),
        ("BEN burns the letter", "Ben burns the letter Ada has read"),
    ]);
    assert_eq!(changes(&text), [""; 0]);
    let heard = rewritten(&[
        ("BEN\nThey want", "BEN (O.S.)\nThey want"),
        ("BEN watches from", "Someone watches from"),
    ]);
    assert_eq!(changes(&heard), ["2 goes out: Ben (Jersey, darned)"]);
    // Whoever has no look loses none.
    let idle = rewritten(&[
        ("ADA counts the seconds", "Somebody counts the seconds"),
        ("and her lips move", "and lips move"),
    ]);
    let mut board = dressed();
    let (five, ada) = ("5".parse().unwrap(), "ada".parse().unwrap());
    board.apply(&board.assign(&five, &ada, None).unwrap()).unwrap();
    assert_eq!(told(&board, &bring(&board, &idle).0), ["5 goes out: Ada Sund"]);
}

#[test]
fn the_look_of_who_goes_out_is_that_of_the_scene_whatever_its_number_becomes() {
    let text = FIRST.replace("#6#", "#7#").replace("BEN rows away", "The keeper rows away");
    assert_eq!(changes(&text), ["7 renumbered: was 6", "7 goes out: Ben (Jersey, darned)"]);
}

#[test]
fn case_dashes_and_spaces_of_a_heading_are_no_change() {
    assert_eq!(changes(&rewritten(&[("INT. KITCHEN - NIGHT", "int.  Kitchen – night")])), [""; 0]);
}

#[test]
fn a_scene_rewritten_beyond_recognition_is_another_scene() {
    let text = FIRST.replace(
        &scene("3"),
        "EXT. REEF - DAY #3#\n\nSeals. ADA counts them through the wet telescope, and loses count.\n\n",
    );
    assert_eq!(changes(&text), ["3 added: 1/8 pages", "3 cut: was 1/8 pages"]);
}

#[test]
fn a_part_leaves_the_other_scenes_alone() {
    let board = dressed();
    let text = format!("{}{}", scene("2"), scene("4").replace("#4#", "#3#"));
    let (comparison, edit) = bring_part(&board, &text, "2-4");
    assert_eq!(told(&board, &comparison), ["3 renumbered: was 4", "3 cut: was 1/8 pages"]);
    let mut after = board.clone();
    after.apply(&edit).unwrap();
    assert_eq!(numbers(&after), ["1", "2", "3", "5", "6"]);
}

#[test]
fn a_part_that_the_board_does_not_have_goes_where_its_numbers_belong() {
    let mut board = dressed();
    let text =
        "INT. CELLAR - DAY #3A#\n\nADA looks for matches.\n\nINT. CELLAR - NIGHT #3B#\n\nADA finds one.\n";
    let (_, edit) = bring_part(&board, text, "3A-3Z");
    board.apply(&edit).unwrap();
    assert_eq!(numbers(&board), ["1", "2", "3", "3A", "3B", "4", "5", "6"]);
}

#[test]
fn a_new_scene_at_an_end_of_a_part_is_numbered_between_its_neighbours() {
    let board = dressed();
    let new = "INT. CELLAR - DAY\n\nADA looks for matches.\n\n";
    let text = format!("{}\n{}\n{new}", scene("2"), scene("3"));
    let (comparison, _) = bring_part(&board, &text, "2-3Z");
    assert_eq!(told(&board, &comparison), ["3A added: 1/8 pages"]);
    let (comparison, _) = bring_part(&board, &format!("{new}{}", scene("2")), "1A-2");
    assert_eq!(told(&board, &comparison), ["1A added: 1/8 pages"]);
    let error = edit(&board, &read(&text, &board), Some(&"2-3".parse().unwrap())).unwrap_err();
    assert_eq!(error.to_string(), "line 18: scene 3A is not in the part 2-3");
}
