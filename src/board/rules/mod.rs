//! What must hold between records. Files may break it; edits may not.
//!
//! Every rule is looked for record by record, so that after an edit only those records are looked at whose rules it
//! can have touched.

mod fault;
mod search;

use std::collections::{BTreeSet, HashSet};

pub use fault::{Broken, Dangling, Step, Target};
use search::Search;

use super::{Board, BodyId, Change, Head, LookId, OutfitId, Role};

/// Every broken rule, records in order.
pub fn broken(board: &Board) -> Vec<Broken> {
    let mut search = Search::new(board);
    search.head();
    for (id, outfit) in &board.records().outfits {
        search.outfit(id, outfit);
    }
    for (id, look) in &board.records().looks {
        search.look(id, look);
    }
    for place in 0..board.records().scenes.len() {
        search.scene(place);
    }
    search.scene_numbers();
    search.schedule();
    search.practice();
    search.found
}

/// Every reference to a record that is not there, with the way to it in its file.
pub fn dangling(board: &Board) -> Vec<Dangling> {
    let dangling = |broken| match broken {
        Broken::Dangling(dangling) => Some(dangling),
        _ => None,
    };
    broken(board).into_iter().filter_map(dangling).collect()
}

/// The rules that `after` breaks and `before` does not, where `changes` have led from one to the other.
pub(super) fn added(before: &Board, after: &Board, changes: &[Change]) -> Vec<Broken> {
    let mut found = Touched::by(changes, after).search(after);
    if !found.is_empty() {
        let known: HashSet<Broken> = broken(before).iter().flat_map(marks).collect();
        found.retain(|broken| !marks(broken).iter().all(|mark| known.contains(mark)));
    }
    found
}

/// What tells a broken rule from others, wherever in its record it is: an edit that only moves it, or takes an outfit
/// out of one of three looks, has not broken it.
fn marks(broken: &Broken) -> Vec<Broken> {
    match broken {
        Broken::Dangling(dangling) => {
            vec![Broken::Dangling(Dangling { path: Vec::new(), ..dangling.clone() })]
        }
        Broken::InTwoLooks(outfit, looks) => {
            looks.iter().map(|look| Broken::InTwoLooks(outfit.clone(), vec![look.clone()])).collect()
        }
        other => vec![other.clone()],
    }
}

/// The records whose rules an edit can have touched. Whether two scenes have one number is not among them: an edit
/// changes, adds or cuts the one scene that has a number, and only files can hold a second.
#[derive(Default)]
struct Touched {
    everything: bool,
    head: bool,
    outfits: BTreeSet<OutfitId>,
    looks: BTreeSet<LookId>,
    scenes: BTreeSet<usize>,
    schedule: bool,
}

impl Touched {
    fn by(changes: &[Change], after: &Board) -> Self {
        let mut touched = Self::default();
        for change in changes {
            touched.add(change, after);
        }
        touched
    }

    fn add(&mut self, change: &Change, after: &Board) {
        let relations = after.relations();
        match change {
            Change::Head(swap) => {
                self.head = true;
                let sides = swap.before.as_deref().zip(swap.after.as_deref());
                self.everything |= sides.is_none_or(|(before, after)| !same_names(before, after));
            }
            Change::Outfit(id, _) => {
                self.outfits.insert(id.clone());
                self.outfits.extend(relations.apart_from(id).iter().cloned());
                self.outfits.extend(relations.together_with(id).iter().cloned());
                self.looks.extend(relations.looks_of(id).iter().cloned());
            }
            Change::Look(id, _) => {
                self.looks.insert(id.clone());
                // An outfit in two looks is said of the first of them.
                let held = after.look(id).into_iter().flat_map(|look| look.outfits());
                self.looks.extend(held.filter_map(|outfit| relations.looks_of(outfit).first()).cloned());
                self.scenes.extend(relations.scenes_of(id));
            }
            Change::Scene(number, _) => {
                self.scenes.extend(relations.scene_at(number));
                self.schedule = true;
            }
            // A cloth that changes stays the same cloth. The change may be told either way round.
            Change::Cloth(id, _) => self.everything |= after.cloth(id).is_none(),
            Change::Practice(_) => self.everything = true,
            // What a meeting says may name what is not there any more.
            Change::SceneOrder(_) | Change::Meeting(..) => {}
            Change::Schedule(_) => self.schedule = true,
        }
    }

    fn search(&self, board: &Board) -> Vec<Broken> {
        if self.everything {
            return broken(board);
        }
        let mut search = Search::new(board);
        if self.head {
            search.head();
        }
        for id in &self.outfits {
            if let Some(outfit) = board.outfit(id) {
                search.outfit(id, outfit);
            }
        }
        for id in &self.looks {
            if let Some(look) = board.look(id) {
                search.look(id, look);
            }
        }
        for place in &self.scenes {
            search.scene(*place);
        }
        if self.schedule {
            search.schedule();
        }
        search.found
    }
}

/// Whether two heads declare the same periods, characters, bodies and threads, by name.
fn same_names(one: &Head, other: &Head) -> bool {
    one.periods.iter().map(|period| &period.id).eq(other.periods.iter().map(|period| &period.id))
        && one.characters.iter().map(|who| &who.id).eq(other.characters.iter().map(|who| &who.id))
        && bodies(one).eq(bodies(other))
        && one.threads.iter().map(|thread| &thread.id).eq(other.threads.iter().map(|thread| &thread.id))
}

/// Who may wear what, by name: each character's bodies, since who has none wears by their own name.
fn bodies(head: &Head) -> impl Iterator<Item = Vec<(&BodyId, Role)>> {
    head.characters.iter().map(|who| who.bodies.iter().map(|body| (&body.id, body.role)).collect())
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use serde_json::json;

    use super::*;
    use crate::board::sample::{board, id, number, outfit, records, refusal, scene};
    use crate::board::told;
    use crate::board::{Among, Edit, Look, Outfit, RecordRef, Records, Refused, Scene, Swap, Treatment};

    fn said(records: &Records) -> Vec<String> {
        broken(&Board::new(records.clone())).iter().map(ToString::to_string).collect()
    }

    fn change_look(records: &mut Records, name: &str, change: impl FnOnce(&mut Look)) {
        change(Arc::make_mut(records.looks.get_mut(&id(name)).unwrap()));
    }

    fn change_outfit(records: &mut Records, name: &str, change: impl FnOnce(&mut Outfit)) {
        change(Arc::make_mut(records.outfits.get_mut(&id(name)).unwrap()));
    }

    fn change_scene(records: &mut Records, at: usize, change: impl FnOnce(&mut Scene)) {
        change(Arc::make_mut(&mut records.scenes[at]));
    }

    #[test]
    fn the_sample_breaks_no_rule() {
        assert_eq!(said(&records()), [""; 0]);
    }

    #[test]
    fn a_cloth_that_a_look_is_cut_of_is_not_taken_out() {
        let cut = |cuts| json!({"coat": {"make": {"coat": {"cuts": cuts}}}});
        for (cuts, is_cut) in [(json!([{"cloth": "serge", "lay": "2 m"}]), true), (json!([]), false)] {
            let mut board = told::board(json!({"looks": cut(cuts), "cloths": {"serge": {}}}));
            let edit = board.set_cloth(&id("serge"), None, "without");
            assert_eq!(matches!(board.apply(&edit), Err(Refused::Broken(_))), is_cut);
        }
    }

    #[test]
    fn a_body_that_goes_to_another_character_leaves_nothing_behind_that_is_made_for_nobody() {
        let kim = json!([{"id": "kim", "who": "Kim", "is": "performer"}]);
        let cast = |ada: &serde_json::Value, ben: &serde_json::Value| json!([{"id": "ada", "name": "Ada", "bodies": ada}, {"id": "ben", "name": "Ben", "bodies": ben}]);
        let mut board = told::board(json!({
            "head": {"characters": cast(&json!([]), &kim)},
            "looks": {"coat": {"treatment": "invent", "make": {"coat": {"versions": [{"version": "wet", "copies": {"ada": 2}}]}}}},
        }));
        let after: Vec<crate::board::Character> = serde_json::from_value(cast(&kim, &json!([]))).unwrap();
        let edit = board.change_head("moved", |head| head.characters = after);
        assert!(matches!(board.apply(&edit), Err(Refused::Broken(_))), "nobody is called ada any more");
    }

    #[test]
    fn every_rule_is_said_in_a_sentence() {
        type Breaks = fn(&mut Records);
        let cases: [(Breaks, &str); 12] = [
            (
                |records| change_look(records, "gown", |look| look.folded.push(id("club-serge"))),
                "outfit `club-serge` is in more than one look: `club`, `gown`",
            ),
            (
                |records| change_outfit(records, "gala-gown", |outfit| outfit.let_go = Some("x".to_owned())),
                "outfit `gala-gown` is let go, and look `gown` holds it",
            ),
            (
                |records| change_look(records, "gown", |look| look.folded.push(id("oilskins"))),
                "look `gown` holds outfit `oilskins` of another character",
            ),
            (
                |records| change_scene(records, 4, |scene| scene.wears.set(id("odile"), Some(id("rescue")))),
                "scene 4 puts look `rescue` on `odile`, whose look it is not",
            ),
            (
                |records| change_look(records, "gown", |look| look.folded.push(id("gala-gown"))),
                "look `gown` names outfit `gala-gown` twice",
            ),
            (
                |records| change_look(records, "rescue", |look| look.treatment = Treatment::Copy),
                "look `rescue` copies or interprets, but has no base",
            ),
            (
                |records| change_look(records, "gown", |look| look.treatment = Treatment::Invent),
                "look `gown` is invented, but holds outfits",
            ),
            (
                |records| change_outfit(records, "smock", |outfit| outfit.wishes.apart = vec![id("smock")]),
                "outfit `smock` is to be apart from or together with itself",
            ),
            (
                |records| {
                    change_outfit(records, "smock", |outfit| outfit.wishes.apart = vec![id("gala-gown")]);
                    change_outfit(records, "gala-gown", |outfit| outfit.wishes.together = vec![id("smock")]);
                },
                "outfits `gala-gown` and `smock` are to be both apart and together",
            ),
            (
                |records| {
                    change_outfit(records, "smock", |outfit| outfit.wishes.apart = vec![id("gala-gown")]);
                    change_outfit(records, "gala-gown", |outfit| {
                        outfit.wishes.apart = vec![id("smock")];
                        outfit.wishes.together = vec![id("smock")];
                    });
                },
                "outfits `gala-gown` and `smock` are to be both apart and together",
            ),
            (
                |records| {
                    change_outfit(records, "smock", |outfit| outfit.wishes.together = vec![id("apron")])
                },
                "outfit `smock` is to share a look with `apron` of another character",
            ),
            (|records| records.scenes.push(Arc::new(scene("2"))), "two scenes have the number 2"),
        ];
        for (breaks, sentence) in cases {
            let mut records = records();
            breaks(&mut records);
            assert_eq!(said(&records), [sentence]);
        }
    }

    #[test]
    fn a_reference_that_leads_nowhere_is_said_with_the_way_to_it() {
        let mut records = records();
        let head = Arc::make_mut(&mut records.head);
        head.budget.characters.set(id("ivo"), 1);
        head.budget.periods.set(id("never"), 1);
        head.gather.at_most.set(Among::Thread(id("lost")), 1);
        head.gather.at_least.set(Among::Period(id("war")), 1);
        head.gather.at_least.set(Among::Character(id("ivo")), 1);
        change_outfit(&mut records, "smock", |outfit| {
            outfit.character = id("ivo");
            outfit.period = Some(id("never"));
            outfit.threads = vec![id("green-cap"), id("lost")];
            outfit.wishes.apart = vec![id("gala-gown"), id("none")];
            outfit.wishes.together = vec![id("none-either")];
        });
        change_look(&mut records, "gown", |look| {
            look.base = Some(id("none"));
            look.folded = vec![id("blackout-coat"), id("none-either")];
            look.period = Some(id("never"));
            look.threads = vec![id("lost")];
        });
        change_look(&mut records, "rescue", |look| look.character = id("ivo"));
        change_scene(&mut records, 4, |scene| {
            scene.period = Some(id("never"));
            scene.wears =
                [(id("ivo"), Some(id("rescue"))), (id("odile"), Some(id("none")))].into_iter().collect();
        });
        Arc::make_mut(&mut records.schedule)[1].scenes.push(number("9"));
        let way = |path: &[Step]| {
            let step = |step: &Step| match step {
                Step::Key(name) => name.clone(),
                Step::Name(name) => format!("={name}"),
                Step::At(at) => at.to_string(),
            };
            path.iter().map(step).collect::<Vec<_>>().join(".")
        };
        let board = Board::new(records);
        assert_eq!(broken(&board).len(), dangling(&board).len());
        let found: Vec<String> = dangling(&board)
            .iter()
            .map(|dangling| format!("{}: {}: {}", dangling.from, way(&dangling.path), dangling.to))
            .collect();
        let expected = [
            "the board's head: budget.characters.=ivo: character `ivo`",
            "the board's head: budget.periods.=never: period `never`",
            "the board's head: gather.at-most.=thread lost: thread `lost`",
            "the board's head: gather.at-least.=character ivo: character `ivo`",
            "outfit `smock`: character: character `ivo`",
            "outfit `smock`: period: period `never`",
            "outfit `smock`: threads.1: thread `lost`",
            "outfit `smock`: wishes.apart.1: outfit `none`",
            "outfit `smock`: wishes.together.0: outfit `none-either`",
            "look `gown`: period: period `never`",
            "look `gown`: threads.0: thread `lost`",
            "look `gown`: base: outfit `none`",
            "look `gown`: folded.1: outfit `none-either`",
            "look `rescue`: character: character `ivo`",
            "scene 4: 4.period: period `never`",
            "scene 4: 4.wears.=ivo: character `ivo`",
            "scene 4: 4.wears.odile: look `none`",
            "the schedule: 1.scenes.1: scene `9`",
        ];
        assert_eq!(found, expected);
    }

    /// Refused with this sentence on the sample, and taken where files have broken the rule already.
    fn refused(edit: &Edit, sentence: &str) {
        let mut board = board();
        assert_eq!(refusal(board.apply(edit)), sentence);
        assert_eq!(board.records(), &records());
        board.take_in(edit).unwrap();
        assert!(board.apply(edit).is_ok(), "a rule that is broken already is no reason to refuse");
    }

    #[test]
    fn an_edit_is_refused_for_what_it_breaks_in_records_that_it_does_not_change() {
        let board = board();
        let remove = |name: &str| {
            let before = board.records().outfits.get(&id(name)).cloned();
            Edit::new("", vec![Change::Outfit(id(name), Swap::new(before, None))])
        };
        refused(&remove("club-serge"), "look `club` names outfit `club-serge`, which is not there");
        let wished = board.wish_together(&[id("oilskins"), id("apron")], true).unwrap();
        let mut wishing = board.clone();
        wishing.apply(&wished).unwrap();
        let before = wishing.records().outfits.get(&id("oilskins")).cloned();
        let gone = Edit::new("", vec![Change::Outfit(id("oilskins"), Swap::new(before, None))]);
        assert_eq!(
            refusal(wishing.apply(&gone)),
            "outfit `apron` names outfit `oilskins`, which is not there"
        );
        let hand_over = wishing.change_outfit(&id("oilskins"), "", |outfit| outfit.character = id("odile"));
        assert_eq!(
            refusal(wishing.apply(&hand_over.unwrap())),
            "outfit `apron` is to share a look with `oilskins` of another character"
        );
        let hand_over = board.change_outfit(&id("gala-gown"), "", |outfit| outfit.character = id("bridie"));
        refused(&hand_over.unwrap(), "look `gown` holds outfit `gala-gown` of another character");
        let steal = board.change_look(&id("gown"), "", |look| look.folded.push(id("club-serge")));
        refused(&steal.unwrap(), "outfit `club-serge` is in more than one look: `club`, `gown`");
        let give_away = board.change_look(&id("rescue"), "", |look| look.character = id("odile"));
        refused(&give_away.unwrap(), "scene 4 puts look `rescue` on `bridie`, whose look it is not");
        let before = board.records().scenes.get(2).cloned();
        let bare_cut = Edit::new("", vec![Change::Scene(number("3"), Swap::new(before, None))]);
        refused(&bare_cut, "the schedule names scene `3`, which is not there");
        let forget = board.change_head("", |head| head.threads.clear());
        refused(
            &forget,
            "outfit `club-wool` names thread `green-cap`, which is not there; \
             look `club` names thread `green-cap`, which is not there",
        );
    }

    #[test]
    fn a_broken_rule_that_only_moves_in_its_file_is_not_added() {
        let mut records = records();
        change_scene(&mut records, 4, |scene| scene.wears.set(id("odile"), Some(id("none"))));
        change_outfit(&mut records, "smock", |outfit| outfit.threads = vec![id("green-cap"), id("lost")]);
        let mut board = Board::new(records);
        for edit in [
            board.add_scene(scene("5"), None).unwrap(),
            board.change_scene(&number("4"), "", |scene| scene.notes = "n".to_owned()).unwrap(),
            board.change_outfit(&id("smock"), "", |outfit| drop(outfit.threads.remove(0))).unwrap(),
        ] {
            board.apply(&edit).unwrap();
        }
        let worse = board.change_outfit(&id("smock"), "", |outfit| outfit.threads.push(id("gone"))).unwrap();
        assert_eq!(refusal(board.apply(&worse)), "outfit `smock` names thread `gone`, which is not there");
    }

    #[test]
    fn an_outfit_in_three_looks_may_go_to_two_but_not_to_a_fourth() {
        let mut records = records();
        for name in ["second", "third"] {
            let look =
                Look { base: Some(id("club-serge")), ..Look::sketched(name, id("odile"), Treatment::Copy) };
            records.looks.insert(id(name), Arc::new(look));
        }
        let mut board = Board::new(records);
        let fourth = board.change_look(&id("gown"), "", |look| look.folded.push(id("club-serge"))).unwrap();
        assert!(refusal(board.apply(&fourth)).contains("`club`, `gown`, `second`, `third`"));
        let mut better = board.dissolve(&id("third")).unwrap();
        better
            .changes
            .extend(board.change_look(&id("club"), "", |look| look.notes = "n".to_owned()).unwrap().changes);
        board.apply(&better).unwrap();
        let expected = Broken::InTwoLooks(id("club-serge"), vec![id("club"), id("second")]);
        assert_eq!(broken(&board), [expected]);
    }

    #[test]
    fn a_new_record_is_searched_too() {
        let mut board = board();
        let edit =
            board.add_outfit(&id("cape"), Outfit { threads: vec![id("lost")], ..outfit("Cape", "odile") });
        let Err(Refused::Broken(added)) = board.apply(&edit.unwrap()) else { panic!("taken") };
        let path = vec![Step::Key("threads".to_owned()), Step::At(0)];
        let from = RecordRef::Outfit(id("cape"));
        assert_eq!(added, [Broken::Dangling(Dangling { from, path, to: Target::Thread(id("lost")) })]);
    }
}
