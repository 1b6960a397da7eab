//! Scenes, in story order, and the shooting days.

use std::fmt;
use std::num::NonZeroU8;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::body::Body;
use super::head::{Character, Period};
use super::id::Id;
use super::look::Look;
use super::pairs::Pairs;
use super::practice::Action;
use crate::trade::by_text::{by_text, text_or_integer};
use crate::trade::date::Date;
use crate::trade::eighths::Eighths;

/// One scene of the script.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Scene {
    /// Its number, such as `12` or `12A`.
    #[serde(rename = "scene")]
    pub number: SceneNumber,
    /// The slug line as in the script.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub heading: String,
    /// The set.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub set: String,
    /// Indoors or out.
    #[serde(rename = "where", default, skip_serializing_if = "Option::is_none")]
    pub place: Option<Place>,
    /// Day or night.
    #[serde(rename = "when", default, skip_serializing_if = "Option::is_none")]
    pub light: Option<Light>,
    /// The day of the story.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub story_day: Option<StoryDay>,
    /// When it plays.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<Date>,
    /// Overrides the period that the date gives.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub period: Option<Id<Period>>,
    /// Its length in pages and eighths.
    #[serde(default)]
    pub pages: Eighths,
    /// Who is in it, and which look each wears.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub wears: Pairs<Id<Character>, Option<Id<Look>>>,
    /// What they do in what they wear, as the tables of practice name it.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub does: Pairs<Id<Character>, Vec<Doing>>,
    /// What happens.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub action: String,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

impl Scene {
    /// A scene of which only the number is known.
    pub fn numbered(number: SceneNumber) -> Self {
        Self {
            number,
            heading: String::new(),
            set: String::new(),
            place: None,
            light: None,
            story_day: None,
            date: None,
            period: None,
            pages: Eighths::default(),
            wears: Pairs::default(),
            does: Pairs::default(),
            action: String::new(),
            notes: String::new(),
        }
    }

    /// Where it plays: the set, or else what the script heads it with.
    pub fn set_or_heading(&self) -> &str {
        if self.set.is_empty() { &self.heading } else { &self.set }
    }
}

/// What somebody does in what they wear.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Doing {
    /// Which action.
    pub action: Id<Action>,
    /// Who does it, where it is not who wears the look: a double.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<Id<Body>>,
    /// How many takes are planned.
    #[serde(default = "once", skip_serializing_if = "is_once")]
    pub takes: NonZeroU8,
    /// The pieces that it concerns, where the table's are not the right ones.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<String>,
}

fn once() -> NonZeroU8 {
    NonZeroU8::MIN
}

fn is_once(takes: &NonZeroU8) -> bool {
    *takes == NonZeroU8::MIN
}

/// A day of shooting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct ShootDay {
    /// Its number, from 1.
    pub day: u32,
    /// Its date.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<Date>,
    /// The scenes that are shot, in order.
    #[serde(default)]
    pub scenes: Vec<SceneNumber>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// Indoors or out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Place {
    /// Indoors.
    #[serde(rename = "INT")]
    Inside,
    /// Outdoors.
    #[serde(rename = "EXT")]
    Outside,
    /// Both.
    #[serde(rename = "INT/EXT")]
    Both,
}

impl Place {
    /// As scripts write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Inside => "INT",
            Self::Outside => "EXT",
            Self::Both => "INT/EXT",
        }
    }
}

/// The light that a scene plays in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Light {
    /// By day.
    Day,
    /// By night.
    Night,
    /// At dawn.
    Dawn,
    /// At dusk.
    Dusk,
}

impl Light {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Day => "day",
            Self::Night => "night",
            Self::Dawn => "dawn",
            Self::Dusk => "dusk",
        }
    }
}

/// A scene number: digits, then letters for scenes that were put in later. Ordered as scripts order them.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SceneNumber {
    digits: u32,
    letters: Box<str>,
}

impl SceneNumber {
    /// The most letters behind the digits.
    const MOST_LETTERS: usize = 4;

    /// A number without letters.
    pub fn whole(digits: u32) -> Self {
        Self { digits, letters: "".into() }
    }

    /// The number without its letters.
    pub fn digits(&self) -> u32 {
        self.digits
    }

    /// The numbers that go on from its last letter: 12A, 12B … behind 12, 12B … behind 12A.
    pub fn next_letters(&self) -> impl Iterator<Item = Self> {
        let (stem, first) = match self.letters.as_bytes().last() {
            Some(last) => (&self.letters[..self.letters.len() - 1], last + 1),
            None => ("", b'A'),
        };
        (first..=b'Z').map(move |letter| self.lettered(stem, letter))
    }

    /// The numbers with one letter more: 12AA, 12AB … for 12A.
    pub fn with_letters(&self) -> impl Iterator<Item = Self> {
        let room = self.letters.len() < Self::MOST_LETTERS;
        (b'A'..=b'Z').filter(move |_| room).map(move |letter| self.lettered(&self.letters, letter))
    }

    fn lettered(&self, stem: &str, letter: u8) -> Self {
        Self { digits: self.digits, letters: format!("{stem}{}", char::from(letter)).into() }
    }
}

impl FromStr for SceneNumber {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let split = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
        let (digits, letters) = text.split_at(split);
        match digits.parse() {
            Ok(digits)
                if letters.len() <= Self::MOST_LETTERS
                    && letters.bytes().all(|b| b.is_ascii_alphabetic()) =>
            {
                Ok(Self { digits, letters: letters.to_ascii_uppercase().into() })
            }
            _ => Err(format!(
                "`{text}` is no scene number: expected digits, then letters if any, such as `12` or `12A`"
            )),
        }
    }
}

impl fmt::Display for SceneNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{}{}", self.digits, self.letters))
    }
}

impl Serialize for SceneNumber {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        if self.letters.is_empty() { to.serialize_u32(self.digits) } else { to.collect_str(self) }
    }
}

impl<'de> Deserialize<'de> for SceneNumber {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text_or_integer(from, "a scene number such as `12` or `12A`")
    }
}

/// The day of the story in which a scene plays: `D1`, `N1`, `D2` …; the night of a day follows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StoryDay {
    number: u32,
    night: bool,
}

impl StoryDay {
    /// The day's number; its night has the same.
    pub fn number(self) -> u32 {
        self.number
    }
}

impl FromStr for StoryDay {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wrong =
            || format!("`{text}` is no story day: expected D or N and a number, such as `D1` or `N1`");
        let mut rest = text.trim().chars();
        let night = match rest.next() {
            Some('D' | 'd') => false,
            Some('N' | 'n') => true,
            _ => return Err(wrong()),
        };
        match rest.as_str().parse() {
            Ok(number) if rest.as_str().bytes().all(|b| b.is_ascii_digit()) => Ok(Self { number, night }),
            _ => Err(wrong()),
        }
    }
}

impl fmt::Display for StoryDay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{}{}", if self.night { 'N' } else { 'D' }, self.number))
    }
}

by_text!(StoryDay);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scene_numbers_sort_as_scripts_do() {
        let mut numbers: Vec<SceneNumber> =
            ["12B", "2", "12", "12a", "101"].iter().map(|n| n.parse().unwrap()).collect();
        numbers.sort();
        let sorted: Vec<String> = numbers.iter().map(ToString::to_string).collect();
        assert_eq!(sorted, ["2", "12", "12A", "12B", "101"]);
        assert!("A12".parse::<SceneNumber>().is_err());
        assert!("".parse::<SceneNumber>().is_err());
    }

    #[test]
    fn a_number_goes_on_by_its_last_letter_or_by_one_more() {
        let number = |text: &str| text.parse::<SceneNumber>().unwrap();
        assert_eq!(number("12").next_letters().next(), Some(number("12A")));
        assert_eq!(number("12AC").next_letters().next(), Some(number("12AD")));
        assert_eq!(number("12Z").next_letters().count(), 0);
        assert_eq!(number("12Z").with_letters().next(), Some(number("12ZA")));
        assert_eq!(number("12AAAA").with_letters().count(), 0);
    }

    #[test]
    fn story_days_read_and_print() {
        for text in ["D1", "N1", "D23"] {
            assert_eq!(text.parse::<StoryDay>().unwrap().to_string(), text);
        }
        for text in ["E1", "D", "", "D+1", "D-1", "D 1", "1", "D99999999999"] {
            assert!(text.parse::<StoryDay>().is_err(), "{text}");
        }
    }

    #[test]
    fn the_night_of_a_day_follows_it() {
        let mut days = ["N2", "D10", "N1", "D2", "D1"].map(|text| text.parse::<StoryDay>().unwrap());
        days.sort();
        assert_eq!(days.map(|day| day.to_string()), ["D1", "N1", "D2", "N2", "D10"]);
    }

    #[test]
    fn a_number_in_a_file_is_a_scene_number_as_well() {
        let read = |tree| serde_json::from_value::<SceneNumber>(tree).map(|number| number.to_string()).ok();
        assert_eq!(read(serde_json::json!(12)).as_deref(), Some("12"));
        assert_eq!(read(serde_json::json!("12a")).as_deref(), Some("12A"));
        for tree in [serde_json::json!(-1), serde_json::json!(1.5), serde_json::json!(4_294_967_296_u64)] {
            assert_eq!(read(tree.clone()), None, "{tree}");
        }
    }
}
