//! Bytes to pixels.

use std::io::Cursor;

use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageReader};

use super::{MOST_PIXELS, Unreadable};
use crate::picture::Pixels;

/// What a picture says of itself before it is decoded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Facts {
    /// Pixels in a row, as it stands upright.
    pub width: u32,
    /// Rows, as it stands upright.
    pub height: u32,
}

/// What a picture says of itself; nothing is decoded for it.
///
/// # Errors
/// [`Unreadable`].
pub fn facts(bytes: &[u8]) -> Result<Facts, Unreadable> {
    let (_, facts, _) = opened(bytes)?;
    Ok(facts)
}

/// The picture upright, as large as fits into `within` (width, height) but never larger than it is.
///
/// # Errors
/// [`Unreadable`].
pub fn decoded(bytes: &[u8], within: (u32, u32)) -> Result<Pixels, Unreadable> {
    let (decoder, _, orientation) = opened(bytes)?;
    let mut image =
        DynamicImage::from_decoder(decoder).map_err(|error| Unreadable::Broken(error.to_string()))?;
    image.apply_orientation(orientation);
    Ok(fitted(image, within))
}

/// Pixels as large as fits into `within` (width, height), never larger than they are.
pub fn scaled(pixels: Pixels, within: (u32, u32)) -> Pixels {
    if pixels.width <= within.0 && pixels.height <= within.1 {
        return pixels;
    }
    match image::RgbaImage::from_raw(pixels.width, pixels.height, pixels.rgba) {
        Some(image) => fitted(image.into(), within),
        None => Pixels { width: 0, height: 0, rgba: Vec::new() },
    }
}

fn fitted(image: DynamicImage, within: (u32, u32)) -> Pixels {
    let (wide, high) = (within.0.max(1), within.1.max(1));
    let image =
        if image.width() > wide || image.height() > high { image.thumbnail(wide, high) } else { image };
    let rgba = image.into_rgba8();
    Pixels { width: rgba.width(), height: rgba.height(), rgba: rgba.into_raw() }
}

fn opened(bytes: &[u8]) -> Result<(impl ImageDecoder + '_, Facts, Orientation), Unreadable> {
    if bytes.is_empty() {
        return Err(Unreadable::Empty);
    }
    let reader =
        ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|_| Unreadable::Foreign)?;
    if reader.format().is_none() {
        return Err(Unreadable::Foreign);
    }
    let mut decoder = reader.into_decoder().map_err(|error| Unreadable::Broken(error.to_string()))?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(Unreadable::TooManyPixels { width, height, most: MOST_PIXELS / 1_000_000 });
    }
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let turned = matches!(
        orientation,
        Orientation::Rotate90
            | Orientation::Rotate270
            | Orientation::Rotate90FlipH
            | Orientation::Rotate270FlipH
    );
    let (width, height) = if turned { (height, width) } else { (width, height) };
    Ok((decoder, Facts { width, height }, orientation))
}
