//! What is bought of each cloth: over all copies of all pieces, with toiles and test strips, less what is in the house;
//! for how much, and by when.
//!
//! What must be bought is rounded up to whole tenths of a metre, as merchants cut it (common practice, no source). It is
//! ordered so long before the first shooting day that needs it as it takes to come and to be made up.

use std::collections::BTreeMap;

use super::lay::{self, Amount, NotLaid};
use crate::board::{Board, Cloth, ClothId, Cut, Look, LookId, Make, Practice, Version};
use crate::trade::date::Day;
use crate::trade::length::Length;
use crate::trade::money::Money;
use crate::workroom::copies::plan::{Demand, Garment, Plan};
use crate::workroom::fit::version_of;

/// What is bought of a cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase<'a> {
    /// Which cloth.
    pub id: &'a ClothId,
    /// Its record.
    pub cloth: &'a Cloth,
    /// What each garment takes.
    pub parts: Vec<Part>,
    /// Pieces that cannot be cut of it, and why.
    pub wrong: Vec<(LookId, String, NotLaid)>,
    /// The shooting day that needs it first, by its place in the schedule.
    pub first_day: Option<usize>,
    /// Its date, where all shooting days have one.
    pub needed: Option<Day>,
    /// By when to order it.
    pub order_by: Option<Day>,
}

/// What one version of a piece takes of a cloth, over all its copies.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Of what.
    pub garment: Garment,
    /// How many copies are reckoned with.
    pub copies: u32,
    /// How many toiles are cut of the cloth itself; they are told once for a piece.
    pub toiles: u32,
    /// What one copy takes.
    pub each: Amount,
}

impl Part {
    /// What all of them take. What is worn may not be longer than a kilometre; what a crowd wears together may.
    pub fn all(&self) -> Amount {
        let times = self.copies.saturating_add(self.toiles);
        match self.each {
            Amount::Length(each) => {
                let all = each.hundredths().saturating_mul(i64::from(times));
                Amount::Length(Length::of_hundredths(all))
            }
            Amount::Skins(each) => Amount::Skins(each.saturating_mul(times)),
        }
    }

    /// What all of them cost at so much a metre or a skin.
    pub fn cost(&self, price: Money) -> Money {
        match self.all() {
            Amount::Length(length) => price.by_length(length),
            Amount::Skins(skins) => price.times(skins),
        }
    }
}

/// A tenth of a metre, in hundredths of a millimetre.
const TENTH: i64 = 10_000;

impl Purchase<'_> {
    /// The length that all parts take, without test strips.
    pub fn cut(&self) -> Length {
        self.parts.iter().map(Part::all).fold(Length::default(), |sum, amount| match amount {
            Amount::Length(length) => sum + length,
            Amount::Skins(_) => sum,
        })
    }

    /// The hides, skins or sheets that all parts take.
    pub fn skins(&self) -> u32 {
        self.parts.iter().map(Part::all).fold(0, |sum, amount| match amount {
            Amount::Length(_) => sum,
            Amount::Skins(skins) => u32::saturating_add(sum, skins),
        })
    }

    /// The length that is taken in all: parts and test strips.
    pub fn taken(&self) -> Length {
        self.cut() + self.strips()
    }

    /// What test strips take.
    pub fn strips(&self) -> Length {
        self.cloth.test_strips.map_or(Length::default(), |strips| strips.length())
    }

    /// The length that must be bought: what is taken less what is in the house, up to whole tenths of a metre.
    pub fn to_buy(&self) -> Length {
        let lacks = self.taken() - self.cloth.stock.unwrap_or_default();
        let tenths = lacks.hundredths().saturating_add(TENTH - 1).div_euclid(TENTH).max(0);
        Length::of_hundredths(tenths * TENTH)
    }

    /// What is to be paid for it; `None` without a price.
    pub fn price(&self) -> Option<Money> {
        let price = self.cloth.price?;
        Some(price.by_length(self.to_buy()) + price.times(self.skins()))
    }
}

/// What is bought of every cloth, in the order of their names.
pub fn purchases<'a>(board: &'a Board, plan: &Plan) -> Vec<Purchase<'a>> {
    let practice = board.practice();
    let mut all: BTreeMap<&ClothId, Purchase<'a>> = board
        .records()
        .cloths
        .iter()
        .map(|(id, cloth)| {
            let purchase = Purchase {
                id,
                cloth,
                parts: Vec::new(),
                wrong: Vec::new(),
                first_day: None,
                needed: None,
                order_by: None,
            };
            (id, purchase)
        })
        .collect();
    let mut earlier: Option<(&LookId, &String)> = None;
    for demand in &plan.demands {
        let Garment { look, piece, .. } = &demand.garment;
        let is_first = earlier.replace((look, piece)) != Some((look, piece));
        let Some(make) = board.look(look).and_then(|look| look.make.get(piece)) else { continue };
        for (cloth, each) in taken(board, &practice, make, demand) {
            let Some(purchase) = all.get_mut(&cloth) else { continue };
            match each {
                Ok(each) => {
                    purchase.take(demand, each, if is_first { u32::from(make.toiles) } else { 0 }, plan)
                }
                Err(wrong) => purchase.refuse(demand, wrong),
            }
        }
    }
    for purchase in all.values_mut() {
        let days =
            i64::from(purchase.cloth.lead_days.unwrap_or(0)) + i64::from(practice.making_days.unwrap_or(0));
        purchase.needed = purchase.first_day.and_then(|at| plan.days.date(at));
        purchase.order_by = purchase.needed.map(|day| day.plus(-days));
    }
    all.into_values().collect()
}

impl Purchase<'_> {
    fn take(&mut self, demand: &Demand, each: Amount, toiles: u32, plan: &Plan) {
        let (garment, copies) = (demand.garment.clone(), demand.made());
        self.parts.push(Part { garment, copies, toiles, each });
        let count = |at: usize| plan.days.count(at);
        if let Some(day) = demand.first_day()
            && self.first_day.is_none_or(|first| count(day) < count(first))
        {
            self.first_day = Some(day);
        }
    }

    fn refuse(&mut self, demand: &Demand, wrong: NotLaid) {
        let Garment { look, piece, .. } = &demand.garment;
        let told = (look.clone(), piece.clone(), wrong);
        if !self.wrong.contains(&told) {
            self.wrong.push(told);
        }
    }
}

/// What one copy takes of each cloth: the cuts of its piece, one after the other, and what its version takes besides.
fn taken(
    board: &Board,
    practice: &Practice,
    make: &Make,
    demand: &Demand,
) -> BTreeMap<ClothId, Result<Amount, NotLaid>> {
    let mut all: BTreeMap<ClothId, Result<Amount, NotLaid>> = BTreeMap::new();
    let mut put = |id: &ClothId, amount: Result<Amount, NotLaid>| {
        let sum = match (all.remove(id), amount) {
            (Some(Ok(one)), Ok(other)) => add(one, other),
            (Some(Err(wrong)), _) | (_, Err(wrong)) => Err(wrong),
            (None, only) => only,
        };
        all.insert(id.clone(), sum);
    };
    for Cut { cloth: id, lay } in &make.cuts {
        if let Some(cloth) = board.cloth(id) {
            put(id, lay::of(cloth, *lay, practice));
        }
    }
    let version: Option<&Version> = version_of(make, &demand.garment.version);
    for (id, more) in version.into_iter().flat_map(|version| version.more_cloth.iter()) {
        if let Some(cloth) = board.cloth(id) {
            put(id, lay::more(cloth, more.length()).map(Amount::Length));
        }
    }
    all
}

fn add(one: Amount, other: Amount) -> Result<Amount, NotLaid> {
    match (one, other) {
        (Amount::Length(one), Amount::Length(other)) => Ok(Amount::Length(one + other)),
        (Amount::Skins(one), Amount::Skins(other)) => Ok(Amount::Skins(one.saturating_add(other))),
        _ => Err(NotLaid::TwoWays),
    }
}

/// The pieces of a look that say of no cloth how much they take.
pub fn without_cloth(look: &Look) -> impl Iterator<Item = &String> {
    let has = |name: &String| look.make.get(name).is_some_and(|make| !make.cuts.is_empty());
    look.pieces.iter().map(|piece| &piece.name).filter(move |name| !has(name))
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;
    use crate::board::told;

    fn board(cloth: Value, make: Value) -> Board {
        told::board(json!({
            "looks": {"coat": {"treatment": "invent", "pieces": [{"name": "coat"}, {"name": "hat"}], "make": {"coat": make}}},
            "cloths": {"serge": cloth},
            "scenes": [{"scene": 1, "wears": {"ada": "coat"}}, {"scene": 2, "wears": {"ada": "coat"}}],
            "schedule": [
                {"day": 1, "date": "2027-07-12", "scenes": [2]}, {"day": 2, "date": "2027-07-09", "scenes": [1]},
            ],
            "practice": {"spares": {"principal": 2}, "making-days": 12},
        }))
    }

    #[test]
    fn what_is_bought_is_all_copies_toiles_and_strips_less_what_is_there() {
        let cloth = json!({
            "title": "Serge", "width": "150 cm", "price": "20", "stock": "1 m", "test-strips": "50 cm", "lead-days": 10,
        });
        let board = board(cloth, json!({"cuts": [{"cloth": "serge", "lay": "2.25 m"}], "toiles": 1}));
        let all = purchases(&board, &Plan::of(&board));
        let [serge] = all.as_slice() else { panic!("{all:?}") };
        assert_eq!(serge.cut().to_string(), "675 cm", "two copies and a toile");
        assert_eq!(
            (serge.taken().to_string(), serge.to_buy().to_string()),
            ("725 cm".into(), "630 cm".into())
        );
        assert_eq!(serge.price(), Some(Money::of_cents(12_600)));
        // The day that is listed second comes first.
        assert_eq!(serge.needed.map(|day| day.to_string()).as_deref(), Some("2027-07-09"));
        assert_eq!(
            serge.order_by.map(|day| day.to_string()).as_deref(),
            Some("2027-06-17"),
            "22 days before"
        );
        assert_eq!(without_cloth(board.look(&"coat".parse().unwrap()).unwrap()).collect::<Vec<_>>(), ["hat"]);
    }

    #[test]
    fn a_version_takes_what_it_takes_besides() {
        let cloth = json!({"title": "Serge", "width": "150 cm", "shrinkage": "50 %"});
        let make = json!({
            "cuts": [{"cloth": "serge", "lay": "2 m"}],
            "versions": [{"version": "standing", "more-cloth": {"serge": "10 cm"}, "copies": {"ada": 3}}],
        });
        let board = board(cloth, make);
        let all = purchases(&board, &Plan::of(&board));
        assert_eq!(
            (all[0].parts[0].copies, all[0].cut().to_string()),
            (3, "1260 cm".into()),
            "washed to half"
        );
        assert_eq!(all[0].price(), None);
    }

    #[test]
    fn hides_are_counted_and_what_cannot_be_cut_is_told_once() {
        let hides =
            board(json!({"title": "Calf", "price": "90"}), json!({"cuts": [{"cloth": "serge", "skins": 3}]}));
        let all = purchases(&hides, &Plan::of(&hides));
        assert_eq!((all[0].skins(), all[0].price()), (6, Some(Money::of_cents(54_000))));
        let laid = board(json!({"title": "Calf"}), json!({"cuts": [{"cloth": "serge", "lay": "2 m"}]}));
        let all = purchases(&laid, &Plan::of(&laid));
        assert_eq!(all[0].wrong, [("coat".parse().unwrap(), "coat".to_owned(), NotLaid::NoWidth)]);
        assert!(all[0].parts.is_empty());
    }
}
