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

/// How narrow a character's column may be where all of them are then seen; a title keeps a dozen letters.
const NARROW: u16 = 15;

/// Where the date stands among the frozen columns. It is in the strip below as well.
const DATE: usize = 5;

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
        let mut undated = frozen;
        undated[DATE] = 0;
        // That everybody is seen is worth the date.
        let all = [frozen, undated].into_iter().find(|frozen| fit(width, frozen, NARROW) >= count);
        let frozen = all.unwrap_or(frozen);
        let most = if all.is_some() { count } else { fit(width, &frozen, EACH.0) };
        let fit = count.min(most).max(1);
        let each = (room(width, &frozen) / u16::try_from(fit).unwrap_or(1)).saturating_sub(1).min(EACH.1);
        *left = (*left).min(focus).max((focus + 1).saturating_sub(fit)).min(count.saturating_sub(fit));
        Self { frozen, shown: *left..count.min(*left + fit), each }
    }
}

/// What the frozen columns leave for the characters.
fn room(width: u16, frozen: &[u16; 8]) -> u16 {
    let used = GUTTER + frozen.iter().filter(|wide| **wide > 0).map(|wide| wide + 1).sum::<u16>();
    width.saturating_sub(used)
}

/// How many columns of this width there is room for.
fn fit(width: u16, frozen: &[u16; 8], each: u16) -> usize {
    usize::from(room(width, frozen) / (each + 1))
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
        for (width, count, seen, least) in
            [(40, 4, 1, 17), (80, 4, 2, 17), (120, 4, 4, 15), (120, 5, 3, 17), (200, 4, 4, 17)]
        {
            let columns = Columns::of(width, count, 0, &mut 0);
            assert_eq!(columns.shown.len(), seen, "{count} at {width}");
            assert!(columns.each >= least, "{count} at {width}: {}", columns.each);
        }
    }

    #[test]
    fn the_date_gives_way_only_where_everybody_is_then_seen() {
        let dated = |count| Columns::of(120, count, 0, &mut 0).frozen[DATE] > 0;
        assert_eq!([2, 3, 4, 5].map(dated), [true, true, false, true]);
    }
}
