//! How this terminal can show pictures.
//!
//! What the user says goes before what the terminal calls itself, and that before what it answers. Only one question is
//! ever put to a terminal, what it is (DA1, ECMA-48 and DEC): nearly every one answers it, and an answer that comes late
//! is no key to anybody. A multiplexer in between passes no pictures on unless it is set to, so there it is half blocks.

use ratatui::layout::Size;

use crate::screen::setting::misnamed;
use crate::screen::theme::Depth;

/// A way to show a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// None are shown.
    None,
    /// Half blocks in colours: two pixels in a cell, in any terminal with colours.
    Blocks,
    /// Sixels, the graphics of the terminals of old.
    Sixel,
    /// The graphics protocol of the terminal kitty, which others speak too.
    Kitty,
    /// Files inline, as the terminal iTerm2 takes them, and others too.
    Inline,
}

/// The variable that sets it by hand.
const VARIABLE: &str = "SHIRR_PICTURES";

/// How many pixels a letter has where the terminal does not say: about twice as high as wide.
const USUAL_LETTER: (u16, u16) = (10, 20);

impl Way {
    const BY_NAME: [(&'static str, Self); 5] = [
        ("none", Self::None),
        ("blocks", Self::Blocks),
        ("sixel", Self::Sixel),
        ("kitty", Self::Kitty),
        ("inline", Self::Inline),
    ];

    /// What is wrong with `SHIRR_PICTURES`, where it says what it may not.
    pub fn misnamed(variable: impl Fn(&str) -> Option<String>) -> Option<String> {
        misnamed(VARIABLE, variable, ["auto"].into_iter().chain(Self::BY_NAME.map(|(name, _)| name)))
    }

    /// What the environment says; `None` where only the terminal itself can tell.
    pub fn of_environment(depth: Depth, variable: impl Fn(&str) -> Option<String>) -> Option<Self> {
        let value = |name: &str| variable(name).filter(|value| !value.is_empty());
        let named = value(VARIABLE);
        if let Some((_, way)) = Self::BY_NAME.into_iter().find(|(name, _)| Some(*name) == named.as_deref()) {
            // Half blocks are colours.
            return Some(if way == Self::Blocks && depth == Depth::None { Self::None } else { way });
        }
        if depth == Depth::None {
            return Some(Self::None);
        }
        let term = value("TERM").unwrap_or_default();
        if value("TMUX").is_some()
            || term.starts_with("tmux")
            || term.starts_with("screen")
            || value("ZELLIJ").is_some()
        {
            return Some(Self::Blocks);
        }
        let program = value("TERM_PROGRAM").unwrap_or_default();
        if value("KITTY_WINDOW_ID").is_some()
            || term.contains("kitty")
            || term.contains("ghostty")
            || program == "ghostty"
        {
            return Some(Self::Kitty);
        }
        if matches!(program.as_str(), "iTerm.app" | "WezTerm" | "mintty") {
            return Some(Self::Inline);
        }
        None
    }

    /// What a terminal can show that answers the question what it is in this way: attribute 4 is sixel graphics.
    pub fn of_answer(answer: &[u8]) -> Self {
        let attributes = answer
            .windows(3)
            .position(|three| three == b"\x1b[?")
            .map(|at| &answer[at + 3..])
            .and_then(|rest| rest.iter().position(|byte| *byte == b'c').map(|end| &rest[..end]));
        // The first number is what kind of terminal it is, not what it can do.
        let can =
            attributes.is_some_and(|list| list.split(|byte| *byte == b';').skip(1).any(|one| one == b"4"));
        if can { Self::Sixel } else { Self::Blocks }
    }
}

/// The keys that somebody typed while the terminal was asked: what is no part of its answer, letter by letter. Keys that
/// come as a sequence of their own are lost; they are not told from an answer.
pub fn typed_meanwhile(answer: &[u8]) -> Vec<char> {
    let mut keys = Vec::new();
    let mut rest = answer;
    while let [first, behind @ ..] = rest {
        rest = behind;
        if let (b'\x1b', [b'[' | b'O', sequence @ ..]) = (first, behind) {
            let end = sequence.iter().position(|byte| (0x40..=0x7e).contains(byte));
            rest = end.map_or(&[][..], |end| &sequence[end + 1..]);
        } else if matches!(first, b' '..=b'~' | b'\r') {
            keys.push(char::from(*first));
        }
    }
    keys
}

/// How pictures are seen here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Eye {
    /// The way.
    pub way: Way,
    /// How many pixels wide and high a letter is.
    pub letter: (u16, u16),
    /// How many colours there are, for half blocks.
    pub depth: Depth,
}

impl Eye {
    /// One that sees nothing.
    pub fn shut() -> Self {
        Self { way: Way::None, letter: USUAL_LETTER, depth: Depth::None }
    }

    /// An eye for a terminal of this size in letters and in pixels, which not every terminal tells.
    pub fn new(way: Way, depth: Depth, letters: (u16, u16), pixels: (u16, u16)) -> Self {
        let letter = (pixels.0 / letters.0.max(1), pixels.1 / letters.1.max(1));
        let is_told = letter.0 >= 3 && letter.1 >= 3;
        Self { way, depth, letter: if is_told { letter } else { USUAL_LETTER } }
    }

    /// How many pixels a picture of so many cells is made of before it is brought to them.
    pub fn pixels(&self, cells: Size) -> (u32, u32) {
        let (wide, high) = match self.way {
            // Four for each that is seen, so that fine lines are averaged and not lost.
            Way::Blocks | Way::None => (4, 4 * u32::from(self.letter.1) / u32::from(self.letter.0.max(1))),
            _ => (u32::from(self.letter.0), u32::from(self.letter.1)),
        };
        (u32::from(cells.width) * wide, u32::from(cells.height) * high.max(1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn way(pairs: &[(&str, &str)]) -> Option<Way> {
        let variable =
            |name: &str| pairs.iter().find(|(have, _)| *have == name).map(|(_, value)| (*value).to_owned());
        Way::of_environment(Depth::of_environment(variable), variable)
    }

    #[test]
    fn the_user_goes_before_the_terminal_and_no_colour_before_half_blocks() {
        assert_eq!(way(&[("TERM", "xterm-kitty"), ("SHIRR_PICTURES", "blocks")]), Some(Way::Blocks));
        assert_eq!(way(&[("TERM", "xterm-kitty"), ("SHIRR_PICTURES", "none")]), Some(Way::None));
        assert_eq!(way(&[("TERM", "xterm-kitty"), ("NO_COLOR", "1")]), Some(Way::None));
        assert_eq!(
            way(&[("TERM", "xterm"), ("NO_COLOR", "1"), ("SHIRR_PICTURES", "blocks")]),
            Some(Way::None)
        );
        assert_eq!(way(&[("TERM", "xterm-kitty")]), Some(Way::Kitty));
        assert_eq!(way(&[("TERM", "xterm-256color"), ("TERM_PROGRAM", "WezTerm")]), Some(Way::Inline));
        assert_eq!(way(&[("TERM", "tmux-256color"), ("KITTY_WINDOW_ID", "1")]), Some(Way::Blocks));
        assert_eq!(way(&[("TERM", "xterm-256color")]), None);
        assert_eq!(way(&[("TERM", "xterm-256color"), ("SHIRR_PICTURES", "auto")]), None);
        assert_eq!(way(&[("TERM", "dumb")]), Some(Way::None));
    }

    #[test]
    fn a_way_that_there_is_not_is_told_with_those_that_there_are() {
        let said = |value: &str| Way::misnamed(|name| (name == VARIABLE).then(|| value.to_owned()));
        assert_eq!(
            said("photo").unwrap(),
            "SHIRR_PICTURES says `photo`; it may say auto, none, blocks, sixel, kitty, inline"
        );
        assert_eq!(said("auto").or(said("")).or(said("sixel")), None);
    }

    #[test]
    fn only_a_terminal_that_says_so_gets_sixels() {
        assert_eq!(Way::of_answer(b"\x1b[?62;4;22c"), Way::Sixel);
        assert_eq!(Way::of_answer(b"j\x1b[?64;1;2;4c"), Way::Sixel);
        for other in [&b"\x1b[?4c"[..], b"\x1b[?62;22c", b"\x1b[?62;14c", b"\x1b[?62;4", b"", b"4c"] {
            assert_eq!(Way::of_answer(other), Way::Blocks, "{other:?}");
        }
    }

    #[test]
    fn what_is_typed_while_the_terminal_is_asked_is_not_lost() {
        assert_eq!(typed_meanwhile(b"j\x1b[?62;4ck\r"), ['j', 'k', '\r']);
        assert_eq!(typed_meanwhile(b"\x1b[?62;4"), []);
        assert_eq!(typed_meanwhile(b"3\x1b[A4"), ['3', '4']);
        assert_eq!(typed_meanwhile(b""), []);
    }

    #[test]
    fn a_terminal_that_does_not_tell_its_pixels_has_usual_letters() {
        let eye = |pixels| Eye::new(Way::Sixel, Depth::True, (100, 50), pixels);
        assert_eq!(eye((0, 0)).letter, USUAL_LETTER);
        assert_eq!(eye((900, 900)).letter, (9, 18));
        assert_eq!(eye((900, 900)).pixels(Size::new(10, 5)), (90, 90));
    }
}
