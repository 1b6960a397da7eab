//! The frame of a layer that lies over a view.

use ratatui::layout::Rect;
use ratatui::style::Style;

use crate::screen::canvas::{Canvas, width};

/// Blanks and frames the middle of `area` for a layer that wants `want` columns and rows, and returns the inside.
pub fn open(canvas: &mut Canvas<'_>, area: Rect, want: (u16, u16), title: &str, foot: &str) -> Rect {
    let wide = want.0.min(area.width);
    let high = want.1.min(area.height);
    let x = area.x + (area.width - wide) / 2;
    let y = area.y + (area.height - high) / 3;
    let outer = Rect::new(x, y, wide, high);
    canvas.clear(outer);
    if wide < 4 || high < 3 {
        return outer;
    }
    let style = canvas.theme.frame();
    let line = "─".repeat(usize::from(wide) - 2);
    canvas.put(x, y, wide, &format!("╭{line}╮"), style);
    for row in y + 1..y + high - 1 {
        canvas.put(x, row, 1, "│", style);
        canvas.put(x + wide - 1, row, 1, "│", style);
    }
    canvas.put(x, y + high - 1, wide, &format!("╰{line}╯"), style);
    if !title.is_empty() {
        let heading = canvas.theme.heading();
        canvas.spans(x + 2, y, x + wide - 2, &[(" ", Style::new()), (title, heading), (" ", Style::new())]);
    }
    if !foot.is_empty() {
        let quiet = canvas.theme.quiet();
        let room = usize::from(wide).saturating_sub(6);
        let start = x + wide - 4 - u16::try_from(width(foot).min(room)).unwrap_or(0);
        canvas.spans(start, y + high - 1, x + wide - 2, &[(" ", quiet), (foot, quiet), (" ", quiet)]);
    }
    Rect::new(x + 2, y + 1, wide - 4, high - 2)
}
