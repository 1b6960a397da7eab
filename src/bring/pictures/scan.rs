//! One file, looked at.

use std::panic::{self, AssertUnwindSafe};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

use super::name::Named;
use crate::bring::file;
use crate::picture::photo::{self, Facts, Likeness, MOST_BYTES, Unreadable};
use crate::store::Print;
use crate::trade::plain;

/// Pixels on the longer side that a picture is looked at in.
pub(super) const SIDE: u32 = 320;

/// What was found out about a picture's file.
#[derive(Clone, Debug)]
pub struct Scan {
    /// Where it lies.
    pub file: PathBuf,
    /// What its name says.
    pub named: Named,
    /// What it says of itself.
    pub facts: Facts,
    /// Its bytes, as far as two files are told apart.
    pub content: Content,
    /// What it is like.
    pub likeness: Option<Likeness>,
    /// Its main colours, the largest first.
    pub colours: Vec<[u8; 3]>,
}

/// A file's length and a print of its bytes, under keys that only this run of the program has: two files that differ
/// are not taken for one, even when somebody tries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Content(Print);

impl Content {
    /// Of bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Print::of(bytes))
    }

    /// How many bytes it has.
    pub fn length(self) -> u64 {
        self.0.length() as u64
    }
}

/// A file that was looked at, or why there is nothing to be seen.
pub type Scanned = Result<Scan, (PathBuf, String)>;

/// Looks at files, several at a time. They come back in the order given.
pub fn scanned(files: &[PathBuf]) -> Vec<Scanned> {
    let next = AtomicUsize::new(0);
    let found: Mutex<Vec<(usize, Scanned)>> = Mutex::new(Vec::with_capacity(files.len()));
    let work = || {
        while let Some((at, file)) = {
            let at = next.fetch_add(1, Ordering::Relaxed);
            files.get(at).map(|file| (at, file))
        } {
            let scan = survived(file, scan);
            found.lock().unwrap_or_else(PoisonError::into_inner).push((at, scan));
        }
    };
    let threads = thread::available_parallelism().map_or(1, usize::from).min(4);
    thread::scope(|scope| {
        for _ in 1..threads {
            scope.spawn(work);
        }
        work();
    });
    let mut found = found.into_inner().unwrap_or_else(PoisonError::into_inner);
    found.sort_by_key(|(at, _)| *at);
    found.into_iter().map(|(_, scan)| scan).collect()
}

/// One broken file must not end the work on all: a decoding library that gives up on it has said that it is broken.
fn survived(file: &Path, scan: impl FnOnce(&Path) -> Scanned) -> Scanned {
    panic::catch_unwind(AssertUnwindSafe(|| scan(file)))
        .unwrap_or_else(|_| Err((file.to_path_buf(), "it cannot be read: the file is damaged".to_owned())))
}

fn scan(file: &Path) -> Scanned {
    let wrong = |why: String| (file.to_path_buf(), why);
    let bytes = file::bytes(file, MOST_BYTES).map_err(|error| wrong(format!("cannot be read: {error}")))?;
    let bytes = bytes.ok_or_else(|| wrong("is no file".to_owned()))?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(wrong(format!("is larger than {} MB, the most that is read", MOST_BYTES / 1_000_000)));
    }
    let unreadable = |why: Unreadable| wrong(why.to_string());
    let facts = photo::facts(&bytes).map_err(unreadable)?;
    let pixels = photo::decoded(&bytes, (SIDE, SIDE)).map_err(unreadable)?;
    let stem = file.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    Ok(Scan {
        file: file.to_path_buf(),
        named: Named::of(&plain::line(&stem)),
        facts,
        content: Content::of(&bytes),
        likeness: Likeness::of(&pixels),
        colours: photo::main_colours(&pixels).iter().map(|proposal| proposal.rgb).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_on_which_a_library_gives_up_is_told_as_damaged() {
        let (file, why) = survived(Path::new("a.jpg"), |_| panic!("index out of bounds")).unwrap_err();
        assert_eq!(file, Path::new("a.jpg"));
        assert_eq!(why, "it cannot be read: the file is damaged");
    }

    #[test]
    fn contents_of_one_length_are_told_apart() {
        assert_eq!(Content::of(b"wool"), Content::of(b"wool"));
        assert_ne!(Content::of(b"wool"), Content::of(b"woof"));
        assert_eq!(Content::of(b"wool").length(), 4);
    }
}
