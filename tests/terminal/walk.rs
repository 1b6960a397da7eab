//! The walk, left and taken up again by another program.

use super::pty::{Program, User};

/// So low that names are not in large letters.
const SIZE: (u16, u16) = (100, 20);

/// What the walk's own line says, as soon as it says that it goes this way.
fn place(program: &Program, way: &str) -> String {
    let line = |screen: &str| screen.lines().find_map(|line| Some(line[line.find(way)?..].trim().to_owned()));
    line(&program.until(way, |screen| line(screen).is_some())).unwrap()
}

/// Opens the board and walks; returns where.
fn begins(user: &User, board: &str, way: &str) -> (Program, String) {
    let mut program = user.run(&[board], SIZE);
    program.shows("Slack Wa");
    program.keys("4");
    let place = place(&program, way);
    (program, place)
}

fn leaves(mut program: Program) {
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

#[test]
fn the_walk_goes_on_where_it_was_left_after_leaving_and_opening_again() {
    let user = User::new();
    let (board, copy) = (user.demo("board"), user.demo("copy"));
    let (board, copy) = (board.to_str().unwrap(), copy.to_str().unwrap());
    let (mut program, begun) = begins(&user, board, "walk by period · stop");
    program.types("\t", "walk by look · stop");
    program.types("\t", "walk by scene · stop");
    let first = place(&program, "walk by scene · stop");
    program.keys("   ");
    program.until("another stop", |screen| screen.contains("walk by scene") && !screen.contains(&first));
    program.types("g", "Jump, by scene");
    program.types("tide race\r", "Scene 27");
    let left = place(&program, "walk by scene · stop");
    assert_ne!(left, first);
    leaves(program);

    let (program, place) = begins(&user, board, "walk by scene · stop");
    assert_eq!(place, left);
    program.shows("Scene 27");
    leaves(program);
    // A copy of the board has a walk of its own.
    let (program, place) = begins(&user, copy, "walk by period · stop");
    assert_eq!(place, begun);
    leaves(program);
    // Without its file, or with one that cannot be read, it begins as it did.
    let kept = user.places().state.join("boards/slack-water/bookmarks.json");
    assert!(std::fs::read_to_string(&kept).unwrap().contains("walk by scene, at scene 27"));
    for damaged in [None, Some("{"), Some("walk")] {
        match damaged {
            None => std::fs::remove_file(&kept).unwrap(),
            Some(text) => std::fs::write(&kept, text).unwrap(),
        }
        let (program, place) = begins(&user, board, "walk by period · stop");
        assert_eq!(place, begun, "{damaged:?}");
        leaves(program);
    }
}
