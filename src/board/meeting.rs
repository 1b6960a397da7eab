//! Meetings: what was decided and what was asked, and at which stop of the walk.
//!
//! A meeting is named by the day on which it was held, `2026-11-25`; a second one on that day `2026-11-25-2`. What it
//! says stays what was said: a decision about a look that has gone since is still a decision, so that a stop may name
//! what is not on the board any more.

use std::str::FromStr;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::{Board, Change, Edit, LookId, MeetingId, PeriodId, SceneNumber, Swap};
use crate::trade::by_text::by_text;
use crate::trade::date::Date;

/// The minutes of one meeting.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Meeting {
    /// What it was about.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub title: String,
    /// Who was there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub present: Vec<String>,
    /// What was decided, in the order in which it was.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub decisions: Vec<Decision>,
    /// What was asked, in the order in which it was.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub questions: Vec<Question>,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// Something that was decided.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Decision {
    /// What.
    pub decision: String,
    /// At which stop.
    #[serde(default, skip_serializing_if = "Stop::is_board")]
    pub at: Stop,
    /// Who sees to it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub owner: String,
    /// By when.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Date>,
}

/// Something that was asked. It is open until there is an answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Question {
    /// What.
    pub question: String,
    /// At which stop.
    #[serde(default, skip_serializing_if = "Stop::is_board")]
    pub at: Stop,
    /// Who finds out.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub owner: String,
    /// By when.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Date>,
    /// What came of it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub answer: String,
}

impl Question {
    /// Whether nobody has answered it yet.
    pub fn is_open(&self) -> bool {
        self.answer.trim().is_empty()
    }
}

/// A stop of the walk.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub enum Stop {
    /// The board as a whole.
    #[default]
    Board,
    /// A period.
    Period(PeriodId),
    /// A look.
    Look(LookId),
    /// A scene.
    Scene(SceneNumber),
}

impl Stop {
    /// Whether it is the board as a whole.
    pub fn is_board(&self) -> bool {
        *self == Self::Board
    }

    /// Whether what was said at `at` comes up at this stop: at the board as a whole also what was said of things that are
    /// gone.
    pub fn takes_up(&self, board: &Board, at: &Self) -> bool {
        at == self || (self.is_board() && !at.is_on(board))
    }

    /// Whether a question asked at `at` comes up at this stop as long as it is open: also at the stop of the walk by
    /// periods in which its scene or its look lies, so that whoever walks by periods passes every open question.
    pub fn takes_up_open(&self, board: &Board, at: &Self) -> bool {
        at == self || *self == at.by_periods(board)
    }

    /// The stop of the walk by periods in which it lies: of a look or a scene its period; the board as a whole, where it
    /// lies in none or is gone.
    pub fn by_periods(&self, board: &Board) -> Self {
        let relations = board.relations();
        let period = match self {
            Self::Board => None,
            Self::Period(id) => Some(id),
            Self::Look(id) => relations.period_of_look(id),
            Self::Scene(number) => relations.scene_at(number).and_then(|at| relations.period_of_scene(at)),
        };
        period.filter(|id| board.period(id).is_some()).cloned().map_or(Self::Board, Self::Period)
    }

    /// Whether what it names is on the board.
    pub fn is_on(&self, board: &Board) -> bool {
        match self {
            Self::Board => true,
            Self::Period(id) => board.period(id).is_some(),
            Self::Look(id) => board.look(id).is_some(),
            Self::Scene(number) => board.scene(number).is_some(),
        }
    }
}

impl std::fmt::Display for Stop {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Board => f.write_str("board"),
            Self::Period(id) => write!(f, "period {id}"),
            Self::Look(id) => write!(f, "look {id}"),
            Self::Scene(number) => write!(f, "scene {number}"),
        }
    }
}

impl FromStr for Stop {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wrong =
            || format!("`{text}` is no stop: expected `period ID`, `look ID`, `scene NUMBER` or `board`");
        match text.trim().split_once(' ') {
            None if text.trim() == "board" => Ok(Self::Board),
            Some(("period", id)) => id.trim().parse().map(Self::Period).map_err(|_| wrong()),
            Some(("look", id)) => id.trim().parse().map(Self::Look).map_err(|_| wrong()),
            Some(("scene", number)) => number.trim().parse().map(Self::Scene).map_err(|_| wrong()),
            _ => Err(wrong()),
        }
    }
}

by_text!(Stop);

impl MeetingId {
    /// The meeting of a day. `None` where the date is not one that a file can be named by, such as `1926~`.
    pub fn on(day: &Date) -> Option<Self> {
        day.to_string().parse().ok()
    }

    /// The day on which it was held, where its name says one.
    pub fn day(&self) -> Option<Date> {
        Date::from_str(self.as_str().get(..10)?).ok()
    }
}

impl Board {
    /// A meeting.
    pub fn meeting(&self, id: &MeetingId) -> Option<&Meeting> {
        self.records().meetings.get(id).map(|meeting| &**meeting)
    }

    /// The edit that changes what a meeting says; a meeting that is not there begins so.
    pub fn minute(&self, id: &MeetingId, label: impl Into<String>, write: impl FnOnce(&mut Meeting)) -> Edit {
        let before = self.records().meetings.get(id);
        let mut meeting = before.map(|meeting| Meeting::clone(meeting)).unwrap_or_default();
        write(&mut meeting);
        let swap = Swap::if_any(before, Some(&Arc::new(meeting)));
        let change = swap.map(|swap| Change::Meeting(id.clone(), swap));
        Edit::new(label, change.into_iter().collect())
    }

    /// Every question that is still open, the oldest meeting first, with its place among those of its meeting.
    pub fn open_questions(&self) -> impl Iterator<Item = (&MeetingId, usize, &Question)> {
        self.records().meetings.iter().flat_map(|(id, meeting)| {
            let questions = meeting.questions.iter().enumerate();
            questions.filter(|(_, one)| one.is_open()).map(move |(at, question)| (id, at, question))
        })
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::sample::{board, id};
    use super::*;

    fn read(tree: Value) -> Result<Meeting, String> {
        serde_json::from_value(tree).map_err(|error| error.to_string())
    }

    fn asked(text: &str) -> Question {
        let at = "look club".parse().unwrap();
        Question { question: text.to_owned(), at, owner: String::new(), due: None, answer: String::new() }
    }

    fn decided(text: &str) -> Decision {
        Decision { decision: text.to_owned(), at: Stop::Board, owner: String::new(), due: None }
    }

    #[test]
    fn minutes_read_as_they_are_written() {
        let tree = json!({
            "present": ["Designer", "Stunts"],
            "decisions": [{"decision": "black stays", "at": "look club", "owner": "Designer"}],
            "questions": [{"question": "who swims?", "at": "scene 3A", "due": "2026-12-01"}],
        });
        let meeting = read(tree.clone()).unwrap();
        assert_eq!(meeting.decisions[0].at, Stop::Look(id("club")));
        assert_eq!(serde_json::to_value(&meeting).unwrap(), tree);
        let wrong = read(json!({"questions": [{"question": "?", "at": "shop 3"}]})).unwrap_err();
        assert!(wrong.contains("`shop 3` is no stop: expected `period ID`"), "{wrong}");
    }

    #[test]
    fn a_stop_prints_as_it_parses() {
        for text in ["board", "period war", "look club", "scene 3A"] {
            assert_eq!(text.parse::<Stop>().unwrap().to_string(), text);
        }
        assert!("scene".parse::<Stop>().is_err() && "look Gown!".parse::<Stop>().is_err());
    }

    #[test]
    fn a_meeting_begins_with_the_first_word_said_and_goes_with_undo() {
        let mut there = board();
        let today = MeetingId::on(&"2026-11-25".parse().unwrap()).unwrap();
        let edit = there.minute(&today, "asked", |meeting| meeting.questions.push(asked("who swims?")));
        let back = there.apply(&edit).unwrap();
        let open: Vec<_> =
            there.open_questions().map(|(of, at, one)| (of.day(), at, &*one.question)).collect();
        assert_eq!(open, [(Some("2026-11-25".parse().unwrap()), 0, "who swims?")]);
        let answered =
            there.minute(&today, "answered", |meeting| meeting.questions[0].answer = "a double".to_owned());
        there.apply(&answered).unwrap();
        assert_eq!(there.open_questions().count(), 0);
        there.apply(&answered.inverse()).unwrap();
        there.apply(&back).unwrap();
        assert_eq!(there.records(), board().records());
        assert_eq!(MeetingId::on(&"1926~".parse().unwrap()), None);
    }

    #[test]
    fn two_hands_write_the_same_minutes() {
        let today = id("2026-11-25");
        let base = board();
        let mut there = base.clone();
        let first = base.minute(&today, "", |meeting| meeting.decisions.push(decided("black stays")));
        there.apply(&first).unwrap();
        let ours = there.minute(&today, "", |meeting| meeting.questions.push(asked("who swims?")));
        let theirs = there.minute(&today, "", |meeting| meeting.decisions.push(decided("cap is green")));
        there.apply(&theirs).unwrap();
        there.apply(&ours).unwrap();
        let meeting = there.meeting(&today).unwrap();
        assert_eq!((meeting.decisions.len(), meeting.questions.len()), (2, 1));
    }

    #[test]
    fn an_open_question_of_a_scene_or_a_look_comes_up_at_its_period_too() {
        let board = board();
        let stop = |text: &str| text.parse::<Stop>().unwrap();
        for (at, period) in
            [("scene 2", "period races"), ("look club", "period races"), ("scene 4", "period war")]
        {
            let at = stop(at);
            assert_eq!(at.by_periods(&board), stop(period), "{at}");
            assert!(stop(period).takes_up_open(&board, &at) && at.takes_up_open(&board, &at), "{at}");
            assert!(!stop("period shore").takes_up_open(&board, &at), "{at}");
            assert!(!Stop::Board.takes_up_open(&board, &at), "{at}");
            // What was decided there is said there alone.
            assert!(!stop(period).takes_up(&board, &at), "{at}");
        }
        // What is in no period, or gone, comes up where the walk begins.
        let mut records = Board::records(&board).clone();
        Arc::make_mut(&mut records.scenes[0]).date = Some("1890".parse().unwrap());
        let outside = Board::new(records);
        let first = Stop::Scene(outside.scenes().next().unwrap().number.clone());
        for at in [first, stop("scene 99"), stop("look gone"), stop("period gone")] {
            assert!(Stop::Board.takes_up_open(&outside, &at), "{at}");
        }
    }

    #[test]
    fn what_was_said_of_a_look_that_has_gone_stands() {
        let mut there = board();
        let today = id("2026-11-25");
        let gone = asked("is it black?");
        there.apply(&there.minute(&today, "", |meeting| meeting.questions.push(gone))).unwrap();
        assert!(there.open_questions().all(|(_, _, one)| one.at.is_on(&there)));
        there.apply(&there.dissolve(&id("club")).unwrap()).unwrap();
        assert_eq!(there.open_questions().filter(|(_, _, one)| !one.at.is_on(&there)).count(), 1);
    }
}
