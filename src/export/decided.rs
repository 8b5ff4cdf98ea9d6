//! The engine's own numbers in the manifest, and which of them moved between two builds, and why.

use super::beside::short;
use crate::sizing::ledger::Ledger;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// A decided number of the engine.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Decided {
    /// Path, for example `displacer.length`.
    pub path: String,
    /// Value in `unit`.
    pub value: f64,
    /// Symbol of the unit.
    pub unit: String,
    /// Where it came from, in words.
    pub origin: String,
}

/// A decided number that moved.
#[derive(Clone, Debug, PartialEq)]
pub struct DecidedChange {
    /// Value before, in the unit of `now`; none for a number that came.
    pub from: Option<f64>,
    /// The number as it is now.
    pub now: Decided,
}

/// All decided numbers, in the order of decision.
pub fn decided(ledger: &Ledger) -> Vec<Decided> {
    let entry = |(path, d): (&str, &crate::sizing::dimension::Dimension)| Decided {
        path: path.to_owned(),
        value: (d.value * 1e9).round() / 1e9,
        unit: d.unit.symbol().to_owned(),
        origin: d.origin.to_string(),
    };
    ledger.iter().map(entry).collect()
}

/// Numbers whose value moved.
pub fn moved(old: &[Decided], new: &[Decided]) -> Vec<DecidedChange> {
    let before: BTreeMap<&str, f64> = old.iter().map(|d| (d.path.as_str(), d.value)).collect();
    let change = |now: &Decided| {
        let from = before.get(now.path.as_str()).copied();
        (from != Some(now.value)).then(|| DecidedChange { from, now: now.clone() })
    };
    new.iter().filter_map(change).collect()
}

impl DecidedChange {
    /// For example `displacer.length 109 mm -> 104 mm (rule: cylinder - stroke - clearances)`.
    pub fn text(&self) -> String {
        let Decided { path, value, unit, origin } = &self.now;
        match self.from {
            Some(from) => format!("{path} {} {unit} -> {} {unit} ({origin})", short(from), short(*value)),
            None => format!("{path} {} {unit} is new ({origin})", short(*value)),
        }
    }
}
