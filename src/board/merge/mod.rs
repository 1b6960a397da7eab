//! Three-way merge of one record, field by field.
//!
//! A record is seen as a tree of named fields. A field that one side changed takes that side; a field that both sides
//! changed differently is a clash. Most lists are more than one field, so that two people may work on one
//! record at the same time: lists of plain words (folded outfits, threads, tags) are merged item by item, and lists
//! whose items have a name (periods, characters, pieces, departures, shooting days, decisions, questions, measures,
//! versions, fittings …) are merged as if the names were fields. To a list of any other kind (evidence, raised limits) both may add; whoever changes or takes out an item
//! changes the list. A list in which an item stands twice is one field.

mod list;

use std::collections::{HashMap, HashSet};

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

use super::edit::Side;

/// What came of a merge.
#[derive(Debug)]
pub struct Merged<T> {
    /// The merged record; where it clashes, what stands there now.
    pub value: T,
    /// Fields that both sides changed, none if a side was to be taken.
    pub clashes: Vec<FieldClash>,
}

/// A field that both sides changed.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldClash {
    /// Its name, with dots between levels.
    pub field: String,
    /// What it was.
    pub base: Value,
    /// What we wanted.
    pub ours: Value,
    /// What stands there now.
    pub theirs: Value,
}

impl FieldClash {
    /// A whole record that one side took away and the other changed.
    pub fn whole<T: Serialize>(now: &T) -> Self {
        let theirs = serde_json::to_value(now).unwrap_or_default();
        Self { field: "removed here, changed there".to_owned(), base: Value::Null, ours: Value::Null, theirs }
    }

    /// A value in a few words.
    pub fn words(value: &Value) -> String {
        match value {
            Value::Null => "nothing".to_owned(),
            Value::String(text) => text.clone(),
            Value::Array(all) if all.iter().all(Value::is_string) => {
                all.iter().map(Self::words).collect::<Vec<_>>().join(", ")
            }
            other => other.to_string(),
        }
    }
}

/// Merges `ours` and `theirs`, both made from `base`. With `side`, fields that both changed take that side.
pub fn by_field<T>(base: &T, ours: &T, theirs: &T, side: Option<Side>) -> Merged<T>
where
    T: Serialize + DeserializeOwned + Clone + PartialEq,
{
    if ours == base || ours == theirs {
        return Merged { value: theirs.clone(), clashes: Vec::new() };
    }
    if theirs == base {
        return Merged { value: ours.clone(), clashes: Vec::new() };
    }
    let tree = |record: &T| serde_json::to_value(record).unwrap_or_default();
    let mut merge = Merge { side, clashes: Vec::new() };
    let field = Sides { base: Some(tree(base)), ours: Some(tree(ours)), theirs: Some(tree(theirs)) };
    let merged = merge.field("", field).unwrap_or_default();
    if let Ok(value) = serde_json::from_value(merged) {
        return Merged { value, clashes: merge.clashes };
    }
    // Fields that fit one by one may not fit together: then it is the whole record that clashes.
    let whole =
        FieldClash { field: WHOLE.to_owned(), base: tree(base), ours: tree(ours), theirs: tree(theirs) };
    match side {
        Some(Side::Ours) => Merged { value: ours.clone(), clashes: Vec::new() },
        Some(Side::Theirs) => Merged { value: theirs.clone(), clashes: Vec::new() },
        None => Merged { value: theirs.clone(), clashes: vec![whole] },
    }
}

/// The field of a clash that is about all of a record.
const WHOLE: &str = "as a whole";

/// One field as it was and as each side has it; `None` where the field is not there. That is told from a null: in a
/// scene, "present, no look yet" is a null and "not in the scene" is no field.
struct Sides {
    base: Option<Value>,
    ours: Option<Value>,
    theirs: Option<Value>,
}

impl Sides {
    /// Whether every side that has the field has a value of this kind, and two have it at all.
    fn all(&self, kind: impl Fn(&Value) -> bool) -> bool {
        let sides = [&self.base, &self.ours, &self.theirs];
        sides.iter().filter(|side| side.is_some()).count() > 1 && sides.into_iter().flatten().all(kind)
    }
}

struct Merge {
    side: Option<Side>,
    clashes: Vec<FieldClash>,
}

impl Merge {
    /// What becomes of a field; `None` where it goes.
    fn field(&mut self, name: &str, field: Sides) -> Option<Value> {
        if same(&field.ours, &field.theirs) || same(&field.ours, &field.base) {
            return field.theirs;
        }
        if same(&field.theirs, &field.base) {
            return field.ours;
        }
        // Empty maps and lists are left out of records, so one that is not there is an empty one.
        if field.all(Value::is_object) {
            let [base, ours, theirs] = [field.base, field.ours, field.theirs].map(fields);
            return Some(Value::Object(self.fields(name, base, ours, theirs)));
        }
        if field.all(Value::is_array) {
            let lists = [&field.base, &field.ours, &field.theirs].map(|side| items(side.as_ref()));
            if let Some(merged) = self.list(name, lists) {
                return Some(Value::Array(merged));
            }
        }
        self.clash(name, field)
    }

    fn clash(&mut self, name: &str, field: Sides) -> Option<Value> {
        match self.side {
            Some(Side::Ours) => field.ours,
            Some(Side::Theirs) => field.theirs,
            None => {
                self.clashes.push(FieldClash {
                    field: if name.is_empty() { WHOLE } else { name }.to_owned(),
                    base: field.base.unwrap_or_default(),
                    ours: field.ours.unwrap_or_default(),
                    theirs: field.theirs.clone().unwrap_or_default(),
                });
                field.theirs
            }
        }
    }

    /// Theirs lead, for the order; what only we have comes after.
    fn fields(
        &mut self,
        name: &str,
        mut base: Map<String, Value>,
        mut ours: Map<String, Value>,
        mut theirs: Map<String, Value>,
    ) -> Map<String, Value> {
        let added = ours.keys().filter(|key| !theirs.contains_key(*key));
        let keys: Vec<String> = theirs.keys().chain(added).cloned().collect();
        let mut merged = Map::new();
        for key in keys {
            let field =
                Sides { base: base.remove(&key), ours: ours.remove(&key), theirs: theirs.remove(&key) };
            if let Some(value) = self.field(&below(name, &key), field) {
                merged.insert(key, value);
            }
        }
        merged
    }

    /// What becomes of an item with a name. Unlike a map or list, one that is not there was taken away as a whole.
    fn item(&mut self, name: &str, item: Sides) -> Option<Value> {
        let taken_away = item.ours.is_none() || item.theirs.is_none();
        let untouched = same(&item.ours, &item.base) || same(&item.theirs, &item.base);
        if taken_away && !untouched { self.clash(name, item) } else { self.field(name, item) }
    }

    /// `None` where the lists can only be taken as a whole.
    fn list(&mut self, name: &str, lists: [&[Value]; 3]) -> Option<Vec<Value>> {
        let [base, ours, theirs] = lists;
        if lists.iter().all(|list| list.iter().all(is_plain)) {
            return list::merged(base, ours, theirs);
        }
        let has = |list: &[Value], name: Name| list.iter().all(|item| item.get(name.0).is_some());
        let Some(by) = NAMES.into_iter().find(|name| lists.iter().all(|list| has(list, *name))) else {
            let only_added = |list: &[Value]| base.iter().all(|item| list.contains(item));
            let both = only_added(ours) && only_added(theirs);
            return both.then(|| list::merged(base, ours, theirs)).flatten();
        };
        let names = |list: &[Value]| -> Vec<Value> { list.iter().map(|item| name_of(item, by)).collect() };
        let order = list::merged(&names(base), &names(ours), &names(theirs))?;
        let [in_base, in_ours, in_theirs] = lists.map(|list| by_name(list, by));
        // What one side took out and the other changed is not in the merged order, and has to be settled as well.
        let contested = [names(theirs), names(ours)].concat();
        let mut told = HashSet::new();
        let all = order.iter().chain(&contested).filter(|name| told.insert(*name));
        let item = |item_name: &Value| {
            let side = |list: &HashMap<Value, &Value>| list.get(item_name).map(|item| Value::clone(item));
            let item = Sides { base: side(&in_base), ours: side(&in_ours), theirs: side(&in_theirs) };
            self.item(&below(name, &FieldClash::words(item_name)), item)
        };
        Some(all.filter_map(item).collect())
    }
}

/// A field by which items of a list are told apart, and one that tells apart those of one name where they have it.
type Name = (&'static str, Option<&'static str>);

/// Those of the records that have such lists. An action has a version too, which others may have as well.
const NAMES: [Name; 14] = [
    ("id", None),
    ("name", None),
    ("detail", None),
    ("day", None),
    ("decision", None),
    ("question", None),
    ("measure", Some("piece")),
    ("action", Some("by")),
    ("version", None),
    ("to", None),
    ("cost", None),
    ("trial", None),
    ("caution", None),
    ("on", Some("wearer")),
];

fn name_of(item: &Value, (field, beside): Name) -> Value {
    match beside.and_then(|beside| item.get(beside)) {
        Some(beside) => Value::Array(vec![item[field].clone(), beside.clone()]),
        None => item[field].clone(),
    }
}

fn by_name(list: &[Value], by: Name) -> HashMap<Value, &Value> {
    list.iter().map(|item| (name_of(item, by), item)).collect()
}

fn below(name: &str, key: &str) -> String {
    if name.is_empty() { key.to_owned() } else { format!("{name}.{key}") }
}

fn fields(side: Option<Value>) -> Map<String, Value> {
    match side {
        Some(Value::Object(fields)) => fields,
        _ => Map::new(),
    }
}

fn items(side: Option<&Value>) -> &[Value] {
    side.and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

fn is_plain(item: &Value) -> bool {
    item.is_string() || item.is_number()
}

/// Whether two values are the same to the order of their fields, which `==` on maps does not see: the order in which
/// a scene names its characters is a person's, too.
fn same(one: &Option<Value>, other: &Option<Value>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => same_value(one, other),
        (None, None) => true,
        _ => false,
    }
}

fn same_value(one: &Value, other: &Value) -> bool {
    match (one, other) {
        (Value::Object(one), Value::Object(other)) => {
            one.len() == other.len() && one.iter().zip(other).all(|(a, b)| a.0 == b.0 && same_value(a.1, b.1))
        }
        (Value::Array(one), Value::Array(other)) => {
            one.len() == other.len() && one.iter().zip(other).all(|(a, b)| same_value(a, b))
        }
        (one, other) => one == other,
    }
}

#[cfg(test)]
mod tests;
