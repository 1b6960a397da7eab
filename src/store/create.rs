//! A new board's folder.

use std::borrow::Cow;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Component, Path, PathBuf};

use super::error::StoreError;
use super::fault::{Fault, FaultKind};
use super::layout::{BoardFile, Content};
use super::{header, sheet, swap};
use crate::board::{Head, Id};

/// Writes `files` (paths relative to the folder, with their bytes) into a folder that is new or empty; hidden files,
/// such as those of version control, do not count. `board.yaml` comes last, so that half a board is none. When one
/// cannot be written, those that were are taken away again.
///
/// # Errors
/// [`StoreError::NotEmpty`]; [`StoreError::BadPath`] for a path that leaves the folder; [`StoreError::Io`].
pub fn create<'a>(
    folder: &Path,
    files: impl IntoIterator<Item = (PathBuf, Cow<'a, [u8]>)>,
) -> Result<(), StoreError> {
    let mut files: Vec<(PathBuf, Cow<'a, [u8]>)> = files.into_iter().collect();
    if let Some((path, _)) = files.iter().find(|(path, _)| !stays_below(path)) {
        return Err(StoreError::BadPath(super::fault::clean(&path.display().to_string(), 200)));
    }
    let head = Path::new("board.yaml");
    files.sort_by_key(|(path, _)| path == head);
    is_empty(folder)?;
    let mut made = Made::default();
    let written = made
        .dir(folder)
        .and_then(|()| files.iter().try_for_each(|(path, bytes)| made.file(folder, path, bytes)));
    match written {
        Ok(()) => {
            for dir in &made.dirs {
                // The files themselves are on the disk; a drive that cannot sync a directory is still a drive.
                let _synced = swap::sync_dir(dir);
            }
            Ok(())
        }
        Err(error) => {
            made.undo();
            Err(error)
        }
    }
}

fn stays_below(path: &Path) -> bool {
    path.components().count() > 0 && path.components().all(|part| matches!(part, Component::Normal(_)))
}

fn is_empty(folder: &Path) -> Result<(), StoreError> {
    let failed = |error: io::Error| match error.kind() {
        io::ErrorKind::NotADirectory => StoreError::NotEmpty(folder.to_path_buf()),
        _ => StoreError::io(folder, "cannot be listed")(error),
    };
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
        Err(error) => return Err(failed(error)),
    };
    for entry in entries {
        if !entry.map_err(failed)?.file_name().to_string_lossy().starts_with('.') {
            return Err(StoreError::NotEmpty(folder.to_path_buf()));
        }
    }
    Ok(())
}

/// What was made so far, outermost first.
#[derive(Default)]
struct Made {
    dirs: Vec<PathBuf>,
    files: Vec<PathBuf>,
}

impl Made {
    fn dir(&mut self, dir: &Path) -> Result<(), StoreError> {
        if dir.is_dir() {
            return Ok(());
        }
        if let Some(above) = dir.parent().filter(|above| !above.as_os_str().is_empty()) {
            self.dir(above)?;
        }
        fs::create_dir(dir).map_err(StoreError::io(dir, "cannot be made"))?;
        self.dirs.push(dir.to_path_buf());
        Ok(())
    }

    fn file(&mut self, folder: &Path, path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
        let path = folder.join(path);
        if let Some(dir) = path.parent() {
            self.dir(dir)?;
        }
        let failed = || StoreError::io(&path, "cannot be written");
        let mut file = File::options().write(true).create_new(true).open(&path).map_err(failed())?;
        self.files.push(path.clone());
        file.write_all(bytes).and_then(|()| file.sync_all()).map_err(failed())
    }

    fn undo(&self) {
        for file in self.files.iter().rev() {
            let _gone = fs::remove_file(file);
        }
        for dir in self.dirs.iter().rev() {
            let _gone = fs::remove_dir(dir);
        }
    }
}

/// The text of a starter's `board.yaml` for a board of its own, with this title and this id. Everything else, comments
/// too, stays as it is.
///
/// # Errors
/// [`StoreError::Damaged`] when the text is no `board.yaml`.
pub fn head_as(text: &str, title: &str, id: &Id<Head>) -> Result<String, StoreError> {
    let damaged = |fault| StoreError::Damaged(Box::new(fault));
    let read = |text: &str| match sheet::content_of(text, &BoardFile::Head).map_err(damaged)? {
        Content::Head(head) => Ok(head),
        _ => Err(damaged(Fault::new(FaultKind::Damaged, "board.yaml", "holds no board"))),
    };
    let mut head = Head::clone(&*read(text)?);
    head.title = title.to_owned();
    head.id = id.clone();
    let line = |key: &str, value: &str| {
        let quoted = value.replace('\'', "''");
        format!("{key}: '{quoted}'")
    };
    let mut lines: Vec<String> = Vec::new();
    for old in text.split('\n') {
        let new = match old.split_once(':') {
            Some(("id", _)) => format!("id: {id}"),
            Some(("title", _)) => line("title", title),
            _ => old.to_owned(),
        };
        lines.push(new);
    }
    let edited = lines.join("\n");
    if sheet::content_of(&edited, &BoardFile::Head).ok() == Some(Content::Head(head.clone().into())) {
        return Ok(edited);
    }
    // The title runs over several lines, or holds what a plain line cannot: then the whole text is written anew.
    let body = Content::Head(head.into())
        .write()
        .map_err(|why| damaged(Fault::new(FaultKind::Damaged, "board.yaml", why)))?;
    Ok(header::under(text, &body))
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &str =
        "# A starter.\nshirr: 1\nid: starter\ntitle: Starter # x\nperiods: []\ncharacters: []\n";

    #[test]
    fn a_starter_gets_its_own_title_and_id() {
        let id: Id<Head> = "its-own".parse().unwrap();
        let text = head_as(HEAD, "Odile’s film: a life", &id).unwrap();
        assert_eq!(
            text,
            "# A starter.\nshirr: 1\nid: its-own\ntitle: 'Odile’s film: a life'\nperiods: []\ncharacters: []\n"
        );
        let text = head_as(HEAD, "two\nlines", &id).unwrap();
        assert!(
            text.starts_with("# A starter.\nshirr: 1\nid: its-own\ntitle: |-\n  two\n  lines\n"),
            "{text}"
        );
        let wide = HEAD.replace("Starter # x", "|\n  Star\n  ter");
        assert!(head_as(&wide, "It's", &id).unwrap().contains("title: It's\n"));
    }

    #[test]
    fn what_is_no_head_is_refused_with_its_fault() {
        let error = head_as("title: x\n", "y", &"y".parse().unwrap()).unwrap_err();
        assert!(error.to_string().contains("the key `shirr` is missing"), "{error}");
    }

    #[test]
    fn nothing_is_left_of_a_board_that_could_not_be_written() {
        let dir = tempfile::tempdir().unwrap();
        let folder = dir.path().join("a/b");
        let file = |name: &str| (PathBuf::from(name), Cow::Borrowed(&b"x"[..]));
        // A file cannot be a folder as well.
        let error = create(&folder, [file("board.yaml"), file("looks"), file("looks/x.yaml")]).unwrap_err();
        assert!(matches!(error, StoreError::Io { .. }), "{error}");
        assert!(!dir.path().join("a").exists());
    }

    #[test]
    fn a_path_that_leaves_the_folder_is_refused() {
        let dir = tempfile::tempdir().unwrap();
        for path in ["../x", "/x", "", "a/../../x"] {
            let error = create(&dir.path().join("new"), [(PathBuf::from(path), Cow::Borrowed(&b""[..]))]);
            assert!(matches!(error, Err(StoreError::BadPath(_))), "{path}");
        }
        assert!(!dir.path().join("new").exists());
    }
}
