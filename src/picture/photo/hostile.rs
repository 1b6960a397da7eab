//! Files that lie, end early or are no pictures: each is refused in words, or shown, and nothing panics.

use std::sync::LazyLock;

use image::{DynamicImage, ImageFormat};
use proptest::prelude::*;

use super::{Likeness, Unreadable, decoded, facts, main_colours, sample};

const WITHIN: (u32, u32) = (64, 64);

/// Every way through a file; what comes out of it is inside the bounds.
fn read(bytes: &[u8]) -> Result<(), Unreadable> {
    let known = facts(bytes);
    let pixels = decoded(bytes, WITHIN)?;
    assert!(known.is_ok(), "decoded, but {known:?}");
    assert!((1..=WITHIN.0).contains(&pixels.width) && (1..=WITHIN.1).contains(&pixels.height));
    assert_eq!(pixels.rgba.len() as u32, pixels.width * pixels.height * 4);
    assert!(Likeness::of(&pixels).is_some());
    assert!(main_colours(&pixels).len() <= 6);
    Ok(())
}

/// A PNG chunk with its right checksum (CRC-32, ISO 3309).
fn chunk(name: &[u8; 4], body: &[u8]) -> Vec<u8> {
    let named = [name.as_slice(), body].concat();
    let crc = !named.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(
            crc ^ u32::from(*byte),
            |crc, _| if crc & 1 == 1 { crc >> 1 ^ 0xedb8_8320 } else { crc >> 1 },
        )
    });
    [&(body.len() as u32).to_be_bytes(), named.as_slice(), &crc.to_be_bytes()].concat()
}

fn png(width: u32, height: u32, depth: u8, colours: u8) -> Vec<u8> {
    let head = [width.to_be_bytes().as_slice(), &height.to_be_bytes(), &[depth, colours, 0, 0, 0]].concat();
    // An empty stream: who believes the head takes the memory before it sees that nothing comes.
    let nothing = [0x78, 0x01, 0x01, 0, 0, 0xff, 0xff, 0, 0, 0, 1];
    [b"\x89PNG\r\n\x1a\n".to_vec(), chunk(b"IHDR", &head), chunk(b"IDAT", &nothing), chunk(b"IEND", &[])]
        .concat()
}

#[test]
fn a_picture_that_claims_too_many_pixels_is_refused_by_its_head() {
    let mut gif = sample::file(&sample::picture(8, 8), ImageFormat::Gif);
    gif[6..10].copy_from_slice(&[0xff; 4]);
    let webp =
        [b"RIFF\x16\0\0\0WEBPVP8X\x0a\0\0\0\0\0\0\0".as_slice(), &[0xff, 0x3f, 0, 0xff, 0x3f, 0]].concat();
    let mut bmp = sample::file(&sample::picture(8, 8), ImageFormat::Bmp);
    bmp[18..26].copy_from_slice(&[0xff, 0xff, 0, 0, 0xff, 0xff, 0, 0]);
    let mut jpeg = sample::jpeg(&sample::picture(8, 8), 80);
    let frame = jpeg.windows(2).position(|marker| marker == [0xff, 0xc0]).unwrap();
    jpeg[frame + 5..frame + 9].copy_from_slice(&[0xff; 4]);
    for (what, bytes) in
        [("PNG", png(60_000, 60_000, 8, 2)), ("GIF", gif), ("WebP", webp), ("BMP", bmp), ("JPEG", jpeg)]
    {
        let found = (facts(&bytes).unwrap_err(), read(&bytes).unwrap_err());
        // Some are refused for the rest of what they lack, but none is decoded.
        assert_eq!(found.0, found.1, "{what}");
        if matches!(what, "PNG" | "JPEG" | "GIF") {
            assert!(matches!(found.0, Unreadable::TooManyPixels { .. }), "{what}: {found:?}");
        }
    }
}

#[test]
fn a_picture_that_takes_too_much_memory_is_refused_by_its_head() {
    assert_eq!(read(&png(9_990, 9_990, 16, 6)), Err(Unreadable::TooMuchMemory));
}

#[test]
fn a_bomb_inside_the_limits_ends_where_its_bytes_end() {
    assert!(matches!(read(&png(8_000, 8_000, 8, 2)), Err(Unreadable::Broken(_))));
}

#[test]
fn a_tiff_whose_strips_lie_beyond_reason_is_refused() {
    let whole = sample::file(&sample::picture(40, 30), ImageFormat::Tiff);
    let little = whole.starts_with(b"II");
    assert!(little, "the sample is little-endian");
    let directory = u32::from_le_bytes([whole[4], whole[5], whole[6], whole[7]]) as usize;
    let entries = usize::from(u16::from_le_bytes([whole[directory], whole[directory + 1]]));
    for tag in [0x0101_u16, 0x0111, 0x0116, 0x0117] {
        for value in [[0xff, 0xff, 0xff, 0x7f], [0xff, 0xff, 0xff, 0xff]] {
            let mut bytes = whole.clone();
            let entry = (0..entries)
                .map(|at| directory + 2 + at * 12)
                .find(|&entry| bytes[entry..entry + 2] == tag.to_le_bytes())
                .unwrap();
            bytes[entry + 8..entry + 12].copy_from_slice(&value);
            // Strips of all rows in one may be told by a number as large as one likes.
            if tag != 0x0116 {
                assert!(read(&bytes).is_err(), "{tag:#x} {value:?}");
            } else {
                let _ = read(&bytes);
            }
        }
    }
}

#[test]
fn a_webp_chunk_that_claims_more_than_there_is_takes_no_memory() {
    let mut bytes = sample::file(&sample::picture(20, 20), ImageFormat::WebP);
    bytes.extend(b"EXIF\xf0\xff\xff\xff");
    assert!(matches!(read(&bytes), Err(Unreadable::Broken(_))));
}

#[test]
fn a_jpeg_of_endless_scans_is_refused() {
    let whole = sample::jpeg(&sample::picture(2_000, 1_000), 50);
    let scan = whole.windows(2).position(|marker| marker == [0xff, 0xda]).unwrap();
    let length = usize::from(u16::from_be_bytes([whole[scan + 2], whole[scan + 3]]));
    let again = whole[scan..scan + 2 + length].repeat(5_000);
    let bytes = [&whole[..scan], &again, &whole[scan..]].concat();
    assert!(matches!(read(&bytes), Err(Unreadable::Broken(_))));
}

#[test]
fn a_truncated_file_is_named_as_broken() {
    for format in sample::FORMATS {
        let whole = sample::file(&sample::picture(120, 90), format);
        assert_eq!(read(&whole), Ok(()), "{format:?}");
        for part in 1..10 {
            let cut = &whole[..whole.len() * part / 10];
            let found = read(cut);
            assert!(matches!(found, Err(Unreadable::Broken(_))), "{format:?}, {part} tenths: {found:?}");
        }
    }
}

#[test]
fn damaged_exif_is_no_reason_to_refuse_a_picture() {
    let jpeg = sample::jpeg(&sample::picture(30, 20), 80);
    for exif in [
        b"".as_slice(),
        b"II*\0",
        b"MM\0*\xff\xff\xff\xff",
        b"II*\0\x08\0\0\0\xff\xff",
        b"II*\0\x08\0\0\0\x01\0\x69\x87\x04\0\x01\0\0\0\xff\xff\xff\xff",
        b"II*\0\x08\0\0\0\x01\0\x69\x87\x04\0\x01\0\0\0\x08\0\0\0",
        b"nothing of the kind",
    ] {
        let file = sample::with_exif(&jpeg, exif);
        assert_eq!(read(&file), Ok(()));
        assert_eq!(facts(&file).unwrap().taken, None);
    }
}

/// Small files of every kind; made once.
static FILES: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| {
    let deep = DynamicImage::ImageRgb16(sample::picture(24, 18).to_rgb16());
    let clear = DynamicImage::ImageRgba8(sample::picture(24, 18).to_rgba8());
    let mut files: Vec<Vec<u8>> =
        sample::FORMATS.iter().map(|format| sample::file(&sample::picture(150, 90), *format)).collect();
    files.extend([ImageFormat::Png, ImageFormat::Tiff].map(|format| sample::file(&deep, format)));
    files.extend([ImageFormat::Png, ImageFormat::WebP].map(|format| sample::file(&clear, format)));
    files
});

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_bytes_never_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = read(&bytes);
    }

    #[test]
    fn random_bytes_behind_a_picture_s_first_bytes_never_panic(
        which in 0..6_usize,
        keep in 2..60_usize,
        bytes in proptest::collection::vec(any::<u8>(), 0..400),
    ) {
        let keep = keep.min(FILES[which].len());
        let _ = read(&[&FILES[which][..keep], &bytes].concat());
    }

    #[test]
    fn a_corrupted_file_never_panics(
        which in 0..10_usize,
        spots in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..8),
        early in any::<bool>(),
    ) {
        let mut bytes = FILES[which].clone();
        // Heads are small and say the most.
        let reach = if early { bytes.len().min(120) } else { bytes.len() };
        for (spot, value) in spots {
            let at = spot.index(reach);
            bytes[at] = value;
        }
        let _ = read(&bytes);
    }
}
