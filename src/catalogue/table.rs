//! Reading the embedded tables, and the error for an entry that no table holds.

use serde::de::DeserializeOwned;
use std::fmt;

/// A catalogue has no such entry.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("there is no {kind} `{wanted}` in the catalogue{}", hint(.nearest))]
pub struct UnknownEntry {
    /// What was looked for, for example `thread`.
    pub kind: &'static str,
    /// The name as asked.
    pub wanted: String,
    /// The nearest name that the catalogue holds.
    pub nearest: Option<String>,
}

/// Where an entry of the catalogue stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Listed {
    /// In a table of the program: its standard or kind, whether it was read or recalled, and the codes of its sources.
    Table(String),
    /// In the user's own file, at this place of it, for example `shelf.toml:12`.
    Shelf(String),
}

impl Listed {
    /// An entry of a table of the program.
    pub(super) fn table(standard: &str, status: &str, src: &str) -> Self {
        Self::Table(format!("{standard}; {status} {src}").trim_end().into())
    }

    /// Whether the user's own file holds it.
    pub fn is_own(&self) -> bool {
        matches!(self, Self::Shelf(_))
    }
}

impl fmt::Display for Listed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Table(text) => f.write_str(text),
            Self::Shelf(place) => write!(f, "your shelf file, {place}"),
        }
    }
}

fn hint(nearest: &Option<String>) -> String {
    nearest.as_ref().map_or_else(String::new, |name| format!("; the nearest one is `{name}`"))
}

/// The known name that is most like `wanted` (letter case ignored), the first of equals, if there is any name at all.
pub fn nearest<'a>(wanted: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // A text far longer than any name is compared by its beginning.
    let wanted: String = wanted.chars().take(64).collect::<String>().to_lowercase();
    let likeness = |name: &str| strsim::normalized_damerau_levenshtein(&wanted, &name.to_lowercase());
    known.into_iter().min_by(|a, b| likeness(b).total_cmp(&likeness(a)))
}

/// Finds an entry by its name, or says which one is nearest.
pub(super) fn find<'a, T>(
    kind: &'static str,
    wanted: &str,
    entries: &'a [T],
    name: impl Fn(&T) -> &str,
) -> Result<&'a T, UnknownEntry> {
    let miss = || UnknownEntry {
        kind,
        wanted: wanted.into(),
        nearest: nearest(wanted, entries.iter().map(&name)).map(Into::into),
    };
    entries.iter().find(|entry| name(entry).eq_ignore_ascii_case(wanted.trim())).ok_or_else(miss)
}

/// Finds the entry of a size \[mm\] to a hundredth, or says which one is nearest.
pub(super) fn find_size<'a, T>(
    kind: &'static str,
    wanted_mm: f64,
    entries: &'a [T],
    size_mm: impl Fn(&T) -> f64,
) -> Result<&'a T, UnknownEntry> {
    let away = |entry: &T| (size_mm(entry) - wanted_mm).abs();
    let closest = entries.iter().min_by(|a, b| away(a).total_cmp(&away(b)));
    closest.filter(|entry| away(entry) < 0.01).ok_or_else(|| UnknownEntry {
        kind,
        wanted: format!("{wanted_mm} mm"),
        nearest: closest.map(|entry| format!("{} mm", size_mm(entry))),
    })
}

/// Rows of an embedded table. The tables are part of the program: a broken one is our own mistake and a test reads
/// every one of them.
pub(super) fn rows<T: DeserializeOwned>(text: &str) -> Vec<T> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes())
        .deserialize()
        .collect::<Result<_, _>>()
        .expect("an embedded table is well formed")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_ignores_case_and_small_slips() {
        assert_eq!(nearest("m55", ["M3", "M5", "M12"]), Some("M5"));
        assert_eq!(nearest("stainles-304", ["mild-steel", "stainless-304"]), Some("stainless-304"));
        assert_eq!(nearest("x", []), None);
    }

    #[test]
    fn an_unknown_entry_names_the_nearest_one() {
        let error = find("thread", "M55", &["M4", "M5"], |name| name).unwrap_err();
        assert_eq!(error.to_string(), "there is no thread `M55` in the catalogue; the nearest one is `M5`");
    }
}
