//! What to buy: of each cloth how much, for how much, and by when to order it; what takes it; and what trials say.

use super::cautions::{self, with_look};
use super::document::{Cell, Column, Document, Kind, Table};
use super::plain::Plain;
use crate::board::{Board, Trial};
use crate::check::young_fibres;
use crate::trade::date::{Date, Day};
use crate::trade::fibre::Fibre;
use crate::trade::length::Length;
use crate::trade::money::Money;
use crate::workroom::cloth::buy::{Part, Purchase, purchases};
use crate::workroom::cloth::colour;
use crate::workroom::cloth::lay::Amount;
use crate::workroom::cloth::trials;
use crate::workroom::copies::plan::Plan;
use crate::workroom::words;

pub(super) fn document(board: &Board) -> Document {
    let plan = Plan::of(board);
    let mut all = purchases(board, &plan);
    // What must be ordered first stands first; what nobody needs stands last.
    all.sort_by_key(|one| (one.order_by.is_none(), one.order_by, one.first_day.is_none()));
    let mut cloths = Table::titled("cloths", "To order", columns(board));
    let mut parts = Table::titled("parts", "What takes it", part_columns());
    let mut tried = Table::titled("trials", "Trials", trial_columns());
    for one in &all {
        cloths.push(row(board, one));
        for part in &one.parts {
            parts.push(part_row(board, one, part));
        }
        for trial in &one.cloth.trials {
            tried.push(trial_row(one, trial));
        }
    }
    let sum: Money = all.iter().filter_map(Purchase::price).sum();
    let currency = &board.head().workroom.currency;
    let raised: Vec<_> =
        board.relations().looks_by_order().iter().flat_map(|id| with_look(board, id)).collect();
    Document {
        key: "buy",
        title: Plain::line(&format!("{}: cloth to buy", board.head().title)),
        subtitle: Plain::line(&format!("{} {currency}", sum.shown())),
        notes: vec![
            Plain::line(
                "To buy is what all copies, toiles and test strips take, less what is in the house, up to whole tenths of a metre \
                 (common practice, no source). A cloth is ordered so long before the first shooting day that needs it as it \
                 takes to come and to be made up.",
            ),
            Plain::line(colour::CAUTION),
        ],
        gaps: gaps(board, &all),
        cautions: cautions::asks(&raised),
        tables: vec![cloths, parts, tried],
        ..Document::default()
    }
}

fn gaps(board: &Board, all: &[Purchase<'_>]) -> Vec<Plain> {
    let mut gaps: Vec<Plain> = Vec::new();
    let used = || all.iter().filter(|one| !one.parts.is_empty());
    let unpriced: Vec<&str> =
        used().filter(|one| one.cloth.price.is_none()).map(|one| one.cloth.title.as_str()).collect();
    if !unpriced.is_empty() {
        gaps.push(Plain::line(&format!("Without a price: {}.", unpriced.join("; "))));
    }
    for one in all {
        for (look, piece, wrong) in &one.wrong {
            let look = board.look(look).map_or(look.as_str(), |look| &look.title);
            gaps.push(Plain::line(&format!("{piece} of {look}, of {}: {wrong}.", one.cloth.title)));
        }
    }
    gaps.extend(young_fibres(board).iter().map(|one| Plain::line(&one.text)));
    if used().any(|one| one.needed.is_none()) {
        gaps.push(Plain::line(
            "Shooting days without a date, or looks on none: there is no day by which to order.",
        ));
    }
    gaps
}

fn columns(board: &Board) -> Vec<Column> {
    let currency = &board.head().workroom.currency;
    let money = |heading: &str| {
        if currency.is_empty() { heading.to_owned() } else { format!("{heading} ({currency})") }
    };
    vec![
        Column::new("cloth", "Cloth", Kind::Text),
        Column::new("id", "Under", Kind::Text).not_on_paper(),
        Column::new("fibres", "Of", Kind::List),
        Column::new("weight", "Weight", Kind::Text),
        Column::new("width", "Width", Kind::Text),
        Column::new("supplier", "From", Kind::Text),
        Column::new("taken", "Taken", Kind::Metres),
        Column::new("strips", "of it test strips", Kind::Metres).not_on_paper(),
        Column::new("stock", "In the house", Kind::Metres),
        Column::new("buy", "To buy", Kind::Metres),
        Column::new("skins", "Skins", Kind::Number),
        Column::new("price", &money("A metre or skin"), Kind::Money),
        Column::new("sum", &money("In all"), Kind::Money),
        Column::new("order-by", "Order by", Kind::Date),
        Column::new("needed", "First needed", Kind::Date),
        Column::new("mind", "To mind", Kind::List),
        Column::new("notes", "Notes", Kind::Text),
    ]
}

fn row(board: &Board, one: &Purchase<'_>) -> Vec<Cell> {
    let unit = board.head().units;
    let cloth = one.cloth;
    let some = |length: Length| if length == Length::default() { Cell::Empty } else { Cell::Metres(length) };
    vec![
        Cell::text(&cloth.title),
        Cell::text(one.id.as_str()),
        Cell::list(cloth.fibres.iter().map(|fibre: &Fibre| fibre.words())),
        Cell::maybe(cloth.weight),
        Cell::maybe(cloth.width.map(|width| width.length().shown(unit))),
        Cell::text(&cloth.supplier),
        some(one.taken()),
        some(one.strips()),
        some(cloth.stock.unwrap_or_default()),
        some(one.to_buy()),
        if one.skins() == 0 { Cell::Empty } else { Cell::Number(one.skins()) },
        Cell::money(cloth.price),
        Cell::money(one.price()),
        day(one.order_by),
        day(one.needed),
        Cell::list(words::to_mind(cloth, unit)),
        Cell::text(&cloth.notes),
    ]
}

fn day(day: Option<Day>) -> Cell {
    Cell::date(day.and_then(Date::on).as_ref())
}

fn part_columns() -> Vec<Column> {
    vec![
        Column::new("cloth", "Cloth", Kind::Text).above(),
        Column::new("look", "Look", Kind::Text),
        Column::new("piece", "Piece", Kind::Text),
        Column::new("version", "Version", Kind::Text),
        Column::new("wearer", "For", Kind::Text),
        Column::new("copies", "Copies", Kind::Number),
        Column::new("toiles", "Toiles", Kind::Number),
        Column::new("each", "For one", Kind::Text),
        Column::new("all", "In all", Kind::Metres),
        Column::new("skins", "Skins", Kind::Number),
    ]
}

fn part_row(board: &Board, one: &Purchase<'_>, part: &Part) -> Vec<Cell> {
    let garment = &part.garment;
    let (length, skins) = match part.all() {
        Amount::Length(length) => (Cell::Metres(length), Cell::Empty),
        Amount::Skins(skins) => (Cell::Empty, Cell::Number(skins)),
    };
    vec![
        Cell::text(&one.cloth.title),
        Cell::text(&super::whose(board, &garment.look)),
        Cell::text(&garment.piece),
        Cell::text(garment.version.as_str()),
        Cell::text(board.who_is(&garment.wearer)),
        Cell::Number(part.copies),
        if part.toiles == 0 { Cell::Empty } else { Cell::Number(part.toiles) },
        Cell::text(&words::amount(part.each)),
        length,
        skins,
    ]
}

fn trial_columns() -> Vec<Column> {
    vec![
        Column::new("cloth", "Cloth", Kind::Text).above(),
        Column::new("next", "Next", Kind::Text).above(),
        Column::new("trial", "Trial", Kind::Number),
        Column::new("on", "On", Kind::Date),
        Column::new("weight", "Weight", Kind::Text),
        Column::new("verdict", "Verdict", Kind::Text),
        Column::new("notes", "Seen", Kind::Text),
    ]
}

fn trial_row(one: &Purchase<'_>, trial: &Trial) -> Vec<Cell> {
    vec![
        Cell::text(&one.cloth.title),
        Cell::text(&words::next(trials::next(&one.cloth.trials))),
        Cell::Number(trial.trial),
        Cell::date(trial.on.as_ref()),
        Cell::text(&trial.weight.to_string()),
        Cell::text(trial.verdict.word()),
        Cell::text(&trial.notes),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::made;
    use super::*;
    use crate::report::formats::{Markdown, Text};

    #[test]
    fn what_to_buy_is_told_cloth_by_cloth_with_what_takes_it_and_what_trials_say() {
        insta::assert_snapshot!(Markdown.write(&document(&made::board())));
    }
}
