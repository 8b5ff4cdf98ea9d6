//! Writing found values into a design file: every other line and every remark stays as it is.

use super::draft::Draft;
use super::key::Kind;
use super::keys::Design;
use super::overrides::{find_key, unquoted};
use toml_edit::{DocumentMut, Item, Table, TableLike, Value, value};

/// The design file in `text` with the overrides `sets` and a value for each opening of the draft, taken from `design`, so
/// that the builder goes on from fixed numbers.
///
/// # Errors
/// The parser's words where the text is no TOML; a key that cannot be put in its place.
pub fn write_settled(
    text: &str,
    sets: &[(String, String)],
    draft: &Draft,
    design: &Design,
) -> Result<String, String> {
    let mut document: DocumentMut = text.parse().map_err(|error| format!("{error}"))?;
    for (path, typed) in sets {
        put(&mut document, path.trim(), unquoted(typed.trim()))?;
    }
    for opening in draft.openings() {
        let found = design.entry(&opening.path).and_then(|entry| entry.text.clone());
        put(&mut document, &opening.path, &found.ok_or("an opening has no value")?)?;
    }
    Ok(document.to_string())
}

/// Puts one value in its place; the remarks around an old value stay.
fn put(document: &mut DocumentMut, path: &str, text: &str) -> Result<(), String> {
    let key = find_key(path).map_err(|said| said.message)?;
    let (table, name) = path.split_once('.').ok_or("a path without a table")?;
    let table = document.entry(table).or_insert(Item::Table(Table::new()));
    let table: &mut dyn TableLike = table.as_table_like_mut().ok_or("not a table")?;
    let mut new = match key.kind {
        Kind::Count { .. } => Value::from(text.parse::<i64>().map_err(|error| error.to_string())?),
        _ => Value::from(text),
    };
    match table.get_mut(name).and_then(Item::as_value_mut) {
        Some(old) => {
            *new.decor_mut() = old.decor().clone();
            *old = new;
        }
        None => drop(table.insert(name, value(new))),
    }
    Ok(())
}
