//! How the board stands a large wardrobe: `cargo bench --bench board`.
//!
//! Four figures of the design: opening 10,000 outfits to the first frame against reading and parsing the same
//! bytes; a frame at 200×60 with 10,000 outfits against one with 100; a key to its frame while 3,000 outfits are being
//! searched; memory with 10,000 open. Each is a ratio within one run where it can be, since machines differ and are busy.
#![allow(missing_docs, clippy::print_stdout, clippy::unwrap_used, clippy::expect_used)]

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use crossterm::event::{Event, KeyCode, KeyEvent, KeyModifiers};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use shirr::board::Outfit;
use shirr::screen::app::App;
use shirr::screen::frame;
use shirr::screen::theme::{Depth, Theme};
use shirr::store::{OpenBoard, Places};

const MANY: usize = 10_000;
/// How many are searched.
const SEARCHED: usize = 3_000;
/// The demo itself, of about a hundred.
const FEW: usize = 130;
const SCREEN: Rect = Rect { x: 0, y: 0, width: 200, height: 60 };

fn main() {
    let mut arguments = std::env::args().skip(1);
    if arguments.next().as_deref() == Some("memory") {
        return report_own_memory(Path::new(&arguments.next().unwrap()));
    }
    let place = tempfile::tempdir().unwrap();
    let many = place.path().join("many");
    let few = place.path().join("few");
    make_board(&many, MANY);
    make_board(&few, FEW);
    opening(&many, place.path());
    frames(&many, &few, place.path());
    searching(place.path());
    memory(&many);
}

/// The demo's board with `count` outfits: the demo's own, over and over under new names.
fn make_board(folder: &Path, count: usize) {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board");
    fs::create_dir_all(folder.join("outfits")).unwrap();
    fs::copy(demo.join("board.yaml"), folder.join("board.yaml")).unwrap();
    let mut texts: Vec<_> = fs::read_dir(demo.join("outfits"))
        .unwrap()
        .map(|entry| {
            let path = entry.unwrap().path();
            (path.file_stem().unwrap().to_str().unwrap().to_owned(), fs::read_to_string(&path).unwrap())
        })
        .collect();
    texts.sort();
    for number in 0..count {
        let (name, text) = &texts[number % texts.len()];
        let round = number / texts.len();
        let name = if round == 0 { name.clone() } else { format!("{name}-{round}") };
        fs::write(folder.join("outfits").join(format!("{name}.yaml")), text).unwrap();
    }
    fs::create_dir_all(folder.join("looks")).unwrap();
    for entry in fs::read_dir(demo.join("looks")).unwrap() {
        let path = entry.unwrap().path();
        fs::copy(&path, folder.join("looks").join(path.file_name().unwrap())).unwrap();
    }
    for file in ["scenes.yaml", "schedule.yaml"] {
        fs::copy(demo.join(file), folder.join(file)).unwrap();
    }
}

fn open(folder: &Path, state: &Path) -> App {
    let open = OpenBoard::open(folder, &Places::below(state)).unwrap();
    assert!(open.faults().is_empty(), "{:?}", open.faults().first());
    App::new(open, Theme::new(Depth::True))
}

fn draw(app: &mut App) -> Buffer {
    let mut buffer = Buffer::empty(SCREEN);
    frame::draw_on(app, &mut buffer, SCREEN);
    buffer
}

/// The median of several runs.
fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times[times.len() / 2]
}

fn timed<T>(work: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let done = work();
    (start.elapsed(), done)
}

fn opening(folder: &Path, place: &Path) {
    let state = place.join("state-opening");
    // Once unmeasured, so that neither side pays for a cold disk.
    drop(draw(&mut open(folder, &state)));
    let (mut plain, mut ours) = (Vec::new(), Vec::new());
    for _ in 0..5 {
        plain.push(timed(|| read_and_parse(folder)).0);
        ours.push(timed(|| draw(&mut open(folder, &state))).0);
    }
    let (plain, ours) = (median(plain), median(ours));
    let ratio = ours.as_secs_f64() / plain.as_secs_f64();
    println!(
        "open {MANY} outfits to the first frame: {ours:.1?}; read and parse the same bytes: {plain:.1?}; ratio {ratio:.2} (reach: 2)"
    );
}

fn read_and_parse(folder: &Path) -> usize {
    let mut read = 0;
    for entry in fs::read_dir(folder.join("outfits")).unwrap() {
        let text = fs::read_to_string(entry.unwrap().path()).unwrap();
        let outfit: Outfit = serde_yaml::from_str(&text).unwrap();
        read += usize::from(!outfit.title.is_empty());
    }
    assert_eq!(read, MANY);
    read
}

fn frames(many: &Path, few: &Path, place: &Path) {
    let mut large = open(many, &place.join("state-many"));
    let mut small = open(few, &place.join("state-few"));
    for (zoom, closer) in [("far", 0), ("middle", 1), ("near", 1)] {
        for _ in 0..closer {
            press(&mut large, KeyCode::Char('+'));
            press(&mut small, KeyCode::Char('+'));
        }
        let (mut large_times, mut small_times) = (Vec::new(), Vec::new());
        for _ in 0..400 {
            small_times.push(step_and_draw(&mut small));
            large_times.push(step_and_draw(&mut large));
        }
        let (large, small) = (median(large_times), median(small_times));
        let ratio = large.as_secs_f64() / small.as_secs_f64();
        println!(
            "a frame at 200×60, {zoom} zoom: {large:.1?} with {MANY} outfits (reach: 4 ms), {small:.1?} with {FEW}; ratio {ratio:.2} (reach: 1.3)"
        );
    }
}

/// A key that moves the focus, and its frame.
fn step_and_draw(app: &mut App) -> Duration {
    timed(|| {
        press(app, KeyCode::Down);
        draw(app)
    })
    .0
}

/// Keys to their frames while the suggestion is being searched, against the same keys when it is found.
fn searching(place: &Path) {
    let folder = place.join("searched");
    make_board(&folder, SEARCHED);
    let mut app = open(&folder, &place.join("state-searched"));
    draw(&mut app);
    press(&mut app, KeyCode::Char('G'));
    let is_found = |frame: &Buffer| {
        let row = |y| (0..SCREEN.width).map(|x| frame[(x, y)].symbol()).collect::<String>();
        (0..SCREEN.height).any(|y| row(y).contains("could keep"))
    };
    let (begun, mut busy, mut quiet) = (Instant::now(), Vec::new(), Vec::new());
    while quiet.len() < 400 && begun.elapsed() < Duration::from_secs(120) {
        let (time, frame) = timed(|| {
            press(&mut app, KeyCode::Down);
            draw(&mut app)
        });
        if is_found(&frame) {
            quiet.push(time)
        } else {
            busy.push(time)
        }
        // Faster than a held key repeats.
        std::thread::sleep(Duration::from_millis(10));
    }
    assert!(
        !busy.is_empty() && !quiet.is_empty(),
        "{} keys while searching, {} after",
        busy.len(),
        quiet.len()
    );
    let at_99 = |times: &mut Vec<Duration>| {
        times.sort();
        times[(times.len() - 1) * 99 / 100]
    };
    println!(
        "a key to its frame while {SEARCHED} outfits are searched: {:.1?} at the 99th percentile of {} keys, at worst {:.1?} \
         (reach: 16 ms); when it is found: {:.1?}",
        at_99(&mut busy),
        busy.len(),
        busy.last().unwrap(),
        at_99(&mut quiet),
    );
}

fn press(app: &mut App, code: KeyCode) {
    app.event(&Event::Key(KeyEvent::new(code, KeyModifiers::NONE)));
}

fn memory(folder: &Path) {
    let output = std::process::Command::new(std::env::current_exe().unwrap())
        .arg("memory")
        .arg(folder)
        .output()
        .unwrap();
    print!("{}", String::from_utf8_lossy(&output.stdout));
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

/// Opens the board in a process of its own and prints the most memory that it has held.
fn report_own_memory(folder: &Path) {
    let state = tempfile::tempdir().unwrap();
    let mut app = open(folder, state.path());
    let buffer = draw(&mut app);
    assert!(buffer.content.iter().any(|cell| cell.symbol() != " "));
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak =
        status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap_or(" not told by this system");
    println!("memory, {MANY} outfits open: at most{peak} (reach: 150 MB)");
}
