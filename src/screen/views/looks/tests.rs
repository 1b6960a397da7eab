#![allow(clippy::unwrap_used, reason = "a test")]

use insta::assert_snapshot;

use crate::board::making::PieceOf;
use crate::board::{Measure, Rule, Stage, Treatment};
use crate::screen::actions::Scope;
use crate::screen::trial::Trial;
use crate::screen::views::Target;

/// A trial in the list of looks, on the first one.
fn looks() -> Trial {
    let mut trial = Trial::small();
    trial.app.view = Scope::Looks;
    trial
}

/// A trial among the fields of `Club black`, with the cursor on the entry that shows `text`.
fn on_field(text: &str) -> Trial {
    let mut trial = looks();
    trial.keys("down tab");
    point_at(&mut trial, text);
    trial
}

fn point_at(trial: &mut Trial, text: &str) {
    trial.keys("home");
    for _ in 0..60 {
        let screen = trial.screen((80, 60));
        if screen.lines().any(|line| line.starts_with('▸') && line.contains(text)) {
            return;
        }
        trial.keys("down");
    }
    panic!("{text} is not among the fields:\n{}", trial.screen((80, 60)));
}

fn order(trial: &Trial) -> Vec<String> {
    let board = trial.app.board();
    board.looks_of_character(&"odile".parse().unwrap()).iter().map(ToString::to_string).collect()
}

#[test]
fn the_list_at_80_by_24() {
    assert_snapshot!(looks().body((80, 24)));
}

#[test]
fn list_and_fields_at_120_by_40() {
    let mut trial = looks();
    trial.keys("down tab down down");
    assert_snapshot!(trial.body((120, 40)));
}

#[test]
fn the_fields_alone_at_80_by_24() {
    let mut trial = looks();
    trial.keys("down tab end");
    assert_snapshot!(trial.body((80, 24)));
}

#[test]
fn the_smallest_screen_shows_the_list() {
    assert_snapshot!(looks().body((40, 12)));
}

#[test]
fn no_looks_yet_says_what_to_do() {
    let files: Vec<_> = crate::screen::trial::small()
        .into_iter()
        .filter(|(name, _)| !name.starts_with("looks/") && name != "scenes.yaml" && name != "schedule.yaml")
        .collect();
    let mut trial = Trial::on(&files);
    trial.app.view = Scope::Looks;
    assert!(trial.screen((120, 24)).contains("g gathers"));
    trial.keys("enter t x down D");
    assert!(trial.app.layers.is_empty());
    assert!(trial.app.said.text.contains("no looks yet"));
}

#[test]
fn enter_goes_into_the_fields_and_escape_back() {
    let mut trial = looks();
    trial.keys("enter");
    assert!(trial.app.looks.inside);
    trial.keys("esc");
    assert!(!trial.app.looks.inside);
}

#[test]
fn a_departure_is_edited_where_it_stands() {
    let mut trial = on_field("neckline");
    trial.keys("enter down down");
    trial.retypes("boat");
    trial.keys("enter");
    let departures = &trial.look("club").departures;
    assert_eq!(departures.len(), 2);
    assert_eq!((departures[0].becomes.as_str(), departures[0].was.as_str()), ("boat", "square"));
}

#[test]
fn a_departure_is_added_and_makes_a_copy_an_interpretation() {
    let mut trial = looks();
    trial.keys("d");
    trial.types("hem");
    trial.keys("down down");
    trial.types("raised");
    trial.keys("enter");
    assert_eq!(trial.look("smock").departures[0].becomes, "raised");
    assert_eq!(trial.look("smock").treatment, Treatment::Interpret);
}

#[test]
fn x_takes_away_the_item_in_focus() {
    let mut trial = on_field("leg:");
    trial.keys("x");
    assert_eq!(trial.look("club").departures.len(), 1);
    point_at(&mut trial, "cap, rubber");
    trial.keys("delete");
    assert_eq!(trial.look("club").pieces.len(), 1);
    point_at(&mut trial, "The green cap");
    trial.keys("x");
    assert!(trial.look("club").threads.is_empty());
    point_at(&mut trial, "top button");
    trial.keys("x");
    assert_eq!(trial.look("club").dressing, ["cap in the hand until scene 3"]);
}

#[test]
fn x_on_a_folded_outfit_opens_it_again_and_on_a_scene_leaves_a_gap() {
    let mut trial = on_field("Crossing wool");
    trial.keys("x");
    assert_eq!(trial.look("club").folded.len(), 1);
    point_at(&mut trial, "Harbour");
    trial.keys("x");
    assert_eq!(trial.wears("3", "odile"), Some(None));
    assert_eq!(trial.wears("2", "odile"), Some(Some("club".to_owned())));
}

#[test]
fn x_takes_nothing_from_the_list_or_from_a_field_that_is_no_item() {
    let mut trial = looks();
    trial.keys("down x tab x");
    let (before, after) = (looks(), trial);
    assert_eq!(before.app.board().records(), after.app.board().records());
}

#[test]
fn a_look_moves_among_its_characters_looks_and_keeps_the_focus() {
    let mut trial = looks();
    trial.keys("shift-down");
    assert_eq!(order(&trial), ["club", "smock", "swim", "serge"]);
    assert_eq!(trial.app.focused(), Some(Target::Look("smock".parse().unwrap())));
    trial.keys("K K");
    assert_eq!(order(&trial), ["smock", "club", "swim", "serge"]);
    assert!(trial.app.said.wrong, "{}", trial.app.said.text);
}

#[test]
fn a_piece_says_in_place_which_colour_is_none_and_is_kept_once_it_reads() {
    let mut trial = on_field("costume");
    trial.keys("enter down down");
    trial.retypes("black, ivry");
    assert!(trial.screen((80, 30)).contains("! `ivry` is no colour"));
    trial.keys("enter");
    assert_eq!(trial.app.layers.len(), 1, "the form stays");
    trial.retypes("black, ivory, navy");
    trial.keys("down");
    trial.retypes("round neck; no buttons");
    trial.keys("enter");
    let piece = &trial.look("club").pieces[0];
    assert_eq!(piece.colours.len(), 3);
    assert_eq!(piece.details, ["round neck", "no buttons"]);
}

#[test]
fn a_piece_that_is_called_otherwise_keeps_what_the_workroom_knows_of_it() {
    let mut trial = on_field("costume");
    let costume = PieceOf { look: "club".parse().unwrap(), piece: "costume".to_owned() };
    let braid = Measure { name: "braid".to_owned(), original: None, rule: Rule::Same };
    let edit = trial.app.board().set_measure(&costume, braid);
    trial.app.change(edit);
    trial.keys("enter");
    trial.retypes("race costume");
    trial.keys("enter");
    let look = trial.look("club");
    assert_eq!(look.pieces[0].name, "race costume");
    assert_eq!(look.make.keys().collect::<Vec<_>>(), ["race costume"]);
}

#[test]
fn every_field_that_is_entered_can_be_left_without_a_change() {
    let mut trial = on_field("title");
    let before = trial.app.board().records().clone();
    for _ in 0..40 {
        trial.keys("enter esc esc");
        if trial.app.view == Scope::Scenes {
            break;
        }
        assert!(trial.app.layers.is_empty());
        trial.keys("2 tab down");
    }
    assert_eq!(trial.app.view, Scope::Scenes, "the last field but one is a scene, and leads there");
    assert_eq!(*trial.app.board().records(), before);
}

#[test]
fn what_it_says_the_stage_and_the_period_are_written() {
    let mut trial = on_field("She races");
    trial.keys("enter");
    trial.retypes("She wins.");
    trial.keys("enter");
    assert_eq!(trial.look("club").says, "She wins.");
    point_at(&mut trial, "stage");
    trial.keys("enter down enter");
    assert_eq!(trial.look("club").stage, Stage::Approved);
    point_at(&mut trial, "period");
    trial.keys("enter down enter");
    assert_eq!(trial.look("club").period, Some("shore".parse().unwrap()));
    point_at(&mut trial, "said here");
    trial.keys("enter up enter");
    assert_eq!(trial.look("club").period, None);
}

#[test]
fn another_of_its_outfits_becomes_the_base() {
    let mut trial = looks();
    trial.keys("down b");
    trial.types("serge");
    trial.keys("enter");
    assert_eq!(trial.look("club").base, Some("club-serge".parse().unwrap()));
    assert_eq!(trial.look("club").folded.len(), 2);
}

#[test]
fn an_invented_look_is_given_a_base() {
    let mut trial = looks();
    trial.keys("down down b enter");
    let look = trial.look("swim");
    assert_eq!(look.base, Some("blackout-coat".parse().unwrap()), "the open one comes first");
    assert_eq!(look.treatment, Treatment::Interpret);
}

#[test]
fn an_outfit_is_folded_from_among_the_fields() {
    let mut trial = on_field("+ fold an outfit");
    trial.keys("enter");
    trial.types("blackout");
    trial.keys("enter");
    assert_eq!(trial.look("club").folded.len(), 3);
}

#[test]
fn threads_are_taken_on_and_off_one_after_the_other() {
    let mut trial = on_field("+ thread");
    trial.keys("enter enter down enter esc");
    assert_eq!(trial.look("club").threads, ["darn".parse().unwrap()]);
    assert!(trial.app.layers.is_empty());
}

#[test]
fn outfits_are_split_off_into_a_new_look() {
    let mut trial = looks();
    // The serge and the crossing wool are marked; then the first row splits them off.
    trial.keys("down s down down enter down enter home up up up up enter");
    trial.retypes("Second black");
    trial.keys("enter");
    // Odile has four looks of three already, so the limit asks first.
    trial.keys("up up enter");
    trial.types("the crossing needs its own");
    trial.keys("enter");
    assert_eq!(trial.look("second-black").outfits().count(), 2, "{}", trial.app.said.text);
    assert_eq!(trial.look("club").outfits().count(), 1);
}

#[test]
fn the_focus_goes_to_the_neighbour_when_a_look_is_dissolved() {
    let mut trial = looks();
    trial.keys("down D enter");
    assert_eq!(trial.app.focused(), Some(Target::Look("swim".parse().unwrap())));
}

#[test]
fn a_target_leads_to_its_look() {
    let mut trial = looks();
    let look = |id: &str| Some(Target::Look(id.parse().unwrap()));
    trial.app.focus(&Target::Outfit("crossing-wool".parse().unwrap()));
    assert_eq!(trial.app.focused(), look("club"));
    trial.app.focus(&Target::Period("war".parse().unwrap()));
    assert_eq!(trial.app.focused(), look("swim"));
    trial.app.focus(&Target::Scene("4".parse().unwrap()));
    assert_eq!(trial.app.focused(), look("loft"));
    trial.app.focus(&Target::Thread("green-cap".parse().unwrap()));
    assert_eq!(trial.app.focused(), look("club"));
    trial.app.focus(&Target::Outfit("apron".parse().unwrap()));
    assert_eq!(trial.app.focused(), look("club"), "what is in no look leaves the focus where it is");
}

#[test]
fn a_click_on_a_field_puts_the_focus_there_and_a_second_one_opens_it() {
    let mut trial = looks();
    trial.clicks((120, 40), "Club black");
    assert_eq!(trial.app.focused(), Some(Target::Look("club".parse().unwrap())));
    trial.clicks((120, 40), "buttoned left");
    assert!(trial.app.looks.inside && trial.app.layers.is_empty());
    trial.clicks((120, 40), "buttoned left");
    assert_eq!(trial.app.layers.len(), 1);
    trial.clicks((120, 40), "Night swim");
    assert_eq!(trial.app.layers.len(), 1, "what lies under a layer takes no click");
}

#[test]
fn w_shows_the_look_on_the_wall() {
    let mut trial = looks();
    trial.keys("down w");
    assert_eq!(trial.app.view, Scope::Wall);
}

#[test]
fn nothing_panics_at_any_size() {
    let mut trial = looks();
    for keys in ["down", "tab", "end", "enter"] {
        trial.keys(keys);
        for width in [1, 2, 7, 39, 40, 41, 59, 80, 89, 90, 91, 120, 200] {
            for height in [1, 2, 11, 12, 13, 16, 20, 24, 60] {
                trial.buffer((width, height));
            }
        }
    }
}

#[test]
fn the_view_draws_nothing_outside_its_area() {
    let mut trial = looks();
    trial.keys("down");
    for inside in [false, true] {
        trial.app.looks.inside = inside;
        for (width, height) in [(1, 1), (3, 2), (9, 4), (24, 3), (40, 9), (76, 20), (90, 30), (130, 40)] {
            let app = &mut trial.app;
            let (looks, open) = (&mut app.looks, &app.open);
            crate::screen::trial::draws_inside((width, height), |canvas, area| {
                looks.draw(open.board(), canvas, area);
            });
        }
    }
}

#[test]
fn every_edit_is_one_step_back() {
    let mut trial = on_field("neckline");
    let before = trial.app.board().records().clone();
    trial.keys("x u");
    assert_eq!(*trial.app.board().records(), before);
    trial.keys("enter down down");
    trial.retypes("boat");
    trial.keys("enter u");
    assert_eq!(*trial.app.board().records(), before);
    point_at(&mut trial, "Crossing wool");
    trial.keys("x K u u");
    assert_eq!(*trial.app.board().records(), before);
}
