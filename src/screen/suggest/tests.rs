use crate::check::words::percent;
use crate::screen::actions::Act;
use crate::screen::deeds::outfit_words;
use crate::screen::trial::Trial;

const SIZE: (u16, u16) = (120, 40);

/// The demo with the suggestion for Odile, once it is there with what each look does when taken alone.
fn suggested() -> Trial {
    let mut trial = Trial::demo();
    trial.screen(SIZE);
    trial.app.perform(Act::Suggest);
    settle(&mut trial);
    trial
}

/// Waits until the last new look of the suggestion says what it does alone. The curve, which takes longest, may follow.
fn settle(trial: &mut Trial) {
    let is_told = |line: &str| line.contains("Gown of the freedom of the town") && line.contains(" %");
    trial.waits((200, 60), |screen| screen.lines().any(is_told));
}

fn shows(trial: &mut Trial, words: &str) {
    trial.waits(SIZE, |screen| screen.contains(words));
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
    shows(&mut trial, "as suggested. ");
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
    shows(&mut trial, "cannot all hold");
    let screen = trial.screen(SIZE);
    assert!(screen.contains("always share a look"));
    // Only what can be done without a suggestion is offered, and nothing else does anything.
    assert_eq!(screen.lines().last(), Some("c character · u undo · ? keys · esc close"));
    let before = trial.app.open.board().records().clone();
    trial.keys("tab enter a");
    assert_eq!(trial.app.said.text, "there is no suggestion to take");
    assert!(trial.screen(SIZE).contains("cannot all hold"));
    assert_eq!(trial.app.open.board().records(), &before);
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

/// Goes down to the first row of the list that contains `words`, and says what the screen shows then.
fn down_to(trial: &mut Trial, size: (u16, u16), words: &str) -> String {
    trial.keys("home");
    for _ in 0..60 {
        let buffer = trial.body(size);
        let (screen, focus) = buffer.split_once("in reverse:").unwrap();
        if focus.contains(words) {
            return screen.to_owned();
        }
        trial.keys("down");
    }
    panic!("no row with {words}\n{}", trial.screen(size));
}

#[test]
fn the_question_mark_tells_the_keys_the_marks_and_all_wishes() {
    let mut trial = suggested();
    trial.keys("?");
    let screen = trial.screen((120, 60));
    for words in ["Take all that is suggested", "Read on and back", "other outfits", "Within", "is on film"] {
        assert!(screen.contains(words), "{words}\n{screen}");
    }
    trial.keys("x");
    let screen = trial.screen(SIZE);
    assert!(
        screen.contains("Suggested looks · Odile Maren") && !screen.contains("Take all that"),
        "{screen}"
    );
}

#[test]
fn the_reasons_are_read_on_where_they_are_longer_than_their_place() {
    let mut trial = suggested();
    let size = (80, 24);
    let screen = down_to(&mut trial, size, "The crossing costume");
    assert!(screen.contains("lines 1–") && screen.contains("J K read on and back"), "{screen}");
    let last = "− ";
    let reads = |screen: &str| {
        screen.lines().any(|line| line.starts_with(&format!("│ {last}")) && line.contains(", to "))
    };
    assert!(!reads(&screen), "{screen}");
    trial.keys(&"J ".repeat(90));
    let end = trial.screen(size);
    assert!(reads(&end), "{end}");
    // Held to the last line, so that the way back begins at once; another look is read from its beginning.
    trial.keys("K");
    assert_ne!(trial.screen(size), end);
    trial.keys("down");
    let screen = trial.screen(size);
    assert!(screen.contains("│ Harbourmaster's boat cloak, landing, 22 Aug 1927"), "{screen}");
}

#[test]
fn outfits_are_dated_and_axes_named() {
    let mut trial = suggested();
    let screen = down_to(&mut trial, SIZE, "The crossing costume");
    assert!(screen.contains("The crossing costume, 21 Aug 1927"), "{screen}");
    let board = trial.app.open.board();
    let dated = board.records().outfits.keys().filter(|id| screen.contains(&outfit_words(board, id)));
    assert!(dated.count() >= 4, "the base and what is in the look\n{screen}");
    trial.keys("tab");
    shows(&mut trial, "◆ yours");
    let curve = trial.screen(SIZE);
    let axis = curve.lines().find(|line| line.contains("0 % 1 ")).unwrap();
    assert!(axis.contains(" looks") && curve.lines().any(|line| line.starts_with("│ kept")), "{curve}");
    assert_eq!(curve.lines().last(), Some("tab looks · c character · u undo · ? keys · esc close"));
}

#[test]
fn the_marks_are_explained_in_the_window() {
    for size in [(80, 24), (120, 40), (200, 60)] {
        let screen = suggested().screen(size);
        for words in
            ["+ new", "± other outfits", "− goes", "○ in no look", "· as it is", "% kept, taken alone"]
        {
            assert!(screen.contains(words), "{words}\n{screen}");
        }
        let keys = screen.lines().last().unwrap();
        assert!(keys.contains("? keys") && keys.ends_with("esc close"), "{keys}");
    }
}

#[test]
fn a_look_that_lowers_what_is_kept_when_taken_alone_says_so_and_by_how_much() {
    let mut trial = suggested();
    let kept = |trial: &mut Trial| {
        trial.screen(SIZE);
        percent(trial.app.measure.kept(Some(&"odile".parse().unwrap())).unwrap())
    };
    let before = kept(&mut trial);
    for (sign, words) in [("−", "Taken alone it lowers what is kept"), ("+", "Taken alone")] {
        // A look that is there, so that no limit is passed.
        let screen = down_to_gain(&mut trial, sign);
        assert!(screen.contains(words), "{words}\n{screen}");
        trial.keys("enter");
        assert_eq!(trial.app.said.text.contains("lowers what is kept"), sign == "−", "{:?}", trial.app.said);
        let after = kept(&mut trial);
        // The words are broken over lines beside the list.
        let told = |number: &str| screen.contains(number);
        assert!(told(&before) && told(&after) && before != after, "{before} {after}\n{screen}");
        trial.keys("u");
        settle(&mut trial);
        assert_eq!(kept(&mut trial), before);
    }
}

/// Goes down to the first look that is there and whose taking alone has an effect of this sign.
fn down_to_gain(trial: &mut Trial, sign: &str) -> String {
    trial.keys("home");
    for _ in 0..60 {
        let buffer = trial.body((200, 60));
        let (screen, focus) = buffer.split_once("in reverse:").unwrap();
        if focus.trim().starts_with('±')
            && focus.trim().ends_with(" %")
            && focus.contains(&format!(" {sign}"))
        {
            return screen.to_owned();
        }
        trial.keys("down");
    }
    panic!("no look that is there gains {sign}");
}
