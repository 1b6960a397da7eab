//! What the pages are made from: the board, the look in focus, and what was reckoned.

use crate::board::{Board, Look, LookId};
use crate::screen::reckoning::Reckoned;
use crate::trade::length::Unit;
use crate::workroom::copies::plan::Garment;

/// A look as the workroom sees it.
pub struct Seen<'a> {
    pub board: &'a Board,
    pub id: &'a LookId,
    pub look: &'a Look,
    pub reckoned: &'a Reckoned,
    /// The piece, version and wearer in focus; `None` where the look has no piece.
    pub garment: Option<Garment>,
    pub unit: Unit,
}

impl Seen<'_> {
    /// What sums are counted in, with a space before it; nothing where the board does not say.
    pub fn currency(&self) -> String {
        match self.board.head().workroom.currency.as_str() {
            "" => String::new(),
            currency => format!(" {currency}"),
        }
    }
}
