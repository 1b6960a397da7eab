//! The answer, and why there may be none.

use super::problem::Wish;

/// Which outfits are bases, and which base each outfit goes with.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The bases, in ascending order.
    pub bases: Vec<usize>,
    /// The base of each outfit's look; `None` where its kind has no look, or where wishes leave it in none.
    pub base_of: Vec<Option<usize>>,
    /// Σ wᵢ d(i, base of i).
    pub cost: f64,
    /// No choice that keeps the wishes costs less than this.
    pub bound: f64,
    /// What the dual alone had proved of that, before any branching.
    pub root_bound: f64,
    /// Whether no choice is better, up to the rounding of sums (one part in 10⁹ of the cost, or in 10¹³ of the most
    /// that anything can cost).
    pub proven: bool,
    /// Steps of the dual that it took.
    pub steps: u64,
}

impl Choice {
    /// How much more than the best possible it can cost at most, as a share: 0.001 for 0.1 %. 0 when proved best.
    pub fn gap(&self) -> f64 {
        if self.proven || self.cost <= self.bound {
            0.0
        } else if self.bound > 0.0 {
            self.cost / self.bound - 1.0
        } else {
            f64::INFINITY
        }
    }
}

/// What a clash of so many wishes is called, before they are named.
pub fn clash_lead(wishes: usize, looks: usize) -> String {
    let looks = if looks == 1 { "1 look".to_owned() } else { format!("{looks} looks") };
    let these = if wishes == 1 { "this cannot hold" } else { "these cannot all hold" };
    format!("No choice of {looks} is possible: {these}.")
}

/// What helps where so many wishes clash, once they are named; `every` as in [`Unsolved::Clash`].
pub fn clash_way_out(wishes: usize, every: bool) -> Option<&'static str> {
    match (wishes, every) {
        (0 | 1, _) => None,
        (_, true) => Some("Take any one of them back and the others can."),
        (_, false) => Some("Taking one of them back may be enough; these stand in each other's way."),
    }
}

/// Why there is no choice.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Unsolved {
    /// These wishes cannot all be had with so many looks.
    #[error("{}", clash_lead(.wishes.len(), *.looks))]
    Clash {
        /// The wishes, in the problem's order.
        wishes: Vec<Wish>,
        /// How many looks there may be.
        looks: usize,
        /// Whether it is sure that every one of them has a part in it: any left out, the others can be had.
        every: bool,
    },
    /// No look at all is allowed.
    #[error("no look is allowed, so there is nothing to choose")]
    NoLooks,
    /// No choice that keeps all wishes was found, and none was proved impossible.
    #[error("no choice that keeps every wish was found, though there may be one")]
    Undecided,
    /// The search was ended before it had any choice.
    #[error("the search was ended before it had any choice")]
    Ended,
}
