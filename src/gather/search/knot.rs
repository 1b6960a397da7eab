//! Serving clients of which some must not be served by the same base: exactly, one after another.

use std::cmp::Reverse;

use super::rules::Rules;

/// How tied clients are served.
#[derive(Clone, Debug, PartialEq)]
pub struct Tied {
    /// What that costs.
    pub cost: f64,
    /// Client and site; no site where it is in no look.
    pub by: Vec<(u32, Option<u32>)>,
    /// Whether no cheaper way from these bases was left untried.
    pub exact: bool,
}

/// Why clients are not served.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unserved {
    /// The wishes leave no way.
    Impossible,
    /// None was found, and there may be one.
    GaveUp,
}

/// How many steps are spent on one group of tied clients.
const TRIES: usize = 100_000;

/// What a client costs at a site, or in no look.
pub type Costs<'a> = &'a dyn Fn(Option<u32>, u32) -> f64;

/// The cheapest way to serve all tied clients of kinds that have a base among `chosen`. Where a kind may go without, so
/// may each of them.
///
/// # Errors
/// See [`Unserved`].
pub fn tie(rules: &Rules, chosen: &[u32], cost: Costs<'_>) -> Result<Tied, Unserved> {
    tie_within(rules, chosen, cost, &mut { usize::MAX })
}

/// The same in no more steps than are left, which become fewer by those that it took.
///
/// # Errors
/// See [`Unserved`].
pub fn tie_within(
    rules: &Rules,
    chosen: &[u32],
    cost: Costs<'_>,
    left: &mut usize,
) -> Result<Tied, Unserved> {
    let mut all = Tied { cost: 0.0, by: Vec::new(), exact: true };
    if rules.tied.is_empty() {
        return Ok(all);
    }
    let mut own = vec![None; rules.clients.len()];
    for &site in chosen {
        if own[rules.client_of[site as usize] as usize].replace(site).is_some() {
            return Err(Unserved::Impossible);
        }
    }
    for (group, &apart) in rules.tied.iter().zip(&rules.apart_at_once) {
        let sites: Vec<u32> = chosen.iter().copied().filter(|&site| rules.is_own(site, group[0])).collect();
        if sites.is_empty() {
            continue;
        }
        if sites.len() < apart && !rules.may_go_without {
            return Err(Unserved::Impossible);
        }
        let mut knot = Knot::new(rules, group, &sites, &own, cost);
        // Making it ready is work, too.
        *left = left.saturating_sub(group.len() * sites.len());
        let most = TRIES.min(*left);
        knot.tries = most;
        knot.untie(0, 0.0);
        *left -= most - knot.tries;
        if knot.best.is_infinite() {
            return Err(if knot.tries > 0 { Unserved::Impossible } else { Unserved::GaveUp });
        }
        all.cost += knot.best;
        all.exact &= knot.tries > 0;
        all.by.extend(knot.threads.iter().zip(&knot.best_by).map(|(thread, &site)| (thread.client, site)));
    }
    Ok(all)
}

/// The search over one group: the most constrained client first, each at its cheapest base that is left, turning back
/// where the rest cannot be cheap enough.
struct Knot {
    threads: Vec<Thread>,
    /// What all from the nth on cost at least.
    rest: Vec<f64>,
    /// Where each is served; no site where it is in no look.
    by: Vec<Option<u32>>,
    best: f64,
    best_by: Vec<Option<u32>>,
    tries: usize,
}

/// One client of a knot.
struct Thread {
    client: u32,
    /// Where it can be served, the cheapest first, and no look before a site that costs the same.
    at: Vec<(f64, Option<u32>)>,
    /// Places in the knot of those before it that it must be apart from.
    apart: Vec<usize>,
}

impl Knot {
    fn new(rules: &Rules, group: &[u32], sites: &[u32], own: &[Option<u32>], cost: Costs<'_>) -> Self {
        let thread = |&client: &u32| {
            let free = |site: &u32| !rules.apart[client as usize].contains(&rules.client_of[*site as usize]);
            let none = rules.may_go_without.then_some(None);
            let sites = match own[client as usize] {
                Some(site) => vec![Some(site)],
                None => none.into_iter().chain(sites.iter().copied().filter(free).map(Some)).collect(),
            };
            let mut at: Vec<_> = sites.into_iter().map(|site| (cost(site, client), site)).collect();
            at.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
            Thread { client, at, apart: Vec::new() }
        };
        let mut threads: Vec<Thread> = group.iter().map(thread).collect();
        threads.sort_by_key(|thread| {
            (thread.at.len() > 1, Reverse(rules.apart[thread.client as usize].len()), thread.client)
        });
        for at in 0..threads.len() {
            let others = &rules.apart[threads[at].client as usize];
            threads[at].apart = (0..at).filter(|&before| others.contains(&threads[before].client)).collect();
        }
        let mut rest = vec![0.0; threads.len() + 1];
        for at in (0..threads.len()).rev() {
            rest[at] = rest[at + 1] + threads[at].at.first().map_or(f64::INFINITY, |(cost, _)| *cost);
        }
        let by = vec![None; threads.len()];
        Self { rest, best_by: by.clone(), by, best: f64::INFINITY, tries: TRIES, threads }
    }

    fn untie(&mut self, at: usize, cost: f64) {
        if cost + self.rest[at] >= self.best || self.tries == 0 {
            return;
        }
        self.tries -= 1;
        if at == self.threads.len() {
            self.best = cost;
            self.best_by.clone_from(&self.by);
            return;
        }
        for option in 0..self.threads[at].at.len() {
            let (step, site) = self.threads[at].at[option];
            // In no look nobody meets anybody.
            let is_free = |&before: &usize| site.is_none() || self.by[before] != site;
            if self.threads[at].apart.iter().all(is_free) {
                self.by[at] = site;
                self.untie(at + 1, cost + step);
            }
        }
    }
}
