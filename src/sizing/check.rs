//! One check of a builder: a number against what is wanted, with the rule's source.

use super::dimension::Unit;
use serde::{Deserialize, Serialize};

/// Least wall wanted beside and behind a hole, and least that is borne \[mm\]; common practice, no source.
pub const WALL_MM: [f64; 2] = [1.5, 0.8];

/// How a check came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum State {
    /// As wanted.
    Pass,
    /// Short of what is wanted, within what can be borne.
    Warn,
    /// Beyond what can be borne.
    Fail,
}

impl State {
    /// As files write it.
    pub fn word(self) -> &'static str {
        match self {
            State::Pass => "pass",
            State::Warn => "warn",
            State::Fail => "fail",
        }
    }
}

/// Which side of the bound is good.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sense {
    /// The value should be the bound or more.
    AtLeast,
    /// The value should be the bound or less.
    AtMost,
}

/// One check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Check {
    /// Stable name in kebab case.
    pub name: String,
    /// What was compared, in plain words.
    pub what: String,
    /// What the engine has, in `unit`.
    pub value: f64,
    /// What it is held against, in `unit`: what is wanted, or for a fail what can be borne.
    pub bound: f64,
    /// Which side of the bound is good.
    pub sense: Sense,
    /// Unit of both.
    pub unit: Unit,
    /// How it came out.
    pub state: State,
    /// Who published the rule, or `common practice, no source`.
    pub source: String,
    /// Path of the decided number behind it.
    pub path: String,
    /// Names of the parts that it is about.
    #[serde(default)]
    pub parts: Vec<String>,
    /// What would mend it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub hint: String,
    /// Why a fail was accepted in the design file; absent where none was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub accepted: Option<String>,
}

/// What stands for endless, so that files hold numbers.
const ENDLESS: f64 = 1e12;
/// Rounding that no workshop sees, so that a value decided to be the bound passes.
const HAIR: f64 = 1e-9;

impl Check {
    /// A check that passes from `wanted` on and fails below `limit`.
    pub fn at_least(name: &str, what: &str, value: f64, unit: Unit, wanted: f64, limit: f64) -> Self {
        let reaches = |bound: f64| value >= bound - HAIR * bound.abs();
        Self::new(name, what, value, unit, Sense::AtLeast, [wanted, limit], reaches)
    }

    /// A check that passes up to `wanted` and fails above `limit`.
    pub fn at_most(name: &str, what: &str, value: f64, unit: Unit, wanted: f64, limit: f64) -> Self {
        let reaches = |bound: f64| value <= bound + HAIR * bound.abs();
        Self::new(name, what, value, unit, Sense::AtMost, [wanted, limit], reaches)
    }

    fn new(
        name: &str,
        what: &str,
        value: f64,
        unit: Unit,
        sense: Sense,
        [wanted, limit]: [f64; 2],
        reaches: impl Fn(f64) -> bool,
    ) -> Self {
        // a value that is no number reaches nothing
        let (state, bound) = match (reaches(wanted), reaches(limit)) {
            (true, _) => (State::Pass, wanted),
            (false, true) => (State::Warn, wanted),
            (false, false) => (State::Fail, limit),
        };
        Self {
            name: name.into(),
            what: what.into(),
            value: if value.is_nan() { 0.0 } else { value.clamp(-ENDLESS, ENDLESS) },
            bound,
            sense,
            unit,
            state,
            source: String::new(),
            path: String::new(),
            parts: Vec::new(),
            hint: String::new(),
            accepted: None,
        }
    }

    /// With the rule's source.
    #[must_use]
    pub fn source(mut self, source: &str) -> Self {
        self.source = source.into();
        self
    }

    /// With the path of the number behind it.
    #[must_use]
    pub fn at(mut self, path: &str) -> Self {
        self.path = path.into();
        self
    }

    /// With the parts that it is about.
    #[must_use]
    pub fn of(mut self, parts: &[&str]) -> Self {
        self.parts = parts.iter().map(|p| (*p).into()).collect();
        self
    }

    /// With what would mend it.
    #[must_use]
    pub fn hint(mut self, hint: &str) -> Self {
        self.hint = hint.into();
        self
    }

    /// The bound in words, for example `97 MPa`.
    pub fn bound_shown(&self) -> String {
        shown(self.bound, self.unit)
    }

    /// The figures in words, for example `12.3 MPa, at most 97 MPa`.
    pub fn figures(&self) -> String {
        let side = match self.sense {
            Sense::AtLeast => "at least",
            Sense::AtMost => "at most",
        };
        format!("{}, {side} {}", shown(self.value, self.unit), shown(self.bound, self.unit))
    }
}

/// A value as people say it: stress in MPa, temperature in °C, four figures.
fn shown(value: f64, unit: Unit) -> String {
    let (number, symbol) = match unit {
        Unit::Pascal => (value * 1e-6, "MPa"),
        Unit::Kelvin => (value - 273.15, "°C"),
        Unit::Count | Unit::Ratio => (value, ""),
        other => (value, other.symbol()),
    };
    format!("{} {symbol}", figures(number)).trim_end().to_owned()
}

/// At most four figures that count, no zeros behind.
fn figures(number: f64) -> String {
    let whole = if number == 0.0 { 0 } else { number.abs().log10().floor() as i32 };
    let decimals = (3 - whole).clamp(0, 3) as usize;
    let text = format!("{number:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_state_follows_the_side_of_both_bounds() {
        let least = |v| Check::at_least("gap", "gap", v, Unit::Millimetre, 0.5, 0.2).state;
        assert_eq!([least(0.5), least(0.3), least(0.1)], [State::Pass, State::Warn, State::Fail]);
        let most = |v| Check::at_most("stress", "stress", v, Unit::Pascal, 5e7, 1e8).state;
        assert_eq!([most(5e7), most(7e7), most(1.1e8)], [State::Pass, State::Warn, State::Fail]);
        assert_eq!(least(f64::NAN), State::Fail);
    }

    #[test]
    fn figures_are_those_of_the_trade() {
        let stress = Check::at_most("a", "a", 1.2346e7, Unit::Pascal, 9.7e7, 9.7e7);
        assert_eq!(stress.figures(), "12.35 MPa, at most 97 MPa");
        let gap = Check::at_least("a", "a", 0.05, Unit::Millimetre, 0.2, 0.1);
        assert_eq!(gap.figures(), "0.05 mm, at least 0.1 mm");
        let heat = Check::at_most("a", "a", 473.15, Unit::Kelvin, 673.15, 673.15);
        assert_eq!(heat.figures(), "200 °C, at most 400 °C");
        let life = Check::at_least("a", "a", 123_456.0, Unit::Hour, 2000.0, 500.0);
        assert_eq!(life.figures(), "123456 h, at least 2000 h");
    }
}
