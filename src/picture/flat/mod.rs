//! A flat: a technical drawing of an outfit or a look, front view, made from the words of its record.
//!
//! Three steps, each of which knows only the one before it. [`read`] turns the record's words into typed garments;
//! words that it does not know change nothing. `draw` lays these garments on one figure frame, in one drawing
//! vocabulary for all garments and decades, and leaves a [`model::Drawing`]: plain paths, fills and lines. `svg` and
//! `raster` write that out. The same record gives the same bytes.
//!
//! A flat is no evidence. It shows what the record says and, where the record is silent, what is usual for such a
//! garment (common practice, no source); whoever shows one says [`DRAWN`] beside it.

mod draw;
pub mod model;
mod raster;
pub mod read;
mod svg;

use super::pixels::Pixels;
use crate::board::garment::Piece;
use crate::board::look::Look;
use crate::board::outfit::Outfit;
use model::Drawing;

/// What must stand wherever a flat is shown.
pub const DRAWN: &str = "drawn from the record";

/// A drawing of the garments that a record names.
#[derive(Clone, Debug, PartialEq)]
pub struct Flat {
    drawing: Drawing,
}

impl Flat {
    /// The flat of pieces with the outline that the record gives them; `None` where no piece is of a kind that can be
    /// drawn: then its swatches say more.
    pub fn of(pieces: &[Piece], silhouette: &str) -> Option<Self> {
        let garments = read::garments(pieces, silhouette);
        let drawing = draw::drawing(&garments);
        (!drawing.shapes().is_empty()).then_some(Self { drawing })
    }

    /// The flat of an outfit.
    pub fn of_outfit(outfit: &Outfit) -> Option<Self> {
        Self::of(&outfit.pieces, &outfit.silhouette)
    }

    /// The flat of a look; its outline is that of the outfit that it is made after.
    pub fn of_look(look: &Look, base: Option<&Outfit>) -> Option<Self> {
        Self::of(&look.pieces, base.map_or("", |base| &base.silhouette))
    }

    /// The paths, fills and lines.
    pub fn drawing(&self) -> &Drawing {
        &self.drawing
    }

    /// As an SVG element that stands alone or in a page: no script, no reference, no identifier.
    pub fn svg(&self) -> String {
        svg::write(&self.drawing)
    }

    /// As pixels of this size, the drawing as large as fits and in the middle; `None` for a size of nothing, or of
    /// more than [`Pixels::MOST`] on a side.
    pub fn pixels(&self, width: u32, height: u32, paper: Option<[u8; 3]>) -> Option<Pixels> {
        raster::pixels(&self.drawing, width, height, paper)
    }
}

#[cfg(test)]
mod tests;
