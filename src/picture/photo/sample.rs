//! Picture files for tests, made here from nothing.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, ImageFormat, RgbImage};

/// Every kind that is read.
pub(super) const FORMATS: [ImageFormat; 6] = [
    ImageFormat::Jpeg,
    ImageFormat::Png,
    ImageFormat::Tiff,
    ImageFormat::WebP,
    ImageFormat::Gif,
    ImageFormat::Bmp,
];

/// A picture with something in it: shades and a few hard edges.
pub(super) fn picture(width: u32, height: u32) -> DynamicImage {
    RgbImage::from_fn(width, height, |x, y| {
        let edge = if (x / 7 + y / 5) % 3 == 0 { 60 } else { 0 };
        image::Rgb([(x * 255 / width) as u8, (y * 255 / height) as u8, 90 + edge])
    })
    .into()
}

/// As a file.
pub(super) fn file(image: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    image.write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

/// As a JPEG of a quality.
pub(super) fn jpeg(image: &DynamicImage, quality: u8) -> Vec<u8> {
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, quality).encode_image(image).unwrap();
    bytes
}

/// A JPEG with an Exif segment before all else.
pub(super) fn with_exif(jpeg: &[u8], exif: &[u8]) -> Vec<u8> {
    let length = u16::try_from(exif.len() + 8).unwrap().to_be_bytes();
    [&jpeg[..2], &[0xff, 0xe1], &length, b"Exif\0\0", exif, &jpeg[2..]].concat()
}

/// What an independent writer makes of these fields.
pub(super) fn exif(fields: &[exif::Field], little: bool) -> Vec<u8> {
    let mut writer = exif::experimental::Writer::new();
    fields.iter().for_each(|field| writer.push_field(field));
    let mut bytes = Cursor::new(Vec::new());
    writer.write(&mut bytes, little).unwrap();
    bytes.into_inner()
}
