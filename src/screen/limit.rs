//! A change that would pass a limit stops here and offers ways to make room.

use std::rc::Rc;

use super::app::App;
use super::deeds::{apart_words, count_words};
use super::layers::form::Filled;
use super::layers::{Field, Form, Item, Pick};
use crate::board::{Board, Count, Edit, OutfitId, Refused, Scope};
use crate::trade::date::{Date, Day};

type Make = Box<dyn Fn(&Board) -> Result<Edit, Refused>>;

enum Way {
    Merge(crate::board::room::Merger),
    Fold,
    Raise,
    Leave,
}

/// How many mergers are offered.
const OFFERED: usize = 3;

/// The question how to make room: a merger (the nearest in time first), another look, or a higher limit.
pub fn question(board: &Board, passed: Vec<(Scope, Count)>, outfits: Vec<OutfitId>, make: Make) -> Pick {
    let mut lead: Vec<String> = passed
        .iter()
        .map(|(scope, count)| {
            let limit = count.limit.unwrap_or(0);
            format!(
                "{} would hold {} looks, and the limit is {limit}.",
                capital(&board.scope_name(scope)),
                count.used
            )
        })
        .collect();
    lead.push("Nothing is changed yet. Make room:".to_owned());
    let scopes: Vec<Scope> = passed.iter().map(|(scope, _)| scope.clone()).collect();
    let mut ways = Vec::new();
    let mut items = Vec::new();
    for merger in board.mergers_that_make_room(&scopes) {
        // A merger that the gather itself would undo, or that still leaves it over, is no offer.
        if ways.len() == OFFERED {
            break;
        }
        let Ok(edit) = with_merger(board, &merger, &make) else { continue };
        if board.limits_passed_by(&edit).is_ok_and(|still| !still.is_empty()) {
            continue;
        }
        let title = |id| board.look(id).map_or("", |look| look.title.as_str());
        let apart = merger.days.map_or(String::new(), apart_words);
        items.push(
            Item::new(format!("Merge {} into {}", title(&merger.from), title(&merger.into)), apart)
                .marked("⇥"),
        );
        ways.push(Way::Merge(merger));
    }
    if !outfits.is_empty() {
        let text = format!("Fold {} into a look that is there", count_words(outfits.len()));
        items.push(Item::new(text, "no new look").marked("↳"));
        ways.push(Way::Fold);
    }
    items.push(Item::new("Raise the limit, on the record", "with a reason").marked("↑"));
    ways.push(Way::Raise);
    items.push(Item::new("Leave it", "nothing is changed"));
    ways.push(Way::Leave);
    let make: Rc<Make> = Rc::new(make);
    Pick::question("Over the limit", lead, items, move |app, choice| match ways.get(choice) {
        Some(Way::Merge(merger)) => {
            let edit = with_merger(app.board(), merger, &make);
            app.change(edit);
        }
        Some(Way::Fold) => app.fold(outfits),
        Some(Way::Raise) => raise(app, passed, make),
        Some(Way::Leave) | None => app.say("nothing was changed"),
    })
}

fn raise(app: &mut App, passed: Vec<(Scope, Count)>, make: Rc<Make>) {
    let raises = passed.into_iter().map(|(scope, count)| (scope, count.used)).collect();
    app.raise_limits(raises, move |board| Some(make(board)));
}

/// The merger and then the change, as one edit.
fn with_merger(board: &Board, merger: &crate::board::room::Merger, make: &Make) -> Result<Edit, Refused> {
    let merge = board.merge_looks(&merger.from, &merger.into)?;
    let mut merged = board.clone();
    merged.apply(&merge)?;
    let rest = make(&merged)?;
    let label = format!("{}; {}", merge.label, rest.label);
    Ok(Edit::new(label, merge.changes.into_iter().chain(rest.changes).collect()))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

impl App {
    /// Raises one of the board's limits, after asking which.
    pub fn choose_limit(&mut self) {
        let board = self.board();
        let scopes = board.limited_scopes();
        if scopes.is_empty() {
            return self.warn("the board has no limits: B opens board.yaml");
        }
        let items = scopes.iter().map(|scope| {
            let count = board.count(scope);
            Item::new(board.scope_name(scope), format!("{}, {}", count.numbers(), count.words()))
        });
        let items = items.collect();
        self.open_layer(Pick::new("Raise which limit?", items, move |app, at| {
            let to = app.board().count(&scopes[at]);
            let to = to.limit.map_or(0, |limit| limit + 1).max(to.used);
            app.raise_limits(vec![(scopes[at].clone(), to)], |_| None);
        }));
    }

    /// Raises limits on the record, after asking why, and then makes the edit that `next` gives.
    pub fn raise_limits(
        &mut self,
        raises: Vec<(Scope, u32)>,
        next: impl Fn(&Board) -> Option<Result<Edit, Refused>> + 'static,
    ) {
        let board = self.board();
        let lead = raises.iter().map(|(scope, to)| {
            let from = board.head().budget.limit(scope).unwrap_or(0);
            format!("{}: from {from} to {to}", board.scope_name(scope))
        });
        let lead = lead.collect();
        let form = Form::new(
            "Raise the limit, on the record",
            vec![Field::line("because", "")],
            move |app, filled| {
                let why = filled.first().map_or("", Filled::text);
                let today = today();
                let mut board = app.board().clone();
                let mut changes = Vec::new();
                let mut label = String::new();
                let mut add = |board: &mut Board, edit: Result<Edit, Refused>| -> Result<(), String> {
                    let edit = edit.map_err(|refused| refused.to_string())?;
                    board.apply(&edit).map_err(|refused| refused.to_string())?;
                    if !label.is_empty() {
                        label.push_str("; ");
                    }
                    label.push_str(&edit.label);
                    changes.extend(edit.changes);
                    Ok(())
                };
                for (scope, to) in &raises {
                    let edit = board.raise_limit(scope, *to, why, today.clone());
                    add(&mut board, edit)?;
                }
                if let Some(edit) = next(&board) {
                    add(&mut board, edit)?;
                }
                app.change(Ok(Edit::new(label, changes)));
                Ok(())
            },
        );
        self.open_layer(form.lead(lead));
    }
}

/// The day on this machine's calendar.
fn today() -> Date {
    let now = jiff::ZonedDateTime::now().date();
    let month = u8::try_from(now.month()).unwrap_or(1);
    let day = u8::try_from(now.day()).unwrap_or(1);
    let today = Day::from_ymd(i64::from(now.year()), month, day).and_then(Date::on);
    #[expect(
        clippy::expect_used,
        reason = "a civil calendar's day is a day of ours; both are proleptic Gregorian"
    )]
    today.expect("today is a day")
}
