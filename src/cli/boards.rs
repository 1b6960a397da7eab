//! Which board a command means: the folder that was named, else the one that we stand in, else the demo.

use std::path::{Path, PathBuf};

use clap::{Args, CommandFactory};

use super::console::Console;
use super::demo;
use super::failure::Failure;
use super::quote::quoted;
use crate::store::{self, Reading, StoreError};

/// The board that a command is about.
#[derive(Debug, Args)]
pub(super) struct BoardArg {
    /// The board's folder. Left out, it is the current folder if that is a board, else the demo.
    #[arg(value_name = "BOARD", value_hint = clap::ValueHint::DirPath)]
    pub board: Option<PathBuf>,
}

impl BoardArg {
    /// The board's folder. The demo is put into place if it is meant and not there yet.
    pub fn folder(&self, console: &mut Console) -> Result<PathBuf, Failure> {
        match &self.board {
            Some(folder) => Ok(folder.clone()),
            None if Path::new(HEAD).is_file() => Ok(PathBuf::from(".")),
            None => {
                let folder = demo::folder()?;
                console.note(&format!(
                    "no board is named and none is here, so this is the demo: {}",
                    folder.display()
                ));
                Ok(folder)
            }
        }
    }
}

/// The file without which a folder is no board.
const HEAD: &str = "board.yaml";

/// Reads a board's folder and changes nothing.
pub(super) fn read(folder: &Path) -> Result<Reading, Failure> {
    store::read(folder).map_err(|error| unopened(folder, error))
}

/// Why a folder would not open; where it may have been meant as a command, which one.
pub(super) fn unopened(folder: &Path, error: StoreError) -> Failure {
    let missing = matches!(error, StoreError::NoBoard(_)) && !folder.exists();
    let mut failure = Failure::from(error);
    if missing {
        failure = failure.hint(format!("`shirr new {}` starts one there", quoted(folder)));
    }
    match folder.to_str().filter(|_| missing).and_then(command_like) {
        Some(command) => failure.hint(format!("or did you mean the command `shirr {command}`?")),
        None => failure,
    }
}

/// The command whose name is nearest to a word, if any is near.
fn command_like(word: &str) -> Option<String> {
    const NEAR: f64 = 0.8;
    let cli = super::Cli::command();
    let likeness = |name: &str| strsim::jaro_winkler(word, name);
    cli.get_subcommands()
        .map(|command| command.get_name().to_owned())
        .filter(|name| likeness(name) >= NEAR)
        .max_by(|one, other| likeness(one).total_cmp(&likeness(other)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_misspelt_command_is_recognised_and_a_folder_is_not_taken_for_one() {
        assert_eq!(command_like("chek").as_deref(), Some("check"));
        assert_eq!(command_like("raport").as_deref(), Some("report"));
        assert_eq!(command_like("slack-water"), None);
    }
}
