//! Some set of bases that keeps the wishes, whatever it costs; or that there is none, and which wishes see to that.
//!
//! Sites that no wish tells apart are of one class, so that only their number counts. Classes are gone through one
//! after another, the fewest bases first, turning back where a band can no longer be kept.

use std::collections::BTreeMap;

use super::control::Control;
use super::knot::{Unserved, tie};
use super::rules::{Rules, Site};
use crate::gather::problem::{Problem, Wish};

/// How many steps are spent on one arrangement. Beyond, it counts as not found, and as not proved impossible.
const TRIES: usize = 50_000;

/// What came of looking for an arrangement.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Arranged {
    /// Bases at these sites keep every wish.
    Found(Vec<u32>),
    /// There is no such set of bases.
    Impossible,
    /// None was found, and there may be one.
    Unknown,
}

/// Looks for at most `looks` bases that keep the rules. Ended early, none is found.
pub fn arrange(rules: &Rules, looks: usize, control: &Control<'_>) -> Arranged {
    let looks = looks.min(rules.most);
    if rules.contradiction || needed(rules) > looks {
        return Arranged::Impossible;
    }
    let mut search = Search::new(rules, looks, control);
    match search.go(0) {
        Some(mut chosen) => {
            chosen.sort_unstable();
            Arranged::Found(chosen)
        }
        None if search.tries == 0 || search.is_unsure => Arranged::Unknown,
        None => Arranged::Impossible,
    }
}

/// Bases that the kinds which must have some need at least, for their clients that are kept apart.
fn needed(rules: &Rules) -> usize {
    let must = |kind: u32| {
        let asked = rules.asked.iter().zip(&rules.kind).any(|(asked, of)| *of == kind && *asked == Site::In);
        asked || !rules.may_go_without
    };
    (0..rules.kinds as u32).filter(|&kind| must(kind)).map(|kind| rules.needs(kind)).sum()
}

/// Looks for the fewest bases, at most `looks`, that keep the rules; also whether there are surely none with fewer.
fn arrange_fewest(rules: &Rules, looks: usize, control: &Control<'_>) -> (Arranged, bool) {
    let mut best = arrange(rules, looks, control);
    while let Arranged::Found(chosen) = &best {
        let Some(fewer) = chosen.len().checked_sub(1) else { break };
        match arrange(rules, fewer, control) {
            found @ Arranged::Found(_) => best = found,
            Arranged::Impossible => break,
            Arranged::Unknown => return (best, false),
        }
    }
    (best, true)
}

/// Which of a problem's wishes clash: every one of them has a part in it. `None` when it was ended before that was
/// known; empty where all can hold.
pub fn clash(problem: &Problem, control: &Control<'_>) -> Option<Vec<Wish>> {
    let mut kept: Vec<&Wish> = problem.wishes().iter().collect();
    if !is_impossible(problem, &kept, control) {
        return (!control.is_over()).then(Vec::new);
    }
    for wish in problem.wishes() {
        let without: Vec<&Wish> = kept.iter().copied().filter(|kept| !std::ptr::eq(*kept, wish)).collect();
        if is_impossible(problem, &without, control) {
            kept = without;
        }
    }
    (!control.is_over()).then(|| kept.into_iter().cloned().collect())
}

/// Whether wishes are known to leave no choice.
fn is_impossible(problem: &Problem, wishes: &[&Wish], control: &Control<'_>) -> bool {
    matches!(arrange_parts(problem, wishes, control), Err(Arranged::Impossible))
}

/// The parts of a problem under some of its wishes, each with the fewest bases that keep them.
///
/// # Errors
/// What came of a part for which none were found.
pub fn arrange_parts(
    problem: &Problem,
    wishes: &[&Wish],
    control: &Control<'_>,
) -> Result<Vec<(Rules, Vec<u32>)>, Arranged> {
    // Where there is nothing to choose from there are no parts, and so none that could find this out.
    let lacks = |wish: &Wish| matches!(wish, Wish::AtLeast(group, least) if group.members.len() < *least);
    if wishes.iter().any(|wish| lacks(wish)) {
        return Err(Arranged::Impossible);
    }
    let (mut left, mut are_fewest) = (problem.looks(), true);
    let arrange = |rules: Rules| match arrange_fewest(&rules, left, control) {
        (Arranged::Found(chosen), is_fewest) => {
            left -= chosen.len();
            are_fewest &= is_fewest;
            Ok((rules, chosen))
        }
        // Parts before it may have taken looks that it needs.
        (Arranged::Impossible, _) if !are_fewest => Err(Arranged::Unknown),
        (none, _) => Err(none),
    };
    Rules::parts(problem, wishes).into_iter().map(arrange).collect()
}

/// What sites of one class have in common: the site itself where its client is tied, the kind, the bands.
type Likes<'a> = (Option<u32>, u32, &'a [usize]);

/// Sites that no wish tells apart.
struct Class {
    sites: Vec<u32>,
    bands: Vec<usize>,
    /// Whether they may be taken to fill up: a base at a tied site binds its client.
    fills: bool,
}

struct Search<'a> {
    rules: &'a Rules,
    looks: usize,
    classes: Vec<Class>,
    /// How many sites of each class are taken.
    taken: Vec<usize>,
    always: Vec<u32>,
    /// Bases in each band so far.
    count: Vec<usize>,
    /// Sites of classes still to come, in each band.
    coming: Vec<usize>,
    total: usize,
    tries: usize,
    /// Whether some bases might serve after all.
    is_unsure: bool,
    control: &'a Control<'a>,
}

impl<'a> Search<'a> {
    fn new(rules: &'a Rules, looks: usize, control: &'a Control<'a>) -> Self {
        let mut bands_of = vec![Vec::new(); rules.outfits.len()];
        for (band, asked) in rules.bands.iter().enumerate() {
            for &site in &asked.sites {
                bands_of[site as usize].push(band);
            }
        }
        let mut classes: BTreeMap<Likes<'_>, Vec<u32>> = BTreeMap::new();
        let (mut always, mut count) = (Vec::new(), vec![0; rules.bands.len()]);
        for (site, bands) in bands_of.iter().enumerate() {
            match rules.asked[site] {
                Site::Out => {}
                Site::In => {
                    always.push(site as u32);
                    bands.iter().for_each(|&band| count[band] += 1);
                }
                Site::Free => {
                    let tied = rules.is_tied(rules.client_of[site] as usize).then_some(site as u32);
                    classes.entry((tied, rules.kind[site], bands)).or_default().push(site as u32);
                }
            }
        }
        let class = |((tied, _, bands), sites): (Likes<'_>, Vec<u32>)| Class {
            sites,
            bands: bands.to_vec(),
            fills: tied.is_none(),
        };
        let mut classes: Vec<Class> = classes.into_iter().map(class).collect();
        // Tied sites first, and so first without bases: those are hardest to serve from, and others can make up for them.
        classes.sort_by_key(|class| class.fills);
        let mut coming = vec![0; rules.bands.len()];
        for class in &classes {
            class.bands.iter().for_each(|&band| coming[band] += class.sites.len());
        }
        let (taken, total) = (vec![0; classes.len()], always.len());
        let (tries, is_unsure) = (TRIES, false);
        Self { rules, looks, classes, taken, always, count, coming, total, tries, is_unsure, control }
    }

    fn go(&mut self, at: usize) -> Option<Vec<u32>> {
        let kept = self.rules.bands.iter().enumerate().all(|(band, asked)| {
            let (count, coming) = (self.count[band], self.coming[band]);
            let missing = asked.least.saturating_sub(count);
            count <= asked.most && missing <= coming && self.total + missing <= self.looks
        });
        if !kept || self.total > self.looks || self.tries == 0 {
            return None;
        }
        self.tries -= 1;
        if at == self.classes.len() {
            if self.control.is_over() {
                self.tries = 0;
                return None;
            }
            return self.serves();
        }
        let size = self.classes[at].sites.len();
        self.shift(at, |coming, _| *coming -= size);
        let mut found = None;
        for take in 0..=size {
            self.taken[at] = take;
            found = self.go(at + 1);
            if found.is_some() || take == size || self.total >= self.looks || self.tries == 0 {
                break;
            }
            self.total += 1;
            self.shift(at, |_, count| *count += 1);
        }
        if found.is_none() {
            let taken = std::mem::take(&mut self.taken[at]);
            self.total -= taken;
            self.shift(at, |coming, count| {
                *coming += size;
                *count -= taken;
            });
        }
        found
    }

    fn shift(&mut self, class: usize, by: impl Fn(&mut usize, &mut usize)) {
        for &band in &self.classes[class].bands {
            by(&mut self.coming[band], &mut self.count[band]);
        }
    }

    /// The bases as taken, if every client can be served from them: with as few more as that needs, where it needs
    /// more.
    fn serves(&mut self) -> Option<Vec<u32>> {
        let mut chosen = self.always.clone();
        for (class, &taken) in self.classes.iter().zip(&self.taken) {
            chosen.extend(&class.sites[..taken]);
        }
        let mut count = self.count.clone();
        for kind in 0..self.rules.kinds as u32 {
            let mut own: Vec<u32> =
                chosen.iter().copied().filter(|&site| self.rules.kind[site as usize] == kind).collect();
            let had = own.len();
            self.add_until_served(kind, &mut own, self.looks - (chosen.len() - had), &mut count)?;
            chosen.extend(&own[had..]);
        }
        Some(chosen)
    }

    /// Adds bases of a kind to those that it has, as few as its clients need, up to `most` in all.
    fn add_until_served(
        &mut self,
        kind: u32,
        own: &mut Vec<u32>,
        most: usize,
        count: &mut [usize],
    ) -> Option<()> {
        let needs_one = !self.rules.may_go_without && !self.rules.clients.is_empty();
        let (rules, is_unsure) = (self.rules, &mut self.is_unsure);
        let mut can = |own: &[u32]| {
            if needs_one && own.is_empty() {
                return false;
            }
            let tied = tie(rules, own, &|_, _| 0.0);
            *is_unsure |= tied == Err(Unserved::GaveUp);
            tied.is_ok()
        };
        if can(own) {
            return Some(());
        }
        for (class, &taken) in self.classes.iter().zip(&self.taken) {
            if !class.fills || self.rules.kind[class.sites[0] as usize] != kind {
                continue;
            }
            for &site in &class.sites[taken..] {
                let room = class.bands.iter().all(|&band| count[band] < self.rules.bands[band].most);
                if !room || own.len() >= most {
                    break;
                }
                own.push(site);
                class.bands.iter().for_each(|&band| count[band] += 1);
                if can(own) {
                    return Some(());
                }
            }
        }
        None
    }
}
