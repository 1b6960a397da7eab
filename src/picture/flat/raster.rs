//! A drawing as pixels, for the terminal.

use tiny_skia::{
    Color, FillRule, LineCap, LineJoin, Paint, PathBuilder, Pixmap, Stroke, StrokeDash, Transform,
};

use super::super::pixels::Pixels;
use super::model::{Drawing, Line, Path, Rgb, Step};
use super::svg::STITCH;

/// Below this height, in pixels, lines are drawn no thinner than this, lest what tells garments apart is lost.
const SMALL: u32 = 260;
const THINNEST: f32 = 1.4;

/// The drawing as large as fits, in the middle, on paper of a colour or on nothing.
pub(super) fn pixels(drawing: &Drawing, width: u32, height: u32, paper: Option<Rgb>) -> Option<Pixels> {
    if width > Pixels::MOST || height > Pixels::MOST {
        return None;
    }
    let mut map = Pixmap::new(width, height)?;
    if let Some([red, green, blue]) = paper {
        map.fill(Color::from_rgba8(red, green, blue, 255));
    }
    let placed = placing(drawing, width, height);
    let thinnest = if height < SMALL { THINNEST / placed.sx } else { 0.0 };
    for shape in drawing.shapes() {
        let Some(path) = built(&shape.path) else { continue };
        if let Some(fill) = shape.fill {
            map.fill_path(&path, &paint(fill), FillRule::Winding, placed, None);
        }
        if let Some(line) = shape.line {
            map.stroke_path(&path, &paint(line.colour), &stroke(line, thinnest), placed, None);
        }
    }
    let rgba = map.pixels().iter().flat_map(|pixel| {
        let plain = pixel.demultiply();
        [plain.red(), plain.green(), plain.blue(), plain.alpha()]
    });
    Some(Pixels { width, height, rgba: rgba.collect() })
}

fn placing(drawing: &Drawing, width: u32, height: u32) -> Transform {
    let frame = drawing.frame();
    let (across, down) = (width as f32, height as f32);
    let scale = (across / frame.width).min(down / frame.height);
    let left = (across - frame.width * scale) / 2.0 - frame.left * scale;
    let top = (down - frame.height * scale) / 2.0 - frame.top * scale;
    Transform::from_row(scale, 0.0, 0.0, scale, left, top)
}

fn built(path: &Path) -> Option<tiny_skia::Path> {
    let mut builder = PathBuilder::new();
    for step in path.steps() {
        match *step {
            Step::Move((x, y)) => builder.move_to(x, y),
            Step::Line((x, y)) => builder.line_to(x, y),
            Step::Curve(out, into, to) => builder.cubic_to(out.0, out.1, into.0, into.1, to.0, to.1),
            Step::Close => builder.close(),
        }
    }
    builder.finish()
}

fn paint(colour: Rgb) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color_rgba8(colour[0], colour[1], colour[2], 255);
    paint
}

fn stroke(line: Line, thinnest: f32) -> Stroke {
    Stroke {
        width: line.width.max(thinnest),
        line_cap: LineCap::Round,
        line_join: LineJoin::Round,
        dash: line.stitched.then(|| StrokeDash::new(STITCH.to_vec(), 0.0)).flatten(),
        ..Stroke::default()
    }
}
