//! Whether a body measure can be right.
//!
//! Bodies differ, so nothing here is refused: a measure is doubted where nobody in the surveys named beside it was so
//! small or so large, or where it does not agree with another of the same body; and the doubt says so, for whoever holds
//! the tape to look again. Where the same number in another unit would fit, it says that too: tapes have inches on one
//! side and centimetres on the other.
//!
//! Measures without a range have none because no published one was found: bust, underbust, hand, foot, and all lengths
//! but stature. The ranges of adults alone doubt a child's measure; they say whom they are of.

use crate::trade::body::BodyMeasure;
use crate::trade::length::{Length, Unit};

/// The smallest and the largest that was published of one measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Range {
    /// Of what.
    pub measure: BodyMeasure,
    /// The smallest.
    pub least: Length,
    /// The largest.
    pub most: Length,
    /// Of whom, as a sentence ends: `anybody of 2 years and older`.
    pub of: &'static str,
    /// Who says so.
    pub source: &'static str,
}

impl Range {
    fn holds(&self, length: Length) -> bool {
        (self.least..=self.most).contains(&length)
    }
}

/// The years of which the codebooks were read, for each measure those that have it.
const NHANES: &str = "National Center for Health Statistics, NHANES codebooks BMX_B (2001–2002), BMX_C (2003–2004), \
                      BMX_D (2005–2006) and P_BMX (2017–March 2020), ranges of values";
const NHANES_LEG: &str = "National Center for Health Statistics, NHANES codebooks BMX_B (2001–2002), BMX_C (2003–2004) \
                          and BMX_D (2005–2006), ranges of values";
const NHANES_HIP: &str =
    "National Center for Health Statistics, NHANES codebook P_BMX (2017–March 2020), range of values";
const BOYS: &str = "Fourth Dutch Growth Study, 1997, 748 boys, as in R package mice 3.15.0, data set boys";
const NECKS: &str = "R. W. Johnson, 184 women of 18 to 25 years, Journal of Statistics and Data Science Education, 2021; \
                     K. W. Penrose, A. G. Nelson & A. G. Fisher, 252 men of 22 to 81 years, 1985";
const ADULTS: &str = "G. Heinz, L. J. Peterson, R. W. Johnson & C. J. Kerk, 507 men and women of 18 to 67 years, Journal \
                      of Statistics Education 11 (2), 2003; K. W. Penrose, A. G. Nelson & A. G. Fisher, 252 men of 22 \
                      to 81 years, 1985";

const fn millimetres(size: i64) -> Length {
    Length::of_hundredths(100 * size)
}

const fn range_of(
    measure: BodyMeasure,
    (least, most): (i64, i64),
    of: &'static str,
    source: &'static str,
) -> Range {
    Range { measure, least: millimetres(least), most: millimetres(most), of, source }
}

/// In millimetres. The thigh of the survey is measured half way up, where it is thinner than at its largest; the ankle of
/// the two studies at its narrowest.
const RANGES: [Range; 12] = [
    range_of(BodyMeasure::Stature, (783, 2044), "anybody of 2 years and older", NHANES),
    range_of(BodyMeasure::HeadGirth, (337, 650), "boys from birth to 21 years", BOYS),
    range_of(BodyMeasure::NeckGirth, (260, 512), OF_ADULTS, NECKS),
    range_of(BodyMeasure::ChestGirth, (726, 1362), OF_ADULTS, ADULTS),
    range_of(BodyMeasure::WaistGirth, (320, 1875), "anybody of 2 years and older", NHANES),
    range_of(BodyMeasure::HipGirth, (625, 1875), "anybody of 12 years and older", NHANES_HIP),
    range_of(BodyMeasure::UpperArmGirth, (108, 645), "anybody of 2 months and older", NHANES),
    range_of(BodyMeasure::WristGirth, (130, 214), OF_ADULTS, ADULTS),
    range_of(BodyMeasure::ThighGirth, (280, 1000), "anybody of 8 years and older", NHANES_LEG),
    range_of(BodyMeasure::KneeGirth, (290, 491), OF_ADULTS, ADULTS),
    range_of(BodyMeasure::CalfGirth, (175, 756), "anybody of 8 years and older", NHANES_LEG),
    range_of(BodyMeasure::AnkleGirth, (164, 339), OF_ADULTS, ADULTS),
];

impl Range {
    /// Whether it says nothing of children.
    pub fn is_of_adults(&self) -> bool {
        self.of == OF_ADULTS
    }
}

/// Whom a range is of that says nothing of children.
const OF_ADULTS: &str = "adults";

/// The published range of a measure, where one was found.
pub fn range(measure: BodyMeasure) -> Option<&'static Range> {
    RANGES.iter().find(|range| range.measure == measure)
}

/// Why a measure may be wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Doubt {
    /// The range that it is outside of.
    pub range: &'static Range,
    /// What was measured.
    pub length: Length,
    /// What was meant, perhaps.
    pub slip: Option<Slip>,
}

/// The same number in another unit, where that would be in the range.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slip {
    /// The number.
    pub number: String,
    /// The unit that it was written in.
    pub written: &'static str,
    /// The unit that was meant.
    pub meant: &'static str,
    /// How long it would be.
    pub length: Length,
}

/// One side of a tape.
#[derive(Clone, Copy)]
struct Tape {
    unit: &'static str,
    /// Hundredths of a millimetre in the unit.
    hundredths: i64,
    /// Marks of the tape in the unit.
    marks: f64,
}

const MILLIMETRES: Tape = Tape { unit: "mm", hundredths: 100, marks: 1.0 };
const CENTIMETRES: Tape = Tape { unit: "cm", hundredths: 1000, marks: 10.0 };
const INCHES: Tape = Tape { unit: "in", hundredths: 2540, marks: 8.0 };

/// What is written for what, the likelier first.
const SLIPS: [(Tape, Tape); 4] =
    [(CENTIMETRES, INCHES), (INCHES, CENTIMETRES), (MILLIMETRES, CENTIMETRES), (CENTIMETRES, MILLIMETRES)];

/// Doubts a measure that is outside the published range; `None` also where there is none.
pub fn doubt(measure: BodyMeasure, length: Length) -> Option<Doubt> {
    let range = range(measure)?;
    if range.holds(length) {
        return None;
    }
    let slip = SLIPS.iter().find_map(|(written, meant)| {
        let slip = slip(length, *written, *meant)?;
        range.holds(slip.length).then_some(slip)
    });
    Some(Doubt { range, length, slip })
}

/// What a length would be if its number were meant in another unit; `None` where the number is none that a tape shows.
fn slip(length: Length, written: Tape, meant: Tape) -> Option<Slip> {
    let number = length.hundredths() as f64 / written.hundredths as f64;
    let mark = (number * written.marks).round() / written.marks;
    // Lengths are kept to the hundredth, and every second eighth of an inch lies half way between two.
    if ((number - mark) * written.hundredths as f64).abs() > 0.6 {
        return None;
    }
    let length = Length::of_hundredths((mark * meant.hundredths as f64).round() as i64);
    Some(Slip { number: mark.to_string(), written: written.unit, meant: meant.unit, length })
}

impl Doubt {
    /// The doubt in a sentence, lengths in the board's unit.
    pub fn words(&self, unit: Unit) -> String {
        let Range { measure, least, most, of, .. } = self.range;
        let (how, bound) =
            if self.length < *least { ("less than the least", least) } else { ("more than the most", most) };
        let doubt = format!(
            "{} of {} is {how} that was published of {of}, {}",
            self.length.shown(unit),
            measure.words(),
            bound.shown(unit)
        );
        match &self.slip {
            None => doubt,
            Some(Slip { number, written, meant, length }) => {
                let (meaning, shown) = (format!("{number} {meant}"), length.shown(unit));
                let fits =
                    if meaning == shown { "would fit".to_owned() } else { format!("would be {shown}") };
                format!("{doubt}; {meaning} {fits}: was {written} written for {meant}?")
            }
        }
    }
}

/// One measure is not larger than another of the same body, give or take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rule {
    /// What is not larger.
    pub smaller: BodyMeasure,
    /// Than so many hundredths …
    pub hundredths: i64,
    /// … of this …
    pub larger: BodyMeasure,
    /// … and so much more.
    pub beyond: Length,
    /// Who says so.
    pub source: &'static str,
}

const PRACTICE: &str = "common practice, no source";

const fn rule(smaller: BodyMeasure, larger: BodyMeasure, beyond: i64, source: &'static str) -> Rule {
    Rule { smaller, hundredths: 100, larger, beyond: millimetres(beyond), source }
}

const fn share(smaller: BodyMeasure, hundredths: i64, larger: BodyMeasure) -> Rule {
    Rule { smaller, hundredths, larger, beyond: millimetres(0), source: PRACTICE }
}

/// Those with a source hold for everybody in it: of its 759 adults none has a waist more than 119 mm larger than the chest
/// or 98 mm larger than the hips, and what is said here without a margin holds with 3 mm to spare and more.
const RULES: [Rule; 20] = [
    rule(BodyMeasure::WaistGirth, BodyMeasure::ChestGirth, 120, ADULTS),
    rule(BodyMeasure::WaistGirth, BodyMeasure::BustGirth, 120, PRACTICE),
    rule(BodyMeasure::WaistGirth, BodyMeasure::HipGirth, 100, ADULTS),
    rule(BodyMeasure::ThighGirth, BodyMeasure::HipGirth, 0, ADULTS),
    rule(BodyMeasure::KneeGirth, BodyMeasure::ThighGirth, 0, ADULTS),
    rule(BodyMeasure::CalfGirth, BodyMeasure::ThighGirth, 0, ADULTS),
    rule(BodyMeasure::AnkleGirth, BodyMeasure::CalfGirth, 0, ADULTS),
    rule(BodyMeasure::AnkleGirth, BodyMeasure::KneeGirth, 0, ADULTS),
    rule(BodyMeasure::UpperArmGirth, BodyMeasure::ThighGirth, 0, ADULTS),
    rule(BodyMeasure::WristGirth, BodyMeasure::UpperArmGirth, 0, ADULTS),
    rule(BodyMeasure::WristGirth, BodyMeasure::AnkleGirth, 0, ADULTS),
    rule(BodyMeasure::UnderbustGirth, BodyMeasure::BustGirth, 0, PRACTICE),
    rule(BodyMeasure::NeckGirth, BodyMeasure::NeckBaseGirth, 0, PRACTICE),
    rule(BodyMeasure::InsideLegLength, BodyMeasure::OutsideLegLength, 0, PRACTICE),
    share(BodyMeasure::InsideLegLength, 55, BodyMeasure::Stature),
    share(BodyMeasure::OutsideLegLength, 70, BodyMeasure::Stature),
    share(BodyMeasure::ArmLength, 45, BodyMeasure::Stature),
    share(BodyMeasure::BackNeckPointToWaist, 35, BodyMeasure::Stature),
    share(BodyMeasure::FootLength, 20, BodyMeasure::Stature),
    share(BodyMeasure::BodyRise, 30, BodyMeasure::Stature),
];

/// Two measures of one body that do not agree.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clash {
    /// The rule that they break.
    pub rule: &'static Rule,
    /// What should not be larger.
    pub smaller: Length,
    /// Than this allows.
    pub larger: Length,
}

impl Clash {
    /// The clash in a sentence, lengths in the board's unit.
    pub fn words(&self, unit: Unit) -> String {
        let Rule { smaller, larger, hundredths, beyond, .. } = self.rule;
        let bound = match (*hundredths, beyond.hundredths()) {
            (100, 0) => "is no larger".to_owned(),
            (100, _) => format!("is at most {} larger", beyond.shown(unit)),
            (part, _) => format!("is at most {part} % of it"),
        };
        format!(
            "{} of {} beside {} of {}: on most bodies it {bound}",
            self.smaller.shown(unit),
            smaller.words(),
            self.larger.shown(unit),
            larger.words()
        )
    }
}

/// Whatever measures of one body do not agree.
pub fn doubts_between(measures: &[(BodyMeasure, Length)]) -> Vec<Clash> {
    let of = |measure| measures.iter().find(|(known, _)| *known == measure).map(|(_, length)| *length);
    let clash = |rule: &'static Rule| {
        let (smaller, larger) = (of(rule.smaller)?, of(rule.larger)?);
        let part = i128::from(larger.hundredths()) * i128::from(rule.hundredths) / 100;
        let most = part + i128::from(rule.beyond.hundredths());
        (i128::from(smaller.hundredths()) > most).then_some(Clash { rule, smaller, larger })
    };
    RULES.iter().filter_map(clash).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn length(text: &str) -> Length {
        text.parse().unwrap()
    }

    fn said(measure: BodyMeasure, text: &str) -> Option<String> {
        doubt(measure, length(text)).map(|doubt| doubt.words(Unit::Centimetres))
    }

    #[test]
    fn inches_written_as_centimetres_are_found() {
        assert_eq!(
            said(BodyMeasure::ChestGirth, "41 cm").unwrap(),
            "41 cm of chest girth is less than the least that was published of adults, 72.6 cm; 41 in would be \
             104.1 cm: was cm written for in?"
        );
        assert_eq!(
            said(BodyMeasure::Stature, "170 in").unwrap(),
            "431.8 cm of stature is more than the most that was published of anybody of 2 years and older, 204.4 cm; \
             170 cm would fit: was in written for cm?"
        );
    }

    #[test]
    fn millimetres_and_centimetres_are_told_apart_too() {
        let slip = |measure, text| doubt(measure, length(text)).unwrap().slip.unwrap();
        let chest = slip(BodyMeasure::ChestGirth, "980 cm");
        assert_eq!((chest.written, chest.meant, chest.length), ("cm", "mm", length("98 cm")));
        let waist = slip(BodyMeasure::WaistGirth, "7.2 cm");
        assert_eq!((waist.number.as_str(), waist.length), ("72", length("72 cm")));
    }

    #[test]
    fn what_no_unit_explains_is_doubted_alone_and_what_has_no_range_not_at_all() {
        let waist = doubt(BodyMeasure::WaistGirth, length("2 m")).unwrap();
        assert_eq!(waist.slip, None);
        assert!(!waist.words(Unit::Inches).contains(';'), "{}", waist.words(Unit::Inches));
        assert_eq!(doubt(BodyMeasure::HandLength, length("2 m")), None);
        assert_eq!(said(BodyMeasure::ChestGirth, "96 cm"), None);
    }

    fn clashes(measures: &[(BodyMeasure, &str)]) -> Vec<String> {
        let measures: Vec<_> = measures.iter().map(|(measure, text)| (*measure, length(text))).collect();
        doubts_between(&measures).iter().map(|clash| clash.words(Unit::Centimetres)).collect()
    }

    #[test]
    fn measures_of_one_body_that_do_not_agree_are_named() {
        assert_eq!(
            clashes(&[
                (BodyMeasure::Stature, "165 cm"),
                (BodyMeasure::WaistGirth, "112 cm"),
                (BodyMeasure::HipGirth, "101 cm"),
                (BodyMeasure::InsideLegLength, "95 cm"),
                (BodyMeasure::CalfGirth, "36 cm"),
                (BodyMeasure::AnkleGirth, "37 cm"),
            ]),
            [
                "112 cm of waist girth beside 101 cm of hip girth: on most bodies it is at most 10 cm larger",
                "37 cm of ankle girth beside 36 cm of calf girth: on most bodies it is no larger",
                "95 cm of inside leg length beside 165 cm of stature: on most bodies it is at most 55 % of it",
            ]
        );
    }

    #[test]
    fn no_measure_is_in_two_ranges_and_no_rule_asks_for_itself() {
        for (at, range) in RANGES.iter().enumerate() {
            assert!(range.least < range.most, "{range:?}");
            assert!(RANGES[at + 1..].iter().all(|other| other.measure != range.measure), "{range:?}");
        }
        assert!(RULES.iter().all(|rule| rule.smaller != rule.larger));
    }

    proptest! {
        #[test]
        fn what_may_have_been_meant_is_not_doubted(hundredths in -100_000_000_i64..100_000_000) {
            for measure in BodyMeasure::ALL {
                let Some(found) = doubt(*measure, Length::of_hundredths(hundredths)) else { continue };
                prop_assert!(!found.words(Unit::Centimetres).is_empty());
                if let Some(slip) = found.slip {
                    prop_assert_eq!(doubt(*measure, slip.length), None);
                }
            }
        }

        #[test]
        fn nothing_overflows(one in any::<i64>(), other in any::<i64>()) {
            let measures: Vec<_> = BodyMeasure::ALL
                .iter()
                .zip([one, other].into_iter().cycle())
                .map(|(measure, size)| (*measure, Length::of_hundredths(size)))
                .collect();
            prop_assert!(doubts_between(&measures).len() <= RULES.len());
        }
    }
}
