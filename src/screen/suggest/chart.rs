//! The curve as a chart: what the first, second … look keeps, with the present list as a point on it.

use ratatui::layout::Rect;

use crate::check::words::{counted, percent};
use crate::screen::canvas::Canvas;

/// What a chart shows, in shares kept from 0 to 1.
pub struct Chart<'a> {
    /// For one look, two, and so on: the most that can be kept, and whether that is proved.
    pub curve: &'a [Option<(f64, bool)>],
    /// The present number of looks with a base, and what they keep.
    pub now: (usize, f64),
}

/// Parts of a cell, from the bottom.
const EIGHTHS: [&str; 9] = [" ", "▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"];

/// Draws the chart: a column for each number of looks, a scale at the left, the axes' names, and a mark where the
/// present list is.
pub fn draw(canvas: &mut Canvas<'_>, area: Rect, chart: &Chart<'_>) {
    const SCALE: u16 = 6;
    const LOOKS: u16 = 6;
    if area.height < 5 || area.width < SCALE + LOOKS + 10 || chart.curve.is_empty() {
        return;
    }
    let (text, quiet, open, within) =
        (canvas.theme.text(), canvas.theme.quiet(), canvas.theme.full(), canvas.theme.within());
    canvas.put(area.x, area.y, SCALE, "kept", quiet);
    let area = Rect::new(area.x, area.y + 1, area.width, area.height - 1);
    let high = area.height - 2;
    let room = usize::from(area.width - SCALE - LOOKS);
    let shown = chart.curve.len().min(room);
    let wide = u16::try_from((room / shown).clamp(1, 4)).unwrap_or(1);
    let most = chart.curve.iter().flatten().map(|point| point.0).fold(chart.now.1, f64::max).max(0.01);
    let top = (most * 10.0).ceil() / 10.0;
    // A mark on the scale stands at the top of its row, so that none stands on the axis itself.
    for row in [0, high / 2, high] {
        let share = top * f64::from(high - row) / f64::from(high);
        canvas.put(area.x, area.y + row, SCALE, &format!("{:>3.0} % ", share * 100.0), quiet);
    }
    for (at, point) in chart.curve.iter().take(shown).enumerate() {
        let x = area.x + SCALE + u16::try_from(at).unwrap_or(0) * wide;
        if let Some((kept, proven)) = point {
            let eighths = (kept / top * f64::from(high) * 8.0).round() as u16;
            for row in 0..high {
                let below = (high - 1 - row) * 8;
                let part = eighths.saturating_sub(below).min(8);
                let cell = EIGHTHS[usize::from(part)];
                canvas.put(x, area.y + row, 1, cell, if *proven { within } else { quiet });
            }
        }
        let looks = at + 1;
        if looks % 5 == 0 || looks == 1 {
            canvas.put(x, area.y + high, 3, &looks.to_string(), quiet);
        }
        if looks == chart.now.0 {
            let row = (f64::from(high) * (1.0 - chart.now.1 / top)).clamp(0.0, f64::from(high - 1)) as u16;
            canvas.put(x, area.y + row, 1, "◆", open);
        }
    }
    let end = area.x + SCALE + u16::try_from(shown).unwrap_or(0) * wide;
    // The last number may reach beyond the last column.
    canvas.put((end + 2).min(area.right() - 5), area.y + high, 5, "looks", quiet);
    let words = format!("◆ yours: {} keep {}", counted(chart.now.0, "look"), percent(chart.now.1));
    canvas.put(area.x + SCALE, area.y + high + 1, area.width - SCALE, &words, text);
}
