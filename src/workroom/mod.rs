//! What turns looks into clothes that can be made, worn, and worn again.
//!
//! | module | what it reckons |
//! |---|---|
//! | [`fit`] | from the original's body to another: each measure with its rule, and doubts about it |
//! | [`copies`] | how many of each version are needed and why, and where each is on each day |
//! | [`cloth`] | lengths to buy, trials, colour against the source, print files |
//! | [`cost`] | what looks cost, and what that is made of |
//! | [`asks`] | whom to ask before something is done in something |
//! | [`words`] | all of it in words, with the figures that each number is made of |

pub mod asks;
pub mod cloth;
pub mod copies;
pub mod cost;
pub mod fit;
pub mod words;
