//! Which pictures belong together: with an outfit that is there, or with each other.

use std::path::PathBuf;

use super::hung::Hung;
use super::name::Named;
use super::scan::Scan;
use crate::board::{Board, OutfitId, PicturePath};
use crate::picture::photo::{ALIKE, Likeness};

/// The most digits of a number that says which of several pictures a file is.
const COUNTER: usize = 3;

/// Where a picture belongs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Belongs {
    /// The board has it already, as a picture of this outfit or of a fitting.
    Hung(PicturePath, Option<OutfitId>),
    /// It is another of this folder, byte for byte, by its place.
    Same(usize),
    /// To an outfit that is there.
    Outfit(OutfitId, Why),
    /// To the draft that begins with the picture at this place, which may be itself and is never a later one.
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
    /// It goes with this file of the same folder, which belongs to it.
    With(PathBuf, Kin),
}

/// Why two pictures of a folder go together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kin {
    /// They are alike.
    Like,
    /// Their files have one name but for a number.
    Named,
}

/// Where each of the pictures belongs, in their order. What is surest comes first for all of them, so that it does not
/// matter which file's name comes first: names and contents, then likeness to what the board has, then kin in the folder.
pub(super) fn groups(board: &Board, scans: &[Scan], hung: &[Hung]) -> Vec<Belongs> {
    let named: Vec<Option<Belongs>> = scans.iter().map(|scan| by_name(board, scan)).collect();
    let mut found: Vec<Option<Belongs>> = Vec::with_capacity(scans.len());
    for (at, scan) in scans.iter().enumerate() {
        found.push(by_content(scan, hung).or_else(|| same(scans, &named, at)).or_else(|| named[at].clone()));
    }
    for (scan, found) in scans.iter().zip(&mut found) {
        if found.is_none() {
            *found = by_likeness(scan, hung);
        }
    }
    let placed = (0..scans.len()).filter(|at| found[*at].is_some()).collect();
    spread(scans, &mut found, placed);
    for at in 0..scans.len() {
        if found[at].is_none() {
            found[at] = Some(Belongs::Draft(at));
            spread(scans, &mut found, vec![at]);
        }
    }
    found.into_iter().enumerate().map(|(at, belongs)| belongs.unwrap_or(Belongs::Draft(at))).collect()
}

fn by_content(scan: &Scan, hung: &[Hung]) -> Option<Belongs> {
    let same = hung.iter().find(|one| one.content == Some(scan.content))?;
    Some(Belongs::Hung(same.path.clone(), same.outfit.clone()))
}

/// Of files that are the same that one counts which is named as an outfit, else the first.
fn same(scans: &[Scan], named: &[Option<Belongs>], at: usize) -> Option<Belongs> {
    let is_same = |other: &usize| scans[*other].content == scans[at].content;
    let is_named = |other: &usize| named[*other].is_some();
    let all = || (0..scans.len()).filter(is_same);
    let counts = all().find(is_named).or_else(|| all().next())?;
    (counts != at).then_some(Belongs::Same(counts))
}

fn by_name(board: &Board, scan: &Scan) -> Option<Belongs> {
    let by_id = || Some(Belongs::Outfit(by_id(board, scan)?, Why::Id));
    by_id().or_else(|| Some(Belongs::Outfit(by_title(board, scan)?, Why::Title)))
}

fn by_likeness(scan: &Scan, hung: &[Hung]) -> Option<Belongs> {
    let near = hung.iter().filter_map(|one| {
        let apart = apart(&one.likeness, &scan.likeness).filter(|apart| *apart <= ALIKE)?;
        Some((apart, one.outfit.as_ref()?, &one.path))
    });
    let (_, outfit, path) = near.min_by_key(|(apart, ..)| *apart)?;
    Some(Belongs::Outfit(outfit.clone(), Why::Like(path.clone())))
}

/// Gives the kin of these pictures the same place, then their kin, until there are no more.
fn spread(scans: &[Scan], found: &mut [Option<Belongs>], mut edge: Vec<usize>) {
    while !edge.is_empty() {
        let mut next = Vec::new();
        for at in 0..scans.len() {
            if found[at].is_some() {
                continue;
            }
            let kin = edge.iter().filter_map(|other| {
                let (apart, kin) = kin(&scans[*other], &scans[at])?;
                let file = || scans[*other].file.clone();
                let belongs = match found[*other].as_ref()? {
                    Belongs::Outfit(id, _) | Belongs::Hung(_, Some(id)) => {
                        Belongs::Outfit(id.clone(), Why::With(file(), kin))
                    }
                    Belongs::Draft(first) => Belongs::Draft(*first),
                    Belongs::Hung(_, None) | Belongs::Same(_) => return None,
                };
                Some((apart, belongs))
            });
            next.extend(kin.min_by_key(|(apart, _)| *apart).map(|(_, belongs)| (at, belongs)));
        }
        edge = next.iter().map(|(at, _)| *at).collect();
        for (at, belongs) in next {
            found[at] = Some(belongs);
        }
    }
}

/// Whether two pictures of the folder go together, and how far apart they are; names count less than any likeness.
fn kin(one: &Scan, other: &Scan) -> Option<(u32, Kin)> {
    match apart(&one.likeness, &other.likeness) {
        Some(apart) if apart <= ALIKE => Some((apart, Kin::Like)),
        _ => has_same_words(one, other).then_some((u32::MAX, Kin::Named)),
    }
}

/// How far apart two pictures are that there is something to see in.
fn apart(one: &Option<Likeness>, other: &Option<Likeness>) -> Option<u32> {
    let (one, other) = (one.as_ref()?, other.as_ref()?);
    (!one.is_plain() && !other.is_plain()).then(|| one.apart(other))
}

/// An outfit by the name of the file: its id, or its id and a number that says which of several it is. A year is no such
/// number, and a day in the name that is not the outfit's means another outfit.
fn by_id(board: &Board, scan: &Scan) -> Option<OutfitId> {
    let stem = scan.file.file_stem()?.to_string_lossy();
    let id = OutfitId::from_title(&stem)?;
    if board.outfit(&id).is_some() {
        return Some(id);
    }
    let (plain, number) = id.as_str().rsplit_once('-')?;
    let is_counter = number.len() <= COUNTER && number.bytes().all(|byte| byte.is_ascii_digit());
    let id: OutfitId = plain.parse().ok()?;
    let outfit = board.outfit(&id).filter(|_| is_counter)?;
    let worn = &scan.named.worn;
    // A day that the id holds says no more than the id.
    let is_its_day = worn.is_none() || *worn == outfit.worn || *worn == Named::of(id.as_str()).worn;
    is_its_day.then_some(id)
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
