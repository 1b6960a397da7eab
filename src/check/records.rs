//! Rules between records that files have broken; the board's own [`rules`] name them, this says them in trade words.

use super::words::{listed, look_title, quoted};
use super::{About, Finding, Level};
use crate::board::rules::{self, Broken};
use crate::board::{Board, LookId, OutfitId};

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    rules::broken(board).into_iter().filter_map(|broken| finding(board, broken)).collect()
}

/// `None` for a dangling name and for a number that two scenes have, which are faults of their files.
fn finding(board: &Board, broken: Broken) -> Option<Finding> {
    let look = |id: &LookId| quoted(look_title(board, id));
    let outfit = |id: &OutfitId| quoted(board.title_of_outfit(id));
    let (name, about, text, todo) = match broken {
        Broken::Dangling(_) | Broken::SameNumber(_) => return None,
        Broken::InTwoLooks(id, looks) => {
            let titles: Vec<String> = looks.iter().map(look).collect();
            let text = format!("The outfit {} is in more than one look: {}.", outfit(&id), listed(&titles));
            ("outfit-in-two-looks", About::Outfit(id), text, "Take it out of all looks but one.".to_owned())
        }
        Broken::Twice(id, twice) => {
            let text = format!("The look {} names the outfit {} twice.", look(&id), outfit(&twice));
            ("outfit-named-twice", About::Look(id), text, "Take one of the two mentions out.".to_owned())
        }
        Broken::HeldAndLetGo(id, holder) => {
            let text =
                format!("The outfit {} is let go, and the look {} holds it.", outfit(&id), look(&holder));
            let todo = "Take it out of the look, or take back that it was let go.".to_owned();
            ("held-and-let-go", About::Outfit(id), text, todo)
        }
        Broken::NoBase(id) => {
            let verb = board.look(&id).map_or("copies", |look| look.treatment.word());
            let text = format!("The look {} {verb}, but has no base.", look(&id));
            ("look-without-base", About::Look(id), text, "Give it a base, or call it invented.".to_owned())
        }
        Broken::BaseOfInvented(id) => {
            let text = format!("The look {} is invented, but holds outfits.", look(&id));
            let todo = "Say that it copies or interprets, or release its outfits.".to_owned();
            ("invented-with-base", About::Look(id), text, todo)
        }
        Broken::OtherOutfit(id, other) => {
            let whose = board.outfit(&other).map_or("another", |outfit| board.name_of(&outfit.character));
            let text = format!("The look {} holds {}, an outfit of {whose}.", look(&id), outfit(&other));
            let todo = "Release the outfit, or correct whose it is.".to_owned();
            ("outfit-of-another", About::Look(id), text, todo)
        }
        Broken::OtherLook(number, character, other) => {
            let whose = board.look(&other).map_or("another", |look| board.name_of(&look.character));
            let name = board.name_of(&character);
            let text = format!("In scene {number} {name} wears {}, a look of {whose}.", look(&other));
            let todo = format!("Assign one of {name}'s own looks in scene {number}.");
            ("look-of-another", About::Wearing(number, character), text, todo)
        }
        Broken::WishOfItself(id) => {
            let text = format!("The outfit {} is to be apart from or together with itself.", outfit(&id));
            let todo = "Take its own name out of its wishes.".to_owned();
            ("wish-of-itself", About::Outfit(id), text, todo)
        }
        Broken::ApartAndTogether(id, other) => {
            let text = format!(
                "The outfits {} and {} are to be both apart and together.",
                outfit(&id),
                outfit(&other)
            );
            let todo = "Take one of the two wishes back.".to_owned();
            ("apart-and-together", About::Outfit(id), text, todo)
        }
        Broken::TogetherWithOther(id, other) => {
            let whose = board.outfit(&other).map_or("another", |outfit| board.name_of(&outfit.character));
            let text = format!(
                "The outfit {} is to share a look with {}, an outfit of {whose}.",
                outfit(&id),
                outfit(&other)
            );
            let todo = "Take the wish back, or correct whose it is.".to_owned();
            ("together-with-another", About::Outfit(id), text, todo)
        }
    };
    Some(Finding { name, level: Level::Error, about, text, todo })
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::sample::{board, names, texts};

    #[test]
    fn an_outfit_in_two_looks_is_found_and_in_one_is_not() {
        let held = |second: &str| {
            board(json!({
                "outfits": {"smock": {"worn": "1920"}, "coat": {"worn": "1921"}},
                "looks": {"a": {"base": "smock"}, "b": {"base": second}},
            }))
        };
        assert_eq!(
            texts(&held("smock"), "outfit-in-two-looks"),
            ["The outfit “smock” is in more than one look: “a” and “b”."]
        );
        assert_eq!(names(&held("coat")), [""; 0]);
    }

    #[test]
    fn an_outfit_named_twice_in_a_look_is_found() {
        let folded = |folded: &str| {
            board(json!({
                "outfits": {"smock": {"worn": "1920"}, "coat": {"worn": "1921"}},
                "looks": {"a": {"base": "smock", "folded": [folded]}},
            }))
        };
        assert_eq!(names(&folded("smock"))[0], "outfit-named-twice");
        assert_eq!(names(&folded("coat")), [""; 0]);
    }

    #[test]
    fn an_outfit_held_and_let_go_is_found_and_one_only_let_go_is_not() {
        let with = |looks| {
            board(json!({"outfits": {"smock": {"worn": "1920", "let-go": "told twice"}}, "looks": looks}))
        };
        assert_eq!(names(&with(json!({"a": {"base": "smock"}}))), ["held-and-let-go"]);
        assert_eq!(names(&with(json!({}))), [""; 0]);
    }

    #[test]
    fn a_look_that_copies_nothing_is_found_and_an_invented_one_is_not() {
        let treated = |treatment: &str| board(json!({"looks": {"a": {"treatment": treatment}}}));
        assert_eq!(names(&treated("copy")), ["look-without-base"]);
        assert_eq!(names(&treated("interpret"))[0], "look-without-base");
        assert_eq!(names(&treated("invent")), [""; 0]);
    }

    #[test]
    fn an_invented_look_that_holds_outfits_is_found() {
        let treated = |treatment: &str| {
            board(json!({
                "outfits": {"smock": {"worn": "1920"}},
                "looks": {"a": {"treatment": treatment, "base": "smock"}},
            }))
        };
        assert_eq!(names(&treated("invent")), ["invented-with-base"]);
        assert_eq!(names(&treated("copy")), [""; 0]);
    }

    #[test]
    fn an_outfit_of_another_is_found_and_ones_own_is_not() {
        let of = |whose: &str| {
            board(json!({
                "outfits": {"smock": {"worn": "1920", "character": whose}},
                "looks": {"a": {"base": "smock"}},
            }))
        };
        assert_eq!(texts(&of("ben"), "outfit-of-another"), ["The look “a” holds “smock”, an outfit of Ben."]);
        assert_eq!(names(&of("ada")), [""; 0]);
    }

    #[test]
    fn a_look_of_another_is_found_and_ones_own_is_not() {
        let on = |who: &str| {
            board(json!({
                "looks": {"a": {"treatment": "invent"}},
                "scenes": [{"scene": 4, "date": "1920", "wears": {who: "a"}}],
            }))
        };
        assert_eq!(texts(&on("ben"), "look-of-another"), ["In scene 4 Ben wears “a”, a look of Ada."]);
        assert_eq!(names(&on("ada")), [""; 0]);
    }

    #[test]
    fn a_name_that_is_not_there_and_a_number_of_two_scenes_are_left_to_the_store() {
        let dangling = board(json!({"looks": {"a": {"base": "nowhere"}}}));
        assert_eq!(names(&dangling), [""; 0]);
        let scene = json!({"scene": 4, "date": "1920"});
        assert_eq!(names(&board(json!({"scenes": [scene, scene]}))), [""; 0]);
    }
}
