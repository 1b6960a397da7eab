//! Changing one record in any way: what the screens do when a person writes in a field.

use std::sync::Arc;

use super::draft::Draft;
use super::{Board, Change, Edit, Head, Id, Look, LookId, Outfit, OutfitId, RecordRef, Refused, Swap};

impl Board {
    /// A name for a new look that nothing else has.
    pub fn free_look_id(&self, title: &str) -> LookId {
        Id::free(title, literal("look"), |id| self.look(id).is_some())
    }

    /// A name for a new outfit that nothing else has.
    pub fn free_outfit_id(&self, title: &str) -> OutfitId {
        Id::free(title, literal("outfit"), |id| self.outfit(id).is_some())
    }

    /// Changes a look in any way.
    ///
    /// # Errors
    /// When there is no such look.
    pub fn change_look(
        &self,
        id: &LookId,
        label: impl Into<String>,
        change: impl FnOnce(&mut Look),
    ) -> Result<Edit, Refused> {
        let mut draft = Draft::new(self);
        change(draft.look(id)?);
        Ok(draft.finish(label))
    }

    /// Changes an outfit in any way.
    ///
    /// # Errors
    /// When there is no such outfit.
    pub fn change_outfit(
        &self,
        id: &OutfitId,
        label: impl Into<String>,
        change: impl FnOnce(&mut Outfit),
    ) -> Result<Edit, Refused> {
        let mut draft = Draft::new(self);
        change(draft.outfit(id)?);
        Ok(draft.finish(label))
    }

    /// Adds a documented outfit.
    ///
    /// # Errors
    /// When the name is taken.
    pub fn add_outfit(&self, id: &OutfitId, outfit: Outfit) -> Result<Edit, Refused> {
        if self.outfit(id).is_some() {
            return Err(Refused::Taken(RecordRef::Outfit(id.clone())));
        }
        let mut draft = Draft::new(self);
        let label = format!("added {}", outfit.title);
        draft.add_outfit(id.clone(), outfit);
        Ok(draft.finish(label))
    }

    /// Changes the board's head in any way.
    pub fn change_head(&self, label: impl Into<String>, change: impl FnOnce(&mut Head)) -> Edit {
        let before = &self.records().head;
        let mut head = Head::clone(before);
        change(&mut head);
        let swap = Swap::if_any(Some(before), Some(&Arc::new(head)));
        Edit::new(label, swap.map(Change::Head).into_iter().collect())
    }
}

#[expect(clippy::expect_used, reason = "only called with words that are ids")]
fn literal<K>(word: &'static str) -> Id<K> {
    word.parse().expect("a literal id")
}
