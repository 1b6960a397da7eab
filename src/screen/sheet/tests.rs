#![allow(clippy::unwrap_used, reason = "a test")]

use insta::assert_snapshot;

use crate::board::{BaseWish, EvidenceKind, Outfit, Standing};
use crate::screen::actions::Scope;
use crate::screen::trial::Trial;
use crate::screen::views::Target;

/// The sheet of the club wool, with the cursor on the entry that shows `text`.
fn on_entry(text: &str) -> Trial {
    let mut trial = sheet("club-wool");
    point_at(&mut trial, text);
    trial
}

fn sheet(id: &str) -> Trial {
    let mut trial = Trial::small();
    trial.app.view = Scope::Looks;
    trial.app.open_sheet(Target::Outfit(id.parse().unwrap()));
    trial
}

fn point_at(trial: &mut Trial, text: &str) {
    trial.keys("home");
    for _ in 0..60 {
        let screen = trial.screen((100, 50));
        if screen.lines().any(|line| line.contains('▸') && line.contains(text)) {
            return;
        }
        trial.keys("down");
    }
    panic!("{text} is not on the sheet:\n{}", trial.screen((100, 50)));
}

fn outfit<'a>(trial: &'a Trial, id: &str) -> &'a Outfit {
    trial.app.board().outfit(&id.parse().unwrap()).unwrap()
}

#[test]
fn everything_known_of_an_outfit_at_80_by_24() {
    assert_snapshot!(sheet("club-wool").body((80, 24)));
}

#[test]
fn everything_known_of_an_outfit_at_120_by_40() {
    assert_snapshot!(on_entry("tubular").body((120, 40)));
}

#[test]
fn the_date_is_kept_in_edtf_and_what_is_none_is_refused_in_place() {
    let mut trial = on_entry("worn ");
    trial.keys("enter");
    trial.retypes("before the flood");
    assert!(trial.screen((80, 24)).contains("! "), "{}", trial.screen((80, 24)));
    trial.keys("enter");
    assert_eq!(trial.app.layers.len(), 2, "the form stays");
    trial.retypes("c. aug 1926");
    assert!(trial.screen((80, 24)).contains("kept as 1926-08~"), "{}", trial.screen((80, 24)));
    trial.keys("enter");
    assert_eq!(outfit(&trial, "club-wool").worn.as_ref().unwrap().to_string(), "1926-08~");
    assert_eq!(trial.app.layers.len(), 1, "and the sheet is there again");
}

#[test]
fn a_period_is_overridden_and_left_to_the_date_again() {
    let mut trial = sheet("blackout-coat");
    point_at(&mut trial, "period");
    trial.keys("enter down enter");
    assert_eq!(outfit(&trial, "blackout-coat").period, Some("shore".parse().unwrap()));
    trial.keys("enter up enter");
    assert_eq!(outfit(&trial, "blackout-coat").period, None);
}

#[test]
fn recognition_threads_tags_and_lines_are_written() {
    let mut trial = on_entry("recognition");
    trial.keys("enter up enter");
    assert_eq!(outfit(&trial, "club-wool").recognition.get(), 4);
    point_at(&mut trial, "+ thread");
    trial.keys("enter down enter esc");
    assert_eq!(outfit(&trial, "club-wool").threads.len(), 2);
    point_at(&mut trial, "tags");
    trial.keys("enter");
    trial.retypes("race; ; sea ");
    trial.keys("enter");
    assert_eq!(outfit(&trial, "club-wool").tags, ["race", "sea"]);
    point_at(&mut trial, "occasion");
    trial.keys("enter");
    trial.retypes("the second race");
    trial.keys("enter");
    assert_eq!(outfit(&trial, "club-wool").occasion, "the second race");
    point_at(&mut trial, "top button");
    trial.keys("enter");
    trial.retypes("");
    trial.keys("enter");
    assert!(outfit(&trial, "club-wool").dressing.is_empty());
}

#[test]
fn a_source_is_changed_added_and_taken_away() {
    let mut trial = on_entry("photograph");
    trial.keys("enter right down");
    trial.retypes("newsreel 12");
    trial.keys("enter");
    let evidence = outfit(&trial, "club-wool").evidence[0].clone();
    assert_eq!((evidence.kind, evidence.source.as_str()), (EvidenceKind::Film, "newsreel 12"));
    assert_eq!(evidence.credit, "the club");
    point_at(&mut trial, "+ source");
    trial.keys("enter enter");
    assert_eq!(outfit(&trial, "club-wool").evidence.len(), 3);
    point_at(&mut trial, "written");
    trial.keys("x");
    assert_eq!(outfit(&trial, "club-wool").evidence.len(), 2);
}

#[test]
fn wishes_are_made_read_and_taken_back() {
    let mut trial = on_entry("+ wish");
    trial.keys("enter enter");
    assert_eq!(outfit(&trial, "club-wool").wishes.base, Some(BaseWish::Must));
    point_at(&mut trial, "must be the base");
    trial.keys("enter down enter");
    assert_eq!(outfit(&trial, "club-wool").wishes.base, Some(BaseWish::Never));
    point_at(&mut trial, "must not be the base");
    trial.keys("x");
    assert_eq!(outfit(&trial, "club-wool").wishes.base, None);
    point_at(&mut trial, "+ wish");
    trial.keys("enter down down enter");
    trial.types("crossing");
    trial.keys("enter");
    point_at(&mut trial, "never shares a look with Crossing wool");
    point_at(&mut trial, "+ wish");
    trial.keys("enter down down down enter");
    trial.types("crossing");
    trial.keys("enter");
    point_at(&mut trial, "always shares a look with Crossing wool");
    assert!(!trial.screen((100, 50)).contains("never shares"), "one wish goes before the other");
    trial.keys("enter");
    point_at(&mut trial, "always shares a look with Club wool");
    trial.keys("x");
    let (one, other) = (outfit(&trial, "club-wool"), outfit(&trial, "crossing-wool"));
    assert!(one.wishes == Default::default() && other.wishes == Default::default());
}

#[test]
fn a_picture_cannot_leave_the_folder() {
    let mut trial = on_entry("pictures");
    trial.keys("enter");
    trial.retypes("../plate.jpg");
    trial.keys("enter");
    assert_eq!(trial.app.layers.len(), 2, "the form stays");
    trial.retypes("images/plate.jpg");
    trial.keys("enter");
    assert_eq!(outfit(&trial, "club-wool").pictures[0].as_str(), "images/plate.jpg");
}

#[test]
fn x_takes_it_out_of_its_look_and_enter_leads_to_the_look() {
    let mut trial = sheet("club-serge");
    point_at(&mut trial, "folded into");
    trial.keys("x");
    assert_eq!(trial.app.board().standing(&"club-serge".parse().unwrap()), Standing::Open);
    let mut trial = on_entry("the base of");
    trial.keys("enter");
    assert_eq!(trial.app.view, Scope::Looks);
    assert_eq!(trial.app.focused(), Some(Target::Look("club".parse().unwrap())));
    assert!(trial.app.layers.is_empty());
}

#[test]
fn what_was_let_go_is_taken_back() {
    let mut trial = sheet("apron");
    point_at(&mut trial, "let go: told by nobody");
    trial.keys("enter down down down enter");
    assert_eq!(trial.app.board().standing(&"apron".parse().unwrap()), Standing::Open);
}

#[test]
fn left_and_right_go_through_the_outfits_of_the_character() {
    let mut trial = sheet("club-wool");
    trial.keys("right");
    assert!(trial.screen((80, 24)).contains("Crossing wool"));
    trial.keys("left left left left left");
    assert!(trial.screen((80, 24)).contains("Quay smock"));
    assert_eq!(trial.app.said.text, "it is the earliest");
}

#[test]
fn the_sheet_of_an_outfit_that_went_says_so() {
    let mut trial = sheet("club-wool");
    let mut gone = trial.app.board().records().clone();
    gone.outfits.remove(&"blackout-coat".parse().unwrap());
    let edit = crate::board::Edit::between("gone", trial.app.board().records(), &gone);
    trial.app.layers.clear();
    trial.app.open_sheet(Target::Outfit("blackout-coat".parse().unwrap()));
    assert!(trial.app.change(Ok(edit)));
    assert!(trial.screen((80, 24)).contains("no longer there"));
    trial.keys("enter x n down");
    assert!(trial.app.layers.is_empty());
}

#[test]
fn nothing_panics_at_any_size() {
    let mut trial = sheet("club-wool");
    for keys in ["down", "end", "enter"] {
        trial.keys(keys);
        for width in [1, 7, 39, 40, 41, 60, 61, 80, 120, 200] {
            for height in [1, 11, 12, 13, 20, 24, 60] {
                trial.buffer((width, height));
            }
        }
    }
}

#[test]
fn a_list_that_stays_open_shows_and_builds_on_what_it_did() {
    let mut trial = on_entry("+ thread");
    let before = outfit(&trial, "club-wool").threads.len();
    let marks = |trial: &mut Trial| trial.screen((100, 50)).matches('✓').count();
    trial.keys("enter");
    let marked = marks(&mut trial);
    for _ in 0..2 {
        trial.keys("down enter");
        assert_eq!(outfit(&trial, "club-wool").threads.len(), before + 1);
        assert_eq!(marks(&mut trial), marked + 1, "{}", trial.screen((100, 50)));
        trial.keys("enter");
        assert_eq!(outfit(&trial, "club-wool").threads.len(), before);
        assert_eq!(marks(&mut trial), marked, "{}", trial.screen((100, 50)));
        trial.keys("up");
    }
}
