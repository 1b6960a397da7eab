//! What becomes of scene numbers elsewhere on the board when scenes are numbered anew or cut.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::{Meeting, Records, Scene, SceneNumber, Stop};

/// What becomes of each scene's number; `None` where the scene is cut. Scenes that it does not name keep theirs.
pub type Renumbering = BTreeMap<SceneNumber, Option<SceneNumber>>;

/// Lets every record that names scenes follow. The scenes themselves are the caller's, and are already as they become;
/// `before` is what they were. All numbers change at once, so two may change places. A kind of record that names scenes
/// has its line here.
pub fn follow(records: &mut Records, before: &[Arc<Scene>], renumbering: &Renumbering) {
    let is_there: BTreeSet<&SceneNumber> = before.iter().map(|scene| &scene.number).collect();
    let will_be: BTreeSet<&SceneNumber> = records.scenes.iter().map(|scene| &scene.number).collect();
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
            .for_each(|at| follow_stop(at, renumbering, &is_there, &will_be));
        if minutes != **meeting {
            *meeting = Arc::new(minutes);
        }
    }
}

/// The stop of something that was said. What was said of a scene that is cut, now or long ago, stays said of it, unless
/// another scene takes its number, be it a new one: then it is said of the whole board, for it is not said of that one.
fn follow_stop(
    stop: &mut Stop,
    renumbering: &Renumbering,
    is_there: &BTreeSet<&SceneNumber>,
    will_be: &BTreeSet<&SceneNumber>,
) {
    let Stop::Scene(number) = stop else { return };
    match renumbering.get(number) {
        Some(Some(becomes)) => *number = becomes.clone(),
        None if is_there.contains(number) => {}
        None | Some(None) if will_be.contains(number) => *stop = Stop::Board,
        None | Some(None) => {}
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
        let before = records.scenes.clone();
        follow(&mut records, &before, &renumbering.into_iter().collect());
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
        let stops =
            ["scene 1", "scene 2", "scene 3", "scene 4", "scene 5", "scene 6", "scene 7", "look club"];
        let questions = stops.map(said).to_vec();
        let meeting = Meeting { questions, ..Meeting::default() };
        records.meetings.insert(id("2026-11-25"), Arc::new(meeting));
        let renumbering = [
            (number("2"), Some(number("1A"))),
            (number("3"), None),
            (number("3A"), Some(number("3"))),
            (number("4"), None),
            (number("5"), None),
        ];
        let scene = |of: &str| Arc::new(Scene { number: number(of), ..Scene::clone(&records.scenes[0]) });
        let before: Vec<Arc<Scene>> = ["1", "2", "3", "3A", "4", "5"].map(scene).to_vec();
        // New scenes take the numbers of one that is cut now and of one that was cut before.
        records.scenes = ["1", "1A", "3", "5", "6"].map(scene).to_vec();
        follow(&mut records, &before, &renumbering.into_iter().collect());
        let stops = records.meetings[&id("2026-11-25")].questions.iter().map(|one| one.at.to_string());
        assert_eq!(
            stops.collect::<Vec<_>>(),
            ["scene 1", "scene 1A", "board", "scene 4", "board", "board", "scene 7", "look club"],
            "3, 5 and 6 are other scenes now; 4 and 7 are nobody's"
        );
    }

    #[test]
    fn records_that_name_none_of_the_scenes_are_shared_with_those_before() {
        let mut after = records();
        let schedule = Arc::clone(&after.schedule);
        let before = after.scenes.clone();
        follow(&mut after, &before, &[(number("1"), Some(number("77")))].into_iter().collect());
        assert!(Arc::ptr_eq(&after.schedule, &schedule));
    }
}
