//! What a command needs that changes a board: a board that was read whole, and a refusal in words.

use super::failure::Failure;
use crate::store::{EditError, Fault, FaultKind};

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
