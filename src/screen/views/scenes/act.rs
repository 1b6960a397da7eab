//! What the keys do in the view of scenes.

use super::rows::Order;
use super::{Cell, before, cell, choose, foreign_period, form, range};
use crate::board::{CharacterId, SceneNumber};
use crate::check::words::counted;
use crate::screen::actions::{Act, Scope};
use crate::screen::app::App;
use crate::screen::layers::{Item, Pick};
use crate::screen::views::Target;

/// Does an action of this view.
pub fn perform(app: &mut App, act: Act) {
    let board = app.open.board();
    let page = isize::try_from(app.scenes.page).unwrap_or(1);
    match act {
        Act::Up => app.scenes.step(board, -1),
        Act::Down => app.scenes.step(board, 1),
        Act::PageBack => app.scenes.step(board, -page),
        Act::PageOn => app.scenes.step(board, page),
        Act::First => app.scenes.step(board, isize::MIN),
        Act::Last => app.scenes.step(board, isize::MAX),
        Act::Left => app.scenes.turn(board, -1),
        Act::Right => app.scenes.turn(board, 1),
        Act::SceneRange => range::toggle(app),
        Act::SceneOrder => turn_order(app),
        Act::SceneNextGap => next_gap(app),
        Act::SceneAdd => form::add(app),
        Act::SceneEdit => form::edit(app),
        Act::SceneCut => cut(app),
        Act::SceneAssign | Act::SceneCarry | Act::SceneClear | Act::SceneAway | Act::SceneLook => {
            in_cell(app, act)
        }
        _ => {}
    }
}

/// A click on the cell of this number, counted along the rows: puts the focus there, and chooses a look where it was
/// there before.
pub fn click(app: &mut App, number: usize) {
    let board = app.open.board();
    let characters = &board.head().characters;
    let (Some(at), Some(place)) =
        (number.checked_div(characters.len()), number.checked_rem(characters.len()))
    else {
        return;
    };
    let character = characters.get(place).map(|one| one.id.clone());
    let again = app.scenes.at(board) == Some(at) && app.scenes.character(board) == character;
    app.scenes.go_to(board, at);
    app.scenes.character = character;
    if again {
        perform(app, Act::SceneAssign);
    }
}

/// Where the focus is, in the board's own terms; says what is missing where there is none.
pub(super) fn focus(app: &mut App) -> Option<(usize, SceneNumber)> {
    let board = app.board();
    let found =
        app.scenes.at(board).and_then(|at| Some((at, board.records().scenes.get(at)?.number.clone())));
    if found.is_none() {
        app.say("no scenes yet: N adds the first");
    }
    found
}

fn in_cell(app: &mut App, act: Act) {
    let Some((at, number)) = focus(app) else { return };
    let Some(character) = app.scenes.character(app.board()) else {
        return app.warn("the board has no characters yet: Y opens board.yaml");
    };
    if act != Act::SceneLook && range::perform(app, act, &character) {
        return;
    }
    let board = app.board();
    let edit = match act {
        Act::SceneAssign => return choose::choose(app, at, number, character),
        Act::SceneCarry => return carry(app, at, &number, &character),
        Act::SceneClear => board.assign(&number, &character, None),
        Act::SceneAway => board.send_away(&number, &character),
        _ => return show_look(app, at, &character),
    };
    app.change(edit);
}

/// Shows the scenes in the other order.
fn turn_order(app: &mut App) {
    let (order, words) = match app.scenes.order {
        Order::Story if app.board().records().schedule.is_empty() => {
            return app.say("there is no schedule yet, so no shooting order");
        }
        Order::Story => {
            (Order::Shooting, "as they are shot; what is quiet is worn on from the scene before that day")
        }
        Order::Shooting => (Order::Story, "as they are told"),
    };
    app.scenes.order = order;
    app.scenes.back();
    app.say(words);
}

fn carry(app: &mut App, at: usize, number: &SceneNumber, character: &CharacterId) {
    let board = app.board();
    let name = board.name_of(character);
    let edit = match before(board, at, character) {
        None => {
            let words = format!("{name} is in no scene before this: enter chooses a look");
            return app.say(words);
        }
        Some((earlier, None)) => {
            let earlier =
                board.records().scenes.get(earlier).map_or(String::new(), |scene| scene.number.to_string());
            let words = format!("{name} has no look in scene {earlier} either: enter chooses one");
            return app.say(words);
        }
        Some((_, Some(look))) => board.assign(number, character, Some(look)),
    };
    if app.change(edit)
        && let Some(period) = foreign_period(app.board(), at, character)
    {
        let words = format!("{}, a look of {period}", app.said.text);
        app.say(words);
    }
}

fn show_look(app: &mut App, at: usize, character: &CharacterId) {
    let Cell::Wears(look) = cell(app.board(), at, character) else {
        return app.say("there is no look in focus");
    };
    let look = Target::Look(look.clone());
    app.view = Scope::Looks;
    app.focus(&look);
}

/// Goes to the next cell in which somebody is present and has no look; from the end on to the start.
fn next_gap(app: &mut App) {
    let Some((at, _)) = focus(app) else { return };
    let board = app.open.board();
    let characters = &board.head().characters;
    let count = board.records().scenes.len() * characters.len();
    let gap = |number: &usize| {
        let (at, place) = (number / characters.len(), number % characters.len());
        characters.get(place).is_some_and(|one| cell(board, at, &one.id) == Cell::Gap)
    };
    let here = at * characters.len() + app.scenes.column(board).unwrap_or(0);
    let gaps = (0..count).filter(gap).count();
    let next = (here + 1..count).find(gap).or_else(|| (0..count.min(here + 1)).find(gap));
    let Some(next) = next else { return app.say("everybody in every scene has a look") };
    let (at, place) = (next / characters.len(), next % characters.len());
    app.scenes.go_to(board, at);
    app.scenes.character = characters.get(place).map(|one| one.id.clone());
    app.say(if gaps == 1 { "this is the only gap".to_owned() } else { format!("{gaps} gaps in all") });
}

fn cut(app: &mut App) {
    let Some((at, number)) = focus(app) else { return };
    let board = app.board();
    let Some(scene) = board.records().scenes.get(at) else { return };
    let scheduled = board.records().schedule.iter().filter(|day| day.scenes.contains(&number)).count();
    let wearing = scene.wears.iter().filter(|(_, look)| look.is_some()).count();
    let mut lead = vec![scene.heading.clone()];
    lead.retain(|line| !line.is_empty());
    lead.push(format!(
        "It takes {} and {} off the plot. It can be undone.",
        counted(wearing, "look"),
        counted(scheduled, "shooting day")
    ));
    let items = vec![Item::new("Cut it", ""), Item::new("Keep it", "")];
    app.open_layer(Pick::question(format!("Cut scene {number}?"), lead, items, move |app, choice| {
        if choice == 0 {
            let edit = app.board().cut_scene(&number);
            app.change(edit);
        }
    }));
}
