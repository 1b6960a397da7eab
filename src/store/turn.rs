//! Taking turns at the files of a set.
//!
//! An exchange that finds another program's text is turned back, and for that moment the file holds a text that will
//! not stay. A program that read it then would build on it, and what it turned back to would be lost. So programs of
//! ours take turns at a file: a marker beside it says that somebody is at work. Nothing rests on it (a drive may not
//! pass the marker on, and other programs know nothing of it): it only keeps programs of ours out of each other's
//! moment, and one whose owner has died is waited for briefly and then taken over.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use super::replace::OURS;

/// How long a turn is waited for; a set of some files takes a few milliseconds.
const PATIENCE: Duration = Duration::from_millis(300);

/// How often it is looked for.
const STEP: Duration = Duration::from_millis(1);

/// The turns that are held; they end when this is dropped.
#[derive(Debug)]
pub(super) struct Turns(Vec<PathBuf>);

impl Turns {
    /// Takes the turns at all of these files. Where a folder takes no marker, there is no turn, and the replacing
    /// itself will say why.
    pub(super) fn take<'a>(paths: impl Iterator<Item = &'a Path>) -> Self {
        let mut markers: Vec<PathBuf> = paths.filter_map(marker).collect();
        // All in one order, so that two sets never wait for each other.
        markers.sort();
        let start = Instant::now();
        let mut turns = Self(Vec::with_capacity(markers.len()));
        for marker in markers {
            loop {
                match File::options().write(true).create_new(true).open(&marker) {
                    Ok(_) => {
                        turns.0.push(marker);
                        break;
                    }
                    Err(error) if error.kind() != io::ErrorKind::AlreadyExists => break,
                    Err(_) if start.elapsed() < PATIENCE => thread::sleep(STEP),
                    // Its owner has died.
                    Err(_) => {
                        turns.0.push(marker);
                        break;
                    }
                }
            }
        }
        turns
    }
}

impl Drop for Turns {
    fn drop(&mut self) {
        for marker in &self.0 {
            // One that stays is taken over by the next who wants its turn.
            let _gone = fs::remove_file(marker);
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
            for _ in 0..4 {
                scope.spawn(|| {
                    for _ in 0..20 {
                        let turns = Turns::take([path.as_path()].into_iter());
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
        std::mem::forget(Turns::take([path.as_path()].into_iter()));
        drop(Turns::take([path.as_path()].into_iter()));
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn where_no_marker_can_be_there_is_no_turn_and_no_harm() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("not/there.yaml");
        assert!(Turns::take([path.as_path()].into_iter()).0.is_empty());
    }
}
