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

#[cfg(test)]
mod tests {
    use exif::{Field, In, Tag, Value};
    use image::ImageFormat;

    use super::*;
    use crate::picture::photo::sample;

    fn text(tag: Tag, text: &str) -> Field {
        Field { tag, ifd_num: In::PRIMARY, value: Value::Ascii(vec![text.as_bytes().to_vec()]) }
    }

    fn source(value: u8) -> Field {
        Field { tag: Tag::FileSource, ifd_num: In::PRIMARY, value: Value::Undefined(vec![value], 0) }
    }

    /// Written by the crate `kamadak-exif`.
    fn taken(fields: &[Field]) -> Option<Taken> {
        let jpeg = sample::jpeg(&sample::picture(30, 20), 80);
        let read = |little| facts(&sample::with_exif(&jpeg, &sample::exif(fields, little))).unwrap().taken;
        assert_eq!(read(true), read(false));
        read(true)
    }

    fn on(year: i64, month: u8, day: u8) -> Day {
        Day::from_ymd(year, month, day).unwrap()
    }

    #[test]
    fn the_kind_is_told_by_content_and_the_size_upright() {
        for (format, kind) in [
            (ImageFormat::Jpeg, Kind::Jpeg),
            (ImageFormat::Png, Kind::Png),
            (ImageFormat::Tiff, Kind::Tiff),
            (ImageFormat::WebP, Kind::WebP),
            (ImageFormat::Gif, Kind::Gif),
            (ImageFormat::Bmp, Kind::Bmp),
        ] {
            let found = facts(&sample::file(&sample::picture(60, 40), format)).unwrap();
            assert_eq!(found, Facts { kind, width: 60, height: 40, taken: None });
        }
        let lying = Field { tag: Tag::Orientation, ifd_num: In::PRIMARY, value: Value::Short(vec![6]) };
        let file =
            sample::with_exif(&sample::jpeg(&sample::picture(60, 40), 80), &sample::exif(&[lying], true));
        let found = facts(&file).unwrap();
        assert_eq!((found.width, found.height), (40, 60));
    }

    #[test]
    fn when_it_was_taken_goes_before_when_it_was_made_digital() {
        let (original, digitised) = (
            text(Tag::DateTimeOriginal, "1987:08:14 12:30:00"),
            text(Tag::DateTimeDigitized, "2011:02:03 09:00:00"),
        );
        let both = taken(&[digitised.clone(), original]);
        assert_eq!(both, Some(Taken { day: on(1987, 8, 14), by: TakenBy::Unsaid }));
        assert_eq!(taken(&[digitised]), Some(Taken { day: on(2011, 2, 3), by: TakenBy::Unsaid }));
    }

    #[test]
    fn a_scanner_and_a_camera_are_told_apart_where_they_say_so() {
        for (value, by) in
            [(1, TakenBy::Scanner), (2, TakenBy::Scanner), (3, TakenBy::Camera), (9, TakenBy::Unsaid)]
        {
            let found = taken(&[text(Tag::DateTimeOriginal, "2011:02:03 09:00:00"), source(value)]);
            assert_eq!(found, Some(Taken { day: on(2011, 2, 3), by }));
        }
    }

    #[test]
    fn a_clock_that_was_never_set_and_a_day_that_is_none_say_nothing() {
        for none in [
            "0000:00:00 00:00:00",
            "    :  :     :  :  ",
            "2011:02:30 00:00:00",
            "2011:13:01 00:00:00",
            "yesterday evening at",
            "2011:+2:01 00:00:00",
            "11",
        ] {
            assert_eq!(taken(&[text(Tag::DateTimeOriginal, none)]), None, "{none}");
        }
        let next = [
            text(Tag::DateTimeOriginal, "0000:00:00 00:00:00"),
            text(Tag::DateTimeDigitized, "2011:02:03 09:00:00"),
        ];
        assert!(taken(&next).is_some());
    }
}
