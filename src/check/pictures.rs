//! Pictures that outfits name and that are not where they should be.
//!
//! Whether a file is there the board cannot know; whoever holds its folder says so.

use super::words::{listed, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, PicturePath};

pub(super) fn findings(board: &Board, is_there: &dyn Fn(&PicturePath) -> bool) -> Vec<Finding> {
    let mut found = Vec::new();
    for id in board.relations().outfits_by_date() {
        let Some(outfit) = board.outfit(id) else { continue };
        let missing = outfit.pictures.iter().filter(|path| !is_there(path));
        let missing: Vec<String> = missing.map(|path| quoted(path.as_str())).collect();
        if missing.is_empty() {
            continue;
        }
        let (verb, them) = if missing.len() == 1 { ("is", "it") } else { ("are", "them") };
        found.push(Finding {
            name: "picture-missing",
            level: Level::Warning,
            about: About::Outfit(id.clone()),
            text: format!(
                "{} {verb} not in the board's folder, but {} names {them}.",
                listed(&missing),
                quoted(board.title_of_outfit(id))
            ),
            todo: format!("Put {them} there, correct the path, or take the name out."),
        });
    }
    found
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::sample::board;
    use super::*;

    #[test]
    fn a_picture_that_is_not_there_is_found_and_one_that_is_there_is_not() {
        let board = board(json!({
            "outfits": {"smock": {"worn": "1920", "pictures": ["images/a.jpg", "images/b.jpg", "images/c.jpg"]}},
        }));
        let found = findings(&board, &|path| path.as_str() == "images/a.jpg");
        let texts: Vec<&str> = found.iter().map(|finding| finding.text.as_str()).collect();
        assert_eq!(
            texts,
            ["“images/b.jpg” and “images/c.jpg” are not in the board's folder, but “smock” names them."]
        );
        assert!(findings(&board, &|_| true).is_empty());
    }
}
