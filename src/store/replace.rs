//! Puts new files in the place of old ones, all of a set or none, and never over somebody else's change.
//!
//! Every new text is written beside its file under a name of ours and brought to the disk; only then the files are
//! replaced. On Linux a replacement is an *exchange*: new and old change names in one step, and what was displaced is
//! looked at. If it is not what was read last, another program wrote in between: the exchange is turned back, all of
//! the set with it, and the caller reads again; programs of ours take [turns](super::turn), so that none reads a text
//! that is about to be turned back. Where a file system cannot exchange, the file is compared just before
//! it is replaced, which leaves a gap of some microseconds.
//!
//! Limit: a program that still holds the displaced file open and writes to it later is not seen.

use std::collections::BTreeSet;
use std::fs::{self, File, Permissions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::layout::BoardFile;
use super::swap::{self, Swapped};
use super::turn::Turns;

/// How the names of our unfinished files begin.
pub(super) const OURS: &str = ".shirr-";

/// What stands in a file now, as far as is known.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Expected {
    /// There is no file.
    Absent,
    /// These bytes.
    Bytes(Vec<u8>),
}

/// One file of a set.
#[derive(Debug)]
pub(super) struct Replacement {
    /// Where.
    pub path: PathBuf,
    /// What is there now.
    pub before: Expected,
    /// What shall be there; `None` to take the file away.
    pub after: Option<Vec<u8>>,
}

/// Why a set was not replaced. All files are as they were.
#[derive(Debug)]
pub(super) enum NotReplaced {
    /// Another program wrote one of them meanwhile.
    Foreign,
    /// The system refused.
    Io { path: PathBuf, what: &'static str, source: io::Error },
    /// The system refused, and then refused to put back what was replaced already: some files are new, some old.
    Torn { path: PathBuf, what: &'static str, source: io::Error },
}

/// From so many files on, one call for the whole drive is cheaper than one for each.
const MANY: usize = 16;

/// Replaces a set of files. `token` tells our unfinished files from those of others.
pub(super) fn replace(
    folder: &Path,
    token: &str,
    set: &[(BoardFile, Replacement)],
) -> Result<(), NotReplaced> {
    let mut staged = Vec::with_capacity(set.len());
    let result = stage(token, set, &mut staged)
        .and_then(|()| sync_staged(folder, &staged))
        .and_then(|()| put_all(token, &mut staged))
        .map(|()| sync_dirs(&staged));
    let torn = matches!(result, Err(NotReplaced::Torn { .. }));
    for one in staged.iter().filter(|_| !torn) {
        // What is displaced was looked at, or is our own; a leftover is taken away at the next opening.
        let _gone = fs::remove_file(&one.temp);
    }
    result
}

/// Puts all new files in their places, or none.
fn put_all(token: &str, staged: &mut [Staged<'_>]) -> Result<(), NotReplaced> {
    let _turns = Turns::take(token, staged.iter().map(|one| one.replacement.path.as_path()));
    for at in 0..staged.len() {
        if let Err(error) = staged[at].put() {
            return Err(put_back(&mut staged[..at], error));
        }
    }
    Ok(())
}

/// A replacement whose new text lies beside its file.
struct Staged<'a> {
    replacement: &'a Replacement,
    temp: PathBuf,
}

fn stage<'a>(
    token: &str,
    set: &'a [(BoardFile, Replacement)],
    staged: &mut Vec<Staged<'a>>,
) -> Result<(), NotReplaced> {
    for (number, (_, replacement)) in set.iter().enumerate() {
        let path = &replacement.path;
        let failed = |source| NotReplaced::Io { path: path.clone(), what: "cannot be written", source };
        let Some((dir, name)) = path.parent().zip(path.file_name().and_then(|name| name.to_str())) else {
            return Err(failed(io::ErrorKind::InvalidFilename.into()));
        };
        if !dir.exists() {
            fs::create_dir(dir).map_err(failed)?;
            if let Some(above) = dir.parent() {
                swap::sync_dir(above).map_err(failed)?;
            }
        }
        let temp = dir.join(format!("{OURS}{token}-{number}-{name}"));
        if let Some(bytes) = &replacement.after {
            // One of ours that a crash left behind has this name, and nothing of value in it any more.
            let _gone = fs::remove_file(&temp);
            staged.push(Staged { replacement, temp: temp.clone() });
            let mut file = File::options().write(true).create_new(true).open(&temp).map_err(failed)?;
            file.write_all(bytes).map_err(failed)?;
            if let Some(permissions) = permissions(path) {
                file.set_permissions(permissions).map_err(failed)?;
            }
            if set.len() < MANY {
                file.sync_all().map_err(failed)?;
            }
        } else {
            staged.push(Staged { replacement, temp });
        }
    }
    Ok(())
}

fn permissions(path: &Path) -> Option<Permissions> {
    path.symlink_metadata().ok().filter(fs::Metadata::is_file).map(|metadata| metadata.permissions())
}

fn sync_staged(folder: &Path, staged: &[Staged<'_>]) -> Result<(), NotReplaced> {
    if staged.len() < MANY {
        return Ok(());
    }
    let failed = |source| NotReplaced::Io { path: folder.to_path_buf(), what: "cannot be written", source };
    if swap::sync_drive(folder).map_err(failed)? {
        return Ok(());
    }
    for one in staged.iter().filter(|one| one.replacement.after.is_some()) {
        File::open(&one.temp).and_then(|file| file.sync_all()).map_err(failed)?;
    }
    Ok(())
}

fn sync_dirs(staged: &[Staged<'_>]) {
    let dirs: BTreeSet<&Path> = staged.iter().filter_map(|one| one.replacement.path.parent()).collect();
    for dir in dirs {
        // Everything is in its place and in the log; a directory that cannot be synced is no reason to take it back.
        let _synced = swap::sync_dir(dir);
    }
}

impl Staged<'_> {
    fn failed(&self, source: io::Error) -> NotReplaced {
        NotReplaced::Io { path: self.replacement.path.clone(), what: "cannot be replaced", source }
    }

    /// Puts the new file in its place; the old one is at the temporary name then.
    fn put(&mut self) -> Result<(), NotReplaced> {
        let Replacement { path, before, after } = self.replacement;
        let Expected::Bytes(expected) = before else {
            return match swap::place(&self.temp, path) {
                Ok(()) => Ok(()),
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Err(NotReplaced::Foreign),
                Err(error) => Err(self.failed(error)),
            };
        };
        // Seen before it is touched, nothing need be turned back.
        if fs::read(path).is_ok_and(|now| now != *expected) {
            return Err(NotReplaced::Foreign);
        }
        let swapped = match after {
            Some(_) => swap::exchange(&self.temp, path, expected),
            None => swap::take_away(path, &self.temp),
        };
        match swapped {
            Ok(Swapped::Done) => {}
            Ok(Swapped::Foreign) => return Err(NotReplaced::Foreign),
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Err(NotReplaced::Foreign),
            Err(error) => return Err(self.failed(error)),
        }
        if fs::read(&self.temp).is_ok_and(|displaced| displaced == *expected) {
            return Ok(());
        }
        self.back().map_err(|error| match self.failed(error) {
            NotReplaced::Io { path, what, source } => NotReplaced::Torn { path, what, source },
            other => other,
        })?;
        Err(NotReplaced::Foreign)
    }

    /// Takes [`Staged::put`] back. What another program wrote over the new file stays.
    fn back(&self) -> io::Result<()> {
        let Replacement { path, before, after } = self.replacement;
        match (before, after) {
            (Expected::Absent, Some(new)) => {
                if matches!(swap::take_away(path, &self.temp)?, Swapped::Done)
                    && fs::read(&self.temp).is_ok_and(|displaced| displaced != *new)
                {
                    swap::place(&self.temp, path)?;
                }
            }
            (Expected::Bytes(_), None) => {
                swap::place(&self.temp, path).or_else(|error| match error.kind() {
                    // Another program made a new one meanwhile: that is the one that counts.
                    io::ErrorKind::AlreadyExists => Ok(()),
                    _ => Err(error),
                })?
            }
            (Expected::Bytes(_), Some(new)) => {
                swap::exchange(&self.temp, path, new)?;
                if fs::read(&self.temp).is_ok_and(|displaced| displaced != *new) {
                    swap::exchange(&self.temp, path, &[])?;
                }
            }
            (Expected::Absent, None) => {}
        }
        Ok(())
    }
}

/// Puts back what was replaced already, the last first.
fn put_back(done: &mut [Staged<'_>], error: NotReplaced) -> NotReplaced {
    for one in done.iter().rev() {
        if let Err(source) = one.back() {
            let path = one.replacement.path.clone();
            return NotReplaced::Torn { path, what: "cannot be put back", source };
        }
    }
    error
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    /// A folder with three files.
    struct Folder(tempfile::TempDir);

    impl Folder {
        fn new() -> Self {
            let dir = tempfile::tempdir().unwrap();
            for name in ["board.yaml", "scenes.yaml", "schedule.yaml"] {
                fs::write(dir.path().join(name), "old").unwrap();
            }
            Self(dir)
        }

        fn replace(&self, set: Vec<(BoardFile, Replacement)>) -> Result<(), NotReplaced> {
            replace(self.0.path(), "0123", &set)
        }

        fn one(
            &self,
            file: BoardFile,
            before: Option<&str>,
            after: Option<&str>,
        ) -> (BoardFile, Replacement) {
            let before = before.map_or(Expected::Absent, |text| Expected::Bytes(text.into()));
            let replacement =
                Replacement { path: file.path(self.0.path()), before, after: after.map(|text| text.into()) };
            (file, replacement)
        }

        fn all(&self) -> BTreeMap<String, String> {
            let mut all = BTreeMap::new();
            for entry in fs::read_dir(self.0.path()).unwrap() {
                let path = entry.unwrap().path();
                if path.is_file() {
                    let name = path.file_name().unwrap().to_string_lossy().into_owned();
                    all.insert(name, fs::read_to_string(path).unwrap());
                }
            }
            all
        }
    }

    fn new_outfit() -> BoardFile {
        BoardFile::Outfit("x".parse().unwrap())
    }

    #[test]
    fn a_set_is_replaced_as_a_whole() {
        let folder = Folder::new();
        folder
            .replace(vec![
                folder.one(BoardFile::Head, Some("old"), Some("new")),
                folder.one(BoardFile::Scenes, Some("old"), None),
                folder.one(new_outfit(), None, Some("made")),
            ])
            .unwrap();
        let told: Vec<(String, String)> = folder.all().into_iter().collect();
        assert_eq!(
            told,
            [("board.yaml", "new"), ("schedule.yaml", "old")].map(|(a, b)| (a.into(), b.into()))
        );
        assert_eq!(fs::read_to_string(new_outfit().path(folder.0.path())).unwrap(), "made");
    }

    #[test]
    fn where_another_program_wrote_meanwhile_the_whole_set_is_as_it_was() {
        let folder = Folder::new();
        fs::write(folder.0.path().join("schedule.yaml"), "theirs").unwrap();
        let before = folder.all();
        for foreign in [
            folder.one(BoardFile::Schedule, Some("old"), Some("new")),
            folder.one(BoardFile::Schedule, Some("old"), None),
            folder.one(BoardFile::Schedule, None, Some("new")),
            folder.one(BoardFile::Look("gone".parse().unwrap()), Some("old"), Some("new")),
            folder.one(BoardFile::Look("gone".parse().unwrap()), Some("old"), None),
        ] {
            let set = vec![
                folder.one(BoardFile::Head, Some("old"), Some("new")),
                folder.one(BoardFile::Scenes, Some("old"), None),
                folder.one(new_outfit(), None, Some("made")),
                foreign,
            ];
            assert!(matches!(folder.replace(set), Err(NotReplaced::Foreign)));
            assert_eq!(folder.all(), before);
            for dir in ["outfits", "looks"] {
                let left = fs::read_dir(folder.0.path().join(dir)).map_or(0, Iterator::count);
                assert_eq!(left, 0, "{dir}");
            }
        }
    }

    #[test]
    fn what_the_system_refuses_leaves_everything_as_it_was() {
        let folder = Folder::new();
        fs::write(folder.0.path().join("outfits"), "not a folder").unwrap();
        let before = folder.all();
        let set = vec![
            folder.one(BoardFile::Head, Some("old"), Some("new")),
            folder.one(new_outfit(), None, Some("made")),
        ];
        assert!(matches!(folder.replace(set), Err(NotReplaced::Io { .. })));
        assert_eq!(folder.all(), before);
    }

    #[test]
    fn a_turn_is_waited_for_with_everything_written_already() {
        let folder = Folder::new();
        let (file, replacement) = folder.one(BoardFile::Head, Some("old"), Some("new"));
        let path = replacement.path.clone();
        let temp = folder.0.path().join(".shirr-0123-0-board.yaml");
        let turn = Turns::take("other", [path.as_path()].into_iter());
        std::thread::scope(|scope| {
            let replacing = scope.spawn(|| folder.replace(vec![(file, replacement)]));
            while !fs::read(&temp).is_ok_and(|text| text == b"new") && !replacing.is_finished() {
                std::thread::yield_now();
            }
            let owner = fs::read_to_string(folder.0.path().join(".shirr-turn-board.yaml"));
            assert_eq!(owner.unwrap(), "other", "the other's turn goes on while this one writes");
            drop(turn);
            replacing.join().unwrap().unwrap();
        });
        assert_eq!(fs::read_to_string(&path).unwrap(), "new");
    }

    #[test]
    fn what_was_written_over_the_new_file_stays_when_the_set_is_taken_back() {
        let folder = Folder::new();
        let (_, replacement) = folder.one(BoardFile::Head, Some("old"), Some("new"));
        let temp = folder.0.path().join(".shirr-0123-0-board.yaml");
        fs::write(&temp, "new").unwrap();
        let mut staged = Staged { replacement: &replacement, temp };
        staged.put().unwrap();
        fs::write(&replacement.path, "theirs").unwrap();
        staged.back().unwrap();
        assert_eq!(fs::read_to_string(&replacement.path).unwrap(), "theirs");
    }
}
