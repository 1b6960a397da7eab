//! `shirr bring script`: a draft of the script, compared with the board and brought onto it as one edit.

mod json;
mod words;

use std::path::{Path, PathBuf};

use clap::Args;

use crate::board::{Board, Edit, Head};
use crate::bring::script::{self, Comparison, Draft, Part, ScriptError, Touched, Unfit};
use crate::cli::boards::{self, BoardArg};
use crate::cli::changing::{open_whole, refused, whole};
use crate::cli::console::Console;
use crate::cli::failure::Failure;
use crate::cli::{Outcome, faults};
use crate::store::{EditError, Fault};

/// Bring a draft of the script onto the board: print what it changes, and change it
#[derive(Debug, Args)]
#[command(
    after_help = "FILE is in Fountain, the open markup for screenplays (fountain.io).\nA scene that is recognised keeps \
                  its looks, notes, dates and shooting day, wherever it has gone. Lengths are estimated from the page.\n\
                  Without --part a scene that FILE does not have is cut; its looks stay on the board. Where that would be more than \
                  every third scene, nothing is changed without --whole.\nExit code: 0, 1 where --part or --whole is \
                  missing, with --dry-run too, or 2 where FILE or the board cannot be read."
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
    /// FILE is all of the film, however many scenes it cuts
    #[arg(long, conflicts_with = "part")]
    whole: bool,
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
    /// The label of the edit, where there is anything to change.
    edit: Option<&'a str>,
    applied: bool,
    /// Whether it is not applied for cutting so much.
    held_back: bool,
    /// Whether it is said to be all of the film.
    whole: bool,
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
            whole(&reading.faults)?;
            let compared = self.compare(&script, &reading.board, console)?;
            self.print(console, &reading.board, &compared, false)?;
            return Ok(outcome(&reading.faults, self.holds_back(&reading.board, &compared)));
        }
        let mut open = open_whole(&folder, console)?;
        let board = open.board().clone();
        let compared = self.compare(&script, &board, console)?;
        let held_back = self.holds_back(&board, &compared);
        let applied = !compared.edit.is_empty() && !held_back;
        if applied {
            open.edit(&compared.edit).map_err(|error| refused(&error))?;
        }
        self.print(console, &board, &compared, applied)?;
        Ok(outcome(open.faults(), held_back))
    }

    /// Whether so much is cut that it has to be said whether the script is all of the film.
    fn holds_back(&self, board: &Board, compared: &Compared) -> bool {
        self.part.is_none() && !self.whole && script::looks_partial(board, &compared.comparison)
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
        applied: bool,
    ) -> Result<(), Failure> {
        let Compared { draft, comparison, touched, edit } = compared;
        let brought = Brought {
            file: &self.file,
            board,
            draft,
            part: self.part.as_ref(),
            comparison,
            touched,
            edit: (!edit.is_empty()).then_some(edit.label.as_str()),
            applied,
            held_back: self.holds_back(board, compared),
            whole: self.whole,
            dry: self.dry_run,
        };
        if self.json {
            console.print(&format!("{:#}\n", json::document(&brought)))
        } else {
            console.print(&words::text(&brought))
        }
    }
}

fn outcome(faults: &[Fault], held_back: bool) -> Outcome {
    match faults {
        [] if held_back => Outcome::Errors,
        [] => Outcome::Fine,
        _ => Outcome::Faults,
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
    script::Script::open(file).map_err(|error| unread(file, &error))
}

fn unread(file: &Path, error: &ScriptError) -> Failure {
    let gap = if error.is_placed() { "" } else { " " };
    Failure::new(format!("{}:{gap}{error}", file.display())).hint(error.hint())
}
