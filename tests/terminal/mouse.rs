//! The mouse: click, click again, right click, wheel, tabs, footer; and a stray click loses nothing.

use super::pty::{Program, User};

fn run(user: &User) -> Program {
    let board = user.demo("board");
    let program = user.run(&[board.to_str().unwrap()], (120, 40));
    program.shows("× Christening robe, lent");
    program.shows("? help");
    program
}

/// The strip at the foot of the wall: the third row from below its rule is the title in focus.
fn in_focus(program: &Program) -> String {
    let screen = program.screen();
    let rule = screen.lines().position(|line| line.starts_with(&"─".repeat(60))).unwrap();
    screen.lines().nth(rule + 1).unwrap().trim().to_owned()
}

/// The first block of an open outfit.
fn open_block(program: &Program) -> (u16, u16) {
    // Rows 2 to 5 are the heads and the ruler.
    program.place("○", 6)
}

#[test]
fn a_click_puts_the_focus_there_and_another_opens_the_sheet() {
    let user = User::new();
    let mut program = run(&user);
    let block = open_block(&program);
    program.clicks(0, block);
    program.until("the focus", |screen| screen.contains("open: space marks it"));
    assert_eq!(program.cell((block.0 + 1, block.1)), "◂", "the block that was clicked is in focus");
    let title = in_focus(&program);
    let (title, _) = title.split_once("  ").unwrap();
    let title = title.trim_start_matches("○ ").to_owned();
    assert!(!program.screen().contains("enter change"), "one click opens nothing");
    program.clicks(0, block);
    let sheet = program.shows("enter change");
    assert!(sheet.contains(&format!("╭─ {title} ")), "{title}\n{sheet}");
    program.escapes();
    // A lane can be clicked, too.
    let lane = program.place("Canteen ove", 6);
    program.clicks(0, lane);
    program.shows("= Canteen overall  look of Bridie Maren");
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

#[test]
fn a_right_click_marks_and_marks_off_again() {
    let user = User::new();
    let mut program = run(&user);
    let block = open_block(&program);
    program.clicks(2, block);
    program.shows("✓ 1 marked");
    assert_eq!(program.cell(block), "✓");
    assert!(!program.screen().contains("enter change"), "it opens nothing");
    program.clicks(2, block);
    program.until("no mark", |screen| screen.contains("no marks") && !screen.contains("✓"));
    assert_eq!(program.cell(block), "○");
}

#[test]
fn the_wheel_moves_up_and_down_in_every_view() {
    let user = User::new();
    let mut program = run(&user);
    let (first, row) = (in_focus(&program), program.place("◂", 6).1);
    program.clicks(65, (50, 20));
    program.until("another outfit", |_| in_focus(&program) != first);
    assert_eq!(program.place("◂", 6).1, row + 1);
    program.clicks(64, (50, 20));
    program.until("the first row", |_| program.place("◂", 6).1 == row);

    for (key, shows) in [("2", "enter edit"), ("3", "enter assign")] {
        program.types(key, shows);
        let row = program.place("▸", 2).1;
        program.clicks(65, (20, 20));
        program.until("the next row", |_| program.place("▸", 2).1 == row + 1);
        program.clicks(64, (20, 20));
        program.until("the row before", |_| program.place("▸", 2).1 == row);
    }

    // In a list that lies over the view, the wheel moves in the list.
    program.types("/", "Find");
    program.shows("1 of ");
    program.clicks(65, (50, 20));
    program.shows("2 of ");
    program.clicks(64, (50, 20));
    program.shows("1 of ");
}

#[test]
fn tabs_and_the_footer_are_buttons() {
    let user = User::new();
    let mut program = run(&user);
    let tab = program.place("2 looks", 0);
    program.clicks(0, tab);
    program.shows("tab fields");
    let tab = program.place("scenes", 0);
    program.clicks(0, tab);
    program.shows("enter assign");
    let tab = program.place("1 wall", 0);
    program.clicks(0, tab);
    program.shows("z fold up");
    let button = program.place("fold up", 30);
    program.clicks(0, button);
    program.shows("folded up: ");
    let button = program.place("? help", 30);
    program.clicks(0, button);
    program.shows("Zoom in: blocks");
    program.escapes();
    let button = program.place("o next open", 30);
    program.clicks(0, button);
    program.shows("open: space marks it");
}

#[test]
fn a_click_beside_a_form_loses_nothing() {
    let user = User::new();
    let mut program = run(&user);
    let (tab, block) = (program.place("2 looks", 0), open_block(&program));
    program.types("R", "Rename Christening robe, lent");
    program.types("\u{15}Robe, half typed", "Robe, half typed");
    program.shows("enter done");
    let before = program.covered();
    for place in [tab, block, (10, 39), (119, 39), (0, 0), (119, 20)] {
        for button in [0, 2, 64, 65] {
            program.clicks(button, place);
        }
    }
    program.types("!", "Robe, half typed!");
    assert_eq!(program.screen(), before.replace("half typed ", "half typed!"), "nothing else has changed");
    program.types("\r", "renamed to Robe, half typed!");
    program.shows("× Robe, half typed!");

    // Nor beside the notes, nor beside a question.
    program.types("n", "Notes: ");
    program.types("kept all along", "kept all along");
    program.clicks(0, tab);
    program.clicks(0, block);
    program.types("\u{13}", "notes of Robe");
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

#[test]
fn a_click_on_a_row_of_a_list_chooses_it() {
    let user = User::new();
    let mut program = run(&user);
    program.types("c", "Show");
    program.shows("enter choose");
    let row = program.place("Bridie Maren", 6);
    program.clicks(0, row);
    program.shows("only Bridie Maren");
}

#[test]
fn moving_and_dragging_the_mouse_does_nothing() {
    let user = User::new();
    let mut program = run(&user);
    let (column, row) = open_block(&program);
    // The greeting goes with the first key.
    program.types(":", "type to narrow down");
    program.escapes();
    let before = program.screen();
    for code in [32, 34, 35] {
        program.keys(&format!("\u{1b}[<{code};{};{}M", column + 1, row + 1));
    }
    // What comes after is only handled when they were.
    program.types(":", "type to narrow down");
    program.escapes();
    assert_eq!(program.screen(), before);
}
