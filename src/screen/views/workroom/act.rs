//! What the keys do in the workroom.

use super::garment::Part;
use super::seen::Seen;
use super::{Tab, cloth, copies, edit, measures, why};
use crate::board::LookId;
use crate::screen::actions::{Act, Scope};
use crate::screen::app::App;
use crate::screen::views::Target;
use crate::trade::length::Unit;
use crate::workroom::copies::plan::{Demand, Garment};

/// Does an action of this view.
pub fn perform(app: &mut App, act: Act) {
    app.reckon();
    let Some(id) = app.workroom.among.look(app.board()) else {
        return app
            .say("no looks yet: gather outfits on the wall with g, or invent one among the looks with i");
    };
    match act {
        Act::Up => step(app, -1),
        Act::Down => step(app, 1),
        Act::PageBack => page(app, -1),
        Act::PageOn => page(app, 1),
        Act::First => step(app, isize::MIN),
        Act::Last => step(app, isize::MAX),
        Act::Left => across(app, -1),
        Act::Right => across(app, 1),
        Act::RoomTab if !app.workroom.inside => app.workroom.enter(app.open.board()),
        Act::RoomTab => app.workroom.tab = app.workroom.tab.step(1),
        Act::RoomTabBack if !app.workroom.inside => app.workroom.enter(app.open.board()),
        Act::RoomTabBack => app.workroom.tab = app.workroom.tab.step(Tab::ALL.len() - 1),
        Act::RoomNext => to_look(app, 1),
        Act::RoomBefore => to_look(app, -1),
        Act::RoomEdit => open(app),
        Act::RoomWhy => why::show(app),
        Act::RoomPiece => choose(app, &id, Part::Piece),
        Act::RoomVersion => choose(app, &id, Part::Version),
        Act::RoomWearer => choose(app, &id, Part::Wearer),
        Act::RoomAdd => edit::add_measure(app),
        Act::RoomRule => edit::rule(app),
        Act::RoomDrop => edit::drop_measure(app),
        Act::RoomFit => edit::fitting(app),
        Act::RoomMore => plan(app, |_, planned| planned.saturating_add(1)),
        Act::RoomFewer => plan(app, |_, planned| planned.saturating_sub(1)),
        Act::RoomAsNeeded => plan(app, |demand, planned| {
            demand.map_or(planned, |demand| u8::try_from(demand.copies()).unwrap_or(u8::MAX))
        }),
        Act::RoomTrial => edit::trial(app),
        Act::RoomUnit => {
            let unit = match app.board().head().units {
                Unit::Centimetres => Unit::Inches,
                Unit::Inches => Unit::Centimetres,
            };
            let edit = app.board().show_lengths_in(unit);
            app.change(Ok(edit));
        }
        Act::RoomLook => {
            app.view = Scope::Looks;
            app.focus(&Target::Look(id));
        }
        _ => {}
    }
}

/// A click on a page's name, or on a row of a page: puts the focus there; on a row that had it, opens it.
pub fn click(app: &mut App, row: usize) {
    app.reckon();
    let (tab, row) = Tab::of_row(row);
    let room = &app.workroom;
    let again = room.inside && room.tab == tab && row == Some(room.cursors[tab.place()].at);
    app.workroom.tab = tab;
    app.workroom.enter(app.open.board());
    let Some(row) = row else { return };
    if again {
        return open(app);
    }
    match (tab, seen(app)) {
        (Tab::Copies, Some(seen)) => {
            let garment = copies::demands(&seen).get(row).map(|demand| demand.garment.clone());
            garment.iter().for_each(|garment| app.workroom.chosen.take(garment));
        }
        _ => app.workroom.cursors[tab.place()].at = row,
    }
}

/// What the pages are made from; `None` where there is no look.
pub(super) fn seen(app: &App) -> Option<Seen<'_>> {
    let board = app.open.board();
    let reckoned = app.reckoning.get()?;
    let id = app.workroom.among.look(board)?;
    let garment = app.workroom.chosen.garment(board, reckoned, &id);
    // The look's own name in the board outlives this.
    let (id, look) = board.records().looks.get_key_value(&id)?;
    Some(Seen { board, id, look, reckoned, garment, unit: board.head().units })
}

/// Opens what is in focus: goes into the page, writes the cell, or tells more.
fn open(app: &mut App) {
    if !app.workroom.inside {
        return app.workroom.enter(app.open.board());
    }
    match app.workroom.tab {
        Tab::Measures => edit::cell(app),
        Tab::Copies => why::show(app),
        Tab::Cloth => edit::cloth(app),
        Tab::Cost => app.say("costs come of cloths, hours and copies: E opens the look's file, Y the rates"),
        Tab::Cautions => why::show(app),
    }
}

fn to_look(app: &mut App, by: isize) {
    let board = app.open.board();
    if let Some(id) = app.workroom.among.after(board, by) {
        app.workroom.go_to(board, id);
    }
}

/// How many stops the page in focus has; none where it is only scrolled.
fn stops(seen: &Seen<'_>, tab: Tab) -> usize {
    match tab {
        Tab::Measures => seen.garment.as_ref().map_or(0, |garment| measures::rows(seen, garment).len()),
        Tab::Copies => copies::demands(seen).len(),
        Tab::Cloth => cloth::cloths(seen).len(),
        Tab::Cost | Tab::Cautions => 0,
    }
}

fn step(app: &mut App, by: isize) {
    if !app.workroom.inside {
        return to_look(app, by);
    }
    let tab = app.workroom.tab;
    if app.workroom.cursors[tab.place()].roll(by) {
        return;
    }
    let Some(seen) = seen(app) else { return };
    let stops = stops(&seen, tab);
    let at = copies::place(&seen, &copies::demands(&seen));
    if tab != Tab::Copies {
        return app.workroom.cursors[tab.place()].step(by, stops);
    }
    // Which copies are in focus is which garment is: the measures follow.
    let to = at.map_or(0, |at| at.saturating_add_signed(by)).min(stops.saturating_sub(1));
    let garment = copies::demands(&seen).get(to).map(|demand| demand.garment.clone());
    if let Some(garment) = garment.filter(|_| at != Some(to)) {
        app.workroom.chosen.take(&garment);
        app.workroom.day = None;
    }
}

fn page(app: &mut App, by: isize) {
    let room = &app.workroom;
    let rows = if room.inside {
        room.cursors[room.tab.place()].page()
    } else {
        isize::try_from(room.list.page).unwrap_or(1)
    };
    step(app, by * rows);
}

/// Left and right: between list and page, between the columns of the measures, between shooting days.
fn across(app: &mut App, by: isize) {
    if !app.workroom.inside {
        if by > 0 {
            app.workroom.enter(app.open.board());
        }
        return;
    }
    let Some(seen) = seen(app) else { return };
    let last = copies::shooting_days(seen.board, &seen.reckoned.plan.days).len().saturating_sub(1);
    let demands = copies::demands(&seen);
    let demand = copies::place(&seen, &demands).and_then(|at| demands.get(at));
    let day = demand.map_or(0, |demand| copies::day_of(&seen, demand, app.workroom.day));
    let room = &mut app.workroom;
    match room.tab {
        Tab::Measures => match room.column.step(by) {
            Some(column) => room.column = column,
            None if by < 0 => room.back(),
            None => {}
        },
        Tab::Copies => match day.checked_add_signed(by) {
            Some(day) => room.day = Some(day.min(last)),
            None => room.back(),
        },
        _ if by < 0 => room.back(),
        _ => {}
    }
}

/// Goes on to the next piece, version or wearer.
fn choose(app: &mut App, id: &LookId, part: Part) {
    let Some(reckoned) = app.reckoning.get() else { return };
    let board = app.open.board();
    if app.workroom.chosen.next(board, reckoned, id, part) {
        app.workroom.day = None;
        return;
    }
    app.say(match part {
        Part::Piece => "the look has no other piece",
        Part::Version => "the piece has no other version: E writes versions in the look's file",
        Part::Wearer => {
            "nobody else wears it: performers and doubles stand with the character (Y opens board.yaml)"
        }
    });
}

/// Plans another number of copies of the garment in focus.
fn plan(app: &mut App, copies: impl FnOnce(Option<&Demand>, u8) -> u8) {
    if !(app.workroom.inside && app.workroom.tab == Tab::Copies) {
        return app.say("copies are planned on the page of copies: tab goes there");
    }
    let Some(seen) = seen(app) else { return };
    let Some(garment) = seen.garment.clone() else { return app.say("the look has no piece yet") };
    let demand = seen.reckoned.plan.of_look(seen.id).find(|demand| demand.garment == garment);
    let planned = planned(&seen, &garment);
    let edit = seen.board.plan_copies(
        &edit::piece_of(&garment),
        &garment.version,
        &garment.wearer,
        copies(demand, planned),
    );
    app.change(edit);
}

fn planned(seen: &Seen<'_>, garment: &Garment) -> u8 {
    let make = seen.look.make.get(&garment.piece);
    let version = make.and_then(|make| crate::workroom::fit::version_of(make, &garment.version));
    version.and_then(|version| version.copies.get(&garment.wearer)).copied().unwrap_or(0)
}
