//! Taking turns at the files of a set.
//!
//! An exchange that finds another program's text is turned back, and for that moment the file holds a text that will
//! not stay. A program that read it then would build on it, and what it turned back to would be lost. So programs of
//! ours take turns at a file: a marker beside it says that somebody is at work. It says whose it is, so
//! that nobody takes another's away. Nothing rests on it (a drive may not pass the marker on, and other programs know
//! nothing of it): it only keeps programs of ours out of each other's moment, and one whose owner has died is waited
//! for briefly and then taken over.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use super::replace::OURS;

/// How long one owner is waited for. Everything is written and on the disk before a turn is taken, so that it holds
/// for a few renamings only.
const PATIENCE: Duration = Duration::from_millis(300);

/// How often it is looked for.
const STEP: Duration = Duration::from_millis(1);

/// The turns that are held; they end when this is dropped.
#[derive(Debug)]
pub(super) struct Turns {
    token: String,
    markers: Vec<PathBuf>,
}

impl Turns {
    /// Takes the turns at all of these files; `token` says whose they are. Where a folder takes no marker, there is no
    /// turn, and the replacing itself will say why.
    pub(super) fn take<'a>(token: &str, paths: impl Iterator<Item = &'a Path>) -> Self {
        let mut markers: Vec<PathBuf> = paths.filter_map(marker).collect();
        // All in one order, so that two sets never wait for each other.
        markers.sort();
        let mut turns = Self { token: token.to_owned(), markers: Vec::with_capacity(markers.len()) };
        for marker in markers {
            if take_one(&marker, token) {
                turns.markers.push(marker);
            }
        }
        turns
    }
}

/// Whether there is a marker of ours now.
fn take_one(marker: &Path, token: &str) -> bool {
    let mut owner = None;
    let mut start = Instant::now();
    loop {
        match File::options().write(true).create_new(true).open(marker) {
            Ok(mut file) => {
                let written = file.write_all(token.as_bytes());
                if written.is_err() {
                    let _gone = fs::remove_file(marker);
                }
                return written.is_ok();
            }
            Err(error) if error.kind() != io::ErrorKind::AlreadyExists => return false,
            Err(_) => {}
        }
        let now = fs::read(marker).ok();
        if now != owner {
            (owner, start) = (now, Instant::now());
        } else if start.elapsed() >= PATIENCE {
            // Its owner has died.
            return fs::write(marker, token).is_ok();
        }
        thread::sleep(STEP);
    }
}

impl Drop for Turns {
    fn drop(&mut self) {
        for marker in &self.markers {
            if fs::read(marker).is_ok_and(|owner| owner == self.token.as_bytes()) {
                // One that stays is taken over by the next who wants its turn.
                let _gone = fs::remove_file(marker);
            }
        }
    }
}

fn marker(path: &Path) -> Option<PathBuf> {
    let name = path.file_name()?.to_str()?;
    Some(path.with_file_name(format!("{OURS}turn-{name}")))
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};

    use super::*;

    #[test]
    fn two_never_have_a_turn_at_one_file_together() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("scenes.yaml");
        let inside = AtomicUsize::new(0);
        thread::scope(|scope| {
            for token in ["a", "b", "c", "d"] {
                let (path, inside) = (&path, &inside);
                scope.spawn(move || {
                    for _ in 0..20 {
                        let turns = Turns::take(token, [path.as_path()].into_iter());
                        assert_eq!(inside.fetch_add(1, Ordering::SeqCst), 0);
                        inside.fetch_sub(1, Ordering::SeqCst);
                        drop(turns);
                    }
                });
            }
        });
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0, "no marker is left");
    }

    #[test]
    fn a_turn_whose_owner_has_died_is_taken_over() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("board.yaml");
        std::mem::forget(Turns::take("dead", [path.as_path()].into_iter()));
        drop(Turns::take("next", [path.as_path()].into_iter()));
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn a_turn_that_was_taken_over_is_not_ended_by_its_first_owner() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("board.yaml");
        let slow = Turns::take("slow", [path.as_path()].into_iter());
        let next = Turns::take("next", [path.as_path()].into_iter());
        drop(slow);
        assert_eq!(fs::read_to_string(marker(&path).unwrap()).unwrap(), "next");
        drop(next);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn where_no_marker_can_be_there_is_no_turn_and_no_harm() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("not/there.yaml");
        assert!(Turns::take("one", [path.as_path()].into_iter()).markers.is_empty());
    }
}
