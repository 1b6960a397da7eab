//! Records as they shall become, on their way into an edit.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{
    Board, Change, CharacterId, Edit, Look, LookId, Outfit, OutfitId, Refused, Scene, SceneNumber, Stage,
    Swap,
};

/// Records as they shall become. Whatever was not taken out of the board to be changed stays as it is.
pub(super) struct Draft<'a> {
    board: &'a Board,
    outfits: BTreeMap<OutfitId, Outfit>,
    looks: BTreeMap<LookId, Option<Look>>,
    scenes: BTreeMap<SceneNumber, Scene>,
}

impl<'a> Draft<'a> {
    pub(super) fn new(board: &'a Board) -> Self {
        Self { board, outfits: BTreeMap::new(), looks: BTreeMap::new(), scenes: BTreeMap::new() }
    }

    /// An outfit, to be changed.
    pub(super) fn outfit(&mut self, id: &OutfitId) -> Result<&mut Outfit, Refused> {
        let missing = || unfit(format!("there is no outfit `{id}`"));
        if !self.outfits.contains_key(id) {
            self.outfits.insert(id.clone(), self.board.outfit(id).ok_or_else(missing)?.clone());
        }
        self.outfits.get_mut(id).ok_or_else(missing)
    }

    pub(super) fn add_outfit(&mut self, id: OutfitId, outfit: Outfit) {
        self.outfits.insert(id, outfit);
    }

    /// A look, to be changed.
    pub(super) fn look(&mut self, id: &LookId) -> Result<&mut Look, Refused> {
        if !self.looks.contains_key(id) {
            self.looks.insert(id.clone(), self.board.look(id).cloned());
        }
        let look = self.looks.get_mut(id).and_then(Option::as_mut);
        look.ok_or_else(|| unfit(format!("there is no look `{id}`")))
    }

    /// A look as it shall become.
    pub(super) fn look_so_far(&self, id: &LookId) -> Option<&Look> {
        self.looks.get(id).map_or_else(|| self.board.look(id), Option::as_ref)
    }

    pub(super) fn add_look(&mut self, id: LookId, look: Look) {
        self.looks.insert(id, Some(look));
    }

    /// Takes a look away, unless the camera has seen it.
    pub(super) fn remove_look(&mut self, id: &LookId) -> Result<(), Refused> {
        if let Some(look) = self.board.look(id).filter(|look| look.stage == Stage::Established) {
            return Err(unfit(format!(
                "{} is established: the camera has seen it, so it stays, unless its stage is taken back first",
                look.title
            )));
        }
        self.looks.insert(id.clone(), None);
        Ok(())
    }

    /// Puts `to` (or no look yet) wherever a scene shows `from`, save in the second of two scenes with one number,
    /// which no edit reaches.
    pub(super) fn recast(&mut self, from: &LookId, to: Option<&LookId>) {
        for at in self.board.relations().scenes_of(from) {
            let scene = &self.board.records().scenes[*at];
            if self.board.relations().scene_at(&scene.number) != Some(*at) {
                continue;
            }
            let scene = self.scenes.entry(scene.number.clone()).or_insert_with(|| Scene::clone(scene));
            let wearing = scene.wears.iter().filter(|(_, look)| look.as_ref() == Some(from));
            let wearing: Vec<CharacterId> = wearing.map(|(character, _)| character.clone()).collect();
            for character in wearing {
                scene.wears.set(character, to.cloned());
            }
        }
    }

    /// Takes an outfit out of the look that holds it. Where it was the base, the first folded one becomes the base;
    /// a look that is left with none and that no scene shows goes, if it may.
    pub(super) fn release(&mut self, id: &OutfitId) -> Result<(), Refused> {
        let board = self.board;
        for holder in board.relations().looks_of(id) {
            let Ok(look) = self.look(holder) else { continue };
            look.folded.retain(|folded| folded != id);
            if look.base.as_ref() != Some(id) {
                continue;
            }
            if !look.folded.is_empty() {
                look.base = Some(look.folded.remove(0));
            } else if board.relations().scenes_of(holder).is_empty() {
                self.remove_look(holder)?;
            } else {
                return Err(unfit(format!(
                    "{} is all that {} stands for, and scenes show it: dissolve the look, or make it invented",
                    board.title_of_outfit(id),
                    look.title
                )));
            }
        }
        Ok(())
    }

    /// The edit that makes the records so; it leaves out those that are so already.
    pub(super) fn finish(self, label: impl Into<String>) -> Edit {
        let records = self.board.records();
        let mut changes = Vec::new();
        for (id, outfit) in self.outfits {
            let swap = Swap::if_any(records.outfits.get(&id), Some(&Arc::new(outfit)));
            changes.extend(swap.map(|swap| Change::Outfit(id, swap)));
        }
        for (id, look) in self.looks {
            let swap = Swap::if_any(records.looks.get(&id), look.map(Arc::new).as_ref());
            changes.extend(swap.map(|swap| Change::Look(id, swap)));
        }
        for (number, scene) in self.scenes {
            let before = self.board.relations().scene_at(&number).map(|at| &records.scenes[at]);
            let swap = Swap::if_any(before, Some(&Arc::new(scene)));
            changes.extend(swap.map(|swap| Change::Scene(number, swap)));
        }
        Edit::new(label, changes)
    }
}

/// What the trade does not do; `text` says what to do instead.
pub(super) fn unfit(text: impl Into<String>) -> Refused {
    Refused::Unfit(text.into())
}
