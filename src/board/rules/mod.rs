//! What must hold between records. Files may break it; edits may not.
//!
//! Every rule is looked for record by record, so that after an edit only those records are looked at whose rules it
//! can have touched.

mod fault;
mod search;

use std::collections::{BTreeSet, HashSet};

pub use fault::{Broken, Dangling, Step, Target};
use search::Search;

use super::{Board, Change, Head, LookId, OutfitId};

/// Every broken rule, records in order.
pub fn broken(board: &Board) -> Vec<Broken> {
    let mut search = Search::new(board);
    search.head();
    for (id, outfit) in &board.records().outfits {
        search.outfit(id, outfit);
    }
    for (id, look) in &board.records().looks {
        search.look(id, look);
    }
    for place in 0..board.records().scenes.len() {
        search.scene(place);
    }
    search.scene_numbers();
    search.schedule();
    search.found
}

/// Every reference to a record that is not there, with the way to it in its file.
pub fn dangling(board: &Board) -> Vec<Dangling> {
    let dangling = |broken| match broken {
        Broken::Dangling(dangling) => Some(dangling),
        _ => None,
    };
    broken(board).into_iter().filter_map(dangling).collect()
}

/// The rules that `after` breaks and `before` does not, where `changes` have led from one to the other.
pub(super) fn added(before: &Board, after: &Board, changes: &[Change]) -> Vec<Broken> {
    let mut found = Touched::by(changes, after).search(after);
    if !found.is_empty() {
        let known: HashSet<Broken> = broken(before).iter().flat_map(marks).collect();
        found.retain(|broken| !marks(broken).iter().all(|mark| known.contains(mark)));
    }
    found
}

/// What tells a broken rule from others, wherever in its record it is: an edit that only moves it, or takes an outfit
/// out of one of three looks, has not broken it.
fn marks(broken: &Broken) -> Vec<Broken> {
    match broken {
        Broken::Dangling(dangling) => {
            vec![Broken::Dangling(Dangling { path: Vec::new(), ..dangling.clone() })]
        }
        Broken::InTwoLooks(outfit, looks) => {
            looks.iter().map(|look| Broken::InTwoLooks(outfit.clone(), vec![look.clone()])).collect()
        }
        other => vec![other.clone()],
    }
}

/// The records whose rules an edit can have touched.
#[derive(Default)]
struct Touched {
    everything: bool,
    head: bool,
    outfits: BTreeSet<OutfitId>,
    looks: BTreeSet<LookId>,
    scenes: BTreeSet<usize>,
    scene_numbers: bool,
    schedule: bool,
}

impl Touched {
    fn by(changes: &[Change], after: &Board) -> Self {
        let mut touched = Self::default();
        for change in changes {
            touched.add(change, after);
        }
        touched
    }

    fn add(&mut self, change: &Change, after: &Board) {
        let relations = after.relations();
        match change {
            Change::Head(swap) => {
                self.head = true;
                let sides = swap.before.as_deref().zip(swap.after.as_deref());
                self.everything |= sides.is_none_or(|(before, after)| !same_names(before, after));
            }
            Change::Outfit(id, _) => {
                self.outfits.insert(id.clone());
                self.looks.extend(relations.looks_of(id).iter().cloned());
            }
            Change::Look(id, _) => {
                self.looks.insert(id.clone());
                // An outfit in two looks is said of the first of them.
                let held = after.look(id).into_iter().flat_map(|look| look.outfits());
                self.looks.extend(held.filter_map(|outfit| relations.looks_of(outfit).first()).cloned());
                self.scenes.extend(relations.scenes_of(id));
            }
            Change::Scene(number, _) => {
                self.scenes.extend(relations.scene_at(number));
                self.scene_numbers = true;
                self.schedule = true;
            }
            Change::SceneOrder(_) => {}
            Change::Schedule(_) => self.schedule = true,
        }
    }

    fn search(&self, board: &Board) -> Vec<Broken> {
        if self.everything {
            return broken(board);
        }
        let mut search = Search::new(board);
        if self.head {
            search.head();
        }
        for id in &self.outfits {
            if let Some(outfit) = board.outfit(id) {
                search.outfit(id, outfit);
            }
        }
        for id in &self.looks {
            if let Some(look) = board.look(id) {
                search.look(id, look);
            }
        }
        for place in &self.scenes {
            search.scene(*place);
        }
        if self.scene_numbers {
            search.scene_numbers();
        }
        if self.schedule {
            search.schedule();
        }
        search.found
    }
}

/// Whether two heads declare the same periods, characters and threads, by name.
fn same_names(one: &Head, other: &Head) -> bool {
    one.periods.iter().map(|period| &period.id).eq(other.periods.iter().map(|period| &period.id))
        && one.characters.iter().map(|who| &who.id).eq(other.characters.iter().map(|who| &who.id))
        && one.threads.iter().map(|thread| &thread.id).eq(other.threads.iter().map(|thread| &thread.id))
}
