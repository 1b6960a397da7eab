//! Changing the field in focus, and taking away the item in focus.

use super::fields::{self, Spot};
use crate::board::{Board, LookId, OutfitId, PeriodId, Standing};
use crate::screen::app::App;
use crate::screen::deeds::{apart_words, outfit_words};
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
        Spot::Base => choose_base(app, id),
        Spot::Folded(outfit) => app.open_sheet(Target::Outfit(outfit)),
        Spot::Fold => choose_folded(app, id),
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
            let edit = app.board().assign(&number, &look.character, None);
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

/// Chooses the base among the look's outfits; for an invented look, among its character's.
pub fn choose_base(app: &mut App, id: LookId) {
    let board = app.board();
    let Some(look) = board.look(&id) else { return };
    let title = &look.title;
    if look.base.is_none() {
        let (outfits, items) = candidates(board, &id);
        let pick = Pick::new(format!("{title} interprets"), items, move |app, at| {
            let edit = app.board().give_base(&id, &outfits[at]);
            app.change(edit);
        });
        return open_unless_empty(app, pick);
    }
    if look.folded.is_empty() {
        let words = format!("its base is all that {title} stands for: f on the wall folds others into it");
        return app.say(words);
    }
    let outfits: Vec<OutfitId> = look.outfits().cloned().collect();
    let items = outfits.iter().map(|outfit| {
        let known = board.outfit(outfit).map_or(0, |outfit| outfit.recognition.get());
        let now = look.base.as_ref() == Some(outfit);
        let note = if now { "the base now".to_owned() } else { format!("recognition {known}") };
        Item::new(outfit_words(board, outfit), note)
    });
    let items = items.collect();
    let pick = Pick::new(format!("Base of {title}"), items, move |app, at| {
        let edit = app.board().set_base(&outfits[at]);
        app.change(edit);
    });
    app.open_layer(pick);
}

fn choose_folded(app: &mut App, id: LookId) {
    let board = app.board();
    let Some(look) = board.look(&id) else { return };
    let (outfits, items) = candidates(board, &id);
    let pick = Pick::new(format!("Fold into {}", look.title), items, move |app, at| {
        let edit = app.board().fold(&[outfits[at].clone()], &id);
        app.change(edit);
    });
    open_unless_empty(app, pick);
}

fn open_unless_empty(app: &mut App, pick: Pick) {
    if pick.is_empty() {
        return app.warn("there is no other outfit of this character");
    }
    app.open_layer(pick);
}

/// The outfits that a look could take: open ones first, then those in other looks, then those let go; each
/// by how near in time they are.
fn candidates(board: &Board, id: &LookId) -> (Vec<OutfitId>, Vec<Item>) {
    let Some(look) = board.look(id) else { return (Vec::new(), Vec::new()) };
    let day = board.day_of_look(look);
    let mut found: Vec<(u8, i64, OutfitId, Item)> = Vec::new();
    for outfit_id in board.relations().outfits_by_date() {
        let Some(outfit) = board.outfit(outfit_id) else { continue };
        if outfit.character != look.character {
            continue;
        }
        let (rank, mark, note) = match board.standing(outfit_id) {
            Standing::Folded(holder) if holder == id => continue,
            Standing::Open => (0, "○", String::new()),
            Standing::Folded(holder) => {
                let holder = board.look(holder);
                let mark = holder.map_or("≈", |holder| holder.treatment.mark());
                (1, mark, holder.map_or(String::new(), |holder| format!("now in {}", holder.title)))
            }
            Standing::LetGo(reason) => (2, "×", format!("let go: {reason}")),
        };
        let own = outfit.worn.as_ref().and_then(|date| date.middle());
        let apart = day.zip(own).map_or(i64::MAX, |(a, b)| (a.number() - b.number()).abs());
        let near = if apart == i64::MAX { String::new() } else { apart_words(apart) };
        let note = if note.is_empty() { near } else { note };
        found.push((
            rank,
            apart,
            outfit_id.clone(),
            Item::new(outfit_words(board, outfit_id), note).marked(mark),
        ));
    }
    found.sort_by_key(|(rank, apart, ..)| (*rank, *apart));
    found.into_iter().map(|(_, _, id, item)| (id, item)).unzip()
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
