//! How an uncertain input spreads, as it is written in a design file.

use super::keys::Spreads;
use super::missing::fill_table;
use super::units::round_to;
use super::value::Values;
use crate::diagnostic::{Diagnostic, shown};
use serde::{Deserialize, Serialize};
use std::fmt;

/// How an input spreads.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Spread {
    /// Lognormal about 1: four fifths of the draws lie between 1/`within` and `within`.
    Lognormal {
        /// Factor of the tenth and ninetieth percentile, ≥ 1.
        within: f64,
    },
    /// Even between two bounds.
    Uniform {
        /// Lower bound.
        low: f64,
        /// Upper bound.
        high: f64,
    },
    /// Known: always this.
    Fixed {
        /// The value.
        value: f64,
    },
}

/// Largest factor; beyond it nothing is known at all.
const MOST_FACTOR: f64 = 100.0;
/// Farthest that a wall may be off \[K\].
const MOST_K: f64 = 300.0;

/// Reads a spread: of a factor, or of an addition in kelvin.
///
/// # Errors
/// What cannot be read or cannot be, with what is allowed; the place is still to be added.
pub fn read_spread(kelvin: bool, text: &str) -> Result<Spread, Diagnostic> {
    let plain = text.trim();
    let number = |part: &str| number(kelvin, part).ok_or_else(|| unreadable(kelvin, text));
    if plain == "known" {
        return Ok(Spread::Fixed { value: if kelvin { 0.0 } else { 1.0 } });
    }
    if let Some(within) = plain.strip_prefix("within ").filter(|_| !kelvin) {
        let within = number(within)?;
        return if (1.0..=MOST_FACTOR).contains(&within) {
            Ok(Spread::Lognormal { within })
        } else {
            Err(out_of_range(kelvin, text, "within 1.5"))
        };
    }
    let Some((low, high)) = plain.split_once("..") else {
        let value = number(plain)?;
        return if possible(kelvin, value) {
            Ok(Spread::Fixed { value })
        } else {
            Err(out_of_range(kelvin, text, if kelvin { "-20 K" } else { "1.1" }))
        };
    };
    let (low, high) = (number(low)?, number(high)?);
    if low > high {
        let turned = format!("{}..{}", side(kelvin, high), side(kelvin, low));
        return Err(out_of_range(kelvin, text, &turned));
    }
    if possible(kelvin, low) && possible(kelvin, high) {
        Ok(Spread::Uniform { low, high })
    } else {
        Err(out_of_range(kelvin, text, if kelvin { "-40 K..0 K" } else { "0.8..1.2" }))
    }
}

/// A number, in kelvin where it is an addition.
fn number(kelvin: bool, text: &str) -> Option<f64> {
    let text = text.trim();
    let digits = if kelvin { text.strip_suffix('K')?.trim_end() } else { text };
    let plain = digits.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '+' | '-' | '.'));
    digits.parse().ok().filter(|n: &f64| plain && n.is_finite())
}

fn possible(kelvin: bool, value: f64) -> bool {
    if kelvin { value.abs() <= MOST_K } else { value > 0.0 && value <= MOST_FACTOR }
}

/// What is allowed, in words.
pub(super) fn allowed(kelvin: bool) -> String {
    if kelvin {
        format!("a range -60 K..10 K, a value -20 K, or known; at most {MOST_K} K to either side")
    } else {
        format!("within 1.5, a range 0.8..1.2, a value 1.1, or known; over 0, at most {MOST_FACTOR}")
    }
}

fn unreadable(kelvin: bool, text: &str) -> Diagnostic {
    let hint = match text.trim() {
        near if near.eq_ignore_ascii_case("known") => "write \"known\"".into(),
        _ if kelvin => "write \"-60 K..10 K\", each end with its K, or \"-20 K\"".to_owned(),
        near if near.starts_with("within") => "write \"within 1.5\"".into(),
        _ => "write \"within 1.5\" where eight in ten lie between 1/1.5 and 1.5 times what the model takes"
            .into(),
    };
    Diagnostic::error("swept::spread", format!("`{}` is not a spread", shown(text)))
        .label("cannot be read")
        .allowed(allowed(kelvin))
        .hint(hint)
}

fn out_of_range(kelvin: bool, text: &str, instead: &str) -> Diagnostic {
    Diagnostic::error("swept::range", format!("the spread `{}` cannot be", shown(text)))
        .label("out of range")
        .allowed(allowed(kelvin))
        .hint(format!("write for example \"{instead}\""))
}

fn side(kelvin: bool, value: f64) -> String {
    let value = round_to(value, 6);
    if kelvin { format!("{value} K") } else { value.to_string() }
}

/// Ninetieth percentile over the ends of an even spread.
const EVEN_P90: f64 = 0.9;

impl Spread {
    /// Tenth, fiftieth and ninetieth percentile.
    pub fn percentiles(&self) -> [f64; 3] {
        match *self {
            Self::Lognormal { within } => [1.0 / within, 1.0, within],
            Self::Uniform { low, high } => {
                [1.0 - EVEN_P90, 0.5, EVEN_P90].map(|part| low + (high - low) * part)
            }
            Self::Fixed { value } => [value; 3],
        }
    }

    /// An addition in another unit, for a unit that is `by` of this one; a factor about 1 stays as it is.
    pub fn scaled(&self, by: f64) -> Self {
        match *self {
            Self::Lognormal { .. } => *self,
            Self::Uniform { low, high } => Self::Uniform { low: low * by, high: high * by },
            Self::Fixed { value } => Self::Fixed { value: value * by },
        }
    }
}

impl Spreads {
    /// What is taken where the design says nothing.
    ///
    /// # Panics
    /// Never: the defaults of the keys can be read, which the tests of the keys make sure of.
    pub fn usual() -> Self {
        let mut values = Values::new();
        fill_table(Self::KEYS, &mut values);
        Self::take(&mut values).expect("defaults of the keys can be read")
    }
}

impl fmt::Display for Spread {
    /// As in a design file, without the K of temperatures.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Lognormal { within } => write!(f, "within {}", round_to(within, 4)),
            Self::Uniform { low, high } => write!(f, "{}..{}", round_to(low, 4), round_to(high, 4)),
            Self::Fixed { value } => write!(f, "{}", round_to(value, 4)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_notation_is_read() {
        let factor = |text| read_spread(false, text).unwrap();
        assert_eq!(factor("within 1.5"), Spread::Lognormal { within: 1.5 });
        assert_eq!(factor(" 0.8 .. 1.2"), Spread::Uniform { low: 0.8, high: 1.2 });
        assert_eq!(
            (factor("1.1"), factor("known")),
            (Spread::Fixed { value: 1.1 }, Spread::Fixed { value: 1.0 })
        );
        let kelvin = |text| read_spread(true, text).unwrap();
        assert_eq!(kelvin("-60 K..10 K"), Spread::Uniform { low: -60.0, high: 10.0 });
        assert_eq!(
            (kelvin("-20K"), kelvin("known")),
            (Spread::Fixed { value: -20.0 }, Spread::Fixed { value: 0.0 })
        );
        assert_eq!(kelvin("-60 K..10 K").percentiles(), [-53.0, -25.0, 3.0]);
    }

    #[test]
    fn what_cannot_be_is_refused_with_a_hint_that_can_be_read() {
        for (kelvin, text) in [
            (false, "x1.3"),
            (false, "within 0.5"),
            (false, "within"),
            (false, "1.2..0.8"),
            (false, "0"),
            (false, "-1..2"),
            (false, "inf"),
            (false, "within nan"),
            (false, "500"),
            (true, "-20"),
            (true, "within 20 K"),
            (true, "10 K..-10 K"),
            (true, "900 K"),
            (true, ""),
        ] {
            let said = read_spread(kelvin, text).unwrap_err();
            let hint = said.hint.unwrap();
            let fix = hint.split('"').nth(1).unwrap();
            assert!(read_spread(kelvin, fix).is_ok(), "{text}: {hint}");
        }
    }
}
