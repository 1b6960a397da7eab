//! Boards of a designer's size: how near the suggestion comes, in what time and memory, and how soon it can be stopped.

use std::collections::BTreeSet;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, OnceLock};
use std::time::{Duration, Instant};

use shirr::gather::{Choice, Group, Limits, Problem, Unsolved, Wish, solve};

use super::orlib::{percent, yes};
use super::wardrobe::{Dice, Outfit, problem, wardrobe};
use super::{Fault, threads};

/// So that what will not be proved does not hold up the rest.
const SAFETY: Duration = Duration::from_secs(10);
/// When to cancel, in milliseconds from the beginning.
const MOMENTS: [u64; 12] = [1, 3, 10, 30, 100, 200, 400, 800, 1500, 2500, 3500, 5000];

/// Whether every answer can be right.
pub fn run() -> Result<bool, Fault> {
    let threads = threads().map_or(1, usize::from);
    println!(
        "300 outfits of four characters with a dozen wishes against what would be chosen, {threads} threads"
    );
    println!(
        "seed  looks      cost     bound   gap %  proven  kept    steps      s  (reach: 0.1 % in about 1 s)"
    );
    let mut all_kept = true;
    for seed in 1..=3 {
        for looks in [20, 60] {
            all_kept &= wishes(seed, looks)?;
        }
    }
    for characters in [1, 4] {
        many(characters)?;
    }
    Ok(all_kept)
}

/// Prints how one board with wishes is solved. Whether the wishes are kept.
fn wishes(seed: u64, looks: usize) -> Result<bool, Fault> {
    let outfits = wardrobe(seed, 300, 4);
    let plain = problem(&outfits, looks)?;
    let limits = Limits { time: Some(SAFETY), threads: threads(), ..Limits::default() };
    let unasked = solve(&plain, &limits).map_err(|error| error.to_string())?;
    let wishes = against(&unasked, &outfits, seed);
    let problem = plain.wishing(wishes).map_err(|unfit| unfit.to_string())?;
    let start = Instant::now();
    let answer = solve(&problem, &limits);
    let time = start.elapsed().as_secs_f64();
    let choice = match answer {
        Ok(choice) => choice,
        Err(error) => {
            println!("{seed:4} {looks:6}  NO ANSWER after {time:.2} s: {error}");
            return Ok(false);
        }
    };
    let kept = keeps(&choice, &problem) && choice.cost >= unasked.bound - 1e-9 * unasked.bound;
    println!(
        "{seed:4} {looks:6} {:9.4} {:9.4} {:7.3}  {:6}  {:4} {:8} {time:6.2}",
        choice.cost,
        choice.bound,
        100.0 * choice.gap(),
        yes(choice.proven),
        yes(kept),
        choice.steps,
    );
    Ok(kept)
}

/// A dozen wishes, every one against this choice.
fn against(choice: &Choice, outfits: &[Outfit], seed: u64) -> Vec<Wish> {
    let mut dice = Dice(seed ^ 0x7769_7368);
    let mut named = BTreeSet::new();
    let mut pick = |fits: &dyn Fn(usize) -> bool| loop {
        let outfit = dice.below(outfits.len() as u64) as usize;
        if fits(outfit) && named.insert(outfit) {
            return outfit;
        }
    };
    let is_base = |outfit: usize| choice.bases.binary_search(&outfit).is_ok();
    let plain = |outfit: usize| !is_base(outfit) && choice.base_of[outfit].is_some();
    // A look of a few, so that there are two to part.
    let company =
        |one: usize| (0..outfits.len()).filter(|o| choice.base_of[*o] == choice.base_of[one]).count();
    let mut wishes: Vec<Wish> = (0..3).map(|_| Wish::Base(pick(&|outfit| !is_base(outfit)))).collect();
    wishes.extend((0..2).map(|_| Wish::NotBase(pick(&is_base))));
    for _ in 0..2 {
        let one = pick(&|outfit| plain(outfit) && company(outfit) > 6);
        let other = pick(&|outfit| plain(outfit) && choice.base_of[outfit] == choice.base_of[one]);
        wishes.push(Wish::Apart(one, other));
    }
    for _ in 0..2 {
        let one = pick(&plain);
        let alike = |outfit: usize| outfits[outfit].character == outfits[one].character;
        let other =
            pick(&|outfit| plain(outfit) && alike(outfit) && choice.base_of[outfit] != choice.base_of[one]);
        wishes.push(Wish::Together(one, other));
    }
    let group = |name: &str, belongs: &dyn Fn(usize) -> bool| {
        Group::new(name, (0..outfits.len()).filter(|outfit| belongs(*outfit)))
    };
    let chosen = |group: &Group| group.members.iter().filter(|outfit| is_base(**outfit)).count();
    let period = group("third period", &|outfit| outfits[outfit].period == 2);
    let character = group("second character", &|outfit| outfits[outfit].character == 1);
    // Across characters and periods, so that it overlaps with both.
    let thread = group("a thread", &|outfit| outfit % 5 == 2);
    let (fewer, more, many) = (chosen(&period) - 1, chosen(&character) + 1, chosen(&thread) + 2);
    wishes.extend([Wish::AtMost(period, fewer), Wish::AtLeast(character, more), Wish::AtLeast(thread, many)]);
    wishes
}

/// Whether a choice keeps the wishes of its problem, and costs what it says.
fn keeps(choice: &Choice, problem: &Problem) -> bool {
    let is_base = |outfit: usize| choice.bases.binary_search(&outfit).is_ok();
    let among = |group: &Group| group.members.iter().filter(|outfit| is_base(**outfit)).count();
    let holds = |wish: &Wish| match wish {
        Wish::Base(one) => is_base(*one),
        Wish::NotBase(one) => !is_base(*one),
        Wish::Apart(one, other) => choice.base_of[*one] != choice.base_of[*other],
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
fn many(characters: u64) -> Result<(), Fault> {
    let problem = problem(&wardrobe(4, 3000, characters), 60)?;
    println!("\n3,000 outfits, 60 looks, characters: {characters}");
    let began = Instant::now();
    let near = Arc::new(OnceLock::new());
    let told = Arc::clone(&near);
    let limits = Limits {
        time: Some(SAFETY),
        threads: threads(),
        progress: Some(Arc::new(move |progress| {
            if percent(progress.cost, progress.bound) < 1.0 {
                told.get_or_init(|| began.elapsed());
            }
        })),
        ..Limits::default()
    };
    let choice = solve(&problem, &limits).map_err(|error| error.to_string())?;
    println!(
        "after {:.1} s: cost {:.4}, bound {:.4}, gap {:.3} % (reach: 1 %), proven: {}",
        began.elapsed().as_secs_f64(),
        choice.cost,
        choice.bound,
        100.0 * choice.gap(),
        yes(choice.proven)
    );
    match near.get() {
        Some(near) => println!("within 1 % after {:.1} s", near.as_secs_f64()),
        None => println!("not within 1 % by then"),
    }
    if let Some(peak) = peak_memory() {
        println!("memory, with all before: at most {peak} (reach: 200 MB)");
    }
    cancelling(&problem)
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
            "cancelled at {} moments: at worst it went on for {:.1} ms, cancelled after {moment} ms (reach: 50 ms)",
            latencies.len(),
            1000.0 * latency.as_secs_f64()
        ),
        None => println!("done before it could be cancelled"),
    }
    Ok(())
}
