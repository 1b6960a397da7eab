//! Pictures that outfits or fittings name and that are not where they should be.
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
        found.extend(finding(About::Outfit(id.clone()), board.title_of_outfit(id), missing));
    }
    for id in board.relations().looks_by_order() {
        let Some(look) = board.look(id) else { continue };
        let missing =
            look.fittings.iter().flat_map(|fitting| &fitting.pictures).filter(|path| !is_there(path));
        found.extend(finding(About::Look(id.clone()), &look.title, missing));
    }
    found
}

fn finding<'a>(about: About, title: &str, missing: impl Iterator<Item = &'a PicturePath>) -> Option<Finding> {
    let missing: Vec<String> = missing.map(|path| quoted(path.as_str())).collect();
    if missing.is_empty() {
        return None;
    }
    let (verb, them) = if missing.len() == 1 { ("is", "it") } else { ("are", "them") };
    Some(Finding {
        name: "picture-missing",
        level: Level::Warning,
        about,
        text: format!(
            "{} {verb} not in the board's folder, but {} names {them}.",
            listed(&missing),
            quoted(title)
        ),
        todo: format!("Put {them} there, correct the path, or take the name out."),
    })
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

    #[test]
    fn a_photograph_of_a_fitting_that_is_not_there_is_found() {
        let fittings = json!([{"on": "2027-02-01", "pictures": ["images/fitting.jpg"]}]);
        let board = board(json!({
            "outfits": {"smock": {"worn": "1920"}},
            "looks": {"quay": {"base": "smock", "fittings": fittings}},
        }));
        let found = findings(&board, &|_| false);
        assert_eq!(found.len(), 1);
        assert!(found[0].text.starts_with("“images/fitting.jpg” is not"), "{}", found[0].text);
        assert!(findings(&board, &|_| true).is_empty());
    }
}
