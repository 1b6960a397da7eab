//! The pieces of SVG, in millimetres. What people wrote goes through [`escaped`] and nothing else.

use std::fmt::Write;

use super::letters::Weight;
use crate::report::plain::Plain;

/// Where on its point a text stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// How a text looks.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hand {
    pub size: f64,
    pub weight: Weight,
    pub colour: &'static str,
    pub anchor: Anchor,
}

impl Hand {
    /// Black, upright, from its point on.
    pub const fn of(size: f64) -> Self {
        Self { size, weight: Weight::Regular, colour: "#111", anchor: Anchor::Start }
    }

    pub const fn bold(self) -> Self {
        Self { weight: Weight::Bold, ..self }
    }

    pub const fn coloured(self, colour: &'static str) -> Self {
        Self { colour, ..self }
    }

    pub const fn at(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }
}

pub(super) fn text(to: &mut String, x: f64, y: f64, hand: Hand, says: &str) {
    if says.is_empty() {
        return;
    }
    let weight = if hand.weight == Weight::Bold { " font-weight=\"bold\"" } else { "" };
    let anchor = match hand.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let _ = write!(
        to,
        "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{weight} fill=\"{}\"{anchor}>{}</text>",
        short(x),
        short(y),
        short(hand.size),
        hand.colour,
        escaped(says)
    );
}

/// A box; its colours are of our own making.
pub(super) fn rect(to: &mut String, [x, y, wide, high]: [f64; 4], fill: &str, line: f64) {
    let _ = write!(
        to,
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{fill}\" stroke=\"#111\" stroke-width=\"{}\"/>",
        short(x),
        short(y),
        short(wide),
        short(high),
        short(line)
    );
}

/// A straight line; `towards` is what a path says, such as `h12` or `V80`.
pub(super) fn line(to: &mut String, x: f64, y: f64, towards: &str, colour: &str, thick: f64) {
    let _ = write!(
        to,
        "<path d=\"M{} {}{towards}\" stroke=\"{colour}\" stroke-width=\"{}\"/>",
        short(x),
        short(y),
        short(thick)
    );
}

/// An SVG within the sheet.
pub(super) fn placed(to: &mut String, svg: &str, [x, y, wide, high]: [f64; 4]) {
    let Some(rest) = svg.strip_prefix("<svg") else { return };
    let _ = write!(
        to,
        "<svg x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{rest}",
        short(x),
        short(y),
        short(wide),
        short(high)
    );
}

/// A picture within the sheet; `data` is base64.
pub(super) fn image(to: &mut String, data: &str, [x, y, wide, high]: [f64; 4]) {
    let _ = write!(
        to,
        "<image x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" href=\"{data}\"/>",
        short(x),
        short(y),
        short(wide),
        short(high)
    );
}

/// Clean, and without what would be markup.
pub(super) fn escaped(says: &str) -> String {
    let plain = Plain::line(says);
    let mut safe = String::with_capacity(plain.as_str().len());
    for c in plain.as_str().chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            c => safe.push(c),
        }
    }
    safe
}

/// A number with at most two digits after the point.
pub(super) fn short(number: f64) -> String {
    let text = format!("{number:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
