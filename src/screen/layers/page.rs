//! Read: lines of words with headings, scrolled.

use crossterm::event::{Event, KeyCode, KeyEventKind};
use ratatui::layout::Rect;

use super::{Layer, Next};
use crate::board::Board;
use crate::screen::app::App;
use crate::screen::canvas::{Canvas, width};
use crate::screen::parts::window;

/// One line of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// A heading.
    Heading(String),
    /// A word to the left and its explanation.
    Pair(String, String),
}

/// Lines to read.
pub struct Page {
    title: String,
    lines: Vec<Line>,
    top: usize,
    rows: usize,
}

impl Page {
    /// A page of these lines.
    pub fn new(title: impl Into<String>, lines: Vec<Line>) -> Self {
        Self { title: title.into(), lines, top: 0, rows: 1 }
    }

    fn step(&mut self, by: isize) {
        self.top = self.top.saturating_add_signed(by).min(self.lines.len().saturating_sub(self.rows));
    }
}

impl Layer for Page {
    fn draw(&mut self, _: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let left = self.lines.iter().map(|line| match line {
            Line::Heading(_) => 0,
            Line::Pair(word, _) => width(word),
        });
        let left = u16::try_from(left.max().unwrap_or(0)).unwrap_or(0).min(area.width / 3);
        let rows = u16::try_from(self.lines.len()).unwrap_or(u16::MAX);
        let foot = format!("{} lines", self.lines.len());
        let inside = window::open(canvas, area, (92, rows.saturating_add(2)), &self.title, &foot);
        self.rows = usize::from(inside.height);
        self.step(0);
        let (heading, key, text) = (canvas.theme.heading(), canvas.theme.key(), canvas.theme.text());
        for (y, line) in (inside.top()..inside.bottom()).zip(self.lines.iter().skip(self.top)) {
            match line {
                Line::Heading(words) => {
                    canvas.put(inside.x, y, inside.width, words, heading);
                }
                Line::Pair(word, words) => {
                    canvas.put(inside.x, y, left, word, key);
                    let x = inside.x + left + 2;
                    canvas.put(x, y, inside.right().saturating_sub(x), words, text);
                }
            }
        }
    }

    fn event(&mut self, event: &Event, _: &mut App) -> Next {
        let Event::Key(key) = event else { return Next::Keep };
        if key.kind == KeyEventKind::Release {
            return Next::Keep;
        }
        let page = isize::try_from(self.rows).unwrap_or(1);
        match key.code {
            KeyCode::Up | KeyCode::Char('k') => self.step(-1),
            KeyCode::Down | KeyCode::Char('j') => self.step(1),
            KeyCode::PageUp => self.step(-page),
            KeyCode::PageDown | KeyCode::Char(' ') => self.step(page),
            KeyCode::Home => self.step(isize::MIN),
            KeyCode::End => self.step(isize::MAX),
            _ => return Next::Close,
        }
        Next::Keep
    }

    fn scroll(&mut self, by: isize) {
        self.step(by);
    }

    fn keys(&self) -> &'static str {
        "↑↓ read on · any other key closes"
    }
}
