//! The minutes: what was decided and asked in all meetings, the last meeting first, and which questions are still open.

use super::cautions::{self, Raised, in_scene, with_look};
use super::document::{Cell, Column, Document, Kind, Table};
use super::figure::{Figure, Figures};
use super::plain::Plain;
use crate::album::Album;
use crate::board::{Board, MeetingId, Question, Stop};
use crate::check::words::{counted, look_title};
use crate::trade::date::Date;

/// The longest side of a picture beside a line of the minutes, in pixels.
const LONGEST: u32 = 240;

pub(super) fn document(board: &Board, album: Option<&Album>) -> Document {
    let mut figures = Figures::of(board, album).within(LONGEST);
    let columns = |what: &str, heading: &str| {
        vec![
            Column::new("meeting", "Meeting", Kind::Text),
            Column::new("at", "At", Kind::Text),
            Column::new(what, heading, Kind::Text),
            Column::new("owner", "Owner", Kind::Text),
            Column::new("due", "Due", Kind::Date),
            Column::new("cautions", "Cautions", Kind::List),
        ]
    };
    let said = |id: &MeetingId, at: &Stop, text: &str, owner: &str, due: Option<&Date>| {
        vec![
            Cell::text(id.as_str()),
            Cell::text(&stop(board, at)),
            Cell::text(text),
            Cell::text(owner),
            Cell::date(due),
            cautions::cell(board, &at_stop(board, at)),
        ]
    };
    let asked =
        |id: &MeetingId, one: &Question| said(id, &one.at, &one.question, &one.owner, one.due.as_ref());
    let mut open = Table::titled("open", "Questions that are still open", columns("question", "Question"));
    for (id, _, question) in board.open_questions() {
        open.push(asked(id, question));
        open.show_beside(figure(&mut figures, board, &question.at));
    }
    let mut decided = Table::titled("decisions", "Decisions", columns("decision", "Decision"));
    let mut answered_columns = columns("question", "Question");
    answered_columns.push(Column::new("answer", "Answer", Kind::Text));
    let mut answered = Table::titled("answered", "Questions that are answered", answered_columns);
    for (id, meeting) in board.records().meetings.iter().rev() {
        for one in &meeting.decisions {
            decided.push(said(id, &one.at, &one.decision, &one.owner, one.due.as_ref()));
            decided.show_beside(figure(&mut figures, board, &one.at));
        }
        for question in meeting.questions.iter().filter(|question| !question.is_open()) {
            let mut row = asked(id, question);
            row.push(Cell::text(&question.answer));
            answered.push(row);
            answered.show_beside(figure(&mut figures, board, &question.at));
        }
    }
    let meetings = &board.records().meetings;
    let spoken_of = meetings.values().flat_map(|meeting| {
        let decided = meeting.decisions.iter().map(|one| &one.at);
        decided.chain(meeting.questions.iter().map(|one| &one.at))
    });
    let raised: Vec<Raised> = spoken_of.flat_map(|at| at_stop(board, at)).collect();
    let size = format!(
        "{}, {}, {} still open",
        counted(meetings.len(), "meeting"),
        counted(decided.rows().len(), "decision"),
        counted(open.rows().len(), "question"),
    );
    let tables = if meetings.is_empty() { Vec::new() } else { vec![held(board), decided, open, answered] };
    Document {
        key: "meeting",
        title: Plain::line(&format!("{}: minutes", board.head().title)),
        subtitle: Plain::line(&size),
        tables,
        gaps: figures.gaps(),
        cautions: cautions::asks(&raised),
        ..Document::default()
    }
}

/// The look that something was said of, to be seen.
fn figure(figures: &mut Figures<'_>, board: &Board, at: &Stop) -> Option<Figure> {
    match at {
        Stop::Look(id) => figures.of_look(board.look(id)?),
        Stop::Board | Stop::Period(_) | Stop::Scene(_) => None,
    }
}

/// What can hurt in the scene, or in the look and its scenes, that something was said of.
fn at_stop(board: &Board, stop: &Stop) -> Vec<Raised> {
    match stop {
        Stop::Board | Stop::Period(_) => Vec::new(),
        Stop::Look(id) => with_look(board, id),
        Stop::Scene(number) => board.scene(number).map(|scene| in_scene(board, scene)).unwrap_or_default(),
    }
}

fn held(board: &Board) -> Table {
    let mut table = Table::titled(
        "meetings",
        "The meetings",
        vec![
            Column::new("meeting", "Meeting", Kind::Text),
            Column::new("title", "About", Kind::Text),
            Column::new("present", "Present", Kind::List),
            Column::new("decisions", "Decisions", Kind::Number),
            Column::new("questions", "Questions", Kind::Number),
            Column::new("notes", "Notes", Kind::Text),
        ],
    );
    let number = |count: usize| Cell::Number(u32::try_from(count).unwrap_or(u32::MAX));
    for (id, meeting) in board.records().meetings.iter().rev() {
        table.push(vec![
            Cell::text(id.as_str()),
            Cell::text(&meeting.title),
            Cell::list(&meeting.present),
            number(meeting.decisions.len()),
            number(meeting.questions.len()),
            Cell::text(&meeting.notes),
        ]);
    }
    table
}

/// A stop in the board's own words; what is not on the board any more by its name there.
fn stop(board: &Board, stop: &Stop) -> String {
    if !stop.is_on(board) {
        return format!("{stop} (no longer on the board)");
    }
    match stop {
        Stop::Board => "the whole board".to_owned(),
        Stop::Period(id) => format!("period {}", board.title_of(id)),
        Stop::Look(id) => format!("look {}", look_title(board, id)),
        Stop::Scene(number) => format!("scene {number}"),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;
    use crate::report::formats::{Markdown, Text};

    #[test]
    fn the_minutes_say_what_was_decided_what_is_open_and_what_was_answered() {
        let board = sample::board(json!({
            "looks": {"smock": {"title": "Quay smock", "treatment": "invent"}},
            "scenes": [{"scene": 1}],
            "meetings": {
                "2026-11-20": {
                    "present": ["Director", "Designer"],
                    "questions": [
                        {"question": "Who swims?", "at": "scene 1", "owner": "Stunts", "due": "2026-12-01"},
                        {"question": "Which green?", "answer": "the old one"},
                    ],
                },
                "2026-11-25": {"decisions": [
                    {"decision": "Black stays black.", "at": "look smock", "owner": "Designer"},
                    {"decision": "The hat goes.", "at": "look hat"},
                ]},
            },
        }));
        insta::assert_snapshot!(Markdown.write(&document(&board, None)));
    }

    #[test]
    fn before_the_first_meeting_there_are_no_minutes() {
        let document = document(&sample::board(json!({})), None);
        assert!(document.tables.is_empty());
        assert_eq!(document.subtitle.as_str(), "0 meetings, 0 decisions, 0 questions still open");
    }
}
