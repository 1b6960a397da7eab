//! Where one stands in a list, and which part of it is seen.

/// A cursor in a list that may be longer than its window.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Cursor {
    /// The row in focus.
    pub at: usize,
    /// The first row that is seen.
    pub top: usize,
}

impl Cursor {
    /// Moves by so many rows, and stays in a list of `length`.
    pub fn step(&mut self, by: isize, length: usize) {
        self.at = self.at.saturating_add_signed(by).min(length.saturating_sub(1));
    }

    /// Stays in a list of `length` and scrolls as little as need be for a window of `height` rows.
    /// Returns the rows that are seen.
    pub fn window(&mut self, length: usize, height: usize) -> std::ops::Range<usize> {
        self.at = self.at.min(length.saturating_sub(1));
        let height = height.max(1);
        self.top = self.top.min(self.at).max((self.at + 1).saturating_sub(height));
        self.top = self.top.min(length.saturating_sub(height));
        self.top..length.min(self.top + height)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_window_follows_the_cursor_as_little_as_need_be() {
        let mut cursor = Cursor::default();
        assert_eq!(cursor.window(10, 4), 0..4);
        cursor.step(5, 10);
        assert_eq!(cursor.window(10, 4), 2..6);
        cursor.step(-1, 10);
        assert_eq!(cursor.window(10, 4), 2..6);
        cursor.step(99, 10);
        assert_eq!(cursor.window(10, 4), 6..10);
        assert_eq!(cursor.window(2, 4), 0..2);
        assert_eq!(Cursor::default().window(0, 4), 0..0);
    }
}
