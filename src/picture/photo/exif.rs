//! The few Exif tags that are read, from a TIFF structure that lies in a JPEG, PNG or WebP, or that is a whole TIFF file.
//!
//! Exif 2.32 (JEITA CP-3451 / CIPA DC-008): a header that tells the order of bytes, then a directory of twelve-byte
//! entries; one of them points to a second directory, where the rest stands. Nothing is copied and nothing is followed
//! beyond these two, so that a hostile file costs nothing. Where it is damaged, the tags that it reaches are not told.

/// The tag of the orientation.
const ORIENTATION: u16 = 0x0112;
/// The tag of where the Exif directory is.
const DIRECTORY: u16 = 0x8769;
/// The tag of when the picture was taken.
const TAKEN: u16 = 0x9003;
/// The tag of when it was made digital.
const DIGITISED: u16 = 0x9004;
/// The tag of what kind of device it comes from.
const SOURCE: u16 = 0xa300;

/// What is read of Exif.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Exif<'a> {
    /// 1 to 8, if it is that.
    pub(super) orientation: Option<u8>,
    /// `1926:08:14 12:00:00`, as it stands.
    pub(super) taken: Option<&'a [u8]>,
    /// The same, of when it was made digital.
    pub(super) digitised: Option<&'a [u8]>,
    /// 1 and 2 are scanners, 3 is a camera.
    pub(super) source: Option<u8>,
}

/// Reads what there is.
pub(super) fn read(bytes: &[u8]) -> Exif<'_> {
    // Some writers put the prefix of the JPEG segment before it in other formats, too.
    let bytes = bytes.strip_prefix(b"Exif\0\0").unwrap_or(bytes);
    let Some(tiff) = Tiff::of(bytes) else { return Exif::default() };
    let Some(first) = tiff.u32(4) else { return Exif::default() };
    let mut exif = Exif {
        orientation: tiff
            .entry(first, ORIENTATION)
            .and_then(|entry| tiff.short(entry))
            .and_then(|value| u8::try_from(value).ok())
            .filter(|value| (1..=8).contains(value)),
        ..Exif::default()
    };
    let second = tiff.entry(first, DIRECTORY).and_then(|entry| tiff.u32(entry + 8));
    if let Some(second) = second {
        exif.taken = tiff.entry(second, TAKEN).and_then(|entry| tiff.text(entry));
        exif.digitised = tiff.entry(second, DIGITISED).and_then(|entry| tiff.text(entry));
        exif.source = tiff.entry(second, SOURCE).and_then(|entry| bytes.get(entry + 8)).copied();
    }
    exif
}

struct Tiff<'a> {
    bytes: &'a [u8],
    big: bool,
}

impl<'a> Tiff<'a> {
    fn of(bytes: &'a [u8]) -> Option<Self> {
        match bytes.get(..4)? {
            b"II*\0" => Some(Self { bytes, big: false }),
            b"MM\0*" => Some(Self { bytes, big: true }),
            _ => None,
        }
    }

    fn u16(&self, at: usize) -> Option<u16> {
        let two = <[u8; 2]>::try_from(self.bytes.get(at..at.checked_add(2)?)?).ok()?;
        Some(if self.big { u16::from_be_bytes(two) } else { u16::from_le_bytes(two) })
    }

    fn u32(&self, at: usize) -> Option<u32> {
        let four = <[u8; 4]>::try_from(self.bytes.get(at..at.checked_add(4)?)?).ok()?;
        Some(if self.big { u32::from_be_bytes(four) } else { u32::from_le_bytes(four) })
    }

    /// Where the entry of a tag starts in the directory at `directory`.
    fn entry(&self, directory: u32, tag: u16) -> Option<usize> {
        let directory = usize::try_from(directory).ok()?;
        let entries = usize::from(self.u16(directory)?);
        (0..entries)
            .map_while(|at| directory.checked_add(2 + at * 12))
            .find(|&entry| self.u16(entry) == Some(tag))
    }

    /// One number of 16 bits (type 3).
    fn short(&self, entry: usize) -> Option<u16> {
        (self.u16(entry + 2)? == 3 && self.u32(entry + 4)? == 1).then(|| self.u16(entry + 8)).flatten()
    }

    /// A text (type 2) that does not fit into its entry.
    fn text(&self, entry: usize) -> Option<&'a [u8]> {
        let length = usize::try_from(self.u32(entry + 4)?).ok()?;
        if self.u16(entry + 2)? != 2 || length <= 4 {
            return None;
        }
        let start = usize::try_from(self.u32(entry + 8)?).ok()?;
        self.bytes.get(start..start.checked_add(length)?)
    }
}
