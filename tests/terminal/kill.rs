//! Killed at any moment, the program keeps every edit that it had shown as done.

use std::fs;
use std::path::Path;
use std::time::Duration;

use rustix::process::Signal;
use shirr::board::{OutfitId, rules};
use shirr::store::OpenBoard;

use super::pty::{Program, User};

/// How many times it is killed.
const KILLS: usize = 200;

const FILES: [(&str, &str); 5] = [
    (
        "board.yaml",
        "shirr: 1\nid: killed\ntitle: Killed\nperiods:\n  - {id: early, title: Early, span: 1911/1924}\n\
         characters:\n  - {id: ada, name: Ada}\n",
    ),
    ("outfits/smock.yaml", "title: t0\ncharacter: ada\nworn: 1920\n"),
    ("outfits/serge.yaml", "title: Serge\ncharacter: ada\nworn: 1922\n"),
    ("looks/quay.yaml", "title: Quay\ncharacter: ada\ntreatment: copy\nbase: serge\nfolded: [smock]\n"),
    ("scenes.yaml", "- {scene: 1, date: 1920, pages: 1, wears: {ada: quay}}\n"),
];

fn write_board(folder: &Path) {
    for (name, text) in FILES {
        let file = folder.join(name);
        fs::create_dir_all(file.parent().unwrap()).unwrap();
        fs::write(file, text).unwrap();
    }
}

/// Random enough, and the same in every run (the constants are Knuth's, from memory).
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most
    }
}

/// One step: a title that no step before had; at times also a change of two files at once, there and back.
fn step(program: &mut Program, number: usize) {
    program.keys(&format!("R\u{15}t{number}\r"));
    if number.is_multiple_of(3) {
        program.keys("xno scene left\rXf\r");
    }
}

/// The number in the last words `renamed to t…` that the screen showed.
fn shown(screen: &str) -> Option<usize> {
    let (_, rest) = screen.rsplit_once("renamed to t")?;
    rest.split(|c: char| !c.is_ascii_digit()).next()?.parse().ok()
}

fn title_number(board: &OpenBoard) -> usize {
    let smock: OutfitId = "smock".parse().unwrap();
    board.board().outfit(&smock).unwrap().title.trim_start_matches('t').parse().unwrap()
}

#[test]
fn every_edit_that_was_shown_done_survives_a_kill_at_any_moment() {
    let user = User::new();
    let folder = user.path("board");
    write_board(&folder);
    let argument = folder.to_str().unwrap().to_owned();
    let mut dice = Dice(20_261_125);
    let mut number = 0;
    let (mut edits, mut mid_edit) = (0, 0);
    for kill in 0..KILLS {
        let mut program = user.run(&[&argument], (80, 24));
        let mut sent = number;
        let mut seen = number;
        // Some are killed while they open, most in the middle of a stream of edits.
        if dice.below(10) > 0 {
            program.shows(&format!(" t{number} "));
            let steps = dice.below(12);
            for _ in 0..=steps {
                sent += 1;
                step(&mut program, sent);
                if let Some(done) = shown(&program.screen()) {
                    seen = seen.max(done);
                }
            }
            std::thread::sleep(Duration::from_micros(dice.below(60_000)));
        } else {
            std::thread::sleep(Duration::from_micros(dice.below(30_000)));
        }
        if let Some(done) = shown(&program.screen()) {
            seen = seen.max(done);
        }
        program.signal(Signal::KILL);
        program.ends();

        let mut board = OpenBoard::open(&folder, &user.places())
            .unwrap_or_else(|error| panic!("kill {kill}: the board does not open: {error}"));
        assert!(board.faults().is_empty(), "kill {kill}: {:?}", board.faults());
        let kept = title_number(&board);
        assert!(kept >= seen, "kill {kill}: t{seen} was shown done, and t{kept} is there");
        assert!(kept <= sent, "kill {kill}: t{kept} was never sent");
        assert!(rules::broken(board.board()).is_empty(), "kill {kill}: half of an edit is there");
        mid_edit += usize::from(kept < sent);
        edits += kept - number;
        // Undo works: back to the title before, and forward again.
        if kept > number {
            while title_number(&board) == kept {
                board.undo().unwrap().expect("the edits can be undone");
            }
            assert_eq!(title_number(&board), kept - 1, "kill {kill}");
            while board.redo().unwrap().is_some() {}
            assert_eq!(title_number(&board), kept, "kill {kill}");
        }
        number = kept;
    }
    assert!(edits > KILLS, "enough edits were made to be worth killing: {edits}");
    assert!(mid_edit > KILLS / 10, "enough kills came in the middle: {mid_edit}");
}
