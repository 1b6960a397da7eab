//! Formats: one file each. A format writes any document and knows no report.

pub(super) mod csv;
mod html;
mod json;
mod markdown;
mod xlsx;

pub use csv::Csv;
pub use html::Html;
pub use json::Json;
pub use markdown::Markdown;
pub use xlsx::Xlsx;

use super::document::Document;

/// Why a document cannot be written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the report cannot be written: {0}")]
pub struct Unwritten(String);

/// A way to write documents.
pub trait Format {
    /// The document in this format.
    ///
    /// # Errors
    /// When the format has no room for it, such as a sheet for more than a million rows.
    fn bytes(&self, document: &Document) -> Result<Vec<u8>, Unwritten>;

    /// Whether it has the figures of a document; for one that has not, no picture need be looked for.
    fn shows_figures(&self) -> bool;
}

/// A format that is text, and has room for everything.
pub trait Text {
    /// Whether it has the figures of a document.
    const SHOWS_FIGURES: bool = false;

    /// The document as text in this format.
    fn write(&self, document: &Document) -> String;
}

impl<T: Text> Format for T {
    fn bytes(&self, document: &Document) -> Result<Vec<u8>, Unwritten> {
        Ok(self.write(document).into_bytes())
    }

    fn shows_figures(&self) -> bool {
        T::SHOWS_FIGURES
    }
}
