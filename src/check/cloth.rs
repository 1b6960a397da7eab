//! Cloth and cost: what cannot be cut, what is too young for its year, trials that cross, and money.

use super::words::{listed, look_title, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, Cloth, ClothId, LookId};
use crate::trade::date::Date;
use crate::workroom::cloth::buy::{Purchase, purchases};
use crate::workroom::cloth::trials::{self, Next};
use crate::workroom::copies::plan::Plan;
use crate::workroom::cost::Costs;
use crate::workroom::words;

pub(super) fn findings(board: &Board, plan: &Plan) -> Vec<Finding> {
    let purchases = purchases(board, plan);
    let mut found: Vec<Finding> = purchases.iter().flat_map(|one| cannot_be_cut(board, one)).collect();
    for (id, cloth) in &board.records().cloths {
        found.extend(too_early(board, id, cloth));
        found.extend(crossed(id, cloth));
    }
    let costs = Costs::with(board, plan, &purchases);
    found.extend(without_price(board, &purchases));
    found.extend(without_rate(board));
    found.extend(over_money(board, &costs));
    found
}

/// Every cloth of a fibre that came into use after a look of it plays.
pub(super) fn young_fibres(board: &Board) -> Vec<Finding> {
    board.records().cloths.iter().flat_map(|(id, cloth)| too_early(board, id, cloth)).collect()
}

fn cannot_be_cut(board: &Board, purchase: &Purchase<'_>) -> Vec<Finding> {
    let finding = |(look, piece, wrong): &(LookId, String, crate::workroom::cloth::lay::NotLaid)| Finding {
        name: "cut-impossible",
        level: Level::Error,
        about: About::Cloth(purchase.id.clone()),
        text: format!(
            "{piece} of {} cannot be cut of {}: {wrong}.",
            quoted(look_title(board, look)),
            quoted(&purchase.cloth.title)
        ),
        todo: format!("Mend cloths/{}.yaml, or the cut in looks/{look}.yaml.", purchase.id),
    };
    purchase.wrong.iter().map(finding).collect()
}

/// Fibres that came into use after a year in which a look of the cloth is worn.
fn too_early(board: &Board, id: &ClothId, cloth: &Cloth) -> Vec<Finding> {
    let mut found = Vec::new();
    for (fibre, first) in cloth.fibres.iter().filter_map(|fibre| Some((fibre, fibre.first()?))) {
        let young = |look: &&LookId| first_year(board, look).is_some_and(|year| year < i64::from(first.year));
        let looks: Vec<&LookId> = board
            .relations()
            .looks_by_order()
            .iter()
            .filter(|look| is_of(board, look, id))
            .filter(young)
            .collect();
        if looks.is_empty() {
            continue;
        }
        let titles: Vec<String> = looks.iter().map(|look| quoted(look_title(board, look))).collect();
        found.push(Finding {
            name: "fibre-too-early",
            level: Level::Warning,
            about: About::Cloth(id.clone()),
            text: format!(
                "{} is of {}, in use since {} ({}), and {} plays before that.",
                quoted(&cloth.title),
                fibre.words(),
                first.year,
                first.what,
                listed(&titles)
            ),
            todo: format!(
                "Take a fibre of the time, or let it be where nobody sees it. Source: {}.",
                first.source
            ),
        });
    }
    found
}

fn is_of(board: &Board, look: &LookId, cloth: &ClothId) -> bool {
    let mut makes = board.look(look).into_iter().flat_map(|look| look.make.iter());
    makes.any(|(_, make)| {
        let more = make.versions.iter().any(|version| version.more_cloth.get(cloth).is_some());
        more || make.cuts.iter().any(|cut| cut.cloth == *cloth)
    })
}

/// The year of the first scene in which a look plays, else of its base, else of its period; of one that is not told
/// exactly, the last that it can be.
fn first_year(board: &Board, id: &LookId) -> Option<i64> {
    let last = |date: &Date| date.latest().map(|day| day.year());
    let scenes = board.relations().scenes_of(id).iter().filter_map(|at| board.records().scenes.get(*at));
    let played = scenes.filter_map(|scene| last(scene.date.as_ref()?)).min();
    let base = || last(board.outfit(board.look(id)?.base.as_ref()?)?.worn.as_ref()?);
    let period = || last(&board.period(board.relations().period_of_look(id)?)?.span);
    played.or_else(base).or_else(period)
}

fn crossed(id: &ClothId, cloth: &Cloth) -> Option<Finding> {
    let next = trials::next(&cloth.trials);
    matches!(next, Next::Crossed(..)).then(|| Finding {
        name: "trials-cross",
        level: Level::Warning,
        about: About::Cloth(id.clone()),
        text: format!("Of {} {}.", quoted(&cloth.title), words::next(next)),
        todo: "Look at the trials again, or try it in another weave or finish.".to_owned(),
    })
}

fn without_price(board: &Board, purchases: &[Purchase<'_>]) -> Option<Finding> {
    let unpriced = purchases.iter().filter(|one| one.cloth.price.is_none() && !one.parts.is_empty());
    let titles: Vec<String> = unpriced.map(|one| quoted(&one.cloth.title)).collect();
    // Where nothing has a price, nobody reckons with money yet.
    let reckons =
        board.head().workroom.money.is_some() || purchases.iter().any(|one| one.cloth.price.is_some());
    (reckons && !titles.is_empty()).then(|| Finding {
        name: "cloth-without-price",
        level: Level::Note,
        about: About::Board,
        text: format!(
            "{} {} no price, so the costs are too low.",
            listed(&titles),
            if titles.len() == 1 { "has" } else { "have" }
        ),
        todo: "Give a price by the metre or the skin.".to_owned(),
    })
}

fn without_rate(board: &Board) -> Option<Finding> {
    let rates = &board.head().workroom.rates;
    let makes = board.records().looks.values().flat_map(|look| look.make.iter()).map(|(_, make)| make);
    let works = makes.flat_map(|make| {
        let more = make.versions.iter().flat_map(|version| version.more_hours.keys());
        make.hours.keys().chain(make.hours_once.keys()).chain(more)
    });
    let mut lost: Vec<String> =
        works.filter(|work| rates.get(work).is_none()).map(|work| format!("`{work}`")).collect();
    lost.sort();
    lost.dedup();
    (!lost.is_empty()).then(|| Finding {
        name: "hours-without-rate",
        level: Level::Warning,
        about: About::Board,
        text: format!("Looks have hours of {}, of which no rate is given.", listed(&lost)),
        todo: "Give the rate of an hour under `workroom: rates` in board.yaml, or call the work by a name that has one.".to_owned(),
    })
}

fn over_money(board: &Board, costs: &Costs) -> Option<Finding> {
    let left = costs.left().filter(|left| left.is_negative())?;
    let currency = &board.head().workroom.currency;
    let sum =
        |money: crate::trade::money::Money| format!("{} {currency}", money.shown()).trim_end().to_owned();
    Some(Finding {
        name: "over-money",
        level: Level::Error,
        about: About::Board,
        text: format!(
            "The looks cost {} and there are {}: {} over.",
            sum(costs.sum()),
            sum(costs.money?),
            sum(-left)
        ),
        todo: "Make fewer copies, take cheaper cloth, or ask for more; `shirr report cost` says what each look costs.".to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample;
    use super::*;

    fn board(cloth: Value, make: Value, workroom: Value) -> Board {
        let mut it = json!({"title": "It", "width": "150 cm"});
        it.as_object_mut().unwrap().extend(cloth.as_object().unwrap().clone());
        sample::board(json!({
            "head": {"workroom": workroom},
            "looks": {"coat": {"title": "Coat", "treatment": "invent", "period": "late", "pieces": [{"name": "coat"}], "make": {"coat": make}}},
            "cloths": {"it": it},
            "scenes": [{"scene": 1, "date": "1927", "wears": {"ada": "coat"}}],
            "schedule": [{"day": 1, "scenes": [1]}],
        }))
    }

    fn cut() -> Value {
        json!({"cuts": [{"cloth": "it", "lay": "2 m"}]})
    }

    #[test]
    fn a_cloth_without_width_is_an_error_that_names_record_and_field() {
        let narrow = board(json!({"width": null}), cut(), json!({}));
        let found: Vec<Finding> =
            super::super::findings(&narrow).into_iter().filter(|one| one.name == "cut-impossible").collect();
        assert_eq!(found[0].about.to_string(), "cloth it");
        assert_eq!(
            found[0].text,
            "coat of “Coat” cannot be cut of “It”: the cloth has no `width`: give it, such as `150 cm`, or cut by `skins`."
        );
        assert_eq!(found[0].todo, "Mend cloths/it.yaml, or the cut in looks/coat.yaml.");
        assert_eq!(sample::texts(&board(json!({}), cut(), json!({})), "cut-impossible"), [""; 0]);
    }

    #[test]
    fn a_fibre_that_is_younger_than_its_scene_is_named_with_its_source() {
        let told =
            sample::texts(&board(json!({"fibres": ["wool", "nylon"]}), cut(), json!({})), "fibre-too-early");
        assert!(
            told[0].starts_with("“It” is of nylon, in use since 19")
                && told[0].ends_with("and “Coat” plays before that."),
            "{told:?}"
        );
        assert_eq!(
            sample::texts(&board(json!({"fibres": ["wool"]}), cut(), json!({})), "fibre-too-early"),
            [""; 0]
        );
        let unused = board(json!({"fibres": ["nylon"]}), json!({}), json!({}));
        assert_eq!(sample::texts(&unused, "fibre-too-early"), [""; 0]);
    }

    #[test]
    fn a_fibre_is_too_young_for_the_first_of_its_scenes_though_not_for_the_last_and_in_a_version_too() {
        let with = |make: Value, scenes: Value| {
            sample::board(json!({
                "looks": {"coat": {"title": "Coat", "treatment": "invent", "period": "late", "pieces": [{"name": "coat"}], "make": {"coat": make}}},
                "cloths": {"it": {"title": "It", "width": "150 cm", "fibres": ["nylon"]}},
                "scenes": scenes,
            }))
        };
        let scenes = |years: &[&str]| -> Value {
            let one = |(number, year): (usize, &&str)| json!({"scene": number, "date": year, "wears": {"ada": "coat"}});
            years.iter().enumerate().map(|(at, year)| one((at + 1, year))).collect()
        };
        let told =
            |make: Value, years: &[&str]| sample::texts(&with(make, scenes(years)), "fibre-too-early").len();
        let lined = || json!({"versions": [{"version": "wet", "more-cloth": {"it": "1 m"}}]});
        assert_eq!((told(cut(), &["1927", "1955"]), told(cut(), &["1955", "1920/1949"])), (1, 0));
        assert_eq!((told(lined(), &["1927"]), told(lined(), &["1955"])), (1, 0));
    }

    #[test]
    fn trials_that_cross_are_named_and_those_that_close_in_are_not() {
        let trials = |light: &str, heavy: &str| {
            json!({"trials": [
                {"trial": 1, "weight": light, "verdict": "too-light"}, {"trial": 2, "weight": heavy, "verdict": "too-heavy"},
            ]})
        };
        assert_eq!(
            sample::texts(&board(trials("300 g/m²", "280 g/m²"), cut(), json!({})), "trials-cross"),
            [
                "Of “It” 300 g/m² was too light and 280 g/m² too heavy: it is not the weight; try another weave or finish."
            ]
        );
        assert_eq!(
            sample::texts(&board(trials("250 g/m²", "280 g/m²"), cut(), json!({})), "trials-cross"),
            [""; 0]
        );
    }

    #[test]
    fn what_has_no_price_or_rate_and_what_costs_too_much_is_named() {
        let sewn = json!({"cuts": [{"cloth": "it", "lay": "2 m"}], "hours": {"sewing": 2, "felling": 1}});
        let poor = board(
            json!({"price": "20"}),
            sewn,
            json!({"money": "99.99", "rates": {"sewing": "30"}, "currency": "crowns"}),
        );
        assert_eq!(
            sample::texts(&poor, "over-money"),
            ["The looks cost 100.00 crowns and there are 99.99 crowns: 0.01 crowns over."]
        );
        assert_eq!(
            sample::texts(&poor, "hours-without-rate"),
            ["Looks have hours of `felling`, of which no rate is given."]
        );
        let enough = board(json!({}), cut(), json!({"money": "40"}));
        assert_eq!(sample::texts(&enough, "over-money"), [""; 0]);
        assert_eq!(
            sample::texts(&enough, "cloth-without-price"),
            ["“It” has no price, so the costs are too low."]
        );
        assert_eq!(sample::texts(&board(json!({}), cut(), json!({})), "cloth-without-price"), [""; 0]);
    }
}
