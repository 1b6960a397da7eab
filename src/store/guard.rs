//! Looks over a YAML text before the parser gets it, and stops what would cost too much.
//!
//! The parser keeps every event of a document in memory, and its time grows with the square of the depth to which
//! brackets are nested (measured: 4 MiB of `[` take 27 s and 800 MB). So this walks over the tokens once, as the
//! parser would, and counts. It knows just enough of YAML to tell a bracket in a text from one that opens a list;
//! whatever it does not understand it leaves to the parser, which then stops at the same place.
//!
//! Anchors and aliases are refused outright: nothing in a board needs them, they are what "alias bombs" are made
//! of, and a `*` or `&` at the start of a text is nearly always a text that should have been quoted.

use super::fault::Position;

/// How deep lists and keys may be nested, where a list in the column of its own key counts as one with it. A board's
/// own files reach six.
pub(super) const DEEPEST: usize = 64;

/// The most values in one file: each costs the parser about 190 bytes, so that this is some 50 MB at worst, and a
/// series of two thousand scenes has a third of it.
pub(super) const MOST_NODES: usize = 250_000;

/// What was found, and where.
#[derive(Debug, PartialEq)]
pub(super) struct Objection {
    pub at: Position,
    pub what: String,
    pub hint: &'static str,
}

/// Looks the text over; `Ok` when the parser may have it.
pub(super) fn check(text: &str) -> Result<(), Objection> {
    printable(text)?;
    walk(text, DEEPEST, MOST_NODES)
}

/// YAML allows no control characters but in escapes (YAML 1.2.2, section 5.1, `c-printable`).
fn printable(text: &str) -> Result<(), Objection> {
    let fine = |c: char| match c {
        '\t' | '\n' | '\r' | '\u{85}' => true,
        '\u{feff}' => false,
        c => !c.is_control() && !matches!(c, '\u{fffe}' | '\u{ffff}'),
    };
    let Some((at, c)) = text.char_indices().find(|(_, c)| !fine(*c)) else { return Ok(()) };
    Err(Objection {
        at: position(text, at),
        what: format!("the character U+{:04X} cannot stand in a text file", u32::from(c)),
        hint: "delete it, or write it as an escape in double quotes",
    })
}

/// Line and column of a byte.
pub(super) fn position(text: &str, at: usize) -> Position {
    let mut scan = Scan::new(text, DEEPEST, MOST_NODES);
    while scan.i < at.min(text.len()) {
        scan.step();
    }
    scan.position()
}

struct Scan<'a> {
    bytes: &'a [u8],
    i: usize,
    line: usize,
    /// Characters since the start of the line.
    column: usize,
    /// Open brackets and braces.
    flow: usize,
    /// Where a bracket outside all others was opened, in case that it turns out to be a key.
    flow_start: usize,
    /// Columns of the open block lists and mappings, outermost first.
    blocks: Vec<usize>,
    nodes: usize,
    /// Where a tag stands that belongs to the next value.
    tag_at: Option<usize>,
    content: bool,
    deepest: usize,
    most_nodes: usize,
}

fn walk(text: &str, deepest: usize, most_nodes: usize) -> Result<(), Objection> {
    let mut scan = Scan::new(text, deepest, most_nodes);
    while scan.token()? {}
    Ok(())
}

impl<'a> Scan<'a> {
    fn new(text: &'a str, deepest: usize, most_nodes: usize) -> Self {
        Self {
            bytes: text.as_bytes(),
            i: 0,
            line: 1,
            column: 0,
            flow: 0,
            flow_start: 0,
            blocks: Vec::new(),
            nodes: 0,
            tag_at: None,
            content: false,
            deepest,
            most_nodes,
        }
    }

    fn position(&self) -> Position {
        Position { line: self.line, column: self.column + 1 }
    }

    fn byte(&self, ahead: usize) -> u8 {
        self.bytes.get(self.i + ahead).copied().unwrap_or(0)
    }

    fn done(&self) -> bool {
        self.i >= self.bytes.len()
    }

    /// The length of the line break here, 0 where there is none: LF, CR, CR LF, NEL, LS, PS, as the parser has it.
    fn break_here(&self) -> usize {
        match (self.byte(0), self.byte(1), self.byte(2)) {
            (b'\r', b'\n', _) | (0xc2, 0x85, _) => 2,
            (b'\n' | b'\r', ..) => 1,
            (0xe2, 0x80, 0xa8 | 0xa9) => 3,
            _ => 0,
        }
    }

    /// Over one character or line break.
    fn step(&mut self) {
        match self.break_here() {
            0 => {
                self.i += match self.byte(0) {
                    0..=0xbf => 1,
                    0xc0..=0xdf => 2,
                    0xe0..=0xef => 3,
                    _ => 4,
                };
                self.column += 1;
            }
            length => {
                self.i += length;
                self.line += 1;
                self.column = 0;
            }
        }
    }

    fn steps(&mut self, count: usize) {
        for _ in 0..count {
            self.step();
        }
    }

    /// Whether a space, a tab, a break or the end comes after `ahead` bytes.
    fn blank_at(&self, ahead: usize) -> bool {
        let there = Self { i: self.i + ahead, blocks: Vec::new(), ..*self };
        there.done() || matches!(there.byte(0), b' ' | b'\t') || there.break_here() > 0
    }

    fn to_line_end(&mut self) {
        while !self.done() && self.break_here() == 0 {
            self.step();
        }
    }

    fn over_blanks(&mut self) {
        while matches!(self.byte(0), b' ' | b'\t') {
            self.step();
        }
    }

    /// The column of the innermost block list or mapping, -1 outside of all.
    fn parent(&self) -> i64 {
        self.blocks.last().map_or(-1, |column| i64::try_from(*column).unwrap_or(i64::MAX))
    }

    /// A document marker: `---` or `...` at the start of a line.
    fn marker(&self) -> bool {
        self.column == 0
            && matches!(self.bytes.get(self.i..self.i + 3), Some(b"---" | b"..."))
            && self.blank_at(3)
    }

    fn objection(&self, what: impl Into<String>, hint: &'static str) -> Objection {
        Objection { at: self.position(), what: what.into(), hint }
    }

    fn node(&mut self) -> Result<(), Objection> {
        self.content = true;
        self.nodes += 1;
        if self.nodes > self.most_nodes {
            return Err(self.objection(
                format!("more than {} values in one file", self.most_nodes),
                "no board needs so many: is this the right file?",
            ));
        }
        if self.flow + self.blocks.len() > self.deepest {
            return Err(self.objection(
                format!("nested more than {} deep", self.deepest),
                "a board's files are a few levels deep: quote a text that begins with a bracket",
            ));
        }
        Ok(())
    }

    /// A block list or mapping may begin in this column.
    fn open_block(&mut self, column: usize) -> Result<(), Objection> {
        if self.flow == 0 && i64::try_from(column).unwrap_or(i64::MAX) > self.parent() {
            self.blocks.push(column);
        }
        self.node()
    }

    /// After a scalar or a closing bracket: whether it was a key.
    fn was_key(&mut self, start: usize) -> Result<(), Objection> {
        self.over_blanks();
        if self.flow == 0 && self.byte(0) == b':' && self.blank_at(1) {
            self.open_block(start)?;
            self.step();
        }
        Ok(())
    }

    /// Over one token; `false` at the end.
    fn token(&mut self) -> Result<bool, Objection> {
        self.over_blanks();
        if self.done() {
            return Ok(false);
        }
        if self.break_here() > 0 {
            self.step();
            return Ok(true);
        }
        if self.byte(0) == b'#' {
            self.to_line_end();
            return Ok(true);
        }
        if self.flow == 0 {
            while self.blocks.last().is_some_and(|column| *column > self.column) {
                self.blocks.pop();
            }
        }
        let start = self.tag_at.take().unwrap_or(self.column);
        match self.byte(0) {
            b'-' | b'.' if self.marker() => self.document()?,
            b'%' if self.column == 0 && self.flow == 0 => self.to_line_end(),
            b'-' | b'?' | b':' if self.flow == 0 && self.blank_at(1) => {
                self.open_block(self.column)?;
                self.step();
            }
            b',' | b'?' | b':' if self.flow > 0 && (self.byte(0) == b',' || self.blank_at(1)) => self.step(),
            b'[' | b'{' => {
                if self.flow == 0 {
                    self.flow_start = start;
                }
                self.flow += 1;
                self.node()?;
                self.step();
            }
            b']' | b'}' => {
                self.flow = self.flow.saturating_sub(1);
                self.step();
                if self.flow == 0 {
                    self.was_key(self.flow_start)?;
                }
            }
            b'*' | b'&' => {
                return Err(self.objection(
                    format!("a text cannot begin with `{}`", char::from(self.byte(0))),
                    "put it in quotes; anchors and aliases are not used in a board",
                ));
            }
            b'!' => {
                self.tag_at = Some(start);
                while !self.done() && !self.blank_at(0) {
                    self.step();
                }
            }
            b'|' | b'>' if self.flow == 0 => {
                self.node()?;
                self.block_text();
            }
            quote @ (b'"' | b'\'') => {
                self.node()?;
                self.quoted(quote);
                self.was_key(start)?;
            }
            _ => {
                self.node()?;
                self.plain();
                self.was_key(start)?;
            }
        }
        Ok(true)
    }

    fn document(&mut self) -> Result<(), Objection> {
        if self.byte(0) == b'-' && self.content {
            return Err(self.objection(
                "a second document begins here",
                "one file holds one document: delete the `---`",
            ));
        }
        self.blocks.clear();
        self.steps(3);
        Ok(())
    }

    fn quoted(&mut self, quote: u8) {
        self.step();
        while !self.done() {
            match (self.byte(0), self.byte(1)) {
                (b'\\', _) if quote == b'"' => self.steps(2),
                (b'\'', b'\'') if quote == b'\'' => self.steps(2),
                (end, _) if end == quote => return self.step(),
                _ => self.step(),
            }
        }
    }

    /// A text without quotes, with its further lines.
    fn plain(&mut self) {
        let parent = self.parent();
        loop {
            while !self.done() && !self.blank_at(0) {
                let next_ends = self.blank_at(1);
                match self.byte(0) {
                    b':' if next_ends => return,
                    b':' if self.flow > 0 && matches!(self.byte(1), b',' | b'[' | b']' | b'{' | b'}') => {
                        return;
                    }
                    b',' | b'[' | b']' | b'{' | b'}' if self.flow > 0 => return,
                    _ => self.step(),
                }
            }
            while !self.done() && self.blank_at(0) {
                self.step();
            }
            let inside = self.flow > 0 || i64::try_from(self.column).unwrap_or(i64::MAX) > parent;
            if self.done() || self.byte(0) == b'#' || !inside || self.marker() {
                return;
            }
        }
    }

    /// A `|` or `>` text.
    fn block_text(&mut self) {
        self.step();
        let mut given = None;
        while matches!(self.byte(0), b'+' | b'-' | b'0'..=b'9') {
            if self.byte(0).is_ascii_digit() {
                given = Some(i64::from(self.byte(0) - b'0'));
            }
            self.step();
        }
        self.to_line_end();
        self.step();
        let parent = self.parent();
        let indent = match given {
            Some(more) => parent.max(0) + more,
            None => {
                let here = (self.i, self.line, self.column);
                let mut widest = 0;
                loop {
                    while self.byte(0) == b' ' {
                        self.step();
                    }
                    widest = widest.max(self.column);
                    if self.break_here() == 0 {
                        break;
                    }
                    self.step();
                }
                (self.i, self.line, self.column) = here;
                i64::try_from(widest).unwrap_or(i64::MAX).max(parent + 1).max(1)
            }
        };
        let indent = usize::try_from(indent).unwrap_or(usize::MAX);
        while !self.done() {
            while self.byte(0) == b' ' && self.column < indent {
                self.step();
            }
            if self.break_here() > 0 {
                self.step();
            } else if self.column == indent {
                self.to_line_end();
            } else {
                return;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn brackets_in_texts_are_not_nesting() {
        let many = "[".repeat(100);
        for text in [
            format!("notes: a {many}"),
            format!("notes: \"{many}\""),
            format!("notes: '{many}'"),
            format!("notes: |\n  {many}\n  x\n"),
            format!("notes: >-\n  {many}\n"),
            format!("# {many}\nnotes: x # {many}"),
            format!("notes: a\n  b {many}\n"),
            format!("- notes: |2\n    {many}\n"),
        ] {
            assert_eq!(check(&text), Ok(()), "{text}");
        }
    }

    #[test]
    fn nesting_too_deep_is_refused_where_it_happens() {
        for (text, column) in [("[".repeat(100), 65), ("{a: ".repeat(100), 257), ("- ".repeat(100), 129)] {
            let objection = check(&text).unwrap_err();
            assert_eq!(objection.at, Position { line: 1, column }, "{objection:?}");
            assert!(objection.what.contains("deep"));
        }
        assert!(check("title: a\n  \"\nx: ").is_ok());
        assert!(check(&format!("title: a\n  \"\nx: {}", "[".repeat(100))).is_err());
    }

    #[test]
    fn anchors_aliases_and_second_documents_are_refused_where_they_stand() {
        for (text, line, column) in [
            ("a: *b\n", 1, 4),
            ("a: &b c\n", 1, 4),
            ("a: [x, *b]\n", 1, 8),
            ("# x\n---\na: 1\n---\nb: 2\n", 4, 1),
        ] {
            assert_eq!(check(text).unwrap_err().at, Position { line, column }, "{text}");
        }
        for text in ["a: b * c & d\n", "a: '*b'\n", "---\na: 1\n...\n", "%YAML 1.2\n---\na: 1\n"] {
            assert_eq!(check(text), Ok(()), "{text}");
        }
    }

    #[test]
    fn control_characters_are_named_with_their_place() {
        let objection = check("title: é\u{7}\n").unwrap_err();
        assert_eq!(objection.at, Position { line: 1, column: 9 });
        assert!(objection.what.contains("U+0007"));
    }

    /// Lists and mappings on the way down; the text itself is none.
    fn depth(value: &serde_json::Value) -> usize {
        match value {
            serde_json::Value::Array(items) => 1 + items.iter().map(depth).max().unwrap_or(0),
            serde_json::Value::Object(entries) => 1 + entries.values().map(depth).max().unwrap_or(0),
            _ => 0,
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2_000))]

        /// What passes with a limit is never deeper than it, lists in the column of their key counted once.
        #[test]
        fn nothing_deeper_than_the_limit_passes(
            tokens in prop::collection::vec(
                prop::sample::select(vec![
                    "[", "]", "{", "}", "- ", "-", ": ", ":", ", ", "\n", "\n ", "\n  ", "\n    ", "\"", "'", "|\n",
                    ">\n", "|2\n", "# ", "a", "a: ", "b\n", " ", "? ", "!t ", "---\n", "\\", "\t", "\r\n", "\n- ",
                ]),
                0..24,
            )
        ) {
            let text = tokens.concat();
            if walk(&text, 2, 1_000).is_ok()
                && let Some(tree) = crate::store::yaml::tree(&text)
            {
                prop_assert!(depth(&tree) <= 4, "{text:?}");
            }
        }
    }
}
