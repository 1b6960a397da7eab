//! The store through its public front, on real folders.

#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs, reason = "tests")]

mod crash;
mod faults;
mod files;
mod hostile;
mod kill;
mod other_logs;
mod outside;
mod round_trip;
mod suggested;
mod text;
mod two_hands;
mod undo;
mod whose_log;

use shirr::board::*;

#[path = "../../src/board/sample/mod.rs"]
mod sample;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use shirr::store::{Fault, OpenBoard, Places};

/// A small board with a thing of every kind, and comments above.
const FILES: [(&str, &str); 8] = [
    (
        "board.yaml",
        "# The board.\nshirr: 1\nid: tide\ntitle: Tide\nunits: cm\nperiods:\n- id: shore\n  title: The shore\n  span: 1911/1924\n\
         characters:\n- id: odile\n  name: Odile\n- id: bridie\n  name: Bridie\nthreads:\n- id: cap\n  title: The cap\n",
    ),
    ("outfits/smock.yaml", "# Seen at the museum.\n\ntitle: Quay smock\ncharacter: odile\nworn: 1914\n"),
    (
        "outfits/apron.yaml",
        "title:   Apron   # spaced as a person would\ncharacter: bridie\nthreads: [cap]\n",
    ),
    ("outfits/shawl.yaml", "title: Shawl\ncharacter: odile\n"),
    ("looks/quay.yaml", "title: Quay\ncharacter: odile\ntreatment: copy\nbase: smock\norder: 10\n"),
    ("scenes.yaml", "- scene: 1\n  wears: {odile: quay}\n- scene: 2\n  wears:\n    bridie: ~\n- scene: 2A\n"),
    ("schedule.yaml", "- day: 1\n  scenes: [1, 2A]\n"),
    ("cloths/serge.yaml", "# From the pattern book.\ntitle: Serge\nwidth: 150 cm\n"),
];

/// A board's folder, and the machine that it lies on.
struct Bench {
    dir: tempfile::TempDir,
}

impl Bench {
    fn new() -> Self {
        let bench = Self { dir: tempfile::tempdir().unwrap() };
        for (name, text) in FILES {
            bench.write(name, text);
        }
        bench
    }

    fn folder(&self) -> PathBuf {
        self.dir.path().join("board")
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder().join(name)
    }

    fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }

    fn remove(&self, name: &str) {
        fs::remove_file(self.path(name)).unwrap();
    }

    /// The places of this machine, or of another one.
    fn places(&self, machine: &str) -> Places {
        Places::below(self.dir.path().join(machine))
    }

    fn open(&self) -> OpenBoard {
        self.open_on("here")
    }

    fn open_on(&self, machine: &str) -> OpenBoard {
        OpenBoard::open(&self.folder(), &self.places(machine)).unwrap()
    }

    /// The faults that reading finds, as they are printed.
    fn faults(&self) -> Vec<String> {
        shirr::store::read(&self.folder()).unwrap().faults.iter().map(Fault::to_string).collect()
    }

    /// The log of this machine.
    fn log(&self) -> PathBuf {
        self.dir.path().join("here/state/boards/tide/history.log")
    }

    /// Every file of the folder with its bytes.
    fn all(&self) -> BTreeMap<PathBuf, Vec<u8>> {
        files_below(&self.folder())
    }

    /// Makes the folder hold exactly these files.
    fn restore(&self, files: &BTreeMap<PathBuf, Vec<u8>>) {
        fs::remove_dir_all(self.folder()).unwrap();
        for (path, bytes) in files {
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
    }
}

fn files_below(dir: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut all = BTreeMap::new();
    for entry in fs::read_dir(dir).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            all.extend(files_below(&path));
        } else {
            all.insert(path.clone(), fs::read(&path).unwrap());
        }
    }
    all
}

fn id<K>(text: &str) -> Id<K> {
    text.parse().unwrap()
}

/// The edit that gives an outfit another title.
fn retitle(board: &Board, outfit: &str, title: &str) -> Edit {
    board
        .change_outfit(&id(outfit), format!("call it {title}"), |outfit| outfit.title = title.to_owned())
        .unwrap()
}

/// The edit that gives an outfit other notes.
fn note(board: &Board, outfit: &str, notes: &str) -> Edit {
    board
        .change_outfit(&id(outfit), format!("note {notes}"), |outfit| outfit.notes = notes.to_owned())
        .unwrap()
}

fn title(board: &Board, outfit: &str) -> String {
    board.outfit(&id(outfit)).unwrap().title.clone()
}

fn notes(board: &Board, outfit: &str) -> String {
    board.outfit(&id(outfit)).unwrap().notes.clone()
}

/// The board as the folder has it, once it is sure that nothing in it is wrong.
fn on_disk(bench: &Bench) -> Board {
    let reading = shirr::store::read(&bench.folder()).unwrap();
    assert_eq!(reading.faults, []);
    reading.board
}
