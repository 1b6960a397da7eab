//! `shirr demo`: the demo that the binary carries, copied to where the user's data are so that it can be worked on.

use std::path::{Path, PathBuf};

use clap::Args;
use include_dir::{Dir, include_dir};

use super::console::Console;
use super::failure::Failure;
use super::{Outcome, open, starters};
use crate::store::{self, Places};

static DEMO: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/demo-board");

/// The demo's title, which a fresh copy keeps.
const TITLE: &str = "Slack Water";

/// Open the demo board, a life of our own invention
#[derive(Debug, Args)]
pub(super) struct Demo {
    /// Make the demo fresh again; the copy that was worked on is moved aside
    #[arg(long)]
    reset: bool,
}

impl Demo {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        if !self.reset {
            return open::folder(&folder()?, console);
        }
        let folder = place()?;
        let aside = move_aside(&folder)?;
        copy(&folder)?;
        console.line(&format!("The demo is fresh: {}", folder.display()))?;
        if let Some(aside) = aside {
            console.line(&format!("The copy that was there before is kept: {}", aside.display()))?;
        }
        Ok(Outcome::Fine)
    }
}

/// The demo's folder, copied there if it is not yet.
pub(super) fn folder() -> Result<PathBuf, Failure> {
    let folder = place()?;
    if !folder.exists() {
        copy(&folder)?;
    }
    Ok(folder)
}

fn place() -> Result<PathBuf, Failure> {
    Ok(Places::of_user()?.data.join("demo-board"))
}

/// Copies beside the place and then renames, so that the demo is there whole or not at all.
fn copy(folder: &Path) -> Result<(), Failure> {
    let draft = folder.with_file_name(format!("demo-board.part-{}", std::process::id()));
    let done = store::create(&draft, starters::files_of(&DEMO, TITLE)?).map_err(Failure::from);
    let done = done.and_then(|()| rename(&draft, folder));
    // Another process may have been faster; its copy is as good.
    if done.is_err() {
        let _ = std::fs::remove_dir_all(&draft);
        if folder.join("board.yaml").is_file() {
            return Ok(());
        }
    }
    done
}

/// Moves what is there to the first free name beside it. `None` where nothing is there.
fn move_aside(folder: &Path) -> Result<Option<PathBuf>, Failure> {
    if !folder.exists() {
        return Ok(None);
    }
    let names = (1_u32..).map(|number| folder.with_file_name(format!("demo-board-kept-{number}")));
    let Some(aside) = names.into_iter().find(|aside| !aside.exists()) else { return Ok(None) };
    rename(folder, &aside)?;
    Ok(Some(aside))
}

fn rename(from: &Path, to: &Path) -> Result<(), Failure> {
    std::fs::rename(from, to).map_err(|error| {
        Failure::new(format!("{} cannot be moved to {}: {error}", from.display(), to.display()))
    })
}
