//! From bodies to clothes: whether a measure can be right, and whether a garment leaves room for the body.
//!
//! | module | what it reckons |
//! |---|---|
//! | [`plausible`] | doubts about measures: outside all that was published, at odds with each other, in the wrong unit |
//! | [`ease`] | the room that a woven garment needs at least, as published |

pub mod ease;
pub mod plausible;
