//! Which columns the table has at a width, and where they stand.

use std::ops::Range;

/// The widths of the columns; 0 where one is left out. Each is followed by a gap of one cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Columns {
    /// Number, place, set, light, story day, date, pages, minutes.
    pub frozen: [u16; 8],
    /// Which characters are seen.
    pub shown: Range<usize>,
    /// The width of a character's column.
    pub each: u16,
}

/// The names of the frozen columns.
pub const NAMES: [&str; 8] = ["no.", "", "set", "light", "day", "date", "pages", "min."];

/// The cell before the number, which points at the row in focus.
pub const GUTTER: u16 = 1;

/// A character's column is no narrower than this, if there is any choice, and no wider.
const EACH: (u16, u16) = (17, 30);

impl Columns {
    /// The columns for a table of `width` with `count` characters, of which `focus` must be seen. Scrolls `left`, the
    /// first that is seen, as little as need be.
    pub fn of(width: u16, count: usize, focus: usize, left: &mut usize) -> Self {
        //                no. place set light day date pages minutes
        let frozen = match width {
            0..56 => [4, 0, (width / 3).min(16), 0, 0, 0, 0, 0],
            56..100 => [4, 3, (width / 4).min(20), 0, 4, 0, 5, 0],
            100..150 => [4, 3, 22, 5, 4, 11, 5, 0],
            150..190 => [4, 3, 26, 5, 4, 14, 5, 5],
            _ => [4, 7, 34, 5, 4, 20, 6, 6],
        };
        let used = GUTTER + frozen.iter().filter(|wide| **wide > 0).map(|wide| wide + 1).sum::<u16>();
        let room = width.saturating_sub(used);
        let most = usize::from(room / (EACH.0 + 1)).max(1);
        let fit = count.min(most).max(1);
        let each = (room / u16::try_from(fit).unwrap_or(1)).saturating_sub(1).min(EACH.1);
        *left = (*left).min(focus).max((focus + 1).saturating_sub(fit)).min(count.saturating_sub(fit));
        Self { frozen, shown: *left..count.min(*left + fit), each }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_character_in_focus_is_seen_at_every_width() {
        for width in 1..240 {
            let mut left = 0;
            for focus in [0, 3, 8, 5, 0] {
                let columns = Columns::of(width, 9, focus, &mut left);
                assert!(columns.shown.contains(&focus), "{focus} at {width}: {columns:?}");
            }
        }
    }

    #[test]
    fn a_character_has_a_useful_column_on_common_screens() {
        for (width, columns) in [(40, 1), (80, 2), (120, 3), (200, 4)] {
            let columns_there = Columns::of(width, 4, 0, &mut 0);
            assert_eq!(columns_there.shown.len(), columns, "at {width}");
            assert!(columns_there.each >= 17, "at {width}");
        }
    }
}
