//! Names that lead to no record, and names that two records have: where they stand, and which name was meant.

use std::collections::hash_map::Entry;
use std::collections::{BTreeMap, HashMap, HashSet};
use std::path::Path;

use super::fault::{Fault, FaultKind, Position};
use super::layout::BoardFile;
use super::nearest::nearest;
use super::sheet::Sheet;
use super::yaml;
use crate::board::rules::{self, Broken, Dangling, Step, Target};
use crate::board::{Board, BodyId, Character, Head, Id, RecordRef, SceneNumber};

/// Every fault between records. A reference to a record whose own file cannot be read is none: that file is.
pub(super) fn faults(board: &Board, folder: &Path, is_damaged: &dyn Fn(&BoardFile) -> bool) -> Vec<Fault> {
    let mut by_file: BTreeMap<BoardFile, Vec<Loose>> = BTreeMap::new();
    let mut guess = Guess::new(board);
    let mut doubled = None;
    for broken in rules::broken(board) {
        let loose = match broken {
            Broken::Dangling(dangling) if !is_damaged(&file_of(&dangling.to)) => guess.loose(dangling),
            Broken::SameNumber(number) => {
                let place = doubled.get_or_insert_with(|| second_places(board)).get(&number).copied();
                Loose::same_number(number, place.unwrap_or_default())
            }
            _ => continue,
        };
        by_file.entry(BoardFile::of(&loose.record)).or_default().push(loose);
    }
    let doubles = doubles(board.head());
    if !doubles.is_empty() {
        by_file.entry(BoardFile::Head).or_default().extend(doubles);
    }
    let mut effort = MOST_EFFORT;
    let mut all = Vec::new();
    for (file, mut loose) in by_file {
        let sheet = Sheet::read(folder, &file).ok();
        let text = sheet.as_ref().and_then(|sheet| sheet.text(&file).ok()).unwrap_or_default();
        let finder = Finder::new(text);
        let more = loose.len().saturating_sub(MOST_IN_A_FILE);
        loose.truncate(MOST_IN_A_FILE);
        all.extend(loose.into_iter().map(|loose| loose.fault(&file, &finder, &mut effort)));
        if more > 0 {
            let what = if more == 1 {
                "one more name leads nowhere".to_owned()
            } else {
                format!("{more} more names lead nowhere")
            };
            all.push(Fault::new(FaultKind::Dangling, file.name(), what).of(file.record()));
        }
    }
    all
}

/// The most faults that are named one by one in a file.
const MOST_IN_A_FILE: usize = 500;

/// The most bytes that are read again to find places; from then on faults have none. Ten thousand records of which
/// each has a fault take a third of it.
const MOST_EFFORT: usize = 32 << 20;

/// The most names for which the nearest is looked for among all.
const MOST_GUESSES: usize = 300;

/// Of each scene number, where its second scene stands.
fn second_places(board: &Board) -> HashMap<SceneNumber, usize> {
    let mut first = HashSet::new();
    let mut second = HashMap::new();
    for (place, scene) in board.scenes().enumerate() {
        if !first.insert(&scene.number) {
            second.entry(scene.number.clone()).or_insert(place);
        }
    }
    second
}

/// The first name in a record's own `text` that leads nowhere in `after` and is not there in `before`.
pub(super) fn new_dangling(before: &Board, after: &Board, record: &RecordRef, text: &str) -> Option<Fault> {
    let known: HashSet<Target> = of_record(before, record).map(|dangling| dangling.to).collect();
    let mut new = of_record(after, record).find(|dangling| !known.contains(&dangling.to))?;
    if matches!(record, RecordRef::Scene(_)) {
        // The text is the scene alone, and not the list that it stands in.
        new.path.remove(0);
    }
    let loose = Guess::new(after).loose(new);
    Some(loose.fault(&BoardFile::of(record), &Finder::new(text), &mut MOST_EFFORT.clone()))
}

fn of_record<'a>(board: &Board, record: &'a RecordRef) -> impl Iterator<Item = Dangling> + use<'a> {
    rules::dangling(board).into_iter().filter(move |dangling| dangling.from == *record)
}

/// A fault that has no place yet.
struct Loose {
    kind: FaultKind,
    record: RecordRef,
    path: Vec<Step>,
    what: String,
    hint: String,
}

impl Loose {
    fn same_number(number: SceneNumber, place: usize) -> Self {
        Self {
            kind: FaultKind::Twice,
            path: vec![Step::At(place), Step::Key("scene".to_owned())],
            what: format!("two scenes have the number {number}"),
            hint: "give one of them another number, such as one with a letter".to_owned(),
            record: RecordRef::Scene(number),
        }
    }

    fn fault(self, file: &BoardFile, finder: &Finder<'_>, effort: &mut usize) -> Fault {
        Fault::new(self.kind, file.name(), self.what)
            .at(finder.find(&self.path, effort))
            .hint(self.hint)
            .of(self.record)
    }
}

/// Guesses which names were meant.
struct Guess<'a> {
    board: &'a Board,
    made: HashMap<Target, Option<String>>,
}

impl<'a> Guess<'a> {
    fn new(board: &'a Board) -> Self {
        Self { board, made: HashMap::new() }
    }

    fn loose(&mut self, dangling: Dangling) -> Loose {
        let Dangling { from, path, to } = dangling;
        let enough = self.made.len() >= MOST_GUESSES;
        let board = self.board;
        let near = match self.made.entry(to.clone()) {
            Entry::Occupied(made) => made.get().clone(),
            Entry::Vacant(_) if enough => None,
            Entry::Vacant(slot) => slot.insert(near(board, &to)).clone(),
        };
        Loose {
            kind: FaultKind::Dangling,
            record: from,
            path,
            what: format!("there is no {to}"),
            hint: near.map_or_else(|| where_to_add(&to), |near| format!("did you mean `{near}`?")),
        }
    }
}

/// Periods, characters, threads or bodies that have one name.
fn doubles(head: &Head) -> Vec<Loose> {
    let listed = |list: &'static str, ids: Vec<&str>| -> Vec<(Vec<Step>, String)> {
        let way = |at| vec![Step::Key(list.to_owned()), Step::At(at), Step::Key("id".to_owned())];
        ids.into_iter().enumerate().map(|(at, id)| (way(at), id.to_owned())).collect()
    };
    let bodies = head.characters.iter().enumerate().flat_map(|(who, character)| {
        let way = move |at| {
            let list = [Step::Key("characters".to_owned()), Step::At(who), Step::Key("bodies".to_owned())];
            list.into_iter().chain([Step::At(at), Step::Key("id".to_owned())]).collect()
        };
        character.bodies.iter().enumerate().map(move |(at, body)| (way(at), body.id.to_string()))
    });
    let lists = [
        ("periods", listed("periods", head.periods.iter().map(|period| period.id.as_str()).collect())),
        ("characters", listed("characters", head.characters.iter().map(|who| who.id.as_str()).collect())),
        ("threads", listed("threads", head.threads.iter().map(|thread| thread.id.as_str()).collect())),
        ("bodies", bodies.collect()),
    ];
    let mut found = Vec::new();
    for (what, ids) in lists {
        let mut seen = HashSet::new();
        for (path, id) in ids.into_iter().filter(|(_, id)| !seen.insert(id.clone())) {
            found.push(Loose {
                kind: FaultKind::Twice,
                record: RecordRef::Head,
                path,
                what: format!("two {what} have the name `{id}`"),
                hint: "give one of them another name".to_owned(),
            });
        }
    }
    found.extend(taken_names(head));
    found
}

/// Bodies that are called as a character whose they are not: who has no body of their own wears by their own name.
fn taken_names(head: &Head) -> Vec<Loose> {
    let mut found = Vec::new();
    for (who, character) in head.characters.iter().enumerate() {
        for (at, body) in character.bodies.iter().enumerate() {
            let is_taken =
                |other: &&Character| other.id.as_str() == body.id.as_str() && other.id != character.id;
            if let Some(other) = head.characters.iter().find(is_taken) {
                let key = |name: &str| Step::Key(name.to_owned());
                found.push(Loose {
                    kind: FaultKind::Twice,
                    record: RecordRef::Head,
                    path: vec![key("characters"), Step::At(who), key("bodies"), Step::At(at), key("id")],
                    what: format!("a body of `{}` has the name of character `{}`", character.id, other.id),
                    hint: "give the body another name".to_owned(),
                });
            }
        }
    }
    found
}

/// The file in which the record would be.
fn file_of(target: &Target) -> BoardFile {
    match target {
        Target::Outfit(id) => BoardFile::Outfit(id.clone()),
        Target::Look(id) => BoardFile::Look(id.clone()),
        Target::Scene(_) => BoardFile::Scenes,
        Target::Cloth(id) => BoardFile::Cloth(id.clone()),
        Target::Action(_) => BoardFile::Practice,
        Target::Character(_) | Target::Period(_) | Target::Thread(_) => BoardFile::Head,
        Target::Wearer(_) | Target::Original(_) => BoardFile::Head,
    }
}

fn where_to_add(target: &Target) -> String {
    match target {
        Target::Outfit(id) => format!("add outfits/{id}.yaml, or take the name out"),
        Target::Look(id) => format!("add looks/{id}.yaml, or take the name out"),
        Target::Scene(_) => "add it to scenes.yaml, or take the number out".to_owned(),
        Target::Cloth(id) => format!("add cloths/{id}.yaml, or take the name out"),
        Target::Action(_) => "add it to `actions` in practice.yaml, or take the name out".to_owned(),
        Target::Wearer(_) => {
            "add a performer or double to the character's `bodies` in board.yaml, or take the name out"
                .to_owned()
        }
        Target::Original(_) => {
            "add an original to the character's `bodies` in board.yaml, or take the name out".to_owned()
        }
        Target::Character(_) => "add it to `characters` in board.yaml, or take the name out".to_owned(),
        Target::Period(_) => "add it to `periods` in board.yaml, or take the name out".to_owned(),
        Target::Thread(_) => "add it to `threads` in board.yaml, or take the name out".to_owned(),
    }
}

/// The name of that kind which is most like it.
fn near(board: &Board, target: &Target) -> Option<String> {
    let head = board.head();
    let records = board.records();
    match target {
        Target::Outfit(id) => nearest_id(id, records.outfits.keys()),
        Target::Look(id) => nearest_id(id, records.looks.keys()),
        Target::Character(id) => nearest_id(id, head.characters.iter().map(|character| &character.id)),
        Target::Period(id) => nearest_id(id, head.periods.iter().map(|period| &period.id)),
        Target::Thread(id) => nearest_id(id, head.threads.iter().map(|thread| &thread.id)),
        Target::Cloth(id) => nearest_id(id, records.cloths.keys()),
        Target::Action(id) => nearest_id(id, board.practice().actions.iter().map(|one| &one.action)),
        Target::Wearer(id) => {
            let own: Vec<BodyId> = head.characters.iter().map(Character::wearer).collect();
            nearest_id(id, own.iter().chain(bodies(head)).filter(|body| board.may_wear(body)))
        }
        Target::Original(id) => nearest_id(id, bodies(head).filter(|body| !board.may_wear(body))),
        Target::Scene(number) => {
            // Another number is another scene; but a letter behind it is soon forgotten or one too many.
            let digits = |number: &SceneNumber| -> String {
                number.to_string().chars().filter(char::is_ascii_digit).collect()
            };
            let wanted = digits(number);
            let mut like = board.scenes().map(|scene| &scene.number).filter(|have| digits(have) == wanted);
            like.next().map(ToString::to_string)
        }
    }
}

fn bodies(head: &Head) -> impl Iterator<Item = &BodyId> {
    head.characters.iter().flat_map(|who| &who.bodies).map(|body| &body.id)
}

fn nearest_id<'a, K: 'a>(id: &Id<K>, valid: impl Iterator<Item = &'a Id<K>>) -> Option<String> {
    nearest(id.as_str(), valid.map(Id::as_str)).map(str::to_owned)
}

/// Finds places in one text. A list of many records is cut into its entries once, so that each place costs the
/// reading of one entry and not of the whole list.
struct Finder<'a> {
    text: &'a str,
    /// Lines before each entry, and the entry; empty where the text is no plain list.
    entries: Vec<(u32, &'a str)>,
}

impl<'a> Finder<'a> {
    fn new(text: &'a str) -> Self {
        let mut entries: Vec<(u32, usize)> = Vec::new();
        let mut at = 0;
        let mut plain = true;
        for (lines, line) in (0_u32..).zip(text.split_inclusive('\n')) {
            if line.starts_with("- ") || line.trim_end() == "-" {
                entries.push((lines, at));
            } else if !line.starts_with([' ', '#', '\r', '\n']) && line.trim_end() != "---" {
                plain = false;
            }
            at += line.len();
        }
        let ends = entries.iter().skip(1).map(|(_, at)| *at).chain([text.len()]);
        let cut = |((lines, at), end): (&(u32, usize), usize)| (*lines, &text[*at..end]);
        let entries = if plain { entries.iter().zip(ends).map(cut).collect() } else { Vec::new() };
        Self { text, entries }
    }

    /// The place at the end of a path, unless what would have to be read for it is more than the `effort` left.
    fn find(&self, path: &[Step], effort: &mut usize) -> Option<Position> {
        let mut locate = |text: &str, path: &[Step]| {
            *effort = effort.checked_sub(text.len())?;
            yaml::locate(text, path)
        };
        let Some((Step::At(at), rest)) = path.split_first() else { return locate(self.text, path) };
        let in_entry = self.entries.get(*at).and_then(|(lines, entry)| {
            let path: Vec<Step> = [Step::At(0)].into_iter().chain(rest.iter().cloned()).collect();
            let found = locate(entry, &path)?;
            Some(Position { line: found.line + lines, column: found.column })
        });
        in_entry.or_else(|| locate(self.text, path))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn path(place: usize, key: &str) -> Vec<Step> {
        vec![Step::At(place), Step::Key(key.to_owned())]
    }

    #[test]
    fn places_in_a_list_are_those_of_the_whole_text() {
        let text = "# scenes\n---\n- scene: 1\n  notes: |\n    - not an entry\n\n- scene: 2\n  period: war\n-\n  scene: 3\n";
        let finder = Finder::new(text);
        assert_eq!(finder.entries.len(), 3);
        for (place, key) in [(0, "scene"), (1, "period"), (2, "scene")] {
            assert_eq!(
                finder.find(&path(place, key), &mut 1_000),
                yaml::locate(text, &path(place, key)),
                "{place} {key}"
            );
            assert!(finder.find(&path(place, key), &mut 1_000).is_some());
        }
    }

    #[test]
    fn places_are_looked_for_only_as_long_as_that_is_little_work() {
        let finder = Finder::new("- scene: 1\n- scene: 2\n");
        let mut effort = 25;
        let mut find = |place| finder.find(&path(place, "scene"), &mut effort).is_some();
        assert_eq!([find(0), find(1), find(0)], [true, true, false]);
    }

    #[test]
    fn a_list_in_brackets_is_searched_as_a_whole() {
        let finder = Finder::new("[{scene: 1}, {scene: 2}]\n");
        assert_eq!(finder.find(&path(1, "scene"), &mut 1_000), Some(Position { line: 1, column: 22 }));
    }
}
