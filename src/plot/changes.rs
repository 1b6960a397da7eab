//! Changes: a character's nth look in story order. A new number is given whenever the look differs from the one
//! before; a scene in which the look is not decided yet has none and stands between nothing.
//!
//! Within a story day a look is *carried* from one scene of the character to the next: it needs no change, and must be
//! in the state in which it was left. The night belongs to its day.

use std::collections::HashMap;

use crate::board::{Board, CharacterId, LookId, StoryDay};

/// The number of each character's change in each scene.
#[derive(Debug, Default)]
pub struct Changes<'a> {
    worn: HashMap<(usize, &'a CharacterId), Worn>,
}

#[derive(Clone, Copy, Debug)]
struct Worn {
    number: u32,
    is_carried: bool,
}

impl<'a> Changes<'a> {
    /// Counts them through the whole story.
    pub fn of(board: &'a Board) -> Self {
        let mut last: HashMap<&CharacterId, (u32, &LookId, Option<StoryDay>)> = HashMap::new();
        let mut worn = HashMap::new();
        for (at, scene) in board.scenes().enumerate() {
            for (character, look) in scene.wears.iter() {
                let Some(look) = look else { continue };
                let before = last.get(character);
                let number = match before {
                    Some((number, before, _)) if *before == look => *number,
                    Some((number, ..)) => number + 1,
                    None => 1,
                };
                let day = scene.story_day;
                let is_carried = before.is_some_and(|(_, before, then)| {
                    let days = then.zip(day);
                    *before == look && days.is_some_and(|(then, now)| then.number() == now.number())
                });
                last.insert(character, (number, look, day));
                worn.insert((at, character), Worn { number, is_carried });
            }
        }
        Self { worn }
    }

    /// The number in the scene at this place in story order, from 1.
    pub fn number(&self, scene: usize, character: &CharacterId) -> Option<u32> {
        self.worn.get(&(scene, character)).map(|worn| worn.number)
    }

    /// Whether the character comes into this scene as it left its last one on the same story day.
    pub fn is_carried(&self, scene: usize, character: &CharacterId) -> bool {
        self.worn.get(&(scene, character)).is_some_and(|worn| worn.is_carried)
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::board::told;

    fn board() -> Board {
        told::board(json!({
            "looks": {"a": {"treatment": "invent"}, "b": {"treatment": "invent"}},
            "scenes": [
                {"scene": 1, "story-day": "D1", "wears": {"ada": "a"}},
                {"scene": 2, "story-day": "N1", "wears": {"ada": "a", "ben": null}},
                {"scene": 3, "story-day": "N1", "wears": {"ada": "b"}},
                {"scene": 4, "story-day": "D2", "wears": {"ada": null}},
                {"scene": 5, "story-day": "D2", "wears": {"ada": "b"}},
                {"scene": 6, "story-day": "D2", "wears": {"ben": null}},
                {"scene": 7, "story-day": "D2", "wears": {"ada": "b"}},
                {"scene": 8, "wears": {"ada": "b"}},
                {"scene": 9, "wears": {"ada": "a"}},
            ],
        }))
    }

    #[test]
    fn a_change_is_numbered_when_the_look_differs_from_the_one_before() {
        let board = board();
        let changes = Changes::of(&board);
        let ada = "ada".parse().unwrap();
        let numbers: Vec<_> = (0..9).map(|scene| changes.number(scene, &ada).unwrap_or(0)).collect();
        assert_eq!(numbers, [1, 1, 2, 0, 2, 0, 2, 2, 3]);
        assert_eq!(changes.number(1, &"ben".parse().unwrap()), None);
    }

    #[test]
    fn a_look_is_carried_within_its_story_day_alone() {
        let board = board();
        let changes = Changes::of(&board);
        let ada = "ada".parse().unwrap();
        let carried: Vec<usize> =
            (0..9).filter(|scene| changes.is_carried(*scene, &ada)).map(|at| at + 1).collect();
        assert_eq!(carried, [2, 7], "the night belongs to its day, and no day is nobody's");
    }
}
