//! What a script changes, as JSON with stable keys. Lengths are in eighths, and what is not there is `null`.

use serde_json::{Value, json};

use super::Brought;
use crate::board::{CharacterId, LookId};
use crate::bring::script::{Change, Reading, Stranger, What, cut_scene};

/// The whole answer.
pub(super) fn document(brought: &Brought<'_>) -> Value {
    let Brought { board, draft, comparison, .. } = brought;
    let stranger = |one: &Stranger| json!({"name": one.name, "scenes": one.scenes, "line": one.line});
    let reading = |one: &Reading| json!({"name": one.name, "character": one.character, "line": one.line});
    json!({
        "board": {"id": board.head().id, "title": board.head().title},
        "title": if draft.title.is_empty() { None } else { Some(&draft.title) },
        "part": brought.part.map(ToString::to_string),
        "scenes": draft.scenes.len(),
        "changes": comparison.changes.iter().map(|one| change(brought, one)).collect::<Vec<_>>(),
        "no-look-yet": brought.touched.undressed.iter().map(|(scene, who)| {
            json!({"scene": scene.to_string(), "character": who})
        }).collect::<Vec<_>>(),
        "on-no-shooting-day": brought.touched.unplanned.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "unscheduled": brought.touched.unscheduled.iter().map(|(day, scene)| {
            json!({"day": day, "scene": scene.to_string()})
        }).collect::<Vec<_>>(),
        "in-no-scene": brought.touched.unseen,
        "not-on-board": draft.strangers.iter().map(stranger).collect::<Vec<_>>(),
        "taken-for": draft.readings.iter().map(reading).collect::<Vec<_>>(),
        "warnings": draft.warnings.iter().map(|warning| {
            json!({"line": warning.at.line, "column": warning.at.column, "what": warning.what})
        }).collect::<Vec<_>>(),
        "held-back": brought.held_back,
        "edit": brought.edit,
        "applied": brought.applied,
    })
}

fn change(brought: &Brought<'_>, change: &Change) -> Value {
    let (was, becomes) = match &change.what {
        What::Added(length) => (Value::Null, json!(length.get())),
        What::Cut(length, _) => (json!(length.get()), Value::Null),
        What::Moved(behind) => (Value::Null, json!(behind)),
        What::Renumbered(number) => (json!(number), json!(change.scene)),
        What::Reheaded(heading) => (json!(heading), json!(change.heading)),
        What::Grown(from, to) | What::Shrunk(from, to) => (json!(from.get()), json!(to.get())),
        What::ComesIn(who) => (Value::Null, json!(who)),
        What::GoesOut(who, _) => (json!(who), Value::Null),
    };
    let scene = change.scene.as_ref().map(ToString::to_string);
    let worn = |who: &CharacterId, look: Option<&LookId>| json!({"character": who, "look": look});
    let worn = match &change.what {
        What::GoesOut(who, look) => Some(vec![worn(who, look.as_ref())]),
        _ => cut_scene(brought.board, change)
            .map(|scene| scene.wears.iter().map(|(who, look)| worn(who, look.as_ref())).collect()),
    };
    json!({
        "what": change.what.key(),
        "scene": scene,
        "heading": change.heading,
        "line": change.line,
        "was": was,
        "becomes": becomes,
        "worn": worn,
    })
}
