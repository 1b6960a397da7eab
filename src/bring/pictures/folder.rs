//! The files of a folder, by name, and never too many.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::trade::plain;

/// The most files that are brought in at once.
pub const FILES: usize = 10_000;

/// Why a folder cannot be brought in.
#[derive(Debug, thiserror::Error)]
pub enum FolderError {
    /// The system would not.
    #[error("the folder cannot be read: {0}")]
    Unread(#[from] io::Error),
    /// It holds too much.
    #[error("the folder holds more than {FILES} files")]
    TooMany,
}

impl FolderError {
    /// What to do.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::Unread(_) => "name a folder of pictures",
            Self::TooMany => "bring in a part at a time, in folders of their own; nothing was changed",
        }
    }
}

/// The plain files right below a folder, in the order of their names; hidden ones and folders are left out. What a link
/// leads to counts: the folder is the user's own.
///
/// # Errors
/// [`FolderError`]; of a folder that holds too much no more is read than shows it.
pub fn files(folder: &Path) -> Result<Vec<PathBuf>, FolderError> {
    let mut found = Vec::new();
    for (count, entry) in fs::read_dir(folder)?.enumerate() {
        if count >= FILES {
            return Err(FolderError::TooMany);
        }
        let path = entry?.path();
        let is_hidden = path.file_name().is_none_or(|name| name.to_string_lossy().starts_with('.'));
        if !is_hidden && path.is_file() {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

/// The name of a file as it can be shown and written down: without what steers a terminal or turns text round.
pub fn file_name(file: &Path) -> String {
    let name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    plain::line(&name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_shown_without_what_steers_a_terminal_or_turns_text_round() {
        assert_eq!(file_name(Path::new("scans/robe \u{202e}gpj\u{1b}[2J.png")), "robe gpj[2J.png");
    }

    #[test]
    fn files_come_in_the_order_of_their_names_without_what_is_hidden() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["b.jpg", "a.jpg", ".hidden.jpg"] {
            fs::write(folder.path().join(name), "x").unwrap();
        }
        fs::create_dir(folder.path().join("more")).unwrap();
        let names: Vec<String> = files(folder.path())
            .unwrap()
            .iter()
            .map(|path| path.file_name().unwrap().to_string_lossy().into_owned())
            .collect();
        assert_eq!(names, ["a.jpg", "b.jpg"]);
    }

    #[test]
    fn a_folder_of_a_hundred_thousand_files_is_refused_and_says_what_to_do() {
        let folder = tempfile::tempdir().unwrap();
        for number in 0..=FILES {
            fs::File::create(folder.path().join(format!("{number}.jpg"))).unwrap();
        }
        let error = files(folder.path()).unwrap_err();
        assert_eq!(error.to_string(), "the folder holds more than 10000 files");
        assert!(error.hint().contains("nothing was changed"));
    }

    #[test]
    fn what_is_no_folder_says_so() {
        let folder = tempfile::tempdir().unwrap();
        assert!(matches!(files(&folder.path().join("none")), Err(FolderError::Unread(_))));
    }
}
