//! A design whose open values are still to be found. A [`Design`] has a number in every place; a draft becomes one only
//! when it gets a number for each opening, so that nothing later can work with what is undecided.

use super::check::check;
use super::key::{Key, Kind};
use super::keys::Design;
use super::missing::raw;
use super::setting::Source;
use super::units::Dimension;
use super::value::{AllValues, Entry, Given, Value, record};
use crate::catalogue::Catalogue;
use crate::diagnostic::{Diagnostic, Place};
use std::sync::Arc;

/// A value that is left open.
#[derive(Clone, Debug)]
pub struct Opening {
    /// Its key, for example `piston.bore`.
    pub path: String,
    /// What it measures.
    pub dimension: Dimension,
    /// Smallest and largest value of the key, in the unit of the design's fields.
    pub range: [f64; 2],
    /// Bounds that the user gave, in the same unit.
    pub given: Option<[f64; 2]>,
    /// Step at which a workshop would take it, in the same unit.
    pub step: f64,
    /// Where the user left it open; the end of the file when they left it out.
    pub place: Place,
    /// Whether the user wrote it.
    pub written: bool,
    table: &'static str,
    key: &'static Key,
}

/// A design with openings, or without.
#[derive(Clone, Debug)]
pub struct Draft {
    values: AllValues,
    openings: Vec<Opening>,
    catalogue: Arc<Catalogue>,
}

impl Draft {
    pub(super) fn new(
        file: &str,
        text: &str,
        values: AllValues,
        catalogue: Arc<Catalogue>,
    ) -> Result<Self, Vec<Diagnostic>> {
        let end = text.trim_end().len();
        let openings = openings(&values, &Place::in_text(file, text, end..end));
        let draft = Self { openings, values, catalogue };
        let middle: Vec<f64> = draft.openings.iter().map(|o| 0.5 * (o.range[0] + o.range[1])).collect();
        // The table of keys contradicts itself: a test keeps this from happening.
        let contradiction =
            || Diagnostic::error("swept::internal", "the keys of the design file contradict each other");
        draft.take(&middle, "", 0.0).map(|_| draft).ok_or_else(|| vec![contradiction()])
    }

    /// What is left open, in the order of the tables.
    pub fn openings(&self) -> &[Opening] {
        &self.openings
    }

    /// What was decided for every key, as [`Design::record`]; an opening stands there as `open` or as its range.
    pub fn record(&self) -> Vec<Entry> {
        record(&self.values)
    }

    /// A text of the design, for example that of `engine` and `name`; no text can be left open.
    pub fn text(&self, table: &str, key: &str) -> Option<&str> {
        match &self.values.get(table)?.get(key)?.value {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    /// The design with a number for each opening, in the order of [`Draft::openings`]; a number is taken as it is shown,
    /// with six significant digits. `target` and `residual` \[W\] say what the numbers were found for.
    ///
    /// # Errors
    /// The path of the first opening whose number is outside its key's range, or for which there is none.
    pub fn with(&self, numbers: &[f64], target: &str, residual: f64) -> Result<Design, String> {
        let missing = |(i, opening): (usize, &Opening)| {
            let fits = numbers.get(i).is_some_and(|n| (opening.range[0]..=opening.range[1]).contains(n));
            (!fits).then(|| opening.path.clone())
        };
        if let Some(path) = self.openings.iter().enumerate().find_map(missing) {
            return Err(path);
        }
        self.take(numbers, target, residual).ok_or_else(|| "engine.name".into())
    }

    fn take(&self, numbers: &[f64], target: &str, residual: f64) -> Option<Design> {
        let mut values = self.values.clone();
        for (opening, number) in self.openings.iter().zip(numbers) {
            let text = opening.dimension.show(*number);
            let value =
                check(&opening.path, &opening.key.kind, &raw(&opening.key.kind, &text), &self.catalogue)
                    .ok()?;
            let from = Source::Solved { target: target.into(), residual };
            let given = Given { value, text, from, place: opening.written.then(|| opening.place.clone()) };
            values.entry(opening.table).or_default().insert(opening.key.name, given);
        }
        Design::take(&mut values, Arc::clone(&self.catalogue))
    }

    /// The design, when nothing is open.
    ///
    /// # Errors
    /// An error for each opening.
    pub fn closed(self) -> Result<Design, Vec<Diagnostic>> {
        if self.openings.is_empty()
            && let Some(design) = self.take(&[], "", 0.0)
        {
            return Ok(design);
        }
        Err(self.openings.iter().map(still_open).collect())
    }
}

fn still_open(opening: &Opening) -> Diagnostic {
    Diagnostic::error("swept::open", format!("{} is open, and this needs a number", opening.path))
        .label("open")
        .allowed(opening.key.kind.allowed())
        .hint("settle it first: `swept size … --write-settled settled.toml`, and go on with that file")
        .at(opening.place.clone())
}

fn openings(values: &AllValues, end: &Place) -> Vec<Opening> {
    let keys = Design::TABLES.iter().flat_map(|table| table.keys.iter().map(move |key| (table.name, key)));
    let open = |(table, key): (&'static str, &'static Key)| {
        let given = values.get(table)?.get(key.name)?;
        let (Value::Open(bounds), Kind::Quantity { dimension, min, max, step: Some(step) }) =
            (&given.value, &key.kind)
        else {
            return None;
        };
        Some(Opening {
            path: format!("{table}.{}", key.name),
            dimension: *dimension,
            range: [*min, *max],
            given: *bounds,
            step: *step,
            place: given.place.clone().unwrap_or_else(|| end.clone()),
            written: given.place.is_some(),
            table,
            key,
        })
    };
    keys.filter_map(open).collect()
}
