//! How the wall stands many large pictures: `cargo bench --bench pictures`.
//!
//! The bench makes 2,000 pictures of 12 megapixels, JPEG as a scanner or camera writes them: sixteen different ones, each
//! again and again under other names, all files of their own. It opens a board on which each is an outfit's, goes to the
//! near zoom, and measures with nothing in the cache: how long from opening to the first picture on the screen; a key and
//! its frame while the wall is scrolled and pictures are decoded behind it; the most memory that was ever taken. Then the
//! same with small copies in the cache. Every figure of time is of this machine; beside it stands what one picture
//! takes to decode here.
#![allow(missing_docs, clippy::print_stdout, clippy::unwrap_used, clippy::expect_used)]

use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use crossterm::event::{Event, KeyCode, KeyEvent, KeyModifiers};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use shirr::album::Album;
use shirr::picture::photo;
use shirr::screen::app::App;
use shirr::screen::frame;
use shirr::screen::gallery::{Eye, Gallery, Way};
use shirr::screen::theme::{Depth, Theme};
use shirr::store::{OpenBoard, Places};

const MANY: usize = 2_000;
const KINDS: usize = 16;
const SIZE: (u32, u32) = (4_000, 3_000);
const SCREEN: Rect = Rect { x: 0, y: 0, width: 200, height: 60 };
/// Between two keys: somebody who holds the key down.
const REPEAT: Duration = Duration::from_millis(30);
/// How many keys of a scroll are measured.
const KEYS: usize = 400;

fn main() {
    let mut arguments = std::env::args().skip(1).filter(|argument| argument != "--bench");
    if arguments.next().as_deref() == Some("scroll") {
        let (folder, places) = (arguments.next().unwrap(), arguments.next().unwrap());
        return scroll(Path::new(&folder), Path::new(&places));
    }
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("board");
    let bytes = make_board(&folder);
    println!("{MANY} pictures of {} × {} pixels, {} MB in all", SIZE.0, SIZE.1, bytes / 1_000_000);
    one_picture(&folder);
    for cache in ["nothing in the cache", "small copies of what was seen in the cache"] {
        println!("with {cache}:");
        let own = std::env::current_exe().unwrap();
        let places = place.path().join("places");
        let done = Command::new(own).arg("scroll").arg(&folder).arg(places).status().unwrap();
        assert!(done.success());
    }
}

/// What one picture costs, by itself.
fn one_picture(folder: &Path) {
    let bytes = fs::read(folder.join("images/p0000.jpg")).unwrap();
    let mut times: Vec<Duration> = (0..5)
        .map(|_| {
            let began = Instant::now();
            assert!(photo::decoded(&bytes, (320, 320)).unwrap().width > 0);
            began.elapsed()
        })
        .collect();
    times.sort();
    println!("one picture to the size of a card: {:.1?}", times[2]);
}

/// In a process of its own, so that its memory is its own.
fn scroll(folder: &Path, places: &Path) {
    let open = OpenBoard::open(folder, &Places::below(places)).unwrap();
    assert!(open.faults().is_empty(), "{:?}", open.faults().first());
    let album = Album::of(folder).keeping_copies(open.cache().join("pictures"));
    let mut app = App::new(open, Theme::new(Depth::True));
    app.gallery = Gallery::new(album, Eye::new(Way::Blocks, Depth::True, (200, 60), (0, 0)));
    for key in ['+', '+'] {
        press(&mut app, KeyCode::Char(key));
    }
    let began = Instant::now();
    let (mut first, mut all) = (None, None);
    while all.is_none() {
        let buffer = draw(&mut app);
        let seen = pictures(&buffer);
        if seen > 0 {
            first.get_or_insert_with(|| began.elapsed());
        }
        if seen > 0 && !app.gallery.is_waiting() && !app.has_news() {
            all = Some((began.elapsed(), seen));
        }
        assert!(began.elapsed() < Duration::from_secs(60), "no picture comes");
        while app.gallery.is_waiting() && !app.has_news() {
            std::thread::sleep(Duration::from_millis(1));
        }
    }
    let (first, (all, _)) = (first.unwrap(), all.unwrap());
    println!("  the first picture after {first:.1?} (reach: 150 ms), all of the screen after {all:.1?}");
    let mut times = Vec::with_capacity(KEYS);
    let mut shown = 0;
    for _ in 0..KEYS {
        let began = Instant::now();
        press(&mut app, KeyCode::Down);
        app.has_news();
        let buffer = draw(&mut app);
        times.push(began.elapsed());
        shown += usize::from(pictures(&buffer) > 0);
        std::thread::sleep(REPEAT.saturating_sub(began.elapsed()));
    }
    times.sort();
    let at = |share: f64| times[((times.len() as f64 * share) as usize).min(times.len() - 1)];
    println!(
        "  {KEYS} keys down the wall: a key and its frame {:.1?} in the middle, {:.1?} at the 99th percentile (reach: \
         16 ms), {:.1?} at worst; {shown} of the frames had pictures",
        at(0.5),
        at(0.99),
        times[times.len() - 1]
    );
    println!("  memory at most: {} MB (reach: 400)", most_memory() / 1_000_000);
}

fn press(app: &mut App, code: KeyCode) {
    app.event(&Event::Key(KeyEvent::new(code, KeyModifiers::NONE)));
}

fn draw(app: &mut App) -> Buffer {
    let mut buffer = Buffer::empty(SCREEN);
    frame::draw_on(app, &mut buffer, SCREEN);
    buffer
}

/// How many cells show half blocks, of which nothing else on the wall is made.
fn pictures(buffer: &Buffer) -> usize {
    buffer.content.iter().filter(|cell| matches!(cell.symbol(), "▀" | "▄")).count()
}

/// The most that this process ever had in memory, in bytes, as Linux tells it; 0 elsewhere.
fn most_memory() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.and_then(|line| line.trim().trim_end_matches("kB").trim().parse::<u64>().ok()).unwrap_or(0) * 1024
}

/// The board and its pictures; returns how many bytes the pictures have.
fn make_board(folder: &Path) -> u64 {
    fs::create_dir_all(folder.join("outfits")).unwrap();
    fs::create_dir_all(folder.join("looks")).unwrap();
    fs::create_dir_all(folder.join("images")).unwrap();
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board");
    fs::copy(demo.join("board.yaml"), folder.join("board.yaml")).unwrap();
    let kinds: Vec<Vec<u8>> = (0..KINDS).map(picture).collect();
    let mut bytes = 0;
    for number in 0..MANY {
        let picture = &kinds[number % KINDS];
        bytes += picture.len() as u64;
        fs::write(folder.join(format!("images/p{number:04}.jpg")), picture).unwrap();
        let day = format!("19{:02}-{:02}-{:02}", 25 + number % 30, 1 + number % 12, 1 + number % 28);
        let text = format!(
            "title: Outfit {number}\ncharacter: odile\nworn: {day}\npieces:\n  - name: dress\n    colours: [navy]\n\
             pictures:\n  - images/p{number:04}.jpg\n"
        );
        fs::write(folder.join(format!("outfits/o{number:04}.yaml")), text).unwrap();
    }
    bytes
}

/// A picture with soft shapes and the grain of a photograph, which is what makes a JPEG large.
fn picture(kind: usize) -> Vec<u8> {
    let mut state = 0x9e37_79b9_u32.wrapping_mul(kind as u32 + 1) | 1;
    let mut grain = move || {
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        (state & 15) as f32 - 7.5
    };
    let (wide, high) = SIZE;
    let hue = kind as f32 / KINDS as f32;
    let mut rgb = Vec::with_capacity((wide * high * 3) as usize);
    for y in 0..high {
        for x in 0..wide {
            let (across, down) = (x as f32 / wide as f32 - 0.5, y as f32 / high as f32 - 0.5);
            let is_worn = across.abs() < 0.15 + 0.1 * down && down.abs() < 0.4;
            let light = if is_worn { 90.0 } else { 190.0 } + 30.0 * (down * 9.0).sin() + grain();
            rgb.extend([light * (0.7 + 0.3 * hue), light, light * (1.0 - 0.3 * hue)].map(|part| part as u8));
        }
    }
    let mut jpeg = Vec::new();
    let mut encoder = image::codecs::jpeg::JpegEncoder::new_with_quality(&mut jpeg, 85);
    encoder.encode(&rgb, wide, high, image::ExtendedColorType::Rgb8).unwrap();
    jpeg
}
