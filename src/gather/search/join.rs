//! Parts joined: how many looks fall to each, so that the whole is best.
//!
//! Every part keeps, for each number of looks, its best choice so far and the bound below it. The cheapest way to share
//! the looks out is found over the costs, which gives a choice, and over the bounds, which gives a bound: while the two
//! differ, the number of looks that the second way rests on most doubtfully is searched further. So only those numbers
//! are searched that the answer hangs on.

use std::ops::RangeInclusive;

use super::arrange::{Arranged, arrange, arrange_parts, clash};
use super::control::{Control, is_proved};
use super::dual::{Climb, Dual};
use super::local::{Candidate, fill, polish};
use super::part::Part;
use super::rules::Rules;
use super::tree::{Outcome, search};
use crate::gather::choice::{Choice, Unsolved};
use crate::gather::limits::Limits;
use crate::gather::problem::Problem;

/// The bound climb for each number of looks, before any is searched.
const SKETCH: Climb = Climb { steps: 120, patience: 15, stride: 1.0 };

/// Chooses the bases of at most so many looks, so that all outfits are as near to their looks' bases as can be.
///
/// # Errors
/// [`Unsolved::Clash`] names wishes that cannot all hold. [`Unsolved::Ended`] when the limits ended the search before
/// it had any choice.
pub fn solve(problem: &Problem, limits: &Limits) -> Result<Choice, Unsolved> {
    let control = Control::new(limits);
    let mut join = Join::new(problem, problem.looks(), &control)?;
    join.finish(problem.looks());
    join.choice(problem, problem.looks())
}

/// Chooses for every number of looks from 1 to `most` in turn, each from the one before. `None` where the wishes ask
/// for more looks than that.
///
/// # Errors
/// As [`solve`], when no number up to `most` can be had.
pub fn curve(problem: &Problem, most: usize, limits: &Limits) -> Result<Vec<Option<Choice>>, Unsolved> {
    let control = Control::new(limits);
    let problem = problem.clone().with_looks(most);
    let mut join = Join::new(&problem, 1, &control)?;
    let mut all = Vec::with_capacity(most);
    for looks in 1..=most {
        if looks < join.fewest() {
            all.push(None);
            continue;
        }
        join.finish(looks);
        all.push(Some(join.choice(&problem, looks)?));
    }
    Ok(all)
}

/// All parts of a problem.
struct Join<'a> {
    control: &'a Control<'a>,
    parts: Vec<Entries>,
}

/// One part, with what is known of it for each number of looks.
struct Entries {
    part: Part,
    /// The fewest looks that are asked about.
    fewest: usize,
    /// For each number of looks from the fewest.
    known: Vec<Known>,
}

/// What is known of a part for one number of looks.
struct Known {
    best: Candidate,
    bound: f64,
    root_bound: f64,
    is_done: bool,
}

impl<'a> Join<'a> {
    /// The parts of a problem, made ready for every number of looks from `first` to the problem's.
    fn new(problem: &Problem, first: usize, control: &'a Control<'a>) -> Result<Self, Unsolved> {
        let wishes: Vec<_> = problem.wishes().iter().collect();
        let starts = arrange_parts(problem, &wishes).map_err(|none| match none {
            Arranged::Impossible => Unsolved::Clash { wishes: clash(problem), looks: problem.looks() },
            Arranged::Unknown | Arranged::Found(_) => Unsolved::Ended,
        })?;
        let spare = problem.looks() - starts.iter().map(|(_, start)| start.len()).sum::<usize>();
        let most = |(rules, start): &(Rules, Vec<u32>)| {
            (start.len() + spare).min(rules.most).min(rules.outfits.len()).max(start.len())
        };
        let all: usize = starts.iter().map(most).sum();
        let mut join = Self { control, parts: Vec::new() };
        for part in starts {
            // What the others cannot use falls to this one: another look never costs more.
            let most = most(&part);
            let least = first.saturating_sub(all - most).clamp(part.1.len(), most);
            join.parts.push(Entries::sketch(problem, part, least..=most, control)?);
        }
        Ok(join)
    }

    /// The fewest looks that are asked about in all.
    fn fewest(&self) -> usize {
        self.parts.iter().map(|part| part.fewest).sum()
    }

    /// The cheapest way to share out `looks` by what `price` says of each part's numbers: the place in `known` of each.
    fn share(&self, looks: usize, price: impl Fn(&Known) -> f64) -> Vec<usize> {
        let spare = looks - self.fewest();
        let mut least = vec![0.0; spare + 1];
        let mut ways: Vec<Vec<usize>> = Vec::new();
        for part in &self.parts {
            let mut next = vec![f64::INFINITY; spare + 1];
            let mut way = vec![0; spare + 1];
            for (total, (next, way)) in next.iter_mut().zip(&mut way).enumerate() {
                for (at, known) in part.known.iter().enumerate().take(total + 1) {
                    let cost = least[total - at] + price(known);
                    // Of equals the one with more looks: none is to be left over.
                    if cost <= *next {
                        (*next, *way) = (cost, at);
                    }
                }
            }
            least = next;
            ways.push(way);
        }
        let mut left = spare;
        let mut shares = vec![0; self.parts.len()];
        for (share, way) in shares.iter_mut().zip(&ways).rev() {
            *share = way[left];
            left -= *share;
        }
        shares
    }

    fn sum(&self, shares: &[usize], price: impl Fn(&Known) -> f64) -> f64 {
        self.parts.iter().zip(shares).map(|(part, &at)| price(&part.known[at])).sum()
    }

    /// Searches until the choice for `looks` is proved best, or sure enough, or the search must end.
    fn finish(&mut self, looks: usize) {
        while !self.control.is_over() {
            let lower = self.share(looks, |known| known.bound);
            let upper = self.share(looks, |known| known.best.cost);
            let (cost, bound) =
                (self.sum(&upper, |known| known.best.cost), self.sum(&lower, |known| known.bound));
            self.control.tell(cost, bound);
            if self.control.is_enough(cost, bound) {
                return;
            }
            let doubt = |(part, &at): (usize, &usize)| {
                let known = &self.parts[part].known[at];
                (!known.is_done).then_some((part, at, known.best.cost - known.bound))
            };
            let doubtful = lower.iter().enumerate().filter_map(doubt);
            let Some((part, at, _)) = doubtful.max_by(|a, b| a.2.total_cmp(&b.2)) else { return };
            let other_cost = cost - self.parts[part].known[upper[part]].best.cost;
            let other_bound = bound - self.parts[part].known[at].bound;
            let told = |cost: f64, bound: f64| self.control.tell(other_cost + cost, other_bound + bound);
            let outcome = self.parts[part].search(at, self.control, &told);
            self.parts[part].learn(at, outcome, self.control.is_over());
        }
    }

    fn choice(&self, problem: &Problem, looks: usize) -> Result<Choice, Unsolved> {
        let lower = self.share(looks, |known| known.bound);
        let upper = self.share(looks, |known| known.best.cost);
        let mut bases = Vec::new();
        let mut base_of = vec![None; problem.outfits()];
        for (entries, &at) in self.parts.iter().zip(&upper) {
            let (part, best) = (&entries.part, &entries.known[at].best);
            bases.extend(best.chosen.iter().map(|&site| part.rules.outfits[site as usize]));
            let served = part.serve(&best.chosen).ok_or(Unsolved::Ended)?;
            for (client, site) in part.rules.clients.iter().zip(served.by) {
                let base = site.map(|site| part.rules.outfits[site as usize]);
                client.iter().for_each(|&member| base_of[part.rules.outfits[member as usize]] = base);
            }
        }
        bases.sort_unstable();
        let cost = base_of.iter().enumerate().map(|(outfit, base)| match base {
            Some(base) => problem.cost(outfit, *base),
            None => problem.alone(outfit),
        });
        let cost: f64 = cost.sum();
        let bound = self.sum(&lower, |known| known.bound);
        let proven = is_proved(cost, bound);
        Ok(Choice {
            bases,
            base_of,
            cost,
            bound: if proven { cost } else { bound.min(cost) },
            root_bound: self
                .sum(&self.share(looks, |known| known.root_bound), |known| known.root_bound)
                .min(cost),
            proven,
            steps: self.control.steps(),
        })
    }
}

impl Entries {
    /// A choice and a bound for every one of `numbers` of looks, both quickly found.
    fn sketch(
        problem: &Problem,
        (rules, start): (Rules, Vec<u32>),
        numbers: RangeInclusive<usize>,
        control: &Control<'_>,
    ) -> Result<Self, Unsolved> {
        let part = Part::new(problem, rules, control).ok_or(Unsolved::Ended)?;
        let (fewest, is_only) = (*numbers.start(), numbers.start() == numbers.end());
        let mut known: Vec<Known> = Vec::new();
        let mut chosen = start;
        let mut prices = None;
        for looks in numbers {
            if let Some(last) = known.last().filter(|_| control.is_over()) {
                // What there is for fewer looks will do for more.
                let best = last.best.clone();
                known.push(Known { best, bound: 0.0, root_bound: 0.0, is_done: false });
                continue;
            }
            let begin =
                if chosen.is_empty() { lit(&part.rules, looks).unwrap_or_default() } else { chosen.clone() };
            let full = fill(&part, looks, begin, control);
            let best =
                polish(&part, looks, full, control).or_else(|| Candidate::of(&part, looks, chosen.clone()));
            let mut best = best.ok_or(Unsolved::Ended)?;
            if let Some(before) = known.last().filter(|before| before.best.cost < best.cost) {
                best = before.best.clone();
            }
            chosen.clone_from(&best.chosen);
            let mut bound = if looks == 0 { best.cost } else { 0.0 };
            if !is_only && looks > 0 {
                let mut state = part.rules.asked.clone();
                // Ended here, the choice stands, and nothing is known of how good it is.
                if let Some(dual) = Dual::new(&part, looks, &state, control) {
                    let first = prices.take().unwrap_or_else(|| dual.first_prices(&best.chosen));
                    let summit = dual.climb(first, &mut state, SKETCH, control, &mut |_, _| best.cost);
                    bound = summit.bound.clamp(0.0, best.cost);
                    prices = Some(summit.prices);
                }
            }
            let is_done = is_proved(best.cost, bound);
            known.push(Known { best, bound, root_bound: bound, is_done });
        }
        Ok(Self { part, fewest, known })
    }

    fn search(&self, at: usize, control: &Control<'_>, told: &dyn Fn(f64, f64)) -> Outcome {
        search(&self.part, self.fewest + at, self.known[at].best.clone(), control, told)
    }

    fn learn(&mut self, at: usize, outcome: Outcome, was_ended: bool) {
        let known = &mut self.known[at];
        known.bound = known.bound.max(outcome.bound);
        known.root_bound = known.root_bound.max(outcome.root_bound);
        if outcome.best.cost < known.best.cost {
            known.best = outcome.best;
        }
        known.is_done = !was_ended;
    }
}

/// Bases that give every kind of a part a look, where the wishes allow that with so many looks.
fn lit(rules: &Rules, looks: usize) -> Option<Vec<u32>> {
    if !rules.may_go_without || looks == 0 {
        return None;
    }
    let mut lit = rules.clone();
    lit.may_go_without = false;
    match arrange(&lit, looks) {
        Arranged::Found(chosen) => Some(chosen),
        Arranged::Impossible | Arranged::Unknown => None,
    }
}
