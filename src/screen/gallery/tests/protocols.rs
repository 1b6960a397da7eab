//! What is given to terminals that paint pictures themselves, read back by the rules of their protocols.
//!
//! Sixel: DEC, *VT330/VT340 Programmer Reference Manual*, volume 2, chapter 14: a string DCS … q … ST; raster attributes
//! `"`, colours `#n;2;r;g;b` in hundredths, repeats `!`, carriage return `$`, next band `-`, six pixels in each of `?` to `~`.
//! Kitty: its *Terminal graphics protocol*: APC `G` with keys, a payload in base64 by chunks of which `m=1` says that
//! more follow, `f=32` for RGBA, and places of U+10EEEE. Inline: iTerm2's *Images* page: OSC 1337 `File=` with
//! its size in bytes and the file in base64. Read here from memory of these documents.

use std::collections::HashMap;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use ratatui::layout::Size;

use super::super::shot::Content;
use super::super::{Eye, Shot, Way};
use super::eye;
use crate::picture::Pixels;

const RED: [u8; 3] = [220, 30, 40];
const BLUE: [u8; 3] = [20, 40, 200];

/// Red to the left, blue to the right.
fn halves(width: u32, height: u32) -> Pixels {
    let pixel = |at: u32| if at % width < width / 2 { RED } else { BLUE };
    let rgba = (0..width * height).flat_map(|at| [pixel(at)[0], pixel(at)[1], pixel(at)[2], 255]).collect();
    Pixels { width, height, rgba }
}

/// The first cell's symbol, those of the others, and how many cells it takes.
fn sent(way: Way, most: Size) -> (String, Vec<String>, Size) {
    let shot = Shot::of(halves(200, 200), most, &eye(way));
    let Content::Cells { size, cells, .. } = &shot.content else { panic!("no cells") };
    (cells[0].symbol().to_owned(), cells.iter().skip(1).map(|cell| cell.symbol().to_owned()).collect(), *size)
}

fn near(one: [u8; 3], other: [u8; 3]) -> bool {
    one.iter().zip(other).all(|(one, other)| one.abs_diff(other) <= 6)
}

/// What a terminal would paint: width, height and the pixels' colours.
fn painted(sixels: &str) -> (usize, usize, HashMap<(usize, usize), [u8; 3]>) {
    let start = sixels.find("\u{1b}P").unwrap();
    let body = &sixels[start + 2..];
    let body = &body[body.find('q').unwrap() + 1..body.find("\u{1b}\\").expect("ends with ST")];
    let mut letters = body.chars().peekable();
    let number = move |letters: &mut std::iter::Peekable<std::str::Chars<'_>>| {
        let mut value = None;
        while let Some(digit) = letters.peek().and_then(|letter| letter.to_digit(10)) {
            value = Some(value.unwrap_or(0) * 10 + digit as usize);
            letters.next();
        }
        value
    };
    let (mut colours, mut colour) = (HashMap::new(), 0);
    let (mut x, mut band, mut repeat) = (0, 0, 1);
    let (mut wide, mut high) = (0, 0);
    let mut pixels = HashMap::new();
    while let Some(letter) = letters.next() {
        match letter {
            '"' => {
                let mut values = Vec::new();
                while let Some(value) = number(&mut letters) {
                    values.push(value);
                    letters.next_if_eq(&';');
                }
                (wide, high) = (values[2], values[3]);
            }
            '#' => {
                colour = number(&mut letters).unwrap();
                let mut values = Vec::new();
                while letters.next_if_eq(&';').is_some() {
                    values.push(number(&mut letters).unwrap());
                }
                if let [2, red, green, blue] = values[..] {
                    colours.insert(colour, [red, green, blue].map(|part| (part * 255 / 100) as u8));
                }
            }
            '!' => repeat = number(&mut letters).unwrap(),
            '$' => x = 0,
            '-' => (x, band) = (0, band + 1),
            '?'..='~' => {
                let bits = letter as u32 - '?' as u32;
                for _ in 0..std::mem::replace(&mut repeat, 1) {
                    for bit in (0..6).filter(|bit| bits >> bit & 1 == 1) {
                        pixels.insert((x, band * 6 + bit), colours[&colour]);
                    }
                    x += 1;
                }
            }
            '\n' | '\r' => {}
            other => panic!("{other:?} means nothing in sixels"),
        }
    }
    (wide, high, pixels)
}

#[test]
fn sixels_paint_the_picture_in_the_very_cells_that_it_takes() {
    let (sixels, rest, size) = sent(Way::Sixel, Size::new(12, 6));
    assert_eq!(size, Size::new(12, 6));
    let (wide, high, pixels) = painted(&sixels);
    assert_eq!((wide, high), (120, 120));
    assert_eq!(pixels.len(), 120 * 120, "every pixel is painted once");
    for ((x, y), colour) in &pixels {
        if *x < 58 {
            assert!(near(*colour, RED), "{x} {y} {colour:?}");
        } else if *x > 61 {
            assert!(near(*colour, BLUE), "{x} {y} {colour:?}");
        }
    }
    assert!(rest.iter().all(|symbol| symbol == " "), "the other cells are left to the picture");
}

#[test]
fn kitty_gets_the_pixels_once_and_then_only_their_places() {
    let (first, rest, size) = sent(Way::Kitty, Size::new(12, 6));
    let mut keys = HashMap::new();
    let mut payload = String::new();
    let mut more = true;
    for chunk in first.split("\u{1b}_G").skip(1) {
        assert!(more, "nothing comes after the last chunk");
        let chunk = &chunk[..chunk.find("\u{1b}\\").expect("ends with ST")];
        let (control, data) = chunk.split_once(';').unwrap();
        assert!(data.len() <= 4096);
        for (key, value) in control.split(',').filter_map(|pair| pair.split_once('=')) {
            keys.insert(key.to_owned(), value.to_owned());
        }
        more = keys["m"] == "1";
        payload.push_str(data);
    }
    assert!(!more, "the last chunk says that it is the last");
    assert_eq!((&keys["f"][..], &keys["s"][..], &keys["v"][..], &keys["U"][..]), ("32", "120", "120", "1"));
    let rgba = STANDARD.decode(payload).unwrap();
    assert_eq!(rgba.len(), 120 * 120 * 4);
    assert!(near([rgba[0], rgba[1], rgba[2]], RED));
    assert!(near([rgba[119 * 4], rgba[119 * 4 + 1], rgba[119 * 4 + 2]], BLUE));
    let places =
        first.matches('\u{10eeee}').count() + rest.iter().filter(|one| one.contains('\u{10eeee}')).count();
    assert_eq!(places, usize::from(size.width) * usize::from(size.height));
    // Drawn a second time it only says where.
    let shot = Shot::of(halves(200, 200), Size::new(12, 6), &eye(Way::Kitty));
    let area = ratatui::layout::Rect::new(0, 0, 12, 6);
    let sizes = [0, 1, 2].map(|_| {
        let mut buffer = ratatui::buffer::Buffer::empty(area);
        shot.draw(&mut buffer, area);
        buffer[(0, 0)].symbol().len()
    });
    assert!(sizes[0] > 120 * 120 * 4 && sizes[1] < 64 && sizes[2] == sizes[1], "{sizes:?}");
}

#[test]
fn an_inline_file_is_a_picture_of_the_size_that_it_says() {
    let (first, rest, _) = sent(Way::Inline, Size::new(12, 6));
    let (_, file) = first.split_once("\u{1b}]1337;File=").unwrap();
    let (keys, data) = file.split_once(':').unwrap();
    let bytes = STANDARD.decode(data.split('\u{7}').next().unwrap()).unwrap();
    assert!(keys.contains(&format!("size={};", bytes.len())) && keys.contains("inline=1"), "{keys}");
    assert!(keys.contains("width=120px") && keys.contains("height=120px"), "{keys}");
    let image = image::load_from_memory(&bytes).unwrap().into_rgb8();
    assert_eq!(image.dimensions(), (120, 120));
    assert!(near(image.get_pixel(5, 60).0, RED) && near(image.get_pixel(115, 60).0, BLUE));
    assert!(rest.iter().all(|symbol| symbol == " "));
}

#[test]
fn half_blocks_show_two_pixels_in_a_cell() {
    let blocks = Eye { letter: (1, 2), ..eye(Way::Blocks) };
    let pixels = Pixels {
        width: 1,
        height: 2,
        rgba: [RED[0], RED[1], RED[2], 255, BLUE[0], BLUE[1], BLUE[2], 255].to_vec(),
    };
    let shot = Shot::of(pixels, Size::new(1, 1), &blocks);
    let Content::Cells { cells, .. } = &shot.content else { panic!("no cells") };
    let (red, blue) = ([RED[0], RED[1], RED[2]], [BLUE[0], BLUE[1], BLUE[2]]);
    let rgb = |[r, g, b]: [u8; 3]| ratatui::style::Color::Rgb(r, g, b);
    match cells[0].symbol() {
        "▀" => assert_eq!((cells[0].fg, cells[0].bg), (rgb(red), rgb(blue))),
        "▄" => assert_eq!((cells[0].fg, cells[0].bg), (rgb(blue), rgb(red))),
        other => panic!("{other:?} is no half block"),
    }
}
