//! Small copies of pictures in the user's own cache, so that a scan is decoded at its full size once.
//!
//! A copy is named by what its picture is: its path in the folder, and what the system says of its file. A picture
//! that changes has another copy, and the old one goes with the rest that is too much. Nothing here is missed if it is
//! lost; what cannot be written or read is made anew.

use std::fs::{self, Metadata};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::SystemTime;

use crate::board::PicturePath;
use crate::picture::{Pixels, photo};
use crate::store::Stamp;

/// The longest sides of copies, in pixels: of a card, of a picture beside a record, of one that fills the screen.
const SIZES: [u32; 4] = [320, 640, 1280, 2560];

/// The most that copies take together, in bytes.
const MOST: u64 = 256_000_000;

/// After so many new copies the cache is looked through.
const OFTEN: u32 = 200;

/// How good a copy is, of 100.
const QUALITY: u8 = 88;

/// The size of copy that is large enough for this; `None` where the picture itself must be looked at.
pub(super) fn size_for(within: (u32, u32)) -> Option<u32> {
    SIZES.into_iter().find(|size| *size >= within.0.max(within.1))
}

/// Where copies are kept.
#[derive(Debug)]
pub(super) struct Thumbs {
    folder: PathBuf,
    made: AtomicU32,
}

impl Thumbs {
    /// In a folder, which need not be there yet.
    pub fn within(folder: PathBuf) -> Self {
        Self { folder, made: AtomicU32::new(0) }
    }

    fn file(&self, path: &PicturePath, stamp: Stamp, size: u32) -> PathBuf {
        let mut hasher = DefaultHasher::new();
        (path, stamp).hash(&mut hasher);
        self.folder.join(format!("{:016x}-{size}.jpg", hasher.finish()))
    }

    /// The copy of this size, if there is one that can be read.
    pub fn get(&self, path: &PicturePath, stamp: Stamp, size: u32, within: (u32, u32)) -> Option<Pixels> {
        let bytes = fs::read(self.file(path, stamp, size)).ok()?;
        photo::decoded(&bytes, within).ok()
    }

    /// Keeps a copy, as well as can be.
    pub fn put(&self, path: &PicturePath, stamp: Stamp, size: u32, pixels: &Pixels) {
        // A file that was written just now may be another by the same stamp; and what shows through would be lost.
        if !stamp.is_settled() || pixels.rgba.chunks_exact(4).any(|pixel| pixel[3] != u8::MAX) {
            return;
        }
        let count = self.made.fetch_add(1, Ordering::Relaxed);
        let Ok(jpeg) = photo::jpeg(pixels, QUALITY) else { return };
        let name = self.file(path, stamp, size);
        // Another program, or another thread, may be making the same copy.
        let draft = name.with_extension(format!("{}-{count}.part", std::process::id()));
        let written = fs::create_dir_all(&self.folder)
            .and_then(|()| fs::write(&draft, jpeg))
            .and_then(|()| fs::rename(&draft, &name));
        if written.is_err() {
            let _ = fs::remove_file(&draft);
        }
        if count.is_multiple_of(OFTEN) {
            thin_out(&self.folder, MOST);
        }
    }
}

/// Takes away the oldest files until no more than three quarters of the bound are left, if it is passed.
fn thin_out(folder: &Path, most: u64) {
    let Ok(listing) = fs::read_dir(folder) else { return };
    let mut files: Vec<(Option<SystemTime>, u64, PathBuf)> = listing
        .flatten()
        .filter_map(|entry| {
            let facts = entry.metadata().ok().filter(Metadata::is_file)?;
            Some((facts.modified().ok(), facts.len(), entry.path()))
        })
        .collect();
    let mut sum: u64 = files.iter().map(|(_, length, _)| length).sum();
    if sum <= most {
        return;
    }
    files.sort();
    for (_, length, path) in files {
        if sum <= most / 4 * 3 {
            break;
        }
        if fs::remove_file(path).is_ok() {
            sum = sum.saturating_sub(length);
        }
    }
}

#[cfg(test)]
mod tests {
    use std::time::{Duration, SystemTime, UNIX_EPOCH};

    use super::*;

    fn plain(width: u32, height: u32) -> Pixels {
        Pixels { width, height, rgba: [200, 40, 40, 255].repeat((width * height) as usize) }
    }

    /// Of a file of so many bytes that was written a minute ago.
    fn stamp(length: usize) -> Stamp {
        let file = tempfile::NamedTempFile::new().unwrap();
        fs::write(file.path(), vec![0; length]).unwrap();
        let then = SystemTime::now() - Duration::from_secs(60);
        file.as_file().set_modified(then).unwrap();
        Stamp::of(&fs::metadata(file.path()).unwrap())
    }

    #[test]
    fn a_copy_is_found_again_and_only_for_the_same_picture() {
        let folder = tempfile::tempdir().unwrap();
        let thumbs = Thumbs::within(folder.path().join("thumbs"));
        let path: PicturePath = "images/a.jpg".parse().unwrap();
        let (one, other) = (stamp(1), stamp(2));
        assert_eq!(thumbs.get(&path, one, 320, (320, 320)), None);
        thumbs.put(&path, one, 320, &plain(32, 24));
        let found = thumbs.get(&path, one, 320, (320, 320)).unwrap();
        assert_eq!((found.width, found.height), (32, 24));
        assert_eq!(thumbs.get(&path, other, 320, (320, 320)), None);
        assert_eq!(thumbs.get(&path, one, 640, (320, 320)), None);
    }

    #[test]
    fn a_damaged_copy_counts_as_none() {
        let folder = tempfile::tempdir().unwrap();
        let thumbs = Thumbs::within(folder.path().to_owned());
        let path: PicturePath = "images/a.jpg".parse().unwrap();
        let one = stamp(1);
        fs::write(thumbs.file(&path, one, 320), b"\xff\xd8 and no more").unwrap();
        assert_eq!(thumbs.get(&path, one, 320, (320, 320)), None);
    }

    #[test]
    fn the_oldest_copies_go_when_there_are_too_many() {
        let folder = tempfile::tempdir().unwrap();
        for (at, name) in ["old", "middle", "new", "newest"].into_iter().enumerate() {
            let path = folder.path().join(name);
            fs::write(&path, [0; 100]).unwrap();
            let when = UNIX_EPOCH + Duration::from_secs(1_000 + at as u64);
            fs::File::options().append(true).open(&path).unwrap().set_modified(when).unwrap();
        }
        thin_out(folder.path(), 400);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 4);
        thin_out(folder.path(), 399);
        let left = |name: &str| folder.path().join(name).exists();
        assert_eq!((left("old"), left("middle"), left("new"), left("newest")), (false, false, true, true));
    }
}
