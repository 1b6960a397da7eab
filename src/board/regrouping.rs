//! Looks merged, split and dissolved: the same outfits in fewer looks or in more.

use super::draft::{Draft, unfit};
use super::gathering::once;
use super::{Board, Edit, LookId, OutfitId, Refused, Treatment};

impl Board {
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
}

#[cfg(test)]
mod tests {
    use super::super::sample::{after, board, held, id, ids, records, refusal};
    use super::*;
    use crate::board::{Look, RecordRef, Standing};

    #[test]
    fn a_merged_look_hands_over_its_outfits_scenes_threads_and_words() {
        let edit = board().merge_looks(&id("club"), &id("gown")).unwrap();
        assert_eq!(edit.label, "merged Club into Gown");
        let board = after(&edit);
        let gown = board.look(&id("gown")).unwrap();
        assert_eq!(held(&board, "gown"), ["gala-gown", "club-wool", "club-serge", "crossing-wool"]);
        assert_eq!(gown.threads, ids(&["green-cap"]));
        assert_eq!(gown.notes, "From Club: she races");
        assert!(board.look(&id("club")).is_none());
        assert_eq!(board.relations().scenes_of(&id("gown")), [1, 2, 3]);
    }

    #[test]
    fn merging_heals_an_outfit_that_files_put_into_both_looks() {
        let mut records = records();
        let mut gown = Look::clone(&records.looks[&id("gown")]);
        gown.folded.push(id("club-serge"));
        records.looks.insert(id("gown"), gown.into());
        let mut board = Board::new(records);
        board.apply(&board.merge_looks(&id("club"), &id("gown")).unwrap()).unwrap();
        assert_eq!(held(&board, "gown"), ["gala-gown", "club-serge", "club-wool", "crossing-wool"]);
        assert_eq!(crate::board::rules::broken(&board), []);
    }

    #[test]
    fn looks_that_cannot_be_merged_are_said() {
        let mut board = board();
        let merge = |board: &Board, from, into| refusal(board.merge_looks(&id(from), &id(into)));
        assert_eq!(merge(&board, "club", "club"), "choose another look to merge with");
        assert_eq!(merge(&board, "nothing", "club"), "there is no look `nothing`");
        assert_eq!(merge(&board, "club", "nothing"), "there is no look `nothing`");
        assert_eq!(merge(&board, "club", "rescue"), "Club and Rescue are looks of two characters");
        board.apply(&board.invent("Dream", &id("odile"), None).unwrap().1).unwrap();
        assert_eq!(merge(&board, "club", "dream"), "Dream is invented: merge it into Club instead");
        assert!(board.merge_looks(&id("dream"), &id("club")).is_ok());
    }

    #[test]
    fn what_is_split_off_is_a_look_of_the_same_treatment_and_scenes_stay() {
        let (look, edit) = board().split(&ids(&["crossing-wool", "club-wool"]), "Crossing").unwrap();
        assert_eq!(edit.label, "split 2 off Club");
        let board = after(&edit);
        assert_eq!(held(&board, "crossing"), ["crossing-wool", "club-wool"]);
        assert_eq!(held(&board, "club"), ["club-serge"]);
        assert_eq!(board.look(&look).unwrap().treatment, Treatment::Interpret);
        assert_eq!(board.relations().scenes_of(&id("club")), [1]);
        assert_eq!(board.relations().scenes_of(&look), [0; 0]);
    }

    #[test]
    fn what_cannot_be_split_off_is_said() {
        let split = |outfits: &[&str]| refusal(board().split(&ids(outfits), "New"));
        assert_eq!(split(&[]), "mark the outfits to split off");
        assert_eq!(split(&["smock"]), "gather them into a look first");
        assert_eq!(split(&["club-wool", "gala-gown"]), "mark outfits of one look to split them off");
        assert_eq!(split(&["club-wool", "club-serge", "crossing-wool"]), "something must stay in Club");
    }

    #[test]
    fn a_dissolved_look_leaves_open_outfits_and_scenes_without_a_look() {
        let edit = board().dissolve(&id("gown")).unwrap();
        assert_eq!(edit.label, "dissolved Gown");
        let board = after(&edit);
        assert_eq!(board.standing(&id("gala-gown")), Standing::Open);
        let wears =
            |scene: &str| board.scene(&scene.parse().unwrap()).unwrap().wears.get(&id("odile")).cloned();
        assert_eq!((wears("3"), wears("3A")), (Some(None), Some(None)));
        assert_eq!(refusal(board.dissolve(&id("gown"))), "there is no look `gown`");
    }

    #[test]
    fn a_look_in_a_scene_that_no_edit_reaches_stays() {
        let mut records = records();
        let mut second = crate::board::Scene::clone(&records.scenes[2]);
        second.number = "2".parse().unwrap();
        records.scenes.push(second.into());
        let mut board = Board::new(records.clone());
        let edit = board.dissolve(&id("gown")).unwrap();
        assert!(edit.touched().all(|record| record != RecordRef::Scene("2".parse().unwrap())));
        assert_eq!(refusal(board.apply(&edit)), "scene 2 names look `gown`, which is not there");
        assert_eq!(board.records(), &records);
    }
}
