//! The terminal is given back on every way out.

use rustix::process::Signal;

use super::pty::User;

#[test]
fn quitting_gives_the_terminal_back() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (100, 30));
    program.shows("Slack Water");
    assert!(!program.gave_back(), "the program has the terminal while it runs");
    program.keys("q");
    assert_eq!(program.ends(), 0);
    assert!(program.gave_back());
}

#[test]
fn a_signal_to_end_gives_the_terminal_back() {
    for signal in [Signal::TERM, Signal::HUP, Signal::INT] {
        let user = User::new();
        let board = user.demo("board");
        let mut program = user.run(&[board.to_str().unwrap()], (100, 30));
        program.shows("Slack Water");
        program.signal(signal);
        program.ends();
        assert!(program.gave_back(), "{signal:?}");
    }
}

#[test]
fn a_board_that_cannot_be_opened_is_an_error_not_a_screen() {
    let user = User::new();
    let mut program = user.run(&["nowhere"], (100, 30));
    assert_eq!(program.ends(), 2);
    assert!(program.gave_back());
    assert!(program.screen().contains("nowhere"), "{}", program.screen());
}

#[test]
fn suspend_gives_the_terminal_back_and_resume_takes_it_again() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (100, 30));
    program.shows("Slack Water");
    program.keys("\u{1a}");
    let start = std::time::Instant::now();
    while !(program.gave_back() && is_stopped(program.id())) {
        assert!(start.elapsed().as_secs() < 60, "never stopped\n{}", program.screen());
        std::thread::sleep(std::time::Duration::from_millis(10));
    }
    program.signal(Signal::CONT);
    program.until("the screen again", |screen| screen.contains("Slack Water") && screen.contains("Looks"));
    assert!(!program.gave_back());
    program.types("2", "Odile Maren");
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

/// Whether the process is stopped, by the state that the system shows.
fn is_stopped(id: u32) -> bool {
    let status = std::fs::read_to_string(format!("/proc/{id}/stat")).unwrap_or_default();
    status.rsplit(')').next().is_some_and(|rest| rest.trim_start().starts_with('T'))
}

#[test]
fn every_size_is_drawn_and_below_the_least_one_clear_sentence() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
    program.shows("The Lights");
    for (columns, rows) in [(40, 12), (200, 60), (80, 24)] {
        program.resize(columns, rows);
        program.shows("Slack Water");
    }
    program.resize(39, 11);
    program.shows("Shirr needs at least 40");
    program.resize(80, 24);
    program.shows("The Lights");
    program.keys("q");
    assert_eq!(program.ends(), 0);
}
