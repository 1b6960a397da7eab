//! Boards of a designer's size: how near the suggestion comes, in what time and memory, and how soon it can be stopped.

use std::collections::BTreeSet;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, OnceLock};
use std::time::{Duration, Instant};

use shirr::board::{Board, Outfit};
use shirr::gather::{Choice, Group, Limits, Problem, Unsolved, Wardrobe, Wish, solve};

use super::orlib::{percent, yes};
use super::wardrobe::{Dice, PERIODS, board_of, question, said};
use super::{Fault, threads};

/// So that what will not be proved does not hold up the rest.
const SAFETY: Duration = Duration::from_secs(10);
/// When to cancel, in milliseconds from the beginning.
const MOMENTS: [u64; 12] = [1, 3, 10, 30, 100, 200, 400, 800, 1500, 2500, 3500, 5000];

/// Whether every answer can be right.
pub fn run() -> Result<bool, Fault> {
    let threads = threads().map_or(1, usize::from);
    println!("Synthetic boards, {threads} threads, at most {} s each", SAFETY.as_secs());
    let mut all_kept = true;
    for characters in [1, 4] {
        println!(
            "\n300 outfits, {}, with a dozen wishes, each against what would be chosen (reach: 0.1 % in about 1 s)",
            of(characters)
        );
        println!("seed  looks      cost     bound   gap %  0.1 % after  proven  wishes kept    steps      s");
        for seed in 1..=3 {
            for looks in [20, 60] {
                all_kept &= wishes(characters, seed, looks)?;
            }
        }
    }
    for characters in [1, 4] {
        many(characters)?;
    }
    match peak_memory() {
        Some(peak) => println!("\nmemory of the whole process: at most {peak}"),
        None => println!("\nmemory: not told by this system"),
    }
    Ok(all_kept)
}

fn of(characters: usize) -> &'static str {
    if characters == 1 { "of one character" } else { "of four characters" }
}

/// What a search came to, in what time, and when it was known to be so near.
struct Measured {
    choice: Choice,
    time: Duration,
    near: Option<Duration>,
}

/// Solves until it is proved best or [`SAFETY`] has passed; `near` in per cent.
fn measured(problem: &Problem, near: f64) -> Result<Measured, Unsolved> {
    let start = Instant::now();
    let first = Arc::new(OnceLock::new());
    let told = Arc::clone(&first);
    let limits = Limits {
        time: Some(SAFETY),
        threads: threads(),
        progress: Some(Arc::new(move |progress| {
            if percent(progress.cost, progress.bound) <= near {
                told.get_or_init(|| start.elapsed());
            }
        })),
        ..Limits::default()
    };
    let choice = solve(problem, &limits)?;
    let time = start.elapsed();
    let near = first.get().copied().or((100.0 * choice.gap() <= near).then_some(time));
    Ok(Measured { choice, time, near })
}

fn seconds(time: Option<Duration>) -> String {
    time.map_or("not".to_owned(), |time| format!("{:.2} s", time.as_secs_f64()))
}

/// Prints how one board with wishes is solved. Whether the wishes are kept.
fn wishes(characters: usize, seed: u64, looks: usize) -> Result<bool, Fault> {
    let board = board_of(characters, seed, 300, looks)?;
    let wardrobe = question(&board)?;
    let limits = Limits { time: Some(SAFETY), gap: 0.001, threads: threads(), ..Limits::default() };
    let unasked = solve(wardrobe.problem(), &limits).map_err(said)?;
    let wishes = against(&unasked, &board, &wardrobe, seed)?;
    let problem = wardrobe.problem().clone().wishing(wishes).map_err(said)?;
    let Measured { choice, time, near } = match measured(&problem, 0.1) {
        Ok(measured) => measured,
        Err(error) => {
            println!("{seed:4} {looks:6}  NO ANSWER: {error}");
            return Ok(false);
        }
    };
    // Wishes can only cost.
    let kept = keeps(&choice, &problem) && choice.cost >= unasked.bound * (1.0 - 1e-9);
    println!(
        "{seed:4} {looks:6} {:9.4} {:9.4} {:7.3}  {:>11}  {:6}  {:11} {:8} {:6.2}",
        choice.cost,
        choice.bound,
        100.0 * choice.gap(),
        seconds(near),
        yes(choice.proven),
        yes(kept),
        choice.steps,
        time.as_secs_f64(),
    );
    Ok(kept)
}

/// A dozen wishes, every one against this choice; no outfit in two of those that name outfits.
fn against(choice: &Choice, board: &Board, wardrobe: &Wardrobe, seed: u64) -> Result<Vec<Wish>, Fault> {
    let n = wardrobe.outfits().len();
    let mut dice = Dice(seed ^ 0x7769_7368);
    let mut named = BTreeSet::new();
    let mut pick = |fits: &dyn Fn(usize) -> bool| {
        let free: Vec<usize> = (0..n).filter(|outfit| !named.contains(outfit) && fits(*outfit)).collect();
        if free.is_empty() {
            return Err("no outfit is left to wish about".to_owned());
        }
        let one = dice.of(&free);
        named.insert(one);
        Ok(one)
    };
    let is_base = |outfit: usize| choice.bases.binary_search(&outfit).is_ok();
    let shares = |one: usize, other: usize| choice.base_of[one] == choice.base_of[other];
    let character = |at: usize| board.outfit(&wardrobe.outfits()[at]).map(|outfit| &outfit.character);
    let is_of_one = |one: usize, other: usize| character(one) == character(other);
    // A look of a few, so that there are two to part.
    let has_company = |one: usize| (0..n).filter(|other| shares(one, *other)).count() > 6;
    let mut wishes = Vec::new();
    for _ in 0..3 {
        wishes.push(Wish::Base(pick(&|outfit| !is_base(outfit))?));
    }
    for _ in 0..2 {
        wishes.push(Wish::NotBase(pick(&is_base)?));
    }
    for _ in 0..2 {
        let one = pick(&|outfit| !is_base(outfit) && has_company(outfit))?;
        wishes.push(Wish::Apart(one, pick(&|outfit| !is_base(outfit) && shares(one, outfit))?));
    }
    for _ in 0..2 {
        let one = pick(&|outfit| !is_base(outfit))?;
        let fits = |outfit| !is_base(outfit) && !shares(one, outfit) && is_of_one(one, outfit);
        wishes.push(Wish::Together(one, pick(&fits)?));
    }
    let group = |name: &str, belongs: &dyn Fn(&Outfit) -> bool| {
        let places = wardrobe.outfits().iter().enumerate();
        let members = places.filter(|(_, id)| board.outfit(id).is_some_and(belongs)).map(|(at, _)| at);
        Group::new(name, members)
    };
    let in_period = |number: usize| {
        let members = wardrobe.outfits().iter().enumerate().filter(|(_, id)| {
            let period = board.relations().period_of_outfit(id);
            period.is_some_and(|period| period.as_str() == format!("period-{number}"))
        });
        Group::new(format!("period {number}"), members.map(|(at, _)| at))
    };
    let chosen = |group: &Group| group.members.iter().filter(|outfit| is_base(**outfit)).count();
    // The periods with the most and with the fewest bases. The thread runs through both: the groups overlap.
    let mut periods: Vec<Group> = (0..PERIODS).map(in_period).collect();
    periods.sort_by_key(chosen);
    let fewer = periods.pop().ok_or("no periods")?;
    let more = periods.swap_remove(0);
    let thread = group("the thread", &|outfit| !outfit.threads.is_empty());
    let counts = (chosen(&fewer), chosen(&more), chosen(&thread));
    let least = counts.0.checked_sub(1).ok_or("no base in a period to have one less of")?;
    wishes.push(Wish::AtMost(fewer, least));
    wishes.push(Wish::AtLeast(more, counts.1 + 1));
    wishes.push(Wish::AtLeast(thread, counts.2 + 2));
    Ok(wishes)
}

/// Whether a choice keeps the wishes of its problem, and costs what it says.
fn keeps(choice: &Choice, problem: &Problem) -> bool {
    let is_base = |outfit: usize| choice.bases.binary_search(&outfit).is_ok();
    let among = |group: &Group| group.members.iter().filter(|outfit| is_base(**outfit)).count();
    let holds = |wish: &Wish| match wish {
        Wish::Base(one) => is_base(*one),
        Wish::NotBase(one) => !is_base(*one),
        Wish::Apart(one, other) => {
            choice.base_of[*one].is_none() || choice.base_of[*one] != choice.base_of[*other]
        }
        Wish::Together(one, other) => choice.base_of[*one] == choice.base_of[*other],
        Wish::AtMost(group, most) => among(group) <= *most,
        Wish::AtLeast(group, least) => among(group) >= *least,
    };
    let cost = |(outfit, base): (usize, &Option<usize>)| match base {
        Some(base) if is_base(*base) => problem.cost(outfit, *base),
        Some(_) => f64::INFINITY,
        None => problem.alone(outfit),
    };
    let cost: f64 = choice.base_of.iter().enumerate().map(cost).sum();
    problem.wishes().iter().all(holds)
        && choice.bases.len() <= problem.looks()
        && (cost - choice.cost).abs() <= 1e-9 * cost
}

/// Prints what 3,000 outfits take.
fn many(characters: usize) -> Result<(), Fault> {
    let board = board_of(characters, 4, 3000, 60)?;
    let start = Instant::now();
    let wardrobe = question(&board)?;
    let comparing = start.elapsed().as_secs_f64();
    let problem = wardrobe.problem();
    println!("\n3,000 outfits {}, 60 looks (reach: 1 % in 10 s, 200 MB, 50 ms)", of(characters));
    println!("compared in {comparing:.1} s, with {} different colours", colours(&board));
    let Measured { choice, time, near } = measured(problem, 1.0).map_err(said)?;
    println!(
        "after {:.1} s: cost {:.4}, bound {:.4}, gap {:.3} %, proven: {}; below 1 %: {}",
        time.as_secs_f64(),
        choice.cost,
        choice.bound,
        100.0 * choice.gap(),
        yes(choice.proven),
        near.map_or("not by then".to_owned(), |near| format!("after {:.1} s", near.as_secs_f64())),
    );
    cancelling(problem)
}

/// How many there are: beyond some thousands, comparing is slower.
fn colours(board: &Board) -> usize {
    let pieces = board.records().outfits.values().flat_map(|outfit| &outfit.pieces);
    pieces.flat_map(|piece| &piece.colours).map(|colour| colour.rgb()).collect::<BTreeSet<_>>().len()
}

/// The most memory that the process has held, where the system tells it.
fn peak_memory() -> Option<String> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    status.lines().find_map(|line| line.strip_prefix("VmHWM:")).map(|peak| peak.trim().to_owned())
}

/// Prints how long the search goes on once the flag is raised.
fn cancelling(problem: &Problem) -> Result<(), Fault> {
    let mut latencies = Vec::new();
    for moment in MOMENTS {
        let flag = Arc::new(AtomicBool::new(false));
        let limits = Limits { cancel: Some(Arc::clone(&flag)), threads: threads(), ..Limits::default() };
        let (answer, returned, raised) = std::thread::scope(|scope| {
            let raiser = scope.spawn(|| {
                std::thread::sleep(Duration::from_millis(moment));
                let raised = Instant::now();
                flag.store(true, Ordering::Relaxed);
                raised
            });
            let answer = solve(problem, &limits);
            (answer, Instant::now(), raiser.join())
        });
        match answer {
            Ok(_) | Err(Unsolved::Ended) => {}
            Err(clash) => return Err(clash.to_string()),
        }
        let raised = raised.map_err(|_| "the thread that cancels panicked")?;
        // Where the search was done before, there was nothing to cancel.
        if let Some(latency) = returned.checked_duration_since(raised) {
            latencies.push((latency, moment));
        }
    }
    match latencies.iter().max() {
        Some((latency, moment)) => println!(
            "cancelled at {} moments: at worst it went on for {:.1} ms, cancelled after {moment} ms",
            latencies.len(),
            1000.0 * latency.as_secs_f64()
        ),
        None => println!("done before it could be cancelled"),
    }
    Ok(())
}
