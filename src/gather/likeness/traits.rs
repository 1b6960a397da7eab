//! What of an outfit is compared, made ready.

use super::palette::{COLOURS, Palette};
use super::words::{Lexicon, weighed};
use crate::board::{Outfit, ThreadId};

/// An outfit as it is compared.
#[derive(Clone, Debug)]
pub struct Traits {
    /// The day in the middle of its date.
    pub day: Option<f64>,
    /// Words of the names of its pieces.
    pub pieces: Box<[(u32, f32)]>,
    /// Words of its silhouette.
    pub silhouette: Box<[(u32, f32)]>,
    /// Words of its cloths.
    pub cloth: Box<[(u32, f32)]>,
    /// Its tags, and words of its occasion.
    pub occasion: Box<[(u32, f32)]>,
    /// Its colours.
    pub colours: Box<[(u32, f32)]>,
    /// Its threads.
    pub threads: Box<[(u32, f32)]>,
}

/// What the nth piece weighs against the first: an outfit is told by its main garment, less by what goes with it.
const BY_PLACE: [f32; 4] = [1.0, 0.6, 0.4, 0.25];

/// What the nth colour of a piece weighs against its main one.
const BY_COLOUR: [f32; 3] = [1.0, 0.5, 0.25];

/// What a word of the occasion weighs against a tag. Tags are chosen from a few; words are strewn.
const OCCASION: f32 = 0.4;

/// What a garment's other words weigh against its last, which in English names it: a `bathing costume` is a costume.
const QUALIFIER: f32 = 0.6;

impl Traits {
    /// What is compared of an outfit, in the words and colours of all.
    pub fn of(outfit: &Outfit, lexicon: &mut Lexicon, palette: &mut Palette) -> Self {
        let day = outfit.worn.as_ref().and_then(|worn| worn.middle()).map(|day| day.number() as f64);
        let (mut pieces, mut cloth, mut colours) = (Vec::new(), Vec::new(), Vec::new());
        for (at, piece) in outfit.pieces.iter().enumerate() {
            let weight = BY_PLACE[at.min(BY_PLACE.len() - 1)];
            let name = lexicon.words(&piece.name);
            let last = name.len().saturating_sub(1);
            let of_name = |(at, word)| (word, if at == last { weight } else { QUALIFIER * weight });
            pieces.extend(name.into_iter().enumerate().map(of_name));
            cloth.extend(lexicon.words(&piece.cloth).into_iter().map(|word| (word, weight)));
            for (place, colour) in piece.colours.iter().enumerate() {
                colours.push((palette.number(colour), weight * BY_COLOUR[place.min(BY_COLOUR.len() - 1)]));
            }
        }
        colours.sort_by(|a, b| b.1.total_cmp(&a.1));
        colours.truncate(COLOURS);
        let tags = outfit.tags.iter().flat_map(|tag| lexicon.words(tag)).map(|word| (word, 1.0));
        let mut occasion: Vec<(u32, f32)> = tags.collect();
        occasion.extend(lexicon.words(&outfit.occasion).into_iter().map(|word| (word, OCCASION)));
        let silhouette = lexicon.words(&outfit.silhouette).into_iter().map(|word| (word, 1.0)).collect();
        let thread = |thread: &ThreadId| (lexicon.name(thread.as_str()), 1.0);
        let threads = outfit.threads.iter().map(thread).collect();
        Self {
            day,
            pieces: weighed(pieces),
            silhouette: weighed(silhouette),
            cloth: weighed(cloth),
            occasion: weighed(occasion),
            colours: weighed(colours),
            threads: weighed(threads),
        }
    }
}
