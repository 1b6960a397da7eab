//! What a stop says, before anybody has laid it out.

use super::stops::{asked, title};
use crate::board::{Board, Look, LookId, OutfitId, PeriodId, Piece, Question, Scene, Scope, Standing, Stop};
use crate::check::words::{counted, look_title};
use crate::plot::cautions::{Caution, each_once, in_scene, of_look};
use crate::plot::{self, Changes, Shooting};
use crate::screen::dates::this_day;
use crate::screen::wearable::piece_words;
use crate::trade::date::{Date, Day};

/// A stop as it is shown.
#[derive(Debug, Default)]
pub struct Page {
    /// Its name, in the largest letters that there is room for.
    pub title: String,
    /// Where it stands.
    pub facts: String,
    /// What it is.
    pub main: Vec<Part>,
    /// What is said of it, and what to ask.
    pub side: Vec<Part>,
    /// What can hurt, in short, for where there is no room beside.
    pub cautions: Vec<&'static str>,
}

/// A paragraph of a stop.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// What matters most: said in one line.
    Says(String),
    /// A name over what follows.
    Heading(&'static str),
    /// A paragraph.
    Text(String),
    /// One of several, with its mark.
    Item(String, String),
    /// One of several that waits for somebody.
    Waiting(String, String),
    /// A garment with its colours.
    Piece(Piece, String),
}

/// What is shown at a stop.
pub fn of(board: &Board, stop: &Stop) -> Page {
    let mut page = match stop {
        Stop::Board => whole(board),
        Stop::Period(id) => period(board, id),
        Stop::Look(id) => board.look(id).map(|look| of_a_look(board, id, look)).unwrap_or_default(),
        Stop::Scene(number) => {
            board.relations().scene_at(number).map(|at| scene(board, at)).unwrap_or_default()
        }
    };
    page.title = title(board, stop);
    let minutes = minutes(board, stop);
    page.side.splice(0..0, minutes);
    page
}

/// What meetings have said at a stop; at the board as a whole also of stops that are gone. Open questions come up at
/// their period too.
fn minutes(board: &Board, stop: &Stop) -> Vec<Part> {
    let is_here = |at: &Stop| stop.takes_up(board, at);
    let today = this_day();
    let (mut open, mut decided, mut answered) = (Vec::new(), Vec::new(), Vec::new());
    for (id, meeting) in &board.records().meetings {
        // Who sees to it and by when, the meeting in which it was said, and of which stop that is gone.
        let about = |owner: &str, due: String, at: &Stop| {
            let owed = joined_by(", ", [owner.to_owned(), due]);
            let owed = if owed.is_empty() { owed } else { format!(" — {owed}") };
            let gone = if at.is_on(board) { String::new() } else { format!(" [{at}, gone]") };
            format!("{owed} ({id}){gone}")
        };
        let (waiting, settled): (Vec<_>, Vec<_>) = meeting.questions.iter().partition(|one| one.is_open());
        for one in waiting.into_iter().filter(|one| stop.takes_up_open(board, &one.at)) {
            let (mark, due) = match &one.due {
                Some(due) if is_past_due(one, today) => ("!", format!("past due since {}", due.short())),
                due => ("?", by(due.as_ref())),
            };
            let words = format!("{}{}", asked(board, stop, one), about(&one.owner, due, &one.at));
            open.push(Part::Waiting(mark.to_owned(), words));
        }
        for one in settled.into_iter().filter(|one| is_here(&one.at)) {
            let about = about(&one.owner, by(one.due.as_ref()), &one.at);
            answered.push(Part::Item("?".to_owned(), format!("{} → {}{about}", one.question, one.answer)));
        }
        for one in meeting.decisions.iter().filter(|one| is_here(&one.at)) {
            let about = about(&one.owner, by(one.due.as_ref()), &one.at);
            decided.push(Part::Item("✓".to_owned(), format!("{}{about}", one.decision)));
        }
    }
    let mut parts = Vec::new();
    for (heading, said) in [("Open questions", open), ("Decided", decided), ("Answered", answered)] {
        if !said.is_empty() {
            parts.push(Part::Heading(heading));
            parts.extend(said);
        }
    }
    parts
}

fn by(due: Option<&Date>) -> String {
    due.map(|due| format!("by {}", due.short())).unwrap_or_default()
}

/// Whether a question is still open after the last day by which it was due.
fn is_past_due(question: &Question, today: Day) -> bool {
    let last = question.due.as_ref().and_then(Date::latest);
    question.is_open() && last.is_some_and(|last| last < today)
}

/// How many questions are open at a stop and how many of them past due, in words; nothing where none is.
pub fn open_in_words(board: &Board, stop: &Stop) -> String {
    let here = board.open_questions().map(|(_, _, one)| one).filter(|one| stop.takes_up_open(board, &one.at));
    in_words(here)
}

/// A count of open questions, and how many of them are past due.
fn in_words<'a>(open: impl Iterator<Item = &'a Question>) -> String {
    let today = this_day();
    let (all, past) =
        open.fold((0, 0), |(all, past), one| (all + 1, past + usize::from(is_past_due(one, today))));
    let late = if past == 0 { String::new() } else { format!("{past} past due") };
    let all = match all {
        0 => String::new(),
        1 => "1 open question".to_owned(),
        all => format!("{all} open questions"),
    };
    joined_by(", ", [all, late])
}

fn whole(board: &Board) -> Page {
    let head = board.head();
    let facts = [
        head.runtime.map(|minutes| format!("{minutes} minutes")),
        Some(counted(board.scenes().len(), "scene")),
        Some(counted(board.records().outfits.len(), "outfit")),
        Some(format!("{} looks", board.count(&Scope::Overall).numbers())),
    ];
    let mut main = Vec::new();
    if !head.notes.is_empty() {
        main.push(Part::Text(head.notes.clone()));
    }
    main.push(Part::Heading("Periods"));
    for period in &head.periods {
        let count = board.count(&Scope::Period(period.id.clone()));
        let text = format!(
            "{}, {}: {} looks, {}",
            period.title,
            period.span.short(),
            count.numbers(),
            count.words()
        );
        let mark = if count.over() > 0 { "!" } else { "·" };
        main.push(Part::Item(mark.to_owned(), text));
    }
    let asked = in_words(board.open_questions().map(|(_, _, one)| one));
    let side = if asked.is_empty() { Vec::new() } else { vec![Part::Heading("In all"), Part::Text(asked)] };
    Page { facts: joined(facts), main, side, ..Page::default() }
}

fn period(board: &Board, id: &PeriodId) -> Page {
    let Some(period) = board.period(id) else { return Page::default() };
    let relations = board.relations();
    let scenes =
        (0..board.records().scenes.len()).filter(|at| relations.period_of_scene(*at) == Some(id)).count();
    let outfits = board
        .records()
        .outfits
        .keys()
        .filter(|outfit| relations.period_of_outfit(outfit) == Some(id))
        .count();
    let count = board.count(&Scope::Period(id.clone()));
    let facts = format!(
        "{} · {} min. · {} · {} → {} looks, {}",
        period.span.short(),
        plot::of_period(board, Some(id)).clock(),
        counted(scenes, "scene"),
        counted(outfits, "outfit"),
        count.numbers(),
        count.words()
    );
    let mut main = Vec::new();
    if !period.says.is_empty() {
        main.push(Part::Says(period.says.clone()));
    }
    for character in &board.head().characters {
        let own = |look: &&LookId| {
            relations.period_of_look(look) == Some(id)
                && board.look(look).is_some_and(|look| look.character == character.id)
        };
        let looks: Vec<&LookId> = relations.looks_by_order().iter().filter(own).collect();
        if looks.is_empty() {
            continue;
        }
        main.push(Part::Text(character.name.clone()));
        for look in looks {
            let mark = board.look(look).map_or("·", |look| look.treatment.mark());
            let shown = relations.scenes_of(look).len();
            let words = format!("{}, {}", look_title(board, look), counted(shown, "scene"));
            main.push(Part::Item(mark.to_owned(), words));
        }
    }
    let in_period = |outfit: &&OutfitId| {
        relations.period_of_outfit(outfit) == Some(id) && board.standing(outfit) == Standing::Open
    };
    let open = relations.outfits_by_date().iter().filter(in_period);
    let open = open.map(|outfit| Part::Waiting("○".to_owned(), board.title_of_outfit(outfit).to_owned()));
    listed(&mut main, "Still open", open);
    let plays = |(at, _): &(usize, _)| relations.period_of_scene(*at) == Some(id);
    let gaps = board.scenes().enumerate().filter(plays).flat_map(|(_, scene)| {
        let gap = scene.wears.iter().filter(|(_, look)| look.is_none());
        gap.map(move |(who, _)| {
            Part::Waiting("!".to_owned(), format!("{} in scene {}", board.name_of(who), scene.number))
        })
    });
    listed(&mut main, "No look yet", gaps);
    if !period.notes.is_empty() {
        main.push(Part::Heading("Notes"));
        main.push(Part::Text(period.notes.clone()));
    }
    Page { facts, main, ..Page::default() }
}

fn of_a_look(board: &Board, id: &LookId, look: &Look) -> Page {
    let relations = board.relations();
    let shooting = Shooting::of(board);
    let facts = [
        Some(board.name_of(&look.character).to_owned()),
        relations.period_of_look(id).map(|period| board.title_of(period).to_owned()),
        Some(look.stage.word().to_owned()),
        Some(format!("{} min.", plot::of_look(board, id).clock())),
        shooting.first_needed(id).map(|day| match &day.date {
            Some(date) => format!("first needed on day {}, {}", day.day, date.short()),
            None => format!("first needed on day {}", day.day),
        }),
    ];
    let mut main = Vec::new();
    if !look.says.is_empty() {
        main.push(Part::Says(look.says.clone()));
    }
    let treatment = match &look.base {
        Some(base) => {
            let worn = board.outfit(base).and_then(|outfit| outfit.worn.as_ref());
            let worn = worn.map(|worn| format!(", {}", worn.short())).unwrap_or_default();
            format!("{} {}{worn}", look.treatment.word(), board.title_of_outfit(base))
        }
        None => format!("{}: no source covers it", look.treatment.word()),
    };
    main.push(Part::Item(look.treatment.mark().to_owned(), treatment));
    if !look.folded.is_empty() {
        let folded: Vec<&str> = look.folded.iter().map(|outfit| board.title_of_outfit(outfit)).collect();
        main.push(Part::Item("•".to_owned(), format!("stands for {} as well", folded.join("; "))));
    }
    let pieces = if look.pieces.is_empty() {
        look.base
            .as_ref()
            .and_then(|base| board.outfit(base))
            .map(|outfit| outfit.pieces.as_slice())
            .unwrap_or_default()
    } else {
        &look.pieces
    };
    listed(&mut main, "Pieces", pieces.iter().map(|piece| Part::Piece(piece.clone(), piece_words(piece))));
    listed(
        &mut main,
        "Departures",
        look.departures.iter().map(|one| Part::Item("≈".to_owned(), one.words())),
    );
    listed(
        &mut main,
        "How it is worn",
        look.dressing.iter().map(|note| Part::Item("·".to_owned(), note.clone())),
    );
    let thread = |id| board.thread(id).map_or_else(|| format!("{id}"), |thread| thread.title.clone());
    listed(&mut main, "Threads", look.threads.iter().map(|id| Part::Item("~".to_owned(), thread(id))));
    let scenes = relations.scenes_of(id).iter().filter_map(|at| board.records().scenes.get(*at));
    listed(&mut main, "Scenes", scenes.map(|scene| Part::Item(scene.number.to_string(), place(scene))));
    if !look.notes.is_empty() {
        main.push(Part::Heading("Notes"));
        main.push(Part::Text(look.notes.clone()));
    }
    asking(Page { facts: joined(facts), main, ..Page::default() }, &of_look(board, id))
}

fn scene(board: &Board, at: usize) -> Page {
    let Some(scene) = board.records().scenes.get(at) else { return Page::default() };
    let facts = [
        board.relations().period_of_scene(at).map(|period| board.title_of(period).to_owned()),
        scene.story_day.map(|day| day.to_string()),
        scene.date.as_ref().map(|date| date.short()),
        Some(format!("{} p.", scene.pages)),
    ];
    let mut main = vec![Part::Says(place(scene))];
    if !scene.action.is_empty() {
        main.push(Part::Text(scene.action.clone()));
    }
    let changes = Changes::of(board);
    listed(
        &mut main,
        "Who wears what",
        scene.wears.iter().map(|(character, look)| {
            let name = board.name_of(character);
            match look {
                None => Part::Waiting("!".to_owned(), format!("{name}: no look yet")),
                Some(look) => {
                    let number = changes.number(at, character).unwrap_or(0);
                    let carried = if changes.is_carried(at, character) { ", carried" } else { "" };
                    let words = format!("{name}: {}, change {number}{carried}", look_title(board, look));
                    Part::Item(board.look(look).map_or("·", |look| look.treatment.mark()).to_owned(), words)
                }
            }
        }),
    );
    let dressing = scene.wears.iter().filter_map(|(_, look)| board.look(look.as_ref()?));
    let dressing = dressing.flat_map(|look| look.dressing.iter().map(move |note| (look, note)));
    listed(
        &mut main,
        "How it is worn",
        dressing.map(|(look, note)| Part::Item("·".to_owned(), format!("{}: {note}", look.title))),
    );
    if !scene.notes.is_empty() {
        main.push(Part::Heading("Notes"));
        main.push(Part::Text(scene.notes.clone()));
    }
    asking(Page { facts: joined(facts), main, ..Page::default() }, &each_once(in_scene(board, scene)))
}

/// Where a scene plays.
fn place(scene: &Scene) -> String {
    if scene.heading.is_empty() { scene.set.clone() } else { scene.heading.clone() }
}

fn listed(parts: &mut Vec<Part>, heading: &'static str, items: impl Iterator<Item = Part>) {
    let before = parts.len();
    parts.push(Part::Heading(heading));
    parts.extend(items);
    if parts.len() == before + 1 {
        parts.pop();
    }
}

fn joined(facts: impl IntoIterator<Item = Option<String>>) -> String {
    joined_by(" · ", facts.into_iter().flatten())
}

/// The words that say something, with a sign between them.
fn joined_by(sign: &str, words: impl IntoIterator<Item = String>) -> String {
    words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(sign)
}

/// The page with what to ask, and of whom.
fn asking(mut page: Page, cautions: &[Caution]) -> Page {
    let ask = |caution: &Caution| {
        let because = match &caution.scene {
            Some(number) => format!("‘{}’ in scene {number}", caution.word),
            None => format!("‘{}’", caution.word),
        };
        Part::Item("!".to_owned(), format!("{} ({because}): {}", caution.hazard.word(), caution.hazard.ask()))
    };
    listed(&mut page.side, "Cautions", cautions.iter().map(ask));
    page.cautions = cautions.iter().map(|caution| caution.hazard.word()).collect();
    page
}
