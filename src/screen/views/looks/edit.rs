//! Changing the field in focus, and taking away the item in focus.

use super::fields::{self, Spot};
use crate::board::{Board, LookId, PeriodId};
use crate::screen::app::App;
use crate::screen::deeds::undress;
use crate::screen::layers::{Field, Form, Item, Pick};
use crate::screen::views::Target;
use crate::screen::wearable::Wearable;

/// Changes the field in focus.
pub fn change(app: &mut App, id: LookId) {
    let Some(spot) = in_focus(app, &id) else { return };
    let wearable = Wearable::Look(id.clone());
    match spot {
        Spot::Title => app.rename(Target::Look(id)),
        Spot::Says => write_says(app, id),
        Spot::Treatment => app.choose_treatment(id),
        Spot::Base => app.choose_base(id),
        Spot::Folded(outfit) => app.open_sheet(Target::Outfit(outfit)),
        Spot::Fold => app.choose_folded(id),
        Spot::Period => choose_period(app, id),
        Spot::Stage => app.choose_stage(id),
        Spot::Departure(at) => app.write_departure(id, Some(at)),
        Spot::AddDeparture => app.write_departure(id, None),
        Spot::Piece(at) => app.write_piece(wearable, Some(at)),
        Spot::AddPiece => app.write_piece(wearable, None),
        Spot::Thread(thread) => {
            let threads = &app.board().head().threads;
            let at = threads.iter().position(|one| one.id == thread).unwrap_or(0);
            app.choose_threads(wearable, at);
        }
        Spot::AddThread => app.choose_threads(wearable, 0),
        Spot::Dressing(at) => app.write_dressing(wearable, Some(at)),
        Spot::AddDressing => app.write_dressing(wearable, None),
        Spot::Notes => app.write_notes(),
        Spot::Scene(number) => app.go_to(&Target::Scene(number)),
        Spot::AddScene => app.assign_look(id),
    }
}

/// Takes away the item in focus.
pub fn remove(app: &mut App, id: LookId) {
    let Some(spot) = in_focus(app, &id) else { return };
    let wearable = Wearable::Look(id.clone());
    match spot {
        Spot::Departure(at) => remove_departure(app, &id, at),
        Spot::Piece(at) => app.drop_piece(&wearable, at),
        Spot::Thread(thread) => app.toggle_thread(&wearable, &thread),
        Spot::Dressing(at) => app.drop_dressing(&wearable, at),
        Spot::Folded(outfit) => {
            let edit = app.board().release(&[outfit]);
            app.change(edit);
        }
        Spot::Scene(number) => {
            let Some(look) = app.board().look(&id) else { return };
            let edit = undress(app.board(), &number, &look.character);
            app.change(edit);
        }
        Spot::Base => app.say("b makes another of its outfits the base; D takes the whole look away"),
        _ => app.say("x takes away a folded outfit, departure, piece, thread, dressing note or scene"),
    }
}

fn in_focus(app: &App, id: &LookId) -> Option<Spot> {
    app.looks.fields.key(&fields::entries(app.board(), id)).cloned()
}

fn remove_departure(app: &mut App, id: &LookId, at: usize) {
    let Some(look) = app.board().look(id) else { return };
    let Some(departure) = look.departures.get(at) else { return };
    let label = format!("{} no longer departs in its {}", look.title, departure.detail);
    let edit = app.board().change_look(id, label, |look| drop(look.departures.remove(at)));
    app.change(edit);
}

fn write_says(app: &mut App, id: LookId) {
    let Some(look) = app.board().look(&id) else { return };
    let (title, says) = (look.title.clone(), look.says.clone());
    let fields = vec![Field::line("it says", says)];
    let form = Form::new(format!("What {title} tells, in one line"), fields, move |app, filled| {
        let says = filled.first().map_or("", |filled| filled.text()).to_owned();
        let edit = app.board().change_look(&id, format!("{title} says: {says}"), |look| look.says = says);
        app.change(edit);
        Ok(())
    });
    app.open_layer(form);
}

fn choose_period(app: &mut App, id: LookId) {
    let board = app.board();
    let Some(look) = board.look(&id) else { return };
    let from = if look.base.is_some() { "as its base says" } else { "as its first scene says" };
    let mut items = vec![Item::new(from, "")];
    let periods: Vec<PeriodId> = board.head().periods.iter().map(|period| period.id.clone()).collect();
    items.extend(board.head().periods.iter().map(|period| Item::new(&period.title, period.span.short())));
    let at =
        look.period.as_ref().and_then(|own| periods.iter().position(|id| id == own)).map_or(0, |at| at + 1);
    let title = look.title.clone();
    let pick = Pick::question(format!("Period of {title}"), Vec::new(), items, move |app, choice| {
        let period = choice.checked_sub(1).and_then(|at| periods.get(at)).cloned();
        let words = period.as_ref().map_or(from, |period| app.board().title_of(period));
        let label = format!("period of {title}: {words}");
        // The period that it comes into may be full.
        let make = move |board: &Board| {
            board.change_look(&id, label.clone(), |look| look.period.clone_from(&period))
        };
        if let Err(wrong) = app.propose(Vec::new(), make) {
            app.warn(wrong);
        }
    });
    app.open_layer(pick.at(at));
}
