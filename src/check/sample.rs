//! Boards for tests, and what is found on them.

use crate::board::Board;
pub(crate) use crate::board::told::board;

/// The names of all findings.
pub(crate) fn names(board: &Board) -> Vec<&'static str> {
    super::findings(board).into_iter().map(|finding| finding.name).collect()
}

/// The texts of the findings with this name.
pub(crate) fn texts(board: &Board, name: &str) -> Vec<String> {
    super::findings(board)
        .into_iter()
        .filter(|finding| finding.name == name)
        .map(|finding| finding.text)
        .collect()
}
