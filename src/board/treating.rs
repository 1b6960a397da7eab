//! How looks stand to their sources: the base, the treatment, and looks that no source covers.

use super::draft::{Draft, unfit};
use super::{Board, CharacterId, Edit, Look, LookId, OutfitId, PeriodId, Refused, Treatment};

impl Board {
    /// A look that no outfit covers.
    ///
    /// # Errors
    /// When there is no such character.
    pub fn invent(
        &self,
        title: &str,
        character: &CharacterId,
        period: Option<&PeriodId>,
    ) -> Result<(LookId, Edit), Refused> {
        if self.character(character).is_none() {
            return Err(unfit(format!("there is no character `{character}`")));
        }
        let id = self.free_look_id(title);
        let mut look = Look::sketched(title, character.clone(), Treatment::Invent);
        look.period = period.cloned();
        let mut draft = Draft::new(self);
        self.put_in_order(&mut draft, id.clone(), look)?;
        Ok((id, draft.finish(format!("invented {title}"))))
    }

    /// Makes a folded outfit the base; the old base is folded. The look keeps its own pieces and departures.
    ///
    /// # Errors
    /// When the outfit is in no look.
    pub fn set_base(&self, outfit: &OutfitId) -> Result<Edit, Refused> {
        let holder = self.relations().looks_of(outfit).first();
        let holder = holder.ok_or_else(|| unfit("gather it into a look first"))?.clone();
        let mut draft = Draft::new(self);
        let look = draft.look(&holder)?;
        if look.base.as_ref() == Some(outfit) {
            return Err(unfit("it is the base already"));
        }
        look.folded.retain(|folded| folded != outfit);
        if let Some(old) = look.base.replace(outfit.clone()) {
            look.folded.insert(0, old);
        }
        let label = format!("base of {}: {}", look.title, self.title_of_outfit(outfit));
        Ok(draft.finish(label))
    }

    /// Sets how a look stands to its source. Becoming invented releases the outfits that it held, and keeps the period.
    ///
    /// # Errors
    /// When an invented look has no base to copy or interpret.
    pub fn set_treatment(&self, id: &LookId, treatment: Treatment) -> Result<Edit, Refused> {
        let period = self.relations().period_of_look(id).cloned();
        let mut draft = Draft::new(self);
        let look = draft.look(id)?;
        match treatment {
            Treatment::Invent => {
                look.base = None;
                look.folded.clear();
                look.period = look.period.take().or(period);
            }
            Treatment::Copy | Treatment::Interpret if look.base.is_none() => {
                return Err(unfit("it has no base: give it one first"));
            }
            Treatment::Copy | Treatment::Interpret => {}
        }
        look.treatment = treatment;
        let label = format!("{} {}", look.title, treatment.word());
        Ok(draft.finish(label))
    }

    /// Gives an invented look a source: it interprets `base` from now on.
    ///
    /// # Errors
    /// When the look has a base, the outfit is another character's, or it is all that a look in a scene stands for.
    pub fn give_base(&self, id: &LookId, base: &OutfitId) -> Result<Edit, Refused> {
        let outfit = self.outfit(base).ok_or_else(|| unfit(format!("there is no outfit `{base}`")))?;
        let mut draft = Draft::new(self);
        draft.release(base)?;
        draft.outfit(base)?.let_go = None;
        let look = draft.look(id)?;
        if look.base.is_some() {
            return Err(unfit("it has a base: make another of its outfits the base"));
        }
        if outfit.character != look.character {
            return Err(unfit(format!("that is an outfit of {}", self.name_of(&outfit.character))));
        }
        look.base = Some(base.clone());
        look.treatment = Treatment::Interpret;
        let label = format!("{} interprets {}", look.title, outfit.title);
        Ok(draft.finish(label))
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{after, board, held, id, refusal};
    use super::*;
    use crate::board::Standing;

    #[test]
    fn an_invented_look_has_a_period_and_no_outfit() {
        let (look, edit) = board().invent("The dream", &id("odile"), Some(&id("shore"))).unwrap();
        assert_eq!((look.as_str(), edit.label.as_str()), ("the-dream", "invented The dream"));
        let board = after(&edit);
        assert_eq!(held(&board, "the-dream"), [""; 0]);
        assert_eq!(board.relations().period_of_look(&look), Some(&id("shore")));
        assert_eq!(refusal(board.invent("X", &id("ivo"), None)), "there is no character `ivo`");
    }

    #[test]
    fn the_old_base_is_folded_first() {
        let edit = board().set_base(&id("crossing-wool")).unwrap();
        assert_eq!(edit.label, "base of Club: Crossing wool");
        assert_eq!(held(&after(&edit), "club"), ["crossing-wool", "club-wool", "club-serge"]);
        assert_eq!(refusal(board().set_base(&id("club-wool"))), "it is the base already");
        assert_eq!(refusal(board().set_base(&id("smock"))), "gather it into a look first");
    }

    #[test]
    fn a_look_that_becomes_invented_releases_its_outfits_and_keeps_its_period() {
        let edit = board().set_treatment(&id("club"), Treatment::Invent).unwrap();
        assert_eq!(edit.label, "Club invented");
        let mut board = after(&edit);
        assert_eq!(held(&board, "club"), [""; 0]);
        assert_eq!(board.standing(&id("club-wool")), Standing::Open);
        let smock = [id("smock")];
        board.apply(&board.gather(&smock, "Quay", &smock[0], Treatment::Copy).unwrap().1).unwrap();
        board.apply(&board.set_treatment(&id("quay"), Treatment::Invent).unwrap()).unwrap();
        assert_eq!(board.relations().period_of_look(&id("quay")), Some(&id("shore")));
    }

    #[test]
    fn a_treatment_that_needs_a_source_is_refused_without_one() {
        let edit = board().set_treatment(&id("club"), Treatment::Copy).unwrap();
        assert_eq!(edit.label, "Club copies");
        assert_eq!(after(&edit).look(&id("club")).unwrap().treatment, Treatment::Copy);
        assert_eq!(
            refusal(board().set_treatment(&id("rescue"), Treatment::Copy)),
            "it has no base: give it one first"
        );
        assert_eq!(
            refusal(board().set_treatment(&id("nothing"), Treatment::Copy)),
            "there is no look `nothing`"
        );
    }

    #[test]
    fn an_invented_look_that_is_given_a_base_interprets_it() {
        let edit = board().give_base(&id("rescue"), &id("apron")).unwrap();
        assert_eq!(edit.label, "Rescue interprets Apron");
        let board = after(&edit);
        assert_eq!(held(&board, "rescue"), ["apron"]);
        assert_eq!(board.look(&id("rescue")).unwrap().treatment, Treatment::Interpret);
        assert_eq!(board.outfit(&id("apron")).unwrap().let_go, None);
    }

    #[test]
    fn a_base_that_cannot_be_given_is_said() {
        let give = |look: &str, base: &str| refusal(board().give_base(&id(look), &id(base)));
        assert_eq!(give("rescue", "smock"), "that is an outfit of Odile");
        assert_eq!(give("rescue", "nothing"), "there is no outfit `nothing`");
        assert_eq!(give("nothing", "smock"), "there is no look `nothing`");
        assert_eq!(give("gown", "smock"), "it has a base: make another of its outfits the base");
    }
}
