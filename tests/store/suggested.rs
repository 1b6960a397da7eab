//! A suggestion that is taken and taken back leaves no trace in the folder.

use std::fs;

use proptest::prelude::*;
use shirr::gather::{Likeness, Limits, Suggestion, Wardrobe, solve};

use crate::sample::arbitrary::sound_records;
use crate::{Bench, files_below, id};

/// The edit that `shirr suggest --apply` makes; `None` where the wishes clash or the board's rules refuse it.
fn as_suggested(board: &shirr::board::Board) -> Option<shirr::board::Edit> {
    let likeness = Likeness::of(board);
    let wardrobe = Wardrobe::of(board, &likeness, None, &|| false).unwrap();
    let choice = solve(wardrobe.problem(), &Limits::default()).ok()?;
    Suggestion::of(board, &likeness, &wardrobe, &choice, None).edit(board, None).ok()
}

#[test]
fn the_demo_as_suggested_and_then_undone_is_byte_for_byte_the_demo() {
    let bench = Bench::new();
    let demo = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board");
    fs::remove_dir_all(bench.folder()).unwrap();
    for (path, bytes) in files_below(&demo) {
        let path = bench.folder().join(path.strip_prefix(&demo).unwrap());
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    let before = bench.all();
    let mut open = bench.open();
    let edit = as_suggested(open.board()).unwrap();
    assert!(!edit.is_empty());
    open.edit(&edit).unwrap();
    assert!(bench.all() != before);
    drop(open);
    let mut open = bench.open();
    assert_eq!(open.undo_labels().len(), 1, "one edit, whatever it does");
    open.undo().unwrap();
    for (path, bytes) in &bench.all() {
        let text = |bytes: Option<&Vec<u8>>| bytes.map(|bytes| String::from_utf8_lossy(bytes).into_owned());
        assert_eq!(text(Some(bytes)), text(before.get(path)), "{}", path.display());
    }
    assert_eq!(bench.all().keys().collect::<Vec<_>>(), before.keys().collect::<Vec<_>>());
    // Done again and undone once more, too.
    open.redo().unwrap();
    assert!(bench.all() != before);
    open.undo().unwrap();
    assert!(bench.all() == before);
}

#[test]
fn an_undone_file_keeps_a_comment_that_was_written_above_it_meanwhile() {
    let bench = Bench::new();
    let mut open = bench.open();
    let as_written = bench.text("outfits/apron.yaml");
    open.edit(&crate::retitle(open.board(), "apron", "Bib")).unwrap();
    let ours = bench.text("outfits/apron.yaml");
    bench.write("outfits/apron.yaml", format!("# Ask Bridie.\n{ours}"));
    open.undo().unwrap();
    let text = bench.text("outfits/apron.yaml");
    assert!(text.starts_with("# Ask Bridie.\n") && text.contains("title: Apron"), "{text}");
    bench.write("outfits/apron.yaml", &as_written);
    open.edit(&crate::retitle(open.board(), "apron", "Bib")).unwrap();
    open.undo().unwrap();
    assert_eq!(bench.text("outfits/apron.yaml"), as_written);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// On any board of which a suggestion changes something.
    #[test]
    fn a_suggestion_that_is_undone_leaves_every_byte(records in sound_records(), reopen in any::<bool>()) {
        let mut records = records;
        std::sync::Arc::make_mut(&mut records.head).id = id("any");
        let board = shirr::board::Board::new(records.clone());
        let edit = as_suggested(&board);
        prop_assume!(edit.as_ref().is_some_and(|edit| !edit.is_empty()));
        let bench = Bench::new();
        bench.write("board.yaml", bench.text("board.yaml").replace("id: tide", "id: any"));
        let mut open = bench.open();
        open.edit(&shirr::board::Edit::between("start", open.board().records(), &records)).unwrap();
        let before = bench.all();
        let taken = open.edit(&edit.unwrap());
        prop_assume!(taken.is_ok());
        prop_assert!(bench.all() != before);
        if reopen {
            drop(open);
            open = bench.open();
        }
        open.undo().unwrap();
        prop_assert_eq!(bench.all(), before);
    }
}
