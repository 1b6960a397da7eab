//! The list of scenes.

use ratatui::layout::Rect;

use super::Target;
use crate::board::{Board, CharacterId};
use crate::screen::actions::Act;
use crate::screen::app::App;
use crate::screen::canvas::Canvas;

/// The state of the list.
#[derive(Debug, Default)]
pub struct Scenes {}

impl Scenes {
    /// Puts the focus on a target.
    pub fn focus(&mut self, _board: &Board, _target: &Target) {}
    /// What is in focus.
    pub fn focused(&self, _board: &Board) -> Option<Target> {
        None
    }
    /// The character in focus.
    pub fn character(&self, _board: &Board) -> Option<CharacterId> {
        None
    }
    /// Draws it.
    pub fn draw(&mut self, _board: &Board, _canvas: &mut Canvas<'_>, _area: Rect) {}
}

/// Does an action of this view.
pub fn perform(_app: &mut App, _act: Act) {}
