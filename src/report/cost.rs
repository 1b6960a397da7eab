//! What the looks cost: each look, character and period, by the minute on screen, against the money that there is; and
//! what every sum is made of.

use super::cautions::{self, with_look};
use super::document::{Cell, Column, Document, Kind, Share, Table};
use super::plain::Plain;
use crate::board::Board;
use crate::plot;
use crate::trade::money::Money;
use crate::workroom::cost::{Costs, Kind as For, LookCost, per_minute};

pub(super) fn document(board: &Board) -> Document {
    let costs = Costs::of(board);
    let mut tables = vec![whole(board, &costs), looks(board, &costs)];
    tables.extend(groups(board, &costs));
    tables.push(lines(board, &costs));
    let raised: Vec<_> = costs.looks.iter().flat_map(|cost| with_look(board, &cost.look)).collect();
    let lacks: Vec<Plain> = costs.looks.iter().filter_map(|cost| lack(board, cost)).collect();
    Document {
        key: "cost",
        title: Plain::line(&format!("{}: cost", board.head().title)),
        subtitle: Plain::line(&against(board, &costs)),
        notes: vec![Plain::line(
            "A look costs the cloth of all its copies and toiles at its price, whether it must be bought or lies in the \
             house; the hours of work on them at their rates; and what else each piece costs. Minutes are at a page a minute \
             (common practice, no source).",
        )],
        gaps: lacks,
        cautions: cautions::asks(&raised),
        tables,
        ..Document::default()
    }
}

/// `61 200.00 of 84 000.00 crowns: 22 800.00 left`.
pub(crate) fn against(board: &Board, costs: &Costs) -> String {
    let currency = &board.head().workroom.currency;
    let sum = costs.sum().shown();
    match (costs.money, costs.left()) {
        (Some(money), Some(left)) if left.is_negative() => {
            format!("{sum} of {} {currency}: {} over", money.shown(), (-left).shown())
        }
        (Some(money), Some(left)) => format!("{sum} of {} {currency}: {} left", money.shown(), left.shown()),
        _ => format!("{sum} {currency}").trim_end().to_owned(),
    }
}

fn lack(board: &Board, cost: &LookCost) -> Option<Plain> {
    let title = board.look(&cost.look).map_or(cost.look.as_str(), |look| &look.title);
    (!cost.lacks.is_empty())
        .then(|| Plain::line(&format!("Not reckoned in {title}: {}.", cost.lacks.join("; "))))
}

fn whole(board: &Board, costs: &Costs) -> Table {
    let columns = vec![Column::new("what", "What", Kind::Text), sum_column(board), share_column()];
    let mut table = Table::titled("whole", "In all", columns);
    let mut push = |what: &str, sum: Money| {
        table.push(vec![Cell::text(what), Cell::Money(sum), share(sum, costs.sum())]);
    };
    for kind in For::ALL {
        push(kind.word(), costs.looks.iter().map(|cost| cost.of(kind)).sum());
    }
    push("test strips", costs.beside.iter().map(|(_, sum)| *sum).sum());
    push("all", costs.sum());
    table
}

fn looks(board: &Board, costs: &Costs) -> Table {
    let money = |key: &str, heading: &str| Column::new(key, heading, Kind::Money);
    let columns = vec![
        Column::new("character", "Character", Kind::Text),
        Column::new("look", "Look", Kind::Text),
        Column::new("period", "Period", Kind::Text),
        money("cloth", "Cloth"),
        money("work", "Work"),
        money("other", "Other"),
        sum_column(board),
        share_column(),
        Column::new("minutes", "Minutes", Kind::Minutes),
        money("minute", "A minute"),
    ];
    let mut table = Table::titled("looks", "Looks, the dearest first", columns);
    let mut dearest: Vec<&LookCost> = costs.looks.iter().collect();
    dearest.sort_by_key(|cost| std::cmp::Reverse(cost.sum()));
    for cost in dearest {
        let Some(look) = board.look(&cost.look) else { continue };
        let pages = plot::of_look(board, &cost.look);
        let period = board.relations().period_of_look(&cost.look);
        table.push(vec![
            Cell::text(board.name_of(&look.character)),
            Cell::text(&look.title),
            Cell::maybe(period.map(|period| board.title_of(period))),
            Cell::Money(cost.of(For::Cloth)),
            Cell::Money(cost.of(For::Work)),
            Cell::Money(cost.of(For::Other)),
            Cell::Money(cost.sum()),
            share(cost.sum(), costs.sum()),
            Cell::Minutes(pages),
            Cell::money(per_minute(cost.sum(), pages)),
        ]);
    }
    table
}

fn groups(board: &Board, costs: &Costs) -> [Table; 2] {
    let columns = |heading: &str| {
        vec![
            Column::new("of", heading, Kind::Text),
            sum_column(board),
            share_column(),
            Column::new("minutes", "Minutes", Kind::Minutes),
            Column::new("minute", "A minute", Kind::Money),
        ]
    };
    let mut characters = Table::titled("characters", "Characters", columns("Character"));
    for (who, sum) in costs.by_character(board) {
        let looks = costs.looks.iter().map(|cost| &cost.look);
        let own = looks.filter(|id| board.look(id).is_some_and(|look| look.character == *who));
        let pages = own.map(|id| plot::of_look(board, id)).sum();
        characters.push(group(board.name_of(who), sum, pages, costs));
    }
    let mut periods = Table::titled("periods", "Periods", columns("Period"));
    for (period, sum) in costs.by_period(board) {
        let pages = plot::of_period(board, period);
        periods.push(group(period.map_or("no period", |period| board.title_of(period)), sum, pages, costs));
    }
    [characters, periods]
}

fn group(name: &str, sum: Money, pages: crate::trade::eighths::Eighths, costs: &Costs) -> Vec<Cell> {
    vec![
        Cell::text(name),
        Cell::Money(sum),
        share(sum, costs.sum()),
        Cell::Minutes(pages),
        Cell::money(per_minute(sum, pages)),
    ]
}

fn lines(board: &Board, costs: &Costs) -> Table {
    let columns = vec![
        Column::new("look", "Look", Kind::Text).above(),
        Column::new("piece", "Piece", Kind::Text),
        Column::new("for", "For", Kind::Text),
        Column::new("what", "What", Kind::Text),
        Column::new("how", "How it is reckoned", Kind::Text),
        sum_column(board),
    ];
    let mut table = Table::titled("lines", "What each sum is made of", columns);
    for cost in &costs.looks {
        let title = super::whose(board, &cost.look);
        for line in &cost.lines {
            table.push(vec![
                Cell::text(&title),
                Cell::text(&line.piece),
                Cell::text(line.kind.word()),
                Cell::text(&line.what),
                Cell::text(&line.how),
                Cell::Money(line.sum),
            ]);
        }
    }
    table
}

fn sum_column(board: &Board) -> Column {
    let currency = &board.head().workroom.currency;
    let heading = if currency.is_empty() { "Sum".to_owned() } else { format!("Sum ({currency})") };
    Column::new("sum", &heading, Kind::Money)
}

fn share_column() -> Column {
    Column::new("share", "Share", Kind::Share)
}

fn share(sum: Money, whole: Money) -> Cell {
    sum.share_of(whole).map_or(Cell::Share(Share::default()), Cell::Share)
}

#[cfg(test)]
mod tests {
    use super::super::made;
    use super::*;
    use crate::report::formats::{Markdown, Text};

    #[test]
    fn what_looks_cost_and_what_each_sum_is_made_of() {
        insta::assert_snapshot!(Markdown.write(&document(&made::board())));
    }
}
