//! The outline of what hangs from the shoulders: neck, shoulder, armhole, side, hem.

use super::figure::{HIP, KNEE, NECK, SHOULDER, UNDERARM, WAIST};
use crate::picture::flat::model::{Path, Point};
use crate::picture::flat::read::{Cut, Neck};

/// The measures of an outline; widths are half widths.
#[derive(Clone, Debug)]
pub(super) struct Torso {
    pub(super) neck: Neck,
    /// Where the neckline meets the shoulder.
    pub(super) neck_side: Point,
    /// How low the neckline is in the middle.
    pub(super) depth: f32,
    pub(super) shoulder: Point,
    pub(super) bust: f32,
    pub(super) waist: f32,
    pub(super) hip: f32,
    /// The width that the hem has at the knee; other lengths follow its slope.
    pub(super) hem: f32,
    pub(super) hem_y: f32,
    /// Where a skirt is sewn on, if one is.
    pub(super) seam: Option<f32>,
    /// A halter has no shoulder.
    pub(super) halter: bool,
}

impl Torso {
    /// The outline of a cut, with room under it for what is worn below.
    pub(super) fn cut(cut: Cut, ease: f32, hem_y: f32) -> Self {
        let (bust, waist, hip, hem, seam) = match cut {
            Cut::Straight => (60.0, 58.0, 66.0, 74.0, None),
            Cut::Boxy => (64.0, 66.0, 69.0, 74.0, None),
            Cut::Fitted => (59.0, 46.0, 66.0, 82.0, Some(WAIST)),
            Cut::FullSkirt => (58.0, 43.0, 100.0, 146.0, Some(WAIST)),
            Cut::ALine => (60.0, 70.0, 88.0, 120.0, None),
            Cut::Bias => (57.0, 47.0, 64.0, 82.0, None),
            Cut::DropWaist => (60.0, 60.0, 65.0, 88.0, Some(HIP - 4.0)),
            Cut::Princess => (59.0, 48.0, 72.0, 104.0, None),
            Cut::Column => (57.0, 48.0, 63.0, 62.0, None),
            Cut::Flared => (59.0, 48.0, 68.0, 108.0, Some(WAIST)),
            Cut::Cocoon => (68.0, 80.0, 86.0, 66.0, None),
        };
        let wide = if matches!(cut, Cut::Boxy | Cut::Cocoon) { 5.0 } else { 0.0 };
        Self {
            neck: Neck::Round,
            neck_side: NECK,
            depth: 196.0,
            shoulder: (SHOULDER.0 + wide + ease * 0.4, SHOULDER.1),
            bust: bust + ease,
            waist: waist + ease,
            hip: hip + ease,
            hem: hem + ease,
            hem_y,
            seam,
            halter: false,
        }
    }

    /// The same outline with another neckline.
    pub(super) fn with_neck(mut self, neck: Neck) -> Self {
        self.neck = neck;
        (self.neck_side, self.depth) = match neck {
            Neck::Round => (NECK, 197.0),
            Neck::V => ((25.0, 171.0), 248.0),
            Neck::Square => ((34.0, 174.5), 214.0),
            Neck::Boat => ((46.0, 179.0), 187.0),
            Neck::High => ((23.0, 168.0), 178.0),
            Neck::Cowl => ((34.0, 174.5), 232.0),
            Neck::Halter => ((24.0, 168.0), 214.0),
            Neck::Sweetheart => ((36.0, 175.5), 228.0),
            Neck::Scoop => ((38.0, 176.0), 226.0),
        };
        self.halter = neck == Neck::Halter;
        self
    }

    /// Without sleeves the shoulder is narrower.
    pub(super) fn sleeveless(mut self) -> Self {
        self.shoulder = (self.shoulder.0.min(66.0).max(self.neck_side.0 + 10.0), 187.0);
        self.bust = self.bust.min(61.0);
        self
    }

    /// Hung from straps.
    pub(super) fn strapped(mut self) -> Self {
        self.shoulder = (self.neck_side.0 + 8.0, self.neck_side.1 + 3.0);
        self.bust = self.bust.min(58.0);
        self
    }

    pub(super) fn underarm(&self) -> Point {
        (self.bust, UNDERARM)
    }

    /// How wide the hem is where it hangs.
    pub(super) fn hem_width(&self) -> f32 {
        if self.hem_y <= HIP {
            let share = ((self.hem_y - WAIST) / (HIP - WAIST)).clamp(0.0, 1.0);
            return self.waist + (self.hip - self.waist) * share;
        }
        let share = ((self.hem_y - HIP) / (KNEE - HIP)).min(1.45);
        self.hip + (self.hem - self.hip) * share
    }

    fn drop(&self) -> f32 {
        5.0 + self.hem_width() * 0.07
    }

    /// From the middle of the neckline to its side.
    pub(super) fn neckline(&self) -> Path {
        let ((x, y), depth) = (self.neck_side, self.depth);
        let from = Path::at(0.0, depth);
        match self.neck {
            Neck::V | Neck::Halter => from.bend((x * 0.62, y + (depth - y) * 0.42), (x, y)),
            Neck::Square => from.line(x - 3.0, depth - 1.0).line(x, y),
            Neck::Boat | Neck::High => from.bend((x * 0.8, depth), (x, y)),
            Neck::Sweetheart => {
                from.curve((4.0, depth - 20.0), (30.0, depth - 24.0), (x - 2.0, depth - 6.0)).line(x, y)
            }
            Neck::Round | Neck::Scoop | Neck::Cowl => {
                from.curve((x * 0.62, depth), (x - 1.0, y + (depth - y) * 0.55), (x, y))
            }
        }
    }

    /// The armhole, from shoulder to underarm.
    pub(super) fn armhole(&self) -> Path {
        let (from, to) = (self.shoulder, self.underarm());
        if self.halter {
            let side = self.neck_side;
            return Path::at(side.0 + 6.0, side.1 + 2.0).curve(
                (side.0 + 8.0, 214.0),
                (to.0 - 18.0, 246.0),
                to,
            );
        }
        Path::at(from.0, from.1).curve((from.0 - 9.0, from.1 + 24.0), (to.0 - 10.0, to.1 - 14.0), to)
    }

    /// From underarm to hem.
    pub(super) fn side(&self) -> Path {
        let (start, end) = (self.underarm(), (self.hem_width(), self.hem_y));
        let from = Path::at(start.0, start.1);
        let waist = (self.waist, WAIST);
        if self.hem_y < WAIST + 12.0 {
            return from.bend((self.waist, (UNDERARM + self.hem_y) / 2.0), (self.waist, self.hem_y));
        }
        match self.seam {
            Some(seam) if self.hem_y > seam + 40.0 => {
                let width = if seam > WAIST { self.hip } else { self.waist };
                let bodice =
                    if seam > WAIST { from.smooth(&[waist, (width, seam)]) } else { from.smooth(&[waist]) };
                let full = self.hem > 130.0;
                let out = if full { (width + 46.0, seam + 26.0) } else { (self.hip.max(width), HIP) };
                if full || seam > WAIST {
                    let lean = if full {
                        (end.0 - 8.0, end.1 - (end.1 - seam) * 0.45)
                    } else {
                        (width + 2.0, seam + 40.0)
                    };
                    bodice.curve(if full { out } else { (width + 1.0, seam + 12.0) }, lean, end)
                } else {
                    bodice.smooth(&[out, end])
                }
            }
            _ if self.hem_y < HIP + 30.0 => from.smooth(&[waist, end]),
            _ => from.smooth(&[waist, (self.hip, HIP), end]),
        }
    }

    /// From the side of the hem to its middle.
    pub(super) fn hemline(&self) -> Path {
        let (x, y) = (self.hem_width(), self.hem_y);
        Path::at(x, y).curve(
            (x * 0.7, y + self.drop() * 0.8),
            (x * 0.35, y + self.drop()),
            (0.0, y + self.drop()),
        )
    }

    /// The right half, from the side of the neckline to the side of the hem.
    fn outer_edge(&self) -> Path {
        let armhole = self.armhole();
        let shoulder = if self.halter {
            Path::at(self.neck_side.0, self.neck_side.1).line(self.neck_side.0 + 6.0, self.neck_side.1 + 2.0)
        } else {
            Path::at(self.neck_side.0, self.neck_side.1).line(self.shoulder.0, self.shoulder.1)
        };
        shoulder.then(&armhole).then(&self.side())
    }

    /// The whole outline.
    pub(super) fn outline(&self) -> Path {
        self.neckline().then(&self.outer_edge()).then(&self.hemline()).both_halves()
    }

    /// One front of a garment that stands open, on the right.
    pub(super) fn open_front(&self, gap: f32) -> Path {
        let edge = self.front_edge(gap, 0.0);
        let (x, y) = (gap.min(self.hem_width() * 0.5) * 1.15, self.hem_y + 4.0);
        self.outer_edge()
            .curve((self.hem_width() * 0.75, self.hem_y + 5.0), (self.hem_width() * 0.6, y), (x, y))
            .then(&edge)
            .close()
    }

    /// The edge of an open front, from its hem up to the neck, or a line so far inside it.
    pub(super) fn front_edge(&self, gap: f32, inset: f32) -> Path {
        let (x, y) = (self.neck_side.0 + inset, self.neck_side.1 + inset * 0.4);
        let low = gap.min(self.hem_width() * 0.5);
        Path::at(low * 1.15 + inset, self.hem_y + 4.0).curve(
            (low + inset, self.hem_y * 0.6 + y * 0.4),
            (gap * 0.6 + inset, y + 90.0),
            (x, y),
        )
    }

    /// The same outline with its shoulder drawn in, for a sleeve that covers it.
    pub(super) fn under_raglan(&self) -> Self {
        Self { shoulder: (self.shoulder.0 - 14.0, self.shoulder.1 - 2.0), ..self.clone() }
    }

    /// What shows of the inside: the back, up to the back of the neck.
    pub(super) fn back(&self) -> Path {
        let (x, y) = self.neck_side;
        let neck = Path::at(0.0, y + 3.0).bend((x * 0.7, y + 3.0), (x, y));
        neck.then(&self.outer_edge()).then(&self.hemline()).both_halves()
    }

    /// What shows of the inside above the front neckline.
    pub(super) fn back_of_neck(&self) -> Path {
        let (x, y) = self.neck_side;
        Path::at(0.0, y + 4.0)
            .bend((x * 0.8, y + 4.0), (x, y))
            .then(&self.neckline().reversed())
            .both_halves()
    }
}

/// How far an outline reaches to the right at a height.
pub(super) fn width_at(outline: &Path, y: f32) -> f32 {
    let mut most = 0.0_f32;
    for polygon in outline.polygons() {
        let next = polygon.iter().cycle().skip(1);
        for (a, b) in polygon.iter().zip(next) {
            if (a.1 > y) != (b.1 > y) {
                most = most.max(a.0 + (b.0 - a.0) * (y - a.1) / (b.1 - a.1));
            }
        }
    }
    most
}

/// A line across an outline at a height, sagging a little as cloth does.
pub(super) fn across(outline: &Path, y: f32, sag: f32) -> Path {
    let x = width_at(outline, y);
    Path::at(-x, y).curve((-x * 0.5, y + sag), (x * 0.5, y + sag), (x, y))
}
