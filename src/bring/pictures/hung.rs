//! The pictures that the board has, as far as others are compared with them.

use std::collections::HashSet;
use std::panic::{self, AssertUnwindSafe};

use super::scan::{Content, SIDE, Scanned};
use crate::album::Album;
use crate::board::{Board, OutfitId, PicturePath};
use crate::picture::photo::Likeness;

/// A picture that the board has.
#[derive(Clone, Debug)]
pub struct Hung {
    /// Whose it is; nobody's where it is of a fitting.
    pub outfit: Option<OutfitId>,
    /// Where it lies.
    pub path: PicturePath,
    /// Its bytes, where a picture that is brought in has as many.
    pub content: Option<Content>,
    /// What it is like; of a fitting's nothing, since it shows what was made and no source.
    pub likeness: Option<Likeness>,
}

/// The pictures of a board that can be seen, to be compared with these.
pub fn hung(board: &Board, album: &Album, scans: &[Scanned]) -> Vec<Hung> {
    let lengths: HashSet<u64> = scans.iter().flatten().map(|scan| scan.content.length()).collect();
    let content = |path: &PicturePath| {
        let length = album.length(path).ok()?;
        let bytes = lengths.contains(&length).then(|| album.bytes(path))?;
        Some(Content::of(&bytes.ok()?))
    };
    let likeness = |path: &PicturePath| {
        // A library that gives up on one picture must not end the work on all.
        let pixels = panic::catch_unwind(AssertUnwindSafe(|| album.small(path, (SIDE, SIDE))));
        Likeness::of(&pixels.ok()?.ok()?)
    };
    let of_outfits = board.records().outfits.iter().flat_map(|(id, outfit)| {
        outfit.pictures.iter().map(|path| Hung {
            outfit: Some(id.clone()),
            path: path.clone(),
            content: content(path),
            likeness: likeness(path),
        })
    });
    let of_fittings = of_fittings(board).map(|path| Hung {
        outfit: None,
        path: path.clone(),
        content: content(path),
        likeness: None,
    });
    of_outfits.chain(of_fittings).collect()
}

/// All pictures that a board's records name.
pub(super) fn pictures(board: &Board) -> impl Iterator<Item = &PicturePath> {
    board.records().outfits.values().flat_map(|outfit| &outfit.pictures).chain(of_fittings(board))
}

fn of_fittings(board: &Board) -> impl Iterator<Item = &PicturePath> {
    board.records().looks.values().flat_map(|look| &look.fittings).flat_map(|fitting| &fitting.pictures)
}
