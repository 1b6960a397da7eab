use serde_json::{Value, json};

use super::*;
use crate::board::told;

fn practice() -> Value {
    json!({
        "turnaround": {"soil": 1, "wet": 2, "strain": 1},
        "spares": {"principal": 2, "for-destroyed": 4},
        "actions": [
            {"action": "sit", "version": "seated", "pieces": ["trousers"], "does": "nothing"},
            {"action": "kneel", "version": "floor", "pieces": ["trousers"], "does": "strain"},
            {"action": "from-behind", "version": "behind", "pieces": ["trousers"], "does": "nothing"},
            {"action": "swim", "version": "wet", "does": "wet"},
            {"action": "grease", "does": "soil", "fresh": true},
            {"action": "plunge", "version": "wet", "does": "wet", "fresh": true},
            {"action": "burn", "version": "burnt", "does": "destroy", "fresh": true},
        ],
    })
}

fn board(looks: Value, scenes: Value, schedule: Value) -> Board {
    let bodies = json!([
        {"id": "kim", "who": "Kim", "is": "performer"}, {"id": "lee", "who": "Lee", "is": "double"},
    ]);
    told::board(json!({
        "head": {"characters": [
            {"id": "ada", "name": "Ada", "bodies": bodies}, {"id": "ben", "name": "Ben", "principal": false},
        ]},
        "looks": looks, "scenes": scenes, "schedule": schedule, "practice": practice(),
    }))
}

/// `piece/version/wearer: copies`, in order.
fn said(plan: &Plan) -> Vec<String> {
    let one = |demand: &Demand| {
        let Garment { piece, version, wearer, .. } = &demand.garment;
        format!("{piece}/{version}/{wearer}: {}", demand.copies())
    };
    plan.demands.iter().map(one).collect()
}

fn suit() -> Value {
    json!({"suit": {"treatment": "invent", "pieces": [{"name": "jacket"}, {"name": "Linen trousers"}]}})
}

#[test]
fn trousers_that_stand_sit_kneel_and_are_seen_from_behind_are_four_versions() {
    // Common practice, no source: a version for each thing that one cut cannot do.
    let scene = |number: u32, action: Option<&str>| {
        let does = action.map(|action| json!({"ada": [{"action": action}]})).unwrap_or(json!({}));
        json!({"scene": number, "wears": {"ada": "suit"}, "does": does})
    };
    let scenes = json!([
        scene(1, None),
        scene(2, Some("sit")),
        scene(3, Some("kneel")),
        scene(4, Some("from-behind")),
    ]);
    let plan = Plan::of(&board(suit(), scenes, json!([{"day": 1, "scenes": [1, 2, 3, 4]}])));
    assert_eq!(
        said(&plan),
        [
            "jacket/standing/kim: 2",
            "Linen trousers/standing/kim: 2",
            "Linen trousers/behind/kim: 2",
            "Linen trousers/floor/kim: 2",
            "Linen trousers/seated/kim: 2",
        ]
    );
    assert!(plan.demands[0].is_there && plan.demands[1].is_there);
    assert!(plan.demands[2..].iter().all(|demand| !demand.is_there), "nobody has planned them yet");
}

#[test]
fn the_seated_trousers_are_longer_in_the_leg_and_those_for_the_floor_wider_at_the_knee_by_the_pad() {
    // Common practice, no source.
    let looks = json!({"suit": {
        "treatment": "invent", "pieces": [{"name": "trousers"}],
        "make": {"trousers": {
            "measures": [
                {"measure": "leg", "rule": "same", "original": "80 cm"},
                {"measure": "knee", "rule": "same", "original": "46 cm"},
            ],
            "versions": [
                {"version": "seated", "adds": [{"to": "leg", "rise": "4 cm"}]},
                {"version": "floor", "adds": [{"to": "knee", "pad": "2 cm", "arc": 180}]},
                {"version": "behind"},
            ],
        }},
    }});
    let board = board(looks, json!([]), json!([]));
    let look = board.look(&"suit".parse().unwrap()).unwrap();
    let cut = |version: &str| -> Vec<String> {
        let version: VersionId = version.parse().unwrap();
        let rows =
            crate::workroom::fit::rows(&board, look, "trousers", Some(&version), &"kim".parse().unwrap());
        rows.iter().map(|row| row.result().unwrap().to_string()).collect()
    };
    assert_eq!(cut("standing"), ["80 cm", "46 cm"]);
    assert_eq!(cut("seated"), ["84 cm", "46 cm"]);
    // Half a turn over 2 cm: π × 2 cm.
    assert_eq!(cut("floor"), ["80 cm", "522.83 mm"]);
    assert_eq!(cut("behind"), cut("standing"));
}

#[test]
fn there_are_two_of_anything_a_principal_wears_and_of_nothing_else() {
    let looks = json!({
        "a": {"treatment": "invent", "pieces": [{"name": "hat"}]},
        "b": {"treatment": "invent", "character": "ben", "pieces": [{"name": "hat"}]},
    });
    let scenes = json!([{"scene": 1, "wears": {"ada": "a", "ben": "b"}}]);
    let plan = Plan::of(&board(looks, scenes, json!([{"day": 1, "scenes": [1]}])));
    assert_eq!(said(&plan), ["hat/standing/kim: 2", "hat/standing/ben: 1"]);
    assert_eq!(
        plan.demands[0].reasons(),
        [Reason::OutAtOnce(vec![0]), Reason::Principal(2)],
        "one does, but there are two"
    );
    assert_eq!(plan.demands[1].reasons(), [Reason::OutAtOnce(vec![0])]);
}

#[test]
fn a_double_has_copies_in_their_own_size_and_the_principal_theirs() {
    let looks = json!({"wool": {
        "treatment": "invent", "pieces": [{"name": "costume"}],
        "make": {"costume": {"versions": [{"version": "wet", "copies": {"kim": 1, "lee": 3}}]}},
    }});
    let scenes = json!([
        {"scene": 1, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "plunge", "by": "lee", "takes": 4}]}},
        {"scene": 2, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "swim"}]}},
    ]);
    let plan = Plan::of(&board(looks, scenes, json!([{"day": 1, "scenes": [1, 2]}])));
    assert_eq!(
        said(&plan),
        ["costume/standing/kim: 2", "costume/wet/kim: 2", "costume/wet/lee: 4"],
        "in scene 1 the principal is seen dry"
    );
    let planned: Vec<_> = plan.demands.iter().map(|demand| demand.planned).collect();
    assert_eq!(planned, [None, Some(1), Some(3)]);
}

#[test]
fn a_double_is_dressed_in_all_of_the_look_but_where_the_scene_names_pieces() {
    let doubled = |pieces: Value| {
        let does = json!({"ada": [{"action": "kneel", "by": "lee", "pieces": pieces}]});
        let scenes = json!([{"scene": 1, "wears": {"ada": "suit"}, "does": does}]);
        let plan = Plan::of(&board(suit(), scenes, json!([{"day": 1, "scenes": [1]}])));
        said(&plan).into_iter().filter(|said| said.contains("lee")).collect::<Vec<_>>()
    };
    assert_eq!(doubled(json!([])), ["jacket/standing/lee: 1", "Linen trousers/floor/lee: 1"]);
    assert_eq!(doubled(json!(["trousers"])), ["Linen trousers/floor/lee: 1"]);
}

#[test]
fn turnarounds_count_the_days_of_the_calendar_where_there_are_dates() {
    let looks = || {
        json!({"wool": {
            "treatment": "invent", "pieces": [{"name": "costume"}],
            "make": {"costume": {"versions": [{"version": "wet"}]}},
        }})
    };
    let scenes = || {
        json!([
            {"scene": 1, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "plunge", "takes": 3}]}},
            {"scene": 2, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "plunge", "takes": 2}]}},
        ])
    };
    let copies = |schedule: Value| Plan::of(&board(looks(), scenes(), schedule)).demands[0].copies();
    let friday_and_monday = json!([
        {"day": 1, "date": "2027-07-09", "scenes": [1]}, {"day": 2, "date": "2027-07-12", "scenes": [2]},
    ]);
    assert_eq!(copies(friday_and_monday), 3, "they dry over the weekend");
    assert_eq!(copies(json!([{"day": 1, "scenes": [1]}, {"day": 2, "scenes": [2]}])), 5);
    let turned = json!([
        {"day": 1, "date": "2027-07-12", "scenes": [2]}, {"day": 2, "date": "2027-07-09", "scenes": [1]},
    ]);
    assert_eq!(copies(turned), 3, "a schedule may list its days in any order");
}

#[test]
fn what_is_burnt_has_its_spares_and_what_no_day_has_is_reckoned_with() {
    let looks = json!({"wool": {
        "treatment": "invent", "pieces": [{"name": "coat"}],
        "make": {"coat": {"versions": [{"version": "burnt", "copies": {"kim": 2}}]}},
    }});
    let burn = |number: u32, takes: u32| json!({"scene": number, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "burn", "takes": takes}]}});
    let scenes = json!([burn(1, 2), burn(2, 3), burn(3, 7)]);
    let plan = Plan::of(&board(looks, scenes, json!([{"day": 1, "scenes": [1, 2]}])));
    let demand = &plan.demands[0];
    assert_eq!((demand.need.copies, demand.unplaced.len(), demand.spares), (5, 1, 3));
    assert_eq!((demand.copies(), demand.made(), demand.planned), (15, 15, Some(2)));
    assert_eq!(
        demand.reasons(),
        [Reason::OutAtOnce(vec![0, 1]), Reason::Unplaced(12), Reason::Spares { spares: 3, destroyed: 12 }]
    );
}

#[test]
fn what_is_destroyed_on_no_day_yet_is_needed_on_whichever_day_it_comes_to_be() {
    let looks = || json!({"wool": {"treatment": "invent", "character": "ben", "pieces": [{"name": "coat"}]}});
    let burn = |number: u32| json!({"scene": number, "wears": {"ben": "wool"}, "does": {"ben": [{"action": "burn", "takes": 2}]}});
    let scenes = || json!([burn(1), burn(2), burn(3)]);
    let days = |count: u32| (1..=count).map(|day| json!({"day": day, "scenes": [day]})).collect::<Vec<_>>();
    let copies = |count: u32| Plan::of(&board(looks(), scenes(), json!(days(count)))).demands[0].copies();
    assert_eq!([0, 1, 2, 3].map(copies), [8; 4], "six are burnt, and two are spare");
}

#[test]
fn who_is_not_among_those_for_whom_a_version_is_planned_has_none() {
    let looks = json!({"wool": {
        "treatment": "invent", "pieces": [{"name": "costume"}],
        "make": {"costume": {"versions": [{"version": "wet", "copies": {"kim": 2}}, {"version": "standing"}]}},
    }});
    let does = json!({"ada": [{"action": "swim"}, {"action": "swim", "by": "lee"}]});
    let scenes =
        json!([{"scene": 1, "wears": {"ada": "wool"}, "does": does}, {"scene": 2, "wears": {"ada": "wool"}}]);
    let plan = Plan::of(&board(looks, scenes, json!([])));
    let planned: Vec<_> =
        plan.demands.iter().map(|demand| (demand.garment.wearer.as_str(), demand.planned)).collect();
    assert_eq!(planned, [("kim", None), ("kim", Some(2)), ("lee", Some(0))]);
}

#[test]
fn a_calendar_has_the_shooting_days_however_far_apart_they_are() {
    use Whereabouts::{Away, Used};
    let looks = json!({"wool": {"treatment": "invent", "pieces": [{"name": "costume"}]}});
    let swum = |number: u32| json!({"scene": number, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "swim"}]}});
    let schedule = json!([
        {"day": 1, "date": "9999-01-02", "scenes": [2]}, {"day": 2, "date": "0001-01-01", "scenes": [1]},
        {"day": 3, "date": "0001-01-02", "scenes": []},
    ]);
    let plan = Plan::of(&board(looks, json!([swum(1), swum(2)]), schedule));
    assert_eq!(plan.demands[0].calendar(&plan.days, 1), [vec![Some(Used), Some(Used), Some(Away)]]);
}

#[test]
fn what_asks_for_no_version_is_done_in_that_of_the_whole_costume() {
    let looks = json!({"wool": {
        "treatment": "invent", "pieces": [{"name": "costume"}],
        "make": {"costume": {"versions": [{"version": "wet"}]}},
    }});
    let scenes = json!([{"scene": 1, "wears": {"ada": "wool"}, "does": {"ada": [
        {"action": "grease", "takes": 3}, {"action": "swim"},
    ]}}]);
    let plan = Plan::of(&board(looks, scenes, json!([{"day": 1, "scenes": [1]}])));
    assert_eq!(said(&plan), ["costume/wet/kim: 3"], "greased and then in the water in the same copy");
    // And once in each of them, in whatever order they are asked for.
    let looks = json!({"wool": {
        "treatment": "invent", "pieces": [{"name": "costume"}],
        "make": {"costume": {"versions": [{"version": "wet"}, {"version": "burnt"}]}},
    }});
    let does: Vec<Value> =
        ["swim", "burn", "plunge", "grease"].iter().map(|action| json!({"action": action})).collect();
    let scenes = json!([{"scene": 1, "wears": {"ada": "wool"}, "does": {"ada": does}}]);
    let plan = Plan::of(&board(looks, scenes, json!([{"day": 1, "scenes": [1]}])));
    let actions =
        |demand: &Demand| demand.worn[0].actions.iter().map(ToString::to_string).collect::<Vec<_>>();
    assert_eq!(actions(&plan.demands[0]), ["swim", "plunge", "grease"]);
    // Who kneels for a moment still stands for the rest.
    let scenes = json!([{"scene": 1, "wears": {"ada": "suit"}, "does": {"ada": [
        {"action": "grease", "takes": 3, "pieces": ["trousers"]}, {"action": "kneel"},
    ]}}]);
    let plan = Plan::of(&board(suit(), scenes, json!([{"day": 1, "scenes": [1]}])));
    let trousers = ["Linen trousers/standing/kim: 3", "Linen trousers/floor/kim: 2"];
    assert_eq!(said(&plan)[1..], trousers);
}

#[test]
fn what_is_planned_and_never_worn_is_told_and_needs_none() {
    let looks = json!({"wool": {
        "treatment": "invent", "pieces": [{"name": "coat"}],
        "make": {"coat": {"versions": [{"version": "burnt", "copies": {"kim": 2}}]}},
    }});
    let plan = Plan::of(&board(looks, json!([]), json!([])));
    let demand = &plan.demands[0];
    assert!(demand.is_unused() && demand.reasons().is_empty());
    assert_eq!((demand.copies(), demand.made(), demand.first_day()), (0, 2, None));
}

#[test]
fn each_copy_has_its_days_on_the_calendar() {
    use Whereabouts::{Away, Used};
    let scenes = json!([
        {"scene": 1, "wears": {"ada": "suit"}, "does": {"ada": [{"action": "kneel"}]}},
        {"scene": 2, "wears": {"ada": "suit"}, "does": {"ada": [{"action": "kneel"}]}},
    ]);
    let plan =
        Plan::of(&board(suit(), scenes, json!([{"day": 1, "scenes": [1]}, {"day": 2, "scenes": [2]}])));
    let demand = plan.demands.iter().find(|demand| demand.garment.version.as_str() == "floor").unwrap();
    assert_eq!(demand.calendar(&plan.days, 2), [vec![Some(Used), Some(Used)], vec![None, None]]);
    let wet = json!({"wool": {"treatment": "invent", "pieces": [{"name": "costume"}]}});
    let swum = json!([
        {"scene": 1, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "swim"}]}},
        {"scene": 2, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "swim"}]}},
    ]);
    let plan = Plan::of(&board(wet, swum, json!([{"day": 1, "scenes": [1]}, {"day": 2, "scenes": [2]}])));
    assert_eq!(
        plan.demands[0].calendar(&plan.days, 2),
        [vec![Some(Used), Some(Away)], vec![None, Some(Used)]],
        "the cap has no version of its own for the water"
    );
}

#[test]
fn pieces_are_known_by_a_word_of_their_names() {
    for (name, word, is_so) in [
        ("Linen trousers", "trousers", true),
        ("wool stockings, grey", "stocking", true),
        ("sleeve", "sleeves", false),
        ("overcoat", "coat", false),
        ("bathing costume", "bathing costume", true),
        ("costume", "", false),
    ] {
        assert_eq!(has_words(name, word), is_so, "{name} {word}");
    }
}

#[test]
fn a_name_without_end_is_looked_through_in_no_time() {
    let (name, wanted) = ("x ".repeat(200_000) + "y", "x ".repeat(100_000) + "z");
    assert!(has_words(&name, "x x") && !has_words(&name, &wanted));
}
