//! Bytes to pixels.

use image::DynamicImage;

use super::smaller::{fitted, smaller};
use super::{Unreadable, open};
use crate::picture::Pixels;

/// The picture upright, as large as fits into `within` (width, height) but never larger than it is. A side has at
/// least one pixel.
///
/// Its opacity is kept as it is. Of an animation it is the first frame. Colours are taken for sRGB: a colour profile is
/// not looked at, so a picture in a wider space looks a little duller than it is.
///
/// # Errors
/// [`Unreadable`].
pub fn decoded(bytes: &[u8], within: (u32, u32)) -> Result<Pixels, Unreadable> {
    let opened = open::opened(bytes)?;
    let (kind, orientation) = (opened.kind, opened.orientation);
    let target = fitted(opened.size, opened.upright(within));
    let scaled = opened.outline.and_then(|outline| outline.scaled(bytes, opened.size, target));
    let whole = match scaled {
        Some(scaled) => scaled,
        None => DynamicImage::from_decoder(opened.decoder).map_err(|error| Unreadable::of(kind, &error))?,
    };
    // Made smaller first: turning a few pixels costs nothing.
    let mut image = DynamicImage::ImageRgba8(smaller(whole, target));
    image.apply_orientation(orientation);
    let rgba = image.into_rgba8();
    Ok(Pixels { width: rgba.width(), height: rgba.height(), rgba: rgba.into_raw() })
}

/// Pixels as large as fits into `within` (width, height), never larger than they are.
pub fn scaled(pixels: Pixels, within: (u32, u32)) -> Pixels {
    if pixels.width <= within.0 && pixels.height <= within.1 {
        return pixels;
    }
    let target = fitted((pixels.width, pixels.height), within);
    // What is not of the size that it says has no pixels.
    let image = image::RgbaImage::from_raw(pixels.width, pixels.height, pixels.rgba).unwrap_or_default();
    let rgba = smaller(image.into(), target);
    Pixels { width: rgba.width(), height: rgba.height(), rgba: rgba.into_raw() }
}

#[cfg(test)]
mod tests {
    use image::{DynamicImage, GrayImage, ImageFormat, Rgba, RgbaImage};

    use super::*;
    use crate::picture::photo::sample;

    #[test]
    fn every_kind_is_read_by_its_content_alone() {
        let picture = sample::picture(60, 40);
        for format in sample::FORMATS {
            let pixels = decoded(&sample::file(&picture, format), (200, 200)).unwrap();
            assert_eq!((pixels.width, pixels.height, pixels.rgba.len()), (60, 40, 9600), "{format:?}");
            if !matches!(format, ImageFormat::Jpeg | ImageFormat::Gif) {
                assert_eq!(pixels.rgba, picture.to_rgba8().into_raw(), "{format:?}");
            }
        }
    }

    #[test]
    fn a_picture_is_made_as_large_as_fits_and_never_larger_than_it_is() {
        let files = [ImageFormat::Png, ImageFormat::Jpeg]
            .map(|format| sample::file(&sample::picture(400, 300), format));
        for (within, size) in [
            ((100, 100), (100, 75)),
            ((1000, 30), (40, 30)),
            ((400, 300), (400, 300)),
            ((9000, 9000), (400, 300)),
            ((50, 1), (1, 1)),
            ((0, 0), (1, 1)),
            ((u32::MAX, u32::MAX), (400, 300)),
        ] {
            for file in &files {
                let pixels = decoded(file, within).unwrap();
                assert_eq!((pixels.width, pixels.height), size, "{within:?}");
                assert_eq!(pixels.rgba.len() as u32, size.0 * size.1 * 4);
            }
        }
    }

    #[test]
    fn stripes_of_one_pixel_turn_into_their_mean() {
        let stripes =
            GrayImage::from_fn(300, 300, |x, _| image::Luma([if x.is_multiple_of(2) { 0 } else { 200 }]));
        let pixels = decoded(&sample::file(&stripes.into(), ImageFormat::Png), (70, 70)).unwrap();
        for pixel in pixels.rgba.chunks(4) {
            // 300 pixels on 70: a new one covers 4.29 old ones; a mean of whole pixels is 80 here and 120 there.
            assert!((90..=110).contains(&pixel[0]), "{}", pixel[0]);
        }
    }

    #[test]
    fn what_is_transparent_lends_no_colour_to_what_is_not() {
        let half = RgbaImage::from_fn(100, 100, |x, _| {
            if x.is_multiple_of(2) { Rgba([200, 0, 0, 255]) } else { Rgba([0, 255, 0, 0]) }
        });
        let pixels = decoded(&sample::file(&half.into(), ImageFormat::Png), (50, 50)).unwrap();
        for pixel in pixels.rgba.chunks(4) {
            assert!(pixel[0] >= 198 && pixel[1] <= 2 && (100..=156).contains(&pixel[3]), "{pixel:?}");
        }
    }

    #[test]
    fn sixteen_bits_and_grey_become_eight_bits_and_colours() {
        let deep = DynamicImage::ImageRgb16(sample::picture(30, 20).to_rgb16());
        for format in [ImageFormat::Png, ImageFormat::Tiff] {
            let pixels = decoded(&sample::file(&deep, format), (90, 90)).unwrap();
            assert_eq!(pixels.rgba, deep.to_rgba8().into_raw());
            let grey = DynamicImage::ImageLuma16(deep.to_luma16());
            let pixels = decoded(&sample::file(&grey, format), (90, 90)).unwrap();
            assert_eq!(pixels.rgba, grey.to_rgba8().into_raw());
        }
    }

    #[test]
    fn a_jpeg_scaled_from_its_coefficients_looks_as_if_scaled_from_its_pixels() {
        let picture = sample::picture(640, 480);
        let file = sample::jpeg(&picture, 95);
        for within in [(80, 60), (100, 75), (160, 120), (300, 225), (320, 240)] {
            let scaled = decoded(&file, within).unwrap();
            let whole = smaller(image::load_from_memory(&file).unwrap(), within);
            let apart: u64 = scaled
                .rgba
                .iter()
                .zip(whole.as_raw())
                .map(|(&one, &other)| u64::from(one.abs_diff(other)))
                .sum();
            let mean = apart as f64 / scaled.rgba.len() as f64;
            assert!(mean < 4.0, "{within:?}: {mean}");
        }
    }

    #[test]
    fn nothing_is_decoded_beyond_the_limits() {
        assert_eq!(decoded(&[], (9, 9)), Err(Unreadable::Empty));
        assert_eq!(decoded(b"worn: 1926\n", (9, 9)), Err(Unreadable::Foreign));
        assert_eq!(decoded(b"<svg xmlns='x'/>", (9, 9)), Err(Unreadable::Foreign));
    }
}
