//! Gathering outfits into looks, and everything that undoes or rearranges it.
//!
//! Each operation builds an [`Edit`] and changes nothing; what the trade does not do is [`Refused::Unfit`] with a
//! sentence that says what to do instead.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{
    Board, Change, CharacterId, Edit, Head, Id, Look, LookId, Outfit, OutfitId, Raise, RecordRef, Refused,
    Scene, SceneNumber, Scope, Stage, Swap, Treatment,
};
use crate::trade::date::{Date, Day};

/// Records as they shall become, collected into one edit.
struct Draft<'a> {
    board: &'a Board,
    outfits: BTreeMap<OutfitId, Outfit>,
    looks: BTreeMap<LookId, Option<Look>>,
    scenes: BTreeMap<SceneNumber, Scene>,
}

impl<'a> Draft<'a> {
    fn new(board: &'a Board) -> Self {
        Self { board, outfits: BTreeMap::new(), looks: BTreeMap::new(), scenes: BTreeMap::new() }
    }

    fn outfit(&mut self, id: &OutfitId) -> Result<&mut Outfit, Refused> {
        if !self.outfits.contains_key(id) {
            let outfit = self.board.outfit(id).ok_or_else(|| unfit(format!("there is no outfit `{id}`")))?;
            self.outfits.insert(id.clone(), outfit.clone());
        }
        self.outfits.get_mut(id).ok_or_else(|| unfit(format!("there is no outfit `{id}`")))
    }

    fn look(&mut self, id: &LookId) -> Result<&mut Look, Refused> {
        if !self.looks.contains_key(id) {
            self.looks.insert(id.clone(), self.board.look(id).cloned());
        }
        self.looks
            .get_mut(id)
            .and_then(Option::as_mut)
            .ok_or_else(|| unfit(format!("there is no look `{id}`")))
    }

    fn remove_look(&mut self, id: &LookId) {
        self.looks.insert(id.clone(), None);
    }

    /// Puts `to` (or no look yet) wherever a scene shows `from`.
    fn recast(&mut self, from: &LookId, to: Option<&LookId>) {
        for at in self.board.relations().scenes_of(from) {
            let scene = &self.board.records().scenes[*at];
            let scene = self.scenes.entry(scene.number.clone()).or_insert_with(|| Scene::clone(scene));
            let worn: Vec<CharacterId> = scene
                .wears
                .iter()
                .filter(|(_, look)| look.as_ref() == Some(from))
                .map(|(character, _)| character.clone())
                .collect();
            for character in worn {
                scene.wears.set(character, to.cloned());
            }
        }
    }

    /// Takes an outfit out of the look that holds it. The first folded outfit becomes the base where the base goes.
    fn release(&mut self, id: &OutfitId) -> Result<(), Refused> {
        for holder in self.board.relations().looks_of(id).to_vec() {
            let Ok(look) = self.look(&holder) else { continue };
            look.folded.retain(|folded| folded != id);
            if look.base.as_ref() != Some(id) {
                continue;
            }
            if look.folded.is_empty() {
                if self.board.relations().scenes_of(&holder).is_empty() {
                    self.remove_look(&holder);
                    continue;
                }
                return Err(unfit(format!(
                    "`{id}` is all that look `{holder}` stands for, and scenes show it: dissolve the look, or make it invented"
                )));
            }
            look.base = Some(look.folded.remove(0));
        }
        Ok(())
    }

    fn finish(self, label: impl Into<String>) -> Edit {
        let records = self.board.records();
        let mut changes = Vec::new();
        for (id, outfit) in self.outfits {
            let before = records.outfits.get(&id).cloned();
            if before.as_deref() != Some(&outfit) {
                changes.push(Change::Outfit(id, Swap::new(before, Some(Arc::new(outfit)))));
            }
        }
        for (id, look) in self.looks {
            let before = records.looks.get(&id).cloned();
            if before.as_deref() != look.as_ref() {
                changes.push(Change::Look(id, Swap::new(before, look.map(Arc::new))));
            }
        }
        for (number, scene) in self.scenes {
            let at = self.board.relations().scene_at(&number);
            let before = at.map(|at| Arc::clone(&records.scenes[at]));
            if before.as_deref() != Some(&scene) {
                changes.push(Change::Scene(number, Swap::new(before, Some(Arc::new(scene)))));
            }
        }
        Edit::new(label, changes)
    }
}

fn unfit(text: impl Into<String>) -> Refused {
    Refused::Unfit(text.into())
}

impl Board {
    /// A name for a new look that nothing else has.
    pub fn free_look_id(&self, title: &str) -> LookId {
        free_id(title, "look", |id| self.look(id).is_some())
    }

    /// A name for a new outfit that nothing else has.
    pub fn free_outfit_id(&self, title: &str) -> OutfitId {
        free_id(title, "outfit", |id| self.outfit(id).is_some())
    }

    /// Gathers outfits of one character into a new look. Outfits in other looks are taken out of them, and outfits
    /// that were let go are taken back. The look takes over the base's pieces, threads and dressing notes.
    ///
    /// # Errors
    /// When there is no outfit, or they are of several characters, or `base` is not among them.
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
        let id = self.free_look_id(title);
        let mut draft = Draft::new(self);
        for outfit in outfits {
            draft.release(outfit)?;
            draft.outfit(outfit)?.let_go = None;
        }
        let look = Look {
            title: title.to_owned(),
            character: character.clone(),
            says: String::new(),
            treatment,
            base: Some(base.clone()),
            folded: outfits.iter().filter(|outfit| *outfit != base).cloned().collect(),
            period: None,
            order: 0,
            stage: Stage::Sketched,
            departures: Vec::new(),
            pieces: source.pieces.clone(),
            threads: source.threads.clone(),
            dressing: source.dressing.clone(),
            notes: String::new(),
        };
        self.put_in_order(&mut draft, id.clone(), look)?;
        Ok((id, draft.finish(format!("gathered {} into {title}", outfits.len()))))
    }

    /// A look that no outfit covers.
    ///
    /// # Errors
    /// When there is no such character.
    pub fn invent(
        &self,
        title: &str,
        character: &CharacterId,
        period: Option<&Id<super::Period>>,
    ) -> Result<(LookId, Edit), Refused> {
        if self.character(character).is_none() {
            return Err(unfit(format!("there is no character `{character}`")));
        }
        let id = self.free_look_id(title);
        let look = Look {
            title: title.to_owned(),
            character: character.clone(),
            says: String::new(),
            treatment: Treatment::Invent,
            base: None,
            folded: Vec::new(),
            period: period.cloned(),
            order: 0,
            stage: Stage::Sketched,
            departures: Vec::new(),
            pieces: Vec::new(),
            threads: Vec::new(),
            dressing: Vec::new(),
            notes: String::new(),
        };
        let mut draft = Draft::new(self);
        self.put_in_order(&mut draft, id.clone(), look)?;
        Ok((id, draft.finish(format!("invented {title}"))))
    }

    /// Puts outfits into a look that is there already.
    ///
    /// # Errors
    /// When the look is of another character, or invented.
    pub fn fold(&self, outfits: &[OutfitId], into: &LookId) -> Result<Edit, Refused> {
        let look = self.look(into).ok_or_else(|| unfit(format!("there is no look `{into}`")))?;
        if look.treatment == Treatment::Invent {
            return Err(unfit(format!(
                "{} is invented and stands for no outfit: give it a treatment first",
                look.title
            )));
        }
        if self.one_character(outfits)? != look.character {
            return Err(unfit(format!("{} is {}'s look", look.title, self.name_of(&look.character))));
        }
        let fresh: Vec<&OutfitId> =
            outfits.iter().filter(|outfit| !look.outfits().any(|held| held == *outfit)).collect();
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

    /// Takes outfits out of the looks that hold them; they are open again.
    ///
    /// # Errors
    /// When one is all that a look in a scene stands for.
    pub fn release(&self, outfits: &[OutfitId]) -> Result<Edit, Refused> {
        let held: Vec<&OutfitId> =
            outfits.iter().filter(|id| !self.relations().looks_of(id).is_empty()).collect();
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
    /// When the reason is empty, or one is all that a look in a scene stands for.
    pub fn let_go(&self, outfits: &[OutfitId], reason: &str) -> Result<Edit, Refused> {
        let reason = reason.trim();
        if reason.is_empty() {
            return Err(unfit("say why it is let go"));
        }
        let mut draft = Draft::new(self);
        for outfit in outfits {
            draft.release(outfit)?;
            draft.outfit(outfit)?.let_go = Some(reason.to_owned());
        }
        let all: Vec<&OutfitId> = outfits.iter().collect();
        Ok(draft.finish(format!("let go {}", self.say(&all))))
    }

    /// Opens outfits again that were let go.
    ///
    /// # Errors
    /// When none was let go.
    pub fn take_back(&self, outfits: &[OutfitId]) -> Result<Edit, Refused> {
        let gone: Vec<&OutfitId> = outfits
            .iter()
            .filter(|id| self.outfit(id).is_some_and(|outfit| outfit.let_go.is_some()))
            .collect();
        if gone.is_empty() {
            return Err(unfit("none of them was let go"));
        }
        let mut draft = Draft::new(self);
        for outfit in &gone {
            draft.outfit(outfit)?.let_go = None;
        }
        Ok(draft.finish(format!("took back {}", self.say(&gone))))
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

    /// Sets how a look stands to its source. Becoming invented lets go of the outfits it held: they are open again.
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
                return Err(unfit("it has no base: gather outfits into it first"));
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
    /// When the look has a base, or the outfit is another character's.
    pub fn give_base(&self, id: &LookId, base: &OutfitId) -> Result<Edit, Refused> {
        let outfit = self.outfit(base).ok_or_else(|| unfit(format!("there is no outfit `{base}`")))?;
        let mut draft = Draft::new(self);
        draft.release(base)?;
        draft.outfit(base)?.let_go = None;
        let look = draft.look(id)?;
        if look.base.is_some() {
            return Err(unfit("it has a base: choose another among its outfits"));
        }
        if outfit.character != look.character {
            return Err(unfit(format!("that is an outfit of {}", self.name_of(&outfit.character))));
        }
        look.base = Some(base.clone());
        look.treatment = Treatment::Interpret;
        let label = format!("{} interprets {}", look.title, outfit.title);
        Ok(draft.finish(label))
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
        if look.treatment == Treatment::Invent && gone.base.is_some() {
            return Err(unfit(format!("{} is invented: merge it into {} instead", look.title, gone.title)));
        }
        look.folded.extend(gone.outfits().cloned());
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

    /// Splits outfits off a look into a new one of the same treatment; scenes stay with the old one.
    ///
    /// # Errors
    /// When the outfits are not all in one look, or are all that it holds.
    pub fn split(&self, outfits: &[OutfitId], title: &str) -> Result<(LookId, Edit), Refused> {
        let Some(base) = outfits.first() else { return Err(unfit("mark the outfits to split off")) };
        let holder = self.relations().looks_of(base).first();
        let holder = holder.ok_or_else(|| unfit("gather them into a look first"))?;
        if outfits.iter().any(|outfit| !self.relations().looks_of(outfit).contains(holder)) {
            return Err(unfit("mark outfits of one look to split them off"));
        }
        let look = self.look(holder).ok_or_else(|| unfit(format!("there is no look `{holder}`")))?;
        if look.outfits().count() <= outfits.len() {
            return Err(unfit(format!("something must stay in {}", look.title)));
        }
        let (id, mut edit) = self.gather(outfits, title, base, look.treatment)?;
        edit.label = format!("split {} off {}", outfits.len(), look.title);
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
        draft.outfits.insert(id.clone(), outfit);
        Ok(draft.finish(label))
    }

    /// Changes the board's head in any way.
    pub fn change_head(&self, label: impl Into<String>, change: impl FnOnce(&mut Head)) -> Edit {
        let before = Arc::clone(&self.records().head);
        let mut head = Head::clone(&before);
        change(&mut head);
        Edit::new(label, vec![Change::Head(Swap::new(Some(before), Some(Arc::new(head))))])
    }

    /// Raises a limit, on the record.
    ///
    /// # Errors
    /// When the reason is empty, or the limit is not below `to`.
    pub fn raise_limit(&self, scope: &Scope, to: u32, why: &str, on: Date) -> Result<Edit, Refused> {
        let why = why.trim();
        if why.is_empty() {
            return Err(unfit("say why the limit is raised"));
        }
        let from = self.head().budget.limit(scope).ok_or_else(|| unfit("there is no limit to raise"))?;
        if to <= from {
            return Err(unfit(format!("the limit is {from} already")));
        }
        let label = format!("limit {} raised to {to}", self.scope_name(scope));
        Ok(self.change_head(label, |head| {
            match scope {
                Scope::Overall => head.budget.looks = Some(to),
                Scope::Character(id) => head.budget.characters.set(id.clone(), to),
                Scope::Period(id) => head.budget.periods.set(id.clone(), to),
            }
            head.budget.raised.push(Raise { on, limit: scope.clone(), from, to, why: why.to_owned() });
        }))
    }

    /// Moves a look one place up (`-1`) or down (`1`) among its character's looks.
    ///
    /// # Errors
    /// When it is at the end already.
    pub fn reorder(&self, id: &LookId, by: isize) -> Result<Edit, Refused> {
        let look = self.look(id).ok_or_else(|| unfit(format!("there is no look `{id}`")))?;
        let mut list = self.looks_of_character(&look.character);
        let at = list.iter().position(|have| have == id).unwrap_or_default();
        let to = at.checked_add_signed(by).filter(|to| *to < list.len());
        let to = to.ok_or_else(|| unfit("it is at the end of the list"))?;
        list.swap(at, to);
        let mut draft = Draft::new(self);
        if self.look(&list[at]).map(|look| look.order) == Some(look.order) {
            renumber(&mut draft, &list)?;
        } else {
            let other = draft.look(&list[at])?.order;
            draft.look(&list[at])?.order = look.order;
            draft.look(id)?.order = other;
        }
        let label = format!("moved {}", look.title);
        Ok(draft.finish(label))
    }

    /// A character's looks, in their order.
    pub fn looks_of_character(&self, character: &CharacterId) -> Vec<LookId> {
        let own = |id: &&LookId| self.look(id).is_some_and(|look| look.character == *character);
        self.relations().looks_by_order().iter().filter(own).cloned().collect()
    }

    /// The day on which a look's base was worn, for placing it on the wall.
    pub fn day_of_look(&self, look: &Look) -> Option<Day> {
        let of = |outfit: &OutfitId| self.outfit(outfit)?.worn.as_ref()?.middle();
        look.outfits().find_map(of).or_else(|| self.period(look.period.as_ref()?)?.span.earliest())
    }

    fn put_in_order(&self, draft: &mut Draft<'_>, id: LookId, mut look: Look) -> Result<(), Refused> {
        let day = self.day_of_look(&look);
        let mut list = self.looks_of_character(&look.character);
        let later = |have: &LookId| self.look(have).and_then(|look| self.day_of_look(look)) > day;
        let at = list.iter().position(later).filter(|_| day.is_some()).unwrap_or(list.len());
        let order = |at: usize| list.get(at).and_then(|id| self.look(id)).map(|look| look.order);
        let before = at.checked_sub(1).and_then(order);
        let after = order(at);
        look.order = match (before, after) {
            (None, None) => 10,
            (Some(before), None) => before.saturating_add(10),
            (None, Some(after)) => after.saturating_sub(10),
            (Some(before), Some(after)) => before.midpoint(after),
        };
        let tight = before == Some(look.order) || after == Some(look.order);
        draft.looks.insert(id.clone(), Some(look));
        if tight {
            list.insert(at, id);
            renumber(draft, &list)?;
        }
        Ok(())
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

    fn title_of_outfit<'a>(&'a self, id: &'a OutfitId) -> &'a str {
        self.outfit(id).map_or(id.as_str(), |outfit| &outfit.title)
    }

    fn say(&self, outfits: &[&OutfitId]) -> String {
        match outfits {
            [one] => self.title_of_outfit(one).to_owned(),
            several => format!("{} outfits", several.len()),
        }
    }
}

fn renumber(draft: &mut Draft<'_>, list: &[LookId]) -> Result<(), Refused> {
    for (order, id) in (1..).zip(list) {
        draft.look(id)?.order = order * 10;
    }
    Ok(())
}

fn free_id<K>(title: &str, fallback: &str, taken: impl Fn(&Id<K>) -> bool) -> Id<K> {
    #[expect(clippy::expect_used, reason = "the fallbacks are two literals that are ids")]
    let plain = Id::from_title(title).unwrap_or_else(|| fallback.parse().expect("a literal id"));
    if !taken(&plain) {
        return plain;
    }
    let mut number = 2;
    while taken(&plain.numbered(number)) {
        number += 1;
    }
    plain.numbered(number)
}
