//! Formats: one file each. A format writes any document and knows no report.

mod csv;
mod json;
mod markdown;

pub use csv::Csv;
pub use json::Json;
pub use markdown::Markdown;

use super::document::Document;

/// A way to write documents.
pub trait Format {
    /// The document as text in this format.
    fn write(&self, document: &Document) -> String;
}
