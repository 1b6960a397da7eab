//! What is to be seen of a record, with its words: pictures as evidence, flats as drawn, a fitting as it was taken.

use super::gallery::Subject;
use super::views::Target;
use crate::board::{Board, Look, LookId, Outfit, OutfitId, PicturePath, SceneNumber, Stop};
use crate::picture::flat::DRAWN;

/// One picture with what stands below it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plate {
    /// What is seen.
    pub subject: Subject,
    /// What it is.
    pub words: String,
}

impl Plate {
    fn of_file(path: &PicturePath, words: impl Into<String>) -> Self {
        Self { subject: Subject::File(path.clone()), words: words.into() }
    }

    fn of_flat(subject: Subject, words: impl Into<String>) -> Self {
        Self { subject, words: words.into() }
    }

    /// What is drawn says so wherever it stands.
    pub fn drawn(&self) -> &'static str {
        if self.subject.is_drawn() { DRAWN } else { "" }
    }

    /// The first that is seen of an outfit.
    fn first_of(outfit: &Outfit, words: &str) -> Self {
        Self { subject: Subject::of_outfit(outfit), words: words.to_owned() }
    }
}

/// All that is to be seen of what is in focus.
pub fn of(board: &Board, target: &Target) -> Vec<Plate> {
    match target {
        Target::Outfit(id) => of_outfit(board, id),
        Target::Look(id) => of_look(board, id),
        Target::Scene(number) => of_stop(board, &Stop::Scene(number.clone())),
        Target::Period(id) => of_stop(board, &Stop::Period(id.clone())),
        Target::Thread(_) => Vec::new(),
    }
}

/// An outfit's pictures, then its flat.
pub fn of_outfit(board: &Board, id: &OutfitId) -> Vec<Plate> {
    let Some(outfit) = board.outfit(id) else { return Vec::new() };
    let mut plates = files(outfit, &outfit.title);
    plates.push(Plate::of_flat(Subject::flat_of(outfit), &outfit.title));
    plates
}

fn files(outfit: &Outfit, words: &str) -> Vec<Plate> {
    let count = outfit.pictures.len();
    let words = |at: usize| if count == 1 { words.to_owned() } else { format!("{words}, {at} of {count}") };
    (1..).zip(&outfit.pictures).map(|(at, path)| Plate::of_file(path, words(at))).collect()
}

/// A look beside what it is made after, its newest fitting, and what else it stands for.
pub fn of_look(board: &Board, id: &LookId) -> Vec<Plate> {
    let Some(look) = board.look(id) else { return Vec::new() };
    let base = look.base.as_ref().and_then(|base| board.outfit(base));
    let mut plates = Vec::new();
    if !look.pieces.is_empty() || base.is_none() {
        plates.push(own(board, look));
    }
    if let Some(base) = base {
        let words = format!("{} {}", look.treatment.word(), base.title);
        let mut sources = files(base, &words);
        if sources.is_empty() {
            sources.push(Plate::of_flat(Subject::flat_of(base), &words));
        }
        plates.append(&mut sources);
    }
    for fitting in look.fittings.iter().rev() {
        let words = format!("fitting of {}", fitting.on.short());
        plates.extend(fitting.pictures.iter().map(|path| Plate::of_file(path, &words)));
    }
    let folded = look.folded.iter().filter_map(|folded| board.outfit(folded));
    plates.extend(folded.map(|outfit| Plate::first_of(outfit, &format!("stands for {}", outfit.title))));
    plates
}

fn own(board: &Board, look: &Look) -> Plate {
    Plate::of_flat(Subject::of_look(board, look), &look.title)
}

/// What is seen at a stop of the walk.
pub fn of_stop(board: &Board, stop: &Stop) -> Vec<Plate> {
    match stop {
        Stop::Board => Vec::new(),
        Stop::Look(id) => of_look(board, id),
        Stop::Scene(number) => of_scene(board, number),
        Stop::Period(id) => {
            let relations = board.relations();
            let looks = relations.looks_by_order().iter();
            let looks = looks.filter(|look| relations.period_of_look(look) == Some(id));
            looks.filter_map(|id| board.look(id)).map(|look| own(board, look)).collect()
        }
    }
}

fn of_scene(board: &Board, number: &SceneNumber) -> Vec<Plate> {
    let wears = board.scene(number).into_iter().flat_map(|scene| scene.wears.iter());
    let looks = wears.filter_map(|(who, look)| Some((who, board.look(look.as_ref()?)?)));
    let words = |who, look: &Look| format!("{}: {}", board.name_of(who), look.title);
    looks.map(|(who, look)| Plate::of_flat(Subject::of_look(board, look), words(who, look))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::screen::trial::Trial;

    #[test]
    fn a_flat_says_that_it_is_drawn_and_a_picture_does_not() {
        let mut trial = Trial::small();
        trial.writes(
            "outfits/smock.yaml",
            &serde_json::json!({"title": "Smock", "character": "odile", "worn": "1920", "pieces": [{"name": "smock"}],
                "pictures": ["images/a.jpg", "images/b.jpg"]}),
        );
        let plates = of_outfit(trial.app.board(), &"smock".parse().unwrap());
        let words: Vec<&str> = plates.iter().map(|plate| plate.words.as_str()).collect();
        assert_eq!(words, ["Smock, 1 of 2", "Smock, 2 of 2", "Smock"]);
        let drawn: Vec<&str> = plates.iter().map(Plate::drawn).collect();
        assert_eq!(drawn, ["", "", DRAWN]);
    }

    #[test]
    fn a_look_stands_beside_its_base_its_fitting_and_what_else_it_stands_for() {
        let mut trial = Trial::small();
        let mut look = serde_json::to_value(trial.look("smock")).unwrap();
        look["pieces"] = serde_json::json!([{"name": "smock"}]);
        look["fittings"] = serde_json::json!([{"on": "2027-02-01", "pictures": ["images/fitting.jpg"]}]);
        trial.writes("looks/smock.yaml", &look);
        let plates = of_look(trial.app.board(), &"smock".parse().unwrap());
        let words: Vec<&str> = plates.iter().map(|plate| plate.words.as_str()).collect();
        assert_eq!(plates[0].drawn(), DRAWN);
        assert!(words.contains(&"fitting of 1 Feb 2027"), "{words:?}");
        assert!(
            words.iter().any(|words| words.starts_with("copies ") || words.starts_with("interprets ")),
            "{words:?}"
        );
    }
}
