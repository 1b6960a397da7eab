//! The one way out to the terminal: what is printed here can steer no terminal, and a reader that goes away ends the
//! printing quietly.

use std::io::{self, BufWriter, Write};

use super::failure::Failure;
use crate::trade::plain;

/// Standard output and standard error.
pub(super) struct Console {
    out: Printer,
    err: Printer,
}

struct Printer {
    to: Box<dyn Write>,
    closed: bool,
}

impl Console {
    /// Those of this process.
    pub fn of_process() -> Self {
        Self::new(BufWriter::new(io::stdout()), io::stderr())
    }

    fn new(out: impl Write + 'static, err: impl Write + 'static) -> Self {
        let printer = |to| Printer { to, closed: false };
        Self { out: printer(Box::new(out)), err: printer(Box::new(err)) }
    }

    /// Prints text as it is, less what would steer a terminal.
    pub fn print(&mut self, text: &str) -> Result<(), Failure> {
        self.out.print(text).map_err(unwritten)
    }

    /// Prints a line.
    pub fn line(&mut self, text: &str) -> Result<(), Failure> {
        self.print(&format!("{text}\n"))
    }

    /// Prints a remark on standard error.
    pub fn note(&mut self, text: &str) {
        let _ = self.err.print(&format!("shirr: {text}\n"));
    }

    /// Prints a warning on standard error. Whether anybody reads it changes nothing.
    pub fn warn(&mut self, text: &str) {
        let _ = self.err.print(&format!("shirr: warning: {text}\n"));
    }

    /// Prints why the command failed, behind what it has printed already.
    pub fn tell(&mut self, failure: &Failure) {
        let _ = self.out.flush();
        let _ = self.err.print(&failure.to_string());
    }

    /// Hands on what is still held back.
    pub fn finish(&mut self) -> Result<(), Failure> {
        self.out.flush().map_err(unwritten)
    }
}

fn unwritten(error: io::Error) -> Failure {
    Failure::new(format!("standard output cannot be written: {error}"))
}

impl Printer {
    fn print(&mut self, text: &str) -> io::Result<()> {
        if self.closed {
            return Ok(());
        }
        let result = self.to.write_all(harmless(text).as_bytes());
        self.unless_gone(result)
    }

    fn flush(&mut self) -> io::Result<()> {
        if self.closed {
            return Ok(());
        }
        let result = self.to.flush();
        self.unless_gone(result)
    }

    /// A pipe whose reader has gone (`shirr … | head`) is no failure.
    fn unless_gone(&mut self, result: io::Result<()>) -> io::Result<()> {
        match result {
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => {
                self.closed = true;
                Ok(())
            }
            other => other,
        }
    }
}

/// The text less control characters other than newline and tab, and less direction overrides. A carriage return stays
/// where a newline follows it, as in CSV.
fn harmless(text: &str) -> String {
    let mut kept = String::with_capacity(text.len());
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        let line_end = c == '\r' && chars.peek() == Some(&'\n');
        if matches!(c, '\n' | '\t') || line_end || !plain::is_unsafe(c) {
            kept.push(c);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_terminal_is_dropped_and_line_ends_are_kept() {
        assert_eq!(harmless("a\u{1b}[2Jb\u{9b}c\u{202e}d\r\ne\rf\tg"), "a[2Jbcd\r\nef\tg");
    }

    /// A reader that goes away.
    struct Gone;

    impl Write for Gone {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(io::ErrorKind::BrokenPipe.into())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    /// A full disk.
    struct Full;

    impl Write for Full {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(io::ErrorKind::StorageFull.into())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn a_reader_that_went_away_ends_the_printing_quietly_and_a_full_disk_does_not() {
        let mut gone = Console::new(Gone, io::sink());
        assert!(gone.line("one").is_ok() && gone.line("two").is_ok() && gone.finish().is_ok());
        assert!(Console::new(Full, io::sink()).line("one").is_err());
    }
}
