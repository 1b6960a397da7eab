//! Which board is meant, and what `shirr [BOARD]` says of it without a terminal.

use crate::common::Desk;

#[test]
fn a_folder_that_is_no_board_says_how_to_start_one() {
    let desk = Desk::new();
    let run = desk.shirr(&["nowhere"]).exits(2);
    assert!(run.err.starts_with("shirr: nowhere is no board"), "{}", run.err);
    assert!(run.err.contains("hint: ") && run.err.contains("shirr new nowhere"), "{}", run.err);
}

#[test]
fn what_is_a_file_or_a_full_folder_is_not_offered_as_a_place_for_a_board() {
    let desk = Desk::new();
    let board = desk.board("film", &[]);
    let run = desk.shirr(&["film/board.yaml"]).exits(2);
    assert!(run.err.contains("board.yaml is a file, not a board's folder"), "{}", run.err);
    assert!(!run.err.contains("repair"), "{}", run.err);
    std::fs::remove_file(board.join("board.yaml")).unwrap();
    let run = desk.shirr(&["film"]).exits(2);
    assert!(run.err.contains("film is no board") && !run.err.contains("shirr new film"), "{}", run.err);
}

#[test]
fn a_misspelt_command_is_not_left_to_look_like_a_folder() {
    let run = Desk::new().shirr(&["chek"]).exits(2);
    assert!(run.err.contains("did you mean the command `shirr check`"), "{}", run.err);
}

#[test]
fn a_board_called_like_a_command_opens_by_its_path() {
    let desk = Desk::new();
    desk.board("check", &[]);
    let run = desk.shirr(&["./check"]).exits(0);
    assert!(run.out.starts_with("Trial\n"), "{}", run.out);
}

#[test]
fn without_a_terminal_the_board_is_summed_up_even_with_gaps() {
    let desk = Desk::new();
    desk.board("film", &[("outfits/coat.yaml", "titel: Coat\n")]);
    let run = desk.shirr(&["film"]).exits(0);
    let line =
        |start: &str| run.out.lines().find(|line| line.starts_with(start)).unwrap_or_default().to_owned();
    let words = |line: String| line.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(words(line("Early")), ["Early", "1", "1", "0", "0", "1"]);
    assert_eq!(words(line("Ada")), ["Ada", "1", "1", "0", "0", "1"]);
    assert!(line("Scenes: ").starts_with("Scenes: 1, 1 3/8 pages"), "{}", run.out);
    assert!(run.err.starts_with("shirr: warning: outfits/coat.yaml:1:1: "), "{}", run.err);
}

#[test]
fn a_command_without_a_board_takes_the_folder_that_it_stands_in() {
    let desk = Desk::new();
    let board = desk.board("film", &[]);
    let run = desk.command(&["check"]).current_dir(board).output().unwrap();
    assert_eq!(String::from_utf8(run.stdout).unwrap(), "Trial: nothing is the matter.\n");
    assert!(!desk.demo().exists());
}
