//! What is the matter with the board, as a list: each problem can be read whole, and leads to where it is mended.

use super::app::{App, Errand};
use super::layers::{Item, Pick};
use super::views::Target;
use crate::board::{Board, CharacterId, SceneNumber};
use crate::check::{self, About, Finding, Level};
use crate::store::Fault;

/// What is the matter.
enum Problem {
    Fault(Fault),
    Finding(Finding),
}

impl App {
    /// Lists the files that cannot be read and the findings; choosing one goes there.
    pub(super) fn problems(&mut self) {
        let faults = self.open.faults().iter().cloned().map(Problem::Fault);
        let findings = self.findings().into_iter().map(Problem::Finding);
        let problems: Vec<Problem> = faults.chain(findings).collect();
        if problems.is_empty() {
            self.say("every file reads, and there are no findings");
            return;
        }
        let items = problems.iter().map(item).collect();
        self.open_layer(Pick::new("Problems", items, move |app, at| match &problems[at] {
            Problem::Fault(fault) => app.show_fault(fault),
            Problem::Finding(finding) => app.show_finding(finding),
        }));
    }

    fn findings(&self) -> Vec<Finding> {
        let album = self.gallery.album();
        check::findings_in_folder(self.board(), &|picture| album.sight(picture))
    }

    /// Shows all of what is wrong with a file, and opens it in the user's own editor if that is wanted.
    fn show_fault(&mut self, fault: &Fault) {
        let place = fault.at.map_or(String::new(), |at| format!(", line {}, column {}", at.line, at.column));
        let mut lead = vec![format!("{}.", fault.what)];
        lead.extend(fault.hint.clone());
        lead.push("The board takes the file in as soon as it is mended.".to_owned());
        let path = self.folder().join(&fault.file);
        let mut items = Vec::new();
        // A link is not followed when the board is read, so it is not opened here either.
        let is_file = path.symlink_metadata().is_ok_and(|metadata| metadata.is_file());
        if is_file {
            items.push(Item::new("Open the file in your own editor", ""));
        }
        items.push(Item::new("Leave it", ""));
        let title = format!("{}{place}", fault.file);
        self.open_layer(Pick::question(title, lead, items, move |app, choice| {
            if is_file && choice == 0 {
                app.errand = Some(Errand::File(path));
            }
        }));
    }

    /// Goes where a finding can be mended and says what to do; where there is no such place, shows all of it.
    fn show_finding(&mut self, finding: &Finding) {
        match place(self.board(), &finding.about) {
            Some((target, character)) => {
                self.go_to(&target);
                if let (Target::Scene(number), Some(character)) = (&target, character) {
                    let board = self.open.board();
                    self.scenes.focus_cell(board, number, &character);
                }
                self.say(finding.todo.clone());
            }
            None => {
                let lead = vec![finding.text.clone(), finding.todo.clone()];
                let items = vec![Item::new("Close", "")];
                self.open_layer(Pick::question(finding.name, lead, items, |_, _| {}));
            }
        }
    }
}

fn item(problem: &Problem) -> Item {
    match problem {
        Problem::Fault(fault) => Item::new(fault.to_string(), "file").marked("!"),
        Problem::Finding(finding) => {
            let mark = match finding.level {
                Level::Error => "!",
                Level::Warning => "?",
                Level::Note => "·",
            };
            Item::new(&finding.text, finding.name).marked(mark)
        }
    }
}

/// Where a finding can be mended; in the plot, with the character whose cell it is.
fn place(board: &Board, about: &About) -> Option<(Target, Option<CharacterId>)> {
    let scene = |number: &SceneNumber| Target::Scene(number.clone());
    Some(match about {
        About::Outfit(id) => (Target::Outfit(id.clone()), None),
        About::Look(id) => (Target::Look(id.clone()), None),
        About::Scene(number) => (scene(number), None),
        About::Wearing(number, character) => {
            (scene(number), board.character(character).map(|_| character.clone()))
        }
        About::Period(id) => (Target::Period(id.clone()), None),
        About::Thread(id) => (Target::Thread(id.clone()), None),
        About::Board | About::Character(_) | About::Cloth(_) => return None,
    })
}

#[cfg(test)]
mod tests {
    use std::fs;

    use crate::screen::actions::Scope;
    use crate::screen::trial::Trial;

    use super::*;

    const SIZE: (u16, u16) = (80, 24);

    /// Chooses the problem that these words find.
    fn choose(trial: &mut Trial, words: &str) {
        trial.keys("!");
        trial.types(words);
        trial.keys("enter");
    }

    #[test]
    fn a_missing_look_leads_to_the_cell_of_its_character() {
        let mut trial = Trial::demo();
        choose(&mut trial, "cosima vell is");
        assert_eq!(trial.app.view, Scope::Scenes);
        let cosima = "cosima".parse().unwrap();
        assert_eq!(trial.app.scenes.character(trial.app.board()), Some(cosima));
        assert!(trial.app.said.text.starts_with("Assign Cosima Vell a look"), "{}", trial.app.said.text);
        trial.keys("enter");
        assert!(trial.screen(SIZE).contains("Cosima Vell wears in scene"), "{}", trial.screen(SIZE));
    }

    #[test]
    fn a_fault_is_read_whole_and_its_file_can_be_opened() {
        let mut trial = Trial::small();
        let file = trial.app.folder().join("outfits/smock.yaml");
        fs::write(&file, "title: Smock\ncharacter: odile\noccassion: the quay\n").unwrap();
        trial.app.take_in_outside();
        choose(&mut trial, "smock");
        let screen = trial.screen(SIZE);
        let words: String = screen.split(['│', '\n']).map(str::trim).collect::<Vec<_>>().join(" ");
        for part in
            ["outfits/smock.yaml, line 3", "unknown key `occassion`", "did you mean `occasion`?", "let-go"]
        {
            assert!(words.contains(part), "{part} in\n{screen}");
        }
        trial.keys("enter");
        assert_eq!(trial.app.errand, Some(Errand::File(file)));
    }

    #[test]
    fn a_finding_about_the_whole_board_is_read_whole() {
        let mut trial = Trial::small();
        choose(&mut trial, "runtime");
        let screen = trial.screen(SIZE);
        assert!(screen.contains("runtime-differs") && screen.contains("Close"), "{screen}");
    }
}
