//! Which character of a board an argument means.

use super::failure::Failure;
use crate::board::{Board, CharacterId};

/// As like an id, and it is probably meant.
const NEAR: f64 = 0.7;

/// The character that an argument names.
pub(super) fn named(board: &Board, name: &str) -> Result<CharacterId, Failure> {
    let ids = || board.head().characters.iter().map(|character| character.id.as_str());
    if let Some(found) = board.head().characters.iter().find(|character| character.id.as_str() == name) {
        return Ok(found.id.clone());
    }
    let failure = Failure::new(format!("there is no character `{name}` on this board"));
    let of_name = board.head().characters.iter().find(|character| character.name.eq_ignore_ascii_case(name));
    let likeness = |id: &str| strsim::jaro_winkler(&name.to_lowercase(), id);
    let near = ids().filter(|id| likeness(id) >= NEAR);
    let nearest = near.max_by(|one, other| likeness(one).total_cmp(&likeness(other)));
    let meant = of_name.map(|character| character.id.as_str()).or(nearest);
    let failure = match meant {
        Some(id) => failure.hint(format!("did you mean `{id}`?")),
        None => failure,
    };
    Err(match ids().collect::<Vec<_>>().as_slice() {
        [] => failure.hint("it has none yet"),
        ids => failure.hint(format!("there are: {}", ids.join(", "))),
    })
}
