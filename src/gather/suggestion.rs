//! A choice set beside the present looks: what stays, what changes, and the edits that would do it.
//!
//! A suggested look is one of the present looks where that has its base, or else holds it; otherwise it is a new one.
//! A present look that is none of the suggested ones goes into the one that takes its base, with its scenes and notes.
//! Invented looks are not touched.

use std::collections::{BTreeMap, BTreeSet};

use super::choice::Choice;
use super::likeness::{Feature, Likeness};
use super::problem::Problem;
use super::wardrobe::Wardrobe;
use crate::board::{Board, CharacterId, Edit, LookId, OutfitId, Refused, Treatment};

/// A choice beside the present looks.
#[derive(Clone, Debug, PartialEq)]
pub struct Suggestion {
    /// The suggested looks, by the date of their bases.
    pub looks: Vec<Suggested>,
    /// Outfits that are open then, since they are too unlike every base to be kept in its look, in order of date.
    pub open: Vec<OutfitId>,
    /// Present looks that go, each with the place in `looks` of the one that takes its base; where none does, of the one
    /// of its character that is most like it and not too many years from it.
    pub goes: Vec<(LookId, usize)>,
    /// Present looks for which there is no room, of characters that are to have none: they are left as they are.
    pub left: Vec<LookId>,
    /// What it keeps, as a share of what is documented.
    pub kept: f64,
    /// The most that any choice within the same wishes could keep.
    pub bound: f64,
    /// Whether no choice keeps more.
    pub proven: bool,
}

/// One suggested look.
#[derive(Clone, Debug, PartialEq)]
pub struct Suggested {
    /// Its base.
    pub base: OutfitId,
    /// What it holds besides, with the distance of each from the base, the nearest first.
    pub folded: Vec<(OutfitId, f64)>,
    /// The present look that it is.
    pub look: Option<LookId>,
    /// Whether that look has another base now.
    pub changes_base: bool,
    /// What comes into it, by id.
    pub comes: Vec<OutfitId>,
    /// What leaves it, by id.
    pub leaves: Vec<OutfitId>,
}

/// What becomes of a look that is suggested.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Becomes {
    /// It is there as suggested.
    AsItIs,
    /// It is not there yet.
    New,
    /// It is there with another base.
    OtherBase,
    /// It is there with this base and other outfits.
    OtherOutfits,
}

/// Whether no wish of the designer says with what an outfit shares a look.
fn is_unbound(board: &Board, outfit: &OutfitId) -> bool {
    let relations = board.relations();
    relations.apart_from(outfit).is_empty() && relations.together_with(outfit).is_empty()
}

impl Suggested {
    /// The base, then the folded outfits.
    pub fn outfits(&self) -> impl Iterator<Item = &OutfitId> {
        std::iter::once(&self.base).chain(self.folded.iter().map(|(outfit, _)| outfit))
    }

    /// What becomes of the present look.
    pub fn becomes(&self) -> Becomes {
        match self.look {
            None => Becomes::New,
            Some(_) if self.changes_base => Becomes::OtherBase,
            Some(_) if self.comes.is_empty() && self.leaves.is_empty() => Becomes::AsItIs,
            Some(_) => Becomes::OtherOutfits,
        }
    }

    /// Whether the present look is as suggested.
    pub fn stays(&self) -> bool {
        self.becomes() == Becomes::AsItIs
    }
}

impl Suggestion {
    /// A choice for a wardrobe of this board, or of one of its characters.
    pub fn of(
        board: &Board,
        likeness: &Likeness,
        wardrobe: &Wardrobe,
        choice: &Choice,
        who: Option<&CharacterId>,
    ) -> Self {
        let problem = wardrobe.problem();
        let outfits = wardrobe.outfits();
        let mut open = Vec::new();
        let mut held: BTreeMap<usize, Vec<(OutfitId, f64)>> =
            choice.bases.iter().map(|base| (*base, Vec::new())).collect();
        let dressed: BTreeSet<u32> = choice.bases.iter().map(|base| problem.kind(*base)).collect();
        for (outfit, base) in choice.base_of.iter().enumerate() {
            // Whoever is to have no look is left alone.
            if *base == Some(outfit) || !dressed.contains(&problem.kind(outfit)) {
                continue;
            }
            let id = &outfits[outfit];
            let kept = base
                .filter(|base| !is_unbound(board, id) || problem.distance(outfit, *base) < Problem::ALONE);
            let base = match kept {
                Some(base) => base,
                // Nothing is kept of it anywhere: it stays where the designer has it, unless a wish forbids that, or it
                // is open.
                None => {
                    let present = board.relations().looks_of(id).first().and_then(|look| board.look(look));
                    if present.is_some_and(|look| look.base.is_none()) {
                        continue;
                    }
                    let at = present.and_then(|look| wardrobe.place(look.base.as_ref()?));
                    match at.filter(|at| is_unbound(board, id) && held.contains_key(at)) {
                        Some(at) => at,
                        None => {
                            open.push(id.clone());
                            continue;
                        }
                    }
                }
            };
            held.entry(base).or_default().push((id.clone(), problem.distance(outfit, base)));
        }
        let mut looks: Vec<Suggested> = Vec::new();
        for (base, mut folded) in held {
            folded.sort_by(|a, b| a.1.total_cmp(&b.1).then_with(|| a.0.cmp(&b.0)));
            let base = outfits[base].clone();
            let (look, comes, leaves) = (None, Vec::new(), Vec::new());
            looks.push(Suggested { base, folded, look, changes_base: false, comes, leaves });
        }
        let by_date: BTreeMap<&OutfitId, usize> =
            board.relations().outfits_by_date().iter().zip(0..).collect();
        looks.sort_by_key(|look| by_date.get(&look.base).copied());
        open.sort_by_key(|outfit| by_date.get(outfit).copied());
        let mut suggestion = Self {
            looks,
            open,
            goes: Vec::new(),
            left: Vec::new(),
            kept: wardrobe.kept(choice.cost),
            bound: wardrobe.kept(choice.bound),
            proven: choice.proven,
        };
        suggestion.compare(board, likeness, who);
        suggestion
    }

    /// Finds the present look of each suggested one, and what changes.
    fn compare(&mut self, board: &Board, likeness: &Likeness, who: Option<&CharacterId>) {
        let present: Vec<(&LookId, &OutfitId)> = board
            .relations()
            .looks_by_order()
            .iter()
            .filter_map(|id| {
                let look = board.look(id)?;
                who.is_none_or(|who| look.character == *who).then_some((id, look.base.as_ref()?))
            })
            .collect();
        let mut taken = BTreeSet::new();
        for suggested in &mut self.looks {
            suggested.look =
                present.iter().find(|(_, base)| **base == suggested.base).map(|(look, _)| (*look).clone());
            taken.extend(suggested.look.clone());
        }
        for suggested in self.looks.iter_mut().filter(|suggested| suggested.look.is_none()) {
            let holder = board.relations().looks_of(&suggested.base).first();
            suggested.look = holder.filter(|look| taken.insert((*look).clone())).cloned();
            suggested.changes_base = suggested.look.is_some();
        }
        for suggested in &mut self.looks {
            let now: BTreeSet<OutfitId> = match suggested.look.as_ref().and_then(|look| board.look(look)) {
                Some(look) => look.outfits().cloned().collect(),
                None => BTreeSet::new(),
            };
            let then: BTreeSet<OutfitId> = suggested.outfits().cloned().collect();
            suggested.comes = then.difference(&now).cloned().collect();
            suggested.leaves = now.difference(&then).cloned().collect();
        }
        for (look, base) in present.into_iter().filter(|(look, _)| !taken.contains(*look)) {
            let into = self.looks.iter().position(|suggested| suggested.outfits().any(|id| id == base));
            match into.or_else(|| self.nearest(likeness, base)) {
                Some(into) => self.goes.push((look.clone(), into)),
                None => self.left.push(look.clone()),
            }
        }
    }

    /// The suggested look of the same character whose base is most like an outfit that is in none, of those that are not
    /// too many years from it if there are any: its scenes play at that time.
    fn nearest(&self, likeness: &Likeness, outfit: &OutfitId) -> Option<usize> {
        let far = |at: usize| {
            let told = likeness.explain(outfit, &self.looks[at].base)?;
            let is_far = told.distance_in(Feature::Date).is_none_or(|distance| distance >= 1.0);
            Some((is_far, told.distance, at))
        };
        let near = (0..self.looks.len()).filter_map(far);
        near.min_by(|one, other| one.0.cmp(&other.0).then(one.1.total_cmp(&other.1))).map(|(_, _, at)| at)
    }

    /// The present looks that go into the suggested one at a place.
    pub fn going_into(&self, at: usize) -> impl Iterator<Item = &LookId> {
        self.goes.iter().filter(move |(_, into)| *into == at).map(|(look, _)| look)
    }

    /// Whether the base of the nth look that goes is kept in the look that it goes into.
    pub fn is_kept(&self, board: &Board, go: usize) -> bool {
        let (look, into) = &self.goes[go];
        let base = board.look(look).and_then(|look| look.base.as_ref());
        base.is_some_and(|base| self.looks[*into].outfits().any(|id| id == base))
    }

    /// Whether the present looks are as suggested.
    pub fn stays(&self) -> bool {
        self.goes.is_empty() && self.looks.iter().all(Suggested::stays)
    }

    /// The edit that makes all suggested looks, or only the one at `only`.
    ///
    /// # Errors
    /// As the edits of which it is made, when the board has changed meanwhile.
    pub fn edit(&self, board: &Board, only: Option<usize>) -> Result<Edit, Refused> {
        let wanted = |at: usize| only.is_none_or(|only| only == at);
        let chosen: Vec<(usize, &Suggested)> =
            self.looks.iter().enumerate().filter(|(at, _)| wanted(*at)).collect();
        let open: BTreeSet<&OutfitId> = self.open.iter().collect();
        let mut after = board.clone();
        let mut made: BTreeMap<usize, LookId> = BTreeMap::new();
        // Every look has its own base first, so that none is emptied by what goes to another.
        for &(at, suggested) in &chosen {
            let look = match &suggested.look {
                Some(look) => look.clone(),
                None => {
                    let title = after.title_of_outfit(&suggested.base).to_owned();
                    let alone = [suggested.base.clone()];
                    let treatment =
                        if suggested.folded.is_empty() { Treatment::Copy } else { Treatment::Interpret };
                    let (look, edit) = after.gather(&alone, &title, &suggested.base, treatment)?;
                    after.apply(&edit)?;
                    look
                }
            };
            if suggested.changes_base {
                let edit = after.set_base(&suggested.base)?;
                after.apply(&edit)?;
                // The period was said for the other base; the choice counts this one in its own.
                let edit = after.change_look(&look, "", |look| look.period = None)?;
                after.apply(&edit)?;
            }
            made.insert(at, look);
        }
        for (from, into) in &self.goes {
            if let Some(into) = made.get(into) {
                let edit = after.merge_looks(from, into)?;
                after.apply(&edit)?;
            }
        }
        for &(at, suggested) in &chosen {
            let Some(look) = made.get(&at) else { continue };
            let held: BTreeSet<OutfitId> =
                after.look(look).into_iter().flat_map(|look| look.outfits().cloned()).collect();
            let comes: Vec<OutfitId> =
                suggested.outfits().filter(|outfit| !held.contains(*outfit)).cloned().collect();
            if !comes.is_empty() {
                let edit = after.fold(&comes, look)?;
                after.apply(&edit)?;
            }
            let held = after.look(look).into_iter().flat_map(|look| look.outfits());
            let leaves: Vec<OutfitId> = held.filter(|outfit| open.contains(outfit)).cloned().collect();
            if !leaves.is_empty() {
                let edit = after.release(&leaves)?;
                after.apply(&edit)?;
            }
        }
        let label = match chosen.as_slice() {
            [(_, one)] if only.is_some() => format!("as suggested: {}", board.title_of_outfit(&one.base)),
            [_] => "1 look as suggested".to_owned(),
            several => format!("{} looks as suggested", several.len()),
        };
        Ok(Edit::between(label, board.records(), after.records()))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::board::sample::arbitrary;
    use crate::gather::{Kept, Limits, solve};

    fn suggest(board: &Board) -> Option<Suggestion> {
        let likeness = Likeness::of(board);
        let wardrobe = Wardrobe::of(board, &likeness, None, &|| false).unwrap();
        let choice = solve(wardrobe.problem(), &Limits::default()).ok()?;
        Some(Suggestion::of(board, &likeness, &wardrobe, &choice, None))
    }

    #[test]
    fn a_look_that_takes_another_base_is_in_the_period_of_that() {
        let mut board = crate::board::sample::board();
        let (gown, club): (LookId, LookId) = ("gown".parse().unwrap(), "club".parse().unwrap());
        let base = board.look(&gown).unwrap().base.clone().unwrap();
        let other = board.look(&club).unwrap().folded[0].clone();
        // The club's folded outfit must be a base, and its base must not.
        let old = board.look(&club).unwrap().base.clone().unwrap();
        let period = board.head().periods[0].id.clone();
        for edit in [
            board.change_look(&club, "", |look| look.period = Some(period.clone())).unwrap(),
            board.wish_base(&other, Some(crate::board::BaseWish::Must)).unwrap(),
            board.wish_base(&old, Some(crate::board::BaseWish::Never)).unwrap(),
            board.wish_base(&base, Some(crate::board::BaseWish::Must)).unwrap(),
        ] {
            board.apply(&edit).unwrap();
        }
        let suggestion = suggest(&board).unwrap();
        board.apply(&suggestion.edit(&board, None).unwrap()).unwrap();
        let look = board.look(&club).unwrap();
        assert_eq!((look.base.as_ref(), look.period.as_ref()), (Some(&other), None));
    }

    #[test]
    fn the_edit_says_how_many_looks_it_makes() {
        let board = crate::board::sample::board();
        let mut suggestion = suggest(&board).unwrap();
        let label = |suggestion: &Suggestion| suggestion.edit(&board, None).unwrap().label;
        let all = suggestion.looks.len();
        assert!(all > 1);
        assert_eq!(label(&suggestion), format!("{all} looks as suggested"));
        suggestion.looks.truncate(1);
        assert_eq!(label(&suggestion), "1 look as suggested");
    }

    proptest! {
        /// Whatever the board: taken whole, the looks are as suggested and keep what was said; taken back, the board
        /// is as it was.
        #[test]
        fn a_suggestion_that_is_taken_is_what_it_said(records in arbitrary::sound_records()) {
            let board = Board::new(records);
            let Some(suggestion) = suggest(&board) else { return Ok(()) };
            let Ok(edit) = suggestion.edit(&board, None) else { return Ok(()) };
            let mut after = board.clone();
            let inverse = after.apply(&edit).unwrap();
            prop_assert!(suggestion.stays() == edit.is_empty());
            let kept = Kept::of(&after, &Likeness::of(&after)).all.share();
            let as_said = (kept - suggestion.kept).abs() < 1e-6;
            prop_assert!(as_said || !suggestion.left.is_empty(), "{kept} and not {}", suggestion.kept);
            for suggested in &suggestion.looks {
                let look = after.relations().looks_of(&suggested.base).first().and_then(|look| after.look(look));
                let look = look.unwrap();
                prop_assert_eq!(look.base.as_ref(), Some(&suggested.base));
                let held: BTreeSet<&OutfitId> = look.outfits().collect();
                prop_assert_eq!(held, suggested.outfits().collect());
            }
            after.apply(&inverse).unwrap();
            prop_assert_eq!(after.records(), board.records());
        }

        /// One look alone holds what was suggested for it.
        #[test]
        fn a_look_may_be_taken_alone(records in arbitrary::sound_records()) {
            let board = Board::new(records);
            let Some(suggestion) = suggest(&board) else { return Ok(()) };
            for at in 0..suggestion.looks.len() {
                let Ok(edit) = suggestion.edit(&board, Some(at)) else { continue };
                let mut after = board.clone();
                let inverse = after.apply(&edit).unwrap();
                let base = &suggestion.looks[at].base;
                let look = after.relations().looks_of(base).first().and_then(|look| after.look(look)).unwrap();
                let held: BTreeSet<&OutfitId> = look.outfits().collect();
                prop_assert!(suggestion.looks[at].outfits().all(|outfit| held.contains(outfit)));
                after.apply(&inverse).unwrap();
                prop_assert_eq!(after.records(), board.records());
            }
        }
    }
}
