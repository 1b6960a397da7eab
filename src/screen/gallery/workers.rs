//! Threads that make pictures ready: newest request first, and only what the last frame asked for.

use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::thread;

use ratatui::layout::Size;

use super::shot::{PAPER, Shot};
use super::subject::Subject;
use super::way::{Eye, Way};
use crate::album::Album;
use crate::picture::flat::Flat;

/// A picture of something in at most so many cells.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(super) struct Ask {
    pub subject: Subject,
    pub size: Size,
    /// Whether it is made of half blocks, whatever else the terminal can show.
    pub in_blocks: bool,
}

/// What came of it.
#[derive(Debug)]
pub(super) struct Answer {
    pub ask: Ask,
    pub shot: Shot,
}

/// What waits, and what is at work.
#[derive(Debug, Default)]
struct Queue {
    waiting: Vec<Ask>,
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
}

/// The most threads: one frame's pictures are few, and a disk serves few at once.
const MOST: usize = 4;

impl Workers {
    /// Threads that read from this album for this terminal.
    pub fn new(album: Arc<Album>, eye: Eye) -> Self {
        let shared = Arc::new(Shared::default());
        let (tell, done) = channel();
        let count = thread::available_parallelism().map_or(1, usize::from).clamp(1, MOST);
        for _ in 0..count {
            let (shared, album, eye, tell) =
                (Arc::clone(&shared), Arc::clone(&album), eye.clone(), tell.clone());
            // Where the system gives no thread, pictures stay away; everything else works.
            let _ = thread::Builder::new()
                .name("pictures".to_owned())
                .spawn(move || work(&shared, &album, &eye, &tell));
        }
        Self { shared, done }
    }

    /// What is wanted now, the most wanted first, in the place of whatever was.
    pub fn want(&self, asks: &[Ask]) {
        let mut queue = self.shared.queue.lock().unwrap_or_else(PoisonError::into_inner);
        // Taken from the end.
        let missing: Vec<Ask> =
            asks.iter().rev().filter(|ask| !queue.at_work.contains(ask)).cloned().collect();
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
    while let Some(ask) = next(shared) {
        let shot = made(album, eye, &ask);
        let mut queue = shared.queue.lock().unwrap_or_else(PoisonError::into_inner);
        // Told while nobody can ask: it is at work or answered, never neither.
        let told = tell.send(Answer { ask: ask.clone(), shot });
        queue.at_work.retain(|at| *at != ask);
        if told.is_err() {
            return;
        }
    }
}

fn next(shared: &Shared) -> Option<Ask> {
    let mut queue = shared.queue.lock().unwrap_or_else(PoisonError::into_inner);
    loop {
        if queue.is_over {
            return None;
        }
        if let Some(ask) = queue.waiting.pop() {
            queue.at_work.push(ask.clone());
            return Some(ask);
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
