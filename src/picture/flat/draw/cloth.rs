//! What a cloth looks like on a flat: its colour as it is drawn, and its pattern as plain shapes cut to an outline.

use crate::picture::flat::model::{Path, Point, Rgb};
use crate::picture::flat::read::{Garment, Pattern};

/// The dark outline, which holds on white paper.
pub(super) const INK: Rgb = [0x16, 0x16, 0x1a];

/// The colours of a garment as they are drawn.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cloth {
    /// What fills it.
    pub(super) fill: Rgb,
    /// Trims and pattern.
    pub(super) second: Rgb,
    /// Whether the record names a second colour.
    pub(super) has_second: bool,
    pub(super) pattern: Pattern,
}

impl Cloth {
    pub(super) fn of(garment: &Garment) -> Self {
        let fill = lifted(garment.colours.first().copied().unwrap_or([255; 3]));
        let second = garment.colours.get(1).copied().map(lifted);
        Self {
            fill,
            second: second.unwrap_or_else(|| toward(fill, if is_dark(fill) { [255; 3] } else { INK }, 30)),
            has_second: second.is_some(),
            pattern: garment.pattern,
        }
    }

    pub(super) fn plain(self) -> Self {
        Self { pattern: Pattern::Plain, ..self }
    }

    pub(super) fn in_second(self) -> Self {
        Self { fill: self.second, second: self.fill, pattern: Pattern::Plain, ..self }
    }

    /// Seams, folds and stitches: dark on light cloth, light on dark.
    pub(super) fn seam(self) -> Rgb {
        if is_dark(self.fill) { toward(self.fill, [255; 3], 52) } else { toward(self.fill, INK, 72) }
    }

    /// Folds and surface: fainter than a seam.
    pub(super) fn faint(self) -> Rgb {
        if is_dark(self.fill) { toward(self.fill, [255; 3], 26) } else { toward(self.fill, INK, 30) }
    }

    /// The inside of a garment, seen at the back of its neck.
    pub(super) fn inside(self) -> Rgb {
        if is_dark(self.fill) { toward(self.fill, [255; 3], 16) } else { toward(self.fill, INK, 22) }
    }
}

/// Black is drawn as charcoal, or no seam would show in it.
fn lifted(colour: Rgb) -> Rgb {
    const FLOOR: u32 = 50;
    let weight = luma(colour);
    if weight >= FLOOR { colour } else { toward(colour, [255; 3], (FLOOR - weight) * 100 / 255) }
}

fn luma([red, green, blue]: Rgb) -> u32 {
    (u32::from(red) * 30 + u32::from(green) * 59 + u32::from(blue) * 11) / 100
}

fn is_dark(colour: Rgb) -> bool {
    luma(colour) < 112
}

/// So many hundredths of the way to another colour.
pub(super) fn toward(from: Rgb, to: Rgb, hundredths: u32) -> Rgb {
    let mix = |at: usize| {
        let (from, to) = (u32::from(from[at]), u32::from(to[at]));
        u8::try_from((from * (100 - hundredths) + to * hundredths) / 100).unwrap_or(u8::MAX)
    };
    [mix(0), mix(1), mix(2)]
}

/// One shape of a pattern.
pub(super) enum Motif {
    /// Filled, in the cloth's second colour.
    Filled(Path),
    /// Filled, in a colour between the first and the second.
    Blended(Path),
    /// A fine line, fainter than a seam.
    Fine(Path),
}

/// The pattern of a cloth within an outline.
pub(super) fn pattern(cloth: Cloth, outline: &Path) -> Vec<Motif> {
    let inside = Inside::of(outline);
    let across = (1.0, 0.0);
    let down = (0.0, 1.0);
    let slant = (0.707_106_8, 0.707_106_8);
    let back = (0.707_106_8, -0.707_106_8);
    match cloth.pattern {
        Pattern::Plain => Vec::new(),
        Pattern::StripeAlong => inside.bars(across, 13.0, 4.0).map(Motif::Filled).collect(),
        Pattern::StripeAcross => inside.bars(down, 26.0, 11.0).map(Motif::Filled).collect(),
        Pattern::StripeDiagonal => inside.bars(slant, 52.0, 22.0).map(Motif::Filled).collect(),
        Pattern::Check => {
            let crossed =
                inside.bars(across, 22.0, 9.0).chain(inside.bars(down, 22.0, 9.0)).map(Motif::Blended);
            let lines =
                inside.lines(across, 22.0).into_iter().chain(inside.lines(down, 22.0)).map(Motif::Fine);
            crossed.chain(lines).collect()
        }
        Pattern::Dot => inside.spots(15.0, |x, y| Path::ellipse(x, y, 2.6, 2.6)).map(Motif::Filled).collect(),
        Pattern::Print => inside.spots(25.0, sprig).map(Motif::Filled).collect(),
        Pattern::Fleck => inside
            .spots(11.0, |x, y| Path::lines(&[(x - 1.6, y + 1.6), (x + 1.6, y - 1.6)]))
            .map(Motif::Fine)
            .collect(),
        Pattern::Loop => inside
            .spots(9.0, |x, y| Path::at(x - 2.2, y).bend((x, y - 4.0), (x + 2.2, y)))
            .map(Motif::Fine)
            .collect(),
        Pattern::Fur => inside
            .spots(8.0, |x, y| Path::at(x, y - 4.0).bend((x + 2.5, y), (x + 1.0, y + 4.0)))
            .map(Motif::Fine)
            .collect(),
        Pattern::Lace => inside.spots(13.0, |x, y| Path::ellipse(x, y, 3.6, 3.6)).map(Motif::Fine).collect(),
        Pattern::Herringbone => inside
            .spots(10.0, |x, y| Path::lines(&[(x - 3.0, y + 2.0), (x, y - 2.0), (x + 3.0, y + 2.0)]))
            .map(Motif::Fine)
            .collect(),
        Pattern::Quilted => {
            inside.lines(slant, 22.0).into_iter().chain(inside.lines(back, 22.0)).map(Motif::Fine).collect()
        }
        Pattern::Cord => inside.lines(across, 5.0).into_iter().map(Motif::Fine).collect(),
        Pattern::Rib => inside.lines(across, 6.0).into_iter().map(Motif::Fine).collect(),
        Pattern::Gansey => inside.lines(across, 9.0).into_iter().map(Motif::Fine).collect(),
    }
}

/// A small flower of four petals.
fn sprig(x: f32, y: f32) -> Path {
    let petal = |dx: f32, dy: f32| Path::ellipse(x + dx, y + dy, 2.7, 2.7);
    petal(-3.4, 0.0).and(&petal(3.4, 0.0)).and(&petal(0.0, -3.4)).and(&petal(0.0, 3.4))
}

/// The part of an outline that lies between two heights, as a filled path.
pub(super) fn band(outline: &Path, from: f32, to: f32) -> Path {
    Inside::of(outline).slab((0.0, 1.0), from, to)
}

/// The inside of an outline, as polygons.
struct Inside {
    polygons: Vec<Vec<Point>>,
    least: Point,
    most: Point,
}

impl Inside {
    /// No pattern has more shapes than this in one outline.
    const SHAPES: usize = 1_500;

    fn of(outline: &Path) -> Self {
        let polygons = outline.polygons();
        let all = || polygons.iter().flatten();
        let least =
            all().fold((f32::INFINITY, f32::INFINITY), |(x, y), point| (x.min(point.0), y.min(point.1)));
        let most = all()
            .fold((f32::NEG_INFINITY, f32::NEG_INFINITY), |(x, y), point| (x.max(point.0), y.max(point.1)));
        Self { polygons, least, most }
    }

    /// Where bars or lines at these distances lie, seen along a direction, one of them in the middle of the body.
    fn places(&self, (nx, ny): Point, apart: f32) -> impl Iterator<Item = f32> {
        let corners = [self.least, (self.least.0, self.most.1), (self.most.0, self.least.1), self.most];
        let along = corners.map(|(x, y)| x * nx + y * ny);
        let from = along.iter().copied().fold(f32::INFINITY, f32::min);
        let to = along.iter().copied().fold(f32::NEG_INFINITY, f32::max);
        let first = (from / apart).floor();
        let count = ((to - from) / apart).clamp(0.0, 200.0) as usize + 2;
        (0..count).map(move |at| (first + at as f32) * apart)
    }

    fn bars(&self, normal: Point, apart: f32, wide: f32) -> impl Iterator<Item = Path> {
        self.places(normal, apart)
            .map(move |at| self.slab(normal, at - wide / 2.0, at + wide / 2.0))
            .filter(|path| !path.steps().is_empty())
    }

    /// What lies between two parallel lines.
    fn slab(&self, normal: Point, from: f32, to: f32) -> Path {
        let mut all = Path::default();
        for polygon in &self.polygons {
            let above = cut(polygon, |(x, y)| x * normal.0 + y * normal.1 - from);
            let between = cut(&above, |(x, y)| to - x * normal.0 - y * normal.1);
            if between.len() > 2 {
                all = all.and(&Path::lines(&between).close());
            }
        }
        all
    }

    /// Lines across the inside, each from edge to edge.
    fn lines(&self, (nx, ny): Point, apart: f32) -> Vec<Path> {
        let mut all = Vec::new();
        for at in self.places((nx, ny), apart) {
            let mut hits: Vec<f32> = Vec::new();
            for polygon in &self.polygons {
                let next = polygon.iter().cycle().skip(1);
                for (a, b) in polygon.iter().zip(next) {
                    let (from, to) = (a.0 * nx + a.1 * ny - at, b.0 * nx + b.1 * ny - at);
                    if (from < 0.0) != (to < 0.0) {
                        let share = from / (from - to);
                        let (x, y) = (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share);
                        hits.push(y * nx - x * ny);
                    }
                }
            }
            hits.sort_by(f32::total_cmp);
            let point = |along: f32| (at * nx - along * ny, at * ny + along * nx);
            all.extend(
                hits.chunks_exact(2)
                    .filter(|pair| pair[1] - pair[0] > 3.0)
                    .map(|pair| Path::lines(&[point(pair[0] + 1.0), point(pair[1] - 1.0)])),
            );
        }
        all.truncate(Self::SHAPES);
        all
    }

    /// A small shape at every place of a staggered grid that lies well inside.
    fn spots(&self, apart: f32, shape: impl Fn(f32, f32) -> Path) -> impl Iterator<Item = Path> {
        let room = apart * 0.3;
        let rows: Vec<f32> = self.places((0.0, 1.0), apart).collect();
        let columns: Vec<f32> = self.places((1.0, 0.0), apart).collect();
        let mut all = Vec::new();
        for (row, y) in rows.into_iter().enumerate() {
            let shift = if row % 2 == 0 { 0.0 } else { apart / 2.0 };
            for x in columns.iter().map(|x| x + shift) {
                let fits = [(x - room, y), (x + room, y), (x, y - room), (x, y + room)]
                    .into_iter()
                    .all(|point| self.holds(point));
                if fits && all.len() < Self::SHAPES {
                    all.push(shape(x, y));
                }
            }
        }
        all.into_iter()
    }

    fn holds(&self, (x, y): Point) -> bool {
        let crossings = self.polygons.iter().flat_map(|polygon| {
            let next = polygon.iter().cycle().skip(1);
            polygon.iter().zip(next).filter(move |(a, b)| {
                (a.1 > y) != (b.1 > y) && x < (b.0 - a.0) * (y - a.1) / (b.1 - a.1) + a.0
            })
        });
        crossings.count() % 2 == 1
    }
}

/// The part of a polygon where a linear measure is not negative (Sutherland and Hodgman's cut by one line).
fn cut(polygon: &[Point], measure: impl Fn(Point) -> f32) -> Vec<Point> {
    let mut kept = Vec::new();
    let next = polygon.iter().cycle().skip(1);
    for (&a, &b) in polygon.iter().zip(next) {
        let (from, to) = (measure(a), measure(b));
        if from >= 0.0 {
            kept.push(a);
        }
        if (from < 0.0) != (to < 0.0) {
            let share = from / (from - to);
            kept.push((a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share));
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_is_cut_to_its_outline() {
        let square = Path::lines(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]).close();
        let polygons = band(&square, 4.0, 6.0).polygons();
        assert!(polygons[0].iter().all(|&(_, y)| (4.0..=6.0).contains(&y)), "{polygons:?}");
        assert!(band(&square, 20.0, 30.0).steps().is_empty());
    }

    #[test]
    fn a_pattern_stays_inside() {
        let round = Path::ellipse(5.0, 300.0, 60.0, 90.0);
        for pattern in [
            Pattern::StripeAlong,
            Pattern::Check,
            Pattern::Dot,
            Pattern::Print,
            Pattern::Quilted,
            Pattern::Rib,
        ] {
            let cloth = Cloth { fill: [9; 3], second: [200; 3], has_second: true, pattern };
            let motifs = super::pattern(cloth, &round);
            assert!(motifs.len() > 5, "{pattern:?}");
            for motif in motifs {
                let (Motif::Filled(path) | Motif::Blended(path) | Motif::Fine(path)) = motif;
                for (x, y) in path.polygons().into_iter().flatten() {
                    let out = ((x - 5.0) / 60.0).powi(2) + ((y - 300.0) / 90.0).powi(2);
                    assert!(out < 1.15, "{pattern:?} leaves the outline at ({x}, {y})");
                }
            }
        }
    }

    #[test]
    fn black_leaves_room_for_a_seam() {
        assert!(luma(lifted([0; 3])) >= 48);
        assert_eq!(lifted([200, 10, 90]), [200, 10, 90]);
    }
}
