//! Why a picture file cannot be shown, in words for the person before it.

/// Why bytes do not become pixels.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// There is nothing in it.
    #[error("the file is empty")]
    Empty,
    /// It is none of the formats that are read.
    #[error("this is no picture that can be read: expected JPEG, PNG, TIFF, WebP, GIF or BMP")]
    Foreign,
    /// It would take too much memory and time.
    #[error("{width} × {height} pixels are more than are read ({most} million)")]
    TooManyPixels {
        /// Pixels in a row.
        width: u32,
        /// Rows.
        height: u32,
        /// The most that are read, in millions.
        most: u64,
    },
    /// It is cut off or damaged.
    #[error("the file is damaged or cut off: {0}")]
    Broken(String),
}
