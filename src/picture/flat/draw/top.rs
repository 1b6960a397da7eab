//! Everything that hangs from the shoulders: dresses, coats, jackets, shirts, jumpers, robes, overalls.

use super::bodice::{bands, belt, body_details, neck_details, pockets};
use super::collar;
use super::figure::{BUST, HIP, WAIST};
use super::front;
use super::made::{Made, hangs};
use super::pen::Pen;
use super::sleeve;
use super::torso::{Torso, width_at};
use crate::picture::flat::model::Path;
use crate::picture::flat::read::{Closure, Collar, Cut, Garment, Kind, Length, Mark, Reach};

/// How a garment is worn with others.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wear {
    pub(super) open: bool,
    /// Whether its sleeves are seen.
    pub(super) sleeves: bool,
}

/// How far a garment's sleeves reach.
pub(super) fn reach(garment: &Garment) -> Reach {
    match garment.kind {
        Kind::OnePiece => garment.reach.unwrap_or(Reach::Long),
        kind if hangs(kind) => Made::of(garment).reach,
        _ => Reach::None,
    }
}

/// Where the waist of a garment that hangs from the shoulders is, and half its width there.
pub(super) fn waist(garment: &Garment) -> Option<(f32, f32)> {
    let made = hangs(garment.kind).then(|| Made::of(garment))?;
    let y = if made.cut == Cut::DropWaist { HIP - 8.0 } else { WAIST };
    Some((y, width_at(&made.torso.outline(), y) + 1.5))
}

/// Draws it, closed or open.
pub(super) fn draw(pen: &mut Pen<'_>, garment: &Garment, wear: Wear) {
    let mut made = Made::of(garment);
    if !wear.sleeves {
        made.reach = Reach::None;
    }
    if wear.open && made.torso.hem_y > WAIST {
        opened(pen, &made);
    } else {
        closed(pen, &made);
    }
}

fn opened(pen: &mut Pen<'_>, made: &Made<'_>) {
    let torso = &made.torso;
    pen.inside(&torso.back());
    let gap = if torso.hem_y > HIP + 30.0 { 40.0 } else { 26.0 };
    let right = made.body().open_front(gap);
    sleeve::gap(pen, made.garment, torso, made.reach, made.ease);
    for half in [right.mirrored(), right.clone()] {
        pen.body(&half);
        let high = if torso.hem_y < HIP + 30.0 { 8.0 } else { 16.0 };
        if made.garment.has(Mark::HemBand) && pen.cloth.has_second {
            pen.band(&half, torso.hem_y - high - 8.0, torso.hem_y - 8.0);
        }
    }
    if pen.cloth.has_second && made.garment.has(Mark::Edged) {
        pen.trim(&torso.front_edge(gap, 6.0).twice(), 6.0);
    } else if pen.cloth.has_second && made.garment.kind == Kind::OpenGown {
        pen.trim(&torso.front_edge(gap, 9.0).twice(), 13.0);
        pen.seam(&torso.front_edge(gap, 16.0).twice());
    }
    pen.edge(&right.twice());
    sleeve::draw(pen, made.garment, torso, made.reach, made.ease);
    if made.collar != Collar::None {
        let (x, y) = torso.neck_side;
        let facing = Path::at(gap * 0.55, y + 110.0)
            .curve((gap * 0.6 + 30.0, y + 70.0), (56.0, y + 46.0), (46.0, y + 26.0))
            .bend((40.0, y + 2.0), (x + 2.0, y - 6.0))
            .line(x - 7.0, y - 2.0)
            .curve((x - 4.0, y + 34.0), (gap * 0.62, y + 70.0), (gap * 0.55, y + 110.0))
            .close();
        pen.part(&facing.mirrored());
        pen.part(&facing);
    }
    if made.garment.has(Mark::Pockets) || matches!(made.garment.kind, Kind::Coat | Kind::Duffel) {
        pockets(pen, made, gap * 0.5);
    }
    if made.closure == Closure::Toggles {
        for y in [BUST, BUST + 54.0, BUST + 108.0, BUST + 162.0] {
            pen.seam(&Path::lines(&[(gap * 0.8 + 4.0, y), (gap * 0.8 + 26.0, y - 3.0)]).twice());
        }
    }
}

fn closed(pen: &mut Pen<'_>, made: &Made<'_>) {
    let (torso, garment) = (&made.torso, made.garment);
    let outline = made.body().outline();
    pen.inside(&torso.back_of_neck());
    if garment.length == Some(Length::Train) {
        train(pen, torso);
    }
    if garment.has(Mark::Points) {
        points(pen, torso);
    }
    sleeve::gap(pen, garment, torso, made.reach, made.ease);
    pen.body(&outline);
    body_details(pen, made, &outline);
    bands(pen, made, &outline);
    pen.edge(&outline);
    sleeve::draw(pen, garment, torso, made.reach, made.ease);
    fastenings(pen, made);
    if garment.has(Mark::Belt) && !matches!(garment.kind, Kind::Blouse | Kind::Shirt) {
        belt(pen, made, &outline);
    }
    collar::draw(pen, made.collar, torso, garment.kind == Kind::WrapCoat || torso.hem_y > HIP + 40.0);
    neck_details(pen, made);
    if garment.kind == Kind::Duffel || (garment.has(Mark::Hood) && made.collar == Collar::None) {
        hood(pen, torso);
    }
    if garment.has(Mark::Badge) && garment.kind != Kind::Jumper {
        pen.bead(
            &Path::lines(&[(30.0, 238.0), (44.0, 238.0), (44.0, 250.0), (37.0, 256.0), (30.0, 250.0)])
                .close(),
            [0xd8, 0xd0, 0xb8],
        );
    }
    if garment.has(Mark::Pompons) {
        for y in [238.0, 276.0, 314.0] {
            let colour = pen.cloth.second;
            pen.bead(&Path::ellipse(0.0, y, 10.0, 10.0), colour);
        }
    }
}

fn fastenings(pen: &mut Pen<'_>, made: &Made<'_>) {
    let (torso, garment) = (&made.torso, made.garment);
    let hem = (torso.hem_width(), torso.hem_y);
    match made.closure {
        Closure::Wrap => {
            let low = garment.kind == Kind::WrapCoat || made.cut == Cut::DropWaist;
            let tie = (torso.waist - 8.0, if low { HIP - 6.0 } else { WAIST - 2.0 });
            front::wrapped(pen, torso.depth, tie, (hem.0 * 0.62, hem.1 + 6.0));
            if garment.kind == Kind::WrapCoat || garment.buttons == Some(1) {
                pen.button(tie.0 - 14.0, tie.1 + 2.0, 8.0);
            } else if garment.kind == Kind::Overall {
                let bow = Path::at(tie.0, tie.1)
                    .bend((tie.0 - 20.0, tie.1 + 22.0), (tie.0 - 14.0, tie.1 + 40.0))
                    .line(tie.0 - 6.0, tie.1 + 38.0)
                    .bend((tie.0 - 8.0, tie.1 + 20.0), (tie.0, tie.1))
                    .close();
                pen.patch(&bow);
                pen.part(&Path::ellipse(tie.0, tie.1, 5.0, 6.0));
            }
        }
        closure => {
            if let Some(front) = made.front() {
                front::draw(pen, closure, front);
            }
        }
    }
}

/// A hood laid back.
fn hood(pen: &mut Pen<'_>, torso: &Torso) {
    let (_, y) = torso.neck_side;
    let hood = Path::at(0.0, y + 26.0)
        .curve((26.0, y + 22.0), (46.0, y + 10.0), (40.0, y - 8.0))
        .curve((34.0, y - 26.0), (14.0, y - 26.0), (0.0, y - 24.0))
        .both_halves();
    pen.part(&hood);
    let inner = Path::at(0.0, y + 10.0)
        .curve((16.0, y + 8.0), (26.0, y), (24.0, y - 10.0))
        .bend((12.0, y - 18.0), (0.0, y - 18.0))
        .both_halves();
    let inside = pen.cloth.inside();
    pen.fill(&inner, inside);
    pen.seam(&inner);
}

/// Handkerchief points that hang below the hem.
fn points(pen: &mut Pen<'_>, torso: &Torso) {
    let (x, y) = (torso.hem_width(), torso.hem_y);
    let hanging = Path::lines(&[
        (0.0, y - 40.0),
        (x, y - 20.0),
        (x * 0.96, y + 44.0),
        (x * 0.66, y + 12.0),
        (x * 0.4, y + 52.0),
        (0.0, y + 14.0),
    ]);
    pen.body(&hanging.both_halves());
}

/// A train, lying on the floor behind.
fn train(pen: &mut Pen<'_>, torso: &Torso) {
    let (x, y) = (torso.hem_width(), torso.hem_y);
    let lying = Path::at(0.0, y - 50.0)
        .line(x * 0.9, y - 60.0)
        .curve((x + 6.0, y - 20.0), (x + 40.0, y), (x + 62.0, y + 14.0))
        .curve((x + 40.0, y + 34.0), (x * 0.5, y + 36.0), (0.0, y + 34.0))
        .both_halves();
    pen.body(&lying);
    for share in [0.3, 0.7, 1.1] {
        pen.fold(&Path::at(x * 0.8, y - 20.0).bend((x, y + 4.0), (x * share + 30.0, y + 24.0)).twice());
    }
}
