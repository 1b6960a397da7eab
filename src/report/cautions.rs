//! What every report of what is worn says where somebody can get hurt: in a cell the kinds with the words that raised them and where those
//! stand, above the tables what to ask of whom.

use super::document::Cell;
use super::plain::Plain;
use crate::board::{Board, LookId, Scene};
use crate::check::words::{listed, look_title};
use crate::plot::{self, Caution, Hazard};
use crate::workroom::asks::{self, Asked};

/// What a report says once, whatever it warns of.
const CLOSING: &str = "A caution approves nothing and its absence clears nothing: whoever it names decides, by the local \
                       code and licensed practice. Cautions are raised by words of scenes and looks, which stand beside each, \
                       and by what scenes say is done in which cloth.";

/// What can hurt.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Raised {
    /// By a word of a scene or a look.
    ByWord(Caution),
    /// By what a scene says is done, in which look and cloth.
    ByDeed(Asked),
}

/// What a scene raises, by itself and by the looks in it.
pub(super) fn in_scene(board: &Board, scene: &Scene) -> Vec<Raised> {
    both(plot::cautions::in_scene(board, scene), asks::in_scene(board, scene))
}

/// What a scene raises, whoever wears what in it.
pub(super) fn of_scene(scene: &Scene) -> Vec<Raised> {
    both(plot::cautions::of_scene(scene), Vec::new())
}

/// What a look raises in one scene: by itself, and by what is done in it there.
pub(super) fn of_look_in(board: &Board, id: &LookId, scene: &Scene) -> Vec<Raised> {
    let done = asks::in_scene(board, scene).into_iter().filter(|asked| asked.look == *id).collect();
    both(plot::cautions::of_look_alone(board, id), done)
}

/// What a look raises, by itself and in its scenes.
pub(super) fn with_look(board: &Board, id: &LookId) -> Vec<Raised> {
    both(plot::cautions::with_look(board, id), asks::of_look(board, id))
}

fn both(by_word: Vec<Caution>, by_deed: Vec<Asked>) -> Vec<Raised> {
    by_word.into_iter().map(Raised::ByWord).chain(by_deed.into_iter().map(Raised::ByDeed)).collect()
}

/// The kinds, each with the words that raised it, `water and cold: ‘wet’ in scenes 21 and 22, ‘cold’ in the look Gown`;
/// then what is done, `cold water: in scene 27, in the look Gown`.
pub(super) fn cell(board: &Board, raised: &[Raised]) -> Cell {
    let cautions = by_word(raised);
    let words = hazards(&cautions).into_iter().map(|hazard| {
        let of = cautions.iter().filter(|caution| caution.hazard == hazard);
        format!("{}: {}", hazard.word(), because(board, of.copied()))
    });
    let deeds = once_each(raised).into_iter().map(|asked| {
        let of = by_deed(raised).filter(|other| other.ask.caution == asked.ask.caution);
        let mut told = Told { word: String::new(), scenes: Vec::new(), looks: Vec::new() };
        for one in of {
            once(&mut told.scenes, one.scene.iter().map(ToString::to_string));
            once(&mut told.looks, [look_title(board, &one.look)].into_iter());
        }
        format!("{}: {}", name(asked), told.places())
    });
    Cell::list(words.chain(deeds))
}

/// What to ask about each kind that there is; nothing where there is none.
pub(super) fn asks(raised: &[Raised]) -> Vec<Plain> {
    let cautions = by_word(raised);
    let mut asks: Vec<Plain> = hazards(&cautions)
        .iter()
        .map(|hazard| Plain::line(&format!("{}: {}", hazard.word(), hazard.ask())))
        .collect();
    asks.extend(once_each(raised).into_iter().map(|asked| {
        let ask = &asked.ask;
        let said =
            format!("Ask before it is done: {}. {} Ask {}: {}", name(asked), ask.says, ask.of, ask.ask);
        Plain::line(&said)
    }));
    if !asks.is_empty() {
        asks.push(Plain::line(CLOSING));
    }
    asks
}

/// What a caution of the tables is called.
fn name(asked: &Asked) -> String {
    asked.ask.caution.as_str().replace('-', " ")
}

fn by_word(raised: &[Raised]) -> Vec<&Caution> {
    let mut all = Vec::new();
    for one in raised {
        if let Raised::ByWord(caution) = one {
            all.push(caution);
        }
    }
    all
}

fn by_deed(raised: &[Raised]) -> impl Iterator<Item = &Asked> {
    raised.iter().filter_map(|one| match one {
        Raised::ByDeed(asked) => Some(asked),
        Raised::ByWord(_) => None,
    })
}

/// Each caution of the tables once, in the order in which they come.
fn once_each(raised: &[Raised]) -> Vec<&Asked> {
    let mut all: Vec<&Asked> = Vec::new();
    for asked in by_deed(raised) {
        if !all.iter().any(|known| known.ask.caution == asked.ask.caution) {
            all.push(asked);
        }
    }
    all
}

fn hazards(cautions: &[&Caution]) -> Vec<Hazard> {
    let mut hazards: Vec<Hazard> = cautions.iter().map(|caution| caution.hazard).collect();
    hazards.sort_unstable();
    hazards.dedup();
    hazards
}

/// What one word or deed raised: in which scenes, and in which looks.
struct Told<'a> {
    word: String,
    scenes: Vec<String>,
    looks: Vec<&'a str>,
}

/// The words that raised cautions and where they stand, each word once, in the order in which they come.
fn because<'a>(board: &'a Board, cautions: impl Iterator<Item = &'a Caution>) -> String {
    let mut all: Vec<Told<'a>> = Vec::new();
    for caution in cautions {
        let known = all.iter().position(|one| one.word.to_lowercase() == caution.word.to_lowercase());
        let at = known.unwrap_or_else(|| {
            all.push(Told { word: caution.word.clone(), scenes: Vec::new(), looks: Vec::new() });
            all.len() - 1
        });
        let (scene, look) = (&caution.scene, &caution.look);
        once(&mut all[at].scenes, scene.iter().map(ToString::to_string));
        once(&mut all[at].looks, look.iter().map(|id| look_title(board, id)));
    }
    all.iter().map(Told::told).collect::<Vec<_>>().join(", ")
}

fn once<T: PartialEq>(to: &mut Vec<T>, more: impl Iterator<Item = T>) {
    for one in more {
        if !to.contains(&one) {
            to.push(one);
        }
    }
}

impl Told<'_> {
    fn told(&self) -> String {
        format!("‘{}’ {}", self.word, self.places())
    }

    /// `in scenes 1 and 2A and in the look Shift`.
    fn places(&self) -> String {
        let place = |noun: &str, names: &[String]| {
            let plural = if names.len() == 1 { "" } else { "s" };
            (!names.is_empty()).then(|| format!("in {noun}{plural} {}", listed(names)))
        };
        let looks: Vec<String> = self.looks.iter().map(ToString::to_string).collect();
        let places = [place("scene", &self.scenes), place("the look", &looks)];
        places.into_iter().flatten().collect::<Vec<_>>().join(" and ")
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;

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
        assert_eq!(in_scene(&board, board.scenes().next().unwrap()).len(), 3);
        assert_eq!(asks(&cautions).len(), 3);
    }

    #[test]
    fn what_is_done_is_told_with_its_scenes_and_whom_to_ask() {
        let board = sample::board(json!({
            "looks": {"a": {"title": "Shift", "treatment": "invent", "pieces": [{"name": "shift"}]}},
            "scenes": [
                {"scene": 1, "wears": {"ada": "a"}, "does": {"ada": [{"action": "mill"}]}},
                {"scene": 4, "wears": {"ada": "a"}, "does": {"ada": [{"action": "mill"}]}},
            ],
            "practice": {"actions": [{"action": "mill", "does": "soil"}], "cautions": [
                {"caution": "loose-by-it", "actions": ["mill"], "says": "It draws in.", "ask": "What is loose.", "of": "the safety lead"},
            ]},
        }));
        let both: Vec<Raised> = board.scenes().flat_map(|scene| in_scene(&board, scene)).collect();
        assert_eq!(cell(&board, &both), Cell::list(["loose by it: in scenes 1 and 4 and in the look Shift"]));
        let told: Vec<String> = asks(&both).iter().map(ToString::to_string).collect();
        assert_eq!(
            told[0],
            "Ask before it is done: loose by it. It draws in. Ask the safety lead: What is loose."
        );
        assert_eq!(told.len(), 2);
    }
}
