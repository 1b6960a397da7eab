//! What becomes of scene numbers elsewhere on the board when scenes are numbered anew or cut.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Records, SceneNumber};

/// What becomes of each scene's number; `None` where the scene is cut. Scenes that it does not name keep theirs.
pub type Renumbering = BTreeMap<SceneNumber, Option<SceneNumber>>;

/// Lets every record that names scenes follow; the scenes themselves are the caller's. All numbers change at once, so two
/// may change places. A kind of record that names scenes has its line here.
pub fn follow(records: &mut Records, renumbering: &Renumbering) {
    let mut schedule = Vec::clone(&records.schedule);
    for day in &mut schedule {
        follow_list(&mut day.scenes, renumbering);
    }
    if schedule != *records.schedule {
        records.schedule = Arc::new(schedule);
    }
}

/// A list of numbers, without those of scenes that are cut.
fn follow_list(numbers: &mut Vec<SceneNumber>, renumbering: &Renumbering) {
    let becomes = |number: SceneNumber| renumbering.get(&number).map_or(Some(number.clone()), Option::clone);
    *numbers = std::mem::take(numbers).into_iter().filter_map(becomes).collect();
}

#[cfg(test)]
mod tests {
    use super::super::sample::{number, records};
    use super::*;

    #[test]
    fn the_schedule_follows_numbers_that_change_places_and_forgets_those_that_are_cut() {
        let mut records = records();
        let renumbering = [
            (number("2"), Some(number("3"))),
            (number("3"), Some(number("2"))),
            (number("3A"), None),
            (number("77"), None),
        ];
        follow(&mut records, &renumbering.into_iter().collect());
        let days: Vec<_> = records.schedule.iter().map(|day| day.scenes.clone()).collect();
        assert_eq!(days, [vec![number("3")], vec![number("2")]]);
    }

    #[test]
    fn records_that_name_none_of_the_scenes_are_shared_with_those_before() {
        let mut after = records();
        let schedule = Arc::clone(&after.schedule);
        follow(&mut after, &[(number("1"), Some(number("77")))].into_iter().collect());
        assert!(Arc::ptr_eq(&after.schedule, &schedule));
    }
}
