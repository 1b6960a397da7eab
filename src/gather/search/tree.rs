//! Branch and bound: what the dual leaves open is split at one site, with a base there and without, until nothing is
//! left that could cost less than the best choice.
//!
//! The node with the lowest bound is next, as many at once as there are threads; what they find is taken up in order,
//! so that the same threads always give the same search.

use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::collections::HashSet;

use super::control::Control;
use super::dual::{Climb, Dual, Prices};
use super::knot::Unserved;
use super::local::{Candidate, fill, polish};
use super::part::Part;
use super::rules::Site;

/// How the first climb goes, and those after it.
const FIRST: Climb = Climb { steps: 4000, patience: 60, stride: 1.5 };
const AGAIN: Climb = Climb { steps: 1000, patience: 40, stride: 0.3 };
const BRANCH: Climb = Climb { steps: 120, patience: 12, stride: 0.4 };

/// How many sites times clients are looked at, about, to improve choices of the first climb by swaps.
const POLISHING: usize = 500_000_000;

/// What a search of one part came to.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// The best choice.
    pub best: Candidate,
    /// What no choice can cost less than.
    pub bound: f64,
    /// The same, before branching.
    pub root_bound: f64,
}

/// The search of one part for one number of looks.
struct Tree<'a> {
    part: &'a Part,
    looks: usize,
    control: &'a Control<'a>,
    best: Candidate,
    /// The lowest bound of a node that was given up without being searched to its end.
    given_up: f64,
}

struct Node {
    bound: f64,
    number: u64,
    state: Vec<Site>,
    prices: Prices,
}

impl PartialEq for Node {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Node {}

impl Ord for Node {
    fn cmp(&self, other: &Self) -> Ordering {
        other.bound.total_cmp(&self.bound).then(other.number.cmp(&self.number))
    }
}

impl PartialOrd for Node {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// Searches a part for the best choice of at most so many looks, from a choice to begin with. `told` hears of every
/// improvement.
pub fn search(
    part: &Part,
    looks: usize,
    start: Candidate,
    control: &Control<'_>,
    told: &dyn Fn(f64, f64),
) -> Outcome {
    let mut tree = Tree { part, looks, control, best: start, given_up: f64::INFINITY };
    let mut state = part.rules.asked.clone();
    let Some(mut dual) = Dual::new(part, looks, &state, control) else {
        return Outcome { best: tree.best, bound: 0.0, root_bound: 0.0 };
    };
    let prices = dual.first_prices(&tree.best.chosen);
    let (mut bound, mut prices, mut share, mut closed) =
        tree.first_climb(&dual, prices, &mut state, FIRST, told);
    // With fewer sites to look at the same climb goes faster, and so further.
    let mut left = part.sites();
    while !closed && !control.is_enough(tree.best.cost, bound) && !control.is_over() {
        let alive = state.iter().filter(|state| **state != Site::Out).count();
        if alive * 4 > left * 3 {
            break;
        }
        left = alive;
        let Some(fewer) = Dual::new(part, looks, &state, control) else { break };
        dual = fewer;
        let next = tree.first_climb(&dual, prices, &mut state, AGAIN, told);
        closed = next.3;
        bound = bound.max(next.0);
        (prices, share) = (next.1, next.2);
    }
    if closed {
        bound = tree.best.cost;
    }
    let root_bound = bound;
    if !closed {
        bound = tree.branch(&dual, state, prices, &share, bound, told);
    }
    Outcome { bound: bound.min(tree.best.cost), root_bound: root_bound.min(tree.best.cost), best: tree.best }
}

impl Tree<'_> {
    /// What a bound must reach to leave nothing better.
    fn goal(&self) -> f64 {
        goal(self.part, self.control, self.best.cost)
    }

    /// Climbs from the root, and tries the sites on the way as choices. Gives bound, prices, shares, and whether
    /// nothing is left.
    fn first_climb(
        &mut self,
        dual: &Dual<'_>,
        prices: Prices,
        state: &mut [Site],
        climb: Climb,
        told: &dyn Fn(f64, f64),
    ) -> (f64, Prices, Vec<f32>, bool) {
        let (part, looks, control) = (self.part, self.looks, self.control);
        let mut seen = HashSet::new();
        let mut polishes = (POLISHING / (part.sites() * part.clients()).max(1)).clamp(12, 400);
        let best = &mut self.best;
        let mut told_gap = f64::INFINITY;
        let mut target = |bound: f64, chosen: &[u32]| {
            let mut chosen = chosen.to_vec();
            chosen.sort_unstable();
            // The first sites that come up are far from good, and soon passed.
            let is_ripe = bound > 0.97 * best.cost && polishes > 0;
            if is_ripe && !chosen.is_empty() && seen.insert(chosen.clone()) {
                polishes -= 1;
                let full =
                    if part.allows(&chosen, looks) { fill(part, looks, chosen, control) } else { chosen };
                let found = if part.allows(&full, looks) { polish(part, looks, full, control) } else { None };
                if let Some(found) = found.filter(|found| found.cost < best.cost) {
                    *best = found;
                    told(best.cost, bound);
                }
            }
            // Whoever listens hears of the bound while it rises, and not of every step.
            if best.cost - bound < 0.5 * told_gap {
                told_gap = best.cost - bound;
                told(best.cost, bound);
            }
            goal(part, control, best.cost)
        };
        let summit = dual.climb(prices, state, climb, control, &mut target);
        told(self.best.cost, summit.bound);
        (summit.bound, summit.prices, summit.share, summit.closed)
    }

    /// Splits until nothing better is left, or the search must end; gives the bound reached.
    fn branch(
        &mut self,
        dual: &Dual<'_>,
        state: Vec<Site>,
        prices: Prices,
        share: &[f32],
        bound: f64,
        told: &dyn Fn(f64, f64),
    ) -> f64 {
        let mut number = 0;
        let mut open = BinaryHeap::new();
        self.split(Node { bound, number, state, prices }, share, &mut open, &mut number);
        let mut bound = bound;
        loop {
            let lowest = open.peek().map_or(f64::INFINITY, |node: &Node| node.bound).min(self.given_up);
            if lowest.min(self.best.cost) > bound {
                bound = lowest.min(self.best.cost);
                told(self.best.cost, bound);
            }
            let done = open.is_empty() || lowest >= self.goal();
            if done || self.control.is_enough(self.best.cost, bound) || self.control.is_over() {
                break;
            }
            let batch: Vec<Node> = (0..self.control.threads()).map_while(|_| open.pop()).collect();
            for (node, share, closed, found) in self.climb_all(dual, batch) {
                if let Some(found) = found.filter(|found| found.cost < self.best.cost) {
                    self.best = found;
                    told(self.best.cost, bound);
                }
                let is_over = self.control.is_over();
                if closed && !is_over {
                    continue;
                }
                if is_over {
                    // Ended in the middle: what the node had proved before still holds.
                    self.given_up = self.given_up.min(node.bound);
                    continue;
                }
                self.split(node, &share, &mut open, &mut number);
            }
        }
        if open.is_empty() && self.given_up.is_infinite() {
            return self.best.cost;
        }
        let lowest = open.peek().map_or(f64::INFINITY, |node| node.bound).min(self.given_up);
        if lowest >= self.goal() { self.best.cost } else { lowest.min(self.best.cost).max(bound) }
    }

    /// Climbs from each of some nodes, each on its own thread.
    fn climb_all(&self, dual: &Dual<'_>, batch: Vec<Node>) -> Vec<(Node, Vec<f32>, bool, Option<Candidate>)> {
        if batch.len() < 2 {
            return batch.into_iter().map(|node| self.climb(dual, node)).collect();
        }
        std::thread::scope(|scope| {
            let threads: Vec<_> =
                batch.into_iter().map(|node| scope.spawn(move || self.climb(dual, node))).collect();
            threads
                .into_iter()
                .map(|thread| thread.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
                .collect()
        })
    }

    fn climb(&self, dual: &Dual<'_>, mut node: Node) -> (Node, Vec<f32>, bool, Option<Candidate>) {
        let (part, looks) = (self.part, self.looks);
        let mut found: Option<Candidate> = None;
        let mut goal_now = self.goal();
        let mut last = Vec::new();
        let mut target = |_: f64, chosen: &[u32]| {
            last.clear();
            last.extend_from_slice(chosen);
            goal_now
        };
        let summit = dual.climb(node.prices, &mut node.state, BRANCH, self.control, &mut target);
        node.prices = summit.prices;
        node.bound = node.bound.max(summit.bound);
        if !summit.closed
            && let Ok(candidate) = Candidate::of(part, looks, last)
            && candidate.cost < self.best.cost
        {
            goal_now = goal(part, self.control, candidate.cost);
            found = polish(part, looks, candidate.chosen.clone(), self.control).or(Some(candidate));
        }
        let closed = summit.closed || node.bound >= goal_now;
        (node, summit.share, closed, found)
    }

    /// Splits a node at the site of which the dual is least sure.
    fn split(&mut self, node: Node, share: &[f32], open: &mut BinaryHeap<Node>, number: &mut u64) {
        let taken = node.state.iter().filter(|state| **state == Site::In).count();
        let unsure = |site: usize| (share[site] - 0.5).abs();
        let free = (0..node.state.len()).filter(|&site| node.state[site] == Site::Free);
        let at =
            if taken >= self.looks { None } else { free.min_by(|&a, &b| unsure(a).total_cmp(&unsure(b))) };
        let Some(at) = at else {
            self.close(&node);
            return;
        };
        for state in [Site::In, Site::Out] {
            *number += 1;
            let mut child = Node {
                bound: node.bound,
                number: *number,
                state: node.state.clone(),
                prices: node.prices.clone(),
            };
            child.state[at] = state;
            open.push(child);
        }
    }

    /// Serves the clients of a node of which every site is decided.
    fn close(&mut self, node: &Node) {
        let chosen =
            (0..).zip(&node.state).filter(|(_, state)| **state == Site::In).map(|(site, _)| site).collect();
        match Candidate::of(self.part, self.looks, chosen) {
            Ok(found) => {
                if !found.exact {
                    self.given_up = self.given_up.min(node.bound);
                }
                if found.cost < self.best.cost {
                    self.best = found;
                }
            }
            Err(Unserved::GaveUp) => self.given_up = self.given_up.min(node.bound),
            Err(Unserved::Impossible) => {}
        }
    }
}

/// What a bound must reach to leave nothing that costs less than `cost`.
fn goal(part: &Part, control: &Control<'_>, cost: f64) -> f64 {
    cost - if part.grain > 0.0 { part.grain * 0.999 } else { control.rounding(cost) }
}
