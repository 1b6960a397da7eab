mod placing;

use std::fs;
use std::path::Path;

use image::{ImageFormat, Rgb, RgbImage};

use super::*;
use crate::album::Album;
use crate::board::{Board, sample};

/// A picture of patches, others for each seed.
fn picture(seed: u32, (width, height): (u32, u32)) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        let (column, row) = (x * 6 / width, y * 8 / height);
        let mut mixed = (column + 8 * row + 101 * seed).wrapping_mul(0x9e37_79b9);
        mixed ^= mixed >> 15;
        let light = (mixed.wrapping_mul(0x85eb_ca6b) >> 24) as u8;
        Rgb([light, light / 2 + 60, 255 - light])
    })
}

fn save(folder: &Path, name: &str, seed: u32, size: (u32, u32)) {
    picture(seed, size).save_with_format(folder.join(name), ImageFormat::Png).unwrap();
}

fn wanted() -> Wanted {
    Wanted { character: "odile".parse().unwrap(), own_day_is_worn: false, take_colours: false }
}

fn brought(board: &Board, folder: &Path, wanted: &Wanted) -> Brought {
    let scans = scanned(&files(folder).unwrap());
    Brought::of(board, scans, &[], wanted, |_, _| Lying::Nothing)
}

#[test]
fn each_picture_is_a_draft_and_those_that_are_alike_are_one() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "1926-08-14 channel start.png", 1, (240, 320));
    save(folder.path(), "another print.png", 1, (180, 240));
    save(folder.path(), "ball gown 1930.png", 2, (240, 320));
    let board = sample::board();
    let brought = brought(&board, folder.path(), &wanted());
    let mut after = board.clone();
    let inverse = after.apply(brought.edit.as_ref().unwrap()).unwrap();
    let start = after.outfit(&"channel-start".parse().unwrap()).unwrap();
    assert_eq!(start.worn.as_ref().unwrap().to_string(), "1926-08-14");
    assert_eq!(start.pictures.len(), 2, "the other print is of the same");
    assert_eq!(start.evidence.len(), 2);
    assert_eq!(start.evidence[0].source, "1926-08-14 channel start.png");
    assert_eq!(start.tags, ["draft"]);
    let gown = after.outfit(&"ball-gown".parse().unwrap()).unwrap();
    assert_eq!(gown.pictures[0].as_str(), "images/ball-gown.png");
    assert_eq!(brought.copies.len(), 3);
    after.apply(&inverse).unwrap();
    assert_eq!(after.records(), board.records(), "one undo takes all of it back");
}

#[test]
fn a_file_named_as_an_outfit_is_a_further_source_of_it() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "smock.png", 1, (240, 320));
    save(folder.path(), "smock-2.png", 2, (240, 320));
    let board = sample::board();
    let brought = brought(&board, folder.path(), &wanted());
    let mut after = board.clone();
    after.apply(brought.edit.as_ref().unwrap()).unwrap();
    let smock = after.outfit(&"smock".parse().unwrap()).unwrap();
    let paths: Vec<&str> = smock.pictures.iter().map(|path| path.as_str()).collect();
    assert_eq!(paths, ["images/smock.png", "images/smock-2.png"]);
    assert_eq!(after.records().outfits.len(), board.records().outfits.len());
    assert!(brought.told.iter().all(|told| matches!(told.place, Place::Source(_, Why::Id))));
}

#[test]
fn what_the_board_has_changes_nothing_and_what_is_like_it_is_a_further_source() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "a.png", 3, (240, 320));
    let board = sample::board();
    let first = brought(&board, folder.path(), &wanted());
    let mut after = board.clone();
    after.apply(first.edit.as_ref().unwrap()).unwrap();
    let place = tempfile::tempdir().unwrap();
    let album = Album::of(place.path());
    album.add(&first.copies[0].to, &fs::read(folder.path().join("a.png")).unwrap()).unwrap();
    save(folder.path(), "smaller print.png", 3, (150, 200));
    let scans = scanned(&files(folder.path()).unwrap());
    let hung = hung(&after, &album, &scans);
    let again = Brought::of(&after, scans, &hung, &wanted(), |path, content| lying(&album, path, content));
    assert_eq!(again.told[0].place, Place::Hung(first.copies[0].to.clone()));
    assert!(matches!(again.told[1].place, Place::Source(_, Why::Like(_))), "{:?}", again.told[1].place);
    assert_eq!(again.copies.len(), 1);
    assert_ne!(again.copies[0].to, first.copies[0].to, "nothing is overwritten");
}

#[test]
fn the_same_file_twice_is_brought_in_once() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "a.png", 3, (240, 320));
    fs::copy(folder.path().join("a.png"), folder.path().join("b.png")).unwrap();
    let brought = brought(&sample::board(), folder.path(), &wanted());
    assert_eq!(brought.copies.len(), 1);
    assert!(matches!(brought.told[1].place, Place::Twice(_)));
}

#[test]
fn a_path_at_which_anything_lies_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "smock.png", 1, (240, 320));
    let scans = scanned(&files(folder.path()).unwrap());
    let brought = Brought::of(&sample::board(), scans, &[], &wanted(), |path, _| {
        if path.as_str() == "images/smock.png" { Lying::Other } else { Lying::Nothing }
    });
    assert_eq!(brought.copies[0].to.as_str(), "images/smock-2.png");
}

#[test]
fn what_is_no_picture_is_named_and_the_others_come_in() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "good.png", 1, (240, 320));
    fs::write(folder.path().join("list.txt"), "names").unwrap();
    fs::write(folder.path().join("empty.jpg"), "").unwrap();
    let whole = fs::read(folder.path().join("good.png")).unwrap();
    fs::write(folder.path().join("cut.png"), &whole[..whole.len() / 2]).unwrap();
    let brought = brought(&sample::board(), folder.path(), &wanted());
    let wrong: Vec<String> = brought
        .wrong
        .iter()
        .map(|(file, _)| file.file_name().unwrap().to_string_lossy().into_owned())
        .collect();
    assert_eq!(wrong, ["cut.png", "empty.jpg", "list.txt"]);
    assert_eq!(brought.copies.len(), 1);
}

#[test]
fn colours_become_a_piece_only_where_somebody_says_so() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "robe.png", 1, (240, 320));
    let board = sample::board();
    let draft = |take_colours| {
        let brought = brought(&board, folder.path(), &Wanted { take_colours, ..wanted() });
        let mut after = board.clone();
        after.apply(brought.edit.as_ref().unwrap()).unwrap();
        after.outfit(&"robe".parse().unwrap()).unwrap().clone()
    };
    assert!(draft(false).pieces.is_empty());
    assert!(draft(false).notes.contains("not the cloth's"));
    assert!(!draft(true).pieces[0].colours.is_empty());
}
