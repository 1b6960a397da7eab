//! Changing names in a folder in one step, as each system can.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

/// Whether two files changed places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Swapped {
    /// They did; where the system could not compare and swap in one step, what is displaced must be looked at.
    Done,
    /// The file was not what was expected, and nothing was changed.
    Foreign,
}

/// Lets the file at `new` and the one at `path`, which should hold `expected`, change places.
pub(super) fn exchange(new: &Path, path: &Path, expected: &[u8]) -> io::Result<Swapped> {
    match exchange_names(new, path) {
        Err(error) if is_unsupported(&error) => compare_and_rename(new, path, expected),
        result => result.map(|()| Swapped::Done),
    }
}

/// Where names cannot be exchanged. The old file is copied beside first, so that it can be put back.
fn compare_and_rename(new: &Path, path: &Path, expected: &[u8]) -> io::Result<Swapped> {
    let mut old = new.as_os_str().to_owned();
    old.push(".old");
    let old = PathBuf::from(old);
    fs::write(&old, expected)?;
    if fs::read(path)? != expected {
        fs::remove_file(&old)?;
        return Ok(Swapped::Foreign);
    }
    fs::rename(new, path)?;
    fs::rename(&old, new)?;
    Ok(Swapped::Done)
}

/// Puts the file at `new` at `path`, where there is none yet.
///
/// # Errors
/// [`io::ErrorKind::AlreadyExists`] where there is one.
pub(super) fn place(new: &Path, path: &Path) -> io::Result<()> {
    match rename_to_none(new, path) {
        Err(error) if is_unsupported(&error) => match fs::hard_link(new, path) {
            Ok(()) => fs::remove_file(new),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Err(error),
            Err(_) if path.symlink_metadata().is_ok() => Err(io::ErrorKind::AlreadyExists.into()),
            Err(_) => fs::rename(new, path),
        },
        result => result,
    }
}

/// Takes the file at `path` away to `aside`.
pub(super) fn take_away(path: &Path, aside: &Path) -> io::Result<Swapped> {
    fs::rename(path, aside).map(|()| Swapped::Done)
}

#[cfg(any(target_os = "linux", target_os = "android"))]
fn exchange_names(one: &Path, other: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE)?)
}

#[cfg(any(target_os = "linux", target_os = "android"))]
fn rename_to_none(from: &Path, to: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, from, CWD, to, RenameFlags::NOREPLACE)?)
}

#[cfg(any(target_os = "linux", target_os = "android"))]
fn is_unsupported(error: &io::Error) -> bool {
    use rustix::io::Errno;
    let unsupported = [Errno::INVAL, Errno::NOSYS, Errno::OPNOTSUPP];
    error.raw_os_error().is_some_and(|code| unsupported.iter().any(|errno| errno.raw_os_error() == code))
}

#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn exchange_names(_one: &Path, _other: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn rename_to_none(_from: &Path, _to: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn is_unsupported(error: &io::Error) -> bool {
    error.kind() == io::ErrorKind::Unsupported
}

/// Brings a folder's names to the disk.
#[cfg(unix)]
pub(super) fn sync_dir(dir: &Path) -> io::Result<()> {
    File::open(dir)?.sync_all()
}

#[cfg(not(unix))]
pub(super) fn sync_dir(_dir: &Path) -> io::Result<()> {
    Ok(())
}

/// Brings everything on the drive of `dir` to the disk; `false` where the system has no way to.
#[cfg(any(target_os = "linux", target_os = "android"))]
pub(super) fn sync_drive(dir: &Path) -> io::Result<bool> {
    rustix::fs::syncfs(File::open(dir)?)?;
    Ok(true)
}

#[cfg(not(any(target_os = "linux", target_os = "android")))]
pub(super) fn sync_drive(_dir: &Path) -> io::Result<bool> {
    Ok(false)
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Two {
        dir: tempfile::TempDir,
    }

    impl Two {
        fn new() -> Self {
            let dir = tempfile::tempdir().unwrap();
            fs::write(dir.path().join("new"), "new").unwrap();
            fs::write(dir.path().join("old"), "old").unwrap();
            Self { dir }
        }

        fn path(&self, name: &str) -> PathBuf {
            self.dir.path().join(name)
        }

        fn texts(&self) -> (String, String) {
            let text = |name| fs::read_to_string(self.path(name)).unwrap();
            (text("new"), text("old"))
        }
    }

    #[test]
    fn both_ways_of_exchanging_do_the_same() {
        for exchange in [exchange, compare_and_rename] {
            let two = Two::new();
            assert_eq!(exchange(&two.path("new"), &two.path("old"), b"old").unwrap(), Swapped::Done);
            assert_eq!(two.texts(), ("old".to_owned(), "new".to_owned()));
            assert_eq!(fs::read_dir(two.dir.path()).unwrap().count(), 2);
        }
    }

    #[test]
    fn where_names_cannot_be_exchanged_an_unexpected_file_stays() {
        let two = Two::new();
        assert_eq!(
            compare_and_rename(&two.path("new"), &two.path("old"), b"other").unwrap(),
            Swapped::Foreign
        );
        assert_eq!(two.texts(), ("new".to_owned(), "old".to_owned()));
        assert_eq!(fs::read_dir(two.dir.path()).unwrap().count(), 2);
    }

    #[test]
    fn nothing_is_placed_over_a_file() {
        let two = Two::new();
        let error = place(&two.path("new"), &two.path("old")).unwrap_err();
        assert_eq!(error.kind(), io::ErrorKind::AlreadyExists);
        place(&two.path("new"), &two.path("other")).unwrap();
        assert_eq!(fs::read_to_string(two.path("other")).unwrap(), "new");
        assert!(!two.path("new").exists());
    }
}
