//! The words that raise cautions, and those that only look as if they did.
//!
//! An entry is a word or several that stand beside each other; one that ends with a star holds for whatever it goes on
//! with. Case, hyphens and a possessive `'s` make no difference.

use super::Hazard;

/// What the words of one hazard are.
pub(super) struct Words {
    /// Raise it wherever they are said.
    pub(super) raise: &'static [&'static str],
    /// Raise it in the name of a place only: of a set, and in a heading.
    pub(super) places: &'static [&'static str],
    /// Of a garment's description they are cut, cloth or colour and raise nothing there.
    pub(super) cloth: &'static [&'static str],
    /// Phrases in which a word raises nothing.
    pub(super) harmless: &'static [&'static str],
}

/// The words of a hazard.
pub(super) fn of(hazard: Hazard) -> &'static Words {
    match hazard {
        Hazard::Falls => &FALLS,
        Hazard::Harness => &HARNESS,
        Hazard::Fire => &FIRE,
        Hazard::Water => &WATER,
        Hazard::Animals => &ANIMALS,
        Hazard::Vehicles => &VEHICLES,
        Hazard::Machinery => &MACHINERY,
        Hazard::Weapons => &WEAPONS,
        Hazard::Masks => &MASKS,
        Hazard::Heat => &HEAT,
        Hazard::Skin => &SKIN,
    }
}

#[rustfmt::skip]
const FALLS: Words = Words {
    raise: &[
        "fall", "falls", "falling", "fallen", "fell", "jump", "jumps", "jumping", "jumped", "leap*", "dive", "dives",
        "diving", "dived", "tumble*", "tumbling", "collapse*", "collapsing", "trip", "trips", "tripped", "tripping",
        "stumbl*", "toppl*", "stunt*", "ladder", "ladders", "climb*", "balustrade*", "parapet*", "rooftop*",
        "scaffold*", "fight", "fights", "fighting", "fought", "struggl*", "roof*", "cliff*", "ledge", "punches",
        "punched", "a punch", "wrestl*", "throws him", "throws her", "thrown down", "faint*", "slips", "slipped",
        "slipping", "skate*", "skating", "stilts", "trapeze*", "high wire", "thrown", "dangl*", "buried",
        "drops from", "drops into", "barbed wire",
    ],
    places: &["mast", "rigging"],
    cloth: &["fall", "falls", "fell", "tumble*", "ladder", "ladders", "slips", "faint*"],
    harmless: &[
        "let fall", "fall front*", "fall collar*", "a trip to", "round trip", "day trip*", "once dived",
        "tumble turn*", "made a ladder", "flat fell*", "fell seam*", "fell asleep", "fell silent", "fell in love",
        "falls asleep", "falls silent", "falls in love", "fall asleep", "night falls", "jump suit*", "jump cut*",
        "left a ladder", "ladder in her stocking*", "ladder in the stocking*", "rope and ladder", "ladder and rope",
        "falls for", "fell for", "fall for", "jumps to a conclusion", "jumps to conclusions", "jump to conclusions",
        "faint light", "faint smile*", "faint line*", "faint stripe*", "faint print*", "faint mark*", "faintly",
        "pillow slips", "slips into", "slips on her", "slips on his", "slips out of", "slips it", "slips away",
        "roof of the mouth", "fall coat*", "fall suit*", "buried in thought",
    ],
};

#[rustfmt::skip]
const HARNESS: Words = Words {
    raise: &[
        "harness*", "descender*", "tow line*", "stunt tow*", "safety line*", "lifeline*", "wire work", "flying wire*",
        "hoisted", "winched", "abseil*", "noose*", "hanged", "on a wire", "on wires", "parachut*",
    ],
    places: &[],
    cloth: &[],
    harmless: &["harness leather", "out of harness"],
};

#[rustfmt::skip]
const FIRE: Words = Words {
    raise: &[
        "fire", "fires", "bonfire*", "campfire*", "flame", "flames", "flaming", "burn", "burns", "burning", "burnt",
        "burned", "ablaze", "blaze*", "torch", "torches", "torchlight*", "candle*", "flare", "flares", "explo*",
        "pyrotechn*", "brazier*", "petrol", "cigarette*", "oil lamp*", "gas lamp*", "paraffin*", "stove*", "weld*",
        "strikes a match", "lit match*", "alight", "firework*", "fire works",
    ],
    places: &[],
    cloth: &["flare", "flares", "flame"],
    harmless: &[
        "burnt orange", "burnt umber", "burnt sienna", "flame red", "flame orange", "flame stitch*", "candle wax",
        "wax burns", "flare of", "flare at", "electric torch*", "fire red", "blaze of colour*", "fire engine red",
        "cigarette card*", "cigarette case*",
    ],
};

#[rustfmt::skip]
const WATER: Words = Words {
    raise: &[
        "water", "waters", "underwater", "swim*", "swam", "swum", "sea", "seas", "seawater", "tide*", "tidal", "wet",
        "wets", "rain", "rains", "raining", "rained", "rainy", "rainstorm*", "sleet", "hailstorm*", "ice", "icy",
        "snow", "snows", "snowing", "blizzard*", "drown", "drowns", "drowning", "wade", "wades", "waded", "wading",
        "surf", "soaked", "soaking", "drench*", "dripping", "drips", "streaming", "splash*", "cold", "chill",
        "chilled", "shiver*", "freez*", "frozen", "frost*", "afloat", "overboard", "capsiz*", "river*", "lake",
        "lakes", "canal*", "lagoon*", "estuary", "undertow", "snorkel*",
    ],
    places: &[
        "sound", "beach*", "shore", "shallows", "bay", "ford", "weir", "buoy", "regatta", "lido", "pool",
    ],
    cloth: &["tide*", "frost*", "sea", "ice", "snow"],
    harmless: &[
        "cold light", "cold colour*", "cold blue", "cold grey", "cold green", "cold white", "cold tone*", "ice blue",
        "snow white", "sea green", "sea blue", "sea boot*", "sea holly", "not like the sea", "week by the sea",
        "wet look", "never wet", "never gets wet", "not wet", "not get wet", "wet stone*", "snow is salt",
        "snow is paper", "snow is foam", "paper snow", "salt snow", "artificial snow", "sound stage*", "sound booth",
        "sound studio*", "loading bay", "bay window*", "pool hall", "pool room", "billiard pool", "cold cream",
        "cold meat*", "has a cold", "caught a cold", "cold reception", "cold stare", "cold look", "cold shoulder*",
        "ice cream*", "glass of water", "glasses of water", "water colour*", "crimson lake", "cold tea",
    ],
};

#[rustfmt::skip]
const ANIMALS: Words = Words {
    raise: &[
        "horse", "horses", "horseback", "horseman", "horsemen", "horsewoman", "pony", "ponies", "donkey", "donkeys",
        "mule", "mules", "saddle", "saddles", "saddled", "rider", "riders", "riding", "gallop*", "dog", "dogs",
        "hound*", "bull", "bulls", "cattle", "stallion*", "mare", "mares", "snake*", "bees", "wasps", "swarm*",
        "cart horse*",
    ],
    places: &["stable", "stables"],
    cloth: &["mule", "mules", "saddle", "riding", "pony", "dog"],
    harmless: &[
        "riding habit*", "riding coat*", "riding boot*", "riding hat*", "riding breeches", "saddle stitch*",
        "saddle shoulder*", "saddle shoe*", "donkey jacket*", "pony skin*", "pony tail*", "dog tooth", "dog collar*",
        "clothes horse*", "horse hair", "bull inn", "dog eared",
    ],
};

#[rustfmt::skip]
const VEHICLES: Words = Words {
    raise: &[
        "car", "cars", "lorry", "lorries", "truck", "trucks", "bus", "buses", "tram", "trams", "motor", "motors",
        "motorcar*", "motorcycle*", "motorbike*", "motoring", "bicycle*", "cycling", "boat", "boats", "lifeboat*",
        "the launch", "a launch", "motor launch*", "dinghy", "dinghies", "canoe*", "barge", "barges", "yacht*",
        "raft", "rafts", "gunwale*", "pilot cutter*", "revenue cutter*", "naval cutter*", "ferry", "ferries", "train",
        "trains", "aeroplane*", "airplane*", "aircraft", "carriage", "carriages", "wagon*", "tractor*", "skiff*",
        "motorboat*", "motor boat*", "taxi*", "a van", "the van", "vans", "plane", "planes", "glider*", "cart",
        "carts", "railway line*", "railway track*",
    ],
    places: &["alongside", "on deck"],
    cloth: &[
        "train", "trains", "boat", "bicycle*", "cycling", "motor", "motoring", "car", "carriage", "plane", "planes",
    ],
    harmless: &[
        "train round", "train over", "whole train", "boat neck*", "boat cloak*", "boat house*", "boat shed*",
        "lifeboat shed*", "lifeboat house*", "lifeboat man", "bicycle patch*", "bicycle clip*",
        "straight from the bicycle", "car coat*", "motoring coat*", "motoring veil*", "camera truck*", "ferry steps",
        "ferry house", "carriage clock*", "train of", "trains her", "trains him", "trains them", "trains with",
        "trains for", "ferry ticket*", "bus ticket*", "train ticket*", "boat ticket*", "plane tree*", "cart horse*",
    ],
};

#[rustfmt::skip]
const MACHINERY: Words = Words {
    raise: &[
        "machine", "machines", "machinery", "winch*", "lathe*", "loom", "looms", "engine", "engines", "propeller*",
        "capstan*", "a saw", "the saw", "saws", "sawing", "sawmill*", "circular saw*", "band saw*", "chain saw*",
        "chainsaw*", "pulley*", "conveyor*", "flywheel*", "crane", "cranes", "mangle*",
    ],
    places: &["engine room", "mill", "workshop"],
    cloth: &["machine", "loom", "engine"],
    harmless: &[
        "machine knit*", "machine made", "machine sewn", "machine stitch*", "machine lace", "machine wash*",
        "machine gun*", "looms out", "looms up", "looms over", "looms above", "crane shot*", "camera crane*",
        "fire engine*",
    ],
};

#[rustfmt::skip]
const WEAPONS: Words = Words {
    raise: &[
        "gun", "guns", "gunshot*", "gunfire", "shotgun*", "rifle", "rifles", "pistol*", "revolver*", "musket*",
        "knife", "knives", "dagger*", "razor", "razors", "axe", "axes", "sword*", "sabre*", "bayonet*", "blade",
        "blades", "spear", "spears", "scissors", "shears", "marlinspike*", "harpoon*", "bomb*", "grenade*", "a whip",
        "the whip", "whips", "shot rings", "shots", "bow and arrow*", "arrows", "broken glass", "shards", "foils",
        "fence with", "fencing", "duel*", "is shot", "shot in the", "shot dead",
    ],
    places: &[],
    cloth: &[
        "knife", "gun", "blade", "blades", "scissors", "shears", "razor", "sabre*", "bomb*", "arrows", "shots",
        "foils",
    ],
    harmless: &[
        "knife pleat*", "knife edge*", "shoulder blade*", "blade of the shoulder", "gun club", "gun metal", "gun patch*",
        "gun flap*", "scissors pocket*", "bomber jacket*", "razor sharp",
    ],
};

#[rustfmt::skip]
const MASKS: Words = Words {
    raise: &[
        "mask", "masks", "masked", "goggles", "helmet*", "hood", "hooded", "blindfold*", "gag", "gagged", "veil",
        "veils", "veiled", "smoke", "fog", "dust storm*", "tear gas", "poison gas", "gas attack*", "snorkel*",
        "cannot breathe", "can't breathe", "smother*", "choke", "chokes", "choking", "sandstorm*", "ether",
        "chloroform*",
    ],
    places: &["smokehouse*"],
    cloth: &["smoke", "fog"],
    harmless: &[
        "hood down", "hood back", "veil up", "smoke yellowed", "smoke grey", "smoke blue", "smoke stained",
        "happened in the fog", "mask clasp*", "hood of the car", "hood of a car", "hood of the van",
    ],
};

#[rustfmt::skip]
const HEAT: Words = Words {
    raise: &["heat", "heatwave*", "hot", "overheat*", "stifling", "sweltering", "scorching"],
    places: &["boiler room", "furnace room", "desert"],
    cloth: &["heat", "hot"],
    harmless: &[
        "hot pink", "heat set", "heat pressed", "hot tea", "hot water bottle*", "hot drink*", "hot chocolate",
        "hot and cold",
    ],
};

#[rustfmt::skip]
const SKIN: Words = Words {
    raise: &[
        "dye", "dyes", "dyeing", "dyed hand*", "dyed skin", "dyed hair", "grease*", "greasy", "greasing", "lanolin",
        "paint", "paints", "painted face*", "painted skin", "painted hand*", "latex", "glue", "glued", "tar",
        "tarred", "ink", "body make up", "prosthetic*", "acid", "acids", "bleach*", "solvent*",
    ],
    places: &[],
    cloth: &["dye", "dyes", "ink", "tar", "tarred", "glue", "glued", "bleach*", "acid"],
    harmless: &["dye lot*", "deep ink", "ink blue", "in ink", "ink well*", "acid green", "acid yellow"],
};
