//! `shirr bring script`: a draft of the script, compared with the board and brought onto it as one edit.

mod json;
mod words;

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use clap::Args;

use crate::board::{Board, Edit, Head};
use crate::bring::script::{self, Comparison, Draft, LARGEST, Part, ScriptError, Touched, Unfit};
use crate::cli::boards::{self, BoardArg};
use crate::cli::changing::{open_whole, refused};
use crate::cli::console::Console;
use crate::cli::failure::Failure;
use crate::cli::{Outcome, faults};
use crate::store::EditError;

/// Bring a draft of the script onto the board: print what it changes, and change it
#[derive(Debug, Args)]
#[command(
    after_help = "FILE is in Fountain, the open markup for screenplays (fountain.io).\nA scene that is recognised keeps \
                  its looks, notes, dates and shooting day, wherever it has gone. Lengths are estimated from the page.\n\
                  Without --part a scene that FILE does not have is cut; its looks stay on the board.\nExit code: 0, or 2 \
                  where FILE or the board cannot be read."
)]
pub(in crate::cli) struct Script {
    /// The script
    #[arg(value_name = "FILE", value_hint = clap::ValueHint::FilePath)]
    file: PathBuf,
    #[command(flatten)]
    board: BoardArg,
    /// FILE holds only the scenes with numbers from FIRST to LAST; the others stay as they are
    #[arg(long, value_name = "FIRST-LAST")]
    part: Option<Part>,
    /// Only print what it would change
    #[arg(long)]
    dry_run: bool,
    /// Print one JSON document with stable keys
    #[arg(long)]
    json: bool,
}

/// A script beside a board.
struct Brought<'a> {
    file: &'a Path,
    board: &'a Board,
    draft: &'a Draft,
    part: Option<&'a Part>,
    comparison: &'a Comparison,
    touched: &'a Touched,
    /// The label of the edit, once it is made.
    applied: Option<&'a str>,
    dry: bool,
}

/// A script compared with a board, and the edit that brings it in.
struct Compared {
    draft: Draft,
    comparison: Comparison,
    touched: Touched,
    edit: Edit,
}

impl Script {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let script = read(&self.file)?;
        let folder = self.board.folder(console)?;
        if self.dry_run {
            let reading = boards::read(&folder)?;
            faults::warn(console, &reading.faults);
            let compared = self.compare(&script, &reading.board, console)?;
            self.print(console, &reading.board, &compared, None)?;
            return Ok(if reading.faults.is_empty() { Outcome::Fine } else { Outcome::Faults });
        }
        let mut open = open_whole(&folder, console)?;
        let board = open.board().clone();
        let compared = self.compare(&script, &board, console)?;
        let edit = &compared.edit;
        let label = (!edit.is_empty()).then_some(edit.label.as_str());
        if label.is_some() {
            open.edit(edit).map_err(|error| refused(&error))?;
        }
        self.print(console, &board, &compared, label)?;
        Ok(if open.faults().is_empty() { Outcome::Fine } else { Outcome::Faults })
    }

    fn compare(
        &self,
        script: &script::Script,
        board: &Board,
        console: &mut Console,
    ) -> Result<Compared, Failure> {
        let draft = draft(&self.file, script, board.head(), console)?;
        let unfit = |error: Unfit| {
            Failure::new(format!("nothing is changed: {}: {error}", self.file.display())).hint(error.hint())
        };
        let (comparison, edit) = script::edit(board, &draft, self.part.as_ref()).map_err(unfit)?;
        let touched =
            script::touched(board, &comparison, &edit).map_err(|error| refused(&EditError::from(error)))?;
        Ok(Compared { draft, comparison, touched, edit })
    }

    fn print(
        &self,
        console: &mut Console,
        board: &Board,
        compared: &Compared,
        applied: Option<&str>,
    ) -> Result<(), Failure> {
        let Compared { draft, comparison, touched, .. } = compared;
        let (file, part) = (self.file.as_path(), self.part.as_ref());
        let brought = Brought { file, board, draft, part, comparison, touched, applied, dry: self.dry_run };
        if self.json {
            console.print(&format!("{:#}\n", json::document(&brought)))
        } else {
            console.print(&words::text(&brought))
        }
    }
}

/// The scenes of a script file for a board; warns of what should be looked at.
pub(in crate::cli) fn draft(
    file: &Path,
    script: &script::Script,
    head: &Head,
    console: &mut Console,
) -> Result<Draft, Failure> {
    let draft = Draft::of_script(script, head).map_err(|error| unread(file, &error))?;
    for warning in &draft.warnings {
        console.warn(&format!("{}:{warning}", file.display()));
    }
    Ok(draft)
}

/// Reads a script file.
pub(in crate::cli) fn read(file: &Path) -> Result<script::Script, Failure> {
    let failed = |error| Failure::new(format!("{} cannot be read: {error}", file.display()));
    let mut bytes = Vec::new();
    // One byte more than there may be says that there are too many.
    let most = LARGEST as u64 + 1;
    File::open(file).and_then(|from| from.take(most).read_to_end(&mut bytes)).map_err(failed)?;
    script::Script::read(&bytes).map_err(|error| unread(file, &error))
}

fn unread(file: &Path, error: &ScriptError) -> Failure {
    let gap = if error.is_placed() { "" } else { " " };
    Failure::new(format!("{}:{gap}{error}", file.display())).hint(error.hint())
}
