//! The cloths of a look: how much is taken, bought and paid, by when to order, what was tried, and how near the colour is.

use super::lines::{Line, Lines, Span, Tone, folded};
use super::seen::Seen;
use crate::board::{Cloth, ClothId, Trial};
use crate::screen::reckoning::Bought;
use crate::trade::date::{Date, Day};
use crate::workroom::cloth::buy::{Part, without_cloth};
use crate::workroom::cloth::colour::{CAUTION, Nearness};
use crate::workroom::cloth::lay::Amount;
use crate::workroom::cloth::print::PrintFile;
use crate::workroom::cloth::trials;
use crate::workroom::words;

/// The cloths that the look takes, in the order of its pieces.
pub fn cloths(seen: &Seen<'_>) -> Vec<ClothId> {
    let mut all: Vec<ClothId> = Vec::new();
    for (_, make) in seen.look.make.iter() {
        let more = make.versions.iter().flat_map(|version| version.more_cloth.keys());
        for id in make.cuts.iter().map(|cut| &cut.cloth).chain(more) {
            if !all.contains(id) {
                all.push(id.clone());
            }
        }
    }
    all
}

/// The page.
pub fn page(seen: &Seen<'_>, wide: u16) -> Lines {
    let mut lines = Lines::default();
    if seen.garment.is_none() {
        return super::empty::no_pieces(wide);
    }
    for (place, id) in cloths(seen).iter().enumerate() {
        let Some(cloth) = seen.board.cloth(id) else { continue };
        if place > 0 {
            lines.body.push(Line::default());
        }
        let mut about = vec![title(cloth)];
        about.extend(folded(&described(cloth), wide, 4, &Tone::Quiet));
        if let Some(bought) = seen.reckoned.bought.get(id) {
            about.extend(buying(seen, cloth, bought, wide));
        }
        about.extend(tried(cloth, wide));
        about.extend(coloured(cloth, wide));
        about.extend(printed(cloth, wide));
        lines.body.extend(about.into_iter().map(|line| line.at(place)));
    }
    let without: Vec<&str> = without_cloth(seen.look).map(String::as_str).collect();
    if !without.is_empty() {
        if !lines.body.is_empty() {
            lines.body.push(Line::default());
        }
        let says = format!("No cloth is said of: {}.", without.join(", "));
        lines.body.extend(folded(&says, wide, 0, &Tone::Wrong));
        let then = "What a piece takes of a cloth is written in the look's file: E opens it. A cloth is a file of its own in \
                    `cloths`.";
        lines.body.extend(folded(then, wide, 0, &Tone::Quiet));
    }
    lines
}

fn title(cloth: &Cloth) -> Line {
    let mut spans = vec![Span::swatch(cloth.colour.as_ref()), Span::swatch(cloth.source_colour.as_ref())];
    spans.push(Span::new(format!(" {}", cloth.title), Tone::Strong));
    Line::of(spans)
}

/// What it is, as far as it is told.
fn described(cloth: &Cloth) -> String {
    let mut all: Vec<String> = cloth.fibres.iter().map(ToString::to_string).collect();
    all.extend([&cloth.weave, &cloth.finish].into_iter().filter(|text| !text.is_empty()).cloned());
    all.extend(cloth.weight.map(|weight| weight.to_string()));
    all.extend(cloth.width.map(|width| format!("{} wide", width.length().in_metres())));
    if cloth.nap {
        all.push("with a nap".to_owned());
    }
    all.extend((!cloth.supplier.is_empty()).then(|| format!("from {}", cloth.supplier)));
    all.join(" · ")
}

fn buying(seen: &Seen<'_>, cloth: &Cloth, bought: &Bought, wide: u16) -> Vec<Line> {
    let mut lines = Vec::new();
    for (_, piece, wrong) in bought.wrong.iter().filter(|(look, ..)| look == seen.id) {
        lines.extend(folded(&format!("{piece}: {wrong}"), wide, 4, &Tone::Wrong));
    }
    for part in bought.parts.iter().filter(|part| part.garment.look == *seen.id) {
        lines.extend(folded(&taken(seen, part), wide, 4, &Tone::Plain));
    }
    let elsewhere = bought.parts.iter().filter(|part| part.garment.look != *seen.id).count();
    let strips = cloth
        .test_strips
        .map_or(String::new(), |strips| format!(", {} of them for test strips", strips.length().in_metres()));
    let others = if elsewhere > 0 { " with other looks" } else { "" };
    let stock = cloth.stock.map_or(String::new(), |stock| format!("; {} in the house", stock.in_metres()));
    let all = match bought.skins {
        0 => format!(
            "in all{others} {}{strips}{stock}: buy {}",
            bought.taken.in_metres(),
            bought.to_buy.in_metres()
        ),
        skins => format!("in all{others} {}: buy them", words::amount(Amount::Skins(skins))),
    };
    let money = match (cloth.price, bought.price) {
        (Some(each), Some(price)) => {
            format!(" at {}, {}{}", each.shown(), price.shown(), seen.currency())
        }
        _ => String::new(),
    };
    lines.extend(folded(&format!("{all}{money}"), wide, 4, &Tone::Plain));
    if cloth.price.is_none() {
        lines.extend(folded("it has no price yet", wide, 4, &Tone::Wrong));
    }
    if let (Some(order), Some(needed)) = (bought.order_by, bought.needed) {
        let says = format!("order by {}; it is first worn {}", day(order), day(needed));
        lines.extend(folded(&says, wide, 4, &Tone::Plain));
    }
    lines
}

/// `costume, wet, Tamsin Orrell: 4 × 1.80 m + 1 toile = 9.00 m`.
fn taken(seen: &Seen<'_>, part: &Part) -> String {
    let garment = &part.garment;
    let toiles = match part.toiles {
        0 => String::new(),
        1 => " + 1 toile".to_owned(),
        toiles => format!(" + {toiles} toiles"),
    };
    let all = format!(" = {}", words::amount(part.all()));
    format!(
        "{}, {}, {}: {} × {}{toiles}{all}",
        garment.piece,
        garment.version,
        seen.board.who_is(&garment.wearer),
        part.copies,
        words::amount(part.each)
    )
}

fn day(day: Day) -> String {
    Date::on(day).map_or_else(|| day.to_string(), |date| date.short())
}

fn tried(cloth: &Cloth, wide: u16) -> Vec<Line> {
    if cloth.trials.is_empty() {
        return folded("no trials yet: t notes one", wide, 4, &Tone::Quiet);
    }
    let mut lines: Vec<Line> =
        cloth.trials.iter().flat_map(|trial| folded(&said(trial), wide, 4, &Tone::Plain)).collect();
    let next = trials::next(&cloth.trials);
    let is_open = !matches!(next, trials::Next::Right(_));
    let tone = if is_open { Tone::Wrong } else { Tone::Well };
    lines.extend(folded(&format!("→ {}", words::next(next)), wide, 4, &tone));
    lines
}

fn said(trial: &Trial) -> String {
    let on = trial.on.as_ref().map_or(String::new(), |on| format!(", {}", on.short()));
    let notes = if trial.notes.is_empty() { String::new() } else { format!(": {}", trial.notes) };
    format!("trial {}{on}: {} is {}{notes}", trial.trial, trial.weight, trial.verdict.word())
}

fn coloured(cloth: &Cloth, wide: u16) -> Vec<Line> {
    let Some(nearness) = Nearness::of(cloth) else { return Vec::new() };
    let says = format!(
        "colour beside its source: {}, CIEDE2000 {:.1}. {CAUTION}",
        nearness.word(),
        nearness.difference
    );
    folded(&says, wide, 4, &Tone::Plain)
}

fn printed(cloth: &Cloth, wide: u16) -> Vec<Line> {
    let Some(file) = PrintFile::of(cloth) else { return Vec::new() };
    let megabytes = file.bytes().div_ceil(1_000_000);
    let says = format!("print file: {} × {} pixels, {megabytes} MB", file.across, file.along);
    folded(&says, wide, 4, &Tone::Plain)
}
