//! What outfits and looks share: pieces, and how they are worn.

use serde::{Deserialize, Serialize};

use crate::trade::colour::Colour;

/// One garment or accessory.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Piece {
    /// What it is.
    pub name: String,
    /// What it is made of, as a buyer would name it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub cloth: String,
    /// Its colours, main first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub colours: Vec<Colour>,
    /// Its cut and trim, as a cutter would name them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub details: Vec<String>,
}

/// The main and second colour of a set of pieces: those that come first, piece by piece.
pub fn swatches(pieces: &[Piece]) -> (Option<&Colour>, Option<&Colour>) {
    let main = pieces.iter().find_map(|piece| piece.colours.first());
    let second = pieces
        .iter()
        .flat_map(|piece| &piece.colours)
        .find(|colour| main.is_some_and(|main| main.rgb() != colour.rgb()));
    (main, second)
}
