//! A picture file, from its bytes: pixels that stand upright and are no larger than wanted, within limits that are
//! looked at before anything is decoded. Nothing here opens a file or knows a board.
//!
//! | file | what it is |
//! |---|---|
//! | `open` | bytes to a decoder, inside the limits; what kind a file is by its content, never by its name |
//! | `jpeg` | the outline of a JPEG: whether it is whole; and its picture at a half, a quarter or an eighth |
//! | `exif` | the few tags that are read: orientation, when taken, by what |
//! | `smaller` | fewer pixels, each the mean of what it covers |
//! | `decode` | all of these in order |
//! | `facts` | what a file says of itself |
//! | `unreadable` | why there is no picture, in words |

mod decode;
mod exif;
mod facts;
mod jpeg;
mod open;
#[cfg(test)]
mod sample;
mod smaller;
mod unreadable;

pub use decode::{decoded, scaled};
pub use facts::{Facts, Kind, Taken, TakenBy, facts};
pub use unreadable::Unreadable;

/// The largest file that is read, in bytes.
pub const MOST_BYTES: u64 = 200_000_000;

/// The most pixels that a picture may have: what an A3 page has at 600 dots per inch, and more.
pub const MOST_PIXELS: u64 = 100_000_000;

/// The most memory that a picture may take while it is decoded, in bytes: an A3 page at 600 dots per inch with 16 bits
/// a channel, and more.
pub const MOST_MEMORY: u64 = 512 << 20;

/// A main colour of a picture, as a proposal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proposal {
    /// Red, green and blue.
    pub rgb: [u8; 3],
    /// How much of what is worn it takes.
    pub share: f32,
}

/// For now.
pub fn main_colours(pixels: &crate::picture::Pixels) -> Vec<Proposal> {
    pixels.at(0, 0).map(|rgb| Proposal { rgb, share: 1.0 }).into_iter().collect()
}

/// For now.
#[derive(Clone, Debug, PartialEq)]
pub struct Fingerprint(Vec<u8>);

/// For now.
pub const ALIKE: u32 = 10;

impl Fingerprint {
    /// For now.
    pub fn of(pixels: &crate::picture::Pixels) -> Self {
        Self(scaled(pixels.clone(), (8, 8)).rgba)
    }

    /// For now.
    pub fn apart(&self, other: &Self) -> u32 {
        self.0.iter().zip(&other.0).map(|(one, other)| u32::from(one.abs_diff(*other))).max().unwrap_or(0)
    }
}
