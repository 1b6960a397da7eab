//! The plot of the demo against values worked out from its files by hand, scene after scene; what a sum is made of stands
//! beside it.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs, reason = "tests")]

use std::path::Path;

use shirr::board::{Board, CharacterId, LookId, PeriodId};
use shirr::plot::{self, Changes, PlannedDay, Shooting};
use shirr::store;
use shirr::trade::eighths::Eighths;

fn demo() -> Board {
    store::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board")).unwrap().board
}

/// `scene:change` for every scene that a character is in; `-` where it has no look.
fn changes(board: &Board, who: &str) -> String {
    let (changes, who) = (Changes::of(board), who.parse::<CharacterId>().unwrap());
    let there = board.scenes().enumerate().filter(|(_, scene)| scene.wears.get(&who).is_some());
    let number = |at| changes.number(at, &who).map_or("-".to_owned(), |number| number.to_string());
    there.map(|(at, scene)| format!("{}:{}", scene.number, number(at))).collect::<Vec<_>>().join(" ")
}

fn look(id: &str) -> LookId {
    id.parse().unwrap()
}

#[test]
fn changes_are_numbered_in_story_order() {
    let board = demo();
    assert_eq!(
        changes(&board, "cosima"),
        "18:1 19:1 28:1 29:1 32:1 40:2 41:2 42:3 43:3 44:3 45:3 63:- 67:4 68:4"
    );
    assert_eq!(
        changes(&board, "ivo"),
        "3:1 5:1 6:1 11:1 13:1 15:2 16:2 18:2 20:2 21:2 22:2 23:2 25:2 26:2 26A:2 27:2 28:2 30:2 31:2 33:2 34:3 37:3 \
         40:3 42:3 47:3 49:3 50:3 51:4 53:4 55:4 57:4 58:4 60:5 60A:5"
    );
}

#[test]
fn a_look_is_carried_through_its_story_day() {
    let board = demo();
    let (changes, odile) = (Changes::of(&board), "odile".parse::<CharacterId>().unwrap());
    let carried = board.scenes().enumerate().filter(|(at, _)| changes.is_carried(*at, &odile));
    let carried: Vec<String> = carried.map(|(_, scene)| scene.number.to_string()).collect();
    assert_eq!(carried.join(" "), "4 8A 12 15 19 22 26A 27 28 36 39 41 43 44 45 49 55A 68 70");
}

#[test]
fn screen_time_is_that_of_the_scenes() {
    let board = demo();
    // Scenes 26, 26A, 27, 28; 1, 69, 70; 3, 5, 6, 11, 13; 67, 68.
    for (id, eighths) in [
        ("od-crossing-black", 19 + 8 + 21 + 17),
        ("od-last-swim", 9 + 12 + 12),
        ("iv-gansey-slip", 16 + 13 + 13 + 19 + 11),
        ("co-white-coat", 16 + 11),
    ] {
        assert_eq!(plot::of_look(&board, &look(id)), Eighths::new(eighths), "{id}");
    }
    // Scenes 3 to 13; 14 to 33; 34 to 50 without 45A; 51 to 58; 59 to 64; the frame 1, 2, 45A and 65 to 70.
    for (id, eighths) in [
        ("slip", 16 + 10 + 13 + 13 + 11 + 14 + 9 + 11 + 14 + 19 + 14 + 11),
        (
            "sound",
            11 + 10
                + 14
                + 16
                + 20
                + 13
                + 15
                + 17
                + 14
                + 12
                + 13
                + 14
                + 19
                + 8
                + 21
                + 17
                + 14
                + 13
                + 18
                + 11
                + 10,
        ),
        ("lights", 17 + 16 + 13 + 15 + 11 + 8 + 22 + 14 + 15 + 20 + 18 + 14 + 13 + 18 + 12 + 12 + 13),
        ("war", 13 + 15 + 18 + 11 + 19 + 11 + 13 + 13 + 11),
        ("coach", 13 + 14 + 6 + 12 + 16 + 17 + 11),
        ("slack", 9 + 18 + 10 + 11 + 6 + 16 + 11 + 12 + 12),
    ] {
        let period = id.parse::<PeriodId>().unwrap();
        assert_eq!(plot::of_period(&board, Some(&period)), Eighths::new(eighths), "{id}");
    }
    assert_eq!(plot::of_period(&board, None), Eighths::new(0));
    assert_eq!(plot::whole(&board), Eighths::new(155 + 300 + 251 + 124 + 89 + 105));
    assert_eq!(plot::whole(&board).minutes(), f64::from(board.head().runtime.unwrap()));
}

#[test]
fn looks_are_first_needed_and_people_change_as_the_days_are_shot() {
    let board = demo();
    let shooting = Shooting::of(&board);
    let first = |id: &str| {
        let day = shooting.first_needed(&look(id)).unwrap();
        format!("{} {}", day.day, day.date.as_ref().unwrap())
    };
    for (id, day) in [
        ("co-white-robe", "7 2027-07-13"),
        ("od-crossing-black", "11 2027-07-19"),
        ("co-silver-lame", "18 2027-07-28"),
        ("co-white-race", "21 2027-08-02"),
        ("co-white-coat", "28 2027-08-11"),
        ("od-last-swim", "29 2027-08-12"),
    ] {
        assert_eq!(first(id), day, "{id}");
    }
    let changes: Vec<usize> = shooting.days.iter().map(PlannedDay::changes).collect();
    assert_eq!(
        changes,
        [2, 1, 1, 1, 0, 0, 0, 2, 1, 1, 1, 2, 0, 1, 1, 3, 3, 0, 0, 0, 0, 0, 2, 4, 1, 0, 0, 1, 1, 0]
    );
}

#[test]
fn every_wet_scene_of_the_demo_warns_and_no_pleat_does() {
    let board = demo();
    let said = |number: &str| {
        let scene = board.scene(&number.parse().unwrap()).unwrap();
        let cautions = plot::cautions::of_scene(scene).into_iter();
        cautions.map(|one| format!("{}: {}", one.hazard.word(), one.word)).collect::<Vec<_>>().join("; ")
    };
    for (number, cautions) in [
        ("6", ""),
        ("11", "water and cold: streaming"),
        ("17", ""),
        ("26A", "water and cold: Sound; vehicles and boats: ALONGSIDE"),
        ("32", "water and cold: beach"),
        (
            "44",
            "falls and stunts: stunt; water and cold: Wet; vehicles and boats: the launch; masks and smoke: fog",
        ),
        ("68", ""),
    ] {
        assert_eq!(said(number), cautions, "{number}");
    }
    assert_eq!(plot::cautions::of_look(&board, &look("od-sailor-serge")), []);
}
