//! The title page: `Key: value` lines at the very beginning, up to the first empty line.

use super::emphasis;
use super::heading;
use super::source::Line;

/// Keys that begin a title page whatever else they look like.
const KEYS: [&str; 11] = [
    "title",
    "credit",
    "author",
    "authors",
    "source",
    "draft date",
    "date",
    "contact",
    "copyright",
    "notes",
    "revision",
];

/// The most words of a key. A longer one is a sentence with a colon in it.
const WORDS: usize = 3;

/// The title, and how many lines the title page takes; none where the script begins at once.
pub(super) fn page(lines: &[Line]) -> (String, usize) {
    let keyed = |line: &Line| key(&line.text).is_some_and(|(key, _)| begins(key));
    if !lines.first().is_some_and(|line| keyed(line) && !heading::begins(&line.text)) {
        return (String::new(), 0);
    }
    let end = lines.iter().position(Line::is_blank).unwrap_or(lines.len());
    let mut title: Vec<String> = Vec::new();
    let mut in_title = false;
    for line in &lines[..end] {
        let value = match key(&line.text) {
            Some((key, value)) => {
                in_title = key.eq_ignore_ascii_case("title");
                value
            }
            None => line.text.as_str(),
        };
        let value = emphasis::plain(value.trim());
        if in_title && !value.is_empty() {
            title.push(value);
        }
    }
    (title.join(" "), end)
}

/// The key and the value of a line that is not indented.
fn key(line: &str) -> Option<(&str, &str)> {
    let (key, value) = line.split_once(':')?;
    let plain = key.chars().all(|c| c.is_alphanumeric() || c == ' ' || c == '-');
    (plain && key.starts_with(char::is_alphanumeric)).then_some((key.trim(), value))
}

/// Whether a key can begin a title page: `FADE IN:` does not.
fn begins(key: &str) -> bool {
    KEYS.iter().any(|known| key.eq_ignore_ascii_case(known))
        || (key.split_whitespace().count() <= WORDS && key.chars().any(char::is_lowercase))
}
