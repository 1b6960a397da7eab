//! The lines with which our own reports end as CSV: what is missing, and what to ask. Nothing else is taken for one.

use crate::plot::Hazard;

/// With what the last line about cautions begins.
const CAUTIONS: &str = "A caution approves nothing and its absence clears nothing: ";

/// With what every caution begins that is raised by what is done.
const ASK_BEFORE: &str = "Ask before it is done: ";

/// With what a schedule says which of its scenes the script does not have.
const UNKNOWN_SCENES: &str = "On the schedule and not in the script: scene ";

/// Whether a line is one of those.
pub(super) fn is_closing(line: &str) -> bool {
    let begins = [CAUTIONS, ASK_BEFORE, UNKNOWN_SCENES].iter().any(|start| line.starts_with(start));
    begins || is_ask(line) || is_fault(line)
}

fn is_ask(line: &str) -> bool {
    line.split_once(": ")
        .is_some_and(|(word, ask)| Hazard::ALL.iter().any(|one| one.word() == word && one.ask() == ask))
}

/// What files leave out of a report: `2 files could not be read, and what they hold is missing here: …`.
fn is_fault(line: &str) -> bool {
    let Some((number, rest)) = line.split_once(' ') else { return false };
    number.parse::<usize>().is_ok()
        && [
            "file could not be read, and what it holds is missing here: ",
            "files could not be read, and what they hold is missing here: ",
            "name leads to no record; `shirr check` says where.",
            "names lead to no record; `shirr check` says where.",
        ]
        .iter()
        .any(|start| rest.starts_with(start))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_files_leave_out_of_a_report_is_a_closing_line() {
        for line in [
            "1 file could not be read, and what it holds is missing here: looks/gown.yaml.",
            "3 names lead to no record; `shirr check` says where.",
        ] {
            assert!(is_closing(line), "{line}");
        }
    }

    #[test]
    fn a_sentence_of_anybody_else_is_none() {
        for line in ["Coat of 1926.", "water and cold: Ask somebody.", "2 files.", "Nothing is missing here."]
        {
            assert!(!is_closing(line), "{line}");
        }
    }
}
