//! What the binary carries with it: the starters that `shirr new` copies.

use std::borrow::Cow;
use std::collections::hash_map::RandomState;
use std::hash::{BuildHasher, Hasher};
use std::path::PathBuf;

use clap::builder::{PossibleValue, PossibleValuesParser};
use include_dir::{Dir, DirEntry, include_dir};

use super::failure::Failure;
use crate::board::{Head, Id};
use crate::store;

static STARTERS: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/boards");

/// The starter that is copied where none is named.
pub(super) const USUAL: &str = "one-life";

/// A file of a board to be: its path in the folder, and its bytes.
pub(super) type BoardFile = (PathBuf, Cow<'static, [u8]>);

/// The names of the starters, each with the first line of its `board.yaml`.
pub(super) fn parser() -> PossibleValuesParser {
    let value = |dir: &'static Dir<'static>| {
        let name = dir.path().file_name()?.to_str()?;
        let head = dir.get_file(dir.path().join("board.yaml"))?.contents_utf8()?;
        let about = head.lines().next().unwrap_or_default().trim_start_matches(['#', ' ']);
        Some(PossibleValue::new(name).help(about))
    };
    PossibleValuesParser::new(STARTERS.dirs().filter_map(value).collect::<Vec<_>>())
}

/// The files of a starter as those of a board of its own with this title.
pub(super) fn files(starter: &str, title: &str) -> Result<Vec<BoardFile>, Failure> {
    let dir =
        STARTERS.get_dir(starter).ok_or_else(|| Failure::new(format!("there is no starter `{starter}`")))?;
    files_of(dir, title)
}

/// The files below an embedded folder as those of a board of its own with this title.
pub(super) fn files_of(dir: &'static Dir<'static>, title: &str) -> Result<Vec<BoardFile>, Failure> {
    let mut files = Vec::new();
    let mut dirs = vec![dir];
    while let Some(next) = dirs.pop() {
        for entry in next.entries() {
            match entry {
                DirEntry::Dir(below) => dirs.push(below),
                DirEntry::File(file) => {
                    let path = file.path().strip_prefix(dir.path()).unwrap_or(file.path()).to_path_buf();
                    files.push((path, Cow::Borrowed(file.contents())));
                }
            }
        }
    }
    files.sort_by(|(one, _), (other, _)| one.cmp(other));
    for (path, bytes) in &mut files {
        if path.as_os_str() == "board.yaml" {
            let text = String::from_utf8_lossy(bytes).into_owned();
            *bytes = Cow::Owned(store::head_as(&text, title, &own_id(title))?.into_bytes());
        }
    }
    Ok(files)
}

/// An id from the title with letters drawn at random behind it, so that no two boards share one: what a machine keeps of
/// a board (the history behind undo above all) is filed under it.
#[expect(clippy::expect_used, reason = "an id from a title leaves room for eight more bytes")]
fn own_id(title: &str) -> Id<Head> {
    let mut drawn = RandomState::new().build_hasher().finish();
    let letters: String = std::iter::repeat_with(|| {
        let letter = LETTERS[(drawn % LETTERS.len() as u64) as usize];
        drawn /= LETTERS.len() as u64;
        char::from(letter)
    })
    .take(6)
    .collect();
    let stem = Id::<Head>::from_title(title);
    let stem = stem.as_ref().map_or("board", Id::as_str);
    format!("{stem}-{letters}").parse().expect("an id, with room for more behind it, and plain letters")
}

/// Letters and digits that are not mistaken for one another.
const LETTERS: &[u8] = b"23456789abcdefghjkmnpqrstvwxyz";

#[cfg(test)]
mod tests {
    use clap::builder::TypedValueParser;

    use super::*;

    #[test]
    fn every_starter_has_a_name_and_says_in_a_line_what_it_is() {
        let values: Vec<PossibleValue> = parser().possible_values().into_iter().flatten().collect();
        let names: Vec<&str> = values.iter().map(PossibleValue::get_name).collect();
        assert_eq!(names, ["blank", "one-life", "several-leads"]);
        for value in &values {
            assert!(value.get_help().is_some_and(|help| help.to_string().len() > 10), "{}", value.get_name());
        }
        assert!(names.contains(&USUAL));
    }

    #[test]
    fn every_board_has_an_id_of_its_own_whatever_its_title() {
        for (title, stem) in
            [("Night ferry", "night-ferry-"), ("***", "board-"), (&"long ".repeat(50), "long-")]
        {
            let (one, other) = (own_id(title), own_id(title));
            assert_ne!(one, other, "{title}");
            assert!(one.as_str().starts_with(stem), "{one}");
        }
    }
}
