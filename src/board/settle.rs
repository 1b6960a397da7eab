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
