//! Middle and near zoom: a line or a card per entry, the periods side by side.

use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

use super::draw::target;
use super::shelf::Entry;
use super::{Wall, Zoom};
use crate::board::{Board, Piece, Standing, garment};
use crate::picture::flat::DRAWN;
use crate::screen::canvas::{Canvas, Hit, wrapped};
use crate::screen::gallery::{Seen, Subject};
use crate::screen::parts::list::Cursor;
use crate::trade::colour::Colour;

/// Cells for the words beside a picture.
const WORDS: u16 = 17;

/// The least width of a period.
pub fn least_width(zoom: Zoom, pictured: bool) -> u16 {
    match zoom {
        Zoom::Far => 2,
        Zoom::Middle => 38,
        Zoom::Near if pictured => 38,
        Zoom::Near => 32,
    }
}

/// The fewest rows of a card with a picture, and the most, the gap below included.
const PICTURED: (u16, u16) = (11, 22);

/// Rows that an entry takes, the gap below a card included: cards with pictures fill the height that there is.
fn rows_of(wall: &Wall, high: u16) -> u16 {
    match wall.zoom {
        Zoom::Near if wall.pictured => {
            let down = ((high + 1) / PICTURED.0).max(1);
            ((high + 1) / down).clamp(6, PICTURED.1)
        }
        Zoom::Near => 6,
        _ => 1,
    }
}

/// Draws the entries of the visible periods.
pub fn draw(wall: &mut Wall, board: &Board, canvas: &mut Canvas<'_>) {
    let zone = wall.plan.outfits;
    let each = rows_of(wall, zone.height);
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
            match wall.zoom {
                Zoom::Near if wall.pictured => card.draw_pictured(canvas, area),
                Zoom::Near => card.draw_card(canvas, area),
                _ => card.draw_line(canvas, area),
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
    subject: Option<Subject>,
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
            subject: None,
        };
        match entry {
            Entry::Outfit(id) => {
                let Some(outfit) = board.outfit(id) else { return card };
                card.marked = wall.marks.contains(id);
                card.date = outfit.worn.as_ref().map_or_else(|| "undated".to_owned(), |date| date.short());
                card.title = &outfit.title;
                card.subject = wall.pictured.then(|| Subject::of_outfit(outfit));
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
                card.subject = wall.pictured.then(|| Subject::of_look(board, look));
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

    /// A picture, and beside it what the card tells.
    fn draw_pictured(&self, canvas: &mut Canvas<'_>, area: Rect) {
        let Some(subject) = &self.subject else { return };
        // The last row is the gap to the card below.
        let high = area.height.saturating_sub(1).max(1);
        // A picture is about three wide and four high, and a cell one wide and two high; the words need their room too.
        let wide = (high + high / 2).min(area.width.saturating_sub(WORDS + 3)).max(area.width / 3);
        let frame = Rect::new(area.x + 1, area.y, wide, high);
        let theme = canvas.theme;
        let seen = canvas.picture(frame, subject);
        if matches!(seen, Seen::Coming | Seen::Thin) {
            self.hang_swatches(canvas, frame);
        }
        let edge = match (self.focused, self.lit) {
            (true, _) => Some(("▌", theme.key())),
            (_, true) => Some(("◆", theme.lit().remove_modifier(Modifier::UNDERLINED))),
            _ => None,
        };
        for y in area.y..area.y + high {
            if let Some((mark, style)) = edge {
                canvas.put(area.x, y, 1, mark, style);
            }
        }
        let x = frame.right() + 1;
        let room = area.right().saturating_sub(x + 1);
        let drawn = match seen {
            Seen::There(_) if subject.is_drawn() => DRAWN,
            Seen::Coming => "…",
            _ => "",
        };
        // What is drawn says so, whatever else there is no room for.
        let note = wrapped(drawn, usize::from(room.max(1)));
        let foot = (area.y + high).saturating_sub(u16::try_from(note.len()).unwrap_or(0));
        for (y, line) in (foot..area.y + high).zip(&note) {
            canvas.put(x, y, room, line, theme.quiet());
        }
        let mut y = area.y;
        let mut write = |canvas: &mut Canvas<'_>, words: &str, style: Style, most: usize| {
            let lines = wrapped(words, usize::from(room.max(1)));
            let cut = lines.len() > most;
            for (at, line) in lines.iter().take(most).enumerate() {
                if y >= foot {
                    return;
                }
                let line = if cut && at + 1 == most { format!("{line}…") } else { line.clone() };
                canvas.put(x, y, room, &line, style);
                y += 1;
            }
        };
        let mark = if self.marked { "✓ " } else { "" };
        let title = self.title_style(canvas).add_modifier(Modifier::BOLD);
        let known = self.known.map_or(String::new(), |known| format!("known {known}/5"));
        let standing = format!("{} {}", self.mark, self.standing);
        let spare = usize::from(high);
        write(
            canvas,
            &format!("{mark}{}", self.date),
            if self.marked { theme.marked() } else { theme.quiet() },
            1,
        );
        write(canvas, self.title, title, if spare > 8 { 3 } else { 2 });
        write(canvas, &standing, self.mark_style(canvas), if spare > 8 { 3 } else { 2 });
        write(canvas, &known, theme.quiet(), 1);
        write(canvas, self.occasion, Style::new(), 3);
        write(canvas, &self.cloth, theme.quiet(), 3);
    }

    /// The two colours hang side by side where there is no picture to see, or not yet.
    fn hang_swatches(&self, canvas: &mut Canvas<'_>, frame: Rect) {
        let (main, second) = self.swatches;
        let wide = (frame.width / 3).max(1);
        let high = (frame.height / 2).max(1);
        let (x, top) =
            (frame.x + frame.width.saturating_sub(2 * wide) / 2, frame.y + (frame.height - high) / 2);
        for y in top..top + high {
            for (at, colour) in (0..).zip([main, second.or(main)]) {
                for cell in 0..wide {
                    let glyph = canvas.theme.cloth_glyph(colour);
                    canvas.put(x + at * wide + cell, y, 1, glyph, canvas.theme.cloth(colour));
                }
            }
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
