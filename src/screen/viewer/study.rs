//! A picture's pixels and its main colours, read on a thread.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;

use crate::album::Album;
use crate::board::PicturePath;
use crate::picture::{Pixels, photo};
use crate::screen::gallery::Subject;

/// The longest side of what is looked at: enough for the colour of a braid.
const SIDE: u32 = 1280;

/// What was found out about a picture, or will be.
#[derive(Debug)]
pub(super) struct Study {
    path: PicturePath,
    coming: Receiver<Result<Known, String>>,
    known: Option<Result<Known, String>>,
}

#[derive(Debug)]
struct Known {
    pixels: Pixels,
    proposals: Vec<[u8; 3]>,
}

impl Study {
    /// Begins to read a picture.
    pub fn of(album: &Arc<Album>, path: PicturePath) -> Self {
        let (tell, coming) = channel();
        let (album, read) = (Arc::clone(album), path.clone());
        let study = move || {
            // From the file itself: a small copy has colours of its own.
            let known =
                album.pixels(&read, (SIDE, SIDE)).map_err(|unseen| unseen.to_string()).map(|pixels| {
                    let proposals =
                        photo::main_colours(&pixels).iter().map(|proposal| proposal.rgb).collect();
                    Known { pixels, proposals }
                });
            // Whoever asked may have gone on.
            let _ = tell.send(known);
        };
        // Where the system gives no thread, the channel closes, and that is told.
        let _ = thread::Builder::new().name("study".to_owned()).spawn(study);
        Self { path, coming, known: None }
    }

    /// Whether it is of what is shown.
    pub fn is_of(&self, subject: &Subject) -> bool {
        *subject == Subject::File(self.path.clone())
    }

    /// Whether it has come since the last time.
    pub fn has_news(&mut self) -> bool {
        if self.known.is_some() {
            return false;
        }
        match self.coming.try_recv() {
            Ok(known) => self.known = Some(known),
            Err(TryRecvError::Empty) => return false,
            Err(TryRecvError::Disconnected) => {
                self.known = Some(Err("the picture could not be read".to_owned()))
            }
        }
        true
    }

    /// Whether it is still being read.
    pub fn is_waiting(&self) -> bool {
        self.known.is_none()
    }

    /// Why nothing is known.
    pub fn failed(&self) -> Option<&str> {
        self.known.as_ref()?.as_ref().err().map(String::as_str)
    }

    /// Its main colours, the largest first.
    pub fn proposals(&self) -> &[[u8; 3]] {
        match &self.known {
            Some(Ok(known)) => &known.proposals,
            _ => &[],
        }
    }

    /// The mean colour of what one cell shows, of a picture that is shown in so many.
    pub fn colour(&self, cell: (u16, u16), cells: (u16, u16)) -> Option<[u8; 3]> {
        let pixels = &self.known.as_ref()?.as_ref().ok()?.pixels;
        let span = |at: u16, of: u16, length: u32| {
            let of = u32::from(of.max(1));
            let start = u32::from(at) * length / of;
            let end = ((u32::from(at) + 1) * length).div_ceil(of).max(start + 1);
            // The middle of the cell: its edges belong to its neighbours as well.
            let trim = (end - start) / 4;
            start + trim..end - trim
        };
        let mut sums = [0_u64; 3];
        let mut count = 0;
        for y in span(cell.1, cells.1, pixels.height) {
            for x in span(cell.0, cells.0, pixels.width) {
                // Where it is clear, the paper is seen, which is no colour of the picture.
                let Some(rgb) = pixels.at(x, y).filter(|_| pixels.is_opaque(x, y)) else { continue };
                for (sum, part) in sums.iter_mut().zip(rgb) {
                    *sum += u64::from(part);
                }
                count += 1;
            }
        }
        (count > 0).then(|| sums.map(|sum| u8::try_from((sum + count / 2) / count).unwrap_or(u8::MAX)))
    }
}
