//! Suggest: the present looks beside those that would keep most, over the view that was open.
//!
//! The search runs on a thread ([`work`]). What it finds can be taken whole or look by look; each is an edit like any
//! other. Whatever changes the board meanwhile begins the search anew.

mod about;
mod chart;
mod detail;
mod rows;
mod work;

use crossterm::event::{Event, KeyCode, KeyEventKind, KeyModifiers};
use ratatui::layout::Rect;

use super::app::App;
use super::canvas::{Canvas, wrapped};
use super::layers::page::Line;
use super::layers::{Layer, Next, Page};
use super::parts::list::Cursor;
use super::parts::window;
use crate::board::{Board, CharacterId, Edit};
use crate::check::words::{capital, counted, listed, look_title, percent};
use about::About;
use chart::Chart;
use rows::{MARKS, Row, rows};
use work::{Alone, Curve, Found, State, Work};

/// The overlay.
pub struct Suggest {
    board: Board,
    who: Option<CharacterId>,
    work: Work,
    cursor: Cursor,
    about: About,
    shows_curve: bool,
    rows: usize,
}

/// The keys that the overlay takes, with what they do.
const KEYS: [(&str, &str); 12] = [
    ("up k", "Go up the suggested looks"),
    ("down j", "Go down the suggested looks"),
    ("pgup pgdn", "Go a page back or on"),
    ("home end", "Go to the first or the last"),
    ("J K", "Read on and back about it; so do shift-down and shift-up"),
    ("enter", "Take the look in focus, with the looks that go into it, and no other"),
    ("a", "Take all that is suggested, as one change"),
    ("u U", "Take the last change back, or do it again; the search begins anew"),
    ("tab", "Show the curve, or the looks again"),
    ("c", "Ask about the next character, or about all"),
    ("?", "Show the keys that work here"),
    ("esc q", "Close"),
];

impl App {
    /// Opens the suggestion for the character in focus, or for all.
    pub fn suggest(&mut self) {
        let who = match self.view {
            super::actions::Scope::Scenes => self.scenes.character(self.board()),
            super::actions::Scope::Wall | super::actions::Scope::Everywhere => {
                self.wall.character(self.board())
            }
            super::actions::Scope::Looks | super::actions::Scope::Walk | super::actions::Scope::Workroom => {
                match self.focused() {
                    Some(super::views::Target::Look(id)) => {
                        self.board().look(&id).map(|look| look.character.clone())
                    }
                    _ => None,
                }
            }
        };
        let layer = Suggest::new(self.board().clone(), who);
        self.open_layer(layer);
    }
}

impl Suggest {
    fn new(board: Board, who: Option<CharacterId>) -> Self {
        let work = Work::begin(&board, who.clone());
        let (cursor, about) = (Cursor::default(), About::default());
        Self { board, who, work, cursor, about, shows_curve: false, rows: 1 }
    }

    /// Begins anew, for another character or another board.
    fn begin(&mut self, board: &Board, who: Option<CharacterId>) {
        self.board = board.clone();
        self.work = Work::begin(board, who.clone());
        self.about = About::default();
        self.who = who;
    }

    fn next_character(&mut self) {
        let characters = &self.board.head().characters;
        let at = characters.iter().position(|character| Some(&character.id) == self.who.as_ref());
        let next = match at {
            None => characters.first(),
            Some(at) => characters.get(at + 1),
        };
        let next = next.map(|character| character.id.clone());
        let board = self.board.clone();
        self.cursor = Cursor::default();
        self.begin(&board, next);
    }

    fn found(&self) -> Option<std::sync::Arc<Found>> {
        match self.work.state() {
            State::Found(found) => Some(found),
            _ => None,
        }
    }

    /// Takes all that is suggested, or one look.
    fn take(&mut self, app: &mut App, only: Option<usize>) {
        let found = match self.work.state() {
            State::Found(found) => found,
            State::None(_) => return app.warn("there is no suggestion to take"),
            State::Comparing | State::Searching { .. } => return app.warn("there is nothing to take yet"),
        };
        // Several keys may come between two frames: what was suggested for another board is not for this one.
        if !is_same(app.open.board(), &self.board) {
            return app.warn("the board has changed since: the search begins anew");
        }
        let Some(look) = only else {
            app.change(found.whole.clone());
            return;
        };
        let alone = found.alone(look);
        let edit = alone.map(|alone| alone.edit.clone());
        let edit = edit.unwrap_or_else(|| found.suggestion.edit(app.board(), only));
        let is_nothing = edit.as_ref().is_ok_and(Edit::is_empty);
        if is_nothing && !found.suggestion.looks[look].stays() {
            app.say(detail::NOTHING);
        } else if app.change(edit) {
            let mut said = app.said.text.clone();
            let gone: Vec<&str> =
                found.suggestion.going_into(look).map(|id| look_title(&self.board, id)).collect();
            if !gone.is_empty() {
                said.push_str(&format!("; {} went into it, scenes and all", listed(&gone)));
            }
            if alone.is_some_and(Alone::keeps_less) {
                said.push_str("; alone it lowers what is kept: take others too, or u takes it back");
            }
            app.say(said);
        }
    }

    /// The keys and marks that are explained by `?`.
    fn help(&self, app: &mut App) {
        let pair = |(word, words): &(&str, &str)| Line::Pair((*word).to_owned(), (*words).to_owned());
        let mut lines = vec![Line::Heading("Suggested looks".to_owned())];
        lines.extend(KEYS.iter().map(pair));
        lines.push(Line::Heading(String::new()));
        lines.push(Line::Heading("Marks".to_owned()));
        lines.extend(MARKS.iter().map(pair));
        let alone = ("%", "How much more or less is kept if just this look is taken");
        lines.push(pair(&alone));
        lines.push(pair(&("◆", "On the curve: your looks as they are")));
        if let Some(found) = self.found() {
            lines.push(Line::Heading(String::new()));
            lines.push(Line::Heading("Within".to_owned()));
            lines.extend(found.within.iter().map(|wish| pair(&("", wish))));
            if !found.then.is_empty() {
                lines.push(Line::Heading("All taken, check says besides".to_owned()));
                lines.extend(found.then.iter().map(|text| pair(&("", text))));
            }
        }
        app.open_layer(Page::new("Help", lines));
    }

    fn title(&self) -> String {
        let who = self.who.as_ref().map_or("all characters", |who| self.board.name_of(who));
        format!("Suggested looks · {who}")
    }

    fn head(&self, state: &State) -> Vec<String> {
        match state {
            State::Comparing => vec!["comparing outfits …".to_owned()],
            State::Searching { kept, bound } => {
                vec![format!(
                    "searching … the best so far keeps {}, at most {} can be kept",
                    percent(*kept),
                    percent(*bound)
                )]
            }
            State::None(lines) => lines.clone(),
            State::Found(found) => {
                let (suggestion, now) = (&found.suggestion, &found.now);
                let looks = suggestion.looks.len();
                let mut first = capital(&format!(
                    "{} could keep {} of the wardrobe. Yours keep {}, and {} with each outfit in its nearest.",
                    counted(looks, "look"),
                    percent(suggestion.kept),
                    percent(now.kept),
                    percent(now.reachable)
                ));
                if suggestion.stays() {
                    first.push_str(" Yours are as suggested.");
                }
                let sure = if suggestion.proven {
                    format!("Proved best: no other {looks} within your wishes and limits keep more.")
                } else {
                    format!("Not proved: at most {} can be kept.", percent(suggestion.bound))
                };
                let mut lines = vec![first, sure];
                if !found.then.is_empty() {
                    let things = counted(found.then.len(), "thing");
                    lines.push(format!("All taken, check says {things} besides, which ? tells."));
                }
                if !found.within.is_empty() {
                    lines.push(format!("Within: {}.", found.within.join("; ")));
                }
                lines
            }
        }
    }

    /// The list, and what is told about the row in focus.
    fn draw_looks(&mut self, found: &Found, canvas: &mut Canvas<'_>, area: Rect) {
        let mut area = area;
        // Where there is little room, the list itself says what changes, and `?` the rest.
        if area.height >= LEGEND {
            let quiet = canvas.theme.quiet();
            for line in rows::legend(found, area.width).iter().take(2) {
                canvas.put(area.x, area.y, area.width, line, quiet);
                area = Rect::new(area.x, area.y + 1, area.width, area.height - 1);
            }
        }
        // Side by side where there is room, else one above the other.
        let (list, about) = if area.width >= 100 {
            let left = area.width / 2 - 1;
            let about = Rect::new(area.x + left + 2, area.y, area.width - left - 2, area.height);
            (Rect::new(area.x, area.y, left, area.height), about)
        } else {
            let told = (area.height / 2).min(16);
            let high = area.height - told;
            let about = Rect::new(area.x, area.y + high, area.width, told);
            (Rect::new(area.x, area.y, area.width, high), about)
        };
        let rows = rows(found);
        self.rows = usize::from(list.height).max(1);
        self.cursor.step(0, rows.len());
        let page = self.cursor.window(rows.len(), self.rows);
        let at = self.cursor.at;
        rows::draw(&self.board, found, at, canvas, list, page);
        let Some(row) = rows.get(at) else { return };
        self.about.follow(at, || match *row {
            Row::Look(look) => detail::look(&self.board, found, look),
            Row::Goes(go) => detail::going(&self.board, &found.suggestion.goes[go].0),
            Row::Left(left) => detail::going(&self.board, &found.suggestion.left[left]),
            Row::Open(open) => detail::open(&self.board, &found.suggestion.open[open]),
        });
        let now = match row {
            Row::Look(look) => {
                let suggested = &found.suggestion.looks[*look];
                detail::alone(suggested, found.now.kept, found.alone(*look))
            }
            Row::Goes(_) | Row::Left(_) | Row::Open(_) => None,
        };
        self.about.draw(detail::LEAD, now, canvas, about);
    }
}

/// The rows from which on the marks are explained in the window.
const LEGEND: u16 = 9;

/// Whether two boards are the same records.
fn is_same(one: &Board, other: &Board) -> bool {
    let (one, other) = (one.records(), other.records());
    std::sync::Arc::ptr_eq(&one.head, &other.head)
        && one.outfits.len() == other.outfits.len()
        && one.looks.len() == other.looks.len()
        && one.outfits.values().zip(other.outfits.values()).all(|(a, b)| std::sync::Arc::ptr_eq(a, b))
        && one.looks.values().zip(other.looks.values()).all(|(a, b)| std::sync::Arc::ptr_eq(a, b))
        // An invented look is of the period of its scenes, and so may be a limit's.
        && one.scenes.len() == other.scenes.len()
        && one.scenes.iter().zip(&other.scenes).all(|(a, b)| std::sync::Arc::ptr_eq(a, b))
}

impl Layer for Suggest {
    fn draw(&mut self, board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        if !is_same(board, &self.board) {
            let who = self.who.clone();
            self.begin(board, who);
        }
        let state = self.work.state();
        let foot = match &state {
            State::Found(found) => format!("{} of {}", self.cursor.at + 1, rows(found).len()),
            _ => String::new(),
        };
        let inside = window::open(canvas, area, (area.width, area.height), &self.title(), &foot);
        let text = canvas.theme.text();
        // Each on one line or two, but where it is all that there is to read; what is cut off `?` tells.
        let each = |line: &String| {
            let mut parts = wrapped(line, usize::from(inside.width));
            if !matches!(state, State::None(_)) && parts.len() > 2 {
                parts.truncate(2);
                parts[1].push_str(" …");
            }
            parts
        };
        let lines: Vec<String> = self.head(&state).iter().flat_map(each).collect();
        let mut y = inside.y;
        let most = if matches!(state, State::None(_)) { inside.height } else { inside.height / 3 };
        for (at, line) in lines.iter().enumerate().take(usize::from(most)) {
            // What there is no room for is not left out unsaid.
            let cut = at + 1 == usize::from(most) && lines.len() > usize::from(most);
            let line = if cut { format!("{line} …") } else { line.clone() };
            canvas.put(inside.x, y, inside.width, &line, text);
            y += 1;
        }
        let State::Found(found) = state else { return };
        let below = Rect::new(inside.x, y, inside.width, inside.bottom().saturating_sub(y));
        if self.shows_curve {
            let now = (found.now.looks, found.now.kept);
            let words = match found.curve() {
                Some(Curve::Drawn(curve)) => return detail::curve(canvas, below, &Chart { curve, now }),
                None => "drawing the curve …".to_owned(),
                Some(Curve::None(why)) => format!("no curve: {why}"),
            };
            let quiet = canvas.theme.quiet();
            canvas.put(below.x, below.y, below.width, &words, quiet);
            return;
        }
        self.draw_looks(&found, canvas, below);
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        let Event::Key(key) = event else { return Next::Keep };
        if key.kind == KeyEventKind::Release {
            return Next::Keep;
        }
        let count = self.found().map_or(0, |found| rows(&found).len());
        let page = isize::try_from(self.rows).unwrap_or(1);
        let shift = key.modifiers.contains(KeyModifiers::SHIFT);
        match key.code {
            KeyCode::Esc | KeyCode::Char('q') => return Next::Close,
            KeyCode::Char('c') if key.modifiers.contains(KeyModifiers::CONTROL) => return Next::Close,
            KeyCode::Char(_) if key.modifiers.contains(KeyModifiers::CONTROL) => {}
            // What is not seen is not taken.
            KeyCode::Enter | KeyCode::Char('a') if self.shows_curve && count > 0 => {
                app.say("tab goes back to the looks, where they are taken");
            }
            KeyCode::Char('?') => self.help(app),
            KeyCode::Char('J') => self.about.scroll(1),
            KeyCode::Char('K') => self.about.scroll(-1),
            KeyCode::Down if shift => self.about.scroll(1),
            KeyCode::Up if shift => self.about.scroll(-1),
            KeyCode::Up | KeyCode::Char('k') => self.cursor.step(-1, count),
            KeyCode::Down | KeyCode::Char('j') => self.cursor.step(1, count),
            KeyCode::PageUp => self.cursor.step(-page, count),
            KeyCode::PageDown => self.cursor.step(page, count),
            // Without looks there is no curve to go to and fro.
            KeyCode::Tab if count > 0 => self.shows_curve = !self.shows_curve,
            KeyCode::Char('c') => self.next_character(),
            KeyCode::Char('a') => self.take(app, None),
            KeyCode::Char('u') => app.perform(super::actions::Act::Undo),
            KeyCode::Char('U') => app.perform(super::actions::Act::Redo),
            KeyCode::Home => self.cursor.step(isize::MIN, count),
            KeyCode::End => self.cursor.step(isize::MAX, count),
            KeyCode::Enter => {
                let row = self.found().and_then(|found| rows(&found).get(self.cursor.at).copied());
                match row {
                    Some(Row::Look(look)) => self.take(app, Some(look)),
                    Some(Row::Goes(_)) => app.say("it goes when the look that takes its base is taken"),
                    Some(Row::Left(_)) => app.say("merge or dissolve it in the list of looks"),
                    Some(Row::Open(_)) => app.say("it is yours to fold on the wall, or to let go"),
                    None => {}
                }
            }
            _ => {}
        }
        Next::Keep
    }

    fn click(&mut self, row: usize, _: &mut App) -> Next {
        self.cursor.at = row;
        Next::Keep
    }

    fn scroll(&mut self, by: isize) {
        let count = self.found().map_or(0, |found| rows(&found).len());
        self.cursor.step(by, count);
    }

    fn is_live(&self) -> bool {
        true
    }

    fn has_news(&mut self) -> bool {
        self.work.has_news()
    }

    fn keys(&self) -> &'static str {
        match self.work.state() {
            State::Found(_) if self.shows_curve => "tab looks · c character · u undo · ? keys · esc close",
            State::Found(_) => "enter take · a all · J K read · tab curve · c character · ? keys · esc close",
            State::Comparing | State::Searching { .. } | State::None(_) => {
                "c character · u undo · ? keys · esc close"
            }
        }
    }
}

#[cfg(test)]
mod tests;
