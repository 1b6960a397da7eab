//! The plot: scenes down, characters across, and in each cell what is worn. `—` is somebody who is there and has no
//! look yet; an empty cell is somebody who is not there.

use super::cautions::{self, Raised, in_scene};
use super::document::{Cell, Column, Document, Kind, Table};
use super::plain::Plain;
use crate::board::{Board, CharacterId, Scene};
use crate::check::words::{counted, look_title};

const UNDRESSED: &str = "—";

pub(super) fn document(board: &Board) -> Document {
    let cast = super::cast(board);
    let mut columns = vec![
        Column::new("scene", "Scene", Kind::Text),
        Column::new("story-day", "Story day", Kind::Text),
        Column::new("set", "Set", Kind::Text),
        Column::new("eighths", "Pages", Kind::Pages),
    ];
    // The prefix keeps a character called `set` from being taken for the set.
    let of_character = |id: &&CharacterId| Column::new(format!("wears-{id}"), board.name_of(id), Kind::Text);
    columns.extend(cast.iter().map(of_character));
    columns.push(Column::new("cautions", "Cautions", Kind::List));
    let mut table = Table::new(columns);
    let mut raised: Vec<Raised> = Vec::new();
    for scene in board.scenes() {
        let set = scene.set_or_heading();
        let mut row = vec![
            Cell::text(&scene.number.to_string()),
            Cell::maybe(scene.story_day),
            Cell::text(set),
            Cell::Pages(scene.pages),
        ];
        row.extend(cast.iter().map(|character| worn(board, scene, character)));
        let cautions = in_scene(board, scene);
        row.push(cautions::cell(board, &cautions));
        raised.extend(cautions);
        table.push(row);
    }
    let size = format!(
        "{} and {}",
        counted(board.scenes().len(), "scene"),
        counted(board.records().looks.len(), "look")
    );
    Document {
        key: "plot",
        title: Plain::line(&format!("{}: plot", board.head().title)),
        subtitle: Plain::line(&size),
        notes: vec![Plain::line(&format!("{UNDRESSED} is in the scene and has no look yet."))],
        cautions: cautions::asks(&raised),
        tables: vec![table],
        ..Document::default()
    }
}

fn worn(board: &Board, scene: &Scene, character: &CharacterId) -> Cell {
    match scene.wears.get(character) {
        None => Cell::Empty,
        Some(None) => Cell::text(UNDRESSED),
        Some(Some(look)) => Cell::text(look_title(board, look)),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;

    #[test]
    fn present_without_a_look_is_told_from_absent() {
        let board = sample::board(json!({
            "looks": {"a": {"title": "Smock", "treatment": "invent"}},
            "scenes": [
                {"scene": 1, "wears": {"ben": null, "ada": "a"}},
                {"scene": 2, "action": "She swims."},
            ],
        }));
        let table = &document(&board).tables[0];
        let keys: Vec<&str> = table.columns().iter().map(|column| column.key.as_str()).collect();
        assert_eq!(keys, ["scene", "story-day", "set", "eighths", "wears-ada", "wears-ben", "cautions"]);
        assert_eq!(table.rows()[0][4..], [Cell::text("Smock"), Cell::text("—"), Cell::Empty]);
        let swims = Cell::list(["water and cold: ‘swims’ in scene 2"]);
        assert_eq!(table.rows()[1][4..], [Cell::Empty, Cell::Empty, swims]);
    }
}
