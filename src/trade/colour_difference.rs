//! How different two colours look.
//!
//! CIEDE2000 (CIE 142-2001; formulas as in Sharma, Wu & Dalal, *Color Research & Application* 30, 2005), computed by
//! the crate `palette`, over CIELAB under D65 that sRGB gives (IEC 61966-2-1). On this scale about 1 is the least
//! difference that a trained eye sees side by side, and black and white are 100 apart.

use palette::color_difference::Ciede2000;
use palette::white_point::D65;
use palette::{IntoColor, Srgb};

use super::colour::Colour;

/// A colour in CIELAB under D65.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lab(palette::Lab<D65, f64>);

impl Lab {
    /// From L\*, a\* and b\*.
    pub fn new(lightness: f64, a: f64, b: f64) -> Self {
        Self(palette::Lab::new(lightness, a, b))
    }

    /// L\*, a\* and b\*.
    pub fn parts(self) -> [f64; 3] {
        [self.0.l, self.0.a, self.0.b]
    }

    /// The CIEDE2000 difference, with all weighting factors 1. The same both ways.
    pub fn difference(self, other: Self) -> f64 {
        // Of equal colours rounding can leave a trace, and under the root that is no trace any more.
        if self == other { 0.0 } else { self.0.difference(other.0).max(0.0) }
    }
}

impl From<&Colour> for Lab {
    fn from(colour: &Colour) -> Self {
        Self(Srgb::<u8>::from(colour.rgb()).into_format::<f64>().into_color())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lab(text: &str) -> Lab {
        Lab::from(&text.parse::<Colour>().unwrap())
    }

    #[test]
    fn black_and_white_are_a_hundred_apart() {
        assert!((lab("black").difference(lab("white")) - 100.0).abs() < 1e-3);
        let [lightness, a, b] = lab("white").parts();
        assert!((lightness - 100.0).abs() < 1e-3 && a.abs() < 1e-2 && b.abs() < 1e-2);
    }

    #[test]
    fn a_colour_is_no_way_from_itself_however_it_is_written() {
        assert_eq!(lab("navy").difference(lab("#000080")), 0.0);
    }

    #[test]
    fn what_the_eye_calls_near_is_near() {
        let near = lab("black").difference(lab("#1b1c1e"));
        let far = lab("black").difference(lab("#e8e0d0"));
        assert!(near < 10.0 && far > 60.0, "{near} {far}");
    }
}
