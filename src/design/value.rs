//! Values that were read and checked, and how the typed design takes them.

use super::choice::*;
use super::keys::{Accepted, Design, StockItem};
use super::setting::{Setting, Source};
use super::spread::Spread;
use crate::diagnostic::{Diagnostic, Place};
use std::collections::BTreeMap;

/// A checked value.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A quantity in the unit of the fields.
    Number(f64),
    /// A quantity that is left open, with the bounds that the user gave, in the unit of the fields.
    Open(Option<[f64; 2]>),
    /// A whole number.
    Count(usize),
    /// Quantities in the unit of the fields.
    Numbers(Vec<f64>),
    /// Text, a name or a choice.
    Text(String),
    /// How an uncertain input spreads.
    Spread(Spread),
    /// A list of tables.
    List(Vec<Values>),
}

/// A checked value with where it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The value.
    pub value: Value,
    /// As it was typed.
    pub text: String,
    /// Where it came from.
    pub from: Source,
    /// Its place, unless it is a default.
    pub place: Option<Place>,
}

/// Values of a table by key.
pub type Values = BTreeMap<&'static str, Given>;

/// Values of the whole file by table.
pub type AllValues = BTreeMap<&'static str, Values>;

/// What was decided for one key.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Table and key, for example `piston.stroke`.
    pub path: String,
    /// The value as typed, or the default's text; `None` when the key is left to sizing.
    pub text: Option<String>,
    /// Where it came from; `None` when the key is left to sizing.
    pub from: Option<Source>,
    /// Its place in what the user wrote, if they wrote it.
    pub place: Option<Place>,
}

/// What was decided for every key.
pub(super) fn record(values: &AllValues) -> Vec<Entry> {
    let keys =
        Design::TABLES.iter().flat_map(|table| table.keys.iter().map(move |key| (table.name, key.name)));
    keys.map(|(table, key)| {
        let given = values.get(table).and_then(|values| values.get(key));
        Entry {
            path: format!("{table}.{key}"),
            text: given.map(|given| given.text.clone()),
            from: given.map(|given| given.from.clone()),
            place: given.and_then(|given| given.place.clone()),
        }
    })
    .collect()
}

impl Design {
    /// What was decided for a key, for example `piston.stroke`; `None` when there is no such key.
    pub fn entry(&self, path: &str) -> Option<&Entry> {
        self.record.iter().find(|entry| entry.path == path)
    }

    /// Place of a key that the user gave.
    pub fn place(&self, path: &str) -> Option<&Place> {
        self.entry(path)?.place.as_ref()
    }

    /// A diagnostic of a later step, at the place where the user wrote the key that it is about. When nobody wrote the
    /// key, the diagnostic stays without a place.
    #[must_use]
    pub fn at(&self, path: &str, diagnostic: Diagnostic) -> Diagnostic {
        match self.place(path) {
            Some(place) => diagnostic.at(place.clone()),
            None => diagnostic,
        }
    }
}

/// A field of the typed design.
pub(super) trait Field: Sized {
    /// Takes its value; `None` when it is missing or of another type.
    fn take(values: &mut Values, key: &str) -> Option<Self>;
}

/// A type that a checked value can become.
pub(super) trait Plain: Sized {
    fn from_value(value: Value) -> Option<Self>;
}

impl<T: Plain> Field for Setting<T> {
    fn take(values: &mut Values, key: &str) -> Option<Self> {
        let given = values.remove(key)?;
        Some(Self { value: T::from_value(given.value)?, from: given.from })
    }
}

impl<T: Plain> Field for Option<Setting<T>> {
    fn take(values: &mut Values, key: &str) -> Option<Self> {
        if values.contains_key(key) { Setting::take(values, key).map(Some) } else { Some(None) }
    }
}

/// Takes a list of tables; none is an empty list.
fn list<T>(values: &mut Values, key: &str, take: impl Fn(&mut Values) -> Option<T>) -> Option<Vec<T>> {
    match values.remove(key).map(|given| given.value) {
        Some(Value::List(items)) => items.into_iter().map(|mut item| take(&mut item)).collect(),
        Some(_) => None,
        None => Some(Vec::new()),
    }
}

impl Field for Vec<StockItem> {
    fn take(values: &mut Values, key: &str) -> Option<Self> {
        list(values, key, StockItem::take)
    }
}

impl Field for Vec<Accepted> {
    fn take(values: &mut Values, key: &str) -> Option<Self> {
        list(values, key, Accepted::take)
    }
}

impl Plain for f64 {
    fn from_value(value: Value) -> Option<Self> {
        if let Value::Number(number) = value { Some(number) } else { None }
    }
}

impl Plain for Spread {
    fn from_value(value: Value) -> Option<Self> {
        if let Value::Spread(spread) = value { Some(spread) } else { None }
    }
}

impl Plain for usize {
    fn from_value(value: Value) -> Option<Self> {
        if let Value::Count(count) = value { Some(count) } else { None }
    }
}

impl Plain for String {
    fn from_value(value: Value) -> Option<Self> {
        if let Value::Text(text) = value { Some(text) } else { None }
    }
}

macro_rules! plain_choices {
    ($($name:ident),+) => {
        $(impl Plain for $name {
            fn from_value(value: Value) -> Option<Self> {
                String::from_value(value).and_then(|name| Self::from_name(&name))
            }
        })+
    };
}

plain_choices!(
    Layout,
    LoadKind,
    BeltSection,
    CycleChoice,
    GlandKind,
    ColdSeal,
    PistonSeal,
    RegeneratorKind,
    StockShape,
    StepSchema,
    DxfVersion,
    TemplatePaper,
    Sheet,
    Projection,
    Units
);
