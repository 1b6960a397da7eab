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
    /// that fewer scenes show goes into the other; a look that the camera has seen never goes.
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
        let [(into, _), (from, gone)] = pair;
        if gone.stage == Stage::Established {
            return None;
        }
        let days = self.day_of_look(a).zip(self.day_of_look(b)).map(|(a, b)| (a.number() - b.number()).abs());
        Some(Merger { from: from.clone(), into: into.clone(), days })
    }
}
