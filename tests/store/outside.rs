//! Hands and other programs write in the folder while it is open.

use std::sync::mpsc;
use std::time::Duration;

use shirr::store::{FaultKind, News, NewsKind, Watcher};

use crate::{Bench, id, note, notes, on_disk, retitle, title};

fn texts(news: &[News]) -> Vec<&str> {
    news.iter().map(|news| news.text.as_str()).collect()
}

#[test]
fn changed_new_and_removed_records_come_in() {
    let bench = Bench::new();
    let mut open = bench.open();
    bench.write("outfits/shawl.yaml", "title: Wrap\ncharacter: odile\n");
    assert_eq!(texts(&open.take_in_outside()), ["outfit ‘Wrap’ changed outside"]);
    bench.write("outfits/new.yaml", "title: New\ncharacter: odile\n");
    assert_eq!(texts(&open.take_in_outside()), ["outfit ‘New’ added outside"]);
    bench.remove("outfits/new.yaml");
    assert_eq!(texts(&open.take_in_outside()), ["outfit ‘New’ removed outside"]);
    bench.write(
        "scenes.yaml",
        "- scene: 2A\n- scene: 1\n  wears: {odile: quay}\n- scene: 2\n  wears: {bridie: ~}\n",
    );
    assert_eq!(texts(&open.take_in_outside()), ["the order of the scenes changed outside"]);
    bench.write("board.yaml", bench.text("board.yaml").replace("title: Tide", "title: Ebb"));
    bench.write("outfits/apron.yaml", "title: Pinafore\ncharacter: bridie\n");
    assert_eq!(texts(&open.take_in_outside()), ["2 records changed outside"]);
    bench.remove("schedule.yaml");
    assert_eq!(texts(&open.take_in_outside()), ["the schedule changed outside"]);
    assert_eq!(open.board().records(), on_disk(&bench).records());
}

#[test]
fn a_file_that_says_the_same_in_other_words_is_no_news() {
    let bench = Bench::new();
    let mut open = bench.open();
    bench.write("outfits/shawl.yaml", "# now with a comment\n{character: odile, title: 'Shawl'}\n");
    assert_eq!(open.take_in_outside(), []);
    open.edit(&note(open.board(), "shawl", "x")).unwrap();
    assert!(
        bench.text("outfits/shawl.yaml").starts_with("# now with a comment\n"),
        "the header is the present one"
    );
}

#[test]
fn a_file_of_the_same_length_and_time_is_still_seen_to_have_changed() {
    let bench = Bench::new();
    let path = bench.path("outfits/shawl.yaml");
    let mut open = bench.open();
    let time = std::fs::metadata(&path).unwrap().modified().unwrap();
    bench.write("outfits/shawl.yaml", bench.text("outfits/shawl.yaml").replace("Shawl", "Scarf"));
    std::fs::File::options().write(true).open(&path).unwrap().set_modified(time).unwrap();
    open.take_in_outside();
    assert_eq!(title(open.board(), "shawl"), "Scarf");
}

#[test]
fn a_file_that_becomes_damaged_is_told_and_left_alone_until_it_is_repaired() {
    let bench = Bench::new();
    let mut open = bench.open();
    let damaged = "title: Shawl\ncharacter: odile\nnots: half a thou";
    bench.write("outfits/shawl.yaml", damaged);
    let news = open.take_in_outside();
    assert_eq!((news.len(), news[0].kind), (1, NewsKind::Damaged));
    assert!(news[0].text.starts_with("outfits/shawl.yaml:3:1: unknown key `nots`: did you mean `notes`?"));
    assert_eq!(open.take_in_outside(), [], "once");
    assert_eq!(title(open.board(), "shawl"), "Shawl", "the last good record stays");
    assert_eq!(open.faults().len(), 1);
    assert_eq!(open.faults()[0].kind, FaultKind::Damaged);
    let error = open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap_err();
    assert!(error.to_string().contains("left alone"), "{error}");
    assert_eq!(bench.text("outfits/shawl.yaml"), damaged);
    open.edit(&retitle(open.board(), "smock", "Others are fine")).unwrap();
    bench.write("outfits/shawl.yaml", "title: Shawl\ncharacter: odile\nnotes: half a thought\n");
    let news = open.take_in_outside();
    assert_eq!(texts(&news), ["outfits/shawl.yaml can be read again", "outfit ‘Shawl’ changed outside"]);
    assert_eq!(open.faults(), []);
    open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap();
    assert_eq!(notes(&on_disk(&bench), "shawl"), "half a thought");
}

#[test]
fn a_file_that_is_damaged_at_opening_is_left_alone_byte_for_byte() {
    let bench = Bench::new();
    bench.write("outfits/smock.yaml", "title: [\u{e9}\r\n");
    bench.write("looks/bad.yaml", b"\xff\xfe\0");
    let before = bench.all();
    let mut open = bench.open();
    assert_eq!(open.faults().len(), 2);
    open.edit(&retitle(open.board(), "shawl", "Wrap")).unwrap();
    open.undo().unwrap();
    let outfit = crate::sample::outfit("Over it", "odile");
    let error = open.edit(&open.board().add_outfit(&id("smock"), outfit).unwrap()).unwrap_err();
    assert!(error.to_string().contains("outfits/smock.yaml:2:1"), "{error}");
    for name in ["outfits/smock.yaml", "looks/bad.yaml"] {
        assert_eq!(bench.all().get(&bench.path(name)), before.get(&bench.path(name)), "{name}");
    }
}

#[test]
fn a_change_that_nobody_told_of_is_found_before_anything_is_written() {
    let bench = Bench::new();
    let mut open = bench.open();
    bench.write("outfits/shawl.yaml", "title: Shawl\ncharacter: odile\nnotes: theirs\n");
    open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap();
    let board = on_disk(&bench);
    assert_eq!((title(&board, "shawl"), notes(&board, "shawl")), ("Ours".into(), "theirs".into()));
    bench.remove("outfits/shawl.yaml");
    let error = open.edit(&retitle(open.board(), "shawl", "Again")).unwrap_err();
    assert_eq!(error.to_string(), "outfit `shawl` was removed meanwhile");
}

#[test]
fn references_are_looked_at_again() {
    let bench = Bench::new();
    let mut open = bench.open();
    bench.write("outfits/shawl.yaml", "title: Shawl\ncharacter: odille\n");
    open.take_in_outside();
    assert_eq!(
        open.faults()[0].to_string(),
        "outfits/shawl.yaml:2:12: there is no character `odille`: did you mean `odile`?"
    );
    let edit =
        open.board().change_outfit(&id("shawl"), "mend", |outfit| outfit.character = id("odile")).unwrap();
    open.edit(&edit).unwrap();
    assert_eq!(open.faults(), []);
    bench.remove("outfits/smock.yaml");
    open.take_in_outside();
    assert_eq!(open.faults()[0].file, "looks/quay.yaml");
    bench.write("outfits/smock.yaml", "title: [");
    open.take_in_outside();
    assert_eq!(
        open.faults().iter().map(|fault| fault.file.as_str()).collect::<Vec<_>>(),
        ["outfits/smock.yaml"]
    );
}

#[test]
fn a_folder_that_is_out_of_reach_is_not_an_empty_one() {
    let bench = Bench::new();
    let mut open = bench.open();
    let away = bench.dir.path().join("away");
    std::fs::rename(bench.folder(), &away).unwrap();
    let news = open.take_in_outside();
    assert_eq!((news.len(), news[0].kind), (1, NewsKind::Unreachable));
    assert_eq!(open.take_in_outside(), []);
    assert_eq!(open.board().records().outfits.len(), 3);
    let error = open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap_err();
    assert!(error.hint().unwrap().contains("moved"), "{error}");
    assert_eq!(open.board().records().outfits.len(), 3);
    std::fs::rename(&away, bench.folder()).unwrap();
    assert_eq!(texts(&open.take_in_outside()), ["the board's folder is back"]);
    open.edit(&retitle(open.board(), "shawl", "Ours")).unwrap();
    assert_eq!(title(&on_disk(&bench), "shawl"), "Ours");
}

#[test]
fn a_watcher_calls_when_something_changed_and_stops_when_dropped() {
    let bench = Bench::new();
    let open = bench.open();
    let (sender, called) = mpsc::channel();
    let watcher = Watcher::spawn(&open, Duration::from_millis(5), move || {
        let _closed = sender.send(());
    });
    let patience = Duration::from_secs(30);
    called.recv_timeout(patience).expect("once at the start: what happened since the opening may be news");
    // It falls silent when nothing happens.
    while called.recv_timeout(Duration::from_millis(500)).is_ok() {}
    bench.write("outfits/shawl.yaml", "title: Wrap\ncharacter: odile\n");
    called.recv_timeout(patience).expect("after a change");
    drop(watcher);
    while called.try_recv().is_ok() {}
    assert_eq!(called.recv(), Err(mpsc::RecvError), "its thread has ended");
}
