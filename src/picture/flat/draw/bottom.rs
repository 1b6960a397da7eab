//! What has two legs: trousers, breeches, shorts, drawers, dungarees, one-piece suits.

use super::collar;
use super::figure::{self, ANKLE, CALF, CROTCH, HIP, KNEE, WAIST};
use super::front::{self, Front};
use super::pen::Pen;
use super::sleeve;
use super::torso::Torso;
use crate::picture::flat::model::{Path, Point};
use crate::picture::flat::read::{Closure, Collar, Garment, Kind, Mark, Neck, Reach};

/// The legs: where they end, and how far out and in.
#[derive(Clone, Copy, Debug)]
struct Legs {
    knee: (f32, f32),
    hem: (f32, f32),
    hem_y: f32,
}

fn legs(garment: &Garment) -> Legs {
    let end = |usual: f32| garment.length.map_or(usual, figure::hem).max(CROTCH + 24.0);
    match garment.kind {
        Kind::Shorts => Legs { knee: (78.0, 6.0), hem: (80.0, 7.0), hem_y: end(KNEE - 62.0).min(KNEE) },
        Kind::Drawers => Legs { knee: (68.0, 8.0), hem: (60.0, 14.0), hem_y: end(KNEE + 24.0) },
        Kind::Breeches => Legs { knee: (60.0, 16.0), hem: (46.0, 20.0), hem_y: KNEE + 56.0 },
        _ if garment.has(Mark::WideLeg) || garment.kind == Kind::Pyjamas => {
            Legs { knee: (82.0, 8.0), hem: (104.0, 6.0), hem_y: ANKLE + 20.0 }
        }
        _ if garment.has(Mark::Rolled) => Legs { knee: (64.0, 12.0), hem: (60.0, 16.0), hem_y: CALF + 16.0 },
        _ if garment.has(Mark::NarrowLeg) => {
            Legs { knee: (56.0, 14.0), hem: (46.0, 24.0), hem_y: ANKLE + 8.0 }
        }
        _ => Legs { knee: (66.0, 12.0), hem: (64.0, 16.0), hem_y: ANKLE + 20.0 },
    }
}

/// The right half from the waist, or from another beginning on the side, round the leg to the crotch.
fn half(from: &Path, legs: Legs, garment: &Garment) -> Path {
    let (out, inn) = legs.hem;
    let y = legs.hem_y;
    let long = y > KNEE + 20.0;
    let down: Vec<Point> = match garment.kind {
        Kind::Breeches => {
            vec![(66.0, HIP - 12.0), (88.0, HIP + 54.0), (72.0, KNEE - 24.0), (52.0, KNEE + 14.0), (out, y)]
        }
        _ if long => vec![(67.0, HIP), (legs.knee.0, KNEE), (out, y)],
        _ => vec![(68.0, HIP), (out, y)],
    };
    let up: Vec<Point> =
        if long { vec![(legs.knee.1, KNEE), (2.0, CROTCH + 4.0)] } else { vec![(2.0, CROTCH + 4.0)] };
    from.clone().smooth(&down).bend(((out + inn) / 2.0, y + 5.0), (inn, y)).smooth(&up).line(0.0, CROTCH)
}

/// From the waist down.
pub(super) fn draw(pen: &mut Pen<'_>, garment: &Garment) {
    let legs = legs(garment);
    let from = Path::at(0.0, WAIST + 8.0).line(46.0, WAIST + 7.0);
    let outline = half(&from, legs, garment).both_halves();
    pen.body(&outline);
    leg_lines(pen, garment, legs);
    top_lines(pen, garment);
    if garment.kind == Kind::Drawers {
        let points: Vec<Point> = (0..=8_u8)
            .map(|at| {
                (
                    legs.hem.1 + f32::from(at) * (legs.hem.0 - legs.hem.1) / 8.0,
                    legs.hem_y - 10.0 + if at % 2 == 0 { 0.0 } else { 3.0 },
                )
            })
            .collect();
        pen.seam(&Path::lines(&points).twice());
    }
    pen.edge(&outline);
    let band =
        Path::lines(&[(-46.0, WAIST - 5.0), (46.0, WAIST - 5.0), (46.5, WAIST + 8.0), (-46.5, WAIST + 8.0)])
            .close();
    let cloth = pen.cloth.plain();
    pen.with(cloth).part(&band);
    if garment.kind != Kind::Drawers {
        pen.button(0.0, WAIST + 1.0, 3.0);
    }
}

fn leg_lines(pen: &mut Pen<'_>, garment: &Garment, legs: Legs) {
    let middle = (legs.hem.0 + legs.hem.1) / 2.0;
    let long = legs.hem_y > KNEE + 20.0;
    if garment.has(Mark::SideStripe) && pen.cloth.has_second {
        pen.trim(
            &Path::at(50.0, WAIST + 14.0)
                .smooth(&[(63.0, HIP), (legs.knee.0 - 5.0, KNEE), (legs.hem.0 - 6.0, legs.hem_y)])
                .twice(),
            7.0,
        );
    }
    pen.seam(&Path::lines(&[(0.0, WAIST + 8.0), (0.0, CROTCH)]));
    match garment.kind {
        Kind::Drawers => {}
        Kind::Breeches => {
            for dy in [0.0, 9.0, 18.0, 27.0] {
                pen.button(legs.hem.0 - 5.0, KNEE + 26.0 + dy, 2.4);
                pen.button(-legs.hem.0 + 5.0, KNEE + 26.0 + dy, 2.4);
            }
            pen.seam(&Path::at(20.0, KNEE - 30.0).bend((36.0, KNEE - 10.0), (22.0, KNEE + 40.0)).twice());
        }
        _ => {
            let from = if garment.kind == Kind::Shorts { WAIST + 16.0 } else { HIP + 20.0 };
            pen.fold(
                &Path::at(34.0, from).bend((38.0, KNEE.min(legs.hem_y - 20.0)), (middle, legs.hem_y)).twice(),
            );
        }
    }
    if garment.has(Mark::Pleats) {
        for x in [22.0, 32.0] {
            pen.seam(&Path::lines(&[(x, WAIST + 8.0), (x + 3.0, WAIST + 56.0)]).twice());
        }
    }
    if garment.has(Mark::KneePatches) && long {
        let (out, inn) = (legs.knee.0 - 10.0, legs.knee.1 + 8.0);
        let patch =
            Path::lines(&[(inn, KNEE - 34.0), (out, KNEE - 36.0), (out, KNEE + 32.0), (inn, KNEE + 34.0)])
                .close();
        pen.stitch(&patch.twice());
        pen.seam(&patch.twice());
    }
    if (garment.has(Mark::TurnUps) || garment.has(Mark::Rolled)) && long {
        let cuff = Path::lines(&[
            (legs.hem.1 - 1.0, legs.hem_y - 14.0),
            (legs.hem.0 + 1.0, legs.hem_y - 15.0),
            (legs.hem.0 + 2.0, legs.hem_y),
        ])
        .bend((middle, legs.hem_y + 6.0), (legs.hem.1 - 2.0, legs.hem_y))
        .close();
        pen.part(&cuff.mirrored());
        pen.part(&cuff);
    } else if long {
        pen.stitch(
            &Path::at(legs.hem.1, legs.hem_y - 7.0)
                .bend((middle, legs.hem_y - 3.0), (legs.hem.0, legs.hem_y - 7.0))
                .twice(),
        );
    }
}

fn top_lines(pen: &mut Pen<'_>, garment: &Garment) {
    if garment.kind == Kind::Drawers {
        return;
    }
    if garment.has(Mark::FallFront) {
        pen.seam(&Path::at(34.0, WAIST + 8.0).line(32.0, WAIST + 66.0).line(0.0, WAIST + 68.0).twice());
        for x in [-24.0, -9.0, 9.0, 24.0] {
            pen.button(x, WAIST + 15.0, 3.0);
        }
        return;
    }
    pen.stitch(
        &Path::at(9.0, WAIST + 8.0).line(9.0, WAIST + 66.0).bend((8.0, WAIST + 80.0), (0.0, WAIST + 86.0)),
    );
    pen.seam(&Path::at(38.0, WAIST + 8.0).bend((44.0, WAIST + 38.0), (59.0, WAIST + 46.0)).twice());
}

/// Trousers with a bib and straps.
pub(super) fn dungarees(pen: &mut Pen<'_>, garment: &Garment) {
    let strap = Path::at(28.0, 246.0)
        .curve((33.0, 214.0), (33.0, 190.0), (31.0, 173.0))
        .line(44.0, 178.0)
        .curve((46.0, 204.0), (43.0, 230.0), (38.0, 246.0))
        .close();
    pen.body(&strap.mirrored());
    pen.body(&strap);
    let legs = legs(garment);
    let from = Path::at(0.0, 238.0)
        .line(40.0, 236.0)
        .curve((42.0, 276.0), (50.0, 300.0), (64.0, 318.0))
        .line(58.0, WAIST + 6.0);
    let outline = half(&from, legs, garment).both_halves();
    pen.body(&outline);
    leg_lines(pen, garment, legs);
    pen.stitch(&Path::at(36.0, 241.0).curve((38.0, 278.0), (46.0, 304.0), (60.0, 322.0)).twice());
    pen.stitch(&Path::lines(&[(-38.0, 244.0), (38.0, 244.0)]));
    let band =
        Path::lines(&[(-58.0, WAIST - 6.0), (58.0, WAIST - 6.0), (58.0, WAIST + 8.0), (-58.0, WAIST + 8.0)])
            .close();
    pen.patch(&band);
    let pocket =
        Path::lines(&[(-20.0, 262.0), (20.0, 262.0), (20.0, 296.0), (0.0, 302.0), (-20.0, 296.0)]).close();
    pen.patch(&pocket);
    pen.stitch(&Path::lines(&[(8.0, 262.0), (8.0, 299.0)]));
    pen.seam(&Path::at(30.0, WAIST + 10.0).bend((40.0, WAIST + 44.0), (62.0, WAIST + 48.0)).twice());
    pen.edge(&outline);
    for x in [-33.0, 33.0] {
        pen.bead(&Path::ellipse(x, 247.0, 5.0, 5.0), [0xc9, 0xa2, 0x4e]);
    }
}

/// Top and trousers in one.
pub(super) fn one_piece(pen: &mut Pen<'_>, garment: &Garment) {
    let mut torso = Torso::cut(garment.cut.unwrap_or(crate::picture::flat::read::Cut::Straight), 9.0, HIP)
        .with_neck(Neck::V);
    torso.depth = 206.0;
    let legs = Legs { knee: (74.0, 8.0), hem: (62.0, 14.0), hem_y: ANKLE + 14.0 };
    let side = torso.side();
    pen.inside(&torso.back_of_neck());
    let shoulder =
        torso.neckline().line(torso.shoulder.0, torso.shoulder.1).then(&torso.armhole()).then(&side);
    let outline = shoulder
        .smooth(&[(legs.knee.0, KNEE), (legs.hem.0, legs.hem_y)])
        .bend((38.0, legs.hem_y + 5.0), (legs.hem.1, legs.hem_y))
        .smooth(&[(legs.knee.1, KNEE), (2.0, CROTCH + 12.0)])
        .line(0.0, CROTCH + 8.0)
        .both_halves();
    pen.body(&outline);
    pen.seam(&Path::lines(&[(0.0, CROTCH), (0.0, CROTCH + 8.0)]));
    pen.fold(&Path::at(36.0, HIP + 30.0).bend((42.0, KNEE), (38.0, legs.hem_y)).twice());
    let cuff = Path::lines(&[(legs.hem.1, legs.hem_y - 14.0), (legs.hem.0, legs.hem_y - 14.0)]);
    pen.seam(&cuff.twice());
    for dx in [20.0, 32.0, 44.0, 54.0] {
        pen.fold(&Path::lines(&[(dx, legs.hem_y - 16.0), (dx, legs.hem_y - 30.0)]).twice());
    }
    pen.edge(&outline);
    let waist = torso.waist;
    pen.part(
        &Path::at(-waist - 1.0, WAIST - 8.0)
            .bend((0.0, WAIST - 4.0), (waist + 1.0, WAIST - 8.0))
            .line(waist + 1.0, WAIST + 6.0)
            .bend((0.0, WAIST + 10.0), (-waist - 1.0, WAIST + 6.0))
            .close(),
    );
    for side in [-1.0, 1.0] {
        pen.patch(
            &Path::lines(&[
                (side * 20.0, 246.0),
                (side * 46.0, 246.0),
                (side * 46.0, 280.0),
                (side * 20.0, 280.0),
            ])
            .close(),
        );
    }
    let reach = garment.reach.unwrap_or(Reach::Long);
    sleeve::draw(pen, garment, &torso, reach, 9.0);
    let closure = garment.closure.unwrap_or(Closure::Buttons);
    front::draw(
        pen,
        closure,
        Front {
            top: torso.depth + 12.0,
            bottom: CROTCH,
            last: CROTCH - 14.0,
            count: garment.buttons.unwrap_or(7).max(5),
            size: 3.6,
        },
    );
    let collar = garment.collar.unwrap_or(Collar::Shirt);
    collar::draw(pen, collar, &torso, false);
}
