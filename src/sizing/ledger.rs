//! The ledger of decided numbers: each path is decided once, in one place, with its origin.

use super::dimension::{Dimension, Formula, Origin, Unit};
use super::why;
use serde::de::{Error as _, MapAccess, Visitor};
use serde::ser::SerializeMap;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::collections::BTreeMap;
use std::fmt;

/// Why an entry was refused or a question could not be answered.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LedgerError {
    /// The path was decided before; two places that decide one number would drift apart.
    #[error("{path} is decided twice: {first}, and again {second}")]
    Twice {
        /// The path.
        path: String,
        /// Origin that stands in the ledger.
        first: String,
        /// Origin that came later.
        second: String,
    },
    /// A rule names an input that is not decided yet.
    #[error("{path} hangs on {input}, which is not decided{}", meant(.nearest))]
    UnknownInput {
        /// The path that was to be decided.
        path: String,
        /// The missing input.
        input: String,
        /// Nearest known path.
        nearest: Option<String>,
    },
    /// Nobody decided this path.
    #[error("there is no dimension {path}{}", meant(.nearest))]
    Unknown {
        /// The path asked for.
        path: String,
        /// Nearest known path.
        nearest: Option<String>,
    },
    /// The value is not a number, or is infinite.
    #[error("{path} came out as {value}, which is no finite number")]
    NotFinite {
        /// The path.
        path: String,
        /// The value.
        value: f64,
    },
}

fn meant(nearest: &Option<String>) -> String {
    nearest.as_ref().map_or_else(String::new, |n| format!("; did you mean {n}?"))
}

/// All decided numbers in the order of decision. Inputs must be decided first, so chains have no circles.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ledger {
    entries: Vec<(String, Dimension)>,
    places: BTreeMap<String, usize>,
}

impl Ledger {
    /// An empty ledger.
    pub fn new() -> Self {
        Self::default()
    }

    /// Records what the user said at `place` (`pump.toml:14`, `--set`), and gives the value back.
    ///
    /// # Errors
    /// [`LedgerError::Twice`], [`LedgerError::NotFinite`]; so for all recording methods.
    pub fn given(&mut self, path: &str, value: f64, unit: Unit, place: &str) -> Result<f64, LedgerError> {
        self.record(path, Dimension { value, unit, origin: Origin::Given { place: place.into() } })
    }

    /// Records a fixed value that stands in for what the design left out, and gives it back.
    ///
    /// # Errors
    /// As [`Ledger::given`].
    pub fn assumed(&mut self, path: &str, value: f64, unit: Unit, why: &str) -> Result<f64, LedgerError> {
        self.record(path, Dimension { value, unit, origin: Origin::Default { why: why.into() } })
    }

    /// Records a value read from a table of a standard, and gives it back.
    ///
    /// # Errors
    /// As [`Ledger::given`].
    pub fn standard(
        &mut self,
        path: &str,
        value: f64,
        unit: Unit,
        number: &str,
        table: &str,
    ) -> Result<f64, LedgerError> {
        let origin = Origin::Standard { number: number.into(), table: table.into() };
        self.record(path, Dimension { value, unit, origin })
    }

    /// Records what follows from `inputs` by a formula (a text, or a text and its source), and gives it back.
    ///
    /// # Errors
    /// As [`Ledger::given`], and [`LedgerError::UnknownInput`].
    pub fn rule(
        &mut self,
        path: &str,
        value: f64,
        unit: Unit,
        formula: impl Into<Formula>,
        inputs: &[&str],
    ) -> Result<f64, LedgerError> {
        let Formula { text, source } = formula.into();
        self.record(
            path,
            Dimension { value, unit, origin: Origin::Rule { formula: text, source, inputs: owned(inputs) } },
        )
    }

    /// Records the result of a search for `target` that ended `residual` away from it, and gives it back.
    ///
    /// # Errors
    /// As [`Ledger::rule`]; a residual that is no finite number is refused too.
    pub fn solved(
        &mut self,
        path: &str,
        value: f64,
        unit: Unit,
        target: &str,
        residual: f64,
        inputs: &[&str],
    ) -> Result<f64, LedgerError> {
        let origin = Origin::Solved { target: target.into(), residual, inputs: owned(inputs) };
        self.record(path, Dimension { value, unit, origin })
    }

    /// Records a finished entry and gives its value back.
    ///
    /// # Errors
    /// As [`Ledger::rule`].
    pub fn record(&mut self, path: &str, dimension: Dimension) -> Result<f64, LedgerError> {
        self.check(path, &dimension)?;
        let value = dimension.value;
        self.places.insert(path.into(), self.entries.len());
        self.entries.push((path.into(), dimension));
        Ok(value)
    }

    fn check(&self, path: &str, dimension: &Dimension) -> Result<(), LedgerError> {
        if let Some(first) = self.get(path) {
            let (first, second) = (first.origin.to_string(), dimension.origin.to_string());
            return Err(LedgerError::Twice { path: path.into(), first, second });
        }
        let residual = if let Origin::Solved { residual, .. } = dimension.origin { residual } else { 0.0 };
        if let Some(value) = [dimension.value, residual].into_iter().find(|v| !v.is_finite()) {
            return Err(LedgerError::NotFinite { path: path.into(), value });
        }
        match dimension.origin.inputs().iter().find(|i| !self.places.contains_key(*i)) {
            None => Ok(()),
            Some(input) => Err(LedgerError::UnknownInput {
                path: path.into(),
                input: input.clone(),
                nearest: self.nearest(input),
            }),
        }
    }

    /// The entry of a path, if it is decided.
    pub fn get(&self, path: &str) -> Option<&Dimension> {
        self.places.get(path).map(|&i| &self.entries[i].1)
    }

    /// The entry of a path.
    ///
    /// # Errors
    /// [`LedgerError::Unknown`] with the nearest known path.
    pub fn find(&self, path: &str) -> Result<&Dimension, LedgerError> {
        self.get(path).ok_or_else(|| LedgerError::Unknown { path: path.into(), nearest: self.nearest(path) })
    }

    /// All entries in the order of decision.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Dimension)> {
        self.entries.iter().map(|(path, dimension)| (path.as_str(), dimension))
    }

    /// Number of entries.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether nothing is decided yet.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// The whole chain of a path down to what was given, as an indented tree with a line for each number.
    ///
    /// # Errors
    /// [`LedgerError::Unknown`] with the nearest known path.
    pub fn why(&self, path: &str) -> Result<String, LedgerError> {
        why::tree(self, path)
    }

    /// The known path that looks most like `path`, if any does.
    fn nearest(&self, path: &str) -> Option<String> {
        // Whoever leaves the table out (`stroke`) means the last word of a path.
        let word = |known| if path.contains('.') { known } else { last_word(known) };
        let likeness = |known| strsim::normalized_damerau_levenshtein(word(known), path);
        let best = self.iter().map(|(known, _)| (likeness(known), known));
        let best = best.max_by(|a, b| a.0.total_cmp(&b.0))?;
        (best.0 > 0.5).then(|| best.1.into())
    }
}

fn last_word(path: &str) -> &str {
    path.rsplit('.').next().unwrap_or(path)
}

fn owned(paths: &[&str]) -> Vec<String> {
    paths.iter().map(|p| (*p).into()).collect()
}

impl Serialize for Ledger {
    /// A map from path to entry, in the order of decision.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.len()))?;
        self.iter().try_for_each(|(path, dimension)| map.serialize_entry(path, dimension))?;
        map.end()
    }
}

impl<'de> Deserialize<'de> for Ledger {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(Reader)
    }
}

/// Reads a ledger entry by entry under the same rules as recording.
struct Reader;

impl<'de> Visitor<'de> for Reader {
    type Value = Ledger;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a map from dimension path to value, unit and origin")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Ledger, A::Error> {
        let mut ledger = Ledger::new();
        while let Some((path, dimension)) = map.next_entry::<String, Dimension>()? {
            ledger.record(&path, dimension).map_err(A::Error::custom)?;
        }
        Ok(ledger)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pump() -> Ledger {
        let mut l = Ledger::new();
        let bore = l.given("piston.bore", 64.0, Unit::Millimetre, "pump.toml:14").unwrap();
        let stroke = l.given("piston.stroke", 28.0, Unit::Millimetre, "--set").unwrap();
        l.assumed("piston.rings", 2.0, Unit::Count, "two rings leak less than one").unwrap();
        let area = 0.25 * std::f64::consts::PI * bore * bore;
        l.rule("piston.area", area, Unit::SquareMillimetre, "pi/4 bore^2", &["piston.bore"]).unwrap();
        l.rule("drive.throw", stroke / 2.0, Unit::Millimetre, "stroke / 2", &["piston.stroke"]).unwrap();
        l.rule(
            "piston.swept",
            area * stroke,
            Unit::CubicMillimetre,
            "area x stroke",
            &["piston.area", "piston.stroke"],
        )
        .unwrap();
        l
    }

    #[test]
    fn recording_gives_the_value_back_and_keeps_order() {
        let mut l = pump();
        assert_eq!(l.standard("bolt.hole", 5.5, Unit::Millimetre, "ISO 273", "medium, M5"), Ok(5.5));
        assert_eq!(l.solved("gap", 0.4, Unit::Millimetre, "least loss", 1e-9, &["piston.area"]), Ok(0.4));
        assert_eq!(l.iter().next().unwrap().0, "piston.bore");
        assert_eq!(l.iter().last().unwrap().0, "gap");
        assert_eq!(l.get("drive.throw").unwrap().value, 14.0);
        assert!(l.len() == 8 && !l.is_empty());
    }

    #[test]
    fn a_second_decision_is_refused_and_names_both() {
        let mut l = pump();
        let error = l.assumed("piston.bore", 60.0, Unit::Millimetre, "guess").unwrap_err();
        assert_eq!(
            error.to_string(),
            "piston.bore is decided twice: given (pump.toml:14), and again default: guess"
        );
        assert_eq!(l.get("piston.bore").unwrap().value, 64.0);
    }

    #[test]
    fn an_input_nobody_decided_is_refused_with_the_nearest_path() {
        let mut l = pump();
        let error = l.rule("x", 1.0, Unit::Millimetre, "bore", &["piston.boer"]).unwrap_err();
        assert_eq!(
            error.to_string(),
            "x hangs on piston.boer, which is not decided; did you mean piston.bore?"
        );
        assert!(l.get("x").is_none());
        assert!(l.rule("x", 1.0, Unit::Millimetre, "x", &["x"]).is_err(), "a number cannot hang on itself");
    }

    #[test]
    fn what_is_no_number_is_refused() {
        let mut l = pump();
        assert!(matches!(
            l.given("x", f64::NAN, Unit::Millimetre, "--set"),
            Err(LedgerError::NotFinite { .. })
        ));
        let residual = l.solved("x", 1.0, Unit::Millimetre, "t", f64::INFINITY, &[]);
        assert!(matches!(residual, Err(LedgerError::NotFinite { .. })));
    }

    #[test]
    fn an_unknown_path_gets_a_likely_fix_or_none() {
        let l = pump();
        assert_eq!(
            l.find("piston.stoke").unwrap_err().to_string(),
            "there is no dimension piston.stoke; did you mean piston.stroke?"
        );
        let short = l.find("throws").unwrap_err().to_string();
        assert_eq!(short, "there is no dimension throws; did you mean drive.throw?");
        assert_eq!(l.find("q").unwrap_err(), LedgerError::Unknown { path: "q".into(), nearest: None });
    }

    #[test]
    fn a_ledger_survives_its_file_and_bad_files_are_refused() {
        let l = pump();
        let text = serde_json::to_string(&l).unwrap();
        assert_eq!(serde_json::from_str::<Ledger>(&text).unwrap(), l);
        let json: serde_json::Value = serde_json::from_str(&text).unwrap();
        assert_eq!(json["piston.area"]["origin"]["kind"], "rule");
        assert_eq!(json["piston.area"]["unit"], "mm2");
        assert_eq!(json.as_object().unwrap().keys().next().unwrap(), "piston.bore");
        let dangling =
            r#"{"a":{"value":1,"unit":"mm","origin":{"kind":"rule","formula":"b","inputs":["b"]}}}"#;
        assert!(serde_json::from_str::<Ledger>(dangling).is_err());
    }
}
