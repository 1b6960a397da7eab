//! `shirr report`: the board's tables, for paper and for other programs.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::boards::{self, BoardArg};
use super::console::Console;
use super::failure::Failure;
use super::{Outcome, faults, outfile};
use crate::report::{self, Csv, Format, Json, Markdown, Plain};

/// Print look per scene, the outfits, the look list, the plot, the shooting days, the minutes or what the looks keep
#[derive(Debug, Args)]
#[command(
    after_help = "A report of a board with files that cannot be read says so in itself, and the exit code is 2."
)]
pub(super) struct Report {
    /// Which report
    report: Which,
    #[command(flatten)]
    board: BoardArg,
    /// In which format; left out, it is the ending of the file, else md
    #[arg(long, value_name = "FORMAT")]
    to: Option<To>,
    /// Write it into this file instead of printing it
    #[arg(short, long, value_name = "FILE", value_hint = clap::ValueHint::FilePath)]
    output: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Which {
    /// One row for each character in each scene: what is worn, how, and the change number
    Scenes,
    /// One row for each outfit: all that is known of it; `shirr bring table outfits` reads it back
    Outfits,
    /// One row for each look: what it is made after, where it departs, where it is seen
    Looks,
    /// Scenes down, characters across
    Plot,
    /// Each shooting day: who wears what in turn, changes, first uses
    Schedule,
    /// The minutes of all meetings: decisions, open questions, answers
    Meeting,
    /// What the looks keep of the wardrobe, what each is worth, and what was let go at what cost
    Kept,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum To {
    /// Markdown, to read and to print
    Md,
    /// CSV (RFC 4180), for spreadsheets
    Csv,
    /// JSON with stable keys, for programs
    Json,
}

impl Which {
    fn report(self) -> report::Report {
        match self {
            Self::Scenes => report::Report::Scenes,
            Self::Outfits => report::Report::Outfits,
            Self::Looks => report::Report::Looks,
            Self::Plot => report::Report::Plot,
            Self::Schedule => report::Report::Schedule,
            Self::Meeting => report::Report::Meeting,
            Self::Kept => report::Report::Kept,
        }
    }
}

impl To {
    fn format(self) -> &'static dyn Format {
        match self {
            Self::Md => &Markdown,
            Self::Csv => &Csv,
            Self::Json => &Json,
        }
    }

    /// The format that a file's ending names.
    fn of_file(file: &Path) -> Option<Self> {
        Self::from_str(file.extension()?.to_str()?, true).ok()
    }
}

impl Report {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let folder = self.board.folder(console)?;
        let reading = boards::read(&folder)?;
        faults::warn(console, &reading.faults);
        let mut document = self.report.report().document(&reading.board);
        document.gaps.extend(faults::gaps(&reading.faults).iter().map(|gap| Plain::line(gap)));
        let of_file = self.output.as_deref().and_then(To::of_file);
        let text = self.to.or(of_file).unwrap_or(To::Md).format().write(&document);
        match &self.output {
            Some(file) => {
                let replaced = file.is_file();
                outfile::write(file, text.as_bytes(), &folder)?;
                if replaced {
                    console.note(&format!("{} was there and is replaced", file.display()));
                }
            }
            None => console.print(&text)?,
        }
        Ok(if reading.faults.is_empty() { Outcome::Fine } else { Outcome::Faults })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_files_ending_names_its_format() {
        assert!(matches!(To::of_file(Path::new("x/plot.CSV")), Some(To::Csv)));
        assert!(To::of_file(Path::new("plot.txt")).is_none());
    }
}
