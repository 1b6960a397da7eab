use std::time::{Duration, Instant};

use crate::screen::actions::Act;
use crate::screen::trial::Trial;

const SIZE: (u16, u16) = (120, 40);

/// The demo with the suggestion for Odile, once it is there with its curve.
fn suggested() -> Trial {
    let mut trial = Trial::demo();
    trial.screen(SIZE);
    trial.app.perform(Act::Suggest);
    settle(&mut trial);
    trial
}

/// Waits for the thread, which tells of its end by having nothing to draw any more.
fn settle(trial: &mut Trial) {
    let began = Instant::now();
    loop {
        let screen = trial.screen(SIZE);
        trial.keys("tab");
        let curve = trial.screen(SIZE);
        trial.keys("tab");
        if screen.contains("could keep") && curve.contains("◆ yours") {
            return;
        }
        assert!(began.elapsed() < Duration::from_secs(60), "{screen}");
        std::thread::sleep(Duration::from_millis(5));
    }
}

#[test]
fn the_suggestion_stands_beside_the_present_looks() {
    let screen = suggested().screen(SIZE);
    for words in ["Suggested looks · Odile Maren", "Proved best", "% alike: most in", "The crossing costume"]
    {
        assert!(screen.contains(words), "{words}\n{screen}");
    }
}

#[test]
fn all_that_is_suggested_is_taken_as_one_change() {
    let mut trial = suggested();
    let before = trial.app.open.board().records().clone();
    trial.keys("a");
    assert!(trial.app.said.text.contains("as suggested"), "{:?}", trial.app.said);
    assert_ne!(trial.app.open.board().records(), &before);
    settle(&mut trial);
    let screen = trial.screen(SIZE);
    assert!(screen.contains("as suggested. "), "{screen}");
    trial.keys("esc u");
    assert_eq!(trial.app.open.board().records(), &before);
}

#[test]
fn one_look_is_taken_alone() {
    let mut trial = suggested();
    let looks = trial.app.open.board().records().looks.len();
    // The first that is not as it is, and passes no limit.
    for _ in 0..40 {
        trial.keys("enter");
        if trial.app.said.text.starts_with("as suggested: ") {
            break;
        }
        if trial.app.layers.len() > 1 {
            trial.keys("esc");
        }
        trial.keys("down");
    }
    assert!(trial.app.said.text.starts_with("as suggested: "), "{:?}", trial.app.said);
    assert!(trial.app.open.board().records().looks.len() <= looks + 1);
}

#[test]
fn the_list_holds_on_every_size() {
    let mut trial = suggested();
    for size in [(40, 12), (80, 24), (200, 60)] {
        let screen = trial.screen(size);
        assert!(screen.contains("Suggested looks"), "{screen}");
        trial.keys("tab");
        trial.screen(size);
        trial.keys("tab end down down up");
    }
}

#[test]
fn wishes_that_clash_are_named() {
    let mut trial = Trial::demo();
    let outfits: Vec<_> = {
        let board = trial.app.open.board();
        let looks = board.relations().looks_by_order().iter();
        let established = looks.filter_map(|id| board.look(id)).filter(|look| {
            look.character.as_str() == "odile" && look.stage == crate::board::Stage::Established
        });
        established.filter_map(|look| look.base.clone()).take(2).collect()
    };
    let edit = trial.app.board().wish_together(&outfits, true);
    trial.app.change(edit);
    trial.app.perform(Act::Suggest);
    let began = Instant::now();
    while !trial.screen(SIZE).contains("cannot all hold") {
        assert!(began.elapsed() < Duration::from_secs(60));
        std::thread::sleep(Duration::from_millis(5));
    }
    assert!(trial.screen(SIZE).contains("always share a look"));
}

#[test]
fn what_was_suggested_for_another_board_is_not_taken() {
    let mut trial = suggested();
    trial.keys("a");
    let taken = trial.app.open.board().records().clone();
    // Before the next frame.
    trial.keys("a enter");
    assert!(trial.app.said.text.contains("has changed since"), "{}", trial.app.said.text);
    assert_eq!(trial.app.open.board().records(), &taken);
}

#[test]
fn what_is_not_seen_is_not_taken_and_control_c_closes() {
    let mut trial = suggested();
    let before = trial.app.open.board().records().clone();
    trial.keys("tab enter a");
    assert_eq!(trial.app.open.board().records(), &before, "the curve is shown, and no look");
    assert!(trial.app.said.text.contains("tab goes back"), "{}", trial.app.said.text);
    trial.keys("ctrl-c");
    assert!(trial.app.layers.is_empty());
}
