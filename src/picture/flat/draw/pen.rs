//! The pen: the one drawing vocabulary. A body of cloth, a seam, a fold, a stitch, a button: each has one weight of
//! line, whatever the garment.

use super::cloth::{self, Cloth, INK, toward};
use crate::picture::flat::model::{Line, Path, Rgb, Shape};

const OUTLINE: f32 = 2.2;
const SEAM: f32 = 1.3;
const FINE: f32 = 0.9;
/// A narrow gap of paper parts a garment from what lies below it.
const GAP: f32 = 6.0;
const PAPER: Rgb = [255; 3];

/// Collects the shapes of garments, each with the place of its layer.
#[derive(Default)]
pub(super) struct Sheet {
    shapes: Vec<(i32, Shape)>,
}

impl Sheet {
    pub(super) fn pen(&mut self, layer: i32, cloth: Cloth) -> Pen<'_> {
        Pen { sheet: self, layer, cloth }
    }

    /// The shapes, the lowest layer first; within a layer, as they were drawn.
    pub(super) fn shapes(mut self) -> Vec<Shape> {
        self.shapes.sort_by_key(|(layer, _)| *layer);
        self.shapes.into_iter().map(|(_, shape)| shape).collect()
    }
}

/// Draws one garment.
pub(super) struct Pen<'a> {
    sheet: &'a mut Sheet,
    layer: i32,
    pub(super) cloth: Cloth,
}

impl Pen<'_> {
    /// The same garment in another cloth: a lining, a collar, a cuff.
    pub(super) fn with(&mut self, cloth: Cloth) -> Pen<'_> {
        Pen { sheet: self.sheet, layer: self.layer, cloth }
    }

    /// A closed piece of cloth with its outline, apart from what lies below.
    pub(super) fn body(&mut self, path: &Path) {
        self.put(path, None, Some((PAPER, GAP)));
        self.part(path);
    }

    /// A closed piece of cloth on the same garment: a collar, a pocket flap, a cuff.
    pub(super) fn part(&mut self, path: &Path) {
        self.cloth_in(path);
        self.put(path, None, Some((INK, OUTLINE)));
    }

    /// A closed piece of cloth sewn on: its edge is a seam.
    pub(super) fn patch(&mut self, path: &Path) {
        self.cloth_in(path);
        self.seam(path);
    }

    /// Cloth without any line.
    pub(super) fn cloth_in(&mut self, path: &Path) {
        self.put(path, Some(self.cloth.fill), None);
        let motifs = cloth::pattern(self.cloth, path);
        self.put(&motifs.blended, Some(toward(self.cloth.fill, self.cloth.second, 45)), None);
        self.put(&motifs.filled, Some(self.cloth.second), None);
        self.put(&motifs.fine, None, Some((self.cloth.surface(), FINE)));
    }

    /// The gap of paper along an open edge, then nothing: for edges that are drawn later.
    pub(super) fn gap(&mut self, path: &Path) {
        self.put(path, None, Some((PAPER, GAP)));
    }

    /// What shows of the garment's inside, behind everything that is worn.
    pub(super) fn inside(&mut self, path: &Path) {
        self.behind(path, self.cloth.inside());
    }

    /// Something behind everything that is worn.
    pub(super) fn behind(&mut self, path: &Path, colour: Rgb) {
        let layer = -self.layer;
        let line = Some(Line { colour: INK, width: SEAM, stitched: false });
        self.sheet.shapes.push((layer, Shape { path: path.clone(), fill: Some(colour), line }));
    }

    /// An edge of cloth.
    pub(super) fn edge(&mut self, path: &Path) {
        self.put(path, None, Some((INK, OUTLINE)));
    }

    /// A seam, a placket, a dart.
    pub(super) fn seam(&mut self, path: &Path) {
        self.put(path, None, Some((self.cloth.seam(), SEAM)));
    }

    /// A fold, a gather, a pleat's shade.
    pub(super) fn fold(&mut self, path: &Path) {
        self.put(path, None, Some((self.cloth.faint(), FINE)));
    }

    /// Stitching that shows.
    pub(super) fn stitch(&mut self, path: &Path) {
        let line = Line { colour: self.cloth.seam(), width: FINE, stitched: true };
        self.sheet.shapes.push((self.layer, Shape { path: path.clone(), fill: None, line: Some(line) }));
    }

    /// A band of the second colour across an outline, between two heights.
    pub(super) fn band(&mut self, outline: &Path, from: f32, to: f32) {
        let path = cloth::band(outline, from, to);
        let second = self.cloth.second;
        self.put(&path, Some(second), None);
    }

    /// A colour without a line.
    pub(super) fn fill(&mut self, path: &Path, colour: Rgb) {
        self.put(path, Some(colour), None);
    }

    /// A line in the second colour: braid, piping, binding.
    pub(super) fn trim(&mut self, path: &Path, width: f32) {
        let second = self.cloth.second;
        self.put(path, None, Some((second, width)));
    }

    /// A button.
    pub(super) fn button(&mut self, x: f32, y: f32, size: f32) {
        let colour =
            if self.cloth.has_second { self.cloth.second } else { toward(self.cloth.fill, PAPER, 25) };
        let line = Some(Line { colour: self.cloth.seam(), width: FINE, stitched: false });
        let shape = Shape { path: Path::ellipse(x, y, size, size), fill: Some(colour), line };
        self.sheet.shapes.push((self.layer, shape));
    }

    /// A small thing of metal or glass, in a colour of its own.
    pub(super) fn bead(&mut self, path: &Path, colour: Rgb) {
        let line = Some(Line { colour: INK, width: SEAM, stitched: false });
        self.sheet.shapes.push((self.layer, Shape { path: path.clone(), fill: Some(colour), line }));
    }

    fn put(&mut self, path: &Path, fill: Option<Rgb>, line: Option<(Rgb, f32)>) {
        if path.steps().is_empty() {
            return;
        }
        let line = line.map(|(colour, width)| Line { colour, width, stitched: false });
        self.sheet.shapes.push((self.layer, Shape { path: path.clone(), fill, line }));
    }
}
