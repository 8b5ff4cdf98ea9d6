//! Keys that were not written: required ones are reported, the others get their defaults.

use super::check::{Raw, check};
use super::key::{Key, Kind, Presence};
use super::keys::Design;
use super::opening::{self, OPEN, POWER};
use super::read::Reader;
use super::setting::Source;
use super::value::{AllValues, Given, Value, Values};
use crate::catalogue::Catalogue;
use crate::diagnostic::Diagnostic;
use std::ops::Range;

/// Reports required keys that were not written.
pub(super) fn report(reader: &mut Reader<'_>) {
    if reader.broken {
        return;
    }
    for table in Design::TABLES {
        for key in table.keys {
            let (example, sought) = match key.presence {
                Presence::Required(example) => (example, false),
                Presence::Sought(example) => (example, true),
                _ => continue,
            };
            if reader.written.contains(&(table.name, key.name)) || (sought && reader.written.contains(&POWER))
            {
                continue;
            }
            let (span, place) = place_for(reader, table.name);
            let said = missing(table.name, key, example, &place);
            reader.say(span, if sought { opening::or_searched(said) } else { said });
        }
    }
    opening::without_power(reader);
}

/// Reports required keys that an entry of a list does not have.
pub(super) fn report_item(
    reader: &mut Reader<'_>,
    path: &str,
    keys: &[Key],
    written: &[&str],
    span: Range<usize>,
) {
    for key in keys {
        let Presence::Required(example) = key.presence else { continue };
        if !written.contains(&key.name) {
            reader.say(span.clone(), missing(path, key, example, &format!("to this entry of [[{path}]]")));
        }
    }
}

/// Where to point when a key of a table is missing, and where to add it in words.
fn place_for(reader: &Reader<'_>, table: &str) -> (Range<usize>, String) {
    let known = reader.tables.iter().find(|(name, _)| *name == table);
    match known {
        Some((_, span)) => (span.clone(), format!("under [{table}]")),
        None => {
            let end = reader.text.trim_end().len();
            (end..end, format!("under a line [{table}]"))
        }
    }
}

fn missing(path: &str, key: &Key, example: &str, place: &str) -> Diagnostic {
    Diagnostic::error("swept::missing", format!("{path}.{} is missing", key.name))
        .label(format!("`{}` must be given", key.name))
        .allowed(key.kind.allowed())
        .hint(format!("add {} = {} {place}", key.name, key.kind.toml(example)))
}

/// Fills in the defaults of all tables.
pub(super) fn fill(values: &mut AllValues) {
    for table in Design::TABLES {
        fill_table(table.keys, values.entry(table.name).or_default());
    }
}

/// Fills in the defaults of one table.
pub(super) fn fill_table(keys: &'static [Key], values: &mut Values) {
    for key in keys {
        match key.presence {
            Presence::Default(text, why) => {
                values.entry(key.name).or_insert_with(|| default(key, text, why));
            }
            Presence::Sought(_) => {
                values.entry(key.name).or_insert_with(left_open);
            }
            Presence::Required(_) | Presence::Open(_) => {}
        }
    }
}

/// What nobody wrote and no default stands in for.
fn left_open() -> Given {
    Given {
        value: Value::Open(None),
        text: OPEN.into(),
        from: Source::Default { why: "left out" },
        place: None,
    }
}

/// A default, read as if it stood in the file. Every default is read in a test, so the check cannot fail here.
fn default(key: &Key, text: &'static str, why: &'static str) -> Given {
    let book = Catalogue::standard();
    let value = check(key.name, &key.kind, &raw(&key.kind, text), book)
        .expect("a default of the table of keys is valid");
    Given { value, text: text.into(), from: Source::Default { why }, place: None }
}

/// A text as the value that its kind expects.
pub(super) fn raw<'a>(kind: &Kind, text: &'a str) -> Raw<'a> {
    let digits = !text.is_empty() && text.trim_start_matches('-').bytes().all(|byte| byte.is_ascii_digit());
    if matches!(kind, Kind::Count { .. }) && digits { Raw::Integer(text) } else { Raw::Text(text) }
}
