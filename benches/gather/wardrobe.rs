//! Boards as a long life leaves them, with any number of outfits, always the same for the same seed.
//!
//! A life falls into periods, and a period into a few wardrobes (work, the sea, evenings, Sundays): an outfit is one of
//! these with something added, left off or faded. So there are clusters, but no clear number of them, and near-ties
//! everywhere, as on a real board. They are one character's, or those of four, of whom the lead has every second one.
//! The board is compared by the program's own likeness, so that comparing is measured too.

use serde_json::{Value, json};
use shirr::board::{Board, Records};
use shirr::gather::{Likeness, Wardrobe};

use super::Fault;

pub const PERIODS: usize = 6;
const FIRST_YEAR: usize = 1911;
const YEARS: usize = 9;
/// The lead first.
const CHARACTERS: [&str; 4] = ["lead", "sister", "rival", "trainer"];
/// In each period.
const WARDROBES: usize = 5;

const GARMENTS: [&str; 20] = [
    "frock",
    "gown",
    "suit",
    "overall",
    "costume",
    "robe",
    "coat",
    "smock",
    "pinafore",
    "jersey",
    "blouse",
    "skirt",
    "trousers",
    "oilskin",
    "pyjamas",
    "tunic",
    "cape",
    "uniform",
    "cardigan",
    "dungarees",
];
const ACCESSORIES: [&str; 16] = [
    "cap",
    "scarf",
    "belt",
    "gloves",
    "boots",
    "shoes",
    "shawl",
    "hat",
    "apron",
    "stole",
    "kerchief",
    "pin",
    "stockings",
    "bag",
    "collar",
    "goggles",
];
const CLOTHS: [&str; 14] = [
    "wool", "cotton", "linen", "silk", "crêpe", "serge", "tweed", "velvet", "rayon", "muslin", "flannel",
    "canvas", "satin", "nylon",
];
const SILHOUETTES: [&str; 9] =
    ["tubular", "straight", "waisted", "flared", "boxy", "bias", "wrapped", "tiered", "padded"];
const OCCASIONS: [&str; 12] = [
    "work",
    "training",
    "race",
    "gala",
    "wedding",
    "funeral",
    "Sunday",
    "journey",
    "school",
    "interview",
    "holiday",
    "home",
];

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

    pub fn below(&mut self, below: usize) -> usize {
        (self.next() % below as u64) as usize
    }

    /// One of these.
    pub fn of<T: Copy>(&mut self, these: &[T]) -> T {
        these[self.below(these.len())]
    }

    fn happens(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }
}

/// One of the wardrobes of a period: what its outfits are variants of.
struct Model {
    garment: &'static str,
    accessories: Vec<&'static str>,
    cloth: &'static str,
    silhouette: &'static str,
    occasion: &'static str,
    main: [usize; 3],
    second: [usize; 3],
    has_thread: bool,
}

impl Model {
    fn new(dice: &mut Dice) -> Self {
        let colour = |dice: &mut Dice| [(); 3].map(|()| 20 + dice.below(216));
        Self {
            garment: dice.of(&GARMENTS),
            accessories: (0..1 + dice.below(3)).map(|_| dice.of(&ACCESSORIES)).collect(),
            cloth: dice.of(&CLOTHS),
            silhouette: dice.of(&SILHOUETTES),
            occasion: dice.of(&OCCASIONS),
            main: colour(dice),
            second: colour(dice),
            has_thread: dice.happens(30),
        }
    }

    /// An outfit of this wardrobe: a record of the board. One in six is incompletely known, as on the demo.
    fn variant(&self, dice: &mut Dice, number: usize, period: usize, character: &str) -> Value {
        let vary = |dice: &mut Dice, word: &'static str, words: &[&'static str], percent: usize| {
            if dice.happens(percent) { dice.of(words) } else { word }
        };
        let missing = |dice: &mut Dice, word, percent| if dice.happens(percent) { "" } else { word };
        let garment = vary(dice, self.garment, &GARMENTS, 15);
        let cloth = vary(dice, self.cloth, &CLOTHS, 30);
        let silhouette = vary(dice, self.silhouette, &SILHOUETTES, 15);
        let occasion = vary(dice, self.occasion, &OCCASIONS, 40);
        let is_colour_known = !dice.happens(8);
        let spread = if dice.happens(25) { 90 } else { 24 };
        let dyed = |dice: &mut Dice, colour: [usize; 3]| {
            let part = |part: usize| (part + dice.below(2 * spread)).saturating_sub(spread).min(255);
            let [red, green, blue] = colour.map(part);
            if is_colour_known { vec![format!("#{red:02x}{green:02x}{blue:02x}")] } else { Vec::new() }
        };
        let mut pieces = vec![json!({
            "name": garment, "cloth": missing(dice, cloth, 10), "colours": dyed(dice, self.main),
        })];
        let worn: Vec<&str> = self.accessories.iter().copied().filter(|_| !dice.happens(20)).collect();
        let added: Vec<&str> = (0..dice.below(3)).map(|_| dice.of(&ACCESSORIES)).collect();
        pieces.extend(
            worn.into_iter()
                .chain(added)
                .map(|name| json!({"name": name, "colours": dyed(dice, self.second)})),
        );
        let year = FIRST_YEAR + YEARS * period + dice.below(YEARS);
        json!({
            "title": format!("Outfit {number}"),
            "character": character,
            "worn": format!("{year}-{:02}-{:02}", 1 + dice.below(12), 1 + dice.below(28)),
            "occasion": missing(dice, occasion, 2),
            "silhouette": missing(dice, silhouette, 5),
            "pieces": pieces,
            "recognition": dice.below(6).min(dice.below(6)),
            "threads": if self.has_thread != dice.happens(10) { vec!["thread"] } else { Vec::new() },
        })
    }
}

/// A board of so many outfits of one character.
pub fn board(seed: u64, outfits: usize, looks: usize) -> Result<Board, Fault> {
    board_of(1, seed, outfits, looks)
}

/// A board of so many outfits of the first of [`CHARACTERS`], which allows so many looks in all.
pub fn board_of(characters: usize, seed: u64, outfits: usize, looks: usize) -> Result<Board, Fault> {
    let mut dice = Dice(seed);
    let models: Vec<Model> = (0..PERIODS * WARDROBES).map(|_| Model::new(&mut dice)).collect();
    let records = (0..outfits).map(|number| {
        let period = dice.below(PERIODS);
        // The first wardrobes are worn most.
        let wardrobe = dice.below(WARDROBES).min(dice.below(WARDROBES));
        let is_leads = characters == 1 || dice.happens(50);
        let character = if is_leads { CHARACTERS[0] } else { dice.of(&CHARACTERS[1..characters]) };
        let outfit = models[period * WARDROBES + wardrobe].variant(&mut dice, number, period, character);
        Ok((format!("outfit-{number}").parse().map_err(said)?, read(outfit)?))
    });
    let periods: Vec<Value> = (0..PERIODS)
        .map(|period| {
            let first = FIRST_YEAR + YEARS * period;
            json!({"id": format!("period-{period}"), "title": format!("Period {period}"),
                "span": format!("{first}/{}", first + YEARS - 1)})
        })
        .collect();
    let head = json!({
        "shirr": 1, "id": "bench", "title": "Bench", "budget": {"looks": looks}, "periods": periods,
        "characters": CHARACTERS[..characters].iter().map(|id| json!({"id": id, "name": id})).collect::<Vec<_>>(),
        "threads": [{"id": "thread", "title": "Thread"}],
    });
    let outfits = records.collect::<Result<_, Fault>>()?;
    Ok(Board::new(Records { outfits, ..Records::of(read(head)?) }))
}

fn read<T: serde::de::DeserializeOwned>(record: Value) -> Result<std::sync::Arc<T>, Fault> {
    serde_json::from_value(record).map(std::sync::Arc::new).map_err(said)
}

pub fn said(error: impl std::fmt::Display) -> Fault {
    error.to_string()
}

/// The question that a board puts, as the program puts it.
pub fn question(board: &Board) -> Result<Wardrobe, Fault> {
    Wardrobe::of(board, &Likeness::of(board), None, &|| false).map_err(said)
}
