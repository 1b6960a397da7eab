//! The board in a page of plain text: period by period, then character by character.

use std::fmt::Write;

use unicode_width::UnicodeWidthStr;

use crate::board::{Board, Outfit, OutfitId, Scope, Standing};
use crate::check::{self, Level};
use crate::report::Plain;
use crate::trade::eighths::Eighths;

/// The summary.
pub(super) fn text(board: &Board) -> String {
    let head = board.head();
    let mut to = format!("{}\n\n", Plain::line(&head.title));
    let sides = [
        Side::Left,
        Side::Right,
        Side::Right,
        Side::Right,
        Side::Right,
        Side::Right,
        Side::Right,
        Side::Left,
    ];
    to.push_str(&columns(&of_periods(board), &sides));
    if !head.characters.is_empty() {
        to.push('\n');
        to.push_str(&columns(&of_characters(board), &sides));
    }
    let _ = writeln!(to, "\n{}", of_scenes(board));
    let _ = writeln!(to, "{}", of_findings(board));
    to
}

fn of_periods(board: &Board) -> Vec<Vec<String>> {
    let relations = board.relations();
    let mut rows = vec![headings("Period")];
    for period in &board.head().periods {
        let tally = Tally::of(board, |id, _| relations.period_of_outfit(id) == Some(&period.id));
        rows.push(tally.row(board, &period.title, &Scope::Period(period.id.clone())));
    }
    let outside = Tally::of(board, |id, _| relations.period_of_outfit(id).is_none());
    let looks = board.records().looks.keys().filter(|id| relations.period_of_look(id).is_none()).count();
    if outside.outfits + looks > 0 {
        rows.push(outside.cells("(in no period)", &looks.to_string(), "", ""));
    }
    rows.push(Tally::of(board, |_, _| true).row(board, "All", &Scope::Overall));
    rows
}

fn of_characters(board: &Board) -> Vec<Vec<String>> {
    let mut rows = vec![headings("Character")];
    for character in &board.head().characters {
        let tally = Tally::of(board, |_, outfit| outfit.character == character.id);
        rows.push(tally.row(board, &character.name, &Scope::Character(character.id.clone())));
    }
    rows
}

fn of_scenes(board: &Board) -> String {
    let pages: Eighths = board.scenes().map(|scene| scene.pages).sum();
    let runtime = board.head().runtime.map(|minutes| {
        format!("; the film is to run {minutes} {}", if minutes == 1 { "minute" } else { "minutes" })
    });
    format!(
        "Scenes: {}, {}, about {} at a page a minute{}.",
        board.scenes().len(),
        pages.in_pages(),
        pages.clock(),
        runtime.unwrap_or_default()
    )
}

fn of_findings(board: &Board) -> String {
    let findings = check::findings(board);
    let of = |level: Level| findings.iter().filter(|finding| finding.level == level).count();
    let counts = [(of(Level::Error), "errors"), (of(Level::Warning), "warnings"), (of(Level::Note), "notes")];
    let said: Vec<String> = counts.iter().map(|(count, noun)| format!("{noun} {count}")).collect();
    format!("Findings: {}. `shirr check` lists them.", said.join(", "))
}

fn headings(first: &str) -> Vec<String> {
    [first, "outfits", "folded", "let go", "open", "looks", "limit", ""].map(str::to_owned).into()
}

/// Outfits by how they are decided.
#[derive(Default)]
struct Tally {
    outfits: usize,
    folded: usize,
    let_go: usize,
    open: usize,
}

impl Tally {
    fn of(board: &Board, counts: impl Fn(&OutfitId, &Outfit) -> bool) -> Self {
        let mut tally = Self::default();
        for (id, _) in board.records().outfits.iter().filter(|(id, outfit)| counts(id, outfit)) {
            tally.outfits += 1;
            *match board.standing(id) {
                Standing::Folded(_) => &mut tally.folded,
                Standing::LetGo(_) => &mut tally.let_go,
                Standing::Open => &mut tally.open,
            } += 1;
        }
        tally
    }

    fn row(&self, board: &Board, name: &str, scope: &Scope) -> Vec<String> {
        let count = board.count(scope);
        let limit = count.limit.map(|limit| limit.to_string()).unwrap_or_default();
        let words = count.limit.map(|_| count.words()).unwrap_or_default();
        self.cells(name, &count.used.to_string(), &limit, &words)
    }

    fn cells(&self, name: &str, looks: &str, limit: &str, words: &str) -> Vec<String> {
        let numbers = [self.outfits, self.folded, self.let_go, self.open].map(|number| number.to_string());
        let name = Plain::line(name).to_string();
        [name].into_iter().chain(numbers).chain([looks, limit, words].map(str::to_owned)).collect()
    }
}

/// On which side of its column a text stands.
#[derive(Clone, Copy)]
pub(super) enum Side {
    Left,
    Right,
}

/// Rows as lines in columns, two blanks apart, without blanks at the ends.
pub(super) fn columns(rows: &[Vec<String>], sides: &[Side]) -> String {
    let width = |column: usize| {
        rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.width()).max().unwrap_or_default()
    };
    let widths: Vec<usize> = (0..sides.len()).map(width).collect();
    let mut to = String::new();
    for row in rows {
        let mut line = String::new();
        for ((cell, side), width) in row.iter().zip(sides).zip(&widths) {
            let gap = " ".repeat(width - cell.width());
            match side {
                Side::Left => line.extend([cell, gap.as_str(), "  "]),
                Side::Right => line.extend([gap.as_str(), cell, "  "]),
            }
        }
        to.push_str(line.trim_end());
        to.push('\n');
    }
    to
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;

    #[test]
    fn the_summary_counts_period_by_period_and_character_by_character() {
        let board = sample::board(json!({
            "head": {"runtime": 3, "budget": {"looks": 3, "characters": {"ada": 1}, "periods": {"early": 1}}},
            "outfits": {
                "a": {"worn": "1920"}, "b": {"worn": "1921"}, "c": {"worn": "1926", "let-go": "told twice"},
                "d": {"worn": "1926"}, "e": {"worn": "1950", "character": "ben"},
            },
            "looks": {"one": {"base": "a"}, "two": {"base": "b"}, "three": {"treatment": "invent", "character": "ben"}},
            "scenes": [{"scene": 1, "pages": "1 4/8", "wears": {"ada": "one", "ben": "three"}}],
        }));
        assert_eq!(
            text(&board),
            "\
Sample

Period          outfits  folded  let go  open  looks  limit
Early                 2       2       0     0      2      1  1 over
Late                  2       0       1     1      0
(in no period)        1       0       0     1      1
All                   5       2       1     2      3      3  full

Character  outfits  folded  let go  open  looks  limit
Ada              4       2       1     1      2      1  1 over
Ben              1       0       0     1      1

Scenes: 1, 1 4/8 pages, about 1:30 at a page a minute; the film is to run 3 minutes.
Findings: errors 2, warnings 4, notes 2. `shirr check` lists them.
"
        );
    }

    #[test]
    fn one_page_and_one_minute_are_no_plurals() {
        let told = json!({"head": {"runtime": 1}, "scenes": [{"scene": 1, "pages": 1}]});
        let said = text(&sample::board(told));
        let line = "Scenes: 1, 1 page, about 1:00 at a page a minute; the film is to run 1 minute.";
        assert!(said.lines().any(|read| read == line), "{said}");
    }

    #[test]
    fn a_hostile_or_wide_title_breaks_no_line_and_no_column() {
        let board = sample::board(json!({"head": {"periods": [
            {"id": "early", "title": "Two\nlines\u{1b}[2J", "span": "1911/1924"},
            {"id": "late", "title": "絹の時代", "span": "1925/1930"},
        ]}}));
        let text = text(&board);
        let lines: Vec<&str> = text.lines().skip(2).take(4).collect();
        assert!(lines.iter().all(|line| line.contains("  ")), "{text}");
        assert!(text.contains("Two lines[2J"), "{text}");
        let ends: Vec<usize> = lines[1..].iter().map(|line| line.width()).collect();
        assert!(ends.iter().all(|end| *end == ends[0]), "{text}");
    }
}
