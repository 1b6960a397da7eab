//! How a piece of a look is made: its measures, its cloths, its versions, its hours, and what fittings changed.
//!
//! A look names its pieces; what the workroom knows of one stands beside them under the same name.

use std::num::NonZeroU8;

use serde::{Deserialize, Serialize};

use super::amending::literal;
use super::body::Body;
use super::cloth::Cloth;
use super::id::Id;
use super::outfit::PicturePath;
use super::pairs::Pairs;
use crate::trade::angle::Angle;
use crate::trade::body::BodyMeasure;
use crate::trade::date::Date;
use crate::trade::fraction::Fraction;
use crate::trade::hours::Hours;
use crate::trade::length::{Length, Size};
use crate::trade::money::{Money, not_below_nothing};

/// How one piece is made.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Make {
    /// Its measures, each with the rule that carries it over from the original.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub measures: Vec<Measure>,
    /// What one copy takes of each cloth.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cuts: Vec<Cut>,
    /// Its versions; without any it is made as designed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub versions: Vec<Version>,
    /// Toiles that are cut of the cloth itself before the first copy.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub toiles: u8,
    /// Hours of work on each copy.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub hours: Pairs<Id<Work>, Hours>,
    /// Hours of work that are done once for all copies: the pattern, the first toile.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub hours_once: Pairs<Id<Work>, Hours>,
    /// What else it costs.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub costs: Vec<Expense>,
}

/// A kind of work, which has its rate.
#[derive(Clone, Copy, Debug)]
pub enum Work {}

/// A measure of a piece and the rule that gives it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Row", into = "Row")]
pub struct Measure {
    /// Which: `chest`, `leg`, `collar`.
    pub name: String,
    /// What it was on the original garment; without it the base outfit says.
    pub original: Option<Size>,
    /// How it is carried over.
    pub rule: Rule,
}

/// How a garment measure is carried over from the original's body to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rule {
    /// The body's measure and the ease that the original had.
    Ease {
        /// Of which measure of the body.
        of: BodyMeasure,
        /// The ease that is taken to have been in the original, where its body is unknown.
        eased: Option<Length>,
    },
    /// In proportion to the body's measure.
    Ratio {
        /// Of which measure of the body.
        of: BodyMeasure,
        /// The ease that is taken to have been in the original, where its body is unknown.
        eased: Option<Length>,
    },
    /// An edge keeps the fraction of a segment of the body at which it falls, and the angle at which it lies.
    Landmark {
        /// Which segment.
        of: BodyMeasure,
        /// The fraction, where it is seen on a picture rather than measured.
        fraction: Option<Fraction>,
        /// The angle against the level, above 0° and at most 90°.
        angle: Angle,
    },
    /// As it was, whoever wears it.
    Same,
}

impl Rule {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Ease { .. } => "ease",
            Self::Ratio { .. } => "ratio",
            Self::Landmark { .. } => "landmark",
            Self::Same => "same",
        }
    }

    /// The measure of the body that it goes by.
    pub fn of(self) -> Option<BodyMeasure> {
        match self {
            Self::Ease { of, .. } | Self::Ratio { of, .. } | Self::Landmark { of, .. } => Some(of),
            Self::Same => None,
        }
    }
}

/// A measure as it stands in a file: which fields go together depends on the rule.
#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Row {
    measure: String,
    rule: RuleName,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    of: Option<BodyMeasure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    original: Option<Size>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    eased: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    fraction: Option<Fraction>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    angle: Option<Angle>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RuleName {
    Ease,
    Ratio,
    Landmark,
    Same,
}

impl TryFrom<Row> for Measure {
    type Error = String;

    fn try_from(row: Row) -> Result<Self, String> {
        let Row { measure: name, rule, of, original, eased, fraction, angle } = row;
        let lacks = |field: &str, is: &str| format!("measure `{name}` needs `{field}`: {is}");
        let body = || of.ok_or_else(|| lacks("of", "the measure of the body that it goes by"));
        let none = |given: bool, field: &str| {
            let says = format!(
                "measure `{name}`: `{field}` says nothing under this rule: take it out, or use another rule"
            );
            if given { Err(says) } else { Ok(()) }
        };
        let rule = match rule {
            RuleName::Ease => Rule::Ease { of: body()?, eased },
            RuleName::Ratio => Rule::Ratio { of: body()?, eased },
            RuleName::Landmark => {
                none(eased.is_some(), "eased")?;
                let angle =
                    angle.ok_or_else(|| lacks("angle", "at how many degrees the edge lies, such as `70`"))?;
                if angle.degrees() > 90.0 {
                    return Err(format!(
                        "measure `{name}`: an edge lies at most upright, at `90` degrees, not {angle}"
                    ));
                }
                Rule::Landmark { of: body()?, fraction, angle }
            }
            RuleName::Same => {
                none(of.is_some(), "of")?;
                none(eased.is_some(), "eased")?;
                Rule::Same
            }
        };
        if !matches!(rule, Rule::Landmark { .. }) {
            none(fraction.is_some(), "fraction")?;
            none(angle.is_some(), "angle")?;
        }
        Ok(Self { name, original, rule })
    }
}

impl From<Measure> for Row {
    fn from(measure: Measure) -> Self {
        let Measure { name, original, rule } = measure;
        let row = Self {
            measure: name,
            rule: RuleName::Same,
            of: rule.of(),
            original,
            eased: None,
            fraction: None,
            angle: None,
        };
        match rule {
            Rule::Ease { eased, .. } => Self { rule: RuleName::Ease, eased, ..row },
            Rule::Ratio { eased, .. } => Self { rule: RuleName::Ratio, eased, ..row },
            Rule::Landmark { fraction, angle, .. } => {
                Self { rule: RuleName::Landmark, fraction, angle: Some(angle), ..row }
            }
            Rule::Same => row,
        }
    }
}

/// What one copy of a piece takes of a cloth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "CutRow", into = "CutRow")]
pub struct Cut {
    /// Which cloth.
    pub cloth: Id<Cloth>,
    /// How much of it.
    pub lay: Lay,
}

/// How much of a cloth is taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lay {
    /// So much length of the cloth's whole width, as the pattern was laid out.
    Laid(Size),
    /// So many rectangles: each as long as it hangs, and as wide as it is cut, seams and hems within.
    Panels {
        /// How many.
        panels: NonZeroU8,
        /// How long each is.
        length: Size,
        /// How wide each is.
        width: Size,
    },
    /// So many whole hides, skins or sheets.
    Skins(NonZeroU8),
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct CutRow {
    cloth: Id<Cloth>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lay: Option<Size>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    panels: Option<NonZeroU8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    length: Option<Size>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    width: Option<Size>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    skins: Option<NonZeroU8>,
}

impl TryFrom<CutRow> for Cut {
    type Error = String;

    fn try_from(row: CutRow) -> Result<Self, String> {
        let CutRow { cloth, lay, panels, length, width, skins } = row;
        let lay = match (lay, panels, length, width, skins) {
            (Some(lay), None, None, None, None) => Lay::Laid(lay),
            (None, Some(panels), Some(length), Some(width), None) => Lay::Panels { panels, length, width },
            (None, None, None, None, Some(skins)) => Lay::Skins(skins),
            _ => {
                return Err(format!(
                    "a cut of `{cloth}` needs one of three: `lay`; or `panels`, `length` and `width`; or `skins`"
                ));
            }
        };
        Ok(Self { cloth, lay })
    }
}

impl From<Cut> for CutRow {
    fn from(cut: Cut) -> Self {
        let row = Self { cloth: cut.cloth, lay: None, panels: None, length: None, width: None, skins: None };
        match cut.lay {
            Lay::Laid(lay) => Self { lay: Some(lay), ..row },
            Lay::Panels { panels, length, width } => {
                Self { panels: Some(panels), length: Some(length), width: Some(width), ..row }
            }
            Lay::Skins(skins) => Self { skins: Some(skins), ..row },
        }
    }
}

/// A piece cut for an action.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Version {
    /// Which: `standing`, `seated`, `floor`, `behind`, `wet` …
    pub version: Id<Version>,
    /// What is hidden in it so that it works.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rigs: Vec<String>,
    /// What an eye could see that is not as designed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub differs: Vec<String>,
    /// What it adds to measures.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub adds: Vec<Addition>,
    /// Cloth that each copy takes besides.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub more_cloth: Pairs<Id<Cloth>, Size>,
    /// Hours of work on each copy besides.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub more_hours: Pairs<Id<Work>, Hours>,
    /// How many are made or planned, by who wears them.
    #[serde(default, skip_serializing_if = "Pairs::is_empty")]
    pub copies: Pairs<Id<Body>, u8>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

impl Version {
    /// The version as designed, which a piece has without saying so.
    pub fn as_designed() -> Id<Self> {
        literal("standing")
    }
}

/// What a version adds to a measure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "AdditionRow", into = "AdditionRow")]
pub struct Addition {
    /// The measure, by its name.
    pub to: String,
    /// What for.
    pub by: Added,
}

/// What lengthens a measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Added {
    /// A pad under the cloth, over an arc of the limb: a girth grows by the arc times the thickness.
    Pad {
        /// How thick.
        thick: Size,
        /// Over how much of the limb, at most 360°.
        arc: Angle,
    },
    /// What the leg needs more when it is bent to sit, as measured.
    Rise(Size),
    /// What the back or the sleeve needs more when the arms reach, as measured.
    Reach(Size),
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct AdditionRow {
    to: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pad: Option<Size>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    arc: Option<Angle>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rise: Option<Size>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    reach: Option<Size>,
}

impl TryFrom<AdditionRow> for Addition {
    type Error = String;

    fn try_from(row: AdditionRow) -> Result<Self, String> {
        let AdditionRow { to, pad, arc, rise, reach } = row;
        let by = match (pad, arc, rise, reach) {
            (Some(thick), Some(arc), None, None) => Added::Pad { thick, arc },
            (None, None, Some(rise), None) => Added::Rise(rise),
            (None, None, None, Some(reach)) => Added::Reach(reach),
            _ => {
                return Err(format!(
                    "what is added to `{to}` needs one of three: `pad` and `arc`; or `rise`; or `reach`"
                ));
            }
        };
        Ok(Self { to, by })
    }
}

impl From<Addition> for AdditionRow {
    fn from(addition: Addition) -> Self {
        let row = Self { to: addition.to, pad: None, arc: None, rise: None, reach: None };
        match addition.by {
            Added::Pad { thick, arc } => Self { pad: Some(thick), arc: Some(arc), ..row },
            Added::Rise(rise) => Self { rise: Some(rise), ..row },
            Added::Reach(reach) => Self { reach: Some(reach), ..row },
        }
    }
}

/// What a piece costs besides cloth and hours.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Expense {
    /// For what: dye, print, buttons, bought.
    #[serde(rename = "cost")]
    pub what: String,
    /// For each copy.
    #[serde(default, deserialize_with = "not_below_nothing", skip_serializing_if = "Option::is_none")]
    pub each: Option<Money>,
    /// Once for all copies.
    #[serde(default, deserialize_with = "not_below_nothing", skip_serializing_if = "Option::is_none")]
    pub once: Option<Money>,
}

/// A fitting: what was measured, pinned and decided. Of two that decide the same, the later one in the log counts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Fitting {
    /// The day.
    pub on: Date,
    /// On whom; without it on who wears the look.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wearer: Option<Id<Body>>,
    /// What was found.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub found: Vec<Found>,
    /// What was photographed: paths below the board's folder.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pictures: Vec<PicturePath>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// What a fitting found of one measure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Found {
    /// Of which piece.
    pub piece: String,
    /// Of which of its measures.
    pub measure: String,
    /// What the garment measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured: Option<Size>,
    /// What was pinned out (less than nothing) or let in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pinned: Option<Length>,
    /// What it shall be.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub decided: Option<Size>,
}

fn is_zero(count: &u8) -> bool {
    *count == 0
}
