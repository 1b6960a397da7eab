//! How alike a scene of one draft is to a scene of another, from 0 to 1.
//!
//! A weighted mean over what both sides tell, in the manner of Gower (the weights are ours): the number, the heading, who
//! is there, and the words. Words count by how rare they are, and as much is shared as the shorter text has, so that a
//! board's one line is like the scene that it sums up. The place in the story only decides between equals.

use std::collections::HashMap;

use super::cast::words;
use super::draft::{Draft, DraftScene};
use crate::board::{CharacterId, SceneNumber};

/// From here on two scenes can be one.
pub(super) const ENOUGH: f64 = 0.55;

const NUMBER: f64 = 0.25;
/// Scripts are numbered anew, so another number says less than the same one.
const OTHER_NUMBER: f64 = 0.10;
const HEADING: f64 = 0.30;
const PEOPLE: f64 = 0.15;
const WORDS: f64 = 0.40;
const ORDER: f64 = 0.03;

/// What a text of fewer words than this shares says less.
const FEW: f64 = 3.0;
/// A text that is all in the other, however short, is at least so alike.
const WITHIN: f64 = 0.5;
/// How alike words are to none: less than any text that is in the other.
const NO_WORDS: f64 = 0.35;

/// A word in more scenes than this, and in every third, tells none apart and is passed over.
const EVERYWHERE: usize = 32;

/// Two drafts, ready to be compared scene by scene.
pub(super) struct Likeness<'a> {
    before: Vec<Profile<'a>>,
    after: Vec<Profile<'a>>,
    /// The weight of each word.
    weights: Vec<f64>,
    /// The scenes of the second draft in which each word is.
    places: Vec<Vec<usize>>,
    few: f64,
}

struct Profile<'a> {
    scene: &'a DraftScene,
    heading: String,
    /// Pairs of letters of the set, in order.
    letters: Vec<[char; 2]>,
    words: Vec<usize>,
    weight: f64,
}

impl<'a> Likeness<'a> {
    pub fn new(before: &'a Draft, after: &'a Draft) -> Self {
        let mut known = HashMap::new();
        let mut profiles = |draft: &'a Draft| -> Vec<Profile<'a>> {
            draft.scenes.iter().map(|scene| Profile::of(scene, &mut known)).collect()
        };
        let (mut before, mut after) = (profiles(before), profiles(after));
        let mut scenes = vec![0_usize; known.len()];
        for word in before.iter().chain(&after).flat_map(|profile| &profile.words) {
            scenes[*word] += 1;
        }
        let all = before.len() + after.len();
        let weigh = |count: usize| {
            if count > EVERYWHERE && count > all / 3 { 0.0 } else { ((all + 1) as f64 / count as f64).ln() }
        };
        let weights: Vec<f64> = scenes.into_iter().map(weigh).collect();
        for profile in before.iter_mut().chain(&mut after) {
            profile.words.retain(|word| weights[*word] > 0.0);
            profile.weight = profile.words.iter().map(|word| weights[*word]).sum();
        }
        let mut places = vec![Vec::new(); weights.len()];
        for (at, profile) in after.iter().enumerate() {
            for word in &profile.words {
                places[*word].push(at);
            }
        }
        let few = FEW * ((all + 1) as f64).ln();
        Self { before, after, weights, places, few }
    }

    /// How alike a scene of the first draft is to each of the second.
    pub fn row(&self, at: usize) -> Vec<f64> {
        let one = &self.before[at];
        let mut shared = vec![0.0; self.after.len()];
        for word in &one.words {
            for place in &self.places[*word] {
                shared[*place] += self.weights[*word];
            }
        }
        let place = |at: usize, of: usize| (at as f64 + 0.5) / of as f64;
        let here = place(at, self.before.len());
        let alike = |(to, shared): (usize, f64)| {
            let there = place(to, self.after.len());
            let order = ORDER * (1.0 - (here - there).abs());
            self.alike(one, &self.after[to], shared) + order
        };
        shared.into_iter().enumerate().map(alike).collect()
    }

    fn alike(&self, one: &Profile<'_>, other: &Profile<'_>, shared: f64) -> f64 {
        let parts = [
            numbers(one.scene.number.as_ref(), other.scene.number.as_ref()),
            headings(one, other).map(|alike| (HEADING, alike)),
            people(one.scene, other.scene).map(|alike| (PEOPLE, alike)),
            self.words(one, other, shared).map(|alike| (WORDS, alike)),
        ];
        let (sum, weight) = parts
            .into_iter()
            .flatten()
            .fold((0.0, 0.0), |(sum, all), (weight, alike)| (sum + weight * alike, all + weight));
        if weight > 0.0 { sum / weight } else { 0.0 }
    }

    fn words(&self, one: &Profile<'_>, other: &Profile<'_>, shared: f64) -> Option<f64> {
        match (one.words.is_empty(), other.words.is_empty()) {
            (true, true) => return None,
            (false, false) => {}
            _ => return Some(NO_WORDS),
        }
        if one.words == other.words {
            return Some(1.0);
        }
        let shorter = one.weight.min(other.weight);
        let alike = (shared / shorter.max(self.few)).min(1.0);
        // The sums come in another order, and so may differ in the last digit.
        Some(if shared >= shorter * 0.999 { alike.max(WITHIN) } else { alike })
    }
}

impl<'a> Profile<'a> {
    fn of(scene: &'a DraftScene, known: &mut HashMap<String, usize>) -> Self {
        let mut words: Vec<usize> = words(&scene.words)
            .into_iter()
            .map(|word| {
                let next = known.len();
                *known.entry(word).or_insert(next)
            })
            .collect();
        words.sort_unstable();
        words.dedup();
        Self { scene, heading: same_heading(&scene.heading), letters: pairs(&scene.set), words, weight: 0.0 }
    }
}

/// A heading as it is compared: case, accents, dashes and spaces make no difference.
pub(super) fn same_heading(heading: &str) -> String {
    words(heading).join(" ")
}

fn pairs(text: &str) -> Vec<[char; 2]> {
    let letters: Vec<char> = format!(" {} ", same_heading(text)).chars().collect();
    let mut pairs: Vec<[char; 2]> = letters.windows(2).map(|pair| [pair[0], pair[1]]).collect();
    pairs.sort_unstable();
    pairs
}

fn numbers(one: Option<&SceneNumber>, other: Option<&SceneNumber>) -> Option<(f64, f64)> {
    let (one, other) = one.zip(other)?;
    Some(if one == other { (NUMBER, 1.0) } else { (OTHER_NUMBER, 0.0) })
}

/// The pairs of letters that two sets share (Dice 1945, for words Sørensen 1948), and whether place and light agree.
fn headings(one: &Profile<'_>, other: &Profile<'_>) -> Option<f64> {
    if one.scene.set.is_empty() || other.scene.set.is_empty() {
        return None;
    }
    if !one.heading.is_empty() && one.heading == other.heading {
        return Some(1.0);
    }
    let share = |agrees: bool| if agrees { 0.1 } else { 0.0 };
    let place = share(agree(one.scene.place, other.scene.place));
    let light = share(agree(one.scene.light, other.scene.light));
    Some(0.8 * dice(&one.letters, &other.letters) + place + light)
}

fn agree<T: PartialEq>(one: Option<T>, other: Option<T>) -> bool {
    one.zip(other).is_none_or(|(one, other)| one == other)
}

fn dice(one: &[[char; 2]], other: &[[char; 2]]) -> f64 {
    let (mut a, mut b, mut both) = (0, 0, 0);
    while let (Some(x), Some(y)) = (one.get(a), other.get(b)) {
        match x.cmp(y) {
            std::cmp::Ordering::Less => a += 1,
            std::cmp::Ordering::Greater => b += 1,
            std::cmp::Ordering::Equal => (a, b, both) = (a + 1, b + 1, both + 1),
        }
    }
    2.0 * f64::from(both) / (one.len() + other.len()).max(1) as f64
}

/// Whom both show, of all that either shows; whom the other side only names counts for neither.
fn people(one: &DraftScene, other: &DraftScene) -> Option<f64> {
    if one.present.is_empty() && other.present.is_empty() {
        return None;
    }
    let only = |here: &DraftScene, there: &DraftScene| {
        let missing = |id: &&CharacterId| !there.present.contains(id) && !there.named.contains(id);
        here.present.iter().filter(missing).count()
    };
    let both = one.present.iter().filter(|id| other.present.contains(id)).count();
    let all = both + only(one, other) + only(other, one);
    (all > 0).then(|| both as f64 / all as f64)
}
