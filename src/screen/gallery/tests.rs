mod protocols;

use std::fs;

use image::{ImageFormat, RgbImage};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use serde_json::json;

use super::*;
use crate::screen::theme::Depth;
use crate::screen::trial::Trial;

const SIZE: (u16, u16) = (120, 40);

fn eye(way: Way) -> Eye {
    Eye::new(way, Depth::True, SIZE, (SIZE.0 * 10, SIZE.1 * 20))
}

/// The small board with pictures shown, on its near zoom.
fn near(way: Way) -> Trial {
    let mut trial = Trial::small();
    trial.app.gallery = Gallery::new(Album::of(&trial.app.folder()), eye(way));
    trial.keys("+ +");
    trial
}

/// Writes a picture of one colour into the board's folder, and an outfit that names it.
fn hang(trial: &mut Trial, name: &str, colour: [u8; 3]) {
    let path = trial.app.folder().join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    RgbImage::from_pixel(90, 120, image::Rgb(colour)).save_with_format(path, ImageFormat::Png).unwrap();
    names(trial, name);
}

/// The smock names this picture.
fn names(trial: &mut Trial, name: &str) {
    let smock = json!({"title": "Smock", "character": "odile", "worn": "1920", "pictures": [name],
        "pieces": [{"name": "smock", "colours": ["#ffffff"]}]});
    trial.writes("outfits/smock.yaml", &smock);
}

/// Draws frames until nothing is being made ready any more.
fn settled(trial: &mut Trial) -> Buffer {
    for _ in 0..10_000 {
        let buffer = trial.buffer(SIZE);
        // What became ready while the frame was drawn is seen in the next one.
        if !trial.app.gallery.is_waiting() && !trial.app.has_news() {
            return buffer;
        }
        while trial.app.gallery.is_waiting() && !trial.app.has_news() {
            std::thread::sleep(std::time::Duration::from_millis(1));
        }
    }
    panic!("pictures never come");
}

fn cells_of(buffer: &Buffer, colour: [u8; 3]) -> usize {
    let wanted = ratatui::style::Color::Rgb(colour[0], colour[1], colour[2]);
    buffer.content.iter().filter(|cell| cell.bg == wanted).count()
}

fn text(buffer: &Buffer) -> String {
    let row = |y| -> String { (0..buffer.area.width).map(|x| buffer[(x, y)].symbol()).collect() };
    (0..buffer.area.height).map(|y| row(y) + "\n").collect()
}

#[test]
fn a_picture_in_the_folder_is_seen_on_its_card_and_what_has_none_says_that_it_is_drawn() {
    let mut trial = near(Way::Blocks);
    let wool = json!({"title": "Club wool", "character": "odile", "worn": "1921",
        "pieces": [{"name": "bathing costume", "colours": ["navy"]}]});
    trial.writes("outfits/club-wool.yaml", &wool);
    hang(&mut trial, "images/smock.png", [10, 200, 30]);
    let buffer = settled(&mut trial);
    assert!(cells_of(&buffer, [10, 200, 30]) > 100, "{}", text(&buffer));
    let [red, green, blue] = shot::PAPER;
    assert!(cells_of(&buffer, [red, green, blue]) > 100, "flats stand on paper");
    assert!(text(&buffer).contains("drawn from the"), "{}", text(&buffer));
}

#[test]
fn a_frame_never_waits_for_a_picture() {
    let mut trial = near(Way::Blocks);
    hang(&mut trial, "images/smock.png", [10, 200, 30]);
    // What the threads have not made yet is not there, and the frame is drawn all the same.
    let buffer = trial.buffer(SIZE);
    assert_eq!(cells_of(&buffer, [10, 200, 30]), 0);
    assert!(text(&buffer).contains("Smock"));
    assert!(trial.app.gallery.is_waiting());
}

#[test]
fn a_picture_that_is_replaced_is_seen_anew_and_one_that_is_gone_says_so() {
    let mut trial = near(Way::Blocks);
    hang(&mut trial, "images/smock.png", [10, 200, 30]);
    settled(&mut trial);
    hang(&mut trial, "images/smock.png", [200, 10, 30]);
    trial.app.gallery.forget();
    assert!(cells_of(&settled(&mut trial), [200, 10, 30]) > 100);
    fs::remove_file(trial.app.folder().join("images/smock.png")).unwrap();
    trial.app.gallery.forget();
    let buffer = settled(&mut trial);
    assert!(text(&buffer).contains("! smock.png"), "{}", text(&buffer));
    assert!(text(&buffer).contains("no such file"), "{}", text(&buffer));
}

#[test]
fn what_cannot_be_shown_says_why_on_the_card() {
    let mut trial = near(Way::Blocks);
    let folder = trial.app.folder();
    fs::create_dir_all(folder.join("images/folder.jpg")).unwrap();
    fs::write(folder.join("images/empty.jpg"), b"").unwrap();
    fs::write(folder.join("images/words.jpg"), b"not a picture at all").unwrap();
    for (name, why) in [
        ("images/folder.jpg", "no file"),
        ("images/empty.jpg", "empty"),
        ("images/words.jpg", "no picture"),
        ("images/none.jpg", "no such file"),
    ] {
        names(&mut trial, name);
        trial.app.gallery.forget();
        let screen = text(&settled(&mut trial));
        assert!(screen.contains(why), "{name}\n{screen}");
    }
}

#[cfg(unix)]
#[test]
fn a_link_out_of_the_folder_is_refused() {
    let mut trial = near(Way::Blocks);
    let elsewhere = tempfile::tempdir().unwrap();
    let secret = elsewhere.path().join("secret.png");
    RgbImage::from_pixel(9, 12, image::Rgb([10, 200, 30])).save(&secret).unwrap();
    let folder = trial.app.folder();
    fs::create_dir_all(folder.join("images")).unwrap();
    std::os::unix::fs::symlink(&secret, folder.join("images/link.png")).unwrap();
    names(&mut trial, "images/link.png");
    let buffer = settled(&mut trial);
    assert_eq!(cells_of(&buffer, [10, 200, 30]), 0);
    assert!(text(&buffer).contains("a link leads out"), "{}", text(&buffer));
}

#[test]
fn pictures_are_hidden_and_shown_again_and_a_terminal_without_colours_shows_none() {
    let mut trial = near(Way::Blocks);
    hang(&mut trial, "images/smock.png", [10, 200, 30]);
    settled(&mut trial);
    trial.keys("H");
    assert_eq!(cells_of(&trial.buffer(SIZE), [10, 200, 30]), 0);
    trial.keys("H");
    assert!(cells_of(&settled(&mut trial), [10, 200, 30]) > 100);
    let mut trial = near(Way::None);
    hang(&mut trial, "images/smock.png", [10, 200, 30]);
    assert_eq!(cells_of(&trial.buffer(SIZE), [10, 200, 30]), 0);
    trial.keys("H");
    assert!(trial.screen(SIZE).contains("this terminal shows no pictures"));
}

#[test]
fn a_screen_of_256_colours_gets_pictures_in_its_own() {
    let mut trial = near(Way::Blocks);
    let eye = Eye { depth: Depth::TwoHundredFiftySix, ..eye(Way::Blocks) };
    trial.app.gallery = Gallery::new(Album::of(&trial.app.folder()), eye);
    hang(&mut trial, "images/smock.png", [255, 0, 0]);
    let buffer = settled(&mut trial);
    assert_eq!(cells_of(&buffer, [255, 0, 0]), 0);
    assert!(
        buffer.content.iter().filter(|cell| cell.bg == ratatui::style::Color::Indexed(196)).count() > 100
    );
}

#[test]
fn what_the_terminal_paints_itself_gives_way_to_what_lies_over_it() {
    let mut trial = near(Way::Sixel);
    hang(&mut trial, "images/smock.png", [10, 200, 30]);
    let sixels =
        |buffer: &Buffer| buffer.content.iter().filter(|cell| cell.symbol().contains("\u{1b}P")).count();
    assert!(sixels(&settled(&mut trial)) > 0);
    trial.keys("?");
    let buffer = settled(&mut trial);
    let help = Rect::new(20, 4, 60, 30);
    let covered = help.positions().filter(|at| buffer[*at].symbol().contains('\u{1b}')).count();
    assert_eq!(covered, 0);
}

#[test]
fn every_size_of_screen_is_drawn_with_pictures() {
    for way in [Way::Blocks, Way::Sixel, Way::Kitty, Way::Inline] {
        let mut trial = near(way);
        hang(&mut trial, "images/smock.png", [10, 200, 30]);
        for size in [(40, 12), (80, 24), (81, 13), (200, 60), (60, 50)] {
            trial.screen(size);
            trial.waits(size, |screen| !screen.contains('…') || size.0 < 80);
            while trial.app.gallery.is_waiting() {
                trial.app.has_news();
                trial.screen(size);
            }
        }
    }
}

#[test]
fn letters_of_another_size_have_pictures_made_anew() {
    let mut trial = near(Way::Sixel);
    hang(&mut trial, "images/smock.png", [10, 200, 30]);
    let sixel =
        |buffer: &Buffer| buffer.content.iter().find(|cell| cell.symbol().contains("\u{1b}P")).cloned();
    let small = sixel(&settled(&mut trial)).unwrap();
    trial.app.gallery.fit(SIZE, (SIZE.0 * 20, SIZE.1 * 40));
    let large = sixel(&settled(&mut trial)).unwrap();
    assert!(large.symbol().contains("\"1;1;") && large.symbol() != small.symbol());
}

#[test]
fn a_file_that_is_what_it_was_is_no_news_and_nothing_is_waited_for_any_more() {
    let mut trial = near(Way::Blocks);
    hang(&mut trial, "images/smock.png", [10, 200, 30]);
    settled(&mut trial);
    let gallery = &mut trial.app.gallery;
    let path = "images/smock.png".parse().unwrap();
    let known = Some(gallery.album.stamp(&path).ok());
    let ask = Ask { subject: Subject::File(path), size: Size::new(7, 7), in_blocks: false };
    gallery.wanted.push(Wish { ask, known });
    gallery.workers.as_ref().unwrap().want(&gallery.wanted);
    let began = Instant::now();
    while gallery.is_waiting() {
        assert!(!gallery.has_news());
        assert!(began.elapsed() < std::time::Duration::from_secs(60), "still waited for");
        std::thread::sleep(std::time::Duration::from_millis(1));
    }
}
