//! What a look costs, by kind, and how that stands to the whole board and the money.

use super::lines::{BEFORE, Line, Lines, Span, Tone, cell, folded};
use super::seen::Seen;
use crate::plot;
use crate::screen::canvas::width;
use crate::trade::money::Money;
use crate::workroom::cost::{Kind, LookCost, per_minute};

/// The widest that a sum stands from its words.
const WIDEST: u16 = 84;

/// The page.
pub fn page(seen: &Seen<'_>, wide: u16) -> Lines {
    let mut lines = Lines::default();
    let Some(cost) = seen.reckoned.costs.look(seen.id) else { return lines };
    let wide = wide.min(WIDEST);
    if cost.lines.is_empty() {
        lines.body.extend(folded("Nothing of this look has a price yet.", wide, 0, &Tone::Strong));
        let then = "A cloth has its price in its own file; kinds of work have their rates in board.yaml (Y opens it); hours and \
                    whatever else a piece costs stand with the piece in the look's file (E opens it).";
        lines.body.extend(folded(then, wide, 0, &Tone::Plain));
    } else {
        for kind in Kind::ALL {
            lines.body.extend(of_kind(seen, cost, kind, wide));
        }
        lines.body.push(sum("in all", cost.sum(), wide, Tone::Strong));
        let pages = plot::of_look(seen.board, seen.id);
        match per_minute(cost.sum(), pages) {
            Some(each) => {
                let words = format!("for each of {} min. on screen", pages.clock());
                lines.body.push(sum(&words, each, wide, Tone::Plain));
            }
            None => lines.body.extend(folded("it is never on screen yet", wide, 0, &Tone::Quiet)),
        }
    }
    if !cost.lacks.is_empty() {
        lines.body.push(Line::default());
        lines.body.extend(folded("Not in it:", wide, 0, &Tone::Strong));
        for lack in &cost.lacks {
            lines.body.extend(folded(lack, wide, 2, &Tone::Wrong));
        }
    }
    lines.body.push(Line::default());
    lines.body.extend(whole(seen, wide));
    lines
}

fn of_kind(seen: &Seen<'_>, cost: &LookCost, kind: Kind, wide: u16) -> Vec<Line> {
    let of: Vec<_> = cost.lines.iter().filter(|line| line.kind == kind).collect();
    if of.is_empty() {
        return Vec::new();
    }
    let mut lines = vec![sum(kind.word(), cost.of(kind), wide, Tone::Strong)];
    let mut earlier = None;
    for line in of {
        // The lines of one garment stand under its name.
        if earlier.replace((&line.piece, &line.copies_of)) != Some((&line.piece, &line.copies_of)) {
            let name = match &line.copies_of {
                Some((version, wearer)) => {
                    format!("{} · {version} · {}", line.piece, seen.board.who_is(wearer))
                }
                None => format!("{}, once for all", line.piece),
            };
            lines.extend(folded(&name, wide, 2, &Tone::Quiet));
        }
        lines.push(sum(&format!("    {} {}", line.what, line.how), line.sum, wide, Tone::Plain));
    }
    lines
}

/// Words to the left and a sum to the right.
fn sum(words: &str, sum: Money, wide: u16, tone: Tone) -> Line {
    let sum = sum.shown();
    let room = usize::from(wide.saturating_sub(BEFORE + 1)).saturating_sub(width(&sum) + 1);
    Line::of(vec![Span::new(format!("{} ", cell(words, room, false)), tone.clone()), Span::new(sum, tone)])
}

/// The whole board.
fn whole(seen: &Seen<'_>, wide: u16) -> Vec<Line> {
    let costs = &seen.reckoned.costs;
    let mut lines = vec![Line::words(format!("the whole board{}", in_currency(seen)), Tone::Strong)];
    let looks: Money = costs.looks.iter().map(LookCost::sum).sum();
    lines.push(sum("all looks", looks, wide, Tone::Plain));
    lines.extend(
        costs
            .beside
            .iter()
            .map(|(title, cost)| sum(&format!("{title}, test strips"), *cost, wide, Tone::Plain)),
    );
    if let (Some(money), Some(left)) = (costs.money, costs.left()) {
        lines.push(sum("the money that there is", money, wide, Tone::Plain));
        let over = left.is_negative();
        let words = if over { "! over it" } else { "left" };
        let shown = if over { -left } else { left };
        lines.push(sum(words, shown, wide, if over { Tone::Wrong } else { Tone::Well }));
    }
    if costs.lacks() > 0 {
        let says = match costs.lacks() {
            1 => "one thing on the board has no price, rate or length, and is not in the sum".to_owned(),
            lacks => {
                format!("{lacks} things on the board have no price, rate or length, and are not in the sum")
            }
        };
        lines.extend(folded(&says, wide, 0, &Tone::Quiet));
    }
    lines
}

fn in_currency(seen: &Seen<'_>) -> String {
    match seen.board.head().workroom.currency.as_str() {
        "" => String::new(),
        currency => format!(", in {currency}"),
    }
}
