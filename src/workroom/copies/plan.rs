//! How many copies the shooting days need of each version of each piece of each look, for each body that wears it, and
//! why.
//!
//! Every scene of a shooting day in which a character wears a look is a use of each of its pieces, in order. What is done
//! in the scene says in which version, what that does to it and how many copies one scene takes; where nothing is done
//! that concerns a piece, it is worn once as designed. Who acts for a character wears copies in their own size, of the
//! whole look where the scene names no pieces, and the character in the same scene wears theirs.
//!
//! An action that names pieces asks them for its version, whether they have it or not; one that concerns all pieces is
//! done in its version by those that have it, and so is what else is done in the scene without asking for any: who is
//! greased and swims is greased in what is wet then. Where nothing asks so, it is done as designed.
//!
//! Limits: pieces are told apart by look, so a coat that goes through two looks is counted in each; and copies are not
//! moved from one version to another.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::{Back, Need, Use, Whereabouts, hand_out, need, whereabouts};
use crate::board::{
    Action, ActionId, Board, BodyId, Character, Doing, Effect, Look, LookId, Practice, Role, Scene,
    SceneNumber, Version, VersionId,
};
use crate::trade::date::{Day, Precision};
use crate::workroom::fit::{version_of, wearer_of};

/// Copies of one garment whose days are told: as many as a board can plan.
const MOST_TOLD: usize = 255;
/// And of them those whose days are so many in all.
const MOST_DAYS: usize = 100_000;

/// What copies are copies of: a piece of a look, in a version, for a body.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Garment {
    /// The look.
    pub look: LookId,
    /// The piece, by its name.
    pub piece: String,
    /// The version.
    pub version: VersionId,
    /// Who wears it.
    pub wearer: BodyId,
}

/// A scene in which it is worn.
#[derive(Clone, Debug, PartialEq)]
pub struct Worn {
    /// The scene.
    pub scene: SceneNumber,
    /// The shooting day by its place in the schedule; `None` where the scene is on none.
    pub at: Option<usize>,
    /// What is done in it; nothing where it is only worn.
    pub actions: Vec<ActionId>,
    /// What that does to it.
    pub does: Effect,
    /// How many takes are planned.
    pub takes: u8,
    /// How many copies the scene takes, and when they come back.
    pub uses: Use,
}

/// How many copies there must be of something, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// Of what.
    pub garment: Garment,
    /// Every scene on a shooting day in which it is worn, in shooting order.
    pub worn: Vec<Worn>,
    /// Scenes in which it is worn and which no shooting day has.
    pub unplaced: Vec<Worn>,
    /// What the shooting days need, exactly.
    pub need: Need,
    /// Made besides, since copies are destroyed.
    pub spares: u32,
    /// The least that there is of anything that this body wears.
    pub least: u32,
    /// How many the board says are made or planned; `None` where it says so of nobody.
    pub planned: Option<u8>,
    /// Whether the piece has this version; every piece has the one as designed.
    pub is_there: bool,
}

/// Why there must be so many.
#[derive(Clone, Debug, PartialEq)]
pub enum Reason {
    /// So many are out of hand at once: the uses by their places, the last of which is the one that finds them out.
    OutAtOnce(Vec<usize>),
    /// With the scenes that no shooting day has, at least so many are needed.
    Unplaced(u32),
    /// One spare for each started so many of those that are destroyed.
    Spares {
        /// How many are spares.
        spares: u32,
        /// How many are destroyed.
        destroyed: u32,
    },
    /// There is never less of what a principal wears.
    Principal(u32),
}

/// All demands of a board.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The shooting days, as turnarounds count them.
    pub days: Days,
    /// Looks in their order, pieces, versions and wearers in theirs.
    pub demands: Vec<Demand>,
}

/// The shooting days, as turnarounds count them: by the calendar where every day has its date, else one after the other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Days {
    counts: Vec<i64>,
    dated: bool,
}

impl Days {
    /// Those of a board.
    pub fn of(board: &Board) -> Self {
        let schedule = &board.records().schedule;
        let dated: Option<Vec<i64>> = schedule
            .iter()
            .map(|day| day.date.as_ref().filter(|date| date.precision() == Precision::Day)?.earliest())
            .map(|day| day.map(Day::number))
            .collect();
        match dated {
            Some(counts) => Self { dated: !counts.is_empty(), counts },
            None => Self { counts: (0..).take(schedule.len()).collect(), dated: false },
        }
    }

    /// How a day of the schedule is counted.
    pub fn count(&self, at: usize) -> Option<i64> {
        self.counts.get(at).copied()
    }

    /// The date of a day of the schedule, where all have one.
    pub fn date(&self, at: usize) -> Option<Day> {
        self.dated.then(|| self.count(at).map(Day::from_number)).flatten()
    }
}

impl Plan {
    /// What the shooting days of a board need.
    pub fn of(board: &Board) -> Self {
        let days = Days::of(board);
        let practice = board.practice();
        let mut worn = Wearing { board, practice: &practice, of: BTreeMap::new() };
        let mut placed = vec![false; board.records().scenes.len()];
        for (at, day) in board.records().schedule.iter().enumerate() {
            for place in day.scenes.iter().filter_map(|number| board.relations().scene_at(number)) {
                placed[place] = true;
                worn.scene(&board.records().scenes[place], days.count(at).map(|count| (at, count)));
            }
        }
        for (scene, _) in board.scenes().zip(&placed).filter(|(_, placed)| !**placed) {
            worn.scene(scene, None);
        }
        worn.planned_and_unused();
        let mut demands: Vec<Demand> =
            worn.of.into_iter().map(|(garment, worn)| demand(board, &practice, garment, worn)).collect();
        let looks = board.relations().looks_by_order();
        let places: HashMap<&LookId, usize> = looks.iter().zip(0..).collect();
        let order = |demand: &Demand| Order::of(board, &places, &demand.garment);
        demands.sort_by_cached_key(order);
        Self { days, demands }
    }

    /// The demands of one look.
    pub fn of_look<'a>(&'a self, look: &'a LookId) -> impl Iterator<Item = &'a Demand> {
        self.demands.iter().filter(move |demand| demand.garment.look == *look)
    }
}

impl Demand {
    /// How many there must be.
    pub fn copies(&self) -> u32 {
        self.for_uses().max(self.least)
    }

    /// How many there must be for what is done in them alone, with spares, whoever wears them.
    pub fn for_uses(&self) -> u32 {
        self.needed().saturating_add(self.spares)
    }

    /// How many are reckoned with: those that must be, or those that are planned where they are more.
    pub fn made(&self) -> u32 {
        self.copies().max(self.planned.map_or(0, u32::from))
    }

    fn needed(&self) -> u32 {
        self.need.copies.max(self.unplaced_need())
    }

    /// The least that scenes on no shooting day take, whichever days they come to be on: what the heaviest takes at
    /// once, and all that is destroyed, since that never comes back.
    fn unplaced_need(&self) -> u32 {
        let heaviest = self.unplaced.iter().map(|worn| worn.uses.takes).max().unwrap_or(0);
        if destroyed(&self.unplaced) == 0 { heaviest } else { heaviest.max(self.destroyed()) }
    }

    /// Whether nothing in the script needs it.
    pub fn is_unused(&self) -> bool {
        self.worn.is_empty() && self.unplaced.is_empty()
    }

    /// The shooting day on which it is first worn, by its place in the schedule.
    pub fn first_day(&self) -> Option<usize> {
        self.worn.first().and_then(|worn| worn.at)
    }

    /// Why there must be so many, the heaviest reason first.
    pub fn reasons(&self) -> Vec<Reason> {
        let mut reasons = Vec::new();
        if let Some(fullest) = self.need.fullest {
            reasons.push(Reason::OutAtOnce(self.out_at(fullest)));
        }
        if self.unplaced_need() > self.need.copies {
            reasons.push(Reason::Unplaced(self.unplaced_need()));
        }
        if self.spares > 0 {
            reasons.push(Reason::Spares { spares: self.spares, destroyed: self.destroyed() });
        }
        if self.least > self.for_uses() {
            reasons.push(Reason::Principal(self.least));
        }
        reasons
    }

    /// The uses whose copies are out of hand when the one at `fullest` takes its own, that one last.
    fn out_at(&self, fullest: usize) -> Vec<usize> {
        let Some(day) = self.worn.get(fullest).map(|worn| worn.uses.day) else { return Vec::new() };
        let is_out = |at: &usize| match self.worn[*at].uses.back {
            Back::Never => true,
            Back::After(days) => *at == fullest || self.worn[*at].uses.day + i64::from(days) > day,
        };
        (0..=fullest).filter(is_out).collect()
    }

    fn destroyed(&self) -> u32 {
        destroyed(&self.worn).saturating_add(destroyed(&self.unplaced))
    }

    /// Where each copy is on each shooting day, by the days' places in the schedule, copy by copy: the first `copies` of
    /// them, and no more than anybody looks through.
    pub fn calendar(&self, days: &Days, copies: u32) -> Vec<Vec<Option<Whereabouts>>> {
        let most = MOST_TOLD.min(MOST_DAYS / days.counts.len().max(1));
        let copies = copies.min(u32::try_from(most).unwrap_or(u32::MAX));
        let uses: Vec<Use> = self.worn.iter().map(|worn| worn.uses).collect();
        let out = hand_out(&uses, copies);
        (0..copies).map(|copy| whereabouts(&uses, &out, copy, &days.counts)).collect()
    }
}

fn destroyed(worn: &[Worn]) -> u32 {
    let gone = worn.iter().filter(|worn| worn.uses.back == Back::Never).map(|worn| worn.uses.takes);
    gone.fold(0, u32::saturating_add)
}

fn demand(board: &Board, practice: &Practice, garment: Garment, mut worn: Vec<Worn>) -> Demand {
    let unplaced: Vec<Worn> = worn.extract_if(.., |worn| worn.at.is_none()).collect();
    worn.sort_by_key(|worn| worn.uses.day);
    let uses: Vec<Use> = worn.iter().map(|worn| worn.uses).collect();
    let is_used = !(worn.is_empty() && unplaced.is_empty());
    let gone = destroyed(&worn).saturating_add(destroyed(&unplaced));
    let each = practice.spares.for_destroyed.map_or(0, |each| u32::from(each.get()));
    let look = board.look(&garment.look);
    let make = look.and_then(|look| look.make.get(&garment.piece));
    let version = make.and_then(|make| version_of(make, &garment.version));
    Demand {
        need: need(&uses),
        spares: if each == 0 { 0 } else { gone.div_ceil(each) },
        least: if is_used && is_principal(board, &garment) {
            practice.spares.principal.map_or(0, u32::from)
        } else {
            0
        },
        planned: version
            .filter(|version| !version.copies.is_empty())
            .map(|version| version.copies.get(&garment.wearer).copied().unwrap_or(0)),
        is_there: version.is_some() || garment.version == Version::as_designed(),
        garment,
        worn,
        unplaced,
    }
}

/// Whether it is worn by a principal, and not by a double.
fn is_principal(board: &Board, garment: &Garment) -> bool {
    let character = board.look(&garment.look).and_then(|look| board.character(&look.character));
    let is_double = board.body(&garment.wearer).is_some_and(|(_, body)| body.role == Role::Double);
    character.is_none_or(|character: &Character| character.principal) && !is_double
}

/// Who wears what in which scenes.
struct Wearing<'a> {
    board: &'a Board,
    practice: &'a Practice,
    of: BTreeMap<Garment, Vec<Worn>>,
}

impl<'a> Wearing<'a> {
    /// A scene, with the shooting day's place in the schedule and its count.
    fn scene(&mut self, scene: &Scene, day: Option<(usize, i64)>) {
        for (character, look_id) in scene.wears.iter() {
            let Some((look_id, look)) = look_id.as_ref().and_then(|id| Some((id, self.board.look(id)?)))
            else {
                continue;
            };
            let own = wearer_of(self.board, look);
            let none = Vec::new();
            let doings = scene.does.get(character).unwrap_or(&none);
            for piece in &look.pieces {
                let mut asked: BTreeMap<(VersionId, BodyId), Worn> = BTreeMap::new();
                // Versions of the whole costume, in which the rest of the scene is done as well.
                let mut whole: BTreeSet<(VersionId, BodyId)> = BTreeSet::new();
                let mut besides: Vec<(&Action, &Doing, BodyId)> = Vec::new();
                let plain = || Worn {
                    scene: scene.number.clone(),
                    at: day.map(|(at, _)| at),
                    actions: Vec::new(),
                    does: Effect::Nothing,
                    takes: 1,
                    uses: Use { day: day.map_or(0, |(_, count)| count), takes: 1, back: Back::After(0) },
                };
                for doing in doings {
                    let Some((action, asks)) = self.concerns(doing, look, &piece.name) else { continue };
                    let wearer = doing.by.clone().unwrap_or_else(|| own.clone());
                    let version = match asks {
                        Asks::Nothing => None,
                        Asks::Piece(version) => Some(version),
                        Asks::Whole(version) => {
                            whole.insert((version.clone(), wearer.clone()));
                            Some(version)
                        }
                    };
                    match version {
                        Some(version) => {
                            asked.entry((version, wearer)).or_insert_with(plain).also(
                                action,
                                doing,
                                self.practice,
                            );
                        }
                        None => besides.push((action, doing, wearer)),
                    }
                }
                for (action, doing, wearer) in besides {
                    let mut in_these: Vec<(VersionId, BodyId)> =
                        whole.iter().filter(|(_, body)| *body == wearer).cloned().collect();
                    if in_these.is_empty() {
                        in_these.push((Version::as_designed(), wearer));
                    }
                    for one in in_these {
                        asked.entry(one).or_insert_with(plain).also(action, doing, self.practice);
                    }
                }
                let dressed = doings
                    .iter()
                    .filter(|doing| doing.pieces.is_empty())
                    .filter_map(|doing| doing.by.as_ref());
                for wearer in dressed.chain([&own]) {
                    if !asked.keys().any(|(_, body)| body == wearer) {
                        asked.insert((Version::as_designed(), wearer.clone()), plain());
                    }
                }
                for ((version, wearer), worn) in asked {
                    let (look, piece) = (look_id.clone(), piece.name.clone());
                    self.of.entry(Garment { look, piece, version, wearer }).or_default().push(worn);
                }
            }
        }
    }

    /// The action that is done and the version that it asks for, where it concerns the piece.
    fn concerns(&self, doing: &Doing, look: &Look, piece: &str) -> Option<(&'a Action, Asks)> {
        let action = self.practice.action(&doing.action)?;
        let named = if doing.pieces.is_empty() { &action.pieces } else { &doing.pieces };
        if !named.is_empty() && !named.iter().any(|word| has_words(piece, word)) {
            return None;
        }
        let has = |version: &VersionId| {
            look.make.get(&piece.to_owned()).is_some_and(|make| version_of(make, version).is_some())
        };
        let asks = match &action.version {
            Some(version) if !named.is_empty() => Asks::Piece(version.clone()),
            Some(version) if has(version) => Asks::Whole(version.clone()),
            _ => Asks::Nothing,
        };
        Some((action, asks))
    }

    /// What is planned and no scene needs has its place all the same.
    fn planned_and_unused(&mut self) {
        for (look, record) in &self.board.records().looks {
            for (piece, make) in record.make.iter() {
                for version in &make.versions {
                    for wearer in
                        version.copies.iter().filter(|(_, copies)| **copies > 0).map(|(wearer, _)| wearer)
                    {
                        let (look, piece) = (look.clone(), piece.clone());
                        let (version, wearer) = (version.version.clone(), wearer.clone());
                        self.of.entry(Garment { look, piece, version, wearer }).or_default();
                    }
                }
            }
        }
    }
}

/// Which version an action asks a piece for.
enum Asks {
    /// None.
    Nothing,
    /// One for a moment, in some pieces: seated, on the floor.
    Piece(VersionId),
    /// One in which the whole costume is for the scene: wet, in the harness.
    Whole(VersionId),
}

impl Worn {
    /// Something else is done in the same scene in the same copy: it takes what the more demanding of them takes.
    fn also(&mut self, action: &Action, doing: &Doing, practice: &Practice) {
        let takes = if action.fresh { u32::from(doing.takes.get()) } else { 1 };
        let back = practice.back(action).map_or(Back::Never, |days| Back::After(u32::from(days)));
        self.uses.takes = self.uses.takes.max(takes);
        self.uses.back = later(self.uses.back, back);
        self.takes = self.takes.max(doing.takes.get());
        self.does = self.does.max(action.does);
        self.actions.push(action.action.clone());
    }
}

fn later(one: Back, other: Back) -> Back {
    match (one, other) {
        (Back::After(one), Back::After(other)) => Back::After(one.max(other)),
        _ => Back::Never,
    }
}

/// Letters of a name that are looked through: no piece has a longer one, and the time grows with both lengths.
const LETTERS: usize = 1_000;

/// Whether the words of `wanted` stand in a name one after the other, in any case; one may stand in its plural.
pub(crate) fn has_words(name: &str, wanted: &str) -> bool {
    let words = |text: &str| -> Vec<String> {
        let lower: String = text.chars().take(LETTERS).flat_map(char::to_lowercase).collect();
        lower
            .split(|c: char| !c.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .map(str::to_owned)
            .collect()
    };
    let is_too_long = wanted.len() > LETTERS;
    let (name, wanted) = (words(name), words(wanted));
    let same = |(one, other): (&String, &String)| one == other || one.strip_suffix('s') == Some(other);
    !wanted.is_empty()
        && !is_too_long
        && name.windows(wanted.len()).any(|here| here.iter().zip(&wanted).all(same))
}

/// Looks in their order, pieces and versions as the look has them, the character's own wearer first. What is of one piece
/// stands together even where it is none of the look's.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Order {
    look: usize,
    piece: (usize, String),
    version: usize,
    is_other: bool,
    wearer: BodyId,
}

impl Order {
    fn of(board: &Board, places: &HashMap<&LookId, usize>, garment: &Garment) -> Self {
        let look = board.look(&garment.look);
        let piece = look.and_then(|look| look.pieces.iter().position(|piece| piece.name == garment.piece));
        let make = look.and_then(|look| look.make.get(&garment.piece));
        let version =
            make.and_then(|make| make.versions.iter().position(|one| one.version == garment.version));
        let first = garment.version == Version::as_designed();
        Self {
            look: places.get(&garment.look).copied().unwrap_or(usize::MAX),
            piece: (piece.unwrap_or(usize::MAX), garment.piece.clone()),
            version: if first { 0 } else { version.map_or(usize::MAX, |at| at + 1) },
            is_other: look.is_none_or(|look| wearer_of(board, look) != garment.wearer),
            wearer: garment.wearer.clone(),
        }
    }
}

#[cfg(test)]
mod tests;
