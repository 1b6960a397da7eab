//! `shirr keys`: the printed list of keys, from the one table of actions.

use clap::Args;

use super::Outcome;
use super::console::Console;
use super::failure::Failure;
use super::summary::{Side, columns};
use crate::screen::actions::{ACTIONS, Scope};

/// Print every action with its keys
#[derive(Debug, Args)]
pub(super) struct Keys {}

impl Keys {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        for (at, scope) in Scope::ALL.into_iter().enumerate() {
            if at > 0 {
                console.line("")?;
            }
            console.line(&format!("{}:", scope.word()))?;
            let rows: Vec<Vec<String>> = ACTIONS
                .iter()
                .filter(|action| action.scope == scope)
                .map(|action| {
                    vec![
                        format!("  {}", action.keys.join(" ")),
                        action.name.to_owned(),
                        action.about.to_owned(),
                    ]
                })
                .collect();
            console.print(&columns(&rows, &[Side::Left, Side::Left, Side::Left]))?;
        }
        Ok(Outcome::Fine)
    }
}
