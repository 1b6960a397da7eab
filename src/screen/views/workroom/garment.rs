//! Which piece, in which version, on whom: what a look can be asked for, and stepping through it.

use crate::board::{Board, BodyId, Look, LookId, Role, Version, VersionId};
use crate::screen::reckoning::Reckoned;
use crate::workroom::copies::plan::Garment;
use crate::workroom::fit;

/// What was chosen; what the look does not have falls back to its first.
#[derive(Clone, Debug, Default)]
pub struct Chosen {
    pub piece: Option<String>,
    pub version: Option<VersionId>,
    pub wearer: Option<BodyId>,
}

/// Which part of the choice is stepped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    Piece,
    Version,
    Wearer,
}

impl Chosen {
    /// The garment that is chosen; `None` where the look has no piece.
    pub fn garment(&self, board: &Board, reckoned: &Reckoned, id: &LookId) -> Option<Garment> {
        let look = board.look(id)?;
        let piece = there(self.piece.as_ref(), &pieces(look))?;
        let version = there(self.version.as_ref(), &versions(look, reckoned, id, &piece))?;
        let wearer = there(self.wearer.as_ref(), &wearers(board, look, reckoned, id, &piece))?;
        Some(Garment { look: id.clone(), piece, version, wearer })
    }

    /// Chooses a garment.
    pub fn take(&mut self, garment: &Garment) {
        self.piece = Some(garment.piece.clone());
        self.version = Some(garment.version.clone());
        self.wearer = Some(garment.wearer.clone());
    }

    /// Goes on to the next piece, version or wearer, round and round. Says whether there is another.
    pub fn next(&mut self, board: &Board, reckoned: &Reckoned, id: &LookId, part: Part) -> bool {
        let (Some(look), Some(now)) = (board.look(id), self.garment(board, reckoned, id)) else {
            return false;
        };
        match part {
            Part::Piece => after(&now.piece, &pieces(look), &mut self.piece),
            Part::Version => {
                after(&now.version, &versions(look, reckoned, id, &now.piece), &mut self.version)
            }
            Part::Wearer => {
                after(&now.wearer, &wearers(board, look, reckoned, id, &now.piece), &mut self.wearer)
            }
        }
    }
}

fn there<T: PartialEq + Clone>(chosen: Option<&T>, all: &[T]) -> Option<T> {
    chosen.filter(|one| all.contains(one)).or(all.first()).cloned()
}

fn after<T: PartialEq + Clone>(now: &T, all: &[T], chosen: &mut Option<T>) -> bool {
    let at = all.iter().position(|one| one == now).map_or(0, |at| at + 1);
    *chosen = all.get(at).or(all.first()).cloned();
    all.len() > 1
}

/// The look's pieces: first those with measures, so that a look opens on something to see.
pub fn pieces(look: &Look) -> Vec<String> {
    let mut all: Vec<String> = look.pieces.iter().map(|piece| piece.name.clone()).collect();
    all.extend(
        look.make.keys().filter(|name| !look.pieces.iter().any(|piece| piece.name == **name)).cloned(),
    );
    let measured = |name: &String| look.make.get(name).is_some_and(|make| !make.measures.is_empty());
    all.sort_by_key(|name| !measured(name));
    all
}

/// As designed, then its versions, then those that the script asks for and nobody has.
fn versions(look: &Look, reckoned: &Reckoned, id: &LookId, piece: &String) -> Vec<VersionId> {
    let own = look.make.get(piece).into_iter().flat_map(|make| &make.versions).map(|one| one.version.clone());
    let asked = reckoned.plan.of_look(id).filter(|demand| demand.garment.piece == *piece);
    once([Version::as_designed()].into_iter().chain(own).chain(asked.map(|one| one.garment.version.clone())))
}

/// Who wears the look, then the other bodies of its character, then whoever else the script puts into it.
fn wearers(board: &Board, look: &Look, reckoned: &Reckoned, id: &LookId, piece: &String) -> Vec<BodyId> {
    let own = fit::wearer_of(board, look);
    let bodies = board.character(&look.character).into_iter().flat_map(|character| &character.bodies);
    let bodies = bodies.filter(|body| body.role != Role::Original).map(|body| body.id.clone());
    let asked = reckoned.plan.of_look(id).filter(|demand| demand.garment.piece == *piece);
    once([own].into_iter().chain(bodies).chain(asked.map(|one| one.garment.wearer.clone())))
}

fn once<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut each = Vec::new();
    for one in all {
        if !each.contains(&one) {
            each.push(one);
        }
    }
    each
}
