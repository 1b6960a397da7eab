//! A record in a person's own editor, and back.

use shirr::board::RecordRef;

use crate::{Bench, id, notes, on_disk, title};

fn shawl() -> RecordRef {
    RecordRef::Outfit(id("shawl"))
}

#[test]
fn a_record_goes_out_as_text_and_comes_back_as_an_edit() {
    let bench = Bench::new();
    let mut open = bench.open();
    let base = open.record_text(&shawl()).unwrap();
    assert_eq!(base, "title: Shawl\ncharacter: odile\nrecognition: 0\n");
    assert_eq!(open.edit_from_text(&shawl(), &base, &base).unwrap(), None);
    let edit = open.edit_from_text(&shawl(), &base, &base.replace("Shawl", "Wrap")).unwrap().unwrap();
    assert_eq!(edit.label, "Shawl edited as text");
    open.edit(&edit).unwrap();
    assert_eq!(title(&on_disk(&bench), "shawl"), "Wrap");
    assert_eq!(open.record_text(&RecordRef::Outfit(id("nobody"))), None);
}

#[test]
fn every_kind_of_record_can_be_edited_as_text() {
    let bench = Bench::new();
    let mut open = bench.open();
    let scene = |number: &str| RecordRef::Scene(number.parse().unwrap());
    for (record, from, to) in [
        (RecordRef::Head, "title: Tide", "title: Ebb"),
        (RecordRef::Look(id("quay")), "order: 10", "order: 20"),
        (scene("2A"), "pages: 0", "pages: 1 3/8"),
        (RecordRef::SceneOrder, "- 1\n- 2\n", "- 2\n- 1\n"),
        (RecordRef::Schedule, "- 2A\n", "- 2A\n  notes: at low water\n"),
    ] {
        let base = open.record_text(&record).unwrap();
        assert!(base.contains(from), "{base}");
        let edit = open.edit_from_text(&record, &base, &base.replace(from, to)).unwrap().unwrap();
        open.edit(&edit).unwrap();
        assert!(open.record_text(&record).unwrap().contains(to), "{record}");
    }
    assert_eq!(on_disk(&bench).records(), open.board().records());
}

#[test]
fn what_others_changed_while_the_editor_was_open_is_merged() {
    let bench = Bench::new();
    let mut open = bench.open();
    let base = open.record_text(&shawl()).unwrap();
    bench.write("outfits/shawl.yaml", "title: Shawl\ncharacter: odile\nnotes: theirs\n");
    open.take_in_outside();
    let edit = open.edit_from_text(&shawl(), &base, &base.replace("Shawl", "Ours")).unwrap().unwrap();
    open.edit(&edit).unwrap();
    let board = on_disk(&bench);
    assert_eq!((title(&board, "shawl"), notes(&board, "shawl")), ("Ours".into(), "theirs".into()));
}

#[test]
fn a_mistake_is_named_with_its_place_in_the_text() {
    let bench = Bench::new();
    let open = bench.open();
    let told = |record: &RecordRef, from: &str, to: &str| {
        let base = open.record_text(record).unwrap();
        assert!(base.contains(from), "{base}");
        open.edit_from_text(record, &base, &base.replace(from, to)).unwrap_err().to_string()
    };
    assert!(told(&shawl(), "title", "titel").starts_with("outfits/shawl.yaml:1:1: unknown key `titel`"));
    assert_eq!(
        told(&shawl(), "odile", "odille"),
        "outfits/shawl.yaml:2:12: there is no character `odille`: did you mean `odile`?"
    );
    let scene = RecordRef::Scene("1".parse().unwrap());
    assert_eq!(
        told(&scene, "quay", "quai"),
        "scenes.yaml:4:10: there is no look `quai`: did you mean `quay`?"
    );
    assert_eq!(told(&scene, "scene: 1", "scene: 9"), "scenes.yaml:1:8: the scene's number stays 1");
    assert_eq!(told(&RecordRef::Head, "id: tide", "id: ebb"), "board.yaml:2:5: the board's id stays `tide`");
    assert_eq!(
        told(&RecordRef::SceneOrder, "- 2A", "- 3"),
        "scenes.yaml:1:1: every scene stands in the order once"
    );
    assert!(
        told(&RecordRef::Schedule, "- 2A", "- 3").starts_with("schedule.yaml:4:5: there is no scene `3`")
    );
}
