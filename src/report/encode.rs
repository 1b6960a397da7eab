//! Pixels to files that a page, a sheet or a workbook can hold.

use image::ExtendedColorType;
use image::ImageEncoder;
use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::PngEncoder;

use crate::picture::Pixels;

/// How good a JPEG is, of 100: small, and nothing that a fitting is judged by is lost.
const QUALITY: u8 = 80;

/// As JPEG, on white where it is clear; `None` where there are no pixels.
pub(super) fn jpeg(pixels: &Pixels) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    let encoder = JpegEncoder::new_with_quality(&mut bytes, QUALITY);
    encoder.write_image(&on_white(pixels), pixels.width, pixels.height, ExtendedColorType::Rgb8).ok()?;
    Some(bytes)
}

/// As PNG, on white where it is clear; `None` where there are no pixels.
pub(super) fn png(pixels: &Pixels) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    let encoder = PngEncoder::new(&mut bytes);
    encoder.write_image(&on_white(pixels), pixels.width, pixels.height, ExtendedColorType::Rgb8).ok()?;
    Some(bytes)
}

fn on_white(pixels: &Pixels) -> Vec<u8> {
    let mut all = Vec::with_capacity(pixels.rgba.len() / 4 * 3);
    for pixel in pixels.rgba.chunks_exact(4) {
        if let [red, green, blue, opacity] = *pixel {
            let over = |part: u8| {
                let (part, opacity) = (u32::from(part), u32::from(opacity));
                ((part * opacity + 255 * (255 - opacity) + 127) / 255) as u8
            };
            all.extend([over(red), over(green), over(blue)]);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::photo::decoded;

    #[test]
    fn what_is_clear_is_white_and_what_is_not_keeps_its_colour() {
        let pixels = Pixels { width: 16, height: 16, rgba: [200, 10, 10, 255].repeat(256) };
        let clear = Pixels { width: 16, height: 16, rgba: [200, 10, 10, 0].repeat(256) };
        for encoded in [jpeg, png] {
            let read = |pixels| decoded(&encoded(pixels).unwrap(), (16, 16)).unwrap().at(8, 8).unwrap();
            let near = |one: [u8; 3], other: [u8; 3]| one.iter().zip(other).all(|(a, b)| a.abs_diff(b) < 6);
            assert!(near(read(&pixels), [200, 10, 10]) && near(read(&clear), [255; 3]));
        }
    }

    #[test]
    fn no_pixels_are_no_file() {
        let none = Pixels { width: 0, height: 0, rgba: Vec::new() };
        assert!(jpeg(&none).is_none());
    }
}
