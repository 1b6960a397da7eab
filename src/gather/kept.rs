//! Kept: how much of the documented wardrobe the looks still carry.
//!
//! Every outfit counts its [`weight`]; one that is folded keeps of it what is alike between it and the base of its look;
//! one that is open, let go or in a look without a base keeps none.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

use super::likeness::Likeness;
use super::wardrobe::weight;
use crate::board::{Board, CharacterId, Look, LookId, Outfit, OutfitId, PeriodId};

/// What is kept of some weight.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tally {
    /// What is kept.
    pub kept: f64,
    /// What there is.
    pub of: f64,
}

impl Tally {
    /// 0 to 1; 1 where there is nothing to keep.
    pub fn share(self) -> f64 {
        if self.of > 0.0 { self.kept / self.of } else { 1.0 }
    }

    /// Adds what is kept of some more.
    pub(crate) fn add(&mut self, kept: f64, of: f64) {
        self.kept += kept;
        self.of += of;
    }
}

/// What the looks of a board keep.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kept {
    /// Of everything.
    pub all: Tally,
    /// Of each character's outfits.
    pub characters: BTreeMap<CharacterId, Tally>,
    /// Of each period's outfits.
    pub periods: BTreeMap<PeriodId, Tally>,
    /// Of the outfits in each look.
    pub looks: BTreeMap<LookId, Tally>,
}

impl Kept {
    /// What the board's looks keep.
    pub fn of(board: &Board, likeness: &Likeness) -> Self {
        Self::by(board, |_, [id, base], _| likeness.distance(id, base))
    }

    /// By what says how unlike a folded outfit, the nth of all, is to the base of its look; asked in order.
    fn by(board: &Board, mut distance: impl FnMut(usize, [&OutfitId; 2], [&Arc<Outfit>; 2]) -> f64) -> Self {
        let (outfits, looks) = (&board.records().outfits, &board.records().looks);
        let base_of = |(id, look): (_, &Arc<Look>)| Some((id, outfits.get_key_value(look.base.as_ref()?)?));
        let bases: HashMap<&LookId, (&OutfitId, &Arc<Outfit>)> = looks.iter().filter_map(base_of).collect();
        let mut all = Self::default();
        for (at, (id, outfit)) in outfits.iter().enumerate() {
            let of = weight(outfit);
            let look = board.relations().looks_of(id).first();
            let base = look.and_then(|look| bases.get(look));
            let distance = base.map_or(1.0, |(base, of)| distance(at, [id, base], [outfit, of]));
            let kept = of * (1.0 - distance);
            all.all.add(kept, of);
            all.characters.entry(outfit.character.clone()).or_default().add(kept, of);
            if let Some(period) = board.relations().period_of_outfit(id) {
                all.periods.entry(period.clone()).or_default().add(kept, of);
            }
            if let Some(look) = look {
                all.looks.entry(look.clone()).or_default().add(kept, of);
            }
        }
        all
    }
}

/// What the looks of a board keep, kept up with the board: what an edit did not touch is not compared again.
#[derive(Clone, Debug, Default)]
pub struct Keeping {
    likeness: Likeness,
    kept: Kept,
    /// Of each outfit, in order, how unlike it was to the base of its look, and the records of the two.
    found: Vec<Option<Pair>>,
}

#[derive(Clone, Debug)]
struct Pair {
    records: [Arc<Outfit>; 2],
    distance: f64,
}

impl Keeping {
    /// Takes up what has changed on the board since.
    pub fn follow(&mut self, board: &Board) {
        let outfits = &board.records().outfits;
        if !self.likeness.follow(board) {
            self.found.clear();
        }
        if self.found.len() != outfits.len() {
            // Outfits have come or gone, so that others have moved up or down.
            let old = self.found.drain(..).flatten();
            let mut old: HashMap<_, Pair> = old.map(|pair| (Arc::as_ptr(&pair.records[0]), pair)).collect();
            self.found = outfits.values().map(|outfit| old.remove(&Arc::as_ptr(outfit))).collect();
        }
        let (likeness, found) = (&self.likeness, &mut self.found);
        self.kept = Kept::by(board, |at, [id, base], records| {
            let is_same = |pair: &&Pair| pair.records.iter().zip(records).all(|(a, b)| Arc::ptr_eq(a, b));
            if let Some(pair) = found[at].as_ref().filter(is_same) {
                return pair.distance;
            }
            let distance = likeness.distance(id, base);
            found[at] = Some(Pair { records: records.map(Arc::clone), distance });
            distance
        });
    }

    /// The likeness of the outfits.
    pub fn likeness(&self) -> &Likeness {
        &self.likeness
    }

    /// What is kept.
    pub fn kept(&self) -> &Kept {
        &self.kept
    }
}

/// How unlike an outfit is to the base of a look; 1 where that has none.
pub fn distance(board: &Board, likeness: &Likeness, outfit: &OutfitId, look: &LookId) -> f64 {
    let base = board.look(look).and_then(|look| look.base.as_ref());
    base.map_or(1.0, |base| likeness.distance(outfit, base))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::Treatment;
    use crate::board::sample::{arbitrary, board, id, ids, operation};
    use proptest::collection::vec;
    use proptest::prelude::*;

    #[test]
    fn a_base_keeps_itself_and_open_outfits_keep_nothing() {
        let board = board();
        let kept = Kept::of(&board, &Likeness::of(&board));
        let sum = |tallies: Vec<&Tally>| tallies.iter().map(|tally| tally.kept).sum::<f64>();
        assert!((sum(kept.characters.values().collect()) - kept.all.kept).abs() < 1e-12);
        assert!((sum(kept.looks.values().collect()) - kept.all.kept).abs() < 1e-12);
        for (look, tally) in &kept.looks {
            let base =
                board.look(look).and_then(|look| look.base.as_ref()).and_then(|base| board.outfit(base));
            assert!(tally.kept >= base.map_or(0.0, weight) && tally.kept <= tally.of);
        }
        let mut more = board.clone();
        let smock = board.gather(&ids(&["smock"]), "Quay", &id("smock"), Treatment::Copy).unwrap().1;
        more.apply(&smock).unwrap();
        let gained = Kept::of(&more, &Likeness::of(&more)).all.kept - kept.all.kept;
        assert!((gained - weight(board.outfit(&id("smock")).unwrap())).abs() < 1e-12);
        assert_eq!(Kept::default().all.share(), 1.0);
    }

    /// Every tally of it, by name.
    fn tallies(kept: &Kept) -> Vec<(String, Tally)> {
        let mut all = vec![("all".to_owned(), kept.all)];
        all.extend(kept.characters.iter().map(|(id, tally)| (format!("character {id}"), *tally)));
        all.extend(kept.periods.iter().map(|(id, tally)| (format!("period {id}"), *tally)));
        all.extend(kept.looks.iter().map(|(id, tally)| (format!("look {id}"), *tally)));
        all
    }

    proptest! {
        #[test]
        fn what_is_kept_up_is_what_would_be_summed_anew(
            records in arbitrary::sound_records(), operations in vec(operation::operations(), 1..12),
        ) {
            let mut board = Board::new(records);
            let mut keeping = Keeping::default();
            for operation in operations {
                if let Ok(edit) = operation.edit(&board) {
                    // One that the board refuses leaves it as it was.
                    let _ = board.apply(&edit);
                }
                keeping.follow(&board);
                let (kept, anew) = (tallies(keeping.kept()), tallies(&Kept::of(&board, &Likeness::of(&board))));
                prop_assert_eq!(kept.len(), anew.len());
                for ((name, kept), (of, anew)) in kept.iter().zip(&anew) {
                    // Words are summed in the order in which they were first read, in single precision.
                    let is_same = (kept.kept - anew.kept).abs() <= 1e-5 * anew.of && kept.of == anew.of;
                    prop_assert!(name == of && is_same, "{} {:?}, {} {:?}", name, kept, of, anew);
                }
            }
        }
    }
}
