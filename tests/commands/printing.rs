//! What is printed: safe, quiet when nobody reads on, and the same as the program's own tables.

use std::fs;
use std::process::Stdio;

use crate::common::Desk;
use crate::{FORMATS, REPORTS, STARTERS};

#[test]
fn each_shell_has_its_completions() {
    let desk = Desk::new();
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let run = desk.shirr(&["completions", shell]).exits(0);
        for word in ["report", "completions", "reset"] {
            assert!(run.out.contains(word), "{shell} does not complete {word}");
        }
    }
    desk.shirr(&["completions", "abacus"]).exits(2);
}

#[test]
fn the_key_list_is_the_table_of_actions() {
    let run = Desk::new().shirr(&["keys"]).exits(0);
    for action in shirr::screen::actions::ACTIONS {
        let keys = action.keys.join(" ");
        let shows =
            |line: &str| line.contains(&keys) && line.contains(action.name) && line.ends_with(action.about);
        assert!(run.out.lines().any(shows), "{} is missing", action.name);
    }
}

#[test]
fn no_escape_sequence_from_a_hostile_board_reaches_the_terminal() {
    let desk = Desk::new();
    let hostile = r#""\e[2J\e]0;owned\a\u202Eab\x9b31m\r\n= 1""#;
    let outfit = format!("title: {hostile}\ncharacter: ada\nworn: 1950\n");
    let look = format!(
        "title: {hostile}\ncharacter: ada\nsays: {hostile}\ntreatment: copy\nbase: smock\ndressing: [{hostile}]\n\
         departures: [{{detail: {hostile}}}]\n"
    );
    let head = format!(
        "shirr: 1\nid: trial\ntitle: {hostile}\nperiods:\n  - {{id: early, title: {hostile}, span: 1911/1924}}\n\
         characters:\n  - {{id: ada, name: {hostile}, performer: {hostile}}}\n"
    );
    let fault = format!("{hostile}: 1\n");
    let files = [
        ("board.yaml", head.as_str()),
        ("outfits/coat.yaml", &outfit),
        ("outfits/bad.yaml", &fault),
        ("looks/quay.yaml", &look),
    ];
    desk.board("film", &files);
    let mut commands = vec![vec!["film"], vec!["check", "film"], vec!["check", "film", "--json"]];
    for report in REPORTS {
        commands.extend(FORMATS.map(|format| vec!["report", report, "film", "--to", format]));
    }
    commands.push(vec!["\u{1b}[2J\u{202e}"]);
    commands.push(vec!["report", "\u{1b}[2J\u{202e}"]);
    for args in commands {
        let run = desk.shirr(&args);
        let hostile =
            |c: char| c != '\n' && c != '\t' && (c.is_control() || ('\u{202a}'..='\u{202e}').contains(&c));
        for text in [&run.out, &run.err] {
            let text = text.replace("\r\n", "\n");
            assert!(!text.contains(hostile), "{args:?}: {text:?}");
        }
        assert!(run.out.len() + run.err.len() > 20, "{args:?} printed next to nothing");
    }
}

#[test]
fn a_reader_that_goes_away_ends_the_printing_quietly() {
    let desk = Desk::new();
    // More than a pipe holds, so that the program must write to a reader that is gone.
    let scenes: String =
        (1..4000).map(|number| format!("- scene: {number}\n  set: {}\n", "A long quay ".repeat(9))).collect();
    desk.board("film", &[("scenes.yaml", &scenes)]);
    let mut command = desk.command(&["report", "scenes", "film", "--to", "csv"]);
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8(output.stderr).unwrap(), "");
    assert_eq!(output.status.code(), Some(0));
}

#[cfg(target_os = "linux")]
#[test]
fn output_that_cannot_be_written_is_a_failure() {
    let desk = Desk::new();
    desk.board("film", &[]);
    let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let output = desk.command(&["check", "film"]).stdout(full).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.starts_with("shirr: standard output cannot be written"), "{said}");
}

#[test]
fn help_and_version_are_no_failures() {
    let desk = Desk::new();
    assert!(desk.shirr(&["--version"]).exits(0).out.starts_with("shirr "));
    let help = desk.shirr(&["new", "--help"]).exits(0);
    assert!(STARTERS.iter().all(|starter| help.out.contains(starter)), "{}", help.out);
}
