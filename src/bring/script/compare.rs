//! What has changed from one draft to another, scene by scene.

use std::collections::BTreeSet;

use super::draft::{Draft, DraftScene};
use super::likeness::same_heading;
use super::matching;
use super::numbering;
use crate::board::{CharacterId, LookId, SceneNumber};
use crate::trade::eighths::Eighths;

/// Two drafts beside each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// Which scene of the first draft is which of the second, by their places.
    pub pairs: Vec<(usize, usize)>,
    /// The number of each scene of the second draft: its own, else that of the first draft, else a free one.
    pub numbers: Vec<SceneNumber>,
    /// What has changed: scene by scene in the order of the second draft, then what was cut.
    pub changes: Vec<Change>,
}

impl Comparison {
    /// How many scenes are cut.
    pub fn cut(&self) -> usize {
        self.changes.iter().filter(|change| matches!(change.what, What::Cut(..))).count()
    }
}

/// One thing that has changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// The scene's number in the second draft; of a scene that is cut, in the first, where it has one.
    pub scene: Option<SceneNumber>,
    /// Its heading, likewise.
    pub heading: String,
    /// The line of its heading in the script that the draft was read from.
    pub line: Option<usize>,
    /// What.
    pub what: What,
}

/// What has changed of a scene.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// It is new, and so long.
    Added(Eighths),
    /// It is gone, was so long, and these were in it.
    Cut(Eighths, Vec<CharacterId>),
    /// It stands elsewhere in the story: now behind this one, or first.
    Moved(Option<SceneNumber>),
    /// It had this number.
    Renumbered(SceneNumber),
    /// It has this heading, and had another or none.
    Reheaded(String),
    /// It was so long and is longer.
    Grown(Eighths, Eighths),
    /// It was so long and is shorter.
    Shrunk(Eighths, Eighths),
    /// Somebody is in it who was not.
    ComesIn(CharacterId),
    /// Somebody was in it who is not, and was in this look, where the first draft has one.
    GoesOut(CharacterId, Option<LookId>),
}

impl What {
    /// Its stable name.
    pub fn key(&self) -> &'static str {
        match self {
            Self::Added(_) => "added",
            Self::Cut(..) => "cut",
            Self::Moved(_) => "moved",
            Self::Renumbered(_) => "renumbered",
            Self::Reheaded(_) => "reheaded",
            Self::Grown(..) => "grown",
            Self::Shrunk(..) => "shrunk",
            Self::ComesIn(_) => "comes-in",
            Self::GoesOut(..) => "goes-out",
        }
    }
}

/// Compares two drafts. `outside` are the numbers of scenes that are in neither, since they are of another part of the
/// script: no new scene gets one of them, and a new one at an end of the part is numbered between its neighbours.
pub fn compare(before: &Draft, after: &Draft, outside: &[SceneNumber]) -> Comparison {
    let pairs = matching::pairs(before, after);
    let mut was = vec![None; after.scenes.len()];
    for (from, to) in &pairs {
        was[*to] = Some(*from);
    }
    let numbers = numbers(before, after, &was, outside);
    let destinations: Vec<usize> = pairs.iter().map(|(_, to)| *to).collect();
    let stays = matching::longest_rise(&destinations);
    let mut moved = vec![false; after.scenes.len()];
    for (to, stays) in destinations.into_iter().zip(stays) {
        moved[to] = !stays;
    }
    let mut changes = Vec::new();
    for (at, scene) in after.scenes.iter().enumerate() {
        let change = |what| Change {
            scene: Some(numbers[at].clone()),
            heading: scene.heading.clone(),
            line: scene.line,
            what,
        };
        let Some(old) = was[at].map(|from| &before.scenes[from]) else {
            changes.push(change(What::Added(scene.length)));
            continue;
        };
        if moved[at] {
            let behind = at.checked_sub(1).map(|before| numbers[before].clone());
            changes.push(change(What::Moved(behind)));
        }
        let renumbered = old.number.clone().filter(|number| *number != numbers[at]);
        changes.extend(renumbered.map(|number| change(What::Renumbered(number))));
        changes.extend(differences(old, scene).into_iter().map(change));
    }
    let kept: BTreeSet<usize> = pairs.iter().map(|(from, _)| *from).collect();
    for (_, scene) in before.scenes.iter().enumerate().filter(|(at, _)| !kept.contains(at)) {
        changes.push(Change {
            scene: scene.number.clone(),
            heading: scene.heading.clone(),
            line: scene.line,
            what: What::Cut(scene.length, scene.present.clone()),
        });
    }
    Comparison { pairs, numbers, changes }
}

/// What has changed within a scene.
fn differences(old: &DraftScene, new: &DraftScene) -> Vec<What> {
    let mut all = Vec::new();
    if reheaded(old, new) {
        all.push(What::Reheaded(old.heading.clone()));
    }
    if new.length > old.length {
        all.push(What::Grown(old.length, new.length));
    } else if new.length < old.length {
        all.push(What::Shrunk(old.length, new.length));
    }
    let only = |here: &DraftScene, there: &DraftScene| -> Vec<CharacterId> {
        let missing = |id: &&CharacterId| !there.present.contains(id) && !there.named.contains(id);
        here.present.iter().filter(missing).cloned().collect()
    };
    all.extend(only(new, old).into_iter().map(What::ComesIn));
    let out = |who: CharacterId| {
        let look = old.looks.get(&who).cloned();
        What::GoesOut(who, look)
    };
    all.extend(only(old, new).into_iter().map(out));
    all
}

/// Whether the heading says something else; one that is left out says nothing.
pub(super) fn reheaded(old: &DraftScene, new: &DraftScene) -> bool {
    !new.heading.is_empty() && same_heading(&old.heading) != same_heading(&new.heading)
}

fn numbers(
    before: &Draft,
    after: &Draft,
    was: &[Option<usize>],
    outside: &[SceneNumber],
) -> Vec<SceneNumber> {
    let mut numbers: Vec<Option<SceneNumber>> =
        after.scenes.iter().map(|scene| scene.number.clone()).collect();
    let mut taken: BTreeSet<SceneNumber> = outside.iter().chain(numbers.iter().flatten()).cloned().collect();
    for (number, was) in numbers.iter_mut().zip(was) {
        let old = was.and_then(|from| before.scenes[from].number.clone());
        if number.is_none()
            && let Some(old) = old.filter(|old| !taken.contains(old))
        {
            taken.insert(old.clone());
            *number = Some(old);
        }
    }
    let mut all: Vec<SceneNumber> = Vec::with_capacity(numbers.len());
    for at in 0..numbers.len() {
        let number = numbers[at].take().unwrap_or_else(|| {
            let next = numbers[at + 1..].iter().flatten().next();
            let last = all.last();
            let below = || outside.iter().filter(|number| next.is_none_or(|next| *number < next)).max();
            let above = || outside.iter().filter(|number| last.is_none_or(|last| *number > last)).min();
            let number = match (last, next) {
                (None, None) => numbering::between(None, None, &taken),
                (last, next) => numbering::between(last.or_else(below), next.or_else(above), &taken),
            };
            taken.insert(number.clone());
            number
        });
        all.push(number);
    }
    all
}
