//! Cautions: where somebody must be asked before anybody wears or does what is planned.
//!
//! A caution is raised by words in what a scene or a look says, and rather once too often than once too seldom. It
//! approves nothing and clears nothing: whoever it names decides, by the local code and licensed practice. What each
//! kind asks is common practice, no source.

use crate::board::{Board, Look, LookId, Scene, SceneNumber};

/// What can hurt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hazard {
    /// Falls, jumps and dives.
    Falls,
    /// Harnesses and wires.
    Harness,
    /// Naked fire and explosions.
    Fire,
    /// Water, cold and wet cloth.
    Water,
    /// Horses and other animals.
    Animals,
    /// Vehicles and boats.
    Vehicles,
    /// Moving machinery.
    Machinery,
    /// Weapons and blades.
    Weapons,
    /// Masks, helmets and whatever narrows sight, hearing or breath.
    Masks,
    /// Heat in heavy cloth.
    Heat,
    /// Dyes, grease and glue on the skin.
    Skin,
}

/// A hazard, and what raised it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    /// What can hurt.
    pub hazard: Hazard,
    /// The word that raised it, as it is written.
    pub word: String,
    /// The scene that says so; `None` where the look itself does.
    pub scene: Option<SceneNumber>,
}

impl Hazard {
    /// All of them, in the order in which they are told.
    pub const ALL: [Self; 11] = [
        Self::Falls,
        Self::Harness,
        Self::Fire,
        Self::Water,
        Self::Animals,
        Self::Vehicles,
        Self::Machinery,
        Self::Weapons,
        Self::Masks,
        Self::Heat,
        Self::Skin,
    ];

    /// In a word or two.
    pub fn word(self) -> &'static str {
        match self {
            Self::Falls => "falls",
            Self::Harness => "harness",
            Self::Fire => "fire",
            Self::Water => "water and cold",
            Self::Animals => "animals",
            Self::Vehicles => "vehicles and boats",
            Self::Machinery => "machinery",
            Self::Weapons => "weapons",
            Self::Masks => "masks",
            Self::Heat => "heat",
            Self::Skin => "skin",
        }
    }

    /// What to ask, and of whom.
    pub fn ask(self) -> &'static str {
        match self {
            Self::Falls => {
                "Ask the stunt coordinator where pads go, how far the piece must give and what may catch, before it is cut."
            }
            Self::Harness => {
                "Ask the stunt coordinator which harness, where it is reached and who checks it; never cut or sew near a load point without their word."
            }
            Self::Fire => {
                "Ask the special effects supervisor and the safety lead which cloth and which treatment may be near a flame; no finish is proof against fire."
            }
            Self::Water => {
                "Ask the safety lead and the water safety team how long, how cold and how heavy the cloth may become when wet, what comes off quickly, and who warms the performer."
            }
            Self::Animals => {
                "Ask the animal handler what may flap, smell or catch, and the stunt coordinator how a rider comes free of it."
            }
            Self::Vehicles => {
                "Ask the stunt coordinator and the safety lead about loose hems, scarves, shoes on pedals and decks, and belts or life jackets under the costume."
            }
            Self::Machinery => {
                "Ask the safety lead what must be short, tied or left off near moving parts; anything loose can be drawn in."
            }
            Self::Weapons => {
                "Ask the armourer how it is carried, by whom, and what the holster or pocket must hold."
            }
            Self::Masks => {
                "Ask the safety lead how the performer sees, hears and breathes in it, for how long, and who takes it off."
            }
            Self::Heat => {
                "Ask the safety lead about rest, shade, water and cooling, and how fast the layers come off."
            }
            Self::Skin => {
                "Ask make-up and the performer about allergies, test on a patch first, and keep to the maker's safety sheet."
            }
        }
    }

    /// Words that raise it; one that ends with a star raises it however it goes on.
    fn words(self) -> &'static [&'static str] {
        match self {
            Self::Falls => &[
                "fall",
                "falls",
                "falling",
                "fallen",
                "fell",
                "jump*",
                "leap*",
                "dive",
                "dives",
                "diving",
                "dived",
                "tumble*",
                "collapse*",
                "trip",
                "trips",
                "tripped",
                "stunt*",
                "ladder*",
            ],
            Self::Harness => &["harness*", "descender*"],
            Self::Fire => &[
                "fire",
                "fires",
                "bonfire*",
                "flame*",
                "burn",
                "burns",
                "burning",
                "burnt",
                "torch*",
                "candle*",
                "flare",
                "flares",
                "explo*",
                "pyrotechn*",
                "brazier*",
            ],
            Self::Water => &[
                "water",
                "waters",
                "underwater",
                "swim*",
                "swam",
                "sea",
                "tide*",
                "wet",
                "rain*",
                "ice",
                "snow",
                "drown*",
                "wade*",
                "surf",
                "soak*",
                "cold",
                "freez*",
                "afloat",
                "overboard",
            ],
            Self::Animals => &[
                "horse*", "pony", "ponies", "donkey*", "mule*", "saddle*", "rider*", "riding", "dog", "dogs",
            ],
            Self::Vehicles => &[
                "car",
                "cars",
                "lorry",
                "lorries",
                "bus",
                "tram",
                "trams",
                "motor*",
                "bicycle*",
                "cycling",
                "boat*",
                "lifeboat*",
                "cutter",
                "ferry",
                "train",
                "trains",
                "aeroplane*",
            ],
            Self::Machinery => &[
                "machine*",
                "winch*",
                "lathe*",
                "loom*",
                "engine*",
                "propeller*",
                "capstan*",
                "saw",
                "saws",
                "pulley*",
            ],
            Self::Weapons => &[
                "gun",
                "guns",
                "rifle*",
                "pistol*",
                "revolver*",
                "knife",
                "knives",
                "sword*",
                "bayonet*",
                "blade*",
                "scissors",
                "shears",
                "harpoon*",
            ],
            Self::Masks => &["mask*", "goggles", "helmet*", "hood", "blindfold*", "gag", "veil"],
            Self::Heat => &["heat", "hot", "overheat*"],
            Self::Skin => {
                &["dye*", "grease*", "greased", "lanolin", "paint*", "latex", "glue*", "tar", "ink"]
            }
        }
    }

    /// The first word of a text that raises it, as it is written there.
    fn raised_by(self, text: &str) -> Option<&str> {
        let is_letter = |c: char| c.is_alphanumeric() || c == '\'' || c == '’';
        text.split(|c| !is_letter(c)).filter(|word| !word.is_empty()).find(|word| {
            let word = word.to_lowercase();
            self.words().iter().any(|raises| match raises.strip_suffix('*') {
                Some(stem) => word.starts_with(stem),
                None => word == *raises,
            })
        })
    }
}

/// The cautions of texts, each hazard once, with the first word that raised it.
fn of_texts<'a>(texts: impl Iterator<Item = &'a str> + Clone, scene: Option<&SceneNumber>) -> Vec<Caution> {
    let raised = |hazard: Hazard| {
        let word = texts.clone().find_map(|text| hazard.raised_by(text))?;
        Some(Caution { hazard, word: word.to_owned(), scene: scene.cloned() })
    };
    Hazard::ALL.into_iter().filter_map(raised).collect()
}

/// The cautions of what a scene says: its heading, set, action and notes.
pub fn of_scene(scene: &Scene) -> Vec<Caution> {
    let texts = [&scene.action, &scene.notes, &scene.set, &scene.heading];
    of_texts(texts.into_iter().map(String::as_str), Some(&scene.number))
}

/// The cautions of what a look says of itself: its notes, dressing, departures and pieces.
fn of_record(look: &Look) -> Vec<Caution> {
    let departures = look.departures.iter().flat_map(|one| [&one.detail, &one.becomes, &one.why]);
    let pieces =
        look.pieces.iter().flat_map(|piece| [&piece.name, &piece.cloth].into_iter().chain(&piece.details));
    let texts = [&look.notes].into_iter().chain(&look.dressing).chain(departures).chain(pieces);
    of_texts(texts.map(String::as_str), None)
}

/// The cautions of a look: its own, then those of the scenes that show it; each hazard once.
pub fn of_look(board: &Board, id: &LookId) -> Vec<Caution> {
    let own = board.look(id).map(of_record).unwrap_or_default();
    let scenes = board.relations().scenes_of(id).iter().filter_map(|at| board.records().scenes.get(*at));
    each_once(own.into_iter().chain(scenes.flat_map(|scene| of_scene(scene))))
}

/// Each hazard once, as it was first raised, in the order in which hazards are told.
pub fn each_once(cautions: impl IntoIterator<Item = Caution>) -> Vec<Caution> {
    let mut all: Vec<Caution> = cautions.into_iter().collect();
    all.sort_by_key(|caution| caution.hazard);
    all.dedup_by_key(|caution| caution.hazard);
    all
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::check::sample;

    fn raised(action: &str) -> Vec<Hazard> {
        let board = sample::board(json!({"scenes": [{"scene": 1, "action": action}]}));
        of_scene(board.scenes().next().unwrap()).into_iter().map(|caution| caution.hazard).collect()
    }

    #[test]
    fn what_can_hurt_is_found_by_its_words() {
        for (action, hazards) in [
            ("She dives from the mole.", vec![Hazard::Falls]),
            ("She swims; a lamp, a Boat.", vec![Hazard::Water, Hazard::Vehicles]),
            ("The bonfire, and horses.", vec![Hazard::Fire, Hazard::Animals]),
            ("He reads a letter.", vec![]),
            ("The carpenter and the fireman's watercolour of a carthage season.", vec![]),
        ] {
            assert_eq!(raised(action), hazards, "{action}");
        }
    }

    #[test]
    fn every_hazard_asks_somebody_and_is_raised_by_each_of_its_words() {
        for hazard in Hazard::ALL {
            assert!(hazard.ask().starts_with("Ask "), "{hazard:?}");
            for word in hazard.words() {
                let text = format!("before {} after", word.replace('*', "s"));
                assert!(hazard.raised_by(&text).is_some(), "{word} of {hazard:?}");
            }
        }
    }

    #[test]
    fn a_look_has_its_own_cautions_and_those_of_its_scenes() {
        let board = sample::board(json!({
            "looks": {"a": {"treatment": "invent", "notes": "Strap points for the tow harness."}},
            "scenes": [
                {"scene": 1, "action": "She reads.", "wears": {"ada": "a"}},
                {"scene": 2, "action": "Into the sea.", "wears": {"ada": "a"}},
                {"scene": 3, "action": "Fire!"},
            ],
        }));
        let cautions = of_look(&board, &"a".parse().unwrap());
        let said: Vec<(Hazard, &str, Option<String>)> = cautions
            .iter()
            .map(|one| (one.hazard, one.word.as_str(), one.scene.as_ref().map(ToString::to_string)))
            .collect();
        assert_eq!(said, [(Hazard::Harness, "harness", None), (Hazard::Water, "sea", Some("2".to_owned()))]);
    }
}
