//! Colours numbered, and how different any two are.

use std::collections::HashMap;

use crate::trade::colour::Colour;
use crate::trade::colour_difference::Lab;

/// Every colour seen.
#[derive(Clone, Debug, Default)]
pub struct Palette {
    numbers: HashMap<[u8; 3], u32>,
    labs: Vec<Lab>,
}

impl Palette {
    /// The number of a colour.
    pub fn number(&mut self, colour: &Colour) -> u32 {
        let labs = &mut self.labs;
        *self.numbers.entry(colour.rgb()).or_insert_with(|| {
            labs.push(Lab::from(colour));
            labs.len() as u32 - 1
        })
    }

    /// The CIEDE2000 difference of two colours, by their numbers.
    pub fn difference(&self, one: u32, other: u32) -> f32 {
        self.labs[one as usize].difference(self.labs[other as usize]) as f32
    }
}

/// The differences of all colours of a palette, for whoever asks for most of them more than once.
pub struct Differences<'a> {
    palette: &'a Palette,
    /// Those of colour n with all before it, from n (n - 1) / 2 on. Empty where there are too many.
    at_hand: Vec<f32>,
}

/// The most colours whose differences are computed once and kept: 8 MB. Those of more are computed each time.
const AT_HAND: usize = 2_048;

impl<'a> Differences<'a> {
    /// Those of a palette. `over` ends it early: then none are kept.
    pub fn of(palette: &'a Palette, over: &dyn Fn() -> bool) -> Self {
        let (count, mut at_hand) = (palette.labs.len() as u32, Vec::new());
        if palette.labs.len() <= AT_HAND {
            for high in 0..count {
                if over() {
                    return Self { palette, at_hand: Vec::new() };
                }
                at_hand.extend((0..high).map(|low| palette.difference(high, low)));
            }
        }
        Self { palette, at_hand }
    }

    /// The difference of two colours, by their numbers.
    pub fn between(&self, one: u32, other: u32) -> f32 {
        let (low, high) = (one.min(other) as usize, one.max(other) as usize);
        if low == high {
            0.0
        } else if self.at_hand.is_empty() {
            self.palette.difference(high as u32, low as u32)
        } else {
            self.at_hand[high * (high - 1) / 2 + low]
        }
    }
}

/// The most colours of an outfit that are compared.
pub const COLOURS: usize = 6;

/// How unlike two sets of colours are, from 0 to 1: the mean, both ways round, of what each colour differs from the
/// nearest of the other set, by its weight; a difference of `reach` or more is 1. `None` where either is empty.
pub fn unlike(
    difference: impl Fn(u32, u32) -> f32,
    one: &[(u32, f32)],
    other: &[(u32, f32)],
    reach: f64,
) -> Option<f64> {
    let (one, other) = (&one[..one.len().min(COLOURS)], &other[..other.len().min(COLOURS)]);
    if one.is_empty() || other.is_empty() {
        return None;
    }
    // Each pair is looked at once, for both ways.
    let (mut from_one, mut from_other) = ([f32::INFINITY; COLOURS], [f32::INFINITY; COLOURS]);
    for (nearest, (colour, _)) in from_one.iter_mut().zip(one) {
        for (nearest_back, (back, _)) in from_other.iter_mut().zip(other) {
            let difference = difference(*colour, *back);
            *nearest = nearest.min(difference);
            *nearest_back = nearest_back.min(difference);
        }
    }
    let way = |from: &[(u32, f32)], nearest: &[f32]| {
        let (mut sum, mut all) = (0.0, 0.0);
        for (&(_, weight), &nearest) in from.iter().zip(nearest) {
            sum += f64::from(weight) * (f64::from(nearest) / reach).min(1.0);
            all += f64::from(weight);
        }
        sum / all
    };
    Some(0.5 * (way(one, &from_one) + way(other, &from_other)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sets_of_colours_are_as_unlike_as_their_nearest() {
        let mut palette = Palette::default();
        let mut of = |text: &str| palette.number(&text.parse().unwrap());
        let (black, white, navy) = (of("black"), of("white"), of("navy"));
        assert_eq!(of("#000"), black);
        let differences = Differences::of(&palette, &|| false);
        let unlike = |one: &[(u32, f32)], other: &[(u32, f32)]| {
            let kept = unlike(|one, other| differences.between(one, other), one, other, 50.0);
            assert_eq!(kept, unlike(|one, other| palette.difference(one, other), one, other, 50.0));
            kept
        };
        assert_eq!(unlike(&[(black, 1.0)], &[(black, 0.5)]), Some(0.0));
        assert_eq!(unlike(&[(black, 1.0)], &[(white, 1.0)]), Some(1.0), "100 is more than 50");
        assert_eq!(unlike(&[(black, 1.0)], &[]), None);
        let near = unlike(&[(black, 1.0)], &[(navy, 1.0)]).unwrap();
        assert!((f64::from(palette.difference(navy, black)) / 50.0 - near).abs() < 1e-6 && near < 1.0);
        assert_eq!(unlike(&[(black, 1.0), (white, 0.5)], &[(black, 1.0)]), Some(0.5 * (0.5 / 1.5)));
    }
}
