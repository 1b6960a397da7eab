//! What is shown of an outfit, entry by entry.

use crate::board::{Board, Evidence, Outfit, OutfitId, Recognition, Standing, ThreadId};
use crate::screen::parts::record::Entry;
use crate::screen::wearable::piece_words;

/// An entry of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Spot {
    /// Its title.
    Title,
    /// When it was worn.
    Worn,
    /// For what.
    Occasion,
    /// Its period.
    Period,
    /// Its outline.
    Silhouette,
    /// Whether it is open, folded or let go.
    Standing,
    /// How well an audience knows it.
    Recognition,
    /// One of its pieces.
    Piece(usize),
    /// A place for one more.
    AddPiece,
    /// One of its sources.
    Evidence(usize),
    /// A place for one more.
    AddEvidence,
    /// A thread that it carries.
    Thread(ThreadId),
    /// A place for one more.
    AddThread,
    /// One of its dressing notes.
    Dressing(usize),
    /// A place for one more.
    AddDressing,
    /// Whether it must be a base or must not.
    WishBase,
    /// One that it must not share a look with.
    Apart(OutfitId),
    /// One that it must share a look with.
    Together(OutfitId),
    /// A place for one more wish.
    AddWish,
    /// Its pictures.
    Pictures,
    /// Its tags.
    Tags,
    /// Its notes.
    Notes,
}

/// Everything that is known of an outfit.
pub fn entries(board: &Board, id: &OutfitId) -> Vec<Entry<Spot>> {
    let Some(outfit) = board.outfit(id) else { return Vec::new() };
    let mut entries = vec![
        Entry::new(Spot::Title, "title", &outfit.title),
        Entry::fact("worn by", board.name_of(&outfit.character)),
        Entry::new(Spot::Worn, "worn", worn_words(outfit)).or("undated"),
        Entry::new(Spot::Occasion, "occasion", &outfit.occasion).or("not known"),
        Entry::new(Spot::Period, "period", period_words(board, id, outfit))
            .or("none: the date falls in no period"),
        Entry::new(Spot::Silhouette, "silhouette", &outfit.silhouette).or("not known"),
        standing(board, id),
        Entry::new(Spot::Recognition, "recognition", recognition_words(outfit.recognition)),
    ];
    for (at, piece) in outfit.pieces.iter().enumerate() {
        let label = if at == 0 { "pieces" } else { "" };
        entries.push(Entry::new(Spot::Piece(at), label, piece_words(piece)).coloured(piece));
    }
    entries.push(Entry::add(Spot::AddPiece, if outfit.pieces.is_empty() { "pieces" } else { "" }, "piece"));
    for (at, evidence) in outfit.evidence.iter().enumerate() {
        let label = if at == 0 { "evidence" } else { "" };
        entries.push(Entry::new(Spot::Evidence(at), label, evidence_words(evidence)));
    }
    let label = if outfit.evidence.is_empty() { "evidence" } else { "" };
    entries.push(Entry::add(Spot::AddEvidence, label, "source"));
    for (at, thread) in outfit.threads.iter().enumerate() {
        let label = if at == 0 { "threads" } else { "" };
        let title =
            board.thread(thread).map_or_else(|| format!("{thread} (not there)"), |one| one.title.clone());
        entries.push(Entry::new(Spot::Thread(thread.clone()), label, title));
    }
    entries.push(Entry::add(
        Spot::AddThread,
        if outfit.threads.is_empty() { "threads" } else { "" },
        "thread",
    ));
    for (at, note) in outfit.dressing.iter().enumerate() {
        entries.push(Entry::new(Spot::Dressing(at), if at == 0 { "dressing" } else { "" }, note));
    }
    let label = if outfit.dressing.is_empty() { "dressing" } else { "" };
    entries.push(Entry::add(Spot::AddDressing, label, "dressing note"));
    entries.extend(super::wishes::entries(board, id));
    let pictures: Vec<&str> = outfit.pictures.iter().map(|path| path.as_str()).collect();
    entries.push(Entry::new(Spot::Pictures, "pictures", pictures.join("; ")).or("none"));
    entries.push(Entry::new(Spot::Tags, "tags", outfit.tags.join("; ")).or("none"));
    entries.push(Entry::new(Spot::Notes, "notes", &outfit.notes).or("none"));
    entries
}

fn worn_words(outfit: &Outfit) -> String {
    outfit.worn.as_ref().map_or(String::new(), |date| {
        let (short, stored) = (date.short(), date.to_string());
        if short == stored { short } else { format!("{short}  ({stored})") }
    })
}

fn period_words(board: &Board, id: &OutfitId, outfit: &Outfit) -> String {
    let Some(period) = board.relations().period_of_outfit(id) else { return String::new() };
    let how = if outfit.period.is_some() { "said here, whatever the date" } else { "as the date says" };
    format!("{}, {how}", board.title_of(period))
}

fn standing(board: &Board, id: &OutfitId) -> Entry<Spot> {
    match board.standing(id) {
        Standing::Open => Entry::new(Spot::Standing, "stands", "○ open: in no look yet").waiting(),
        Standing::LetGo(reason) => Entry::new(Spot::Standing, "stands", format!("× let go: {reason}")),
        Standing::Folded(holder) => {
            let words = match board.look(holder) {
                Some(look) => {
                    let how = if look.base.as_ref() == Some(id) { "the base of" } else { "folded into" };
                    format!("{} {how} {}", look.treatment.mark(), look.title)
                }
                None => holder.to_string(),
            };
            Entry::new(Spot::Standing, "stands", words)
        }
    }
}

/// How strongly an audience carries the picture, in words.
pub fn recognition_words(recognition: Recognition) -> String {
    let words = match recognition.get() {
        0 => "nobody has a picture of it",
        1 => "a few have seen it",
        2 => "those who know the life know it",
        3 => "many have seen it",
        4 => "most have seen it",
        _ => "everybody has seen it",
    };
    format!("{} of {}: {words}", recognition.get(), Recognition::MOST)
}

fn evidence_words(evidence: &Evidence) -> String {
    let mut words = evidence.kind.word().to_owned();
    for (before, part) in [
        (": ", &evidence.source),
        (" — credit: ", &evidence.credit),
        (" — rights: ", &evidence.rights),
        (" — ", &evidence.notes),
    ] {
        if !part.is_empty() {
            words.push_str(before);
            words.push_str(part);
        }
    }
    words
}
