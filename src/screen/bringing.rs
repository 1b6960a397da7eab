//! Bringing in a script or a table from a file: what it would change is shown first, and then it is one edit.

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use super::app::App;
use super::layers::form::Filled;
use super::layers::page::Line;
use super::layers::{Field, Form, Page};
use crate::board::{Board, Edit};
use crate::bring::script::{self, Change, Draft, Part, Script};
use crate::bring::table::{Altered, AlteredField, Grid, Kind};
use crate::check::words::{capital, counted};
use crate::store::FaultKind;

/// What a file can hold, in the order of the form.
const TABLES: [Kind; 3] = [Kind::Outfits, Kind::Scenes, Kind::Schedule];

/// What stands in the field for the scenes of a script that is all of the film.
const ALL: &str = "all";

/// What a file would change.
#[derive(Debug)]
struct Preview {
    lines: Vec<Line>,
    edit: Edit,
}

impl App {
    /// Asks for a file, shows what it would change, and brings it in.
    pub(super) fn bring_in(&mut self) {
        if self.open.faults().iter().any(|fault| fault.kind == FaultKind::Damaged) {
            return self
                .warn("not all of the board can be read, so nothing is brought in: ! lists what cannot");
        }
        let mut holds = vec!["a script".to_owned()];
        holds.extend(TABLES.map(|kind| format!("a table: {}", kind.word())));
        let fields = vec![
            Field::line("file", ""),
            Field::choice("holds", holds, 0),
            Field::line("scenes", "").read_as(scenes_says),
        ];
        let form = Form::new("Bring in", fields, |app, filled| {
            let [file, holds, scenes] = filled else { return Ok(()) };
            let path = path_of(Filled::text(file))?;
            let preview = match holds.choice().checked_sub(1).and_then(|at| TABLES.get(at)) {
                None => of_script(app.board(), &path, scenes.text())?,
                Some(kind) => of_table(app.board(), &path, *kind)?,
            };
            let Preview { lines, edit } = preview;
            if edit.is_empty() {
                app.say("nothing to bring in: the board has it so already");
                return Ok(());
            }
            let page = Page::new(capital(&edit.label), lines).then(move |app| {
                app.change(Ok(edit));
            });
            app.open_layer(page);
            Ok(())
        });
        let lead =
            "A path; a script in Fountain, or a table as CSV or XLSX. What would change is shown first.";
        self.open_layer(form.lead(vec![lead.to_owned()]));
    }
}

fn scenes_says(text: &str) -> Result<String, String> {
    match part_of(text)? {
        Some(part) => Ok(format!("scenes {part} alone; the others stay as they are")),
        None if text.is_empty() => Ok("of a script: such as 1-26A where it is only a part".to_owned()),
        None => Ok("the script is all of the film".to_owned()),
    }
}

fn part_of(text: &str) -> Result<Option<Part>, String> {
    if text.is_empty() || text == ALL {
        return Ok(None);
    }
    text.parse().map(Some).map_err(|error: script::PartError| error.to_string())
}

/// A path as people type or drop it: `~` is home, and quotation marks around it are none of its.
fn path_of(text: &str) -> Result<PathBuf, String> {
    let quoted = |mark: char| text.strip_prefix(mark).and_then(|rest| rest.strip_suffix(mark));
    let text = quoted('\'').or_else(|| quoted('"')).unwrap_or(text);
    if text.is_empty() {
        return Err("name a file".to_owned());
    }
    let home = text.strip_prefix("~/").zip(directories::BaseDirs::new());
    Ok(home.map_or_else(|| PathBuf::from(text), |(rest, dirs)| dirs.home_dir().join(rest)))
}

fn of_script(board: &Board, path: &Path, scenes: &str) -> Result<Preview, String> {
    let part = part_of(scenes)?;
    let hinted = |error: String, hint: &str| format!("{error}; {hint}");
    let unread = |error: script::ScriptError| hinted(error.to_string(), error.hint());
    let script = Script::read(&bytes_of(path)?).map_err(unread)?;
    let draft = Draft::of_script(&script, board.head()).map_err(unread)?;
    let (comparison, edit) = script::edit(board, &draft, part.as_ref())
        .map_err(|error| format!("{error}; name other scenes, or none for a whole script"))?;
    if part.is_none() && scenes != ALL && script::looks_partial(board, &comparison) {
        return Err(format!(
            "it would cut {} of {}: say which scenes it is about, such as 1-26A, or `{ALL}`",
            comparison.cut(),
            counted(board.scenes().len(), "scene")
        ));
    }
    let touched = script::touched(board, &comparison, &edit).map_err(|refused| refused.to_string())?;
    let count = counted(draft.scenes.len(), "scene");
    let mut lines = vec![Line::Heading(format!("{count}: {}", script::summary(&comparison)))];
    let line = |change: &Change| Line::Pair(change.what.word().to_owned(), script::told(board, change));
    lines.extend(comparison.changes.iter().map(line));
    listed(&mut lines, "To be looked at", touched.words(board));
    let strangers = draft.strangers.iter();
    let strangers = strangers.map(|one| format!("{}, speaks in {}", one.name, counted(one.scenes, "scene")));
    listed(&mut lines, "Not on the board, so not added to any scene", strangers);
    let readings = draft.readings.iter();
    let readings = readings.map(|one| format!("{} is {}", one.name, board.name_of(&one.character)));
    listed(&mut lines, "Taken by a word of the name", readings);
    listed(&mut lines, "Warnings", draft.warnings.iter().map(ToString::to_string));
    Ok(Preview { lines, edit })
}

fn bytes_of(path: &Path) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    // One byte more than there may be says that there are too many.
    let most = script::LARGEST as u64 + 1;
    let read = File::open(path).and_then(|file| file.take(most).read_to_end(&mut bytes));
    read.map(|_| bytes).map_err(|error| format!("{} cannot be read: {error}", path.display()))
}

fn of_table(board: &Board, path: &Path, kind: Kind) -> Result<Preview, String> {
    let grid = Grid::open(path, None).map_err(|error| {
        let hint = error.hint().map(|hint| format!("; {hint}")).unwrap_or_default();
        format!("{}: {error}{hint}", path.display())
    })?;
    let brought = kind.bring(board, &grid);
    if let Some((first, others)) = brought.wrong.split_first() {
        let more = if others.is_empty() { String::new() } else { format!("; and {} more", others.len()) };
        return Err(format!("{first}{more}"));
    }
    let counts = &brought.counts;
    let told = format!(
        "{} of {}: {} new, {} changed, {} as before",
        counted(brought.rows, "row"),
        kind.word(),
        counts.new,
        counts.changed,
        counts.unchanged
    );
    let mut lines = vec![Line::Heading(told)];
    lines.extend(brought.altered(board).iter().flat_map(changes));
    let unused = brought.columns.iter().filter(|column| column.field.is_none() && !column.heading.is_empty());
    listed(&mut lines, "Columns that are not used", unused.map(|column| column.heading.clone()));
    listed(&mut lines, "To be looked at", brought.notices.iter().cloned());
    let edit = brought.edit.unwrap_or_else(|| Edit::new(String::new(), Vec::new()));
    Ok(Preview { lines, edit })
}

/// The changes of a record, a line each; of a new one all in a line.
fn changes(altered: &Altered) -> Vec<Line> {
    if altered.is_new {
        let said = altered.fields.iter().map(|one| format!("{}: {}", one.field, one.becomes));
        let said = said.collect::<Vec<_>>().join(", ");
        return vec![Line::Pair("new".to_owned(), format!("{}: {said}", altered.record))];
    }
    let or_nothing = |text: &str| if text.is_empty() { "—".to_owned() } else { text.to_owned() };
    let line = |one: &AlteredField| {
        let (was, becomes) = (or_nothing(&one.was), or_nothing(&one.becomes));
        Line::Pair("changed".to_owned(), format!("{}, {}: {was} → {becomes}", altered.record, one.field))
    };
    altered.fields.iter().map(line).collect()
}

/// A heading with what stands under it, where there is anything.
fn listed(lines: &mut Vec<Line>, heading: &str, items: impl IntoIterator<Item = String>) {
    let mut items = items.into_iter().map(|item| Line::Pair("·".to_owned(), item)).peekable();
    if items.peek().is_some() {
        lines.extend([Line::Heading(String::new()), Line::Heading(heading.to_owned())]);
        lines.extend(items);
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test")]

    use super::*;
    use crate::screen::trial::Trial;

    const SIZE: (u16, u16) = (80, 24);

    /// A file beside the board, named in the form that brings it in.
    fn names(trial: &mut Trial, name: &str, text: &str) {
        let file = trial.app.folder().parent().unwrap().join(name);
        std::fs::write(&file, text).unwrap();
        trial.keys("I");
        trial.types(file.to_str().unwrap());
    }

    fn second() -> String {
        let script =
            std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/demo-board/script.fountain"));
        let (first, rest) =
            script.unwrap().split_once("\nINT. ").map(|(a, b)| (a.to_owned(), b.to_owned())).unwrap();
        format!("{first}\nINT. FERRY OFFICE - NIGHT #1B#\n\nOdile counts coins.\n\nINT. {rest}")
    }

    #[test]
    fn a_script_is_shown_before_it_is_brought_in_and_is_one_step_of_undo() {
        let mut trial = Trial::demo();
        let before = trial.app.board().records().clone();
        names(&mut trial, "second.fountain", &second());
        trial.keys("down down");
        trial.types("1-26A");
        assert!(trial.screen(SIZE).contains("scenes 1-26A alone"), "{}", trial.screen(SIZE));
        trial.keys("enter");
        let screen = trial.screen(SIZE);
        for words in [
            "Script brought in, scenes 1-26A",
            "1B INT. FERRY OFFICE - NIGHT: 1/8 pages",
            "scene 1B is on no shooting day",
            "enter does it",
        ] {
            assert!(screen.contains(words), "{words}\n{screen}");
        }
        assert_eq!(trial.app.board().records(), &before, "nothing before enter");
        trial.keys("x esc");
        assert!(trial.app.layers.is_empty());
        assert_eq!(trial.app.board().records(), &before, "nothing after esc");
        names(&mut trial, "second.fountain", &second());
        trial.keys("down down");
        trial.types("1-26A");
        trial.keys("enter enter");
        assert_eq!(trial.app.said.text, "script brought in, scenes 1-26A");
        assert_eq!(trial.scene("1B").heading, "INT. FERRY OFFICE - NIGHT");
        trial.keys("u");
        assert_eq!(trial.app.board().records(), &before);
    }

    #[test]
    fn a_script_that_cuts_much_is_not_taken_for_the_whole_film_unasked() {
        let mut trial = Trial::demo();
        names(&mut trial, "short.fountain", "INT. NET LOFT - DAY\n\nThey mend.\n");
        trial.keys("enter");
        let screen = trial.screen(SIZE);
        assert!(screen.contains("it would cut 7") && screen.contains("or `all`"), "{screen}");
        trial.keys("down down");
        trial.types("all");
        trial.keys("enter");
        assert!(trial.screen(SIZE).contains("scenes cut"), "{}", trial.screen(SIZE));
    }

    #[test]
    fn a_table_is_shown_before_it_is_brought_in() {
        let mut trial = Trial::small();
        names(&mut trial, "more.csv", "Id,Title,Character,Weather\nsmock,Smock,,dry\nhood,Hood,odile,wet\n");
        trial.keys("down right enter");
        let screen = trial.screen(SIZE);
        for words in ["1 new, 1 changed", "Title: Quay smock → Smock", "new", "outfit `hood`", "Weather"] {
            assert!(screen.contains(words), "{words}\n{screen}");
        }
        trial.keys("enter");
        let title = |id: &str| trial.app.board().outfit(&id.parse().unwrap()).unwrap().title.clone();
        assert_eq!((title("smock").as_str(), title("hood").as_str()), ("Smock", "Hood"));
    }

    #[test]
    fn what_cannot_be_read_stays_in_the_form_with_the_reason() {
        for (name, text, keys, why) in [
            ("none.fountain", "no scene at all", "enter", "there is no scene in it"),
            ("bad.csv", "Id,Title,Character\nhood,Hood,nobody\n", "down right enter", "row 2, Character"),
            ("a.fountain", "INT. LOFT - DAY\n\nx\n", "down down 9 - 2 enter", "is no part of a script"),
        ] {
            let mut trial = Trial::small();
            names(&mut trial, name, text);
            trial.keys(keys);
            let screen = trial.screen(SIZE);
            assert!(screen.contains(why) && screen.contains("Bring in"), "{why}\n{screen}");
        }
        let mut trial = Trial::small();
        trial.keys("I enter");
        assert!(trial.screen(SIZE).contains("name a file"));
        trial.types("/nowhere/at all.fountain");
        trial.keys("enter");
        assert!(trial.screen(SIZE).contains("cannot be read"), "{}", trial.screen(SIZE));
    }

    #[test]
    fn a_path_may_come_in_quotation_marks_or_from_home() {
        for text in ["'/a b/c'", "\"/a b/c\"", "/a b/c"] {
            assert_eq!(path_of(text), Ok(PathBuf::from("/a b/c")));
        }
        let home = directories::BaseDirs::new().unwrap().home_dir().join("c.csv");
        assert_eq!(path_of("~/c.csv"), Ok(home));
        assert!(path_of("").is_err() && path_of("''").is_err());
    }

    #[test]
    fn a_board_of_which_not_all_can_be_read_is_not_changed() {
        let mut trial = Trial::small();
        std::fs::write(trial.app.folder().join("outfits/smock.yaml"), "title: [").unwrap();
        trial.app.take_in_outside();
        trial.keys("I");
        assert!(trial.app.layers.is_empty());
        assert!(trial.app.said.text.contains("nothing is brought in"), "{}", trial.app.said.text);
    }
}
