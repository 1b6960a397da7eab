//! A board's folder that is being worked on.

use std::io;
use std::path::{Path, PathBuf};

use super::bookmark;
use super::error::{EditError, StoreError};
use super::fault::{Fault, FaultKind};
use super::history::{History, Kind, Step, Texts};
use super::layout::BoardFile;
use super::news::News;
use super::places::Places;
use super::references;
use super::saving::Way;
use super::shelf::Shelf;
use super::usual;
use crate::board::{Board, Edit, Side};

/// A folder that is being worked on.
///
/// It holds no lock on the folder, so others may write there at any time: what they wrote comes in with
/// [`OpenBoard::take_in_outside`] and before each edit.
#[derive(Debug)]
pub struct OpenBoard {
    pub(super) given: PathBuf,
    pub(super) board: Board,
    pub(super) shelf: Shelf,
    pub(super) history: History,
    /// The file with this machine's bookmarks.
    pub(super) bookmarks: PathBuf,
    pub(super) cache: PathBuf,
    pub(super) references: Vec<Fault>,
    pub(super) unsaved: Vec<Fault>,
    pub(super) faults: Vec<Fault>,
    /// What edits took in on their way, and has not been told yet.
    pub(super) news: Vec<News>,
    pub(super) unreachable: bool,
}

impl OpenBoard {
    /// Opens a folder, and finishes what a crash left half done.
    ///
    /// # Errors
    /// As [`super::read`], and when the history log cannot be read or written.
    pub fn open(folder: &Path, places: &Places) -> Result<Self, StoreError> {
        let (shelf, records) = Shelf::open(folder)?;
        let board = usual::board_of(records);
        let id = board.head().id.to_string();
        let claimed = History::claim(&places.state, &id, &shelf.folder, |edit| board.has(edit))
            .map_err(StoreError::io(&places.state, "the history cannot be kept"))?;
        let mut open = Self {
            given: folder.to_path_buf(),
            board,
            shelf,
            history: claimed.own,
            bookmarks: bookmark::file(places, &id),
            cache: places.cache.join(&id),
            references: Vec::new(),
            unsaved: claimed.closed.iter().map(|(path, error)| closed(path, error)).collect(),
            faults: Vec::new(),
            news: Vec::new(),
            unreachable: false,
        };
        let finished = open.finish_what_was_begun(claimed.others, claimed.moved);
        finished.map_err(StoreError::io(&places.state, "the history cannot be kept"))?;
        open.look_for_references();
        Ok(open)
    }

    /// The board as it stands.
    pub fn board(&self) -> &Board {
        &self.board
    }

    /// The folder, as it was given.
    pub fn folder(&self) -> &Path {
        &self.given
    }

    /// Where what can be made anew of this board at any time is kept on this machine. It need not exist yet.
    pub fn cache(&self) -> &Path {
        &self.cache
    }

    /// What needs a person; the files in order.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// Saves an edit. When this returns `Ok` the edit outlives a crash; on an error nothing has changed, except that
    /// what other hands wrote meanwhile may have been taken in.
    ///
    /// # Errors
    /// [`EditError`]. After a [`Refused::Clash`](crate::board::Refused::Clash) ask which side to keep and call
    /// [`OpenBoard::edit_preferring`].
    pub fn edit(&mut self, edit: &Edit) -> Result<(), EditError> {
        self.save(Kind::Do, edit, Board::apply_preferring, None, &Texts::new())
    }

    /// As [`OpenBoard::edit`], but takes `side` in fields that both sides changed.
    ///
    /// # Errors
    /// As [`OpenBoard::edit`].
    pub fn edit_preferring(&mut self, edit: &Edit, side: Side) -> Result<(), EditError> {
        self.save(Kind::Do, edit, Board::apply_preferring, Some(side), &Texts::new())
    }

    /// Puts what other programs on this machine did to the folder, and left when they ended, among what can be undone
    /// here, each at its time. What a program did that still runs it takes back itself, and what cannot be read does
    /// not come.
    pub fn inherit(&mut self) {
        self.history.inherit_from_the_gone();
    }

    /// Takes back the newest edit; what other hands changed since stays. Returns its label, `None` where there is
    /// nothing to take back. A file whose record becomes what it was comes back as it was written, byte for byte, but for
    /// the comment above it, which stays as it is now. What the edit mended is broken again then, and among the [faults](OpenBoard::faults).
    ///
    /// # Errors
    /// As [`OpenBoard::edit`], but for broken rules; the edit can then still be undone later. After a
    /// [`Refused::Clash`](crate::board::Refused::Clash) ask which side to keep and call [`OpenBoard::undo_preferring`],
    /// or let go of the step with [`OpenBoard::drop_undo`], so that those below it can be reached.
    pub fn undo(&mut self) -> Result<Option<String>, EditError> {
        self.step(Kind::Undo, None)
    }

    /// As [`OpenBoard::undo`], but takes `side` where other hands have changed the same since; here
    /// [`Side::Ours`] is what was before the edit.
    ///
    /// # Errors
    /// As [`OpenBoard::undo`].
    pub fn undo_preferring(&mut self, side: Side) -> Result<Option<String>, EditError> {
        self.step(Kind::Undo, Some(side))
    }

    /// Does again what was undone last. Returns its label, `None` where there is nothing.
    ///
    /// # Errors
    /// As [`OpenBoard::edit`]; it can then still be done again later.
    pub fn redo(&mut self) -> Result<Option<String>, EditError> {
        self.step(Kind::Redo, None)
    }

    /// As [`OpenBoard::redo`], but takes `side` where other hands have changed the same since; here [`Side::Ours`] is
    /// what stood there before it was undone.
    ///
    /// # Errors
    /// As [`OpenBoard::redo`].
    pub fn redo_preferring(&mut self, side: Side) -> Result<Option<String>, EditError> {
        self.step(Kind::Redo, Some(side))
    }

    /// Lets go of the newest step that can be undone: what it did stays, and the step before it is next. Returns its
    /// label, `None` where there is none.
    ///
    /// # Errors
    /// When the history log cannot be written; the step is then still there.
    pub fn drop_undo(&mut self) -> Result<Option<String>, EditError> {
        self.drop_step(self.history.undo().last().cloned())
    }

    /// Lets go of the next step that can be done again. Returns its label, `None` where there is none.
    ///
    /// # Errors
    /// As [`OpenBoard::drop_undo`].
    pub fn drop_redo(&mut self) -> Result<Option<String>, EditError> {
        self.drop_step(self.history.redo().last().cloned())
    }

    fn step(&mut self, kind: Kind, side: Option<Side>) -> Result<Option<String>, EditError> {
        let steps = if kind == Kind::Undo { self.history.undo() } else { self.history.redo() };
        let Some(step) = steps.last().cloned() else { return Ok(None) };
        let edit = self.history.edit(&step).map_err(EditError::io(&self.shelf.folder, "cannot be undone"))?;
        // What was set aside was never done, so it has to keep the rules like any new edit.
        let way: Way = if step.forward { Board::apply_preferring } else { Board::restore };
        let texts = self.history.texts(&step);
        self.save(kind, &edit, way, side, &texts)?;
        self.stepped(&step);
        Ok(Some(step.label))
    }

    fn drop_step(&mut self, step: Option<Step>) -> Result<Option<String>, EditError> {
        let Some(step) = step else { return Ok(None) };
        self.history
            .drop_step(&step)
            .map_err(EditError::io(&self.shelf.folder, "the history cannot be written"))?;
        self.stepped(&step);
        Ok(Some(step.label))
    }

    /// After a step was taken or let go: what was said of one that was set aside is settled.
    fn stepped(&mut self, step: &Step) {
        if step.forward {
            self.unsaved.retain(|fault| fault.kind != FaultKind::Unsaved);
            self.gather_faults();
        }
    }

    /// What can be undone, newest first.
    pub fn undo_labels(&self) -> impl ExactSizeIterator<Item = &str> {
        self.history.undo().iter().rev().map(|step| step.label.as_str())
    }

    /// What can be done again, the next first.
    pub fn redo_labels(&self) -> impl ExactSizeIterator<Item = &str> {
        self.history.redo().iter().rev().map(|step| step.label.as_str())
    }

    /// Looks again for names that lead nowhere.
    pub(super) fn look_for_references(&mut self) {
        let shelf = &self.shelf;
        self.references =
            references::faults(&self.board, &shelf.folder, &|file| shelf.damaged.contains_key(file));
        self.gather_faults();
    }

    pub(super) fn gather_faults(&mut self) {
        self.faults = self.shelf.faults(&self.references);
        self.faults.extend(self.unsaved.iter().cloned());
    }
}

/// A history log that cannot be read.
fn closed(path: &Path, error: &io::Error) -> Fault {
    let what = format!("the history log {} cannot be read: {error}", path.display());
    Fault::new(FaultKind::Closed, BoardFile::Head.name(), what)
        .hint("what it tells of cannot be taken back: see that you may read it, or put it away")
}
