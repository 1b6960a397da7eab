//! What stands beside the list: one suggested look explained, or the curve.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::chart::{self, Chart};
use super::work::Found;
use crate::board::{Board, LookId, OutfitId};
use crate::check::words::{at_stake, look_title, percent};
use crate::gather::Suggested;
use crate::screen::canvas::{Canvas, wrapped};

/// One suggested look: what it is now, and how like its base each outfit is, and in what.
pub fn look(board: &Board, found: &Found, at: usize, canvas: &mut Canvas<'_>, area: Rect) {
    let suggested = &found.suggestion.looks[at];
    let (heading, text, quiet) = (canvas.theme.heading(), canvas.theme.text(), canvas.theme.quiet());
    let mut lines: Vec<(String, Style)> = vec![(board.title_of_outfit(&suggested.base).to_owned(), heading)];
    lines.push((now(board, suggested), text));
    for (outfit, _) in &suggested.folded {
        let comes = if suggested.comes.contains(outfit) { "+ " } else { "  " };
        lines.push((format!("{comes}{}", board.title_of_outfit(outfit)), text));
        if let Some(explanation) = found.likeness.explain(outfit, &suggested.base) {
            lines.push((format!("    {}", explanation.in_words()), quiet));
        }
    }
    for outfit in &suggested.leaves {
        let to = found.suggestion.looks.iter().find(|look| look.outfits().any(|held| held == outfit));
        let to = to.map_or("", |look| board.title_of_outfit(&look.base));
        lines.push((format!("− {}, to {to}", board.title_of_outfit(outfit)), text));
    }
    if suggested.folded.is_empty() {
        lines.push(("  stands for itself alone".to_owned(), quiet));
    }
    let mut y = area.y;
    for (line, style) in lines {
        // A line that goes on is indented like its beginning.
        let indent = line.len() - line.trim_start().len();
        let room = usize::from(area.width).saturating_sub(indent).max(8);
        for part in wrapped(line.trim_start(), room) {
            if y >= area.bottom() {
                return;
            }
            let indent = u16::try_from(indent).unwrap_or(0).min(area.width);
            canvas.put(area.x + indent, y, area.width - indent, &part, style);
            y += 1;
        }
    }
}

/// A look that goes, or that there is no room for: what is at stake with it.
pub fn going(board: &Board, id: &LookId, canvas: &mut Canvas<'_>, area: Rect) {
    let (heading, text) = (canvas.theme.heading(), canvas.theme.text());
    canvas.put(area.x, area.y, area.width, look_title(board, id), heading);
    let lines = wrapped(&at_stake(board, id), usize::from(area.width));
    for (y, line) in (area.y + 1..area.bottom()).zip(lines) {
        canvas.put(area.x, y, area.width, &line, text);
    }
}

fn now(board: &Board, suggested: &Suggested) -> String {
    let title = |look| look_title(board, look);
    match &suggested.look {
        None => "a new look".to_owned(),
        Some(look) if suggested.changes_base => {
            let base = board.look(look).and_then(|look| look.base.as_ref());
            let base = base.map_or("", |base: &OutfitId| board.title_of_outfit(base));
            format!("your look {}, whose base is {base} now", title(look))
        }
        Some(look) => format!("your look {}", title(look)),
    }
}

/// The curve, and in words what a look more or fewer would do.
pub fn curve(canvas: &mut Canvas<'_>, area: Rect, chart: &Chart<'_>) {
    let text = canvas.theme.text();
    let at = |looks: usize| looks.checked_sub(1).and_then(|at| chart.curve.get(at).copied().flatten());
    let (looks, _) = chart.now;
    let mut words = Vec::new();
    if let Some((kept, _)) = at(looks) {
        words.push(format!("At best {looks} looks keep {}, with no limit on periods.", percent(kept)));
        if let Some((fewer, _)) = at(looks.saturating_sub(3)) {
            words.push(format!("Three fewer keep {} at best.", percent(fewer)));
        }
        if let Some((more, _)) = at(looks + 1) {
            words.push(format!("One more buys {:.1} points.", (more - kept) * 100.0));
        }
    }
    let lines = wrapped(&words.join(" "), usize::from(area.width));
    let mut y = area.y;
    for line in lines.iter().take(3) {
        canvas.put(area.x, y, area.width, line, text);
        y += 1;
    }
    chart::draw(canvas, Rect::new(area.x, y, area.width, area.bottom().saturating_sub(y)), chart);
}
