//! Some set of bases that keeps the wishes, whatever it costs; or that there is none, and which wishes see to that.
//!
//! Sites that no wish tells apart are of one class, so that only their number counts. The band that leaves the least
//! choice is served first, from the class that serves most bands at once: with one more base of it, and then with none,
//! turning back where what is lacking needs more bases than are left.

use std::collections::BTreeMap;

use super::control::Control;
use super::knot::{Unserved, tie_within};
use super::rules::{Rules, Site};
use crate::gather::problem::{Problem, Wish};

/// How much is spent on one arrangement. Beyond, it counts as not found, and as not proved impossible.
#[derive(Clone, Copy, Debug)]
pub struct Effort {
    /// Steps of the search.
    tries: usize,
    /// Steps of serving clients from what it finds: see [`tie_within`].
    knots: usize,
}

impl Effort {
    /// For an answer.
    pub const FULL: Self = Self { tries: 50_000, knots: 500_000 };
    /// For one of many questions.
    const SMALL: Self = Self { tries: 2_500, knots: 20_000 };

    /// More of it.
    fn more(self) -> Self {
        Self { tries: self.tries.saturating_mul(8), knots: self.knots.saturating_mul(8) }
    }
}

/// How often more is spent where nothing was found and nothing forbids it.
const AGAIN: usize = 6;

/// So many choices deep it is given up: each holds a frame of the stack.
const DEEPEST: usize = 1_000;

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
pub fn arrange(rules: &Rules, looks: usize, effort: Effort, control: &Control<'_>) -> Arranged {
    let looks = looks.min(rules.most);
    if rules.contradiction || needed(rules) > looks {
        return Arranged::Impossible;
    }
    let mut search = Search::new(rules, looks, effort, control);
    match search.go() {
        Some(mut chosen) => {
            chosen.sort_unstable();
            Arranged::Found(chosen)
        }
        None if search.left.tries == 0 || search.is_unsure => Arranged::Unknown,
        None => Arranged::Impossible,
    }
}

/// Bases that are needed at least for clients that are kept apart; none where these may be in no look.
fn needed(rules: &Rules) -> usize {
    if rules.may_go_without { 0 } else { (0..rules.kinds as u32).map(|kind| rules.needs(kind)).sum() }
}

/// Looks for the fewest bases, at most `looks`, that keep the rules; also whether there are surely none with fewer.
fn arrange_fewest(rules: &Rules, looks: usize, effort: Effort, control: &Control<'_>) -> (Arranged, bool) {
    let mut best = arrange(rules, looks, effort, control);
    while let Arranged::Found(chosen) = &best {
        let Some(fewer) = chosen.len().checked_sub(1) else { break };
        match arrange(rules, fewer, effort, control) {
            found @ Arranged::Found(_) => best = found,
            Arranged::Impossible => break,
            Arranged::Unknown => return (best, false),
        }
    }
    (best, true)
}

/// The parts of a problem under its wishes, each with the fewest bases that keep them. What is not decided is tried
/// again with more effort, as long as the search may go on; where its steps are counted, that would not be the same
/// search.
///
/// # Errors
/// What came of a part for which none were found.
pub fn begin(problem: &Problem, control: &Control<'_>) -> Result<Vec<(Rules, Vec<u32>)>, Arranged> {
    let wishes: Vec<&Wish> = problem.wishes().iter().collect();
    let mut effort = Effort::FULL;
    for _ in 0..AGAIN {
        match arrange_parts(problem, &wishes, effort, control) {
            Err(Arranged::Unknown) if !control.counts_steps() && !control.is_over() => effort = effort.more(),
            decided => return decided,
        }
    }
    arrange_parts(problem, &wishes, effort, control)
}

/// Which of a problem's wishes, of which it is known that they cannot all hold, clash; and whether every one of them
/// surely has a part in it: any left out, the others can hold. None are named where not even no wish at all would help.
pub fn clash(problem: &Problem, control: &Control<'_>) -> (Vec<Wish>, bool) {
    let mut kept: Vec<&Wish> = problem.wishes().iter().collect();
    // What stays undecided among many wishes may be decided among the fewer that are left.
    loop {
        let (before, mut unsure) = (kept.len(), false);
        for wish in problem.wishes() {
            if control.is_over() {
                return (kept.into_iter().cloned().collect(), false);
            }
            let without: Vec<&Wish> =
                kept.iter().copied().filter(|kept| !std::ptr::eq(*kept, wish)).collect();
            if without.len() == kept.len() {
                continue;
            }
            match arrange_parts(problem, &without, Effort::SMALL, control) {
                Err(Arranged::Impossible) => kept = without,
                Err(_) => unsure = true,
                Ok(_) => {}
            }
        }
        if !unsure || kept.len() == before {
            return (kept.into_iter().cloned().collect(), !unsure);
        }
    }
}

/// The parts of a problem under some of its wishes, each with the fewest bases that keep them.
fn arrange_parts(
    problem: &Problem,
    wishes: &[&Wish],
    effort: Effort,
    control: &Control<'_>,
) -> Result<Vec<(Rules, Vec<u32>)>, Arranged> {
    // Where there is nothing to choose from there are no parts, and so none that could find this out.
    let lacks = |wish: &Wish| matches!(wish, Wish::AtLeast(group, least) if group.members.len() < *least);
    if wishes.iter().any(|wish| lacks(wish)) {
        return Err(Arranged::Impossible);
    }
    let (mut left, mut are_fewest) = (problem.looks(), true);
    let arrange = |rules: Rules| match arrange_fewest(&rules, left, effort, control) {
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
    /// How many of the sites are taken, the first.
    taken: usize,
    /// Whether no more of them are to be taken.
    closed: bool,
}

struct Search<'a> {
    rules: &'a Rules,
    looks: usize,
    classes: Vec<Class>,
    /// The classes that have sites in each band.
    of_band: Vec<Vec<usize>>,
    always: Vec<u32>,
    /// Bases in each band so far.
    count: Vec<usize>,
    total: usize,
    left: Effort,
    /// Whether some bases might serve after all.
    is_unsure: bool,
    /// How many choices lie before the one that is made now.
    depth: usize,
    control: &'a Control<'a>,
}

/// What is still lacking, and what there is to make it good.
struct Lack {
    /// Bands that lack bases, and how many.
    bands: Vec<(usize, usize)>,
    /// How many more bases each class can give.
    open: Vec<usize>,
    /// How many lacking bands a base of each open class serves, and the class.
    served: Vec<(usize, usize)>,
}

impl<'a> Search<'a> {
    fn new(rules: &'a Rules, looks: usize, left: Effort, control: &'a Control<'a>) -> Self {
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
            taken: 0,
            closed: false,
        };
        let mut classes: Vec<Class> = classes.into_iter().map(class).collect();
        // Tied sites last: those are hardest to serve from.
        classes.sort_by_key(|class| !class.fills);
        let mut of_band = vec![Vec::new(); rules.bands.len()];
        for (at, class) in classes.iter().enumerate() {
            class.bands.iter().for_each(|&band| of_band[band].push(at));
        }
        let total = always.len();
        Self {
            rules,
            looks,
            classes,
            of_band,
            always,
            count,
            total,
            left,
            is_unsure: false,
            depth: 0,
            control,
        }
    }

    /// Some bases besides those taken, of classes that are not closed, that keep the rules.
    fn go(&mut self) -> Option<Vec<u32>> {
        let mut closed = Vec::new();
        let mut is_new = true;
        let found = loop {
            if self.left.tries == 0 || self.left.knots == 0 || self.depth > DEEPEST {
                self.left.tries = 0;
                break None;
            }
            self.left.tries -= 1;
            if self.left.tries.is_multiple_of(64) && self.control.is_over() {
                self.left.tries = 0;
                break None;
            }
            let Some(lack) = self.lack() else { break None };
            if lack.bands.is_empty() && std::mem::take(&mut is_new) {
                let served = self.serves();
                if served.is_some() {
                    break served;
                }
            }
            let Some((at, by)) = self.pick(&lack) else { break None };
            self.take(at, by);
            self.depth += 1;
            let found = self.go();
            self.depth -= 1;
            if found.is_some() {
                break found;
            }
            self.take(at, -by);
            self.classes[at].closed = true;
            closed.push(at);
        };
        for at in closed {
            self.classes[at].closed = false;
        }
        found
    }

    fn take(&mut self, at: usize, by: isize) {
        let class = &mut self.classes[at];
        class.taken = class.taken.saturating_add_signed(by);
        self.total = self.total.saturating_add_signed(by);
        for &band in &class.bands {
            self.count[band] = self.count[band].saturating_add_signed(by);
        }
    }

    /// What is lacking; `None` where it can no longer be made good.
    fn lack(&self) -> Option<Lack> {
        let bands = &self.rules.bands;
        if self.total > self.looks || bands.iter().zip(&self.count).any(|(band, &count)| count > band.most) {
            return None;
        }
        let spare = self.looks - self.total;
        let open = |class: &Class| {
            let room = class.bands.iter().map(|&band| bands[band].most - self.count[band]).min();
            let left = if class.closed { 0 } else { class.sites.len() - class.taken };
            left.min(room.unwrap_or(usize::MAX)).min(spare)
        };
        let open: Vec<usize> = self.classes.iter().map(open).collect();
        let mut lacking = Vec::new();
        for (at, band) in bands.iter().enumerate() {
            let missing = band.least.saturating_sub(self.count[at]);
            if missing > self.of_band[at].iter().map(|&class| open[class]).sum() {
                return None;
            }
            if missing > 0 {
                lacking.push((at, missing));
            }
        }
        let mut served: Vec<(usize, usize)> = (0..self.classes.len()).map(|class| (0, class)).collect();
        for &(band, _) in &lacking {
            self.of_band[band].iter().for_each(|&class| served[class].0 += 1);
        }
        served.retain(|&(_, class)| open[class] > 0);
        let lack = Lack { bands: lacking, open, served };
        (self.fewest_more(&lack) <= spare).then_some(lack)
    }

    /// More bases than this are surely needed, or just as many: what bands without a class in common lack, or as many as
    /// make all lacks good if every base went where it serves most bands.
    fn fewest_more(&self, lack: &Lack) -> usize {
        let mut most_first = lack.bands.clone();
        most_first.sort_by_key(|&(band, missing)| (std::cmp::Reverse(missing), band));
        let mut claimed = vec![false; self.classes.len()];
        let mut apart = 0;
        for (band, missing) in most_first {
            let open = || self.of_band[band].iter().filter(|&&class| lack.open[class] > 0);
            if open().all(|&class| !claimed[class]) {
                apart += missing;
                open().for_each(|&class| claimed[class] = true);
            }
        }
        let mut served = lack.served.clone();
        served.sort_unstable_by_key(|&(bands, _)| std::cmp::Reverse(bands));
        let (mut left, mut at_best) = (lack.bands.iter().map(|(_, missing)| missing).sum::<usize>(), 0);
        for (bands, class) in served {
            if left == 0 || bands == 0 {
                break;
            }
            let more = left.div_ceil(bands).min(lack.open[class]);
            at_best += more;
            left = left.saturating_sub(more * bands);
        }
        apart.max(at_best)
    }

    /// The class to take bases of next, and how many: of the band that leaves the least choice the one that serves most
    /// bands; where nothing is lacking, any. What other classes cannot make good is taken of it at once.
    fn pick(&self, lack: &Lack) -> Option<(usize, isize)> {
        let choice = |&(band, missing): &(usize, usize)| {
            self.of_band[band].iter().map(|&class| lack.open[class]).sum::<usize>() - missing
        };
        let tightest = lack.bands.iter().min_by_key(|band| choice(band));
        let serves = |class: usize| tightest.is_none_or(|(band, _)| self.classes[class].bands.contains(band));
        let candidates = || lack.served.iter().filter(|&&(_, class)| serves(class)).copied();
        // Of equals the first.
        let (_, best) = candidates().max_by_key(|&(bands, class)| (bands, std::cmp::Reverse(class)))?;
        let others =
            candidates().filter(|&(_, class)| class != best).map(|(_, class)| lack.open[class]).sum();
        let must = tightest.map_or(0, |(_, missing)| missing.saturating_sub(others));
        Some((best, isize::try_from(must.max(1)).unwrap_or(1)))
    }

    /// The bases as taken, if every client can be served from them: with as few more as that needs, where it needs
    /// more.
    fn serves(&mut self) -> Option<Vec<u32>> {
        let mut chosen = self.always.clone();
        for class in &self.classes {
            chosen.extend(&class.sites[..class.taken]);
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
        let (rules, is_unsure, knots) = (self.rules, &mut self.is_unsure, &mut self.left.knots);
        let mut can = |own: &[u32]| {
            if needs_one && own.is_empty() {
                return false;
            }
            let tied = tie_within(rules, own, &|_, _| 0.0, knots);
            *is_unsure |= tied == Err(Unserved::GaveUp);
            tied.is_ok()
        };
        if can(own) {
            return Some(());
        }
        for class in &self.classes {
            if !class.fills || self.rules.kind[class.sites[0] as usize] != kind {
                continue;
            }
            for &site in &class.sites[class.taken..] {
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
