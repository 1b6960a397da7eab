//! The looks: the list by character, and everything about the one in focus.
//!
//! The list stands left and the look's fields right; where the screen is too narrow for both, one at a time. What is
//! kept here is where the focus is, never what is shown: rows and fields are read from the board for each frame.

mod act;
mod edit;
mod fields;
pub(super) mod list;
#[cfg(test)]
mod tests;

use ratatui::layout::{Constraint, Layout, Rect};

use super::Target;
use super::among::Among;
use crate::board::{Board, LookId};
use crate::screen::canvas::Canvas;
use crate::screen::parts::pictures;
use crate::screen::parts::record::Fields;
use crate::screen::plates;

pub use act::{click, perform};

/// From this width on, list and fields stand side by side.
const WIDE: u16 = 90;

/// Below this width there is room for nothing.
const NARROWEST: u16 = 16;

/// The state of the view.
#[derive(Debug, Default)]
pub struct Looks {
    among: Among,
    top: usize,
    page: usize,
    /// Whether the keys act on the fields.
    inside: bool,
    fields: Fields,
}

impl Looks {
    /// Puts the focus on the look that a target leads to, where there is one.
    pub fn focus(&mut self, board: &Board, target: &Target) {
        if let Some(id) = self.among.led_to(board, target) {
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
        self.among.keep_place(board, &id);
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
        let plates = if canvas.shows_pictures() { plates::of_look(board, id) } else { Vec::new() };
        // Beside the fields where they leave room, else below them.
        let [words, place] = match (area.width, area.height) {
            _ if plates.is_empty() => [area, Rect::default()],
            (100.., _) => {
                Layout::horizontal([Constraint::Fill(11), Constraint::Fill(9)]).spacing(2).areas(area)
            }
            (_, 30..) => Layout::vertical([Constraint::Fill(1), Constraint::Fill(1)]).spacing(1).areas(area),
            _ => [area, Rect::default()],
        };
        self.fields.draw(canvas, words, &entries, self.inside);
        pictures::draw(canvas, place, &plates, usize::MAX);
    }

    /// The look in focus; where it is gone, the one that stands in its place.
    fn look(&self, board: &Board) -> Option<LookId> {
        self.among.look(board)
    }

    fn go_to(&mut self, board: &Board, id: LookId) {
        if self.among.go_to(board, id) {
            self.fields.reset();
        }
    }

    fn step(&mut self, board: &Board, by: isize) {
        if let Some(id) = self.among.after(board, by) {
            self.go_to(board, id);
        }
    }
}
