//! Cautions: where somebody must be asked before anybody wears or does what is planned.
//!
//! A caution is raised by words in what a scene or a look says, and rather once too often than once too seldom; but a
//! page that warns of knife pleats is soon read by nobody, so words of cut and cloth raise nothing where a garment is
//! described, nor in phrases that are known to be harmless. A caution approves nothing and clears nothing: whoever it
//! names decides, by the local code and licensed practice. What each kind asks is common practice, no source.

mod words;

use std::ops::Range;

use crate::board::{Board, Look, LookId, Scene, SceneNumber};

/// What can hurt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hazard {
    /// Falls, jumps, dives, fights and heights.
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
    /// Weapons, blades and sharp tools.
    Weapons,
    /// Masks, helmets, smoke and whatever else narrows sight, hearing or breath.
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
    /// The scene that says so; `None` where a look itself does.
    pub scene: Option<SceneNumber>,
    /// The look that says so of itself; `None` where a scene does.
    pub look: Option<LookId>,
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
            Self::Falls => "falls and stunts",
            Self::Harness => "harness",
            Self::Fire => "fire",
            Self::Water => "water and cold",
            Self::Animals => "animals",
            Self::Vehicles => "vehicles and boats",
            Self::Machinery => "machinery",
            Self::Weapons => "weapons and blades",
            Self::Masks => "masks and smoke",
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
                "Ask the armourer, for a tool the property master, how it is carried, by whom, and what the holster or pocket must hold."
            }
            Self::Masks => {
                "Ask the safety lead how the performer sees, hears and breathes in it, for how long, and who takes it off or clears the air."
            }
            Self::Heat => {
                "Ask the safety lead about rest, shade, water and cooling, and how fast the layers come off."
            }
            Self::Skin => {
                "Ask make-up and the performer about allergies, test on a patch first, and keep to the maker's safety sheet."
            }
        }
    }

    /// The first words of a text that raise it, as they are written there.
    fn raised_by<'a>(self, said: &Said<'a>) -> Option<&'a str> {
        let words = words::of(self);
        let places = if said.what == What::Place { words.places } else { &[] };
        let cloth = if said.what == What::Garment { words.cloth } else { &[] };
        let all = said.words();
        let harmless = spans(&all, words.harmless);
        let raise = words.raise.iter().filter(|entry| !cloth.contains(entry)).chain(places);
        let mut raised: Vec<Range<usize>> = raise.flat_map(|entry| spans(&all, &[entry])).collect();
        raised.retain(|span| {
            !harmless.iter().any(|around| around.start <= span.start && span.end <= around.end)
        });
        let first = raised.into_iter().min_by_key(|span| (span.start, span.end))?;
        let (from, to) = (all.get(first.start)?, all.get(first.end.checked_sub(1)?)?);
        said.text.get(from.at.start..to.at.end)
    }
}

/// Something that is said, and what it speaks of.
#[derive(Clone, Copy)]
struct Said<'a> {
    what: What,
    text: &'a str,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum What {
    /// What happens, what is to be done and why.
    Action,
    /// Where it plays.
    Place,
    /// How something is cut and of what: a fall is a lapel here, and a knife a pleat.
    Garment,
}

/// A word of a text: where it stands, and how it is compared.
struct Word {
    at: Range<usize>,
    bare: String,
}

impl<'a> Said<'a> {
    fn new(what: What, text: &'a str) -> Self {
        Self { what, text }
    }

    fn words(&self) -> Vec<Word> {
        let in_word = |c: char| c.is_alphanumeric() || c == '\'' || c == '’';
        let mut words = Vec::new();
        let mut letters = self.text.char_indices().peekable();
        while let Some((start, letter)) = letters.next() {
            if !in_word(letter) {
                continue;
            }
            let mut end = start + letter.len_utf8();
            while let Some((at, letter)) = letters.next_if(|(_, letter)| in_word(*letter)) {
                end = at + letter.len_utf8();
            }
            words.push(Word::new(&self.text[start..end], start..end));
        }
        words
    }
}

impl Word {
    fn new(written: &str, at: Range<usize>) -> Self {
        let bare = written.to_lowercase().replace('’', "'");
        let bare = bare.trim_matches('\'');
        Self { at, bare: bare.strip_suffix("'s").unwrap_or(bare).to_owned() }
    }
}

/// Where entries of a list stand among the words, from the first word of each to behind its last.
fn spans(words: &[Word], entries: &[&str]) -> Vec<Range<usize>> {
    let is_like = |word: &Word, wanted: &str| match wanted.strip_suffix('*') {
        Some(stem) => word.bare.starts_with(stem),
        None => word.bare == wanted,
    };
    let spans_of = |entry: &&str| {
        let wanted: Vec<&str> = entry.split(' ').collect();
        let stands = |run: &[Word]| run.iter().zip(&wanted).all(|(word, wanted)| is_like(word, wanted));
        let runs = words.windows(wanted.len()).enumerate().filter(|(_, run)| stands(run));
        runs.map(|(at, run)| at..at + run.len()).collect::<Vec<_>>()
    };
    entries.iter().flat_map(spans_of).collect()
}

/// The cautions of what is said, each hazard once, with the first word that raised it.
fn of_said(said: &[Said<'_>], scene: Option<&SceneNumber>, look: Option<&LookId>) -> Vec<Caution> {
    let raised = |hazard: Hazard| {
        let word = said.iter().find_map(|said| hazard.raised_by(said))?;
        Some(Caution { hazard, word: word.to_owned(), scene: scene.cloned(), look: look.cloned() })
    };
    Hazard::ALL.into_iter().filter_map(raised).collect()
}

/// The cautions of what a scene says: its heading, set, action and notes.
pub fn of_scene(scene: &Scene) -> Vec<Caution> {
    let said = [
        Said::new(What::Action, &scene.action),
        Said::new(What::Action, &scene.notes),
        Said::new(What::Place, &scene.set),
        Said::new(What::Place, &scene.heading),
    ];
    of_said(&said, Some(&scene.number), None)
}

/// The cautions of what a look says of itself: its title, what it says, notes, dressing, departures and pieces. Where it
/// has no dressing or pieces of its own, it is dressed and made as its base.
fn of_record(board: &Board, id: &LookId, look: &Look) -> Vec<Caution> {
    let base = look.base.as_ref().and_then(|base| board.outfit(base));
    let dressing = match base {
        Some(base) if look.dressing.is_empty() => &base.dressing,
        _ => &look.dressing,
    };
    let pieces = match base {
        Some(base) if look.pieces.is_empty() => &base.pieces,
        _ => &look.pieces,
    };
    let mut said = vec![Said::new(What::Action, &look.notes), Said::new(What::Action, &look.says)];
    said.extend(dressing.iter().map(|note| Said::new(What::Action, note)));
    said.extend(look.departures.iter().map(|one| Said::new(What::Action, &one.why)));
    let departs = look.departures.iter().flat_map(|one| [&one.detail, &one.becomes]);
    let made = pieces.iter().flat_map(|piece| [&piece.name, &piece.cloth].into_iter().chain(&piece.details));
    said.extend(departs.chain(made).map(|text| Said::new(What::Garment, text)));
    said.push(Said::new(What::Garment, &look.title));
    of_said(&said, None, Some(id))
}

/// Every caution of a scene: its own, then what the looks that are worn in it say of themselves.
pub fn in_scene(board: &Board, scene: &Scene) -> Vec<Caution> {
    let worn = scene.wears.iter().filter_map(|(_, look)| look.as_ref());
    of_scene(scene).into_iter().chain(worn.flat_map(|id| of_look_alone(board, id))).collect()
}

/// What a look says of itself; nothing of one that is not there.
pub fn of_look_alone(board: &Board, id: &LookId) -> Vec<Caution> {
    board.look(id).map(|look| of_record(board, id, look)).unwrap_or_default()
}

/// Every caution of a look: its own, then those of the scenes that show it, as often as they raise it.
pub fn with_look(board: &Board, id: &LookId) -> Vec<Caution> {
    let scenes = board.relations().scenes_of(id).iter().filter_map(|at| board.records().scenes.get(*at));
    of_look_alone(board, id).into_iter().chain(scenes.flat_map(|scene| of_scene(scene))).collect()
}

/// The cautions of a look, each hazard once: as it says it itself, else as the first scene that shows it does.
pub fn of_look(board: &Board, id: &LookId) -> Vec<Caution> {
    each_once(with_look(board, id))
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
    use crate::board::told;

    fn hazards(scene: serde_json::Value) -> Vec<Hazard> {
        let board = told::board(json!({"scenes": [scene]}));
        of_scene(board.scenes().next().unwrap()).into_iter().map(|caution| caution.hazard).collect()
    }

    fn raised(action: &str) -> Vec<Hazard> {
        hazards(json!({"scene": 1, "action": action}))
    }

    #[test]
    fn what_can_hurt_is_found_by_its_words() {
        for (action, hazards) in [
            ("She dives from the mole.", vec![Hazard::Falls]),
            ("She swims; a lamp, a Boat.", vec![Hazard::Water, Hazard::Vehicles]),
            ("The bonfire, and horses.", vec![Hazard::Fire, Hazard::Animals]),
            ("Down to the water's edge.", vec![Hazard::Water]),
            ("Dry at the start, streaming at the end.", vec![Hazard::Water]),
            ("Nobody in the launch talks.", vec![Hazard::Vehicles]),
            ("Barefoot on the balustrade.", vec![Hazard::Falls]),
            ("He reads a letter.", vec![]),
            ("The carpenter and the fireman's watercolour of a carthage season.", vec![]),
        ] {
            assert_eq!(raised(action), hazards, "{action}");
        }
    }

    #[test]
    fn what_only_sounds_like_a_hazard_raises_none() {
        for action in [
            "Knife-pleats, a laddered stocking and a jumper.",
            "Shoulder blades; a gun-club check.",
            "He never saw a fish.",
            "The engineer in a raincoat, under a rainbow.",
            "Horsehair in the collar, riding habit, donkey jacket.",
            "The boathouse, and a boat neck.",
            "Pinafore tied back; she never gets wet.",
            "She does not like the sea.",
            "Machine-knit wool in burnt orange.",
        ] {
            assert_eq!(raised(action), [], "{action}");
        }
        // The same words where they do mean harm, beside those where they do not.
        assert_eq!(raised("In knife pleats, with a knife."), [Hazard::Weapons]);
        assert_eq!(raised("She wears a rope and ladder gansey up the ladder."), [Hazard::Falls]);
    }

    #[test]
    fn each_of_these_asks_somebody() {
        for (action, hazard) in [
            ("Into the lake.", Hazard::Water),
            ("He stands in the river.", Hazard::Water),
            ("The undertow takes him.", Hazard::Water),
            ("She stands on the cliff edge.", Hazard::Falls),
            ("On the roof.", Hazard::Falls),
            ("A punch; he goes down.", Hazard::Falls),
            ("They wrestle.", Hazard::Falls),
            ("She throws him down the stairs.", Hazard::Falls),
            ("She slips and sits down.", Hazard::Falls),
            ("A high-wire act.", Hazard::Falls),
            ("The bride faints.", Hazard::Falls),
            ("A noose.", Hazard::Harness),
            ("She lights a cigarette.", Hazard::Fire),
            ("An oil lamp on the stove.", Hazard::Fire),
            ("They weld the plates.", Hazard::Fire),
            ("Two men in a skiff.", Hazard::Vehicles),
            ("A taxi draws up.", Hazard::Vehicles),
            ("The mare shies.", Hazard::Animals),
            ("A shot rings out.", Hazard::Weapons),
            ("Barefoot over broken glass.", Hazard::Weapons),
            ("She cannot breathe.", Hazard::Masks),
            ("A bucket of bleach.", Hazard::Skin),
            ("Her nightdress is alight.", Hazard::Fire),
            ("Fireworks over the harbour.", Hazard::Fire),
            ("She flies over the stage on a wire.", Hazard::Harness),
            ("He is thrown across the room.", Hazard::Falls),
            ("She drops from the saddle.", Hazard::Falls),
            ("They fence with foils.", Hazard::Weapons),
            ("A duel at dawn.", Hazard::Weapons),
            ("The mangle takes her sleeve.", Hazard::Machinery),
            ("The cart rolls over.", Hazard::Vehicles),
            ("A snake in the basket.", Hazard::Animals),
            ("Ether on a cloth over her face.", Hazard::Masks),
        ] {
            assert!(raised(action).contains(&hazard), "{action}: {:?}", raised(action));
        }
        for action in [
            "Cold cream on the table, and he has a cold.",
            "A cold reception; ice cream and a glass of water.",
            "Hot tea, water colours.",
            "A train of thought: she trains her sister.",
            "A ferry ticket at the Bull Inn, dog-eared.",
            "She falls for him and jumps to a conclusion.",
            "Fire-engine red; signed in ink.",
            "A faint smile.",
            "A fall coat.",
        ] {
            assert_eq!(raised(action), [], "{action}");
        }
    }

    #[test]
    fn a_look_is_made_and_dressed_as_its_base_where_it_says_nothing_else() {
        let of = |look: serde_json::Value| {
            let board = told::board(json!({
                "outfits": {"rescue": {
                    "pieces": [{"name": "gas mask"}, {"name": "harness"}], "dressing": ["goose grease on the skin"],
                }},
                "looks": {"a": look},
            }));
            let hazards = of_look(&board, &"a".parse().unwrap()).into_iter().map(|one| one.hazard);
            hazards.collect::<Vec<_>>()
        };
        assert_eq!(of(json!({"base": "rescue"})), [Hazard::Harness, Hazard::Masks, Hazard::Skin]);
        assert_eq!(of(json!({"base": "rescue", "pieces": [{"name": "coat"}], "dressing": ["open"]})), []);
        assert_eq!(
            of(json!({"treatment": "invent", "title": "Diving helmet"})),
            [Hazard::Falls, Hazard::Masks]
        );
        assert_eq!(of(json!({"treatment": "invent", "says": "She drowns in it."})), [Hazard::Water]);
    }

    #[test]
    fn a_word_that_names_open_water_raises_it_in_the_name_of_a_place_alone() {
        let of = |key: &str, text: &str| hazards(json!({"scene": 1, key: text}));
        assert_eq!(of("heading", "EXT. SOUND OF BREDE, ALONGSIDE - DAY"), [Hazard::Water, Hazard::Vehicles]);
        assert_eq!(of("set", "Wendel beach"), [Hazard::Water]);
        assert_eq!(of("action", "The sound of steps; he walks alongside her."), []);
        assert_eq!(of("heading", "INT. SOUND STAGE - DAY"), []);
    }

    #[test]
    fn every_hazard_asks_somebody_and_is_raised_by_each_of_its_words() {
        for hazard in Hazard::ALL {
            assert!(hazard.ask().starts_with("Ask "), "{hazard:?}");
            let words = words::of(hazard);
            for (what, word) in words
                .raise
                .iter()
                .map(|word| (What::Action, word))
                .chain(words.places.iter().map(|word| (What::Place, word)))
            {
                let text = format!("before {} after", word.replace('*', "s"));
                assert!(hazard.raised_by(&Said::new(what, &text)).is_some(), "{word} of {hazard:?}");
            }
        }
    }

    #[test]
    fn every_exception_takes_a_word_back_that_would_raise_it() {
        for hazard in Hazard::ALL {
            let words = words::of(hazard);
            for phrase in words.harmless {
                let text = phrase.replace('*', "");
                let all = Said::new(What::Action, &text).words();
                let raise = [words.raise, words.places].concat();
                assert!(
                    !spans(&all, &raise).is_empty(),
                    "{phrase} of {hazard:?} is no exception to anything"
                );
                assert_eq!(hazard.raised_by(&Said::new(What::Place, &text)), None, "{phrase} of {hazard:?}");
            }
            for cloth in words.cloth {
                assert!(words.raise.contains(cloth), "{cloth} of {hazard:?} raises nothing anyway");
                let text = cloth.replace('*', "");
                assert_eq!(hazard.raised_by(&Said::new(What::Garment, &text)), None, "{cloth} of {hazard:?}");
            }
        }
    }

    #[test]
    fn cut_and_cloth_raise_nothing_and_what_is_done_with_them_does() {
        let of = |look: serde_json::Value| {
            let board = told::board(json!({"looks": {"a": look}}));
            let cautions = of_look(&board, &"a".parse().unwrap());
            cautions.into_iter().map(|one| (one.hazard, one.word)).collect::<Vec<_>>()
        };
        let made = json!({
            "treatment": "invent",
            "pieces": [
                {"name": "jumper", "cloth": "linen, dyed", "details": ["fall front", "left knee ladder"]},
                {"name": "gown", "details": ["train", "scissors loop", "flare at the hem"]},
            ],
        });
        assert_eq!(of(made), []);
        let worn = json!({
            "treatment": "invent", "dressing": ["train round one arm"],
            "notes": "It caught in the winch; the sleeve must clear the knife.",
        });
        assert_eq!(
            of(worn),
            [(Hazard::Machinery, "winch".to_owned()), (Hazard::Weapons, "knife".to_owned())]
        );
    }

    #[test]
    fn a_look_has_its_own_cautions_and_those_of_its_scenes() {
        let board = told::board(json!({
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
        assert_eq!(cautions[0].look, Some("a".parse().unwrap()));
    }

    #[test]
    fn a_scene_has_its_own_cautions_and_those_of_what_is_worn_in_it() {
        let board = told::board(json!({
            "looks": {
                "a": {"treatment": "invent", "notes": "The tow harness; cold."},
                "b": {"treatment": "invent", "notes": "Fire."},
            },
            "scenes": [{"scene": 1, "action": "Into the sea.", "wears": {"ada": "a", "ben": null}}],
        }));
        let said: Vec<(&str, bool)> = in_scene(&board, board.scenes().next().unwrap())
            .iter()
            .map(|one| (if one.look.is_some() { "look" } else { "scene" }, one.hazard == Hazard::Water))
            .collect();
        assert_eq!(said, [("scene", true), ("look", false), ("look", true)]);
    }
}
