//! Why a command could not do its work, and what to do about it: printed as `shirr: …` and `hint: …`.

use std::fmt;

use crate::store::StoreError;

/// Why a command could not do its work.
#[derive(Debug)]
pub(super) struct Failure {
    what: String,
    hints: Vec<String>,
}

impl Failure {
    /// What went wrong, in one sentence without a full stop.
    pub fn new(what: impl Into<String>) -> Self {
        Self { what: what.into(), hints: Vec::new() }
    }

    /// With what to do about it.
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hints.push(hint.into());
        self
    }

    /// Arguments that cannot be understood, in the words of the parser but in our shape.
    pub fn of_usage(wrong: &clap::Error) -> Self {
        let text = wrong.render().to_string();
        let mut what = Vec::new();
        let mut hints = Vec::new();
        let mut in_usage = false;
        for line in text.lines().map(str::trim) {
            if line.is_empty() {
                in_usage = false;
                continue;
            }
            if let Some(rest) = line.strip_prefix("error: ") {
                what.push(rest.to_owned());
            } else if let Some(rest) = line.strip_prefix("tip: ") {
                hints.push(rest.to_owned());
            } else if let Some(rest) = line.strip_prefix("Usage: ") {
                in_usage = true;
                hints.push(format!("usage: {rest}"));
            } else if in_usage {
                hints.push(format!("usage: {line}"));
            } else if line.starts_with("For more information") {
                hints.push("`shirr --help` tells more".to_owned());
            } else {
                what.push(line.to_owned());
            }
        }
        Self { what: what.join("\n  "), hints }
    }
}

impl From<StoreError> for Failure {
    fn from(error: StoreError) -> Self {
        let failure = Self::new(error.to_string());
        match error.hint() {
            Some(hint) => failure.hint(hint),
            None => failure,
        }
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "shirr: {}", self.what)?;
        self.hints.iter().try_for_each(|hint| writeln!(f, "hint: {hint}"))
    }
}

#[cfg(test)]
mod tests {
    use clap::Parser;

    use super::super::Cli;
    use super::*;

    #[test]
    fn every_form_of_the_usage_is_a_hint() {
        let wrong = Cli::try_parse_from(["shirr", "--bogus"]).unwrap_err();
        let text = Failure::of_usage(&wrong).to_string();
        assert_eq!(text.matches("hint: usage: shirr ").count(), 2, "{text}");
    }

    #[test]
    fn wrong_usage_reads_like_any_other_failure() {
        let wrong = Cli::try_parse_from(["shirr", "report", "looms"]).unwrap_err();
        let text = Failure::of_usage(&wrong).to_string();
        assert!(text.starts_with("shirr: invalid value 'looms'"), "{text}");
        assert!(text.contains("hint: a similar value exists: 'looks'"), "{text}");
        assert!(
            text.lines().all(|line| ["shirr: ", "hint: ", "  "].iter().any(|start| line.starts_with(start))),
            "{text}"
        );
    }
}
