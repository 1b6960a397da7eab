//! `shirr new`: a new board from a starter.

use std::fs;
use std::path::{Path, PathBuf};

use clap::Args;

use super::console::Console;
use super::failure::Failure;
use super::quote::quoted;
use super::{Outcome, starters};
use crate::store;

/// Start a new board in a new or empty folder
#[derive(Debug, Args)]
pub(super) struct New {
    /// The folder; the board is titled after it
    #[arg(value_name = "DIR", value_hint = clap::ValueHint::DirPath)]
    folder: PathBuf,
    /// What to start from
    #[arg(long, value_name = "STARTER", default_value = starters::USUAL, value_parser = starters::parser())]
    from: String,
}

impl New {
    pub fn run(&self, console: &mut Console) -> Result<Outcome, Failure> {
        let files = starters::files(&self.from, &title(&self.folder))?;
        store::create(&self.folder, files)?;
        for name in ["outfits", "looks", "images"] {
            // Only for whoever looks for the place to put files; a board does without.
            let _ = fs::create_dir_all(self.folder.join(name));
        }
        let folder = self.folder.display();
        console.line(&format!("A new board from the starter `{}`: {folder}", self.from))?;
        console.line(&format!("Open it with `shirr {}`.", quoted(&self.folder)))?;
        Ok(Outcome::Fine)
    }
}

/// A title from the folder's name: `night-ferry` gives `Night ferry`.
fn title(folder: &Path) -> String {
    let name = folder.file_name().map(|name| name.to_string_lossy().into_owned());
    // A folder such as `.` has no name of its own, but the place that it stands for has one.
    let name = name.or_else(|| Some(folder.canonicalize().ok()?.file_name()?.to_string_lossy().into_owned()));
    let words: String =
        name.unwrap_or_default().chars().map(|c| if "-_".contains(c) { ' ' } else { c }).collect();
    let mut letters = words.trim().chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => "Untitled".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_board_is_titled_after_its_folder() {
        assert_eq!(title(Path::new("films/night-ferry")), "Night ferry");
        assert_eq!(title(Path::new("été_1926/")), "Été 1926");
        assert_eq!(title(Path::new("/")), "Untitled");
    }
}
