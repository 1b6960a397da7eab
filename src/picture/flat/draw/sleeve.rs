//! Sleeves: laid over the body, down the arm from shoulder and underarm.

use super::figure::WRIST;
use super::pen::Pen;
use super::torso::Torso;
use crate::picture::flat::model::{Path, Point};
use crate::picture::flat::read::{Garment, Mark, Reach, Set};

/// The arm from the middle of the armhole to the wrist, and what goes across it.
struct Arm {
    from: Point,
    along: Point,
}

impl Arm {
    fn of(torso: &Torso) -> Self {
        let (top, under) = (torso.shoulder, torso.underarm());
        let from = ((top.0 + under.0) / 2.0, (top.1 + under.1) / 2.0);
        let wide = (torso.shoulder.0 - 74.0).max(0.0);
        Self { from, along: (WRIST.0 + wide - from.0, WRIST.1 - from.1) }
    }

    /// So far down the arm, so far outwards.
    fn at(&self, down: f32, out: f32) -> Point {
        let length = (self.along.0 * self.along.0 + self.along.1 * self.along.1).sqrt();
        let across = (self.along.1 / length, -self.along.0 / length);
        (
            self.from.0 + self.along.0 * down + across.0 * out,
            self.from.1 + self.along.1 * down + across.1 * out,
        )
    }
}

/// How far down the arm a sleeve ends, and half its width there.
fn end(reach: Reach, set: Set, ease: f32) -> (f32, f32) {
    let (down, width) = match reach {
        Reach::None => (0.0, 0.0),
        Reach::Cap => (0.17, 33.0),
        Reach::Short => (0.36, 28.0),
        Reach::Elbow => (0.52, 24.0),
        Reach::Pushed => (0.56, 20.0),
        Reach::ThreeQuarter => (0.8, 19.0),
        Reach::Long => (1.0, 15.0),
    };
    let shaped = match set {
        Set::Bell => width * 1.6,
        Set::Puffed if down < 0.6 => width * 0.86,
        Set::Bishop => 14.0,
        Set::Dolman => width + 4.0,
        Set::Plain | Set::Puffed | Set::Raglan => width,
    };
    (down, shaped + ease * 0.5)
}

/// The gap of paper about both sleeves. It is drawn before the body, which it must not cut.
pub(super) fn gap(pen: &mut Pen<'_>, garment: &Garment, torso: &Torso, reach: Reach, ease: f32) {
    if let Some(sleeve) = Sleeve::of(garment, torso, reach, ease) {
        pen.gap(&sleeve.edges().twice());
    }
}

/// Both sleeves of a garment.
pub(super) fn draw(pen: &mut Pen<'_>, garment: &Garment, torso: &Torso, reach: Reach, ease: f32) {
    let Some(right) = Sleeve::of(garment, torso, reach, ease) else { return };
    let (down, edges) = (right.down, right.edges());
    let whole = right.whole();
    pen.cloth_in(&whole);
    pen.cloth_in(&whole.mirrored());
    right.folds(pen, reach);
    if garment.set == Set::Bishop || (garment.set == Set::Puffed && down < 0.6) {
        right.band(pen);
    } else if garment.has(Mark::Cuffs) && down > 0.5 {
        right.cuff(pen);
    } else if garment.has(Mark::Edged) && pen.cloth.has_second {
        pen.trim(&right.hem(-3.0).twice(), 4.0);
    } else {
        pen.stitch(&right.hem(-6.0).twice());
    }
    pen.edge(&edges.twice());
    if let Some(seam) = right.seam() {
        pen.edge(&seam.twice());
    }
}

struct Sleeve<'a> {
    arm: Arm,
    torso: &'a Torso,
    down: f32,
    width: f32,
    set: Set,
}

impl<'a> Sleeve<'a> {
    /// The right sleeve, where there is one.
    fn of(garment: &Garment, torso: &'a Torso, reach: Reach, ease: f32) -> Option<Self> {
        let (down, width) = end(reach, garment.set, ease);
        let sleeve = Self { arm: Arm::of(torso), torso, down, width, set: garment.set };
        (reach != Reach::None && !torso.halter).then_some(sleeve)
    }

    fn outer(&self) -> Path {
        let (top, end) = (self.torso.shoulder, self.arm.at(self.down, self.width));
        let start = match self.set {
            Set::Raglan => {
                let neck = self.torso.neck_side;
                Path::at(neck.0, neck.1).curve(
                    (52.0, 180.0),
                    (top.0 - 8.0, top.1 - 6.0),
                    (top.0 + 4.0, top.1 + 12.0),
                )
            }
            Set::Dolman => Path::at(top.0 - 15.0, top.1 - 3.0),
            _ => Path::at(top.0, top.1),
        };
        match self.set {
            Set::Puffed => {
                let puff = self.down.min(0.4);
                let low = self.arm.at(puff, self.width.max(22.0) + 3.0);
                let puffed = start.curve(
                    (top.0 + 12.0, top.1 - 20.0),
                    (self.arm.at(puff * 0.6, 60.0).0, low.1 - 38.0),
                    low,
                );
                puffed.line(end.0, end.1)
            }
            Set::Bishop => start
                .curve(
                    self.arm.at(0.2, 38.0),
                    self.arm.at(self.down * 0.86, 42.0),
                    self.arm.at(self.down - 0.07, self.width + 4.0),
                )
                .line(end.0, end.1),
            Set::Bell => start.curve(self.arm.at(0.12, 36.0), self.arm.at(self.down * 0.6, 20.0), end),
            _ => start.curve(
                self.arm.at(0.1, 37.0),
                self.arm.at(self.down * 0.5, (self.width + 34.0) / 2.0 - 1.0),
                end,
            ),
        }
    }

    /// A cap stands over the shoulder and ends in the armhole.
    fn is_cap(&self) -> bool {
        self.down < 0.2
    }

    fn inner_end(&self) -> Point {
        if self.is_cap() {
            (self.torso.bust - 3.0, self.torso.underarm().1 - 12.0)
        } else {
            self.arm.at(self.down, -self.width)
        }
    }

    /// From the cuff's outside to its inside.
    fn hem(&self, further: f32) -> Path {
        let down = self.down + further / 240.0;
        let (out, inn) = (self.arm.at(down, self.width), self.inner_end());
        let inn = if self.is_cap() { inn } else { self.arm.at(down, -self.width) };
        let sag = self.arm.at(down + 0.025, 0.0);
        Path::at(out.0, out.1).bend(sag, inn)
    }

    fn inner(&self) -> Path {
        if self.is_cap() {
            return Path::lines(&[self.inner_end(), self.torso.underarm()]);
        }
        let (from, to) = (self.arm.at(self.down, -self.width), self.torso.underarm());
        let path = Path::at(from.0, from.1);
        match self.set {
            Set::Dolman => path.bend((to.0 + 6.0, to.1 + 44.0), (to.0 - 1.0, to.1 + 34.0)),
            Set::Bishop => path.curve(self.arm.at(self.down * 0.88, -34.0), self.arm.at(0.4, -27.0), to),
            Set::Bell => path.curve(self.arm.at(self.down * 0.7, -16.0), self.arm.at(0.3, -22.0), to),
            _ => path.bend(self.arm.at(self.down * 0.4, -(self.width * 0.4 + 18.0)), to),
        }
    }

    fn edges(&self) -> Path {
        self.outer().then(&self.hem(0.0)).then(&self.inner())
    }

    fn whole(&self) -> Path {
        let (under, top) = (self.torso.underarm(), self.torso.shoulder);
        let edges = self.edges();
        match self.set {
            Set::Raglan => edges.bend((46.0, 226.0), self.torso.neck_side).close(),
            Set::Dolman => edges
                .curve((under.0 - 34.0, under.1), (top.0 - 40.0, top.1 + 30.0), (top.0 - 26.0, top.1 - 6.0))
                .close(),
            _ => edges.curve((under.0 - 10.0, under.1 - 14.0), (top.0 - 9.0, top.1 + 24.0), top).close(),
        }
    }

    /// Where the sleeve is sewn in; a sleeve cut in one with the body has no seam.
    fn seam(&self) -> Option<Path> {
        match self.set {
            Set::Dolman => None,
            Set::Raglan => {
                let (under, neck) = (self.torso.underarm(), self.torso.neck_side);
                Some(Path::at(under.0, under.1).bend((46.0, 226.0), neck))
            }
            _ => Some(self.torso.armhole()),
        }
    }

    fn folds(&self, pen: &mut Pen<'_>, reach: Reach) {
        let top = self.torso.shoulder;
        if self.set == Set::Puffed {
            for (dx, dy) in [(-4.0, 12.0), (-2.0, 24.0), (1.0, 4.0)] {
                pen.fold(
                    &Path::at(top.0 + dx, top.1 + dy)
                        .bend((top.0 + 10.0, top.1 + dy - 4.0), (top.0 + 20.0, top.1 + dy + 6.0))
                        .twice(),
                );
            }
        }
        if reach == Reach::Pushed {
            for back in [0.05, 0.1, 0.15] {
                let (out, inn) = (
                    self.arm.at(self.down - back, self.width + 4.0),
                    self.arm.at(self.down - back + 0.02, -self.width - 2.0),
                );
                pen.fold(
                    &Path::at(out.0, out.1).bend(self.arm.at(self.down - back + 0.05, 0.0), inn).twice(),
                );
            }
        } else if self.down > 0.7 && self.set != Set::Bell {
            let (from, to) = (self.arm.at(0.5, -self.width + 2.0), self.arm.at(0.53, 2.0));
            pen.fold(&Path::at(from.0, from.1).bend(self.arm.at(0.52, -6.0), to).twice());
            let (from, to) = (self.arm.at(0.56, -self.width + 2.0), self.arm.at(0.58, -2.0));
            pen.fold(&Path::at(from.0, from.1).line(to.0, to.1).twice());
        }
        if self.set == Set::Bishop {
            for out in [-12.0, -4.0, 4.0, 12.0] {
                let (from, to) =
                    (self.arm.at(self.down - 0.06, out), self.arm.at(self.down - 0.24, out * 1.7));
                pen.fold(&Path::lines(&[from, to]).twice());
            }
        }
    }

    /// A narrow band into which a full sleeve is gathered.
    fn band(&self, pen: &mut Pen<'_>) {
        let cuff = self.between(0.06, self.width + 2.0, self.width + 1.0);
        let cloth = pen.cloth.plain();
        let mut plain = pen.with(cloth);
        plain.part(&cuff);
        plain.part(&cuff.mirrored());
    }

    /// A cuff turned back.
    fn cuff(&self, pen: &mut Pen<'_>) {
        let cuff = self.between(0.13, self.width + 3.5, self.width + 4.5);
        let cloth = if pen.cloth.has_second { pen.cloth.in_second() } else { pen.cloth };
        let mut other = pen.with(cloth);
        other.part(&cuff);
        other.part(&cuff.mirrored());
    }

    fn between(&self, high: f32, low_width: f32, high_width: f32) -> Path {
        let up = self.down - high;
        let (a, b) = (self.arm.at(up, high_width), self.arm.at(self.down, low_width));
        let (c, d) = (self.arm.at(self.down, -low_width), self.arm.at(up, -high_width));
        Path::at(a.0, a.1)
            .line(b.0, b.1)
            .bend(self.arm.at(self.down + 0.025, 0.0), c)
            .line(d.0, d.1)
            .bend(self.arm.at(up + 0.025, 0.0), a)
            .close()
    }
}

/// The middle of the end of a sleeve on the right, and of the arm a third up.
pub(super) fn hand() -> (Point, Point) {
    (WRIST, (WRIST.0 + 9.0, WRIST.1 + 30.0))
}
