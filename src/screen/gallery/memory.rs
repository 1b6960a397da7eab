//! What is ready to be drawn, by what was asked; what was longest out of sight goes first when it is too much.

use std::collections::HashMap;
use std::sync::Arc;
use std::time::{Duration, Instant};

use super::shot::Shot;
use super::workers::Ask;
use crate::album::Stamp;

/// The most that is kept, in bytes, but for what is in sight.
const MOST: usize = 64_000_000;

/// After so long a file is looked at again: somebody may have put another in its place.
const FRESH: Duration = Duration::from_secs(4);

#[derive(Debug)]
struct Kept {
    shot: Arc<Shot>,
    /// Which file it was made of.
    stamp: Option<Stamp>,
    /// The last frame that drew it.
    seen: u64,
    /// When its file was last looked at.
    looked: Instant,
}

impl Kept {
    /// Whether its file should be looked at again; what is drawn from a record never is.
    fn is_old(&self, ask: &Ask, now: Instant) -> bool {
        !ask.subject.is_drawn() && now.saturating_duration_since(self.looked) > FRESH
    }
}

/// What was found.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub shot: Arc<Shot>,
    /// Which file it was made of, if that should be looked at again.
    pub old: Option<Option<Stamp>>,
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
    pub fn get(&mut self, ask: &Ask, now: Instant) -> Option<Found> {
        let kept = self.kept.get_mut(ask)?;
        kept.seen = self.frame;
        Some(Found { shot: Arc::clone(&kept.shot), old: kept.is_old(ask, now).then_some(kept.stamp) })
    }

    /// Whether there is something for this that need not be looked at again.
    pub fn has(&self, ask: &Ask, now: Instant) -> bool {
        self.kept.get(ask).is_some_and(|kept| !kept.is_old(ask, now))
    }

    /// Whether something that the last frame drew should be looked at again.
    pub fn is_old_in_sight(&self, now: Instant) -> bool {
        self.kept.iter().any(|(ask, kept)| kept.seen == self.frame && kept.is_old(ask, now))
    }

    /// The file of this is what it was.
    pub fn confirm(&mut self, ask: &Ask, now: Instant) {
        if let Some(kept) = self.kept.get_mut(ask) {
            kept.looked = now;
        }
    }

    /// Keeps what has become ready, and lets go what is too much.
    pub fn keep(&mut self, ask: Ask, shot: Shot, stamp: Option<Stamp>, now: Instant) {
        self.bytes += shot.bytes();
        let kept = Kept { shot: Arc::new(shot), stamp, seen: self.frame, looked: now };
        if let Some(before) = self.kept.insert(ask, kept) {
            self.bytes = self.bytes.saturating_sub(before.shot.bytes());
        }
        if self.bytes > MOST {
            self.thin_out();
        }
    }

    /// Lets go what was longest out of sight, down to three quarters of the bound, so that it is not done for each. What
    /// is in sight stays, however large: it would only be made again.
    fn thin_out(&mut self) {
        let out_of_sight = self.kept.iter().filter(|(_, kept)| kept.seen + 1 < self.frame);
        let mut by_age: Vec<(u64, Ask)> = out_of_sight.map(|(ask, kept)| (kept.seen, ask.clone())).collect();
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
    use ratatui::layout::Size;

    use super::*;
    use crate::screen::gallery::Subject;

    fn ask(name: &str) -> Ask {
        Ask { subject: Subject::File(name.parse().unwrap()), size: Size::new(8, 8), in_blocks: false }
    }

    #[test]
    fn what_was_longest_out_of_sight_goes_first_when_it_is_too_much() {
        let (mut memory, now) = (Memory::default(), Instant::now());
        for name in ["images/a.jpg", "images/b.jpg", "images/c.jpg"] {
            memory.begin();
            memory.keep(ask(name), Shot::not("x".repeat(MOST / 4)), None, now);
        }
        memory.begin();
        assert!(memory.get(&ask("images/a.jpg"), now).is_some());
        memory.begin();
        memory.keep(ask("images/d.jpg"), Shot::not("x".repeat(MOST / 3)), None, now);
        assert!(memory.bytes <= MOST);
        let mut is_there = |name| memory.get(&ask(name), now).is_some();
        assert!(!is_there("images/b.jpg"));
        assert!(is_there("images/a.jpg") && is_there("images/d.jpg"));
    }

    #[test]
    fn what_is_in_sight_stays_however_large_it_is() {
        let (mut memory, now) = (Memory::default(), Instant::now());
        memory.begin();
        memory.keep(ask("images/a.jpg"), Shot::not("x".repeat(MOST + 1)), None, now);
        memory.begin();
        assert!(memory.get(&ask("images/a.jpg"), now).is_some());
    }

    #[test]
    fn a_file_is_looked_at_again_after_a_while_and_what_is_confirmed_is_fresh() {
        let (mut memory, now) = (Memory::default(), Instant::now());
        let later = now + FRESH + Duration::from_secs(1);
        memory.begin();
        memory.keep(ask("images/a.jpg"), Shot::not("x"), None, now);
        assert!(memory.has(&ask("images/a.jpg"), now) && !memory.is_old_in_sight(now));
        assert_eq!(memory.get(&ask("images/a.jpg"), later).unwrap().old, Some(None));
        assert!(memory.is_old_in_sight(later) && !memory.has(&ask("images/a.jpg"), later));
        memory.confirm(&ask("images/a.jpg"), later);
        assert!(memory.has(&ask("images/a.jpg"), later) && !memory.is_old_in_sight(later));
        let flat = Ask {
            subject: Subject::Flat { pieces: Vec::new(), silhouette: String::new() },
            ..ask("images/a.jpg")
        };
        memory.keep(flat.clone(), Shot::thin(), None, now);
        assert!(memory.has(&flat, later), "what is drawn from a record does not age");
    }
}
