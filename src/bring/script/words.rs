//! Changes in words, the same for the terminal and for paper.

use super::compare::{Change, Comparison, What};
use crate::board::{Board, CharacterId, LookId, Scene};
use crate::check::words::{capital, counted, listed, look_title};

impl What {
    /// What happened to the scene, in a word or two.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Added(_) => "added",
            Self::Cut(..) => "cut",
            Self::Moved(_) => "moved",
            Self::Renumbered(_) => "renumbered",
            Self::Reheaded(_) => "other heading",
            Self::Grown(..) => "longer",
            Self::Shrunk(..) => "shorter",
            Self::ComesIn(_) => "comes in",
            Self::GoesOut(..) => "goes out",
        }
    }

    /// What it was, where it was something.
    pub fn was(&self, board: &Board) -> Option<String> {
        match self {
            Self::Cut(length, _) | Self::Grown(length, _) | Self::Shrunk(length, _) => {
                Some(length.in_pages())
            }
            Self::Renumbered(number) => Some(number.to_string()),
            Self::Reheaded(heading) => Some(heading.clone()).filter(|heading| !heading.is_empty()),
            Self::GoesOut(who, look) => Some(left(board, who, look.as_ref())),
            Self::Added(_) | Self::Moved(_) | Self::ComesIn(_) => None,
        }
    }

    /// What it becomes, where that is not said by the scene's own number and heading.
    pub fn becomes(&self, board: &Board) -> Option<String> {
        match self {
            Self::Added(length) | Self::Grown(_, length) | Self::Shrunk(_, length) => Some(length.in_pages()),
            Self::Moved(Some(behind)) => Some(format!("behind {behind}")),
            Self::Moved(None) => Some("first".to_owned()),
            Self::ComesIn(who) => Some(board.name_of(who).to_owned()),
            Self::Cut(..) | Self::Renumbered(_) | Self::Reheaded(_) | Self::GoesOut(..) => None,
        }
    }

    /// Both in a few words.
    pub fn words(&self, board: &Board) -> String {
        match (self, self.was(board), self.becomes(board)) {
            (_, Some(was), Some(becomes)) => format!("{was} → {becomes}"),
            (Self::GoesOut(..), Some(who), None) => who,
            (_, Some(was), None) => format!("was {was}"),
            (_, None, Some(becomes)) => becomes,
            (_, None, None) => "had none".to_owned(),
        }
    }
}

/// Who goes out, and what is worn there no longer: `Odile Maren (The crossing black)`.
fn left(board: &Board, who: &CharacterId, look: Option<&LookId>) -> String {
    let look = look.map(|look| format!(" ({})", look_title(board, look))).unwrap_or_default();
    format!("{}{look}", board.name_of(who))
}

/// The scene of the board that a change cuts: the looks that are worn there lose it.
pub fn cut_scene<'a>(board: &'a Board, change: &Change) -> Option<&'a Scene> {
    let cut = matches!(change.what, What::Cut(..));
    change.scene.as_ref().filter(|_| cut).and_then(|number| board.scene(number))
}

/// What a change is in a few words, with what was worn where a scene is cut: the same line for the terminal and the
/// screen.
pub fn told(board: &Board, change: &Change) -> String {
    let worn = cut_scene(board, change).map(|scene| worn(board, scene)).unwrap_or_default();
    let worn = if worn.is_empty() { String::new() } else { format!(" ({})", worn.join("; ")) };
    format!("{}: {}{worn}", heading_of(change), change.what.words(board))
}

/// Who is in a scene of the board, and in which look: `Odile Maren: The crossing black`.
pub fn worn(board: &Board, scene: &Scene) -> Vec<String> {
    let wears = scene.wears.iter();
    wears
        .map(|(who, look)| {
            let look = look.as_ref().map_or("no look yet", |look| look_title(board, look));
            capital(&format!("{}: {look}", board.name_of(who)))
        })
        .collect()
}

/// The number and the heading of a change's scene, or what there is of them.
fn heading_of(change: &Change) -> String {
    let number = change.scene.as_ref().map(ToString::to_string);
    let parts = [number.unwrap_or_default(), change.heading.clone()];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
}

/// How many scenes are added, cut and so on: `two scenes added, one scene cut and one scene longer`.
pub fn summary(comparison: &Comparison) -> String {
    let said = [
        ("added", "added"),
        ("cut", "cut"),
        ("moved", "moved"),
        ("renumbered", "renumbered"),
        ("reheaded", "under another heading"),
        ("grown", "longer"),
        ("shrunk", "shorter"),
    ];
    let mut parts: Vec<String> = said
        .into_iter()
        .map(|(key, word)| (count(comparison, key), word))
        .filter(|(count, _)| *count > 0)
        .map(|(count, word)| format!("{} {word}", counted(count, "scene")))
        .collect();
    let people = count(comparison, "comes-in") + count(comparison, "goes-out");
    if people > 0 {
        let noun = if people == 1 { "coming or going" } else { "comings and goings" };
        parts.push(format!("{people} {noun}"));
    }
    if parts.is_empty() { "nothing has changed".to_owned() } else { listed(&parts) }
}

fn count(comparison: &Comparison, key: &str) -> usize {
    comparison.changes.iter().filter(|change| change.what.key() == key).count()
}
