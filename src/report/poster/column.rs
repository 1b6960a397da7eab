//! The outfits of one period in date order, and the head above them.

use super::letters::Weight;
use super::sheet::{LEAST, Sheet};
use super::write::{Hand, line, text};
use crate::board::{Board, Outfit, OutfitId, PeriodId, Scope};
use crate::plot;
use crate::report::figure::{Figure, Figures};

/// The title of a period, at most, and what stands below it.
const TITLE: f64 = 5.2;
const SAYS: f64 = 3.2;

/// The lines that a title, and what stands below it, may take.
const LINES: usize = 3;

/// An outfit and what there is to see of it.
pub(super) struct Shown<'a> {
    pub id: &'a OutfitId,
    pub outfit: &'a Outfit,
    pub figure: Option<Figure>,
}

pub(super) struct Column<'a> {
    pub period: Option<&'a PeriodId>,
    pub cards: Vec<Shown<'a>>,
    pub cards_across: usize,
    pub left: f64,
    pub wide: f64,
}

/// The outfits by period, in story order, and last those in none.
pub(super) fn columns<'a>(board: &'a Board, figures: &mut Figures<'_>) -> Vec<Column<'a>> {
    let periods = board.head().periods.iter().map(|period| Some(&period.id)).chain([None]);
    let mut cards = |period: Option<&PeriodId>| {
        let ids = board.relations().outfits_by_date().iter();
        let ids = ids.filter(|id| board.relations().period_of_outfit(id) == period);
        let mut shown = |id: &'a OutfitId| {
            let outfit = board.outfit(id)?;
            Some(Shown { id, outfit, figure: figures.of_outfit(outfit) })
        };
        ids.filter_map(&mut shown).collect::<Vec<_>>()
    };
    let column = |period| Column { period, cards: cards(period), cards_across: 1, left: 0.0, wide: 0.0 };
    periods.map(column).filter(|column| column.period.is_some() || !column.cards.is_empty()).collect()
}

impl Column<'_> {
    /// Cards beside each other, if so many stand below each other.
    pub fn across(&self, down: usize) -> usize {
        self.cards.len().div_ceil(down.max(1)).max(1)
    }

    /// The lines of its head, each with its size.
    fn lines(&self, sheet: &Sheet<'_>) -> Vec<(f64, Weight, String)> {
        let period = self.period.and_then(|id| sheet.board.period(id));
        let title = period.map_or("In no period", |period| &period.title);
        let letters = &sheet.letters;
        // In one line if it is still large there; else as large as its longest word allows.
        let longest =
            title.split_whitespace().map(|word| letters.wide(Weight::Bold, word)).fold(0.01, f64::max);
        let size = (self.wide / letters.wide(Weight::Bold, title).max(0.01)).min(TITLE);
        let size = if size < 0.75 * TITLE { (self.wide / longest).clamp(LEAST, 0.8 * TITLE) } else { size };
        let titles = letters.lines(Weight::Bold, title, self.wide / size, LINES);
        let says = letters.lines(Weight::Regular, &self.says(sheet.board), self.wide / SAYS, LINES);
        let titles = titles.into_iter().map(|line| (size, Weight::Bold, line));
        titles.chain(says.into_iter().map(|line| (SAYS, Weight::Regular, line))).collect()
    }

    fn says(&self, board: &Board) -> String {
        let scope = self.period.map(|id| board.count(&Scope::Period(id.clone())));
        let looks = scope.map_or(String::new(), |count| match count.limit {
            Some(limit) if count.over() > 0 => {
                format!(" → {} of {limit} looks: {}", count.used, count.words())
            }
            Some(limit) => format!(" → {} of {limit} looks", count.used),
            None => format!(" → {} looks", count.used),
        });
        let period = self.period.and_then(|id| board.period(id));
        let span = period.map_or(String::new(), |period| format!("{} · ", period.span.short()));
        let minutes = plot::of_period(board, self.period).clock();
        format!("{span}{} outfits{looks} · {minutes} min.", self.cards.len())
    }

    /// How high its head is.
    pub fn head_high(&self, sheet: &Sheet<'_>) -> f64 {
        self.lines(sheet).iter().map(|(size, ..)| size * 1.2).sum::<f64>() + 3.0
    }

    /// Its head from `top` down, and the line beneath, in one height with those of the others.
    pub fn draw_head(&self, sheet: &Sheet<'_>, to: &mut String, top: f64, bottom: f64) {
        let mut y = top;
        for (size, weight, says) in self.lines(sheet) {
            y += size * 1.2;
            let hand = Hand { weight, ..Hand::of(size) };
            text(to, self.left, y - size * 0.25, hand, &says);
        }
        line(to, self.left, bottom - 2.0, &format!("h{}", super::write::short(self.wide)), "#111", 0.6);
    }
}
