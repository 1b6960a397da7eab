//! How heavy a cloth is, in the units that mills, hide merchants and silk merchants use.
//!
//! Woven and knitted cloth is weighed by its area, kept in milligrams a square metre. One ounce a square yard is
//! 28.349 523 125 g on 0.836 127 36 m² (international yard and pound agreement, 1959). A momme is the weight in pounds
//! of a piece of silk 45 inches by 100 yards (common practice, no source). Leather is told by its thickness: an ounce
//! is a sixty-fourth of an inch (common practice, no source). Thickness and area weight do not compare.

use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

use super::by_text::by_text;

/// How heavy a cloth is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ClothWeight {
    /// By area.
    Area(AreaWeight),
    /// By thickness, as leather is.
    Leather(LeatherWeight),
}

/// A weight by area, in milligrams a square metre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct AreaWeight(u32);

/// A thickness of leather, in thousandths of a millimetre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LeatherWeight(u32);

/// Why a text is no weight of cloth.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "`{0}` is no weight of cloth: expected a number above 0 and a unit such as `340 g/m²`, `10 oz/yd²`, `16 momme`, or \
     `3 oz leather`"
)]
pub struct ClothWeightError(String);

const GRAMS_PER_OUNCE: f64 = 28.349_523_125;
const SQUARE_METRES_PER_SQUARE_YARD: f64 = 0.836_127_36;
const GRAMS_PER_POUND: f64 = 453.592_37;
/// 45 inches by 100 yards.
const SQUARE_YARDS_PER_PIECE: f64 = 1.25 * 100.0;
const MILLIMETRES_PER_LEATHER_OUNCE: f64 = 25.4 / 64.0;
/// 100 kg a square metre, or 100 mm: more than any costume is made of.
const MOST: f64 = 100_000.0;

impl AreaWeight {
    /// Of so many grams a square metre; `None` where that is not above 0, or more than 100 kg.
    pub fn of_grams(grams: f64) -> Option<Self> {
        sized(grams).map(Self)
    }

    /// In g/m².
    pub fn grams(self) -> f64 {
        f64::from(self.0) / 1000.0
    }

    /// In oz/yd².
    pub fn ounces(self) -> f64 {
        self.grams() * SQUARE_METRES_PER_SQUARE_YARD / GRAMS_PER_OUNCE
    }

    /// In momme.
    pub fn momme(self) -> f64 {
        self.grams() / grams_per_momme()
    }
}

impl LeatherWeight {
    /// So many millimetres thick; `None` where that is not above 0, or more than 100 mm.
    pub fn of_millimetres(millimetres: f64) -> Option<Self> {
        (millimetres <= 100.0).then(|| sized(millimetres).map(Self)).flatten()
    }

    /// In millimetres.
    pub fn millimetres(self) -> f64 {
        f64::from(self.0) / 1000.0
    }

    /// In leather ounces.
    pub fn ounces(self) -> f64 {
        self.millimetres() / MILLIMETRES_PER_LEATHER_OUNCE
    }
}

impl ClothWeight {
    /// Which is the heavier; `None` where one is told by area and the other by thickness.
    pub fn compare(self, other: Self) -> Option<Ordering> {
        match (self, other) {
            (Self::Area(one), Self::Area(other)) => Some(one.cmp(&other)),
            (Self::Leather(one), Self::Leather(other)) => Some(one.cmp(&other)),
            _ => None,
        }
    }

    /// The weight halfway to a heavier one; `None` where that is not heavier, or where none lies between.
    pub fn between(self, heavier: Self) -> Option<Self> {
        let halfway = |light: u32, heavy: u32| {
            let middle = light + heavy.checked_sub(light)? / 2;
            (light < middle && middle < heavy).then_some(middle)
        };
        match (self, heavier) {
            (Self::Area(light), Self::Area(heavy)) => {
                halfway(light.0, heavy.0).map(|middle| Self::Area(AreaWeight(middle)))
            }
            (Self::Leather(light), Self::Leather(heavy)) => {
                halfway(light.0, heavy.0).map(|middle| Self::Leather(LeatherWeight(middle)))
            }
            _ => None,
        }
    }
}

fn grams_per_momme() -> f64 {
    GRAMS_PER_POUND / (SQUARE_YARDS_PER_PIECE * SQUARE_METRES_PER_SQUARE_YARD)
}

/// In thousandths, which are whole and at least one.
fn sized(value: f64) -> Option<u32> {
    let thousandths = (value * 1000.0).round();
    (thousandths >= 1.0 && value <= MOST).then_some(thousandths as u32)
}

impl FromStr for ClothWeight {
    type Err = ClothWeightError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wrong = || ClothWeightError(text.to_owned());
        let trimmed = text.trim();
        let end = trimmed.find(|c: char| !c.is_ascii_digit() && c != '.').ok_or_else(wrong)?;
        let (number, unit) = trimmed.split_at(end);
        let number: f64 = number.parse().map_err(|_| wrong())?;
        let unit: String =
            unit.split_whitespace().collect::<Vec<_>>().join(" ").replace("^2", "2").replace('²', "2");
        let area = |grams: f64| AreaWeight::of_grams(number * grams).map(Self::Area).ok_or_else(wrong);
        let leather = |millimetres: f64| {
            LeatherWeight::of_millimetres(number * millimetres).map(Self::Leather).ok_or_else(wrong)
        };
        match unit.as_str() {
            "g/m2" | "gsm" => area(1.0),
            "oz/yd2" => area(GRAMS_PER_OUNCE / SQUARE_METRES_PER_SQUARE_YARD),
            "momme" => area(grams_per_momme()),
            "oz leather" => leather(MILLIMETRES_PER_LEATHER_OUNCE),
            "mm leather" => leather(1.0),
            _ => Err(wrong()),
        }
    }
}

impl fmt::Display for AreaWeight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} g/m²", self.grams())
    }
}

impl fmt::Display for LeatherWeight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm leather", self.millimetres())
    }
}

impl fmt::Display for ClothWeight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Area(weight) => weight.fmt(f),
            Self::Leather(weight) => weight.fmt(f),
        }
    }
}

by_text!(ClothWeight);

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn weight(text: &str) -> ClothWeight {
        text.parse().unwrap()
    }

    #[test]
    fn each_trade_writes_it_in_its_own_unit() {
        for (text, stored) in [
            ("340 g/m²", "340 g/m²"),
            ("340 g/m2", "340 g/m²"),
            ("340gsm", "340 g/m²"),
            ("10 oz/yd2", "339.057 g/m²"),
            ("16 momme", "69.439 g/m²"),
            ("4 oz leather", "1.588 mm leather"),
            ("1.2 mm leather", "1.2 mm leather"),
        ] {
            assert_eq!(weight(text).to_string(), stored, "{text}");
        }
    }

    #[test]
    fn what_could_be_either_or_is_nothing_is_refused_with_what_could_be_written() {
        for text in ["10 oz", "12 mm", "340", "g/m²", "0 g/m²", "-3 momme", "1e9 gsm", "200 mm leather", ""]
        {
            let error = text.parse::<ClothWeight>().unwrap_err().to_string();
            assert!(error.contains(&format!("`{text}`")) && error.contains("oz/yd²"), "{error}");
        }
    }

    proptest! {
        #[test]
        fn a_weight_reads_back_and_converts_back(thousandths in 1_u32..100_000_000) {
            let area = AreaWeight(thousandths);
            prop_assert_eq!(weight(&area.to_string()), ClothWeight::Area(area));
            let ounces = weight(&format!("{} oz/yd²", area.ounces()));
            prop_assert_eq!(ounces, ClothWeight::Area(area));
            prop_assert_eq!(weight(&format!("{} momme", area.momme())), ClothWeight::Area(area));
            let leather = LeatherWeight(thousandths.min(100_000));
            prop_assert_eq!(weight(&leather.to_string()), ClothWeight::Leather(leather));
        }
    }
}
