//! Checking one value against its key.

use super::key::{Kind, LONGEST_LABEL, LONGEST_NAME, LONGEST_TEXT, List};
use super::opening;
use super::quantity::{example, number_of, read_quantity};
use super::spread::read_spread;
use super::units::Dimension;
use super::value::Value;
use crate::catalogue::{Catalogue, nearest};
use crate::diagnostic::{Diagnostic, shown};

/// A value as it stands in the file or on the command line.
#[derive(Clone, Debug)]
pub enum Raw<'a> {
    /// Text.
    Text(&'a str),
    /// A whole number, as typed.
    Integer(&'a str),
    /// A number with a point or an exponent, as typed.
    Float(&'a str),
    /// A list of text.
    Texts(Vec<&'a str>),
    /// Something else, by its name, for example `true or false`.
    Other(&'static str),
}

/// Checks a value, names against the catalogue; the place is still to be added to the error.
pub(super) fn check(key: &str, kind: &Kind, raw: &Raw<'_>, book: &Catalogue) -> Result<Value, Diagnostic> {
    match (kind, raw) {
        (Kind::Count { min, max }, Raw::Integer(digits)) => check_count(key, kind, digits, *min, *max),
        (Kind::Quantity { .. }, Raw::Text(text)) if opening::asked(text) => opening::check(key, kind, text),
        (Kind::Quantity { dimension, min, max, .. }, Raw::Text(text)) => {
            check_quantity(key, kind, *dimension, text, [*min, *max]).map(Value::Number)
        }
        (Kind::Name, Raw::Text(text)) => check_name(text),
        (Kind::Text, Raw::Text(text)) => check_text(key, kind, text),
        (Kind::Choice(names), Raw::Text(text)) => check_choice(key, kind, text, names),
        (Kind::Spread { kelvin }, Raw::Text(text)) => read_spread(*kelvin, text).map(Value::Spread),
        (Kind::Listed(list, names), Raw::Text(text)) => check_listed(key, kind, text, (*list, names), book),
        (Kind::Label, Raw::Text(text)) => check_label(key, kind, text),
        (Kind::Number { min, max }, Raw::Integer(text) | Raw::Float(text)) => {
            check_number(key, kind, text, [*min, *max])
        }
        (Kind::Quantities { dimension, min, max }, Raw::Texts(texts)) => {
            let one = |text: &&str| check_quantity(key, kind, *dimension, text, [*min, *max]);
            texts.iter().map(one).collect::<Result<_, _>>().map(Value::Numbers)
        }
        (Kind::Bearing, Raw::Text(text)) => match book.bearing(text) {
            Ok(_) => Ok(Value::Text(text.trim().into())),
            Err(unknown) => Err(not_known(key, kind, text, unknown.nearest.as_deref())),
        },
        (Kind::Material, Raw::Text(text)) => match book.material(text) {
            Ok(material) => Ok(Value::Text(material.name.clone())),
            Err(unknown) => Err(not_known(key, kind, text, unknown.nearest.as_deref())),
        },
        _ => Err(wrong_type(key, kind, raw)),
    }
}

fn check_count(key: &str, kind: &Kind, digits: &str, min: usize, max: usize) -> Result<Value, Diagnostic> {
    let count = digits.replace('_', "").parse::<i128>().unwrap_or(i128::MAX);
    match usize::try_from(count) {
        Ok(count) if (min..=max).contains(&count) => Ok(Value::Count(count)),
        _ => Err(Diagnostic::error("swept::range", format!("{key} is out of range"))
            .label(format!("{} is not possible here", shown(digits)))
            .allowed(kind.allowed())
            .hint(format!("write {}", if count < min as i128 { min } else { max }))),
    }
}

/// A quantity within its range, in the unit of the fields.
pub(super) fn check_quantity(
    key: &str,
    kind: &Kind,
    dimension: Dimension,
    text: &str,
    [min, max]: [f64; 2],
) -> Result<f64, Diagnostic> {
    let value = read_quantity(dimension, text)?;
    // Bounds typed in another unit may miss by a rounding.
    let slack = 1e-9 * max.abs().max(min.abs());
    if value >= min - slack && value <= max + slack {
        return Ok(value);
    }
    let what = match dimension {
        _ if value < 0.0 && dimension != Dimension::Angle => "is negative",
        _ if value < min => "is too small",
        _ => "is too large",
    };
    Err(Diagnostic::error("swept::range", format!("{key} {what}"))
        .label(format!("{} {what}", shown(text)))
        .allowed(kind.allowed())
        .hint(likely_fix(dimension, text, value, [min, max])))
}

/// The same number in another unit when that is in range, else the nearest bound.
fn likely_fix(dimension: Dimension, text: &str, value: f64, [min, max]: [f64; 2]) -> String {
    let number = number_of(text);
    // Nobody writes 0.05 mm where 0.05 m was meant, nor many digits by a slip of the unit.
    let plain = number.len() < 8 && number.parse::<f64>().is_ok_and(|number| number >= 1.0);
    let in_range =
        |text: &String| read_quantity(dimension, text).is_ok_and(|value| value >= min && value <= max);
    let word = if dimension == Dimension::Pressure { " abs" } else { "" };
    let texts = dimension.units().iter().map(|unit| format!("{number} {}{word}", unit.symbols[0]));
    match texts.filter(|_| plain).find(in_range) {
        Some(text) => format!("did you mean \"{text}\"?"),
        None => format!(
            "the nearest that is possible is \"{}\"",
            dimension.show(if value < min { min } else { max })
        ),
    }
}

fn check_choice(key: &str, kind: &Kind, text: &str, names: &[&'static str]) -> Result<Value, Diagnostic> {
    match names.iter().find(|name| **name == text.trim()) {
        Some(name) => Ok(Value::Text((*name).into())),
        None => Err(not_known(key, kind, text, nearest(text, names.iter().copied()))),
    }
}

/// One of the usual names, or one of the user's own.
fn check_listed(
    key: &str,
    kind: &Kind,
    text: &str,
    (list, usual): (List, &[&'static str]),
    book: &Catalogue,
) -> Result<Value, Diagnostic> {
    let own = list.own(book);
    let all = || usual.iter().copied().chain(own.iter().copied());
    if let Some(name) = all().find(|name| *name == text.trim()) {
        return Ok(Value::Text(name.into()));
    }
    let said = not_known(key, kind, text, nearest(text, all()));
    let said = if own.is_empty() {
        said
    } else {
        let names: Vec<&str> = all().collect();
        said.allowed(format!("one of {}", names.join(", ")))
    };
    Err(if all().next().is_some() {
        said
    } else {
        said.hint("name a shelf file that has it: set workshop.shelf")
    })
}

fn check_label(key: &str, kind: &Kind, text: &str) -> Result<Value, Diagnostic> {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '.' | '-' | '_' | '/' | '+');
    let text = text.trim();
    let bad = text.chars().find(|c| !plain(*c));
    if bad.is_none() && !text.is_empty() && text.chars().count() <= LONGEST_LABEL {
        return Ok(Value::Text(text.into()));
    }
    let why = match bad {
        Some(c) => format!("{} does not belong into a name", c.escape_default()),
        None if text.is_empty() => "nothing here".into(),
        None => format!("{} characters", text.chars().count()),
    };
    Err(Diagnostic::error("swept::name", format!("{key}: `{}` is not a name that can be used", shown(text)))
        .label(why)
        .allowed(kind.allowed())
        .hint("write a short plain name, for example \"tea-tin\""))
}

fn check_number(key: &str, kind: &Kind, text: &str, [min, max]: [f64; 2]) -> Result<Value, Diagnostic> {
    match text.replace('_', "").parse::<f64>() {
        Ok(number) if (min..=max).contains(&number) => Ok(Value::Number(number)),
        _ => Err(Diagnostic::error("swept::range", format!("{key} is out of range"))
            .label(format!("{} is not possible here", shown(text)))
            .allowed(kind.allowed())
            .hint(format!("write a number from {min} to {max}"))),
    }
}

fn not_known(key: &str, kind: &Kind, text: &str, nearest: Option<&str>) -> Diagnostic {
    let known = match kind {
        Kind::Choice(_) => "choice",
        _ => kind.name(),
    };
    Diagnostic::error("swept::choice", format!("{key}: there is no {known} `{}`", shown(text)))
        .label(format!("not a known {known}"))
        .allowed(kind.allowed())
        .hint(nearest.map_or_else(|| "see the list".into(), |name| format!("did you mean \"{name}\"?")))
}

fn check_text(key: &str, kind: &Kind, text: &str) -> Result<Value, Diagnostic> {
    if let Some(bad) = text.chars().find(|c| c.is_control()) {
        return Err(Diagnostic::error("swept::text", format!("{key} holds a control character"))
            .label(format!("{} cannot be written on a drawing", bad.escape_default()))
            .allowed(kind.allowed())
            .hint("leave the control character out"));
    }
    let length = text.chars().count();
    if length > LONGEST_TEXT {
        return Err(Diagnostic::error("swept::text", format!("{key} is too long"))
            .label(format!("{length} characters"))
            .allowed(kind.allowed())
            .hint(format!("shorten it to {LONGEST_TEXT} characters")));
    }
    Ok(Value::Text(text.into()))
}

/// Names of devices that one operating system takes for itself, whatever the ending.
const DEVICES: [&str; 10] = ["con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "lpt1", "lpt2"];

fn check_name(text: &str) -> Result<Value, Diagnostic> {
    let safe = folder_safe(text);
    if !safe.is_empty() && safe == text && !DEVICES.contains(&text) {
        return Ok(Value::Text(text.into()));
    }
    let suggestion = if safe.is_empty() || DEVICES.contains(&safe.as_str()) { "my-engine" } else { &safe };
    Err(Diagnostic::error(
        "swept::name",
        format!("`{}` cannot be the name of a folder everywhere", shown(text)),
    )
    .label("the output folder is called so")
    .allowed(Kind::Name.allowed())
    .hint(format!("write \"{suggestion}\"")))
}

/// The nearest name in small letters, digits and single hyphens.
pub fn folder_safe(text: &str) -> String {
    let hyphens: String = text
        .to_lowercase()
        .chars()
        .map(|c| if c.is_ascii_lowercase() || c.is_ascii_digit() { c } else { '-' })
        .collect();
    let words: Vec<&str> = hyphens.split('-').filter(|word| !word.is_empty()).collect();
    let name: String =
        words.join("-").chars().skip_while(|c| !c.is_ascii_lowercase()).take(LONGEST_NAME).collect();
    name.trim_matches('-').into()
}

fn wrong_type(key: &str, kind: &Kind, raw: &Raw<'_>) -> Diagnostic {
    let (found, typed) = match raw {
        Raw::Text(text) => ("text", Some(*text)),
        Raw::Integer(text) => ("a bare number", Some(*text)),
        Raw::Float(text) => ("a bare number", Some(*text)),
        Raw::Texts(_) => ("a list", None),
        Raw::Other(name) => (*name, None),
    };
    let hint = match (kind, typed) {
        (Kind::Quantity { dimension, .. }, Some(number)) => {
            format!("write \"{}\"", example(*dimension, number))
        }
        (Kind::Quantity { dimension, min, .. }, None) => format!(
            "write a {} in quotation marks, for example \"{}\"",
            dimension.name(),
            dimension.show(*min)
        ),
        (Kind::Count { .. }, Some(text)) if text.trim().parse::<usize>().is_ok() => {
            format!("write {} without quotation marks", text.trim())
        }
        (Kind::Count { min, .. }, _) => format!("write a whole number without a unit, for example {min}"),
        (Kind::Number { .. }, Some(text)) if text.trim().parse::<f64>().is_ok() => {
            format!("write {} without quotation marks", text.trim())
        }
        (Kind::Number { min, .. }, _) => format!("write a number without a unit, for example {min}"),
        (Kind::Quantities { dimension, min, .. }, _) => {
            format!("write a list of quantities, for example [\"{}\"]", dimension.show(*min))
        }
        (Kind::List(_), _) => format!("begin every entry with a line [[{key}]]"),
        (_, Some(text)) => format!("write \"{}\"", shown(text)),
        (Kind::Spread { .. }, None) => "write \"known\", or see what is allowed".into(),
        (Kind::Choice(names) | Kind::Listed(_, names), None) if !names.is_empty() => {
            format!("write one of the choices, for example \"{}\"", names[0])
        }
        (_, None) => "write text in quotation marks".into(),
    };
    Diagnostic::error("swept::type", format!("{key} should be a {}, not {found}", kind.name()))
        .label(format!("this is {found}"))
        .allowed(kind.allowed())
        .hint(hint)
}
