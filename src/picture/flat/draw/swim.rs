//! Bathing costumes.

use super::figure::{CROTCH, HIP, THIGH, WAIST};
use super::pen::Pen;
use super::torso::{across, width_at};
use crate::picture::flat::model::{Path, Point};
use crate::picture::flat::read::{Closure, Garment, Length, Mark, Neck, Reach};

/// Draws one.
pub(super) fn draw(pen: &mut Pen<'_>, garment: &Garment) {
    let shape = Shape::of(garment);
    let outline = shape.outline();
    if shape.sleeved {
        sleeves(pen);
    }
    pen.inside(&shape.back());
    pen.body(&outline);
    bands(pen, garment, &outline, &shape);
    pen.stitch(
        &Path::at(shape.leg.1, shape.leg.2 - 6.0)
            .bend((30.0, shape.leg.2 - 3.0), (shape.leg.0, shape.leg.2 - 6.0))
            .twice(),
    );
    pen.edge(&outline);
    if garment.has(Mark::Skirted) {
        overskirt(pen, garment, &shape);
    }
    if garment.closure == Some(Closure::Buttons) && garment.marks.contains(&Mark::ButtonedThrough) {
        pen.seam(&Path::lines(&[(6.0, shape.depth), (6.0, WAIST)]));
    }
    if shape.sleeved {
        pen.seam(&Path::lines(&[(6.0, shape.depth), (6.0, WAIST)]));
        for at in 0..5_u8 {
            pen.button(0.0, shape.depth + 10.0 + f32::from(at) * 26.0, 3.2);
        }
    }
    if garment.has(Mark::ShoulderButtons) || garment.closure == Some(Closure::Toggles) {
        let count = garment.buttons.unwrap_or(2).min(3);
        for at in 0..count {
            let share = (f32::from(at) + 0.5) / f32::from(count);
            let (from, to) = (shape.inner, shape.outer);
            pen.button(-(from.0 + (to.0 - from.0) * share), from.1 + (to.1 - from.1) * share + 10.0, 3.6);
        }
        pen.seam(&Path::lines(&[
            (-shape.inner.0, shape.inner.1 + 16.0),
            (-shape.outer.0, shape.outer.1 + 16.0),
        ]));
    }
    if garment.has(Mark::Belt) {
        belt(pen, &outline);
    }
    if garment.has(Mark::Flash) {
        let second = pen.cloth.second;
        pen.bead(&bolt(), second);
    }
    if garment.has(Mark::Badge) {
        pen.bead(
            &Path::lines(&[(34.0, HIP - 22.0), (54.0, HIP - 18.0), (36.0, HIP - 6.0)]).close(),
            [0xe6, 0xe0, 0xd0],
        );
    }
}

struct Shape {
    neck: Neck,
    depth: f32,
    /// The inner and the outer end of the shoulder or strap.
    inner: Point,
    outer: Point,
    underarm: Point,
    /// The leg's outer and inner end, and its height.
    leg: (f32, f32, f32),
    cut_away: bool,
    sleeved: bool,
}

impl Shape {
    fn of(garment: &Garment) -> Self {
        let close = garment.has(Mark::LowBack) && !garment.has(Mark::Skirted);
        let halter = garment.neck == Some(Neck::Halter);
        let neck = garment.neck.unwrap_or(if close { Neck::V } else { Neck::Scoop });
        let depth = match neck {
            Neck::High | Neck::Round => 188.0,
            Neck::Square => 216.0,
            Neck::Halter => 214.0,
            Neck::V => 240.0,
            _ => 222.0,
        };
        let (inner, outer) = match neck {
            Neck::Halter => ((12.0, 172.0), (21.0, 173.0)),
            Neck::High | Neck::Round => ((26.0, 172.0), (62.0, 187.0)),
            _ if close => ((40.0, 178.0), (50.0, 181.0)),
            _ => ((36.0, 176.0), (58.0, 185.0)),
        };
        let leg_y = match garment.length {
            Some(Length::AboveKnee | Length::Knee | Length::BelowKnee) => THIGH + 40.0,
            Some(Length::Thigh) => THIGH - 4.0,
            _ if garment.has(Mark::HighLeg) => CROTCH + 6.0,
            _ if garment.has(Mark::Skirted) => CROTCH + 42.0,
            _ if garment.has(Mark::Legged) => CROTCH + 30.0,
            _ => CROTCH + 16.0,
        };
        let cut_away = garment.has(Mark::HighLeg);
        let leg = if cut_away { (64.0, 16.0, leg_y - 16.0) } else { (68.0, 5.0, leg_y) };
        Self {
            neck,
            depth,
            inner,
            outer,
            underarm: (if halter { 52.0 } else { 55.0 }, if close { 268.0 } else { 260.0 }),
            leg,
            cut_away,
            sleeved: matches!(garment.reach, Some(Reach::Elbow | Reach::Short | Reach::Cap)),
        }
    }

    fn neckline(&self) -> Path {
        let ((x, y), depth) = (self.inner, self.depth);
        let from = Path::at(0.0, depth);
        match self.neck {
            Neck::Square => from.line(x - 2.0, depth).line(x, y),
            Neck::V => from.bend((x * 0.75, y + (depth - y) * 0.5), (x, y)),
            Neck::Halter => from.bend((x * 1.2, depth - 12.0), (x, y)),
            _ => from.curve((x * 0.7, depth), (x - 1.0, y + (depth - y) * 0.5), (x, y)),
        }
    }

    fn outline(&self) -> Path {
        let (out, inn, y) = self.leg;
        let sides = self
            .neckline()
            .line(self.outer.0, self.outer.1)
            .curve(
                (self.outer.0 - 8.0, self.outer.1 + 36.0),
                (self.underarm.0 - 14.0, self.underarm.1 - 12.0),
                self.underarm,
            )
            .smooth(&[(46.0, WAIST), (64.0, HIP)]);
        let legs = if self.cut_away {
            sides
                .line(out + 1.0, y - 4.0)
                .curve((out - 22.0, y), (inn + 8.0, CROTCH), (inn - 2.0, CROTCH + 14.0))
                .line(0.0, CROTCH + 14.0)
        } else {
            sides
                .line(out, y)
                .bend(((out + inn) / 2.0, y + 5.0), (inn, y))
                .line(2.0, CROTCH + 6.0)
                .line(0.0, CROTCH + 4.0)
        };
        legs.both_halves()
    }

    /// What shows of the back above the neckline.
    fn back(&self) -> Path {
        let (x, y) = self.inner;
        let low = (y + 30.0).min(self.depth - 6.0);
        Path::at(0.0, low).bend((x * 0.9, low - 4.0), (x, y)).then(&self.neckline().reversed()).both_halves()
    }
}

fn sleeves(pen: &mut Pen<'_>) {
    let sleeve = Path::at(50.0, 182.0)
        .curve((70.0, 186.0), (84.0, 200.0), (96.0, 252.0))
        .line(66.0, 262.0)
        .line(52.0, 250.0)
        .close();
    pen.body(&sleeve.mirrored());
    pen.body(&sleeve);
    pen.stitch(&Path::lines(&[(94.0, 246.0), (66.0, 256.0)]).twice());
}

fn bands(pen: &mut Pen<'_>, garment: &Garment, outline: &Path, shape: &Shape) {
    let mut bands = Vec::new();
    if garment.has(Mark::BustBand) {
        bands.push((288.0, 306.0));
    }
    if garment.has(Mark::HipBand) {
        bands.push((HIP - 32.0, HIP - 14.0));
    }
    if garment.has(Mark::HemBand) && !garment.has(Mark::Skirted) && !shape.cut_away {
        bands.push((shape.leg.2 - 18.0, shape.leg.2 - 7.0));
    }
    for (from, to) in bands {
        pen.band(outline, from, to);
        pen.seam(&across(outline, from, 0.0));
        pen.seam(&across(outline, to, 0.0));
    }
    if garment.has(Mark::Edged) {
        pen.trim(&shape.neckline().twice(), 8.0);
        pen.trim(
            &Path::at(shape.outer.0, shape.outer.1)
                .curve(
                    (shape.outer.0 - 8.0, shape.outer.1 + 36.0),
                    (shape.underarm.0 - 14.0, shape.underarm.1 - 12.0),
                    shape.underarm,
                )
                .twice(),
            8.0,
        );
    }
    if garment.has(Mark::Drape) || garment.has(Mark::Gores) {
        for y in [286.0, 312.0, 338.0, 364.0, 390.0] {
            pen.fold(&across(outline, y, 8.0));
        }
    }
}

/// The skirt over the legs.
fn overskirt(pen: &mut Pen<'_>, garment: &Garment, shape: &Shape) {
    let low = shape.leg.2 - 13.0;
    let skirt = Path::at(0.0, HIP - 24.0)
        .bend((40.0, HIP - 25.0), (60.0, HIP - 30.0))
        .curve((66.0, HIP - 6.0), (72.0, low - 30.0), (75.0, low))
        .bend((40.0, low + 9.0), (0.0, low + 10.0))
        .both_halves();
    pen.part(&skirt);
    let pleated = garment.has(Mark::Pleats);
    for share in if pleated { vec![0.1, 0.3, 0.5, 0.7, 0.88] } else { vec![0.35, 0.72] } {
        let fold = Path::lines(&[(60.0 * share, HIP - 18.0), (75.0 * share, low + 6.0)]).twice();
        if pleated { pen.seam(&fold) } else { pen.fold(&fold) }
    }
    if garment.has(Mark::HemBand) || garment.has(Mark::Edged) || garment.has(Mark::HipBand) {
        pen.band(&skirt, low - 14.0, low - 4.0);
    }
    pen.edge(&skirt);
}

fn belt(pen: &mut Pen<'_>, outline: &Path) {
    let y = WAIST + 6.0;
    let x = width_at(outline, y) + 1.0;
    let cloth = pen.cloth.in_second();
    let mut other = pen.with(cloth);
    other.part(&Path::lines(&[(-x, y - 7.0), (x, y - 7.0), (x + 1.0, y + 7.0), (-x - 1.0, y + 7.0)]).close());
    other.bead(
        &Path::lines(&[(-9.0, y - 9.0), (9.0, y - 9.0), (9.0, y + 9.0), (-9.0, y + 9.0)]).close(),
        [0xcf, 0xcf, 0xd2],
    );
}

/// A flash of lightning from the right shoulder to the left hip.
fn bolt() -> Path {
    let right = [(-34.0, 204.0), (-3.0, 262.0), (-13.0, 266.0), (22.0, 322.0), (12.0, 326.0), (46.0, 388.0)];
    let left = [(-4.0, 334.0), (6.0, 329.0), (-32.0, 275.0), (-22.0, 270.0), (-46.0, 214.0)];
    Path::lines(&[&right[..], &left[..]].concat()).close()
}
