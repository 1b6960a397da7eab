//! Doing the same in every scene of a range, as one change.
//!
//! Only scenes in which the character is present are dressed: a range is for those, and whoever is away stays away.

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
    let name = board.name_of(character).to_owned();
    if present.is_empty() {
        app.warn(format!("{name} is in none of these scenes"));
        return true;
    }
    let scenes = counted(present.len(), "scene");
    match act {
        Act::SceneAssign => choose(app, &present, character),
        Act::SceneCarry => match before(board, places[0].min(places[places.len() - 1]), character) {
            Some((_, Some(look))) => {
                let label = format!("{scenes}: {name} wears {} on", look_title(board, look));
                let edit = dress(board, &present, character, Some(look), label);
                app.change(edit);
            }
            Some((_, None)) | None => {
                app.say(format!("{name} wears nothing before the range to be carried on"))
            }
        },
        Act::SceneClear => {
            let edit = dress(board, &present, character, None, format!("{scenes}: {name} wears nothing yet"));
            app.change(edit);
        }
        _ => {
            let edits =
                present.iter().map(|at| board.send_away(&board.records().scenes[*at].number, character));
            let edit = joined(edits, format!("{scenes} without {name}"));
            app.change(edit);
        }
    }
    true
}

/// Asks which look the character wears in all of them.
fn choose(app: &mut App, present: &[usize], character: &CharacterId) {
    let board = app.board();
    let looks = board.looks_of_character(character);
    let period = |look: &LookId| board.relations().period_of_look(look).map(|period| board.title_of(period));
    let item = |look: &LookId| Item::new(look_title(board, look), period(look).unwrap_or_default());
    let items = looks.iter().map(item).collect();
    let name = board.name_of(character).to_owned();
    let title = format!("{name} wears in {}", counted(present.len(), "scene"));
    let (present, character) = (present.to_vec(), character.clone());
    app.open_layer(Pick::new(title, items, move |app, chosen| {
        let board = app.board();
        let Some(look) = looks.get(chosen) else { return };
        let label = format!("{}: {name} wears {}", counted(present.len(), "scene"), look_title(board, look));
        let edit = dress(board, &present, &character, Some(look), label);
        if app.change(edit) {
            app.scenes.back();
        }
    }));
}

fn dress(
    board: &Board,
    present: &[usize],
    character: &CharacterId,
    look: Option<&LookId>,
    label: String,
) -> Result<Edit, Refused> {
    let scenes = present.iter().filter_map(|at| board.records().scenes.get(*at));
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
