//! Picture: what is seen of a record or a picture file. Computations on records and bytes alone: no file, no screen and
//! no report is known here.
//!
//! | module | what it is |
//! |---|---|
//! | [`flat`] | a technical drawing made from a record's words |
//! | [`photo`] | a picture file's bytes to upright pixels, within limits; what it says of itself; its main colours; what it is like |
//! | [`pixels`] | what both come to |

pub mod flat;
pub mod photo;
pub mod pixels;

pub use pixels::Pixels;
