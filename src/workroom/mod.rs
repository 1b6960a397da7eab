//! What turns looks into clothes that can be made, worn, and worn again.
//!
//! | module | what it reckons |
//! |---|---|
//! | [`copies`] | how many of one version are needed, and where each is on each day |

pub mod copies;
