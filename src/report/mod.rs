//! Reports: what the crew gets on paper or into its own tables.
//!
//! A report makes one [`Document`] from the board, a format writes any document; neither knows the other. So a new
//! report is one file, and so is a new format. Nothing here opens files or prints.

mod cautions;
pub mod document;
mod drafts;
mod formats;
mod kept;
mod looks;
mod meeting;
mod outfits;
pub mod plain;
mod plot;
mod scenes;
mod schedule;

pub use document::{Cell, Column, Document, Kind, OnPaper, Share, Table};
pub use drafts::against;
pub use formats::{Csv, Format, Html, Json, Markdown, Text, Unwritten, Xlsx};
pub use kept::kept_of;
pub use plain::Plain;

use crate::board::{Board, CharacterId};

/// The reports that there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Report {
    /// Look per scene: one row for each character in each scene.
    Scenes,
    /// The outfits, with all that is known of them.
    Outfits,
    /// The looks, with what they are made after and where they are seen.
    Looks,
    /// The plot: scenes down, characters across.
    Plot,
    /// The shooting days: who wears what, changes, first uses.
    Schedule,
    /// The minutes: decisions and questions of all meetings.
    Meeting,
    /// What the looks keep of the wardrobe, and what each of them is worth.
    Kept,
}

impl Report {
    /// All reports.
    pub const ALL: [Self; 7] =
        [Self::Scenes, Self::Outfits, Self::Looks, Self::Plot, Self::Schedule, Self::Meeting, Self::Kept];

    /// The report on this board.
    pub fn document(self, board: &Board) -> Document {
        match self {
            Self::Scenes => scenes::document(board),
            Self::Outfits => outfits::document(board),
            Self::Looks => looks::document(board),
            Self::Plot => plot::document(board),
            Self::Schedule => schedule::document(board),
            Self::Meeting => meeting::document(board),
            Self::Kept => kept::document(board, None),
        }
    }
}

/// Everybody who may be in a scene: the board's characters in their order, then names that scenes alone know.
fn cast(board: &Board) -> Vec<&CharacterId> {
    let mut cast: Vec<&CharacterId> = board.head().characters.iter().map(|character| &character.id).collect();
    for (character, _) in board.scenes().flat_map(|scene| scene.wears.iter()) {
        if !cast.contains(&character) {
            cast.push(character);
        }
    }
    cast
}
