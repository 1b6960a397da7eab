//! Colours and emphasis by what they mean, for every depth of colour.
//!
//! Meaning never rests on colour alone: each role also has a mark or an emphasis that a terminal without colour
//! shows. Swatches are the cloth's own colours, brought to what the terminal has.

use ratatui::style::{Color, Modifier, Style};

use super::setting::misnamed;
use crate::trade::colour::Colour;

/// How many colours the terminal has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Depth {
    /// None, or none wanted (`NO_COLOR`).
    None,
    /// The sixteen of old.
    Sixteen,
    /// A cube of 216 and a row of greys.
    TwoHundredFiftySix,
    /// All of sRGB.
    True,
}

impl Depth {
    /// What `SHIRR_COLOURS` may say.
    const BY_NAME: [(&'static str, Self); 4] = [
        ("true", Self::True),
        ("256", Self::TwoHundredFiftySix),
        ("16", Self::Sixteen),
        ("none", Self::None),
    ];

    /// What is wrong with `SHIRR_COLOURS`, where it says what it may not.
    pub fn misnamed(variable: impl Fn(&str) -> Option<String>) -> Option<String> {
        misnamed(VARIABLE, variable, Self::BY_NAME.map(|(name, _)| name))
    }

    /// What the environment says. `SHIRR_COLOURS` (none, 16, 256, true) overrides; then `NO_COLOR`, `COLORTERM`
    /// and `TERM`.
    pub fn of_environment(variable: impl Fn(&str) -> Option<String>) -> Self {
        let value = |name: &str| variable(name).filter(|value| !value.is_empty());
        let named = value(VARIABLE);
        if let Some((_, depth)) = Self::BY_NAME.into_iter().find(|(name, _)| Some(*name) == named.as_deref())
        {
            return depth;
        }
        if value("NO_COLOR").is_some() {
            return Self::None;
        }
        if value("COLORTERM").is_some_and(|value| value == "truecolor" || value == "24bit") {
            return Self::True;
        }
        match value("TERM").as_deref() {
            None | Some("dumb") => Self::None,
            Some(term) if term.contains("direct") => Self::True,
            Some(term) if term.contains("256") => Self::TwoHundredFiftySix,
            Some(_) => Self::Sixteen,
        }
    }
}

/// The variable that sets the depth by hand.
const VARIABLE: &str = "SHIRR_COLOURS";

/// The styles of one terminal.
#[derive(Clone, Debug)]
pub struct Theme {
    depth: Depth,
}

/// The sixteen colours as most terminals show them (values from the xterm defaults, from memory).
const SIXTEEN: [(Color, [u8; 3]); 16] = [
    (Color::Black, [0, 0, 0]),
    (Color::Red, [205, 0, 0]),
    (Color::Green, [0, 205, 0]),
    (Color::Yellow, [205, 205, 0]),
    (Color::Blue, [0, 0, 238]),
    (Color::Magenta, [205, 0, 205]),
    (Color::Cyan, [0, 205, 205]),
    (Color::Gray, [229, 229, 229]),
    (Color::DarkGray, [127, 127, 127]),
    (Color::LightRed, [255, 0, 0]),
    (Color::LightGreen, [0, 255, 0]),
    (Color::LightYellow, [255, 255, 0]),
    (Color::LightBlue, [92, 92, 255]),
    (Color::LightMagenta, [255, 0, 255]),
    (Color::LightCyan, [0, 255, 255]),
    (Color::White, [255, 255, 255]),
];

impl Theme {
    /// The theme for a depth of colour.
    pub fn new(depth: Depth) -> Self {
        Self { depth }
    }

    /// How many colours there are.
    pub fn depth(&self) -> Depth {
        self.depth
    }

    fn coloured(&self, rgb: [u8; 3], otherwise: Modifier) -> Style {
        match self.depth {
            Depth::None => Style::new().add_modifier(otherwise),
            _ => Style::new().fg(self.nearest(rgb)).add_modifier(otherwise & Modifier::BOLD),
        }
    }

    /// Plain words.
    pub fn text(&self) -> Style {
        Style::new()
    }

    /// Words that may be overlooked.
    pub fn quiet(&self) -> Style {
        match self.depth {
            Depth::None => Style::new().add_modifier(Modifier::DIM),
            Depth::Sixteen => Style::new().fg(Color::DarkGray),
            _ => Style::new().fg(self.nearest([138, 138, 138])),
        }
    }

    /// Headings.
    pub fn heading(&self) -> Style {
        Style::new().add_modifier(Modifier::BOLD)
    }

    /// What the keys act on.
    pub fn focus(&self) -> Style {
        Style::new().add_modifier(Modifier::REVERSED)
    }

    /// What was marked to be gathered.
    pub fn marked(&self) -> Style {
        self.coloured([240, 180, 60], Modifier::BOLD)
    }

    /// What belongs to the thing in focus.
    pub fn lit(&self) -> Style {
        self.coloured([110, 190, 240], Modifier::BOLD | Modifier::UNDERLINED)
            .add_modifier(Modifier::UNDERLINED)
    }

    /// An outfit that is still open.
    pub fn open(&self) -> Style {
        self.coloured([240, 180, 60], Modifier::BOLD)
    }

    /// Inside the budget.
    pub fn within(&self) -> Style {
        self.coloured([110, 180, 120], Modifier::empty())
    }

    /// At the limit.
    pub fn full(&self) -> Style {
        self.coloured([240, 180, 60], Modifier::BOLD)
    }

    /// Over the limit, or wrong.
    pub fn over(&self) -> Style {
        self.coloured([235, 95, 80], Modifier::BOLD | Modifier::REVERSED)
    }

    /// A key in the footer and in help.
    pub fn key(&self) -> Style {
        self.coloured([110, 190, 240], Modifier::BOLD)
    }

    /// The frame of a layer that lies over a view.
    pub fn frame(&self) -> Style {
        self.coloured([110, 190, 240], Modifier::empty())
    }

    /// The cloth's colour as a background, with letters that read on it. Without colour: plain.
    pub fn cloth(&self, colour: Option<&Colour>) -> Style {
        match (self.depth, colour) {
            (Depth::None, _) | (_, None) => Style::new(),
            (_, Some(colour)) => {
                let letters = if colour.is_light() { [0, 0, 0] } else { [255, 255, 255] };
                Style::new().bg(self.nearest(colour.rgb())).fg(self.nearest(letters))
            }
        }
    }

    /// What fills a swatch cell: a space on colour; without colour a glyph by lightness, so that it still says
    /// light or dark.
    pub fn cloth_glyph(&self, colour: Option<&Colour>) -> &'static str {
        match (self.depth, colour) {
            (_, None) => "·",
            (Depth::None, Some(colour)) if colour.is_light() => "░",
            (Depth::None, Some(_)) => "▓",
            (_, Some(_)) => " ",
        }
    }

    /// The terminal's colour nearest to an sRGB one.
    pub fn nearest(&self, rgb: [u8; 3]) -> Color {
        let [r, g, b] = rgb;
        match self.depth {
            Depth::None => Color::Reset,
            Depth::True => Color::Rgb(r, g, b),
            Depth::TwoHundredFiftySix => Color::Indexed(indexed(rgb)),
            Depth::Sixteen => {
                let nearest = SIXTEEN.iter().min_by_key(|(_, have)| apart(*have, rgb));
                nearest.map_or(Color::Reset, |(colour, _)| *colour)
            }
        }
    }
}

/// Squared distance with the eye's rough weights for red, green and blue (2, 4, 3: common practice, no source).
fn apart(one: [u8; 3], other: [u8; 3]) -> u32 {
    let square = |at: usize| u32::from(one[at].abs_diff(other[at])).pow(2);
    2 * square(0) + 4 * square(1) + 3 * square(2)
}

/// The nearest of the 6×6×6 cube (16 to 231) and the greys (232 to 255), by the levels xterm documents for them.
fn indexed(rgb: [u8; 3]) -> u8 {
    const LEVELS: [u8; 6] = [0, 95, 135, 175, 215, 255];
    let level = |value: u8| (0_u8..6).min_by_key(|at| LEVELS[usize::from(*at)].abs_diff(value)).unwrap_or(0);
    let [r, g, b] = rgb.map(level);
    let cube = [r, g, b].map(|at| LEVELS[usize::from(at)]);
    let grey = (0_u8..24).min_by_key(|at| apart([8 + 10 * at; 3], rgb)).unwrap_or(0);
    if apart([8 + 10 * grey; 3], rgb) < apart(cube, rgb) { 232 + grey } else { 16 + 36 * r + 6 * g + b }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn depth(pairs: &[(&str, &str)]) -> Depth {
        Depth::of_environment(|name| {
            pairs.iter().find(|(have, _)| *have == name).map(|(_, value)| (*value).to_owned())
        })
    }

    #[test]
    fn the_environment_says_how_many_colours_there_are() {
        assert_eq!(depth(&[("TERM", "xterm-256color")]), Depth::TwoHundredFiftySix);
        assert_eq!(depth(&[("TERM", "xterm"), ("COLORTERM", "truecolor")]), Depth::True);
        assert_eq!(depth(&[("TERM", "vt220")]), Depth::Sixteen);
        assert_eq!(depth(&[("TERM", "xterm-256color"), ("NO_COLOR", "1")]), Depth::None);
        assert_eq!(depth(&[("TERM", "xterm-256color"), ("NO_COLOR", "")]), Depth::TwoHundredFiftySix);
        assert_eq!(depth(&[("TERM", "dumb"), ("SHIRR_COLOURS", "true")]), Depth::True);
    }

    #[test]
    fn a_depth_that_there_is_not_is_told_with_those_that_there_are() {
        let said = |value: &str| Depth::misnamed(|name| (name == VARIABLE).then(|| value.to_owned()));
        assert_eq!(said("bogus").unwrap(), "SHIRR_COLOURS says `bogus`; it may say true, 256, 16, none");
        assert_eq!(said("256").or(said("")), None);
    }

    #[test]
    fn cloth_comes_as_near_as_the_terminal_can() {
        assert_eq!(Theme::new(Depth::TwoHundredFiftySix).nearest([255, 0, 0]), Color::Indexed(196));
        assert_eq!(Theme::new(Depth::TwoHundredFiftySix).nearest([128, 128, 128]), Color::Indexed(244));
        assert_eq!(Theme::new(Depth::Sixteen).nearest([10, 10, 12]), Color::Black);
        assert_eq!(Theme::new(Depth::True).nearest([1, 2, 3]), Color::Rgb(1, 2, 3));
    }

    #[test]
    fn without_colour_a_swatch_still_says_light_or_dark() {
        let theme = Theme::new(Depth::None);
        let (ivory, navy) = ("ivory".parse().unwrap(), "navy".parse().unwrap());
        assert_ne!(theme.cloth_glyph(Some(&ivory)), theme.cloth_glyph(Some(&navy)));
        assert_eq!(theme.cloth(Some(&navy)), Style::new());
    }
}
