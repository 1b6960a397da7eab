//! What every report says where somebody can get hurt: in a cell the kinds, above the tables what to ask of whom.

use super::document::Cell;
use super::plain::Plain;
use crate::plot::{Caution, Hazard};

/// What a report says once, whatever it warns of.
const CLOSING: &str = "A caution approves nothing and its absence clears nothing: whoever it names decides, by the local \
                       code and licensed practice. Cautions are raised by words of scenes and looks.";

/// The kinds, in a cell.
pub(super) fn cell(cautions: &[Caution]) -> Cell {
    Cell::list(cautions.iter().map(|caution| caution.hazard.word()))
}

/// What to ask about each kind that there is; nothing where there is none.
pub(super) fn asks<'a>(cautions: impl IntoIterator<Item = &'a Caution>) -> Vec<Plain> {
    let mut hazards: Vec<Hazard> = cautions.into_iter().map(|caution| caution.hazard).collect();
    hazards.sort_unstable();
    hazards.dedup();
    let mut asks: Vec<Plain> =
        hazards.iter().map(|hazard| Plain::line(&format!("{}: {}", hazard.word(), hazard.ask()))).collect();
    if !asks.is_empty() {
        asks.push(Plain::line(CLOSING));
    }
    asks
}
