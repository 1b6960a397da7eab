//! How near a cloth's colour comes to its source.

use crate::board::Cloth;
use crate::trade::colour_difference::Lab;

/// What every word about a colour needs beside it.
pub const CAUTION: &str =
    "A screen is not dyed cloth under the scene's light: dye a strip and see it in a camera test.";

/// How near a cloth comes to its source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearness {
    /// The CIEDE2000 difference.
    pub difference: f64,
}

impl Nearness {
    /// Of a cloth; `None` where its own colour or the source's is not told.
    pub fn of(cloth: &Cloth) -> Option<Self> {
        let (own, source) = (cloth.colour.as_ref()?, cloth.source_colour.as_ref()?);
        Some(Self { difference: Lab::from(own).difference(Lab::from(source)) })
    }

    /// In words. Where one word ends and the next begins is common practice, no source.
    pub fn word(self) -> &'static str {
        match self.difference {
            difference if difference < 1.0 => "the same to the eye",
            difference if difference < 2.0 => "the same but side by side",
            difference if difference < 5.0 => "near",
            difference if difference < 10.0 => "another shade",
            _ => "another colour",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_difference_has_its_word_and_an_untold_colour_none() {
        let mut cloth = Cloth::titled("Serge");
        assert_eq!(Nearness::of(&cloth), None);
        cloth.colour = Some("#1f4a37".parse().unwrap());
        cloth.source_colour = cloth.colour.clone();
        assert_eq!(Nearness::of(&cloth).map(Nearness::word), Some("the same to the eye"));
        cloth.source_colour = Some("ivory".parse().unwrap());
        assert_eq!(Nearness::of(&cloth).map(Nearness::word), Some("another colour"));
        let words = [0.5, 1.5, 3.0, 7.0, 30.0].map(|difference| Nearness { difference }.word());
        assert_eq!(
            words,
            ["the same to the eye", "the same but side by side", "near", "another shade", "another colour"]
        );
    }
}
