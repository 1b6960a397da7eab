//! Fit: bodies that nobody has, garments with too little room, and what fittings and versions say of nothing.

use super::words::{counted, listed, look_title, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, Body, Character, Cloth, Look, LookId, Make, Rule};
use crate::trade::body::BodyMeasure;
use crate::trade::length::{Length, Unit};
use crate::workroom::fit::{Row, ease, plausible, rows, wearer_of};

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    let unit = board.head().units;
    let mut found = Vec::new();
    for character in &board.head().characters {
        for body in &character.bodies {
            found.extend(implausible(character, body, unit));
        }
    }
    for (id, outfit) in &board.records().outfits {
        let lost =
            outfit.measured.keys().filter(|name| !outfit.pieces.iter().any(|piece| piece.name == **name));
        found.extend(no_piece(About::Outfit(id.clone()), &outfit.title, "measured", lost));
    }
    for id in board.relations().looks_by_order() {
        let Some(look) = board.look(id) else { continue };
        let lost = look.make.keys().filter(|name| !look.pieces.iter().any(|piece| piece.name == **name));
        found.extend(no_piece(About::Look(id.clone()), &look.title, "make", lost));
        for (piece, make) in look.make.iter() {
            found.extend(measures(board, id, look, piece, make));
            found.extend(added_to_nothing(id, look, piece, make));
        }
        found.extend(fitted_nothing(id, look));
    }
    found
}

/// Measures of one body that nobody has, or that do not agree. Of somebody who is smaller than most adults nothing is
/// said by what was published of adults alone.
fn implausible(character: &Character, body: &Body, unit: Unit) -> Vec<Finding> {
    let measures: Vec<(BodyMeasure, Length)> =
        body.measures.iter().map(|(measure, size)| (*measure, size.length())).collect();
    let stature = body.measures.get(&BodyMeasure::Stature).map(|size| size.length());
    let is_small = stature.is_some_and(|stature| stature.millimetres() < SMALL);
    let single = measures.iter().filter_map(|(measure, length)| plausible::doubt(*measure, *length));
    let single =
        single.filter(|doubt| !(is_small && doubt.range.is_of_adults())).map(|doubt| doubt.words(unit));
    let between = plausible::doubts_between(&measures).into_iter().map(|clash| clash.words(unit));
    let finding = |doubt: String| Finding {
        name: "measure-implausible",
        level: Level::Warning,
        about: About::Character(character.id.clone()),
        text: format!("{} ({}): {doubt}.", body.who, body.id).replace("?.", "?"),
        todo: format!("Measure again, or mend it under `bodies` of {}.", character.name),
    };
    single.chain(between).map(finding).collect()
}

/// In millimetres; common practice, no source.
const SMALL: f64 = 1_500.0;

fn no_piece<'a>(
    about: About,
    title: &str,
    field: &str,
    lost: impl Iterator<Item = &'a String>,
) -> Option<Finding> {
    let lost: Vec<String> = lost.map(|name| quoted(name)).collect();
    (!lost.is_empty()).then(|| Finding {
        name: "make-of-no-piece",
        level: Level::Error,
        about,
        text: format!(
            "{} has {} under `{field}`, which is none of its pieces.",
            quoted(title),
            listed(&lost)
        ),
        todo: "Give the piece and what is said of it the same name.".to_owned(),
    })
}

/// What the measures of one piece lack, and where they leave too little room.
fn measures(board: &Board, id: &LookId, look: &Look, piece: &str, make: &Make) -> Vec<Finding> {
    let all = rows(board, look, piece, None, &wearer_of(board, look));
    let lacking: Vec<&str> =
        all.iter().filter(|row| row.result().is_none()).map(|row| row.measure.name.as_str()).collect();
    let about = || About::Look(id.clone());
    let mut found = Vec::new();
    if !lacking.is_empty() {
        found.push(Finding {
            name: "measure-lacks",
            level: Level::Note,
            about: about(),
            text: format!(
                "{} of {piece} of {} cannot be carried over yet: {}.",
                super::words::capital(&counted(lacking.len(), "measure")),
                quoted(look_title(board, id)),
                listed(&lacking)
            ),
            todo: "Give what the original garment, its body or the wearer measures.".to_owned(),
        });
    }
    let mut cloths = make.cuts.iter().filter_map(|cut| board.cloth(&cut.cloth)).peekable();
    if cloths.peek().is_some() && cloths.all(|cloth: &Cloth| !cloth.gives()) {
        found.extend(all.iter().filter_map(|row| tight(board, look, piece, row)).map(|(text, todo)| {
            Finding { name: "ease-too-little", level: Level::Warning, about: about(), text, todo }
        }));
    }
    found
}

/// What goes round the body in woven cloth with less room than is usual. Only what is carried over with its ease is
/// surely the garment's own girth: a lapel may be cut in ratio to a chest.
fn tight(board: &Board, look: &Look, piece: &str, row: &Row<'_>) -> Option<(String, String)> {
    let Rule::Ease { of, .. } = row.measure.rule else { return None };
    let (body, cut) = (row.wearer?.length(), row.result()?);
    let lack = ease::lack(of, body, cut)?;
    let unit = board.head().units;
    let text = format!(
        "{} of {piece} of {} has {} of room over {} and woven cloth takes at least {}.",
        row.measure.name,
        quoted(&look.title),
        lack.ease.shown(unit),
        of.words(),
        lack.least.shown(unit)
    );
    Some((
        text,
        format!(
            "Cut it wider, take a cloth that gives, or let it be where it should grip ({}).",
            lack.source
        ),
    ))
}

fn added_to_nothing(id: &LookId, look: &Look, piece: &str, make: &Make) -> Option<Finding> {
    let has = |name: &String| make.measures.iter().any(|measure| measure.name == *name);
    let adds = make.versions.iter().flat_map(|version| &version.adds);
    let lost: Vec<String> = adds.filter(|add| !has(&add.to)).map(|add| quoted(&add.to)).collect();
    (!lost.is_empty()).then(|| Finding {
        name: "added-to-no-measure",
        level: Level::Warning,
        about: About::Look(id.clone()),
        text: format!(
            "A version of {piece} of {} adds to {}, which it does not measure.",
            quoted(&look.title),
            listed(&lost)
        ),
        todo: "Give the measure, or add to one that there is.".to_owned(),
    })
}

fn fitted_nothing(id: &LookId, look: &Look) -> Option<Finding> {
    let has = |piece: &String, name: &String| {
        look.make.get(piece).is_some_and(|make| make.measures.iter().any(|measure| measure.name == *name))
    };
    let found = look.fittings.iter().flat_map(|fitting| &fitting.found);
    let mut lost: Vec<String> = found
        .filter(|found| !has(&found.piece, &found.measure))
        .map(|found| quoted(&format!("{} of {}", found.measure, found.piece)))
        .collect();
    lost.dedup();
    (!lost.is_empty()).then(|| Finding {
        name: "fitting-of-no-measure",
        level: Level::Warning,
        about: About::Look(id.clone()),
        text: format!(
            "A fitting of {} speaks of {}, which is not measured.",
            quoted(&look.title),
            listed(&lost)
        ),
        todo: "Give the measure under `make`, or name one that there is.".to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample;
    use super::*;

    fn bodies(measures: Value) -> Board {
        sample::board(json!({"head": {"characters": [
            {"id": "ada", "name": "Ada", "bodies": [{"id": "kim", "who": "Kim", "is": "performer", "measures": measures}]},
        ]}}))
    }

    #[test]
    fn a_slip_between_inches_and_centimetres_is_doubted() {
        let told = sample::texts(&bodies(json!({"chest-girth": "38 cm"})), "measure-implausible");
        assert_eq!(told.len(), 1);
        assert!(
            told[0].starts_with("Kim (kim): 38 cm of chest girth is less than")
                && told[0].ends_with("cm written for in?"),
            "{told:?}"
        );
        assert_eq!(sample::names(&bodies(json!({"chest-girth": "38 in"}))), [""; 0]);
        let apart = sample::texts(
            &bodies(json!({"chest-girth": "80 cm", "waist-girth": "95 cm"})),
            "measure-implausible",
        );
        assert!(apart[0].contains("95 cm of waist girth beside 80 cm of chest girth"), "{apart:?}");
    }

    #[test]
    fn a_child_is_not_held_to_what_was_published_of_adults() {
        assert_eq!(sample::names(&bodies(json!({"chest-girth": "62 cm", "stature": "120 cm"}))), [""; 0]);
        assert_eq!(sample::names(&bodies(json!({"chest-girth": "62 cm"}))), ["measure-implausible"]);
    }

    fn coat(garment: &str, cloth: Value, more: Value) -> Board {
        let mut look = json!({
            "treatment": "invent", "title": "Coat", "pieces": [{"name": "coat"}],
            "make": {"coat": {
                "measures": [{"measure": "chest", "rule": "ease", "of": "chest-girth", "original": garment}],
                "cuts": [{"cloth": "it", "lay": "2 m"}],
            }},
        });
        look.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        sample::board(json!({
            "head": {"characters": [{"id": "ada", "name": "Ada", "bodies": [
                {"id": "real", "who": "Ada", "is": "original", "measures": {"chest-girth": "90 cm"}},
                {"id": "kim", "who": "Kim", "is": "performer", "measures": {"chest-girth": "95 cm"}},
            ]}]},
            "looks": {"coat": look},
            "cloths": {"it": cloth},
        }))
    }

    #[test]
    fn too_little_room_in_woven_cloth_is_named_and_cloth_that_gives_is_let_be() {
        let woven = || json!({"title": "Serge", "width": "150 cm", "weave": "twill"});
        let told = sample::texts(&coat("92 cm", woven(), json!({})), "ease-too-little");
        assert_eq!(
            told,
            [
                "chest of coat of “Coat” has 2 cm of room over chest girth and woven cloth takes at least 3.8 cm."
            ]
        );
        assert_eq!(sample::texts(&coat("94 cm", woven(), json!({})), "ease-too-little"), [""; 0]);
        let knitted = json!({"title": "Jersey", "width": "150 cm", "weave": "half-cardigan rib"});
        assert_eq!(sample::texts(&coat("92 cm", knitted, json!({})), "ease-too-little"), [""; 0]);
    }

    #[test]
    fn what_does_not_go_round_the_body_has_no_room_over_it() {
        let serge = json!({"title": "Serge", "width": "150 cm"});
        let measured = |measure: Value| {
            let make = json!({"coat": {"measures": [measure], "cuts": [{"cloth": "it", "lay": "2 m"}]}});
            sample::texts(&coat("99 cm", serge.clone(), json!({"make": make})), "ease-too-little").len()
        };
        let chest = |rule: &str, more: Value| {
            let mut all = json!({"measure": "it", "rule": rule, "of": "chest-girth", "original": "14 cm"});
            all.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
            measured(all)
        };
        assert_eq!((chest("ratio", json!({})), chest("landmark", json!({"angle": 60}))), (0, 0));
        assert_eq!(chest("ease", json!({"original": "92 cm"})), 1);
    }

    #[test]
    fn what_is_said_of_pieces_and_measures_that_are_not_there_is_named() {
        let serge = || json!({"title": "Serge", "width": "150 cm"});
        let fitted = |measure: &str| json!({"fittings": [{"on": "2027-02-01", "found": [{"piece": "coat", "measure": measure}]}]});
        assert_eq!(
            sample::texts(&coat("99 cm", serge(), fitted("hip")), "fitting-of-no-measure"),
            ["A fitting of “Coat” speaks of “hip of coat”, which is not measured."]
        );
        assert_eq!(sample::texts(&coat("99 cm", serge(), fitted("chest")), "fitting-of-no-measure"), [""; 0]);
        let make = json!({
            "hat": {}, "coat": {
                "measures": [{"measure": "back", "rule": "same"}],
                "versions": [{"version": "seated", "adds": [{"to": "leg", "rise": "4 cm"}, {"to": "back", "reach": "2 cm"}]}],
            },
        });
        let lost = coat("99 cm", serge(), json!({"make": make}));
        assert_eq!(
            sample::texts(&lost, "make-of-no-piece"),
            ["“Coat” has “hat” under `make`, which is none of its pieces."]
        );
        assert_eq!(
            sample::texts(&lost, "added-to-no-measure"),
            ["A version of coat of “Coat” adds to “leg”, which it does not measure."]
        );
        assert_eq!(
            sample::texts(&lost, "measure-lacks"),
            ["One measure of coat of “Coat” cannot be carried over yet: back."]
        );
        let measured = sample::board(json!({"outfits": {"smock": {
            "title": "Smock", "worn": "1920", "pieces": [{"name": "smock"}], "measured": {"smok": {"chest": "90 cm"}, "smock": {}},
        }}}));
        assert_eq!(
            sample::texts(&measured, "make-of-no-piece"),
            ["“Smock” has “smok” under `measured`, which is none of its pieces."]
        );
    }
}
