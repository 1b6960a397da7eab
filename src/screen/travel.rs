//! Taking back and doing again.
//!
//! Steps are taken in their order, so one that cannot be taken would keep all behind it out of reach: the user then
//! chooses a side, or drops the step.

use super::app::App;
use super::clash;
use super::layers::{Item, Pick};
use crate::board::{Refused, Side};
use crate::store::{EditError, OpenBoard};

/// Which way through what was done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// To take back.
    Back,
    /// To do again.
    Forth,
}

#[derive(Clone, Copy)]
enum Answer {
    Take(Side),
    Drop,
    Leave,
}

impl Way {
    fn next(self, open: &OpenBoard) -> String {
        let label = match self {
            Self::Back => open.undo_labels().next(),
            Self::Forth => open.redo_labels().next(),
        };
        label.unwrap_or_default().to_owned()
    }

    fn go(self, open: &mut OpenBoard, side: Option<Side>) -> Result<Option<String>, EditError> {
        match (self, side) {
            (Self::Back, None) => open.undo(),
            (Self::Back, Some(side)) => open.undo_preferring(side),
            (Self::Forth, None) => open.redo(),
            (Self::Forth, Some(side)) => open.redo_preferring(side),
        }
    }

    fn drop_next(self, open: &mut OpenBoard) -> Result<Option<String>, EditError> {
        match self {
            Self::Back => open.drop_undo(),
            Self::Forth => open.drop_redo(),
        }
    }

    /// What there is to say where there is no step; `outside` is whether other hands have changed the board.
    fn nothing(self, outside: bool) -> &'static str {
        match self {
            Self::Back if outside => {
                "nothing of yours to take back; what changed outside is taken back where it was changed"
            }
            Self::Back => "nothing to take back",
            Self::Forth => "nothing to do again",
        }
    }
}

impl App {
    /// Takes back the last change, or does it again.
    pub(super) fn travel(&mut self, way: Way) {
        if way == Way::Back {
            // What a command did beside this screen, and left when it ended, is the newest step to the user.
            self.open.inherit();
        }
        let done = way.go(&mut self.open, None);
        self.arrive(way, done);
    }

    fn arrive(&mut self, way: Way, done: Result<Option<String>, EditError>) {
        self.version += 1;
        match (done, way) {
            (Ok(Some(label)), Way::Back) => self.say(format!("took back: {label}")),
            (Ok(Some(label)), Way::Forth) => self.say(format!("did again: {label}")),
            (Ok(None), way) => self.say(way.nothing(self.is_shared)),
            (Err(EditError::Refused(refused)), way) => {
                let question = question(way, &way.next(&self.open), refused);
                self.open_layer(question);
            }
            (Err(error), _) => self.warn(error.to_string()),
        }
    }
}

/// The question what shall become of a step that cannot be taken as it is.
fn question(way: Way, label: &str, refused: Refused) -> Pick {
    let (title, ours, put, again) = match way {
        Way::Back => ("Take back", "before", "Put what was before", "can be done again"),
        Way::Forth => ("Do again", "again", "Put it there again", "can be taken back"),
    };
    let lead = match &refused {
        Refused::Clash(clashes) => clash::lead(clashes, ours),
        // The record stands for all of the step: which side it is, it is for everything that both have touched.
        Refused::Gone(_) | Refused::Taken(_) => vec![refused.to_string(), clash::MEANWHILE.to_owned()],
        Refused::Broken(_) | Refused::Unfit(_) => vec![refused.to_string()],
    };
    let mut answers = Vec::new();
    if matches!(refused, Refused::Clash(_) | Refused::Gone(_) | Refused::Taken(_)) {
        let keep = Item::new("Keep what is there", "only the rest of the step is taken");
        answers.push((Answer::Take(Side::Theirs), keep));
        answers.push((Answer::Take(Side::Ours), Item::new(put, again)));
    }
    answers.push((Answer::Drop, Item::new("Drop this step", "nothing changes, and the next can be reached")));
    answers.push((Answer::Leave, Item::new("Leave it", "nothing changes")));
    let (answers, items): (Vec<Answer>, Vec<Item>) = answers.into_iter().unzip();
    Pick::question(format!("{title}: {label}"), lead, items, move |app, choice| {
        match answers.get(choice).copied().unwrap_or(Answer::Leave) {
            Answer::Take(side) => {
                let done = match way.go(&mut app.open, None) {
                    // Only what was shown is decided; if it is something else by now, that is asked.
                    Err(EditError::Refused(now)) if now == refused => way.go(&mut app.open, Some(side)),
                    done => done,
                };
                app.arrive(way, done);
            }
            Answer::Drop => match way.drop_next(&mut app.open) {
                Ok(Some(label)) => app.say(format!("dropped: {label}")),
                Ok(None) => app.say(way.nothing(app.is_shared)),
                Err(error) => app.warn(error.to_string()),
            },
            Answer::Leave => app.say("left as it is there"),
        }
    })
}

#[cfg(test)]
mod tests {
    use crate::screen::actions::Act;
    use crate::screen::trial::Trial;

    const SIZE: (u16, u16) = (100, 30);

    fn title(trial: &Trial, outfit: &str) -> String {
        let outfit = trial.app.open.board().outfit(&outfit.parse().unwrap());
        outfit.map_or("none", |outfit| &outfit.title).to_owned()
    }

    fn retitle(trial: &mut Trial, outfit: &str, title: &str) {
        let edit = trial.app.board().change_outfit(&outfit.parse().unwrap(), title, |outfit| {
            outfit.title = title.to_owned();
        });
        assert!(trial.app.change(edit));
    }

    /// Another hand writes another title than `ours`.
    fn overwrite(trial: &mut Trial, outfit: &str, ours: &str) {
        let file = trial.app.folder().join(format!("outfits/{outfit}.yaml"));
        let text = std::fs::read_to_string(&file).unwrap();
        assert!(text.contains(ours));
        std::fs::write(&file, text.replace(ours, "Theirs")).unwrap();
        trial.app.take_in_outside();
    }

    /// Two steps, of which the upper clashes with another hand's and is tried to be taken back.
    fn stuck() -> Trial {
        let mut trial = Trial::small();
        retitle(&mut trial, "apron", "First");
        retitle(&mut trial, "smock", "Ours");
        overwrite(&mut trial, "smock", "Ours");
        trial.app.perform(Act::Undo);
        trial
    }

    #[test]
    fn a_step_back_that_clashes_is_put_as_a_choice_and_the_step_below_stays_in_reach() {
        let screen = stuck().screen(SIZE);
        for words in ["Take back: Ours", "outfit `smock`: title", "there: Theirs", "before: Quay smock"] {
            assert!(screen.contains(words), "{words}\n{screen}");
        }
        for (answer, stands, said) in [
            ("enter", "Theirs", "took back: Ours"),
            ("down enter", "Quay smock", "took back: Ours"),
            ("down down enter", "Theirs", "dropped: Ours"),
        ] {
            let mut trial = stuck();
            trial.keys(answer);
            assert_eq!((title(&trial, "smock").as_str(), trial.app.said.text.as_str()), (stands, said));
            trial.app.perform(Act::Undo);
            assert_eq!((title(&trial, "smock").as_str(), title(&trial, "apron").as_str()), (stands, "Apron"));
            trial.app.perform(Act::Undo);
            assert!(trial.app.said.text.starts_with("nothing of yours"), "{}", trial.app.said.text);
        }
        let mut trial = stuck();
        trial.keys("down down down enter");
        assert_eq!(title(&trial, "smock"), "Theirs");
        trial.app.perform(Act::Undo);
        assert!(trial.screen(SIZE).contains("Take back: Ours"), "a step that is left is still there");
    }

    #[test]
    fn a_step_forth_that_clashes_is_put_as_a_choice() {
        for (answer, stands) in [("enter", "Theirs"), ("down enter", "Ours"), ("down down enter", "Theirs")] {
            let mut trial = Trial::small();
            retitle(&mut trial, "smock", "Ours");
            trial.app.perform(Act::Undo);
            overwrite(&mut trial, "smock", "Quay smock");
            trial.app.perform(Act::Redo);
            let screen = trial.screen(SIZE);
            assert!(screen.contains("Do again: Ours") && screen.contains("again: Ours"), "{screen}");
            trial.keys(answer);
            assert_eq!(title(&trial, "smock"), stands);
            trial.app.perform(Act::Redo);
            assert_eq!(trial.app.said.text, "nothing to do again", "{answer}");
        }
    }

    #[test]
    fn a_step_back_of_a_record_that_is_gone_is_put_as_a_choice() {
        for (answer, stands) in [("enter", "none"), ("down enter", "Quay smock"), ("down down enter", "none")]
        {
            let mut trial = Trial::small();
            retitle(&mut trial, "smock", "Ours");
            trial.removes("outfits/smock.yaml");
            trial.app.perform(Act::Undo);
            let screen = trial.screen(SIZE);
            assert!(screen.contains("outfit `smock` was removed meanwhile"), "{screen}");
            trial.keys(answer);
            assert_eq!(title(&trial, "smock"), stands, "{answer}");
            trial.app.perform(Act::Undo);
            assert!(trial.app.said.text.starts_with("nothing of yours"), "{answer}: {}", trial.app.said.text);
        }
    }

    #[test]
    fn an_answer_decides_only_over_what_was_shown() {
        let mut trial = stuck();
        let text = "title: Third\ncharacter: odile\nworn: 1914~\nrecognition: 1\n";
        std::fs::write(trial.app.folder().join("outfits/smock.yaml"), text).unwrap();
        trial.keys("down enter");
        assert_eq!(title(&trial, "smock"), "Third", "it is not overwritten unseen");
        let screen = trial.screen(SIZE);
        assert!(screen.contains("there: Third"), "{screen}");
        trial.keys("down enter");
        assert_eq!(title(&trial, "smock"), "Quay smock");
    }

    #[test]
    fn an_empty_history_says_whether_others_have_changed_the_board() {
        let mut trial = Trial::small();
        trial.app.perform(Act::Undo);
        assert_eq!(trial.app.said.text, "nothing to take back");
        overwrite(&mut trial, "smock", "Quay smock");
        trial.app.perform(Act::Undo);
        assert!(trial.app.said.text.contains("taken back where it was changed"), "{}", trial.app.said.text);
        assert_eq!(title(&trial, "smock"), "Theirs");
    }

    #[test]
    fn a_step_that_mended_something_is_taken_back() {
        let mut trial = Trial::small();
        // Two looks that hold one outfit, which a merger mends.
        trial.writes(
            "looks/two.yaml",
            &serde_json::json!({"title": "Two", "character": "odile", "treatment": "copy", "base": "smock"}),
        );
        let edit = trial.app.board().merge_looks(&"two".parse().unwrap(), &"smock".parse().unwrap());
        assert!(trial.app.change(edit));
        trial.app.perform(Act::Undo);
        assert_eq!(trial.app.said.text, "took back: merged Two into Smock, cut down");
        assert_eq!(trial.look("two").title, "Two");
    }
}
