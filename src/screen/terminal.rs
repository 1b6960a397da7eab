//! The terminal: taken on entry, given back on every way out.
//!
//! Quit, error and panic go through [`Terminal::leave`] (also on drop); SIGTERM and SIGHUP end the loop, SIGTSTP and
//! `ctrl-z` give the terminal back until the program is continued.

use std::io::{self, Stdout, Write, stdout};
use std::sync::Once;

use crossterm::cursor::Show;
use crossterm::event::{DisableBracketedPaste, DisableMouseCapture, EnableBracketedPaste, EnableMouseCapture};
use crossterm::terminal::{EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode};
use ratatui::backend::CrosstermBackend;

/// The terminal while the program has it.
pub struct Terminal {
    /// What frames are drawn on.
    pub frames: ratatui::Terminal<CrosstermBackend<Stdout>>,
}

impl Terminal {
    /// Takes the terminal, and sees to it that a panic gives it back before it prints.
    ///
    /// # Errors
    /// When the terminal cannot be put into raw mode or written to.
    pub fn enter() -> io::Result<Self> {
        static HOOK: Once = Once::new();
        HOOK.call_once(|| {
            let print = std::panic::take_hook();
            let owner = std::thread::current().id();
            std::panic::set_hook(Box::new(move |panic| {
                // A panic elsewhere does not end the program, and its words would only smear the screen.
                if std::thread::current().id() == owner {
                    give_back();
                    print(panic);
                }
            }));
        });
        take()?;
        let frames = ratatui::Terminal::new(CrosstermBackend::new(stdout())).inspect_err(|_| give_back())?;
        Ok(Self { frames })
    }

    /// Gives the terminal back while `work` runs, then takes it again and draws anew.
    ///
    /// # Errors
    /// When the terminal cannot be taken again.
    pub fn away<T>(&mut self, work: impl FnOnce() -> T) -> io::Result<T> {
        give_back();
        let done = work();
        take()?;
        self.frames.clear()?;
        Ok(done)
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        give_back();
    }
}

fn take() -> io::Result<()> {
    enable_raw_mode()?;
    crossterm::execute!(stdout(), EnterAlternateScreen, EnableMouseCapture, EnableBracketedPaste)
        .inspect_err(|_| give_back())
}

/// Best effort: when the terminal is gone there is nobody to tell.
fn give_back() {
    let mut out = stdout();
    let _ = crossterm::execute!(out, DisableBracketedPaste, DisableMouseCapture, LeaveAlternateScreen, Show);
    let _ = disable_raw_mode();
    let _ = out.flush();
}

/// What the system has asked of the program since the last look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// To end: SIGTERM, SIGHUP, SIGINT from outside.
    End,
    /// To stop until continued: SIGTSTP from outside.
    Stop,
}

#[cfg(unix)]
pub use unix::{Signals, stop_here};

#[cfg(unix)]
mod unix {
    use std::io;
    use std::sync::Arc;
    use std::sync::atomic::{AtomicBool, Ordering};

    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM, SIGTSTP};
    use signal_hook::flag;

    use super::Asked;

    /// Signals that have come in; the loop asks between events.
    pub struct Signals {
        end: Arc<AtomicBool>,
        stop: Arc<AtomicBool>,
    }

    impl Signals {
        /// Begins to listen.
        ///
        /// # Errors
        /// When the system refuses.
        pub fn listen() -> io::Result<Self> {
            let (end, stop) = (Arc::new(AtomicBool::new(false)), Arc::new(AtomicBool::new(false)));
            for signal in [SIGTERM, SIGHUP, SIGINT] {
                flag::register(signal, Arc::clone(&end))?;
            }
            flag::register(SIGTSTP, Arc::clone(&stop))?;
            Ok(Self { end, stop })
        }

        /// What was asked since the last look.
        pub fn asked(&self) -> Option<Asked> {
            if self.end.load(Ordering::Relaxed) {
                return Some(Asked::End);
            }
            self.stop.swap(false, Ordering::Relaxed).then_some(Asked::Stop)
        }
    }

    /// Stops the whole job, as the shell expects of `ctrl-z`; returns when it is continued.
    pub fn stop_here() {
        let _ = rustix::process::kill_current_process_group(rustix::process::Signal::STOP);
    }
}

#[cfg(not(unix))]
pub use elsewhere::{Signals, stop_here};

#[cfg(not(unix))]
mod elsewhere {
    use super::Asked;

    /// Systems without signals ask nothing.
    pub struct Signals;

    impl Signals {
        /// Begins to listen.
        ///
        /// # Errors
        /// Never.
        pub fn listen() -> std::io::Result<Self> {
            Ok(Self)
        }

        /// What was asked since the last look: nothing.
        pub fn asked(&self) -> Option<Asked> {
            None
        }
    }

    /// Nothing to do: there is no job control.
    pub fn stop_here() {}
}
