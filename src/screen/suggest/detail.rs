//! What stands beside the list: one suggested look explained, or the curve.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::chart::{self, Chart};
use super::work::Found;
use crate::board::{Board, OutfitId};
use crate::check::words::{look_title, percent};
use crate::gather::likeness::STRETCH;
use crate::gather::{Explanation, Suggested};
use crate::screen::canvas::{Canvas, wrapped};

/// One suggested look: what it is now, and how like its base each outfit is, and in what.
pub fn look(board: &Board, found: &Found, at: usize, canvas: &mut Canvas<'_>, area: Rect) {
    let suggested = &found.suggestion.looks[at];
    let (heading, text, quiet) = (canvas.theme.heading(), canvas.theme.text(), canvas.theme.quiet());
    let mut lines: Vec<(String, Style)> = vec![(board.title_of_outfit(&suggested.base).to_owned(), heading)];
    lines.push((now(board, suggested), text));
    for (outfit, distance) in &suggested.folded {
        let comes = if suggested.comes.contains(outfit) { "+ " } else { "  " };
        let stretch = if *distance >= STRETCH { ", a stretch" } else { "" };
        let title = board.title_of_outfit(outfit);
        lines.push((format!("{comes}{:>3.0} % alike{stretch}: {title}", (1.0 - distance) * 100.0), text));
        if let Some(explanation) = found.likeness.explain(outfit, &suggested.base) {
            lines.push((format!("      {}", in_words(&explanation)), quiet));
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

/// What makes two outfits alike, and what unlike: `alike in pieces, silhouette; unlike in date (7 years)`.
fn in_words(explanation: &Explanation) -> String {
    let of = |keeps: &dyn Fn(f64) -> bool| -> Vec<&'static str> {
        let mut parts: Vec<_> = explanation
            .parts
            .iter()
            .filter_map(|part| Some((part, part.distance?)))
            .filter(|(part, distance)| part.weight > 0.0 && keeps(*distance))
            .collect();
        parts.sort_by(|a, b| b.0.weight.total_cmp(&a.0.weight));
        parts.into_iter().map(|(part, _)| part.feature.word()).collect()
    };
    let (alike, unlike) = (of(&|distance| distance <= 0.4), of(&|distance| distance >= 0.8));
    let list = |words: &[&str], what: &str| {
        if words.is_empty() { None } else { Some(format!("{what} in {}", words.join(", "))) }
    };
    let said: Vec<String> = [list(&alike, "alike"), list(&unlike, "unlike")].into_iter().flatten().collect();
    if said.is_empty() { "somewhat alike in everything".to_owned() } else { said.join("; ") }
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
