//! What a cloth looks like on a flat: its colour as it is drawn, and its pattern as plain shapes cut to an outline.

use std::f32::consts::FRAC_1_SQRT_2;

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

    /// The surface of a cloth: fainter than a fold, so that ribs are not taken for stripes.
    pub(super) fn surface(self) -> Rgb {
        if is_dark(self.fill) { toward(self.fill, [255; 3], 13) } else { toward(self.fill, INK, 17) }
    }

    /// The inside of a garment, seen at the back of its neck.
    pub(super) fn inside(self) -> Rgb {
        if is_dark(self.fill) { toward(self.fill, [255; 3], 15) } else { toward(self.fill, INK, 15) }
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

/// A pattern within an outline; each part is one path.
#[derive(Debug, Default)]
pub(super) struct Motifs {
    /// Filled, in a colour between the first and the second.
    pub(super) blended: Path,
    /// Filled, in the cloth's second colour.
    pub(super) filled: Path,
    /// Fine lines of the surface.
    pub(super) fine: Path,
}

impl Motifs {
    fn filled(all: impl Iterator<Item = Path>) -> Self {
        Self { filled: joined(all), ..Self::default() }
    }

    fn fine(all: impl IntoIterator<Item = Path>) -> Self {
        Self { fine: joined(all), ..Self::default() }
    }
}

fn joined(all: impl IntoIterator<Item = Path>) -> Path {
    all.into_iter().fold(Path::default(), |all, path| all.and(&path))
}

/// The pattern of a cloth within an outline.
pub(super) fn pattern(cloth: Cloth, outline: &Path) -> Motifs {
    if cloth.pattern == Pattern::Plain {
        return Motifs::default();
    }
    let inside = Inside::of(outline);
    let (across, down) = ((1.0, 0.0), (0.0, 1.0));
    let (slant, back) = ((FRAC_1_SQRT_2, FRAC_1_SQRT_2), (FRAC_1_SQRT_2, -FRAC_1_SQRT_2));
    let stroke = |points: &[Point]| Path::lines(points);
    match cloth.pattern {
        Pattern::Plain => Motifs::default(),
        Pattern::StripeAlong => Motifs::filled(inside.bars(across, 13.0, 4.0)),
        Pattern::StripeAcross => Motifs::filled(inside.bars(down, 26.0, 11.0)),
        Pattern::StripeDiagonal => Motifs::filled(inside.bars(slant, 52.0, 22.0)),
        Pattern::Check => Motifs {
            blended: joined(inside.bars(across, 22.0, 9.0).chain(inside.bars(down, 22.0, 9.0))),
            fine: joined(inside.lines(across, 22.0).into_iter().chain(inside.lines(down, 22.0))),
            filled: Path::default(),
        },
        Pattern::Dot => Motifs::filled(inside.spots(15.0, |x, y| Path::ellipse(x, y, 2.6, 2.6))),
        Pattern::Print => Motifs::filled(inside.spots(25.0, sprig)),
        Pattern::Fleck => {
            Motifs::fine(inside.spots(11.0, |x, y| stroke(&[(x - 1.6, y + 1.6), (x + 1.6, y - 1.6)])))
        }
        Pattern::Loop => {
            Motifs::fine(inside.spots(9.0, |x, y| Path::at(x - 2.2, y).bend((x, y - 4.0), (x + 2.2, y))))
        }
        Pattern::Fur => Motifs::fine(
            inside.spots(8.0, |x, y| Path::at(x, y - 4.0).bend((x + 2.5, y), (x + 1.0, y + 4.0))),
        ),
        Pattern::Lace => Motifs::fine(inside.spots(13.0, |x, y| Path::ellipse(x, y, 3.6, 3.6))),
        Pattern::Herringbone => Motifs::fine(
            inside.spots(10.0, |x, y| stroke(&[(x - 3.0, y + 2.0), (x, y - 2.0), (x + 3.0, y + 2.0)])),
        ),
        Pattern::Quilted => {
            Motifs::fine(inside.lines(slant, 22.0).into_iter().chain(inside.lines(back, 22.0)))
        }
        Pattern::Cord => Motifs::fine(inside.lines(across, 5.0)),
        Pattern::Rib => Motifs::fine(inside.lines(across, 6.0)),
        Pattern::Gansey => Motifs::fine(inside.lines(across, 9.0)),
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
            let Motifs { blended, filled, fine } = super::pattern(cloth, &round);
            let points: Vec<Point> =
                [blended, filled, fine].iter().flat_map(Path::polygons).flatten().collect();
            assert!(points.len() > 20, "{pattern:?}");
            for (x, y) in points {
                let out = ((x - 5.0) / 60.0).powi(2) + ((y - 300.0) / 90.0).powi(2);
                assert!(out < 1.15, "{pattern:?} leaves the outline at ({x}, {y})");
            }
        }
    }

    #[test]
    fn black_leaves_room_for_a_seam() {
        assert!(luma(lifted([0; 3])) >= 48);
        assert_eq!(lifted([200, 10, 90]), [200, 10, 90]);
    }
}
