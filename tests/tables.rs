//! What a report writes as CSV can be brought in again.

#![allow(clippy::unwrap_used, reason = "a table that does not read back is a failed claim")]

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use proptest::prelude::*;

use shirr::board::*;
use shirr::bring::table::{Brought, Grid, Kind};
use shirr::report::{Csv, Report, Text};

#[path = "../src/board/sample/mod.rs"]
mod sample;

use sample::arbitrary::sound_records;

fn exported(report: Report, board: &Board) -> Grid {
    Grid::read(Csv.write(&report.document(board)).as_bytes(), None).unwrap()
}

fn fits(brought: &Brought) -> Result<(), TestCaseError> {
    let wrong: Vec<String> = brought.wrong.iter().map(ToString::to_string).collect();
    prop_assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

fn after(board: &Board, brought: &Brought) -> Board {
    let mut after = board.clone();
    if let Some(edit) = &brought.edit {
        after.apply(edit).unwrap();
    }
    after
}

/// The text on as many lines as it has, without blanks around it: more a table does not keep.
fn tidy(text: &mut String) {
    *text = text.trim().to_owned();
}

/// On one line, as an item of a list.
fn tidy_item(text: &str) -> String {
    text.split('\n').map(str::trim).collect::<Vec<_>>().join(" ").trim().to_owned()
}

fn tidy_items(items: &mut Vec<String>) {
    *items = items.iter().map(|item| tidy_item(item)).filter(|item| !item.is_empty()).collect();
}

/// The outfit less what a table does not keep: blanks, empty items, a period that the date gives anyway, a reason
/// without words.
fn tidied(board: &Board, outfit: &Outfit) -> Outfit {
    let mut outfit = outfit.clone();
    for text in [&mut outfit.title, &mut outfit.occasion, &mut outfit.silhouette, &mut outfit.notes] {
        tidy(text);
    }
    tidy_items(&mut outfit.dressing);
    tidy_items(&mut outfit.tags);
    for piece in &mut outfit.pieces {
        piece.name = tidy_item(&piece.name);
        piece.cloth = tidy_item(&piece.cloth);
        tidy_items(&mut piece.details);
    }
    outfit.pieces.retain(|piece| *piece != Piece::default());
    for evidence in &mut outfit.evidence {
        for part in [&mut evidence.source, &mut evidence.credit, &mut evidence.rights, &mut evidence.notes] {
            *part = tidy_item(part);
        }
    }
    outfit.let_go = outfit.let_go.map(|reason| reason.trim().to_owned()).filter(|reason| !reason.is_empty());
    let dated = outfit.worn.as_ref().and_then(|worn| board.period_of_date(worn));
    outfit.period = outfit.period.filter(|period| Some(period) != dated);
    outfit.pictures.clear();
    outfit.wishes = Wishes::default();
    outfit
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn an_export_brought_into_the_same_board_changes_nothing(records in sound_records()) {
        let board = Board::new(records);
        for (report, kind, records) in [
            (Report::Outfits, Kind::Outfits, board.records().outfits.len()),
            (Report::Scenes, Kind::Scenes, board.scenes().len()),
            (Report::Schedule, Kind::Schedule, board.records().schedule.len()),
        ] {
            let brought = kind.bring(&board, &exported(report, &board));
            fits(&brought)?;
            prop_assert_eq!(brought.edit, None);
            prop_assert_eq!(brought.counts.unchanged, records, "{}", kind.word());
        }
    }

    #[test]
    fn outfits_that_lost_their_fields_get_them_back(records in sound_records()) {
        let full = Board::new(records.clone());
        let grid = exported(Report::Outfits, &full);
        let bare = |(id, outfit): (&OutfitId, &Arc<Outfit>)| {
            (id.clone(), Arc::new(Outfit::titled("", outfit.character.clone())))
        };
        let mut poor = records;
        poor.outfits = poor.outfits.iter().map(bare).collect();
        let poor = Board::new(poor);
        let brought = Kind::Outfits.bring(&poor, &grid);
        fits(&brought)?;
        let restored = after(&poor, &brought);
        let wanted: BTreeMap<OutfitId, Outfit> =
            full.records().outfits.iter().map(|(id, outfit)| (id.clone(), tidied(&full, outfit))).collect();
        let have: BTreeMap<OutfitId, Outfit> =
            restored.records().outfits.iter().map(|(id, outfit)| (id.clone(), Outfit::clone(outfit))).collect();
        prop_assert_eq!(have, wanted);
    }

    #[test]
    fn scenes_and_days_brought_into_an_empty_script_make_it_again(records in sound_records()) {
        let mut records = records;
        let mut days = Vec::clone(&records.schedule);
        days.sort_by_key(|day| day.day);
        days.dedup_by_key(|day| day.day);
        records.schedule = Arc::new(days);
        let full = Board::new(records.clone());
        let mut poor = records;
        poor.scenes.clear();
        poor.schedule = Arc::default();
        let poor = Board::new(poor);
        let brought = Kind::Scenes.bring(&poor, &exported(Report::Scenes, &full));
        fits(&brought)?;
        let restored = after(&poor, &brought);
        let sketch = |board: &Board| -> Vec<_> {
            let pairs = |scene: &Scene| -> BTreeMap<String, Option<LookId>> {
                scene.wears.iter().map(|(who, look)| (who.to_string(), look.clone())).collect()
            };
            let one = |(at, scene): (usize, &Scene)| {
                let period = board.relations().period_of_scene(at).cloned();
                let (place, light, day) = (scene.place, scene.light, scene.story_day);
                let set = scene.set_or_heading().trim().to_owned();
                (scene.number.clone(), set, place, light, day, scene.date.clone(), scene.pages, period, pairs(scene))
            };
            board.scenes().enumerate().map(one).collect()
        };
        prop_assert_eq!(sketch(&restored), sketch(&full));
        let brought = Kind::Schedule.bring(&restored, &exported(Report::Schedule, &full));
        fits(&brought)?;
        let tidied = |day: &ShootDay| {
            let mut day = day.clone();
            let mut seen = BTreeSet::new();
            day.scenes.retain(|number| seen.insert(number.clone()));
            tidy(&mut day.notes);
            day
        };
        let wanted: Vec<ShootDay> = full.records().schedule.iter().map(tidied).collect();
        let restored = after(&restored, &brought);
        prop_assert_eq!(&*restored.records().schedule, &wanted);
    }
}
