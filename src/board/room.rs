//! Making room under a limit: which looks could be merged.

use std::cmp::Reverse;

use super::{Among, BaseWish, Board, LookId, Outfit, OutfitId, Scope, Stage, Treatment};

/// Two looks of one character that could become one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Merger {
    /// The look that goes.
    pub from: LookId,
    /// The look that stays.
    pub into: LookId,
    /// How many days apart their sources were worn, where both are dated.
    pub days: Option<i64>,
}

impl Board {
    /// Pairs of looks whose merger makes room in every one of `scopes`, those worn nearest in time first. The look
    /// that fewer scenes show goes into the other, or the other way round where only that may be; see
    /// [`may_go`](Self::may_go) and [`may_take_in`](Self::may_take_in).
    pub fn mergers_that_make_room(&self, scopes: &[Scope]) -> Vec<Merger> {
        let counts = |id: &&LookId| scopes.iter().all(|scope| self.counts_in(id, scope));
        let looks = self.relations().looks_by_order().iter().filter(counts);
        let looks: Vec<(&LookId, bool)> = looks.map(|id| (id, self.may_go(id))).collect();
        let mut mergers = Vec::new();
        for (at, one) in looks.iter().enumerate() {
            for other in &looks[at + 1..] {
                mergers.extend(self.merger(*one, *other));
            }
        }
        mergers.sort_by_key(|merger| merger.days.unwrap_or(i64::MAX));
        mergers
    }

    /// Whether a look may be merged away: the camera has not seen it, and no wish needs its base, neither that this
    /// outfit be one nor that there be so many in a group.
    pub fn may_go(&self, id: &LookId) -> bool {
        let Some(look) = self.look(id) else { return false };
        let is_needed = |base: &OutfitId| {
            let is_wished = |outfit: &Outfit| outfit.wishes.base == Some(BaseWish::Must);
            self.outfit(base).is_some_and(is_wished) || self.is_last_of_a_group(base)
        };
        look.stage != Stage::Established && !look.base.as_ref().is_some_and(is_needed)
    }

    /// Whether a look may take in another of its character: it is no invented one for outfits that were worn, its base
    /// may be one, and no two outfits that are to be kept apart would share it.
    pub fn may_take_in(&self, id: &LookId, other: &LookId) -> bool {
        let (Some(look), Some(gone)) = (self.look(id), self.look(other)) else { return false };
        let holds_nothing = look.treatment == Treatment::Invent && gone.outfits().next().is_some();
        let is_refused =
            |base| self.outfit(base).is_some_and(|base| base.wishes.base == Some(BaseWish::Never));
        let apart = |outfit| {
            let apart = self.relations().apart_from(outfit);
            look.outfits().any(|held| apart.contains(held))
        };
        id != other
            && look.character == gone.character
            && !holds_nothing
            && !look.base.as_ref().is_some_and(is_refused)
            && !gone.outfits().any(apart)
    }

    /// Whether an outfit is of a group of which wishes ask for as many bases as there are, or more.
    fn is_last_of_a_group(&self, base: &OutfitId) -> bool {
        let bases = |among: &Among| {
            let bases = self.records().looks.values().filter_map(|look| look.base.as_ref());
            bases.filter(|base| self.is_among(among, base)).count()
        };
        let wishes = self.head().gather.at_least.iter();
        wishes
            .filter(|(among, _)| self.is_among(among, base))
            .any(|(among, least)| bases(among) <= *least as usize)
    }

    fn merger(&self, one: (&LookId, bool), other: (&LookId, bool)) -> Option<Merger> {
        // The one to stay: seen by the camera, not invented, in more scenes; else the first.
        let weight = |id: &LookId| {
            let look = self.look(id)?;
            let scenes = self.relations().scenes_of(id).len();
            Some((look.stage == Stage::Established, look.treatment != Treatment::Invent, scenes))
        };
        let mut pair = [one, other];
        pair.sort_by_key(|(id, _)| Reverse(weight(id)));
        let [stays, goes] = pair;
        let may = |(from, may_go): (&LookId, bool), into| may_go && self.may_take_in(into, from);
        let ways = [(goes, stays), (stays, goes)];
        let (from, into) = ways.into_iter().find(|(from, into)| may(*from, into.0))?;
        let (from, into) = (from.0, into.0);
        let days = self.day_of_look(self.look(from)?).zip(self.day_of_look(self.look(into)?));
        let days = days.map(|(a, b)| (a.number() - b.number()).abs());
        Some(Merger { from: from.clone(), into: into.clone(), days })
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{board, id, ids};
    use super::*;
    use crate::board::Edit;

    fn pairs(board: &Board, scopes: &[Scope]) -> Vec<String> {
        let said = |merger: &Merger| format!("{} into {} {:?}", merger.from, merger.into, merger.days);
        board.mergers_that_make_room(scopes).iter().map(said).collect()
    }

    /// The sample with a third look of Odile, of 1914.
    fn with_smock() -> Board {
        let mut board = board();
        let smock = [id("smock")];
        board.apply(&board.gather(&smock, "Quay", &smock[0], Treatment::Copy).unwrap().1).unwrap();
        board
    }

    #[test]
    fn the_look_of_fewer_scenes_goes_and_the_nearest_in_time_come_first() {
        let expected =
            ["club into gown Some(2392)", "quay into club Some(4426)", "quay into gown Some(6818)"];
        assert_eq!(pairs(&with_smock(), &[Scope::Overall]), expected);
        assert_eq!(pairs(&with_smock(), &[Scope::Character(id("odile"))]), expected);
        assert_eq!(pairs(&with_smock(), &[Scope::Character(id("bridie"))]), [""; 0]);
    }

    #[test]
    fn a_merger_makes_room_in_every_scope_that_is_full() {
        let scopes = [Scope::Overall, Scope::Period(id("races"))];
        assert_eq!(pairs(&with_smock(), &scopes), ["club into gown Some(2392)"]);
        for merger in with_smock().mergers_that_make_room(&scopes) {
            let before = with_smock();
            let mut after = before.clone();
            after.apply(&before.merge_looks(&merger.from, &merger.into).unwrap()).unwrap();
            assert!(scopes.iter().all(|scope| after.count(scope).used < before.count(scope).used));
        }
    }

    #[test]
    fn what_the_camera_has_seen_stays_and_takes_in_no_outfit_that_it_cannot_hold() {
        let mut board = board();
        let seen =
            |board: &Board, look| board.change_look(&id(look), "", |look| look.stage = Stage::Established);
        board.apply(&seen(&board, "club").unwrap()).unwrap();
        assert_eq!(pairs(&board, &[Scope::Overall]), ["gown into club Some(2392)"]);
        board.apply(&board.set_treatment(&id("club"), Treatment::Invent).unwrap()).unwrap();
        assert_eq!(pairs(&board, &[Scope::Overall]), [""; 0]);
    }

    fn applied(mut board: Board, edits: impl IntoIterator<Item = fn(&Board) -> Edit>) -> Board {
        for edit in edits {
            board.apply(&edit(&board)).unwrap();
        }
        board
    }

    #[test]
    fn what_a_wish_needs_as_a_base_stays_and_the_other_look_goes_where_it_may() {
        let must: fn(&Board) -> Edit =
            |board| board.wish_base(&id("club-wool"), Some(BaseWish::Must)).unwrap();
        let gown: fn(&Board) -> Edit =
            |board| board.wish_base(&id("gala-gown"), Some(BaseWish::Must)).unwrap();
        assert_eq!(pairs(&board(), &[Scope::Overall]), ["club into gown Some(2392)"]);
        assert_eq!(pairs(&applied(board(), [must]), &[Scope::Overall]), ["gown into club Some(2392)"]);
        assert_eq!(pairs(&applied(board(), [must, gown]), &[Scope::Overall]), [""; 0]);
    }

    #[test]
    fn no_look_grows_whose_base_is_to_be_none() {
        let never: fn(&Board) -> Edit =
            |board| board.wish_base(&id("gala-gown"), Some(BaseWish::Never)).unwrap();
        let board = applied(board(), [never]);
        assert_eq!(pairs(&board, &[Scope::Overall]), ["gown into club Some(2392)"]);
    }

    #[test]
    fn looks_that_hold_outfits_to_be_kept_apart_are_no_pair() {
        // A folded outfit of the one, and the base of the other.
        let apart: fn(&Board) -> Edit =
            |board| board.wish_apart(&ids(&["club-serge", "gala-gown"]), true).unwrap();
        assert_eq!(
            pairs(&applied(with_smock(), [apart]), &[Scope::Overall]),
            ["quay into club Some(4426)", "quay into gown Some(6818)"]
        );
    }

    #[test]
    fn a_group_keeps_as_many_bases_as_are_wished() {
        let least = |least: u32| {
            let mut records = with_smock().records().clone();
            let gather = serde_json::json!({"at-least": {"period races": least}});
            std::sync::Arc::make_mut(&mut records.head).gather = serde_json::from_value(gather).unwrap();
            pairs(&Board::new(records), &[Scope::Overall])
        };
        assert_eq!(least(1).len(), 3);
        assert_eq!(least(2), ["quay into club Some(4426)", "quay into gown Some(6818)"]);
    }
}
