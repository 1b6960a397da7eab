//! The outfits: where in the story each belongs, and whether it is decided.

use std::collections::HashMap;

use super::words::{counted, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, CharacterId, Outfit, OutfitId, PeriodId, Standing};
use crate::trade::date::{Date, Day};

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    let far = far_off(board);
    // A board without periods has no outside.
    let outside = |id: &OutfitId| match (board.outfit(id), far.get(id)) {
        (Some(outfit), Some(years)) => Some(date_far_off(board, id, outfit, *years)),
        (Some(outfit), None) if !board.head().periods.is_empty() => outside_periods(board, id, outfit),
        _ => None,
    };
    let mut found: Vec<Finding> = board.relations().outfits_by_date().iter().filter_map(outside).collect();
    let periods = board.head().periods.iter().map(|period| Some(&period.id));
    found.extend(periods.chain([None]).filter_map(|period| open_outfits(board, period)));
    found
}

/// From how many years on a date is far off all others: what a wrong century comes to in any life.
const FAR: i64 = 50;
/// How many dated outfits a character must have before one of them can be far off the others.
const ENOUGH: usize = 4;
/// Days in a year, to turn a gap into whole years.
const YEAR: f64 = 365.2425;

/// Outfits that are dated far off all others of their character, with the years to the nearest of those.
fn far_off(board: &Board) -> HashMap<&OutfitId, i64> {
    let mut lives: HashMap<&CharacterId, Vec<(Day, Day, &OutfitId)>> = HashMap::new();
    for (id, outfit) in &board.records().outfits {
        let Some(worn) = &outfit.worn else { continue };
        if let (Some(earliest), Some(latest)) = (worn.earliest(), worn.latest()) {
            lives.entry(&outfit.character).or_default().push((earliest, latest, id));
        }
    }
    let mut far = HashMap::new();
    for mut life in lives.into_values().filter(|life| life.len() >= ENOUGH) {
        life.sort_unstable();
        let mut before: Option<Day> = None;
        for (at, (earliest, latest, id)) in life.iter().enumerate() {
            let after = life.get(at + 1).map(|(next, ..)| next.since(*latest));
            let gaps = [before.map(|before| earliest.since(before)), after];
            let years = gaps.into_iter().flatten().min().map_or(0, |days| (days as f64 / YEAR) as i64);
            if years >= FAR {
                far.insert(*id, years);
            }
            before = before.max(Some(*latest));
        }
    }
    far
}

fn date_far_off(board: &Board, id: &OutfitId, outfit: &Outfit, years: i64) -> Finding {
    let worn = outfit.worn.as_ref().map(Date::short).unwrap_or_default();
    Finding {
        name: "date-far-off",
        level: Level::Warning,
        about: About::Outfit(id.clone()),
        text: format!(
            "The outfit {} was worn {worn}, {years} years from any other outfit of {}.",
            quoted(&outfit.title),
            board.name_of(&outfit.character)
        ),
        todo: "See whether its year, or whose it is, was mistyped.".to_owned(),
    }
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
    fn a_year_typed_a_century_off_is_found_and_a_long_gap_in_a_life_is_not() {
        let life = |typed: &str, period: &str| {
            sample::board(json!({"outfits": {
                "a": {"worn": "1911"}, "b": {"worn": "1923"}, "c": {"worn": "1930"},
                "d": {"worn": typed, "period": period}, "e": {"worn": "1811", "character": "ben"},
            }}))
        };
        // The period is given by hand, so that nothing else tells it.
        assert_eq!(
            sample::texts(&life("1823", "early"), "date-far-off"),
            ["The outfit “d” was worn 1823, 87 years from any other outfit of Ada."]
        );
        assert_eq!(sample::texts(&life("1981", "late"), "date-far-off").len(), 1);
        for near in ["1861-01-02", "1980", "19XX", "../1823"] {
            assert_eq!(sample::texts(&life(near, "late"), "date-far-off"), [""; 0], "{near}");
        }
        // Outside all periods as well, it is told once.
        let outside = sample::board(json!({"outfits": {
            "a": {"worn": "1911"}, "b": {"worn": "1923"}, "c": {"worn": "1930"}, "d": {"worn": "1823"},
        }}));
        let told =
            findings(&outside).into_iter().filter(|one| one.about == About::Outfit("d".parse().unwrap()));
        assert_eq!(told.map(|one| one.name).collect::<Vec<_>>(), ["date-far-off"]);
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
