//! What a table does to a board.

use serde_json::{Value, json};

use super::*;
use crate::board::Outfit;
use crate::board::sample::{id, numbers};
use crate::check::sample;
use crate::plot::Hazard;

fn bring(kind: Kind, board: &Board, text: &str) -> Brought {
    kind.bring(board, &Grid::read(text.as_bytes(), None).unwrap())
}

/// The board after a table without errors.
#[track_caller]
fn after(kind: Kind, board: &Board, text: &str) -> Board {
    let brought = bring(kind, board, text);
    assert_eq!(brought.wrong, [], "{text}");
    let mut after = board.clone();
    after.apply(&brought.edit.expect("something is changed")).unwrap();
    after
}

#[track_caller]
fn wrong(kind: Kind, board: &Board, text: &str) -> Vec<String> {
    let brought = bring(kind, board, text);
    assert_eq!(brought.edit, None);
    brought.wrong.iter().map(ToString::to_string).collect()
}

fn board() -> Board {
    sample::board(json!({
        "head": {"threads": [{"id": "cap", "title": "The cap"}]},
        "outfits": {
            "smock": {"title": "Quay smock", "worn": "1920", "notes": "torn", "tags": ["wet"]},
            "ben-smock": {"title": "Quay smock", "character": "ben"},
        },
        "looks": {
            "quay": {"title": "Quay", "base": "smock"},
            "coat": {"title": "Pilot coat", "treatment": "invent", "character": "ben"},
        },
        "scenes": [
            {"scene": 1, "set": "Mole", "pages": "1 3/8", "wears": {"ada": "quay"}},
            {"scene": 2, "wears": {"ben": null}},
            {"scene": 4},
        ],
        "schedule": [{"day": 1, "date": "2027-07-05", "scenes": [2]}, {"day": 3, "scenes": [1]}],
    }))
}

fn tree(outfit: &Outfit) -> Value {
    serde_json::to_value(outfit).unwrap()
}

#[test]
fn only_what_has_a_column_and_a_filled_cell_is_changed() {
    let board = board();
    let after = after(
        Kind::Outfits,
        &board,
        "Outfit,Role,Date worn,Notes,Known,Mood\nQuay smock,ada,c. 1921,,4,calm\n",
    );
    let smock = tree(after.outfit(&id("smock")).unwrap());
    assert_eq!(
        smock,
        json!({"title": "Quay smock", "character": "ada", "worn": "1921~", "recognition": 4, "notes": "torn", "tags": ["wet"]})
    );
    assert_eq!(after.outfit(&id("ben-smock")), board.outfit(&id("ben-smock")));
}

#[test]
fn a_new_outfit_takes_all_that_a_row_says() {
    let text = "Title;Character;Worn;Period;Pieces;Threads;Evidence;Let go;Dressing\n\
                Gala gown;Ada;1927;late;\"gown | silk | ivory, #fff | bias cut | no lining\nstole | fur\";The cap;\
                \"film; written | letter 4 | Rose\";dull;\"hem wet; collar up\"\n";
    let after = after(Kind::Outfits, &board(), text);
    assert_eq!(
        tree(after.outfit(&id("gala-gown")).unwrap()),
        json!({
            "title": "Gala gown", "character": "ada", "worn": 1927, "recognition": 0, "threads": ["cap"],
            "let-go": "dull", "dressing": ["hem wet", "collar up"],
            "pieces": [
                {"name": "gown", "cloth": "silk", "colours": ["ivory", "#fff"], "details": ["bias cut", "no lining"]},
                {"name": "stole", "cloth": "fur"},
            ],
            "evidence": [{"kind": "film"}, {"kind": "written", "source": "letter 4", "credit": "Rose"}],
        }),
        "the period is the one that the date gives"
    );
}

#[test]
fn every_error_has_its_row_and_heading_and_nothing_is_changed() {
    let text = "id,title,character,worn,known,pieces,threads,evidence\n\
                smock,,,,6,,,\n\
                ,Gown,Eve,1921,1,,,\n\
                ,Robe,ada,soonish,1,coat||nile,The cat,foto\n\
                ,Coat,,1921,,,,\n\
                Not an id,Coat,ada,1921,,,,\n\
                ,,ada,1921,,,,\n\
                smock,,,1921,,,,\n\
                ,Hood,ada,1921,,,,,,over\n";
    let wrong = wrong(Kind::Outfits, &board(), text);
    let starts = [
        "row 2, Recognition: `6` is no recognition: expected 0",
        "row 3, Character: there is no character `Eve`: ",
        "row 4, Worn: ",
        "row 4, Pieces: `nile` is no colour",
        "row 4, Threads: there is no thread `The cat`: did you mean `The cap`?",
        "row 4, Evidence: `foto` is no kind of source",
        "row 5, Character: expected who wears it: one of `ada`, `ben`",
        "row 6, Id: `Not an id` is no id",
        "row 7, Title: expected a title",
        "row 8: it is the same outfit as in row 2",
        "row 9: `over` stands under no heading",
    ];
    assert_eq!(wrong.len(), starts.len(), "{wrong:#?}");
    for (wrong, start) in wrong.iter().zip(starts) {
        assert!(wrong.starts_with(start), "{wrong}\n{start}");
    }
}

#[test]
fn new_outfits_whose_titles_give_no_id_or_one_that_is_taken_are_numbered() {
    let text = "title,character\n海の服,ada\nQuay: coat,ada\n山の服,ada\nQuay coat,ada\nquay-smock,ada\nQuay smock!,ada\n";
    let after = after(Kind::Outfits, &board(), text);
    for (id, title) in [
        ("outfit", "海の服"),
        ("outfit-2", "山の服"),
        ("quay-coat", "Quay: coat"),
        ("quay-coat-2", "Quay coat"),
        ("quay-smock", "quay-smock"),
        ("quay-smock-2", "Quay smock!"),
    ] {
        assert_eq!(after.outfit(&self::id(id)).map(|outfit| outfit.title.as_str()), Some(title), "{id}");
    }
}

#[test]
fn two_rows_of_one_new_outfit_and_a_title_of_two_are_not_guessed() {
    let board = board();
    let twice = wrong(Kind::Outfits, &board, "title,character\nGown,ada\nGown,Ada\n");
    assert_eq!(twice, ["row 3: it is the same outfit as in row 2"]);
    let of_two = wrong(Kind::Outfits, &board, "title,notes\nQuay smock,x\n");
    assert!(of_two[0].starts_with("row 2, Title: more than one outfit is called so"), "{of_two:?}");
}

#[test]
fn what_would_break_a_rule_is_refused_with_the_rule() {
    let wrong = wrong(Kind::Outfits, &board(), "id,let go\nsmock,dull\n");
    assert_eq!(wrong, ["outfit `smock` is let go, and look `quay` holds it"]);
}

#[test]
fn several_rows_of_one_scene_are_one_scene() {
    let text = "Scene no,INT/EXT,D/N,Set,Pages,Character,Look\n\
                1,,,,,Ben,pilot coat\n\
                3,INT.,N,Loft,2/8,Ada,Quay\n\
                ,,,,,Ben,\n\
                3,,,loft,,ada,\n\
                3A,E,,Mole,1.5,Ben,No look yet\n";
    // The set is said in two ways.
    let wrong = wrong(Kind::Scenes, &board(), text);
    assert_eq!(
        wrong,
        [
            "row 5, Set: `loft` is not what row 3 says, which is `Loft`",
            "row 5, Look: `` is not what row 3 says, which is `Quay`"
        ]
    );
    let text = text.replace("3,,,loft,,ada,\n", "");
    let after = after(Kind::Scenes, &board(), &text);
    assert_eq!(numbers(&after), ["1", "3", "3A", "2", "4"], "new scenes go behind the one before them");
    let scene = |number: &str| serde_json::to_value(after.scene(&number.parse().unwrap()).unwrap()).unwrap();
    assert_eq!(
        scene("3"),
        json!({"scene": 3, "set": "Loft", "where": "INT", "when": "night", "pages": "2/8", "wears": {"ada": "quay", "ben": null}})
    );
    assert_eq!(
        scene("3A"),
        json!({"scene": "3A", "set": "Mole", "where": "EXT", "pages": "1 4/8", "wears": {"ben": null}})
    );
    assert_eq!(scene("1")["wears"], json!({"ada": "quay", "ben": "coat"}), "nobody is sent away");
    assert_eq!(scene("1")["pages"], "1 3/8");
}

#[test]
fn a_new_scene_alone_goes_to_where_its_number_belongs() {
    let after = after(Kind::Scenes, &board(), "scene,set\n3,Loft\n");
    assert_eq!(numbers(&after), ["1", "2", "3", "4"]);
}

#[test]
fn new_scenes_before_between_and_behind_others_keep_the_order_of_the_table() {
    let order = |text: &str| numbers(&after(Kind::Scenes, &board(), text));
    assert_eq!(order("scene\n10\n11\n4\n12\n1\n13\n14\n"), ["1", "13", "14", "2", "10", "11", "4", "12"]);
    assert_eq!(order("scene\n10\n11\n2\n1\n13\n"), ["1", "13", "10", "11", "2", "4"]);
    assert_eq!(order("scene\n3\n9\n"), ["1", "2", "3", "4", "9"]);
    assert_eq!(order("scene\n9\n3\n"), ["1", "2", "3", "4", "9"]);
}

#[test]
fn new_scenes_behind_none_that_is_there_go_each_to_where_its_number_belongs() {
    let scenes: Vec<Value> = (1..=75).map(|number| json!({"scene": number})).collect();
    let board = sample::board(json!({"scenes": scenes}));
    let around = |text: &str, new: &[&str]| -> Vec<[String; 2]> {
        let numbers = numbers(&after(Kind::Scenes, &board, text));
        let at = |new: &&str| numbers.iter().position(|number| number == new).unwrap();
        new.iter().map(at).map(|at| [numbers[at - 1].clone(), numbers[at + 1].clone()]).collect()
    };
    let own = [["10", "11"], ["40", "41"]].map(|pair| pair.map(str::to_owned));
    assert_eq!(around("scene\n10A\n40A\n", &["10A", "40A"]), own);
    assert_eq!(around("scene\n40A\n10A\n", &["10A", "40A"]), own);
    assert_eq!(around("scene,set\n10A,\n40A,\n60,Loft\n", &["10A", "40A"]), own);
    let both = numbers(&after(Kind::Scenes, &board, "scene\n10B\n10A\n99\n"));
    assert_eq!(
        (&both[9..13], both.last().unwrap().as_str()),
        (["10", "10B", "10A", "11"].map(str::to_owned).as_slice(), "99")
    );
}

#[test]
fn errors_in_scenes_are_said_row_by_row() {
    let text = "Scene,Pages,INT/EXT,Day/night,Story day,Character,Look\n\
                1,two,,,,,\nx,,,,,,\n2,,sea,noon,1,Eve,\n4,,,,,Ada,pilot coat\n5,,,,,,Quay\n";
    let wrong = wrong(Kind::Scenes, &board(), text);
    let starts = [
        "row 2, Pages: `two` is no page count: expected pages and eighths such as `1 3/8`",
        "row 3, Scene: `x` is no scene number",
        "row 4, INT/EXT: `sea`",
        "row 4, Day/night: `noon`",
        "row 4, Story day: `1` is no story day",
        "row 4, Character: there is no character `Eve`",
        "row 5, Look: there is no look of theirs `pilot coat`",
        "row 6, Character: expected who wears `Quay`",
    ];
    assert_eq!(wrong.len(), starts.len(), "{wrong:#?}");
    for (wrong, start) in wrong.iter().zip(starts) {
        assert!(wrong.starts_with(start), "{wrong}\n{start}");
    }
}

#[test]
fn a_day_has_its_scenes_in_one_cell_or_in_a_row_each() {
    for text in [
        "Day,Date,Scenes,Notes\n1,,\"4, 2\",fog\n2,6 July 2027,1,\n",
        "Day,Date,Scene,Notes\nDay 1,5 July 2027,4,fog\n,,2,\n2,2027-07-06,1,\n",
    ] {
        let after = after(Kind::Schedule, &board(), text);
        assert_eq!(
            serde_json::to_value(&after.records().schedule).unwrap(),
            json!([
                {"day": 1, "date": "2027-07-05", "scenes": [4, 2], "notes": "fog"},
                {"day": 2, "date": "2027-07-06", "scenes": [1]},
                {"day": 3, "scenes": [1]},
            ]),
            "{text}"
        );
    }
}

#[test]
fn what_falls_off_the_schedule_or_stands_on_two_days_is_told_before_the_change() {
    let notices = |text: &str| bring(Kind::Schedule, &board(), text).notices;
    assert_eq!(
        notices("Day,Date,Scenes\n1,,1\n4,2027-07-01,4\n"),
        [
            "scene 2 falls off the schedule: it stood on day 1",
            "scene 1 stands on days 1 and 3",
            "day 4 (2027-07-01) is dated before day 1 (2027-07-05)",
        ]
    );
    assert_eq!(notices("Day,Date\n3,2027-07-05\n"), ["2027-07-05 is the date of days 1 and 3"]);
    assert_eq!(notices("Day,Scenes\n1,1\n3,2\n"), [""; 0], "they change places");
    assert_eq!(notices("Day,Scenes\n1,1\n9,99\n"), [""; 0], "nothing is changed");
}

#[test]
fn notes_of_several_rows_lose_each_its_own_guard_and_none_is_said_twice() {
    let text = "Day,Scene,Notes\n1,2,'-3 degrees\n,4,fog\n,1,'-3  degrees\n,,'=tide\n";
    let after = after(Kind::Schedule, &board(), text);
    assert_eq!(after.records().schedule[0].notes, "-3 degrees\nfog\n=tide");
    let again = bring(Kind::Schedule, &after, text);
    assert_eq!((again.wrong.len(), again.edit), (0, None));
}

#[test]
fn what_changes_is_told_field_by_field_as_the_table_says_it() {
    let told = |kind: Kind, text: &str| -> Vec<String> {
        let board = board();
        let brought = bring(kind, &board, text);
        assert_eq!(brought.wrong, [], "{text}");
        let altered = brought.altered(&board);
        let fields = altered.iter().flat_map(|one| one.fields.iter().map(move |field| (one, field)));
        fields
            .map(|(one, AlteredField { field, was, becomes })| {
                format!("{}{}, {field}: {was} > {becomes}", if one.is_new { "new " } else { "" }, one.record)
            })
            .collect()
    };
    assert_eq!(
        told(Kind::Outfits, "Id,Title,Character,Worn,Tags\nsmock,,,1921,wet; cold\n,Hood,Ben,1912,\n"),
        [
            "outfit `smock`, Worn: 1920 > 1921",
            "outfit `smock`, Tags: wet > wet; cold",
            "new outfit `hood`, Title:  > Hood",
            "new outfit `hood`, Character:  > Ben",
            "new outfit `hood`, Worn:  > 1912",
            "new outfit `hood`, Period:  > Early",
            "new outfit `hood`, Recognition:  > 0",
        ]
    );
    assert_eq!(
        told(Kind::Scenes, "Scene,Pages,Character,Look\n1,2,Ben,Pilot coat\n4,,Ada,\n"),
        [
            "scene 1, Pages: 1 3/8 > 2",
            "scene 1, Look of Ben:  > Pilot coat",
            "scene 4, Look of Ada:  > no look yet",
        ]
    );
    assert_eq!(
        told(Kind::Schedule, "Day,Scenes\n1,\"2, 4\"\n2,4\n"),
        ["shooting day 1, Scenes: 2 > 2; 4", "new shooting day 2, Scenes:  > 4"]
    );
}

#[test]
fn errors_in_days_are_said_row_by_row() {
    let text = "Day,Date,Scenes\n1,soonish,2\nten,,2\n2,,9; x\n3,2027-07-05,1\n3,2027-07-06,2\n";
    let wrong = wrong(Kind::Schedule, &board(), text);
    let starts = [
        "row 2, Date: ",
        "row 3, Day: `ten` is no shooting day",
        "row 4, Scenes: there is no scene 9 on this board",
        "row 6, Date: `2027-07-06` is not what row 5 says",
    ];
    assert_eq!(wrong.len(), starts.len(), "{wrong:#?}");
    for (wrong, start) in wrong.iter().zip(starts) {
        assert!(wrong.starts_with(start), "{wrong}\n{start}");
    }
}

#[test]
fn what_stands_behind_a_table_is_left_alone_and_counted() {
    let text = "Day,Date,Scenes\n1,,2\n2,,1\n\nDay,Turn,Character,Scenes\n1,2,Ada,9\n";
    let brought = bring(Kind::Schedule, &board(), text);
    assert_eq!((brought.wrong.len(), brought.rows, brought.left), (0, 2, 2));
    let text = "The days,,\nDay,Date,Scenes\n1,,2\n2,,1\n\nWho wears what,,,\nDay,Turn,Character,Scenes\n1,2,Ada,9\n";
    let brought = bring(Kind::Schedule, &board(), text);
    assert_eq!((brought.wrong.len(), brought.rows, brought.left), (0, 2, 3), "{:?}", brought.wrong);
    // Without an empty row above it, a lone cell is a row like any other.
    let text = "Day,Date,Scenes\n1,,2\n2,,\nDay,Turn,Scenes\n1,2,9\n";
    assert_eq!(bring(Kind::Schedule, &board(), text).rows, 2);
    let ask = format!("{}: {}", Hazard::Water.word(), Hazard::Water.ask());
    let text = format!("Scene,Pages\n1,2\nScene,Pages\n2,2\n\"{ask}\",\n");
    let brought = bring(Kind::Scenes, &board(), &text);
    assert_eq!((brought.wrong.len(), brought.rows, brought.left), (0, 2, 2), "{:?}", brought.wrong);
}

#[test]
fn a_row_that_reads_like_a_remark_is_a_row() {
    let wrong = wrong(Kind::Outfits, &board(), "Title\nCoat of 1926.\nThe end.\n");
    assert_eq!(wrong.len(), 2, "{wrong:?}");
    assert!(wrong[0].starts_with("row 2, Character: expected who wears it"), "{wrong:?}");
    let alone = sample::board(json!({"head": {"characters": [{"id": "ada", "name": "Ada"}]}}));
    let after = after(Kind::Outfits, &alone, "Title\nCoat of 1926.\n");
    assert!(after.outfit(&id("coat-of-1926")).is_some());
}

#[test]
fn no_two_fields_of_a_kind_share_a_heading() {
    for kind in [Kind::Outfits, Kind::Scenes, Kind::Schedule] {
        let headings = kind.headings();
        for heading in &headings {
            for text in [heading.key, heading.name].iter().chain(heading.synonyms) {
                let read: Vec<&str> = headings
                    .iter()
                    .filter(|other| columns::heads(&headings, other.key, text))
                    .map(|other| other.key)
                    .collect();
                assert_eq!(read, [heading.key], "{text}");
            }
        }
    }
}

#[test]
fn a_table_without_what_is_needed_says_what_and_changes_nothing() {
    let board = board();
    assert!(
        wrong(Kind::Outfits, &board, "Colour,Size\nred,3\n")[0].starts_with("row 1, Id or Title: no column")
    );
    assert!(
        wrong(Kind::Schedule, &board, "Day\n1\n")[0].starts_with("row 1, Date or Scenes or Notes: no column")
    );
    assert!(
        wrong(Kind::Scenes, &board, "Scene,Look\n1,Quay\n")[0].contains("a column `Character` is missing")
    );
    assert!(wrong(Kind::Scenes, &board, "Scene,Pages,Pages (eighths)\n1,1,8\n")[0].contains("keep one"));
}

proptest::proptest! {
    #[test]
    fn no_table_is_too_strange(text in "(?s)([a-z0-9,;\"\n|' =]|Scene|Day|Title|Pages|smock|,){0,60}") {
        let board = board();
        if let Ok(grid) = Grid::read(text.as_bytes(), None) {
            for kind in [Kind::Outfits, Kind::Scenes, Kind::Schedule] {
                let brought = kind.bring(&board, &grid);
                proptest::prop_assert!(brought.wrong.is_empty() || brought.edit.is_none());
            }
        }
    }
}
