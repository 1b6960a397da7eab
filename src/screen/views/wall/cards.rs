//! Middle and near zoom: a line or a card per entry, the periods side by side.

use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

use super::draw::target;
use super::shelf::Entry;
use super::{Wall, Zoom};
use crate::board::{Board, Piece, Standing, garment};
use crate::screen::canvas::{Canvas, Hit};
use crate::screen::parts::list::Cursor;
use crate::trade::colour::Colour;

/// The least width of a period.
pub fn least_width(zoom: Zoom) -> u16 {
    match zoom {
        Zoom::Far => 2,
        Zoom::Middle => 38,
        Zoom::Near => 32,
    }
}

/// Rows that an entry takes, the gap below a card included.
fn rows_of(zoom: Zoom) -> u16 {
    if zoom == Zoom::Near { 6 } else { 1 }
}

/// Draws the entries of the visible periods.
pub fn draw(wall: &mut Wall, board: &Board, canvas: &mut Canvas<'_>) {
    let zone = wall.plan.outfits;
    let each = rows_of(wall.zoom);
    // The gap below the last card may be cut off.
    let fit = usize::from((zone.height + u16::from(each > 1)) / each).max(1);
    let focus = wall.focus.as_ref().filter(|_| !wall.in_lanes).and_then(|entry| wall.shelf.place(entry));
    for at in 0..wall.plan.stretches.len() {
        let stretch = wall.plan.stretches[at];
        let length = wall.shelf.columns[stretch.column].slots.len();
        let own = focus.filter(|(column, _)| *column == stretch.column).map(|(_, row)| row);
        let top = wall.tops[stretch.column];
        let mut cursor = Cursor { at: own.unwrap_or(top), top };
        let range = cursor.window(length, fit);
        wall.tops[stretch.column] = cursor.top;
        let (first, last) = (range.start, range.end);
        for row in range {
            let y = zone.y + u16::try_from(row - first).unwrap_or(0) * each;
            let height = each.min(zone.bottom().saturating_sub(y));
            let Some(entry) = wall.shelf.at(stretch.column, row) else { continue };
            let area = Rect::new(stretch.x, y, stretch.width, height);
            let card = Card::of(wall, board, entry, own == Some(row));
            if wall.zoom == Zoom::Near {
                card.draw_card(canvas, area)
            } else {
                card.draw_line(canvas, area)
            }
            canvas.hit(area, Hit::Target(target(entry)));
        }
        more(canvas, zone, (stretch.x, stretch.width), first, length - last);
    }
}

/// Says how many entries lie above and below.
fn more(canvas: &mut Canvas<'_>, zone: Rect, (x, width): (u16, u16), above: usize, below: usize) {
    let key = canvas.theme.key();
    if zone.height == 0 {
        return;
    }
    for (count, arrow, y) in [(above, "▲", zone.y), (below, "▼", zone.bottom() - 1)] {
        if count > 0 {
            let words = format!("{arrow}{count}");
            let cells = u16::try_from(crate::screen::canvas::width(&words)).unwrap_or(0).min(width);
            canvas.put(x + width - cells, y, cells, &words, key);
        }
    }
}

/// What a line or a card tells.
struct Card<'a> {
    marked: bool,
    focused: bool,
    lit: bool,
    open: bool,
    date: String,
    title: &'a str,
    occasion: &'a str,
    mark: &'static str,
    swatches: (Option<&'a Colour>, Option<&'a Colour>),
    known: Option<u8>,
    cloth: String,
    standing: String,
}

impl<'a> Card<'a> {
    fn of(wall: &Wall, board: &'a Board, entry: &Entry, focused: bool) -> Self {
        let mut card = Card {
            marked: false,
            focused,
            lit: wall.is_lit(board, entry),
            open: false,
            date: String::new(),
            title: "",
            occasion: "",
            mark: wall.mark_of(board, entry),
            swatches: (None, None),
            known: None,
            cloth: String::new(),
            standing: String::new(),
        };
        match entry {
            Entry::Outfit(id) => {
                let Some(outfit) = board.outfit(id) else { return card };
                card.marked = wall.marks.contains(id);
                card.date = outfit.worn.as_ref().map_or_else(|| "undated".to_owned(), |date| date.short());
                card.title = &outfit.title;
                card.occasion = &outfit.occasion;
                card.swatches = garment::swatches(&outfit.pieces);
                card.known = Some(outfit.recognition.get());
                card.cloth = cloth(&outfit.pieces);
                card.mark = super::draw::standing_mark(board, id);
                card.standing = match board.standing(id) {
                    Standing::Open => "open".to_owned(),
                    Standing::Folded(look) => {
                        board.look(look).map_or(look.to_string(), |look| look.title.clone())
                    }
                    Standing::LetGo(reason) => format!("let go: {reason}"),
                };
                card.open = board.standing(id) == Standing::Open;
            }
            Entry::Look(id) => {
                let Some(look) = board.look(id) else { return card };
                card.date = format!("look of {}", look.outfits().count());
                card.title = &look.title;
                card.occasion = &look.says;
                card.swatches = garment::swatches(&look.pieces);
                card.cloth = cloth(&look.pieces);
                card.standing = match look.base.as_ref().and_then(|base| board.outfit(base)) {
                    Some(base) => format!("{} {}", look.treatment.word(), base.title),
                    None => look.treatment.word().to_owned(),
                };
            }
        }
        card
    }

    fn title_style(&self, canvas: &Canvas<'_>) -> Style {
        match (self.focused, self.lit) {
            (true, _) => canvas.theme.focus(),
            (_, true) => canvas.theme.lit(),
            _ => Style::new(),
        }
    }

    fn mark_style(&self, canvas: &Canvas<'_>) -> Style {
        if self.open { canvas.theme.open() } else { canvas.theme.text() }
    }

    /// `✓14 Aug 1926 ██≈ Title            4`
    fn draw_line(&self, canvas: &mut Canvas<'_>, area: Rect) {
        let (x, y, right) = (area.x, area.y, area.right());
        let theme = canvas.theme;
        canvas.put(x, y, 1, if self.marked { "✓" } else { " " }, theme.marked());
        canvas.put(x + 1, y, 11, &self.date, theme.quiet());
        let (main, second) = self.swatches;
        swatch(canvas, x + 13, y, [main, second.or(main)]);
        canvas.put(x + 15, y, 1, self.mark, self.mark_style(canvas));
        let known_x = right.saturating_sub(2);
        if let Some(known) = self.known {
            canvas.put(known_x, y, 1, &known.to_string(), theme.quiet());
        }
        let start = x + 17;
        let room = known_x.saturating_sub(start + 1);
        // On wide columns the look has a place of its own.
        let title_room = if room >= 48 { 30 } else { room };
        let style = self.title_style(canvas);
        canvas.put(start, y, title_room, self.title, style);
        if room > title_room {
            canvas.put(start + title_room + 1, y, room - title_room - 1, &self.standing, theme.quiet());
        }
        if self.lit {
            canvas.put(x + 16, y, 1, "◆", theme.lit().remove_modifier(Modifier::UNDERLINED));
        }
    }

    fn draw_card(&self, canvas: &mut Canvas<'_>, area: Rect) {
        let theme = canvas.theme;
        let x = area.x + 3;
        let room = area.width.saturating_sub(4);
        let known = self.known.map_or(String::new(), |known| format!(" · known {known}/5"));
        let mark = if self.marked { "✓ marked · " } else { "" };
        let standing = format!("{} {}", self.mark, self.standing);
        let title = self.title_style(canvas).add_modifier(Modifier::BOLD);
        let lines: [(String, Style); 5] = [
            (format!("{mark}{}{known}", self.date), theme.quiet()),
            (self.title.to_owned(), title),
            (self.occasion.to_owned(), Style::new()),
            (self.cloth.clone(), theme.quiet()),
            (standing, self.mark_style(canvas)),
        ];
        for (y, (text, style)) in (area.top()..area.bottom()).zip(&lines) {
            canvas.put(x, y, room, text, *style);
            let (main, second) = self.swatches;
            let side = if y < area.y + 3 { main } else { second.or(main) };
            swatch(canvas, area.x, y, [side, side]);
            if self.focused {
                canvas.put(area.x + 2, y, 1, "▌", theme.key());
            } else if self.lit {
                canvas.put(area.x + 2, y, 1, "◆", theme.lit().remove_modifier(Modifier::UNDERLINED));
            }
        }
    }
}

/// Two cells of cloth.
fn swatch(canvas: &mut Canvas<'_>, x: u16, y: u16, cells: [Option<&Colour>; 2]) {
    let theme = canvas.theme;
    for (x, colour) in (x..).zip(cells) {
        canvas.put(x, y, 1, theme.cloth_glyph(colour), theme.cloth(colour));
    }
}

fn cloth(pieces: &[Piece]) -> String {
    let mut words: Vec<&str> = Vec::new();
    for piece in pieces {
        words.push(if piece.cloth.is_empty() { &piece.name } else { &piece.cloth });
    }
    words.join(" · ")
}
