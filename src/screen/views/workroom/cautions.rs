//! Where somebody must be asked before the look is made or worn: by the tables of practice, and by words.

use super::lines::{Line, Lines, Tone, folded};
use crate::board::{Board, LookId, Practice};
use crate::plot::cautions as by_words;
use crate::workroom::{asks, words};

/// A caution, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    /// What can happen.
    what: String,
    /// What raised it.
    because: String,
    /// What to ask, and of whom.
    ask: String,
}

/// What every page of cautions ends with.
const CLOSING: &str =
    "Nothing here approves anything: whoever is named decides, by the local code and licensed practice.";

/// Every caution of a look.
pub fn of_look(board: &Board, practice: &Practice, id: &LookId) -> Vec<Caution> {
    let asked = asks::of_look(board, id).into_iter().map(|asked| {
        let mut because: Vec<String> = Vec::new();
        because.extend(asked.scene.as_ref().map(|scene| format!("scene {scene}")));
        because.extend(asked.action.as_ref().map(|id| words::says(practice, id).to_owned()));
        because.extend(asked.piece.as_ref().map(|piece| format!("the {piece}")));
        Caution {
            what: asked.ask.says.clone(),
            because: because.join(": "),
            ask: format!("Ask {}: {}", asked.ask.of, asked.ask.ask),
        }
    });
    let told = by_words::of_look(board, id).into_iter().map(|caution| {
        let place = match (&caution.scene, &caution.look) {
            (Some(scene), _) => format!("scene {scene}"),
            (None, _) => "the look itself".to_owned(),
        };
        Caution {
            what: caution.hazard.word().to_owned(),
            because: format!("‘{}’ in {place}", caution.word),
            ask: caution.hazard.ask().to_owned(),
        }
    });
    asked.chain(told).collect()
}

/// The cautions, each with all that raises it.
fn each(cautions: &[Caution]) -> impl Iterator<Item = &[Caution]> {
    cautions.chunk_by(|one, next| one.what == next.what && one.ask == next.ask)
}

/// How many there are, however often each is raised.
pub fn count(cautions: &[Caution]) -> usize {
    each(cautions).count()
}

/// The page.
pub fn page(cautions: &[Caution], wide: u16) -> Lines {
    let mut body = Vec::new();
    if cautions.is_empty() {
        body.extend(folded("No caution is raised. That clears nothing.", wide, 0, &Tone::Strong));
    }
    for same in each(cautions) {
        let Some(first) = same.first() else { continue };
        body.extend(folded(&format!("! {}", first.what), wide, 0, &Tone::Wrong));
        for caution in same {
            body.extend(folded(&caution.because, wide, 2, &Tone::Quiet));
        }
        body.extend(folded(&first.ask, wide, 2, &Tone::Plain));
    }
    body.push(Line::default());
    body.extend(folded(CLOSING, wide, 0, &Tone::Quiet));
    Lines { body, ..Lines::default() }
}
