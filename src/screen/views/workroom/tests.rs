#![allow(clippy::unwrap_used, reason = "a test")]

use insta::assert_snapshot;
use serde_json::{Value, json};

use crate::board::{Rule, Verdict};
use crate::screen::actions::Scope;
use crate::screen::trial::{Trial, draws_inside, small};
use crate::screen::views::Target;
use crate::trade::body::BodyMeasure;
use crate::trade::length::Unit;

/// The small board with a workroom: two bodies and a double, a look that is measured and cut, and a wet scene.
fn files() -> Vec<(String, Value)> {
    let mut files = small();
    let mut over = |name: &str, more: Value| {
        let (_, file) = files.iter_mut().find(|(have, _)| have == name).unwrap();
        file.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    };
    over("outfits/club-wool.yaml", json!({"measured": {"costume": {"bust": "84 cm", "leg": "20 cm"}}}));
    over(
        "looks/club.yaml",
        json!({
            "make": {
                "costume": {
                    "measures": [
                        {"measure": "bust", "rule": "ease", "of": "bust-girth"},
                        {"measure": "leg", "rule": "ratio", "of": "inside-leg-length"},
                        {"measure": "collar", "rule": "landmark", "of": "neck-length", "fraction": "60 %", "angle": 70},
                        {"measure": "hip", "rule": "ease", "of": "hip-girth", "original": "91 cm", "eased": "-2 cm"},
                        {"measure": "braid", "rule": "same", "original": "1/2 in"},
                    ],
                    "versions": [
                        {"version": "standing", "copies": {"tamsin": 2}},
                        {
                            "version": "wet", "rigs": ["tie at the shoulder"], "copies": {"tamsin": 3},
                            "adds": [{"to": "bust", "pad": "2 cm", "arc": 180}],
                        },
                    ],
                    "cuts": [{"cloth": "jersey", "lay": "1.8 m"}],
                    "hours": {"sewing": "6:30"},
                    "costs": [{"cost": "buttons", "each": "1.25"}],
                },
            },
            "fittings": [{"on": "2027-03-02", "found": [{"piece": "costume", "measure": "bust", "decided": "88 cm"}]}],
        }),
    );
    over(
        "board.yaml",
        json!({
            "workroom": {"currency": "crowns", "money": "900", "rates": {"sewing": "30"}},
            "characters": [
                {
                    "id": "odile", "name": "Odile", "performer": "Tamsin Orrell",
                    "bodies": [
                        {
                            "id": "swimmer", "who": "the swimmer herself", "is": "original",
                            "measures": {"bust-girth": "91 cm", "inside-leg-length": "74 cm", "neck-length": "8 cm"},
                        },
                        {
                            "id": "tamsin", "who": "Tamsin Orrell", "is": "performer",
                            "measures": {"bust-girth": "96 cm", "inside-leg-length": "80 cm", "neck-length": "10 cm"},
                        },
                        {"id": "rua", "who": "Rua Venn", "is": "double", "measures": {"bust-girth": "93 cm"}},
                    ],
                },
                {"id": "bridie", "name": "Bridie"},
                {"id": "ivo", "name": "Ivo"},
            ],
        }),
    );
    let wet = json!([{"action": "swim", "takes": 4}, {"action": "dive", "by": "rua"}]);
    let (_, scenes) = files.iter_mut().find(|(name, _)| name == "scenes.yaml").unwrap();
    scenes[1]["does"] = json!({"odile": wet});
    let (_, schedule) = files.iter_mut().find(|(name, _)| name == "schedule.yaml").unwrap();
    *schedule = json!([
        {"day": 1, "date": "2027-04-05", "scenes": [2]}, {"day": 2, "date": "2027-04-06", "scenes": [3]},
        {"day": 3, "date": "2027-04-12", "scenes": [1]},
    ]);
    files.push((
        "cloths/jersey.yaml".to_owned(),
        json!({
            "title": "Worsted jersey", "fibres": ["wool"], "weave": "rib", "width": "150 cm", "price": "18.40",
            "weight": "340 g/m²", "colour": "#1d1f24", "source-colour": "#15161a", "lead-days": 20, "stock": "2 m",
            "trials": [
                {"trial": 1, "weight": "280 g/m²", "verdict": "too-light", "notes": "clings when it is wet"},
                {"trial": 2, "weight": "420 g/m²", "verdict": "too-heavy"},
            ],
        }),
    ));
    files.push((
        "practice.yaml".to_owned(),
        json!({
            "turnaround": {"wet": 2, "soil": 1}, "spares": {"principal": 2}, "making-days": 12,
            "actions": [
                {"action": "swim", "says": "swims", "version": "wet", "does": "wet", "fresh": true, "pieces": ["costume"]},
                {"action": "dive", "says": "dives", "version": "wet", "does": "wet", "pieces": ["costume"]},
            ],
            "cautions": [{
                "caution": "wet-wool", "actions": ["swim"], "fibres": ["wool"],
                "says": "wool doubles its weight in water", "ask": "how long she may be in it, and who warms her",
                "of": "the safety lead",
            }],
        }),
    ));
    files
}

/// A trial in the workroom, in the list, on the look that is measured.
fn workroom() -> Trial {
    let mut trial = Trial::on(&files());
    trial.app.view = Scope::Workroom;
    trial.app.focus(&Target::Look("club".parse().unwrap()));
    trial
}

/// The same, on the page so many tabs on.
fn on_page(tabs: usize) -> Trial {
    let mut trial = workroom();
    trial.keys("tab");
    for _ in 0..tabs {
        trial.keys("tab");
    }
    trial
}

/// The same, on the cell of a measure, counted from 0, and of a column, counted from 0.
fn on_cell(row: usize, column: usize) -> Trial {
    let mut trial = on_page(0);
    trial.keys(&"down ".repeat(row));
    trial.keys(&"right ".repeat(column));
    trial.screen((120, 40));
    trial
}

const WEARER: usize = 4;

fn body(trial: &Trial, id: &str, of: BodyMeasure) -> Option<String> {
    let id = id.parse().unwrap();
    let (_, body) = trial.app.board().body(&id)?;
    body.measures.get(&of).map(|size| size.length().to_string())
}

#[test]
fn the_list_at_80_by_24() {
    assert_snapshot!(workroom().body((80, 24)));
}

#[test]
fn the_measures_at_80_by_24() {
    assert_snapshot!(on_page(0).body((80, 24)));
}

#[test]
fn the_measures_at_120_by_40() {
    assert_snapshot!(on_cell(0, WEARER).body((120, 40)));
}

#[test]
fn the_copies_at_80_by_24() {
    let mut trial = on_page(1);
    trial.keys("down");
    assert_snapshot!(trial.body((80, 24)));
}

#[test]
fn the_copies_at_120_by_40() {
    let mut trial = on_page(1);
    trial.keys("down right");
    assert_snapshot!(trial.body((120, 40)));
}

#[test]
fn the_cloth_at_80_by_24() {
    assert_snapshot!(on_page(2).body((80, 24)));
}

#[test]
fn the_cost_at_80_by_24() {
    assert_snapshot!(on_page(3).body((80, 24)));
}

#[test]
fn the_cautions_at_80_by_24() {
    assert_snapshot!(on_page(4).body((80, 24)));
}

#[test]
fn all_pages_at_200_by_60() {
    assert_snapshot!(on_page(1).body((200, 60)));
}

#[test]
fn the_smallest_screen_shows_the_tabs_and_the_cell_in_focus() {
    assert_snapshot!(on_cell(2, WEARER).body((40, 12)));
}

#[test]
fn a_body_measure_is_written_in_its_cell_and_taken_back() {
    let mut trial = on_cell(0, WEARER);
    trial.keys("enter");
    trial.retypes("98.5");
    assert!(trial.screen((120, 40)).contains("→ 98.5 cm, 38 3/4 in"), "{}", trial.screen((120, 40)));
    trial.keys("enter");
    assert_eq!(body(&trial, "tamsin", BodyMeasure::BustGirth).as_deref(), Some("98.5 cm"));
    assert!(trial.app.layers.is_empty());
    trial.keys("u");
    assert_eq!(body(&trial, "tamsin", BodyMeasure::BustGirth).as_deref(), Some("96 cm"));
}

#[test]
fn inches_are_typed_whatever_the_unit_of_the_board_and_shown_in_it() {
    let mut trial = on_cell(0, WEARER);
    trial.keys("enter");
    trial.retypes("37 3/8 in");
    trial.keys("enter");
    assert_eq!(body(&trial, "tamsin", BodyMeasure::BustGirth).as_deref(), Some("37 3/8 in"));
    assert!(trial.screen((120, 40)).contains("94.9"));
    trial.keys("i");
    assert_eq!(trial.app.board().head().units, Unit::Inches);
    assert!(trial.screen((120, 40)).contains("37 3/8"), "{}", trial.screen((120, 40)));
    // A bare number is in the board's unit now.
    trial.keys("enter");
    trial.retypes("36 1/2");
    trial.keys("enter");
    assert_eq!(body(&trial, "tamsin", BodyMeasure::BustGirth).as_deref(), Some("36 1/2 in"));
}

#[test]
fn what_does_not_read_says_why_under_the_cell_and_is_not_lost() {
    let mut trial = on_cell(0, WEARER);
    trial.keys("enter");
    trial.retypes("98 ells");
    trial.keys("enter");
    let screen = trial.screen((120, 40));
    assert!(screen.contains("`98 ells` is no length") && screen.contains("98 ells  "), "{screen}");
    assert_eq!(trial.app.layers.len(), 1);
    trial.keys("backspace backspace backspace backspace");
    trial.types("cm");
    trial.keys("enter");
    assert_eq!(body(&trial, "tamsin", BodyMeasure::BustGirth).as_deref(), Some("98 cm"));
}

#[test]
fn a_doubtful_measure_is_doubted_while_it_is_written() {
    let mut trial = on_cell(3, WEARER);
    trial.keys("enter");
    trial.types("38");
    assert!(trial.screen((120, 40)).contains("was cm written for in?"), "{}", trial.screen((120, 40)));
    trial.keys("enter");
    assert_eq!(body(&trial, "tamsin", BodyMeasure::HipGirth).as_deref(), Some("38 cm"));
    assert!(trial.screen((120, 40)).contains("38!"));
}

#[test]
fn what_was_not_touched_stays_exactly_as_it_was() {
    let mut trial = on_cell(4, 2);
    trial.keys("enter enter");
    assert_eq!(
        trial.look("club").make.iter().next().unwrap().1.measures[4].original,
        Some("1/2 in".parse().unwrap())
    );
    assert!(trial.app.open.undo_labels().next().is_none());
}

#[test]
fn a_garment_of_the_original_is_measured_on_the_base_outfit_and_its_body_on_the_board() {
    let mut trial = on_cell(1, 2);
    trial.keys("enter");
    trial.retypes("21");
    trial.keys("enter right enter");
    trial.retypes("75");
    trial.keys("enter");
    let board = trial.app.board();
    let measured = &board.outfit(&"club-wool".parse().unwrap()).unwrap().measured;
    let leg = measured.get(&"costume".to_owned()).unwrap().get(&"leg".to_owned()).unwrap();
    assert_eq!(leg.length().to_string(), "21 cm");
    assert_eq!(body(&trial, "swimmer", BodyMeasure::InsideLegLength).as_deref(), Some("75 cm"));
    assert_eq!(body(&trial, "swimmer", BodyMeasure::BustGirth).as_deref(), Some("91 cm"));
}

#[test]
fn an_original_whose_body_is_not_known_comes_to_be() {
    let mut files = files();
    let (_, head) = files.iter_mut().find(|(name, _)| name == "board.yaml").unwrap();
    head["characters"][0]["bodies"].as_array_mut().unwrap().remove(0);
    let mut trial = Trial::on(&files);
    trial.app.view = Scope::Workroom;
    trial.app.focus(&Target::Look("club".parse().unwrap()));
    trial.keys("tab right right right");
    trial.screen((120, 40));
    trial.keys("enter");
    trial.types("91 cm");
    trial.keys("enter");
    assert_eq!(body(&trial, "original-odile", BodyMeasure::BustGirth).as_deref(), Some("91 cm"));
}

#[test]
fn a_fitting_of_today_decides_and_the_table_shows_it() {
    let mut trial = on_cell(1, 7);
    trial.keys("enter");
    trial.types("22");
    trial.keys("down");
    trial.types("-1/2 in");
    trial.keys("down");
    trial.types("20.5 cm");
    trial.keys("enter");
    let fittings = &trial.look("club").fittings;
    assert_eq!(fittings.len(), 2, "not the one of March");
    let found = &fittings[1].found[0];
    assert_eq!(found.pinned.map(|pinned| pinned.to_string()).as_deref(), Some("-1/2 in"));
    assert!(trial.screen((120, 40)).contains("20.5"));
    // The same day's fitting of another measure is the same fitting.
    trial.keys("down f down down");
    trial.types("7");
    trial.keys("enter");
    assert_eq!((trial.look("club").fittings.len(), trial.look("club").fittings[1].found.len()), (2, 2));
}

#[test]
fn a_rule_and_its_numbers_are_changed() {
    let mut trial = on_cell(0, 1);
    trial.keys("enter right right down");
    trial.retypes("bust");
    trial.keys("enter");
    assert!(trial.screen((120, 40)).contains("`bust` is no body measure"));
    trial.retypes("bust girth");
    trial.keys("down down down");
    trial.types("70");
    trial.keys("enter");
    let measures = &trial.look("club").make.iter().next().unwrap().1.measures;
    assert!(matches!(measures[0].rule, Rule::Landmark { of: BodyMeasure::BustGirth, fraction: None, .. }));
    trial.keys("u");
    let measures = &trial.look("club").make.iter().next().unwrap().1.measures;
    assert!(matches!(measures[0].rule, Rule::Ease { .. }));
}

#[test]
fn a_measure_is_added_with_what_the_original_measured_and_taken_away() {
    let mut trial = on_page(0);
    trial.keys("a");
    trial.types("waist");
    trial.keys("down down");
    trial.types("waist girth");
    trial.keys("down down down down");
    trial.types("28 in");
    trial.keys("enter");
    let make = |trial: &Trial| trial.look("club").make.get(&"costume".to_owned()).unwrap().measures.len();
    assert_eq!(make(&trial), 6);
    let base = trial.app.board().outfit(&"club-wool".parse().unwrap()).unwrap();
    assert_eq!(base.measured.get(&"costume".to_owned()).unwrap().len(), 3);
    trial.keys("end x");
    assert_eq!(make(&trial), 5);
    trial.keys("u u");
    assert_eq!((make(&trial), trial.app.open.undo_labels().count()), (5, 0));
}

#[test]
fn pieces_versions_and_wearers_are_stepped_through() {
    let mut trial = on_page(0);
    trial.keys("v w");
    let screen = trial.screen((120, 40));
    assert!(
        screen.contains("costume · wet · Rua Venn") && screen.contains("rigs: tie at the shoulder"),
        "{screen}"
    );
    trial.keys("p");
    assert!(trial.screen((120, 40)).contains("cap · standing"), "{}", trial.screen((120, 40)));
    trial.keys("p");
    assert!(trial.screen((120, 40)).contains("costume · wet · Rua Venn"), "what was chosen is chosen again");
}

#[test]
fn what_a_number_is_made_of_can_be_read() {
    let mut trial = on_cell(0, 8);
    trial.keys("v enter");
    let screen = trial.screen((120, 40));
    for said in ["Round the body, level", "pad 2 cm over 180°: + 6.3 cm", "decided 88 cm"] {
        assert!(screen.contains(said), "{said}\n{screen}");
    }
}

#[test]
fn copies_are_planned_up_and_down_and_as_needed() {
    let mut trial = on_page(1);
    let planned = |trial: &Trial| {
        let make = trial.look("club").make.get(&"costume".to_owned()).unwrap();
        make.versions[1].copies.get(&"tamsin".parse().unwrap()).copied()
    };
    trial.keys("v");
    assert!(trial.screen((80, 24)).contains("1 short"), "{}", trial.screen((80, 24)));
    trial.keys("+ + -");
    assert_eq!(planned(&trial), Some(4));
    assert!(trial.app.said.text.contains("4 copies planned"));
    trial.keys("- - c");
    assert_eq!(planned(&trial), Some(4), "four takes, each in a fresh one");
    trial.keys("u u u u u u");
    assert_eq!(planned(&trial), Some(3));
}

#[test]
fn what_is_longer_than_the_window_is_gone_through_before_the_next() {
    let mut trial = on_page(1);
    trial.keys("down");
    let first = trial.screen((80, 12));
    assert!(first.contains("▸") && !first.contains("copy 4!"), "{first}");
    let mut steps = 0;
    while !trial.screen((80, 12)).contains("copy 4!") {
        trial.keys("down");
        steps += 1;
        assert!(steps < 9, "{}", trial.screen((80, 12)));
    }
    trial.keys("down down down down");
    let screen = trial.screen((80, 24));
    let cap = screen.find("\n  cap").unwrap();
    assert!(screen[cap..].contains("▸   standing · "), "{screen}");
}

#[test]
fn the_day_in_focus_says_what_is_where() {
    let mut trial = on_page(1);
    trial.keys("v right");
    let screen = trial.screen((120, 40));
    assert!(screen.contains("day 2, 6 Apr 2027: 4 away"), "{screen}");
    trial.keys("right right right");
    assert!(trial.screen((120, 40)).contains("day 3, 12 Apr 2027: 4 ready"));
    trial.keys("left left left left");
    assert!(!trial.app.workroom.inside, "left of the first day is the list");
}

#[test]
fn a_schedule_over_centuries_is_drawn_by_its_shooting_days() {
    let mut files = files();
    let (_, schedule) = files.iter_mut().find(|(name, _)| name == "schedule.yaml").unwrap();
    schedule[0]["date"] = json!("0001-01-01");
    schedule[2]["date"] = json!("9999-12-31");
    let mut trial = Trial::on(&files);
    trial.app.view = Scope::Workroom;
    trial.app.focus(&Target::Look("club".parse().unwrap()));
    trial.keys("tab tab v");
    let screen = trial.screen((120, 40));
    assert!(screen.contains("copy 1") && screen.contains("■"), "{screen}");
}

#[test]
fn a_trial_is_noted_and_says_what_to_try_next() {
    let mut trial = on_page(2);
    assert!(trial.screen((80, 40)).contains("try 350 g/m² next"));
    trial.keys("t");
    trial.types("heavy");
    trial.keys("enter");
    assert!(trial.screen((80, 40)).contains("`heavy` is no weight of cloth"), "{}", trial.screen((80, 40)));
    trial.retypes("350 g/m²");
    trial.keys("down right right right down");
    trial.types("falls as it should");
    trial.keys("enter");
    let trials = &trial.app.board().cloth(&"jersey".parse().unwrap()).unwrap().trials;
    assert_eq!((trials.len(), trials[2].verdict, trials[2].on.is_some()), (3, Verdict::Right, true));
    assert!(trial.screen((80, 40)).contains("right at 350 g/m²"));
}

#[test]
fn a_cloth_is_changed_where_it_is_bought() {
    let mut trial = on_page(2);
    trial.keys("enter down down");
    trial.retypes("20.50");
    trial.keys("enter");
    let cloth = trial.app.board().cloth(&"jersey".parse().unwrap()).unwrap();
    assert_eq!(cloth.price.map(|price| price.to_string()).as_deref(), Some("20.50"));
    assert_eq!(cloth.stock.map(|stock| stock.to_string()).as_deref(), Some("200 cm"));
}

#[test]
fn the_money_stands_beside_the_counter_and_never_in_its_place() {
    let mut trial = workroom();
    let row = |trial: &mut Trial, size| trial.screen(size).lines().nth(1).unwrap().to_owned();
    let wide = row(&mut trial, (200, 60));
    assert!(wide.contains("1\u{a0}606+ of 900, ! 706+ crowns over"), "{wide}");
    trial.app.view = Scope::Looks;
    for wide in [40, 60, 80, 100, 120] {
        let row = row(&mut trial, (wide, 24));
        assert!(row.starts_with("Looks") || row.starts_with("Loo"), "{row}");
        assert!(row.contains("5/6"), "{row}");
    }
    let mut without = Trial::small();
    assert!(!without.screen((200, 60)).contains("crowns"));
}

#[test]
fn the_way_from_the_looks_and_back() {
    let mut trial = Trial::on(&files());
    trial.app.view = Scope::Looks;
    trial.keys("down W");
    assert_eq!((trial.app.view, trial.app.workroom.inside), (Scope::Workroom, true));
    assert_eq!(trial.app.focused(), Some(Target::Look("club".parse().unwrap())));
    trial.keys("] W");
    assert_eq!(trial.app.view, Scope::Looks);
    assert_eq!(trial.app.focused(), Some(Target::Look("swim".parse().unwrap())));
    trial.keys("5 esc up");
    assert_eq!(trial.app.focused(), Some(Target::Look("club".parse().unwrap())));
}

#[test]
fn a_board_without_a_workroom_says_what_to_do_first() {
    let mut trial = Trial::small();
    trial.app.view = Scope::Workroom;
    trial.keys("tab");
    assert_snapshot!(trial.body((80, 24)));
    trial.keys("tab + tab t tab tab enter o x i");
    trial.app.focus(&Target::Look("swim".parse().unwrap()));
    for _ in 0..5 {
        trial.keys("tab o");
        assert!(trial.app.layers.is_empty());
        assert!(!trial.screen((120, 40)).is_empty());
    }
}

#[test]
fn clicks_go_to_pages_rows_and_cells() {
    let mut trial = on_page(0);
    trial.clicks((120, 40), "collar");
    trial.clicks((120, 40), "collar");
    assert_eq!(trial.app.layers.len(), 1, "what it is made of");
    trial.keys("esc");
    trial.clicks((80, 24), "cost ");
    assert!(trial.screen((80, 24)).contains("sewing 2 × 6.5 h, at 30.00"));
    trial.clicks((120, 40), "Night swim");
    assert_eq!(trial.app.focused(), Some(Target::Look("swim".parse().unwrap())));
}

#[test]
fn nothing_is_drawn_outside_whatever_the_size() {
    let mut trial = on_page(0);
    trial.app.reckon();
    for tab in 0..5 {
        for size in
            [(0, 0), (1, 1), (15, 3), (16, 1), (20, 4), (40, 9), (79, 20), (104, 7), (120, 36), (198, 56)]
        {
            let app = &mut trial.app;
            let (board, reckoned) = (app.open.board(), app.reckoning.get().unwrap());
            draws_inside(size, |canvas, area| app.workroom.draw(board, app.version, reckoned, canvas, area));
        }
        trial.keys("tab");
        assert!(tab < 5);
    }
}
