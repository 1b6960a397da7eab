//! Read: lines of words with headings, scrolled; and, where something is about to be done, do it or leave it.

use crossterm::event::{Event, KeyCode, KeyEventKind};
use ratatui::layout::Rect;

use super::{Layer, Next};
use crate::board::Board;
use crate::screen::app::App;
use crate::screen::canvas::{Canvas, width, wrapped};
use crate::screen::parts::window;

/// One line of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// A heading.
    Heading(String),
    /// A word to the left and its explanation.
    Pair(String, String),
}

type Then = Box<dyn FnOnce(&mut App)>;

/// Lines to read.
pub struct Page {
    title: String,
    lines: Vec<Line>,
    top: usize,
    rows: usize,
    /// How many rows all lines take at the width of the last frame.
    length: usize,
    /// What enter does.
    then: Option<Then>,
}

/// The widest that a page is.
const WIDEST: u16 = 92;

impl Page {
    /// A page of these lines.
    pub fn new(title: impl Into<String>, lines: Vec<Line>) -> Self {
        let length = lines.len();
        Self { title: title.into(), lines, top: 0, rows: 1, length, then: None }
    }

    /// The page with something that enter does.
    #[must_use]
    pub fn then(mut self, then: impl FnOnce(&mut App) + 'static) -> Self {
        self.then = Some(Box::new(then));
        self
    }

    /// The lines in rows that fit into this width, with so many cells for the words to the left.
    fn laid(&self, wide: u16, left: u16) -> Vec<Line> {
        let mut rows = Vec::with_capacity(self.lines.len());
        let fold = |words: &str, wide: u16| {
            let mut rows = wrapped(words, usize::from(wide).max(1));
            if rows.is_empty() {
                rows.push(String::new());
            }
            rows
        };
        for line in &self.lines {
            match line {
                Line::Heading(words) => rows.extend(fold(words, wide).into_iter().map(Line::Heading)),
                Line::Pair(word, words) => {
                    let folded = fold(words, wide.saturating_sub(left + 2)).into_iter().enumerate();
                    let word = |at: usize| if at == 0 { word.clone() } else { String::new() };
                    rows.extend(folded.map(|(at, words)| Line::Pair(word(at), words)));
                }
            }
        }
        rows
    }

    fn step(&mut self, by: isize) {
        self.top = self.top.saturating_add_signed(by).min(self.length.saturating_sub(self.rows));
    }
}

impl Layer for Page {
    fn draw(&mut self, _: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let left = self.lines.iter().map(|line| match line {
            Line::Heading(_) => 0,
            Line::Pair(word, _) => width(word),
        });
        let left = u16::try_from(left.max().unwrap_or(0)).unwrap_or(0).min(area.width / 3);
        let laid = self.laid(WIDEST.min(area.width).saturating_sub(4), left);
        self.length = laid.len();
        let rows = u16::try_from(laid.len()).unwrap_or(u16::MAX);
        let foot = format!("{} lines", laid.len());
        let inside = window::open(canvas, area, (WIDEST, rows.saturating_add(2)), &self.title, &foot);
        self.rows = usize::from(inside.height);
        self.step(0);
        let (heading, key, text) = (canvas.theme.heading(), canvas.theme.key(), canvas.theme.text());
        for (y, line) in (inside.top()..inside.bottom()).zip(laid.iter().skip(self.top)) {
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

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
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
            KeyCode::Enter => {
                if let Some(then) = self.then.take() {
                    then(app);
                }
                return Next::Close;
            }
            // What is about to be done is not lost to a stray key.
            _ if self.then.is_some() && key.code != KeyCode::Esc => {}
            _ => return Next::Close,
        }
        Next::Keep
    }

    fn scroll(&mut self, by: isize) {
        self.step(by);
    }

    fn keys(&self) -> &'static str {
        if self.then.is_some() {
            "enter does it · ↑↓ read on · esc leaves it"
        } else {
            "↑↓ read on · any other key closes"
        }
    }
}
