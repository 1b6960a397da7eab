//! How unlike two outfits are: Gower's coefficient over date, pieces, silhouette, cloth, occasion, colours and threads.
//!
//! The distance is from 0 to 1, the same both ways, 0 of an outfit with itself, and 1 between characters. What a record
//! does not say is left out on both sides, so that an outfit of which little is known is judged by what is.
//!
//! Where it is a stretch to let one stand for the other ([`STRETCH`], and across many years [`STRETCH_OF_YEARS`]), the distance is 1: nothing of the one is kept in
//! the other, and no sum of such stretches makes a look worth anything. [`Likeness::explain`] tells the coefficient itself.
//!
//! What counts how much is the board's own to say ([`GatherSettings`]). By default what it
//! was worn for counts most, then the garments, since that is what tells an audience one costume from another; then
//! colours and date; outline, cloth and threads least. An outfit is told by its main piece and its main colour, less by
//! what goes with them. Tags count as words of the occasion, and more than those: they are chosen from a few.
//! All of this is a judgement of the trade (common practice, no source), and so open to the board's own.

mod explanation;
pub mod gower;
mod palette;
mod traits;
mod words;

use std::collections::BTreeMap;
use std::sync::Arc;

use explanation::is_stretch;
pub use explanation::{Explanation, Part, STRETCH, STRETCH_OF_YEARS};

use palette::{Differences, Palette, unlike};
use traits::Traits;
use words::Lexicon;

use crate::board::{Board, GatherSettings, Outfit, OutfitId};

/// What is compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Feature {
    /// When it was worn.
    Date,
    /// Which garments.
    Pieces,
    /// Its outline.
    Silhouette,
    /// What it is made of.
    Cloth,
    /// For what it was worn.
    Occasion,
    /// Its colours.
    Colours,
    /// The threads that it carries.
    Threads,
}

impl Feature {
    /// All features, in the order in which they are told.
    pub const ALL: [Self; 7] = [
        Self::Date,
        Self::Pieces,
        Self::Silhouette,
        Self::Cloth,
        Self::Occasion,
        Self::Colours,
        Self::Threads,
    ];

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Date => "date",
            Self::Pieces => "pieces",
            Self::Silhouette => "silhouette",
            Self::Cloth => "cloth",
            Self::Occasion => "occasion",
            Self::Colours => "colours",
            Self::Threads => "threads",
        }
    }

    /// How much it counts where the board does not say.
    pub fn default_weight(self) -> f64 {
        match self {
            Self::Occasion => 4.0,
            Self::Pieces => 3.0,
            Self::Date | Self::Colours => 2.0,
            Self::Silhouette | Self::Cloth | Self::Threads => 1.0,
        }
    }

    fn weight(self, settings: &GatherSettings) -> f64 {
        let weights = &settings.weights;
        let given = match self {
            Self::Date => weights.date,
            Self::Pieces => weights.pieces,
            Self::Silhouette => weights.silhouette,
            Self::Cloth => weights.cloth,
            Self::Occasion => weights.occasion,
            Self::Colours => weights.colours,
            Self::Threads => weights.threads,
        };
        given.map_or(self.default_weight(), |weight| weight.get())
    }

    /// What a record says of it, in words.
    fn said(self, outfit: &Outfit) -> String {
        let pieces = &outfit.pieces;
        match self {
            Self::Date => outfit.worn.as_ref().map(ToString::to_string).unwrap_or_default(),
            Self::Pieces => listed(pieces.iter().map(|piece| piece.name.as_str())),
            Self::Silhouette => outfit.silhouette.clone(),
            Self::Cloth => listed(pieces.iter().map(|piece| piece.cloth.as_str())),
            Self::Occasion => {
                listed([outfit.occasion.as_str()].into_iter().chain(outfit.tags.iter().map(String::as_str)))
            }
            Self::Colours => {
                let colours = pieces.iter().flat_map(|piece| &piece.colours).map(ToString::to_string);
                listed(colours.collect::<Vec<_>>().iter().map(String::as_str))
            }
            Self::Threads => listed(outfit.threads.iter().map(|thread| thread.as_str())),
        }
    }
}

fn listed<'a>(words: impl Iterator<Item = &'a str>) -> String {
    words.filter(|word| !word.is_empty()).collect::<Vec<_>>().join(", ")
}

/// Two outfits so many years apart are wholly unlike in date, where the board does not say.
pub const YEARS_APART: f64 = 12.0;

/// Two colours so far apart (CIEDE2000) are wholly unlike, where the board does not say.
pub const COLOURS_APART: f64 = 45.0;

const DAYS_IN_A_YEAR: f64 = 365.25;

/// Fewer outfits are compared on one thread: more would not be worth their start.
const ALONE: usize = 200;

/// The likeness of all outfits of a board. It keeps what it has made ready, and [follows](Self::follow) the board.
#[derive(Clone, Debug)]
pub struct Likeness {
    settings: GatherSettings,
    weights: [f64; 7],
    days_apart: f64,
    colours_apart: f64,
    lexicon: Lexicon,
    palette: Palette,
    ready: BTreeMap<OutfitId, Ready>,
}

/// An outfit, and what of it is compared.
type Ready = (Arc<Outfit>, Traits);

impl Default for Likeness {
    fn default() -> Self {
        Self::by(GatherSettings::default())
    }
}

impl Likeness {
    /// The likeness of a board's outfits.
    pub fn of(board: &Board) -> Self {
        let mut likeness = Self::by(board.head().gather.clone());
        likeness.take_up(board);
        likeness
    }

    /// The likeness of no outfits, by these settings.
    fn by(settings: GatherSettings) -> Self {
        let reach = |reach: Option<crate::board::Reach>, or: f64| reach.map_or(or, |reach| reach.get());
        Self {
            weights: Feature::ALL.map(|feature| feature.weight(&settings)),
            days_apart: reach(settings.years_apart, YEARS_APART) * DAYS_IN_A_YEAR,
            colours_apart: reach(settings.colours_apart, COLOURS_APART),
            settings,
            lexicon: Lexicon::default(),
            palette: Palette::default(),
            ready: BTreeMap::new(),
        }
    }

    /// Takes up what has changed on the board since. Whether outfits that have not changed are as alike as before.
    pub fn follow(&mut self, board: &Board) -> bool {
        let is_as_before = board.head().gather == self.settings;
        if is_as_before {
            self.take_up(board);
        } else {
            *self = Self::of(board);
        }
        is_as_before
    }

    fn take_up(&mut self, board: &Board) {
        let outfits = &board.records().outfits;
        let mut both = self.ready.iter().zip(outfits);
        let is_same = self.ready.len() == outfits.len()
            && both.all(|((known, (of, _)), (id, outfit))| Arc::ptr_eq(of, outfit) && known == id);
        if is_same {
            return;
        }
        self.ready.retain(|id, _| outfits.contains_key(id));
        for (id, outfit) in outfits {
            let known = self.ready.get(id).is_some_and(|(known, _)| Arc::ptr_eq(known, outfit));
            if !known {
                let traits = Traits::of(outfit, &mut self.lexicon, &mut self.palette);
                self.ready.insert(id.clone(), (Arc::clone(outfit), traits));
            }
        }
    }

    /// How unlike two outfits are, from 0 to 1, where that is no stretch, in single precision as in a [`matrix`](Self::matrix). 1 where they are of
    /// different characters, or one is not there.
    pub fn distance(&self, one: &OutfitId, other: &OutfitId) -> f64 {
        let pair = self.ready.get(one).zip(self.ready.get(other));
        let difference = |one, other| self.palette.difference(one, other);
        pair.map_or(1.0, |(one, other)| f64::from(self.apart(one, other, &difference)))
    }

    /// All distances among some outfits, row by row; all that are not there are 1 from any other. On as many threads as
    /// the machine runs at once. `over` ends it early.
    pub fn matrix(&self, outfits: &[OutfitId], over: &(dyn Fn() -> bool + Sync)) -> Option<Vec<f32>> {
        let n = outfits.len();
        let ready: Vec<_> = outfits.iter().map(|id| self.ready.get(id)).collect();
        let differences = Differences::of(&self.palette, over);
        let difference = |one, other| differences.between(one, other);
        let mut cost = vec![0.0_f32; n * n];
        let mut rows: Vec<(usize, &mut [f32])> = cost.chunks_exact_mut(n.max(1)).enumerate().collect();
        let threads = if n < ALONE { 1 } else { std::thread::available_parallelism().map_or(1, usize::from) };
        // The first rows are the longest: threads take turns.
        let mut shares: Vec<Vec<_>> = (0..threads).map(|_| Vec::with_capacity(n / threads + 1)).collect();
        rows.drain(..).for_each(|row| shares[row.0 % threads].push(row));
        let fill = |share: Vec<(usize, &mut [f32])>| {
            for (i, row) in share {
                if over() {
                    return;
                }
                for (cost, other) in row.iter_mut().zip(&ready).skip(i + 1) {
                    let pair = ready[i].zip(*other);
                    *cost = pair.map_or(1.0, |(one, other)| self.apart(one, other, &difference));
                }
            }
        };
        std::thread::scope(|scope| {
            let own = shares.pop();
            shares.into_iter().for_each(|share| {
                scope.spawn(|| fill(share));
            });
            own.map(fill);
        });
        if over() {
            return None;
        }
        for i in 0..n {
            for j in 0..i {
                cost[i * n + j] = cost[j * n + i];
            }
        }
        Some(cost)
    }

    /// The coefficient, or 1 where it is a stretch or they are of different characters.
    fn apart(&self, one: &Ready, other: &Ready, difference: &impl Fn(u32, u32) -> f32) -> f32 {
        if one.0.character != other.0.character {
            return 1.0;
        }
        let distances = self.distances(&one.1, &other.1, difference);
        let coefficient = self.coefficient(one, other, distances);
        if is_stretch(coefficient.into(), distances[Feature::Date as usize]) { 1.0 } else { coefficient }
    }

    /// Gower's coefficient of two outfits of one character, from how unlike they are in each feature.
    fn coefficient(&self, one: &Ready, other: &Ready, distances: [Option<f64>; 7]) -> f32 {
        if Arc::ptr_eq(&one.0, &other.0) {
            return 0.0;
        }
        gower::coefficient(self.weights.into_iter().zip(distances)) as f32
    }

    /// How unlike two outfits are in each feature, in the order of [`Feature::ALL`].
    fn distances(
        &self,
        one: &Traits,
        other: &Traits,
        difference: &impl Fn(u32, u32) -> f32,
    ) -> [Option<f64>; 7] {
        Feature::ALL.map(|feature| self.unlike(feature, one, other, difference))
    }

    fn unlike(
        &self,
        feature: Feature,
        one: &Traits,
        other: &Traits,
        difference: &impl Fn(u32, u32) -> f32,
    ) -> Option<f64> {
        let said = |one: &[(u32, f32)], other: &[(u32, f32)]| {
            if one.is_empty() || other.is_empty() { None } else { gower::jaccard(one, other) }
        };
        match feature {
            Feature::Date => gower::interval(one.day, other.day, self.days_apart),
            Feature::Pieces => said(&one.pieces, &other.pieces),
            Feature::Silhouette => said(&one.silhouette, &other.silhouette),
            Feature::Cloth => said(&one.cloth, &other.cloth),
            Feature::Occasion => said(&one.occasion, &other.occasion),
            Feature::Colours => unlike(difference, &one.colours, &other.colours, self.colours_apart),
            // That an outfit carries no thread is known, not missing.
            Feature::Threads => gower::jaccard(&one.threads, &other.threads),
        }
    }

    /// How the distance of two outfits comes about; `None` where one is not there or they are of different characters.
    pub fn explain(&self, one: &OutfitId, other: &OutfitId) -> Option<Explanation> {
        let (one, other) = (self.ready.get(one)?, self.ready.get(other)?);
        if one.0.character != other.0.character {
            return None;
        }
        let difference = |one, other| self.palette.difference(one, other);
        let distances = self.distances(&one.1, &other.1, &difference);
        let known: f64 =
            self.weights.iter().zip(&distances).filter(|(_, d)| d.is_some()).map(|(w, _)| w).sum();
        let part = |((feature, distance), &weight): ((Feature, Option<f64>), &f64)| Part {
            feature,
            weight,
            distance,
            adds: distance.filter(|_| known > 0.0).map_or(0.0, |distance| weight * distance / known),
            one: feature.said(&one.0),
            other: feature.said(&other.0),
        };
        let parts = Feature::ALL.into_iter().zip(distances).zip(&self.weights).map(part).collect();
        Some(Explanation { distance: self.coefficient(one, other, distances).into(), parts })
    }
}

#[cfg(test)]
mod tests;
