//! Board ⇄ folder.
//!
//! [`read`] looks at a folder and changes nothing; [`OpenBoard`] is a folder that is being worked on: every edit is
//! in the history log before it is in the files, other hands' changes are taken in live, and what a crash left half
//! done is finished at the next opening. [`create()`] starts a new folder.
//!
//! Nothing here rests on a lock in the folder, since folders are shared. Nothing here knows a screen: what there is
//! to say comes back as [`Fault`]s and [`News`].

mod bookmark;
mod create;
mod error;
mod explain;
mod fault;
mod guard;
mod header;
mod history;
mod layout;
mod listing;
pub(crate) mod nearest;
mod news;
mod open;
mod outside;
mod places;
mod references;
mod replace;
mod replay;
mod saving;
mod sheet;
mod shelf;
mod stamp;
mod swap;
mod text;
mod trail;
mod turn;
mod usual;
mod watch;
mod yaml;

pub use create::{create, head_as};
pub use error::{EditError, StoreError};
pub use fault::{Fault, FaultKind, Position};
pub use news::{News, NewsKind};
pub use open::OpenBoard;
pub use places::Places;
pub(crate) use stamp::Print;
pub use stamp::Stamp;
pub use watch::Watcher;

use std::path::Path;

use crate::board::Board;
use shelf::Shelf;

/// What a folder holds.
#[derive(Debug)]
pub struct Reading {
    /// Everything that could be read.
    pub board: Board,
    /// What could not, and references that lead nowhere; the files in order.
    pub faults: Vec<Fault>,
}

/// Reads a folder and changes nothing.
///
/// # Errors
/// [`StoreError`] where there is no board, or its `board.yaml` cannot be read. Damaged records are
/// [faults](Reading::faults) instead.
pub fn read(folder: &Path) -> Result<Reading, StoreError> {
    let (shelf, records) = Shelf::open(folder)?;
    let board = usual::board_of(records);
    let references = references::faults(&board, &shelf.folder, &|file| shelf.damaged.contains_key(file));
    Ok(Reading { board, faults: shelf.faults(&references) })
}
