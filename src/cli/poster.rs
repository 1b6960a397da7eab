//! `shirr poster`: the whole wall as one printable sheet.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::boards::{self, BoardArg};
use super::console::Console;
use super::failure::Failure;
use super::{Outcome, faults, outfile};
use crate::album::Album;
use crate::report::poster::{self, DPI, Paper};

/// Dots per inch, where nobody says: fine enough for print that is read at arm's length.
const USUAL: u32 = 150;

/// Draw the whole wall as one printable sheet: outfits by period, looks as lanes, the counter
#[derive(Debug, Args)]
pub(super) struct Poster {
    #[command(flatten)]
    board: BoardArg,
    /// Into this file: `.png`, `.svg`, or `.html` to print from a browser
    #[arg(short, long, value_name = "FILE", value_hint = clap::ValueHint::FilePath)]
    output: PathBuf,
    /// On which paper
    #[arg(long, value_name = "PAPER", default_value = "a2")]
    paper: On,
    /// For `.png`: dots per inch, 36 to 600 [default: 150]
    #[arg(long, value_name = "N")]
    dpi: Option<u32>,
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

/// What a poster is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum As {
    Svg,
    Html,
    Png { dpi: u32 },
}

impl Poster {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let folder = self.board.folder(console)?;
        outfile::is_no_record(&self.output, &folder)?;
        let to = As::asked(&self.output, self.dpi)?;
        let reading = boards::read(&folder)?;
        faults::warn(console, &reading.faults);
        let poster = poster::Poster::of(&reading.board, Some(&Album::of(&folder)), self.paper.into());
        for gap in poster.gaps() {
            console.warn(gap.as_str());
        }
        let bytes = match to {
            As::Svg => poster.svg().as_bytes().to_vec(),
            As::Html => poster.page().into_bytes(),
            As::Png { dpi } => poster.png(dpi).map_err(|error| Failure::new(error.to_string()))?,
        };
        outfile::write(&self.output, &bytes, &folder)?;
        Ok(if reading.faults.is_empty() { Outcome::Fine } else { Outcome::Faults })
    }
}

impl As {
    /// How a file of this ending is written.
    fn asked(file: &Path, dpi: Option<u32>) -> Result<Self, Failure> {
        let ending = file.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase);
        let to = match ending.as_deref() {
            Some("svg") => Self::Svg,
            Some("html") => Self::Html,
            Some("png") => Self::Png { dpi: dpi.unwrap_or(USUAL) },
            _ => {
                return Err(Failure::new(format!("a poster is not written as {}", file.display()))
                    .hint("end the file in `.png`, `.svg` or `.html`"));
            }
        };
        match (to, dpi) {
            (Self::Svg | Self::Html, Some(_)) => Err(Failure::new("`--dpi` goes with a `.png` alone")
                .hint("a printer draws `.svg` and `.html` as fine as it can")),
            (Self::Png { .. }, Some(dpi)) if !DPI.contains(&dpi) => {
                Err(Failure::new(format!("a poster is not drawn at {dpi} dots per inch")).hint(format!(
                    "say {} to {} with `--dpi`; {USUAL} is usual",
                    DPI.start(),
                    DPI.end()
                )))
            }
            _ => Ok(to),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_files_ending_says_what_a_poster_is_written_as() {
        let asked = |file: &str, dpi| As::asked(Path::new(file), dpi).ok();
        assert_eq!(asked("wall.PNG", None), Some(As::Png { dpi: 150 }));
        assert_eq!(asked("wall.png", Some(600)), Some(As::Png { dpi: 600 }));
        assert_eq!((asked("wall.svg", None), asked("wall.html", None)), (Some(As::Svg), Some(As::Html)));
        for (file, dpi) in [
            ("wall", None),
            ("wall.pdf", None),
            ("w.svg", Some(150)),
            ("w.png", Some(35)),
            ("w.png", Some(601)),
        ] {
            assert_eq!(asked(file, dpi), None, "{file} {dpi:?}");
        }
    }
}
