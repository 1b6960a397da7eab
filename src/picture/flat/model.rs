//! What a flat is made of: paths with a fill and a line, in painting order.
//!
//! Units are those of the figure frame (`draw::figure`): x to the right from the middle of the body, y downwards. No
//! clipping and no pattern exists here: stripes and dots are shapes like all others, cut where they are made, so that
//! every writer needs to know paths only.

/// A point: x, y.
pub type Point = (f32, f32);

/// Red, green, blue.
pub type Rgb = [u8; 3];

/// How far the two handles of a quarter of an ellipse stand out, as a share of its radius.
const QUARTER: f32 = 0.552_284_8;

/// Into how many straight pieces a curve is cut where a polygon is needed.
const PIECES: u8 = 12;

/// One step of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Begin here.
    Move(Point),
    /// Straight to here.
    Line(Point),
    /// A cubic Bézier curve: two handles and the end.
    Curve(Point, Point, Point),
    /// Back to the beginning.
    Close,
}

impl Step {
    fn map(self, change: impl Fn(Point) -> Point) -> Self {
        match self {
            Self::Move(to) => Self::Move(change(to)),
            Self::Line(to) => Self::Line(change(to)),
            Self::Curve(out, into, to) => Self::Curve(change(out), change(into), change(to)),
            Self::Close => Self::Close,
        }
    }

    fn end(self) -> Option<Point> {
        match self {
            Self::Move(to) | Self::Line(to) | Self::Curve(_, _, to) => Some(to),
            Self::Close => None,
        }
    }
}

/// A line through the plane, open or closed, of one or more parts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path(Vec<Step>);

impl Path {
    /// A path that begins here.
    pub fn at(x: f32, y: f32) -> Self {
        Self(vec![Step::Move((x, y))])
    }

    /// Straight lines through these points.
    pub fn lines(points: &[Point]) -> Self {
        let step =
            |(at, &point): (usize, &Point)| if at == 0 { Step::Move(point) } else { Step::Line(point) };
        Self(points.iter().enumerate().map(step).collect())
    }

    /// One smooth line through these points.
    pub fn through(points: &[Point]) -> Self {
        match points {
            [first, rest @ ..] => Self::at(first.0, first.1).smooth(rest),
            [] => Self::default(),
        }
    }

    /// An ellipse.
    pub fn ellipse(x: f32, y: f32, across: f32, down: f32) -> Self {
        let (h, v) = (across * QUARTER, down * QUARTER);
        Self::at(x + across, y)
            .curve((x + across, y + v), (x + h, y + down), (x, y + down))
            .curve((x - h, y + down), (x - across, y + v), (x - across, y))
            .curve((x - across, y - v), (x - h, y - down), (x, y - down))
            .curve((x + h, y - down), (x + across, y - v), (x + across, y))
            .close()
    }

    /// Straight on.
    pub fn line(mut self, x: f32, y: f32) -> Self {
        self.0.push(Step::Line((x, y)));
        self
    }

    /// On in a curve with two handles.
    pub fn curve(mut self, out: Point, into: Point, to: Point) -> Self {
        self.0.push(Step::Curve(out, into, to));
        self
    }

    /// On in a curve that leans towards one point.
    pub fn bend(self, towards: Point, to: Point) -> Self {
        let from = self.end();
        let handle =
            |end: Point| (end.0 + (towards.0 - end.0) * 2.0 / 3.0, end.1 + (towards.1 - end.1) * 2.0 / 3.0);
        self.curve(handle(from), handle(to), to)
    }

    /// On through these points without a corner between them.
    pub fn smooth(mut self, points: &[Point]) -> Self {
        let mut all = vec![self.end()];
        all.extend_from_slice(points);
        let point = |at: isize| all[at.clamp(0, all.len() as isize - 1) as usize];
        for at in 0..points.len() as isize {
            let (before, from, to, after) = (point(at - 1), point(at), point(at + 1), point(at + 2));
            let out = (from.0 + (to.0 - before.0) / 6.0, from.1 + (to.1 - before.1) / 6.0);
            let into = (to.0 - (after.0 - from.0) / 6.0, to.1 - (after.1 - from.1) / 6.0);
            self.0.push(Step::Curve(out, into, to));
        }
        self
    }

    /// Back to the beginning.
    pub fn close(mut self) -> Self {
        self.0.push(Step::Close);
        self
    }

    /// This path's steps, then those of another that goes on from its end.
    pub fn then(mut self, on: &Self) -> Self {
        self.0.extend(on.0.iter().map(|step| match *step {
            Step::Move(to) => Step::Line(to),
            other => other,
        }));
        self
    }

    /// This path and another beside it, as one.
    pub fn and(mut self, other: &Self) -> Self {
        self.0.extend_from_slice(&other.0);
        self
    }

    /// On the other side of the body.
    pub fn mirrored(&self) -> Self {
        Self(self.0.iter().map(|step| step.map(|(x, y)| (-x, y))).collect())
    }

    /// The same open line from its end to its beginning.
    pub fn reversed(&self) -> Self {
        let mut back = Self(vec![Step::Move(self.end())]);
        for at in (1..self.0.len()).rev() {
            let to = self.0[at - 1].end().unwrap_or_default();
            match self.0[at] {
                Step::Curve(out, into, _) => back.0.push(Step::Curve(into, out, to)),
                _ => back.0.push(Step::Line(to)),
            }
        }
        back
    }

    /// The closed outline of which this open line, begun and ended in the middle, is the half on the right.
    pub fn both_halves(&self) -> Self {
        self.clone().then(&self.mirrored().reversed()).close()
    }

    /// This line and its mirror image.
    pub fn twice(&self) -> Self {
        self.clone().and(&self.mirrored())
    }

    /// The steps.
    pub fn steps(&self) -> &[Step] {
        &self.0
    }

    /// Its parts as polygons.
    pub fn polygons(&self) -> Vec<Vec<Point>> {
        let mut all: Vec<Vec<Point>> = Vec::new();
        for step in &self.0 {
            match (*step, all.last_mut()) {
                (Step::Move(to), _) => all.push(vec![to]),
                (Step::Line(to), Some(part)) => part.push(to),
                (Step::Curve(out, into, to), Some(part)) => {
                    let from = part.last().copied().unwrap_or_default();
                    part.extend(
                        (1..=PIECES)
                            .map(|at| on_curve(from, out, into, to, f32::from(at) / f32::from(PIECES))),
                    );
                }
                _ => {}
            }
        }
        all
    }

    fn end(&self) -> Point {
        self.0.iter().rev().find_map(|step| step.end()).unwrap_or_default()
    }
}

fn on_curve(from: Point, out: Point, into: Point, to: Point, share: f32) -> Point {
    let rest = 1.0 - share;
    let weights =
        [rest * rest * rest, 3.0 * rest * rest * share, 3.0 * rest * share * share, share * share * share];
    let mix = |of: fn(Point) -> f32| {
        weights[0] * of(from) + weights[1] * of(out) + weights[2] * of(into) + weights[3] * of(to)
    };
    (mix(|point| point.0), mix(|point| point.1))
}

/// A drawn line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Its colour.
    pub colour: Rgb,
    /// How wide it is.
    pub width: f32,
    /// Whether it is broken into stitches.
    pub stitched: bool,
}

/// A path as it is painted.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Where.
    pub path: Path,
    /// What it is filled with.
    pub fill: Option<Rgb>,
    /// What it is drawn with.
    pub line: Option<Line>,
}

/// A rectangle of the plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Its left edge.
    pub left: f32,
    /// Its upper edge.
    pub top: f32,
    /// How wide it is.
    pub width: f32,
    /// How high it is.
    pub height: f32,
}

/// Shapes, the lowest first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    shapes: Vec<Shape>,
}

impl Drawing {
    /// Air around what is drawn.
    const MARGIN: f32 = 10.0;
    /// No drawing's frame is smaller than this: a cap alone stays a small thing.
    const LEAST: Point = (240.0, 300.0);

    /// A drawing of these shapes.
    pub fn new(shapes: Vec<Shape>) -> Self {
        Self { shapes }
    }

    /// The shapes, the lowest first.
    pub fn shapes(&self) -> &[Shape] {
        &self.shapes
    }

    /// The part of the plane that the drawing takes, the body's middle in its middle.
    pub fn frame(&self) -> Frame {
        let points = || self.shapes.iter().flat_map(|shape| shape.path.polygons()).flatten();
        let side = points().fold(0.0_f32, |most, (x, _)| most.max(x.abs())) + Self::MARGIN;
        let top = points().fold(f32::INFINITY, |least, (_, y)| least.min(y)) - Self::MARGIN;
        let bottom = points().fold(f32::NEG_INFINITY, |most, (_, y)| most.max(y)) + Self::MARGIN;
        if top > bottom {
            return Frame {
                left: -Self::LEAST.0 / 2.0,
                top: 0.0,
                width: Self::LEAST.0,
                height: Self::LEAST.1,
            };
        }
        let (width, height) = ((side * 2.0).max(Self::LEAST.0), (bottom - top).max(Self::LEAST.1));
        let middle = (top + bottom) / 2.0;
        Frame { left: -width / 2.0, top: middle - height / 2.0, width, height }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_outline_of_two_halves_is_symmetrical() {
        let outline = Path::at(0.0, 0.0)
            .line(10.0, 2.0)
            .curve((12.0, 5.0), (11.0, 8.0), (9.0, 10.0))
            .line(0.0, 12.0)
            .both_halves();
        let polygon = &outline.polygons()[0];
        for (x, y) in polygon {
            let twin = polygon.iter().any(|other| (other.0 + x).abs() < 1e-3 && (other.1 - y).abs() < 1e-3);
            assert!(twin, "({x}, {y}) has no twin");
        }
    }

    #[test]
    fn a_frame_holds_what_is_drawn_and_keeps_the_body_in_its_middle() {
        let shape = Shape { path: Path::ellipse(80.0, 400.0, 20.0, 300.0), fill: Some([0; 3]), line: None };
        let frame = Drawing::new(vec![shape]).frame();
        assert_eq!((frame.left, frame.width), (-120.0, 240.0));
        assert_eq!((frame.top, frame.height), (90.0, 620.0));
        assert_eq!(Drawing::default().frame().width, 240.0);
    }
}
