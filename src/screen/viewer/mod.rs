//! Pictures as large as the screen: one at a time, and on it a place from which a colour can be taken.
//!
//! What is kept is which picture is shown and where the place is; the pictures are read from the board for every
//! frame. Whatever colour is taken is the picture's, not the cloth's, and the screen says so as long as one is offered.

mod colour;
mod study;
#[cfg(test)]
mod tests;

use crossterm::event::{Event, KeyCode, KeyEventKind, KeyModifiers};
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;

use super::actions::Act;
use super::app::App;
use super::canvas::{Canvas, Hit, wrapped};
use super::gallery::{Seen, Subject};
use super::layers::{Layer, Next};
use super::plates::{self, Plate};
use super::views::Target;
use crate::board::Board;
use crate::trade::colour::Colour;
use study::Study;

/// What must be said wherever a colour is taken from a picture.
pub const CAUTION: &str = "The picture's colour, not the cloth's: light, print and age have changed it.";

impl App {
    /// Shows the pictures of what is in focus.
    pub(super) fn see_focused(&mut self) {
        match self.focused() {
            Some(target) => self.see(target),
            None => self.say("put the focus on an outfit, a look, a scene or a period"),
        }
    }

    /// Shows the pictures of a target.
    pub(super) fn see(&mut self, target: Target) {
        if !self.gallery.is_on() {
            return self.say("no pictures are shown here: H shows them, where the terminal has colours");
        }
        if plates::of(self.board(), &target).is_empty() {
            return self.say("nothing is to be seen of it yet");
        }
        self.open_layer(Viewer::of(target));
    }

    /// Shows pictures, or none.
    pub(super) fn turn_pictures(&mut self) {
        let on = !self.gallery.is_on();
        let done = self.gallery.turn(on);
        self.say(match (on, done) {
            (true, true) => "pictures are shown",
            (true, false) => {
                "this terminal shows no pictures: it has no colours, or SHIRR_PICTURES says none"
            }
            (false, _) => "no pictures are shown: H shows them again",
        });
    }
}

/// The pictures of one target.
#[derive(Debug)]
pub(super) struct Viewer {
    target: Target,
    at: usize,
    /// Where a colour is taken, in cells from the picture's corner; `None` while one only looks.
    spot: Option<(u16, u16)>,
    /// Where the picture stood in the last frame.
    place: Rect,
    /// Whether it stood there, and was not still being made ready.
    is_seen: bool,
    /// Whether a flat is shown, which has no colours to give.
    is_flat: bool,
    study: Option<Study>,
}

impl Viewer {
    fn of(target: Target) -> Self {
        Self {
            target,
            at: 0,
            spot: None,
            place: Rect::default(),
            is_seen: false,
            is_flat: false,
            study: None,
        }
    }

    fn plate(&self, board: &Board) -> Option<Plate> {
        plates::of(board, &self.target).into_iter().nth(self.at)
    }

    fn turn(&mut self, board: &Board, by: isize) {
        let count = plates::of(board, &self.target).len().max(1);
        self.at = self.at.saturating_add_signed(by).min(count - 1);
        (self.spot, self.study) = (None, None);
    }

    /// Begins to take a colour from what is shown, if it is a picture.
    fn begin(&mut self, app: &mut App) {
        match self.plate(app.board()).map(|plate| plate.subject) {
            Some(Subject::File(path)) => {
                self.study = Some(Study::of(app.gallery.album(), path));
                self.spot = Some((self.place.width / 2, self.place.height / 2));
            }
            _ => app.say("colours are taken from pictures; a flat has those of the record already"),
        }
    }

    /// The picture stands here now, or nowhere; the place on it stays where it is seen.
    fn stand(&mut self, place: Option<Rect>) {
        let place = place.unwrap_or_default();
        if let Some((x, y)) = self.spot.filter(|_| !place.is_empty() && !self.place.is_empty()) {
            let moved = |at: u16, from: u16, to: u16| {
                let at = (u32::from(at) * 2 + 1) * u32::from(to) / (u32::from(from) * 2);
                u16::try_from(at).unwrap_or(u16::MAX).min(to - 1)
            };
            self.spot =
                Some((moved(x, self.place.width, place.width), moved(y, self.place.height, place.height)));
        }
        if !place.is_empty() || self.spot.is_none() {
            (self.place, self.is_seen) = (place, !place.is_empty());
        } else {
            self.is_seen = false;
        }
    }

    /// The colour at the place, while it is seen.
    fn colour_here(&self) -> Option<[u8; 3]> {
        let spot = self.spot.filter(|_| self.is_seen)?;
        self.study.as_ref()?.colour(spot, (self.place.width, self.place.height))
    }

    fn move_spot(&mut self, by: (i32, i32)) {
        let Some((x, y)) = self.spot else { return };
        let moved = |at: u16, by: i32, room: u16| {
            u16::try_from((i32::from(at) + by).clamp(0, i32::from(room.max(1)) - 1)).unwrap_or(0)
        };
        self.spot = Some((moved(x, by.0, self.place.width), moved(y, by.1, self.place.height)));
    }

    fn look_on(&mut self, key: KeyCode, app: &mut App) -> Next {
        match key {
            KeyCode::Esc | KeyCode::Char('q' | 'P') => return Next::Close,
            KeyCode::Left | KeyCode::Up | KeyCode::Char('h' | 'k') | KeyCode::PageUp => {
                self.turn(app.board(), -1)
            }
            KeyCode::Right | KeyCode::Down | KeyCode::Char('l' | 'j' | ' ') | KeyCode::PageDown => {
                self.turn(app.board(), 1);
            }
            KeyCode::Home => self.turn(app.board(), isize::MIN),
            KeyCode::End => self.turn(app.board(), isize::MAX),
            KeyCode::Char('c') | KeyCode::Enter => self.begin(app),
            KeyCode::Char('u') => app.perform(Act::Undo),
            KeyCode::Char('U') => app.perform(Act::Redo),
            _ => {}
        }
        Next::Keep
    }

    fn take(&mut self, key: KeyCode, shift: bool, app: &mut App) {
        let far = if shift { 8 } else { 1 };
        match key {
            KeyCode::Esc | KeyCode::Char('q' | 'c') => (self.spot, self.study) = (None, None),
            KeyCode::Left | KeyCode::Char('h') => self.move_spot((-far, 0)),
            KeyCode::Right | KeyCode::Char('l') => self.move_spot((far, 0)),
            KeyCode::Up | KeyCode::Char('k') => self.move_spot((0, -far)),
            KeyCode::Down | KeyCode::Char('j') => self.move_spot((0, far)),
            KeyCode::Enter | KeyCode::Char(' ') => match self.colour_here() {
                Some(colour) => colour::give(app, &self.target, colour),
                None => {
                    app.say("no colour is seen there: the picture is still being read, or nothing is on it")
                }
            },
            KeyCode::Char(digit @ '1'..='9') => {
                let nth = digit.to_digit(10).unwrap_or(1) as usize - 1;
                match self.study.as_ref().and_then(|study| study.proposals().get(nth).copied()) {
                    Some(colour) => colour::give(app, &self.target, colour),
                    None => app.say(format!("no colour {digit} is proposed")),
                }
            }
            KeyCode::Char('u') => app.perform(Act::Undo),
            KeyCode::Char('U') => app.perform(Act::Redo),
            _ => {}
        }
    }

    /// The colour at the place, those that are proposed, and the caution.
    fn draw_offer(&self, canvas: &mut Canvas<'_>, area: Rect) {
        let (text, quiet, key) = (canvas.theme.text(), canvas.theme.quiet(), canvas.theme.key());
        let Some(study) = &self.study else { return };
        if let Some(why) = study.failed() {
            let over = canvas.theme.over();
            canvas.put(area.x, area.y, area.width, why, over);
            return;
        }
        let mut x = area.x;
        let mut swatch = |canvas: &mut Canvas<'_>, name: &str, colour: [u8; 3]| {
            let cloth = Colour::of_rgb(colour);
            let hex = cloth.to_string();
            let (glyph, style) =
                (canvas.theme.cloth_glyph(Some(&cloth)).repeat(3), canvas.theme.cloth(Some(&cloth)));
            let gap = Style::new();
            let spans =
                [(name, key), (" ", gap), (&glyph[..], style), (" ", gap), (&hex[..], text), ("   ", gap)];
            x = canvas.spans(x, area.y, area.right(), &spans);
        };
        if let Some(colour) = self.colour_here() {
            swatch(canvas, "enter", colour);
        }
        for (at, colour) in study.proposals().iter().enumerate() {
            swatch(canvas, &(at + 1).to_string(), *colour);
        }
        if study.is_waiting() {
            canvas.put(x, area.y, area.right().saturating_sub(x), "reading the picture …", quiet);
        }
        for (y, line) in (area.y + 1..area.bottom()).zip(wrapped(CAUTION, usize::from(area.width))) {
            canvas.put(area.x, y, area.width, &line, quiet);
        }
    }
}

impl Layer for Viewer {
    fn is_live(&self) -> bool {
        true
    }

    fn draw(&mut self, board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        canvas.clear(area);
        let plates = plates::of(board, &self.target);
        self.at = self.at.min(plates.len().saturating_sub(1));
        // What another hand put in the place of the picture has other colours.
        let studied = plates.get(self.at).map(|plate| &plate.subject);
        if self.study.as_ref().is_some_and(|study| !studied.is_some_and(|subject| study.is_of(subject))) {
            (self.spot, self.study) = (None, None);
        }
        let Some(plate) = plates.get(self.at) else {
            let text = canvas.theme.text();
            canvas.put(area.x + 1, area.y, area.width.saturating_sub(1), "It is no longer there.", text);
            return;
        };
        self.is_flat = plate.subject.is_drawn();
        let (heading, quiet) = (canvas.theme.heading(), canvas.theme.quiet());
        let nth =
            if plates.len() > 1 { format!("{} of {}  ", self.at + 1, plates.len()) } else { String::new() };
        let drawn = if plate.subject.is_drawn() { format!("{}  ", plate.drawn()) } else { String::new() };
        let spans = [(&nth[..], quiet), (&drawn[..], quiet), (&plate.words[..], heading)];
        canvas.spans(area.x + 1, area.y, area.right(), &spans);
        let foot = if self.spot.is_some() { 2 } else { 0 };
        let room = Rect {
            x: area.x + 1,
            y: area.y + 1,
            width: area.width.saturating_sub(2),
            height: area.height.saturating_sub(1 + foot),
        };
        // The place can only be seen where the picture is made of letters.
        let seen = if self.spot.is_some() {
            canvas.picture_in_blocks(room, &plate.subject)
        } else {
            canvas.picture(room, &plate.subject)
        };
        self.stand(seen.place());
        match seen {
            Seen::There(place) => {
                canvas.hit(place, Hit::Cell);
                if let Some((x, y)) = self.spot {
                    canvas.mark(Position::new(place.x + x, place.y + y));
                }
            }
            Seen::Coming => {
                canvas.put(room.x, room.y, room.width, "reading the picture …", quiet);
            }
            Seen::Thin => {
                canvas.put(room.x, room.y, room.width, "too little is on record to draw it", quiet);
            }
            Seen::Not(_) | Seen::Off => {}
        }
        if foot > 0 {
            self.draw_offer(canvas, Rect { y: room.bottom(), height: foot, ..room });
        }
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        let Event::Key(key) = event else { return Next::Keep };
        if key.kind == KeyEventKind::Release {
            return Next::Keep;
        }
        if key.modifiers.contains(KeyModifiers::CONTROL) {
            return if key.code == KeyCode::Char('c') { Next::Close } else { Next::Keep };
        }
        if self.spot.is_some() {
            self.take(key.code, key.modifiers.contains(KeyModifiers::SHIFT), app);
            return Next::Keep;
        }
        self.look_on(key.code, app)
    }

    fn click_cell(&mut self, at: Position, app: &mut App) -> Next {
        if self.spot.is_none() {
            self.begin(app);
        }
        if self.spot.is_some() && self.place.contains(at) {
            self.spot = Some((at.x - self.place.x, at.y - self.place.y));
        }
        Next::Keep
    }

    fn has_news(&mut self) -> bool {
        self.study.as_mut().is_some_and(Study::has_news)
    }

    fn keys(&self) -> &'static str {
        if self.is_flat {
            "←→ before and after · esc close"
        } else if self.spot.is_some() {
            "esc done · ←↑↓→ or click: where · enter takes it · 1-6 takes what is proposed · shift goes far · u undo"
        } else {
            "←→ before and after · c take a colour from it · esc close · u undo"
        }
    }
}
