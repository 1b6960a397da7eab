//! A draft onto the board, as one edit.
//!
//! A scene that is recognised keeps everything that the script does not tell: its looks, story day, date, period, action,
//! notes, and its set where that is not the heading's. A scene that is cut leaves its looks on the board and the schedule
//! without it; whatever names a scene follows its number.

use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

use super::cast::capitalised;
use super::compare::{Comparison, compare, reheaded};
use super::draft::{Draft, DraftScene};
use super::heading;
use super::likeness::same_heading;
use super::part::Part;
use crate::board::renumber::{self, Renumbering};
use crate::board::{Board, Edit, Records, Scene, SceneNumber};

/// Why a draft does not go onto a board.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unfit {
    /// The draft has a scene that is not of its part.
    #[error("line {line}: scene {number} is not in the part {part}")]
    OutsidePart {
        /// The line of its heading.
        line: usize,
        /// Its number, or the one that it would get.
        number: SceneNumber,
        /// The part.
        part: String,
    },
    /// The board has two scenes with one number.
    #[error("the board has two scenes with the number {0}, so none can be told from the other")]
    SameNumber(SceneNumber),
}

impl Unfit {
    /// What to do about it.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::OutsidePart { .. } => {
                "name a part that has it, or leave `--part` out for a whole script; a part keeps to the numbers that the board has for it, and a new scene gets a letter, such as `26B`"
            }
            Self::SameNumber(_) => "give one of them a letter in scenes.yaml first",
        }
    }
}

/// What a draft changes on a board, and the edit that does it. With a part, scenes of the board outside of it stay as
/// they are.
///
/// # Errors
/// [`Unfit`].
pub fn edit(board: &Board, draft: &Draft, part: Option<&Part>) -> Result<(Comparison, Edit), Unfit> {
    fits(board, draft, part)?;
    let before = Draft::of_board(board, part);
    let outside = |scene: &&Scene| part.is_some_and(|part| !part.holds(&scene.number));
    let outside: Vec<SceneNumber> =
        board.scenes().filter(outside).map(|scene| scene.number.clone()).collect();
    let comparison = compare(&before, draft, &outside);
    stays_within(part, draft.scenes.iter().zip(&comparison.numbers))?;
    let after = records(board, &before, draft, &comparison, part);
    let label = match part {
        Some(part) => format!("script brought in, scenes {part}"),
        None => "script brought in".to_owned(),
    };
    Ok((comparison, Edit::between(label, board.records(), &after)))
}

/// The fewest cut scenes that make a script look like a part.
const MANY: usize = 3;

/// Whether a draft cuts so much of the board, more than every third scene, that it looks like a script of only a part.
pub fn looks_partial(board: &Board, comparison: &Comparison) -> bool {
    let cut = comparison.cut();
    cut >= MANY && cut * 3 > board.scenes().len()
}

fn fits(board: &Board, draft: &Draft, part: Option<&Part>) -> Result<(), Unfit> {
    let mut seen = BTreeSet::new();
    if let Some(scene) = board.scenes().find(|scene| !seen.insert(&scene.number)) {
        return Err(Unfit::SameNumber(scene.number.clone()));
    }
    stays_within(part, draft.scenes.iter().filter_map(|scene| Some((scene, scene.number.as_ref()?))))
}

/// Each of these scenes with its number has to be one of the part, or the part brought in again would not find it.
fn stays_within<'a>(
    part: Option<&Part>,
    mut scenes: impl Iterator<Item = (&'a DraftScene, &'a SceneNumber)>,
) -> Result<(), Unfit> {
    let Some(part) = part else { return Ok(()) };
    match scenes.find(|(_, number)| !part.holds(number)) {
        Some((scene, number)) => Err(Unfit::OutsidePart {
            line: scene.line.unwrap_or_default(),
            number: number.clone(),
            part: part.to_string(),
        }),
        None => Ok(()),
    }
}

/// The board's records as they become.
fn records(
    board: &Board,
    before: &Draft,
    draft: &Draft,
    comparison: &Comparison,
    part: Option<&Part>,
) -> Records {
    let mut records = board.records().clone();
    let within = |scene: &Scene| part.is_none_or(|part| part.holds(&scene.number));
    let old: Vec<Arc<Scene>> = records.scenes.iter().filter(|scene| within(scene)).cloned().collect();
    let sets = Sets::of(board);
    let mut was = vec![None; draft.scenes.len()];
    let mut renumbering: Renumbering = old.iter().map(|scene| (scene.number.clone(), None)).collect();
    for (from, to) in &comparison.pairs {
        was[*to] = Some(*from);
        renumbering.insert(old[*from].number.clone(), Some(comparison.numbers[*to].clone()));
    }
    let scenes: Vec<Arc<Scene>> = draft
        .scenes
        .iter()
        .enumerate()
        .map(|(at, new)| {
            let number = comparison.numbers[at].clone();
            match was[at] {
                Some(from) => kept(&sets, &old[from], &before.scenes[from], new, number),
                None => Arc::new(added(&sets, new, number)),
            }
        })
        .collect();
    let all = merged(&records.scenes, scenes, &was, part);
    let before = std::mem::replace(&mut records.scenes, all);
    renumber::follow(&mut records, &before, &renumbering);
    records
}

/// A scene that is recognised.
fn kept(
    sets: &Sets<'_>,
    scene: &Arc<Scene>,
    old: &DraftScene,
    new: &DraftScene,
    number: SceneNumber,
) -> Arc<Scene> {
    let mut becomes = Scene::clone(scene);
    becomes.number = number;
    becomes.pages = new.length;
    if reheaded(old, new) {
        if same_heading(&scene.set) == same_heading(&old.set) {
            becomes.set = sets.name(new);
        }
        becomes.heading.clone_from(&new.heading);
        becomes.place = new.place.or(scene.place);
        becomes.light = new.light.or(scene.light);
    }
    for id in old.present.iter().filter(|id| !new.present.contains(id) && !new.named.contains(id)) {
        becomes.wears.remove(id);
    }
    for id in new.present.iter().filter(|id| !old.present.contains(id)) {
        becomes.wears.set(id.clone(), None);
    }
    if becomes == **scene { Arc::clone(scene) } else { Arc::new(becomes) }
}

/// A scene that is new: nobody in it has a look yet.
fn added(sets: &Sets<'_>, new: &DraftScene, number: SceneNumber) -> Scene {
    Scene {
        heading: new.heading.clone(),
        set: sets.name(new),
        place: new.place,
        light: new.light,
        pages: new.length,
        wears: new.present.iter().map(|id| (id.clone(), None)).collect(),
        action: new.opening.clone(),
        ..Scene::numbered(number)
    }
}

/// What the board calls the sets of its headings, by what is the same of a heading; the first scene of a set names it.
struct Sets<'a>(HashMap<String, &'a str>);

impl<'a> Sets<'a> {
    fn of(board: &'a Board) -> Self {
        let mut sets = HashMap::new();
        for scene in board.scenes().filter(|scene| !scene.set.is_empty()) {
            sets.entry(same_heading(&heading::read(&scene.heading).set)).or_insert(scene.set.as_str());
        }
        Self(sets)
    }

    /// The set of a heading as the board calls it elsewhere; else the heading's words, each with a capital letter.
    fn name(&self, new: &DraftScene) -> String {
        self.0.get(&same_heading(&new.set)).map_or_else(|| capitalised(&new.set), |name| (*name).to_owned())
    }
}

/// The draft's scenes among those outside of its part, each of which stays behind the scene that it stood behind.
fn merged(
    board: &[Arc<Scene>],
    draft: Vec<Arc<Scene>>,
    was: &[Option<usize>],
    part: Option<&Part>,
) -> Vec<Arc<Scene>> {
    let Some(part) = part else { return draft };
    let now: HashMap<usize, usize> =
        was.iter().enumerate().filter_map(|(at, from)| Some(((*from)?, at))).collect();
    let none_within = !board.iter().any(|scene| part.holds(&scene.number));
    // Behind which of the draft's scenes each of the others goes; `None` is in front of all.
    let mut behind: Option<usize> = None;
    let mut within = 0;
    let mut others: Vec<(Option<usize>, Arc<Scene>)> = Vec::new();
    for scene in board {
        if part.holds(&scene.number) {
            behind = now.get(&within).copied().or(behind);
            within += 1;
        } else {
            // A part of which the board has nothing yet goes where its numbers belong.
            let later = none_within && scene.number > part.last;
            let all = draft.len().checked_sub(1);
            others.push((if later { all } else { behind }, Arc::clone(scene)));
        }
    }
    let mut scenes = Vec::with_capacity(draft.len() + others.len());
    let of = |place: Option<usize>| {
        others.iter().filter(move |(at, _)| *at == place).map(|(_, scene)| Arc::clone(scene))
    };
    scenes.extend(of(None));
    for (at, scene) in draft.into_iter().enumerate() {
        scenes.push(scene);
        scenes.extend(of(Some(at)));
    }
    scenes
}

#[cfg(test)]
mod tests {
    use super::*;

    fn no_scenes() -> Records {
        let head = serde_json::json!({"shirr": 1, "id": "lamp", "title": "The Lamp"});
        Records::of(Arc::new(serde_json::from_value(head).unwrap()))
    }

    #[test]
    fn a_set_is_called_as_the_first_scene_in_it_calls_it() {
        let mut records = no_scenes();
        for (number, heading, set) in [
            (1, "INT. LAMP ROOM - DAY", ""),
            (2, "INT. LAMP ROOM - NIGHT", "Lantern, upper deck"),
            (3, "INT. LAMP ROOM - DUSK", "Lamp"),
        ] {
            let scene = serde_json::json!({"scene": number, "heading": heading, "set": set});
            records.scenes.push(serde_json::from_value(scene).unwrap());
        }
        let board = Board::new(records);
        let sets = Sets::of(&board);
        let name = |set: &str| sets.name(&DraftScene { set: set.to_owned(), ..DraftScene::default() });
        assert_eq!([name("lamp  room"), name("COAL STORE")], ["Lantern, upper deck", "Coal Store"]);
    }
}
