#![allow(clippy::unwrap_used, reason = "a test")]

use insta::assert_snapshot;

use crate::board::{Board, MeetingId, Stop};
use crate::screen::actions::Scope;
use crate::screen::dates::today;
use crate::screen::trial::Trial;
use crate::screen::views::Target;

const SIZE: (u16, u16) = (120, 40);
/// So wide that no line of the minutes is broken.
const WIDE: (u16, u16) = (200, 60);

fn walk() -> Trial {
    let mut trial = Trial::demo();
    trial.keys("4 home");
    trial
}

fn stop(trial: &Trial) -> String {
    trial.app.walk.at(trial.app.open.board()).to_string()
}

fn minutes(board: &Board) -> crate::board::Meeting {
    board.meeting(&MeetingId::on(&today()).unwrap()).cloned().unwrap_or_default()
}

#[test]
fn a_period_at_120_by_40() {
    let mut trial = walk();
    trial.keys("right right");
    assert_snapshot!(trial.body(SIZE));
}

#[test]
fn a_look_at_120_by_40() {
    let mut trial = walk();
    trial.keys("tab");
    trial.app.walk.go_to(trial.app.open.board(), "look od-crossing-black".parse().unwrap());
    assert_snapshot!(trial.body(SIZE));
}

#[test]
fn a_scene_at_80_by_24() {
    let mut trial = walk();
    trial.app.walk.focus(trial.app.open.board(), &Target::Scene("27".parse().unwrap()));
    assert_snapshot!(trial.body((80, 24)));
}

#[test]
fn the_walk_goes_by_periods_from_end_to_end() {
    let mut trial = walk();
    let mut stops = vec![stop(&trial)];
    while trial.app.said.text != "this is the last stop" && stops.len() < 20 {
        trial.keys("space");
        stops.push(stop(&trial));
    }
    // The last key led nowhere.
    stops.pop();
    let periods = trial.app.board().head().periods.iter().map(|period| format!("period {}", period.id));
    assert_eq!(stops, [vec!["board".to_owned()], periods.collect()].concat());
    trial.keys("backspace");
    assert_eq!(stop(&trial), stops[stops.len() - 2]);
}

#[test]
fn turning_off_stays_as_near_as_it_can() {
    let mut trial = walk();
    trial.keys("right right tab");
    let of = |trial: &Trial| {
        let board = trial.app.open.board();
        match trial.app.walk.at(board) {
            Stop::Look(id) => board.relations().period_of_look(&id).map(ToString::to_string),
            Stop::Scene(number) => {
                let at = board.relations().scene_at(&number).unwrap();
                board.relations().period_of_scene(at).map(ToString::to_string)
            }
            Stop::Period(id) => Some(id.to_string()),
            Stop::Board => None,
        }
    };
    for turned in ["look", "scene", "period"] {
        assert!(stop(&trial).starts_with(turned), "{}", stop(&trial));
        assert_eq!(of(&trial).as_deref(), Some("sound"));
        trial.keys("tab");
    }
}

#[test]
fn what_is_recorded_stands_at_its_stop_and_goes_with_undo() {
    let mut trial = walk();
    let before = trial.app.board().records().clone();
    trial.keys("right d");
    trial.types("The smock is dyed twice");
    let over = trial.screen(SIZE);
    assert!(over.contains("1911–24") && over.contains("Decided"), "the stop stays to be seen\n{over}");
    trial.keys("down");
    trial.types("Bridie’s dyer");
    trial.keys("down");
    trial.types("1 dec 2026");
    trial.keys("enter right a");
    trial.types("Who swims for her?");
    trial.keys("enter enter enter left");
    let screen = trial.screen(WIDE);
    assert!(screen.contains("✓ The smock is dyed twice — Bridie’s dyer, by 1 Dec 2026"), "{screen}");
    assert!(!screen.contains("Who swims"), "{screen}");
    trial.keys("right");
    assert!(trial.screen(SIZE).contains("? Who swims for her?"));
    trial.keys("e");
    trial.types("a double");
    trial.keys("enter");
    let screen = trial.screen(SIZE);
    assert!(screen.contains("Answered") && screen.contains("Who swims for her? → a double"), "{screen}");
    assert_eq!(minutes(trial.app.board()).questions[0].answer, "a double");
    trial.keys("e");
    assert_eq!(trial.app.said.text, "no question is open at this stop");
    trial.keys("u u u");
    assert_eq!(trial.app.board().records(), &before);
}

#[test]
fn an_empty_record_is_refused_and_who_is_there_is_written() {
    let mut trial = walk();
    trial.keys("a enter enter enter");
    assert!(trial.screen(SIZE).contains("say what is asked"), "{}", trial.screen(SIZE));
    trial.keys("esc p down");
    trial.types("Director; Designer");
    trial.keys("enter enter");
    assert_eq!(minutes(trial.app.board()).present, ["Director", "Designer"]);
}

#[test]
fn what_was_asked_about_a_look_that_is_gone_comes_up_at_the_beginning() {
    let mut trial = walk();
    trial.app.walk.focus(trial.app.open.board(), &Target::Look("od-crossing-black".parse().unwrap()));
    trial.keys("a");
    trial.types("Is it black?");
    trial.keys("enter enter enter");
    let edit = trial.app.board().dissolve(&"od-crossing-black".parse().unwrap());
    assert!(trial.app.change(edit), "{}", trial.app.said.text);
    assert!(!stop(&trial).contains("crossing"), "{}", stop(&trial));
    trial.keys("home");
    let screen = trial.screen(WIDE);
    assert!(screen.contains("? Is it black?") && screen.contains("look od-crossing-black, gone"), "{screen}");
}

#[test]
fn the_walk_begins_where_the_focus_was_and_leads_back() {
    let mut trial = Trial::demo();
    trial.keys("2 4");
    assert!(stop(&trial).starts_with("look "), "{}", stop(&trial));
    trial.keys("w");
    assert_eq!(trial.app.view, Scope::Looks);
    let mut trial = Trial::demo();
    trial.keys("3 4");
    assert!(stop(&trial).starts_with("scene "), "{}", stop(&trial));
    trial.keys("g");
    trial.types("mole");
    trial.keys("enter");
    assert!(stop(&trial).starts_with("scene "), "{}", stop(&trial));
}

#[test]
fn a_walk_that_was_left_goes_on_at_its_stop() {
    let mut trial = walk();
    for keys in ["home", "right right", "tab", "tab right"] {
        trial.keys(keys);
        let left = stop(&trial);
        for away in ["1", "2", "3", "1 end", "2 down 3 down", "w"] {
            trial.keys(away);
            trial.keys("4");
            assert_eq!(stop(&trial), left, "left by {away}");
        }
    }
    // Where the stop has gone meanwhile, it is the one that took its place.
    let scene = stop(&trial).strip_prefix("scene ").unwrap().to_owned();
    trial.keys("3");
    let edit = trial.app.board().cut_scene(&scene.parse().unwrap());
    assert!(trial.app.change(edit));
    trial.keys("4");
    assert!(stop(&trial).starts_with("scene ") && !stop(&trial).ends_with(&format!(" {scene}")));
}

/// Asks a question at the stop on the screen.
fn asks(trial: &mut Trial, question: &str, owner: &str, due: &str) {
    trial.keys("a");
    trial.types(question);
    trial.keys("enter");
    trial.types(owner);
    trial.keys("enter");
    trial.types(due);
    trial.keys("enter");
}

#[test]
fn a_due_day_may_be_typed_without_its_year_and_is_shown_before_it_is_saved() {
    let mut trial = walk();
    trial.keys("a");
    trial.types("Who swims?");
    trial.keys("enter enter");
    let screen = trial.screen(SIZE);
    assert!(screen.contains("such as friday, 12 march"), "{screen}");
    trial.types("12.3.");
    let screen = trial.screen(SIZE);
    let shown = screen.lines().find(|line| line.contains("kept as ")).unwrap();
    assert!(shown.contains("-03-12, ") && shown.contains("day 12 Mar "), "{shown}");
    trial.keys("enter");
    let due = minutes(trial.app.board()).questions[0].due.clone().unwrap();
    assert!(due.to_string().ends_with("-03-12") && due.latest() >= today().latest(), "{due}");
    assert!(shown.contains(&due.to_string()), "{shown}");
}

#[test]
fn a_question_that_is_past_due_says_so_until_it_is_answered() {
    let mut trial = walk();
    trial.keys("right");
    asks(&mut trial, "Is the jersey there?", "Dyer", "1 dec 2001");
    asks(&mut trial, "Who swims?", "", "1 dec 2999");
    let screen = trial.screen(WIDE);
    assert!(screen.contains("! Is the jersey there? — Dyer, past due since 1 Dec 2001"), "{screen}");
    assert!(screen.contains("? Who swims? — by 1 Dec 2999"), "{screen}");
    trial.keys("g");
    assert!(trial.screen(WIDE).contains("2 open questions, 1 past due"), "{}", trial.screen(WIDE));
    trial.keys("esc home");
    assert!(trial.screen(WIDE).contains("2 open questions, 1 past due"), "{}", trial.screen(WIDE));
    trial.keys("right e enter");
    trial.types("it is");
    trial.keys("enter");
    let screen = trial.screen(WIDE);
    assert!(!screen.contains("past due"), "{screen}");
    let said = format!("Is the jersey there? → it is — Dyer, by 1 Dec 2001 ({})", today());
    assert!(screen.contains(&said), "owner, due day and meeting stay\n{screen}");
}

#[test]
fn whoever_walks_by_periods_passes_the_questions_of_scenes_and_looks_and_can_answer_them() {
    let mut trial = walk();
    for (at, question, due) in
        [("look od-crossing-black", "Is it black?", ""), ("scene 27", "Who swims?", "1 dec 2001")]
    {
        let target = match at.parse().unwrap() {
            Stop::Look(id) => Target::Look(id),
            Stop::Scene(number) => Target::Scene(number),
            other => panic!("{other}"),
        };
        trial.app.walk.focus(trial.app.open.board(), &target);
        asks(&mut trial, question, "", due);
        let own = trial.screen(WIDE);
        assert!(own.contains(question) && !own.contains(&format!("{at}: ")) && !own.contains("”: "), "{own}");
    }
    // From the scene to its period, which is the look's as well.
    trial.keys("tab");
    assert_eq!(stop(&trial), "period sound");
    let screen = trial.screen(WIDE);
    assert!(screen.contains("! scene 27: Who swims? — past due since 1 Dec 2001"), "{screen}");
    assert!(screen.contains("? look “The crossing black”: Is it black?"), "{screen}");
    trial.keys("g");
    let jump = trial.screen(WIDE);
    let counted = jump.lines().filter(|line| line.contains("2 open questions, 1 past due")).count();
    assert_eq!(counted, 1, "in the list of stops at the period alone\n{jump}");
    trial.keys("esc e");
    let which = trial.screen(WIDE);
    let choice = which
        .lines()
        .position(|line| line.contains("scene 27: Who swims?") && line.contains(&today().to_string()));
    assert!(choice.is_some(), "{which}");
    trial.types("swims");
    trial.keys("enter");
    trial.types("a double");
    trial.keys("enter");
    let screen = trial.screen(WIDE);
    assert!(!screen.contains("Who swims?") && screen.contains("Is it black?"), "{screen}");
    let answered = minutes(trial.app.board()).questions;
    assert_eq!(answered.iter().map(|one| &*one.answer).collect::<Vec<_>>(), ["", "a double"]);
    assert_eq!(answered[1].at, "scene 27".parse().unwrap());
}

#[test]
fn the_list_of_stops_counts_a_question_where_it_comes_up() {
    let mut trial = walk();
    let crossing = Target::Look("od-crossing-black".parse().unwrap());
    trial.app.walk.focus(trial.app.open.board(), &crossing);
    asks(&mut trial, "Is it black?", "", "");
    let counted = |trial: &mut Trial| {
        trial.keys("g");
        let screen = trial.screen(WIDE);
        trial.keys("esc");
        screen.lines().find(|line| line.contains("1 open question")).map(str::to_owned)
    };
    assert!(counted(&mut trial).is_some());
    let edit = trial.app.board().dissolve(&"od-crossing-black".parse().unwrap());
    assert!(trial.app.change(edit), "{}", trial.app.said.text);
    trial.keys("home");
    assert!(counted(&mut trial).unwrap().contains("The whole board"));
}

#[test]
fn nothing_panics_at_any_size_on_any_way() {
    let mut trial = walk();
    for way in 0..3 {
        for size in [(40, 12), (41, 13), (80, 24), (110, 24), (120, 40), (200, 60), (300, 20)] {
            trial.keys("home right right down down");
            assert!(trial.screen(size).contains("walk by "), "{way} {size:?}");
        }
        trial.keys("home tab");
    }
}

#[test]
fn an_answer_to_a_question_that_another_hand_has_changed_is_put_as_a_choice() {
    let of = |question: &str, answer: &str| serde_json::json!({"question": question, "answer": answer});
    let rows = of("Who rows?", "");
    for theirs in [
        serde_json::json!([of("Who swims for her, and when?", ""), rows]),
        serde_json::json!([of("Who swims for her?", "nobody"), rows]),
        serde_json::json!([rows]),
    ] {
        // Whether it changes while the form is open, or already while it is asked which question is meant.
        for changes in ["the form", "the list"] {
            let mut trial = walk();
            asks(&mut trial, "Who swims for her?", "", "");
            asks(&mut trial, "Who rows?", "", "");
            let name = format!("meetings/{}.yaml", MeetingId::on(&today()).unwrap());
            trial.keys("e");
            if changes == "the form" {
                trial.keys("enter");
            }
            trial.writes(&name, &serde_json::json!({"questions": theirs}));
            if changes == "the list" {
                trial.keys("enter");
            }
            trial.types("a double");
            trial.keys("enter");
            let screen = trial.screen(WIDE);
            assert!(screen.contains("Changed on both sides"), "{changes}: {}\n{screen}", trial.app.said.text);
            assert!(screen.contains("a double"), "what was typed is not lost\n{screen}");
            trial.keys("down enter");
            let there = minutes(trial.app.board()).questions;
            let answered = there.iter().find(|one| one.question == "Who swims for her?");
            assert_eq!(answered.map(|one| one.answer.as_str()), Some("a double"), "{there:?}");
        }
    }
}
