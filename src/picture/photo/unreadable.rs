//! Why a picture file cannot be shown, in words for the person before it.

use image::ImageError;

use super::{MOST_BYTES, MOST_MEMORY, MOST_PIXELS};

/// Why bytes do not become pixels.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// There is nothing in it.
    #[error("the file is empty")]
    Empty,
    /// It is none of the formats that are read.
    #[error("this is no picture that can be read: expected JPEG, PNG, TIFF, WebP, GIF or BMP")]
    Foreign,
    /// It is one of the formats, in a variety that is not read.
    #[error("this variety of {kind} is not read ({what}); save it as an ordinary JPEG or PNG")]
    Variety {
        /// The format.
        kind: super::Kind,
        /// What about it.
        what: String,
    },
    /// The file itself is too large.
    #[error("the file is larger than {} MB, the most that is read", MOST_BYTES / 1_000_000)]
    TooLarge,
    /// It would take too much memory and time.
    #[error(
        "{width} × {height} pixels are more than are read ({} million); save it smaller", MOST_PIXELS / 1_000_000
    )]
    TooManyPixels {
        /// Pixels in a row.
        width: u32,
        /// Rows.
        height: u32,
    },
    /// Its pixels are few enough, but what it takes to decode them is not.
    #[error(
        "to decode it takes more than {} MB; save it smaller, with 8 bits a channel, and not progressive",
        MOST_MEMORY >> 20
    )]
    TooMuchMemory,
    /// It is cut off or damaged.
    #[error("the file is damaged or cut off: {0}")]
    Broken(String),
}

impl Unreadable {
    /// What a library refused.
    pub(super) fn of(kind: super::Kind, error: &ImageError) -> Self {
        match error {
            ImageError::Limits(_) => Self::TooMuchMemory,
            ImageError::Unsupported(what) => Self::Variety { kind, what: what.to_string() },
            broken => Self::Broken(broken.to_string()),
        }
    }
}
