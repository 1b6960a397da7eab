//! What is wrong with a table, and where.

use std::fmt;

/// What is wrong, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrong {
    /// The row, as a spreadsheet counts.
    pub row: Option<usize>,
    /// The heading of the field.
    pub column: Option<String>,
    /// What is wrong, and what was expected.
    pub what: String,
}

impl Wrong {
    pub(super) fn at(row: usize, column: &str, what: impl Into<String>) -> Self {
        Self { row: Some(row), column: Some(column.to_owned()), what: what.into() }
    }

    pub(super) fn in_row(row: usize, what: impl Into<String>) -> Self {
        Self { row: Some(row), column: None, what: what.into() }
    }

    pub(super) fn whole(what: impl Into<String>) -> Self {
        Self { row: None, column: None, what: what.into() }
    }
}

impl fmt::Display for Wrong {
    /// `row 14, Pages: …`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.row, &self.column) {
            (Some(row), Some(column)) => write!(f, "row {row}, {column}: {}", self.what),
            (Some(row), None) => write!(f, "row {row}: {}", self.what),
            (None, Some(column)) => write!(f, "{column}: {}", self.what),
            (None, None) => f.write_str(&self.what),
        }
    }
}
