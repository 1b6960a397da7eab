//! The app's state, and how an event changes it.
//!
//! State and action give the next state; drawing is apart (see [`super::frame`]). Events go to the layer on top;
//! what no layer takes is looked up in the table of actions for the view.

use std::path::PathBuf;

use crossterm::event::{Event, KeyEventKind, MouseButton, MouseEventKind};

use ratatui::layout::Position;

use super::actions::{self, Act, Scope};
use super::canvas::{Hit, Hits};
use super::clash;
use super::gallery::Gallery;
use super::keys::Key;
use super::layers::{Layer, Next};
use super::limit;
use super::measure::Measure;
use super::reckoning::Reckoning;
use super::theme::Theme;
use super::travel::Way;
use super::views::{Target, looks::Looks, scenes::Scenes, walk::Walk, wall::Wall, workroom::Workroom};
use crate::board::{Board, Change, Edit, OutfitId, RecordRef, Refused};
use crate::store::{EditError, NewsKind, OpenBoard};

/// Everything that the screen knows.
pub struct App {
    /// The board's folder, open.
    pub open: OpenBoard,
    /// Goes up with every change of the board, so that what was laid out for it can be kept until then.
    pub version: u64,
    /// Which view is shown.
    pub view: Scope,
    /// The wall's own state.
    pub wall: Wall,
    /// The look list's own state.
    pub looks: Looks,
    /// The scene list's own state.
    pub scenes: Scenes,
    /// The walk's own state.
    pub walk: Walk,
    /// The workroom's own state.
    pub workroom: Workroom,
    /// What lies over the view; the last is on top.
    pub layers: Vec<Laid>,
    /// The board as the user saw it when the layer that is at work was opened; see [`App::board`].
    seen: Option<Board>,
    /// Whether other hands have changed the board since it was opened.
    pub(super) is_shared: bool,
    /// The last word to the user.
    pub said: Said,
    /// What the looks keep.
    pub(super) measure: Measure,
    /// What the workroom reckons.
    pub(super) reckoning: Reckoning,
    /// The pictures.
    pub gallery: Gallery,
    /// Styles.
    pub theme: Theme,
    /// Where the mouse can hit.
    pub hits: Hits,
    /// Whether the user has left.
    pub left: bool,
    /// Work for the loop that owns the terminal.
    pub errand: Option<Errand>,
}

/// A layer, and the board as it was when the layer opened, unless the layer shows the board as it is.
pub struct Laid {
    layer: Box<dyn Layer>,
    seen: Option<Board>,
}

impl Laid {
    /// The layer.
    pub fn layer(&mut self) -> &mut dyn Layer {
        self.layer.as_mut()
    }
}

/// What only the loop that owns the terminal can do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Errand {
    /// Stop until continued.
    Suspend,
    /// Draw everything anew.
    Redraw,
    /// Open a file as it stands in the user's own editor.
    File(PathBuf),
    /// Edit a record's text in the user's own editor.
    Editor {
        /// Which record.
        record: RecordRef,
        /// The text to begin with: the record, or what was typed before and did not read.
        text: String,
        /// The record's text when the editing began.
        base: String,
    },
}

/// A word to the user.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Said {
    /// The words.
    pub text: String,
    /// Whether something went wrong.
    pub wrong: bool,
    /// Whether it is new since the last key; on small screens it then takes the place of the footer.
    pub fresh: bool,
    /// Whether it answers the last key, and is not news that came by itself.
    is_answer: bool,
}

impl App {
    /// Opens on the wall.
    pub fn new(open: OpenBoard, theme: Theme) -> Self {
        let walk = Walk::left_at(&open);
        let gallery = Gallery::off(open.folder());
        let mut app = Self {
            open,
            version: 0,
            view: Scope::Wall,
            wall: Wall::default(),
            looks: Looks::default(),
            scenes: Scenes::default(),
            walk,
            workroom: Workroom::default(),
            layers: Vec::new(),
            seen: None,
            is_shared: false,
            said: Said::default(),
            measure: Measure::default(),
            reckoning: Reckoning::default(),
            gallery,
            theme,
            hits: Hits::default(),
            left: false,
            errand: None,
        };
        let faults = app.open.faults().len();
        if faults > 0 {
            app.warn(format!("{faults} could not be read and are left alone: ! lists them"));
        } else {
            app.say("? shows the keys; everything is saved as you go");
        }
        app
    }

    /// The board that edits are made from: as it is now, or, while a form, a list or an editor is at work, as it was
    /// when that opened and the user read it. What another hand changed since then is merged with the edit or put as
    /// a choice, so that nobody's change is overwritten unseen.
    pub fn board(&self) -> &Board {
        self.seen.as_ref().unwrap_or(self.open.board())
    }

    /// The folder of the board.
    pub fn folder(&self) -> PathBuf {
        self.open.folder().to_path_buf()
    }

    /// Whether a layer or a picture has something new to show.
    pub fn has_news(&mut self) -> bool {
        self.gallery.has_news() | self.layers.iter_mut().any(|laid| laid.layer.has_news())
    }

    /// Says something.
    pub fn say(&mut self, text: impl Into<String>) {
        self.said = Said { text: text.into(), wrong: false, fresh: true, is_answer: true };
    }

    /// Says that something is wrong.
    pub fn warn(&mut self, text: impl Into<String>) {
        self.said = Said { text: text.into(), wrong: true, fresh: true, is_answer: true };
    }

    /// What went wrong with the work of the last key, if anything did; what was typed for it must then not be lost.
    pub fn refused(&self) -> Option<&str> {
        (self.said.wrong && self.said.is_answer).then_some(self.said.text.as_str())
    }

    /// Lays a layer over everything.
    pub fn open_layer(&mut self, layer: impl Layer + 'static) {
        let seen = (!layer.is_live()).then(|| self.board().clone());
        self.layers.push(Laid { layer: Box::new(layer), seen });
    }

    /// Makes a change and says so, or says why not; see `App::put` for what is asked first. Says whether it was
    /// made.
    pub fn change(&mut self, edit: Result<Edit, Refused>) -> bool {
        match edit {
            Ok(edit) => {
                let again = edit.clone();
                self.put(&edit, Vec::new(), move |_| Ok(again.clone()))
            }
            Err(refused) => {
                self.warn(refused.to_string());
                false
            }
        }
    }

    /// Makes a change. Every edit but undo and redo comes this way, so that none can forget to ask: one that would
    /// pass a limit stops and offers ways to make room, and one that clashes with another hand's puts the choice.
    ///
    /// `outfits` are those that could go into another look instead; `again` makes the edit once more on the board
    /// where room was made. Says whether the change was made.
    pub(super) fn put(
        &mut self,
        edit: &Edit,
        outfits: Vec<OutfitId>,
        again: impl Fn(&Board) -> Result<Edit, Refused> + Send + Sync + 'static,
    ) -> bool {
        if edit.is_empty() {
            self.say("nothing changed");
            return false;
        }
        // The limits that count are those of the board as it is now, whatever the user saw. What it would not take
        // at all passes none; committing it says why.
        let passed = self.open.board().limits_passed_by(edit).unwrap_or_default();
        if passed.is_empty() {
            return self.commit(edit);
        }
        self.measure.refresh(self.open.board(), self.version);
        let stopped = limit::Stopped {
            seen: self.board().clone(),
            now: self.open.board().clone(),
            likeness: self.measure.likeness().clone(),
            edit: edit.clone(),
            make: std::sync::Arc::new(again),
        };
        let question = limit::question(stopped, passed, outfits);
        self.open_layer(question);
        false
    }

    fn commit(&mut self, edit: &Edit) -> bool {
        let done = self.open.edit(edit);
        self.version += 1;
        match done {
            Ok(()) => {
                // What the layer asks next builds on what it did; other hands' changes are still not seen.
                if self.seen.as_mut().is_some_and(|seen| seen.apply(edit).is_err()) {
                    self.seen = None;
                }
                self.say(edit.label.clone());
                self.follow(edit);
                true
            }
            Err(EditError::Refused(refused)) => {
                match clash::clashes(self.open.board(), edit, refused) {
                    Ok(clashes) => self.open_layer(clash::question(&clashes, edit.clone())),
                    Err(refused) => self.warn(refused.to_string()),
                }
                false
            }
            Err(error) => {
                self.warn(error.to_string());
                false
            }
        }
    }

    /// Puts the focus on a look that has just come to be.
    fn follow(&mut self, edit: &Edit) {
        let made = edit.changes.iter().find_map(|change| match change {
            Change::Look(id, swap) if swap.before.is_none() => Some(id.clone()),
            _ => None,
        });
        if let Some(look) = made {
            self.wall.marks.clear();
            self.focus(&Target::Look(look));
        }
    }

    /// Puts the focus of the present view on something, where it can show it.
    pub fn focus(&mut self, target: &Target) {
        let board = self.open.board();
        match self.view {
            Scope::Looks => self.looks.focus(board, target),
            Scope::Scenes => self.scenes.focus(board, target),
            Scope::Walk => self.walk.focus(board, target),
            Scope::Workroom => self.workroom.focus(board, target),
            Scope::Wall | Scope::Everywhere => self.wall.focus(board, target),
        }
    }

    /// Goes to the view that shows a target best, and puts its focus there.
    pub fn go_to(&mut self, target: &Target) {
        self.view = match (target, self.view) {
            (_, Scope::Walk) => Scope::Walk,
            (Target::Scene(_), _) => Scope::Scenes,
            (Target::Look(_), Scope::Looks) => Scope::Looks,
            (Target::Look(_), Scope::Workroom) => Scope::Workroom,
            _ => Scope::Wall,
        };
        self.focus(target);
    }

    /// What the present view has in focus.
    pub fn focused(&self) -> Option<Target> {
        match self.view {
            Scope::Looks => self.looks.focused(self.board()),
            Scope::Scenes => self.scenes.focused(self.board()),
            Scope::Walk => self.walk.focused(self.board()),
            Scope::Workroom => self.workroom.focused(self.board()),
            Scope::Wall | Scope::Everywhere => self.wall.focused(),
        }
    }

    /// Takes in what other hands have changed in the folder.
    pub fn take_in_outside(&mut self) {
        let news = self.open.take_in_outside();
        if news.is_empty() {
            return;
        }
        self.version += 1;
        self.is_shared |= news.iter().any(|news| news.kind == NewsKind::TakenIn);
        let mut text: Vec<String> = news.iter().map(|news| news.text.clone()).collect();
        let grave = news.iter().any(|news| matches!(news.kind, NewsKind::Damaged | NewsKind::Unreachable));
        // News must not hide the answer to the last key, unless it is graver.
        if self.said.is_answer && !grave {
            text.insert(0, std::mem::take(&mut self.said.text));
        }
        let wrong = grave || (self.said.is_answer && self.said.wrong);
        self.said = Said { text: text.join("; "), wrong, fresh: true, is_answer: false };
    }

    /// Takes one event of the terminal.
    pub fn event(&mut self, event: &Event) {
        self.forget_said(event);
        match event {
            Event::Mouse(mouse) => self.mouse(mouse.kind, mouse.column, mouse.row),
            Event::Key(key) if key.kind == KeyEventKind::Release => {}
            Event::Key(_) | Event::Paste(_) if !self.layers.is_empty() => {
                self.send_to_top(|layer, app| layer.event(event, app));
            }
            Event::Key(key) => {
                if let Some(act) = actions::by_key(Key::of(*key), self.view) {
                    self.perform(act);
                }
            }
            _ => {}
        }
    }

    /// What was said goes with the next key or click; news that came by itself stays for whoever is typing.
    fn forget_said(&mut self, event: &Event) {
        let does = match event {
            Event::Key(key) => key.kind != KeyEventKind::Release,
            Event::Paste(_) => true,
            Event::Mouse(mouse) => {
                use MouseEventKind::{Down, ScrollDown, ScrollUp};
                matches!(mouse.kind, Down(_) | ScrollDown | ScrollUp)
            }
            _ => false,
        };
        if does && (self.said.is_answer || self.layers.is_empty()) {
            self.said = Said::default();
        } else if does {
            self.said.fresh = false;
        }
    }

    fn mouse(&mut self, kind: MouseEventKind, column: u16, row: u16) {
        match kind {
            MouseEventKind::Down(button) => {
                let Some(hit) = self.hits.at(column, row).cloned() else { return };
                match hit {
                    Hit::Row(row) if self.layers.is_empty() => self.click_row(row),
                    Hit::Row(row) => self.send_to_top(|layer, app| layer.click(row, app)),
                    Hit::Cell => {
                        let at = Position::new(column, row);
                        self.send_to_top(|layer, app| layer.click_cell(at, app));
                    }
                    // What lies under a layer is out of reach; a stray click must not lose what was typed.
                    _ if !self.layers.is_empty() => {}
                    Hit::Act(act) => self.perform(act),
                    Hit::Target(target) => self.click(&target, button),
                    Hit::Place => {
                        if let Some(target) = self.wall.target_at(column, row) {
                            self.click(&target, button);
                        }
                    }
                }
            }
            MouseEventKind::ScrollUp => self.wheel(-1),
            MouseEventKind::ScrollDown => self.wheel(1),
            _ => {}
        }
    }

    /// A click puts the focus there; a click on what is in focus opens it; the other button marks it.
    fn click(&mut self, target: &Target, button: MouseButton) {
        let again = self.focused().as_ref() == Some(target);
        self.focus(target);
        match (button, self.view) {
            (MouseButton::Right, Scope::Wall) => self.perform(Act::Mark),
            (MouseButton::Left, Scope::Wall) if again => self.perform(Act::Sheet),
            (MouseButton::Left, Scope::Looks) if again => self.perform(Act::LookFields),
            (MouseButton::Left, Scope::Workroom) if again => self.workroom.enter(self.open.board()),
            (MouseButton::Left, Scope::Scenes) if again => self.perform(Act::SceneAssign),
            _ => {}
        }
    }

    /// A click on a field of a look, or on a cell of the plot.
    fn click_row(&mut self, row: usize) {
        match self.view {
            Scope::Looks => super::views::looks::click(self, row),
            Scope::Scenes => super::views::scenes::click(self, row),
            Scope::Workroom => super::views::workroom::click(self, row),
            Scope::Wall | Scope::Walk | Scope::Everywhere => {}
        }
    }

    fn wheel(&mut self, by: isize) {
        if let Some(laid) = self.layers.last_mut() {
            laid.layer.scroll(by);
            return;
        }
        let act = if by < 0 { Act::Up } else { Act::Down };
        self.perform(act);
    }

    fn send_to_top(&mut self, send: impl FnOnce(&mut dyn Layer, &mut Self) -> Next) {
        let Some(mut laid) = self.layers.pop() else { return };
        let at = self.layers.len();
        self.seen = laid.seen.take();
        let next = send(laid.layer.as_mut(), self);
        laid.seen = self.seen.take();
        if next == Next::Keep {
            // What the layer opened lies over it.
            self.layers.insert(at.min(self.layers.len()), laid);
        }
    }

    /// Does an action.
    pub fn perform(&mut self, act: Act) {
        match act {
            Act::Wall | Act::Looks | Act::Scenes | Act::Walk | Act::Workroom => self.show(act),
            Act::Find => self.find(),
            Act::Palette => self.palette(),
            Act::Help => self.help(),
            Act::Undo => self.travel(Way::Back),
            Act::Redo => self.travel(Way::Forth),
            Act::Quit => self.left = true,
            Act::Problems => self.problems(),
            Act::Text => self.edit_as_text(),
            Act::BoardText => self.edit_in_editor(RecordRef::Head),
            Act::Notes => self.write_notes(),
            Act::Bring => self.bring_in(),
            Act::Suggest => self.suggest(),
            Act::Pictures => self.see_focused(),
            Act::HidePictures => self.turn_pictures(),
            Act::Suspend => self.errand = Some(Errand::Suspend),
            Act::Redraw => self.errand = Some(Errand::Redraw),
            Act::Back => match self.view {
                Scope::Looks => self.looks.back(),
                Scope::Scenes => drop(self.scenes.back()),
                Scope::Workroom => self.workroom.back(),
                Scope::Walk => {}
                Scope::Wall | Scope::Everywhere => self.wall.back(),
            },
            // What is done in every view, such as moving, each view does in its own way.
            _ => match self.view {
                Scope::Wall | Scope::Everywhere => super::views::wall::perform(self, act),
                Scope::Looks => super::views::looks::perform(self, act),
                Scope::Scenes => super::views::scenes::perform(self, act),
                Scope::Walk => super::views::walk::perform(self, act),
                Scope::Workroom => super::views::workroom::perform(self, act),
            },
        }
    }

    /// Takes up what the workroom reckons of the board as it is now.
    pub(super) fn reckon(&mut self) {
        self.reckoning.refresh(self.open.board(), self.version, true);
    }

    /// Goes to a view and takes the focus along.
    fn show(&mut self, act: Act) {
        let target = self.focused();
        self.view = match act {
            Act::Looks => Scope::Looks,
            Act::Scenes => Scope::Scenes,
            Act::Walk => Scope::Walk,
            Act::Workroom => Scope::Workroom,
            _ => Scope::Wall,
        };
        match (self.view, target) {
            (Scope::Walk, target) => self.walk.begin(self.open.board(), target.as_ref()),
            (_, Some(target)) => self.focus(&target),
            (_, None) => {}
        }
    }
}
