//! Two programs on one folder, on one machine or on two: nobody's edit is overwritten unseen.

use shirr::board::{Refused, Side};
use shirr::store::{EditError, NewsKind, OpenBoard};

use crate::{Bench, note, notes, on_disk, retitle, title};

/// The folder open twice: on two machines, and twice on one.
fn twice(claim: impl Fn(&Bench, OpenBoard, OpenBoard)) {
    for other in ["there", "here"] {
        let bench = Bench::new();
        let (one, two) = (bench.open(), bench.open_on(other));
        claim(&bench, one, two);
    }
}

#[test]
fn edits_of_different_records_both_stand() {
    twice(|bench, mut one, mut two| {
        one.edit(&retitle(one.board(), "shawl", "One")).unwrap();
        two.edit(&retitle(two.board(), "smock", "Two")).unwrap();
        let board = on_disk(bench);
        assert_eq!((title(&board, "shawl"), title(&board, "smock")), ("One".into(), "Two".into()));
        for open in [&mut one, &mut two] {
            open.take_in_outside();
            assert_eq!(open.board().records(), board.records());
        }
    });
}

#[test]
fn edits_of_one_record_in_different_fields_are_merged() {
    twice(|bench, mut one, mut two| {
        one.edit(&retitle(one.board(), "shawl", "One")).unwrap();
        two.edit(&note(two.board(), "shawl", "two")).unwrap();
        let board = on_disk(bench);
        assert_eq!((title(&board, "shawl"), notes(&board, "shawl")), ("One".into(), "two".into()));
        assert_eq!(two.board().records(), board.records());
        let news = two.take_in_outside();
        assert_eq!(news.len(), 1, "what came in with the edit is told once: {news:?}");
        assert_eq!(news[0].text, "outfit ‘One’ changed outside");
    });
}

#[test]
fn edits_of_one_field_are_a_choice() {
    for (side, stands) in [(Side::Ours, "Two"), (Side::Theirs, "One")] {
        twice(|bench, mut one, mut two| {
            one.edit(&retitle(one.board(), "shawl", "One")).unwrap();
            let edit = retitle(two.board(), "shawl", "Two");
            let error = two.edit(&edit).unwrap_err();
            let EditError::Refused(Refused::Clash(clashes)) = &error else { panic!("{error}") };
            assert_eq!((clashes.len(), clashes[0].fields[0].field.as_str()), (1, "title"));
            assert!(error.hint().is_some());
            assert_eq!(title(&on_disk(bench), "shawl"), "One", "nothing is written before the choice");
            assert_eq!(title(two.board(), "shawl"), "One", "and the board shows what is there");
            two.edit_preferring(&edit, side).unwrap();
            assert_eq!(title(&on_disk(bench), "shawl"), stands);
        });
    }
}

#[test]
fn edits_of_different_scenes_in_one_file_both_stand() {
    twice(|bench, mut one, mut two| {
        let act = |open: &mut OpenBoard, scene: &str| {
            let action = format!("in {scene}");
            let edit =
                open.board().change_scene(&scene.parse().unwrap(), "act", |scene| scene.action = action);
            open.edit(&edit.unwrap()).unwrap();
        };
        act(&mut one, "1");
        act(&mut two, "2A");
        let board = on_disk(bench);
        let actions: Vec<&str> = board.scenes().map(|scene| scene.action.as_str()).collect();
        assert_eq!(actions, ["in 1", "", "in 2A"]);
    });
}

#[test]
fn a_record_that_both_make_is_made_once() {
    twice(|bench, mut one, mut two| {
        let add = |open: &OpenBoard, title: &str| {
            open.board().add_outfit(&crate::id("wrap"), crate::sample::outfit(title, "odile")).unwrap()
        };
        let (first, second) = (add(&one, "One"), add(&two, "Two"));
        one.edit(&first).unwrap();
        let error = two.edit(&second).unwrap_err();
        assert_eq!(error.to_string(), "outfit `wrap` is there already");
        assert_eq!(title(&on_disk(bench), "wrap"), "One");
    });
}

#[test]
fn many_edits_from_two_sides_at_once_are_all_there() {
    let bench = Bench::new();
    let edits = 40;
    std::thread::scope(|scope| {
        for (machine, outfit) in [("here", "shawl"), ("there", "smock"), ("here", "apron")] {
            let bench = &bench;
            scope.spawn(move || {
                let mut open = bench.open_on(machine);
                for number in 0..edits {
                    // Each also writes a tag into a record that all of them write to.
                    let own = note(open.board(), outfit, &format!("{number}"));
                    open.edit(&own).unwrap();
                    loop {
                        open.take_in_outside();
                        let tag = format!("{outfit}-{number}");
                        let shared = open.board().change_scene(&"2".parse().unwrap(), "act", |scene| {
                            scene.action.push_str(&tag);
                            scene.action.push(' ');
                        });
                        match open.edit(&shared.unwrap()) {
                            Ok(()) => break,
                            Err(EditError::Refused(Refused::Clash(_)) | EditError::Contended) => {}
                            Err(error) => panic!("{error}"),
                        }
                    }
                }
            });
        }
    });
    let board = on_disk(&bench);
    for outfit in ["shawl", "smock", "apron"] {
        assert_eq!(notes(&board, outfit), format!("{}", edits - 1));
        let action = &board.scene(&"2".parse().unwrap()).unwrap().action;
        for number in 0..edits {
            assert!(
                action.split(' ').any(|tag| tag == format!("{outfit}-{number}")),
                "{outfit}-{number} is lost"
            );
        }
    }
}

#[test]
fn news_names_what_others_did() {
    let bench = Bench::new();
    let (mut one, mut two) = (bench.open(), bench.open_on("there"));
    one.edit(&retitle(one.board(), "shawl", "A very long title that goes on and on and on")).unwrap();
    let news = two.take_in_outside();
    assert_eq!(news.len(), 1);
    assert_eq!(news[0].text, "outfit ‘A very long title that goes on and on a…’ changed outside");
    assert_eq!(news[0].kind, NewsKind::TakenIn);
    assert_eq!(two.take_in_outside(), [], "once");
    assert_eq!(one.take_in_outside(), [], "one's own edits are no news");
}
