//! The scenes against the shooting days.

use std::collections::HashMap;

use super::words::listed;
use super::{About, Finding, Level};
use crate::board::{Board, SceneNumber};

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    let schedule = &board.records().schedule;
    // Without a schedule no scene is on it, which is no news.
    if schedule.is_empty() {
        return Vec::new();
    }
    let mut days: HashMap<&SceneNumber, Vec<u32>> = HashMap::new();
    for day in schedule.iter() {
        for number in &day.scenes {
            days.entry(number).or_default().push(day.day);
        }
    }
    board
        .scenes()
        .filter_map(|scene| finding(&scene.number, days.get(&scene.number).map_or(&[], Vec::as_slice)))
        .collect()
}

fn finding(number: &SceneNumber, days: &[u32]) -> Option<Finding> {
    let (name, text, todo) = match days {
        [_] => return None,
        [] => (
            "scene-not-scheduled",
            format!("Scene {number} is on no shooting day."),
            "Put it on a day of the schedule, or cut it.",
        ),
        several => {
            let days: Vec<String> = several.iter().map(u32::to_string).collect();
            (
                "scene-scheduled-twice",
                format!("Scene {number} is on more than one shooting day: {}.", listed(&days)),
                "Take it off one day, or split it into two scenes with letters.",
            )
        }
    };
    let about = About::Scene(number.clone());
    Some(Finding { name, level: Level::Warning, about, text, todo: todo.to_owned() })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample::{board, names, texts};

    fn scheduled(schedule: Value) -> crate::board::Board {
        let scenes = json!([{"scene": 1, "date": "1920"}, {"scene": 2, "date": "1920"}]);
        board(json!({"scenes": scenes, "schedule": schedule}))
    }

    #[test]
    fn a_scene_on_no_day_is_found_and_each_on_one_is_fine() {
        let one = scheduled(json!([{"day": 1, "scenes": [1]}]));
        assert_eq!(texts(&one, "scene-not-scheduled"), ["Scene 2 is on no shooting day."]);
        assert_eq!(names(&scheduled(json!([{"day": 1, "scenes": [2, 1]}]))), [""; 0]);
    }

    #[test]
    fn a_scene_on_two_days_is_found() {
        let twice = scheduled(json!([{"day": 1, "scenes": [1, 2]}, {"day": 4, "scenes": [2]}]));
        assert_eq!(
            texts(&twice, "scene-scheduled-twice"),
            ["Scene 2 is on more than one shooting day: 1 and 4."]
        );
    }

    #[test]
    fn without_a_schedule_nothing_is_missing_from_it() {
        assert_eq!(names(&scheduled(json!([]))), [""; 0]);
    }
}
