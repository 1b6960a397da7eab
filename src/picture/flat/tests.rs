use std::collections::BTreeSet;
use std::path::Path;

use super::*;
use crate::board::Board;

fn demo() -> Board {
    crate::store::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-board")).unwrap().board
}

fn flats(board: &Board) -> Vec<(String, Option<Flat>)> {
    board.records().outfits.iter().map(|(id, outfit)| (id.to_string(), Flat::of_outfit(outfit))).collect()
}

fn piece(name: &str) -> Piece {
    Piece { name: name.to_owned(), ..Piece::default() }
}

#[test]
fn nearly_every_outfit_of_the_demo_draws_and_the_rest_say_so() {
    let all = flats(&demo());
    let drawn = all.iter().filter(|(_, flat)| flat.is_some()).count();
    assert!(all.len() > 100 && drawn * 100 >= all.len() * 97, "{drawn} of {}", all.len());
}

#[test]
fn every_look_of_the_demo_draws() {
    let board = demo();
    for (id, look) in &board.records().looks {
        let base = look.base.as_ref().and_then(|base| board.outfit(base));
        assert!(Flat::of_look(look, base).is_some(), "{id}");
    }
}

#[test]
fn no_two_outfits_of_the_demo_have_the_same_drawing() {
    let drawings: Vec<String> =
        flats(&demo()).iter().filter_map(|(_, flat)| Some(flat.as_ref()?.svg())).collect();
    let distinct: BTreeSet<&String> = drawings.iter().collect();
    assert_eq!(distinct.len(), drawings.len());
}

#[test]
fn garments_differ_in_their_lines_and_not_only_in_their_colours() {
    let kinds = [
        "bathing costume",
        "frock",
        "overall",
        "coat",
        "gown",
        "trousers",
        "breeches",
        "shorts",
        "skirt",
        "jacket",
        "cardigan",
        "jumper",
        "gansey",
        "blouse",
        "smock",
        "apron",
        "pinafore",
        "cape",
        "shawl",
        "robe",
        "dungarees",
        "siren suit",
        "bowler",
        "cloche",
        "turban",
        "headscarf",
        "helmet",
        "shoes",
        "sea boots",
        "clogs",
        "sandals",
        "stockings",
        "gloves",
        "belt",
        "scarf",
        "goggles",
        "bag",
    ];
    let drawings: BTreeSet<String> =
        kinds.iter().map(|kind| Flat::of(&[piece(kind)], "").unwrap().svg()).collect();
    assert_eq!(drawings.len(), kinds.len());
}

#[test]
fn the_same_record_gives_the_same_bytes() {
    for ((id, one), (_, other)) in flats(&demo()).into_iter().zip(flats(&demo())) {
        let (one, other) = (one.unwrap(), other.unwrap());
        assert_eq!(one.svg(), other.svg(), "{id}");
    }
    let flat = Flat::of(&[piece("frock")], "full skirt").unwrap();
    assert_eq!(flat.pixels(40, 60, None), flat.pixels(40, 60, None));
}

#[test]
fn an_independent_reader_finds_paths_and_the_words_and_nothing_that_acts() {
    for (id, flat) in flats(&demo()) {
        let text = flat.unwrap().svg();
        let document = roxmltree::Document::parse(&text).unwrap();
        let root = document.root_element();
        assert_eq!(root.tag_name().name(), "svg");
        assert_eq!(
            root.attribute("viewBox").unwrap().split(' ').filter(|side| side.parse::<f32>().is_ok()).count(),
            4
        );
        assert_eq!(root.first_element_child().unwrap().text(), Some(DRAWN), "{id}");
        let mut paths = 0;
        for node in root.descendants().filter(roxmltree::Node::is_element) {
            assert!(
                matches!(node.tag_name().name(), "svg" | "title" | "path"),
                "{id}: {:?}",
                node.tag_name()
            );
            paths += usize::from(node.tag_name().name() == "path");
            for attribute in node.attributes() {
                assert!(
                    !attribute.name().starts_with("on")
                        && !matches!(attribute.name(), "id" | "href" | "style"),
                    "{id}: {}",
                    attribute.name()
                );
            }
        }
        assert!(paths > 5, "{id} has {paths} paths");
        assert!(text.len() < 200_000, "{id} has {} bytes", text.len());
    }
}

#[test]
fn a_record_too_thin_draws_nothing() {
    assert_eq!(Flat::of(&[], "A-line"), None);
    assert_eq!(Flat::of(&[piece(""), piece("thing"), piece("<script>")], "A-line"), None);
}

#[test]
fn hostile_words_end_soon_and_are_never_written() {
    let long = "frock \" <script> & double-breasted ".repeat(3_000);
    let hostile = Piece {
        name: long.clone(),
        cloth: long.clone(),
        colours: Vec::new(),
        details: vec![long.clone(); 500],
    };
    let pieces: Vec<Piece> =
        std::iter::repeat_n(hostile, 40).chain((0..10_000).map(|at| piece(&format!("coat {at}")))).collect();
    let text = Flat::of(&pieces, &long).unwrap().svg();
    assert!(text.len() < 400_000, "{} bytes", text.len());
    assert!(!text.contains("script"));
}

#[test]
fn pixels_have_the_size_asked_for_and_ink_in_them() {
    let flat = Flat::of(&[piece("coat"), piece("hat")], "").unwrap();
    let inked = |pixels: &Pixels| pixels.rgba.chunks(4).filter(|pixel| pixel[3] > 0).count();
    for (width, height) in [(40, 60), (60, 40), (1, 1), (300, 20)] {
        let pixels = flat.pixels(width, height, None).unwrap();
        assert_eq!(
            (pixels.width, pixels.height, pixels.rgba.len() as u32),
            (width, height, width * height * 4)
        );
        assert!(inked(&pixels) > 0, "{width} × {height}");
    }
    let (bare, paper) =
        (flat.pixels(40, 60, None).unwrap(), flat.pixels(40, 60, Some([250, 240, 230])).unwrap());
    assert!(inked(&bare) < 40 * 60, "around the garment there is nothing");
    assert_eq!(paper.rgba[..4], [250, 240, 230, 255]);
    assert_eq!(flat.pixels(0, 10, None), None);
    assert_eq!(flat.pixels(10, Pixels::MOST + 1, None), None);
}

#[test]
fn the_drawing_fills_its_pixels_from_edge_to_edge_one_way() {
    let flat = Flat::of(&[piece("frock")], "").unwrap();
    let pixels = flat.pixels(200, 200, None).unwrap();
    let rows = (0..200)
        .filter(|row| pixels.rgba[row * 800..(row + 1) * 800].chunks(4).any(|pixel| pixel[3] > 0))
        .count();
    assert!(rows > 170, "{rows} of 200 rows");
}
