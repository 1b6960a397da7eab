//! The workroom's operations: bodies and garments are measured, rules set, fittings and trials noted, copies planned.

use super::draft::unfit;
use super::{
    Board, Body, BodyId, Character, CharacterId, ClothId, Edit, Fitting, Found, Id, Look, LookId, Make,
    Measure, Outfit, Pairs, Piece, Refused, Role, Trial, Verdict, Version, VersionId,
};
use crate::trade::body::BodyMeasure;
use crate::trade::cloth_weight::ClothWeight;
use crate::trade::date::Date;
use crate::trade::length::{Size, Unit};

/// A piece of a look.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PieceOf {
    /// The look.
    pub look: LookId,
    /// The piece, by its name.
    pub piece: String,
}

/// Whose body is measured. Where the board does not know it yet, it comes to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Whose {
    /// The character that it has to do with.
    pub character: CharacterId,
    /// The body.
    pub body: BodyId,
    /// What it is, where it comes to be.
    pub role: Role,
}

impl Board {
    /// A name for a new body that nothing else has.
    pub fn free_body_id(&self, title: &str) -> BodyId {
        let of_character =
            |id: &BodyId| self.head().characters.iter().any(|who| who.id.as_str() == id.as_str());
        Id::free(title, super::amending::literal("body"), |id| self.body(id).is_some() || of_character(id))
    }

    /// Measures a body; `None` takes the measure away.
    ///
    /// # Errors
    /// When there is no such character.
    pub fn measure_body(&self, whose: &Whose, of: BodyMeasure, size: Option<Size>) -> Result<Edit, Refused> {
        if self.character(&whose.character).is_none() {
            return Err(unfit(format!("there is no character `{}`", whose.character)));
        }
        let who = match self.body(&whose.body) {
            Some((_, body)) => body.who.clone(),
            None => self.name_of(&whose.character).to_owned(),
        };
        let label = match size {
            Some(size) => format!("{who}: {} {}", of.words(), size.length().shown(self.head().units)),
            None => format!("{who}: {} not measured", of.words()),
        };
        Ok(self.change_head(label, |head| {
            let character = head.characters.iter_mut().find(|one| one.id == whose.character);
            let Some(body) = character.map(|character| body_of(character, whose)) else { return };
            match size {
                Some(size) => body.measures.set(of, size),
                None => drop(body.measures.remove(&of)),
            }
        }))
    }

    /// Says what a garment of the original measured: on the look where the look says it itself or has no base, else on
    /// the base outfit. `None` takes it away.
    ///
    /// # Errors
    /// When there is no such look.
    pub fn measure_garment(&self, of: &PieceOf, measure: &str, size: Option<Size>) -> Result<Edit, Refused> {
        let look = self.look_there(&of.look)?;
        let own = look.make.get(&of.piece).and_then(|make| measure_of(make, measure));
        let says_itself = own.is_some_and(|own| own.original.is_some());
        let shown = size.map_or("not measured".to_owned(), |size| size.length().shown(self.head().units));
        let label = format!("{} of the original {}: {shown}", measure, of.piece);
        match look.base.as_ref().filter(|_| !says_itself) {
            Some(base) => self.change_outfit(base, label, |outfit| {
                let mut measured = outfit.measured.get(&of.piece).cloned().unwrap_or_default();
                match size {
                    Some(size) => measured.set(measure.to_owned(), size),
                    None => drop(measured.remove(&measure.to_owned())),
                }
                put(&mut outfit.measured, &of.piece, measured);
            }),
            None => self.change_make(of, label, |make| {
                if let Some(own) = make.measures.iter_mut().find(|own| own.name == measure) {
                    own.original = size;
                }
            }),
        }
    }

    /// Puts a measure in the place of the one of its name, or behind the others.
    ///
    /// # Errors
    /// When there is no such look.
    pub fn set_measure(&self, of: &PieceOf, measure: Measure) -> Result<Edit, Refused> {
        let label = format!("{} of the {}: {}", measure.name, of.piece, measure.rule.word());
        self.change_make(of, label, |make| {
            match make.measures.iter_mut().find(|own| own.name == measure.name) {
                Some(own) => *own = measure,
                None => make.measures.push(measure),
            }
        })
    }

    /// Takes a measure away.
    ///
    /// # Errors
    /// When there is no such look.
    pub fn drop_measure(&self, of: &PieceOf, measure: &str) -> Result<Edit, Refused> {
        let label = format!("{measure} of the {} is no measure", of.piece);
        self.change_make(of, label, |make| make.measures.retain(|own| own.name != measure))
    }

    /// Says what a fitting found of a measure, in the place of what it had found of it. `own` is who wears the look where
    /// a fitting does not say on whom it was.
    ///
    /// # Errors
    /// When there is no such look.
    pub fn note_fitting(
        &self,
        look: &LookId,
        on: &Date,
        (wearer, own): (&BodyId, &BodyId),
        found: Found,
    ) -> Result<Edit, Refused> {
        let label = format!("fitted {}: {} of the {}", on.short(), found.measure, found.piece);
        self.change_look(look, label, |look| {
            let on_whom = |fitting: &Fitting| fitting.wearer.as_ref().unwrap_or(own) == wearer;
            let at = look.fittings.iter().position(|fitting| fitting.on == *on && on_whom(fitting));
            let fitting = match at.and_then(|at| look.fittings.get_mut(at)) {
                Some(fitting) => fitting,
                None => {
                    let wearer = (wearer != own).then(|| wearer.clone());
                    let fitting = Fitting {
                        on: on.clone(),
                        wearer,
                        found: Vec::new(),
                        pictures: Vec::new(),
                        notes: String::new(),
                    };
                    at_end(&mut look.fittings, fitting)
                }
            };
            let same = |one: &&mut Found| one.piece == found.piece && one.measure == found.measure;
            match fitting.found.iter_mut().find(same) {
                Some(one) => *one = found,
                None => fitting.found.push(found),
            }
        })
    }

    /// Plans so many copies of a version for a body.
    ///
    /// # Errors
    /// When there is no such look.
    pub fn plan_copies(
        &self,
        of: &PieceOf,
        version: &VersionId,
        wearer: &BodyId,
        copies: u8,
    ) -> Result<Edit, Refused> {
        let who = self.who_is(wearer);
        let noun = if copies == 1 { "copy" } else { "copies" };
        let label = format!("{}, {version}, for {who}: {copies} {noun} planned", of.piece);
        self.change_make(of, label, |make| {
            let at = make.versions.iter().position(|one| one.version == *version);
            let version = match at.and_then(|at| make.versions.get_mut(at)) {
                Some(version) => version,
                None => at_end(&mut make.versions, Version::named(version.clone())),
            };
            version.copies.set(wearer.clone(), copies);
        })
    }

    /// Notes a trial of a cloth, behind the others.
    ///
    /// # Errors
    /// When there is no such cloth.
    pub fn note_trial(
        &self,
        id: &ClothId,
        on: &Date,
        (weight, verdict): (ClothWeight, Verdict),
        notes: &str,
    ) -> Result<Edit, Refused> {
        let mut cloth = self.cloth(id).ok_or_else(|| unfit(format!("there is no cloth `{id}`")))?.clone();
        let trial = cloth.trials.iter().map(|trial| trial.trial).max().unwrap_or(0).saturating_add(1);
        let label = format!("{}, trial {trial}: {weight} is {}", cloth.title, verdict.word());
        let notes = notes.to_owned();
        cloth.trials.push(Trial { trial, on: Some(on.clone()), weight, verdict, notes });
        Ok(self.set_cloth(id, Some(cloth), label))
    }

    /// Shows lengths in another unit; what is kept stays as it is.
    pub fn show_lengths_in(&self, unit: Unit) -> Edit {
        let words = match unit {
            Unit::Centimetres => "lengths in centimetres",
            Unit::Inches => "lengths in inches",
        };
        self.change_head(words, |head| head.units = unit)
    }

    fn look_there(&self, id: &LookId) -> Result<&Look, Refused> {
        self.look(id).ok_or_else(|| unfit(format!("there is no look `{id}`")))
    }

    fn change_make(
        &self,
        of: &PieceOf,
        label: String,
        change: impl FnOnce(&mut Make),
    ) -> Result<Edit, Refused> {
        self.change_look(&of.look, label, |look| {
            let mut make = look.make.get(&of.piece).cloned().unwrap_or_default();
            change(&mut make);
            if make == Make::default() {
                look.make.remove(&of.piece);
            } else {
                look.make.set(of.piece.clone(), make);
            }
        })
    }
}

impl Look {
    /// Puts a piece in the place of another, or behind all. What is known of it goes by its name, and follows it.
    pub fn put_piece(&mut self, was: Option<&Piece>, piece: Piece) {
        if let Some((from, to)) = renamed(&mut self.pieces, was, piece) {
            let found = self.fittings.iter_mut().flat_map(|fitting| &mut fitting.found);
            found.filter(|found| found.piece == from).for_each(|found| found.piece.clone_from(&to));
            self.make.rename(&from, to);
        }
    }
}

impl Outfit {
    /// As [`Look::put_piece`].
    pub fn put_piece(&mut self, was: Option<&Piece>, piece: Piece) {
        if let Some((from, to)) = renamed(&mut self.pieces, was, piece) {
            self.measured.rename(&from, to);
        }
    }
}

/// Puts a piece in the place of another; where it is called otherwise and no piece is called so any more, the two names.
fn renamed(pieces: &mut Vec<Piece>, was: Option<&Piece>, piece: Piece) -> Option<(String, String)> {
    let to = piece.name.clone();
    let from = match pieces.iter_mut().find(|have| Some(&**have) == was) {
        Some(have) => std::mem::replace(have, piece).name,
        None => {
            pieces.push(piece);
            return None;
        }
    };
    pieces.iter().all(|piece| piece.name != from).then_some((from, to))
}

impl Version {
    /// A version of which only the name is known.
    pub fn named(version: VersionId) -> Self {
        Self {
            version,
            rigs: Vec::new(),
            differs: Vec::new(),
            adds: Vec::new(),
            more_cloth: Pairs::default(),
            more_hours: Pairs::default(),
            copies: Pairs::default(),
            notes: String::new(),
        }
    }
}

fn at_end<T>(all: &mut Vec<T>, one: T) -> &mut T {
    let at = all.len();
    all.push(one);
    &mut all[at]
}

/// A measure of a piece, by its name.
fn measure_of<'a>(make: &'a Make, name: &str) -> Option<&'a Measure> {
    make.measures.iter().find(|own| own.name == name)
}

fn put(all: &mut Pairs<String, Pairs<String, Size>>, piece: &str, measured: Pairs<String, Size>) {
    if measured.is_empty() {
        all.remove(&piece.to_owned());
    } else {
        all.set(piece.to_owned(), measured);
    }
}

/// The body, which comes to be where it is not there.
fn body_of<'a>(character: &'a mut Character, whose: &Whose) -> &'a mut Body {
    let at = character.bodies.iter().position(|body| body.id == whose.body);
    let Some(at) = at else {
        let plays = whose.role != Role::Original && !character.performer.is_empty();
        let who = if plays { &character.performer } else { &character.name };
        let body = Body {
            id: whose.body.clone(),
            who: who.clone(),
            role: whose.role,
            taken: None,
            measures: Pairs::default(),
            notes: String::new(),
        };
        return at_end(&mut character.bodies, body);
    };
    &mut character.bodies[at]
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::sample::id;
    use super::*;
    use crate::board::told;

    fn board() -> Board {
        told::board(json!({
            "outfits": {"wool": {"measured": {"costume": {"bust": "84 cm"}}}},
            "looks": {
                "wool": {"base": "wool", "pieces": [{"name": "costume"}], "make": {"costume": {"measures": [
                    {"measure": "bust", "rule": "ease", "of": "bust-girth"},
                    {"measure": "braid", "rule": "same", "original": "1 cm"},
                ]}}},
                "coat": {"treatment": "invent", "pieces": [{"name": "coat"}]},
            },
            "cloths": {"jersey": {"trials": [{"trial": 4, "weight": "300 g/m²", "verdict": "too-light"}]}},
        }))
    }

    fn costume() -> PieceOf {
        PieceOf { look: id("wool"), piece: "costume".to_owned() }
    }

    /// The board after an edit, once it is sure that the inverse brings it back.
    fn after(edit: Result<Edit, Refused>) -> Board {
        let mut board = board();
        let before = board.records().clone();
        let inverse = board.apply(&edit.unwrap()).unwrap();
        let after = board.clone();
        board.apply(&inverse).unwrap();
        assert_eq!(*board.records(), before);
        after
    }

    fn size(text: &str) -> Option<Size> {
        Some(text.parse().unwrap())
    }

    #[test]
    fn a_body_comes_to_be_when_it_is_measured() {
        let own = Whose { character: id("ada"), body: id("ada"), role: Role::Performer };
        let board = after(board().measure_body(&own, BodyMeasure::BustGirth, size("96 cm")));
        let (character, body) = board.body(&id("ada")).unwrap();
        assert_eq!((body.who.as_str(), body.measures.len()), ("Ada", 1));
        assert_eq!(character.wearer(), id::<Body>("ada"));
        let nobody = Whose { character: id("zoe"), ..own };
        assert!(board.measure_body(&nobody, BodyMeasure::BustGirth, None).is_err());
        assert_eq!(board.free_body_id("Ada").as_str(), "ada-2");
    }

    #[test]
    fn a_garment_is_measured_where_its_measure_stands() {
        let bust = after(board().measure_garment(&costume(), "bust", size("33 in")));
        let measured = &bust.outfit(&id("wool")).unwrap().measured;
        assert_eq!(
            measured.get(&"costume".to_owned()).unwrap().get(&"bust".to_owned()).copied(),
            size("33 in")
        );
        let braid = after(board().measure_garment(&costume(), "braid", size("2 cm")));
        assert_eq!(
            braid.look(&id("wool")).unwrap().make.iter().next().unwrap().1.measures[1].original,
            size("2 cm")
        );
        let gone = after(board().measure_garment(&costume(), "bust", None));
        assert!(gone.outfit(&id("wool")).unwrap().measured.is_empty());
    }

    #[test]
    fn a_fitting_of_one_day_and_body_is_one_fitting() {
        let found = |measure: &str, decided| Found {
            piece: "costume".into(),
            measure: measure.into(),
            measured: None,
            pinned: None,
            decided: size(decided),
        };
        let on: Date = "2027-03-02".parse().unwrap();
        let (ada, wool) = (id("ada"), id("wool"));
        let mut board = board();
        for found in [found("bust", "88 cm"), found("braid", "1 cm"), found("bust", "87 cm")] {
            let edit = board.note_fitting(&wool, &on, (&ada, &ada), found).unwrap();
            board.apply(&edit).unwrap();
        }
        let fittings = &board.look(&wool).unwrap().fittings;
        assert_eq!((fittings.len(), fittings[0].found.len()), (1, 2));
        assert_eq!((fittings[0].found[0].decided, &fittings[0].wearer), (size("87 cm"), &None));
    }

    #[test]
    fn copies_are_planned_of_a_version_that_comes_to_be_with_them() {
        let coat = PieceOf { look: id("coat"), piece: "coat".to_owned() };
        let board = after(board().plan_copies(&coat, &id("wet"), &id("ada"), 3));
        let make = board.look(&id("coat")).unwrap().make.get(&"coat".to_owned()).unwrap().clone();
        assert_eq!((make.versions.len(), make.versions[0].copies.get(&id("ada"))), (1, Some(&3)));
    }

    #[test]
    fn what_is_known_of_a_piece_follows_its_name_while_no_other_has_it() {
        let piece = |name: &str| Piece { name: name.to_owned(), ..Piece::default() };
        let mut look = Look::clone(board().look(&id("wool")).unwrap());
        let found = |piece: &str| json!({"piece": piece, "measure": "bust"});
        look.fittings =
            serde_json::from_value(json!([{"on": "2027-03-02", "found": [found("costume"), found("cap")]}]))
                .unwrap();
        look.put_piece(Some(&piece("costume")), piece("swimsuit"));
        let told = |look: &Look| -> Vec<String> {
            let fitted = look.fittings[0].found.iter().map(|found| &found.piece);
            look.pieces
                .iter()
                .map(|piece| &piece.name)
                .chain(look.make.keys())
                .chain(fitted)
                .cloned()
                .collect()
        };
        assert_eq!(told(&look), ["swimsuit", "swimsuit", "swimsuit", "cap"]);
        look.put_piece(None, piece("swimsuit"));
        look.put_piece(Some(&piece("swimsuit")), piece("shorts"));
        assert_eq!(
            told(&look),
            ["shorts", "swimsuit", "swimsuit", "swimsuit", "cap"],
            "one is called so still"
        );
        let mut outfit = Outfit::clone(board().outfit(&id("wool")).unwrap());
        outfit.pieces = vec![piece("costume")];
        outfit.put_piece(Some(&piece("costume")), piece("swimsuit"));
        assert_eq!(outfit.measured.keys().collect::<Vec<_>>(), ["swimsuit"]);
    }

    #[test]
    fn a_trial_is_numbered_and_dated() {
        let weight: ClothWeight = "340 g/m²".parse().unwrap();
        let on = "2027-03-02".parse().unwrap();
        let board = after(board().note_trial(&id("jersey"), &on, (weight, Verdict::Right), "falls"));
        let trials = &board.cloth(&id("jersey")).unwrap().trials;
        assert_eq!((trials.len(), trials[1].trial, trials[1].on.as_ref()), (2, 5, Some(&on)));
    }

    #[test]
    fn a_measure_is_set_in_its_place_and_dropped() {
        let same = Measure { name: "bust".into(), original: None, rule: crate::board::Rule::Same };
        let set = after(board().set_measure(&costume(), same.clone()));
        let measures =
            |board: &Board| board.look(&id("wool")).unwrap().make.iter().next().unwrap().1.measures.clone();
        assert_eq!((measures(&set).len(), &measures(&set)[0]), (2, &same));
        let dropped = after(board().drop_measure(&costume(), "bust"));
        assert_eq!(measures(&dropped).len(), 1);
        assert_eq!(after(Ok(board().show_lengths_in(Unit::Inches))).head().units, Unit::Inches);
    }
}
