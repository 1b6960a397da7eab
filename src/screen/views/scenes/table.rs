//! The table: a row for each scene, a rule where the period or the shooting day changes.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::columns::{Columns, GUTTER, NAMES};
use super::rows::Row;
use super::{Cell, Scenes, Target, cell};
use crate::board::{Board, LookId, PeriodId, Place, Scene, ShootDay};
use crate::screen::canvas::{Canvas, Hit, width, wrapped};
use crate::screen::parts::{grouped, swatch};

/// What to do where there is no scene.
pub fn draw_empty(canvas: &mut Canvas<'_>, area: Rect) {
    let words = "No scenes yet: N adds the first.";
    let text = canvas.theme.text();
    let lines = wrapped(words, usize::from(area.width.saturating_sub(4)));
    for (y, line) in (area.top() + 1..area.bottom()).zip(lines) {
        canvas.put(area.x + 2, y, area.width.saturating_sub(2), &line, text);
    }
}

impl Scenes {
    /// Draws the table with the scene `at` in focus.
    pub(super) fn draw_table(&mut self, board: &Board, at: usize, canvas: &mut Canvas<'_>, area: Rect) {
        if area.height == 0 {
            return;
        }
        let characters = &board.head().characters;
        let focus = self.column(board).unwrap_or(0);
        let columns = Columns::of(area.width, characters.len(), focus, &mut self.left);
        let rows = self.order.rows(board);
        let marked = self.range(board);
        let row_at = rows.iter().position(|row| matches!(row, Row::Scene(have) if *have == at)).unwrap_or(0);
        draw_head(board, &columns, focus, canvas, Rect { height: 1, ..area });
        let body = Rect { y: area.y + 1, height: area.height - 1, ..area };
        self.page = usize::from(body.height.saturating_sub(2)).max(1);
        let is_head = |row: usize| rows.get(row).is_some_and(|row| row.is_head());
        let seen = grouped::window(&mut self.top, row_at, rows.len(), usize::from(body.height), is_head);
        // What each character wore last, carried down from row to row; on a shooting day everybody begins anew.
        let mut worn: Vec<Option<&LookId>> = vec![None; columns.shown.len()];
        for (number, row) in rows.iter().enumerate().take(seen.end) {
            let y = number.checked_sub(seen.start).and_then(|below| u16::try_from(below).ok());
            let line = y.map(|below| Rect { y: body.y + below, height: 1, ..body });
            let sticky = (number == seen.start && body.height > 1)
                .then(|| grouped::heading_of(number, is_head))
                .flatten();
            if let Some(line) = line {
                // A head that stays while its group goes on does not pass for the beginning of it.
                let goes_on = sticky.is_some_and(|head| head != number);
                match &rows[sticky.unwrap_or(number)] {
                    Row::Period(period) => draw_period(board, *period, goes_on, canvas, line),
                    Row::Day(day) => draw_day(*day, goes_on, canvas, line),
                    Row::Scene(scene) => {
                        let focus = (*scene == at, marked.contains(scene));
                        self.draw_scene(board, *scene, focus, &columns, &worn, canvas, line);
                    }
                }
            }
            match row {
                Row::Period(_) => {}
                Row::Day(_) => worn.fill(None),
                Row::Scene(scene) => {
                    for (worn, one) in worn.iter_mut().zip(&characters[columns.shown.clone()]) {
                        match cell(board, *scene, &one.id) {
                            Cell::Away => {}
                            Cell::Gap => *worn = None,
                            Cell::Wears(look) => *worn = Some(look),
                        }
                    }
                }
            }
        }
    }

    #[expect(clippy::too_many_arguments, reason = "one row of a table, with what its columns share")]
    fn draw_scene(
        &self,
        board: &Board,
        at: usize,
        (in_focus, is_marked): (bool, bool),
        columns: &Columns,
        worn: &[Option<&LookId>],
        canvas: &mut Canvas<'_>,
        line: Rect,
    ) {
        let Some(scene) = board.records().scenes.get(at) else { return };
        let (text, quiet, key) = (canvas.theme.text(), canvas.theme.quiet(), canvas.theme.key());
        let strong = canvas.theme.heading();
        let y = line.y;
        if in_focus {
            canvas.put(line.x, y, 1, "▸", key);
        } else if is_marked {
            canvas.put(line.x, y, 1, "✓", key);
        }
        let mut x = line.x + GUTTER;
        let cells = facts(scene, columns);
        for (column, (wide, words)) in columns.frozen.iter().zip(&cells).enumerate() {
            if *wide == 0 {
                continue;
            }
            let to_the_right = matches!(column, 6 | 7);
            let used = u16::try_from(width(words)).unwrap_or(u16::MAX).min(*wide);
            let shift = if to_the_right { wide - used } else { 0 };
            let style = match (in_focus, column) {
                (true, _) => strong,
                (false, 0 | 2) => text,
                (false, _) => quiet,
            };
            canvas.put(x + shift, y, wide - shift, words, style);
            x += wide + 1;
        }
        canvas.hit(Rect { width: x - line.x, ..line }, Hit::Target(Target::Scene(scene.number.clone())));
        let characters = &board.head().characters;
        for (place, worn) in columns.shown.clone().zip(worn) {
            let Some(one) = characters.get(place) else { break };
            let area = Rect { x, width: columns.each.min(line.right().saturating_sub(x)), ..line };
            draw_cell(board, cell(board, at, &one.id), *worn, canvas, area);
            if (in_focus || is_marked) && Some(&one.id) == self.character(board).as_ref() {
                let focus = if in_focus { canvas.theme.focus() } else { canvas.theme.marked() };
                let swatches = matches!(cell(board, at, &one.id), Cell::Wears(_));
                let keep = if swatches { swatch::WIDTH } else { 0 }.min(area.width);
                canvas.restyle(Rect { x: area.x + keep, width: area.width - keep, ..area }, focus);
            }
            canvas.hit(area, Hit::Row(at * characters.len() + place));
            x += columns.each + 1;
        }
    }
}

/// Number, place, set, light, story day, date, pages, minutes.
fn facts(scene: &Scene, columns: &Columns) -> [String; 8] {
    let place = scene.place.map_or("", |place| match place {
        Place::Both if columns.frozen[1] < 7 => "I/E",
        place => place.word(),
    });
    // A length that nobody has said is left open.
    let length = |words: String| if scene.pages.get() == 0 { String::new() } else { words };
    [
        scene.number.to_string(),
        place.to_owned(),
        scene.set_or_heading().to_owned(),
        scene.light.map_or("", |light| light.word()).to_owned(),
        scene.story_day.map_or(String::new(), |day| day.to_string()),
        scene.date.as_ref().map_or(String::new(), |date| date.short()),
        length(scene.pages.to_string()),
        length(scene.pages.clock()),
    ]
}

fn draw_cell(board: &Board, cell: Cell<'_>, worn: Option<&LookId>, canvas: &mut Canvas<'_>, area: Rect) {
    match cell {
        Cell::Away => {}
        Cell::Gap => {
            let open = canvas.theme.open();
            canvas.put(area.x, area.y, area.width, "○ no look yet", open);
        }
        Cell::Wears(id) => {
            let (title, pieces) = match board.look(id) {
                Some(look) => (look.title.as_str(), look.pieces.as_slice()),
                None => (id.as_str(), [].as_slice()),
            };
            let x = swatch::draw(canvas, area.x, area.y, area.right(), pieces);
            // What is carried on is quiet, so that the changes stand out.
            let style = if worn == Some(id) { canvas.theme.quiet() } else { canvas.theme.text() };
            canvas.spans(x, area.y, area.right(), &[(" ", Style::new()), (title, style)]);
        }
    }
}

/// From this width on a column's head has room for how many more there are, in words.
const ROOMY: u16 = 16;

fn draw_head(board: &Board, columns: &Columns, focus: usize, canvas: &mut Canvas<'_>, line: Rect) {
    let (quiet, heading, lit) = (canvas.theme.quiet(), canvas.theme.heading(), canvas.theme.lit());
    let mut x = line.x + GUTTER;
    for (column, (wide, name)) in columns.frozen.iter().zip(NAMES).enumerate() {
        if *wide > 0 {
            let used = u16::try_from(width(name)).unwrap_or(0).min(*wide);
            let shift = if column > 5 { wide - used } else { 0 };
            canvas.put(x + shift, line.y, wide - shift, name, quiet);
            x += wide + 1;
        }
    }
    let characters = &board.head().characters;
    for place in columns.shown.clone() {
        let Some(one) = characters.get(place) else { break };
        let style = if place == focus { lit } else { heading };
        // An arrow says that there are more characters on that side.
        let left = if place == columns.shown.start && place > 0 { "‹ " } else { "" };
        let more = characters.len() - columns.shown.end;
        let more = match (place + 1 == columns.shown.end && more > 0, columns.each) {
            (false, _) => String::new(),
            (true, ROOMY..) => format!(" › {more} more"),
            (true, _) => format!(" ›{more}"),
        };
        let right = x.saturating_add(columns.each).min(line.right());
        let name_right = right.saturating_sub(u16::try_from(width(&more)).unwrap_or(0));
        let after = canvas.spans(x, line.y, name_right, &[(left, quiet), (&one.name, style)]);
        canvas.spans(after, line.y, right, &[(&more, quiet)]);
        x += columns.each + 1;
    }
}

fn draw_period(board: &Board, period: Option<&PeriodId>, goes_on: bool, canvas: &mut Canvas<'_>, line: Rect) {
    let title = period.map_or("in no period", |period| board.title_of(period));
    let span = period.and_then(|id| board.period(id)).map(|period| period.span.short());
    draw_rule(title, goes_on, &span.unwrap_or_default(), canvas, line);
}

fn draw_day(day: Option<&ShootDay>, goes_on: bool, canvas: &mut Canvas<'_>, line: Rect) {
    let title =
        day.map_or_else(|| "on no shooting day".to_owned(), |day| format!("shooting day {}", day.day));
    let date = day.and_then(|day| day.date.as_ref()).map(|date| date.short());
    draw_rule(&title, goes_on, &date.unwrap_or_default(), canvas, line);
}

fn draw_rule(title: &str, goes_on: bool, about: &str, canvas: &mut Canvas<'_>, line: Rect) {
    let quiet = canvas.theme.quiet();
    let gap = if about.is_empty() { "" } else { " " };
    let goes_on = if goes_on { ", continued" } else { "" };
    let spans = ["── ", title, goes_on, gap, about, " "].map(|words| (words, quiet));
    let used = canvas.spans(line.x + GUTTER, line.y, line.right(), &spans);
    let rest = usize::from(line.right().saturating_sub(used));
    canvas.put(used, line.y, line.right().saturating_sub(used), &"─".repeat(rest), quiet);
}
