//! The main colours of a picture, as a proposal: a person looks at the cloth and decides.
//!
//! The picture is made small, the even border of a print is cut off, the background is found from the edge inwards, what
//! is left is grouped in CIELAB, and groups that the eye would call one colour in light and shade are joined. The same
//! picture gives the same proposal.
//!
//! What it cannot do: tell cloth from skin, hair or a chair; see a background that changes in steps for one; see a
//! garment whose colour is nearly the background's; keep apart stripes or a print so fine that the small picture mixes
//! them; know what colour the light was, or how a negative, a print or a screen has shifted it. A colour on less than a
//! fiftieth of what is seen is not proposed.

mod background;
mod group;

use image::{DynamicImage, RgbaImage};

use super::smaller::{fitted, smaller};
use crate::picture::Pixels;
use crate::trade::colour_difference::Lab;
use background::Ground;
use group::Group;

/// The longest side on which colours are counted.
const SIDE: u32 = 160;

/// The most colours that are proposed.
const MOST: usize = 6;

/// Less of what is seen than this is a button or a reflection.
const LEAST_SHARE: f32 = 0.02;

/// A main colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proposal {
    /// Red, green and blue, in sRGB.
    pub rgb: [u8; 3],
    /// How much of what is seen, without the background, 0 to 1.
    pub share: f32,
}

/// The main colours, the largest first, six at most. Where all is background, its colour; where all is transparent,
/// none.
pub fn main_colours(pixels: &Pixels) -> Vec<Proposal> {
    let Some(small) = small(pixels) else { return Vec::new() };
    let figure = small.figure();
    let groups = group::grouped(&figure);
    let background = small.background_colours();
    let total: usize = groups.iter().map(Group::size).sum();
    let mut proposals: Vec<Proposal> = groups
        .iter()
        .map(|group| (group, group.size() as f32 / total.max(1) as f32))
        .filter(|(_, share)| *share >= LEAST_SHARE)
        // Between an arm and the body the background shows again.
        .filter(|(group, share)| {
            let lab = lab(group.colour());
            *share > 0.1 || background.iter().all(|ground| lab.difference(*ground) > 4.0)
        })
        .map(|(group, share)| Proposal { rgb: lab(group.colour()).shown().rgb, share })
        .collect();
    proposals.sort_by(|one, other| other.share.total_cmp(&one.share).then(one.rgb.cmp(&other.rgb)));
    proposals.truncate(MOST);
    proposals
}

/// A point in CIELAB, in the small numbers that counting needs.
type Point = [f32; 3];

fn lab([lightness, a, b]: Point) -> Lab {
    Lab::new(f64::from(lightness), f64::from(a), f64::from(b))
}

/// The plain distance in CIELAB (CIE 1976), squared: good enough to count by, and fast.
fn apart(one: Point, other: Point) -> f32 {
    one.iter().zip(other).map(|(one, other)| (one - other) * (one - other)).sum()
}

/// The small picture: a point for each pixel that is not transparent.
struct Small {
    ground: Ground,
    points: Vec<Option<Point>>,
}

fn small(pixels: &Pixels) -> Option<Small> {
    let whole = RgbaImage::from_raw(pixels.width, pixels.height, pixels.rgba.clone())?;
    let target = fitted(whole.dimensions(), (SIDE, SIDE));
    let image = without_border(smaller(DynamicImage::from(whole), target));
    let points: Vec<Option<Point>> = image
        .pixels()
        .map(|pixel| {
            let [red, green, blue, opacity] = pixel.0;
            (opacity >= 128).then(|| Lab::from([red, green, blue]).parts().map(|part| part as f32))
        })
        .collect();
    let ground = Ground::of(&points, image.width() as usize);
    Some(Small { ground, points })
}

/// As much of a side as the border of a print takes at most: an eighth.
const BORDER: u32 = 8;

/// A row or a column of a border strays no farther than this from its middle colour, squared.
const EVEN: f32 = 5.0 * 5.0;

/// The picture less the even border that prints and mounts have; otherwise the paper of the border would be all of the
/// background that is found.
fn without_border(image: RgbaImage) -> RgbaImage {
    let (width, height) = image.dimensions();
    let point = |x: u32, y: u32| {
        let [red, green, blue, _] = image.get_pixel(x, y).0;
        Lab::from([red, green, blue]).parts().map(|part| part as f32)
    };
    let even = |line: Vec<Point>| {
        let middle = line.get(line.len() / 2).copied().unwrap_or_default();
        line.iter().all(|one| apart(*one, middle) <= EVEN)
    };
    let row = |y: u32| even((0..width).map(|x| point(x, y)).collect());
    let column = |x: u32| even((0..height).map(|y| point(x, y)).collect());
    let count = |lines: &mut dyn Iterator<Item = bool>| {
        u32::try_from(lines.take_while(|even| *even).count()).unwrap_or(0)
    };
    let (most_across, most_down) = (width / BORDER, height / BORDER);
    let top = count(&mut (0..most_down).map(row));
    let bottom = count(&mut (0..most_down).map(|y| row(height - 1 - y)));
    let left = count(&mut (0..most_across).map(column));
    let right = count(&mut (0..most_across).map(|x| column(width - 1 - x)));
    // Where the border ends, its colour and the picture's are mixed in one more line.
    let mixed = |lines: u32| if lines == 0 { 0 } else { lines + 1 };
    let (top, bottom, left, right) = (mixed(top), mixed(bottom), mixed(left), mixed(right));
    let (wide, high) = (width.saturating_sub(left + right), height.saturating_sub(top + bottom));
    if wide == 0 || high == 0 {
        return image;
    }
    image::imageops::crop_imm(&image, left, top, wide, high).to_image()
}

impl Small {
    /// The points of what is seen before the background; all of them where there is nothing before it.
    fn figure(&self) -> Vec<Point> {
        let before = |at: usize| !self.ground.behind(at);
        let inside: Vec<Point> = self.some(|at| before(at) && !self.ground.edge(at));
        let seen = self.points.iter().flatten().count();
        if inside.len() * 33 < seen {
            // A figure of one narrow thing is all edge; a picture of cloth has no figure, only edges in it.
            let all: Vec<Point> = self.some(|at| !self.ground.edge(at));
            return if all.len() * 4 < seen { self.some(|_| true) } else { all };
        }
        let all: Vec<Point> = self.some(before);
        if inside.len() * 4 < all.len() { all } else { inside }
    }

    fn background_colours(&self) -> Vec<Lab> {
        let behind: Vec<Point> = self.some(|at| self.ground.behind(at) && !self.ground.edge(at));
        let seen = self.points.iter().flatten().count();
        // Where all is background, none of it is.
        if behind.len() * 33 > seen * 32 {
            return Vec::new();
        }
        group::grouped(&behind).iter().map(|group| lab(group.colour())).collect()
    }

    fn some(&self, which: impl Fn(usize) -> bool) -> Vec<Point> {
        self.points.iter().enumerate().filter(|(at, _)| which(*at)).filter_map(|(_, point)| *point).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_of_one_colour_proposes_it() {
        for rgb in [[43, 48, 64], [255, 255, 255], [0, 0, 0], [200, 30, 30]] {
            let flat = Pixels { width: 90, height: 70, rgba: [rgb[0], rgb[1], rgb[2], 255].repeat(6300) };
            assert_eq!(main_colours(&flat), [Proposal { rgb, share: 1.0 }]);
        }
    }

    #[test]
    fn the_border_of_a_print_is_no_background_that_hides_the_real_one() {
        let (ivory, grey, navy) = ([240, 234, 214], [120, 130, 125], [30, 40, 90]);
        let mut rgba = Vec::new();
        for (y, x) in (0..120_u32).flat_map(|y| (0..90_u32).map(move |x| (y, x))) {
            let is_border = x < 6 || y < 6 || x >= 84 || y >= 114;
            let is_figure = (35..55).contains(&x) && (30..100).contains(&y);
            let [red, green, blue] = if is_border {
                ivory
            } else if is_figure {
                navy
            } else {
                grey
            };
            rgba.extend([red, green, blue, 255]);
        }
        let proposed = main_colours(&Pixels { width: 90, height: 120, rgba });
        assert_eq!(proposed.len(), 1, "{proposed:?}");
        assert!(proposed[0].rgb.iter().zip(navy).all(|(one, other)| one.abs_diff(other) < 4), "{proposed:?}");
    }

    #[test]
    fn what_is_transparent_or_no_picture_proposes_nothing() {
        let clear = Pixels { width: 40, height: 40, rgba: [9, 90, 200, 0].repeat(1600) };
        assert_eq!(main_colours(&clear), []);
        assert_eq!(main_colours(&Pixels { width: 0, height: 0, rgba: Vec::new() }), []);
        assert_eq!(main_colours(&Pixels { width: 4, height: 4, rgba: vec![1; 7] }), []);
    }

    #[test]
    fn pictures_of_a_pixel_or_a_row_have_colours_too() {
        for (width, height) in [(1, 1), (1, 400), (400, 1), (2, 2)] {
            let rgba = [10, 120, 60, 255].repeat((width * height) as usize);
            let proposals = main_colours(&Pixels { width, height, rgba });
            assert_eq!(proposals, [Proposal { rgb: [10, 120, 60], share: 1.0 }]);
        }
    }
}
