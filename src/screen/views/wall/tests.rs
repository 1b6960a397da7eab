//! The wall of the demo, as its users meet it.

use crate::board::{Change, Edit, RecordRef, Scope, Standing, Swap, Treatment};
use crate::screen::theme::{Depth, Theme};
use crate::screen::trial::Trial;
use crate::screen::views::Target;

const WIDE: (u16, u16) = (120, 40);

fn count(trial: &Trial, scope: &Scope) -> String {
    trial.app.board().count(scope).numbers()
}

fn period(id: &str) -> Scope {
    Scope::Period(id.parse().unwrap())
}

/// Shows Odile alone and puts the focus on her first open outfit, in a period with room for one look more.
fn odile(trial: &mut Trial) {
    trial.screen(WIDE);
    trial.keys("c");
    trial.types("Odile");
    trial.keys("enter o");
}

#[test]
fn the_whole_life_is_on_one_screen_with_periods_open_outfits_and_lanes() {
    let mut trial = Trial::demo();
    let screen = trial.screen(WIDE);
    for period in &trial.app.board().head().periods {
        assert!(screen.contains(&period.title), "{}", period.title);
    }
    let open = trial.app.board().records().outfits.keys();
    let open = open.filter(|id| trial.app.board().standing(id) == Standing::Open).count();
    let blocks: Vec<&str> =
        screen.lines().skip(6).take_while(|line| !line.contains("looks over the years")).collect();
    let marks = |mark: char| blocks.iter().flat_map(|line| line.chars()).filter(|c| *c == mark).count();
    assert_eq!(marks('○'), open, "every open outfit has its block");
    assert_eq!(marks('○') + marks('×') + marks('=') + marks('≈') + marks('*'), 130, "and every outfit one");
    let bases = screen.matches('●').count();
    let based = trial.app.board().records().looks.values().filter(|look| look.base.is_some()).count();
    assert_eq!(bases, based, "every look with a base has its lane");
    insta::assert_snapshot!(trial.body(WIDE));
}

#[test]
fn lines_at_80_by_24() {
    let mut trial = Trial::demo();
    trial.screen((80, 24));
    trial.keys("o +");
    insta::assert_snapshot!(trial.body((80, 24)));
}

#[test]
fn cards_at_120_by_40() {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    trial.keys("o + +");
    insta::assert_snapshot!(trial.body(WIDE));
}

#[test]
fn folded_up_the_wall_shrinks_to_looks_and_open_outfits() {
    let mut trial = Trial::demo();
    trial.screen((80, 24));
    trial.keys("z");
    assert_eq!(trial.app.said.text, "folded up: 130 outfits stand as 55 looks and open outfits");
    insta::assert_snapshot!(trial.body((80, 24)));
}

#[test]
fn the_smallest_screen_still_shows_the_whole_life() {
    let mut trial = Trial::demo();
    insta::assert_snapshot!(trial.screen((40, 12)));
}

#[test]
fn where_no_strip_tells_of_the_focus_the_open_outfit_gone_to_is_named() {
    let mut trial = Trial::demo();
    trial.screen((40, 12));
    trial.keys("o");
    let Some(Target::Outfit(id)) = trial.app.focused() else { panic!("an outfit is in focus") };
    let title = trial.app.board().outfit(&id).unwrap().title.clone();
    assert!(trial.screen((40, 12)).contains(&title), "{}", trial.screen((40, 12)));
}

#[test]
fn a_look_opens_at_its_title_wherever_its_fields_were_left() {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    trial.keys("tab enter");
    trial.screen(WIDE);
    trial.keys("down down down");
    assert!(!trial.screen(WIDE).contains("▸ title"));
    trial.keys("1 enter");
    assert!(trial.screen(WIDE).contains("▸ title"), "{}", trial.screen(WIDE));
}

#[test]
fn the_picture_in_the_readme_is_what_is_drawn() {
    let mut trial = Trial::demo();
    // Its words speak of colours, which a text cannot show; without any, textures would stand in.
    trial.app.theme = Theme::new(Depth::True);
    odile(&mut trial);
    trial.keys("o o");
    let screen = trial.screen((120, 36));
    let drawn: Vec<&str> = screen.lines().map(str::trim_end).collect();
    let readme = include_str!("../../../../README.md");
    let picture: Vec<&str> =
        readme.lines().skip_while(|line| !line.starts_with("Slack Water  1 wall")).collect();
    let picture: Vec<&str> = picture.into_iter().take_while(|line| *line != "```").collect();
    assert_eq!(picture, drawn, "the README should show:\n{}", drawn.join("\n"));
}

#[test]
fn nothing_panics_and_nothing_is_drawn_outside_at_any_size_or_zoom() {
    let mut trial = Trial::demo();
    for keys in ["", "+", "+", "z", "tab", "- -"] {
        trial.keys(keys);
        for width in (1..130).step_by(9) {
            for height in (1..45).step_by(4) {
                trial.screen((width, height));
            }
        }
    }
}

#[test]
fn no_layer_panics_at_any_size() {
    for keys in ["g", "f", "x", "R", "T", "c", "L", "enter", "?", ":", "/", "!", "n", "g enter o g enter"] {
        let mut trial = Trial::demo();
        odile(&mut trial);
        trial.keys(keys);
        assert!(!trial.app.layers.is_empty(), "{keys} opens a layer");
        for (width, height) in
            [(1, 1), (40, 12), (41, 13), (60, 20), (80, 24), (200, 60), (40, 60), (200, 12)]
        {
            trial.screen((width, height));
        }
    }
}

#[test]
fn marked_outfits_become_a_look_that_is_in_focus() {
    let mut trial = Trial::demo();
    odile(&mut trial);
    trial.keys("space g");
    trial.retypes("Tweed for two days");
    trial.keys("down down left enter");
    let look = trial.look("tweed-for-two-days");
    assert_eq!((look.treatment, look.folded.len()), (Treatment::Copy, 0));
    assert_eq!(trial.app.focused(), Some(Target::Look("tweed-for-two-days".parse().unwrap())));
    assert!(trial.app.wall.marks.is_empty());
    assert_eq!(count(&trial, &period("war")), "7/7");
    let base = look.base.clone().unwrap();
    trial.screen(WIDE);
    trial.keys("u");
    trial.screen(WIDE);
    assert_eq!(trial.app.focused(), Some(Target::Outfit(base)), "undone, the focus is on what was gathered");
}

#[test]
fn a_gather_past_the_limit_changes_nothing_before_a_way_is_chosen() {
    let mut trial = Trial::demo();
    odile(&mut trial);
    trial.keys("g enter o g enter");
    let screen = trial.waits(WIDE, |screen| !screen.contains("measuring"));
    assert!(screen.contains("The Boom would hold 8 looks, and the limit is 7."), "{screen}");
    assert!(screen.contains("Odile Maren would hold 27 looks, and the limit is 26."), "{screen}");
    let place = |text: &str| screen.find(text).unwrap_or_else(|| panic!("{text} in\n{screen}"));
    assert!(place("⇥ Merge") < place("↳ Fold") && place("↳ Fold") < place("↑ Raise"), "in this order");
    assert_eq!(count(&trial, &Scope::Overall), "42/44");

    trial.keys("enter");
    assert_eq!(count(&trial, &Scope::Overall), "42/44", "one look went, one came");
    assert_eq!(count(&trial, &period("war")), "7/7");
    trial.keys("u");
    assert_eq!(count(&trial, &Scope::Overall), "42/44");
    assert!(trial.app.said.text.starts_with("took back: merged"), "{}", trial.app.said.text);
}

#[test]
fn a_limit_is_raised_on_the_record_with_a_reason() {
    let mut trial = Trial::demo();
    odile(&mut trial);
    trial.keys("g enter o g enter");
    trial.waits(WIDE, |screen| !screen.contains("measuring"));
    trial.keys("pgdn up enter enter");
    assert!(
        trial.screen(WIDE).contains("say why the limit is raised"),
        "an empty reason is refused in place"
    );
    trial.types("the regatta stays");
    trial.keys("enter");
    assert_eq!(count(&trial, &period("war")), "8/8");
    let raised = &trial.app.board().head().budget.raised;
    let last: Vec<_> =
        raised.iter().rev().take(2).map(|raise| (raise.from, raise.to, raise.why.as_str())).collect();
    assert_eq!(last, [(7, 8, "the regatta stays"), (26, 27, "the regatta stays")]);
    trial.keys("u");
    assert_eq!(count(&trial, &period("war")), "7/7", "raise and gather are one step");
}

#[test]
fn focusing_a_look_lights_its_outfits_and_a_thread_all_that_carry_it() {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    trial.keys("tab");
    let Some(Target::Look(id)) = trial.app.focused() else { panic!("a lane is in focus") };
    let held = trial.app.board().look(&id).unwrap().outfits().count();
    let lit = |screen: &str| screen.matches('◆').count();
    assert_eq!(lit(&trial.screen(WIDE)), held);
    trial.keys("esc T enter");
    let thread = &trial.app.board().head().threads[0];
    let carriers =
        trial.app.board().records().outfits.values().filter(|one| one.threads.contains(&thread.id));
    let carriers = carriers.count();
    // The header names the thread behind a ◆ of its own.
    assert_eq!(lit(&trial.screen(WIDE)), carriers + 1);
}

#[test]
fn the_focus_goes_with_the_users_hands() {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    let first = trial.app.focused();
    trial.keys("right right left left");
    assert_eq!(trial.app.focused(), first);
    trial.keys("end");
    assert_ne!(trial.app.focused(), first);
    trial.keys("home");
    assert_eq!(trial.app.focused(), first);
    trial.keys("pgdn");
    let Some(Target::Outfit(id)) = trial.app.focused() else { panic!("an outfit is in focus") };
    let period = trial.app.board().relations().period_of_outfit(&id).unwrap().to_string();
    assert_eq!(period, trial.app.board().head().periods[1].id.to_string());
    trial.clicks(WIDE, "The Lights");
    let Some(Target::Outfit(id)) = trial.app.focused() else { panic!("an outfit is in focus") };
    assert_eq!(trial.app.board().relations().period_of_outfit(&id).unwrap().to_string(), "lights");
}

#[test]
fn a_painted_block_takes_a_click() {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    trial.keys("end");
    trial.clicks(WIDE, "×");
    let Some(Target::Outfit(id)) = trial.app.focused() else { panic!("an outfit is in focus") };
    assert!(matches!(trial.app.board().standing(&id), Standing::LetGo(_)));
}

#[test]
fn a_change_from_outside_since_a_form_was_opened_is_put_as_a_choice() {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    trial.keys("o R");
    let Some(Target::Outfit(id)) = trial.app.focused() else { panic!("an outfit is in focus") };
    let edit = trial
        .app
        .open
        .board()
        .change_outfit(&id, "from outside", |outfit| outfit.title = "Theirs".to_owned());
    trial.app.open.edit(&edit.unwrap()).unwrap();
    trial.retypes("Ours");
    trial.keys("enter");
    assert_eq!(trial.app.open.board().outfit(&id).unwrap().title, "Theirs", "nothing is overwritten unseen");
    let screen = trial.screen(WIDE);
    assert!(screen.contains("Changed on both sides") && screen.contains("Theirs") && screen.contains("Ours"));
    assert!(screen.contains(&RecordRef::Outfit(id.clone()).to_string()), "{screen}");
    trial.keys("down enter");
    assert_eq!(trial.app.open.board().outfit(&id).unwrap().title, "Ours");
}

#[test]
fn what_was_typed_for_a_record_that_is_gone_is_not_lost() {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    trial.keys("o");
    let Some(Target::Outfit(id)) = trial.app.focused() else { panic!("an outfit is in focus") };
    for (keys, typed, keep) in [("R", "A title", "enter"), ("n", "A note", "ctrl-s")] {
        trial.keys(keys);
        let there = trial.app.open.board().records().outfits.get(&id).cloned();
        let gone = Edit::new("gone", vec![Change::Outfit(id.clone(), Swap::new(there, None))]);
        trial.app.open.edit(&gone).unwrap();
        trial.types(typed);
        trial.keys(keep);
        let screen = trial.screen(WIDE);
        assert!(screen.contains(typed) && screen.contains("changed here, removed there"), "{screen}");
        assert!(trial.app.open.board().outfit(&id).is_none(), "it is not brought back unasked");
        trial.keys("down enter");
        let outfit = trial.app.open.board().outfit(&id).unwrap();
        assert!(outfit.title.contains(typed) || outfit.notes.contains(typed));
        trial.app.focus(&Target::Outfit(id.clone()));
    }
}
