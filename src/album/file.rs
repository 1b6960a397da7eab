//! A picture's file, opened inside the board's folder and nowhere else.

use std::fs::{self, File};
use std::io::Read;
use std::path::Path;

use crate::board::PicturePath;
use crate::picture::photo::{MOST_BYTES, Unreadable};

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

/// All bytes of a picture's file.
pub(super) fn bytes(folder: &Path, path: &PicturePath) -> Result<Vec<u8>, Unseen> {
    let refused = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::NotFound => Unseen::Missing,
        _ => Unseen::Refused(error.to_string()),
    };
    let inside = fs::canonicalize(folder).map_err(refused)?;
    let named = fs::canonicalize(folder.join(path.as_str())).map_err(refused)?;
    if !named.starts_with(&inside) {
        return Err(Unseen::Outside);
    }
    // Looked at before it is opened: opening a pipe would wait for whoever writes into it.
    if !fs::metadata(&named).map_err(refused)?.is_file() {
        return Err(Unseen::NoFile);
    }
    let file = File::open(&named).map_err(refused)?;
    let length = file.metadata().map_err(refused)?.len();
    if length > MOST_BYTES {
        return Err(Unseen::TooLarge);
    }
    let mut bytes = Vec::new();
    // It may grow while it is read.
    file.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(refused)?;
    if bytes.len() as u64 > MOST_BYTES { Err(Unseen::TooLarge) } else { Ok(bytes) }
}
