//! A gather that would pass a limit stops; each way out does what it says, and all of it can be taken back.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use super::pty::{Program, User, files, records};

const DOWN: &str = "\u{1b}[B";

/// Gathers the leave-week tweed, after which Odile and her years at the boom are full, and then the peace regatta
/// costume, which stops.
fn stopped(user: &User) -> (PathBuf, Program) {
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
    program.counts(&["41/44", "25/26"]);
    program.types("c", "Show");
    program.types("Odile\r", "only Odile Maren");
    program.types("o", "○ Leave-week tweed");
    program.counts(&["41/44", "25/26", "6/7"]);
    program.types("g", "Gather 1 into a new look");
    program.types("\r", "gathered 1 into Leave-week tweed");
    program.counts(&["42/44", "26/26", "7/7"]);
    program.types("o", "○ Peace regatta costume");
    program.types("g", "Gather 1 into a new look");
    program.types("\r", "Over the limit");
    // The footer is the last row that is drawn.
    program.shows("enter choose · esc close");
    program.until("the mergers measured", |screen| !screen.contains("measuring"));
    (board, program)
}

/// The title of the question's rows, without their frame.
fn answers(screen: &str) -> Vec<String> {
    let rows = screen.lines().skip_while(|line| !line.contains("Make room:")).skip(1);
    let rows = rows.take_while(|line| !line.contains('╰') && !line.contains("Leave it"));
    rows.filter_map(|line| line.rsplit('│').find(|part| part.contains(['⇥', '↳', '↑'])))
        .map(|row| row.trim().to_owned())
        .collect()
}

/// Moves down to the first answer that begins with `mark`, and chooses it.
fn answer(program: &mut Program, mark: &str) {
    let answers = answers(&program.screen());
    let at = answers.iter().position(|answer| answer.starts_with(mark)).unwrap_or(answers.len());
    program.keys(&DOWN.repeat(at));
    program.keys("\r");
}

/// The files that differ.
fn touched(one: &Path, before: &std::collections::BTreeMap<PathBuf, Vec<u8>>) -> BTreeSet<String> {
    let now = files(one);
    let names = before.keys().chain(now.keys());
    let differs = |file: &&PathBuf| before.get(*file) != now.get(*file);
    names.filter(differs).map(|file| file.strip_prefix(one).unwrap().display().to_string()).collect()
}

/// Takes one change back and does it again: back, every record is as it was and only the files of `touches` were
/// touched; again, every byte is as it was after the change; and back once more.
fn goes_back_and_forth(board: &Path, program: &mut Program, label: &str, touches: &[&str], before: &Before) {
    let after = files(board);
    assert_eq!(touched(board, &before.files), touches.iter().map(ToString::to_string).collect());
    program.types("u", &format!("took back: {label}"));
    program.counts(&["42/44", "26/26"]);
    assert_eq!(records(board), before.records, "one step takes all of it back");
    assert!(touched(board, &before.files).iter().all(|file| touches.contains(&file.as_str())));
    let back = files(board);
    program.types("U", &format!("did again: {label}"));
    assert_eq!(files(board), after, "done again, every byte is as it was");
    program.types("u", &format!("took back: {label}"));
    assert_eq!(files(board), back, "and taken back again, too");
    program.types("u", "took back: gathered 1 into Leave-week tweed");
    program.counts(&["41/44", "25/26"]);
    program.types("u", "nothing to take back");
    assert_eq!(records(board).looks.len(), before.records.looks.len() - 1);
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

struct Before {
    files: std::collections::BTreeMap<PathBuf, Vec<u8>>,
    records: shirr::board::Records,
}

impl Before {
    fn of(board: &Path) -> Self {
        Self { files: files(board), records: records(board) }
    }
}

#[test]
fn the_question_names_every_limit_and_offers_a_merger_then_a_fold_then_a_raise() {
    let user = User::new();
    let (board, program) = stopped(&user);
    let screen = program.screen();
    for words in [
        "Odile Maren would hold 27 looks, and the limit is 26.",
        "The Boom would hold 8 looks, and the limit is 7.",
        "Nothing is changed yet.",
        "Leave it",
    ] {
        assert!(screen.contains(words), "{words}\n{screen}");
    }
    let answers = answers(&screen);
    let order: String = answers.iter().filter_map(|answer| answer.chars().next()).collect();
    let mergers = order.matches('⇥').count();
    assert!(mergers >= 1, "{answers:?}");
    assert_eq!(order, format!("{}↳↑", "⇥".repeat(mergers)), "{answers:?}");
    // The cheapest merger is the first, and says what it costs.
    assert!(
        answers[0].contains("Merge Leave-week tweed into The suit cut from Tam's   keeps 0.1 % less"),
        "{answers:?}"
    );
    assert!(program.counter().contains("42/44"));
    assert!(!board.join("looks/peace-regatta-costume.yaml").exists(), "nothing is changed yet");
}

#[test]
fn choosing_the_merger_makes_room_and_gathers_as_one_change() {
    let user = User::new();
    let (board, mut program) = stopped(&user);
    let before = Before::of(&board);
    program.keys("\r");
    let label = "merged Leave-week tweed into The suit cut from Tam's; gathered 1 into Peace regatta costume";
    program.shows(label);
    program.counts(&["42/44", "26/26", "7/7"]);
    let now = records(&board);
    assert_eq!(now.looks.len(), before.records.looks.len(), "one look went and one came");
    assert!(now.looks.values().any(|look| look.title == "Peace regatta costume"));
    assert!(!now.looks.values().any(|look| look.title == "Leave-week tweed"));
    let suit = now.looks.values().find(|look| look.title == "The suit cut from Tam's").unwrap();
    assert!(suit.folded.iter().any(|outfit| outfit.as_str() == "od-1942-leave-tweed"), "{:?}", suit.folded);
    let touches =
        ["looks/leave-week-tweed.yaml", "looks/od-peace-suit.yaml", "looks/peace-regatta-costume.yaml"];
    goes_back_and_forth(&board, &mut program, label, &touches, &before);
}

#[test]
fn choosing_to_fold_lists_the_looks_and_makes_no_new_one() {
    let user = User::new();
    let (board, mut program) = stopped(&user);
    let before = Before::of(&board);
    answer(&mut program, "↳");
    program.shows("1 of 24");
    let list = program.shows("type to narrow down");
    for look in ["Ivo's oilskin", "Boom depot dungarees", "Harbour Watch uniform"] {
        assert!(list.contains(look), "{look}\n{list}");
    }
    program.types("dungarees", "1 of 1");
    program.keys("\r");
    program.shows("folded 1 into Boom depot dungarees");
    program.counts(&["42/44", "26/26", "7/7"]);
    let now = records(&board);
    assert_eq!(now.looks.len(), before.records.looks.len(), "no new look");
    let look = now.looks.values().find(|look| look.title == "Boom depot dungarees").unwrap();
    assert!(look.folded.iter().any(|outfit| outfit.as_str() == "od-1946-peace-swim"));
    let touches = ["looks/od-dungarees.yaml"];
    goes_back_and_forth(&board, &mut program, "folded 1 into Boom depot dungarees", &touches, &before);
}

#[test]
fn raising_the_limits_takes_a_reason_and_puts_it_on_the_record() {
    let user = User::new();
    let (board, mut program) = stopped(&user);
    let before = Before::of(&board);
    answer(&mut program, "↑");
    program.shows("because");
    let form = program.shows("enter done · esc leave it");
    assert!(form.contains("Odile Maren: from 26 to 27") && form.contains("The Boom: from 7 to 8"), "{form}");
    program.types("\r", "say why the limit is raised");
    assert!(program.screen().contains("Raise the limit, on the record"), "it is refused in place");
    program.types("   \r", "say why the limit is raised");
    assert_eq!(files(&board), before.files, "without a reason nothing is changed");
    program.keys("\u{15}Scene 58 goes into the water\r");
    let label =
        "limit Odile Maren raised to 27; limit The Boom raised to 8; gathered 1 into Peace regatta costume";
    program.shows(label);
    program.counts(&["43/44", "27/27", "8/8"]);
    let raised: Vec<(String, u32, u32, String)> = records(&board)
        .head
        .budget
        .raised
        .iter()
        .skip(before.records.head.budget.raised.len())
        .map(|raise| (raise.limit.to_string(), raise.from, raise.to, raise.why.clone()))
        .collect();
    let why = "Scene 58 goes into the water".to_owned();
    let expected =
        [("character odile".to_owned(), 26, 27, why.clone()), ("period war".to_owned(), 7, 8, why)];
    assert_eq!(raised, expected);
    let text = std::fs::read_to_string(board.join("board.yaml")).unwrap();
    for line in ["odile: 27", "war: 8", "why: Scene 58 goes into the water", "limit: period war"] {
        assert!(text.contains(line), "{line} in\n{text}");
    }
    let touches = ["board.yaml", "looks/peace-regatta-costume.yaml"];
    goes_back_and_forth(&board, &mut program, label, &touches, &before);
}

#[test]
fn leaving_it_changes_nothing() {
    for leave in ["Leave it", "\u{1b}"] {
        let user = User::new();
        let (board, mut program) = stopped(&user);
        let before = Before::of(&board);
        if leave == "\u{1b}" {
            program.escapes();
        } else {
            answer(&mut program, leave);
            program.shows("nothing was changed");
        }
        program.until("the question gone", |screen| !screen.contains("Over the limit"));
        program.counts(&["42/44", "26/26", "7/7"]);
        assert_eq!(files(&board), before.files, "every byte is as it was");
        program.types("u", "took back: gathered 1 into Leave-week tweed");
        program.keys("q");
        assert_eq!(program.ends(), 0);
    }
}
