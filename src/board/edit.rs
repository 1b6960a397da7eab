//! An edit is a value: the records that it replaces, each as it was and as it becomes.
//!
//! Because both sides are kept whole, the inverse is the same edit turned round, and one three-way merge serves
//! undo after a foreign change, two people on one folder, and the replay after a crash alike.
//! Limits: an edit that creates a record cannot be merged with another that creates the same one, and an edit reaches
//! only the first of two scenes that have one number.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::merge::FieldClash;
use super::rules::Broken;
use super::{
    Cloth, ClothId, Head, Look, LookId, Meeting, MeetingId, Outfit, OutfitId, Practice, RecordRef, Records,
    Scene, SceneNumber, ShootDay,
};

/// What a person did, as one step of undo.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Edit {
    /// In a few words, for the status line and the list of what can be undone.
    pub label: String,
    /// The records that it changes.
    pub changes: Vec<Change>,
}

/// One record as it was and as it becomes; `None` where there was none or there is none any more.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(bound(deserialize = "T: DeserializeOwned"))]
pub struct Swap<T> {
    /// As it was.
    #[serde(default = "none", skip_serializing_if = "Option::is_none")]
    pub before: Option<Arc<T>>,
    /// As it becomes.
    #[serde(default = "none", skip_serializing_if = "Option::is_none")]
    pub after: Option<Arc<T>>,
}

fn none<T>() -> Option<Arc<T>> {
    None
}

impl<T: PartialEq> Swap<T> {
    /// From one state to the other, where they are not the same.
    pub(super) fn if_any(before: Option<&Arc<T>>, after: Option<&Arc<T>>) -> Option<Self> {
        let same = match (before, after) {
            // Records that no edit touched are shared, and need no second look.
            (Some(before), Some(after)) => Arc::ptr_eq(before, after) || before == after,
            (before, after) => before.is_none() && after.is_none(),
        };
        (!same).then(|| Self::new(before.cloned(), after.cloned()))
    }

    fn lead_on(&mut self, next: &Self) -> bool {
        let leads_on = self.after == next.before;
        if leads_on {
            self.after.clone_from(&next.after);
        }
        leads_on
    }
}

impl<T> Swap<T> {
    /// From one state to the other.
    pub fn new(before: Option<Arc<T>>, after: Option<Arc<T>>) -> Self {
        Self { before, after }
    }

    /// From what stands after to what stood before.
    pub fn turned(&self) -> Self {
        Self { before: self.after.clone(), after: self.before.clone() }
    }
}

/// The change of one record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Change {
    /// `board.yaml`.
    Head(Swap<Head>),
    /// An outfit.
    Outfit(OutfitId, Swap<Outfit>),
    /// A look.
    Look(LookId, Swap<Look>),
    /// A scene. A new one goes to the end, unless a [`Change::SceneOrder`] puts it in its place.
    Scene(SceneNumber, Swap<Scene>),
    /// The scenes' order before and after the whole edit, whatever scenes it adds or cuts and wherever among its
    /// changes this one stands. Scenes that the order does not name go to the end.
    SceneOrder(Swap<Vec<SceneNumber>>),
    /// The shooting days.
    Schedule(Swap<Vec<ShootDay>>),
    /// A cloth.
    Cloth(ClothId, Swap<Cloth>),
    /// The board's own tables of practice.
    Practice(Swap<Practice>),
    /// A meeting.
    Meeting(MeetingId, Swap<Meeting>),
}

impl Change {
    /// The record that it changes.
    pub fn record(&self) -> RecordRef {
        match self {
            Self::Head(_) => RecordRef::Head,
            Self::Outfit(id, _) => RecordRef::Outfit(id.clone()),
            Self::Look(id, _) => RecordRef::Look(id.clone()),
            Self::Scene(number, _) => RecordRef::Scene(number.clone()),
            Self::SceneOrder(_) => RecordRef::SceneOrder,
            Self::Schedule(_) => RecordRef::Schedule,
            Self::Cloth(id, _) => RecordRef::Cloth(id.clone()),
            Self::Practice(_) => RecordRef::Practice,
            Self::Meeting(id, _) => RecordRef::Meeting(id.clone()),
        }
    }

    /// Becomes this change and then `next`, if `next` sets out from where this one of the same record ends.
    fn lead_on(&mut self, next: &Self) -> bool {
        match (self, next) {
            (Self::Head(swap), Self::Head(next)) => swap.lead_on(next),
            (Self::Outfit(_, swap), Self::Outfit(_, next)) => swap.lead_on(next),
            (Self::Look(_, swap), Self::Look(_, next)) => swap.lead_on(next),
            (Self::Scene(_, swap), Self::Scene(_, next)) => swap.lead_on(next),
            (Self::SceneOrder(swap), Self::SceneOrder(next)) => swap.lead_on(next),
            (Self::Schedule(swap), Self::Schedule(next)) => swap.lead_on(next),
            (Self::Cloth(_, swap), Self::Cloth(_, next)) => swap.lead_on(next),
            (Self::Practice(swap), Self::Practice(next)) => swap.lead_on(next),
            (Self::Meeting(_, swap), Self::Meeting(_, next)) => swap.lead_on(next),
            _ => false,
        }
    }

    fn turned(&self) -> Self {
        match self {
            Self::Head(swap) => Self::Head(swap.turned()),
            Self::Outfit(id, swap) => Self::Outfit(id.clone(), swap.turned()),
            Self::Look(id, swap) => Self::Look(id.clone(), swap.turned()),
            Self::Scene(number, swap) => Self::Scene(number.clone(), swap.turned()),
            Self::SceneOrder(swap) => Self::SceneOrder(swap.turned()),
            Self::Schedule(swap) => Self::Schedule(swap.turned()),
            Self::Cloth(id, swap) => Self::Cloth(id.clone(), swap.turned()),
            Self::Practice(swap) => Self::Practice(swap.turned()),
            Self::Meeting(id, swap) => Self::Meeting(id.clone(), swap.turned()),
        }
    }
}

impl Edit {
    /// An edit of these changes, one after the other. Steps that lead on from each other in one record become one, so
    /// that an edit put together from several is there already exactly when its last step is.
    pub fn new(label: impl Into<String>, changes: Vec<Change>) -> Self {
        let mut joined: Vec<Change> = Vec::with_capacity(changes.len());
        let mut places: HashMap<RecordRef, usize> = HashMap::new();
        for change in changes {
            let earlier = places.get(&change.record()).and_then(|at| joined.get_mut(*at));
            if earlier.is_some_and(|earlier| earlier.lead_on(&change)) {
                continue;
            }
            places.insert(change.record(), joined.len());
            joined.push(change);
        }
        Self { label: label.into(), changes: joined }
    }

    /// The edit that makes `after` of `before`: one change for each record in which they differ.
    pub fn between(label: impl Into<String>, before: &Records, after: &Records) -> Self {
        let mut changes = Vec::new();
        if let Some(swap) = Swap::if_any(Some(&before.head), Some(&after.head)) {
            changes.push(Change::Head(swap));
        }
        for (id, swap) in swaps(&before.outfits, &after.outfits) {
            changes.push(Change::Outfit(id, swap));
        }
        for (id, swap) in swaps(&before.looks, &after.looks) {
            changes.push(Change::Look(id, swap));
        }
        for (number, swap) in swaps(&by_number(&before.scenes), &by_number(&after.scenes)) {
            changes.push(Change::Scene(number, swap));
        }
        let (was, becomes) = (order_of(&before.scenes), order_of(&after.scenes));
        if let Some(swap) = Swap::if_any(Some(&Arc::new(was)), Some(&Arc::new(becomes))) {
            changes.push(Change::SceneOrder(swap));
        }
        if let Some(swap) = Swap::if_any(Some(&before.schedule), Some(&after.schedule)) {
            changes.push(Change::Schedule(swap));
        }
        for (id, swap) in swaps(&before.cloths, &after.cloths) {
            changes.push(Change::Cloth(id, swap));
        }
        if let Some(swap) = Swap::if_any(Some(&before.practice), Some(&after.practice)) {
            changes.push(Change::Practice(swap));
        }
        for (id, swap) in swaps(&before.meetings, &after.meetings) {
            changes.push(Change::Meeting(id, swap));
        }
        Self::new(label, changes)
    }

    /// Whether it changes nothing.
    pub fn is_empty(&self) -> bool {
        self.changes.is_empty()
    }

    /// The edit that takes this one back.
    pub fn inverse(&self) -> Self {
        Self { label: self.label.clone(), changes: self.changes.iter().rev().map(Change::turned).collect() }
    }

    /// The records that it changes.
    pub fn touched(&self) -> impl Iterator<Item = RecordRef> {
        self.changes.iter().map(Change::record)
    }
}

/// The numbers of all scenes, in their order.
pub(super) fn order_of(scenes: &[Arc<Scene>]) -> Vec<SceneNumber> {
    scenes.iter().map(|scene| scene.number.clone()).collect()
}

/// The first scene of each number.
fn by_number(scenes: &[Arc<Scene>]) -> BTreeMap<SceneNumber, Arc<Scene>> {
    scenes.iter().rev().map(|scene| (scene.number.clone(), Arc::clone(scene))).collect()
}

/// Where two maps differ, and how.
fn swaps<K: Ord + Clone, T: PartialEq>(
    before: &BTreeMap<K, Arc<T>>,
    after: &BTreeMap<K, Arc<T>>,
) -> Vec<(K, Swap<T>)> {
    let keys = before.keys().chain(after.keys().filter(|key| !before.contains_key(*key)));
    keys.filter_map(|key| Some((key.clone(), Swap::if_any(before.get(key), after.get(key))?))).collect()
}

/// Which side of a clash to take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// What the edit wanted.
    Ours,
    /// What stands there now.
    Theirs,
}

/// A record in which both sides changed the same fields.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// Which record.
    pub record: RecordRef,
    /// The fields.
    pub fields: Vec<FieldClash>,
}

/// Why a board would not take an edit.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refused {
    /// The record that the edit changes was taken away by another hand.
    #[error("{0} was removed meanwhile")]
    Gone(RecordRef),
    /// The name is taken.
    #[error("{0} is there already")]
    Taken(RecordRef),
    /// Both sides changed the same fields.
    #[error("changed on both sides: {}", said(.0))]
    Clash(Vec<Clash>),
    /// A rule would be broken.
    #[error("{}", joined(.0))]
    Broken(Vec<Broken>),
    /// What the trade does not do; the text says what to do instead.
    #[error("{0}")]
    Unfit(String),
}

fn said(clashes: &[Clash]) -> String {
    let one = |clash: &Clash| {
        let fields: Vec<&str> = clash.fields.iter().map(|field| field.field.as_str()).collect();
        format!("{} ({})", clash.record, fields.join(", "))
    };
    clashes.iter().map(one).collect::<Vec<_>>().join("; ")
}

fn joined(broken: &[Broken]) -> String {
    broken.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::sample::{board, id, number, records};
    use super::*;
    use crate::board::Board;

    #[test]
    fn an_edit_is_logged_in_the_words_of_the_files() {
        let edit = board().assign(&number("3A"), &id("bridie"), Some(&id("rescue"))).unwrap();
        let tree = serde_json::to_value(&edit).unwrap();
        let scene = |look| {
            json!({
                "scene": "3A", "date": 1933, "pages": 0, "wears": {"odile": "gown", "bridie": look},
            })
        };
        let swap = json!({"before": scene(json!(null)), "after": scene(json!("rescue"))});
        assert_eq!(
            tree,
            json!({"label": "scene 3A: Bridie wears Rescue", "changes": [{"scene": ["3A", swap]}]})
        );
        assert_eq!(serde_json::from_value::<Edit>(tree).unwrap(), edit);
    }

    #[test]
    fn what_was_not_there_is_left_out_of_the_log() {
        let outfit = crate::board::sample::outfit("Cape", "odile");
        let edit = board().add_outfit(&id("cape"), outfit).unwrap();
        let text = serde_json::to_string(&edit).unwrap();
        assert!(!text.contains("before"), "{text}");
        assert_eq!(serde_json::from_str::<Edit>(&text).unwrap(), edit);
    }

    #[test]
    fn the_inverse_of_the_inverse_is_the_edit() {
        let edit = board().cut_scene(&number("3A")).unwrap();
        assert_eq!(edit.inverse().inverse(), edit);
        assert_eq!(edit.inverse().label, edit.label);
    }

    #[test]
    fn the_edit_between_two_boards_names_only_records_that_differ() {
        let mut after = board();
        after.apply(&after.fold(&[id("smock")], &id("gown")).unwrap()).unwrap();
        after.apply(&after.cut_scene(&number("3A")).unwrap()).unwrap();
        let edit = Edit::between("", &records(), after.records());
        let expected = [
            RecordRef::Look(id("gown")),
            RecordRef::Scene(number("3A")),
            RecordRef::SceneOrder,
            RecordRef::Schedule,
        ];
        assert_eq!(edit.touched().collect::<Vec<_>>(), expected);
        let mut there = Board::new(records());
        there.take_in(&edit).unwrap();
        assert_eq!(there.records(), after.records());
    }

    #[test]
    fn a_refusal_says_what_stands_in_the_way() {
        let field = |name: &str| FieldClash { field: name.to_owned(), ..FieldClash::whole(&0) };
        let clashes = vec![
            Clash { record: RecordRef::Head, fields: vec![field("title"), field("budget.looks")] },
            Clash { record: RecordRef::Look(id("gown")), fields: vec![field("says")] },
        ];
        for (refused, sentence) in [
            (Refused::Gone(RecordRef::Outfit(id("smock"))), "outfit `smock` was removed meanwhile"),
            (Refused::Taken(RecordRef::Scene(number("3A"))), "scene 3A is there already"),
            (
                Refused::Clash(clashes),
                "changed on both sides: the board's head (title, budget.looks); look `gown` (says)",
            ),
            (Refused::Unfit("say why".to_owned()), "say why"),
        ] {
            assert_eq!(refused.to_string(), sentence);
        }
    }

    #[test]
    fn steps_of_one_record_become_one_and_are_there_already_when_the_last_is() {
        let first = board().raise_limit(&crate::board::Scope::Overall, 5, "because", "2026".parse().unwrap());
        let mut between = board();
        between.apply(first.as_ref().unwrap()).unwrap();
        let odile = crate::board::Scope::Character(id("odile"));
        let second = between.raise_limit(&odile, 6, "because", "2026".parse().unwrap());
        let both = Edit::new("both", [first.unwrap().changes, second.unwrap().changes].concat());
        assert_eq!(both.touched().collect::<Vec<_>>(), [RecordRef::Head]);
        let mut after = crate::board::sample::after(&both);
        assert_eq!(after.head().budget.raised.len(), 2);
        assert!(after.apply(&both).unwrap().is_empty());
    }

    #[test]
    fn steps_that_do_not_lead_on_from_each_other_stay_two() {
        let retitle = |title: &str| board().change_head("", |head| head.title = title.to_owned()).changes;
        let edit = Edit::new("both", [retitle("One"), retitle("Two")].concat());
        assert_eq!(edit.changes.len(), 2);
    }
}
