//! The tables of sheets as JSON, and the JSON Schema that describes them.

use super::book::Sheet;
use super::grid::Records;
use serde_json::{Map, Value, json};

/// The tables by sheet: each a list of rows, each row with the columns of the sheet's CSV. Every value is text, written as
/// in the CSV: ISO 8601 dates, plain numbers.
pub(super) fn tables(garden: &str, tables: &[(Sheet, Records)]) -> Value {
    let mut sheets = Map::new();
    for (sheet, records) in tables {
        let row = |row: &Vec<String>| -> Value {
            let cells = records.columns.iter().zip(row);
            Value::Object(cells.map(|(c, v)| ((*c).to_owned(), json!(v))).collect())
        };
        sheets.insert(sheet.word().to_owned(), records.rows.iter().map(row).collect());
    }
    json!({ "garden": garden, "sheets": sheets })
}

/// The JSON Schema (draft 2020-12) of such a file.
pub(super) fn schema(tables: &[(Sheet, Records)]) -> Value {
    let mut sheets = Map::new();
    for (sheet, records) in tables {
        let properties: Map<String, Value> =
            records.columns.iter().map(|c| ((*c).to_owned(), json!({ "type": "string" }))).collect();
        let table = json!({
            "description": sheet.about(),
            "type": "array",
            "items": {
                "type": "object",
                "properties": properties,
                "required": records.columns,
                "additionalProperties": false,
            },
        });
        sheets.insert(sheet.word().to_owned(), table);
    }
    let names: Vec<&String> = sheets.keys().collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Sheets of a garden",
        "type": "object",
        "properties": {
            "garden": { "type": "string" },
            "sheets": { "type": "object", "required": names, "properties": sheets },
        },
        "required": ["garden", "sheets"],
    })
}
