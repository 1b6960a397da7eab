//! What other hands did to the folder, in words for the status line.

use super::fault::clean;
use crate::board::{Change, Edit, RecordRef, Swap};

/// One thing that happened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct News {
    /// In a sentence, safe to print.
    pub text: String,
    /// What kind of news.
    pub kind: NewsKind,
    /// The records that it concerns.
    pub records: Vec<RecordRef>,
}

/// What kind of news.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NewsKind {
    /// Records were changed, added or removed outside and are taken in.
    TakenIn,
    /// A file can no longer be read.
    Damaged,
    /// A file can be read again.
    Repaired,
    /// The folder itself is out of reach.
    Unreachable,
}

/// The news of an edit that another hand made.
pub(super) fn taken_in(edit: &Edit) -> Option<News> {
    // That the order changed says nothing new where scenes came or went.
    let scenes = edit.changes.iter().any(|change| matches!(change, Change::Scene(..)));
    let told: Vec<&Change> =
        edit.changes.iter().filter(|change| !(scenes && matches!(change, Change::SceneOrder(_)))).collect();
    let text = match told.as_slice() {
        [] => return None,
        [one] => sentence(one),
        several => format!("{} records changed outside", several.len()),
    };
    let records = told.into_iter().map(Change::record).collect();
    Some(News { text, kind: NewsKind::TakenIn, records })
}

fn sentence(change: &Change) -> String {
    let (what, did) = match change {
        Change::Head(_) => ("the board’s head".to_owned(), "changed"),
        Change::Outfit(id, swap) => (titled("outfit", swap, |outfit| &outfit.title, id.as_str()), did(swap)),
        Change::Look(id, swap) => (titled("look", swap, |look| &look.title, id.as_str()), did(swap)),
        Change::Scene(number, swap) => (format!("scene {number}"), did(swap)),
        Change::SceneOrder(_) => ("the order of the scenes".to_owned(), "changed"),
        Change::Schedule(_) => ("the schedule".to_owned(), "changed"),
        Change::Cloth(id, swap) => (titled("cloth", swap, |cloth| &cloth.title, id.as_str()), did(swap)),
        Change::Practice(_) => ("the tables of practice".to_owned(), "changed"),
        Change::Meeting(id, swap) => (format!("the meeting of {id}"), did(swap)),
    };
    format!("{what} {did} outside")
}

/// The most characters of a title in a sentence.
const LONGEST_TITLE: usize = 40;

fn titled<T>(kind: &str, swap: &Swap<T>, title: impl Fn(&T) -> &String, id: &str) -> String {
    let title = swap.after.as_deref().or(swap.before.as_deref()).map(title).filter(|title| !title.is_empty());
    format!("{kind} ‘{}’", clean(title.map_or(id, String::as_str), LONGEST_TITLE))
}

fn did<T>(swap: &Swap<T>) -> &'static str {
    match (&swap.before, &swap.after) {
        (None, _) => "added",
        (_, None) => "removed",
        _ => "changed",
    }
}
