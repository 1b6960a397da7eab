//! What was done to a board on this machine: the log that makes an edit durable, and undo and redo that read it.
//!
//! An entry is on the disk before the first file is replaced; a short line follows when all are. The log only grows,
//! undo has no limit, and in memory there are only places and labels. Logs lie in the user's state directory, one
//! directory a board's id, and in it one log for each program that has the board open at the same time. What a program
//! did can be taken back by itself as long as it runs, and then by whichever inherits it into a log of its own.
//!
//! The directory is local, so a lock on the log is trusted there, as one in the board's folder would not be.

mod line;
mod log;
mod stacks;

use std::collections::HashMap;
use std::collections::hash_map::RandomState;
use std::fs;
use std::hash::{BuildHasher, Hasher};
use std::io;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use line::Line;
pub(super) use line::{Kind, Texts};
use log::{Log, Open, Story};
use stacks::Stacks;
pub(super) use stacks::Step;

use crate::board::Edit;

/// The log of one program on one board.
#[derive(Debug)]
pub(super) struct History {
    log: Log,
    stacks: Stacks,
    last: u64,
    /// Whose it is: the folder, and what the names of its unfinished files have in them.
    folder: Option<String>,
    token: String,
    /// The entry whose files are being replaced.
    open: Option<Open>,
    /// Where it lies.
    path: PathBuf,
    /// How long other logs were when nothing was left in them to inherit.
    spent: HashMap<PathBuf, u64>,
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
    /// Where there is a log that cannot be read, and why.
    pub closed: Vec<(PathBuf, io::Error)>,
}

/// The most logs that are tried: more programs on one board than anybody has hands for.
const MOST_LOGS: usize = 64;

impl History {
    /// Takes the first free log of the board `id` that belongs to `folder`.
    ///
    /// A log that names another folder is that of a copy of the board and stays with it, as long as the other folder
    /// is there. If it is not, the board was moved, and its log comes along, or the other folder is merely away (on a
    /// drive that is not there now): only a board that `stands` as the log's last entry left it is the one of the log.
    /// All logs of the other folder of which that is so come along.
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
        let mut closed = Vec::new();
        for path in log_paths(&dir).filter(|path| path.exists()) {
            match Self::at(path.clone()) {
                Ok(Some(log)) => match &log.folder {
                    Some(folder) if *folder == here => ours.push(log),
                    Some(folder) if Path::new(folder).exists() => {}
                    _ => free.push(log),
                },
                Ok(None) => {}
                // Whosever it is, it shall not lock the user out.
                Err(error) => closed.push((path, error)),
            }
        }
        if !ours.is_empty() {
            let own = ours.remove(0);
            return Ok(Claimed { own, others: ours, moved: false, closed });
        }
        let mut moved = Self::of_a_moved_board(free, stands).into_iter();
        let (mut own, is_moved) = match moved.next() {
            Some(own) => (own, true),
            None => (Self::fresh(&dir)?, false),
        };
        own.belong_to(id, &here)?;
        // Of one that cannot be written, nothing can be inherited either.
        let others =
            moved.filter_map(|mut other| other.belong_to(id, &here).is_ok().then_some(other)).collect();
        Ok(Claimed { own, others, moved: is_moved, closed })
    }

    /// Of logs whose folders are gone, those that came here with the board, all from one folder.
    fn of_a_moved_board(free: Vec<Self>, stands: impl Fn(&Edit) -> bool) -> Vec<Self> {
        let mut free: Vec<Self> = free.into_iter().filter(|log| log.is_of_a_board_that(&stands)).collect();
        // One in which nothing was ever done fits any board.
        free.sort_by_key(|log| log.stacks.newest.is_none() && log.open.is_none());
        match free.first().and_then(|first| first.folder.clone()) {
            Some(folder) => free.retain(|log| log.folder.as_ref() == Some(&folder)),
            None => free.truncate(1),
        }
        free
    }

    fn belong_to(&mut self, id: &str, folder: &str) -> io::Result<()> {
        let (board, folder, token) = (id.to_owned(), folder.to_owned(), self.token.clone());
        self.folder = Some(folder.clone());
        self.log.append(&Line::Owner { board, folder, token }, true)?;
        Ok(())
    }

    fn fresh(dir: &Path) -> io::Result<Self> {
        for path in log_paths(dir).filter(|path| !path.exists()) {
            if let Some(log) = Self::at(path)? {
                super::swap::sync_dir(dir)?;
                return Ok(log);
            }
        }
        Err(io::Error::other("the board is open too many times"))
    }

    /// The log that lies there; `None` when another program has it.
    fn at(path: PathBuf) -> io::Result<Option<Self>> {
        Log::claim(&path)?.map(|log| Self::of(path, log)).transpose()
    }

    fn of(path: PathBuf, mut log: Log) -> io::Result<Self> {
        let Story { owner, stacks, last, unfinished: open } = log.read()?;
        let (folder, token) =
            owner.map_or_else(|| (None, new_token()), |(folder, token)| (Some(folder), token));
        Ok(Self { log, stacks, last, folder, token, open, path, spent: HashMap::new() })
    }

    /// Inherits what programs that are gone since did to this folder and left to be taken back. A program that runs
    /// takes back its own. A log that gives nothing, whatever the reason, is not opened again until it changes.
    pub(super) fn inherit_from_the_gone(&mut self) {
        let own = self.path.clone();
        for path in own.parent().into_iter().flat_map(log_paths).filter(|path| *path != own) {
            let Some(length) = size(&path) else { continue };
            if self.spent.get(&path) == Some(&length) {
                continue;
            }
            if let Some(length) = self.inherit_at(&path) {
                self.spent.insert(path, length);
            }
        }
    }

    /// Inherits what the log there leaves; how long it is then, unless there may be more to come.
    fn inherit_at(&mut self, path: &Path) -> Option<u64> {
        let log = match Log::claim(path) {
            Ok(log) => log?,
            Err(_) => return size(path),
        };
        if !log.is_locked() {
            // Another program may be writing there, so it is not even read: that cuts off what is torn.
            return size(path);
        }
        let Ok(mut other) = Self::of(path.to_path_buf(), log) else { return size(path) };
        // What it has not finished is for the next opening.
        if other.open.is_none() && other.folder == self.folder {
            self.inherit(&mut other).ok()?;
        }
        size(path)
    }

    /// Inherits what can be taken back from another log. A step that this version cannot read stays where it is, for
    /// one that can. What is written here and not yet let go there when the program stops is in both, and known again
    /// the next time.
    pub(super) fn inherit(&mut self, other: &mut Self) -> io::Result<()> {
        let mut own: HashMap<u64, Vec<u64>> = HashMap::new();
        for step in &self.stacks.undo {
            own.entry(step.time).or_default().push(step.at);
        }
        let mut taken = Vec::new();
        for step in &other.stacks.undo {
            let Some(edit) = other.passes_on(step) else { continue };
            let same = |at: &u64| self.entry(*at).is_ok_and(|own| own == edit);
            if !own.get(&step.time).is_some_and(|places| places.iter().any(same)) {
                self.take_in(step, edit, other.texts(step))?;
            }
            taken.push(step.at);
        }
        if taken.is_empty() {
            return Ok(());
        }
        // They are let go there only once they are safe here.
        self.log.sync()?;
        taken.into_iter().rev().try_for_each(|at| other.let_go(at, false))?;
        other.log.sync()
    }

    /// The edit of a step that another program may take back in the place of this one: not where this one may still
    /// run. Of a step that says no time, nobody knows whether it came before or after another's.
    fn passes_on(&self, step: &Step) -> Option<Edit> {
        if step.time == 0 || !self.log.is_locked() {
            return None;
        }
        self.entry(step.at).ok()
    }

    /// Whether another program may take back what this one could take back first.
    pub(super) fn passes_on_the_newest(&self) -> bool {
        self.stacks.undo.last().is_some_and(|step| self.passes_on(step).is_some())
    }

    /// Puts a step of another log among the own ones.
    fn take_in(&mut self, step: &Step, edit: Edit, texts: Texts) -> io::Result<()> {
        let Edit { label, changes } = edit;
        let (n, kind, time) = (self.last + 1, Kind::Inherited, step.time);
        let entry = Line::Entry { n, kind, time, label, changes, texts };
        let at = self.log.append(&entry, false)?;
        self.last = n;
        self.stacks.done(kind, Step { at, ..step.clone() });
        Ok(())
    }

    /// What the names of our unfinished files have in them.
    pub(super) fn token(&self) -> &str {
        &self.token
    }

    /// Writes down what is about to be done, and the texts that it replaces and that only a person would write so. When
    /// this returns, it outlives a crash.
    pub(super) fn begin(&mut self, kind: Kind, edit: &Edit, texts: Texts) -> io::Result<()> {
        let (n, time) = (self.last + 1, now());
        let Edit { label, changes, .. } = edit.clone();
        let entry = Line::Entry { n, kind, time, label: label.clone(), changes, texts };
        let at = self.log.append(&entry, true)?;
        self.last = n;
        self.open = Some(Open { n, kind, step: Step { at, time, label, forward: false } });
        Ok(())
    }

    /// All files are replaced.
    pub(super) fn finish(&mut self) {
        if let Some(open) = self.open.take() {
            // If this line is lost, the next opening finds every file as it should be, and writes it then.
            let _written = self.log.append(&Line::Done { done: open.n }, false);
            self.stacks.done(open.kind, open.step);
        }
    }

    /// No file is replaced: it never was.
    pub(super) fn cancel(&mut self) -> io::Result<()> {
        match self.open.take() {
            Some(open) => self.log.cut(open.step.at),
            None => Ok(()),
        }
    }

    /// The edit that was done last, whether it was undone since or not; `None` where none was.
    pub(super) fn newest(&self) -> Option<io::Result<Edit>> {
        self.stacks.newest.map(|(_, at)| self.entry(at))
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
        let at = self.open.as_ref().map(|open| open.step.at);
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
            self.stacks.aside(open.kind, open.step);
        }
        Ok(())
    }

    /// The entry that a crash left unfinished: its kind, its label, and its edit where that can be read.
    pub(super) fn unfinished(&self) -> Option<(Kind, String, io::Result<Edit>)> {
        self.open.as_ref().map(|open| (open.kind, open.step.label.clone(), self.entry(open.step.at)))
    }

    /// Takes a step out of the lists, without taking it.
    pub(super) fn drop_step(&mut self, step: &Step) -> io::Result<()> {
        self.let_go(step.at, true)
    }

    fn let_go(&mut self, at: u64, sync: bool) -> io::Result<()> {
        self.log.append(&Line::Dropped { dropped: at }, sync)?;
        self.stacks.dropped(at);
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

/// Where the logs of a board may lie.
fn log_paths(dir: &Path) -> impl Iterator<Item = PathBuf> {
    (1..=MOST_LOGS).map(|number| match number {
        1 => dir.join("history.log"),
        _ => dir.join(format!("history-{number}.log")),
    })
}

fn size(path: &Path) -> Option<u64> {
    fs::metadata(path).ok().map(|found| found.len())
}

/// Milliseconds since 1970.
fn now() -> u64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    u64::try_from(since.as_millis()).unwrap_or(u64::MAX)
}

/// Sixteen hexadecimal digits that no other log has.
fn new_token() -> String {
    let mut hasher = RandomState::new().build_hasher();
    hasher.write_u32(std::process::id());
    format!("{:016x}", hasher.finish())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn claimed(state: &Path) -> History {
        History::claim(state, "tide", state, |_| true).unwrap().own
    }

    fn inherited(is_locked: bool) -> (usize, usize) {
        let state = tempfile::tempdir().unwrap();
        let (mut own, mut other) = (claimed(state.path()), claimed(state.path()));
        other.begin(Kind::Do, &Edit::new("theirs", Vec::new()), Texts::new()).unwrap();
        other.finish();
        if !is_locked {
            other.log.be_unlocked();
        }
        own.inherit(&mut other).unwrap();
        (own.undo().len(), other.undo().len())
    }

    #[test]
    fn a_log_that_cannot_be_locked_keeps_its_steps_since_its_program_may_run() {
        assert_eq!(inherited(true), (1, 0));
        assert_eq!(inherited(false), (0, 1));
    }
}
