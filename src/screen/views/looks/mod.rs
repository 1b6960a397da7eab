//! The looks: the list by character, and everything about the one in focus.
//!
//! The list stands left and the look's fields right; where the screen is too narrow for both, one at a time. What is
//! kept here is where the focus is, never what is shown: rows and fields are read from the board for each frame.

mod act;
mod edit;
mod fields;
mod list;
#[cfg(test)]
mod tests;

use ratatui::layout::Rect;

use super::Target;
use crate::board::{Board, CharacterId, LookId};
use crate::screen::canvas::Canvas;
use crate::screen::parts::record::Fields;

pub use act::{click, perform};

/// From this width on, list and fields stand side by side.
const WIDE: u16 = 90;

/// Below this width there is room for nothing.
const NARROWEST: u16 = 16;

/// The state of the view.
#[derive(Debug, Default)]
pub struct Looks {
    look: Option<LookId>,
    /// Where the look stood among all looks, for when it is gone.
    place: usize,
    top: usize,
    page: usize,
    /// Whether the keys act on the fields.
    inside: bool,
    fields: Fields,
}

impl Looks {
    /// Puts the focus on the look that a target leads to, where there is one.
    pub fn focus(&mut self, board: &Board, target: &Target) {
        if let Some(id) = self.led_to(board, target) {
            self.go_to(board, id);
        }
    }

    /// What is in focus.
    pub fn focused(&self, board: &Board) -> Option<Target> {
        self.look(board).map(Target::Look)
    }

    /// Goes back from the fields to the list.
    pub fn back(&mut self) {
        self.inside = false;
    }

    /// Goes from the list to the fields of the look in focus.
    pub fn enter(&mut self, board: &Board) {
        self.inside = self.look(board).is_some();
    }

    /// Goes to the fields of the look in focus as one who comes from elsewhere: at the first, not where the last
    /// visit ended.
    pub fn open(&mut self, board: &Board) {
        self.fields.reset();
        self.enter(board);
    }

    /// Draws it.
    pub fn draw(&mut self, board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let Some(id) = self.look(board) else {
            self.inside = false;
            list::draw_empty(board, canvas, area);
            return;
        };
        self.place = place_of(board, &id);
        if area.width < NARROWEST || area.height == 0 {
            return;
        }
        if area.width < WIDE {
            if self.inside {
                self.draw_fields(board, &id, canvas, area);
            } else {
                self.draw_list(board, &id, canvas, area);
            }
            return;
        }
        let left = list::wide_of(area.width);
        self.draw_list(board, &id, canvas, Rect { width: left - 1, ..area });
        let frame = canvas.theme.quiet();
        for y in area.top()..area.bottom() {
            canvas.put(area.x + left, y, 1, "│", frame);
        }
        let x = area.x + left + 2;
        self.draw_fields(board, &id, canvas, Rect { x, width: area.right() - x, ..area });
    }

    fn draw_fields(&mut self, board: &Board, id: &LookId, canvas: &mut Canvas<'_>, area: Rect) {
        let entries = fields::entries(board, id);
        self.fields.draw(canvas, area, &entries, self.inside);
    }

    /// The look in focus; where it is gone, the one that stands in its place.
    fn look(&self, board: &Board) -> Option<LookId> {
        let there = self.look.as_ref().filter(|id| board.look(id).is_some());
        let looks = board.relations().looks_by_order();
        there.or_else(|| looks.get(self.place.min(looks.len().checked_sub(1)?))).cloned()
    }

    fn go_to(&mut self, board: &Board, id: LookId) {
        if self.look.as_ref() != Some(&id) {
            self.fields.reset();
        }
        self.place = place_of(board, &id);
        self.look = Some(id);
    }

    fn step(&mut self, board: &Board, by: isize) {
        let looks = board.relations().looks_by_order();
        let Some(at) = self.look(board).map(|id| place_of(board, &id)) else { return };
        let to = at.saturating_add_signed(by).min(looks.len().saturating_sub(1));
        if let Some(id) = looks.get(to) {
            self.go_to(board, id.clone());
        }
    }

    fn led_to(&self, board: &Board, target: &Target) -> Option<LookId> {
        let relations = board.relations();
        let now = self.look(board);
        let own: Option<CharacterId> =
            now.as_ref().and_then(|id| board.look(id)).map(|look| look.character.clone());
        // The look in focus stays where it answers too; then one of the same character comes before others.
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
