//! Threads that make pictures ready: newest request first, and only what the last frame asked for.

use std::panic::{self, AssertUnwindSafe};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::thread;

use ratatui::layout::Size;

use super::shot::{PAPER, Shot};
use super::subject::Subject;
use super::way::{Eye, Way};
use crate::album::{Album, Stamp};
use crate::picture::flat::Flat;

/// A picture of something in at most so many cells.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(super) struct Ask {
    pub subject: Subject,
    pub size: Size,
    /// Whether it is made of half blocks, whatever else the terminal can show.
    pub in_blocks: bool,
}

/// An [`Ask`], and the file of which there is a picture already, if there is one.
#[derive(Clone, Debug)]
pub(super) struct Wish {
    pub ask: Ask,
    /// The file as it was when the picture was made; `None` where there is no picture yet.
    pub known: Option<Option<Stamp>>,
}

/// What came of it.
#[derive(Debug)]
pub(super) struct Answer {
    pub ask: Ask,
    /// The picture; `None` where its file is what it was.
    pub shot: Option<Shot>,
    /// Which file it was made of.
    pub stamp: Option<Stamp>,
}

/// What waits, and what is at work.
#[derive(Debug, Default)]
struct Queue {
    waiting: Vec<Wish>,
    at_work: Vec<Ask>,
    is_over: bool,
}

#[derive(Debug, Default)]
struct Shared {
    queue: Mutex<Queue>,
    more: Condvar,
}

/// The threads. They end when this is dropped.
#[derive(Debug)]
pub(super) struct Workers {
    shared: Arc<Shared>,
    done: Receiver<Answer>,
    count: usize,
}

/// The most threads: one frame's pictures are few, and a disk serves few at once.
const MOST: usize = 4;

impl Workers {
    /// Threads that read from this album for this terminal.
    pub fn new(album: Arc<Album>, eye: Eye) -> Self {
        let shared = Arc::new(Shared::default());
        let (tell, done) = channel();
        let wanted = thread::available_parallelism().map_or(1, usize::from).clamp(1, MOST);
        let mut count = 0;
        for _ in 0..wanted {
            let (shared, album, eye, tell) =
                (Arc::clone(&shared), Arc::clone(&album), eye.clone(), tell.clone());
            let thread = thread::Builder::new().name("pictures".to_owned());
            // Where the system gives no thread, pictures stay away; everything else works.
            count += usize::from(thread.spawn(move || work(&shared, &album, &eye, &tell)).is_ok());
        }
        Self { shared, done, count }
    }

    /// Whether there is anybody to make pictures.
    pub fn are_there(&self) -> bool {
        self.count > 0
    }

    /// What is wanted now, the most wanted first, in the place of whatever was.
    pub fn want(&self, wishes: &[Wish]) {
        let mut queue = self.shared.queue.lock().unwrap_or_else(PoisonError::into_inner);
        // Taken from the end.
        let missing = wishes.iter().rev().filter(|wish| !queue.at_work.contains(&wish.ask));
        let missing: Vec<Wish> = missing.cloned().collect();
        queue.waiting = missing;
        drop(queue);
        self.shared.more.notify_all();
    }

    /// What has become ready since the last time.
    pub fn answers(&self) -> impl Iterator<Item = Answer> + '_ {
        self.done.try_iter()
    }
}

impl Drop for Workers {
    fn drop(&mut self) {
        self.shared.queue.lock().unwrap_or_else(PoisonError::into_inner).is_over = true;
        self.shared.more.notify_all();
    }
}

fn work(shared: &Shared, album: &Album, eye: &Eye, tell: &Sender<Answer>) {
    while let Some(Wish { ask, known }) = next(shared) {
        let stamp = match &ask.subject {
            Subject::File(path) => album.stamp(path).ok(),
            Subject::Flat { .. } => None,
        };
        let shot = (known != Some(stamp) || stamp.is_none()).then(|| {
            // Should a library fail on what a file holds, that file is told and the others come.
            let made = panic::catch_unwind(AssertUnwindSafe(|| made(album, eye, &ask)));
            made.unwrap_or_else(|_| Shot::not("it cannot be read: the file is damaged"))
        });
        let mut queue = shared.queue.lock().unwrap_or_else(PoisonError::into_inner);
        // Told while nobody can ask: it is at work or answered, never neither.
        let told = tell.send(Answer { ask: ask.clone(), shot, stamp });
        queue.at_work.retain(|at| *at != ask);
        if told.is_err() {
            return;
        }
    }
}

fn next(shared: &Shared) -> Option<Wish> {
    let mut queue = shared.queue.lock().unwrap_or_else(PoisonError::into_inner);
    loop {
        if queue.is_over {
            return None;
        }
        if let Some(wish) = queue.waiting.pop() {
            queue.at_work.push(wish.ask.clone());
            return Some(wish);
        }
        queue = shared.more.wait(queue).unwrap_or_else(PoisonError::into_inner);
    }
}

fn made(album: &Album, eye: &Eye, ask: &Ask) -> Shot {
    let eye = &if ask.in_blocks { Eye { way: Way::Blocks, ..eye.clone() } } else { eye.clone() };
    let (wide, high) = eye.pixels(ask.size);
    match &ask.subject {
        Subject::File(path) => match album.small(path, (wide, high)) {
            Ok(pixels) => Shot::of(pixels, ask.size, eye),
            Err(unseen) => Shot::not(unseen.to_string()),
        },
        Subject::Flat { pieces, silhouette } => {
            let flat = Flat::of(pieces, silhouette);
            // A figure is narrow: more paper to its sides would tell nothing.
            let wide = wide.min(high * 4 / 5).max(1);
            match flat.and_then(|flat| flat.pixels(wide, high, Some(PAPER))) {
                Some(pixels) => Shot::of(pixels, ask.size, eye),
                None => Shot::thin(),
            }
        }
    }
}
