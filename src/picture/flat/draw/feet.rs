//! Shoes and stockings. Shoes are laid out in profile, toes outwards, for a shoe's front tells little.

use super::figure::{ANKLE, FLOOR, KNEE, THIGH};
use super::pen::Pen;
use crate::picture::flat::model::{Path, Rgb};
use crate::picture::flat::read::{Feet, Garment, Mark};

const CORK: Rgb = [0xc8, 0xa8, 0x78];
const RUBBER: Rgb = [0xee, 0xec, 0xe6];

/// A pair.
pub(super) fn draw(pen: &mut Pen<'_>, garment: &Garment, kind: Feet) {
    let low = kind == Feet::Shoes || kind == Feet::Slippers;
    match kind {
        Feet::Boots => boots(pen, ANKLE - 24.0),
        Feet::SeaBoots => boots(pen, KNEE + 30.0),
        Feet::Clogs => soled(pen, [0xb8, 0x92, 0x60], 14.0),
        Feet::Plimsolls => soled(pen, RUBBER, 7.0),
        Feet::Sandals => sandals(pen),
        Feet::Shoes | Feet::Slippers => {}
    }
    if low {
        shoes(pen, garment, kind == Feet::Slippers);
    }
}

fn both(pen: &mut Pen<'_>, path: &Path) {
    pen.body(&path.mirrored());
    pen.body(path);
}

fn both_beads(pen: &mut Pen<'_>, path: &Path, colour: Rgb) {
    pen.bead(&path.mirrored(), colour);
    pen.bead(path, colour);
}

fn shoes(pen: &mut Pen<'_>, garment: &Garment, flat: bool) {
    let heel = if garment.has(Mark::HighHeel) && !flat { 22.0 } else { 9.0 };
    let rise = if heel > 12.0 { 12.0 } else { 0.0 };
    if garment.has(Mark::Wedge) {
        let wedge = Path::at(14.0, FLOOR)
            .line(13.0, FLOOR - 20.0)
            .bend((44.0, FLOOR - 10.0), (80.0, FLOOR - 6.0))
            .line(80.0, FLOOR)
            .close();
        both_beads(pen, &wedge, CORK);
    } else {
        let block = Path::at(15.0, FLOOR)
            .line(13.0, FLOOR - heel - 2.0)
            .line(31.0, FLOOR - heel + 2.0)
            .line(26.0, FLOOR)
            .close();
        both(pen, &block);
    }
    let shoe = Path::at(12.0, FLOOR - 30.0 - rise)
        .curve((10.0, FLOOR - 20.0 - rise), (12.0, FLOOR - 10.0 - rise), (14.0, FLOOR - 7.0 - rise))
        .curve((32.0, FLOOR - 6.0 - rise * 0.7), (44.0, FLOOR - 2.0), (58.0, FLOOR - 1.0))
        .line(82.0, FLOOR - 1.0)
        .curve((88.0, FLOOR - 8.0), (78.0, FLOOR - 17.0), (64.0, FLOOR - 20.0))
        .curve((54.0, FLOOR - 22.0), (50.0, FLOOR - 24.0), (46.0, FLOOR - 27.0))
        .curve((38.0, FLOOR - 16.0 - rise * 0.6), (24.0, FLOOR - 18.0 - rise), (12.0, FLOOR - 30.0 - rise))
        .close();
    both(pen, &shoe);
    if garment.has(Mark::Strap) || garment.has(Mark::TBar) {
        let strap =
            Path::at(22.0, FLOOR - 22.0 - rise).bend((34.0, FLOOR - 36.0 - rise * 0.6), (45.0, FLOOR - 25.0));
        pen.edge(&strap.twice());
        pen.button(30.0, FLOOR - 29.0 - rise * 0.8, 2.4);
        pen.button(-30.0, FLOOR - 29.0 - rise * 0.8, 2.4);
    }
    if garment.has(Mark::TBar) {
        pen.edge(&Path::lines(&[(34.0, FLOOR - 31.0 - rise * 0.6), (54.0, FLOOR - 22.0)]).twice());
    }
    pen.seam(&Path::at(66.0, FLOOR - 19.0).bend((68.0, FLOOR - 10.0), (64.0, FLOOR - 2.0)).twice());
}

fn boots(pen: &mut Pen<'_>, top: f32) {
    let shaft = if top < ANKLE - 60.0 { 58.0 } else { 44.0 };
    let boot = Path::at(10.0, top)
        .line(shaft, top + 3.0)
        .curve((shaft - 6.0, ANKLE - 10.0), (46.0, ANKLE + 6.0), (56.0, FLOOR - 26.0))
        .curve((70.0, FLOOR - 24.0), (88.0, FLOOR - 18.0), (86.0, FLOOR - 5.0))
        .line(12.0, FLOOR - 5.0)
        .curve((10.0, FLOOR - 26.0), (14.0, ANKLE - 6.0), (10.0, top))
        .close();
    both(pen, &boot);
    let sole = Path::lines(&[
        (11.0, FLOOR - 6.0),
        (88.0, FLOOR - 6.0),
        (87.0, FLOOR),
        (38.0, FLOOR),
        (36.0, FLOOR - 3.0),
        (30.0, FLOOR - 3.0),
        (30.0, FLOOR + 2.0),
        (12.0, FLOOR + 2.0),
    ])
    .close();
    both(pen, &sole);
    if top < ANKLE - 60.0 {
        let cuff = Path::lines(&[
            (8.0, top - 2.0),
            (shaft + 2.0, top + 1.0),
            (shaft + 1.0, top + 20.0),
            (9.0, top + 18.0),
        ])
        .close();
        pen.part(&cuff.mirrored());
        pen.part(&cuff);
        return;
    }
    for at in 0..5_u8 {
        let y = top + 8.0 + f32::from(at) * 9.0;
        let x = 41.0 - f32::from(at) * 0.4 + if at > 3 { 6.0 } else { 0.0 };
        pen.seam(&Path::lines(&[(x - 8.0, y), (x, y + 4.0)]).twice());
        pen.seam(&Path::lines(&[(x - 8.0, y + 4.0), (x, y)]).twice());
    }
    pen.seam(&Path::at(68.0, FLOOR - 23.0).bend((64.0, FLOOR - 14.0), (66.0, FLOOR - 6.0)).twice());
}

/// A closed upper on a thick sole.
fn soled(pen: &mut Pen<'_>, sole: Rgb, thick: f32) {
    let upper = Path::at(14.0, FLOOR - 30.0)
        .line(13.0, FLOOR - thick)
        .line(84.0, FLOOR - thick)
        .curve((84.0, FLOOR - thick - 12.0), (66.0, FLOOR - thick - 20.0), (48.0, FLOOR - thick - 24.0))
        .curve((40.0, FLOOR - thick - 14.0), (26.0, FLOOR - thick - 14.0), (14.0, FLOOR - 30.0))
        .close();
    both(pen, &upper);
    let bottom = if thick > 10.0 {
        Path::at(11.0, FLOOR - thick)
            .line(88.0, FLOOR - thick)
            .curve((86.0, FLOOR - 6.0), (74.0, FLOOR), (62.0, FLOOR))
            .line(46.0, FLOOR)
            .line(44.0, FLOOR - 5.0)
            .line(32.0, FLOOR - 5.0)
            .line(30.0, FLOOR)
            .line(12.0, FLOOR)
            .close()
    } else {
        Path::lines(&[(11.0, FLOOR - thick), (87.0, FLOOR - thick), (86.0, FLOOR), (12.0, FLOOR)]).close()
    };
    both_beads(pen, &bottom, sole);
    pen.seam(
        &Path::at(66.0, FLOOR - thick - 18.0)
            .bend((62.0, FLOOR - thick - 8.0), (66.0, FLOOR - thick))
            .twice(),
    );
}

fn sandals(pen: &mut Pen<'_>) {
    let back = Path::at(14.0, FLOOR - 8.0)
        .curve((10.0, FLOOR - 28.0), (16.0, FLOOR - 34.0), (22.0, FLOOR - 30.0))
        .line(30.0, FLOOR - 8.0)
        .close();
    both(pen, &back);
    let front = Path::at(50.0, FLOOR - 8.0)
        .curve((52.0, FLOOR - 24.0), (66.0, FLOOR - 22.0), (78.0, FLOOR - 8.0))
        .close();
    both(pen, &front);
    pen.edge(&Path::at(20.0, FLOOR - 29.0).bend((40.0, FLOOR - 36.0), (54.0, FLOOR - 20.0)).twice());
    let sole = Path::lines(&[(11.0, FLOOR - 8.0), (86.0, FLOOR - 8.0), (85.0, FLOOR), (12.0, FLOOR)]).close();
    both_beads(pen, &sole, CORK);
}

/// Both stockings, with their feet.
pub(super) fn hose(pen: &mut Pen<'_>) {
    let leg = Path::at(12.0, THIGH - 30.0)
        .line(62.0, THIGH - 30.0)
        .curve((60.0, KNEE - 20.0), (50.0, KNEE), (52.0, KNEE + 44.0))
        .curve((50.0, ANKLE - 40.0), (40.0, ANKLE - 10.0), (42.0, ANKLE + 12.0))
        .curve((50.0, FLOOR - 10.0), (54.0, FLOOR), (38.0, FLOOR))
        .curve((22.0, FLOOR), (22.0, FLOOR - 12.0), (24.0, ANKLE + 10.0))
        .curve((22.0, ANKLE - 40.0), (12.0, KNEE + 60.0), (16.0, KNEE))
        .line(12.0, THIGH - 30.0)
        .close();
    both(pen, &leg);
    pen.seam(&Path::lines(&[(12.0, THIGH - 16.0), (61.0, THIGH - 16.0)]).twice());
    pen.fold(&Path::at(24.0, KNEE + 2.0).bend((34.0, KNEE + 8.0), (46.0, KNEE)).twice());
}
