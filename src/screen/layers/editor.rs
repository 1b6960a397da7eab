//! Write longer text: notes of several lines.

use crossterm::event::{Event, KeyCode, KeyEventKind, KeyModifiers};
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::widgets::Widget;
use ratatui_textarea::{Input, TextArea, WrapMode};

use super::{Layer, Next};
use crate::board::Board;
use crate::screen::app::App;
use crate::screen::canvas::Canvas;
use crate::screen::parts::window;
use crate::trade::plain::is_unsafe;

type Then = Box<dyn FnMut(&mut App, String)>;

/// A text editor over the view.
pub struct Editor {
    title: String,
    area: TextArea<'static>,
    was: String,
    warned: bool,
    then: Then,
}

impl Editor {
    /// Opens on a text; `then` gets the text when it was changed and is kept.
    pub fn new(title: impl Into<String>, text: &str, then: impl FnMut(&mut App, String) + 'static) -> Self {
        let mut area = TextArea::from(text.lines().map(str::to_owned));
        area.set_cursor_line_style(Style::new());
        area.set_wrap_mode(WrapMode::WordOrGlyph);
        area.move_cursor(ratatui_textarea::CursorMove::Bottom);
        area.move_cursor(ratatui_textarea::CursorMove::End);
        Self {
            title: title.into(),
            area,
            was: text.trim_end().to_owned(),
            warned: false,
            then: Box::new(then),
        }
    }

    fn text(&self) -> String {
        self.area.lines().join("\n").trim_end().to_owned()
    }
}

impl Layer for Editor {
    fn draw(&mut self, _: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let want = (area.width.saturating_sub(4).min(90), area.height.saturating_sub(2).min(30));
        let foot = if self.warned { "not kept yet: esc again throws it away" } else { "" };
        let inside = window::open(canvas, area, want, &self.title, foot);
        // The widget draws its own cursor.
        (&self.area).render(inside, canvas.buffer);
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        match event {
            Event::Key(key) if key.kind != KeyEventKind::Release => {
                let ctrl = key.modifiers.contains(KeyModifiers::CONTROL);
                match key.code {
                    KeyCode::Char('s') if ctrl => {
                        let text = self.text();
                        if text != self.was {
                            (self.then)(app, text);
                        }
                        // What could not be kept stays to be copied or kept elsewhere.
                        return if app.refused().is_some() { Next::Keep } else { Next::Close };
                    }
                    KeyCode::Esc | KeyCode::Char('c') if key.code == KeyCode::Esc || ctrl => {
                        if self.text() == self.was || self.warned {
                            return Next::Close;
                        }
                        self.warned = true;
                        return Next::Keep;
                    }
                    _ => {}
                }
                self.warned = false;
                self.area.input(Input::from(*key));
            }
            Event::Paste(text) => {
                let text = text.replace("\r\n", "\n").replace('\r', "\n");
                let clean: String = text.chars().filter(|c| *c == '\n' || !is_unsafe(*c)).collect();
                self.area.insert_str(clean);
            }
            _ => {}
        }
        Next::Keep
    }

    fn keys(&self) -> &'static str {
        "ctrl-s keep · esc leave it"
    }
}
