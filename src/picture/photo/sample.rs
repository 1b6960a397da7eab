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
        let edge = if (x / 7 + y / 5).is_multiple_of(3) { 60 } else { 0 };
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

/// A picture as a camera sees it, a different one for each seed: broad forms, finer ones on them, grain.
pub(super) fn scene(width: u32, height: u32, seed: u64) -> DynamicImage {
    let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
    let mut random = move || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 40) as f32 / (1_u64 << 24) as f32 - 0.5
    };
    (0..64).for_each(|_| {
        random();
    });
    let layers: Vec<(u32, f32, Vec<f32>)> = [(3, 220.0), (6, 160.0), (12, 110.0), (40, 40.0)]
        .map(|(cells, height)| (cells, height, (0..(cells + 1) * (cells + 1)).map(|_| random()).collect()))
        .into();
    RgbImage::from_fn(width, height, |x, y| {
        let mut level = 128.0;
        for (cells, height_of, values) in &layers {
            let (fx, fy) =
                (x as f32 / width as f32 * *cells as f32, y as f32 / height as f32 * *cells as f32);
            let (left, top) = (fx as u32, fy as u32);
            let value = |x: u32, y: u32| values[(y * (cells + 1) + x) as usize];
            let upper = value(left, top) * (1.0 - fx.fract()) + value(left + 1, top) * fx.fract();
            let lower = value(left, top + 1) * (1.0 - fx.fract()) + value(left + 1, top + 1) * fx.fract();
            level += height_of * (upper * (1.0 - fy.fract()) + lower * fy.fract());
        }
        let level = level + random() * 8.0;
        image::Rgb([level, level * 0.9 + 10.0, 220.0 - level * 0.7].map(|channel| channel as u8))
    })
    .into()
}
