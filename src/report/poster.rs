//! The poster: the whole wall as one printable sheet, for a department to pin up. Outfits in date order by period, each
//! with its flat; beneath, a lane for every look over the years that it stands for; the counter in the corner.
//!
//! It is SVG in millimetres, without scripts and without anything from elsewhere; the same board gives the same bytes.

use std::fmt::Write;

use super::plain::Plain;
use crate::board::garment::swatches;
use crate::board::{Board, Look, LookId, Outfit, OutfitId, PeriodId, Scope, Standing};
use crate::picture::flat::{DRAWN, Flat};
use crate::plot;
use crate::trade::colour::Colour;
use crate::trade::date::Day;

/// What the sheet is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 420 × 297 mm.
    A3,
    /// 594 × 420 mm.
    A2,
    /// 594 mm high, and as long as it takes.
    Roll,
}

/// Round the sheet, in millimetres, as are all that follow.
const MARGIN: f64 = 10.0;
const TITLE: f64 = 15.0;
const HEADS: f64 = 15.0;
const FOOT: f64 = 6.0;
const RULER: f64 = 8.0;
/// Of what is left, for the outfits; the lanes have the rest.
const UPPER: f64 = 0.6;
/// How high a card is for its width.
const TALL: f64 = 1.62;
/// Between two periods.
const GAP: f64 = 4.0;
/// The widest card, and the one on a roll.
const WIDEST: f64 = 42.0;
const ON_A_ROLL: f64 = 26.0;
const NARROWEST: f64 = 5.0;
/// The highest lane.
const LANE: f64 = 6.0;
/// How wide a letter is for its height, about.
const LETTER: f64 = 0.52;

/// The sheet as SVG.
pub fn svg(board: &Board, paper: Paper) -> String {
    Sheet::of(board, paper).drawn()
}

/// The sheet as a page that prints on its paper.
pub fn page(board: &Board, paper: Paper) -> String {
    let sheet = Sheet::of(board, paper);
    let title = escaped(&board.head().title);
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta http-equiv=\"Content-Security-Policy\" \
         content=\"default-src 'none'; style-src 'unsafe-inline'\"><title>{title}: poster</title><style>@page {{ size: \
         {0}mm {1}mm; margin: 0; }} body {{ margin: 0; }} svg {{ display: block; }}</style></head><body>{2}</body></html>\n",
        short(sheet.wide),
        short(sheet.high),
        sheet.drawn()
    )
}

/// The outfits of one period, in date order, and where they stand.
struct Column<'a> {
    period: Option<&'a PeriodId>,
    outfits: Vec<(&'a OutfitId, &'a Outfit)>,
    cards_across: usize,
    left: f64,
    wide: f64,
}

/// A look's lane.
struct Lane<'a> {
    number: usize,
    id: &'a LookId,
    look: &'a Look,
    from: f64,
    to: f64,
    row: usize,
    /// Whether its name stands before it, since behind it the sheet ends.
    named_before: bool,
}

struct Sheet<'a> {
    board: &'a Board,
    wide: f64,
    high: f64,
    card: f64,
    columns: Vec<Column<'a>>,
    looks: Vec<(&'a LookId, &'a Look)>,
}

impl<'a> Sheet<'a> {
    fn of(board: &'a Board, paper: Paper) -> Self {
        let (wide, high) = match paper {
            Paper::A3 => (420.0, 297.0),
            Paper::A2 => (594.0, 420.0),
            Paper::Roll => (0.0, 594.0),
        };
        let mut columns = columns(board);
        let gaps = GAP * columns.len().saturating_sub(1) as f64;
        let upper = (high - 2.0 * MARGIN - TITLE - HEADS - FOOT - RULER) * UPPER;
        let across = |card: f64| -> Vec<usize> {
            let down = ((upper / (card * TALL)) as usize).max(1);
            columns.iter().map(|column| column.outfits.len().div_ceil(down).max(1)).collect()
        };
        let needs = |card: f64| across(card).iter().sum::<usize>() as f64 * card + gaps;
        let (card, wide) = if paper == Paper::Roll {
            (ON_A_ROLL, (needs(ON_A_ROLL) + 2.0 * MARGIN).max(high))
        } else {
            let steps = ((WIDEST - NARROWEST) * 4.0) as usize;
            let sizes = (0..=steps).map(|step| WIDEST - step as f64 / 4.0);
            (sizes.into_iter().find(|card| needs(*card) <= wide - 2.0 * MARGIN).unwrap_or(NARROWEST), wide)
        };
        let spare = ((wide - 2.0 * MARGIN - needs(card)) / columns.len().max(1) as f64).max(0.0);
        let mut left = MARGIN;
        let across = across(card);
        for (column, cards_across) in columns.iter_mut().zip(across) {
            column.cards_across = cards_across;
            column.left = left;
            column.wide = cards_across as f64 * card + spare;
            left += column.wide + GAP;
        }
        let looks = board.relations().looks_by_order().iter().filter_map(|id| Some((id, board.look(id)?)));
        let looks = looks.collect();
        Self { board, wide, high, card, columns, looks }
    }

    fn drawn(&self) -> String {
        let mut to = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\" \
             font-family=\"Georgia, 'Times New Roman', serif\"><rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>",
            short(self.wide),
            short(self.high)
        );
        self.title(&mut to);
        for column in &self.columns {
            self.head(&mut to, column);
            for (at, (id, outfit)) in column.outfits.iter().enumerate() {
                let x = column.left + (at % column.cards_across) as f64 * self.card;
                let y = MARGIN + TITLE + HEADS + (at / column.cards_across) as f64 * self.card * TALL;
                self.outfit(&mut to, id, outfit, x, y);
            }
        }
        self.lanes(&mut to);
        let says = format!(
            "Flats are {DRAWN}: they are no evidence. → 8: folded into look 8 of the lanes. = copies, ≈ interprets, * invented."
        );
        text(&mut to, MARGIN, self.high - MARGIN, 3.0, "#444", "start", &says);
        to.push_str("</svg>");
        to
    }

    fn title(&self, to: &mut String) {
        let head = self.board.head();
        text(to, MARGIN, MARGIN + 9.0, 9.5, "#111", "start", &head.title);
        let count = self.board.count(&Scope::Overall);
        let says = match count.limit {
            Some(limit) => format!("{} looks of {limit}: {}", count.used, count.words()),
            None => format!("{} looks", count.used),
        };
        text(to, self.wide - MARGIN, MARGIN + 7.0, 6.5, "#111", "end", &says);
        let outfits = format!("{} outfits", self.board.records().outfits.len());
        text(to, self.wide - MARGIN, MARGIN + 12.5, 4.0, "#444", "end", &outfits);
    }

    fn head(&self, to: &mut String, column: &Column<'_>) {
        let y = MARGIN + TITLE;
        let period = column.period.and_then(|id| self.board.period(id));
        let title = period.map_or("In no period", |period| &period.title);
        let _ = write!(
            to,
            "<path d=\"M{} {}h{}\" stroke=\"#111\" stroke-width=\"0.6\"/>",
            short(column.left),
            short(y + HEADS - 3.0),
            short(column.wide)
        );
        fitted(to, column.left, y + 4.0, 5.0, column.wide, title);
        let scope = column.period.map(|id| self.board.count(&Scope::Period(id.clone())));
        let looks = scope.map_or(String::new(), |count| match count.limit {
            Some(limit) => format!(" → {} of {limit} looks", count.used),
            None => format!(" → {} looks", count.used),
        });
        let span = period.map_or(String::new(), |period| format!("{} · ", period.span.short()));
        let minutes = plot::of_period(self.board, column.period).clock();
        let line = format!("{span}{} outfits{looks} · {minutes} min.", column.outfits.len());
        fitted(to, column.left, y + 9.0, 3.2, column.wide, &line);
    }

    fn outfit(&self, to: &mut String, id: &OutfitId, outfit: &Outfit, x: f64, y: f64) {
        let card = self.card;
        let picture = card * 1.12;
        match Flat::of_outfit(outfit) {
            Some(flat) => placed(to, &flat.svg(), x + card * 0.08, y, card * 0.84, picture),
            None => {
                let (main, second) = swatches(&outfit.pieces);
                for (at, colour) in [main, second].into_iter().flatten().enumerate() {
                    let _ = write!(
                        to,
                        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\" stroke=\"#111\" \
                         stroke-width=\"0.2\"/>",
                        short(x + card * (0.2 + 0.3 * at as f64)),
                        short(y + picture * 0.35),
                        short(card * 0.3),
                        short(card * 0.3),
                        colour.hex()
                    );
                }
            }
        }
        let size = card * 0.1;
        let worn = outfit.worn.as_ref().map_or_else(|| "undated".to_owned(), |worn| worn.short());
        let standing = match self.board.standing(id) {
            Standing::Folded(look) => {
                self.number(look).map_or(String::new(), |number| format!(" → {number}"))
            }
            Standing::LetGo(_) => " · let go".to_owned(),
            Standing::Open => " · open".to_owned(),
        };
        let middle = x + card / 2.0;
        text(to, middle, y + picture + size * 1.1, size, "#111", "middle", &format!("{worn}{standing}"));
        let letters = (card * 0.96 / (size * 0.92 * LETTER)) as usize;
        for (line, said) in (0_u8..).zip(lines(&outfit.title, letters, 2)) {
            let down = y + picture + size * (2.2 + 1.0 * f64::from(line));
            text(to, middle, down, size * 0.92, "#333", "middle", &said);
        }
    }

    /// The number of a look in the lanes.
    fn number(&self, look: &LookId) -> Option<usize> {
        self.looks.iter().position(|(id, _)| *id == look).map(|at| at + 1)
    }

    fn lanes(&self, to: &mut String) {
        let Some((first, last)) = self.years() else { return };
        let top =
            MARGIN + TITLE + HEADS + (self.high - 2.0 * MARGIN - TITLE - HEADS - FOOT - RULER) * UPPER + 2.0;
        let bottom = self.high - MARGIN - FOOT - RULER;
        let room = self.wide - 2.0 * MARGIN;
        let at = |day: f64| MARGIN + room * (day - first) / (last - first).max(1.0);
        let lanes = self.placed_lanes(first, last);
        let rows = lanes.iter().map(|lane| lane.row + 1).max().unwrap_or(1);
        let high = ((bottom - top) / rows as f64).min(LANE);
        for lane in &lanes {
            let y = top + lane.row as f64 * high;
            let (left, right) = (at(lane.from), at(lane.to).max(at(lane.from) + 2.0));
            let colour = self.colour_of(lane.look);
            let _ = write!(
                to,
                "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" rx=\"0.6\" fill=\"{colour}\" stroke=\"#111\" \
                 stroke-width=\"0.25\"/>",
                short(left),
                short(y + high * 0.15),
                short(right - left),
                short(high * 0.7)
            );
            let name = self.board.name_of(&lane.look.character);
            let says = format!("{} {} {} · {name}", lane.number, lane.look.treatment.mark(), lane.look.title);
            let (x, anchor) = if lane.named_before { (left - 1.0, "end") } else { (right + 1.0, "start") };
            text(to, x, y + high * 0.68, high * 0.56, "#111", anchor, &says);
        }
        let (from, until) = (Day::from_number(first as i64).year(), Day::from_number(last as i64).year());
        for year in (from..=until).filter(|year| year % 5 == 0) {
            let Some(day) = Day::from_ymd(year, 1, 1) else { continue };
            let x = at(day.number() as f64);
            let _ = write!(
                to,
                "<path d=\"M{} {}V{}\" stroke=\"#999\" stroke-width=\"0.15\"/>",
                short(x),
                short(top),
                short(bottom)
            );
            text(to, x, bottom + 4.0, 3.4, "#111", "middle", &year.to_string());
        }
    }

    /// The first and the last day that anything is of, as counts of days.
    fn years(&self) -> Option<(f64, f64)> {
        let spans = self.looks.iter().filter_map(|(id, look)| self.days_of(id, look));
        let worn = self.columns.iter().flat_map(|column| &column.outfits).filter_map(|(_, outfit)| {
            let worn = outfit.worn.as_ref()?;
            Some((worn.earliest()?.number() as f64, worn.latest()?.number() as f64))
        });
        let all: Vec<(f64, f64)> = spans.chain(worn).collect();
        let first = all.iter().map(|(first, _)| *first).reduce(f64::min)?;
        let last = all.iter().map(|(_, last)| *last).reduce(f64::max)?;
        Some((first, last))
    }

    /// The days that a look stands for: those of its outfits, else of its period.
    fn days_of(&self, id: &LookId, look: &Look) -> Option<(f64, f64)> {
        let worn = look.outfits().filter_map(|outfit| self.board.outfit(outfit)?.worn.as_ref());
        let mut days: Vec<f64> = Vec::new();
        for date in worn {
            days.extend(
                [date.earliest(), date.latest()].into_iter().flatten().map(|day| day.number() as f64),
            );
        }
        if days.is_empty() {
            let span = &self.board.period(self.board.relations().period_of_look(id)?)?.span;
            days.extend(
                [span.earliest(), span.latest()].into_iter().flatten().map(|day| day.number() as f64),
            );
        }
        Some((days.iter().copied().reduce(f64::min)?, days.iter().copied().reduce(f64::max)?))
    }

    /// The lanes, each in the first row where it and its name have room.
    fn placed_lanes(&self, first: f64, last: f64) -> Vec<Lane<'a>> {
        let room = self.wide - 2.0 * MARGIN;
        let scale = room / (last - first).max(1.0);
        let mut lanes: Vec<Lane<'a>> = Vec::new();
        for (at, (id, look)) in self.looks.iter().enumerate() {
            if let Some((from, to)) = self.days_of(id, look) {
                lanes.push(Lane { number: at + 1, id, look, from, to, row: 0, named_before: false });
            }
        }
        lanes.sort_by(|one, other| one.from.total_cmp(&other.from).then_with(|| one.id.cmp(other.id)));
        let mut ends: Vec<f64> = Vec::new();
        for lane in &mut lanes {
            let name = self.board.name_of(&lane.look.character).chars().count();
            let letters = lane.look.title.chars().count() + name + 9;
            let named = letters as f64 * LANE * 0.56 * LETTER + 3.0;
            let (start, end) = ((lane.from - first) * scale, (lane.to - first) * scale);
            let end = end.max(start + 2.0);
            lane.named_before = end + named > room && start > named;
            let (left, right) =
                if lane.named_before { (start - named, end + 1.0) } else { (start, end + named) };
            let row = ends.iter().position(|end| *end <= left);
            lane.row = row.unwrap_or(ends.len());
            match row {
                Some(row) => ends[row] = right,
                None => ends.push(right),
            }
        }
        lanes
    }

    /// The main colour of a look, by which its lane is known beside its number and name.
    fn colour_of(&self, look: &Look) -> String {
        let base = look.base.as_ref().and_then(|base| self.board.outfit(base));
        let own = swatches(&look.pieces).0.or_else(|| base.and_then(|base| swatches(&base.pieces).0));
        own.map_or_else(|| "#ddd".to_owned(), Colour::hex)
    }
}

/// The outfits by period, in story order, and last those in none.
fn columns(board: &Board) -> Vec<Column<'_>> {
    let periods = board.head().periods.iter().map(|period| Some(&period.id)).chain([None]);
    let of = |period: Option<&PeriodId>| {
        let ids = board.relations().outfits_by_date().iter();
        let ids = ids.filter(move |id| board.relations().period_of_outfit(id) == period);
        ids.filter_map(|id| Some((id, board.outfit(id)?))).collect::<Vec<_>>()
    };
    let column = |period| Column { period, outfits: of(period), cards_across: 1, left: 0.0, wide: 0.0 };
    periods.map(column).filter(|column| column.period.is_some() || !column.outfits.is_empty()).collect()
}

/// An SVG within the sheet.
fn placed(to: &mut String, svg: &str, x: f64, y: f64, wide: f64, high: f64) {
    let Some(rest) = svg.strip_prefix("<svg") else { return };
    let _ = write!(
        to,
        "<svg x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{rest}",
        short(x),
        short(y),
        short(wide),
        short(high)
    );
}

fn text(to: &mut String, x: f64, y: f64, size: f64, colour: &str, anchor: &str, says: &str) {
    let _ = write!(
        to,
        "<text x=\"{}\" y=\"{}\" font-size=\"{}\" fill=\"{colour}\" text-anchor=\"{anchor}\">{}</text>",
        short(x),
        short(y),
        short(size),
        escaped(says)
    );
}

/// Text that is as large as it may be to stand in so much room.
fn fitted(to: &mut String, x: f64, y: f64, size: f64, room: f64, says: &str) {
    let wide = says.chars().count() as f64 * LETTER;
    text(to, x, y, size.min(room / wide.max(1.0)), "#111", "start", says);
}

/// Words on at most so many lines of so many letters; what is too long is cut.
fn lines(says: &str, letters: usize, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in says.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    let cut = lines.len() > most;
    lines.truncate(most);
    for line in &mut lines {
        if line.chars().count() > letters {
            *line = line.chars().take(letters.saturating_sub(1)).chain(['…']).collect();
        }
    }
    if cut && let Some(last) = lines.last_mut().filter(|last| !last.ends_with('…')) {
        last.push('…');
    }
    lines
}

/// Clean, and without what would be markup.
fn escaped(says: &str) -> String {
    let plain = Plain::line(says);
    let mut safe = String::with_capacity(plain.as_str().len());
    for c in plain.as_str().chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            c => safe.push(c),
        }
    }
    safe
}

/// A number with at most two digits after the point.
fn short(number: f64) -> String {
    let text = format!("{number:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::board::told;

    fn board(title: &str) -> Board {
        told::board(json!({
            "outfits": {
                "coat": {"title": title, "worn": "1914", "pieces": [{"name": "wool coat", "colours": ["navy"]}]},
                "thing": {"title": "A thing", "worn": "1926-08", "pieces": [{"name": "zzz", "colours": ["black"]}]},
            },
            "looks": {"coat": {"title": "The coat", "base": "coat"}, "dream": {"title": "Dream", "treatment": "invent", "period": "late"}},
        }))
    }

    #[test]
    fn every_outfit_and_every_look_is_on_every_paper_and_the_same_board_gives_the_same_bytes() {
        let board = board("Pilot's coat");
        for paper in [Paper::A3, Paper::A2, Paper::Roll] {
            let sheet = svg(&board, paper);
            let read = roxmltree::Document::parse(&sheet).unwrap();
            let texts: Vec<&str> = read.descendants().filter_map(|node| node.text()).collect();
            for said in [
                "1914 → 1",
                "Pilot's coat",
                "Aug 1926 · open",
                "1 = The coat · Ada",
                "2 * Dream · Ada",
                "2 outfits",
            ] {
                assert!(texts.contains(&said), "{said}: {texts:?}");
            }
            assert!(texts.iter().any(|text| text.contains(DRAWN)));
            assert_eq!(sheet, svg(&board, paper));
            for loads in ["<script", "href", "<image", "url("] {
                assert!(!sheet.contains(loads), "{loads}");
            }
        }
        assert!(page(&board, Paper::A2).contains("size: 594mm 420mm"));
    }

    #[test]
    fn what_people_write_is_never_markup() {
        let sheet = svg(&board("<script>&\u{202e}\"x\""), Paper::A3);
        assert!(roxmltree::Document::parse(&sheet).is_ok());
        assert!(sheet.contains("&lt;script&gt;&amp;&quot;x&quot;") && !sheet.contains("<script>"));
    }

    #[test]
    fn cards_stay_on_the_paper_however_many_there_are() {
        let outfits: serde_json::Map<String, serde_json::Value> = (0..400)
            .map(|at| {
                (
                    format!("o{at}"),
                    json!({"title": format!("Outfit {at}"), "worn": "1926", "pieces": [{"name": "frock"}]}),
                )
            })
            .collect();
        let many = told::board(json!({"outfits": outfits}));
        let sheet = Sheet::of(&many, Paper::A3);
        let last = sheet.columns.last().unwrap();
        assert!(sheet.card >= NARROWEST && last.left + last.wide <= 420.0 - MARGIN + 1e-6, "{}", sheet.card);
        assert!(Sheet::of(&many, Paper::Roll).wide > 594.0);
    }

    #[test]
    fn a_board_with_nothing_on_it_is_a_sheet_all_the_same() {
        let empty = svg(&told::board(json!({})), Paper::A2);
        assert!(roxmltree::Document::parse(&empty).is_ok());
    }

    #[test]
    fn long_titles_are_cut_by_the_word() {
        assert_eq!(lines("Jumper for the coast road", 12, 2), ["Jumper for", "the coast…"]);
        assert_eq!(lines("Unbreakableword", 8, 2), ["Unbreak…"]);
    }
}
