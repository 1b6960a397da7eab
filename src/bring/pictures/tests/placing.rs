//! Where pictures belong, whichever file's name comes first.

use super::*;
use crate::board::{Edit, Fitting, Outfit, OutfitId, PicturePath, Records};

/// The sample with its records changed.
fn changed(change: impl FnOnce(&mut Records)) -> Board {
    let mut board = sample::board();
    let mut after = board.records().clone();
    change(&mut after);
    let edit = Edit::between("test", board.records(), &after);
    board.apply(&edit).unwrap();
    board
}

/// Where the pictures of a folder go, by file.
fn places(board: &Board, folder: &Path, hung: &[Hung]) -> Vec<(String, Place)> {
    let scans = scanned(&files(folder).unwrap());
    let brought = Brought::of(board, scans, hung, &wanted(), |_, _| Lying::Nothing);
    brought.told.into_iter().map(|told| (file_name(&told.file), told.place)).collect()
}

#[test]
fn a_year_behind_an_outfits_name_is_no_counter() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "smock 1899.png", 1, (240, 320));
    save(folder.path(), "smock 12.png", 2, (240, 320));
    let places = places(&sample::board(), folder.path(), &[]);
    assert_eq!(places[0].1, Place::Source("smock".parse().unwrap(), Why::Id));
    assert!(matches!(places[1].1, Place::Draft(..)), "{:?}", places[1]);
}

#[test]
fn a_day_in_the_name_that_is_not_the_outfits_means_another_outfit() {
    let folder = tempfile::tempdir().unwrap();
    for (seed, name) in (1..).zip(["robe-1926-05.png", "robe-1926-08.png", "robe-1926-2.png"]) {
        save(folder.path(), name, seed, (240, 320));
    }
    let board = changed(|records| {
        let mut robe = Outfit::titled("Evening wrap", "odile".parse().unwrap());
        robe.worn = Some("1926-05".parse().unwrap());
        records.outfits.insert("robe-1926".parse().unwrap(), robe.into());
    });
    let places = places(&board, folder.path(), &[]);
    let is_its = |name: &str| {
        let (_, place) = places.iter().find(|(file, _)| file == name).unwrap();
        *place == Place::Source("robe-1926".parse().unwrap(), Why::Id)
    };
    assert!(is_its("robe-1926-05.png") && is_its("robe-1926-2.png"), "{places:?}");
    assert!(!is_its("robe-1926-08.png"), "{places:?}");
}

#[test]
fn a_picture_like_one_that_is_named_as_an_outfit_goes_with_it_whatever_its_name() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "smock.png", 1, (240, 320));
    save(folder.path(), "another print.png", 1, (180, 240));
    save(folder.path(), "yet another print.png", 1, (150, 200));
    let smock: OutfitId = "smock".parse().unwrap();
    let why = Why::With(folder.path().join("smock.png"), Kin::Like);
    let with = Place::Source(smock.clone(), why);
    let places: Vec<Place> =
        places(&sample::board(), folder.path(), &[]).into_iter().map(|(_, place)| place).collect();
    assert_eq!(places, [with.clone(), Place::Source(smock, Why::Id), with]);
}

#[test]
fn a_picture_named_as_one_that_is_like_the_boards_is_told_as_named_so() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "lido 1.png", 1, (240, 320));
    save(folder.path(), "lido 2.png", 2, (240, 320));
    let outfit: OutfitId = "smock".parse().unwrap();
    let path: PicturePath = "images/x.png".parse().unwrap();
    let scans = scanned(&[folder.path().join("lido 2.png")]);
    let likeness = scans[0].as_ref().unwrap().likeness;
    let hung = [Hung { outfit: Some(outfit.clone()), path: path.clone(), content: None, likeness }];
    let places = places(&sample::board(), folder.path(), &hung);
    let named = Why::With(folder.path().join("lido 2.png"), Kin::Named);
    assert_eq!(places[0].1, Place::Source(outfit.clone(), named));
    assert_eq!(places[1].1, Place::Source(outfit, Why::Like(path)));
}

#[test]
fn of_two_files_that_are_the_same_the_one_named_as_an_outfit_counts() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "smock.png", 1, (240, 320));
    fs::copy(folder.path().join("smock.png"), folder.path().join("a.png")).unwrap();
    let places = places(&sample::board(), folder.path(), &[]);
    assert_eq!(places[0].1, Place::Twice(folder.path().join("smock.png")));
    assert_eq!(places[1].1, Place::Source("smock".parse().unwrap(), Why::Id));
}

#[test]
fn a_picture_of_a_fitting_is_on_the_board_and_no_source_of_what_is_like_it() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "fitted.png", 1, (240, 320));
    save(folder.path(), "smaller print.png", 1, (150, 200));
    let path: PicturePath = "images/fitting.png".parse().unwrap();
    let board = changed(|records| {
        let look = records.looks.values_mut().next().unwrap();
        let pictures = vec![path.clone()];
        let on = "2026-03-02".parse().unwrap();
        let fitting = Fitting { on, wearer: None, found: Vec::new(), pictures, notes: String::new() };
        std::sync::Arc::make_mut(look).fittings.push(fitting);
    });
    let home = tempfile::tempdir().unwrap();
    let album = Album::of(home.path());
    album.add(&path, &fs::read(folder.path().join("fitted.png")).unwrap()).unwrap();
    let hung = hung(&board, &album, &scanned(&files(folder.path()).unwrap()));
    let places = places(&board, folder.path(), &hung);
    assert_eq!(places[0].1, Place::Hung(path));
    assert!(matches!(places[1].1, Place::Draft(..)), "{places:?}");
}

#[test]
fn what_an_undo_left_behind_is_named_again_and_not_copied() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "smock.png", 1, (240, 320));
    save(folder.path(), "smock-2.png", 2, (240, 320));
    let home = tempfile::tempdir().unwrap();
    let album = Album::of(home.path());
    let board = sample::board();
    let bring = || {
        let scans = scanned(&files(folder.path()).unwrap());
        let hung = hung(&board, &album, &scans);
        Brought::of(&board, scans, &hung, &wanted(), |path, content| lying(&album, path, content))
    };
    let first = bring();
    copy(&album, &first.copies).unwrap();
    let again = bring();
    assert_eq!((first.copies.len(), again.copies.len()), (2, 0));
    assert_eq!(again.edit, first.edit);
}

#[test]
fn what_turns_text_round_in_a_files_name_comes_into_no_record() {
    let folder = tempfile::tempdir().unwrap();
    save(folder.path(), "night \u{202e}ebor.png", 1, (240, 320));
    let board = sample::board();
    let brought = brought(&board, folder.path(), &wanted());
    let mut after = board.clone();
    after.apply(brought.edit.as_ref().unwrap()).unwrap();
    let robe = after.outfit(&"night-ebor".parse().unwrap()).unwrap();
    assert_eq!((robe.title.as_str(), robe.evidence[0].source.as_str()), ("Night ebor", "night ebor.png"));
}
