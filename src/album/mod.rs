//! The pictures that a board's folder holds: found where a record names them, and never outside the folder; read within
//! limits. Where there is none, the flat of the record stands in, and says so.
//!
//! Whoever shows a picture asks here: the screen, reports, the poster. Nothing here draws or prints.

mod file;

pub use file::Unseen;

use std::path::{Path, PathBuf};

use crate::board::PicturePath;
use crate::picture::{Pixels, photo};

/// The pictures of one board's folder.
#[derive(Clone, Debug)]
pub struct Album {
    folder: PathBuf,
}

impl Album {
    /// The pictures below a board's folder.
    pub fn of(folder: &Path) -> Self {
        Self { folder: folder.to_path_buf() }
    }

    /// The bytes of a picture's file.
    ///
    /// # Errors
    /// [`Unseen`] says why there is nothing to see.
    pub fn bytes(&self, path: &PicturePath) -> Result<Vec<u8>, Unseen> {
        file::bytes(&self.folder, path)
    }

    /// A picture upright, as large as fits into `within` (width, height) pixels but never larger than it is.
    ///
    /// # Errors
    /// [`Unseen`] says why there is nothing to see.
    pub fn pixels(&self, path: &PicturePath, within: (u32, u32)) -> Result<Pixels, Unseen> {
        Ok(photo::decoded(&self.bytes(path)?, within)?)
    }
}
