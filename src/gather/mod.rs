//! Gather: which outfits should be the bases of the looks, so that the looks keep most of the wardrobe, and how sure
//! that is.
//!
//! The question is a p-median problem: of n outfits choose K bases, so that the summed distance of every outfit to its
//! look's base, weighted, is least; with the designer's [`Wish`]es as constraints. `solve` answers with a
//! [`Choice`] that carries its own proof: a lower bound that no choice whatever can pass.
//!
//! The module is in two halves that meet in [`Problem`]. One half knows outfits and no search: `likeness`, and
//! `wardrobe`, which makes a problem of a board. The other knows numbers and no outfits, so that it answers for any
//! matrix of distances: a local search for the choice, a Lagrangian dual for the bound, and branch and bound for
//! what is left between the two.

mod choice;
mod kept;
pub mod likeness;
mod limits;
mod problem;
mod search;
mod share;
mod suggestion;
mod wardrobe;
mod worth;

pub use choice::{Choice, Unsolved, clash_lead, clash_way_out};
pub use kept::{Keeping, Kept, Tally, distance};
pub use likeness::{Explanation, Feature, Likeness};
pub use limits::{Limits, Listener, Progress};
pub use problem::{Group, Problem, Unfit, Wish};
pub use search::{curve, solve};
pub use share::{PeriodShare, apportion, limits};
pub use suggestion::{Becomes, Suggested, Suggestion};
pub use wardrobe::{NoWardrobe, Wardrobe, weight};
#[cfg(test)]
pub(crate) use worth::lost_by_merger;
pub use worth::{Carried, Fewer, LookWorth, MergerCost, OneMore, Present, Served, Worth};
