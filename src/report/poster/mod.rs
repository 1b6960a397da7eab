//! The poster: the whole wall as one printable sheet, for a department to pin up. Outfits in date order by period, each
//! with its picture or its flat; beneath, a lane for every look over the years that it stands for; the counter in the
//! corner.
//!
//! It is SVG in millimetres, without scripts and without anything from elsewhere, or the same as pixels; the same board
//! and pictures give the same bytes.
//!
//! | module | what it is |
//! |---|---|
//! | `sheet` | what stands where |
//! | `column` | the outfits of a period, and its head |
//! | `card` | one outfit |
//! | `lanes` | the looks over the years |
//! | `letters` | how wide words stand, and where they break |
//! | `write` | the pieces of SVG |
//! | `raster` | SVG to PNG |

mod card;
mod column;
mod lanes;
mod letters;
mod raster;
mod sheet;
mod write;

pub use raster::{DPI, Unprinted};

use super::figure::Figures;
use super::plain::Plain;
use crate::album::Album;
use crate::board::Board;
use sheet::Sheet;

/// The longest side of a picture on a card, in pixels: what 300 dots per inch make of 30 mm.
const LONGEST: u32 = 360;

/// What the sheet is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 420 × 297 mm.
    A3,
    /// 594 × 420 mm.
    A2,
    /// 594 mm high, and as long as it takes.
    Roll,
}

/// One sheet, laid out.
#[derive(Debug)]
pub struct Poster {
    title: String,
    wide: f64,
    high: f64,
    svg: String,
    gaps: Vec<Plain>,
}

impl Poster {
    /// The sheet of a board, with pictures where there is an album to find them in.
    pub fn of(board: &Board, album: Option<&Album>, paper: Paper) -> Self {
        let mut figures = Figures::of(board, album).within(LONGEST);
        let sheet = Sheet::of(board, paper, &mut figures);
        let gaps = figures.gaps();
        let svg = sheet.drawn(gaps.len());
        Self { title: board.head().title.clone(), wide: sheet.wide, high: sheet.high, svg, gaps }
    }

    /// As SVG.
    pub fn svg(&self) -> &str {
        &self.svg
    }

    /// As a page that prints on its paper.
    pub fn page(&self) -> String {
        format!(
            "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta http-equiv=\"Content-Security-Policy\" \
             content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'\"><title>{}: poster</title><style>@page {{ size: \
             {}mm {}mm; margin: 0; }} body {{ margin: 0; }} svg {{ display: block; }}</style></head><body>{}</body></html>\n",
            write::escaped(&self.title),
            write::short(self.wide),
            write::short(self.high),
            self.svg
        )
    }

    /// As PNG with so many dots per inch, which the file says.
    ///
    /// # Errors
    /// [`Unprinted`], where that would be more pixels than can be held.
    pub fn png(&self, dpi: u32) -> Result<Vec<u8>, Unprinted> {
        raster::png(&self.svg, (self.wide, self.high), dpi)
    }

    /// The pictures that could not be seen, and why.
    pub fn gaps(&self) -> &[Plain] {
        &self.gaps
    }
}

#[cfg(test)]
mod tests;
