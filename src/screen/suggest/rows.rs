//! The list: each suggested look beside what it is now, then the looks that go or find no room.

use std::ops::Range;

use ratatui::layout::Rect;

use super::work::{Alone, Found};
use crate::board::{Board, OutfitId};
use crate::check::words::look_title;
use crate::gather::{Becomes, Suggested};
use crate::screen::canvas::{Canvas, Hit, width};
use crate::trade::date::Date;

/// What a row of the list stands for.
#[derive(Clone, Copy)]
pub enum Row {
    /// A suggested look.
    Look(usize),
    /// A look that goes.
    Goes(usize),
    /// A look for which there is no room.
    Left(usize),
    /// An outfit that no look keeps.
    Open(usize),
}

/// The rows of the list.
pub fn rows(found: &Found) -> Vec<Row> {
    let suggestion = &found.suggestion;
    let looks = (0..suggestion.looks.len()).map(Row::Look);
    let goes = (0..suggestion.goes.len()).map(Row::Goes);
    let left = (0..suggestion.left.len()).map(Row::Left);
    looks.chain(goes).chain(left).chain((0..suggestion.open.len()).map(Row::Open)).collect()
}

/// The marks of the rows, with what they mean.
pub const MARKS: [(&str, &str); 7] = [
    ("+", "new"),
    ("±", "other outfits"),
    ("↷", "other base"),
    ("·", "as it is"),
    ("−", "goes"),
    ("!", "no room"),
    ("○", "in no look"),
];

fn mark(found: &Found, row: Row) -> &'static str {
    match row {
        Row::Look(look) => match found.suggestion.looks[look].becomes() {
            Becomes::New => "+",
            Becomes::OtherBase => "↷",
            Becomes::AsItIs => "·",
            Becomes::OtherOutfits => "±",
        },
        Row::Goes(_) => "−",
        Row::Left(_) => "!",
        Row::Open(_) => "○",
    }
}

/// What the list's marks and its last column mean, in as many lines as that takes: the marks that are in the list.
pub fn legend(found: &Found, wide: u16) -> Vec<String> {
    let rows = rows(found);
    let is_there = |wanted: &str| rows.iter().any(|row| mark(found, *row) == wanted);
    let marks =
        MARKS.iter().filter(|(mark, _)| is_there(mark)).map(|(mark, words)| format!("{mark} {words}"));
    let mut lines: Vec<String> = vec![String::new()];
    for item in marks.chain(["% kept, taken alone".to_owned()]) {
        let Some(line) = lines.last_mut() else { break };
        if line.is_empty() {
            *line = item;
        } else if width(line) + 2 + width(&item) <= usize::from(wide) {
            line.push_str(&format!("  {item}"));
        } else {
            lines.push(item);
        }
    }
    lines
}

/// The columns that say what a look that is taken alone does to what is kept.
const ALONE: u16 = 8;

/// Draws a page of the list.
pub fn draw(
    board: &Board,
    found: &Found,
    at: usize,
    canvas: &mut Canvas<'_>,
    area: Rect,
    page: Range<usize>,
) {
    let (text, quiet, focus, open) =
        (canvas.theme.text(), canvas.theme.quiet(), canvas.theme.focus(), canvas.theme.full());
    let rows = rows(found);
    for (y, place) in (area.top()..area.bottom()).zip(page) {
        let row = rows[place];
        let mark = mark(found, row);
        let (words, note) = told(board, found, row);
        let line = Rect::new(area.x, y, area.width, 1);
        let mut right = area.right();
        if let Row::Look(look) = row {
            let alone = found.alone(look);
            let gain = alone.and_then(Alone::gain).map(signed).unwrap_or_default();
            let style = if alone.is_some_and(Alone::keeps_less) { open } else { quiet };
            let used = u16::try_from(width(&gain)).unwrap_or(0).min(ALONE);
            canvas.put(right - used, y, used, &gain, style);
            right -= ALONE.min(area.width);
        }
        let noted = u16::try_from(width(&note)).unwrap_or(0).min((right - area.x) / 2);
        let style = if mark == "·" { quiet } else { open };
        let x = canvas.spans(area.x, y, right, &[(mark, style), (" ", text)]);
        canvas.put(x, y, right.saturating_sub(x + noted + 1), &words, text);
        canvas.put(right - noted, y, noted, &note, quiet);
        if place == at {
            canvas.restyle(line, focus);
        }
        canvas.hit(line, Hit::Row(place));
    }
}

/// A row in words, and what becomes of it.
fn told(board: &Board, found: &Found, row: Row) -> (String, String) {
    let suggestion = &found.suggestion;
    match row {
        Row::Look(look) => {
            let suggested = &suggestion.looks[look];
            let date = board.outfit(&suggested.base).and_then(|outfit| outfit.worn.as_ref()).map(Date::short);
            let title = of_whom(board, found, &suggested.base);
            (format!("{:>11}  {title}", date.unwrap_or_default()), change(suggested))
        }
        Row::Goes(go) => {
            let (look, into) = &suggestion.goes[go];
            let only = if suggestion.is_kept(board, go) { "" } else { " for want of a nearer one" };
            let into = board.title_of_outfit(&suggestion.looks[*into].base);
            (format!("{:>11}  {}", "", look_title(board, look)), format!("goes into {into}{only}"))
        }
        Row::Left(left) => {
            let title = look_title(board, &suggestion.left[left]);
            (format!("{:>11}  {title}", ""), "no room for it: yours to merge or dissolve".to_owned())
        }
        Row::Open(open) => {
            let id = &suggestion.open[open];
            let date = board.outfit(id).and_then(|outfit| outfit.worn.as_ref()).map(Date::short);
            let title = of_whom(board, found, id);
            (format!("{:>11}  {title}", date.unwrap_or_default()), "no look keeps it".to_owned())
        }
    }
}

/// An outfit, with whose it is where all characters are asked about.
fn of_whom(board: &Board, found: &Found, id: &OutfitId) -> String {
    let title = board.title_of_outfit(id);
    match board.outfit(id).filter(|_| found.is_of_all) {
        Some(outfit) => format!("{}: {title}", board.name_of(&outfit.character)),
        None => title.to_owned(),
    }
}

fn change(suggested: &Suggested) -> String {
    let mut words = Vec::new();
    match suggested.becomes() {
        Becomes::AsItIs => return "as it is".to_owned(),
        Becomes::New => words.push("new".to_owned()),
        Becomes::OtherBase => words.push("other base".to_owned()),
        Becomes::OtherOutfits => {}
    }
    if !suggested.comes.is_empty() && suggested.look.is_some() {
        words.push(format!("{} in", suggested.comes.len()));
    }
    if !suggested.leaves.is_empty() {
        words.push(format!("{} out", suggested.leaves.len()));
    }
    words.join(", ")
}

/// `+0.8 %`, `−0.4 %`: a share more or less.
fn signed(share: f64) -> String {
    let points = format!("{:.1} %", 100.0 * share.abs());
    match points.as_str() {
        "0.0 %" => points,
        _ if share < 0.0 => format!("−{points}"),
        _ => format!("+{points}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gain_is_told_with_its_sign_and_nothing_has_none() {
        let told = [0.0081, -0.004, 0.0004, -0.0004].map(signed);
        assert_eq!(told, ["+0.8 %", "−0.4 %", "0.0 %", "0.0 %"]);
    }
}
