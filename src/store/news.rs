//! What other hands did to the folder, in words for the status line.

use crate::board::RecordRef;

/// One thing that happened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct News {
    /// In a sentence, safe to print.
    pub text: String,
    /// What kind of news.
    pub kind: NewsKind,
    /// The records that it concerns.
    pub records: Vec<RecordRef>,
}

/// What kind of news.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NewsKind {
    /// Records were changed, added or removed outside and are taken in.
    TakenIn,
    /// A file can no longer be read.
    Damaged,
    /// A file can be read again.
    Repaired,
    /// The folder itself is out of reach.
    Unreachable,
}
