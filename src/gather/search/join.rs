//! Parts joined: how many looks fall to each, so that the whole is best.
//!
//! Every part keeps, for each number of looks, its best choice so far and the bound below it: roughly at first, from one
//! greedy choice for all numbers. The cheapest way to share the looks out is found over the costs, which gives a choice,
//! and over the bounds, which gives a bound. While the two differ, the number of looks that the second way rests on most
//! doubtfully is looked into: sketched first, then searched. So only those numbers are searched that the answer hangs on.

use std::ops::RangeInclusive;

use super::arrange::{Arranged, Effort, arrange, begin, clash};
use super::control::Control;
use super::dual::{Climb, Dual};
use super::local::{Candidate, fill, polish, trail};
use super::part::Part;
use super::rules::Rules;
use super::tree::{Outcome, search};
use crate::gather::choice::{Choice, Unsolved};
use crate::gather::limits::Limits;
use crate::gather::problem::Problem;

/// The bound climb for a number of looks before it is searched.
const SKETCH: Climb = Climb { steps: 120, patience: 15, stride: 1.0 };

/// Chooses the bases of at most so many looks, so that all outfits are as near to their looks' bases as can be.
///
/// # Errors
/// [`Unsolved::Clash`] names wishes that cannot all hold. [`Unsolved::Ended`] when the limits ended the search before
/// it had any choice.
pub fn solve(problem: &Problem, limits: &Limits) -> Result<Choice, Unsolved> {
    let control = Control::new(problem, limits);
    let mut join = Join::new(problem, problem.looks(), &control)?;
    join.finish(problem.looks());
    join.choice(problem, problem.looks())
}

/// Chooses for every number of looks from 1 to `most`, or to as many as there are outfits, each from the one before. `None` where the wishes ask
/// for more looks than that.
///
/// # Errors
/// As [`solve`], when no number up to `most` can be had.
pub fn curve(problem: &Problem, most: usize, limits: &Limits) -> Result<Vec<Option<Choice>>, Unsolved> {
    let control = Control::new(problem, limits);
    let most = most.min(problem.outfits());
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
    depth: Depth,
}

/// How far a number of looks has been looked into.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Depth {
    /// It has a greedy choice, and whatever bound others gave it.
    Rough,
    /// Its choice is improved by swaps, and it has a bound of its own.
    Sketched,
    /// Nothing more will be found.
    Searched,
}

impl<'a> Join<'a> {
    /// The parts of a problem, made ready for every number of looks from `first` to the problem's.
    fn new(problem: &Problem, first: usize, control: &'a Control<'a>) -> Result<Self, Unsolved> {
        let undecided = || if control.is_over() { Unsolved::Ended } else { Unsolved::Undecided };
        let starts = begin(problem, control).map_err(|none| match none {
            Arranged::Impossible => match clash(problem, control) {
                (wishes, _) if wishes.is_empty() => Unsolved::NoLooks,
                (wishes, every) => Unsolved::Clash { wishes, looks: problem.looks(), every },
            },
            Arranged::Unknown | Arranged::Found(_) => undecided(),
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
            join.parts.push(Entries::rough(problem, part, least..=most, control)?);
        }
        Ok(join)
    }

    /// The fewest looks that are asked about in all.
    fn fewest(&self) -> usize {
        self.parts.iter().map(|part| part.fewest).sum()
    }

    /// The cheapest way to share out `looks` by what `price` says of each part's numbers: the place in `known` of each.
    fn share(&self, looks: usize, price: impl Fn(&Known) -> f64) -> Vec<usize> {
        self.share_by(looks, |_, _, known| price(known))
    }

    /// The same, by what `price` says of each number of each part, by their places.
    fn share_by(&self, looks: usize, price: impl Fn(usize, usize, &Known) -> f64) -> Vec<usize> {
        // More looks than there can be bases help nobody.
        let most: usize = self.parts.iter().map(|part| part.known.len() - 1).sum();
        let spare = (looks - self.fewest()).min(most);
        let mut least = vec![0.0; spare + 1];
        let mut ways: Vec<Vec<usize>> = Vec::new();
        for (number, part) in self.parts.iter().enumerate() {
            // The last part takes what is left of all; what it would take of fewer is not asked.
            let first = if number + 1 == self.parts.len() { spare } else { 0 };
            let mut next = vec![f64::INFINITY; spare + 1];
            let mut way = vec![0; spare + 1];
            for total in first..=spare {
                for (at, known) in part.known.iter().enumerate().take(total + 1) {
                    let cost = least[total - at] + price(number, at, known);
                    // Of equals the one with more looks: none is to be left over.
                    if cost <= next[total] {
                        (next[total], way[total]) = (cost, at);
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
        for (part, at) in self.share(looks, |known| known.best.cost).into_iter().enumerate() {
            if self.parts[part].known[at].depth == Depth::Rough && !self.control.is_over() {
                self.parts[part].sketch(at, self.control);
            }
        }
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
                (known.depth < Depth::Searched).then_some((
                    known.depth,
                    part,
                    at,
                    known.best.cost - known.bound,
                ))
            };
            // The shallowest first, for little work may show that the answer hangs on other numbers.
            let order = |a: &(Depth, usize, usize, f64), b: &(Depth, usize, usize, f64)| {
                b.0.cmp(&a.0).then(a.3.total_cmp(&b.3))
            };
            let doubtful = lower.iter().enumerate().filter_map(doubt);
            let Some((depth, part, at, _)) = doubtful.max_by(order) else { return };
            if depth == Depth::Rough {
                self.parts[part].sketch(at, self.control);
                continue;
            }
            let told = |cost: f64, bound: f64| self.tell(looks, (part, at), cost, bound);
            let entries = &self.parts[part];
            let start = entries.known[at].best.clone();
            let outcome = search(&entries.part, entries.fewest + at, start, self.control, &told);
            self.parts[part].learn(at, outcome, self.control);
        }
    }

    /// Tells what the whole comes to when one number of looks of one part costs so much now, and no less than `bound`.
    fn tell(&self, looks: usize, one: (usize, usize), cost: f64, bound: f64) {
        let cost_of = |part: usize, at: usize, known: &Known| {
            if (part, at) == one { known.best.cost.min(cost) } else { known.best.cost }
        };
        let bound_of = |part: usize, at: usize, known: &Known| {
            if (part, at) == one { known.bound.max(bound.min(cost)) } else { known.bound }
        };
        let sum = |price: &dyn Fn(usize, usize, &Known) -> f64| -> f64 {
            let shares = self.share_by(looks, price);
            let parts = self.parts.iter().enumerate().zip(shares);
            parts.map(|((part, entries), at)| price(part, at, &entries.known[at])).sum()
        };
        self.control.tell(sum(&cost_of), sum(&bound_of));
    }

    fn choice(&self, problem: &Problem, looks: usize) -> Result<Choice, Unsolved> {
        let lower = self.share(looks, |known| known.bound);
        let upper = self.share(looks, |known| known.best.cost);
        let mut bases = Vec::new();
        let mut base_of = vec![None; problem.outfits()];
        for (entries, &at) in self.parts.iter().zip(&upper) {
            let (part, best) = (&entries.part, &entries.known[at].best);
            bases.extend(best.chosen.iter().map(|&site| part.rules.outfits[site as usize]));
            let served = part.serve(&best.chosen).map_err(|_| Unsolved::Undecided)?;
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
        let unit = self.control.unit();
        let bound = unit * self.sum(&lower, |known| known.bound);
        let proven = self.control.is_proved(cost / unit, bound / unit);
        let by_root = self.share(looks, |known| known.root_bound);
        Ok(Choice {
            bases,
            base_of,
            cost,
            bound: if proven { cost } else { bound.min(cost) },
            root_bound: (unit * self.sum(&by_root, |known| known.root_bound)).min(cost),
            proven,
            steps: self.control.steps(),
        })
    }
}

impl Entries {
    /// A choice for every one of `numbers` of looks: one greedy choice, as far as it goes.
    fn rough(
        problem: &Problem,
        (rules, start): (Rules, Vec<u32>),
        numbers: RangeInclusive<usize>,
        control: &Control<'_>,
    ) -> Result<Self, Unsolved> {
        let part = Part::new(problem, rules, control).ok_or(Unsolved::Ended)?;
        let (fewest, most) = (*numbers.start(), *numbers.end());
        let first = Candidate::of(&part, fewest, start).map_err(|_| Unsolved::Undecided)?;
        let mut greedy =
            trail(&part, fill(&part, most, first.chosen.clone(), control)).into_iter().peekable();
        let mut known: Vec<Known> = Vec::new();
        let mut best = first;
        for looks in numbers {
            while let Some(more) = greedy.next_if(|more| more.chosen.len() <= looks) {
                if more.cost < best.cost || more.chosen.len() == looks && more.cost == best.cost {
                    best = more;
                }
            }
            let bound = if looks == 0 { best.cost } else { 0.0 };
            let depth = if looks == 0 { Depth::Searched } else { Depth::Rough };
            known.push(Known { best: best.clone(), bound, root_bound: bound, depth });
        }
        Ok(Self { part, fewest, known })
    }

    /// Improves the choice for one number of looks by swaps, and finds a bound for all numbers.
    fn sketch(&mut self, at: usize, control: &Control<'_>) {
        let (part, looks) = (&self.part, self.fewest + at);
        self.known[at].depth = Depth::Sketched;
        let mut chosen = self.known[at].best.chosen.clone();
        if chosen.is_empty() {
            chosen = lit(&part.rules, looks, control).unwrap_or_default();
        }
        let full = fill(part, looks, chosen, control);
        if let Some(best) = polish(part, looks, full, control) {
            self.offer(at, best);
        }
        if self.known.len() == 1 {
            // It will be searched in any case.
            return;
        }
        let mut state = self.part.rules.asked.clone();
        // Ended here, the choice stands, and nothing is known of how good it is.
        let Some(dual) = Dual::new(&self.part, looks, &state, control) else { return };
        let best = &self.known[at].best;
        let summit =
            dual.climb(dual.first_prices(&best.chosen), &mut state, SKETCH, control, &mut |_, _| best.cost);
        let bounds = dual.bounds(&summit.prices, self.fewest..self.fewest + self.known.len());
        for (known, bound) in self.known.iter_mut().zip(bounds) {
            known.rise(bound, bound, control);
        }
        self.known[at].rise(summit.bound, summit.bound, control);
    }

    /// Takes up what the search of one number of looks came to.
    fn learn(&mut self, at: usize, outcome: Outcome, control: &Control<'_>) {
        self.offer(at, outcome.best);
        // Fewer looks never cost less.
        for known in &mut self.known[..=at] {
            known.rise(outcome.bound, outcome.root_bound, control);
        }
        if !control.is_over() {
            self.known[at].depth = Depth::Searched;
        }
    }

    /// Takes up a choice for one number of looks, for that and for all higher ones.
    fn offer(&mut self, at: usize, best: Candidate) {
        for known in &mut self.known[at..] {
            if best.cost >= known.best.cost {
                break;
            }
            known.best = best.clone();
        }
    }
}

impl Known {
    /// Takes up a bound that holds.
    fn rise(&mut self, bound: f64, root_bound: f64, control: &Control<'_>) {
        self.bound = self.bound.max(bound.min(self.best.cost));
        self.root_bound = self.root_bound.max(root_bound.min(self.best.cost));
        if control.is_proved(self.best.cost, self.bound) {
            self.depth = Depth::Searched;
        }
    }
}

/// Bases that give every kind of a part a look, where the wishes allow that with so many looks.
fn lit(rules: &Rules, looks: usize, control: &Control<'_>) -> Option<Vec<u32>> {
    if !rules.may_go_without || looks == 0 {
        return None;
    }
    let mut lit = rules.clone();
    lit.may_go_without = false;
    match arrange(&lit, looks, Effort::FULL, control) {
        Arranged::Found(chosen) => Some(chosen),
        Arranged::Impossible | Arranged::Unknown => None,
    }
}
