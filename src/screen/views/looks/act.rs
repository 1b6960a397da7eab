//! What the keys do in the view of looks.

use super::{edit, fields};
use crate::board::{Board, LookId, OutfitId};
use crate::screen::actions::{Act, Scope};
use crate::screen::app::App;
use crate::screen::deeds::outfit_words;
use crate::screen::layers::{Item, Pick};
use crate::screen::views::Target;

/// Does an action of this view.
pub fn perform(app: &mut App, act: Act) {
    match act {
        Act::LookInvent => return app.invent(),
        Act::Up => return step(app, -1),
        Act::Down => return step(app, 1),
        Act::PageBack => return page(app, false),
        Act::PageOn => return page(app, true),
        Act::First => return far(app, isize::MIN),
        Act::Last => return far(app, isize::MAX),
        _ => {}
    }
    let Some(id) = app.looks.look(app.board()) else {
        return app.say("no looks yet: gather outfits on the wall with g, or invent one with i");
    };
    match act {
        Act::LookFields | Act::Right => app.looks.enter(app.open.board()),
        Act::LookList | Act::Left => app.looks.back(),
        Act::LookEdit if app.looks.inside => edit::change(app, id),
        Act::LookEdit => app.looks.enter(app.open.board()),
        Act::LookTreatment => app.choose_treatment(id),
        Act::LookDeparture => app.write_departure(id, None),
        Act::LookAssign => app.assign_look(id),
        Act::LookStage => app.choose_stage(id),
        Act::LookBase => app.choose_base(id),
        Act::LookRename => app.rename(Target::Look(id)),
        Act::LookMerge => app.merge_look(id),
        Act::LookSplit => split(app, &id),
        Act::LookEarlier => reorder(app, id, -1),
        Act::LookLater => reorder(app, id, 1),
        Act::LookDissolve => app.dissolve(id),
        Act::LookRemoveItem if app.looks.inside => edit::remove(app, id),
        Act::LookRemoveItem => app.say("x takes away the item in focus among the fields: tab goes there"),
        Act::LookMake => {
            app.view = Scope::Workroom;
            app.focus(&Target::Look(id));
            app.workroom.enter(app.open.board());
        }
        Act::LookOnWall => {
            app.view = Scope::Wall;
            app.focus(&Target::Look(id));
        }
        _ => {}
    }
}

/// A click on the field of this number: puts the focus there, and opens it where it was there before.
pub fn click(app: &mut App, row: usize) {
    let board = app.open.board();
    let Some(id) = app.looks.look(board) else { return };
    let entries = fields::entries(board, &id);
    let looks = &mut app.looks;
    let before = looks.inside.then(|| looks.fields.key(&entries).cloned()).flatten();
    looks.inside = true;
    looks.fields.go_to_nth(row);
    if before.is_some() && before.as_ref() == looks.fields.key(&entries) {
        edit::change(app, id);
    }
}

fn step(app: &mut App, by: isize) {
    let board = app.open.board();
    if !app.looks.inside {
        return app.looks.step(board, by);
    }
    if let Some(id) = app.looks.look(board) {
        app.looks.fields.step(by, &fields::entries(board, &id));
    }
}

fn page(app: &mut App, down: bool) {
    let board = app.open.board();
    if !app.looks.inside {
        let by = isize::try_from(app.looks.page).unwrap_or(1);
        return app.looks.step(board, if down { by } else { -by });
    }
    if let Some(id) = app.looks.look(board) {
        app.looks.fields.page(down, &fields::entries(board, &id));
    }
}

fn far(app: &mut App, by: isize) {
    let board = app.open.board();
    if !app.looks.inside {
        return app.looks.step(board, by);
    }
    if let Some(id) = app.looks.look(board) {
        app.looks.fields.jump(by, &fields::entries(board, &id));
    }
}

fn reorder(app: &mut App, id: LookId, by: isize) {
    let edit = app.board().reorder(&id, by);
    if app.change(edit) {
        app.looks.go_to(app.open.board(), id);
    }
}

/// Asks which outfits to split off into a new look; the folded one in focus is marked already.
fn split(app: &mut App, id: &LookId) {
    let board = app.board();
    let Some(look) = board.look(id) else { return };
    if look.outfits().count() < 2 {
        let title = &look.title;
        return app.warn(format!("{title} stands for one outfit at most: there is nothing to split off"));
    }
    let entries = fields::entries(board, id);
    let marked = match app.looks.fields.key(&entries) {
        Some(fields::Spot::Folded(outfit)) if app.looks.inside => vec![outfit.clone()],
        _ => Vec::new(),
    };
    if let Some(pick) = split_pick(board, id, marked, 0) {
        app.open_layer(pick);
    }
}

fn split_pick(board: &Board, id: &LookId, mut marked: Vec<OutfitId>, at: usize) -> Option<Pick> {
    let look = board.look(id)?;
    let outfits: Vec<OutfitId> = look.outfits().cloned().collect();
    let mut items = vec![match marked.len() {
        0 => Item::new("Mark the outfits that go into the new look", ""),
        1 => Item::new("Split 1 outfit off", "asks for the new look's title"),
        count => Item::new(format!("Split {count} outfits off"), "asks for the new look's title"),
    }];
    items.extend(outfits.iter().enumerate().map(|(place, outfit)| {
        let mark = if marked.contains(outfit) { "✓" } else { " " };
        let base = place == 0 && look.base.is_some();
        Item::new(outfit_words(board, outfit), if base { "the base" } else { "" }).marked(mark)
    }));
    let title = format!("Split {}", look.title);
    let id = id.clone();
    let pick = Pick::question(title, Vec::new(), items, move |app, chosen| {
        let Some(outfit) = chosen.checked_sub(1).and_then(|place| outfits.get(place)) else {
            if !marked.is_empty() {
                // The first of them in the look's own order becomes the new base.
                let marked = outfits.into_iter().filter(|outfit| marked.contains(outfit)).collect();
                app.split(marked);
            }
            return;
        };
        match marked.iter().position(|have| have == outfit) {
            Some(have) => drop(marked.remove(have)),
            None => marked.push(outfit.clone()),
        }
        if let Some(again) = split_pick(app.board(), &id, marked, chosen) {
            app.open_layer(again);
        }
    });
    Some(pick.at(at))
}
