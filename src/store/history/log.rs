//! One log file: read from its start, written at its end, locked while it is ours.

use std::fs::{File, TryLockError};
use std::io::{self, BufRead, BufReader, Read, Seek, SeekFrom, Write};
use std::path::Path;

use super::line::{self, Kind, Line, Outline};
use super::stacks::{Stacks, Step};

/// A log that this program alone writes.
#[derive(Debug)]
pub(super) struct Log {
    file: File,
    /// Where the next line goes: after the last whole one.
    end: u64,
    /// Whether it is locked, and not only taken for free where nothing can be locked.
    is_locked: bool,
}

/// What a log says.
#[derive(Debug, Default)]
pub(super) struct Story {
    /// Whose it is: the folder, and the token of our unfinished files.
    pub owner: Option<(String, String)>,
    pub stacks: Stacks,
    /// The number of the last entry.
    pub last: u64,
    /// The entry whose files may be half replaced.
    pub unfinished: Option<Open>,
}

/// An entry that is not done.
#[derive(Debug)]
pub(super) struct Open {
    pub n: u64,
    pub kind: Kind,
    /// The step that it becomes once it is done.
    pub step: Step,
}

impl Log {
    /// Opens and locks a log, making it if there is none; `None` when another program has it.
    pub fn claim(path: &Path) -> io::Result<Option<Self>> {
        let mut options = File::options();
        options.read(true).write(true).create(true).truncate(false);
        private(&mut options);
        let file = options.open(path)?;
        match file.try_lock() {
            Ok(()) => Ok(Some(Self { file, end: 0, is_locked: true })),
            Err(TryLockError::WouldBlock) => Ok(None),
            // A home directory on a drive that cannot lock: two programs at once are less likely than one.
            Err(TryLockError::Error(error)) if error.kind() == io::ErrorKind::Unsupported => {
                Ok(Some(Self { file, end: 0, is_locked: false }))
            }
            Err(TryLockError::Error(error)) => Err(error),
        }
    }

    /// Whether no other program can be writing to it.
    pub fn is_locked(&self) -> bool {
        self.is_locked
    }

    /// As it is where nothing can be locked.
    #[cfg(test)]
    pub fn be_unlocked(&mut self) {
        self.is_locked = false;
    }

    /// Reads the log from its start. A torn last line is left out, and the next line will be written over it; a whole
    /// one that this version does not know stays, and is passed over.
    pub fn read(&mut self) -> io::Result<Story> {
        let mut story = Story::default();
        let mut reader = BufReader::with_capacity(1 << 16, &self.file);
        reader.seek(SeekFrom::Start(0))?;
        let mut at = 0;
        let mut end = 0;
        let mut line = Vec::new();
        loop {
            line.clear();
            let length = reader.read_until(b'\n', &mut line)? as u64;
            if length == 0 {
                break;
            }
            match line::outline(&line) {
                Some(outline) => {
                    story.hear(outline, at);
                    end = at + length;
                }
                // In the middle, a disk has spoilt it: what stood before it can no longer be undone in order.
                None => story.stacks = Stacks::default(),
            }
            at += length;
        }
        if end < at {
            // Only torn: what is whole still stands in order.
            let rest = at - end;
            let torn = self.is_one_line(end, rest)?;
            if torn {
                return self.without_tail(end);
            }
        }
        self.end = end;
        Ok(story)
    }

    /// Whether the last `length` bytes are one line at most.
    fn is_one_line(&self, at: u64, length: u64) -> io::Result<bool> {
        let mut tail = Vec::new();
        let mut file = &self.file;
        file.seek(SeekFrom::Start(at))?;
        file.take(length).read_to_end(&mut tail)?;
        Ok(tail.iter().position(|byte| *byte == b'\n').is_none_or(|at| at + 1 == tail.len()))
    }

    /// Cuts a torn line off and reads again.
    fn without_tail(&mut self, end: u64) -> io::Result<Story> {
        self.file.set_len(end)?;
        self.read()
    }

    /// Writes a line at the end; with `sync` it is on the disk when this returns. On an error the log is as it was.
    pub fn append(&mut self, line: &Line, sync: bool) -> io::Result<u64> {
        let bytes = line::write(line)?;
        let at = self.end;
        let mut file = &self.file;
        // First of all, what a torn line may have left there: later, a failure would come after the line is written.
        let written = file
            .set_len(at)
            .and_then(|()| file.seek(SeekFrom::Start(at)))
            .and_then(|_| file.write_all(&bytes))
            .and_then(|()| if sync { file.sync_data() } else { Ok(()) });
        match written {
            Ok(()) => {
                self.end = at + bytes.len() as u64;
                Ok(at)
            }
            Err(error) => {
                let _cut = self.file.set_len(at);
                Err(error)
            }
        }
    }

    /// What was written without `sync` is on the disk when this returns.
    pub fn sync(&self) -> io::Result<()> {
        self.file.sync_data()
    }

    /// Cuts off everything from `at` on.
    pub fn cut(&mut self, at: u64) -> io::Result<()> {
        self.file.set_len(at)?;
        self.end = at;
        self.file.sync_data()
    }

    /// The line that begins at `at`.
    pub fn line(&self, at: u64) -> io::Result<Vec<u8>> {
        let mut reader = BufReader::new(&self.file);
        reader.seek(SeekFrom::Start(at))?;
        let mut line = Vec::new();
        reader.read_until(b'\n', &mut line)?;
        Ok(line)
    }
}

impl Story {
    fn hear(&mut self, outline: Outline, at: u64) {
        match outline {
            Outline::Owner { folder, token } => self.owner = Some((folder, token)),
            Outline::Entry { n, kind, time, label } => {
                self.last = self.last.max(n);
                let step = Step { at, time, label, forward: false };
                if kind == Kind::Inherited {
                    self.stacks.done(kind, step);
                } else {
                    self.unfinished = Some(Open { n, kind, step });
                }
            }
            Outline::Done { done } => {
                if let Some(open) = self.unfinished.take_if(|open| open.n == done) {
                    self.stacks.done(open.kind, open.step);
                }
            }
            Outline::Dropped { dropped } => self.stacks.dropped(dropped),
            Outline::Unknown => {}
            Outline::SetAside { aside } => {
                if let Some(open) = self.unfinished.take_if(|open| open.n == aside) {
                    self.stacks.aside(open.kind, open.step);
                }
            }
        }
    }
}

/// A history holds what a film keeps secret: nobody else's business on a shared machine.
#[cfg(unix)]
fn private(options: &mut std::fs::OpenOptions) {
    use std::os::unix::fs::OpenOptionsExt;
    options.mode(0o600);
}

#[cfg(not(unix))]
fn private(_options: &mut std::fs::OpenOptions) {}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(n: u64) -> Line {
        Line::Entry {
            n,
            kind: Kind::Do,
            time: n,
            label: format!("edit {n}"),
            changes: Vec::new(),
            texts: line::Texts::new(),
        }
    }

    #[test]
    fn a_torn_last_line_is_left_out_and_written_over() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("log");
        let mut log = Log::claim(&path).unwrap().unwrap();
        log.append(&entry(1), true).unwrap();
        log.append(&Line::Done { done: 1 }, false).unwrap();
        log.append(&entry(2), true).unwrap();
        drop(log);
        let whole = std::fs::read(&path).unwrap();
        for torn in [5, 20, 40] {
            std::fs::write(&path, &whole[..whole.len() - torn]).unwrap();
            let mut log = Log::claim(&path).unwrap().unwrap();
            let story = log.read().unwrap();
            assert_eq!((story.stacks.undo.len(), story.unfinished.is_none()), (1, true), "torn by {torn}");
            log.append(&entry(3), true).unwrap();
            assert_eq!(log.read().unwrap().unfinished.unwrap().n, 3);
        }
    }

    #[test]
    fn nothing_of_a_spoilt_end_is_left_behind_the_next_line() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("log");
        let mut log = Log::claim(&path).unwrap().unwrap();
        log.append(&entry(1), true).unwrap();
        log.append(&Line::Done { done: 1 }, false).unwrap();
        let whole = std::fs::read(&path).unwrap();
        drop(log);
        let spoilt = [&whole[..], &b"rubbish\n".repeat(100), b"torn"].concat();
        std::fs::write(&path, spoilt).unwrap();
        let mut log = Log::claim(&path).unwrap().unwrap();
        log.read().unwrap();
        log.append(&entry(2), true).unwrap();
        let now = std::fs::read(&path).unwrap();
        let new = now.strip_prefix(&whole[..]).unwrap();
        let outline = Outline::Entry { n: 2, kind: Kind::Do, time: 2, label: "edit 2".into() };
        assert_eq!(line::outline(new), Some(outline));
    }

    #[test]
    fn a_spoilt_line_in_the_middle_forgets_only_what_stood_before() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("log");
        let mut log = Log::claim(&path).unwrap().unwrap();
        for n in 1..=3 {
            log.append(&entry(n), true).unwrap();
            log.append(&Line::Done { done: n }, false).unwrap();
        }
        drop(log);
        let text = std::fs::read_to_string(&path).unwrap();
        std::fs::write(&path, text.replacen("edit 2", "edit X", 1)).unwrap();
        let story = Log::claim(&path).unwrap().unwrap().read().unwrap();
        let labels: Vec<_> = story.stacks.undo.iter().map(|step| step.label.as_str()).collect();
        assert_eq!(labels, ["edit 3"]);
        assert_eq!(story.last, 3);
    }

    #[test]
    fn a_log_has_one_writer() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("log");
        let first = Log::claim(&path).unwrap();
        assert!(first.is_some());
        assert!(Log::claim(&path).unwrap().is_none());
        drop(first);
        assert!(Log::claim(&path).unwrap().is_some());
    }
}
