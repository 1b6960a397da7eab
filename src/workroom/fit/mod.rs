//! From the original's body to another: each measure of a piece, with the rule, what went into it and what comes out.
//!
//! A measure is carried over by its [rule](crate::board::Rule) from what the original garment measured; then a fitting
//! may have decided otherwise, of which the last counts; then a version adds what its action needs. A piece that a
//! fitting decided is fitted as designed, so what a version adds comes on top.
//!
//! | module | what it reckons |
//! |---|---|
//! | [`rule`] | the arithmetic of each rule |
//! | [`plausible`] | doubts about measures: outside all that was published, at odds with each other, in the wrong unit |
//! | [`ease`] | the room that a woven garment needs at least, as published |

pub mod ease;
pub mod plausible;
pub mod rule;

use crate::board::{
    Added, Board, Body, BodyId, Fitting, Found, Look, Make, Measure, Role, Rule, Version, VersionId,
};
use crate::trade::body::BodyMeasure;
use crate::trade::date::Date;
use crate::trade::length::{Length, Size};

/// One measure of a piece, for one body and one version.
#[derive(Clone, Debug, PartialEq)]
pub struct Row<'a> {
    /// The measure and its rule.
    pub measure: &'a Measure,
    /// What the original garment measured.
    pub garment: Option<Size>,
    /// What the original's body measured.
    pub original: Option<Origin>,
    /// What the body measures that it is made for.
    pub wearer: Option<Size>,
    /// What the rule gives, or what it lacks.
    pub carried: Result<Carried, Lack>,
    /// What a fitting decided instead, and when.
    pub decided: Option<(&'a Date, Size)>,
    /// What the version adds.
    pub added: Vec<(Added, Length)>,
}

/// The measure of the body that wore the original.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// As it is told of that body.
    Told(Size),
    /// The garment less the ease that it is taken to have had.
    Inferred(Size),
}

impl Origin {
    /// How much.
    pub fn size(self) -> Size {
        match self {
            Self::Told(size) | Self::Inferred(size) => size,
        }
    }
}

/// What a rule gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Carried {
    /// A measure of the garment.
    Flat(Length),
    /// An edge that keeps its place on the body.
    Edge(rule::Edge),
}

impl Carried {
    /// The measure that is cut.
    pub fn length(self) -> Length {
        match self {
            Self::Flat(length) => length,
            Self::Edge(edge) => edge.deep,
        }
    }
}

/// What a rule lacks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lack {
    /// What the original garment measured.
    Garment,
    /// What the original's body measures.
    Original(BodyMeasure),
    /// What the body measures that it is made for.
    Wearer(BodyMeasure),
    /// A result that a piece can have: the numbers cannot be meant.
    Sense,
}

impl Row<'_> {
    /// What is cut: decided at a fitting or carried over, and what the version adds. `None` where something lacks.
    pub fn result(&self) -> Option<Length> {
        let carried = self.carried.ok().map(Carried::length);
        let base = self.decided.map(|(_, size)| size.length()).or(carried)?;
        Some(base + self.added.iter().map(|(_, length)| *length).sum())
    }
}

/// The body that wore what a look is made after, as far as it is known.
pub fn original_of<'a>(board: &'a Board, look: &Look) -> Option<&'a Body> {
    match &look.original {
        Some(id) => board.body(id).map(|(_, body)| body),
        None => board.character(&look.character)?.first(Role::Original),
    }
}

/// Who wears a look, where a scene does not say that somebody else does.
pub fn wearer_of(board: &Board, look: &Look) -> BodyId {
    look.wearer.clone().unwrap_or_else(|| match board.character(&look.character) {
        Some(character) => character.wearer(),
        None => crate::board::body::own_body(&look.character),
    })
}

/// The measures of a piece of a look for a body, in a version; none where the piece has none.
pub fn rows<'a>(
    board: &'a Board,
    look: &'a Look,
    piece: &str,
    version: Option<&VersionId>,
    wearer: &BodyId,
) -> Vec<Row<'a>> {
    let Some(make) = look.make.get(&piece.to_owned()) else { return Vec::new() };
    let fitter = Fitter { board, look, piece, wearer };
    let version = version.and_then(|id| version_of(make, id));
    make.measures.iter().map(|measure| fitter.row(measure, version)).collect()
}

/// A version of a piece.
pub fn version_of<'a>(make: &'a Make, id: &VersionId) -> Option<&'a Version> {
    make.versions.iter().find(|version| version.version == *id)
}

/// The pieces of a look that the workroom knows measures of, with the names of the measures.
pub fn pieces(look: &Look) -> impl Iterator<Item = (&String, &Make)> {
    look.make.iter().filter(|(_, make)| !make.measures.is_empty())
}

/// What the last fitting in the log that decided a measure decided, whatever days they are of.
pub fn decided<'a>(
    board: &Board,
    look: &'a Look,
    piece: &str,
    measure: &str,
    wearer: &BodyId,
) -> Option<(&'a Date, Size)> {
    let on_whom =
        |fitting: &Fitting| fitting.wearer.clone().unwrap_or_else(|| wearer_of(board, look)) == *wearer;
    let of = |found: &&Found| found.piece == piece && found.measure == measure;
    let found =
        |fitting: &'a Fitting| fitting.found.iter().filter(of).filter_map(|found| found.decided).next_back();
    let told = look.fittings.iter().rev().filter(|fitting| on_whom(fitting));
    told.filter_map(|fitting| Some((&fitting.on, found(fitting)?))).next()
}

struct Fitter<'a, 'b> {
    board: &'a Board,
    look: &'a Look,
    piece: &'b str,
    wearer: &'b BodyId,
}

impl<'a> Fitter<'a, '_> {
    fn row(&self, measure: &'a Measure, version: Option<&Version>) -> Row<'a> {
        let garment = measure.original.or_else(|| self.measured(&measure.name));
        let original = self.original(measure.rule, garment);
        let wearer = measure.rule.of().and_then(|of| self.of_wearer(of));
        let adds = version.iter().flat_map(|version| &version.adds).filter(|add| add.to == measure.name);
        Row {
            measure,
            garment,
            original,
            wearer,
            carried: carried(measure.rule, garment, original, wearer),
            decided: decided(self.board, self.look, self.piece, &measure.name, self.wearer),
            added: adds.filter_map(|add| Some((add.by, longer_by(add.by)?))).collect(),
        }
    }

    /// What the base outfit's garment of this name measured.
    fn measured(&self, measure: &str) -> Option<Size> {
        let base = self.board.outfit(self.look.base.as_ref()?)?;
        base.measured.get(&self.piece.to_owned())?.get(&measure.to_owned()).copied()
    }

    fn of_wearer(&self, of: BodyMeasure) -> Option<Size> {
        self.board.body(self.wearer)?.1.measures.get(&of).copied()
    }

    fn original(&self, rule: Rule, garment: Option<Size>) -> Option<Origin> {
        let told = original_of(self.board, self.look).zip(rule.of());
        let told = told.and_then(|(body, of)| body.measures.get(&of).copied());
        told.map(Origin::Told).or_else(|| {
            let (Rule::Ease { eased, .. } | Rule::Ratio { eased, .. }) = rule else { return None };
            Size::new(garment?.length() - eased?).map(Origin::Inferred)
        })
    }
}

fn carried(
    rule: Rule,
    garment: Option<Size>,
    original: Option<Origin>,
    wearer: Option<Size>,
) -> Result<Carried, Lack> {
    let garment = garment.ok_or(Lack::Garment);
    let original = |of| original.map(Origin::size).ok_or(Lack::Original(of));
    let wearer = |of| wearer.map(Size::length).ok_or(Lack::Wearer(of));
    match rule {
        Rule::Same => Ok(Carried::Flat(garment?.length())),
        Rule::Ease { of, .. } => {
            let length = rule::eased(garment?.length(), original(of)?.length(), wearer(of)?);
            length.map(Carried::Flat).ok_or(Lack::Sense)
        }
        Rule::Ratio { of, .. } => {
            let length = rule::in_ratio(garment?.length(), original(of)?, wearer(of)?);
            length.map(Carried::Flat).ok_or(Lack::Sense)
        }
        Rule::Landmark { of, fraction, angle } => {
            let fraction = match fraction {
                Some(fraction) => fraction.get(),
                None => rule::fraction_of(garment?.length(), original(of)?, angle),
            };
            rule::at_landmark(fraction, wearer(of)?, angle).map(Carried::Edge).ok_or(Lack::Sense)
        }
    }
}

/// How much an addition lengthens its measure; `None` where that is longer than a length can be.
pub fn longer_by(added: Added) -> Option<Length> {
    match added {
        Added::Pad { thick, arc } => rule::over_pad(thick, arc),
        Added::Rise(size) | Added::Reach(size) => Some(size.length()),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::board::told;

    #[test]
    fn a_measure_that_comes_to_nothing_or_less_lacks_sense() {
        let board = told::board(json!({
            "head": {"characters": [{"id": "ada", "name": "Ada", "bodies": [
                {"id": "real", "who": "Ada", "is": "original", "measures": {"chest-girth": "90 cm"}},
                {"id": "kim", "who": "Kim", "is": "performer", "measures": {"chest-girth": "38 cm"}},
            ]}]},
            "looks": {"coat": {"treatment": "invent", "make": {"coat": {"measures": [
                {"measure": "chest", "rule": "ease", "of": "chest-girth", "original": "50 cm"},
                {"measure": "yoke", "rule": "ease", "of": "chest-girth", "original": "53 cm"},
            ]}}}},
        }));
        let look = board.look(&"coat".parse().unwrap()).unwrap();
        let all = rows(&board, look, "coat", None, &"kim".parse().unwrap());
        assert_eq!(all[0].carried, Err(Lack::Sense));
        assert_eq!(all[1].result(), Some("1 cm".parse().unwrap()));
    }
}
