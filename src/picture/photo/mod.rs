//! A picture file, from its bytes: pixels that stand upright and are no larger than wanted, within limits that are
//! looked at before anything is decoded.

mod decode;
mod unreadable;

pub use decode::{Facts, decoded, facts, scaled};
pub use unreadable::Unreadable;

/// The largest file that is read, in bytes.
pub const MOST_BYTES: u64 = 200_000_000;

/// The most pixels that a picture may have: what an A3 page has at 600 dots per inch, and more.
pub const MOST_PIXELS: u64 = 100_000_000;

/// A main colour of a picture, as a proposal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proposal {
    /// Red, green and blue.
    pub rgb: [u8; 3],
    /// How much of what is worn it takes.
    pub share: f32,
}

/// For now.
pub fn main_colours(_: &crate::picture::Pixels) -> Vec<Proposal> {
    Vec::new()
}
