//! Notices that something in the folder may have changed.
//!
//! It polls, since shared drives do not report what other machines do. It only looks at names and stamps; what
//! really changed, [`OpenBoard::take_in_outside`] finds out.

use std::collections::hash_map::DefaultHasher;
use std::hash::{Hash, Hasher};
use std::path::Path;
use std::sync::mpsc::{self, RecvTimeoutError, Sender};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use super::OpenBoard;
use super::listing::Listing;
use super::stamp::GRAIN;

/// A thread that looks at the folder now and then, and calls back when something may have changed. It stops when
/// this handle is dropped.
#[derive(Debug)]
pub struct Watcher {
    stop: Option<Sender<()>>,
    thread: Option<JoinHandle<()>>,
}

/// On a slow drive looking takes long: then it looks less often, so that it looks at most a twentieth of the time.
const SHARE: u32 = 20;

/// Until when a change keeps it calling back: a file may be written again within the grain of its stamp, and is looked
/// at until that has settled.
#[derive(Debug, Default)]
struct Unsettled {
    since: Option<Instant>,
}

impl Unsettled {
    /// Whether to call back now; the last time is once the grain has passed.
    fn calls(&mut self, changed: bool, now: Instant) -> bool {
        if changed {
            self.since = Some(now);
        }
        let Some(since) = self.since else { return false };
        if now.duration_since(since) > GRAIN {
            self.since = None;
        }
        true
    }
}

impl Watcher {
    /// Looks every `every`, and calls `changed` from its own thread.
    pub fn spawn(board: &OpenBoard, every: Duration, changed: impl Fn() + Send + 'static) -> Self {
        let folder = board.shelf.folder.clone();
        let (stop, stopped) = mpsc::channel();
        let watch = move || {
            // What happened since the board was opened may be news already.
            let mut seen = None;
            let mut unsettled = Unsettled::default();
            let mut pause = Duration::ZERO;
            while let Err(RecvTimeoutError::Timeout) = stopped.recv_timeout(pause) {
                let start = Instant::now();
                let now = glance(&folder);
                let is_new = seen != Some(now);
                seen = Some(now);
                if unsettled.calls(is_new, Instant::now()) {
                    changed();
                }
                pause = every.max(start.elapsed() * SHARE);
            }
        };
        let thread = std::thread::Builder::new().name("watcher".to_owned()).spawn(watch).ok();
        Self { stop: Some(stop), thread }
    }
}

impl Drop for Watcher {
    fn drop(&mut self) {
        drop(self.stop.take());
        if let Some(thread) = self.thread.take() {
            // It has nothing to return, and a panic of the callback was reported already.
            let _ended = thread.join();
        }
    }
}

/// Names and stamps in one number.
fn glance(folder: &Path) -> u64 {
    let mut hasher = DefaultHasher::new();
    match Listing::of(folder) {
        Ok(listing) => {
            listing.files.hash(&mut hasher);
            listing.strays.iter().for_each(|stray| stray.file.hash(&mut hasher));
        }
        Err(error) => error.kind().hash(&mut hasher),
    }
    hasher.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_calls_until_the_stamp_of_a_change_has_settled() {
        for every in [Duration::from_millis(5), Duration::from_millis(500), Duration::from_secs(2), GRAIN * 3]
        {
            let mut unsettled = Unsettled::default();
            let start = Instant::now();
            assert!(!unsettled.calls(false, start), "nothing has changed");
            assert!(unsettled.calls(true, start));
            let mut now = start;
            let mut last = start;
            for _ in 0..2_000 {
                now += every;
                if unsettled.calls(false, now) {
                    last = now;
                }
            }
            let after = last - start;
            assert!(
                after > GRAIN && after <= GRAIN + every,
                "the last after {after:?}, looking every {every:?}"
            );
        }
    }
}
