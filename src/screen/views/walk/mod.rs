//! Walk: the meeting's screen. One stop at a time, large and quiet: what it is, what is decided and asked about it.
//!
//! The stops are read from the board for every frame; what is kept here is which of them is on the screen and how far
//! it is scrolled; which of them it was is remembered on this machine. Whatever is recorded lies over the foot of the stop, which stays to be seen.

mod act;
mod draw;
mod page;
mod record;
mod stops;
#[cfg(test)]
mod tests;

use super::Target;
use crate::board::{Board, Stop};
use crate::store::OpenBoard;

pub use act::perform;
pub use stops::By;

/// The state of the view.
#[derive(Debug, Default)]
pub struct Walk {
    by: By,
    at: Stop,
    /// Where the stop stood, for when it is gone.
    place: usize,
    /// How many rows of the stop are above the screen.
    scroll: usize,
    /// Whether it was begun, so that it goes on where it was left.
    is_begun: bool,
}

impl Walk {
    /// The walk as it was left on this machine; from the beginning where that is not known or cannot be read.
    pub fn left_at(open: &OpenBoard) -> Self {
        let left = open.bookmark().and_then(|text| {
            let (by, stop) = text.strip_prefix("walk ")?.split_once(", at ")?;
            let (by, at): (_, Stop) = (By::of_words(by)?, stop.parse().ok()?);
            Some(Self { by: By::of(&at).unwrap_or(by), at, is_begun: true, ..Self::default() })
        });
        left.unwrap_or_default()
    }

    /// Remembers on this machine where it was left, if it was begun.
    pub fn leave(&self, open: &OpenBoard) {
        if self.is_begun {
            open.leave_bookmark(&format!("walk {}, at {}", self.by.words(), self.at(open.board())));
        }
    }

    /// Begins the walk at what is in focus; goes on at its stop where it was begun before.
    pub fn begin(&mut self, board: &Board, target: Option<&Target>) {
        if !std::mem::replace(&mut self.is_begun, true)
            && let Some(target) = target
        {
            self.focus(board, target);
        }
    }

    /// Goes to the stop that shows a target, where there is one.
    pub fn focus(&mut self, board: &Board, target: &Target) {
        let stop = match target {
            Target::Period(id) => Stop::Period(id.clone()),
            Target::Look(id) => Stop::Look(id.clone()),
            Target::Scene(number) => Stop::Scene(number.clone()),
            Target::Outfit(id) => match board.relations().period_of_outfit(id) {
                Some(period) => Stop::Period(period.clone()),
                None => return,
            },
            Target::Thread(_) => return,
        };
        if stop.is_on(board) {
            self.by = By::of(&stop).unwrap_or(self.by);
            self.go_to(board, stop);
        }
    }

    /// What is on the screen.
    pub fn focused(&self, board: &Board) -> Option<Target> {
        match self.at(board) {
            Stop::Board => None,
            Stop::Period(id) => Some(Target::Period(id)),
            Stop::Look(id) => Some(Target::Look(id)),
            Stop::Scene(number) => Some(Target::Scene(number)),
        }
    }

    /// The stop on the screen; where it is gone, the one that took its place.
    fn at(&self, board: &Board) -> Stop {
        if self.at.is_on(board) {
            return self.at.clone();
        }
        let stops = self.by.stops(board);
        stops.get(self.place.min(stops.len() - 1)).cloned().unwrap_or_default()
    }

    fn go_to(&mut self, board: &Board, stop: Stop) {
        self.place = self.by.stops(board).iter().position(|one| *one == stop).unwrap_or(0);
        (self.at, self.scroll) = (stop, 0);
    }

    /// Goes so many stops on; says whether there was another.
    fn step(&mut self, board: &Board, by: isize) -> bool {
        let (stops, now) = (self.by.stops(board), self.at(board));
        let at = stops.iter().position(|stop| *stop == now).unwrap_or(self.place);
        let next = at.saturating_add_signed(by).min(stops.len() - 1);
        if let Some(stop) = stops.into_iter().nth(next) {
            self.go_to(board, stop);
        }
        next != at
    }
}
