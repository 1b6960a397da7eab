//! Making room under a limit: which looks could be merged.

use std::cmp::Reverse;

use super::{Board, LookId, Scope, Stage, Treatment};

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
    /// that fewer scenes show goes into the other; a look that the camera has seen never goes, and one that holds
    /// outfits never goes into an invented one.
    pub fn mergers_that_make_room(&self, scopes: &[Scope]) -> Vec<Merger> {
        let counts = |id: &&LookId| scopes.iter().all(|scope| self.counts_in(id, scope));
        let looks: Vec<&LookId> = self.relations().looks_by_order().iter().filter(counts).collect();
        let mut mergers = Vec::new();
        for (at, one) in looks.iter().enumerate() {
            for other in &looks[at + 1..] {
                mergers.extend(self.merger(one, other));
            }
        }
        mergers.sort_by_key(|merger| merger.days.unwrap_or(i64::MAX));
        mergers
    }

    fn merger(&self, one: &LookId, other: &LookId) -> Option<Merger> {
        let (a, b) = (self.look(one)?, self.look(other)?);
        if a.character != b.character {
            return None;
        }
        // The one to stay: seen by the camera, not invented, in more scenes; else the first.
        let weight = |id: &LookId, stage: Stage, treatment: Treatment| {
            (
                stage == Stage::Established,
                treatment != Treatment::Invent,
                self.relations().scenes_of(id).len(),
            )
        };
        let mut pair = [(one, a), (other, b)];
        pair.sort_by_key(|(id, look)| Reverse(weight(id, look.stage, look.treatment)));
        let [(into, stays), (from, gone)] = pair;
        let holds_nothing = stays.treatment == Treatment::Invent && gone.outfits().next().is_some();
        if gone.stage == Stage::Established || holds_nothing {
            return None;
        }
        let days = self.day_of_look(a).zip(self.day_of_look(b)).map(|(a, b)| (a.number() - b.number()).abs());
        Some(Merger { from: from.clone(), into: into.clone(), days })
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{board, id};
    use super::*;

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
}
