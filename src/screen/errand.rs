//! What only the loop that owns the terminal can do: stop, redraw, hand over to the user's own editor.

use std::env;
use std::fs;
use std::io;
use std::path::Path;
use std::process::Command;

use super::app::{App, Errand};
use super::terminal::{Terminal, stop_here};

/// Runs an errand.
///
/// # Errors
/// When the terminal cannot be taken again.
pub fn run(app: &mut App, terminal: &mut Terminal, errand: Errand) -> io::Result<()> {
    // The terminal will have forgotten the pictures that it was given.
    app.gallery.forget();
    match errand {
        Errand::Redraw => terminal.redraw(),
        Errand::Suspend => terminal.away(stop_here),
        Errand::File(file) => {
            match terminal.away(|| open_in_editor(&file))? {
                Ok(()) => app.take_in_outside(),
                Err(error) => app.warn(error),
            }
            Ok(())
        }
        Errand::Editor { record, text, base } => {
            match terminal.away(|| edit(&text))? {
                Ok(edited) => app.edited_as_text(record, base, edited),
                Err(error) => app.warn(error),
            }
            Ok(())
        }
    }
}

/// Lets the user edit a text; says what went wrong.
fn edit(text: &str) -> Result<String, String> {
    let folder = PrivateFolder::new().map_err(|error| format!("no place for the text: {error}"))?;
    let file = folder.0.join("record.yaml");
    fs::write(&file, text).map_err(|error| format!("no place for the text: {error}"))?;
    open_in_editor(&file)?;
    let bytes = fs::read(&file).map_err(|error| format!("the text is gone: {error}"))?;
    String::from_utf8(bytes).map_err(|_| "the text is not UTF-8: nothing was taken".to_owned())
}

/// The editor where neither `$VISUAL` nor `$EDITOR` names one: POSIX has it on every system.
const USUAL: &str = "vi";

/// What a shell ends with when there is no such program (POSIX, Shell Command Language, 2.8.2).
const NOT_THERE: i32 = 127;

/// Opens a file in `$VISUAL`, `$EDITOR` or `vi` and waits for its end; says what went wrong.
fn open_in_editor(file: &Path) -> Result<(), String> {
    let named = |name: &&str| env::var(name).ok().filter(|value| !value.trim().is_empty());
    let program = ["VISUAL", "EDITOR"].iter().find_map(named).unwrap_or_else(|| USUAL.to_owned());
    let done = spawn(&program, file).map_err(|error| format!("`{program}` does not start: {error}"))?;
    match done.code() {
        Some(0) => Ok(()),
        Some(NOT_THERE) => Err(format!("`{program}` is not there: put another editor into EDITOR")),
        _ => Err(format!("`{program}` ended with {done}: nothing was taken")),
    }
}

/// The variable may hold options too, so a shell reads it, as git and others do.
fn spawn(program: &str, file: &Path) -> io::Result<std::process::ExitStatus> {
    if cfg!(unix) {
        Command::new("/bin/sh").arg("-c").arg(format!("{program} \"$1\"")).arg("sh").arg(file).status()
    } else {
        Command::new(program).arg(file).status()
    }
}

/// A folder of our own below the temporary one, gone when it is dropped.
struct PrivateFolder(std::path::PathBuf);

impl PrivateFolder {
    fn new() -> io::Result<Self> {
        for number in 0..1000 {
            let path = env::temp_dir().join(format!("shirr-{}-{number}", std::process::id()));
            let mut builder = fs::DirBuilder::new();
            #[cfg(unix)]
            std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
            match builder.create(&path) {
                Ok(()) => return Ok(Self(path)),
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                Err(error) => return Err(error),
            }
        }
        Err(io::Error::other("every name is taken"))
    }
}

impl Drop for PrivateFolder {
    fn drop(&mut self) {
        // Left behind at worst; the system clears its temporary folder.
        let _ = fs::remove_dir_all(&self.0);
    }
}
