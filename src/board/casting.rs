//! Placing looks in scenes: who is there, and what each wears.

use std::sync::Arc;

use super::draft::unfit;
use super::edit::order_of;
use super::{Board, Change, CharacterId, Edit, LookId, RecordRef, Refused, Scene, SceneNumber, Swap};

impl Board {
    /// Puts a look on a character in a scene, or `None`: present, no look yet.
    ///
    /// # Errors
    /// [`Refused::Unfit`] when there is no such scene.
    pub fn assign(
        &self,
        number: &SceneNumber,
        character: &CharacterId,
        look: Option<&LookId>,
    ) -> Result<Edit, Refused> {
        let name = self.name_of(character);
        let label = match look {
            Some(look) => {
                let title = self.look(look).map_or(look.as_str(), |look| &look.title);
                format!("scene {number}: {name} wears {title}")
            }
            None => format!("scene {number}: {name} has no look yet"),
        };
        self.change_scene(number, label, |scene| scene.wears.set(character.clone(), look.cloned()))
    }

    /// Takes a character out of a scene.
    ///
    /// # Errors
    /// [`Refused::Unfit`] when there is no such scene.
    pub fn send_away(&self, number: &SceneNumber, character: &CharacterId) -> Result<Edit, Refused> {
        let label = format!("scene {number}: without {}", self.name_of(character));
        self.change_scene(number, label, |scene| {
            scene.wears.remove(character);
        })
    }

    /// Changes a scene in any way but its number.
    ///
    /// # Errors
    /// [`Refused::Unfit`] when there is no such scene.
    pub fn change_scene(
        &self,
        number: &SceneNumber,
        label: impl Into<String>,
        change: impl FnOnce(&mut Scene),
    ) -> Result<Edit, Refused> {
        let before = &self.records().scenes[self.place_of(number)?];
        let mut scene = Scene::clone(before);
        change(&mut scene);
        scene.number = number.clone();
        let swap = Swap::if_any(Some(before), Some(&Arc::new(scene)));
        let change = swap.map(|swap| Change::Scene(number.clone(), swap));
        Ok(Edit::new(label, change.into_iter().collect()))
    }

    /// Puts a new scene behind `after`, or first.
    ///
    /// # Errors
    /// [`Refused::Taken`] when the number is taken, [`Refused::Unfit`] when there is no scene `after`.
    pub fn add_scene(&self, scene: Scene, after: Option<&SceneNumber>) -> Result<Edit, Refused> {
        let number = scene.number.clone();
        if self.scene(&number).is_some() {
            return Err(Refused::Taken(RecordRef::Scene(number)));
        }
        let at = match after {
            Some(after) => self.place_of(after)? + 1,
            None => 0,
        };
        let before = order_of(&self.records().scenes);
        let mut order = before.clone();
        order.insert(at, number.clone());
        let label = format!("scene {number} added");
        Ok(Edit::new(
            label,
            vec![
                Change::Scene(number, Swap::new(None, Some(Arc::new(scene)))),
                Change::SceneOrder(Swap::new(Some(Arc::new(before)), Some(Arc::new(order)))),
            ],
        ))
    }

    /// Takes a scene out of the script, and out of the schedule.
    ///
    /// # Errors
    /// [`Refused::Unfit`] when there is no such scene.
    pub fn cut_scene(&self, number: &SceneNumber) -> Result<Edit, Refused> {
        let at = self.place_of(number)?;
        let records = self.records();
        let mut schedule = Vec::clone(&records.schedule);
        for day in &mut schedule {
            day.scenes.retain(|have| have != number);
        }
        let before = order_of(&records.scenes);
        let mut order = before.clone();
        order.remove(at);
        let mut changes = vec![
            Change::Scene(number.clone(), Swap::new(Some(Arc::clone(&records.scenes[at])), None)),
            // For the way back: it puts the scene where it was.
            Change::SceneOrder(Swap::new(Some(Arc::new(before)), Some(Arc::new(order)))),
        ];
        let unscheduled = Swap::if_any(Some(&records.schedule), Some(&Arc::new(schedule)));
        changes.extend(unscheduled.map(Change::Schedule));
        Ok(Edit::new(format!("scene {number} cut"), changes))
    }

    fn place_of(&self, number: &SceneNumber) -> Result<usize, Refused> {
        let at = self.relations().scene_at(number);
        at.ok_or_else(|| unfit(format!("there is no scene {number}")))
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{after, board, id, number, numbers, records, refusal, scene};
    use super::*;
    use crate::board::Pairs;

    fn wears(board: &Board, scene: &str) -> Vec<(String, Option<String>)> {
        let wears: &Pairs<_, _> = &board.scene(&number(scene)).unwrap().wears;
        wears.iter().map(|(who, look)| (who.to_string(), look.as_ref().map(ToString::to_string))).collect()
    }

    fn pair(who: &str, look: Option<&str>) -> (String, Option<String>) {
        (who.to_owned(), look.map(str::to_owned))
    }

    #[test]
    fn assigning_puts_a_look_on_whoever_is_there_and_brings_in_who_is_not() {
        let edit = board().assign(&number("1"), &id("odile"), Some(&id("club"))).unwrap();
        assert_eq!(edit.label, "scene 1: Odile wears Club");
        assert_eq!(wears(&after(&edit), "1"), [pair("odile", Some("club"))]);
        let edit = board().assign(&number("4"), &id("odile"), None).unwrap();
        assert_eq!(edit.label, "scene 4: Odile has no look yet");
        assert_eq!(wears(&after(&edit), "4"), [pair("bridie", Some("rescue")), pair("odile", None)]);
    }

    #[test]
    fn anothers_look_and_one_that_is_not_there_are_refused() {
        let assign = |look: &str| {
            let mut board = board();
            let edit = board.assign(&number("4"), &id("bridie"), Some(&id(look))).unwrap();
            refusal(board.apply(&edit))
        };
        assert_eq!(assign("gown"), "scene 4 puts look `gown` on `bridie`, whose look it is not");
        assert_eq!(assign("nothing"), "scene 4 names look `nothing`, which is not there");
        assert_eq!(refusal(board().assign(&number("9"), &id("bridie"), None)), "there is no scene 9");
    }

    #[test]
    fn who_is_sent_away_is_not_in_the_scene() {
        let edit = board().send_away(&number("2"), &id("bridie")).unwrap();
        assert_eq!(edit.label, "scene 2: without Bridie");
        assert_eq!(wears(&after(&edit), "2"), [pair("odile", Some("club"))]);
        assert!(board().send_away(&number("3"), &id("bridie")).unwrap().is_empty());
        assert_eq!(refusal(board().send_away(&number("9"), &id("bridie"))), "there is no scene 9");
    }

    #[test]
    fn a_changed_scene_keeps_its_number() {
        let edit = board().change_scene(&number("3"), "changed", |changed| *changed = scene("9")).unwrap();
        let board = after(&edit);
        assert_eq!(numbers(&board), ["1", "2", "3", "3A", "4"]);
        assert_eq!(wears(&board, "3"), []);
    }

    #[test]
    fn a_new_scene_stands_behind_the_one_that_is_named_or_first() {
        for (behind, expected) in [
            (None, ["5", "1", "2", "3", "3A", "4"]),
            (Some("2"), ["1", "2", "5", "3", "3A", "4"]),
            (Some("4"), ["1", "2", "3", "3A", "4", "5"]),
        ] {
            let edit = board().add_scene(scene("5"), behind.map(number).as_ref()).unwrap();
            assert_eq!(edit.label, "scene 5 added");
            assert_eq!(numbers(&after(&edit)), expected);
        }
        assert_eq!(refusal(board().add_scene(scene("3A"), None)), "scene 3A is there already");
        assert_eq!(refusal(board().add_scene(scene("5"), Some(&number("9")))), "there is no scene 9");
    }

    #[test]
    fn a_scene_that_is_cut_leaves_the_schedule_and_comes_back_to_both_places() {
        let edit = board().cut_scene(&number("3A")).unwrap();
        assert_eq!(edit.label, "scene 3A cut");
        let mut board = after(&edit);
        assert_eq!(numbers(&board), ["1", "2", "3", "4"]);
        assert_eq!(board.records().schedule[0].scenes, [number("2")]);
        board.apply(&edit.inverse()).unwrap();
        assert_eq!(board.records(), &records());
        assert_eq!(refusal(board.cut_scene(&number("9"))), "there is no scene 9");
    }
}
