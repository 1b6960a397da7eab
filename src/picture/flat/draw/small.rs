//! Belts, cords, scarves, gloves, glasses and other small things, each in its place on the figure.

use super::figure::{EYES, HIP};
use super::pen::Pen;
use super::sleeve;
use crate::picture::flat::model::{Path, Point, Rgb};
use crate::picture::flat::read::{Garment, Kind, Mark};

const METAL: Rgb = [0xc4, 0xc4, 0xc8];

/// A belt, a cord or a sash round a waist at this height and of this half width.
pub(super) fn girdle(pen: &mut Pen<'_>, garment: &Garment, (y, wide): (f32, f32)) {
    match garment.kind {
        Kind::Cord => cord(pen, y, wide),
        Kind::Sash => sash(pen, garment, y, wide),
        _ => {
            pen.body(
                &Path::at(-wide, y - 8.0)
                    .bend((0.0, y - 4.0), (wide, y - 8.0))
                    .line(wide, y + 6.0)
                    .bend((0.0, y + 10.0), (-wide, y + 6.0))
                    .close(),
            );
            pen.bead(
                &Path::lines(&[(-12.0, y - 9.0), (10.0, y - 9.0), (10.0, y + 11.0), (-12.0, y + 11.0)])
                    .close(),
                METAL,
            );
            pen.seam(&Path::lines(&[(-8.0, y + 1.0), (10.0, y + 1.0)]));
        }
    }
}

/// Three turns, a knot at the left hip, and an end with a watch where a second colour says metal.
fn cord(pen: &mut Pen<'_>, y: f32, wide: f32) {
    for turn in [-6.0, 0.0, 6.0] {
        let rope = Path::at(-wide, y + turn - 2.5)
            .bend((0.0, y + turn + 3.0), (wide, y + turn - 2.5))
            .line(wide, y + turn + 2.5)
            .bend((0.0, y + turn + 8.0), (-wide, y + turn + 2.5))
            .close();
        pen.patch(&rope);
    }
    pen.part(
        &Path::at(42.0, y + 6.0)
            .curve((34.0, y + 40.0), (52.0, y + 50.0), (46.0, y + 78.0))
            .line(51.0, y + 78.0)
            .curve((58.0, y + 50.0), (42.0, y + 40.0), (48.0, y + 6.0))
            .close(),
    );
    pen.part(&Path::ellipse(44.0, y + 3.0, 9.0, 8.0));
    if pen.cloth.has_second {
        pen.bead(&Path::ellipse(48.0, y + 90.0, 11.0, 11.0), METAL);
        pen.bead(&Path::ellipse(48.0, y + 90.0, 7.5, 7.5), [0xf4, 0xf2, 0xea]);
    }
}

fn sash(pen: &mut Pen<'_>, garment: &Garment, y: f32, wide: f32) {
    if garment.has(Mark::Fringe) {
        let band =
            Path::lines(&[(-62.0, 184.0), (-36.0, 176.0), (66.0, HIP - 20.0), (46.0, HIP - 2.0)]).close();
        pen.body(&band);
        pen.trim(&Path::lines(&[(-54.0, 182.0), (54.0, HIP - 10.0)]), 3.0);
        pen.trim(&Path::lines(&[(-44.0, 179.0), (62.0, HIP - 16.0)]), 3.0);
        for at in 0..6_u8 {
            let share = f32::from(at) / 5.0;
            pen.seam(&Path::lines(&[
                (46.0 + 20.0 * share, HIP - 2.0 - 18.0 * share),
                (50.0 + 20.0 * share, HIP + 14.0 - 18.0 * share),
            ]));
        }
        return;
    }
    pen.body(
        &Path::at(-wide, y - 12.0)
            .bend((0.0, y - 6.0), (wide, y - 12.0))
            .line(wide + 2.0, y + 10.0)
            .bend((0.0, y + 16.0), (-wide - 2.0, y + 10.0))
            .close(),
    );
    pen.fold(&Path::at(-wide, y - 4.0).bend((0.0, y + 2.0), (wide - 4.0, y - 4.0)));
    pen.part(
        &Path::at(38.0, y + 4.0)
            .curve((34.0, y + 40.0), (40.0, y + 70.0), (34.0, y + 104.0))
            .line(54.0, y + 100.0)
            .curve((56.0, y + 60.0), (54.0, y + 30.0), (50.0, y + 4.0))
            .close(),
    );
    pen.part(&Path::ellipse(44.0, y + 2.0, 10.0, 11.0));
}

/// Round the neck, one end hanging.
pub(super) fn scarf(pen: &mut Pen<'_>, garment: &Garment) {
    let long = if garment.heavy { 318.0 } else { 286.0 };
    let tail = Path::at(2.0, 196.0)
        .curve((-2.0, 230.0), (2.0, 260.0), (-2.0, long))
        .line(26.0, long + 2.0)
        .curve((28.0, 260.0), (26.0, 230.0), (22.0, 198.0))
        .close();
    pen.body(&tail);
    if garment.heavy {
        for x in [0.0, 6.0, 12.0, 18.0, 24.0] {
            pen.seam(&Path::lines(&[(x, long + 2.0), (x, long + 12.0)]));
        }
    }
    pen.body(
        &Path::at(0.0, 166.0)
            .curve((20.0, 166.0), (34.0, 158.0), (38.0, 164.0))
            .curve((46.0, 184.0), (30.0, 206.0), (0.0, 208.0))
            .both_halves(),
    );
    for dy in [0.0, 10.0, 19.0] {
        pen.fold(&Path::at(-36.0, 172.0 + dy * 0.6).curve(
            (-20.0, 184.0 + dy),
            (20.0, 184.0 + dy),
            (36.0, 172.0 + dy * 0.6),
        ));
    }
    pen.part(&Path::ellipse(12.0, 200.0, 12.0, 10.0));
}

/// A long tie.
pub(super) fn tie(pen: &mut Pen<'_>) {
    pen.body(&Path::lines(&[(0.0, 204.0), (6.0, 206.0), (13.0, 316.0), (0.0, 332.0)]).both_halves());
    pen.part(&Path::lines(&[(0.0, 190.0), (8.0, 191.0), (5.0, 207.0), (0.0, 207.0)]).both_halves());
}

/// A bow tie.
pub(super) fn bow_tie(pen: &mut Pen<'_>) {
    pen.body(&Path::lines(&[(0.0, 193.0), (26.0, 184.0), (26.0, 208.0), (0.0, 199.0)]).both_halves());
    pen.part(&Path::ellipse(0.0, 196.0, 5.0, 6.0));
}

/// A separate collar.
pub(super) fn collar(pen: &mut Pen<'_>, garment: &Garment) {
    if garment.collar == Some(crate::picture::flat::read::Collar::Ruff) {
        pen.body(&Path::ellipse(0.0, 180.0, 52.0, 16.0));
        return;
    }
    pen.body(
        &Path::at(0.0, 196.0)
            .line(16.0, 216.0)
            .bend((36.0, 196.0), (30.0, 168.0))
            .line(22.0, 160.0)
            .bend((20.0, 184.0), (0.0, 196.0))
            .both_halves(),
    );
    pen.seam(&Path::lines(&[(0.0, 196.0), (0.0, 190.0)]));
}

/// Goggles or glasses.
pub(super) fn eyes(pen: &mut Pen<'_>, garment: &Garment) {
    let goggles = garment.kind == Kind::Goggles;
    let (x, wide, high) = if goggles { (16.0, 14.0, 12.0) } else { (14.0, 10.5, 9.0) };
    let (y, glass) = (EYES + 4.0, if goggles { [0xb9, 0xcc, 0xd2] } else { [0xf2, 0xf5, 0xf6] });
    if goggles {
        pen.body(&Path::lines(&[(27.0, y - 5.0), (37.0, y - 4.0), (37.0, y + 4.0), (27.0, y + 5.0)]).close());
        pen.body(
            &Path::lines(&[(-27.0, y - 5.0), (-37.0, y - 4.0), (-37.0, y + 4.0), (-27.0, y + 5.0)]).close(),
        );
    } else {
        pen.edge(&Path::lines(&[(24.0, y - 3.0), (36.0, y - 6.0)]).twice());
    }
    pen.edge(&Path::at(-6.0, y - 1.0).bend((0.0, y - 6.0), (6.0, y - 1.0)));
    for side in [-x, x] {
        pen.body(&Path::ellipse(side, y, wide, high));
        pen.bead(&Path::ellipse(side, y, wide - 3.0, high - 3.0), glass);
    }
}

/// A string of beads.
pub(super) fn beads(pen: &mut Pen<'_>) {
    let string = [(26.0, 176.0), (25.0, 190.0), (22.5, 204.0), (18.0, 217.0), (12.0, 228.0), (4.5, 234.0)];
    for (x, y) in string {
        pen.button(x, y, 4.0);
        pen.button(-x, y, 4.0);
    }
}

/// Something pinned on the left breast.
pub(super) fn brooch(pen: &mut Pen<'_>) {
    let second = pen.cloth.second;
    for (dx, dy) in [(-7.0, 0.0), (7.0, 0.0), (0.0, -7.0), (0.0, 7.0)] {
        pen.part(&Path::ellipse(38.0 + dx, 232.0 + dy, 6.0, 6.0));
    }
    pen.bead(&Path::ellipse(38.0, 232.0, 4.0, 4.0), second);
}

/// Round the left upper arm.
pub(super) fn armband(pen: &mut Pen<'_>) {
    pen.body(
        &Path::at(74.0, 282.0)
            .bend((94.0, 280.0), (116.0, 270.0))
            .line(123.0, 298.0)
            .bend((100.0, 308.0), (78.0, 310.0))
            .close(),
    );
    pen.trim(
        &Path::lines(&[(90.0, 286.0), (92.0, 300.0), (97.0, 290.0), (104.0, 297.0), (105.0, 282.0)]),
        2.6,
    );
}

/// A bag on a strap.
pub(super) fn bag(pen: &mut Pen<'_>) {
    pen.edge(&Path::at(-30.0, 176.0).bend((30.0, 280.0), (60.0, HIP - 20.0)));
    pen.body(
        &Path::lines(&[(40.0, HIP - 22.0), (94.0, HIP - 22.0), (96.0, HIP + 34.0), (38.0, HIP + 34.0)])
            .close(),
    );
    pen.patch(
        &Path::lines(&[(40.0, HIP - 22.0), (94.0, HIP - 22.0), (92.0, HIP + 4.0), (42.0, HIP + 4.0)]).close(),
    );
    pen.bead(&Path::ellipse(67.0, HIP + 4.0, 4.0, 4.0), METAL);
}

/// A measuring tape round the neck.
pub(super) fn tape(pen: &mut Pen<'_>) {
    let fall = Path::at(26.0, 168.0)
        .curve((38.0, 220.0), (30.0, 280.0), (32.0, 336.0))
        .line(41.0, 336.0)
        .curve((40.0, 280.0), (48.0, 220.0), (36.0, 170.0))
        .close();
    pen.body(&fall.mirrored());
    pen.body(&fall);
    for at in 0..12_u8 {
        let y = 196.0 + f32::from(at) * 11.5;
        pen.seam(&Path::lines(&[(36.0, y), (40.0, y)]).twice());
    }
}

/// A pair of gloves, at the end of the arms.
pub(super) fn gloves(pen: &mut Pen<'_>, garment: &Garment) {
    let ((x, y), _) = sleeve::hand();
    let up: Point = if garment.has(Mark::LongGlove) { (104.0, 312.0) } else { (x - 8.0, y - 26.0) };
    let wide = if garment.kind == Kind::Gauntlets { 24.0 } else { 14.0 };
    let hand = Path::at(up.0 - wide, up.1 + 4.0)
        .line(x - 11.0, y)
        .curve((x - 18.0, y + 14.0), (x - 18.0, y + 26.0), (x - 12.0, y + 32.0))
        .line(x - 7.0, y + 22.0)
        .curve((x - 6.0, y + 44.0), (x, y + 58.0), (x + 6.0, y + 60.0))
        .curve((x + 22.0, y + 58.0), (x + 22.0, y + 26.0), (x + 12.0, y - 2.0))
        .line(up.0 + wide, up.1 - 4.0)
        .close();
    pen.body(&hand.mirrored());
    pen.body(&hand);
    for dx in [2.0, 8.0, 14.0] {
        pen.seam(&Path::lines(&[(x + dx - 3.0, y + 32.0), (x + dx, y + 56.0)]).twice());
    }
    if garment.kind == Kind::Gauntlets {
        pen.seam(&Path::lines(&[(x - 12.0, y - 2.0), (x + 12.0, y - 5.0)]).twice());
    }
}
