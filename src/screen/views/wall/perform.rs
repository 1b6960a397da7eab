//! What the wall's actions do.

use super::moves::Move;
use super::{Entry, Wall, Zoom};
use crate::board::{BaseWish, LookId, OutfitId, Recognition, Standing};
use crate::screen::actions::Act;
use crate::screen::app::App;
use crate::screen::layers::{Item, Pick};

/// Does an action of the wall.
pub fn perform(app: &mut App, act: Act) {
    app.wall.refresh(app.open.board(), app.version);
    match act {
        Act::Left => app.wall.go(Move::Left),
        Act::Right => app.wall.go(Move::Right),
        Act::Up => app.wall.go(Move::Up),
        Act::Down => app.wall.go(Move::Down),
        Act::PageBack => app.wall.go(Move::PeriodBack),
        Act::PageOn => app.wall.go(Move::PeriodOn),
        Act::First => app.wall.go(Move::First),
        Act::Last => app.wall.go(Move::Last),
        Act::Closer | Act::Wider => app.wall.zoom(act == Act::Closer),
        Act::Lanes => {
            let board = app.open.board();
            app.wall.cross(board);
        }
        Act::Mark => mark(app),
        Act::MarkOpen => mark_open(app),
        Act::FoldUp => fold_up(app),
        Act::NextOpen => next_open(app),
        Act::LightThread => light_thread(app),
        Act::Only => only(app),
        Act::Gather => {
            let outfits = open_or_marked(app);
            app.gather(outfits);
        }
        Act::Fold => {
            let outfits = open_or_marked(app);
            app.fold(outfits);
        }
        Act::LetGo => {
            let outfits = open_or_marked(app);
            app.let_go(outfits);
        }
        Act::Split => {
            let outfits = open_or_marked(app);
            app.split(outfits);
        }
        Act::TakeBack => {
            let edit = app.board().take_back(&open_or_marked(app));
            app.change(edit);
        }
        Act::Release => {
            let edit = app.board().release(&open_or_marked(app));
            app.change(edit);
        }
        Act::Base => match app.wall.focus.clone() {
            Some(Entry::Outfit(id)) => {
                let edit = app.board().set_base(&id);
                app.change(edit);
            }
            Some(Entry::Look(id)) => app.choose_base(id),
            None => {}
        },
        Act::WishBase => wish_base(app),
        Act::WishApart => wish_pairs(app, Pairing::Apart),
        Act::WishTogether => wish_pairs(app, Pairing::Together),
        Act::MoreKnown => recognition(app, 1),
        Act::LessKnown => recognition(app, -1),
        Act::Sheet => {
            if let Some(target) = app.wall.focused() {
                app.open_sheet(target);
            }
        }
        Act::Rename => {
            if let Some(target) = app.wall.focused() {
                app.rename(target);
            }
        }
        Act::RaiseLimit => app.choose_limit(),
        Act::NewOutfit => app.add_outfit(),
        Act::Treatment => with_look(app, App::choose_treatment),
        Act::Departure => with_look(app, |app, id| app.write_departure(id, None)),
        Act::AssignLook => with_look(app, App::assign_look),
        Act::Merge => with_look(app, App::merge_look),
        Act::Dissolve => with_look(app, App::dissolve),
        _ => {}
    }
}

impl Wall {
    fn zoom(&mut self, closer: bool) {
        self.zoom = match (self.zoom, closer) {
            (Zoom::Far, true) | (Zoom::Near, false) => Zoom::Middle,
            (Zoom::Middle, true) | (Zoom::Near, true) => Zoom::Near,
            (Zoom::Middle | Zoom::Far, false) => Zoom::Far,
        };
    }
}

/// The marked outfits; without marks the one in focus, or all of the look in focus.
fn open_or_marked(app: &App) -> Vec<OutfitId> {
    if !app.wall.marks.is_empty() {
        // In the order in which they were worn.
        let marked = |id: &&OutfitId| app.wall.marks.contains(*id);
        return app.board().relations().outfits_by_date().iter().filter(marked).cloned().collect();
    }
    match &app.wall.focus {
        Some(Entry::Outfit(id)) => vec![id.clone()],
        Some(Entry::Look(id)) => {
            app.board().look(id).map_or(Vec::new(), |look| look.outfits().cloned().collect())
        }
        None => Vec::new(),
    }
}

fn with_look(app: &mut App, deed: impl FnOnce(&mut App, LookId)) {
    match app.wall.look_in_focus(app.open.board()) {
        Some(look) => deed(app, look),
        None => app.warn(
            "that outfit is in no look yet: g gathers it into a new one, f folds it into one that is there",
        ),
    }
}

/// The next of: must be a base, must not be one, either.
fn wish_base(app: &mut App) {
    let Some(Entry::Outfit(id)) = app.wall.focus.clone() else {
        return app.warn("a wish is of an outfit: put the focus on one");
    };
    let now = app.board().outfit(&id).and_then(|outfit| outfit.wishes.base);
    let next = match now {
        None => Some(BaseWish::Must),
        Some(BaseWish::Must) => Some(BaseWish::Never),
        Some(BaseWish::Never) => None,
    };
    let edit = app.board().wish_base(&id, next);
    app.change(edit);
}

/// What two outfits may be wished to be.
#[derive(Clone, Copy)]
enum Pairing {
    Apart,
    Together,
}

/// Wishes it of the marked outfits, or takes that back where it is wished of all of them already.
fn wish_pairs(app: &mut App, pairing: Pairing) {
    let marked = open_or_marked(app);
    let board = app.board();
    let others = |id| match pairing {
        Pairing::Apart => board.relations().apart_from(id),
        Pairing::Together => board.relations().together_with(id),
    };
    let is_wished = marked.len() > 1
        && marked.iter().all(|one| marked.iter().all(|other| one == other || others(one).contains(other)));
    let edit = match pairing {
        Pairing::Apart => board.wish_apart(&marked, !is_wished),
        Pairing::Together => board.wish_together(&marked, !is_wished),
    };
    if app.change(edit) {
        app.wall.marks.clear();
    }
}

fn mark(app: &mut App) {
    match app.wall.focus.clone() {
        Some(Entry::Outfit(id)) => {
            if !app.wall.marks.remove(&id) {
                app.wall.marks.insert(id);
            }
            say_marks(app);
        }
        _ => app.say("outfits are marked, not looks: z opens the folded ones"),
    }
}

fn say_marks(app: &mut App) {
    match app.wall.marks.len() {
        0 => app.say("no marks"),
        1 => app.say("1 marked: mark more, or g gathers it, f folds it, x lets it go"),
        count => {
            app.say(format!("{count} marked: g gathers them into a new look, f folds them, x lets them go"))
        }
    }
}

fn mark_open(app: &mut App) {
    let board = app.open.board();
    let character = app.wall.character(board);
    let place = app.wall.focus.as_ref().and_then(|entry| app.wall.shelf.place(entry));
    let Some((column, _)) = place else { return };
    let wanted = |id: &OutfitId| {
        board.standing(id) == Standing::Open
            && board.outfit(id).map(|outfit| &outfit.character) == character.as_ref()
    };
    let open: Vec<OutfitId> = app.wall.shelf.columns[column]
        .slots
        .iter()
        .filter_map(|slot| match &slot.entry {
            Entry::Outfit(id) if wanted(id) => Some(id.clone()),
            _ => None,
        })
        .collect();
    app.wall.marks.extend(open);
    say_marks(app);
}

fn fold_up(app: &mut App) {
    let before = app.wall.shelf.entries().count();
    app.wall.folded_up = !app.wall.folded_up;
    app.wall.refresh(app.open.board(), app.version);
    let after = app.wall.shelf.entries().count();
    if app.wall.folded_up {
        app.say(format!("folded up: {before} outfits stand as {after} looks and open outfits"));
    } else {
        app.say(format!("opened: {after} outfits"));
    }
}

fn recognition(app: &mut App, by: i8) {
    let Some(Entry::Outfit(id)) = app.wall.focus.clone() else {
        return app.say("put the focus on an outfit");
    };
    let Some(outfit) = app.board().outfit(&id) else { return };
    let next = outfit.recognition.get().checked_add_signed(by).and_then(Recognition::new);
    let Some(next) = next else { return app.say("recognition goes from 0 to 5") };
    let label = format!("{}: known {}/5", outfit.title, next.get());
    let edit = app.board().change_outfit(&id, label, |outfit| outfit.recognition = next);
    app.change(edit);
}

/// Goes to the next open outfit, and names it where the screen is too low for the strip that would.
fn next_open(app: &mut App) {
    let board = app.open.board();
    if !app.wall.next_open(board) {
        return app.say("no outfit is open");
    }
    if app.wall.plan.strip.height > 0 {
        return;
    }
    if let Some(Entry::Outfit(id)) = &app.wall.focus {
        app.say(format!("○ {}", app.board().title_of_outfit(id)));
    }
}

fn light_thread(app: &mut App) {
    let board = app.board();
    let threads: Vec<_> =
        board.head().threads.iter().map(|thread| (thread.id.clone(), thread.title.clone())).collect();
    if threads.is_empty() {
        return app.say("the board has no threads yet: Y opens board.yaml");
    }
    let carried = |id| {
        let outfits = board.records().outfits.values().filter(|outfit| outfit.threads.contains(id)).count();
        let looks = board.records().looks.values().filter(|look| look.threads.contains(id)).count();
        format!("{outfits} outfits, {looks} looks")
    };
    let mut items: Vec<Item> =
        threads.iter().map(|(id, title)| Item::new(title, carried(id)).marked("◆")).collect();
    items.push(Item::new("no light", ""));
    app.open_layer(Pick::new("Light up a thread", items, move |app, at| {
        app.wall.lit = threads.get(at).cloned();
    }));
}

fn only(app: &mut App) {
    let board = app.board();
    let characters: Vec<_> =
        board.head().characters.iter().map(|one| (one.id.clone(), one.name.clone())).collect();
    let mut items = vec![Item::new("everybody", "")];
    items.extend(characters.iter().map(|(id, name)| {
        let outfits = board.records().outfits.values().filter(|outfit| outfit.character == *id).count();
        Item::new(name, format!("{outfits} outfits, {} looks", board.looks_of_character(id).len()))
    }));
    app.open_layer(Pick::new("Show", items, move |app, at| {
        app.wall.only = at.checked_sub(1).and_then(|at| characters.get(at)).cloned();
        let shown = app.wall.only.as_ref().map_or("everybody".to_owned(), |(_, name)| format!("only {name}"));
        app.say(shown);
    }));
}
