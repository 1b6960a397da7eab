//! What was done to a board on this machine: the log that makes an edit durable, and undo and redo that read it.
//!
//! An entry is on the disk before the first file is replaced; a short line follows when all are. The log only grows,
//! undo has no limit, and in memory there are only places and labels. Logs lie in the user's state directory, one
//! directory a board's id, and in it one log for each program that has the board open at the same time.
//!
//! The directory is local, so a lock on the log is trusted there, as one in the board's folder would not be.

mod line;
mod log;
mod stacks;

use std::collections::hash_map::RandomState;
use std::fs;
use std::hash::{BuildHasher, Hasher};
use std::io;
use std::path::{Path, PathBuf};

use line::Line;
pub(super) use line::{Kind, Texts};
use log::{Log, Story};
use stacks::Stacks;
pub(super) use stacks::Step;

use crate::board::Edit;

/// The log of one program on one board.
#[derive(Debug)]
pub(super) struct History {
    log: Log,
    stacks: Stacks,
    last: u64,
    token: String,
    /// The entry whose files are being replaced.
    open: Option<Open>,
}

/// An entry that is not done.
#[derive(Debug)]
struct Open {
    at: u64,
    n: u64,
    kind: Kind,
    label: String,
}

/// The logs that belong to a folder.
#[derive(Debug)]
pub(super) struct Claimed {
    /// The one to write to.
    pub own: History,
    /// Those of programs that are gone.
    pub others: Vec<History>,
    /// Whether it has come from another folder, which is no longer there.
    pub moved: bool,
}

/// The most logs that are tried: more programs on one board than anybody has hands for.
const MOST_LOGS: usize = 64;

impl History {
    /// Takes the first free log of the board `id` that belongs to `folder`.
    ///
    /// A log that names another folder is that of a copy of the board and stays with it, as long as the other folder
    /// is there. If it is not, the board was moved, and its log comes along, or the other folder is merely away (on a
    /// drive that is not there now): only a board that `stands` as the log's last entry left it is the one of the log.
    pub(super) fn claim(
        state: &Path,
        id: &str,
        folder: &Path,
        stands: impl Fn(&Edit) -> bool,
    ) -> io::Result<Claimed> {
        let dir = state.join("boards").join(id);
        fs::create_dir_all(&dir)?;
        let here = folder.to_string_lossy().into_owned();
        let mut ours = Vec::new();
        let mut free = Vec::new();
        for number in 1..=MOST_LOGS {
            let path = log_path(&dir, number);
            if !path.exists() {
                continue;
            }
            let Some(mut log) = Log::claim(&path)? else { continue };
            let story = log.read()?;
            match &story.owner {
                Some((folder, _)) if *folder == here => ours.push(Self::of(log, story)),
                Some((folder, _)) if Path::new(folder).exists() => {}
                _ => free.push(Self::of(log, story)),
            }
        }
        if !ours.is_empty() {
            let own = ours.remove(0);
            return Ok(Claimed { own, others: ours, moved: false });
        }
        let moved = free.into_iter().find(|log| log.is_of_a_board_that(&stands));
        let is_moved = moved.is_some();
        let mut own = match moved {
            Some(moved) => moved,
            None => Self::fresh(&dir)?,
        };
        let owner = Line::Owner { board: id.to_owned(), folder: here, token: own.token.clone() };
        own.log.append(&owner, true)?;
        Ok(Claimed { own, others: Vec::new(), moved: is_moved })
    }

    fn fresh(dir: &Path) -> io::Result<Self> {
        for number in 1..=MOST_LOGS {
            let path = log_path(dir, number);
            if path.exists() {
                continue;
            }
            if let Some(mut log) = Log::claim(&path)? {
                let story = log.read()?;
                super::swap::sync_dir(dir)?;
                return Ok(Self::of(log, story));
            }
        }
        Err(io::Error::other("the board is open too many times"))
    }

    fn of(log: Log, story: Story) -> Self {
        let open = story.unfinished.map(|(at, n, kind, label)| Open { at, n, kind, label });
        let token = story.owner.map_or_else(new_token, |(_, token)| token);
        Self { log, stacks: story.stacks, last: story.last, token, open }
    }

    /// What the names of our unfinished files have in them.
    pub(super) fn token(&self) -> &str {
        &self.token
    }

    /// Writes down what is about to be done, and the texts that it replaces and that only a person would write so. When
    /// this returns, it outlives a crash.
    pub(super) fn begin(&mut self, kind: Kind, edit: &Edit, texts: Texts) -> io::Result<()> {
        let n = self.last + 1;
        let entry = Line::Entry { n, kind, label: edit.label.clone(), changes: edit.changes.clone(), texts };
        let at = self.log.append(&entry, true)?;
        self.last = n;
        self.open = Some(Open { at, n, kind, label: edit.label.clone() });
        Ok(())
    }

    /// All files are replaced.
    pub(super) fn finish(&mut self) {
        if let Some(open) = self.open.take() {
            // If this line is lost, the next opening finds every file as it should be, and writes it then.
            let _written = self.log.append(&Line::Done { done: open.n }, false);
            self.stacks.done(open.kind, open.at, open.label);
        }
    }

    /// No file is replaced: it never was.
    pub(super) fn cancel(&mut self) -> io::Result<()> {
        match self.open.take() {
            Some(open) => self.log.cut(open.at),
            None => Ok(()),
        }
    }

    /// The edit that was done last, whether it was undone since or not; `None` where none was.
    pub(super) fn newest(&self) -> Option<io::Result<Edit>> {
        self.stacks.newest.map(|at| self.entry(at))
    }

    /// Whether the board that `stands` so can be the one that this log tells of.
    fn is_of_a_board_that(&self, stands: impl Fn(&Edit) -> bool) -> bool {
        match (self.newest(), self.unfinished()) {
            (Some(newest), _) => newest.is_ok_and(|edit| stands(&edit)),
            (None, Some((_, _, begun))) => begun.is_ok_and(|edit| stands(&edit) || stands(&edit.inverse())),
            (None, None) => true,
        }
    }

    /// Writes down what another log could not finish: it waits among what can be done again here.
    pub(super) fn take_aside(&mut self, edit: &Edit) -> io::Result<()> {
        self.begin(Kind::Do, edit, Texts::new())?;
        self.set_aside()
    }

    /// It cannot be finished, and is not to be done again from here.
    pub(super) fn give_up(&mut self) -> io::Result<()> {
        let at = self.open.as_ref().map(|open| open.at);
        self.set_aside()?;
        match at.and_then(|at| self.stacks.redo.iter().find(|step| step.at == at).cloned()) {
            Some(step) => self.drop_step(&step),
            None => Ok(()),
        }
    }

    /// It cannot be finished: it waits among what can be done again.
    pub(super) fn set_aside(&mut self) -> io::Result<()> {
        if let Some(open) = self.open.take() {
            self.log.append(&Line::SetAside { aside: open.n }, true)?;
            self.stacks.aside(open.kind, open.at, open.label);
        }
        Ok(())
    }

    /// The entry that a crash left unfinished: its kind, its label, and its edit where that can be read.
    pub(super) fn unfinished(&self) -> Option<(Kind, String, io::Result<Edit>)> {
        self.open.as_ref().map(|open| (open.kind, open.label.clone(), self.entry(open.at)))
    }

    /// Takes a step out of the lists, without taking it.
    pub(super) fn drop_step(&mut self, step: &Step) -> io::Result<()> {
        self.log.append(&Line::Dropped { dropped: step.at }, true)?;
        self.stacks.dropped(step.at);
        Ok(())
    }

    /// What can be undone, the newest last.
    pub(super) fn undo(&self) -> &[Step] {
        &self.stacks.undo
    }

    /// What can be done again, the next last.
    pub(super) fn redo(&self) -> &[Step] {
        &self.stacks.redo
    }

    /// The edit that takes a step.
    pub(super) fn edit(&self, step: &Step) -> io::Result<Edit> {
        let entry = self.entry(step.at)?;
        Ok(if step.forward { entry } else { entry.inverse() })
    }

    /// The texts that a step brings back, where the records come to be what they were.
    pub(super) fn texts(&self, step: &Step) -> Texts {
        if step.forward {
            return Texts::new();
        }
        self.log.line(step.at).map(|line| line::texts(&line)).unwrap_or_default()
    }

    fn entry(&self, at: u64) -> io::Result<Edit> {
        line::edit(&self.log.line(at)?)
            .ok_or_else(|| io::Error::new(io::ErrorKind::InvalidData, "the history log is damaged"))
    }
}

fn log_path(dir: &Path, number: usize) -> PathBuf {
    match number {
        1 => dir.join("history.log"),
        _ => dir.join(format!("history-{number}.log")),
    }
}

/// Sixteen hexadecimal digits that no other log has.
fn new_token() -> String {
    let mut hasher = RandomState::new().build_hasher();
    hasher.write_u32(std::process::id());
    format!("{:016x}", hasher.finish())
}
