//! How long a scene is on the page, in eighths.
//!
//! The page is that of the screenplay specification of a film course (Western Michigan University, COM 358, "Screenplay
//! specs", <http://homepages.wmich.edu/~lipkin/courses/com358/358screenplayspecs.htm>): 12-point Courier, which is ten
//! characters to the inch and six lines to the inch, on 8½ × 11 inches; margins of one inch at the top, on the right
//! and at the bottom, one and a half on the left; speeches from two and a half inches from the left edge to two from the
//! right; single spacing, and an empty line between elements. So 54 lines, action of 60 characters, speeches of 40.
//! Brackets of 25 characters, speeches side by side taking the room of the longer one, rounding to the nearest eighth
//! and a scene being at least one are common practice, no source.

use unicode_width::UnicodeWidthStr;

use super::element::{Element, Kind};
use crate::trade::eighths::{Eighths, PER_PAGE};

/// Lines on a page.
pub const LINES_PER_PAGE: usize = 54;
/// Characters in a line of action.
pub const ACTION_WIDTH: usize = 60;
/// Characters in a line of a speech.
pub const DIALOGUE_WIDTH: usize = 40;
/// Characters in a line of brackets.
const BRACKETS_WIDTH: usize = 25;

/// The length of a scene, of its elements from the heading on.
pub(super) fn of_scene(elements: &[Element]) -> Eighths {
    let lines = lines(elements);
    let per_page = PER_PAGE as usize;
    let eighths = (lines * per_page + LINES_PER_PAGE / 2) / LINES_PER_PAGE;
    Eighths::new(u32::try_from(eighths.max(1)).unwrap_or(u32::MAX))
}

/// How many lines of the page they take, with the empty lines above them.
pub(super) fn lines(elements: &[Element]) -> usize {
    let mut sum = 0;
    // The speech that is being read, and the one before it if this one is spoken beside it.
    let mut speech = 0;
    let mut beside = 0;
    for element in elements.iter().filter(|element| element.kind.is_printed()) {
        let height = usize::from(element.spaced) + wrapped(&element.text, width(&element.kind));
        if let Kind::Cue { dual, .. } = element.kind {
            beside = if dual { speech } else { 0 };
            speech = 0;
        } else if element.spaced || !in_speech(&element.kind) {
            (speech, beside) = (0, 0);
        }
        if in_speech(&element.kind) {
            speech += height;
            let room = height.min(beside);
            beside -= room;
            sum += height - room;
        } else {
            sum += height;
        }
    }
    sum
}

fn in_speech(kind: &Kind) -> bool {
    kind.is_speech() || matches!(kind, Kind::Lyric)
}

fn width(kind: &Kind) -> usize {
    match kind {
        Kind::Dialogue | Kind::Lyric => DIALOGUE_WIDTH,
        Kind::Parenthetical => BRACKETS_WIDTH,
        _ => ACTION_WIDTH,
    }
}

/// How many lines a text takes that is broken between words.
fn wrapped(text: &str, width: usize) -> usize {
    let indent = text.chars().take_while(|c| c.is_whitespace()).count();
    let mut lines = 1;
    let mut filled = indent.min(width);
    let mut empty = true;
    for word in text.split_whitespace() {
        let wide = word.width();
        let space = usize::from(!empty);
        if filled + space + wide > width && !(empty && filled == 0) {
            lines += 1;
            filled = 0;
        } else {
            filled += space;
        }
        // A word wider than the column goes on in the next lines.
        lines += (filled + wide).saturating_sub(1) / width;
        filled = if filled + wide > width { (filled + wide - 1) % width + 1 } else { filled + wide };
        empty = false;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::super::scan::Script;
    use super::*;

    fn lines_of(text: &str) -> usize {
        lines(&Script::read(text.as_bytes()).unwrap().elements)
    }

    #[test]
    fn a_text_breaks_between_words_and_a_long_word_within() {
        for (text, width, expected) in [
            ("", 10, 1),
            ("ten chars.", 10, 1),
            ("ten chars. more", 10, 2),
            ("one two three", 5, 3),
            ("abcdefghijklmno", 5, 3),
            ("ab abcdefghijk", 5, 4),
            ("    in", 5, 2),
            ("絹絹絹", 5, 2),
        ] {
            assert_eq!(wrapped(text, width), expected, "{text}");
        }
    }

    #[test]
    fn a_page_holds_54_lines_with_the_empty_ones_between_blocks() {
        assert_eq!(
            lines_of("INT. LOFT - DAY\n\nShe mends.\nShe hums.\n\nADA\n(low)\nNo.\n\n\n\nHe goes."),
            2 + 3 + 4 + 2
        );
        let line = "INT. LOFT - DAY\n\n".to_owned() + &"She mends.\n\n".repeat(26);
        assert_eq!(lines_of(&line), 54);
        assert_eq!(of_scene(&Script::read(line.as_bytes()).unwrap().elements), Eighths::new(8));
    }

    #[test]
    fn a_scene_is_at_least_an_eighth_and_the_nearest_eighth() {
        let of = |text: &str| of_scene(&Script::read(text.as_bytes()).unwrap().elements).get();
        assert_eq!(of("INT. LOFT"), 1);
        // Ten lines are 1.48 eighths, eleven are 1.63.
        assert_eq!(of(&("INT. LOFT\n\n".to_owned() + &"Mends.\n".repeat(7))), 1);
        assert_eq!(of(&("INT. LOFT\n\n".to_owned() + &"Mends.\n".repeat(8))), 2);
    }

    #[test]
    fn speeches_side_by_side_take_the_room_of_the_longer_one() {
        let one = "INT. LOFT\n\nADA\nYes.\n\nBEN\nNo.\nNever.";
        let dual = "INT. LOFT\n\nADA\nYes.\n\nBEN ^\nNo.\nNever.";
        assert_eq!((lines_of(one), lines_of(dual)), (2 + 3 + 4, 2 + 4));
    }

    #[test]
    fn the_outline_takes_no_room() {
        assert_eq!(
            lines_of("INT. LOFT\n\n= She waits.\n\n# Act\n\n===\n\nShe mends."),
            lines_of("INT. LOFT\n\nShe mends.")
        );
    }
}
