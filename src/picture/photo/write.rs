//! Pixels to a file's bytes, for reports.

use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::PngEncoder;
use image::{ExtendedColorType, ImageEncoder};

use crate::picture::Pixels;

/// The longest side that a JPEG has (ITU-T T.81, B.2.2: sixteen bits).
const LONGEST_IN_JPEG: u32 = 65_535;

/// Why pixels do not become a file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unwritten {
    /// Nothing to write, or not four bytes for each pixel.
    #[error("{width} × {height} pixels with {bytes} bytes are no picture: expected four bytes a pixel")]
    NoPicture {
        /// Pixels in a row.
        width: u32,
        /// Rows.
        height: u32,
        /// Bytes that there are.
        bytes: usize,
    },
    /// A side is longer than the format has.
    #[error("a JPEG has no side longer than {LONGEST_IN_JPEG} pixels; write it smaller, or as PNG")]
    TooLong,
    /// The encoder would not.
    #[error("the picture cannot be written: {0}")]
    Refused(String),
}

/// As PNG, opacity and all.
///
/// # Errors
/// [`Unwritten`].
pub fn png(pixels: &Pixels) -> Result<Vec<u8>, Unwritten> {
    whole(pixels)?;
    let mut bytes = Vec::new();
    PngEncoder::new(&mut bytes)
        .write_image(&pixels.rgba, pixels.width, pixels.height, ExtendedColorType::Rgba8)
        .map_err(|error| Unwritten::Refused(error.to_string()))?;
    Ok(bytes)
}

/// As JPEG of a quality from 1 to 100 (held to that), laid on white, since a JPEG has no opacity.
///
/// # Errors
/// [`Unwritten`].
pub fn jpeg(pixels: &Pixels, quality: u8) -> Result<Vec<u8>, Unwritten> {
    whole(pixels)?;
    if pixels.width.max(pixels.height) > LONGEST_IN_JPEG {
        return Err(Unwritten::TooLong);
    }
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, quality.clamp(1, 100))
        .write_image(&on_white(pixels), pixels.width, pixels.height, ExtendedColorType::Rgb8)
        .map_err(|error| Unwritten::Refused(error.to_string()))?;
    Ok(bytes)
}

/// Red, green and blue of each pixel as they look on white paper.
pub(super) fn on_white(pixels: &Pixels) -> Vec<u8> {
    let (quads, _) = pixels.rgba.as_chunks::<4>();
    quads
        .iter()
        .flat_map(|[red, green, blue, opacity]| {
            let opacity = u32::from(*opacity);
            [red, green, blue].map(|channel| {
                ((u32::from(*channel) * opacity + 255 * (255 - opacity) + 127) / 255).min(255) as u8
            })
        })
        .collect()
}

fn whole(pixels: &Pixels) -> Result<(), Unwritten> {
    let (width, height, bytes) = (pixels.width, pixels.height, pixels.rgba.len());
    let expected = u128::from(width) * u128::from(height) * 4;
    if expected == 0 || expected != bytes as u128 {
        return Err(Unwritten::NoPicture { width, height, bytes });
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::photo::decoded;

    fn pixels() -> Pixels {
        let rgba = (0..40 * 30).flat_map(|at: u32| [(at % 40 * 6) as u8, 120, 60, 255]).collect();
        Pixels { width: 40, height: 30, rgba }
    }

    #[test]
    fn a_png_reads_back_as_what_was_written() {
        let mut pixels = pixels();
        pixels.rgba[3] = 7;
        assert_eq!(decoded(&png(&pixels).unwrap(), (99, 99)), Ok(pixels));
    }

    #[test]
    fn a_jpeg_reads_back_nearly_and_more_so_at_a_higher_quality() {
        let pixels = pixels();
        let (low, high) = (jpeg(&pixels, 0).unwrap(), jpeg(&pixels, 255).unwrap());
        assert!(low.len() < high.len());
        let back = decoded(&high, (99, 99)).unwrap();
        assert!(back.rgba.iter().zip(&pixels.rgba).all(|(one, other)| one.abs_diff(*other) < 16));
    }

    #[test]
    fn what_is_transparent_is_white_in_a_jpeg() {
        let clear = Pixels { width: 8, height: 8, rgba: [0, 0, 0, 0].repeat(64) };
        let back = decoded(&jpeg(&clear, 90).unwrap(), (8, 8)).unwrap();
        assert_eq!(back.at(4, 4), Some([255, 255, 255]));
    }

    #[test]
    fn pixels_that_are_none_are_refused() {
        for (width, height, bytes) in [(0, 0, 0), (2, 2, 15), (2, 2, 17), (u32::MAX, u32::MAX, 4)] {
            let none = Pixels { width, height, rgba: vec![0; bytes] };
            assert!(matches!(png(&none), Err(Unwritten::NoPicture { .. })));
            assert!(matches!(jpeg(&none, 80), Err(Unwritten::NoPicture { .. })));
        }
        let long = Pixels { width: 65_536, height: 1, rgba: vec![0; 65_536 * 4] };
        assert_eq!(jpeg(&long, 80), Err(Unwritten::TooLong));
        assert!(png(&long).is_ok());
    }
}
