//! Several pictures side by side, each with its words below it.

use std::cmp::Reverse;

use ratatui::layout::Rect;

use crate::screen::canvas::{Canvas, fitted, wrapped};
use crate::screen::gallery::Seen;
use crate::screen::plates::Plate;

/// The least that a picture is seen in; what is drawn says so below it in one row.
const LEAST: (u16, u16) = (21, 8);

/// Rows of words below a picture.
const WORDS: u16 = 2;

/// Cells between two pictures.
const GAP: u16 = 2;

/// Draws as many of the pictures as there is room for, at most `most`, as large as can be, and says how many more there
/// are.
pub fn draw(canvas: &mut Canvas<'_>, area: Rect, plates: &[Plate], most: usize) {
    let Some((across, down)) = tiling((area.width, area.height), plates.len().min(most)) else { return };
    let shown = (usize::from(across) * usize::from(down)).min(most);
    let quiet = canvas.theme.quiet();
    let more = plates.len().saturating_sub(shown);
    // What more there is has the last row for itself.
    let tiles = Rect { height: area.height - u16::from(more > 0), ..area };
    if more > 0 {
        let words = format!("+{more} more: P shows all");
        canvas.put(area.x, tiles.bottom(), area.width, &words, canvas.theme.key());
    }
    let (wide, high) = ((tiles.width + GAP) / across, tiles.height / down);
    for (at, plate) in (0..).zip(plates.iter().take(shown)) {
        let (column, row) = (at % across, at / across);
        let cell = Rect::new(tiles.x + column * wide, tiles.y + row * high, wide - GAP, high);
        let frame = Rect { height: cell.height.saturating_sub(WORDS), ..cell };
        let seen = canvas.picture(frame, &plate.subject);
        if matches!(seen, Seen::Thin) {
            let words = "too little is on record to draw it";
            canvas.put(frame.x, frame.bottom().saturating_sub(1), frame.width, words, quiet);
        }
        // The words stand right below the picture, wherever it ends.
        let below = seen.place().map_or(frame.bottom(), |place| place.bottom());
        let drawn = plate.drawn();
        let most = if drawn.is_empty() { usize::from(WORDS) } else { 1 };
        let mut lines = cut(&plate.words, usize::from(cell.width), most);
        lines.push(drawn.to_owned());
        for (y, line) in (below..cell.bottom()).zip(&lines) {
            canvas.put(cell.x, y, cell.width, line, quiet);
        }
    }
}

/// Words in at most so many lines, the last cut where it must be.
fn cut(words: &str, wide: usize, most: usize) -> Vec<String> {
    let mut lines = wrapped(words, wide);
    if lines.len() > most {
        let rest = lines.split_off(most.saturating_sub(1)).join(" ");
        lines.push(fitted(&rest, wide).into_owned());
    }
    lines
}

/// How many stand across and down so that each is as large as can be; `None` where there is no room for one.
fn tiling((wide, high): (u16, u16), count: usize) -> Option<(u16, u16)> {
    let count = u16::try_from(count).unwrap_or(u16::MAX);
    let (most_across, most_down) = ((wide + GAP) / (LEAST.0 + GAP), high / (LEAST.1 + WORDS));
    if count == 0 || most_across == 0 || most_down == 0 {
        return None;
    }
    // A picture is about three wide and four high; a cell is twice as high as wide.
    let size = |across: u16, down: u16| {
        let (wide, high) = ((wide + GAP) / across - GAP, (high / down).saturating_sub(WORDS));
        (u32::from(wide) * 4).min(u32::from(high) * 6)
    };
    let tilings =
        (1..=most_across.min(count)).flat_map(|across| (1..=most_down).map(move |down| (across, down)));
    // All of them, if they fit; else as many as can be.
    let shown = |across: u16, down: u16| (u32::from(across) * u32::from(down)).min(u32::from(count));
    // Of two that show as much as large, the one with fewer empty places.
    tilings.max_by_key(|(across, down)| (shown(*across, *down), size(*across, *down), Reverse(across * down)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pictures_are_tiled_as_large_as_can_be() {
        assert_eq!(tiling((60, 30), 1), Some((1, 1)));
        assert_eq!(tiling((60, 20), 2), Some((2, 1)));
        assert_eq!(tiling((30, 40), 2), Some((1, 2)));
        assert_eq!(tiling((80, 30), 4), Some((2, 2)));
        assert_eq!(tiling((80, 56), 2), Some((2, 1)));
        assert_eq!(tiling((60, 8), 1), None);
        assert_eq!(tiling((60, 30), 0), None);
        let (across, down) = tiling((80, 50), 40).unwrap();
        assert_eq!((across, down), (3, 5), "as many as there is room for");
    }
}
