//! The program in a pseudo-terminal, and a terminal that reads what it draws.

use std::io::{Read, Write};
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use shirr::store::Places;

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

/// How long a screen may take to come; a guard against hanging, not a claim about speed.
const PATIENCE: Duration = Duration::from_secs(60);

/// A user with a home of their own.
pub struct User {
    home: tempfile::TempDir,
}

impl User {
    pub fn new() -> Self {
        Self { home: tempfile::tempdir().unwrap() }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.home.path().join(name)
    }

    /// A copy of the demo board.
    pub fn demo(&self, name: &str) -> PathBuf {
        let to = self.path(name);
        copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board"), &to);
        to
    }

    /// Where the program keeps what is this user's alone.
    pub fn places(&self) -> Places {
        let below = |name: &str| self.path(name).join("shirr");
        Places { state: below("state"), data: below("data"), config: below("config"), cache: below("cache") }
    }

    fn command(&self, arguments: &[&str]) -> CommandBuilder {
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_shirr"));
        command.args(arguments);
        command.env_clear();
        command.env("HOME", self.home.path());
        for (variable, name) in [
            ("XDG_STATE_HOME", "state"),
            ("XDG_DATA_HOME", "data"),
            ("XDG_CONFIG_HOME", "config"),
            ("XDG_CACHE_HOME", "cache"),
        ] {
            command.env(variable, self.path(name));
        }
        command.env("TERM", "xterm-256color");
        command.env("PATH", std::env::var_os("PATH").unwrap_or_default());
        command.env("EDITOR", "true");
        command.cwd(self.home.path());
        command
    }

    /// Runs the program on a screen of this size.
    pub fn run(&self, arguments: &[&str], (columns, rows): (u16, u16)) -> Program {
        Program::start(self.command(arguments), columns, rows)
    }

    /// The same, with one more variable.
    pub fn run_with(&self, arguments: &[&str], size: (u16, u16), variable: (&str, &str)) -> Program {
        let mut command = self.command(arguments);
        command.env(variable.0, variable.1);
        Program::start(command, size.0, size.1)
    }
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).unwrap();
        }
    }
}

/// The running program and its screen.
pub struct Program {
    child: Box<dyn Child + Send + Sync>,
    master: Box<dyn MasterPty + Send>,
    keys: Box<dyn Write + Send>,
    seen: Arc<Mutex<Seen>>,
}

struct Seen {
    screen: vt100::Parser,
    raw: Vec<u8>,
    ended: bool,
}

impl Program {
    fn start(command: CommandBuilder, columns: u16, rows: u16) -> Self {
        let size = PtySize { rows, cols: columns, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).unwrap();
        let child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let mut output = pair.master.try_clone_reader().unwrap();
        let keys = pair.master.take_writer().unwrap();
        let screen = vt100::Parser::new(cells(rows), cells(columns), 0);
        let seen = Arc::new(Mutex::new(Seen { screen, raw: Vec::new(), ended: false }));
        let shared = Arc::clone(&seen);
        thread::spawn(move || {
            let mut bytes = [0; 8192];
            while let Ok(count @ 1..) = output.read(&mut bytes) {
                let mut seen = shared.lock().unwrap();
                seen.raw.extend_from_slice(&bytes[..count]);
                seen.screen.process(&bytes[..count]);
            }
            shared.lock().unwrap().ended = true;
        });
        Self { child, master: pair.master, keys, seen }
    }

    /// What the screen shows now.
    pub fn screen(&self) -> String {
        self.seen.lock().unwrap().screen.screen().contents()
    }

    /// Everything that was written to the terminal.
    pub fn raw(&self) -> Vec<u8> {
        self.seen.lock().unwrap().raw.clone()
    }

    /// Whether the terminal shows its own lines again: no alternate screen, cursor seen, no mouse reports.
    pub fn gave_back(&self) -> bool {
        let seen = self.seen.lock().unwrap();
        let screen = seen.screen.screen();
        !screen.alternate_screen()
            && !screen.hide_cursor()
            && screen.mouse_protocol_mode() == vt100::MouseProtocolMode::None
            && !screen.bracketed_paste()
    }

    /// Types.
    pub fn keys(&mut self, keys: &str) {
        self.keys.write_all(keys.as_bytes()).unwrap();
        self.keys.flush().unwrap();
    }

    /// Waits until the screen is as wished, and returns it.
    pub fn until(&self, what: &str, wished: impl Fn(&str) -> bool) -> String {
        let start = Instant::now();
        loop {
            let screen = self.screen();
            if wished(&screen) {
                return screen;
            }
            assert!(start.elapsed() < PATIENCE, "never came: {what}\n{screen}");
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// Waits until the screen shows a text.
    pub fn shows(&self, text: &str) -> String {
        self.until(text, |screen| screen.contains(text))
    }

    /// Types, and waits until the screen shows a text.
    pub fn types(&mut self, keys: &str, text: &str) -> String {
        self.keys(keys);
        self.shows(text)
    }

    pub fn resize(&self, columns: u16, rows: u16) {
        self.seen.lock().unwrap().screen.screen_mut().set_size(cells(rows), cells(columns));
        self.master.resize(PtySize { rows, cols: columns, pixel_width: 0, pixel_height: 0 }).unwrap();
    }

    pub fn id(&self) -> u32 {
        self.child.process_id().unwrap()
    }

    /// Sends a signal.
    pub fn signal(&self, signal: rustix::process::Signal) {
        let id = rustix::process::Pid::from_raw(i32::try_from(self.id()).unwrap()).unwrap();
        rustix::process::kill_process(id, signal).unwrap();
    }

    /// Waits for the end, and returns the exit code.
    pub fn ends(&mut self) -> u32 {
        let start = Instant::now();
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                // What was written last must have been read, too.
                while !self.seen.lock().unwrap().ended && start.elapsed() < PATIENCE {
                    thread::sleep(Duration::from_millis(5));
                }
                return status.exit_code();
            }
            assert!(start.elapsed() < PATIENCE, "never ended\n{}", self.screen());
            thread::sleep(Duration::from_millis(5));
        }
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        let _ = self.child.kill();
    }
}

fn cells(count: u16) -> NonZero<u16> {
    NonZero::new(count).unwrap()
}
