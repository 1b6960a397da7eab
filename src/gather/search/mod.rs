//! The search: from a [`Problem`] to a [`Choice`].
//!
//! A problem falls into parts that share nothing but the number of looks ([`rules`]). Each part is searched alone
//! ([`part`], [`local`], [`dual`], [`tree`]), for every number of looks that may fall to it, and the parts are joined
//! exactly ([`join`]).

mod arrange;
mod control;
mod dual;
mod join;
mod knot;
mod local;
mod part;
mod rules;
mod tree;

#[cfg(test)]
mod tests;

pub use join::{curve, solve};
