//! What can be done to an outfit or a look, from whichever view it is in focus.
//!
//! Each asks what it must know by a layer, and makes one edit.

mod adding;
mod bases;
mod looks;
mod outfits;
#[cfg(test)]
mod tests;
mod words;

use crate::board::Treatment;

pub use words::{apart_words, count_words, look_item, outfit_words};

/// The treatments that a look with a base may have.
const SOURCED: [Treatment; 2] = [Treatment::Copy, Treatment::Interpret];
