//! The heads of the periods, and the ruler of years below them.

use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

use super::shelf::{Column, Entry};
use super::{Wall, axis};
use crate::screen::canvas::{Canvas, Hit, width};
use crate::screen::parts::meter;
use crate::screen::views::Target;
use crate::trade::eighths::PER_PAGE;

/// Draws heads and ruler.
pub fn draw(wall: &Wall, canvas: &mut Canvas<'_>) {
    let plan = &wall.plan;
    let in_focus = wall.focus.as_ref().and_then(|entry| match entry {
        Entry::Look(look) if wall.in_lanes => {
            wall.shelf.lane_of(look).map(|lane| wall.shelf.lanes[lane].column)
        }
        entry => wall.shelf.place(entry).map(|(column, _)| column),
    });
    for stretch in &plan.stretches {
        let column = &wall.shelf.columns[stretch.column];
        let area = Rect::new(stretch.x, plan.heads.y, stretch.width, plan.heads.height);
        head(canvas, area, column, in_focus == Some(stretch.column));
        if let Some(period) = &column.period {
            canvas.hit(area, Hit::Target(Target::Period(period.clone())));
        }
        let border = stretch.x + stretch.width;
        if border < plan.heads.right() {
            let quiet = canvas.theme.quiet();
            for y in plan.heads.y..plan.outfits.bottom() {
                canvas.put(border, y, 1, "│", quiet);
            }
        }
    }
    ruler(wall, canvas);
    sides(wall, canvas);
}

fn head(canvas: &mut Canvas<'_>, area: Rect, column: &Column, in_focus: bool) {
    let theme = canvas.theme;
    let title_style =
        if in_focus { theme.heading().add_modifier(Modifier::UNDERLINED) } else { theme.heading() };
    canvas.put(area.x, area.y, area.width, &column.title, title_style);
    let minutes = (column.length.get() + PER_PAGE / 2) / PER_PAGE;
    let wide = usize::from(area.width);
    if area.height > 2 {
        let scenes = if column.scenes == 1 { "scene" } else { "scenes" };
        let span = if column.span.is_empty() { String::new() } else { format!("{} · ", column.span) };
        let long = format!("{span}{minutes} min · {} {scenes}", column.scenes);
        let middle = format!("{} {minutes}′ {} sc", column.span, column.scenes);
        let line = [long, middle]
            .into_iter()
            .find(|line| width(line) <= wide)
            .unwrap_or_else(|| column.span.clone());
        canvas.put(area.x, area.y + 1, area.width, &line, theme.quiet());
    }
    let y = area.bottom() - 1;
    let looks = column.looks;
    let style = meter::style(theme, looks);
    let over = if looks.over() > 0 { "!" } else { "" };
    let arrow =
        if width(&format!("{} → {} ", column.outfits, looks.numbers())) <= wide { " → " } else { "→" };
    let numbers = format!("{}{over}", looks.numbers());
    let outfits = column.outfits.to_string();
    let right = area.right();
    let whole = [(outfits.as_str(), Style::new()), (arrow, theme.quiet()), (numbers.as_str(), style)];
    // Where there is no room for both, the looks against their limit are what counts.
    let fits = width(&outfits) + width(arrow) + width(&numbers) <= wide;
    let mut x = canvas.spans(area.x, y, right, if fits { &whole } else { &whole[2..] });
    let words = looks.words();
    let open = match column.open {
        0 => String::new(),
        open => format!("○{open}"),
    };
    let room = |x: u16| usize::from(right.saturating_sub(x));
    if looks.limit.is_some() && room(x) > width(&words) + 1 + width(&open) {
        x = canvas.spans(x, y, right, &[(" ", Style::new()), (&words, style)]);
    }
    if !open.is_empty() && room(x) > width(&open) {
        let more = format!("{open} open");
        let open = if room(x) > width(&more) { more } else { open };
        canvas.spans(x, y, right, &[(" ", Style::new()), (&open, theme.open())]);
    }
}

fn ruler(wall: &Wall, canvas: &mut Canvas<'_>) {
    let plan = &wall.plan;
    let (line, year_style) = (canvas.theme.quiet(), canvas.theme.text());
    for stretch in &plan.stretches {
        let cells = "─".repeat(usize::from(stretch.width));
        canvas.put(stretch.x, plan.ruler.y, stretch.width, &cells, line);
    }
    for stretch in &plan.stretches {
        let border = stretch.x + stretch.width;
        if border < plan.ruler.right() {
            canvas.put(border, plan.ruler.y, 1, "┼", line);
        }
    }
    if !wall.shelf.has_time() {
        return;
    }
    for (x, year) in axis::years(&plan.stretches) {
        let room = plan.ruler.right().saturating_sub(x);
        canvas.put(x, plan.ruler.y, room.min(6), &year.to_string(), year_style);
    }
}

/// Arrows where there are periods beyond the edges.
fn sides(wall: &Wall, canvas: &mut Canvas<'_>) {
    let plan = &wall.plan;
    let key = canvas.theme.key();
    let (Some(first), Some(last)) = (plan.stretches.first(), plan.stretches.last()) else { return };
    let before = first.column;
    let behind = wall.shelf.columns.len() - 1 - last.column;
    let words = match (before, behind) {
        (0, 0) => return,
        (before, 0) => format!("◀{before}"),
        (0, behind) => format!("{behind}▶"),
        (before, behind) => format!("◀{before} {behind}▶"),
    };
    let cells = u16::try_from(width(&words)).unwrap_or(0);
    canvas.put(plan.heads.right().saturating_sub(cells), plan.heads.y, cells, &words, key);
}
