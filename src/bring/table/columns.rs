//! Which column of a sheet is read as what.
//!
//! A heading is compared by its letters and digits alone. Of several columns that can be read as one field, the one
//! with the field's own name is; where that does not tell them apart, nobody guesses.

use super::grid::{Grid, Row, letters};
use super::wrong::Wrong;
use crate::board::id::plain_letter;
use crate::store::nearest::nearest;
use crate::trade::cell::bare;

/// What a column can be read as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Heading {
    /// Its stable name.
    pub key: &'static str,
    /// Its heading in our reports.
    pub name: &'static str,
    /// What else it may be headed with.
    pub synonyms: &'static [&'static str],
}

/// A column of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its letters in a spreadsheet.
    pub letters: String,
    /// Its heading in the sheet.
    pub heading: String,
    /// The heading of the field that it is read as; `None` where it is not used.
    pub field: Option<&'static str>,
}

/// The columns of a sheet, matched.
#[derive(Clone, Debug, Default)]
pub(super) struct Columns {
    /// All columns, in their order.
    pub(super) all: Vec<Column>,
    /// The place of the headings among the rows.
    pub(super) headings_at: usize,
    places: Vec<(&'static str, usize)>,
}

/// Headings stand among the first rows that hold anything.
const HEADINGS_WITHIN: usize = 20;

impl Columns {
    /// Finds the headings. Of each group of keys in `necessary`, one must be there.
    pub(super) fn find(grid: &Grid, headings: &[Heading], necessary: &[&[&str]]) -> (Self, Vec<Wrong>) {
        let known = |row: &Row| row.cells.iter().filter(|cell| rank_of_any(headings, cell) > 0).count();
        let first = grid.rows.iter().take(HEADINGS_WITHIN).enumerate();
        // The first of those that have most.
        let at = first.rev().max_by_key(|(_, row)| known(row)).map_or(0, |(at, _)| at);
        let Some(row) = grid.rows.get(at) else { return Self::default().nothing() };
        let mut wrong = Vec::new();
        let mut places = Vec::new();
        for heading in headings {
            let ranked: Vec<(usize, usize)> = row
                .cells
                .iter()
                .map(|cell| rank(heading, cell))
                .enumerate()
                .filter(|(_, rank)| *rank > 0)
                .collect();
            let most = ranked.iter().map(|(_, rank)| *rank).max();
            let best: Vec<usize> =
                ranked.iter().filter(|(_, rank)| Some(*rank) == most).map(|(column, _)| *column).collect();
            match best.as_slice() {
                [] => {}
                [one] => places.push((heading.key, *one)),
                [one, other, ..] => wrong.push(Wrong::at(
                    row.number,
                    heading.name,
                    format!(
                        "columns {} and {} are both read as it: keep one",
                        letters(*one),
                        letters(*other)
                    ),
                )),
            }
        }
        let is_there = |key: &&str| {
            places.iter().any(|(have, _)| have == key)
                || wrong.iter().any(|wrong: &Wrong| {
                    headings
                        .iter()
                        .any(|heading| heading.key == *key && wrong.column.as_deref() == Some(heading.name))
                })
        };
        let missing: Vec<Wrong> = necessary
            .iter()
            .filter(|keys| !keys.iter().any(is_there))
            .map(|keys| missing(row, headings, keys, &places))
            .collect();
        let field = |column: usize| {
            let key = places.iter().find(|(_, at)| *at == column).map(|(key, _)| *key)?;
            headings.iter().find(|heading| heading.key == key).map(|heading| heading.name)
        };
        let all = row.cells.iter().enumerate().map(|(column, heading)| Column {
            letters: letters(column),
            heading: heading.clone(),
            field: field(column),
        });
        let columns = Self { all: all.collect(), headings_at: at, places };
        (columns, [wrong, missing].concat())
    }

    fn nothing(self) -> (Self, Vec<Wrong>) {
        (self, vec![Wrong::whole("it is empty")])
    }

    /// Whether there is a column of this field.
    pub(super) fn has(&self, key: &str) -> bool {
        self.places.iter().any(|(have, _)| *have == key)
    }

    /// The cell of this field in a row, without blanks; empty where there is none.
    pub(super) fn cell<'a>(&self, row: &'a Row, key: &str) -> &'a str {
        let place = self.places.iter().find(|(have, _)| *have == key);
        place.and_then(|(_, column)| row.cells.get(*column)).map_or("", String::as_str)
    }
}

/// Says what was expected, and which heading comes nearest.
fn missing(row: &Row, headings: &[Heading], keys: &[&str], places: &[(&str, usize)]) -> Wrong {
    let wanted: Vec<&Heading> = headings.iter().filter(|heading| keys.contains(&heading.key)).collect();
    let names: Vec<&str> = wanted.iter().map(|heading| heading.name).collect();
    let mut words: Vec<&str> = wanted.iter().flat_map(|heading| heading.synonyms.iter().copied()).collect();
    words.truncate(5);
    let expected = [names.clone(), words].concat();
    let valid: Vec<String> = wanted.iter().flat_map(|heading| spellings(heading)).collect();
    let mut free =
        row.cells.iter().enumerate().filter(|(column, _)| places.iter().all(|(_, at)| at != column));
    let near = free.find(|(_, cell)| nearest(&folded(cell), valid.iter().map(String::as_str)).is_some());
    let near = match near {
        Some((column, cell)) => format!("; the nearest is `{cell}` in column {}", letters(column)),
        None => String::new(),
    };
    Wrong::at(
        row.number,
        &names.join(" or "),
        format!("no column is read as it: expected a heading such as `{}`{near}", expected.join("`, `")),
    )
}

/// How sure it is that a column headed so is meant: 2 by the field's own name, 1 by a synonym, 0 not at all.
fn rank(heading: &Heading, cell: &str) -> usize {
    let cell = folded(bare(cell));
    if cell.is_empty() {
        0
    } else if cell == folded(heading.name) || cell == folded(heading.key) {
        2
    } else {
        usize::from(heading.synonyms.iter().any(|synonym| folded(synonym) == cell))
    }
}

/// The rank of the field that a cell heads, if it heads any.
pub(super) fn rank_of_any(headings: &[Heading], cell: &str) -> usize {
    headings.iter().map(|heading| rank(heading, cell)).max().unwrap_or(0)
}

/// Whether a cell heads this field.
pub(super) fn heads(headings: &[Heading], key: &str, cell: &str) -> bool {
    headings.iter().any(|heading| heading.key == key && rank(heading, cell) > 0)
}

fn spellings(heading: &Heading) -> Vec<String> {
    [heading.key, heading.name].iter().chain(heading.synonyms).map(|text| folded(text)).collect()
}

/// A heading less case, accents, spaces and punctuation.
fn folded(text: &str) -> String {
    text.chars().map(plain_letter).filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEADINGS: [Heading; 3] = [
        Heading { key: "scene", name: "Scene", synonyms: &["scene no", "number"] },
        Heading { key: "where", name: "INT/EXT", synonyms: &["I/E"] },
        Heading { key: "eighths", name: "Pages (eighths)", synonyms: &[] },
    ];

    fn find(text: &str) -> (Columns, Vec<String>) {
        let grid = Grid::read(text.as_bytes(), None).unwrap();
        let (columns, wrong) = Columns::find(&grid, &HEADINGS, &[&["scene"]]);
        (columns, wrong.iter().map(ToString::to_string).collect())
    }

    #[test]
    fn case_spaces_and_punctuation_of_headings_are_nothing() {
        let (columns, wrong) =
            find("Plan of the film\n SCENE no.,int / ext,pages_(Eighths),mood\n1,INT,3,calm\n");
        assert!(wrong.is_empty(), "{wrong:?}");
        let fields: Vec<Option<&str>> = columns.all.iter().map(|column| column.field).collect();
        assert_eq!(fields, [Some("Scene"), Some("INT/EXT"), Some("Pages (eighths)"), None]);
        assert_eq!(columns.headings_at, 1);
    }

    #[test]
    fn a_fields_own_name_goes_before_its_synonyms_and_two_alike_are_refused() {
        let (columns, wrong) = find("Number,Scene\n1,2\n");
        assert!(wrong.is_empty() && columns.all[0].field.is_none(), "{wrong:?}");
        let (_, wrong) = find("Scene,INT/EXT,where\n1,INT,EXT\n");
        assert_eq!(wrong, ["row 1, INT/EXT: columns B and C are both read as it: keep one"]);
    }

    #[test]
    fn a_missing_heading_is_said_with_the_nearest() {
        let (_, wrong) = find("Scenne,INT/EXT\n1,INT\n");
        let expected = "row 1, Scene: no column is read as it: expected a heading such as `Scene`, `scene no`, `number`; \
                        the nearest is `Scenne` in column A";
        assert_eq!(wrong, [expected]);
    }
}
