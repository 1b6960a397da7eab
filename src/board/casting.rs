//! Placing looks in scenes: who is there, and what each wears.

use std::sync::Arc;

use super::{Board, Change, CharacterId, Edit, LookId, Refused, Scene, SceneNumber, Swap};

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
        let at = self.relations().scene_at(number);
        let Some(at) = at else { return Err(Refused::Unfit(format!("there is no scene {number}"))) };
        let before = &self.records().scenes[at];
        let mut scene = Scene::clone(before);
        change(&mut scene);
        scene.number = number.clone();
        let swap = Swap::new(Some(Arc::clone(before)), Some(Arc::new(scene)));
        Ok(Edit::new(label, vec![Change::Scene(number.clone(), swap)]))
    }

    /// Puts a new scene behind `after`, or first.
    ///
    /// # Errors
    /// [`Refused::Taken`] when the number is taken.
    pub fn add_scene(&self, scene: Scene, after: Option<&SceneNumber>) -> Result<Edit, Refused> {
        let number = scene.number.clone();
        if self.scene(&number).is_some() {
            return Err(Refused::Taken(super::RecordRef::Scene(number)));
        }
        let before: Vec<SceneNumber> = self.scenes().map(|scene| scene.number.clone()).collect();
        let mut order = before.clone();
        let at = after.and_then(|after| order.iter().position(|have| have == after)).map_or(0, |at| at + 1);
        order.insert(at, number.clone());
        let mut appended = before;
        appended.push(number.clone());
        let label = format!("scene {number} added");
        Ok(Edit::new(
            label,
            vec![
                Change::Scene(number, Swap::new(None, Some(Arc::new(scene)))),
                Change::SceneOrder(Swap::new(Some(Arc::new(appended)), Some(Arc::new(order)))),
            ],
        ))
    }

    /// Takes a scene out of the script.
    ///
    /// # Errors
    /// [`Refused::Unfit`] when there is no such scene, or the schedule still has it.
    pub fn cut_scene(&self, number: &SceneNumber) -> Result<Edit, Refused> {
        let Some(at) = self.relations().scene_at(number) else {
            return Err(Refused::Unfit(format!("there is no scene {number}")));
        };
        let mut changes = Vec::new();
        if self.records().schedule.iter().any(|day| day.scenes.contains(number)) {
            let mut schedule = Vec::clone(&self.records().schedule);
            for day in &mut schedule {
                day.scenes.retain(|have| have != number);
            }
            let swap = Swap::new(Some(Arc::clone(&self.records().schedule)), Some(Arc::new(schedule)));
            changes.push(Change::Schedule(swap));
        }
        // The scene first goes to the end, so that taking this back puts it where it was.
        let before: Vec<SceneNumber> = self.scenes().map(|scene| scene.number.clone()).collect();
        let mut last = before.clone();
        let own = last.remove(at);
        last.push(own);
        changes.push(Change::SceneOrder(Swap::new(Some(Arc::new(before)), Some(Arc::new(last)))));
        let swap = Swap::new(Some(Arc::clone(&self.records().scenes[at])), None);
        changes.push(Change::Scene(number.clone(), swap));
        Ok(Edit::new(format!("scene {number} cut"), changes))
    }
}
