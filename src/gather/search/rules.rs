//! What may be chosen, whatever it costs: the wishes of a problem, sorted into parts that share nothing but the number
//! of looks.
//!
//! Inside a part an outfit is a *site*, a place where a base may stand, and outfits that must always share a look are
//! one *client*, to be served by one base. Sites and clients are numbered from 0 within their part.

use std::collections::{BTreeMap, BTreeSet};

use crate::gather::problem::{Problem, Wish};

/// Whether a base may stand at a site.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Site {
    /// That is for the search to find out.
    Free,
    /// There must be one.
    In,
    /// There must be none.
    Out,
}

/// At least and at most so many bases at some sites.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Band {
    /// The sites, ascending.
    pub sites: Vec<u32>,
    /// The fewest bases.
    pub least: usize,
    /// The most bases.
    pub most: usize,
}

/// The rules of one part.
#[derive(Clone, Debug)]
pub struct Rules {
    /// The outfit at each site, ascending.
    pub outfits: Vec<usize>,
    /// The kind of each site, numbered from 0 within the part.
    pub kind: Vec<u32>,
    /// How many kinds there are in the part.
    pub kinds: usize,
    /// Whether a kind may go without any look, and so may a client that wishes keep apart or together.
    pub may_go_without: bool,
    /// What is asked of each site.
    pub asked: Vec<Site>,
    /// The sites of the outfits of each client.
    pub clients: Vec<Vec<u32>>,
    /// The client of the outfit at each site.
    pub client_of: Vec<u32>,
    /// For each client, those that it must not share a look with.
    pub apart: Vec<Vec<u32>>,
    /// Clients that wishes bind, by the groups in which they are served at once; each group is of one kind.
    pub tied: Vec<Vec<u32>>,
    /// Of each of these groups, how many of its clients at least are all apart from each other: as many bases as that
    /// its kind needs, unless they may go without.
    pub apart_at_once: Vec<usize>,
    /// How many bases there may be where, but for how many in all.
    pub bands: Vec<Band>,
    /// The most bases in all.
    pub most: usize,
    /// Two wishes contradict each other outright.
    pub contradiction: bool,
}

impl Rules {
    /// The parts of a problem under some of its wishes, by their lowest outfit.
    pub fn parts(problem: &Problem, wishes: &[&Wish]) -> Vec<Self> {
        let kinds: Vec<u32> = (0..problem.outfits()).map(|outfit| problem.kind(outfit)).collect();
        let mut united = Sets::of_labels(&kinds);
        for wish in wishes {
            if let Wish::AtMost(group, _) | Wish::AtLeast(group, _) = wish {
                for pair in group.members.windows(2) {
                    united.unite(pair[0], pair[1]);
                }
            }
        }
        let mut parts: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for outfit in 0..problem.outfits() {
            parts.entry(united.root(outfit)).or_default().push(outfit);
        }
        let mut parts: Vec<_> = parts.into_values().collect();
        parts.sort();
        parts.into_iter().map(|outfits| Self::of(problem, wishes, outfits, &kinds)).collect()
    }

    fn of(problem: &Problem, wishes: &[&Wish], outfits: Vec<usize>, kinds: &[u32]) -> Self {
        let n = outfits.len();
        let site: BTreeMap<usize, u32> = outfits.iter().zip(0..).map(|(&outfit, at)| (outfit, at)).collect();
        let names: BTreeSet<u32> = outfits.iter().map(|&outfit| kinds[outfit]).collect();
        let number: BTreeMap<u32, u32> = names.iter().copied().zip(0..).collect();
        let kind: Vec<u32> = outfits.iter().map(|&outfit| number[&kinds[outfit]]).collect();
        let may_go_without = problem.kinds.is_some();

        let mut asked = vec![Site::Free; n];
        let mut contradiction = false;
        let mut clusters = Sets::new(n);
        let at = |outfit: &usize| site.get(outfit).map(|&at| at as usize);
        for wish in wishes {
            match wish {
                Wish::Base(outfit) => ask(&mut asked, at(outfit), Site::In, &mut contradiction),
                Wish::NotBase(outfit) => ask(&mut asked, at(outfit), Site::Out, &mut contradiction),
                Wish::Together(one, other) => match (at(one), at(other)) {
                    (Some(one), Some(other)) if kind[one] == kind[other] => clusters.unite(one, other),
                    (None, None) => {}
                    // Outfits of two kinds share no look.
                    _ => contradiction = true,
                },
                Wish::Apart(..) | Wish::AtMost(..) | Wish::AtLeast(..) => {}
            }
        }

        let mut clients: Vec<Vec<u32>> = Vec::new();
        let mut client_of = vec![0; n];
        let mut numbered = BTreeMap::new();
        for (at, client_of) in client_of.iter_mut().enumerate() {
            let client = *numbered.entry(clusters.root(at)).or_insert_with(|| {
                clients.push(Vec::new());
                clients.len() - 1
            });
            clients[client].push(at as u32);
            *client_of = client as u32;
        }

        let mut apart = vec![BTreeSet::new(); clients.len()];
        for wish in wishes {
            let Wish::Apart(one, other) = wish else { continue };
            let (Some(one), Some(other)) = (at(one), at(other)) else { continue };
            let (a, b) = (client_of[one], client_of[other]);
            if a == b {
                contradiction = true;
            } else if kind[one] == kind[other] {
                apart[a as usize].insert(b);
                apart[b as usize].insert(a);
            }
        }

        let mut rules = Self {
            outfits,
            kind,
            kinds: names.len(),
            may_go_without,
            asked,
            clients,
            client_of,
            apart: apart.into_iter().map(|set| set.into_iter().collect()).collect(),
            tied: Vec::new(),
            apart_at_once: Vec::new(),
            bands: Vec::new(),
            most: usize::MAX,
            contradiction,
        };
        rules.tied = rules.tied_groups();
        rules.apart_at_once = rules.tied.iter().map(|group| rules.clique_in(group)).collect();
        rules.band_together(wishes, &site);
        rules
    }

    /// Gathers the bands: those that are wished, and at most one base in a client.
    fn band_together(&mut self, wishes: &[&Wish], site: &BTreeMap<usize, u32>) {
        let mut bands: BTreeMap<Vec<u32>, (usize, usize)> = BTreeMap::new();
        for wish in wishes {
            let (group, least, most) = match wish {
                Wish::AtMost(group, most) => (group, 0, *most),
                Wish::AtLeast(group, least) => (group, *least, usize::MAX),
                _ => continue,
            };
            let sites: Vec<u32> =
                group.members.iter().filter_map(|outfit| site.get(outfit).copied()).collect();
            // A group lies in one part: the sites of another are none of its members.
            if sites.len() == group.members.len() {
                narrow(&mut bands, sites, least, most);
            }
        }
        for client in self.clients.iter().filter(|client| client.len() > 1) {
            narrow(&mut bands, client.clone(), 0, 1);
        }
        for (sites, (least, mut most)) in bands {
            if sites.len() == self.outfits.len() {
                self.most = most;
                most = usize::MAX;
            }
            if least > most.min(sites.len()) {
                self.contradiction = true;
            }
            if least > 0 || most < sites.len() {
                self.bands.push(Band { sites, least, most });
            }
        }
    }

    fn tied_groups(&self) -> Vec<Vec<u32>> {
        let mut seen = vec![false; self.clients.len()];
        let mut groups = Vec::new();
        for first in (0..self.clients.len()).filter(|&client| self.is_tied(client)) {
            let mut group = Vec::new();
            let mut next = vec![first];
            while let Some(client) = next.pop() {
                if !std::mem::replace(&mut seen[client], true) {
                    group.push(client as u32);
                    next.extend(self.apart[client].iter().map(|&other| other as usize));
                }
            }
            if !group.is_empty() {
                group.sort_unstable();
                groups.push(group);
            }
        }
        groups
    }

    /// How many clients of a group, found one after another, are all apart from each other.
    fn clique_in(&self, group: &[u32]) -> usize {
        let apart = |client: u32, other: u32| self.apart[client as usize].contains(&other);
        let mut by_ties = group.to_vec();
        by_ties.sort_by_key(|&client| std::cmp::Reverse(self.apart[client as usize].len()));
        let from = |first: usize| {
            let mut clique: Vec<u32> = Vec::new();
            for &client in by_ties[first..].iter().chain(&by_ties[..first]) {
                if clique.iter().all(|&other| apart(client, other)) {
                    clique.push(client);
                }
            }
            clique.len()
        };
        (0..by_ties.len().min(16)).map(from).max().unwrap_or(0)
    }

    /// The fewest bases that a kind needs for its clients that are kept apart, if none of them may go without.
    pub fn needs(&self, kind: u32) -> usize {
        let of_kind =
            self.tied.iter().zip(&self.apart_at_once).filter(|(group, _)| self.kind_of(group[0]) == kind);
        of_kind.map(|(_, apart)| *apart).max().unwrap_or(0)
    }

    /// The kind of a client.
    pub fn kind_of(&self, client: u32) -> u32 {
        self.kind[self.clients[client as usize][0] as usize]
    }

    /// Whether a site is of a client's kind, so that it can serve it.
    pub fn is_own(&self, site: u32, client: u32) -> bool {
        self.kinds == 1 || self.kind[site as usize] == self.kind_of(client)
    }

    /// Whether a client's own bases bind it: one that is kept apart from or together with others is always in the look
    /// of a base among its outfits.
    pub fn is_tied(&self, client: usize) -> bool {
        self.clients[client].len() > 1 || !self.apart[client].is_empty()
    }
}

fn ask(asked: &mut [Site], at: Option<usize>, what: Site, contradiction: &mut bool) {
    let Some(at) = at else { return };
    if asked[at] != Site::Free && asked[at] != what {
        *contradiction = true;
    }
    asked[at] = what;
}

fn narrow(bands: &mut BTreeMap<Vec<u32>, (usize, usize)>, sites: Vec<u32>, least: usize, most: usize) {
    let band = bands.entry(sites).or_insert((0, usize::MAX));
    *band = (band.0.max(least), band.1.min(most));
}

/// Disjoint sets of numbers, each named by its lowest.
struct Sets(Vec<usize>);

impl Sets {
    fn new(n: usize) -> Self {
        Self((0..n).collect())
    }

    /// Numbers with equal labels are in one set.
    fn of_labels(labels: &[u32]) -> Self {
        let mut first = BTreeMap::new();
        Self(labels.iter().enumerate().map(|(at, label)| *first.entry(label).or_insert(at)).collect())
    }

    fn root(&mut self, mut at: usize) -> usize {
        while self.0[at] != at {
            self.0[at] = self.0[self.0[at]];
            at = self.0[at];
        }
        at
    }

    fn unite(&mut self, one: usize, other: usize) {
        let (one, other) = (self.root(one), self.root(other));
        self.0[one.max(other)] = one.min(other);
    }
}
