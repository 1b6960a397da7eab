//! Changes in words, the same for the terminal and for paper.

use super::compare::{Change, Comparison, What};
use crate::board::Board;
use crate::check::words::{counted, listed};

impl What {
    /// In a few words, with what it was.
    pub fn words(&self, board: &Board) -> String {
        match self {
            Self::Added(length) => format!("new, {length} pages"),
            Self::Cut(length) => format!("gone, was {length} pages"),
            Self::Moved(Some(behind)) => format!("now behind {behind}"),
            Self::Moved(None) => "now first".to_owned(),
            Self::Renumbered(from) => format!("was {from}"),
            Self::Reheaded(from) if from.is_empty() => "had no heading".to_owned(),
            Self::Reheaded(from) => format!("was {from}"),
            Self::Grown(from, to) | Self::Shrunk(from, to) => format!("{from} → {to} pages"),
            Self::ComesIn(who) | Self::GoesOut(who) => board.name_of(who).to_owned(),
        }
    }
}

/// The number and the heading of a change's scene, or what there is of them.
pub fn heading_of(change: &Change) -> String {
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
