//! The shooting days: who wears what on each, how often somebody changes, and when each look is first needed.
//!
//! On a day a character changes whenever a scene finds it in another look than the scene before that it was in; getting
//! dressed in the morning is no change.

use std::collections::HashMap;

use crate::board::{Board, CharacterId, LookId, Scene, SceneNumber, ShootDay};
use crate::trade::eighths::Eighths;

/// The whole shoot.
#[derive(Debug)]
pub struct Shooting<'a> {
    /// The days, in the order of the schedule.
    pub days: Vec<PlannedDay<'a>>,
    first: HashMap<&'a LookId, usize>,
}

/// One shooting day.
#[derive(Debug)]
pub struct PlannedDay<'a> {
    /// As it stands in the schedule.
    pub day: &'a ShootDay,
    /// Its scenes, in the order in which they are shot, each with its place in story order.
    pub scenes: Vec<(usize, &'a Scene)>,
    /// Scenes of the schedule that the script does not have.
    pub missing: Vec<&'a SceneNumber>,
    /// Everybody who is in one of them, with the looks worn one after the other.
    pub wears: Vec<(&'a CharacterId, Vec<Spell<'a>>)>,
    /// Looks that no day before needs.
    pub first: Vec<&'a LookId>,
}

/// Scenes that follow each other on a day in which a character wears the same.
#[derive(Clone, Debug, PartialEq)]
pub struct Spell<'a> {
    /// The look; `None` where none is chosen yet.
    pub look: Option<&'a LookId>,
    /// The scenes.
    pub scenes: Vec<&'a SceneNumber>,
}

impl PlannedDay<'_> {
    /// How often somebody changes in the course of the day.
    pub fn changes(&self) -> usize {
        self.wears.iter().map(|(_, spells)| spells.len().saturating_sub(1)).sum()
    }

    /// How much of the script is shot.
    pub fn pages(&self) -> Eighths {
        self.scenes.iter().map(|(_, scene)| scene.pages).sum()
    }
}

impl<'a> Shooting<'a> {
    /// What the schedule makes of the board.
    pub fn of(board: &'a Board) -> Self {
        let mut first: HashMap<&LookId, usize> = HashMap::new();
        let mut days = Vec::new();
        for (at, day) in board.records().schedule.iter().enumerate() {
            let mut planned = PlannedDay {
                day,
                scenes: Vec::new(),
                missing: Vec::new(),
                wears: Vec::new(),
                first: Vec::new(),
            };
            for number in &day.scenes {
                match board.relations().scene_at(number) {
                    Some(place) => planned.scenes.push((place, &board.records().scenes[place])),
                    None => planned.missing.push(number),
                }
            }
            for (_, scene) in planned.scenes.clone() {
                for (character, look) in scene.wears.iter() {
                    planned.wear(character, look.as_ref(), scene);
                    if let Some(look) = look
                        && !first.contains_key(look)
                    {
                        first.insert(look, at);
                        planned.first.push(look);
                    }
                }
            }
            days.push(planned);
        }
        for day in &mut days {
            let place = |who: &CharacterId| board.head().characters.iter().position(|one| one.id == *who);
            day.wears.sort_by_key(|(who, _)| place(who).unwrap_or(usize::MAX));
        }
        Self { days, first }
    }

    /// The day on which a look is first needed; `None` where no shooting day needs it.
    pub fn first_needed(&self, look: &LookId) -> Option<&'a ShootDay> {
        self.first.get(look).and_then(|at| self.days.get(*at)).map(|planned| planned.day)
    }

    /// The scenes in the order in which they are shot, by their places in story order, each with its day. A scene on two
    /// days is there twice; one on none is not there.
    pub fn order(&self) -> impl Iterator<Item = (usize, &'a ShootDay)> {
        self.days.iter().flat_map(|planned| planned.scenes.iter().map(|(at, _)| (*at, planned.day)))
    }
}

impl<'a> PlannedDay<'a> {
    fn wear(&mut self, character: &'a CharacterId, look: Option<&'a LookId>, scene: &'a Scene) {
        let at = self.wears.iter().position(|(who, _)| *who == character).unwrap_or_else(|| {
            self.wears.push((character, Vec::new()));
            self.wears.len() - 1
        });
        let spells = &mut self.wears[at].1;
        match spells.last_mut().filter(|spell| spell.look == look) {
            Some(spell) => spell.scenes.push(&scene.number),
            None => spells.push(Spell { look, scenes: vec![&scene.number] }),
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::board::told;

    fn board() -> Board {
        told::board(json!({
            "looks": {
                "a": {"treatment": "invent"}, "b": {"treatment": "invent"},
                "c": {"treatment": "invent", "character": "ben"},
            },
            "scenes": [
                {"scene": 1, "pages": 1, "wears": {"ada": "a", "ben": "c"}},
                {"scene": 2, "pages": "4/8", "wears": {"ada": "b"}},
                {"scene": 3, "pages": 2, "wears": {"ada": "a", "ben": null}},
                {"scene": 4, "pages": 1, "wears": {"ben": "c"}},
            ],
            "schedule": [
                {"day": 1, "date": "2027-07-05", "scenes": [2, 3]},
                {"day": 2, "scenes": [1, 99, 3, 4]},
            ],
        }))
    }

    #[test]
    fn a_day_says_who_wears_what_in_turn_and_how_often_they_change() {
        let board = board();
        let shooting = Shooting::of(&board);
        let said = |day: &PlannedDay<'_>| {
            let spells = |spells: &[Spell<'_>]| {
                let spell = |spell: &Spell<'_>| {
                    let scenes: Vec<String> = spell.scenes.iter().map(ToString::to_string).collect();
                    format!("{}:{}", spell.look.map_or("-", |look| look.as_str()), scenes.join("+"))
                };
                spells.iter().map(spell).collect::<Vec<_>>().join(",")
            };
            let wears = day.wears.iter().map(|(who, worn)| format!("{who} {}", spells(worn)));
            format!("{} | {} changes, {}", wears.collect::<Vec<_>>().join("; "), day.changes(), day.pages())
        };
        let days: Vec<String> = shooting.days.iter().map(said).collect();
        assert_eq!(
            days,
            ["ada b:2,a:3; ben -:3 | 1 changes, 2 4/8", "ada a:1+3; ben c:1,-:3,c:4 | 2 changes, 4"]
        );
        assert_eq!(shooting.days[1].missing, [&"99".parse::<SceneNumber>().unwrap()]);
    }

    #[test]
    fn a_look_is_first_needed_on_the_first_day_that_shows_it() {
        let board = board();
        let shooting = Shooting::of(&board);
        let first = |look: &str| shooting.first_needed(&look.parse().unwrap()).map(|day| day.day);
        assert_eq!([first("a"), first("b"), first("c"), first("d")], [Some(1), Some(1), Some(2), None]);
        let new: Vec<Vec<&str>> =
            shooting.days.iter().map(|day| day.first.iter().map(|look| look.as_str()).collect()).collect();
        assert_eq!(new, [vec!["b", "a"], vec!["c"]]);
        let order: Vec<(usize, u32)> = shooting.order().map(|(at, day)| (at, day.day)).collect();
        assert_eq!(order, [(1, 1), (2, 1), (0, 2), (2, 2), (3, 2)]);
    }
}
