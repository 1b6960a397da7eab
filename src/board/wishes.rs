//! What a designer asks of a suggestion, whatever it costs: the record's fields, and the settings of the board.
//!
//! Wishes about single outfits stand on the outfit; wishes about how many looks stand in `gather` of `board.yaml`,
//! beside the weights by which outfits are compared. Nothing here knows how a suggestion is found.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::Period;
use super::head::{Character, Thread};
use super::id::Id;
use super::outfit::Outfit;
use super::pairs::Pairs;
use crate::trade::by_text::by_text;

/// What is wished of one outfit.
///
/// That two are kept apart, or together, is one wish of both. [`Board::wish_apart`](super::Board::wish_apart) and
/// [`Board::wish_together`](super::Board::wish_together) write it once, on the first of the two in the order of their
/// ids; files may have it on either, or on both, and mean the same.
/// [`Relations`](super::Relations) has it both ways round.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Wishes {
    /// Whether it is to be the base of a look.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base: Option<BaseWish>,
    /// Never in one look with these.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub apart: Vec<Id<Outfit>>,
    /// Always in one look with these.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub together: Vec<Id<Outfit>>,
}

impl Wishes {
    /// Whether nothing is wished.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// Whether an outfit is to be the base of a look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BaseWish {
    /// It must be.
    Must,
    /// It must not be.
    Never,
}

/// `gather` in `board.yaml`: how outfits are compared, and how many looks some of them must or may have.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct GatherSettings {
    /// How much each feature counts. One that is not given counts as it does by default.
    #[serde(default, skip_serializing_if = "Weights::is_empty")]
    pub weights: Weights,
    /// Two outfits so many years apart are wholly unlike in date.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub years_apart: Option<Reach>,
    /// Two colours that differ by so much (CIEDE2000) are wholly unlike.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub colours_apart: Option<Reach>,
    /// At most so many looks are to have a base among these outfits.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub at_most: Pairs<Among, u32>,
    /// At least so many looks are to have a base among these outfits.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub at_least: Pairs<Among, u32>,
}

impl GatherSettings {
    /// Whether it says nothing.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// How much each feature of an outfit counts when two are compared.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "AnyWeights", rename_all = "kebab-case")]
pub struct Weights {
    /// When it was worn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub date: Option<Weight>,
    /// Which garments.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pieces: Option<Weight>,
    /// Its outline.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub silhouette: Option<Weight>,
    /// What it is made of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cloth: Option<Weight>,
    /// For what it was worn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub occasion: Option<Weight>,
    /// Its colours.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub colours: Option<Weight>,
    /// The threads that it carries.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub threads: Option<Weight>,
}

impl Weights {
    /// Whether none is given.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    fn all(&self) -> [Option<Weight>; 7] {
        [self.date, self.pieces, self.silhouette, self.cloth, self.occasion, self.colours, self.threads]
    }
}

/// Weights as they may stand in a file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct AnyWeights {
    date: Option<Weight>,
    pieces: Option<Weight>,
    silhouette: Option<Weight>,
    cloth: Option<Weight>,
    occasion: Option<Weight>,
    colours: Option<Weight>,
    threads: Option<Weight>,
}

impl TryFrom<AnyWeights> for Weights {
    type Error = &'static str;

    fn try_from(any: AnyWeights) -> Result<Self, Self::Error> {
        let AnyWeights { date, pieces, silhouette, cloth, occasion, colours, threads } = any;
        let weights = Self { date, pieces, silhouette, cloth, occasion, colours, threads };
        if weights.all().iter().all(|weight| weight.is_some_and(|weight| weight.get() == 0.0)) {
            return Err("all weights are 0, so that nothing is compared: expected at least one above 0");
        }
        Ok(weights)
    }
}

/// The most that a [`Weight`] or a [`Reach`] can be.
const MOST: f64 = 10_000.0;

/// A number to three decimals, so that what is written reads back as the same number; from `$least` to [`MOST`].
macro_rules! number {
    ($(#[$about:meta])* $name:ident, $least:expr, $expected:literal) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq)]
        pub struct $name(f64);

        impl $name {
            /// `None` where that is none.
            pub fn new(value: f64) -> Option<Self> {
                ($least..=MOST).contains(&value).then(|| Self((value * 1000.0).round() / 1000.0))
            }

            /// The number.
            pub fn get(self) -> f64 {
                self.0
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                // Whole numbers without a point, as people write them.
                if self.0.fract() == 0.0 { to.serialize_u64(self.0 as u64) } else { to.serialize_f64(self.0) }
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                let value = f64::deserialize(from)?;
                Self::new(value).ok_or_else(|| de::Error::custom(format_args!("{value} is {}", $expected)))
            }
        }
    };
}

number!(
    /// How much a feature counts: 0 to 10 000, to three decimals.
    Weight,
    0.0,
    "no weight: expected a number from 0 to 10000"
);

number!(
    /// From where on two values are wholly unlike: above 0, at most 10 000, to three decimals.
    Reach,
    0.001,
    "out of reach: expected a number above 0, at most 10000"
);

/// The outfits of whom or what a wish counts.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Among {
    /// Those of a character.
    Character(Id<Character>),
    /// Those of a period.
    Period(Id<Period>),
    /// Those that carry a thread.
    Thread(Id<Thread>),
}

impl std::fmt::Display for Among {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Character(id) => write!(f, "character {id}"),
            Self::Period(id) => write!(f, "period {id}"),
            Self::Thread(id) => write!(f, "thread {id}"),
        }
    }
}

impl std::str::FromStr for Among {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wrong = || {
            format!("`{text}` names no group of looks: expected `character ID`, `period ID` or `thread ID`")
        };
        match text.split_once(' ') {
            Some(("character", id)) => id.trim().parse().map(Self::Character).map_err(|_| wrong()),
            Some(("period", id)) => id.trim().parse().map(Self::Period).map_err(|_| wrong()),
            Some(("thread", id)) => id.trim().parse().map(Self::Thread).map_err(|_| wrong()),
            _ => Err(wrong()),
        }
    }
}

by_text!(Among);

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;

    fn read(tree: Value) -> Result<GatherSettings, String> {
        serde_json::from_value(tree).map_err(|error| error.to_string())
    }

    #[test]
    fn settings_read_and_write_the_same_words() {
        let tree = json!({
            "weights": {"date": 2, "cloth": 0.5, "threads": 0},
            "years-apart": 12, "colours-apart": 37.5,
            "at-most": {"thread all-white": 2},
            "at-least": {"period war": 3, "character odile": 20},
        });
        let settings = read(tree.clone()).unwrap();
        assert_eq!(settings.weights.cloth.map(Weight::get), Some(0.5));
        assert_eq!(serde_json::to_value(&settings).unwrap(), tree);
        assert!(!settings.is_empty() && read(json!({})).unwrap().is_empty());
    }

    #[test]
    fn numbers_that_compare_nothing_are_refused() {
        let zeros = ["date", "pieces", "silhouette", "cloth", "occasion", "colours", "threads"];
        let zeros: serde_json::Map<_, _> =
            zeros.map(|name| (name.to_owned(), json!(0))).into_iter().collect();
        for (tree, words) in [
            (json!({"weights": {"date": -1}}), "-1 is no weight: expected a number from 0 to 10000"),
            (json!({"weights": {"date": 10001}}), "10001 is no weight"),
            (json!({"weights": zeros}), "all weights are 0"),
            (json!({"weights": {"dates": 1}}), "unknown field `dates`"),
            (json!({"years-apart": 0}), "0 is out of reach: expected a number above 0"),
            (json!({"at-most": {"odile": 1}}), "`odile` names no group of looks"),
            (json!({"at-most": {"thread cap": -1}}), "invalid value"),
        ] {
            let error = read(tree).unwrap_err();
            assert!(error.starts_with(words), "{error}");
        }
        assert_eq!((Weight::new(f64::NAN), Reach::new(f64::NAN)), (None, None));
        assert_eq!((Weight::new(f64::INFINITY), Reach::new(-1.0)), (None, None));
    }

    #[test]
    fn a_number_is_kept_to_three_decimals_and_reads_back_as_itself() {
        for thousandths in 1..5_000_u32 {
            let weight = Weight::new(f64::from(thousandths) / 1000.0).unwrap();
            let text = serde_json::to_string(&weight).unwrap();
            assert_eq!(serde_json::from_str::<Weight>(&text).unwrap(), weight, "{text}");
        }
        assert_eq!(Weight::new(1.000_4).unwrap().get(), 1.0);
    }

    #[test]
    fn a_group_is_named_by_what_it_counts() {
        for text in ["character odile", "period war", "thread green-cap"] {
            assert_eq!(text.parse::<Among>().unwrap().to_string(), text);
        }
        for text in ["", "overall", "thread", "thread Cap", "look gown"] {
            assert!(text.parse::<Among>().unwrap_err().contains("names no group of looks"), "{text}");
        }
    }
}
