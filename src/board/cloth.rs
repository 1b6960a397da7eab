//! Cloths: what is bought by the length or the hide, and the trials by which it was chosen.

use std::num::NonZeroU16;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::{Board, Change, ClothId, Edit, Swap};
use crate::trade::cloth_weight::ClothWeight;
use crate::trade::colour::Colour;
use crate::trade::date::Date;
use crate::trade::fibre::Fibre;
use crate::trade::fraction::Fraction;
use crate::trade::length::{Length, Size};
use crate::trade::money::{Money, not_below_nothing};

/// One cloth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Cloth {
    /// As a buyer would name it.
    pub title: String,
    /// What it is spun, tanned or made of, most first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fibres: Vec<Fibre>,
    /// How it is woven or knitted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub weave: String,
    /// How heavy it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight: Option<ClothWeight>,
    /// How wide it lies between its selvedges; nothing that is bought by the hide has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<Size>,
    /// After how much length its pattern comes again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub repeat: Option<Size>,
    /// After how much width its pattern comes again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub repeat_across: Option<Size>,
    /// Whether all pieces must be cut one way.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub nap: bool,
    /// How much of its length goes when it is washed before it is cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shrinkage: Option<Fraction>,
    /// How far it gives, as a part of its length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stretch: Option<Fraction>,
    /// Its own colour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub colour: Option<Colour>,
    /// The colour of the source that it should come near to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source_colour: Option<Colour>,
    /// How it is finished: oiled, calendered, brushed.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub finish: String,
    /// Who has it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub supplier: String,
    /// What a metre costs, or a hide.
    #[serde(default, deserialize_with = "not_below_nothing", skip_serializing_if = "Option::is_none")]
    pub price: Option<Money>,
    /// How much of it is in the house.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock: Option<Length>,
    /// Days from the order to the door.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead_days: Option<u16>,
    /// How much is cut up for trials of dye, print and wear before any piece is cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub test_strips: Option<Size>,
    /// How fine it is printed, in dots an inch, where it is printed for the film.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub print_dpi: Option<NonZeroU16>,
    /// What was tried, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub trials: Vec<Trial>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// One trial of a cloth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Trial {
    /// Its number.
    pub trial: u32,
    /// When it was tried.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<Date>,
    /// How heavy what was tried is.
    pub weight: ClothWeight,
    /// How it was judged.
    pub verdict: Verdict,
    /// What was seen.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// How a trial was judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// It floats, clings or shows what is under it.
    TooLight,
    /// It drags, or nobody can work in it.
    TooHeavy,
    /// It does not fall; another finish or weave may, at the same weight.
    TooStiff,
    /// This is it.
    Right,
}

impl Verdict {
    /// All verdicts.
    pub const ALL: [Self; 4] = [Self::TooLight, Self::TooHeavy, Self::TooStiff, Self::Right];

    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::TooLight => "too light",
            Self::TooHeavy => "too heavy",
            Self::TooStiff => "too stiff",
            Self::Right => "right",
        }
    }
}

impl Cloth {
    /// A cloth of which only the name is known.
    pub fn titled(title: &str) -> Self {
        Self {
            title: title.to_owned(),
            fibres: Vec::new(),
            weave: String::new(),
            weight: None,
            width: None,
            repeat: None,
            repeat_across: None,
            nap: false,
            shrinkage: None,
            stretch: None,
            colour: None,
            source_colour: None,
            finish: String::new(),
            supplier: String::new(),
            price: None,
            stock: None,
            lead_days: None,
            test_strips: None,
            print_dpi: None,
            trials: Vec::new(),
            notes: String::new(),
        }
    }

    /// Whether it gives as knitted cloth does, so that a garment of it may be smaller than the body.
    pub fn gives(&self) -> bool {
        let knitted = ["knit", "jersey", "rib", "cardigan", "stockinet"];
        let weave = self.weave.to_lowercase();
        self.stretch.is_some_and(|stretch| stretch.get() > 0.0)
            || knitted.iter().any(|word| weave.contains(word))
    }
}

impl Board {
    /// Makes a cloth what is given, be it new; `None` takes it away.
    pub fn set_cloth(&self, id: &ClothId, cloth: Option<Cloth>, label: impl Into<String>) -> Edit {
        let swap = Swap::if_any(self.records().cloths.get(id), cloth.map(Arc::new).as_ref());
        Edit::new(label, swap.map(|swap| Change::Cloth(id.clone(), swap)).into_iter().collect())
    }
}
