//! Two programs on one folder: changes come in live, different fields are merged, one field on both sides is put as a
//! choice, and a file that another program damages is left alone.

use std::fs;
use std::path::Path;

use super::pty::{Program, User, records, wait_until};

const SIZE: (u16, u16) = (120, 40);
const CLEAR: &str = "\u{15}";
const DOWN: &str = "\u{1b}[B";
const KEEP: &str = "\u{13}";
const ROBE: &str = "od-1911-christening-gown";

const BOARD: [(&str, &str); 6] = [
    (
        "board.yaml",
        "shirr: 1\nid: shared\ntitle: Shared\nperiods:\n  - {id: early, title: Early, span: 1911/1924}\n\
         characters:\n  - {id: ada, name: Ada}\n",
    ),
    ("outfits/smock.yaml", "title: Smock\ncharacter: ada\nworn: 1920\nnotes: as found\n"),
    ("outfits/serge.yaml", "title: Serge\ncharacter: ada\nworn: 1922\n"),
    ("outfits/shawl.yaml", "title: Shawl\ncharacter: ada\nworn: 1923\n"),
    ("looks/quay.yaml", "title: Quay\ncharacter: ada\ntreatment: copy\nbase: serge\n"),
    ("scenes.yaml", "- {scene: 1, date: 1920, pages: 1, wears: {ada: quay}}\n"),
];

/// Two programs on one board, each of a user of their own, or both of one.
struct Pair {
    users: Vec<User>,
    folder: std::path::PathBuf,
}

impl Pair {
    fn of_two_users() -> Self {
        let users = vec![User::new(), User::new()];
        let folder = users[0].board("board", &BOARD);
        Self { users, folder }
    }

    fn of_one_user() -> Self {
        let users = vec![User::new()];
        let folder = users[0].board("board", &BOARD);
        Self { users, folder }
    }

    /// Both programs, on the wall with the smock in focus.
    fn run(&self) -> (Program, Program) {
        let argument = self.folder.to_str().unwrap();
        let one = self.users[0].run(&[argument], SIZE);
        let other = self.users[self.users.len() - 1].run(&[argument], SIZE);
        for program in [&one, &other] {
            program.shows("○ Smock");
            program.shows("? help");
        }
        (one, other)
    }

    fn outfit(&self, id: &str) -> shirr::board::Outfit {
        records(&self.folder).outfits[&id.parse().unwrap()].as_ref().clone()
    }
}

fn leave(programs: (Program, Program)) {
    for mut program in [programs.0, programs.1] {
        program.keys("q");
        assert_eq!(program.ends(), 0);
    }
}

#[test]
fn an_edit_in_one_is_seen_in_the_other_without_a_key() {
    for pair in [Pair::of_two_users(), Pair::of_one_user()] {
        let (mut one, mut other) = pair.run();
        one.types("]", "known 1/5");
        other.shows("known 1/5");
        other.shows("outfit ‘Smock’ changed outside");
        other.types("]", "known 2/5");
        one.shows("known 2/5");
        // A new look in one is in the other's counter and lanes.
        one.types("g", "Gather 1 into a new look");
        one.types("\r", "gathered 1 into Smock");
        other.shows("≈ Smock");
        other.shows("base of ≈ Smock");
        leave((one, other));
        assert_eq!(pair.outfit("smock").recognition.get(), 2);
    }
}

#[test]
fn edits_of_different_records_at_the_same_time_all_survive() {
    for pair in [Pair::of_two_users(), Pair::of_one_user()] {
        let (mut one, mut other) = pair.run();
        other.types("\u{1b}[F", "○ Shawl");
        // Up and down many times, so that the two get into each other's way.
        for _ in 0..8 {
            one.keys("]]]]]");
            other.keys("]]]]");
            one.keys("[[");
            other.keys("[[[");
        }
        one.keys("]R\u{15}Smock of one\r");
        other.keys("R\u{15}Shawl of other\r");
        // What is said last may be news of the other; the titles stay.
        one.shows("○ Smock of one");
        other.shows("○ Shawl of other");
        let (smock, shawl) = (pair.outfit("smock"), pair.outfit("shawl"));
        assert_eq!((smock.title.as_str(), smock.recognition.get()), ("Smock of one", 4));
        assert_eq!(shawl.title, "Shawl of other");
        // Each sees the other's.
        one.types("\u{1b}[F", "○ Shawl of other");
        one.shows(&format!("known {}/5", shawl.recognition.get()));
        other.types("\u{1b}[H", "○ Smock of one");
        other.shows("known 4/5");
        leave((one, other));
    }
}

#[test]
fn different_fields_of_one_record_are_merged() {
    let pair = Pair::of_two_users();
    let (mut one, mut other) = pair.run();
    one.types("R", "Rename Smock");
    other.types("]", "known 1/5");
    one.shows("known 1/5");
    one.types(&format!("{CLEAR}Smock, grey\r"), "○ Smock, grey");
    assert!(!one.screen().contains("Changed on both sides"));
    let smock = pair.outfit("smock");
    assert_eq!((smock.title.as_str(), smock.recognition.get()), ("Smock, grey", 1));
    other.shows("○ Smock, grey");

    // The notes editor and the title, too.
    one.types("n", "Notes: Smock, grey");
    other.types("R", "Rename Smock, grey");
    other.types(&format!("{CLEAR}Smock, blue\r"), "renamed to Smock, blue");
    one.shows("○ Smock, blue");
    one.keys(" and mended");
    one.shows("and mended");
    one.keys(KEEP);
    wait_until("the notes", || pair.outfit("smock").notes.contains("mended"));
    let smock = pair.outfit("smock");
    assert_eq!((smock.title.as_str(), smock.notes.trim()), ("Smock, blue", "as found and mended"));
    leave((one, other));
}

/// What the user of the first program answers.
#[derive(Clone, Copy, Debug)]
enum Answer {
    Theirs,
    Ours,
    Leave,
}

impl Answer {
    const ALL: [Self; 3] = [Self::Theirs, Self::Ours, Self::Leave];

    /// Chooses it by its words.
    fn give(self, program: &mut Program) {
        let question = program.shows("enter choose · esc close");
        let words = ["Keep what is there", "Put yours", "Leave it"];
        let rows: Vec<&str> =
            question.lines().filter(|line| words.iter().any(|word| line.contains(word))).collect();
        assert_eq!(rows.len(), 3, "{question}");
        let at = rows.iter().position(|row| row.contains(words[self as usize])).unwrap();
        program.keys(&DOWN.repeat(at));
        program.keys("\r");
        program.until("the question gone", |screen| !screen.contains("Changed on both sides"));
    }
}

#[test]
fn one_title_on_both_sides_is_put_as_a_choice() {
    for answer in Answer::ALL {
        // Whether or not the first program has taken in the second's change by then.
        for taken_in in [true, false] {
            let pair = Pair::of_two_users();
            let (mut one, mut other) = pair.run();
            one.types("R", "Rename Smock");
            one.keys(&format!("{CLEAR}Ours"));
            one.shows("Ours");
            other.types("R", "Rename Smock");
            other.types(&format!("{CLEAR}Theirs\r"), "renamed to Theirs");
            if taken_in {
                one.shows("○ Theirs");
            }
            one.keys("\r");
            one.shows("Changed on both sides");
            let question = one.shows("enter choose · esc close");
            assert_eq!(pair.outfit("smock").title, "Theirs", "nothing is overwritten before the answer");
            assert!(question.contains("there: Theirs") && question.contains("yours: Ours"), "{question}");
            answer.give(&mut one);
            let stands = match answer {
                Answer::Theirs | Answer::Leave => "Theirs",
                Answer::Ours => "Ours",
            };
            for program in [&one, &other] {
                program.shows(&format!("○ {stands}"));
            }
            assert_eq!(pair.outfit("smock").title, stands, "{answer:?}");
            if let Answer::Ours = answer {
                one.types("u", "○ Theirs");
                other.shows("○ Theirs");
                assert_eq!(pair.outfit("smock").title, "Theirs", "taking ours back brings theirs");
            }
            leave((one, other));
        }
    }
}

#[test]
fn notes_written_on_both_sides_are_put_as_a_choice() {
    for answer in Answer::ALL {
        let pair = Pair::of_two_users();
        let (mut one, mut other) = pair.run();
        one.types("n", "Notes: Smock");
        one.types(" by ours", "as found by ours");
        other.types("n", "Notes: Smock");
        other.types(" by theirs", "as found by theirs");
        other.types(KEEP, "notes of Smock");
        wait_until("the other's notes", || pair.outfit("smock").notes.contains("theirs"));
        one.keys(KEEP);
        one.shows("Changed on both sides");
        let question = one.shows("enter choose · esc close");
        assert!(question.contains("by theirs") && question.contains("by ours"), "{question}");
        assert_eq!(pair.outfit("smock").notes.trim(), "as found by theirs");
        answer.give(&mut one);
        let stands = match answer {
            Answer::Theirs | Answer::Leave => "as found by theirs",
            Answer::Ours => "as found by ours",
        };
        wait_until(stands, || pair.outfit("smock").notes.trim() == stands);
        leave((one, other));
    }
}

#[test]
fn what_another_hand_takes_away_is_not_brought_back_unasked() {
    let pair = Pair::of_two_users();
    let (mut one, other) = pair.run();
    one.types("R", "Rename Smock");
    fs::remove_file(pair.folder.join("outfits/smock.yaml")).unwrap();
    for program in [&one, &other] {
        program.shows("outfit ‘Smock’ removed outside");
    }
    one.keys(&format!("{CLEAR}Back again\r"));
    let question = one.shows("outfit `smock`: changed here, removed there");
    assert!(question.contains("Back again"), "what was typed is not lost: {question}");
    assert!(!pair.folder.join("outfits/smock.yaml").exists());
    Answer::Ours.give(&mut one);
    one.shows("renamed to Back again");
    let smock = pair.outfit("smock");
    assert_eq!((smock.title.as_str(), smock.notes.as_str()), ("Back again", "as found"), "all of it is back");
    leave((one, other));
}

#[test]
fn what_a_command_brought_in_beside_the_screen_is_taken_back_on_it() {
    let user = User::new();
    let folder = user.board("board", &BOARD);
    let argument = folder.to_str().unwrap();
    let mut program = user.run(&[argument], SIZE);
    program.shows("○ Smock");
    program.types("]", "known 1/5");
    let table = user.path("more.csv");
    fs::write(&table, "id,outfit,character\ncape,Cape,ada\n").unwrap();
    let mut bringing = user.run(&["bring", "table", "outfits", table.to_str().unwrap(), argument], SIZE);
    assert_eq!(bringing.ends(), 0, "{}", bringing.screen());
    program.shows("outfit ‘Cape’ added outside");
    let cape = folder.join("outfits/cape.yaml");
    assert!(cape.exists());
    program.types("u", "took back: ");
    assert!(!cape.exists(), "{}", program.screen());
    assert_eq!(records(&folder).outfits[&"smock".parse().unwrap()].recognition.get(), 1);
    program.types("u", "known 0/5");
    program.types("u", "nothing of yours to take back");
    program.types("UU", "did again");
    wait_until("the cape to be back", || cape.exists());
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

#[test]
fn what_another_screen_does_that_still_runs_it_takes_back_itself() {
    let pair = Pair::of_one_user();
    let (mut one, mut other) = pair.run();
    other.types("]", "known 1/5");
    one.shows("known 1/5");
    one.types("u", "nothing of yours to take back");
    assert_eq!(pair.outfit("smock").recognition.get(), 1);
    other.keys("q");
    assert_eq!(other.ends(), 0);
    one.types("u", "took back");
    assert_eq!(pair.outfit("smock").recognition.get(), 0);
    one.keys("q");
    assert_eq!(one.ends(), 0);
}

fn broken(folder: &Path) -> std::path::PathBuf {
    folder.join(format!("outfits/{ROBE}.yaml"))
}

#[test]
fn a_file_damaged_from_outside_is_left_alone_and_the_rest_goes_on() {
    let user = User::new();
    let folder = user.demo("board");
    let mut program = user.run(&[folder.to_str().unwrap()], SIZE);
    program.shows("× Christening robe, lent");
    let file = broken(&folder);
    let good = fs::read(&file).unwrap();
    let garbage = "title: Christening robe, lent\ncharacter: [odile\nworn: {{{\n";
    fs::write(&file, garbage).unwrap();
    program.shows(&format!("outfits/{ROBE}.yaml:"));
    // The record itself cannot be changed; what is said names the file.
    program.keys("]");
    program.shows("the file is left alone until it can be read again");
    assert_eq!(fs::read_to_string(&file).unwrap(), garbage, "the file keeps its bytes");
    // The other records go on working.
    program.keys("o");
    program.types("]", "known ");
    program.shows(": known");
    program.types("u", "took back");
    assert_eq!(fs::read_to_string(&file).unwrap(), garbage, "the file keeps its bytes");
    // It is listed with its place.
    let list = program.types("!", "Problems");
    let list = if list.contains(ROBE) { list } else { program.shows(ROBE) };
    let row = list.lines().find(|line| line.contains(ROBE) && line.contains('│')).unwrap();
    let place = row.split(".yaml:").nth(1).unwrap();
    let numbers: Vec<&str> = place.splitn(3, ':').take(2).collect();
    assert!(numbers.iter().all(|number| number.parse::<u32>().is_ok_and(|number| number > 0)), "{row}");
    program.escapes();
    // Repaired, with another title: taken in at once.
    let mended = String::from_utf8(good).unwrap().replace("Christening robe, lent", "Robe, mended");
    fs::write(&file, mended).unwrap();
    program.shows(&format!("outfits/{ROBE}.yaml can be read again"));
    program.types("\u{1b}[H", "× Robe, mended");
    program.types("]", "known 1/5");
    let reading = shirr::store::read(&folder).unwrap();
    assert_eq!(reading.faults, []);
    program.keys("q");
    assert_eq!(program.ends(), 0);
}
