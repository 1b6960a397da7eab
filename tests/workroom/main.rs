//! The demo's three hardest looks, held to the page beside this file, on which they are worked through apart from the
//! program. The tables of the page are what the program is compared with, so that neither can change alone. And what the
//! demo lacks on purpose, and nothing else.

#![allow(clippy::unwrap_used, reason = "a page or a demo that does not read is a failed claim")]

use std::path::Path;

use shirr::board::{Board, Look, LookId};
use shirr::store;
use shirr::trade::length::Length;
use shirr::workroom::cloth::buy::{Part, purchases};
use shirr::workroom::cloth::lay::Amount;
use shirr::workroom::cloth::print::PrintFile;
use shirr::workroom::cloth::trials;
use shirr::workroom::copies::Back;
use shirr::workroom::copies::plan::{Demand, Plan};
use shirr::workroom::cost::{Costs, Kind};
use shirr::workroom::{fit, words};

mod page;
mod sums;

use page::Page;
use sums::sum;

struct Told {
    page: Page,
    board: Board,
    plan: Plan,
}

impl Told {
    fn read() -> Self {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let page = Page::read(&std::fs::read_to_string(root.join("tests/workroom/hardest.md")).unwrap());
        let board = store::read(&root.join("demo-board")).unwrap().board;
        Self { page, plan: Plan::of(&board), board }
    }

    fn looks(&self) -> Vec<(&str, LookId, &Look)> {
        let looks = self.page.looks();
        assert_eq!(looks.len(), 3, "{looks:?}");
        let look = |name| {
            let id: LookId = str::parse(name).unwrap();
            (name, id.clone(), self.board.look(&id).unwrap())
        };
        looks.into_iter().map(look).collect()
    }
}

/// The same rows, in whatever order.
fn assert_same<const N: usize>(look: &str, mut told: Vec<[String; N]>, mut reckoned: Vec<[String; N]>) {
    told.sort();
    reckoned.sort();
    let only = |one: &[[String; N]], other: &[[String; N]]| -> Vec<String> {
        one.iter().filter(|row| !other.contains(row)).map(|row| row.join(" | ")).collect()
    };
    assert_eq!(
        told,
        reckoned,
        "{look}: only on the page {:#?}, only from the program {:#?}",
        only(&told, &reckoned),
        only(&reckoned, &told)
    );
}

/// `76 cm` as the page writes it: `76.000`.
fn centimetres(length: Length) -> String {
    format!("{:.3}", length.millimetres() / 10.0)
}

fn garment(demand: &Demand) -> [String; 3] {
    let of = &demand.garment;
    [of.piece.clone(), of.version.to_string(), of.wearer.to_string()]
}

fn with<const N: usize, const M: usize>(garment: [String; 3], more: [String; N]) -> [String; M] {
    garment.into_iter().chain(more).collect::<Vec<_>>().try_into().unwrap()
}

#[test]
fn every_measure_is_the_one_on_the_page() {
    let told = Told::read();
    for (name, id, look) in told.looks() {
        let mut reckoned = Vec::new();
        for demand in told.plan.of_look(&id) {
            let of = &demand.garment;
            for row in fit::rows(&told.board, look, &of.piece, Some(&of.version), &of.wearer) {
                let (measure, rule) = (row.measure.name.clone(), row.measure.rule.word().to_owned());
                reckoned.push(with(garment(demand), [measure, rule, centimetres(row.result().unwrap())]));
            }
        }
        let columns = ["piece", "version", "wearer", "measure", "rule", "cm"];
        assert_same(name, told.page.rows(name, "Measures", columns), reckoned);
    }
}

#[test]
fn every_use_is_the_one_on_the_page_with_as_many_out_of_hand() {
    let told = Told::read();
    for (name, id, _) in told.looks() {
        let mut reckoned = Vec::new();
        for demand in told.plan.of_look(&id) {
            assert!(demand.unplaced.is_empty(), "{name}");
            for (worn, out) in demand.worn.iter().zip(&demand.need.out) {
                let day = told.board.records().schedule[worn.at.unwrap()].day;
                let actions: Vec<&str> = worn.actions.iter().map(|action| action.as_str()).collect();
                let does = if actions.is_empty() { "–".to_owned() } else { actions.join(", ") };
                let back = match worn.uses.back {
                    Back::After(days) => days.to_string(),
                    Back::Never => "never".to_owned(),
                };
                let takes = worn.uses.takes.to_string();
                let figures = [day.to_string(), worn.scene.to_string(), does, takes, back, out.to_string()];
                reckoned.push(with(garment(demand), figures));
            }
        }
        let columns = ["piece", "version", "wearer", "day", "scene", "does", "takes", "ready after", "out"];
        assert_same(name, told.page.rows(name, "Uses", columns), reckoned);
    }
}

#[test]
fn every_number_of_copies_is_the_one_on_the_page() {
    let told = Told::read();
    for (name, id, _) in told.looks() {
        let copies = |demand: &Demand| {
            let least = if demand.least > 0 { format!(", at least {}", demand.least) } else { String::new() };
            let planned = demand.planned.map_or_else(|| "–".to_owned(), |planned| planned.to_string());
            let why = format!("{} out at once{least}", demand.need.copies);
            with(garment(demand), [why, demand.copies().to_string(), planned])
        };
        let columns = ["piece", "version", "wearer", "why", "copies", "planned"];
        let reckoned = told.plan.of_look(&id).map(copies).collect();
        assert_same(name, told.page.rows(name, "Copies", columns), reckoned);
    }
}

#[test]
fn every_length_of_cloth_is_the_one_on_the_page() {
    let told = Told::read();
    let bought = purchases(&told.board, &told.plan);
    for (name, id, _) in told.looks() {
        let mut reckoned = Vec::new();
        for purchase in &bought {
            assert!(purchase.wrong.iter().all(|(look, ..)| *look != id), "{name}: {:?}", purchase.wrong);
            for part in purchase.parts.iter().filter(|part| part.garment.look == id) {
                let Part { garment, copies, toiles, each } = part;
                let each = match each {
                    Amount::Length(length) => format!("{:.5}", length.millimetres() / 1000.0),
                    Amount::Skins(1) => "1 skin".to_owned(),
                    Amount::Skins(skins) => format!("{skins} skins"),
                };
                let of = [garment.piece.clone(), garment.version.to_string(), garment.wearer.to_string()];
                let figures = [purchase.id.to_string(), each, copies.to_string(), toiles.to_string()];
                reckoned.push(with(of, figures));
            }
        }
        let columns = ["piece", "version", "wearer", "cloth", "each m", "copies", "toiles"];
        assert_same(name, told.page.rows(name, "Cloth", columns), reckoned);
    }
}

#[test]
fn every_cost_is_the_one_on_the_page_to_the_last_crown() {
    let told = Told::read();
    let costs = Costs::of(&told.board);
    for (name, id, _) in told.looks() {
        let cost = costs.look(&id).unwrap();
        assert!(cost.lacks.is_empty(), "{:?}", cost.lacks);
        let lines = cost.lines.iter().map(|line| {
            let [kind, sum] = [line.kind.word().to_owned(), line.sum.to_string()];
            [kind, line.piece.clone(), line.what.clone(), sum]
        });
        let columns = ["kind", "piece", "what", "crowns"];
        assert_same(name, told.page.rows(name, "Costs", columns), lines.collect());
        let mut sums: Vec<[String; 2]> =
            Kind::ALL.map(|kind| [kind.word().to_owned(), cost.of(kind).to_string()]).into();
        sums.push(["everything".to_owned(), cost.sum().to_string()]);
        assert_same(name, told.page.rows(name, "Costs", ["in all", "crowns"]), sums);
    }
}

#[test]
fn the_trials_of_the_hide_end_where_the_page_says() {
    let told = Told::read();
    let hide = told.board.cloth(&"split-hide".parse().unwrap()).unwrap();
    let reckoned = (1..=hide.trials.len()).map(|count| {
        let trial = &hide.trials[count - 1];
        let then = words::next(trials::next(&hide.trials[..count]));
        [trial.trial.to_string(), trial.weight.to_string(), trial.verdict.word().to_owned(), then]
    });
    let told = told.page.rows("od-dungarees", "Trials of split-hide", ["trial", "weight", "verdict", "then"]);
    assert_same("split-hide", told, reckoned.collect());
}

#[test]
fn the_print_has_as_many_pixels_as_the_page_says() {
    let told = Told::read();
    let file = PrintFile::of(told.board.cloth(&"workroom-cretonne".parse().unwrap()).unwrap()).unwrap();
    let reckoned = [
        ["pixels across".to_owned(), file.across.to_string()],
        ["pixels along".to_owned(), file.along.to_string()],
        ["bytes".to_owned(), file.bytes().to_string()],
    ];
    let told = told.page.rows("br-workroom-print", "Print of workroom-cretonne", ["what", "figure"]);
    assert_same("workroom-cretonne", told, reckoned.into());
}

#[test]
fn the_demo_is_short_of_the_crossing_costume_alone() {
    let Told { board, plan, .. } = Told::read();
    let is_told = |demand: &&Demand| {
        let make = board.look(&demand.garment.look).and_then(|look| look.make.get(&demand.garment.piece));
        make.is_some_and(|make| !make.versions.is_empty())
    };
    let wrong = plan.demands.iter().filter(is_told).filter(|demand| {
        !demand.is_there || demand.is_unused() || demand.planned.map(u32::from) != Some(demand.copies())
    });
    let wrong: Vec<String> =
        wrong.map(|demand| format!("{} {}", demand.garment.look, garment(demand).join(" "))).collect();
    assert_eq!(wrong, ["od-crossing-black bathing costume wet tamsin-orrell"]);
    assert!(plan.demands.iter().all(|demand| demand.is_there), "a scene asks for a version that is not made");
}

#[test]
fn nothing_is_lacking_to_reckon_the_demo() {
    let Told { board, plan, .. } = Told::read();
    for demand in &plan.demands {
        let of = &demand.garment;
        let look = board.look(&of.look).unwrap();
        let rows = fit::rows(&board, look, &of.piece, Some(&of.version), &of.wearer);
        assert!(rows.iter().all(|row| row.result().is_some()), "{} {}", of.look, garment(demand).join(" "));
    }
    let costs = Costs::of(&board);
    assert_eq!(costs.lacks(), 0);
    assert!(costs.left().is_some_and(|left| !left.is_negative()), "{:?}", costs.left());
}

/// The parts of a cell, each a sum with its result behind it where it is more than one figure.
fn parts(cell: &str) -> Vec<(&str, f64, f64)> {
    let part = |text: &'_ str| -> (usize, f64, f64) {
        let (left, right) = text.split_once(" = ").unwrap_or((text, text));
        (left.len(), sum(left), right.parse().unwrap())
    };
    let told = |text| {
        let (length, reckoned, written) = part(text);
        (&text[..length], reckoned, written)
    };
    cell.split("; ").map(|text| told(text.trim_start_matches("fitted ").trim_start_matches("and "))).collect()
}

#[test]
fn the_sums_on_the_page_come_to_what_stands_behind_them() {
    let page = Told::read().page;
    for look in page.looks() {
        for [cell, result] in page.rows(look, "Measures", ["arithmetic", "cm"]) {
            let parts = parts(&cell);
            for (text, reckoned, written) in &parts {
                assert!((reckoned - written).abs() <= 0.000_500_001, "{look}: {text} = {reckoned}");
            }
            // What a fitting decided takes the place of what was carried over.
            let skipped = usize::from(cell.contains("; fitted "));
            let cut: f64 = parts.iter().skip(skipped).map(|(_, _, written)| written).sum();
            assert!((cut - result.parse::<f64>().unwrap()).abs() < 1e-9, "{look}: {cell}");
        }
        for [cell, each] in page.rows(look, "Cloth", ["arithmetic", "each m"]) {
            let Ok(each) = each.parse::<f64>() else { continue };
            let parts = parts(&cell);
            for (text, reckoned, written) in &parts {
                assert!((-1e-9..0.001).contains(&(written - reckoned)), "{look}: {text} = {reckoned}");
            }
            let all: f64 = parts.iter().map(|(_, _, written)| written).sum();
            assert!((all / 100.0 - each).abs() < 1e-9, "{look}: {cell}");
        }
        for [cell, crowns] in page.rows(look, "Costs", ["arithmetic", "crowns"]) {
            let crowns: f64 = crowns.parse().unwrap();
            assert!((sum(&cell) - crowns).abs() <= 0.000_050_001, "{look}: {cell} = {}", sum(&cell));
        }
    }
}
