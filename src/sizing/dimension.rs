//! A decided number: value, unit and where it came from.

use serde::{Deserialize, Serialize};
use std::fmt;

/// Unit of a decided number, written in files by its symbol.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Unit {
    /// Length \[mm\].
    #[serde(rename = "mm")]
    Millimetre,
    /// Length \[µm\].
    #[serde(rename = "um")]
    Micrometre,
    /// Area \[mm²\].
    #[serde(rename = "mm2")]
    SquareMillimetre,
    /// Volume \[mm³\].
    #[serde(rename = "mm3")]
    CubicMillimetre,
    /// Absolute temperature \[K\].
    #[serde(rename = "K")]
    Kelvin,
    /// Absolute pressure or stress \[Pa\].
    #[serde(rename = "Pa")]
    Pascal,
    /// Angle \[degree\].
    #[serde(rename = "deg")]
    Degree,
    /// Speed of rotation \[turns a minute\].
    #[serde(rename = "rpm")]
    Rpm,
    /// Power \[W\].
    #[serde(rename = "W")]
    Watt,
    /// Energy \[J\].
    #[serde(rename = "J")]
    Joule,
    /// Force \[N\].
    #[serde(rename = "N")]
    Newton,
    /// Torque \[N m\].
    #[serde(rename = "N m")]
    NewtonMetre,
    /// Mass \[kg\].
    #[serde(rename = "kg")]
    Kilogram,
    /// Inertia of what turns \[kg m²\].
    #[serde(rename = "kg m2")]
    KilogramSquareMetre,
    /// Volume in a time \[L/min\].
    #[serde(rename = "L/min")]
    LitreAMinute,
    /// Speed of a stream \[m/s\].
    #[serde(rename = "m/s")]
    MetreASecond,
    /// Running time \[h\].
    #[serde(rename = "h")]
    Hour,
    /// A whole number of things.
    #[serde(rename = "count")]
    Count,
    /// A ratio without unit.
    #[serde(rename = "1")]
    Ratio,
}

impl Unit {
    /// Symbol as in files; the same text that serde writes.
    pub fn symbol(self) -> &'static str {
        match self {
            Unit::Millimetre => "mm",
            Unit::Micrometre => "um",
            Unit::SquareMillimetre => "mm2",
            Unit::CubicMillimetre => "mm3",
            Unit::Kelvin => "K",
            Unit::Pascal => "Pa",
            Unit::Degree => "deg",
            Unit::Rpm => "rpm",
            Unit::Watt => "W",
            Unit::Joule => "J",
            Unit::Newton => "N",
            Unit::NewtonMetre => "N m",
            Unit::Kilogram => "kg",
            Unit::KilogramSquareMetre => "kg m2",
            Unit::LitreAMinute => "L/min",
            Unit::MetreASecond => "m/s",
            Unit::Hour => "h",
            Unit::Count => "count",
            Unit::Ratio => "1",
        }
    }
}

/// A formula in words or signs, and who published it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Formula {
    /// The formula, for example `stroke / 2`.
    pub text: String,
    /// Author, year and equation or table; `None` where plain geometry gives it.
    pub source: Option<String>,
}

impl From<&str> for Formula {
    /// A formula that follows from plain geometry.
    fn from(text: &str) -> Self {
        Self { text: text.into(), source: None }
    }
}

impl From<(&str, &str)> for Formula {
    /// A formula and its source.
    fn from((text, source): (&str, &str)) -> Self {
        Self { text: text.into(), source: Some(source.into()) }
    }
}

/// Where a number came from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Origin {
    /// The user said so.
    Given {
        /// Where: `pump.toml:14` or `--set`.
        place: String,
    },
    /// The design file left it out and a fixed value stands in.
    Default {
        /// Why this value.
        why: String,
    },
    /// Read from a standard.
    Standard {
        /// Number of the standard, for example `ISO 273`.
        number: String,
        /// Table or row in it.
        table: String,
    },
    /// Follows from other numbers by a formula.
    Rule {
        /// The formula.
        formula: String,
        /// Who published it; absent where plain geometry gives it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<String>,
        /// Paths of the numbers that go into it.
        inputs: Vec<String>,
    },
    /// Found by search for a target.
    Solved {
        /// What was to be met.
        target: String,
        /// How far the result is off it, in the target's own unit.
        residual: f64,
        /// Paths of the numbers that go into it.
        inputs: Vec<String>,
    },
}

impl Origin {
    /// Paths of the numbers that this one hangs on.
    pub fn inputs(&self) -> &[String] {
        match self {
            Origin::Rule { inputs, .. } | Origin::Solved { inputs, .. } => inputs,
            Origin::Given { .. } | Origin::Default { .. } | Origin::Standard { .. } => &[],
        }
    }
}

impl fmt::Display for Origin {
    /// One line without the inputs.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Origin::Given { place } => write!(f, "given ({place})"),
            Origin::Default { why } => write!(f, "default: {why}"),
            Origin::Standard { number, table } => write!(f, "standard {number}, {table}"),
            Origin::Rule { formula, source: Some(source), .. } => write!(f, "rule: {formula} [{source}]"),
            Origin::Rule { formula, source: None, .. } => write!(f, "rule: {formula}"),
            Origin::Solved { target, residual, .. } => {
                write!(f, "solved for {target}, off by {}", Plain(*residual))
            }
        }
    }
}

/// One decided number.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Dimension {
    /// Value in `unit`.
    pub value: f64,
    /// Unit of the value.
    pub unit: Unit,
    /// Where it came from.
    pub origin: Origin,
}

impl fmt::Display for Dimension {
    /// Value and unit for people, for example `28 mm`; ratios and counts carry no unit.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.unit {
            Unit::Ratio | Unit::Count => write!(f, "{}", Plain(self.value)),
            unit => write!(f, "{} {}", Plain(self.value), unit.symbol()),
        }
    }
}

/// A number with at most six decimals and no trailing zeros; very small and very large ones as powers of ten.
struct Plain(f64);

impl fmt::Display for Plain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let size = self.0.abs();
        if size != 0.0 && !(1e-3..1e9).contains(&size) {
            return write!(f, "{:.3e}", self.0);
        }
        let text = format!("{:.6}", self.0 + 0.0); // no minus before zero
        f.write_str(text.trim_end_matches('0').trim_end_matches('.'))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Unit; 19] = [
        Unit::Millimetre,
        Unit::Micrometre,
        Unit::SquareMillimetre,
        Unit::CubicMillimetre,
        Unit::Kelvin,
        Unit::Pascal,
        Unit::Degree,
        Unit::Rpm,
        Unit::Watt,
        Unit::Joule,
        Unit::Newton,
        Unit::NewtonMetre,
        Unit::Kilogram,
        Unit::KilogramSquareMetre,
        Unit::LitreAMinute,
        Unit::MetreASecond,
        Unit::Hour,
        Unit::Count,
        Unit::Ratio,
    ];

    #[test]
    fn files_and_people_see_the_same_symbol() {
        for unit in ALL {
            assert_eq!(serde_json::to_value(unit).unwrap(), unit.symbol());
        }
    }

    #[test]
    fn numbers_are_shown_without_noise() {
        let shown = |value, unit| {
            Dimension { value, unit, origin: Origin::Given { place: "--set".into() } }.to_string()
        };
        assert_eq!(shown(0.1 + 0.2, Unit::Millimetre), "0.3 mm");
        assert_eq!(shown(101_325.0, Unit::Pascal), "101325 Pa");
        assert_eq!(shown(3.0, Unit::Count), "3");
        assert_eq!(shown(0.0, Unit::Kelvin), "0 K");
        assert_eq!(shown(2.5e-7, Unit::Kilogram), "2.500e-7 kg");
    }
}
