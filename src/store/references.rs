//! Names that lead to no record, and names that two records have: where they stand, and which name was meant.

use std::collections::{BTreeMap, HashSet};
use std::path::Path;

use super::fault::{Fault, FaultKind, Position};
use super::layout::BoardFile;
use super::nearest::nearest;
use super::sheet::Sheet;
use super::yaml;
use crate::board::rules::{self, Broken, Dangling, Step, Target};
use crate::board::{Board, Head, Id, RecordRef};

/// Every fault between records. A reference to a record whose own file cannot be read is none: that file is.
pub(super) fn faults(board: &Board, folder: &Path, is_damaged: &dyn Fn(&BoardFile) -> bool) -> Vec<Fault> {
    let mut by_file: BTreeMap<BoardFile, Vec<Loose>> = BTreeMap::new();
    for broken in rules::broken(board) {
        let found = match broken {
            Broken::Dangling(dangling) if !is_damaged(&file_of(&dangling.to)) => {
                Some((dangling.from.clone(), Loose::dangling(board, dangling)))
            }
            Broken::SameNumber(number) => {
                let mut places = board.scenes().enumerate().filter(|(_, scene)| scene.number == number);
                places.nth(1).map(|(place, _)| {
                    let path = vec![Step::At(place), Step::Key("scene".to_owned())];
                    let what = format!("two scenes have the number {number}");
                    let hint = "give one of them another number, such as one with a letter".to_owned();
                    (RecordRef::Scene(number), Loose { path, what, hint: Some(hint), ..Loose::twice() })
                })
            }
            _ => None,
        };
        if let Some((record, loose)) = found {
            by_file.entry(BoardFile::of(&record)).or_default().push(Loose { record: Some(record), ..loose });
        }
    }
    let doubles = doubles(board.head());
    if !doubles.is_empty() {
        by_file.entry(BoardFile::Head).or_default().extend(doubles);
    }
    let in_file = |(file, loose): (BoardFile, Vec<Loose>)| {
        let sheet = Sheet::read(folder, &file).ok();
        let finder = Finder::new(sheet.as_ref().and_then(|sheet| sheet.text(&file).ok()).unwrap_or_default());
        loose.into_iter().map(|loose| loose.fault(&file, &finder)).collect::<Vec<_>>()
    };
    by_file.into_iter().flat_map(in_file).collect()
}

/// The first name in a record's own `text` that leads nowhere in `after` and is not there in `before`.
pub(super) fn new_dangling(before: &Board, after: &Board, record: &RecordRef, text: &str) -> Option<Fault> {
    let known: HashSet<Target> = of_record(before, record).map(|dangling| dangling.to).collect();
    let mut new = of_record(after, record).find(|dangling| !known.contains(&dangling.to))?;
    if matches!(record, RecordRef::Scene(_)) {
        // The text is the scene alone, and not the list that it stands in.
        new.path.remove(0);
    }
    let loose = Loose { record: Some(record.clone()), ..Loose::dangling(after, new) };
    Some(loose.fault(&BoardFile::of(record), &Finder::new(text)))
}

fn of_record<'a>(board: &Board, record: &'a RecordRef) -> impl Iterator<Item = Dangling> + use<'a> {
    rules::dangling(board).into_iter().filter(move |dangling| dangling.from == *record)
}

/// A fault that has no place yet.
struct Loose {
    kind: FaultKind,
    record: Option<RecordRef>,
    path: Vec<Step>,
    what: String,
    hint: Option<String>,
}

impl Loose {
    fn twice() -> Self {
        Self { kind: FaultKind::Twice, record: None, path: Vec::new(), what: String::new(), hint: None }
    }

    fn dangling(board: &Board, dangling: Dangling) -> Self {
        let near = near(board, &dangling.to).map(|near| format!("did you mean `{near}`?"));
        Self {
            kind: FaultKind::Dangling,
            record: None,
            path: dangling.path,
            what: format!("there is no {}", dangling.to),
            hint: near.or_else(|| Some(where_to_add(&dangling.to))),
        }
    }

    fn fault(self, file: &BoardFile, finder: &Finder<'_>) -> Fault {
        let fault = Fault::new(self.kind, file.name(), self.what).at(finder.find(&self.path)).of(self.record);
        match self.hint {
            Some(hint) => fault.hint(hint),
            None => fault,
        }
    }
}

/// Periods, characters or threads that have one name.
fn doubles(head: &Head) -> Vec<Loose> {
    let mut found = Vec::new();
    let periods: Vec<&str> = head.periods.iter().map(|period| period.id.as_str()).collect();
    let characters: Vec<&str> = head.characters.iter().map(|character| character.id.as_str()).collect();
    let threads: Vec<&str> = head.threads.iter().map(|thread| thread.id.as_str()).collect();
    for (list, what, ids) in [
        ("periods", "periods", periods),
        ("characters", "characters", characters),
        ("threads", "threads", threads),
    ] {
        let mut seen = HashSet::new();
        for (at, id) in ids.into_iter().enumerate().filter(|(_, id)| !seen.insert(*id)) {
            found.push(Loose {
                record: Some(RecordRef::Head),
                path: vec![Step::Key(list.to_owned()), Step::At(at), Step::Key("id".to_owned())],
                what: format!("two {what} have the name `{id}`"),
                hint: Some("give one of them another name".to_owned()),
                ..Loose::twice()
            });
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
        Target::Character(_) | Target::Period(_) | Target::Thread(_) => BoardFile::Head,
    }
}

fn where_to_add(target: &Target) -> String {
    match target {
        Target::Outfit(id) => format!("add outfits/{id}.yaml, or take the name out"),
        Target::Look(id) => format!("add looks/{id}.yaml, or take the name out"),
        Target::Scene(_) => "add it to scenes.yaml, or take the number out".to_owned(),
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
        Target::Scene(number) => {
            let numbers: Vec<String> = board.scenes().map(|scene| scene.number.to_string()).collect();
            nearest(&number.to_string(), numbers.iter().map(String::as_str)).map(str::to_owned)
        }
    }
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

    fn find(&self, path: &[Step]) -> Option<Position> {
        let Some((Step::At(at), rest)) = path.split_first() else { return yaml::locate(self.text, path) };
        let in_entry = self.entries.get(*at).and_then(|(lines, entry)| {
            let path: Vec<Step> = [Step::At(0)].into_iter().chain(rest.iter().cloned()).collect();
            let found = yaml::locate(entry, &path)?;
            Some(Position { line: found.line + lines, column: found.column })
        });
        in_entry.or_else(|| yaml::locate(self.text, path))
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
                finder.find(&path(place, key)),
                yaml::locate(text, &path(place, key)),
                "{place} {key}"
            );
            assert!(finder.find(&path(place, key)).is_some());
        }
    }

    #[test]
    fn a_list_in_brackets_is_searched_as_a_whole() {
        let finder = Finder::new("[{scene: 1}, {scene: 2}]\n");
        assert_eq!(finder.find(&path(1, "scene")), Some(Position { line: 1, column: 22 }));
    }
}
