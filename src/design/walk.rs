//! Walking through the parsed file: every key is looked up in the table of keys and its value checked.

use super::check::{Raw, check};
use super::key::{Key, Kind, Table};
use super::missing;
use super::read::{Reader, say_syntax};
use super::setting::Source;
use super::value::{Given, Value, Values};
use crate::diagnostic::{Diagnostic, shown};
use std::collections::BTreeSet;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

/// Reads the whole file.
pub(super) fn file(reader: &mut Reader<'_>) {
    parsed(reader, |reader, root| {
        for (name, value) in root.iter() {
            top(reader, name, value);
        }
    });
}

/// Reads a file that is lists of entries, list by list in the order of the known ones, and gives each entry to `visit` as
/// soon as it is read, so that later lists can name earlier entries.
pub(super) fn entries<'a>(reader: &mut Reader<'a>, visit: &dyn Fn(&mut Reader<'a>, &'static str, Values)) {
    parsed(reader, |reader, root| {
        let known = reader.known;
        for (name, _) in root.iter().filter(|(name, _)| !knows(known, name.get_ref())) {
            let diagnostic = unknown_table(reader.known, name.get_ref());
            reader.say(name.span(), diagnostic);
        }
        for table in reader.known {
            let Some((_, value)) = root.iter().find(|(name, _)| name.get_ref().as_ref() == table.name) else {
                continue;
            };
            match value.get_ref() {
                DeValue::Array(items) if items.len() > LONGEST_LIST => {
                    reader.say(value.span(), long_list(table.name, items.len()));
                }
                DeValue::Array(items) => {
                    for item in items.iter() {
                        if let Some(values) = entry(reader, table.name, table.keys, item) {
                            visit(reader, table.name, values);
                        }
                    }
                }
                _ => reader.say(value.span(), not_an_entry(table.name)),
            }
        }
    });
}

fn knows(tables: &[Table], name: &str) -> bool {
    tables.iter().any(|table| table.name == name)
}

/// Parses the text, says what is no TOML and visits the rest.
fn parsed<'a>(reader: &mut Reader<'a>, visit: impl FnOnce(&mut Reader<'a>, &DeTable<'a>)) {
    let text = reader.text;
    let (root, errors) = DeTable::parse_recoverable(text);
    say_syntax(reader, &errors);
    let broken: BTreeSet<usize> =
        reader.said.iter().filter_map(|said| Some(said.place.as_ref()?.line)).collect();
    let first = reader.said.len();
    visit(reader, root.get_ref());
    // A line that is no TOML has been spoken of already.
    let mut later = reader.said.split_off(first);
    later.retain(|said| said.place.as_ref().is_none_or(|place| !broken.contains(&place.line)));
    reader.said.append(&mut later);
}

fn top(reader: &mut Reader<'_>, name: &Spanned<toml::de::DeString<'_>>, value: &Spanned<DeValue<'_>>) {
    let Some(known) = reader.known.iter().find(|table| table.name == name.get_ref().as_ref()) else {
        // A key that lost its table because the table's line is no TOML is not unknown.
        if reader.broken && reader.text.get(..name.span().start).is_none_or(|before| !before.ends_with('[')) {
            return;
        }
        let diagnostic = unknown_table(reader.known, name.get_ref());
        return reader.say(name.span(), diagnostic);
    };
    reader.tables.push((known.name, name.span()));
    match value.get_ref() {
        DeValue::Table(table) => {
            let (values, written) = table_values(reader, known.name, known.keys, table);
            reader.table(known.name).extend(values);
            reader.written.extend(written.into_iter().map(|key| (known.name, key)));
        }
        _ => reader.say(value.span(), not_a_table(known.name)),
    }
}

/// Reads one table; returns its good values and the keys that were written.
fn table_values(
    reader: &mut Reader<'_>,
    path: &str,
    keys: &'static [Key],
    table: &DeTable<'_>,
) -> (Values, Vec<&'static str>) {
    let mut values = Values::new();
    let mut written = Vec::new();
    for (name, value) in table.iter() {
        let Some(key) = keys.iter().find(|key| key.name == name.get_ref().as_ref()) else {
            let diagnostic = unknown_key(reader.known, path, keys, name.get_ref());
            reader.say(name.span(), diagnostic);
            continue;
        };
        written.push(key.name);
        if let Some(given) = key_value(reader, path, key, value) {
            values.insert(key.name, given);
        }
    }
    (values, written)
}

fn key_value(reader: &mut Reader<'_>, path: &str, key: &Key, value: &Spanned<DeValue<'_>>) -> Option<Given> {
    let checked = match (&key.kind, value.get_ref()) {
        (Kind::List(_), DeValue::Array(items)) if items.len() > LONGEST_LIST => {
            Err(long_list(&format!("{path}.{}", key.name), items.len()))
        }
        (Kind::List(keys), DeValue::Array(items)) => Ok(Value::List(
            items
                .iter()
                .filter_map(|item| entry(reader, &format!("{path}.{}", key.name), keys, item))
                .collect(),
        )),
        (kind, value) => check(&format!("{path}.{}", key.name), kind, &raw(value), &reader.catalogue),
    };
    match checked {
        Ok(checked) => Some(given(reader, checked, value.span())),
        Err(diagnostic) => {
            reader.say(value.span(), diagnostic);
            None
        }
    }
}

fn given(reader: &Reader<'_>, value: Value, span: Range<usize>) -> Given {
    let place = reader.place(span.clone());
    let (file, line, column) = (reader.file.into(), place.line, place.column);
    let from = match reader.is_shelf {
        true => Source::Shelf { file, line, column },
        false => Source::File { file, line, column },
    };
    let text = reader.text.get(span).unwrap_or("").trim_matches(['"', '\'']).to_string();
    Given { value, text, from, place: Some(place) }
}

/// Reads one entry of a list.
fn entry(
    reader: &mut Reader<'_>,
    path: &str,
    keys: &'static [Key],
    item: &Spanned<DeValue<'_>>,
) -> Option<Values> {
    let DeValue::Table(table) = item.get_ref() else {
        reader.say(item.span(), not_an_entry(path));
        return None;
    };
    let (mut values, written) = table_values(reader, path, keys, table);
    missing::report_item(reader, path, keys, &written, item.span());
    missing::fill_table(keys, &mut values);
    Some(values)
}

/// Most entries of a list.
const LONGEST_LIST: usize = 200;

fn raw<'a>(value: &'a DeValue<'_>) -> Raw<'a> {
    match value {
        DeValue::String(text) => Raw::Text(text),
        DeValue::Integer(integer) if integer.radix() == 10 => Raw::Integer(integer.as_str()),
        DeValue::Integer(_) => Raw::Other("a number of another base than ten"),
        DeValue::Float(float) => Raw::Float(float.as_str()),
        DeValue::Boolean(_) => Raw::Other("true or false"),
        DeValue::Datetime(_) => Raw::Other("a date"),
        DeValue::Array(items) => texts(items).map_or(Raw::Other("a list"), Raw::Texts),
        DeValue::Table(_) => Raw::Other("a table"),
    }
}

/// The texts of a list that holds nothing else.
fn texts<'a>(items: &'a DeArray<'_>) -> Option<Vec<&'a str>> {
    items.iter().map(|item| item.get_ref().as_str()).collect()
}

/// Least likeness at which an unknown name is taken for a slip of a known one.
const SLIP: f64 = 0.4;

/// Longest name that can be a slip of a known one \[bytes\].
const LONGEST_SLIP: usize = 64;

/// The known name for which this is probably a slip.
pub(super) fn slip_of<'a>(name: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let nearest = (name.len() <= LONGEST_SLIP).then(|| crate::catalogue::nearest(name, known))??;
    (strsim::normalized_damerau_levenshtein(&name.to_lowercase(), &nearest.to_lowercase()) >= SLIP)
        .then_some(nearest)
}

/// The tables that know a key of this name, in words.
fn home_of(tables: &[Table], key: &str) -> Option<String> {
    let knows = |table: &&Table| table.keys.iter().any(|known| known.name == key);
    let homes: Vec<String> = tables.iter().filter(knows).map(|table| format!("[{}]", table.name)).collect();
    (!homes.is_empty()).then(|| homes.join(" or "))
}

fn unknown_table(tables: &[Table], name: &str) -> Diagnostic {
    let names: Vec<&str> = tables.iter().map(|table| table.name).collect();
    let hint = match (slip_of(name, names.iter().copied()), home_of(tables, name)) {
        (_, Some(home)) => format!("`{name}` belongs under a line {home}"),
        (Some(nearest), None) => format!("did you mean [{nearest}]?"),
        (None, None) => "leave it out".into(),
    };
    Diagnostic::error("swept::unknown-table", format!("there is no table `{}`", shown(name)))
        .label("unknown table")
        .allowed(format!("the tables {}", names.join(", ")))
        .hint(hint)
}

fn unknown_key(tables: &[Table], path: &str, keys: &[Key], name: &str) -> Diagnostic {
    let names: Vec<&str> = keys.iter().map(|key| key.name).collect();
    let hint = match (slip_of(name, names.iter().copied()), home_of(tables, name)) {
        (_, Some(home)) => format!("`{name}` belongs under {home}"),
        (Some(nearest), None) => format!("did you mean `{nearest}`?"),
        (None, None) => "leave it out".into(),
    };
    Diagnostic::error("swept::unknown-key", format!("[{path}] has no key `{}`", shown(name)))
        .label("unknown key")
        .allowed(format!("the keys {}", names.join(", ")))
        .hint(hint)
}

fn not_a_table(name: &str) -> Diagnostic {
    Diagnostic::error("swept::type", format!("`{name}` is a table, not a value"))
        .label("a value")
        .allowed(format!("a line [{name}] with keys under it"))
        .hint(format!("write [{name}] on a line of its own and the keys under it"))
}

fn long_list(path: &str, length: usize) -> Diagnostic {
    Diagnostic::error("swept::range", format!("{path} has {length} entries"))
        .label("too many")
        .allowed(format!("at most {LONGEST_LIST} entries"))
        .hint("keep the entries that this engine needs")
}

fn not_an_entry(path: &str) -> Diagnostic {
    Diagnostic::error("swept::type", format!("an entry of {path} is a table, not a value"))
        .label("a value")
        .allowed(format!("tables that begin with a line [[{path}]]"))
        .hint(format!("write [[{path}]] on a line of its own and the keys under it"))
}
