//! What an edit does to records, and what takes it back.
//!
//! Each change is settled against the record that stands there now, not against the one that the edit was made from.
//! The inverse is made from what really happened, so it is exact even where two changes were merged, and says nothing
//! of records that were so already.

use std::collections::{BTreeMap, HashMap, VecDeque};
use std::sync::Arc;

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::edit::{Clash, order_of};
use super::merge::{self, FieldClash};
use super::{Change, Edit, RecordRef, Records, Refused, Scene, SceneNumber, Side, Swap};

/// Applies all changes to `records` and returns the inverse. On an error `records` is half changed: throw it away.
pub(super) fn settle(records: &mut Records, edit: &Edit, side: Option<Side>) -> Result<Edit, Refused> {
    let mut settling = Settling { order: Arc::new(order_of(&records.scenes)), records, side };
    let order_before = Arc::clone(&settling.order);
    let mut undo = Vec::with_capacity(edit.changes.len() + 1);
    let mut clashes = Vec::new();
    for change in &edit.changes {
        match settling.settle(change) {
            Ok(inverse) => undo.extend(inverse),
            Err(Refused::Clash(more)) => clashes.extend(more),
            Err(other) => return Err(other),
        }
    }
    if !clashes.is_empty() {
        return Err(Refused::Clash(clashes));
    }
    put_in_order(&mut settling.records.scenes, &settling.order);
    let order_after = Arc::new(order_of(&records.scenes));
    undo.extend(Swap::if_any(Some(&order_after), Some(&order_before)).map(Change::SceneOrder));
    undo.reverse();
    Ok(Edit { label: edit.label.clone(), changes: undo })
}

/// Records on their way through an edit.
struct Settling<'a> {
    records: &'a mut Records,
    /// The order in which the scenes shall stand at the end.
    order: Arc<Vec<SceneNumber>>,
    side: Option<Side>,
}

impl Settling<'_> {
    /// Settles one change; returns what takes it back, `None` where nothing was to do or the scenes' order will tell.
    fn settle(&mut self, change: &Change) -> Result<Option<Change>, Refused> {
        let record = change.record();
        let side = self.side;
        Ok(match change {
            Change::Head(swap) => one(&mut self.records.head, &record, swap, side)?.map(Change::Head),
            Change::Schedule(swap) => {
                one(&mut self.records.schedule, &record, swap, side)?.map(Change::Schedule)
            }
            Change::Outfit(id, swap) => one_of_many(&mut self.records.outfits, id, &record, swap, side)?
                .map(|undo| Change::Outfit(id.clone(), undo)),
            Change::Look(id, swap) => one_of_many(&mut self.records.looks, id, &record, swap, side)?
                .map(|undo| Change::Look(id.clone(), undo)),
            Change::Cloth(id, swap) => one_of_many(&mut self.records.cloths, id, &record, swap, side)?
                .map(|undo| Change::Cloth(id.clone(), undo)),
            Change::Practice(swap) => {
                one(&mut self.records.practice, &record, swap, side)?.map(Change::Practice)
            }
            Change::Meeting(id, swap) => one_of_many(&mut self.records.meetings, id, &record, swap, side)?
                .map(|undo| Change::Meeting(id.clone(), undo)),
            Change::Scene(number, swap) => {
                self.scene(number, &record, swap)?.map(|undo| Change::Scene(number.clone(), undo))
            }
            Change::SceneOrder(swap) => {
                one(&mut self.order, &record, swap, side)?;
                None
            }
        })
    }

    fn scene(
        &mut self,
        number: &SceneNumber,
        record: &RecordRef,
        swap: &Swap<Scene>,
    ) -> Result<Option<Swap<Scene>>, Refused> {
        if let Some(other) = swap.after.as_ref().filter(|scene| scene.number != *number) {
            return Err(Refused::Unfit(format!("{record} cannot become scene {}", other.number)));
        }
        let scenes = &mut self.records.scenes;
        let at = scenes.iter().position(|scene| scene.number == *number);
        let now = at.map(|at| Arc::clone(&scenes[at]));
        let next = outcome(record, now.as_ref(), swap, self.side)?;
        match (at, &next) {
            (Some(at), Some(scene)) => scenes[at] = Arc::clone(scene),
            (None, Some(scene)) => scenes.push(Arc::clone(scene)),
            (Some(at), None) => {
                // Nothing could tell later which of the two it was.
                if scenes[at + 1..].iter().any(|scene| scene.number == *number) {
                    return Err(Refused::Unfit(format!(
                        "two scenes have the number {number}: give one of them a letter first"
                    )));
                }
                scenes.remove(at);
            }
            (None, None) => {}
        }
        Ok(Swap::if_any(next.as_ref(), now.as_ref()))
    }
}

/// Settles a record that is always there.
fn one<T>(
    slot: &mut Arc<T>,
    record: &RecordRef,
    swap: &Swap<T>,
    side: Option<Side>,
) -> Result<Option<Swap<T>>, Refused>
where
    T: Serialize + DeserializeOwned + Clone + PartialEq,
{
    let now = Arc::clone(slot);
    let next = outcome(record, Some(&now), swap, side)?.ok_or_else(|| Refused::Gone(record.clone()))?;
    *slot = Arc::clone(&next);
    Ok(Swap::if_any(Some(&next), Some(&now)))
}

/// Settles a record that may come and go.
fn one_of_many<K, T>(
    records: &mut BTreeMap<K, Arc<T>>,
    key: &K,
    record: &RecordRef,
    swap: &Swap<T>,
    side: Option<Side>,
) -> Result<Option<Swap<T>>, Refused>
where
    K: Ord + Clone,
    T: Serialize + DeserializeOwned + Clone + PartialEq,
{
    let now = records.get(key).cloned();
    let next = outcome(record, now.as_ref(), swap, side)?;
    match &next {
        Some(next) => records.insert(key.clone(), Arc::clone(next)),
        None => records.remove(key),
    };
    Ok(Swap::if_any(next.as_ref(), now.as_ref()))
}

/// What a record becomes when `swap` is applied to what stands there now.
fn outcome<T>(
    record: &RecordRef,
    now: Option<&Arc<T>>,
    swap: &Swap<T>,
    side: Option<Side>,
) -> Result<Option<Arc<T>>, Refused>
where
    T: Serialize + DeserializeOwned + Clone + PartialEq,
{
    if now == swap.before.as_ref() || now == swap.after.as_ref() {
        return Ok(swap.after.clone());
    }
    match (&swap.before, &swap.after, now) {
        (Some(before), Some(after), Some(now)) => {
            let merged = merge::by_field(&**before, &**after, &**now, side);
            if merged.clashes.is_empty() {
                Ok(Some(Arc::new(merged.value)))
            } else {
                Err(Refused::Clash(vec![Clash { record: record.clone(), fields: merged.clashes }]))
            }
        }
        // A change of nothing into nothing has no say.
        (None, None, now) => Ok(now.cloned()),
        // One hand took the record away, or both made one of this name: all of it is the one side's or the other's.
        (_, after, now) => match (side, after, now) {
            (Some(Side::Ours), after, _) => Ok(after.clone()),
            (Some(Side::Theirs), _, now) => Ok(now.cloned()),
            (None, Some(_), Some(_)) => Err(Refused::Taken(record.clone())),
            (None, None, Some(now)) => {
                let fields = vec![FieldClash::whole(&**now)];
                Err(Refused::Clash(vec![Clash { record: record.clone(), fields }]))
            }
            (None, _, None) => Err(Refused::Gone(record.clone())),
        },
    }
}

/// Puts scenes in this order; those that it does not name go to the end as they stand. Of two scenes with one number
/// the earlier stays the earlier.
fn put_in_order(scenes: &mut Vec<Arc<Scene>>, order: &[SceneNumber]) {
    let mut places: HashMap<&SceneNumber, VecDeque<usize>> = HashMap::new();
    for (place, number) in order.iter().enumerate() {
        places.entry(number).or_default().push_back(place);
    }
    let mut placed: Vec<(usize, Arc<Scene>)> = Vec::with_capacity(scenes.len());
    for scene in scenes.drain(..) {
        let place = places.get_mut(&scene.number).and_then(VecDeque::pop_front);
        placed.push((place.unwrap_or(usize::MAX), scene));
    }
    placed.sort_by_key(|(place, _)| *place);
    scenes.extend(placed.into_iter().map(|(_, scene)| scene));
}

#[cfg(test)]
mod tests {
    use super::super::sample::{self, board, id, number, numbers, records, refusal};
    use super::*;
    use crate::board::{Board, Outfit};

    fn retitled(board: &Board, title: &str) -> Edit {
        board.change_outfit(&id("smock"), "title", |outfit| outfit.title = title.to_owned()).unwrap()
    }

    fn removed(board: &Board) -> Edit {
        let before = board.records().outfits.get(&id("smock")).cloned();
        Edit::new("removed", vec![Change::Outfit(id("smock"), Swap::new(before, None))])
    }

    fn added(title: &str) -> Edit {
        board().add_outfit(&id("cape"), sample::outfit(title, "odile")).unwrap()
    }

    fn title<'a>(board: &'a Board, outfit: &str) -> Option<&'a str> {
        board.outfit(&id(outfit)).map(|outfit| outfit.title.as_str())
    }

    #[test]
    fn a_change_of_a_record_that_another_hand_removed_waits_for_a_choice() {
        let edit = retitled(&board(), "Smock");
        let mut there = board();
        there.take_in(&removed(&there)).unwrap();
        assert_eq!(refusal(there.clone().apply(&edit)), "outfit `smock` was removed meanwhile");
        for (side, stands) in [(Side::Ours, Some("Smock")), (Side::Theirs, None)] {
            let mut both = there.clone();
            let inverse = both.apply_preferring(&edit, Some(side)).unwrap();
            assert_eq!(title(&both, "smock"), stands);
            both.apply(&inverse).unwrap();
            assert_eq!(both.records(), there.records());
        }
    }

    #[test]
    fn a_removal_of_a_record_that_another_hand_changed_waits_for_a_choice() {
        let edit = removed(&board());
        let mut there = board();
        there.take_in(&retitled(&there, "Theirs")).unwrap();
        assert_eq!(
            refusal(there.clone().apply(&edit)),
            "changed on both sides: outfit `smock` (removed here, changed there)"
        );
        for (side, stands) in [(Side::Ours, None), (Side::Theirs, Some("Theirs"))] {
            let mut both = there.clone();
            both.apply_preferring(&edit, Some(side)).unwrap();
            assert_eq!(title(&both, "smock"), stands);
        }
    }

    #[test]
    fn two_new_records_of_one_name_wait_for_a_choice() {
        let edit = added("Ours");
        let mut there = board();
        there.take_in(&added("Theirs")).unwrap();
        assert_eq!(refusal(there.clone().apply(&edit)), "outfit `cape` is there already");
        for (side, stands) in [(Side::Ours, "Ours"), (Side::Theirs, "Theirs")] {
            let mut both = there.clone();
            both.apply_preferring(&edit, Some(side)).unwrap();
            assert_eq!(title(&both, "cape"), Some(stands));
        }
        let mut same = board();
        same.take_in(&edit).unwrap();
        assert!(same.apply(&edit).unwrap().is_empty(), "the same record twice is one");
    }

    #[test]
    fn a_change_of_nothing_into_nothing_has_no_say() {
        let nothing = Edit::new("", vec![Change::Outfit(id("smock"), Swap::new(None, None))]);
        let mut board = board();
        assert!(board.apply(&nothing).unwrap().is_empty());
        assert_eq!(board.records(), &records());
    }

    #[test]
    fn all_clashes_are_named_and_nothing_is_half_done() {
        let mut there = board();
        let edit = Edit::new("both", {
            let mut changes = there.fold(&[id("smock")], &id("gown")).unwrap().changes;
            changes.extend(retitled(&there, "Ours").changes);
            changes.extend(
                there.change_look(&id("club"), "", |look| look.says = "ours".to_owned()).unwrap().changes,
            );
            changes
        });
        there.take_in(&retitled(&there, "Theirs")).unwrap();
        let theirs = there.change_look(&id("club"), "", |look| look.says = "theirs".to_owned()).unwrap();
        there.take_in(&theirs).unwrap();
        let mut both = there.clone();
        assert_eq!(
            refusal(both.apply(&edit)),
            "changed on both sides: outfit `smock` (title); look `club` (says)"
        );
        assert_eq!(both.records(), there.records());
        let inverse = both.apply_preferring(&edit, Some(Side::Ours)).unwrap();
        assert_eq!(title(&both, "smock"), Some("Ours"));
        both.apply(&inverse).unwrap();
        assert_eq!(both.records(), there.records());
    }

    #[test]
    fn a_record_that_one_edit_changes_twice_goes_back_in_two_steps() {
        let first = retitled(&board(), "First");
        let mut between = board();
        between.apply(&first).unwrap();
        let second = retitled(&between, "Second");
        let changes = [first.changes, second.changes].concat();
        let both = Edit { label: "both".to_owned(), changes };
        assert_eq!(title(&sample::after(&both), "smock"), Some("Second"));
    }

    #[test]
    fn a_scene_taken_out_of_the_middle_comes_back_to_its_place() {
        let mut board = board();
        let before = Some(Arc::clone(&board.records().scenes[0]));
        let bare = Edit::new("cut", vec![Change::Scene(number("1"), Swap::new(before, None))]);
        let inverse = board.apply(&bare).unwrap();
        assert_eq!(numbers(&board), ["2", "3", "3A", "4"]);
        board.apply(&inverse).unwrap();
        assert_eq!(board.records(), &records());
    }

    #[test]
    fn scenes_that_two_hands_add_and_cut_find_their_places() {
        let add = |board: &Board, scene: &str, after: &str| {
            board.add_scene(sample::scene(scene), Some(&number(after))).unwrap()
        };
        let base = board();
        let cut = base.cut_scene(&number("3A")).unwrap();
        let ours = add(&base, "2A", "2");
        let mut there = base.clone();
        for edit in [add(&base, "3B", "3A"), add(&base, "2B", "2")] {
            there.apply(&edit).unwrap();
        }
        let before = there.clone();
        let undo_cut = there.apply(&cut).unwrap();
        assert_eq!(numbers(&there), ["1", "2", "2B", "3", "3B", "4"]);
        let undo_ours = there.apply(&ours).unwrap();
        assert_eq!(numbers(&there), ["1", "2", "2A", "2B", "3", "3B", "4"]);
        there.apply(&undo_ours).unwrap();
        there.apply(&undo_cut).unwrap();
        assert_eq!(there.records(), before.records());
    }

    #[test]
    fn two_hands_that_move_the_same_scenes_wait_for_a_choice() {
        let moved = |order: &[&str]| {
            let before = Arc::new(order_of(&records().scenes));
            let after = Arc::new(order.iter().map(|text| number(text)).collect());
            Edit::new("moved", vec![Change::SceneOrder(Swap::new(Some(before), Some(after)))])
        };
        let ours = moved(&["2", "1", "3", "3A", "4"]);
        let mut there = sample::after(&moved(&["1", "2", "3A", "3", "4"]));
        assert_eq!(
            refusal(there.apply(&ours)),
            "changed on both sides: the order of the scenes (as a whole)"
        );
        there.apply_preferring(&ours, Some(Side::Ours)).unwrap();
        assert_eq!(numbers(&there), ["2", "1", "3", "3A", "4"]);
    }

    #[test]
    fn an_order_that_leaves_scenes_out_puts_them_last_and_invents_none() {
        let before = Arc::new(order_of(&records().scenes));
        let after = Arc::new(vec![number("4"), number("77"), number("2")]);
        let edit = Edit::new("moved", vec![Change::SceneOrder(Swap::new(Some(before), Some(after)))]);
        assert_eq!(numbers(&sample::after(&edit)), ["4", "2", "1", "3", "3A"]);
    }

    #[test]
    fn of_two_scenes_with_one_number_none_is_taken_out() {
        let mut records = records();
        records.scenes.push(Arc::new(sample::scene("2")));
        let mut board = Board::new(records.clone());
        let cut = board.cut_scene(&number("2")).unwrap();
        assert_eq!(
            refusal(board.apply(&cut)),
            "two scenes have the number 2: give one of them a letter first"
        );
        let moved = Arc::new(["2", "1", "3", "2", "3A", "4"].map(number).to_vec());
        let before = Arc::new(order_of(&records.scenes));
        let edit = Edit::new("moved", vec![Change::SceneOrder(Swap::new(Some(before), Some(moved)))]);
        let inverse = board.apply(&edit).unwrap();
        assert_eq!(numbers(&board), ["2", "1", "3", "2", "3A", "4"]);
        assert_eq!(
            board.scenes().next().map(|scene| scene.wears.len()),
            Some(2),
            "the first stays the first"
        );
        board.apply(&inverse).unwrap();
        assert_eq!(board.records(), &records);
    }

    #[test]
    fn a_scene_does_not_change_its_number() {
        let before = Arc::clone(&records().scenes[0]);
        let after = Arc::new(sample::scene("9"));
        let edit = Edit::new("", vec![Change::Scene(number("1"), Swap::new(Some(before), Some(after)))]);
        assert_eq!(refusal(board().apply(&edit)), "scene 1 cannot become scene 9");
    }

    #[test]
    fn changes_of_one_record_in_different_fields_are_both_kept() {
        let edit = retitled(&board(), "Ours");
        let mut there = board();
        let theirs =
            there.change_outfit(&id("smock"), "", |outfit: &mut Outfit| outfit.notes = "theirs".to_owned());
        there.take_in(&theirs.unwrap()).unwrap();
        let before = there.clone();
        let inverse = there.apply(&edit).unwrap();
        let smock = there.outfit(&id("smock")).unwrap();
        assert_eq!((smock.title.as_str(), smock.notes.as_str()), ("Ours", "theirs"));
        there.apply(&inverse).unwrap();
        assert_eq!(there.records(), before.records());
    }
}
