//! What is ready to be drawn, by what was asked; what was longest out of sight goes first when it is too much.

use std::collections::HashMap;
use std::sync::Arc;
use std::time::{Duration, Instant};

use super::shot::Shot;
use super::workers::Ask;

/// The most that is kept, in bytes.
const MOST: usize = 64_000_000;

/// After so long a file is looked at again: somebody may have put another in its place.
const FRESH: Duration = Duration::from_secs(4);

#[derive(Debug)]
struct Kept {
    shot: Arc<Shot>,
    /// The last frame that drew it.
    seen: u64,
    made: Instant,
}

impl Kept {
    /// Whether its file should be looked at again; what is drawn from a record never is.
    fn is_old(&self, ask: &Ask) -> bool {
        !ask.subject.is_drawn() && self.made.elapsed() > FRESH
    }
}

/// What was found.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub shot: Arc<Shot>,
    /// Whether its file should be looked at again.
    pub is_old: bool,
}

/// Pictures that are ready.
#[derive(Debug, Default)]
pub(super) struct Memory {
    kept: HashMap<Ask, Kept>,
    frame: u64,
    bytes: usize,
}

impl Memory {
    /// A new frame begins.
    pub fn begin(&mut self) {
        self.frame += 1;
    }

    /// What there is for this.
    pub fn get(&mut self, ask: &Ask) -> Option<Found> {
        let kept = self.kept.get_mut(ask)?;
        kept.seen = self.frame;
        Some(Found { shot: Arc::clone(&kept.shot), is_old: kept.is_old(ask) })
    }

    /// Whether there is something for this that is not too old.
    pub fn has(&self, ask: &Ask) -> bool {
        self.kept.get(ask).is_some_and(|kept| !kept.is_old(ask))
    }

    /// Keeps what has become ready, and lets go what is too much.
    pub fn keep(&mut self, ask: Ask, shot: Shot) {
        let made = Instant::now();
        if let Some(kept) = self.kept.get_mut(&ask).filter(|kept| kept.shot.is_same_as(&shot)) {
            kept.made = made;
            return;
        }
        self.bytes += shot.bytes();
        let seen = self.frame;
        if let Some(before) = self.kept.insert(ask, Kept { shot: Arc::new(shot), seen, made }) {
            self.bytes = self.bytes.saturating_sub(before.shot.bytes());
        }
        if self.bytes > MOST {
            self.thin_out();
        }
    }

    /// Lets go what was longest out of sight, down to three quarters of the bound, so that it is not done for each.
    fn thin_out(&mut self) {
        let mut by_age: Vec<(u64, Ask)> =
            self.kept.iter().map(|(ask, kept)| (kept.seen, ask.clone())).collect();
        by_age.sort_by_key(|(seen, _)| *seen);
        for (_, ask) in by_age {
            if self.bytes <= MOST / 4 * 3 {
                break;
            }
            if let Some(gone) = self.kept.remove(&ask) {
                self.bytes = self.bytes.saturating_sub(gone.shot.bytes());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::screen::gallery::Subject;
    use ratatui::layout::Size;

    fn ask(name: &str) -> Ask {
        Ask { subject: Subject::File(name.parse().unwrap()), size: Size::new(8, 8), in_blocks: false }
    }

    #[test]
    fn what_was_longest_out_of_sight_goes_first_when_it_is_too_much() {
        let mut memory = Memory::default();
        for name in ["images/a.jpg", "images/b.jpg", "images/c.jpg"] {
            memory.begin();
            memory.keep(ask(name), Shot::not("x".repeat(MOST / 4)));
        }
        memory.begin();
        assert!(memory.get(&ask("images/a.jpg")).is_some());
        memory.begin();
        memory.keep(ask("images/d.jpg"), Shot::not("x".repeat(MOST / 3)));
        assert!(memory.bytes <= MOST);
        assert!(memory.get(&ask("images/b.jpg")).is_none());
        assert!(memory.get(&ask("images/a.jpg")).is_some());
        assert!(memory.get(&ask("images/d.jpg")).is_some());
    }
}
