//! The outline of a JPEG, and its picture at a half, a quarter or an eighth.
//!
//! The decoders that there are forgive a file that ends early and fill the rest with grey, and they follow as many
//! scans as a file has. So the markers are walked here first (ITU-T T.81, annex B): whether the file reaches its end
//! marker, how many scans it has, how many channels.

use std::io::Cursor;

use image::{DynamicImage, GrayImage, RgbImage};
use jpeg_decoder::{Decoder, PixelFormat};

use super::{MOST_MEMORY, MOST_PIXELS, Unreadable};

/// More passes over the pixels than a file has in earnest: about ten are usual.
const MOST_PASSES: u64 = 25;

/// What the markers tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Outline<'a> {
    /// The Exif structure, without its prefix; empty where there is none.
    pub(super) exif: &'a [u8],
    channels: u8,
    progressive: bool,
    /// Huffman-coded, with 8 bits a channel.
    usual: bool,
    scans: u64,
}

impl<'a> Outline<'a> {
    /// Walks the markers.
    ///
    /// # Errors
    /// The file ends before its end marker.
    pub(super) fn of(bytes: &'a [u8]) -> Result<Self, Unreadable> {
        Self::walk(bytes).ok_or_else(|| Unreadable::Broken("it ends before its end marker".to_owned()))
    }

    fn walk(bytes: &'a [u8]) -> Option<Self> {
        let mut outline = Self { exif: &[], channels: 0, progressive: false, usual: false, scans: 0 };
        let mut at = 2;
        loop {
            // Between segments anything else is skipped, as decoders do; in a scan `FF 00` stands for a byte `FF`.
            at += bytes.get(at..)?.iter().position(|&byte| byte == 0xff)?;
            let marker = *bytes.get(at + 1)?;
            match marker {
                0xff => at += 1,
                0x00 | 0x01 | 0xd0..=0xd8 => at += 2,
                0xd9 => return Some(outline),
                _ => {
                    let [high, low] = *bytes.get(at + 2..)?.first_chunk::<2>()?;
                    let length = usize::from(u16::from_be_bytes([high, low])).max(2);
                    outline.segment(marker, bytes.get(at + 4..at + 2 + length)?);
                    at += 2 + length;
                }
            }
        }
    }

    fn segment(&mut self, marker: u8, body: &'a [u8]) {
        match marker {
            0xda => self.scans += 1,
            0xe1 if self.exif.is_empty() => {
                self.exif = body.strip_prefix(b"Exif\0\0").unwrap_or_default();
            }
            0xc0..=0xcf if !matches!(marker, 0xc4 | 0xc8 | 0xcc) => {
                self.channels = body.get(5).copied().unwrap_or_default();
                self.progressive = marker == 0xc2;
                self.usual = marker <= 0xc2 && body.first() == Some(&8);
            }
            _ => {}
        }
    }

    /// Whether decoding it whole stays inside the limits.
    ///
    /// # Errors
    /// It has too many scans for its pixels, or takes too much memory.
    pub(super) fn affordable(&self, width: u32, height: u32) -> Result<(), Unreadable> {
        let pixels = u64::from(width) * u64::from(height);
        if pixels * self.scans > MOST_PIXELS * MOST_PASSES {
            return Err(Unreadable::Broken(format!("{} scans are more than are read", self.scans)));
        }
        // A progressive picture is kept as coefficients of 16 bits until its last scan.
        if self.progressive && pixels * u64::from(self.channels) * 2 > MOST_MEMORY {
            return Err(Unreadable::TooMuchMemory);
        }
        Ok(())
    }

    /// The picture at the smallest of 1/8, 1/4 and 1/2 that covers `target` (as it is stored); each of its pixels is the
    /// mean of those that it stands for, because the inverse transform leaves out what is finer. `None` where only the
    /// whole picture will do, or where the whole may be read and this not.
    pub(super) fn scaled(&self, bytes: &[u8], size: (u32, u32), target: (u32, u32)) -> Option<DynamicImage> {
        let halves = (size.0.div_ceil(2), size.1.div_ceil(2));
        if !self.usual || !matches!(self.channels, 1 | 3) || halves.0 < target.0 || halves.1 < target.1 {
            return None;
        }
        let mut decoder = Decoder::new(Cursor::new(bytes));
        decoder.set_max_decoding_buffer_size(usize::try_from(MOST_MEMORY).unwrap_or(usize::MAX));
        decoder.scale(u16::try_from(target.0).ok()?, u16::try_from(target.1).ok()?).ok()?;
        let samples = decoder.decode().ok()?;
        let info = decoder.info()?;
        let (width, height) = (u32::from(info.width), u32::from(info.height));
        match info.pixel_format {
            PixelFormat::L8 => GrayImage::from_raw(width, height, samples).map(Into::into),
            PixelFormat::RGB24 => RgbImage::from_raw(width, height, samples).map(Into::into),
            PixelFormat::L16 | PixelFormat::CMYK32 => None,
        }
    }
}
