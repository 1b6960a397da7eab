//! Moving the focus.

use super::{Entry, Wall, Zoom};
use crate::board::{Board, Standing};

/// Where to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Move {
    Left,
    Right,
    Up,
    Down,
    PeriodBack,
    PeriodOn,
    First,
    Last,
}

impl Wall {
    /// Moves the focus; it stays where there is nothing to move to.
    pub(super) fn go(&mut self, to: Move) {
        let next = if self.in_lanes { self.next_lane(to) } else { self.next_entry(to) };
        if let Some(next) = next {
            self.focus = Some(next);
        }
    }

    fn next_entry(&self, to: Move) -> Option<Entry> {
        let (column, row) = self.shelf.place(self.focus.as_ref()?)?;
        let vertical = self.zoom != Zoom::Far;
        match to {
            Move::First => self.shelf.entries().next().cloned(),
            Move::Last => self.shelf.entries().next_back().cloned(),
            Move::PeriodBack => self.beside(column, row, false, false),
            Move::PeriodOn => self.beside(column, row, true, false),
            Move::Left if vertical => self.beside(column, row, false, true),
            Move::Right if vertical => self.beside(column, row, true, true),
            Move::Up if vertical => self.shelf.at(column, row.checked_sub(1)?).cloned(),
            Move::Down if vertical => self.shelf.at(column, row + 1).cloned(),
            Move::Left => self.neighbour(column, row, false),
            Move::Right => self.neighbour(column, row, true),
            Move::Up | Move::Down => {
                let blocks = &self.plan.blocks;
                let block = blocks.vertical(blocks.of(column, row)?, to == Move::Down)?;
                self.shelf.at(block.column, block.rows.start).cloned()
            }
        }
    }

    /// The next entry earlier or later, over the edges of periods.
    fn neighbour(&self, column: usize, row: usize, later: bool) -> Option<Entry> {
        let within = if later {
            self.shelf.at(column, row + 1)
        } else {
            row.checked_sub(1).and_then(|row| self.shelf.at(column, row))
        };
        if let Some(entry) = within {
            return Some(entry.clone());
        }
        let beyond = self.full_column(column, later)?;
        let row = if later { 0 } else { self.shelf.columns[beyond].slots.len() - 1 };
        self.shelf.at(beyond, row).cloned()
    }

    /// The next period that holds anything.
    fn full_column(&self, column: usize, later: bool) -> Option<usize> {
        let full = |at: &usize| !self.shelf.columns[*at].slots.is_empty();
        if later { (column + 1..self.shelf.columns.len()).find(full) } else { (0..column).rev().find(full) }
    }

    /// An entry of the next period: at the same height on the screen, or its first.
    fn beside(&self, column: usize, row: usize, later: bool, level: bool) -> Option<Entry> {
        let beyond = self.full_column(column, later)?;
        let row = if level {
            let height = row.saturating_sub(self.tops[column]);
            (self.tops[beyond] + height).min(self.shelf.columns[beyond].slots.len() - 1)
        } else {
            0
        };
        self.shelf.at(beyond, row).cloned()
    }

    fn next_lane(&self, to: Move) -> Option<Entry> {
        let Entry::Look(look) = self.focus.as_ref()? else { return None };
        let at = self.shelf.lane_of(look)?;
        let last = self.shelf.lanes.len().checked_sub(1)?;
        let next = match to {
            Move::Left | Move::Up => at.saturating_sub(1),
            Move::Right | Move::Down => (at + 1).min(last),
            Move::First => 0,
            Move::Last => last,
            Move::PeriodBack | Move::PeriodOn => {
                let own = self.shelf.lanes[at].column;
                let later = to == Move::PeriodOn;
                let other = |lane: &usize| {
                    let column = self.shelf.lanes[*lane].column;
                    if later { column > own } else { column < own }
                };
                if later { (0..=last).find(other)? } else { (0..=last).rev().find(other)? }
            }
        };
        Some(Entry::Look(self.shelf.lanes[next].look.clone()))
    }

    /// Goes between the outfits and the lanes, and stays with what belongs together.
    pub(super) fn cross(&mut self, board: &Board) {
        if self.shelf.lanes.is_empty() {
            return;
        }
        let look = self.look_in_focus(board).filter(|look| self.shelf.lane_of(look).is_some());
        if self.in_lanes {
            self.in_lanes = false;
            let outfits = look.and_then(|id| board.look(&id)).into_iter().flat_map(|look| look.outfits());
            let outfit =
                outfits.map(|id| Entry::Outfit(id.clone())).find(|entry| self.shelf.place(entry).is_some());
            let own = self.focus.clone().filter(|entry| self.shelf.place(entry).is_some());
            self.focus = own.or(outfit).or_else(|| self.shelf.entries().next().cloned());
        } else {
            self.in_lanes = true;
            let look = look.unwrap_or_else(|| self.shelf.lanes[0].look.clone());
            self.focus = Some(Entry::Look(look));
        }
    }

    /// Goes to the next open outfit, round and round; says whether there is one.
    pub(super) fn next_open(&mut self, board: &Board) -> bool {
        let entries: Vec<&Entry> = self.shelf.entries().collect();
        let at = self.focus.as_ref().and_then(|focus| entries.iter().position(|entry| *entry == focus));
        let start = at.map_or(0, |at| at + 1);
        let open =
            |entry: &&&Entry| matches!(entry, Entry::Outfit(id) if board.standing(id) == Standing::Open);
        let found = entries[start..].iter().chain(&entries[..start]).find(open).map(|entry| (*entry).clone());
        let there = found.is_some();
        if there {
            self.focus = found;
            self.in_lanes = false;
        }
        there
    }
}
