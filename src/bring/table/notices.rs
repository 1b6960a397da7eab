//! What somebody should look at before a table of shooting days becomes the schedule. None of it is wrong, and none of
//! it is told that was so before.

use std::collections::{HashMap, HashSet};

use crate::board::{SceneNumber, ShootDay};
use crate::check::words::listed;

/// The scenes that fall off, and the oddities that are new.
pub(super) fn notices(before: &[ShootDay], after: &[ShootDay]) -> Vec<String> {
    let still: HashSet<&SceneNumber> = after.iter().flat_map(|day| &day.scenes).collect();
    let fallen = placed(before).into_iter().filter(|(scene, _)| !still.contains(scene));
    let fallen = fallen
        .map(|(scene, days)| format!("scene {scene} falls off the schedule: it stood on {}", named(&days)));
    let known: HashSet<String> = oddities(before).into_iter().collect();
    fallen.chain(oddities(after).into_iter().filter(|oddity| !known.contains(oddity))).collect()
}

/// Scenes that stand on several days, dates of several days, and days that are dated before an earlier one.
fn oddities(days: &[ShootDay]) -> Vec<String> {
    let several = |days: &Vec<u32>| days.len() > 1;
    let scenes = placed(days).into_iter().filter(|(_, days)| several(days));
    let scenes = scenes.map(|(scene, days)| format!("scene {scene} stands on {}", named(&days)));
    let dates = days.iter().filter_map(|day| Some((day.date.as_ref()?.to_string(), day.day)));
    let dates = grouped(dates).into_iter().filter(|(_, days)| several(days));
    let dates = dates.map(|(date, days)| format!("{date} is the date of {}", named(&days)));
    scenes.chain(dates).chain(turned_back(days)).collect()
}

fn turned_back(days: &[ShootDay]) -> Vec<String> {
    let mut dated: Vec<&ShootDay> = days.iter().filter(|day| day.date.is_some()).collect();
    dated.sort_by_key(|day| day.day);
    let mut turned = Vec::new();
    for (first, next) in dated.iter().zip(dated.iter().skip(1)) {
        let (Some(earlier), Some(later)) = (&first.date, &next.date) else { continue };
        if later.latest().zip(earlier.earliest()).is_some_and(|(later, earlier)| later < earlier) {
            turned.push(format!("day {} ({later}) is dated before day {} ({earlier})", next.day, first.day));
        }
    }
    turned
}

/// The days on which each scene stands.
fn placed(days: &[ShootDay]) -> Vec<(&SceneNumber, Vec<u32>)> {
    grouped(days.iter().flat_map(|day| day.scenes.iter().map(|scene| (scene, day.day))))
}

/// The days of each key, in the order in which the keys first come; each day once.
fn grouped<K: Clone + Eq + std::hash::Hash>(pairs: impl IntoIterator<Item = (K, u32)>) -> Vec<(K, Vec<u32>)> {
    let mut groups: Vec<(K, Vec<u32>)> = Vec::new();
    let mut places: HashMap<K, usize> = HashMap::new();
    for (key, day) in pairs {
        let at = *places.entry(key.clone()).or_insert(groups.len());
        match groups.get_mut(at) {
            Some((_, days)) if days.contains(&day) => {}
            Some((_, days)) => days.push(day),
            None => groups.push((key, vec![day])),
        }
    }
    groups
}

fn named(days: &[u32]) -> String {
    let numbers: Vec<String> = days.iter().map(ToString::to_string).collect();
    format!("{} {}", if days.len() == 1 { "day" } else { "days" }, listed(&numbers))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn days(days: &[(u32, &str, &[&str])]) -> Vec<ShootDay> {
        let day = |(day, date, scenes): &(u32, &str, &[&str])| ShootDay {
            day: *day,
            date: date.parse().ok(),
            scenes: scenes.iter().map(|scene| scene.parse().unwrap()).collect(),
            notes: String::new(),
        };
        days.iter().map(day).collect()
    }

    #[test]
    fn what_falls_off_stands_twice_or_is_dated_oddly_is_told_once_it_is_new() {
        let before = days(&[(1, "2027-07-05", &["1", "2"]), (2, "2027-07-06", &["3"]), (3, "", &["3A"])]);
        let after =
            days(&[(1, "2027-07-08", &["1"]), (2, "2027-07-06", &["3", "3A"]), (3, "2027-07-06", &["3A"])]);
        assert_eq!(
            notices(&before, &after),
            [
                "scene 2 falls off the schedule: it stood on day 1",
                "scene 3A stands on days 2 and 3",
                "2027-07-06 is the date of days 2 and 3",
                "day 2 (2027-07-06) is dated before day 1 (2027-07-08)",
            ]
        );
        assert_eq!(notices(&after, &after), [""; 0]);
    }

    #[test]
    fn a_scene_that_goes_to_another_day_and_dates_that_may_follow_each_other_are_no_matter() {
        let before = days(&[(1, "2027-07", &["1", "2"]), (2, "2027-07", &[])]);
        let after = days(&[(1, "2027-07", &["1"]), (2, "2027-07-02", &["2"])]);
        assert_eq!(notices(&before, &after), [""; 0]);
    }
}
