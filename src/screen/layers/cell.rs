//! Write one value where it stands, with a line below it that says how it is read or what is wrong with it.

use std::rc::Rc;

use crossterm::event::{Event, KeyCode, KeyEventKind};
use ratatui::layout::Rect;

use super::{Layer, Next};
use crate::board::Board;
use crate::screen::app::App;
use crate::screen::canvas::{Canvas, width, wrapped};
use crate::screen::parts::input::Input;

/// Where a view has drawn the cell, as of its last frame; the view moves it when the screen is resized.
pub type Place = Rc<std::cell::Cell<Rect>>;

/// Says what a text will be kept as, or what is wrong with it.
type Reading = Box<dyn Fn(&str) -> Result<String, String>>;

type Then = Box<dyn FnMut(&mut App, &str) -> Result<(), String>>;

/// A cell of a table while it is written.
pub struct Cell {
    place: Place,
    input: Input,
    reading: Reading,
    wrong: Option<String>,
    then: Then,
}

/// The least room to write in.
const LEAST: u16 = 14;

impl Cell {
    /// A cell that holds a text; `then` gets what was written, and the cell stays where it says what is wrong with it.
    pub fn new(
        place: Place,
        text: impl Into<String>,
        reading: impl Fn(&str) -> Result<String, String> + 'static,
        then: impl FnMut(&mut App, &str) -> Result<(), String> + 'static,
    ) -> Self {
        Self { place, input: Input::new(text), reading: Box::new(reading), wrong: None, then: Box::new(then) }
    }

    fn submit(&mut self, app: &mut App) -> Next {
        let done = (self.then)(app, self.input.text().trim());
        self.wrong = done.err().or_else(|| app.refused().map(str::to_owned));
        if self.wrong.is_some() { Next::Keep } else { Next::Close }
    }

    /// What stands below the cell, and whether it is wrong.
    fn says(&self) -> (String, bool) {
        match &self.wrong {
            Some(wrong) => (format!("! {wrong}"), true),
            None => match (self.reading)(self.input.text().trim()) {
                Ok(words) if words.is_empty() => (words, false),
                Ok(words) => (format!("→ {words}"), false),
                Err(words) => (format!("! {words}"), true),
            },
        }
    }
}

impl Layer for Cell {
    fn draw(&mut self, _: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let cell = self.place.get().clamp(area);
        let wide = cell.width.max(LEAST).min(area.width);
        let x = cell.x.min(area.right().saturating_sub(wide));
        let (says, is_wrong) = self.says();
        let most = usize::from(area.width.min(60));
        let lines = wrapped(&says, most.saturating_sub(2));
        let style = if is_wrong { canvas.theme.over() } else { canvas.theme.text() };
        let longest = lines.iter().map(|line| width(line)).max().unwrap_or(0);
        let room = u16::try_from(longest + 2).unwrap_or(u16::MAX).max(wide).min(area.width);
        let left = x.min(area.right().saturating_sub(room));
        let high = u16::try_from(lines.len()).unwrap_or(0);
        // Below the cell where there is room, else above it.
        let below = cell.y + 1 + high <= area.bottom();
        let top = if below { cell.y + 1 } else { cell.y.saturating_sub(high).max(area.y) };
        canvas.clear(Rect::new(left, top, room, high.min(area.bottom().saturating_sub(top))));
        for (y, line) in (top..area.bottom()).zip(&lines) {
            canvas.put(left + 1, y, room.saturating_sub(1), line, style);
        }
        canvas.clear(Rect::new(x, cell.y, wide, 1));
        self.input.draw(canvas, x, cell.y, wide, true);
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        if let Event::Key(key) = event {
            if key.kind == KeyEventKind::Release {
                return Next::Keep;
            }
            if super::leaves(key) {
                return Next::Close;
            }
            if key.code == KeyCode::Enter {
                return self.submit(app);
            }
        }
        if self.input.take(event) {
            self.wrong = None;
        }
        Next::Keep
    }

    fn keys(&self) -> &'static str {
        "enter done · ctrl-u empty it · esc leave it"
    }
}
