//! What a command needs that changes a board: a board that was read whole, and a refusal in words.

use std::path::Path;

use super::console::Console;
use super::failure::Failure;
use super::{boards, faults};
use crate::store::{EditError, Fault, FaultKind, OpenBoard, Places};

/// Opens a board to be changed, tells what is wrong with its files, and refuses one of which not all can be read.
pub(super) fn open_whole(folder: &Path, console: &mut Console) -> Result<OpenBoard, Failure> {
    let open =
        OpenBoard::open(folder, &Places::of_user()?).map_err(|error| boards::unopened(folder, error))?;
    faults::warn(console, open.faults());
    whole(open.faults())?;
    Ok(open)
}

/// A board of which not all can be read is not changed: what is missing may hold what the change goes by.
pub(super) fn whole(faults: &[Fault]) -> Result<(), Failure> {
    if faults.iter().any(|fault| fault.kind == FaultKind::Damaged) {
        return Err(Failure::new("nothing is changed: not all of the board can be read")
            .hint("repair the files first, in any text editor"));
    }
    Ok(())
}

/// Why an edit was not made.
pub(super) fn refused(error: &EditError) -> Failure {
    let failure = Failure::new(format!("nothing is changed: {error}"));
    match error.hint() {
        Some(hint) => failure.hint(hint),
        None => failure,
    }
}
