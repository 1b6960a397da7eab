//! The mergers that make room for an edit, and what each costs in *kept* once both are made.

use std::collections::HashMap;

use super::Make;
use crate::board::room::Merger;
use crate::board::{Board, Edit, LookId, OutfitId, Refused};
use crate::gather::{Kept, Likeness, weight};

/// How many mergers are offered.
const OFFERED: usize = 3;

/// An edit that stopped at a limit.
pub struct Stopped {
    /// The board from which it was made.
    pub seen: Board,
    /// The board as it is, whose limits count.
    pub now: Board,
    /// The likeness of its outfits.
    pub likeness: Likeness,
    /// The edit.
    pub edit: Edit,
    /// What makes it once more where room was made.
    pub make: Make,
}

/// A merger that makes room.
#[derive(Debug, PartialEq)]
pub struct Offer {
    /// The merger.
    pub merger: Merger,
    /// How much less is kept with it than with the edit alone, as a share of all that is documented.
    pub lost: f64,
}

/// A look as the edit leaves it: its base, and what it holds with weight and distance from that base.
struct Held {
    base: Option<OutfitId>,
    outfits: Vec<(OutfitId, f64, f64)>,
}

impl Held {
    fn of(board: &Board, likeness: &Likeness, look: &LookId) -> Self {
        let look = board.look(look);
        let base = look.and_then(|look| look.base.clone());
        let held = look.into_iter().flat_map(|look| look.outfits());
        let outfits = held.map(|id| {
            let distance = base.as_ref().map_or(1.0, |base| likeness.distance(id, base));
            (id.clone(), board.outfit(id).map_or(0.0, weight), distance)
        });
        Self { outfits: outfits.collect(), base }
    }

    /// By how much its outfits are further from the base of another look, by weight.
    fn further(&self, into: &Self, likeness: &Likeness) -> f64 {
        let far = |outfit| into.base.as_ref().map_or(1.0, |base| likeness.distance(outfit, base));
        self.outfits.iter().map(|(id, weight, here)| weight * (far(id) - here)).sum()
    }
}

impl Stopped {
    /// Those of `mergers` that can go with the edit and make room for it, the cheapest first. What an invented look is
    /// for, *kept* does not measure: its merger costs nothing there, and comes last. Of those that cost the same the
    /// nearest in time stays first. `None` where it was `over` before its end.
    pub fn cheapest(&self, mergers: Vec<Merger>, over: &dyn Fn() -> bool) -> Option<Vec<Offer>> {
        let mut after = self.seen.clone();
        // What the board does not take as it was made has no cost; it is tried with each merger all the same.
        let _ = after.apply(&self.edit);
        let mut looks: HashMap<LookId, Held> = HashMap::new();
        let mut ranked: Vec<(bool, f64, Merger)> = Vec::new();
        for merger in mergers {
            if over() {
                return None;
            }
            for look in [&merger.from, &merger.into] {
                if !looks.contains_key(look) {
                    looks.insert(look.clone(), Held::of(&after, &self.likeness, look));
                }
            }
            let further = looks[&merger.from].further(&looks[&merger.into], &self.likeness);
            ranked.push((self.is_invented(&merger.from), further, merger));
        }
        ranked.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let kept = self.kept(&after);
        let mut offers = Vec::new();
        for (_, _, merger) in ranked {
            if over() {
                return None;
            }
            if offers.len() == OFFERED {
                break;
            }
            // A merger that cannot go with the edit, or that still leaves it over, is no offer.
            let Ok(edit) = with_merger(&self.seen, &merger, &self.make) else { continue };
            if !self.now.limits_passed_by(&edit).is_ok_and(|still| still.is_empty()) {
                continue;
            }
            let mut merged = self.seen.clone();
            if merged.apply(&edit).is_ok() {
                offers.push(Offer { merger, lost: kept - self.kept(&merged) });
            }
        }
        let rank = |offer: &Offer| self.is_invented(&offer.merger.from);
        offers.sort_by(|a, b| rank(a).cmp(&rank(b)).then(a.lost.total_cmp(&b.lost)));
        Some(offers)
    }

    fn is_invented(&self, look: &LookId) -> bool {
        self.seen.look(look).is_some_and(|look| look.base.is_none())
    }

    fn kept(&self, board: &Board) -> f64 {
        Kept::of(board, &self.likeness).all.share()
    }
}

/// The merger and then the change, as one edit.
pub fn with_merger(board: &Board, merger: &Merger, make: &Make) -> Result<Edit, Refused> {
    let merge = board.merge_looks(&merger.from, &merger.into)?;
    let mut merged = board.clone();
    merged.apply(&merge)?;
    let rest = make(&merged)?;
    let label = format!("{}; {}", merge.label, rest.label);
    Ok(Edit::new(label, merge.changes.into_iter().chain(rest.changes).collect()))
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::board::sample::{board, id, ids};
    use crate::board::{Scope, Treatment};
    use crate::gather::lost_by_merger;

    /// The serge gathered out of the look that would go, where one look more is one too many.
    fn stopped() -> Stopped {
        let mut seen = board();
        let looks = u32::try_from(seen.records().looks.len()).unwrap();
        seen.apply(&seen.change_head("", |head| head.budget.looks = Some(looks))).unwrap();
        let make = |board: &Board| {
            board
                .gather(&ids(&["club-serge"]), "Serge", &id("club-serge"), Treatment::Copy)
                .map(|(_, edit)| edit)
        };
        let edit = make(&seen).unwrap();
        assert!(!seen.limits_passed_by(&edit).unwrap().is_empty());
        Stopped { now: seen.clone(), likeness: Likeness::of(&seen), edit, make: Arc::new(make), seen }
    }

    #[test]
    fn a_merger_costs_what_is_kept_less_once_it_and_the_new_look_are_there() {
        let stopped = stopped();
        let mergers = stopped.seen.mergers_that_make_room(&[Scope::Overall]);
        let offers = stopped.cheapest(mergers, &|| false).unwrap();
        assert!(!offers.is_empty());
        let kept = |edit: &Edit| {
            let mut after = stopped.seen.clone();
            after.apply(edit).unwrap();
            Kept::of(&after, &Likeness::of(&after)).all.share()
        };
        for Offer { merger, lost } in &offers {
            let both = with_merger(&stopped.seen, merger, &stopped.make).unwrap();
            assert!((kept(&stopped.edit) - kept(&both) - lost).abs() < 1e-6, "{merger:?} {lost}");
        }
        // Before the serge has a look of its own, merging the look that holds it costs something else.
        let from_club = offers.iter().find(|offer| offer.merger.from == id("club")).unwrap();
        let Merger { from, into, .. } = &from_club.merger;
        let before = lost_by_merger(&stopped.seen, &stopped.likeness, from, into);
        assert!((before - from_club.lost).abs() > 1e-3, "{before} {}", from_club.lost);
    }

    #[test]
    fn it_ends_when_nobody_asks_any_more() {
        let stopped = stopped();
        let mergers = stopped.seen.mergers_that_make_room(&[Scope::Overall]);
        assert_eq!(stopped.cheapest(mergers, &|| true), None);
    }
}
