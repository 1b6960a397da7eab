//! The terminal: taken on entry, given back on every way out.
//!
//! Quit and error drop [`Terminal`], which gives it back, and a hook does so before a panic prints; SIGTERM and SIGHUP
//! end the loop; SIGTSTP and `ctrl-z` give the terminal back until the program is continued. While somebody else has
//! the terminal, their stopping is ours, too: a shell waits until its whole job has stopped.

use std::io::{self, Write, stdout};
use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};

use crossterm::cursor::Show;
use crossterm::event::{
    DisableBracketedPaste, DisableMouseCapture, EnableBracketedPaste, EnableMouseCapture,
};
use crossterm::terminal::{
    Clear, ClearType, EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use ratatui::backend::CrosstermBackend;

use super::outlet::Outlet;
use super::theme::Depth;

/// Whether somebody else has the terminal for now. Their `ctrl-c` is theirs, though the system sends it to us, too.
static AWAY: AtomicBool = AtomicBool::new(false);

/// Whether the program is asked to stop until it is continued.
static STOP: AtomicBool = AtomicBool::new(false);

/// The terminal while the program has it.
pub struct Terminal {
    /// What frames are drawn on.
    pub frames: Frames,
}

type Frames = ratatui::Terminal<CrosstermBackend<Outlet>>;

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
        let frames = frames().inspect_err(|_| give_back())?;
        Ok(Self { frames })
    }

    /// Gives the terminal back while `work` runs, then takes it again and draws anew.
    ///
    /// # Errors
    /// When the terminal cannot be taken again.
    pub fn away<T>(&mut self, work: impl FnOnce() -> T) -> io::Result<T> {
        give_back();
        AWAY.store(true, Ordering::Relaxed);
        let done = work();
        AWAY.store(false, Ordering::Relaxed);
        // Whoever had the terminal stopped, or did not; it is not for us to do it again.
        STOP.store(false, Ordering::Relaxed);
        take()?;
        self.redraw()?;
        Ok(done)
    }

    /// Forgets what was drawn, so that the next frame draws every cell. (The library's own way asks the terminal
    /// where its cursor is, and a terminal need not answer.)
    ///
    /// # Errors
    /// When the terminal cannot be written to.
    pub fn redraw(&mut self) -> io::Result<()> {
        crossterm::execute!(stdout(), Clear(ClearType::All))?;
        self.frames = frames()?;
        Ok(())
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        give_back();
    }
}

fn frames() -> io::Result<Frames> {
    let depth = Depth::of_environment(|name| std::env::var(name).ok());
    // The library reads `NO_COLOR` too; what the user set for this program alone goes before it.
    crossterm::style::force_color_output(depth != Depth::None);
    ratatui::Terminal::new(CrosstermBackend::new(Outlet::new(depth == Depth::Sixteen)))
}

fn take() -> io::Result<()> {
    enable_raw_mode()?;
    crossterm::execute!(stdout(), EnterAlternateScreen, EnableMouseCapture, EnableBracketedPaste)
        .inspect_err(|_| give_back())
}

/// Best effort: when the terminal is gone there is nobody to tell.
fn give_back() {
    let _ = write_farewell(&mut stdout());
    let _ = disable_raw_mode();
}

/// Writes what puts the terminal's own screen back.
fn write_farewell(out: &mut impl Write) -> io::Result<()> {
    crossterm::execute!(out, DisableBracketedPaste, DisableMouseCapture, LeaveAlternateScreen, Show)
}

/// What the system has asked of the program since the last look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// To end: SIGTERM, SIGHUP, SIGINT from outside.
    End,
    /// To stop until continued: SIGTSTP from outside.
    Stop,
}

/// What waiting for a key came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Waited {
    /// There may be an event to read.
    Ready,
    /// Nothing came.
    Nothing,
    /// The terminal is gone; whoever reads on would read its end for ever.
    Gone,
}

#[cfg(unix)]
pub use unix::{Signals, identity, stop_here, wait};

#[cfg(unix)]
mod unix {
    use std::fs::File;
    use std::io::{self, IsTerminal, Write as _};
    use std::sync::Arc;
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::thread;
    use std::time::{Duration, Instant};

    use crossterm::terminal::disable_raw_mode;
    use rustix::event::{PollFd, PollFlags, Timespec, poll};
    use rustix::fs::{Mode, OFlags, open};
    use rustix::io::Errno;
    use rustix::process::{Signal, getpid, kill_current_process_group, kill_process};
    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM, SIGTSTP};
    use signal_hook::iterator;

    use super::{AWAY, Asked, STOP, Waited, write_farewell};

    /// How long the loop has to end by itself when it is asked to.
    const GRACE: Duration = Duration::from_secs(2);

    /// Signals that have come in; the loop asks between events.
    pub struct Signals {
        end: Arc<AtomicBool>,
    }

    impl Signals {
        /// Begins to listen. Should the loop not end in time when it is asked to (it may be held up in a write to a
        /// terminal that takes nothing), the terminal is given back and the program ends all the same: every edit
        /// that was shown done is on disk.
        ///
        /// # Errors
        /// When the system refuses.
        pub fn listen() -> io::Result<Self> {
            let end = Arc::new(AtomicBool::new(false));
            let mut incoming = iterator::Signals::new([SIGTERM, SIGHUP, SIGINT, SIGTSTP])?;
            let ending = Arc::clone(&end);
            thread::Builder::new().name("signals".to_owned()).spawn(move || {
                for signal in incoming.forever() {
                    match (signal, AWAY.load(Ordering::Relaxed)) {
                        (SIGTSTP, false) => STOP.store(true, Ordering::Relaxed),
                        // Theirs stops by itself; the loop, which waits for them, cannot.
                        (SIGTSTP, true) => {
                            let _ = kill_process(getpid(), Signal::STOP);
                        }
                        (SIGINT, true) => {}
                        _ => {
                            ending.store(true, Ordering::Relaxed);
                            end_after_grace(signal);
                        }
                    }
                }
            })?;
            Ok(Self { end })
        }

        /// What was asked since the last look.
        pub fn asked(&self) -> Option<Asked> {
            if self.end.load(Ordering::Relaxed) {
                return Some(Asked::End);
            }
            STOP.swap(false, Ordering::Relaxed).then_some(Asked::Stop)
        }
    }

    /// Ends the program, unless it ends by itself in time.
    fn end_after_grace(signal: i32) -> ! {
        thread::sleep(GRACE);
        let _ = disable_raw_mode();
        // The loop may hold the standard output for as long as it is held up, so this goes by a way of its own that
        // never waits. A terminal that takes nothing will not take this either.
        let flags = OFlags::WRONLY | OFlags::NONBLOCK | OFlags::NOCTTY;
        if let Ok(tty) = open("/dev/tty", flags, Mode::empty()) {
            let _ = write_farewell(&mut File::from(tty));
        }
        // As shells tell it: ended by this signal.
        std::process::exit(128 + signal)
    }

    /// Waits for a key or a change of size. The event library reads on for ever when the terminal is gone, so it is
    /// only asked when there is something.
    ///
    /// # Errors
    /// When the terminal cannot be waited for.
    pub fn wait(patience: Duration) -> io::Result<Waited> {
        let stdin = io::stdin();
        let mut fds = [PollFd::new(&stdin, PollFlags::IN)];
        let patience = Timespec { tv_sec: 0, tv_nsec: i64::from(patience.subsec_nanos()) };
        match poll(&mut fds, Some(&patience)) {
            Ok(0) => Ok(Waited::Nothing),
            // A terminal that is gone has its end to read, and says so beside.
            Ok(_) if fds[0].revents().intersects(PollFlags::HUP | PollFlags::ERR | PollFlags::NVAL) => {
                Ok(Waited::Gone)
            }
            Ok(_) => Ok(Waited::Ready),
            // A signal came; a change of size is one.
            Err(Errno::INTR) => Ok(Waited::Ready),
            Err(error) => Err(error.into()),
        }
    }

    /// How long a terminal has to say what it is; one at the other end of a slow line is taken for a plain one.
    const ANSWER: Duration = Duration::from_millis(200);

    /// What the terminal answers when it is asked what it is (DA1), and whatever else came meanwhile; nothing where it
    /// does not answer. An answer that comes too late is taken for no key by the event library.
    pub fn identity() -> Vec<u8> {
        let mut answer = Vec::new();
        let mut out = io::stdout();
        // What comes from a file or a pipe is no terminal's answer.
        if !io::stdin().is_terminal() || out.write_all(b"\x1b[c").and_then(|()| out.flush()).is_err() {
            return answer;
        }
        let began = Instant::now();
        let stdin = io::stdin();
        let is_whole =
            |answer: &[u8]| answer.ends_with(b"c") && answer.windows(3).any(|three| three == b"\x1b[?");
        while let Some(left) = ANSWER.checked_sub(began.elapsed()) {
            let mut fds = [PollFd::new(&stdin, PollFlags::IN)];
            let patience = Timespec { tv_sec: 0, tv_nsec: i64::from(left.subsec_nanos()) };
            let mut bytes = [0; 64];
            let count = match poll(&mut fds, Some(&patience)) {
                Ok(ready) if ready > 0 => rustix::io::read(&stdin, &mut bytes).unwrap_or(0),
                // A signal came, such as a change of size; the answer may still.
                Err(Errno::INTR) => continue,
                _ => 0,
            };
            answer.extend_from_slice(&bytes[..count]);
            if count == 0 || is_whole(&answer) || answer.len() > 1_000 {
                break;
            }
        }
        answer
    }

    /// Stops the whole job, as the shell expects of `ctrl-z`; returns when it is continued.
    pub fn stop_here() {
        // Without job control there is nothing to stop, and the screen comes back at once.
        let _ = kill_current_process_group(Signal::STOP);
    }
}

#[cfg(not(unix))]
pub use elsewhere::{Signals, identity, stop_here, wait};

#[cfg(not(unix))]
mod elsewhere {
    use std::io;
    use std::time::Duration;

    use super::{Asked, Waited};

    /// Systems without signals ask nothing.
    pub struct Signals;

    impl Signals {
        /// Begins to listen.
        ///
        /// # Errors
        /// Never.
        pub fn listen() -> io::Result<Self> {
            Ok(Self)
        }

        /// What was asked since the last look: nothing.
        pub fn asked(&self) -> Option<Asked> {
            None
        }
    }

    /// Waits for a key or a change of size.
    ///
    /// # Errors
    /// When the terminal cannot be waited for.
    pub fn wait(patience: Duration) -> io::Result<Waited> {
        Ok(if crossterm::event::poll(patience)? { Waited::Ready } else { Waited::Nothing })
    }

    /// Nothing: there is no way to ask without waiting for it.
    pub fn identity() -> Vec<u8> {
        Vec::new()
    }

    /// Nothing to do: there is no job control.
    pub fn stop_here() {}
}
