//! The card of one outfit: its picture in a frame, or its flat, or its swatches; when it was worn; where it went; what it
//! is called.

use super::column::Shown;
use super::letters::Weight;
use super::sheet::{LEAST, Sheet};
use super::write::{Anchor, Hand, image, placed, rect, text};
use crate::board::garment::swatches;
use crate::board::{Outfit, Standing};
use crate::report::figure::{Figure, Picture};

/// How high a figure is at most for the width of its card.
const TALL: f64 = 1.3;
/// How much of the width it has.
const BROAD: f64 = 0.92;
/// How wide a flat is for its height, about.
const FLAT: f64 = 0.8;
/// The print for the width of a card, and the largest.
const PRINT: f64 = 0.095;
const LARGEST: f64 = 3.6;
/// How small the line with the date becomes, of the print, rather than be cut.
const SMALLER: f64 = 0.6;
/// From one line to the next.
const LINE: f64 = 1.15;
/// The lines of a title.
const LINES: usize = 2;

/// The size that all cards of a sheet have.
#[derive(Clone, Copy, Debug)]
pub(super) struct Card {
    pub wide: f64,
    /// With the air below it.
    pub high: f64,
    /// The height of its figure.
    figure: f64,
    /// The size of its print.
    print: f64,
}

impl Card {
    /// A card of this width, as high as it need be and no higher than this.
    pub fn of(wide: f64, high: f64) -> Self {
        // A narrow card has smaller print: of letters that are large enough to read it would hold too few.
        let least = LEAST.min(wide * 0.16);
        let print = (wide * PRINT).clamp(least, LARGEST);
        let words = print * (LINE * (LINES + 1) as f64 + 0.9);
        let figure = (high - words).min(wide * TALL).max(0.0);
        // What is left over stands between the cards, as long as they are seen to belong together.
        let high = high.min((figure + words) * 1.12);
        Self { wide, high, figure, print }
    }

    /// How large a figure is on it.
    pub fn shows(&self) -> f64 {
        self.figure.min(self.wide * BROAD / FLAT)
    }
}

pub(super) fn draw(sheet: &Sheet<'_>, to: &mut String, one: &Shown<'_>, x: f64, y: f64) {
    let card = &sheet.card;
    let room = [x + card.wide * (1.0 - BROAD) / 2.0, y, card.wide * BROAD, card.figure];
    match &one.figure {
        Some(Figure::Flat(flat)) => placed(to, &flat.svg(), room),
        Some(Figure::Picture(picture)) => framed(to, picture, room),
        None => patches(to, one.outfit, room),
    }
    let middle = x + card.wide / 2.0;
    let print = Hand::of(card.print).at(Anchor::Middle);
    let words = card.wide * 0.91;
    let mut down = y + card.figure + card.print * LINE;
    // Smaller before it is cut: the number of the look stands at its end.
    let (size, says) =
        sheet.letters.fitted(Weight::Bold, &when(sheet, one), words, card.print, card.print * SMALLER);
    text(to, middle, down, Hand { size, ..print.bold() }, &says);
    for line in sheet.letters.lines(Weight::Regular, &one.outfit.title, words / card.print, LINES) {
        down += card.print * LINE;
        text(to, middle, down, print.coloured("#222"), &line);
    }
}

/// When an outfit was worn and where it went.
fn when(sheet: &Sheet<'_>, one: &Shown<'_>) -> String {
    let worn = one.outfit.worn.as_ref().map_or_else(|| "undated".to_owned(), |worn| worn.short());
    let standing = match sheet.board.standing(one.id) {
        Standing::Folded(look) => sheet.number(look).map_or(String::new(), |number| format!(" → {number}")),
        Standing::LetGo(_) => " · let go".to_owned(),
        Standing::Open => " · open".to_owned(),
    };
    format!("{worn}{standing}")
}

/// A picture as large as fits, at the foot of its room, with a frame that tells it from what is drawn.
fn framed(to: &mut String, picture: &Picture, [x, y, wide, high]: [f64; 4]) {
    let (across, down) = (f64::from(picture.wide.max(1)), f64::from(picture.high.max(1)));
    let scale = (wide / across).min(high * 0.97 / down);
    let (across, down) = (across * scale, down * scale);
    let place = [x + (wide - across) / 2.0, y + high - down, across, down];
    image(to, &picture.data(), place);
    rect(to, place, "none", 0.3);
}

/// The two main colours of an outfit that cannot be drawn.
fn patches(to: &mut String, outfit: &Outfit, [x, y, wide, high]: [f64; 4]) {
    let (main, second) = swatches(&outfit.pieces);
    let side = (wide * 0.34).min(high * 0.5);
    for (at, colour) in [main, second].into_iter().flatten().enumerate() {
        let left = x + wide / 2.0 - side + side * at as f64;
        rect(to, [left, y + (high - side) * 0.6, side, side], &colour.hex(), 0.2);
    }
}
