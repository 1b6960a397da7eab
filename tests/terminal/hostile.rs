//! What files say never steers the terminal.

use super::pty::User;

#[test]
fn an_escape_sequence_in_a_title_never_reaches_the_terminal() {
    let user = User::new();
    let board = user.demo("board");
    let file = board.join("outfits/od-1949-funeral-costume.yaml");
    let text = std::fs::read_to_string(&file).unwrap();
    let lines: Vec<String> = text
        .lines()
        .map(|line| match line.strip_prefix("title:") {
            Some(_) => "title: \"evil\\e]0;owned\\a\\e[31mred\\u202edlo\"".to_owned(),
            None => line.to_owned(),
        })
        .collect();
    std::fs::write(&file, lines.join("\n")).unwrap();
    let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
    program.shows("Slack Water");
    program.types("/", "Find");
    program.types("evil", "evil");
    program.types("\r", "Ivo Karsk's funeral");
    // Every zoom, and the sheet.
    program.types("+", "middle: lines");
    program.types("+", "near: cards");
    program.types("\r", "esc");
    program.keys("\u{1b}");
    program.until("the wall again", |screen| screen.contains("? help"));
    program.keys("q");
    program.ends();
    let raw = program.raw();
    for payload in [&b"\x1b]0;owned"[..], &b"\x1b[31mred"[..], "\u{202e}".as_bytes()] {
        assert!(!raw.windows(payload.len()).any(|bytes| bytes == payload), "{payload:?}");
    }
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
