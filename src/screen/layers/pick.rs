//! Choose one of a list, narrowed down by typing.

use crossterm::event::{Event, KeyCode, KeyEventKind, KeyModifiers};
use ratatui::layout::Rect;

use super::{Layer, Next};
use crate::board::Board;
use crate::screen::app::App;
use crate::screen::canvas::{Canvas, Hit, width, wrapped};
use crate::screen::parts::input::Input;
use crate::screen::parts::list::Cursor;
use crate::screen::parts::matching::Wanted;
use crate::screen::parts::window;

/// One row of a list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Item {
    /// A short mark before the text.
    pub mark: String,
    /// What is chosen.
    pub text: String,
    /// More about it, quiet and to the right.
    pub note: String,
}

impl Item {
    /// A row with a note.
    pub fn new(text: impl Into<String>, note: impl Into<String>) -> Self {
        Self { mark: String::new(), text: text.into(), note: note.into() }
    }

    /// The row with a mark.
    pub fn marked(mut self, mark: impl Into<String>) -> Self {
        self.mark = mark.into();
        self
    }
}

type Then = Box<dyn FnOnce(&mut App, usize)>;

/// A list to choose from.
pub struct Pick {
    title: String,
    lead: Vec<String>,
    items: Vec<Item>,
    shown: Vec<usize>,
    filter: Option<Input>,
    cursor: Cursor,
    page: usize,
    then: Option<Then>,
}

impl Pick {
    /// A list that is narrowed down by typing; `then` gets the place of the chosen item.
    pub fn new(
        title: impl Into<String>,
        items: Vec<Item>,
        then: impl FnOnce(&mut App, usize) + 'static,
    ) -> Self {
        let mut pick = Self {
            title: title.into(),
            lead: Vec::new(),
            shown: Vec::new(),
            items,
            filter: Some(Input::default()),
            cursor: Cursor::default(),
            page: 1,
            then: Some(Box::new(then)),
        };
        pick.narrow();
        pick
    }

    /// A short list that takes no typing: a question with answers.
    pub fn question(
        title: impl Into<String>,
        lead: Vec<String>,
        items: Vec<Item>,
        then: impl FnOnce(&mut App, usize) + 'static,
    ) -> Self {
        let mut pick = Self::new(title, items, then);
        pick.lead = lead;
        pick.filter = None;
        pick
    }

    /// Puts the cursor on an item.
    #[must_use]
    pub fn at(mut self, item: usize) -> Self {
        self.cursor.at = item;
        self
    }

    /// The row in focus.
    pub fn at_row(&self) -> usize {
        self.cursor.at
    }

    /// Puts items, or none, in the place of one. What is in focus stays so; in the place of what goes it is the first of
    /// what comes.
    pub fn replace(&mut self, item: usize, by: Vec<Item>) {
        let focus = self.shown.get(self.cursor.at).copied().unwrap_or(0);
        let focus = if focus > item { focus - 1 + by.len() } else { focus };
        self.items.splice(item..=item, by);
        self.narrow();
        self.cursor.at = self.shown.iter().position(|shown| *shown == focus).unwrap_or(0);
    }

    /// Whether there is nothing to choose from.
    pub fn is_empty(&self) -> bool {
        self.items.is_empty()
    }

    fn narrow(&mut self) {
        let words = self.filter.as_ref().map(Input::text).unwrap_or_default();
        let wanted = Wanted::new(&words);
        if wanted.is_empty() {
            self.shown = (0..self.items.len()).collect();
        } else {
            // A scene's number is its mark.
            let score = |item: &Item| wanted.score(&[&item.mark, &item.text, &item.note]);
            let mut scored: Vec<(u32, usize)> =
                self.items.iter().enumerate().filter_map(|(at, item)| Some((score(item)?, at))).collect();
            scored.sort_by_key(|(score, at)| (std::cmp::Reverse(*score), *at));
            self.shown = scored.into_iter().map(|(_, at)| at).collect();
        }
        self.cursor = Cursor::default();
    }

    fn choose(&mut self, app: &mut App) -> Next {
        let Some(item) = self.shown.get(self.cursor.at).copied() else { return Next::Keep };
        if let Some(then) = self.then.take() {
            then(app, item);
        }
        Next::Close
    }
}

impl Layer for Pick {
    fn draw(&mut self, _: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let widest =
            self.items.iter().map(|item| width(&item.mark) + width(&item.text) + width(&item.note) + 4);
        let widest = widest.chain(self.lead.iter().map(|line| width(line))).max().unwrap_or(0);
        let wide = u16::try_from(widest + 4).unwrap_or(u16::MAX).clamp(44, 100).min(area.width);
        let lead: Vec<String> =
            self.lead.iter().flat_map(|line| wrapped(line, usize::from(wide.saturating_sub(4)))).collect();
        let above = u16::try_from(lead.len()).unwrap_or(0) + if self.filter.is_some() { 1 } else { 0 };
        let rows = u16::try_from(self.items.len()).unwrap_or(u16::MAX).max(1);
        let high = above.saturating_add(rows).saturating_add(2);
        let foot = match self.shown.len() {
            0 => "nothing matches".to_owned(),
            found => format!("{} of {found}", self.cursor.at + 1),
        };
        let inside = window::open(canvas, area, (wide, high), &self.title, &foot);
        let right = inside.right();
        let mut y = inside.y;
        // On a small screen the answers are worth more than the last lines of the question.
        for line in lead.iter().take(usize::from(inside.height.saturating_sub(rows.min(4)))) {
            let text = canvas.theme.text();
            canvas.put(inside.x, y, inside.width, line, text);
            y += 1;
        }
        if let Some(filter) = &self.filter {
            let key = canvas.theme.key();
            canvas.put(inside.x, y, 1, "›", key);
            filter.draw(canvas, inside.x + 2, y, inside.width.saturating_sub(2), true);
            y += 1;
        }
        self.page = usize::from(inside.bottom().saturating_sub(y)).max(1);
        let range = self.cursor.window(self.shown.len(), self.page);
        for row in range {
            if y >= inside.bottom() {
                break;
            }
            let item = &self.items[self.shown[row]];
            let (text, quiet, focus) = (canvas.theme.text(), canvas.theme.quiet(), canvas.theme.focus());
            let mut x = inside.x;
            if !item.mark.is_empty() {
                x = canvas.spans(x, y, right, &[(&item.mark, text), (" ", text)]);
            }
            x = canvas.spans(x, y, right, &[(&item.text, text)]);
            let room = usize::from(right.saturating_sub(x + 2));
            if room > 4 && !item.note.is_empty() {
                let used = u16::try_from(width(&item.note).min(room)).unwrap_or(0);
                canvas.put(right - used, y, used, &item.note, quiet);
            }
            let line = Rect::new(inside.x, y, inside.width, 1);
            if row == self.cursor.at {
                canvas.restyle(line, focus);
            }
            canvas.hit(line, Hit::Row(row));
            y += 1;
        }
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        let page = isize::try_from(self.page).unwrap_or(1);
        if let Event::Key(key) = event {
            if key.kind == KeyEventKind::Release {
                return Next::Keep;
            }
            let ctrl = key.modifiers.contains(KeyModifiers::CONTROL);
            let by = match key.code {
                KeyCode::Esc => return Next::Close,
                KeyCode::Char('c') if ctrl => return Next::Close,
                KeyCode::Enter => return self.choose(app),
                KeyCode::Up => Some(-1),
                KeyCode::Down => Some(1),
                KeyCode::Char('p') if ctrl => Some(-1),
                KeyCode::Char('n') if ctrl => Some(1),
                KeyCode::Char('k') if self.filter.is_none() => Some(-1),
                KeyCode::Char('j') if self.filter.is_none() => Some(1),
                KeyCode::PageUp => Some(-page),
                KeyCode::PageDown => Some(page),
                _ => None,
            };
            if let Some(by) = by {
                self.cursor.step(by, self.shown.len());
                return Next::Keep;
            }
        }
        if self.filter.as_mut().is_some_and(|filter| filter.take(event)) {
            self.narrow();
        }
        Next::Keep
    }

    fn click(&mut self, row: usize, app: &mut App) -> Next {
        self.cursor.at = row;
        self.choose(app)
    }

    fn scroll(&mut self, by: isize) {
        self.cursor.step(by, self.shown.len());
    }

    fn keys(&self) -> &'static str {
        if self.filter.is_some() {
            "type to narrow down · ↑↓ move · enter choose · esc close"
        } else {
            "↑↓ move · enter choose · esc close"
        }
    }
}
