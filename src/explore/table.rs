//! The result of a sweep: a row for each point, in the order of the points.

use super::output::{OUTPUTS, Output};
use super::shard::Shard;
use std::collections::{BTreeMap, BTreeSet};

/// Relative difference up to which two outputs are the same: the last figure of the table.
const SAME: f64 = 1e-6;

/// What a table belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// Version of the program that made it.
    pub version: String,
    /// Name of the engine.
    pub engine: String,
    /// Hash of version, design, overrides and inputs: shards with the same hash belong together.
    pub sweep: String,
    /// The share that it holds.
    pub shard: Shard,
    /// Points of the whole sweep.
    pub total: usize,
}

/// Head of an input.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Key of the design.
    pub path: String,
    /// Unit of its values; empty for counts and words.
    pub unit: String,
}

impl Column {
    /// A value with its unit, for example `27 mm` or `90°`.
    pub(super) fn told(&self, value: &str) -> String {
        let gap = if matches!(self.unit.as_str(), "" | "°") { "" } else { " " };
        format!("{value}{gap}{}", self.unit)
    }
}

/// One point.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Values of the inputs without their units.
    pub inputs: Vec<String>,
    /// Model that gave the numbers; empty for a point that is refused.
    pub model: String,
    /// A number for each of [`OUTPUTS`]; `None` when the model does not know it or the point is refused.
    pub outputs: Vec<Option<f64>>,
    /// Codes of the rules that the point breaks, with blanks between them; empty for an engine that can be.
    pub refused: String,
    /// The first of them in words.
    pub why: String,
}

impl Row {
    /// A point that breaks rules.
    pub(super) fn refused(inputs: Vec<String>, refused: String, why: String) -> Self {
        Self { inputs, model: String::new(), outputs: vec![None; OUTPUTS.len()], refused, why }
    }
}

/// All points of a sweep or of one share of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What it belongs to.
    pub mark: Mark,
    /// Heads of the inputs.
    pub inputs: Vec<Column>,
    /// The points.
    pub rows: Vec<Row>,
}

impl Table {
    /// The row that has most of an output, the first of equals; `None` when the output should not be large or is the same
    /// everywhere.
    pub fn best(&self, output: &Output) -> Option<(&Row, f64)> {
        let column = output.index();
        let known = self.rows.iter().filter_map(|row| Some((row, row.outputs[column]?)));
        let best = known.reduce(|best, next| if next.1 > best.1 { next } else { best })?;
        (output.more_is_better && self.constant(output).is_none()).then_some(best)
    }

    /// The value of an output that is the same everywhere, to the figures that the table holds.
    pub fn constant(&self, output: &Output) -> Option<f64> {
        let mut values = self.rows.iter().filter_map(|row| row.outputs[output.index()]);
        let first = values.next()?;
        values.all(|value| (value - first).abs() <= SAME * first.abs()).then_some(first)
    }

    /// Whether any row knows an output.
    pub fn knows(&self, output: &Output) -> bool {
        self.rows.iter().any(|row| row.outputs[output.index()].is_some())
    }

    /// Outputs that some row knows.
    pub fn known(&self) -> Vec<&'static Output> {
        OUTPUTS.iter().filter(|output| self.knows(output)).collect()
    }

    /// How many points break which rules, the most frequent first.
    pub fn refusals(&self) -> Vec<(&str, usize)> {
        let mut counts = BTreeMap::new();
        let refused = self.rows.iter().filter(|row| !row.refused.is_empty());
        refused.for_each(|row| *counts.entry(row.refused.as_str()).or_insert(0) += 1);
        let mut all: Vec<(&str, usize)> = counts.into_iter().collect();
        all.sort_by_key(|(code, count)| (usize::MAX - count, *code));
        all
    }

    /// Names of the models that gave the numbers.
    pub fn models(&self) -> BTreeSet<&str> {
        self.rows.iter().map(|row| row.model.as_str()).filter(|model| !model.is_empty()).collect()
    }

    /// A row's inputs in words, for example `piston.stroke 27 mm`.
    pub fn place(&self, row: &Row) -> String {
        let told = |(column, value): (&Column, &String)| format!("{} {}", column.path, column.told(value));
        self.inputs.iter().zip(&row.inputs).map(told).collect::<Vec<_>>().join(", ")
    }
}
