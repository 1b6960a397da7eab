//! `shirr check`: findings and exit codes.

use serde_json::json;

use crate::common::Desk;

#[test]
fn an_error_among_the_findings_exits_with_one_and_warnings_do_not() {
    let desk = Desk::new();
    let undressed = ("scenes.yaml", "- scene: 1\n  date: 1920\n  pages: 1\n  wears: {ada: ~}\n");
    desk.board("film", &[undressed]);
    let document = desk.shirr(&["check", "film", "--json"]).exits(1).json();
    assert_eq!(
        document["findings"][0],
        json!({
            "name": "scene-without-look",
            "level": "error",
            "about": {"kind": "scene", "id": "1"},
            "text": "Ada is in scene 1 and has no look there.",
            "todo": "Assign Ada a look in scene 1, or take Ada out of it.",
        })
    );
    let unseen = ("scenes.yaml", "- scene: 1\n  pages: 1\n");
    desk.board("other", &[unseen]);
    let run = desk.shirr(&["check", "other"]).exits(0);
    assert!(run.out.contains("warning look-in-no-scene (look quay): "), "{}", run.out);
}

#[test]
fn a_number_that_two_scenes_have_is_told_once() {
    let desk = Desk::new();
    let scene = "- scene: 4\n  date: 1920\n  pages: 1\n  wears: {ada: quay}\n";
    desk.board("film", &[("scenes.yaml", &format!("{scene}{scene}"))]);
    let run = desk.shirr(&["check", "film"]).exits(2);
    assert_eq!(run.out.matches("two scenes have the number 4").count(), 1, "{}", run.out);
    assert!(run.out.ends_with("Trial: 1 fault.\n"), "{}", run.out);
}

#[test]
fn a_picture_that_is_not_in_the_folder_is_a_warning() {
    let desk = Desk::new();
    let smock =
        "title: Smock\ncharacter: ada\nworn: 1920\npictures: [images/plate 12.jpg, images/plate-13.jpg]\n";
    desk.board("film", &[("outfits/smock.yaml", smock), ("images/plate-13.jpg", "")]);
    let run = desk.shirr(&["check", "film"]).exits(0);
    assert!(
        run.out.contains("warning picture-missing (outfit smock): “images/plate 12.jpg” is not"),
        "{}",
        run.out
    );
}

#[test]
fn a_board_in_order_has_nothing_the_matter() {
    let desk = Desk::new();
    desk.board("film", &[]);
    let run = desk.shirr(&["check", "film"]).exits(0);
    assert_eq!((&*run.out, &*run.err), ("Trial: nothing is the matter.\n", ""));
}
