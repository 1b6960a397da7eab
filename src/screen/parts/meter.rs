//! A count against its limit, as a bar, in numbers and in words.

use ratatui::style::Style;

use crate::board::Count;
use crate::screen::canvas::{Canvas, width};
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
    // A bar looks full only when it is, and empty only when it is.
    let cells = |looks: u32| (looks as usize * width / whole).max(usize::from(looks > 0));
    let used = cells(count.used.min(limit));
    let over = if count.over() > 0 { (width - used).max(1) } else { 0 };
    let used = used.min(width - over);
    format!("{}{}{}", "■".repeat(used), "!".repeat(over), "·".repeat(width - used - over))
}

/// How much of a count is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Form {
    /// Cells of the bar; none leaves it out.
    pub cells: usize,
    /// Whether what is left is said in words; without, a count over its limit still has its `!`.
    pub words: bool,
}

impl Form {
    fn tail(self, count: Count) -> String {
        match (self.words, count.over()) {
            (true, _) => format!("{}{}", count.joint(), count.words()),
            (false, 0) => String::new(),
            (false, _) => "!".to_owned(),
        }
    }

    /// How many cells [`draw`] takes beside the name.
    pub fn room(self, count: Count) -> usize {
        let bar = if self.cells > 0 { self.cells + 1 } else { 0 };
        1 + bar + width(&count.numbers()) + width(&self.tail(count))
    }
}

/// Writes name, bar, numbers and words; returns the column behind them.
pub fn draw(
    canvas: &mut Canvas<'_>,
    x: u16,
    y: u16,
    right: u16,
    name: &str,
    count: Count,
    form: Form,
) -> u16 {
    let style = style(canvas.theme, count);
    let heading = canvas.theme.heading();
    let bar = match form.cells {
        0 => String::new(),
        cells => format!("{} ", bar(count, cells)),
    };
    let (numbers, tail) = (count.numbers(), form.tail(count));
    let spans = [(name, heading), (" ", Style::new()), (&bar, style), (&numbers, heading), (&tail, style)];
    canvas.spans(x, y, right, &spans)
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
        assert_eq!(bar(count(43, 44), 8), "■■■■■■■·");
    }
}
