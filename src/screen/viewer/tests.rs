use std::fs;

use crossterm::event::{Event, KeyModifiers, MouseButton, MouseEvent, MouseEventKind};
use image::{ImageFormat, Rgb, RgbImage};
use serde_json::json;

use crate::album::Album;
use crate::screen::gallery::{Eye, Gallery, Way};
use crate::screen::theme::Depth;
use crate::screen::trial::Trial;
use crate::trade::colour::Colour;

const SIZE: (u16, u16) = (120, 40);
const LEFT: [u8; 3] = [20, 160, 40];
const RIGHT: [u8; 3] = [180, 30, 60];

/// The smock with a picture that is green to the left and red to the right, seen as large as the screen.
fn seen() -> Trial {
    let mut trial = Trial::small();
    let folder = trial.app.folder();
    trial.app.gallery = Gallery::new(
        Album::of(&folder),
        Eye::new(Way::Blocks, Depth::True, SIZE, (SIZE.0 * 10, SIZE.1 * 20)),
    );
    fs::create_dir_all(folder.join("images")).unwrap();
    let halves = RgbImage::from_fn(200, 300, |x, _| Rgb(if x < 100 { LEFT } else { RIGHT }));
    halves.save_with_format(folder.join("images/smock.png"), ImageFormat::Png).unwrap();
    let smock = json!({"title": "Smock", "character": "odile", "worn": "1920", "pictures": ["images/smock.png"],
        "pieces": [{"name": "smock", "colours": ["white"]}, {"name": "boots"}]});
    trial.writes("outfits/smock.yaml", &smock);
    trial.app.focus(&crate::screen::views::Target::Outfit("smock".parse().unwrap()));
    trial.keys("P");
    trial.waits(SIZE, |screen| screen.contains('▀') || screen.contains('▄') || !screen.contains('…'));
    // What became ready while a frame was drawn is seen in the next one.
    while trial.app.gallery.is_waiting() || trial.app.has_news() {
        trial.screen(SIZE);
    }
    trial
}

fn colours(trial: &Trial, piece: usize) -> Vec<String> {
    let outfit = trial.app.board().outfit(&"smock".parse().unwrap()).unwrap();
    outfit.pieces[piece].colours.iter().map(Colour::to_string).collect()
}

fn reading(trial: &mut Trial) -> String {
    trial.keys("c");
    trial.waits(SIZE, |screen| screen.contains("enter ") && !screen.contains("reading the picture"))
}

#[test]
fn the_picture_and_then_the_flat_are_gone_through_and_the_flat_says_that_it_is_drawn() {
    let mut trial = seen();
    let screen = trial.screen(SIZE);
    assert!(screen.contains("1 of 2") && !screen.contains("drawn from the record"), "{screen}");
    trial.keys("right");
    let screen = trial.screen(SIZE);
    assert!(screen.contains("2 of 2") && screen.contains("drawn from the record"), "{screen}");
    trial.keys("c");
    assert!(trial.screen(SIZE).contains("colours are taken from pictures"));
    trial.keys("esc");
    assert!(!trial.screen(SIZE).contains("2 of 2"));
}

#[test]
fn a_colour_is_taken_where_the_cross_stands_and_undo_takes_it_back() {
    let mut trial = seen();
    let screen = reading(&mut trial);
    assert!(screen.contains("The picture's colour, not the cloth's"), "{screen}");
    assert!(screen.contains('┼'), "{screen}");
    trial.keys("left left left left");
    assert!(trial.screen(SIZE).contains("#14a028"), "{}", trial.screen(SIZE));
    trial.keys("enter");
    let asked = trial.screen(SIZE);
    assert!(asked.contains("smock: main colour") && asked.contains("in the place of white"), "{asked}");
    assert!(asked.contains("boots: main colour") && asked.contains("not the cloth's"), "{asked}");
    trial.keys("enter");
    assert_eq!(colours(&trial, 0), ["#14a028"]);
    trial.keys("u");
    assert_eq!(colours(&trial, 0), ["white"]);
}

fn click(trial: &mut Trial, column: u16, row: u16) {
    let kind = MouseEventKind::Down(MouseButton::Left);
    trial.app.event(&Event::Mouse(MouseEvent { kind, column, row, modifiers: KeyModifiers::NONE }));
}

/// Where the cross stands.
fn cross(screen: &str) -> Option<(u16, u16)> {
    (0..).zip(screen.lines()).find_map(|(row, line)| {
        let column = line.chars().position(|letter| letter == '┼')?;
        Some((u16::try_from(column).ok()?, row))
    })
}

#[test]
fn a_click_puts_the_cross_where_it_falls_and_its_colour_is_taken() {
    let mut trial = seen();
    // Right of the middle, near the foot of the picture: the first click begins, and what it hit stays hit.
    click(&mut trial, 75, 35);
    let screen = trial.waits(SIZE, |screen| screen.contains("#b41e3c"));
    let (column, row) = cross(&screen).unwrap_or_else(|| panic!("{screen}"));
    assert!((73..=76).contains(&column) && (33..=36).contains(&row), "{column} {row}");
    click(&mut trial, 50, 10);
    let screen = trial.screen(SIZE);
    assert_eq!(cross(&screen), Some((50, 10)), "{screen}");
    assert!(screen.contains("enter ░░░ #14a028"), "{screen}");
}

#[test]
fn what_another_hand_puts_in_the_place_of_the_picture_gives_no_colour_of_the_old_one() {
    let mut trial = seen();
    reading(&mut trial);
    let smock = json!({"title": "Smock", "character": "odile", "worn": "1920", "pictures": ["images/other.png"],
        "pieces": [{"name": "smock", "colours": ["white"]}]});
    trial.writes("outfits/smock.yaml", &smock);
    let screen = trial.screen(SIZE);
    assert!(!screen.contains("#14a028") && !screen.contains('┼'), "{screen}");
}

#[test]
fn no_colour_is_offered_while_the_picture_is_not_seen() {
    let mut trial = seen();
    reading(&mut trial);
    // At another size it is being made ready again.
    let other = (SIZE.0 - 20, SIZE.1);
    let screen = trial.screen(other);
    assert!(!screen.contains("enter ▓") && !screen.contains("enter ░"), "{screen}");
    let screen = trial.waits(other, |screen| screen.contains('┼'));
    assert!(screen.contains("enter ▓") || screen.contains("enter ░"), "{screen}");
}

#[test]
fn a_number_takes_what_is_proposed() {
    let mut trial = seen();
    let screen = reading(&mut trial);
    assert!(screen.contains("1 ") && screen.contains("2 "), "{screen}");
    trial.keys("1 down down down enter");
    let taken = colours(&trial, 0).into_iter().chain(colours(&trial, 1)).collect::<Vec<_>>();
    let proposed: Vec<String> = [LEFT, RIGHT].map(|rgb| Colour::of_rgb(rgb).to_string()).to_vec();
    assert!(taken.iter().any(|one| proposed.contains(one)), "{taken:?}");
}

#[test]
fn what_has_no_picture_and_a_terminal_without_colours_say_so() {
    let mut trial = Trial::small();
    trial.screen(SIZE);
    trial.keys("P");
    assert!(trial.screen(SIZE).contains("no pictures are shown here"), "{}", trial.screen(SIZE));
}

#[test]
fn the_viewer_is_drawn_at_every_size() {
    let mut trial = seen();
    reading(&mut trial);
    for size in [(40, 12), (80, 24), (200, 60)] {
        trial.screen(size);
        let screen = trial.waits(size, |screen| screen.contains('┼'));
        assert!(screen.contains("#"), "{screen}");
        trial.keys("right right down");
        assert!(trial.screen(size).contains('┼'));
    }
}
