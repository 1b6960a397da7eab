//! The wall: every outfit by story period, and a lane per look over the years that it stands for.
//!
//! `shelf` says what there is to show, `axis` where time lies, `blocks`, `cards` and `lanes` how the three
//! zooms and the lanes are laid out; this file holds the state and puts them together. What was laid out is kept
//! until the board, the size or the zoom changes, so that a frame costs what is seen, not what there is.

mod axis;
mod blocks;
mod cards;
mod draw;
mod heads;
mod lanes;
mod moves;
mod offers;
mod paint;
mod perform;
mod shelf;
mod strip;
#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use ratatui::layout::Rect;

use super::Target;
use crate::board::{Board, CharacterId, LookId, OutfitId, Standing, ThreadId};

pub use perform::perform;
pub use shelf::Entry;
use shelf::Shelf;

/// How near the wall is seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Zoom {
    /// The whole life: a block per outfit.
    #[default]
    Far,
    /// A line per outfit.
    Middle,
    /// A card per outfit.
    Near,
}

impl Zoom {
    /// In words, for the header.
    fn words(self) -> &'static str {
        match self {
            Self::Far => "far: blocks",
            Self::Middle => "middle: lines",
            Self::Near => "near: cards",
        }
    }
}

/// The state of the wall.
#[derive(Debug, Default)]
pub struct Wall {
    /// Outfits marked to be gathered.
    pub marks: BTreeSet<OutfitId>,
    zoom: Zoom,
    folded_up: bool,
    in_lanes: bool,
    focus: Option<Entry>,
    only: Option<(CharacterId, String)>,
    lit: Option<(ThreadId, String)>,
    /// The first period that is seen in the nearer zooms.
    first: usize,
    /// The first row that is seen, per period.
    tops: Vec<usize>,
    shelf: Shelf,
    filled_for: Option<(u64, Option<CharacterId>, bool)>,
    plan: draw::Plan,
    planned_for: Option<(Rect, Zoom, usize, (bool, bool))>,
    /// Whether cards carry pictures.
    pictured: bool,
    /// The entries that carry the thread that is lit, for as long as thread and shelf stay the same.
    carriers: Option<(ThreadId, Vec<Entry>)>,
}

impl Wall {
    /// Fills the shelf if the board, the filter or the folding has changed.
    pub fn refresh(&mut self, board: &Board, version: u64) {
        let only = self.only.as_ref().map(|(id, _)| id.clone());
        let wanted = Some((version, only.clone(), self.folded_up));
        if self.filled_for == wanted {
            return;
        }
        let before = std::mem::replace(&mut self.shelf, Shelf::fill(board, only.as_ref(), self.folded_up));
        self.filled_for = wanted;
        self.planned_for = None;
        self.carriers = None;
        self.tops.resize(self.shelf.columns.len(), 0);
        self.first = self.first.min(self.shelf.columns.len() - 1);
        self.marks.retain(|id| board.outfit(id).is_some());
        self.keep_focus(board, &before);
    }

    /// Sees to it that the focus is on something that is shown; `before` is the shelf as it was.
    fn keep_focus(&mut self, board: &Board, before: &Shelf) {
        let shown = |focus: &Entry| match focus {
            Entry::Outfit(_) => self.shelf.place(focus).is_some(),
            Entry::Look(look) => {
                let has_lane = self.in_lanes && self.shelf.lane_of(look).is_some();
                board.look(look).is_some() && (has_lane || self.shelf.place(focus).is_some())
            }
        };
        if self.focus.as_ref().is_some_and(shown) {
            return;
        }
        let stand_in = match &self.focus {
            // Folded up, a folded outfit stands as its look; opened, nothing need change.
            Some(Entry::Outfit(id)) => {
                board.relations().looks_of(id).first().map(|look| Entry::Look(look.clone()))
            }
            // A look that is gone, by undo or by another hand, or that is only a lane once the wall is opened, leaves
            // the focus to what it held.
            Some(Entry::Look(look)) => {
                let held = before.lane_of(look).map_or(&[][..], |lane| &before.lanes[lane].outfits);
                held.iter().cloned().map(Entry::Outfit).find(|entry| self.shelf.place(entry).is_some())
            }
            None => None,
        };
        let stand_in = stand_in.filter(|entry| self.shelf.place(entry).is_some());
        let stand_in = stand_in.or_else(|| self.neighbour_in(board, before));
        self.in_lanes = false;
        self.focus = stand_in.or_else(|| self.shelf.entries().next().cloned());
    }

    /// What is still shown of what stood nearest to the focus on the shelf as it was: later in its period, earlier in
    /// it, and so on beyond. An outfit may by now stand as its look.
    fn neighbour_in(&self, board: &Board, before: &Shelf) -> Option<Entry> {
        let (column, row) = before.place(self.focus.as_ref()?)?;
        let slots = |column: usize| before.columns[column].slots.iter().map(|slot| &slot.entry);
        let own = slots(column).skip(row + 1).chain(slots(column).take(row).rev());
        let later = (column + 1..before.columns.len()).flat_map(slots);
        let earlier = (0..column).rev().flat_map(|column| slots(column).rev());
        let as_look = |entry: &Entry| match entry {
            Entry::Outfit(id) => board.relations().looks_of(id).first().cloned().map(Entry::Look),
            Entry::Look(_) => None,
        };
        let shown = |entry: &Entry| self.shelf.place(entry).is_some();
        let mut near =
            own.chain(later).chain(earlier).flat_map(|entry| [Some(entry.clone()), as_look(entry)]);
        near.find_map(|entry| entry.filter(shown))
    }

    /// Puts the focus on a target.
    pub fn focus(&mut self, board: &Board, target: &Target) {
        match target {
            Target::Outfit(id) => {
                self.show_character(board.outfit(id).map(|outfit| &outfit.character));
                let folded = self.folded_up && !matches!(board.standing(id), Standing::Open);
                match board.relations().looks_of(id).first() {
                    Some(look) if folded => self.focus = Some(Entry::Look(look.clone())),
                    _ => {
                        self.folded_up &= !folded;
                        self.focus = Some(Entry::Outfit(id.clone()));
                    }
                }
                self.in_lanes = false;
            }
            Target::Look(id) => {
                self.show_character(board.look(id).map(|look| &look.character));
                self.focus = Some(Entry::Look(id.clone()));
                self.in_lanes = !self.folded_up;
            }
            Target::Period(id) => {
                let column = self.shelf.columns.iter().position(|column| column.period.as_ref() == Some(id));
                if let Some(entry) = column.and_then(|column| self.shelf.at(column, 0)) {
                    self.focus = Some(entry.clone());
                    self.in_lanes = false;
                }
            }
            Target::Thread(id) => {
                self.lit = board.thread(id).map(|thread| (id.clone(), thread.title.clone()));
            }
            Target::Scene(number) => {
                let look = board
                    .scene(number)
                    .and_then(|scene| scene.wears.iter().find_map(|(_, look)| look.clone()));
                if let Some(look) = look {
                    self.focus(board, &Target::Look(look));
                }
            }
        }
    }

    fn show_character(&mut self, character: Option<&CharacterId>) {
        if self.only.as_ref().is_some_and(|(only, _)| Some(only) != character) {
            self.only = None;
        }
    }

    /// What is in focus.
    pub fn focused(&self) -> Option<Target> {
        Some(match self.focus.as_ref()? {
            Entry::Outfit(id) => Target::Outfit(id.clone()),
            Entry::Look(id) => Target::Look(id.clone()),
        })
    }

    /// The look in focus, or the one that holds the outfit in focus.
    fn look_in_focus(&self, board: &Board) -> Option<LookId> {
        match self.focus.as_ref()? {
            Entry::Look(id) => Some(id.clone()),
            Entry::Outfit(id) => board.relations().looks_of(id).first().cloned(),
        }
    }

    /// The character in focus.
    pub fn character(&self, board: &Board) -> Option<CharacterId> {
        let of_focus = match self.focus.as_ref() {
            Some(Entry::Outfit(id)) => board.outfit(id).map(|outfit| outfit.character.clone()),
            Some(Entry::Look(id)) => board.look(id).map(|look| look.character.clone()),
            None => None,
        };
        of_focus.or_else(|| self.only.as_ref().map(|(id, _)| id.clone()))
    }

    /// Clears marks, then light, then the filter: one at a time.
    pub fn back(&mut self) {
        if !self.marks.is_empty() {
            self.marks.clear();
        } else if self.lit.is_some() {
            self.lit = None;
        } else {
            self.only = None;
        }
    }

    /// Zoom, filter, marks and light in words, for the header.
    pub fn says(&self) -> String {
        let mut words = vec![self.zoom.words().to_owned()];
        if self.folded_up {
            words.push("folded up".to_owned());
        }
        if let Some((_, name)) = &self.only {
            words.push(format!("only {name}"));
        }
        if let Some((_, title)) = &self.lit {
            words.push(format!("◆ {title}"));
        }
        if !self.marks.is_empty() {
            words.push(format!("✓ {} marked", self.marks.len()));
        }
        words.join(" · ")
    }

    /// The entries on the wall that are lit.
    fn lit_entries(&mut self, board: &Board) -> Vec<Entry> {
        if let Some((thread, _)) = &self.lit {
            if self.carriers.as_ref().is_none_or(|(id, _)| id != thread) {
                let carriers =
                    self.shelf.entries().filter(|entry| self.is_lit(board, entry)).cloned().collect();
                self.carriers = Some((thread.clone(), carriers));
            }
            return self.carriers.as_ref().map_or(Vec::new(), |(_, carriers)| carriers.clone());
        }
        let Some(id) = self.look_in_focus(board) else { return Vec::new() };
        let outfits = board.look(&id).into_iter().flat_map(|look| look.outfits()).cloned().map(Entry::Outfit);
        let entries = outfits.chain([Entry::Look(id.clone())]);
        entries.filter(|entry| self.is_lit(board, entry)).collect()
    }

    /// What belongs to the thing in focus, or carries the thread that is lit.
    fn is_lit(&self, board: &Board, entry: &Entry) -> bool {
        if let Some((thread, _)) = &self.lit {
            return match entry {
                Entry::Outfit(id) => board.outfit(id).is_some_and(|outfit| outfit.threads.contains(thread)),
                Entry::Look(id) => board.look(id).is_some_and(|look| look.threads.contains(thread)),
            };
        }
        if self.focus.as_ref() == Some(entry) {
            return false;
        }
        let Some(look) = self.look_in_focus(board) else { return false };
        match entry {
            Entry::Outfit(id) => board.relations().looks_of(id).contains(&look),
            Entry::Look(id) => *id == look,
        }
    }
}
