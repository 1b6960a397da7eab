//! The board: its records, what follows from them, and the one way to change them.
//!
//! A [`Board`] is records plus [`Relations`], which are derived and never stored. It changes through
//! [`Board::apply`] alone, which takes an [`Edit`] and returns the exact inverse. The operations of the trade
//! (gather, fold, let go, assign …) in [`gathering`], [`casting`] and beside them only build edits.
//!
//! A board may hold broken references, since files are written by many hands; [`rules`] names them, and no new edit
//! may add one. Going back to what was is no new edit: see [`Board::restore`].

mod amending;
pub mod body;
mod calendar;
pub mod casting;
pub mod cloth;
pub mod counter;
mod draft;
pub mod edit;
pub mod garment;
pub mod gathering;
pub mod head;
pub mod id;
pub mod look;
pub mod make;
pub mod making;
pub mod meeting;
pub mod merge;
mod order;
pub mod outfit;
pub mod pairs;
pub mod practice;
mod regrouping;
pub mod relations;
pub mod renumber;
pub mod room;
pub mod rules;
pub mod scene;
mod settle;
mod treating;
mod wishes;
mod wishing;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::trade::date::Date;
pub use body::{Body, Role};
use calendar::Calendar;
pub use cloth::{Cloth, Trial, Verdict};
pub use counter::Count;
pub use edit::{Change, Edit, Refused, Side, Swap};
pub use garment::Piece;
pub use head::{Budget, Character, Head, Period, Raise, Scope, Thread, Workroom};
pub use id::Id;
pub use look::{Departure, Look, Stage, Treatment};
pub use make::{Added, Addition, Cut, Expense, Fitting, Found, Lay, Make, Measure, Rule, Version, Work};
pub use meeting::{Decision, Meeting, Question, Stop};
pub use outfit::{Evidence, EvidenceKind, Outfit, PicturePath, Recognition};
pub use pairs::Pairs;
pub use practice::{Action, Ask, Effect, Practice, Spares};
pub use relations::{Relations, Standing};
pub use scene::{Doing, Light, Place, Scene, SceneNumber, ShootDay, StoryDay};
pub use wishes::{Among, BaseWish, GatherSettings, Reach, Weight, Weights, Wishes};

/// The name of an outfit.
pub type OutfitId = Id<Outfit>;
/// The name of a look.
pub type LookId = Id<Look>;
/// The name of a cloth.
pub type ClothId = Id<Cloth>;
/// The name of a body.
pub type BodyId = Id<Body>;
/// The name of a version of a piece.
pub type VersionId = Id<Version>;
/// The name of an action.
pub type ActionId = Id<Action>;
/// The name of a meeting: the day on which it was held.
pub type MeetingId = Id<Meeting>;
/// The name of a period.
pub type PeriodId = Id<Period>;
/// The name of a character.
pub type CharacterId = Id<Character>;
/// The name of a thread.
pub type ThreadId = Id<Thread>;

/// Every record of a board, as they stand in its folder.
#[derive(Clone, Debug, PartialEq)]
pub struct Records {
    /// `board.yaml`.
    pub head: Arc<Head>,
    /// Outfits by id.
    pub outfits: BTreeMap<OutfitId, Arc<Outfit>>,
    /// Looks by id.
    pub looks: BTreeMap<LookId, Arc<Look>>,
    /// Scenes in story order.
    pub scenes: Vec<Arc<Scene>>,
    /// Shooting days in order.
    pub schedule: Arc<Vec<ShootDay>>,
    /// Cloths by id.
    pub cloths: BTreeMap<ClothId, Arc<Cloth>>,
    /// The board's own tables of practice.
    pub practice: Arc<Practice>,
    /// Meetings by the day on which they were held.
    pub meetings: BTreeMap<MeetingId, Arc<Meeting>>,
}

impl Records {
    /// Those of a board with nothing on it yet.
    pub fn of(head: Arc<Head>) -> Self {
        Self {
            head,
            outfits: BTreeMap::new(),
            looks: BTreeMap::new(),
            scenes: Vec::new(),
            schedule: Arc::default(),
            cloths: BTreeMap::new(),
            practice: Arc::default(),
            meetings: BTreeMap::new(),
        }
    }
}

/// Which record: where an edit, a rule or a fault points.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum RecordRef {
    /// `board.yaml`.
    Head,
    /// An outfit.
    Outfit(OutfitId),
    /// A look.
    Look(LookId),
    /// A scene.
    Scene(SceneNumber),
    /// The order of the scenes.
    SceneOrder,
    /// The shooting days.
    Schedule,
    /// A cloth.
    Cloth(ClothId),
    /// The board's own tables of practice.
    Practice,
    /// A meeting.
    Meeting(MeetingId),
}

impl std::fmt::Display for RecordRef {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Head => f.write_str("the board's head"),
            Self::Outfit(id) => write!(f, "outfit `{id}`"),
            Self::Look(id) => write!(f, "look `{id}`"),
            Self::Scene(number) => write!(f, "scene {number}"),
            Self::SceneOrder => f.write_str("the order of the scenes"),
            Self::Schedule => f.write_str("the schedule"),
            Self::Cloth(id) => write!(f, "cloth `{id}`"),
            Self::Practice => f.write_str("the tables of practice"),
            Self::Meeting(id) => write!(f, "the meeting of {id}"),
        }
    }
}

/// A board in memory. See the module.
#[derive(Clone, Debug)]
pub struct Board {
    records: Records,
    relations: Arc<Relations>,
    /// What is usual, before the board's own tables.
    usual: Arc<Practice>,
}

impl Board {
    /// A board of these records, whatever they are.
    pub fn new(records: Records) -> Self {
        let relations = Arc::new(Relations::derive(&records));
        Self { records, relations, usual: Arc::default() }
    }

    /// The same board in a house where this is usual. The board's own tables go before it.
    pub fn following(self, usual: Arc<Practice>) -> Self {
        Self { usual, ..self }
    }

    /// What is usual on this board: what is so elsewhere, and its own tables before that.
    pub fn practice(&self) -> Practice {
        self.usual.with(&self.records.practice)
    }

    /// A cloth.
    pub fn cloth(&self, id: &ClothId) -> Option<&Cloth> {
        self.records.cloths.get(id).map(|cloth| &**cloth)
    }

    /// All records.
    pub fn records(&self) -> &Records {
        &self.records
    }

    /// What follows from the records.
    pub fn relations(&self) -> &Relations {
        &self.relations
    }

    /// `board.yaml`.
    pub fn head(&self) -> &Head {
        &self.records.head
    }

    /// An outfit.
    pub fn outfit(&self, id: &OutfitId) -> Option<&Outfit> {
        self.records.outfits.get(id).map(|outfit| &**outfit)
    }

    /// A look.
    pub fn look(&self, id: &LookId) -> Option<&Look> {
        self.records.looks.get(id).map(|look| &**look)
    }

    /// A scene, by its number.
    pub fn scene(&self, number: &SceneNumber) -> Option<&Scene> {
        self.relations.scene_at(number).map(|at| &*self.records.scenes[at])
    }

    /// All scenes in story order.
    pub fn scenes(&self) -> impl ExactSizeIterator<Item = &Scene> {
        self.records.scenes.iter().map(|scene| &**scene)
    }

    /// A period.
    pub fn period(&self, id: &PeriodId) -> Option<&Period> {
        self.head().periods.iter().find(|period| period.id == *id)
    }

    /// A character.
    pub fn character(&self, id: &CharacterId) -> Option<&Character> {
        self.head().characters.iter().find(|character| character.id == *id)
    }

    /// A thread.
    pub fn thread(&self, id: &ThreadId) -> Option<&Thread> {
        self.head().threads.iter().find(|thread| thread.id == *id)
    }

    /// The period that a date falls in, where nothing else is said.
    pub fn period_of_date(&self, date: &Date) -> Option<&PeriodId> {
        Calendar::of(&self.records).period(date)
    }

    /// A character's name, or the id where there is no such character.
    pub fn name_of<'a>(&'a self, id: &'a CharacterId) -> &'a str {
        self.character(id).map_or(id.as_str(), |character| &character.name)
    }

    /// A period's title, or the id where there is no such period.
    pub fn title_of<'a>(&'a self, id: &'a PeriodId) -> &'a str {
        self.period(id).map_or(id.as_str(), |period| &period.title)
    }

    /// Whether the outfit is open, folded or let go. An outfit that is not there is open.
    pub fn standing(&self, id: &OutfitId) -> Standing<'_> {
        if let Some(look) = self.relations.looks_of(id).first() {
            return Standing::Folded(look);
        }
        match self.outfit(id).and_then(|outfit| outfit.let_go.as_deref()) {
            Some(reason) => Standing::LetGo(reason),
            None => Standing::Open,
        }
    }

    /// Changes the board, or leaves it as it was and says why. Returns the exact inverse.
    ///
    /// Where a record is no longer what the edit was made from, the two changes are merged field by field.
    ///
    /// # Errors
    /// [`Refused`] when both changed the same field, when a record is gone or its name is taken, or when the
    /// edit would break one of the [`rules`].
    pub fn apply(&mut self, edit: &Edit) -> Result<Edit, Refused> {
        self.apply_preferring(edit, None)
    }

    /// As [`Board::apply`], but settles fields that both sides changed by taking one side.
    ///
    /// # Errors
    /// As [`Board::apply`].
    pub fn apply_preferring(&mut self, edit: &Edit, side: Option<Side>) -> Result<Edit, Refused> {
        let (next, inverse) = self.settled(edit, side)?;
        let added = rules::added(self, &next, &inverse.changes);
        if !added.is_empty() {
            return Err(Refused::Broken(added));
        }
        *self = next;
        Ok(inverse)
    }

    /// Takes back an edit, or does it again; `side` as in [`Board::apply_preferring`]. Returns the inverse.
    ///
    /// No rule stands in the way: before an edit that mended something, something was broken, and one must be able to
    /// go back to it.
    ///
    /// # Errors
    /// [`Refused`] when both changed the same field, when a record is gone or its name is taken.
    pub fn restore(&mut self, edit: &Edit, side: Option<Side>) -> Result<Edit, Refused> {
        let (next, inverse) = self.settled(edit, side)?;
        *self = next;
        Ok(inverse)
    }

    /// Whether everything is so already that the edit would make.
    pub fn has(&self, edit: &Edit) -> bool {
        self.settled(edit, None).is_ok_and(|(_, inverse)| inverse.is_empty())
    }

    /// Takes in what another hand has written to the folder: never refused, since it is so already.
    /// Returns the inverse.
    ///
    /// # Errors
    /// [`Refused`] when the edit was not made from this board's records and cannot be merged with them.
    pub fn take_in(&mut self, edit: &Edit) -> Result<Edit, Refused> {
        self.restore(edit, None)
    }

    /// The board after an edit, whatever rules that breaks, and the inverse.
    fn settled(&self, edit: &Edit, side: Option<Side>) -> Result<(Self, Edit), Refused> {
        let mut records = self.records.clone();
        let inverse = settle::settle(&mut records, edit, side)?;
        let relations = Arc::new(self.relations.after(&records, &inverse.changes));
        Ok((Self { records, relations, usual: Arc::clone(&self.usual) }, inverse))
    }
}

#[cfg(test)]
pub mod sample;
#[cfg(test)]
pub(crate) mod told;
