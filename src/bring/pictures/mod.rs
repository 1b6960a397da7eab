//! A folder of scans, brought in: each picture a draft of an outfit, or one more source of an outfit that is there.
//!
//! Every file is looked at by itself ([`Scan`]): what its name says, what the file says of itself, what it is like, its
//! main colours. Then all are compared with each other and with the pictures of the board, and become one edit and a list
//! of files to be copied into `images/`. A file that the board has already, byte for byte, changes nothing, so that a
//! folder can be brought in again when there is more in it.
//!
//! The day that a file tells of itself is that on which it was scanned or taken. It is told beside the day worn and
//! becomes that only where somebody says so.

mod copies;
mod folder;
mod groups;
mod hung;
mod made;
mod name;
mod scan;
#[cfg(test)]
mod tests;

pub use copies::{Copying, Lying, NotCopied, copy, lying, take_back};
pub use folder::{FILES, FolderError, file_name, files};
pub use groups::{Kin, Why};
pub use hung::{Hung, hung};
pub use made::{Brought, Place, Told, own_day_words};
pub use name::Named;
pub use scan::{Content, Scan, Scanned, scanned};

use crate::board::CharacterId;

/// What is asked of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wanted {
    /// Whose outfits the drafts are.
    pub character: CharacterId,
    /// Whether a file's own day is the day worn, where its name says none.
    pub own_day_is_worn: bool,
    /// Whether drafts get a piece with the colours of their picture.
    pub take_colours: bool,
}
