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
mod starting;
mod suggesting;

use serde_json::Value;

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
