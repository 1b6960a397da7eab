//! What can be wrong between records.

use std::fmt;

use crate::board::{
    ActionId, BodyId, CharacterId, ClothId, LookId, OutfitId, PeriodId, RecordRef, SceneNumber, ThreadId,
};

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
    /// An outfit is to be apart from, or together with, itself.
    WishOfItself(OutfitId),
    /// Two outfits are to be both apart and together; the first of them in the order of ids is named first.
    ApartAndTogether(OutfitId, OutfitId),
    /// Outfits of two characters are to share a look; the one that says so is named first.
    TogetherWithOther(OutfitId, OutfitId),
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
    /// A cloth.
    Cloth(ClothId),
    /// A body that something may be made for.
    Wearer(BodyId),
    /// The body that wore what a look is made after.
    Original(BodyId),
    /// An action of the tables of practice.
    Action(ActionId),
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
            Self::Cloth(id) => write!(f, "cloth `{id}`"),
            Self::Wearer(id) => write!(f, "performer or double `{id}`"),
            Self::Original(id) => write!(f, "original body `{id}`"),
            Self::Action(id) => write!(f, "action `{id}`"),
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
            Self::WishOfItself(outfit) => {
                write!(f, "outfit `{outfit}` is to be apart from or together with itself")
            }
            Self::ApartAndTogether(one, other) => {
                write!(f, "outfits `{one}` and `{other}` are to be both apart and together")
            }
            Self::TogetherWithOther(outfit, other) => {
                write!(f, "outfit `{outfit}` is to share a look with `{other}` of another character")
            }
            Self::SameNumber(number) => write!(f, "two scenes have the number {number}"),
        }
    }
}
