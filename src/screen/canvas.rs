//! What views draw on: the frame's cells, the theme, and where the mouse can hit what was drawn.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::{Color, Modifier, Style};
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

use super::actions::Act;
use super::gallery::{Gallery, Seen, Subject};
use super::theme::Theme;
use super::views::Target;
use crate::trade::plain::is_unsafe;

/// What a click does.
#[derive(Clone, Debug, PartialEq)]
pub enum Hit {
    /// Do an action.
    Act(Act),
    /// Put the focus there.
    Target(Target),
    /// Put the focus on what the wall has painted at the cell that is hit.
    Place,
    /// The layer on top takes the cell itself.
    Cell,
    /// The row of this number in the layer or list on top.
    Row(usize),
}

/// The places that the mouse can hit; the last drawn lies on top.
#[derive(Debug, Default)]
pub struct Hits(Vec<(Rect, Hit)>);

impl Hits {
    /// Forgets all, for a new frame.
    pub fn clear(&mut self) {
        self.0.clear();
    }

    /// What lies at a cell.
    pub fn at(&self, column: u16, row: u16) -> Option<&Hit> {
        let place = Position::new(column, row);
        self.0.iter().rev().find(|(area, _)| area.contains(place)).map(|(_, hit)| hit)
    }
}

/// One frame in the making.
pub struct Canvas<'a> {
    /// The cells.
    pub buffer: &'a mut Buffer,
    /// The styles.
    pub theme: &'a Theme,
    hits: &'a mut Hits,
    gallery: Option<&'a mut Gallery>,
    /// Where the terminal's cursor shall stand, if anywhere.
    pub cursor: Option<Position>,
}

impl<'a> Canvas<'a> {
    /// A canvas over a frame's cells.
    pub fn new(buffer: &'a mut Buffer, theme: &'a Theme, hits: &'a mut Hits) -> Self {
        Self { buffer, theme, hits, gallery: None, cursor: None }
    }

    /// The same, with pictures.
    #[must_use]
    pub fn with(self, gallery: &'a mut Gallery) -> Self {
        Self { gallery: Some(gallery), ..self }
    }

    /// Whether pictures are shown at all.
    pub fn shows_pictures(&self) -> bool {
        self.gallery.as_ref().is_some_and(|gallery| gallery.is_on())
    }

    /// Draws a picture in the middle of `area`, or a notice why it cannot be shown; says what there is of it.
    pub fn picture(&mut self, area: Rect, subject: &Subject) -> Seen {
        self.see(area, subject, false)
    }

    /// The same in half blocks, whatever else the terminal can show, so that a mark can be set on it.
    pub fn picture_in_blocks(&mut self, area: Rect, subject: &Subject) -> Seen {
        self.see(area, subject, true)
    }

    /// Sets a cross on a cell of a picture.
    pub fn mark(&mut self, at: Position) {
        if let Some(cell) = self.buffer.cell_mut(at) {
            // White on black in all depths of colour: it is seen on any ground.
            let style = Style::reset().fg(Color::White).bg(Color::Black).add_modifier(Modifier::BOLD);
            cell.set_symbol("┼").set_style(style);
        }
    }

    fn see(&mut self, area: Rect, subject: &Subject, in_blocks: bool) -> Seen {
        let Some(gallery) = self.gallery.as_deref_mut() else { return Seen::Off };
        let seen = gallery.draw(self.buffer, area, subject, in_blocks);
        if let Seen::Not(why) = &seen {
            let name = match subject {
                Subject::File(path) => path.name(),
                Subject::Flat { .. } => "flat",
            };
            let (quiet, over) = (self.theme.quiet(), self.theme.over());
            self.put(area.x, area.y, area.width, &format!("! {name}"), over);
            for (y, line) in (area.y + 1..area.bottom()).zip(wrapped(why, usize::from(area.width))) {
                self.put(area.x, y, area.width, &line, quiet);
            }
        }
        seen
    }

    /// Writes as much of `text` as fits into `width` cells, with `…` where it is cut. Returns the cells used.
    pub fn put(&mut self, x: u16, y: u16, width: u16, text: &str, style: Style) -> u16 {
        if y >= self.buffer.area.bottom() || x >= self.buffer.area.right() {
            return 0;
        }
        let width = width.min(self.buffer.area.right() - x);
        let shown = fitted(text, usize::from(width));
        let (end, _) = self.buffer.set_stringn(x, y, shown.as_ref(), usize::from(width), style);
        end - x
    }

    /// Writes spans one after the other, no further than `right`. Returns the column behind the last.
    pub fn spans(&mut self, mut x: u16, y: u16, right: u16, spans: &[(&str, Style)]) -> u16 {
        for (text, style) in spans {
            if x >= right {
                break;
            }
            x += self.put(x, y, right - x, text, *style);
        }
        x
    }

    /// Sets the style of an area and leaves its letters.
    pub fn restyle(&mut self, area: Rect, style: Style) {
        self.buffer.set_style(area.intersection(self.buffer.area), style);
    }

    /// Blanks an area.
    pub fn clear(&mut self, area: Rect) {
        let area = area.intersection(self.buffer.area);
        if let Some(gallery) = self.gallery.as_deref_mut() {
            gallery.cover(area);
        }
        for y in area.top()..area.bottom() {
            for x in area.left()..area.right() {
                self.buffer[(x, y)].reset();
            }
        }
    }

    /// Makes all that was drawn so far unclickable: something lies over it.
    pub fn cover(&mut self) {
        self.hits.clear();
    }

    /// Makes an area clickable.
    pub fn hit(&mut self, area: Rect, hit: Hit) {
        self.hits.0.push((area.intersection(self.buffer.area), hit));
    }
}

/// The width of a text in cells.
pub fn width(text: &str) -> usize {
    text.width()
}

/// `text`, cut to `width` cells with `…` at the cut.
pub fn fitted(text: &str, width: usize) -> std::borrow::Cow<'_, str> {
    if text.len() <= width || text.width() <= width {
        return text.into();
    }
    if width == 0 {
        return "".into();
    }
    let mut used = 0;
    let mut end = 0;
    for (at, cluster) in text.grapheme_indices(true) {
        let wide = cluster.width();
        if used + wide > width - 1 {
            break;
        }
        used += wide;
        end = at + cluster.len();
    }
    format!("{}…", text[..end].trim_end()).into()
}

/// `text` in lines of at most `width` cells, broken between words where it can be.
pub fn wrapped(text: &str, width: usize) -> Vec<String> {
    let width = width.max(1);
    let mut lines = Vec::new();
    for paragraph in text.lines() {
        let mut line = String::new();
        for word in paragraph.split_whitespace() {
            let mut word = word;
            loop {
                let gap = usize::from(!line.is_empty());
                if line.width() + gap + word.width() <= width {
                    if gap == 1 {
                        line.push(' ');
                    }
                    line.push_str(word);
                    break;
                }
                if !line.is_empty() {
                    lines.push(std::mem::take(&mut line));
                    continue;
                }
                // A word wider than the line is broken where it must be.
                let mut end = 0;
                let mut used = 0;
                for (at, cluster) in word.grapheme_indices(true) {
                    if used + cluster.width() > width && end > 0 {
                        break;
                    }
                    used += cluster.width();
                    end = at + cluster.len();
                }
                lines.push(word[..end].to_owned());
                word = &word[end..];
                if word.is_empty() {
                    break;
                }
            }
        }
        lines.push(line);
    }
    lines
}

/// Takes out of the finished frame what must not reach the terminal, whoever put it there.
pub fn disarm(buffer: &mut Buffer) {
    for cell in &mut buffer.content {
        if cell.symbol().chars().any(is_unsafe) {
            cell.set_symbol("�");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_cut_by_cells_not_letters() {
        assert_eq!(fitted("crêpe de chine", 8), "crêpe d…");
        assert_eq!(fitted("着物着物", 5), "着物…");
        assert_eq!(fitted("short", 8), "short");
        assert_eq!(fitted("x", 0), "");
    }

    #[test]
    fn lines_break_between_words_and_inside_only_where_they_must() {
        assert_eq!(wrapped("worsted wool jersey", 8), ["worsted", "wool", "jersey"]);
        assert_eq!(wrapped("unbreakableword x", 6), ["unbrea", "kablew", "ord x"]);
        assert_eq!(wrapped("a\n\nb", 8), ["a", "", "b"]);
    }

    #[test]
    fn nothing_hostile_stays_in_a_frame() {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 4, 1));
        buffer[(0, 0)].set_symbol("\u{1b}");
        buffer[(1, 0)].set_symbol("a\u{202e}");
        disarm(&mut buffer);
        assert!(buffer.content.iter().all(|cell| !cell.symbol().chars().any(is_unsafe)));
    }
}
