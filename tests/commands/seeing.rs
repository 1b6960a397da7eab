//! Pictures in what is written: `shirr report … -o FILE.html` and `shirr poster`.

use std::fs;
use std::io::Cursor;

use crate::common::Desk;

const LOOK: &str = "title: Quay\ncharacter: ada\ntreatment: copy\nbase: smock\npieces: [{name: smock}]\n";

fn smock(pictures: &str) -> String {
    format!(
        "title: Quay smock\ncharacter: ada\nworn: '1920'\npieces: [{{name: smock}}]\npictures: [{pictures}]\n"
    )
}

/// A red picture.
fn png() -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    let image = image::RgbImage::from_pixel(40, 60, image::Rgb([200, 20, 20]));
    image.write_to(&mut bytes, image::ImageFormat::Png).unwrap();
    bytes.into_inner()
}

fn desk() -> Desk {
    let desk = Desk::new();
    let outfit = smock("images/gone.png, images/smock.png");
    desk.board("film", &[("looks/quay.yaml", LOOK), ("outfits/smock.yaml", &outfit)]);
    fs::create_dir_all(desk.path("film/images")).unwrap();
    fs::write(desk.path("film/images/smock.png"), png()).unwrap();
    desk
}

#[test]
fn a_report_as_a_page_has_the_pictures_of_the_boards_folder_and_as_text_does_not_look_for_any() {
    let desk = desk();
    desk.shirr(&["report", "looks", "film", "-o", "looks.html"]).exits(0);
    let page = fs::read_to_string(desk.path("looks.html")).unwrap();
    assert!(page.contains("<img src=\"data:image/jpeg;base64,") && page.contains("after Quay smock"));
    assert!(page.contains("The picture images/gone.png is not shown: no such file"));
    let text = desk.shirr(&["report", "looks", "film"]).exits(0);
    assert!(!text.out.contains("gone.png") && !text.out.contains("data:"), "{}", text.out);
}

#[test]
fn a_poster_is_written_as_its_ending_says_and_what_cannot_be_seen_is_told() {
    let desk = desk();
    let run = desk.shirr(&["poster", "film", "-o", "wall.svg"]).exits(0);
    assert!(run.err.contains("images/gone.png is not shown"), "{}", run.err);
    assert!(fs::read_to_string(desk.path("wall.svg")).unwrap().contains("href=\"data:image/jpeg;base64,"));
    desk.shirr(&["poster", "film", "-o", "wall.png", "--paper", "a3", "--dpi", "36"]).exits(0);
    let read = image::load_from_memory(&fs::read(desk.path("wall.png")).unwrap()).unwrap();
    assert_eq!((read.width(), read.height()), (595, 421));
}

#[test]
fn a_poster_that_nobody_could_print_is_refused_with_what_would_do() {
    let desk = desk();
    for (args, says) in [
        (&["-o", "wall.png", "--dpi", "5"][..], "36 to 600"),
        (&["-o", "wall.png", "--dpi", "600"], "508 dots per inch"),
        (&["-o", "wall.svg", "--dpi", "150"], "`--dpi` goes with a `.png` alone"),
        (&["-o", "wall.pdf"], "`.png`, `.svg` or `.html`"),
    ] {
        let run = desk.shirr(&[&["poster", "film"], args].concat()).exits(2);
        assert!(run.err.contains(says), "{args:?}: {}", run.err);
        assert!(!desk.path(args[1]).exists());
    }
}
