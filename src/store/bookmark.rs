//! A bookmark: where on a board the user of this machine was left, in a few words that a screen makes and reads.
//!
//! Bookmarks lie beside the history logs, each under the folder of its board, since copies of a board share its id. They
//! are kept as well as can be: with one that cannot be read or written nothing is lost but a place to go on from.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use super::open::OpenBoard;
use super::places::Places;

/// The file with the bookmarks of all folders of a board.
pub(super) fn file(places: &Places, id: &str) -> PathBuf {
    places.state.join("boards").join(id).join("bookmarks.json")
}

type Bookmarks = BTreeMap<String, String>;

fn read(file: &Path) -> Option<Bookmarks> {
    serde_json::from_slice(&fs::read(file).ok()?).ok()
}

impl OpenBoard {
    /// The bookmark that was left last in this folder; `None` where there is none that can be read.
    pub fn bookmark(&self) -> Option<String> {
        read(&self.bookmarks)?.remove(&self.here())
    }

    /// Leaves a bookmark in the place of the one before. Those of folders that are no longer there go.
    pub fn leave_bookmark(&self, text: &str) {
        let mut all = read(&self.bookmarks).unwrap_or_default();
        all.retain(|folder, _| Path::new(folder).is_dir());
        all.insert(self.here(), text.to_owned());
        // Whoever leaves can do nothing about a bookmark that cannot be kept, and misses no work.
        let _kept =
            serde_json::to_vec_pretty(&all).is_ok_and(|text| fs::write(&self.bookmarks, text).is_ok());
    }

    fn here(&self) -> String {
        self.shelf.folder.to_string_lossy().into_owned()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test")]

    use super::*;

    fn board(places: &Places, folder: &Path) -> OpenBoard {
        fs::create_dir_all(folder).unwrap();
        fs::write(folder.join("board.yaml"), "shirr: 1\nid: film\ntitle: Film\n").unwrap();
        OpenBoard::open(folder, places).unwrap()
    }

    #[test]
    fn a_bookmark_is_found_again_in_its_own_folder_and_goes_with_it() {
        let home = tempfile::tempdir().unwrap();
        let places = Places::below(home.path());
        let (one, copy) = (home.path().join("one"), home.path().join("copy"));
        assert_eq!(board(&places, &one).bookmark(), None);
        board(&places, &one).leave_bookmark("page 3");
        board(&places, &copy).leave_bookmark("page 9");
        board(&places, &one).leave_bookmark("page 4");
        assert_eq!(board(&places, &one).bookmark().as_deref(), Some("page 4"));
        assert_eq!(board(&places, &copy).bookmark().as_deref(), Some("page 9"));
        fs::remove_dir_all(&copy).unwrap();
        board(&places, &one).leave_bookmark("page 5");
        assert_eq!(board(&places, &copy).bookmark(), None);
    }

    #[test]
    fn a_bookmark_that_cannot_be_read_or_written_is_none() {
        let home = tempfile::tempdir().unwrap();
        let places = Places::below(home.path());
        let open = board(&places, &home.path().join("one"));
        fs::write(file(&places, "film"), "{").unwrap();
        assert_eq!(open.bookmark(), None);
        open.leave_bookmark("page 3");
        assert_eq!(open.bookmark().as_deref(), Some("page 3"));
        fs::remove_file(file(&places, "film")).unwrap();
        fs::create_dir(file(&places, "film")).unwrap();
        open.leave_bookmark("page 4");
        assert_eq!(open.bookmark(), None);
    }
}
