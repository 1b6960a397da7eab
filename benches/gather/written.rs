//! Problems without wishes and our answers to them, for other programs to try: `benches/compare.py` reads them.
//!
//! In the folder, `NAME.f32` holds the distances: n×n single-precision numbers, little-endian, row by row, the distance
//! of outfit i from base j at i·n + j; every weight is 1. `ours.csv` has a row for each: `name,n,looks,cost,bound,
//! proven,seconds`.

use std::fmt::Write;
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use shirr::gather::{Limits, Problem, solve};

use super::orlib;
use super::wardrobe::{distances, wardrobe};
use super::{Fault, threads};

/// Few looks and many, small and larger.
const FILES: [usize; 5] = [1, 5, 10, 16, 20];
/// Outfits, characters, looks.
const BOARDS: [(usize, u64, usize); 3] = [(300, 4, 20), (300, 4, 60), (3000, 1, 60)];
/// As long as `compare.py` gives the others.
const TIME: Duration = Duration::from_secs(60);

/// Writes the boards, and of a folder with files of the OR-Library some.
pub fn write(folder: &Path, files: Option<&Path>) -> Result<(), Fault> {
    fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let mut table = String::from("name,n,looks,cost,bound,proven,seconds\n");
    for number in files.map_or(&[][..], |_| &FILES) {
        let file = orlib::read(files.unwrap_or(folder), *number)?;
        let name = format!("pmed{}", file.number);
        one(folder, &name, file.cost, file.problem.looks(), &mut table)?;
    }
    for (outfits, characters, looks) in BOARDS {
        let name = format!("board-{outfits}-{looks}");
        one(folder, &name, distances(&wardrobe(4, outfits, characters)), looks, &mut table)?;
    }
    let path = folder.join("ours.csv");
    fs::write(&path, table).map_err(|error| format!("{}: {error}", path.display()))
}

fn one(folder: &Path, name: &str, cost: Vec<f32>, looks: usize, table: &mut String) -> Result<(), Fault> {
    let path = folder.join(format!("{name}.f32"));
    let bytes: Vec<u8> = cost.iter().flat_map(|cost| cost.to_le_bytes()).collect();
    fs::write(&path, bytes).map_err(|error| format!("{}: {error}", path.display()))?;
    let n = cost.len().isqrt();
    let problem = Problem::from_matrix(vec![1.0; n], cost, looks).map_err(|unfit| unfit.to_string())?;
    let limits = Limits { time: Some(TIME), threads: threads(), ..Limits::default() };
    let start = Instant::now();
    let choice = solve(&problem, &limits).map_err(|error| format!("{name}: {error}"))?;
    let seconds = start.elapsed().as_secs_f64();
    println!("{name}: cost {}, bound {}, {seconds:.2} s", choice.cost, choice.bound);
    writeln!(table, "{name},{n},{looks},{},{},{},{seconds:.3}", choice.cost, choice.bound, choice.proven)
        .map_err(|error| error.to_string())
}
