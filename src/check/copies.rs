//! Copies and versions: too few of them, and what scenes do in what.

use std::collections::BTreeMap;

use super::words::{capital, listed, look_title, quoted};
use super::{About, Finding, Level};
use crate::board::{Board, Doing, LookId, Practice, Scene, SceneNumber, VersionId};
use crate::workroom::copies::plan::{Demand, Garment, Plan, has_words};
use crate::workroom::{fit, words};

pub(super) fn findings(board: &Board, plan: &Plan) -> Vec<Finding> {
    let practice = board.practice();
    let mut found: Vec<Finding> =
        plan.demands.iter().filter_map(|one| too_few(board, &practice, one)).collect();
    found.extend(plan.demands.iter().filter_map(|one| version_missing(board, one)));
    found.extend(versions_differ(board, plan));
    for scene in board.scenes() {
        found.extend(done_in_nothing(board, scene));
    }
    found
}

/// The look, the piece and the version, for whom: `“The crossing black”: bathing costume, wet, for Tamsin Orrell`.
fn what(board: &Board, garment: &Garment) -> String {
    let Garment { look, piece, version, wearer } = garment;
    format!("{}: {piece}, {version}, for {}", quoted(look_title(board, look)), board.who_is(wearer))
}

fn too_few(board: &Board, practice: &Practice, demand: &Demand) -> Option<Finding> {
    let planned = u32::from(demand.planned?);
    let copies = demand.copies();
    if planned >= copies {
        return None;
    }
    let reasons = demand.reasons();
    let only_for_a_principal = planned >= demand.for_uses();
    let name = if only_for_a_principal { "too-few-for-a-principal" } else { "copies-too-few" };
    let why: Vec<String> =
        reasons.iter().map(|reason| words::reason(board, practice, demand, reason)).collect();
    let are = if planned == 1 { "is" } else { "are" };
    Some(Finding {
        name,
        level: if only_for_a_principal { Level::Warning } else { Level::Error },
        about: About::Look(demand.garment.look.clone()),
        text: format!(
            "{}: {} {are} planned and {copies} needed ({}).",
            what(board, &demand.garment),
            if planned == 0 { "no copies".to_owned() } else { counted_copies(planned) },
            why.join("; ")
        ),
        todo: "Plan more copies, give them longer to come back, or plan fewer takes.".to_owned(),
    })
}

fn counted_copies(copies: u32) -> String {
    match copies {
        1 => "one copy".to_owned(),
        copies => format!("{copies} copies"),
    }
}

fn version_missing(board: &Board, demand: &Demand) -> Option<Finding> {
    let Garment { look, piece, version, .. } = &demand.garment;
    // Of what the workroom has not begun with, nothing is missing yet.
    let begun = board.look(look)?.make.get(piece).is_some_and(|make| !make.versions.is_empty());
    if demand.is_there || !begun {
        return None;
    }
    let scenes: Vec<String> =
        demand.worn.iter().chain(&demand.unplaced).map(|worn| worn.scene.to_string()).collect();
    let scene = if scenes.len() == 1 { "scene" } else { "scenes" };
    let needs = if scenes.len() == 1 { "needs" } else { "need" };
    Some(Finding {
        name: "version-missing",
        level: Level::Error,
        about: About::Look(look.clone()),
        text: format!(
            "{} {} {needs} {piece} of {} in a version {}, which it does not have.",
            capital(scene),
            listed(&scenes),
            quoted(look_title(board, look)),
            quoted(version.as_str())
        ),
        todo: "Add the version with its rigs and copies, or name the pieces that the action concerns."
            .to_owned(),
    })
}

/// A piece of a look that is seen in several versions in the same scenes.
#[derive(Default)]
struct Apart {
    scenes: Vec<String>,
    versions: Vec<String>,
    how: Vec<String>,
}

/// Two versions of a piece in one scene that an eye could tell apart.
fn versions_differ(board: &Board, plan: &Plan) -> Vec<Finding> {
    let mut found: BTreeMap<(&LookId, &String), Apart> = BTreeMap::new();
    for (place, versions) in seen_together(plan) {
        let how = versions.iter().flat_map(|version| differs(board, place.0, place.1, version));
        let how: Vec<&String> = how.collect();
        if how.is_empty() {
            continue;
        }
        let apart = found.entry((place.0, place.1)).or_default();
        apart.scenes.push(place.2.to_string());
        once(&mut apart.versions, versions.iter().map(|version| version.as_str()));
        once(&mut apart.how, how.into_iter().map(String::as_str));
    }
    found.into_iter().map(|((look, piece), apart)| apart.finding(board, look, piece)).collect()
}

/// Where several versions of a piece are seen in one scene: which.
fn seen_together(plan: &Plan) -> BTreeMap<(&LookId, &String, &SceneNumber), Vec<&VersionId>> {
    let mut seen: BTreeMap<(&LookId, &String, &SceneNumber), Vec<&VersionId>> = BTreeMap::new();
    for demand in &plan.demands {
        let Garment { look, piece, version, .. } = &demand.garment;
        for worn in demand.worn.iter().chain(&demand.unplaced) {
            let versions = seen.entry((look, piece, &worn.scene)).or_default();
            if !versions.contains(&version) {
                versions.push(version);
            }
        }
    }
    seen.retain(|_, versions| versions.len() > 1);
    seen
}

/// What an eye could see of a version that is not as designed.
fn differs<'a>(board: &'a Board, look: &LookId, piece: &String, version: &VersionId) -> &'a [String] {
    let make = board.look(look).and_then(|look| look.make.get(piece));
    make.and_then(|make| fit::version_of(make, version)).map_or(&[], |version| &version.differs)
}

fn once<'a>(all: &mut Vec<String>, more: impl Iterator<Item = &'a str>) {
    for one in more {
        if !all.iter().any(|known| known == one) {
            all.push(one.to_owned());
        }
    }
}

impl Apart {
    fn finding(self, board: &Board, look: &LookId, piece: &str) -> Finding {
        let scene = if self.scenes.len() == 1 { "scene" } else { "scenes" };
        Finding {
            name: "versions-differ",
            level: Level::Warning,
            about: About::Look(look.clone()),
            text: format!(
                "In {scene} {} {piece} of {} is seen as {}, and they differ: {}.",
                listed(&self.scenes),
                quoted(look_title(board, look)),
                listed(&self.versions),
                self.how.join("; ")
            ),
            todo: "Hide the difference, or see to it that no shot shows both.".to_owned(),
        }
    }
}

/// What is done by somebody who is not there, has no look, or in a piece that the look does not have.
fn done_in_nothing(board: &Board, scene: &Scene) -> Vec<Finding> {
    let mut found = Vec::new();
    for (character, doings) in scene.does.iter().filter(|(_, doings)| !doings.is_empty()) {
        let who = board.name_of(character);
        let Some(worn) = scene.wears.get(character) else {
            found.push(Finding {
                name: "done-by-nobody",
                level: Level::Warning,
                about: About::Scene(scene.number.clone()),
                text: format!("Scene {} says what {who} does and does not have them in it.", scene.number),
                todo: "Put them in the scene, or take out what they do.".to_owned(),
            });
            continue;
        };
        let Some(look) = worn.as_ref().and_then(|id| board.look(id)) else { continue };
        let lost = |doing: &Doing| -> Vec<String> {
            let has = |word: &String| look.pieces.iter().any(|piece| has_words(&piece.name, word));
            doing.pieces.iter().filter(|word| !has(word)).map(|word| quoted(word)).collect()
        };
        let lost: Vec<String> = doings.iter().flat_map(lost).collect();
        if !lost.is_empty() {
            found.push(Finding {
                name: "done-in-no-piece",
                level: Level::Warning,
                about: About::Wearing(scene.number.clone(), character.clone()),
                text: format!(
                    "Scene {} names {} of {}, which has no such piece.",
                    scene.number,
                    listed(&lost),
                    quoted(&look.title)
                ),
                todo: "Name a piece of the look, or none for all of them.".to_owned(),
            });
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample;
    use super::*;

    fn board(copies: u32, does: Value) -> Board {
        sample::board(json!({
            "head": {"characters": [{"id": "ada", "name": "Ada", "bodies": [
                {"id": "kim", "who": "Kim", "is": "performer"}, {"id": "lee", "who": "Lee", "is": "double"},
            ]}]},
            "looks": {"wool": {
                "title": "Wool", "treatment": "invent", "period": "early", "pieces": [{"name": "bathing costume"}],
                "make": {"bathing costume": {"versions": [
                    {"version": "wet", "copies": {"kim": copies}, "differs": ["straps sewn down"]},
                ]}},
            }},
            "scenes": [{"scene": 1, "date": "1920", "wears": {"ada": "wool"}, "does": {"ada": does}}],
            "schedule": [{"day": 1, "scenes": [1]}],
            "practice": {"spares": {"principal": 2}, "turnaround": {"wet": 2}, "actions": [
                {"action": "plunge", "says": "goes in dry", "version": "wet", "does": "wet", "fresh": true},
                {"action": "kneel", "version": "floor", "pieces": ["costume"], "does": "strain"},
                {"action": "sit", "does": "nothing"},
            ]},
        }))
    }

    fn plunge(takes: u32) -> Value {
        json!([{"action": "plunge", "takes": takes}])
    }

    #[test]
    fn fewer_copies_than_the_takes_need_is_an_error_and_enough_is_none() {
        assert_eq!(
            sample::texts(&board(3, plunge(4)), "copies-too-few"),
            [
                "“Wool”: bathing costume, wet, for Kim: 3 copies are planned and 4 needed (4: day 1, sc 1: goes in dry, 4 \
              takes, each in a fresh one, ready after 2 days)."
            ]
        );
        assert_eq!(sample::names(&board(4, plunge(4))), [""; 0]);
    }

    #[test]
    fn one_of_what_a_principal_wears_is_too_few_though_one_would_do() {
        assert_eq!(
            sample::texts(&board(1, plunge(1)), "too-few-for-a-principal"),
            [
                "“Wool”: bathing costume, wet, for Kim: one copy is planned and 2 needed (1: day 1, sc 1: goes in dry, ready \
              after 2 days; never fewer than 2 of what a principal wears)."
            ]
        );
        assert_eq!(sample::names(&board(2, plunge(1))), [""; 0]);
        let mut records = board(1, plunge(1)).records().clone();
        records.schedule = std::sync::Arc::default();
        let of_copies = |name: &&str| name.starts_with("copies") || name.starts_with("too-few");
        let names = sample::names(&Board::new(records));
        assert_eq!(names.into_iter().filter(of_copies).collect::<Vec<_>>(), ["too-few-for-a-principal"]);
    }

    #[test]
    fn a_version_that_a_scene_needs_and_the_piece_does_not_have_is_named() {
        let does = |action: &str| json!([{"action": action}, {"action": "plunge", "by": "lee"}]);
        assert_eq!(
            sample::texts(&board(2, does("kneel")), "version-missing"),
            ["Scene 1 needs bathing costume of “Wool” in a version “floor”, which it does not have."]
        );
        assert_eq!(sample::texts(&board(2, does("sit")), "version-missing"), [""; 0]);
    }

    #[test]
    fn two_versions_that_differ_in_one_scene_are_named() {
        let by_a_double = json!([{"action": "plunge", "by": "lee"}]);
        assert_eq!(
            sample::texts(&board(2, by_a_double), "versions-differ"),
            [
                "In scene 1 bathing costume of “Wool” is seen as standing and wet, and they differ: straps sewn down."
            ]
        );
        assert_eq!(sample::texts(&board(2, plunge(1)), "versions-differ"), [""; 0]);
    }

    #[test]
    fn what_is_done_by_nobody_or_in_no_piece_is_named() {
        let does = |pieces: Value| json!([{"action": "plunge", "pieces": pieces}]);
        assert_eq!(
            sample::texts(&board(2, does(json!(["gown", "costume"]))), "done-in-no-piece"),
            ["Scene 1 names “gown” of “Wool”, which has no such piece."]
        );
        assert_eq!(sample::texts(&board(2, does(json!(["costume"]))), "done-in-no-piece"), [""; 0]);
        let absent = sample::board(json!({
            "scenes": [{"scene": 1, "wears": {}, "does": {"ada": [{"action": "sit"}], "ben": []}}],
        }));
        assert_eq!(
            sample::texts(&absent, "done-by-nobody"),
            ["Scene 1 says what Ada does and does not have them in it."]
        );
    }
}
