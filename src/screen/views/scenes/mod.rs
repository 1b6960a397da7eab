//! The plot: scenes down, characters across, and in each cell what the character wears there.
//!
//! The focus is one cell. What is kept here is where it is, never what is shown.

mod act;
mod choose;
mod columns;
mod form;
mod range;
mod rows;
mod strip;
mod table;
#[cfg(test)]
mod tests;

use ratatui::layout::Rect;

use rows::Order;

use super::Target;
use crate::board::{Board, CharacterId, LookId, SceneNumber};
use crate::screen::canvas::Canvas;

pub use act::{click, perform};

/// Below this width there is room for nothing.
const NARROWEST: u16 = 20;

/// The state of the view.
#[derive(Debug, Default)]
pub struct Scenes {
    scene: Option<SceneNumber>,
    /// Where the scene stood, for when it is gone.
    place: usize,
    character: Option<CharacterId>,
    top: usize,
    /// The first character that is seen.
    left: usize,
    page: usize,
    order: Order,
    /// Where a range of scenes was begun; it goes on to the focus.
    anchor: Option<SceneNumber>,
}

/// What a cell says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Cell<'a> {
    /// The character is not in the scene.
    Away,
    /// Present, but no look yet.
    Gap,
    /// Wears this look.
    Wears(&'a LookId),
}

fn cell<'a>(board: &'a Board, at: usize, character: &CharacterId) -> Cell<'a> {
    match board.records().scenes.get(at).and_then(|scene| scene.wears.get(character)) {
        None => Cell::Away,
        Some(None) => Cell::Gap,
        Some(Some(look)) => Cell::Wears(look),
    }
}

/// The scene before `at` in which the character is present, and what it wears there.
fn before<'a>(board: &'a Board, at: usize, character: &CharacterId) -> Option<(usize, Option<&'a LookId>)> {
    (0..at).rev().find_map(|at| match cell(board, at, character) {
        Cell::Away => None,
        Cell::Gap => Some((at, None)),
        Cell::Wears(look) => Some((at, Some(look))),
    })
}

/// The period of the look that the character wears in a scene of another period.
fn foreign_period<'a>(board: &'a Board, at: usize, character: &CharacterId) -> Option<&'a str> {
    let Cell::Wears(look) = cell(board, at, character) else { return None };
    let (own, around) = (board.relations().period_of_look(look)?, board.relations().period_of_scene(at)?);
    (own != around).then(|| board.title_of(own))
}

impl Scenes {
    /// Puts the focus on the scene that a target leads to, where there is one, and on the character whose look led
    /// there.
    pub fn focus(&mut self, board: &Board, target: &Target) {
        let relations = board.relations();
        let shown = |id: &LookId| relations.scenes_of(id).first().copied();
        let (at, look) = match target {
            Target::Scene(number) => (relations.scene_at(number), None),
            Target::Look(id) => (shown(id), Some(id)),
            Target::Outfit(id) => {
                let look = relations.looks_of(id).first();
                (look.and_then(shown), look)
            }
            Target::Period(id) => {
                let plays = |at: &usize| relations.period_of_scene(*at) == Some(id);
                ((0..board.records().scenes.len()).find(plays), None)
            }
            Target::Thread(id) => {
                let carries = |look: &&LookId| board.look(look).is_some_and(|look| look.threads.contains(id));
                let looks = relations.looks_by_order().iter().filter(carries);
                let first = looks.filter_map(|look| Some((shown(look)?, look))).min_by_key(|(at, _)| *at);
                (first.map(|(at, _)| at), first.map(|(_, look)| look))
            }
        };
        if let Some(at) = at {
            // A look that the scene in focus shows already leaves the focus there.
            let stays = look.is_some_and(|look| {
                self.at(board).is_some_and(|now| relations.scenes_of(look).contains(&now))
            });
            if !stays {
                self.go_to(board, at);
            }
        }
        if let Some(look) = look.and_then(|look| board.look(look)) {
            self.character = Some(look.character.clone());
        }
    }

    /// Puts the focus on what a character wears in a scene.
    pub fn focus_cell(&mut self, board: &Board, number: &SceneNumber, character: &CharacterId) {
        if let Some(at) = board.relations().scene_at(number) {
            self.go_to(board, at);
            self.character = Some(character.clone());
        }
    }

    /// What is in focus.
    pub fn focused(&self, board: &Board) -> Option<Target> {
        let at = self.at(board)?;
        Some(Target::Scene(board.records().scenes.get(at)?.number.clone()))
    }

    /// The character in focus.
    pub fn character(&self, board: &Board) -> Option<CharacterId> {
        let there = self.character.as_ref().filter(|id| board.character(id).is_some());
        there.or_else(|| board.head().characters.first().map(|one| &one.id)).cloned()
    }

    /// Draws it.
    pub fn draw(&mut self, board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let Some(at) = self.at(board) else {
            table::draw_empty(canvas, area);
            return;
        };
        self.place = at;
        if area.width < NARROWEST {
            return;
        }
        let strip = strip::height_of(area.height);
        let table = Rect { height: area.height - strip, ..area };
        self.draw_table(board, at, canvas, table);
        let strip = Rect { y: table.bottom(), height: strip, ..area };
        strip::draw(board, at, self.character(board).as_ref(), canvas, strip);
    }

    /// Where the scene in focus stands; where it is gone, the one that took its place.
    fn at(&self, board: &Board) -> Option<usize> {
        let last = board.records().scenes.len().checked_sub(1)?;
        let there = self.scene.as_ref().and_then(|number| board.relations().scene_at(number));
        Some(there.unwrap_or(self.place.min(last)))
    }

    fn go_to(&mut self, board: &Board, at: usize) {
        if let Some(scene) = board.records().scenes.get(at) {
            self.scene = Some(scene.number.clone());
            self.place = at;
        }
    }

    fn step(&mut self, board: &Board, by: isize) {
        let Some(at) = self.at(board) else { return };
        let places = self.order.places(board);
        let here = places.iter().position(|place| *place == at).unwrap_or(0);
        let next = here.saturating_add_signed(by).min(places.len().saturating_sub(1));
        if let Some(at) = places.get(next) {
            self.go_to(board, *at);
        }
    }

    /// The scenes from where a range was begun to the focus, in the order of the table; only the one in focus where
    /// there is no range.
    fn range(&self, board: &Board) -> Vec<usize> {
        let Some(at) = self.at(board) else { return Vec::new() };
        let begun = self.anchor.as_ref().and_then(|number| board.relations().scene_at(number));
        let Some(begun) = begun else { return vec![at] };
        let places = self.order.places(board);
        let place = |at: usize| places.iter().position(|place| *place == at);
        match place(begun).zip(place(at)) {
            Some((one, other)) => places[one.min(other)..=one.max(other)].to_vec(),
            None => vec![at],
        }
    }

    /// Takes the range away; says whether there was one.
    pub fn back(&mut self) -> bool {
        self.anchor.take().is_some()
    }

    fn turn(&mut self, board: &Board, by: isize) {
        let characters = &board.head().characters;
        let Some(last) = characters.len().checked_sub(1) else { return };
        let at = self.column(board).unwrap_or(0).saturating_add_signed(by).min(last);
        self.character = characters.get(at).map(|one| one.id.clone());
    }

    /// Which of the board's characters is in focus.
    fn column(&self, board: &Board) -> Option<usize> {
        let character = self.character(board)?;
        board.head().characters.iter().position(|one| one.id == character)
    }
}
