//! What a draft leaves of a board, and the way back.

use proptest::prelude::*;
use serde_json::json;
use shirr::board::Board;
use shirr::board::rules;

use crate::{FIRST, bring, bring_part, decided, decisions, dressed, numbers, rewritten, scene};

/// A second draft in which scenes are added, cut, moved, numbered anew, rewritten and recast.
fn second() -> String {
    let text = rewritten(&[
        ("EXT. LIGHTHOUSE ROCK - DAWN #1#", "EXT. LIGHTHOUSE ROCK, THE LADDER - DAWN #1#"),
        ("INT. LAMP ROOM - NIGHT #5#", "INT. LAMP ROOM - NIGHT #7#"),
        ("her lips move with the numbers.", "her lips move with the numbers. BEN has stopped the clock."),
        (
            "Then they can come and blow it out.",
            "Then they can come.\n\nBEN\nThey are.\n\nADA\nAnd blow it out.",
        ),
    ]);
    let cut = text.replace(&scene("3"), "INT. CELLAR - DAY #2A#\n\nADA looks for matches. None are dry.\n\n");
    // Scene 6 before the lamp room.
    cut.replace(&scene("6"), "")
        .replace("INT. LAMP ROOM - NIGHT #7#", &format!("{}\nINT. LAMP ROOM - NIGHT #7#", scene("6")))
}

#[test]
fn a_second_draft_moves_what_the_board_knows_along_with_its_scenes() {
    let before = dressed();
    let mut board = before.clone();
    let (_, edit) = bring(&board, &second());
    assert_eq!(edit.label, "script brought in");
    let inverse = board.apply(&edit).unwrap();
    assert_eq!(numbers(&board), ["1", "2", "2A", "4", "6", "7"]);
    let lamp = board.scene(&"7".parse().unwrap()).unwrap();
    assert_eq!(
        serde_json::to_value(lamp).unwrap(),
        json!({
            "scene": 7, "heading": "INT. LAMP ROOM - NIGHT", "set": "Lamp Room", "where": "INT", "when": "night",
            "story-day": "D5", "date": "1911-05", "pages": "1/8", "wears": {"ada": "apron", "ben": null},
            "action": "summary of 5: The lens turns. ADA counts the seconds between two flashes, and her lips move with \
                       the numbers.",
            "notes": "note of 5",
        })
    );
    let ladder = board.scene(&"1".parse().unwrap()).unwrap();
    assert_eq!(ladder.set, "Lighthouse Rock, The Ladder");
    assert_eq!(ladder.wears, before.scene(&"1".parse().unwrap()).unwrap().wears);
    let days: Vec<Vec<String>> = board
        .records()
        .schedule
        .iter()
        .map(|day| day.scenes.iter().map(ToString::to_string).collect())
        .collect();
    assert_eq!(days, [vec!["1", "6", "4"], vec!["2", "7"]]);
    assert_eq!(board.records().looks, before.records().looks, "no look is lost with a scene");
    assert_eq!(board.records().head, before.records().head);
    board.apply(&inverse).unwrap();
    assert_eq!(board.records(), before.records());
}

#[test]
fn a_draft_that_was_brought_in_changes_nothing_again() {
    let mut board = dressed();
    board.apply(&bring(&board, &second()).1).unwrap();
    let (comparison, edit) = bring(&board, &second());
    assert!(comparison.changes.is_empty() && edit.is_empty(), "{:?}", comparison.changes);
}

#[test]
fn a_set_that_a_hand_has_named_stays_and_one_from_the_heading_follows() {
    let mut board = dressed();
    let edit = board.change_scene(&"1".parse().unwrap(), "", |scene| scene.set = "Rock, lee side".to_owned());
    board.apply(&edit.unwrap()).unwrap();
    let text = rewritten(&[
        ("EXT. LIGHTHOUSE ROCK - DAWN #1#", "EXT. LIGHTHOUSE ROCK, THE LADDER - DUSK #1#"),
        ("INT. KITCHEN - NIGHT #3#", "INT. LAMP ROOM - DAY #3#"),
    ]);
    board.apply(&bring(&board, &text).1).unwrap();
    let set = |number: &str| board.scene(&number.parse().unwrap()).unwrap().set.clone();
    assert_eq!((set("1").as_str(), set("3").as_str()), ("Rock, lee side", "Lamp Room"));
    let light = board.scene(&"1".parse().unwrap()).unwrap().light;
    assert_eq!(light.map(|light| light.word()), Some("dusk"));
}

#[test]
fn a_new_scene_inherits_nothing_that_was_decided_of_one_that_was_cut() {
    let mut board = decided(&dressed(), &["3", "5"]);
    let reef =
        "EXT. REEF - DAY #3#\n\nSeals. ADA counts them through the wet telescope, and loses count.\n\n";
    let at = |board: &Board| decisions(board).into_iter().map(|(_, at)| at).collect::<Vec<_>>();
    // Cut, and its number taken by a new scene in one draft.
    let mut once = board.clone();
    let inverse = once.apply(&bring(&board, &FIRST.replace(&scene("3"), reef)).1).unwrap();
    assert_eq!(at(&once), ["board", "scene 5"]);
    once.apply(&inverse).unwrap();
    assert_eq!(once.records(), board.records());
    // Cut by one draft, its number taken by the next.
    board.apply(&bring(&board, &FIRST.replace(&scene("3"), "")).1).unwrap();
    assert_eq!(at(&board), ["scene 3", "scene 5"], "nobody's yet");
    board.apply(&bring(&board, &FIRST.replace(&scene("3"), reef)).1).unwrap();
    assert_eq!(at(&board), ["board", "scene 5"]);
}

#[test]
fn a_scene_of_another_part_keeps_what_was_decided_of_it() {
    let mut board = decided(&dressed(), &["2", "3", "5"]);
    let text = format!("INT. CELLAR - DAY #3#\n\nADA looks for matches. None are dry.\n\n{}", scene("4"));
    board.apply(&bring_part(&board, &text, "3-4").1).unwrap();
    let stops: Vec<String> = decisions(&board).into_iter().map(|(_, at)| at).collect();
    assert_eq!(stops, ["scene 2", "board", "scene 5"]);
}

/// The first draft with its scenes shuffled, some left out, some doubled as new ones, with or without numbers.
fn drafts() -> impl Strategy<Value = String> {
    let order = Just((1..=6).collect::<Vec<u32>>()).prop_shuffle();
    (order, prop::collection::vec(0..6_u8, 6)).prop_map(|(order, fates)| {
        let mut text = String::new();
        for (number, fate) in order.into_iter().zip(fates) {
            let as_is = scene(&number.to_string());
            let tag = format!(" #{number}#");
            match fate {
                0 => {}
                1 => text.push_str(&as_is.replace(&tag, "")),
                2 => text.push_str(&as_is.replace(&tag, &format!(" #{}#", number + 40))),
                3 => text
                    .push_str(&format!("INT. HOLD {number} - DAY\n\nADA stows {number} crates.\n\n{as_is}")),
                _ => text.push_str(&as_is),
            }
            text.push('\n');
        }
        text
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn any_draft_can_be_brought_in_taken_back_and_changes_nothing_twice(text in drafts()) {
        prop_assume!(text.contains("INT.") || text.contains("EXT."));
        let before = dressed();
        let mut board = before.clone();
        let (comparison, edit) = bring(&board, &text);
        let inverse = board.apply(&edit).unwrap();
        prop_assert_eq!(rules::broken(&board), vec![]);
        prop_assert_eq!(&board.records().looks, &before.records().looks);
        let unnamed = numbers(&board);
        prop_assert_eq!(unnamed.len(), text.matches("INT.").count() + text.matches("EXT.").count());
        let again = bring(&board, &text);
        prop_assert!(again.1.is_empty(), "{:?}\nagain {:?}\n{}", comparison.changes, again.0.changes, text);
        back(board, &inverse, &before)?;
    }
}

fn back(mut board: Board, inverse: &shirr::board::Edit, before: &Board) -> Result<(), TestCaseError> {
    board.apply(inverse).map_err(|error| TestCaseError::fail(error.to_string()))?;
    prop_assert_eq!(board.records(), before.records());
    Ok(())
}

#[test]
fn the_first_draft_is_the_one_that_the_helpers_take_apart() {
    let whole: String = (1..=6).map(|number| scene(&number.to_string())).collect();
    assert!(FIRST.replace('\n', "").ends_with(&whole.replace('\n', "")));
}
