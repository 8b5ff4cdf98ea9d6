//! What changed between two builds, part by part, as data and in a builder's words.

use super::beside::short;
use super::decided::{DecidedChange, moved};
use super::geometry;
use super::manifest::{Allowed, Dimension, MakeOrBuy, Manifest, PartEntry};
use super::verdict::{Verdict, near, same_shape, verdict};
use std::collections::BTreeMap;

/// How a part differs.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// It was not in the old build.
    New,
    /// It is no longer needed.
    Gone,
    /// It is in both and differs.
    Changed(Verdict),
}

/// A part that differs.
#[derive(Clone, Debug, PartialEq)]
pub struct PartChange {
    /// Name of the part.
    pub part: String,
    /// Made or bought.
    pub make_or_buy: MakeOrBuy,
    /// How it differs.
    pub kind: Kind,
    /// Named sizes that moved, came or went.
    pub sizes: Vec<SizeChange>,
    /// Named sizes of which only the tolerance changed.
    pub tolerances: Vec<ToleranceChange>,
    /// Other differences in words: material, quantity, designation, shape.
    pub other: Vec<String>,
}

/// A named size that moved.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeChange {
    /// Name.
    pub name: String,
    /// `mm`, `deg` or `1`.
    pub unit: String,
    /// Old value in `unit`; none for a size that came.
    pub from: Option<f64>,
    /// New value in `unit`; none for a size that went.
    pub to: Option<f64>,
    /// Path of the engine dimension that decides it.
    pub origin: Option<String>,
}

/// A tolerance that changed while the size stayed.
#[derive(Clone, Debug, PartialEq)]
pub struct ToleranceChange {
    /// Name of the size.
    pub name: String,
    /// Old tolerance.
    pub from: Allowed,
    /// New tolerance.
    pub to: Allowed,
}

/// All parts that differ, in the order of the new build, those gone at the end.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Changes {
    /// The parts that differ.
    pub parts: Vec<PartChange>,
    /// How many parts are the same in both.
    pub same: usize,
    /// The engine's own numbers that moved, in the order of decision.
    pub decided: Vec<DecidedChange>,
}

/// Compares two builds.
pub fn compare(old: &Manifest, new: &Manifest) -> Changes {
    let before: BTreeMap<&str, &PartEntry> = old.parts.iter().map(|p| (p.name.as_str(), p)).collect();
    let mut out = Changes { decided: moved(&old.decided, &new.decided), ..Changes::default() };
    for part in &new.parts {
        match before.get(part.name.as_str()) {
            None => out.parts.push(bare(part, Kind::New)),
            Some(was) => match changed(was, part) {
                Some(change) => out.parts.push(change),
                None => out.same += 1,
            },
        }
    }
    let gone = |p: &&PartEntry| new.parts.iter().all(|n| n.name != p.name);
    out.parts.extend(old.parts.iter().filter(gone).map(|p| bare(p, Kind::Gone)));
    out
}

/// A part that came or went.
fn bare(part: &PartEntry, kind: Kind) -> PartChange {
    PartChange {
        part: part.name.clone(),
        make_or_buy: part.make_or_buy,
        kind,
        sizes: Vec::new(),
        tolerances: Vec::new(),
        other: Vec::new(),
    }
}

/// The differences of a part that is in both, if any.
pub(super) fn changed(old: &PartEntry, new: &PartEntry) -> Option<PartChange> {
    let mut out = bare(new, Kind::Changed(verdict(old, new)));
    let was = |name: &str| old.dimensions.iter().find(|d| d.name == name);
    for d in &new.dimensions {
        match was(&d.name) {
            Some(w) if near(w.value, d.value) && w.unit == d.unit => {
                if w.tolerance != d.tolerance {
                    let (from, to) = (w.tolerance.clone(), d.tolerance.clone());
                    out.tolerances.push(ToleranceChange { name: d.name.clone(), from, to });
                }
            }
            w => out.sizes.push(size(w, Some(d), d)),
        }
    }
    let went = |d: &&Dimension| new.dimensions.iter().all(|n| n.name != d.name);
    out.sizes.extend(old.dimensions.iter().filter(went).map(|d| size(Some(d), None, d)));
    out.other = words(old, new);
    out.other.extend(geometry::changes(&old.controls, &new.controls));
    if out.other.is_empty() && out.sizes.is_empty() && !same_shape(old, new) {
        out.other.push("shape changed".to_owned());
    }
    (!(out.sizes.is_empty() && out.tolerances.is_empty() && out.other.is_empty())).then_some(out)
}

/// A size that moved, came or went.
fn size(from: Option<&Dimension>, to: Option<&Dimension>, of: &Dimension) -> SizeChange {
    SizeChange {
        name: of.name.clone(),
        unit: of.unit.clone(),
        from: from.map(|d| d.value),
        to: to.map(|d| d.value),
        origin: of.origin.clone(),
    }
}

/// Differences that are no sizes.
fn words(old: &PartEntry, new: &PartEntry) -> Vec<String> {
    let none = "none".to_owned();
    let designation = |p: &PartEntry| p.designation.clone().unwrap_or(none.clone());
    let count = |p: &PartEntry| p.quantity.to_string();
    let supply = |p: &PartEntry| match p.make_or_buy {
        MakeOrBuy::Make => "made".to_owned(),
        MakeOrBuy::Buy => "bought".to_owned(),
    };
    [
        ("material", old.material.clone(), new.material.clone()),
        ("quantity", count(old), count(new)),
        ("designation", designation(old), designation(new)),
        ("supply", supply(old), supply(new)),
    ]
    .into_iter()
    .filter(|(_, a, b)| a != b)
    .map(|(what, a, b)| format!("{what} {a} -> {b}"))
    .collect()
}

impl Changes {
    /// One line for each number of the engine that moved and for each part that differs, in a builder's words; empty
    /// when nothing does.
    pub fn text(&self) -> String {
        let numbers = self.decided.iter().map(|d| d.text() + "\n");
        numbers.chain(self.parts.iter().map(|p| p.text() + "\n")).collect()
    }
}

impl PartChange {
    /// The line of this part, for example `piston-crank: throw 16 mm -> 13.5 mm (remake)`.
    pub fn text(&self) -> String {
        let mut what: Vec<String> = self.sizes.iter().map(SizeChange::text).collect();
        what.extend(self.tolerances.iter().map(ToleranceChange::text));
        what.extend(self.other.iter().cloned());
        let anew = |made: &'static str| if self.make_or_buy == MakeOrBuy::Make { made } else { "buy" };
        match &self.kind {
            Kind::New => format!("{}: new ({})", self.part, anew("make")),
            Kind::Gone => format!("{}: no longer needed", self.part),
            Kind::Changed(verdict) => {
                let verdict = match verdict {
                    Verdict::Keep => "keep",
                    Verdict::Rework => "rework",
                    Verdict::Remake => anew("remake"),
                };
                format!("{}: {} ({verdict})", self.part, what.join(", "))
            }
        }
    }
}

impl SizeChange {
    /// For example `throw 16 mm -> 13.5 mm`.
    fn text(&self) -> String {
        let value = |v: f64| match self.unit.as_str() {
            "1" => short(v),
            unit => format!("{} {unit}", short(v)),
        };
        match (self.from, self.to) {
            (Some(a), Some(b)) => format!("{} {} -> {}", self.name, value(a), value(b)),
            (None, Some(b)) => format!("{} {} is new", self.name, value(b)),
            (Some(a), None) => format!("{} {} is gone", self.name, value(a)),
            (None, None) => self.name.clone(),
        }
    }
}

impl ToleranceChange {
    /// For example `bore-diameter tolerance H7 -> H8`.
    pub(super) fn text(&self) -> String {
        format!("{} tolerance {} -> {}", self.name, allowed(&self.from), allowed(&self.to))
    }
}

/// A tolerance in short.
fn allowed(a: &Allowed) -> String {
    match a {
        Allowed::General => "general".to_owned(),
        Allowed::Fit { code, .. } => code.clone(),
        Allowed::Limits { upper, lower } => format!("{upper:+}/{lower:+} mm"),
    }
}
