//! `shirr bring table`: a preview of what a table changes, and then the change.

use std::fmt::Write;
use std::path::PathBuf;

use clap::{Args, ValueEnum};
use serde_json::{Value, json};

use crate::board::Board;
use crate::bring::table::{Altered, AlteredField, Brought, Grid, GridError, Kind, Wrong};
use crate::check::words::counted;
use crate::cli::boards::{self, BoardArg};
use crate::cli::changing::{open_whole, refused, whole};
use crate::cli::console::Console;
use crate::cli::failure::Failure;
use crate::cli::{Outcome, faults};

/// Bring in a table of outfits, scenes or shooting days, as CSV (UTF-8) or a workbook (XLSX)
#[derive(Debug, Args)]
#[command(
    after_help = "It first says which column is read as what, and what would change. With any error nothing is changed.\n\
                  Exit code: 0 without errors, 1 with errors in the table, 2 where a file cannot be read."
)]
pub(super) struct Table {
    /// What the rows are
    kind: Rows,
    /// The table
    #[arg(value_name = "FILE", value_hint = clap::ValueHint::FilePath)]
    file: PathBuf,
    #[command(flatten)]
    board: BoardArg,
    /// Which sheet of a workbook; left out, it is the first
    #[arg(long, value_name = "NAME")]
    sheet: Option<String>,
    /// Say what would change, and change nothing
    #[arg(long)]
    dry_run: bool,
    /// Print one JSON document with stable keys
    #[arg(long)]
    json: bool,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Rows {
    /// One row for each outfit
    Outfits,
    /// One row for each scene, or for each character in each scene
    Scenes,
    /// One row for each shooting day, or for each scene of each day
    Schedule,
}

/// The most errors, notices or changes that are printed.
const MOST: usize = 40;

/// The most characters of a value that are printed.
const SHOWN: usize = 60;

impl Rows {
    fn kind(self) -> Kind {
        match self {
            Self::Outfits => Kind::Outfits,
            Self::Scenes => Kind::Scenes,
            Self::Schedule => Kind::Schedule,
        }
    }
}

impl Table {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let folder = self.board.folder(console)?;
        let grid = Grid::open(&self.file, self.sheet.as_deref()).map_err(|error| self.unread(&error))?;
        if self.dry_run {
            let reading = boards::read(&folder)?;
            faults::warn(console, &reading.faults);
            whole(&reading.faults)?;
            let brought = self.kind.kind().bring(&reading.board, &grid);
            let altered = brought.altered(&reading.board);
            return self.tell(console, &reading.board, &brought, &altered, false);
        }
        let mut open = open_whole(&folder, console)?;
        let brought = self.kind.kind().bring(open.board(), &grid);
        let altered = brought.altered(open.board());
        if let Some(edit) = &brought.edit {
            open.edit(edit).map_err(|error| refused(&error))?;
        }
        let done = brought.edit.is_some();
        self.tell(console, open.board(), &brought, &altered, done)
    }

    fn unread(&self, error: &GridError) -> Failure {
        let failure = Failure::new(format!("{}: {error}", self.file.display()));
        match error.hint() {
            Some(hint) => failure.hint(hint),
            None => failure,
        }
    }

    fn tell(
        &self,
        console: &mut Console,
        board: &Board,
        brought: &Brought,
        altered: &[Altered],
        done: bool,
    ) -> Result<Outcome, Failure> {
        if self.json {
            console.print(&format!("{:#}\n", self.document(board, brought, altered, done)))?;
        } else {
            console.print(&self.words(brought, altered, done))?;
        }
        Ok(if brought.wrong.is_empty() { Outcome::Fine } else { Outcome::Errors })
    }

    fn words(&self, brought: &Brought, altered: &[Altered], done: bool) -> String {
        let mut to = String::new();
        let file = self.file.display();
        let sheet = brought.sheet.as_ref().map(|sheet| format!(", sheet `{sheet}`")).unwrap_or_default();
        let _ = writeln!(to, "{file}{sheet}: {} of {}.", counted(brought.rows, "row"), brought.kind.word());
        for column in brought.columns.iter().filter(|column| !column.heading.is_empty()) {
            let field = column.field.unwrap_or("not used");
            let _ = writeln!(to, "  {:>2}  {} → {field}", column.letters, one_line(&column.heading));
        }
        if brought.left > 0 {
            let _ = writeln!(
                to,
                "{} behind the table or between its parts left out.",
                counted(brought.left, "row")
            );
        }
        if brought.wrong.is_empty() {
            let counts = &brought.counts;
            let _ = writeln!(
                to,
                "{}: {} new, {} changed, {} as before.",
                capital_plural(brought.kind),
                counts.new,
                counts.changed,
                counts.unchanged
            );
        }
        if self.dry_run {
            write_some(&mut to, altered.iter().flat_map(changes), "more change");
        }
        write_some(&mut to, brought.notices.iter().map(|notice| format!("notice: {notice}")), "more notice");
        let errors = brought.wrong.iter().map(|wrong| format!("error: {}", one_line(&wrong.to_string())));
        write_some(&mut to, errors, "more error");
        let _ = writeln!(to, "{}", end(brought, done));
        to
    }

    fn document(&self, board: &Board, brought: &Brought, altered: &[Altered], done: bool) -> Value {
        let columns = brought.columns.iter().map(
            |column| json!({"column": column.letters, "heading": column.heading, "field": column.field}),
        );
        let wrong = |wrong: &Wrong| json!({"row": wrong.row, "column": wrong.column, "text": wrong.what});
        json!({
            "board": {"id": board.head().id, "title": board.head().title},
            "kind": brought.kind.word(),
            "file": self.file.display().to_string(),
            "sheet": brought.sheet,
            "columns": columns.collect::<Vec<_>>(),
            "rows": brought.rows,
            "left": brought.left,
            "new": brought.counts.new,
            "changed": brought.counts.changed,
            "unchanged": brought.counts.unchanged,
            "changes": altered.iter().map(change_json).collect::<Vec<_>>(),
            "notices": brought.notices,
            "errors": brought.wrong.iter().map(wrong).collect::<Vec<_>>(),
            "edit": brought.edit.as_ref().map(|edit| &edit.label),
            "applied": done,
        })
    }
}

fn change_json(altered: &Altered) -> Value {
    let field = |one: &AlteredField| json!({"field": one.field, "was": one.was, "becomes": one.becomes});
    let fields: Vec<Value> = altered.fields.iter().map(field).collect();
    json!({"record": altered.record, "new": altered.is_new, "fields": fields})
}

/// What became of it.
fn end(brought: &Brought, done: bool) -> String {
    match (&brought.edit, done) {
        _ if !brought.wrong.is_empty() => {
            "Nothing is changed: mend the table and bring it in again.".to_owned()
        }
        (None, _) if brought.rows == 0 => "Nothing is changed: no row was read.".to_owned(),
        (None, _) if brought.left > 0 => {
            "Nothing is changed: what was read, the board says already.".to_owned()
        }
        (None, _) => "Nothing is changed: the board says all that already.".to_owned(),
        (Some(edit), true) => format!("Done as one edit: {}.", edit.label),
        (Some(_), false) => "Nothing is changed yet: this is the preview.".to_owned(),
    }
}

/// Writes the first of the lines, and how many more there are.
fn write_some(to: &mut String, lines: impl Iterator<Item = String>, noun: &str) {
    let mut more = 0;
    for (at, line) in lines.enumerate() {
        if at < MOST {
            let _ = writeln!(to, "{line}");
        } else {
            more += 1;
        }
    }
    if more > 0 {
        let _ = writeln!(to, "… and {}.", counted(more, noun));
    }
}

/// The changes of a record, a line each; of a new one all in a line.
fn changes(altered: &Altered) -> Vec<String> {
    let record = &altered.record;
    if altered.is_new {
        let said = altered.fields.iter().map(|one| {
            let (_, becomes) = beside("", &one_line(&one.becomes));
            format!("{}: {becomes}", one.field)
        });
        let said: Vec<String> = said.collect();
        return vec![format!("  new {record}  {}", said.join(", ")).trim_end().to_owned()];
    }
    let line = |one: &AlteredField| {
        let (was, becomes) = beside(&one_line(&one.was), &one_line(&one.becomes));
        format!("  {record}  {}: {was} → {becomes}", one.field)
    };
    altered.fields.iter().map(line).collect()
}

/// Two texts, short enough for a line and yet with the place where they part.
fn beside(was: &str, becomes: &str) -> (String, String) {
    let same = was.chars().zip(becomes.chars()).take_while(|(one, other)| one == other).count();
    let fits = |text: &str| text.chars().count() <= SHOWN;
    let from = if fits(was) && fits(becomes) { 0 } else { same.saturating_sub(SHOWN / 3) };
    let shown = |text: &str| {
        if text.is_empty() {
            return "—".to_owned();
        }
        let mut shown = String::from(if from > 0 { "…" } else { "" });
        shown.extend(text.chars().skip(from).take(SHOWN));
        if text.chars().count() > from + SHOWN {
            shown.push('…');
        }
        shown
    };
    (shown(was), shown(becomes))
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn capital_plural(kind: Kind) -> String {
    crate::check::words::capital(&format!("{}s", kind.noun()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::sample;

    fn brought(text: &str) -> Brought {
        Kind::Outfits.bring(&sample::board(), &Grid::read(text.as_bytes(), None).unwrap())
    }

    #[test]
    fn nobody_says_that_all_is_there_already_where_not_all_was_read() {
        let said = |text: &str| end(&brought(text), false);
        assert_eq!(said("Id,Title\n"), "Nothing is changed: no row was read.");
        assert_eq!(
            said("Id,Title\nsmock,Quay smock\n"),
            "Nothing is changed: the board says all that already."
        );
        assert_eq!(
            said("Id,Title\nsmock,Quay smock\nId,Title\n"),
            "Nothing is changed: what was read, the board says already."
        );
    }

    #[test]
    fn changes_are_told_by_field_and_a_new_record_in_a_line() {
        let board = sample::board();
        let brought = brought("Id,Title,Character,Notes\nsmock,Smock,,\nhood,Hood,odile,\n");
        let altered = brought.altered(&board);
        let lines: Vec<String> = altered.iter().flat_map(changes).collect();
        assert_eq!(
            lines,
            [
                "  outfit `smock`  Title: Quay smock → Smock",
                "  new outfit `hood`  Title: Hood, Character: Odile, Recognition: 0",
            ]
        );
        let mut to = String::new();
        write_some(&mut to, std::iter::repeat_n("x".to_owned(), MOST + 2), "more change");
        assert_eq!((to.lines().count(), to.lines().last()), (MOST + 1, Some("… and two more changes.")));
    }

    #[test]
    fn long_texts_are_shown_from_where_they_part() {
        let same = "word ".repeat(40);
        let (was, becomes) = beside(&format!("{same}here"), &format!("{same}there"));
        assert!(
            was.starts_with('…') && was.ends_with("here") && becomes.ends_with("there"),
            "{was} {becomes}"
        );
        let (was, becomes) = beside("", &same);
        assert_eq!((was.as_str(), becomes.chars().count(), becomes.ends_with('…')), ("—", SHOWN + 1, true));
    }
}
