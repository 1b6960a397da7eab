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
        let all = wearers(board, look, reckoned, id, (&piece, &version));
        let wearer = there(self.wearer.as_ref(), &all)?;
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
                let all = wearers(board, look, reckoned, id, (&now.piece, &now.version));
                after(&now.wearer, &all, &mut self.wearer)
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

/// Those that the script asks for, then as designed and whichever else it has.
fn versions(look: &Look, reckoned: &Reckoned, id: &LookId, piece: &String) -> Vec<VersionId> {
    let own = look.make.get(piece).into_iter().flat_map(|make| &make.versions).map(|one| one.version.clone());
    let asked = reckoned.plan.of_look(id).filter(|demand| demand.garment.piece == *piece);
    let asked = asked.map(|one| one.garment.version.clone());
    once(asked.chain([Version::as_designed()]).chain(own))
}

/// Whoever the script puts into this version of the piece, then who wears the look, then the character's other bodies.
fn wearers(
    board: &Board,
    look: &Look,
    reckoned: &Reckoned,
    id: &LookId,
    (piece, version): (&String, &VersionId),
) -> Vec<BodyId> {
    let own = fit::wearer_of(board, look);
    let bodies = board.character(&look.character).into_iter().flat_map(|character| &character.bodies);
    let bodies = bodies.filter(|body| body.role != Role::Original).map(|body| body.id.clone());
    let garments = reckoned.plan.of_look(id).map(|demand| &demand.garment);
    let asked = garments.filter(|garment| garment.piece == *piece && garment.version == *version);
    once(asked.map(|garment| garment.wearer.clone()).chain([own]).chain(bodies))
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
