//! Outfits, looks and stretches of time in a few words, for lists and questions.

use std::sync::Arc;

use crate::board::{Board, Change, Edit, LookId, OutfitId, Treatment};
use crate::screen::layers::Item;

/// Treatments with what they mean.
pub(super) fn treatment_names(of: &[Treatment]) -> Vec<String> {
    let say = |treatment: &Treatment| {
        let what = match treatment {
            Treatment::Copy => "copies its base",
            Treatment::Interpret => "interprets its base",
            Treatment::Invent => "invented: no source covers it",
        };
        format!("{} {what}", treatment.mark())
    };
    of.iter().map(say).collect()
}

/// Writes into a look that `edit` makes what it says.
pub(super) fn say_of(edit: &mut Edit, id: &LookId, says: &str) {
    for change in &mut edit.changes {
        if let Change::Look(look, swap) = change
            && look == id
            && let Some(after) = &mut swap.after
        {
            Arc::make_mut(after).says = says.to_owned();
        }
    }
}

/// An outfit in a few words: date and title.
pub fn outfit_words(board: &Board, id: &OutfitId) -> String {
    match board.outfit(id) {
        Some(outfit) => match &outfit.worn {
            Some(date) => format!("{}, {}", outfit.title, date.short()),
            None => outfit.title.clone(),
        },
        None => format!("{id} (not there)"),
    }
}

/// A look as a row of a list, with how far apart in time it is.
pub fn look_item(board: &Board, id: &LookId, apart: Option<i64>) -> Item {
    let Some(look) = board.look(id) else { return Item::new(id.to_string(), "not there") };
    let mut notes = Vec::new();
    if let Some(days) = apart.filter(|days| *days != i64::MAX) {
        notes.push(apart_words(days));
    }
    if let Some(period) = board.relations().period_of_look(id) {
        notes.push(board.title_of(period).to_owned());
    }
    Item::new(&look.title, notes.join(" · ")).marked(look.treatment.mark())
}

/// How far apart in time, in the words of a calendar.
pub fn apart_words(days: i64) -> String {
    match days {
        0 => "on the same day".to_owned(),
        1 => "1 day apart".to_owned(),
        2..=60 => format!("{days} days apart"),
        61..=730 => format!("{} months apart", days / 30),
        _ => format!("{} years apart", days / 365),
    }
}

/// So many outfits.
pub fn count_words(count: usize) -> String {
    if count == 1 { "1 outfit".to_owned() } else { format!("{count} outfits") }
}
