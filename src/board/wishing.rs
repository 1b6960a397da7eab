//! Wishing: what a designer asks of a suggestion for single outfits, and which outfits a wish is about. See [`Wishes`](super::Wishes).
//!
//! That two outfits are apart, or together, is written once, on the first of the two in the order of their ids; a
//! mention on the second, which only hands can have made, goes when the wish is made again or taken back.

use super::draft::{Draft, unfit};
use super::gathering::once;
use super::wishes::{Among, BaseWish, Wishes};
use super::{Board, Edit, OutfitId, Refused};

/// Which of the two lists of an outfit.
#[derive(Clone, Copy)]
enum Tie {
    Apart,
    Together,
}

impl Tie {
    fn list(self, wishes: &mut Wishes) -> &mut Vec<OutfitId> {
        match self {
            Self::Apart => &mut wishes.apart,
            Self::Together => &mut wishes.together,
        }
    }
}

impl Board {
    /// Whether an outfit is one of those that a wish about how many is about.
    pub fn is_among(&self, among: &Among, outfit: &OutfitId) -> bool {
        match among {
            Among::Character(who) => self.outfit(outfit).is_some_and(|outfit| outfit.character == *who),
            Among::Period(period) => self.relations().period_of_outfit(outfit) == Some(period),
            Among::Thread(thread) => {
                self.outfit(outfit).is_some_and(|outfit| outfit.threads.contains(thread))
            }
        }
    }

    /// What a group is called on the board.
    pub fn name_of_group<'a>(&'a self, among: &'a Among) -> &'a str {
        match among {
            Among::Character(id) => self.name_of(id),
            Among::Period(id) => self.title_of(id),
            Among::Thread(id) => self.thread(id).map_or(id.as_str(), |thread| &thread.title),
        }
    }

    /// Wishes that the outfit must be the base of a look, must not be, or takes such a wish back.
    ///
    /// # Errors
    /// When there is no such outfit.
    pub fn wish_base(&self, id: &OutfitId, wish: Option<BaseWish>) -> Result<Edit, Refused> {
        let title = self.title_of_outfit(id);
        let label = match wish {
            Some(BaseWish::Must) => format!("{title} must be a base"),
            Some(BaseWish::Never) => format!("{title} must not be a base"),
            None => format!("{title} may be a base"),
        };
        self.change_outfit(id, label, |outfit| outfit.wishes.base = wish)
    }

    /// Wishes that no two of these outfits share a look, or takes that back. The wish goes before an earlier one to
    /// keep two of them together.
    ///
    /// # Errors
    /// When fewer than two outfits are given, they are of several characters, or nothing is there to take back.
    pub fn wish_apart(&self, outfits: &[OutfitId], wish: bool) -> Result<Edit, Refused> {
        self.wish(outfits, wish, Tie::Apart, Tie::Together, ["apart", "may share a look"])
    }

    /// Wishes that these outfits always share a look, or takes that back. The wish goes before an earlier one to keep
    /// two of them apart.
    ///
    /// # Errors
    /// When fewer than two outfits are given, they are of several characters, or nothing is there to take back.
    pub fn wish_together(&self, outfits: &[OutfitId], wish: bool) -> Result<Edit, Refused> {
        self.wish(outfits, wish, Tie::Together, Tie::Apart, ["together", "may be in two looks"])
    }

    fn wish(
        &self,
        outfits: &[OutfitId],
        wish: bool,
        tie: Tie,
        opposite: Tie,
        [kept, free]: [&str; 2],
    ) -> Result<Edit, Refused> {
        let mut marked = once(outfits);
        if marked.len() < 2 {
            return Err(unfit(format!("mark two or more outfits to keep them {kept}")));
        }
        self.one_character(outfits)?;
        let who = match marked.as_slice() {
            [one, other] => format!("{} and {}", self.title_of_outfit(one), self.title_of_outfit(other)),
            several => format!("{} outfits", several.len()),
        };
        marked.sort_unstable();
        let mut draft = Draft::new(self);
        for (at, first) in marked.iter().enumerate() {
            for second in &marked[at + 1..] {
                for (one, other) in [(first, second), (second, first)] {
                    let wishes = &mut draft.outfit(one)?.wishes;
                    let stays = wish && one == first;
                    tie.list(wishes).retain(|id| stays || id != *other);
                    if wish {
                        opposite.list(wishes).retain(|id| id != *other);
                    }
                }
                let list = tie.list(&mut draft.outfit(first)?.wishes);
                if wish && !list.contains(second) {
                    list.push((*second).clone());
                }
            }
        }
        let label = if wish { format!("keep {who} {kept}") } else { format!("{who} {free}") };
        let edit = draft.finish(label);
        if !wish && edit.is_empty() {
            return Err(unfit(format!("no two of them are kept {kept}")));
        }
        Ok(edit)
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{after, board, id, ids, refusal};
    use super::*;
    use crate::board::rules;

    fn apart(board: &Board, outfit: &str) -> Vec<String> {
        board.outfit(&id(outfit)).unwrap().wishes.apart.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn a_wish_about_a_base_is_on_the_outfit_and_taken_back_leaves_nothing() {
        for (wish, label) in [
            (Some(BaseWish::Must), "Quay smock must be a base"),
            (Some(BaseWish::Never), "Quay smock must not be a base"),
        ] {
            let edit = board().wish_base(&id("smock"), wish).unwrap();
            let mut there = after(&edit);
            assert_eq!((edit.label.as_str(), there.outfit(&id("smock")).unwrap().wishes.base), (label, wish));
            let back = there.wish_base(&id("smock"), None).unwrap();
            there.apply(&back).unwrap();
            assert_eq!(there.records(), board().records());
        }
        assert_eq!(refusal(board().wish_base(&id("x"), None)), "there is no outfit `x`");
    }

    #[test]
    fn two_outfits_are_kept_apart_by_one_line_and_both_know_it() {
        let marked = ids(&["smock", "club-wool"]);
        let edit = board().wish_apart(&marked, true).unwrap();
        assert_eq!((edit.label.as_str(), edit.changes.len()), ("keep Quay smock and Club wool apart", 1));
        let mut there = after(&edit);
        assert_eq!((apart(&there, "club-wool"), apart(&there, "smock")), (vec!["smock".to_owned()], vec![]));
        assert_eq!(there.relations().apart_from(&marked[0]), &marked[1..]);
        assert_eq!(there.relations().apart_from(&marked[1]), &marked[..1]);
        assert!(there.wish_apart(&marked, true).unwrap().is_empty());
        there.apply(&there.wish_apart(&marked, false).unwrap()).unwrap();
        assert_eq!(there.records(), board().records());
    }

    #[test]
    fn of_many_every_two_are_meant() {
        let marked = ids(&["smock", "club-wool", "gala-gown"]);
        let there = after(&board().wish_together(&marked, true).unwrap());
        for outfit in &marked {
            assert_eq!(there.relations().together_with(outfit).len(), 2, "{outfit}");
        }
    }

    #[test]
    fn the_later_wish_goes_before_the_earlier_wherever_hands_wrote_that() {
        let mut there = board();
        let (first, second) = (id("club-wool"), id("smock"));
        let by_hand =
            there.change_outfit(&second, "", |smock| smock.wishes.together = vec![first.clone()]).unwrap();
        there.apply(&by_hand).unwrap();
        assert_eq!(there.relations().together_with(&first), std::slice::from_ref(&second));
        there.apply(&there.wish_apart(&[second.clone(), first.clone()], true).unwrap()).unwrap();
        assert!(there.relations().together_with(&first).is_empty());
        assert_eq!(apart(&there, "club-wool"), ["smock"]);
        assert_eq!(rules::broken(&there), []);
    }

    #[test]
    fn what_cannot_be_wished_is_said() {
        let apart = |outfits: &[&str], wish| refusal(board().wish_apart(&ids(outfits), wish));
        let together = |outfits: &[&str], wish| refusal(board().wish_together(&ids(outfits), wish));
        assert_eq!(apart(&["smock", "smock"], true), "mark two or more outfits to keep them apart");
        assert_eq!(together(&["smock"], true), "mark two or more outfits to keep them together");
        assert_eq!(apart(&["smock", "nothing"], true), "there is no outfit `nothing`");
        assert_eq!(
            apart(&["smock", "oilskins"], true),
            "a look is one character's: these are outfits of Odile and Bridie"
        );
        assert_eq!(apart(&["smock", "club-wool"], false), "no two of them are kept apart");
        assert_eq!(together(&["smock", "club-wool"], false), "no two of them are kept together");
    }
}
