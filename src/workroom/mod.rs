//! What turns looks into clothes that can be made, worn, and worn again.
//!
//! | module | what it reckons |
//! |---|---|
//! | [`copies`] | how many of one version are needed, and where each is on each day |
//! | [`fit`] | whether a body measure can be right, and whether a garment leaves room for the body |

pub mod copies;
pub mod fit;
