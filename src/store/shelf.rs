//! The board's files as they were last seen: which are there, what their bytes were, which cannot be read.
//!
//! It holds no texts and no records, only enough to see a change.

use std::collections::{BTreeMap, HashMap};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, PoisonError};

use super::error::StoreError;
use super::fault::{Fault, FaultKind};
use super::layout::{BoardFile, Content};
use super::listing::Listing;
use super::sheet::{Closed, Sheet};
use super::stamp::{Print, Stamp};
use super::yaml;
use crate::board::head::FORMAT;
use crate::board::{Head, Records};

/// The files of a folder as they were last seen.
#[derive(Debug)]
pub(super) struct Shelf {
    /// The board's folder, without links or dots.
    pub folder: PathBuf,
    /// What could be read.
    pub known: HashMap<BoardFile, Known>,
    /// What cannot.
    pub damaged: BTreeMap<BoardFile, Damage>,
    /// Names that are no record's.
    pub strays: Vec<Fault>,
}

/// A file that was read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Known {
    /// When it was read; `None` where an equal stamp would not mean an unchanged file.
    pub stamp: Option<Stamp>,
    /// Its bytes.
    pub print: Print,
}

/// A file that could not be read. What it held before, if anything, is still in [`Shelf::known`] and in the board.
#[derive(Clone, Debug)]
pub(super) struct Damage {
    pub fault: Fault,
    /// As [`Known::stamp`].
    pub stamp: Option<Stamp>,
}

impl Known {
    pub(super) fn of(sheet: &Sheet) -> Self {
        Self { stamp: Some(sheet.stamp).filter(Stamp::is_settled), print: sheet.print }
    }
}

/// The most bytes of all records together: a board of ten thousand outfits has about ten million.
const MOST_BYTES: u64 = 512 << 20;

/// From so many files on a second thread pays.
const MANY: usize = 128;

impl Shelf {
    /// Reads a whole folder.
    pub(super) fn open(folder: &Path) -> Result<(Self, Records), StoreError> {
        let folder = folder.canonicalize().map_err(|error| match error.kind() {
            io::ErrorKind::NotFound => StoreError::NoBoard(folder.to_path_buf()),
            _ => StoreError::io(folder, "cannot be opened")(error),
        })?;
        if folder.is_file() {
            return Err(StoreError::NoFolder(folder));
        }
        let head = read_head(&folder)?;
        let listing = Listing::of(&folder).map_err(StoreError::io(&folder, "cannot be listed"))?;
        let mut shelf =
            Self { folder, known: HashMap::new(), damaged: BTreeMap::new(), strays: listing.strays };
        let mut records = Records::of(head);
        let files: Vec<BoardFile> = listing.files.into_iter().map(|(file, _)| file).collect();
        for (file, seen) in read_all(&shelf.folder, &files) {
            if let Some(content) = shelf.note(&file, seen) {
                Content::put(Some(content), &mut records, &file);
            }
        }
        if let Some(damage) = shelf.damaged.remove(&BoardFile::Head) {
            return Err(StoreError::Damaged(Box::new(damage.fault)));
        }
        Ok((shelf, records))
    }

    /// Everything that needs a person, by file and place.
    pub(super) fn faults(&self, references: &[Fault]) -> Vec<Fault> {
        let damaged = self.damaged.values().map(|damage| &damage.fault);
        let mut faults: Vec<Fault> = damaged.chain(&self.strays).chain(references).cloned().collect();
        faults.sort_by(|one, other| (&one.file, one.at).cmp(&(&other.file, other.at)));
        faults
    }

    /// Remembers what a file was found to be; returns its content if it could be read.
    pub(super) fn note(&mut self, file: &BoardFile, seen: Seen) -> Option<Content> {
        match seen {
            Seen::Absent => {
                self.known.remove(file);
                self.damaged.remove(file);
                None
            }
            Seen::Damaged(damage) => {
                self.damaged.insert(file.clone(), damage);
                None
            }
            Seen::Read(known, content) => {
                self.damaged.remove(file);
                self.known.insert(file.clone(), known);
                Some(content)
            }
        }
    }
}

/// What a file was found to be.
#[derive(Debug)]
pub(super) enum Seen {
    Absent,
    Damaged(Damage),
    Read(Known, Content),
}

impl Seen {
    /// Looks at what is in a file.
    pub(super) fn of(file: &BoardFile, read: Result<&Sheet, Closed>) -> Self {
        match read {
            Err(Closed::Absent) => Self::Absent,
            Err(Closed::Refused(fault)) => Self::Damaged(Damage { fault, stamp: None }),
            Ok(sheet) => match sheet.content(file) {
                Ok(content) => Self::Read(Known::of(sheet), content),
                Err(fault) => Self::Damaged(Damage { fault, stamp: Known::of(sheet).stamp }),
            },
        }
    }
}

/// The head comes first: without it there is no board, and its version says whether the rest can be read.
fn read_head(folder: &Path) -> Result<Arc<Head>, StoreError> {
    let damaged = |fault| StoreError::Damaged(Box::new(fault));
    let sheet = match Sheet::read(folder, &BoardFile::Head) {
        Ok(sheet) => sheet,
        Err(Closed::Absent) => return Err(StoreError::NoBoard(folder.to_path_buf())),
        Err(Closed::Refused(fault)) => return Err(damaged(fault)),
    };
    let text = sheet.text(&BoardFile::Head).map_err(damaged)?;
    match yaml::version(text) {
        Some(found) if found != FORMAT.to_string() && found.bytes().all(|b| b.is_ascii_digit()) => {
            return Err(StoreError::Version { found });
        }
        _ => {}
    }
    match sheet.content(&BoardFile::Head).map_err(damaged)? {
        Content::Head(head) => Ok(head),
        _ => Err(damaged(Fault::new(FaultKind::Damaged, "board.yaml", "holds no board"))),
    }
}

/// Reads files, on two threads where they are many.
fn read_all(folder: &Path, files: &[BoardFile]) -> Vec<(BoardFile, Seen)> {
    let all = AtomicU64::new(0);
    let read = |file: &BoardFile| {
        let sheet = Sheet::read(folder, file);
        let length = sheet.as_ref().map_or(0, |sheet| sheet.bytes.len() as u64);
        if all.fetch_add(length, Ordering::Relaxed) + length > MOST_BYTES {
            let what = format!("the board is larger than {} MiB; this file is not read", MOST_BYTES >> 20);
            let fault = Fault::new(FaultKind::Damaged, file.name(), what).of(file.record());
            return (file.clone(), Seen::Damaged(Damage { fault, stamp: None }));
        }
        (file.clone(), Seen::of(file, sheet.as_ref().map_err(Closed::clone)))
    };
    if files.len() < MANY {
        return files.iter().map(read).collect();
    }
    let (first, second) = files.split_at(files.len() / 2);
    let other = std::sync::Mutex::new(Vec::new());
    let mut all: Vec<_> = std::thread::scope(|scope| {
        scope.spawn(|| {
            let seen = second.iter().map(read).collect();
            *other.lock().unwrap_or_else(PoisonError::into_inner) = seen;
        });
        first.iter().map(read).collect()
    });
    all.extend(other.into_inner().unwrap_or_else(PoisonError::into_inner));
    all
}
