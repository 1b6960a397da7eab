//! What a page of the workroom shows: lines that stay at its head, lines that scroll, and lines that stay at its foot.
//!
//! Pages only make lines; this draws them, scrolls to what the cursor stands on, and knows where the cell in focus is.

use ratatui::layout::Rect;
use ratatui::style::Style;

use crate::screen::canvas::{Canvas, Hit, width, wrapped};
use crate::trade::colour::Colour;

/// How words sound.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tone {
    Plain,
    Quiet,
    Strong,
    /// Something lacks or is too little.
    Wrong,
    /// All is there.
    Well,
    /// A swatch of this colour.
    Swatch(Option<Colour>),
}

/// Words in one tone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    text: String,
    tone: Tone,
    in_focus: bool,
}

impl Span {
    /// Words.
    pub fn new(text: impl Into<String>, tone: Tone) -> Self {
        Self { text: text.into(), tone, in_focus: false }
    }

    /// Words that say whether something is as it should be.
    pub fn judged(text: impl Into<String>, is_wrong: bool) -> Self {
        Self::new(text, if is_wrong { Tone::Wrong } else { Tone::Plain })
    }

    /// A swatch of one cell.
    pub fn swatch(colour: Option<&Colour>) -> Self {
        Self::new("", Tone::Swatch(colour.cloned()))
    }

    /// The words, in focus where `is` says so.
    #[must_use]
    pub fn focused(mut self, is: bool) -> Self {
        self.in_focus = is;
        self
    }

    fn draw(&self, canvas: &mut Canvas<'_>, x: u16, y: u16, right: u16, active: bool) -> u16 {
        let theme = canvas.theme;
        let style: Style = match &self.tone {
            Tone::Plain => theme.text(),
            Tone::Quiet => theme.quiet(),
            Tone::Strong => theme.heading(),
            Tone::Wrong => theme.open(),
            Tone::Well => theme.within(),
            Tone::Swatch(colour) => {
                let (glyph, style) = (theme.cloth_glyph(colour.as_ref()), theme.cloth(colour.as_ref()));
                return canvas.spans(x, y, right, &[(glyph, style)]);
            }
        };
        let end = canvas.spans(x, y, right, &[(&self.text, style)]);
        if self.in_focus {
            let style = if active { theme.focus() } else { theme.heading() };
            canvas.restyle(Rect::new(x, y, end - x, 1), style);
        }
        end
    }
}

/// One line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Line {
    spans: Vec<Span>,
    key: Option<usize>,
}

impl Line {
    /// A line of spans.
    pub fn of(spans: Vec<Span>) -> Self {
        Self { spans, key: None }
    }

    /// A line of words in one tone.
    pub fn words(text: impl Into<String>, tone: Tone) -> Self {
        Self::of(vec![Span::new(text, tone)])
    }

    /// The line as a part of what the cursor stops on.
    #[must_use]
    pub fn at(mut self, key: usize) -> Self {
        self.key = Some(key);
        self
    }
}

/// Words in as many lines as they take, each so far in.
pub fn folded(text: &str, wide: u16, indent: u16, tone: &Tone) -> Vec<Line> {
    let room = usize::from(wide.saturating_sub(indent + BEFORE + 1)).max(8);
    let margin = " ".repeat(usize::from(indent));
    wrapped(text, room).iter().map(|line| Line::words(format!("{margin}{line}"), tone.clone())).collect()
}

/// Cells for the pointer.
pub const BEFORE: u16 = 2;

/// A page.
#[derive(Clone, Debug, Default)]
pub struct Lines {
    /// Lines that stay at the head.
    pub head: Vec<Line>,
    /// Lines that scroll.
    pub body: Vec<Line>,
    /// Lines that stay at the foot.
    pub foot: Vec<Line>,
}

/// Where the cursor stands on a page, and how far it is scrolled.
#[derive(Clone, Copy, Debug, Default)]
pub struct Cursor {
    /// What it stands on; on a page without stops, the first line.
    pub at: usize,
    top: usize,
    rows: usize,
    /// Lines of what it stands on that are out of sight, above and below.
    hidden: (usize, usize),
}

impl Cursor {
    /// Goes on through what it stands on, where that is longer than the window; says whether it was.
    pub fn roll(&mut self, by: isize) -> bool {
        let most = self.rows.saturating_sub(1).max(1);
        match (by, self.hidden) {
            (1, (_, below)) if below > 0 => self.top += below.min(most),
            (-1, (above, _)) if above > 0 => self.top -= above.min(most).min(self.top),
            _ => return false,
        }
        true
    }

    /// Moves by so many stops of `count`, or by so many lines where there are none.
    pub fn step(&mut self, by: isize, count: usize) {
        // Drawing holds a page without stops to its length.
        let most = if count == 0 { usize::MAX } else { count - 1 };
        self.at = self.at.saturating_add_signed(by).min(most);
    }

    /// How many lines a page on goes.
    pub fn page(&self) -> isize {
        isize::try_from(self.rows.saturating_sub(1)).unwrap_or(1).max(1)
    }
}

impl Lines {
    /// How many rows it takes.
    pub fn high(&self) -> u16 {
        let rows = self.head.len() + self.body.len() + self.foot.len();
        u16::try_from(rows).unwrap_or(u16::MAX)
    }

    /// Draws it; `active` where the keys act on it. Returns where the cell in focus is.
    pub fn draw(
        &self,
        canvas: &mut Canvas<'_>,
        area: Rect,
        cursor: &mut Cursor,
        active: bool,
        hit: impl Fn(usize) -> Hit,
    ) -> Option<Rect> {
        let high = usize::from(area.height);
        if high == 0 || area.width < 4 {
            return None;
        }
        // What scrolls keeps a few rows, and the head is worth more than the foot.
        let head = self.head.len().min(high.saturating_sub(2));
        let least = self.body.len().min(4);
        let foot = self.foot.len().min(high.saturating_sub(head + least));
        let rows = high - head - foot;
        self.scroll(cursor, rows);
        let body = self.body.iter().skip(cursor.top).take(rows);
        let shown = body.len();
        let (mut place, mut pointed) = (None, false);
        let all = self.head.iter().take(head).chain(body).chain(self.foot.iter().take(foot));
        for (y, line) in (area.y..).zip(all) {
            let row = Rect { y, height: 1, ..area };
            place = place.or(line.draw(canvas, row, active));
            if let Some(key) = line.key {
                if active && key == cursor.at && !pointed {
                    let style = canvas.theme.key();
                    canvas.put(area.x, y, 1, "▸", style);
                    pointed = true;
                }
                canvas.hit(row, hit(key));
            }
        }
        let quiet = canvas.theme.quiet();
        let first = area.y + u16::try_from(head).unwrap_or(0);
        if cursor.top > 0 {
            canvas.put(area.right() - 1, first, 1, "▴", quiet);
        }
        if cursor.top + shown < self.body.len() && shown > 0 {
            let last = first + u16::try_from(shown - 1).unwrap_or(0);
            canvas.put(area.right() - 1, last, 1, "▾", quiet);
        }
        place
    }

    /// Scrolls as little as need be to show what the cursor stands on, and remembers how much of it is out of sight.
    fn scroll(&self, cursor: &mut Cursor, rows: usize) {
        cursor.rows = rows;
        let most = self.body.len().saturating_sub(rows);
        let Some(last) = self.body.iter().filter_map(|line| line.key).max() else {
            cursor.at = cursor.at.min(most);
            (cursor.top, cursor.hidden) = (cursor.at, (0, 0));
            return;
        };
        cursor.at = cursor.at.min(last);
        let on = |line: &Line| line.key == Some(cursor.at);
        let mut start = self.body.iter().position(on).unwrap_or(0);
        let mut end = self.body.iter().rposition(on).map_or(0, |at| at + 1);
        // Lines before the first stop, and behind the last, are shown along with it.
        if cursor.at == 0 {
            start = 0;
        }
        if cursor.at == last && self.body.len() - start <= rows {
            end = self.body.len();
        }
        let latest = end.saturating_sub(rows);
        cursor.top = cursor.top.clamp(start.min(latest), start.max(latest)).min(most);
        cursor.hidden = (cursor.top.saturating_sub(start), end.saturating_sub(cursor.top + rows));
    }
}

impl Line {
    /// Draws it; returns where the cell in focus is, where it is on this line.
    fn draw(&self, canvas: &mut Canvas<'_>, area: Rect, active: bool) -> Option<Rect> {
        let mut place = None;
        let mut x = area.x + BEFORE;
        for span in &self.spans {
            let start = x;
            x = span.draw(canvas, x, area.y, area.right(), active);
            if span.in_focus && place.is_none() {
                place = Some(Rect::new(start, area.y, x - start, 1));
            }
        }
        place
    }
}

/// Text in so many cells, to the left or to the right.
pub fn cell(text: &str, wide: usize, to_right: bool) -> String {
    let text = crate::screen::canvas::fitted(text, wide);
    let gap = " ".repeat(wide.saturating_sub(width(&text)));
    if to_right { format!("{gap}{text}") } else { format!("{text}{gap}") }
}
