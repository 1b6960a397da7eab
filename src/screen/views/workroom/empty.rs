//! What a page says where the board knows nothing for it yet: what it is for, and what to do first.

use super::lines::{Line, Lines, Tone, folded};
use super::seen::Seen;
use crate::workroom::fit;

/// The look has no pieces.
pub fn no_pieces(wide: u16) -> Lines {
    let mut body = Vec::new();
    body.extend(folded("This look has no pieces yet, so there is nothing to make.", wide, 0, &Tone::Strong));
    body.push(Line::default());
    body.extend(folded(
        "W goes to the look in the list of looks: enter its fields with tab, and add a piece there. Then come back here \
         with W to measure it, plan its copies, and choose its cloth.",
        wide,
        0,
        &Tone::Plain,
    ));
    Lines { body, ..Lines::default() }
}

/// The piece has no measures.
pub fn no_measures(seen: &Seen<'_>, piece: &str, wide: u16) -> Vec<Line> {
    let mut body = vec![Line::default()];
    body.extend(folded(&format!("No measures of the {piece} yet."), wide, 0, &Tone::Strong));
    body.push(Line::default());
    let who = seen.board.who_is(&fit::wearer_of(seen.board, seen.look)).to_owned();
    let steps = [
        "First: a adds a measure and the rule that carries it over from the original: it keeps the original's ease, its \
         proportion, its place on the body, or its size."
            .to_owned(),
        "Then: go to its columns with ← →, and press enter to write what the original garment measured, the body that wore \
         it, and the body that will."
            .to_owned(),
        format!("The last column is what is cut for {who}; f notes what a fitting found."),
        "The other pages fill from the same look: tab goes on to them.".to_owned(),
    ];
    for step in steps {
        body.extend(folded(&step, wide, 0, &Tone::Plain));
    }
    body
}
