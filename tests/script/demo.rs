//! The demo's script, and a second draft of it.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use shirr::board::{Board, Decision, Meeting, Records, SceneNumber, Stop, rules};
use shirr::bring::script::{Draft, Part, Script, edit, touched};
use shirr::store;

use crate::{numbers, told};

const PART: &str = "1-26A";

fn demo() -> Board {
    let reading = store::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board")).unwrap();
    assert!(reading.faults.is_empty(), "{:?}", reading.faults);
    reading.board
}

fn script() -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board/script.fountain")).unwrap()
}

fn draft(text: &str, board: &Board) -> Draft {
    Draft::of_script(&Script::read(text.as_bytes()).unwrap(), board.head()).unwrap()
}

fn part() -> Part {
    PART.parse().unwrap()
}

fn number(text: &str) -> SceneNumber {
    text.parse().unwrap()
}

#[test]
fn the_board_has_every_scene_of_the_script_as_it_is_written() {
    let board = demo();
    let draft = draft(&script(), &board);
    assert_eq!(draft.title, "Slack Water");
    assert_eq!((draft.warnings, draft.readings), (vec![], vec![]));
    let of_board = Draft::of_board(&board, Some(&part()));
    assert_eq!(draft.scenes.len(), 28);
    assert_eq!(of_board.scenes.len(), 28);
    for (script, board) in draft.scenes.iter().zip(&of_board.scenes) {
        assert_eq!(script.number, board.number);
        assert_eq!((&script.heading, script.length), (&board.heading, board.length));
        assert_eq!((script.place, script.light), (board.place, board.light), "{}", script.heading);
        let sorted = |mut all: Vec<shirr::board::CharacterId>| {
            all.sort();
            all
        };
        assert_eq!(sorted(script.present.clone()), sorted(board.present.clone()), "{}", script.heading);
    }
}

#[test]
fn bringing_the_script_onto_its_board_changes_nothing() {
    let board = demo();
    let (comparison, edit) = edit(&board, &draft(&script(), &board), Some(&part())).unwrap();
    assert_eq!(told(&board, &comparison), [""; 0]);
    assert!(edit.is_empty());
}

#[test]
fn on_an_empty_board_the_script_makes_the_scenes_as_the_demo_has_them() {
    let full = demo();
    let mut board =
        Board::new(Records { scenes: vec![], schedule: std::sync::Arc::default(), ..full.records().clone() });
    let (_, edit) = edit(&board, &draft(&script(), &board), None).unwrap();
    board.apply(&edit).unwrap();
    let firsts = numbers(&full);
    assert_eq!(numbers(&board), firsts[..28]);
    let pages = |board: &Board| board.scenes().take(28).map(|scene| scene.pages).collect::<Vec<_>>();
    assert_eq!(pages(&board), pages(&full));
}

/// A second draft: the schoolroom is cut, the club room comes before the knitting, a scene in the chapel is new, the
/// shop and the night behind it are numbered anew, the baths have another heading, Bridie comes to the breakwater, and the
/// smokehouse is longer.
fn second() -> String {
    let scenes = scenes(&script());
    let mut order: Vec<String> = Vec::new();
    for (number, scene) in &scenes {
        match number.as_str() {
            "7" | "13" => {}
            "10" => {
                order.extend(
                    scenes.iter().filter(|(number, _)| number == "13").map(|(_, scene)| scene.clone()),
                );
                order.push(scene.clone());
            }
            "9" => order.extend([scene.clone(), CHAPEL.to_owned()]),
            "14" => order.push(changed(
                scene,
                "Breathing.",
                &"I breathe, and I gut, and I breathe again. ".repeat(5),
            )),
            "16" => order.push(changed(
                scene,
                "On. A fishing boat",
                "BRIDIE, at the head of the wall. A fishing boat",
            )),
            "18" => order.push(changed(scene, "VELL BATHS, WENDEL SPA", "VELL BATHS, THE SEA POOL")),
            "24" => order.push(changed(scene, "#24#", "#23A#")),
            "25" => order.push(changed(scene, "#25#", "#24#")),
            _ => order.push(scene.clone()),
        }
    }
    order.concat()
}

const CHAPEL: &str =
    "INT. SEAMEN'S CHAPEL - DAY\n\nODILE looks up at the ship that hangs from the roof. Somebody coughs.\n\n";

fn changed(scene: &str, from: &str, to: &str) -> String {
    assert_eq!(scene.matches(from).count(), 1, "{from}");
    scene.replace(from, to)
}

/// The scenes of a script with their numbers, each from its heading to the next.
fn scenes(text: &str) -> Vec<(String, String)> {
    let mut scenes: Vec<(String, String)> = Vec::new();
    for line in text.lines() {
        if let Some((_, number)) = line.strip_suffix('#').and_then(|line| line.rsplit_once(" #")) {
            scenes.push((number.to_owned(), String::new()));
        }
        if let Some((_, scene)) = scenes.last_mut() {
            scene.push_str(line);
            scene.push('\n');
        }
    }
    scenes
}

#[test]
fn a_stranger_who_speaks_with_others_takes_nobody_out_of_the_scene() {
    let board = demo();
    let text = "INT. NET LOFT - NIGHT #4#\n\nNeedles.\n\nODILE, BRIDIE AND CHORUS\nOver and under.\n";
    let (comparison, edit) = edit(&board, &draft(text, &board), Some(&"4-4".parse().unwrap())).unwrap();
    assert!(!told(&board, &comparison).iter().any(|line| line.contains("goes out")), "{comparison:?}");
    let mut after = board.clone();
    after.apply(&edit).unwrap();
    let wears = |board: &Board| board.scene(&"4".parse().unwrap()).unwrap().wears.clone();
    assert_eq!(wears(&after), wears(&board));
}

#[test]
fn a_second_draft_is_told_scene_by_scene() {
    let board = demo();
    let (comparison, _) = edit(&board, &draft(&second(), &board), Some(&part())).unwrap();
    assert_eq!(
        told(&board, &comparison),
        [
            "9A added: 1/8 pages",
            "13 moved: behind 9A",
            "14 longer: 1 3/8 pages → 1 4/8 pages",
            "16 comes in: Bridie Maren",
            "18 other heading: was EXT. VELL BATHS, WENDEL SPA - DAY",
            "23A renumbered: was 24",
            "24 renumbered: was 25",
            "7 cut: was 1 3/8 pages",
        ]
    );
}

#[test]
fn a_second_draft_loses_no_look_and_no_note_and_undo_brings_the_first_back() {
    let before = demo();
    let mut board = before.clone();
    let (_, edit) = edit(&board, &draft(&second(), &board), Some(&part())).unwrap();
    let inverse = board.apply(&edit).unwrap();
    assert_eq!(rules::broken(&board), vec![]);
    assert_eq!(board.records().looks, before.records().looks);
    assert_eq!(board.records().outfits, before.records().outfits);
    assert_eq!(board.records().head, before.records().head);
    for (was, is) in [("24", "23A"), ("25", "24"), ("13", "13"), ("16", "16"), ("18", "18"), ("55A", "55A")] {
        let (old, new) = (before.scene(&number(was)).unwrap(), board.scene(&number(is)).unwrap());
        assert_eq!((&new.action, &new.notes), (&old.action, &old.notes));
        assert_eq!((new.story_day, &new.date, &new.set), (old.story_day, &old.date, &old.set));
        for (who, look) in old.wears.iter() {
            assert_eq!(new.wears.get(who), Some(look), "{was} → {is}");
        }
    }
    let on = |board: &Board, day: usize| -> Vec<String> {
        board.records().schedule[day - 1].scenes.iter().map(ToString::to_string).collect()
    };
    assert_eq!(on(&before, 2), ["9", "7", "13"]);
    assert_eq!(on(&board, 2), ["9", "13"]);
    assert_eq!(
        (on(&before, 6), on(&board, 6)),
        (numbered(&["14", "17", "24"]), numbered(&["14", "17", "23A"]))
    );
    assert_eq!(
        (on(&before, 10), on(&board, 10)),
        (numbered(&["15", "20", "25"]), numbered(&["15", "20", "24"]))
    );
    board.apply(&inverse).unwrap();
    assert_eq!(board.records(), before.records());
}

#[test]
fn a_second_draft_loses_no_decision_and_says_none_of_another_scene() {
    // What was said of each scene of the part, of one outside it, and of a look.
    let mut records = demo().records().clone();
    let decided =
        |at: Stop| Decision { decision: format!("said at {at}"), at, owner: String::new(), due: None };
    let of_scenes =
        demo().records().scenes.iter().map(|scene| Stop::Scene(scene.number.clone())).collect::<Vec<_>>();
    let of_look = Stop::Look("od-crossing-black".parse().unwrap());
    let decisions: Vec<Decision> = of_scenes.into_iter().chain([of_look, Stop::Board]).map(decided).collect();
    let meeting = Meeting { decisions, ..Meeting::default() };
    records.meetings.insert("2026-11-25".parse().unwrap(), Arc::new(meeting));
    let before = as_usual(records);
    let mut board = before.clone();
    let (comparison, edit) = edit(&board, &draft(&second(), &board), Some(&part())).unwrap();
    let inverse = board.apply(&edit).unwrap();
    let said = |board: &Board| -> Vec<(String, String)> {
        let minutes = board.records().meetings.values().flat_map(|meeting| meeting.decisions.iter());
        minutes.map(|one| (one.decision.clone(), one.at.to_string())).collect()
    };
    let (was, is) = (said(&before), said(&board));
    assert_eq!(is.len(), was.len(), "nothing that was decided is lost");
    let scenes = before.records().scenes.iter().map(|scene| scene.number.clone());
    let old: Vec<SceneNumber> = scenes.filter(|number| part().holds(number)).collect();
    let becomes: BTreeMap<SceneNumber, SceneNumber> = comparison
        .pairs
        .iter()
        .map(|(from, to)| (old[*from].clone(), comparison.numbers[*to].clone()))
        .collect();
    let mut moved = 0;
    for ((text, at), (also, now)) in was.iter().zip(&is) {
        assert_eq!(text, also);
        let number = at.strip_prefix("scene ").map(number);
        let expected = match number.filter(|number| part().holds(number)) {
            None => at.clone(),
            Some(number) => match becomes.get(&number) {
                Some(becomes) => format!("scene {becomes}"),
                None if board.scene(&number).is_some() => "board".to_owned(),
                None => at.clone(),
            },
        };
        assert_eq!(*now, expected, "{text}");
        moved += usize::from(now != at);
    }
    assert!(moved >= 2, "the second draft numbers scenes anew: {moved}");
    board.apply(&inverse).unwrap();
    assert_eq!(board.records(), before.records());
}

#[test]
fn what_a_second_draft_leaves_to_be_done_is_told() {
    let board = demo();
    let left = |text: &str| {
        let (comparison, edit) = edit(&board, &draft(text, &board), Some(&part())).unwrap();
        touched(&board, &comparison, &edit).unwrap()
    };
    let touched = left(&second());
    let expected = [("9A", "odile"), ("16", "bridie")];
    assert_eq!(touched.undressed, expected.map(|(scene, who)| (number(scene), who.parse().unwrap())));
    assert_eq!(touched.unscheduled, [(2, number("7"))]);
    assert_eq!(touched.unplanned, [number("9A")]);
    assert_eq!(
        touched.words(&board),
        [
            "Odile Maren has no look yet in scene 9A",
            "Bridie Maren has no look yet in scene 16",
            "scene 9A is on no shooting day",
            "shooting day 2 is without scene 7",
        ]
    );
    assert!(
        touched.unseen.is_empty(),
        "the school look is in scenes 10 and 13 as well: {:?}",
        touched.unseen
    );
    let night = ["8", "8A", "9"];
    let kept = scenes(&script()).into_iter().filter(|(number, _)| !night.contains(&number.as_str()));
    let text: String = kept.map(|(_, text)| text).collect();
    let touched = left(&text);
    assert_eq!(touched.unseen, ["od-shift-swim".parse().unwrap()]);
    assert_eq!(touched.unscheduled, [(2, number("9")), (5, number("8")), (5, number("8A"))]);
    assert_eq!(touched.unplanned, [], "nothing is new");
}

/// A board of these records on which what is usual on the demo is usual.
fn as_usual(records: Records) -> Board {
    Board::new(records).following(Arc::new(demo().practice()))
}

#[test]
fn without_a_schedule_no_new_scene_is_missing_from_it() {
    let mut records = demo().records().clone();
    records.schedule = Default::default();
    let board = as_usual(records);
    let (comparison, edit) = edit(&board, &draft(&second(), &board), Some(&part())).unwrap();
    assert_eq!(touched(&board, &comparison, &edit).unwrap().unplanned, []);
}

fn numbered(all: &[&str]) -> Vec<String> {
    all.iter().map(|number| (*number).to_owned()).collect()
}

#[test]
fn without_numbers_the_second_draft_is_told_the_same_but_for_the_numbers() {
    let board = demo();
    let text: String = second()
        .lines()
        .map(|line| match line.rsplit_once(" #") {
            Some((heading, number)) if number.ends_with('#') => format!("{heading}\n"),
            _ => format!("{line}\n"),
        })
        .collect();
    let (comparison, _) = edit(&board, &draft(&text, &board), Some(&part())).unwrap();
    assert_eq!(
        told(&board, &comparison),
        [
            "9A added: 1/8 pages",
            "13 moved: behind 9A",
            "14 longer: 1 3/8 pages → 1 4/8 pages",
            "16 comes in: Bridie Maren",
            "18 other heading: was EXT. VELL BATHS, WENDEL SPA - DAY",
            "7 cut: was 1 3/8 pages",
        ]
    );
}
