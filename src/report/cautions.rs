//! What every report of what is worn says where somebody can get hurt: in a cell the kinds with the words that raised them and where those
//! stand, above the tables what to ask of whom.

use super::document::Cell;
use super::plain::Plain;
use crate::board::Board;
use crate::check::words::{listed, look_title};
use crate::plot::{Caution, Hazard};

/// What a report says once, whatever it warns of.
const CLOSING: &str = "A caution approves nothing and its absence clears nothing: whoever it names decides, by the local \
                       code and licensed practice. Cautions are raised by words of scenes and looks, which stand beside each.";

/// The kinds, each with the words that raised it: `water and cold: ‘wet’ in scenes 21 and 22, ‘cold’ in the look Gown`.
pub(super) fn cell(board: &Board, cautions: &[Caution]) -> Cell {
    Cell::list(hazards(cautions).into_iter().map(|hazard| {
        let of = cautions.iter().filter(|caution| caution.hazard == hazard);
        format!("{}: {}", hazard.word(), because(board, of))
    }))
}

/// What to ask about each kind that there is; nothing where there is none.
pub(super) fn asks(cautions: &[Caution]) -> Vec<Plain> {
    let hazards = hazards(cautions);
    let mut asks: Vec<Plain> =
        hazards.iter().map(|hazard| Plain::line(&format!("{}: {}", hazard.word(), hazard.ask()))).collect();
    if !asks.is_empty() {
        asks.push(Plain::line(CLOSING));
    }
    asks
}

fn hazards(cautions: &[Caution]) -> Vec<Hazard> {
    let mut hazards: Vec<Hazard> = cautions.iter().map(|caution| caution.hazard).collect();
    hazards.sort_unstable();
    hazards.dedup();
    hazards
}

/// What one word raised: in which scenes, and in which looks.
struct Raised<'a> {
    word: &'a str,
    scenes: Vec<String>,
    looks: Vec<&'a str>,
}

/// The words that raised cautions and where they stand, each word once, in the order in which they come.
fn because<'a>(board: &'a Board, cautions: impl Iterator<Item = &'a Caution>) -> String {
    let mut all: Vec<Raised<'a>> = Vec::new();
    for caution in cautions {
        let known = all.iter().position(|one| one.word.to_lowercase() == caution.word.to_lowercase());
        let at = known.unwrap_or_else(|| {
            all.push(Raised { word: &caution.word, scenes: Vec::new(), looks: Vec::new() });
            all.len() - 1
        });
        let (scene, look) = (&caution.scene, &caution.look);
        once(&mut all[at].scenes, scene.iter().map(ToString::to_string));
        once(&mut all[at].looks, look.iter().map(|id| look_title(board, id)));
    }
    all.iter().map(Raised::told).collect::<Vec<_>>().join(", ")
}

fn once<T: PartialEq>(to: &mut Vec<T>, more: impl Iterator<Item = T>) {
    for one in more {
        if !to.contains(&one) {
            to.push(one);
        }
    }
}

impl Raised<'_> {
    fn told(&self) -> String {
        let place = |noun: &str, names: &[String]| {
            let plural = if names.len() == 1 { "" } else { "s" };
            (!names.is_empty()).then(|| format!("in {noun}{plural} {}", listed(names)))
        };
        let looks: Vec<String> = self.looks.iter().map(ToString::to_string).collect();
        let places = [place("scene", &self.scenes), place("the look", &looks)];
        let places: Vec<String> = places.into_iter().flatten().collect();
        format!("‘{}’ {}", self.word, places.join(" and "))
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;
    use crate::plot::cautions::with_look;

    #[test]
    fn a_cell_says_which_words_raised_each_caution_and_where_they_stand() {
        let board = sample::board(json!({
            "looks": {"a": {"title": "Shift", "treatment": "invent", "notes": "Wet; by a candle."}},
            "scenes": [
                {"scene": 1, "action": "Wet.", "wears": {"ada": "a"}},
                {"scene": "2A", "action": "wet again", "wears": {"ada": "a"}},
                {"scene": 3, "action": "Into the sea.", "wears": {"ada": "a"}},
            ],
        }));
        let cautions = with_look(&board, &"a".parse().unwrap());
        assert_eq!(
            cell(&board, &cautions),
            Cell::list([
                "fire: ‘candle’ in the look Shift",
                "water and cold: ‘Wet’ in scenes 1 and 2A and in the look Shift, ‘sea’ in scene 3",
            ])
        );
        assert_eq!(cell(&board, &[]), Cell::Empty);
        assert_eq!(asks(&cautions).len(), 3);
    }
}
