//! The look list: what each look says, what it is made after, where it departs, and where it is seen.

use super::cautions::{self, Raised, with_look};
use super::document::{Cell, Column, Document, Kind, Table};
use super::figure::Figures;
use super::plain::Plain;
use crate::album::Album;
use crate::board::{Board, Departure, Evidence, Look, LookId, Scope, Treatment};
use crate::check::words::counted;
use crate::plot::{self, Shooting};

pub(super) fn document(board: &Board, album: Option<&Album>) -> Document {
    let mut figures = Figures::of(board, album);
    let mut table = Table::new(columns());
    let shooting = Shooting::of(board);
    let mut raised: Vec<Raised> = Vec::new();
    for id in board.relations().looks_by_order() {
        if let Some(look) = board.look(id) {
            let cautions = with_look(board, id);
            table.push(row(board, &shooting, id, look, &cautions));
            table.show_beside(figures.of_look(look));
            raised.extend(cautions);
        }
    }
    let count = board.count(&Scope::Overall);
    let looks = counted(count.used as usize, "look");
    let subtitle = match count.limit {
        Some(limit) => format!("{looks} of {limit}: {}", count.words()),
        None => looks,
    };
    Document {
        key: "looks",
        title: Plain::line(&format!("{}: looks", board.head().title)),
        subtitle: Plain::line(&subtitle),
        notes: vec![Plain::line("Minutes are at a page a minute (common practice).")],
        gaps: figures.gaps(),
        cautions: cautions::asks(&raised),
        tables: vec![table],
        ..Document::default()
    }
}

fn columns() -> Vec<Column> {
    vec![
        Column::new("character", "Character", Kind::Text).above(),
        Column::new("look", "Look", Kind::Text).above(),
        Column::new("period", "Period", Kind::Text).above(),
        Column::new("says", "Says", Kind::Text).above(),
        Column::new("treatment", "Treatment", Kind::Text).above(),
        Column::new("base", "Base", Kind::Text).above(),
        Column::new("worn", "Base worn", Kind::Date).above(),
        Column::new("evidence", "Evidence of the base", Kind::List),
        Column::new("folded", "Folded in", Kind::List),
        Column::new("departures", "Departures", Kind::List),
        Column::new("dressing", "Dressing notes", Kind::List),
        Column::new("threads", "Threads", Kind::List),
        Column::new("stage", "Stage", Kind::Text).above(),
        Column::new("scenes", "Scenes", Kind::List),
        Column::new("minutes", "Minutes", Kind::Minutes).above(),
        Column::new("first", "First needed on day", Kind::Number).not_on_paper(),
        Column::new("first-date", "First needed", Kind::Date).above(),
        Column::new("cautions", "Cautions", Kind::List),
    ]
}

fn row(board: &Board, shooting: &Shooting<'_>, id: &LookId, look: &Look, cautions: &[Raised]) -> Vec<Cell> {
    let base = look.base.as_ref().and_then(|base| board.outfit(base));
    let scenes = board.relations().scenes_of(id);
    let scenes: Vec<_> = scenes.iter().map(|at| &board.records().scenes[*at]).collect();
    let period = board.relations().period_of_look(id).map(|period| board.title_of(period));
    let first = shooting.first_needed(id);
    let thread = |id| board.thread(id).map_or(id.as_str(), |thread| &thread.title);
    vec![
        Cell::text(board.name_of(&look.character)),
        Cell::text(&look.title),
        Cell::maybe(period),
        Cell::text(&look.says),
        Cell::text(&treatment(look.treatment)),
        Cell::maybe(look.base.as_ref().map(|base| board.title_of_outfit(base))),
        Cell::date(base.and_then(|base| base.worn.as_ref())),
        Cell::list(
            base.map(|base| base.evidence.iter().map(evidence).collect::<Vec<_>>()).unwrap_or_default(),
        ),
        Cell::list(look.folded.iter().map(|outfit| board.title_of_outfit(outfit))),
        Cell::list(look.departures.iter().map(Departure::words)),
        Cell::list(&look.dressing),
        Cell::list(look.threads.iter().map(thread)),
        Cell::text(look.stage.word()),
        Cell::list(scenes.iter().map(|scene| scene.number.to_string())),
        Cell::Minutes(plot::of_look(board, id)),
        first.map_or(Cell::Empty, |day| Cell::Number(day.day)),
        Cell::date(first.and_then(|day| day.date.as_ref())),
        cautions::cell(board, cautions),
    ]
}

/// Word, then mark: a cell that began with the mark `=` would be a formula to a spreadsheet.
pub(super) fn treatment(treatment: Treatment) -> String {
    format!("{} ({})", treatment.word(), treatment.mark())
}

fn evidence(evidence: &Evidence) -> String {
    let kind = evidence.kind.word();
    if evidence.source.is_empty() { kind.to_owned() } else { format!("{kind}: {}", evidence.source) }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;
    use crate::check::sample;
    use crate::report::formats::{Json, Text};

    #[test]
    fn a_look_says_what_it_is_made_after_where_it_departs_and_where_it_is_seen() {
        let board = sample::board(json!({
            "head": {
                "budget": {"looks": 3},
                "threads": [{"id": "cap", "title": "The cap"}],
            },
            "outfits": {
                "smock": {"title": "Quay smock", "worn": "1920~", "evidence": [
                    {"kind": "photograph", "source": "album 3"}, {"kind": "hearsay"},
                ]},
                "frock": {"title": "Dyed frock", "worn": "1921"},
            },
            "looks": {"a": {
                "title": "Smock", "says": "She is nobody yet.", "treatment": "interpret", "base": "smock",
                "folded": ["frock"], "threads": ["cap"], "stage": "toile", "dressing": ["sleeves pushed"],
                "departures": [
                    {"detail": "neck", "was": "square", "becomes": "round", "why": "the harness"},
                    {"detail": "hem"},
                ],
            }},
            "scenes": [
                {"scene": 1, "pages": 1, "wears": {"ada": "a"}}, {"scene": "2B", "pages": "4/8", "wears": {"ada": "a"}},
            ],
            "schedule": [{"day": 3, "date": "2027-07-05", "scenes": ["2B"]}],
        }));
        let document = document(&board, None);
        assert_eq!(document.subtitle.as_str(), "one look of 3: 2 left");
        let read: Value = serde_json::from_str(&Json.write(&document)).unwrap();
        assert_eq!(
            read["tables"][0]["rows"],
            json!([{
                "character": "Ada", "look": "Smock", "period": "Early", "says": "She is nobody yet.",
                "treatment": "interprets (≈)", "base": "Quay smock", "worn": "1920~",
                "evidence": ["photograph: album 3", "hearsay"], "folded": ["Dyed frock"],
                "departures": ["neck: square → round — the harness", "hem"],
                "dressing": ["sleeves pushed"], "threads": ["The cap"], "stage": "toile",
                "scenes": ["1", "2B"], "minutes": 1.5, "first": 3, "first-date": "2027-07-05",
                "cautions": ["harness: ‘harness’ in the look Smock"],
            }])
        );
    }

    #[test]
    fn an_invented_look_has_no_base_and_is_still_listed() {
        let board = sample::board(json!({"looks": {"a": {"treatment": "invent"}}}));
        let table = &document(&board, None).tables[0];
        assert_eq!(table.rows()[0][4], Cell::text("invented (*)"));
        assert_eq!(table.rows()[0][5..10], [const { Cell::Empty }; 5]);
    }
}
