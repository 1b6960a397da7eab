//! Every kind of fault is named with file, line, column, what was expected, and the nearest valid word.

use std::fs;

use shirr::store::{FaultKind, StoreError, read};

use crate::Bench;

/// What reading says when one file has this text.
fn told(name: &str, text: &str) -> Vec<String> {
    let bench = Bench::new();
    bench.write(name, text);
    bench.faults()
}

/// The one fault.
fn one(name: &str, text: &str) -> String {
    let faults = told(name, text);
    assert_eq!(faults.len(), 1, "{faults:#?}");
    faults.into_iter().next().unwrap()
}

const OUTFIT_KEYS: &str = "title, character, worn, occasion, period, silhouette, pieces, measured, evidence, recognition, \
                           threads, dressing, pictures, tags, notes, let-go, wishes";

#[test]
fn an_unknown_key() {
    assert_eq!(
        one("outfits/shawl.yaml", "# x\ntitle: Shawl\ncharcter: odile\n"),
        format!(
            "outfits/shawl.yaml:3:1: unknown key `charcter`: did you mean `character`? (valid keys: {OUTFIT_KEYS})"
        )
    );
    assert_eq!(
        one("outfits/shawl.yaml", "title: x\ncharacter: odile\npieces:\n  - {name: x, clothe: wool}\n"),
        "outfits/shawl.yaml:4:15: unknown key `clothe`: did you mean `cloth`? (valid keys: name, cloth, colours, \
         details)"
    );
    assert_eq!(
        one("outfits/shawl.yaml", "title: x\ncharacter: odile\nxyz: 1\n"),
        format!("outfits/shawl.yaml:3:1: unknown key `xyz`: valid keys: {OUTFIT_KEYS}")
    );
}

#[test]
fn a_key_that_is_given_twice() {
    assert_eq!(
        one("outfits/shawl.yaml", "title: x\ncharacter: odile\ntitle: y\n"),
        "outfits/shawl.yaml:3:1: the key `title` is given twice (first in line 1): keep one of the two"
    );
    assert_eq!(
        one(
            "scenes.yaml",
            "- scene: 1\n- scene: 2\n  wears: {odile: quay, bridie: ~, odile: ~}\n- scene: 2A\n"
        ),
        "scenes.yaml:3:35: the key `odile` is given twice (first in line 3): keep one of the two"
    );
    assert_eq!(
        one(
            "outfits/shawl.yaml",
            "title: x\ncharacter: odile\nevidence:\n- kind: film\n  source: a\n  source: b\n"
        ),
        "outfits/shawl.yaml:6:3: the key `source` is given twice (first in line 5): keep one of the two"
    );
}

#[test]
fn a_key_that_is_missing() {
    assert_eq!(
        one("outfits/shawl.yaml", "# x\n\ntitle: x\n"),
        "outfits/shawl.yaml:3:1: the key `character` is missing: add a line `character:`"
    );
    assert_eq!(
        one("outfits/shawl.yaml", "title: x\ncharacter: odile\nevidence:\n- kind: film\n- source: y\n"),
        "outfits/shawl.yaml:5:3: the key `kind` is missing: add a line `kind:`"
    );
}

#[test]
fn an_impossible_value() {
    let outfit = |line: &str| one("outfits/shawl.yaml", &format!("title: x\ncharacter: odile\n{line}\n"));
    assert_eq!(
        outfit("recognition: 6"),
        "outfits/shawl.yaml:3:14: recognition 6 does not exist: expected 0 to 5"
    );
    assert_eq!(outfit("recognition: high"), "outfits/shawl.yaml:3:14: expected a whole number, found `high`");
    assert_eq!(outfit("recognition:"), "outfits/shawl.yaml:3:13: expected a whole number, found nothing");
    assert_eq!(
        outfit("evidence:\n- kind: photografh"),
        "outfits/shawl.yaml:4:9: unknown word `photografh`: did you mean `photograph`? (valid words: \
         surviving-garment, photograph, film, painting, written, hearsay)"
    );
    assert_eq!(
        outfit("pieces:\n- name: a\n- name: b\n  colours: [black, nvay]"),
        "outfits/shawl.yaml:6:20: `nvay` is no colour: expected sRGB hex such as `#2b3040`, or a CSS colour name \
         such as `navy`: did you mean `navy`?"
    );
    assert_eq!(
        outfit("pictures: [../secret.png]"),
        "outfits/shawl.yaml:3:12: picture path `../secret.png` leaves the board's folder: expected one below it, \
         such as `images/plate-12.jpg`"
    );
    assert_eq!(
        one("outfits/shawl.yaml", "title: x\ncharacter: Odile Maren\n"),
        "outfits/shawl.yaml:2:12: `Odile Maren` is no id: expected lower-case letters, digits and single hyphens, \
         at most 60"
    );
    assert_eq!(
        one("scenes.yaml", "- scene: 1\n- scene: 2A\n- scene: 2\n  pages: 3/4\n"),
        "scenes.yaml:4:10: `3/4` is no page count: expected pages and eighths such as `1 3/8`, `3/8` or `2`"
    );
    assert_eq!(
        one("schedule.yaml", "- day: -1\n"),
        "schedule.yaml:1:8: expected a whole number, 0 or more, found `-1`"
    );
}

#[test]
fn a_bad_date() {
    let fault = one("outfits/shawl.yaml", "title: x\ncharacter: odile\nworn: 14.8.1926\n");
    assert!(fault.starts_with("outfits/shawl.yaml:3:7: \"14.8.1926\" is not a date: "), "{fault}");
    assert!(fault.contains("1926-08-14"), "the date that was meant: {fault}");
    let fault = one("outfits/shawl.yaml", "title: x\ncharacter: odile\nworn: 1926-13\n");
    assert!(fault.starts_with("outfits/shawl.yaml:3:7: \"1926-13\" is not a date: "), "{fault}");
}

#[test]
fn a_wrong_type() {
    assert_eq!(
        one("outfits/shawl.yaml", "title: x\ncharacter: odile\nthreads: cap\n"),
        "outfits/shawl.yaml:3:10: expected a list, found `cap`"
    );
    assert_eq!(
        one("outfits/shawl.yaml", "title: x\ncharacter: odile\nnotes:\n  - a\n"),
        "outfits/shawl.yaml:4:3: expected a text, found a list"
    );
    assert_eq!(
        one("outfits/shawl.yaml", "- title: x\n"),
        "outfits/shawl.yaml:1:1: expected keys with values, found a list"
    );
    assert_eq!(
        one("schedule.yaml", "day: 1\n"),
        "schedule.yaml:1:1: expected a list, found keys with values"
    );
    assert_eq!(one("outfits/shawl.yaml", "# nothing\n"), "outfits/shawl.yaml: the file is empty");
}

#[test]
fn what_is_no_yaml() {
    for (text, place, hint) in [
        ("title: a: b\ncharacter: odile\n", "1:9", "a text with `: ` in it needs quotes"),
        ("title: [a\ncharacter: odile\n", "2:10", ""),
        ("title: 'a\ncharacter: odile\n", "3:1", "is a closing quote missing?"),
        ("title: a\n\tcharacter: odile\n", "2:1", "use spaces"),
        ("title: @a\ncharacter: odile\n", "1:8", "put the text in quotes"),
        (
            "title: *a\ncharacter: odile\n",
            "1:8",
            "put it in quotes; anchors and aliases are not used in a board",
        ),
        ("title: a\n---\ntitle: b\n", "2:1", "one file holds one document: delete the `---`"),
    ] {
        let fault = one("outfits/shawl.yaml", text);
        assert!(fault.starts_with(&format!("outfits/shawl.yaml:{place}: ")), "{fault}");
        assert!(fault.ends_with(hint), "{fault}");
    }
}

#[test]
fn a_name_that_leads_nowhere() {
    assert_eq!(
        one("outfits/shawl.yaml", "title: x\ncharacter: odille\n"),
        "outfits/shawl.yaml:2:12: there is no character `odille`: did you mean `odile`?"
    );
    assert_eq!(
        one("outfits/shawl.yaml", "title: x\ncharacter: odile\nthreads: [cap, pins]\n"),
        "outfits/shawl.yaml:3:16: there is no thread `pins`: add it to `threads` in board.yaml, or take the name out"
    );
    assert_eq!(
        one("looks/quay.yaml", "title: Quay\ncharacter: odile\ntreatment: copy\nbase: smok\n"),
        "looks/quay.yaml:4:7: there is no outfit `smok`: did you mean `smock`?"
    );
    assert_eq!(
        one("scenes.yaml", "- scene: 1\n- scene: 2\n  wears:\n    odile: quai\n- scene: 2A\n"),
        "scenes.yaml:4:12: there is no look `quai`: did you mean `quay`?"
    );
    assert_eq!(
        one("scenes.yaml", "# x\n- scene: 1\n- scene: 2\n  wears: {bridy: ~}\n- scene: 2A\n"),
        "scenes.yaml:4:11: there is no character `bridy`: did you mean `bridie`?"
    );
    assert_eq!(
        one("schedule.yaml", "- day: 1\n  scenes: [1, 3B]\n"),
        "schedule.yaml:2:15: there is no scene `3B`: add it to scenes.yaml, or take the number out"
    );
    let head = crate::FILES[0].1.replace("units: cm", "budget: {periods: {shoer: 2}}");
    assert_eq!(
        one("board.yaml", &head),
        "board.yaml:5:20: there is no period `shoer`: did you mean `shore`?"
    );
}

#[test]
fn a_name_that_two_records_have() {
    assert_eq!(
        one("scenes.yaml", "- scene: 1\n- scene: 2A\n- scene: 1\n  notes: again\n"),
        "scenes.yaml:3:10: two scenes have the number 1: give one of them another number, such as one with a letter"
    );
    let head = crate::FILES[0].1.replace("id: bridie", "id: odile");
    let faults = told("board.yaml", &head);
    assert!(
        faults.contains(
            &"board.yaml:13:7: two characters have the name `odile`: give one of them another name"
                .to_owned()
        ),
        "{faults:#?}"
    );
}

#[test]
fn a_damaged_record_is_one_fault_and_not_one_for_each_that_names_it() {
    assert_eq!(
        one("outfits/smock.yaml", "title: [\n"),
        "outfits/smock.yaml:2:1: not YAML: did not find expected node content"
    );
    let fault = one("looks/quay.yaml", "treatment: cut\n");
    assert!(fault.starts_with("looks/quay.yaml:1:12: unknown word `cut`"), "{fault}");
    assert!(one("scenes.yaml", "nothing").starts_with("scenes.yaml:1:1: expected a list"));
}

#[test]
fn names_of_files_that_are_no_records() {
    let bench = Bench::new();
    for name in ["outfits/Red Hat.yaml", "outfits/hat.yml", "outfits/smock (conflicted copy).yaml"] {
        bench.write(name, "title: x\ncharacter: odile\n");
    }
    for name in
        ["outfits/.smock.yaml.swp", "outfits/smock.yaml~", "outfits/readme.txt", "outfits/.shirr-1-0-x.yaml"]
    {
        bench.write(name, "not even YAML: [");
    }
    let faults = bench.faults();
    assert_eq!(faults.len(), 3, "{faults:#?}");
    assert!(faults[0].ends_with("rename it to `red-hat.yaml`"), "{faults:#?}");
    assert!(faults[1].ends_with("rename it to `hat.yaml`"), "{faults:#?}");
    assert!(faults[2].contains("second copy"), "{faults:#?}");
    assert!(read(&bench.folder()).unwrap().faults.iter().all(|fault| fault.kind == FaultKind::Stray));
}

#[test]
fn what_is_no_board_at_all() {
    let bench = Bench::new();
    let error = read(&bench.path("cloths")).unwrap_err();
    assert!(matches!(error, StoreError::NoBoard(_)), "{error}");
    assert!(error.hint().unwrap().contains("start one in a new folder"));
    assert!(matches!(read(&bench.path("nowhere")), Err(StoreError::NoBoard(_))));
    bench.write("board.yaml", "shirr: 7\nsomething: new\n");
    let error = read(&bench.folder()).unwrap_err();
    assert_eq!(error.to_string(), "board.yaml says `shirr: 7`; this program reads version 1");
    bench.write("board.yaml", "shirr: 1\nid: tide\ntitel: Tide\n");
    let StoreError::Damaged(fault) = read(&bench.folder()).unwrap_err() else { panic!("not damaged") };
    assert!(
        fault.to_string().starts_with("board.yaml:3:1: unknown key `titel`: did you mean `title`?"),
        "{fault}"
    );
}

#[cfg(unix)]
#[test]
fn links_and_pipes_are_not_read() {
    let bench = Bench::new();
    let secret = bench.dir.path().join("secret.yaml");
    fs::write(&secret, "title: secret\ncharacter: odile\n").unwrap();
    std::os::unix::fs::symlink(&secret, bench.path("outfits/link.yaml")).unwrap();
    let made = std::process::Command::new("mkfifo").arg(bench.path("outfits/pipe.yaml")).status().unwrap();
    assert!(made.success());
    fs::create_dir(bench.path("outfits/folder.yaml")).unwrap();
    let faults = bench.faults();
    assert_eq!(faults.len(), 3, "{faults:#?}");
    assert!(faults[0].starts_with("outfits/folder.yaml: is no plain file"), "{faults:#?}");
    assert!(faults[1].starts_with("outfits/link.yaml: is a link"), "{faults:#?}");
    assert!(faults[2].starts_with("outfits/pipe.yaml: is no plain file"), "{faults:#?}");
    let elsewhere = bench.dir.path().join("elsewhere");
    fs::rename(bench.path("outfits"), &elsewhere).unwrap();
    std::os::unix::fs::symlink(&elsewhere, bench.path("outfits")).unwrap();
    let faults = bench.faults();
    assert!(faults.iter().any(|fault| fault.starts_with("outfits: is not a folder")), "{faults:#?}");
}
