//! Colours as people name them: sRGB hex (`#2b3040`) or a CSS colour name (`navy`).
//!
//! A colour remembers how it was written, so that a file keeps its own words.

use std::fmt;
use std::str::FromStr;

use palette::Srgb;

use super::by_text::by_text;

/// An sRGB colour, with the text that it was given as.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Colour {
    written: Box<str>,
    rgb: [u8; 3],
}

/// Why a text is no colour.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no colour: expected sRGB hex such as `#2b3040`, or a CSS colour name such as `navy`")]
pub struct ColourError(String);

impl Colour {
    /// The colour of these parts, written as hex.
    pub fn of_rgb(rgb: [u8; 3]) -> Self {
        let [red, green, blue] = rgb;
        Self { written: format!("#{red:02x}{green:02x}{blue:02x}").into(), rgb }
    }

    /// Red, green and blue, 0 to 255 each, in sRGB.
    pub fn rgb(&self) -> [u8; 3] {
        self.rgb
    }

    /// As `#1f4a37`, however it is written.
    pub fn hex(&self) -> String {
        Self::of_rgb(self.rgb).written.into()
    }

    /// Whether black lettering reads better on it than white (relative luminance, W3C WCAG 2.1:
    /// the contrast with black passes that with white above 0.179).
    pub fn is_light(&self) -> bool {
        let linear: palette::LinSrgb<f32> = Srgb::<u8>::from(self.rgb).into_linear();
        0.2126 * linear.red + 0.7152 * linear.green + 0.0722 * linear.blue > 0.179
    }
}

impl FromStr for Colour {
    type Err = ColourError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let written = text.trim();
        let name = written.to_ascii_lowercase();
        let rgb: Option<Srgb<u8>> = if name.starts_with('#') {
            matches!(name.len(), 4 | 7).then(|| name.parse().ok()).flatten()
        } else {
            palette::named::from_str(&name)
        };
        let rgb = rgb.ok_or_else(|| ColourError(text.to_owned()))?;
        Ok(Self { written: written.into(), rgb: [rgb.red, rgb.green, rgb.blue] })
    }
}

impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.written)
    }
}

by_text!(Colour);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hex_and_css_names_read_and_keep_their_words() {
        for (text, rgb) in [("#2b3040", [0x2b, 0x30, 0x40]), ("#FFF", [255, 255, 255]), ("Navy", [0, 0, 128])]
        {
            let colour: Colour = text.parse().unwrap();
            assert_eq!(colour.rgb(), rgb, "{text}");
            assert_eq!(colour.to_string(), text);
        }
    }

    #[test]
    fn parts_make_the_colour_that_their_hex_reads_as() {
        let colour = Colour::of_rgb([0x0a, 0xff, 0x30]);
        assert_eq!(colour, "#0aff30".parse().unwrap());
        assert_eq!(colour.hex(), colour.to_string());
    }

    #[test]
    fn anything_else_is_refused() {
        for text in ["", "#12", "#12345", "#12345678", "nile-ish", "#gggggg", "2b3040"] {
            assert!(text.parse::<Colour>().is_err(), "{text}");
        }
    }

    #[test]
    fn black_reads_on_light_cloth() {
        assert!("ivory".parse::<Colour>().unwrap().is_light());
        assert!(!"navy".parse::<Colour>().unwrap().is_light());
    }
}
