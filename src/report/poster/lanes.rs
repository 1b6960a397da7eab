//! The looks over the years: a bar each over the days that it stands for, with its number and name on it or beside it,
//! in as few rows as they need.

use super::letters::Weight;
use super::sheet::{LEAST, MARGIN, Sheet};
use super::write::{Anchor, Hand, line, rect, text};
use crate::board::garment::swatches;
use crate::board::{Look, LookId};
use crate::trade::colour::Colour;
use crate::trade::date::Day;

/// The print of a lane for the height of the sheet, and from one lane to the next for the print.
const PRINT: f64 = 0.0062;
const ROW: f64 = 1.55;
/// Of the sheet, for the lanes at most.
const MOST: f64 = 0.45;
/// Below the lanes, for the years.
const RULER: f64 = 7.0;
/// The shortest bar, and the air before and behind a name.
const SHORTEST: f64 = 2.0;
const AIR: f64 = 1.0;

/// Where a name stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Named {
    On,
    Before,
    Behind,
}

/// A look's lane; places are from the margin.
struct Lane<'a> {
    id: &'a LookId,
    look: &'a Look,
    says: String,
    left: f64,
    right: f64,
    named: Named,
    row: usize,
}

pub(super) struct Lanes<'a> {
    lanes: Vec<Lane<'a>>,
    rows: usize,
    print: f64,
    row: f64,
    /// The first and the last day, as counts of days.
    years: Option<(f64, f64)>,
}

impl<'a> Lanes<'a> {
    pub fn of(sheet: &Sheet<'a>) -> Self {
        let years = years(sheet);
        let print = (sheet.high * PRINT).max(LEAST * 1.15);
        let mut lanes = years.map_or_else(Vec::new, |years| lanes(sheet, years, print));
        let rows = rows(sheet, &mut lanes, print);
        let row = (print * ROW).min(sheet.high * MOST / rows.max(1) as f64);
        Self { lanes, rows, print: print.min(row / 1.1), row, years }
    }

    /// How high they are with the years beneath.
    pub fn high(&self) -> f64 {
        if self.years.is_none() { 0.0 } else { self.rows as f64 * self.row + RULER }
    }

    /// Draws them so that they end at `bottom`.
    pub fn draw(&self, sheet: &Sheet<'_>, to: &mut String, bottom: f64) {
        let Some((first, last)) = self.years else { return };
        let top = bottom - self.high();
        let (foot, room) = (bottom - RULER, sheet.wide - 2.0 * MARGIN);
        let (from, until) = (Day::from_number(first as i64).year(), Day::from_number(last as i64).year());
        for year in (from..=until).filter(|year| year % 5 == 0) {
            let Some(day) = Day::from_ymd(year, 1, 1) else { continue };
            let x = MARGIN + room * (day.number() as f64 - first) / (last - first).max(1.0);
            if x < MARGIN {
                continue;
            }
            line(to, x, top, &format!("V{}", super::write::short(foot + 1.0)), "#aaa", 0.15);
            text(to, x, foot + 4.6, Hand::of(3.4).at(Anchor::Middle), &year.to_string());
        }
        for lane in &self.lanes {
            let y = top + lane.row as f64 * self.row;
            let colour = colour_of(sheet, lane.look);
            let fill = colour.map_or_else(|| "#ddd".to_owned(), Colour::hex);
            let (left, right) = (MARGIN + lane.left, MARGIN + lane.right);
            rect(to, [left, y + self.row * 0.06, right - left, self.row * 0.88], &fill, 0.2);
            let hand = Hand::of(self.print);
            let (x, hand) = match lane.named {
                Named::On if colour.is_some_and(|colour| !colour.is_light()) => {
                    (left + AIR, hand.coloured("#fff"))
                }
                Named::On => (left + AIR, hand),
                Named::Before => (left - AIR, hand.at(Anchor::End)),
                Named::Behind => (right + AIR, hand),
            };
            text(to, x, y + self.row / 2.0 + self.print * 0.34, hand, &lane.says);
        }
    }
}

/// The first and the last day that anything is of.
fn years(sheet: &Sheet<'_>) -> Option<(f64, f64)> {
    let spans = sheet.looks.iter().filter_map(|(id, look)| days_of(sheet, id, look));
    let worn = sheet.columns.iter().flat_map(|column| &column.cards).filter_map(|one| {
        let worn = one.outfit.worn.as_ref()?;
        Some((worn.earliest()?.number() as f64, worn.latest()?.number() as f64))
    });
    let all: Vec<(f64, f64)> = spans.chain(worn).collect();
    let first = all.iter().map(|(first, _)| *first).reduce(f64::min)?;
    let last = all.iter().map(|(_, last)| *last).reduce(f64::max)?;
    Some((first, last))
}

/// The days that a look stands for: those of its outfits, else of its period.
fn days_of(sheet: &Sheet<'_>, id: &LookId, look: &Look) -> Option<(f64, f64)> {
    let board = sheet.board;
    let worn = look.outfits().filter_map(|outfit| board.outfit(outfit)?.worn.as_ref());
    let ends = |ends: [Option<Day>; 2]| ends.into_iter().flatten().map(|day| day.number() as f64);
    let mut days: Vec<f64> = worn.flat_map(|date| ends([date.earliest(), date.latest()])).collect();
    if days.is_empty() {
        let span = &board.period(board.relations().period_of_look(id)?)?.span;
        days.extend(ends([span.earliest(), span.latest()]));
    }
    Some((days.iter().copied().reduce(f64::min)?, days.iter().copied().reduce(f64::max)?))
}

/// The lanes by where they begin, without rows.
fn lanes<'a>(sheet: &Sheet<'a>, (first, last): (f64, f64), print: f64) -> Vec<Lane<'a>> {
    let room = sheet.wide - 2.0 * MARGIN;
    let scale = room / (last - first).max(1.0);
    let lane = |(number, &(id, look)): (usize, &(&'a LookId, &'a Look))| {
        let (from, to) = days_of(sheet, id, look)?;
        let name = sheet.board.name_of(&look.character);
        let says = format!("{} {} {} · {name}", number, look.treatment.mark(), look.title);
        let left = ((from - first) * scale).min(room - SHORTEST);
        let right = ((to - first) * scale).max(left + SHORTEST);
        let wide = sheet.letters.wide(Weight::Regular, &says) * print + 2.0 * AIR;
        let named = if wide <= right - left {
            Named::On
        } else if right + wide > room && wide < left {
            Named::Before
        } else {
            Named::Behind
        };
        Some(Lane { id, look, says, left, right, named, row: 0 })
    };
    let mut lanes: Vec<Lane<'a>> = (1..).zip(&sheet.looks).filter_map(lane).collect();
    lanes.sort_by(|one, other| one.left.total_cmp(&other.left).then_with(|| one.id.cmp(other.id)));
    lanes
}

/// Puts each lane into the first row where it and its name have room, and counts the rows.
fn rows(sheet: &Sheet<'_>, lanes: &mut [Lane<'_>], print: f64) -> usize {
    let mut taken: Vec<Vec<(f64, f64)>> = Vec::new();
    for lane in lanes {
        let wide = sheet.letters.wide(Weight::Regular, &lane.says) * print + 2.0 * AIR;
        let (left, right) = match lane.named {
            Named::On => (lane.left, lane.right),
            Named::Before => (lane.left - wide, lane.right),
            Named::Behind => (lane.left, lane.right + wide),
        };
        let free =
            |row: &Vec<(f64, f64)>| row.iter().all(|(from, to)| right + AIR <= *from || *to + AIR <= left);
        lane.row = taken.iter().position(free).unwrap_or(taken.len());
        match taken.get_mut(lane.row) {
            Some(row) => row.push((left, right)),
            None => taken.push(vec![(left, right)]),
        }
    }
    taken.len()
}

/// The main colour of a look, by which its lane is known beside its number and name.
fn colour_of<'a>(sheet: &Sheet<'a>, look: &'a Look) -> Option<&'a Colour> {
    let base = look.base.as_ref().and_then(|base| sheet.board.outfit(base));
    swatches(&look.pieces).0.or_else(|| base.and_then(|base| swatches(&base.pieces).0))
}
