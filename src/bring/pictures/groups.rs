//! Which pictures belong together: with an outfit that is there, or with each other.

use super::hung::Hung;
use super::scan::Scan;
use crate::board::{Board, OutfitId, PicturePath};
use crate::picture::photo::{ALIKE, Likeness};

/// Where a picture belongs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Belongs {
    /// The board has it already.
    Hung(PicturePath),
    /// It is another of this folder, byte for byte, by its place.
    Same(usize),
    /// To an outfit that is there.
    Outfit(OutfitId, Why),
    /// To the draft that begins with the picture at this place, which may be itself.
    Draft(usize),
}

/// Why a picture belongs to an outfit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// Its file is named as the outfit.
    Id,
    /// Its name says the outfit's title and day.
    Title,
    /// It is like this picture of it.
    Like(PicturePath),
}

/// Where each of the pictures belongs, in their order.
pub(super) fn groups(board: &Board, scans: &[Scan], hung: &[Hung]) -> Vec<Belongs> {
    let mut found: Vec<Belongs> = Vec::with_capacity(scans.len());
    for (at, scan) in scans.iter().enumerate() {
        let earlier = scans[..at].iter().zip(&found).enumerate();
        let belongs = None
            .or_else(|| {
                let same = hung.iter().find(|one| one.content == Some(scan.content))?;
                Some(Belongs::Hung(same.path.clone()))
            })
            .or_else(|| scans[..at].iter().position(|one| one.content == scan.content).map(Belongs::Same))
            .or_else(|| Some(Belongs::Outfit(by_id(board, scan)?, Why::Id)))
            .or_else(|| Some(Belongs::Outfit(by_title(board, scan)?, Why::Title)))
            .or_else(|| {
                let near = hung.iter().filter(|one| is_like(&one.likeness, &scan.likeness));
                let near = near.min_by_key(|one| apart(&one.likeness, &scan.likeness))?;
                Some(Belongs::Outfit(near.outfit.clone(), Why::Like(near.path.clone())))
            })
            .or_else(|| {
                let mut kin = earlier.filter(|(_, (one, _))| {
                    is_like(&one.likeness, &scan.likeness) || has_same_words(one, scan)
                });
                kin.find_map(|(_, (_, belongs))| match belongs {
                    Belongs::Outfit(id, Why::Like(path)) => {
                        Some(Belongs::Outfit(id.clone(), Why::Like(path.clone())))
                    }
                    Belongs::Draft(first) => Some(Belongs::Draft(*first)),
                    _ => None,
                })
            });
        found.push(belongs.unwrap_or(Belongs::Draft(at)));
    }
    found
}

fn is_like(one: &Option<Likeness>, other: &Option<Likeness>) -> bool {
    apart(one, other).is_some_and(|apart| apart <= ALIKE)
}

fn apart(one: &Option<Likeness>, other: &Option<Likeness>) -> Option<u32> {
    Some(one.as_ref()?.apart(other.as_ref()?))
}

/// An outfit by the name of the file: its id, or its id and a number.
fn by_id(board: &Board, scan: &Scan) -> Option<OutfitId> {
    let stem = scan.file.file_stem()?.to_string_lossy();
    let id = OutfitId::from_title(&stem)?;
    if board.outfit(&id).is_some() {
        return Some(id);
    }
    let (plain, number) = id.as_str().rsplit_once('-')?;
    let id: OutfitId = plain.parse().ok()?;
    (number.bytes().all(|byte| byte.is_ascii_digit()) && board.outfit(&id).is_some()).then_some(id)
}

/// An outfit by its title and the day worn, both in the file's name.
fn by_title(board: &Board, scan: &Scan) -> Option<OutfitId> {
    let (title, worn) = (&scan.named.title, scan.named.worn.as_ref()?);
    let is_it = |id: &&OutfitId| {
        board.outfit(id).is_some_and(|outfit| {
            outfit.title.to_lowercase() == title.to_lowercase() && outfit.worn.as_ref() == Some(worn)
        })
    };
    board.relations().outfits_by_date().iter().find(is_it).cloned()
}

/// Two files of one name but for a number, such as `robe 1924` and `robe 1924 2`.
fn has_same_words(one: &Scan, other: &Scan) -> bool {
    !one.named.title.is_empty() && one.named == other.named
}
