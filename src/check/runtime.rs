//! The script's length against the film's.

use super::{About, Finding, Level};
use crate::board::Board;
use crate::trade::eighths::{Eighths, PER_PAGE};

/// A page a minute is a rule of thumb (common practice, no source), so less than one part in so many is no news.
/// The figure is our own.
const ONE_IN: u64 = 10;

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    runtime_differs(board).into_iter().collect()
}

fn runtime_differs(board: &Board) -> Option<Finding> {
    let runtime = board.head().runtime?;
    if board.scenes().len() == 0 {
        return None;
    }
    let script: Eighths = board.scenes().map(|scene| scene.pages).sum();
    let film = u64::from(runtime) * u64::from(PER_PAGE);
    if u64::from(script.get()).abs_diff(film) * ONE_IN <= film {
        return None;
    }
    Some(Finding {
        name: "runtime-differs",
        level: Level::Warning,
        about: About::Board,
        text: format!(
            "The scenes come to {}, about {} at a page a minute, and the film is to run {runtime} {}.",
            script.in_pages(),
            script.clock(),
            if runtime == 1 { "minute" } else { "minutes" }
        ),
        todo: "Look for scenes that are missing or have no pages, or correct the runtime.".to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::sample;
    use super::*;

    fn script(pages: &str) -> Board {
        sample::board(json!({"head": {"runtime": 10}, "scenes": [{"scene": 1, "pages": pages}]}))
    }

    #[test]
    fn a_script_off_by_more_than_a_tenth_is_found_and_by_a_tenth_is_not() {
        assert_eq!(findings(&script("11")), []);
        assert_eq!(findings(&script("9")), []);
        assert_eq!(findings(&script("11 1/8")).len(), 1);
        assert_eq!(
            findings(&script("8 7/8"))[0].text,
            "The scenes come to 8 7/8 pages, about 8:52 at a page a minute, and the film is to run 10 minutes."
        );
    }

    #[test]
    fn one_page_and_one_minute_are_no_plurals() {
        let short = |runtime: u32, pages: &str| {
            let told = json!({"head": {"runtime": runtime}, "scenes": [{"scene": 1, "pages": pages}]});
            findings(&sample::board(told))[0].text.clone()
        };
        assert_eq!(
            [short(1, "2"), short(2, "1")],
            [
                "The scenes come to 2 pages, about 2:00 at a page a minute, and the film is to run 1 minute.",
                "The scenes come to 1 page, about 1:00 at a page a minute, and the film is to run 2 minutes.",
            ]
        );
    }

    #[test]
    fn without_a_script_or_a_runtime_there_is_nothing_to_compare() {
        assert_eq!(findings(&sample::board(json!({"head": {"runtime": 10}}))), []);
        assert_eq!(findings(&sample::board(json!({"scenes": [{"scene": 1, "pages": 3}]}))), []);
    }
}
