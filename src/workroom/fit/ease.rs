//! The room that a woven garment needs at least, as published.
//!
//! Wearing ease is what a garment measures more than the body, so that its wearer can breathe, sit and bend. A corset, a
//! bathing costume, anything cut to grip or of cloth that stretches has less, and on purpose: what is reckoned here is a
//! remark, not a fault. Seams, and what is worn below, are not in it.

use crate::trade::body::BodyMeasure;
use crate::trade::length::Length;

/// One line of a published table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ease {
    /// At what.
    pub measure: BodyMeasure,
    /// On what.
    pub garment: &'static str,
    /// At least so much.
    pub least: Length,
    /// Up to so much, where the table says so.
    pub most: Option<Length>,
    /// Who says so.
    pub source: &'static str,
}

/// A course text on costume.
const WASHINGTON: &str = "Central Washington University, S. Robinson, course text, chapter 16, “Ease In Clothing”, \
                          cwu.edu/~robinsos/ppages/resources/costxt/costxt_16.htm";
const NEW_MEXICO: &str = "New Mexico State University, I. Ahn, “Measurements for Fitting Pants”, Guide C-209, \
                          pubs.nmsu.edu/_c/C209";
const THREADS: &str = "“Set-in Sleeve Solutions”, Threads, 27 September 2021";

const fn quarter_inches(quarters: i64) -> Length {
    Length::of_hundredths(635 * quarters)
}

/// At least and at most in quarters of an inch.
const fn line(
    measure: BodyMeasure,
    garment: &'static str,
    (least, most): (i64, Option<i64>),
    source: &'static str,
) -> Ease {
    let most = match most {
        Some(most) => Some(quarter_inches(most)),
        None => None,
    };
    Ease { measure, garment, least: quarter_inches(least), most, source }
}

const TABLE: [Ease; 13] = [
    line(BodyMeasure::BustGirth, "women's bodices", (6, Some(8)), WASHINGTON),
    line(BodyMeasure::ChestGirth, "fitted shirts", (6, Some(10)), WASHINGTON),
    line(BodyMeasure::WaistGirth, "dresses", (3, Some(4)), WASHINGTON),
    line(BodyMeasure::WaistGirth, "women's skirts and trousers", (2, Some(3)), WASHINGTON),
    line(BodyMeasure::WaistGirth, "men's trousers", (3, Some(4)), WASHINGTON),
    line(BodyMeasure::HipGirth, "all women's garments", (8, Some(11)), WASHINGTON),
    line(BodyMeasure::HipGirth, "men's trousers", (6, Some(8)), WASHINGTON),
    line(BodyMeasure::HipGirth, "trousers", (8, Some(16)), NEW_MEXICO),
    line(BodyMeasure::ThighGirth, "men's trousers", (4, None), WASHINGTON),
    line(BodyMeasure::ThighGirth, "trousers", (4, Some(8)), NEW_MEXICO),
    line(BodyMeasure::KneeGirth, "trousers", (4, None), NEW_MEXICO),
    line(BodyMeasure::BodyRise, "trousers", (2, Some(4)), NEW_MEXICO),
    line(BodyMeasure::UpperArmGirth, "set-in sleeves", (8, None), THREADS),
];

/// What was published of a measure, line by line.
pub fn published(measure: BodyMeasure) -> impl Iterator<Item = &'static Ease> {
    TABLE.iter().filter(move |line| line.measure == measure)
}

/// The least that any published table asks for at a measure, and who asks for it.
pub fn least(measure: BodyMeasure) -> Option<(Length, &'static str)> {
    published(measure).min_by_key(|line| line.least).map(|line| (line.least, line.source))
}

/// A garment with less room than a woven one needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lack {
    /// The room that it has; less than nothing where it is smaller than the body.
    pub ease: Length,
    /// The room that it should have at least.
    pub least: Length,
    /// How much is lacking.
    pub lacking: Length,
    /// Who asks for it.
    pub source: &'static str,
}

/// What room a garment lacks at a measure; `None` where it has enough, or nothing was published.
pub fn lack(measure: BodyMeasure, body: Length, garment: Length) -> Option<Lack> {
    let (least, source) = least(measure)?;
    let ease = garment - body;
    (ease < least).then(|| Lack { ease, least, lacking: least - ease, source })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(text: &str) -> Length {
        text.parse().unwrap()
    }

    #[test]
    fn the_least_is_the_smallest_that_anybody_asks_for() {
        assert_eq!(least(BodyMeasure::HipGirth), Some((length("1 1/2 in"), WASHINGTON)));
        assert_eq!(least(BodyMeasure::KneeGirth), Some((length("1 in"), NEW_MEXICO)));
        assert_eq!(least(BodyMeasure::HeadGirth), None);
    }

    #[test]
    fn what_lacks_is_told_and_what_is_just_enough_is_not() {
        let body = length("96 cm");
        assert_eq!(lack(BodyMeasure::HipGirth, body, body + length("1 1/2 in")), None);
        let tight = lack(BodyMeasure::HipGirth, body, length("95 cm")).unwrap();
        assert_eq!((tight.ease, tight.lacking), (length("-1 cm"), length("1 cm") + length("1 1/2 in")));
        assert_eq!(lack(BodyMeasure::HeadGirth, body, length("10 cm")), None);
    }

    #[test]
    fn every_line_goes_up() {
        assert!(TABLE.iter().all(|line| line.most.is_none_or(|most| line.least < most)));
        assert!(TABLE.iter().all(|line| !line.least.is_negative()));
    }
}
