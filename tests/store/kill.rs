//! A program that is killed in the middle of its edits, again and again, by the system and without warning.

use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::Duration;

use shirr::board::{Edit, OutfitId};
use shirr::store::{OpenBoard, Places};

use crate::{Bench, id, notes, on_disk};

/// Tells the worker which board to work on.
const WORK: &str = "SHIRR_TEST_KILL";

/// Edits three files at once, one of which comes and goes, and prints the number of each edit once it is done.
#[test]
#[ignore = "the program that the test below starts and kills"]
fn works_until_it_is_killed() {
    let dir = std::env::var(WORK).expect("only the test below starts this");
    let dir = Path::new(&dir);
    let mut open = OpenBoard::open(&dir.join("board"), &Places::below(dir.join("here"))).unwrap();
    let start = open.undo_labels().len();
    let mut out = std::io::stdout();
    for number in start + 1.. {
        let mut after = open.board().records().clone();
        for outfit in ["smock", "shawl"] {
            Arc::make_mut(after.outfits.get_mut(&id(outfit)).unwrap()).notes = number.to_string();
        }
        let wrap: OutfitId = id("wrap");
        if after.outfits.remove(&wrap).is_none() {
            after.outfits.insert(wrap, crate::sample::outfit("Wrap", "odile").into());
        }
        open.edit(&Edit::between(number.to_string(), open.board().records(), &after)).unwrap();
        out.write_all(format!("\ndone {number}\n").as_bytes()).unwrap();
        out.flush().unwrap();
    }
}

#[test]
fn every_edit_that_was_told_done_is_there_and_none_is_half_there() {
    let bench = Bench::new();
    let mut all = 0;
    for round in 0..25_u64 {
        let mut program = Command::new(std::env::current_exe().unwrap())
            .args(["kill::works_until_it_is_killed", "--exact", "--ignored", "--nocapture"])
            .env(WORK, bench.dir.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut out = BufReader::new(program.stdout.take().unwrap());
        let mut told = String::new();
        while !told.contains("done ") {
            assert!(out.read_line(&mut told).unwrap() > 0, "it ended by itself: {told}");
        }
        std::thread::sleep(Duration::from_micros(round * 7_919 % 20_000));
        program.kill().unwrap();
        out.read_to_string(&mut told).unwrap();
        program.wait().unwrap();
        // The last line may be torn; what follows it was never told.
        let whole = told.rsplit_once('\n').map_or("", |(whole, _)| whole);
        let told = whole.lines().rev().find_map(|line| line.strip_prefix("done "));
        let told: usize = told.unwrap().parse().unwrap();
        let open = bench.open();
        assert_eq!(open.faults(), []);
        let edits = open.undo_labels().len();
        assert!(edits >= told.max(all), "{edits} edits, {told} told done in round {round}");
        all = edits;
        let board = on_disk(&bench);
        assert_eq!(board.records(), open.board().records());
        let number = if edits == 0 { String::new() } else { edits.to_string() };
        assert_eq!([notes(&board, "smock"), notes(&board, "shawl")], [number.clone(), number]);
        assert_eq!(board.outfit(&id("wrap")).is_some(), edits % 2 == 1);
    }
    assert!(all >= 25, "each round had an edit at least");
}
