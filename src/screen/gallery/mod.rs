//! Pictures on the screen: asked for by a frame, made ready on threads, drawn by a later frame.
//!
//! A frame never waits. What it asks for and is not there yet is put before the threads when the frame is done, in the
//! place of all that earlier frames asked for, so that what is in sight comes first; until then whoever asked draws
//! what it has without. What is ready is kept as cells of the terminal, whatever protocol they speak, within a bound.

mod memory;
mod shot;
mod subject;
#[cfg(test)]
mod tests;
mod way;
mod workers;

use std::path::Path;
use std::sync::Arc;
use std::time::Instant;

use ratatui::buffer::Buffer;
use ratatui::layout::{Rect, Size};

use crate::album::Album;
use memory::Memory;
pub use shot::Shot;
pub use subject::Subject;
pub use way::{Eye, Way, typed_meanwhile};
use workers::{Answer, Ask, Wish, Workers};

/// What there is of a picture that was asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Seen {
    /// It stands in this part of the room that was given.
    There(Rect),
    /// It is being made ready.
    Coming,
    /// The record is too thin for a drawing.
    Thin,
    /// It cannot be shown, for this reason.
    Not(String),
    /// No pictures are shown.
    Off,
}

impl Seen {
    /// Where it stands, if it does.
    pub fn place(&self) -> Option<Rect> {
        if let Self::There(place) = self { Some(*place) } else { None }
    }
}

/// The pictures of the board on this terminal.
#[derive(Debug)]
pub struct Gallery {
    eye: Eye,
    is_on: bool,
    album: Arc<Album>,
    workers: Option<Workers>,
    memory: Memory,
    wanted: Vec<Wish>,
    placed: Vec<(Rect, Arc<Shot>)>,
    /// Whether something has become ready that no frame has drawn yet.
    has_news: bool,
}

impl Gallery {
    /// The pictures below a board's folder, shown as `eye` can.
    pub fn new(album: Album, eye: Eye) -> Self {
        Self {
            is_on: eye.way != Way::None,
            eye,
            album: Arc::new(album),
            workers: None,
            memory: Memory::default(),
            wanted: Vec::new(),
            placed: Vec::new(),
            has_news: false,
        }
    }

    /// No pictures at all.
    pub fn off(folder: &Path) -> Self {
        Self::new(Album::of(folder), Eye::shut())
    }

    /// Whether pictures are shown.
    pub fn is_on(&self) -> bool {
        self.is_on
    }

    /// Shows pictures, or shows none; says whether it could.
    pub fn turn(&mut self, on: bool) -> bool {
        self.is_on = on && self.eye.way != Way::None;
        self.is_on == on
    }

    /// The pictures' files.
    pub fn album(&self) -> &Arc<Album> {
        &self.album
    }

    /// Before a frame.
    pub fn begin(&mut self) {
        self.take_up();
        self.has_news = false;
        self.wanted.clear();
        self.placed.clear();
        self.memory.begin();
    }

    /// Takes up what has become ready.
    fn take_up(&mut self) {
        let Some(workers) = &self.workers else { return };
        let now = Instant::now();
        for Answer { ask, shot, stamp } in workers.answers() {
            self.wanted.retain(|wish| wish.ask != ask);
            match shot {
                Some(shot) => {
                    self.has_news = true;
                    self.memory.keep(ask, shot, stamp, now);
                }
                None => self.memory.confirm(&ask, now),
            }
        }
    }

    /// Whether a frame should be drawn: something has become ready since the last, or what that shows has not been looked
    /// at for a while and its file may be another by now.
    pub fn has_news(&mut self) -> bool {
        self.take_up();
        self.has_news || (self.wanted.is_empty() && self.is_on && self.memory.is_old_in_sight(Instant::now()))
    }

    /// Whether something that the last frame asked for is still being made ready.
    pub fn is_waiting(&self) -> bool {
        !self.wanted.is_empty() && self.workers.as_ref().is_some_and(Workers::are_there)
    }

    /// Another size of the terminal, in letters and in pixels: where its letters have another size, all is made anew.
    pub fn fit(&mut self, letters: (u16, u16), pixels: (u16, u16)) {
        let eye = Eye::new(self.eye.way, self.eye.depth, letters, pixels);
        if eye != self.eye {
            self.eye = eye;
            self.workers = None;
            self.forget();
        }
    }

    /// Draws a picture into `area`, in its middle and no larger than it fits, or says what there is of it.
    /// `in_blocks` has it made of half blocks whatever else the terminal can show.
    pub fn draw(&mut self, buffer: &mut Buffer, area: Rect, subject: &Subject, in_blocks: bool) -> Seen {
        let area = area.intersection(buffer.area);
        if !self.is_on || area.is_empty() {
            return Seen::Off;
        }
        let size = Size::new(area.width, area.height);
        let ask = Ask { subject: subject.clone(), size, in_blocks };
        let found = self.memory.get(&ask, Instant::now());
        match found.as_ref().map(|found| found.old) {
            None => self.wanted.push(Wish { ask, known: None }),
            Some(Some(stamp)) => self.wanted.push(Wish { ask, known: Some(stamp) }),
            Some(None) => {}
        }
        let Some(found) = found else { return Seen::Coming };
        match &found.shot.content {
            shot::Content::Thin => Seen::Thin,
            shot::Content::Not(why) => Seen::Not(why.clone()),
            shot::Content::Cells { size, .. } => {
                let x = area.x + (area.width - size.width.min(area.width)) / 2;
                let y = area.y + (area.height - size.height.min(area.height)) / 2;
                let place = Rect::new(x, y, size.width, size.height).intersection(area);
                if found.shot.is_text() {
                    found.shot.draw(buffer, place);
                } else {
                    self.placed.push((place, found.shot));
                }
                Seen::There(place)
            }
        }
    }

    /// Something now lies over this area: what the terminal itself would paint there must go.
    pub fn cover(&mut self, area: Rect) {
        self.placed.retain(|(place, _)| !place.intersects(area));
    }

    /// After a frame: hands what is missing to the threads, and puts into the frame what the terminal paints itself. It
    /// comes last, since it is no text and must not be cleaned as text is.
    pub fn end(&mut self, buffer: &mut Buffer) {
        for (place, shot) in &self.placed {
            shot.draw(buffer, *place);
        }
        // What has become ready while the frame was drawn need not be made again.
        self.take_up();
        let (memory, now) = (&self.memory, Instant::now());
        self.wanted.retain(|wish| !memory.has(&wish.ask, now));
        if self.wanted.is_empty() && self.workers.is_none() {
            return;
        }
        let workers =
            self.workers.get_or_insert_with(|| Workers::new(Arc::clone(&self.album), self.eye.clone()));
        workers.want(&self.wanted);
    }

    /// Forgets everything, to have it made anew: the terminal was cleared.
    pub fn forget(&mut self) {
        self.memory = Memory::default();
    }
}
