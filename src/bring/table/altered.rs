//! What an edit from a table changes, record by record and field by field, in the words of the table.

use std::collections::BTreeSet;

use super::fields::{Field, Written};
use super::{Kind, names, outfits, scenes, schedule};
use crate::board::{Board, Change, CharacterId, Edit, Scene, ShootDay, Swap};

/// A record that becomes another, or a new one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Altered {
    /// Which one: `outfit `smock``, `scene 3`, `shooting day 2`.
    pub record: String,
    /// Whether it was not there before.
    pub is_new: bool,
    /// Its fields that differ.
    pub fields: Vec<AlteredField>,
}

/// A field that becomes another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AlteredField {
    /// Its heading.
    pub field: String,
    /// What it said; nothing where that was nothing.
    pub was: String,
    /// What it will say.
    pub becomes: String,
}

/// What an edit changes on this board, as it is before.
pub(super) fn altered(board: &Board, edit: &Edit) -> Vec<Altered> {
    let mut all = Vec::new();
    for change in &edit.changes {
        match change {
            Change::Outfit(id, swap) => {
                let record = format!("{} `{id}`", Kind::Outfits.noun());
                all.extend(of(board, record, swap, &outfits::FIELDS));
            }
            Change::Scene(number, swap) => {
                let record = format!("{} {number}", Kind::Scenes.noun());
                let fields = scenes::FIELDS.iter().filter(|field| field.heading.key != "eighths");
                if let Some(mut altered) = of(board, record, swap, fields) {
                    altered.fields.extend(worn(board, swap));
                    all.push(altered);
                }
            }
            Change::Schedule(swap) => all.extend(days(board, swap)),
            Change::Head(_)
            | Change::Look(..)
            | Change::SceneOrder(_)
            | Change::Cloth(..)
            | Change::Practice(_)
            | Change::Meeting(..) => {}
        }
    }
    all
}

fn of<'a, R: 'a>(
    board: &Board,
    record: String,
    swap: &Swap<R>,
    fields: impl IntoIterator<Item = &'a Field<R>>,
) -> Option<Altered> {
    let after = swap.after.as_deref()?;
    Some(between(board, record, swap.before.as_deref(), after, fields))
}

fn between<'a, R: 'a>(
    board: &Board,
    record: String,
    before: Option<&R>,
    after: &R,
    fields: impl IntoIterator<Item = &'a Field<R>>,
) -> Altered {
    let words = |field: &Field<R>, record: &R| words(&(field.written)(board, record));
    let fields = fields.into_iter().map(|field| AlteredField {
        field: field.heading.name.to_owned(),
        was: before.map(|before| words(field, before)).unwrap_or_default(),
        becomes: words(field, after),
    });
    let fields = fields.filter(|field| field.was != field.becomes).collect();
    Altered { record, is_new: before.is_none(), fields }
}

fn words(written: &Written) -> String {
    match written {
        Written::Text(text) => text.clone(),
        Written::Items(items) => items.join("; "),
        Written::Number(number) => number.to_string(),
    }
}

/// Who comes into a scene, or into another look.
fn worn(board: &Board, swap: &Swap<Scene>) -> Vec<AlteredField> {
    let wears = |scene: Option<&Scene>, who: &CharacterId| {
        scene
            .and_then(|scene| scene.wears.get(who))
            .map(|look| names::written_look(board, who, look.as_ref()))
            .unwrap_or_default()
    };
    let (before, after) = (swap.before.as_deref(), swap.after.as_deref());
    let cast: BTreeSet<&CharacterId> = [before, after]
        .into_iter()
        .flatten()
        .flat_map(|scene| scene.wears.iter().map(|(who, _)| who))
        .collect();
    let field = |who: &CharacterId| AlteredField {
        field: format!("Look of {}", names::written_character(board, who)),
        was: wears(before, who),
        becomes: wears(after, who),
    };
    cast.into_iter().map(field).filter(|field| field.was != field.becomes).collect()
}

fn days(board: &Board, swap: &Swap<Vec<ShootDay>>) -> Vec<Altered> {
    let before = swap.before.as_deref().map(Vec::as_slice).unwrap_or_default();
    let after = swap.after.as_deref().map(Vec::as_slice).unwrap_or_default();
    let day = |day: &ShootDay| {
        let record = format!("{} {}", Kind::Schedule.noun(), day.day);
        let was = before.iter().find(|was| was.day == day.day);
        between(board, record, was, day, &schedule::FIELDS)
    };
    after.iter().filter(|day| !before.contains(day)).map(day).collect()
}
