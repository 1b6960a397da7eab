//! The fields of a record, one below the other, with a cursor over those that can be acted on.
//!
//! Whoever shows a record says what its entries are, anew for each frame; an entry's key is what an action gets.
//! What is kept from frame to frame is only where the cursor stands and how far it is scrolled, so a change of the
//! record from anywhere cannot leave a stale field behind.

use ratatui::layout::Rect;

use crate::board::Piece;
use crate::screen::canvas::{Canvas, Hit, width, wrapped};
use crate::screen::parts::swatch;

/// One entry of a record.
#[derive(Clone, Debug)]
pub struct Entry<K> {
    key: Option<K>,
    label: &'static str,
    text: String,
    tone: Tone,
    swatches: Option<Piece>,
}

/// How an entry sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Tone {
    Plain,
    Quiet,
    Waiting,
}

impl<K> Entry<K> {
    /// An entry on which the cursor stops.
    pub fn new(key: K, label: &'static str, text: impl Into<String>) -> Self {
        Self { key: Some(key), label, text: text.into(), tone: Tone::Plain, swatches: None }
    }

    /// An entry that the cursor passes by.
    pub fn fact(label: &'static str, text: impl Into<String>) -> Self {
        Self { key: None, label, text: text.into(), tone: Tone::Plain, swatches: None }
    }

    /// An entry that adds something: `+ departure`.
    pub fn add(key: K, label: &'static str, what: &str) -> Self {
        Self { tone: Tone::Quiet, ..Self::new(key, label, format!("+ {what}")) }
    }

    /// Words for a field that says nothing yet.
    #[must_use]
    pub fn or(mut self, empty: &str) -> Self {
        if self.text.is_empty() {
            empty.clone_into(&mut self.text);
            self.tone = Tone::Quiet;
        }
        self
    }

    /// An entry that waits for a decision.
    #[must_use]
    pub fn waiting(mut self) -> Self {
        self.tone = Tone::Waiting;
        self
    }

    /// An entry with the colours of a piece before its words.
    #[must_use]
    pub fn coloured(mut self, piece: &Piece) -> Self {
        self.swatches = Some(piece.clone());
        self
    }

    fn indent(&self) -> u16 {
        if self.swatches.is_some() { swatch::WIDTH + 1 } else { 0 }
    }
}

/// Where the cursor stands among the entries, and how far they are scrolled.
#[derive(Debug, Default)]
pub struct Fields {
    at: usize,
    top: usize,
    page: usize,
    /// Lines of the entry in focus that are out of sight.
    hidden: (usize, usize),
}

impl Fields {
    /// Puts the cursor on the first entry again.
    pub fn reset(&mut self) {
        *self = Self { page: self.page, ..Self::default() };
    }

    /// What the cursor stands on.
    pub fn key<'a, K>(&self, entries: &'a [Entry<K>]) -> Option<&'a K> {
        let keys = || entries.iter().filter_map(|entry| entry.key.as_ref());
        keys().nth(self.at).or_else(|| keys().last())
    }

    /// Puts the cursor on the entry with this key, where there is one.
    pub fn go_to<K: PartialEq>(&mut self, entries: &[Entry<K>], key: &K) {
        let at = entries.iter().filter_map(|entry| entry.key.as_ref()).position(|have| have == key);
        self.at = at.unwrap_or(self.at);
    }

    /// Puts the cursor on the entry with this number among those on which it stops.
    pub fn go_to_nth(&mut self, at: usize) {
        self.at = at;
    }

    /// Moves by one entry, or through an entry that is longer than the window.
    pub fn step<K>(&mut self, by: isize, entries: &[Entry<K>]) {
        let (above, below) = self.hidden;
        let most = self.page.saturating_sub(1).max(1);
        if by == 1 && below > 0 {
            self.top += below.min(most);
        } else if by == -1 && above > 0 {
            self.top -= above.min(most).min(self.top);
        } else {
            self.jump(by, entries);
        }
    }

    /// Moves by so many entries.
    pub fn jump<K>(&mut self, by: isize, entries: &[Entry<K>]) {
        let count = entries.iter().filter(|entry| entry.key.is_some()).count();
        self.at = self.at.saturating_add_signed(by).min(count.saturating_sub(1));
        self.hidden = (0, 0);
    }

    /// Moves by so many entries, as far as there are any.
    pub fn roll(&mut self, by: isize) {
        // Drawing brings it back into the list.
        self.at = self.at.saturating_add_signed(by);
        self.hidden = (0, 0);
    }

    /// Moves by a window's height.
    pub fn page<K>(&mut self, down: bool, entries: &[Entry<K>]) {
        // An entry takes about two lines.
        let by = isize::try_from((self.page / 2).max(1)).unwrap_or(1);
        self.jump(if down { by } else { -by }, entries);
    }

    /// Draws the entries; with `active`, the one that the cursor stands on is in focus.
    pub fn draw<K>(&mut self, canvas: &mut Canvas<'_>, area: Rect, entries: &[Entry<K>], active: bool) {
        if area.width < 8 || area.height == 0 {
            return;
        }
        let label_room = label_room(entries, area.width);
        let text_x = area.x + BEFORE + label_room;
        let lines = lines(entries, area.right() - text_x);
        let count = entries.iter().filter(|entry| entry.key.is_some()).count();
        self.at = self.at.min(count.saturating_sub(1));
        self.page = usize::from(area.height);
        self.scroll(&lines, count);
        let (key_style, quiet, focus) = (canvas.theme.key(), canvas.theme.quiet(), canvas.theme.focus());
        for (y, line) in (area.top()..area.bottom()).zip(lines.iter().skip(self.top)) {
            let entry = line.entry;
            let in_focus = active && line.key == Some(self.at);
            if line.first {
                canvas.put(area.x, y, 1, if in_focus { "▸" } else { " " }, key_style);
                canvas.put(area.x + 2, y, label_room, entry.label, if in_focus { key_style } else { quiet });
            }
            let mut x = text_x;
            if let Some(piece) = entry.swatches.as_ref().filter(|_| line.first) {
                swatch::draw(canvas, x, y, area.right(), std::slice::from_ref(piece));
            }
            x += entry.indent();
            let style = match entry.tone {
                Tone::Plain => canvas.theme.text(),
                Tone::Quiet => quiet,
                Tone::Waiting => canvas.theme.open(),
            };
            let used = canvas.put(x, y, area.right().saturating_sub(x), &line.text, style);
            if in_focus {
                canvas.restyle(Rect::new(x, y, used, 1), focus);
            }
            if let Some(key) = line.key {
                canvas.hit(Rect::new(area.x, y, area.width, 1), Hit::Row(key));
            }
        }
        if self.top > 0 {
            canvas.put(area.right() - 1, area.y, 1, "▴", quiet);
        }
        if self.top + self.page < lines.len() {
            canvas.put(area.right() - 1, area.bottom() - 1, 1, "▾", quiet);
        }
    }

    /// Scrolls as little as need be to show the entry in focus, and remembers how much of it is out of sight.
    fn scroll<K>(&mut self, lines: &[Line<'_, K>], count: usize) {
        let in_focus = |line: &Line<'_, K>| line.key == Some(self.at);
        let mut start = lines.iter().position(in_focus).unwrap_or(0);
        let mut end = lines.iter().rposition(in_focus).map_or(0, |last| last + 1);
        let own = start..end;
        // Facts that stand before the first entry, or behind the last, are shown along with it.
        if self.at == 0 {
            start = 0;
        }
        if self.at + 1 >= count {
            end = lines.len();
        }
        if end - start > self.page {
            (start, end) = (own.start, own.end);
        }
        let latest = end.saturating_sub(self.page);
        self.top = self.top.clamp(start.min(latest), start.max(latest));
        self.top = self.top.min(lines.len().saturating_sub(self.page));
        self.hidden = (self.top.saturating_sub(own.start), own.end.saturating_sub(self.top + self.page));
    }
}

/// Cells for the pointer, and between label and text.
const BEFORE: u16 = 4;

fn label_room<K>(entries: &[Entry<K>], wide: u16) -> u16 {
    let longest = entries.iter().map(|entry| width(entry.label)).max().unwrap_or(0);
    u16::try_from(longest).unwrap_or(0).min(wide / 4)
}

/// How many lines the entries take at a width.
pub fn height<K>(entries: &[Entry<K>], wide: u16) -> u16 {
    let room = wide.saturating_sub(BEFORE + label_room(entries, wide));
    u16::try_from(lines(entries, room).len()).unwrap_or(u16::MAX)
}

/// One line of an entry.
struct Line<'a, K> {
    entry: &'a Entry<K>,
    first: bool,
    key: Option<usize>,
    text: String,
}

fn lines<K>(entries: &[Entry<K>], room: u16) -> Vec<Line<'_, K>> {
    let mut lines = Vec::new();
    let mut keys = 0..;
    for entry in entries {
        let key = entry.key.as_ref().and_then(|_| keys.next());
        // The last column is kept for the marks that there is more.
        let room = room.saturating_sub(entry.indent() + 1);
        let mut texts = wrapped(&entry.text, usize::from(room));
        if texts.is_empty() {
            texts.push(String::new());
        }
        let line = |(at, text)| Line { entry, first: at == 0, key, text };
        lines.extend(texts.into_iter().enumerate().map(line));
    }
    lines
}
