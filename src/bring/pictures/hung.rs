//! The pictures that the board has, as far as others are compared with them.

use std::collections::HashSet;

use super::scan::{Content, SIDE, Scanned};
use crate::album::Album;
use crate::board::{Board, OutfitId, PicturePath};
use crate::picture::photo::Likeness;

/// A picture that the board has.
#[derive(Clone, Debug)]
pub struct Hung {
    /// Whose it is.
    pub outfit: OutfitId,
    /// Where it lies.
    pub path: PicturePath,
    /// Its bytes, where a picture that is brought in has as many.
    pub content: Option<Content>,
    /// What it is like.
    pub likeness: Option<Likeness>,
}

/// The pictures of a board's outfits that can be seen, to be compared with these.
pub fn hung(board: &Board, album: &Album, scans: &[Scanned]) -> Vec<Hung> {
    let lengths: HashSet<u64> = scans.iter().flatten().map(|scan| scan.content.length()).collect();
    let mut found = Vec::new();
    for (outfit, record) in &board.records().outfits {
        for path in &record.pictures {
            let Ok(pixels) = album.small(path, (SIDE, SIDE)) else { continue };
            let is_as_long = album.length(path).is_ok_and(|length| lengths.contains(&length));
            let content =
                is_as_long.then(|| album.bytes(path).ok().map(|bytes| Content::of(&bytes))).flatten();
            let likeness = Likeness::of(&pixels);
            found.push(Hung { outfit: outfit.clone(), path: path.clone(), content, likeness });
        }
    }
    found
}
