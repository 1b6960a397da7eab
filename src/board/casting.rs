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
            None => format!("scene {number}: {name} wears nothing yet"),
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
