//! The wall.

use std::collections::BTreeSet;

use ratatui::layout::Rect;

use super::Target;
use crate::board::{Board, CharacterId, OutfitId};
use crate::screen::actions::Act;
use crate::screen::app::App;
use crate::screen::canvas::Canvas;

/// The state of the wall.
#[derive(Debug, Default)]
pub struct Wall {
    /// Marked outfits.
    pub marks: BTreeSet<OutfitId>,
}

impl Wall {
    /// Puts the focus on a target.
    pub fn focus(&mut self, _board: &Board, _target: &Target) {}
    /// What is in focus.
    pub fn focused(&self) -> Option<Target> {
        None
    }
    /// The character in focus.
    pub fn character(&self, _board: &Board) -> Option<CharacterId> {
        None
    }
    /// Goes back.
    pub fn back(&mut self) {}
    /// Zoom and filter in words.
    pub fn says(&self) -> String {
        String::new()
    }
    /// Draws it.
    pub fn draw(&mut self, _board: &Board, _version: u64, _canvas: &mut Canvas<'_>, _area: Rect) {}
}

/// Does an action of this view.
pub fn perform(_app: &mut App, _act: Act) {}
