//! The build sheets: of each look what the workroom needs to make it: pieces, measures, versions and copies with their
//! reasons, cloths, fittings, cautions. On paper each look is a sheet of its own, to be pinned up where it is cut.

use std::collections::HashMap;

use super::cautions::{self, with_look};
use super::document::{Cell, Column, Document, Kind, Table};
use super::figure::Figures;
use super::looks::treatment;
use super::plain::Plain;
use crate::album::Album;
use crate::board::{
    Board, BodyId, ClothId, Departure, Fitting, Look, LookId, Make, Practice, Version, VersionId,
};
use crate::check::words::counted;
use crate::plot::Shooting;
use crate::trade::colour::Colour;
use crate::trade::length::{Length, Unit};
use crate::workroom::cloth::lay::{self, NotLaid};
use crate::workroom::copies::plan::{Demand, Plan};
use crate::workroom::fit::{Row, original_of, rows, version_of, wearer_of};
use crate::workroom::{asks, words};

pub(super) fn document(board: &Board, album: Option<&Album>, only: Option<&LookId>) -> Document {
    let mut figures = Figures::of(board, album);
    let sheets = Sheets {
        board,
        plan: Plan::of(board),
        shooting: Shooting::of(board),
        practice: board.practice(),
        unit: board.head().units,
    };
    let looks = board.relations().looks_by_order().iter().filter(|id| only.is_none_or(|only| *id == only));
    let looks: Vec<(&LookId, &Look)> = looks.filter_map(|id| Some((id, board.look(id)?))).collect();
    let raised: Vec<_> = looks.iter().flat_map(|(id, _)| with_look(board, id)).collect();
    let mut tables = [head(), pieces(), measures(), copies(), cloths(), fittings(), asked()];
    for ((id, look), name) in looks.iter().zip(names(board, &looks)) {
        let each = [
            vec![sheets.head(id, look)],
            sheets.pieces(look),
            sheets.measures(id, look),
            sheets.copies(id),
            sheets.cloths(look),
            sheets.fittings(look),
            sheets.asked(id),
        ];
        for (table, rows) in tables.iter_mut().zip(each) {
            for row in rows {
                table.push([vec![Cell::text(&name)], row].concat());
            }
        }
        tables[0].show_beside(figures.of_look(look));
    }
    Document {
        key: "build",
        title: Plain::line(&format!("{}: build sheets", board.head().title)),
        subtitle: Plain::line(&counted(looks.len(), "look")),
        notes: vec![Plain::line(
            "A measure that a fitting decided counts before the rule; what a version adds comes on top. Copies are those that \
             the shooting days need, with spares, and never fewer than is usual for a principal (common practice). Seams \
             and hems are the cutter's.",
        )],
        gaps: figures.gaps(),
        cautions: cautions::asks(&raised),
        tables: tables.into(),
        sheets_by: Some("look"),
    }
}

/// What the sheets are called; two looks of one title are two sheets.
fn names(board: &Board, looks: &[(&LookId, &Look)]) -> Vec<String> {
    let mut times: HashMap<String, usize> = HashMap::new();
    for (id, _) in looks {
        *times.entry(super::whose(board, id)).or_default() += 1;
    }
    let unlike = |(id, _): &(&LookId, &Look)| {
        let name = super::whose(board, id);
        if times.get(&name) == Some(&1) { name } else { format!("{name} ({id})") }
    };
    looks.iter().map(unlike).collect()
}

fn titled(key: &'static str, title: &str, columns: Vec<Column>) -> Table {
    let look = Column::new("look", "Look", Kind::Text);
    Table::titled(key, title, [vec![look], columns].concat())
}

fn head() -> Table {
    let columns = vec![
        Column::new("says", "Says", Kind::Text),
        Column::new("treatment", "Treatment", Kind::Text),
        Column::new("base", "Made after", Kind::Text),
        Column::new("body", "The original's body", Kind::Text),
        Column::new("wearer", "Made for", Kind::Text),
        Column::new("departures", "Departures", Kind::List),
        Column::new("dressing", "Dressing notes", Kind::List),
        Column::new("scenes", "Scenes", Kind::List),
        Column::new("first", "First needed on day", Kind::Number),
        Column::new("first-date", "First needed", Kind::Date),
        Column::new("stage", "Stage", Kind::Text),
        Column::new("notes", "Notes", Kind::Text),
    ];
    titled("looks", "The look", columns).upright()
}

fn pieces() -> Table {
    let columns = vec![
        Column::new("piece", "Piece", Kind::Text),
        Column::new("of", "Of", Kind::Text),
        Column::new("colours", "Colours", Kind::List),
        Column::new("details", "Cut and trim", Kind::List),
    ];
    titled("pieces", "Pieces", columns)
}

fn measures() -> Table {
    let columns = vec![
        Column::new("piece", "Piece", Kind::Text).above(),
        Column::new("version", "Version", Kind::Text).above(),
        Column::new("wearer", "For", Kind::Text).above(),
        Column::new("measure", "Measure", Kind::Text),
        Column::new("cut", "Cut", Kind::Text),
        Column::new("how", "How it comes about", Kind::Text),
    ];
    titled("measures", "Measures", columns)
}

fn copies() -> Table {
    let columns = vec![
        Column::new("piece", "Piece", Kind::Text),
        Column::new("version", "Version", Kind::Text),
        Column::new("wearer", "For", Kind::Text),
        Column::new("copies", "Copies", Kind::Number),
        Column::new("planned", "Planned", Kind::Number),
        Column::new("why", "Why so many", Kind::List),
        Column::new("rigs", "Rigs", Kind::List),
        Column::new("differs", "Seen to differ", Kind::List),
        Column::new("notes", "Notes", Kind::Text),
    ];
    titled("copies", "Versions and copies", columns)
}

fn cloths() -> Table {
    let columns = vec![
        Column::new("piece", "Piece", Kind::Text),
        Column::new("cloth", "Cloth", Kind::Text),
        Column::new("id", "Under", Kind::Text),
        Column::new("weight", "Weight", Kind::Text),
        Column::new("width", "Width", Kind::Text),
        Column::new("each", "For one copy", Kind::Text),
        Column::new("besides", "Besides", Kind::List),
        Column::new("mind", "To mind", Kind::List),
    ];
    titled("cloths", "Cloths", columns)
}

fn fittings() -> Table {
    let columns = vec![
        Column::new("on", "Fitted", Kind::Date),
        Column::new("wearer", "On", Kind::Text),
        Column::new("piece", "Piece", Kind::Text),
        Column::new("measure", "Measure", Kind::Text),
        Column::new("measured", "Measured", Kind::Text),
        Column::new("pinned", "Pinned", Kind::Text),
        Column::new("decided", "Decided", Kind::Text),
        Column::new("notes", "Notes", Kind::Text),
    ];
    titled("fittings", "Fittings", columns)
}

fn asked() -> Table {
    let columns = vec![
        Column::new("caution", "Caution", Kind::Text),
        Column::new("because", "Because", Kind::List),
        Column::new("says", "What can happen", Kind::Text),
        Column::new("ask", "What to ask", Kind::Text),
        Column::new("of", "Of whom", Kind::Text),
    ];
    titled("cautions", "Cautions: ask before it is worn or done", columns)
}

struct Sheets<'a> {
    board: &'a Board,
    plan: Plan,
    shooting: Shooting<'a>,
    practice: Practice,
    unit: Unit,
}

impl Sheets<'_> {
    fn shown(&self, length: Length) -> Cell {
        Cell::text(&length.shown(self.unit))
    }

    fn head(&self, id: &LookId, look: &Look) -> Vec<Cell> {
        let board = self.board;
        let first = self.shooting.first_needed(id);
        let scenes =
            board.relations().scenes_of(id).iter().map(|at| board.records().scenes[*at].number.to_string());
        vec![
            Cell::text(&look.says),
            Cell::text(&treatment(look.treatment)),
            Cell::maybe(look.base.as_ref().map(|base| board.title_of_outfit(base))),
            Cell::maybe(original_of(board, look).map(|body| body.who.as_str())),
            Cell::text(board.who_is(&wearer_of(board, look))),
            Cell::list(look.departures.iter().map(Departure::words)),
            Cell::list(&look.dressing),
            Cell::list(scenes),
            first.map_or(Cell::Empty, |day| Cell::Number(day.day)),
            Cell::date(first.and_then(|day| day.date.as_ref())),
            Cell::text(look.stage.word()),
            Cell::text(&look.notes),
        ]
    }

    fn pieces(&self, look: &Look) -> Vec<Vec<Cell>> {
        let row = |piece: &crate::board::Piece| {
            vec![
                Cell::text(&piece.name),
                Cell::text(&piece.cloth),
                Cell::list(piece.colours.iter().map(Colour::to_string)),
                Cell::list(&piece.details),
            ]
        };
        look.pieces.iter().map(row).collect()
    }

    /// For everybody who wears a piece all measures of one version that is made for them, and of the others those that
    /// are not the same.
    fn measures(&self, id: &LookId, look: &Look) -> Vec<Vec<Cell>> {
        let mut all = Vec::new();
        for piece in look.make.keys() {
            let mut told: HashMap<BodyId, Vec<Option<Length>>> = HashMap::new();
            for (version, wearer) in self.made(id, look, piece) {
                let rows = rows(self.board, look, piece, Some(&version), &wearer);
                let results: Vec<Option<Length>> = rows.iter().map(Row::result).collect();
                let first = told.get(&wearer);
                for (at, row) in rows.iter().enumerate() {
                    if first.is_some_and(|first| first.get(at) == results.get(at)) {
                        continue;
                    }
                    all.push(vec![
                        Cell::text(piece),
                        Cell::text(version.as_str()),
                        Cell::text(self.board.who_is(&wearer)),
                        Cell::text(&row.measure.name),
                        row.result().map_or_else(|| Cell::text("not yet"), |length| self.shown(length)),
                        Cell::text(&words::row(row, self.unit)),
                    ]);
                }
                told.entry(wearer).or_insert(results);
            }
        }
        all
    }

    /// The versions of a piece that are made, each for whom; of a piece that no scene needs, as designed.
    fn made(&self, id: &LookId, look: &Look, piece: &str) -> Vec<(VersionId, BodyId)> {
        let demands = self.plan.of_look(id).map(|demand| &demand.garment).filter(|one| one.piece == piece);
        let mut all: Vec<(VersionId, BodyId)> =
            demands.map(|garment| (garment.version.clone(), garment.wearer.clone())).collect();
        if all.is_empty() {
            all.push((Version::as_designed(), wearer_of(self.board, look)));
        }
        all
    }

    fn copies(&self, id: &LookId) -> Vec<Vec<Cell>> {
        let row = |demand: &Demand| {
            let make: Option<&Make> =
                self.board.look(id).and_then(|look| look.make.get(&demand.garment.piece));
            let version = make.and_then(|make| version_of(make, &demand.garment.version));
            vec![
                Cell::text(&demand.garment.piece),
                Cell::text(demand.garment.version.as_str()),
                Cell::text(self.board.who_is(&demand.garment.wearer)),
                Cell::Number(demand.copies()),
                demand.planned.map_or(Cell::Empty, |planned| Cell::Number(planned.into())),
                Cell::list(why(self.board, &self.practice, demand)),
                Cell::list(version.map(|version| version.rigs.as_slice()).unwrap_or_default()),
                Cell::list(version.map(|version| version.differs.as_slice()).unwrap_or_default()),
                Cell::maybe(version.map(|version| version.notes.as_str())),
            ]
        };
        self.plan.of_look(id).map(row).collect()
    }

    fn cloths(&self, look: &Look) -> Vec<Vec<Cell>> {
        let mut all = Vec::new();
        for (piece, make) in look.make.iter() {
            for cut in &make.cuts {
                let Some(cloth) = self.board.cloth(&cut.cloth) else { continue };
                let each = lay::of(cloth, cut.lay, &self.practice);
                all.push(vec![
                    Cell::text(piece),
                    Cell::text(&cloth.title),
                    Cell::text(cut.cloth.as_str()),
                    Cell::maybe(cloth.weight),
                    cloth.width.map_or(Cell::Empty, |width| self.shown(width.length())),
                    Cell::text(&each.map_or_else(|wrong: NotLaid| wrong.to_string(), words::amount)),
                    Cell::list(besides(make, &cut.cloth)),
                    Cell::list(words::to_mind(cloth, self.unit)),
                ]);
            }
        }
        all
    }

    fn fittings(&self, look: &Look) -> Vec<Vec<Cell>> {
        let of = |fitting: &Fitting| {
            let on = fitting.wearer.clone().unwrap_or_else(|| wearer_of(self.board, look));
            let lead = [Cell::date(Some(&fitting.on)), Cell::text(self.board.who_is(&on))];
            let length = |length: Option<Length>| length.map_or(Cell::Empty, |length| self.shown(length));
            let mut rows: Vec<Vec<Cell>> = Vec::new();
            for found in &fitting.found {
                rows.push(vec![
                    lead[0].clone(),
                    lead[1].clone(),
                    Cell::text(&found.piece),
                    Cell::text(&found.measure),
                    length(found.measured.map(|size| size.length())),
                    length(found.pinned),
                    length(found.decided.map(|size| size.length())),
                    Cell::Empty,
                ]);
            }
            match rows.first_mut() {
                Some(first) => first[7] = Cell::text(&fitting.notes),
                None => {
                    let empty = [const { Cell::Empty }; 5];
                    rows.push([lead.as_slice(), &empty, &[Cell::text(&fitting.notes)]].concat());
                }
            }
            rows
        };
        look.fittings.iter().flat_map(of).collect()
    }

    /// Each caution once, with everything that raises it.
    fn asked(&self, id: &LookId) -> Vec<Vec<Cell>> {
        let row = |same: &[asks::Asked]| {
            let ask = &same.first()?.ask;
            Some(vec![
                Cell::text(&ask.caution.as_str().replace('-', " ")),
                Cell::list(same.iter().map(|asked| words::because(&self.practice, asked))),
                Cell::text(&ask.says),
                Cell::text(&ask.ask),
                Cell::text(&ask.of),
            ])
        };
        let all = asks::of_look(self.board, id);
        all.chunk_by(|one, next| one.ask.caution == next.ask.caution).filter_map(row).collect()
    }
}

/// What versions take of a cloth besides, and the toiles that are cut of it: `floor: + 0.10 m`, `1 toile`.
fn besides(make: &Make, cloth: &ClothId) -> Vec<String> {
    let more = make.versions.iter().filter_map(|version| {
        let more = version.more_cloth.get(cloth)?;
        Some(format!("{}: + {} before the wash", version.version, more.length().in_metres()))
    });
    let toiles = (make.toiles > 0).then(|| match make.toiles {
        1 => "1 toile".to_owned(),
        toiles => format!("{toiles} toiles"),
    });
    more.chain(toiles).collect()
}

/// Why there must be so many, in sentences.
pub(super) fn why(board: &Board, practice: &Practice, demand: &Demand) -> Vec<String> {
    if demand.is_unused() {
        return vec!["no scene needs it".to_owned()];
    }
    demand.reasons().iter().map(|reason| words::reason(board, practice, demand, reason)).collect()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::board::told;

    #[test]
    fn two_looks_of_one_title_are_two_sheets() {
        let coat = |piece: &str| json!({"title": "Coat", "treatment": "invent", "pieces": [{"name": piece}]});
        let board = told::board(json!({"looks": {
            "wet": coat("oilskin"), "dry": coat("duffel"), "gown": {"title": "Gown", "treatment": "invent"},
        }}));
        let document = document(&board, None, None);
        let sheets = document.sheets();
        let pieces = |tables: &[Table]| {
            tables.iter().find(|table| table.key() == "pieces").map_or(0, |one| one.rows().len())
        };
        let told: Vec<(&str, usize)> =
            sheets.iter().map(|(name, tables)| (name.as_str(), pieces(tables))).collect();
        assert_eq!(told, [("Ada: Coat (dry)", 1), ("Ada: Gown", 0), ("Ada: Coat (wet)", 1)]);
    }
}
