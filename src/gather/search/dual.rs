//! What no choice can cost less than: the Lagrangian dual.
//!
//! That every client is served is not demanded but paid for: client c brings a price `u[c]` once served, and each site
//! gathers what its clients bring over their cost there. The cheapest choice of sites alone then costs at most what the
//! cheapest choice does, whatever the prices (J. E. Beasley, *EJOR* 21, 1985; G. Cornuéjols, M. L. Fisher,
//! G. L. Nemhauser, *Management Science* 23, 1977). Prices are raised for clients that no chosen site serves and
//! lowered for those that several do, by the subgradient method with Polyak's step.
//!
//! Wishes: bands that share no site are kept in the choice of sites; others are priced as well. Clients that must be
//! apart are served, at each site, as one clique: at most one of them. A base serves its own client, if that is tied,
//! at whatever cost. A tied client that may be in no look brings no more than that costs.

use std::ops::Range;

use super::control::Control;
use super::part::Part;
use super::rules::Site;

/// The prices: a point of the dual.
#[derive(Clone, Debug)]
pub struct Prices {
    /// Of each client.
    clients: Vec<f64>,
    /// Of each priced band: above zero where there are too many bases, below where there are too few.
    bands: Vec<f64>,
}

/// Everything about a part that the dual reads again and again.
pub struct Dual<'a> {
    part: &'a Part,
    looks: usize,
    /// Where each loose client's costs begin in `near_site` and `near_cost`.
    starts: Vec<usize>,
    /// The sites nearest to each loose client, the nearest first.
    near_site: Vec<u32>,
    near_cost: Vec<f64>,
    /// The highest price at which a client's list still holds all sites that cost less.
    ceiling: Vec<f64>,
    /// Tied clients in cliques of which no two may share a site.
    cliques: Vec<Vec<u32>>,
    /// The kept band of each site, if it has one.
    kept_of: Vec<Option<u32>>,
    /// Bands that share no site.
    kept: Vec<usize>,
    /// The other bands.
    priced: Vec<usize>,
}

/// The cheapest choice of sites at some prices.
struct Answer {
    value: f64,
    chosen: Vec<u32>,
}

/// How a climb goes.
#[derive(Clone, Copy, Debug)]
pub struct Climb {
    /// The most steps.
    pub steps: usize,
    /// Steps without progress after which the stride is halved.
    pub patience: usize,
    /// The first stride, as a share of Polyak's.
    pub stride: f64,
}

/// Where a climb ended.
pub struct Summit {
    /// The best prices.
    pub prices: Prices,
    /// Their bound.
    pub bound: f64,
    /// How often each site was chosen, of late: 0 to 1.
    pub share: Vec<f32>,
    /// Steps taken.
    pub steps: usize,
    /// No choice is left that costs less than the target.
    pub closed: bool,
}

impl<'a> Dual<'a> {
    /// The dual of a part, for at most so many looks. Sites that are out in `state` are left out for good. `None` when
    /// the search must end first.
    pub fn new(part: &'a Part, looks: usize, state: &[Site], control: &Control<'_>) -> Option<Self> {
        let alive: Vec<u32> =
            (0..part.sites() as u32).filter(|&site| state[site as usize] != Site::Out).collect();
        // A price stays below the cost of the few nearest bases, so that only near sites are ever asked for.
        let most = (8 * alive.len() / looks.max(1)).max(48).min(alive.len());
        let mut dual = Self {
            part,
            looks,
            starts: vec![0],
            near_site: Vec::with_capacity(most * part.loose.len()),
            near_cost: Vec::with_capacity(most * part.loose.len()),
            ceiling: Vec::with_capacity(part.loose.len()),
            cliques: cliques(part),
            kept_of: vec![None; part.sites()],
            kept: Vec::new(),
            priced: Vec::new(),
        };
        let mut row: Vec<(f64, u32)> = Vec::with_capacity(alive.len());
        for &client in &part.loose {
            if control.is_over() {
                return None;
            }
            row.clear();
            row.extend(alive.iter().map(|&site| (part.at(site)[client as usize], site)));
            let order = |a: &(f64, u32), b: &(f64, u32)| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1));
            if most < row.len() {
                row.select_nth_unstable_by(most, order);
                row.truncate(most);
            }
            row.sort_unstable_by(order);
            let cut = most < alive.len();
            dual.ceiling.push(if cut { row.last().map_or(0.0, |last| last.0) } else { f64::INFINITY });
            dual.near_site.extend(row.iter().map(|entry| entry.1));
            dual.near_cost.extend(row.iter().map(|entry| entry.0));
            dual.starts.push(dual.near_site.len());
        }
        for (at, band) in part.rules.bands.iter().enumerate() {
            if band.sites.iter().all(|&site| dual.kept_of[site as usize].is_none()) {
                band.sites
                    .iter()
                    .for_each(|&site| dual.kept_of[site as usize] = Some(dual.kept.len() as u32));
                dual.kept.push(at);
            } else {
                dual.priced.push(at);
            }
        }
        Some(dual)
    }

    /// Prices to begin with: what each client costs at the second nearest of some bases.
    pub fn first_prices(&self, chosen: &[u32]) -> Prices {
        let price = |client: usize| {
            let (mut first, mut second) = (f64::INFINITY, f64::INFINITY);
            for &site in chosen {
                let cost = self.part.at(site)[client];
                if cost < first {
                    (first, second) = (cost, first);
                } else if cost < second {
                    second = cost;
                }
            }
            let worst = self.part.worst(client as u32);
            0.5 * (first.min(worst) + second.min(worst))
        };
        let clients = (0..self.part.clients()).map(price).collect();
        let mut prices = Prices { clients, bands: vec![0.0; self.priced.len()] };
        self.hold_below_alone(&mut prices);
        prices
    }

    /// The bound at some prices, with the sites that are cheapest there. `rho` takes what each site costs. `None` where
    /// what is fixed leaves no choice.
    fn answer(&self, prices: &Prices, state: &[Site], rho: &mut [f64]) -> Option<Answer> {
        let paid = self.weigh(prices, state, rho);
        let chosen = self.choose(self.looks, state, rho)?;
        let value = paid + chosen.iter().map(|&site| rho[site as usize]).sum::<f64>();
        Some(Answer { value, chosen })
    }

    /// The bounds that the prices of a summit give for other numbers of looks.
    pub fn bounds(&self, prices: &Prices, looks: Range<usize>) -> Vec<f64> {
        let (state, mut rho) = (&self.part.rules.asked, vec![0.0; self.part.sites()]);
        let paid = self.weigh(prices, state, &mut rho);
        let bound = |looks| {
            let chosen = self.choose(looks, state, &rho)?;
            Some(paid + chosen.iter().map(|&site| rho[site as usize]).sum::<f64>())
        };
        looks.map(|looks| bound(looks).unwrap_or(0.0)).collect()
    }

    /// What the prices bring in all, and into `rho` what each site costs.
    fn weigh(&self, prices: &Prices, state: &[Site], rho: &mut [f64]) -> f64 {
        rho.fill(0.0);
        for (row, &client) in self.part.loose.iter().enumerate() {
            let price = prices.clients[client as usize];
            let near = self.starts[row]..self.starts[row + 1];
            for (&cost, &site) in self.near_cost[near.clone()].iter().zip(&self.near_site[near]) {
                if cost >= price {
                    break;
                }
                rho[site as usize] += cost - price;
            }
        }
        self.tie_in(prices, state, rho);
        let mut value: f64 = prices.clients.iter().sum();
        for (&price, &band) in prices.bands.iter().zip(&self.priced) {
            let band = &self.part.rules.bands[band];
            band.sites.iter().for_each(|&site| rho[site as usize] += price);
            value -= if price > 0.0 {
                price * band.most as f64
            } else if price < 0.0 {
                price * band.least as f64
            } else {
                0.0
            };
        }
        value
    }

    /// Adds what tied clients bring to each site.
    fn tie_in(&self, prices: &Prices, state: &[Site], rho: &mut [f64]) {
        for clique in &self.cliques {
            for site in (0..self.part.sites() as u32).filter(|&site| state[site as usize] != Site::Out) {
                self.each_served(clique, site, prices, |_, brings| rho[site as usize] += brings);
            }
        }
    }

    /// Calls `serve` for each client of a clique that a base at `site` would serve, with what that brings.
    fn each_served(&self, clique: &[u32], site: u32, prices: &Prices, mut serve: impl FnMut(u32, f64)) {
        let (rules, costs) = (&self.part.rules, self.part.at(site));
        let brings = |client: u32| costs[client as usize] - prices.clients[client as usize];
        if !rules.is_own(site, clique[0]) {
            clique
                .iter()
                .filter(|&&client| brings(client) < 0.0)
                .for_each(|&client| serve(client, brings(client)));
            return;
        }
        let owner = rules.client_of[site as usize];
        if clique.contains(&owner) {
            serve(owner, brings(owner));
            return;
        }
        let best = clique.iter().copied().min_by(|&a, &b| brings(a).total_cmp(&brings(b)));
        if let Some(client) = best.filter(|&client| brings(client) < 0.0) {
            serve(client, brings(client));
        }
    }

    /// The cheapest sites that what is fixed and the kept bands allow.
    fn choose(&self, looks: usize, state: &[Site], rho: &[f64]) -> Option<Vec<u32>> {
        let mut chosen: Vec<u32> = Vec::with_capacity(looks + 1);
        let mut free: Vec<u32> = Vec::with_capacity(rho.len());
        let mut count = vec![0; self.kept.len()];
        let mut open = vec![0; self.kept.len()];
        for (site, state) in (0..).zip(state) {
            match state {
                Site::In => {
                    chosen.push(site);
                    self.kept_of[site as usize].iter().for_each(|&band| count[band as usize] += 1);
                }
                Site::Free => {
                    free.push(site);
                    self.kept_of[site as usize].iter().for_each(|&band| open[band as usize] += 1);
                }
                Site::Out => {}
            }
        }
        let mut missing = 0;
        for (at, &band) in self.kept.iter().enumerate() {
            let band = &self.part.rules.bands[band];
            let lacks = band.least.saturating_sub(count[at]);
            if count[at] > band.most || lacks > open[at] {
                return None;
            }
            missing += lacks;
        }
        if chosen.len() + missing > looks {
            return None;
        }
        let order = |a: &u32, b: &u32| rho[*a as usize].total_cmp(&rho[*b as usize]).then(a.cmp(b));
        if self.kept.is_empty() {
            free.retain(|&site| rho[site as usize] < 0.0);
            let room = looks - chosen.len();
            if room < free.len() {
                free.select_nth_unstable_by(room, order);
                free.truncate(room);
            }
            chosen.extend(free);
            return Some(chosen);
        }
        free.sort_unstable_by(order);
        let mut taken = vec![false; free.len()];
        if missing > 0 {
            for (taken, &site) in taken.iter_mut().zip(&free) {
                let Some(band) = self.kept_of[site as usize] else { continue };
                if count[band as usize] < self.part.rules.bands[self.kept[band as usize]].least {
                    (*taken, count[band as usize]) = (true, count[band as usize] + 1);
                    chosen.push(site);
                }
            }
        }
        for (&taken, &site) in taken.iter().zip(&free) {
            if chosen.len() >= looks || rho[site as usize] >= 0.0 {
                break;
            }
            let band = self.kept_of[site as usize].map(|band| band as usize);
            let full = |band: usize| count[band] >= self.part.rules.bands[self.kept[band]].most;
            if !taken && !band.is_some_and(full) {
                band.iter().for_each(|&band| count[band] += 1);
                chosen.push(site);
            }
        }
        Some(chosen)
    }

    /// Fixes every site of which the other state would cost `target` or more.
    fn fix(&self, answer: &Answer, rho: &[f64], target: f64, state: &mut [Site]) {
        let room = Room::of(self, answer, rho, state);
        let slack = target - answer.value;
        for site in 0..state.len() as u32 {
            if state[site as usize] == Site::Free {
                if room.chosen[site as usize] {
                    if room.price_out(self, site, rho) >= slack {
                        state[site as usize] = Site::In;
                    }
                } else if room.price_in(self, site, rho) >= slack {
                    state[site as usize] = Site::Out;
                }
            }
        }
    }

    /// Climbs towards the highest bound. Stops once nothing below `target` is left; `target` is asked anew whenever the
    /// bound has gone up, with the sites that gave it, and sites are fixed in `state` as the bound rises.
    pub fn climb(
        &self,
        mut prices: Prices,
        state: &mut [Site],
        climb: Climb,
        control: &Control<'_>,
        target: &mut dyn FnMut(f64, &[u32]) -> f64,
    ) -> Summit {
        let (sites, clients) = (self.part.sites(), self.part.clients());
        let mut rho = vec![0.0; sites];
        let mut best = Summit {
            prices: prices.clone(),
            bound: f64::NEG_INFINITY,
            share: vec![0.0; sites],
            steps: 0,
            closed: false,
        };
        let mut goal = target(f64::NEG_INFINITY, &[]);
        let (mut stride, mut idle) = (climb.stride, 0);
        let mut slope = Prices { clients: vec![0.0; clients], bands: vec![0.0; self.priced.len()] };
        for step in 0..climb.steps {
            for (row, &client) in self.part.loose.iter().enumerate() {
                prices.clients[client as usize] =
                    prices.clients[client as usize].clamp(0.0, self.ceiling[row]);
            }
            self.hold_below_alone(&mut prices);
            best.steps += 1;
            control.count(1);
            let Some(answer) = self.answer(&prices, state, &mut rho) else {
                (best.bound, best.closed) = (f64::INFINITY, true);
                return best;
            };
            let keep = if step < 10 { 0.7 } else { 0.95 };
            best.share.iter_mut().for_each(|share| *share *= keep);
            answer.chosen.iter().for_each(|&site| best.share[site as usize] += 1.0 - keep);
            if answer.value > best.bound {
                let gain = answer.value - best.bound;
                best.bound = answer.value;
                best.prices.clone_from(&prices);
                goal = target(best.bound, &answer.chosen);
                if best.bound >= goal {
                    best.closed = true;
                    return best;
                }
                if goal.is_finite() {
                    self.fix(&answer, &rho, goal, state);
                }
                idle = if gain > 1e-5 * (goal - best.bound) { 0 } else { idle + 1 };
            } else {
                idle += 1;
            }
            if idle >= climb.patience {
                (stride, idle) = (stride * 0.5, 0);
                if stride < 0.002 {
                    break;
                }
            }
            if control.is_over() {
                break;
            }
            let length = self.slope(&prices, &answer, &mut slope);
            if length == 0.0 {
                // Every client is served once: the choice is best for what is fixed.
                break;
            }
            let reach = if goal.is_finite() { goal } else { best.bound + best.bound.abs() * 0.05 + 1.0 };
            let pace = stride * (reach - answer.value).max(1e-12) / length;
            for (price, slope) in prices.clients.iter_mut().zip(&slope.clients) {
                *price += pace * slope;
            }
            for ((price, slope), &band) in prices.bands.iter_mut().zip(&slope.bands).zip(&self.priced) {
                *price += pace * slope;
                let band = &self.part.rules.bands[band];
                if band.least == 0 {
                    *price = price.max(0.0);
                }
                if band.most >= band.sites.len() {
                    *price = price.min(0.0);
                }
            }
        }
        best
    }

    /// Holds the prices of clients that may be in no look below what that costs: above, they would be served there, and
    /// the bound would gain nothing.
    fn hold_below_alone(&self, prices: &mut Prices) {
        if self.part.rules.may_go_without {
            for &client in self.part.rules.tied.iter().flatten() {
                let price = &mut prices.clients[client as usize];
                *price = price.min(self.part.alone(client));
            }
        }
    }

    /// The direction to go in, into `slope`, which holds the last one; returns its squared length.
    fn slope(&self, prices: &Prices, answer: &Answer, slope: &mut Prices) -> f64 {
        let mut now: Vec<f64> = vec![1.0; self.part.clients()];
        let loose = &self.part.loose;
        for &site in &answer.chosen {
            let costs = self.part.at(site);
            if loose.len() == costs.len() {
                for ((now, &cost), &price) in now.iter_mut().zip(costs).zip(&prices.clients) {
                    *now -= if cost < price { 1.0 } else { 0.0 };
                }
            } else {
                for &client in loose {
                    if costs[client as usize] < prices.clients[client as usize] {
                        now[client as usize] -= 1.0;
                    }
                }
                for clique in &self.cliques {
                    self.each_served(clique, site, prices, |client, _| now[client as usize] -= 1.0);
                }
            }
        }
        if self.part.rules.may_go_without {
            // At the price of no look it is served there, and the price goes no higher.
            for &client in self.part.rules.tied.iter().flatten() {
                if prices.clients[client as usize] >= self.part.alone(client) {
                    now[client as usize] = now[client as usize].min(0.0);
                }
            }
        }
        let mut length = 0.0;
        let mut still = true;
        for (slope, now) in slope.clients.iter_mut().zip(now) {
            still &= now == 0.0;
            *slope = now + 0.3 * *slope;
            length += *slope * *slope;
        }
        for ((slope, &price), &band) in slope.bands.iter_mut().zip(&prices.bands).zip(&self.priced) {
            let band = &self.part.rules.bands[band];
            let count = band.sites.iter().filter(|site| answer.chosen.contains(site)).count() as f64;
            let (most, least) = (band.most as f64, band.least as f64);
            let now = if price > 0.0 || count > most {
                count - most
            } else if price < 0.0 || count < least {
                count - least
            } else {
                0.0
            };
            still &= now == 0.0;
            *slope = now + 0.3 * *slope;
            length += *slope * *slope;
        }
        if still { 0.0 } else { length }
    }
}

/// What it takes to change one site of an answer.
struct Room {
    chosen: Vec<bool>,
    is_full: bool,
    /// Of each kept band: whether it has all the bases that it may have, and whether it has none to spare.
    full: Vec<bool>,
    bare: Vec<bool>,
    /// The dearest chosen site that may go, in each kept band; and over all sites that may go without another coming.
    dearest: Vec<f64>,
    dearest_of_all: f64,
    /// The cheapest site left, in each kept band; and over all that may come without another going.
    cheapest: Vec<f64>,
    cheapest_of_all: f64,
}

impl Room {
    fn of(dual: &Dual<'_>, answer: &Answer, rho: &[f64], state: &[Site]) -> Self {
        let kept = dual.kept.len();
        let mut count = vec![0; kept];
        let mut room = Self {
            chosen: vec![false; state.len()],
            is_full: answer.chosen.len() >= dual.looks,
            full: vec![false; kept],
            bare: vec![false; kept],
            dearest: vec![f64::NEG_INFINITY; kept],
            dearest_of_all: f64::NEG_INFINITY,
            cheapest: vec![f64::INFINITY; kept],
            cheapest_of_all: f64::INFINITY,
        };
        for &site in &answer.chosen {
            room.chosen[site as usize] = true;
            dual.kept_of[site as usize].iter().for_each(|&band| count[band as usize] += 1);
        }
        for (at, &band) in dual.kept.iter().enumerate() {
            room.full[at] = count[at] >= dual.part.rules.bands[band].most;
            room.bare[at] = count[at] <= dual.part.rules.bands[band].least;
        }
        for site in (0..state.len()).filter(|&site| state[site] == Site::Free) {
            let (band, cost) = (dual.kept_of[site].map(|band| band as usize), rho[site]);
            if room.chosen[site] {
                if let Some(band) = band {
                    room.dearest[band] = room.dearest[band].max(cost);
                }
                if !band.is_some_and(|band| room.bare[band]) {
                    room.dearest_of_all = room.dearest_of_all.max(cost);
                }
            } else {
                if let Some(band) = band {
                    room.cheapest[band] = room.cheapest[band].min(cost);
                }
                if !band.is_some_and(|band| room.full[band]) {
                    room.cheapest_of_all = room.cheapest_of_all.min(cost);
                }
            }
        }
        room
    }

    /// What a base at a free site costs more, at least, when one must stand there.
    fn price_in(&self, dual: &Dual<'_>, site: u32, rho: &[f64]) -> f64 {
        let band = dual.kept_of[site as usize].map(|band| band as usize);
        let cost = rho[site as usize];
        if band.is_some_and(|band| self.full[band]) {
            let band = band.unwrap_or_default();
            return cost - self.dearest[band];
        }
        if !self.is_full {
            // One that may go and costs more than nothing goes: there is none such, but for those that a band needs.
            let spare = band.map_or(f64::NEG_INFINITY, |band| self.dearest[band]).max(0.0);
            return cost - spare;
        }
        let in_band = band.map_or(f64::NEG_INFINITY, |band| self.dearest[band]);
        cost - self.dearest_of_all.max(in_band)
    }

    /// What it costs more, at least, when no base may stand at a chosen site.
    fn price_out(&self, dual: &Dual<'_>, site: u32, rho: &[f64]) -> f64 {
        let band = dual.kept_of[site as usize].map(|band| band as usize);
        let in_band = band.map_or(f64::INFINITY, |band| self.cheapest[band]);
        if band.is_some_and(|band| self.bare[band]) {
            return in_band - rho[site as usize];
        }
        in_band.min(self.cheapest_of_all).min(0.0) - rho[site as usize]
    }
}

/// Tied clients in groups of which no two may be served at one site; every client in one.
fn cliques(part: &Part) -> Vec<Vec<u32>> {
    let mut cliques: Vec<Vec<u32>> = Vec::new();
    for group in &part.rules.tied {
        let first = cliques.len();
        for &client in group {
            let apart = &part.rules.apart[client as usize];
            let fits = |clique: &&mut Vec<u32>| clique.iter().all(|other| apart.contains(other));
            match cliques[first..].iter_mut().find(fits) {
                Some(clique) => clique.push(client),
                None => cliques.push(vec![client]),
            }
        }
    }
    cliques
}
