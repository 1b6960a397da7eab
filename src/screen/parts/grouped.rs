//! A list in groups, each under a heading that stays in view while the group is scrolled.

use std::ops::Range;

/// Which rows a window of `height` shows so that the row `at` is seen, scrolled as little as need be from `top`.
///
/// Where the first row is no heading, the heading of its group is drawn in its place; `at` is never that row. A heading
/// that would stand there over nothing but the next one is left out.
pub fn window(
    top: &mut usize,
    at: usize,
    length: usize,
    height: usize,
    is_heading: impl Fn(usize) -> bool,
) -> Range<usize> {
    let height = height.max(1);
    *top = (*top).min(at).max((at + 1).saturating_sub(height)).min(length.saturating_sub(height));
    if at == *top && *top > 0 && height > 1 && !is_heading(at) {
        *top -= 1;
    }
    if *top < at && !is_heading(*top) && is_heading(*top + 1) {
        *top += 1;
    }
    *top..length.min(*top + height)
}

/// The heading under which a row stands.
pub fn heading_of(row: usize, is_heading: impl Fn(usize) -> bool) -> Option<usize> {
    (0..=row).rev().find(|row| is_heading(*row))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_row_in_focus_is_never_hidden_by_its_heading() {
        let headings = |row: usize| row == 0 || row == 5;
        let mut top = 0;
        for at in [1, 4, 9, 6, 3, 2, 1] {
            let range = window(&mut top, at, 10, 4, headings);
            assert!(range.contains(&at), "{at} in {range:?}");
            assert!(headings(range.start) || range.start < at, "{at} under the heading of {range:?}");
            assert_eq!(range.len(), 4);
        }
        assert_eq!(top, 0);
        assert_eq!(heading_of(9, headings), Some(5));
        assert_eq!(window(&mut top, 0, 0, 4, headings), 0..0);
    }

    #[test]
    fn no_heading_stands_over_nothing() {
        let headings = |row: usize| row == 0 || row == 5;
        let mut top = 0;
        assert_eq!(window(&mut top, 7, 10, 4, headings), 5..9, "row 4 would only be a heading above another");
        assert_eq!(window(&mut top, 7, 10, 4, headings), 5..9, "and it stays so");
        assert_eq!(window(&mut top, 4, 10, 4, headings), 3..7);
    }
}
