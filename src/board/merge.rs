//! Three-way merge of one record, field by field.
//!
//! A record is seen as a tree of named fields. A field that one side changed takes that side; lists of plain words
//! (folded outfits, threads, tags) are merged item by item, so that two people may fold into one look at the same
//! time; a field that both sides changed differently is a clash.

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
            other => other.to_string(),
        }
    }
}

/// Merges `ours` and `theirs`, both made from `base`. With `side`, fields that both changed take that side.
pub fn by_field<T>(base: &T, ours: &T, theirs: &T, side: Option<Side>) -> Merged<T>
where
    T: Serialize + DeserializeOwned + PartialEq,
{
    let tree = |record: &T| serde_json::to_value(record).unwrap_or_default();
    let mut clashes = Vec::new();
    let their_tree = tree(theirs);
    let merged = merge("", tree(base), tree(ours), their_tree.clone(), side, &mut clashes);
    match serde_json::from_value(merged) {
        Ok(value) => Merged { value, clashes },
        Err(_) => {
            // Fields that fit one by one may not fit together (a field that is required and was half taken away):
            // then it is the whole record that clashes.
            clashes.push(FieldClash {
                field: "the whole record".to_owned(),
                base: tree(base),
                ours: tree(ours),
                theirs: their_tree.clone(),
            });
            let kept = if side == Some(Side::Ours) { tree(ours) } else { their_tree };
            match (serde_json::from_value(kept), side) {
                (Ok(value), Some(_)) => Merged { value, clashes: Vec::new() },
                (Ok(value), None) => Merged { value, clashes },
                // A record always reads back from its own tree; were that ever untrue, keep the base.
                (Err(_), _) => Merged { value: reread(base), clashes },
            }
        }
    }
}

fn reread<T: Serialize + DeserializeOwned>(record: &T) -> T {
    let tree = serde_json::to_value(record).unwrap_or_default();
    #[expect(
        clippy::expect_used,
        reason = "records derive both directions; the property test in this file holds it"
    )]
    serde_json::from_value(tree).expect("a record reads back from its own tree")
}

fn merge(
    field: &str,
    base: Value,
    ours: Value,
    theirs: Value,
    side: Option<Side>,
    clashes: &mut Vec<FieldClash>,
) -> Value {
    if ours == theirs || ours == base {
        return theirs;
    }
    if theirs == base {
        return ours;
    }
    match (base, ours, theirs) {
        (Value::Object(base), Value::Object(ours), Value::Object(theirs)) => {
            Value::Object(merge_objects(field, base, ours, theirs, side, clashes))
        }
        (base, Value::Array(ours), Value::Array(theirs)) if all_plain(&ours) && all_plain(&theirs) => {
            let base = match base {
                Value::Array(base) => base,
                _ => Vec::new(),
            };
            match merge_lists(&base, &ours, &theirs) {
                Some(list) => Value::Array(list),
                None => {
                    clash(field, Value::Array(base), Value::Array(ours), Value::Array(theirs), side, clashes)
                }
            }
        }
        (base, ours, theirs) => clash(field, base, ours, theirs, side, clashes),
    }
}

fn clash(
    field: &str,
    base: Value,
    ours: Value,
    theirs: Value,
    side: Option<Side>,
    clashes: &mut Vec<FieldClash>,
) -> Value {
    match side {
        Some(Side::Ours) => ours,
        Some(Side::Theirs) => theirs,
        None => {
            clashes.push(FieldClash { field: field.to_owned(), base, ours, theirs: theirs.clone() });
            theirs
        }
    }
}

fn merge_objects(
    field: &str,
    mut base: Map<String, Value>,
    mut ours: Map<String, Value>,
    mut theirs: Map<String, Value>,
    side: Option<Side>,
    clashes: &mut Vec<FieldClash>,
) -> Map<String, Value> {
    // Theirs lead, for the order; what only we have comes after. An absent key is told from a null one: in a scene,
    // "present, no look yet" is a null and "not in the scene" is no key.
    let keys: Vec<String> =
        theirs.keys().chain(ours.keys().filter(|key| !theirs.contains_key(*key))).cloned().collect();
    let mut merged = Map::new();
    for key in keys {
        let name = if field.is_empty() { key.clone() } else { format!("{field}.{key}") };
        let (was, our, their) = (base.remove(&key), ours.remove(&key), theirs.remove(&key));
        let value = if our == their || our == was {
            their
        } else if their == was {
            our
        } else {
            match (was, our, their) {
                (was, Some(our), Some(their)) => {
                    Some(merge(&name, was.unwrap_or_default(), our, their, side, clashes))
                }
                (was, our, their) => match side {
                    Some(Side::Ours) => our,
                    Some(Side::Theirs) => their,
                    None => {
                        clashes.push(FieldClash {
                            field: name,
                            base: was.unwrap_or_default(),
                            ours: our.unwrap_or_default(),
                            theirs: their.clone().unwrap_or_default(),
                        });
                        their
                    }
                },
            }
        };
        if let Some(value) = value {
            merged.insert(key, value);
        }
    }
    merged
}

fn all_plain(list: &[Value]) -> bool {
    list.iter().all(|item| item.is_string() || item.is_number())
}

/// Theirs, less what we took out, plus what we put in, each after the item that it follows with us.
/// `None` where both sides put the same items into another order, or an item stands twice.
fn merge_lists(base: &[Value], ours: &[Value], theirs: &[Value]) -> Option<Vec<Value>> {
    let twice = |list: &[Value]| list.iter().enumerate().any(|(at, item)| list[..at].contains(item));
    if twice(base) || twice(ours) || twice(theirs) {
        return None;
    }
    let common_order = |list: &[Value]| -> Vec<Value> {
        list.iter()
            .filter(|item| base.contains(item) && ours.contains(item) && theirs.contains(item))
            .cloned()
            .collect()
    };
    let (base_order, our_order, their_order) = (common_order(base), common_order(ours), common_order(theirs));
    if our_order != base_order {
        if their_order != base_order && our_order != their_order {
            return None;
        }
        // We moved items: ours lead, and theirs are put in.
        return merge_lists_leading(base, theirs, ours);
    }
    merge_lists_leading(base, ours, theirs)
}

/// `leading`, with what `other` did to `base` done to it as well.
fn merge_lists_leading(base: &[Value], other: &[Value], leading: &[Value]) -> Option<Vec<Value>> {
    let mut merged: Vec<Value> =
        leading.iter().filter(|item| other.contains(item) || !base.contains(item)).cloned().collect();
    for (at, item) in other.iter().enumerate() {
        if base.contains(item) || merged.contains(item) {
            continue;
        }
        let after =
            other[..at].iter().rev().find_map(|earlier| merged.iter().position(|have| have == earlier));
        merged.insert(after.map_or(0, |place| place + 1), item.clone());
    }
    Some(merged)
}
