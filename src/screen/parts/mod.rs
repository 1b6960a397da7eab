//! Small reusable pieces of screens: a line of text to type in, a list to move in, a meter, a swatch.

pub mod grouped;
pub mod input;
pub mod list;
pub mod matching;
pub mod meter;
pub mod pictures;
pub mod record;
pub mod swatch;
pub mod window;
