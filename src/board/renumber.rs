//! What becomes of scene numbers elsewhere on the board when scenes are numbered anew or cut.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::{Meeting, Records, SceneNumber, Stop};

/// What becomes of each scene's number; `None` where the scene is cut. Scenes that it does not name keep theirs.
pub type Renumbering = BTreeMap<SceneNumber, Option<SceneNumber>>;

/// Lets every record that names scenes follow; the scenes themselves are the caller's. All numbers change at once, so two
/// may change places. A kind of record that names scenes has its line here. `added` are the numbers of scenes that were
/// on the board under none.
pub fn follow(records: &mut Records, renumbering: &Renumbering, added: &BTreeSet<SceneNumber>) {
    let taken: BTreeSet<&SceneNumber> = added.iter().chain(renumbering.values().flatten()).collect();
    let mut schedule = Vec::clone(&records.schedule);
    for day in &mut schedule {
        follow_list(&mut day.scenes, renumbering);
    }
    if schedule != *records.schedule {
        records.schedule = Arc::new(schedule);
    }
    for meeting in records.meetings.values_mut() {
        let mut minutes = Meeting::clone(meeting);
        let decisions = minutes.decisions.iter_mut().map(|one| &mut one.at);
        decisions
            .chain(minutes.questions.iter_mut().map(|one| &mut one.at))
            .for_each(|at| follow_stop(at, renumbering, &taken));
        if minutes != **meeting {
            *meeting = Arc::new(minutes);
        }
    }
}

/// The stop of something that was said. What was said of a scene that is cut, now or by an earlier draft, stays said of
/// it, unless another scene takes its number: then it is said of the whole board, for it is not said of that one.
fn follow_stop(stop: &mut Stop, renumbering: &Renumbering, taken: &BTreeSet<&SceneNumber>) {
    let Stop::Scene(number) = stop else { return };
    if let Some(Some(becomes)) = renumbering.get(number) {
        *number = becomes.clone();
    } else if taken.contains(number) {
        *stop = Stop::Board;
    }
}

/// A list of numbers, without those of scenes that are cut.
fn follow_list(numbers: &mut Vec<SceneNumber>, renumbering: &Renumbering) {
    let becomes = |number: SceneNumber| renumbering.get(&number).map_or(Some(number.clone()), Option::clone);
    *numbers = std::mem::take(numbers).into_iter().filter_map(becomes).collect();
}

#[cfg(test)]
mod tests {
    use super::super::sample::{id, number, records};
    use super::*;
    use crate::board::Question;

    #[test]
    fn the_schedule_follows_numbers_that_change_places_and_forgets_those_that_are_cut() {
        let mut records = records();
        let renumbering = [
            (number("2"), Some(number("3"))),
            (number("3"), Some(number("2"))),
            (number("3A"), None),
            (number("77"), None),
        ];
        follow(&mut records, &renumbering.into_iter().collect(), &BTreeSet::new());
        let days: Vec<_> = records.schedule.iter().map(|day| day.scenes.clone()).collect();
        assert_eq!(days, [vec![number("3")], vec![number("2")]]);
    }

    #[test]
    fn what_was_said_follows_its_scene_and_is_never_said_of_another() {
        let mut records = records();
        let said = |at: &str| Question {
            question: at.to_owned(),
            at: at.parse().unwrap(),
            owner: String::new(),
            due: None,
            answer: String::new(),
        };
        let questions = [
            "scene 1",
            "scene 2",
            "scene 3",
            "scene 4",
            "scene 5",
            "scene 6",
            "scene 7",
            "scene 8",
            "look club",
        ];
        let questions = questions.map(said).to_vec();
        let meeting = Meeting { questions, ..Meeting::default() };
        records.meetings.insert(id("2026-11-25"), Arc::new(meeting));
        let renumbering = [
            (number("2"), Some(number("1A"))),
            (number("3"), None),
            (number("3A"), Some(number("3"))),
            (number("4"), None),
            (number("5"), None),
            (number("9"), Some(number("8"))),
        ];
        let added = [number("5"), number("7")].into();
        follow(&mut records, &renumbering.into_iter().collect(), &added);
        let stops = records.meetings[&id("2026-11-25")].questions.iter().map(|one| one.at.to_string());
        assert_eq!(
            stops.collect::<Vec<_>>(),
            ["scene 1", "scene 1A", "board", "scene 4", "board", "scene 6", "board", "board", "look club"],
            "3 and 5 are other scenes now; 4 is nobody's, as 6 was before; 7 and 8 were nobody's and are somebody's"
        );
    }

    #[test]
    fn records_that_name_none_of_the_scenes_are_shared_with_those_before() {
        let mut after = records();
        let schedule = Arc::clone(&after.schedule);
        follow(&mut after, &[(number("1"), Some(number("77")))].into_iter().collect(), &BTreeSet::new());
        assert!(Arc::ptr_eq(&after.schedule, &schedule));
    }
}
