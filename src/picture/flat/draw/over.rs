//! What is laid, tied or wrapped over other garments: aprons, capes, shawls, blankets, stoles, drapery, veils.

use super::cloth::{INK, toward};
use super::figure::{self, ANKLE, CALF, CROWN, FLOOR, HIP, KNEE, WAIST};
use super::pen::Pen;
use crate::picture::flat::model::{Path, Point};
use crate::picture::flat::read::{Collar, Garment, Mark};

/// A bib apron.
pub(super) fn apron(pen: &mut Pen<'_>, garment: &Garment) {
    let low = garment.length.map_or(KNEE + 20.0, figure::hem);
    let bib = garment.has(Mark::Bib);
    if bib {
        let strap = Path::at(24.0, 240.0)
            .curve((31.0, 210.0), (32.0, 190.0), (30.0, 173.0))
            .line(38.0, 176.0)
            .curve((40.0, 200.0), (36.0, 226.0), (32.0, 240.0))
            .close();
        pen.body(&strap.mirrored());
        pen.body(&strap);
    }
    let top = if bib {
        Path::at(0.0, 234.0).line(36.0, 232.0).curve((38.0, 280.0), (40.0, 312.0), (50.0, WAIST - 6.0))
    } else {
        Path::at(0.0, WAIST - 4.0).line(46.0, WAIST - 6.0)
    };
    let outline = top
        .curve((66.0, HIP - 20.0), (72.0, HIP + 40.0), (74.0, low - 14.0))
        .bend((74.0, low + 2.0), (58.0, low + 3.0))
        .bend((28.0, low + 9.0), (0.0, low + 9.0))
        .both_halves();
    pen.body(&outline);
    let band =
        Path::lines(&[(-50.0, WAIST - 6.0), (50.0, WAIST - 6.0), (51.0, WAIST + 8.0), (-51.0, WAIST + 8.0)])
            .close();
    pen.patch(&band);
    let pocket =
        Path::lines(&[(-26.0, HIP + 4.0), (26.0, HIP + 4.0), (26.0, HIP + 44.0), (-26.0, HIP + 44.0)])
            .close();
    pen.patch(&pocket);
    pen.stitch(&Path::lines(&[(0.0, HIP + 4.0), (0.0, HIP + 44.0)]));
    pen.stitch(&Path::at(0.0, low - 1.0).bend((28.0, low - 1.0), (58.0, low - 6.0)).twice());
    pen.edge(&outline);
    for side in [-1.0, 1.0] {
        let tie =
            Path::at(side * 50.0, WAIST - 3.0).bend((side * 62.0, WAIST + 2.0), (side * 66.0, WAIST + 12.0));
        pen.edge(&tie);
    }
}

/// A cape or cloak, closed at the neck.
pub(super) fn cape(pen: &mut Pen<'_>, garment: &Garment, open: bool) {
    let long = garment.length.map_or(if garment.heavy { CALF } else { HIP + 30.0 }, figure::hem).max(320.0);
    let long = if open { long.min(HIP - 30.0).min(300.0) } else { long };
    let wide = 104.0 + (long - 300.0).max(0.0) * 0.16;
    let gap = if open { 44.0 } else { 2.0 };
    let half = Path::at(gap * 0.4, 182.0)
        .line(25.0, 172.0)
        .curve((60.0, 180.0), (88.0, 188.0), (98.0, 236.0))
        .curve((104.0, 300.0), (wide - 4.0, long - 60.0), (wide, long))
        .curve((wide * 0.7, long + 12.0), (wide * 0.3, long + 15.0), (gap, long + 15.0))
        .curve((gap, long * 0.7 + 60.0), (gap, 240.0), (gap * 0.4, 182.0))
        .close();
    if open {
        let back = Path::at(0.0, 176.0)
            .line(25.0, 172.0)
            .curve((60.0, 180.0), (88.0, 188.0), (98.0, 236.0))
            .line(wide, long)
            .bend((40.0, long + 10.0), (0.0, long + 10.0))
            .both_halves();
        pen.inside(&back);
    }
    for side in [half.mirrored(), half] {
        pen.body(&side);
        if garment.has(Mark::HemBand) && pen.cloth.has_second {
            pen.band(&side, long - 22.0, long - 8.0);
        }
        pen.edge(&side);
    }
    for (x, from) in [(34.0, 250.0), (58.0, 226.0), (80.0, 260.0)] {
        if from < long - 40.0 {
            pen.fold(
                &Path::at(x, from).bend((x + 4.0, (from + long) / 2.0), (x * wide / 98.0, long)).twice(),
            );
        }
    }
    if garment.collar == Some(Collar::Stand) {
        let stand = Path::at(2.0, 184.0)
            .bend((20.0, 182.0), (28.0, 174.0))
            .line(32.0, 146.0)
            .bend((16.0, 160.0), (4.0, 162.0))
            .close();
        pen.part(&stand.mirrored());
        pen.part(&stand);
    } else {
        let leaf = Path::at(2.0, 184.0)
            .line(16.0, 208.0)
            .bend((44.0, 200.0), (48.0, 186.0))
            .bend((34.0, 170.0), (27.0, 164.0))
            .bend((18.0, 178.0), (2.0, 184.0))
            .close();
        pen.part(&leaf.mirrored());
        pen.part(&leaf);
    }
    pen.bead(&Path::ellipse(0.0, 188.0, 5.0, 5.0), [0xc9, 0xa2, 0x4e]);
}

fn fringe(pen: &mut Pen<'_>, from: Point, to: Point, count: u8) {
    for at in 0..=count {
        let share = f32::from(at) / f32::from(count);
        let (x, y) = (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
        pen.seam(&Path::lines(&[(x, y), (x, y + 13.0)]).twice());
    }
}

/// Over the shoulders, the ends crossed or hanging in front.
pub(super) fn shawl(pen: &mut Pen<'_>, garment: &Garment) {
    let crossed = garment.has(Mark::Swinging);
    let low = if crossed { WAIST + 4.0 } else { HIP + 10.0 };
    let end = if crossed { (-16.0, low) } else { (10.0, low + 40.0) };
    let right = Path::at(20.0, 168.0)
        .curve((60.0, 172.0), (92.0, 190.0), (102.0, 240.0))
        .curve((110.0, 284.0), (96.0, low - 40.0), (62.0, low - 4.0))
        .line(end.0 + 18.0, end.1)
        .line(end.0, end.1 - 14.0)
        .curve((14.0, 300.0), (30.0, 230.0), (20.0, 168.0))
        .close();
    pen.body(&right.mirrored());
    pen.body(&right);
    for dx in [0.0, 16.0, 32.0] {
        pen.fold(
            &Path::at(36.0 + dx, 180.0 + dx * 0.3)
                .curve((54.0 + dx, 220.0), (46.0 + dx, 280.0), (24.0 + dx, low - 30.0))
                .twice(),
        );
    }
    if garment.has(Mark::Fringe) || !crossed {
        fringe(pen, (62.0, low - 4.0), (end.0 + 18.0, end.1), 7);
    }
}

/// A blanket held round the body.
pub(super) fn blanket(pen: &mut Pen<'_>, garment: &Garment) {
    let low = KNEE - 6.0;
    let under = Path::at(0.0, 186.0)
        .line(28.0, 168.0)
        .curve((66.0, 176.0), (98.0, 190.0), (108.0, 250.0))
        .curve((114.0, 340.0), (104.0, 480.0), (96.0, low))
        .bend((40.0, low + 10.0), (0.0, low + 10.0))
        .both_halves();
    pen.body(&under);
    pen.band(&under, low - 44.0, low - 30.0);
    pen.band(&under, low - 24.0, low - 18.0);
    pen.edge(&under);
    let over = Path::at(-30.0, 168.0).curve((-8.0, 184.0), (10.0, 216.0), (24.0, 262.0)).curve(
        (40.0, 330.0),
        (44.0, 470.0),
        (40.0, low + 4.0),
    );
    pen.edge(&over);
    pen.fold(&Path::at(-70.0, 220.0).curve((-40.0, 280.0), (-10.0, 300.0), (22.0, 270.0)));
    pen.fold(&Path::at(-88.0, 280.0).curve((-50.0, 340.0), (-8.0, 350.0), (28.0, 290.0)));
    pen.fold(&Path::at(86.0, 230.0).curve((76.0, 280.0), (50.0, 290.0), (34.0, 280.0)));
    pen.fold(&Path::at(92.0, 300.0).curve((80.0, 360.0), (56.0, 360.0), (42.0, 340.0)));
    let collar = Path::at(-30.0, 168.0)
        .curve((-10.0, 158.0), (14.0, 158.0), (30.0, 166.0))
        .curve((40.0, 186.0), (30.0, 214.0), (10.0, 222.0))
        .curve((-4.0, 200.0), (-18.0, 184.0), (-30.0, 168.0))
        .close();
    pen.part(&collar);
    pen.bead(&Path::ellipse(22.0, 262.0, 4.5, 4.5), [0xb8; 3]);
    if garment.has(Mark::Fringe) {
        fringe(pen, (96.0, low), (4.0, low + 10.0), 16);
    }
}

/// Hung from the elbows.
pub(super) fn stole(pen: &mut Pen<'_>) {
    let back = Path::at(0.0, 372.0)
        .bend((70.0, 372.0), (112.0, 318.0))
        .line(128.0, 330.0)
        .bend((80.0, 408.0), (0.0, 408.0))
        .both_halves();
    pen.inside(&back);
    let mut fall = Path::at(104.0, 306.0).curve((118.0, 294.0), (140.0, 302.0), (141.0, 322.0));
    for at in 0..9_u8 {
        let y = 322.0 + f32::from(at) * 27.0;
        fall = fall.bend((153.0, y + 12.0), (143.0, y + 27.0));
    }
    fall = fall.bend((128.0, 590.0), (112.0, 562.0));
    for at in 0..9_u8 {
        let y = 562.0 - f32::from(at) * 27.0;
        fall = fall.bend((100.0, y - 14.0), (110.0, y - 27.0));
    }
    let fall = fall.close();
    pen.body(&fall.mirrored());
    pen.body(&fall);
}

/// Cloth pinned on one shoulder.
pub(super) fn drapery(pen: &mut Pen<'_>) {
    let outline = Path::at(-44.0, 184.0)
        .line(-28.0, 174.0)
        .curve((-10.0, 220.0), (30.0, 244.0), (56.0, 250.0))
        .curve((54.0, 300.0), (48.0, 330.0), (50.0, WAIST))
        .curve((64.0, HIP), (78.0, KNEE), (86.0, ANKLE))
        .curve((40.0, ANKLE + 16.0), (-40.0, ANKLE + 16.0), (-86.0, ANKLE))
        .curve((-78.0, KNEE), (-64.0, HIP), (-50.0, WAIST))
        .curve((-48.0, 320.0), (-56.0, 280.0), (-56.0, 256.0))
        .curve((-50.0, 236.0), (-52.0, 206.0), (-44.0, 184.0))
        .close();
    pen.body(&outline);
    for (from, to) in [
        ((-36.0, 184.0), (52.0, 300.0)),
        ((-38.0, 196.0), (48.0, 340.0)),
        ((-42.0, 214.0), (40.0, 372.0)),
        ((-46.0, 240.0), (10.0, 380.0)),
    ] {
        pen.fold(&Path::at(from.0, from.1).bend((-10.0, to.1 - 30.0), to));
    }
    for x in [-60.0, -36.0, -12.0, 14.0, 40.0, 64.0] {
        pen.fold(&Path::at(x * 0.6, HIP - 10.0).bend((x * 0.9, KNEE), (x, ANKLE + 4.0)));
    }
    pen.bead(&Path::ellipse(-36.0, 184.0, 8.0, 6.0), [0xe6, 0xdc, 0xc8]);
}

/// From the head to the floor, behind.
pub(super) fn veil(pen: &mut Pen<'_>) {
    let fall = Path::at(0.0, CROWN - 6.0)
        .curve((36.0, CROWN - 6.0), (46.0, 100.0), (62.0, 190.0))
        .curve((96.0, 380.0), (140.0, 560.0), (150.0, FLOOR - 14.0))
        .bend((70.0, FLOOR + 8.0), (0.0, FLOOR + 6.0))
        .both_halves();
    let net = toward(pen.cloth.fill, INK, 7);
    pen.behind(&fall, net);
    let cap = Path::at(0.0, CROWN - 8.0)
        .curve((26.0, CROWN - 8.0), (38.0, CROWN + 10.0), (40.0, 104.0))
        .bend((20.0, 84.0), (0.0, 84.0))
        .both_halves();
    pen.body(&cap);
    for x in [10.0, 22.0] {
        pen.fold(&Path::at(x * 0.5, CROWN - 4.0).bend((x, 70.0), (x, 86.0)).twice());
    }
    for x in [-30.0, -20.0, -10.0, 0.0, 10.0, 20.0, 30.0] {
        pen.button(x, 88.0 - (900.0 - x * x) / 200.0 + 5.0, 3.0);
    }
}
