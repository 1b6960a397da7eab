//! What is asked and done about a look.

use super::look_item;
use super::words::{nearest_looks, say_of, treatment_names};
use crate::board::{Departure, LookId, Stage, Treatment};
use crate::screen::app::App;
use crate::screen::layers::form::Filled;
use crate::screen::layers::{Field, Form, Item, Pick};
use crate::screen::views::Target;

impl App {
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
            let mut label = format!("departure: {}", departure.detail);
            if app.board().look(&id).is_some_and(|look| look.treatment == Treatment::Copy) {
                label.push_str("; what departs no longer copies, so the look interprets now");
            }
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

    /// Merges a look into another of its character, after asking which.
    pub fn merge_look(&mut self, id: LookId) {
        let board = self.board();
        let Some(look) = board.look(&id) else { return };
        let mut others = nearest_looks(board, &look.character, board.day_of_look(look), |other| *other != id);
        let Some((_, first)) = others.first() else {
            return self.warn("there is no other look of this character");
        };
        // Only what can be done is offered; if nothing can, the reason is worth more than a list.
        let refused = board.merge_looks(&id, first).err();
        others.retain(|(_, other)| board.merge_looks(&id, other).is_ok());
        if let (true, Some(refused)) = (others.is_empty(), refused) {
            return self.warn(refused.to_string());
        }
        let items = others.iter().map(|(apart, other)| look_item(board, other, *apart)).collect();
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
        if let Err(refused) = board.dissolve(&id) {
            return self.warn(refused.to_string());
        }
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
            return self.warn("the board has no characters yet: Y opens board.yaml");
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
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::screen::trial::{Trial, small};

    #[test]
    fn only_looks_that_it_can_be_merged_into_are_offered() {
        let mut trial = Trial::small();
        trial.app.merge_look("smock".parse().unwrap());
        let screen = trial.screen((100, 30));
        let question = screen.split("Merge Smock, cut down into").nth(1).unwrap();
        let question = question.split('╰').next().unwrap();
        assert!(question.contains("≈ Club black"), "{question}");
        assert!(!question.contains("* Night swim"), "it is invented and takes no outfit\n{question}");
        trial.keys("enter");
        assert_eq!(trial.app.said.text, "merged Smock, cut down into Club black");
    }

    #[test]
    fn a_merger_that_is_refused_whatever_is_chosen_says_why_at_once() {
        let mut files = small();
        files.push((
            "outfits/shawl.yaml".to_owned(),
            json!({"title": "Shawl", "character": "bridie", "worn": "1926"}),
        ));
        files.push((
            "looks/shawl.yaml".to_owned(),
            json!({"title": "Shawl", "character": "bridie", "treatment": "copy", "base": "shawl"}),
        ));
        let mut trial = Trial::on(&files);
        trial.app.merge_look("shawl".parse().unwrap());
        assert!(trial.app.layers.is_empty());
        assert_eq!(trial.app.refused(), Some("Loft apron is invented: merge it into Shawl instead"));
    }

    #[test]
    fn what_the_camera_has_seen_is_refused_before_anything_is_asked() {
        let mut files = small();
        let smock = files.iter_mut().find(|(name, _)| name == "looks/smock.yaml").unwrap();
        smock.1["stage"] = json!("established");
        for deed in [crate::screen::app::App::merge_look, crate::screen::app::App::dissolve] {
            let mut trial = Trial::on(&files);
            deed(&mut trial.app, "smock".parse().unwrap());
            assert!(trial.app.layers.is_empty());
            assert!(trial.app.refused().is_some_and(|why| why.contains("Smock, cut down")), "it says why");
            assert_eq!(trial.look("smock").title, "Smock, cut down");
        }
    }
}
