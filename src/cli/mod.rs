//! The command line: one file per command, one printer, one way to fail.
//!
//! A command gets its arguments and the console, and returns how it ended. It knows no screen and no file format;
//! it puts together what the library has.

mod boards;
mod bring;
mod changing;
mod check;
mod completions;
mod console;
mod demo;
mod failure;
mod faults;
mod keys;
mod named;
mod new;
mod open;
mod outfile;
mod poster;
mod quote;
mod report;
mod starters;
mod suggest;
mod summary;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::{Parser, Subcommand};

use boards::BoardArg;
use console::Console;
use failure::Failure;

/// A board on which a long documented life is gathered into the few costumes that a film can carry.
#[derive(Debug, Parser)]
#[command(
    name = "shirr",
    version,
    args_conflicts_with_subcommands = true,
    after_help = "Where standard input or output is no terminal, `shirr [BOARD]` prints a summary instead of the \
                  board.\nA board whose folder is called like a command is opened with `shirr ./check`."
)]
struct Cli {
    #[command(subcommand)]
    command: Option<Command>,
    #[command(flatten)]
    board: BoardArg,
}

#[derive(Debug, Subcommand)]
enum Command {
    New(new::New),
    Bring(bring::Bring),
    Check(check::Check),
    Report(report::Report),
    Poster(poster::Poster),
    Suggest(suggest::Suggest),
    Keys(keys::Keys),
    Completions(completions::Completions),
    Demo(demo::Demo),
}

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Outcome {
    /// All is well.
    Fine,
    /// The check has found errors, or what was to be brought in has some.
    Errors,
    /// Files could not be read, or names lead nowhere.
    Faults,
}

impl Outcome {
    fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Errors => 1,
            Self::Faults => FAILED,
        }
    }
}

/// The exit code of wrong usage, of boards that cannot be opened and of files that cannot be read.
const FAILED: u8 = 2;

/// Reads the arguments of the process, does what they say, and tells how it ended.
pub fn main() -> ExitCode {
    let mut console = Console::of_process();
    let code = match run(std::env::args_os(), &mut console) {
        Ok(outcome) => outcome.code(),
        Err(failure) => {
            console.tell(&failure);
            FAILED
        }
    };
    ExitCode::from(code)
}

fn run(args: impl IntoIterator<Item = OsString>, console: &mut Console) -> Result<Outcome, Failure> {
    let outcome = match Cli::try_parse_from(args) {
        Ok(cli) => match cli.command {
            None => open::run(&cli.board, console),
            Some(Command::New(new)) => new.run(console),
            Some(Command::Bring(bring)) => bring.run(console),
            Some(Command::Check(check)) => check.run(console),
            Some(Command::Report(report)) => report.run(console),
            Some(Command::Poster(poster)) => poster.run(console),
            Some(Command::Suggest(suggest)) => suggest.run(console),
            Some(Command::Keys(keys)) => keys.run(console),
            Some(Command::Completions(completions)) => completions.run(console),
            Some(Command::Demo(demo)) => demo.run(console),
        },
        Err(asked) if !asked.use_stderr() => {
            console.print(&asked.render().to_string()).map(|()| Outcome::Fine)
        }
        Err(wrong) => Err(Failure::of_usage(&wrong)),
    }?;
    console.finish()?;
    Ok(outcome)
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_arguments_are_well_formed() {
        Cli::command().debug_assert();
    }

    #[test]
    fn a_board_called_like_a_command_is_opened_by_its_path() {
        let cli = Cli::try_parse_from(["shirr", "./check"]).unwrap();
        assert!(cli.command.is_none());
        let cli = Cli::try_parse_from(["shirr", "check"]).unwrap();
        assert!(matches!(cli.command, Some(Command::Check(_))));
    }
}
