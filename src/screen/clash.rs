//! Two hands changed the same thing: both are shown, and the user chooses.

use std::sync::Arc;

use serde::Serialize;
use serde_json::Value;

use super::layers::{Item, Pick};
use crate::board::edit::Clash;
use crate::board::merge::FieldClash;
use crate::board::{Board, Change, Edit, RecordRef, Refused, Side, Swap};

/// What can be put as a choice of why `board` would not take `edit`.
///
/// # Errors
/// What cannot: no side of it would do.
pub fn clashes(board: &Board, edit: &Edit, refused: Refused) -> Result<Vec<Clash>, Refused> {
    match refused {
        Refused::Clash(clashes) => Ok(clashes),
        Refused::Gone(_) | Refused::Taken(_) => {
            let clashes = each_clash(board, edit)?;
            if clashes.is_empty() { Err(refused) } else { Ok(clashes) }
        }
        refused => Err(refused),
    }
}

/// Every clash of an edit, looked for change by change: a record that is gone, or made by both, ends the board's own
/// search, and an answer must not decide over what was not shown.
fn each_clash(board: &Board, edit: &Edit) -> Result<Vec<Clash>, Refused> {
    let mut board = board.clone();
    let mut clashes = Vec::new();
    for change in &edit.changes {
        // Whole edits keep the rules; a part of one need not.
        match board.take_in(&Edit::new("", vec![change.clone()])) {
            Ok(_) => {}
            Err(Refused::Clash(more)) => clashes.extend(more),
            Err(Refused::Gone(record)) => {
                clashes.push(whole(record, "changed here, removed there", None, words_of(change)));
            }
            Err(Refused::Taken(record)) => {
                let there = title_there(&board, &record);
                clashes.push(whole(record, "made here and there", there, title_of(change)));
            }
            Err(refused) => return Err(refused),
        }
    }
    Ok(clashes)
}

/// A clash about all of a record, of which a few words are shown.
fn whole(record: RecordRef, field: &str, theirs: Option<String>, ours: Option<String>) -> Clash {
    let (field, base) = (field.to_owned(), Value::Null);
    Clash { record, fields: vec![FieldClash { field, base, ours: ours.into(), theirs: theirs.into() }] }
}

fn title_there(board: &Board, record: &RecordRef) -> Option<String> {
    match record {
        RecordRef::Outfit(id) => board.outfit(id).map(|outfit| outfit.title.clone()),
        RecordRef::Look(id) => board.look(id).map(|look| look.title.clone()),
        RecordRef::Scene(number) => board.scene(number).map(|scene| scene.heading.clone()),
        RecordRef::Cloth(id) => board.cloth(id).map(|cloth| cloth.title.clone()),
        RecordRef::Meeting(id) => Some(id.to_string()),
        RecordRef::Head | RecordRef::SceneOrder | RecordRef::Schedule | RecordRef::Practice => None,
    }
}

fn title_of(change: &Change) -> Option<String> {
    match change {
        Change::Outfit(_, swap) => swap.after.as_ref().map(|outfit| outfit.title.clone()),
        Change::Look(_, swap) => swap.after.as_ref().map(|look| look.title.clone()),
        Change::Scene(_, swap) => swap.after.as_ref().map(|scene| scene.heading.clone()),
        Change::Cloth(_, swap) => swap.after.as_ref().map(|cloth| cloth.title.clone()),
        Change::Meeting(id, _) => Some(id.to_string()),
        Change::Head(_) | Change::SceneOrder(_) | Change::Schedule(_) | Change::Practice(_) => None,
    }
}

/// What a change makes of its record, field by field, so that what was typed is seen.
fn words_of(change: &Change) -> Option<String> {
    match change {
        Change::Outfit(_, swap) => written(swap),
        Change::Look(_, swap) => written(swap),
        Change::Scene(_, swap) => written(swap),
        Change::Cloth(_, swap) => written(swap),
        Change::Practice(swap) => written(swap),
        Change::Meeting(_, swap) => written(swap),
        Change::Head(_) | Change::SceneOrder(_) | Change::Schedule(_) => None,
    }
}

fn written<T: Serialize>(swap: &Swap<T>) -> Option<String> {
    let fields = |side: &Option<Arc<T>>| serde_json::to_value(side.as_deref()).unwrap_or_default();
    let (before, after) = (fields(&swap.before), fields(&swap.after));
    let changed = after.as_object()?.iter().filter(|(name, value)| before.get(name) != Some(value));
    let words = changed.map(|(name, value)| format!("{name}: {}", FieldClash::words(value)));
    Some(words.collect::<Vec<_>>().join("; "))
}

/// The question what shall stand.
pub fn question(clashes: &[Clash], edit: Edit) -> Pick {
    let items = vec![
        Item::new("Keep what is there", "your change of these fields is dropped, the rest is kept"),
        Item::new("Put yours", "can be undone"),
        Item::new("Leave it", "your whole change is dropped"),
    ];
    Pick::question("Changed on both sides", lead(clashes, "yours"), items, move |app, choice| {
        let side = match choice {
            0 => Side::Theirs,
            1 => Side::Ours,
            _ => return app.say("left as it is there"),
        };
        // What comes of the choice is an edit like any other: it may pass a limit, or meet with a third change.
        match app.open.board().clone().apply_preferring(&edit, Some(side)) {
            Ok(inverse) if inverse.is_empty() => app.say("kept what is there"),
            settled => {
                if app.change(settled.map(|inverse| inverse.inverse())) && side == Side::Theirs {
                    app.say("kept what is there");
                }
            }
        }
    })
}

/// What another hand's doing means for the question.
pub const MEANWHILE: &str =
    "Another hand changed the same thing meanwhile. Nothing is overwritten until you choose.";

/// Both sides of every clash; `ours` is what the user's own side is called.
pub fn lead(clashes: &[Clash], ours: &str) -> Vec<String> {
    let mut lead = vec![MEANWHILE.to_owned()];
    for clash in clashes {
        for field in &clash.fields {
            lead.push(format!("{}: {}", clash.record, field.field));
            lead.push(format!("there: {}", FieldClash::words(&field.theirs)));
            lead.push(format!("{ours}: {}", FieldClash::words(&field.ours)));
        }
    }
    lead
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::screen::trial::Trial;
    use crate::screen::views::Target;

    const SIZE: (u16, u16) = (100, 30);

    fn apron() -> Target {
        Target::Outfit("apron".parse().unwrap())
    }

    fn title(trial: &Trial, outfit: &str) -> Option<String> {
        trial.app.open.board().outfit(&outfit.parse().unwrap()).map(|outfit| outfit.title.clone())
    }

    /// The apron renamed here, after another hand took it away.
    fn renamed_and_gone() -> Trial {
        let mut trial = Trial::small();
        trial.app.rename(apron());
        trial.removes("outfits/apron.yaml");
        trial.retypes("Ours");
        trial.keys("enter");
        trial
    }

    #[test]
    fn a_record_changed_here_and_removed_there_is_put_as_a_choice() {
        let screen = renamed_and_gone().screen(SIZE);
        for words in ["outfit `apron`: changed here, removed there", "there: nothing", "yours: title: Ours"] {
            assert!(screen.contains(words), "{words}\n{screen}");
        }
        for (answer, stands) in [("enter", None), ("down enter", Some("Ours")), ("down down enter", None)] {
            let mut trial = renamed_and_gone();
            trial.keys(answer);
            assert_eq!(title(&trial, "apron").as_deref(), stands, "{answer}");
            assert!(trial.app.layers.is_empty());
        }
    }

    #[test]
    fn a_look_of_one_name_made_here_and_there_is_put_as_a_choice() {
        for (answer, stands) in [("enter", "Theirs"), ("down enter", "Coat")] {
            let mut trial = Trial::small();
            trial.app.gather(vec!["blackout-coat".parse().unwrap()]);
            trial.writes(
                "board.yaml",
                &json!({"shirr": 1, "id": "trial", "title": "Trial",
                "characters": [{"id": "odile", "name": "Odile"}, {"id": "bridie", "name": "Bridie"},
                    {"id": "ivo", "name": "Ivo"}],
                "periods": [{"id": "races", "title": "The races", "span": "1925/1934"},
                    {"id": "war", "title": "The war", "span": "1939/1945"}],
                "threads": [{"id": "green-cap", "title": "The green cap"}]}),
            );
            trial.writes(
                "looks/coat.yaml",
                &json!({"title": "Theirs", "character": "odile",
                "treatment": "invent", "period": "war"}),
            );
            trial.retypes("Coat");
            trial.keys("enter");
            let screen = trial.screen(SIZE);
            for words in ["look `coat`: made here and there", "there: Theirs", "yours: Coat"] {
                assert!(screen.contains(words), "{words}\n{screen}");
            }
            trial.keys(answer);
            assert_eq!(trial.app.open.board().look(&"coat".parse().unwrap()).unwrap().title, stands);
        }
    }

    #[test]
    fn all_of_an_edit_that_clashes_is_shown_before_the_answer_decides_over_it() {
        let mut trial = Trial::small();
        let board = trial.app.board();
        let one = board.change_outfit(&"apron".parse().unwrap(), "both", |outfit| outfit.title = "A".into());
        let other = board.change_look(&"club".parse().unwrap(), "both", |look| look.says = "ours".into());
        let mut edit = one.unwrap();
        edit.changes.extend(other.unwrap().changes);
        let theirs = board.change_look(&"club".parse().unwrap(), "", |look| look.says = "theirs".into());
        trial.app.open.edit(&theirs.unwrap()).unwrap();
        trial.removes("outfits/apron.yaml");
        trial.app.change(Ok(edit));
        let screen = trial.screen(SIZE);
        for words in ["outfit `apron`: changed here, removed there", "look `club`: says", "there: theirs"] {
            assert!(screen.contains(words), "{words}\n{screen}");
        }
    }

    #[test]
    fn an_answer_that_passes_a_limit_is_asked_about_that_too() {
        let mut trial = Trial::small();
        let odile = "odile".parse().unwrap();
        // She has four looks of three already; without this one it is three.
        let board = trial.app.board();
        let moved = board.change_look(&"swim".parse().unwrap(), "moved", |look| {
            look.period = Some("races".parse().unwrap());
        });
        let count = trial.app.board().looks_of_character(&odile).len();
        trial.removes("looks/swim.yaml");
        trial.app.change(moved);
        assert!(trial.screen(SIZE).contains("look `swim`: changed here, removed there"));
        trial.keys("down enter");
        let screen = trial.screen(SIZE);
        assert!(screen.contains("Odile would hold 4 looks, and the limit is 3."), "{screen}");
        assert_eq!(trial.app.open.board().looks_of_character(&odile).len(), count - 1, "nothing is done yet");
    }
}
