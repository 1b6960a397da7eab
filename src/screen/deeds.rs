//! What can be done to an outfit or a look, from whichever view it is in focus.
//!
//! Each asks what it must know by a layer, and makes one edit.

use super::app::App;
use super::layers::form::Filled;
use super::layers::{Field, Form, Item, Pick};
use super::limit;
use super::views::Target;
use crate::board::{Board, Departure, Edit, LookId, OutfitId, Refused, Scope as Limit, Stage, Treatment};
use crate::trade::date::{Date, Day};

/// The treatments that a look with a base may have.
const SOURCED: [Treatment; 2] = [Treatment::Copy, Treatment::Interpret];

fn treatment_names(of: &[Treatment]) -> Vec<String> {
    let say = |treatment: &Treatment| {
        let what = match treatment {
            Treatment::Copy => "copies its base",
            Treatment::Interpret => "interprets its base",
            Treatment::Invent => "invented: no source covers it",
        };
        format!("{} {what}", treatment.mark())
    };
    of.iter().map(say).collect()
}

impl App {
    /// Makes a change that may add looks: where it would pass a limit, it stops and offers ways to make room.
    /// `outfits` are those that could go into another look instead.
    pub fn propose(
        &mut self,
        outfits: Vec<OutfitId>,
        make: impl Fn(&Board) -> Result<Edit, Refused> + 'static,
    ) -> Result<(), String> {
        let board = self.board();
        let edit = make(board).map_err(|refused| refused.to_string())?;
        let passed = board.limits_passed_by(&edit).map_err(|refused| refused.to_string())?;
        if passed.is_empty() {
            self.change(Ok(edit));
        } else {
            let layer = limit::question(board, passed, outfits, Box::new(make));
            self.open_layer(layer);
        }
        Ok(())
    }

    /// Gathers outfits into a new look, after asking for its title, base and treatment.
    pub fn gather(&mut self, outfits: Vec<OutfitId>) {
        if outfits.is_empty() {
            return self.warn("mark some outfits with space first, or put the focus on one");
        }
        let board = self.board();
        let known = |id: &OutfitId| board.outfit(id).map_or(0, |outfit| outfit.recognition.get());
        // The outfit that the audience knows best is the natural base.
        let best = outfits.iter().map(known).max().unwrap_or(0);
        let at = outfits.iter().position(|id| known(id) == best).unwrap_or(0);
        let title = outfits.get(at).and_then(|id| board.outfit(id)).map_or("", |outfit| &outfit.title);
        let bases = outfits.iter().map(|id| outfit_words(board, id)).collect();
        let fields = vec![
            Field::line("title", title),
            Field::choice("base", bases, at),
            Field::choice("treatment", treatment_names(&SOURCED), 1),
            Field::line("it says", ""),
        ];
        let count = outfits.len();
        let form = Form::new(format!("Gather {count} into a new look"), fields, move |app, filled| {
            let [title, base, treatment, says] = filled else { return Ok(()) };
            if title.text().is_empty() {
                return Err("give the look a title".to_owned());
            }
            let (title, says) = (title.text().to_owned(), says.text().to_owned());
            let base = outfits.get(base.choice()).cloned().ok_or("choose a base")?;
            let treatment = SOURCED.get(treatment.choice()).copied().unwrap_or(Treatment::Interpret);
            let all = outfits.clone();
            app.propose(outfits.clone(), move |board| {
                let (id, mut edit) = board.gather(&all, &title, &base, treatment)?;
                say_of(&mut edit, &id, &says);
                Ok(edit)
            })
        });
        self.open_layer(form);
    }

    /// Folds outfits into a look that is there, after asking which; the nearest in time first.
    pub fn fold(&mut self, outfits: Vec<OutfitId>) {
        let board = self.board();
        let Some(first) = outfits.first().and_then(|id| board.outfit(id)) else {
            return self.warn("mark some outfits with space first, or put the focus on one");
        };
        let day = first.worn.as_ref().and_then(|date| date.middle());
        let mut looks: Vec<(i64, LookId)> = board
            .looks_of_character(&first.character)
            .into_iter()
            .filter(|id| board.look(id).is_some_and(|look| look.treatment != Treatment::Invent))
            .map(|id| {
                let of_look = board.look(&id).and_then(|look| board.day_of_look(look));
                let apart = day.zip(of_look).map_or(i64::MAX, |(a, b)| (a.number() - b.number()).abs());
                (apart, id)
            })
            .collect();
        looks.sort();
        if looks.is_empty() {
            let name = board.name_of(&first.character).to_owned();
            return self.warn(format!("{name} has no look to fold into yet: gather one with g"));
        }
        let items = looks.iter().map(|(apart, id)| look_item(board, id, Some(*apart))).collect();
        let title = format!("Fold {} into", count_words(outfits.len()));
        self.open_layer(Pick::new(title, items, move |app, at| {
            let edit = app.board().fold(&outfits, &looks[at].1);
            if app.change(edit) {
                app.wall.marks.clear();
            }
        }));
    }

    /// Lets outfits go, after asking why.
    pub fn let_go(&mut self, outfits: Vec<OutfitId>) {
        if outfits.is_empty() {
            return self.warn("put the focus on an outfit, or mark some");
        }
        let title = match (outfits.len(), self.board().outfit(&outfits[0])) {
            (1, Some(outfit)) => format!("Let go: {}", outfit.title),
            (count, _) => format!("Let go of {}", count_words(count)),
        };
        self.open_layer(Form::new(title, vec![Field::line("because", "")], move |app, filled| {
            let reason = filled.first().map_or("", Filled::text);
            let edit = app.board().let_go(&outfits, reason).map_err(|refused| refused.to_string())?;
            app.wall.marks.clear();
            app.change(Ok(edit));
            Ok(())
        }));
    }

    /// Splits outfits off their look, after asking for the new look's title.
    pub fn split(&mut self, outfits: Vec<OutfitId>) {
        let Some(first) = outfits.first().and_then(|id| self.board().outfit(id)) else {
            return self.warn("mark the outfits to split off with space first");
        };
        let title = first.title.clone();
        let form = Form::new(
            format!("Split {} off into a new look", count_words(outfits.len())),
            vec![Field::line("title", title)],
            move |app, filled| {
                let title = filled.first().map_or("", Filled::text).to_owned();
                if title.is_empty() {
                    return Err("give the new look a title".to_owned());
                }
                let all = outfits.clone();
                app.propose(Vec::new(), move |board| board.split(&all, &title).map(|(_, edit)| edit))
            },
        );
        self.open_layer(form);
    }

    /// Sets how a look stands to its source.
    pub fn choose_treatment(&mut self, id: LookId) {
        let Some(look) = self.board().look(&id) else { return };
        let at = Treatment::ALL.iter().position(|treatment| *treatment == look.treatment).unwrap_or(0);
        let items = treatment_names(&Treatment::ALL).into_iter().map(|text| Item::new(text, "")).collect();
        let title = format!("Treatment of {}", look.title);
        let question = Pick::question(title, Vec::new(), items, move |app, choice| {
            let edit = app.board().set_treatment(&id, Treatment::ALL[choice.min(2)]);
            app.change(edit);
        });
        self.open_layer(question.at(at));
    }

    /// Writes a departure down, or changes the one at `at`.
    pub fn write_departure(&mut self, id: LookId, at: Option<usize>) {
        let Some(look) = self.board().look(&id) else { return };
        let now = at.and_then(|at| look.departures.get(at)).cloned().unwrap_or_default();
        let fields = vec![
            Field::line("detail", now.detail),
            Field::line("was", now.was),
            Field::line("becomes", now.becomes),
            Field::line("why", now.why),
        ];
        let title = format!("Departure of {}", look.title);
        let form = Form::new(title, fields, move |app, filled| {
            let [detail, was, becomes, why] = filled else { return Ok(()) };
            if detail.text().is_empty() || becomes.text().is_empty() {
                return Err("say which detail, and what it becomes".to_owned());
            }
            let own = |filled: &Filled| filled.text().to_owned();
            let departure =
                Departure { detail: own(detail), was: own(was), becomes: own(becomes), why: own(why) };
            let label = format!("departure: {}", departure.detail);
            let edit = app.board().change_look(&id, label, |look| {
                match at.and_then(|at| look.departures.get_mut(at)) {
                    Some(have) => *have = departure,
                    None => look.departures.push(departure),
                }
                // A look that departs from its base no longer copies it.
                if look.treatment == Treatment::Copy {
                    look.treatment = Treatment::Interpret;
                }
            });
            app.change(edit);
            Ok(())
        });
        self.open_layer(form);
    }

    /// Puts a look into a scene, after asking which; scenes of its period with its character first.
    pub fn assign_look(&mut self, id: LookId) {
        let board = self.board();
        let Some(look) = board.look(&id) else { return };
        let period = board.relations().period_of_look(&id);
        let mut order: Vec<usize> = (0..board.scenes().len()).collect();
        let present = |at: &usize| board.records().scenes[*at].wears.get(&look.character);
        order.sort_by_key(|at| {
            let waiting = present(at).is_some_and(Option::is_none);
            let there = present(at).is_some();
            let in_period = period.is_some() && board.relations().period_of_scene(*at) == period;
            (!in_period, !waiting, !there, *at)
        });
        if order.is_empty() {
            return self.warn("the board has no scenes yet");
        }
        let items = order.iter().map(|at| {
            let scene = &board.records().scenes[*at];
            let note = match present(at) {
                None => format!("{} is not in it", board.name_of(&look.character)),
                Some(None) => "no look yet".to_owned(),
                Some(Some(worn)) if *worn == id => "wears it".to_owned(),
                Some(Some(worn)) => board.look(worn).map_or(worn.to_string(), |look| look.title.clone()),
            };
            let day = scene.story_day.map_or(String::new(), |day| format!("{day} "));
            Item::new(format!("{day}{}", scene.heading), note).marked(scene.number.to_string())
        });
        let items = items.collect();
        let numbers: Vec<_> = order.iter().map(|at| board.records().scenes[*at].number.clone()).collect();
        let (title, character) = (format!("{} is worn in scene", look.title), look.character.clone());
        self.open_layer(Pick::new(title, items, move |app, at| {
            let edit = app.board().assign(&numbers[at], &character, Some(&id));
            app.change(edit);
        }));
    }

    /// Gives an outfit or a look another title.
    pub fn rename(&mut self, target: Target) {
        let title = match &target {
            Target::Outfit(id) => self.board().outfit(id).map(|outfit| outfit.title.clone()),
            Target::Look(id) => self.board().look(id).map(|look| look.title.clone()),
            _ => None,
        };
        let Some(title) = title else { return self.say("put the focus on an outfit or a look") };
        let form =
            Form::new(format!("Rename {title}"), vec![Field::line("title", title)], move |app, filled| {
                let title = filled.first().map_or("", Filled::text).to_owned();
                if title.is_empty() {
                    return Err("a title is needed".to_owned());
                }
                let label = format!("renamed to {title}");
                let edit = match &target {
                    Target::Outfit(id) => app.board().change_outfit(id, label, |outfit| outfit.title = title),
                    Target::Look(id) => app.board().change_look(id, label, |look| look.title = title),
                    _ => return Ok(()),
                };
                app.change(edit);
                Ok(())
            });
        self.open_layer(form);
    }

    /// Merges a look into another of its character, after asking which.
    pub fn merge_look(&mut self, id: LookId) {
        let board = self.board();
        let Some(look) = board.look(&id) else { return };
        let day = board.day_of_look(look);
        let mut others: Vec<(i64, LookId)> = board
            .looks_of_character(&look.character)
            .into_iter()
            .filter(|other| *other != id)
            .map(|other| {
                let of_other = board.look(&other).and_then(|look| board.day_of_look(look));
                (day.zip(of_other).map_or(i64::MAX, |(a, b)| (a.number() - b.number()).abs()), other)
            })
            .collect();
        others.sort();
        if others.is_empty() {
            return self.warn("there is no other look of this character");
        }
        let items = others.iter().map(|(apart, other)| look_item(board, other, Some(*apart))).collect();
        let title = format!("Merge {} into", look.title);
        self.open_layer(Pick::new(title, items, move |app, at| {
            let into = others[at].1.clone();
            let edit = app.board().merge_looks(&id, &into);
            if app.change(edit) {
                app.focus(&Target::Look(into));
            }
        }));
    }

    /// Takes a look away, after asking.
    pub fn dissolve(&mut self, id: LookId) {
        let board = self.board();
        let Some(look) = board.look(&id) else { return };
        let lead = vec![format!(
            "{} outfits become open again, and {} scenes have no look for {}. It can be undone.",
            look.outfits().count(),
            board.relations().scenes_of(&id).len(),
            board.name_of(&look.character)
        )];
        let items = vec![Item::new("Dissolve it", ""), Item::new("Keep it", "")];
        let question =
            Pick::question(format!("Dissolve {}?", look.title), lead, items, move |app, choice| {
                if choice == 0 {
                    let edit = app.board().dissolve(&id);
                    app.change(edit);
                }
            });
        self.open_layer(question);
    }

    /// Adds a look that no outfit covers, after asking for whom and when.
    pub fn invent(&mut self) {
        let head = self.board().head();
        if head.characters.is_empty() {
            return self.warn("the board has no characters yet: E opens board.yaml");
        }
        let characters: Vec<_> = head.characters.iter().map(|character| character.id.clone()).collect();
        let periods: Vec<_> = head.periods.iter().map(|period| period.id.clone()).collect();
        let fields = vec![
            Field::line("title", ""),
            Field::choice("character", head.characters.iter().map(|one| one.name.clone()).collect(), 0),
            Field::choice("period", head.periods.iter().map(|one| one.title.clone()).collect(), 0),
            Field::line("it says", ""),
        ];
        let form = Form::new("Invent a look for which there is no source", fields, move |app, filled| {
            let [title, character, period, says] = filled else { return Ok(()) };
            if title.text().is_empty() {
                return Err("give the look a title".to_owned());
            }
            let (title, says) = (title.text().to_owned(), says.text().to_owned());
            let character = characters.get(character.choice()).cloned().ok_or("choose a character")?;
            let period = periods.get(period.choice()).cloned();
            app.propose(Vec::new(), move |board| {
                let (id, mut edit) = board.invent(&title, &character, period.as_ref())?;
                say_of(&mut edit, &id, &says);
                Ok(edit)
            })
        });
        self.open_layer(form);
    }

    /// Says how far the work on a look is.
    pub fn choose_stage(&mut self, id: LookId) {
        let Some(look) = self.board().look(&id) else { return };
        let at = Stage::ALL.iter().position(|stage| *stage == look.stage).unwrap_or(0);
        let items = Stage::ALL.iter().map(|stage| Item::new(stage.word(), "")).collect();
        let title = look.title.clone();
        let question = Pick::question(format!("Stage of {title}"), Vec::new(), items, move |app, choice| {
            let stage = Stage::ALL[choice.min(Stage::ALL.len() - 1)];
            let label = format!("{title} is {}", stage.word());
            let edit = app.board().change_look(&id, label, |look| look.stage = stage);
            app.change(edit);
        });
        self.open_layer(question.at(at));
    }

    /// Raises one of the board's limits, after asking which.
    pub fn choose_limit(&mut self) {
        let board = self.board();
        let scopes = board.limited_scopes();
        if scopes.is_empty() {
            return self.warn("the board has no limits: E on nothing opens board.yaml");
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
        raises: Vec<(Limit, u32)>,
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

/// Writes into a look that `edit` makes what it says.
fn say_of(edit: &mut Edit, id: &LookId, says: &str) {
    for change in &mut edit.changes {
        if let crate::board::Change::Look(look, swap) = change {
            if look == id {
                if let Some(after) = &mut swap.after {
                    std::sync::Arc::make_mut(after).says = says.to_owned();
                }
            }
        }
    }
}

/// An outfit in a few words: date and title.
pub fn outfit_words(board: &Board, id: &OutfitId) -> String {
    match board.outfit(id) {
        Some(outfit) => match &outfit.worn {
            Some(date) => format!("{}, {}", outfit.title, date.short()),
            None => outfit.title.clone(),
        },
        None => format!("{id} (not there)"),
    }
}

/// A look as a row of a list, with how far apart in time it is.
pub fn look_item(board: &Board, id: &LookId, apart: Option<i64>) -> Item {
    let Some(look) = board.look(id) else { return Item::new(id.to_string(), "not there") };
    let mut notes = Vec::new();
    if let Some(days) = apart.filter(|days| *days != i64::MAX) {
        notes.push(format!("{} apart", span_words(days)));
    }
    if let Some(period) = board.relations().period_of_look(id) {
        notes.push(board.title_of(period).to_owned());
    }
    Item::new(&look.title, notes.join(" · ")).marked(look.treatment.mark())
}

/// Days in the words of a calendar.
pub fn span_words(days: i64) -> String {
    match days {
        0 => "the same day".to_owned(),
        1 => "1 day".to_owned(),
        2..=60 => format!("{days} days"),
        61..=730 => format!("{} months", days / 30),
        _ => format!("{} years", days / 365),
    }
}

/// So many outfits.
pub fn count_words(count: usize) -> String {
    if count == 1 { "1 outfit".to_owned() } else { format!("{count} outfits") }
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
