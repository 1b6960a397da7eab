//! One file as it lies on the disk: opened with care, read within bounds.

use std::fs::{File, OpenOptions};
use std::io::{self, Read};
use std::path::Path;
use std::time::Duration;

use super::fault::{Fault, FaultKind};
use super::guard;
use super::layout::{BoardFile, Content};
use super::stamp::{Print, Stamp};
use super::yaml;
use crate::board::head::FORMAT;

/// A file's bytes.
#[derive(Debug)]
pub(super) struct Sheet {
    pub bytes: Vec<u8>,
    pub stamp: Stamp,
    pub print: Print,
}

/// Why there are no bytes.
#[derive(Clone, Debug)]
pub(super) enum Closed {
    /// There is no such file.
    Absent,
    /// There is something, and it is not to be read.
    Refused(Fault),
}

impl Sheet {
    /// Reads a file that must be a plain one, not a link, and no larger than it may be.
    pub(super) fn read(folder: &Path, file: &BoardFile) -> Result<Self, Closed> {
        let refused = |what: String| Fault::new(FaultKind::Damaged, file.name(), what).of(file.record());
        let failed = |error: io::Error| match error.kind() {
            io::ErrorKind::NotFound => Closed::Absent,
            _ if is_link(&error) => Closed::Refused(refused("is a link".to_owned()).hint(LINK)),
            _ => Closed::Refused(refused(format!("cannot be read: {error}"))),
        };
        let path = file.path(folder);
        if let Some(dir) = file.dir()
            && folder.join(dir).symlink_metadata().is_ok_and(|metadata| metadata.is_symlink())
        {
            return Err(Closed::Refused(refused(format!("{dir} is a link")).hint(LINK)));
        }
        let mut opened = open(&path).map_err(failed)?;
        let metadata = opened.metadata().map_err(failed)?;
        if !metadata.is_file() {
            return Err(Closed::Refused(
                refused("is no plain file".to_owned()).hint("move it out of the folder"),
            ));
        }
        let most = file.largest();
        let too_large = || {
            let fault = refused(format!("is larger than {} MiB", most >> 20));
            Closed::Refused(fault.hint("no record needs so much: is this the right file?"))
        };
        if metadata.len() > most {
            return Err(too_large());
        }
        let mut bytes = Vec::with_capacity(usize::try_from(metadata.len()).unwrap_or(0));
        // It may grow while it is read.
        (&mut opened).take(most + 1).read_to_end(&mut bytes).map_err(failed)?;
        if bytes.len() as u64 > most {
            return Err(too_large());
        }
        // The stamp is from before the reading: what is written meanwhile will be seen as a change.
        Ok(Self { stamp: Stamp::of(&metadata), print: Print::of(&bytes), bytes })
    }

    /// The text, without a byte order mark.
    pub(super) fn text(&self, file: &BoardFile) -> Result<&str, Fault> {
        text_of(&self.bytes, file)
    }

    /// What stands in it.
    pub(super) fn content(&self, file: &BoardFile) -> Result<Content, Fault> {
        content_of(self.text(file)?, file)
    }
}

/// A file that is asked for, and the bytes that it held when it was last seen.
pub(super) type Wanted = (BoardFile, Option<Print>);

/// Reads files, and those that are not what they were as often as it takes until they hold still: a program that writes
/// in place is not to be caught half-way.
pub(super) fn read_still(folder: &Path, wanted: Vec<Wanted>) -> Vec<(BoardFile, Result<Sheet, Closed>)> {
    let mut still = Vec::with_capacity(wanted.len());
    let mut moving: Vec<Wanted> = wanted;
    for tries in 0..=STILL_TRIES {
        let mut unsure = Vec::new();
        for (file, known) in moving {
            match Sheet::read(folder, &file) {
                Ok(sheet) if Some(sheet.print) != known && tries < STILL_TRIES => {
                    unsure.push((file, Some(sheet.print)));
                }
                read => still.push((file, read)),
            }
        }
        if unsure.is_empty() {
            break;
        }
        std::thread::sleep(STILL);
        moving = unsure;
    }
    still
}

const LINK: &str = "put the file itself here; links are not followed, since they may leave the folder";

/// How long a file must hold still. A write in place takes far less.
const STILL: Duration = Duration::from_millis(10);
const STILL_TRIES: usize = 10;

fn text_of<'a>(bytes: &'a [u8], file: &BoardFile) -> Result<&'a str, Fault> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let good = std::str::from_utf8(&bytes[..error.valid_up_to()]).unwrap_or_default();
        Fault::new(FaultKind::Damaged, file.name(), "the text is not UTF-8")
            .at(guard::position(good, good.len()))
            .hint("save the file as UTF-8")
            .of(file.record())
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

/// What a text says that stands in this file.
pub(super) fn content_of(text: &str, file: &BoardFile) -> Result<Content, Fault> {
    let damaged = |what: &str| Fault::new(FaultKind::Damaged, file.name(), what).of(file.record());
    let content = Content::read(file, text).map_err(|trouble| {
        let fault = damaged(&trouble.what).at(trouble.at);
        match trouble.hint {
            Some(hint) => fault.hint(hint),
            None => fault,
        }
    })?;
    match &content {
        Content::Head(head) if head.shirr != FORMAT => {
            let what = format!("the board is of version {}; this program reads version {FORMAT}", head.shirr);
            Err(damaged(&what).at(yaml::locate_key(text, "shirr")))
        }
        _ => Ok(content),
    }
}

#[cfg(unix)]
fn open(path: &Path) -> io::Result<File> {
    use std::os::unix::fs::OpenOptionsExt;
    // Without waiting, should it be a pipe; and no link.
    let flags = rustix::fs::OFlags::NOFOLLOW | rustix::fs::OFlags::NONBLOCK | rustix::fs::OFlags::CLOEXEC;
    OpenOptions::new().read(true).custom_flags(flags.bits().cast_signed()).open(path)
}

#[cfg(not(unix))]
fn open(path: &Path) -> io::Result<File> {
    if path.symlink_metadata()?.is_symlink() {
        return Err(io::Error::new(io::ErrorKind::InvalidInput, "is a link"));
    }
    OpenOptions::new().read(true).open(path)
}

#[cfg(unix)]
fn is_link(error: &io::Error) -> bool {
    error.raw_os_error() == Some(rustix::io::Errno::LOOP.raw_os_error())
}

#[cfg(not(unix))]
fn is_link(error: &io::Error) -> bool {
    error.kind() == io::ErrorKind::InvalidInput
}
