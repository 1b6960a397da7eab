//! Walking over the tokens of a YAML text, as its parser would.
//!
//! What a token *says* is none of its business, only where it ends and how deep it stands.

use super::Objection;
use crate::store::fault::Position;

pub(super) struct Scan<'a> {
    bytes: &'a [u8],
    pub(super) i: usize,
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

impl<'a> Scan<'a> {
    pub(super) fn new(text: &'a str, deepest: usize, most_nodes: usize) -> Self {
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

    pub(super) fn position(&self) -> Position {
        Position::new(self.line, self.column + 1)
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
    pub(super) fn step(&mut self) {
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

    fn over_line(&mut self) {
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
    pub(super) fn token(&mut self) -> Result<bool, Objection> {
        self.over_blanks();
        if self.done() {
            return Ok(false);
        }
        if self.break_here() > 0 {
            self.step();
            return Ok(true);
        }
        if self.byte(0) == b'#' {
            self.over_line();
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
            b'%' if self.column == 0 && self.flow == 0 => self.over_line(),
            b'-' | b'?' | b':' if self.flow == 0 && self.blank_at(1) => {
                self.open_block(self.column)?;
                self.step();
            }
            b',' if self.flow > 0 => self.step(),
            b'?' | b':' if self.flow > 0 => {
                // Each can stand for an entry of which nothing else is written.
                self.node()?;
                self.step();
            }
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
                self.node()?;
                self.tag();
                self.tag_at = Some(start);
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

    /// `!word`, or `!<any signs>`.
    fn tag(&mut self) {
        let whole = self.byte(1) == b'<';
        while !self.done() && !self.blank_at(0) {
            match self.byte(0) {
                b',' if self.flow > 0 && !whole => return,
                b'>' if whole => return self.step(),
                _ => self.step(),
            }
        }
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
        // Whatever it is: a walk that stands still would never end.
        self.step();
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
        self.over_line();
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
                self.over_line();
            } else {
                return;
            }
        }
    }
}
