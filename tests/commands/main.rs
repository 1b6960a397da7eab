//! The commands, as a user without a terminal meets them.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a panic here is a failed claim")]

#[path = "../common/mod.rs"]
mod common;

mod bringing;
mod checking;
mod damaged;
mod demo;
mod opening;
mod printing;
mod reporting;
mod seeing;
mod starting;
mod suggesting;
mod tabling;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

use common::{Desk, in_repository};

const STARTERS: [&str; 3] = ["blank", "one-life", "several-leads"];
const REPORTS: [&str; 4] = ["scenes", "looks", "plot", "kept"];
const FORMATS: [&str; 3] = ["md", "csv", "json"];

/// The names and levels of the findings that `check --json` lists, notes left out.
fn troubles(document: &Value) -> Vec<[String; 3]> {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let findings = document["findings"].as_array().unwrap();
    let troubles = findings.iter().filter(|finding| finding["level"] != "note");
    troubles
        .map(|finding| [text(&finding["level"]), text(&finding["name"]), text(&finding["about"]["id"])])
        .collect()
}

/// Every file below a folder.
fn files(dir: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut all = BTreeMap::new();
    for entry in fs::read_dir(dir).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            all.extend(files(&path));
        } else {
            all.insert(path.clone(), fs::read(&path).unwrap());
        }
    }
    all
}

/// A copy of the demo on the desk.
fn demo_on(desk: &Desk) -> PathBuf {
    let from = PathBuf::from(in_repository("demo-board"));
    for (path, bytes) in files(&from) {
        let path = desk.path("demo").join(path.strip_prefix(&from).unwrap());
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    desk.path("demo")
}
