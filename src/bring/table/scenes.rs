//! Scenes: one row each, or one for each character in each; found by their number.
//!
//! A row without a number belongs to the scene above it. New scenes go behind the scene that the table has before
//! them, or to where their numbers belong; scenes that are there keep their places. A row with a character puts them into the scene, in the look that it
//! names; who is in a scene and not in the table stays in it.

use std::collections::HashMap;
use std::sync::Arc;

use super::columns::Heading;
use super::fields::{Field, Written, date_of, text_of};
use super::grid::Row;
use super::names::{self, squeezed};
use super::wrong::Wrong;
use super::{Made, Table};
use crate::board::{CharacterId, Light, Place, Scene, SceneNumber};
use crate::trade::eighths::{Eighths, PER_PAGE};

const NUMBER: Heading = Heading {
    key: "scene",
    name: "Scene",
    synonyms: &["scene no", "scene number", "scene #", "sc", "sc no", "number", "no"],
};
const CHARACTER: Heading =
    Heading { key: "character", name: "Character", synonyms: &["role", "who", "characters", "cast"] };
const LOOK: Heading = Heading { key: "look", name: "Look", synonyms: &["costume", "wears"] };

pub(super) const FIELDS: [Field<Scene>; 11] = [
    Field {
        heading: Heading {
            key: "heading",
            name: "Heading",
            synonyms: &["slug line", "slug", "scene heading"],
        },
        written: |_, scene| Written::Text(scene.heading.clone()),
        read: |_, cell, scene| {
            scene.heading = text_of(cell).to_owned();
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "set", name: "Set", synonyms: &["location", "set name"] },
        written: |_, scene| Written::Text(scene.set_or_heading().to_owned()),
        read: |_, cell, scene| {
            scene.set = text_of(cell).to_owned();
            Ok(())
        },
    },
    Field {
        heading: Heading {
            key: "where",
            name: "INT/EXT",
            synonyms: &["I/E", "interior/exterior", "inside/outside"],
        },
        written: |_, scene| Written::maybe(scene.place.map(Place::word)),
        read: |_, cell, scene| {
            scene.place = Some(place(text_of(cell))?);
            Ok(())
        },
    },
    Field {
        heading: Heading {
            key: "when",
            name: "Day/night",
            synonyms: &["D/N", "light", "time of day", "day or night"],
        },
        written: |_, scene| Written::maybe(scene.light.map(Light::word)),
        read: |_, cell, scene| {
            scene.light = Some(light(text_of(cell))?);
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "story-day", name: "Story day", synonyms: &["script day", "timeline day"] },
        written: |_, scene| Written::maybe(scene.story_day),
        read: |_, cell, scene| {
            scene.story_day = Some(text_of(cell).parse()?);
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "date", name: "Date", synonyms: &["story date", "year", "plays in"] },
        written: |_, scene| Written::maybe(scene.date.as_ref()),
        read: |_, cell, scene| {
            scene.date = Some(date_of(cell)?);
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "period", name: "Period", synonyms: &["story period"] },
        written: |board, scene| {
            let dated = scene.date.as_ref().and_then(|date| board.period_of_date(date));
            Written::maybe(scene.period.as_ref().or(dated).map(|period| names::written_period(board, period)))
        },
        read: |board, cell, scene| {
            let period = names::period(board, text_of(cell))?;
            let dated = scene.date.as_ref().and_then(|date| board.period_of_date(date));
            scene.period = Some(period).filter(|period| Some(period) != dated);
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "pages", name: "Pages", synonyms: &["page count", "length", "pgs"] },
        written: |_, scene| Written::Text(scene.pages.to_string()),
        read: |_, cell, scene| {
            scene.pages = pages(text_of(cell))?;
            Ok(())
        },
    },
    Field {
        heading: Heading {
            key: "eighths",
            name: "Pages (eighths)",
            synonyms: &["8ths", "length in eighths"],
        },
        written: |_, scene| Written::Number(scene.pages.get()),
        read: |_, cell, scene| {
            scene.pages = eighths(text_of(cell))?;
            Ok(())
        },
    },
    Field {
        heading: Heading {
            key: "action",
            name: "Action",
            synonyms: &["synopsis", "description", "what happens"],
        },
        written: |_, scene| Written::Text(scene.action.clone()),
        read: |_, cell, scene| {
            scene.action = text_of(cell).to_owned();
            Ok(())
        },
    },
    Field {
        heading: Heading { key: "notes", name: "Notes", synonyms: &["note", "remarks", "comments"] },
        written: |_, scene| Written::Text(scene.notes.clone()),
        read: |_, cell, scene| {
            scene.notes = text_of(cell).to_owned();
            Ok(())
        },
    },
];

pub(super) fn headings() -> Vec<Heading> {
    let fields = FIELDS.into_iter().map(|field| field.heading);
    [NUMBER].into_iter().chain(fields).chain([CHARACTER, LOOK]).collect()
}

fn letters(text: &str) -> String {
    text.chars().filter(|c| c.is_alphabetic()).flat_map(char::to_lowercase).collect()
}

fn place(text: &str) -> Result<Place, String> {
    match letters(text).as_str() {
        "int" | "i" | "interior" | "inside" => Ok(Place::Inside),
        "ext" | "e" | "exterior" | "outside" => Ok(Place::Outside),
        "intext" | "extint" | "ie" | "ei" | "both" => Ok(Place::Both),
        _ => Err(format!("`{text}` is neither indoors nor out: expected INT, EXT or INT/EXT")),
    }
}

fn light(text: &str) -> Result<Light, String> {
    match letters(text).as_str() {
        "day" | "d" => Ok(Light::Day),
        "night" | "n" => Ok(Light::Night),
        "dawn" => Ok(Light::Dawn),
        "dusk" => Ok(Light::Dusk),
        _ => Err(format!("`{text}` is no light: expected day, night, dawn or dusk")),
    }
}

/// Pages and eighths; a spreadsheet turns `1 3/8` into 1.375, so whole eighths with decimals are read as well.
fn pages(text: &str) -> Result<Eighths, String> {
    let wrong = match text.parse::<Eighths>() {
        Ok(pages) => return Ok(pages),
        Err(wrong) => wrong.to_string(),
    };
    let decimal = text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
    let length = text.parse::<f64>().ok().filter(|_| decimal).map(|pages| pages * f64::from(PER_PAGE));
    match length.filter(|length| length.fract() == 0.0 && *length < f64::from(u32::MAX)) {
        Some(length) => eighths(&length.to_string()).map_err(|_| wrong),
        None => Err(wrong),
    }
}

fn eighths(text: &str) -> Result<Eighths, String> {
    let wrong = || format!("`{text}` is no number of eighths: expected one such as 11, which is 1 3/8 pages");
    let number: u32 = text.parse().map_err(|_| wrong())?;
    // Longer than any entry may be is refused there.
    format!("{} {}/8", number / PER_PAGE, number % PER_PAGE).parse().map_err(|_| wrong())
}

pub(super) fn read(table: &Table<'_>, made: &mut Made) {
    let has = |key: &str| table.columns.has(key);
    if has("pages") && has("eighths") {
        made.wrong.push(Wrong::whole("both pages and eighths are given: keep one of the columns"));
    }
    if has(LOOK.key) && !has(CHARACTER.key) {
        made.wrong
            .push(Wrong::whole("there are looks and nobody who wears them: a column `Character` is missing"));
        return;
    }
    let number = |row: &Row| {
        let cell = text_of(table.cell(row, NUMBER.key));
        let number = (!cell.is_empty()).then(|| cell.parse::<SceneNumber>());
        number.transpose().map_err(|what| Wrong::at(row.number, NUMBER.name, what))
    };
    let groups = table.grouped(number, &mut made.wrong);
    let mut order = Order::of(&made.records.scenes);
    for (number, rows) in groups {
        let before = table.board.scene(&number);
        let mut scene = before.cloned().unwrap_or_else(|| Scene::numbered(number.clone()));
        for field in &FIELDS {
            let put = table.agreed(&rows, &field.heading).and_then(|(row, cell)| {
                let put = field.put(table.board, cell, &mut scene);
                put.map_err(|what| Wrong::at(row, field.heading.name, what))
            });
            made.wrong.extend(put.err());
        }
        wear(table, &rows, &mut scene, &mut made.wrong);
        made.count(before, &scene);
        order.take(scene);
    }
    made.records.scenes = order.scenes();
}

/// The scenes in their order, and what a table puts among them. A new scene goes behind the one that is there and stands
/// before it in the table; where none does, it goes to where its number belongs, and at the latest before the first one
/// of the table that is there. New scenes
/// of one place keep the order of the table.
struct Order {
    there: Vec<Arc<Scene>>,
    places: HashMap<SceneNumber, usize>,
    /// New scenes behind each of those that are there, by its place.
    behind: HashMap<usize, Vec<Arc<Scene>>>,
    /// New scenes before any of the table that is there.
    first: Vec<Arc<Scene>>,
    /// The place of the last one of the table that was there, and of the first.
    last: Option<usize>,
    next: Option<usize>,
}

impl Order {
    fn of(scenes: &[Arc<Scene>]) -> Self {
        let mut places = HashMap::with_capacity(scenes.len());
        for (at, scene) in scenes.iter().enumerate() {
            places.entry(scene.number.clone()).or_insert(at);
        }
        Self {
            there: scenes.to_vec(),
            places,
            behind: HashMap::new(),
            first: Vec::new(),
            last: None,
            next: None,
        }
    }

    /// Takes the next scene of the table.
    fn take(&mut self, scene: Scene) {
        if let Some(at) = self.places.get(&scene.number).copied() {
            if let Some(old) = self.there.get_mut(at).filter(|old| ***old != scene) {
                *old = Arc::new(scene);
            }
            self.last = Some(at);
            self.next.get_or_insert(at);
        } else if let Some(last) = self.last {
            self.behind.entry(last).or_default().push(Arc::new(scene));
        } else {
            self.first.push(Arc::new(scene));
        }
    }

    fn scenes(mut self) -> Vec<Arc<Scene>> {
        let mut scenes = Vec::with_capacity(self.there.len() + self.first.len());
        let mut before = self.by_number();
        let end = self.there.len();
        for (at, scene) in self.there.into_iter().enumerate() {
            scenes.extend(before.remove(&at).unwrap_or_default());
            scenes.push(scene);
            scenes.extend(self.behind.remove(&at).unwrap_or_default());
        }
        scenes.extend(before.remove(&end).unwrap_or_default());
        scenes
    }

    /// The first new scenes, by the place of the scene before which each belongs.
    fn by_number(&mut self) -> HashMap<usize, Vec<Arc<Scene>>> {
        let latest = self.next.unwrap_or(self.there.len());
        // Rising, whatever the order of the board, so that a place is found without a search through all.
        let mut highest: Vec<&SceneNumber> = Vec::with_capacity(latest);
        for scene in self.there.iter().take(latest) {
            highest.push(highest.last().map_or(&scene.number, |last| (*last).max(&scene.number)));
        }
        let mut before: HashMap<usize, Vec<Arc<Scene>>> = HashMap::new();
        for new in self.first.drain(..) {
            let place = highest.partition_point(|number| **number <= new.number);
            before.entry(place).or_default().push(new);
        }
        before
    }
}

/// Who is in the scene, and in what.
fn wear(table: &Table<'_>, rows: &[&Row], scene: &mut Scene, wrong: &mut Vec<Wrong>) {
    let mut said: Vec<(CharacterId, &str, usize)> = Vec::new();
    for row in rows {
        let (who, look) = (text_of(table.cell(row, CHARACTER.key)), text_of(table.cell(row, LOOK.key)));
        if who.is_empty() {
            if !look.is_empty() {
                wrong.push(Wrong::at(row.number, CHARACTER.name, format!("expected who wears `{look}`")));
            }
            continue;
        }
        let who = match names::character(table.board, who) {
            Ok(who) => who,
            Err(what) => {
                wrong.push(Wrong::at(row.number, CHARACTER.name, what));
                continue;
            }
        };
        if let Some((_, before, first)) = said.iter().find(|(one, _, _)| *one == who) {
            if squeezed(before) != squeezed(look) {
                let what = format!("`{look}` is not what row {first} says, which is `{before}`");
                wrong.push(Wrong::at(row.number, LOOK.name, what));
            }
            continue;
        }
        said.push((who.clone(), look, row.number));
        let now = scene.wears.get(&who);
        let written = now.map(|now| names::written_look(table.board, &who, now.as_ref()));
        if written.is_some_and(|written| look.is_empty() || squeezed(&written) == squeezed(look)) {
            continue;
        }
        if look.is_empty() {
            scene.wears.set(who, None);
            continue;
        }
        match names::look(table.board, &who, look) {
            Ok(look) => scene.wears.set(who, look),
            Err(what) => wrong.push(Wrong::at(row.number, LOOK.name, what)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::grid::ROWS;
    use super::*;

    #[test]
    fn lengths_are_read_as_hands_and_spreadsheets_write_them() {
        for (text, length) in [("1 3/8", 11), ("3/8", 3), ("2", 16), ("1.375", 11), ("0.5", 4), ("0", 0)] {
            assert_eq!(pages(text).map(Eighths::get), Ok(length), "{text}");
        }
        for text in ["two", "1.3", "-1", "1e9", "99999999999", "inf", "."] {
            assert!(pages(text).is_err(), "{text}");
        }
        assert_eq!(
            pages("two").unwrap_err(),
            "`two` is no page count: expected pages and eighths such as `1 3/8`, `3/8` or `2`"
        );
        assert_eq!(eighths("11").map(Eighths::get), Ok(11));
        assert!(eighths("4000000000").is_err() && eighths("1 3/8").is_err());
    }

    #[test]
    fn as_many_scenes_as_a_table_can_have_are_placed() {
        let scene =
            |number: usize, letter: &str| Scene::numbered(format!("{number}{letter}").parse().unwrap());
        let there: Vec<Arc<Scene>> = (1..=ROWS).map(|number| Arc::new(scene(number, ""))).collect();
        let mut order = Order::of(&there);
        for number in 1..=ROWS {
            order.take(scene(number, ""));
            order.take(scene(number, "A"));
        }
        let scenes = order.scenes();
        let numbers: Vec<String> =
            scenes.iter().skip(2 * ROWS - 3).map(|scene| scene.number.to_string()).collect();
        assert_eq!(
            (scenes.len(), numbers),
            (2 * ROWS, ["19999A", "20000", "20000A"].map(str::to_owned).to_vec())
        );
    }

    #[test]
    fn places_and_lights_are_read_however_they_are_pointed() {
        assert_eq!(
            [place("INT."), place("i/e"), place("Exterior")],
            [Ok(Place::Inside), Ok(Place::Both), Ok(Place::Outside)]
        );
        assert_eq!(
            [light("D"), light("NIGHT"), light("dawn")],
            [Ok(Light::Day), Ok(Light::Night), Ok(Light::Dawn)]
        );
        assert!(place("sea").is_err() && light("noon").is_err());
    }
}
