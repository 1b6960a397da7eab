//! Trials of a cloth: which weight is right, or which to try next.
//!
//! A weight that was too light and one that was too heavy hold the right one between them; the next to try lies halfway.
//! What was too stiff says nothing of the weight: another finish or weave may fall as it should.

use crate::board::{Trial, Verdict};
use crate::trade::cloth_weight::ClothWeight;

/// What trials come to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Next {
    /// Nothing was tried that says anything of the weight.
    Open,
    /// This is it.
    Right(ClothWeight),
    /// Try this one, halfway between the two.
    Try(ClothWeight),
    /// Try something heavier than this.
    Heavier(ClothWeight),
    /// Try something lighter than this.
    Lighter(ClothWeight),
    /// What was too light is as heavy as what was too heavy, or all but: it is not the weight that was wrong.
    Crossed(ClothWeight, ClothWeight),
}

/// What trials come to. The last that was right ends them; a hide says nothing of a weight by area, so only trials of
/// the kind of the last one count.
pub fn next(trials: &[Trial]) -> Next {
    let Some(last) = trials.last() else { return Next::Open };
    let same_kind = || trials.iter().filter(|trial| trial.weight.compare(last.weight).is_some());
    if let Some(right) = same_kind().rfind(|trial| trial.verdict == Verdict::Right) {
        return Next::Right(right.weight);
    }
    let of = |verdict| same_kind().filter(move |trial| trial.verdict == verdict).map(|trial| trial.weight);
    let is_heavier = |one: ClothWeight, other: ClothWeight| one.compare(other).is_some_and(|is| is.is_gt());
    let heaviest =
        of(Verdict::TooLight).reduce(|one, other| if is_heavier(other, one) { other } else { one });
    let lightest =
        of(Verdict::TooHeavy).reduce(|one, other| if is_heavier(one, other) { other } else { one });
    match (heaviest, lightest) {
        (None, None) => Next::Open,
        (Some(light), None) => Next::Heavier(light),
        (None, Some(heavy)) => Next::Lighter(heavy),
        (Some(light), Some(heavy)) => light.between(heavy).map_or(Next::Crossed(light, heavy), Next::Try),
    }
}

#[cfg(test)]
mod tests {
    use std::cmp::Ordering;

    use proptest::prelude::*;

    use super::*;

    fn trials(told: &[(&str, Verdict)]) -> Vec<Trial> {
        let one = |(number, (weight, verdict)): (u32, &(&str, Verdict))| Trial {
            trial: number,
            on: None,
            weight: weight.parse().unwrap(),
            verdict: *verdict,
            notes: String::new(),
        };
        (1..).zip(told).map(one).collect()
    }

    #[test]
    fn a_hide_too_light_one_too_heavy_and_the_one_between_end_on_the_middle_one() {
        // Common practice, no source: three trials usually do.
        use Verdict::{Right, TooHeavy, TooLight};
        let all =
            trials(&[("1.2 mm leather", TooLight), ("2 mm leather", TooHeavy), ("1.6 mm leather", Right)]);
        let weight = |text: &str| text.parse::<ClothWeight>().unwrap();
        assert_eq!(next(&all[..1]), Next::Heavier(weight("1.2 mm leather")));
        assert_eq!(next(&all[..2]), Next::Try(weight("1.6 mm leather")));
        assert_eq!(next(&all), Next::Right(weight("1.6 mm leather")));
    }

    #[test]
    fn what_says_nothing_of_the_weight_leaves_it_open() {
        use Verdict::{TooHeavy, TooLight, TooStiff};
        assert_eq!(next(&[]), Next::Open);
        assert_eq!(next(&trials(&[("300 g/m²", TooStiff)])), Next::Open);
        let crossed = trials(&[("300 g/m²", TooLight), ("280 g/m²", TooHeavy)]);
        assert!(matches!(next(&crossed), Next::Crossed(..)));
        // A hide before says nothing of the wool that is tried now.
        let mixed = trials(&[("1.2 mm leather", TooLight), ("300 g/m²", TooHeavy)]);
        assert_eq!(next(&mixed), Next::Lighter("300 g/m²".parse().unwrap()));
    }

    proptest! {
        #[test]
        fn the_next_to_try_is_always_between_the_bounds(
            told in proptest::collection::vec((1_u32..2_000, any::<bool>()), 0..9),
        ) {
            let verdict = |light: bool| if light { Verdict::TooLight } else { Verdict::TooHeavy };
            let told: Vec<(String, Verdict)> =
                told.into_iter().map(|(weight, light)| (format!("{weight} g/m²"), verdict(light))).collect();
            let all: Vec<(&str, Verdict)> = told.iter().map(|(weight, says)| (weight.as_str(), *says)).collect();
            let all = trials(&all);
            if let Next::Try(weight) = next(&all) {
                for trial in &all {
                    let light = trial.verdict == Verdict::TooLight;
                    let expected = if light { Ordering::Less } else { Ordering::Greater };
                    prop_assert_eq!(trial.weight.compare(weight), Some(expected));
                }
            }
        }
    }
}
