//! How alike two outfits are, and by what: in numbers, feature by feature, and in words.

use super::Feature;

/// The per cent that two outfits are alike at most when they have little in common: it is a stretch to let one stand for
/// the other. It is the number that is shown, rounded, so that one number never has two words.
pub const STRETCH: f64 = 35.0;

/// The same of two outfits whose dates are wholly unlike: across so many years one stands for the other only where that is
/// near.
pub const STRETCH_OF_YEARS: f64 = 49.0;

/// Whether it is a stretch to let one outfit stand for another at such a distance, and at such a one in date.
pub fn is_stretch(distance: f64, in_date: Option<f64>) -> bool {
    let most = if in_date.is_some_and(|distance| distance >= 1.0) { STRETCH_OF_YEARS } else { STRETCH };
    (100.0 * (1.0 - distance)).round() <= most
}

/// How a distance comes about.
#[derive(Clone, Debug, PartialEq)]
pub struct Explanation {
    /// The distance, from 0 to 1.
    pub distance: f64,
    /// Feature by feature.
    pub parts: Vec<Part>,
}

/// What one feature adds to a distance.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Which.
    pub feature: Feature,
    /// How much it counts.
    pub weight: f64,
    /// How unlike the two are in it, from 0 to 1; `None` where either record does not say.
    pub distance: Option<f64>,
    /// What it adds to the whole distance.
    pub adds: f64,
    /// What the first record says.
    pub one: String,
    /// What the second record says.
    pub other: String,
}

impl Explanation {
    /// From 0 to 1.
    pub fn alike(&self) -> f64 {
        1.0 - self.distance
    }

    /// How unlike they are in one feature; `None` where either record does not say.
    pub fn distance_in(&self, feature: Feature) -> Option<f64> {
        self.parts.iter().find(|part| part.feature == feature)?.distance
    }

    /// Whether it is a stretch to let the one stand for the other.
    pub fn is_stretch(&self) -> bool {
        is_stretch(self.distance, self.distance_in(Feature::Date))
    }

    /// How alike they are, in a word or two.
    pub fn word(&self) -> &'static str {
        match self.alike() {
            _ if self.is_stretch() => "a stretch",
            alike if alike >= 0.75 => "close",
            alike if alike >= 0.5 => "near",
            _ => "distant",
        }
    }

    /// The two features that make them most alike, the first most.
    pub fn most(&self) -> Vec<Feature> {
        let shares = |part: &Part| part.distance.map_or(0.0, |distance| part.weight * (1.0 - distance));
        let mut by_shares: Vec<&Part> = self.parts.iter().filter(|part| shares(part) > 0.0).collect();
        by_shares.sort_by(|one, other| shares(other).total_cmp(&shares(one)));
        by_shares.iter().take(2).map(|part| part.feature).collect()
    }

    /// The feature that makes them least alike; one that is told as what makes them alike is not told again.
    pub fn least(&self) -> Option<Feature> {
        let most = self.most();
        let parts_them = self.parts.iter().filter(|part| part.adds > 0.0 && !most.contains(&part.feature));
        parts_them.max_by(|one, other| one.adds.total_cmp(&other.adds)).map(|part| part.feature)
    }

    /// `close, 78 % alike: most in pieces and silhouette, least in date`; of a stretch also that it keeps nothing.
    pub fn in_words(&self) -> String {
        let mut said = Vec::new();
        let most: Vec<&str> = self.most().into_iter().map(Feature::word).collect();
        if !most.is_empty() {
            said.push(format!("most in {}", most.join(" and ")));
        }
        said.extend(self.least().map(|feature| format!("least in {}", feature.word())));
        let said = if said.is_empty() { String::new() } else { format!(": {}", said.join(", ")) };
        let nothing = if self.is_stretch() { ", so nothing is kept" } else { "" };
        format!("{}, {:.0} % alike{nothing}{said}", self.word(), 100.0 * self.alike())
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use serde_json::json;

    use super::*;
    use crate::board::sample::records;
    use crate::board::{Board, OutfitId};
    use crate::gather::Likeness;

    #[test]
    fn what_makes_two_alike_and_what_parts_them_is_named() {
        let mut records = records();
        let mut add = |id: &str, worn: &str, occasion: &str, silhouette: &str, piece: &str| {
            let outfit = json!({
                "title": id, "character": "odile", "worn": worn, "occasion": occasion, "silhouette": silhouette,
                "pieces": [{"name": piece}],
            });
            records.outfits.insert(id.parse().unwrap(), Arc::new(serde_json::from_value(outfit).unwrap()));
        };
        add("a", "1920", "market", "tubular", "coat");
        add("b", "1940", "market", "tubular", "coat");
        add("c", "1940", "dive", "full", "helmet");
        let likeness = Likeness::of(&Board::new(records));
        let explain = |one: &str, other: &str| {
            let (one, other): (OutfitId, OutfitId) = (one.parse().unwrap(), other.parse().unwrap());
            likeness.explain(&one, &other).unwrap()
        };
        let close = explain("a", "b");
        assert_eq!(close.most(), [Feature::Occasion, Feature::Pieces]);
        assert_eq!((close.least(), close.is_stretch()), (Some(Feature::Date), false));
        assert_eq!(close.in_words(), "close, 80 % alike: most in occasion and pieces, least in date");
        let far = explain("a", "c");
        assert!(far.is_stretch() && far.most().is_empty(), "{far:?}");
        assert_eq!(far.in_words(), "a stretch, 0 % alike, so nothing is kept: least in occasion");
    }
}
