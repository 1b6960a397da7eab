//! The looks with a short sign of how each stands: measures that lack, copies that are short, what it costs.

use ratatui::layout::Rect;
use ratatui::style::Style;

use crate::board::{Board, LookId};
use crate::screen::canvas::{Canvas, Hit, width};
use crate::screen::reckoning::{Reckoned, Sign};
use crate::screen::views::Target;
use crate::screen::views::looks::list::{BEFORE, Window, draw_name, point_at, right_or_left};

/// The width of the list where pages stand beside it.
pub fn wide_of(whole: u16) -> u16 {
    (whole / 5 * 2).clamp(42, 60)
}

/// Names and widths of the columns right of the title, those first that give way last.
const COLUMNS: [(&str, u16); 3] = [("copies", 6), ("meas.", 5), ("cost", 7)];

/// How many of the columns have room.
fn columns(board: &Board, reckoned: &Reckoned, room: u16) -> usize {
    let mut left = room.saturating_sub(BEFORE + 10);
    let has_money = reckoned.costs.looks.iter().any(|cost| !cost.lines.is_empty());
    let any = if board.relations().looks_by_order().is_empty() { 0 } else { COLUMNS.len() };
    let shown = COLUMNS.iter().take(any).take_while(|(name, wide)| {
        let fits = left > *wide && (*name != "cost" || has_money);
        left = left.saturating_sub(wide + 1);
        fits
    });
    shown.count()
}

/// Draws the list with the look `id` in focus.
pub fn draw(
    board: &Board,
    reckoned: &Reckoned,
    id: &LookId,
    window: &mut Window,
    inside: bool,
    canvas: &mut Canvas<'_>,
    area: Rect,
) {
    let count = columns(board, reckoned, area.width);
    let used: u16 = COLUMNS.iter().take(count).map(|(_, wide)| wide + 1).sum();
    let start = area.right().saturating_sub(used);
    let mut body = area;
    if area.height >= 16 {
        let quiet = canvas.theme.quiet();
        canvas.put(area.x + BEFORE, area.y, start.saturating_sub(area.x + BEFORE), "look", quiet);
        let mut x = start;
        for (name, wide) in &COLUMNS[..count] {
            right_or_left(canvas, x + 1, area.y, *wide, name, true, quiet);
            x += wide + 1;
        }
        body = Rect { y: area.y + 1, height: area.height - 1, ..area };
    }
    window.draw(board, id, canvas, body, |canvas, look, nth, line| {
        let Some(record) = board.look(look) else { return };
        draw_name(record, nth, canvas, line, start);
        let sign = reckoned.sign(look);
        let mut x = start;
        for ((name, wide), (text, style)) in COLUMNS[..count].iter().zip(cells(canvas, sign)) {
            debug_assert!(width(&text) <= usize::from(*wide) || *name == "cost");
            right_or_left(canvas, x + 1, line.y, *wide, &text, true, style);
            x += wide + 1;
        }
        if look == id {
            point_at(canvas, line, inside);
        }
        canvas.hit(line, Hit::Target(Target::Look(look.clone())));
    });
}

/// Copies, measures and cost: `✓` where all is there, `!2` where two lack, `–2` where nobody has said of two whether they
/// are planned.
fn cells(canvas: &Canvas<'_>, sign: Sign) -> [(String, Style); 3] {
    let theme = canvas.theme;
    let (quiet, well, lacks) = (theme.quiet(), theme.within(), theme.open());
    let copies = match sign {
        Sign { copies: 0, .. } => (String::new(), quiet),
        Sign { short: short @ 1.., .. } => (format!("!{short}"), lacks),
        Sign { open: open @ 1.., .. } => (format!("–{open}"), quiet),
        Sign { copies, .. } => (format!("✓ {copies}"), well),
    };
    let measures = match sign {
        Sign { measures: 0, .. } => (String::new(), quiet),
        Sign { lacking: 0, measures, .. } => (format!("✓ {measures}"), well),
        Sign { lacking, .. } => (format!("!{lacking}"), lacks),
    };
    let more = if sign.unpriced > 0 { "+" } else { "" };
    let cost = match sign.cost.whole().as_str() {
        "0" if more.is_empty() => String::new(),
        whole => format!("{whole}{more}"),
    };
    [copies, measures, (cost, quiet)]
}
