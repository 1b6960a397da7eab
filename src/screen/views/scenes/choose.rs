//! Choosing what a character wears in a scene.

use super::{Cell, before, cell};
use crate::board::{Board, CharacterId, LookId, SceneNumber};
use crate::screen::app::App;
use crate::screen::deeds::undress;
use crate::screen::layers::{Item, Pick};

/// Asks which look the character wears; those of the scene's period first.
pub fn choose(app: &mut App, at: usize, number: SceneNumber, character: CharacterId) {
    let board = app.board();
    let looks = in_order(board, at, &character);
    let earlier = before(board, at, &character);
    let carried = earlier.and_then(|(_, look)| look);
    let worn = match cell(board, at, &character) {
        Cell::Wears(look) => Some(look),
        Cell::Gap | Cell::Away => None,
    };
    let mut items: Vec<Item> = looks.iter().map(|id| item(board, id, worn, earlier)).collect();
    items.push(Item::new("No look yet", "present").marked("○"));
    items.push(Item::new("Not in this scene", "").marked(" "));
    let place = |look: &LookId| looks.iter().position(|have| have == look);
    let start = worn.and_then(place).or_else(|| carried.and_then(place)).unwrap_or(0);
    let title = format!("{} wears in scene {number}", board.name_of(&character));
    let pick = Pick::new(title, items, move |app, chosen| {
        let board = app.board();
        let edit = match looks.get(chosen) {
            Some(look) => board.assign(&number, &character, Some(look)),
            None if chosen == looks.len() => undress(board, &number, &character),
            None => board.send_away(&number, &character),
        };
        app.change(edit);
    });
    app.open_layer(pick.at(start));
}

/// The character's looks: those of the scene's period first, each part in the order of the list.
fn in_order(board: &Board, at: usize, character: &CharacterId) -> Vec<LookId> {
    let period = board.relations().period_of_scene(at);
    let mut looks = board.looks_of_character(character);
    looks.sort_by_key(|id| period.is_none() || board.relations().period_of_look(id) != period);
    looks
}

fn item(
    board: &Board,
    id: &LookId,
    worn: Option<&LookId>,
    earlier: Option<(usize, Option<&LookId>)>,
) -> Item {
    let Some(look) = board.look(id) else { return Item::new(id.to_string(), "not there") };
    let mut notes = Vec::new();
    if worn == Some(id) {
        notes.push("worn now".to_owned());
    }
    let carried = earlier.filter(|(_, look)| *look == Some(id));
    if let Some(scene) = carried.and_then(|(at, _)| board.records().scenes.get(at)) {
        notes.push(format!("as in scene {}", scene.number));
    }
    if let Some(period) = board.relations().period_of_look(id) {
        notes.push(board.title_of(period).to_owned());
    }
    Item::new(&look.title, notes.join(" · ")).marked(look.treatment.mark())
}
