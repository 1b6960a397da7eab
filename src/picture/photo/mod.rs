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
//! | `colours` | the main colours of what is seen, as a proposal |
//! | `likeness` | whether two files show the same picture |
//! | `write` | pixels to a file's bytes |
//! | `unreadable` | why there is no picture, in words |

mod colours;
mod decode;
mod exif;
mod facts;
#[cfg(test)]
mod hostile;
mod jpeg;
mod likeness;
mod open;
#[cfg(test)]
mod sample;
mod smaller;
mod unreadable;
mod write;

pub use colours::{Proposal, main_colours};
pub use decode::{decoded, scaled};
pub use facts::{Facts, Kind, Taken, TakenBy, facts};
pub use likeness::{ALIKE, Likeness};
pub use unreadable::Unreadable;
pub use write::{Unwritten, jpeg, png};

/// The largest file that is read, in bytes.
pub const MOST_BYTES: u64 = 200_000_000;

/// The most pixels that a picture may have: what an A3 page has at 600 dots per inch, and more.
pub const MOST_PIXELS: u64 = 100_000_000;

/// The most memory that a picture may take while it is decoded, in bytes: an A3 page at 600 dots per inch with 16 bits
/// a channel, and more.
pub const MOST_MEMORY: u64 = 512 << 20;
