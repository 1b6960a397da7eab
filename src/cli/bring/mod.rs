//! `shirr bring`: what comes in from outside.

mod table;

use clap::{Args, Subcommand};

use super::Outcome;
use super::console::Console;
use super::failure::Failure;

/// Bring in what others have written, as one edit that `undo` on the board takes back
#[derive(Debug, Args)]
pub(super) struct Bring {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    Table(table::Table),
}

impl Bring {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        match &self.what {
            What::Table(table) => table.run(console),
        }
    }
}
