//! The bytes of a file that is brought in: never of one that does not end, and never more than there may be.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;

/// The bytes of a file; of one that is too large one byte more than `most`, so that it is seen. `None` where it is no
/// plain file: a folder, or a pipe, which would keep whoever opens it waiting until somebody writes.
///
/// # Errors
/// Whatever the system says.
pub(super) fn bytes(path: &Path, most: u64) -> io::Result<Option<Vec<u8>>> {
    if !fs::metadata(path)?.is_file() {
        return Ok(None);
    }
    let mut bytes = Vec::new();
    File::open(path)?.take(most + 1).read_to_end(&mut bytes)?;
    Ok(Some(bytes))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_more_is_read_than_shows_that_it_is_too_much() {
        let folder = tempfile::TempDir::new().unwrap();
        let file = folder.path().join("text");
        fs::write(&file, "abcdef").unwrap();
        assert_eq!(bytes(&file, 3).unwrap().as_deref(), Some(b"abcd".as_slice()));
        assert_eq!(bytes(&file, 6).unwrap().as_deref(), Some(b"abcdef".as_slice()));
        assert_eq!(bytes(folder.path(), 6).unwrap(), None);
        assert!(bytes(&folder.path().join("none"), 6).is_err());
    }
}
