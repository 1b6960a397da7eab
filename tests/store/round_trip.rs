//! Whatever a board holds, it comes back from its folder as it went in.

use proptest::prelude::*;
use shirr::board::Edit;

use crate::sample::arbitrary;
use crate::{Bench, on_disk};

/// Texts that YAML would take for something else, or could lose a part of.
fn nasty() -> impl Strategy<Value = String> {
    let fixed = prop::sample::select(vec![
        "",
        " ",
        "  x",
        "x  ",
        "yes",
        "no",
        "on",
        "off",
        "y",
        "n",
        "true",
        "null",
        "Null",
        "~",
        "1e3",
        "0x1f",
        "017",
        "1_000",
        ".5",
        ".inf",
        ".nan",
        "-",
        "- a",
        "? a",
        ": a",
        "a: b",
        "a:",
        "#",
        "a #b",
        "a#b",
        "!",
        "!!str",
        "&a",
        "*a",
        "|",
        ">",
        "%",
        "@",
        "`",
        "'",
        "\"",
        "''",
        "\"\"",
        "\\",
        "[",
        "{",
        "a, b",
        "=",
        "<<",
        "---",
        "...",
        "\n",
        "\n\n",
        "a\nb",
        "a\n",
        "a\n\n",
        "\na",
        " a\n b",
        "a\n  b\nc",
        "a\r\nb",
        "\r",
        "\t",
        "a\tb",
        "\ta",
        "a \nb",
        "\u{85}",
        "a\u{85}b",
        "\u{2028}",
        "a\u{2029}b",
        "\u{feff}",
        "\u{0}",
        "\u{7}",
        "\u{1b}[31m",
        "\u{7f}",
        "\u{a0}",
        "e\u{301}",
        "👗",
        "👩🏽‍🏭",
        "שלום",
        "\u{202e}abc",
        "\u{fffd}",
        "\u{10ffff}",
        "2027-04-05",
        "12:30",
        "1926",
        "D1",
        "3/8",
        "a\u{0}b\nc",
        "# a\nb",
        "--- a\nb",
        "x: |\n  y",
    ]);
    prop_oneof![
        3 => fixed.prop_map(str::to_owned),
        1 => any::<String>(),
        1 => "[ -~\n]{0,40}",
        1 => prop::collection::vec(any::<char>(), 0..12).prop_map(String::from_iter),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn a_whole_board_comes_back(records in arbitrary::sound_records()) {
        let bench = Bench::new();
        let mut open = bench.open();
        let mut records = records;
        let head = std::sync::Arc::make_mut(&mut records.head);
        head.id = "tide".parse().unwrap();
        let edit = Edit::between("everything", open.board().records(), &records);
        open.edit(&edit).unwrap();
        prop_assert_eq!(on_disk(&bench).records().clone(), records.clone());
        open.undo().unwrap();
        prop_assert_eq!(on_disk(&bench).records().clone(), open.board().records().clone());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    #[test]
    fn any_text_comes_back(texts in prop::collection::vec(nasty(), 8)) {
        let bench = Bench::new();
        let mut open = bench.open();
        let [title, occasion, notes, tag, dressing, name, detail, credit] = <[String; 8]>::try_from(texts).unwrap();
        let edit = open.board().change_outfit(&"smock".parse().unwrap(), "nasty", |outfit| {
            outfit.title = title;
            outfit.occasion = occasion;
            outfit.notes = notes;
            outfit.tags = vec![tag];
            outfit.dressing = vec![dressing, String::new()];
            outfit.pieces = vec![shirr::board::Piece { name, details: vec![detail], ..Default::default() }];
            outfit.let_go = None;
            outfit.evidence = vec![shirr::board::Evidence {
                kind: shirr::board::EvidenceKind::Film,
                source: String::new(),
                credit,
                rights: String::new(),
                notes: String::new(),
            }];
        });
        let edit = edit.unwrap();
        open.edit(&edit).unwrap();
        prop_assert_eq!(on_disk(&bench).records().clone(), open.board().records().clone());
    }
}
