//! A change that would pass a limit stops here and offers ways to make room.

mod mergers;
mod room;

use std::sync::Arc;

use super::app::App;
use super::layers::form::Filled;
use super::layers::{Field, Form, Item, Pick};
use crate::board::{Board, Count, Edit, OutfitId, Refused, Scope};
use crate::check::words::capital;
use crate::screen::dates::today;
pub use mergers::Stopped;
use room::Room;

/// What makes an edit once more where room was made.
pub type Make = Arc<dyn Fn(&Board) -> Result<Edit, Refused> + Send + Sync>;

/// The question how to make room: a merger (the cheapest in *kept* first), another look, or a higher limit. Edits are
/// made from the board as it was seen, and must keep the limits of the board as it is now.
pub fn question(stopped: Stopped, passed: Vec<(Scope, Count)>, outfits: Vec<OutfitId>) -> Room {
    let over = |(scope, count): &(Scope, Count)| {
        let (name, limit) = (stopped.now.scope_name(scope), count.limit.unwrap_or(0));
        format!("{} would hold {} looks, and the limit is {limit}.", capital(&name), count.used)
    };
    let mut lead: Vec<String> = passed.iter().map(over).collect();
    lead.push("Nothing is changed yet. Make room:".to_owned());
    Room::ask(stopped, lead, passed, outfits)
}

/// What a merger costs of all that is kept: `keeps 0.8 % less`.
fn lost_words(lost: f64) -> String {
    let points = lost * 100.0;
    if points.abs() < 0.05 {
        "keeps as much".to_owned()
    } else if points > 0.0 {
        format!("keeps {points:.1} % less")
    } else {
        format!("keeps {:.1} % more", -points)
    }
}

fn raise(app: &mut App, passed: Vec<(Scope, Count)>, make: Make) {
    let raises = passed.into_iter().map(|(scope, count)| (scope, count.used)).collect();
    app.raise_limits(raises, move |board| Some(make(board)));
}

impl App {
    /// Raises one of the board's limits, after asking which.
    pub fn choose_limit(&mut self) {
        let board = self.board();
        let scopes = board.limited_scopes();
        if scopes.is_empty() {
            return self.warn("the board has no limits: Y opens board.yaml");
        }
        let items = scopes.iter().map(|scope| {
            let count = board.count(scope);
            Item::new(board.scope_name(scope), format!("{}, {}", count.numbers(), count.words()))
        });
        let items = items.collect();
        self.open_layer(Pick::new("Raise which limit?", items, move |app, at| {
            let to = app.board().count(&scopes[at]);
            let to = to.limit.map_or(0, |limit| limit.saturating_add(1)).max(to.used);
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

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;
    use crate::screen::actions::Act;
    use crate::screen::trial::{Trial, small};

    const SIZE: (u16, u16) = (100, 30);

    fn shore() -> Scope {
        Scope::Period("shore".parse().unwrap())
    }

    fn file<'a>(files: &'a mut [(String, Value)], name: &str) -> &'a mut Value {
        &mut files.iter_mut().find(|(file, _)| file == name).unwrap().1
    }

    /// The small board with one look in the shore, where one is allowed, and the smock of the shore folded into a
    /// look of the races.
    fn full_shore() -> Vec<(String, Value)> {
        let mut files = small();
        file(&mut files, "board.yaml")["budget"] = json!({"periods": {"shore": 1}});
        *file(&mut files, "looks/smock.yaml") = json!({"title": "Shore", "character": "odile",
            "treatment": "invent", "period": "shore", "order": 10});
        file(&mut files, "looks/club.yaml")["folded"] = json!(["smock"]);
        // A look that will come into the period of the first scene that shows it.
        file(&mut files, "looks/serge.yaml")["period"] = Value::Null;
        files
    }

    /// Makes a change that would put a second look into the shore, and sees that it is asked about first.
    fn is_asked(way: &str, change: impl FnOnce(&mut Trial)) {
        let mut trial = Trial::on(&full_shore());
        assert_eq!(trial.app.board().count(&shore()).numbers(), "1/1");
        change(&mut trial);
        assert_eq!(trial.app.open.board().count(&shore()).numbers(), "1/1", "{way} passes the limit unasked");
        let screen = trial.screen(SIZE);
        assert!(screen.contains("The shore would hold 2 looks, and the limit is 1."), "{way}\n{screen}");
        trial.clicks(SIZE, "Raise the limit");
        trial.types("the shore needs it");
        trial.keys("enter");
        assert_eq!(trial.app.open.board().count(&shore()).numbers(), "2/2", "{way}");
    }

    #[test]
    fn every_way_past_a_limit_stops_and_asks() {
        let club = || "club".parse::<crate::board::LookId>().unwrap();
        is_asked("another base, from the list", |trial| {
            trial.app.choose_base(club());
            trial.keys("down enter");
        });
        is_asked("another base, on the wall", |trial| {
            trial.app.focus(&crate::screen::views::Target::Outfit("smock".parse().unwrap()));
            trial.app.perform(Act::Base);
        });
        is_asked("a base released, so that the next becomes it", |trial| {
            let edit = trial.app.board().release(&["club-wool".parse().unwrap()]);
            trial.app.change(edit);
        });
        is_asked("an invented look in its first scene", |trial| {
            let odile = "odile".parse().unwrap();
            let edit =
                trial.app.board().assign(&"1".parse().unwrap(), &odile, Some(&"serge".parse().unwrap()));
            trial.app.change(edit);
        });
        is_asked("a record as text", |trial| {
            let record = crate::board::RecordRef::Look(club());
            let base = trial.app.open.record_text(&record).unwrap();
            let text = format!("{base}period: shore\n");
            trial.app.edited_as_text(record, base, text);
        });
    }

    #[test]
    fn a_limit_that_another_hand_has_filled_meanwhile_counts() {
        let mut files = full_shore();
        file(&mut files, "board.yaml")["budget"] = json!({"periods": {"shore": 2}});
        let mut trial = Trial::on(&files);
        trial.app.choose_base("club".parse().unwrap());
        trial.writes(
            "looks/theirs.yaml",
            &json!({"title": "Theirs", "character": "bridie",
            "treatment": "invent", "period": "shore"}),
        );
        trial.keys("down enter");
        let screen = trial.screen(SIZE);
        assert!(screen.contains("The shore would hold 3 looks, and the limit is 2."), "{screen}");
    }

    #[test]
    fn the_largest_limit_is_raised_no_further() {
        let mut files = small();
        file(&mut files, "board.yaml")["budget"] = json!({"looks": u32::MAX});
        let mut trial = Trial::on(&files);
        trial.app.perform(Act::RaiseLimit);
        trial.keys("enter");
        trial.types("because");
        trial.keys("enter");
        let screen = trial.screen(SIZE);
        assert!(screen.contains(&format!("the limit is {} already", u32::MAX)), "{screen}");
    }
}
