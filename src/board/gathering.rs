//! Gathering outfits into looks, and everything that undoes or rearranges it.
//!
//! Each operation builds an [`Edit`] and changes nothing; what the trade does not do is [`Refused::Unfit`] with a
//! sentence that says what to do instead. Marks may name an outfit twice: it counts once.

use std::collections::HashSet;

use super::draft::{Draft, unfit};
use super::{Board, CharacterId, Edit, Look, LookId, OutfitId, Refused, Treatment};

impl Board {
    /// Gathers outfits of one character into a new look. Outfits in other looks are [released](Board::release) from
    /// them, and outfits that were let go are taken back. The look takes over the base's pieces, threads and dressing
    /// notes, and stands where its day belongs among the character's looks.
    ///
    /// # Errors
    /// When there is no outfit, they are of several characters, `base` is not among them, or one is all that a look
    /// in a scene stands for.
    pub fn gather(
        &self,
        outfits: &[OutfitId],
        title: &str,
        base: &OutfitId,
        treatment: Treatment,
    ) -> Result<(LookId, Edit), Refused> {
        let source = self.outfit(base).ok_or_else(|| unfit("choose a base among the marked outfits"))?;
        if !outfits.contains(base) {
            return Err(unfit("the base must be one of the gathered outfits"));
        }
        if treatment == Treatment::Invent {
            return Err(unfit("an invented look gathers nothing: choose copy or interpret"));
        }
        let character = self.one_character(outfits)?;
        let outfits = once(outfits);
        let id = self.free_look_id(title);
        let mut draft = Draft::new(self);
        for outfit in &outfits {
            draft.release(outfit)?;
            draft.outfit(outfit)?.let_go = None;
        }
        let look = Look {
            base: Some(base.clone()),
            folded: outfits.iter().copied().filter(|outfit| *outfit != base).cloned().collect(),
            pieces: source.pieces.clone(),
            threads: source.threads.clone(),
            dressing: source.dressing.clone(),
            ..Look::sketched(title, character, treatment)
        };
        self.put_in_order(&mut draft, id.clone(), look)?;
        Ok((id, draft.finish(format!("gathered {} into {title}", outfits.len()))))
    }

    /// Puts outfits into a look that is there already. Outfits in other looks are [released](Board::release) from
    /// them, and outfits that were let go are taken back.
    ///
    /// # Errors
    /// When the look is of another character or invented or holds them all, or an outfit is all that another look in
    /// a scene stands for.
    pub fn fold(&self, outfits: &[OutfitId], into: &LookId) -> Result<Edit, Refused> {
        let look = self.look(into).ok_or_else(|| unfit(format!("there is no look `{into}`")))?;
        if look.treatment == Treatment::Invent {
            return Err(unfit(format!(
                "{} is invented and stands for no outfit: give it a base first",
                look.title
            )));
        }
        if self.one_character(outfits)? != look.character {
            return Err(unfit(format!("{} is {}'s look", look.title, self.name_of(&look.character))));
        }
        let mut fresh = once(outfits);
        fresh.retain(|outfit| look.outfits().all(|held| held != *outfit));
        if fresh.is_empty() {
            return Err(unfit(format!("{} holds them already", look.title)));
        }
        let label = format!("folded {} into {}", fresh.len(), look.title);
        let mut draft = Draft::new(self);
        for outfit in fresh {
            draft.release(outfit)?;
            draft.outfit(outfit)?.let_go = None;
            draft.look(into)?.folded.push(outfit.clone());
        }
        Ok(draft.finish(label))
    }

    /// Takes outfits out of the looks that hold them; they are open again. Where a base goes, the first folded outfit
    /// becomes the base; a look that is left with none and that no scene shows goes.
    ///
    /// # Errors
    /// When none is in a look, or one is all that a look in a scene stands for.
    pub fn release(&self, outfits: &[OutfitId]) -> Result<Edit, Refused> {
        let mut held = once(outfits);
        held.retain(|id| !self.relations().looks_of(id).is_empty());
        if held.is_empty() {
            return Err(unfit("none of them is in a look"));
        }
        let mut draft = Draft::new(self);
        for outfit in &held {
            draft.release(outfit)?;
        }
        Ok(draft.finish(format!("released {}", self.say(&held))))
    }

    /// Decides that outfits are in no look, and why.
    ///
    /// # Errors
    /// When the reason is empty, there is no outfit, or one is all that a look in a scene stands for.
    pub fn let_go(&self, outfits: &[OutfitId], reason: &str) -> Result<Edit, Refused> {
        let reason = reason.trim();
        if reason.is_empty() {
            return Err(unfit("say why it is let go"));
        }
        let outfits = once(outfits);
        if outfits.is_empty() {
            return Err(unfit("mark some outfits first"));
        }
        let mut draft = Draft::new(self);
        for outfit in &outfits {
            draft.release(outfit)?;
            draft.outfit(outfit)?.let_go = Some(reason.to_owned());
        }
        Ok(draft.finish(format!("let go {}", self.say(&outfits))))
    }

    /// Opens outfits again that were let go.
    ///
    /// # Errors
    /// When none was let go.
    pub fn take_back(&self, outfits: &[OutfitId]) -> Result<Edit, Refused> {
        let mut gone = once(outfits);
        gone.retain(|id| self.outfit(id).is_some_and(|outfit| outfit.let_go.is_some()));
        if gone.is_empty() {
            return Err(unfit("none of them was let go"));
        }
        let mut draft = Draft::new(self);
        for outfit in &gone {
            draft.outfit(outfit)?.let_go = None;
        }
        Ok(draft.finish(format!("took back {}", self.say(&gone))))
    }

    /// Merges `from` into `into`: its outfits are folded there, its scenes show it, its threads and notes are kept.
    ///
    /// # Errors
    /// When they are of two characters, or the one that stays is invented while the other holds outfits.
    pub fn merge_looks(&self, from: &LookId, into: &LookId) -> Result<Edit, Refused> {
        if from == into {
            return Err(unfit("choose another look to merge with"));
        }
        let gone = self.look(from).ok_or_else(|| unfit(format!("there is no look `{from}`")))?.clone();
        let mut draft = Draft::new(self);
        let look = draft.look(into)?;
        if look.character != gone.character {
            return Err(unfit(format!("{} and {} are looks of two characters", gone.title, look.title)));
        }
        if look.treatment == Treatment::Invent && gone.outfits().next().is_some() {
            return Err(unfit(format!("{} is invented: merge it into {} instead", look.title, gone.title)));
        }
        for outfit in gone.outfits() {
            if look.outfits().all(|held| held != outfit) {
                look.folded.push(outfit.clone());
            }
        }
        for thread in gone.threads {
            if !look.threads.contains(&thread) {
                look.threads.push(thread);
            }
        }
        for note in [gone.says, gone.notes].into_iter().filter(|note| !note.is_empty()) {
            if !look.notes.is_empty() {
                look.notes.push_str("\n\n");
            }
            look.notes.push_str(&format!("From {}: {note}", gone.title));
        }
        let label = format!("merged {} into {}", gone.title, look.title);
        draft.recast(from, Some(into));
        draft.remove_look(from);
        Ok(draft.finish(label))
    }

    /// Splits outfits off a look into a new one of the same treatment, of which the first is the base; scenes stay with
    /// the old one.
    ///
    /// # Errors
    /// When the outfits are not all in one look, or are all that it holds.
    pub fn split(&self, outfits: &[OutfitId], title: &str) -> Result<(LookId, Edit), Refused> {
        let marked = once(outfits);
        let Some(base) = marked.first() else { return Err(unfit("mark the outfits to split off")) };
        let holder = self.relations().looks_of(base).first();
        let holder = holder.ok_or_else(|| unfit("gather them into a look first"))?;
        if marked.iter().any(|outfit| !self.relations().looks_of(outfit).contains(holder)) {
            return Err(unfit("mark outfits of one look to split them off"));
        }
        let look = self.look(holder).ok_or_else(|| unfit(format!("there is no look `{holder}`")))?;
        if look.outfits().count() <= marked.len() {
            return Err(unfit(format!("something must stay in {}", look.title)));
        }
        let (id, mut edit) = self.gather(outfits, title, base, look.treatment)?;
        edit.label = format!("split {} off {}", marked.len(), look.title);
        Ok((id, edit))
    }

    /// Takes a look away: its outfits are open again, its scenes have no look yet.
    ///
    /// # Errors
    /// When there is no such look.
    pub fn dissolve(&self, id: &LookId) -> Result<Edit, Refused> {
        let look = self.look(id).ok_or_else(|| unfit(format!("there is no look `{id}`")))?;
        let mut draft = Draft::new(self);
        draft.recast(id, None);
        draft.remove_look(id);
        Ok(draft.finish(format!("dissolved {}", look.title)))
    }

    fn one_character(&self, outfits: &[OutfitId]) -> Result<CharacterId, Refused> {
        let mut characters = Vec::new();
        for id in outfits {
            let outfit = self.outfit(id).ok_or_else(|| unfit(format!("there is no outfit `{id}`")))?;
            if !characters.contains(&outfit.character) {
                characters.push(outfit.character.clone());
            }
        }
        match characters.as_slice() {
            [] => Err(unfit("mark some outfits first")),
            [one] => Ok(one.clone()),
            several => {
                let names: Vec<&str> = several.iter().map(|id| self.name_of(id)).collect();
                Err(unfit(format!("a look is one character's: these are outfits of {}", names.join(" and "))))
            }
        }
    }

    pub(super) fn title_of_outfit<'a>(&'a self, id: &'a OutfitId) -> &'a str {
        self.outfit(id).map_or(id.as_str(), |outfit| &outfit.title)
    }

    fn say(&self, outfits: &[&OutfitId]) -> String {
        match outfits {
            [one] => self.title_of_outfit(one).to_owned(),
            several => format!("{} outfits", several.len()),
        }
    }
}

/// Each outfit once, in the order of the marks.
fn once(outfits: &[OutfitId]) -> Vec<&OutfitId> {
    let mut seen = HashSet::new();
    outfits.iter().filter(|id| seen.insert(*id)).collect()
}
