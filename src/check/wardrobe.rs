//! The outfits: where in the story each belongs, and whether it is decided.

use super::words::{counted, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, Outfit, OutfitId, PeriodId, Standing};

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    // A board without periods has no outside.
    let outside = |id: &OutfitId| match board.outfit(id) {
        Some(outfit) if !board.head().periods.is_empty() => outside_periods(board, id, outfit),
        _ => None,
    };
    let mut found: Vec<Finding> = board.relations().outfits_by_date().iter().filter_map(outside).collect();
    let periods = board.head().periods.iter().map(|period| Some(&period.id));
    found.extend(periods.chain([None]).filter_map(|period| open_outfits(board, period)));
    found
}

fn outside_periods(board: &Board, id: &OutfitId, outfit: &Outfit) -> Option<Finding> {
    if board.relations().period_of_outfit(id).is_some() {
        return None;
    }
    let title = quoted(&outfit.title);
    let (level, text, todo) = match &outfit.worn {
        Some(worn) => (
            Level::Warning,
            format!("The outfit {title} was worn {}, which is in no period.", worn.short()),
            "Correct its date, widen a period, or give the outfit its period by hand.",
        ),
        None => (
            Level::Note,
            format!("The outfit {title} has no date, so it is in no period."),
            "Date it, be it roughly, or give it its period by hand.",
        ),
    };
    let about = About::Outfit(id.clone());
    Some(Finding { name: "outfit-outside-periods", level, about, text, todo: todo.to_owned() })
}

fn open_outfits(board: &Board, period: Option<&PeriodId>) -> Option<Finding> {
    let here = |id: &&OutfitId| board.relations().period_of_outfit(id) == period;
    let open = |id: &&OutfitId| board.standing(id) == Standing::Open;
    let open = board.records().outfits.keys().filter(here).filter(open).count();
    if open == 0 {
        return None;
    }
    let place = period.map_or("Outside all periods", |id| board.title_of(id));
    let are = if open == 1 { "is" } else { "are" };
    Some(Finding {
        name: "open-outfits",
        level: Level::Note,
        about: period.map_or(About::Board, |id| About::Period(id.clone())),
        text: format!("{place}: {} {are} still open.", counted(open, "outfit")),
        todo: "Fold each into a look, or let it go with the reason.".to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample;
    use super::*;

    fn worn(outfit: Value) -> Board {
        sample::board(json!({"outfits": {"smock": outfit}, "looks": {"a": {"base": "smock"}}}))
    }

    #[test]
    fn an_outfit_outside_the_periods_is_a_warning_if_dated_and_a_note_if_not() {
        let levels = |board: &Board| -> Vec<Level> {
            findings(board)
                .iter()
                .filter(|finding| finding.name == "outfit-outside-periods")
                .map(|finding| finding.level)
                .collect()
        };
        assert_eq!(levels(&worn(json!({"worn": "1931"}))), [Level::Warning]);
        assert_eq!(levels(&worn(json!({}))), [Level::Note]);
        assert_eq!(levels(&worn(json!({"worn": "1930-12-31"}))), []);
        assert_eq!(levels(&worn(json!({"worn": "1931", "period": "late"}))), []);
    }

    #[test]
    fn a_board_without_periods_has_no_outside() {
        let board = sample::board(json!({"head": {"periods": []}, "outfits": {"smock": {"worn": "1931"}}}));
        assert_eq!(sample::names(&board), ["open-outfits"]);
    }

    #[test]
    fn open_outfits_are_counted_period_by_period() {
        let board = sample::board(json!({
            "outfits": {
                "a": {"worn": "1920"}, "b": {"worn": "1921"}, "c": {"worn": "1926"}, "d": {},
                "e": {"worn": "1926", "let-go": "told twice"}, "f": {"worn": "1920"},
            },
            "looks": {"look": {"base": "f"}},
        }));
        assert_eq!(
            sample::texts(&board, "open-outfits"),
            [
                "Early: two outfits are still open.",
                "Late: one outfit is still open.",
                "Outside all periods: one outfit is still open.",
            ]
        );
    }

    #[test]
    fn a_wardrobe_that_is_decided_has_nothing_open() {
        assert_eq!(sample::names(&worn(json!({"worn": "1920"}))), [""; 0]);
    }
}
