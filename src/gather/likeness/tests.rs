use super::*;
use crate::board::sample::{board, id};

fn likeness() -> (Board, Likeness) {
    let board = board();
    let likeness = Likeness::of(&board);
    (board, likeness)
}

#[test]
fn a_distance_is_the_same_both_ways_and_none_from_itself() {
    let (board, likeness) = likeness();
    let ids: Vec<OutfitId> = board.records().outfits.keys().cloned().collect();
    for one in &ids {
        assert_eq!(likeness.distance(one, one), 0.0);
        for other in &ids {
            let distance = likeness.distance(one, other);
            assert!((0.0..=1.0).contains(&distance));
            assert_eq!(distance, likeness.distance(other, one));
            let of_one = board.outfit(one).unwrap().character == board.outfit(other).unwrap().character;
            assert!(of_one || distance == 1.0);
        }
    }
    let matrix = likeness.matrix(&ids, &|| false).unwrap();
    assert_eq!(matrix[1], likeness.distance(&ids[0], &ids[1]) as f32);
    assert_eq!(likeness.matrix(&ids, &|| true), None);
    assert_eq!(likeness.distance(&ids[0], &id("nowhere")), 1.0);
}

#[test]
fn what_is_explained_adds_up_to_the_distance() {
    let (board, likeness) = likeness();
    let ids: Vec<&OutfitId> = board.records().outfits.keys().collect();
    let mut explained = 0;
    for one in &ids {
        for other in &ids {
            if let Some(found) = likeness.explain(one, other).filter(|_| one != other) {
                let sum: f64 = found.parts.iter().map(|part| part.adds).sum();
                let nothing = found.parts.iter().all(|part| part.distance.is_none());
                assert!(nothing || (sum - found.distance).abs() < 1e-6);
                explained += 1;
            }
        }
    }
    assert!(explained > 4);
}

#[test]
fn likeness_follows_the_board_as_if_made_anew() {
    let (mut board, mut likeness) = likeness();
    let ids: Vec<OutfitId> = board.records().outfits.keys().cloned().collect();
    let edits = [
        board.change_outfit(&ids[0], "", |outfit| outfit.silhouette = "quite another".into()).unwrap(),
        board.change_head("", |head| head.gather.weights.date = crate::board::Weight::new(9.0)),
    ];
    for edit in edits {
        board.apply(&edit).unwrap();
        likeness.follow(&board);
        let anew = Likeness::of(&board);
        for one in &ids {
            for other in &ids {
                assert!((likeness.distance(one, other) - anew.distance(one, other)).abs() < 1e-6);
            }
        }
    }
}

#[test]
fn the_boards_own_weights_count() {
    let (mut board, _) = likeness();
    let only_date = board.change_head("", |head| {
        let zero = crate::board::Weight::new(0.0);
        head.gather.weights = crate::board::Weights {
            pieces: zero,
            silhouette: zero,
            cloth: zero,
            occasion: zero,
            colours: zero,
            threads: zero,
            date: None,
        };
        head.gather.years_apart = crate::board::Reach::new(1000.0);
    });
    board.apply(&only_date).unwrap();
    let likeness = Likeness::of(&board);
    let (one, other) = (id("smock"), id("gala-gown"));
    let day = |id: &OutfitId| board.outfit(id).unwrap().worn.as_ref().unwrap().middle().unwrap().number();
    let years = (day(&one) - day(&other)).abs() as f64 / 365.25;
    assert!((likeness.distance(&one, &other) - years / 1000.0).abs() < 1e-6);
}

#[test]
fn a_stretch_keeps_nothing_and_across_many_years_only_what_is_near_stands() {
    let mut records = crate::board::sample::records();
    let mut add = |id: &str, worn: &str, occasion: &str| {
        let outfit = serde_json::json!({
            "title": id, "character": "odile", "worn": worn, "occasion": occasion, "pieces": [{"name": "coat"}],
        });
        records.outfits.insert(id.parse().unwrap(), Arc::new(serde_json::from_value(outfit).unwrap()));
    };
    add("market", "1920", "market");
    add("funeral", "1921", "funeral");
    add("wedding", "1940", "wedding");
    add("fair", "1940", "market");
    let board = Board::new(records);
    let of = |likeness: &Likeness, other: &str| {
        let (one, other) = (id("market"), id(other));
        let told = likeness.explain(&one, &other).unwrap();
        (told.alike(), told.is_stretch(), likeness.distance(&one, &other))
    };
    // Occasion counts 4, pieces 3, date 2 and threads, of which neither has any, nothing.
    let likeness = Likeness::of(&board);
    let (alike, is_stretch, distance) = of(&likeness, "funeral");
    assert!((alike - (3.0 + 2.0 * 11.0 / 12.0) / 9.0).abs() < 1e-3 && !is_stretch && distance == 1.0 - alike);
    let (alike, is_stretch, distance) = of(&likeness, "wedding");
    assert!((alike - 3.0 / 9.0).abs() < 1e-6 && is_stretch && distance == 1.0);
    let (alike, is_stretch, distance) = of(&likeness, "fair");
    assert!((alike - 7.0 / 9.0).abs() < 1e-6 && !is_stretch && distance < 1.0);
    // What is a stretch across twenty years is none where the board says that twenty are not so many.
    let mut board = board;
    for (years, is_stretch) in [(20.0, true), (40.0, false)] {
        let edit = board.change_head("", |head| {
            head.gather.years_apart = crate::board::Reach::new(years);
            head.gather.weights.pieces = crate::board::Weight::new(4.0);
            head.gather.weights.occasion = crate::board::Weight::new(4.2);
        });
        board.apply(&edit).unwrap();
        assert_eq!(of(&Likeness::of(&board), "wedding").1, is_stretch, "{years}");
    }
}
