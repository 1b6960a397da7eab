//! Writing a report into a file: whole or not at all, and never over a board's own records.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::Path;

use super::failure::Failure;

/// Writes `bytes` into `file`: beside it, synced, then renamed over it. What is no regular file (a device, a pipe) is
/// written to as it stands.
pub(super) fn write(file: &Path, bytes: &[u8], board: &Path) -> Result<(), Failure> {
    is_no_record(file, board)?;
    let done = match fs::metadata(file) {
        Ok(there) if there.is_dir() => Err(io::ErrorKind::IsADirectory.into()),
        Ok(there) if !there.is_file() => {
            OpenOptions::new().write(true).open(file).and_then(|mut to| to.write_all(bytes))
        }
        _ => replace(file, bytes),
    };
    done.map_err(|error| Failure::new(format!("{} cannot be written: {error}", file.display())))
}

/// That the file is none of the board's own.
pub(super) fn is_no_record(file: &Path, board: &Path) -> Result<(), Failure> {
    if is_record(file, board) {
        return Err(Failure::new(format!("{} is one of the board's own files", file.display()))
            .hint("name another file for the report"));
    }
    Ok(())
}

fn replace(file: &Path, bytes: &[u8]) -> io::Result<()> {
    // A link stays a link: what it points at is replaced.
    let file = &fs::canonicalize(file).unwrap_or_else(|_| file.to_path_buf());
    let name = file.file_name().ok_or(io::ErrorKind::InvalidInput)?.to_string_lossy();
    let draft = file.with_file_name(format!(".{name}.part-{}", std::process::id()));
    let done = write_synced(&draft, bytes).and_then(|()| fs::rename(&draft, file));
    if done.is_err() {
        let _ = fs::remove_file(&draft);
    }
    done
}

fn write_synced(file: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut to = File::create_new(file)?;
    to.write_all(bytes)?;
    to.sync_all()
}

/// Whether the file is a record of the board, or would be one, which a slip of the hand must not write.
fn is_record(file: &Path, board: &Path) -> bool {
    // It need not be there yet; the folder that it goes to has to be.
    let place = file.canonicalize().or_else(|_| {
        let name = file.file_name().ok_or(io::ErrorKind::InvalidInput)?;
        let dir = file.parent().filter(|dir| !dir.as_os_str().is_empty()).unwrap_or(Path::new("."));
        Ok::<_, io::Error>(dir.canonicalize()?.join(name))
    });
    match (place, board.canonicalize()) {
        (Ok(place), Ok(board)) => place.starts_with(board) && [file, &place].into_iter().any(is_yaml),
        _ => false,
    }
}

fn is_yaml(file: &Path) -> bool {
    file.extension().is_some_and(|ending| ending == "yaml")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_replaced_whole_and_nothing_is_left_beside_it() {
        let dir = tempfile::tempdir().unwrap();
        let file = dir.path().join("plot.csv");
        fs::write(&file, "a longer text that was there before").unwrap();
        write(&file, b"new", Path::new("nowhere")).unwrap();
        assert_eq!(fs::read_to_string(&file).unwrap(), "new");
        assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_record_of_the_board_is_never_overwritten() {
        let dir = tempfile::tempdir().unwrap();
        let file = dir.path().join("board.yaml");
        fs::write(&file, "shirr: 1").unwrap();
        assert!(write(&file, b"new", dir.path()).is_err());
        assert_eq!(fs::read_to_string(&file).unwrap(), "shirr: 1");
        assert!(write(&dir.path().join("plot.md"), b"new", dir.path()).is_ok());
    }

    #[test]
    fn a_report_does_not_become_a_record_that_is_not_there_yet() {
        let dir = tempfile::tempdir().unwrap();
        fs::create_dir(dir.path().join("looks")).unwrap();
        for name in ["schedule.yaml", "looks/x.yaml", "looks/../scenes.yaml"] {
            let file = dir.path().join(name);
            assert!(write(&file, b"new", dir.path()).is_err(), "{name}");
            assert!(!file.exists(), "{name}");
        }
        let elsewhere = tempfile::tempdir().unwrap();
        assert!(write(&elsewhere.path().join("plot.yaml"), b"new", dir.path()).is_ok());
    }

    #[test]
    fn a_folder_or_a_place_that_is_not_there_is_a_failure() {
        let dir = tempfile::tempdir().unwrap();
        let nowhere = Path::new("nowhere");
        assert!(write(dir.path(), b"new", nowhere).is_err());
        assert!(write(&dir.path().join("no/such/plot.md"), b"new", nowhere).is_err());
    }
}
