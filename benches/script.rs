//! How soon a script is on the board: `cargo bench --bench script`.
//!
//! An invented script of a thousand scenes on some 120 pages, and a second draft of it in which every tenth scene is
//! cut, every ninth new, every eighth moved, every seventh numbered anew and every sixth rewritten; then the same two
//! drafts without any numbers, where all goes by headings, people and words. Each is read, compared with the board and
//! made one edit; the design wants that in under a second. Before that, how much longer four times as much takes of
//! what must be looked at once: a long heading, a name said over and over, the sets of a board, the rows of a table.
//! Ends with 1 where a scene is not recognised, or where four times as much takes more than nine times as long.
#![allow(missing_docs, clippy::print_stdout, clippy::unwrap_used)]

use std::fmt::Write;
use std::hint::black_box;
use std::process::ExitCode;
use std::sync::Arc;
use std::time::{Duration, Instant};

use serde_json::json;
use shirr::board::{Board, Edit, Records};
use shirr::bring::script::{Comparison, Draft, Part, Script, edit};
use shirr::bring::table::{Grid, Kind, ROWS};
use shirr::trade::eighths::Eighths;

const SCENES: usize = 1_000;
const REACH: Duration = Duration::from_secs(1);

const SETS: [&str; 24] = [
    "QUAY",
    "NET LOFT",
    "CHAPEL",
    "LAMP ROOM",
    "BEACH",
    "TOWN HALL",
    "KITCHEN",
    "SLIPWAY",
    "STATION",
    "BALLROOM",
    "LIDO",
    "CANTEEN",
    "SCHOOL",
    "OFFICE",
    "CABIN",
    "BREAKWATER",
    "SHOP",
    "STAIRS",
    "CELLAR",
    "MARKET",
    "HOSPITAL",
    "STUDIO",
    "TERRACE",
    "GARDEN",
];
const WORDS: [&str; 40] = [
    "rope", "letter", "lamp", "coat", "button", "tide", "gull", "window", "clock", "salt", "whistle",
    "ladder", "cap", "bucket", "shoulder", "needle", "thread", "ferry", "ticket", "apron", "bench", "ledger",
    "kettle", "anchor", "ribbon", "mirror", "glove", "basket", "candle", "drum", "wire", "shell", "bell",
    "map", "boot", "net", "oar", "stove", "flag", "pin",
];

/// A generator of our own, so that every run has the same script (Knuth, MMIX).
struct Drawn(u64);

impl Drawn {
    fn next(&mut self, below: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % below
    }

    fn one<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.next(of.len())]
    }
}

/// A scene: its heading without a number, and what is below it.
#[derive(Clone)]
struct Invented {
    number: String,
    heading: String,
    body: String,
}

fn body(drawn: &mut Drawn, nth: usize) -> String {
    let mut words = || (0..6).map(|_| drawn.one(&WORDS)).collect::<Vec<_>>().join(" and ");
    let (action, speech) = (words(), words());
    let who = if nth.is_multiple_of(3) { "ADA" } else { "BEN" };
    format!("{who} puts down the {action}, number {nth}.\n\n{who}\nThe {speech}?\n")
}

fn scenes() -> Vec<Invented> {
    let mut drawn = Drawn(7);
    (0..SCENES)
        .map(|nth| Invented {
            number: (nth + 1).to_string(),
            heading: format!(
                "{} {} - {}",
                drawn.one(&["INT.", "EXT."]),
                drawn.one(&SETS),
                drawn.one(&["DAY", "NIGHT", "DUSK"])
            ),
            body: body(&mut drawn, nth),
        })
        .collect()
}

/// The second draft, and how many scenes of the first are in it.
fn rewritten(first: &[Invented]) -> (Vec<Invented>, usize) {
    let mut drawn = Drawn(11);
    let mut draft: Vec<Invented> = Vec::new();
    let mut moved: Vec<Invented> = Vec::new();
    let mut kept = 0;
    for (nth, scene) in first.iter().enumerate() {
        let mut scene = scene.clone();
        if nth % 10 == 9 {
            continue;
        }
        kept += 1;
        if nth % 7 == 6 {
            scene.number = format!("{}N", scene.number);
        }
        if nth % 6 == 5 {
            let _ = writeln!(scene.body, "\nThe {} again.", drawn.one(&WORDS));
        }
        if nth % 8 == 7 {
            moved.push(scene);
            continue;
        }
        if nth % 9 == 8 {
            draft.push(Invented {
                number: format!("{}P", nth + 1),
                heading: format!("EXT. MOON {nth} - NIGHT"),
                body: format!("Dust {nth}, silence {nth}, and footprints {nth} of nobody.\n"),
            });
        }
        draft.push(scene);
        if nth % 40 == 39 {
            draft.append(&mut moved);
        }
    }
    draft.append(&mut moved);
    (draft, kept)
}

fn text(scenes: &[Invented], numbered: bool) -> String {
    let mut text = "Title: The Thousand\n\n".to_owned();
    for scene in scenes {
        let number = if numbered { format!(" #{}#", scene.number) } else { String::new() };
        let _ = writeln!(text, "{}{number}\n\n{}", scene.heading, scene.body);
    }
    text
}

fn empty() -> Board {
    let head = json!({
        "shirr": 1, "id": "thousand", "title": "The Thousand",
        "characters": [{"id": "ada", "name": "Ada"}, {"id": "ben", "name": "Ben"}],
    });
    Board::new(Records::of(Arc::new(serde_json::from_value(head).unwrap())))
}

fn bring(board: &Board, text: &str) -> (Duration, Draft, Comparison, Edit) {
    let start = Instant::now();
    let script = Script::read(text.as_bytes()).unwrap();
    let draft = Draft::of_script(&script, board.head()).unwrap();
    let (comparison, edit) = edit(board, &draft, None).unwrap();
    (start.elapsed(), draft, comparison, edit)
}

/// How much longer four times as much may take: what is looked at once for each would take sixteen times as long.
const LONGER: f64 = 12.0;

/// Rows of a quarter of a table: four times as many, the headings and one more are all that one may have.
const QUARTER: usize = ROWS / 4 - 1;

/// Prints how much longer four times as much takes, of each size the best of several. Says whether that is in bounds.
fn grows(what: &str, size: usize, mut run: impl FnMut(usize) -> Duration) -> bool {
    let mut best = |size| (0..5).map(|_| run(size)).min().unwrap().as_secs_f64();
    let (one, four) = (best(size), best(4 * size));
    let ratio = four / one;
    println!("{what}: {size} in {one:.4} s, four times as many take {ratio:.2} times as long");
    ratio < LONGER
}

fn timed<T>(run: impl FnOnce() -> T) -> Duration {
    let start = Instant::now();
    black_box(run());
    start.elapsed()
}

/// Long headings, names and tables: what must be looked at once, and not once for each of the others.
fn long_ones() -> bool {
    let read =
        |text: &str| Draft::of_script(&Script::read(text.as_bytes()).unwrap(), empty().head()).unwrap();
    let dashes = grows("dashes in a heading", 25_000, |size| {
        let text = format!("INT. LOFT{} - NIGHT\n\nShe waits.\n", " - X".repeat(size));
        timed(|| read(&text))
    });
    let names = grows("mentions of a name in a scene", 15_000, |size| {
        let text = format!("INT. LOFT - DAY\n\nThere: {}\n{}\n", "ADA. ".repeat(size), "Ben. ".repeat(size));
        timed(|| read(&text))
    });
    // Another part of the script, so that what grows is only how often the board is asked for its sets.
    let part: Part = "5001-9999".parse().unwrap();
    let sets = grows("new scenes on a board with as many sets", 400, |size| {
        let long = "X".repeat(2_000);
        let text = |first: usize, name: char| -> String {
            let scene = |nth| format!("INT. {long}{name}{nth} - DAY #{nth}#\n\n{name}{nth}.\n\n");
            (first..first + size).map(scene).collect()
        };
        let mut board = empty();
        let (_, first) = edit(&board, &read(&text(1, 'A')), None).unwrap();
        board.apply(&first).unwrap();
        let second = read(&text(5_001, 'B'));
        timed(|| edit(&board, &second, Some(&part)).unwrap())
    });
    let rows = grows("rows of a table of scenes, every other one new", QUARTER, |size| {
        let scene = |number| Arc::new(serde_json::from_value(json!({"scene": number})).unwrap());
        let mut records = empty().records().clone();
        records.scenes = (1..=size / 2).map(scene).collect();
        let board = Board::new(records);
        let rows: String = (1..=size / 2).map(|number| format!("{number},Quay\n{number}A,Quay\n")).collect();
        // The last row is wrong, so that no edit is made: what is timed is how scenes are placed.
        let grid = Grid::read(format!("Scene,Set\n{rows}no number,\n").as_bytes(), None).unwrap();
        timed(|| assert_eq!(Kind::Scenes.bring(&board, &grid).counts.new, size / 2))
    });
    let titles = grows("new outfits whose titles give no id", QUARTER, |size| {
        // Each title in two characters of its own, from U+4E00 on.
        let letter = |nth: usize| char::from_u32(0x4e00 + nth as u32).unwrap();
        let row = |nth: usize| format!("{}{},ada\n", letter(nth / 150), letter(200 + nth % 150));
        let rows: String = (0..size).map(row).collect();
        let grid = Grid::read(format!("Title,Character\n{rows}").as_bytes(), None).unwrap();
        let board = empty();
        timed(|| assert_eq!(Kind::Outfits.bring(&board, &grid).counts.new, size))
    });
    dashes && names && sets && rows && titles
}

fn main() -> ExitCode {
    let first = scenes();
    let (second, kept) = rewritten(&first);
    let mut fine = long_ones();
    for numbered in [true, false] {
        let how = if numbered { "with numbers" } else { "without numbers" };
        let mut board = empty();
        let (time, draft, _, edit) = bring(&board, &text(&first, numbered));
        let pages: Eighths = draft.scenes.iter().map(|scene| scene.length).sum();
        println!(
            "{how}: first draft of {} scenes, {pages} pages: {:.3} s",
            draft.scenes.len(),
            time.as_secs_f64()
        );
        fine &= time < REACH;
        board.apply(&edit).unwrap();
        let (time, draft, comparison, _) = bring(&board, &text(&second, numbered));
        let known = comparison.pairs.iter().filter(|(from, to)| first[*from].heading == second[*to].heading);
        let right = known.filter(|(from, to)| second[*to].body.starts_with(&first[*from].body)).count();
        println!(
            "{how}: second draft of {} scenes, {} changes, {right} of {kept} scenes recognised: {:.3} s",
            draft.scenes.len(),
            comparison.changes.len(),
            time.as_secs_f64()
        );
        fine &= time < REACH && right == kept && comparison.pairs.len() == kept;
    }
    if fine { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
