//! Two people and one record, case by case; the laws are in `tests/board_properties.rs`.

use serde_json::json;

use super::*;
use crate::board::sample::read;
use crate::board::{Fitting, Head, Look, Outfit, Practice, Scene, ShootDay};

/// Three versions of a record, told by what they have beyond `usual`.
fn versions<T: DeserializeOwned>(usual: &Value, told: [Value; 3]) -> [T; 3] {
    told.map(|more| {
        let mut tree = usual.clone();
        if let (Some(tree), Value::Object(more)) = (tree.as_object_mut(), more) {
            tree.extend(more);
        }
        read(tree)
    })
}

/// What becomes of a scene in which each side says who wears what.
fn cast(base: Value, ours: Value, theirs: Value) -> Merged<Scene> {
    let wears = |wears| json!({"wears": wears});
    let [base, ours, theirs] = versions(&json!({"scene": 1}), [wears(base), wears(ours), wears(theirs)]);
    by_field(&base, &ours, &theirs, None)
}

fn worn(merged: &Merged<Scene>) -> Value {
    serde_json::to_value(&merged.value.wears).unwrap()
}

fn fields<T>(merged: &Merged<T>) -> Vec<&str> {
    merged.clashes.iter().map(|clash| clash.field.as_str()).collect()
}

#[test]
fn present_without_a_look_is_not_absent() {
    let merged = cast(json!({"a": null}), json!({}), json!({"a": null, "b": null}));
    assert_eq!((worn(&merged), merged.clashes.len()), (json!({"b": null}), 0));
    let merged = cast(json!({}), json!({"a": null}), json!({"b": "x"}));
    assert_eq!((worn(&merged), merged.clashes.len()), (json!({"a": null, "b": "x"}), 0));
    let merged = cast(json!({"a": "x"}), json!({"a": null}), json!({}));
    assert_eq!((worn(&merged), fields(&merged)), (json!({}), vec!["wears.a"]));
}

#[test]
fn the_last_that_is_taken_out_of_a_map_is_taken_out_of_the_others_as_well() {
    let merged = cast(json!({"a": "x"}), json!({}), json!({"a": "x", "b": "y"}));
    assert_eq!((worn(&merged), merged.clashes.len()), (json!({"b": "y"}), 0));
    let merged = cast(json!({"a": "x", "b": "y"}), json!({"b": "y"}), json!({"a": "x"}));
    assert_eq!((worn(&merged), merged.clashes.len()), (json!({}), 0));
}

#[test]
fn the_order_of_a_map_is_a_change_too() {
    let (base, turned) = (json!({"a": "x", "b": "y"}), json!({"b": "y", "a": "x"}));
    let keys = |merged: &Merged<Scene>| {
        merged.value.wears.keys().map(ToString::to_string).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(keys(&cast(base.clone(), turned.clone(), base.clone())), "b a");
    assert_eq!(keys(&cast(base.clone(), turned.clone(), json!({"a": "x", "b": "z"}))), "a b");
    let [base, ours, theirs] = versions::<Scene>(
        &json!({"scene": 1}),
        [json!({"wears": base}), json!({"wears": turned}), json!({"wears": base, "notes": "more"})],
    );
    assert_eq!(keys(&by_field(&base, &ours, &theirs, None)), "b a");
}

#[test]
fn what_is_folded_here_and_there_is_folded_in_both_even_where_one_emptied_the_look() {
    let usual = json!({"title": "L", "character": "a", "treatment": "copy", "base": "o"});
    let folded = |ids: &[&str]| json!({"folded": ids});
    for (base, ours, theirs, expected) in [
        (vec!["p"], vec![], vec!["p", "q"], vec!["q"]),
        (vec![], vec!["p"], vec!["q"], vec!["p", "q"]),
        (vec!["p", "q"], vec!["q"], vec!["p"], vec![]),
    ] {
        let [base, ours, theirs] = versions::<Look>(&usual, [folded(&base), folded(&ours), folded(&theirs)]);
        let merged = by_field(&base, &ours, &theirs, None);
        let mut ids: Vec<&str> = merged.value.folded.iter().map(|id| id.as_str()).collect();
        ids.sort_unstable();
        assert_eq!((ids, merged.clashes.len()), (expected, 0));
    }
}

#[test]
fn words_in_another_order_on_both_sides_and_words_that_stand_twice_are_one_field() {
    let usual = json!({"title": "O", "character": "a"});
    let tags = |words: &[&str]| json!({"tags": words});
    for (base, ours, theirs) in [
        (vec!["a", "b", "c"], vec!["b", "a", "c"], vec!["a", "c", "b"]),
        (vec!["a", "a"], vec!["a"], vec!["a", "a", "b"]),
    ] {
        let [base, ours, theirs] = versions::<Outfit>(&usual, [tags(&base), tags(&ours), tags(&theirs)]);
        let merged = by_field(&base, &ours, &theirs, None);
        assert_eq!((fields(&merged), &merged.value), (vec!["tags"], &theirs));
        assert_eq!(by_field(&base, &ours, &theirs, Some(Side::Ours)).value, ours);
    }
}

#[test]
fn words_moved_on_one_side_stay_moved() {
    let usual = json!({"title": "O", "character": "a"});
    let tags = |words: &[&str]| json!({"tags": words});
    let told = [tags(&["a", "b", "c"]), tags(&["c", "a", "b"]), tags(&["a", "b", "d", "c"])];
    let [base, ours, theirs] = versions::<Outfit>(&usual, told);
    assert_eq!(by_field(&base, &ours, &theirs, None).value.tags, ["c", "a", "b", "d"]);
    assert_eq!(by_field(&base, &theirs, &ours, None).value.tags, ["c", "a", "b", "d"]);
}

#[test]
fn a_thread_added_here_and_one_added_there_are_both_declared() {
    let usual = json!({"shirr": 1, "id": "b", "title": "B"});
    let threads = |ids: &[&str]| json!({"threads": ids.iter().map(|id| json!({"id": id, "title": id})).collect::<Vec<_>>()});
    let told = [threads(&["t", "u"]), threads(&["t", "u", "v"]), threads(&["w", "t"])];
    let [base, ours, theirs] = versions::<Head>(&usual, told);
    let merged = by_field(&base, &ours, &theirs, None);
    let ids: Vec<&str> = merged.value.threads.iter().map(|thread| thread.id.as_str()).collect();
    assert_eq!((ids, merged.clashes.len()), (vec!["w", "t", "v"], 0));
}

#[test]
fn two_pieces_changed_by_two_hands_are_both_changed_and_one_piece_clashes_in_its_field() {
    let usual = json!({"title": "O", "character": "a"});
    let pieces = |coat: &str, hat: &str| json!({"pieces": [{"name": "coat", "cloth": coat}, {"name": "hat", "cloth": hat}]});
    let [base, ours, theirs, both] =
        [("wool", "felt"), ("serge", "felt"), ("wool", "straw"), ("serge", "straw")].map(|(coat, hat)| {
            versions::<Outfit>(&usual, [pieces(coat, hat), json!({}), json!({})])[0].clone()
        });
    let merged = by_field(&base, &ours, &theirs, None);
    assert_eq!((&merged.value, merged.clashes.len()), (&both, 0));
    let clash =
        by_field(&base, &ours, &versions(&usual, [pieces("silk", "felt"), json!({}), json!({})])[0], None);
    assert_eq!(fields(&clash), ["pieces.coat.cloth"]);
}

#[test]
fn a_piece_taken_out_here_and_changed_there_is_a_choice() {
    let usual = json!({"title": "O", "character": "a"});
    let told = [
        json!({"pieces": [{"name": "coat"}, {"name": "hat"}]}),
        json!({"pieces": [{"name": "hat"}]}),
        json!({"pieces": [{"name": "coat", "cloth": "wool"}, {"name": "hat"}]}),
    ];
    let [base, ours, theirs] = versions::<Outfit>(&usual, told);
    assert_eq!(fields(&by_field(&base, &ours, &theirs, None)), ["pieces.coat"]);
    let names = |side| {
        let pieces = by_field(&base, &ours, &theirs, Some(side)).value.pieces;
        pieces.into_iter().map(|piece| piece.name + " " + &piece.cloth).collect::<Vec<_>>()
    };
    assert_eq!(names(Side::Ours), ["hat "]);
    assert_eq!(names(Side::Theirs), ["hat ", "coat wool"]);
}

#[test]
fn shooting_days_are_merged_day_by_day() {
    let days = |first: &[u32], second: &[u32]| -> Vec<ShootDay> {
        read(json!([{"day": 1, "scenes": first}, {"day": 2, "scenes": second}]))
    };
    let merged = by_field(&days(&[1], &[2]), &days(&[1, 3], &[2]), &days(&[1], &[]), None);
    assert_eq!((merged.value, merged.clashes), (days(&[1, 3], &[]), vec![]));
}

#[test]
fn a_clash_says_all_three_sides_and_the_way_to_the_field() {
    let usual = json!({"shirr": 1, "id": "b", "title": "B"});
    let looks = |looks: u32| json!({"budget": {"looks": looks}});
    let [base, ours, theirs] = versions::<Head>(&usual, [looks(4), looks(5), looks(6)]);
    let merged = by_field(&base, &ours, &theirs, None);
    let expected =
        FieldClash { field: "budget.looks".to_owned(), base: json!(4), ours: json!(5), theirs: json!(6) };
    assert_eq!((merged.clashes, merged.value), (vec![expected], theirs));
    assert_eq!(
        ["nothing", "x", "4"],
        [json!(null), json!("x"), json!(4)]
            .map(|value| FieldClash::words(&value))
            .each_ref()
            .map(String::as_str)
    );
}

#[test]
fn evidence_found_here_and_there_is_kept_and_a_changed_one_is_a_choice() {
    let usual = json!({"title": "O", "character": "a"});
    let sources = |sources: &[&str]| json!({"evidence": sources.iter().map(|source| json!({"kind": "film", "source": source})).collect::<Vec<_>>()});
    let merged = |ours: &[&str], theirs: &[&str]| {
        let [base, ours, theirs] =
            versions::<Outfit>(&usual, [sources(&["a"]), sources(ours), sources(theirs)]);
        let merged = by_field(&base, &ours, &theirs, None);
        let sources = merged.value.evidence.into_iter().map(|evidence| evidence.source).collect::<String>();
        (sources, merged.clashes.into_iter().map(|clash| clash.field).collect::<Vec<_>>())
    };
    assert_eq!(merged(&["a", "b"], &["a", "c"]), ("abc".to_owned(), vec![]));
    assert_eq!(merged(&["a", "b"], &["x"]), ("x".to_owned(), vec!["evidence".to_owned()]));
}

/// A record whose fields must fit together: it ends after it starts.
#[derive(Clone, Debug, PartialEq, Serialize, serde::Deserialize)]
#[serde(try_from = "Loose")]
struct Stretch {
    from: u32,
    to: u32,
}

#[derive(serde::Deserialize)]
struct Loose {
    from: u32,
    to: u32,
}

impl TryFrom<Loose> for Stretch {
    type Error = &'static str;

    fn try_from(Loose { from, to }: Loose) -> Result<Self, Self::Error> {
        if from < to { Ok(Self { from, to }) } else { Err("ends before it starts") }
    }
}

#[test]
fn fields_that_fit_one_by_one_but_not_together_are_one_choice() {
    let stretch = |from, to| Stretch { from, to };
    let (base, ours, theirs) = (stretch(1, 9), stretch(5, 9), stretch(1, 3));
    let merged = by_field(&base, &ours, &theirs, None);
    assert_eq!((fields(&merged), &merged.value), (vec!["as a whole"], &theirs));
    for (side, kept) in [(Side::Ours, &ours), (Side::Theirs, &theirs)] {
        let merged = by_field(&base, &ours, &theirs, Some(side));
        assert_eq!((merged.clashes.len(), &merged.value), (0, kept));
    }
}

/// Lists of this length end at once when each item is looked at a few times, and not in a day when each is compared
/// with every other.
#[test]
fn long_orders_are_merged_in_time_that_grows_with_their_length() {
    let numbers = |numbers: &[u32]| -> Vec<Value> { numbers.iter().map(|number| json!(number)).collect() };
    let base: Vec<u32> = (0..200_000).collect();
    let (mut ours, mut theirs) = (base.clone(), base.clone());
    ours.retain(|number| number % 1_000 != 7);
    ours.insert(150_000, 300_000);
    theirs.insert(20, 300_001);
    let mut expected = theirs.clone();
    expected.retain(|number| number % 1_000 != 7);
    expected.insert(150_001, 300_000);
    let merged = list::merged(&numbers(&base), &numbers(&ours), &numbers(&theirs)).unwrap();
    assert!(merged == numbers(&expected));
}

#[test]
fn what_two_people_found_of_one_measure_of_two_pieces_is_two_things() {
    let found = |of: &[(&str, &str, &str)]| {
        let all = of
            .iter()
            .map(|(piece, measure, decided)| json!({"piece": piece, "measure": measure, "decided": decided}));
        json!({"found": all.collect::<Vec<_>>()})
    };
    let (coat, skirt) = (("coat", "length", "90 cm"), ("skirt", "length", "70 cm"));
    for (base, expected) in [
        (vec![], vec![coat, skirt]),
        (vec![("hat", "girth", "58 cm")], vec![("hat", "girth", "58 cm"), coat, skirt]),
    ] {
        let with = |more| [base.as_slice(), &[more]].concat();
        let told = [found(&base), found(&with(coat)), found(&with(skirt))];
        let [base, ours, theirs] = versions::<Fitting>(&json!({"on": "2027-03-02"}), told);
        let merged = by_field(&base, &ours, &theirs, None);
        assert_eq!((fields(&merged), json!({"found": merged.value.found})), (vec![], found(&expected)));
    }
}

#[test]
fn two_actions_done_in_one_version_are_two_actions() {
    let action = |name: &str| json!({"action": name, "version": "floor", "does": "strain"});
    let actions =
        |names: &[&str]| json!({"actions": names.iter().map(|name| action(name)).collect::<Vec<_>>()});
    let [base, ours, theirs] = versions::<Practice>(
        &json!({}),
        [actions(&["kneel"]), actions(&["kneel", "scrub"]), actions(&["kneel", "dig"])],
    );
    let merged = by_field(&base, &ours, &theirs, None);
    let names: Vec<&str> = merged.value.actions.iter().map(|one| one.action.as_str()).collect();
    assert_eq!((fields(&merged), names), (vec![], vec!["kneel", "scrub", "dig"]));
}

#[test]
fn what_a_double_does_and_what_the_performer_does_are_two_doings() {
    let does = |all: Value| json!({"does": {"a": all}});
    let swims = |more: Value| {
        let mut all = json!({"action": "swim"});
        all.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        all
    };
    let told = [
        does(json!([])),
        does(json!([swims(json!({"takes": 3}))])),
        does(json!([swims(json!({"by": "lee"}))])),
    ];
    let [base, ours, theirs] = versions::<Scene>(&json!({"scene": 1}), told);
    let merged = by_field(&base, &ours, &theirs, None);
    let expected = json!({"a": [swims(json!({"takes": 3})), swims(json!({"by": "lee"}))]});
    assert_eq!((fields(&merged), json!(merged.value.does)), (vec![], expected));
}
