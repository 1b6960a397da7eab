#![allow(clippy::unwrap_used, reason = "a test")]

use insta::assert_snapshot;

use crate::screen::actions::Scope;
use crate::screen::trial::{Trial, draws_inside, small};
use crate::screen::views::Target;

/// A trial in the plot, on the scene of this number and the character in this place.
fn on_scene(number: &str, character: usize) -> Trial {
    let mut trial = Trial::small();
    trial.app.view = Scope::Scenes;
    trial.app.focus(&Target::Scene(number.parse().unwrap()));
    for _ in 0..character {
        trial.keys("right");
    }
    trial
}

fn focus(trial: &Trial) -> (String, String) {
    let Some(Target::Scene(number)) = trial.app.focused() else { panic!("no scene is in focus") };
    (number.to_string(), trial.app.scenes.character(trial.app.board()).unwrap().to_string())
}

fn at(scene: &str, character: &str) -> (String, String) {
    (scene.to_owned(), character.to_owned())
}

fn numbers(trial: &Trial) -> Vec<String> {
    trial.app.board().scenes().map(|scene| scene.number.to_string()).collect()
}

#[test]
fn the_plot_at_80_by_24() {
    assert_snapshot!(on_scene("2", 0).body((80, 24)));
}

#[test]
fn the_plot_at_120_by_40() {
    assert_snapshot!(on_scene("4", 0).body((120, 40)));
}

#[test]
fn the_plot_at_200_by_60() {
    assert_snapshot!(on_scene("2", 1).body((200, 60)));
}

#[test]
fn the_smallest_screen_shows_the_character_in_focus() {
    assert_snapshot!(on_scene("5", 1).body((40, 12)));
}

#[test]
fn the_choice_of_a_look_at_80_by_24() {
    let mut trial = on_scene("3", 0);
    trial.keys("enter");
    assert_snapshot!(trial.body((80, 24)));
}

#[test]
fn no_scenes_yet_says_what_to_do_and_the_first_can_be_added() {
    let files: Vec<_> =
        small().into_iter().filter(|(name, _)| name != "scenes.yaml" && name != "schedule.yaml").collect();
    let mut trial = Trial::on(&files);
    trial.app.view = Scope::Scenes;
    assert!(trial.screen((80, 24)).contains("N adds the first"));
    trial.keys("enter c x X o e D w up down");
    assert!(trial.app.layers.is_empty());
    trial.keys("N enter");
    assert_eq!(numbers(&trial), ["1"]);
}

#[test]
fn a_look_is_chosen_with_those_of_the_period_first_and_the_one_before_in_focus() {
    let mut trial = on_scene("4", 0);
    trial.keys("enter");
    let screen = trial.screen((80, 24));
    let row = |text: &str| screen.lines().skip(8).position(|line| line.contains(text)).unwrap();
    assert!(screen.contains("as in scene 3"));
    assert!(row("Walking serge") < row("Smock, cut down"));
    trial.keys("enter");
    assert_eq!(trial.wears("4", "odile"), Some(Some("club".to_owned())));
}

#[test]
fn the_last_two_choices_are_no_look_and_not_here() {
    let mut trial = on_scene("3", 0);
    trial.keys("a");
    trial.types("no look");
    trial.keys("enter");
    assert_eq!(trial.wears("3", "odile"), Some(None));
    trial.keys("a");
    trial.types("not in this");
    trial.keys("enter");
    assert_eq!(trial.wears("3", "odile"), None);
}

#[test]
fn carry_takes_the_look_of_the_scene_before_in_which_the_character_is() {
    let mut trial = on_scene("4", 0);
    trial.keys("c");
    assert_eq!(trial.wears("4", "odile"), Some(Some("club".to_owned())));
    let mut trial = on_scene("6", 1);
    trial.keys("c");
    assert_eq!(trial.wears("6", "bridie"), Some(Some("loft".to_owned())), "absent before, present now");
}

#[test]
fn a_look_of_another_period_is_carried_but_not_silently() {
    let mut trial = on_scene("5", 0);
    trial.app.focus(&Target::Scene("3".parse().unwrap()));
    trial.keys("X down X down down a");
    trial.types("smock");
    trial.keys("enter down c");
    assert_eq!(trial.wears("6", "odile"), Some(Some("smock".to_owned())));
    assert!(trial.app.said.text.ends_with("a look of The shore"), "{}", trial.app.said.text);
    assert!(trial.screen((80, 24)).contains("! a look of The shore"));
}

#[test]
fn carry_says_why_there_is_nothing_to_carry() {
    let mut trial = on_scene("1", 0);
    trial.keys("c");
    assert!(trial.app.said.text.contains("in no scene before"), "{}", trial.app.said.text);
    let mut trial = on_scene("4", 1);
    trial.keys("c");
    assert!(trial.app.said.text.contains("no look in scene 2"), "{}", trial.app.said.text);
    assert_eq!(trial.wears("4", "bridie"), Some(Some("loft".to_owned())));
}

#[test]
fn clear_leaves_a_gap_and_away_takes_the_character_out() {
    let mut trial = on_scene("3", 0);
    trial.keys("x");
    assert_eq!(trial.wears("3", "odile"), Some(None));
    assert_eq!(trial.app.said.text, "scene 3: Odile has no look yet");
    trial.keys("X");
    assert_eq!(trial.wears("3", "odile"), None);
}

#[test]
fn the_next_gap_goes_along_the_rows_and_round() {
    let mut trial = on_scene("1", 0);
    let mut gaps = Vec::new();
    for _ in 0..6 {
        trial.keys("o");
        gaps.push(focus(&trial));
    }
    let round =
        [("2", "bridie"), ("4", "odile"), ("4", "ivo"), ("7", "odile"), ("8", "bridie"), ("2", "bridie")];
    assert_eq!(gaps, round.map(|(scene, character)| at(scene, character)));
    assert_eq!(trial.app.said.text, "5 gaps in all");
}

#[test]
fn the_focus_moves_over_cells_and_stops_at_the_edges() {
    let mut trial = on_scene("1", 0);
    trial.keys("left up");
    assert_eq!(focus(&trial), at("1", "odile"));
    trial.keys("end right right l down");
    assert_eq!(focus(&trial), at("8", "ivo"));
    trial.keys("home left");
    assert_eq!(focus(&trial), at("1", "bridie"));
    // A click on the number keeps the character; one on a cell takes it.
    trial.clicks((120, 40), "Harbour");
    assert_eq!(focus(&trial), at("3", "bridie"));
    trial.clicks((120, 40), "Smock");
    assert_eq!(focus(&trial), at("1", "odile"));
    assert!(trial.app.layers.is_empty());
    trial.clicks((120, 40), "Smock");
    assert_eq!(trial.app.layers.len(), 1, "a click on the cell in focus chooses");
}

#[test]
fn a_scene_is_written_field_by_field() {
    let mut trial = on_scene("4A", 0);
    trial.keys("e");
    trial.retypes("INT. STAIRS - NIGHT");
    trial.keys("down down right down right right down");
    trial.retypes("n2");
    trial.keys("down");
    trial.retypes("summer 1926");
    assert!(trial.screen((80, 24)).contains("kept as 1926-22"));
    trial.keys("down down");
    trial.retypes("1 3/8");
    trial.keys("enter");
    let scene = trial.scene("4A");
    assert_eq!(scene.heading, "INT. STAIRS - NIGHT");
    assert_eq!(scene.set, "Stairs");
    assert_eq!(scene.place.unwrap().word(), "EXT");
    assert_eq!(scene.light.unwrap().word(), "night");
    assert_eq!(scene.story_day.unwrap().to_string(), "N2");
    assert_eq!(scene.date.as_ref().unwrap().to_string(), "1926-22");
    assert_eq!(scene.pages.get(), 11);
}

#[test]
fn what_does_not_read_stays_in_the_form_with_the_reason() {
    let mut trial = on_scene("4A", 0);
    trial.keys("e up up");
    trial.retypes("1.5");
    trial.keys("enter");
    let screen = trial.screen((40, 12));
    assert!(screen.contains("is no page count"), "{screen}");
    assert!(screen.contains("1.5"), "{screen}");
    assert_eq!(trial.scene("4A").pages.get(), 0);
    trial.retypes("2/8");
    trial.keys("enter");
    assert_eq!(trial.scene("4A").pages.get(), 2);
    assert!(trial.app.layers.is_empty());
}

#[test]
fn editing_a_scene_keeps_who_is_in_it_and_its_notes() {
    let mut trial = on_scene("2", 0);
    trial.keys("e");
    trial.retypes("EXT. SLIP - DAWN");
    trial.keys("enter");
    let scene = trial.scene("2");
    assert_eq!((scene.heading.as_str(), scene.notes.as_str()), ("EXT. SLIP - DAWN", "Cap in the hand."));
    assert_eq!(trial.wears("2", "odile"), Some(Some("club".to_owned())));
}

#[test]
fn a_scene_is_added_behind_under_the_next_free_number() {
    let mut trial = on_scene("4", 0);
    trial.keys("N enter");
    assert_eq!(numbers(&trial)[3..6], ["4", "4B", "4A"], "4A is taken");
    assert_eq!(focus(&trial).0, "4B");
    assert_eq!(trial.scene("4B").set, "Club room", "what often stays the same is filled in");
    let mut trial = on_scene("8", 0);
    trial.keys("N enter");
    assert_eq!(numbers(&trial).last().unwrap(), "9");
    let mut trial = on_scene("4A", 0);
    trial.keys("N enter");
    assert_eq!(focus(&trial).0, "4B");
    trial.keys("N");
    trial.retypes("5");
    trial.keys("enter");
    assert!(trial.screen((80, 24)).contains("scene 5 is there already"));
}

#[test]
fn a_scene_is_cut_only_when_the_answer_is_yes() {
    let mut trial = on_scene("2", 0);
    trial.keys("D down enter");
    assert_eq!(numbers(&trial).len(), 9);
    trial.keys("D enter");
    assert_eq!(numbers(&trial)[..2], ["1", "3"]);
    assert_eq!(trial.app.board().records().schedule[0].scenes.len(), 1);
    assert_eq!(focus(&trial).0, "3", "the next takes its place");
}

#[test]
fn a_target_leads_to_its_scene_and_character() {
    let mut trial = on_scene("1", 0);
    trial.app.focus(&Target::Look("loft".parse().unwrap()));
    assert_eq!(focus(&trial), at("4", "bridie"));
    trial.app.focus(&Target::Outfit("club-serge".parse().unwrap()));
    assert_eq!(focus(&trial), at("2", "odile"));
    trial.app.focus(&Target::Period("war".parse().unwrap()));
    assert_eq!(focus(&trial).0, "5");
    trial.app.focus(&Target::Thread("green-cap".parse().unwrap()));
    assert_eq!(focus(&trial).0, "2");
    trial.keys("down");
    trial.app.focus(&Target::Look("club".parse().unwrap()));
    assert_eq!(focus(&trial).0, "3", "a scene that shows the look already stays");
}

#[test]
fn w_shows_the_look_in_the_list_of_looks() {
    let mut trial = on_scene("5", 0);
    trial.keys("w");
    assert_eq!(trial.app.view, Scope::Looks);
    assert_eq!(trial.app.focused(), Some(Target::Look("swim".parse().unwrap())));
}

#[test]
fn nothing_panics_at_any_size() {
    let mut trial = on_scene("8", 2);
    for keys in ["home", "end", "e", "esc enter", "esc N"] {
        trial.keys(keys);
        for width in [1, 2, 7, 39, 40, 41, 55, 56, 80, 99, 100, 120, 150, 190, 240] {
            for height in [1, 2, 11, 12, 13, 18, 20, 24, 60] {
                trial.buffer((width, height));
            }
        }
    }
}

#[test]
fn the_view_draws_nothing_outside_its_area() {
    let mut trial = on_scene("2", 1);
    for (width, height) in
        [(1, 1), (3, 2), (9, 4), (24, 3), (40, 9), (76, 20), (90, 30), (130, 50), (200, 20)]
    {
        let (scenes, open) = (&mut trial.app.scenes, &trial.app.open);
        draws_inside((width, height), |canvas, area| scenes.draw(open.board(), canvas, area));
    }
}

#[test]
fn a_scene_that_was_cut_comes_back_where_it_stood_and_to_its_shooting_day() {
    let mut trial = on_scene("2", 0);
    let before = trial.app.board().records().clone();
    trial.keys("D enter u");
    assert_eq!(*trial.app.board().records(), before);
}

fn worn(trial: &Trial, character: &str) -> Vec<Option<String>> {
    let who = character.parse().unwrap();
    let worn = trial.app.board().scenes().filter_map(|scene| scene.wears.get(&who));
    worn.map(|look| look.as_ref().map(ToString::to_string)).collect()
}

#[test]
fn a_range_is_dressed_carried_on_and_cleared_as_one_change() {
    let mut trial = Trial::demo();
    trial.app.view = Scope::Scenes;
    trial.app.focus(&Target::Scene("3".parse().unwrap()));
    let before = trial.app.board().records().clone();
    trial.keys("v down down down");
    let screen = trial.screen((120, 40));
    assert_eq!(screen.matches('✓').count(), 3, "{screen}");
    trial.keys("x");
    assert_eq!(worn(&trial, "odile").iter().filter(|look| look.is_none()).count(), 4);
    assert_eq!(worn(&trial, "bridie").iter().filter(|look| look.is_none()).count(), 0, "only hers");
    trial.keys("c");
    let now = worn(&trial, "odile");
    assert_eq!(now[2..6], vec![now[1].clone(); 4], "as before the range");
    trial.keys("a");
    trial.types("regatta");
    trial.keys("esc u u");
    assert_eq!(trial.app.board().records(), &before);
    trial.keys("esc");
    assert!(!trial.screen((120, 40)).contains('✓'));
}

#[test]
fn a_range_is_given_one_look_where_the_character_is_present() {
    let mut trial = on_scene("1", 0);
    let away = trial
        .app
        .board()
        .scenes()
        .filter(|scene| scene.wears.get(&"odile".parse().unwrap()).is_none())
        .count();
    trial.keys("v end a enter enter");
    let now = worn(&trial, "odile");
    assert!(now.iter().all(|look| look == &now[0] && look.is_some()), "{now:?}");
    assert_eq!(now.len() + away, trial.app.board().scenes().len(), "who was away stays away");
    assert!(trial.app.scenes.anchor.is_none());
}

#[test]
fn a_range_begun_in_shooting_order_carries_on_what_was_worn_before_its_first_scene_of_the_story() {
    let mut trial = Trial::demo();
    trial.keys("3");
    trial.app.focus(&Target::Scene("9".parse().unwrap()));
    trial.keys("s v down down");
    assert_eq!(focus(&trial).0, "13", "day 2 of the demo is 9, 7, 13");
    let before = trial.wears("6", "odile");
    assert_ne!(before, trial.wears("8A", "odile"));
    trial.keys("c");
    for scene in ["9", "7", "13"] {
        assert_eq!(trial.wears(scene, "odile"), before, "scene {scene}");
    }
}

#[test]
fn a_range_adds_a_character_to_its_scenes() {
    // Ivo has a look from here on, and is in scene 4 alone.
    let mut files = small();
    files.push((
        "looks/oilskin.yaml".to_owned(),
        serde_json::json!({"title": "Oilskin", "character": "ivo", "treatment": "invent", "period": "races"}),
    ));
    let on = |scene: &str, keys: &str| {
        let mut trial = Trial::on(&files);
        trial.app.view = Scope::Scenes;
        trial.app.focus(&Target::Scene(scene.parse().unwrap()));
        trial.keys("right right v");
        trial.keys(keys);
        trial
    };
    let oilskin = Some(Some("oilskin".to_owned()));
    let worn = |trial: &Trial| ["1", "2", "3", "4"].map(|scene| trial.wears(scene, "ivo"));
    // He is in none of them: all of them are meant.
    let mut trial = on("1", "down down a enter");
    assert_eq!(worn(&trial), [oilskin.clone(), oilskin.clone(), oilskin.clone(), Some(None)]);
    assert_eq!(trial.app.said.text, "3 scenes: Ivo wears Oilskin");
    trial.keys("u");
    assert_eq!(worn(&trial), [None, None, None, Some(None)], "one step");
    // He is in one of them: that is asked.
    let trial = on("2", "down down a enter enter");
    assert_eq!(worn(&trial), [None, None, None, oilskin.clone()]);
    let mut trial = on("2", "down down a enter");
    let screen = trial.screen((80, 24));
    assert!(screen.contains("In all of them") && screen.contains("adds Ivo to 2"), "{screen}");
    trial.keys("down enter");
    assert_eq!(worn(&trial), [None, oilskin.clone(), oilskin.clone(), oilskin.clone()]);
    // Where he is in none, only choosing a look adds him: the other keys say so and change nothing.
    for keys in ["down x", "down c"] {
        let trial = on("1", keys);
        assert_eq!(worn(&trial), [None, None, None, Some(None)], "{keys}");
        assert!(
            trial.app.said.text.contains("in none of these scenes: `a` chooses a look"),
            "{}",
            trial.app.said.text
        );
    }
    // And where something could be carried on.
    let mut trial = on("4", "esc a enter down v down c");
    assert_eq!((trial.wears("4A", "ivo"), trial.wears("5", "ivo")), (None, None), "{}", trial.app.said.text);
    trial.keys("a enter");
    assert_eq!(trial.wears("5", "ivo"), oilskin);
    let trial = on("1", "down X");
    assert!(trial.app.said.text.contains("in none of these scenes"), "{}", trial.app.said.text);
}

#[test]
fn the_strip_numbers_a_change_as_the_plot_does() {
    // In scene 5 the character is back in a look that scene 3 had: another change, though the same look.
    let mut files = small();
    for (name, content) in &mut files {
        if name == "scenes.yaml" {
            content[4]["wears"] = serde_json::json!({"odile": "smock"});
            content[5]["wears"] = serde_json::json!({"odile": "club"});
        }
    }
    let mut trial = Trial::on(&files);
    trial.keys("3");
    trial.app.focus(&Target::Scene("5".parse().unwrap()));
    let screen = trial.screen((120, 40));
    assert!(screen.contains("Odile, change 4 ≈ Club black"), "{screen}");
}

#[test]
fn the_form_of_a_scene_says_its_number() {
    let mut trial = on_scene("4A", 0);
    trial.keys("e");
    for size in [(80, 24), (120, 40)] {
        assert!(trial.screen(size).contains("number 4A; a script"), "{}", trial.screen(size));
    }
}

#[test]
fn the_head_of_a_group_that_goes_on_says_so_and_never_passes_for_its_beginning() {
    let mut trial = Trial::demo();
    trial.keys("3");
    for order in ["", "s"] {
        trial.keys(order);
        trial.keys("home");
        let (mut continued, mut begun) = (0, 0);
        for _ in 0..numbers(&trial).len() {
            let screen = trial.screen((80, 24));
            let board = trial.app.open.board();
            let mut lines = screen.lines().skip(3);
            let head = lines.next().unwrap();
            assert!(head.starts_with(" ── "), "a head is always in view\n{screen}");
            // The first scene below it, unless another group begins there.
            let first = lines.next().unwrap().trim_start_matches(['▸', ' ']).split(' ').next().unwrap();
            if let Ok(first) = first.parse::<crate::board::SceneNumber>() {
                let rows = trial.app.scenes.order.rows(board);
                let at = board.relations().scene_at(&first).unwrap();
                let row = rows.iter().position(|row| *row == super::rows::Row::Scene(at)).unwrap();
                let begins = rows[row - 1].is_head();
                assert_eq!(!begins, head.contains(", continued"), "{screen}");
                if begins { begun += 1 } else { continued += 1 }
            }
            trial.keys("down");
        }
        assert!(begun > 5 && continued > 5, "{begun} {continued}");
    }
}

#[test]
fn everybody_is_seen_at_120_columns_and_elsewhere_it_is_said_how_many_are_not() {
    let mut trial = Trial::demo();
    trial.keys("3");
    let screen = trial.screen((120, 40));
    for character in &trial.app.board().head().characters.clone() {
        assert!(screen.contains(&character.name), "{}\n{screen}", character.name);
    }
    assert!(!screen.contains('›'), "{screen}");
    let head = |trial: &mut Trial, size| trial.screen(size).lines().nth(2).unwrap().to_owned();
    assert!(head(&mut trial, (80, 24)).ends_with("› 2 more"), "{}", head(&mut trial, (80, 24)));
    trial.keys("right right right");
    let last = head(&mut trial, (80, 24));
    assert!(!last.contains("more") && last.contains("‹ "), "{last}");
}

#[test]
fn the_scenes_stand_as_they_are_shot_and_every_one_is_reached() {
    let mut trial = Trial::demo();
    trial.app.view = Scope::Scenes;
    trial.keys("s home");
    let mut reached = vec![focus(&trial).0];
    for _ in 0..numbers(&trial).len() {
        trial.keys("down");
        reached.push(focus(&trial).0);
    }
    reached.dedup();
    assert_eq!(reached.len(), trial.app.board().scenes().len());
    assert_eq!(reached[..3], ["5", "10", "4"], "day 1 of the demo's schedule");
    trial.keys("home");
    assert_snapshot!(trial.body((120, 20)));
    trial.keys("s");
    assert_eq!(trial.app.said.text, "as they are told");
    assert_eq!(focus(&trial).0, "5", "the focus stays");
}

#[test]
fn without_a_schedule_there_is_no_shooting_order() {
    let mut files = small();
    files.retain(|(name, _)| name != "schedule.yaml");
    let mut trial = Trial::on(&files);
    trial.keys("3 s");
    assert!(trial.app.said.text.contains("no schedule yet"), "{}", trial.app.said.text);
}

#[test]
fn what_a_cut_takes_off_the_plot_is_counted_in_words() {
    for (scene, said) in
        [("2", "one look and one shooting day off"), ("5", "two looks and 0 shooting days off")]
    {
        let mut trial = on_scene(scene, 0);
        trial.keys("D");
        let screen = trial.screen((120, 40));
        assert!(screen.contains(said), "{said}\n{screen}");
    }
}
