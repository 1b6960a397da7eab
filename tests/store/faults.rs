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

/// A board whose head has this text for its characters.
fn cast(characters: &str) -> String {
    let bench = Bench::new();
    bench.write("board.yaml", format!("shirr: 1\nid: b\ntitle: B\ncharacters:\n{characters}"));
    let StoreError::Damaged(fault) = read(&bench.folder()).unwrap_err() else { panic!("not damaged") };
    fault.to_string()
}

#[test]
fn bodies_and_lengths_that_cannot_be() {
    let body = |measures: &str| {
        cast(&format!(
            "  - id: odile\n    name: Odile\n    bodies:\n      - {{id: kim, who: Kim, is: performer, measures: {measures}}}\n"
        ))
    };
    for (measures, said) in [
        (
            "{bust-girth: -91 cm}",
            "board.yaml:8:67: `-91 cm` is no size: expected a length above 0, such as `57 cm` or `22 1/2 in`",
        ),
        (
            "{bust-girth: 91}",
            "board.yaml:8:67: `91` is no length: expected a number and a unit such as `57 cm`, `570 mm`, `0.57 m` or `22 1/2 in`",
        ),
        (
            "{bust-girth: 91 ells}",
            "board.yaml:8:67: `91 ells` is no length: expected a number and a unit such as `57 cm`, `570 mm`, `0.57 m` or `22 1/2 in`",
        ),
        (
            "{bust-grith: 91 cm}",
            "board.yaml:8:55: `bust-grith` is no body measure: did you mean `bust-girth`?",
        ),
    ] {
        assert_eq!(body(measures), said, "{measures}");
    }
}

#[test]
fn a_body_is_not_called_as_somebody_else() {
    let head = crate::FILES[0].1.replace(
        "  name: Odile\n",
        "  name: Odile\n  bodies:\n  - {id: odile, who: O, is: performer}\n  - {id: bridie, who: B, is: double}\n",
    );
    assert_eq!(
        one("board.yaml", &head),
        "board.yaml:15:10: a body of `odile` has the name of character `bridie`: give the body another name"
    );
}

#[test]
fn how_a_look_is_made_where_that_cannot_be() {
    let look = |make: &str| {
        one(
            "looks/cape.yaml",
            &format!(
                "title: Cape\ncharacter: odile\ntreatment: invent\npieces: [{{name: cape}}]\nmake:\n  cape:\n    {make}\n"
            ),
        )
    };
    for (make, said) in [
        (
            "measures: [{measure: collar, rule: landmark, of: neck-length}]",
            "looks/cape.yaml:7:16: measure `collar` needs `angle`: at how many degrees the edge lies, such as `70`",
        ),
        (
            "measures: [{measure: collar, rule: landmark, of: neck-length, angle: 400}]",
            "looks/cape.yaml:7:74: `400` is no angle: expected degrees above 0 and at most 360, such as `70` or `70°`",
        ),
        (
            "measures: [{measure: collar, rule: landmark, of: neck-length, angle: 110}]",
            "looks/cape.yaml:7:16: measure `collar`: an edge lies at most upright, at `90` degrees, not 110°",
        ),
        (
            "measures: [{measure: braid, rule: same, of: neck-length}]",
            "looks/cape.yaml:7:16: measure `braid`: `of` says nothing under this rule: take it out, or use another rule",
        ),
        (
            "measures: [{measure: chest, rule: ease, of: chest-girth, original: 0 cm}]",
            "looks/cape.yaml:7:72: `0 cm` is no size: expected a length above 0, such as `57 cm` or `22 1/2 in`",
        ),
        (
            "cuts: [{cloth: serge, lay: 2 m, skins: 1}]",
            "looks/cape.yaml:7:12: a cut of `serge` needs one of three: `lay`; or `panels`, `length` and `width`; or `skins`",
        ),
        (
            "cuts: [{cloth: sergee, lay: 2 m}]",
            "looks/cape.yaml:7:20: there is no cloth `sergee`: did you mean `serge`?",
        ),
        (
            "versions: [{version: wet, copies: {odiel: 2}}]",
            "looks/cape.yaml:7:40: there is no performer or double `odiel`: did you mean `odile`?",
        ),
        (
            "versions: [{version: wet, copies: {odile: 300}}]",
            "looks/cape.yaml:7:47: expected a whole number from 0 to 255, found `300`",
        ),
        (
            "cuts: [{cloth: serge, skins: 0}]",
            "looks/cape.yaml:7:34: expected a whole number from 1 to 255, found `0`",
        ),
        (
            "versions: [{version: wet, adds: [{to: knee, pad: 2 cm}]}]",
            "looks/cape.yaml:7:38: what is added to `knee` needs one of three: `pad` and `arc`; or `rise`; or `reach`",
        ),
        (
            "hours: {sewing: 4 days}",
            "looks/cape.yaml:7:21: `4 days` is no number of hours: expected hours to the whole minute such as `4`, `4.5`, `4.5 h`, `4:30`, `4 h 30` or `30 min`, at most 100000",
        ),
        (
            "costs: [{cost: dye, each: 3 crowns}]",
            "looks/cape.yaml:7:31: `3 crowns` is no amount of money: expected digits, with a dot before at most four decimals, such as `18.40` or `1240`; no currency, comma or space",
        ),
    ] {
        assert_eq!(look(make), said, "{make}");
    }
}

#[test]
fn cloths_and_what_is_done_where_that_cannot_be() {
    for (cloth, said) in [
        ("fibres: [wol]", "cloths/serge.yaml:2:10: `wol` is no fibre: did you mean `wool`?"),
        (
            "weight: 10 oz",
            "cloths/serge.yaml:2:9: `10 oz` is no weight of cloth: expected a number above 0 and a unit such as `340 g/m²`, `10 oz/yd²`, `16 momme`, or `3 oz leather`",
        ),
        (
            "shrinkage: 140 %",
            "cloths/serge.yaml:2:12: `140 %` is no part of a whole: expected something from 0 to 100 %, such as `4.5 %` or `0.6`",
        ),
        (
            "trials: [{trial: 1, weight: 300 g/m², verdict: heavy}]",
            "cloths/serge.yaml:2:48: unknown word `heavy`: valid words: too-light, too-heavy, too-stiff, right",
        ),
        (
            "price: -20",
            "cloths/serge.yaml:2:8: `-20.00` is less than nothing: expected an amount of 0 or more, such as `18.40`",
        ),
        ("print-dpi: 0", "cloths/serge.yaml:2:12: expected a whole number from 1 to 65535, found `0`"),
        (
            "width: 0 cm",
            "cloths/serge.yaml:2:8: `0 cm` is no size: expected a length above 0, such as `57 cm` or `22 1/2 in`",
        ),
    ] {
        assert_eq!(one("cloths/serge.yaml", &format!("title: Serge\n{cloth}\n")), said, "{cloth}");
    }
    for (does, said) in [
        ("{odile: [{action: swimm}]}", "scenes.yaml:4:27: there is no action `swimm`: did you mean `swim`?"),
        (
            "{odile: [{action: swim, takes: 0}]}",
            "scenes.yaml:4:40: expected a whole number from 1 to 255, found `0`",
        ),
        (
            "{odile: [{action: swim, by: nobody}]}",
            "scenes.yaml:4:37: there is no performer or double `nobody`: add a performer or double to the character's `bodies` in board.yaml, or take the name out",
        ),
        ("{odil: [{action: swim}]}", "scenes.yaml:4:10: there is no character `odil`: did you mean `odile`?"),
    ] {
        let scenes =
            format!("- scene: 1\n- scene: 2\n  wears: {{odile: quay}}\n  does: {does}\n- scene: 2A\n");
        assert_eq!(one("scenes.yaml", &scenes), said, "{does}");
    }
    assert_eq!(
        one("practice.yaml", "actions:\n- {action: wade, like: swimm, does: wet}\n"),
        "practice.yaml:2:24: there is no action `swimm`: did you mean `swim`?"
    );
    assert_eq!(
        one("schedule.yaml", "- {day: 1, scenes: [1, 77]}\n"),
        "schedule.yaml:1:24: there is no scene `77`: add it to scenes.yaml, or take the number out"
    );
}
