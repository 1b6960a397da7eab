//! What the workroom reckons, in words: every number with what it is made of. Screens and reports say it alike.

use super::asks::Asked;
use super::cloth::colour::Nearness;
use super::cloth::lay::Amount;
use super::cloth::print::PrintFile;
use super::cloth::trials::{self, Next};
use super::copies::Back;
use super::copies::plan::{Demand, Reason, Worn};
use super::fit::{Carried, Lack, Origin, Row};
use crate::board::{ActionId, Added, Board, Cloth, Practice, Rule};
use crate::trade::length::{Length, Size, Unit};

/// How a measure comes about: `bust girth 96 cm + (garment 84 cm − original 91 cm) = 89 cm`, then what a fitting decided
/// and what the version adds.
pub fn row(row: &Row<'_>, unit: Unit) -> String {
    let carried = match row.carried {
        Ok(carried) => self::carried(row, carried, unit),
        Err(lack) => self::lack(lack),
    };
    let decided =
        row.decided.map(|(on, size)| format!("; fitted {}: {}", on.short(), size.length().shown(unit)));
    let added: Vec<String> =
        row.added.iter().map(|(by, length)| format!("; {}", added(*by, *length, unit))).collect();
    format!("{carried}{}{}", decided.unwrap_or_default(), added.concat())
}

fn carried(row: &Row<'_>, carried: Carried, unit: Unit) -> String {
    let shown = |length: Length| length.shown(unit);
    let garment = row.garment.map(|size| shown(size.length())).unwrap_or_default();
    let original = match row.original {
        Some(Origin::Told(size)) => format!("original {}", shown(size.length())),
        Some(Origin::Inferred(size)) => format!("original {} (inferred)", shown(size.length())),
        None => "original".to_owned(),
    };
    let wearer = row.wearer.map(|size| shown(size.length())).unwrap_or_default();
    let result = shown(carried.length());
    match (row.measure.rule, carried) {
        (Rule::Ease { of, .. }, _) => {
            format!("{} {wearer} + (garment {garment} − {original}) = {result}", of.words())
        }
        (Rule::Ratio { of, .. }, _) => {
            format!("{} {wearer} × garment {garment} / {original} = {result}", of.words())
        }
        (Rule::Landmark { of, angle, .. }, Carried::Edge(edge)) => {
            let fraction = (edge.fraction * 100.0).round();
            format!(
                "falls at {fraction} % of {} {wearer} = {}, at {angle}: {result} deep",
                of.words(),
                shown(edge.falls)
            )
        }
        (Rule::Landmark { .. } | Rule::Same, _) => format!("as it was, {result}"),
    }
}

/// What a measure lacks, and what to do.
pub fn lack(lack: Lack) -> String {
    match lack {
        Lack::Garment => {
            "what did the original garment measure? Give `original`, or `measured` on the base outfit"
                .to_owned()
        }
        Lack::Original(of) => {
            format!(
                "what is the original's {}? Give it on the original's body, or the ease as `eased`",
                of.words()
            )
        }
        Lack::Wearer(of) => format!("the wearer's {} is not measured yet", of.words()),
        Lack::Sense => {
            "it comes to nothing, or to more than a kilometre: look at the numbers again".to_owned()
        }
    }
}

/// What a version adds to a measure: `pad 2 cm over 180° + 6.3 cm`.
pub fn added(by: Added, length: Length, unit: Unit) -> String {
    let longer = length.shown(unit);
    match by {
        Added::Pad { thick, arc } => format!("pad {} over {arc}: + {longer}", thick.length().shown(unit)),
        Added::Rise(_) => format!("seated rise: + {longer}"),
        Added::Reach(_) => format!("reach: + {longer}"),
    }
}

/// Why there must be so many copies, in a sentence.
pub fn reason(board: &Board, practice: &Practice, demand: &Demand, reason: &Reason) -> String {
    match reason {
        Reason::OutAtOnce(uses) => {
            let worn: Vec<&Worn> = uses.iter().filter_map(|at| demand.worn.get(*at)).collect();
            let out = demand.need.copies;
            match worn.as_slice() {
                [only] => format!("{out}: {}", use_of(board, practice, only)),
                several => {
                    let each: Vec<String> =
                        several.iter().map(|worn| use_of(board, practice, worn)).collect();
                    format!("{out} out of hand at once: {}", each.join("; "))
                }
            }
        }
        Reason::Unplaced(copies) => {
            let heaviest = demand.unplaced.iter().max_by_key(|worn| worn.uses.takes);
            let is_gone = |worn: &&Worn| worn.uses.back == Back::Never;
            if let Some(heaviest) = heaviest.filter(|worn| worn.uses.takes == *copies) {
                return format!(
                    "{copies} for what no shooting day has yet: {}",
                    use_of(board, practice, heaviest)
                );
            }
            let gone = demand.unplaced.iter().filter(is_gone).map(|worn| use_of(board, practice, worn));
            format!(
                "{copies}, since so many are gone with what no shooting day has yet: {}",
                gone.collect::<Vec<_>>().join("; ")
            )
        }
        Reason::Spares { spares, destroyed } => {
            format!(
                "{spares} spare, since {destroyed} {} destroyed",
                if *destroyed == 1 { "is" } else { "are" }
            )
        }
        Reason::Principal(least) => format!("never fewer than {least} of what a principal wears"),
    }
}

/// One use: `day 13, sc 27: swims, 6 takes, each a fresh one; back after 2 days`.
pub fn use_of(board: &Board, practice: &Practice, worn: &Worn) -> String {
    let day = worn.at.and_then(|at| board.records().schedule.get(at));
    let place = match day {
        Some(day) => format!("day {}, sc {}", day.day, worn.scene),
        None => format!("sc {}", worn.scene),
    };
    let does: Vec<&str> = worn.actions.iter().map(|id| says(practice, id)).collect();
    let does = if does.is_empty() { "worn".to_owned() } else { does.join(", ") };
    let takes = match (worn.takes, worn.uses.takes) {
        (1, _) => String::new(),
        (takes, 1) => format!(", {takes} takes in one copy"),
        (takes, _) => format!(", {takes} takes, each in a fresh one"),
    };
    format!("{place}: {does}{takes}{}", back(worn.uses.back))
}

fn back(back: Back) -> String {
    match back {
        Back::After(0) => String::new(),
        Back::After(1) => ", ready the day after".to_owned(),
        Back::After(days) => format!(", ready after {days} days"),
        Back::Never => ", gone".to_owned(),
    }
}

/// What trials come to, and what to try next.
pub fn next(next: Next) -> String {
    match next {
        Next::Open => "nothing was tried yet that says anything of the weight".to_owned(),
        Next::Right(weight) => format!("right at {weight}"),
        Next::Try(weight) => format!("try {weight} next"),
        Next::Heavier(weight) => format!("try something heavier than {weight}"),
        Next::Lighter(weight) => format!("try something lighter than {weight}"),
        Next::Crossed(light, heavy) => format!(
            "{light} was too light and {heavy} too heavy: it is not the weight; try another weave or finish"
        ),
    }
}

/// What a cutter and a dyer must mind of a cloth.
pub fn to_mind(cloth: &Cloth, unit: Unit) -> Vec<String> {
    let mut all = Vec::new();
    let repeat = |size: Size| size.length().shown(unit);
    match (cloth.repeat, cloth.repeat_across) {
        (Some(along), Some(across)) => {
            all.push(format!("repeat {} along, {} across", repeat(along), repeat(across)))
        }
        (Some(along), None) => all.push(format!("repeat {} along", repeat(along))),
        (None, Some(across)) => all.push(format!("repeat {} across", repeat(across))),
        (None, None) => {}
    }
    if cloth.nap {
        all.push("nap: cut one way".to_owned());
    }
    all.extend(cloth.shrinkage.map(|part| format!("shrinks {part}: wash before cutting")));
    all.extend(cloth.stretch.map(|part| format!("gives {part}")));
    if !cloth.finish.is_empty() {
        all.push(cloth.finish.clone());
    }
    if let Some(near) = Nearness::of(cloth) {
        all.push(format!("colour beside the source: {} (ΔE00 {:.1})", near.word(), near.difference));
    }
    if let Some(file) = PrintFile::of(cloth) {
        let megabytes = file.bytes().div_ceil(1_000_000);
        all.push(format!(
            "print file {} × {} pixels, {megabytes} MB without compression",
            file.across, file.along
        ));
    }
    if !cloth.trials.is_empty() {
        all.push(next(trials::next(&cloth.trials)));
    }
    all
}

/// What raised a caution: `sc 27: is in the water, in bathing costume`.
pub fn because(practice: &Practice, asked: &Asked) -> String {
    let scene = asked.scene.as_ref().map(|scene| format!("sc {scene}"));
    let does = asked.action.as_ref().map(|id| says(practice, id).to_owned());
    let of = asked.piece.as_ref().map(|piece| format!("in {piece}"));
    let done = [does, of].into_iter().flatten().collect::<Vec<_>>().join(", ");
    scene.map_or(done.clone(), |scene| format!("{scene}: {done}"))
}

/// What somebody does in an action.
pub fn says<'a>(practice: &'a Practice, id: &'a ActionId) -> &'a str {
    let says = practice.action(id).map(|action| action.says.as_str()).filter(|says| !says.is_empty());
    says.unwrap_or(id.as_str())
}

/// So much of a cloth: `2.25 m`, `3 skins`.
pub fn amount(amount: Amount) -> String {
    match amount {
        Amount::Length(length) => length.in_metres(),
        Amount::Skins(1) => "1 skin".to_owned(),
        Amount::Skins(skins) => format!("{skins} skins"),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::board::told;
    use crate::workroom::copies::plan::Plan;
    use crate::workroom::fit::rows;

    #[test]
    fn a_measure_says_its_rule_its_inputs_and_its_result() {
        let board = told::board(json!({
            "head": {"characters": [{"id": "ada", "name": "Ada", "bodies": [
                {"id": "real", "who": "Ada herself", "is": "original", "measures": {"bust-girth": "91 cm", "inside-leg-length": "74 cm", "neck-length": "8 cm"}},
                {"id": "kim", "who": "Kim", "is": "performer", "measures": {"bust-girth": "96 cm", "inside-leg-length": "80 cm", "neck-length": "10 cm", "knee-girth": "38 cm"}},
            ]}]},
            "outfits": {"wool": {"title": "Wool", "measured": {"costume": {"bust": "84 cm", "leg": "20 cm"}}}},
            "looks": {"wool": {
                "base": "wool", "pieces": [{"name": "costume"}],
                "make": {"costume": {
                    "measures": [
                        {"measure": "bust", "rule": "ease", "of": "bust-girth"},
                        {"measure": "leg", "rule": "ratio", "of": "inside-leg-length"},
                        {"measure": "collar", "rule": "landmark", "of": "neck-length", "fraction": 0.6, "angle": 70},
                        {"measure": "braid", "rule": "same", "original": "1/2 in"},
                        {"measure": "knee", "rule": "ease", "of": "knee-girth", "original": "46 cm", "eased": "8 cm"},
                        {"measure": "hip", "rule": "ease", "of": "hip-girth", "original": "99 cm"},
                        {"measure": "back", "rule": "same"},
                    ],
                    "versions": [{"version": "floor", "adds": [{"to": "knee", "pad": "2 cm", "arc": 180}]}],
                }},
                "fittings": [
                    {"on": "2027-02-01", "found": [{"piece": "costume", "measure": "bust", "decided": "91 cm"}]},
                    {"on": "2027-03-02", "found": [{"piece": "costume", "measure": "bust", "measured": "90 cm", "pinned": "-1 cm", "decided": "88 cm"}]},
                ],
            }},
        }));
        let look = board.look(&"wool".parse().unwrap()).unwrap();
        let floor = "floor".parse().unwrap();
        let all = rows(&board, look, "costume", Some(&floor), &"kim".parse().unwrap());
        let said: Vec<String> = all.iter().map(|one| row(one, Unit::Centimetres)).collect();
        assert_eq!(
            said,
            [
                "bust girth 96 cm + (garment 84 cm − original 91 cm) = 89 cm; fitted 2 Mar 2027: 88 cm",
                "inside leg length 80 cm × garment 20 cm / original 74 cm = 21.6 cm",
                "falls at 60 % of neck length 10 cm = 6 cm, at 70°: 6.4 cm deep",
                "as it was, 1.3 cm",
                "knee girth 38 cm + (garment 46 cm − original 38 cm (inferred)) = 46 cm; pad 2 cm over 180°: + 6.3 cm",
                "what is the original's hip girth? Give it on the original's body, or the ease as `eased`",
                "what did the original garment measure? Give `original`, or `measured` on the base outfit",
            ]
        );
        let results: Vec<_> =
            all.iter().map(|one| one.result().map(|length| length.shown(Unit::Centimetres))).collect();
        assert_eq!(results[0].as_deref(), Some("88 cm"));
        assert_eq!(results[4].as_deref(), Some("52.3 cm"));
        assert_eq!(results[5], None);
    }

    #[test]
    fn a_number_of_copies_says_its_reasons() {
        let board = told::board(json!({
            "looks": {"wool": {"treatment": "invent", "pieces": [{"name": "costume"}]}},
            "scenes": [
                {"scene": 1, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "plunge", "takes": 3}]}},
                {"scene": 2, "wears": {"ada": "wool"}, "does": {"ada": [{"action": "tear", "takes": 2}]}},
            ],
            "schedule": [{"day": 1, "scenes": [1]}, {"day": 2, "scenes": [2]}],
            "practice": {"spares": {"principal": 9, "for-destroyed": 4}, "turnaround": {"wet": 2}, "actions": [
                {"action": "plunge", "says": "goes in dry", "does": "wet", "fresh": true},
                {"action": "tear", "does": "destroy", "fresh": true},
            ]},
        }));
        let (plan, practice) = (Plan::of(&board), board.practice());
        let demand = &plan.demands[0];
        let said: Vec<String> =
            demand.reasons().iter().map(|one| reason(&board, &practice, demand, one)).collect();
        assert_eq!(
            said,
            [
                "5 out of hand at once: day 1, sc 1: goes in dry, 3 takes, each in a fresh one, ready after 2 days; \
                 day 2, sc 2: tear, 2 takes, each in a fresh one, gone",
                "1 spare, since 2 are destroyed",
                "never fewer than 9 of what a principal wears",
            ]
        );
    }
}
