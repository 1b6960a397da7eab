//! Suggest: the present looks beside those that would keep most, over the view that was open.
//!
//! The search runs on a thread ([`work`]). What it finds can be taken whole or look by look; each is an edit like any
//! other. Whatever changes the board meanwhile begins the search anew.

mod chart;
mod detail;
mod work;

use crossterm::event::{Event, KeyCode, KeyEventKind, KeyModifiers};
use ratatui::layout::Rect;

use super::app::App;
use super::canvas::{Canvas, Hit, width, wrapped};
use super::layers::{Layer, Next};
use super::parts::list::Cursor;
use super::parts::window;
use crate::board::{Board, CharacterId};
use crate::check::words::{counted, look_title, percent};
use crate::gather::{Becomes, Suggested};
use chart::Chart;
use work::{Curve, Found, State, Work};

/// The overlay.
pub struct Suggest {
    board: Board,
    who: Option<CharacterId>,
    work: Work,
    cursor: Cursor,
    shows_curve: bool,
    rows: usize,
}

impl App {
    /// Opens the suggestion for the character in focus, or for all.
    pub fn suggest(&mut self) {
        let who = match self.view {
            super::actions::Scope::Scenes => self.scenes.character(self.board()),
            super::actions::Scope::Wall | super::actions::Scope::Everywhere => {
                self.wall.character(self.board())
            }
            super::actions::Scope::Looks | super::actions::Scope::Walk => match self.focused() {
                Some(super::views::Target::Look(id)) => {
                    self.board().look(&id).map(|look| look.character.clone())
                }
                _ => None,
            },
        };
        let layer = Suggest::new(self.board().clone(), who);
        self.open_layer(layer);
    }
}

impl Suggest {
    fn new(board: Board, who: Option<CharacterId>) -> Self {
        let work = Work::begin(&board, who.clone());
        Self { board, who, work, cursor: Cursor::default(), shows_curve: false, rows: 1 }
    }

    /// Begins anew, for another character or another board.
    fn begin(&mut self, board: &Board, who: Option<CharacterId>) {
        self.board = board.clone();
        self.work = Work::begin(board, who.clone());
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
        let Some(found) = self.found() else { return app.warn("there is nothing to take yet") };
        // Several keys may come between two frames: what was suggested for another board is not for this one.
        if !is_same(app.open.board(), &self.board) {
            return app.warn("the board has changed since: the search begins anew");
        }
        let edit = found.suggestion.edit(app.board(), only);
        app.change(edit);
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
                let (suggestion, worth) = (&found.suggestion, &found.worth);
                let looks = suggestion.looks.len();
                let mut first = format!(
                    "{} could keep {} of the wardrobe. Yours keep {}, and {} with each outfit in its nearest.",
                    counted(looks, "look"),
                    percent(suggestion.kept),
                    percent(worth.kept),
                    percent(worth.reachable)
                );
                if suggestion.stays() {
                    first.push_str(" Yours are as suggested.");
                }
                let sure = if suggestion.proven {
                    format!("Proved best: no other {looks} within your wishes and limits keep more.")
                } else {
                    format!("Not proved: at most {} can be kept.", percent(suggestion.bound))
                };
                let mut lines = vec![first, sure];
                if !found.within.is_empty() {
                    lines.push(format!("Within: {}.", found.within.join("; ")));
                }
                lines
            }
        }
    }

    fn draw_list(&self, found: &Found, canvas: &mut Canvas<'_>, area: Rect, page: std::ops::Range<usize>) {
        let (text, quiet, focus, open) =
            (canvas.theme.text(), canvas.theme.quiet(), canvas.theme.focus(), canvas.theme.full());
        let rows = rows(found);
        for (y, at) in (area.top()..area.bottom()).zip(page) {
            let (mark, words, note) = match rows[at] {
                Row::Look(look) => {
                    let suggested = &found.suggestion.looks[look];
                    let outfit = self.board.outfit(&suggested.base);
                    let date =
                        outfit.and_then(|outfit| outfit.worn.as_ref()).map(crate::trade::date::Date::short);
                    let title = self.board.title_of_outfit(&suggested.base);
                    (mark(suggested), format!("{:>11}  {title}", date.unwrap_or_default()), change(suggested))
                }
                Row::Goes(go) => {
                    let (look, into) = &found.suggestion.goes[go];
                    let title = look_title(&self.board, look);
                    let into = self.board.title_of_outfit(&found.suggestion.looks[*into].base);
                    ("−", format!("{:>11}  {title}", ""), format!("goes into {into}"))
                }
                Row::Left(left) => {
                    let look = &found.suggestion.left[left];
                    let title = look_title(&self.board, look);
                    (
                        "!",
                        format!("{:>11}  {title}", ""),
                        "no room for it: yours to merge or dissolve".to_owned(),
                    )
                }
            };
            let line = Rect::new(area.x, y, area.width, 1);
            let noted = u16::try_from(width(&note)).unwrap_or(0).min(area.width / 2);
            let style = if mark == "·" { quiet } else { open };
            let x = canvas.spans(area.x, y, area.right(), &[(mark, style), (" ", text)]);
            canvas.put(x, y, area.width.saturating_sub(noted + 3), &words, text);
            canvas.put(area.right() - noted, y, noted, &note, quiet);
            if at == self.cursor.at {
                canvas.restyle(line, focus);
            }
            canvas.hit(line, Hit::Row(at));
        }
    }
}

/// What a row of the list stands for.
#[derive(Clone, Copy)]
enum Row {
    Look(usize),
    Goes(usize),
    Left(usize),
}

fn rows(found: &Found) -> Vec<Row> {
    let suggestion = &found.suggestion;
    let looks = (0..suggestion.looks.len()).map(Row::Look);
    let goes = (0..suggestion.goes.len()).map(Row::Goes);
    looks.chain(goes).chain((0..suggestion.left.len()).map(Row::Left)).collect()
}

fn mark(suggested: &Suggested) -> &'static str {
    match suggested.becomes() {
        Becomes::New => "+",
        Becomes::OtherBase => "↷",
        Becomes::AsItIs => "·",
        Becomes::OtherOutfits => "±",
    }
}

fn change(suggested: &Suggested) -> String {
    let mut words = Vec::new();
    match suggested.becomes() {
        Becomes::AsItIs => return "as it is".to_owned(),
        Becomes::New => words.push("new".to_owned()),
        Becomes::OtherBase => words.push("other base".to_owned()),
        Becomes::OtherOutfits => {}
    }
    if !suggested.comes.is_empty() && suggested.look.is_some() {
        words.push(format!("{} in", suggested.comes.len()));
    }
    if !suggested.leaves.is_empty() {
        words.push(format!("{} out", suggested.leaves.len()));
    }
    words.join(", ")
}

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
        // Each on one line but where it is all that there is to read.
        let each = |line: &String| match &state {
            State::None(_) => wrapped(line, usize::from(inside.width)),
            _ => wrapped(line, usize::from(inside.width)).into_iter().take(2).collect(),
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
            let now = (found.worth.looks.len(), found.worth.kept);
            let words = match &found.curve {
                Curve::Drawn(curve) => return detail::curve(canvas, below, &Chart { curve, now }),
                Curve::Drawing => "drawing the curve …".to_owned(),
                Curve::None(why) => format!("no curve: {why}"),
            };
            let quiet = canvas.theme.quiet();
            canvas.put(below.x, below.y, below.width, &words, quiet);
            return;
        }
        let rows = rows(&found);
        // Side by side where there is room, else one above the other.
        let (list, about) = if below.width >= 100 {
            let left = below.width / 2 - 1;
            let about = Rect::new(below.x + left + 2, below.y, below.width - left - 2, below.height);
            (Rect::new(below.x, below.y, left, below.height), about)
        } else {
            let high = below.height.saturating_sub((below.height / 3).min(9));
            let about = Rect::new(below.x, below.y + high, below.width, below.height - high);
            (Rect::new(below.x, below.y, below.width, high), about)
        };
        self.rows = usize::from(list.height).max(1);
        self.cursor.step(0, rows.len());
        let page = self.cursor.window(rows.len(), self.rows);
        self.draw_list(&found, canvas, list, page);
        match rows.get(self.cursor.at) {
            Some(Row::Look(look)) => detail::look(&self.board, &found, *look, canvas, about),
            Some(Row::Goes(go)) => detail::going(&self.board, &found.suggestion.goes[*go].0, canvas, about),
            Some(Row::Left(left)) => detail::going(&self.board, &found.suggestion.left[*left], canvas, about),
            None => {}
        }
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        let Event::Key(key) = event else { return Next::Keep };
        if key.kind == KeyEventKind::Release {
            return Next::Keep;
        }
        let count = self.found().map_or(0, |found| rows(&found).len());
        let page = isize::try_from(self.rows).unwrap_or(1);
        match key.code {
            KeyCode::Esc | KeyCode::Char('q') => return Next::Close,
            KeyCode::Char('c') if key.modifiers.contains(KeyModifiers::CONTROL) => return Next::Close,
            KeyCode::Char(_) if key.modifiers.contains(KeyModifiers::CONTROL) => {}
            // What is not seen is not taken.
            KeyCode::Enter | KeyCode::Char('a') if self.shows_curve => {
                app.say("tab goes back to the looks, where they are taken");
            }
            KeyCode::Up | KeyCode::Char('k') => self.cursor.step(-1, count),
            KeyCode::Down | KeyCode::Char('j') => self.cursor.step(1, count),
            KeyCode::PageUp => self.cursor.step(-page, count),
            KeyCode::PageDown => self.cursor.step(page, count),
            KeyCode::Tab => self.shows_curve = !self.shows_curve,
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
        "enter take this look · a take all · u undo · tab curve · c character · esc close"
    }
}

#[cfg(test)]
mod tests;
