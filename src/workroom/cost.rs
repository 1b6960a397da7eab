//! What looks cost, and what that is made of.
//!
//! A look costs the cloth of all its copies and toiles at its price, the hours of work on them at their rates, and what
//! else each piece costs. Cloth is reckoned at its price whether it must be bought or lies in the house; test strips
//! belong to the whole board. What merchants cut over is in none of them: it is left for what is made next. All sums are exact to a hundredth of a cent.
//!
//! What has no price, no rate, no length or no word on how it is made is named as lacking, so that a sum is never taken for the whole when it is not.

use std::collections::BTreeMap;

use super::cloth::buy::{Purchase, purchases};
use super::copies::plan::{Demand, Garment, Plan};
use super::fit::version_of;
use super::words;
use crate::board::{Board, BodyId, CharacterId, Expense, Id, LookId, Make, Pairs, PeriodId, VersionId, Work};
use crate::trade::eighths::Eighths;
use crate::trade::hours::Hours;
use crate::trade::money::Money;

/// What a sum is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Cloth, hides and skins.
    Cloth,
    /// Hours of work.
    Work,
    /// Dye, print, trims, what is bought.
    Other,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Self; 3] = [Self::Cloth, Self::Work, Self::Other];

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Cloth => "cloth",
            Self::Work => "work",
            Self::Other => "other",
        }
    }
}

/// One line of a sum.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What for.
    pub kind: Kind,
    /// The piece.
    pub piece: String,
    /// The version and the body that its copies are for; `None` for what is done or paid once for all.
    pub copies_of: Option<(VersionId, BodyId)>,
    /// What it is: the cloth, the kind of work, the expense.
    pub what: String,
    /// How it is reckoned, in figures.
    pub how: String,
    /// How much.
    pub sum: Money,
}

/// What a look costs.
#[derive(Clone, Debug, PartialEq)]
pub struct LookCost {
    /// The look.
    pub look: LookId,
    /// What it is made of.
    pub lines: Vec<Line>,
    /// What could not be reckoned, in words.
    pub lacks: Vec<String>,
}

impl LookCost {
    /// The whole.
    pub fn sum(&self) -> Money {
        self.lines.iter().map(|line| line.sum).sum()
    }

    /// Of one kind.
    pub fn of(&self, kind: Kind) -> Money {
        self.lines.iter().filter(|line| line.kind == kind).map(|line| line.sum).sum()
    }
}

/// What a board costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Costs {
    /// Every look, in their order.
    pub looks: Vec<LookCost>,
    /// Test strips, by cloth.
    pub beside: Vec<(String, Money)>,
    /// The money that there is; `None` where nothing is said.
    pub money: Option<Money>,
}

impl Costs {
    /// What a board costs as it is planned.
    pub fn of(board: &Board) -> Self {
        let plan = Plan::of(board);
        let purchases = purchases(board, &plan);
        Self::with(board, &plan, &purchases)
    }

    /// The same, where plan and purchases are at hand.
    pub fn with(board: &Board, plan: &Plan, purchases: &[Purchase<'_>]) -> Self {
        let mut looks: BTreeMap<&LookId, LookCost> = BTreeMap::new();
        let order = board.relations().looks_by_order();
        for id in order {
            looks.insert(id, LookCost { look: id.clone(), lines: Vec::new(), lacks: Vec::new() });
        }
        for purchase in purchases {
            cloth(purchase, &mut looks);
        }
        let mut earlier = None;
        for demand in &plan.demands {
            let (id, piece) = (&demand.garment.look, &demand.garment.piece);
            let is_first = earlier.replace((id, piece)) != Some((id, piece));
            let make = board.look(id).and_then(|look| look.make.get(piece));
            if let (Some(make), Some(cost)) = (make, looks.get_mut(id)) {
                let mut working = Working { rates: &board.head().workroom.rates, piece, cost };
                working.copies(make, demand);
                if is_first {
                    working.once(make);
                }
            }
        }
        for cost in looks.values_mut() {
            cost.lacks.extend(unmade(board, &cost.look));
        }
        let beside = purchases.iter().filter_map(|purchase| {
            let sum = purchase.cloth.price?.by_length(purchase.strips());
            (sum != Money::ZERO).then(|| (purchase.cloth.title.clone(), sum))
        });
        Self {
            looks: order.iter().filter_map(|id| looks.remove(id)).collect(),
            beside: beside.collect(),
            money: board.head().workroom.money,
        }
    }

    /// All looks and what is beside them.
    pub fn sum(&self) -> Money {
        let looks: Money = self.looks.iter().map(LookCost::sum).sum();
        looks + self.beside.iter().map(|(_, sum)| *sum).sum()
    }

    /// What is left of the money; less than nothing where it does not do. `None` where nothing is said of it.
    pub fn left(&self) -> Option<Money> {
        Some(self.money? - self.sum())
    }

    /// How much could not be reckoned.
    pub fn lacks(&self) -> usize {
        self.looks.iter().map(|cost| cost.lacks.len()).sum()
    }

    /// One look.
    pub fn look(&self, id: &LookId) -> Option<&LookCost> {
        self.looks.iter().find(|cost| cost.look == *id)
    }

    /// The looks of each character, in the order of the cast.
    pub fn by_character<'a>(&self, board: &'a Board) -> Vec<(&'a CharacterId, Money)> {
        let of = |who: &CharacterId| {
            let looks = self.looks.iter();
            looks
                .filter(|cost| board.look(&cost.look).is_some_and(|look| look.character == *who))
                .map(LookCost::sum)
                .sum()
        };
        board.head().characters.iter().map(|who| (&who.id, of(&who.id))).collect()
    }

    /// The looks of each period, in story order, and last of those in none.
    pub fn by_period<'a>(&self, board: &'a Board) -> Vec<(Option<&'a PeriodId>, Money)> {
        let of = |period: Option<&PeriodId>| {
            let looks = self.looks.iter();
            looks
                .filter(|cost| board.relations().period_of_look(&cost.look) == period)
                .map(LookCost::sum)
                .sum()
        };
        let periods = board.head().periods.iter().map(|period| Some(&period.id)).chain([None]);
        periods
            .map(|period| (period, of(period)))
            .filter(|(period, sum)| period.is_some() || *sum != Money::ZERO)
            .collect()
    }
}

/// A sum for each minute on screen, of which a page is about one (common practice, no source); `None` for what is never
/// seen.
pub fn per_minute(sum: Money, pages: Eighths) -> Option<Money> {
    sum.parts(8, pages.get())
}

/// Pieces of which nothing says how they are made, where something says it of others of the look.
fn unmade(board: &Board, id: &LookId) -> Vec<String> {
    let Some(look) = board.look(id).filter(|look| !look.make.is_empty()) else { return Vec::new() };
    let pieces = look.pieces.iter().filter(|piece| look.make.get(&piece.name).is_none());
    pieces.map(|piece| format!("{}: nothing says how it is made", piece.name)).collect()
}

/// What the looks take of a cloth.
fn cloth(purchase: &Purchase<'_>, looks: &mut BTreeMap<&LookId, LookCost>) {
    let title = &purchase.cloth.title;
    for (look, piece, wrong) in &purchase.wrong {
        if let Some(cost) = looks.get_mut(look) {
            cost.lacks.push(format!("{piece}, {title}: {wrong}"));
        }
    }
    for part in &purchase.parts {
        let Some(cost) = looks.get_mut(&part.garment.look) else { continue };
        let piece = &part.garment.piece;
        let Some(price) = purchase.cloth.price else {
            let lack = format!("{piece}: {title} has no price");
            if !cost.lacks.contains(&lack) {
                cost.lacks.push(lack);
            }
            continue;
        };
        let each = words::amount(part.each);
        let toiles = match part.toiles {
            0 => String::new(),
            1 => " + 1 toile".to_owned(),
            toiles => format!(" + {toiles} toiles"),
        };
        cost.lines.push(Line {
            kind: Kind::Cloth,
            piece: piece.clone(),
            copies_of: copies_of(&part.garment),
            what: title.clone(),
            how: format!("{} × {each}{toiles}, at {}", part.copies, price.shown()),
            sum: part.cost(price),
        });
    }
}

fn copies_of(garment: &Garment) -> Option<(VersionId, BodyId)> {
    Some((garment.version.clone(), garment.wearer.clone()))
}

/// Hours and expenses of one piece.
struct Working<'a> {
    rates: &'a Pairs<Id<Work>, Money>,
    piece: &'a str,
    cost: &'a mut LookCost,
}

impl Working<'_> {
    /// What every copy of a version costs.
    fn copies(&mut self, make: &Make, demand: &Demand) {
        let copies = demand.made();
        if copies == 0 {
            return;
        }
        let more = version_of(make, &demand.garment.version).map(|version| &version.more_hours);
        for (work, hours) in make.hours.iter().chain(more.into_iter().flat_map(Pairs::iter)) {
            self.work(work, *hours, copies, Some(demand));
        }
        for expense in &make.costs {
            if let Some(each) = expense.each {
                self.other(expense, each, copies, Some(demand));
            }
        }
    }

    /// What is done and paid once for all copies.
    fn once(&mut self, make: &Make) {
        for (work, hours) in make.hours_once.iter() {
            self.work(work, *hours, 1, None);
        }
        for expense in &make.costs {
            if let Some(once) = expense.once {
                self.other(expense, once, 1, None);
            }
        }
    }

    fn work(&mut self, work: &Id<Work>, hours: Hours, copies: u32, of: Option<&Demand>) {
        let Some(rate) = self.rates.get(work) else {
            let lack = format!("{}: `{work}` has no rate", self.piece);
            if !self.cost.lacks.contains(&lack) {
                self.cost.lacks.push(lack);
            }
            return;
        };
        self.cost.lines.push(Line {
            kind: Kind::Work,
            piece: self.piece.to_owned(),
            copies_of: of.and_then(|demand| copies_of(&demand.garment)),
            what: work.to_string(),
            how: format!("{copies} × {hours}, at {}", rate.shown()),
            sum: rate.by_hours(hours, copies),
        });
    }

    fn other(&mut self, expense: &Expense, sum: Money, copies: u32, of: Option<&Demand>) {
        self.cost.lines.push(Line {
            kind: Kind::Other,
            piece: self.piece.to_owned(),
            copies_of: of.and_then(|demand| copies_of(&demand.garment)),
            what: expense.what.clone(),
            how: format!("{copies} × {}", sum.shown()),
            sum: sum.times(copies),
        });
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::board::told;

    fn board() -> Board {
        told::board(json!({
            "head": {
                "workroom": {"money": "500", "rates": {"sewing": "30", "cutting": "40.50"}},
                "characters": [{"id": "ada", "name": "Ada"}, {"id": "ben", "name": "Ben", "principal": false}],
            },
            "looks": {
                "coat": {"treatment": "invent", "period": "late", "pieces": [{"name": "coat"}], "make": {"coat": {
                    "cuts": [{"cloth": "serge", "lay": "2.25 m"}], "toiles": 1,
                    "hours": {"sewing": "4:20"}, "hours-once": {"cutting": 2, "draping": 1},
                    "costs": [{"cost": "buttons", "each": "1.25", "once": "3"}],
                    "versions": [{"version": "standing", "more-hours": {"sewing": "0:40"}}],
                }}},
                "apron": {"treatment": "invent", "character": "ben", "pieces": [{"name": "apron"}], "make": {"apron": {
                    "cuts": [{"cloth": "drill", "lay": "1 m"}],
                }}},
            },
            "cloths": {
                "serge": {"title": "Serge", "width": "150 cm", "price": "20", "test-strips": "50 cm"},
                "drill": {"title": "Drill", "width": "150 cm"},
            },
            "scenes": [{"scene": 1, "pages": "1 4/8", "wears": {"ada": "coat", "ben": "apron"}}],
            "schedule": [{"day": 1, "scenes": [1]}],
            "practice": {"spares": {"principal": 2}},
        }))
    }

    #[test]
    fn a_look_costs_cloth_work_and_the_rest_over_all_copies() {
        let board = board();
        let costs = Costs::of(&board);
        let coat = costs.look(&"coat".parse().unwrap()).unwrap();
        let lines: Vec<String> =
            coat.lines.iter().map(|line| format!("{} {}: {}", line.what, line.how, line.sum)).collect();
        assert_eq!(
            lines,
            [
                "Serge 2 × 2.25 m + 1 toile, at 20.00: 135.00",
                "sewing 2 × 4 h 20, at 30.00: 260.00",
                "sewing 2 × 0 h 40, at 30.00: 40.00",
                "buttons 2 × 1.25: 2.50",
                "cutting 1 × 2 h, at 40.50: 81.00",
                "buttons 1 × 3.00: 3.00",
            ]
        );
        assert_eq!((coat.sum(), coat.of(Kind::Work)), (Money::of_cents(52_150), Money::of_cents(38_100)));
        assert_eq!(coat.lacks, ["coat: `draping` has no rate"]);
        assert_eq!(costs.looks[1].lacks, ["apron: Drill has no price"]);
        assert_eq!(costs.beside, [("Serge".to_owned(), Money::of_cents(1_000))]);
        assert_eq!((costs.sum(), costs.left()), (Money::of_cents(53_150), Some(Money::of_cents(-3_150))));
        let pages = "1 4/8".parse().unwrap();
        assert_eq!(per_minute(coat.sum(), pages).unwrap().shown(), "347.67");
        assert_eq!(per_minute(coat.sum(), Eighths::default()), None);
    }

    /// A board of one coat and of the scenes and cloth that it needs, made so.
    fn made(make: serde_json::Value) -> Costs {
        Costs::of(&told::board(json!({
            "head": {"workroom": {"rates": {"sewing": "1"}}},
            "looks": {
                "coat": {"treatment": "invent", "pieces": [{"name": "coat"}], "make": make},
                "apron": {"treatment": "invent", "pieces": [{"name": "apron"}]},
            },
            "cloths": {"serge": {"title": "Serge", "width": "150 cm", "price": "20"}},
            "scenes": [{"scene": 1, "wears": {"ada": "coat"}}],
        })))
    }

    #[test]
    fn what_is_very_much_costs_as_much_as_it_is() {
        let crowd = |versions: serde_json::Value| {
            json!({"coat": {
                "cuts": [{"cloth": "serge", "lay": "5 m"}], "hours": {"sewing": 1000}, "toiles": 2, "versions": versions,
            }})
        };
        let costs = made(crowd(json!([{"version": "standing", "copies": {"ada": 250}}])));
        let coat = costs.look(&"coat".parse().unwrap()).unwrap();
        let lines: Vec<String> =
            coat.lines.iter().map(|line| format!("{}: {}", line.how, line.sum)).collect();
        assert_eq!(
            lines,
            ["250 × 5.00 m + 2 toiles, at 20.00: 25200.00", "250 × 1000 h, at 1.00: 250000.00"]
        );
        assert_eq!(costs.lacks(), 0);
    }

    #[test]
    fn what_is_done_once_is_paid_once_even_for_what_is_none_of_the_pieces() {
        let lost = |name: &str| {
            (
                name.to_owned(),
                json!({
                    "hours-once": {"sewing": 10},
                    "versions": [{"version": "wet", "copies": {"ada": 1}}, {"version": "dry", "copies": {"ada": 1}}],
                }),
            )
        };
        let costs = made([lost("cap"), lost("belt")].into_iter().collect::<serde_json::Map<_, _>>().into());
        assert_eq!(costs.sum(), Money::of_cents(2_000));
        assert_eq!(
            costs.look(&"coat".parse().unwrap()).unwrap().lacks,
            ["coat: nothing says how it is made"]
        );
        assert_eq!(costs.lacks(), 1, "with the apron nobody has begun");
    }

    #[test]
    fn sums_by_character_and_by_period_are_the_sum_of_the_looks() {
        let board = board();
        let costs = Costs::of(&board);
        let looks: Money = costs.looks.iter().map(LookCost::sum).sum();
        let of_cast: Money = costs.by_character(&board).iter().map(|(_, sum)| *sum).sum();
        let of_periods: Money = costs.by_period(&board).iter().map(|(_, sum)| *sum).sum();
        assert_eq!((of_cast, of_periods), (looks, looks));
    }
}
