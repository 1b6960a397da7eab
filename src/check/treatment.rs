//! Treatment against departures: what a look says it does to its base, and what it does.

use super::words::{counted, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, Look, LookId, Treatment};

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    let look = |id: &LookId| board.look(id).and_then(|look| finding(id, look));
    board.relations().looks_by_order().iter().filter_map(look).collect()
}

fn finding(id: &LookId, look: &Look) -> Option<Finding> {
    let title = quoted(&look.title);
    let (name, text, todo) = match (look.treatment, look.departures.len()) {
        (Treatment::Copy, departures @ 1..) => (
            "copy-departs",
            format!("The look {title} is called a copy and has {}.", counted(departures, "departure")),
            "Say that it interprets, or take the departures back.",
        ),
        (Treatment::Interpret, 0) => (
            "interpretation-without-departure",
            format!("The look {title} interprets its base, and no departure says how."),
            "Write down each departure and why, or say that it copies.",
        ),
        _ => return None,
    };
    let about = About::Look(id.clone());
    Some(Finding { name, level: Level::Warning, about, text, todo: todo.to_owned() })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample::{board, names, texts};

    fn treated(treatment: &str, departures: Value) -> crate::board::Board {
        board(json!({
            "outfits": {"smock": {"worn": "1920"}},
            "looks": {"a": {"base": "smock", "treatment": treatment, "departures": departures}},
        }))
    }

    #[test]
    fn a_copy_that_departs_is_found_and_one_that_does_not_is_fine() {
        let departs = treated("copy", json!([{"detail": "hem"}]));
        assert_eq!(texts(&departs, "copy-departs"), ["The look “a” is called a copy and has one departure."]);
        assert_eq!(names(&treated("copy", json!([]))), [""; 0]);
    }

    #[test]
    fn an_interpretation_needs_a_departure() {
        assert_eq!(names(&treated("interpret", json!([]))), ["interpretation-without-departure"]);
        assert_eq!(names(&treated("interpret", json!([{"detail": "hem"}]))), [""; 0]);
    }
}
