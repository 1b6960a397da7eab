//! Outfits, looks and stretches of time in a few words, for lists and questions.

use std::sync::Arc;

use crate::board::{Board, Change, CharacterId, Edit, LookId, OutfitId, Treatment};
use crate::screen::layers::Item;
use crate::trade::date::Day;

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

/// The looks of a character that are `wanted`, those nearest in time to a day first, with how far apart they are.
pub(super) fn nearest_looks(
    board: &Board,
    character: &CharacterId,
    day: Option<Day>,
    wanted: impl Fn(&LookId) -> bool,
) -> Vec<(Option<i64>, LookId)> {
    let apart = |id: &LookId| days_apart(day, board.look(id).and_then(|look| board.day_of_look(look)));
    let looks = board.looks_of_character(character).into_iter().filter(wanted);
    let mut looks: Vec<(Option<i64>, LookId)> = looks.map(|id| (apart(&id), id)).collect();
    looks.sort_by_cached_key(|(apart, id)| (apart.unwrap_or(i64::MAX), id.clone()));
    looks
}

/// How many days lie between two, where both are known.
pub(super) fn days_apart(one: Option<Day>, other: Option<Day>) -> Option<i64> {
    one.zip(other).map(|(one, other)| one.since(other).abs())
}

/// A look as a row of a list, with how far apart in time it is.
pub fn look_item(board: &Board, id: &LookId, apart: Option<i64>) -> Item {
    let Some(look) = board.look(id) else { return Item::new(id.to_string(), "not there") };
    let mut notes = Vec::new();
    notes.extend(apart.map(apart_words));
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
