//! Outfits as a long life leaves them, of any number, always the same for the same seed; and how unlike two are.
//!
//! A life falls into periods, and a period into a few wardrobes (work, the sea, evenings, Sundays): an outfit is one of
//! these with something added, left off or faded. So there are clusters, but no clear number of them, and near-ties
//! everywhere, as on a real board. The shares (four characters, the first with two outfits in three; an outfit in six
//! incompletely known) are those of the demo, roughly.

use shirr::gather::Problem;

const PERIODS: u64 = 6;
/// Years from the first outfit to the last.
const LIFE: f64 = 54.0;
const CLOTHS: u64 = 14;
const SILHOUETTES: u64 = 9;
const OCCASIONS: u64 = 12;
const PIECES: u64 = 40;

/// A stream of random numbers (SplitMix64: G. L. Steele, D. Lea & C. H. Flood, OOPSLA 2014; constants from memory).
pub struct Dice(pub u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub fn below(&mut self, below: u64) -> u64 {
        self.next() % below
    }

    /// At least 0 and below 1.
    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn happens(&mut self, share: f64) -> bool {
        self.share() < share
    }

    /// Between -1 and 1, mostly near 0.
    fn about_nought(&mut self) -> f64 {
        self.share() + self.share() - 1.0
    }
}

/// What is known of an outfit.
#[derive(Clone)]
pub struct Outfit {
    pub character: u64,
    pub period: u64,
    /// Year and its fraction, from the first.
    worn: f64,
    /// Sorted, each once.
    pieces: Vec<u64>,
    silhouette: Option<u64>,
    cloth: Option<u64>,
    occasion: Option<u64>,
    /// Lightness, a and b.
    colour: Option<[f64; 3]>,
    /// 0 to 5.
    recognition: u64,
}

/// So many outfits, of four characters or of one.
pub fn wardrobe(seed: u64, outfits: usize, characters: u64) -> Vec<Outfit> {
    let mut dice = Dice(seed);
    let wardrobes: Vec<Vec<Outfit>> = (0..characters)
        .flat_map(|character| (0..PERIODS).map(move |period| (character, period)))
        .map(|(character, period)| (0..5).map(|_| model(&mut dice, character, period)).collect())
        .collect();
    (0..outfits)
        .map(|_| {
            let lead = dice.happens(0.65);
            let character = if lead { 0 } else { dice.below(characters) };
            let period = dice.below(PERIODS);
            let models = &wardrobes[(character * PERIODS + period) as usize];
            // The first wardrobes are worn most.
            let at = dice.below(5).min(dice.below(5)) as usize;
            variant(&mut dice, &models[at])
        })
        .collect()
}

fn model(dice: &mut Dice, character: u64, period: u64) -> Outfit {
    let mut pieces: Vec<u64> = (0..2 + dice.below(4)).map(|_| dice.below(PIECES)).collect();
    pieces.sort_unstable();
    pieces.dedup();
    Outfit {
        character,
        period,
        worn: LIFE / PERIODS as f64 * (period as f64 + 0.5),
        pieces,
        silhouette: Some(dice.below(SILHOUETTES)),
        cloth: Some(dice.below(CLOTHS)),
        occasion: Some(dice.below(OCCASIONS)),
        colour: Some([15.0 + 75.0 * dice.share(), 40.0 * dice.about_nought(), 45.0 * dice.about_nought()]),
        recognition: 0,
    }
}

fn variant(dice: &mut Dice, model: &Outfit) -> Outfit {
    let mut outfit = model.clone();
    outfit.worn += LIFE / PERIODS as f64 * (dice.share() - 0.5);
    outfit.pieces.retain(|_| !dice.happens(0.2));
    for _ in 0..dice.below(3) {
        outfit.pieces.push(dice.below(PIECES));
    }
    outfit.pieces.sort_unstable();
    outfit.pieces.dedup();
    let mut vary = |feature: &mut Option<u64>, of: u64, changed: f64, missing: f64| {
        if dice.happens(changed) {
            *feature = Some(dice.below(of));
        }
        if dice.happens(missing) {
            *feature = None;
        }
    };
    vary(&mut outfit.silhouette, SILHOUETTES, 0.15, 0.05);
    vary(&mut outfit.cloth, CLOTHS, 0.3, 0.1);
    vary(&mut outfit.occasion, OCCASIONS, 0.4, 0.02);
    let spread = if dice.happens(0.25) { 50.0 } else { 10.0 };
    for part in outfit.colour.iter_mut().flatten() {
        *part += spread * dice.about_nought();
    }
    if dice.happens(0.08) {
        outfit.colour = None;
    }
    outfit.recognition = dice.below(6).min(dice.below(6));
    outfit
}

/// How unlike two outfits are, from 0 to 1: Gower's general coefficient (J. C. Gower, *Biometrics* 27, 1971), features
/// weighted and missing ones skipped. Different characters: 1.
pub fn unlike(one: &Outfit, other: &Outfit) -> f64 {
    if one.character != other.character {
        return 1.0;
    }
    let same = |a: Option<u64>, b: Option<u64>| Some(f64::from(u8::from(a? != b?)));
    let colours = |a: Option<[f64; 3]>, b: Option<[f64; 3]>| {
        let square: f64 = a?.iter().zip(&b?).map(|(a, b)| (a - b) * (a - b)).sum();
        Some((square.sqrt() / 60.0).min(1.0))
    };
    let features = [
        (1.5, Some(((one.worn - other.worn).abs() / 15.0).min(1.0))),
        (1.5, jaccard(&one.pieces, &other.pieces)),
        (1.0, same(one.silhouette, other.silhouette)),
        (0.5, same(one.cloth, other.cloth)),
        (0.5, same(one.occasion, other.occasion)),
        (1.0, colours(one.colour, other.colour)),
    ];
    let known = features.iter().filter_map(|(weight, apart)| Some((weight, (*apart)?)));
    let (sum, weights) =
        known.fold((0.0, 0.0), |(sum, weights), (weight, apart)| (sum + weight * apart, weights + weight));
    sum / weights
}

/// The share of all pieces that only one of the two has.
fn jaccard(one: &[u64], other: &[u64]) -> Option<f64> {
    let shared = one.iter().filter(|piece| other.binary_search(piece).is_ok()).count();
    let all = one.len() + other.len() - shared;
    (all > 0).then(|| 1.0 - shared as f64 / all as f64)
}

/// The distances of all outfits, row by row.
pub fn distances(outfits: &[Outfit]) -> Vec<f32> {
    outfits.iter().flat_map(|one| outfits.iter().map(|other| unlike(one, other) as f32)).collect()
}

/// The problem of these outfits, weighted by how well an audience knows them, without wishes.
pub fn problem(outfits: &[Outfit], looks: usize) -> Result<Problem, super::Fault> {
    let weights = outfits.iter().map(|outfit| (1 + outfit.recognition) as f64).collect();
    let kinds = outfits.iter().map(|outfit| outfit.character as u32).collect();
    Problem::from_matrix(weights, distances(outfits), looks)
        .and_then(|problem| problem.of_kinds(kinds))
        .map_err(|unfit| unfit.to_string())
}
