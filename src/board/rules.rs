//! What must hold between records. Files may break it; edits may not.

use std::collections::{HashMap, HashSet};
use std::fmt;

use super::{Board, CharacterId, LookId, OutfitId, PeriodId, RecordRef, SceneNumber, ThreadId, Treatment};

/// A rule that is broken.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Broken {
    /// A record names one that is not there.
    Dangling(Dangling),
    /// Two looks hold one outfit.
    InTwoLooks(OutfitId, Vec<LookId>),
    /// A look holds an outfit that is let go.
    HeldAndLetGo(OutfitId, LookId),
    /// A look holds an outfit of somebody else.
    OtherOutfit(LookId, OutfitId),
    /// A scene puts somebody else's look on a character.
    OtherLook(SceneNumber, CharacterId, LookId),
    /// A look names one outfit twice.
    Twice(LookId, OutfitId),
    /// A look that copies or interprets has no base.
    NoBase(LookId),
    /// An invented look has a base.
    BaseOfInvented(LookId),
    /// Two scenes have one number.
    SameNumber(SceneNumber),
}

/// A reference to a record that is not there.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Dangling {
    /// The record that refers.
    pub from: RecordRef,
    /// The fields and places on the way to the reference, as in the file.
    pub path: Vec<Step>,
    /// What is not there.
    pub to: Target,
}

/// A step on the way to a value in a record.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Step {
    /// Into the field of this name.
    Key(String),
    /// To the name of this field itself, where the name is the reference.
    Name(String),
    /// To the item at this place.
    At(usize),
}

/// What a reference points at.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Target {
    /// An outfit.
    Outfit(OutfitId),
    /// A look.
    Look(LookId),
    /// A character.
    Character(CharacterId),
    /// A period.
    Period(PeriodId),
    /// A thread.
    Thread(ThreadId),
    /// A scene.
    Scene(SceneNumber),
}

impl fmt::Display for Target {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Outfit(id) => write!(f, "outfit `{id}`"),
            Self::Look(id) => write!(f, "look `{id}`"),
            Self::Character(id) => write!(f, "character `{id}`"),
            Self::Period(id) => write!(f, "period `{id}`"),
            Self::Thread(id) => write!(f, "thread `{id}`"),
            Self::Scene(number) => write!(f, "scene `{number}`"),
        }
    }
}

impl fmt::Display for Broken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Dangling(Dangling { from, to, .. }) => write!(f, "{from} names {to}, which is not there"),
            Self::InTwoLooks(outfit, looks) => {
                let looks: Vec<String> = looks.iter().map(|look| format!("`{look}`")).collect();
                write!(f, "outfit `{outfit}` is in more than one look: {}", looks.join(", "))
            }
            Self::HeldAndLetGo(outfit, look) => {
                write!(f, "outfit `{outfit}` is let go, and look `{look}` holds it")
            }
            Self::OtherOutfit(look, outfit) => {
                write!(f, "look `{look}` holds outfit `{outfit}` of another character")
            }
            Self::OtherLook(scene, character, look) => {
                write!(f, "scene {scene} puts look `{look}` on `{character}`, whose look it is not")
            }
            Self::Twice(look, outfit) => write!(f, "look `{look}` names outfit `{outfit}` twice"),
            Self::NoBase(look) => write!(f, "look `{look}` copies or interprets, but has no base"),
            Self::BaseOfInvented(look) => write!(f, "look `{look}` is invented, but holds outfits"),
            Self::SameNumber(number) => write!(f, "two scenes have the number {number}"),
        }
    }
}

/// Every broken rule, records in order.
pub fn broken(board: &Board) -> Vec<Broken> {
    let mut found: Vec<Broken> = dangling(board).into_iter().map(Broken::Dangling).collect();
    looks(board, &mut found);
    scenes(board, &mut found);
    found
}

fn looks(board: &Board, found: &mut Vec<Broken>) {
    for (id, look) in &board.records().looks {
        for (at, outfit_id) in look.outfits().enumerate() {
            if look.outfits().take(at).any(|earlier| earlier == outfit_id) {
                found.push(Broken::Twice(id.clone(), outfit_id.clone()));
                continue;
            }
            let holders = board.relations().looks_of(outfit_id);
            if holders.iter().any(|holder| holder != id) && holders.first() == Some(id) {
                found.push(Broken::InTwoLooks(outfit_id.clone(), holders.to_vec()));
            }
            let Some(outfit) = board.outfit(outfit_id) else { continue };
            if outfit.let_go.is_some() {
                found.push(Broken::HeldAndLetGo(outfit_id.clone(), id.clone()));
            }
            if outfit.character != look.character {
                found.push(Broken::OtherOutfit(id.clone(), outfit_id.clone()));
            }
        }
        match (look.treatment, look.base.is_some() || !look.folded.is_empty()) {
            (Treatment::Invent, true) => found.push(Broken::BaseOfInvented(id.clone())),
            (Treatment::Copy | Treatment::Interpret, _) if look.base.is_none() => {
                found.push(Broken::NoBase(id.clone()));
            }
            _ => {}
        }
    }
}

fn scenes(board: &Board, found: &mut Vec<Broken>) {
    let mut numbers = HashMap::new();
    for scene in board.scenes() {
        let times = numbers.entry(&scene.number).or_insert(0_usize);
        *times += 1;
        if *times == 2 {
            found.push(Broken::SameNumber(scene.number.clone()));
        }
        for (character, look_id) in scene.wears.iter() {
            let Some(look_id) = look_id else { continue };
            if board.look(look_id).is_some_and(|look| look.character != *character) {
                found.push(Broken::OtherLook(scene.number.clone(), character.clone(), look_id.clone()));
            }
        }
    }
}

/// Every reference to a record that is not there, with the way to it in its file.
pub fn dangling(board: &Board) -> Vec<Dangling> {
    let head = board.head();
    let known = Known {
        characters: head.characters.iter().map(|character| &character.id).collect(),
        periods: head.periods.iter().map(|period| &period.id).collect(),
        threads: head.threads.iter().map(|thread| &thread.id).collect(),
    };
    let mut found = Vec::new();
    let mut miss = |from: &dyn Fn() -> RecordRef, path: &[Step], to: Target| {
        found.push(Dangling { from: from(), path: path.to_vec(), to });
    };
    let key = |name: &str| Step::Key(name.to_owned());
    for id in head.budget.characters.keys().filter(|id| !known.characters.contains(id)) {
        let path = [key("budget"), key("characters"), Step::Name(id.to_string())];
        miss(&|| RecordRef::Head, &path, Target::Character(id.clone()));
    }
    for id in head.budget.periods.keys().filter(|id| !known.periods.contains(id)) {
        let path = [key("budget"), key("periods"), Step::Name(id.to_string())];
        miss(&|| RecordRef::Head, &path, Target::Period(id.clone()));
    }
    for (id, outfit) in &board.records().outfits {
        let from = || RecordRef::Outfit(id.clone());
        if !known.characters.contains(&outfit.character) {
            miss(&from, &[key("character")], Target::Character(outfit.character.clone()));
        }
        if let Some(period) = outfit.period.as_ref().filter(|period| !known.periods.contains(period)) {
            miss(&from, &[key("period")], Target::Period(period.clone()));
        }
        for (at, thread) in outfit.threads.iter().enumerate().filter(|(_, id)| !known.threads.contains(id)) {
            miss(&from, &[key("threads"), Step::At(at)], Target::Thread(thread.clone()));
        }
    }
    for (id, look) in &board.records().looks {
        let from = || RecordRef::Look(id.clone());
        if !known.characters.contains(&look.character) {
            miss(&from, &[key("character")], Target::Character(look.character.clone()));
        }
        if let Some(base) = look.base.as_ref().filter(|base| board.outfit(base).is_none()) {
            miss(&from, &[key("base")], Target::Outfit(base.clone()));
        }
        for (at, outfit) in look.folded.iter().enumerate().filter(|(_, id)| board.outfit(id).is_none()) {
            miss(&from, &[key("folded"), Step::At(at)], Target::Outfit(outfit.clone()));
        }
        if let Some(period) = look.period.as_ref().filter(|period| !known.periods.contains(period)) {
            miss(&from, &[key("period")], Target::Period(period.clone()));
        }
        for (at, thread) in look.threads.iter().enumerate().filter(|(_, id)| !known.threads.contains(id)) {
            miss(&from, &[key("threads"), Step::At(at)], Target::Thread(thread.clone()));
        }
    }
    for (place, scene) in board.scenes().enumerate() {
        let from = || RecordRef::Scene(scene.number.clone());
        if let Some(period) = scene.period.as_ref().filter(|period| !known.periods.contains(period)) {
            miss(&from, &[Step::At(place), key("period")], Target::Period(period.clone()));
        }
        for (character, look) in scene.wears.iter() {
            if !known.characters.contains(character) {
                let path = [Step::At(place), key("wears"), Step::Name(character.to_string())];
                miss(&from, &path, Target::Character(character.clone()));
            }
            if let Some(look) = look.as_ref().filter(|look| board.look(look).is_none()) {
                let path = [Step::At(place), key("wears"), key(character.as_str())];
                miss(&from, &path, Target::Look(look.clone()));
            }
        }
    }
    for (place, day) in board.records().schedule.iter().enumerate() {
        for (at, number) in day.scenes.iter().enumerate() {
            if board.relations().scene_at(number).is_none() {
                let path = [Step::At(place), key("scenes"), Step::At(at)];
                miss(&|| RecordRef::Schedule, &path, Target::Scene(number.clone()));
            }
        }
    }
    found
}

struct Known<'a> {
    characters: HashSet<&'a CharacterId>,
    periods: HashSet<&'a PeriodId>,
    threads: HashSet<&'a ThreadId>,
}
