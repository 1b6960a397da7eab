//! Skirts: the skirt alone, and what is drawn on the skirt of a dress or a coat.

use super::figure::{self, HIP, KNEE, WAIST};
use super::pen::Pen;
use super::torso::{across, width_at};
use crate::picture::flat::model::Path;
use crate::picture::flat::read::{Cut, Garment, Kind, Length, Mark};

/// A skirt from the waist.
pub(super) fn draw(pen: &mut Pen<'_>, garment: &Garment) {
    let cut = garment.cut.unwrap_or(if garment.has(Mark::Pleats) { Cut::ALine } else { Cut::Straight });
    let hem = garment.length.map_or(KNEE + 46.0, figure::hem);
    let (hip, wide) = match cut {
        Cut::FullSkirt => (104.0, 158.0),
        Cut::ALine | Cut::Flared | Cut::Princess => (72.0, 104.0),
        Cut::Bias => (67.0, 92.0),
        Cut::Column => (66.0, 62.0),
        _ if garment.has(Mark::Gores) => (69.0, 90.0),
        _ => (68.0, 72.0),
    };
    let share = ((hem - HIP) / (KNEE - HIP)).min(1.4);
    let end = hip + (wide - hip) * share;
    let side = if cut == Cut::FullSkirt {
        Path::at(46.0, WAIST + 8.0).curve(
            (hip - 12.0, WAIST + 30.0),
            (end - 8.0, hem - (hem - WAIST) * 0.45),
            (end, hem),
        )
    } else {
        Path::at(46.0, WAIST + 8.0).smooth(&[(hip, HIP), (end, hem)])
    };
    let drop = 4.0 + end * 0.07;
    let outline = Path::at(0.0, WAIST + 10.0)
        .line(46.0, WAIST + 8.0)
        .then(&side)
        .curve((end * 0.7, hem + drop * 0.8), (end * 0.35, hem + drop), (0.0, hem + drop))
        .both_halves();
    pen.body(&outline);
    details(pen, garment, &outline, Hang { top: WAIST + 10.0, hem, cut });
    if garment.kind == Kind::DividedSkirt {
        divided(pen, hem + drop);
    }
    pen.edge(&outline);
    let band =
        Path::lines(&[(-46.0, WAIST - 3.0), (46.0, WAIST - 3.0), (46.5, WAIST + 9.0), (-46.5, WAIST + 9.0)])
            .close();
    let cloth = pen.cloth.plain();
    pen.with(cloth).part(&band);
}

/// Where a skirt hangs from, where it ends, and its outline.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hang {
    pub(super) top: f32,
    pub(super) hem: f32,
    pub(super) cut: Cut,
}

/// The lines on a skirt: pleats, gores, gathers, tiers, bands.
pub(super) fn details(pen: &mut Pen<'_>, garment: &Garment, outline: &Path, hang: Hang) {
    let width = width_at(outline, hang.hem - 3.0);
    let top = width_at(outline, hang.top + 4.0);
    let end = |share: f32| hang.hem + (4.0 + width * 0.07) * (1.0 - share * share * 0.8);
    if garment.has(Mark::HemBand) && pen.cloth.has_second {
        pen.band(outline, hang.hem - 18.0, hang.hem - 6.0);
    }
    if garment.has(Mark::Tiers) {
        tiers(pen, outline, hang);
    } else if garment.has(Mark::Pleats) {
        for share in [0.12, 0.3, 0.48, 0.66, 0.84] {
            pen.seam(&Path::lines(&[(top * share, hang.top), (width * share, end(share) - 1.0)]).twice());
            pen.fold(
                &Path::lines(&[
                    (top * share + 2.0, hang.top + 30.0),
                    (width * share + 6.0, end(share) - 2.0),
                ])
                .twice(),
            );
        }
    } else if garment.has(Mark::Gores) || matches!(hang.cut, Cut::Princess) {
        for share in [0.34, 0.7] {
            let from = (top * share, hang.top);
            pen.seam(
                &Path::at(from.0, from.1)
                    .bend((top * share + 3.0, hang.hem - 90.0), (width * share, end(share) - 1.0))
                    .twice(),
            );
        }
    } else if matches!(hang.cut, Cut::FullSkirt | Cut::DropWaist | Cut::Flared | Cut::Bias | Cut::ALine) {
        folds(pen, hang, top, width, end);
    }
    if garment.has(Mark::BoxPleat) {
        let from = (hang.top + hang.hem) / 2.0 + 10.0;
        pen.seam(&Path::lines(&[(0.0, from - 40.0), (0.0, end(0.0))]));
        pen.fold(&Path::lines(&[(0.0, from - 6.0), (10.0, end(0.1))]).twice());
    }
    if garment.has(Mark::Tucks) {
        for up in [34.0, 54.0] {
            pen.seam(&across(outline, hang.hem - up, 6.0));
            pen.stitch(&across(outline, hang.hem - up - 4.0, 6.0));
        }
    }
    if hang.hem > KNEE - 40.0 {
        pen.stitch(&across(outline, hang.hem - 5.0, width * 0.09));
    }
}

fn folds(pen: &mut Pen<'_>, hang: Hang, top: f32, width: f32, end: impl Fn(f32) -> f32) {
    let full = matches!(hang.cut, Cut::FullSkirt | Cut::DropWaist);
    let length = hang.hem - hang.top;
    for (share, reach) in [(0.14, 0.62), (0.36, 0.5), (0.58, 0.68), (0.8, 0.46)] {
        let to = (width * share, end(share) - 2.0);
        let from_y = to.1 - length * reach;
        let from_x = to.0 - (to.0 - top * share) * reach;
        pen.fold(&Path::at(from_x, from_y).bend((from_x + 2.0, from_y + length * 0.2), to).twice());
        if full {
            let down = hang.top + length * (0.1 + reach * 0.25);
            let x = top * share + (to.0 - top * share) * 0.24;
            pen.fold(
                &Path::at(top * share, hang.top + 1.0)
                    .bend((top * share + 2.0, hang.top + 14.0), (x, down))
                    .twice(),
            );
        }
    }
}

fn tiers(pen: &mut Pen<'_>, outline: &Path, hang: Hang) {
    let step = (hang.hem - hang.top) / 3.0;
    for at in [1.0, 2.0] {
        let y = hang.top + step * at;
        pen.seam(&across(outline, y, 7.0));
        let width = width_at(outline, y);
        for share in [0.1, 0.3, 0.5, 0.7, 0.9] {
            pen.fold(&Path::lines(&[(width * share, y + 5.0), (width * share * 1.04, y + 20.0)]).twice());
        }
    }
}

/// The parting of a divided skirt.
pub(super) fn divided(pen: &mut Pen<'_>, bottom: f32) {
    pen.edge(&Path::lines(&[(0.0, HIP + 36.0), (0.0, bottom)]));
    pen.fold(&Path::lines(&[(0.0, WAIST + 12.0), (0.0, HIP + 36.0)]));
    pen.fold(&Path::lines(&[(4.0, HIP + 44.0), (9.0, bottom - 4.0)]).twice());
}

/// How long a garment of this kind is where the record does not say.
pub(super) fn usual_length(kind: Kind) -> Length {
    match kind {
        Kind::Gown | Kind::Christening | Kind::Drapery => Length::Floor,
        Kind::Nightshirt | Kind::OpenGown => Length::Calf,
        Kind::Coat | Kind::WrapCoat | Kind::Robe => Length::BelowKnee,
        Kind::Duffel => Length::Knee,
        Kind::Oilskin => Length::Calf,
        Kind::Overall | Kind::Pinafore => Length::Knee,
        Kind::Tunic | Kind::Smock => Length::Thigh,
        Kind::Jacket | Kind::Cardigan | Kind::Jumper | Kind::Blouse | Kind::Shirt | Kind::Singlet => {
            Length::Hip
        }
        Kind::Waistcoat | Kind::HalterTop => Length::Waist,
        _ => Length::BelowKnee,
    }
}
