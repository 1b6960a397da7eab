//! Changes: a character's nth look in story order. A new number is given whenever the look differs from the one
//! before; a scene in which the look is not decided yet has none and stands between nothing.

use std::collections::HashMap;

use crate::board::{Board, CharacterId, LookId};

/// The number of each character's change in each scene.
#[derive(Debug, Default)]
pub struct Changes<'a> {
    numbers: HashMap<(usize, &'a CharacterId), u32>,
}

impl<'a> Changes<'a> {
    /// Counts them through the whole story.
    pub fn of(board: &'a Board) -> Self {
        let mut last: HashMap<&CharacterId, (u32, &LookId)> = HashMap::new();
        let mut numbers = HashMap::new();
        for (at, scene) in board.scenes().enumerate() {
            for (character, look) in scene.wears.iter() {
                let Some(look) = look else { continue };
                let number = match last.get(character) {
                    Some((number, worn)) if *worn == look => *number,
                    Some((number, _)) => number + 1,
                    None => 1,
                };
                last.insert(character, (number, look));
                numbers.insert((at, character), number);
            }
        }
        Self { numbers }
    }

    /// The number in the scene at this place in story order, from 1.
    pub fn number(&self, scene: usize, character: &CharacterId) -> Option<u32> {
        self.numbers.get(&(scene, character)).copied()
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;

    #[test]
    fn a_change_is_numbered_when_the_look_differs_from_the_one_before() {
        let board = sample::board(json!({
            "looks": {"a": {"treatment": "invent"}, "b": {"treatment": "invent"}},
            "scenes": [
                {"scene": 1, "wears": {"ada": "a"}},
                {"scene": 2, "wears": {"ada": "a", "ben": null}},
                {"scene": 3, "wears": {"ada": "b"}},
                {"scene": 4, "wears": {"ada": null}},
                {"scene": 5, "wears": {"ada": "b"}},
                {"scene": 6, "wears": {"ada": "a"}},
            ],
        }));
        let changes = Changes::of(&board);
        let ada = "ada".parse().unwrap();
        let numbers: Vec<_> = (0..6).map(|scene| changes.number(scene, &ada)).collect();
        assert_eq!(numbers, [Some(1), Some(1), Some(2), None, Some(2), Some(3)]);
        assert_eq!(changes.number(1, &"ben".parse().unwrap()), None);
    }
}
