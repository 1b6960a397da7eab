//! An outfit: something that was really worn, with its evidence.

use serde::{Deserialize, Serialize};

use super::garment::Piece;
use super::head::{Character, Period, Thread};
use super::id::Id;
use super::pairs::Pairs;
use super::wishes::Wishes;
use crate::trade::date::Date;
use crate::trade::length::Size;

/// Something that was really worn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Outfit {
    /// A short name for the card.
    pub title: String,
    /// Who wore it.
    pub character: Id<Character>,
    /// When it was worn.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub worn: Option<Date>,
    /// For what.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub occasion: String,
    /// Overrides the period that the date gives.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub period: Option<Id<Period>>,
    /// Its outline in one or two words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub silhouette: String,
    /// Garments and accessories, the most important first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<Piece>,
    /// What its pieces measure, by their names: of a garment that survives, or off a pattern or a scaled picture.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub measured: Pairs<String, Pairs<String, Size>>,
    /// How we know.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub evidence: Vec<Evidence>,
    /// How strongly an audience carries the picture of it.
    #[serde(default)]
    pub recognition: Recognition,
    /// The signatures that it carries.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub threads: Vec<Id<Thread>>,
    /// How it was worn.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub dressing: Vec<String>,
    /// Paths below the board's folder.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pictures: Vec<PicturePath>,
    /// Words to find it by.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tags: Vec<String>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Why it is in no look, once that is decided.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub let_go: Option<String>,
    /// What is asked of a suggestion for it.
    #[serde(default, skip_serializing_if = "Wishes::is_empty")]
    pub wishes: Wishes,
}

impl Outfit {
    /// An outfit of which no more is known.
    pub fn titled(title: &str, character: Id<Character>) -> Self {
        Self {
            title: title.to_owned(),
            character,
            worn: None,
            occasion: String::new(),
            period: None,
            silhouette: String::new(),
            pieces: Vec::new(),
            measured: Pairs::default(),
            evidence: Vec::new(),
            recognition: Recognition::default(),
            threads: Vec::new(),
            dressing: Vec::new(),
            pictures: Vec::new(),
            tags: Vec::new(),
            notes: String::new(),
            let_go: None,
            wishes: Wishes::default(),
        }
    }
}

/// One source.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Evidence {
    /// What kind of source.
    pub kind: EvidenceKind,
    /// Where it is to be found.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub source: String,
    /// Who must be credited.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub credit: String,
    /// What may be done with it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub rights: String,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// Kinds of source, the surest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum EvidenceKind {
    /// The garment itself.
    SurvivingGarment,
    /// A photograph.
    Photograph,
    /// Moving pictures.
    Film,
    /// A painting or drawing.
    Painting,
    /// A letter, a bill, a description.
    Written,
    /// Told by someone.
    Hearsay,
}

impl EvidenceKind {
    /// All kinds, the surest first.
    pub const ALL: [Self; 6] =
        [Self::SurvivingGarment, Self::Photograph, Self::Film, Self::Painting, Self::Written, Self::Hearsay];

    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::SurvivingGarment => "surviving garment",
            Self::Photograph => "photograph",
            Self::Film => "film",
            Self::Painting => "painting",
            Self::Written => "written",
            Self::Hearsay => "hearsay",
        }
    }
}

/// 0 to 5: how strongly an audience carries the picture of this outfit (5: everybody has seen it).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub struct Recognition(u8);

impl Recognition {
    /// The most there is.
    pub const MOST: u8 = 5;

    /// `None` above five.
    pub fn new(value: u8) -> Option<Self> {
        (value <= Self::MOST).then_some(Self(value))
    }

    /// 0 to 5.
    pub fn get(self) -> u8 {
        self.0
    }
}

impl<'de> Deserialize<'de> for Recognition {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let value = i64::deserialize(from)?;
        u8::try_from(value).ok().and_then(Self::new).ok_or_else(|| {
            serde::de::Error::custom(format_args!("recognition {value} does not exist: expected 0 to 5"))
        })
    }
}

/// The path of a picture, relative to the board's folder, with forward slashes. It cannot leave the folder by its
/// own words; a link on disk is for whoever opens the file to refuse.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize)]
pub struct PicturePath(String);

impl PicturePath {
    /// The file's own name, without the folders above it.
    pub fn name(&self) -> &str {
        self.0.rsplit('/').next().unwrap_or_default()
    }

    /// The path as written.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::str::FromStr for PicturePath {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let stays = !text.is_empty()
            && !text.contains(['\\', ':'])
            && !text.chars().any(char::is_control)
            && text.split('/').all(|part| !part.is_empty() && part != "." && part != "..");
        if stays {
            Ok(Self(text.to_owned()))
        } else {
            Err(format!(
                "picture path `{text}` leaves the board's folder: expected one below it, such as `images/plate-12.jpg`"
            ))
        }
    }
}

impl<'de> Deserialize<'de> for PicturePath {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_path_never_leaves_the_folder() {
        for text in
            ["../x.jpg", "/etc/passwd", "images/../../x", "C:\\x", "images\\x", "", "a//b", "a\u{1b}b"]
        {
            assert!(text.parse::<PicturePath>().is_err(), "{text}");
        }
        assert!("images/plate 12.jpg".parse::<PicturePath>().is_ok());
    }

    #[test]
    fn recognition_ends_at_five() {
        assert_eq!(Recognition::new(5).map(Recognition::get), Some(5));
        assert_eq!(Recognition::new(6), None);
    }
}
