//! What a picture is like: a fingerprint of 64 bits that stays nearly the same when the picture is saved smaller, with
//! another quality, a little lighter or with a sliver cut off, so that the same picture is found under two names.
//!
//! The grey picture is made 32 × 32, its lowest 8 × 8 frequencies are taken (DCT-II), and each bit says whether one of
//! them lies above their median. The way is common practice, no source; the threshold is ours.
//!
//! What it cannot do: know a picture again that was turned, mirrored or cut to a detail; tell two pictures apart that
//! differ in colour alone.

use image::{DynamicImage, GrayImage, RgbImage};

use super::smaller::smaller;
use super::write::on_white;
use crate::picture::Pixels;

/// As many bits as two fingerprints of the same picture are apart at most. Of two pictures that have nothing to do with
/// one another about 32 of 64 bits differ, each by the toss of a coin; ten or fewer then fall together about once in
/// ten million pairs.
pub const ALIKE: u32 = 10;

/// Of two pictures that cannot be compared.
const FAR: u32 = 64;

const SIDE: usize = 32;
const LOW: usize = 8;

/// Below this a frequency is noise: one level of grey over the whole picture is 32 on this scale.
const LEAST: f64 = 32.0;

/// What a picture is like.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Likeness(Form);

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Form {
    Structured(u64),
    /// Nothing is to be seen in it but its mean colour.
    Plain([u8; 3]),
}

impl Likeness {
    /// Of a picture, laid on white. `None` of one without pixels.
    pub fn of(pixels: &Pixels) -> Option<Self> {
        let rgb = RgbImage::from_raw(pixels.width, pixels.height, on_white(pixels))?;
        if rgb.is_empty() {
            return None;
        }
        let small = spread(DynamicImage::from(rgb));
        let grey: GrayImage = small.to_luma8();
        let lowest = lowest(&grey);
        // Where there is only noise, its bits are those of the noise.
        if lowest.iter().skip(1).all(|frequency| frequency.abs() < LEAST) {
            return Some(Self(Form::Plain(mean(&small.to_rgb8()))));
        }
        let mut sorted = lowest[1..].to_vec();
        sorted.sort_by(f64::total_cmp);
        let median = sorted.get(sorted.len() / 2).copied().unwrap_or_default();
        let bits = lowest
            .iter()
            .enumerate()
            .skip(1)
            .fold(0, |bits, (at, frequency)| if *frequency > median { bits | 1_u64 << at } else { bits });
        Some(Self(Form::Structured(bits)))
    }

    /// How many of 64 bits differ; [`ALIKE`] or fewer is the same picture. The same both ways.
    ///
    /// A plain picture has nothing to be known by: it is alike to one that is as plain and of the very same colour, and
    /// as far as can be from all others.
    pub fn apart(&self, other: &Self) -> u32 {
        match (self.0, other.0) {
            (Form::Structured(one), Form::Structured(other)) => (one ^ other).count_ones(),
            (Form::Plain(one), Form::Plain(other)) if one == other => 0,
            _ => FAR,
        }
    }

    /// Whether nothing is to be seen in it but a colour.
    pub fn is_plain(&self) -> bool {
        matches!(self.0, Form::Plain(_))
    }
}

/// 32 × 32, whatever its proportions were; what is smaller is first made larger.
fn spread(image: DynamicImage) -> DynamicImage {
    let side = SIDE as u32;
    let (width, height) = (image.width().max(side), image.height().max(side));
    let image = if (width, height) == (image.width(), image.height()) {
        image
    } else {
        image.resize_exact(width, height, image::imageops::FilterType::Triangle)
    };
    smaller(image, (side, side)).into()
}

fn mean(rgb: &RgbImage) -> [u8; 3] {
    let mut sums = [0_u32; 3];
    for pixel in rgb.pixels() {
        sums.iter_mut().zip(pixel.0).for_each(|(sum, channel)| *sum += u32::from(channel));
    }
    let count = rgb.width() * rgb.height();
    sums.map(|sum| ((sum + count / 2) / count.max(1)) as u8)
}

/// The lowest 8 × 8 frequencies, by rows: DCT-II, scaled so that the transform keeps lengths.
fn lowest(grey: &GrayImage) -> [f64; LOW * LOW] {
    let cosine = |frequency: usize, at: usize| {
        let scale = if frequency == 0 { 1.0 } else { 2.0_f64.sqrt() } / (SIDE as f64).sqrt();
        scale * (std::f64::consts::PI / SIDE as f64 * (at as f64 + 0.5) * frequency as f64).cos()
    };
    let table: Vec<f64> =
        (0..LOW).flat_map(|frequency| (0..SIDE).map(move |at| cosine(frequency, at))).collect();
    let mut rows = [0.0; LOW * SIDE];
    for (y, row) in grey.as_raw().chunks_exact(SIDE).enumerate() {
        for (frequency, waves) in table.chunks_exact(SIDE).enumerate() {
            rows[frequency * SIDE + y] =
                row.iter().zip(waves).map(|(sample, wave)| f64::from(*sample) * wave).sum();
        }
    }
    let mut lowest = [0.0; LOW * LOW];
    for (across, column) in rows.chunks_exact(SIDE).enumerate() {
        for (down, waves) in table.chunks_exact(SIDE).enumerate() {
            lowest[down * LOW + across] = column.iter().zip(waves).map(|(sample, wave)| sample * wave).sum();
        }
    }
    lowest
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::photo::{decoded, jpeg, sample};

    fn read(image: &DynamicImage, within: (u32, u32), quality: u8) -> Pixels {
        decoded(&sample::jpeg(image, quality), within).unwrap()
    }

    fn of(pixels: &Pixels) -> Likeness {
        Likeness::of(pixels).unwrap()
    }

    #[test]
    fn the_same_picture_is_alike_at_any_size_and_quality() {
        for seed in 0..12 {
            let picture = sample::scene(480, 360, seed);
            let whole = of(&read(&picture, (480, 360), 95));
            for within in [(240, 180), (100, 75), (333, 333), (48, 48)] {
                for quality in [95, 60, 30] {
                    let apart = whole.apart(&of(&read(&picture, within, quality)));
                    assert!(apart <= ALIKE, "{seed}: {within:?} at {quality}: {apart}");
                }
            }
        }
    }

    #[test]
    fn a_little_lighter_or_a_sliver_cut_off_is_still_alike() {
        for seed in 0..12 {
            let picture = sample::scene(480, 360, seed);
            let whole = of(&read(&picture, (480, 360), 95));
            for changed in [picture.brighten(12), picture.brighten(-12), picture.crop_imm(4, 3, 472, 354)] {
                let apart = whole.apart(&of(&read(&changed, (480, 360), 85)));
                assert!(apart <= ALIKE, "{seed}: {apart}");
            }
        }
    }

    #[test]
    fn different_pictures_are_far_apart() {
        let all: Vec<Likeness> =
            (0..24).map(|seed| of(&read(&sample::scene(320, 240, seed), (320, 240), 90))).collect();
        for (at, one) in all.iter().enumerate() {
            for other in &all[at + 1..] {
                assert!(
                    one.apart(other) > ALIKE && one.apart(other) == other.apart(one),
                    "{}",
                    one.apart(other)
                );
            }
        }
    }

    #[test]
    fn a_plain_picture_is_alike_to_none_but_the_very_same() {
        let plain = |rgb: [u8; 3], side: u32| {
            let rgba = [rgb[0], rgb[1], rgb[2], 255].repeat((side * side) as usize);
            of(&Pixels { width: side, height: side, rgba })
        };
        let navy = plain([0, 0, 128], 64);
        assert!(navy.is_plain());
        assert_eq!(navy.apart(&plain([0, 0, 128], 200)), 0);
        assert_eq!(navy.apart(&plain([0, 0, 129], 64)), 64);
        let scene = of(&read(&sample::scene(320, 240, 1), (320, 240), 90));
        assert!(!scene.is_plain());
        assert_eq!((navy.apart(&scene), scene.apart(&navy), scene.apart(&scene)), (64, 64, 0));
    }

    #[test]
    fn pictures_of_any_size_have_a_likeness_but_for_none() {
        assert_eq!(Likeness::of(&Pixels { width: 0, height: 0, rgba: Vec::new() }), None);
        assert_eq!(Likeness::of(&Pixels { width: 3, height: 3, rgba: vec![0; 4] }), None);
        for (width, height) in [(1, 1), (1, 500), (500, 1), (31, 33)] {
            let rgba = (0..width * height * 4).map(|at| (at * 37 % 251) as u8).collect();
            assert!(Likeness::of(&Pixels { width, height, rgba }).is_some());
        }
        let picture = read(&sample::scene(320, 240, 1), (320, 240), 90);
        let again = decoded(&jpeg(&picture, 50).unwrap(), (320, 240)).unwrap();
        assert!(of(&picture).apart(&of(&again)) <= ALIKE);
    }
}
