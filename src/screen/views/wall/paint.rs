//! Painting the blocks of the far zoom.
//!
//! Thousands of blocks change only with the board or the size, so they are painted once and copied; focus, marks and
//! light lie over the copy. A frame then costs the screen, not the wardrobe.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Modifier;

use super::Wall;
use super::blocks::Block;
use super::draw::{standing_mark, target};
use super::shelf::Entry;
use crate::board::{Board, LookId, Standing, garment};
use crate::screen::canvas::{Canvas, Hit, Hits};
use crate::screen::theme::Theme;
use crate::screen::views::Target;

/// The most rows that a block takes, with the gap below it.
pub const TALLEST: u16 = 6;

/// What lies over a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Over {
    Nothing,
    Mark,
    Light,
    Focus,
}

/// Draws the blocks.
pub fn draw(wall: &mut Wall, board: &Board, canvas: &mut Canvas<'_>) {
    let zone = wall.plan.outfits.intersection(canvas.buffer.area);
    let painted = wall.plan.painted.take().unwrap_or_else(|| paint(wall, board, canvas.theme));
    for y in zone.top()..zone.bottom() {
        for x in zone.left()..zone.right() {
            canvas.buffer[(x, y)].clone_from(&painted[(x, y)]);
        }
    }
    wall.plan.painted = Some(painted);
    canvas.hit(zone, Hit::Place);
    for entry in wall.lit_entries(board) {
        over(wall, board, canvas, &entry, Over::Light);
    }
    for id in &wall.marks {
        over(wall, board, canvas, &Entry::Outfit(id.clone()), Over::Mark);
    }
    if let Some(focus) = wall.focus.as_ref().filter(|_| !wall.in_lanes) {
        over(wall, board, canvas, focus, Over::Focus);
    }
}

fn paint(wall: &Wall, board: &Board, theme: &Theme) -> Buffer {
    let mut buffer = Buffer::empty(wall.plan.outfits);
    let mut hits = Hits::default();
    let mut canvas = Canvas::new(&mut buffer, theme, &mut hits);
    for block in &wall.plan.blocks.blocks {
        let entries = block.rows.clone().filter_map(|row| wall.shelf.at(block.column, row));
        // A block that stands for several shows an open one if there is any.
        let open =
            |entry: &&Entry| matches!(entry, Entry::Outfit(id) if board.standing(id) == Standing::Open);
        if let Some(entry) = entries.clone().find(open).or_else(|| entries.clone().next()) {
            draw_block(wall, board, &mut canvas, block, entry, Over::Nothing);
        }
    }
    buffer
}

fn over(wall: &Wall, board: &Board, canvas: &mut Canvas<'_>, entry: &Entry, over: Over) {
    let Some((column, row)) = wall.shelf.place(entry) else { return };
    if let Some(block) = wall.plan.blocks.of(column, row) {
        draw_block(wall, board, canvas, block, entry, over);
    }
}

fn draw_block(wall: &Wall, board: &Board, canvas: &mut Canvas<'_>, block: &Block, entry: &Entry, over: Over) {
    let tall = wall.plan.tall;
    let (x, y) = (block.x, wall.plan.outfits.y + block.y * tall);
    if y >= wall.plan.outfits.bottom() {
        return;
    }
    let theme = canvas.theme;
    let two = wall.plan.blocks.pitch > 1;
    // The higher ones have a gap below, so that each is seen to be one.
    let hem = (y + tall.saturating_sub(u16::from(tall > 2))).min(wall.plan.outfits.bottom());
    let mark = match entry {
        Entry::Outfit(id) if wall.marks.contains(id) => "✓",
        Entry::Outfit(id) => standing_mark(board, id),
        Entry::Look(id) => board.look(id).map_or("?", |look| look.treatment.mark()),
    };
    if over == Over::Focus {
        let style = theme.focus().add_modifier(Modifier::BOLD);
        canvas.clear(Rect::new(x, y, if two { 2 } else { 1 }, 1));
        canvas.put(x, y, 1, mark, style);
        if two {
            canvas.put(x + 1, y, 1, "◂", style);
        }
        return;
    }
    let (main, second) = match entry {
        Entry::Outfit(id) => {
            board.outfit(id).map_or((None, None), |outfit| garment::swatches(&outfit.pieces))
        }
        Entry::Look(id) => board.look(id).map_or((None, None), |look| garment::swatches(&look.pieces)),
    };
    // What is decided stands in its cloth; what is open stands out, and what was let go stands back.
    let standing = match entry {
        Entry::Outfit(id) => board.standing(id),
        Entry::Look(id) => Standing::Folded(id),
    };
    let (style, shade) = match standing {
        _ if over == Over::Mark => (theme.marked(), main),
        Standing::Folded(_) => (theme.cloth(main), second.or(main)),
        Standing::Open => (theme.open(), main),
        Standing::LetGo(_) => (theme.quiet(), main),
    };
    let light = over == Over::Light;
    canvas.put(x, y, 1, if light && !two { "◆" } else { mark }, style.add_modifier(Modifier::BOLD));
    if two {
        let glyph = match entry {
            _ if light => "◆".to_owned(),
            Entry::Look(id) => folded_digit(board, id),
            Entry::Outfit(_) => theme.cloth_glyph(shade).to_owned(),
        };
        canvas.put(x + 1, y, 1, &glyph, theme.cloth(shade));
    }
    for y in y + 1..hem {
        if matches!(standing, Standing::Folded(_)) {
            canvas.put(x, y, 1, theme.cloth_glyph(main), theme.cloth(main));
        }
        if two {
            canvas.put(x + 1, y, 1, theme.cloth_glyph(shade), theme.cloth(shade));
        }
    }
}

/// How many outfits a look stands for, in one cell.
fn folded_digit(board: &Board, id: &LookId) -> String {
    match board.look(id).map_or(0, |look| look.outfits().count()) {
        0 => " ".to_owned(),
        count @ 1..=9 => count.to_string(),
        _ => "+".to_owned(),
    }
}

impl Wall {
    /// What is painted at a cell of the far zoom.
    pub fn target_at(&self, x: u16, y: u16) -> Option<Target> {
        let block = self.plan.blocks.at(x, y.checked_sub(self.plan.outfits.y)? / self.plan.tall.max(1))?;
        self.shelf.at(block.column, block.rows.start).map(target)
    }
}
