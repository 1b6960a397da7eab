//! The stop on the screen: its name in large letters, what it is, and beside or below that what is said of it.

use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Line;
use ratatui::widgets::Widget;
use tui_big_text::{BigText, PixelSize};

use super::Walk;
use super::page::{self, Page, Part};
use crate::board::{Board, Piece, Stop};
use crate::screen::canvas::{Canvas, width, wrapped};
use crate::screen::parts::{pictures, swatch};
use crate::screen::plates::{self, Plate};

/// From this width on the minutes stand beside.
const BESIDE: u16 = 110;
/// From this height on there is room for large letters.
const HIGH: u16 = 24;
/// At a scene or a period, at most so many pictures: what is shown to a room is large.
const MOST_PICTURES: usize = 4;
/// Cells of one large letter, and its rows.
const LETTER: (u16, u16) = (4, 4);
/// The widest that lines are read at ease from across a room.
const WIDEST: u16 = 96;

/// One row of the stop.
#[derive(Default)]
struct Row {
    indent: u16,
    mark: String,
    text: String,
    style: Style,
    mark_style: Style,
    piece: Option<Piece>,
}

impl Walk {
    /// Draws it.
    pub fn draw(&mut self, board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        let stop = self.at(board);
        let stops = self.by.stops(board);
        self.place = stops.iter().position(|one| *one == stop).unwrap_or(self.place);
        let page = page::of(board, &stop);
        let quiet = canvas.theme.quiet();
        let where_at = format!("walk {} · stop {} of {}", self.by.words(), self.place + 1, stops.len());
        canvas.put(area.x + 1, area.y, area.width.saturating_sub(1), &where_at, quiet);
        let side_margin = if area.width >= 60 { 3 } else { 1 };
        let inner = Rect {
            x: area.x + side_margin,
            y: area.y + 1,
            width: area.width.saturating_sub(2 * side_margin),
            height: area.height.saturating_sub(1),
        };
        let below = draw_title(&page.title, canvas, inner, area.height);
        let facts = wrapped(&page.facts, usize::from(inner.width));
        let mut y = below;
        for line in facts.iter().take(2) {
            canvas.put(inner.x, y, inner.width, line, quiet);
            y += 1;
        }
        let body = Rect { y: y + 1, height: inner.bottom().saturating_sub(y + 1), ..inner };
        if body.height == 0 {
            return;
        }
        let plates = if canvas.shows_pictures() { plates::of_stop(board, &stop) } else { Vec::new() };
        let body = match stop {
            // A look fills the room that there is: its evidence before what is drawn.
            Stop::Look(_) => {
                let (drawn, evidence): (Vec<_>, Vec<_>) =
                    plates.into_iter().partition(|plate| plate.subject.is_drawn());
                hang(canvas, body, &[evidence, drawn].concat(), 1)
            }
            _ => hang(canvas, body, &plates, MOST_PICTURES),
        };
        if body.width + 2 * side_margin >= BESIDE && !page.side.is_empty() {
            let left = (body.width * 3 / 5).min(WIDEST);
            let gap = 4;
            let main = rows(&page.main, canvas, left);
            let side = rows(&page.side, canvas, body.width - left - gap);
            let most = main.len().max(side.len());
            self.scroll = self.scroll.min(most.saturating_sub(usize::from(body.height)));
            draw_rows(&main[self.scroll.min(main.len())..], canvas, Rect { width: left, ..body });
            let beside = Rect { x: body.x + left + gap, width: body.width - left - gap, ..body };
            draw_rows(&side[self.scroll.min(side.len())..], canvas, beside);
            more(canvas, area, self.scroll + usize::from(body.height) < most);
        } else {
            let all = one_column(&page);
            let all = rows(&all, canvas, body.width.min(WIDEST));
            self.scroll = self.scroll.min(all.len().saturating_sub(usize::from(body.height)));
            draw_rows(&all[self.scroll..], canvas, body);
            more(canvas, area, self.scroll + usize::from(body.height) < all.len());
        }
    }
}

/// Hangs the pictures to the left, where there is room for them; returns what they leave.
fn hang(canvas: &mut Canvas<'_>, body: Rect, plates: &[Plate], most: usize) -> Rect {
    let wide = match body.width {
        _ if plates.is_empty() || body.height < 10 => 0,
        ..70 => 0,
        70..100 => body.width / 3,
        _ => body.width / 5 * 2,
    };
    if wide == 0 {
        return body;
    }
    pictures::draw(canvas, Rect { width: wide, ..body }, plates, most);
    let gap = 3;
    Rect { x: body.x + wide + gap, width: body.width - wide - gap, ..body }
}

/// Below each other: what it says first, then what waits for somebody, then the rest.
fn one_column(page: &Page) -> Vec<Part> {
    let says = page.main.iter().take_while(|part| matches!(part, Part::Says(_))).count();
    let (says, main) = page.main.split_at(says);
    let asked = page.side.iter().take_while(|part| !matches!(part, Part::Heading("Cautions"))).count();
    let (said, asks) = page.side.split_at(asked);
    let mut short = Vec::new();
    if !page.cautions.is_empty() {
        let words = format!("cautions: {}; whom to ask stands below", page.cautions.join(", "));
        short.push(Part::Waiting("!".to_owned(), words));
    }
    [says, &short, said, main, asks].concat()
}

/// That there is more below.
fn more(canvas: &mut Canvas<'_>, area: Rect, is_more: bool) {
    if is_more {
        let words = "↓ more";
        let wide = u16::try_from(width(words)).unwrap_or(0);
        let key = canvas.theme.key();
        canvas.put(area.right().saturating_sub(wide + 1), area.y, wide, words, key);
    }
}

/// Draws the name; returns the row below it.
fn draw_title(title: &str, canvas: &mut Canvas<'_>, area: Rect, high: u16) -> u16 {
    let heading = canvas.theme.heading();
    let large = in_large(title);
    let letters =
        u16::try_from(large.as_deref().map_or(0, |large| large.chars().count())).unwrap_or(u16::MAX);
    match large {
        Some(large) if high >= HIGH && letters.saturating_mul(LETTER.0) <= area.width => {
            let text = BigText::builder()
                .pixel_size(PixelSize::Quadrant)
                .style(heading)
                .lines([Line::from(large)])
                .build();
            text.render(Rect { height: LETTER.1, ..area }, canvas.buffer);
            area.y + LETTER.1 + 1
        }
        _ => {
            canvas.put(area.x, area.y, area.width, title, heading);
            area.y + 1
        }
    }
}

/// A title in letters that there are in large; `None` where one is missing.
fn in_large(title: &str) -> Option<String> {
    let plain = |c: char| match c {
        '’' | '‘' => Some('\''),
        '“' | '”' => Some('"'),
        '–' | '—' => Some('-'),
        ' '..='~' | '\u{a1}'..='\u{ff}' => Some(c),
        _ => None,
    };
    title.chars().map(plain).collect()
}

fn rows(parts: &[Part], canvas: &Canvas<'_>, wide: u16) -> Vec<Row> {
    let theme = canvas.theme;
    let (text, heading, quiet, open) = (theme.text(), theme.heading(), theme.quiet(), theme.open());
    let mut rows: Vec<Row> = Vec::new();
    for part in parts {
        match part {
            Part::Says(words) => {
                rows.extend(paragraph(words, 0, wide, heading));
                rows.push(Row::default());
            }
            Part::Heading(words) => {
                if !rows.is_empty() {
                    rows.push(Row::default());
                }
                rows.extend(paragraph(words, 0, wide, quiet));
            }
            Part::Text(words) => rows.extend(paragraph(words, 0, wide, text)),
            Part::Item(mark, words) => rows.extend(item(mark, words, wide, text, heading)),
            Part::Waiting(mark, words) => rows.extend(item(mark, words, wide, open, open)),
            Part::Piece(piece, words) => {
                let mut lines = paragraph(words, swatch::WIDTH + 1, wide, text);
                if let Some(first) = lines.first_mut() {
                    first.piece = Some(piece.clone());
                }
                rows.extend(lines);
            }
        }
    }
    rows
}

/// A paragraph in lines, all indented alike.
fn paragraph(words: &str, indent: u16, wide: u16, style: Style) -> Vec<Row> {
    let lines = wrapped(words, usize::from(wide.saturating_sub(indent)).max(1));
    lines.into_iter().map(|text| Row { indent, text, style, ..Row::default() }).collect()
}

/// A paragraph with a mark before its first line.
fn item(mark: &str, words: &str, wide: u16, style: Style, mark_style: Style) -> Vec<Row> {
    let indent = u16::try_from(width(mark)).unwrap_or(0).max(1) + 1;
    let mut lines = paragraph(words, indent, wide, style);
    if let Some(first) = lines.first_mut() {
        (first.mark, first.mark_style) = (mark.to_owned(), mark_style);
    }
    lines
}

fn draw_rows(rows: &[Row], canvas: &mut Canvas<'_>, area: Rect) {
    for (y, row) in (area.top()..area.bottom()).zip(rows) {
        if let Some(piece) = &row.piece {
            swatch::draw(canvas, area.x, y, area.right(), std::slice::from_ref(piece));
        } else if !row.mark.is_empty() {
            canvas.put(area.x, y, row.indent, &row.mark, row.mark_style);
        }
        let indent = row.indent.min(area.width);
        canvas.put(area.x + indent, y, area.width - indent, &row.text, row.style);
    }
}
