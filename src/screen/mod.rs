//! The full-screen board.
//!
//! State and action give the next state ([`app`]); state gives a frame ([`frame`]). What a user can do is one table
//! ([`actions`]) behind keys, footer, help, palette and the printed key list. Over a view lies a stack of
//! [`layers`]. Only [`terminal`] touches the terminal, and it gives it back on every way out.

pub mod actions;
pub mod app;
mod bringing;
pub mod canvas;
mod clash;
mod dates;
mod deeds;
mod errand;
pub mod frame;
pub mod gallery;
mod general;
pub mod keys;
pub mod layers;
mod limit;
mod measure;
mod outlet;
pub mod parts;
mod plates;
mod problems;
mod reckoning;
mod setting;
mod sheet;
mod suggest;
pub mod terminal;
pub mod theme;
mod travel;
#[cfg(test)]
mod trial;
mod viewer;
pub mod views;
mod wearable;

use std::io;
use std::sync::mpsc;
use std::time::Duration;

use crossterm::event::{self, Event, KeyCode, KeyEvent, KeyModifiers};

use crate::album::Album;
use crate::store::{OpenBoard, Watcher};
use app::App;
use gallery::{Eye, Gallery, Way};
use terminal::{Asked, Signals, Terminal, Waited};
use theme::{Depth, Theme};

/// Why the screen could not go on.
#[derive(Debug, thiserror::Error)]
pub enum ScreenError {
    /// The terminal would not do what it must.
    #[error("the terminal cannot be used: {0}")]
    Terminal(#[from] io::Error),
}

/// How long the loop waits for a key before it looks for signals and for changes from outside.
const PATIENCE: Duration = Duration::from_millis(100);

/// How long it waits while pictures are being made ready.
const EAGER: Duration = Duration::from_millis(10);

/// How often the folder is looked at for changes from outside.
const WATCH: Duration = Duration::from_millis(400);

/// Runs the board until the user leaves.
///
/// # Errors
/// When the terminal cannot be used; everything that was shown done is in the folder all the same.
pub fn run(open: OpenBoard) -> Result<(), ScreenError> {
    let signals = Signals::listen()?;
    let theme = Theme::new(Depth::of_environment(|name| std::env::var(name).ok()));
    let (changed, outside) = mpsc::channel();
    let _watcher = Watcher::spawn(&open, WATCH, move || {
        // The loop may be gone already; then nobody needs to know.
        let _ = changed.send(());
    });
    let mut app = App::new(open, theme);
    let variable = |name: &str| std::env::var(name).ok();
    if let Some(wrong) = Depth::misnamed(variable).or_else(|| Way::misnamed(variable)) {
        app.warn(wrong);
    }
    let done = until_left(&mut app, &signals, &outside);
    app.walk.leave(&app.open);
    done
}

/// The board's pictures, with small copies in the user's own cache.
fn album(app: &App) -> Album {
    Album::of(app.open.folder()).keeping_copies(app.open.cache().join("pictures"))
}

/// How large the terminal is, in letters and in pixels, which not every terminal tells.
fn size() -> ((u16, u16), (u16, u16)) {
    let size = crossterm::terminal::window_size();
    size.map_or(((1, 1), (0, 0)), |size| ((size.columns, size.rows), (size.width, size.height)))
}

/// Draws and takes events until the user leaves, is made to, or the terminal is gone.
fn until_left(app: &mut App, signals: &Signals, outside: &mpsc::Receiver<()>) -> Result<(), ScreenError> {
    let mut terminal = Terminal::enter()?;
    let depth = app.theme.depth();
    let known = Way::of_environment(depth, |name| std::env::var(name).ok());
    let answer = if known.is_none() { terminal::identity() } else { Vec::new() };
    let (letters, pixels) = size();
    let way = known.unwrap_or_else(|| Way::of_answer(&answer));
    app.gallery = Gallery::new(album(app), Eye::new(way, depth, letters, pixels));
    for letter in gallery::typed_meanwhile(&answer) {
        let code = if letter == '\r' { KeyCode::Enter } else { KeyCode::Char(letter) };
        app.event(&Event::Key(KeyEvent::new(code, KeyModifiers::NONE)));
    }
    let mut unread = false;
    while !app.left {
        let (letters, pixels) = size();
        app.gallery.fit(letters, pixels);
        terminal.frames.draw(|frame| frame::draw(app, frame))?;
        let mut idle = true;
        while idle && !app.left {
            match signals.asked() {
                Some(Asked::End) => return Ok(()),
                Some(Asked::Stop) => app.errand = Some(app::Errand::Suspend),
                None => {}
            }
            if let Some(errand) = app.errand.take() {
                errand::run(app, &mut terminal, errand)?;
                idle = false;
            }
            if app.has_news() {
                idle = false;
            }
            if outside.try_iter().count() > 0 {
                app.take_in_outside();
                idle = false;
            }
            if !idle {
                continue;
            }
            let waited = if unread {
                Waited::Ready
            } else {
                terminal::wait(if app.gallery.is_waiting() { EAGER } else { PATIENCE })?
            };
            match waited {
                Waited::Gone => return Ok(()),
                Waited::Nothing => {}
                Waited::Ready => {
                    unread = read_events(app)?;
                    idle = false;
                }
            }
        }
    }
    Ok(())
}

/// Takes every event that is there, so that keys that came in together are drawn together. Says whether it stopped
/// before the last for an errand.
fn read_events(app: &mut App) -> io::Result<bool> {
    while event::poll(Duration::ZERO)? {
        app.event(&event::read()?);
        if app.errand.is_some() || app.left {
            return Ok(true);
        }
    }
    Ok(false)
}
