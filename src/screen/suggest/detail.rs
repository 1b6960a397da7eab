//! What stands beside the list: one suggested look explained, or the curve.

use ratatui::layout::Rect;

use super::about::{Said, Tone};
use super::chart::{self, Chart};
use super::work::{Alone, Found};
use crate::board::{Board, LookId, OutfitId, Standing};
use crate::check::words::{at_stake, capital, look_title, percent};
use crate::gather::Suggested;
use crate::screen::canvas::{Canvas, wrapped};
use crate::screen::deeds::outfit_words;

/// How many lines of a suggested look come before its outfits: its base, and what it is now.
pub const LEAD: usize = 2;

/// One suggested look: what it is now, and how like its base each outfit is, and in what.
pub fn look(board: &Board, found: &Found, at: usize) -> Vec<Said> {
    let suggested = &found.suggestion.looks[at];
    let mut lines =
        vec![(outfit_words(board, &suggested.base), Tone::Heading), (now(board, suggested), Tone::Plain)];
    for id in found.suggestion.going_into(at) {
        let words = format!("! {} goes into it: {}", look_title(board, id), at_stake(board, id));
        lines.push((words, Tone::Warning));
    }
    for (outfit, _) in &suggested.folded {
        let is_new = suggested.comes.contains(outfit);
        let from = match board.standing(outfit) {
            Standing::Folded(look) if is_new => format!(", from {}", look_title(board, look)),
            _ => String::new(),
        };
        let comes = if is_new { "+ " } else { "  " };
        lines.push((format!("{comes}{}{from}", outfit_words(board, outfit)), Tone::Plain));
        if let Some(explanation) = found.likeness.explain(outfit, &suggested.base) {
            lines.push((format!("    {}", explanation.in_words()), Tone::Quiet));
        }
    }
    for outfit in &suggested.leaves {
        let to = found.suggestion.looks.iter().find(|look| look.outfits().any(|held| held == outfit));
        let to = to.map_or(String::new(), |look| format!(", to {}", board.title_of_outfit(&look.base)));
        lines.push((format!("− {}{to}", outfit_words(board, outfit)), Tone::Plain));
    }
    if suggested.folded.is_empty() {
        lines.push(("  stands for itself alone".to_owned(), Tone::Quiet));
    }
    lines
}

/// What is said where taking just one look would change nothing.
pub const NOTHING: &str = "alone it changes nothing: what leaves it goes with the looks that take it";

/// What taking just one look does to what is kept; nothing where it is as it is.
pub fn alone(suggested: &Suggested, before: f64, alone: Option<&Alone>) -> Option<Said> {
    if suggested.stays() && alone.is_none_or(Alone::is_nothing) {
        return None;
    }
    let Some(alone) = alone else {
        return Some(("What it does if only it is taken is being worked out …".to_owned(), Tone::Quiet));
    };
    if let Err(why) = &alone.edit {
        return Some((format!("It cannot be taken alone: {why}."), Tone::Warning));
    }
    let Some(after) = alone.kept else {
        return Some((format!("{}.", capital(NOTHING)), Tone::Quiet));
    };
    let change = format!("{} kept → {}", percent(before), percent(after));
    Some(if alone.keeps_less() {
        (format!("! Taken alone it lowers what is kept: {change}. It pays with the others."), Tone::Warning)
    } else {
        (format!("Taken alone: {change}."), Tone::Plain)
    })
}

/// A look that goes, or that there is no room for: what is at stake with it.
pub fn going(board: &Board, id: &LookId) -> Vec<Said> {
    vec![(look_title(board, id).to_owned(), Tone::Heading), (at_stake(board, id), Tone::Plain)]
}

/// An outfit that no look keeps: what can be done about it.
pub fn open(board: &Board, id: &OutfitId) -> Vec<Said> {
    let why = "Nothing much of it would be kept in any suggested look. Fold it where you know better, wish it a base, or \
               let it go.";
    vec![(outfit_words(board, id), Tone::Heading), (why.to_owned(), Tone::Plain)]
}

fn now(board: &Board, suggested: &Suggested) -> String {
    let title = |look| look_title(board, look);
    match &suggested.look {
        None => "a new look, in no scene yet".to_owned(),
        Some(look) if suggested.changes_base => {
            let base = board.look(look).and_then(|look| look.base.as_ref());
            let base = base.map_or(String::new(), |base| outfit_words(board, base));
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
        words.push(format!("At best {looks} looks keep {}, whatever the other limits.", percent(kept)));
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
