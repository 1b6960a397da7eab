//! The program in a pseudo-terminal, and a terminal that reads what it draws.

use std::collections::BTreeMap;
use std::io::{Read, Write};
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use shirr::board::Records;
use shirr::store::{Places, read};

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

    /// A board of these files, by name.
    pub fn board(&self, name: &str, files: &[(&str, &str)]) -> PathBuf {
        let folder = self.path(name);
        for (file, text) in files {
            let file = folder.join(file);
            std::fs::create_dir_all(file.parent().unwrap()).unwrap();
            std::fs::write(file, text).unwrap();
        }
        folder
    }

    /// A program of the user's own: a shell script.
    pub fn script(&self, name: &str, lines: &str) -> String {
        use std::os::unix::fs::PermissionsExt;
        let path = self.path(name);
        std::fs::write(&path, format!("#!/bin/sh\n{lines}\n")).unwrap();
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o755)).unwrap();
        path.to_str().unwrap().to_owned()
    }

    /// Where the program keeps what is this user's alone.
    pub fn places(&self) -> Places {
        let below = |name: &str| self.path(name).join("shirr");
        Places { state: below("state"), data: below("data"), cache: below("cache") }
    }

    fn command(&self, arguments: &[&str]) -> CommandBuilder {
        self.command_of(env!("CARGO_BIN_EXE_shirr"), arguments)
    }

    fn command_of(&self, program: &str, arguments: &[&str]) -> CommandBuilder {
        let mut command = CommandBuilder::new(program);
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
        self.run_with_all(arguments, size, &[variable])
    }

    /// The same, with more variables.
    pub fn run_with_all(
        &self,
        arguments: &[&str],
        (columns, rows): (u16, u16),
        variables: &[(&str, &str)],
    ) -> Program {
        let mut command = self.command(arguments);
        for (name, value) in variables {
            command.env(name, value);
        }
        Program::start(command, columns, rows)
    }

    /// Runs one of these tests by itself in a terminal of its own, with a variable that tells it so.
    pub fn run_test(&self, test: &str, variable: (&str, &str)) -> Program {
        let own = std::env::current_exe().unwrap();
        let mut command = self.command_of(own.to_str().unwrap(), &["--exact", test, "--nocapture"]);
        command.env(variable.0, variable.1);
        Program::start(command, 100, 30)
    }
}

/// Every file below a folder, with its bytes.
pub fn files(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut found = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path));
        } else {
            found.insert(path.clone(), std::fs::read(&path).unwrap());
        }
    }
    found
}

/// What a board's folder says, of which every file must read.
pub fn records(folder: &Path) -> Records {
    let reading = read(folder).unwrap();
    assert_eq!(reading.faults, []);
    reading.board.records().clone()
}

/// Waits until something outside of the screen is so.
pub fn wait_until(what: &str, is_so: impl Fn() -> bool) {
    let start = Instant::now();
    while !is_so() {
        assert!(start.elapsed() < PATIENCE, "never came: {what}");
        thread::sleep(Duration::from_millis(5));
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

    /// What the screen shows now, without the blanks at the ends of its lines.
    pub fn screen(&self) -> String {
        let screen = self.seen.lock().unwrap().screen.screen().contents();
        screen.lines().map(str::trim_end).collect::<Vec<_>>().join("\n")
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

    /// The row with the looks used and their limits.
    pub fn counter(&self) -> String {
        self.screen().lines().nth(1).unwrap_or_default().to_owned()
    }

    /// Waits until the counter shows these numbers.
    pub fn counts(&self, numbers: &[&str]) -> String {
        let wished = |counter: &str| numbers.iter().all(|number| counter.contains(number));
        self.until(&numbers.join(" "), |screen| wished(screen.lines().nth(1).unwrap_or_default()))
    }

    /// The letter in a cell; columns and rows from 0.
    pub fn cell(&self, (column, row): (u16, u16)) -> String {
        let seen = self.seen.lock().unwrap();
        seen.screen.screen().cell(row, column).map_or(String::new(), |cell| cell.contents().to_owned())
    }

    /// Waits until a text is there from row `from` on, and returns the cell in which it begins.
    pub fn place(&self, text: &str, from: usize) -> (u16, u16) {
        let place = |screen: &str| {
            screen.lines().enumerate().skip(from).find_map(|(row, line)| {
                // The screens of these tests hold letters of one cell each.
                let column = line[..line.find(text)?].chars().count();
                Some((u16::try_from(column).unwrap(), u16::try_from(row).unwrap()))
            })
        };
        let screen = self.until(text, |screen| place(screen).is_some());
        place(&screen).unwrap()
    }

    /// Presses and lets go a mouse button (0 left, 2 right; 64 and 65 are the wheel) in a cell.
    pub fn clicks(&mut self, button: u8, (column, row): (u16, u16)) {
        let place = format!("{};{}", column + 1, row + 1);
        self.keys(&format!("\u{1b}[<{button};{place}M"));
        if button < 64 {
            self.keys(&format!("\u{1b}[<{button};{place}m"));
        }
    }

    /// Waits until something lies over the view, footer and all, which is drawn last.
    pub fn covered(&self) -> String {
        self.until("a layer's footer", |screen| !has_own_footer(screen))
    }

    /// Presses escape, and waits until what lay over the view is gone. (What comes at once after an escape is read
    /// with it as one key, as of every terminal.)
    pub fn escapes(&mut self) {
        self.covered();
        self.keys("\u{1b}");
        self.until("the view's own footer", has_own_footer);
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

    /// Does something while nobody reads what is written to the terminal.
    pub fn unread(&mut self, work: impl FnOnce(&mut Self)) {
        let seen = Arc::clone(&self.seen);
        let _unread = seen.lock().unwrap();
        work(self);
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

/// Whether a view's own footer is there, which ends in help.
fn has_own_footer(screen: &str) -> bool {
    screen.lines().last().unwrap_or_default().ends_with("? help")
}
