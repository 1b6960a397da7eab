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
pub(super) fn literal<K>(word: &'static str) -> Id<K> {
    word.parse().expect("a literal id")
}

#[cfg(test)]
mod tests {
    use super::super::sample::{after, board, id, outfit, refusal};

    #[test]
    fn a_free_name_comes_from_the_title_and_is_numbered_where_it_is_taken() {
        let board = board();
        assert_eq!(board.free_look_id("The dream").as_str(), "the-dream");
        assert_eq!(board.free_look_id("Club").as_str(), "club-2");
        assert_eq!(board.free_look_id("…").as_str(), "look");
        assert_eq!(board.free_outfit_id("Club wool").as_str(), "club-wool-2");
        assert_eq!(board.free_outfit_id("").as_str(), "outfit");
    }

    #[test]
    fn any_record_can_be_changed_and_a_change_of_nothing_is_no_change() {
        let change =
            board().change_look(&id("club"), "retitled", |look| look.title = "C".to_owned()).unwrap();
        assert_eq!(after(&change).look(&id("club")).unwrap().title, "C");
        let change = board().change_outfit(&id("smock"), "retitled", |outfit| outfit.title = "S".to_owned());
        assert_eq!(after(&change.unwrap()).outfit(&id("smock")).unwrap().title, "S");
        let change = board().change_head("retitled", |head| head.title = "B".to_owned());
        assert_eq!((after(&change).head().title.as_str(), change.label.as_str()), ("B", "retitled"));
        assert!(board().change_look(&id("club"), "", |_| ()).unwrap().is_empty());
        assert!(board().change_outfit(&id("smock"), "", |_| ()).unwrap().is_empty());
        assert!(board().change_head("", |_| ()).is_empty());
    }

    #[test]
    fn what_is_not_there_cannot_be_changed() {
        assert_eq!(refusal(board().change_look(&id("x"), "", |_| ())), "there is no look `x`");
        assert_eq!(refusal(board().change_outfit(&id("x"), "", |_| ())), "there is no outfit `x`");
    }

    #[test]
    fn an_outfit_is_added_under_a_name_of_its_own() {
        let edit = board().add_outfit(&id("cape"), outfit("Cape", "odile")).unwrap();
        assert_eq!(edit.label, "added Cape");
        assert_eq!(after(&edit).outfit(&id("cape")), Some(&outfit("Cape", "odile")));
        assert_eq!(
            refusal(board().add_outfit(&id("smock"), outfit("Cape", "odile"))),
            "outfit `smock` is there already"
        );
        let mut board = board();
        let stranger = board.add_outfit(&id("cape"), outfit("Cape", "ivo")).unwrap();
        assert_eq!(
            refusal(board.apply(&stranger)),
            "outfit `cape` names character `ivo`, which is not there"
        );
    }
}
