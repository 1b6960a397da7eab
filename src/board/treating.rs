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
