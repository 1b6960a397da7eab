//! Bodies: the one that wore the original, those that play the character, and their doubles.

use serde::{Deserialize, Serialize};

use super::id::Id;
use super::pairs::Pairs;
use super::{Board, BodyId, Character, CharacterId};
use crate::trade::body::BodyMeasure;
use crate::trade::date::Date;
use crate::trade::length::Size;

/// A body that was measured, or of which measures are told.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Body {
    /// Its name in the files; no two bodies of a board have the same.
    pub id: Id<Body>,
    /// Whose it is, as people say it.
    pub who: String,
    /// What it has to do with the character.
    #[serde(rename = "is")]
    pub role: Role,
    /// When it was measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<Date>,
    /// What was measured.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub measures: Pairs<BodyMeasure, Size>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// What a body has to do with a character.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// It wore what the looks are made after.
    Original,
    /// It plays the character.
    Performer,
    /// It stands in for the performer where that is safer or quicker.
    Double,
}

impl Role {
    /// All roles.
    pub const ALL: [Self; 3] = [Self::Original, Self::Performer, Self::Double];

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Original => "original",
            Self::Performer => "performer",
            Self::Double => "double",
        }
    }
}

impl Character {
    /// The first body of this role.
    pub fn first(&self, role: Role) -> Option<&Body> {
        self.bodies.iter().find(|body| body.role == role)
    }

    /// Who wears what is made for this character, where nothing else is said: the first performer. A character of whom
    /// nobody is measured yet is worn by a body of the character's own name.
    pub fn wearer(&self) -> BodyId {
        self.first(Role::Performer).map_or_else(|| own_body(&self.id), |body| body.id.clone())
    }
}

/// The name of the one body of a character of whom nobody is measured yet.
pub fn own_body(character: &CharacterId) -> BodyId {
    character.cast()
}

impl Board {
    /// A body, and whose it is.
    pub fn body(&self, id: &BodyId) -> Option<(&Character, &Body)> {
        let of = |character: &'_ Character| character.bodies.iter().position(|body| body.id == *id);
        let character = self.head().characters.iter().find(|character| of(character).is_some())?;
        Some((character, character.bodies.get(of(character)?)?))
    }

    /// A body's name as people say it, or the id where there is no such body.
    pub fn who_is<'a>(&'a self, id: &'a BodyId) -> &'a str {
        match self.body(id) {
            Some((_, body)) => &body.who,
            None => self.head().characters.iter().find(|who| own_body(&who.id) == *id).map_or(
                id.as_str(),
                |character| {
                    if character.performer.is_empty() { &character.name } else { &character.performer }
                },
            ),
        }
    }

    /// Whether something may be made for a body of this name: a performer's, a double's, or a character's own.
    pub fn may_wear(&self, id: &BodyId) -> bool {
        match self.body(id) {
            Some((_, body)) => body.role != Role::Original,
            None => self.head().characters.iter().any(|who| who.wearer() == *id),
        }
    }
}
