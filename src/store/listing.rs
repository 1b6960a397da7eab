//! Which of the names in a folder are the board's.

use std::fs::{self, DirEntry};
use std::io;
use std::path::Path;

use super::fault::{Fault, FaultKind};
use super::layout::{BoardFile, DIRS, TOP};
use super::stamp::Stamp;
use crate::board::Id;

/// The files of a board.
#[derive(Debug, Default)]
pub(super) struct Listing {
    /// Each with its stamp; `None` where only opening it can tell.
    pub files: Vec<(BoardFile, Option<Stamp>)>,
    /// Names that look as if they should be the board's, and are not.
    pub strays: Vec<Fault>,
}

/// The most files that a board may have. A life of a hundred years in an outfit a day has 36,500.
const MOST_FILES: usize = 100_000;

impl Listing {
    /// Looks at the names in a board's folder.
    pub(super) fn of(folder: &Path) -> io::Result<Self> {
        let mut listing = Self::default();
        for entry in fs::read_dir(folder)?.take(MOST_FILES) {
            listing.top(&entry?);
        }
        for dir in DIRS {
            listing.dir(folder, dir)?;
        }
        listing.files.sort_by(|one, other| one.0.cmp(&other.0));
        listing.strays.sort_by(|one, other| one.file.cmp(&other.file));
        Ok(listing)
    }

    fn top(&mut self, entry: &DirEntry) {
        let name = entry.file_name();
        let Some(name) = name.to_str() else { return };
        if let Some(file) = TOP.into_iter().find(|file| file.file_name() == name) {
            self.files.push((file, stamp(entry)));
        } else if TOP.iter().any(|file| name == file.file_name().replace(".yaml", ".yml")) {
            self.strays.push(yml("", name));
        } else if !dropping(name)
            && TOP.iter().any(|file| name.starts_with(file.file_name().trim_end_matches(".yaml")))
            && conflict(name)
        {
            self.strays.push(second_copy("", name));
        }
    }

    fn dir(&mut self, folder: &Path, dir: &'static str) -> io::Result<()> {
        let path = folder.join(dir);
        let metadata = match path.symlink_metadata() {
            Ok(metadata) => metadata,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
            Err(error) => return Err(error),
        };
        if !metadata.is_dir() {
            let fault = Fault::new(FaultKind::Stray, dir, "is not a folder, so nothing in it is read");
            self.strays.push(fault.hint("make it a plain folder; links are not followed"));
            return Ok(());
        }
        for entry in fs::read_dir(path)? {
            if self.files.len() + self.strays.len() >= MOST_FILES {
                let what = format!("holds more than {MOST_FILES} files; the others are not read");
                self.strays.push(Fault::new(FaultKind::Stray, dir, what));
                break;
            }
            self.entry(dir, &entry?);
        }
        Ok(())
    }

    fn entry(&mut self, dir: &'static str, entry: &DirEntry) {
        let name = entry.file_name();
        let Some(name) = name.to_str() else {
            let name = format!("{dir}/{}", name.to_string_lossy());
            self.strays.push(Fault::new(FaultKind::Stray, name, "its name is not UTF-8").hint("rename it"));
            return;
        };
        if dropping(name) {
            return;
        }
        if let Some(stem) = name.strip_suffix(".yaml") {
            match BoardFile::in_dir(dir, stem) {
                Some(file) => self.files.push((file, stamp(entry))),
                None if conflict(name) => self.strays.push(second_copy(dir, name)),
                None => self.strays.push(no_id(dir, name, stem)),
            }
        } else if name.strip_suffix(".yml").is_some() {
            self.strays.push(yml(dir, name));
        }
    }
}

fn stamp(entry: &DirEntry) -> Option<Stamp> {
    // Of a link, the link's own: it is refused when it is opened.
    entry.metadata().ok().map(|metadata| Stamp::of(&metadata))
}

/// What editors and systems drop beside files, and our own unfinished ones.
fn dropping(name: &str) -> bool {
    name.starts_with(['.', '~', '#']) || name.ends_with(['~', '#'])
}

/// A second copy that a sync program makes of a file that two sides changed, by the words that they use for it.
fn conflict(name: &str) -> bool {
    let name = name.to_lowercase();
    name.contains("conflict") || name.contains(" (") || name.contains(" copy")
}

fn within(dir: &str, name: &str) -> String {
    if dir.is_empty() { name.to_owned() } else { format!("{dir}/{name}") }
}

fn yml(dir: &str, name: &str) -> Fault {
    let right = name.trim_end_matches(".yml");
    Fault::new(FaultKind::Stray, within(dir, name), "is not read: a board's files end in `.yaml`")
        .hint(format!("rename it to `{right}.yaml`"))
}

fn second_copy(dir: &str, name: &str) -> Fault {
    Fault::new(
        FaultKind::Stray,
        within(dir, name),
        "looks like a second copy that a sync program made; it is not read",
    )
    .hint("compare it with the first, take over what is missing there, and delete it")
}

fn no_id(dir: &str, name: &str, stem: &str) -> Fault {
    let what = "is not read: its name is no id (lower-case letters, digits and single hyphens, at most 60)";
    let fault = Fault::new(FaultKind::Stray, within(dir, name), what);
    match Id::<()>::from_title(stem) {
        Some(id) => fault.hint(format!("rename it to `{id}.yaml`")),
        None => fault.hint("rename it"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn droppings_are_passed_over_and_strays_are_told() {
        let dir = tempfile::tempdir().unwrap();
        fs::create_dir(dir.path().join("outfits")).unwrap();
        for name in [
            "a.yaml",
            ".a.yaml.swp",
            "a.yaml~",
            "#a.yaml#",
            ".shirr-1-a.yaml",
            "a.jpg",
            "Big Hat.yaml",
            "b.yml",
            "a (conflicted copy).yaml",
        ] {
            fs::write(dir.path().join("outfits").join(name), "").unwrap();
        }
        fs::write(dir.path().join("scenes.yml"), "").unwrap();
        fs::create_dir(dir.path().join("cloths")).unwrap();
        let listing = Listing::of(dir.path()).unwrap();
        let names: Vec<String> = listing.files.iter().map(|(file, _)| file.name()).collect();
        assert_eq!(names, ["outfits/a.yaml"]);
        let strays: Vec<String> = listing.strays.iter().map(ToString::to_string).collect();
        assert_eq!(strays.len(), 4, "{strays:#?}");
        assert!(
            strays[0].starts_with("outfits/Big Hat.yaml: ")
                && strays[0].ends_with("rename it to `big-hat.yaml`")
        );
        assert!(strays[1].contains("second copy"));
        assert!(strays[2].ends_with("rename it to `b.yaml`"));
        assert!(strays[3].starts_with("scenes.yml: "));
    }
}
