//! Copies: of each version of each piece how many there must be and why, and where each copy is on each shooting day.

use super::build::why;
use super::cautions::{self, with_look};
use super::document::{Cell, Column, Document, Kind, Table};
use super::plain::Plain;
use crate::board::{Board, Effect, LookId};
use crate::check::words::counted;
use crate::workroom::copies::Whereabouts;
use crate::workroom::copies::plan::{Demand, Plan};

pub(super) fn document(board: &Board) -> Document {
    let plan = Plan::of(board);
    let practice = board.practice();
    let mut copies = Table::titled("copies", "How many, and why", columns());
    let mut raised = Vec::new();
    let mut last: Option<&LookId> = None;
    for demand in &plan.demands {
        let garment = &demand.garment;
        if last.replace(&garment.look) != Some(&garment.look) {
            raised.extend(with_look(board, &garment.look));
        }
        let short = demand.planned.map(|planned| demand.copies().saturating_sub(planned.into()));
        copies.push(vec![
            Cell::text(&super::whose(board, &demand.garment.look)),
            Cell::text(&garment.piece),
            Cell::text(garment.version.as_str()),
            Cell::text(board.who_is(&garment.wearer)),
            Cell::Number(demand.copies()),
            demand.planned.map_or(Cell::Empty, |planned| Cell::Number(planned.into())),
            short.filter(|short| *short > 0).map_or(Cell::Empty, Cell::Number),
            Cell::list(why(board, &practice, demand)),
        ]);
    }
    let short = plan
        .demands
        .iter()
        .filter(|one| one.planned.is_some_and(|planned| u32::from(planned) < one.copies()));
    let all: u32 = plan.demands.iter().map(Demand::copies).fold(0, u32::saturating_add);
    let unplanned = plan.demands.iter().filter(|one| one.planned.is_none() && !one.is_unused()).count();
    let short = short.count();
    let mut gaps = Vec::new();
    if unplanned > 0 {
        gaps.push(Plain::line(&format!(
            "Of {} the board does not say how many are planned.",
            counted(unplanned, "line")
        )));
    }
    if short > 0 {
        gaps.push(Plain::line(&format!(
            "{} too few copies planned.",
            if short == 1 { "One line has".to_owned() } else { format!("{short} lines have") }
        )));
    }
    Document {
        key: "copies",
        title: Plain::line(&format!("{}: copies", board.head().title)),
        subtitle: Plain::line(&format!("{all} copies of {}", counted(plan.demands.len(), "garment"))),
        notes: vec![
            Plain::line(
                "What is needed is the most that are out of hand at once, in use, being cleaned or dried, or gone, with spares \
                 for what is destroyed and never fewer than is usual for a principal (common practice, no source). Pieces are \
                 told apart by look.",
            ),
            Plain::line(
                "On the days: use, away (being cleaned, dried or mended), gone; nothing where it hangs ready.",
            ),
        ],
        gaps,
        cautions: cautions::asks(&raised),
        tables: vec![copies, calendar(board, &plan)],
        ..Document::default()
    }
}

fn columns() -> Vec<Column> {
    vec![
        Column::new("look", "Look", Kind::Text).above(),
        Column::new("piece", "Piece", Kind::Text),
        Column::new("version", "Version", Kind::Text),
        Column::new("wearer", "For", Kind::Text),
        Column::new("copies", "Copies", Kind::Number),
        Column::new("planned", "Planned", Kind::Number),
        Column::new("short", "Short", Kind::Number),
        Column::new("why", "Why so many", Kind::List),
    ]
}

/// Where each copy is, of garments that something is done to.
fn calendar(board: &Board, plan: &Plan) -> Table {
    let schedule = &board.records().schedule;
    let days = schedule.iter().enumerate().map(|(at, day)| (at, format!("day-{}", day.day), day.day));
    let mut columns = vec![
        Column::new("look", "Look", Kind::Text).above(),
        Column::new("garment", "Piece, version, for", Kind::Text).above(),
        Column::new("copy", "Copy", Kind::Number),
    ];
    for (at, key, number) in days {
        // Two days of one number would be two columns of one name.
        let known = columns.iter().filter(|column| column.key == key).count();
        let key = if known == 0 { key } else { format!("{key}-{at}") };
        columns.push(Column::new(key, &number.to_string(), Kind::Text));
    }
    let mut table = Table::titled("days", "Where each copy is", columns);
    let touched = |demand: &&Demand| demand.worn.iter().any(|worn| worn.does != Effect::Nothing);
    let mut is_cut = false;
    for demand in plan.demands.iter().filter(touched) {
        let garment = &demand.garment;
        let calendar = demand.calendar(&plan.days, demand.copies());
        is_cut |= calendar.len() < demand.copies() as usize;
        let name = format!("{}, {}, {}", garment.piece, garment.version, board.who_is(&garment.wearer));
        for (copy, where_it_is) in (1..).zip(calendar) {
            let lead = vec![
                Cell::text(&super::whose(board, &demand.garment.look)),
                Cell::text(&name),
                Cell::Number(copy),
            ];
            let days = where_it_is.iter().map(|is| is.map_or(Cell::Empty, |is| Cell::text(word(is))));
            table.push(lead.into_iter().chain(days).collect());
        }
    }
    let first = if is_cut { " Of garments with very many copies the first are told." } else { "" };
    table.read_so(&format!(
        "Only of garments that something is done to; the columns are the shooting days.{first}"
    ))
}

/// Where a copy is, in a word.
fn word(is: Whereabouts) -> &'static str {
    match is {
        Whereabouts::Used => "use",
        Whereabouts::Away => "away",
        Whereabouts::Gone => "gone",
    }
}

#[cfg(test)]
mod tests {
    use super::super::made;
    use super::*;
    use crate::report::formats::{Markdown, Text};

    #[test]
    fn how_many_copies_and_why_and_where_each_is_on_each_day() {
        insta::assert_snapshot!(Markdown.write(&document(&made::board())));
    }
}
