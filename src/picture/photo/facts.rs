//! What a file says of itself. It may be wrong: a camera's clock, a scanner's day.

use std::fmt;

use image::ImageFormat;

use super::exif::Exif;
use super::{Unreadable, open};
use crate::trade::date::Day;

/// What kind of file it is, by its content.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// JPEG.
    Jpeg,
    /// PNG.
    Png,
    /// TIFF.
    Tiff,
    /// WebP.
    WebP,
    /// GIF; its first frame is shown.
    Gif,
    /// BMP.
    Bmp,
}

impl Kind {
    pub(super) fn of(bytes: &[u8]) -> Option<Self> {
        match image::guess_format(bytes).ok()? {
            ImageFormat::Jpeg => Some(Self::Jpeg),
            ImageFormat::Png => Some(Self::Png),
            ImageFormat::Tiff => Some(Self::Tiff),
            ImageFormat::WebP => Some(Self::WebP),
            ImageFormat::Gif => Some(Self::Gif),
            ImageFormat::Bmp => Some(Self::Bmp),
            _ => None,
        }
    }

    pub(super) fn format(self) -> ImageFormat {
        match self {
            Self::Jpeg => ImageFormat::Jpeg,
            Self::Png => ImageFormat::Png,
            Self::Tiff => ImageFormat::Tiff,
            Self::WebP => ImageFormat::WebP,
            Self::Gif => ImageFormat::Gif,
            Self::Bmp => ImageFormat::Bmp,
        }
    }
}

/// As people write it: `JPEG`.
impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Jpeg => "JPEG",
            Self::Png => "PNG",
            Self::Tiff => "TIFF",
            Self::WebP => "WebP",
            Self::Gif => "GIF",
            Self::Bmp => "BMP",
        })
    }
}

/// What made the picture, if it says so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TakenBy {
    /// A digital camera: the day is that of the event.
    Camera,
    /// A scanner: the day is that of the scan, and says nothing of what is seen.
    Scanner,
    /// It does not say.
    Unsaid,
}

/// When the picture was taken, as the device wrote it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Taken {
    /// The day on the device's own clock.
    pub day: Day,
    /// By what.
    pub by: TakenBy,
}

/// What a picture says of itself before it is decoded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Facts {
    /// What kind of file it is, by its content.
    pub kind: Kind,
    /// Pixels in a row, as it stands upright.
    pub width: u32,
    /// Rows, as it stands upright.
    pub height: u32,
    /// When it was taken (Exif `DateTimeOriginal`), else when it was made digital (`DateTimeDigitized`).
    pub taken: Option<Taken>,
}

/// What a picture says of itself; nothing is decoded for it. Damaged Exif leaves [`Facts::taken`] out.
///
/// # Errors
/// [`Unreadable`].
pub fn facts(bytes: &[u8]) -> Result<Facts, Unreadable> {
    let opened = open::opened(bytes)?;
    let (width, height) = opened.upright(opened.size);
    Ok(Facts { kind: opened.kind, width, height, taken: taken(&opened.exif()) })
}

/// Exif 2.32, tags 0x9003, 0x9004 and 0xA300 (FileSource: 1 and 2 are scanners, 3 is a digital still camera).
fn taken(exif: &Exif) -> Option<Taken> {
    let by = match exif.source {
        Some(1 | 2) => TakenBy::Scanner,
        Some(3) => TakenBy::Camera,
        _ => TakenBy::Unsaid,
    };
    [exif.taken, exif.digitised].into_iter().flatten().find_map(day).map(|day| Taken { day, by })
}

/// The day of `1926:08:14 12:00:00`. An unset clock writes zeros or blanks, which are no day.
fn day(text: &[u8]) -> Option<Day> {
    let text = std::str::from_utf8(text.get(..10)?).ok()?;
    let mut parts = text.split([':', '-']);
    let mut number = |digits: usize| {
        parts
            .next()
            .filter(|part| part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit()))
            .and_then(|part| part.parse::<u16>().ok())
    };
    let (year, month, day) = (number(4)?, number(2)?, number(2)?);
    if year == 0 {
        return None;
    }
    Day::from_ymd(i64::from(year), u8::try_from(month).ok()?, u8::try_from(day).ok()?)
}
