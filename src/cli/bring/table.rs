//! `shirr bring table`: a preview of what a table changes, and then the change.

use std::fmt::Write;
use std::path::PathBuf;

use clap::{Args, ValueEnum};
use serde_json::{Value, json};

use crate::board::Board;
use crate::bring::table::{Brought, Grid, GridError, Kind, Wrong};
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

/// The most errors that are printed.
const MOST: usize = 40;

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
            return self.tell(console, &reading.board, &brought, false);
        }
        let mut open = open_whole(&folder, console)?;
        let brought = self.kind.kind().bring(open.board(), &grid);
        if let Some(edit) = &brought.edit {
            open.edit(edit).map_err(|error| refused(&error))?;
        }
        let done = brought.edit.is_some();
        self.tell(console, open.board(), &brought, done)
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
        done: bool,
    ) -> Result<Outcome, Failure> {
        if self.json {
            console.print(&format!("{:#}\n", self.document(board, brought, done)))?;
        } else {
            console.print(&self.words(brought, done))?;
        }
        Ok(if brought.wrong.is_empty() { Outcome::Fine } else { Outcome::Errors })
    }

    fn words(&self, brought: &Brought, done: bool) -> String {
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
        for wrong in brought.wrong.iter().take(MOST) {
            let _ = writeln!(to, "error: {}", one_line(&wrong.to_string()));
        }
        if brought.wrong.len() > MOST {
            let _ = writeln!(to, "… and {}.", counted(brought.wrong.len() - MOST, "more error"));
        }
        let end = match (&brought.edit, done) {
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
        };
        let _ = writeln!(to, "{end}");
        to
    }

    fn document(&self, board: &Board, brought: &Brought, done: bool) -> Value {
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
            "errors": brought.wrong.iter().map(wrong).collect::<Vec<_>>(),
            "edit": brought.edit.as_ref().map(|edit| &edit.label),
            "applied": done,
        })
    }
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn capital_plural(kind: Kind) -> String {
    crate::check::words::capital(&format!("{}s", kind.noun()))
}
