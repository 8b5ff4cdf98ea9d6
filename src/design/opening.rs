//! Values that are left open: `"open"`, or a range such as `"60 mm..120 mm"` within which to search.

use super::check::check_quantity;
use super::key::Kind;
use super::keys::Design;
use super::read::Reader;
use super::value::Value;
use crate::diagnostic::{Diagnostic, shown};

/// The word for a value that the search decides.
pub(super) const OPEN: &str = "open";

/// The key without which nothing can be searched.
pub(super) const POWER: (&str, &str) = ("targets", "power");

/// Whether a text leaves a value open.
pub(super) fn asked(text: &str) -> bool {
    text.trim() == OPEN || text.contains("..")
}

/// Reads `open` or a range; the place is still to be added to the error.
pub(super) fn check(key: &str, kind: &Kind, text: &str) -> Result<Value, Diagnostic> {
    let Kind::Quantity { dimension, min, max, step: Some(_) } = kind else {
        return Err(Diagnostic::error("swept::open", format!("{key} cannot be left open"))
            .label(format!("{} is no value here", shown(text)))
            .allowed(kind.allowed())
            .hint(format!("write a value, or leave it out; what can be open: {}", openable().join(", "))));
    };
    let Some((from, to)) = text.split_once("..") else { return Ok(Value::Open(None)) };
    if to.starts_with('.') {
        return Err(Diagnostic::error("swept::open", format!("{key}: a range has two dots"))
            .label("three dots")
            .allowed("from and to with their units and two dots between them")
            .hint(format!("write \"{}..{}\"", from.trim(), to.trim_start_matches('.').trim())));
    }
    let end = |text: &str| check_quantity(key, kind, *dimension, text, [*min, *max]);
    let [low, high] = [end(from)?, end(to)?];
    if low < high {
        return Ok(Value::Open(Some([low, high])));
    }
    let (what, hint) = if low > high {
        ("is upside down", format!("write \"{}..{}\"", to.trim(), from.trim()))
    } else {
        ("has no length", format!("write \"{}\"", from.trim()))
    };
    Err(Diagnostic::error("swept::open", format!("the range of {key} {what}"))
        .label(format!("from {} to {}", from.trim(), to.trim()))
        .allowed("the smaller end first, then the larger one")
        .hint(hint))
}

/// Every key that may be left open.
fn openable() -> Vec<String> {
    let may = |kind: &Kind| matches!(kind, Kind::Quantity { step: Some(_), .. });
    let keys = Design::TABLES.iter().flat_map(|table| table.keys.iter().map(move |key| (table.name, key)));
    keys.filter(|(_, key)| may(&key.kind)).map(|(table, key)| format!("{table}.{}", key.name)).collect()
}

/// What is said of a missing key that the search could find.
pub(super) fn or_searched(missing: Diagnostic) -> Diagnostic {
    let hint = missing.hint.clone().unwrap_or_default();
    missing.hint(format!("{hint}, or leave it to the search and add power = \"5 W\" under [targets]"))
}

/// Says where a value is left open although no power is wanted.
pub(super) fn without_power(reader: &mut Reader<'_>) {
    if reader.written.contains(&POWER) {
        return;
    }
    let open = reader.values.iter().flat_map(|(table, values)| values.iter().map(move |v| (*table, v)));
    let said: Vec<Diagnostic> = open
        .filter(|(_, (_, given))| matches!(given.value, Value::Open(_)))
        .filter_map(|(table, (key, given))| {
            let said = Diagnostic::error(
                "swept::missing",
                format!("{table}.{key} is open and targets.power is missing"),
            )
            .label("open: for which power?")
            .allowed("open values together with targets.power")
            .hint("add power = \"5 W\" under [targets]");
            Some(said.at(given.place.clone()?))
        })
        .collect();
    reader.said.extend(said);
}
