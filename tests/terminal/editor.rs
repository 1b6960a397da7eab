//! A record in the user's own editor: taken in as one change, or nothing is changed.

use std::fs;
use std::path::PathBuf;

use rustix::process::Signal;

use super::exits::is_stopped;
use super::pty::{Program, User, files, records, wait_until};

const ESCAPE: &str = "\u{1b}";
const ROBE: &str = "od-1911-christening-gown";

/// The demo, with this shell script for an editor.
fn run(user: &User, script: &str) -> (PathBuf, Program) {
    let editor = user.script("editor", script);
    run_with(user, &editor)
}

fn run_with(user: &User, editor: &str) -> (PathBuf, Program) {
    let folder = user.demo("board");
    let program = user.run_with(&[folder.to_str().unwrap()], (120, 40), ("EDITOR", editor));
    program.shows("× Christening robe, lent");
    program.shows("? help");
    (folder, program)
}

fn robe(folder: &std::path::Path) -> shirr::board::Outfit {
    records(folder).outfits[&ROBE.parse().unwrap()].as_ref().clone()
}

fn leave(mut program: Program) {
    assert!(!program.gave_back(), "the screen is back");
    program.keys("q");
    assert_eq!(program.ends(), 0);
    assert!(program.gave_back());
}

#[test]
fn a_valid_change_is_one_edit_and_the_editor_has_the_terminal_meanwhile() {
    let user = User::new();
    let script = r#"
        stty -a > "$HOME/tty"
        cp "$1" "$HOME/given"
        echo > "$HOME/begun"
        while [ ! -e "$HOME/go" ]; do sleep 0.05; done
        sed -i -e 's/^title: .*/title: Robe by hand/' -e 's/^recognition: .*/recognition: 3/' "$1""#;
    let (folder, mut program) = run(&user, script);
    let before = records(&folder);
    program.keys("E");
    wait_until("the editor", || user.path("begun").exists());
    program.until("the terminal given back", |_| program.gave_back());
    let tty = fs::read_to_string(user.path("tty")).unwrap();
    assert!(tty.contains(" icanon") && tty.contains(" echo "), "the terminal reads lines again: {tty}");
    let given = fs::read_to_string(user.path("given")).unwrap();
    assert!(given.starts_with("title: Christening robe, lent\n") && given.contains("let-go: "), "{given}");
    fs::write(user.path("go"), "").unwrap();
    program.shows("× Robe by hand");
    program.shows("known 3/5");
    let after = robe(&folder);
    assert_eq!((after.title.as_str(), after.recognition.get()), ("Robe by hand", 3));
    // Both fields are one change.
    program.types("u", "took back: Christening robe, lent edited as text");
    program.shows("× Christening robe, lent");
    assert_eq!(records(&folder), before);
    program.types("u", "nothing to take back");
    program.types("U", "did again");
    program.shows("× Robe by hand");
    leave(program);
}

#[test]
fn nothing_written_changes_nothing() {
    let user = User::new();
    let (folder, mut program) = run(&user, "touch \"$1\"");
    let before = files(&folder);
    program.types("E", "nothing changed");
    assert_eq!(files(&folder), before);
    leave(program);
}

/// Writes a key that is none at first, and mends it when it comes up again.
const TWICE: &str = r#"
    if grep -q '^titel:' "$1"; then
        cp "$1" "$HOME/second"
        sed -i 's/^titel: /title: /' "$1"
    else
        sed -i 's/^title: .*/titel: Mended robe/' "$1"
    fi"#;

#[test]
fn a_text_that_does_not_read_is_asked_about_and_can_be_gone_on_with() {
    let user = User::new();
    let (folder, mut program) = run(&user, TWICE);
    let before = files(&folder);
    program.types("E", "Not taken");
    let question = program.shows("enter choose");
    assert!(question.contains(&format!("outfits/{ROBE}.yaml:1:1: unknown key `titel`")), "{question}");
    assert!(question.contains("title"), "the nearest valid word: {question}");
    assert_eq!(files(&folder), before, "nothing was changed");
    assert!(!program.gave_back());
    program.types("\r", "× Mended robe");
    let second = fs::read_to_string(user.path("second")).unwrap();
    assert!(second.starts_with("titel: Mended robe\n"), "it goes on with what was written: {second}");
    assert_eq!(robe(&folder).title, "Mended robe");
    program.types("u", "took back");
    program.types("u", "nothing to take back");
    leave(program);
}

#[test]
fn throwing_it_away_changes_nothing() {
    for away in ["j\r", ESCAPE] {
        let user = User::new();
        let (folder, mut program) = run(&user, "echo 'worn: 19x6' > \"$1\"");
        let before = files(&folder);
        program.types("E", "Not taken");
        program.shows("enter choose");
        program.keys(away);
        program.until("the question gone", |screen| !screen.contains("Not taken"));
        assert_eq!(files(&folder), before);
        program.types("u", "nothing to take back");
        leave(program);
    }
}

#[test]
fn an_editor_that_fails_leaves_the_board_as_it_was() {
    for (script, says) in [
        ("sed -i 's/^title: .*/title: Never/' \"$1\"; exit 3", "exit status: 3: nothing was taken"),
        ("rm \"$1\"", "the text is gone"),
        ("kill -9 $$", "nothing was taken"),
        ("printf '\\377\\376' > \"$1\"", "not UTF-8"),
        (": > \"$1\"", "Not taken"),
    ] {
        let user = User::new();
        let (folder, mut program) = run(&user, script);
        let before = files(&folder);
        program.types("E", says);
        assert!(!program.gave_back(), "the screen is back after {script}");
        assert_eq!(files(&folder), before, "{script}");
        if program.screen().contains("Not taken") {
            program.escapes();
        }
        program.types("2", "tab fields");
        leave(program);
    }
}

#[test]
fn an_editor_that_is_not_there_is_said() {
    let user = User::new();
    let (folder, mut program) = run_with(&user, "/nowhere/editor");
    let before = files(&folder);
    program.types("E", "`/nowhere/editor` is not there: put another editor into EDITOR");
    assert_eq!(files(&folder), before);
    leave(program);
}

#[test]
fn without_an_editor_of_ones_own_vi_is_tried() {
    let user = User::new();
    user.script("vi", "sed -i 's/^title: .*/title: By vi/' \"$1\"");
    let folder = user.demo("board");
    let path = format!("{}:{}", user.path("").display(), std::env::var("PATH").unwrap_or_default());
    let variables = [("EDITOR", ""), ("PATH", path.as_str())];
    let mut program = user.run_with_all(&[folder.to_str().unwrap()], (120, 40), &variables);
    program.shows("? help");
    program.types("E", "× By vi");
    assert_eq!(robe(&folder).title, "By vi");
    leave(program);
}

#[test]
fn a_file_that_does_not_read_is_mended_from_the_list_of_problems() {
    let user = User::new();
    let (folder, mut program) = run(&user, "sed -i 's/^titel:/title:/' \"$1\"");
    let file = folder.join(format!("outfits/{ROBE}.yaml"));
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&file, text.replace("title:", "titel:")).unwrap();
    program.shows("titel");
    program.types("!", "Problems");
    program.types("titel", "1 of 1");
    program.types("\r", "Open the file in your own editor");
    program.types("\r", "can be read again");
    assert_eq!(robe(&folder).title, "Christening robe, lent");
    leave(program);
}

#[test]
fn an_editor_with_options_gets_them() {
    let user = User::new();
    let editor = user.script("editor", "[ \"$1\" = --wait ] && sed -i 's/^title: .*/title: Waited/' \"$2\"");
    let (folder, mut program) = run_with(&user, &format!("{editor} --wait"));
    program.types("E", "× Waited");
    assert_eq!(robe(&folder).title, "Waited");
    leave(program);
}

#[test]
fn what_another_hand_changed_meanwhile_is_not_overwritten() {
    let user = User::new();
    let script = r#"
        echo > "$HOME/begun"
        while [ ! -e "$HOME/go" ]; do sleep 0.05; done
        sed -i 's/^title: .*/title: Ours/' "$1""#;
    let (folder, mut program) = run(&user, script);
    program.keys("E");
    wait_until("the editor", || user.path("begun").exists());
    let file = folder.join(format!("outfits/{ROBE}.yaml"));
    let theirs = fs::read_to_string(&file).unwrap().replace("title: Christening robe, lent", "title: Theirs");
    fs::write(&file, theirs).unwrap();
    fs::write(user.path("go"), "").unwrap();
    program.shows("Changed on both sides");
    assert_eq!(robe(&folder).title, "Theirs");
    program.shows("enter choose");
    program.keys("\r");
    program.until("the question gone", |screen| !screen.contains("Changed on both sides"));
    assert_eq!(robe(&folder).title, "Theirs");
    leave(program);
}

#[test]
fn an_editor_that_stops_stops_the_program_with_it_and_both_go_on() {
    let user = User::new();
    // As an editor answers `ctrl-z`: the whole job stops, for the shell that waits for it.
    let script = r#"
        kill -TSTP 0
        echo > "$HOME/begun"
        while [ ! -e "$HOME/go" ]; do sleep 0.05; done
        sed -i 's/^title: .*/title: Ours/' "$1""#;
    let (folder, mut program) = run(&user, script);
    program.keys("E");
    wait_until("the editor", || user.path("begun").exists());
    wait_until("the stop", || is_stopped(program.id()));
    assert!(program.gave_back());
    program.signal(Signal::CONT);
    fs::write(user.path("go"), "").unwrap();
    program.types("", "× Ours");
    assert_eq!(robe(&folder).title, "Ours");
    // It does not stop once more by itself.
    program.types("]", "known 1/5");
    leave(program);
}
