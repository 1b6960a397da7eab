//! Faults in words: on a board that opens all the same, and in `--json`.

use serde_json::{Value, json};

use super::console::Console;
use crate::store::{Fault, FaultKind};

/// Warns of each fault on standard error.
pub(super) fn warn(console: &mut Console, faults: &[Fault]) {
    for fault in faults {
        console.warn(&fault.to_string());
    }
}

/// What faults leave out of a report, in a sentence each.
pub(super) fn gaps(faults: &[Fault]) -> Vec<String> {
    let damaged: Vec<&str> = faults
        .iter()
        .filter(|fault| fault.kind == FaultKind::Damaged)
        .map(|fault| fault.file.as_str())
        .collect();
    let dangling = faults.iter().filter(|fault| fault.kind == FaultKind::Dangling).count();
    let mut gaps = Vec::new();
    match damaged.as_slice() {
        [] => {}
        [one] => gaps.push(format!("1 file could not be read, and what it holds is missing here: {one}.")),
        several => gaps.push(format!(
            "{} files could not be read, and what they hold is missing here: {}.",
            several.len(),
            several.join(", ")
        )),
    }
    match dangling {
        0 => {}
        1 => gaps.push("1 name leads to no record; `shirr check` says where.".to_owned()),
        several => gaps.push(format!("{several} names lead to no record; `shirr check` says where.")),
    }
    gaps
}

/// A fault as JSON.
pub(super) fn json(fault: &Fault) -> Value {
    json!({
        "file": fault.file,
        "line": fault.at.map(|at| at.line),
        "column": fault.at.map(|at| at.column),
        "what": fault.what,
        "hint": fault.hint,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::Position;

    fn fault(file: &str, kind: FaultKind) -> Fault {
        let at = Some(Position { line: 3, column: 1 });
        Fault { file: file.to_owned(), at, what: "unknown key".to_owned(), hint: None, kind, record: None }
    }

    #[test]
    fn a_report_says_how_many_files_are_missing_from_it_and_which() {
        let faults = [
            fault("outfits/a.yaml", FaultKind::Damaged),
            fault("looks/b.yaml", FaultKind::Damaged),
            fault("looks/c.yaml", FaultKind::Dangling),
        ];
        assert_eq!(
            gaps(&faults),
            [
                "2 files could not be read, and what they hold is missing here: outfits/a.yaml, looks/b.yaml.",
                "1 name leads to no record; `shirr check` says where.",
            ]
        );
        assert!(gaps(&[]).is_empty());
    }

    #[test]
    fn a_fault_in_json_says_where_it_is() {
        let read = json(&fault("outfits/a.yaml", FaultKind::Damaged));
        assert_eq!(read["line"], 3);
        assert_eq!(read["hint"], Value::Null);
    }
}
