//! The budget: every scope that has more looks than it may have.

use super::words::counted;
use super::{About, Finding, Level};
use crate::board::{Board, Scope};

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    board.limited_scopes().iter().filter_map(|scope| over_budget(board, scope)).collect()
}

fn over_budget(board: &Board, scope: &Scope) -> Option<Finding> {
    let count = board.count(scope);
    let limit = count.limit?;
    if count.over() == 0 {
        return None;
    }
    let who = match scope {
        Scope::Overall => "The board".to_owned(),
        Scope::Character(_) | Scope::Period(_) => board.scope_name(scope),
    };
    let looks = counted(count.used as usize, "look");
    Some(Finding {
        name: "over-budget",
        level: Level::Error,
        about: About::from(scope),
        text: format!("{who} has {looks} and may have {limit}: {}.", count.words()),
        todo: "Merge looks, dissolve one, or raise the limit on the record with the reason.".to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample;
    use super::*;

    fn limited(budget: Value) -> Board {
        sample::board(json!({
            "head": {"budget": budget},
            "outfits": {"smock": {"worn": "1920"}, "coat": {"worn": "1921"}},
            "looks": {"a": {"base": "smock"}, "b": {"base": "coat"}, "c": {"treatment": "invent", "character": "ben"}},
        }))
    }

    #[test]
    fn each_scope_that_is_over_is_one_finding() {
        let over = findings(&limited(
            json!({"looks": 2, "characters": {"ada": 1, "ben": 1}, "periods": {"early": 0}}),
        ));
        let about: Vec<String> = over.iter().map(|finding| finding.about.to_string()).collect();
        assert_eq!(about, ["board", "character ada", "period early"]);
        assert_eq!(over[2].text, "Early has two looks and may have 0: 2 over.");
    }

    #[test]
    fn a_full_budget_is_not_over() {
        let full = limited(
            json!({"looks": 3, "characters": {"ada": 2, "ben": 1}, "periods": {"early": 2, "late": 0}}),
        );
        assert_eq!(findings(&full), []);
    }
}
