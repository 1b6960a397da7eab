//! Small random problems of every sort that the search must stand: distances that are no metric, ties, weights of
//! nought, wishes that hold and wishes that clash. An instance is its seed: the same seed makes the same instance.

#![allow(clippy::unwrap_used, reason = "an instance that is no problem is a failed test")]

use std::fmt;

use shirr::gather::{Group, Problem, Wish};

use super::exact::Assignment;

/// A stream of random numbers (SplitMix64: G. L. Steele, D. Lea & C. H. Flood, OOPSLA 2014; constants from memory).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// One of 0, 1 … `below - 1`.
    pub fn below(&mut self, below: usize) -> usize {
        (self.next() % below as u64) as usize
    }

    /// One of `low`, `low + 1` … `high`.
    fn between(&mut self, low: usize, high: usize) -> usize {
        low + self.below(high - low + 1)
    }

    /// At least 0 and below 1.
    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn one_in(&mut self, many: usize) -> bool {
        self.below(many) == 0
    }

    /// Two that differ.
    fn pair(&mut self, below: usize) -> (usize, usize) {
        let one = self.below(below);
        (one, (one + 1 + self.below(below - 1)) % below)
    }
}

/// What a problem is made of, kept beside it so that the check need not ask the problem.
#[derive(Clone, Debug)]
pub struct Instance {
    pub seed: u64,
    pub looks: usize,
    pub weights: Vec<f64>,
    /// `cost[i * n + j]` is the distance of outfit i from base j.
    pub cost: Vec<f32>,
    pub kinds: Option<Vec<u32>>,
    pub wishes: Vec<Wish>,
}

impl fmt::Display for Instance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "seed {}: {} outfits, {} looks, weights {:?}, cost {:?}, kinds {:?}, wishes {:?}",
            self.seed,
            self.outfits(),
            self.looks,
            self.weights,
            self.cost,
            self.kinds,
            self.wishes
        )
    }
}

impl Instance {
    pub fn outfits(&self) -> usize {
        self.weights.len()
    }

    /// The weighted distance of one outfit from one base.
    pub fn cost(&self, of: usize, at: usize) -> f64 {
        self.weights[of] * f64::from(self.cost[of * self.outfits() + at])
    }

    /// Whether wishes contradict each other or the kinds whatever the looks: apart and together, or together across
    /// kinds. A problem counts that as a clash, although it could be kept by having no look at all.
    pub fn contradicts_itself(&self) -> bool {
        let mut set: Vec<usize> = (0..self.outfits()).collect();
        for wish in &self.wishes {
            if let Wish::Together(one, other) = wish {
                if !self.of_a_kind(*one, *other) {
                    return true;
                }
                let (from, into) = (set[*one], set[*other]);
                set.iter_mut().filter(|of| **of == from).for_each(|of| *of = into);
            }
        }
        self.wishes.iter().any(|wish| matches!(wish, Wish::Apart(one, other) if set[*one] == set[*other]))
    }

    /// Whether two outfits may share a look as far as kinds go.
    pub fn of_a_kind(&self, one: usize, other: usize) -> bool {
        self.kinds.as_ref().is_none_or(|kinds| kinds[one] == kinds[other])
    }

    /// Whether a wish names it with another of its kind: then, when it is a base, it is in its own look. A wish across
    /// kinds settles no look: apart they are in any case, and together they can only both be in none.
    pub fn is_paired(&self, outfit: usize) -> bool {
        self.wishes.iter().any(|wish| match wish {
            Wish::Apart(one, other) | Wish::Together(one, other) => {
                (outfit == *one || outfit == *other) && self.of_a_kind(*one, *other)
            }
            _ => false,
        })
    }

    /// The same instance with other wishes.
    pub fn with(&self, wishes: Vec<Wish>) -> Self {
        Self { wishes, ..self.clone() }
    }

    pub fn problem(&self) -> Problem {
        let problem = Problem::from_matrix(self.weights.clone(), self.cost.clone(), self.looks).unwrap();
        let problem = match &self.kinds {
            Some(kinds) => problem.of_kinds(kinds.clone()).unwrap(),
            None => problem,
        };
        problem.wishing(self.wishes.iter().cloned()).unwrap()
    }

    /// Outfits and distances, without kinds or wishes.
    pub fn plain(seed: u64, fewest: usize, most: usize) -> Self {
        let mut dice = Dice::new(seed);
        let n = dice.between(fewest, most);
        let looks = dice.between(1, 5);
        let mut cost = match seed % 5 {
            0 => points(&mut dice, n),
            1 => symmetric(&mut dice, n),
            2 => (0..n * n).map(|_| dice.share() as f32).collect(),
            // Few values, so that a great many choices cost the same.
            3 => (0..n * n).map(|_| dice.below(5) as f32 / 4.0).collect(),
            _ => (0..n * n).map(|_| dice.below(1000) as f32).collect(),
        };
        // A base that does not even serve itself for nothing.
        let crooked = dice.one_in(3);
        for i in 0..n {
            if !crooked {
                cost[i * n + i] = 0.0;
            }
        }
        if dice.one_in(3) {
            double(&mut dice, &mut cost, n);
        }
        let weights = (0..n).map(|_| weight(&mut dice, seed)).collect();
        Self { seed, looks, weights, cost, kinds: None, wishes: Vec::new() }
    }

    /// The same in two to four kinds that never mix.
    pub fn in_kinds(seed: u64, fewest: usize, most: usize) -> Self {
        let mut instance = Self::plain(seed, fewest, most);
        let mut dice = Dice::new(seed ^ 0x6b69_6e64);
        let (n, count) = (instance.outfits(), dice.between(2, 4));
        let kinds: Vec<u32> = (0..n).map(|_| 3 * dice.below(count) as u32).collect();
        let largest = instance.cost.iter().copied().fold(1.0, f32::max);
        for (at, cost) in instance.cost.iter_mut().enumerate() {
            *cost /= largest;
            if kinds[at / n] != kinds[at % n] && dice.one_in(2) {
                // Never read: as tempting, or as large, as it likes.
                *cost = 9.0 * dice.below(2) as f32;
            }
        }
        instance.kinds = Some(kinds);
        if dice.one_in(12) {
            instance.looks = 0;
        }
        instance
    }

    /// The same with wishes that some choice keeps, so that there may be many of them and yet an answer.
    pub fn with_wishes_that_hold(mut self) -> Self {
        let mut dice = Dice::new(self.seed ^ 0x686f_6c64);
        let Some(assignment) = self.any_choice(&mut dice) else { return self };
        for _ in 0..dice.between(2, 12) {
            let wish = self.any_wish(&mut dice);
            if assignment.keeps(&self.with(vec![wish.clone()])) {
                self.wishes.push(wish);
                if self.contradicts_itself() {
                    self.wishes.pop();
                }
            }
        }
        self
    }

    /// The same with wishes at random: they may well clash.
    pub fn with_wishes(mut self) -> Self {
        let mut dice = Dice::new(self.seed ^ 0x7769_7368);
        for _ in 0..dice.between(1, 9) {
            let wish = self.any_wish(&mut dice);
            self.wishes.push(wish);
        }
        if dice.one_in(4) {
            // More outfits that all keep apart than there are looks, or just as many.
            let many = (self.looks + dice.below(2)).min(self.outfits());
            let first = dice.below(self.outfits() - many + 1);
            for one in first..first + many {
                self.wishes.extend((one + 1..first + many).map(|other| Wish::Apart(one, other)));
            }
        }
        self
    }

    /// Bases at random and every outfit with a base at random, each base with itself.
    fn any_choice(&self, dice: &mut Dice) -> Option<Assignment> {
        let n = self.outfits();
        let mut bases: Vec<usize> = (0..n).collect();
        while bases.len() > self.looks {
            let at = dice.below(bases.len());
            bases.remove(at);
        }
        let base_of = (0..n)
            .map(|outfit| {
                let near: Vec<usize> =
                    bases.iter().copied().filter(|base| self.of_a_kind(outfit, *base)).collect();
                match near.len() {
                    0 => None,
                    _ if near.contains(&outfit) => Some(outfit),
                    count => Some(near[dice.below(count)]),
                }
            })
            .collect();
        let assignment = Assignment { bases, base_of };
        assignment.keeps(self).then_some(assignment)
    }

    fn any_wish(&self, dice: &mut Dice) -> Wish {
        let n = self.outfits();
        let (one, other) = dice.pair(n);
        match dice.below(8) {
            0 => Wish::Base(one),
            1 => Wish::NotBase(one),
            2 | 3 => Wish::Apart(one, other),
            4 | 5 => Wish::Together(one, other),
            6 => Wish::AtMost(group(dice, n), dice.below(3)),
            _ => Wish::AtLeast(group(dice, n), dice.between(1, 3)),
        }
    }
}

fn group(dice: &mut Dice, n: usize) -> Group {
    let members: Vec<usize> = (0..n).filter(|_| dice.one_in(2)).collect();
    Group::new(format!("{} of {n}", members.len()), members)
}

fn weight(dice: &mut Dice, seed: u64) -> f64 {
    match seed % 3 {
        0 => 1.0,
        1 => 0.5 + dice.share(),
        _ if dice.one_in(4) => 0.0,
        _ => dice.below(6) as f64,
    }
}

/// Distances in the plane.
fn points(dice: &mut Dice, n: usize) -> Vec<f32> {
    let at: Vec<(f64, f64)> = (0..n).map(|_| (dice.share(), dice.share())).collect();
    at.iter().flat_map(|a| at.iter().map(|b| f64::hypot(a.0 - b.0, a.1 - b.1) as f32)).collect()
}

fn symmetric(dice: &mut Dice, n: usize) -> Vec<f32> {
    let mut cost = vec![0.0; n * n];
    for i in 0..n {
        for j in i..n {
            cost[i * n + j] = dice.share() as f32;
            cost[j * n + i] = cost[i * n + j];
        }
    }
    cost
}

/// Makes some outfits the same as others in every distance.
fn double(dice: &mut Dice, cost: &mut [f32], n: usize) {
    for _ in 0..n / 3 {
        let (from, to) = dice.pair(n);
        for k in 0..n {
            cost[to * n + k] = cost[from * n + k];
        }
        for k in 0..n {
            cost[k * n + to] = cost[k * n + from];
        }
    }
}
