//! Why a folder would not open, or an edit would not be saved.

use std::io;
use std::path::{Path, PathBuf};

use super::fault::{Fault, clean};
use crate::board::Refused;
use crate::board::head::FORMAT;

/// Why a folder is not open.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StoreError {
    /// There is no `board.yaml`.
    #[error("{} is no board: there is no board.yaml in it", shown(.0))]
    NoBoard(PathBuf),
    /// What was named is a file.
    #[error("{} is a file, not a board's folder", shown(.0))]
    NoFolder(PathBuf),
    /// `board.yaml` cannot be read, and without it nothing can.
    #[error("{0}")]
    Damaged(Box<Fault>),
    /// The board was written by another version of this program.
    #[error("board.yaml says `shirr: {found}`; this program reads version {FORMAT}")]
    Version {
        /// What it says.
        found: String,
    },
    /// A new board would go where something is already.
    #[error("{} is not empty, so no new board goes there", shown(.0))]
    NotEmpty(PathBuf),
    /// A starter file would go outside of the new folder.
    #[error("`{0}` is no path for a board's file")]
    BadPath(String),
    /// This user has no home directory, so there is no place for the history.
    #[error("there is no home directory to keep the history of changes in")]
    NoHome,
    /// The system refused.
    #[error("{}: {what}: {source}", shown(.path))]
    Io {
        /// Which file or folder.
        path: PathBuf,
        /// What was being done.
        what: &'static str,
        /// What the system said.
        source: io::Error,
    },
}

impl StoreError {
    pub(super) fn io(path: &Path, what: &'static str) -> impl FnOnce(io::Error) -> Self + use<> {
        let path = path.to_path_buf();
        move |source| Self::Io { path, what, source }
    }

    /// What to do about it.
    pub fn hint(&self) -> Option<String> {
        match self {
            Self::NoBoard(_) => Some("name a board's folder, or start one in a new folder".to_owned()),
            Self::NoFolder(_) => {
                Some("a board is a folder: name the one that holds its board.yaml".to_owned())
            }
            // The fault's own hint is in its text already.
            Self::Damaged(_) => {
                Some("repair the file in any text editor, then open the board again".to_owned())
            }
            Self::Version { .. } => Some("open it with the version of shirr that wrote it".to_owned()),
            Self::NotEmpty(_) => Some("name a folder that does not exist yet, or an empty one".to_owned()),
            Self::BadPath(_) => None,
            Self::NoHome => Some("set HOME, or XDG_STATE_HOME".to_owned()),
            Self::Io { source, .. } => io_hint(source),
        }
    }
}

/// Why an edit is not saved. The board is as it was.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum EditError {
    /// The board would not take it; see [`Refused::Clash`] for what can be settled with a
    /// [`Side`](crate::board::Side).
    #[error(transparent)]
    Refused(#[from] Refused),
    /// The file that it would change cannot be read, so it is left alone.
    #[error("the file is left alone until it can be read again: {0}")]
    Damaged(Box<Fault>),
    /// What was written would not read back, so it was not written.
    #[error("{record} cannot be written: {why}")]
    Unwritable {
        /// Which record.
        record: String,
        /// What stood in the way.
        why: String,
    },
    /// Other hands kept writing the same files.
    #[error("other programs keep writing the same files")]
    Contended,
    /// The system refused.
    #[error("{}: {what}: {source}", shown(.path))]
    Io {
        /// Which file or folder.
        path: PathBuf,
        /// What was being done.
        what: &'static str,
        /// What the system said.
        source: io::Error,
    },
}

impl EditError {
    pub(super) fn io(path: &Path, what: &'static str) -> impl FnOnce(io::Error) -> Self + use<> {
        let path = path.to_path_buf();
        move |source| Self::Io { path, what, source }
    }

    /// What to do about it.
    pub fn hint(&self) -> Option<String> {
        match self {
            Self::Refused(Refused::Clash(_)) => Some("choose which side to keep".to_owned()),
            Self::Refused(_) => None,
            Self::Damaged(_) => {
                Some("repair the file in any text editor; the board takes it in at once".to_owned())
            }
            Self::Unwritable { .. } => None,
            Self::Contended => Some("try again in a moment".to_owned()),
            Self::Io { source, .. } => io_hint(source),
        }
    }
}

fn io_hint(source: &io::Error) -> Option<String> {
    let hint = match source.kind() {
        io::ErrorKind::PermissionDenied => "you may not write there: ask whoever owns the folder",
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => {
            "the disk is full: make room and try again"
        }
        io::ErrorKind::ReadOnlyFilesystem => "the disk is mounted read-only",
        io::ErrorKind::NotFound => "has the folder been moved, or the drive taken away?",
        _ => return None,
    };
    Some(hint.to_owned())
}

fn shown(path: &Path) -> String {
    clean(&path.display().to_string(), 400)
}
