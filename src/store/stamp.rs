//! What is remembered of a file: enough to see that it changed.
//!
//! A [`Stamp`] is what the system says without opening the file: cheap, and a reason to look again. A [`Print`] is
//! what decides. It is the length and 128 bits of SipHash under keys that are drawn at random when the program starts
//! and never leave it: two different texts have the same print with a chance of 2⁻¹²⁸, even when somebody tries.
//! Keeping the texts instead would double the memory of a board.

use std::collections::hash_map::RandomState;
use std::fs::Metadata;
use std::hash::{BuildHasher, Hasher};
use std::sync::OnceLock;
use std::time::{Duration, SystemTime};

/// Length and hash of a file's bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Print {
    length: usize,
    halves: [u64; 2],
}

impl Print {
    /// Of these bytes.
    pub(crate) fn of(bytes: &[u8]) -> Self {
        static KEYS: OnceLock<[RandomState; 2]> = OnceLock::new();
        let keys = KEYS.get_or_init(|| [RandomState::new(), RandomState::new()]);
        let half = |key: &RandomState| {
            let mut hasher = key.build_hasher();
            hasher.write(bytes);
            hasher.finish()
        };
        Self { length: bytes.len(), halves: [half(&keys[0]), half(&keys[1])] }
    }

    /// How many bytes there were.
    pub(crate) fn length(&self) -> usize {
        self.length
    }
}

/// What the system says of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Stamp {
    modified: Option<SystemTime>,
    length: u64,
    /// Inode and time of the last change of anything, where the system has them.
    system: (u64, i64, i64),
}

/// A file that was written less than this before it was looked at may be written again without a new stamp: drives
/// keep times to two seconds at worst (common practice, no source).
pub(super) const GRAIN: Duration = Duration::from_secs(3);

impl Stamp {
    /// From what the system says.
    pub fn of(metadata: &Metadata) -> Self {
        Self { modified: metadata.modified().ok(), length: metadata.len(), system: system(metadata) }
    }

    /// How many bytes the file has.
    pub fn length(&self) -> u64 {
        self.length
    }

    /// Whether an equal stamp later will mean an unchanged file.
    pub fn is_settled(&self) -> bool {
        let age = self.modified.and_then(|modified| SystemTime::now().duration_since(modified).ok());
        age.is_some_and(|age| age > GRAIN)
    }
}

#[cfg(unix)]
fn system(metadata: &Metadata) -> (u64, i64, i64) {
    use std::os::unix::fs::MetadataExt;
    (metadata.ino(), metadata.ctime(), metadata.ctime_nsec())
}

#[cfg(not(unix))]
fn system(_metadata: &Metadata) -> (u64, i64, i64) {
    (0, 0, 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prints_tell_texts_apart() {
        assert_eq!(Print::of(b"wool"), Print::of(b"wool"));
        assert_ne!(Print::of(b"wool"), Print::of(b"woof"));
        assert_ne!(Print::of(b""), Print::of(b"\0"));
    }

    #[test]
    fn a_file_written_just_now_is_not_settled() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("x");
        std::fs::write(&path, "x").unwrap();
        assert!(!Stamp::of(&std::fs::metadata(&path).unwrap()).is_settled());
        let file = std::fs::File::options().write(true).open(&path).unwrap();
        file.set_modified(SystemTime::now() - Duration::from_secs(60)).unwrap();
        assert!(Stamp::of(&std::fs::metadata(&path).unwrap()).is_settled());
    }
}
