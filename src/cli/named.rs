//! Which record of a board an argument means.

use super::failure::Failure;
use crate::board::{Board, CharacterId, Id, LookId};

/// As like an id, and it is probably meant.
const NEAR: f64 = 0.7;

/// As many names are listed where none is near.
const MOST_LISTED: usize = 12;

/// The character that an argument names.
pub(super) fn character(board: &Board, name: &str) -> Result<CharacterId, Failure> {
    let all = board.head().characters.iter().map(|character| (&character.id, character.name.as_str()));
    of("character", name, all.collect())
}

/// The look that an argument names.
pub(super) fn look(board: &Board, name: &str) -> Result<LookId, Failure> {
    let all = board.records().looks.iter().map(|(id, look)| (id, look.title.as_str()));
    of("look", name, all.collect())
}

fn of<K>(what: &str, name: &str, all: Vec<(&Id<K>, &str)>) -> Result<Id<K>, Failure> {
    if let Some((found, _)) = all.iter().find(|(id, _)| id.as_str() == name) {
        return Ok((*found).clone());
    }
    let failure = Failure::new(format!("there is no {what} `{name}` on this board"));
    let of_name = all.iter().find(|(_, title)| title.eq_ignore_ascii_case(name)).map(|(id, _)| id.as_str());
    let likeness = |id: &str| strsim::jaro_winkler(&name.to_lowercase(), id);
    let near = all.iter().map(|(id, _)| id.as_str()).filter(|id| likeness(id) >= NEAR);
    let nearest = near.max_by(|one, other| likeness(one).total_cmp(&likeness(other)));
    let failure = match of_name.or(nearest) {
        Some(id) => failure.hint(format!("did you mean `{id}`?")),
        None => failure,
    };
    let listed: Vec<&str> = all.iter().map(|(id, _)| id.as_str()).take(MOST_LISTED).collect();
    Err(match listed.as_slice() {
        [] => failure.hint("it has none yet"),
        ids if ids.len() < all.len() => failure.hint(format!("there are: {} …", ids.join(", "))),
        ids => failure.hint(format!("there are: {}", ids.join(", "))),
    })
}
