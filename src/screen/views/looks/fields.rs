//! What is shown of a look, field by field, and what each field is for the keys that act on it.

use crate::board::{Board, Look, LookId, OutfitId, SceneNumber, ThreadId, Treatment};
use crate::plot;
use crate::screen::deeds::outfit_words;
use crate::screen::parts::record::Entry;
use crate::screen::wearable::piece_words;

/// A field of a look.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Spot {
    /// Its title.
    Title,
    /// What it says.
    Says,
    /// How it stands to its source.
    Treatment,
    /// Its base.
    Base,
    /// Another outfit that it stands for.
    Folded(OutfitId),
    /// A place for one more.
    Fold,
    /// Its period.
    Period,
    /// How far the work is.
    Stage,
    /// One of its departures.
    Departure(usize),
    /// A place for one more.
    AddDeparture,
    /// One of its pieces.
    Piece(usize),
    /// A place for one more.
    AddPiece,
    /// A thread that it keeps.
    Thread(ThreadId),
    /// A place for one more.
    AddThread,
    /// One of its dressing notes.
    Dressing(usize),
    /// A place for one more.
    AddDressing,
    /// Its notes.
    Notes,
    /// A scene in which it is worn.
    Scene(SceneNumber),
    /// A place for one more.
    AddScene,
}

/// Everything that is shown of a look.
pub fn entries(board: &Board, id: &LookId) -> Vec<Entry<Spot>> {
    let Some(look) = board.look(id) else { return Vec::new() };
    let mut entries = vec![
        Entry::new(Spot::Title, "title", &look.title),
        Entry::fact("worn by", worn_by(board, look)),
        Entry::new(Spot::Says, "says", &look.says)
            .or("nothing yet: what does it tell at its point of the story?"),
        Entry::new(Spot::Treatment, "treatment", treatment_words(look.treatment)),
    ];
    sources(board, look, &mut entries);
    entries.push(Entry::new(Spot::Period, "period", period_words(board, id, look)).or("none yet"));
    entries.push(Entry::new(Spot::Stage, "stage", look.stage.word()));
    let mut label = Once("departures");
    for (at, departure) in look.departures.iter().enumerate() {
        entries.push(Entry::new(Spot::Departure(at), label.take(), departure.words()));
    }
    entries.push(Entry::add(Spot::AddDeparture, label.take(), "departure"));
    let mut label = Once("pieces");
    for (at, piece) in look.pieces.iter().enumerate() {
        entries.push(Entry::new(Spot::Piece(at), label.take(), piece_words(piece)).coloured(piece));
    }
    entries.push(Entry::add(Spot::AddPiece, label.take(), "piece"));
    let mut label = Once("threads");
    for thread in &look.threads {
        let title =
            board.thread(thread).map_or_else(|| format!("{thread} (not there)"), |one| one.title.clone());
        entries.push(Entry::new(Spot::Thread(thread.clone()), label.take(), title));
    }
    entries.push(Entry::add(Spot::AddThread, label.take(), "thread"));
    let mut label = Once("dressing");
    for (at, note) in look.dressing.iter().enumerate() {
        entries.push(Entry::new(Spot::Dressing(at), label.take(), note));
    }
    entries.push(Entry::add(Spot::AddDressing, label.take(), "dressing note"));
    entries.push(Entry::new(Spot::Notes, "notes", &look.notes).or("none"));
    scenes(board, id, &mut entries);
    entries
}

fn sources(board: &Board, look: &Look, entries: &mut Vec<Entry<Spot>>) {
    if let Some(base) = &look.base {
        entries.push(Entry::new(Spot::Base, "base", source_words(board, base)));
    } else {
        entries.push(Entry::new(Spot::Base, "base", "").or("none: it is invented"));
        return;
    }
    let mut label = Once("folded");
    for outfit in &look.folded {
        entries.push(Entry::new(Spot::Folded(outfit.clone()), label.take(), source_words(board, outfit)));
    }
    entries.push(Entry::add(Spot::Fold, label.take(), "fold an outfit"));
}

fn scenes(board: &Board, id: &LookId, entries: &mut Vec<Entry<Spot>>) {
    let places = board.relations().scenes_of(id);
    if places.is_empty() {
        entries.push(Entry::fact("on screen", "in no scene yet").waiting());
    } else {
        let scenes = if places.len() == 1 { "scene" } else { "scenes" };
        let words = format!("{} in {} {scenes}", plot::of_look(board, id).clock(), places.len());
        entries.push(Entry::fact("on screen", words));
    }
    let mut label = Once("scenes");
    for at in places {
        let scene = &board.records().scenes[*at];
        let mut words = vec![format!("{}  {}", scene.number, scene.set)];
        words.extend(scene.story_day.map(|day| day.to_string()));
        words.push(format!("{} p.", scene.pages));
        entries.push(Entry::new(Spot::Scene(scene.number.clone()), label.take(), words.join(" · ")));
    }
    entries.push(Entry::add(Spot::AddScene, label.take(), "put it into a scene"));
}

/// A label that stands at the first of several entries only.
struct Once(&'static str);

impl Once {
    fn take(&mut self) -> &'static str {
        std::mem::take(&mut self.0)
    }
}

fn worn_by(board: &Board, look: &Look) -> String {
    let performer = board.character(&look.character).map_or("", |character| &character.performer);
    let name = board.name_of(&look.character);
    if performer.is_empty() { name.to_owned() } else { format!("{name} ({performer})") }
}

fn treatment_words(treatment: Treatment) -> String {
    let rest = match treatment {
        Treatment::Copy => "copies its base",
        Treatment::Interpret => "interprets its base",
        Treatment::Invent => "invented: no source covers it",
    };
    format!("{} {rest}", treatment.mark())
}

/// An outfit as a source: title, date, and how we know.
fn source_words(board: &Board, id: &OutfitId) -> String {
    let words = outfit_words(board, id);
    let Some(outfit) = board.outfit(id) else { return words };
    match outfit.evidence.as_slice() {
        [] => format!("{words} · no evidence"),
        [one] => format!("{words} · {}", one.kind.word()),
        [first, rest @ ..] => format!("{words} · {} and {} more", first.kind.word(), rest.len()),
    }
}

fn period_words(board: &Board, id: &LookId, look: &Look) -> String {
    let Some(period) = board.relations().period_of_look(id) else { return String::new() };
    let title = board.title_of(period);
    let of_base = || board.relations().period_of_outfit(look.base.as_ref()?);
    if look.period.is_some() {
        format!("{title}, said here")
    } else if of_base().is_some() {
        format!("{title}, as its base")
    } else {
        format!("{title}, as its first scene")
    }
}
