//! The outfits, by date: all that is known of them, in columns that [`crate::bring::table`] reads back, and the looks that
//! hold them, in columns that it leaves alone.

use super::document::{Cell, Column, Document, Kind, Table};
use super::plain::Plain;
use crate::board::{Board, LookId, OutfitId};
use crate::bring::table::{OUTFIT_FIELDS, Written};
use crate::check::words::{counted, look_title};

pub(super) fn document(board: &Board) -> Document {
    let id = Column::new("id", "Id", Kind::Text);
    let rest = OUTFIT_FIELDS.iter().map(|field| {
        let kind = match field.heading.key {
            "recognition" => Kind::Number,
            "worn" => Kind::Date,
            "pieces" | "threads" | "tags" | "evidence" | "dressing" => Kind::List,
            _ => Kind::Text,
        };
        Column::new(field.heading.key, field.heading.name, kind)
    });
    let held = [
        Column::new("base-of", "Base of look", Kind::List),
        Column::new("folded-into", "Folded into look", Kind::List),
    ];
    let mut table = Table::new([id].into_iter().chain(rest).chain(held).collect());
    for id in board.relations().outfits_by_date() {
        if let Some(outfit) = board.outfit(id) {
            let cells = OUTFIT_FIELDS.iter().map(|field| match field.heading.key {
                "worn" => Cell::date(outfit.worn.as_ref()),
                _ => cell((field.written)(board, outfit)),
            });
            table
                .push([Cell::text(id.as_str())].into_iter().chain(cells).chain(held_by(board, id)).collect());
        }
    }
    Document {
        key: "outfits",
        title: Plain::line(&format!("{}: outfits", board.head().title)),
        subtitle: Plain::line(&counted(table.rows().len(), "outfit")),
        notes: vec![
            Plain::line("A piece is: name | cloth | colours | details."),
            Plain::line("A source is: kind | source | credit | rights | notes."),
            Plain::line(
                "Which look an outfit is in is changed on the board; brought back in, those columns are left alone.",
            ),
        ],
        tables: vec![table],
        ..Document::default()
    }
}

/// The looks of which an outfit is the base, and those into which it is folded: one in all, unless files disagree.
fn held_by(board: &Board, outfit: &OutfitId) -> [Cell; 2] {
    let (bases, folds): (Vec<&LookId>, Vec<&LookId>) = board
        .relations()
        .looks_of(outfit)
        .iter()
        .partition(|id| board.look(id).is_some_and(|look| look.base.as_ref() == Some(outfit)));
    [bases, folds].map(|looks| Cell::list(looks.into_iter().map(|look| look_title(board, look))))
}

fn cell(written: Written) -> Cell {
    match written {
        Written::Text(text) => Cell::text(&text),
        Written::Items(items) => Cell::list(items),
        Written::Number(number) => Cell::Number(number),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;
    use crate::check::sample;
    use crate::report::formats::{Csv, Json, Text};

    #[test]
    fn an_outfit_is_listed_with_all_that_is_known_of_it() {
        let board = sample::board(json!({
            "head": {"threads": [{"id": "cap", "title": "The cap"}]},
            "outfits": {
                "smock": {
                    "title": "Quay smock", "worn": "1920~", "recognition": 3, "threads": ["cap"], "let-go": "dull",
                    "tags": ["work; wet"], "dressing": ["sleeves pushed"], "notes": "=torn",
                    "pieces": [{"name": "smock", "cloth": "drill", "colours": ["navy", "#fff"], "details": ["yoke"]}],
                    "evidence": [{"kind": "photograph", "source": "album 3"}],
                },
                "apron": {"title": "Apron", "worn": "1919"},
                "cape": {"title": "Cape", "worn": "1921"},
            },
            "looks": {"quay": {"title": "Quay", "base": "apron", "folded": ["cape"]}},
        }));
        let document = document(&board);
        let read: Value = serde_json::from_str(&Json.write(&document)).unwrap();
        assert_eq!(read["tables"][0]["rows"][0]["id"], "apron");
        assert_eq!(
            read["tables"][0]["rows"][1],
            json!({
                "id": "smock", "title": "Quay smock", "character": "Ada", "worn": "1920~", "period": "Early",
                "occasion": null, "silhouette": null, "recognition": 3,
                "pieces": ["smock | drill | navy, #fff | yoke"], "threads": ["The cap"], "tags": ["work; wet"],
                "evidence": ["photograph | album 3"], "let-go": "dull", "dressing": ["sleeves pushed"],
                "notes": "=torn", "base-of": null, "folded-into": null,
            })
        );
        let held = |row: usize| {
            let row = &read["tables"][0]["rows"][row];
            (row["base-of"].clone(), row["folded-into"].clone())
        };
        assert_eq!(held(0), (json!(["Quay"]), json!(null)));
        assert_eq!(held(2), (json!(null), json!(["Quay"])));
        let text = Csv.write(&document);
        assert!(text.contains(r",work\; wet,") && text.contains(",'=torn"), "{text}");
    }
}
