//! `shirr completions`: a completion script for a shell.

use clap::{Args, CommandFactory};
use clap_complete::Shell;

use super::console::Console;
use super::failure::Failure;
use super::{Cli, Outcome};

/// Print the completions for a shell
#[derive(Debug, Args)]
pub(super) struct Completions {
    /// Which shell
    shell: Shell,
}

impl Completions {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let mut script = Vec::new();
        clap_complete::generate(self.shell, &mut Cli::command(), "shirr", &mut script);
        console.print(&String::from_utf8_lossy(&script))?;
        Ok(Outcome::Fine)
    }
}
