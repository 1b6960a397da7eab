//! For tests: a board in a folder of its own, with a user who presses keys and reads the screen.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a trial that cannot be set up is a failed test")]

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use crossterm::event::{Event, KeyCode, KeyEvent, KeyModifiers, MouseButton, MouseEvent, MouseEventKind};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Modifier;
use serde_json::{Value, json};
use tempfile::TempDir;

use super::app::App;
use super::canvas::{Canvas, Hits};
use super::frame;
use super::keys::Key;
use super::theme::{Depth, Theme};
use crate::board::{Look, Scene};
use crate::store::{OpenBoard, Places};

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
}

/// An app on a folder that goes with it.
pub struct Trial {
    /// The app.
    pub app: App,
    _folder: TempDir,
}

impl Trial {
    /// On the [small board](small).
    pub fn small() -> Self {
        Self::on(&small())
    }

    /// On a copy of the demo board.
    pub fn demo() -> Self {
        let folder = TempDir::new().unwrap();
        let board = folder.path().join("board");
        copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board"), &board);
        let open = OpenBoard::open(&board, &Places::below(folder.path())).unwrap();
        Self { app: App::new(open, Theme::new(Depth::None)), _folder: folder }
    }

    /// On files, by name.
    pub fn on(files: &[(String, Value)]) -> Self {
        let folder = TempDir::new().unwrap();
        let board = folder.path().join("board");
        for (name, content) in files {
            let path = board.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            // What is JSON is YAML too.
            fs::write(path, serde_json::to_string_pretty(content).unwrap()).unwrap();
        }
        let open = OpenBoard::open(&board, &Places::below(folder.path())).unwrap();
        assert_eq!(open.faults(), []);
        Self { app: App::new(open, Theme::new(Depth::None)), _folder: folder }
    }

    /// Presses keys, by their names in the table of actions.
    pub fn keys(&mut self, names: &str) {
        for name in names.split_whitespace() {
            let key: Key = name.parse().expect(name);
            self.app.event(&Event::Key(key.event()));
        }
    }

    /// Types a text.
    pub fn types(&mut self, text: &str) {
        for letter in text.chars() {
            self.app.event(&Event::Key(KeyEvent::new(KeyCode::Char(letter), KeyModifiers::NONE)));
        }
    }

    /// Types a text in the place of what stands in the field.
    pub fn retypes(&mut self, text: &str) {
        self.keys("end ctrl-u");
        self.types(text);
    }

    /// Clicks on the first place where the last frame showed `text`.
    pub fn clicks(&mut self, size: (u16, u16), text: &str) {
        let buffer = self.buffer(size);
        let lines = lines(&buffer);
        let (row, line) = lines.iter().enumerate().find(|(_, line)| line.contains(text)).expect(text);
        let column = line[..line.find(text).unwrap()].chars().count();
        let mouse = MouseEvent {
            kind: MouseEventKind::Down(MouseButton::Left),
            column: u16::try_from(column).unwrap(),
            row: u16::try_from(row).unwrap(),
            modifiers: KeyModifiers::NONE,
        };
        self.app.event(&Event::Mouse(mouse));
    }

    /// One frame's cells.
    pub fn buffer(&mut self, (width, height): (u16, u16)) -> Buffer {
        let area = Rect::new(0, 0, width, height);
        let mut buffer = Buffer::empty(area);
        frame::draw_on(&mut self.app, &mut buffer, area);
        buffer
    }

    /// One frame as text.
    pub fn screen(&mut self, size: (u16, u16)) -> String {
        lines(&self.buffer(size)).join("\n")
    }

    /// Draws frames until one is as it is waited for: what works on a thread tells the frame when it is done.
    pub fn waits(&mut self, size: (u16, u16), until: impl Fn(&str) -> bool) -> String {
        let began = Instant::now();
        loop {
            // As the loop that owns the terminal asks before each frame.
            self.app.has_news();
            let screen = self.screen(size);
            if until(&screen) {
                return screen;
            }
            assert!(began.elapsed() < Duration::from_secs(120), "{screen}");
            std::thread::sleep(Duration::from_millis(5));
        }
    }

    /// The part of a frame between header and footer as text, and below it what it shows in reverse.
    pub fn body(&mut self, size: (u16, u16)) -> String {
        let buffer = self.buffer(size);
        let foot = if size.1 >= 20 { 2 } else { 1 };
        let rows = 2..size.1 - foot;
        let lines = lines(&buffer);
        let mut text: String = rows.clone().map(|y| format!("{}\n", lines[usize::from(y)])).collect();
        text.push_str("\nin reverse:");
        for y in rows {
            let reversed = (0..size.0).filter(|x| buffer[(*x, y)].modifier.contains(Modifier::REVERSED));
            let words: String = reversed.map(|x| buffer[(x, y)].symbol()).collect();
            if !words.is_empty() {
                text.push_str(&format!("\n  {}", words.trim_end()));
            }
        }
        text
    }

    /// Another hand writes a file.
    pub fn writes(&mut self, name: &str, content: &Value) {
        // What is JSON is YAML too.
        fs::write(self.app.folder().join(name), serde_json::to_string_pretty(content).unwrap()).unwrap();
        self.app.take_in_outside();
    }

    /// Another hand takes a file away.
    pub fn removes(&mut self, name: &str) {
        fs::remove_file(self.app.folder().join(name)).unwrap();
        self.app.take_in_outside();
    }

    /// A look.
    pub fn look(&self, id: &str) -> &Look {
        self.app.board().look(&id.parse().unwrap()).expect(id)
    }

    /// A scene.
    pub fn scene(&self, number: &str) -> &Scene {
        self.app.board().scene(&number.parse().unwrap()).expect(number)
    }

    /// What a character wears in a scene: nothing where it is not there, `None` where it has no look yet.
    pub fn wears(&self, scene: &str, character: &str) -> Option<Option<String>> {
        let worn = self.scene(scene).wears.get(&character.parse().unwrap())?;
        Some(worn.as_ref().map(ToString::to_string))
    }
}

fn lines(buffer: &Buffer) -> Vec<String> {
    let row = |y| -> String { (0..buffer.area.width).map(|x| buffer[(x, y)].symbol()).collect() };
    (0..buffer.area.height).map(|y| row(y).trim_end().to_owned()).collect()
}

/// Three characters (one without a look), three periods, six outfits, five looks and nine scenes, by file.
pub fn small() -> Vec<(String, Value)> {
    let mut files = vec![
        ("board.yaml".to_owned(), head()),
        ("scenes.yaml".to_owned(), scenes()),
        ("schedule.yaml".to_owned(), json!([{"day": 1, "date": "2027-04-05", "scenes": [2, 3]}])),
    ];
    for (folder, records) in [("outfits", outfits()), ("looks", looks())] {
        for (id, record) in records.as_object().unwrap() {
            files.push((format!("{folder}/{id}.yaml"), record.clone()));
        }
    }
    files
}

fn head() -> Value {
    json!({
        "shirr": 1, "id": "trial", "title": "Trial", "runtime": 12,
        "budget": {"looks": 6, "characters": {"odile": 3, "bridie": 1}, "periods": {"races": 3}},
        "periods": [
            {"id": "shore", "title": "The shore", "span": "1911/1924"},
            {"id": "races", "title": "The races", "span": "1925/1934"},
            {"id": "war", "title": "The war", "span": "1939/1945"},
        ],
        "characters": [
            {"id": "odile", "name": "Odile", "performer": "Tamsin Orrell"},
            {"id": "bridie", "name": "Bridie"},
            {"id": "ivo", "name": "Ivo"},
        ],
        "threads": [
            {"id": "green-cap", "title": "The green cap", "says": "found by it in any swell"},
            {"id": "darn", "title": "The red darn"},
        ],
    })
}

fn outfits() -> Value {
    json!({
        "smock": {
            "title": "Quay smock", "character": "odile", "worn": "1914~", "recognition": 1,
            "pieces": [{"name": "smock", "cloth": "hessian", "colours": ["tan"]}],
        },
        "club-wool": {
            "title": "Club wool", "character": "odile", "worn": "1926-08-14", "occasion": "the race",
            "silhouette": "tubular", "recognition": 5, "threads": ["green-cap"],
            "dressing": ["top button undone"], "tags": ["race", "wet"],
            "pieces": [{
                "name": "costume", "cloth": "wool jersey", "colours": ["black", "ivory"],
                "details": ["square neck", "leg to mid thigh"],
            }],
            "evidence": [
                {"kind": "photograph", "source": "club album, leaf 4", "credit": "the club", "rights": "free"},
                {"kind": "written"},
            ],
            "notes": "Shrank a little every season.",
        },
        "club-serge": {"title": "Club serge", "character": "odile", "worn": "1926~", "recognition": 2},
        "crossing-wool": {"title": "Crossing wool", "character": "odile", "worn": "1927-07"},
        "blackout-coat": {"title": "Blackout coat", "character": "odile", "worn": "1941"},
        "apron": {"title": "Apron", "character": "bridie", "worn": "1926", "let-go": "told by nobody"},
    })
}

fn looks() -> Value {
    json!({
        "smock": {
            "title": "Smock, cut down", "character": "odile", "treatment": "copy", "base": "smock", "order": 10,
            "pieces": [{"name": "smock", "cloth": "hessian", "colours": ["tan"]}],
        },
        "club": {
            "title": "Club black", "character": "odile", "says": "She races, and nobody has timed her yet.",
            "treatment": "interpret", "base": "club-wool", "folded": ["club-serge", "crossing-wool"],
            "order": 20, "stage": "fitted",
            "departures": [
                {"detail": "neckline", "was": "square", "becomes": "round", "why": "it reads from afar"},
                {"detail": "leg", "becomes": "two fingers shorter"},
            ],
            "pieces": [
                {
                    "name": "costume", "cloth": "wool jersey", "colours": ["black", "ivory"],
                    "details": ["round neck", "buttoned left shoulder"],
                },
                {"name": "cap", "cloth": "rubber", "colours": ["darkgreen"]},
            ],
            "threads": ["green-cap"],
            "dressing": ["top button undone", "cap in the hand until scene 3"],
            "notes": "Second one for the water, felted.\n\nThe third stays dry.",
        },
        "swim": {
            "title": "Night swim", "character": "odile", "treatment": "invent", "period": "war", "order": 30,
        },
        "serge": {
            "title": "Walking serge", "character": "odile", "treatment": "invent", "period": "races",
            "order": 40,
        },
        "loft": {
            "title": "Loft apron", "character": "bridie", "treatment": "invent", "period": "races", "order": 10,
        },
    })
}

fn scenes() -> Value {
    json!([
        {
            "scene": 1, "heading": "EXT. QUAY - DAY", "set": "Quay", "where": "EXT", "when": "day",
            "story-day": "D1", "date": "1914", "pages": 2, "wears": {"odile": "smock"},
        },
        {
            "scene": 2, "heading": "EXT. SLIPWAY - DAWN", "set": "Slipway", "where": "EXT", "when": "dawn",
            "story-day": "D2", "date": "1926-08-14", "pages": "1 3/8",
            "wears": {"odile": "club", "bridie": null},
            "action": "The whole club stands in its coats and looks at one girl who has none.",
            "notes": "Cap in the hand.",
        },
        {
            "scene": 3, "heading": "EXT. HARBOUR - DAY", "set": "Harbour", "where": "EXT", "when": "day",
            "story-day": "D2", "date": "1926-08-14", "pages": "4/8", "wears": {"odile": "club"},
        },
        {
            "scene": 4, "set": "Club room", "where": "INT", "when": "night", "story-day": "N2",
            "date": "1926-08-14", "pages": 1, "wears": {"odile": null, "bridie": "loft", "ivo": null},
        },
        {"scene": "4A", "set": "Stairs", "where": "INT", "date": "1926-08-14"},
        {
            "scene": 5, "set": "Quay", "where": "INT/EXT", "when": "dusk", "story-day": "D3",
            "date": "1941-02", "pages": 3, "wears": {"odile": "swim", "bridie": "loft"},
        },
        {"scene": 6, "set": "Boat", "date": "1941", "pages": "7/8", "wears": {"odile": "swim"}},
        {"scene": 7, "set": "Boat", "date": "1941", "pages": "1/8", "wears": {"odile": null}},
        {"scene": 8, "set": "Nowhere", "wears": {"bridie": null}},
    ])
}

/// Checks that what is drawn into an area of this size touches no cell around it.
pub fn draws_inside((width, height): (u16, u16), draw: impl FnOnce(&mut Canvas<'_>, Rect)) {
    let mut buffer = Buffer::empty(Rect::new(0, 0, width + 6, height + 4));
    let area = Rect::new(3, 2, width, height);
    let (theme, mut hits) = (Theme::new(Depth::None), Hits::default());
    draw(&mut Canvas::new(&mut buffer, &theme, &mut hits), area);
    for (at, cell) in buffer.content.iter().enumerate() {
        let (x, y) = buffer.pos_of(at);
        let inside = area.contains(ratatui::layout::Position::new(x, y));
        assert!(inside || cell.symbol() == " ", "{width}×{height}: `{}` at {x}, {y}", cell.symbol());
    }
}
