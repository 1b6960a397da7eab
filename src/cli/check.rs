//! `shirr check`: what is the matter with a board.

use std::fmt::Write;

use clap::Args;
use serde_json::{Value, json};

use super::boards::{self, BoardArg};
use super::console::Console;
use super::failure::Failure;
use super::{Outcome, faults};
use crate::album::Album;
use crate::board::Board;
use crate::check::{self, Finding, Level};
use crate::store::{self, Fault, Reading, StoreError};

/// Say what is the matter with a board, and what to do about it
#[derive(Debug, Args)]
#[command(
    after_help = "Exit code: 0 without errors, 1 with errors, 2 where a file cannot be read or a name leads \
                        nowhere."
)]
pub(super) struct Check {
    #[command(flatten)]
    board: BoardArg,
    /// Print one JSON document with stable keys
    #[arg(long)]
    json: bool,
}

impl Check {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let folder = self.board.folder(console)?;
        let Reading { board, faults } = match store::read(&folder) {
            Ok(reading) => reading,
            Err(error) => {
                if self.json {
                    console.print(&document(None, vec![unopened(&error)], &[]))?;
                }
                return Err(boards::unopened(&folder, error));
            }
        };
        let album = Album::of(&folder);
        let findings = check::findings_in_folder(&board, &|picture| album.sight(picture));
        if self.json {
            let faults = faults.iter().map(faults::json).collect();
            console.print(&document(Some(&board), faults, &findings))?;
        } else {
            console.print(&text(&board, &faults, &findings))?;
        }
        Ok(outcome(&faults, &findings))
    }
}

fn outcome(faults: &[Fault], findings: &[Finding]) -> Outcome {
    if !faults.is_empty() {
        Outcome::Faults
    } else if findings.iter().any(|finding| finding.level == Level::Error) {
        Outcome::Errors
    } else {
        Outcome::Fine
    }
}

fn text(board: &Board, faults: &[Fault], findings: &[Finding]) -> String {
    let mut to = String::new();
    for fault in faults {
        let _ = writeln!(to, "fault: {fault}\n");
    }
    for Finding { name, level, about, text, todo } in findings {
        let _ = writeln!(to, "{} {name} ({about}): {text}\n  {todo}\n", level.word());
    }
    let of = |level: Level| findings.iter().filter(|finding| finding.level == level).count();
    let counts = [
        (faults.len(), "fault"),
        (of(Level::Error), "error"),
        (of(Level::Warning), "warning"),
        (of(Level::Note), "note"),
    ];
    let plural =
        |(count, noun): &(usize, &str)| format!("{count} {noun}{}", if *count == 1 { "" } else { "s" });
    let said: Vec<String> = counts.iter().filter(|(count, _)| *count > 0).map(plural).collect();
    let said = if said.is_empty() { "nothing is the matter".to_owned() } else { said.join(", ") };
    let _ = writeln!(to, "{}: {said}.", board.head().title);
    to
}

fn document(board: Option<&Board>, faults: Vec<Value>, findings: &[Finding]) -> String {
    let board = board.map(|board| json!({"id": board.head().id, "title": board.head().title}));
    let findings: Vec<Value> = findings.iter().map(finding).collect();
    format!("{:#}\n", json!({"board": board, "faults": faults, "findings": findings}))
}

fn finding(finding: &Finding) -> Value {
    json!({
        "name": finding.name,
        "level": finding.level.word(),
        "about": {"kind": finding.about.kind(), "id": finding.about.id()},
        "text": finding.text,
        "todo": finding.todo,
    })
}

/// Why the board would not open, as the only fault there is.
fn unopened(error: &StoreError) -> Value {
    match error {
        StoreError::Damaged(fault) => faults::json(fault),
        other => {
            let hint = other.hint();
            json!({"file": "board.yaml", "line": null, "column": null, "what": other.to_string(), "hint": hint})
        }
    }
}
