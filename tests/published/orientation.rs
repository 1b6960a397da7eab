//! Exif 2.32 (JEITA CP-3451X / CIPA DC-008-2019), tag 0x0112, Orientation. Of each value the standard says which side of
//! what is seen the stored picture's row 0 and column 0 are:
//!
//! | value | row 0 | column 0 |
//! |---|---|---|
//! | 1 | top | left |
//! | 2 | top | right |
//! | 3 | bottom | right |
//! | 4 | bottom | left |
//! | 5 | left | top |
//! | 6 | right | top |
//! | 7 | right | bottom |
//! | 8 | left | bottom |
//!
//! TIFF 6.0 (1992), p. 36, gives its own tag 274 the same eight meanings.

#![allow(clippy::unwrap_used, reason = "a picture that does not read is a failed claim")]

use std::io::Cursor;

use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use shirr::picture::{Pixels, photo};

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Side {
    Top,
    Bottom,
    Left,
    Right,
}

use Side::{Bottom, Left, Right, Top};

const TABLE: [(Side, Side); 8] = [
    (Top, Left),
    (Top, Right),
    (Bottom, Right),
    (Bottom, Left),
    (Left, Top),
    (Right, Top),
    (Right, Bottom),
    (Left, Bottom),
];

const WIDTH: u32 = 96;
const HEIGHT: u32 = 64;

/// Stored: row 0 is red, column 0 is green, and where they meet is blue; broad enough to survive JPEG and scaling.
fn stored() -> DynamicImage {
    RgbImage::from_fn(WIDTH, HEIGHT, |x, y| match (x < 16, y < 16) {
        (true, true) => Rgb([0, 0, 255]),
        (false, true) => Rgb([255, 0, 0]),
        (true, false) => Rgb([0, 255, 0]),
        (false, false) => Rgb([255, 255, 255]),
    })
    .into()
}

/// A TIFF header and a directory with the one tag, by hand.
fn exif(value: u8, big: bool) -> Vec<u8> {
    if big {
        [b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".as_slice(), &[value], &[0; 6]].concat()
    } else {
        [b"II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0".as_slice(), &[value], &[0; 7]].concat()
    }
}

fn encoded(format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    stored().write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

fn jpeg(value: u8, big: bool) -> Vec<u8> {
    let plain = encoded(ImageFormat::Jpeg);
    let exif = exif(value, big);
    let length = u16::try_from(exif.len() + 8).unwrap().to_be_bytes();
    [&plain[..2], &[0xff, 0xe1], &length, b"Exif\0\0", &exif, &plain[2..]].concat()
}

/// An `eXIf` chunk after the header (PNG specification, third edition); its checksum is CRC-32 (ISO 3309), by bits.
fn png(value: u8, big: bool) -> Vec<u8> {
    let plain = encoded(ImageFormat::Png);
    let exif = exif(value, big);
    let chunk = [b"eXIf", exif.as_slice()].concat();
    let crc = !chunk.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(
            crc ^ u32::from(*byte),
            |crc, _| if crc & 1 == 1 { crc >> 1 ^ 0xedb8_8320 } else { crc >> 1 },
        )
    });
    let length = u32::try_from(exif.len()).unwrap().to_be_bytes();
    [&plain[..33], &length, &chunk, &crc.to_be_bytes(), &plain[33..]].concat()
}

/// The extended form (RFC 9649, section 2.7): a `VP8X` chunk that says there is Exif, the picture, an `EXIF` chunk.
fn webp(value: u8, big: bool) -> Vec<u8> {
    let plain = encoded(ImageFormat::WebP);
    let exif = exif(value, big);
    let sides = [WIDTH - 1, HEIGHT - 1].map(u32::to_le_bytes);
    let extended = [b"VP8X\x0a\0\0\0\x08\0\0\0".as_slice(), &sides[0][..3], &sides[1][..3]].concat();
    let tail = [b"EXIF".as_slice(), &u32::try_from(exif.len()).unwrap().to_le_bytes(), &exif].concat();
    let body = [b"WEBP", extended.as_slice(), &plain[12..], &tail].concat();
    [b"RIFF", u32::try_from(body.len()).unwrap().to_le_bytes().as_slice(), &body].concat()
}

/// A TIFF by hand: nine tags, one strip of eight bits a channel.
fn tiff(value: u8, big: bool) -> Vec<u8> {
    let short = |number: u16| if big { number.to_be_bytes() } else { number.to_le_bytes() };
    let long = |number: u32| if big { number.to_be_bytes() } else { number.to_le_bytes() };
    let pixels = stored().into_rgb8().into_raw();
    let strip = 8 + 2 + 10 * 12 + 4;
    let mut bytes = if big { b"MM\0*".to_vec() } else { b"II*\0".to_vec() };
    bytes.extend(long(8));
    bytes.extend(short(10));
    for (tag, kind, count, number) in [
        (256, 4, 1, WIDTH),
        (257, 4, 1, HEIGHT),
        (258, 3, 3, strip),
        (259, 3, 1, 1),
        (262, 3, 1, 2),
        (273, 4, 1, strip + 6),
        (274, 3, 1, u32::from(value)),
        (277, 3, 1, 3),
        (278, 4, 1, HEIGHT),
        (279, 4, 1, WIDTH * HEIGHT * 3),
    ] {
        bytes.extend(short(tag));
        bytes.extend(short(kind));
        bytes.extend(long(count));
        if kind == 3 && count == 1 {
            bytes.extend(short(number as u16));
            bytes.extend([0, 0]);
        } else {
            bytes.extend(long(number));
        }
    }
    bytes.extend(long(0));
    (0..3).for_each(|_| bytes.extend(short(8)));
    bytes.extend(pixels);
    bytes
}

/// Which of the four colours a pixel is.
fn named(pixels: &Pixels, x: u32, y: u32) -> &'static str {
    match pixels.at(x, y).unwrap().map(|channel| channel > 127) {
        [true, false, false] => "row",
        [false, true, false] => "column",
        [false, false, true] => "both",
        [true, true, true] => "inside",
        other => panic!("{x}, {y}: {other:?}"),
    }
}

/// The middle of the side, a little inwards.
fn on(side: Side, pixels: &Pixels) -> (u32, u32) {
    let (width, height) = (pixels.width, pixels.height);
    match side {
        Top => (width / 2, 1),
        Bottom => (width / 2, height - 2),
        Left => (1, height / 2),
        Right => (width - 2, height / 2),
    }
}

fn upright(file: &[u8], what: &str) {
    let value = file_value(what);
    let (row, column) = TABLE[value - 1];
    // Whole, and made smaller on the way: a JPEG takes another way then.
    for within in [(500, 500), (24, 24)] {
        let pixels = photo::decoded(file, within).unwrap();
        let lies = pixels.width < pixels.height;
        assert_eq!(lies, value >= 5, "{what}: {} × {}", pixels.width, pixels.height);
        for (side, colour) in [(row, "row"), (column, "column")] {
            let (x, y) = on(side, &pixels);
            assert_eq!(named(&pixels, x, y), colour, "{what}: {side:?} within {within:?}");
        }
        let facts = photo::facts(file).unwrap();
        assert_eq!(facts.width < facts.height, value >= 5, "{what}");
    }
}

fn file_value(what: &str) -> usize {
    what.rsplit(' ').next().unwrap().parse().unwrap()
}

#[test]
fn every_orientation_stands_upright_in_every_format_that_has_it() {
    for value in 1..=8_u8 {
        for big in [false, true] {
            upright(&jpeg(value, big), &format!("JPEG {value}"));
            upright(&png(value, big), &format!("PNG {value}"));
            upright(&webp(value, big), &format!("WebP {value}"));
            upright(&tiff(value, big), &format!("TIFF {value}"));
        }
    }
}

#[test]
fn a_value_that_the_standard_does_not_have_turns_nothing() {
    for value in [0, 9, 255] {
        for file in [jpeg(value, true), png(value, true), webp(value, true), tiff(value, true)] {
            let pixels = photo::decoded(&file, (500, 500)).unwrap();
            assert_eq!((pixels.width, pixels.height), (WIDTH, HEIGHT), "{value}");
            assert_eq!(named(&pixels, WIDTH / 2, 1), "row");
        }
    }
}
