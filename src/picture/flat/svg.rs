//! A drawing as SVG text. Nothing of the record's words is written, only numbers and colours, so that nothing need be
//! escaped and nothing can be smuggled in.

use std::fmt::{self, Write};

use super::DRAWN;
use super::model::{Drawing, Path, Point, Rgb, Shape, Step};

/// How long a stitch and the gap after it are.
pub(super) const STITCH: [f32; 2] = [4.0, 3.0];

/// The whole element.
pub(super) fn write(drawing: &Drawing) -> String {
    let mut text = String::new();
    // A String takes whatever is written to it.
    let _ = element(&mut text, drawing);
    text
}

fn element(to: &mut String, drawing: &Drawing) -> fmt::Result {
    let frame = drawing.frame();
    write!(
        to,
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="{} {} {} {}" role="img" fill="none" stroke-linecap="round" stroke-linejoin="round"><title>{DRAWN}</title>"#,
        Short(frame.left),
        Short(frame.top),
        Short(frame.width),
        Short(frame.height)
    )?;
    for shape in drawing.shapes() {
        path(to, shape)?;
    }
    to.write_str("</svg>")
}

fn path(to: &mut String, shape: &Shape) -> fmt::Result {
    write!(to, r#"<path d="{}""#, Data(&shape.path))?;
    if let Some(fill) = shape.fill {
        write!(to, r#" fill="{}""#, Hex(fill))?;
    }
    if let Some(line) = shape.line {
        write!(to, r#" stroke="{}" stroke-width="{}""#, Hex(line.colour), Short(line.width))?;
        if line.stitched {
            write!(to, r#" stroke-dasharray="{} {}""#, Short(STITCH[0]), Short(STITCH[1]))?;
        }
    }
    to.write_str("/>")
}

/// A number with at most one digit after the point.
struct Short(f32);

impl fmt::Display for Short {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tenths = (self.0 * 10.0).round() as i32;
        let sign = if tenths < 0 { "-" } else { "" };
        let (whole, rest) = (tenths.abs() / 10, tenths.abs() % 10);
        match rest {
            0 => write!(f, "{sign}{whole}"),
            _ => write!(f, "{sign}{whole}.{rest}"),
        }
    }
}

struct Hex(Rgb);

impl fmt::Display for Hex {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [red, green, blue] = self.0;
        write!(f, "#{red:02x}{green:02x}{blue:02x}")
    }
}

struct Data<'a>(&'a Path);

impl fmt::Display for Data<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let pair = |(x, y): Point| format!("{} {}", Short(x), Short(y));
        for step in self.0.steps() {
            match *step {
                Step::Move(point) => write!(f, "M{}", pair(point))?,
                Step::Line(point) => write!(f, "L{}", pair(point))?,
                Step::Curve(out, into, point) => write!(f, "C{} {} {}", pair(out), pair(into), pair(point))?,
                Step::Close => f.write_str("Z")?,
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        for (number, text) in
            [(0.0, "0"), (-0.04, "0"), (-0.5, "-0.5"), (12.0, "12"), (12.34, "12.3"), (-7.96, "-8")]
        {
            assert_eq!(Short(number).to_string(), text);
        }
    }
}
