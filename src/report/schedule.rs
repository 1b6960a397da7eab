//! The shooting days: what is shot, who wears what one after the other, who changes how often, and which looks are
//! needed for the first time.

use super::cautions::{self, Raised, in_scene};
use super::document::{Cell, Column, Document, Kind, Table};
use super::plain::Plain;
use crate::board::{Board, CharacterId, LookId};
use crate::check::words::{counted, listed, look_title};
use crate::plot::{PlannedDay, Shooting, Spell};

pub(super) fn document(board: &Board) -> Document {
    let shooting = Shooting::of(board);
    let mut days = Table::titled("days", "The days", day_columns());
    let mut wears = Table::titled("wears", "Who wears what, in the order of shooting", wear_columns());
    let mut raised: Vec<Raised> = Vec::new();
    for planned in &shooting.days {
        let cautions: Vec<Raised> =
            planned.scenes.iter().flat_map(|(_, scene)| in_scene(board, scene)).collect();
        days.push(of_day(board, planned, &cautions));
        raised.extend(cautions);
        for (character, spells) in &planned.wears {
            for (turn, spell) in (1..).zip(spells) {
                wears.push(vec![
                    Cell::Number(planned.day.day),
                    Cell::date(planned.day.date.as_ref()),
                    Cell::text(board.name_of(character)),
                    Cell::maybe(board.character(character).map(|one| one.performer.as_str())),
                    Cell::Number(turn),
                    Cell::text(spell.look.map_or("no look yet", |look| look_title(board, look))),
                    Cell::list(spell.scenes.iter().map(ToString::to_string)),
                ]);
            }
        }
    }
    let changes: usize = shooting.days.iter().map(PlannedDay::changes).sum();
    let size = format!("{}, {}", counted(shooting.days.len(), "shooting day"), counted(changes, "change"));
    let missing: Vec<String> =
        shooting.days.iter().flat_map(|day| &day.missing).map(ToString::to_string).collect();
    let gap = format!("On the schedule and not in the script: scene {}.", missing.join(", "));
    Document {
        key: "schedule",
        title: Plain::line(&format!("{}: shooting days", board.head().title)),
        subtitle: Plain::line(&size),
        notes: vec![Plain::line(
            "A change is counted whenever a scene finds somebody in another look than the scene before on the same day; \
             getting dressed in the morning is none.",
        )],
        gaps: if missing.is_empty() { Vec::new() } else { vec![Plain::line(&gap)] },
        cautions: cautions::asks(&raised),
        tables: vec![days, wears],
        ..Document::default()
    }
}

fn day_columns() -> Vec<Column> {
    vec![
        Column::new("day", "Day", Kind::Number),
        Column::new("date", "Date", Kind::Date),
        Column::new("scenes", "Scenes", Kind::List),
        Column::new("eighths", "Pages", Kind::Pages),
        Column::new("changes", "Changes", Kind::Number),
        Column::new("first", "Looks needed for the first time", Kind::List),
        Column::new("missing", "No look yet", Kind::List),
        Column::new("cautions", "Cautions", Kind::List),
        Column::new("notes", "Notes", Kind::Text),
    ]
}

fn wear_columns() -> Vec<Column> {
    vec![
        Column::new("day", "Day", Kind::Number),
        Column::new("date", "Date", Kind::Date),
        Column::new("character", "Character", Kind::Text),
        Column::new("performer", "Performer", Kind::Text),
        Column::new("turn", "Turn", Kind::Number),
        Column::new("look", "Look", Kind::Text),
        Column::new("scenes", "Scenes", Kind::List),
    ]
}

fn of_day(board: &Board, planned: &PlannedDay<'_>, cautions: &[Raised]) -> Vec<Cell> {
    let first = |look: &&LookId| {
        let name = board.look(look).map_or("", |look| board.name_of(&look.character));
        format!("{name}: {}", look_title(board, look))
    };
    vec![
        Cell::Number(planned.day.day),
        Cell::date(planned.day.date.as_ref()),
        Cell::list(planned.day.scenes.iter().map(ToString::to_string)),
        Cell::Pages(planned.pages()),
        Cell::Number(u32::try_from(planned.changes()).unwrap_or(u32::MAX)),
        Cell::list(planned.first.iter().map(first)),
        Cell::list(without_look(board, planned)),
        cautions::cell(board, cautions),
        Cell::text(&planned.day.notes),
    ]
}

/// Who has no look yet, and in which scenes of the day: `Ben in scenes 4 and 7`.
fn without_look(board: &Board, planned: &PlannedDay<'_>) -> Vec<String> {
    let bare = |spells: &[Spell<'_>]| -> Vec<String> {
        let bare = spells.iter().filter(|spell| spell.look.is_none());
        bare.flat_map(|spell| &spell.scenes).map(ToString::to_string).collect()
    };
    let said = |(character, spells): &(&CharacterId, Vec<Spell<'_>>)| {
        let scenes = bare(spells);
        let noun = if scenes.len() == 1 { "scene" } else { "scenes" };
        (!scenes.is_empty()).then(|| format!("{} in {noun} {}", board.name_of(character), listed(&scenes)))
    };
    planned.wears.iter().filter_map(said).collect()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;
    use crate::report::formats::{Markdown, Text};

    #[test]
    fn a_day_says_who_wears_what_who_changes_and_what_is_new() {
        let board = sample::board(json!({
            "looks": {
                "smock": {"title": "Quay smock", "treatment": "invent"},
                "frock": {"title": "Dyed frock", "treatment": "invent"},
            },
            "scenes": [
                {"scene": 1, "pages": 1, "action": "She swims.", "wears": {"ada": "smock"}},
                {"scene": 2, "pages": "4/8", "wears": {"ada": "frock", "ben": null}},
            ],
            "schedule": [
                {"day": 1, "date": "2027-07-05", "scenes": [2, 1, 9], "notes": "Loft"}, {"day": 2, "scenes": [1]},
            ],
        }));
        insta::assert_snapshot!(Markdown.write(&document(&board)));
    }

    #[test]
    fn a_look_that_comes_back_on_the_same_day_is_used_for_the_first_time_once() {
        let board = sample::board(json!({
            "looks": {"coat": {"treatment": "invent"}, "gown": {"treatment": "invent"}},
            "scenes": [
                {"scene": 1, "wears": {"ada": "coat"}}, {"scene": 2, "wears": {"ada": "gown"}},
                {"scene": 3, "wears": {"ada": "coat"}}, {"scene": 4, "wears": {"ada": "coat"}},
            ],
            "schedule": [{"day": 1, "scenes": [1, 2, 3]}, {"day": 2, "scenes": [4]}],
        }));
        let document = document(&board);
        let days = &document.tables[0];
        let at = days.columns().iter().position(|column| column.key == "first").unwrap();
        let first: Vec<&Cell> = days.rows().iter().map(|row| &row[at]).collect();
        assert_eq!(first, [&Cell::list(["Ada: coat", "Ada: gown"]), &Cell::Empty]);
        let keys = |table: &Table| table.columns().iter().filter(|column| column.key == "first").count();
        assert_eq!(document.tables.iter().map(keys).collect::<Vec<_>>(), [1, 0], "told once");
    }

    #[test]
    fn a_day_says_who_has_no_look_yet_and_in_which_scenes() {
        let board = sample::board(json!({
            "looks": {"coat": {"treatment": "invent"}},
            "scenes": [
                {"scene": 1, "wears": {"ada": "coat", "ben": null}}, {"scene": 2, "wears": {"ben": null, "ada": null}},
                {"scene": 3, "wears": {"ada": "coat"}},
            ],
            "schedule": [{"day": 1, "scenes": [2, 3, 1]}, {"day": 2, "scenes": [3]}],
        }));
        let days = &document(&board).tables[0];
        let at = days.columns().iter().position(|column| column.key == "missing").unwrap();
        let missing: Vec<&Cell> = days.rows().iter().map(|row| &row[at]).collect();
        assert_eq!(missing, [&Cell::list(["Ada in scene 2", "Ben in scenes 2 and 1"]), &Cell::Empty]);
    }
}
