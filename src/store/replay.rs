//! Finishing what a crash left half done.
//!
//! An entry of the log that no `done` follows may be in none, some or all of its files. Applying it again is always
//! right: a record that has the change already keeps it, one that has not gets it, and one that another hand changed
//! since is merged. What no longer fits is set aside and told, never lost.
//!
//! A crash may also leave our unfinished files behind. Most are only litter; but one that was exchanged and not yet
//! looked at may hold what another program wrote at that very moment, and then it goes back to its place.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use super::fault::{Fault, FaultKind};
use super::history::{History, Kind, Step, Texts};
use super::layout::{BoardFile, Content, DIRS, TOP};
use super::open::OpenBoard;
use super::replace::{self, NotReplaced, OURS};
use super::saving::{Way, files_of};
use super::sheet::Sheet;
use super::swap;
use crate::board::{Board, Edit, Records};

/// Unfinished files of other machines are theirs to clean up, and litter after a day.
const STALE: Duration = Duration::from_secs(24 * 60 * 60);

const TRIES: usize = 8;

/// What to do about an edit that neither undo nor redo can reach.
const BY_HAND: &str = "do it by hand, or leave it";

/// What to do about an undo that was not finished, where its step can be reached.
const UNDO_AGAIN: &str = "take it back again with undo, or leave it";

/// What to do about an edit that waits among what can be done again.
const BY_REDO: &str = "do it again with redo, or leave it";

/// An entry that could not be finished.
struct Unsaved {
    kind: Kind,
    label: String,
    /// Where it can be read.
    edit: Option<Edit>,
    why: String,
}

impl OpenBoard {
    /// Finishes the entries of all logs of this folder. Logs that have `moved` here from another folder may tell of
    /// files that never came along, so of those nothing is finished unasked.
    pub(super) fn finish_what_was_begun(&mut self, others: Vec<History>, moved: bool) -> io::Result<()> {
        // The own log first: what the others could not finish is written behind its last entry.
        let why_not = moved.then(|| "the board has come from another folder since".to_owned());
        if let Some(unsaved) = self.finish(why_not.clone())? {
            self.keep_aside(unsaved)?;
        }
        let mut gone = Vec::new();
        for other in others {
            let own = std::mem::replace(&mut self.history, other);
            let finished = self.finish(why_not.clone());
            let mut other = std::mem::replace(&mut self.history, own);
            if let Some(unsaved) = finished? {
                self.bring_over(unsaved, &mut other)?;
            }
            gone.push(other);
        }
        self.forget_what_no_longer_follows()?;
        for other in &mut gone {
            // What cannot be inherited now stays in its log; the board opens all the same.
            let _inherited = self.history.inherit(other);
        }
        sweep(&self.shelf.folder);
        Ok(())
    }

    /// Finishes the last entry of the history, unless there is a reason not to; returns what is not finished.
    fn finish(&mut self, why_not: Option<String>) -> io::Result<Option<Unsaved>> {
        let Some((kind, label, edit)) = self.history.unfinished() else {
            for (_, path) in leftovers(&self.shelf.folder, self.history.token()) {
                let _gone = fs::remove_file(path);
            }
            return Ok(None);
        };
        let edit = match edit {
            Ok(edit) => edit,
            Err(error) => return Ok(Some(Unsaved { kind, label, edit: None, why: error.to_string() })),
        };
        for (file, leftover) in leftovers(&self.shelf.folder, self.history.token()) {
            settle_leftover(&self.shelf.folder, &file, &leftover, &edit, self.board.records());
        }
        let outcome = why_not.map_or_else(|| self.apply_again(kind, &edit), Err);
        Ok(outcome.err().map(|why| Unsaved { kind, label, edit: Some(edit), why }))
    }

    /// What the own log could not finish waits there to be done again.
    fn keep_aside(&mut self, unsaved: Unsaved) -> io::Result<()> {
        match &unsaved.edit {
            Some(_) => self.history.set_aside()?,
            None => self.history.give_up()?,
        }
        let hint = match (&unsaved.edit, unsaved.kind) {
            (None, _) => BY_HAND,
            (Some(_), Kind::Undo) => UNDO_AGAIN,
            (Some(_), Kind::Do | Kind::Redo | Kind::Inherited) => BY_REDO,
        };
        self.tell(unsaved, hint);
        Ok(())
    }

    /// What the log of a program that is gone could not finish comes to the own one, since nobody else's redo can be
    /// reached from here. What the other was taking back is still among its steps, and is inherited with them; what it was
    /// doing again stays with it.
    fn bring_over(&mut self, unsaved: Unsaved, other: &mut History) -> io::Result<()> {
        let hint = match (&unsaved.edit, unsaved.kind) {
            (Some(edit), Kind::Do) => {
                self.history.take_aside(edit)?;
                BY_REDO
            }
            (Some(_), Kind::Undo) if other.passes_on_the_newest() => UNDO_AGAIN,
            _ => BY_HAND,
        };
        other.give_up()?;
        self.tell(unsaved, hint);
        Ok(())
    }

    fn tell(&mut self, unsaved: Unsaved, hint: &str) {
        let Unsaved { label, edit, why, .. } = unsaved;
        let files = edit.as_ref().map(files_of).unwrap_or_default();
        let file = files.first().map_or_else(|| BoardFile::Head.name(), BoardFile::name);
        let what = format!("“{label}” was being saved when the program stopped, and was not: {why}");
        let record = files.first().and_then(BoardFile::record);
        self.unsaved.push(Fault::new(FaultKind::Unsaved, file, what).hint(hint).of(record));
    }

    /// What was undone can be done again only as long as nothing came between: where the files no longer hold what the
    /// last undo left (an older copy was put back, or another hand changed the same), it is forgotten as after an edit.
    fn forget_what_no_longer_follows(&mut self) -> io::Result<()> {
        let follows = |edit: io::Result<Edit>| edit.is_ok_and(|edit| self.board.has(&edit));
        if self.history.newest().is_none_or(follows) {
            return Ok(());
        }
        let undone: Vec<Step> = self.history.redo().iter().filter(|step| !step.forward).cloned().collect();
        undone.iter().try_for_each(|step| self.history.drop_step(step))
    }

    /// Applies an entry once more; says why if that cannot be.
    fn apply_again(&mut self, kind: Kind, edit: &Edit) -> Result<(), String> {
        let way: Way = if kind == Kind::Do { Board::apply_preferring } else { Board::restore };
        for _ in 0..TRIES {
            let sheets = self.reread(&files_of(edit)).map_err(|error| error.to_string())?;
            let mut next = self.board.clone();
            way(&mut next, edit, None).map_err(|refused| refused.to_string())?;
            let set = self.plan(&sheets, &next, &Texts::new()).map_err(|error| error.to_string())?;
            match replace::replace(&self.shelf.folder, self.history.token(), &set) {
                Ok(()) => {
                    self.history.finish();
                    self.take_over(kind, next, &set);
                    return Ok(());
                }
                Err(NotReplaced::Foreign) => {}
                Err(NotReplaced::Io { what, source, .. } | NotReplaced::Torn { what, source, .. }) => {
                    return Err(format!("{what}: {source}"));
                }
            }
        }
        Err("other programs keep writing the same files".to_owned())
    }
}

/// Every folder of a board, with its name; the board's own first.
fn folders(folder: &Path) -> impl Iterator<Item = (Option<&'static str>, PathBuf)> {
    std::iter::once((None, folder.to_path_buf()))
        .chain(DIRS.into_iter().map(|dir| (Some(dir), folder.join(dir))))
}

/// Our unfinished files, with the file that each was to become.
fn leftovers(folder: &Path, token: &str) -> Vec<(BoardFile, PathBuf)> {
    let mut found = Vec::new();
    let prefix = format!("{OURS}{token}-");
    for (dir, path) in folders(folder) {
        for entry in fs::read_dir(path).into_iter().flatten().flatten() {
            let name = entry.file_name();
            let Some((_, name)) = name
                .to_str()
                .and_then(|name| name.strip_prefix(&prefix))
                .and_then(|rest| rest.split_once('-'))
            else {
                continue;
            };
            let stem = name.strip_suffix(".yaml").unwrap_or(name);
            let at_top = || TOP.into_iter().find(|file| file.file_name() == name);
            let file = dir.map_or_else(at_top, |dir| BoardFile::in_dir(dir, stem));
            match file {
                Some(file) => found.push((file, entry.path())),
                None => drop(fs::remove_file(entry.path())),
            }
        }
    }
    found
}

/// If the leftover is another program's text, displaced in the moment of the crash, puts it back; else takes it away.
fn settle_leftover(folder: &Path, file: &BoardFile, leftover: &Path, edit: &Edit, records: &Records) {
    let path = file.path(folder);
    let now = Sheet::read(folder, file).ok();
    let here = now.as_ref().map(|sheet| sheet.content(file));
    let displaced = fs::read(leftover).ok().map(|bytes| content(&bytes, file));
    let edited = |content: Option<Content>| after(edit, file, content, records);
    let is_in_place = match &here {
        None => edited(None).is_some_and(|after| after.is_none()),
        Some(Ok(content)) => edited(Some(content.clone())) == Some(Some(content.clone())),
        Some(Err(_)) => false,
    };
    let is_ours = match displaced {
        Some(Some(content)) => edited(Some(content)) == Some(here.and_then(Result::ok)),
        // Nothing there, or a text that cannot be read.
        Some(None) => false,
        None => true,
    };
    if is_in_place && !is_ours {
        let put_back = match &now {
            Some(sheet) => swap::exchange(leftover, &path, &sheet.bytes).map(|_| ()),
            None => swap::place(leftover, &path),
        };
        if put_back.is_err() {
            // It stays where it is, to be looked at by hand.
            return;
        }
    }
    let _gone = fs::remove_file(leftover);
}

fn content(bytes: &[u8], file: &BoardFile) -> Option<Content> {
    let text = std::str::from_utf8(bytes).ok()?;
    super::sheet::content_of(text.strip_prefix('\u{feff}').unwrap_or(text), file).ok()
}

/// What a file with this content would hold after the edit; `None` when the edit does not fit it.
fn after(
    edit: &Edit,
    file: &BoardFile,
    content: Option<Content>,
    records: &Records,
) -> Option<Option<Content>> {
    let mut alone = Records::of(records.head.clone());
    Content::put(content, &mut alone, file);
    let changes = edit.changes.iter().filter(|change| BoardFile::of(&change.record()) == *file);
    let mut board = Board::new(alone);
    board.take_in(&Edit::new("", changes.cloned().collect())).ok()?;
    Some(Content::of(board.records(), file))
}

/// Takes away unfinished files that nobody comes back for.
fn sweep(folder: &Path) {
    for (_, path) in folders(folder) {
        for entry in fs::read_dir(path).into_iter().flatten().flatten() {
            let ours = entry.file_name().to_str().is_some_and(|name| name.starts_with(OURS));
            let modified = entry.metadata().and_then(|metadata| metadata.modified()).ok();
            let age = modified.and_then(|modified| SystemTime::now().duration_since(modified).ok());
            if ours && age.is_some_and(|age| age > STALE) {
                let _gone = fs::remove_file(entry.path());
            }
        }
    }
}
