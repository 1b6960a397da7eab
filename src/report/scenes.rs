//! Look per scene: exactly one row for each character in each scene, in story order. A scene that nobody is in has
//! one row without a character, so that no scene is lost. Names that lead nowhere, or to more than one, give way to ids,
//! so that the table can be brought in again. With the heading and what happens it can be read without the script.

use std::collections::HashMap;

use super::cautions::{self, Raised, in_scene, of_look_in, of_scene};
use super::document::{Cell, Column, Document, Kind, Table};
use super::plain::Plain;
use crate::board::{Board, CharacterId, LookId, Scene, SceneNumber};
use crate::bring::table::{written_character, written_look, written_period};
use crate::check::words::counted;
use crate::plot::{Changes, whole};

pub(super) fn document(board: &Board) -> Document {
    let changes = Changes::of(board);
    let cast = super::cast(board);
    let mut table = Table::new(columns());
    let mut raised: Vec<Raised> = Vec::new();
    let mut told = Told::default();
    for (at, scene) in board.scenes().enumerate() {
        let present: Vec<&CharacterId> =
            cast.iter().copied().filter(|character| scene.wears.get(character).is_some()).collect();
        let period = board.relations().period_of_scene(at).map(|id| written_period(board, id));
        let own = of_scene(scene);
        let last = |cautions: &[Raised]| [cautions::cell(board, cautions), Cell::text(&scene.notes)];
        if present.is_empty() {
            let mut row = about_scene(scene, period.as_deref());
            let last = last(&own);
            row.resize(table.columns().len() - last.len(), Cell::Empty);
            row.extend(last);
            table.push(row);
        }
        for character in present {
            let mut row = about_scene(scene, period.as_deref());
            let look = scene.wears.get(character).and_then(Option::as_ref);
            row.extend(of_character(board, character, look, &changes, at));
            row.push(told.dressing(board, look, scene));
            let of_look = look.map(|id| of_look_in(board, id, scene)).unwrap_or_default();
            row.extend(last(&own.iter().cloned().chain(of_look).collect::<Vec<_>>()));
            table.push(row);
        }
        raised.extend(in_scene(board, scene));
    }
    Document {
        key: "scenes",
        title: Plain::line(&format!("{}: look per scene", board.head().title)),
        subtitle: Plain::line(&format!(
            "{}, {}",
            counted(board.scenes().len(), "scene"),
            whole(board).in_pages()
        )),
        notes: vec![
            Plain::line("A change is a character's nth look in story order."),
            Plain::line(
                "Carried: worn into the scene as it was left in the last one, on the same story day; no change.",
            ),
            Plain::line(
                "Dressing notes stand where their look is first worn; further down it says in which scene.",
            ),
            Plain::line("Minutes are at a page a minute (common practice)."),
        ],
        cautions: cautions::asks(&raised),
        tables: vec![table],
        ..Document::default()
    }
}

fn columns() -> Vec<Column> {
    vec![
        Column::new("scene", "Scene", Kind::Text).above(),
        Column::new("heading", "Heading", Kind::Text).above(),
        Column::new("story-day", "Story day", Kind::Text).above(),
        Column::new("date", "Date", Kind::Date).above(),
        Column::new("period", "Period", Kind::Text).not_on_paper(),
        Column::new("set", "Set", Kind::Text).not_on_paper(),
        Column::new("where", "INT/EXT", Kind::Text).not_on_paper(),
        Column::new("when", "Day/night", Kind::Text).not_on_paper(),
        Column::new("eighths", "Pages", Kind::Pages).above(),
        Column::new("minutes", "Minutes", Kind::Minutes).not_on_paper(),
        Column::new("action", "Action", Kind::Text).above(),
        Column::new("character", "Character", Kind::Text),
        Column::new("performer", "Performer", Kind::Text).not_on_paper(),
        Column::new("change", "Change", Kind::Number),
        Column::new("carried", "Carried", Kind::Text),
        Column::new("look", "Look", Kind::Text),
        Column::new("treatment", "Treatment", Kind::Text),
        Column::new("dressing", "Dressing notes", Kind::List),
        Column::new("cautions", "Cautions", Kind::List),
        Column::new("notes", "Notes", Kind::Text).above(),
    ]
}

fn about_scene(scene: &Scene, period: Option<&str>) -> Vec<Cell> {
    vec![
        Cell::text(&scene.number.to_string()),
        Cell::text(&scene.heading),
        Cell::maybe(scene.story_day),
        Cell::date(scene.date.as_ref()),
        Cell::maybe(period),
        Cell::text(&scene.set),
        Cell::maybe(scene.place.map(|place| place.word())),
        Cell::maybe(scene.light.map(|light| light.word())),
        Cell::Pages(scene.pages),
        Cell::Minutes(scene.pages),
        Cell::text(&scene.action),
    ]
}

/// In which scene the dressing notes of each look are told: once.
#[derive(Default)]
struct Told<'a>(HashMap<&'a LookId, &'a SceneNumber>);

impl<'a> Told<'a> {
    fn dressing(&mut self, board: &Board, id: Option<&'a LookId>, scene: &'a Scene) -> Cell {
        let Some(id) = id else { return Cell::Empty };
        let notes = board.look(id).map(|look| look.dressing.as_slice()).unwrap_or_default();
        match self.0.get(id) {
            Some(first) if !notes.is_empty() => Cell::list([format!("as in scene {first}")]),
            Some(_) => Cell::Empty,
            None => {
                self.0.insert(id, &scene.number);
                Cell::list(notes)
            }
        }
    }
}

/// Character, performer, change, whether it is carried, look and treatment.
fn of_character(
    board: &Board,
    character: &CharacterId,
    id: Option<&LookId>,
    changes: &Changes<'_>,
    at: usize,
) -> Vec<Cell> {
    let look = id.and_then(|id| board.look(id));
    vec![
        Cell::text(&written_character(board, character)),
        Cell::maybe(board.character(character).map(|character| character.performer.as_str())),
        changes.number(at, character).map_or(Cell::Empty, Cell::Number),
        Cell::text(if changes.is_carried(at, character) { "carried" } else { "" }),
        Cell::text(&written_look(board, character, id)),
        Cell::maybe(look.map(|look| super::looks::treatment(look.treatment))),
    ]
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;
    use crate::report::formats::{Csv, Text};

    fn board() -> Board {
        sample::board(json!({
            "looks": {
                "smock": {"title": "Quay smock", "treatment": "invent", "dressing": ["sleeves pushed", "hem wet"]},
                "coat": {"title": "Pilot coat", "treatment": "invent", "character": "ben"},
            },
            "head": {"characters": [
                {"id": "ada", "name": "Ada", "performer": "P. Layer"}, {"id": "ben", "name": "Ben"},
            ]},
            "scenes": [
                {"scene": 1, "set": "Mole", "where": "EXT", "when": "dawn", "story-day": "D1", "date": "1920",
                 "heading": "EXT. MOLE - DAWN",
                 "action": "He waves.", "pages": "1 3/8", "wears": {"ben": "coat", "ada": "smock"}, "notes": "rain"},
                {"scene": "1A", "heading": "INT. LOFT - DAY"},
                {"scene": 2, "wears": {"ben": null}},
            ],
        }))
    }

    #[test]
    fn every_character_of_every_scene_has_one_row_and_no_scene_is_lost() {
        let document = document(&board());
        let text = Csv.write(&document);
        let mut reader = ::csv::Reader::from_reader(text.as_bytes());
        let rows: Vec<Vec<String>> =
            reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
        let pairs: Vec<[&str; 3]> = rows.iter().map(|row| [&*row[0], &*row[11], &*row[15]]).collect();
        // What is asked because of the rain follows the rows.
        let (pairs, asks) = pairs.split_at(4);
        assert!(asks.len() == 2 && asks[0][0].starts_with("water and cold: Ask "), "{asks:?}");
        assert_eq!(
            pairs,
            [
                ["1", "Ada", "Quay smock"],
                ["1", "Ben", "Pilot coat"],
                ["1A", "", ""],
                ["2", "Ben", "no look yet"]
            ]
        );
        assert_eq!(
            rows[0].join("|"),
            "1|EXT. MOLE - DAWN|D1|1920|Early|Mole|EXT|dawn|11|1.375|He waves.|Ada|P. Layer|1||Quay smock|invented (*)|sleeves pushed; hem wet|water and cold: ‘rain’ in scene 1, ‘wet’ in the look Quay smock|rain"
        );
        assert_eq!([&*rows[2][1], &*rows[2][5]], ["INT. LOFT - DAY", ""]);
    }

    #[test]
    fn how_a_look_is_worn_is_told_where_it_is_first_worn_and_named_after_that() {
        let worn = |number: u32, look: &str| json!({"scene": number, "wears": {"ada": look}});
        let board = sample::board(json!({
            "looks": {
                "smock": {"treatment": "invent", "dressing": ["sleeves pushed", "hem pinned"]},
                "plain": {"treatment": "invent"},
            },
            "scenes": [worn(1, "plain"), worn(2, "smock"), worn(3, "plain"), worn(4, "smock"), worn(5, "smock")],
        }));
        let table = &document(&board).tables[0];
        let at = table.columns().iter().position(|column| column.key == "dressing").unwrap();
        let told: Vec<&Cell> = table.rows().iter().map(|row| &row[at]).collect();
        let (notes, named) = (Cell::list(["sleeves pushed", "hem pinned"]), Cell::list(["as in scene 2"]));
        assert_eq!(told, [&Cell::Empty, &notes, &Cell::Empty, &named, &named]);
    }

    #[test]
    fn a_name_that_only_a_scene_knows_still_has_its_row() {
        let board = sample::board(json!({"scenes": [{"scene": 1, "wears": {"stranger": "nowhere"}}]}));
        let table = &document(&board).tables[0];
        assert_eq!(table.rows().len(), 1);
        assert_eq!(table.rows()[0][11], Cell::text("stranger"));
        assert_eq!(table.rows()[0][15], Cell::text("nowhere"));
    }
}
