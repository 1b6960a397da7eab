//! What is asked and done on the demo, as its users meet it.

#![allow(clippy::unwrap_used, reason = "a test")]

use crate::board::{RecordRef, Treatment};
use crate::screen::trial::Trial;
use crate::screen::views::Target;

const WIDE: (u16, u16) = (120, 40);

/// The demo with a lane in focus, and whose look it is.
fn on_a_lane() -> (Trial, crate::board::LookId) {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    trial.keys("tab");
    let Some(Target::Look(id)) = trial.app.focused() else { panic!("a lane is in focus") };
    (trial, id)
}

#[test]
fn a_look_finds_its_scene_by_number_and_by_number_and_story_day() {
    let (mut trial, id) = on_a_lane();
    let character = trial.app.board().look(&id).unwrap().character.clone();
    let scenes: Vec<_> = trial.app.board().scenes().cloned().collect();
    for number in ["66", "60", "8A", "6"] {
        let scene = scenes.iter().find(|scene| scene.number.to_string() == number).expect(number);
        let day = scene.story_day.unwrap();
        for typed in [number.to_owned(), format!("{number} {day}"), number.to_lowercase()] {
            trial.keys("a");
            trial.types(&typed);
            trial.keys("enter");
            let worn = trial.scene(number).wears.get(&character);
            assert_eq!(worn, Some(&Some(id.clone())), "{typed}: {}", trial.app.said.text);
            trial.keys("u");
        }
    }
}

#[test]
fn a_copy_that_departs_is_said_to_interpret() {
    let (mut trial, _) = on_a_lane();
    let copy = trial.app.board().records().looks.iter().find(|(_, look)| look.treatment == Treatment::Copy);
    let id = copy.unwrap().0.clone();
    trial.app.focus(&Target::Look(id.clone()));
    trial.keys("d");
    trial.types("yoke");
    trial.keys("down down");
    trial.types("square");
    trial.keys("enter");
    assert_eq!(trial.look(id.as_str()).treatment, Treatment::Interpret);
    assert!(trial.app.said.text.contains("the look interprets now"), "{}", trial.app.said.text);
    trial.keys("d");
    trial.types("hem");
    trial.keys("down down");
    trial.types("long");
    trial.keys("enter");
    assert_eq!(trial.app.said.text, "departure: hem", "it interpreted before");
}

#[test]
fn what_is_kept_after_a_clash_is_what_is_said() {
    let mut trial = Trial::small();
    trial.screen(WIDE);
    let id = "smock".parse().unwrap();
    trial.app.focus(&Target::Outfit(id));
    trial.keys("R");
    let id = "smock".parse().unwrap();
    let edit =
        trial.app.open.board().change_outfit(&id, "outside", |outfit| outfit.title = "Theirs".to_owned());
    trial.app.open.edit(&edit.unwrap()).unwrap();
    trial.retypes("Ours");
    trial.keys("enter");
    assert!(trial.screen(WIDE).contains("Keep what is there"), "{}", RecordRef::Outfit(id.clone()));
    trial.keys("enter");
    assert_eq!(trial.app.open.board().outfit(&id).unwrap().title, "Theirs");
    assert_eq!(trial.app.said.text, "kept what is there");
}

/// How many answers a search has, and the first of them.
fn find(trial: &mut Trial, typed: &str) -> (usize, Option<Target>) {
    trial.keys("/");
    trial.types(typed);
    let screen = trial.screen(WIDE);
    let count = screen.lines().find_map(|line| {
        let (_, after) = line.split_once("1 of ")?;
        after.chars().take_while(char::is_ascii_digit).collect::<String>().parse().ok()
    });
    trial.keys(if count.is_some() { "enter" } else { "esc" });
    (count.unwrap_or(0), count.and_then(|_| trial.app.focused()))
}

#[test]
fn find_needs_no_accents_and_is_not_content_with_strewn_letters() {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    let (found, first) = find(&mut trial, "day crepe");
    let Some(Target::Outfit(id)) = first else { panic!("an outfit is found") };
    assert!(trial.app.board().outfit(&id).unwrap().title.starts_with("Day crêpe"), "{id}");
    assert!(found < 4, "{found}");
    trial.app.perform(crate::screen::actions::Act::Wall);
    assert_eq!(find(&mut trial, "zqx").0, 0);
    let board = trial.app.board();
    let with_the_word =
        board.records().outfits.values().filter(|outfit| {
            format!("{} {}", outfit.title, outfit.occasion).to_lowercase().contains("ochre")
        });
    let looks = board.records().looks.values().filter(|look| look.title.to_lowercase().contains("ochre"));
    let scenes = board.scenes().filter(|scene| scene.heading.to_lowercase().contains("ochre"));
    let threads = board.head().threads.iter().filter(|one| one.title.to_lowercase().contains("ochre"));
    let all = with_the_word.count() + looks.count() + scenes.count() + threads.count();
    assert!(all > 0);
    assert_eq!(find(&mut trial, "ochre").0, all, "what has the word, and nothing else");
}

#[test]
fn an_outfit_is_added_with_title_character_and_date() {
    let mut trial = Trial::small();
    trial.screen(WIDE);
    trial.keys("N enter");
    assert!(trial.screen(WIDE).contains("give the outfit a title"), "{}", trial.screen(WIDE));
    trial.types("Quay smock");
    trial.keys("down right down");
    trial.types("aug 1930");
    trial.keys("enter");
    // The small board has a quay smock under another name.
    let Some(Target::Outfit(id)) = trial.app.focused() else { panic!("an outfit is in focus") };
    let outfit = trial.app.board().outfit(&id).unwrap();
    assert_eq!(outfit.title, "Quay smock");
    assert_eq!(
        (outfit.character.as_str(), outfit.worn.clone().unwrap().to_string()),
        ("bridie", "1930-08".into())
    );
    trial.keys("u");
    assert!(trial.app.board().outfit(&id).is_none());
}

#[test]
fn a_message_goes_with_the_next_key() {
    let mut trial = Trial::demo();
    trial.screen(WIDE);
    trial.keys("] u");
    assert!(trial.screen(WIDE).contains("took back:"));
    trial.keys("/");
    assert!(!trial.screen(WIDE).contains("took back:"), "{}", trial.screen(WIDE));
    trial.keys("esc z");
    assert!(trial.screen(WIDE).contains("folded up:"));
    trial.keys("esc esc");
    assert!(!trial.screen(WIDE).contains("folded up:"), "{}", trial.screen(WIDE));
}

#[test]
fn a_fault_is_said_as_long_as_it_is_there() {
    let mut trial = Trial::small();
    let file = trial.app.folder().join("outfits/smock.yaml");
    std::fs::write(&file, "titel: Smock\n").unwrap();
    trial.app.take_in_outside();
    assert!(trial.screen(WIDE).contains("titel"), "{}", trial.screen(WIDE));
    trial.keys("right left");
    assert!(trial.screen(WIDE).contains("! tells what"), "{}", trial.screen(WIDE));
}
