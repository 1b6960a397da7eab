//! The lines on a body: seams, yokes, pockets, welts, bands, belts, the edge of the neck.

use super::figure::{BUST, HIP, WAIST};
use super::made::{Made, opens_in_front};
use super::pen::Pen;
use super::skirt::{self, Hang};
use super::torso::{Torso, across, width_at};
use crate::picture::flat::model::Path;
use crate::picture::flat::read::{Collar, Cut, Garment, Kind, Mark, Neck, Pattern, Reach};

/// The lines on the body: seams, yoke, drapery, the skirt's own, pockets.
pub(super) fn body_details(pen: &mut Pen<'_>, made: &Made<'_>, outline: &Path) {
    let (torso, garment) = (&made.torso, made.garment);
    let skirted = torso.hem_y > HIP + 40.0;
    match made.cut {
        Cut::Fitted | Cut::Princess | Cut::FullSkirt if !matches!(garment.kind, Kind::Waistcoat) => {
            let bottom = if made.cut == Cut::Princess || !skirted { torso.hem_y } else { WAIST };
            let low = if bottom > HIP {
                (torso.hem_width() * 0.5, bottom + 2.0)
            } else {
                (torso.waist * 0.6, bottom)
            };
            let seam = Path::at(torso.shoulder.0 - 10.0, 234.0).curve(
                (torso.bust * 0.56, 256.0),
                (torso.waist * 0.62, BUST + 30.0),
                (torso.waist * 0.58, WAIST),
            );
            let seam = if bottom > WAIST {
                seam.bend((torso.waist * 0.6, (WAIST + bottom) / 2.0), low)
            } else {
                seam
            };
            pen.seam(&seam.twice());
        }
        Cut::Bias => {
            let x = torso.waist;
            pen.seam(&Path::at(-torso.bust + 4.0, 286.0).curve(
                (-18.0, 300.0),
                (6.0, 330.0),
                (x, WAIST + 26.0),
            ));
            pen.seam(&Path::at(torso.hip - 2.0, HIP - 10.0).curve(
                (10.0, HIP - 2.0),
                (-30.0, HIP + 30.0),
                (-torso.hip - 2.0, HIP + 60.0),
            ));
        }
        _ => {}
    }
    if let (Some(seam), true) = (torso.seam, skirted) {
        pen.seam(&across(outline, seam, 5.0));
    }
    if garment.has(Mark::Divided) && skirted {
        skirt::divided(pen, torso.hem_y + 10.0);
    }
    if skirted {
        let top = torso.seam.unwrap_or(HIP);
        skirt::details(pen, garment, outline, Hang { top, hem: torso.hem_y, cut: made.cut });
    }
    if garment.has(Mark::Yoke) || garment.has(Mark::Smocking) || garment.kind == Kind::Smock {
        yoke(pen, garment, outline, torso);
    }
    if garment.has(Mark::Drape) {
        let y = torso.seam.unwrap_or(WAIST).max(WAIST) + 6.0;
        let x = width_at(outline, y) - 3.0;
        for (from, bow) in [(-30.0, 10.0), (-54.0, 4.0), (-80.0, -6.0), (24.0, 20.0)] {
            pen.fold(&Path::at(-x * 0.8, y + from).bend((0.0, y + bow), (x, y)));
        }
        pen.button(x - 6.0, y, 4.5);
    }
    if garment.has(Mark::Pockets)
        || garment.has(Mark::BreastPockets)
        || matches!(garment.kind, Kind::Coat | Kind::Jacket | Kind::Duffel | Kind::Oilskin)
    {
        pockets(pen, made, 0.0);
    }
    if matches!(garment.kind, Kind::Jumper | Kind::Cardigan) || garment.has(Mark::Banded) {
        welt(pen, garment, torso, outline);
    }
    if garment.kind == Kind::Blouse || garment.kind == Kind::Shirt {
        pen.seam(
            &Path::at(torso.neck_side.0 + 20.0, 181.0)
                .bend((40.0, 214.0), (torso.shoulder.0 - 9.0, 212.0))
                .twice(),
        );
    }
    if garment.kind == Kind::Pinafore {
        let line =
            Path::at(torso.neck_side.0, torso.depth + 14.0).line(torso.bust - 14.0, torso.depth + 14.0);
        pen.stitch(&line.twice());
    }
}

fn yoke(pen: &mut Pen<'_>, garment: &Garment, outline: &Path, torso: &Torso) {
    let y = torso.depth.max(206.0) + 22.0;
    let x = width_at(outline, y).min(torso.shoulder.0 - 10.0);
    pen.seam(&Path::at(-x, y - 2.0).line(-x + 4.0, y + 4.0).line(x - 4.0, y + 4.0).line(x, y - 2.0));
    if garment.has(Mark::Smocking) {
        for row in 0..5_u8 {
            let top = y + 7.0 + f32::from(row) * 7.0;
            let points: Vec<(f32, f32)> = (0..=20_u8)
                .map(|at| {
                    (
                        -x + 4.0 + f32::from(at) * (x - 4.0) / 10.0,
                        top + if (at + row) % 2 == 0 { 0.0 } else { 6.0 },
                    )
                })
                .collect();
            pen.seam(&Path::lines(&points));
        }
    }
    let low = if garment.has(Mark::Smocking) { y + 44.0 } else { y + 6.0 };
    for share in [0.15, 0.4, 0.65, 0.88] {
        pen.fold(
            &Path::at(x * share, low)
                .bend((x * share + 2.0, low + 30.0), (x * share * 1.1 + 2.0, low + 62.0))
                .twice(),
        );
    }
}

/// Pockets, so far further out than on a closed front.
pub(super) fn pockets(pen: &mut Pen<'_>, made: &Made<'_>, out: f32) {
    let garment = made.garment;
    let long = made.torso.hem_y > HIP + 40.0;
    let patch = |x: f32, y: f32, wide: f32, high: f32| {
        Path::at(x - wide, y)
            .line(x + wide, y)
            .line(x + wide, y + high - 6.0)
            .bend((x + wide, y + high), (x + wide - 6.0, y + high))
            .line(x - wide + 6.0, y + high)
            .bend((x - wide, y + high), (x - wide, y + high - 6.0))
            .close()
    };
    if garment.has(Mark::BreastPockets) {
        for side in [-1.0, 1.0] {
            pen.patch(&patch(side * 34.0, 236.0, 14.0, 32.0));
            pen.seam(&Path::lines(&[
                (side * 34.0 - 14.0, 244.0),
                (side * 34.0, 249.0),
                (side * 34.0 + 14.0, 244.0),
            ]));
        }
        if made.torso.hem_y < HIP + 40.0 {
            return;
        }
    }
    match garment.kind {
        Kind::Jacket | Kind::Coat if !garment.has(Mark::Pockets) || garment.kind == Kind::Jacket => {
            let (x, y) = if long { (42.0 + out, HIP - 10.0) } else { (36.0, made.torso.hem_y - 42.0) };
            if made.torso.hem_y > HIP {
                let flap = Path::lines(&[
                    (x - 17.0, y),
                    (x + 17.0, y - 3.0),
                    (x + 17.0, y + 9.0),
                    (x - 17.0, y + 12.0),
                ])
                .close();
                pen.patch(&flap.mirrored());
                pen.patch(&flap);
            }
        }
        _ => {
            let y = if long { HIP - 6.0 } else { made.torso.hem_y - 52.0 };
            let x = if long { 38.0 + out } else { 34.0 + out };
            for side in [-1.0, 1.0] {
                pen.patch(&patch(side * x, y, 19.0, if long { 48.0 } else { 34.0 }));
                pen.stitch(&Path::lines(&[(side * x - 19.0, y + 7.0), (side * x + 19.0, y + 7.0)]));
            }
        }
    }
}

fn welt(pen: &mut Pen<'_>, garment: &Garment, torso: &Torso, outline: &Path) {
    let y = torso.hem_y - 20.0;
    pen.seam(&across(outline, y, 7.0));
    if garment.pattern == Pattern::Gansey {
        gansey(pen, torso);
    }
}

/// Rope and ladder above a line across the chest.
fn gansey(pen: &mut Pen<'_>, torso: &Torso) {
    let (top, low) = (222.0, 300.0);
    let x = torso.bust - 14.0;
    pen.seam(&Path::lines(&[(-x - 6.0, low), (x + 6.0, low)]));
    pen.seam(&Path::lines(&[(-x - 6.0, low + 4.0), (x + 6.0, low + 4.0)]));
    for at in 0..5_u8 {
        let middle = f32::from(at) * (x - 4.0) / 2.0 - (x - 4.0);
        let mut y = top;
        while y < low - 5.0 {
            let step = if at % 2 == 0 {
                Path::at(middle - 5.0, y + 6.0).bend((middle, y + 5.0), (middle + 5.0, y))
            } else {
                Path::lines(&[(middle - 6.0, y + 3.0), (middle + 6.0, y + 3.0)])
            };
            pen.seam(&step);
            y += 8.0;
        }
    }
}

pub(super) fn bands(pen: &mut Pen<'_>, made: &Made<'_>, outline: &Path) {
    let (torso, garment) = (&made.torso, made.garment);
    let short = torso.hem_y < HIP + 40.0;
    if short && garment.has(Mark::HemBand) && pen.cloth.has_second {
        pen.band(outline, torso.hem_y - 12.0, torso.hem_y - 3.0);
    }
    if garment.has(Mark::Edged) && pen.cloth.has_second {
        let neck = torso.neckline().twice();
        pen.trim(&neck, 9.0);
        if short && opens_in_front(garment.kind) {
            pen.trim(&torso.hemline().twice(), 9.0);
            pen.trim(&Path::lines(&[(3.0, torso.depth), (3.0, torso.hem_y + 6.0)]), 7.0);
        }
        if made.reach == Reach::None {
            pen.trim(&torso.armhole().twice(), 8.0);
        }
    }
}

pub(super) fn belt(pen: &mut Pen<'_>, made: &Made<'_>, outline: &Path) {
    let y = made.torso.seam.unwrap_or(WAIST);
    let x = width_at(outline, y) + 1.5;
    let belt = Path::at(-x, y - 6.0)
        .bend((0.0, y - 2.0), (x, y - 6.0))
        .line(x, y + 7.0)
        .bend((0.0, y + 11.0), (-x, y + 7.0))
        .close();
    let cloth = pen.cloth.plain();
    let mut plain = pen.with(cloth);
    plain.part(&belt);
    match made.garment.kind {
        Kind::Robe => {
            for dx in [-2.0, 12.0] {
                plain.part(
                    &Path::at(dx - 4.0, y + 8.0)
                        .bend((dx - 2.0, y + 40.0), (dx - 6.0, y + 72.0))
                        .line(dx + 4.0, y + 74.0)
                        .bend((dx + 6.0, y + 36.0), (dx + 3.0, y + 8.0))
                        .close(),
                );
            }
            plain.part(&Path::ellipse(4.0, y + 3.0, 10.0, 9.0));
        }
        _ => plain.part(
            &Path::lines(&[(-10.0, y - 7.0), (10.0, y - 7.0), (10.0, y + 11.0), (-10.0, y + 11.0)]).close(),
        ),
    }
}

pub(super) fn neck_details(pen: &mut Pen<'_>, made: &Made<'_>) {
    let torso = &made.torso;
    let (x, y) = torso.neck_side;
    match torso.neck {
        Neck::Cowl => {
            for (low, share) in
                [(torso.depth + 14.0, 1.0), (torso.depth + 30.0, 1.1), (torso.depth + 46.0, 1.0)]
            {
                pen.fold(&Path::at(-x * share - 4.0, y + 14.0).curve(
                    (-x * 0.7, low),
                    (x * 0.7, low),
                    (x * share + 4.0, y + 14.0),
                ));
            }
        }
        Neck::High if made.collar == Collar::None && made.garment.kind != Kind::Duffel => {
            pen.seam(
                &Path::at(0.0, torso.depth + 7.0)
                    .bend((x * 0.9, torso.depth + 7.0), (x + 7.0, y + 3.0))
                    .twice(),
            );
            if matches!(made.garment.kind, Kind::Smock | Kind::Dress) {
                pen.seam(&Path::lines(&[(0.0, torso.depth), (0.0, torso.depth + 34.0)]));
            }
        }
        Neck::Round if matches!(made.garment.kind, Kind::Jumper | Kind::Cardigan) => {
            let rim = Path::at(0.0, torso.depth)
                .curve((x * 0.62, torso.depth), (x - 1.0, y + 10.0), (x, y))
                .line(x - 3.0, y - 9.0)
                .curve((x * 0.6, torso.depth - 9.0), (8.0, torso.depth - 10.0), (0.0, torso.depth - 10.0))
                .both_halves();
            pen.part(&rim);
        }
        _ if made.collar == Collar::None => {
            let inset = 5.0;
            pen.stitch(
                &Path::at(0.0, torso.depth + inset)
                    .curve(
                        (x * 0.66, torso.depth + inset),
                        (x + 4.0, y + (torso.depth - y) * 0.5),
                        (x + inset, y + 2.0),
                    )
                    .twice(),
            );
        }
        _ => {}
    }
}
