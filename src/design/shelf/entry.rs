//! Taking the values of one entry, over those of the entry that it is like.

use super::super::read::Reader;
use super::super::value::{Given, Value, Values};
use super::list_of;
use crate::catalogue::UnknownEntry;
use crate::diagnostic::{Diagnostic, Place, shown};

/// One entry while it is taken: what is missing is noted, and told all at once.
pub(super) struct Entry {
    list: &'static str,
    values: Values,
    missing: Vec<&'static str>,
}

/// What is wrong with an entry, and where.
pub(super) type Wrong = Box<Diagnostic>;

impl Entry {
    pub fn new(list: &'static str, values: Values) -> Self {
        Self { list, values, missing: Vec::new() }
    }

    fn given(&self, key: &str) -> Option<&Given> {
        self.values.get(key)
    }

    /// A number that is there or that the other entry has.
    pub fn number(&mut self, key: &'static str, known: Option<f64>) -> f64 {
        match (self.own(key), known) {
            (Some(number), _) | (None, Some(number)) => number,
            (None, None) => {
                self.missing.push(key);
                f64::NAN
            }
        }
    }

    /// A number that is there.
    pub fn own(&self, key: &str) -> Option<f64> {
        match self.given(key)?.value {
            Value::Number(number) => Some(number),
            Value::Count(count) => Some(count as f64),
            _ => None,
        }
    }

    /// Numbers that are there or that the other entry has.
    pub fn numbers(&mut self, key: &'static str, known: Option<Vec<f64>>) -> Vec<f64> {
        let own = match self.given(key).map(|given| &given.value) {
            Some(Value::Numbers(numbers)) => Some(numbers.clone()),
            _ => None,
        };
        let mut numbers = own.or(known).unwrap_or_else(|| {
            self.missing.push(key);
            Vec::new()
        });
        numbers.sort_by(f64::total_cmp);
        numbers.dedup();
        numbers
    }

    /// A text that is there.
    pub fn text(&self, key: &str) -> Option<String> {
        match &self.given(key)?.value {
            Value::Text(text) => Some(text.clone()),
            _ => None,
        }
    }

    /// A text that is there or that the other entry has.
    pub fn text_or(&mut self, key: &'static str, known: Option<String>) -> String {
        self.text(key).or(known).unwrap_or_else(|| {
            self.missing.push(key);
            String::new()
        })
    }

    /// Entries of a list in the entry.
    pub fn list(&self, key: &str) -> Option<&[Values]> {
        match &self.given(key)?.value {
            Value::List(items) => Some(items),
            _ => None,
        }
    }

    /// Notes that a key is missing.
    pub fn lacks(&mut self, key: &'static str) {
        self.missing.push(key);
    }

    /// Place of a key, or of whatever stands first.
    fn place(&self, key: &str) -> Option<Place> {
        let first =
            || self.values.values().filter_map(|given| given.place.as_ref()).min_by_key(|p| p.span.start);
        self.given(key).and_then(|given| given.place.as_ref()).or_else(first).cloned()
    }

    /// Something to say at a key.
    fn at(&self, key: &str, said: Diagnostic) -> Wrong {
        Box::new(match self.place(key) {
            Some(place) => said.at(place),
            None => said,
        })
    }

    /// Where the entry stands, for example `shelf.toml:12`.
    pub fn line(&self, reader: &Reader<'_>) -> String {
        let line = self.place("name").map_or(1, |place| place.line);
        format!("{}:{line}", reader.file)
    }

    /// The entry that this one is like: the named one, else the known one of the same name.
    pub fn base<T: Clone>(
        &self,
        find: impl Fn(&str) -> Result<T, UnknownEntry>,
        same: impl Fn(&str) -> Option<T>,
    ) -> Result<Option<T>, Wrong> {
        let Some(like) = self.text("like") else {
            return Ok(self.text("name").and_then(|name| same(&name)));
        };
        find(&like).map(Some).map_err(|unknown| {
            let hint = unknown
                .nearest
                .as_ref()
                .map_or("leave `like` out".into(), |near| format!("did you mean \"{near}\"?"));
            let said = Diagnostic::error(
                "swept::choice",
                format!("{}.like: there is no {} `{}`", self.list, unknown.kind, shown(&like)),
            )
            .label("not known")
            .allowed(format!("a {} of the program, or one that stands before in this file", unknown.kind))
            .hint(hint);
            self.at("like", said)
        })
    }

    /// What is missing, told at the entry.
    pub fn whole(&self) -> Result<(), Wrong> {
        if self.missing.is_empty() {
            return Ok(());
        }
        let names = self.missing.join(", ");
        let keys = list_of(self.list).keys;
        let likeable = keys.iter().any(|key| key.name == "like");
        let hint = if likeable {
            format!("add {names}, or like = \"...\" with the name of a known one")
        } else {
            format!("add {names}")
        };
        let said = Diagnostic::error(
            "swept::missing",
            format!("{}: {names} must be given for something new", self.list),
        )
        .label("this is not in the program's tables")
        .allowed(format!("the keys {}", keys.iter().map(|key| key.name).collect::<Vec<_>>().join(", ")))
        .hint(hint);
        Err(self.at("name", said))
    }

    /// Two values that contradict each other, unless `sound`.
    pub fn together(&self, sound: bool, key: &str, message: &str, allowed: &str) -> Result<(), Wrong> {
        if sound {
            return Ok(());
        }
        let said = Diagnostic::error("swept::together", format!("{}.{key}: {message}", self.list))
            .label("contradicts the rest of the entry")
            .allowed(allowed.to_owned())
            .hint("measure again, or look it up in the maker's table");
        Err(self.at(key, said))
    }
}
