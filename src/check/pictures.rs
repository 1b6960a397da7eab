//! Pictures that outfits or fittings name and that are not where they should be.
//!
//! Whether a file is there the board cannot know; whoever holds its folder says so.

use super::words::{listed, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, PicturePath};

/// What is known of a picture's file without reading it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sight {
    /// It is there.
    There,
    /// Nothing is there.
    Missing,
    /// Something is there that cannot be shown, for this reason.
    Unseen(String),
}

pub(super) fn findings(board: &Board, look: &dyn Fn(&PicturePath) -> Sight) -> Vec<Finding> {
    let mut found = Vec::new();
    for id in board.relations().outfits_by_date() {
        let Some(outfit) = board.outfit(id) else { continue };
        of(&mut found, &About::Outfit(id.clone()), board.title_of_outfit(id), &outfit.pictures, look);
    }
    for id in board.relations().looks_by_order() {
        let Some(of_look) = board.look(id) else { continue };
        for fitting in &of_look.fittings {
            of(&mut found, &About::Look(id.clone()), &of_look.title, &fitting.pictures, look);
        }
    }
    found
}

fn of(
    found: &mut Vec<Finding>,
    about: &About,
    title: &str,
    pictures: &[PicturePath],
    look: &dyn Fn(&PicturePath) -> Sight,
) {
    let sights: Vec<(&PicturePath, Sight)> = pictures.iter().map(|path| (path, look(path))).collect();
    let missing = sights.iter().filter(|(_, sight)| *sight == Sight::Missing).map(|(path, _)| *path);
    found.extend(finding(about.clone(), title, missing));
    found.extend(sights.iter().filter_map(|(path, sight)| {
        let Sight::Unseen(why) = sight else { return None };
        Some(Finding {
            name: "picture-unseen",
            level: Level::Warning,
            about: about.clone(),
            text: format!("{} of {} cannot be shown: {why}.", quoted(path.as_str()), quoted(title)),
            todo: "Put a picture's file in its place, or take the name out.".to_owned(),
        })
    }));
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
        let found = findings(&board, &|path| {
            if path.as_str() == "images/a.jpg" { Sight::There } else { Sight::Missing }
        });
        let texts: Vec<&str> = found.iter().map(|finding| finding.text.as_str()).collect();
        assert_eq!(
            texts,
            ["“images/b.jpg” and “images/c.jpg” are not in the board's folder, but “smock” names them."]
        );
        assert!(findings(&board, &|_| Sight::There).is_empty());
    }

    #[test]
    fn a_photograph_of_a_fitting_that_is_not_there_is_found() {
        let fittings = json!([{"on": "2027-02-01", "pictures": ["images/fitting.jpg"]}]);
        let board = board(json!({
            "outfits": {"smock": {"worn": "1920"}},
            "looks": {"quay": {"base": "smock", "fittings": fittings}},
        }));
        let found = findings(&board, &|_| Sight::Missing);
        assert_eq!(found.len(), 1);
        assert!(found[0].text.starts_with("“images/fitting.jpg” is not"), "{}", found[0].text);
        assert!(findings(&board, &|_| Sight::There).is_empty());
    }

    #[test]
    fn what_is_there_and_cannot_be_shown_is_found_with_the_reason() {
        let board = board(json!({"outfits": {"smock": {"worn": "1920", "pictures": ["images"]}}}));
        let found = findings(&board, &|_| Sight::Unseen("this is no file".to_owned()));
        let told: Vec<(&str, &str)> =
            found.iter().map(|finding| (finding.name, finding.text.as_str())).collect();
        assert_eq!(told, [("picture-unseen", "“images” of “smock” cannot be shown: this is no file.")]);
    }
}
