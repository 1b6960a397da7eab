//! What can be done to an outfit or a look, from whichever view it is in focus.
//!
//! Each asks what it must know by a layer, and makes one edit.

mod adding;
mod bases;
mod looks;
mod outfits;
#[cfg(test)]
mod tests;
mod words;

use crate::board::{Board, CharacterId, Edit, Refused, SceneNumber, Treatment};

pub use words::{apart_words, count_words, look_item, outfit_words};

/// The treatments that a look with a base may have.
const SOURCED: [Treatment; 2] = [Treatment::Copy, Treatment::Interpret];

/// The edit that leaves a character in a scene without a look.
///
/// # Errors
/// As [`Board::assign`].
pub fn undress(board: &Board, number: &SceneNumber, character: &CharacterId) -> Result<Edit, Refused> {
    let label = format!("scene {number}: {} has no look yet", board.name_of(character));
    board.assign(number, character, None).map(|edit| Edit { label, ..edit })
}
