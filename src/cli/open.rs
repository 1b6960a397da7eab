//! `shirr [BOARD]`: the board on the whole screen, or its summary where there is no terminal.

use std::io::{self, IsTerminal};
use std::path::Path;

use super::boards::{self, BoardArg};
use super::console::Console;
use super::failure::Failure;
use super::{Outcome, faults, summary};
use crate::screen;
use crate::store::{OpenBoard, Places};

pub(super) fn run(board: &BoardArg, console: &mut Console) -> Result<Outcome, Failure> {
    let board = board.folder(console)?;
    folder(&board, console)
}

/// Opens this folder.
pub(super) fn folder(folder: &Path, console: &mut Console) -> Result<Outcome, Failure> {
    if !(io::stdin().is_terminal() && io::stdout().is_terminal()) {
        let reading = boards::read(folder)?;
        faults::warn(console, &reading.faults);
        console.print(&summary::text(&reading.board))?;
        return Ok(Outcome::Fine);
    }
    let places = Places::of_user()?;
    let open = OpenBoard::open(folder, &places).map_err(|error| boards::unopened(folder, error))?;
    screen::run(open).map_err(|error| Failure::new(error.to_string()))?;
    Ok(Outcome::Fine)
}
