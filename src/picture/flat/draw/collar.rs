//! Collars and what else lies about a neck.

use super::pen::Pen;
use super::torso::Torso;
use crate::picture::flat::model::Path;
use crate::picture::flat::read::{Collar, Neck};

/// Draws it over the front of a garment.
pub(super) fn draw(pen: &mut Pen<'_>, collar: Collar, torso: &Torso, wide: bool) {
    let (x, y) = torso.neck_side;
    match collar {
        Collar::None => {}
        Collar::Lapels => lapels(pen, torso, wide),
        Collar::Shawl => shawl(pen, torso, wide),
        Collar::Shirt => leaves(pen, torso, &[(x + 14.0, y + 26.0), (8.0, torso.depth + 14.0)]),
        Collar::Round => round(pen, torso),
        Collar::Sailor => sailor(pen, torso),
        Collar::Stand => stand(pen, torso, 13.0),
        Collar::Roll => stand(pen, torso, 20.0),
        Collar::Jabot => jabot(pen, torso),
        Collar::Ruff => ruff(pen),
        Collar::Cape => cape(pen, torso),
        Collar::Bow => bow(pen, torso),
    }
}

/// The neckline under a collar, where the record names none.
pub(super) fn neck_under(collar: Collar) -> Option<(Neck, f32)> {
    match collar {
        Collar::Lapels => Some((Neck::V, 284.0)),
        Collar::Shawl => Some((Neck::V, 300.0)),
        Collar::Shirt => Some((Neck::V, 200.0)),
        Collar::Sailor => Some((Neck::V, 250.0)),
        Collar::Stand | Collar::Roll | Collar::Ruff => Some((Neck::High, 182.0)),
        Collar::Bow => Some((Neck::V, 214.0)),
        Collar::None | Collar::Round | Collar::Jabot | Collar::Cape => None,
    }
}

fn pair(pen: &mut Pen<'_>, path: &Path) {
    pen.part(&path.mirrored());
    pen.part(path);
}

fn lapels(pen: &mut Pen<'_>, torso: &Torso, wide: bool) {
    let (x, y) = torso.neck_side;
    let low = torso.depth;
    let more = if wide { 7.0 } else { 0.0 };
    let gorge = (x * 0.72, y + (low - y) * 0.27);
    let lapel = Path::at(0.0, low)
        .bend((30.0 + more, low - 46.0), (48.0 + more, y + 50.0))
        .line(35.0 + more * 0.5, y + 45.0)
        .line(gorge.0, gorge.1)
        .bend((x * 0.5, y + (low - y) * 0.5), (0.0, low))
        .close();
    pair(pen, &lapel);
    let collar = Path::at(gorge.0, gorge.1)
        .line(36.0 + more * 0.5, y + 44.0)
        .line(46.0 + more * 0.5, y + 31.0)
        .bend((40.0, y + 6.0), (x + 3.0, y - 5.0))
        .line(x - 6.0, y - 2.0)
        .bend((x - 4.0, y + 16.0), gorge)
        .close();
    pair(pen, &collar);
}

fn shawl(pen: &mut Pen<'_>, torso: &Torso, wide: bool) {
    let (x, y) = torso.neck_side;
    let low = torso.depth;
    let more = if wide { 16.0 } else { 4.0 };
    let collar = Path::at(0.0, low)
        .curve((26.0 + more, low - 30.0), (46.0 + more, y + 64.0), (42.0 + more, y + 34.0))
        .bend((40.0 + more * 0.5, y + 2.0), (x + 2.0, y - 6.0))
        .line(x - 7.0, y - 2.0)
        .curve((x - 2.0, y + 24.0), (x * 0.5, y + (low - y) * 0.6), (0.0, low))
        .close();
    pair(pen, &collar);
}

/// Two pointed leaves, from the back of the neck to these points and the middle.
fn leaves(pen: &mut Pen<'_>, torso: &Torso, points: &[(f32, f32); 2]) {
    let (x, y) = torso.neck_side;
    let leaf = Path::at(0.5, torso.depth)
        .line(points[1].0 + 12.0, points[1].1 + 2.0)
        .line(points[0].0, points[0].1)
        .bend((x + 8.0, y + 6.0), (x + 2.0, y - 6.0))
        .line(x - 7.0, y - 4.0)
        .bend((x - 4.0, y + 12.0), (0.5, torso.depth))
        .close();
    pair(pen, &leaf);
}

fn round(pen: &mut Pen<'_>, torso: &Torso) {
    let (x, y) = torso.neck_side;
    let low = torso.depth;
    let leaf = Path::at(1.0, low)
        .curve((4.0, low + 24.0), (30.0, low + 18.0), (x + 14.0, y + 30.0))
        .curve((x + 20.0, y + 18.0), (x + 12.0, y + 2.0), (x + 1.0, y - 4.0))
        .curve((x - 2.0, y + (low - y) * 0.6), (x * 0.6, low), (1.0, low))
        .close();
    pair(pen, &leaf);
}

fn sailor(pen: &mut Pen<'_>, torso: &Torso) {
    let (x, y) = torso.neck_side;
    let low = torso.depth;
    let (side, bottom) = (torso.shoulder.0 - 4.0, low + 2.0);
    let leaf = Path::at(0.0, low)
        .line(16.0, bottom + 4.0)
        .bend((side - 8.0, low - 22.0), (side - 2.0, torso.shoulder.1 + 20.0))
        .line(side, torso.shoulder.1 - 3.0)
        .line(x, y - 4.0)
        .bend((x * 0.7, y + (low - y) * 0.5), (0.0, low))
        .close();
    let cloth = pen.cloth.plain();
    {
        let mut plain = pen.with(cloth);
        pair(&mut plain, &leaf);
    }
    for inset in [6.0, 10.0] {
        let rim = Path::at(8.0 + inset * 0.3, low - inset * 0.2)
            .bend((side - 12.0 - inset, low - 24.0), (side - 2.0 - inset, torso.shoulder.1 + 19.0))
            .line(side - inset, torso.shoulder.1 - 3.0 - inset * 0.3);
        pen.trim(&rim.twice(), 2.0);
    }
    let cloth = pen.cloth.in_second();
    let mut other = pen.with(cloth);
    let knot = Path::at(0.0, low - 6.0)
        .line(8.0, low + 6.0)
        .line(16.0, low + 44.0)
        .line(4.0, low + 40.0)
        .line(0.0, low + 10.0)
        .close();
    pair(&mut other, &knot);
    other.part(&Path::ellipse(0.0, low + 2.0, 7.0, 7.0));
}

fn stand(pen: &mut Pen<'_>, torso: &Torso, high: f32) {
    let (x, y) = torso.neck_side;
    let collar = Path::at(0.0, torso.depth)
        .bend((x * 0.8, torso.depth), (x + 1.0, y + 1.0))
        .line(x - 2.0, y - high)
        .bend((x * 0.6, torso.depth - high + 1.0), (0.0, torso.depth - high + 2.0))
        .both_halves();
    let cloth = pen.cloth;
    pen.with(cloth).part(&collar);
    if high < 16.0 {
        pen.seam(&Path::lines(&[(0.0, torso.depth - high + 2.0), (0.0, torso.depth)]));
    }
}

fn jabot(pen: &mut Pen<'_>, torso: &Torso) {
    let cloth = if pen.cloth.has_second { pen.cloth.in_second() } else { pen.cloth.plain() };
    let mut fall = pen.with(cloth);
    let (top, low) = (torso.depth.min(224.0) - 8.0, torso.depth.min(224.0) + 66.0);
    let frill = Path::at(0.0, top)
        .curve((14.0, top + 10.0), (22.0, top + 26.0), (15.0, top + 32.0))
        .curve((24.0, top + 40.0), (22.0, top + 54.0), (12.0, low - 8.0))
        .line(0.0, low)
        .both_halves();
    fall.part(&frill);
    for dx in [-7.0, 0.0, 7.0] {
        fall.fold(&Path::at(dx * 0.3, top + 8.0).bend((dx, top + 36.0), (dx, low - 10.0)));
    }
}

fn ruff(pen: &mut Pen<'_>) {
    let cloth = pen.cloth.plain();
    let mut plain = pen.with(cloth);
    for at in 0..7_u8 {
        let x = f32::from(at) * 15.0 - 45.0;
        let y = 178.0 + (1.0 - x * x / 2100.0) * 10.0;
        plain.part(&Path::ellipse(x, y, 11.0, 13.0));
        plain.fold(&Path::lines(&[(x, y - 10.0), (x, y + 10.0)]));
    }
}

fn cape(pen: &mut Pen<'_>, torso: &Torso) {
    let (x, y) = torso.neck_side;
    let (side, low) = (torso.shoulder.0 + 32.0, 296.0);
    let collar = torso
        .neckline()
        .line(torso.shoulder.0, torso.shoulder.1 - 2.0)
        .bend((side - 4.0, 214.0), (side, low))
        .curve((60.0, low + 18.0), (30.0, low + 4.0), (0.0, low - 16.0))
        .both_halves();
    pen.body(&collar);
    for dx in [24.0, 48.0] {
        pen.fold(&Path::at(x + dx * 0.4, y + 16.0).bend((dx, 240.0), (dx + 8.0, low - 6.0)).twice());
    }
}

fn bow(pen: &mut Pen<'_>, torso: &Torso) {
    let low = torso.depth.min(220.0);
    let tail = Path::at(0.0, low)
        .bend((16.0, low + 20.0), (20.0, low + 62.0))
        .line(6.0, low + 58.0)
        .bend((6.0, low + 20.0), (0.0, low))
        .close();
    pair(pen, &tail);
    let ear = Path::at(0.0, low)
        .curve((12.0, low - 18.0), (36.0, low - 16.0), (34.0, low))
        .curve((36.0, low + 14.0), (12.0, low + 14.0), (0.0, low))
        .close();
    pair(pen, &ear);
    pen.part(&Path::ellipse(0.0, low, 6.0, 7.5));
}
