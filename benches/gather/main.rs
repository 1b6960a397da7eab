//! How good the suggestion is, and how soon: `cargo bench --bench gather`.
//!
//! - Without arguments: 300 outfits with a dozen wishes, and 3,000 outfits: time, gap, memory, cancelling.
//! - `-- --orlib DIR`: the p-median files `pmedN.txt` of the OR-Library that are in a folder, against their published
//!   optima.
//! - `-- --write DIR [--orlib DIR]`: problems without wishes, and our answers, for `benches/compare.py` to read.
//!
//! Ends with 1 where an answer cannot be right (cheaper than a published optimum, a bound above one, a wish not kept),
//! with 2 where an argument or a file is not as expected.
#![allow(missing_docs, clippy::print_stdout, clippy::print_stderr)]

mod boards;
mod orlib;
mod wardrobe;
mod written;

use std::num::NonZeroUsize;
use std::path::PathBuf;
use std::process::ExitCode;

/// What goes wrong, in words.
type Fault = String;

#[derive(Default)]
struct Arguments {
    orlib: Option<PathBuf>,
    write: Option<PathBuf>,
}

fn main() -> ExitCode {
    match read_arguments(std::env::args().skip(1)).and_then(run) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(fault) => {
            eprintln!("{fault}");
            ExitCode::from(2)
        }
    }
}

/// Whether every answer can be right.
fn run(arguments: Arguments) -> Result<bool, Fault> {
    match (arguments.write, arguments.orlib) {
        (Some(folder), orlib) => written::write(&folder, orlib.as_deref()).map(|()| true),
        (None, Some(folder)) => orlib::run(&folder),
        (None, None) => boards::run(),
    }
}

fn read_arguments(mut given: impl Iterator<Item = String>) -> Result<Arguments, Fault> {
    let mut arguments = Arguments::default();
    while let Some(argument) = given.next() {
        let folder = match argument.as_str() {
            // Cargo's own.
            "--bench" => continue,
            "--orlib" => &mut arguments.orlib,
            "--write" => &mut arguments.write,
            _ => return Err(format!("{argument}: expected --orlib DIR or --write DIR")),
        };
        *folder = Some(given.next().ok_or(format!("{argument}: expected a folder after it"))?.into());
    }
    Ok(arguments)
}

/// As many threads as the machine runs at once.
fn threads() -> Option<NonZeroUsize> {
    std::thread::available_parallelism().ok()
}
