//! How long a search may go on, how sure it must be, and who hears of it.

use std::fmt;
use std::num::NonZeroUsize;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Duration;

/// When a search stops. Without any limit it goes on until the choice is proved best.
///
/// The same problem with the same limits gives the same choice, as long as neither time nor the flag ends the search.
#[derive(Clone, Default)]
pub struct Limits {
    /// The most time to spend.
    pub time: Option<Duration>,
    /// The most steps of the dual to spend, over all.
    pub steps: Option<u64>,
    /// Stop once the choice is known to cost at most this share more than the best possible: 0.001 for 0.1 %.
    pub gap: f64,
    /// Threads to search on; one where nothing is said.
    pub threads: Option<NonZeroUsize>,
    /// Raised by another thread to end the search; it then answers with the best that it has.
    pub cancel: Option<Arc<AtomicBool>>,
    /// Told of every improvement, on the thread that searches.
    pub progress: Option<Listener>,
}

/// Whoever is told of how far a search is.
pub type Listener = Arc<dyn Fn(&Progress) + Send + Sync>;

/// How far a search is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Progress {
    /// The cost of the best choice so far.
    pub cost: f64,
    /// What no choice can cost less than.
    pub bound: f64,
    /// Steps of the dual so far.
    pub steps: u64,
}

impl Limits {
    /// At most so long.
    pub fn of_time(time: Duration) -> Self {
        Self { time: Some(time), ..Self::default() }
    }
}

impl fmt::Debug for Limits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Limits")
            .field("time", &self.time)
            .field("steps", &self.steps)
            .field("gap", &self.gap)
            .field("threads", &self.threads)
            .field("cancel", &self.cancel)
            .field("progress", &self.progress.is_some())
            .finish()
    }
}
