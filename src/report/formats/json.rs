//! JSON with stable keys: the columns' keys name the values of each row. Numbers are numbers (lengths in eighths of a
//! page and in minutes, cloth in metres, shares of which 1 is the whole), money is a decimal text so that no cent is lost, lists are lists, dates are EDTF, and what is empty is null.

use serde_json::{Map, Value, json};

use super::Text;
use crate::report::document::{Cell, Document, Table};
use crate::report::plain::Plain;

/// See the module.
#[derive(Clone, Copy, Debug)]
pub struct Json;

impl Text for Json {
    fn write(&self, document: &Document) -> String {
        let value = json!({
            "report": document.key,
            "title": document.title.as_str(),
            "subtitle": document.subtitle.as_str(),
            "notes": texts(&document.notes),
            "gaps": texts(&document.gaps),
            "cautions": texts(&document.cautions),
            "tables": document.tables.iter().map(table).collect::<Vec<_>>(),
        });
        format!("{value:#}\n")
    }
}

fn texts(all: &[Plain]) -> Vec<&str> {
    all.iter().map(Plain::as_str).collect()
}

fn table(table: &Table) -> Value {
    let columns: Vec<Value> = table
        .columns()
        .iter()
        .map(|column| json!({"key": column.key, "heading": column.heading.as_str(), "kind": column.kind.word()}))
        .collect();
    let row = |row: &Vec<Cell>| -> Map<String, Value> {
        table.columns().iter().map(|column| column.key.clone()).zip(row.iter().map(value)).collect()
    };
    let rows: Vec<_> = table.rows().iter().map(row).collect();
    let mut value = json!({"columns": columns, "rows": rows});
    if !table.key().is_empty() {
        value["table"] = table.key().into();
        value["title"] = table.title().as_str().into();
        value["reading"] = table.reading().as_str().into();
    }
    value
}

fn value(cell: &Cell) -> Value {
    match cell {
        Cell::Empty => Value::Null,
        Cell::Text(plain) => plain.as_str().into(),
        Cell::List(items) => texts(items).into(),
        Cell::Date(date) => date.to_string().into(),
        Cell::Number(number) => (*number).into(),
        Cell::Pages(length) => length.get().into(),
        Cell::Minutes(length) => length.minutes().into(),
        Cell::Share(share) => share.get().into(),
        Cell::Money(money) => money.to_string().into(),
        Cell::Metres(length) => (length.millimetres() / 1_000.0).into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::document::hostile;

    #[test]
    fn rows_are_objects_under_the_columns_keys_with_typed_values() {
        let read: Value = serde_json::from_str(&Json.write(&hostile())).unwrap();
        assert_eq!(read["report"], "scenes");
        assert_eq!(read["gaps"], json!(["2 files could not be read"]));
        let rows = read["tables"][0]["rows"].as_array().unwrap();
        assert_eq!(rows.len(), hostile().tables[0].rows().len());
        assert_eq!(
            rows[11],
            json!({"scene": "11A", "look": "\n=1", "dressing": ["=1", "collar up"],
                   "change": 11, "eighths": 11, "minutes": 1.375})
        );
        assert_eq!(rows[23]["look"], Value::Null);
    }

    #[test]
    fn keys_keep_the_order_of_the_columns() {
        let text = Json.write(&hostile());
        let first = |key: &str| text.find(&format!("\"{key}\": ")).unwrap();
        assert!(first("scene") < first("look") && first("look") < first("dressing"));
    }
}
