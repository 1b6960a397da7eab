//! Outfits: one row each, found by id, else by title and character.

use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::sync::Arc;

use super::columns::Heading;
use super::fields::{Field, Written, date_of, items_of, text_of};
use super::grid::Row;
use super::names::{self, squeezed};
use super::wrong::Wrong;
use super::{Made, Table, pieces};
use crate::board::id::FreeIds;
use crate::board::{CharacterId, Outfit, OutfitId, Recognition};

const ID: Heading = Heading { key: "id", name: "Id", synonyms: &["outfit id"] };

/// What a table says of an outfit beside its id.
pub const FIELDS: [Field<Outfit>; 14] = [
    Field {
        heading: Heading { key: "title", name: "Title", synonyms: &["outfit", "name", "costume"] },
        written: |_, outfit| Written::Text(outfit.title.clone()),
        read: |_, cell, outfit| {
            outfit.title = text_of(cell).to_owned();
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "character", name: "Character", synonyms: &["role", "who", "wearer"] },
        written: |board, outfit| Written::Text(names::written_character(board, &outfit.character)),
        read: |board, cell, outfit| {
            outfit.character = names::character(board, text_of(cell))?;
            Ok(())
        },
    },
    Field {
        heading: Heading {
            key: "worn",
            name: "Worn",
            synonyms: &["date worn", "date", "when worn", "year", "dated"],
        },
        written: |_, outfit| Written::maybe(outfit.worn.as_ref()),
        read: |_, cell, outfit| {
            outfit.worn = Some(date_of(cell)?);
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "period", name: "Period", synonyms: &["story period"] },
        written: |board, outfit| {
            let dated = outfit.worn.as_ref().and_then(|worn| board.period_of_date(worn));
            Written::maybe(
                outfit.period.as_ref().or(dated).map(|period| names::written_period(board, period)),
            )
        },
        read: |board, cell, outfit| {
            let period = names::period(board, text_of(cell))?;
            let dated = outfit.worn.as_ref().and_then(|worn| board.period_of_date(worn));
            outfit.period = Some(period).filter(|period| Some(period) != dated);
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "occasion", name: "Occasion", synonyms: &["event", "for what", "worn for"] },
        written: |_, outfit| Written::Text(outfit.occasion.clone()),
        read: |_, cell, outfit| {
            outfit.occasion = text_of(cell).to_owned();
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "silhouette", name: "Silhouette", synonyms: &["outline", "shape", "line"] },
        written: |_, outfit| Written::Text(outfit.silhouette.clone()),
        read: |_, cell, outfit| {
            outfit.silhouette = text_of(cell).to_owned();
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "recognition", name: "Recognition", synonyms: &["known", "fame"] },
        written: |_, outfit| Written::Number(u32::from(outfit.recognition.get())),
        read: |_, cell, outfit| {
            let text = text_of(cell);
            let value = text.parse::<u8>().ok().and_then(Recognition::new);
            outfit.recognition = value.ok_or_else(|| {
                format!("`{text}` is no recognition: expected 0 (nobody) to 5 (everybody has seen it)")
            })?;
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "pieces", name: "Pieces", synonyms: &["garments", "items"] },
        written: |_, outfit| Written::items(outfit.pieces.iter().map(pieces::written_piece)),
        read: |_, cell, outfit| {
            outfit.pieces =
                items_of(cell).iter().map(|item| pieces::piece(item)).collect::<Result<_, _>>()?;
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "threads", name: "Threads", synonyms: &["thread", "signatures", "motifs"] },
        written: |board, outfit| {
            Written::items(outfit.threads.iter().map(|thread| names::written_thread(board, thread)))
        },
        read: |board, cell, outfit| {
            let threads = items_of(cell);
            outfit.threads =
                threads.iter().map(|item| names::thread(board, item)).collect::<Result<_, _>>()?;
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "tags", name: "Tags", synonyms: &["tag", "keywords", "labels"] },
        written: |_, outfit| Written::items(&outfit.tags),
        read: |_, cell, outfit| {
            outfit.tags = items_of(cell);
            Ok(())
        },
    },
    Field {
        heading: Heading {
            key: "evidence",
            name: "Evidence",
            synonyms: &["source", "sources", "references"],
        },
        written: |_, outfit| Written::items(outfit.evidence.iter().map(pieces::written_evidence)),
        read: |_, cell, outfit| {
            outfit.evidence =
                items_of(cell).iter().map(|item| pieces::evidence(item)).collect::<Result<_, _>>()?;
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "let-go", name: "Let go", synonyms: &["why let go", "left out because"] },
        written: |_, outfit| Written::maybe(outfit.let_go.as_ref()),
        read: |_, cell, outfit| {
            outfit.let_go = Some(text_of(cell).to_owned());
            Ok(())
        },
    },
    Field {
        heading: Heading {
            key: "dressing",
            name: "Dressing notes",
            synonyms: &["dressing", "how worn", "worn how"],
        },
        written: |_, outfit| Written::items(&outfit.dressing),
        read: |_, cell, outfit| {
            outfit.dressing = items_of(cell);
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "notes", name: "Notes", synonyms: &["note", "remarks", "comments"] },
        written: |_, outfit| Written::Text(outfit.notes.clone()),
        read: |_, cell, outfit| {
            outfit.notes = text_of(cell).to_owned();
            Ok(())
        },
    },
];

pub(super) fn headings() -> Vec<Heading> {
    [ID].into_iter().chain(FIELDS.into_iter().map(|field| field.heading)).collect()
}

/// Outfits by title.
type Titles = HashMap<String, Vec<OutfitId>>;

pub(super) fn read(table: &Table<'_>, made: &mut Made) {
    let mut titles = Titles::new();
    for (id, outfit) in &table.board.records().outfits {
        titles.entry(squeezed(&outfit.title)).or_default().push(id.clone());
    }
    let mut rows: HashMap<OutfitId, usize> = HashMap::new();
    let mut free = FreeIds::default();
    for row in table.rows {
        let (id, mut outfit) = match begin(table, row, made, &titles, &mut free) {
            Ok(begun) => begun,
            Err(wrong) => {
                made.wrong.push(wrong);
                continue;
            }
        };
        match rows.entry(id.clone()) {
            Entry::Occupied(first) => {
                let what = format!("it is the same outfit as in row {}", first.get());
                made.wrong.push(Wrong::in_row(row.number, what));
                continue;
            }
            Entry::Vacant(free) => free.insert(row.number),
        };
        for field in &FIELDS {
            let cell = table.cell(row, field.heading.key);
            if let Err(what) = field.put(table.board, cell, &mut outfit) {
                made.wrong.push(Wrong::at(row.number, field.heading.name, what));
            }
        }
        let before = table.board.outfit(&id);
        made.count(before, &outfit);
        if before.is_none() {
            titles.entry(squeezed(&outfit.title)).or_default().push(id.clone());
        }
        if before != Some(&outfit) {
            made.records.outfits.insert(id, Arc::new(outfit));
        }
    }
}

/// The outfit that a row is about, as it is before the row changes it.
fn begin(
    table: &Table<'_>,
    row: &Row,
    made: &Made,
    titles: &Titles,
    free: &mut FreeIds<Outfit>,
) -> Result<(OutfitId, Outfit), Wrong> {
    let (id, title) = (text_of(table.cell(row, "id")), text_of(table.cell(row, "title")));
    let character = || whose(table, row);
    if !id.is_empty() {
        let id: OutfitId = id
            .parse()
            .map_err(|error: crate::board::id::IdError| Wrong::at(row.number, ID.name, error.to_string()))?;
        if let Some(outfit) = table.board.outfit(&id) {
            return Ok((id, outfit.clone()));
        }
        return match (title, character()?) {
            ("", _) => Err(Wrong::at(
                row.number,
                "Title",
                format!("there is no outfit `{id}`, and a new one needs a title"),
            )),
            (_, None) => Err(no_character(table, row)),
            (title, Some(character)) => Ok((id, Outfit::titled(title, character))),
        };
    }
    if title.is_empty() {
        return Err(Wrong::at(row.number, "Title", "expected a title, or the id of an outfit that is there"));
    }
    let character = character()?;
    let outfit = |id: &OutfitId| made.records.outfits.get(id).cloned();
    let theirs = |id: &&OutfitId| {
        character.as_ref().is_none_or(|who| outfit(id).is_some_and(|outfit| outfit.character == *who))
    };
    let found: Vec<&OutfitId> = titles.get(&squeezed(title)).into_iter().flatten().filter(theirs).collect();
    match (found.as_slice(), character) {
        ([], None) => Err(no_character(table, row)),
        ([], Some(character)) => {
            let fallback = "outfit".parse().map_err(|_| Wrong::in_row(row.number, "it can have no id"))?;
            let id = free.next(title, fallback, |id| made.records.outfits.contains_key(id));
            Ok((id, Outfit::titled(title, character)))
        }
        ([one], _) => {
            let found = outfit(one).map(|outfit| Outfit::clone(&outfit));
            found.map(|outfit| ((*one).clone(), outfit)).ok_or_else(|| no_character(table, row))
        }
        ([one, other, ..], _) => Err(Wrong::at(
            row.number,
            "Title",
            format!("more than one outfit is called so: give the id of one, such as `{one}` or `{other}`"),
        )),
    }
}

/// The character that a row names, or the only one that there is.
fn whose(table: &Table<'_>, row: &Row) -> Result<Option<CharacterId>, Wrong> {
    let cell = text_of(table.cell(row, "character"));
    if cell.is_empty() {
        return Ok(match table.board.head().characters.as_slice() {
            [only] => Some(only.id.clone()),
            _ => None,
        });
    }
    let found = names::character(table.board, cell);
    found.map(Some).map_err(|what| Wrong::at(row.number, "Character", what))
}

fn no_character(table: &Table<'_>, row: &Row) -> Wrong {
    let ids: Vec<&str> = table.board.head().characters.iter().map(|one| one.id.as_str()).collect();
    let known = if ids.is_empty() {
        "there is none yet".to_owned()
    } else {
        format!("one of `{}`", ids.join("`, `"))
    };
    Wrong::at(row.number, "Character", format!("expected who wears it: {known}"))
}
