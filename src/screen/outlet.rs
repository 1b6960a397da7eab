//! The way out to the terminal: a frame at a time, in the colours that the terminal knows.
//!
//! The library that writes for us names every colour by its place in a palette (`38;5;1`). A terminal of sixteen
//! colours has no palette, and would take the 5 for blinking and the 1 for bold; it gets the numbers of old instead
//! (`31`; ECMA-48 for the first eight, and for the bright ones what aixterm began and others followed).

use std::io::{self, Write};

/// Holds back what is written until it is flushed.
#[derive(Debug, Default)]
pub struct Outlet {
    pending: Vec<u8>,
    sixteen: bool,
}

impl Outlet {
    /// With `sixteen`, colours go out by the numbers of old.
    pub fn new(sixteen: bool) -> Self {
        Self { pending: Vec::new(), sixteen }
    }
}

impl Write for Outlet {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.pending.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        let bytes = std::mem::take(&mut self.pending);
        let mut out = io::stdout().lock();
        if self.sixteen {
            out.write_all(&by_old_numbers(&bytes))?;
        } else {
            out.write_all(&bytes)?;
        }
        out.flush()
    }
}

/// The same, with every colour of the first sixteen in the palette by its number of old. Nothing but our own drawing
/// holds an escape; texts are disarmed before they come here.
fn by_old_numbers(bytes: &[u8]) -> Vec<u8> {
    const START: &[u8] = b"\x1b[";
    let mut out = Vec::with_capacity(bytes.len());
    let mut rest = bytes;
    while let Some(at) = rest.windows(START.len()).position(|two| two == START) {
        let (before, from) = rest.split_at(at + START.len());
        out.extend_from_slice(before);
        let end = from.iter().position(|byte| !matches!(byte, b'0'..=b'9' | b';')).unwrap_or(from.len());
        let (numbers, then) = from.split_at(end);
        if then.first() == Some(&b'm') {
            out.extend_from_slice(old_numbers(numbers).as_bytes());
        } else {
            out.extend_from_slice(numbers);
        }
        rest = then;
    }
    out.extend_from_slice(rest);
    out
}

fn old_numbers(numbers: &[u8]) -> String {
    let words: Vec<&str> = std::str::from_utf8(numbers).unwrap_or_default().split(';').collect();
    let mut old = Vec::with_capacity(words.len());
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let place = match (words.get(at + 1), words.get(at + 2)) {
            (Some(&"5"), Some(place)) => place.parse::<u8>().ok(),
            _ => None,
        };
        let number = match (*word, place) {
            ("38", Some(place @ 0..8)) => Some(30 + place),
            ("38", Some(place @ 8..16)) => Some(90 + place - 8),
            ("48", Some(place @ 0..8)) => Some(40 + place),
            ("48", Some(place @ 8..16)) => Some(100 + place - 8),
            _ => None,
        };
        old.push(number.map_or_else(|| (*word).to_owned(), |number| number.to_string()));
        at += if number.is_some() { 3 } else { 1 };
    }
    old.join(";")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(text: &str) -> String {
        String::from_utf8(by_old_numbers(text.as_bytes())).unwrap()
    }

    #[test]
    fn places_in_the_palette_become_numbers_of_old_and_all_else_stays() {
        assert_eq!(written("\u{1b}[38;5;1mred"), "\u{1b}[31mred");
        assert_eq!(written("\u{1b}[38;5;9;48;5;0mx\u{1b}[39;49m"), "\u{1b}[91;40mx\u{1b}[39;49m");
        assert_eq!(written("\u{1b}[48;5;15m\u{1b}[1;7m"), "\u{1b}[107m\u{1b}[1;7m");
        assert_eq!(written("\u{1b}[38;5;16m\u{1b}[38;2;1;2;3m"), "\u{1b}[38;5;16m\u{1b}[38;2;1;2;3m");
        for same in ["\u{1b}[12;38H", "38;5;1m", "\u{1b}[?25l", "\u{1b}[", "\u{1b}[38;5", "crêpe", "\u{1b}[m"]
        {
            assert_eq!(written(same), same);
        }
    }
}
