//! A look: one complete costume of one character, as the screen will see it.

use serde::{Deserialize, Serialize};

use super::body::Body;
use super::garment::Piece;
use super::head::{Character, Period, Thread};
use super::id::Id;
use super::make::{Fitting, Make};
use super::outfit::Outfit;
use super::pairs::Pairs;

/// One complete costume of one character.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Look {
    /// A short name.
    pub title: String,
    /// Who wears it.
    pub character: Id<Character>,
    /// What it tells at its point of the story, in one line.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub says: String,
    /// How it stands to its source.
    pub treatment: Treatment,
    /// The outfit that it is made after.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base: Option<Id<Outfit>>,
    /// Other outfits that it stands for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub folded: Vec<Id<Outfit>>,
    /// The period, where the base does not give it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub period: Option<Id<Period>>,
    /// Its place among its character's looks.
    #[serde(default)]
    pub order: i64,
    /// How far the work is.
    #[serde(default)]
    pub stage: Stage,
    /// Where it differs from its base.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub departures: Vec<Departure>,
    /// Garments and accessories.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<Piece>,
    /// The signatures that it keeps.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub threads: Vec<Id<Thread>>,
    /// How it is worn; goes to the set with it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub dressing: Vec<String>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Who wears it; without it, the character's first performer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wearer: Option<Id<Body>>,
    /// Which body wore what it is made after; without it, the character's first original.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub original: Option<Id<Body>>,
    /// How its pieces are made, by their names.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub make: Pairs<String, Make>,
    /// Its fittings, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fittings: Vec<Fitting>,
}

impl Look {
    /// A look of which no more is known.
    pub fn sketched(title: &str, character: Id<Character>, treatment: Treatment) -> Self {
        Self {
            title: title.to_owned(),
            character,
            says: String::new(),
            treatment,
            base: None,
            folded: Vec::new(),
            period: None,
            order: 0,
            stage: Stage::Sketched,
            departures: Vec::new(),
            pieces: Vec::new(),
            threads: Vec::new(),
            dressing: Vec::new(),
            notes: String::new(),
            wearer: None,
            original: None,
            make: Pairs::default(),
            fittings: Vec::new(),
        }
    }

    /// The base, then the folded outfits.
    pub fn outfits(&self) -> impl Iterator<Item = &Id<Outfit>> {
        self.base.iter().chain(&self.folded)
    }
}

/// How a look stands to its source.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Treatment {
    /// The look repeats its source.
    Copy,
    /// The look departs from its source, on purpose.
    Interpret,
    /// No source covers it.
    Invent,
}

impl Treatment {
    /// All treatments.
    pub const ALL: [Self; 3] = [Self::Copy, Self::Interpret, Self::Invent];

    /// Its mark: `=`, `≈` or `*`.
    pub fn mark(self) -> &'static str {
        match self {
            Self::Copy => "=",
            Self::Interpret => "≈",
            Self::Invent => "*",
        }
    }

    /// In a word, as the look does it: `copies`, `interprets`, `invented`.
    pub fn word(self) -> &'static str {
        match self {
            Self::Copy => "copies",
            Self::Interpret => "interprets",
            Self::Invent => "invented",
        }
    }
}

/// How far the work on a look is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// On paper.
    #[default]
    Sketched,
    /// Made up in a trial cloth.
    Toile,
    /// Tried on.
    Fitted,
    /// Agreed.
    Approved,
    /// Seen by the camera: it can no longer change.
    Established,
}

impl Stage {
    /// All stages, in order.
    pub const ALL: [Self; 5] = [Self::Sketched, Self::Toile, Self::Fitted, Self::Approved, Self::Established];

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Sketched => "sketched",
            Self::Toile => "toile",
            Self::Fitted => "fitted",
            Self::Approved => "approved",
            Self::Established => "established",
        }
    }
}

/// A detail in which the look differs from its base.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Departure {
    /// Which detail.
    pub detail: String,
    /// What it was.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub was: String,
    /// What it becomes.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub becomes: String,
    /// Why.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
}

impl Departure {
    /// In one line, as every screen and page has it: `neckline: square → round — reads from afar`, less what nobody said.
    pub fn words(&self) -> String {
        let Self { detail, was, becomes, why } = self;
        let change = match (was.is_empty(), becomes.is_empty()) {
            (true, true) => String::new(),
            (true, false) => format!(": {becomes}"),
            (false, true) => format!(": not {was}"),
            (false, false) => format!(": {was} → {becomes}"),
        };
        let reason = if why.is_empty() { String::new() } else { format!(" — {why}") };
        format!("{detail}{change}{reason}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_departure_says_what_is_known_of_it_and_no_more() {
        let words = |was: &str, becomes: &str, why: &str| {
            let detail = "neck".to_owned();
            Departure { detail, was: was.into(), becomes: becomes.into(), why: why.into() }.words()
        };
        assert_eq!(words("square", "round", "reads from afar"), "neck: square → round — reads from afar");
        assert_eq!(words("", "round", ""), "neck: round");
        assert_eq!(words("lace", "", "it itches"), "neck: not lace — it itches");
        assert_eq!(words("", "", "she pulls at it"), "neck — she pulls at it");
        assert_eq!(words("", "", ""), "neck");
    }
}
