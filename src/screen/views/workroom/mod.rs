//! The workroom: the looks, and of the one in focus its measures, copies, cloth, cost and cautions.
//!
//! The list stands left and the look's pages right; where the screen is too narrow for both, one at a time. One page is
//! in focus; as many others as there is room for stand below or beside it. What is kept here is where the focus is, never
//! what is shown; two things that take long to find are kept for the version of the board that they were found for.

mod act;
mod cautions;
mod cloth;
mod copies;
mod cost;
mod edit;
mod empty;
mod garment;
mod lines;
mod list;
mod measures;
mod read;
mod seen;
#[cfg(test)]
mod tests;
mod why;

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::Target;
use super::among::Among;
use super::looks::list::{Window, draw_empty};
use crate::board::{Board, LookId};
use crate::plot;
use crate::screen::actions::Act;
use crate::screen::canvas::{Canvas, Hit, width};
use crate::screen::layers::cell::Place;
use crate::screen::reckoning::Reckoned;
use crate::workroom::copies::plan::Garment;
use cautions::Caution;
use copies::Calendar;
use garment::Chosen;
use lines::{Cursor, Lines};
use measures::Column;
use seen::Seen;

pub use act::{click, perform};

/// From this width on, list and pages stand side by side.
const WIDE: u16 = 104;

/// From this size on, all pages have a place of their own.
const ROOMY: (u16, u16) = (132, 36);

/// Below this width there is room for nothing.
const NARROWEST: u16 = 16;

/// The least rows for a page that is not in focus.
const LEAST: u16 = 7;

/// A page of the look in focus.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Tab {
    #[default]
    Measures,
    Copies,
    Cloth,
    Cost,
    Cautions,
}

impl Tab {
    const ALL: [Self; 5] = [Self::Measures, Self::Copies, Self::Cloth, Self::Cost, Self::Cautions];

    fn word(self) -> &'static str {
        match self {
            Self::Measures => "measures",
            Self::Copies => "copies",
            Self::Cloth => "cloth",
            Self::Cost => "cost",
            Self::Cautions => "cautions",
        }
    }

    fn place(self) -> usize {
        Self::ALL.iter().position(|tab| *tab == self).unwrap_or(0)
    }

    /// The one so many on, round and round.
    fn step(self, by: usize) -> Self {
        Self::ALL[(self.place() + by) % Self::ALL.len()]
    }

    /// What a click on one of its rows is told by; see [`Tab::of_row`].
    fn row(self, row: usize) -> Hit {
        Hit::Row((row + 1) * Self::ALL.len() + self.place())
    }

    /// The tab of a click, and its row; no row where it is the tab's own name.
    fn of_row(row: usize) -> (Self, Option<usize>) {
        let tab = Self::ALL[row % Self::ALL.len()];
        (tab, (row / Self::ALL.len()).checked_sub(1))
    }
}

/// The state of the view.
pub struct Workroom {
    among: Among,
    list: Window,
    /// Whether the keys act on the page.
    inside: bool,
    tab: Tab,
    chosen: Chosen,
    column: Column,
    /// The shooting day in focus, by its place among those that come; where none was chosen, the first that needs the
    /// garment in focus.
    day: Option<usize>,
    cursors: [Cursor; Tab::ALL.len()],
    /// Whether there are rows for what can be done without.
    is_tall: bool,
    /// Where the cell in focus was drawn.
    cell: Place,
    cautions: Option<(u64, LookId, Vec<Caution>)>,
    calendar: Option<(u64, Garment, Calendar)>,
}

impl Default for Workroom {
    fn default() -> Self {
        Self {
            among: Among::default(),
            list: Window { top: 0, page: 0 },
            inside: false,
            tab: Tab::default(),
            chosen: Chosen::default(),
            column: Column::default(),
            day: None,
            cursors: [Cursor::default(); Tab::ALL.len()],
            is_tall: false,
            cell: Place::default(),
            cautions: None,
            calendar: None,
        }
    }
}

impl Workroom {
    /// Puts the focus on the look that a target leads to, where there is one.
    pub fn focus(&mut self, board: &Board, target: &Target) {
        if let Some(id) = self.among.led_to(board, target) {
            self.go_to(board, id);
        }
    }

    /// What is in focus.
    pub fn focused(&self, board: &Board) -> Option<Target> {
        self.among.look(board).map(Target::Look)
    }

    /// Goes back from the page to the list.
    pub fn back(&mut self) {
        self.inside = false;
    }

    /// Goes from the list to the page of the look in focus.
    pub fn enter(&mut self, board: &Board) {
        self.inside = self.among.look(board).is_some();
    }

    fn go_to(&mut self, board: &Board, id: LookId) {
        if self.among.go_to(board, id) {
            self.chosen = Chosen::default();
            self.day = None;
            self.cursors = [Cursor::default(); Tab::ALL.len()];
        }
    }

    /// Whether an action has something to act on, for the footer.
    pub fn offers(&self, act: Act) -> bool {
        let on = |tab: Tab| self.inside && self.tab == tab;
        match act {
            Act::RoomFit | Act::RoomAdd => on(Tab::Measures),
            Act::RoomPiece | Act::RoomVersion | Act::RoomWearer => on(Tab::Measures) || on(Tab::Copies),
            Act::RoomWhy => on(Tab::Measures) || on(Tab::Copies),
            Act::RoomMore | Act::RoomFewer | Act::RoomAsNeeded => on(Tab::Copies),
            Act::RoomTrial => on(Tab::Cloth),
            Act::RoomEdit => !(on(Tab::Cost) || on(Tab::Cautions)),
            Act::RoomUnit => !(on(Tab::Copies) || on(Tab::Cost) || on(Tab::Cautions)),
            _ => true,
        }
    }

    /// Draws it.
    pub fn draw(
        &mut self,
        board: &Board,
        version: u64,
        reckoned: &Reckoned,
        canvas: &mut Canvas<'_>,
        area: Rect,
    ) {
        let Some(id) = self.among.look(board) else {
            self.inside = false;
            draw_empty(board, canvas, area);
            return;
        };
        self.among.keep_place(board, &id);
        if area.width < NARROWEST || area.height == 0 {
            return;
        }
        self.find(board, version, reckoned, &id);
        if area.width < WIDE {
            if self.inside {
                self.draw_pages(board, reckoned, &id, canvas, area);
            } else {
                list::draw(board, reckoned, &id, &mut self.list, false, canvas, area);
            }
            return;
        }
        let left = list::wide_of(area.width);
        let listed = Rect { width: left - 1, ..area };
        list::draw(board, reckoned, &id, &mut self.list, self.inside, canvas, listed);
        let frame = canvas.theme.quiet();
        for y in area.top()..area.bottom() {
            canvas.put(area.x + left, y, 1, "│", frame);
        }
        let x = area.x + left + 2;
        self.draw_pages(board, reckoned, &id, canvas, Rect { x, width: area.right() - x, ..area });
    }

    /// Finds what takes long to find, unless it is at hand.
    fn find(&mut self, board: &Board, version: u64, reckoned: &Reckoned, id: &LookId) {
        if !self.cautions.as_ref().is_some_and(|(at, look, _)| *at == version && look == id) {
            self.cautions = Some((version, id.clone(), cautions::of_look(board, &reckoned.practice, id)));
        }
        let Some(garment) = self.chosen.garment(board, reckoned, id) else { return };
        if !self.calendar.as_ref().is_some_and(|(at, of, _)| *at == version && *of == garment) {
            let demand = reckoned.plan.of_look(id).find(|demand| demand.garment == garment);
            let calendar = demand.map(|demand| demand.calendar(&reckoned.plan.days, demand.made()));
            self.calendar = Some((version, garment, calendar.unwrap_or_default()));
        }
    }

    fn cautions(&self) -> &[Caution] {
        self.cautions.as_ref().map_or(&[], |(_, _, cautions)| cautions)
    }

    /// The look, its tabs, and the pages that there is room for.
    fn draw_pages(
        &mut self,
        board: &Board,
        reckoned: &Reckoned,
        id: &LookId,
        canvas: &mut Canvas<'_>,
        area: Rect,
    ) {
        let Some(look) = board.look(id) else { return };
        let garment = self.chosen.garment(board, reckoned, id);
        let seen = Seen { board, id, look, reckoned, garment, unit: board.head().units };
        let mut y = area.y;
        if area.height >= 14 {
            draw_title(&seen, canvas, Rect { height: 1, ..area });
            y += 1;
        }
        self.draw_tabs(&seen, canvas, Rect { y, height: 1, ..area });
        self.is_tall = area.height >= 16;
        let body = Rect { y: y + 1, height: (area.bottom() - y).saturating_sub(1), ..area };
        for (tab, panel, ruled) in self.panels(&seen, body) {
            let page = if ruled {
                self.draw_rule(tab, canvas, Rect { height: 1, ..panel });
                Rect { y: panel.y + 1, height: panel.height.saturating_sub(1), ..panel }
            } else {
                panel
            };
            self.draw_page(&seen, tab, canvas, page);
        }
    }

    fn draw_page(&mut self, seen: &Seen<'_>, tab: Tab, canvas: &mut Canvas<'_>, area: Rect) {
        let lines = self.lines(seen, tab, area.width);
        let active = self.inside && tab == self.tab;
        let mut cursor = self.cursors[tab.place()];
        if tab == Tab::Copies {
            cursor.at = copies::place(seen, &copies::demands(seen)).unwrap_or(0);
        }
        let place = lines.draw(canvas, area, &mut cursor, active, |row| tab.row(row));
        self.cursors[tab.place()] = cursor;
        if let Some(place) = place.filter(|_| tab == Tab::Measures) {
            self.cell.set(place);
        }
    }

    fn lines(&self, seen: &Seen<'_>, tab: Tab, wide: u16) -> Lines {
        match tab {
            Tab::Measures => {
                measures::page(seen, self.cursors[tab.place()].at, self.column, wide, self.is_tall)
            }
            Tab::Copies => {
                let calendar = self.calendar.as_ref().map(|(_, _, calendar)| calendar);
                copies::page(seen, self.day, calendar.unwrap_or(&Calendar::new()), wide)
            }
            Tab::Cloth => cloth::page(seen, wide),
            Tab::Cost => cost::page(seen, wide),
            Tab::Cautions => cautions::page(self.cautions(), wide),
        }
    }

    /// Which pages are drawn where, and whether a rule with the page's name stands above it.
    fn panels(&self, seen: &Seen<'_>, area: Rect) -> Vec<(Tab, Rect, bool)> {
        if area.width >= ROOMY.0 && area.height >= ROOMY.1 {
            let left = (area.width * 3 / 5).min(94);
            let x = area.x + left + 2;
            let columns = [
                (Rect { width: left, ..area }, &Tab::ALL[..2]),
                (Rect { x, width: area.right() - x, ..area }, &Tab::ALL[2..]),
            ];
            return columns.iter().flat_map(|(column, tabs)| self.shared(seen, *column, tabs)).collect();
        }
        let mut panels = Vec::new();
        let mut left = area;
        for tab in (0..Tab::ALL.len()).map(|by| self.tab.step(by)) {
            let ruled = tab != self.tab;
            if ruled && left.height < LEAST {
                break;
            }
            let high = self.lines(seen, tab, area.width).high().saturating_add(u16::from(ruled));
            let high = high.min(left.height);
            panels.push((tab, Rect { height: high, ..left }, ruled));
            // A row stays free between two pages.
            let next = (high + 1).min(left.height);
            left = Rect { y: left.y + next, height: left.height - next, ..left };
        }
        panels
    }

    /// Pages one below the other in a column, each with what it wants or its share, and what is left to those that want
    /// more.
    fn shared(&self, seen: &Seen<'_>, column: Rect, tabs: &[Tab]) -> Vec<(Tab, Rect, bool)> {
        let count = u16::try_from(tabs.len()).unwrap_or(1).max(1);
        let share = column.height / count;
        let wants: Vec<u16> =
            tabs.iter().map(|tab| self.lines(seen, *tab, column.width).high().saturating_add(2)).collect();
        let mut has: Vec<u16> = wants.iter().map(|want| (*want).min(share)).collect();
        for (has_now, want) in (0..has.len()).zip(&wants) {
            let free = column.height.saturating_sub(has.iter().sum());
            has[has_now] += free.min(want - has[has_now]);
        }
        let mut y = column.y;
        let panel = |(tab, high): (&Tab, u16)| {
            let here = Rect { y, height: high, ..column };
            y += high;
            (*tab, here, true)
        };
        tabs.iter().zip(has).map(panel).collect()
    }

    fn draw_tabs(&self, seen: &Seen<'_>, canvas: &mut Canvas<'_>, area: Rect) {
        let sign = seen.reckoned.sign(seen.id);
        let notes = Tab::ALL.map(|tab| match tab {
            Tab::Measures if sign.lacking > 0 => format!("!{}", sign.lacking),
            Tab::Copies if sign.short > 0 => format!("!{}", sign.short),
            Tab::Cautions if !self.cautions().is_empty() => format!("!{}", cautions::count(self.cautions())),
            _ => String::new(),
        });
        let notes = notes.map(|note| if note.is_empty() { note } else { format!(" {note}") });
        let names: usize = Tab::ALL.iter().map(|tab| width(tab.word()) + 1).sum();
        let noted: usize = notes.iter().map(|note| width(note)).sum();
        let room = usize::from(area.width);
        let (with_notes, gap) =
            (names + noted <= room, u16::from(names + noted + Tab::ALL.len() <= room) + 1);
        let mut x = area.x;
        for (tab, note) in Tab::ALL.into_iter().zip(&notes) {
            let style = match (tab == self.tab, self.inside) {
                (true, true) => canvas.theme.focus(),
                (true, false) => canvas.theme.heading(),
                _ => canvas.theme.text(),
            };
            let start = x;
            x = canvas.spans(x, area.y, area.right(), &[(tab.word(), style)]);
            if with_notes {
                let lacks = canvas.theme.open();
                x = canvas.spans(x, area.y, area.right(), &[(note, lacks)]);
            }
            canvas.hit(Rect::new(start, area.y, x - start, 1), Hit::Row(tab.place()));
            x += gap;
        }
    }

    fn draw_rule(&self, tab: Tab, canvas: &mut Canvas<'_>, area: Rect) {
        let quiet = canvas.theme.quiet();
        let style = if tab == self.tab { canvas.theme.heading() } else { quiet };
        let rest = "─".repeat(usize::from(area.width).saturating_sub(width(tab.word()) + 4));
        let spans = [("─ ", quiet), (tab.word(), style), (" ", Style::new()), (&rest, quiet)];
        canvas.spans(area.x, area.y, area.right(), &spans);
        canvas.hit(area, Hit::Row(tab.place()));
    }
}

/// The look, who wears it, and for how long it is seen.
fn draw_title(seen: &Seen<'_>, canvas: &mut Canvas<'_>, area: Rect) {
    let (heading, quiet, text) = (canvas.theme.heading(), canvas.theme.quiet(), canvas.theme.text());
    let who = seen.board.who_is(&crate::workroom::fit::wearer_of(seen.board, seen.look)).to_owned();
    let seen_for =
        format!(" · {} min. · {}", plot::of_look(seen.board, seen.id).clock(), seen.look.stage.word());
    let spans = [
        (seen.look.treatment.mark(), text),
        (" ", text),
        (seen.look.title.as_str(), heading),
        ("  ", text),
        (who.as_str(), quiet),
        (seen_for.as_str(), quiet),
    ];
    canvas.spans(area.x, area.y, area.right(), &spans);
}
