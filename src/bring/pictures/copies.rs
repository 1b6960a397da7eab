//! The files that are copied into a board's folder before the records name them, and taken back when they cannot.

use std::collections::HashSet;
use std::path::{Path, PathBuf};

use super::hung::pictures;
use super::scan::Content;
use crate::album::Album;
use crate::board::{Board, PicturePath};
use crate::bring::file;
use crate::picture::photo::MOST_BYTES;
use crate::trade::plain;

/// A file to be copied.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Copying {
    /// From where.
    pub file: PathBuf,
    /// To where, below the board's folder; nothing lies there.
    pub to: PicturePath,
    /// What it must still be when it is copied.
    pub content: Content,
}

/// What lies where a picture could be put.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lying {
    /// Nothing.
    Nothing,
    /// This very picture.
    Same,
    /// Anything else.
    Other,
}

/// What lies at a path of a board's folder, beside such a content.
pub fn lying(album: &Album, path: &PicturePath, content: Content) -> Lying {
    if album.is_free(path) {
        return Lying::Nothing;
    }
    let is_as_long = album.length(path).is_ok_and(|length| length == content.length());
    let is_same = is_as_long && album.bytes(path).is_ok_and(|bytes| Content::of(&bytes) == content);
    if is_same { Lying::Same } else { Lying::Other }
}

/// A file that cannot be copied.
#[derive(Debug, thiserror::Error)]
#[error("{} cannot be copied to {}: {why}", plain::line(&.file.display().to_string()), .to.as_str())]
pub struct NotCopied {
    /// The file.
    pub file: PathBuf,
    /// To where.
    pub to: PicturePath,
    /// What stood in the way.
    pub why: String,
}

/// Copies the files; where one cannot be copied, none stays.
///
/// # Errors
/// [`NotCopied`] names the first that cannot.
pub fn copy(album: &Album, copies: &[Copying]) -> Result<(), NotCopied> {
    for (at, copying) in copies.iter().enumerate() {
        let done = read(&copying.file, copying.content)
            .and_then(|bytes| album.add(&copying.to, &bytes).map_err(|error| error.to_string()));
        if let Err(why) = done {
            copies[..at].iter().for_each(|copying| album.take_back(&copying.to));
            return Err(NotCopied { file: copying.file.clone(), to: copying.to.clone(), why });
        }
    }
    Ok(())
}

/// Takes copies back for which the edit could not be made, but none that a record of `board` names: an edit that ended
/// half way has written some of its records.
pub fn take_back(album: &Album, copies: &[Copying], board: &Board) {
    let named: HashSet<&PicturePath> = pictures(board).collect();
    for copying in copies.iter().filter(|copying| !named.contains(&copying.to)) {
        album.take_back(&copying.to);
    }
}

fn read(path: &Path, content: Content) -> Result<Vec<u8>, String> {
    let bytes = file::bytes(path, MOST_BYTES).map_err(|error| error.to_string())?;
    // What is no file by now, or has grown too large, has changed too.
    bytes
        .filter(|bytes| Content::of(bytes) == content)
        .ok_or_else(|| "it has changed since it was looked at".to_owned())
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;
    use crate::board::sample;

    /// A board's folder and, beside it, a file for each text, to be copied to `images/a.png`, `images/b.png` and so on.
    fn copies(texts: &[&str]) -> (tempfile::TempDir, Album, Vec<Copying>) {
        let place = tempfile::tempdir().unwrap();
        let board = place.path().join("board");
        fs::create_dir(&board).unwrap();
        let copies = texts.iter().zip('a'..).map(|(text, letter)| {
            let file = place.path().join(format!("{letter}.png"));
            fs::write(&file, text).unwrap();
            let to = format!("images/{letter}.png").parse().unwrap();
            Copying { file, to, content: Content::of(text.as_bytes()) }
        });
        let copies = copies.collect();
        let album = Album::of(&board);
        (place, album, copies)
    }

    #[test]
    fn a_file_that_changed_is_named_with_its_target_and_no_copy_stays() {
        let (_place, album, copies) = copies(&["one", "two"]);
        fs::write(&copies[1].file, "too").unwrap();
        let error = copy(&album, &copies).unwrap_err().to_string();
        assert!(error.contains("b.png cannot be copied to images/b.png: it has changed"), "{error}");
        assert!(album.is_free(&copies[0].to) && album.is_free(&copies[1].to));
    }

    #[cfg(unix)]
    #[test]
    fn a_file_that_became_a_pipe_is_not_waited_for() {
        let (_place, album, copies) = copies(&["one"]);
        fs::remove_file(&copies[0].file).unwrap();
        assert!(std::process::Command::new("mkfifo").arg(&copies[0].file).status().unwrap().success());
        let error = copy(&album, &copies).unwrap_err();
        assert_eq!(error.why, "it has changed since it was looked at");
    }

    #[test]
    fn a_copy_that_a_record_names_is_not_taken_back() {
        let (_place, album, copies) = copies(&["one", "two"]);
        copy(&album, &copies).unwrap();
        let board = sample::board();
        let mut after = board.records().clone();
        let smock = after.outfits.get_mut(&"smock".parse().unwrap()).unwrap();
        std::sync::Arc::make_mut(smock).pictures.push(copies[0].to.clone());
        let mut half_way = board.clone();
        half_way.apply(&crate::board::Edit::between("half", board.records(), &after)).unwrap();
        take_back(&album, &copies, &half_way);
        assert!(!album.is_free(&copies[0].to), "its outfit names it");
        assert!(album.is_free(&copies[1].to));
    }

    #[test]
    fn what_lies_at_a_path_is_nothing_or_the_same_or_another() {
        let (_place, album, copies) = copies(&["one"]);
        let lying = |text: &str| lying(&album, &copies[0].to, Content::of(text.as_bytes()));
        assert_eq!(lying("one"), Lying::Nothing);
        copy(&album, &copies).unwrap();
        assert_eq!([lying("one"), lying("two"), lying("longer")], [Lying::Same, Lying::Other, Lying::Other]);
    }
}
