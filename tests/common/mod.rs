//! Runs the program as a user would: a home of its own, folders of its own, no terminal.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

/// A user's home and a desk to put boards on; gone when it is dropped.
pub struct Desk {
    dir: TempDir,
}

/// What a run of the program printed, and its exit code.
pub struct Run {
    pub out: String,
    pub err: String,
    pub code: i32,
}

/// A small board in order: one outfit, one look, one scene.
pub const BOARD: [(&str, &str); 4] = [
    (
        "board.yaml",
        "shirr: 1\nid: trial\ntitle: Trial\nperiods:\n  - {id: early, title: Early, span: 1911/1924}\n\
         characters:\n  - {id: ada, name: Ada}\n",
    ),
    ("outfits/smock.yaml", "title: Smock\ncharacter: ada\nworn: 1920\n"),
    ("looks/quay.yaml", "title: Quay\ncharacter: ada\ntreatment: copy\nbase: smock\n"),
    ("scenes.yaml", "- scene: 1\n  set: Quay\n  date: 1920\n  pages: 1 3/8\n  wears: {ada: quay}\n"),
];

impl Desk {
    pub fn new() -> Self {
        Self { dir: tempfile::tempdir().unwrap() }
    }

    /// A path on the desk.
    pub fn path(&self, name: &str) -> PathBuf {
        self.dir.path().join("desk").join(name)
    }

    /// Puts [`BOARD`] on the desk, with these files over it.
    pub fn board(&self, name: &str, files: &[(&str, &str)]) -> PathBuf {
        for (file, text) in BOARD.iter().chain(files) {
            let file = self.path(name).join(file);
            fs::create_dir_all(file.parent().unwrap()).unwrap();
            fs::write(file, text).unwrap();
        }
        self.path(name)
    }

    /// The program, about to be run on the desk.
    pub fn command(&self, args: &[&str]) -> Command {
        let desk = self.path("");
        fs::create_dir_all(&desk).unwrap();
        let mut command = Command::new(env!("CARGO_BIN_EXE_shirr"));
        let home = self.dir.path().join("home");
        command
            .args(args)
            .current_dir(desk)
            .env_clear()
            .env("HOME", &home)
            .env("USERPROFILE", &home)
            .env("XDG_DATA_HOME", home.join("data"))
            .env("XDG_STATE_HOME", home.join("state"))
            .env("XDG_CONFIG_HOME", home.join("config"))
            .env("XDG_CACHE_HOME", home.join("cache"))
            .stdin(Stdio::null());
        command
    }

    /// Runs the program on the desk, without a terminal.
    pub fn shirr(&self, args: &[&str]) -> Run {
        Run::of(&self.command(args).output().unwrap())
    }

    /// Where the demo is copied to.
    pub fn demo(&self) -> PathBuf {
        self.dir.path().join("home/data/shirr/demo-board")
    }
}

impl Run {
    fn of(output: &Output) -> Self {
        let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
        Self {
            out: text(&output.stdout),
            err: text(&output.stderr),
            code: output.status.code().expect("it ended by itself"),
        }
    }

    /// The run, once its exit code is this.
    #[track_caller]
    pub fn exits(self, code: i32) -> Self {
        assert_eq!(self.code, code, "\n-- out\n{}\n-- err\n{}", self.out, self.err);
        self
    }

    /// Standard output as JSON.
    #[track_caller]
    pub fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.out).unwrap_or_else(|error| panic!("{error}:\n{}", self.out))
    }
}

/// A folder of this repository.
pub fn in_repository(name: &str) -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name).display().to_string()
}
