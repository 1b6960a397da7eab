//! A path as it can be pasted into a shell.

use std::path::Path;

/// The path itself where a shell takes it as one word as it stands, else in single quotes (POSIX, Shell Command
/// Language, 2.2.2).
pub(super) fn quoted(path: &Path) -> String {
    let text = path.display().to_string();
    let plain = |c: char| c.is_alphanumeric() || "/._-+,:@%".contains(c);
    if !text.is_empty() && !text.starts_with('-') && text.chars().all(plain) {
        text
    } else {
        format!("'{}'", text.replace('\'', r"'\''"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_shell_would_take_apart_is_quoted() {
        for (path, shown) in [
            ("films/night-ferry", "films/night-ferry"),
            ("my board", "'my board'"),
            ("Ada's", r"'Ada'\''s'"),
            ("a;b", "'a;b'"),
            ("été", "été"),
        ] {
            assert_eq!(quoted(Path::new(path)), shown);
        }
    }
}
