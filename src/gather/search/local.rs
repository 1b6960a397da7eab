//! A good choice, fast: greedy first, then swaps as long as one helps.
//!
//! The swaps are those of FasterPAM (E. Schubert, P. J. Rousseeuw, *Information Systems* 101, 2021): one walk over the
//! clients gives the worth of a new base against every present one at once, and the first swap that helps is made.
//! Wishes about numbers of bases are kept by leaving out swaps that would break them. Clients that are tied to others
//! are served exactly, but only for swaps that the loose ones leave promising.

use std::collections::BinaryHeap;

use super::control::Control;
use super::knot::Unserved;
use super::part::Part;
use super::rules::Site;

/// Bases and what they cost.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// The sites, ascending.
    pub chosen: Vec<u32>,
    /// What serving every client from them costs.
    pub cost: f64,
    /// Whether that is known to be the least for these bases.
    pub exact: bool,
}

impl Candidate {
    /// These bases, if the wishes allow them.
    ///
    /// # Errors
    /// See [`Unserved`].
    pub fn of(part: &Part, looks: usize, mut chosen: Vec<u32>) -> Result<Self, Unserved> {
        chosen.sort_unstable();
        if !part.allows(&chosen, looks) {
            return Err(Unserved::Impossible);
        }
        let served = part.serve(&chosen)?;
        Ok(Self { chosen, cost: served.cost, exact: served.exact })
    }
}

/// Adds bases to a choice that is allowed, the most helpful first, as long as there is room for one.
pub fn fill(part: &Part, looks: usize, chosen: Vec<u32>, control: &Control<'_>) -> Vec<u32> {
    let mut state = State::new(part, looks, chosen);
    let mut queue: BinaryHeap<Gain> = (0..part.sites() as u32)
        .filter(|&site| part.rules.asked[site as usize] == Site::Free)
        .map(|site| Gain { worth: f64::INFINITY, site, at: usize::MAX })
        .collect();
    // A base helps the less the more there are, so what it was worth before is the most that it can be worth now.
    while let Some(top) = queue.pop() {
        if state.chosen.len() >= looks || control.is_over() {
            break;
        }
        if state.is_chosen(top.site) || !state.may_add(top.site) {
            continue;
        }
        if top.at == state.chosen.len() {
            state.add(top.site);
        } else {
            queue.push(Gain { worth: state.gain(top.site), site: top.site, at: state.chosen.len() });
        }
    }
    state.chosen
}

/// The choices that one base after another makes, the cheapest way to serve from each; those that the wishes leave no way
/// to serve from, or that are too few, are left out.
pub fn trail(part: &Part, chosen: Vec<u32>) -> Vec<Candidate> {
    let mut state = State::new(part, chosen.len(), Vec::new());
    let mut trail = Vec::new();
    for site in chosen {
        state.add(site);
        let mut chosen = state.chosen.clone();
        chosen.sort_unstable();
        if part.allows(&chosen, state.looks)
            && let Some(tied) = part.cost_of_tied(&chosen)
        {
            let loose: f64 = state.near.iter().map(|near| near.cost).sum();
            trail.push(Candidate { chosen, cost: loose + tied, exact: part.rules.tied.is_empty() });
        }
    }
    trail
}

/// What a base would be worth, as it was known when there were `at` bases.
#[derive(PartialEq)]
struct Gain {
    worth: f64,
    site: u32,
    at: usize,
}

impl Eq for Gain {}

impl Ord for Gain {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.worth.total_cmp(&other.worth).then(other.site.cmp(&self.site))
    }
}

impl PartialOrd for Gain {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

/// Swaps bases as long as that helps. The choice must be allowed; `None` where its clients cannot be served.
pub fn polish(part: &Part, looks: usize, chosen: Vec<u32>, control: &Control<'_>) -> Option<Candidate> {
    let mut state = State::new(part, looks, chosen);
    let free: Vec<u32> =
        (0..part.sites() as u32).filter(|&site| part.rules.asked[site as usize] == Site::Free).collect();
    let mut tied = part.cost_of_tied(&state.chosen)?;
    let (mut at, mut idle) = (0, 0);
    while idle < free.len() && !control.is_over() && !state.chosen.is_empty() {
        let site = free[at];
        at = (at + 1) % free.len();
        idle += 1;
        if !state.is_chosen(site) && state.swap_for(site, &mut tied) {
            idle = 0;
        }
    }
    Candidate::of(part, looks, state.chosen).ok()
}

/// What every loose client's two nearest bases are.
struct State<'a> {
    part: &'a Part,
    looks: usize,
    chosen: Vec<u32>,
    /// The place in `chosen` of each site.
    slot: Vec<Option<u32>>,
    near: Vec<Near>,
    /// What goes up if the base at a slot goes.
    loss: Vec<f64>,
    bands_of: Vec<Vec<u32>>,
    count: Vec<usize>,
    work: Vec<f64>,
}

#[derive(Clone, Copy)]
struct Near {
    slot: u32,
    second_slot: u32,
    cost: f64,
    second: f64,
}

impl<'a> State<'a> {
    fn new(part: &'a Part, looks: usize, chosen: Vec<u32>) -> Self {
        let mut bands_of = vec![Vec::new(); part.sites()];
        for (band, sites) in part.rules.bands.iter().enumerate() {
            sites.sites.iter().for_each(|&site| bands_of[site as usize].push(band as u32));
        }
        let nowhere = Near { slot: u32::MAX, second_slot: u32::MAX, cost: 0.0, second: 0.0 };
        let mut state = Self {
            part,
            looks,
            chosen: Vec::new(),
            slot: vec![None; part.sites()],
            near: vec![nowhere; part.loose.len()],
            loss: Vec::new(),
            bands_of,
            count: vec![0; part.rules.bands.len()],
            work: Vec::new(),
        };
        for (near, &client) in state.near.iter_mut().zip(&part.loose) {
            (near.cost, near.second) = (part.worst(client), part.worst(client));
        }
        chosen.into_iter().for_each(|site| state.add(site));
        state
    }

    fn is_chosen(&self, site: u32) -> bool {
        self.slot[site as usize].is_some()
    }

    fn add(&mut self, site: u32) {
        let slot = self.chosen.len() as u32;
        self.slot[site as usize] = Some(slot);
        self.chosen.push(site);
        self.bands_of[site as usize].iter().for_each(|&band| self.count[band as usize] += 1);
        let costs = self.part.at(site);
        for (near, &client) in self.near.iter_mut().zip(&self.part.loose) {
            near.take(slot, costs[client as usize]);
        }
        self.weigh();
    }

    /// The loss of every base anew.
    fn weigh(&mut self) {
        self.loss.clear();
        self.loss.resize(self.chosen.len(), 0.0);
        for near in self.near.iter().filter(|near| near.slot != u32::MAX) {
            self.loss[near.slot as usize] += near.second - near.cost;
        }
    }

    fn gain(&self, site: u32) -> f64 {
        let costs = self.part.at(site);
        let gain = |(near, client): (&Near, &u32)| (near.cost - costs[*client as usize]).max(0.0);
        self.near.iter().zip(&self.part.loose).map(gain).sum()
    }

    fn may_add(&self, site: u32) -> bool {
        let bands = &self.bands_of[site as usize];
        let room =
            bands.iter().all(|&band| self.count[band as usize] < self.part.rules.bands[band as usize].most);
        room && self.chosen.len() < self.looks
            && (self.part.rules.tied.is_empty() || self.can_serve_with(site))
    }

    fn can_serve_with(&self, site: u32) -> bool {
        let mut with = self.chosen.clone();
        with.push(site);
        self.part.cost_of_tied(&with).is_some()
    }

    fn may_swap(&self, slot: usize, site: u32) -> bool {
        let out = self.chosen[slot] as usize;
        if self.part.rules.asked[out] == Site::In {
            return false;
        }
        let (leaves, enters) = (&self.bands_of[out], &self.bands_of[site as usize]);
        let bands = &self.part.rules.bands;
        leaves
            .iter()
            .all(|band| enters.contains(band) || self.count[*band as usize] > bands[*band as usize].least)
            && enters
                .iter()
                .all(|band| leaves.contains(band) || self.count[*band as usize] < bands[*band as usize].most)
    }

    /// Swaps some base for `site` if that helps. `tied` is what the tied clients cost.
    fn swap_for(&mut self, site: u32, tied: &mut f64) -> bool {
        let costs = self.part.at(site);
        self.work.clear();
        self.work.extend_from_slice(&self.loss);
        let mut all = 0.0;
        for (near, &client) in self.near.iter().zip(&self.part.loose) {
            let cost = costs[client as usize];
            if cost < near.second {
                if cost < near.cost {
                    all += cost - near.cost;
                    self.work[near.slot as usize] += near.cost - near.second;
                } else {
                    self.work[near.slot as usize] += cost - near.second;
                }
            }
        }
        let enough = -1e-12 * (tied.abs() + all.abs()) - self.part.rounding;
        let floor = self.part.floor_of_tied();
        if self.part.rules.tied.is_empty() {
            let mut best = (enough, None);
            for slot in 0..self.chosen.len() {
                let change = all + self.work[slot];
                if change < best.0 && self.may_swap(slot, site) {
                    best = (change, Some(slot));
                }
            }
            let Some(slot) = best.1 else { return false };
            self.swap(slot, site);
            return true;
        }
        let mut slots: Vec<(f64, usize)> = (0..self.chosen.len())
            .map(|slot| (all + self.work[slot], slot))
            .filter(|(change, slot)| change + floor - *tied < enough && self.may_swap(*slot, site))
            .collect();
        slots.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        for (change, slot) in slots.into_iter().take(4) {
            let mut with = self.chosen.clone();
            with[slot] = site;
            let Some(cost) = self.part.cost_of_tied(&with) else { continue };
            if change + cost - *tied < enough {
                *tied = cost;
                self.swap(slot, site);
                return true;
            }
        }
        false
    }

    fn swap(&mut self, slot: usize, site: u32) {
        let out = std::mem::replace(&mut self.chosen[slot], site);
        self.slot[out as usize] = None;
        self.slot[site as usize] = Some(slot as u32);
        self.bands_of[out as usize].iter().for_each(|&band| self.count[band as usize] -= 1);
        self.bands_of[site as usize].iter().for_each(|&band| self.count[band as usize] += 1);
        let costs = self.part.at(site);
        for (near, &client) in self.near.iter_mut().zip(&self.part.loose) {
            if near.slot == slot as u32 || near.second_slot == slot as u32 {
                let worst = self.part.worst(client);
                *near = Near { slot: u32::MAX, second_slot: u32::MAX, cost: worst, second: worst };
                for (slot, &site) in self.chosen.iter().enumerate() {
                    near.take(slot as u32, self.part.at(site)[client as usize]);
                }
            } else {
                near.take(slot as u32, costs[client as usize]);
            }
        }
        self.weigh();
    }
}

impl Near {
    fn take(&mut self, slot: u32, cost: f64) {
        if self.slot == u32::MAX {
            (self.slot, self.cost) = (slot, cost);
        } else if cost < self.cost {
            (self.second_slot, self.second) = (self.slot, self.cost);
            (self.slot, self.cost) = (slot, cost);
        } else if cost < self.second {
            (self.second_slot, self.second) = (slot, cost);
        }
    }
}
