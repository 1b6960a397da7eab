//! Periods: a day belongs to one stretch of the story, and so does a scene.

use super::words::quoted;
use super::{About, Finding, Level};
use crate::board::{Board, Period, Scene};

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    let periods = &board.head().periods;
    let mut found = Vec::new();
    for (at, period) in periods.iter().enumerate() {
        for earlier in periods.iter().take(at).filter(|earlier| overlap(earlier, period)) {
            found.push(Finding {
                name: "periods-overlap",
                level: Level::Error,
                about: About::Period(period.id.clone()),
                text: format!(
                    "The periods {} ({}) and {} ({}) share days.",
                    quoted(&earlier.title),
                    earlier.span,
                    quoted(&period.title),
                    period.span
                ),
                todo: "Let one end on the day before the other begins.".to_owned(),
            });
        }
    }
    // A board without periods has no outside.
    if !periods.is_empty() {
        let outside = |at: &usize| board.relations().period_of_scene(*at).is_none();
        let scenes = board.scenes().enumerate().filter(|(at, _)| outside(at));
        found.extend(scenes.map(|(_, scene)| outside_periods(scene)));
    }
    found
}

fn outside_periods(scene: &Scene) -> Finding {
    let number = &scene.number;
    let (text, todo) = match &scene.date {
        Some(date) => (
            format!("Scene {number} plays {}, which is in no period.", date.short()),
            "Correct its date, widen a period, or give the scene its period by hand.",
        ),
        None => (
            format!("Scene {number} has neither a date nor a period, so it is in none."),
            "Date it, be it roughly, or give it its period by hand.",
        ),
    };
    let about = About::Scene(number.clone());
    Finding { name: "scene-outside-periods", level: Level::Warning, about, text, todo: todo.to_owned() }
}

/// Whether two spans share a day; an open end reaches as far as it can.
fn overlap(one: &Period, other: &Period) -> bool {
    let starts_by_the_end_of = |one: &Period, other: &Period| match (one.span.earliest(), other.span.latest())
    {
        (Some(start), Some(end)) => start <= end,
        _ => true,
    };
    starts_by_the_end_of(one, other) && starts_by_the_end_of(other, one)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::sample::{board, names, texts};

    fn spans(first: &str, second: &str) -> crate::board::Board {
        board(json!({"head": {"periods": [
            {"id": "early", "title": "Early", "span": first},
            {"id": "late", "title": "Late", "span": second},
        ]}}))
    }

    #[test]
    fn periods_that_share_a_year_are_found_and_neighbours_are_not() {
        assert_eq!(
            texts(&spans("1911/1925", "1925/1930"), "periods-overlap"),
            ["The periods “Early” (1911/1925) and “Late” (1925/1930) share days."]
        );
        assert_eq!(names(&spans("1911/1924", "1925/1930")), [""; 0]);
    }

    #[test]
    fn a_scene_in_no_period_is_found_and_one_on_the_last_day_of_one_is_not() {
        let playing = |scene: serde_json::Value| board(json!({"scenes": [scene]}));
        let found = |scene| texts(&playing(scene), "scene-outside-periods");
        assert_eq!(
            found(json!({"scene": 4, "date": "1931-01-01"})),
            ["Scene 4 plays 1 Jan 1931, which is in no period."]
        );
        assert_eq!(
            found(json!({"scene": 4})),
            ["Scene 4 has neither a date nor a period, so it is in none."]
        );
        assert_eq!(names(&playing(json!({"scene": 4, "date": "1930-12-31"}))), [""; 0]);
        assert_eq!(names(&playing(json!({"scene": 4, "date": "1931-01-01", "period": "late"}))), [""; 0]);
        assert_eq!(names(&board(json!({"head": {"periods": []}, "scenes": [{"scene": 4}]}))), [""; 0]);
    }

    #[test]
    fn an_open_end_reaches_into_all_that_follows() {
        assert_eq!(names(&spans("1911/..", "1925/1930")), ["periods-overlap"]);
        assert_eq!(names(&spans("../1924", "1925/..")), [""; 0]);
    }
}
