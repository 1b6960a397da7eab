//! How alike an outfit is to the base that stands for it, and by what.

use crate::board::OutfitId;
use crate::gather::likeness::Part;
use crate::gather::{Feature, Likeness};

/// So unlike, and it is a stretch to let one stand for the other.
const STRETCH: f64 = 0.7;

/// An outfit beside its base.
pub(super) struct Kin {
    /// From 0 to 1.
    pub alike: f64,
    /// The two features that make them most alike, the first most.
    pub most: Vec<Feature>,
    /// The feature that makes them least alike.
    pub least: Option<Feature>,
    /// Feature by feature.
    pub parts: Vec<Part>,
}

impl Kin {
    /// How alike `outfit` is to `base`. Without an explanation there are no features.
    pub fn of(likeness: &Likeness, outfit: &OutfitId, base: &OutfitId, distance: f64) -> Self {
        let parts = likeness.explain(outfit, base).map(|explanation| explanation.parts).unwrap_or_default();
        let shares = |part: &Part| part.distance.map_or(0.0, |distance| part.weight * (1.0 - distance));
        let mut by_shares: Vec<&Part> = parts.iter().filter(|part| shares(part) > 0.0).collect();
        by_shares.sort_by(|one, other| shares(other).total_cmp(&shares(one)));
        let most = by_shares.iter().take(2).map(|part| part.feature).collect();
        let parts_them = parts.iter().filter(|part| part.adds > 0.0);
        let least = parts_them.max_by(|one, other| one.adds.total_cmp(&other.adds)).map(|part| part.feature);
        Self { alike: 1.0 - distance, most, least, parts }
    }

    /// Whether it is a stretch to let the one stand for the other.
    pub fn is_stretch(&self) -> bool {
        1.0 - self.alike >= STRETCH
    }

    /// In a word or two.
    pub fn word(&self) -> &'static str {
        match self.alike {
            _ if self.is_stretch() => "a stretch",
            alike if alike >= 0.75 => "close",
            alike if alike >= 0.5 => "near",
            _ => "distant",
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;

    #[test]
    fn what_makes_two_alike_and_what_parts_them_is_named() {
        let board = sample::board(json!({"outfits": {
            "a": {"worn": "1920", "occasion": "market", "silhouette": "tubular", "pieces": [{"name": "coat"}]},
            "b": {"worn": "1940", "occasion": "market", "silhouette": "tubular", "pieces": [{"name": "coat"}]},
            "c": {"worn": "1940", "occasion": "dive", "silhouette": "full", "pieces": [{"name": "helmet"}]},
        }}));
        let likeness = Likeness::of(&board);
        let kin = |one: &str, other: &str| {
            let (one, other) = (one.parse().unwrap(), other.parse().unwrap());
            Kin::of(&likeness, &one, &other, likeness.distance(&one, &other))
        };
        let close = kin("a", "b");
        assert_eq!(close.most, [Feature::Occasion, Feature::Pieces]);
        assert_eq!((close.least, close.is_stretch(), close.word()), (Some(Feature::Date), false, "close"));
        let far = kin("a", "c");
        assert!(far.is_stretch() && far.most.is_empty(), "{} {:?}", far.alike, far.most);
    }
}
