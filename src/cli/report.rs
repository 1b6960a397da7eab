//! `shirr report`: the board's tables, for paper and for other programs.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::boards::{self, BoardArg};
use super::bring;
use super::console::Console;
use super::failure::Failure;
use super::{Outcome, faults, named, outfile};
use crate::album::Album;
use crate::board::Board;
use crate::bring::script::Part;
use crate::report::{self, Csv, Document, Format, Html, Json, Markdown, Plain, Xlsx};

/// Print look per scene, the outfits, the look list, the plot, the shooting days, the minutes, what the looks keep, build
/// sheets, cloth to buy, copies, costs, or what has changed since a draft
#[derive(Debug, Args)]
#[command(
    after_help = "A report of a board with files that cannot be read says so in itself, and the exit code is 2."
)]
pub(super) struct Report {
    /// Which report
    report: Which,
    #[command(flatten)]
    board: BoardArg,
    /// For `changes`: the earlier draft of the script, in Fountain
    #[arg(long, value_name = "FILE", required_if_eq("report", "changes"), conflicts_with = "character", value_hint = clap::ValueHint::FilePath)]
    against: Option<PathBuf>,
    /// For `changes`: the draft holds only the scenes with numbers from FIRST to LAST
    #[arg(long, value_name = "FIRST-LAST", requires = "against")]
    part: Option<Part>,
    /// For `kept`: of this character alone
    #[arg(long, value_name = "ID")]
    character: Option<String>,
    /// For `build`: of this look alone
    #[arg(long, value_name = "ID")]
    look: Option<String>,
    /// In which format; left out, it is the ending of the file, and md where there is none
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
    /// A sheet for each look: pieces, measures, versions and copies with reasons, cloths, fittings, cautions
    Build,
    /// Each cloth: how much to buy, for how much, by when to order; what takes it; trials
    Buy,
    /// Each version of each piece: how many copies, why, and where each is on each day
    Copies,
    /// What the looks cost: by look, character, period and minute, and what each sum is made of
    Cost,
    /// What has changed on the board since an earlier draft of the script, scene by scene
    Changes,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum To {
    /// Markdown, to read and to print
    Md,
    /// CSV (RFC 4180), for spreadsheets
    Csv,
    /// JSON with stable keys, for programs
    Json,
    /// XLSX, for spreadsheets: a sheet for each table
    Xlsx,
    /// HTML, one file to look at and to print
    Html,
}

impl Which {
    /// The report on a board alone; `None` for the one that sets a draft beside it.
    fn report(self) -> Option<report::Report> {
        match self {
            Self::Scenes => Some(report::Report::Scenes),
            Self::Outfits => Some(report::Report::Outfits),
            Self::Looks => Some(report::Report::Looks),
            Self::Plot => Some(report::Report::Plot),
            Self::Schedule => Some(report::Report::Schedule),
            Self::Meeting => Some(report::Report::Meeting),
            Self::Kept => Some(report::Report::Kept),
            Self::Build => Some(report::Report::Build),
            Self::Buy => Some(report::Report::Buy),
            Self::Copies => Some(report::Report::Copies),
            Self::Cost => Some(report::Report::Cost),
            Self::Changes => None,
        }
    }
}

impl To {
    fn format(self) -> &'static dyn Format {
        match self {
            Self::Md => &Markdown,
            Self::Csv => &Csv,
            Self::Json => &Json,
            Self::Xlsx => &Xlsx,
            Self::Html => &Html,
        }
    }

    /// The format that a file's ending names; Markdown where it has none.
    fn of_file(file: &Path) -> Result<Self, Failure> {
        let Some(ending) = file.extension() else { return Ok(Self::Md) };
        let known = ending.to_str().and_then(|ending| Self::from_str(ending, true).ok());
        known.ok_or_else(|| {
            let named = Self::value_variants().iter().filter_map(Self::to_possible_value);
            let named: Vec<String> = named.map(|format| format!("`.{}`", format.get_name())).collect();
            let named = named.join(", ");
            Failure::new(format!("`.{}` names no format of a report", ending.display())).hint(format!(
                "end the file in one of {named}, or say which format it is to have with `--to`"
            ))
        })
    }

    /// The format asked for, else the one of the file, else Markdown.
    fn asked(to: Option<Self>, file: Option<&Path>) -> Result<Self, Failure> {
        match (to, file) {
            (Some(to), _) => Ok(to),
            (None, Some(file)) => Self::of_file(file),
            (None, None) => Ok(Self::Md),
        }
    }
}

impl Report {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let folder = self.board.folder(console)?;
        if let Some(file) = &self.output {
            outfile::is_no_record(file, &folder)?;
        }
        let to = To::asked(self.to, self.output.as_deref())?;
        let reading = boards::read(&folder)?;
        faults::warn(console, &reading.faults);
        let album = Album::of(&folder);
        let album = to.format().shows_figures().then_some(&album);
        let mut document = self.document(&reading.board, album, console)?;
        document.gaps.extend(faults::gaps(&reading.faults).iter().map(|gap| Plain::line(gap)));
        let bytes = to.format().bytes(&document).map_err(|error| Failure::new(error.to_string()))?;
        match &self.output {
            Some(file) => {
                let replaced = file.is_file();
                outfile::write(file, &bytes, &folder)?;
                if replaced {
                    console.note(&format!("{} was there and is replaced", file.display()));
                }
            }
            None => match String::from_utf8(bytes) {
                Ok(text) => console.print(&text)?,
                Err(_) => {
                    return Err(
                        Failure::new("a spreadsheet is no text to print").hint("name a file with `-o FILE`")
                    );
                }
            },
        }
        Ok(if reading.faults.is_empty() { Outcome::Fine } else { Outcome::Faults })
    }

    fn document(
        &self,
        board: &Board,
        album: Option<&Album>,
        console: &mut Console,
    ) -> Result<Document, Failure> {
        if let Some(name) = &self.character {
            return match self.report {
                Which::Kept => Ok(report::kept_of(board, &named::character(board, name)?)),
                _ => Err(Failure::new("`--character` goes with `shirr report kept` alone")),
            };
        }
        if let Some(name) = &self.look {
            return match self.report {
                Which::Build => Ok(report::build_of(board, album, &named::look(board, name)?)),
                _ => Err(Failure::new("`--look` goes with `shirr report build` alone")),
            };
        }
        match (self.report.report(), &self.against) {
            (Some(report), None) => Ok(report.document(board, album)),
            (None, Some(file)) => {
                let script = bring::read(file)?;
                let earlier = bring::draft(file, &script, board.head(), console)?;
                Ok(report::against(board, &earlier, self.part.as_ref()))
            }
            (Some(_), Some(_)) => Err(Failure::new("`--against` goes with `shirr report changes` alone")),
            (None, None) => Err(Failure::new("`shirr report changes` needs an earlier draft")
                .hint("name the script with `--against FILE`")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_files_ending_names_its_format() {
        assert!(matches!(To::of_file(Path::new("x/plot.CSV")), Ok(To::Csv)));
        for bare in ["plot", "x.csv/plot", ".csv", "/dev/stdout"] {
            assert!(matches!(To::of_file(Path::new(bare)), Ok(To::Md)), "{bare}");
        }
    }

    #[test]
    fn an_ending_that_names_no_format_is_refused_unless_the_format_is_said() {
        let file = Some(Path::new("plot.docx"));
        assert!(To::asked(None, file).is_err());
        assert!(matches!(To::asked(Some(To::Html), file), Ok(To::Html)));
    }
}
