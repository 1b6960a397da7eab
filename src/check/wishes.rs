//! Wishes: those that nothing can make good, and those that nobody is asked about.
//!
//! Only what a single count shows: whether all wishes can hold together, a suggestion finds out.

use super::words::{capital, counted, quoted};
use super::{About, Finding, Level};
use crate::board::{Among, BaseWish, Board, OutfitId, Scope, Standing};

pub(super) fn findings(board: &Board) -> Vec<Finding> {
    let gather = &board.head().gather;
    let least = gather.at_least.iter().filter_map(|(among, least)| too_many(board, among, *least));
    let most = gather.at_most.iter().filter_map(|(among, most)| too_few(board, among, *most));
    unheeded(board).into_iter().chain(least).chain(most).collect()
}

/// Outfits that are let go, of which something is wished all the same.
fn unheeded(board: &Board) -> Vec<Finding> {
    let is_let_go = |id: &OutfitId| matches!(board.standing(id), Standing::LetGo(_));
    let outfits = board.records().outfits.iter();
    let found = outfits.filter(|(id, outfit)| !outfit.wishes.is_empty() && is_let_go(id));
    let finding = |id: &OutfitId| Finding {
        name: "wish-unheeded",
        level: Level::Warning,
        about: About::Outfit(id.clone()),
        text: format!(
            "The outfit {} is let go, so no wish of it is heeded.",
            quoted(board.title_of_outfit(id))
        ),
        todo: "Take the outfit back, or its wishes.".to_owned(),
    };
    found.map(|(id, _)| finding(id)).collect()
}

/// At least so many looks, where there are not so many outfits that may be bases, or may not be so many looks.
fn too_many(board: &Board, among: &Among, least: u32) -> Option<Finding> {
    let may = count(board, among, |wish| wish != Some(BaseWish::Never));
    let limit = scope(among).and_then(|scope| board.count(&scope).limit);
    let because = if may < least {
        format!("only {may} of its outfits may be the base of one")
    } else {
        format!("it may have {}", limit.filter(|limit| *limit < least)?)
    };
    let looks = counted(least as usize, "look");
    Some(impossible(board, among, format!("is to have at least {looks}, and {because}")))
}

/// At most so many looks, where more outfits must be bases.
fn too_few(board: &Board, among: &Among, most: u32) -> Option<Finding> {
    let must = count(board, among, |wish| wish == Some(BaseWish::Must));
    let looks = counted(most as usize, "look");
    let text = format!("is to have at most {looks}, and {must} of its outfits must be the base of one");
    (must > most).then(|| impossible(board, among, text))
}

fn impossible(board: &Board, among: &Among, text: String) -> Finding {
    Finding {
        name: "wish-impossible",
        level: Level::Warning,
        about: match among {
            Among::Character(id) => About::Character(id.clone()),
            Among::Period(id) => About::Period(id.clone()),
            Among::Thread(id) => About::Thread(id.clone()),
        },
        text: format!("{} {text}.", capital(board.name_of_group(among))),
        todo: "Change the number under `gather` in board.yaml, or what is wished of the outfits.".to_owned(),
    }
}

/// How many outfits of a group, let go or not asked about left out, have such a wish.
fn count(board: &Board, among: &Among, wished: impl Fn(Option<BaseWish>) -> bool) -> u32 {
    let outfits = board.records().outfits.iter().filter(|(id, outfit)| {
        wished(outfit.wishes.base)
            && board.is_among(among, id)
            && !matches!(board.standing(id), Standing::LetGo(_))
    });
    u32::try_from(outfits.count()).unwrap_or(u32::MAX)
}

fn scope(among: &Among) -> Option<Scope> {
    match among {
        Among::Character(id) => Some(Scope::Character(id.clone())),
        Among::Period(id) => Some(Scope::Period(id.clone())),
        Among::Thread(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample;
    use super::*;

    /// Three outfits of the early period: the coat is let go, the smock never a base and the frock always one.
    fn wishing(gather: Value, limit: u32) -> Vec<String> {
        let board = sample::board(json!({
            "head": {"gather": gather, "budget": {"periods": {"early": limit}}},
            "outfits": {
                "smock": {"worn": "1920", "wishes": {"base": "never"}},
                "frock": {"worn": "1921", "wishes": {"base": "must"}},
                "hood": {"worn": "1922", "wishes": {"base": "must"}},
                "coat": {"worn": "1923", "let-go": "never seen"},
            },
        }));
        findings(&board).into_iter().map(|finding| finding.text).collect()
    }

    #[test]
    fn a_group_cannot_have_more_looks_than_bases_or_than_its_limit() {
        assert_eq!(wishing(json!({"at-least": {"period early": 2}}), 2), [""; 0]);
        assert_eq!(
            wishing(json!({"at-least": {"period early": 3}}), 3),
            ["Early is to have at least 3 looks, and only 2 of its outfits may be the base of one."]
        );
        assert_eq!(
            wishing(json!({"at-least": {"period early": 2}}), 1),
            ["Early is to have at least two looks, and it may have 1."]
        );
    }

    #[test]
    fn a_group_cannot_have_fewer_looks_than_outfits_that_must_be_bases() {
        assert_eq!(wishing(json!({"at-most": {"character ada": 2}}), 9), [""; 0]);
        assert_eq!(
            wishing(json!({"at-most": {"character ada": 1}}), 9),
            ["Ada is to have at most one look, and 2 of its outfits must be the base of one."]
        );
    }

    #[test]
    fn what_is_let_go_is_not_asked_about() {
        let board = |let_go: Value| {
            let mut coat = json!({"worn": "1923", "wishes": {"base": "must"}});
            coat.as_object_mut().unwrap().extend(let_go.as_object().unwrap().clone());
            sample::board(json!({"outfits": {"coat": coat}}))
        };
        assert_eq!(
            sample::texts(&board(json!({"let-go": "never seen"})), "wish-unheeded"),
            ["The outfit “coat” is let go, so no wish of it is heeded."]
        );
        assert_eq!(sample::texts(&board(json!({})), "wish-unheeded"), [""; 0]);
    }
}
