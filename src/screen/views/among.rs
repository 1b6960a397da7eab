//! Which look is in focus among all looks, for the views that list them.

use super::Target;
use crate::board::{Board, LookId};

/// A look in focus, and where it stood for when it is gone.
#[derive(Debug, Default)]
pub struct Among {
    look: Option<LookId>,
    place: usize,
}

impl Among {
    /// The look in focus; where it is gone, the one that stands in its place.
    pub fn look(&self, board: &Board) -> Option<LookId> {
        let there = self.look.as_ref().filter(|id| board.look(id).is_some());
        let looks = board.relations().looks_by_order();
        there.or_else(|| looks.get(self.place.min(looks.len().checked_sub(1)?))).cloned()
    }

    /// Puts the focus on a look; says whether it was on another.
    pub fn go_to(&mut self, board: &Board, id: LookId) -> bool {
        self.keep_place(board, &id);
        self.look.replace(id.clone()).as_ref() != Some(&id)
    }

    /// Remembers where the look in focus stands now.
    pub fn keep_place(&mut self, board: &Board, id: &LookId) {
        self.place = place_of(board, id);
    }

    /// The look so many on in the order of all.
    pub fn after(&self, board: &Board, by: isize) -> Option<LookId> {
        let looks = board.relations().looks_by_order();
        let at = place_of(board, &self.look(board)?);
        looks.get(at.saturating_add_signed(by).min(looks.len().saturating_sub(1))).cloned()
    }

    /// The look that a target leads to. The one in focus stays where it answers too; then one of the same character
    /// comes before others.
    pub fn led_to(&self, board: &Board, target: &Target) -> Option<LookId> {
        let relations = board.relations();
        let now = self.look(board);
        let own = now.as_ref().and_then(|id| board.look(id)).map(|look| look.character.clone());
        let first = |fits: &dyn Fn(&LookId) -> bool| {
            let fitting: Vec<&LookId> = relations.looks_by_order().iter().filter(|id| fits(id)).collect();
            let same = |id: &&&LookId| board.look(id).map(|look| &look.character) == own.as_ref();
            let stays = fitting.iter().find(|id| Some(**id) == now.as_ref());
            stays.or_else(|| fitting.iter().find(same)).or(fitting.first()).map(|id| (*id).clone())
        };
        match target {
            Target::Look(id) => board.look(id).map(|_| id.clone()),
            Target::Outfit(id) => relations.looks_of(id).first().cloned(),
            Target::Scene(number) => {
                let scene = board.scene(number)?;
                first(&|id| scene.wears.iter().any(|(_, look)| look.as_ref() == Some(id)))
            }
            Target::Period(period) => first(&|id| relations.period_of_look(id) == Some(period)),
            Target::Thread(thread) => {
                first(&|id| board.look(id).is_some_and(|look| look.threads.contains(thread)))
            }
        }
    }
}

fn place_of(board: &Board, id: &LookId) -> usize {
    board.relations().looks_by_order().iter().position(|have| have == id).unwrap_or(0)
}
