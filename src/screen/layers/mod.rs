//! What lies over a view: each layer draws itself and takes every event while it is on top.
//!
//! Five kinds serve for all: choose from a list ([`pick`]), fill in fields ([`form`]), write one value where it stands
//! ([`cell`]), write longer text ([`editor`]) and read ([`page`]). What a choice or a form does is a closure that gets
//! the app.

pub mod cell;
pub mod editor;
pub mod form;
pub mod page;
pub mod pick;

use crossterm::event::{Event, KeyCode, KeyEvent, KeyModifiers};
use ratatui::layout::{Position, Rect};

use super::app::App;
use super::canvas::Canvas;
use crate::board::Board;

pub use cell::Cell;
pub use editor::Editor;
pub use form::{Field, Form};
pub use page::Page;
pub use pick::{Item, Pick};

/// What becomes of a layer after an event.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// It stays.
    Keep,
    /// It is done.
    Close,
}

/// Whether a key leaves what is being written as it was.
fn leaves(key: &KeyEvent) -> bool {
    key.code == KeyCode::Esc
        || key.code == KeyCode::Char('c') && key.modifiers.contains(KeyModifiers::CONTROL)
}

/// Something that lies over a view.
pub trait Layer {
    /// Draws itself over `area`, the whole screen less its header and footer.
    fn draw(&mut self, board: &Board, canvas: &mut Canvas<'_>, area: Rect);

    /// Takes a key or a paste.
    fn event(&mut self, event: &Event, app: &mut App) -> Next;

    /// Takes a click on the row of this number.
    fn click(&mut self, row: usize, app: &mut App) -> Next {
        let _ = (row, app);
        Next::Keep
    }

    /// Takes a click on a cell that it has laid open to clicks.
    fn click_cell(&mut self, at: Position, app: &mut App) -> Next {
        let _ = (at, app);
        Next::Keep
    }

    /// Takes a turn of the wheel by so many rows.
    fn scroll(&mut self, by: isize) {
        let _ = by;
    }

    /// Whether it shows the board as it is, not as it was when the layer opened.
    fn is_live(&self) -> bool {
        false
    }

    /// Whether what it shows has changed by itself since it was last asked.
    fn has_news(&mut self) -> bool {
        false
    }

    /// The keys that it takes, for the footer.
    fn keys(&self) -> &'static str;
}
