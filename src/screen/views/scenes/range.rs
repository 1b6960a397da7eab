//! Doing the same in every scene of a range, as one change.
//!
//! Scenes in which the character is present are dressed, and whoever is away stays away. Only choosing a look adds a
//! character: where the character is in none of them, or the answer is to be in all.

use super::{Cell, before, cell};
use crate::board::{Board, CharacterId, Edit, LookId, Refused};
use crate::check::words::{counted, look_title};
use crate::screen::actions::Act;
use crate::screen::app::App;
use crate::screen::layers::{Item, Pick};

/// Begins a range at the scene in focus, or takes it away.
pub fn toggle(app: &mut App) {
    if app.scenes.back() {
        return app.say("no range");
    }
    let board = app.open.board();
    let scene = app.scenes.at(board).and_then(|at| board.records().scenes.get(at));
    app.scenes.anchor = scene.map(|scene| scene.number.clone());
    app.say("a range begins here: go up or down, then assign, carry or clear; esc takes it away");
}

/// Does an action in every scene of the range. Says whether there is one.
pub fn perform(app: &mut App, act: Act, character: &CharacterId) -> bool {
    let board = app.board();
    let places = app.scenes.range(board);
    if places.len() < 2 {
        return false;
    }
    let present: Vec<usize> =
        places.iter().copied().filter(|at| cell(board, *at, character) != Cell::Away).collect();
    if act == Act::SceneAssign {
        choose(app, places, present, character);
        return true;
    }
    let name = board.name_of(character).to_owned();
    if present.is_empty() {
        let adds = if act == Act::SceneAway { "" } else { ": `a` chooses a look and adds the character" };
        app.warn(format!("{name} is in none of these scenes{adds}"));
        return true;
    }
    if act == Act::SceneAway {
        let edits = present.iter().map(|at| board.send_away(&board.records().scenes[*at].number, character));
        let label = format!("{} without {name}", counted(present.len(), "scene"));
        let edit = joined(edits, label);
        app.change(edit);
        return true;
    }
    match act {
        Act::SceneCarry => {
            let first = places.iter().copied().min().unwrap_or(0);
            match before(board, first, character) {
                Some((_, Some(look))) => {
                    let how = format!("wears {} on", look_title(board, look));
                    let edit = dress(board, &present, character, Some(look), &how);
                    app.change(edit);
                }
                Some((_, None)) | None => {
                    app.say(format!("{name} wears nothing before the range to be carried on"));
                }
            }
        }
        _ => {
            let edit = dress(board, &present, character, None, "has no look yet");
            app.change(edit);
        }
    }
    true
}

/// Asks which look the character wears in all of them.
fn choose(app: &mut App, places: Vec<usize>, present: Vec<usize>, character: &CharacterId) {
    let board = app.board();
    let looks = board.looks_of_character(character);
    let period = |look: &LookId| board.relations().period_of_look(look).map(|period| board.title_of(period));
    let item = |look: &LookId| Item::new(look_title(board, look), period(look).unwrap_or_default());
    let items = looks.iter().map(item).collect();
    let title = format!("{} wears in {}", board.name_of(character), counted(places.len(), "scene"));
    let character = character.clone();
    app.open_layer(Pick::new(title, items, move |app, chosen| {
        let Some(look) = looks.into_iter().nth(chosen) else { return };
        if present.is_empty() || present.len() == places.len() {
            wear(app, &places, &character, &look);
        } else {
            ask_where(app, places, present, character, look);
        }
    }));
}

/// Asks whether the scenes in which the character is not are meant too.
fn ask_where(app: &mut App, places: Vec<usize>, present: Vec<usize>, character: CharacterId, look: LookId) {
    let board = app.board();
    let (name, title) = (board.name_of(&character), look_title(board, &look));
    let all = counted(places.len(), "scene");
    let lead = vec![format!("{name} is in {} of these {all}.", present.len())];
    let added = places.len() - present.len();
    let items = vec![
        Item::new(format!("Where {name} is"), counted(present.len(), "scene")),
        Item::new("In all of them", format!("adds {name} to {added}")),
    ];
    app.open_layer(Pick::question(format!("{name} wears {title}"), lead, items, move |app, choice| {
        wear(app, if choice == 0 { &present } else { &places }, &character, &look);
    }));
}

fn wear(app: &mut App, places: &[usize], character: &CharacterId, look: &LookId) {
    let board = app.board();
    let how = format!("wears {}", look_title(board, look));
    let edit = dress(board, places, character, Some(look), &how);
    if app.change(edit) {
        app.scenes.back();
    }
}

/// Puts a look, or none yet, on the character in scenes; `how` says so.
fn dress(
    board: &Board,
    places: &[usize],
    character: &CharacterId,
    look: Option<&LookId>,
    how: &str,
) -> Result<Edit, Refused> {
    let scenes = places.iter().filter_map(|at| board.records().scenes.get(*at));
    let label = format!("{}: {} {how}", counted(places.len(), "scene"), board.name_of(character));
    joined(scenes.map(|scene| board.assign(&scene.number, character, look)), label)
}

/// One edit of several, each of another scene.
fn joined(edits: impl Iterator<Item = Result<Edit, Refused>>, label: String) -> Result<Edit, Refused> {
    let mut changes = Vec::new();
    for edit in edits {
        changes.extend(edit?.changes);
    }
    Ok(Edit::new(label, changes))
}
