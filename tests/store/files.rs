//! What saving does to the files, and what it leaves alone.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use shirr::board::{Change, Edit, Swap};

use crate::{Bench, id, note, on_disk, retitle};

/// Saves, and returns the names of the files that are not what they were.
fn changed_by(bench: &Bench, edit: impl FnOnce(&shirr::board::Board) -> Edit) -> BTreeSet<PathBuf> {
    let mut open = bench.open();
    let before = bench.all();
    let edit = edit(open.board());
    open.edit(&edit).unwrap();
    let after = bench.all();
    let names = before.keys().chain(after.keys()).filter(|name| before.get(*name) != after.get(*name));
    names.map(|name| name.strip_prefix(bench.folder()).unwrap().to_path_buf()).collect()
}

fn names(names: &[&str]) -> BTreeSet<PathBuf> {
    names.iter().map(PathBuf::from).collect()
}

#[test]
fn only_the_files_of_changed_records_are_written() {
    let bench = Bench::new();
    assert_eq!(changed_by(&bench, |board| retitle(board, "shawl", "Wrap")), names(&["outfits/shawl.yaml"]));
    assert_eq!(
        changed_by(&bench, |board| board.let_go(&[id("shawl"), id("apron")], "told by nobody").unwrap()),
        names(&["outfits/apron.yaml", "outfits/shawl.yaml"])
    );
    assert_eq!(
        changed_by(&bench, |board| {
            board.assign(&"2".parse().unwrap(), &id("odile"), Some(&id("quay"))).unwrap()
        }),
        names(&["scenes.yaml"])
    );
    assert_eq!(
        changed_by(&bench, |board| board.change_head("title", |head| head.title = "Ebb".to_owned())),
        names(&["board.yaml"])
    );
}

#[test]
fn a_header_comment_outlives_a_rewriting_and_keys_stand_in_order() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "smock", "Smock: the blue one")).unwrap();
    assert_eq!(
        bench.text("outfits/smock.yaml"),
        "# Seen at the museum.\n\ntitle: 'Smock: the blue one'\ncharacter: odile\nworn: 1914\nrecognition: 0\n"
    );
    open.edit(&note(open.board(), "smock", "one\ntwo\n")).unwrap();
    assert!(
        bench.text("outfits/smock.yaml").ends_with("notes: |\n  one\n  two\n"),
        "{}",
        bench.text("outfits/smock.yaml")
    );
    open.edit(&open.board().change_head("x", |head| head.title = "Ebb".to_owned())).unwrap();
    assert!(
        bench.text("board.yaml").starts_with("# The board.\nshirr: 1\nid: tide\ntitle: Ebb\nunits: cm\n")
    );
}

#[test]
fn an_edit_that_changes_nothing_touches_nothing() {
    let bench = Bench::new();
    assert_eq!(changed_by(&bench, |board| retitle(board, "apron", "Apron")), names(&[]));
    assert!(bench.text("outfits/apron.yaml").contains("spaced as a person would"));
}

#[test]
fn records_come_and_go_with_their_files() {
    let bench = Bench::new();
    fs::remove_dir_all(bench.path("looks")).unwrap();
    bench.write("scenes.yaml", "- scene: 1\n");
    bench.write("schedule.yaml", "[]\n");
    let mut open = bench.open();
    let outfit = open.board().outfit(&id("shawl")).unwrap().clone();
    open.edit(&open.board().add_outfit(&id("wrap"), outfit).unwrap()).unwrap();
    assert_eq!(bench.text("outfits/wrap.yaml"), "title: Shawl\ncharacter: odile\nrecognition: 0\n");
    let before = open.board().records().outfits.get(&id("wrap")).cloned();
    open.edit(&Edit::new("away", vec![Change::Outfit(id("wrap"), Swap::new(before, None))])).unwrap();
    assert!(!bench.path("outfits/wrap.yaml").exists());
    let (look, invented) = open.board().invent("First", &id("odile"), None).unwrap();
    open.edit(&invented).unwrap();
    assert!(
        bench.path(&format!("looks/{look}.yaml")).exists(),
        "the folder is made with the first record in it"
    );
    assert_eq!(on_disk(&bench).records(), open.board().records());
}

#[test]
fn nothing_of_ours_stays_behind() {
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Wrap")).unwrap();
    open.undo().unwrap();
    let hidden =
        bench.all().into_keys().filter(|path| path.file_name().unwrap().to_str().unwrap().starts_with('.'));
    assert_eq!(hidden.collect::<Vec<_>>(), Vec::<PathBuf>::new());
}

#[cfg(unix)]
#[test]
fn permissions_stay() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::new();
    let path = bench.path("outfits/shawl.yaml");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "Wrap")).unwrap();
    assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
}

#[test]
fn a_record_that_would_be_too_large_is_not_written() {
    let bench = Bench::new();
    let mut open = bench.open();
    let before = bench.all();
    let error = open.edit(&note(open.board(), "shawl", &"x".repeat(2 << 20))).unwrap_err();
    assert!(error.to_string().contains("larger than 1 MiB"), "{error}");
    assert_eq!(bench.all(), before);
    assert_eq!(open.undo_labels().count(), 0);
}

#[test]
fn many_files_are_one_edit() {
    let bench = Bench::new();
    let mut open = bench.open();
    let mut after = open.board().records().clone();
    for number in 0..200 {
        let outfit = crate::sample::outfit(&format!("Outfit {number}"), "odile");
        after.outfits.insert(id(&format!("o-{number}")), outfit.into());
    }
    open.edit(&Edit::between("import", open.board().records(), &after)).unwrap();
    assert_eq!(on_disk(&bench).records(), &after);
    assert_eq!(open.undo().unwrap().as_deref(), Some("import"));
    assert_eq!(on_disk(&bench).records().outfits.len(), 3);
}

#[test]
fn a_new_board_goes_into_a_new_or_empty_folder_only() {
    let bench = Bench::new();
    let files = || {
        let bytes = |text: &'static str| std::borrow::Cow::Borrowed(text.as_bytes());
        crate::FILES.map(|(name, text)| (PathBuf::from(name), bytes(text)))
    };
    let new = bench.dir.path().join("new/board");
    shirr::store::create(&new, files()).unwrap();
    assert_eq!(fs::read_to_string(new.join("outfits/apron.yaml")).unwrap(), bench.text("outfits/apron.yaml"));
    assert_eq!(shirr::store::read(&new).unwrap().faults, []);
    let error = shirr::store::create(&new, files()).unwrap_err();
    assert!(error.to_string().ends_with("is not empty, so no new board goes there"), "{error}");
    let empty = bench.dir.path().join("empty");
    fs::create_dir_all(empty.join(".git")).unwrap();
    shirr::store::create(&empty, files()).unwrap();
    assert!(shirr::store::read(&empty).is_ok());
}
