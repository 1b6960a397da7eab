//! What the looks keep, kept up with the board: computed when it is drawn after a change, not in every frame.

use crate::board::{Board, CharacterId};
use crate::gather::{Keeping, Likeness};

/// What was measured, and for which version of the board.
#[derive(Default)]
pub struct Measure {
    at: Option<u64>,
    keeping: Keeping,
}

impl Measure {
    /// Takes up what has changed.
    pub fn refresh(&mut self, board: &Board, version: u64) {
        if self.at == Some(version) {
            return;
        }
        self.keeping.follow(board);
        self.at = Some(version);
    }

    /// The likeness of the outfits, as of the last refresh.
    pub fn likeness(&self) -> &Likeness {
        self.keeping.likeness()
    }

    /// What is kept of a character's outfits, or of all: 0 to 1. `None` where nothing is documented.
    pub fn kept(&self, who: Option<&CharacterId>) -> Option<f64> {
        let tally = match who {
            Some(who) => self.keeping.kept().characters.get(who).copied(),
            None => Some(self.keeping.kept().all),
        };
        tally.filter(|tally| tally.of > 0.0).map(|tally| tally.share())
    }
}
