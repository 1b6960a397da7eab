//! Reports: what the crew gets on paper or into its own tables.
//!
//! A report makes one [`Document`] from the board, a format writes any document; neither knows the other. So a new
//! report is one file, and so is a new format. Nothing here opens files or prints.

mod build;
mod buy;
mod cautions;
mod copies;
mod cost;
pub mod document;
mod drafts;
pub mod figure;
mod formats;
mod kept;
mod looks;
#[cfg(test)]
mod made;
mod meeting;
mod outfits;
pub mod plain;
mod plot;
pub mod poster;
mod scenes;
mod schedule;

pub use document::{Cell, Column, Document, Kind, OnPaper, Share, Table};
pub use drafts::against;
pub use figure::{Figure, Picture};
pub use formats::{Csv, Format, Html, Json, Markdown, Text, Unwritten, Xlsx};
pub use kept::kept_of;
pub use plain::Plain;

use crate::album::Album;
use crate::board::{Board, CharacterId, LookId};

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
    /// The build sheets: of each look what the workroom needs to make it.
    Build,
    /// Of each cloth how much to buy, for how much, and by when.
    Buy,
    /// How many copies of each version, why, and where each is on each day.
    Copies,
    /// What the looks cost, and what that is made of.
    Cost,
}

impl Report {
    /// All reports.
    pub const ALL: [Self; 11] = [
        Self::Scenes,
        Self::Outfits,
        Self::Looks,
        Self::Plot,
        Self::Schedule,
        Self::Meeting,
        Self::Kept,
        Self::Build,
        Self::Buy,
        Self::Copies,
        Self::Cost,
    ];

    /// The report on this board, with pictures where there is an album to find them in.
    pub fn document(self, board: &Board, album: Option<&Album>) -> Document {
        match self {
            Self::Scenes => scenes::document(board),
            Self::Outfits => outfits::document(board),
            Self::Looks => looks::document(board, album),
            Self::Plot => plot::document(board),
            Self::Schedule => schedule::document(board),
            Self::Meeting => meeting::document(board, album),
            Self::Kept => kept::document(board, None),
            Self::Build => build::document(board, album, None),
            Self::Buy => buy::document(board),
            Self::Copies => copies::document(board),
            Self::Cost => cost::document(board),
        }
    }
}

/// The build sheet of one look.
pub fn build_of(board: &Board, album: Option<&Album>, look: &LookId) -> Document {
    build::document(board, album, Some(look))
}

/// A look and whose it is: `Odile Maren: The crossing black`; the id where there is no such look.
fn whose(board: &Board, id: &LookId) -> String {
    let of = |look: &crate::board::Look| format!("{}: {}", board.name_of(&look.character), look.title);
    board.look(id).map_or_else(|| id.to_string(), of)
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
