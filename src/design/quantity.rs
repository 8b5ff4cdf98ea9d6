//! Reading a quantity: a number (decimal, fraction or mixed) and a unit.

use super::units::{ABSOLUTE, Dimension, GAUGE, ROOM_PA, Unit, round_to};
use crate::diagnostic::{Diagnostic, shown};

/// Significant digits that are kept after a conversion.
const DIGITS: usize = 12;

/// Reads a quantity into the unit of the design's fields.
///
/// # Errors
/// When the number or the unit is wrong or missing, or a pressure does not say whether it is absolute or gauge. The
/// place is still to be added.
pub fn read_quantity(dimension: Dimension, text: &str) -> Result<f64, Diagnostic> {
    let (number_text, rest) = split(text.trim());
    let number = read_number(number_text).map_err(|fault| bad_number(dimension, text, rest, fault))?;
    let (symbol, offset) = match dimension {
        Dimension::Pressure => pressure_unit(text, number_text, rest)?,
        _ => (rest, 0.0),
    };
    let unit = find_unit(dimension, symbol).ok_or_else(|| bad_unit(dimension, text, number_text, symbol))?;
    Ok(round_to((unit.to_field)(number) + offset, DIGITS))
}

fn find_unit(dimension: Dimension, symbol: &str) -> Option<&'static Unit> {
    dimension.units().iter().find(|unit| unit.symbols.contains(&symbol))
}

/// The number of a quantity, as typed.
pub(super) fn number_of(text: &str) -> &str {
    split(text.trim()).0
}

/// Splits at the first character of the unit.
fn split(text: &str) -> (&str, &str) {
    // `1/s` and `1/min` begin like a number.
    for symbol in ["1/s", "1/min"] {
        if let Some(number) = text.strip_suffix(symbol).filter(|number| number.ends_with(char::is_whitespace))
        {
            return (number.trim_end(), symbol);
        }
    }
    let lower = text.trim_start_matches(['+', '-']).to_lowercase();
    let word = ["infinity", "inf", "nan"].into_iter().find(|word| lower.starts_with(word));
    let skip = word.map_or(0, |word| text.len() - lower.len() + word.len());
    let at = (skip..text.len()).find(|&at| starts_unit(text, at)).unwrap_or(text.len());
    (text[..at].trim_end(), text[at..].trim_start())
}

/// Whether a unit starts at this byte. An `e` between digits belongs to the number.
fn starts_unit(text: &str, at: usize) -> bool {
    let Some(c) = text.get(at..).and_then(|rest| rest.chars().next()) else { return false };
    let before = text[..at].chars().next_back();
    let after = text[at + c.len_utf8()..].chars().next();
    let exponent = matches!(c, 'e' | 'E')
        && before.is_some_and(|c| c.is_ascii_digit() || c == '.')
        && after.is_some_and(|c| c.is_ascii_digit() || matches!(c, '+' | '-'));
    let of_number = c.is_ascii_digit() || c.is_whitespace() || matches!(c, '.' | ',' | '+' | '-' | '/' | '_');
    !exponent && !of_number
}

/// What is wrong with a number.
enum NumberFault {
    Missing,
    Comma,
    NotFinite,
    Unreadable,
}

/// Reads `27`, `2.5`, `1e-3`, `1/4` or `1 1/2`.
fn read_number(text: &str) -> Result<f64, NumberFault> {
    if text.is_empty() {
        return Err(NumberFault::Missing);
    }
    if text.contains(',') {
        return Err(NumberFault::Comma);
    }
    let number = if text.contains('/') { read_fraction(text) } else { text.parse().ok() };
    match number {
        Some(number) if number.is_finite() => Ok(number),
        Some(_) => Err(NumberFault::NotFinite),
        None => Err(NumberFault::Unreadable),
    }
}

/// Reads `1/4` or `1 1/2`, with a sign before the whole.
fn read_fraction(text: &str) -> Option<f64> {
    let (sign, text) = text.strip_prefix('-').map_or((1.0, text), |rest| (-1.0, rest));
    let (before, below) = text.split_once('/')?;
    let mut parts = before.split_whitespace();
    let (first, second) = (parts.next()?, parts.next());
    let (whole, above) = second.map_or(("0", first), |second| (first, second));
    let [whole, above, below] = [whole, above, below.trim()].map(|part| part.parse::<u32>().ok());
    let none_left = parts.next().is_none();
    let below = below.filter(|below| *below > 0 && none_left)?;
    Some(sign * (f64::from(whole?) + f64::from(above?) / f64::from(below)))
}

/// The unit of a pressure and what must be added to make it absolute \[Pa\].
fn pressure_unit<'a>(text: &str, number: &str, rest: &'a str) -> Result<(&'a str, f64), Diagnostic> {
    let (symbol, word) = rest.split_once(char::is_whitespace).map_or((rest, ""), |(a, b)| (a, b.trim()));
    match word {
        _ if ABSOLUTE.contains(&word) => Ok((symbol, 0.0)),
        _ if GAUGE.contains(&word) => Ok((symbol, ROOM_PA)),
        _ if find_unit(Dimension::Pressure, symbol).is_none() => {
            Err(bad_unit(Dimension::Pressure, text, number, symbol))
        }
        "" => Err(Diagnostic::error(
            "swept::unit",
            format!("`{}` does not say whether it is absolute or gauge", shown(text)),
        )
        .label("absolute or gauge?")
        .allowed(format!("a pressure with `abs` or `gauge`, in {}", Dimension::Pressure.unit_list()))
        .hint(format!(
            "write \"{number} {symbol} abs\", or \"{number} {symbol} gauge\" if it counts from the air of the room \
             (1.01325 bar)"
        ))),
        _ => Err(Diagnostic::error("swept::unit", format!("`{}` is neither `abs` nor `gauge`", shown(word)))
            .label("unknown word")
            .allowed(format!("a pressure with `abs` or `gauge`, in {}", Dimension::Pressure.unit_list()))
            .hint(format!("write \"{number} {symbol} abs\" or \"{number} {symbol} gauge\""))),
    }
}

/// A quantity as an example, with the usual unit.
pub fn example(dimension: Dimension, number: &str) -> String {
    let symbol = dimension.units()[0].symbols[0];
    match dimension {
        Dimension::Angle | Dimension::Ratio => format!("{number}{symbol}"),
        Dimension::Pressure => format!("{number} {symbol} abs"),
        _ => format!("{number} {symbol}"),
    }
}

fn bad_unit(dimension: Dimension, text: &str, number: &str, symbol: &str) -> Diagnostic {
    let name = dimension.name();
    let message = match symbol {
        "" => format!("`{}` has no unit", shown(text)),
        _ => format!("`{}` is not a unit of {name}", shown(symbol)),
    };
    let hint = match likely_unit(dimension, symbol) {
        Some(fix) if dimension == Dimension::Pressure => format!("write \"{number} {fix}\""),
        Some(fix) => format!("did you mean \"{number} {fix}\"?"),
        None => format!("write \"{}\"", example(dimension, number)),
    };
    Diagnostic::error("swept::unit", message)
        .label(if symbol.is_empty() { "a unit is missing" } else { "unknown unit here" })
        .allowed(format!("{name} in {}", dimension.unit_list()))
        .hint(hint)
}

/// What a wrong unit most likely stands for: other capitals, or a pressure with a letter for absolute or gauge.
fn likely_unit(dimension: Dimension, symbol: &str) -> Option<String> {
    // The ordinal sign of some keyboards looks like the degree sign.
    let lower = symbol.to_lowercase().replace('º', "°");
    let letter = match (dimension, lower.chars().next_back()) {
        (Dimension::Pressure, Some('a')) => Some("abs"),
        (Dimension::Pressure, Some('g')) => Some("gauge"),
        _ => None,
    };
    let all = || dimension.units().iter().flat_map(|unit| unit.symbols);
    let same = |wanted: &str| all().find(|known| known.to_lowercase() == wanted);
    let cut = |word| Some(format!("{} {word}", same(&lower[..lower.len() - 1])?));
    letter.and_then(cut).or_else(|| {
        let fix =
            same(&lower).or_else(|| all().find(|known| lower == format!("{}s", known.to_lowercase())))?;
        Some(if dimension == Dimension::Pressure { format!("{fix} abs") } else { (*fix).into() })
    })
}

fn bad_number(dimension: Dimension, text: &str, rest: &str, fault: NumberFault) -> Diagnostic {
    let usual = || example(dimension, if dimension == Dimension::Ratio { "0.5" } else { "27" });
    let (message, hint) = match fault {
        NumberFault::Missing => {
            (format!("`{}` has no number", shown(text)), format!("write \"{}\"", usual()))
        }
        NumberFault::Comma => {
            let fixed = text.trim().replacen(',', ".", 1);
            (format!("`{}` has a comma in its number", shown(text)), format!("write \"{}\"", shown(&fixed)))
        }
        NumberFault::NotFinite => (
            format!("`{}` is not a finite number", shown(text)),
            format!("write a number, for example \"{}\"", usual()),
        ),
        NumberFault::Unreadable => (
            format!("the number of `{}` cannot be read", shown(text)),
            format!("write a decimal number or a fraction, for example \"{}\" or \"1 1/2 in\"", usual()),
        ),
    };
    let hint = if dimension == Dimension::Length { hint } else { hint.replace(" or \"1 1/2 in\"", "") };
    let unit = if rest.is_empty() { "a unit" } else { "its unit" };
    Diagnostic::error("swept::number", message)
        .label("not a number that can be used")
        .allowed(format!("a number and {unit}: {} in {}", dimension.name(), dimension.unit_list()))
        .hint(hint)
}
