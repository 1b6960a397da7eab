//! How different two colours look.
//!
//! CIEDE2000 (CIE 142-2001; formulas as in Sharma, Wu & Dalal, *Color Research & Application* 30, 2005), computed by
//! the crate `palette`, over CIELAB under D65 that sRGB gives (IEC 61966-2-1). On this scale about 1 is the least
//! difference that a trained eye sees side by side, and black and white are 100 apart.

use palette::color_difference::Ciede2000;
use palette::convert::FromColorUnclamped;
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

/// What sRGB can show of a colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shown {
    /// Red, green and blue, 0 to 255 each.
    pub rgb: [u8; 3],
    /// The colour lies outside sRGB: a channel was cut off at its end, and what is shown looks different.
    pub clipped: bool,
}

impl Lab {
    /// Back to sRGB: CIELAB to XYZ (CIE 1976) under D65, XYZ to sRGB (IEC 61966-2-1), each channel rounded, and cut off
    /// where it leaves 0 to 255. That is the nearest by channel, which is not always the nearest to the eye.
    pub fn shown(self) -> Shown {
        let exact = Srgb::<f64>::from_color_unclamped(self.0);
        let channels = [exact.red, exact.green, exact.blue].map(|channel| (channel * 255.0).round());
        Shown {
            rgb: channels.map(|channel| channel.clamp(0.0, 255.0) as u8),
            clipped: channels.iter().any(|channel| !(0.0..=255.0).contains(channel)),
        }
    }
}

impl From<&Colour> for Lab {
    fn from(colour: &Colour) -> Self {
        Self::from(colour.rgb())
    }
}

/// From sRGB: its channels made linear and to XYZ (IEC 61966-2-1), to CIELAB (CIE 1976) under D65.
impl From<[u8; 3]> for Lab {
    fn from(rgb: [u8; 3]) -> Self {
        Self(Srgb::<u8>::from(rgb).into_format::<f64>().into_color())
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
    fn every_colour_of_a_coarse_cube_comes_back_as_itself() {
        let steps = [0_u8, 1, 2, 17, 51, 102, 128, 153, 204, 238, 254, 255];
        for red in steps {
            for green in steps {
                for blue in steps {
                    let rgb = [red, green, blue];
                    assert_eq!(Lab::from(rgb).shown(), Shown { rgb, clipped: false });
                }
            }
        }
    }

    #[test]
    fn a_colour_that_no_screen_shows_is_said_to_be_clipped() {
        assert!(Lab::new(50.0, 120.0, -120.0).shown().clipped);
        assert_eq!(Lab::new(130.0, 0.0, 0.0).shown(), Shown { rgb: [255; 3], clipped: true });
        assert!(Lab::new(f64::NAN, 0.0, 0.0).shown().clipped);
    }

    #[test]
    fn what_the_eye_calls_near_is_near() {
        let near = lab("black").difference(lab("#1b1c1e"));
        let far = lab("black").difference(lab("#e8e0d0"));
        assert!(near < 10.0 && far > 60.0, "{near} {far}");
    }
}
