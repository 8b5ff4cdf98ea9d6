//! The JSON Schema (draft 2020-12) of the design file, for editors that complete and check.

use super::key::{Key, Kind, LONGEST_LABEL, LONGEST_NAME, LONGEST_TEXT, Presence, Table};
use super::keys::Design;
use super::opening::OPEN;
use super::shelf::SHELF;
use super::units::{ABSOLUTE, Dimension, GAUGE};
use crate::catalogue::Catalogue;
use serde_json::{Map, Value, json};

/// The schema of the design file. It knows names, kinds and units; ranges are in the descriptions, since a quantity is
/// text.
pub fn schema() -> Value {
    let tables: Map<String, Value> =
        Design::TABLES.iter().map(|table| (table.name.into(), table_schema(table))).collect();
    let required: Vec<&str> =
        Design::TABLES.iter().filter(|t| needs(t.keys)).map(|table| table.name).collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Design file of swept",
        "description": "A small hot-air engine. Every quantity is text with its unit.",
        "type": "object",
        "properties": tables,
        "required": required,
        "additionalProperties": false,
        // Names of the user's own are known to the shelf file alone; without one only the usual names are right.
        "if": { "properties": { "workshop": { "required": ["shelf"] } }, "required": ["workshop"] },
        "else": { "properties": usual_names() },
    })
}

/// The usual names of all keys that take names of the catalogue, by table.
fn usual_names() -> Map<String, Value> {
    let tables = Design::TABLES.iter().map(|table| (table.name.to_owned(), usual_of(table.keys)));
    tables
        .filter(|(_, names)| !names.is_empty())
        .map(|(table, names)| (table, json!({ "properties": names })))
        .collect()
}

fn usual_of(keys: &[Key]) -> Map<String, Value> {
    let names = |key: &Key| match key.kind {
        Kind::Listed(_, names) => Some(json!({ "enum": names })),
        Kind::Material => Some(json!({ "enum": material_names() })),
        Kind::List(keys) => Some(json!({ "items": { "properties": usual_of(keys) } })),
        _ => None,
    };
    keys.iter().filter_map(|key| Some((key.name.to_owned(), names(key)?))).collect()
}

fn material_names() -> Vec<&'static str> {
    Catalogue::standard().materials.iter().map(|material| material.name.as_str()).collect()
}

fn needs(keys: &[Key]) -> bool {
    keys.iter().any(|key| matches!(key.presence, Presence::Required(_)))
}

fn table_schema(table: &Table) -> Value {
    let mut schema = keys_schema(table.keys);
    schema["description"] = table.doc.trim().into();
    schema
}

fn keys_schema(keys: &[Key]) -> Value {
    let properties: Map<String, Value> = keys.iter().map(|key| (key.name.into(), key_schema(key))).collect();
    let required: Vec<&str> =
        keys.iter().filter(|key| matches!(key.presence, Presence::Required(_))).map(|key| key.name).collect();
    let mut schema = json!({ "type": "object", "properties": properties, "additionalProperties": false });
    if !required.is_empty() {
        schema["required"] = json!(required);
    }
    schema
}

fn key_schema(key: &Key) -> Value {
    let mut schema = kind_schema(&key.kind);
    let (more, default) = match key.presence {
        Presence::Required(_) => ("must be given".into(), None),
        Presence::Sought(_) => ("left out: open, found for targets.power".into(), None),
        Presence::Open(what) => (what.to_string(), None),
        Presence::Default(text, why) => (format!("default {}: {why}", key.kind.toml(text)), Some(text)),
    };
    schema["description"] = format!("{} Allowed: {}; {more}.", key.doc.trim(), key.kind.allowed()).into();
    if let Some(text) = default {
        schema["default"] = match key.kind {
            Kind::Count { .. } => text.parse::<usize>().map_or(Value::Null, Value::from),
            _ => text.into(),
        };
    }
    schema
}

fn kind_schema(kind: &Kind) -> Value {
    match kind {
        Kind::Quantity { dimension, step, .. } => {
            json!({ "type": "string", "pattern": quantity_pattern(*dimension, step.is_some()) })
        }
        Kind::Count { min, max } => json!({ "type": "integer", "minimum": min, "maximum": max }),
        Kind::Name => json!({
            "type": "string",
            "pattern": "^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$",
            "maxLength": LONGEST_NAME,
        }),
        Kind::Text => json!({
            "type": "string",
            "pattern": "^[^\\u0000-\\u001f\\u007f-\\u009f]*$",
            "maxLength": LONGEST_TEXT,
        }),
        Kind::Choice(names) => json!({ "type": "string", "enum": names }),
        Kind::Spread { kelvin } => json!({ "type": "string", "pattern": spread_pattern(*kelvin) }),
        // A user's own names cannot be known here; the usual ones complete.
        Kind::Listed(_, names) => json!({ "type": "string", "minLength": 1, "examples": names }),
        Kind::Label => json!({
            "type": "string",
            "pattern": "^[^\\u0000-\\u001f!-*,:-@\\[-^`{-\\u009f]+$",
            "maxLength": LONGEST_LABEL,
        }),
        Kind::Number { min, max } => json!({ "type": "number", "minimum": min, "maximum": max }),
        Kind::Quantities { dimension, .. } => json!({
            "type": "array",
            "items": { "type": "string", "pattern": quantity_pattern(*dimension, false) },
        }),
        Kind::Bearing => json!({ "type": "string", "minLength": 3 }),
        Kind::Material => json!({ "type": "string", "minLength": 1, "examples": material_names() }),
        Kind::List(keys) => json!({ "type": "array", "items": keys_schema(keys) }),
    }
}

/// A unit as it stands in a pattern.
fn escaped(symbol: &str) -> String {
    symbol.replace('(', "\\(").replace(')', "\\)")
}

/// A decimal number, a fraction or a whole with a fraction.
const NUMBER: &str = "(?:[+-]?(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)(?:[eE][+-]?[0-9]+)?|-?(?:[0-9]+\\s+)?[0-9]+\\s*/\\s*0*[1-9][0-9]*)";

fn spread_pattern(kelvin: bool) -> String {
    let number = "[+-]?(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)(?:[eE][+-]?[0-9]+)?";
    let side = if kelvin { format!("\\s*{number}\\s*K\\s*") } else { format!("\\s*{number}\\s*") };
    let within = if kelvin { String::new() } else { format!("|\\s*within\\s+{number}\\s*") };
    format!("^(?:\\s*known\\s*{within}|{side}(?:\\.\\.{side})?)$")
}

fn quantity_pattern(dimension: Dimension, may_be_open: bool) -> String {
    let symbols: Vec<String> =
        dimension.units().iter().flat_map(|unit| unit.symbols).map(|symbol| escaped(symbol)).collect();
    let units = symbols.join("|");
    let words: Vec<&str> = ABSOLUTE.into_iter().chain(GAUGE).collect();
    let one = match dimension {
        Dimension::Pressure => format!("{NUMBER}\\s*(?:{units})\\s+(?:{})", words.join("|")),
        _ => format!("{NUMBER}\\s*(?:{units})"),
    };
    match may_be_open {
        true => format!("^\\s*(?:{OPEN}|{one}|{one}\\s*\\.\\.\\s*{one})\\s*$"),
        false => format!("^\\s*{one}\\s*$"),
    }
}

/// The schema of the shelf file.
pub fn shelf_schema() -> Value {
    let lists: Map<String, Value> = SHELF
        .iter()
        .map(|table| (table.name.into(), json!({ "type": "array", "items": table_schema(table) })))
        .collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Shelf file of swept",
        "description": "What you have: it adds to the program's tables and overrides them.",
        "type": "object",
        "properties": lists,
        "additionalProperties": false,
    })
}
