//! Writing the minutes, without leaving the stop.

use super::stops::asked;
use crate::board::{Board, Decision, Edit, Meeting, MeetingId, Question};
use crate::screen::app::App;
use crate::screen::dates::{due_of, due_says, today};
use crate::screen::layers::form::Filled;
use crate::screen::layers::{Field, Form, Item, Pick};
use crate::trade::date::Date;

/// What is filled in about anything that is recorded.
struct Recorded {
    text: String,
    owner: String,
    due: Option<Date>,
}

impl Recorded {
    fn of(filled: &[Filled], what: &str) -> Result<Self, String> {
        let text = |at: usize| filled.get(at).map_or("", Filled::text).to_owned();
        if text(0).is_empty() {
            return Err(format!("say what is {what}, or leave it with esc"));
        }
        Ok(Self { text: text(0), owner: text(1), due: due_of(&text(2))? })
    }
}

/// Records a decision at this stop.
pub fn decide(app: &mut App) {
    let at = app.walk.at(app.open.board());
    let form = Form::new("Decided", fields("decision"), move |app, filled| {
        let Recorded { text, owner, due } = Recorded::of(filled, "decided")?;
        let decision = Decision { decision: text, at: at.clone(), owner, due };
        write(app, format!("decided: {}", decision.decision), |meeting| meeting.decisions.push(decision));
        Ok(())
    });
    app.open_layer(form.lead(owners(app.board())).low());
}

/// Records a question at this stop.
pub fn ask(app: &mut App) {
    let at = app.walk.at(app.open.board());
    let form = Form::new("Asked", fields("question"), move |app, filled| {
        let Recorded { text, owner, due } = Recorded::of(filled, "asked")?;
        let question = Question { question: text, at: at.clone(), owner, due, answer: String::new() };
        write(app, format!("asked: {}", question.question), |meeting| meeting.questions.push(question));
        Ok(())
    });
    app.open_layer(form.lead(owners(app.board())).low());
}

/// Answers an open question that comes up at this stop; asks which, where there are several.
pub fn answer(app: &mut App) {
    let board = app.board();
    let stop = app.walk.at(app.open.board());
    let here = board.open_questions().filter(|(_, _, one)| stop.takes_up_open(board, &one.at));
    let here: Vec<(MeetingId, Question)> = here.map(|(id, _, one)| (id.clone(), one.clone())).collect();
    match here.as_slice() {
        [] => app.say("no question is open at this stop"),
        [(id, one)] => write_answer(app, asked(board, &stop, one), id.clone(), one.clone()),
        several => {
            let words: Vec<String> = several.iter().map(|(_, one)| asked(board, &stop, one)).collect();
            let items = words.iter().zip(several).map(|(words, (id, _))| Item::new(words, id.to_string()));
            app.open_layer(Pick::new("Answer which?", items.collect(), move |app, at| {
                if let (Some((id, one)), Some(words)) = (here.get(at), words.get(at)) {
                    write_answer(app, words.clone(), id.clone(), one.clone());
                }
            }));
        }
    }
}

/// Asks for the answer to a question that is put in these words.
fn write_answer(app: &mut App, words: String, id: MeetingId, asked: Question) {
    let lead = vec![words];
    let form = Form::new("Answered", vec![Field::line("answer", "")], move |app, filled| {
        let answer = filled.first().map_or("", Filled::text).to_owned();
        if answer.is_empty() {
            return Err("say what the answer is, or leave it with esc".to_owned());
        }
        let label = format!("answered: {answer}");
        let edit = app.board().minute(&id, label, |meeting| {
            // Found again by what it said: another hand may have added questions meanwhile.
            if let Some(one) = meeting.questions.iter_mut().find(|one| **one == asked) {
                one.answer = answer;
            }
        });
        app.change(Ok(edit));
        Ok(())
    });
    app.open_layer(form.lead(lead).low());
}

/// Says who is at today's meeting, and what it is about.
pub fn present(app: &mut App) {
    let Some(id) = MeetingId::on(&today()) else { return };
    let meeting = app.board().meeting(&id).cloned().unwrap_or_default();
    let fields = vec![
        Field::line("about", meeting.title),
        Field::line("present", meeting.present.join("; ")),
        Field::line("notes", meeting.notes),
    ];
    let form = Form::new(format!("The meeting of {id}"), fields, move |app, filled| {
        let text = |at: usize| filled.get(at).map_or("", Filled::text).to_owned();
        let present = crate::screen::wearable::list_of(&text(1));
        write(app, "the meeting of today".to_owned(), |meeting| {
            (meeting.title, meeting.present, meeting.notes) = (text(0), present, text(2));
        });
        Ok(())
    });
    app.open_layer(form.lead(vec!["Names with ; between them".to_owned()]).low());
}

fn fields(what: &'static str) -> Vec<Field> {
    vec![Field::line(what, ""), Field::line("owner", ""), Field::line("due", "").read_as(due_says)]
}

/// Who owns anything so far, to be spelt alike.
fn owners(board: &Board) -> Vec<String> {
    let of = |meeting: &Meeting| {
        let decided = meeting.decisions.iter().map(|one| one.owner.clone());
        decided.chain(meeting.questions.iter().map(|one| one.owner.clone())).collect::<Vec<_>>()
    };
    let mut owners: Vec<String> = board.records().meetings.values().flat_map(|meeting| of(meeting)).collect();
    owners.sort();
    owners.dedup();
    owners.retain(|owner| !owner.is_empty());
    if owners.is_empty() { Vec::new() } else { vec![format!("Owners so far: {}", owners.join(", "))] }
}

/// Writes into the minutes of today.
fn write(app: &mut App, label: String, say: impl FnOnce(&mut Meeting)) {
    let Some(id) = MeetingId::on(&today()) else { return };
    let edit: Edit = app.board().minute(&id, label, say);
    app.change(Ok(edit));
}
