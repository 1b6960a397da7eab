use serde_json::json;

use super::sheet::{MARGIN, NARROWEST};
use super::*;
use crate::board::told;
use crate::picture::flat::DRAWN;
use crate::picture::photo;
use crate::report::made::Folder;

const PAPERS: [Paper; 3] = [Paper::A3, Paper::A2, Paper::Roll];

fn board(title: &str) -> Board {
    told::board(json!({
        "head": {"title": "Tide"},
        "outfits": {
            "coat": {"title": title, "worn": "1914", "pieces": [{"name": "wool coat", "colours": ["navy"]}]},
            "thing": {"title": "A thing", "worn": "1926-08", "pieces": [{"name": "zzz", "colours": ["black"]}],
                "pictures": ["images/thing.png"]},
        },
        "looks": {"coat": {"title": "The coat", "base": "coat"}, "dream": {"title": "Dream", "treatment": "invent", "period": "late"}},
    }))
}

fn drawn(board: &Board, paper: Paper) -> String {
    Poster::of(board, None, paper).svg().to_owned()
}

/// Width, height and dots per metre as the file's own first chunks have them (PNG, third edition, 11.2.1 and 11.3.4.3).
fn header(png: &[u8]) -> (u32, u32, u32) {
    let number = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().unwrap());
    assert_eq!(&png[..8], b"\x89PNG\r\n\x1a\n");
    let density = png.windows(4).position(|four| four == b"pHYs").unwrap() + 4;
    assert_eq!(png[density + 8], 1);
    (number(16), number(20), number(density))
}

#[test]
fn every_outfit_and_every_look_is_on_every_paper_and_the_same_board_gives_the_same_bytes() {
    let board = board("Pilot's coat");
    for paper in PAPERS {
        let sheet = drawn(&board, paper);
        let read = roxmltree::Document::parse(&sheet).unwrap();
        let texts: Vec<&str> = read.descendants().filter_map(|node| node.text()).collect();
        for said in [
            "1914 → 1",
            "Pilot's coat",
            "Aug 1926 · open",
            "1 = The coat · Ada",
            "2 * Dream · Ada",
            "2 outfits",
        ] {
            assert!(texts.contains(&said), "{said}: {texts:?}");
        }
        assert!(texts.iter().any(|text| text.contains(DRAWN)));
        assert_eq!(sheet, drawn(&board, paper));
        for loads in ["<script", "href", "<image", "url("] {
            assert!(!sheet.contains(loads), "{loads}");
        }
    }
    assert!(Poster::of(&board, None, Paper::A2).page().contains("size: 594mm 420mm"));
}

#[test]
fn what_people_write_is_never_markup() {
    let sheet = drawn(&board("<script>&\u{202e}\"x\""), Paper::A3);
    let read = roxmltree::Document::parse(&sheet).unwrap();
    assert!(read.descendants().any(|node| node.text() == Some("<script>&\"x\"")));
    assert!(!sheet.contains("<script>"));
    assert!(
        Poster::of(&board("</text><image href=\"file:///etc/passwd\"/>"), None, Paper::A3).png(36).is_ok()
    );
}

#[test]
fn cards_stay_on_the_paper_and_apart_however_many_there_are() {
    for count in [0, 1, 3, 40, 400] {
        let outfit = |at: usize| {
            let says =
                json!({"title": format!("Outfit {at}"), "worn": "1926", "pieces": [{"name": "frock"}]});
            (format!("o{at}"), says)
        };
        let outfits: serde_json::Map<String, serde_json::Value> = (0..count).map(outfit).collect();
        let many = told::board(json!({"outfits": outfits}));
        for paper in PAPERS {
            let sheet = Sheet::of(&many, paper, &mut Figures::of(&many, None));
            let last = sheet.columns.last().unwrap();
            let right = last.left + last.wide;
            assert!(sheet.card.wide >= NARROWEST && right <= sheet.wide - MARGIN + 1e-6, "{count} {paper:?}");
            let svg = sheet.drawn(0);
            let read = roxmltree::Document::parse(&svg).unwrap();
            let number = |node: roxmltree::Node<'_, '_>, key: &str| {
                node.attribute(key).unwrap().parse::<f64>().unwrap()
            };
            let mut seen: Vec<[f64; 4]> = Vec::new();
            for node in read.root_element().children().filter(|node| node.has_tag_name("svg")) {
                let [x, y, wide, high] = ["x", "y", "width", "height"].map(|key| number(node, key));
                assert!(x >= MARGIN - 0.01 && x + wide <= sheet.wide - MARGIN + 0.01 && high >= 0.0);
                assert!(y >= MARGIN && y + high <= sheet.high - MARGIN, "{count} {paper:?}: {y} {high}");
                let apart = |[a, b, c, d]: &[f64; 4]| {
                    x + wide <= a + 0.02 || a + c <= x + 0.02 || y + high <= b + 0.02 || b + d <= y + 0.02
                };
                assert!(seen.iter().all(apart), "{count} {paper:?}");
                seen.push([x, y, wide, high]);
            }
            assert_eq!(seen.len(), count);
        }
        if count == 400 {
            assert!(Sheet::of(&many, Paper::Roll, &mut Figures::of(&many, None)).wide > 594.0);
        }
    }
}

#[test]
fn print_can_be_read_at_arms_length_and_lanes_take_no_more_than_they_need() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board");
    let demo = crate::store::read(&folder).unwrap().board;
    let svg = drawn(&demo, Paper::A2);
    let read = roxmltree::Document::parse(&svg).unwrap();
    let texts = || read.descendants().filter(|node| node.has_tag_name("text"));
    let sizes: Vec<f64> = texts().map(|node| node.attribute("font-size").unwrap().parse().unwrap()).collect();
    assert!(sizes.len() > 300);
    for (size, node) in sizes.iter().zip(texts()) {
        assert!(*size >= 2.0, "{size}: {:?}", node.text());
    }
    for paper in PAPERS {
        let svg = drawn(&demo, paper);
        let read = roxmltree::Document::parse(&svg).unwrap();
        let dates = read.descendants().filter(|node| node.attribute("font-weight").is_some());
        for date in dates.filter_map(|node| node.text()) {
            assert!(!date.ends_with('…'), "{paper:?}: {date}");
        }
    }
    let cards = read.root_element().children().filter(|node| node.has_tag_name("svg"));
    let wide =
        cards.map(|node| node.attribute("width").unwrap().parse::<f64>().unwrap()).fold(f64::MAX, f64::min);
    assert!(wide > 22.0, "{wide}");
}

#[test]
fn a_board_with_nothing_on_it_is_a_sheet_all_the_same() {
    let empty = drawn(&told::board(json!({})), Paper::A2);
    assert!(roxmltree::Document::parse(&empty).is_ok());
}

#[test]
fn as_png_it_has_the_size_of_its_paper_and_the_same_board_gives_the_same_bytes() {
    let board = board("Coat");
    for (paper, dpi, wide, high) in [(Paper::A3, 36, 595, 421), (Paper::A2, 50, 1169, 827)] {
        let png = Poster::of(&board, None, paper).png(dpi).unwrap();
        let per_metre = (f64::from(dpi) / 0.0254).round() as u32;
        assert_eq!(header(&png), (wide, high, per_metre));
        assert_eq!(png, Poster::of(&board, None, paper).png(dpi).unwrap());
        let seen = photo::decoded(&png, (wide, high)).unwrap();
        let is_dark = |x: u32, y: u32| seen.at(x, y).unwrap().iter().all(|part| *part < 110);
        let dots = |length: f64| (length / 25.4 * f64::from(dpi)) as u32;
        // The title is 10 mm high and begins at the margin; above it nothing stands.
        let ink = |from: f64, to: f64| {
            let rows = dots(from)..dots(to);
            rows.flat_map(|y| (dots(10.0)..dots(40.0)).map(move |x| (x, y)))
                .filter(|(x, y)| is_dark(*x, *y))
                .count()
        };
        assert!(ink(11.0, 19.0) > 20, "{}", ink(11.0, 19.0));
        assert_eq!(ink(1.0, 9.0), 0);
    }
}

#[test]
fn a_sheet_of_too_many_pixels_is_refused_with_the_most_that_would_do() {
    let refused = Poster::of(&board("Coat"), None, Paper::A2).png(600).unwrap_err();
    let Unprinted::TooLarge { most, .. } = refused else { panic!("{refused}") };
    assert_eq!(most, 508);
    assert!(refused.to_string().contains("expected 508 dots per inch or fewer"), "{refused}");
}

#[test]
fn a_picture_is_on_its_card_in_a_frame_and_what_cannot_be_seen_is_said() {
    let board = board("Coat");
    let folder = Folder::new();
    let unseen = Poster::of(&board, Some(&folder.album()), Paper::A3);
    assert!(unseen.svg().contains(" 1 picture could not be seen.") && !unseen.svg().contains("<image"));
    assert!(unseen.gaps()[0].as_str().contains("images/thing.png"));

    folder.picture("images/thing.png", (600, 900), [250, 0, 200]);
    let poster = Poster::of(&board, Some(&folder.album()), Paper::A3);
    assert!(poster.gaps().is_empty() && poster.svg().contains("1 picture, framed; all others are drawn"));
    assert!(poster.page().contains("img-src data:;"));
    let read = roxmltree::Document::parse(poster.svg()).unwrap();
    let image = read.descendants().find(|node| node.has_tag_name("image")).unwrap();
    let place =
        ["x", "y", "width", "height"].map(|key| image.attribute(key).unwrap().parse::<f64>().unwrap());
    assert!((place[3] / place[2] - 1.5).abs() < 0.01);
    let png = poster.png(72).unwrap();
    let (wide, high, _) = header(&png);
    let seen = photo::decoded(&png, (wide, high)).unwrap();
    let dot = |length: f64| (length / 25.4 * 72.0) as u32;
    let [red, green, blue] = seen.at(dot(place[0] + place[2] / 2.0), dot(place[1] + place[3] / 2.0)).unwrap();
    assert!(red > 240 && green < 15 && blue.abs_diff(200) < 10, "{red} {green} {blue}");
}
