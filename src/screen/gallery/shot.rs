//! A picture as cells of the terminal, ready to be copied into a frame.

use std::hash::{BuildHasher, RandomState};
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

use image::{DynamicImage, RgbaImage, imageops};
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::{Rect, Size};
use ratatui::style::Color;
use ratatui::widgets::Widget;
use ratatui_image::errors::Errors;
use ratatui_image::protocol::Protocol;
use ratatui_image::protocol::halfblocks::Halfblocks;
use ratatui_image::protocol::iterm2::Iterm2;
use ratatui_image::protocol::kitty::Kitty;
use ratatui_image::protocol::sixel::Sixel;

use super::way::{Eye, Way};
use crate::picture::Pixels;
use crate::screen::theme::Theme;

/// What is drawn behind what is drawn: light, so that dark cloth stands out on a dark screen too.
pub(super) const PAPER: [u8; 3] = [240, 236, 226];

/// Pixels of a cell that is made of half blocks.
const HALF_BLOCK: (u16, u16) = (1, 2);

/// A picture as it is drawn, or why there is none.
#[derive(Debug)]
pub struct Shot {
    pub(super) content: Content,
}

#[derive(Debug)]
pub(super) enum Content {
    /// Cells, row by row.
    Cells {
        size: Size,
        cells: Vec<Cell>,
        /// The same without the picture itself, for a terminal that has been given it once and keeps it.
        again: Option<Vec<Cell>>,
        given: AtomicBool,
        is_text: bool,
    },
    /// The record is too thin to be drawn.
    Thin,
    /// Why it cannot be shown.
    Not(String),
}

impl Shot {
    /// It cannot be shown, for this reason.
    pub fn not(why: impl Into<String>) -> Self {
        Self { content: Content::Not(why.into()) }
    }

    /// The record is too thin to be drawn.
    pub fn thin() -> Self {
        Self { content: Content::Thin }
    }

    /// Pixels for a terminal: as many cells as they need at the size of its letters, no more than `most`.
    pub fn of(pixels: Pixels, most: Size, eye: &Eye) -> Self {
        let Some(image) = RgbaImage::from_raw(pixels.width, pixels.height, pixels.rgba) else {
            return Self::not("its size is not what it says");
        };
        let size = cells_for((image.width(), image.height()), most, eye.letter);
        match encoded(on_paper(image), size, eye) {
            Ok(content) => Self { content },
            Err(error) => Self::not(format!("the terminal's protocol cannot carry it: {error}")),
        }
    }

    /// Whether it is made of letters and colours, as half blocks are, which need nothing of the terminal.
    pub fn is_text(&self) -> bool {
        matches!(self.content, Content::Cells { is_text: true, .. })
    }

    /// Copies it into a frame. What the terminal paints itself is only drawn whole.
    pub fn draw(&self, buffer: &mut Buffer, place: Rect) {
        let Content::Cells { size, cells, again, given, is_text } = &self.content else { return };
        let place = place.intersection(buffer.area);
        if !is_text && (place.width < size.width || place.height < size.height) {
            return;
        }
        let cells = match again {
            Some(again) if given.swap(true, Ordering::Relaxed) => again,
            _ => cells,
        };
        for (y, row) in (place.top()..place.bottom()).zip(cells.chunks(usize::from(size.width).max(1))) {
            for (x, cell) in (place.left()..place.right()).zip(row) {
                buffer[(x, y)] = cell.clone();
            }
        }
    }

    /// About how much memory it takes, in bytes.
    pub fn bytes(&self) -> usize {
        let of = |cells: &[Cell]| -> usize {
            cells.iter().map(|cell| size_of::<Cell>() + cell.symbol().len()).sum()
        };
        match &self.content {
            Content::Cells { cells, again, .. } => of(cells) + again.as_deref().map_or(0, of),
            Content::Thin => 0,
            Content::Not(why) => why.len(),
        }
    }
}

/// How many cells a picture takes, at letters of this many pixels, to be as large as fits into `most`.
pub(super) fn cells_for((width, height): (u32, u32), most: Size, letter: (u16, u16)) -> Size {
    let (letter_wide, letter_high) = (f64::from(letter.0.max(1)), f64::from(letter.1.max(1)));
    let (room_wide, room_high) = (f64::from(most.width) * letter_wide, f64::from(most.height) * letter_high);
    let (width, height) = (f64::from(width.max(1)), f64::from(height.max(1)));
    let scale = (room_wide / width).min(room_high / height);
    let cells = |pixels: f64, letter: f64, most: u16| -> u16 {
        // Within the room by the way it was scaled, so the number is small.
        ((pixels * scale / letter).round() as u16).clamp(1, most.max(1))
    };
    Size::new(cells(width, letter_wide, most.width), cells(height, letter_high, most.height))
}

/// Without what shows through: no protocol agrees with another on what lies behind.
fn on_paper(image: RgbaImage) -> DynamicImage {
    if image.pixels().all(|pixel| pixel[3] == u8::MAX) {
        return image.into();
    }
    let [red, green, blue] = PAPER;
    let mut paper =
        RgbaImage::from_pixel(image.width(), image.height(), image::Rgba([red, green, blue, 255]));
    imageops::overlay(&mut paper, &image, 0, 0);
    paper.into()
}

fn encoded(image: DynamicImage, size: Size, eye: &Eye) -> Result<Content, String> {
    let is_text = eye.way == Way::Blocks;
    // Brought to the very pixels that are shown, so that the library finds nothing left to scale.
    let (across, down) = if is_text { HALF_BLOCK } else { eye.letter };
    let (wide, high) = (u32::from(size.width) * u32::from(across), u32::from(size.height) * u32::from(down));
    let image = brought_to_size(&image, wide.max(1), high.max(1));
    let protocol = in_protocol(image, size, eye.way).map_err(|error| error.to_string())?;
    let render = || {
        let mut buffer = Buffer::empty(Rect::new(0, 0, size.width, size.height));
        ratatui_image::Image::new(&protocol).render(buffer.area, &mut buffer);
        buffer.content
    };
    let mut cells = render();
    // The library gives a picture to such a terminal once; whatever is rendered after that only says where it stands.
    let again = (eye.way == Way::Kitty).then(render);
    if is_text {
        let theme = Theme::new(eye.depth);
        for cell in &mut cells {
            cell.fg = brought_to(&theme, cell.fg);
            cell.bg = brought_to(&theme, cell.bg);
        }
    }
    Ok(Content::Cells { size, cells, again, given: AtomicBool::new(false), is_text })
}

/// Smaller by averaging, so that fine lines and stripes are not lost; larger without steps.
fn brought_to_size(image: &DynamicImage, width: u32, height: u32) -> DynamicImage {
    if width <= image.width() && height <= image.height() {
        image.thumbnail_exact(width, height)
    } else {
        image.resize_exact(width, height, imageops::FilterType::Triangle)
    }
}

fn brought_to(theme: &Theme, colour: Color) -> Color {
    match colour {
        Color::Rgb(red, green, blue) => theme.nearest([red, green, blue]),
        other => other,
    }
}

/// In the terminal's protocol. The library's own way to choose one asks the terminal, changes the settings of a
/// multiplexer, and reads keys that somebody may be typing; what was found out (see [`Eye`]) is enough.
fn in_protocol(image: DynamicImage, size: Size, way: Way) -> Result<Protocol, Errors> {
    static COUNT: AtomicU32 = AtomicU32::new(0);
    Ok(match way {
        Way::Sixel => Protocol::Sixel(Sixel::new(image, size, false)?),
        Way::Kitty => {
            // A number of its own among all pictures that other programs have given to this terminal.
            let id = RandomState::new().hash_one(COUNT.fetch_add(1, Ordering::Relaxed)) as u32 | 1;
            Protocol::Kitty(Kitty::new(image, size, id, false, false)?)
        }
        Way::Inline => Protocol::ITerm2(Iterm2::new(image, size, false)?),
        Way::Blocks | Way::None => Protocol::Halfblocks(Halfblocks::new(image, size)?),
    })
}
