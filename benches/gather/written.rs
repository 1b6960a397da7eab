//! Problems without wishes and our answers to them, for other programs to try: `benches/compare.py` reads them.
//!
//! In the folder, `NAME.f32` holds the distances: n×n single-precision numbers, little-endian, row by row, the distance
//! of outfit i from base j at i·n + j; every weight is 1. `ours.csv` has a row for each:
//! `name,n,looks,cost,bound,proven,seconds,bases`, the bases as places from 0 with blanks between.

use std::fmt::Write;
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use shirr::gather::{Likeness, Limits, Problem, solve};

use super::orlib;
use super::wardrobe::{board, said};
use super::{Fault, threads};

/// Few looks and many, small and larger.
const FILES: [usize; 5] = [3, 6, 16, 18, 20];
/// Outfits, looks.
const BOARDS: [(usize, usize); 3] = [(300, 20), (300, 60), (3000, 60)];
/// As long as `compare.py` gives the others.
const TIME: Duration = Duration::from_secs(60);

/// Writes the boards, and of a folder with files of the OR-Library some.
pub fn write(folder: &Path, files: Option<&Path>) -> Result<(), Fault> {
    fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let mut table = String::from("name,n,looks,cost,bound,proven,seconds,bases\n");
    for number in files.map_or(&[][..], |_| &FILES) {
        let file = orlib::read(files.unwrap_or(folder), *number)?;
        let name = format!("pmed{}", file.number);
        one(folder, &name, file.cost, file.problem.looks(), &mut table)?;
    }
    for (outfits, looks) in BOARDS {
        let name = format!("board-{outfits}-{looks}");
        let board = board(4, outfits, looks)?;
        let ids: Vec<_> = board.records().outfits.keys().cloned().collect();
        let distances = Likeness::of(&board).matrix(&ids, &|| false).ok_or("ended while comparing")?;
        one(folder, &name, distances, looks, &mut table)?;
    }
    let path = folder.join("ours.csv");
    fs::write(&path, table).map_err(|error| format!("{}: {error}", path.display()))
}

fn one(folder: &Path, name: &str, cost: Vec<f32>, looks: usize, table: &mut String) -> Result<(), Fault> {
    let path = folder.join(format!("{name}.f32"));
    let bytes: Vec<u8> = cost.iter().flat_map(|cost| cost.to_le_bytes()).collect();
    fs::write(&path, bytes).map_err(|error| format!("{}: {error}", path.display()))?;
    let n = cost.len().isqrt();
    let problem = Problem::from_matrix(vec![1.0; n], cost, looks).map_err(said)?;
    let limits = Limits { time: Some(TIME), threads: threads(), ..Limits::default() };
    let start = Instant::now();
    let choice = solve(&problem, &limits).map_err(|error| format!("{name}: {error}"))?;
    let seconds = start.elapsed().as_secs_f64();
    println!("{name}: cost {}, bound {}, {seconds:.2} s", choice.cost, choice.bound);
    let bases: Vec<String> = choice.bases.iter().map(ToString::to_string).collect();
    let (cost, bound, proven, bases) = (choice.cost, choice.bound, choice.proven, bases.join(" "));
    writeln!(table, "{name},{n},{looks},{cost},{bound},{proven},{seconds:.3},{bases}").map_err(said)
}
