//! What each present look is worth: the designer's argument when a producer asks for three looks fewer.
//!
//! All of it is in shares of what is documented, 0 to 1, of the whole board or of one character.

use super::kept::{Tally, distance};
use super::likeness::Likeness;
use super::wardrobe::{Wardrobe, weight};
use crate::board::{BaseWish, Board, CharacterId, LookId, Outfit, OutfitId, Standing};

/// What the present looks keep.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Present {
    /// How many looks have a base.
    pub looks: usize,
    /// What they keep.
    pub kept: f64,
    /// What they could keep, were every outfit that is not let go in the look with the nearest base.
    pub reachable: f64,
}

/// What the present looks are worth.
#[derive(Clone, Debug, PartialEq)]
pub struct Worth {
    /// What they keep together.
    pub present: Present,
    /// Every look with a base, the one that is worth least first.
    pub looks: Vec<LookWorth>,
    /// Every two looks of a character that may become one, once, the cheaper way round of those that
    /// [`Board::may_go`] and [`Board::may_take_in`] leave; the cheapest merger first. Invented looks, which keep nothing,
    /// are left out.
    pub mergers: Vec<MergerCost>,
    /// Every documented outfit, in the order of their ids.
    pub outfits: Vec<Carried>,
    /// Folded outfits by what they lose in their look, the most first.
    pub worst: Vec<Served>,
    /// Outfits in no look, with the look that would keep most of each: open ones and those that are let go.
    pub unserved: Vec<Served>,
    /// Outfits that would gain most as the base of one look more, the best first; none that must not be a base.
    pub one_more: Vec<OneMore>,
}

/// What is kept of one outfit, and what could be.
#[derive(Clone, Debug, PartialEq)]
pub struct Carried {
    /// The outfit.
    pub outfit: OutfitId,
    /// What its look keeps of its weight.
    pub kept: Tally,
    /// What the look with the nearest base would keep; nothing of what is let go.
    pub reachable: Tally,
}

/// What one look is worth.
#[derive(Clone, Debug, PartialEq)]
pub struct LookWorth {
    /// The look.
    pub look: LookId,
    /// How many outfits it holds.
    pub outfits: usize,
    /// What it keeps.
    pub kept: f64,
    /// What is lost if it goes, and each of its outfits goes into the look of the same character with the nearest base.
    pub lost: f64,
}

/// What a merger costs.
#[derive(Clone, Debug, PartialEq)]
pub struct MergerCost {
    /// The look that goes.
    pub from: LookId,
    /// The look whose base stays.
    pub into: LookId,
    /// What is kept less after it.
    pub lost: f64,
    /// What is still kept of the outfits of the look that goes.
    pub kept: f64,
}

/// A merger after those before it.
#[derive(Clone, Debug, PartialEq)]
pub struct Fewer {
    /// The merger.
    pub merger: MergerCost,
    /// What is kept once it and those before it are made.
    pub kept: f64,
}

/// One outfit, and the look that it is in or could be in.
#[derive(Clone, Debug, PartialEq)]
pub struct Served {
    /// The outfit.
    pub outfit: OutfitId,
    /// Its look, or the one that would keep most of it; `None` where none would keep any.
    pub look: Option<LookId>,
    /// How unlike it is to that look's base.
    pub distance: f64,
    /// What is lost of it there (of a folded one), or what it would keep there (of one in no look).
    pub share: f64,
    /// Why it was let go, if it was.
    pub reason: Option<String>,
}

/// An outfit that is no base yet.
#[derive(Clone, Debug, PartialEq)]
pub struct OneMore {
    /// The outfit.
    pub base: OutfitId,
    /// What would be kept more, were it the base of a look of its own and each outfit in the nearest look.
    pub gain: f64,
}

/// An outfit, with what the looks could do for it.
struct Documented<'a> {
    id: &'a OutfitId,
    weight: f64,
    standing: Standing<'a>,
    /// How far the nearest base is that keeps anything of it, and whose look has it.
    near: Option<(f64, &'a LookId)>,
}

impl Documented<'_> {
    fn is_let_go(&self) -> bool {
        matches!(self.standing, Standing::LetGo(_))
    }

    /// How far the nearest base is; 1 where none keeps anything of it.
    fn far(&self) -> f64 {
        self.near.map_or(1.0, |(far, _)| far)
    }
}

/// A look with a base, and what is in it.
struct Held<'a> {
    id: &'a LookId,
    base: &'a OutfitId,
    character: &'a CharacterId,
    outfits: Vec<&'a OutfitId>,
}

/// A board, looked at for what its looks keep.
struct Worn<'a> {
    board: &'a Board,
    likeness: &'a Likeness,
    wardrobe: &'a Wardrobe,
    looks: Vec<Held<'a>>,
    /// Every documented outfit, in the order of their ids.
    outfits: Vec<Documented<'a>>,
    /// What all of them weigh.
    all: f64,
}

impl<'a> Worn<'a> {
    fn of(board: &'a Board, likeness: &'a Likeness, wardrobe: &'a Wardrobe) -> Self {
        let asked = |character: &CharacterId| wardrobe.who().is_none_or(|who| who == character);
        let held = |id: &'a LookId| {
            let look = board.look(id)?;
            let (id, _) = board.records().looks.get_key_value(id)?;
            let first = |outfit: &&OutfitId| board.relations().looks_of(outfit).first() == Some(id);
            let outfits = look.outfits().filter(first).collect();
            let base = look.base.as_ref()?;
            asked(&look.character).then_some(Held { id, base, character: &look.character, outfits })
        };
        let looks = board.relations().looks_by_order().iter().filter_map(held).collect();
        let mut worn = Self { board, likeness, wardrobe, looks, outfits: Vec::new(), all: 0.0 };
        let records = board.records().outfits.iter().filter(|(_, outfit)| asked(&outfit.character));
        let documented = records.map(|(id, outfit)| {
            let (standing, near) = (board.standing(id), worn.nearest(id, &outfit.character, None));
            Documented { id, weight: weight(outfit), standing, near }
        });
        let outfits: Vec<Documented<'_>> = documented.collect();
        worn.all = outfits.iter().map(|outfit| outfit.weight).sum();
        worn.outfits = outfits;
        worn
    }

    /// How unlike an outfit is to a base. What is let go is not in the question, and so is compared here.
    fn far(&self, outfit: &OutfitId, base: &OutfitId) -> f64 {
        match (self.wardrobe.place(outfit), self.wardrobe.place(base)) {
            (Some(of), Some(at)) => self.wardrobe.problem().distance(of, at),
            _ => self.likeness.distance(outfit, base),
        }
    }

    /// The nearest base that keeps anything of an outfit, but that of `without`.
    fn nearest(
        &self,
        outfit: &OutfitId,
        character: &CharacterId,
        without: Option<&LookId>,
    ) -> Option<(f64, &'a LookId)> {
        let others = self.looks.iter().filter(|look| look.character == character && Some(look.id) != without);
        others
            .map(|look| (self.far(outfit, look.base), look.id))
            .filter(|(far, _)| *far < 1.0)
            .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)))
    }

    fn share(&self, weight: f64) -> f64 {
        if self.all > 0.0 { weight / self.all } else { 0.0 }
    }

    fn carried(&self) -> Vec<Carried> {
        let carried = |outfit: &Documented<'_>| {
            let there = 1.0 - outfit.far();
            let kept = match outfit.standing {
                Standing::Folded(look) => {
                    outfit.weight * (1.0 - distance(self.board, self.likeness, outfit.id, look))
                }
                Standing::Open | Standing::LetGo(_) => 0.0,
            };
            let reachable = if outfit.is_let_go() { 0.0 } else { outfit.weight * there };
            let tally = |kept| Tally { kept, of: outfit.weight };
            Carried { outfit: outfit.id.clone(), kept: tally(kept), reachable: tally(reachable) }
        };
        self.outfits.iter().map(carried).collect()
    }

    fn present(&self, carried: &[Carried]) -> Present {
        let sum = |of: fn(&Carried) -> f64| self.share(carried.iter().map(of).sum());
        Present {
            looks: self.looks.len(),
            kept: sum(|carried| carried.kept.kept),
            reachable: sum(|carried| carried.reachable.kept),
        }
    }

    /// Folded outfits by what they lose, and those in no look by what they would keep.
    fn served(&self) -> (Vec<Served>, Vec<Served>) {
        let (mut worst, mut unserved) = (Vec::new(), Vec::new());
        for outfit in &self.outfits {
            let id = outfit.id.clone();
            if let Standing::Folded(look) = outfit.standing {
                let distance = distance(self.board, self.likeness, outfit.id, look);
                let (look, share) = (Some(look.clone()), self.share(outfit.weight * distance));
                worst.push(Served { outfit: id, look, distance, share, reason: None });
            } else {
                let look = outfit.near.map(|(_, look)| look.clone());
                let (distance, share) = (outfit.far(), self.share(outfit.weight * (1.0 - outfit.far())));
                let reason = match outfit.standing {
                    Standing::LetGo(reason) => Some(reason.to_owned()),
                    Standing::Open | Standing::Folded(_) => None,
                };
                unserved.push(Served { outfit: id, look, distance, share, reason });
            }
        }
        worst.retain(|served: &Served| served.share > 0.0);
        for list in [&mut worst, &mut unserved] {
            list.sort_by(|a, b| b.share.total_cmp(&a.share));
        }
        (worst, unserved)
    }

    fn looks(&self) -> Vec<LookWorth> {
        let worth = |look: &Held<'_>| {
            let kept = keeps(self.board, &look.outfits, |id| self.far(id, look.base));
            let after = keeps(self.board, &look.outfits, |id| {
                self.nearest(id, look.character, Some(look.id)).map_or(1.0, |near| near.0)
            });
            LookWorth {
                look: look.id.clone(),
                outfits: look.outfits.len(),
                kept: self.share(kept),
                lost: self.share(kept - after),
            }
        };
        let mut looks: Vec<LookWorth> = self.looks.iter().map(worth).collect();
        looks.sort_by(|a, b| a.lost.total_cmp(&b.lost));
        looks
    }

    fn mergers(&self) -> Vec<MergerCost> {
        let merger = |from: &Held<'_>, into: &Held<'_>| {
            let kept = |base: &OutfitId| keeps(self.board, &from.outfits, |id| self.far(id, base));
            let cost = || {
                let (before, after) = (kept(from.base), kept(into.base));
                let (from, into) = (from.id.clone(), into.id.clone());
                MergerCost { from, into, lost: self.share(before - after), kept: self.share(after) }
            };
            self.board.may_take_in(into.id, from.id).then(cost)
        };
        let goes: Vec<(&Held<'_>, bool)> =
            self.looks.iter().map(|look| (look, self.board.may_go(look.id))).collect();
        let mut mergers = Vec::new();
        for (at, (one, one_goes)) in goes.iter().enumerate() {
            for (other, other_goes) in &goes[at + 1..] {
                let ways = [(one, other, one_goes), (other, one, other_goes)].into_iter();
                let ways = ways.filter(|(.., goes)| **goes).filter_map(|(from, into, _)| merger(from, into));
                mergers.extend(ways.min_by(|a, b| a.lost.total_cmp(&b.lost)));
            }
        }
        mergers.sort_by(|a, b| a.lost.total_cmp(&b.lost));
        mergers
    }

    fn one_more(&self) -> Vec<OneMore> {
        let never = |outfit: &Outfit| outfit.wishes.base == Some(BaseWish::Never);
        let may_be_base = |id: &OutfitId| !self.board.outfit(id).is_some_and(never);
        let is_base = |id: &OutfitId| self.looks.iter().any(|look| look.base == id);
        let open: Vec<(usize, &Documented<'_>)> = self
            .outfits
            .iter()
            .filter_map(|outfit| Some((self.wardrobe.place(outfit.id)?, outfit)))
            .collect();
        let candidates = open.iter().filter(|(_, outfit)| !is_base(outfit.id) && may_be_base(outfit.id));
        let more = |(base, outfit): &(usize, &Documented<'_>)| {
            let gain = |(of, outfit): &(usize, &Documented<'_>)| {
                outfit.weight * (outfit.far() - self.wardrobe.problem().distance(*of, *base)).max(0.0)
            };
            OneMore { base: outfit.id.clone(), gain: self.share(open.iter().map(gain).sum()) }
        };
        let mut more: Vec<OneMore> = candidates.map(more).collect();
        more.sort_by(|a, b| b.gain.total_cmp(&a.gain));
        more
    }
}

impl MergerCost {
    /// The cheapest mergers one after another, at most so many, each on the board that the ones before it leave: what so
    /// many looks fewer cost together. A merger that keeps nothing of the look that goes is none. For `wardrobe` see
    /// [`Present::of`].
    pub fn one_after_another(
        board: &Board,
        likeness: &Likeness,
        wardrobe: &Wardrobe,
        most: usize,
    ) -> Vec<Fewer> {
        let (mut board, mut fewer) = (board.clone(), Vec::new());
        while fewer.len() < most {
            let worn = Worn::of(&board, likeness, wardrobe);
            let Some(merger) = worn.mergers().into_iter().find(|merger| merger.kept > 0.0) else { break };
            let Ok(edit) = board.merge_looks(&merger.from, &merger.into) else { break };
            if board.apply(&edit).is_err() {
                break;
            }
            let kept = Present::of(&board, likeness, wardrobe).kept;
            fewer.push(Fewer { merger, kept });
        }
        fewer
    }
}

impl Present {
    /// What the looks of a board, or of one character, keep. `wardrobe` is the question that the same board puts by the
    /// same likeness: in it the outfits are compared already.
    pub fn of(board: &Board, likeness: &Likeness, wardrobe: &Wardrobe) -> Self {
        let worn = Worn::of(board, likeness, wardrobe);
        worn.present(&worn.carried())
    }
}

impl Worth {
    /// What the looks of a board, or of one character, are worth; for `wardrobe` see [`Present::of`].
    pub fn of(board: &Board, likeness: &Likeness, wardrobe: &Wardrobe) -> Self {
        let worn = Worn::of(board, likeness, wardrobe);
        let outfits = worn.carried();
        let (worst, unserved) = worn.served();
        Self {
            present: worn.present(&outfits),
            outfits,
            looks: worn.looks(),
            mergers: worn.mergers(),
            worst,
            unserved,
            one_more: worn.one_more(),
        }
    }
}

/// What is kept of some outfits, by weight, when each is so far from the base that stands for it.
fn keeps(board: &Board, outfits: &[&OutfitId], far: impl Fn(&OutfitId) -> f64) -> f64 {
    outfits.iter().map(|id| board.outfit(id).map_or(0.0, weight) * (1.0 - far(id))).sum()
}

/// What one merger costs, reckoned alone: how much less is kept, as a share of all that is documented, when the first
/// look goes into the second, whose base stays. What tests hold against the costs that are reckoned together.
#[cfg(test)]
pub(crate) fn lost_by_merger(board: &Board, likeness: &Likeness, from: &LookId, into: &LookId) -> f64 {
    let all: f64 = board.records().outfits.values().map(|outfit| weight(outfit)).sum();
    let outfits: Vec<&OutfitId> = board.look(from).into_iter().flat_map(|look| look.outfits()).collect();
    let in_look = |look: &LookId| keeps(board, &outfits, |id| distance(board, likeness, id, look));
    if all > 0.0 { (in_look(from) - in_look(into)) / all } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::sample::{board, id, ids};
    use crate::board::{Edit, Stage, Treatment};
    use crate::gather::Kept;

    fn worth_of(board: &Board) -> Worth {
        let likeness = Likeness::of(board);
        Worth::of(board, &likeness, &Wardrobe::of(board, &likeness, None, &|| false).unwrap())
    }

    fn kept(board: &Board) -> f64 {
        Kept::of(board, &Likeness::of(board)).all.share()
    }

    /// The sample with a third look of Odile.
    fn with_smock() -> Board {
        let mut board = board();
        board
            .apply(&board.gather(&ids(&["smock"]), "Quay", &id("smock"), Treatment::Copy).unwrap().1)
            .unwrap();
        board
    }

    #[test]
    fn what_a_merger_is_said_to_cost_is_what_it_costs() {
        let board = with_smock();
        let worth = worth_of(&board);
        assert!((worth.present.kept - kept(&board)).abs() < 1e-12);
        assert!(!worth.mergers.is_empty());
        for merger in &worth.mergers {
            let mut after = board.clone();
            after.apply(&board.merge_looks(&merger.from, &merger.into).unwrap()).unwrap();
            assert!((kept(&board) - kept(&after) - merger.lost).abs() < 1e-12, "{merger:?}");
            let alone = lost_by_merger(&board, &Likeness::of(&board), &merger.from, &merger.into);
            assert!((alone - merger.lost).abs() < 1e-12);
        }
        assert!(worth.mergers.is_sorted_by(|a, b| a.lost <= b.lost));
    }

    fn mergers(board: &Board) -> Vec<String> {
        let said = |merger: &MergerCost| format!("{} into {}", merger.from, merger.into);
        let mut all: Vec<String> = worth_of(board).mergers.iter().map(said).collect();
        all.sort_unstable();
        all
    }

    #[test]
    fn every_two_looks_are_one_merger_the_cheaper_way_round() {
        let board = with_smock();
        assert_eq!(mergers(&board), ["gown into club", "quay into club", "quay into gown"]);
        for merger in worth_of(&board).mergers {
            let back = lost_by_merger(&board, &Likeness::of(&board), &merger.into, &merger.from);
            assert!(merger.lost <= back, "{merger:?}");
        }
    }

    #[test]
    fn what_is_on_film_or_wished_for_as_a_base_does_not_go_and_what_is_apart_does_not_meet() {
        let changed = |edit: fn(&Board) -> Edit| {
            let mut board = with_smock();
            board.apply(&edit(&board)).unwrap();
            mergers(&board)
        };
        let established = |board: &Board| {
            board.change_look(&id("gown"), "", |look| look.stage = Stage::Established).unwrap()
        };
        let other_way = ["club into gown", "quay into club", "quay into gown"];
        assert_eq!(changed(established), other_way);
        assert_eq!(
            changed(|board| board.wish_base(&id("gala-gown"), Some(BaseWish::Must)).unwrap()),
            other_way
        );
        let apart = |board: &Board| board.wish_apart(&ids(&["smock", "crossing-wool"]), true).unwrap();
        assert_eq!(changed(apart), ["gown into club", "quay into gown"]);
    }

    #[test]
    fn mergers_one_after_another_are_each_on_the_board_that_the_others_leave() {
        let mut board = with_smock();
        for outfit in ["club-serge", "crossing-wool"] {
            let of = ids(&[outfit]);
            board.apply(&board.gather(&of, outfit, &of[0], Treatment::Copy).unwrap().1).unwrap();
        }
        let likeness = Likeness::of(&board);
        let wardrobe = Wardrobe::of(&board, &likeness, None, &|| false).unwrap();
        let fewer = MergerCost::one_after_another(&board, &likeness, &wardrobe, 9);
        assert!(fewer.len() >= 2, "{fewer:?}");
        let mut before = kept(&board);
        for one in &fewer {
            board.apply(&board.merge_looks(&one.merger.from, &one.merger.into).unwrap()).unwrap();
            assert!(
                (kept(&board) - one.kept).abs() < 1e-12
                    && (before - one.kept - one.merger.lost).abs() < 1e-12
            );
            before = one.kept;
        }
        assert_eq!(
            MergerCost::one_after_another(&board, &likeness, &wardrobe, 9),
            [],
            "no two are near any more"
        );
    }

    #[test]
    fn outfit_by_outfit_it_is_what_is_kept_and_what_could_be() {
        let board = with_smock();
        let worth = worth_of(&board);
        let of = |outfit: &str| worth.outfits.iter().find(|carried| carried.outfit == id(outfit)).unwrap();
        assert_eq!(worth.outfits.len(), board.records().outfits.len());
        assert_eq!(
            (of("smock").kept, of("smock").reachable),
            (Tally { kept: 2.0, of: 2.0 }, Tally { kept: 2.0, of: 2.0 })
        );
        assert_eq!(of("apron").reachable, Tally { kept: 0.0, of: 1.0 }, "it is let go");
        let coat = of("blackout-coat");
        assert_eq!(
            (coat.kept.kept, coat.reachable),
            (0.0, Tally { kept: 0.0, of: 1.0 }),
            "any look is a stretch"
        );
        let serge = of("club-serge");
        assert!(serge.kept.kept > 0.0 && serge.reachable.kept >= serge.kept.kept, "{serge:?}");
    }

    #[test]
    fn what_a_look_is_worth_is_the_cheapest_way_to_do_without_it() {
        let board = with_smock();
        let worth = worth_of(&board);
        for look in &worth.looks {
            let mergers = worth.mergers.iter().filter(|merger| merger.from == look.look);
            let cheapest = mergers.map(|merger| merger.lost).fold(f64::INFINITY, f64::min);
            assert!(look.lost <= look.kept + 1e-12 && look.lost <= cheapest + 1e-12);
        }
    }

    #[test]
    fn one_look_more_gains_what_it_is_said_to_gain_when_all_are_in_the_nearest() {
        let board = board();
        let worth = worth_of(&board);
        let best = worth.one_more.first().unwrap();
        let mut after = board.clone();
        let of = [best.base.clone()];
        after.apply(&board.gather(&of, "New", &best.base, Treatment::Copy).unwrap().1).unwrap();
        let now = worth_of(&after);
        assert!((now.present.reachable - worth.present.reachable - best.gain).abs() < 1e-12);
    }

    #[test]
    fn what_must_not_be_a_base_is_not_proposed_as_one() {
        let mut board = board();
        let best = worth_of(&board).one_more[0].base.clone();
        board.apply(&board.wish_base(&best, Some(BaseWish::Never)).unwrap()).unwrap();
        assert!(worth_of(&board).one_more.iter().all(|more| more.base != best));
    }

    #[test]
    fn what_was_let_go_says_what_it_cost() {
        let mut board = board();
        board.apply(&board.let_go(&ids(&["club-serge"]), "nobody saw it").unwrap()).unwrap();
        let worth = worth_of(&board);
        let serge = worth.unserved.iter().find(|served| served.outfit == id("club-serge")).unwrap();
        assert_eq!(serge.reason.as_deref(), Some("nobody saw it"));
        assert!(serge.share > 0.0);
        let mut after = board.clone();
        after.apply(&after.take_back(&ids(&["club-serge"])).unwrap()).unwrap();
        after.apply(&after.fold(&ids(&["club-serge"]), serge.look.as_ref().unwrap()).unwrap()).unwrap();
        assert!((kept(&after) - kept(&board) - serge.share).abs() < 1e-12);
    }

    #[test]
    fn what_no_look_would_keep_any_of_has_no_nearest_look() {
        let worth = worth_of(&board());
        let coat = worth.unserved.iter().find(|served| served.outfit == id("blackout-coat")).unwrap();
        assert_eq!((coat.look.as_ref(), coat.distance, coat.share), (None, 1.0, 0.0));
    }
}
