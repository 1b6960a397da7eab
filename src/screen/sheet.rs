//! Everything that is known of an outfit, over whichever view it was opened from.
//!
//! Its entries are read from the board for every frame, so what another hand changes is seen at once.

mod edit;
mod entries;
#[cfg(test)]
mod tests;
mod wishes;

use crossterm::event::{Event, KeyCode, KeyEventKind, KeyModifiers};
use ratatui::layout::Rect;

use super::actions::{Act, Scope};
use super::app::App;
use super::canvas::{Canvas, wrapped};
use super::layers::{Layer, Next};
use super::parts::record::{self, Fields};
use super::parts::{pictures, window};
use super::plates;
use super::views::Target;
use crate::board::{Board, OutfitId, Standing};

impl App {
    /// Opens what is known of a target: an outfit's sheet, a look's fields, a scene's row; of the others it says
    /// what they are.
    pub fn open_sheet(&mut self, target: Target) {
        match &target {
            Target::Outfit(id) => self.open_layer(Sheet::of(id.clone())),
            Target::Look(_) => {
                self.view = Scope::Looks;
                self.focus(&target);
                self.looks.open(self.open.board());
            }
            Target::Scene(_) => self.go_to(&target),
            Target::Period(id) => {
                let said = self.board().period(id).map(|one| (one.title.clone(), one.says.clone()));
                self.tell(said);
            }
            Target::Thread(id) => {
                let said = self.board().thread(id).map(|one| (one.title.clone(), one.says.clone()));
                self.tell(said);
            }
        }
    }

    fn tell(&mut self, said: Option<(String, String)>) {
        if let Some((title, says)) = said {
            self.say(if says.is_empty() { title } else { format!("{title}: {says}") });
        }
    }
}

/// How many columns the pictures take beside what is known.
fn beside(area: Rect) -> u16 {
    match area.width {
        ..76 => 0,
        76..130 => area.width / 5 * 2,
        _ => (area.width - 90).min(80),
    }
}

/// The sheet of an outfit.
#[derive(Debug)]
pub(super) struct Sheet {
    outfit: OutfitId,
    fields: Fields,
}

impl Sheet {
    fn of(outfit: OutfitId) -> Self {
        Self { outfit, fields: Fields::default() }
    }

    /// Goes to the outfit of the same character that was worn before or after.
    fn turn(&mut self, app: &mut App, by: isize) {
        let board = app.board();
        let Some(character) = board.outfit(&self.outfit).map(|outfit| &outfit.character) else { return };
        let same = |id: &&OutfitId| board.outfit(id).is_some_and(|outfit| outfit.character == *character);
        let own: Vec<&OutfitId> = board.relations().outfits_by_date().iter().filter(same).collect();
        let at = own.iter().position(|id| **id == self.outfit);
        let next =
            at.and_then(|at| at.checked_add_signed(by)).and_then(|at| own.get(at)).map(|id| (*id).clone());
        match next {
            Some(id) => {
                self.outfit = id.clone();
                self.fields.reset();
                if app.view == Scope::Wall {
                    app.focus(&Target::Outfit(id));
                }
            }
            None => app.say(if by < 0 { "it is the earliest" } else { "it is the latest" }),
        }
    }

    fn act(&mut self, app: &mut App) -> Next {
        let entries = entries::entries(app.board(), &self.outfit);
        let Some(spot) = self.fields.key(&entries).cloned() else { return Next::Keep };
        edit::change(app, &self.outfit, spot)
    }
}

impl Layer for Sheet {
    fn is_live(&self) -> bool {
        true
    }

    fn draw(&mut self, board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let plates =
            if canvas.shows_pictures() { plates::of_outfit(board, &self.outfit) } else { Vec::new() };
        let beside = if plates.is_empty() { 0 } else { beside(area) };
        let wide = match area.width {
            wide if beside > 0 => wide.min(110 + beside),
            wide @ 61.. => (wide - 4).min(110),
            wide => wide,
        };
        let Some(outfit) = board.outfit(&self.outfit) else {
            let inside = window::open(canvas, area, (wide.min(50), 3), "Sheet", "");
            let words = wrapped("This outfit is no longer there.", usize::from(inside.width));
            let text = canvas.theme.text();
            for (y, line) in (inside.top()..inside.bottom()).zip(words) {
                canvas.put(inside.x, y, inside.width, &line, text);
            }
            return;
        };
        let foot = match board.standing(&self.outfit) {
            Standing::Open => "○ open".to_owned(),
            Standing::LetGo(_) => "× let go".to_owned(),
            Standing::Folded(id) => match board.look(id) {
                Some(look) => format!("{} {}", look.treatment.mark(), look.title),
                None => String::new(),
            },
        };
        let entries = entries::entries(board, &self.outfit);
        // The frame takes two rows, and two columns on either side.
        let high = record::height(&entries, wide.saturating_sub(4 + beside)).saturating_add(2);
        let high = if beside > 0 { high.max(area.height) } else { high };
        let inside = window::open(canvas, area, (wide, high), &outfit.title, &foot);
        let words = Rect { width: inside.width.saturating_sub(beside), ..inside };
        self.fields.draw(canvas, words, &entries, true);
        if beside > 0 {
            // The flat stands beside evidence only where somebody asks for it.
            let evidence = plates.iter().filter(|plate| !plate.subject.is_drawn()).count();
            let shown = if evidence > 0 { &plates[..evidence] } else { &plates[..] };
            let place = Rect { x: words.right() + 2, width: beside.saturating_sub(2), ..inside };
            pictures::draw(canvas, place, shown, usize::MAX);
        }
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        let Event::Key(key) = event else { return Next::Keep };
        if key.kind == KeyEventKind::Release {
            return Next::Keep;
        }
        let ctrl = key.modifiers.contains(KeyModifiers::CONTROL);
        let entries = || entries::entries(app.board(), &self.outfit);
        match key.code {
            KeyCode::Char('c') if ctrl => return Next::Close,
            KeyCode::Char('r') if ctrl => app.perform(Act::Redo),
            KeyCode::Esc | KeyCode::Char('q') => return Next::Close,
            KeyCode::Up | KeyCode::Char('k') => self.fields.step(-1, &entries()),
            KeyCode::Down | KeyCode::Char('j') => self.fields.step(1, &entries()),
            KeyCode::PageUp => self.fields.page(false, &entries()),
            KeyCode::PageDown => self.fields.page(true, &entries()),
            KeyCode::Home => self.fields.jump(isize::MIN, &entries()),
            KeyCode::End => self.fields.jump(isize::MAX, &entries()),
            KeyCode::Left | KeyCode::Char('h') => self.turn(app, -1),
            KeyCode::Right | KeyCode::Char('l') => self.turn(app, 1),
            KeyCode::Enter | KeyCode::Char('e') => return self.act(app),
            KeyCode::Char('n') => return edit::change(app, &self.outfit, entries::Spot::Notes),
            KeyCode::Char('p' | 'P') => app.see(Target::Outfit(self.outfit.clone())),
            KeyCode::Char('u') => app.perform(Act::Undo),
            KeyCode::Char('U') => app.perform(Act::Redo),
            KeyCode::Char('x') | KeyCode::Delete => {
                if let Some(spot) = self.fields.key(&entries()).cloned() {
                    edit::remove(app, &self.outfit, spot);
                }
            }
            _ => {}
        }
        Next::Keep
    }

    fn click(&mut self, row: usize, app: &mut App) -> Next {
        let entries = entries::entries(app.board(), &self.outfit);
        let before = self.fields.key(&entries).cloned();
        self.fields.go_to_nth(row);
        if before.as_ref() == self.fields.key(&entries) { self.act(app) } else { Next::Keep }
    }

    fn scroll(&mut self, by: isize) {
        self.fields.roll(by);
    }

    fn keys(&self) -> &'static str {
        "↑↓ move · enter change · x take away · p pictures · ←→ the outfit before and after · u undo · esc close"
    }
}
