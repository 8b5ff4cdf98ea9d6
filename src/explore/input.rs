//! An input of a sweep: a key of the design and the values that it takes.

use super::sweep::MOST_POINTS;
use crate::catalogue::Catalogue;
use crate::design::{Dimension, Key, Kind, check_override, find_key, read_quantity, unquoted};
use crate::diagnostic::{Diagnostic, Place, shown};
use crate::numerals::short;
use std::collections::BTreeSet;
use std::ops::Range;

/// Values of a range when nothing else is said.
pub const USUAL_STEPS: usize = 41;

/// Name that stands for the command line where a file's name would stand.
const FILE: &str = "--over";

/// Significant digits of a value; finer steps have no meaning on a lathe.
const DIGITS: i32 = 10;

/// A key and the values that it takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// Key of the design, for example `piston.stroke`.
    pub path: String,
    /// Unit of the values; empty for counts and words.
    pub unit: &'static str,
    /// Values, in the order of the sweep, without their unit.
    pub values: Vec<String>,
}

impl Input {
    /// Reads the values of a key: a range `20 mm..36 mm`, or a list `air, helium`. A range has `steps` values with both
    /// ends, [`USUAL_STEPS`] when nothing is said; a range of whole numbers never has more than there are.
    ///
    /// # Errors
    /// An unknown key (with the nearest one), a value that the key cannot have, a range of words, a range without length,
    /// fewer than two steps, a value that stands twice.
    pub fn read(path: &str, text: &str, steps: Option<usize>) -> Result<Self, Diagnostic> {
        Self::read_in(Catalogue::standard(), path, text, steps)
    }

    /// As [`Input::read`], with names looked up in the catalogue of the design.
    ///
    /// # Errors
    /// As [`Input::read`].
    pub fn read_in(
        book: &Catalogue,
        path: &str,
        text: &str,
        steps: Option<usize>,
    ) -> Result<Self, Diagnostic> {
        let option = format!("{path}={text}");
        let value_at = path.len() + 1..option.len();
        let at = |span: Range<usize>| move |said: Diagnostic| said.at(Place::in_text(FILE, &option, span));
        let key = find_key(path.trim()).map_err(|said| {
            let option = format!("{path}={text}");
            said.at(Place::in_text(FILE, &option, 0..path.len()))
        })?;
        read_values(book, path.trim(), key, unquoted(text.trim()), steps).map_err(at(value_at))
    }

    /// The value as an override of the design, for example `20.4 mm`.
    pub(super) fn set(&self, index: usize) -> (String, String) {
        (self.path.clone(), self.told(&self.values[index]))
    }

    /// A value with its unit.
    pub(super) fn told(&self, value: &str) -> String {
        format!("{value} {}", self.unit).trim_end().to_owned()
    }
}

fn read_values(
    book: &Catalogue,
    path: &str,
    key: &Key,
    text: &str,
    steps: Option<usize>,
) -> Result<Input, Diagnostic> {
    let input = |unit, values| Input { path: path.into(), unit, values };
    if matches!(key.kind, Kind::List(_)) {
        return Err(Diagnostic::error("swept::explore", format!("{path} is a list and cannot be swept"))
            .label("a list")
            .allowed("keys with a single value"));
    }
    match (&key.kind, text.split_once("..")) {
        (Kind::Quantity { dimension, .. }, Some(ends)) => {
            let values = quantities(path, key, *dimension, ends, steps)?;
            Ok(input(dimension.usual_unit(), values))
        }
        (Kind::Count { .. }, Some(ends)) => Ok(input("", counts(path, key, ends, steps)?)),
        (_, Some(_)) => Err(words_have_no_range(path, key)),
        (kind, None) => {
            let values = list(book, path, key, text)?;
            let unit = if let Kind::Quantity { dimension, .. } = kind { dimension.usual_unit() } else { "" };
            Ok(input(unit, values))
        }
    }
}

/// Values of a range of quantities, in the usual unit.
fn quantities(
    path: &str,
    key: &Key,
    dimension: Dimension,
    ends: (&str, &str),
    steps: Option<usize>,
) -> Result<Vec<String>, Diagnostic> {
    let [from, to] = both(ends, |end| {
        check_override(path, key, end, Catalogue::standard())?;
        read_quantity(dimension, end).map(|field| dimension.usual(field))
    })?;
    let steps = steps.unwrap_or(USUAL_STEPS);
    ordinary(path, from == to, steps)?;
    let decimals = decimals(from.abs().max(to.abs()));
    let at = |i: usize| from + (to - from) * i as f64 / (steps - 1) as f64;
    different(path, (0..steps).map(|i| short(at(i), decimals)).collect())
}

/// Whole numbers of a range, all of them or as many as there are steps.
fn counts(
    path: &str,
    key: &Key,
    ends: (&str, &str),
    steps: Option<usize>,
) -> Result<Vec<String>, Diagnostic> {
    let [from, to] = both(ends, |end| {
        check_override(path, key, end, Catalogue::standard())?;
        Ok(end.trim().replace('_', "").parse::<i64>().unwrap_or(0))
    })?;
    let all = from.abs_diff(to) as usize + 1;
    let steps = steps.unwrap_or(USUAL_STEPS).min(all);
    ordinary(path, from == to, steps)?;
    let at = |i: usize| from as f64 + (to - from) as f64 * i as f64 / (steps - 1) as f64;
    Ok((0..steps).map(|i| at(i).round().to_string()).collect())
}

/// Both ends of a range.
fn both<T>(
    (from, to): (&str, &str),
    read: impl Fn(&str) -> Result<T, Diagnostic>,
) -> Result<[T; 2], Diagnostic> {
    if to.starts_with('.') {
        return Err(Diagnostic::error("swept::explore", "a range has two dots")
            .label("three dots")
            .allowed("from and to with their units and two dots between them")
            .hint("write \"20 mm..36 mm\""));
    }
    Ok([read(from)?, read(to)?])
}

/// A range that has a length and at least two steps.
fn ordinary(path: &str, empty: bool, steps: usize) -> Result<(), Diagnostic> {
    let said = |message: String, hint: &str| {
        Err(Diagnostic::error("swept::explore", message)
            .label("this range")
            .allowed("two different ends and at least 2 steps, both ends counted")
            .hint(hint))
    };
    match (empty, steps) {
        (true, _) => {
            said(format!("the range of {path} has no length"), "for one value write it alone, without dots")
        }
        (_, MOST_POINTS..) => said(
            format!("the range of {path} has {steps} steps"),
            "a chart needs some 40; what a cluster can do is split with --shard",
        ),
        (_, 0 | 1) => said(format!("the range of {path} has {steps} steps"), "leave --steps out for 41"),
        _ => Ok(()),
    }
}

/// Values of a list, quantities in the usual unit.
fn list(book: &Catalogue, path: &str, key: &Key, text: &str) -> Result<Vec<String>, Diagnostic> {
    let read = |item: &str| {
        check_override(path, key, item, book)?;
        match key.kind {
            Kind::Quantity { dimension, .. } => read_quantity(dimension, item).map(|field| {
                let value = dimension.usual(field);
                short(value, decimals(value.abs()))
            }),
            _ => Ok(item.into()),
        }
    };
    different(path, text.split(',').map(|item| read(item.trim())).collect::<Result<_, _>>()?)
}

/// Decimals that a value of this size needs for ten significant digits.
fn decimals(size: f64) -> usize {
    (DIGITS - 1 - size.max(1e-9).log10().floor() as i32).clamp(0, 12) as usize
}

fn different(path: &str, values: Vec<String>) -> Result<Vec<String>, Diagnostic> {
    let mut seen = BTreeSet::new();
    match values.iter().find(|value| !seen.insert(*value)) {
        None => Ok(values),
        Some(twice) => Err(Diagnostic::error(
            "swept::explore",
            format!("{path} would take the value {} twice", shown(twice)),
        )
        .label("the same value twice")
        .allowed("different values")
        .hint("leave one of them out, or take fewer steps")),
    }
}

fn words_have_no_range(path: &str, key: &Key) -> Diagnostic {
    let hint = match key.kind {
        Kind::Choice(names) | Kind::Listed(_, names) if !names.is_empty() => {
            format!("write {path}=\"{}\"", names.join(", "))
        }
        _ => "write the values with commas between them".into(),
    };
    Diagnostic::error("swept::explore", format!("{path} is a {}, which has no range", key.kind.name()))
        .label("a range of words")
        .allowed(format!("a list with commas; each {}", key.kind.allowed()))
        .hint(hint)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(path: &str, text: &str, steps: Option<usize>) -> Vec<String> {
        Input::read(path, text, steps).unwrap().values
    }

    fn refused(path: &str, text: &str, steps: Option<usize>) -> String {
        let said = Input::read(path, text, steps).unwrap_err();
        assert!(said.place.is_some());
        format!("{}: {}", said.message, said.hint.unwrap_or_default())
    }

    #[test]
    fn ranges_have_both_ends_in_the_usual_unit() {
        assert_eq!(values("piston.stroke", "20 mm..36 mm", Some(5)), ["20", "24", "28", "32", "36"]);
        assert_eq!(values("piston.stroke", "3.6 cm..20 mm", Some(3)), ["36", "28", "20"]);
        assert_eq!(values("cold_end.temperature", "-50 °C..50 °C", Some(3)), ["-50", "0", "50"]);
        assert_eq!(values("engine.charge_pressure", "1 bar abs..3 bar abs", Some(3)), ["1", "2", "3"]);
        assert_eq!(
            values("piston.stroke", "20 mm..21 mm", Some(4)),
            ["20", "20.33333333", "20.66666667", "21"]
        );
        assert_eq!(values("piston.stroke", "\"20 mm..36 mm\"", None).len(), USUAL_STEPS);
        assert_eq!(values("piston.rings", "3..1", None), ["3", "2", "1"]);
        assert_eq!(values("cold_end.fins", "0..8", Some(3)), ["0", "4", "8"]);
    }

    #[test]
    fn lists_hold_words_and_quantities() {
        assert_eq!(values("engine.gas", "air, helium", None), ["air", "helium"]);
        assert_eq!(values("piston.stroke", "1 in, 30 mm", None), ["25.4", "30"]);
        assert_eq!(Input::read("drive.lead", "80°, 90°", None).unwrap().set(1).1, "90 °");
    }

    #[test]
    fn nonsense_is_refused_with_what_to_do() {
        assert!(refused("piston.strok", "20 mm..36 mm", None).contains("did you mean piston.stroke?"));
        assert!(refused("piston.stroke", "20 bar..36 bar", None).contains("not a unit of length"));
        assert!(refused("piston.stroke", "20..36", None).contains("has no unit"));
        assert!(refused("piston.stroke", "20 mm...36 mm", None).contains("two dots"));
        assert!(refused("piston.stroke", "20 mm..20 mm", None).contains("no length"));
        assert!(refused("piston.stroke", "20 mm..36 mm", Some(0)).contains("0 steps"));
        assert!(refused("piston.stroke", "20 mm..36 mm", Some(1)).contains("1 steps"));
        assert!(refused("piston.stroke", "20 mm..36 m", None).contains("did you mean \"36 mm\"?"));
        assert!(refused("piston.stroke", "20 mm, 2 cm", None).contains("twice"));
        assert!(refused("engine.gas", "air..helium", None).contains("air, nitrogen, helium"));
        assert!(refused("engine.gas", "air, heluim", None).contains("did you mean \"helium\"?"));
        assert!(refused("workshop.stock", "1..2", None).contains("is a list"));
        assert!(refused("piston.stroke", "", None).contains("has no number"));
    }
}
