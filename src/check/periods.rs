//! Periods against each other: a day belongs to one stretch of the story.

use super::words::quoted;
use super::{About, Finding, Level};
use crate::board::{Board, Period};

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
    found
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
    fn an_open_end_reaches_into_all_that_follows() {
        assert_eq!(names(&spans("1911/..", "1925/1930")), ["periods-overlap"]);
        assert_eq!(names(&spans("../1924", "1925/..")), [""; 0]);
    }
}
