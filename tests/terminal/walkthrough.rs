//! From the opening screen to a look in a scene, all of it undone and done again, left and opened again.

use super::pty::{Program, User};

/// Marks three open outfits, gathers them, sets the treatment, writes a departure, assigns the look to a scene.
/// Returns how many changes that were.
fn gather_three(program: &mut Program) -> usize {
    program.shows("looks");
    program.types("c", "Show");
    program.types("Odile\r", "only Odile Maren");
    // The leave-week tweed and the peace regatta costume are passed over; then three of one period.
    program.keys("ooo");
    program.types(" ", "1 marked");
    program.keys("o");
    program.types(" ", "2 marked");
    program.keys("o");
    program.types(" ", "3 marked");
    program.types("g", "Gather 3 into a new look");
    // Clear the proposed title, type our own.
    program.keys("\u{15}Three in one");
    program.types("\r", "gathered 3 into Three in one");
    program.types("t", "Treatment of Three in one");
    program.types("k\r", "Three in one copies");
    program.types("d", "Departure of Three in one");
    program.keys("hem\tto the calf\tbelow the knee\tstairs on the set\r");
    program.shows("departure: hem");
    program.types("a", "Three in one is worn in scene");
    program.types("\r", "wears Three in one");
    4
}

fn counter(screen: &str) -> String {
    screen.lines().nth(1).unwrap_or_default().to_owned()
}

fn from_the_opening_screen_to_a_scene_and_back(size: (u16, u16)) {
    let user = User::new();
    let board = user.demo("board");
    let board = board.to_str().unwrap();
    let mut program = user.run(&[board], size);
    let before = counter(&program.shows("41/44"));
    let changes = gather_three(&mut program);
    let after = counter(&program.shows("42/44"));
    assert_ne!(before, after, "the counter has changed");
    program.types("z", "folded up");
    program.keys("z");
    program.shows("opened:");

    for _ in 0..changes {
        program.keys("u");
    }
    program.types("u", "nothing to take back");
    program.shows("41/44");
    for _ in 0..changes {
        program.keys("U");
    }
    program.types("U", "nothing to do again");
    program.shows("42/44");
    program.keys("q");
    assert_eq!(program.ends(), 0);
    assert!(program.gave_back());

    let mut again = user.run(&[board], size);
    again.shows("42/44");
    again.types("/", "Find");
    again.types("Three in one", "look of Odile Maren");
    again.keys("\r");
    again.types("2", "Three in one");
    let look = std::fs::read_to_string(format!("{board}/looks/three-in-one.yaml")).unwrap();
    for part in ["title: Three in one", "treatment: interpret", "detail: hem", "becomes: below the knee"] {
        assert!(look.contains(part), "{part} in\n{look}");
    }
    let scenes = std::fs::read_to_string(format!("{board}/scenes.yaml")).unwrap();
    assert!(scenes.contains("odile: three-in-one"), "the scene wears it");
    // Undo survives the restart.
    again.types("u", "took back");
    again.keys("q");
    assert_eq!(again.ends(), 0);
}

#[test]
fn the_whole_way_works_at_80_by_24() {
    from_the_opening_screen_to_a_scene_and_back((80, 24));
}

#[test]
fn the_whole_way_works_at_120_by_40() {
    from_the_opening_screen_to_a_scene_and_back((120, 40));
}

#[test]
fn the_whole_way_works_at_200_by_60() {
    from_the_opening_screen_to_a_scene_and_back((200, 60));
}

#[test]
fn the_whole_way_works_at_40_by_12() {
    from_the_opening_screen_to_a_scene_and_back((40, 12));
}
