//! Every depth of colour writes what its terminals understand, and the marks say the same in all.

use std::collections::BTreeSet;

use super::pty::{Program, User};

/// What colours a sequence of graphic renditions sets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Sets {
    /// One of eight or sixteen, by a number of its own.
    Old,
    /// One of sixteen or 256, by its place in the palette.
    Indexed(u16),
    /// Red, green and blue.
    True,
}

/// The colours that were set in what was written. Resets (39, 49, 59) set none.
fn colours(raw: &[u8]) -> BTreeSet<Sets> {
    let text = String::from_utf8_lossy(raw);
    let sequences = text.split("\u{1b}[").skip(1).filter_map(|rest| {
        let end = rest.find(|c: char| !c.is_ascii_digit() && c != ';' && c != ':')?;
        rest[end..].starts_with('m').then(|| &rest[..end])
    });
    let mut set = BTreeSet::new();
    for sequence in sequences {
        let numbers: Vec<u16> =
            sequence.split([';', ':']).map(|number| number.parse().unwrap_or(0)).collect();
        let mut at = 0;
        while at < numbers.len() {
            match (numbers[at], numbers.get(at + 1)) {
                (30..=37 | 40..=47 | 90..=97 | 100..=107, _) => drop(set.insert(Sets::Old)),
                (38 | 48 | 58, Some(5)) => {
                    set.insert(Sets::Indexed(numbers[at + 2]));
                    at += 2;
                }
                (38 | 48 | 58, Some(2)) => {
                    set.insert(Sets::True);
                    at += 4;
                }
                _ => {}
            }
            at += 1;
        }
    }
    set
}

/// Goes through views, zooms, marks and a window; what was written, and whether every mark was seen.
fn look_around(variables: &[(&str, &str)]) -> BTreeSet<Sets> {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run_with_all(&[board.to_str().unwrap()], (120, 40), variables);
    let wall = program.shows("? help");
    for mark in ["○", "=", "≈", "×", "!", "*", "●", "•"] {
        assert!(wall.contains(mark), "{mark} with {variables:?}\n{wall}");
    }
    program.types("o", "○ ");
    program.types(" ", "✓");
    program.shows("1 marked");
    program.types("+", "middle");
    program.types("+", "near");
    marks_of(&program, variables, &["✓", "="]);
    program.types("T", "Light");
    program.types("\r", "◆");
    program.types("2", "Odile Maren");
    marks_of(&program, variables, &["=", "≈", "*"]);
    program.types("3", "enter assign");
    program.types("!", "Problems");
    program.shows("enter choose");
    program.escapes();
    program.keys("q");
    assert_eq!(program.ends(), 0);
    colours(&program.raw())
}

fn marks_of(program: &Program, variables: &[(&str, &str)], marks: &[&str]) {
    program.until("the marks", |screen| marks.iter().all(|mark| screen.contains(mark)));
    assert!(!program.screen().is_empty(), "{variables:?}");
}

#[test]
fn no_color_writes_no_colour() {
    for term in ["xterm-256color", "vt220"] {
        assert_eq!(
            look_around(&[("NO_COLOR", "1"), ("TERM", term), ("COLORTERM", "truecolor")]),
            BTreeSet::new()
        );
    }
}

#[test]
fn a_terminal_of_sixteen_gets_the_sixteen_of_old() {
    let set = look_around(&[("TERM", "vt220")]);
    // By numbers of their own: a terminal that knows no palette would take `38;5` for something else, 5 being blink.
    assert_eq!(set, BTreeSet::from([Sets::Old]));
}

#[test]
fn a_terminal_of_256_gets_places_in_its_palette_and_never_true_colours() {
    let set = look_around(&[("TERM", "xterm-256color")]);
    assert!(set.iter().any(|sets| matches!(sets, Sets::Indexed(16..=255))), "{set:?}");
    assert!(!set.contains(&Sets::True), "{set:?}");
}

#[test]
fn a_terminal_of_true_colours_gets_the_cloths_own() {
    for variables in [
        [("TERM", "xterm-256color"), ("COLORTERM", "truecolor")],
        [("TERM", "xterm"), ("COLORTERM", "24bit")],
    ] {
        let set = look_around(&variables);
        assert!(set.contains(&Sets::True), "{set:?}");
        assert!(!set.iter().any(|sets| matches!(sets, Sets::Indexed(_))), "{set:?}");
    }
}

#[test]
fn the_programs_own_variable_overrides_what_the_terminal_says() {
    assert_eq!(look_around(&[("TERM", "xterm-256color"), ("SHIRR_COLOURS", "none")]), BTreeSet::new());
    let wanted = look_around(&[("TERM", "vt220"), ("NO_COLOR", "1"), ("SHIRR_COLOURS", "true")]);
    assert!(wanted.contains(&Sets::True), "{wanted:?}");
}

#[test]
fn without_colour_no_colour_is_written_and_every_mark_is_there() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run_with(&[board.to_str().unwrap()], (120, 40), ("NO_COLOR", "1"));
    // The footer is drawn last.
    let screen = program.shows("? help");
    for mark in ["○", "=", "≈", "×", "*", "●", "•", "!"] {
        assert!(screen.contains(mark), "{mark}");
    }
    program.keys("q");
    program.ends();
    let raw = String::from_utf8_lossy(&program.raw()).into_owned();
    for colour in ["\u{1b}[38;5;", "\u{1b}[48;5;", "\u{1b}[38;2;", "\u{1b}[48;2;"] {
        assert!(!raw.contains(colour), "{colour:?}");
    }
}
