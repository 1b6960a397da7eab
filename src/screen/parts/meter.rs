//! A count against its limit, as a bar, in numbers and in words.

use ratatui::style::Style;

use crate::board::Count;
use crate::screen::canvas::Canvas;
use crate::screen::theme::Theme;

/// The style that a count deserves.
pub fn style(theme: &Theme, count: Count) -> Style {
    match count.limit {
        Some(limit) if count.used > limit => theme.over(),
        Some(limit) if count.used == limit => theme.full(),
        _ => theme.within(),
    }
}

/// A bar of `width` cells: full cells for looks used, `!` for those over the limit.
pub fn bar(count: Count, width: usize) -> String {
    let Some(limit) = count.limit else { return "━".repeat(width) };
    if width == 0 {
        return String::new();
    }
    let whole = limit.max(count.used).max(1) as usize;
    let cells = |looks: u32| (looks as usize * width).div_ceil(whole).min(width);
    let used = cells(count.used.min(limit));
    let over = if count.over() > 0 { (width - used).max(1) } else { 0 };
    let used = used.min(width - over);
    format!("{}{}{}", "■".repeat(used), "!".repeat(over), "·".repeat(width - used - over))
}

/// Writes name, bar, numbers and words; returns the column behind them.
pub fn draw(canvas: &mut Canvas<'_>, x: u16, y: u16, right: u16, name: &str, count: Count, cells: usize) -> u16 {
    let style = style(canvas.theme, count);
    let (bar, numbers, words) = (bar(count, cells), count.numbers(), count.words());
    let heading = canvas.theme.heading();
    let gap = if cells > 0 { " " } else { "" };
    canvas.spans(
        x,
        y,
        right,
        &[
            (name, heading),
            (" ", Style::new()),
            (&bar, style),
            (gap, Style::new()),
            (&numbers, heading),
            (" ", Style::new()),
            (&words, style),
        ],
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bar_shows_used_free_and_over() {
        let count = |used, limit| Count { used, limit: Some(limit) };
        assert_eq!(bar(count(2, 4), 8), "■■■■····");
        assert_eq!(bar(count(4, 4), 8), "■■■■■■■■");
        assert_eq!(bar(count(6, 4), 6), "■■■■!!");
        assert_eq!(bar(count(101, 100), 8), "■■■■■■■!");
        assert_eq!(bar(count(0, 0), 4), "····");
        assert_eq!(bar(count(1, 0), 4), "!!!!");
        assert_eq!(bar(count(1, 44), 8), "■·······");
    }
}
