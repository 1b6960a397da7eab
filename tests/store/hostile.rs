//! Whatever is in a file, reading ends with a clear fault and the rest of the board opens.

use proptest::prelude::*;
use shirr::store::read;

use crate::Bench;

const MIB: usize = 1 << 20;

fn fault_of(text: impl AsRef<[u8]>) -> String {
    let bench = Bench::new();
    bench.write("outfits/shawl.yaml", text);
    let reading = read(&bench.folder()).unwrap();
    assert_eq!(reading.board.records().outfits.len(), 2, "the others are there");
    let [fault] = reading.faults.as_slice() else { panic!("{:#?}", reading.faults) };
    assert!(!fault.to_string().contains(|c: char| c.is_control()), "{fault:?}");
    fault.to_string()
}

#[test]
fn deep_nesting_is_refused_where_it_gets_too_deep() {
    for (unit, column) in [
        ("[", 65),
        ("{", 65),
        ("{a: ", 257),
        ("[[", 65),
        ("- ", 129),
        ("? ", 129),
        ("- [", 192),
        ("[!a,", 257),
    ] {
        let text = unit.repeat(MIB / unit.len());
        let fault = fault_of(&text);
        assert!(
            fault.starts_with(&format!("outfits/shawl.yaml:1:{column}: nested more than 64 deep")),
            "{unit}: {fault}"
        );
    }
    let stairs: String = (0..1_000).map(|depth| format!("{}- \n", " ".repeat(depth))).collect();
    assert!(fault_of(stairs).starts_with("outfits/shawl.yaml:65:65: nested more than 64 deep"));
    assert!(fault_of(format!("title: x\nnotes: {}", "[".repeat(MIB / 2))).contains(":2:71: nested"));
}

#[test]
fn too_many_values_are_refused() {
    let bench = Bench::new();
    bench.write("scenes.yaml", "- \n".repeat(300_000));
    assert_eq!(
        bench.faults(),
        [
            "scenes.yaml:250001:1: more than 250000 values in one file: no board needs so many: is this the right file?"
        ]
    );
}

#[test]
fn aliases_are_refused_before_they_can_multiply() {
    let mut text = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n".to_owned();
    for level in 1..30 {
        let names = vec![format!("*a{}", level - 1); 9].join(", ");
        text.push_str(&format!("a{level}: &a{level} [{names}]\n"));
    }
    assert!(fault_of(text).starts_with("outfits/shawl.yaml:1:5: a text cannot begin with `&`"));
}

#[test]
fn what_is_too_large_is_not_read() {
    let record = format!("title: x\ncharacter: odile\nnotes: {}\n", "x".repeat(MIB));
    assert_eq!(
        fault_of(record),
        "outfits/shawl.yaml: is larger than 1 MiB: no record needs so much: is this the right file?"
    );
    let large = format!("title: x\ncharacter: odile\nnotes: {}\n", "x".repeat(MIB - 100));
    let bench = Bench::new();
    bench.write("outfits/shawl.yaml", large);
    assert_eq!(bench.faults(), Vec::<String>::new(), "just below the limit it is");
}

#[test]
fn what_is_no_text_is_named_with_its_place() {
    assert_eq!(
        fault_of(b"title: x\ncharacter: \xff\xfe\n"),
        "outfits/shawl.yaml:2:12: the text is not UTF-8: save the file as UTF-8"
    );
    assert!(fault_of("title: x\nnotes: a\0b\n").starts_with("outfits/shawl.yaml:2:9: the character U+0000"));
    assert!(fault_of("title: \u{1b}[2Jx\n").starts_with("outfits/shawl.yaml:1:8: the character U+001B"));
    assert!(fault_of("\0".repeat(MIB)).starts_with("outfits/shawl.yaml:1:1: the character U+0000"));
}

#[test]
fn escapes_cannot_reach_the_terminal_through_a_message() {
    let fault = fault_of("title: x\n\"\\e[31m\\u202e\": 1\ncharacter: odile\n");
    assert!(fault.starts_with("outfits/shawl.yaml:2:1: unknown key `\u{fffd}[31m\u{fffd}`"), "{fault}");
}

#[test]
fn endless_keys_and_words_make_short_messages() {
    for text in [
        format!("title: x\n? {}\n: 1\n", "k".repeat(MIB / 2)),
        format!("title: x\ncharacter: {}\n", "k".repeat(MIB / 2)),
        format!("title: x\ncharacter: odile\nevidence: [{{kind: {}}}]\n", "k".repeat(MIB / 2)),
        format!("title: x\ncharacter: odile\nworn: {}\n", "9".repeat(MIB / 2)),
        format!("title: x\ncharacter: odile\nrecognition: {}\n", "9".repeat(MIB / 2)),
    ] {
        assert!(fault_of(text).chars().count() < 1_000);
    }
}

#[test]
fn byte_order_marks_and_carriage_returns_simply_work() {
    let bench = Bench::new();
    bench.write(
        "outfits/shawl.yaml",
        "\u{feff}title: Shawl\r\ncharacter: odile\r\nnotes: |\r\n  a\r\n  b\r\n",
    );
    assert_eq!(crate::notes(&crate::on_disk(&bench), "shawl"), "a\nb\n");
    bench.write("outfits/shawl.yaml", "\u{feff}title: Shawl\r\ncharacter: odile\r\nnots: x\r\n");
    assert!(bench.faults()[0].starts_with("outfits/shawl.yaml:3:1: unknown key `nots`"));
}

#[test]
fn json_without_spaces_is_read() {
    let bench = Bench::new();
    bench
        .write("outfits/shawl.yaml", r#"{"title":"Shawl","character":"odile","tags":["a","b"],"notes":"n"}"#);
    assert_eq!(crate::notes(&crate::on_disk(&bench), "shawl"), "n");
    bench.write("outfits/shawl.yaml", "{title: Shawl, character: odile, tags:[a]}\n");
    let faults = bench.faults();
    assert!(faults[0].contains("found unexpected ':'"), "{faults:?}");
}

#[test]
fn entries_of_which_only_a_sign_is_written_are_refused_in_great_numbers() {
    for unit in [":,", ": ,", "? ,", "!a,", "a,", "a:,", "'':,"] {
        let bench = Bench::new();
        bench.write("scenes.yaml", format!("[{}]", unit.repeat(500_000)));
        let faults = bench.faults();
        assert!(faults[0].contains("more than 250000 values in one file"), "{unit}: {faults:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    /// Nothing that a file can hold makes reading panic or forget the other records.
    #[test]
    fn any_bytes_are_a_record_or_a_fault(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let bench = Bench::new();
        bench.write("outfits/shawl.yaml", &bytes);
        let reading = read(&bench.folder()).unwrap();
        let outfits = reading.board.records().outfits.len();
        prop_assert!(outfits == 3 || (outfits == 2 && reading.faults.len() == 1));
    }

    #[test]
    fn any_tokens_are_records_or_faults(
        tokens in prop::collection::vec(
            prop::sample::select(vec![
                "- ", "scene: ", "1", "2A", "\n", "\n  ", "wears: ", "{", "}", "[", "]", "odile", ": ", "~", "'", "\"",
                "|", ">", "-", "#", "!x ", "pages: ", "3/8", ",", "? ", "\t", "when: day", "---", "..", "<<: ",
            ]),
            0..40,
        )
    ) {
        let bench = Bench::new();
        bench.write("scenes.yaml", tokens.concat());
        let reading = read(&bench.folder()).unwrap();
        for fault in reading.faults {
            prop_assert!(!fault.to_string().contains(|c: char| c.is_control()));
        }
    }
}

#[test]
fn names_that_lead_nowhere_by_the_thousand_are_told_in_bounds() {
    let bench = Bench::new();
    let scenes: String =
        (1..=2_000).map(|n| format!("- scene: {n}\n  wears: {{nobody: x-{n}, odile: y-{n}}}\n")).collect();
    bench.write("scenes.yaml", scenes);
    bench.write("schedule.yaml", "- day: 1\n  scenes: [1]\n");
    let faults = bench.faults();
    assert_eq!(faults.len(), 501, "those that are named, and how many more");
    assert!(faults.contains(&"scenes.yaml:4:11: there is no character `nobody`: add it to `characters` in board.yaml, or take the name out".to_owned()), "{faults:#?}");
    assert!(faults.contains(&"scenes.yaml: 5500 more names lead nowhere".to_owned()), "{}", faults[0]);
    let looks: String = (1..=501).map(|n| format!("- scene: {n}\n  wears: {{odile: y-{n}}}\n")).collect();
    bench.write("scenes.yaml", looks);
    let faults = bench.faults();
    assert!(faults.contains(&"scenes.yaml: one more name leads nowhere".to_owned()), "{faults:#?}");
    let wears: String = (0..50_000).map(|n| format!("c{n}: ~, ")).collect();
    bench.write("scenes.yaml", format!("- scene: 1\n  wears: {{{wears}}}\n"));
    assert_eq!(bench.faults(), ["scenes.yaml:2:10: more than 2000 keys in one place"]);
}
