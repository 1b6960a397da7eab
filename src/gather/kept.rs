//! Kept: how much of the documented wardrobe the looks still carry.
//!
//! Every outfit counts its [`weight`]; one that is folded keeps of it what is alike between it and the base of its look;
//! one that is open, let go or in a look without a base keeps none.

use std::collections::BTreeMap;

use super::likeness::Likeness;
use super::wardrobe::weight;
use crate::board::{Board, CharacterId, LookId, OutfitId, PeriodId};

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

    fn add(&mut self, kept: f64, of: f64) {
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
        let mut all = Self::default();
        for (id, outfit) in &board.records().outfits {
            let of = weight(outfit);
            let look = board.relations().looks_of(id).first();
            let kept = of * (1.0 - look.map_or(1.0, |look| distance(board, likeness, id, look)));
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

/// How unlike an outfit is to the base of a look; 1 where that has none.
pub fn distance(board: &Board, likeness: &Likeness, outfit: &OutfitId, look: &LookId) -> f64 {
    let base = board.look(look).and_then(|look| look.base.as_ref());
    base.map_or(1.0, |base| likeness.distance(outfit, base))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::Treatment;
    use crate::board::sample::{board, id, ids};

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
}
