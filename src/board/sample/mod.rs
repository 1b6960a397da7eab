//! A small board for tests, and a way to the strange ones: [`arbitrary`] records and [`operation`]s.
//!
//! The integration tests take this file in by its path, so that there is one sample and yet none in the public front:
//! it names nothing but what its parent has in scope from the board's own front.

#![allow(dead_code, reason = "each test crate uses its part")]
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a sample that does not read is a failed test")]

pub mod arbitrary;
pub mod operation;
mod workroom;

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use super::{Board, Edit, Id, Outfit, Records, Refused, Scene, SceneNumber};

/// Two characters, three periods with a gap between the second and the third, eight outfits (of which one is let go and
/// three are open), three looks, five scenes and two shooting days. No rule is broken.
pub fn board() -> Board {
    Board::new(records())
}

/// The records of [`board`].
pub fn records() -> Records {
    let outfits = json!({
        "smock": {"title": "Quay smock", "character": "odile", "worn": "1914", "recognition": 1},
        "club-wool": {
            "title": "Club wool", "character": "odile", "worn": "1926-08-14", "recognition": 5,
            "threads": ["green-cap"], "dressing": ["top button undone"],
            "pieces": [{"name": "costume", "cloth": "wool jersey", "colours": ["black", "ivory"]}],
        },
        "club-serge": {"title": "Club serge", "character": "odile", "worn": "1926~"},
        "crossing-wool": {"title": "Crossing wool", "character": "odile", "worn": "1927-07"},
        "gala-gown": {"title": "Gala gown", "character": "odile", "worn": "1933-03-02", "recognition": 3},
        "blackout-coat": {"title": "Blackout coat", "character": "odile", "worn": "1941"},
        "apron": {"title": "Apron", "character": "bridie", "worn": "1926", "let-go": "told by nobody"},
        "oilskins": {"title": "Oilskins", "character": "bridie", "worn": "1940"},
    });
    let looks = json!({
        "club": {
            "title": "Club", "character": "odile", "says": "she races", "treatment": "interpret",
            "base": "club-wool", "folded": ["club-serge", "crossing-wool"], "order": 10,
            "departures": [{"detail": "neckline", "was": "square", "becomes": "round", "why": "reads from afar"}],
            "threads": ["green-cap"],
        },
        "gown": {"title": "Gown", "character": "odile", "treatment": "copy", "base": "gala-gown", "order": 20},
        "rescue": {
            "title": "Rescue", "character": "bridie", "treatment": "invent", "period": "war", "order": 10,
        },
    });
    let head = json!({
        "shirr": 1, "id": "sample", "title": "Sample", "runtime": 10,
        "budget": {"looks": 4, "characters": {"odile": 3}, "periods": {"races": 2}},
        "periods": [
            {"id": "shore", "title": "The shore", "span": "1911/1924"},
            {"id": "races", "title": "The races", "span": "1925/1934"},
            {"id": "war", "title": "The war", "span": "1939/1945"},
        ],
        "characters": [{"id": "odile", "name": "Odile"}, {"id": "bridie", "name": "Bridie"}],
        "threads": [{"id": "green-cap", "title": "The green cap"}],
    });
    let scenes = [
        json!({"scene": 1, "date": "1914", "pages": 2, "wears": {"odile": null}}),
        json!({"scene": 2, "date": "1926-08", "pages": "1 3/8", "wears": {"odile": "club", "bridie": null}}),
        json!({"scene": 3, "date": "1933", "pages": "4/8", "wears": {"odile": "gown"}}),
        json!({"scene": "3A", "date": "1933", "wears": {"odile": "gown", "bridie": null}}),
        json!({"scene": 4, "date": "1941", "pages": 3, "wears": {"bridie": "rescue"}}),
    ];
    let schedule = json!([{"day": 1, "date": "2027-04-05", "scenes": [2, "3A"]}, {"day": 2, "scenes": [3]}]);
    Records {
        outfits: by_id(outfits),
        looks: by_id(looks),
        scenes: scenes.into_iter().map(|scene| Arc::new(read(scene))).collect(),
        schedule: Arc::new(read(schedule)),
        ..Records::of(Arc::new(read(head)))
    }
}

/// An outfit of this title and character.
pub fn outfit(title: &str, character: &str) -> Outfit {
    Outfit::titled(title, id(character))
}

/// A scene of this number, with nobody in it.
pub fn scene(number: &str) -> Scene {
    read(json!({"scene": number}))
}

/// Any record from its tree.
pub fn read<T: DeserializeOwned>(tree: Value) -> T {
    serde_json::from_value(tree).unwrap()
}

/// An id.
pub fn id<K>(text: &str) -> Id<K> {
    text.parse().unwrap()
}

/// Ids.
pub fn ids<K>(texts: &[&str]) -> Vec<Id<K>> {
    texts.iter().map(|text| id(text)).collect()
}

/// A scene number.
pub fn number(text: &str) -> SceneNumber {
    text.parse().unwrap()
}

/// The numbers of all scenes, in order.
pub fn numbers(board: &Board) -> Vec<String> {
    board.scenes().map(|scene| scene.number.to_string()).collect()
}

/// The sample after an edit, once it is sure that the inverse brings it back to the last record.
pub fn after(edit: &Edit) -> Board {
    let mut board = board();
    let inverse = board.apply(edit).unwrap();
    let mut back = board.clone();
    back.apply(&inverse).unwrap();
    assert_eq!(back.records(), &records(), "{} and back", edit.label);
    board
}

/// The sentence with which something was refused.
pub fn refusal<T>(result: Result<T, Refused>) -> String {
    result.err().unwrap().to_string()
}

/// The names of the outfits that a look holds, base first.
pub fn held(board: &Board, look: &str) -> Vec<String> {
    board.look(&id(look)).unwrap().outfits().map(ToString::to_string).collect()
}

fn by_id<K, T: DeserializeOwned>(trees: Value) -> BTreeMap<Id<K>, Arc<T>> {
    let trees = trees.as_object().unwrap().clone();
    trees.into_iter().map(|(name, tree)| (id(&name), Arc::new(read(tree)))).collect()
}
