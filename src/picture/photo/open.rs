//! Bytes to a decoder, inside the limits.

use std::borrow::Cow;
use std::io::Cursor;

use image::metadata::Orientation;
use image::{ImageDecoder, ImageReader, Limits};

use super::facts::Kind;
use super::jpeg::Outline;
use super::{MOST_BYTES, MOST_MEMORY, MOST_PIXELS, Unreadable, exif};

/// Exif that is larger than this is no Exif: in a JPEG it has 64 kB at most, its small picture among them.
const MOST_EXIF: usize = 1 << 20;

/// A file whose head is read and whose pixels are not.
pub(super) struct Opened<'a> {
    pub(super) kind: Kind,
    /// Width and height as they are stored.
    pub(super) size: (u32, u32),
    pub(super) orientation: Orientation,
    /// The whole of a TIFF, or what lies in another file.
    exif: Cow<'a, [u8]>,
    /// Of a JPEG.
    pub(super) outline: Option<Outline<'a>>,
    pub(super) decoder: Box<dyn ImageDecoder + 'a>,
}

impl Opened<'_> {
    /// Width and height the other way round where the picture lies on its side; the same there and back.
    pub(super) fn upright(&self, (width, height): (u32, u32)) -> (u32, u32) {
        match self.orientation {
            Orientation::Rotate90
            | Orientation::Rotate270
            | Orientation::Rotate90FlipH
            | Orientation::Rotate270FlipH => (height, width),
            _ => (width, height),
        }
    }

    pub(super) fn exif(&self) -> exif::Exif<'_> {
        exif::read(&self.exif)
    }
}

/// # Errors
/// Whatever keeps it from being decoded and can be known before.
pub(super) fn opened(bytes: &[u8]) -> Result<Opened<'_>, Unreadable> {
    if bytes.is_empty() {
        return Err(Unreadable::Empty);
    }
    if bytes.len() as u64 > MOST_BYTES {
        return Err(Unreadable::TooLarge);
    }
    let kind = Kind::of(bytes).ok_or(Unreadable::Foreign)?;
    let outline = (kind == Kind::Jpeg).then(|| Outline::of(bytes)).transpose()?;
    let webp_exif = if kind == Kind::WebP { exif_of_webp(bytes)? } else { None };

    let mut reader = ImageReader::with_format(Cursor::new(bytes), kind.format());
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(|error| Unreadable::of(kind, &error))?;

    let (width, height) = decoder.dimensions();
    if width == 0 || height == 0 {
        return Err(Unreadable::Broken("it has no pixels".to_owned()));
    }
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(Unreadable::TooManyPixels { width, height });
    }
    if decoder.total_bytes() > MOST_MEMORY {
        return Err(Unreadable::TooMuchMemory);
    }
    if let Some(outline) = &outline {
        outline.affordable(width, height)?;
    }

    let exif = match (kind, &outline) {
        (Kind::Tiff, _) => Cow::Borrowed(bytes),
        (Kind::Jpeg, Some(outline)) => Cow::Borrowed(outline.exif),
        (Kind::WebP, _) => Cow::Borrowed(webp_exif.unwrap_or_default()),
        (Kind::Png, _) => Cow::Owned(decoder.exif_metadata().ok().flatten().unwrap_or_default()),
        _ => Cow::Borrowed([].as_slice()),
    };
    let exif =
        if kind == Kind::Tiff || exif.len() <= MOST_EXIF { exif } else { Cow::Borrowed([].as_slice()) };
    let orientation =
        exif::read(&exif).orientation.and_then(Orientation::from_exif).unwrap_or(Orientation::NoTransforms);
    Ok(Opened { kind, size: (width, height), orientation, exif, outline, decoder: Box::new(decoder) })
}

/// The Exif chunk of a WebP. It is looked for here because the decoder takes the memory that a chunk claims before it
/// sees whether the file is that long.
///
/// # Errors
/// A chunk that reaches beyond the file.
fn exif_of_webp(bytes: &[u8]) -> Result<Option<&[u8]>, Unreadable> {
    let mut exif = None;
    let mut rest = bytes.get(12..).unwrap_or_default();
    while let Some((head, body)) = rest.split_first_chunk::<8>() {
        let [name @ .., a, b, c, d] = *head;
        let length = u32::from_le_bytes([a, b, c, d]) as usize;
        let Some(chunk) = body.get(..length) else {
            return Err(Unreadable::Broken("it ends inside a chunk".to_owned()));
        };
        if name == *b"EXIF" {
            exif = Some(chunk);
        }
        // Chunks are padded to an even length.
        rest = body.get(length + length % 2..).unwrap_or_default();
    }
    Ok(exif)
}
