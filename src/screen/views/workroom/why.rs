//! What a number in focus is made of, to be read.

use super::seen::Seen;
use super::{Tab, act, copies, measures};
use crate::board::{BodyId, Found};
use crate::screen::app::App;
use crate::screen::layers::Page;
use crate::screen::layers::page::Line;
use crate::trade::length::Unit;
use crate::workroom::copies::plan::{Demand, Garment};
use crate::workroom::fit::{Row, version_of, wearer_of};
use crate::workroom::words;

/// Opens what is in focus.
pub fn show(app: &mut App) {
    let Some(seen) = act::seen(app) else { return };
    let (title, lines) = match app.workroom.tab {
        Tab::Measures => {
            let at = app.workroom.cursors[Tab::Measures.place()].at;
            let Some(garment) = &seen.garment else { return app.say("the look has no piece yet") };
            let rows = measures::rows(&seen, garment);
            let Some(row) = rows.get(at.min(rows.len().saturating_sub(1))) else {
                return app.say("the piece has no measures yet: a adds the first");
            };
            (format!("{} of the {}", row.measure.name, garment.piece), measure(&seen, garment, row))
        }
        Tab::Copies => {
            let demands = copies::demands(&seen);
            let Some(demand) = copies::place(&seen, &demands).and_then(|at| demands.get(at)) else {
                return app.say("no scene needs copies of it");
            };
            let garment = &demand.garment;
            let who = seen.board.who_is(&garment.wearer);
            (format!("Copies: {}, {}, {who}", garment.piece, garment.version), uses(&seen, demand))
        }
        Tab::Cloth | Tab::Cost | Tab::Cautions => {
            return app.say("all of it stands on the page: pgdn reads on");
        }
    };
    app.open_layer(Page::new(title, lines));
}

fn pair(word: &str, words: impl Into<String>) -> Line {
    Line::Pair(word.to_owned(), words.into())
}

fn measure(seen: &Seen<'_>, garment: &Garment, row: &Row<'_>) -> Vec<Line> {
    let mut about = measures::about(seen, garment, row).into_iter();
    let mut lines = vec![Line::Heading(about.next().unwrap_or_default())];
    if let Some(of) = row.measure.rule.of() {
        lines.push(pair(of.words(), of.definition()));
    }
    lines.push(pair(row.measure.rule.word(), rule_words(row.measure.rule.word())));
    lines.extend(
        row.added
            .iter()
            .map(|(by, length)| pair(garment.version.as_str(), words::added(*by, *length, seen.unit))),
    );
    lines.extend(row.result().map(|length| pair("cut", length.shown(seen.unit))));
    lines.extend(about.map(|doubt| pair("!", doubt)));
    lines.extend(fittings(seen, garment, &row.measure.name));
    lines.extend(version(seen, garment));
    lines
}

/// What a rule does, in a sentence.
fn rule_words(rule: &str) -> &'static str {
    match rule {
        "ease" => "the wearer's measure, and the ease that the original had on its own body",
        "ratio" => "the original's measure, in proportion to the two bodies",
        "landmark" => "the edge keeps the part of the body at which it falls, and the angle at which it lies",
        _ => "as it was on the original, whoever wears it",
    }
}

/// What fittings found of a measure, in order.
fn fittings(seen: &Seen<'_>, garment: &Garment, measure: &str) -> Vec<Line> {
    let own: BodyId = wearer_of(seen.board, seen.look);
    let mut lines = Vec::new();
    for fitting in &seen.look.fittings {
        if *fitting.wearer.as_ref().unwrap_or(&own) != garment.wearer {
            continue;
        }
        let of = |found: &&Found| found.piece == garment.piece && found.measure == measure;
        for found in fitting.found.iter().filter(of) {
            lines.push(pair(&format!("fitted {}", fitting.on.short()), found_words(found, seen.unit)));
        }
    }
    lines
}

fn found_words(found: &Found, unit: Unit) -> String {
    let mut all = Vec::new();
    all.extend(found.measured.map(|size| format!("measured {}", size.length().shown(unit))));
    all.extend(found.pinned.map(|length| {
        let word = if length.is_negative() { "pinned out" } else { "let in" };
        format!("{word} {}", length.shown(unit).trim_start_matches('-'))
    }));
    all.extend(found.decided.map(|size| format!("decided {}", size.length().shown(unit))));
    all.join(", ")
}

/// What is hidden in a version, and what an eye could see of it.
fn version(seen: &Seen<'_>, garment: &Garment) -> Vec<Line> {
    let make = seen.look.make.get(&garment.piece);
    let Some(version) = make.and_then(|make| version_of(make, &garment.version)) else { return Vec::new() };
    let mut lines: Vec<Line> = version.rigs.iter().map(|rig| pair("rig", rig)).collect();
    lines.extend(version.differs.iter().map(|differs| pair("differs", differs)));
    lines.extend((!version.notes.is_empty()).then(|| pair("notes", &version.notes)));
    lines
}

fn uses(seen: &Seen<'_>, demand: &Demand) -> Vec<Line> {
    let (board, practice) = (seen.board, &seen.reckoned.practice);
    let mut lines = vec![Line::Heading(format!("{} in all", demand.copies()))];
    let reasons = demand.reasons();
    lines
        .extend(reasons.iter().map(|reason| pair("because", words::reason(board, practice, demand, reason))));
    let planned = demand.planned.map_or("not said".to_owned(), |planned| planned.to_string());
    lines.push(pair("planned", planned));
    lines.extend(version(seen, &demand.garment));
    lines.push(Line::Heading("Every use".to_owned()));
    let worn = demand.worn.iter().chain(&demand.unplaced);
    lines.extend(worn.map(|worn| pair("", words::use_of(board, practice, worn))));
    lines
}
