//! A program that stops at any point of an edit leaves a board that opens with the edit in it, or, where the log did
//! not get it, without any of it.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use shirr::board::{Edit, Side};
use shirr::store::{FaultKind, OpenBoard};

use crate::{Bench, id, note, notes, on_disk, retitle, title};

/// An edit of four files, one of which is new and one of which goes.
fn wide(bench: &Bench) -> (Edit, BTreeMap<PathBuf, Vec<u8>>, Vec<u8>) {
    let mut open = bench.open();
    let before = bench.all();
    let mut after = open.board().records().clone();
    after.outfits.remove(&id("shawl"));
    after.outfits.insert(id("wrap"), crate::sample::outfit("Wrap", "odile").into());
    let smock = std::sync::Arc::make_mut(after.outfits.get_mut(&id("smock")).unwrap());
    smock.title = "Blue smock".to_owned();
    let scene = std::sync::Arc::make_mut(&mut after.scenes[1]);
    scene.action = "she waits".to_owned();
    let edit = Edit::between("four things", open.board().records(), &after);
    open.edit(&edit).unwrap();
    assert_eq!(on_disk(bench).records(), &after);
    (edit, before, fs::read(bench.log()).unwrap())
}

/// The log up to and with the line that tells of the last entry, without its `done`.
fn without_done(log: &[u8]) -> &[u8] {
    let last = log[..log.len() - 1].iter().rposition(|byte| *byte == b'\n').unwrap() + 1;
    assert!(log[last..].starts_with(b"{\"done\":"));
    &log[..last]
}

#[test]
fn whichever_files_were_replaced_the_edit_is_finished_at_the_next_opening() {
    let bench = Bench::new();
    let (edit, before, log) = wide(&bench);
    let after = bench.all();
    let records = on_disk(&bench).records().clone();
    let paths: Vec<&PathBuf> =
        before.keys().chain(after.keys().filter(|path| !before.contains_key(*path))).collect();
    let changed: Vec<&PathBuf> =
        paths.into_iter().filter(|path| before.get(*path) != after.get(*path)).collect();
    assert_eq!(changed.len(), 4);
    for done in 0..1_u32 << changed.len() {
        let mut files = before.clone();
        for (at, path) in changed.iter().enumerate().filter(|(at, _)| done & (1 << at) != 0) {
            let _ = at;
            match after.get(*path) {
                Some(bytes) => drop(files.insert((*path).clone(), bytes.clone())),
                None => drop(files.remove(*path)),
            }
        }
        bench.restore(&files);
        fs::write(bench.log(), without_done(&log)).unwrap();
        let mut open = bench.open();
        assert_eq!(open.board().records(), &records, "files {done:04b}");
        assert_eq!(open.faults(), []);
        assert_eq!(bench.all(), after, "files {done:04b}");
        assert_eq!(open.undo_labels().collect::<Vec<_>>(), [edit.label.as_str()]);
        open.undo().unwrap();
        assert_eq!(on_disk(&bench).records(), open.board().records());
        assert!(bench.path("outfits/shawl.yaml").exists() && !bench.path("outfits/wrap.yaml").exists());
    }
}

#[test]
fn a_log_that_was_torn_anywhere_opens_with_all_of_the_edit_or_none() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "First")).unwrap();
    let before = bench.all();
    let start = fs::read(bench.log()).unwrap().len();
    open.edit(&retitle(open.board(), "shawl", "Second")).unwrap();
    drop(open);
    let log = fs::read(bench.log()).unwrap();
    let entry = without_done(&log).len();
    for cut in start..log.len() {
        bench.restore(&before);
        fs::write(bench.log(), &log[..cut]).unwrap();
        let open = bench.open();
        let expected = if cut >= entry { "Second" } else { "First" };
        assert_eq!(title(open.board(), "shawl"), expected, "cut at {cut} of {}", log.len());
        assert_eq!(title(&on_disk(&bench), "shawl"), expected);
        assert_eq!(open.undo_labels().next(), Some(format!("call it {expected}").as_str()));
    }
}

#[test]
fn a_torn_entry_is_written_over_and_not_in_the_way() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "First")).unwrap();
    drop(open);
    let log = fs::read(bench.log()).unwrap();
    fs::write(bench.log(), [&log, &b"{\"n\":2,\"kind\":\"do\",\"label\":\"torn"[..]].concat()).unwrap();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Second")).unwrap();
    drop(open);
    let mut open = bench.open();
    assert_eq!(open.undo_labels().collect::<Vec<_>>(), ["call it Second", "call it First"]);
    open.undo().unwrap();
    open.undo().unwrap();
    assert_eq!(title(&on_disk(&bench), "shawl"), "Shawl");
}

#[test]
fn an_undo_that_was_cut_short_is_finished_too() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "First")).unwrap();
    let before = bench.all();
    open.undo().unwrap();
    drop(open);
    let log = fs::read(bench.log()).unwrap();
    bench.restore(&before);
    fs::write(bench.log(), without_done(&log)).unwrap();
    let mut open = bench.open();
    assert_eq!(title(&on_disk(&bench), "shawl"), "Shawl");
    assert_eq!((open.undo_labels().len(), open.redo_labels().len()), (0, 1));
    open.redo().unwrap();
    assert_eq!(title(&on_disk(&bench), "shawl"), "First");
}

/// A crash after the log had `Ours` and before the file did, and then somebody else wrote.
fn crashed_before(bench: &Bench, theirs: &str) {
    let mut open = bench.open();
    let before = bench.all();
    open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap();
    drop(open);
    let log = fs::read(bench.log()).unwrap();
    bench.restore(&before);
    fs::write(bench.log(), without_done(&log)).unwrap();
    bench.write("outfits/shawl.yaml", theirs);
}

#[test]
fn what_somebody_else_wrote_after_the_crash_is_merged() {
    let bench = Bench::new();
    crashed_before(&bench, "title: Shawl\ncharacter: odile\nnotes: theirs\n");
    let open = bench.open();
    assert_eq!(
        (title(open.board(), "shawl"), notes(open.board(), "shawl")),
        ("Ours".into(), "theirs".into())
    );
    assert_eq!(on_disk(&bench).records(), open.board().records());
}

#[test]
fn what_no_longer_fits_is_set_aside_told_and_can_be_done_again() {
    let bench = Bench::new();
    crashed_before(&bench, "title: Theirs\ncharacter: odile\n");
    let mut open = bench.open();
    assert_eq!(title(open.board(), "shawl"), "Theirs");
    let [fault] = open.faults() else { panic!("{:#?}", open.faults()) };
    assert_eq!(fault.kind, FaultKind::Unsaved);
    assert_eq!(
        fault.to_string(),
        "outfits/shawl.yaml: “call it Ours” was being saved when the program stopped, and was not: changed on both \
         sides: outfit `shawl` (title): do it again with redo, or leave it"
    );
    assert_eq!(open.redo_labels().collect::<Vec<_>>(), ["call it Ours"]);
    assert!(open.redo().is_err(), "it still clashes");
    drop(open);
    // The other hand gives way.
    bench.write("outfits/shawl.yaml", "title: Shawl\ncharacter: odile\n");
    let mut open = bench.open();
    assert_eq!(open.faults(), [], "it is told once");
    assert_eq!(open.redo().unwrap().as_deref(), Some("call it Ours"));
    assert_eq!(title(&on_disk(&bench), "shawl"), "Ours");
    assert_eq!(open.undo().unwrap().as_deref(), Some("call it Ours"));
    assert_eq!(title(&on_disk(&bench), "shawl"), "Shawl");
}

#[test]
fn a_file_that_is_damaged_after_the_crash_is_left_alone() {
    let bench = Bench::new();
    crashed_before(&bench, "title: [");
    let open = bench.open();
    assert_eq!(bench.text("outfits/shawl.yaml"), "title: [");
    assert_eq!(open.faults().len(), 2, "{:#?}", open.faults());
}

/// Our name for an unfinished file.
fn leftover(bench: &Bench, dir: &str, name: &str) -> PathBuf {
    let log = fs::read_to_string(bench.log()).unwrap();
    let token = log.split("\"token\":\"").nth(1).unwrap().split('"').next().unwrap();
    bench.path(dir).join(format!(".shirr-{token}-0-{name}"))
}

#[test]
fn a_new_file_that_never_came_to_its_place_is_swept_away() {
    let bench = Bench::new();
    crashed_before(&bench, "title: Shawl\ncharacter: odile\n");
    let leftover = leftover(&bench, "outfits", "shawl.yaml");
    fs::write(&leftover, "title: Ours\nchara").unwrap();
    let open = bench.open();
    assert_eq!(title(open.board(), "shawl"), "Ours");
    assert!(!leftover.exists());
}

#[test]
fn what_another_program_wrote_in_the_moment_of_the_exchange_goes_back_and_is_merged() {
    let bench = Bench::new();
    crashed_before(&bench, "title: Ours\ncharacter: odile\nrecognition: 0\n");
    let leftover = leftover(&bench, "outfits", "shawl.yaml");
    fs::write(&leftover, "title: Shawl\ncharacter: odile\nnotes: theirs\n").unwrap();
    let open = bench.open();
    assert_eq!(
        (title(open.board(), "shawl"), notes(open.board(), "shawl")),
        ("Ours".into(), "theirs".into())
    );
    assert_eq!(on_disk(&bench).records(), open.board().records());
    assert!(!leftover.exists());
}

#[test]
fn a_damaged_text_that_was_displaced_goes_back_as_it_was() {
    let bench = Bench::new();
    crashed_before(&bench, "title: Ours\ncharacter: odile\nrecognition: 0\n");
    let leftover = leftover(&bench, "outfits", "shawl.yaml");
    fs::write(&leftover, "title: [").unwrap();
    drop(bench.open());
    assert_eq!(bench.text("outfits/shawl.yaml"), "title: [");
    assert!(!leftover.exists());
}

#[test]
fn a_change_of_another_scene_that_was_displaced_is_not_lost() {
    let bench = Bench::new();
    let mut open = bench.open();
    let before = bench.all();
    let edit =
        open.board().change_scene(&"1".parse().unwrap(), "ours", |scene| scene.action = "ours".to_owned());
    open.edit(&edit.unwrap()).unwrap();
    drop(open);
    let log = fs::read(bench.log()).unwrap();
    fs::write(bench.log(), without_done(&log)).unwrap();
    let theirs =
        format!("{}  action: theirs\n", String::from_utf8_lossy(&before[&bench.path("scenes.yaml")]));
    fs::write(leftover(&bench, "", "scenes.yaml"), theirs).unwrap();
    let open = bench.open();
    let actions: Vec<&str> = open.board().scenes().map(|scene| scene.action.as_str()).collect();
    assert_eq!(actions, ["ours", "", "theirs"]);
    assert_eq!(on_disk(&bench).records(), open.board().records());
}

#[test]
fn unfinished_files_of_other_machines_stay_for_a_day() {
    let bench = Bench::new();
    let path = |name: &str| bench.path("outfits").join(name);
    for name in [".shirr-0123456789abcdef-0-a.yaml", ".shirr-0123456789abcdef-0-b.yaml"] {
        fs::write(path(name), "x").unwrap();
    }
    let old = fs::File::options().write(true).open(path(".shirr-0123456789abcdef-0-b.yaml")).unwrap();
    old.set_modified(std::time::SystemTime::now() - std::time::Duration::from_secs(90_000)).unwrap();
    drop(bench.open());
    assert!(path(".shirr-0123456789abcdef-0-a.yaml").exists());
    assert!(!path(".shirr-0123456789abcdef-0-b.yaml").exists());
}

#[test]
fn the_log_of_a_program_that_is_gone_is_finished_by_the_next_one() {
    let bench = Bench::new();
    let first = bench.open();
    let mut second = bench.open();
    let before = bench.all();
    second.edit(&note(second.board(), "smock", "from the second")).unwrap();
    drop((first, second));
    let log: &Path = &bench.log().with_file_name("history-2.log");
    let whole = fs::read(log).unwrap();
    bench.restore(&before);
    fs::write(log, without_done(&whole)).unwrap();
    let open: OpenBoard = bench.open();
    assert_eq!(notes(open.board(), "smock"), "from the second");
    assert_eq!(notes(&on_disk(&bench), "smock"), "from the second");
    assert_eq!(
        open.undo_labels().collect::<Vec<_>>(),
        ["note from the second"],
        "nobody else can undo it now"
    );
}

/// The log of a second program that stopped before its files were written.
fn second_crashed(bench: &Bench, act: impl Fn(&mut OpenBoard)) {
    let first = bench.open();
    let mut second = bench.open();
    act(&mut second);
    drop((first, second));
    let log = bench.log().with_file_name("history-2.log");
    let whole = fs::read(&log).unwrap();
    fs::write(&log, without_done(&whole)).unwrap();
}

#[test]
fn what_another_programs_log_sets_aside_can_be_done_again_here() {
    let bench = Bench::new();
    second_crashed(&bench, |second| second.edit(&retitle(second.board(), "shawl", "Two")).unwrap());
    bench.write("outfits/shawl.yaml", "title: Theirs\ncharacter: odile\n");
    let mut open = bench.open();
    let [fault] = open.faults() else { panic!("{:#?}", open.faults()) };
    assert!(fault.to_string().ends_with("do it again with redo, or leave it"), "{fault}");
    assert_eq!(open.redo_labels().collect::<Vec<_>>(), ["call it Two"]);
    assert_eq!(open.redo_preferring(Side::Ours).unwrap().as_deref(), Some("call it Two"));
    assert_eq!(title(&on_disk(&bench), "shawl"), "Two");
    assert_eq!(open.faults(), []);
    drop(open);
    let open = bench.open();
    assert_eq!((open.faults().len(), open.redo_labels().len()), (0, 0), "it is told once");
    assert_eq!(bench.open().redo_labels().len(), 0, "and is no longer in the log that it came from");
}

#[test]
fn both_logs_may_have_something_to_set_aside() {
    let bench = Bench::new();
    let (mut first, mut second) = (bench.open(), bench.open());
    first.edit(&retitle(first.board(), "smock", "One")).unwrap();
    second.edit(&retitle(second.board(), "shawl", "Two")).unwrap();
    drop((first, second));
    for log in [bench.log(), bench.log().with_file_name("history-2.log")] {
        let whole = fs::read(&log).unwrap();
        fs::write(&log, without_done(&whole)).unwrap();
    }
    for outfit in ["smock", "shawl"] {
        bench.write(&format!("outfits/{outfit}.yaml"), "title: Theirs\ncharacter: odile\n");
    }
    let mut open = bench.open();
    assert_eq!(open.faults().len(), 2, "{:#?}", open.faults());
    for label in ["call it Two", "call it One"] {
        assert_eq!(open.redo_preferring(Side::Ours).unwrap().as_deref(), Some(label));
    }
    let board = on_disk(&bench);
    assert_eq!((title(&board, "smock"), title(&board, "shawl")), ("One".into(), "Two".into()));
}

#[test]
fn an_undo_of_another_program_that_cannot_be_finished_is_taken_again_from_here() {
    let bench = Bench::new();
    second_crashed(&bench, |second| {
        second.edit(&retitle(second.board(), "shawl", "Two")).unwrap();
        second.undo().unwrap();
    });
    bench.write("outfits/shawl.yaml", "title: Theirs\ncharacter: odile\n");
    let mut open = bench.open();
    let [fault] = open.faults() else { panic!("{:#?}", open.faults()) };
    assert!(fault.to_string().ends_with("take it back again with undo, or leave it"), "{fault}");
    assert_eq!((open.undo_labels().collect::<Vec<_>>(), open.redo_labels().len()), (vec!["call it Two"], 0));
    assert_eq!(open.undo_preferring(Side::Ours).unwrap().as_deref(), Some("call it Two"));
    assert_eq!(title(&on_disk(&bench), "shawl"), "Shawl");
}

#[test]
fn a_redo_of_another_program_that_cannot_be_finished_promises_nothing() {
    let bench = Bench::new();
    second_crashed(&bench, |second| {
        second.edit(&retitle(second.board(), "shawl", "Two")).unwrap();
        second.undo().unwrap();
        second.redo().unwrap();
    });
    bench.write("outfits/shawl.yaml", "title: Theirs\ncharacter: odile\n");
    let open = bench.open();
    let [fault] = open.faults() else { panic!("{:#?}", open.faults()) };
    assert!(fault.to_string().ends_with("do it by hand, or leave it"), "{fault}");
    assert_eq!((open.undo_labels().len(), open.redo_labels().len()), (0, 0));
}
