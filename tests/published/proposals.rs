//! The main colours of pictures whose colours are known, because they were made so: cloth plain, shaded, striped and
//! checked, with grain, before paper, grey, dark and graded grounds. Each proposal must lie within CIEDE2000 2 of the
//! colour that the cloth was given (Sharma, Wu & Dalal, *Color Research & Application* 30, 2005; the formula itself is
//! checked in `ciede2000`). Here is no published table: the truth is the program that paints.

use shirr::picture::Pixels;
use shirr::picture::photo::{Proposal, main_colours};
use shirr::trade::colour_difference::Lab;

type Rgb = [u8; 3];

const WIDTH: u32 = 480;
const HEIGHT: u32 = 640;

/// Grain as from a film or a sensor: the sum of four throws, the same each time.
struct Grain(u64);

impl Grain {
    fn next(&mut self) -> f32 {
        (0..4)
            .map(|_| {
                self.0 ^= self.0 << 13;
                self.0 ^= self.0 >> 7;
                self.0 ^= self.0 << 17;
                (self.0 >> 40) as f32 / (1_u64 << 24) as f32 - 0.5
            })
            .sum()
    }
}

/// A garment of a kind: broad shoulders, a waist, a skirt; it stands clear of the picture's edge.
fn inside(x: u32, y: u32) -> bool {
    let (x, y) = (x as f32 / WIDTH as f32 - 0.5, y as f32 / HEIGHT as f32);
    let half = if y < 0.4 { 0.26 - (y - 0.1) * 0.3 } else { 0.17 + (y - 0.4) * 0.35 };
    (0.1..0.9).contains(&y) && x.abs() < half
}

fn painted(
    ground: impl Fn(f32, f32) -> [f32; 3],
    cloth: impl Fn(u32, u32) -> Rgb,
    shade: f32,
    grain: f32,
    figure: impl Fn(u32, u32) -> bool,
) -> Pixels {
    let mut grains = Grain(0x5eed);
    let mut rgba = Vec::new();
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            let (across, down) = (x as f32 / WIDTH as f32, y as f32 / HEIGHT as f32);
            let base = if figure(x, y) {
                // Lit from one side: as much lighter there as darker here.
                let light = 1.0 + shade * (across - 0.5) * 2.0;
                cloth(x, y).map(|channel| f32::from(channel) * light)
            } else {
                ground(across, down)
            };
            rgba.extend(
                base.map(|channel| (channel + grains.next() * grain).round().clamp(0.0, 255.0) as u8),
            );
            rgba.push(255);
        }
    }
    Pixels { width: WIDTH, height: HEIGHT, rgba }
}

/// Each colour is proposed, and whatever is proposed is one of them.
fn proposed(pixels: &Pixels, truth: &[Rgb], what: &str) {
    let proposals = main_colours(pixels);
    let apart = |one: Rgb, other: Rgb| Lab::from(one).difference(Lab::from(other));
    for colour in truth {
        let nearest =
            proposals.iter().map(|proposal| apart(proposal.rgb, *colour)).fold(f64::INFINITY, f64::min);
        assert!(nearest <= 2.0, "{what}: {colour:?} is {nearest:.2} away from {proposals:?}");
    }
    for Proposal { rgb, share } in &proposals {
        let nearest = truth.iter().map(|colour| apart(*rgb, *colour)).fold(f64::INFINITY, f64::min);
        assert!(nearest <= 2.0, "{what}: {rgb:?} ({share}) is {nearest:.2} away from all of {truth:?}");
    }
    assert!(proposals.windows(2).all(|pair| pair[0].share >= pair[1].share), "{what}");
}

const PAPER: Rgb = [244, 240, 230];
const GREY: Rgb = [128, 128, 130];
const DARK: Rgb = [28, 26, 30];

fn flat(rgb: Rgb) -> impl Fn(f32, f32) -> [f32; 3] {
    move |_, _| rgb.map(f32::from)
}

/// From light above to half as light below, as a studio's cloth.
fn graded(_: f32, down: f32) -> [f32; 3] {
    [210.0, 205.0, 200.0].map(|channel| channel * (1.0 - 0.5 * down))
}

const BOTTLE: Rgb = [31, 84, 55];
const ROSE: Rgb = [196, 96, 110];
const NAVY: Rgb = [38, 52, 96];
const OCHRE: Rgb = [190, 140, 50];
const IVORY: Rgb = [238, 226, 196];

/// A cloth is proposed on every ground, with grain and with shading.
fn on_all_grounds(cloth: impl Fn(u32, u32) -> Rgb, truth: &[Rgb], what: &str) {
    for (grain, shade) in [(0.0, 0.0), (12.0, 0.08), (24.0, 0.05)] {
        let what = |ground: &str| format!("{what} on {ground}, grain {grain}, shade {shade}");
        proposed(&painted(flat(PAPER), &cloth, shade, grain, inside), truth, &what("paper"));
        proposed(&painted(flat(GREY), &cloth, shade, grain, inside), truth, &what("grey"));
        proposed(&painted(flat(DARK), &cloth, shade, grain, inside), truth, &what("dark"));
        proposed(&painted(graded, &cloth, shade, grain, inside), truth, &what("a graded ground"));
    }
}

#[test]
fn plain_cloth_is_proposed_as_its_colour_and_nothing_else() {
    for colour in [BOTTLE, ROSE, NAVY, OCHRE] {
        on_all_grounds(|_, _| colour, &[colour], &format!("{colour:?}"));
    }
}

#[test]
fn both_colours_of_stripes_are_proposed() {
    on_all_grounds(|x, _| if (x / 32).is_multiple_of(2) { NAVY } else { OCHRE }, &[NAVY, OCHRE], "stripes");
}

#[test]
fn the_colours_of_a_check_are_proposed() {
    let check = |x: u32, y: u32| match (x / 40 % 2, y / 40 % 2) {
        (0, 0) => ROSE,
        (1, 1) => BOTTLE,
        _ => OCHRE,
    };
    on_all_grounds(check, &[ROSE, BOTTLE, OCHRE], "a check");
}

#[test]
fn a_jacket_over_a_skirt_is_two_colours_the_larger_first() {
    let pixels = painted(flat(PAPER), |_, y| if y < 288 { ROSE } else { NAVY }, 0.05, 12.0, inside);
    proposed(&pixels, &[ROSE, NAVY], "jacket and skirt");
    assert_eq!(main_colours(&pixels), main_colours(&pixels.clone()), "not the same again");
    let first = main_colours(&pixels)[0];
    assert!(Lab::from(first.rgb).difference(Lab::from(NAVY)) <= 2.0 && first.share > 0.5, "{first:?}");
}

#[test]
fn a_figure_cut_off_by_the_lower_edge_is_no_background() {
    let figure = |x: u32, y: u32| y > 120 && (140..340).contains(&x);
    proposed(&painted(flat(GREY), |_, _| BOTTLE, 0.05, 12.0, figure), &[BOTTLE], "cut off");
}

#[test]
fn cloth_that_fills_the_picture_is_proposed_whole() {
    let everywhere = |_, _| true;
    proposed(&painted(flat(PAPER), |_, _| ROSE, 0.05, 12.0, everywhere), &[ROSE], "close, plain");
    let stripes = |x: u32, _| if (x / 40).is_multiple_of(2) { NAVY } else { IVORY };
    proposed(&painted(flat(PAPER), stripes, 0.0, 12.0, everywhere), &[NAVY, IVORY], "close, striped");
}
