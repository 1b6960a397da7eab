//! How an edit comes into the files.
//!
//! Read the files that it touches and take in what others wrote there; apply it in memory; write it down in the log;
//! replace the files; say in the log that it is done. If another program writes between the reading and the
//! replacing, the replacing takes itself back, and all of this begins again.

use std::collections::{BTreeMap, BTreeSet};

use super::error::EditError;
use super::header;
use super::history::{Kind, Texts};
use super::layout::{BoardFile, Content};
use super::open::OpenBoard;
use super::replace::{self, Expected, NotReplaced, Replacement};
use super::sheet::{self, Closed, Sheet};
use super::shelf::{Known, Seen};
use super::stamp::Print;
use crate::board::{Board, Edit, Refused, Side};

/// How often an edit begins again before it gives way to the other program.
const TRIES: usize = 8;

/// How an edit changes the board: under the rules or, where it leads back to what was, without them.
pub(super) type Way = fn(&mut Board, &Edit, Option<Side>) -> Result<Edit, Refused>;

/// The files that an edit touches, as they lie there; `None` for those that do not.
pub(super) type Sheets = BTreeMap<BoardFile, Option<Sheet>>;

impl OpenBoard {
    /// Saves an edit. `texts` are files as they were once written, to be written so again where they say the same.
    pub(super) fn save(
        &mut self,
        kind: Kind,
        edit: &Edit,
        way: Way,
        side: Option<Side>,
        texts: &Texts,
    ) -> Result<(), EditError> {
        let files = files_of(edit);
        for _ in 0..TRIES {
            let sheets = self.reread(&files)?;
            let mut next = self.board.clone();
            let done = way(&mut next, edit, side)?.inverse();
            let id = &self.board.head().id;
            if next.head().id != *id {
                let why = format!("the board's id stays `{id}`: this machine's history is filed under it");
                return Err(Refused::Unfit(why).into());
            }
            if done.is_empty() && kind == Kind::Do {
                return Ok(());
            }
            let set = self.plan(&sheets, &next, texts)?;
            let log = self.shelf.folder.clone();
            let texts = self.texts_before(&set);
            self.history
                .begin(kind, &done, texts)
                .map_err(EditError::io(&log, "the history cannot be written"))?;
            match replace::replace(&self.shelf.folder, self.history.token(), &set) {
                Ok(()) => {
                    self.history.finish();
                    self.take_over(kind, next, &set);
                    return Ok(());
                }
                Err(NotReplaced::Foreign) => self.forget_entry()?,
                Err(NotReplaced::Io { path, what, source }) => {
                    self.forget_entry()?;
                    return Err(EditError::Io { path, what, source });
                }
                Err(NotReplaced::Torn { path, what, source }) => {
                    self.history.set_aside().map_err(EditError::io(&log, "the history cannot be written"))?;
                    self.reread(&files)?;
                    return Err(EditError::Io { path, what, source });
                }
            }
        }
        Err(EditError::Contended)
    }

    fn forget_entry(&mut self) -> Result<(), EditError> {
        self.history.cancel().map_err(EditError::io(&self.shelf.folder, "the history cannot be written"))
    }

    /// The board is `next` now, and its files hold what `set` put there.
    pub(super) fn take_over(&mut self, kind: Kind, next: Board, set: &[(BoardFile, Replacement)]) {
        self.board = next;
        for (file, replacement) in set {
            match &replacement.after {
                // It was written just now: an equal stamp would prove nothing.
                Some(bytes) => {
                    self.shelf.known.insert(file.clone(), Known { stamp: None, print: Print::of(bytes) });
                }
                None => {
                    self.shelf.known.remove(file);
                }
            }
        }
        // A new edit can mend a name that led nowhere, but never add one; taking one back can do both.
        if kind != Kind::Do || !self.references.is_empty() {
            self.look_for_references();
        }
    }

    /// Reads the files again, and takes in what others changed in them.
    pub(super) fn reread(&mut self, files: &BTreeSet<BoardFile>) -> Result<Sheets, EditError> {
        let known =
            files.iter().map(|file| (file.clone(), self.shelf.known.get(file).map(|known| known.print)));
        let read = sheet::read_still(&self.shelf.folder, known.collect());
        let mut sheets = Sheets::new();
        let mut changes = Vec::new();
        let (mut damaged, mut repaired) = (None, false);
        for (file, read) in read {
            let before = self.shelf.known.get(&file).map(|known| known.print);
            match read {
                Err(Closed::Absent) => {
                    if before.is_some() {
                        self.reachable()?;
                        self.shelf.note(&file, Seen::Absent);
                        changes.push((file.clone(), None));
                    }
                    sheets.insert(file, None);
                }
                Ok(sheet) if Some(sheet.print) == before => {
                    repaired |= self.shelf.damaged.remove(&file).is_some();
                    sheets.insert(file, Some(sheet));
                }
                read => {
                    let seen = Seen::of(&file, read.as_ref().map_err(Closed::clone));
                    match self.shelf.note(&file, seen) {
                        Some(content) => changes.push((file.clone(), Some(content))),
                        None => damaged = self.shelf.damaged.get(&file).map(|damage| damage.fault.clone()),
                    }
                    sheets.insert(file, read.ok());
                }
            }
        }
        if !changes.is_empty() {
            let news = self.absorb(changes);
            self.news.extend(news);
        } else if repaired {
            self.look_for_references();
        }
        match damaged {
            Some(fault) => {
                self.gather_faults();
                Err(EditError::Damaged(Box::new(fault)))
            }
            None => Ok(sheets),
        }
    }

    /// Whether the folder is there at all: if it is not, missing files mean nothing.
    pub(super) fn reachable(&self) -> Result<(), EditError> {
        let path = BoardFile::Head.path(&self.shelf.folder);
        path.symlink_metadata().map(|_| ()).map_err(EditError::io(&self.shelf.folder, "is out of reach"))
    }

    /// Of the files that are replaced, those that we would not have written so: undo could not bring them back from
    /// the records alone.
    fn texts_before(&self, set: &[(BoardFile, Replacement)]) -> Texts {
        let mut texts = Texts::new();
        for (file, replacement) in set {
            let Expected::Bytes(bytes) = &replacement.before else { continue };
            let Ok(text) = std::str::from_utf8(bytes) else { continue };
            let body = Content::of(self.board.records(), file).and_then(|content| content.write().ok());
            // Of a file that goes, even the comment above it.
            let above = if replacement.after.is_some() { text } else { "" };
            if body.is_none_or(|body| header::under(above, &body) != text) {
                texts.insert(file.name(), text.to_owned());
            }
        }
        texts
    }

    /// What must be replaced so that the files say what `next` does.
    pub(super) fn plan(
        &self,
        sheets: &Sheets,
        next: &Board,
        texts: &Texts,
    ) -> Result<Vec<(BoardFile, Replacement)>, EditError> {
        let mut set = Vec::new();
        for (file, sheet) in sheets {
            let after = Content::of(next.records(), file);
            if after == Content::of(self.board.records(), file) {
                continue;
            }
            let path = file.path(&self.shelf.folder);
            let after = match (&after, sheet) {
                (None, None) => continue,
                (Some(content), None) if content.is_empty() => continue,
                (None, Some(_)) => None,
                (Some(content), _) => match as_once(file, content, sheet.as_ref(), texts) {
                    Some(bytes) => Some(bytes),
                    None => Some(written(file, content, sheet.as_ref())?),
                },
            };
            let before = match sheet {
                Some(sheet) => Expected::Bytes(sheet.bytes.clone()),
                None => Expected::Absent,
            };
            set.push((file.clone(), Replacement { path, before, after }));
        }
        Ok(set)
    }
}

/// A file as it was once written, if that says what is to be written, and nobody has changed the comment above it.
fn as_once(file: &BoardFile, content: &Content, now: Option<&Sheet>, texts: &Texts) -> Option<Vec<u8>> {
    let text = texts.get(&file.name()).filter(|text| text.len() as u64 <= file.largest())?;
    if let Some(now) = now {
        let now = std::str::from_utf8(&now.bytes).ok()?;
        if header::header(now) != header::header(text) {
            return None;
        }
    }
    let read = sheet::content_of(text.strip_prefix('\u{feff}').unwrap_or(text), file).ok()?;
    (read == *content).then(|| text.clone().into_bytes())
}

/// The files that an edit touches.
pub(super) fn files_of(edit: &Edit) -> BTreeSet<BoardFile> {
    edit.touched().map(|record| BoardFile::of(&record)).collect()
}

/// The new text of a file, once it is sure that it reads back.
fn written(file: &BoardFile, content: &Content, old: Option<&Sheet>) -> Result<Vec<u8>, EditError> {
    let unwritable = |why: String| EditError::Unwritable { record: file.name(), why };
    let body = content.write().map_err(unwritable)?;
    let old = old.map(|sheet| std::str::from_utf8(&sheet.bytes).unwrap_or_default()).unwrap_or_default();
    let text = header::under(old, &body);
    if text.len() as u64 > file.largest() {
        return Err(unwritable(format!("it would be larger than {} MiB", file.largest() >> 20)));
    }
    match sheet::content_of(text.strip_prefix('\u{feff}').unwrap_or(&text), file) {
        Ok(read) if read == *content => Ok(text.into_bytes()),
        Ok(_) => Err(unwritable("it would not read back as it is".to_owned())),
        Err(fault) => Err(unwritable(format!("it would not read back: {}", fault.what))),
    }
}
