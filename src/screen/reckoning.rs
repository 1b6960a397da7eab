//! What the workroom reckons, kept up with the board: computed when it is drawn after a change, not in every frame, and
//! on a board that has nothing of the workroom only when the workroom is looked at.

use std::collections::BTreeMap;

use crate::board::{Board, Cloth, ClothId, Look, LookId, Practice};
use crate::trade::date::Day;
use crate::trade::length::Length;
use crate::trade::money::Money;
use crate::workroom::cloth::buy::{Part, Purchase, purchases};
use crate::workroom::cloth::lay::NotLaid;
use crate::workroom::copies::plan::{Demand, Plan};
use crate::workroom::cost::Costs;
use crate::workroom::fit;

/// What was reckoned, and for which version of the board.
#[derive(Default)]
pub struct Reckoning {
    at: Option<u64>,
    reckoned: Option<Reckoned>,
}

/// What was reckoned of a board.
pub struct Reckoned {
    /// The tables that it was reckoned by.
    pub practice: Practice,
    /// The copies.
    pub plan: Plan,
    /// The costs.
    pub costs: Costs,
    /// What is bought of each cloth.
    pub bought: BTreeMap<ClothId, Bought>,
    signs: BTreeMap<LookId, Sign>,
}

/// A purchase that outlives the board that it was reckoned from.
#[derive(Clone, Debug, PartialEq)]
pub struct Bought {
    /// What each garment takes.
    pub parts: Vec<Part>,
    /// Pieces that cannot be cut of it, and why.
    pub wrong: Vec<(LookId, String, NotLaid)>,
    /// The length that is taken in all.
    pub taken: Length,
    /// The length that must be bought.
    pub to_buy: Length,
    /// Whole hides, skins or sheets.
    pub skins: u32,
    /// What is to be paid.
    pub price: Option<Money>,
    /// The first shooting day that needs it.
    pub needed: Option<Day>,
    /// By when to order it.
    pub order_by: Option<Day>,
}

/// How a look stands in the workroom, in short.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sign {
    /// Measures in all.
    pub measures: usize,
    /// Those that cannot be reckoned.
    pub lacking: usize,
    /// Copies that are reckoned with.
    pub copies: u32,
    /// How many fewer are planned than must be.
    pub short: u32,
    /// How many must be of what the board does not say how many are planned.
    pub open: u32,
    /// What it costs.
    pub cost: Money,
    /// How much of that could not be reckoned.
    pub unpriced: usize,
}

impl Reckoning {
    /// Takes up what has changed. Without `always`, a board of which the counter has nothing to say is left alone.
    pub fn refresh(&mut self, board: &Board, version: u64, always: bool) {
        if self.at != Some(version) {
            self.reckoned = None;
            self.at = Some(version);
        }
        if self.reckoned.is_none() && (always || has_money(board)) {
            self.reckoned = Some(Reckoned::of(board));
        }
    }

    /// What was reckoned, where it was.
    pub fn get(&self) -> Option<&Reckoned> {
        self.reckoned.as_ref()
    }

    /// What the costs are to be told of beside the counter; `None` where nobody has spoken of money.
    pub fn costs(&self, board: &Board) -> Option<&Costs> {
        self.reckoned.as_ref().filter(|_| has_money(board)).map(|reckoned| &reckoned.costs)
    }
}

/// Whether the board speaks of money.
fn has_money(board: &Board) -> bool {
    let workroom = &board.head().workroom;
    let has_price = |cloth: &Cloth| cloth.price.is_some();
    workroom.money.is_some()
        || !workroom.rates.is_empty()
        || board.records().cloths.values().any(|cloth| has_price(cloth))
}

impl Reckoned {
    fn of(board: &Board) -> Self {
        let plan = Plan::of(board);
        let purchases = purchases(board, &plan);
        let costs = Costs::with(board, &plan, &purchases);
        let bought = purchases.iter().map(|purchase| (purchase.id.clone(), Bought::of(purchase))).collect();
        let mut signs: BTreeMap<LookId, Sign> =
            board.records().looks.iter().map(|(id, look)| (id.clone(), measured(board, look))).collect();
        for demand in &plan.demands {
            if let Some(sign) = signs.get_mut(&demand.garment.look) {
                sign.copies = sign.copies.saturating_add(demand.made());
                sign.short = sign.short.saturating_add(short_of(demand));
                sign.open = sign.open.saturating_add(open_of(demand));
            }
        }
        for cost in &costs.looks {
            if let Some(sign) = signs.get_mut(&cost.look) {
                (sign.cost, sign.unpriced) = (cost.sum(), cost.lacks.len());
            }
        }
        Self { practice: board.practice(), plan, costs, bought, signs }
    }

    /// How a look stands.
    pub fn sign(&self, look: &LookId) -> Sign {
        self.signs.get(look).copied().unwrap_or_default()
    }
}

/// How many fewer copies are planned than must be. Of a version that is not there none are.
pub fn short_of(demand: &Demand) -> u32 {
    match demand.planned {
        None if demand.is_there => 0,
        planned => demand.copies().saturating_sub(planned.map_or(0, u32::from)),
    }
}

/// How many copies must be, where the board does not say how many are planned.
pub fn open_of(demand: &Demand) -> u32 {
    if demand.planned.is_none() && demand.is_there { demand.copies() } else { 0 }
}

fn measured(board: &Board, look: &Look) -> Sign {
    let wearer = fit::wearer_of(board, look);
    let mut sign = Sign::default();
    for (piece, _) in fit::pieces(look) {
        let rows = fit::rows(board, look, piece, None, &wearer);
        sign.measures += rows.len();
        sign.lacking += rows.iter().filter(|row| row.result().is_none()).count();
    }
    sign
}

impl Bought {
    fn of(purchase: &Purchase<'_>) -> Self {
        Self {
            parts: purchase.parts.clone(),
            wrong: purchase.wrong.clone(),
            taken: purchase.taken(),
            to_buy: purchase.to_buy(),
            skins: purchase.skins(),
            price: purchase.price(),
            needed: purchase.needed,
            order_by: purchase.order_by,
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test")]

    use super::*;
    use crate::screen::trial::{Trial, small};

    #[test]
    fn a_board_that_does_not_speak_of_money_is_reckoned_only_where_it_is_looked_at() {
        let trial = Trial::on(&small());
        let board = trial.app.board();
        let mut reckoning = Reckoning::default();
        reckoning.refresh(board, 1, false);
        assert!(reckoning.get().is_none());
        reckoning.refresh(board, 1, true);
        assert!(reckoning.get().is_some() && reckoning.costs(board).is_none());
        reckoning.refresh(board, 2, false);
        assert!(reckoning.get().is_none(), "what was reckoned of another version counts no more");
    }

    #[test]
    fn the_sign_of_a_look_sums_up_its_copies_measures_and_costs() {
        let trial = Trial::demo();
        let board = trial.app.board();
        let reckoned = Reckoned::of(board);
        let id = board.relations().looks_by_order().first().unwrap();
        let sign = reckoned.sign(id);
        let demands: Vec<&Demand> = reckoned.plan.of_look(id).collect();
        assert_eq!(sign.copies, demands.iter().map(|demand| demand.made()).sum::<u32>());
        assert_eq!(sign.short, demands.iter().map(|demand| short_of(demand)).sum::<u32>());
        assert_eq!(sign.open, demands.iter().map(|demand| open_of(demand)).sum::<u32>());
        assert!(sign.short == 0 && sign.open > 0, "a pinafore is planned, a hair ribbon is not");
        assert_eq!(Some(sign.cost), reckoned.costs.look(id).map(|cost| cost.sum()));
        assert!(sign.measures > 0 && sign.lacking <= sign.measures);
    }
}
