//! An edit is a value: the records that it replaces, each as it was and as it becomes.
//!
//! Because both sides are kept whole, the inverse is the same edit turned round, and one three-way merge serves
//! undo after a foreign change, two people on one folder, and the replay after a crash alike.
//! Limits: an edit that creates a record cannot be merged with another that creates the same one.

use std::sync::Arc;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::merge::{self, FieldClash};
use super::rules::Broken;
use super::{Head, Look, LookId, Outfit, OutfitId, RecordRef, Records, Scene, SceneNumber, ShootDay};

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

impl<T> Swap<T> {
    /// From one state to the other.
    pub fn new(before: Option<Arc<T>>, after: Option<Arc<T>>) -> Self {
        Self { before, after }
    }

    fn turned(&self) -> Self {
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
    /// A scene. A new one goes to the end; a [`Change::SceneOrder`] puts it in its place.
    Scene(SceneNumber, Swap<Scene>),
    /// The scenes' order: every number once.
    SceneOrder(Swap<Vec<SceneNumber>>),
    /// The shooting days.
    Schedule(Swap<Vec<ShootDay>>),
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
        }
    }
}

impl Edit {
    /// An edit of these changes.
    pub fn new(label: impl Into<String>, changes: Vec<Change>) -> Self {
        Self { label: label.into(), changes }
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

/// Applies all changes to `records` and returns the inverse. On an error `records` is half changed: throw it away.
pub(super) fn settle(records: &mut Records, edit: &Edit, side: Option<Side>) -> Result<Edit, Refused> {
    let mut undo = Vec::with_capacity(edit.changes.len());
    let mut clashes = Vec::new();
    for change in &edit.changes {
        match settle_one(records, change, side) {
            Ok(inverse) => undo.push(inverse),
            Err(Refused::Clash(more)) => clashes.extend(more),
            Err(other) => return Err(other),
        }
    }
    if !clashes.is_empty() {
        return Err(Refused::Clash(clashes));
    }
    undo.reverse();
    Ok(Edit { label: edit.label.clone(), changes: undo })
}

fn settle_one(records: &mut Records, change: &Change, side: Option<Side>) -> Result<Change, Refused> {
    let record = change.record();
    Ok(match change {
        Change::Head(swap) => {
            let now = Arc::clone(&records.head);
            let next =
                outcome(&record, Some(&now), swap, side)?.ok_or_else(|| Refused::Gone(record.clone()))?;
            records.head = Arc::clone(&next);
            Change::Head(Swap::new(Some(next), Some(now)))
        }
        Change::Outfit(id, swap) => {
            let now = records.outfits.get(id).cloned();
            let next = outcome(&record, now.as_ref(), swap, side)?;
            match &next {
                Some(outfit) => records.outfits.insert(id.clone(), Arc::clone(outfit)),
                None => records.outfits.remove(id),
            };
            Change::Outfit(id.clone(), Swap::new(next, now))
        }
        Change::Look(id, swap) => {
            let now = records.looks.get(id).cloned();
            let next = outcome(&record, now.as_ref(), swap, side)?;
            match &next {
                Some(look) => records.looks.insert(id.clone(), Arc::clone(look)),
                None => records.looks.remove(id),
            };
            Change::Look(id.clone(), Swap::new(next, now))
        }
        Change::Scene(number, swap) => {
            let at = records.scenes.iter().position(|scene| scene.number == *number);
            let now = at.map(|at| Arc::clone(&records.scenes[at]));
            let next = outcome(&record, now.as_ref(), swap, side)?;
            match (at, &next) {
                (Some(at), Some(scene)) => records.scenes[at] = Arc::clone(scene),
                (None, Some(scene)) => records.scenes.push(Arc::clone(scene)),
                (Some(at), None) => drop(records.scenes.remove(at)),
                (None, None) => {}
            }
            Change::Scene(number.clone(), Swap::new(next, now))
        }
        Change::SceneOrder(swap) => {
            let now: Arc<Vec<SceneNumber>> =
                Arc::new(records.scenes.iter().map(|scene| scene.number.clone()).collect());
            let next = outcome(&record, Some(&now), swap, side)?.unwrap_or_else(|| Arc::clone(&now));
            let place = |scene: &Arc<Scene>| next.iter().position(|number| *number == scene.number);
            records.scenes.sort_by_cached_key(|scene| place(scene).unwrap_or(usize::MAX));
            let became = Arc::new(records.scenes.iter().map(|scene| scene.number.clone()).collect());
            Change::SceneOrder(Swap::new(Some(became), Some(now)))
        }
        Change::Schedule(swap) => {
            let now = Arc::clone(&records.schedule);
            let next =
                outcome(&record, Some(&now), swap, side)?.ok_or_else(|| Refused::Gone(record.clone()))?;
            records.schedule = Arc::clone(&next);
            Change::Schedule(Swap::new(Some(next), Some(now)))
        }
    })
}

/// What a record becomes when `swap` is applied to what stands there now.
fn outcome<T>(
    record: &RecordRef,
    now: Option<&Arc<T>>,
    swap: &Swap<T>,
    side: Option<Side>,
) -> Result<Option<Arc<T>>, Refused>
where
    T: Serialize + DeserializeOwned + PartialEq,
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
        (Some(_), Some(_), None) => Err(Refused::Gone(record.clone())),
        (None, Some(_), Some(_)) => Err(Refused::Taken(record.clone())),
        // It was to be taken away, and another hand changed it meanwhile.
        (_, None, Some(now)) => match side {
            Some(Side::Ours) => Ok(None),
            Some(Side::Theirs) => Ok(Some(Arc::clone(now))),
            None => {
                let fields = vec![FieldClash::whole(&**now)];
                Err(Refused::Clash(vec![Clash { record: record.clone(), fields }]))
            }
        },
        (_, _, None) => Ok(swap.after.clone()),
    }
}
