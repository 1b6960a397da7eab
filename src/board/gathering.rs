//! Gathering outfits into looks, and deciding that others are in none.
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

    pub(super) fn one_character(&self, outfits: &[OutfitId]) -> Result<CharacterId, Refused> {
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

    /// An outfit's title, or the id where there is no such outfit.
    pub fn title_of_outfit<'a>(&'a self, id: &'a OutfitId) -> &'a str {
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
pub(super) fn once(outfits: &[OutfitId]) -> Vec<&OutfitId> {
    let mut seen = HashSet::new();
    outfits.iter().filter(|id| seen.insert(*id)).collect()
}

#[cfg(test)]
mod tests {
    use super::super::sample::{after, board, held, id, ids, refusal};
    use super::*;
    use crate::board::Standing;

    #[test]
    fn gathering_makes_a_look_after_its_base() {
        let marked = ids(&["club-serge", "club-wool", "blackout-coat"]);
        let (look_id, edit) = board().gather(&marked, "The wool years", &marked[1], Treatment::Copy).unwrap();
        assert_eq!(
            (look_id.as_str(), edit.label.as_str()),
            ("the-wool-years", "gathered 3 into The wool years")
        );
        let board = after(&edit);
        let look = board.look(&look_id).unwrap();
        assert_eq!(held(&board, "the-wool-years"), ["club-wool", "club-serge", "blackout-coat"]);
        assert_eq!((look.title.as_str(), look.treatment), ("The wool years", Treatment::Copy));
        let base = board.outfit(&marked[1]).unwrap();
        assert_eq!(
            (&look.pieces, &look.threads, &look.dressing),
            (&base.pieces, &base.threads, &base.dressing)
        );
    }

    #[test]
    fn gathering_takes_outfits_out_of_other_looks_whose_next_outfit_becomes_the_base() {
        let marked = ids(&["smock", "club-wool"]);
        let board = after(&board().gather(&marked, "New", &marked[0], Treatment::Interpret).unwrap().1);
        assert_eq!(held(&board, "new"), ["smock", "club-wool"]);
        assert_eq!(held(&board, "club"), ["club-serge", "crossing-wool"]);
    }

    #[test]
    fn gathering_takes_back_what_was_let_go() {
        let marked = ids(&["apron", "oilskins"]);
        let board = after(&board().gather(&marked, "New", &marked[1], Treatment::Copy).unwrap().1);
        assert_eq!(board.outfit(&marked[0]).unwrap().let_go, None);
    }

    #[test]
    fn a_look_that_is_emptied_goes_unless_scenes_show_it() {
        let mut board = board();
        let gown = ids(&["gala-gown"]);
        let gathered = board.gather(&gown, "New", &gown[0], Treatment::Copy);
        let sentence = "Gala gown is all that Gown stands for, and scenes show it: dissolve the look, or make it invented";
        assert_eq!(refusal(gathered), sentence);
        assert_eq!(refusal(board.fold(&gown, &id("club"))), sentence);
        assert_eq!(refusal(board.release(&gown)), sentence);
        assert_eq!(refusal(board.let_go(&gown, "because")), sentence);
        for scene in ["3", "3A"] {
            board.apply(&board.assign(&scene.parse().unwrap(), &id("odile"), None).unwrap()).unwrap();
        }
        board.apply(&board.fold(&gown, &id("club")).unwrap()).unwrap();
        assert!(board.look(&id("gown")).is_none());
        assert_eq!(held(&board, "club"), ["club-wool", "club-serge", "crossing-wool", "gala-gown"]);
    }

    #[test]
    fn a_look_in_a_scene_cannot_be_emptied_outfit_by_outfit_in_one_go() {
        let all = ids(&["crossing-wool", "club-wool", "club-serge", "smock"]);
        let gathered = board().gather(&all, "New", &all[0], Treatment::Copy);
        assert!(refusal(gathered).starts_with("Club serge is all that Club stands for"));
    }

    #[test]
    fn what_cannot_be_gathered_is_said() {
        let gather = |outfits: &[&str], base: &str, treatment| {
            refusal(board().gather(&ids(outfits), "New", &id(base), treatment))
        };
        assert_eq!(gather(&[], "smock", Treatment::Copy), "the base must be one of the gathered outfits");
        assert_eq!(gather(&["smock"], "nothing", Treatment::Copy), "choose a base among the marked outfits");
        assert_eq!(gather(&["smock", "nothing"], "smock", Treatment::Copy), "there is no outfit `nothing`");
        assert_eq!(
            gather(&["smock"], "smock", Treatment::Invent),
            "an invented look gathers nothing: choose copy or interpret"
        );
        assert_eq!(
            gather(&["smock", "oilskins"], "smock", Treatment::Copy),
            "a look is one character's: these are outfits of Odile and Bridie"
        );
    }

    #[test]
    fn a_mark_that_is_set_twice_counts_once() {
        let twice = ids(&["smock", "blackout-coat", "smock", "blackout-coat"]);
        let (_, edit) = board().gather(&twice, "New", &twice[0], Treatment::Copy).unwrap();
        assert_eq!(edit.label, "gathered 2 into New");
        assert_eq!(held(&after(&edit), "new"), ["smock", "blackout-coat"]);
        assert_eq!(held(&after(&board().fold(&twice, &id("gown")).unwrap()), "gown").len(), 3);
        assert_eq!(board().let_go(&twice, "because").unwrap().label, "let go 2 outfits");
        let twice = ids(&["club-serge", "club-serge", "club-serge"]);
        assert_eq!(held(&after(&board().split(&twice, "Serge").unwrap().1), "club").len(), 2);
    }

    #[test]
    fn folding_puts_outfits_behind_those_that_the_look_holds() {
        let edit = board().fold(&ids(&["blackout-coat", "gala-gown", "club-serge"]), &id("gown")).unwrap();
        assert_eq!(edit.label, "folded 2 into Gown");
        let board = after(&edit);
        assert_eq!(held(&board, "gown"), ["gala-gown", "blackout-coat", "club-serge"]);
        assert_eq!(held(&board, "club"), ["club-wool", "crossing-wool"]);
        assert_eq!(board.standing(&id("blackout-coat")), Standing::Folded(&id("gown")));
    }

    #[test]
    fn what_cannot_be_folded_is_said() {
        let fold = |outfits: &[&str], into: &str| refusal(board().fold(&ids(outfits), &id(into)));
        assert_eq!(fold(&["smock"], "nothing"), "there is no look `nothing`");
        assert_eq!(fold(&[], "gown"), "mark some outfits first");
        assert_eq!(fold(&["oilskins"], "gown"), "Gown is Odile's look");
        assert_eq!(fold(&["club-wool", "club-serge"], "club"), "Club holds them already");
        assert_eq!(
            fold(&["oilskins"], "rescue"),
            "Rescue is invented and stands for no outfit: give it a base first"
        );
    }

    #[test]
    fn released_outfits_are_open() {
        let edit = board().release(&ids(&["club-wool", "smock", "crossing-wool"])).unwrap();
        assert_eq!(edit.label, "released 2 outfits");
        let board = after(&edit);
        assert_eq!(held(&board, "club"), ["club-serge"]);
        assert_eq!(board.standing(&id("club-wool")), Standing::Open);
        assert_eq!(refusal(board.release(&ids(&["club-wool"]))), "none of them is in a look");
    }

    #[test]
    fn what_is_let_go_is_in_no_look_and_has_a_reason() {
        let edit = board().let_go(&ids(&["club-serge"]), "  as good as the wool ").unwrap();
        assert_eq!(edit.label, "let go Club serge");
        let board = after(&edit);
        assert_eq!(board.standing(&id("club-serge")), Standing::LetGo("as good as the wool"));
        assert_eq!(refusal(board.let_go(&ids(&["smock"]), "  ")), "say why it is let go");
        assert_eq!(refusal(board.let_go(&[], "because")), "mark some outfits first");
        assert_eq!(refusal(board.let_go(&ids(&["nothing"]), "because")), "there is no outfit `nothing`");
    }

    #[test]
    fn what_is_taken_back_is_open_again() {
        let edit = board().take_back(&ids(&["apron", "smock"])).unwrap();
        assert_eq!(edit.label, "took back Apron");
        assert_eq!(after(&edit).standing(&id("apron")), Standing::Open);
        assert_eq!(refusal(board().take_back(&ids(&["smock"]))), "none of them was let go");
    }

    #[test]
    fn folding_takes_back_what_was_let_go() {
        let mut board = board();
        let smock = ids(&["smock"]);
        board.apply(&board.let_go(&smock, "because").unwrap()).unwrap();
        board.apply(&board.fold(&smock, &id("gown")).unwrap()).unwrap();
        assert_eq!(board.standing(&smock[0]), Standing::Folded(&id("gown")));
        assert_eq!(board.outfit(&smock[0]).unwrap().let_go, None);
    }
}
