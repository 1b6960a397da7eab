//! A picture's file, opened inside the board's folder and nowhere else.

use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use crate::board::PicturePath;
use crate::picture::photo::{MOST_BYTES, Unreadable};
use crate::store::Stamp;

/// Why there is nothing to see.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unseen {
    /// No such file.
    #[error("no such file in the board's folder")]
    Missing,
    /// A link leads elsewhere.
    #[error("a link leads out of the board's folder; only what lies in it is shown")]
    Outside,
    /// A folder, a device, a pipe.
    #[error("this is no file")]
    NoFile,
    /// Too many bytes.
    #[error("the file is larger than {} MB, the most that is read", MOST_BYTES / 1_000_000)]
    TooLarge,
    /// The system would not.
    #[error("it cannot be read: {0}")]
    Refused(String),
    /// It is no picture, or a broken one.
    #[error(transparent)]
    Unreadable(#[from] Unreadable),
}

/// A file inside the folder, looked at but not yet read.
pub(super) struct Found {
    path: PathBuf,
    pub stamp: Stamp,
}

impl Found {
    /// What a path names in a folder, with all links followed.
    pub fn of(folder: &Path, path: &PicturePath) -> Result<Self, Unseen> {
        let inside = fs::canonicalize(folder).map_err(refused)?;
        let named = fs::canonicalize(folder.join(path.as_str())).map_err(refused)?;
        if !named.starts_with(&inside) {
            return Err(Unseen::Outside);
        }
        // Looked at before it is opened: opening a pipe would wait for whoever writes into it.
        let facts = fs::metadata(&named).map_err(refused)?;
        if !facts.is_file() {
            return Err(Unseen::NoFile);
        }
        if facts.len() > MOST_BYTES {
            return Err(Unseen::TooLarge);
        }
        Ok(Self { path: named, stamp: Stamp::of(&facts) })
    }

    /// All its bytes.
    pub fn bytes(&self) -> Result<Vec<u8>, Unseen> {
        let mut bytes = Vec::new();
        let file = File::open(&self.path).map_err(refused)?;
        // It may have grown since it was looked at, or grow while it is read.
        file.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(refused)?;
        if bytes.len() as u64 > MOST_BYTES { Err(Unseen::TooLarge) } else { Ok(bytes) }
    }
}

/// Writes a file inside the folder, at a path where nothing lies, and sees that it is on the disk.
pub(super) fn add(folder: &Path, path: &PicturePath, bytes: &[u8]) -> io::Result<()> {
    let file = folder.join(path.as_str());
    if let Some(parent) = file.parent() {
        fs::create_dir_all(parent)?;
        if !fs::canonicalize(parent)?.starts_with(fs::canonicalize(folder)?) {
            return Err(io::Error::other("a link leads out of the board's folder"));
        }
    }
    let mut to = File::options().write(true).create_new(true).open(&file)?;
    let written = to.write_all(bytes).and_then(|()| to.sync_all());
    if written.is_err() {
        // Half a picture is worse than none.
        let _ = fs::remove_file(&file);
    }
    written
}

fn refused(error: io::Error) -> Unseen {
    match error.kind() {
        io::ErrorKind::NotFound => Unseen::Missing,
        _ => Unseen::Refused(error.to_string()),
    }
}
