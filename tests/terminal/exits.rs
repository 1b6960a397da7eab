//! The terminal is given back on every way out.

use rustix::process::Signal;

use super::pty::User;

#[test]
fn quitting_gives_the_terminal_back() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (100, 30));
    program.shows("Slack Wa");
    assert!(!program.gave_back(), "the program has the terminal while it runs");
    program.keys("q");
    assert_eq!(program.ends(), 0);
    assert!(program.gave_back());
}

#[test]
fn a_signal_to_end_gives_the_terminal_back() {
    for signal in [Signal::TERM, Signal::HUP, Signal::INT] {
        let user = User::new();
        let board = user.demo("board");
        let mut program = user.run(&[board.to_str().unwrap()], (100, 30));
        program.shows("Slack Wa");
        program.signal(signal);
        program.ends();
        assert!(program.gave_back(), "{signal:?}");
    }
}

#[test]
fn a_signal_to_end_is_heeded_while_the_terminal_takes_nothing() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (200, 60));
    program.shows("Slack Wa");
    let id = program.id();
    program.unread(|program| {
        // Each draws every cell anew: together far more than a terminal holds for its reader.
        for _ in 0..100 {
            program.keys("\u{c}");
            std::thread::sleep(std::time::Duration::from_millis(10));
        }
        program.signal(Signal::TERM);
        super::pty::wait_until("the end of a program that is held up", || has_ended(id));
    });
    assert_eq!(program.ends(), 128 + 15);
}

#[test]
fn a_board_that_cannot_be_opened_is_an_error_not_a_screen() {
    let user = User::new();
    let mut program = user.run(&["nowhere"], (100, 30));
    assert_eq!(program.ends(), 2);
    assert!(program.gave_back());
    assert!(program.screen().contains("nowhere"), "{}", program.screen());
}

#[test]
fn suspend_gives_the_terminal_back_and_resume_takes_it_again() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (100, 30));
    program.shows("Slack Wa");
    program.keys("\u{1a}");
    let start = std::time::Instant::now();
    while !(program.gave_back() && is_stopped(program.id())) {
        assert!(start.elapsed().as_secs() < 60, "never stopped\n{}", program.screen());
        std::thread::sleep(std::time::Duration::from_millis(10));
    }
    program.signal(Signal::CONT);
    program.until("the screen again", |screen| screen.contains("Slack Wa") && screen.contains("Looks"));
    assert!(!program.gave_back());
    program.types("2", "Odile Maren");
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

/// Whether the process is stopped, by the state that the system shows.
pub fn is_stopped(id: u32) -> bool {
    let status = std::fs::read_to_string(format!("/proc/{id}/stat")).unwrap_or_default();
    status.rsplit(')').next().is_some_and(|rest| rest.trim_start().starts_with('T'))
}

#[test]
fn every_size_is_drawn_and_below_the_least_one_clear_sentence() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
    program.shows("The Lights");
    // On the narrowest the views' names leave no room for the board's.
    for (columns, rows, says) in
        [(40, 12, "1wall 2looks"), (200, 60, "Slack Water  1 wall"), (80, 24, "Slack Water  1 wall")]
    {
        program.resize(columns, rows);
        program.shows(says);
    }
    program.resize(39, 11);
    program.shows("Shirr needs at least 40");
    program.resize(80, 24);
    program.shows("The Lights");
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

/// Tells a test that it runs inside a terminal of its own.
const INSIDE: &str = "SHIRR_TEST_INSIDE";

#[test]
fn a_panic_gives_the_terminal_back_before_it_is_told() {
    if std::env::var_os(INSIDE).is_some() {
        let mut terminal = shirr::screen::terminal::Terminal::enter().unwrap();
        terminal.frames.draw(|frame| frame.render_widget("the full screen", frame.area())).unwrap();
        panic!("words of a panic");
    }
    let user = User::new();
    let mut program =
        user.run_test("exits::a_panic_gives_the_terminal_back_before_it_is_told", (INSIDE, "1"));
    assert_ne!(program.ends(), 0);
    assert!(program.gave_back());
    let raw = String::from_utf8_lossy(&program.raw()).into_owned();
    let (taken, words) = (raw.find("\u{1b}[?1049h"), raw.find("words of a panic"));
    let given_back = raw.find("\u{1b}[?1049l");
    assert!(taken.is_some() && taken < given_back && given_back < words, "{raw:?}");
    let screen = program.screen();
    assert!(!screen.contains("the full screen"), "{screen}");
    // A terminal that is still raw would begin lines where the last ended.
    assert!(screen.lines().any(|line| line.starts_with("words of a panic")), "{screen}");
}

#[test]
fn a_folder_that_goes_away_is_said_and_the_program_goes_on() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
    program.shows("× Christening robe, lent");
    std::fs::rename(&board, user.path("elsewhere")).unwrap();
    let screen = program.shows("the board's folder is out of reach; nothing can be saved until it is back");
    assert!(screen.contains("41/44"), "nothing is taken for removed\n{screen}");
    program.types("]", "board: is out of reach");
    assert!(program.screen().contains("known 0/5"), "what is not saved is not shown");
    assert!(!board.exists(), "nothing is put where the folder was");
    // It still moves, finds, and keeps what it has.
    program.types("o", "open: space marks it");
    program.types("\u{1b}[H", "× Christening robe, lent");
    std::fs::rename(user.path("elsewhere"), &board).unwrap();
    program.shows("the board's folder is back");
    program.types("]", "known 1/5");
    program.types("u", "took back");
    // Gone for good, it can still be left.
    std::fs::rename(&board, user.path("elsewhere")).unwrap();
    program.shows("nothing can be saved until it is back");
    let screen = program.types("]", "board: is out of reach");
    assert!(screen.contains("known 0/5") && screen.contains("41/44"), "{screen}");
    program.keys("q");
    assert_eq!(program.ends(), 0);
    assert!(program.gave_back());
}

#[test]
fn a_file_that_may_not_be_written_is_said_and_the_program_goes_on() {
    let user = User::new();
    let board = user.demo("board");
    let mut program = user.run(&[board.to_str().unwrap()], (120, 40));
    program.shows("× Christening robe, lent");
    // A folder in the place of the file, which even root cannot write as a file.
    let file = board.join("outfits/od-1911-christening-gown.yaml");
    let kept = std::fs::read(&file).unwrap();
    std::fs::remove_file(&file).unwrap();
    std::fs::create_dir(&file).unwrap();
    program.keys("]");
    program.shows("od-1911-christening-gown.yaml");
    program.types("o", "open: space marks it");
    program.types("]", ": known ");
    std::fs::remove_dir(&file).unwrap();
    std::fs::write(&file, kept).unwrap();
    program.types("\u{1b}[H", "× Christening robe, lent");
    program.types("]", "known 1/5");
    program.keys("q");
    assert_eq!(program.ends(), 0);
}

/// Where the helper writes the id of the program that it leaves behind.
const TOLD: &str = "told";

#[test]
fn a_terminal_that_hangs_up_ends_the_program() {
    if let Some(place) = std::env::var_os(INSIDE) {
        // The one who holds the terminal: starts the program in it, and goes away without a word.
        let user = User::new();
        let board = user.demo("board");
        let program = user.run(&[board.to_str().unwrap()], (100, 30));
        program.shows("Slack Wa");
        std::fs::write(place, program.id().to_string()).unwrap();
        // Nothing is dropped: only the system closes what was open.
        std::process::exit(7);
    }
    let user = User::new();
    let told = user.path(TOLD);
    let variable = (INSIDE, told.to_str().unwrap());
    let mut holder = user.run_test("exits::a_terminal_that_hangs_up_ends_the_program", variable);
    assert_eq!(holder.ends(), 7, "{}", holder.screen());
    let id: u32 = std::fs::read_to_string(&told).unwrap().parse().unwrap();
    super::pty::wait_until("the end of the program", || has_ended(id));
}

/// Whether a process is gone, or is only waited for.
fn has_ended(id: u32) -> bool {
    let status = std::fs::read_to_string(format!("/proc/{id}/stat")).unwrap_or_default();
    status
        .rsplit(')')
        .next()
        .is_none_or(|rest| rest.trim_start().is_empty() || rest.trim_start().starts_with('Z'))
}
