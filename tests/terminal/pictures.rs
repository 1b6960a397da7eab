//! Pictures go out in a way that the terminal has said it knows, and in none where it has no colours.

use std::time::Duration;

use super::pty::{Program, User, wait_until};

/// What asks a terminal what it is.
const QUESTION: &[u8] = b"\x1b[c";

fn wrote(program: &Program, what: &[u8]) -> bool {
    program.raw().windows(what.len()).any(|part| part == what)
}

fn asked(program: &Program) {
    wait_until("the terminal is asked what it is", || wrote(program, QUESTION));
}

#[test]
fn a_terminal_that_says_nothing_gets_half_blocks() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
    program.shows("Slack Water");
    program.keys("++");
    program.until("half blocks", |screen| screen.contains('▀') || screen.contains('▄'));
    assert!(program.screen().contains("drawn from the"), "{}", program.screen());
}

#[test]
fn a_terminal_that_says_so_gets_sixels() {
    let user = User::new();
    let board = user.demo("board");
    // On a busy machine an answer may come too late to be heard, and then it is half blocks.
    let heard = (0..5).any(|_| {
        let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
        asked(&program);
        program.keys("\x1b[?62;4;22c");
        program.shows("Slack Water");
        program.keys("++");
        wait_until("pictures", || wrote(&program, b"\x1bP") || program.screen().contains('▀'));
        let is_painted = wrote(&program, b"\x1bP");
        if is_painted {
            wait_until("the end of a picture", || wrote(&program, b"\x1b\\"));
            assert!(!program.screen().contains('▀'), "{}", program.screen());
        }
        is_painted
    });
    assert!(heard);
}

#[test]
fn a_key_that_is_typed_while_the_terminal_is_asked_is_not_lost() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
    asked(&program);
    program.keys("2\x1b[?62;22c");
    program.shows("The crossing black");
}

#[test]
fn a_terminal_without_colours_is_not_asked_and_gets_no_pictures() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run_with(&[board.to_str().unwrap()], (120, 40), ("NO_COLOR", "1"));
    program.shows("Slack Water");
    program.keys("++");
    program.shows("near: cards");
    // As long as pictures would take to come.
    std::thread::sleep(Duration::from_millis(500));
    assert!(!wrote(&program, QUESTION));
    let screen = program.screen();
    assert!(!screen.contains('▀') && !screen.contains("drawn from"), "{screen}");
}
