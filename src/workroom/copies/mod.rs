//! How many copies of one version of a piece are needed, and where each is on each day.
//!
//! Copies of one version in one size are as good as each other, so a use takes any that are ready. What is needed is then
//! the most that are out of hand at once: those in use, those at the cleaner's, and those that are gone. Fewer cannot do,
//! since at that moment all of them are out; as many do, since each use finds one ready. Tests hold it to a search through
//! every way to hand copies out.

pub mod plan;

use std::collections::BTreeMap;

/// One use of a version, on one shooting day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Use {
    /// The day. Days are counted without gaps; which day is the first is the caller's.
    pub day: i64,
    /// How many copies it takes: one, or one for each take where every take needs a fresh one.
    pub takes: u32,
    /// When they can be used again.
    pub back: Back,
}

/// When a copy that was used can be used again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Back {
    /// After so many days: 0 at once, 1 on the next day.
    After(u32),
    /// Never: it is torn, burnt or cut.
    Never,
}

/// How many copies are needed, and why.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Need {
    /// So many.
    pub copies: u32,
    /// The use, by its place, at which they are all out of hand; the first such. `None` without uses.
    pub fullest: Option<usize>,
    /// How many are out of hand at each use, with what it takes itself.
    pub out: Vec<u32>,
}

/// Where a copy is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Whereabouts {
    /// In front of the camera.
    Used,
    /// Being cleaned, dried or mended.
    Away,
    /// Never to be used again.
    Gone,
}

/// How many copies some uses need. They are in shooting order: no use is on an earlier day than the one before it.
pub fn need(uses: &[Use]) -> Need {
    debug_assert!(uses.is_sorted_by_key(|one| one.day), "uses are in shooting order");
    let mut away: BTreeMap<i64, u32> = BTreeMap::new();
    let (mut gone, mut need) = (0_u32, Need::default());
    for (at, one) in uses.iter().enumerate() {
        away = away.split_off(&(one.day + 1));
        let out =
            away.values().fold(gone, |out, copies| out.saturating_add(*copies)).saturating_add(one.takes);
        match one.back {
            Back::After(days) => {
                let copies = away.entry(one.day + i64::from(days)).or_default();
                *copies = copies.saturating_add(one.takes);
            }
            Back::Never => gone = gone.saturating_add(one.takes),
        }
        if out > need.copies || need.fullest.is_none() {
            (need.copies, need.fullest) = (out, Some(at));
        }
        need.out.push(out);
    }
    need
}

/// Which copies each use takes, by their numbers from 0: of those that are ready, the lowest. With fewer `copies` than
/// are needed, a use takes as many as are ready.
pub fn hand_out(uses: &[Use], copies: u32) -> Vec<Vec<u32>> {
    // The day from which each is ready; `None` once it is gone. What the first few do is the same however many follow.
    let mut ready: Vec<Option<i64>> = vec![Some(i64::MIN); copies as usize];
    let mut taken = Vec::with_capacity(uses.len());
    for one in uses {
        let at_hand = (0..).zip(&ready).filter(|(_, from)| from.is_some_and(|from| from <= one.day));
        let takes: Vec<u32> = at_hand.map(|(copy, _)| copy).take(one.takes as usize).collect();
        for copy in &takes {
            if let Some(from) = ready.get_mut(*copy as usize) {
                *from = match one.back {
                    Back::After(days) => Some(one.day + i64::from(days)),
                    Back::Never => None,
                };
            }
        }
        taken.push(takes);
    }
    taken
}

/// Where one copy is on each of some days; `None` where it hangs ready. In use on a day on which it also goes away, it is
/// seen, and that is what the day is for.
pub fn whereabouts(
    uses: &[Use],
    handed_out: &[Vec<u32>],
    copy: u32,
    days: &[i64],
) -> Vec<Option<Whereabouts>> {
    let has_it = |(one, takes): (&Use, &Vec<u32>)| takes.binary_search(&copy).is_ok().then_some(*one);
    let own: Vec<Use> = uses.iter().zip(handed_out).filter_map(has_it).collect();
    let on = |day: &i64| {
        // It was ready again when it was last taken, so where it is rests on that alone.
        let last = own.get(own.partition_point(|one| one.day <= *day).checked_sub(1)?)?;
        match last.back {
            _ if last.day == *day => Some(Whereabouts::Used),
            Back::After(away) => (*day < last.day + i64::from(away)).then_some(Whereabouts::Away),
            Back::Never => Some(Whereabouts::Gone),
        }
    };
    days.iter().map(on).collect()
}

#[cfg(test)]
mod tests;
