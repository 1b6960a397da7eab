//! Boards for tests, written as short as their point allows.
//!
//! Two periods (`early` 1911/1924, `late` 1925/1930) and two characters (`ada`, `ben`) are there unless the head says
//! otherwise; an outfit and a look are `ada`'s, are called by their id, and a look is a copy.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::de::DeserializeOwned;
use serde_json::{Map, Value, json};

use super::{Board, Id, Records};

pub(crate) fn board(told: Value) -> Board {
    let head = json!({
        "shirr": 1,
        "id": "sample",
        "title": "Sample",
        "periods": [
            {"id": "early", "title": "Early", "span": "1911/1924"},
            {"id": "late", "title": "Late", "span": "1925/1930"},
        ],
        "characters": [{"id": "ada", "name": "Ada"}, {"id": "ben", "name": "Ben"}],
    });
    let head = over(head, told.get("head").cloned().unwrap_or_else(|| json!({})));
    Board::new(Records {
        head: Arc::new(read(head)),
        outfits: by_id(&told["outfits"], &json!({"character": "ada"})),
        looks: by_id(&told["looks"], &json!({"character": "ada", "treatment": "copy"})),
        scenes: list(&told["scenes"]).into_iter().map(Arc::new).collect(),
        schedule: Arc::new(list(&told["schedule"])),
        cloths: by_id(&told["cloths"], &json!({})),
        practice: Arc::new(told.get("practice").cloned().map(read).unwrap_or_default()),
        meetings: by_id(&told["meetings"], &json!({})),
    })
}

fn read<T: DeserializeOwned>(value: Value) -> T {
    serde_json::from_value(value).expect("a test's record")
}

fn over(mut base: Value, more: Value) -> Value {
    if let (Value::Object(base), Value::Object(more)) = (&mut base, more) {
        base.extend(more);
    }
    base
}

fn by_id<K, T: DeserializeOwned>(records: &Value, usual: &Value) -> BTreeMap<Id<K>, Arc<T>> {
    let none = Map::new();
    let records = records.as_object().unwrap_or(&none);
    records
        .iter()
        .map(|(id, record)| {
            let named = over(json!({"title": id}), usual.clone());
            (id.parse().expect("a test's id"), Arc::new(read(over(named, record.clone()))))
        })
        .collect()
}

fn list<T: DeserializeOwned>(records: &Value) -> Vec<T> {
    records.as_array().into_iter().flatten().cloned().map(read).collect()
}
