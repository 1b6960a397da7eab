//! Fill in a few fields: lines of text, and choices among a few words.

use crossterm::event::{Event, KeyCode, KeyEventKind};
use ratatui::layout::Rect;
use ratatui::style::Style;

use super::{Layer, Next};
use crate::board::Board;
use crate::screen::app::App;
use crate::screen::canvas::{Canvas, Hit, width, wrapped};
use crate::screen::parts::input::Input;
use crate::screen::parts::window;

/// One field.
pub struct Field {
    label: &'static str,
    kind: Kind,
    reading: Option<Reading>,
}

/// Says what a text will be kept as, or what is wrong with it. Nothing to say is an empty text.
pub type Reading = fn(&str) -> Result<String, String>;

enum Kind {
    Line(Input),
    Choice { options: Vec<String>, at: usize },
}

impl Field {
    /// A line of text.
    pub fn line(label: &'static str, text: impl Into<String>) -> Self {
        Self { label, kind: Kind::Line(Input::new(text)), reading: None }
    }

    /// One of several options.
    pub fn choice(label: &'static str, options: Vec<String>, at: usize) -> Self {
        Self { label, kind: Kind::Choice { options, at }, reading: None }
    }

    /// The field with a line below it, while it is in focus, that says how its text is read.
    #[must_use]
    pub fn read_as(mut self, reading: Reading) -> Self {
        self.reading = Some(reading);
        self
    }

    fn draw(&self, canvas: &mut Canvas<'_>, x: u16, y: u16, right: u16, active: bool) {
        match &self.kind {
            Kind::Line(input) => input.draw(canvas, x, y, right.saturating_sub(x), active),
            Kind::Choice { options, at } => {
                let (key, quiet, text) = (canvas.theme.key(), canvas.theme.quiet(), canvas.theme.text());
                let option = options.get(*at).map_or("", String::as_str);
                let arrows = if options.len() > 1 { ("‹ ", " ›") } else { ("", "") };
                let many = options.len() > 2;
                let count = if many { format!("  {}/{}", at + 1, options.len()) } else { String::new() };
                canvas.spans(
                    x,
                    y,
                    right,
                    &[(arrows.0, key), (option, text), (arrows.1, key), (&count, quiet)],
                );
            }
        }
    }

    fn says(&self) -> Option<Result<String, String>> {
        match &self.kind {
            Kind::Line(input) => self.reading.map(|reading| reading(input.text().trim())),
            Kind::Choice { .. } => None,
        }
    }
}

/// What was filled in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Filled {
    /// A line of text.
    Line(String),
    /// The place of the chosen option.
    Choice(usize),
}

impl Filled {
    /// The text of a line; nothing for a choice.
    pub fn text(&self) -> &str {
        match self {
            Self::Line(text) => text.trim(),
            Self::Choice(_) => "",
        }
    }

    /// The place of the chosen option; the first for a line.
    pub fn choice(&self) -> usize {
        match self {
            Self::Line(_) => 0,
            Self::Choice(at) => *at,
        }
    }
}

/// Does the work, or says what is wrong with what was filled in; the form then stays and shows it.
type Then = Box<dyn FnMut(&mut App, &[Filled]) -> Result<(), String>>;

/// A few fields to fill in.
pub struct Form {
    title: String,
    lead: Vec<String>,
    fields: Vec<Field>,
    at: usize,
    wrong: Option<String>,
    /// Whether it lies at the foot, so that what is above stays to be seen.
    is_low: bool,
    then: Then,
}

impl Form {
    /// A form; `then` gets what was filled in, field by field.
    pub fn new(
        title: impl Into<String>,
        fields: Vec<Field>,
        then: impl FnMut(&mut App, &[Filled]) -> Result<(), String> + 'static,
    ) -> Self {
        Self {
            title: title.into(),
            lead: Vec::new(),
            fields,
            at: 0,
            wrong: None,
            is_low: false,
            then: Box::new(then),
        }
    }

    /// Lines above the fields.
    #[must_use]
    pub fn lead(mut self, lead: Vec<String>) -> Self {
        self.lead = lead;
        self
    }

    /// The form at the foot of the screen.
    #[must_use]
    pub fn low(mut self) -> Self {
        self.is_low = true;
        self
    }

    /// Shows what is wrong with what was filled in, where it turns out only behind `then`.
    pub fn refuse(&mut self, wrong: String) {
        self.wrong = Some(wrong);
    }

    fn submit(&mut self, app: &mut App) -> Next {
        let filled: Vec<Filled> = self
            .fields
            .iter()
            .map(|field| match &field.kind {
                Kind::Line(input) => Filled::Line(input.text()),
                Kind::Choice { at, .. } => Filled::Choice(*at),
            })
            .collect();
        let done = (self.then)(app, &filled);
        self.wrong = done.err().or_else(|| app.refused().map(str::to_owned));
        if self.wrong.is_some() { Next::Keep } else { Next::Close }
    }

    fn step(&mut self, by: isize) {
        let length = isize::try_from(self.fields.len()).unwrap_or(1).max(1);
        let at = isize::try_from(self.at).unwrap_or(0);
        self.at = usize::try_from((at + by).rem_euclid(length)).unwrap_or(0);
    }

    fn turn(&mut self, by: isize) -> bool {
        let Some(Field { kind: Kind::Choice { options, at }, .. }) = self.fields.get_mut(self.at) else {
            return false;
        };
        let length = isize::try_from(options.len()).unwrap_or(1).max(1);
        let now = isize::try_from(*at).unwrap_or(0);
        *at = usize::try_from((now + by).rem_euclid(length)).unwrap_or(0);
        true
    }
}

impl Form {
    fn draw_fields(&self, canvas: &mut Canvas<'_>, area: Rect) {
        let label_room = self.fields.iter().map(|field| width(field.label)).max().unwrap_or(0);
        let label_room = u16::try_from(label_room).unwrap_or(0).min(area.width / 2);
        let (key, quiet, over) = (canvas.theme.key(), canvas.theme.quiet(), canvas.theme.over());
        let says = self.fields.get(self.at).and_then(Field::says).filter(|_| self.wrong.is_none());
        let below = usize::from(says.is_some());
        let first = (self.at + 1 + below).saturating_sub(usize::from(area.height)).min(self.at);
        let x = area.x + 4 + label_room;
        let mut y = area.y;
        for (at, field) in self.fields.iter().enumerate().skip(first) {
            if y >= area.bottom() {
                break;
            }
            let active = at == self.at;
            canvas.put(area.x, y, 1, if active { "▸" } else { " " }, key);
            canvas.put(area.x + 2, y, label_room, field.label, if active { key } else { quiet });
            field.draw(canvas, x, y, area.right(), active);
            canvas.hit(Rect::new(area.x, y, area.width, 1), Hit::Row(at));
            y += 1;
            if let (true, Some(says), true) = (active, &says, y < area.bottom()) {
                let (mark, words, style) = match says {
                    Ok(words) if words.is_empty() => ("", words, quiet),
                    Ok(words) => ("→ ", words, quiet),
                    Err(words) => ("! ", words, over),
                };
                canvas.spans(x, y, area.right(), &[(mark, style), (words, style)]);
                y += 1;
            }
        }
    }
}

impl Layer for Form {
    fn draw(&mut self, _: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let wide = 76.min(area.width);
        let text_room = usize::from(wide.saturating_sub(4));
        let lead: Vec<String> = self.lead.iter().flat_map(|line| wrapped(line, text_room)).collect();
        let mut wrong: Vec<String> = self.wrong.iter().flat_map(|line| wrapped(line, text_room)).collect();
        // A line is kept free for how a field is read, so that the window does not jump.
        let spare = usize::from(self.fields.iter().any(|field| field.reading.is_some()));
        let rows =
            lead.len() + self.fields.len() + wrong.len().max(spare) + usize::from(wrong.len() <= spare);
        let high = u16::try_from(rows).unwrap_or(u16::MAX).saturating_add(2);
        let high = high.min(area.height);
        let area = if self.is_low { Rect { y: area.bottom() - high, height: high, ..area } } else { area };
        let inside = window::open(canvas, area, (wide, high), &self.title, "");
        // What is wrong, and the field in focus, must be seen, whatever the height.
        wrong.truncate(usize::from(inside.height.saturating_sub(1)));
        let fields_end = inside.bottom() - u16::try_from(wrong.len()).unwrap_or(0);
        let mut y = inside.y;
        let lead_room = usize::from(fields_end.saturating_sub(y + 1));
        for line in lead.iter().take(lead_room) {
            let quiet = canvas.theme.quiet();
            canvas.put(inside.x, y, inside.width, line, quiet);
            y += 1;
        }
        self.draw_fields(canvas, Rect::new(inside.x, y, inside.width, fields_end.saturating_sub(y)));
        for (y, line) in (fields_end..inside.bottom()).zip(&wrong) {
            let style: Style = canvas.theme.over();
            canvas.put(inside.x, y, inside.width, line, style);
        }
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        if let Event::Key(key) = event {
            if key.kind == KeyEventKind::Release {
                return Next::Keep;
            }
            if super::leaves(key) {
                return Next::Close;
            }
            match key.code {
                // At the foot, where the meeting goes on above, enter goes on to the next field before it is done.
                KeyCode::Enter if self.is_low && self.at + 1 < self.fields.len() => {
                    self.step(1);
                    return Next::Keep;
                }
                KeyCode::Enter => return self.submit(app),
                KeyCode::Tab | KeyCode::Down => {
                    self.step(1);
                    return Next::Keep;
                }
                KeyCode::BackTab | KeyCode::Up => {
                    self.step(-1);
                    return Next::Keep;
                }
                KeyCode::Left if self.turn(-1) => return Next::Keep,
                KeyCode::Right | KeyCode::Char(' ') if self.turn(1) => return Next::Keep,
                _ => {}
            }
        }
        if let Some(Field { kind: Kind::Line(input), .. }) = self.fields.get_mut(self.at)
            && input.take(event)
        {
            self.wrong = None;
        }
        Next::Keep
    }

    fn click(&mut self, row: usize, _: &mut App) -> Next {
        if self.at == row {
            self.turn(1);
        }
        self.at = row.min(self.fields.len().saturating_sub(1));
        Next::Keep
    }

    fn keys(&self) -> &'static str {
        if self.is_low && self.fields.len() > 1 {
            "enter next field, at the last done · ↑↓ field · esc leave it"
        } else if self.fields.len() > 1 {
            "↑↓ field · ←→ choose · enter done · esc leave it"
        } else {
            "enter done · esc leave it"
        }
    }
}
