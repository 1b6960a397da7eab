//! What a suggestion is asked for of an outfit, on its sheet.

use super::entries::Spot;
use crate::board::{BaseWish, Board, OutfitId};
use crate::screen::app::App;
use crate::screen::layers::{Item, Pick};
use crate::screen::parts::record::Entry;

/// The wishes of an outfit, and a place for one more.
pub fn entries(board: &Board, id: &OutfitId) -> Vec<Entry<Spot>> {
    let mut wishes = Vec::new();
    match board.outfit(id).and_then(|outfit| outfit.wishes.base) {
        Some(BaseWish::Must) => wishes.push((Spot::WishBase, "must be the base of a look".to_owned())),
        Some(BaseWish::Never) => wishes.push((Spot::WishBase, "must not be the base of a look".to_owned())),
        None => {}
    }
    for other in board.relations().apart_from(id) {
        let words = format!("never shares a look with {}", board.title_of_outfit(other));
        wishes.push((Spot::Apart(other.clone()), words));
    }
    for other in board.relations().together_with(id) {
        let words = format!("always shares a look with {}", board.title_of_outfit(other));
        wishes.push((Spot::Together(other.clone()), words));
    }
    let label = if wishes.is_empty() { "wishes" } else { "" };
    let entry = |(at, (spot, words))| Entry::new(spot, if at == 0 { "wishes" } else { "" }, words);
    let mut entries: Vec<Entry<Spot>> = wishes.into_iter().enumerate().map(entry).collect();
    entries.push(Entry::add(Spot::AddWish, label, "wish for the suggestion"));
    entries
}

/// Asks what is wished of an outfit.
pub fn add(app: &mut App, id: OutfitId) {
    let items = vec![
        Item::new("It must be the base of a look", ""),
        Item::new("It must not be the base of a look", ""),
        Item::new("It never shares a look with …", "another outfit"),
        Item::new("It always shares a look with …", "another outfit"),
    ];
    let title = format!("What is wished of {}?", app.board().title_of_outfit(&id));
    app.open_layer(Pick::question(title, Vec::new(), items, move |app, choice| match choice {
        0 => base(app, &id, Some(BaseWish::Must)),
        1 => base(app, &id, Some(BaseWish::Never)),
        2 => pair(app, id, "Which never shares a look with it?", apart),
        _ => pair(app, id, "Which always shares a look with it?", together),
    }));
}

/// Wishes that it is a base, that it is none, or neither.
pub fn base(app: &mut App, id: &OutfitId, wish: Option<BaseWish>) {
    let edit = app.board().wish_base(id, wish);
    app.change(edit);
}

/// Wishes that two never share a look, or takes that back.
pub fn apart(app: &mut App, pair: [OutfitId; 2], wish: bool) {
    let edit = app.board().wish_apart(&pair, wish);
    app.change(edit);
}

/// Wishes that two always share a look, or takes that back.
pub fn together(app: &mut App, pair: [OutfitId; 2], wish: bool) {
    let edit = app.board().wish_together(&pair, wish);
    app.change(edit);
}

/// Asks for another outfit of the same character.
fn pair(app: &mut App, id: OutfitId, title: &str, wish: fn(&mut App, [OutfitId; 2], bool)) {
    let board = app.board();
    let who = board.outfit(&id).map(|outfit| &outfit.character);
    let is_other =
        |other: &&OutfitId| **other != id && board.outfit(other).map(|outfit| &outfit.character) == who;
    let others: Vec<OutfitId> =
        board.relations().outfits_by_date().iter().filter(is_other).cloned().collect();
    let worn = |id| board.outfit(id).and_then(|outfit| outfit.worn.as_ref()).map(|worn| worn.short());
    let item = |id| Item::new(board.title_of_outfit(id), worn(id).unwrap_or_default());
    let items = others.iter().map(item).collect();
    app.open_layer(Pick::new(title, items, move |app, at| {
        if let Some(other) = others.get(at) {
            wish(app, [id, other.clone()], true);
        }
    }));
}
