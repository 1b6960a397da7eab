//! What is told about the row in focus: made once for a row, and scrolled where it is longer than its place.

use ratatui::layout::Rect;
use ratatui::style::Style;

use crate::screen::canvas::{Canvas, wrapped};

/// How a line is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// What it is about.
    Heading,
    /// As it is.
    Plain,
    /// Besides.
    Quiet,
    /// What should give pause.
    Warning,
}

/// A line, with spaces before it by which all of it is indented when it is broken.
pub type Said = (String, Tone);

/// What is told, and how far down one has read.
#[derive(Default)]
pub struct About {
    told: Option<(usize, Vec<Said>)>,
    top: usize,
}

impl About {
    /// Takes up the row in focus. `tell` is asked only when it is another than before.
    pub fn follow(&mut self, row: usize, tell: impl FnOnce() -> Vec<Said>) {
        if self.told.as_ref().is_none_or(|(told, _)| *told != row) {
            *self = Self { told: Some((row, tell())), top: 0 };
        }
    }

    /// Reads on by so many lines, or back.
    pub fn scroll(&mut self, by: isize) {
        // How many lines there are depends on their place: drawing holds it to the last.
        self.top = self.top.saturating_add_signed(by);
    }

    /// Draws it, with what is known only now behind its first `lead` lines.
    pub fn draw(&mut self, lead: usize, now: Option<Said>, canvas: &mut Canvas<'_>, area: Rect) {
        let told = self.told.as_ref().map_or(&[][..], |(_, told)| told);
        let (before, after) = told.split_at(lead.min(told.len()));
        let all = before.iter().chain(&now).chain(after);
        let lines: Vec<(usize, String, Tone)> =
            all.flat_map(|(line, tone)| broken(line, area.width).map(|(x, part)| (x, part, *tone))).collect();
        let high = usize::from(area.height);
        let is_cut = lines.len() > high && high > 1;
        let rows = if is_cut { high - 1 } else { high };
        self.top = self.top.min(lines.len().saturating_sub(rows));
        for (y, (x, part, tone)) in (area.top()..area.bottom()).zip(lines.iter().skip(self.top).take(rows)) {
            let x = u16::try_from(*x).unwrap_or(0).min(area.width);
            canvas.put(area.x + x, y, area.width - x, part, style(canvas, *tone));
        }
        if is_cut {
            let last = (self.top + rows).min(lines.len());
            let words = format!("lines {}–{last} of {} · J K read on and back", self.top + 1, lines.len());
            let style = style(canvas, Tone::Quiet);
            canvas.put(area.x, area.bottom() - 1, area.width, &words, style);
        }
    }
}

/// The parts of a line that is broken to a width, each with its indent.
fn broken(line: &str, width: u16) -> impl Iterator<Item = (usize, String)> {
    let words = line.trim_start();
    let indent = line.len() - words.len();
    let room = usize::from(width).saturating_sub(indent).max(8);
    wrapped(words, room).into_iter().map(move |part| (indent, part))
}

fn style(canvas: &Canvas<'_>, tone: Tone) -> Style {
    match tone {
        Tone::Heading => canvas.theme.heading(),
        Tone::Plain => canvas.theme.text(),
        Tone::Quiet => canvas.theme.quiet(),
        Tone::Warning => canvas.theme.full(),
    }
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::*;

    #[test]
    fn what_is_told_is_made_once_for_a_row() {
        let (made, mut about) = (Cell::new(0), About::default());
        let tell = || {
            made.set(made.get() + 1);
            vec![("told".to_owned(), Tone::Plain)]
        };
        for _ in 0..3 {
            about.follow(4, tell);
        }
        assert_eq!(made.get(), 1);
        about.follow(5, tell);
        assert_eq!(made.get(), 2);
    }

    #[test]
    fn another_row_is_read_from_its_beginning() {
        let mut about = About::default();
        about.follow(0, Vec::new);
        about.scroll(3);
        about.follow(0, Vec::new);
        assert_eq!(about.top, 3);
        about.follow(1, Vec::new);
        assert_eq!(about.top, 0);
    }
}
