//! A script, brought onto a board and compared with one.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a panic here is a failed claim")]

mod applying;
mod comparing;
mod demo;
mod refused;

use shirr::board::{Board, Records, Scene};
use shirr::bring::script::{Comparison, Draft, Part, Script, edit};

use serde_json::{Value, json};

/// The first draft of an invented short film: six scenes, three people.
const FIRST: &str = "\
Title: The Lamp
Author: nobody

FADE IN:

EXT. LIGHTHOUSE ROCK - DAWN #1#

ADA climbs the ladder with a can of paraffin on her back. Gulls scatter from the gallery.

INT. LAMP ROOM - DAY #2#

ADA trims the wick. BEN watches from the stairs, a letter in his hand.

BEN
They want the light turned off.

ADA
(not turning round)
Then they can come and blow it out.

INT. KITCHEN - NIGHT #3#

BEN burns the letter in the stove. Its seal runs over the iron.

EXT. JETTY - DAY #4#

A launch ties up. ADA takes the rope from an INSPECTOR who cannot tie it himself.

INSPECTOR
Miss, I have an order here.

ADA
You have wet feet.

INT. LAMP ROOM - NIGHT #5#

The lens turns. ADA counts the seconds between two flashes, and her lips move with the numbers.

EXT. LIGHTHOUSE ROCK - DAY #6#

BEN rows away with the brass clock on his knees. Nobody waves to him.
";

/// A board with Ada and Ben, two looks, and these scenes and shooting days.
fn board(scenes: Value, schedule: Value) -> Board {
    let look = |title: &str, who: &str| json!({"title": title, "character": who, "treatment": "invent"});
    let looks = json!({
        "oilskin": look("Oilskin", "ada"), "apron": look("Apron", "ada"), "jersey": look("Jersey, darned", "ben"),
    });
    let head = json!({
        "shirr": 1, "id": "lamp", "title": "The Lamp",
        "characters": [{"id": "ada", "name": "Ada Sund"}, {"id": "ben", "name": "Ben"}],
    });
    let read = |tree: &Value| serde_json::from_value(tree.clone()).unwrap();
    Board::new(Records {
        looks: looks
            .as_object()
            .unwrap()
            .iter()
            .map(|(id, look)| {
                (id.parse().unwrap(), std::sync::Arc::new(serde_json::from_value(look.clone()).unwrap()))
            })
            .collect(),
        scenes: scenes.as_array().unwrap().iter().map(read).collect(),
        schedule: std::sync::Arc::new(serde_json::from_value(schedule).unwrap()),
        ..Records::of(std::sync::Arc::new(serde_json::from_value(head).unwrap()))
    })
}

/// The first draft on a board, with looks, notes, story days and a schedule that hands have written since.
fn dressed() -> Board {
    let mut board = board(json!([]), json!([]));
    let (_, edit) = bring(&board, FIRST);
    board.apply(&edit).unwrap();
    let wears = |board: &mut Board, scene: &str, who: &str, look: &str| {
        let (who, look) = (who.parse().unwrap(), look.parse().unwrap());
        let edit = board.assign(&scene.parse().unwrap(), &who, Some(&look)).unwrap();
        board.apply(&edit).unwrap();
    };
    for (scene, who, look) in [
        ("1", "ada", "oilskin"),
        ("2", "ada", "apron"),
        ("2", "ben", "jersey"),
        ("3", "ben", "jersey"),
        ("4", "ada", "oilskin"),
        ("5", "ada", "apron"),
        ("6", "ben", "jersey"),
    ] {
        wears(&mut board, scene, who, look);
    }
    for number in ["1", "2", "3", "4", "5", "6"] {
        let noted = |scene: &mut Scene| {
            scene.notes = format!("note of {number}");
            scene.action = format!("summary of {number}: {}", scene.action);
            scene.story_day = Some(format!("D{number}").parse().unwrap());
            scene.date = Some("1911-05".parse().unwrap());
        };
        let edit = board.change_scene(&number.parse().unwrap(), "", noted).unwrap();
        board.apply(&edit).unwrap();
    }
    let mut records = board.records().clone();
    let days = json!([{"day": 1, "scenes": [1, 6, 4]}, {"day": 2, "scenes": [2, 5, 3]}]);
    records.schedule = std::sync::Arc::new(serde_json::from_value(days).unwrap());
    Board::new(records)
}

/// A board with a meeting at which one thing was decided of each of these scenes: `of 3` of scene 3.
fn decided(board: &Board, of: &[&str]) -> Board {
    let decision =
        |number: &&str| json!({"decision": format!("of {number}"), "at": format!("scene {number}")});
    let meeting = json!({"decisions": of.iter().map(decision).collect::<Vec<_>>()});
    let mut records = board.records().clone();
    let meeting = std::sync::Arc::new(serde_json::from_value(meeting).unwrap());
    records.meetings.insert("1911-06-01".parse().unwrap(), meeting);
    Board::new(records)
}

/// What was decided, and where it stands.
fn decisions(board: &Board) -> Vec<(String, String)> {
    let meetings = board.records().meetings.values();
    let all = meetings.flat_map(|meeting| &meeting.decisions);
    all.map(|one| (one.decision.clone(), one.at.to_string())).collect()
}

fn read(text: &str, board: &Board) -> Draft {
    Draft::of_script(&Script::read(text.as_bytes()).unwrap(), board.head()).unwrap()
}

fn bring(board: &Board, text: &str) -> (Comparison, shirr::board::Edit) {
    edit(board, &read(text, board), None).unwrap()
}

fn bring_part(board: &Board, text: &str, part: &str) -> (Comparison, shirr::board::Edit) {
    let part: Part = part.parse().unwrap();
    edit(board, &read(text, board), Some(&part)).unwrap()
}

/// What has changed, in words.
fn told(board: &Board, comparison: &Comparison) -> Vec<String> {
    let number = |number: &Option<shirr::board::SceneNumber>| {
        number.as_ref().map_or_else(|| "?".to_owned(), ToString::to_string)
    };
    comparison
        .changes
        .iter()
        .map(|change| {
            format!("{} {}: {}", number(&change.scene), change.what.word(), change.what.words(board))
        })
        .collect()
}

/// The numbers of a board's scenes, in order.
fn numbers(board: &Board) -> Vec<String> {
    board.scenes().map(|scene| scene.number.to_string()).collect()
}

/// The first draft with these replacements, each of which must hit once.
fn rewritten(changes: &[(&str, &str)]) -> String {
    let mut text = FIRST.to_owned();
    for (from, to) in changes {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text = text.replace(from, to);
    }
    text
}

/// The scene of the first draft from one heading to the next, as it stands.
fn scene(number: &str) -> String {
    let tag = format!("#{number}#");
    let start = FIRST[..FIRST.find(&tag).unwrap()].rfind('\n').unwrap() + 1;
    let rest = &FIRST[start..];
    let end = ["\nINT.", "\nEXT."].iter().filter_map(|next| rest[1..].find(next)).min();
    rest[..end.map_or(rest.len(), |end| end + 2)].to_owned()
}
