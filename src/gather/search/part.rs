//! A part of a problem with its costs, and what a set of bases costs in it.

use super::control::Control;
use super::knot::{Tied, Unserved, tie};
use super::rules::{Rules, Site};
use crate::gather::problem::Problem;

/// A part: see [`Rules`] for what a site and a client are.
#[derive(Debug)]
pub struct Part {
    /// What may be chosen.
    pub rules: Rules,
    /// Site by site, the cost of every client there: infinite where it must not be.
    costs: Vec<f64>,
    /// What each client costs in no look.
    alone: Vec<f64>,
    /// What each client costs at the worst site where it may be.
    worst: Vec<f64>,
    /// What the tied clients cost at least, wherever the bases are.
    floor_of_tied: f64,
    /// Clients that no wish binds, ascending.
    pub loose: Vec<u32>,
    /// The costs of two different choices differ by at least so much, or not at all.
    pub grain: f64,
    /// What sums of its costs are rounded by at most.
    pub rounding: f64,
}

/// Which base serves each client.
#[derive(Clone, Debug, PartialEq)]
pub struct Served {
    /// What that costs.
    pub cost: f64,
    /// The site that serves each client; `None` where its kind has no base, or wishes leave it in no look.
    pub by: Vec<Option<u32>>,
    /// Whether no cheaper way to serve them from these bases was left untried.
    pub exact: bool,
}

impl Part {
    /// The part that these rules make of a problem. `None` when the search must end first.
    pub fn new(problem: &Problem, rules: Rules, control: &Control<'_>) -> Option<Self> {
        let (sites, clients) = (rules.outfits.len(), rules.clients.len());
        let mut costs = vec![0.0; sites * clients];
        let mut whole = true;
        // In blocks of sites, so that a row of the problem is read a cache line at a time.
        for block in (0..sites).step_by(16) {
            if control.is_over() {
                return None;
            }
            for (client, members) in rules.clients.iter().enumerate() {
                for site in block..(block + 16).min(sites) {
                    let at = rules.outfits[site];
                    let cost =
                        members.iter().map(|&m| problem.cost(rules.outfits[m as usize], at)).sum::<f64>();
                    whole &= cost.fract() == 0.0 && cost < 1e9;
                    costs[site * clients + client] = cost / control.unit();
                }
            }
        }
        for (client, others) in rules.apart.iter().enumerate() {
            for &site in others.iter().flat_map(|&other| &rules.clients[other as usize]) {
                costs[site as usize * clients + client] = f64::INFINITY;
            }
        }
        let alone =
            |members: &Vec<u32>| members.iter().map(|&m| problem.alone(rules.outfits[m as usize])).sum();
        let alone: Vec<f64> = rules.clients.iter().map(alone).collect();
        whole &= !rules.may_go_without || alone.iter().all(|cost| cost.fract() == 0.0);
        let alone: Vec<f64> = alone.into_iter().map(|cost| cost / control.unit()).collect();
        let loose =
            (0..clients).filter(|&client| !rules.is_tied(client)).map(|client| client as u32).collect();
        let (mut worst, mut best) = (vec![0.0_f64; clients], vec![f64::INFINITY; clients]);
        for row in costs.chunks_exact(clients.max(1)) {
            for ((worst, best), &cost) in worst.iter_mut().zip(&mut best).zip(row) {
                *worst = if cost.is_finite() { worst.max(cost) } else { *worst };
                *best = best.min(cost);
            }
        }
        let floor_of_tied =
            rules.tied.iter().flatten().map(|&c| best[c as usize].min(alone[c as usize])).sum::<f64>();
        let (grain, rounding) = (if whole { 1.0 / control.unit() } else { 0.0 }, control.rounding(0.0));
        Some(Self { rules, costs, alone, worst, floor_of_tied, loose, grain, rounding })
    }

    /// What a client costs at the worst site where it may be.
    pub fn worst(&self, client: u32) -> f64 {
        self.worst[client as usize]
    }

    /// What the tied clients cost at least, wherever the bases are.
    pub fn floor_of_tied(&self) -> f64 {
        self.floor_of_tied
    }

    /// How many sites there are.
    pub fn sites(&self) -> usize {
        self.rules.outfits.len()
    }

    /// How many clients there are.
    pub fn clients(&self) -> usize {
        self.rules.clients.len()
    }

    /// What every client costs at a site.
    pub fn at(&self, site: u32) -> &[f64] {
        let clients = self.clients();
        &self.costs[site as usize * clients..(site as usize + 1) * clients]
    }

    /// What a client costs in no look.
    pub fn alone(&self, client: u32) -> f64 {
        self.alone[client as usize]
    }

    /// Whether bases at these sites are as many, and where, as they may be.
    pub fn allows(&self, chosen: &[u32], looks: usize) -> bool {
        let mut here = vec![false; self.sites()];
        for &site in chosen {
            here[site as usize] = true;
        }
        let asked = self.rules.asked.iter().zip(&here).all(|(asked, &here)| match asked {
            Site::Free => true,
            Site::In => here,
            Site::Out => !here,
        });
        let bands = self.rules.bands.iter().all(|band| {
            let count = band.sites.iter().filter(|&&site| here[site as usize]).count();
            (band.least..=band.most).contains(&count)
        });
        asked && bands && chosen.len() <= looks && (self.rules.may_go_without || !chosen.is_empty())
    }

    /// The cheapest way to serve every client from these bases.
    ///
    /// # Errors
    /// See [`Unserved`].
    pub fn serve(&self, chosen: &[u32]) -> Result<Served, Unserved> {
        let has_base = self.kinds_with_a_base(chosen);
        if !self.rules.may_go_without && chosen.is_empty() && self.clients() > 0 {
            return Err(Unserved::Impossible);
        }
        let mut served = Served { cost: 0.0, by: vec![None; self.clients()], exact: true };
        for &client in &self.loose {
            if !has_base[self.rules.kind_of(client) as usize] {
                served.cost += self.alone(client);
                continue;
            }
            let own = self.rules.clients[client as usize][0];
            let mut best = (f64::INFINITY, None);
            for &site in chosen.iter().filter(|&&site| self.rules.is_own(site, client)) {
                let cost = self.at(site)[client as usize];
                if cost < best.0 || (cost == best.0 && site == own) {
                    best = (cost, Some(site));
                }
            }
            served.cost += best.0;
            served.by[client as usize] = best.1;
        }
        let tied = self.tie(chosen)?;
        served.cost += tied.cost + self.cost_of_tied_alone(&has_base);
        served.exact = tied.exact;
        for (client, site) in tied.by {
            served.by[client as usize] = site;
        }
        Ok(served)
    }

    /// What the tied clients cost from these bases at least; `None` where no way to serve them was found.
    pub fn cost_of_tied(&self, chosen: &[u32]) -> Option<f64> {
        if self.rules.tied.is_empty() {
            return Some(0.0);
        }
        Some(self.tie(chosen).ok()?.cost + self.cost_of_tied_alone(&self.kinds_with_a_base(chosen)))
    }

    fn tie(&self, chosen: &[u32]) -> Result<Tied, Unserved> {
        let cost = |site: Option<u32>, client: u32| match site {
            Some(site) => self.at(site)[client as usize],
            None => self.alone(client),
        };
        tie(&self.rules, chosen, &cost)
    }

    fn cost_of_tied_alone(&self, has_base: &[bool]) -> f64 {
        let tied = self.rules.tied.iter().flatten();
        tied.filter(|&&client| !has_base[self.rules.kind_of(client) as usize])
            .map(|&client| self.alone(client))
            .sum()
    }

    fn kinds_with_a_base(&self, chosen: &[u32]) -> Vec<bool> {
        let mut has_base = vec![false; self.rules.kinds];
        for &site in chosen {
            has_base[self.rules.kind[site as usize] as usize] = true;
        }
        has_base
    }
}
