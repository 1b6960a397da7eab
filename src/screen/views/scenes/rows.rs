//! The rows of the table: the scenes in story order under their periods, or in shooting order under their days.

use std::collections::HashSet;

use crate::board::{Board, PeriodId, ShootDay};
use crate::plot::Shooting;

/// In which order the scenes stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// As they are told.
    #[default]
    Story,
    /// As they are shot. A scene on two days stands on the first; those on none stand last.
    Shooting,
}

/// One row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Row<'a> {
    /// From here on the story is in another period.
    Period(Option<&'a PeriodId>),
    /// From here on it is another shooting day; `None`: no day has what follows.
    Day(Option<&'a ShootDay>),
    /// The scene at this place in story order.
    Scene(usize),
}

impl Row<'_> {
    /// Whether it is the head of a group.
    pub fn is_head(self) -> bool {
        !matches!(self, Self::Scene(_))
    }
}

impl Order {
    /// The rows in this order.
    pub fn rows(self, board: &Board) -> Vec<Row<'_>> {
        match self {
            Self::Story => by_story(board),
            Self::Shooting => by_shooting(board),
        }
    }

    /// The scenes in this order, by their places in story order; each once.
    pub fn places(self, board: &Board) -> Vec<usize> {
        let scene = |row| match row {
            Row::Scene(at) => Some(at),
            Row::Period(_) | Row::Day(_) => None,
        };
        self.rows(board).into_iter().filter_map(scene).collect()
    }
}

fn by_story(board: &Board) -> Vec<Row<'_>> {
    let mut rows = Vec::with_capacity(board.records().scenes.len() + 16);
    let mut now = None;
    for at in 0..board.records().scenes.len() {
        let period = board.relations().period_of_scene(at);
        if now != Some(period) {
            rows.push(Row::Period(period));
            now = Some(period);
        }
        rows.push(Row::Scene(at));
    }
    rows
}

fn by_shooting(board: &Board) -> Vec<Row<'_>> {
    let mut rows = Vec::with_capacity(board.records().scenes.len() + 64);
    let mut seen = HashSet::new();
    for planned in Shooting::of(board).days {
        rows.push(Row::Day(Some(planned.day)));
        for (at, _) in planned.scenes {
            if seen.insert(at) {
                rows.push(Row::Scene(at));
            }
        }
        if rows.last().is_some_and(|row| row.is_head()) {
            // A day without a scene of its own has nothing to show.
            rows.pop();
        }
    }
    if seen.len() < board.records().scenes.len() {
        rows.push(Row::Day(None));
        rows.extend((0..board.records().scenes.len()).filter(|at| !seen.contains(at)).map(Row::Scene));
    }
    rows
}
