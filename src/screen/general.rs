//! What can be done in every view: find, the palette, help, problems, notes, a record as text.

use super::actions::{self, ACTIONS, Scope};
use super::app::{App, Errand};
use super::layers::page::Line;
use super::layers::{Editor, Item, Page, Pick};
use super::views::Target;
use crate::board::{Board, RecordRef, Standing};

impl App {
    /// Finds anything by any of its words.
    pub(super) fn find(&mut self) {
        let (targets, items) = findable(self.board());
        self.open_layer(Pick::new("Find", items, move |app, at| app.go_to(&targets[at])));
    }

    /// Chooses from everything that can be done here.
    pub(super) fn palette(&mut self) {
        let actions: Vec<&actions::Action> = actions::of_view(self.view).collect();
        let items = actions
            .iter()
            .map(|action| Item::new(format!("{} — {}", action.name, action.about), action.keys.join(" ")));
        let items = items.collect();
        self.open_layer(Pick::new("Do", items, move |app, at| app.perform(actions[at].act)));
    }

    /// Shows the keys that work here.
    pub(super) fn help(&mut self) {
        let mut lines = Vec::new();
        for scope in [self.view, Scope::Everywhere] {
            lines.push(Line::Heading(place(scope).to_owned()));
            for action in ACTIONS.iter().filter(|action| action.scope == scope) {
                lines.push(Line::Pair(action.keys.join(" "), action.about.to_owned()));
            }
            lines.push(Line::Heading(String::new()));
        }
        lines.push(Line::Heading("Mouse".to_owned()));
        lines.push(Line::Pair("click".to_owned(), "Put the focus there; again: open it".to_owned()));
        lines.push(Line::Pair("right click".to_owned(), "Mark an outfit".to_owned()));
        lines.push(Line::Pair("wheel".to_owned(), "Move up and down".to_owned()));
        lines.push(Line::Heading(String::new()));
        lines.push(Line::Heading("Marks".to_owned()));
        for (mark, words) in MARKS {
            lines.push(Line::Pair((*mark).to_owned(), (*words).to_owned()));
        }
        self.open_layer(Page::new("Help", lines));
    }

    /// Opens the record in focus in the user's own editor.
    pub(super) fn edit_as_text(&mut self) {
        let record = match self.focused() {
            Some(Target::Outfit(id)) => RecordRef::Outfit(id),
            Some(Target::Look(id)) => RecordRef::Look(id),
            Some(Target::Scene(number)) => RecordRef::Scene(number),
            Some(Target::Period(_) | Target::Thread(_)) | None => RecordRef::Head,
        };
        self.edit_in_editor(record);
    }

    /// Opens a record in the user's own editor.
    pub(super) fn edit_in_editor(&mut self, record: RecordRef) {
        match self.open.record_text(&record) {
            Some(text) => self.errand = Some(Errand::Editor { record, base: text.clone(), text }),
            None => self.warn(format!("{record} is not there")),
        }
    }

    /// Takes in what came back from the user's own editor; where it is not taken, asks what to do with it.
    pub fn edited_as_text(&mut self, record: RecordRef, base: String, text: String) {
        match self.open.edit_from_text(&record, &base, &text) {
            Ok(None) => self.say("nothing changed"),
            Ok(Some(edit)) => {
                if !self.change(Ok(edit))
                    && let Some(why) = self.refused().map(str::to_owned)
                {
                    self.offer_to_go_on("What you wrote cannot be kept", why, record, base, text);
                }
            }
            Err(fault) => {
                self.offer_to_go_on("What you wrote does not read", fault.to_string(), record, base, text);
            }
        }
    }

    /// Asks what to do with a text that was not taken, so that nobody's typing is lost.
    fn offer_to_go_on(&mut self, what: &str, why: String, record: RecordRef, base: String, text: String) {
        let lead = vec![format!("{what}, so nothing was changed:"), why];
        let items = vec![
            Item::new("Go on editing", "with what you wrote"),
            Item::new("Throw it away", "the record stays as it was"),
        ];
        self.open_layer(Pick::question("Not taken", lead, items, move |app, choice| {
            if choice == 0 {
                app.errand = Some(Errand::Editor { record, text, base });
            } else {
                app.say("left as it was");
            }
        }));
    }

    /// Writes the notes of what is in focus.
    pub(super) fn write_notes(&mut self) {
        let board = self.board();
        let (title, notes) = match self.focused() {
            Some(Target::Outfit(id)) => match board.outfit(&id) {
                Some(outfit) => (outfit.title.clone(), outfit.notes.clone()),
                None => return,
            },
            Some(Target::Look(id)) => match board.look(&id) {
                Some(look) => (look.title.clone(), look.notes.clone()),
                None => return,
            },
            Some(Target::Scene(number)) => match board.scene(&number) {
                Some(scene) => (format!("scene {number}"), scene.notes.clone()),
                None => return,
            },
            _ => return self.say("put the focus on an outfit, a look or a scene"),
        };
        let Some(target) = self.focused() else { return };
        self.open_layer(Editor::new(format!("Notes: {title}"), &notes, move |app, text| {
            let label = format!("notes of {title}");
            let board = app.board();
            let edit = match &target {
                Target::Outfit(id) => board.change_outfit(id, label, |outfit| outfit.notes = text),
                Target::Look(id) => board.change_look(id, label, |look| look.notes = text),
                Target::Scene(number) => board.change_scene(number, label, |scene| scene.notes = text),
                Target::Period(_) | Target::Thread(_) => return,
            };
            app.change(edit);
        }));
    }
}

/// The marks of the board, with what they mean; help and README explain them alike.
pub const MARKS: &[(&str, &str)] = &[
    ("○", "an open outfit: not yet in a look, nor let go"),
    ("=", "the look copies its source"),
    ("≈", "the look interprets its source"),
    ("*", "the look is invented: no source covers its scene"),
    ("×", "an outfit that was let go"),
    ("●", "on a lane: the base of the look"),
    ("•", "on a lane: an outfit folded into the look"),
    ("✓", "marked, to be gathered; in the workroom: all is there"),
    ("!", "over a limit, wrong, or too few"),
    ("■ ~ × ·", "a copy on a shooting day: in use, away to be cleaned or dried, gone, ready"),
    ("~ ?", "behind a measure: inferred; in the place of one: not known"),
];

fn place(scope: Scope) -> &'static str {
    match scope {
        Scope::Everywhere => "In every view",
        Scope::Wall => "On the wall",
        Scope::Looks => "Among the looks",
        Scope::Scenes => "Among the scenes",
        Scope::Walk => "On the walk",
        Scope::Workroom => "In the workroom",
    }
}

fn findable(board: &Board) -> (Vec<Target>, Vec<Item>) {
    let mut targets = Vec::new();
    let mut items = Vec::new();
    for period in &board.head().periods {
        targets.push(Target::Period(period.id.clone()));
        items.push(Item::new(&period.title, format!("period {}", period.span.short())).marked("│"));
    }
    for thread in &board.head().threads {
        targets.push(Target::Thread(thread.id.clone()));
        items.push(Item::new(&thread.title, "thread").marked("~"));
    }
    for id in board.relations().looks_by_order() {
        let Some(look) = board.look(id) else { continue };
        targets.push(Target::Look(id.clone()));
        items.push(
            Item::new(&look.title, format!("look of {}", board.name_of(&look.character)))
                .marked(look.treatment.mark()),
        );
    }
    for id in board.relations().outfits_by_date() {
        let Some(outfit) = board.outfit(id) else { continue };
        targets.push(Target::Outfit(id.clone()));
        let mark = match board.standing(id) {
            Standing::Open => "○",
            Standing::Folded(look) => board.look(look).map_or("≈", |look| look.treatment.mark()),
            Standing::LetGo(_) => "×",
        };
        let worn = outfit.worn.as_ref().map_or_else(|| "undated".to_owned(), |date| date.short());
        items.push(Item::new(format!("{} — {}", outfit.title, outfit.occasion), worn).marked(mark));
    }
    for scene in board.scenes() {
        targets.push(Target::Scene(scene.number.clone()));
        items.push(Item::new(format!("scene {} {}", scene.number, scene.heading), "scene").marked("§"));
    }
    (targets, items)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::screen::trial::Trial;

    /// What came back from the editor for the smock's look.
    fn edited(trial: &mut Trial, record: &RecordRef, add: &str) -> (String, String) {
        let base = trial.app.open.record_text(record).unwrap();
        let text = format!("{base}{add}");
        trial.app.edited_as_text(record.clone(), base.clone(), text.clone());
        (base, text)
    }

    #[test]
    fn a_text_that_is_refused_is_not_lost() {
        let smock = RecordRef::Look("smock".parse().unwrap());
        for (add, why) in [
            (
                "notes: an hour of typing\nfolded: [club-wool]\n",
                "outfit `club-wool` is in more than one look",
            ),
            ("notes: [", "What you wrote does not read"),
        ] {
            let mut trial = Trial::small();
            let (base, text) = edited(&mut trial, &smock, add);
            let screen = trial.screen((120, 30));
            assert!(screen.contains("Not taken") && screen.contains(why), "{why}\n{screen}");
            trial.keys("enter");
            assert_eq!(trial.app.errand, Some(Errand::Editor { record: smock.clone(), text, base }));
        }
    }

    #[test]
    fn a_text_whose_file_cannot_be_written_is_not_lost() {
        let mut trial = Trial::small();
        let smock = RecordRef::Look("smock".parse().unwrap());
        let base = trial.app.open.record_text(&smock).unwrap();
        std::fs::write(trial.app.folder().join("looks/smock.yaml"), "title: [").unwrap();
        let text = format!("{base}notes: an hour of typing\n");
        trial.app.edited_as_text(smock.clone(), base.clone(), text.clone());
        let screen = trial.screen((120, 30));
        assert!(screen.contains("What you wrote cannot be kept"), "{screen}");
        trial.keys("enter");
        assert_eq!(trial.app.errand, Some(Errand::Editor { record: smock, text, base }));
    }
}
