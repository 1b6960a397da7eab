//! `shirr poster`: the whole wall as one printable sheet.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::boards::{self, BoardArg};
use super::console::Console;
use super::failure::Failure;
use super::{Outcome, faults, outfile};
use crate::report::poster::{self, Paper};

/// Draw the whole wall as one printable sheet: outfits by period, looks as lanes, the counter
#[derive(Debug, Args)]
pub(super) struct Poster {
    #[command(flatten)]
    board: BoardArg,
    /// Into this file: `.svg`, or `.html` to print from a browser
    #[arg(short, long, value_name = "FILE", value_hint = clap::ValueHint::FilePath)]
    output: PathBuf,
    /// On which paper
    #[arg(long, value_name = "PAPER", default_value = "a2")]
    paper: On,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum On {
    /// 420 × 297 mm
    A3,
    /// 594 × 420 mm
    A2,
    /// 594 mm high, and as long as it takes
    Roll,
}

impl From<On> for Paper {
    fn from(on: On) -> Self {
        match on {
            On::A3 => Self::A3,
            On::A2 => Self::A2,
            On::Roll => Self::Roll,
        }
    }
}

impl Poster {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let folder = self.board.folder(console)?;
        outfile::is_no_record(&self.output, &folder)?;
        let write = writer(&self.output)?;
        let reading = boards::read(&folder)?;
        faults::warn(console, &reading.faults);
        outfile::write(&self.output, write(&reading.board, self.paper.into()).as_bytes(), &folder)?;
        Ok(if reading.faults.is_empty() { Outcome::Fine } else { Outcome::Faults })
    }
}

/// How a file of this ending is written.
fn writer(file: &Path) -> Result<fn(&crate::board::Board, Paper) -> String, Failure> {
    match file.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase).as_deref() {
        Some("svg") => Ok(poster::svg),
        Some("html") => Ok(poster::page),
        _ => Err(Failure::new(format!("a poster is not written as {}", file.display()))
            .hint("end the file in `.svg` or `.html`")),
    }
}
