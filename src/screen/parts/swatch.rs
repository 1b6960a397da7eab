//! The two main colours of a garment, a cell each.

use crate::board::{Piece, garment};
use crate::screen::canvas::Canvas;
use crate::trade::colour::Colour;

/// How many cells it takes.
pub const WIDTH: u16 = 2;

/// Draws the main and the second colour of `pieces`, no further than `right`. Returns the column behind.
pub fn draw(canvas: &mut Canvas<'_>, x: u16, y: u16, right: u16, pieces: &[Piece]) -> u16 {
    let (main, second) = garment::swatches(pieces);
    cells(canvas, x, y, right, [main, second])
}

/// Draws a cell for each colour, no further than `right`. Returns the column behind.
pub fn cells<const N: usize>(
    canvas: &mut Canvas<'_>,
    x: u16,
    y: u16,
    right: u16,
    colours: [Option<&Colour>; N],
) -> u16 {
    let spans = colours.map(|colour| (canvas.theme.cloth_glyph(colour), canvas.theme.cloth(colour)));
    canvas.spans(x, y, right, &spans)
}
