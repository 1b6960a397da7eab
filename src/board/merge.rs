//! Three-way merge of one record, field by field.
//!
//! A record is seen as a tree of named fields. A field that one side changed takes that side; a field that both sides
//! changed differently is a clash. Most lists are more than one field, so that two people may work on one
//! record at the same time: lists of plain words (folded outfits, threads, tags) are merged item by item, and lists
//! whose items have a name (periods, characters, pieces, departures, shooting days) are merged as if the names were
//! fields. To a list of any other kind (evidence, raised limits) both may add; whoever changes or takes out an item
//! changes the list. A list in which an item stands twice is one field.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

use super::edit::Side;
use super::merge_list;

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
            return merge_list::merged(base, ours, theirs);
        }
        let has = |list: &[Value], key: &str| list.iter().all(|item| item.get(key).is_some());
        let Some(key) = NAMES.into_iter().find(|key| lists.iter().all(|list| has(list, key))) else {
            let only_added = |list: &[Value]| base.iter().all(|item| list.contains(item));
            let both = only_added(ours) && only_added(theirs);
            return both.then(|| merge_list::merged(base, ours, theirs)).flatten();
        };
        let names = |list: &[Value]| -> Vec<Value> { list.iter().map(|item| item[key].clone()).collect() };
        let order = merge_list::merged(&names(base), &names(ours), &names(theirs))?;
        let find = |list: &[Value], name: &Value| list.iter().find(|item| item[key] == *name).cloned();
        // What one side took out and the other changed is not in the merged order, and has to be settled as well.
        let contested = theirs.iter().chain(ours).map(|item| &item[key]).filter(|name| !order.contains(name));
        let mut all = order.clone();
        for name in contested {
            if !all.contains(name) {
                all.push(name.clone());
            }
        }
        let item = |item_name: Value| {
            let item = Sides {
                base: find(base, &item_name),
                ours: find(ours, &item_name),
                theirs: find(theirs, &item_name),
            };
            self.item(&below(name, &FieldClash::words(&item_name)), item)
        };
        Some(all.into_iter().filter_map(item).collect())
    }
}

/// The fields by which items of a list are told apart, in the records that have such lists.
const NAMES: [&str; 4] = ["id", "name", "detail", "day"];

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
mod tests {
    use serde_json::json;

    use super::super::sample::read;
    use super::*;
    use crate::board::{Head, Look, Outfit, Scene, ShootDay};

    /// Three versions of a record, told by what they have beyond `usual`.
    fn versions<T: DeserializeOwned>(usual: &Value, told: [Value; 3]) -> [T; 3] {
        told.map(|more| {
            let mut tree = usual.clone();
            if let (Some(tree), Value::Object(more)) = (tree.as_object_mut(), more) {
                tree.extend(more);
            }
            read(tree)
        })
    }

    /// What becomes of a scene in which each side says who wears what.
    fn cast(base: Value, ours: Value, theirs: Value) -> Merged<Scene> {
        let wears = |wears| json!({"wears": wears});
        let [base, ours, theirs] = versions(&json!({"scene": 1}), [wears(base), wears(ours), wears(theirs)]);
        by_field(&base, &ours, &theirs, None)
    }

    fn worn(merged: &Merged<Scene>) -> Value {
        serde_json::to_value(&merged.value.wears).unwrap()
    }

    fn fields<T>(merged: &Merged<T>) -> Vec<&str> {
        merged.clashes.iter().map(|clash| clash.field.as_str()).collect()
    }

    #[test]
    fn present_without_a_look_is_not_absent() {
        let merged = cast(json!({"a": null}), json!({}), json!({"a": null, "b": null}));
        assert_eq!((worn(&merged), merged.clashes.len()), (json!({"b": null}), 0));
        let merged = cast(json!({}), json!({"a": null}), json!({"b": "x"}));
        assert_eq!((worn(&merged), merged.clashes.len()), (json!({"a": null, "b": "x"}), 0));
        let merged = cast(json!({"a": "x"}), json!({"a": null}), json!({}));
        assert_eq!((worn(&merged), fields(&merged)), (json!({}), vec!["wears.a"]));
    }

    #[test]
    fn the_last_that_is_taken_out_of_a_map_is_taken_out_of_the_others_as_well() {
        let merged = cast(json!({"a": "x"}), json!({}), json!({"a": "x", "b": "y"}));
        assert_eq!((worn(&merged), merged.clashes.len()), (json!({"b": "y"}), 0));
        let merged = cast(json!({"a": "x", "b": "y"}), json!({"b": "y"}), json!({"a": "x"}));
        assert_eq!((worn(&merged), merged.clashes.len()), (json!({}), 0));
    }

    #[test]
    fn the_order_of_a_map_is_a_change_too() {
        let (base, turned) = (json!({"a": "x", "b": "y"}), json!({"b": "y", "a": "x"}));
        let keys = |merged: &Merged<Scene>| {
            merged.value.wears.keys().map(ToString::to_string).collect::<Vec<_>>().join(" ")
        };
        assert_eq!(keys(&cast(base.clone(), turned.clone(), base.clone())), "b a");
        assert_eq!(keys(&cast(base.clone(), turned.clone(), json!({"a": "x", "b": "z"}))), "a b");
        let [base, ours, theirs] = versions::<Scene>(
            &json!({"scene": 1}),
            [json!({"wears": base}), json!({"wears": turned}), json!({"wears": base, "notes": "more"})],
        );
        assert_eq!(keys(&by_field(&base, &ours, &theirs, None)), "b a");
    }

    #[test]
    fn what_is_folded_here_and_there_is_folded_in_both_even_where_one_emptied_the_look() {
        let usual = json!({"title": "L", "character": "a", "treatment": "copy", "base": "o"});
        let folded = |ids: &[&str]| json!({"folded": ids});
        for (base, ours, theirs, expected) in [
            (vec!["p"], vec![], vec!["p", "q"], vec!["q"]),
            (vec![], vec!["p"], vec!["q"], vec!["p", "q"]),
            (vec!["p", "q"], vec!["q"], vec!["p"], vec![]),
        ] {
            let [base, ours, theirs] =
                versions::<Look>(&usual, [folded(&base), folded(&ours), folded(&theirs)]);
            let merged = by_field(&base, &ours, &theirs, None);
            let mut ids: Vec<&str> = merged.value.folded.iter().map(|id| id.as_str()).collect();
            ids.sort_unstable();
            assert_eq!((ids, merged.clashes.len()), (expected, 0));
        }
    }

    #[test]
    fn words_in_another_order_on_both_sides_and_words_that_stand_twice_are_one_field() {
        let usual = json!({"title": "O", "character": "a"});
        let tags = |words: &[&str]| json!({"tags": words});
        for (base, ours, theirs) in [
            (vec!["a", "b", "c"], vec!["b", "a", "c"], vec!["a", "c", "b"]),
            (vec!["a", "a"], vec!["a"], vec!["a", "a", "b"]),
        ] {
            let [base, ours, theirs] = versions::<Outfit>(&usual, [tags(&base), tags(&ours), tags(&theirs)]);
            let merged = by_field(&base, &ours, &theirs, None);
            assert_eq!((fields(&merged), &merged.value), (vec!["tags"], &theirs));
            assert_eq!(by_field(&base, &ours, &theirs, Some(Side::Ours)).value, ours);
        }
    }

    #[test]
    fn words_moved_on_one_side_stay_moved() {
        let usual = json!({"title": "O", "character": "a"});
        let tags = |words: &[&str]| json!({"tags": words});
        let told = [tags(&["a", "b", "c"]), tags(&["c", "a", "b"]), tags(&["a", "b", "d", "c"])];
        let [base, ours, theirs] = versions::<Outfit>(&usual, told);
        assert_eq!(by_field(&base, &ours, &theirs, None).value.tags, ["c", "a", "b", "d"]);
        assert_eq!(by_field(&base, &theirs, &ours, None).value.tags, ["c", "a", "b", "d"]);
    }

    #[test]
    fn a_thread_added_here_and_one_added_there_are_both_declared() {
        let usual = json!({"shirr": 1, "id": "b", "title": "B"});
        let threads = |ids: &[&str]| json!({"threads": ids.iter().map(|id| json!({"id": id, "title": id})).collect::<Vec<_>>()});
        let told = [threads(&["t", "u"]), threads(&["t", "u", "v"]), threads(&["w", "t"])];
        let [base, ours, theirs] = versions::<Head>(&usual, told);
        let merged = by_field(&base, &ours, &theirs, None);
        let ids: Vec<&str> = merged.value.threads.iter().map(|thread| thread.id.as_str()).collect();
        assert_eq!((ids, merged.clashes.len()), (vec!["w", "t", "v"], 0));
    }

    #[test]
    fn two_pieces_changed_by_two_hands_are_both_changed_and_one_piece_clashes_in_its_field() {
        let usual = json!({"title": "O", "character": "a"});
        let pieces = |coat: &str, hat: &str| json!({"pieces": [{"name": "coat", "cloth": coat}, {"name": "hat", "cloth": hat}]});
        let [base, ours, theirs, both] =
            [("wool", "felt"), ("serge", "felt"), ("wool", "straw"), ("serge", "straw")].map(
                |(coat, hat)| {
                    versions::<Outfit>(&usual, [pieces(coat, hat), json!({}), json!({})])[0].clone()
                },
            );
        let merged = by_field(&base, &ours, &theirs, None);
        assert_eq!((&merged.value, merged.clashes.len()), (&both, 0));
        let clash = by_field(
            &base,
            &ours,
            &versions(&usual, [pieces("silk", "felt"), json!({}), json!({})])[0],
            None,
        );
        assert_eq!(fields(&clash), ["pieces.coat.cloth"]);
    }

    #[test]
    fn a_piece_taken_out_here_and_changed_there_is_a_choice() {
        let usual = json!({"title": "O", "character": "a"});
        let told = [
            json!({"pieces": [{"name": "coat"}, {"name": "hat"}]}),
            json!({"pieces": [{"name": "hat"}]}),
            json!({"pieces": [{"name": "coat", "cloth": "wool"}, {"name": "hat"}]}),
        ];
        let [base, ours, theirs] = versions::<Outfit>(&usual, told);
        assert_eq!(fields(&by_field(&base, &ours, &theirs, None)), ["pieces.coat"]);
        let names = |side| {
            let pieces = by_field(&base, &ours, &theirs, Some(side)).value.pieces;
            pieces.into_iter().map(|piece| piece.name + " " + &piece.cloth).collect::<Vec<_>>()
        };
        assert_eq!(names(Side::Ours), ["hat "]);
        assert_eq!(names(Side::Theirs), ["hat ", "coat wool"]);
    }

    #[test]
    fn shooting_days_are_merged_day_by_day() {
        let days = |first: &[u32], second: &[u32]| -> Vec<ShootDay> {
            read(json!([{"day": 1, "scenes": first}, {"day": 2, "scenes": second}]))
        };
        let merged = by_field(&days(&[1], &[2]), &days(&[1, 3], &[2]), &days(&[1], &[]), None);
        assert_eq!((merged.value, merged.clashes), (days(&[1, 3], &[]), vec![]));
    }

    #[test]
    fn a_clash_says_all_three_sides_and_the_way_to_the_field() {
        let usual = json!({"shirr": 1, "id": "b", "title": "B"});
        let looks = |looks: u32| json!({"budget": {"looks": looks}});
        let [base, ours, theirs] = versions::<Head>(&usual, [looks(4), looks(5), looks(6)]);
        let merged = by_field(&base, &ours, &theirs, None);
        let expected =
            FieldClash { field: "budget.looks".to_owned(), base: json!(4), ours: json!(5), theirs: json!(6) };
        assert_eq!((merged.clashes, merged.value), (vec![expected], theirs));
        assert_eq!(
            ["nothing", "x", "4"],
            [json!(null), json!("x"), json!(4)]
                .map(|value| FieldClash::words(&value))
                .each_ref()
                .map(String::as_str)
        );
    }

    #[test]
    fn evidence_found_here_and_there_is_kept_and_a_changed_one_is_a_choice() {
        let usual = json!({"title": "O", "character": "a"});
        let sources = |sources: &[&str]| json!({"evidence": sources.iter().map(|source| json!({"kind": "film", "source": source})).collect::<Vec<_>>()});
        let merged = |ours: &[&str], theirs: &[&str]| {
            let [base, ours, theirs] =
                versions::<Outfit>(&usual, [sources(&["a"]), sources(ours), sources(theirs)]);
            let merged = by_field(&base, &ours, &theirs, None);
            let sources =
                merged.value.evidence.into_iter().map(|evidence| evidence.source).collect::<String>();
            (sources, merged.clashes.into_iter().map(|clash| clash.field).collect::<Vec<_>>())
        };
        assert_eq!(merged(&["a", "b"], &["a", "c"]), ("abc".to_owned(), vec![]));
        assert_eq!(merged(&["a", "b"], &["x"]), ("x".to_owned(), vec!["evidence".to_owned()]));
    }
}
