//! The pictures that a board's folder holds: found where a record names them, and never outside the folder; read within
//! limits, and kept small in the user's own cache.
//!
//! Whoever shows a picture asks here: the screen, reports, the poster. Nothing here draws or prints.

mod file;
mod thumbs;

pub use crate::store::Stamp;
pub use file::Unseen;

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use crate::board::PicturePath;
use crate::check::Sight;
use crate::picture::{Pixels, photo};
use thumbs::Thumbs;

/// The pictures of one board's folder. Threads may share it.
#[derive(Debug)]
pub struct Album {
    folder: PathBuf,
    thumbs: Option<Thumbs>,
    /// What could not be shown, so that a large and broken file is not read again and again.
    failed: Mutex<HashMap<PicturePath, (Stamp, Unseen)>>,
}

impl Album {
    /// The pictures below a board's folder.
    pub fn of(folder: &Path) -> Self {
        Self { folder: folder.to_path_buf(), thumbs: None, failed: Mutex::default() }
    }

    /// The same, with small copies kept in a folder of the user's own, which need not be there yet.
    #[must_use]
    pub fn keeping_copies(self, folder: PathBuf) -> Self {
        Self { thumbs: Some(Thumbs::within(folder)), ..self }
    }

    /// The bytes of a picture's file.
    ///
    /// # Errors
    /// [`Unseen`] says why there is nothing to see.
    pub fn bytes(&self, path: &PicturePath) -> Result<Vec<u8>, Unseen> {
        file::Found::of(&self.folder, path)?.bytes()
    }

    /// Which file a picture is, as long as nobody writes to it.
    ///
    /// # Errors
    /// [`Unseen`] says why there is nothing to see.
    pub fn stamp(&self, path: &PicturePath) -> Result<Stamp, Unseen> {
        Ok(file::Found::of(&self.folder, path)?.stamp)
    }

    /// What is known of a picture's file without reading it.
    pub fn sight(&self, path: &PicturePath) -> Sight {
        match self.stamp(path) {
            Ok(_) => Sight::There,
            Err(Unseen::Missing) => Sight::Missing,
            Err(unseen) => Sight::Unseen(unseen.to_string()),
        }
    }

    /// How many bytes a picture's file has.
    ///
    /// # Errors
    /// [`Unseen`] says why there is nothing to see.
    pub fn length(&self, path: &PicturePath) -> Result<u64, Unseen> {
        Ok(file::Found::of(&self.folder, path)?.stamp.length())
    }

    /// Whether nothing lies at a path, not even a link that leads nowhere.
    pub fn is_free(&self, path: &PicturePath) -> bool {
        std::fs::symlink_metadata(self.folder.join(path.as_str())).is_err()
    }

    /// Puts a file into the folder, at a path where nothing lies.
    ///
    /// # Errors
    /// What the system says; where something lies there by now, nothing is overwritten.
    pub fn add(&self, path: &PicturePath, bytes: &[u8]) -> std::io::Result<()> {
        file::add(&self.folder, path, bytes)
    }

    /// Takes away what was added; best effort, for when what it was added for cannot be done.
    pub fn take_back(&self, path: &PicturePath) {
        // Left behind at worst: no record names it.
        let _ = std::fs::remove_file(self.folder.join(path.as_str()));
    }

    /// A picture upright, as large as fits into `within` (width, height) pixels but never larger than it is, from its
    /// file.
    ///
    /// # Errors
    /// [`Unseen`] says why there is nothing to see.
    pub fn pixels(&self, path: &PicturePath, within: (u32, u32)) -> Result<Pixels, Unseen> {
        Ok(photo::decoded(&self.bytes(path)?, within)?)
    }

    /// The same, from a small copy where there is one; else one is made.
    ///
    /// # Errors
    /// [`Unseen`] says why there is nothing to see.
    pub fn small(&self, path: &PicturePath, within: (u32, u32)) -> Result<Pixels, Unseen> {
        let found = file::Found::of(&self.folder, path)?;
        if let Some(why) = self.has_failed(path, found.stamp) {
            return Err(why);
        }
        self.copied(&found, path, within).inspect_err(|why| {
            // What the system refused it may give a moment later, and no stamp tells of that.
            if !matches!(why, Unseen::Unreadable(_)) {
                return;
            }
            let mut failed = self.failed.lock().unwrap_or_else(PoisonError::into_inner);
            failed.insert(path.clone(), (found.stamp, why.clone()));
        })
    }

    fn copied(&self, found: &file::Found, path: &PicturePath, within: (u32, u32)) -> Result<Pixels, Unseen> {
        let (Some(thumbs), Some(size)) = (&self.thumbs, thumbs::size_for(within)) else {
            return Ok(photo::decoded(&found.bytes()?, within)?);
        };
        if let Some(pixels) = thumbs.get(path, found.stamp, size, within) {
            return Ok(pixels);
        }
        let copy = photo::decoded(&found.bytes()?, (size, size))?;
        thumbs.put(path, found.stamp, size, &copy);
        Ok(photo::scaled(copy, within))
    }

    fn has_failed(&self, path: &PicturePath, stamp: Stamp) -> Option<Unseen> {
        let failed = self.failed.lock().unwrap_or_else(PoisonError::into_inner);
        failed.get(path).filter(|(at, _)| *at == stamp).map(|(_, why)| why.clone())
    }
}
