//! Logs that other programs left for the same folder, sound or not: what can be inherited is, and the rest is in
//! nobody's way.

use std::fs;
use std::path::PathBuf;

use shirr::store::{FaultKind, OpenBoard};

use crate::{Bench, note, notes, on_disk, retitle, title};

/// A line of a log with its checksum (FNV-1a, 64 bits), from the JSON object without one.
fn sealed(json: &str) -> String {
    let body = json.strip_suffix('}').unwrap();
    let check = body.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    format!("{body},\"check\":\"{check:016x}\"}}\n")
}

/// The JSON of a line without its checksum.
fn bare(line: &str) -> String {
    format!("{}}}", line.rsplit_once(",\"check\":").unwrap().0)
}

impl Bench {
    fn second_log(&self) -> PathBuf {
        self.log().with_file_name("history-2.log")
    }

    /// Adds lines to the log of the second program, which is gone.
    fn second_says(&self, lines: &[&str]) {
        let mut log = fs::read_to_string(self.second_log()).unwrap();
        log.extend(lines.iter().map(|line| sealed(line)));
        fs::write(self.second_log(), log).unwrap();
    }
}

/// Two programs: the first did one thing, then the second did two.
fn two_programs() -> Bench {
    let bench = Bench::new();
    let (mut first, mut second) = (bench.open(), bench.open());
    first.edit(&note(first.board(), "smock", "mine")).unwrap();
    std::thread::sleep(std::time::Duration::from_millis(2));
    second.edit(&retitle(second.board(), "shawl", "One")).unwrap();
    second.edit(&retitle(second.board(), "shawl", "Two")).unwrap();
    drop((first, second));
    bench
}

fn labels(open: &OpenBoard) -> Vec<&str> {
    open.undo_labels().collect()
}

/// A step of a kind of record that comes with a later version.
const OF_TOMORROW: [&str; 2] =
    [r#"{"n":9,"kind":"do","time":1,"label":"dye it","changes":[{"dye":["woad",{}]}]}"#, r#"{"done":9}"#];

#[test]
fn a_step_of_another_program_that_cannot_be_read_is_passed_over_and_waits_there() {
    let bench = two_programs();
    bench.second_says(&OF_TOMORROW);
    let all = ["call it Two", "call it One", "note mine"];
    for _ in 0..3 {
        let open = bench.open();
        assert_eq!((labels(&open), open.faults()), (all.to_vec(), &[][..]));
    }
    assert_eq!(fs::read_to_string(bench.log()).unwrap().matches("call it One").count(), 1, "each comes once");
    let mut open = bench.open();
    for (outfit, stands) in [("shawl", "One"), ("shawl", "Shawl")] {
        open.undo().unwrap();
        assert_eq!(title(&on_disk(&bench), outfit), stands);
    }
    drop(open);
    assert!(
        fs::read_to_string(bench.second_log()).unwrap().contains("dye it"),
        "a later version can read it"
    );
}

#[test]
fn what_was_inherited_already_does_not_come_again() {
    let bench = two_programs();
    let left = fs::read(bench.second_log()).unwrap();
    let all = ["call it Two", "call it One", "note mine"];
    assert_eq!(labels(&bench.open()), all);
    let own = fs::read(bench.log()).unwrap();
    // As if the program had stopped before the other log was told.
    fs::write(bench.second_log(), left).unwrap();
    assert_eq!(labels(&bench.open()), all);
    assert_eq!(fs::read(bench.log()).unwrap(), own);
    assert_eq!(labels(&bench.open()), all);
}

#[test]
fn another_programs_log_that_cannot_be_read_takes_nobodys_undo_away() {
    let bench = two_programs();
    bench.second_says(&OF_TOMORROW);
    let mut open = bench.open();
    // Where a file should be that can be opened; the system refuses this one to any user.
    fs::create_dir(bench.log().with_file_name("history-3.log")).unwrap();
    let mut fourth = bench.open();
    fourth.edit(&note(fourth.board(), "apron", "beside")).unwrap();
    drop(fourth);
    for label in ["note beside", "call it Two", "call it One", "note mine"] {
        open.inherit();
        assert_eq!(open.undo().unwrap().as_deref(), Some(label));
    }
    let [fault] = &bench.open().faults().to_vec()[..] else { panic!("{:#?}", bench.open().faults()) };
    assert_eq!(fault.kind, FaultKind::Closed);
    assert!(fault.to_string().contains("history-3.log cannot be read"), "{fault}");
    fs::remove_dir(bench.log().with_file_name("history-3.log")).unwrap();
    assert_eq!(bench.open().faults(), []);
}

#[test]
fn a_board_opens_though_its_own_log_cannot_be_read() {
    let bench = Bench::new();
    drop(bench.open());
    fs::remove_file(bench.log()).unwrap();
    fs::create_dir(bench.log()).unwrap();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "One")).unwrap();
    drop(open);
    let mut open = bench.open();
    assert_eq!((labels(&open), open.faults().len()), (vec!["call it One"], 1));
    open.undo().unwrap();
    assert_eq!(title(&on_disk(&bench), "shawl"), "Shawl");
}

/// The log as it was written before lines had a time.
fn without_times(log: &PathBuf) {
    let text = fs::read_to_string(log).unwrap();
    let old = text.lines().map(|line| {
        let line = bare(line);
        match line.split_once("\"time\":") {
            Some((before, rest)) => sealed(&format!("{before}{}", rest.split_once(',').unwrap().1)),
            None => sealed(&line),
        }
    });
    fs::write(log, old.collect::<String>()).unwrap();
}

#[test]
fn a_step_of_another_program_that_says_no_time_is_not_inherited() {
    let bench = two_programs();
    for log in [bench.log(), bench.second_log()] {
        without_times(&log);
    }
    let mut open = bench.open();
    assert_eq!(labels(&open), ["note mine"]);
    open.inherit();
    assert_eq!(open.undo().unwrap().as_deref(), Some("note mine"));
    assert_eq!(open.undo().unwrap(), None);
    let board = on_disk(&bench);
    assert_eq!((title(&board, "shawl"), notes(&board, "smock")), ("Two".into(), String::new()));
}

#[test]
fn a_line_of_an_unknown_kind_stays_in_the_log_and_in_nobodys_way() {
    let unknown = [r#"{"n":9,"kind":"split","time":1,"label":"later"}"#, r#"{"pinned":9}"#];
    let bench = Bench::new();
    let mut open = bench.open();
    open.edit(&retitle(open.board(), "shawl", "One")).unwrap();
    drop(open);
    let mut log = fs::read_to_string(bench.log()).unwrap();
    log.extend(unknown.iter().map(|line| sealed(line)));
    fs::write(bench.log(), &log).unwrap();
    let mut open = bench.open();
    assert_eq!(fs::read_to_string(bench.log()).unwrap(), log, "nothing is cut off");
    assert_eq!(labels(&open), ["call it One"]);
    open.edit(&retitle(open.board(), "shawl", "Two")).unwrap();
    drop(open);
    assert!(fs::read_to_string(bench.log()).unwrap().starts_with(&log));
    let mut open = bench.open();
    assert_eq!(labels(&open), ["call it Two", "call it One"]);
    open.undo().unwrap();
    open.undo().unwrap();
    assert_eq!(title(&on_disk(&bench), "shawl"), "Shawl");
}

#[test]
fn a_moved_board_takes_along_what_every_program_did_there() {
    let bench = two_programs();
    let moved = bench.dir.path().join("moved");
    fs::rename(bench.folder(), &moved).unwrap();
    for _ in 0..2 {
        let open = OpenBoard::open(&moved, &bench.places("here")).unwrap();
        assert_eq!(
            (labels(&open), open.faults()),
            (vec!["call it Two", "call it One", "note mine"], &[][..])
        );
    }
    let mut open = OpenBoard::open(&moved, &bench.places("here")).unwrap();
    while open.undo().unwrap().is_some() {}
    assert_eq!((title(open.board(), "shawl"), notes(open.board(), "smock")), ("Shawl".into(), String::new()));
}

#[test]
fn what_every_program_began_in_the_old_folder_is_not_finished_in_the_new_one() {
    let bench = Bench::new();
    let (mut first, mut second) = (bench.open(), bench.open());
    first.edit(&note(first.board(), "smock", "mine")).unwrap();
    second.edit(&retitle(second.board(), "shawl", "One")).unwrap();
    let before = bench.all();
    second.edit(&note(second.board(), "apron", "begun")).unwrap();
    drop((first, second));
    bench.restore(&before);
    let log = fs::read_to_string(bench.second_log()).unwrap();
    let done = log.trim_end().rfind('\n').unwrap() + 1;
    fs::write(bench.second_log(), &log[..done]).unwrap();
    let moved = bench.dir.path().join("moved");
    fs::rename(bench.folder(), &moved).unwrap();
    let mut open = OpenBoard::open(&moved, &bench.places("here")).unwrap();
    let [fault] = open.faults() else { panic!("{:#?}", open.faults()) };
    assert!(fault.to_string().contains("the board has come from another folder since"), "{fault}");
    assert_eq!(notes(open.board(), "apron"), "");
    assert_eq!(labels(&open), ["call it One", "note mine"]);
    assert_eq!(open.redo().unwrap().as_deref(), Some("note begun"));
    assert_eq!(notes(open.board(), "apron"), "begun");
}

#[test]
fn a_log_of_the_old_folder_that_tells_of_another_board_does_not_come_along() {
    let bench = two_programs();
    // The board was copied before the second program did its last; then the first folder went away.
    let twin = bench.dir.path().join("twin");
    bench.write("outfits/shawl.yaml", "title: As copied\ncharacter: odile\n");
    fs::rename(bench.folder(), &twin).unwrap();
    let open = OpenBoard::open(&twin, &bench.places("here")).unwrap();
    assert_eq!(labels(&open), ["note mine"]);
}

#[test]
fn a_log_that_tells_of_nothing_does_not_stand_before_one_that_does() {
    let bench = Bench::new();
    let (first, mut second) = (bench.open(), bench.open());
    second.edit(&retitle(second.board(), "shawl", "One")).unwrap();
    drop((first, second));
    let away = r#"{"board":"tide","folder":"/nowhere","token":"0123456789abcdef"}"#;
    fs::write(bench.log(), sealed(away)).unwrap();
    let moved = bench.dir.path().join("moved");
    fs::rename(bench.folder(), &moved).unwrap();
    let open = OpenBoard::open(&moved, &bench.places("here")).unwrap();
    assert_eq!(labels(&open), ["call it One"]);
}
