//! A log belongs to one folder: copied boards do not share theirs, moved ones take theirs along.

use std::fs;
use std::path::Path;

use shirr::store::OpenBoard;

use crate::{Bench, files_below, retitle, title};

fn copy(from: &Path, to: &Path) {
    for (path, bytes) in files_below(from) {
        let path = to.join(path.strip_prefix(from).unwrap());
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
}

#[test]
fn a_copied_board_has_a_history_of_its_own() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Original")).unwrap();
    drop(open);
    let twin = bench.dir.path().join("twin");
    copy(&bench.folder(), &twin);
    let mut copied = OpenBoard::open(&twin, &bench.places("here")).unwrap();
    assert_eq!(copied.undo().unwrap(), None);
    copied.edit(&retitle(copied.board(), "shawl", "Copy")).unwrap();
    drop(copied);
    let mut open = bench.open();
    assert_eq!(open.undo_labels().collect::<Vec<_>>(), ["call it Original"]);
    open.undo().unwrap();
    assert_eq!(title(open.board(), "shawl"), "Shawl");
    let copied = OpenBoard::open(&twin, &bench.places("here")).unwrap();
    assert_eq!(copied.undo_labels().collect::<Vec<_>>(), ["call it Copy"]);
    assert_eq!(title(copied.board(), "shawl"), "Copy");
}

#[test]
fn a_moved_board_takes_its_history_along() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Before the move")).unwrap();
    drop(open);
    let moved = bench.dir.path().join("moved");
    fs::rename(bench.folder(), &moved).unwrap();
    let mut open = OpenBoard::open(&moved, &bench.places("here")).unwrap();
    assert_eq!(open.undo().unwrap().as_deref(), Some("call it Before the move"));
    assert_eq!(title(open.board(), "shawl"), "Shawl");
    assert_eq!(open.folder(), moved);
}

#[test]
fn another_board_of_the_same_id_does_not_inherit_the_history_of_one_that_is_away() {
    let bench = Bench::new();
    let other = bench.dir.path().join("other");
    copy(&bench.folder(), &other);
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Only there")).unwrap();
    drop(open);
    let away = bench.dir.path().join("away");
    fs::rename(bench.folder(), &away).unwrap();
    let mut copied = OpenBoard::open(&other, &bench.places("here")).unwrap();
    assert_eq!(copied.undo_labels().len(), 0);
    copied.edit(&retitle(copied.board(), "shawl", "Only here")).unwrap();
    drop(copied);
    fs::rename(&away, bench.folder()).unwrap();
    assert_eq!(bench.open().undo_labels().collect::<Vec<_>>(), ["call it Only there"]);
}

/// Takes the last line, which says that the last entry is done, off the log.
fn cut_short(bench: &Bench) {
    let log = fs::read_to_string(bench.log()).unwrap();
    let done = log.trim_end().rfind('\n').unwrap() + 1;
    assert!(log[done..].starts_with("{\"done\":"));
    fs::write(bench.log(), &log[..done]).unwrap();
}

#[test]
fn what_was_begun_in_another_folder_is_not_finished_in_this_one() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "First")).unwrap();
    let before = bench.all();
    open.edit(&retitle(open.board(), "shawl", "Begun there")).unwrap();
    drop(open);
    cut_short(&bench);
    bench.restore(&before);
    let moved = bench.dir.path().join("moved");
    fs::rename(bench.folder(), &moved).unwrap();
    let mut open = OpenBoard::open(&moved, &bench.places("here")).unwrap();
    assert_eq!(title(open.board(), "shawl"), "First");
    let [fault] = open.faults() else { panic!("{:#?}", open.faults()) };
    assert!(fault.to_string().contains("the board has come from another folder since"), "{fault}");
    assert_eq!(open.undo_labels().collect::<Vec<_>>(), ["call it First"]);
    assert_eq!(open.redo().unwrap().as_deref(), Some("call it Begun there"));
    assert_eq!(title(open.board(), "shawl"), "Begun there");
}

#[test]
fn a_first_edit_that_was_begun_elsewhere_does_not_come_to_a_board_that_knows_nothing_of_it() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Begun there")).unwrap();
    drop(open);
    cut_short(&bench);
    let other = bench.dir.path().join("other");
    copy(&bench.folder(), &other);
    fs::write(other.join("outfits/shawl.yaml"), "title: Its own\ncharacter: odile\n").unwrap();
    fs::rename(bench.folder(), bench.dir.path().join("away")).unwrap();
    let open = OpenBoard::open(&other, &bench.places("here")).unwrap();
    assert_eq!((open.faults(), open.redo_labels().len()), (&[][..], 0));
}

#[test]
fn an_older_copy_put_back_in_the_same_place_is_not_carried_on_by_redo() {
    let bench = Bench::new();
    let old = bench.all();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Newer")).unwrap();
    open.edit(&retitle(open.board(), "smock", "Newer still")).unwrap();
    open.undo().unwrap();
    open.undo().unwrap();
    open.redo().unwrap();
    drop(open);
    assert_eq!(bench.open().redo_labels().collect::<Vec<_>>(), ["call it Newer still"]);
    bench.restore(&old);
    for _ in 0..2 {
        let mut open = bench.open();
        assert_eq!(open.redo().unwrap(), None);
        assert_eq!(open.undo_labels().collect::<Vec<_>>(), ["call it Newer"]);
    }
}

#[test]
fn two_boards_of_one_id_are_told_apart_by_their_folders() {
    let bench = Bench::new();
    let twin = bench.dir.path().join("twin");
    copy(&bench.folder(), &twin);
    let one = bench.open();
    let two = OpenBoard::open(&twin, &bench.places("here")).unwrap();
    drop((one, two));
    for number in 0..3 {
        let (mut one, mut two) = (bench.open(), OpenBoard::open(&twin, &bench.places("here")).unwrap());
        assert_eq!((one.undo_labels().len(), two.undo_labels().len()), (number, number));
        one.edit(&retitle(one.board(), "shawl", &format!("one {number}"))).unwrap();
        two.edit(&retitle(two.board(), "shawl", &format!("two {number}"))).unwrap();
    }
    let logs = fs::read_dir(bench.log().parent().unwrap()).unwrap().count();
    assert_eq!(logs, 2);
}

#[test]
fn a_log_full_of_rubbish_is_no_obstacle() {
    let bench = Bench::new();
    drop(bench.open());
    fs::write(bench.log(), b"\xff\xfe rubbish \n\n{}\n{\"n\":1}\n").unwrap();
    let mut open = bench.open();
    assert_eq!(open.undo_labels().len(), 0);
    open.edit(&retitle(open.board(), "shawl", "Fine")).unwrap();
    drop(open);
    assert_eq!(bench.open().undo_labels().collect::<Vec<_>>(), ["call it Fine"]);
}

#[test]
fn the_history_is_for_nobody_elses_eyes() {
    let bench = Bench::new();
    drop(bench.open());
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        assert_eq!(fs::metadata(bench.log()).unwrap().permissions().mode() & 0o077, 0);
    }
}
