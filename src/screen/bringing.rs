//! Bringing in a script or a table from a file: what it would change is shown first, and then it is one edit.

mod preview;

use std::cell::RefCell;
use std::path::PathBuf;
use std::rc::Rc;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, TryRecvError};
use std::thread;
use std::time::Duration;

use crossterm::event::{Event, KeyCode, KeyEventKind};
use ratatui::layout::Rect;

use super::app::App;
use super::canvas::Canvas;
use super::layers::form::Filled;
use super::layers::page::Line;
use super::layers::{Field, Form, Layer, Next, Page};
use crate::board::Board;
use crate::bring::script::{Part, PartError};
use crate::bring::table::Kind;
use crate::check::words::capital;
use crate::store::FaultKind;
use preview::{Holds, Preview, Request};

/// What a file can hold, in the order of the form.
const TABLES: [Kind; 3] = [Kind::Outfits, Kind::Scenes, Kind::Schedule];

/// What stands in the field for the scenes of a script that is all of the film.
const ALL: &str = "all";

/// So long the form waits for the file, so that most previews are there at once: too short to be felt.
const GRACE: Duration = Duration::from_millis(30);

/// Where a preview comes from.
type Work = Receiver<Result<Preview, String>>;

/// The form, and then what the file would change. The file is read and compared on a thread of its own, so that no key
/// waits for it.
struct Bringing {
    form: Form,
    /// What the form has asked for with this key.
    asked: Rc<RefCell<Option<Work>>>,
    stage: Stage,
}

enum Stage {
    Asking,
    Reading(Work, Page),
    Shown(Page),
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
        let asked = Rc::new(RefCell::new(None));
        let asks = Rc::clone(&asked);
        let form = Form::new("Bring in", fields, move |app, filled| {
            let [file, holds, scenes] = filled else { return Ok(()) };
            let path = path_of(Filled::text(file))?;
            let holds = match holds.choice().checked_sub(1).and_then(|at| TABLES.get(at)) {
                None => Holds::Script { part: part_of(scenes.text())?, is_all: scenes.text() == ALL },
                Some(kind) => Holds::Table(*kind),
            };
            *asks.borrow_mut() = Some(begin(app.board().clone(), Request { path, holds }));
            Ok(())
        });
        let lead =
            "A path; a script in Fountain, or a table as CSV or XLSX. What would change is shown first.";
        let form = form.lead(vec![lead.to_owned()]);
        self.open_layer(Bringing { form, asked, stage: Stage::Asking });
    }
}

/// Reads and compares on a thread.
fn begin(board: Board, request: Request) -> Work {
    let (done, work) = mpsc::channel();
    thread::spawn(move || {
        // The form may have been left already.
        let _ = done.send(request.preview(&board));
    });
    work
}

impl Bringing {
    fn wait_for(&mut self, work: Work) {
        let lines = vec![Line::Heading("Reading the file, and comparing it with the board …".to_owned())];
        self.stage = Stage::Reading(work, Page::new("Bring in", lines));
        self.take_up(Some(GRACE));
    }

    /// Takes up the preview, if it is there or comes in time. Says whether it did.
    fn take_up(&mut self, wait: Option<Duration>) -> bool {
        let Stage::Reading(work, _) = &self.stage else { return false };
        let done = match wait {
            Some(wait) => work.recv_timeout(wait).map_err(|none| none == RecvTimeoutError::Timeout),
            None => work.try_recv().map_err(|none| none == TryRecvError::Empty),
        };
        let done = match done {
            Ok(done) => done,
            Err(true) => return false,
            Err(false) => Err("reading it failed; the board is as it was".to_owned()),
        };
        self.stage = match done {
            Err(wrong) => self.back_to_form(wrong),
            Ok(Preview { edit, .. }) if edit.is_empty() => {
                self.back_to_form("nothing to bring in: the board has it so already".to_owned())
            }
            Ok(Preview { lines, edit }) => {
                Stage::Shown(Page::new(capital(&edit.label), lines).then(move |app| {
                    app.change(Ok(edit));
                }))
            }
        };
        true
    }

    fn back_to_form(&mut self, wrong: String) -> Stage {
        self.form.refuse(wrong);
        Stage::Asking
    }

    fn on_top(&mut self) -> &mut dyn Layer {
        match &mut self.stage {
            Stage::Asking => &mut self.form,
            Stage::Reading(_, page) | Stage::Shown(page) => page,
        }
    }
}

impl Layer for Bringing {
    fn draw(&mut self, board: &Board, canvas: &mut Canvas<'_>, area: Rect) {
        self.on_top().draw(board, canvas, area);
    }

    fn event(&mut self, event: &Event, app: &mut App) -> Next {
        if let Stage::Reading(..) = self.stage {
            let leaves = matches!(event, Event::Key(key)
                if key.code == KeyCode::Esc && key.kind != KeyEventKind::Release);
            return if leaves { Next::Close } else { Next::Keep };
        }
        let next = self.on_top().event(event, app);
        let asked = self.asked.borrow_mut().take();
        let Some(work) = asked else { return next };
        self.wait_for(work);
        Next::Keep
    }

    fn click(&mut self, row: usize, app: &mut App) -> Next {
        self.on_top().click(row, app)
    }

    fn scroll(&mut self, by: isize) {
        self.on_top().scroll(by);
    }

    fn has_news(&mut self) -> bool {
        self.take_up(None)
    }

    fn keys(&self) -> &'static str {
        match &self.stage {
            Stage::Asking => self.form.keys(),
            Stage::Reading(..) => "esc leaves it",
            Stage::Shown(page) => page.keys(),
        }
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
    text.parse().map(Some).map_err(|error: PartError| error.to_string())
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

    /// Presses keys of which the last brings the file in, and waits until it is read.
    fn brings(trial: &mut Trial, keys: &str) -> String {
        trial.keys(keys);
        trial.waits(SIZE, |screen| !screen.contains("Reading the file"))
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
        let screen = brings(&mut trial, "enter");
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
        brings(&mut trial, "enter");
        trial.keys("enter");
        assert_eq!(trial.app.said.text, "script brought in, scenes 1-26A");
        assert_eq!(trial.scene("1B").heading, "INT. FERRY OFFICE - NIGHT");
        trial.keys("u");
        assert_eq!(trial.app.board().records(), &before);
    }

    #[test]
    fn a_script_that_cuts_much_is_not_taken_for_the_whole_film_unasked() {
        let mut trial = Trial::demo();
        names(&mut trial, "short.fountain", "INT. NET LOFT - DAY\n\nThey mend.\n");
        let screen = brings(&mut trial, "enter");
        assert!(screen.contains("it would cut 7") && screen.contains("or `all`"), "{screen}");
        trial.keys("down down");
        trial.types("all");
        let screen = brings(&mut trial, "enter");
        assert!(screen.contains("scenes cut") && screen.contains("Odile Maren: "), "{screen}");
    }

    #[test]
    fn a_table_is_shown_before_it_is_brought_in() {
        let mut trial = Trial::small();
        names(&mut trial, "more.csv", "Id,Title,Character,Weather\nsmock,Smock,,dry\nhood,Hood,odile,wet\n");
        let screen = brings(&mut trial, "down right enter");
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
            let screen = brings(&mut trial, keys);
            assert!(screen.contains(why) && screen.contains("Bring in"), "{why}\n{screen}");
        }
        let mut trial = Trial::small();
        trial.keys("I enter");
        assert!(trial.screen(SIZE).contains("name a file"));
        trial.types("/nowhere/at all.fountain");
        let screen = brings(&mut trial, "enter");
        assert!(screen.contains("cannot be read"), "{screen}");
    }

    #[test]
    fn what_the_board_has_already_is_told_in_the_form() {
        let mut trial = Trial::small();
        names(&mut trial, "same.csv", "Id,Title\nsmock,Quay smock\n");
        let screen = brings(&mut trial, "down right enter");
        assert!(screen.contains("the board has it so already") && screen.contains("same.csv"), "{screen}");
    }

    #[test]
    fn who_goes_out_of_a_scene_is_shown_with_the_look() {
        let mut trial = Trial::demo();
        names(&mut trial, "four.fountain", "INT. NET LOFT - NIGHT #4#\n\nBRIDIE fills needles.\n");
        trial.keys("down down");
        trial.types("4-4");
        brings(&mut trial, "enter");
        let screen = trial.screen((120, 40));
        let look = trial.look("od-loft-pinafore").title.clone();
        let told = format!("INT. NET LOFT - NIGHT: Odile Maren ({look})");
        assert!(screen.contains("goes out") && screen.contains(&told), "{told}\n{screen}");
    }

    #[cfg(unix)]
    #[test]
    fn a_pipe_without_a_writer_is_no_file_and_nobody_waits_for_it() {
        let mut trial = Trial::small();
        let pipe = trial.app.folder().parent().unwrap().join("pipe");
        assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
        for keys in ["enter", "down right enter"] {
            trial.keys("I");
            trial.types(pipe.to_str().unwrap());
            let screen = brings(&mut trial, keys);
            assert!(screen.contains("it is no file"), "{screen}");
            trial.keys("esc");
        }
    }

    /// The form while a file is read, and where what comes of it is to be sent.
    fn reading() -> (Trial, mpsc::Sender<Result<Preview, String>>) {
        let mut trial = Trial::small();
        let (done, work) = mpsc::channel();
        let form = Form::new("Bring in", vec![Field::line("file", "slow.csv")], |_, _| Ok(()));
        let mut bringing = Bringing { form, asked: Rc::default(), stage: Stage::Asking };
        bringing.wait_for(work);
        trial.app.open_layer(bringing);
        (trial, done)
    }

    #[test]
    fn no_key_waits_for_a_file_that_is_slow_to_read() {
        let (mut trial, done) = reading();
        trial.keys("x enter down");
        let screen = trial.screen(SIZE);
        assert!(screen.contains("Reading the file") && screen.contains("esc leaves it"), "{screen}");
        assert!(!trial.app.has_news());
        let edit = trial.app.board().change_head("other title", |head| head.title = "Other".to_owned());
        done.send(Ok(Preview { lines: vec![Line::Heading("1 new".to_owned())], edit })).unwrap();
        assert!(trial.app.has_news());
        assert!(trial.screen(SIZE).contains("Other title"), "{}", trial.screen(SIZE));
        trial.keys("enter");
        assert_eq!((trial.app.board().head().title.as_str(), trial.app.layers.len()), ("Other", 0));
    }

    #[test]
    fn a_file_that_is_slow_to_read_can_be_left_and_one_that_fails_leads_back_to_the_form() {
        let (mut trial, done) = reading();
        trial.keys("esc");
        assert!(trial.app.layers.is_empty() && done.send(Err(String::new())).is_err());
        for fails in [Some("row 2 is wrong"), None] {
            let (mut trial, done) = reading();
            if let Some(why) = fails {
                done.send(Err(why.to_owned())).unwrap();
            }
            drop(done);
            assert!(trial.app.has_news());
            let screen = trial.screen(SIZE);
            let why = fails.unwrap_or("reading it failed");
            assert!(screen.contains(why) && screen.contains("slow.csv"), "{screen}");
        }
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
