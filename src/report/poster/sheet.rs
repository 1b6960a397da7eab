//! What stands where on the sheet: the title, the periods with their cards as large as can be, the lanes with as much
//! room as they need, the foot.

use super::Paper;
use super::card::{self, Card};
use super::column::{Column, columns};
use super::lanes::Lanes;
use super::letters::{Letters, Weight};
use super::write::{Anchor, Hand, short, text};
use crate::board::{Board, Look, LookId, Scope};
use crate::picture::flat::DRAWN;
use crate::report::figure::{Figure, Figures};

/// Round the sheet, in millimetres, as are all that follow.
pub(super) const MARGIN: f64 = 10.0;
const TITLE: f64 = 15.0;
const FOOT: f64 = 6.0;
/// Between two periods.
const GAP: f64 = 4.0;
/// Between the cards and the lanes.
const AIR: f64 = 4.0;
/// The widest card, the one on a roll, and the narrowest.
const WIDEST: f64 = 46.0;
const ON_A_ROLL: f64 = 36.0;
pub(super) const NARROWEST: f64 = 5.0;
/// The smallest print: what can be read at arm's length (common practice, no source).
pub(super) const LEAST: f64 = 2.0;

/// A sheet, laid out.
pub(super) struct Sheet<'a> {
    pub board: &'a Board,
    pub wide: f64,
    pub high: f64,
    pub letters: Letters,
    pub looks: Vec<(&'a LookId, &'a Look)>,
    pub columns: Vec<Column<'a>>,
    pub card: Card,
    /// Where the cards begin.
    top: f64,
    /// The height of the lanes.
    lanes: f64,
}

impl<'a> Sheet<'a> {
    pub fn of(board: &'a Board, paper: Paper, figures: &mut Figures<'_>) -> Self {
        let (wide, high) = match paper {
            Paper::A3 => (420.0, 297.0),
            Paper::A2 => (594.0, 420.0),
            Paper::Roll => (0.0, 594.0),
        };
        let looks = board.relations().looks_by_order().iter().filter_map(|id| Some((id, board.look(id)?)));
        let mut sheet = Self {
            board,
            wide,
            high,
            letters: Letters::new(),
            looks: looks.collect(),
            columns: columns(board, figures),
            card: Card::of(ON_A_ROLL, f64::MAX),
            top: 0.0,
            lanes: 0.0,
        };
        sheet.lanes = Lanes::of(&sheet).high();
        if paper == Paper::Roll {
            sheet.roll_out();
        } else {
            sheet.fill();
        }
        sheet
    }

    /// As long as cards of the size for a roll take. The longer it is the fewer lanes stand below each other, and the
    /// more cards: a few rounds come to rest.
    fn roll_out(&mut self) {
        self.wide = self.high;
        let mut down = 1;
        for _ in 0..4 {
            self.lanes = Lanes::of(self).high();
            down = (self.room() / self.card.high).max(1.0) as usize;
            let needs = self.across(down) as f64 * self.card.wide + self.gaps();
            self.wide = (needs + 2.0 * MARGIN).max(self.high);
            self.place(down);
        }
        self.lanes = Lanes::of(self).high();
        self.card = Card::of(self.card.wide, self.room() / down as f64);
    }

    /// The largest cards that the paper has room for. How large depends on how many stand below each other, and on how
    /// high the heads become in columns of that width.
    fn fill(&mut self) {
        let most = self.columns.iter().map(|column| column.cards.len()).max().unwrap_or(1).max(1);
        let room = self.wide - 2.0 * MARGIN - self.gaps();
        let sized = |sheet: &Self, down: usize| {
            let across = sheet.across(down).max(1) as f64;
            let wide = (room / across).clamp(NARROWEST, WIDEST);
            let high = sheet.room() / down as f64;
            (across * wide <= room + 1e-6).then(|| Card::of(wide, high))
        };
        let mut best: Option<(usize, Card)> = None;
        for down in 1..=most {
            self.place(down);
            if let Some(card) = sized(self, down)
                && best.as_ref().is_none_or(|(_, best)| best.shows() < card.shows())
            {
                best = Some((down, card));
            }
        }
        let (down, card) = best.unwrap_or((most, Card::of(NARROWEST, 0.0)));
        self.card = card;
        self.place(down);
        // In columns of other widths the heads may be higher.
        self.card = Card::of(card.wide, self.room() / down as f64);
    }

    /// Cards across in all columns, if so many stand below each other.
    fn across(&self, down: usize) -> usize {
        self.columns.iter().map(|column| column.across(down)).sum()
    }

    fn gaps(&self) -> f64 {
        GAP * self.columns.len().saturating_sub(1) as f64
    }

    /// The height that cards have.
    fn room(&self) -> f64 {
        (self.high - 2.0 * MARGIN - TITLE - self.head_high() - AIR - self.lanes - FOOT).max(LEAST)
    }

    fn head_high(&self) -> f64 {
        self.columns.iter().map(|column| column.head_high(self)).fold(0.0, f64::max)
    }

    /// Sets the columns beside each other, what is to spare shared out among them.
    fn place(&mut self, down: usize) {
        let room = self.wide - 2.0 * MARGIN - self.gaps();
        let all = self.across(down).max(1) as f64;
        let card = self.card.wide.min(room / all);
        let spare = ((room - all * card) / self.columns.len().max(1) as f64).max(0.0);
        let mut left = MARGIN;
        for column in &mut self.columns {
            column.cards_across = column.across(down);
            column.left = left;
            column.wide = column.cards_across as f64 * card + spare;
            left += column.wide + GAP;
        }
        self.top = MARGIN + TITLE + self.head_high();
    }

    /// The whole sheet; of how many pictures nothing could be seen, its foot says.
    pub fn drawn(&self, unseen: usize) -> String {
        let mut to = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\" \
             font-family=\"Georgia, 'Times New Roman', serif\"><rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>",
            short(self.wide),
            short(self.high)
        );
        self.title(&mut to);
        for column in &self.columns {
            column.draw_head(self, &mut to, MARGIN + TITLE, self.top);
            for (at, one) in column.cards.iter().enumerate() {
                let pitch = column.wide / column.cards_across as f64;
                let x =
                    column.left + (at % column.cards_across) as f64 * pitch + (pitch - self.card.wide) / 2.0;
                let y = self.top + (at / column.cards_across) as f64 * self.card.high;
                card::draw(self, &mut to, one, x, y);
            }
        }
        Lanes::of(self).draw(self, &mut to, self.high - MARGIN - FOOT);
        let says = self.foot(unseen);
        let (size, says) = self.letters.fitted(Weight::Regular, &says, self.wide - 2.0 * MARGIN, 3.0, LEAST);
        text(&mut to, MARGIN, self.high - MARGIN, Hand::of(size).coloured("#444"), &says);
        to.push_str("</svg>");
        to
    }

    fn title(&self, to: &mut String) {
        let count = self.board.count(&Scope::Overall);
        let says = match count.limit {
            Some(limit) => format!("{} looks of {limit}: {}", count.used, count.words()),
            None => format!("{} looks", count.used),
        };
        let right = self.wide - MARGIN;
        text(to, right, MARGIN + 6.0, Hand::of(6.5).at(Anchor::End), &says);
        let outfits = format!("{} outfits", self.board.records().outfits.len());
        text(to, right, MARGIN + 11.5, Hand::of(4.2).at(Anchor::End).coloured("#444"), &outfits);
        let room = self.wide - 3.0 * MARGIN - self.letters.wide(Weight::Regular, &says) * 6.5;
        let (size, title) = self.letters.fitted(Weight::Bold, &self.board.head().title, room, 10.0, 4.0);
        text(to, MARGIN, MARGIN + 8.5, Hand::of(size).bold(), &title);
    }

    /// Which are pictures and which are drawn, and what the signs mean.
    fn foot(&self, unseen: usize) -> String {
        let all = || self.columns.iter().flat_map(|column| &column.cards);
        let pictures = all().filter(|one| matches!(one.figure, Some(Figure::Picture(_)))).count();
        let mut says = match pictures {
            0 => format!("Flats are {DRAWN}: they are no evidence."),
            1 => format!(
                "1 picture, framed; all others are {DRAWN}, or its main colours: they are no evidence."
            ),
            pictures => {
                format!(
                    "{pictures} pictures, framed; all others are {DRAWN}, or its main colours: they are no evidence."
                )
            }
        };
        match unseen {
            0 => {}
            1 => says.push_str(" 1 picture could not be seen."),
            unseen => says.push_str(&format!(" {unseen} pictures could not be seen.")),
        }
        says.push_str(" → 8: folded into look 8 of the lanes. = copies, ≈ interprets, * invented.");
        says
    }

    /// The number of a look in the lanes.
    pub fn number(&self, look: &LookId) -> Option<usize> {
        self.looks.iter().position(|(id, _)| *id == look).map(|at| at + 1)
    }
}
