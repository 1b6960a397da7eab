//! Whether a search may go on, and whom it tells.

use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Instant;

use crate::gather::limits::{Limits, Progress};
use crate::gather::problem::Problem;

/// What sums of costs are rounded by at most, as a share of the most that anything can cost.
const ROUNDING: f64 = 1e-13;

/// The limits of one search while it runs.
pub struct Control<'a> {
    limits: &'a Limits,
    unit: f64,
    rounding: f64,
    began: Instant,
    steps: AtomicU64,
}

impl<'a> Control<'a> {
    /// A search of this problem that begins now.
    pub fn new(problem: &Problem, limits: &'a Limits) -> Self {
        let unit = problem.unit();
        let rounding = ROUNDING * problem.scale() / unit;
        Self { limits, unit, rounding, began: Instant::now(), steps: AtomicU64::new(0) }
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

    /// Whether steps limit the search, so that the same limits give the same choice.
    pub fn counts_steps(&self) -> bool {
        self.limits.steps.is_some()
    }

    /// Threads to search on.
    pub fn threads(&self) -> usize {
        self.limits.threads.map_or(1, std::num::NonZeroUsize::get)
    }

    /// What costs and bounds are measured in here: see [`Problem::unit`].
    pub fn unit(&self) -> f64 {
        self.unit
    }

    /// What a cost must fall by to be less: sums of costs are rounded.
    pub fn rounding(&self, cost: f64) -> f64 {
        (1e-9 * cost.abs()).max(self.rounding)
    }

    /// Whether a bound proves a cost best.
    pub fn is_proved(&self, cost: f64, bound: f64) -> bool {
        bound >= cost - self.rounding(cost)
    }

    /// Whether a choice of this cost is sure enough, given what no choice can cost less than.
    pub fn is_enough(&self, cost: f64, bound: f64) -> bool {
        self.is_proved(cost, bound) || cost <= bound * (1.0 + self.limits.gap)
    }

    /// Tells whoever listens.
    pub fn tell(&self, cost: f64, bound: f64) {
        if let Some(progress) = &self.limits.progress {
            progress(&Progress { cost: cost * self.unit, bound: bound * self.unit, steps: self.steps() });
        }
    }
}
