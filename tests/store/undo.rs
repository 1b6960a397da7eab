//! Undo and redo without limit, across closing and opening.

use std::fs;

use proptest::prelude::*;
use shirr::board::{Refused, Side};
use shirr::store::EditError;

use crate::sample::arbitrary::sound_records;
use crate::sample::operation::operations;
use crate::{Bench, id, note, notes, on_disk, retitle, title};

#[test]
fn undo_and_redo_go_on_where_the_last_run_stopped() {
    let bench = Bench::new();
    for (number, name) in ["one", "two", "three"].into_iter().enumerate() {
        let mut open = bench.open();
        assert_eq!(open.undo_labels().len(), number);
        open.edit(&retitle(open.board(), "shawl", name)).unwrap();
    }
    let mut open = bench.open();
    assert_eq!(open.undo_labels().collect::<Vec<_>>(), ["call it three", "call it two", "call it one"]);
    assert_eq!(open.undo().unwrap().as_deref(), Some("call it three"));
    assert_eq!(open.undo().unwrap().as_deref(), Some("call it two"));
    drop(open);
    let mut open = bench.open();
    assert_eq!(title(open.board(), "shawl"), "one");
    assert_eq!(open.redo_labels().collect::<Vec<_>>(), ["call it two", "call it three"]);
    assert_eq!(open.redo().unwrap().as_deref(), Some("call it two"));
    assert_eq!(open.undo().unwrap().as_deref(), Some("call it two"));
    assert_eq!(open.undo().unwrap().as_deref(), Some("call it one"));
    assert_eq!(open.undo().unwrap(), None);
    assert_eq!(title(&on_disk(&bench), "shawl"), "Shawl");
    open.edit(&retitle(open.board(), "shawl", "four")).unwrap();
    assert_eq!(open.redo().unwrap(), None, "what was undone is forgotten with the next edit");
}

#[test]
fn undo_leaves_what_others_changed_since() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap();
    let text = bench.text("outfits/shawl.yaml");
    bench.write("outfits/shawl.yaml", format!("{text}notes: theirs\n"));
    open.undo().unwrap();
    let board = on_disk(&bench);
    assert_eq!((title(&board, "shawl"), notes(&board, "shawl")), ("Shawl".into(), "theirs".into()));
    open.redo().unwrap();
    let board = on_disk(&bench);
    assert_eq!((title(&board, "shawl"), notes(&board, "shawl")), ("Ours".into(), "theirs".into()));
}

#[test]
fn an_undo_that_cannot_be_says_why_and_can_be_tried_again() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap();
    let ours = bench.text("outfits/shawl.yaml");
    bench.write("outfits/shawl.yaml", ours.replace("Ours", "Theirs"));
    let error = open.undo().unwrap_err();
    assert_eq!(error.to_string(), "changed on both sides: outfit `shawl` (title)");
    assert_eq!(open.undo_labels().len(), 1);
    assert_eq!(title(&on_disk(&bench), "shawl"), "Theirs");
    bench.write("outfits/shawl.yaml", ours);
    assert_eq!(open.undo().unwrap().as_deref(), Some("call it Ours"));
    assert_eq!(title(&on_disk(&bench), "shawl"), "Shawl");
}

#[test]
fn what_mended_something_can_be_undone_too() {
    let bench = Bench::new();
    bench.write("looks/two.yaml", "title: Two\ncharacter: odile\ntreatment: copy\nbase: smock\norder: 20\n");
    bench.write("outfits/apron.yaml", "title: Apron\ncharacter: bridie\nthreads: [capp]\n");
    let mut open = bench.open();
    let start = open.board().records().clone();
    open.edit(&retitle(open.board(), "shawl", "First")).unwrap();
    open.edit(&open.board().merge_looks(&id("two"), &id("quay")).unwrap()).unwrap();
    let mend = open.board().change_outfit(&id("apron"), "mend", |outfit| outfit.threads.clear());
    open.edit(&mend.unwrap()).unwrap();
    assert_eq!(open.faults(), []);
    for label in ["mend", "merged Two into Quay", "call it First"] {
        assert_eq!(open.undo().unwrap().as_deref(), Some(label));
    }
    assert_eq!(open.board().records(), &start);
    let [fault] = open.faults() else { panic!("{:?}", open.faults()) };
    assert!(fault.to_string().ends_with("there is no thread `capp`: did you mean `cap`?"), "{fault}");
    while open.redo().unwrap().is_some() {}
    assert_eq!(open.faults(), []);
    assert_eq!(on_disk(&bench).look(&id("two")), None);
}

#[test]
fn an_undo_of_a_mending_that_a_crash_cut_short_is_finished() {
    let bench = Bench::new();
    bench.write("outfits/apron.yaml", "title: Apron\ncharacter: bridie\nthreads: [capp]\n");
    let mut open = bench.open();
    let mend = open.board().change_outfit(&id("apron"), "mend", |outfit| outfit.threads.clear());
    open.edit(&mend.unwrap()).unwrap();
    let mended = bench.all();
    open.undo().unwrap();
    drop(open);
    let log = fs::read_to_string(bench.log()).unwrap();
    let done = log.trim_end().rfind('\n').unwrap() + 1;
    assert!(log[done..].starts_with("{\"done\":"));
    bench.restore(&mended);
    fs::write(bench.log(), &log[..done]).unwrap();
    let open = bench.open();
    assert_eq!(open.board().outfit(&id("apron")).unwrap().threads.len(), 1);
    assert_eq!(open.faults().len(), 1, "only the thread that is not there: {:?}", open.faults());
    assert_eq!(open.redo_labels().collect::<Vec<_>>(), ["mend"]);
}

#[test]
fn a_dissolved_look_comes_back_though_its_outfit_is_gone() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&note(open.board(), "shawl", "before")).unwrap();
    open.edit(&open.board().dissolve(&id("quay")).unwrap()).unwrap();
    bench.remove("outfits/smock.yaml");
    open.take_in_outside();
    assert_eq!(open.undo().unwrap().as_deref(), Some("dissolved Quay"));
    let [fault] = open.faults() else { panic!("{:?}", open.faults()) };
    assert!(fault.to_string().contains("smock"), "{fault}");
    assert_eq!(open.undo().unwrap().as_deref(), Some("note before"));
}

#[test]
fn an_undo_and_a_redo_that_clash_are_settled_by_a_choice() {
    for (side, undone, redone) in [(Side::Ours, "Shawl", "Theirs"), (Side::Theirs, "Theirs", "Again theirs")]
    {
        let bench = Bench::new();
        let mut open = bench.open();
        open.edit(&note(open.board(), "smock", "below")).unwrap();
        open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap();
        retitled_outside(&bench, "Theirs");
        assert!(matches!(open.undo(), Err(EditError::Refused(Refused::Clash(_)))));
        assert_eq!(open.undo_preferring(side).unwrap().as_deref(), Some("call it Ours"));
        assert_eq!(title(&on_disk(&bench), "shawl"), undone);
        retitled_outside(&bench, "Again theirs");
        if side == Side::Ours {
            assert!(matches!(open.redo(), Err(EditError::Refused(Refused::Clash(_)))));
        }
        assert_eq!(open.redo_preferring(side).unwrap().as_deref(), Some("call it Ours"));
        assert_eq!(title(&on_disk(&bench), "shawl"), redone);
        assert!(open.undo_preferring(side).unwrap().is_some());
        assert_eq!(open.undo().unwrap().as_deref(), Some("note below"));
        assert_eq!(notes(&on_disk(&bench), "smock"), "");
    }
}

/// Another hand gives the shawl a title.
fn retitled_outside(bench: &Bench, title: &str) {
    bench.write("outfits/shawl.yaml", format!("title: {title}\ncharacter: odile\n"));
}

#[test]
fn a_step_that_cannot_be_taken_can_be_dropped_and_those_below_it_are_in_reach() {
    let bench = Bench::new();
    let mut open = bench.open();
    for name in ["one", "two", "three"] {
        open.edit(&note(open.board(), "smock", name)).unwrap();
    }
    open.undo().unwrap();
    assert_eq!(open.drop_redo().unwrap().as_deref(), Some("note three"));
    assert_eq!((open.drop_redo().unwrap(), open.redo().unwrap()), (None, None));
    open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap();
    retitled_outside(&bench, "Theirs");
    open.undo().unwrap_err();
    assert_eq!(open.drop_undo().unwrap().as_deref(), Some("call it Ours"));
    drop(open);
    let mut open = bench.open();
    assert_eq!(open.undo_labels().collect::<Vec<_>>(), ["note two", "note one"], "for good");
    assert_eq!(open.undo().unwrap().as_deref(), Some("note two"));
    assert_eq!(open.redo().unwrap().as_deref(), Some("note two"));
    let board = on_disk(&bench);
    assert_eq!((title(&board, "shawl"), notes(&board, "smock")), ("Theirs".into(), "two".into()));
}

#[test]
fn two_programs_each_undo_their_own() {
    let bench = Bench::new();
    let mut one = bench.open();
    let mut two = bench.open();
    one.edit(&retitle(one.board(), "shawl", "One")).unwrap();
    two.edit(&note(two.board(), "smock", "two")).unwrap();
    assert_eq!(two.undo().unwrap().as_deref(), Some("note two"));
    assert_eq!(one.undo().unwrap().as_deref(), Some("call it One"));
    let board = on_disk(&bench);
    assert_eq!((title(&board, "shawl"), notes(&board, "smock")), ("Shawl".into(), String::new()));
}

#[test]
fn a_boards_id_stays_what_it_is() {
    let bench = Bench::new();
    let mut open = bench.open();
    let edit = open.board().change_head("rename", |head| head.id = id("ebb"));
    let error = open.edit(&edit).unwrap_err();
    assert_eq!(error.to_string(), "the board's id stays `tide`: this machine's history is filed under it");
    assert_eq!(on_disk(&bench).head().id, id("tide"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever is done, undoing all of it brings back what was, and doing it again what came of it; and the folder
    /// says what the board says.
    #[test]
    fn all_that_is_done_can_be_undone_and_done_again(
        records in sound_records(),
        deeds in prop::collection::vec(operations(), 1..10),
        reopen in any::<bool>(),
    ) {
        let bench = Bench::new();
        bench.write("board.yaml", bench.text("board.yaml").replace("id: tide", "id: any"));
        let mut open = bench.open();
        open.edit(&shirr::board::Edit::between("start", open.board().records(), &records)).unwrap();
        let start = open.board().records().clone();
        for deed in deeds {
            if let Ok(edit) = deed.edit(open.board()) {
                // An operation may break a rule of the board, and then nothing is saved.
                let _refused = open.edit(&edit);
            }
        }
        let end = open.board().records().clone();
        let count = open.undo_labels().len();
        if reopen {
            drop(open);
            open = bench.open();
        }
        prop_assert_eq!(open.undo_labels().len(), count);
        while open.undo_labels().len() > 1 {
            open.undo().unwrap();
        }
        prop_assert_eq!(open.board().records(), &start);
        prop_assert_eq!(on_disk(&bench).records().clone(), start);
        if reopen {
            drop(open);
            open = bench.open();
        }
        while open.redo().unwrap().is_some() {}
        prop_assert_eq!(open.board().records(), &end);
        prop_assert_eq!(on_disk(&bench).records().clone(), end);
    }
}

#[test]
fn what_a_program_did_that_is_gone_is_taken_back_in_the_order_of_its_doing() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Mine")).unwrap();
    let mut other = bench.open();
    other.edit(&retitle(other.board(), "shawl", "Of the other")).unwrap();
    std::thread::sleep(std::time::Duration::from_millis(5));
    open.edit(&note(open.board(), "smock", "mine")).unwrap();
    open.inherit();
    assert_eq!(open.undo_labels().collect::<Vec<_>>(), ["note mine", "call it Mine"], "it still runs");
    drop(other);
    open.inherit();
    open.inherit();
    let all = ["note mine", "call it Of the other", "call it Mine"];
    assert_eq!(open.undo_labels().collect::<Vec<_>>(), all, "each once");
    drop(open);
    // The logs of both are free now; neither has a step twice.
    let mut open = bench.open();
    assert_eq!(open.undo_labels().collect::<Vec<_>>(), all);
    for stands in ["Of the other", "Mine", "Shawl"] {
        open.undo().unwrap();
        assert_eq!(title(&on_disk(&bench), "shawl"), stands);
    }
    assert_eq!(open.undo().unwrap(), None);
    open.redo().unwrap();
    open.redo().unwrap();
    assert_eq!(title(&on_disk(&bench), "shawl"), "Of the other");
}

#[test]
fn what_a_program_did_that_is_gone_forgets_nothing_that_was_undone_here() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Mine")).unwrap();
    open.undo().unwrap();
    let text = bench.text("outfits/apron.yaml");
    let mut other = bench.open();
    other.edit(&note(other.board(), "apron", "of the other")).unwrap();
    drop(other);
    open.inherit();
    assert_eq!(open.undo().unwrap().as_deref(), Some("note of the other"));
    assert_eq!(bench.text("outfits/apron.yaml"), text, "as it was written, byte for byte");
    drop(open);
    let mut open = bench.open();
    assert_eq!(open.redo_labels().collect::<Vec<_>>(), ["note of the other", "call it Mine"]);
    open.redo().unwrap();
    open.redo().unwrap();
    assert_eq!(title(open.board(), "shawl"), "Mine");
}

#[test]
fn a_copy_of_the_board_is_not_taken_back_from_here() {
    let bench = Bench::new();
    let mut open = bench.open();
    let twin = bench.dir.path().join("twin");
    for (path, bytes) in bench.all() {
        let path = twin.join(path.strip_prefix(bench.folder()).unwrap());
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    let mut copied = shirr::store::OpenBoard::open(&twin, &bench.places("here")).unwrap();
    copied.edit(&retitle(copied.board(), "shawl", "Copy")).unwrap();
    drop(copied);
    open.inherit();
    assert_eq!(open.undo_labels().len(), 0);
}
