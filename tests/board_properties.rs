//! What holds of any board, any operation, and any two people's changes to one record.

#![allow(clippy::unwrap_used, reason = "a record that does not read back is a failed claim")]

use std::collections::HashSet;
use std::fmt::Debug;

use proptest::prelude::*;
use proptest::sample::subsequence;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

use shirr::board::merge::{Merged, by_field};
use shirr::board::rules::{self, Broken};
use shirr::board::*;
use shirr::bring::table::written_character;
use shirr::plot;
use shirr::report::{Cell, Report};
use shirr::trade::eighths::Eighths;

#[path = "../src/board/sample/mod.rs"]
mod sample;

use sample::arbitrary::{self, records, schedules, some_words, sound_records};
use sample::operation::operations;

/// What tells a broken rule from another, wherever in its record it is.
fn marks(board: &Board) -> HashSet<String> {
    let mark = |broken: Broken| match broken {
        Broken::Dangling(dangling) => vec![format!("{:?} {:?}", dangling.from, dangling.to)],
        Broken::InTwoLooks(outfit, looks) => looks.iter().map(|look| format!("{outfit} {look}")).collect(),
        other => vec![format!("{other:?}")],
    };
    rules::broken(board).into_iter().flat_map(mark).collect()
}

fn derived_anew(board: &Board) -> Relations {
    Relations::derive(board.records())
}

/// The edit as the history log would give it back.
fn through_json(edit: &Edit) -> Edit {
    serde_json::from_str(&serde_json::to_string(edit).unwrap()).unwrap()
}

/// Whether all of `edit` can be taken back and done again, to the last record.
fn goes_back_and_forth(before: &Board, after: &Board, inverse: &Edit) -> Result<(), TestCaseError> {
    let mut board = after.clone();
    let again =
        board.take_in(&through_json(inverse)).map_err(|error| TestCaseError::fail(error.to_string()))?;
    prop_assert_eq!(board.records(), before.records());
    prop_assert_eq!(board.relations(), &derived_anew(before));
    board.take_in(&again).map_err(|error| TestCaseError::fail(error.to_string()))?;
    prop_assert_eq!(board.records(), after.records());
    prop_assert_eq!(board.relations(), &derived_anew(after));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn every_operation_on_any_board_can_be_taken_back_and_done_again(
        records in records(),
        operations in prop::collection::vec(operations(), 1..8),
    ) {
        let mut board = Board::new(records);
        for operation in operations {
            let before = board.clone();
            let Ok(edit) = operation.edit(&board) else { continue };
            match board.apply(&edit) {
                Ok(inverse) => goes_back_and_forth(&before, &board, &inverse)?,
                Err(_) => prop_assert_eq!(board.records(), before.records()),
            }
        }
    }

    #[test]
    fn on_a_sound_board_undo_and_redo_are_never_refused(
        records in sound_records(),
        operations in prop::collection::vec(operations(), 1..8),
    ) {
        let mut board = Board::new(records);
        let mut states = vec![board.clone()];
        let mut undo = Vec::new();
        for operation in operations {
            let Ok(edit) = operation.edit(&board) else { continue };
            if let Ok(inverse) = board.apply(&edit) {
                states.push(board.clone());
                undo.push(inverse);
            }
        }
        let last = states.pop().map(|board| board.records().clone());
        let mut redo = Vec::new();
        for inverse in undo.iter().rev() {
            redo.push(board.apply(inverse).map_err(|error| TestCaseError::fail(error.to_string()))?);
            let before = states.pop();
            prop_assert_eq!(Some(board.records()), before.as_ref().map(Board::records));
        }
        for edit in redo.iter().rev() {
            board.apply(edit).map_err(|error| TestCaseError::fail(error.to_string()))?;
        }
        prop_assert_eq!(Some(board.records()), last.as_ref());
    }

    #[test]
    fn no_operation_breaks_a_rule_of_a_sound_board(
        records in sound_records(),
        operations in prop::collection::vec(operations(), 1..10),
    ) {
        let mut board = Board::new(records);
        prop_assert_eq!(rules::broken(&board), []);
        for operation in operations {
            let Ok(edit) = operation.edit(&board) else { continue };
            if board.apply(&edit).is_ok() {
                prop_assert_eq!(rules::broken(&board), []);
                prop_assert!(board.relations().held().all(|(_, looks)| looks.len() == 1));
            }
        }
    }

    #[test]
    fn an_operation_is_refused_exactly_when_it_adds_a_broken_rule(
        records in records(),
        operation in operations(),
    ) {
        let before = Board::new(records);
        let Ok(edit) = operation.edit(&before) else { return Ok(()) };
        let mut forced = before.clone();
        prop_assert!(forced.take_in(&edit).is_ok());
        let adds = !marks(&forced).is_subset(&marks(&before));
        let refused = before.clone().apply(&edit);
        prop_assert_eq!(adds, matches!(&refused, Err(Refused::Broken(_))), "{:?}", refused);
    }

    #[test]
    fn operations_of_the_trade_are_never_refused_on_a_sound_board_once_they_are_drafted(
        records in sound_records(),
        outfits in subsequence(vec!["o1", "o2", "o3", "o4", "o5", "o6", "o7", "o8"], 1..4),
        look in prop::sample::select(vec!["l1", "l2", "l3", "l4", "l5"]),
        other in prop::sample::select(vec!["l1", "l2", "l3", "l4", "l5"]),
    ) {
        let mut board = Board::new(records);
        let (outfits, look, other) = (sample::ids(&outfits), sample::id(look), sample::id(other));
        let drafted = [
            board.gather(&outfits, "New", &outfits[0], Treatment::Copy).map(|(_, edit)| edit),
            board.fold(&outfits, &look),
            board.release(&outfits),
            board.let_go(&outfits, "because"),
            board.take_back(&outfits),
            board.set_base(&outfits[0]),
            board.set_treatment(&look, Treatment::Invent),
            board.give_base(&look, &outfits[0]),
            board.merge_looks(&look, &other),
            board.split(&outfits, "Split").map(|(_, edit)| edit),
            board.dissolve(&look),
            board.reorder(&look, 1),
        ];
        for edit in drafted.into_iter().flatten() {
            let inverse = board.apply(&edit).map_err(|error| TestCaseError::fail(format!("{edit:?}: {error}")))?;
            board.apply(&inverse).map_err(|error| TestCaseError::fail(error.to_string()))?;
        }
    }

    #[test]
    fn an_edit_made_before_another_hands_change_is_refused_or_goes_back_and_forth(
        records in records(),
        ours in operations(),
        theirs in operations(),
        side in prop::sample::select(vec![None, Some(Side::Ours), Some(Side::Theirs)]),
    ) {
        let base = Board::new(records);
        let (Ok(ours), Ok(theirs)) = (ours.edit(&base), theirs.edit(&base)) else { return Ok(()) };
        let mut there = base.clone();
        if there.take_in(&theirs).is_err() {
            return Ok(());
        }
        let mut both = there.clone();
        match both.apply_preferring(&ours, side) {
            Ok(inverse) => goes_back_and_forth(&there, &both, &inverse)?,
            Err(Refused::Unfit(_) | Refused::Broken(_)) => prop_assert_eq!(both.records(), there.records()),
            Err(refused) => {
                prop_assert_eq!(side, None, "{}", refused);
                prop_assert_eq!(both.records(), there.records());
            }
        }
    }

    #[test]
    fn the_edit_between_two_boards_leads_from_one_to_the_other(before in records(), after in records()) {
        let edit = Edit::between("", &before, &after);
        let mut board = Board::new(before.clone());
        board.take_in(&edit).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert_eq!(board.records(), &after);
        board.take_in(&edit.inverse()).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert_eq!(board.records(), &before);
        prop_assert!(Edit::between("", &after, &after).is_empty());
    }

    #[test]
    fn an_edit_that_is_there_already_changes_nothing(records in records(), operation in operations()) {
        let mut board = Board::new(records);
        let Ok(edit) = operation.edit(&board) else { return Ok(()) };
        if board.apply(&edit).is_ok() {
            let once = board.clone();
            let inverse = board.take_in(&edit).map_err(|error| TestCaseError::fail(error.to_string()))?;
            prop_assert_eq!(board.records(), once.records());
            prop_assert!(inverse.is_empty());
        }
    }
}

fn reads_back<T: Serialize + DeserializeOwned + PartialEq + Debug>(record: &T) -> Result<(), TestCaseError> {
    let tree = serde_json::to_value(record).unwrap();
    prop_assert_eq!(&serde_json::from_value::<T>(tree).unwrap(), record);
    let text = serde_json::to_string(record).unwrap();
    prop_assert_eq!(&serde_json::from_str::<T>(&text).unwrap(), record);
    Ok(())
}

proptest! {
    #[test]
    fn every_record_reads_back_from_its_own_tree(records in records()) {
        reads_back(&*records.head)?;
        reads_back(&*records.schedule)?;
        records.outfits.values().try_for_each(|outfit| reads_back(&**outfit))?;
        records.looks.values().try_for_each(|look| reads_back(&**look))?;
        records.scenes.iter().try_for_each(|scene| reads_back(&**scene))?;
    }

    #[test]
    fn an_edit_reads_back_from_the_log(records in records(), operation in operations()) {
        let board = Board::new(records);
        if let Ok(edit) = operation.edit(&board) {
            prop_assert_eq!(&through_json(&edit), &edit);
            prop_assert_eq!(through_json(&edit.inverse()), edit.inverse());
        }
    }
}

/// What must hold when two people change one record, whatever it is.
fn merges<T>(base: &T, ours: &T, theirs: &T) -> Result<(), TestCaseError>
where
    T: Serialize + DeserializeOwned + Clone + PartialEq + Debug,
{
    let clean = |merged: Merged<T>| -> Result<T, TestCaseError> {
        prop_assert_eq!(merged.clashes, []);
        Ok(merged.value)
    };
    prop_assert_eq!(&clean(by_field(base, ours, base, None))?, ours);
    prop_assert_eq!(&clean(by_field(base, base, theirs, None))?, theirs);
    prop_assert_eq!(&clean(by_field(base, ours, ours, None))?, ours);
    // A side that is chosen leaves no clash, and where nothing clashes the choice does not matter.
    let unasked = by_field(base, ours, theirs, None);
    for side in [Side::Ours, Side::Theirs] {
        let chosen = clean(by_field(base, ours, theirs, Some(side)))?;
        if unasked.clashes.is_empty() {
            prop_assert_eq!(&chosen, &unasked.value);
        }
    }
    Ok(())
}

/// Fields dealt out to the two sides: none is changed by both, so the order of the sides cannot matter.
fn disjoint_fields_commute<T>(base: &T, ours: &T, theirs: &T, deal: &[bool]) -> Result<(), TestCaseError>
where
    T: Serialize + DeserializeOwned + Clone + PartialEq + Debug,
{
    let tree = |record: &T| match serde_json::to_value(record).unwrap() {
        Value::Object(fields) => fields,
        other => panic!("no record: {other}"),
    };
    let (base_tree, our_tree, their_tree) = (tree(base), tree(ours), tree(theirs));
    let mut keys: Vec<&String> = base_tree.keys().chain(our_tree.keys()).chain(their_tree.keys()).collect();
    keys.sort();
    keys.dedup();
    let mixed = |ours_from: &Map<String, Value>, theirs_from: &Map<String, Value>| -> T {
        let mut mixed = Map::new();
        for (key, is_ours) in keys.iter().zip(deal.iter().cycle()) {
            let from = if *is_ours { ours_from } else { theirs_from };
            mixed.extend(from.get(*key).map(|value| ((*key).clone(), value.clone())));
        }
        serde_json::from_value(Value::Object(mixed)).unwrap()
    };
    let (ours, theirs) = (mixed(&our_tree, &base_tree), mixed(&base_tree, &their_tree));
    let expected = mixed(&our_tree, &their_tree);
    for merged in [by_field(base, &ours, &theirs, None), by_field(base, &theirs, &ours, None)] {
        prop_assert_eq!(&merged.clashes, &[]);
        prop_assert_eq!(&merged.value, &expected);
    }
    Ok(())
}

/// `words` less those at `out`, with `more` put in at the front, in between, and behind.
fn reworked(words: &[String], out: &[String], more: &[String]) -> Vec<String> {
    let mut words: Vec<String> = words.iter().filter(|word| !out.contains(word)).cloned().collect();
    for (at, word) in more.iter().enumerate() {
        words.insert(at * 2 % (words.len() + 1), word.clone());
    }
    words
}

proptest! {
    #[test]
    fn merging_looks_keeps_the_laws(
        base in arbitrary::looks(), ours in arbitrary::looks(), theirs in arbitrary::looks(),
        deal in prop::collection::vec(any::<bool>(), 5..9),
    ) {
        merges(&base, &ours, &theirs)?;
        disjoint_fields_commute(&base, &ours, &theirs, &deal)?;
    }

    #[test]
    fn merging_outfits_keeps_the_laws(
        base in arbitrary::outfits(), ours in arbitrary::outfits(), theirs in arbitrary::outfits(),
        deal in prop::collection::vec(any::<bool>(), 5..9),
    ) {
        merges(&base, &ours, &theirs)?;
        disjoint_fields_commute(&base, &ours, &theirs, &deal)?;
    }

    #[test]
    fn merging_scenes_keeps_the_laws(
        base in arbitrary::scenes(sample::number("3A")),
        ours in arbitrary::scenes(sample::number("3A")),
        theirs in arbitrary::scenes(sample::number("3A")),
        deal in prop::collection::vec(any::<bool>(), 5..9),
    ) {
        merges(&base, &ours, &theirs)?;
        disjoint_fields_commute(&base, &ours, &theirs, &deal)?;
    }

    #[test]
    fn merging_heads_keeps_the_laws(
        base in arbitrary::heads(), ours in arbitrary::heads(), theirs in arbitrary::heads(),
        deal in prop::collection::vec(any::<bool>(), 5..9),
    ) {
        merges(&base, &ours, &theirs)?;
        disjoint_fields_commute(&base, &ours, &theirs, &deal)?;
    }

    #[test]
    fn merging_schedules_keeps_the_laws(base in schedules(), ours in schedules(), theirs in schedules()) {
        merges(&base, &ours, &theirs)?;
    }

    #[test]
    fn merged_lists_keep_both_additions_and_both_removals(
        base in some_words(),
        out in (some_words(), some_words()),
        more in (subsequence(vec!["u", "v", "x"], 0..4), subsequence(vec!["x", "y", "z"], 0..4)),
    ) {
        let strings = |words: Vec<&str>| -> Vec<String> { words.into_iter().map(str::to_owned).collect() };
        let (our_more, their_more) = (strings(more.0), strings(more.1));
        let tagged = |tags: Vec<String>| Outfit { tags, ..sample::outfit("Smock", "odile") };
        let ours = reworked(&base, &out.0, &our_more);
        let theirs = reworked(&base, &out.1, &their_more);
        let merged = by_field(&tagged(base.clone()), &tagged(ours.clone()), &tagged(theirs.clone()), None);
        prop_assert_eq!(&merged.clashes, &[]);
        let tags = merged.value.tags;
        let stays = |word: &&String| ours.contains(*word) && theirs.contains(*word);
        let expected: HashSet<&String> = base.iter().filter(stays).chain(&our_more).chain(&their_more).collect();
        prop_assert_eq!(tags.iter().collect::<HashSet<_>>(), expected.clone());
        prop_assert_eq!(tags.len(), expected.len());
        // And what stays of each stands in the order in which it stood there.
        for list in [&base, &theirs] {
            let there: Vec<&String> = list.iter().filter(|word| tags.contains(word)).collect();
            let here: Vec<&String> = tags.iter().filter(|word| list.contains(word)).collect();
            prop_assert_eq!(there, here);
        }
    }

    #[test]
    fn whoever_is_in_a_scene_is_in_the_report_once_and_the_minutes_add_up(records in sound_records()) {
        let board = Board::new(records);
        let document = Report::Scenes.document(&board, None);
        let table = &document.tables[0];
        let place = |key: &str| table.columns().iter().position(|column| column.key == key).unwrap();
        let (scene, character, minutes) = (place("scene"), place("character"), place("minutes"));
        let said = |cell: &Cell| match cell {
            Cell::Text(text) => text.as_str().to_owned(),
            _ => String::new(),
        };
        let mut listed: Vec<(String, String)> =
            table.rows().iter().map(|row| (said(&row[scene]), said(&row[character]))).collect();
        let mut there: Vec<(String, String)> = board
            .scenes()
            .flat_map(|scene| {
                let number = scene.number.to_string();
                let present: Vec<_> =
                    scene.wears.iter().map(|(who, _)| (number.clone(), written_character(&board, who))).collect();
                if present.is_empty() { vec![(number, String::new())] } else { present }
            })
            .collect();
        listed.sort();
        there.sort();
        prop_assert_eq!(listed, there);
        // A scene's minutes stand in each of its rows, and count once.
        let mut counted = std::collections::BTreeMap::new();
        for row in table.rows() {
            counted.insert(said(&row[scene]), row[minutes].value().unwrap());
        }
        let whole = board.scenes().map(|scene| scene.pages).sum::<Eighths>();
        prop_assert!((counted.values().sum::<f64>() - whole.minutes()).abs() < 1e-9);
        let periods = board.head().periods.iter().map(|period| plot::of_period(&board, Some(&period.id)));
        let mut of_periods: Eighths = periods.sum();
        of_periods = [of_periods, plot::of_period(&board, None)].into_iter().sum();
        prop_assert_eq!(of_periods, whole);
    }
}
