//! A draft: scenes as they can be compared, whether a script or the board has them.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::mem;

use super::cast::{self, Cast, Who};
use super::element::{Element, Kind};
use super::error::{ScriptError, Warning, position};
use super::heading::{self, Time};
use super::length;
use super::part::Part;
use super::scan::Script;
use crate::board::{Board, CharacterId, Head, Light, LookId, Place, Scene, SceneNumber};
use crate::trade::eighths::Eighths;

/// The most scenes that a script may have. Of the longest films some have three hundred.
pub(super) const MOST_SCENES: usize = 2_000;

/// The most characters of what is taken into a new scene's `action`.
const OPENING: usize = 200;

/// Scenes in story order, of a script or of the board.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    /// The title, where there is one.
    pub title: String,
    /// The scenes.
    pub scenes: Vec<DraftScene>,
    /// Who speaks in the picture and is not on the board, in the order of their first speeches.
    pub strangers: Vec<Stranger>,
    /// Names that were taken for a character's by a word in them.
    pub readings: Vec<Reading>,
    /// What should be looked at.
    pub warnings: Vec<Warning>,
}

/// A scene as it can be compared.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DraftScene {
    /// Its number, where it has one.
    pub number: Option<SceneNumber>,
    /// Its heading, without the number.
    pub heading: String,
    /// The set, in the heading's letters.
    pub set: String,
    /// Indoors or out, where the heading says it.
    pub place: Option<Place>,
    /// The light, where the heading says it.
    pub light: Option<Light>,
    /// Its length: estimated from the page, or as the board has it.
    pub length: Eighths,
    /// Who is seen: who speaks in the picture, and whom action names in capitals; in the board's order. Who is only heard
    /// (`V.O.`, `O.S.`) wears nothing and is not among them.
    pub present: Vec<CharacterId>,
    /// In which looks they are. Only a board says that; a script knows none.
    pub looks: BTreeMap<CharacterId, LookId>,
    /// Whom action names besides. They may be there or only be spoken of, so they neither come in nor go out.
    pub named: Vec<CharacterId>,
    /// All its words, for telling it from others.
    pub words: String,
    /// Its first paragraph, for a new scene's `action`.
    pub opening: String,
    /// The line of its heading; `None` on a board.
    pub line: Option<usize>,
}

/// Somebody who speaks and is not on the board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stranger {
    /// The name above the speeches.
    pub name: String,
    /// In how many scenes.
    pub scenes: usize,
    /// The line of the first speech.
    pub line: usize,
}

/// A name that was taken for a character's by a word in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// The name above the speeches.
    pub name: String,
    /// Whose it was taken for.
    pub character: CharacterId,
    /// The line of the first speech.
    pub line: usize,
}

impl Stranger {
    /// The name as `board.yaml` would have it.
    pub fn as_character(&self) -> String {
        cast::capitalised(&self.name)
    }
}

impl Draft {
    /// The scenes of a script, with the characters of a board.
    ///
    /// # Errors
    /// [`ScriptError::NoScenes`], [`ScriptError::TooManyScenes`] and [`ScriptError::SameNumber`].
    pub fn of_script(script: &Script, head: &Head) -> Result<Self, ScriptError> {
        let cast = Cast::of(&head.characters);
        let mut reader = Reader {
            cast: &cast,
            strangers: BTreeMap::new(),
            readings: BTreeMap::new(),
            warnings: script.warnings.clone(),
            numbers: HashMap::new(),
        };
        let mut scenes: Vec<DraftScene> = Vec::new();
        let elements = &script.elements;
        let starts: Vec<usize> = (0..elements.len()).filter(|at| is_heading(&elements[*at])).collect();
        for (nth, start) in starts.iter().enumerate() {
            if nth == MOST_SCENES {
                return Err(ScriptError::TooManyScenes(position(elements[*start].line, 1)));
            }
            let end = starts.get(nth + 1).copied().unwrap_or(elements.len());
            let before = scenes.last().and_then(|scene| scene.light);
            scenes.push(reader.scene(&elements[*start..end], before)?);
        }
        if scenes.is_empty() {
            return Err(ScriptError::NoScenes);
        }
        let Reader { strangers, readings, mut warnings, .. } = reader;
        warnings.sort_by_key(|warning| warning.at);
        let mut strangers: Vec<Stranger> = strangers.into_values().map(|(stranger, _)| stranger).collect();
        strangers.sort_by_key(|stranger| stranger.line);
        Ok(Self {
            title: script.title.clone(),
            scenes,
            strangers,
            readings: readings.into_values().collect(),
            warnings,
        })
    }

    /// The scenes of a board, or those of a part of it.
    pub fn of_board(board: &Board, part: Option<&Part>) -> Self {
        let within = |scene: &&Scene| part.is_none_or(|part| part.holds(&scene.number));
        let scenes = board.scenes().filter(within).map(of_scene).collect();
        Self { title: board.head().title.clone(), scenes, ..Self::default() }
    }
}

fn is_heading(element: &Element) -> bool {
    matches!(element.kind, Kind::Heading { .. })
}

fn of_scene(scene: &Scene) -> DraftScene {
    let set = if scene.heading.is_empty() { scene.set.clone() } else { heading::read(&scene.heading).set };
    DraftScene {
        number: Some(scene.number.clone()),
        heading: scene.heading.clone(),
        set,
        place: scene.place,
        light: scene.light,
        length: scene.pages,
        present: scene.wears.keys().cloned().collect(),
        looks: scene.wears.iter().filter_map(|(who, look)| Some((who.clone(), look.clone()?))).collect(),
        words: scene.action.clone(),
        opening: scene.action.clone(),
        ..DraftScene::default()
    }
}

struct Reader<'a> {
    cast: &'a Cast,
    /// By name, with the line of the last scene that counted them.
    strangers: BTreeMap<String, (Stranger, usize)>,
    readings: BTreeMap<String, Reading>,
    warnings: Vec<Warning>,
    /// The lines of the scenes that have a number.
    numbers: HashMap<SceneNumber, usize>,
}

impl Reader<'_> {
    /// The scene of these elements, of which the first is its heading.
    fn scene(
        &mut self,
        elements: &[Element],
        light_before: Option<Light>,
    ) -> Result<DraftScene, ScriptError> {
        let mut scene = DraftScene { length: length::of_scene(elements), ..DraftScene::default() };
        let (mut seen, mut named) = (BTreeSet::new(), BTreeSet::new());
        let line = elements.first().map_or(0, |heading| heading.line);
        for element in elements {
            match &element.kind {
                Kind::Heading { number } => {
                    scene.number = self.number(number.as_ref(), element.line)?;
                    let heading = heading::read(&element.text);
                    scene.heading = one_line(&element.text);
                    scene.set = one_line(&heading.set);
                    scene.place = heading.place;
                    scene.light = match heading.time {
                        Time::At(light) => Some(light),
                        Time::AsBefore => light_before,
                        Time::Untold => None,
                    };
                    scene.line = Some(element.line);
                }
                Kind::Cue { extension, .. } => {
                    let voice = is_voice(extension);
                    for (name, who) in self.cast.speakers(&element.text) {
                        let speaker = self.speaker(&name, who, element.line, voice, line);
                        seen.extend(speaker.filter(|_| !voice));
                    }
                }
                Kind::Action => {
                    for (at, capitals) in self.cast.named(&element.text) {
                        if capitals {
                            seen.insert(at)
                        } else {
                            named.insert(at)
                        };
                    }
                    if scene.opening.is_empty() {
                        scene.opening = opening(&element.text);
                    }
                }
                _ => {}
            }
            if element.kind.is_printed() && !is_heading(element) {
                scene.words.push_str(&element.text);
                scene.words.push('\n');
            }
        }
        let id = |at: &usize| self.cast.id(*at).clone();
        scene.named = named.difference(&seen).map(id).collect();
        scene.present = seen.iter().map(id).collect();
        Ok(scene)
    }

    /// The number of a heading. One that is none is told, and the scene is recognised without.
    fn number(
        &mut self,
        number: Option<&(String, usize)>,
        line: usize,
    ) -> Result<Option<SceneNumber>, ScriptError> {
        let Some((text, column)) = number else { return Ok(None) };
        // A full stop behind the number is fine by the syntax page.
        let Ok(number) = text.trim_end_matches('.').parse::<SceneNumber>() else {
            let what = format!(
                "`{text}` is no scene number here: expected digits, then letters if any, such as `12` or `12A`; the scene is \
                 recognised without it"
            );
            self.warnings.push(Warning::new(line, *column, what));
            return Ok(None);
        };
        match self.numbers.insert(number.clone(), line) {
            Some(first) => {
                let at = position(line, *column);
                Err(ScriptError::SameNumber { at, number: number.to_string(), first })
            }
            None => Ok(Some(number)),
        }
    }

    /// The character that a name above a speech means; who is not on the board and is seen is counted.
    fn speaker(&mut self, name: &str, who: Who, line: usize, voice: bool, scene: usize) -> Option<usize> {
        match who {
            Who::Known(at) => Some(at),
            Who::Read(at) => {
                self.readings.entry(name.to_owned()).or_insert_with(|| Reading {
                    name: name.to_owned(),
                    character: self.cast.id(at).clone(),
                    line,
                });
                Some(at)
            }
            Who::Stranger if voice => None,
            Who::Stranger => {
                let new = || (Stranger { name: name.to_owned(), scenes: 0, line }, 0);
                let (stranger, counted) = self.strangers.entry(name.to_owned()).or_insert_with(new);
                stranger.scenes += usize::from(mem::replace(counted, scene) != scene);
                None
            }
        }
    }
}

/// Whether what stands behind a name says that the speaker is not in the picture.
fn is_voice(extension: &str) -> bool {
    extension.split(',').any(|part| {
        let letters: String =
            part.chars().filter(|c| c.is_alphabetic()).flat_map(char::to_uppercase).collect();
        matches!(letters.as_str(), "VO" | "OS" | "OC" | "OFF" | "VOICEOVER" | "OFFSCREEN" | "OFFCAMERA")
    })
}

/// The text on one line, without runs of spaces.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The beginning of a text, at most as long as a summary is, up to the end of a word.
fn opening(text: &str) -> String {
    let mut opening = String::new();
    for word in text.split_whitespace() {
        if opening.chars().count() + word.chars().count() > OPENING {
            opening.push('…');
            break;
        }
        if !opening.is_empty() {
            opening.push(' ');
        }
        opening.push_str(word);
    }
    opening
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The draft of a script on a board with Ada, Ben and a duo of one name.
    fn draft(text: &str) -> Draft {
        let head = serde_json::json!({
            "shirr": 1, "id": "lamp", "title": "The Lamp",
            "characters": [
                {"id": "ada", "name": "Ada Sund"}, {"id": "ben", "name": "Ben"}, {"id": "duo", "name": "Salt & Tar"},
            ],
        });
        let script = Script::read(text.as_bytes()).unwrap();
        Draft::of_script(&script, &serde_json::from_value(head).unwrap()).unwrap()
    }

    /// Who is present and who is a stranger where this stands above a speech.
    fn who(cue: &str) -> (String, String) {
        let draft = draft(&format!("INT. LOFT - DAY\n\n{cue}\nNow!\n"));
        let present: Vec<String> = draft.scenes[0].present.iter().map(ToString::to_string).collect();
        let strangers: Vec<String> = draft.strangers.into_iter().map(|one| one.name).collect();
        (present.join(" "), strangers.join("|"))
    }

    #[test]
    fn of_several_names_above_one_speech_those_that_are_known_speak_and_the_rest_are_strangers() {
        for (cue, present, strangers) in [
            ("ADA, BEN AND CHORUS", "ada ben", "CHORUS"),
            ("CHORUS, BEN & ADA SUND", "ada ben", "CHORUS"),
            ("ADA AND THE COOK", "ada", "THE COOK"),
            ("COOK / SALT & TAR / CHORUS", "duo", "CHORUS|COOK"),
            ("KEEPER, COOK AND CHORUS", "", "KEEPER, COOK AND CHORUS"),
            ("ADA, BEN AND CHORUS (V.O.)", "", ""),
        ] {
            assert_eq!(who(cue), (present.to_owned(), strangers.to_owned()), "{cue}");
        }
    }

    #[test]
    fn two_known_names_above_one_speech_both_speak() {
        for cue in ["ADA AND BEN", "BEN & ADA SUND", "ADA/BEN", "ADA, BEN", "@Ada and Ben", "ADA, AND BEN"] {
            assert_eq!(who(cue), ("ada ben".to_owned(), String::new()), "{cue}");
        }
        assert_eq!(who("ADA & BEN (V.O.)"), (String::new(), String::new()));
        assert_eq!(
            who("SALT & TAR"),
            ("duo".to_owned(), String::new()),
            "a name that is somebody's goes first"
        );
        assert_eq!(who("ALL AND SUNDRY"), (String::new(), "ALL AND SUNDRY".to_owned()));
    }

    #[test]
    fn one_of_two_who_is_known_by_a_word_only_is_told() {
        let draft = draft("INT. LOFT - DAY\n\nYOUNG ADA AND BEN\nNow!\n");
        let readings: Vec<&str> = draft.readings.iter().map(|one| one.name.as_str()).collect();
        assert_eq!((draft.scenes[0].present.len(), readings), (2, vec!["YOUNG ADA"]));
    }

    #[test]
    fn a_scene_that_names_somebody_over_and_over_has_them_once() {
        let times = 600;
        let text =
            format!("INT. LOFT - DAY\n\nThere: {}\n{}\n", "ADA. ".repeat(times), "Ben. ".repeat(times));
        let scene = draft(&text).scenes.remove(0);
        let ids = |all: &[CharacterId]| all.iter().map(ToString::to_string).collect::<Vec<_>>();
        assert_eq!((ids(&scene.present), ids(&scene.named)), (vec!["ada".into()], vec!["ben".into()]));
    }
}
