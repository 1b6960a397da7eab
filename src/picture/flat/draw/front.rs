//! How a garment closes in front: an edge, and what holds it.

use super::pen::Pen;
use crate::picture::flat::model::{Path, Rgb};
use crate::picture::flat::read::Closure;

const BRASS: Rgb = [0xc9, 0xa2, 0x4e];

/// A front between two heights.
#[derive(Clone, Copy, Debug)]
pub(super) struct Front {
    pub(super) top: f32,
    pub(super) bottom: f32,
    /// The last fastening sits no lower.
    pub(super) last: f32,
    pub(super) count: u8,
    pub(super) size: f32,
}

impl Front {
    fn places(self) -> impl Iterator<Item = f32> {
        let gaps = f32::from(self.count.max(2) - 1);
        let step = (self.last - self.top) / gaps;
        (0..self.count)
            .map(move |at| if self.count == 1 { self.top } else { self.top + step * f32::from(at) })
    }
}

/// Draws it on the body.
pub(super) fn draw(pen: &mut Pen<'_>, closure: Closure, front: Front) {
    let edge = |x: f32| Path::lines(&[(x, front.top - 8.0), (x, front.bottom)]);
    match closure {
        Closure::None | Closure::Wrap => {}
        Closure::Buttons => {
            pen.seam(&edge(7.0));
            front.places().for_each(|y| pen.button(0.0, y, front.size));
        }
        Closure::DoubleBreasted => {
            pen.seam(
                &Path::at(0.0, front.top - 10.0)
                    .bend((22.0, front.top - 14.0), (25.0, front.top + 4.0))
                    .line(25.0, front.bottom),
            );
            for y in front.places() {
                pen.button(-17.0, y, front.size);
                pen.button(17.0, y, front.size);
            }
        }
        Closure::Zip => {
            pen.seam(&edge(-3.0));
            pen.seam(&edge(3.0));
            pen.stitch(&edge(0.0));
            pen.bead(&Path::ellipse(0.0, front.top + 4.0, 3.0, 5.0), [0xb8; 3]);
        }
        Closure::Lacing => {
            for y in front.places() {
                pen.seam(&Path::lines(&[(-8.0, y), (8.0, y + 10.0)]));
                pen.seam(&Path::lines(&[(8.0, y), (-8.0, y + 10.0)]));
            }
        }
        Closure::Toggles => {
            pen.seam(&edge(8.0));
            for y in front.places() {
                pen.seam(&Path::at(-24.0, y - 3.0).line(2.0, y).line(-24.0, y + 3.0));
                pen.seam(&Path::at(24.0, y - 3.0).line(-2.0, y).line(24.0, y + 3.0));
                let wood = Path::at(-10.0, y)
                    .bend((0.0, y - 8.0), (10.0, y))
                    .bend((0.0, y + 8.0), (-10.0, y))
                    .close();
                pen.bead(&wood, [0xc9, 0xa8, 0x78]);
            }
        }
        Closure::Clips => {
            pen.seam(&edge(18.0));
            pen.stitch(&edge(-14.0));
            for y in front.places() {
                pen.bead(
                    &Path::lines(&[(-8.0, y - 4.0), (22.0, y - 4.0), (22.0, y + 4.0), (-8.0, y + 4.0)])
                        .close(),
                    BRASS,
                );
                pen.seam(&Path::lines(&[(8.0, y - 4.0), (8.0, y + 4.0)]));
            }
        }
        Closure::Frogs => {
            pen.seam(&edge(0.0));
            for y in front.places() {
                pen.trim(&Path::lines(&[(-44.0, y - 3.0), (44.0, y - 3.0)]), 3.4);
                for side in [-1.0, 1.0] {
                    pen.trim(&Path::ellipse(side * 46.0, y - 3.0, 5.0, 6.0), 2.6);
                    pen.trim(&Path::ellipse(side * 20.0, y - 3.0, 5.0, 6.0), 2.6);
                }
                pen.bead(&Path::ellipse(0.0, y - 3.0, 4.5, 4.5), BRASS);
            }
        }
        Closure::Edge => pen.seam(&edge(0.0)),
    }
}

/// The edge of a front that is wrapped over the other, from the neck to the waist's side and on down.
pub(super) fn wrapped(pen: &mut Pen<'_>, neck: f32, tie: (f32, f32), hem: (f32, f32)) {
    pen.edge(&Path::at(0.0, neck).bend((tie.0 * 0.55, tie.1 - 24.0), tie));
    pen.seam(&Path::at(tie.0, tie.1).bend((tie.0 + 2.0, (tie.1 + hem.1) / 2.0), hem));
}
