//! Whether a search may go on, and whom it tells.

use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Instant;

use crate::gather::limits::{Limits, Progress};

/// The limits of one search while it runs.
pub struct Control<'a> {
    limits: &'a Limits,
    began: Instant,
    steps: AtomicU64,
}

impl<'a> Control<'a> {
    /// A search that begins now.
    pub fn new(limits: &'a Limits) -> Self {
        Self { limits, began: Instant::now(), steps: AtomicU64::new(0) }
    }

    /// Whether the search must end at once.
    pub fn is_over(&self) -> bool {
        let cancelled = self.limits.cancel.as_ref().is_some_and(|flag| flag.load(Ordering::Relaxed));
        let late = self.limits.time.is_some_and(|time| self.began.elapsed() >= time);
        cancelled || late || self.limits.steps.is_some_and(|most| self.steps() >= most)
    }

    /// Counts steps of the dual.
    pub fn count(&self, steps: u64) {
        self.steps.fetch_add(steps, Ordering::Relaxed);
    }

    /// Steps so far.
    pub fn steps(&self) -> u64 {
        self.steps.load(Ordering::Relaxed)
    }

    /// Threads to search on.
    pub fn threads(&self) -> usize {
        self.limits.threads.map_or(1, std::num::NonZeroUsize::get)
    }

    /// Whether a choice of this cost is sure enough, given what no choice can cost less than.
    pub fn is_enough(&self, cost: f64, bound: f64) -> bool {
        is_proved(cost, bound) || cost <= bound * (1.0 + self.limits.gap)
    }

    /// Tells whoever listens.
    pub fn tell(&self, cost: f64, bound: f64) {
        if let Some(progress) = &self.limits.progress {
            progress(&Progress { cost, bound, steps: self.steps() });
        }
    }
}

/// Whether a bound proves a cost best, up to the rounding of sums.
pub fn is_proved(cost: f64, bound: f64) -> bool {
    bound >= cost - 1e-9 * cost.abs().max(1e-3)
}
