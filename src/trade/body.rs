//! The dimensions of a body that clothes are cut to, by the names of the standard.
//!
//! The names are those of ISO 8559 (*Garment construction and anthropometric surveys: body dimensions*, 1989; since 2017
//! ISO 8559-1). The standard's own text was not at hand. Read were the list of the 1989 edition, as printed in table 4.1
//! of *Anthropometry, Apparel Sizing and Design*, and, with their numbers in the 2017 edition, ten names in a public
//! table of measurement definitions of a service that measures bodies: neck girth 5.3.2, neck base
//! girth 5.3.3, bust girth 5.3.4, under bust girth 5.3.8, waist girth 5.3.10, hip girth 5.3.13, upper-arm girth 5.3.16,
//! wrist girth 5.3.19, thigh girth 5.3.20, back neck point to waist 5.4.5. [`BodyMeasure::listed`] says of each name
//! whether it stands in one of the two. The others are from memory of the 2017 edition, except `neck length`, which is
//! ours: collars are cut to it. The definitions are in our own words. They say where the tape goes, and are no substitute
//! for the standard's.

use std::fmt;
use std::str::FromStr;

use super::by_text::by_text;
use super::nearest::{hint, spaced};

/// One table: the variant, its words, whether it goes round, whether a list that was read has it, what it is.
macro_rules! body_measures {
    ($($name:ident $words:literal $girth:literal $listed:literal $definition:literal;)+) => {
        /// A dimension of a body.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum BodyMeasure {
            $(#[doc = $definition] $name,)+
        }

        impl BodyMeasure {
            /// All of them, from the head down.
            pub const ALL: &[Self] = &[$(Self::$name),+];

            /// Its name, for people: `bust girth`.
            pub const fn words(self) -> &'static str {
                match self { $(Self::$name => $words),+ }
            }

            /// What it is, in one sentence.
            pub const fn definition(self) -> &'static str {
                match self { $(Self::$name => $definition),+ }
            }

            /// Whether it goes round the body.
            pub const fn is_girth(self) -> bool {
                match self { $(Self::$name => $girth),+ }
            }

            /// Whether its name stands in a published list that was read.
            pub const fn listed(self) -> bool {
                match self { $(Self::$name => $listed),+ }
            }
        }
    };
}

body_measures! {
    Stature "stature" false false "From the floor to the crown, standing straight without shoes.";
    HeadGirth "head girth" true true "Round the head at its largest, above the ears.";
    NeckGirth "neck girth" true true "Round the neck just below the larynx, square to the neck.";
    NeckBaseGirth "neck base girth" true true "Round the foot of the neck, over the nape bone and the pit of the throat.";
    NeckLength "neck length" false false "Up the side of the neck, from its foot to below the ear.";
    ShoulderLength "shoulder length" false true "From the foot of the neck to the shoulder point.";
    ShoulderWidth "shoulder width" false true "Across the back, from shoulder point to shoulder point.";
    BackWidth "back width" false true "Across the back between the arms, half way down the armhole.";
    ChestGirth "chest girth" true true "Round the chest at its largest, under the arms, breathing quietly.";
    BustGirth "bust girth" true true "Round the body, level, over the fullest part of the breasts.";
    UnderbustGirth "underbust girth" true true "Round the body, level, just below the breasts.";
    WaistGirth "waist girth" true true "Round the natural waist, between the lowest rib and the hip bone.";
    HipGirth "hip girth" true true "Round the seat, level, at its fullest.";
    ArmscyeGirth "armscye girth" true true "Round the arm where it joins the body, over the shoulder point and through the armpit.";
    BackNeckPointToWaist "back neck point to waist" false true "Down the spine, from the nape bone to the waist.";
    FrontNeckPointToWaist "front neck point to waist" false false "Down the middle front, from the pit of the throat to the waist.";
    WaistToHip "waist to hip" false true "Down the side, along the body, from the waist to the fullest part of the seat.";
    BodyRise "body rise" false true "Sitting on a flat seat: from the waist, at the side, straight down to the seat.";
    TotalCrotchLength "total crotch length" false false "From the waist in front, between the legs, to the waist behind.";
    ArmLength "arm length" false true "From the shoulder point over the bent elbow to the wrist bone.";
    UpperArmGirth "upper arm girth" true true "Round the upper arm half way between shoulder point and elbow, the arm hanging.";
    ElbowGirth "elbow girth" true true "Round the elbow.";
    WristGirth "wrist girth" true true "Round the wrist, over the wrist bones.";
    HandGirth "hand girth" true true "Round the knuckles, without the thumb.";
    HandLength "hand length" false true "From the crease of the wrist to the tip of the middle finger.";
    ThighGirth "thigh girth" true true "Round the thigh at its largest, below the fold of the seat.";
    KneeGirth "knee girth" true true "Round the knee, over the middle of the kneecap.";
    CalfGirth "calf girth" true true "Round the calf at its largest.";
    AnkleGirth "ankle girth" true true "Round the ankle, over the ankle bones.";
    InsideLegLength "inside leg length" false true "From the crotch straight down to the floor, without shoes.";
    OutsideLegLength "outside leg length" false true "From the waist, down the side over the hip, to the floor.";
    FootLength "foot length" false true "From the heel to the tip of the longest toe, standing.";
}

/// Why a text is no body measure.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{text}` is no body measure: {hint}")]
pub struct BodyMeasureError {
    text: String,
    hint: String,
}

impl FromStr for BodyMeasure {
    type Err = BodyMeasureError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let words = spaced(text);
        let found = Self::ALL.iter().find(|measure| measure.words() == words);
        found.copied().ok_or_else(|| {
            let names = Self::ALL.iter().map(|measure| (measure.words(), measure.to_string()));
            BodyMeasureError { text: text.to_owned(), hint: hint(text, names) }
        })
    }
}

impl fmt::Display for BodyMeasure {
    /// As it stands in files: `bust-girth`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.words().replace(' ', "-"))
    }
}

by_text!(BodyMeasure);

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_one_reads_back_from_both_its_forms() {
        for measure in BodyMeasure::ALL {
            for text in [measure.to_string(), measure.words().to_owned(), measure.words().to_uppercase()] {
                assert_eq!(text.parse::<BodyMeasure>().as_ref(), Ok(measure));
            }
            let text = serde_json::to_string(measure).unwrap();
            assert_eq!(serde_json::from_str::<BodyMeasure>(&text).unwrap(), *measure);
        }
    }

    #[test]
    fn no_two_are_the_same() {
        let names: BTreeSet<_> = BodyMeasure::ALL.iter().map(|measure| measure.words()).collect();
        let meanings: BTreeSet<_> = BodyMeasure::ALL.iter().map(|measure| measure.definition()).collect();
        assert_eq!((names.len(), meanings.len()), (BodyMeasure::ALL.len(), BodyMeasure::ALL.len()));
    }

    #[test]
    fn what_goes_round_is_called_a_girth() {
        for measure in BodyMeasure::ALL {
            assert_eq!(measure.is_girth(), measure.words().ends_with(" girth"), "{measure}");
        }
    }

    #[test]
    fn a_slip_is_told_its_word_and_a_stranger_all_of_them() {
        let said = |text: &str| text.parse::<BodyMeasure>().unwrap_err().to_string();
        assert_eq!(said("Waist Grith"), "`Waist Grith` is no body measure: did you mean `waist-girth`?");
        assert!(said("hat").contains("expected one of stature, head-girth, "), "{}", said("hat"));
    }
}
