//! What `board.yaml` holds: the board itself, its periods, characters, threads and budget.

use serde::{Deserialize, Deserializer, Serialize, de};

use super::body::Body;
use super::id::Id;
use super::make::Work;
use super::pairs::Pairs;
use super::wishes::GatherSettings;
use crate::trade::by_text::by_text;
use crate::trade::date::Date;
use crate::trade::eighths::Eighths;
use crate::trade::length::Unit;
use crate::trade::money::{Money, none_below_nothing, not_below_nothing};

/// The board's own record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Head {
    /// The format version; see [`FORMAT`].
    pub shirr: u32,
    /// Never changes; what a machine keeps of its own is filed under it.
    pub id: Id<Head>,
    /// The film's working title.
    pub title: String,
    /// Anything worth saying of the whole.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// The planned length of the film in minutes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub runtime: Option<u32>,
    /// Lengths are shown in this unit.
    #[serde(default)]
    pub units: Unit,
    /// How many looks the film can carry.
    #[serde(default, skip_serializing_if = "Budget::is_empty")]
    pub budget: Budget,
    /// Stretches of the story, in story order.
    #[serde(default)]
    pub periods: Vec<Period>,
    /// Whoever wears outfits and looks, in order of importance.
    #[serde(default)]
    pub characters: Vec<Character>,
    /// Signatures that run through a life.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub threads: Vec<Thread>,
    /// What a suggestion goes by.
    #[serde(default, skip_serializing_if = "GatherSettings::is_empty")]
    pub gather: GatherSettings,
    /// What the workroom goes by.
    #[serde(default, skip_serializing_if = "Workroom::is_empty")]
    pub workroom: Workroom,
}

/// What the workroom goes by.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Workroom {
    /// What money is counted in, as it is written behind a sum.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub currency: String,
    /// How much there is for all looks.
    #[serde(default, deserialize_with = "not_below_nothing", skip_serializing_if = "Option::is_none")]
    pub money: Option<Money>,
    /// What an hour of each kind of work costs.
    #[serde(default, deserialize_with = "rates", skip_serializing_if = "Pairs::is_empty")]
    pub rates: Pairs<Id<Work>, Money>,
}

/// Rates, none of which is below nothing.
fn rates<'de, D: Deserializer<'de>>(from: D) -> Result<Pairs<Id<Work>, Money>, D::Error> {
    let rates: Pairs<Id<Work>, Money> = Pairs::deserialize(from)?;
    none_below_nothing(rates.iter().map(|(_, rate)| *rate)).map_err(de::Error::custom)?;
    Ok(rates)
}

impl Workroom {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// The version of the board format that this program reads and writes.
pub const FORMAT: u32 = 1;

/// A stretch of the story.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Period {
    /// Its name in the files.
    pub id: Id<Period>,
    /// Its name on the wall.
    pub title: String,
    /// From when to when.
    pub span: Date,
    /// What this stretch tells, in one line.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub says: String,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// Someone who wears outfits and looks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Character {
    /// Their name in the files.
    pub id: Id<Character>,
    /// Their name in the story.
    pub name: String,
    /// Who plays them.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub performer: String,
    /// Whether they are seen so often and so near that nothing they wear may be the only one.
    #[serde(default = "yes", skip_serializing_if = "is_yes")]
    pub principal: bool,
    /// Bodies that were measured: of the original, of performers, of doubles.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bodies: Vec<Body>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

fn yes() -> bool {
    true
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde asks for")]
fn is_yes(is: &bool) -> bool {
    *is
}

impl Character {
    /// A character of whom only the name is known.
    pub fn named(id: Id<Self>, name: &str) -> Self {
        let name = name.to_owned();
        Self { id, name, performer: String::new(), principal: true, bodies: Vec::new(), notes: String::new() }
    }
}

/// A signature that runs through a life.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Thread {
    /// Its name in the files.
    pub id: Id<Thread>,
    /// Its name on the wall.
    pub title: String,
    /// What it is and why it makes the person recognisable.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub says: String,
}

/// How many looks the film can carry.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Budget {
    /// Looks in all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub looks: Option<u32>,
    /// A look should be seen for at least so long.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least_screen_time: Option<Eighths>,
    /// Looks of each character.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub characters: Pairs<Id<Character>, u32>,
    /// Looks in each period.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub periods: Pairs<Id<Period>, u32>,
    /// Limits that were raised, and why.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub raised: Vec<Raise>,
}

impl Budget {
    /// Whether it says nothing.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The limit on `scope`, if there is one.
    pub fn limit(&self, scope: &Scope) -> Option<u32> {
        match scope {
            Scope::Overall => self.looks,
            Scope::Character(id) => self.characters.get(id).copied(),
            Scope::Period(id) => self.periods.get(id).copied(),
        }
    }
}

/// A limit that was raised on the record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Raise {
    /// The day on which it was raised.
    pub on: Date,
    /// Which limit.
    pub limit: Scope,
    /// The limit before.
    pub from: u32,
    /// The limit after.
    pub to: u32,
    /// The reason given.
    pub why: String,
}

/// What a limit counts.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Scope {
    /// All looks.
    Overall,
    /// The looks of one character.
    Character(Id<Character>),
    /// The looks of one period.
    Period(Id<Period>),
}

impl std::fmt::Display for Scope {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Overall => f.pad("overall"),
            Self::Character(id) => write!(f, "character {id}"),
            Self::Period(id) => write!(f, "period {id}"),
        }
    }
}

impl std::str::FromStr for Scope {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wrong = || format!("`{text}` is no limit: expected `overall`, `character ID` or `period ID`");
        match text.split_once(' ') {
            None if text == "overall" => Ok(Self::Overall),
            Some(("character", id)) => id.trim().parse().map(Self::Character).map_err(|_| wrong()),
            Some(("period", id)) => id.trim().parse().map(Self::Period).map_err(|_| wrong()),
            _ => Err(wrong()),
        }
    }
}

by_text!(Scope);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_is_named_by_what_it_counts() {
        for text in ["overall", "character odile", "period war"] {
            assert_eq!(text.parse::<Scope>().unwrap().to_string(), text);
        }
        for text in ["", "odile", "character", "character ", "period Odile", "overall war", "look gown"] {
            let error = text.parse::<Scope>().unwrap_err();
            assert_eq!(
                error,
                format!("`{text}` is no limit: expected `overall`, `character ID` or `period ID`")
            );
        }
    }

    #[test]
    fn a_budget_that_says_nothing_is_left_out() {
        let mut head: Head =
            serde_json::from_value(serde_json::json!({"shirr": 1, "id": "b", "title": "B"})).unwrap();
        let keys = |head: &Head| -> Vec<String> {
            let tree = serde_json::to_value(head).unwrap();
            tree.as_object().unwrap().keys().cloned().collect()
        };
        assert_eq!(keys(&head), ["shirr", "id", "title", "units", "periods", "characters"]);
        head.budget.looks = Some(0);
        assert_eq!(keys(&head)[4], "budget", "a limit of none is a limit");
        assert_eq!(head.budget.limit(&Scope::Overall), Some(0));
    }
}
