//! The copies: how many of each garment there must be and why, and where each is on each shooting day.

use super::lines::{BEFORE, Line, Lines, Span, Tone, cell, folded};
use super::seen::Seen;
use crate::board::Board;
use crate::screen::canvas::width;
use crate::screen::reckoning::{open_of, short_of};
use crate::workroom::copies::Whereabouts;
use crate::workroom::copies::plan::{Days, Demand};
use crate::workroom::words;

/// Where each copy of a garment is, day by day, copy by copy.
pub type Calendar = Vec<Vec<Option<Whereabouts>>>;

/// The marks of the calendar.
pub const MARKS: [(&str, &str); 4] = [("■", "in use"), ("~", "away"), ("×", "gone"), ("·", "ready")];

/// Copies that are drawn of one garment; what is said of them counts all.
const MOST: usize = 60;

/// What the look needs copies of.
pub fn demands<'a>(seen: &Seen<'a>) -> Vec<&'a Demand> {
    seen.reckoned.plan.of_look(seen.id).collect()
}

/// Where the garment in focus stands among them.
pub fn place(seen: &Seen<'_>, demands: &[&Demand]) -> Option<usize> {
    let garment = seen.garment.as_ref()?;
    demands.iter().position(|demand| demand.garment == *garment)
}

/// The page, with the cursor on a shooting day.
pub fn page(seen: &Seen<'_>, day: Option<usize>, calendar: &Calendar, wide: u16) -> Lines {
    let demands = demands(seen);
    let mut lines = Lines::default();
    if demands.is_empty() {
        lines.body = nothing(seen, wide);
        return lines;
    }
    let at = place(seen, &demands);
    let names: Vec<String> = demands.iter().map(|demand| name(seen.board, demand)).collect();
    let longest = names.iter().map(|name| width(name)).max().unwrap_or(0);
    // Where it is narrow, only what is planned and what must be is told in numbers.
    let is_narrow = wide < NARROW;
    let numbers_room = if is_narrow { 8 } else { NUMBERS };
    let room = usize::from(wide.saturating_sub(BEFORE + 1)).saturating_sub(numbers_room + SHORT);
    let name_room = longest.min(room.max(10));
    lines.head.push(heads(name_room, is_narrow));
    for (place, demand) in demands.iter().enumerate() {
        let piece = &demand.garment.piece;
        if place == 0 || demands[place - 1].garment.piece != *piece {
            lines.body.push(Line::words(piece, Tone::Strong));
        }
        lines.body.push(numbers(&names[place], name_room, is_narrow, demand, Some(place) == at).at(place));
        if Some(place) == at {
            let mut about = about(seen, demand, wide);
            about.extend(strip(seen, demand, day_of(seen, demand, day), calendar, wide));
            lines.body.extend(about.into_iter().map(|line| line.at(place)));
        }
    }
    lines.foot.push(legend());
    lines
}

fn nothing(seen: &Seen<'_>, wide: u16) -> Vec<Line> {
    if seen.garment.is_none() {
        return super::empty::no_pieces(wide).body;
    }
    let mut body = folded("No copies are needed yet: no scene shows this look.", wide, 0, &Tone::Strong);
    body.push(Line::default());
    let then = "W goes to the look in the list of looks, where a puts it into a scene. What is done in the scene, and the \
                shooting days, then say how many there must be.";
    body.extend(folded(then, wide, 0, &Tone::Plain));
    body
}

/// The version and its wearer; the piece stands above.
fn name(board: &Board, demand: &Demand) -> String {
    let garment = &demand.garment;
    format!("  {} · {}", garment.version, board.who_is(&garment.wearer))
}

/// Cells of the four numbers with their gaps, and of the last word.
const NUMBERS: usize = 32;
const SHORT: usize = 9;
/// Below this width there is no room for all of them.
const NARROW: u16 = 64;

fn heads(room: usize, is_narrow: bool) -> Line {
    if is_narrow {
        return Line::words(format!("{}planned/in all", cell("", room, false)), Tone::Quiet);
    }
    let names = [("planned", 9), ("needed", 8), ("spare", 7), ("in all", 8)];
    let numbers: String = names.iter().map(|(name, wide)| cell(name, *wide, true)).collect();
    Line::words(format!("{}{numbers}", cell("", room, false)), Tone::Quiet)
}

fn numbers(name: &str, room: usize, is_narrow: bool, demand: &Demand, in_focus: bool) -> Line {
    let planned = demand.planned.map_or("–".to_owned(), |planned| planned.to_string());
    let needed = demand.copies().saturating_sub(demand.spares);
    let numbers = if is_narrow {
        cell(&format!("{planned}/{}", demand.copies()), 8, true)
    } else {
        format!(
            "{}{}{}{}",
            cell(&planned, 9, true),
            cell(&needed.to_string(), 8, true),
            cell(&demand.spares.to_string(), 7, true),
            cell(&demand.copies().to_string(), 8, true)
        )
    };
    let last = match short_of(demand) {
        0 if open_of(demand) > 0 => Span::new("  no plan", Tone::Quiet),
        0 => Span::new("  ✓", Tone::Well),
        short => Span::new(format!("  {short} short"), Tone::Wrong),
    };
    Line::of(vec![
        Span::new(cell(name, room, false), Tone::Plain).focused(in_focus),
        Span::new(numbers, Tone::Plain),
        last,
    ])
}

/// Why there must be so many.
fn about(seen: &Seen<'_>, demand: &Demand, wide: u16) -> Vec<Line> {
    let mut lines = Vec::new();
    if !demand.is_there {
        let lack = format!(
            "the script asks for the {} as {}, and it has no such version yet: + plans its first copy",
            demand.garment.piece, demand.garment.version
        );
        lines.extend(folded(&lack, wide, 4, &Tone::Wrong));
    }
    if demand.is_unused() {
        lines.extend(folded("no scene needs it", wide, 4, &Tone::Quiet));
    }
    for reason in demand.reasons() {
        let words = words::reason(seen.board, &seen.reckoned.practice, demand, &reason);
        lines.extend(folded(&words, wide, 4, &Tone::Plain));
    }
    if demand.worn.is_empty() && !demand.unplaced.is_empty() {
        lines.extend(folded("none of its scenes is on a shooting day yet", wide, 4, &Tone::Quiet));
    }
    lines
}

/// The shooting days in the order in which they come, each with its place in the schedule; of two on one date the first.
pub fn shooting_days(board: &Board, days: &Days) -> Vec<(usize, i64)> {
    let schedule = board.records().schedule.len();
    let mut all: Vec<(usize, i64)> = (0..schedule).filter_map(|at| Some((at, days.count(at)?))).collect();
    all.sort_by_key(|(_, count)| *count);
    all.dedup_by_key(|(_, count)| *count);
    all
}

/// The day in focus, by its place among the shooting days: the one that was chosen, else the first that needs it.
pub fn day_of(seen: &Seen<'_>, demand: &Demand, chosen: Option<usize>) -> usize {
    let days = &seen.reckoned.plan.days;
    let all = shooting_days(seen.board, days);
    let first = demand.first_day().and_then(|at| days.count(at));
    let first = all.iter().position(|(_, count)| Some(*count) == first);
    chosen.or(first).unwrap_or(0).min(all.len().saturating_sub(1))
}

/// Cells before the days of a copy.
const LABEL: usize = 12;

fn strip(seen: &Seen<'_>, demand: &Demand, day: usize, calendar: &Calendar, wide: u16) -> Vec<Line> {
    let days = &seen.reckoned.plan.days;
    let all = shooting_days(seen.board, days);
    if all.is_empty() || demand.worn.is_empty() {
        return Vec::new();
    }
    if calendar.is_empty() {
        return folded("there are too many shooting days to draw", wide, 4, &Tone::Wrong);
    }
    let room = usize::from(wide.saturating_sub(BEFORE)).saturating_sub(LABEL + 2).max(1);
    let grid = Grid::of(&all, days, day, room);
    let mut lines = vec![Line::default(), grid.heads(seen.board)];
    let planned = demand.planned.map_or(0, usize::from);
    let is_on = |copy: &[Option<Whereabouts>], at: usize| copy.get(at).copied().flatten();
    for (nth, copy) in calendar.iter().enumerate().take(MOST) {
        let cells: Vec<&str> = all.iter().map(|(at, _)| mark(is_on(copy, *at))).collect();
        lines.push(grid.copy(nth, nth >= planned, &cells));
    }
    let more = usize::try_from(demand.made()).unwrap_or(usize::MAX).saturating_sub(MOST);
    if more > 0 {
        lines.push(Line::words(format!("    and {more} more"), Tone::Quiet));
    }
    let (at, _) = all[day];
    lines.extend(that_day(seen, demand, at, calendar.iter().map(|copy| is_on(copy, at)), wide));
    lines
}

fn mark(is: Option<Whereabouts>) -> &'static str {
    MARKS[match is {
        Some(Whereabouts::Used) => 0,
        Some(Whereabouts::Away) => 1,
        Some(Whereabouts::Gone) => 2,
        None => 3,
    }]
    .0
}

/// What is where on the day in focus, and in which scenes.
fn that_day(
    seen: &Seen<'_>,
    demand: &Demand,
    at: usize,
    all: impl Iterator<Item = Option<Whereabouts>>,
    wide: u16,
) -> Vec<Line> {
    let marks: Vec<&str> = all.map(mark).collect();
    let counts: Vec<String> = MARKS
        .iter()
        .map(|(mark, word)| (marks.iter().filter(|one| *one == mark).count(), word))
        .filter(|(count, _)| *count > 0)
        .map(|(count, word)| format!("{count} {word}"))
        .collect();
    let shoot = &seen.board.records().schedule[at];
    let date = shoot.date.as_ref().map_or(String::new(), |date| format!(", {}", date.short()));
    let mut lines = folded(&format!("day {}{date}: {}", shoot.day, counts.join(", ")), wide, 4, &Tone::Plain);
    for worn in demand.worn.iter().filter(|worn| worn.at == Some(at)) {
        let words = words::use_of(seen.board, &seen.reckoned.practice, worn);
        lines.extend(folded(&words, wide, 6, &Tone::Quiet));
    }
    lines
}

/// Which days are shown, and in which column each stands.
struct Grid<'a> {
    all: &'a [(usize, i64)],
    /// The days that are shown, by their places, each with its column.
    shown: Vec<(usize, usize)>,
    /// Those whose numbers are told: the first of each week, or every fifth.
    told: Vec<usize>,
    day: usize,
}

impl<'a> Grid<'a> {
    /// All days with a gap before each week where there is room for that, else all without, else a windowful.
    fn of(all: &'a [(usize, i64)], days: &Days, day: usize, room: usize) -> Self {
        // Day 0 was a Thursday; weeks begin on Mondays.
        let week = |place: usize| days.date(all[place].0).map(|_| (all[place].1 + 3).div_euclid(7));
        let begins = |place: usize| place > 0 && week(place) != week(place - 1);
        let gaps = (0..all.len()).filter(|place| begins(*place)).count();
        let fifth = |place: &usize| if gaps > 0 { begins(*place) } else { place.is_multiple_of(5) };
        let told = (0..all.len()).filter(|place| *place == 0 || fifth(place)).collect();
        let shown = if all.len() + gaps <= room {
            let mut column = 0;
            let place = |place: usize| {
                column += usize::from(begins(place));
                let here = (place, column);
                column += 1;
                here
            };
            (0..all.len()).map(place).collect()
        } else {
            let first = if all.len() <= room { 0 } else { (day / room * room).min(all.len() - room) };
            (first..all.len().min(first + room)).map(|place| (place, place - first)).collect()
        };
        Self { all, shown, told, day }
    }

    /// The numbers of days, as many as have room above their column; that of the day in focus before all.
    fn heads(&self, board: &Board) -> Line {
        let wide = self.shown.last().map_or(0, |(_, column)| column + 1);
        let mut heads = vec![' '; wide + 8];
        let number = |place: usize| board.records().schedule[self.all[place].0].day.to_string();
        let mut write = |column: usize, text: &str| {
            let to = column + text.chars().count();
            let free = |at: usize| heads.get(at).is_none_or(|have| *have == ' ');
            if (column.saturating_sub(1)..to + 1).all(free) {
                for (at, letter) in (column..).zip(text.chars()) {
                    if let Some(slot) = heads.get_mut(at) {
                        *slot = letter;
                    }
                }
            }
        };
        let focus = self.shown.iter().find(|(place, _)| *place == self.day);
        let told = self.shown.iter().filter(|(place, _)| self.told.contains(place));
        for (place, column) in focus.into_iter().chain(told) {
            write(*column, &number(*place));
        }
        let first = self.shown.first().is_some_and(|(place, _)| *place > 0);
        let more = self.shown.last().is_some_and(|(place, _)| place + 1 < self.all.len());
        let heads: String = heads.iter().collect();
        Line::of(vec![
            Span::new(cell("    day", LABEL - 1, false), Tone::Quiet),
            Span::new(if first { "‹" } else { " " }, Tone::Quiet),
            Span::new(heads.trim_end(), Tone::Quiet),
            Span::new(if more { " ›" } else { "" }, Tone::Quiet),
        ])
    }

    fn copy(&self, nth: usize, is_short: bool, cells: &[&str]) -> Line {
        let label = format!("    copy {}", nth + 1);
        let label = if is_short { format!("{label}!") } else { label };
        let mut spans = vec![Span::judged(cell(&label, LABEL, false), is_short)];
        let mut column = 0;
        for (place, at) in &self.shown {
            if *at > column {
                spans.push(Span::new(" ".repeat(at - column), Tone::Plain));
            }
            column = at + 1;
            let mark = cells.get(*place).copied().unwrap_or(" ");
            let tone = match mark {
                "■" => Tone::Strong,
                "×" => Tone::Wrong,
                "~" => Tone::Plain,
                _ => Tone::Quiet,
            };
            spans.push(Span::new(mark, tone).focused(*place == self.day));
        }
        Line::of(spans)
    }
}

fn legend() -> Line {
    let mut spans = Vec::new();
    for (mark, word) in MARKS {
        spans.push(Span::new(mark, Tone::Strong));
        spans.push(Span::new(format!(" {word}   "), Tone::Quiet));
    }
    spans.push(Span::new("copy 3! not planned yet", Tone::Quiet));
    Line::of(spans)
}
