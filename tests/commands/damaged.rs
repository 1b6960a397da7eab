//! What is wrong with a file is one clear fault, whatever it is, and the rest of the board still opens.

use serde_json::Value;

use crate::common::Desk;

/// Puts one bad file into a board and expects one fault, in that file, that names what is wrong; and the rest of the
/// board still opens.
#[track_caller]
fn one_clear_fault(file: &str, text: &str, named: &[&str]) -> Value {
    let desk = Desk::new();
    desk.board("film", &[(file, text)]);
    let run = desk.shirr(&["check", "film", "--json"]).exits(2);
    let document = run.json();
    let faults = document["faults"].as_array().unwrap();
    assert_eq!(faults.len(), 1, "{faults:#?}");
    assert_eq!(faults[0]["file"], file);
    let said = format!("{} {}", faults[0]["what"], faults[0]["hint"]);
    assert!(named.iter().all(|name| said.contains(name)), "{said}");
    assert_eq!(document["board"]["title"], "Trial");
    let plain = desk.shirr(&["check", "film"]).exits(2);
    assert_eq!(plain.out.lines().filter(|line| line.starts_with("fault: ")).count(), 1, "{}", plain.out);
    assert!(plain.out.contains("Trial: 1 fault"), "{}", plain.out);
    faults[0].clone()
}

#[test]
fn a_misspelt_key_is_one_fault_that_names_line_column_and_the_nearest_key() {
    let fault = one_clear_fault(
        "outfits/coat.yaml",
        "title: Coat\ncharacter: ada\nocassion: church\n",
        &["ocassion", "occasion"],
    );
    assert_eq!((fault["line"].as_u64(), fault["column"].as_u64()), (Some(3), Some(1)));
}

#[test]
fn a_duplicate_key_is_one_fault() {
    let text = "title: Coat\ncharacter: ada\ntitle: Other coat\n";
    let fault = one_clear_fault("outfits/coat.yaml", text, &["title"]);
    assert_eq!(fault["line"], 3);
}

#[test]
fn a_look_that_is_not_there_is_one_fault() {
    let text = "- scene: 1\n  pages: 1\n  wears: {ada: quai}\n";
    let fault = one_clear_fault("scenes.yaml", text, &["quai", "quay"]);
    assert_eq!(fault["line"], 3);
}

#[test]
fn an_impossible_date_is_one_fault() {
    let text = "title: Coat\ncharacter: ada\nworn: 1926-02-30\n";
    let fault = one_clear_fault("outfits/coat.yaml", text, &["1926-02-30"]);
    assert_eq!(fault["line"], 3);
}

#[test]
fn a_file_of_fifty_megabytes_is_one_fault() {
    let text = format!("title: {}\n", "a".repeat(50_000_000));
    one_clear_fault("outfits/coat.yaml", &text, &[]);
}

#[test]
fn deep_nesting_is_one_fault() {
    one_clear_fault("outfits/coat.yaml", &format!("title: {}\n", "[".repeat(100_000)), &[]);
}

#[test]
fn an_alias_bomb_is_one_fault() {
    let mut text = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n".to_owned();
    for level in 1..=9 {
        let aliases = vec![format!("*a{}", level - 1); 10].join(", ");
        text += &format!("a{level}: &a{level} [{aliases}]\n");
    }
    one_clear_fault("outfits/coat.yaml", &text, &[]);
}

#[test]
fn a_board_whose_head_cannot_be_read_does_not_open() {
    let desk = Desk::new();
    desk.board("film", &[("board.yaml", "shirr: 1\nid: trial\ntitel: Trial\n")]);
    for args in [&["film"][..], &["check", "film"], &["report", "plot", "film"]] {
        let run = desk.shirr(args).exits(2);
        assert!(run.out.is_empty(), "{}", run.out);
        assert!(
            run.err.starts_with("shirr: board.yaml:3:1: ") && run.err.contains("\nhint: "),
            "{}",
            run.err
        );
    }
    let document = desk.shirr(&["check", "film", "--json"]).exits(2).json();
    assert_eq!(document["board"], Value::Null);
    assert_eq!(document["faults"][0]["line"], 3);
}
