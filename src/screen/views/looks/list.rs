//! The list of looks: one group for each character, one row for each look.

use ratatui::layout::Rect;

use super::{Looks, Target};
use crate::board::{Board, CharacterId, Look, LookId, Scope as Limit};
use crate::plot;
use crate::screen::canvas::{Canvas, Hit, width, wrapped};
use crate::screen::parts::{grouped, meter, swatch};

/// The width of the list where the fields stand beside it.
pub fn wide_of(whole: u16) -> u16 {
    (whole / 20 * 11).min(90)
}

enum Row<'a> {
    Group(&'a CharacterId),
    /// A look, and which of its character's looks it is, from 1.
    Look(&'a LookId, usize),
    /// The character has none.
    None,
}

/// Every row: the characters in the order of the board, each with its looks; then looks of nobody that is known.
fn rows(board: &Board) -> Vec<Row<'_>> {
    let looks = board.relations().looks_by_order();
    let of = |id: &LookId| board.look(id).map(|look| &look.character);
    let mut rows = Vec::with_capacity(looks.len() + board.head().characters.len());
    let mut left = looks;
    for character in &board.head().characters {
        rows.push(Row::Group(&character.id));
        let own = left.iter().take_while(|id| of(id) == Some(&character.id)).count();
        let (these, rest) = left.split_at(own);
        rows.extend(these.iter().zip(1..).map(|(id, nth)| Row::Look(id, nth)));
        if these.is_empty() {
            rows.push(Row::None);
        }
        left = rest;
    }
    let mut group = None;
    let mut nth = 0;
    for id in left {
        if of(id) != group {
            group = of(id);
            nth = 0;
            rows.extend(group.map(Row::Group));
        }
        nth += 1;
        rows.push(Row::Look(id, nth));
    }
    rows
}

/// The columns right of the title, as many as leave it room.
struct Columns {
    period: u16,
    folded: u16,
    scenes: u16,
    minutes: u16,
}

/// Cells before the title: gutter, number, treatment, swatches, and the gaps between.
pub const BEFORE: u16 = 1 + 3 + 1 + 1 + 1 + swatch::WIDTH + 1;

impl Columns {
    fn of(board: &Board, room: u16) -> Self {
        let longest = board.head().periods.iter().map(|period| width(&period.title)).max().unwrap_or(0);
        let longest = u16::try_from(longest).unwrap_or(u16::MAX).min(16);
        let mut columns = Self { period: 0, folded: 0, scenes: 0, minutes: 0 };
        let mut left = room.saturating_sub(BEFORE + 18);
        let mut take = |column: &mut u16, want: u16| {
            if want > 0 && left > want {
                *column = want;
                left -= want + 1;
            }
        };
        take(&mut columns.minutes, 6);
        take(&mut columns.scenes, 3);
        take(&mut columns.folded, 4);
        take(&mut columns.period, longest);
        columns
    }

    fn each(&self) -> [u16; 4] {
        [self.period, self.folded, self.scenes, self.minutes]
    }

    fn width(&self) -> u16 {
        self.each().iter().filter(|wide| **wide > 0).map(|wide| wide + 1).sum()
    }
}

/// What to do where there is no look.
pub fn draw_empty(board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
    let words = if board.head().characters.is_empty() {
        "No looks yet, and no characters to wear them: Y opens board.yaml, where characters are written."
    } else {
        "No looks yet. Gather outfits on the wall: 1 goes there, space marks, g gathers. Or invent a look for which \
         there is no source with i."
    };
    let text = canvas.theme.text();
    let lines = wrapped(words, usize::from(area.width.saturating_sub(4)));
    for (y, line) in (area.top() + 1..area.bottom()).zip(lines) {
        canvas.put(area.x + 2, y, area.width.saturating_sub(2), &line, text);
    }
}

impl Looks {
    /// Draws the list with the look `id` in focus.
    pub(super) fn draw_list(&mut self, board: &Board, id: &LookId, canvas: &mut Canvas<'_>, area: Rect) {
        let columns = Columns::of(board, area.width);
        let mut body = area;
        if area.height >= 16 {
            draw_head(canvas, Rect { height: 1, ..area }, &columns);
            body = Rect { y: area.y + 1, height: area.height - 1, ..area };
        }
        let inside = self.inside;
        let mut window = Window { top: self.top, page: self.page };
        window.draw(board, id, canvas, body, |canvas, look, nth, line| {
            draw_look(board, look, nth, canvas, line, &columns);
            if look == id {
                point_at(canvas, line, inside);
            }
        });
        (self.top, self.page) = (window.top, window.page);
    }
}

/// Which part of the list is seen.
pub struct Window {
    /// The first row.
    pub top: usize,
    /// How many rows a page on goes.
    pub page: usize,
}

impl Window {
    /// Draws the groups and, by `draw_look`, each look with its number among its character's, so that `id` is seen.
    pub fn draw(
        &mut self,
        board: &Board,
        id: &LookId,
        canvas: &mut Canvas<'_>,
        body: Rect,
        mut draw_look: impl FnMut(&mut Canvas<'_>, &LookId, usize, Rect),
    ) {
        let rows = rows(board);
        let at = rows.iter().position(|row| matches!(row, Row::Look(have, _) if *have == id)).unwrap_or(0);
        self.page = usize::from(body.height.saturating_sub(1)).max(1);
        let is_group = |row: usize| matches!(rows.get(row), Some(Row::Group(_)));
        let seen = grouped::window(&mut self.top, at, rows.len(), usize::from(body.height), is_group);
        for (y, row) in (body.top()..body.bottom()).zip(seen) {
            let line = Rect { y, height: 1, ..body };
            let sticky =
                if y == body.y && body.height > 1 { grouped::heading_of(row, is_group) } else { None };
            match &rows[sticky.unwrap_or(row)] {
                Row::Group(character) => draw_group(board, character, canvas, line),
                Row::Look(look, nth) => draw_look(canvas, look, *nth, line),
                Row::None => {
                    let quiet = canvas.theme.quiet();
                    let (x, room) = (line.x + 5, line.width.saturating_sub(5));
                    canvas.put(x, y, room, "no looks yet: i invents one", quiet);
                }
            }
        }
    }
}

/// Shows that a look is in focus; with `inside`, the keys act on something else of it.
pub fn point_at(canvas: &mut Canvas<'_>, line: Rect, inside: bool) {
    let key = canvas.theme.key();
    let rest = Rect { x: line.x + BEFORE, width: line.width.saturating_sub(BEFORE), ..line };
    let style = if inside { canvas.theme.heading() } else { canvas.theme.focus() };
    // The swatches keep their colours.
    canvas.restyle(rest, style);
    canvas.restyle(Rect { x: line.x + 1, width: 6.min(line.width), ..line }, style);
    canvas.put(line.x, line.y, 1, "▸", key);
}

fn draw_head(canvas: &mut Canvas<'_>, line: Rect, columns: &Columns) {
    let quiet = canvas.theme.quiet();
    canvas.put(line.x + BEFORE, line.y, line.width.saturating_sub(BEFORE), "look", quiet);
    let names = ["period", "fold", "sc.", "min."];
    let mut x = line.right().saturating_sub(columns.width());
    for (at, (wide, name)) in columns.each().into_iter().zip(names).enumerate() {
        if wide > 0 {
            right_or_left(canvas, x + 1, line.y, wide, name, at > 0, quiet);
            x += wide + 1;
        }
    }
}

fn draw_group(board: &Board, id: &CharacterId, canvas: &mut Canvas<'_>, line: Rect) {
    let (heading, quiet) = (canvas.theme.heading(), canvas.theme.quiet());
    let count = board.count(&Limit::Character(id.clone()));
    let (numbers, joint, words) = (count.numbers(), count.joint(), count.words());
    let style = meter::style(canvas.theme, count);
    let used = u16::try_from(width(&numbers) + width(joint) + width(&words)).unwrap_or(0);
    let start = line.right().saturating_sub(used).max(line.x);
    let performer = board.character(id).map_or("", |character| &character.performer);
    let name = board.name_of(id);
    let end = start.saturating_sub(1);
    let x = canvas.spans(line.x, line.y, end, &[(name, heading), ("  ", quiet)]);
    canvas.put(x, line.y, end.saturating_sub(x), performer, quiet);
    canvas.spans(start, line.y, line.right(), &[(&numbers, heading), (joint, quiet), (&words, style)]);
}

/// Draws a look's number, treatment, swatches and title, the last no further than `right`.
pub fn draw_name(look: &Look, nth: usize, canvas: &mut Canvas<'_>, line: Rect, right: u16) {
    let (text, quiet) = (canvas.theme.text(), canvas.theme.quiet());
    let y = line.y;
    right_or_left(canvas, line.x + 1, y, 3, &nth.to_string(), true, quiet);
    canvas.put(line.x + 5, y, 1, look.treatment.mark(), text);
    swatch::draw(canvas, line.x + 7, y, line.right(), &look.pieces);
    let title_x = line.x + BEFORE;
    canvas.put(title_x, y, right.saturating_sub(title_x), &look.title, text);
}

fn draw_look(board: &Board, id: &LookId, nth: usize, canvas: &mut Canvas<'_>, line: Rect, columns: &Columns) {
    let Some(look) = board.look(id) else { return };
    let (y, quiet) = (line.y, canvas.theme.quiet());
    let start = line.right().saturating_sub(columns.width());
    draw_name(look, nth, canvas, line, start);
    let cells = cells(board, id, look);
    let mut x = start;
    for (at, (wide, cell)) in columns.each().into_iter().zip(&cells).enumerate() {
        if wide > 0 {
            right_or_left(canvas, x + 1, y, wide, cell, at > 0, quiet);
            x += wide + 1;
        }
    }
    canvas.hit(line, Hit::Target(Target::Look(id.clone())));
}

/// Period, folded outfits, scenes, minutes.
fn cells(board: &Board, id: &LookId, look: &Look) -> [String; 4] {
    let period = board.relations().period_of_look(id);
    let folded = look.folded.len();
    let scenes = board.relations().scenes_of(id).len();
    [
        period.map_or(String::new(), |period| board.title_of(period).to_owned()),
        if folded > 0 { format!("+{folded}") } else { String::new() },
        scenes.to_string(),
        plot::of_look(board, id).clock(),
    ]
}

/// Writes a text in so many cells, to the left or to the right.
pub fn right_or_left(
    canvas: &mut Canvas<'_>,
    x: u16,
    y: u16,
    wide: u16,
    text: &str,
    right: bool,
    style: ratatui::style::Style,
) {
    let used = u16::try_from(width(text)).unwrap_or(u16::MAX).min(wide);
    let shift = if right { wide - used } else { 0 };
    canvas.put(x + shift, y, wide - shift, text, style);
}
