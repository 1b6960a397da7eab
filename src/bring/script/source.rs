//! Bytes into the lines that are left when notes and the boneyard are taken out.
//!
//! A note or a boneyard that ends in a later line joins what stands before it and behind it into one line; a line that
//! holds only a note is as if it were not there, one that holds only boneyard is an empty line. That follows the cases
//! of the syntax page, where a heading behind a boneyard is a heading.

use super::error::{ScriptError, Warning, position};

/// The most bytes that a script may have: some twenty times those of a long film.
pub const LARGEST: usize = 4 << 20;

/// A line of the script as it is read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Line {
    /// Its number in the file, from 1.
    pub number: usize,
    /// What is left of it.
    pub text: String,
    noted: bool,
    buried: bool,
}

impl Line {
    fn at(index: usize) -> Self {
        Self { number: index + 1, ..Self::default() }
    }

    /// Whether there is nothing to see in it.
    pub fn is_blank(&self) -> bool {
        self.text.trim().is_empty()
    }

    /// Whether it is empty on purpose: two spaces, so that a speech goes on behind it.
    pub fn is_held(&self) -> bool {
        self.is_blank() && holds(&self.text) && !self.buried
    }
}

/// Two spaces say that a line is empty on purpose.
fn holds(text: &str) -> bool {
    text.chars().count() >= 2
}

/// A place in the lines: the index of the line, and the byte in it.
#[derive(Clone, Copy)]
struct At {
    line: usize,
    byte: usize,
}

/// The lines of a script, without notes and boneyard.
pub(super) fn lines(bytes: &[u8]) -> Result<(Vec<Line>, Vec<Warning>), ScriptError> {
    let text = text(bytes)?;
    let source: Vec<&str> = split(text).collect();
    let mut stripper = Stripper { source: &source, lines: Vec::new(), warnings: Vec::new(), open_until: 0 };
    stripper.run()?;
    Ok((stripper.lines, stripper.warnings))
}

/// The bytes as text, without a byte order mark.
fn text(bytes: &[u8]) -> Result<&str, ScriptError> {
    if bytes.len() > LARGEST {
        return Err(ScriptError::TooLarge);
    }
    let good = match std::str::from_utf8(bytes) {
        Ok(text) => text.find('\0').map_or(Ok(text), |at| Err(&text[..at])),
        Err(error) => Err(std::str::from_utf8(&bytes[..error.valid_up_to()]).unwrap_or_default()),
    };
    match good {
        Ok(text) => Ok(text.strip_prefix('\u{feff}').unwrap_or(text)),
        Err(before) => {
            let line = split(before).count();
            let column = split(before).last().map_or(0, |last| last.chars().count());
            Err(ScriptError::NoText(position(line, column + 1)))
        }
    }
}

/// The lines of a text, whichever system wrote it.
fn split(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let now = rest?;
        match now.find(['\n', '\r']) {
            Some(end) => {
                let width = if now[end..].starts_with("\r\n") { 2 } else { 1 };
                rest = Some(&now[end + width..]);
                Some(&now[..end])
            }
            None => {
                rest = None;
                Some(now)
            }
        }
    })
}

struct Stripper<'a> {
    source: &'a [&'a str],
    lines: Vec<Line>,
    warnings: Vec<Warning>,
    /// No note that begins before this line ends: where that was found once, it is not looked for again.
    open_until: usize,
}

impl Stripper<'_> {
    fn run(&mut self) -> Result<(), ScriptError> {
        let mut at = At { line: 0, byte: 0 };
        let mut line = Line::at(0);
        while let Some(rest) = self.source.get(at.line).map(|text| &text[at.byte..]) {
            let Some((offset, mark)) = mark(rest) else {
                line.text.push_str(rest);
                self.keep(line);
                at = At { line: at.line + 1, byte: 0 };
                line = Line::at(at.line);
                continue;
            };
            line.text.push_str(&rest[..offset]);
            at.byte += offset;
            let inside = At { byte: at.byte + mark.len(), ..at };
            if mark == "/*" {
                let end =
                    self.boneyard_end(inside).ok_or_else(|| ScriptError::OpenBoneyard(self.position(at)))?;
                line.buried = true;
                if end.line > at.line && line.is_blank() {
                    self.keep(line);
                    line = Line { buried: true, ..Line::at(end.line) };
                }
                at = end;
            } else if let Some(end) = self.note_end(inside) {
                if end.line > at.line && line.is_blank() {
                    line = Line::at(end.line);
                }
                line.noted = true;
                at = end;
            } else {
                line.text.push_str(mark);
                at = inside;
            }
        }
        Ok(())
    }

    /// Keeps a line, unless a note is all that there is in it.
    fn keep(&mut self, line: Line) {
        if !(line.noted && !line.buried && line.is_blank()) {
            self.lines.push(line);
        }
    }

    fn boneyard_end(&self, from: At) -> Option<At> {
        let mut byte = from.byte;
        for (line, text) in self.source.iter().enumerate().skip(from.line) {
            if let Some(end) = text[byte..].find("*/") {
                return Some(At { line, byte: byte + end + 2 });
            }
            byte = 0;
        }
        None
    }

    /// Where a note ends. An empty line without two spaces ends the search: it was no note then.
    fn note_end(&mut self, from: At) -> Option<At> {
        if from.line < self.open_until {
            return None;
        }
        let mut byte = from.byte;
        let mut line = from.line;
        while let Some(text) = self.source.get(line) {
            if let Some(end) = text[byte..].find("]]") {
                return Some(At { line, byte: byte + end + 2 });
            }
            if line > from.line && text.trim().is_empty() && !holds(text) {
                break;
            }
            byte = 0;
            line += 1;
        }
        self.open_until = line;
        let at = self.position(At { byte: from.byte - 2, ..from });
        let what =
            "this `[[` begins no note, since no `]]` comes before the next empty line; it is read as text";
        self.warnings.push(Warning { at, what: what.to_owned() });
        None
    }

    fn position(&self, at: At) -> crate::store::Position {
        let before = self.source.get(at.line).and_then(|text| text.get(..at.byte)).unwrap_or_default();
        position(at.line + 1, before.chars().count() + 1)
    }
}

/// The first mark that begins a boneyard or a note. It looks no further than that mark, so that a long line full of one
/// kind is not searched over and over for the other.
fn mark(text: &str) -> Option<(usize, &'static str)> {
    text.match_indices(['/', '[']).find_map(|(at, _)| {
        let mark = ["/*", "[["].into_iter().find(|mark| text[at..].starts_with(mark))?;
        Some((at, mark))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Vec<(usize, String)> {
        let (lines, _) = lines(text.as_bytes()).unwrap();
        lines.into_iter().map(|line| (line.number, line.text)).collect()
    }

    fn line(number: usize, text: &str) -> (usize, String) {
        (number, text.to_owned())
    }

    #[test]
    fn every_kind_of_line_end_ends_a_line_and_a_byte_order_mark_is_dropped() {
        let expected = [line(1, "a"), line(2, "b"), line(3, "c"), line(4, "")];
        assert_eq!(read("\u{feff}a\r\nb\rc\n"), expected);
    }

    #[test]
    fn a_note_is_taken_out_and_what_it_parts_is_joined() {
        assert_eq!(read("a [[x]]b"), [line(1, "a b")]);
        assert_eq!(read("a [[x\n  \ny]]b\nc"), [line(1, "a b"), line(4, "c")]);
        assert_eq!(read("a\n[[x]]\nb"), [line(1, "a"), line(3, "b")]);
        assert_eq!(read("[[x\ny]] b"), [line(2, " b")]);
    }

    #[test]
    fn a_note_over_an_empty_line_is_text_and_is_told_once() {
        let (lines, warnings) = lines(b"a\nb [[x [[y\n\nz]]").unwrap();
        assert_eq!(lines[1].text, "b [[x [[y");
        assert_eq!(warnings.len(), 1);
        assert!(warnings[0].to_string().starts_with("2:3: this `[[` begins no note"), "{}", warnings[0]);
    }

    #[test]
    fn a_boneyard_leaves_an_empty_line_or_joins_what_it_parts() {
        assert_eq!(read("a\n/* x\n\ny */\nb"), [line(1, "a"), line(2, ""), line(4, ""), line(5, "b")]);
        assert_eq!(read("a /* x\ny */ b"), [line(1, "a  b")]);
    }

    #[test]
    fn what_is_no_text_or_never_ends_is_refused_where_it_stands() {
        let refused = |bytes: &[u8]| lines(bytes).unwrap_err().to_string();
        assert_eq!(refused(b"a\nb\xff"), "2:2: this is no text in UTF-8");
        assert_eq!(refused(b"\x7fELF\0"), "1:5: this is no text in UTF-8");
        assert!(refused(b"a\nb /* c\n").starts_with("2:3: this `/*` takes all the rest"));
        assert!(refused(&vec![b'a'; LARGEST + 1]).starts_with("it is larger than 4 MiB"));
    }
}
