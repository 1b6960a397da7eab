//! Tables of outfits, scenes and shooting days, brought in.
//!
//! A file becomes a [`Grid`], its headings are matched, its rows change a copy of the records, and what differs becomes
//! one edit. Either all rows can be read, or nothing is changed. A record that is on the board is found by its id, a
//! scene by its number, a shooting day by its number, an outfit without an id by its title and character; only what the
//! table has a column and a filled cell for is changed, and nothing is ever taken away.

mod altered;
mod closing;
mod columns;
mod fields;
mod full;
mod grid;
mod names;
mod notices;
mod outfits;
mod pieces;
mod scenes;
mod schedule;
#[cfg(test)]
mod tests;
mod workbook;
mod wrong;

use std::collections::HashMap;

pub use altered::{Altered, AlteredField};
pub use columns::{Column, Heading};
pub use fields::{Field, Written};
pub use full::{WORKBOOK_CELL, cut, in_workbook};
pub use grid::{CELL, COLUMNS, Grid, GridError, LARGEST, ROWS, Row, letters};
pub use names::{NO_LOOK, written_character, written_look, written_period};
pub use outfits::FIELDS as OUTFIT_FIELDS;
pub use wrong::Wrong;

use crate::board::{Board, Edit, Records, Refused};
use columns::Columns;

/// What the rows of a table are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// One row for each outfit.
    Outfits,
    /// One row for each scene, or for each character in each scene.
    Scenes,
    /// One row for each shooting day, or for each scene of each day.
    Schedule,
}

/// A table that was read against a board: what it would change, or why it cannot.
#[derive(Clone, Debug)]
pub struct Brought {
    /// What its rows are.
    pub kind: Kind,
    /// The sheet of the workbook, where it comes from one.
    pub sheet: Option<String>,
    /// Which column is read as what.
    pub columns: Vec<Column>,
    /// How many rows were read.
    pub rows: usize,
    /// How many rows below the headings were left alone: headings again, another table, what our reports end with.
    pub left: usize,
    /// How many records are new, changed, and as they were.
    pub counts: Counts,
    /// What is wrong, row by row.
    pub wrong: Vec<Wrong>,
    /// What should be looked at, though nothing is wrong with it; nothing where the board stays as it is.
    pub notices: Vec<String>,
    /// The change of the board; nothing where anything is wrong.
    pub edit: Option<Edit>,
}

/// How many records are new, changed, and as they were.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Not on the board before.
    pub new: usize,
    /// On the board, and changed.
    pub changed: usize,
    /// On the board as the table says.
    pub unchanged: usize,
}

impl Kind {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Outfits => "outfits",
            Self::Scenes => "scenes",
            Self::Schedule => "schedule",
        }
    }

    /// What it brings, one of them.
    pub fn noun(self) -> &'static str {
        match self {
            Self::Outfits => "outfit",
            Self::Scenes => "scene",
            Self::Schedule => "shooting day",
        }
    }

    fn headings(self) -> Vec<Heading> {
        match self {
            Self::Outfits => outfits::headings(),
            Self::Scenes => scenes::headings(),
            Self::Schedule => schedule::headings(),
        }
    }

    /// Of each group of keys one must be there.
    fn necessary(self) -> &'static [&'static [&'static str]] {
        match self {
            Self::Outfits => &[&["title", "id"]],
            Self::Scenes => &[&["scene"]],
            Self::Schedule => &[&["day"], &["scenes", "date", "notes"]],
        }
    }

    /// Reads a table against a board. The board stays as it is.
    pub fn bring(self, board: &Board, grid: &Grid) -> Brought {
        let headings = self.headings();
        let (columns, mut wrong) = Columns::find(grid, &headings, self.necessary());
        let (rows, left) = body(grid, &columns, &headings, self.necessary());
        let mut made = Made::of(board.records());
        if wrong.is_empty() {
            wrong.extend(ragged(grid, &columns, &rows));
            let table = Table { board, columns: &columns, rows: &rows };
            match self {
                Self::Outfits => outfits::read(&table, &mut made),
                Self::Scenes => scenes::read(&table, &mut made),
                Self::Schedule => schedule::read(&table, &mut made),
            }
            wrong.append(&mut made.wrong);
        }
        wrong.sort_by_key(|wrong| wrong.row);
        let edit = if wrong.is_empty() { made.edit(self, board) } else { Ok(None) };
        let edit = edit.unwrap_or_else(|refused| {
            wrong.extend(sentences(refused));
            None
        });
        Brought {
            kind: self,
            sheet: grid.sheet.clone(),
            rows: rows.len(),
            left,
            counts: made.counts,
            notices: if edit.is_some() { made.notices } else { Vec::new() },
            wrong,
            edit,
            columns: columns.all,
        }
    }
}

impl Brought {
    /// What would change, record by record, on the board against which the table was read.
    pub fn altered(&self, board: &Board) -> Vec<Altered> {
        self.edit.as_ref().map(|edit| altered::altered(board, edit)).unwrap_or_default()
    }
}

/// The rules that the board would break, or why else it would not take the edit.
fn sentences(refused: Refused) -> Vec<Wrong> {
    match refused {
        Refused::Broken(broken) => broken.iter().map(|broken| Wrong::whole(broken.to_string())).collect(),
        other => vec![Wrong::whole(other.to_string())],
    }
}

/// The rows of a table, against a board.
struct Table<'a> {
    board: &'a Board,
    columns: &'a Columns,
    rows: &'a [&'a Row],
}

impl<'a> Table<'a> {
    fn cell(&self, row: &'a Row, key: &str) -> &'a str {
        self.columns.cell(row, key)
    }

    /// The rows of one record together, in the order in which they first come; `key` reads whose a row is, and `None`
    /// is whoever the row above belongs to.
    fn grouped<K: Clone + Eq + std::hash::Hash>(
        &self,
        key: impl Fn(&'a Row) -> Result<Option<K>, Wrong>,
        wrong: &mut Vec<Wrong>,
    ) -> Vec<(K, Vec<&'a Row>)> {
        let mut groups: Vec<(K, Vec<&Row>)> = Vec::new();
        let mut places: HashMap<K, usize> = HashMap::new();
        let mut above = None;
        for row in self.rows {
            match key(row) {
                Err(error) => {
                    wrong.push(error);
                    continue;
                }
                Ok(Some(key)) => above = Some(key),
                Ok(None) => {}
            }
            let Some(key) = above.clone() else {
                wrong
                    .push(Wrong::in_row(row.number, "it belongs to nothing: the first row must say to what"));
                continue;
            };
            let at = *places.entry(key.clone()).or_insert_with(|| {
                groups.push((key, Vec::new()));
                groups.len() - 1
            });
            if let Some((_, rows)) = groups.get_mut(at) {
                rows.push(row);
            }
        }
        groups
    }

    /// What the rows of one record say in a column: they agree, or say nothing.
    fn agreed(&self, rows: &[&'a Row], heading: &Heading) -> Result<(usize, &'a str), Wrong> {
        let mut said: Option<(usize, &str)> = None;
        for row in rows {
            let cell = self.cell(row, heading.key);
            match said {
                _ if cell.is_empty() => {}
                None => said = Some((row.number, cell)),
                Some((first, before)) if names::squeezed(before) != names::squeezed(cell) => {
                    let what = format!("`{cell}` is not what row {first} says, which is `{before}`");
                    return Err(Wrong::at(row.number, heading.name, what));
                }
                Some(_) => {}
            }
        }
        Ok(said.unwrap_or((rows.first().map_or(0, |row| row.number), "")))
    }
}

/// Records as they become, and what was counted and found wrong or worth a look on the way.
struct Made {
    records: Records,
    counts: Counts,
    wrong: Vec<Wrong>,
    notices: Vec<String>,
}

impl Made {
    fn of(records: &Records) -> Self {
        Self { records: records.clone(), counts: Counts::default(), wrong: Vec::new(), notices: Vec::new() }
    }

    fn count<T: PartialEq>(&mut self, before: Option<&T>, after: &T) {
        match before {
            None => self.counts.new += 1,
            Some(before) if before == after => self.counts.unchanged += 1,
            Some(_) => self.counts.changed += 1,
        }
    }

    /// The edit that makes the records so, once the board has taken it on trial.
    fn edit(&self, kind: Kind, board: &Board) -> Result<Option<Edit>, Refused> {
        let Counts { new, changed, .. } = self.counts;
        let label = format!("table of {}: {new} new, {changed} changed", kind.word());
        let edit = Edit::between(label, board.records(), &self.records);
        if edit.is_empty() {
            return Ok(None);
        }
        board.clone().apply(&edit)?;
        Ok(Some(edit))
    }
}

/// The rows below the headings that are of the table, and how many are not: headings that come again, another table with
/// its title, the lines that our reports end with.
fn body<'a>(
    grid: &'a Grid,
    columns: &Columns,
    headings: &[Heading],
    necessary: &[&[&str]],
) -> (Vec<&'a Row>, usize) {
    let below = grid.rows.get(columns.headings_at + 1..).unwrap_or_default();
    let own = grid.rows.get(columns.headings_at).map(|row| row.cells.as_slice());
    let keys: Vec<&str> = necessary.iter().flat_map(|keys| keys.iter().copied()).collect();
    let is_head = |row: &Row| {
        let heads = |key: &&str| columns::heads(headings, key, columns.cell(row, key));
        keys.iter().any(heads)
            && row.cells.iter().filter(|cell| columns::rank_of_any(headings, cell) > 0).count() > 1
    };
    // A lone cell behind an empty row is the title of the table whose headings come next, as our reports have it.
    let is_title = |at: usize| {
        let row_at = |at: usize| grid.rows.get(columns.headings_at + 1 + at);
        let (Some(row), Some(next)) = (row_at(at), row_at(at + 1)) else { return false };
        let before = grid.rows.get(columns.headings_at + at).map_or(0, |row| row.number);
        row.number > before + 1 && row.cells.iter().skip(1).all(String::is_empty) && is_head(next)
    };
    let mut rows: Vec<&Row> = Vec::new();
    for (at, row) in below.iter().enumerate() {
        if Some(row.cells.as_slice()) == own {
            continue;
        }
        if is_head(row) || is_title(at) {
            break;
        }
        rows.push(row);
    }
    while rows.last().is_some_and(|row| is_closing(row)) {
        rows.pop();
    }
    let left = below.len() - rows.len();
    (rows, left)
}

/// A line alone in the first cell, as our reports end with.
fn is_closing(row: &Row) -> bool {
    let (first, rest) = row.cells.split_first().unzip();
    first.is_none_or(|first| closing::is_closing(fields::text_of(first)))
        && rest.is_none_or(|rest| rest.iter().all(String::is_empty))
}

/// Rows of CSV that have more cells than there are headings: mostly a comma that is meant as part of a cell.
fn ragged(grid: &Grid, columns: &Columns, rows: &[&Row]) -> Vec<Wrong> {
    if grid.sheet.is_some() {
        return Vec::new();
    }
    let most = columns.all.len();
    let over = rows.iter().filter_map(|row| {
        let cell = row.cells.iter().skip(most).find(|cell| !cell.is_empty())?;
        let what =
            format!("`{cell}` stands under no heading: a cell with a separator in it must stand in quotes");
        Some(Wrong::in_row(row.number, what))
    });
    over.collect()
}
