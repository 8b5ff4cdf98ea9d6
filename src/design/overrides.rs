//! Overrides from the command line: `--set piston.stroke="28 mm"`.

use super::check::check;
use super::key::{Key, Kind};
use super::keys::Design;
use super::missing::raw;
use super::read::Reader;
use super::setting::Source;
use super::value::Given;
use super::walk::slip_of;
use crate::catalogue::Catalogue;
use crate::diagnostic::{Diagnostic, Place, shown};
use std::collections::BTreeSet;
use std::ops::Range;

/// Name that stands for the command line where a file's name would stand.
const FILE: &str = "--set";

/// Puts the overrides over the values of the file.
pub(super) fn apply(reader: &mut Reader<'_>, sets: &[(String, String)]) {
    let mut before = BTreeSet::new();
    for (path, text) in sets {
        let path = path.trim();
        let option = format!("{path}={text}");
        let said = match find(path) {
            None => Some((0..path.len(), unknown(path))),
            Some((table, key)) => put(reader, table, key, text, &option)
                .err()
                .map(|error| (path.len() + 1..option.len(), error)),
        };
        let twice = (!before.insert(path)).then(|| (0..path.len(), set_twice(path)));
        for (span, diagnostic) in said.into_iter().chain(twice) {
            reader.said.push(diagnostic.at(place(&option, span)));
        }
    }
}

fn place(option: &str, span: Range<usize>) -> Place {
    Place::in_text(FILE, option, span)
}

fn find(path: &str) -> Option<(&'static str, &'static Key)> {
    let (table, key) = path.split_once('.')?;
    let table = Design::TABLES.iter().find(|known| known.name == table)?;
    Some((table.name, table.keys.iter().find(|known| known.name == key)?))
}

/// The key of a path such as `piston.stroke`.
///
/// # Errors
/// When the design file has no such key, with the nearest one; the place is still to be added.
pub fn find_key(path: &str) -> Result<&'static Key, Diagnostic> {
    find(path).map(|(_, key)| key).ok_or_else(|| unknown(path))
}

/// Checks a value of the command line against its key, as an override would; names against the catalogue.
///
/// # Errors
/// When the key cannot have this value; the place is still to be added.
pub fn check_override(path: &str, key: &Key, text: &str, book: &Catalogue) -> Result<(), Diagnostic> {
    check(path, &key.kind, &raw(&key.kind, unquoted(text.trim())), book).map(|_| ())
}

fn put(
    reader: &mut Reader<'_>,
    table: &'static str,
    key: &'static Key,
    text: &str,
    option: &str,
) -> Result<(), Diagnostic> {
    let path = format!("{table}.{}", key.name);
    if matches!(key.kind, Kind::List(_)) {
        return Err(Diagnostic::error("swept::override", format!("{path} is a list and cannot be set here"))
            .label("a list")
            .allowed("keys with a single value")
            .hint(format!("write the entries into the design file, each under a line [[{path}]]")));
    }
    reader.written.insert((table, key.name));
    let bare = unquoted(text.trim());
    let value = check(&path, &key.kind, &raw(&key.kind, bare), &reader.catalogue)?;
    let from = Source::Override { text: option.into() };
    let place = Some(place(option, path.len() + 1..option.len()));
    reader.table(table).insert(key.name, Given { value, text: bare.into(), from, place });
    Ok(())
}

/// A text without the quotation marks that the shell left around it.
pub fn unquoted(text: &str) -> &str {
    let inside = |mark: char| text.strip_prefix(mark)?.strip_suffix(mark);
    inside('"').or_else(|| inside('\'')).unwrap_or(text)
}

fn unknown(path: &str) -> Diagnostic {
    let paths: Vec<String> = Design::TABLES
        .iter()
        .flat_map(|table| table.keys.iter().map(|key| format!("{}.{}", table.name, key.name)))
        .collect();
    let hint = match slip_of(path, paths.iter().map(String::as_str)) {
        Some(nearest) => format!("did you mean {nearest}?"),
        None => "write table.key=value, for example piston.stroke=\"28 mm\"".into(),
    };
    Diagnostic::error("swept::override", format!("the design file has no key `{}`", shown(path)))
        .label("unknown key")
        .allowed("table.key of the design file")
        .hint(hint)
}

fn set_twice(path: &str) -> Diagnostic {
    Diagnostic::warning("swept::override", format!("{path} is set twice; the last one counts"))
        .label("set before")
        .hint("leave one of the two out")
}
