//! A suggestion as JSON: the keys are stable, shares are from 0 to 1, records are named by their ids.

use serde_json::{Value, json};

use super::{Asked, Clashing, Point};
use crate::board::{Board, OutfitId, Standing};
use crate::check::words::look_title;
use crate::check::{self, Finding};
use crate::gather::likeness::{Explanation, Part};
use crate::gather::{Becomes, Feature, Suggested, Suggestion};

/// A suggestion that is not applied.
pub(super) fn suggestion(asked: &Asked<'_>, suggestion: &Suggestion) -> Value {
    document(asked, suggestion, None)
}

/// A suggestion that has been applied, and the label of the edit.
pub(super) fn applied(asked: &Asked<'_>, (suggestion, label): &(Suggestion, String)) -> Value {
    document(asked, suggestion, Some(label))
}

/// What the first, second … look buys.
pub(super) fn curve(asked: &Asked<'_>, points: &[Point]) -> Value {
    let point = |point: &Point| json!({"looks": point.looks, "kept": point.kept, "buys": point.buys, "proven": point.proven});
    json!({
        "board": board(asked.board),
        "character": asked.who,
        "now": now(asked),
        "curve": points.iter().map(point).collect::<Vec<_>>(),
    })
}

/// Wishes that cannot all hold.
pub(super) fn clash(asked: &Asked<'_>, clash: &Clashing) -> Value {
    json!({
        "board": board(asked.board),
        "character": asked.who,
        "clash": {"looks": clash.looks, "wishes": clash.wishes, "every": clash.every},
    })
}

fn document(asked: &Asked<'_>, suggestion: &Suggestion, applied: Option<&str>) -> Value {
    let into = |at: usize| suggestion.looks.get(at).map(|suggested| &suggested.base);
    let goes =
        |(id, at): &(_, usize)| json!({"look": id, "title": look_title(asked.board, id), "into": into(*at)});
    let left = suggestion.left.iter().map(|id| json!({"look": id, "title": look_title(asked.board, id)}));
    json!({
        "board": board(asked.board),
        "character": asked.who,
        "asked": asked.wardrobe.problem().looks(),
        "kept": suggestion.kept,
        "bound": suggestion.bound,
        "proven": suggestion.proven,
        "now": now(asked),
        "looks": suggestion.looks.iter().map(|suggested| look(asked, suggested)).collect::<Vec<_>>(),
        "goes": suggestion.goes.iter().map(goes).collect::<Vec<_>>(),
        "left": left.collect::<Vec<_>>(),
        "open": suggestion.open,
        "within": asked.within(),
        "then-found": match applied {
            Some(_) => Vec::new(),
            None => {
                let edit = suggestion.edit(asked.board, None);
                let found = edit.map(|edit| check::added_by(asked.board, &edit)).unwrap_or_default();
                found.iter().map(finding).collect::<Vec<_>>()
            }
        },
        "stays": suggestion.stays(),
        "applied": applied,
    })
}

fn finding(finding: &Finding) -> Value {
    json!({"name": finding.name, "about": finding.about.to_string(), "text": finding.text})
}

/// Which board an answer is about.
pub(super) fn board(board: &Board) -> Value {
    let head = board.head();
    json!({"id": head.id, "title": head.title})
}

fn now(asked: &Asked<'_>) -> Value {
    json!({"looks": asked.now.looks, "kept": asked.now.kept, "reachable": asked.now.reachable})
}

fn look(asked: &Asked<'_>, suggested: &Suggested) -> Value {
    let what = match suggested.becomes() {
        Becomes::New => "new",
        Becomes::OtherBase => "changes-base",
        Becomes::AsItIs => "stays",
        Becomes::OtherOutfits => "changes-outfits",
    };
    let folded = |(id, distance): &(OutfitId, f64)| folded(asked, id, &suggested.base, *distance);
    json!({
        "what": what,
        "base": suggested.base,
        "title": asked.board.title_of_outfit(&suggested.base),
        "worn": worn(asked, &suggested.base),
        "look": suggested.look,
        "look-title": suggested.look.as_ref().map(|id| look_title(asked.board, id)),
        "folded": suggested.folded.iter().map(folded).collect::<Vec<_>>(),
        "comes": suggested.comes,
        "leaves": suggested.leaves,
    })
}

fn folded(asked: &Asked<'_>, id: &OutfitId, base: &OutfitId, distance: f64) -> Value {
    let told = asked.likeness.explain(id, base);
    let now = match asked.board.standing(id) {
        Standing::Folded(look) => Some(look),
        Standing::LetGo(_) | Standing::Open => None,
    };
    let feature = |part: &Part| {
        json!({
            "feature": part.feature.word(),
            "weight": part.weight,
            "distance": part.distance,
            "outfit": part.one,
            "base": part.other,
        })
    };
    json!({
        "outfit": id,
        "title": asked.board.title_of_outfit(id),
        "worn": worn(asked, id),
        "now-in": now,
        "kept": 1.0 - distance,
        "alike": told.as_ref().map(Explanation::alike),
        "stretch": told.as_ref().map(Explanation::is_stretch),
        "most": told.iter().flat_map(Explanation::most).map(Feature::word).collect::<Vec<_>>(),
        "least": told.as_ref().and_then(Explanation::least).map(Feature::word),
        "features": told.iter().flat_map(|told| &told.parts).map(feature).collect::<Vec<_>>(),
    })
}

fn worn(asked: &Asked<'_>, id: &OutfitId) -> Option<String> {
    asked.board.outfit(id)?.worn.as_ref().map(ToString::to_string)
}
