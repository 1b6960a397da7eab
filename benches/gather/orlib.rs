//! The p-median problems of the OR-Library, against their published optima.

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use shirr::gather::{Choice, Limits, Problem, solve};

use super::{Fault, threads};

/// The optima of pmed1, pmed2 … (J. E. Beasley, "A note on solving large p-median problems", *European Journal of
/// Operational Research* 21, 1985, 270–273, and the OR-Library's own list). Those of pmed21 to pmed40 are from memory.
const OPTIMA: [u32; 40] = [
    5819, 4093, 4250, 3034, 1355, 7824, 5631, 4445, 2734, 1255, //
    7696, 6634, 4374, 2968, 1729, 8162, 6999, 4809, 2845, 1789, //
    9138, 8579, 4619, 2961, 1828, 9917, 8307, 4498, 3033, 1989, //
    10086, 9297, 4700, 3013, 10400, 9934, 5057, 11060, 9423, 5128,
];

/// So that a file that will not be proved does not hold up the rest.
const SAFETY: Duration = Duration::from_secs(60);

/// One file, with its number.
pub struct File {
    pub number: usize,
    pub problem: Problem,
    pub cost: Vec<f32>,
}

/// Solves every file of a folder and prints what came of it. Whether that can be right.
pub fn run(folder: &Path) -> Result<bool, Fault> {
    let numbers: Vec<usize> = (1..=OPTIMA.len()).filter(|&number| path(folder, number).exists()).collect();
    if numbers.is_empty() {
        return Err(format!("{}: expected files pmed1.txt to pmed40.txt", folder.display()));
    }
    let limits = Limits { time: Some(SAFETY), threads: threads(), ..Limits::default() };
    println!("OR-Library p-median problems, {} threads", threads().map_or(1, usize::from));
    println!(
        "file       n    p   cost  published  is   root bound   gap %      bound  proven    steps      s"
    );
    let mut total = Total::default();
    for number in numbers {
        let problem = read(folder, number)?.problem;
        let start = Instant::now();
        let choice = solve(&problem, &limits).map_err(|error| format!("pmed{number}: {error}"))?;
        total.add(number, &problem, &choice, start.elapsed());
    }
    total.print();
    Ok(total.wrong == 0)
}

#[derive(Default)]
struct Total {
    files: u32,
    optimal: u32,
    proven: u32,
    wrong: u32,
    worst_root_gap: f64,
    steps: u64,
    time: Duration,
}

impl Total {
    fn add(&mut self, number: usize, problem: &Problem, choice: &Choice, time: Duration) {
        let optimum = f64::from(OPTIMA[number - 1]);
        let is_optimal = choice.cost == optimum;
        let root_gap = percent(optimum, choice.root_bound);
        println!(
            "pmed{number:<3} {:5} {:4} {:6.0}  {optimum:9.0}  {:3} {:11.3} {root_gap:7.3} {:10.3}  {:6} {:8} {:6.2}",
            problem.outfits(),
            problem.looks(),
            choice.cost,
            yes(is_optimal),
            choice.root_bound,
            choice.bound,
            yes(choice.proven),
            choice.steps,
            time.as_secs_f64()
        );
        self.files += 1;
        self.optimal += u32::from(is_optimal);
        self.proven += u32::from(choice.proven);
        self.worst_root_gap = self.worst_root_gap.max(root_gap);
        self.steps += choice.steps;
        self.time += time;
        // Whole numbers summed in doubles are exact, a bound is so up to its rounding.
        if choice.cost < optimum || choice.bound.max(choice.root_bound) > optimum * (1.0 + 1e-9) {
            println!("        WRONG: the optimum lies below the bound or above the cost");
            self.wrong += 1;
        }
    }

    fn print(&self) {
        println!(
            "{} files: the published optimum on {}, proved on {}; at the root at most {:.3} % below the optimum; {} steps, {:.2} s; {} wrong",
            self.files,
            self.optimal,
            self.proven,
            self.worst_root_gap,
            self.steps,
            self.time.as_secs_f64(),
            self.wrong
        );
    }
}

/// By how many per cent of the bound a cost lies above it.
pub fn percent(cost: f64, bound: f64) -> f64 {
    if cost <= bound { 0.0 } else { 100.0 * (cost / bound - 1.0) }
}

pub fn yes(is: bool) -> &'static str {
    if is { "yes" } else { "no" }
}

fn path(folder: &Path, number: usize) -> std::path::PathBuf {
    folder.join(format!("pmed{number}.txt"))
}

/// Reads `n m p` and m edges `i j cost`, from 1, both ways. The last of a repeated edge counts.
pub fn read(folder: &Path, number: usize) -> Result<File, Fault> {
    let path = path(folder, number);
    let fault = |what: &str| format!("{}: {what}", path.display());
    let text = fs::read_to_string(&path).map_err(|error| fault(&error.to_string()))?;
    let numbers: Result<Vec<u32>, _> = text.split_ascii_whitespace().map(str::parse).collect();
    let numbers = numbers.map_err(|error| fault(&format!("expected whole numbers: {error}")))?;
    let [n, edges, looks, rest @ ..] = numbers.as_slice() else {
        return Err(fault("expected n, m and p"));
    };
    let (n, looks) = (*n as usize, *looks as usize);
    if rest.len() != 3 * *edges as usize || n > 10_000 {
        return Err(fault("expected m edges i j cost, and at most 10,000 vertices"));
    }
    let mut length = vec![u32::MAX; n * n];
    for edge in rest.chunks_exact(3) {
        let at = |end: u32| (end as usize).checked_sub(1).filter(|end| *end < n);
        let (Some(one), Some(other)) = (at(edge[0]), at(edge[1])) else {
            return Err(fault("expected the ends of an edge from 1 to n"));
        };
        length[one * n + other] = edge[2];
        length[other * n + one] = edge[2];
    }
    (0..n).for_each(|vertex| length[vertex * n + vertex] = 0);
    shortest_paths(&mut length, n);
    // Beyond that not every whole number is a single-precision one.
    if length.iter().any(|length| *length > 1 << 24) {
        return Err(fault("expected every vertex to be reached, and no path longer than 2^24"));
    }
    let cost: Vec<f32> = length.into_iter().map(|length| length as f32).collect();
    let problem = Problem::from_matrix(vec![1.0; n], cost.clone(), looks);
    Ok(File { number, problem: problem.map_err(|error| fault(&error.to_string()))?, cost })
}

/// From the lengths of edges to those of paths (R. W. Floyd, "Algorithm 97: Shortest path", *Communications of the ACM*
/// 5, 1962).
fn shortest_paths(length: &mut [u32], n: usize) {
    for by in 0..n {
        let onward = length[by * n..(by + 1) * n].to_vec();
        for from in 0..n {
            let first = length[from * n + by];
            if first == u32::MAX {
                continue;
            }
            for (to, onward) in length[from * n..(from + 1) * n].iter_mut().zip(&onward) {
                *to = (*to).min(first.saturating_add(*onward));
            }
        }
    }
}
