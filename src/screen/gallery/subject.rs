//! What a picture is of.

use crate::board::{Board, Look, Outfit, PicturePath, Piece};

/// What is to be seen.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Subject {
    /// A picture in the board's folder.
    File(PicturePath),
    /// The flat of these pieces with this outline.
    Flat {
        /// What is drawn.
        pieces: Vec<Piece>,
        /// Its outline, in the record's words.
        silhouette: String,
    },
}

impl Subject {
    /// An outfit's first picture; its flat where it has none.
    pub fn of_outfit(outfit: &Outfit) -> Self {
        outfit.pictures.first().map_or_else(|| Self::flat_of(outfit), |path| Self::File(path.clone()))
    }

    /// An outfit's flat.
    pub fn flat_of(outfit: &Outfit) -> Self {
        Self::Flat { pieces: outfit.pieces.clone(), silhouette: outfit.silhouette.clone() }
    }

    /// A look's flat; where it says nothing of its pieces, what is seen of its base.
    pub fn of_look(board: &Board, look: &Look) -> Self {
        let base = look.base.as_ref().and_then(|base| board.outfit(base));
        match base {
            Some(base) if look.pieces.is_empty() => Self::of_outfit(base),
            _ => Self::Flat {
                pieces: look.pieces.clone(),
                silhouette: base.map_or(String::new(), |base| base.silhouette.clone()),
            },
        }
    }

    /// Whether it is drawn, and so no evidence.
    pub fn is_drawn(&self) -> bool {
        matches!(self, Self::Flat { .. })
    }
}
