//! `shirr bring`: what comes onto a board from outside, one file per kind of input.

mod pictures;
mod script;
mod table;

use clap::{Args, Subcommand};

pub(super) use script::{draft, read};

use super::Outcome;
use super::console::Console;
use super::failure::Failure;

/// Bring something onto a board from outside
#[derive(Debug, Args)]
pub(super) struct Bring {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    Script(script::Script),
    Table(table::Table),
    Pictures(pictures::Pictures),
}

impl Bring {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        match &self.what {
            What::Script(script) => script.run(console),
            What::Table(table) => table.run(console),
            What::Pictures(pictures) => pictures.run(console),
        }
    }
}
