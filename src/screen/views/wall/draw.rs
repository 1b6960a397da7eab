//! Puts the wall together: heads, ruler, outfits, lanes, and the strip that tells of the focus.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

use super::axis::{self, Stretch};
use super::blocks::{self, Blocks};
use super::lanes::{self, Bar, Bars};
use super::shelf::Entry;
use super::{Wall, Zoom, cards, heads, paint, strip};
use crate::board::{Board, LookId, OutfitId, Standing, garment};
use crate::screen::canvas::{Canvas, Hit, width, wrapped};
use crate::screen::views::Target;

/// Where everything lies, for one size.
#[derive(Debug, Default)]
pub struct Plan {
    pub stretches: Vec<Stretch>,
    pub blocks: Blocks,
    pub bars: Bars,
    pub heads: Rect,
    pub ruler: Rect,
    pub outfits: Rect,
    pub lanes: Rect,
    pub strip: Rect,
    /// How many rows a block takes: where there is room to spare, cloth hangs longer.
    pub tall: u16,
    /// The blocks as painted once, without focus, marks and light.
    pub painted: Option<Buffer>,
}

impl Wall {
    /// Draws the wall.
    pub fn draw(&mut self, board: &Board, version: u64, canvas: &mut Canvas<'_>, area: Rect) {
        self.refresh(board, version);
        self.pictured = self.zoom == Zoom::Near && canvas.shows_pictures();
        self.follow_focus(area.width);
        let planned_for = Some((area, self.zoom, self.first, (self.pictured, self.in_lanes)));
        if self.planned_for != planned_for {
            self.plan = self.lay_out(board, area);
            self.planned_for = planned_for;
        }
        if self.zoom == Zoom::Far {
            paint::draw(self, board, canvas);
        }
        heads::draw(self, canvas);
        if board.records().outfits.is_empty() {
            empty(board, canvas, self.plan.outfits);
        } else if self.zoom != Zoom::Far {
            cards::draw(self, board, canvas);
        }
        self.draw_lanes(board, canvas);
        strip::draw(self, board, canvas, self.plan.strip);
    }

    /// In the nearer zooms, brings the period in focus onto the screen.
    fn follow_focus(&mut self, width: u16) {
        if self.zoom == Zoom::Far {
            self.first = 0;
            return;
        }
        let columns = self.shelf.columns.len();
        let fit = usize::from(axis::fitting(columns, width, cards::least_width(self.zoom, self.pictured)));
        let column = match &self.focus {
            Some(Entry::Look(look)) if self.in_lanes => {
                self.shelf.lane_of(look).map(|lane| self.shelf.lanes[lane].column)
            }
            Some(entry) => self.shelf.place(entry).map(|(column, _)| column),
            None => None,
        };
        if let Some(column) = column {
            self.first = self.first.min(column).max((column + 1).saturating_sub(fit));
        }
        self.first = self.first.min(columns.saturating_sub(fit));
    }

    fn lay_out(&self, board: &Board, area: Rect) -> Plan {
        let stretches = match self.zoom {
            Zoom::Far => axis::whole(&self.shelf.columns, area.x, area.width),
            zoom => {
                let least = cards::least_width(zoom, self.pictured);
                axis::part(&self.shelf.columns, self.first, area.x, area.width, least)
            }
        };
        let rows = |y: u16, height: u16| Rect::new(area.x, y, area.width, height);
        let head_rows = if area.height < 14 { 2 } else { 3 };
        let strip_rows = match area.height {
            0..14 => 0,
            14..26 => 3,
            // What the strip tells, the cards tell too.
            26..45 if self.pictured => 3,
            26..40 => 5,
            _ => 6,
        };
        let ruler_y = area.y + head_rows;
        let left = area.height.saturating_sub(head_rows + 1 + strip_rows);
        // Outfits first: in the far zoom what their stacks need, in the others most of the room.
        let lanes_most = match (self.zoom, area.height) {
            (_, 0..14) => 0,
            (Zoom::Far, _) => left.saturating_sub(3),
            // Pictures need the room, and the strip tells of the look in focus.
            (Zoom::Near, 0..45) if self.pictured && !self.in_lanes => 0,
            (Zoom::Near, _) if self.pictured => left / 5,
            _ => left / 3,
        };
        let outfits_most = if lanes_most == 0 { left } else { left - (left / 3).min(lanes_most) };
        let blocks = match self.zoom {
            Zoom::Far => blocks::lay(&self.shelf.columns, &stretches, outfits_most),
            _ => Blocks::default(),
        };
        let need = if self.zoom == Zoom::Far { blocks.height + 1 } else { 0 };
        let lane_room = match self.zoom {
            Zoom::Far => left.saturating_sub(need.min(left)).min(lanes_most),
            _ => lanes_most,
        };
        let name = |lane: &super::shelf::Lane| {
            u16::try_from(board.look(&lane.look).map_or(0, |look| width(&look.title))).unwrap_or(u16::MAX)
        };
        let bars =
            lanes::pack(&self.shelf.lanes, &stretches, area.right(), lane_room.saturating_sub(1), name);
        let lane_rows = if bars.rows == 0 { 0 } else { bars.rows + 1 };
        let outfit_rows = left - lane_rows.min(left);
        let outfits = rows(ruler_y + 1, outfit_rows);
        let tall = (outfit_rows / blocks.height.max(1)).clamp(1, paint::TALLEST);
        let lanes = rows(outfits.bottom(), lane_rows);
        Plan {
            stretches,
            blocks,
            bars,
            heads: rows(area.y, head_rows),
            ruler: rows(ruler_y, 1),
            outfits,
            lanes,
            strip: rows(lanes.bottom(), strip_rows),
            tall,
            painted: None,
        }
    }

    /// The mark of an entry: its standing, or that it is marked.
    pub(super) fn mark_of(&self, board: &Board, entry: &Entry) -> &'static str {
        match entry {
            Entry::Outfit(id) if self.marks.contains(id) => "✓",
            Entry::Outfit(id) => standing_mark(board, id),
            Entry::Look(id) => board.look(id).map_or("?", |look| look.treatment.mark()),
        }
    }

    fn draw_lanes(&self, board: &Board, canvas: &mut Canvas<'_>) {
        let Plan { bars, lanes, .. } = &self.plan;
        if lanes.height == 0 {
            return;
        }
        let quiet = canvas.theme.quiet();
        let hidden = match bars.hidden {
            0 => String::new(),
            count => format!(" · {count} more: make the window higher, or c for one character"),
        };
        let words = format!("─ looks over the years they stand for{hidden} ");
        let used = canvas.put(lanes.x, lanes.y, lanes.width, &words, quiet);
        let rest = "─".repeat(usize::from(lanes.width.saturating_sub(used)));
        canvas.put(lanes.x + used, lanes.y, lanes.width - used, &rest, quiet);
        let focus = self.look_in_focus(board);
        for bar in &bars.bars {
            let Some(lane) = self.shelf.lanes.get(bar.lane) else { continue };
            self.draw_bar(board, canvas, bar, &lane.look, focus.as_ref() == Some(&lane.look));
        }
    }

    fn draw_bar(&self, board: &Board, canvas: &mut Canvas<'_>, bar: &Bar, id: &LookId, of_focus: bool) {
        let Some(look) = board.look(id) else { return };
        let y = self.plan.lanes.y + 1 + bar.row;
        if y >= self.plan.lanes.bottom() {
            return;
        }
        let theme = canvas.theme;
        let focused = self.in_lanes && of_focus;
        let lit =
            self.is_lit(board, &Entry::Look(id.clone())) || (of_focus && !focused && self.lit.is_none());
        let style =
            if focused || lit { theme.lit().remove_modifier(Modifier::UNDERLINED) } else { theme.quiet() };
        let (from, to) = bar.cells;
        let line = "─".repeat(usize::from(to - from) + 1);
        canvas.put(from, y, to - from + 1, &line, style);
        if bar.dots.is_empty() {
            canvas.put(from, y, 1, "*", theme.heading());
        }
        for (x, base) in &bar.dots {
            canvas.put(*x, y, 1, if *base { "●" } else { "•" }, theme.text());
        }
        let (name_x, room) = bar.name;
        if room > 4 {
            let (main, second) = garment::swatches(&look.pieces);
            canvas.put(name_x, y, 1, theme.cloth_glyph(main), theme.cloth(main));
            let second = second.or(main);
            canvas.put(name_x + 1, y, 1, theme.cloth_glyph(second), theme.cloth(second));
            canvas.put(name_x + 3, y, 1, look.treatment.mark(), theme.text());
            let style = match (focused, lit) {
                (true, _) => theme.focus(),
                (_, true) => theme.lit(),
                _ => Style::new(),
            };
            canvas.put(name_x + 5, y, room - 5, &look.title, style);
            canvas.hit(Rect::new(name_x, y, room, 1), Hit::Target(Target::Look(id.clone())));
        } else if focused {
            canvas.restyle(Rect::new(from, y, to - from + 1, 1), theme.focus());
        }
        canvas.hit(Rect::new(from, y, to - from + 1, 1), Hit::Target(Target::Look(id.clone())));
    }
}

/// The mark of an outfit's standing.
pub(super) fn standing_mark(board: &Board, id: &OutfitId) -> &'static str {
    match board.standing(id) {
        Standing::Open => "○",
        Standing::Folded(look) => board.look(look).map_or("≈", |look| look.treatment.mark()),
        Standing::LetGo(_) => "×",
    }
}

/// What an entry is for the mouse and the rest of the screen.
pub(super) fn target(entry: &Entry) -> Target {
    match entry {
        Entry::Outfit(id) => Target::Outfit(id.clone()),
        Entry::Look(id) => Target::Look(id.clone()),
    }
}

fn empty(board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
    let first = if board.head().characters.is_empty() {
        "No outfits yet, and no characters: Y opens board.yaml, where characters and periods are written."
    } else {
        "No outfits yet: N adds one."
    };
    let lines = [
        first,
        "Or put one file per outfit into the board's folder outfits/: each shows up here as you save it.",
        "A starter with examples: shirr new DIR --from one-life",
    ];
    let lines = lines.iter().flat_map(|line| wrapped(line, usize::from(area.width.saturating_sub(4))));
    for (y, line) in (area.top()..area.bottom()).skip(1).zip(lines) {
        canvas.put(area.x + 2, y, area.width.saturating_sub(4), &line, Style::new());
    }
}
