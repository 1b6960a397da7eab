//! What the keys do on the walk.

use super::page::open_in_words;
use super::record;
use super::stops::title;
use crate::board::Stop;
use crate::screen::actions::{Act, Scope};
use crate::screen::app::App;
use crate::screen::layers::{Item, Pick};

/// Does an action of this view.
pub fn perform(app: &mut App, act: Act) {
    let board = app.open.board();
    match act {
        Act::Right | Act::PageOn | Act::WalkOn => step(app, 1, "this is the last stop"),
        Act::Left | Act::PageBack | Act::WalkBack => step(app, -1, "this is the first stop"),
        Act::Up => app.walk.scroll = app.walk.scroll.saturating_sub(1),
        Act::Down => app.walk.scroll += 1,
        Act::First => drop(app.walk.step(board, isize::MIN)),
        Act::Last => drop(app.walk.step(board, isize::MAX)),
        Act::WalkBy => turn(app),
        Act::WalkJump => jump(app),
        Act::WalkDecide => record::decide(app),
        Act::WalkAsk => record::ask(app),
        Act::WalkAnswer => record::answer(app),
        Act::WalkPresent => record::present(app),
        Act::WalkShow => show(app),
        _ => {}
    }
}

fn step(app: &mut App, by: isize, end: &str) {
    if !app.walk.step(app.open.board(), by) {
        app.say(end);
    }
}

/// Goes on by periods, looks or scenes, from the stop that is nearest.
fn turn(app: &mut App) {
    let board = app.open.board();
    let (stop, by) = (app.walk.at(board), app.walk.by.next());
    app.walk.by = by;
    app.walk.go_to(board, by.nearest(board, &stop));
    app.say(format!("walking {}", by.words()));
}

fn jump(app: &mut App) {
    let board = app.board();
    let stops = app.walk.by.stops(board);
    let open = |stop: &Stop| open_in_words(board, stop);
    let items = stops.iter().map(|stop| Item::new(name(board, stop), open(stop))).collect();
    let at = app.walk.place;
    let pick = Pick::new(format!("Jump, {}", app.walk.by.words()), items, move |app, at| {
        if let Some(stop) = stops.get(at) {
            app.walk.go_to(app.open.board(), stop.clone());
        }
    });
    app.open_layer(pick.at(at));
}

/// What a stop is called in a list: a scene with where it plays.
fn name(board: &crate::board::Board, stop: &Stop) -> String {
    match stop {
        Stop::Scene(number) => {
            let heading = board.scene(number).map_or("", |scene| scene.heading.as_str());
            format!("{number} {heading}")
        }
        Stop::Board => "The whole board".to_owned(),
        stop => title(board, stop),
    }
}

/// Leaves the walk for the view that shows the stop.
fn show(app: &mut App) {
    let Some(target) = app.focused() else { return app.say("the wall shows the whole board: 1") };
    app.view = match app.walk.at(app.open.board()) {
        Stop::Look(_) => Scope::Looks,
        Stop::Scene(_) => Scope::Scenes,
        Stop::Period(_) | Stop::Board => Scope::Wall,
    };
    app.focus(&target);
}
